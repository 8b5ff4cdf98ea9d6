//! Features seen along Z: centre lines, threads, places to point at. Shared by the end view of turned
//! parts and the front view of plates.

use super::bore;
use super::group::Group;
use super::pen::Pen;
use super::pocket;
use super::texts;
use super::views::{Scale, Views, centre_cross, thread_circle};
use crate::shape::loops::{Piece, polar};
use crate::shape::recipe::{End, Feature, Kind, Place};
use crate::shape::{InnerSpace, Point2, Vector2};
use std::f64::consts::TAU;

/// Whether a feature comes out on the other side.
pub fn is_through(f: &Feature) -> bool {
    matches!(f.kind, Kind::Bore { end: End::Through, .. } | Kind::Pocket { through: true, .. })
}

/// How features are brought into a view along Z.
#[derive(Clone, Copy, Debug)]
pub struct FacePen {
    /// Seen from +z with x to the right, or from -z with x to the left.
    pub from_top: bool,
    /// Scale and place of the view.
    pub scale: Scale,
}

impl FacePen {
    /// A place (x, y) of the part on the paper.
    pub fn at(&self, x: f64, y: f64) -> Point2 {
        self.scale.point(Point2::new(if self.from_top { x } else { -x }, y))
    }

    /// Three quarters of a narrow circle.
    pub fn three_quarters(&self, views: &mut Views, centre: Point2, radius: f64) {
        thread_circle(&mut views.board, centre, radius * self.scale.factor);
    }

    /// Centre lines and thread of one feature off the axis.
    pub fn centre_lines(&self, views: &mut Views, f: &Feature) {
        if f.axis.direction.z.abs() < 0.5 {
            return self.radial(views, f);
        }
        self.thread(views, f);
        let Point2 { x, y } = pocket::place(f);
        let centre = self.at(x, y);
        let r = bore::turned(f).map_or(0.0, |(chain, ..)| bore::widest(chain)) * self.scale.factor;
        match f.place {
            Place::Circle { .. } => {
                let out = (centre - self.scale.origin).normalize() * (r + 2.5);
                views.board.line(Pen::Centre, centre - out, centre + out);
            }
            _ => centre_cross(&mut views.board, centre, r),
        }
    }

    /// The thread of a hole that opens towards the eye: a narrow three quarters of a circle (ISO 6410-1).
    pub fn thread(&self, views: &mut Views, f: &Feature) {
        let Kind::Bore { end, thread: Some(thread), .. } = &f.kind else { return };
        let faces_eye = (f.axis.direction.z < 0.0) == self.from_top;
        if let Some(d) =
            texts::thread_diameter(&thread.designation).filter(|_| faces_eye || *end == End::Through)
        {
            self.three_quarters(views, self.at(f.axis.origin.x, f.axis.origin.y), d / 2.0);
        }
    }

    /// The centre line of a radial hole.
    fn radial(&self, views: &mut Views, f: &Feature) {
        let Some((chain, ..)) = bore::turned(f) else { return };
        let (o, d) = (f.axis.origin, f.axis.direction);
        let at = |depth: f64| self.at(o.x + d.x * depth, o.y + d.y * depth);
        let end = bore::deepest(chain);
        let over = 3.0 / self.scale.factor;
        views.board.line(Pen::Centre, at(-over), at(end + over));
    }

    /// The circle on which a group lies.
    pub fn circle_of(&self, views: &mut Views, group: &Group) {
        if let Place::Circle { centre, diameter, .. } = group.first().place {
            let centre = self.at(centre.x, centre.y);
            let radius = diameter / 2.0 * self.scale.factor;
            views.board.draw(Pen::Centre, Piece::Arc { centre, radius, start: 0.0, sweep: TAU });
        }
    }

    /// Middles of the lines of an outline.
    fn outline_targets(&self, f: &Feature) -> Vec<Point2> {
        let y_axis = f.axis.direction.cross(f.x_axis);
        let at = |p: Point2| {
            let world = f.axis.origin + f.x_axis * p.x + y_axis * p.y;
            self.at(world.x, world.y)
        };
        let pieces = pocket::outline(f).map(|o| o.pieces()).unwrap_or_default();
        pieces.iter().flat_map(|piece| [0.3, 0.7].map(|t| at(piece.at(t)))).collect()
    }

    /// The two edges of the mouth of a hole that runs across the view.
    fn mouth(&self, f: &Feature) -> Vec<Point2> {
        let (o, d) = (f.axis.origin, f.axis.direction);
        let r = bore::turned(f).and_then(|(chain, ..)| chain.first().map(|n| n.r)).unwrap_or(0.0);
        [1.0, -1.0].map(|side| self.at(o.x - d.y * r * side, o.y + d.x * r * side)).to_vec()
    }

    /// Points on the rim of a hole that look away from the axis.
    pub fn rim_targets(&self, f: &Feature) -> Vec<Point2> {
        let centre = self.at(f.axis.origin.x, f.axis.origin.y);
        if f.axis.direction.z.abs() < 0.5 {
            return self.mouth(f);
        }
        let Some((chain, ..)) = bore::turned(f) else { return self.outline_targets(f) };
        let r = chain.first().map_or(0.0, |n| n.r) * self.scale.factor;
        let out: Vector2 = centre - self.scale.origin;
        let base = out.y.atan2(out.x);
        [-0.6, 0.0, 0.6].map(|d| polar(centre, r, base + d)).to_vec()
    }
}
