//! The parts of layout `gamma-right-angle`.

mod assembly;
mod bought;
mod bracket;
mod cooler_plate;
mod joints;
mod plates;
mod steps;
mod tube;

use super::part::PartSet;
use super::{Lists, crank_envelope, joints as shared, piston_envelope, with_blank, with_piston_rod};
use super::{block, cold_cylinder, displacer, drive, guide, hot_cap, piston, spacer};
use crate::design::Workshop;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::drive::COLLAR_MM;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Journal length from the web, collar included \[mm\].
fn journal_mm(e: &Engine, own: &RightAngle) -> f64 {
    COLLAR_MM + e.shaft_end.end_mm - own.bracket.front_y_mm
}

/// All parts, their joints and their places.
pub fn part_set(e: &Engine, own: &RightAngle, shop: &Workshop, crank_angle_deg: f64) -> PartSet {
    let common = shared::Patterns::of(e);
    let p = joints::Patterns::of(e, own);
    let d = &e.drive;
    let long = journal_mm(e, own);
    let pin = [d.crankpin_bearing.bore_mm, drive::pin_collar_diameter_mm(e)];
    let parts = vec![
        hot_cap::part(e, &common.hot),
        cold_cylinder::part(e, &common),
        cooler_plate::part(e, own, &common, &p),
        guide::part(e, &own.guide, &own.block.material, &common),
        displacer::shell(e),
        displacer::base(e),
        displacer::rod(e),
        block::part(e, &own.block, &p.studs),
        plates::head(e, own, &p.studs),
        tube::part(own),
        with_blank(e, piston::part(e), piston_envelope(e), shop),
        piston::rod(e),
        plates::back(e, own, &p),
        bracket::part(e, own, &p),
        with_blank(
            e,
            drive::crank(e, "crank", "Crank", &d.piston, long, 2),
            crank_envelope(e, d.piston.throw_mm, long, 2),
            shop,
        ),
        spacer::ring("pin-spacer", "Pin spacer", pin, drive::pin_collar_mm(e), "drive.rod_offset"),
        drive::con_rod(e),
        drive::clevis(e),
    ];
    let lists = Lists {
        gaskets: shared::gaskets(e, &own.block, &common, &p.studs),
        bought: bought::parts(e, own),
        joints: joints::list(e, own, &common, &p),
        screws: joints::screws(e, own, &common, &p),
        instances: assembly::instances(e, own, crank_angle_deg),
        steps: steps::steps(e, own),
    };
    with_piston_rod(e, parts, lists)
}
