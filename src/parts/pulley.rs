//! Timing pulley: flange disc, toothed rim, hub with set screw. Datum: the flange's face towards the hub.

use super::geometry_rules as rules;
use super::kit::{along, at, feature, fit, made, named, tapped_through, through};
use super::part::Part;
use crate::catalogue::belts::{BeltSection, Groove, belt_section};
use crate::shape::control::Control;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Point3, Vector2};
use crate::sizing::engine::Belt;
use crate::sizing::layouts::common::hub::set_screw_mm;
use std::f64::consts::TAU;

/// One side of a groove in the tooth frame (x along the rim, y outwards from the pulley's axis) \[mm\]:
/// corners from the outside circle down, and the arc centres.
struct Side {
    rim: Point2,
    tip_centre: Option<Point2>,
    upper: Point2,
    lower: Point2,
    bottom_centre: Option<Point2>,
}

/// Right-hand side of a curvilinear groove: bottom arc, straight flank and tip arc, each tangent to the next.
///
/// With the bottom arc's centre C on the groove's middle, R its radius, β half the flank angle,
/// n = (cos β, −sin β) the flank's normal and d = (sin β, cos β) its direction: the flank leaves the arc at
/// C + R n; the tip's centre is F = C + (R + r) n + s d with |F| = R_outside − r.
fn curvilinear(outside_r: f64, depth: f64, bottom_r: f64, tip_r: f64, included_deg: f64) -> Side {
    let beta = (included_deg / 2.0).to_radians();
    let n = Vector2::new(beta.cos(), -beta.sin());
    let d = Vector2::new(beta.sin(), beta.cos());
    let c = Point2::new(0.0, outside_r - depth + bottom_r);
    let start = c + n * (bottom_r + tip_r);
    let along = start.to_vec().dot(d);
    let reach = outside_r - tip_r;
    let s = -along + (along * along - start.to_vec().magnitude2() + reach * reach).max(0.0).sqrt();
    let f = start + d * s;
    Side {
        rim: Point2::from_vec(f.to_vec() * (outside_r / f.to_vec().magnitude())),
        tip_centre: Some(f),
        upper: f - n * tip_r,
        lower: c + n * bottom_r,
        bottom_centre: Some(c),
    }
}

/// Right-hand side of a straight groove with a flat bottom.
fn straight(outside_r: f64, depth: f64, root: f64, top: f64) -> Side {
    let half = top / 2.0;
    let rim = Point2::new(half, (outside_r * outside_r - half * half).sqrt());
    let lower = Point2::new(root / 2.0, outside_r - depth);
    Side { rim, tip_centre: None, upper: rim, lower, bottom_centre: None }
}

/// The rim with all its grooves, counter-clockwise.
pub fn rim(section: &BeltSection, teeth: usize) -> Loop {
    let r = section.outside_diameter_mm(teeth) / 2.0;
    let side = match *section.groove(teeth) {
        Groove::Curvilinear { depth_mm, bottom_radius_mm, tip_radius_mm, included_angle_deg, .. } => {
            curvilinear(r, depth_mm, bottom_radius_mm, tip_radius_mm, included_angle_deg)
        }
        Groove::Straight { depth_mm, root_width_mm, top_width_mm, .. } => {
            straight(r, depth_mm, root_width_mm, top_width_mm)
        }
    };
    let nodes = (0..teeth).flat_map(|i| groove(&side, TAU * i as f64 / teeth as f64)).collect();
    Loop::Path(nodes)
}

/// One groove turned to `angle` \[rad\]; a counter-clockwise walk meets its right-hand side first.
fn groove(side: &Side, angle: f64) -> Vec<Node> {
    let (sin, cos) = angle.sin_cos();
    let place = |p: Point2, flip: f64| {
        let x = p.x * flip;
        Point2::new(x * cos - p.y * sin, x * sin + p.y * cos)
    };
    let arc = |p: Point2, centre: Point2, flip: f64, ccw: bool| {
        let (p, c) = (place(p, flip), place(centre, flip));
        Node::arc(p.x, p.y, c.x, c.y, ccw)
    };
    let line = |p: Point2, flip: f64| {
        let p = place(p, flip);
        Node::line(p.x, p.y)
    };
    let mut nodes = Vec::with_capacity(6);
    if let Some(f) = side.tip_centre {
        nodes.push(arc(side.rim, f, 1.0, true));
    }
    nodes.push(line(side.upper, 1.0));
    nodes.push(match side.bottom_centre {
        Some(c) => arc(side.lower, c, 1.0, false),
        None => line(side.lower, 1.0),
    });
    nodes.push(line(side.lower, -1.0));
    if let Some(f) = side.tip_centre {
        nodes.push(arc(side.upper, f, -1.0, true));
    }
    let end = place(side.rim, -1.0);
    nodes.push(Node::arc(end.x, end.y, 0.0, 0.0, true));
    nodes
}

/// Hub below the flange.
fn hub(b: &Belt) -> Feature {
    let [d, l] = b.hub_mm;
    let chain = vec![
        named(d / 2.0, 0.0, Tag::new("hub-diameter")),
        named(d / 2.0, l, Tag::new("hub-length")),
        at(0.0, l),
    ];
    feature("hub", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, -1.0), Kind::Boss { chain })
}

/// Toothed rim on a flange of `thick` \[mm\]; `None` for an unknown section.
pub fn rim_feature(b: &Belt, thick: f64) -> Option<Feature> {
    let kind = Kind::Pad { outline: rim(belt_section(&b.section).ok()?, b.pulley_teeth), height: b.face_mm };
    Some(feature("rim", Point3::new(0.0, 0.0, thick), along(0.0, 0.0, 1.0), kind))
}

