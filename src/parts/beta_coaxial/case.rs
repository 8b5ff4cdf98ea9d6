//! Crankcase: a block bored through along the crankshaft. Datum: crank axis, rear face; X as the engine's, Y up, Z towards
//! the front.

use super::joints::Patterns;
use crate::parts::base;
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, fit, lift, made, tapped, tapped_through, through};
use crate::parts::part::Part;
use crate::shape::control::{LOWER_FACE, TOP_EDGE, UPPER_FACE};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::{BoltCircle, Engine};
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Corner radius \[mm\].
const CORNER_MM: f64 = 6.0;

/// Depth of full thread for screws through `through` \[mm\].
fn depth(screws: &BoltCircle, through: f64) -> f64 {
    screws.screw_mm - through + 1.0
}

/// Bore of the crank and opening of the cylinder.
fn bores(own: &BetaCoaxial) -> [Feature; 2] {
    let c = &own.case;
    let rear = lift(Point2::new(0.0, 0.0), c.length_mm);
    let bore = fit("crank-bore", c.bore_mm, "H8").origin("case.bore").ra(1.6);
    let opening = fit("cylinder-opening", c.opening_mm, "H8").origin("cylinder.diameter").ra(1.6);
    let top = Point3::new(0.0, c.rise_mm[0], c.length_mm / 2.0);
    [
        through(rear, along(0.0, 0.0, -1.0), c.bore_mm, c.length_mm, bore),
        through(top, along(0.0, -1.0, 0.0), c.opening_mm, c.rise_mm[0] - c.bore_mm / 2.0, opening)
            .placed(Place::Coordinates),
    ]
}

/// Ports of gauge and relief valve on one side, of the filling valve on the other.
fn ports(own: &BetaCoaxial) -> [Feature; 3] {
    let c = &own.case;
    let (middle, wall) = (c.length_mm / 2.0, c.half_mm - c.bore_mm / 2.0);
    let port = |name: &str, x: f64, z: f64| {
        let from = Point3::new(x, 0.0, z);
        let way = along(-x.signum(), 0.0, 0.0);
        tapped_through(name, from, way, &c.port.designation, c.port.tap_drill_mm, wall)
            .placed(Place::Coordinates)
    };
    [
        port("gauge-port", c.half_mm, middle - c.port_y_mm),
        port("relief-port", c.half_mm, middle + c.port_y_mm),
        port("filling-port", -c.half_mm, middle),
    ]
}

/// Threads of the cylinder, of both end plates and of the base.
fn threads(e: &Engine, own: &BetaCoaxial, p: &Patterns) -> Vec<Feature> {
    let (c, g) = (&own.case, e.joints.gasket_mm);
    let (middle, top) = (c.length_mm / 2.0, c.rise_mm[0]);
    let screws = &own.cylinder.screws;
    let deep = depth(screws, own.cylinder.flange_mm[1] + g);
    // a name for each row, so that the drawing tells how deep behind the face it stands
    let mut rows: Vec<f64> = p.cylinder.centres.iter().map(|c| c.y).collect();
    rows.sort_by(f64::total_cmp);
    rows.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let row = |y: f64| {
        let i = rows.iter().rposition(|r| (r - y).abs() < 1e-6).map_or(0, |i| rows.len() - i);
        format!("cylinder-thread-{i}")
    };
    let mut all: Vec<Feature> = p
        .cylinder
        .centres
        .iter()
        .map(|at| {
            let from = Point3::new(at.x, top, middle - at.y);
            tapped(&row(at.y), from, along(0.0, -1.0, 0.0), screws.thread, deep).placed(Place::Coordinates)
        })
        .collect();
    let deep = depth(&c.plate_screws, c.plate_mm[1] + g);
    all.extend(p.plate.tapped("rear-plate-thread", 0.0, 0.0, 0.0, 1.0, deep));
    all.extend(p.plate.tapped("front-plate-thread", 0.0, 0.0, c.length_mm, -1.0, deep));
    let bases = e.base.iter();
    all.extend(bases.flat_map(|b| base::bracket_threads(b, -c.rise_mm[1], middle, c.length_mm)));
    all
}

/// The part.
pub fn part(e: &Engine, own: &BetaCoaxial, p: &Patterns) -> Part {
    let c = &own.case;
    let outline = Outline::Rectangle {
        low: Point2::new(-c.half_mm, -c.rise_mm[1]),
        high: Point2::new(c.half_mm, c.rise_mm[0]),
        corner: CORNER_MM,
        tags: [
            Tag::new("width").origin("case.half_width"),
            Tag::new("height").origin("case.height_above_crank"),
        ],
    };
    let mut features = bores(own).to_vec();
    features.extend(ports(own));
    features.extend(threads(e, own, p));
    let tag = Tag::new("length").limits(0.05, -0.05).origin("case.length").ra(1.6);
    let body = Body::Plate { outline, thickness: c.length_mm, tag };
    made("crankcase", "Crankcase", &c.material, Recipe { body, features })
        .control(rules::square(LOWER_FACE, "crank-bore", rules::REGISTER))
        .control(rules::parallel(UPPER_FACE, LOWER_FACE, rules::gasket_face(e)))
        .control(rules::parallel(TOP_EDGE, "crank-bore", rules::REGISTER))
        .control(rules::square_axis("cylinder-opening", TOP_EDGE, rules::REGISTER))
        .note("Bore and both end faces in one setting; opening over the middle of the bore.")
        .note(&format!(
            "Made for {:.1} bar over the air's at the most, the highest pressure of a turn; set the relief valve to that at the most.",
            c.design_pa / 1e5
        ))
}
