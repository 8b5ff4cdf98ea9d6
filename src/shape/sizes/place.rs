//! Sizes that place a group of features.

use super::List;
use crate::shape::Vector3;
use crate::shape::loops::wrap;
use crate::shape::recipe::{Feature, Place};
use std::f64::consts::TAU;

/// Count and places of the members.
pub(super) fn group(list: &mut List, name: &str, members: &[&Feature]) {
    let n = members.len();
    if n > 1 {
        list.plain(&format!("{name}-count"), n as f64, "1");
    }
    let mut circles: Vec<&Place> = Vec::new();
    for (i, member) in members.iter().enumerate() {
        let suffix = if n > 1 { format!("-{}", i + 1) } else { String::new() };
        match &member.place {
            Place::Central => coordinates(list, name, &suffix, member, false),
            Place::Coordinates => coordinates(list, name, &suffix, member, true),
            Place::Radial { z, angle_deg } => {
                list.plain(&format!("{name}-z{suffix}"), *z, "mm");
                list.plain(&format!("{name}-angle{suffix}"), *angle_deg, "deg");
            }
            place @ Place::Circle { .. } if circles.contains(&place) => {}
            place @ Place::Circle { .. } => {
                circle(list, name, place);
                circles.push(place);
            }
        }
    }
}

fn circle(list: &mut List, name: &str, place: &Place) {
    let Place::Circle { centre, diameter, angles_deg } = place else { return };
    list.plain(&format!("{name}-circle-diameter"), *diameter, "mm");
    list.unless_zero(&format!("{name}-circle-x"), centre.x);
    list.unless_zero(&format!("{name}-circle-y"), centre.y);
    if even(angles_deg) {
        angles_deg.first().into_iter().for_each(|a| list.plain(&format!("{name}-first-angle"), *a, "deg"));
        return;
    }
    for (i, angle) in angles_deg.iter().enumerate() {
        list.plain(&format!("{name}-angle-{}", i + 1), *angle, "deg");
    }
}

/// Whether the angles are spread evenly over the turn, in order.
fn even(angles_deg: &[f64]) -> bool {
    let step = TAU / angles_deg.len().max(1) as f64;
    angles_deg.windows(2).all(|w| (wrap((w[1] - w[0]).to_radians()) - step).abs() < 1e-9)
}

/// Coordinates across the feature's direction.
fn coordinates(list: &mut List, name: &str, suffix: &str, member: &Feature, zeros: bool) {
    let (o, d) = (member.axis.origin, member.axis.direction);
    let axes = [("x", Vector3::unit_x(), o.x), ("y", Vector3::unit_y(), o.y), ("z", Vector3::unit_z(), o.z)];
    for (axis, e, value) in axes {
        let along = (d - e).x.abs() + (d - e).y.abs() + (d - e).z.abs() < 1e-9
            || (d + e).x.abs() + (d + e).y.abs() + (d + e).z.abs() < 1e-9;
        let name = format!("{name}-{axis}{suffix}");
        match (along, zeros) {
            (true, _) => {}
            (false, true) => list.plain(&name, value, "mm"),
            (false, false) => list.unless_zero(&name, value),
        }
    }
}
