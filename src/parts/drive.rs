//! Clevis, con rod, cranks and bearing seats.

use super::crankpin::{HOLE, SHORT_MM, screw, thread_mm};
use super::geometry_rules as rules;
use super::kit::{along, at, bore, feature, fit, made, named, tapped, tapped_through, through};
use super::part::Part;
use crate::catalogue::bearings::BallBearing;
use crate::numerals::short;
use crate::shape::control::Control;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, End, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::{Crank, Engine};
use crate::sizing::layouts::common::drive::{COLLAR_MM, SHOULDER_MM};

/// Collar of a journal over its diameter \[mm\].
pub const COLLAR_WIDER_MM: f64 = 3.0;

/// Clevis in its own frame: X across the slot, Y up, Z along the slot (the engine's X).
pub fn clevis(e: &Engine) -> Part {
    let c = &e.clevis;
    let [width, across, height] = c.size_mm;
    let (h, s) = (across / 2.0, c.slot_mm / 2.0);
    let p = Point2::new;
    let boundary = Loop::Path(vec![
        Node::line(-h, 0.0),
        Node::line(-s, 0.0),
        Node::line(-s, c.slot_depth_mm),
        Node::line(s, c.slot_depth_mm),
        Node::line(s, 0.0),
        Node::line(h, 0.0),
        Node::line(h, height),
        Node::line(-h, height),
    ]);
    let sizes = vec![
        (Tag::new("width"), Measure::Level(p(-h, height), p(h, height))),
        (Tag::new("height").origin("clevis.height"), Measure::Upright(p(h, 0.0), p(h, height))),
        (
            Tag::new("slot-width").limits(0.1, 0.0).origin("clevis.slot"),
            Measure::Level(p(-s, 0.0), p(s, 0.0)),
        ),
        (
            Tag::new("slot-depth").origin("clevis.slot_depth"),
            Measure::Upright(p(-h, 0.0), p(-s, c.slot_depth_mm)),
        ),
    ];
    let leg = h - s;
    let pin = |x: f64| {
        let tag = fit("pin-hole", c.pin_mm, "N7").ra(1.6);
        through(Point3::new(x, c.pin_z_mm, width / 2.0), along(1.0, 0.0, 0.0), c.pin_mm, leg, tag)
            .placed(Place::Coordinates)
    };
    let thread = e.drive.displacer.rod_end.thread;
    let top = Point3::new(0.0, height, width / 2.0);
    let rod = tapped_through(
        "rod-thread",
        top,
        along(0.0, -1.0, 0.0),
        &thread.designation,
        thread.tap_drill_mm,
        height - c.slot_depth_mm,
    )
    .placed(Place::Coordinates);
    let tag = Tag::new("depth").origin("clevis.width");
    let body = Body::Plate { outline: Outline::Free { boundary, sizes }, thickness: width, tag };
    made("clevis", "Clevis", &e.drive.material, Recipe { body, features: vec![pin(-h), pin(s), rod] })
        .times(2)
        .control(rules::square("pin-hole", "rod-thread", rules::PIN_HOLE))
        .note("Ream both legs in one pass. Press the pin in; the bearing turns on it.")
}

/// Share of the least end clearance that an error of a throw or of the centres of a con rod may take, and the bounds of the
/// tolerance that comes of it \[mm\] (common practice, no source).
const CLEARANCE_SHARE: f64 = 0.1;
const TOLERANCE_MM: [f64; 2] = [0.02, 0.1];

/// Tolerance of throws and con-rod centres, either way \[mm\]: they move displacer and piston against the ends of their
/// spaces.
fn throw_tolerance_mm(e: &Engine) -> f64 {
    let (d, p) = (&e.displacer, &e.piston);
    let least = [d.cold_clearance_mm, d.hot_clearance_mm, p.top_clearance_mm]
        .into_iter()
        .fold(f64::INFINITY, f64::min);
    let [low, high] = TOLERANCE_MM;
    ((CLEARANCE_SHARE * least * 100.0 + 1e-6).floor() / 100.0).clamp(low, high)
}

