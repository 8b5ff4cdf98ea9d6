//! The view of a turned part along its axis: circles, bolt circles and what lies on them.

use super::board::Frame;
use super::bore;
use super::callout::{Callout, Tip};
use super::group::{Group, Way};
use super::hole_table;
use super::pen::Pen;
use super::surface::Form;
use super::texts;
use super::turned::Turned;
use super::views::{Scale, Views, centre_cross};
use crate::shape::loops::{Piece, polar};
use crate::shape::recipe::{End, Feature, Kind, Place};
use crate::shape::{InnerSpace, Point2, Vector2};
use std::f64::consts::{PI, TAU};

/// Air between the views \[mm\].
const BETWEEN: f64 = 12.0;

/// From which end the part is seen and where the view stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndView {
    /// Seen from +z (x to the right), or from -z (x to the left).
    from_top: bool,
    /// Stands to the right of the section.
    right: bool,
    /// First or third angle side and scale of the section.
    factor: f64,
}

/// Chooses the end from which more can be seen. In first angle the view from the right stands on the left.
pub fn plan(part: &Turned, scale: &Scale, first_angle: bool) -> EndView {
    let opens = |g: &&Group, way: Way| !g.is_coaxial() && g.way == way && !is_through(g.first());
    let low = part.groups.iter().filter(|g| opens(g, Way::Up)).count();
    let high = part.groups.iter().filter(|g| opens(g, Way::Down)).count();
    let from_top = high >= low;
    EndView { from_top, right: from_top != first_angle, factor: scale.factor }
}

/// Whether a bore comes out on the other side.
fn is_through(f: &Feature) -> bool {
    matches!(f.kind, Kind::Bore { end: End::Through, .. } | Kind::Pocket { through: true, .. })
}

/// Draws the end view beside what is already on the board.
pub fn draw(views: &mut Views, part: &Turned, section: &Scale, view: EndView) {
    let reach = part.radius() * view.factor;
    let bounds = views.board.bounds();
    let x = match view.right {
        true => bounds.high.x + BETWEEN + reach,
        false => bounds.low.x - BETWEEN - reach,
    };
    let scale = Scale { factor: view.factor, origin: Point2::new(x, section.origin.y) };
    let pen = EndPen { view, scale };
    for r in visible_radii(part, view.from_top) {
        views.board.circle(Pen::Visible, scale.origin, r * scale.factor);
    }
    thread_circles(views, part, &pen);
    centre_cross(&mut views.board, scale.origin, reach);
    let frame = Frame::new(x - reach, scale.origin.y - reach, 2.0 * reach, 2.0 * reach);
    for group in part.groups.iter().filter(|g| !g.is_coaxial()) {
        group.members.iter().for_each(|f| pen.feature(views, f));
        pen.circle_of(views, group);
    }
    for group in part.groups.iter().filter(|g| g.is_coaxial()) {
        pen.feature_circles(views, group.first());
    }
    pen.call_outs(views, part, &frame);
}

/// Radii of the body's edges that can be seen along the axis.
fn visible_radii(part: &Turned, from_top: bool) -> Vec<f64> {
    let ends = part
        .nodes
        .iter()
        .map(|n| n.z)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |e, z| (e.0.min(z), e.1.max(z)));
    let end = if from_top { ends.1 + 1e-3 } else { ends.0 - 1e-3 };
    let body = super::section::Section {
        shapes: vec![super::section::Shape {
            outline: super::frame_map::PlaneAxis::LEVEL.body(part.nodes, 1.0),
            adds: true,
        }],
        rims: Vec::new(),
    };
    let free = |r: f64, z: f64| {
        (0..80).all(|i| !body.is_metal(Point2::new(z + (end - z) * (f64::from(i) + 0.5) / 80.0, r)))
    };
    let mut radii: Vec<f64> = Vec::new();
    for (i, n) in part.nodes.iter().enumerate() {
        let before = &part.body[(i + part.body.len() - 1) % part.body.len()];
        let soft = before.form != Form::Axis && before.is_tangent_to(&part.body[i]);
        let seen = free(n.r + 2e-3, n.z) || free((n.r - 2e-3).max(0.0), n.z);
        if n.r > 1e-6 && !soft && seen && !radii.iter().any(|r| (r - n.r).abs() < 1e-6) {
            radii.push(n.r);
        }
    }
    radii
}

