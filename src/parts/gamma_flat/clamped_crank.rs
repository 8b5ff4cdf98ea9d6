//! Crank of the piston: clamped on the shaft at the lead. Datum: shaft axis, face towards the flywheel; X to the pin.

use crate::parts::blanks::Envelope;
use crate::parts::drive::{moves, pin, pin_thread};
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, at, bore, fit, made, named, tapped_through};
use crate::parts::part::Part;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, End, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_flat::Flat;

/// A bar with a round end about the pin and a flat one for the set screw.
fn outline(e: &Engine, own: &Flat) -> Outline {
    let (throw, r) = (e.drive.piston.throw_mm, own.shaft.crank_r_mm);
    let boundary = Loop::Path(vec![
        Node::line(-r, -r),
        Node::arc(throw, -r, throw, 0.0, true),
        Node::line(throw, r),
        Node::line(-r, r),
    ]);
    let p = Point2::new;
    let sizes = vec![
        (Tag::new("length").origin("drive.piston_throw"), Measure::Level(p(-r, -r), p(throw + r, 0.0))),
        (Tag::new("width"), Measure::Upright(p(-r, -r), p(-r, r))),
        (Tag::new("end-radius"), Measure::Radius(r)),
        (Tag::new("shaft-from-flat-end"), Measure::Level(p(-r, r), p(0.0, 0.0))),
    ];
    Outline::Free { boundary, sizes }
}

/// The part.
pub fn part(e: &Engine, own: &Flat) -> Part {
    let (d, s) = (&e.drive, &own.shaft);
    let (t, r, throw) = (s.crank_mm, s.crank_r_mm, d.piston.throw_mm);
    let shaft = d.journal_bearing.bore_mm / 2.0;
    let screw = s.set_screw;
    let set_screw = tapped_through(
        "set-screw",
        Point3::new(-r, 0.0, s.seat_mm / 2.0),
        along(1.0, 0.0, 0.0),
        &screw.designation,
        screw.tap_drill_mm,
        r - shaft,
    );
    let seat = fit("shaft-seat", 2.0 * shaft, "H7").ra(1.6).origin("drive.journal_bearing");
    let chain = vec![
        named(shaft, 0.0, seat),
        named(shaft, s.seat_mm, Tag::new("shaft-seat-depth").limits(0.2, 0.0)),
        at(0.0, s.seat_mm),
    ];
    let features = vec![
        bore("shaft-seat", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, 1.0), chain, End::Blind),
        pin(e, throw, t, 1),
        pin_thread(e, throw, t, 1),
        set_screw.placed(Place::Coordinates),
    ];
    let tag = Tag::new("thickness").origin("drive.clamped_crank");
    let body = Body::Plate { outline: outline(e, own), thickness: t, tag };
    made("piston-crank", "Piston crank", &d.material, Recipe { body, features })
        .control(rules::parallel_axis("pin", "shaft-seat", rules::PARALLEL))
        .note(&moves(e, "Throw", throw))
        .note(&format!(
            "Set it {} degrees behind the displacer's crank, tighten, try the engine, scribe both parts; then spot the shaft under the screw.",
            d.lead_deg
        ))
        .caution("Turns fast and close by: fit a guard that only a tool opens.")
}

/// Room of the part for its blank.
pub fn envelope(e: &Engine, own: &Flat) -> Envelope {
    let (d, r) = (&e.drive, own.shaft.crank_r_mm);
    Envelope {
        low: Point3::new(-r, -r, 0.0),
        high: Point3::new(
            d.piston.throw_mm + r,
            r,
            own.shaft.crank_mm + d.side_gap_mm + d.con_rod_thickness_mm,
        ),
        turned: false,
    }
}
