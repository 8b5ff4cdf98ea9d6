//! Features that share a name are one group: one call-out, one size, several places.

use super::DrawingError;
use super::bore;
use super::callout::Row;
use super::pocket;
use super::texts;
use crate::shape::letters::labels;
use crate::shape::recipe::{End, Feature, Kind, Place};
use crate::shape::{Point3, Vector3};

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

/// What is said of a hole that ends in a bore, a slot, a groove or another hole of the part.
const INTO: &str = "through to inside";

/// A group of equal features.
#[derive(Clone, Debug)]
pub struct Group<'a> {
    /// Name of the group.
    pub name: &'a str,
    /// Its members.
    pub members: Vec<&'a Feature>,
    /// Which way their axes run.
    pub way: Way,
    /// What a hole is said to go through to: out of the part, or into a space inside it.
    pub way_out: &'static str,
    /// Whether a view shows the height of what stands out.
    pub height_shown: bool,
    /// Its letter, the same in all outputs.
    pub letter: String,
}

/// The groups of a list of features in the order in which they first appear.
///
/// # Errors
/// [`DrawingError::Skew`] for an axis that runs neither along nor across Z.
pub fn groups(features: &[Feature]) -> Result<Vec<Group<'_>>, DrawingError> {
    let mut list: Vec<Group> = Vec::new();
    for (feature, (letter, _)) in features.iter().zip(labels(features)) {
        let way = way(feature)?;
        match list.iter_mut().find(|g| g.name == feature.name && g.way == way) {
            Some(group) => group.members.push(feature),
            None => {
                let members = vec![feature];
                list.push(Group {
                    name: &feature.name,
                    members,
                    way,
                    way_out: "through",
                    height_shown: false,
                    letter,
                });
            }
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
    /// Says that its holes end in a space inside the part, where `is_inside` tells of the place where the first comes out.
    pub fn note_way_out(&mut self, is_inside: impl Fn(&Feature, Point3) -> bool) {
        let f = self.first();
        let Some((chain, End::Through, false)) = bore::turned(f) else { return };
        if is_inside(f, f.axis.origin + f.axis.direction * bore::deepest(chain)) {
            self.way_out = INTO;
        }
    }

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
            Kind::Bore { chain, end, thread } => {
                bore::rows(self.name, count, chain, *end, thread.as_ref(), self.way_out)
            }
            Kind::Boss { chain } => bore::rows(self.name, count, chain, End::Blind, None, self.way_out),
            Kind::Pocket { depth, through, .. } => {
                let deep =
                    if *through { "through".to_owned() } else { format!("↧{}", texts::plain(*depth)) };
                vec![Row::new(
                    format!("{}{} {deep}", times(count), pocket::text(self.first(), "pocket")),
                    &[self.name.into()],
                )]
            }
            Kind::Pad { height, .. } => {
                let high = if self.height_shown {
                    String::new()
                } else {
                    format!(", {} high", texts::plain(*height))
                };
                let text = format!("{}{}{high}", times(count), pocket::text(self.first(), "pad"));
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

/// An angle within one turn, so that a full one is written as none.
fn turned(angle: f64) -> String {
    let text = texts::plain(angle.rem_euclid(360.0));
    if text == "360" { "0".to_owned() } else { text }
}

/// Angles, shortly when they are even.
fn angles_text(angles: &[f64]) -> String {
    let n = angles.len();
    let step = 360.0 / n as f64;
    let even = n > 1 && angles.windows(2).all(|w| (w[1] - w[0] - step).abs() < 1e-6);
    match (n, even) {
        (1, _) => format!("at {}°", turned(angles[0])),
        (_, true) => format!("{n} × {}°, first at {}°", texts::number(step), turned(angles[0])),
        _ => {
            let list: Vec<String> = angles.iter().map(|a| format!("{}°", turned(*a))).collect();
            format!("at {}", list.join(", "))
        }
    }
}
