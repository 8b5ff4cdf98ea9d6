//! Features that share a name are one group: one call-out, one size, several places.

use super::DrawingError;
use super::bore;
use super::callout::Row;
use super::texts;
use crate::shape::Vector3;
use crate::shape::loops::{Loop, Piece};
use crate::shape::recipe::{End, Feature, Kind, Place};

/// Which way a feature's axis runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Along +Z.
    Up,
    /// Along -Z.
    Down,
    /// Across Z.
    Across,
}

/// A group of equal features.
#[derive(Clone, Debug)]
pub struct Group<'a> {
    /// Name of the group.
    pub name: &'a str,
    /// Its members.
    pub members: Vec<&'a Feature>,
    /// Which way their axes run.
    pub way: Way,
}

/// The groups of a list of features in the order in which they first appear.
///
/// # Errors
/// [`DrawingError::Skew`] for an axis that runs neither along nor across Z.
pub fn groups(features: &[Feature]) -> Result<Vec<Group<'_>>, DrawingError> {
    let mut list: Vec<Group> = Vec::new();
    for feature in features {
        let way = way(feature)?;
        match list.iter_mut().find(|g| g.name == feature.name && g.way == way) {
            Some(group) => group.members.push(feature),
            None => list.push(Group { name: &feature.name, members: vec![feature], way }),
        }
    }
    Ok(list)
}

/// Which way the axis of a feature runs.
fn way(feature: &Feature) -> Result<Way, DrawingError> {
    let d: Vector3 = feature.axis.direction;
    match d.z {
        z if z > 1.0 - 1e-9 => Ok(Way::Up),
        z if z < -1.0 + 1e-9 => Ok(Way::Down),
        z if z.abs() < 1e-9 => Ok(Way::Across),
        _ => Err(DrawingError::Skew { feature: feature.name.clone() }),
    }
}

impl Group<'_> {
    /// The member that stands for all.
    pub fn first(&self) -> &Feature {
        self.members[0]
    }

    /// Whether it lies on the z axis.
    pub fn is_coaxial(&self) -> bool {
        let o = self.first().axis.origin;
        self.members.len() == 1 && self.way != Way::Across && o.x.hypot(o.y) < 1e-9
    }

    /// What the call-out says of size and depth, in a view from the top (+z) or from below.
    pub fn size_rows(&self, from_top: bool) -> Vec<Row> {
        let count = self.members.len();
        let mut rows = match &self.first().kind {
            Kind::Bore { chain, end, thread } => bore::rows(self.name, count, chain, *end, thread.as_ref()),
            Kind::Boss { chain } => bore::rows(self.name, count, chain, End::Blind, None),
            Kind::Pocket { outline, depth, through } => {
                let deep =
                    if *through { "through".to_owned() } else { format!("↧{}", texts::plain(*depth)) };
                vec![Row::new(
                    format!("{}pocket {} {deep}", times(count), outline_text(outline)),
                    &[self.name.into()],
                )]
            }
            Kind::Pad { outline, height } => {
                let text =
                    format!("{}pad {}, {} high", times(count), outline_text(outline), texts::plain(*height));
                vec![Row::new(text, &[self.name.into()])]
            }
        };
        if let Some(first) = rows.first_mut().filter(|_| self.is_far(from_top)) {
            first.text = format!("{} (from far side)", first.text);
        }
        rows
    }

    /// Whether it is made from the face that looks away, and is not a plain hole right through.
    fn is_far(&self, from_top: bool) -> bool {
        let plain = match &self.first().kind {
            Kind::Bore { end, chain, .. } => *end == End::Through && chain.len() == 2,
            Kind::Pocket { through, .. } => *through,
            Kind::Boss { .. } | Kind::Pad { .. } => false,
        };
        let out = matches!(self.first().kind, Kind::Boss { .. } | Kind::Pad { .. });
        let faces = if out == from_top { Way::Up } else { Way::Down };
        !plain && self.way != Way::Across && self.way != faces
    }

    /// What the call-out says of the place, for circles and radial places.
    pub fn place_rows(&self) -> Vec<Row> {
        let name = |suffix: &str| vec![format!("{}-{suffix}", self.name)];
        match &self.first().place {
            Place::Circle { diameter, angles_deg, .. } => {
                let on = format!("on ⌀{}, {}", texts::plain(*diameter), angles_text(angles_deg));
                vec![Row::new(on, &name("circle"))]
            }
            Place::Radial { .. } => {
                let angles: Vec<f64> = self.members.iter().filter_map(|m| radial_angle(&m.place)).collect();
                vec![Row::new(angles_text(&angles), &name("angle"))]
            }
            Place::Central | Place::Coordinates => Vec::new(),
        }
    }
}

/// `4× `, or nothing for a single one.
fn times(count: usize) -> String {
    if count > 1 { format!("{count}× ") } else { String::new() }
}

/// Angle of a radial place \[deg\].
fn radial_angle(place: &Place) -> Option<f64> {
    match place {
        Place::Radial { angle_deg, .. } => Some(*angle_deg),
        _ => None,
    }
}

/// Angles, shortly when they are even.
fn angles_text(angles: &[f64]) -> String {
    let n = angles.len();
    let step = 360.0 / n as f64;
    let even = n > 1 && angles.windows(2).all(|w| (w[1] - w[0] - step).abs() < 1e-6);
    match (n, even) {
        (1, _) => format!("at {}°", texts::plain(angles[0])),
        (_, true) => format!("{n} × {}°, first at {}°", texts::plain(step), texts::plain(angles[0])),
        _ => {
            let list: Vec<String> = angles.iter().map(|a| format!("{}°", texts::plain(*a))).collect();
            format!("at {}", list.join(", "))
        }
    }
}

/// How the outline of a pocket or pad is written: circle, rectangle, slot, or its overall size.
pub fn outline_text(outline: &Loop) -> String {
    let (low, high) = outline.bounds();
    let (w, h) = (texts::plain(high.x - low.x), texts::plain(high.y - low.y));
    match outline {
        Loop::Circle { radius, .. } => format!("⌀{}", texts::plain(2.0 * radius)),
        Loop::Path(_) => match corner_radius(outline) {
            Some(r) if r > 1e-9 => format!("{w} × {h}, R{}", texts::plain(r)),
            _ => format!("{w} × {h}"),
        },
    }
}

/// The one radius of all arcs of an outline, if they are equal.
fn corner_radius(outline: &Loop) -> Option<f64> {
    let radii: Vec<f64> = outline
        .pieces()
        .iter()
        .filter_map(|p| match p {
            Piece::Arc { radius, .. } => Some(*radius),
            Piece::Line { .. } => None,
        })
        .collect();
    let first = *radii.first()?;
    radii.iter().all(|r| (r - first).abs() < 1e-9).then_some(first)
}
