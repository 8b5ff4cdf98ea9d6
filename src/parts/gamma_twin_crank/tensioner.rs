//! Belt tensioner: plate, roller and the ring between them.

use crate::parts::assembly::placed;
use crate::parts::bought::{bearing, buy, screw, steel};
use crate::parts::fastening::{Fastening, Hole, Screw, Tool, names};
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, feature, fit, made, named, tapped, through};
use crate::parts::part::{Instance, Part};
use crate::parts::pattern::Pattern;
use crate::parts::{pulley, spacer};
use crate::shape::control::LOWER_FACE;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::layouts::gamma_twin_crank::tensioner::Tensioner;

/// Shoulder of the roller beside its bearing, on the radius \[mm\].
const SHOULDER_MM: f64 = 1.0;

/// Screws of the plate in the bracket, from the displacer's crank axis: X and up.
pub fn pattern(t: &Tensioner) -> Pattern {
    let ([x, y], [aside, far]) = (t.place_mm, t.screws_mm);
    Pattern::points(t.screw, [-aside, aside].map(|s| Point2::new(x + s, y + far)).into())
}

/// Threads in the bracket's rear face, in its own frame.
pub fn threads(t: &Tensioner) -> Vec<Feature> {
    let one = |c: &Point2| {
        let at = Point3::new(c.x, c.y, 0.0);
        tapped("tensioner-thread", at, along(0.0, 0.0, 1.0), t.screw, t.thread_mm).placed(Place::Coordinates)
    };
    pattern(t).centres.iter().map(one).collect()
}

/// A slot for the screw at `aside` from the middle.
fn slot(t: &Tensioner, aside: f64) -> Feature {
    let ([up, down], r, thick) = (t.travel_mm, 0.5 * t.screw.clearance_medium_mm, t.plate_mm);
    let half = 0.5 * (up + down);
    let outline = Loop::Path(vec![
        Node::arc(r, half, 0.0, half, true),
        Node::line(-r, half),
        Node::arc(-r, -half, 0.0, -half, true),
        Node::line(r, -half),
    ]);
    let middle = Point3::new(aside, t.screws_mm[1] + 0.5 * (down - up), thick);
    let kind = Kind::Pocket { outline, depth: thick, through: true };
    feature("slot", middle, along(0.0, 0.0, -1.0), kind).placed(Place::Coordinates)
}

/// The plate: datum on the roller's axis in the face at the bracket, Y away from the belt, Z to the roller.
fn plate(t: &Tensioner) -> Part {
    let ([about_pin, about_slot], thick, aside) = (t.end_r_mm, t.plate_mm, t.screws_mm[0]);
    let corner = |side: f64| (Point2::new(side * aside, t.far_mm()), about_slot);
    let circles = vec![(Point2::new(0.0, 0.0), about_pin), corner(1.0), corner(-1.0)];
    let outline = Outline::around(circles, "end");
    let pin = fit("pin-hole", t.bearing.bore_mm, "N7").ra(1.6);
    let top = Point3::new(0.0, 0.0, thick);
    let mut features =
        vec![through(top, along(0.0, 0.0, -1.0), t.bearing.bore_mm, thick, pin).placed(Place::Coordinates)];
    features.extend([-aside, aside].map(|side| slot(t, side)));
    let body = Body::Plate { outline, thickness: thick, tag: Tag::new("thickness") };
    made("tensioner-plate", "Tensioner plate", "mild-steel", Recipe { body, features })
        .control(rules::square_axis("pin-hole", LOWER_FACE, rules::BELT))
        .note("Ream from the face at the bracket and press the pin in flush.")
        .caution(pulley::CAUTION)
}

