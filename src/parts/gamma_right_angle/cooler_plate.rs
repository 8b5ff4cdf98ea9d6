//! Cooler plate: carries the displacer's cylinder, rod gland, crank bracket, and the drilling of the passage.
//! Datum: lower face, displacer axis.

use super::joints::Patterns;
use crate::parts::channels;
use crate::parts::gland::{cap_thread_mm, cold_thread_mm, controls, note, rod_bore};
use crate::parts::joints::Patterns as Common;
use crate::parts::kit::{along, at, bore, feature, fit, made, named};
use crate::parts::part::Part;
use crate::shape::control::UPPER_FACE;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, InsideThread, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::channels::CORNER_MM;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Blind hole from the cold space, flat at the bottom.
fn mouth(own: &RightAngle) -> Feature {
    let [diameter, depth] = own.passage.mouth_mm;
    let r = diameter / 2.0;
    let chain = vec![
        named(r, 0.0, Tag::new("transfer-mouth").origin("passage.mouth")),
        named(r, depth, Tag::new("transfer-mouth-depth")),
        at(0.0, depth),
    ];
    let place = Point3::new(own.passage.mouth_x_mm, own.places.piston_y_mm, own.plate_mm);
    bore("transfer-mouth", place, along(0.0, 0.0, -1.0), chain, End::Blind).placed(Place::Coordinates)
}

/// Drilling from the plate's edge to the mouth, tapped for its plug.
fn drilling(own: &RightAngle) -> Feature {
    let p = &own.passage;
    let r = p.drilling_mm / 2.0;
    let long = p.edge_x_mm - p.mouth_x_mm - p.mouth_mm[0] / 2.0;
    let chain = vec![named(r, 0.0, Tag::new("transfer-drilling")), at(r, long)];
    let inside = InsideThread {
        designation: p.plug.designation.clone(),
        depth: Some(p.plug_depth_mm),
        both_ends: false,
    };
    let kind = Kind::Bore { chain, end: End::Through, thread: Some(inside) };
    let origin = Point3::new(p.edge_x_mm, own.places.piston_y_mm, own.plate_mm / 2.0);
    feature("transfer-drilling", origin, along(-1.0, 0.0, 0.0), kind).placed(Place::Coordinates)
}

/// Seat of the tube and hole up into the drilling.
fn riser(own: &RightAngle) -> Feature {
    let p = &own.passage;
    let (seat, r) = (p.tube_mm[1] / 2.0, p.tube_mm[0] / 2.0);
    let chain = vec![
        named(seat, 0.0, fit("tube-seat", p.tube_mm[1], "H8").origin("passage.tube_diameter").ra(1.6)),
        named(seat, p.spigot_mm, Tag::new("tube-seat-depth").origin("passage.spigot")),
        named(r, p.spigot_mm, Tag::new("transfer-riser").origin("cooler.port_width")),
        at(r, own.plate_mm / 2.0 - p.drilling_mm / 2.0),
    ];
    let x = own.places.head_x_mm + own.head.thickness_mm / 2.0;
    let origin = Point3::new(x, own.places.piston_y_mm, 0.0);
    bore("transfer-riser", origin, along(0.0, 0.0, 1.0), chain, End::Through).placed(Place::Coordinates)
}

/// The part.
pub fn part(e: &Engine, own: &RightAngle, common: &Common, p: &Patterns) -> Part {
    let t = own.plate_mm;
    let [low, high] = own.plate_corners_mm.map(|[x, y]| Point2::new(x, y));
    let outline = Outline::Rectangle {
        low,
        high,
        corner: CORNER_MM,
        tags: [
            Tag::new("length").origin("cooler.plate_length"),
            Tag::new("width").origin("cooler.plate_width"),
        ],
    };
    let mut features = vec![rod_bore(e, 0.0, t), mouth(own), drilling(own), riser(own)];
    features.extend(common.cold.tapped("cold-flange-thread", 0.0, 0.0, t, -1.0, cold_thread_mm(e, t)));
    features.extend(p.plate.clearance("bracket-screw", 0.0, 0.0, t, t));
    let line = Vector3::new(1.0, 0.0, 0.0);
    features.extend(own.channels.iter().flat_map(|c| channels::features(c, line)));
    let depth = cap_thread_mm(e);
    features.extend(common.gland.tapped("rod-guide-thread", 0.0, 0.0, 0.0, 1.0, depth));
    let tag = Tag::new("thickness").origin("cooler.plate_thickness").ra(1.6);
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag }, features };
    let part = made("cooler-plate", "Cooler plate", &own.block.material, recipe)
        .note("Edges of the passage broken 0.5 mm where they can be reached.")
        .note(&format!(
            "Drill the passage from the edge into the mouth; close it with a plug {} and thread sealant.",
            own.passage.plug.designation
        ))
        .note(&note(e))
        .caution("No oil on the gas side: oil mist in hot compressed air can burn or explode.");
    let part = controls(e, UPPER_FACE).into_iter().fold(part, Part::control);
    own.channels.iter().fold(part, channels::told)
}