/// The toothed rim of a pulley runs true about its bore.
pub fn rim_true() -> Control {
    rules::runout("rim", "bore", rules::BELT)
}

/// Tooth data of a pulley as its sheet says them; `None` for an unknown section.
pub fn teeth_in_words(b: &Belt) -> Option<String> {
    Some(tooth_note(belt_section(&b.section).ok()?, b.pulley_teeth))
}

/// What every pulley's sheet says.
pub const CAUTION: &str = "Belt and pulleys pull fingers in: fit a guard that only a tool opens.";

/// Set screws of `quantity` pulleys on a shaft of `bore_d` \[mm\].
pub fn set_screw(b: &Belt, bore_d: f64, name: &str, title: &str, quantity: usize) -> Part {
    let long = set_screw_mm(b.set_screw, (b.hub_mm[0] - bore_d) / 2.0);
    let what = format!("ISO 4026 {}x{long}", b.set_screw.designation);
    super::bought::steel(name, title, what, quantity)
}

/// The piston's timing pulley.
pub fn timing(b: &Belt, bore_d: f64) -> Part {
    part(b, bore_d, "timing-pulley", "Timing pulley of the piston", 1)
        .note("Set screw onto a flat of the journal, filed at assembly, hub towards the bracket: its flange and the other pulley's hold the belt.")
        .caution(CAUTION)
}

/// A pulley on a shaft of `bore_d` \[mm\].
pub fn part(b: &Belt, bore_d: f64, name: &str, title: &str, quantity: usize) -> Part {
    let [flange, flange_d] = b.flange_mm;
    let [hub_d, hub_l] = b.hub_mm;
    let outline =
        Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: flange_d, tag: Tag::new("flange-diameter") };
    let mut features: Vec<Feature> = rim_feature(b, flange).into_iter().collect();
    let length = flange + b.face_mm + hub_l;
    let top = Point3::new(0.0, 0.0, flange + b.face_mm);
    let z = -hub_l / 2.0;
    let screw = b.set_screw;
    features.push(hub(b));
    features.push(through(top, along(0.0, 0.0, -1.0), bore_d, length, fit("bore", bore_d, "H7").ra(1.6)));
    let (r, reach) = (hub_d / 2.0, (hub_d - bore_d) / 2.0);
    features.push(
        tapped_through(
            "set-screw",
            Point3::new(r, 0.0, z),
            along(-1.0, 0.0, 0.0),
            &screw.designation,
            screw.tap_drill_mm,
            reach,
        )
        .placed(Place::Radial { z, angle_deg: 0.0 }),
    );
    let recipe = Recipe {
        body: Body::Plate { outline, thickness: flange, tag: Tag::new("flange-thickness") },
        features,
    };
    let mut part = made(name, title, "aluminium-6082", recipe).times(quantity).control(rim_true());
    part.notes = teeth_in_words(b).into_iter().collect();
    part
}

/// Tooth data in words, as a pulley is ordered or cut.
fn tooth_note(section: &BeltSection, teeth: usize) -> String {
    let head = format!(
        "{teeth} grooves {} ({}), pitch {} mm, pitch diameter {:.3} mm, outside diameter {:.3} mm",
        section.name,
        section.standard,
        section.pitch_mm,
        section.pitch_diameter_mm(teeth),
        section.outside_diameter_mm(teeth)
    );
    match *section.groove(teeth) {
        Groove::Curvilinear { depth_mm, bottom_radius_mm, tip_radius_mm, included_angle_deg, .. } => format!(
            "{head}; groove {depth_mm} mm deep, bottom R{bottom_radius_mm}, flanks {included_angle_deg}° included, tips R{tip_radius_mm}."
        ),
        Groove::Straight { depth_mm, root_width_mm, top_width_mm, .. } => {
            format!(
                "{head}; groove {depth_mm} mm deep, {root_width_mm} mm wide at the root, {top_width_mm} mm at the rim."
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Top width of the groove, flank lines met with the outside circle, against the handbook's 1.90 mm for 3M
    /// (makers' tables; 1.925 follows from the included angle of 14°).
    #[test]
    fn groove_of_3m_has_the_handbook_top_width() {
        let section = belt_section("3M").unwrap();
        let r = section.outside_diameter_mm(40) / 2.0;
        let side = curvilinear(r, 1.28, 0.91, 0.30, 14.0);
        let d = side.upper - side.lower;
        let t = (r - side.lower.y) / d.y;
        let width = 2.0 * (side.lower.x + d.x * t);
        assert!((width - 1.90).abs() < 0.06, "{width}");
    }

    #[test]
    fn rim_closes_and_arcs_meet_their_ends() {
        for (name, teeth) in [("3M", 18), ("3M", 24), ("5M", 20)] {
            let section = belt_section(name).unwrap();
            let Loop::Path(nodes) = rim(section, teeth) else { panic!("a rim is a path") };
            for (i, n) in nodes.iter().enumerate() {
                if let crate::shape::loops::Leave::Arc { centre, .. } = n.leave {
                    let next = nodes[(i + 1) % nodes.len()].at;
                    let (a, b) = ((n.at - centre).magnitude(), (next - centre).magnitude());
                    assert!((a - b).abs() < 1e-9, "{name} {teeth}: node {i}: {a} and {b}");
                }
            }
        }
    }
}