/// The roller: datum in the face towards the bracket.
fn roller(t: &Tensioner) -> Part {
    let ([diameter, wide], b) = (t.roller_mm, &t.bearing);
    let (r, seat, lip) = (0.5 * diameter, 0.5 * b.outer_mm, 0.5 * b.outer_mm - SHOULDER_MM);
    let shoulder = 0.5 * (wide + b.width_mm);
    let profile = vec![
        named(seat, 0.0, Tag::new("face")),
        named(r, 0.0, Tag::new("roller-diameter").origin("tensioner.roller_diameter").ra(1.6)),
        named(r, wide, Tag::new("roller-width")),
        named(lip, wide, Tag::new("shoulder-bore")),
        named(lip, shoulder, Tag::new("bearing-shoulder")),
        named(seat, shoulder, fit("bearing-seat", b.outer_mm, "H7").ra(1.6)),
    ];
    made(
        "tensioner-roller",
        "Tensioner roller",
        "aluminium-6082",
        Recipe { body: Body::Turned(profile), features: Vec::new() },
    )
    .note("Round edges where the belt runs off. Bearing against the shoulder with retaining compound.")
    .control(rules::runout("roller-diameter", "bearing-seat", rules::BELT))
    .caution(pulley::CAUTION)
}

/// What is made.
pub fn parts(t: &Tensioner) -> Vec<Part> {
    let ring = [t.bearing.bore_mm, t.bearing.bore_mm + 3.0];
    vec![
        plate(t),
        roller(t),
        spacer::ring("tensioner-spacer", "Tensioner spacer", ring, t.spacer_mm, "tensioner.spacer"),
    ]
}

/// What is bought.
pub fn bought(t: &Tensioner) -> Vec<Part> {
    let pin = format!("ground pin {} h6 x {} mm", t.bearing.bore_mm, t.pin_mm);
    vec![
        bearing("tensioner-bearing", "Tensioner bearing", &t.bearing, 1),
        buy("tensioner-pin", "Tensioner pin", pin, "silver-steel", 1),
        screw("tensioner-screw", "Screw of the tensioner", t.screw, t.screw_mm, 2),
        steel("tensioner-washer", "Washer of the tensioner", format!("ISO 7089 - {}", t.screw.major_mm), 2),
    ]
}

/// Plate, ring and roller on the bracket's rear face at `rear` \[mm\]; `z` is the height of the crank axes.
pub fn instances(t: &Tensioner, rear: f64, z: f64) -> [Instance; 3] {
    let ([x, high], thick) = (t.place_mm, t.plate_mm);
    let (out, across) = ([0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]);
    let at = |y: f64| Point3::new(x, y, z + high);
    let bearing = rear + thick + t.spacer_mm;
    let roller = bearing - 0.5 * (t.roller_mm[1] - t.bearing.width_mm);
    [
        placed("tensioner-plate", "tensioner-plate", at(rear), out, across),
        placed("tensioner-spacer", "tensioner-spacer", at(rear + thick), out, across),
        placed("tensioner-roller", "tensioner-roller", at(roller), out, across),
    ]
}

/// How its screws are put in, the pulleys being there already.
pub fn fastening(t: &Tensioner, rear: f64, z: f64, metal: &str) -> Fastening {
    let y = rear + t.grip_mm();
    Fastening {
        joint: "tensioner-joint".into(),
        threaded: "crank-bracket".into(),
        metal: metal.into(),
        thread: Screw { head_mm: t.screw.washer_outer_mm, ..Screw::cap(t.screw) },
        length_mm: t.screw_mm,
        grip_mm: t.grip_mm(),
        hole: Hole::Blind(t.thread_mm),
        seats: pattern(t).centres.iter().map(|c| Point3::new(c.x, y, z + c.y)).collect(),
        out: Vector3::new(0.0, 1.0, 0.0),
        among: names(&[
            "tensioner-plate",
            "tensioner-spacer",
            "tensioner-roller",
            "crank-bracket",
            "back-plate",
            "lead-pulley",
            "lead-hub",
            "piston-pulley",
            "displacer-crank",
            "piston-crank",
        ]),
        tool: Tool::Key,
        path: "tensioner.screw_place",
    }
}
