//! Piston with the gland of the displacer's rod in its crown, and the yoke below it.

use super::joints::Patterns;
use crate::parts::geometry_rules as rules;
use crate::parts::gland::{self, rod_bore};
use crate::parts::kit::{along, at, bore, fit, made, named, through};
use crate::parts::part::Part;
use crate::parts::piston::{inside, noted, outside};
use crate::shape::control::TOP_EDGE;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, End, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::{BetaCoaxial, Yoke};

/// Radius in the corner under the crown, less than the play of the yoke's corners \[mm\].
const CORNER_MM: f64 = 0.4;

/// Piston. Datum z = 0 at the skirt's end.
pub fn part(e: &Engine, own: &BetaCoaxial, p: &Patterns) -> Part {
    let (piston, y) = (&e.piston, &own.yoke);
    let under = piston.length_mm - piston.crown_mm;
    let mut profile = outside(e);
    profile.extend(inside(e, 0.0, CORNER_MM));
    let mut features = vec![rod_bore(e, under, piston.crown_mm)];
    features.extend(p.yoke.tapped("yoke-thread", 0.0, 0.0, under, 1.0, y.screw_mm - y.bar_mm + 1.0));
    let recipe = Recipe { body: Body::Turned(profile), features };
    noted(e, made("piston", "Piston", &piston.material, recipe))
        .control(rules::coaxial("bush-seat", "diameter", rules::REGISTER))
        .control(rules::square("crown-thickness", "diameter", rules::SIDE))
        .note(&gland::note(e))
}

/// Comb of the yoke: a bar with four legs, X along the engine's Y, Y up.
fn comb(y: &Yoke) -> Outline {
    let (inner, outer) = (y.rod_y_mm - y.slot_mm / 2.0, y.rod_y_mm + y.slot_mm / 2.0);
    let middle = inner - y.leg_mm;
    let mut nodes = vec![Node::line(-y.half_mm, 0.0)];
    for [left, right] in [[-outer, -inner], [-middle, middle], [inner, outer]] {
        nodes.extend([
            Node::line(left, 0.0),
            Node::line(left, y.slot_depth_mm),
            Node::line(right, y.slot_depth_mm),
            Node::line(right, 0.0),
        ]);
    }
    nodes.extend([
        Node::line(y.half_mm, 0.0),
        Node::line(y.half_mm, y.height_mm()),
        Node::line(-y.half_mm, y.height_mm()),
    ]);
    let (p, top, deep) = (Point2::new, y.height_mm(), y.slot_depth_mm);
    let sizes = vec![
        (
            Tag::new("length").origin("yoke.half_length"),
            Measure::Level(p(-y.half_mm, top), p(y.half_mm, top)),
        ),
        (
            Tag::new("height").origin("yoke.slot_depth"),
            Measure::Upright(p(y.half_mm, 0.0), p(y.half_mm, top)),
        ),
        (
            Tag::new("slot-width").limits(0.1, 0.0).origin("yoke.slot"),
            Measure::Level(p(inner, 0.0), p(outer, 0.0)),
        ),
        (
            Tag::new("slot-distance").origin("yoke.rod_place"),
            Measure::Level(p(-y.rod_y_mm, deep), p(y.rod_y_mm, deep)),
        ),
        (Tag::new("middle-width").origin("clevis.width"), Measure::Level(p(-middle, 0.0), p(middle, 0.0))),
        (
            Tag::new("slot-depth").origin("yoke.slot_depth"),
            Measure::Upright(p(-y.half_mm, 0.0), p(-outer, deep)),
        ),
    ];
    Outline::Free { boundary: Loop::Path(nodes), sizes }
}

/// Bore of the displacer's rod with its lower bush, from the upper face.
fn rod_hole(e: &Engine, y: &Yoke) -> Feature {
    let (free, seat) = (e.displacer.rod_mm / 2.0 + 0.15, y.bush.housing_mm / 2.0);
    let below = y.bar_mm - y.bush_length_mm;
    let chain = vec![
        named(free, 0.0, Tag::new("rod-clearance")),
        named(free, below, Tag::new("bush-seat-depth").origin("yoke.bar")),
        named(seat, below, fit("bush-seat", y.bush.housing_mm, &y.bush.housing_fit).ra(1.6)),
        at(seat, y.bar_mm),
    ];
    let top = Point3::new(0.0, y.height_mm(), y.width_mm / 2.0);
    bore("rod-bore", top, along(0.0, -1.0, 0.0), chain, End::Through).placed(Place::Coordinates)
}

/// Yoke: carries the pins of two con rods and the lower bush of the displacer's rod, and holds its O-ring.
pub fn yoke(e: &Engine, own: &BetaCoaxial, p: &Patterns) -> Part {
    let y = &own.yoke;
    let middle = y.width_mm / 2.0;
    let mut features = vec![rod_hole(e, y)];
    let (inner, outer) = (y.rod_y_mm - y.slot_mm / 2.0, y.rod_y_mm + y.slot_mm / 2.0);
    for left in [-y.half_mm, -inner, inner - y.leg_mm, outer] {
        let tag = fit("pin-hole", e.clevis.pin_mm, "N7").ra(1.6);
        let from = Point3::new(left, y.pin_z_mm, middle);
        features.push(
            through(from, along(1.0, 0.0, 0.0), e.clevis.pin_mm, y.leg_mm, tag).placed(Place::Coordinates),
        );
    }
    // the joint's x is the plate's thickness, its y the plate's length
    features.extend(p.yoke.centres.iter().map(|c| {
        let top = Point3::new(c.y, y.height_mm(), middle + c.x);
        let hole = y.screw.clearance_medium_mm;
        // a row each, so that the drawing tells how deep behind the face it stands
        let row = if c.x > 0.0 { "front-screw-hole" } else { "rear-screw-hole" };
        through(top, along(0.0, -1.0, 0.0), hole, y.bar_mm, Tag::new(row)).placed(Place::Coordinates)
    }));
    let tag = Tag::new("width").origin("yoke.width");
    let body = Body::Plate { outline: comb(y), thickness: y.width_mm, tag };
    made("piston-yoke", "Piston yoke", &e.drive.material, Recipe { body, features })
        .note("Ream each pair of pin holes in one pass, both pairs in line; press the pins in, the bearings turn on them.")
        .control(rules::square_axis("bush-seat", TOP_EDGE, rules::GUIDE))
        .control(rules::parallel("pin-hole", TOP_EDGE, rules::PARALLEL))
        .note("With the crown's bush the rod bore guides the displacer's rod.")
        .note("Screws with thread-locking compound.")
}
