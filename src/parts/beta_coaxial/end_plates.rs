//! End plates of the crankcase: each holds a main bearing in its hub, the rear one the seal of the shaft.
//! Datum z = 0 is the gasket face; the hub stands below it, inside the case.

use super::joints::Patterns;
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{at, fit, made, named};
use crate::parts::part::Part;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Length of the register in the case's bore, gasket left out \[mm\].
const REGISTER_MM: f64 = 3.0;
/// Free depth behind a bearing's inner ring \[mm\].
const RELIEF_MM: f64 = 1.5;
/// Free depth at the end of the short journal \[mm\].
const BEHIND_MM: f64 = 3.0;

/// How far the hub's end is below the gasket face \[mm\].
fn hub_mm(e: &Engine, own: &BetaCoaxial) -> f64 {
    own.case.length_mm / 2.0 + e.joints.gasket_mm - own.case.hub_mm[1]
}

/// Outside of both plates from the bearing's seat to the outer face.
fn outside(e: &Engine, own: &BetaCoaxial) -> Vec<ProfileNode> {
    let (c, b) = (&own.case, &e.drive.journal_bearing);
    let (seat, hub, rf) = (b.outer_mm / 2.0, c.hub_mm[0] / 2.0, c.plate_mm[0] / 2.0);
    let (h, register) = (hub_mm(e, own), REGISTER_MM + e.joints.gasket_mm);
    vec![
        named(seat, -h, Tag::new("hub-end").from_z(0.0).origin("shaft.reach")),
        named(hub, -h, Tag::new("hub-diameter")),
        named(hub, -register, Tag::new("register-length")),
        named(c.bore_mm / 2.0, -register, fit("register", c.bore_mm, "g6").origin("case.bore").ra(1.6)),
        named(c.bore_mm / 2.0, 0.0, Tag::new("gasket-face").ra(1.6)),
        named(rf, 0.0, Tag::new("outside-diameter").origin("case.plate_diameter")),
        named(rf, c.plate_mm[1], Tag::new("thickness").origin("case.plate_thickness")),
    ]
}

/// Seat of the bearing, from its relief down to the hub's end; the profile closes on its first node.
fn seat(e: &Engine, own: &BetaCoaxial) -> [ProfileNode; 2] {
    let b = &e.drive.journal_bearing;
    let (r, low) = (b.outer_mm / 2.0, -hub_mm(e, own));
    [
        named(r - 1.5, low + b.width_mm, Tag::new("bearing-seat-depth").from_z(low).limits(0.05, 0.0)),
        named(
            r,
            low + b.width_mm,
            fit("bearing-seat", b.outer_mm, "H7").origin("drive.journal_bearing").ra(1.6),
        ),
    ]
}

/// Depth of full thread for the screws of the seal's cap \[mm\].
pub fn seal_thread_mm(own: &BetaCoaxial) -> f64 {
    own.case.seal.screws.screw_mm - own.case.seal.cap_mm[1] + 1.0
}

/// Notes and holes of both.
fn plate(
    e: &Engine,
    own: &BetaCoaxial,
    p: &Patterns,
    [name, title]: [&str; 2],
    profile: Vec<ProfileNode>,
) -> Part {
    let t = own.case.plate_mm[1];
    let mut features = p.plate.clearance("screw-hole", 0.0, 0.0, t, t);
    if name == "rear-plate" {
        features.extend(p.seal.tapped("seal-cap-thread", 0.0, 0.0, t, -1.0, seal_thread_mm(own)));
    }
    made(name, title, &own.case.material, Recipe { body: Body::Turned(profile), features })
        .control(rules::coaxial("bearing-seat", "register", rules::REGISTER))
        .control(rules::square("gasket-face", "register", rules::SIDE))
        .note("Register, bearing seat and gasket face in one setting.")
        .note(&format!(
            "End play of the crankshaft 0.1 to 0.2 mm, set by shims beside the {} bearings.",
            e.drive.journal_bearing.designation
        ))
}

/// Front plate, closed.
pub fn front(e: &Engine, own: &BetaCoaxial, p: &Patterns) -> Part {
    let b = &e.drive.journal_bearing;
    let bottom = -hub_mm(e, own) + b.width_mm + BEHIND_MM;
    let mut profile = outside(e, own);
    profile.extend([
        at(0.0, own.case.plate_mm[1]),
        named(0.0, bottom, Tag::new("relief-depth").from_z(-hub_mm(e, own))),
        named(b.outer_mm / 2.0 - 1.5, bottom, Tag::new("relief-diameter")),
    ]);
    profile.extend(seat(e, own));
    plate(e, own, p, ["front-plate", "Front end plate"], profile)
}

/// Rear plate with the shaft's O-ring in its outer face.
pub fn rear(e: &Engine, own: &BetaCoaxial, p: &Patterns) -> Part {
    let (b, s, t) = (&e.drive.journal_bearing, &own.case.seal, own.case.plate_mm[1]);
    let [groove, width] = s.groove_mm;
    let free = b.bore_mm / 2.0 + 0.15;
    let shoulder = -hub_mm(e, own) + b.width_mm + RELIEF_MM;
    let mut profile = outside(e, own);
    profile.extend([
        named(groove / 2.0, t, fit("groove-diameter", groove, "H9").origin("seal.groove_diameter").ra(1.6)),
        named(
            groove / 2.0,
            t - width,
            Tag::new("groove-width").from_z(t).limits(0.2, 0.0).origin("seal.groove_width"),
        ),
        named(free, t - width, Tag::new("shaft-clearance")),
        named(free, shoulder, Tag::new("relief-depth").from_z(-hub_mm(e, own))),
        named(b.outer_mm / 2.0 - 1.5, shoulder, Tag::new("relief-diameter")),
    ]);
    profile.extend(seat(e, own));
    plate(e, own, p, ["rear-plate", "Rear end plate"], profile)
        .note(&format!(
            "O-ring {} in the groove with a trace of silicone grease, held by the seal cap.",
            s.oring
        ))
        .note("The ring wears and leaks a little: watch the gauge, fill up, change the ring each season.")
}