/// A length with that tolerance, and why.
pub fn moves(e: &Engine, what: &str, mm: f64) -> String {
    let tolerance = short(throw_tolerance_mm(e), 2);
    format!("{what} {} mm within {tolerance} mm either way: the end clearances hang on it.", short(mm, 3))
}

/// A bearing seat bored from the open side, with a shoulder on the other.
fn seat(name: &str, x: f64, bearing: &BallBearing, thickness: f64) -> Feature {
    let (r, through) = (bearing.outer_mm / 2.0, bearing.outer_mm / 2.0 - 1.0);
    let chain = vec![
        named(r, 0.0, fit(&format!("{name}-seat"), bearing.outer_mm, "H7").ra(1.6)),
        named(r, bearing.width_mm, Tag::new(&format!("{name}-seat-depth")).limits(0.1, 0.0)),
        named(through, bearing.width_mm, Tag::new(&format!("{name}-through"))),
        at(through, thickness),
    ];
    bore(name, Point3::new(x, 0.0, thickness), along(0.0, 0.0, -1.0), chain, End::Through)
        .placed(Place::Coordinates)
}

/// Con rod: crankpin at the origin, small end on X.
pub fn con_rod(e: &Engine) -> Part {
    let d = &e.drive;
    let t = d.con_rod_thickness_mm;
    let outline = Outline::Hull {
        circles: vec![
            (Point2::new(0.0, 0.0), d.eye_r_mm[0]),
            (Point2::new(d.con_rod_mm, 0.0), d.eye_r_mm[1]),
        ],
        name: "eye".to_owned(),
    };
    let features = vec![
        seat("big-end", 0.0, &d.crankpin_bearing, t),
        seat("small-end", d.con_rod_mm, &d.small_end_bearing, t),
    ];
    let tag = Tag::new("thickness").origin("drive.con_rod_thickness");
    made(
        "con-rod",
        "Con rod",
        &d.material,
        Recipe { body: Body::Plate { outline, thickness: t, tag }, features },
    )
    .times(2)
    .control(rules::parallel_axis("small-end-seat", "big-end-seat", rules::PARALLEL))
    .note(&moves(e, "Centres", d.con_rod_mm))
    .note("Bore both seats in one clamping. Bearings with retaining compound.")
}

/// Crank: web in the plane, pin up (Z) for `rods` con rods, journal down.
pub fn crank(e: &Engine, name: &str, title: &str, crank: &Crank, journal_mm: f64, rods: usize) -> Part {
    let d = &e.drive;
    let [journal_r, pin_r] = d.web_r_mm;
    let circles = vec![(Point2::new(0.0, 0.0), journal_r), (Point2::new(crank.throw_mm, 0.0), pin_r)];
    let outline = Outline::around(circles, "web");
    let features = vec![
        journal(e, journal_mm),
        pin(e, crank.throw_mm, d.web_mm, rods),
        pin_thread(e, crank.throw_mm, d.web_mm, rods),
    ];
    let tag = Tag::new("web-thickness");
    made(
        name,
        title,
        &d.material,
        Recipe { body: Body::Plate { outline, thickness: d.web_mm, tag }, features },
    )
    .control(rules::parallel_axis("pin", "journal", rules::PARALLEL))
    .note("Mark the throw on the end of the journal.")
    .caution("Turns fast and close by: fit a guard that only a tool opens.")
    .note(&moves(e, "Throw", crank.throw_mm))
    .note("No flat yet: a flat for each set screw is filed at assembly, where the screw has marked the journal.")
}

/// Journal with collar, from the web's lower face downwards.
fn journal(e: &Engine, long: f64) -> Feature {
    let bearing = &e.drive.journal_bearing;
    let (r, collar) = (bearing.bore_mm / 2.0, (bearing.bore_mm + COLLAR_WIDER_MM) / 2.0);
    let chain = vec![
        named(collar, 0.0, Tag::new("journal-collar-diameter")),
        named(collar, COLLAR_MM, Tag::new("journal-collar-length")),
        named(r, COLLAR_MM, fit("journal", bearing.bore_mm, "h6").ra(0.8).origin("drive.journal_bearing")),
        named(r, long - 0.5, Tag::new("journal-chamfer")),
        named(r - 0.5, long, Tag::new("journal-length")),
        at(0.0, long),
    ];
    feature("journal", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, -1.0), Kind::Boss { chain })
}

