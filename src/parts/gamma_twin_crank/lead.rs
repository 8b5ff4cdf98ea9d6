//! Displacer's pulley and the hub that clamps it at the lead. Datum of both: the face at which they meet.

use crate::parts::bought::{screw, steel};
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, at, bore, feature, fit, lift, made, named, tapped_through, through};
use crate::parts::part::{Instance, Part};
use crate::parts::pattern::Pattern;
use crate::parts::pulley;
use crate::shape::control::LOWER_FACE;
use crate::shape::loops::{Loop, Node, polar};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::{Belt, BoltCircle};
use crate::sizing::layouts::gamma_twin_crank::lead::{LeadHub, SCALE_DEG, SCREWS, VERNIER_PARTS};

/// Drill and depth of a mark, and drill of a zero \[mm\].
const MARK_MM: [f64; 2] = [0.6, 0.3];
const ZERO_MM: f64 = 1.2;

/// Screws that clamp the pulley, in the hub's coordinates.
pub fn pattern(h: &LeadHub) -> Pattern {
    Pattern::circle(&BoltCircle {
        thread: h.screw,
        diameter_mm: h.circle_mm,
        count: SCREWS,
        first_deg: 60.0,
        screw_mm: h.screw_mm,
    })
}

/// Where the scale has its marks \[deg\], but for its zero: as far as the vernier's last part can come to stand.
fn scale_deg(h: &LeadHub) -> Vec<f64> {
    let vernier = SCALE_DEG * (VERNIER_PARTS - 1) as f64;
    let low = -(h.range_deg / SCALE_DEG).ceil() as i32;
    let high = ((h.range_deg + vernier) / SCALE_DEG).ceil() as i32;
    (low..=high).filter(|i| *i != 0).map(|i| f64::from(i) * SCALE_DEG).collect()
}

/// Where the vernier has its marks \[deg\], but for its zero.
fn vernier_deg() -> Vec<f64> {
    let part = SCALE_DEG * (VERNIER_PARTS - 1) as f64 / VERNIER_PARTS as f64;
    (1..=VERNIER_PARTS).map(|i| i as f64 * part).collect()
}

/// Shallow dots on a circle in the face at `z`, drilled along `down`.
fn dots(name: &str, drill: f64, circle: f64, z: f64, down: f64, angles_deg: &[f64]) -> Vec<Feature> {
    let centre = Point2::new(0.0, 0.0);
    let place = Place::Circle { centre, diameter: circle, angles_deg: angles_deg.to_vec() };
    let one = |deg: &f64| {
        let (r, deep) = (drill / 2.0, MARK_MM[1]);
        let chain = vec![named(r, 0.0, Tag::new(name)), at(r, deep), at(0.0, deep)];
        let origin = lift(polar(centre, circle / 2.0, deg.to_radians()), z);
        bore(name, origin, along(0.0, 0.0, down), chain, End::Blind).placed(place.clone())
    };
    angles_deg.iter().map(one).collect()
}

/// A curved slot about the axis, in the coordinates of a point on its middle line.
fn slot(h: &LeadHub) -> Loop {
    let (r, w, half) = (h.circle_mm / 2.0, h.screw.clearance_medium_mm / 2.0, h.range_deg.to_radians());
    let p = |radius: f64, turn: f64| Point2::new(radius * turn.cos() - r, radius * turn.sin());
    let arc = |from: Point2, centre: Point2, ccw: bool| Node::arc(from.x, from.y, centre.x, centre.y, ccw);
    let axis = Point2::new(-r, 0.0);
    Loop::Path(vec![
        arc(p(r + w, -half), axis, true),
        arc(p(r + w, half), p(r, half), true),
        arc(p(r - w, half), axis, false),
        arc(p(r - w, -half), p(r, -half), true),
    ])
}

fn slots(h: &LeadHub) -> Vec<Feature> {
    let thick = h.flange_mm[1];
    let angles: Vec<f64> = (0..SCREWS).map(|i| 60.0 + 360.0 * i as f64 / SCREWS as f64).collect();
    let centre = Point2::new(0.0, 0.0);
    let place = Place::Circle { centre, diameter: h.circle_mm, angles_deg: angles.clone() };
    let one = |deg: &f64| {
        let (sin, cos) = deg.to_radians().sin_cos();
        let origin = lift(polar(centre, h.circle_mm / 2.0, deg.to_radians()), thick);
        let kind = Kind::Pocket { outline: slot(h), depth: thick, through: true };
        let mut f = feature("clamp-slot", origin, along(0.0, 0.0, -1.0), kind).placed(place.clone());
        f.x_axis = along(cos, sin, 0.0);
        f
    };
    angles.iter().map(one).collect()
}

