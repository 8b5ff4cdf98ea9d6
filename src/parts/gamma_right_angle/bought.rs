//! Bought parts of this layout.

use crate::parts::bought::{
    bush, of_block, of_drive, of_gland, of_joints, of_rods, screw, sealing_compound, steel, supplies,
    thread_sealant,
};
use crate::parts::part::Part;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// The whole list.
pub fn parts(e: &Engine, own: &RightAngle) -> Vec<Part> {
    let (g, back, plug) = (&own.guide, &own.back, own.passage.plug);
    let (t, [plate_mm, back_mm]) = (e.drive.bracket_screw, own.bracket.screw_mm);
    let mut all = of_drive(e, 2);
    all.extend(of_gland(e, "cooler plate"));
    all.extend([
        bush("rod-guide-bush", "Bush of the rod guide", &g.bush, g.bush_length_mm, 1),
        bush("guide-bush", "Guide bush of the back plate", &back.bush, back.bush_length_mm, 1),
    ]);
    all.extend(of_joints(e, "Screw of the rod guide"));
    all.extend([
        screw("bracket-screw", "Screw of cooler plate and bracket", t, plate_mm, 4),
        screw("back-plate-screw", "Screw of back plate and bracket", t, back_mm, 4),
    ]);
    all.extend(of_block(e, &own.block));
    all.extend(of_rods(e, 1));
    let designation = format!("ISO 4026 {}x{}", plug.designation, plug.major_mm);
    all.push(steel("passage-plug", "Plug of the passage", designation, 1));
    all.extend(supplies(e, &own.block));
    all.extend([thread_sealant("plug of the passage"), sealing_compound("transfer tube")]);
    all
}