/// Length of the collar under a con rod's bearing, and of the ring between two bearings on one pin \[mm\].
pub fn pin_collar_mm(e: &Engine) -> f64 {
    e.drive.side_gap_mm + e.drive.con_rod_thickness_mm - e.drive.crankpin_bearing.width_mm
}

/// Outside diameter of that collar \[mm\].
pub fn pin_collar_diameter_mm(e: &Engine) -> f64 {
    e.drive.crankpin_bearing.bore_mm + 2.0
}

/// Reach of the crankpin above the web \[mm\]: collars and bearings, a hair short so that the washer clamps the ring.
fn pin_reach(e: &Engine, rods: usize) -> [f64; 2] {
    let collar = pin_collar_mm(e);
    [collar, rods as f64 * (collar + e.drive.crankpin_bearing.width_mm) - SHORT_MM]
}

/// Crankpin with collar, from the upper face of a web of this thickness \[mm\].
pub fn pin(e: &Engine, throw: f64, web: f64, rods: usize) -> Feature {
    let bearing = &e.drive.crankpin_bearing;
    let (r, collar) = (bearing.bore_mm / 2.0, pin_collar_diameter_mm(e) / 2.0);
    let [low, high] = pin_reach(e, rods);
    let chain = vec![
        named(collar, 0.0, Tag::new("pin-collar-diameter")),
        named(collar, low, Tag::new("pin-collar-length")),
        named(r, low, fit("pin", bearing.bore_mm, "h6").ra(0.8).origin("drive.crankpin_bearing")),
        named(r, high, Tag::new("pin-length")),
        at(0.0, high),
    ];
    feature("pin", Point3::new(throw, 0.0, web), along(0.0, 0.0, 1.0), Kind::Boss { chain })
        .placed(Place::Coordinates)
}

/// Thread in the pin for the screw and washer that hold the con rod.
pub fn pin_thread(e: &Engine, throw: f64, web: f64, rods: usize) -> Feature {
    let z = web + pin_reach(e, rods)[1];
    tapped(HOLE, Point3::new(throw, 0.0, z), along(0.0, 0.0, -1.0), screw(), thread_mm())
        .placed(Place::Coordinates)
}

/// Names of the seats of a bearing bore whose names begin with `stem`: front and rear.
fn seat_names(stem: &str) -> [String; 2] {
    ["front", "rear"].map(|end| format!("{stem}{end}-bearing-seat"))
}

/// Both seats of such a bore lie on one axis, that of the front one is the datum.
pub fn seats_in_line(e: &Engine, stem: &str) -> Control {
    let [front, rear] = seat_names(stem);
    rules::coaxial(&rear, &front, rules::seats(e.drive.bracket_mm - e.drive.journal_bearing.width_mm))
}

/// Two bearing seats with a shoulder between them, bored from both faces; their names begin with `stem`.
pub fn bearing_bore(e: &Engine, x: f64, stem: &str) -> Feature {
    let (b, t) = (&e.drive.journal_bearing, e.drive.bracket_mm);
    let (r, free) = (b.outer_mm / 2.0, b.outer_mm / 2.0 - SHOULDER_MM);
    let seat = |name: &str| fit(name, b.outer_mm, "H7").ra(1.6).origin("drive.journal_bearing");
    let (tag, [front, rear]) = (|what: &str| Tag::new(&format!("{stem}{what}")), seat_names(stem));
    let chain = vec![
        named(r, 0.0, seat(&front)),
        named(r, b.width_mm, tag("front-seat-depth").limits(0.1, 0.0)),
        named(free, b.width_mm, tag("between-seats")),
        named(free, t - b.width_mm, tag("rear-seat-depth").from_z(t).limits(0.1, 0.0)),
        named(r, t - b.width_mm, seat(&rear)),
        at(r, t),
    ];
    bore(&format!("{stem}journal-bore"), Point3::new(x, 0.0, t), along(0.0, 0.0, -1.0), chain, End::Through)
        .placed(Place::Coordinates)
}