/// The hub: Z away from the engine.
pub fn hub(h: &LeadHub, shaft: f64) -> Part {
    let ([boss, long], [flange, thick]) = (h.boss_mm, h.flange_mm);
    let tag = Tag::new("flange-diameter").origin("lead.hub_flange_diameter");
    let outline = Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: flange, tag };
    let chain = vec![
        named(boss / 2.0, 0.0, Tag::new("boss-diameter").origin("lead.hub_diameter")),
        named(boss / 2.0, long, Tag::new("boss-length").origin("lead.hub_length")),
        at(0.0, long),
    ];
    let down = along(0.0, 0.0, -1.0);
    let (end, bore_tag) = (Point3::new(0.0, 0.0, thick + long), fit("bore", shaft, "H7").ra(1.6));
    let t = h.set_screw;
    let z = thick + long / 2.0;
    let set = |angle_deg: f64| {
        let (sin, cos) = angle_deg.to_radians().sin_cos();
        let (sin, cos) = (sin.round(), cos.round());
        let origin = Point3::new(boss / 2.0 * cos, boss / 2.0 * sin, z);
        let wall = (boss - shaft) / 2.0;
        tapped_through("set-screw", origin, along(-cos, -sin, 0.0), &t.designation, t.tap_drill_mm, wall)
            .placed(Place::Radial { z, angle_deg })
    };
    let mut features = vec![
        feature("boss", lift(Point2::new(0.0, 0.0), thick), along(0.0, 0.0, 1.0), Kind::Boss { chain }),
        through(end, down, shaft, thick + long, bore_tag),
    ];
    features.extend(slots(h));
    features.extend([set(180.0), set(270.0)]);
    features.extend(dots("scale-zero", ZERO_MM, h.scale_mm(), thick, -1.0, &[0.0]));
    features.extend(dots("scale-mark", MARK_MM[0], h.scale_mm(), thick, -1.0, &scale_deg(h)));
    let tag = Tag::new("flange-thickness").origin("lead.hub_flange_thickness");
    let body = Body::Plate { outline, thickness: thick, tag };
    made("lead-hub", "Lead hub", "mild-steel", Recipe { body, features })
        .control(rules::runout(LOWER_FACE, "bore", rules::HUB))
        .note("Bore and the face at the pulley in one clamping. Marks by dividing head or degree plate; number the scale in degrees from its zero.")
        .note("One set screw onto a flat of the journal, filed at assembly, the other at a right angle to it, both with thread-locking compound.")
        .caution(pulley::CAUTION)
}

/// The pulley: Z towards the engine, its flange's outer face at the hub.
pub fn pulley(b: &Belt, h: &LeadHub, shaft: f64) -> Part {
    let [flange, thick] = h.pulley_flange_mm;
    let tag = Tag::new("flange-diameter").origin("lead.pulley_flange_diameter");
    let outline = Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: flange, tag };
    let (down, long) = (along(0.0, 0.0, -1.0), thick + b.face_mm);
    let top = Point3::new(0.0, 0.0, long);
    let mut features = Vec::new();
    features.extend(pulley::rim_feature(b, thick));
    features.push(through(top, down, shaft, long, fit("bore", shaft, "H7").ra(1.6)));
    features.extend(if h.in_rim {
        pattern(h).tapped("hub-thread", 0.0, 0.0, 0.0, 1.0, thick)
    } else {
        pattern(h).tapped_through("hub-thread", thick, thick)
    });
    let circle = h.vernier_mm();
    let angles: Vec<f64> = vernier_deg().iter().map(|deg| -deg).collect();
    features.extend(dots("vernier-zero", ZERO_MM, circle, 0.0, 1.0, &[0.0]));
    features.extend(dots("vernier-mark", MARK_MM[0], circle, 0.0, 1.0, &angles));
    let tag = Tag::new("flange-thickness").origin("lead.pulley_flange_thickness");
    let body = Body::Plate { outline, thickness: thick, tag };
    let mut part = made("lead-pulley", "Lead pulley of the displacer", "mild-steel", Recipe { body, features })
        .control(pulley::rim_true())
        .note("Turns on the journal until its screws are tight. Five parts of the vernier take up four of the scale: the pair of marks in line tells single degrees.")
        .caution(pulley::CAUTION);
    part.notes.extend(pulley::teeth_in_words(b));
    part
}

/// What is bought for them.
pub fn bought(h: &LeadHub) -> Vec<Part> {
    let set = format!("ISO 4026 {}x{}", h.set_screw.designation, h.set_screw_mm);
    vec![
        screw("lead-screw", "Screw of lead pulley and lead hub", h.screw, h.screw_mm, SCREWS),
        steel("lead-washer", "Washer of the lead screws", format!("ISO 7089 - {}", h.screw.major_mm), SCREWS),
        steel("lead-set-screw", "Set screw of the lead hub", set, 2),
    ]
}

/// Both, turned with the displacer's crank; `y` \[mm\] is where they meet.
pub fn instances(y: f64, z: f64, angle: f64) -> [Instance; 2] {
    let (sin, cos) = angle.sin_cos();
    let at = Point3::new(0.0, y, z);
    let one = |name: &str, out: f64| {
        crate::parts::assembly::placed(name, name, at, [0.0, out, 0.0], [sin, 0.0, cos])
    };
    [one("lead-pulley", -1.0), one("lead-hub", 1.0)]
}
