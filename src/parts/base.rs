//! Base plate and its feet.

use super::assembly::upright;
use super::bought::{screw, steel};
use super::fastening::{Fastening, Hole, Screw, Tool, names, seats, vertical};
use super::joints::{cap_screw, joint};
use super::kit::{along, at, counterbored, made, named, tapped};
use super::part::{Instance, Joint, Part};
use super::pattern::Pattern;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::{Base, Engine, Foot};

/// Metal of the feet.
const FOOT: &str = "mild-steel";

/// Radius of the plate's corners \[mm\].
const CORNER_MM: f64 = 8.0;

/// Screws into what stands on it, in the engine's X and Y.
fn screws_of(b: &Base) -> Pattern {
    Pattern::points(b.screw, b.screws_mm.iter().map(|[x, y]| Point2::new(*x, *y)).collect())
}

/// Feet, or holes for the bench.
fn corners(b: &Base) -> Pattern {
    Pattern::points(b.hold_down, b.hold_down_mm.iter().map(|[x, y]| Point2::new(*x, *y)).collect())
}

/// The plate: datum in its lower face, on the displacer's axis.
fn plate(b: &Base) -> Part {
    let t = b.thickness_mm;
    let outline = Outline::Rectangle {
        low: Point2::new(b.low_mm[0], b.low_mm[1]),
        high: Point2::new(b.high_mm[0], b.high_mm[1]),
        corner: CORNER_MM,
        tags: [Tag::new("length").origin("base.length"), Tag::new("width").origin("base.width")],
    };
    let from_below = |c: &Point2| {
        counterbored("base-screw", Point3::new(c.x, c.y, 0.0), along(0.0, 0.0, 1.0), b.screw, t)
            .placed(Place::Coordinates)
    };
    let mut features: Vec<Feature> = screws_of(b).centres.iter().map(from_below).collect();
    let name = if b.foot.is_some() { "foot-screw-hole" } else { "hold-down-hole" };
    features.extend(corners(b).clearance(name, 0.0, 0.0, t, t));
    let tag = Tag::new("thickness").origin("base.thickness");
    made(
        "base-plate",
        "Base plate",
        &b.material,
        Recipe { body: Body::Plate { outline, thickness: t, tag }, features },
    )
    .note("Screw it down before the first run: an engine that walks pulls its hoses off.")
    .caution("Stands firm or falls hot: hold it down on a bench that does not burn.")
}

/// A foot: threads at both ends.
fn foot(b: &Base, f: &Foot) -> Part {
    let (r, long, t) = (f.diameter_mm / 2.0, f.length_mm, b.hold_down);
    let profile = vec![
        at(0.0, 0.0),
        named(r, 0.0, Tag::new("diameter")),
        named(r, long, Tag::new("length").limits(0.05, -0.05).origin("base.foot_length")),
        at(0.0, long),
    ];
    let end = |name: &str, z: f64, down: f64| {
        tapped(name, Point3::new(0.0, 0.0, z), along(0.0, 0.0, down), t, f.thread_mm)
    };
    let features = vec![end("upper-thread", long, -1.0), end("lower-thread", 0.0, 1.0)];
    made("base-foot", "Foot", FOOT, Recipe { body: Body::Turned(profile), features }).times(4)
}

/// Threads in the lower edge of a bracket or case `t` thick, which lies at `y` of its own frame; its Z runs against the
/// engine's Y from `rear` \[mm\]. A row each, so that the drawing tells how deep behind the face it stands.
pub fn bracket_threads(b: &Base, y: f64, rear: f64, t: f64) -> Vec<Feature> {
    let one = |c: &Point2| {
        let origin = Point3::new(c.x, y, rear - c.y);
        let name = if origin.z > t / 2.0 { "front-base-thread" } else { "rear-base-thread" };
        tapped(name, origin, along(0.0, 1.0, 0.0), b.screw, b.thread_mm).placed(Place::Coordinates)
    };
    screws_of(b).centres.iter().map(one).collect()
}