/// Narrow circles of outside threads (ISO 6410-1: about three quarters of a circle).
fn thread_circles(views: &mut Views, part: &Turned, pen: &EndPen) {
    for s in part.body.iter().filter(|s| s.tag.as_ref().is_some_and(|t| t.thread.is_some())) {
        pen.three_quarters(views, pen.scale.origin, texts::thread_root(s.a.x));
    }
}

/// How things are brought into the end view.
struct EndPen {
    view: EndView,
    scale: Scale,
}

impl EndPen {
    /// A place (x, y) of the part on the paper.
    fn at(&self, x: f64, y: f64) -> Point2 {
        self.scale.point(Point2::new(if self.view.from_top { x } else { -x }, y))
    }

    /// Three quarters of a narrow circle.
    fn three_quarters(&self, views: &mut Views, centre: Point2, radius: f64) {
        let piece = Piece::Arc { centre, radius: radius * self.scale.factor, start: 0.1, sweep: 1.5 * PI };
        views.board.draw(Pen::Thread, piece);
    }

    /// One feature off the axis.
    fn feature(&self, views: &mut Views, f: &Feature) {
        if f.axis.direction.z.abs() < 0.5 {
            return self.radial(views, f);
        }
        self.feature_circles(views, f);
        let centre = self.at(f.axis.origin.x, f.axis.origin.y);
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
    fn feature_circles(&self, views: &mut Views, f: &Feature) {
        let centre = self.at(f.axis.origin.x, f.axis.origin.y);
        let Some((chain, end, adds)) = bore::turned(f) else { return self.outline(views, f) };
        let faces_eye = (f.axis.direction.z > 0.0) == (self.view.from_top == adds);
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
        let faces_eye = (f.axis.direction.z > 0.0) == (self.view.from_top == adds);
        let pen = if faces_eye || is_through(f) { Pen::Visible } else { Pen::Hidden };
        for piece in outline.pieces() {
            let place = |p: Point2| {
                let world = f.axis.origin + f.x_axis * p.x + y_axis * p.y;
                self.at(world.x, world.y)
            };
            super::views::draw_mapped(&mut views.board, pen, &piece, &place);
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
    fn circle_of(&self, views: &mut Views, group: &Group) {
        if let Place::Circle { centre, diameter, .. } = group.first().place {
            let centre = self.at(centre.x, centre.y);
            let radius = diameter / 2.0 * self.scale.factor;
            views.board.draw(Pen::Centre, Piece::Arc { centre, radius, start: 0.0, sweep: TAU });
        }
    }

    /// Call-outs of groups off the axis, and their rows in the hole table.
    fn call_outs(&self, views: &mut Views, part: &Turned, frame: &Frame) {
        let off_axis: Vec<&Group> =
            part.groups.iter().filter(|g| !g.is_coaxial() && g.way != Way::Across).collect();
        for (letter, group) in ('A'..='Z').zip(off_axis) {
            let mut rows = group.size_rows();
            rows.extend(group.place_rows());
            if let Some(first) = rows.first_mut() {
                first.text = format!("{letter}: {}", first.text);
            }
            let targets = group.members.iter().flat_map(|f| self.rim_targets(f)).collect();
            views.call_out(&Callout { rows, targets, tip: Tip::Arrow, along: None }, frame);
            hole_table::add(views, letter, group, &|p: Point2| self.at(p.x, p.y), self.scale.factor);
        }
    }

    /// Points on the rim of a hole that look away from the axis.
    fn rim_targets(&self, f: &Feature) -> Vec<Point2> {
        let centre = self.at(f.axis.origin.x, f.axis.origin.y);
        let r = match bore::turned(f) {
            Some((chain, ..)) => chain.first().map_or(0.0, |n| n.r) * self.scale.factor,
            None => 0.0,
        };
        let out: Vector2 = centre - self.scale.origin;
        let base = out.y.atan2(out.x);
        [-0.6, 0.0, 0.6].map(|d| polar(centre, r, base + d)).to_vec()
    }
}
