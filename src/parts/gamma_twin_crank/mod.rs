//! The parts of layout `gamma-twin-crank`.

mod assembly;
mod back_plate;
mod bought;
mod bracket;
mod joints;
pub mod layout;
mod lead;
mod steps;
mod tensioner;

use super::cooler_plate::Carries;
use super::part::PartSet;
use super::{Lists, crank_envelope, joints as shared, piston_envelope, with_blank, with_piston_rod};
use super::{block, cold_cylinder, cooler_plate, displacer, drive, gland, hot_cap, piston, pulley};
use crate::design::Workshop;
use crate::shape::Vector3;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// All parts, their joints and their places.
pub fn part_set(e: &Engine, own: &TwinCrank, shop: &Workshop, crank_angle_deg: f64) -> PartSet {
    let common = shared::Patterns::of(e);
    let p = joints::Patterns::of(e, own);
    let d = &e.drive;
    let carries = Carries {
        cooler: &own.cooler,
        block: &own.block,
        centre: Vector3::new(own.centres_mm, 0.0, 0.0),
        studs: &p.studs,
        channels: own.channels.as_ref(),
        gland_thread: e.gland.oring.is_some().then_some("gland-cap-thread"),
    };
    let [first, second] = layout::journal_mm(e, own);
    let parts = vec![
        hot_cap::part(e, &common.hot),
        cold_cylinder::part(e, &common),
        cooler_plate::part(e, &carries, &common, Vec::new()),
        gland::cap(e, &common, &own.block.material),
        displacer::shell(e),
        displacer::base(e),
        displacer::rod(e),
        block::part(e, &own.block, &p.studs),
        with_blank(e, piston::part(e), piston_envelope(e), shop),
        piston::rod(e),
        back_plate::part(own, &p),
        bracket::part(e, own, &p.bracket),
        with_blank(
            e,
            drive::crank(e, "displacer-crank", "Displacer crank", &d.displacer, first, 1),
            crank_envelope(e, d.displacer.throw_mm, first, 1),
            shop,
        ),
        with_blank(
            e,
            drive::crank(e, "piston-crank", "Piston crank", &d.piston, second, 1),
            crank_envelope(e, d.piston.throw_mm, second, 1),
            shop,
        ),
        drive::con_rod(e),
        drive::clevis(e),
        pulley::timing(&own.belt, d.journal_bearing.bore_mm),
        lead::pulley(&own.belt, &own.lead, d.journal_bearing.bore_mm),
        lead::hub(&own.lead, d.journal_bearing.bore_mm),
    ];
    let mut parts = parts;
    parts.extend(tensioner::parts(&own.tensioner));
    if e.gland.oring.is_none() {
        // no ring to hold: no cap
        parts.retain(|part| part.name != "gland-cap");
    }
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