/// Made and bought parts.
pub fn parts(e: &Engine) -> Vec<Part> {
    let Some(b) = &e.base else { return Vec::new() };
    let t = b.hold_down;
    let mut all = vec![plate(b), screw("base-screw", "Screw of the base", b.screw, b.screw_mm, 4)];
    let washer = format!("ISO 7089 - {}", t.major_mm);
    if let Some(f) = &b.foot {
        all.push(foot(b, f));
        all.push(screw("foot-screw", "Screw of a foot", t, f.screw_mm, 4));
        let what = format!(
            "screw {} for the feet, as long as the bench is thick + {:.0} mm",
            t.designation,
            f.thread_mm - 2.0
        );
        all.push(steel("hold-down-screw", "Hold-down screw", what, 4));
    } else {
        let what = format!("screw {} for the bench, through {} mm", t.designation, b.thickness_mm);
        all.push(steel("hold-down-screw", "Hold-down screw", what, 4));
    }
    all.push(steel("hold-down-washer", "Washer of a hold-down screw", washer, 4));
    all
}

/// Entries of the manifest; `holder` stands on the base.
pub fn joints(e: &Engine, holder: &str) -> Vec<Joint> {
    let Some(b) = &e.base else { return Vec::new() };
    let base = cap_screw(b.screw, b.screw_mm);
    let mut all = vec![joint("base-joint", ["base-plate", holder], None, base, &screws_of(b))];
    all.extend(b.foot.as_ref().map(|f| {
        joint(
            "foot-joint",
            ["base-plate", "base-foot"],
            None,
            cap_screw(b.hold_down, f.screw_mm),
            &corners(b),
        )
    }));
    all
}

/// How its screws are put in: the feet first, then the plate below `holder`, of the metal `stuff`.
pub fn screws(e: &Engine, holder: &str, stuff: &str) -> Vec<Fastening> {
    let Some(b) = &e.base else { return Vec::new() };
    let under = b.top_mm - b.thickness_mm;
    let sunk = b.screw.counterbore_depth_mm;
    let mut all = vec![Fastening {
        joint: "base-joint".into(),
        threaded: holder.into(),
        metal: stuff.into(),
        thread: Screw::cap(b.screw),
        length_mm: b.screw_mm,
        grip_mm: b.thickness_mm - sunk,
        hole: Hole::Blind(b.thread_mm),
        seats: seats(&screws_of(b), 0.0, 0.0, under + sunk),
        out: vertical(-1.0),
        among: names(&["base-plate", holder, "base-foot-1", "base-foot-2", "base-foot-3", "base-foot-4"]),
        tool: Tool::Key,
        path: "base.thickness",
    }];
    all.extend(b.foot.as_ref().map(|f| Fastening {
        joint: "foot-joint".into(),
        threaded: "base-foot".into(),
        metal: FOOT.into(),
        thread: Screw::cap(b.hold_down),
        length_mm: f.screw_mm,
        grip_mm: b.thickness_mm,
        hole: Hole::Blind(f.thread_mm),
        seats: seats(&corners(b), 0.0, 0.0, b.top_mm),
        out: vertical(1.0),
        among: names(&["base-plate"]),
        tool: Tool::Key,
        path: "base.foot_length",
    }));
    all
}

/// Places.
pub fn instances(e: &Engine) -> Vec<Instance> {
    let Some(b) = &e.base else { return Vec::new() };
    let under = b.top_mm - b.thickness_mm;
    let mut all = vec![upright("base-plate", "base-plate", 0.0, 0.0, under)];
    if let Some(f) = &b.foot {
        let one = |(i, [x, y]): (usize, &[f64; 2])| {
            upright(&format!("base-foot-{}", i + 1), "base-foot", *x, *y, under - f.length_mm)
        };
        all.extend(b.hold_down_mm.iter().enumerate().map(one));
    }
    all
}
