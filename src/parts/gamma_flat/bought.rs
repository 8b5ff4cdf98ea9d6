//! Bought parts of this layout.

use crate::parts::bought::{bush, of_block, of_drive, of_gland, of_joints, of_rods, screw, steel, supplies};
use crate::parts::part::Part;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_flat::Flat;

/// The whole list.
pub fn parts(e: &Engine, own: &Flat) -> Vec<Part> {
    let (g, back, b) = (&own.guide, &own.back, &own.bracket);
    let mut all = of_drive(e, 2);
    all.extend(of_gland(e, "cooler plate"));
    all.extend([
        bush("rod-guide-bush", "Bush of the rod guide", &g.bush, g.bush_length_mm, 1),
        bush("guide-bush", "Guide bush of the back plate", &back.bush, back.bush_length_mm, 1),
    ]);
    all.extend(of_joints(e, "Screw of the rod guide"));
    all.push(screw("bracket-screw", "Screw of the crank bracket", b.screw, b.screw_mm, 4));
    all.extend(of_block(e, &own.block));
    all.extend(of_rods(e, 2));
    let set_screw = format!("ISO 4026 {}x6", own.shaft.set_screw.designation);
    all.push(steel("crank-set-screw", "Set screw of the piston crank", set_screw, 1));
    all.extend(supplies(e, &own.block));
    all
}
