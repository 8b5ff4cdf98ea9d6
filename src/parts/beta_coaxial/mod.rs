//! The parts of layout `beta-coaxial`.

mod assembly;
mod bought;
mod case;
mod cooler;
mod crank;
mod cylinder;
mod end_plates;
mod head;
mod joints;
mod piston;
mod steps;

use super::gland::ring_cap;
use super::part::{Part, PartSet};
use super::{
    base, displacer, drive, flywheel, joints as shared, piston_envelope, regenerator, rings, screwed, spacer,
    with_blank,
};
use crate::design::Workshop;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Said on every part that holds the pressure.
const HOLDS_PRESSURE: &str = "Holds pressure: may be pressure equipment in law. Have it checked under your local code before it is filled; test with water, not with air; relief valve and gauge fitted.";

/// How the matrix is wound.
const WIND: &str = "Wind tight on the liner, slip the canister over it, twist the ends flat; a ring of coarse mesh at either end keeps the way free.";

fn pressed(part: Part) -> Part {
    part.caution(HOLDS_PRESSURE)
}

/// All parts, their joints and their places.
pub fn part_set(e: &Engine, own: &BetaCoaxial, shop: &Workshop, crank_angle_deg: f64) -> PartSet {
    let common = shared::Patterns::of(e);
    let p = joints::Patterns::of(e, own);
    let seal = &own.case.seal;
    let pin = [e.drive.crankpin_bearing.bore_mm, drive::pin_collar_diameter_mm(e)];
    let mut parts = vec![
        pressed(head::hot_cap(e, own, &common)),
        head::liner(e, own),
        head::canister(own),
        pressed(cooler::part(e, own, &common)),
        displacer::shell(e),
        displacer::base(e),
        displacer::rod(e),
        pressed(cylinder::part(e, own, &common, &p)),
        with_blank(e, piston::part(e, own, &p), piston_envelope(e), shop),
        piston::yoke(e, own, &p),
        pressed(case::part(e, own, &p)),
        pressed(end_plates::front(e, own, &p)),
        pressed(end_plates::rear(e, own, &p)),
        ring_cap(
            ["seal-cap", "Seal cap"],
            seal.cap_mm,
            e.drive.journal_bearing.bore_mm,
            &p.seal,
            ["seal.cap_diameter", &e.cold.material],
        ),
        with_blank(e, crank::outer_web(e, own), crank::outer_envelope(e, own), shop),
        with_blank(e, crank::inner_web(e, own), crank::inner_envelope(own), shop),
    ];
    parts.extend(crank::pins(e, own));
    parts.extend([
        spacer::ring("pin-spacer", "Pin spacer", pin, drive::pin_collar_mm(e), "drive.con_rod_thickness")
            .times(3),
        drive::con_rod(e).times(3),
        drive::clevis(e).times(1),
    ]);
    let at_yoke = parts.iter().position(|part| part.name == "piston-yoke").unwrap_or(parts.len());
    parts.splice(at_yoke..at_yoke, rings::parts(e));
    parts.extend(flywheel::parts(e));
    parts.extend(base::parts(e));
    parts.extend(regenerator::pair(e, &own.head.regenerator, WIND));
    parts.extend(joints::gaskets(e, own, &common, &p));
    parts.extend(bought::parts(e, own));
    PartSet {
        parts,
        joints: joints::list(e, own, &common, &p),
        screws: joints::screws(e, own, &common, &p, assembly::crown_mm(e, own, crank_angle_deg)),
        instances: assembly::instances(e, own, crank_angle_deg),
        overlaps: std::iter::once(screwed("displacer-rod", "clevis")).chain(rings::overlap(e)).collect(),
        steps: steps::steps(e, own),
        hot_end_down: false,
    }
}
