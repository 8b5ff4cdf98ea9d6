//! Turned surfaces one by one: what each of them is, and how it meets its neighbours.

use crate::shape::loops::{Leave, Piece, piece};
use crate::shape::recipe::{ProfileNode, Tag};
use crate::shape::{InnerSpace, Point2, Vector2};

/// What a turned surface is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Constant radius.
    Cylinder,
    /// Across the axis.
    Flat,
    /// A small bevel between a cylinder and a flat.
    Chamfer,
    /// Any other cone.
    Cone,
    /// A fillet, a round or a sphere.
    Arc,
    /// The axis itself: no surface.
    Axis,
}

/// One turned surface, in (r, z).
#[derive(Clone, Debug, PartialEq)]
pub struct Surface {
    /// Start.
    pub a: Point2,
    /// End.
    pub b: Point2,
    /// The line or arc between them.
    pub piece: Piece,
    /// What it is.
    pub form: Form,
    /// Its name and tolerance.
    pub tag: Option<Tag>,
}

/// Largest leg of a bevel that is called a chamfer \[mm\] (common practice, no source).
const CHAMFER_LEG: f64 = 3.0;

/// The surfaces of a profile; a closed one returns from its last node to the first.
pub fn surfaces(nodes: &[ProfileNode], closed: bool) -> Vec<Surface> {
    let n = nodes.len();
    let count = if closed { n } else { n.saturating_sub(1) };
    let mut list: Vec<Surface> = (0..count).map(|i| surface(&nodes[i], &nodes[(i + 1) % n])).collect();
    let forms: Vec<Form> = list.iter().map(|s| s.form).collect();
    for i in 0..count {
        let before = if i > 0 || closed { Some(forms[(i + count - 1) % count]) } else { None };
        let after = if i + 1 < count || closed { Some(forms[(i + 1) % count]) } else { None };
        if is_chamfer(&list[i], before, after) {
            list[i].form = Form::Chamfer;
        }
    }
    list
}

/// The surface between two nodes.
fn surface(from: &ProfileNode, to: &ProfileNode) -> Surface {
    let (a, b) = (Point2::new(from.r, from.z), Point2::new(to.r, to.z));
    let form = match from.leave {
        Leave::Arc { .. } => Form::Arc,
        Leave::Line if a.x.abs() < 1e-9 && b.x.abs() < 1e-9 => Form::Axis,
        Leave::Line if (a.x - b.x).abs() < 1e-9 => Form::Cylinder,
        Leave::Line if (a.y - b.y).abs() < 1e-9 => Form::Flat,
        Leave::Line => Form::Cone,
    };
    Surface { a, b, piece: piece(a, from.leave, b), form, tag: from.tag.clone() }
}

/// Whether a cone is a chamfer: short, and between a cylinder and a flat (or the mouth of a hole).
fn is_chamfer(s: &Surface, before: Option<Form>, after: Option<Form>) -> bool {
    let side = |f: Option<Form>| f.unwrap_or(Form::Flat);
    let pair = [side(before), side(after)];
    let short = (s.a - s.b).magnitude() <= CHAMFER_LEG * std::f64::consts::SQRT_2;
    let tip = s.a.x.abs() < 1e-9 || s.b.x.abs() < 1e-9;
    s.form == Form::Cone && short && !tip && pair.contains(&Form::Cylinder) && pair.contains(&Form::Flat)
}

impl Surface {
    /// Lower and upper z \[mm\].
    pub fn span(&self) -> (f64, f64) {
        (self.a.y.min(self.b.y), self.a.y.max(self.b.y))
    }

    /// Direction of travel at the start and at the end.
    pub fn directions(&self) -> (Vector2, Vector2) {
        let d = |t: f64| (self.piece.at(t + 1e-6) - self.piece.at(t)).normalize();
        (d(0.0), d(1.0 - 1e-6))
    }

    /// Whether this surface goes over into the next without a corner.
    pub fn is_tangent_to(&self, next: &Surface) -> bool {
        let (out, into) = (self.directions().1, next.directions().0);
        (out.x * into.y - out.y * into.x).abs() < 1e-3 && out.dot(into) > 0.0
    }

    /// Name of the surface, or one made up for it.
    pub fn name(&self, stem: &str, index: usize) -> String {
        self.tag.as_ref().map_or_else(|| format!("{stem}-{}", index + 1), |t| t.name.clone())
    }

