//! Sizes of outlines.

use super::List;
use crate::shape::loops::{Leave, Loop, Node};
use crate::shape::outline::{Outline, rectangle};
use crate::shape::recipe::{Feature, Tag};
use crate::shape::solid::Frame;
use crate::shape::{InnerSpace, Point2};

/// Sizes of a plate's outside.
pub(super) fn plate(list: &mut List, outline: &Outline) {
    match outline {
        Outline::Disc { centre, diameter, tag } => {
            list.tagged(tag, "diameter", *diameter);
            list.unless_zero("centre-x", centre.x);
            list.unless_zero("centre-y", centre.y);
        }
        Outline::Rectangle { low, high, corner, tags } => {
            list.tagged(&tags[0], "width", high.x - low.x);
            list.tagged(&tags[1], "height", high.y - low.y);
            list.unless_zero("corner-radius", *corner);
            list.unless_zero("middle-x", 0.5 * (low.x + high.x));
            list.unless_zero("middle-y", 0.5 * (low.y + high.y));
        }
        Outline::Hull { circles, name } => {
            for (i, (centre, radius)) in circles.iter().enumerate() {
                let name = format!("{name}-{}", i + 1);
                list.plain(&name, *radius, "mm");
                list.unless_zero(&format!("{name}-x"), centre.x);
                list.unless_zero(&format!("{name}-y"), centre.y);
            }
        }
        Outline::Free { boundary, sizes } => {
            sizes.iter().for_each(|(tag, measure)| list.tagged(tag, "outline", measure.value()));
            if sizes.is_empty() {
                local(list, "outline", boundary);
            } else {
                // Whatever the named sizes leave out shows in the length of the boundary.
                list.plain("outline-length", boundary.length(), "mm");
            }
        }
    }
}

/// Sizes of a loop in local coordinates.
pub(super) fn local(list: &mut List, name: &str, outline: &Loop) {
    match outline {
        Loop::Circle { centre, radius } => {
            list.tagged(&Tag::default(), &format!("{name}-diameter"), 2.0 * radius);
            list.unless_zero(&format!("{name}-local-x"), centre.x);
            list.unless_zero(&format!("{name}-local-y"), centre.y);
        }
        Loop::Path(nodes) => match corner_of(outline, nodes) {
            Some(corner) => rounded(list, name, outline, corner),
            None => nodes
                .iter()
                .enumerate()
                .for_each(|(i, node)| corner_sizes(list, &format!("{name}-corner-{}", i + 1), node)),
        },
    }
}

/// Angle \[deg\] by which the outline is turned in its face, where it is.
pub(super) fn turned(list: &mut List, name: &str, feature: &Feature, outline: &Loop) {
    let frame = Frame::about(feature.axis.origin, feature.axis.direction);
    let angle = frame.angle(feature.axis.origin + feature.x_axis).to_degrees();
    if matches!(outline, Loop::Path(_)) && angle.abs() > 1e-9 {
        list.plain(&format!("{name}-turned"), angle, "deg");
    }
}

/// The corner radius, if the loop is a rectangle along the axes with equal corners; a slot is one whose corners
/// meet. Told by bounds, area and length together, so that it does not matter how its arcs are cut.
fn corner_of(outline: &Loop, nodes: &[Node]) -> Option<f64> {
    let (low, high) = outline.bounds();
    let arc = |n: &Node| match n.leave {
        Leave::Arc { centre, .. } => Some((n.at - centre).magnitude()),
        Leave::Line => None,
    };
    let corner = nodes.iter().find_map(arc).unwrap_or(0.0);
    let even = nodes.iter().filter_map(arc).all(|r| (r - corner).abs() < 1e-9);
    let there = rectangle(low, high, corner);
    let fits = 2.0 * corner <= (high.x - low.x).min(high.y - low.y) + 1e-9;
    let same = |a: f64, b: f64| (a.abs() - b.abs()).abs() < 1e-6;
    (even && fits && same(there.area(), outline.area()) && same(there.length(), outline.length()))
        .then_some(corner)
}

fn rounded(list: &mut List, name: &str, outline: &Loop, corner: f64) {
    let (low, high): (Point2, Point2) = outline.bounds();
    list.plain(&format!("{name}-width"), high.x - low.x, "mm");
    list.plain(&format!("{name}-length"), high.y - low.y, "mm");
    list.unless_zero(&format!("{name}-corner"), corner);
    list.unless_zero(&format!("{name}-local-x"), 0.5 * (low.x + high.x));
    list.unless_zero(&format!("{name}-local-y"), 0.5 * (low.y + high.y));
}

fn corner_sizes(list: &mut List, name: &str, node: &Node) {
    list.plain(&format!("{name}-x"), node.at.x, "mm");
    list.plain(&format!("{name}-y"), node.at.y, "mm");
    if let Leave::Arc { centre, ccw } = node.leave {
        let radius = (node.at - centre).magnitude();
        list.plain(&format!("{name}-radius"), if ccw { radius } else { -radius }, "mm");
    }
}
