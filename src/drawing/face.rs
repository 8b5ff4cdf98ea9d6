//! Features seen along Z: circles, outlines, hidden edges, centre lines. Shared by the end view of turned
//! parts and the front view of plates.

use super::bore;
use super::group::Group;
use super::pen::Pen;
use super::pocket;
use super::texts;
use super::views::{Scale, Views, centre_cross, draw_mapped};
use crate::shape::loops::{Piece, polar};
use crate::shape::recipe::{End, Feature, Kind, Place};
use crate::shape::{InnerSpace, Point2, Vector2};
use std::f64::consts::{PI, TAU};

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
        let piece = Piece::Arc { centre, radius: radius * self.scale.factor, start: 0.1, sweep: 1.5 * PI };
        views.board.draw(Pen::Thread, piece);
    }

    /// One feature off the axis.
    pub fn feature(&self, views: &mut Views, f: &Feature) {
        if f.axis.direction.z.abs() < 0.5 {
            return self.radial(views, f);
        }
        self.feature_circles(views, f);
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

    /// The circles of a bore or boss: visible where it opens towards the eye, hidden where it does not.
    pub fn feature_circles(&self, views: &mut Views, f: &Feature) {
        let centre = self.at(f.axis.origin.x, f.axis.origin.y);
        let Some((chain, end, adds)) = bore::turned(f) else { return self.outline(views, f) };
        let faces_eye = (f.axis.direction.z > 0.0) == (self.from_top == adds);
        let through = end == End::Through;
        if !faces_eye && !through {
            let r = bore::widest(chain) * self.scale.factor;
            return views.board.circle(Pen::Hidden, centre, r);
        }
        let mut radii: Vec<f64> = chain.iter().map(|n| n.r).collect();
        if !faces_eye {
            radii.reverse();
        }
        let mut open = f64::INFINITY;
        for r in radii.into_iter().filter(|r| *r > 1e-6) {
            let seen = if adds { true } else { r < open - 1e-6 };
            if seen {
                views.board.circle(Pen::Visible, centre, r * self.scale.factor);
                open = r;
            }
        }
        if let Kind::Bore { thread: Some(thread), .. } = &f.kind
            && let Some(d) = texts::thread_diameter(&thread.designation)
        {
            self.three_quarters(views, centre, d / 2.0);
        }
    }

    /// The outline of a pocket or pad.
    fn outline(&self, views: &mut Views, f: &Feature) {
        let (Kind::Pocket { outline, .. } | Kind::Pad { outline, .. }) = &f.kind else { return };
        let y_axis = f.axis.direction.cross(f.x_axis);
        let adds = matches!(f.kind, Kind::Pad { .. });
        let faces_eye = (f.axis.direction.z > 0.0) == (self.from_top == adds);
        let pen = if faces_eye || is_through(f) { Pen::Visible } else { Pen::Hidden };
        for piece in outline.pieces() {
            let place = |p: Point2| {
                let world = f.axis.origin + f.x_axis * p.x + y_axis * p.y;
                self.at(world.x, world.y)
            };
            draw_mapped(&mut views.board, pen, &piece, &place);
        }
    }

    /// A radial hole: its edges hidden, its centre line.
    fn radial(&self, views: &mut Views, f: &Feature) {
        let Some((chain, ..)) = bore::turned(f) else { return };
        let (o, d) = (f.axis.origin, f.axis.direction);
        let at = |depth: f64, aside: f64| {
            self.at(o.x + d.x * depth - d.y * aside, o.y + d.y * depth + d.x * aside)
        };
        for w in chain.windows(2) {
            for side in [1.0, -1.0] {
                views.board.line(Pen::Hidden, at(w[0].z, w[0].r * side), at(w[1].z, w[1].r * side));
            }
        }
        let end = bore::deepest(chain);
        let over = 3.0 / self.scale.factor;
        views.board.line(Pen::Centre, at(-over, 0.0), at(end + over, 0.0));
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
