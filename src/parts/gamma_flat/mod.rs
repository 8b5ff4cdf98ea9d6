//! The parts of layout `gamma-flat`.

mod assembly;
mod back_plate;
mod bought;
mod bracket;
mod clamped_crank;
mod joints;
mod steps;

use super::cooler_plate::Carries;
use super::part::PartSet;
use super::{Lists, crank_envelope, joints as shared, piston_envelope, with_blank, with_piston_rod};
use super::{block, cold_cylinder, cooler_plate, displacer, drive, guide, hot_cap, piston, spacer};
use crate::design::Workshop;
use crate::shape::Vector3;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::drive::web_back_mm;
use crate::sizing::layouts::gamma_flat::Flat;

/// Play between the shaft's end and the ground of its seat \[mm\].
const SEAT_PLAY_MM: f64 = 0.2;

/// y of the clamped crank's face towards the flywheel \[mm\].
fn clamped_y(e: &Engine, own: &Flat) -> f64 {
    own.centres_mm - e.drive.con_rod_thickness_mm / 2.0 - e.drive.side_gap_mm - own.shaft.crank_mm
}

/// Shaft from the displacer's web to the end of its seat in the clamped crank, collar included \[mm\].
fn shaft_mm(e: &Engine, own: &Flat) -> f64 {
    clamped_y(e, own) + own.shaft.seat_mm - SEAT_PLAY_MM - web_back_mm(&e.drive)
}

/// End float of the shaft \[mm\] (common practice, no source).
pub const END_FLOAT_MM: f64 = 0.2;

/// Ring between the rear bearing and the spigot of the flywheel's hub, which holds the shaft lengthwise \[mm\]; `None` for a
/// wheel that the builder has.
fn end_ring_mm(e: &Engine, own: &Flat) -> Option<f64> {
    let made = e.flywheel.made.as_ref()?;
    let spigot = e.shaft_end.wheel_mm + made.width_mm - made.hub.spigot_mm[1];
    Some(spigot - own.bracket.front_y_mm - e.drive.bracket_mm - END_FLOAT_MM)
}

/// All parts, their joints and their places.
pub fn part_set(e: &Engine, own: &Flat, shop: &Workshop, crank_angle_deg: f64) -> PartSet {
    let common = shared::Patterns::of(e);
    let p = joints::Patterns::of(e, own);
    let (d, stuff, long) = (&e.drive, &own.block.material, shaft_mm(e, own));
    let journal = d.journal_bearing.bore_mm;
    let carries = Carries {
        cooler: &own.cooler,
        block: &own.block,
        centre: Vector3::new(0.0, own.centres_mm, 0.0),
        studs: &p.studs,
        channels: own.channels.as_ref(),
        gland_thread: Some("rod-guide-thread"),
    };
    let feet = p.bracket.tapped("bracket-thread", 0.0, 0.0, 0.0, 1.0, own.bracket.thread_mm);
    let collar = [journal, journal + drive::COLLAR_WIDER_MM];
    let parts = vec![
        hot_cap::part(e, &common.hot),
        cold_cylinder::part(e, &common),
        cooler_plate::part(e, &carries, &common, feet),
        guide::part(e, &own.guide, stuff, &common),
        displacer::shell(e),
        displacer::base(e),
        displacer::rod(e),
        block::part(e, &own.block, &p.studs),
        with_blank(e, piston::part(e), piston_envelope(e), shop),
        piston::rod(e),
        back_plate::part(own, &p.studs),
        bracket::part(e, own, &p.bracket),
        with_blank(
            e,
            drive::crank(e, "displacer-crank", "Displacer crank with shaft", &d.displacer, long, 1),
            crank_envelope(e, d.displacer.throw_mm, long, 1),
            shop,
        ),
        with_blank(e, clamped_crank::part(e, own), clamped_crank::envelope(e, own), shop),
        spacer::ring("shaft-spacer", "Shaft spacer", collar, own.shaft.spacer_mm, "bracket.front"),
        drive::con_rod(e),
        drive::clevis(e),
    ];
    let mut parts = parts;
    parts.extend(
        end_ring_mm(e, own)
            .map(|long| spacer::ring("shaft-end-ring", "Shaft end ring", collar, long, "shaft.wheel_place")),
    );
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