    /// How a chamfer is written.
    pub fn chamfer_text(&self) -> String {
        let (dr, dz) = ((self.a.x - self.b.x).abs(), (self.a.y - self.b.y).abs());
        match (dr - dz).abs() < 1e-6 {
            true => format!("{} × 45°", super::texts::plain(dz)),
            false => {
                let angle = dr.atan2(dz).to_degrees();
                format!(
                    "{} × {}°",
                    super::texts::plain(dz),
                    super::texts::number((angle * 10.0).round() / 10.0)
                )
            }
        }
    }

    /// Full angle of a cone \[deg\].
    pub fn cone_angle_deg(&self) -> f64 {
        let (dr, dz) = ((self.a.x - self.b.x).abs(), (self.a.y - self.b.y).abs());
        (2.0 * dr.atan2(dz).to_degrees() * 10.0).round() / 10.0
    }

    /// Radius of an arc \[mm\].
    pub fn arc_radius(&self) -> f64 {
        match self.piece {
            Piece::Arc { radius, .. } => radius,
            Piece::Line { .. } => 0.0,
        }
    }
}

/// A run of surfaces that repeats along the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeat {
    /// Index of the first surface.
    pub start: usize,
    /// Surfaces in one period.
    pub period: usize,
    /// How often it is there.
    pub count: usize,
    /// Step along the axis \[mm\], signed.
    pub pitch: f64,
}

impl Repeat {
    /// Index in the first period of a surface of this run, or `None` outside it.
    pub fn first_of(&self, index: usize) -> Option<usize> {
        let offset = index.checked_sub(self.start)?;
        (offset < self.period * self.count).then(|| self.start + offset % self.period)
    }
}

/// The longest repetition of at least three equal periods that begins with a flat (fins, rows of grooves).
pub fn repetition(list: &[Surface]) -> Option<Repeat> {
    let starts = (0..list.len()).filter(|i| list[*i].form == Form::Flat);
    let runs = starts.flat_map(|start| (2..=16).filter_map(move |period| run(list, start, period)));
    runs.fold(None, |best: Option<Repeat>, r| match best {
        Some(b) if b.period * b.count >= r.period * r.count => Some(b),
        _ => Some(r),
    })
}

/// The repetition that begins at `start` with the given period, if there is one.
fn run(list: &[Surface], start: usize, period: usize) -> Option<Repeat> {
    let pitch = list.get(start + period)?.a.y - list[start].a.y;
    let fits = |i: usize| list.get(i + period).is_some_and(|next| is_shifted(&list[i], next, pitch));
    let like = (start..).take_while(|i| fits(*i)).count();
    let count = 1 + like / period;
    (count >= 3 && pitch.abs() > 1e-6).then_some(Repeat { start, period, count, pitch })
}

/// Whether `b` is `a` moved along the axis by `pitch`.
fn is_shifted(a: &Surface, b: &Surface, pitch: f64) -> bool {
    let d = Vector2::new(0.0, pitch);
    a.form == b.form
        && (a.a + d - b.a).magnitude() < 1e-6
        && (a.b + d - b.b).magnitude() < 1e-6
        && (a.arc_radius() - b.arc_radius()).abs() < 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fins_are_found_as_a_repetition() {
        let mut nodes = vec![ProfileNode::new(20.0, 0.0)];
        for i in 0..4 {
            let z = 2.0 + 6.0 * f64::from(i);
            nodes.extend(
                [(20.0, z), (12.0, z), (12.0, z + 4.0), (20.0, z + 4.0)].map(|(r, z)| ProfileNode::new(r, z)),
            );
        }
        nodes.push(ProfileNode::new(20.0, 26.0));
        let found = repetition(&surfaces(&nodes, false)).unwrap();
        assert_eq!((found.count, found.period), (4, 4));
        assert!((found.pitch - 6.0).abs() < 1e-9);
    }

    #[test]
    fn a_short_bevel_between_cylinder_and_flat_is_a_chamfer() {
        let nodes = [(0.0, 0.0), (9.0, 0.0), (10.0, 1.0), (10.0, 20.0)].map(|(r, z)| ProfileNode::new(r, z));
        let list = surfaces(&nodes, false);
        assert_eq!(list[1].form, Form::Chamfer);
        assert_eq!(super::super::units::Units::Mm.told(&list[1].chamfer_text()), "1 × 45°");
    }
}
