//! Bought parts of this layout.

use super::{layout, lead, tensioner};
use crate::parts::bought::{bush, buy, of_block, of_drive, of_gland, of_joints, of_rods, screw, supplies};
use crate::parts::part::Part;
use crate::parts::pulley;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// The whole list.
pub fn parts(e: &Engine, own: &TwinCrank) -> Vec<Part> {
    let (b, back) = (&own.belt, &own.back);
    let belt = format!("{} belt, {} mm long, {} mm wide", b.section, b.length_mm, b.width_mm);
    let bracket_mm = layout::bracket_screw_mm(e, own);
    let journal = e.drive.journal_bearing.bore_mm;
    let mut all = of_drive(e, 4);
    all.extend(of_gland(e, "cooler plate"));
    all.extend([
        bush("guide-bush", "Guide bush of the back plate", &back.bush, back.bush_length_mm, 2),
        buy("timing-belt", "Timing belt", belt, "nbr", 1),
    ]);
    let capped = e.gland.oring.is_some();
    all.extend(
        of_joints(e, "Screw of the gland cap").into_iter().filter(|p| capped || p.name != "gland-screw"),
    );
    all.push(screw("bracket-screw", "Screw of the crank bracket", e.drive.bracket_screw, bracket_mm, 4));
    all.extend(of_block(e, &own.block));
    all.extend(of_rods(e, 2));
    all.push(pulley::set_screw(b, journal, "pulley-set-screw", "Set screw of the timing pulley", 1));
    all.extend(lead::bought(&own.lead));
    all.extend(tensioner::bought(&own.tensioner));
    all.extend(supplies(e, &own.block));
    all
}
