//! Views of the edges of a plate that have several holes, each in its place by the projection method: the holes as circles,
//! with their places from the datum and from the back face.

use super::board::Frame;
use super::bore;
use super::callout::{Callout, Row, Tip};
use super::cut::Cut;
use super::group::{Group, Way};
use super::lanes::{Linear, Side};
use super::looks::Looks;
use super::plate::Plate;
use super::plate_section;
use super::texts;
use super::views::{Scale, Views, centre_cross, thread_circle};
use crate::shape::loops::polar;
use crate::shape::recipe::{Feature, Kind, Place};
use crate::shape::{InnerSpace, Point2};
use std::f64::consts::PI;

/// The four edges, by the view in which each is seen: level or upright, from the near or the far side.
const EDGES: [(bool, bool); 4] = [(true, false), (true, true), (false, false), (false, true)];
/// Fewer places of holes are told by their call-out alone.
const FEWEST: usize = 2;

/// Whether an edge view tells the places of a group.
pub fn tells(groups: &[Group], group: &Group) -> bool {
    EDGES.iter().any(|(level, far)| {
        let cut = Cut { far: *far, ..Cut::plain(*level, 0.0) };
        faces(&cut, group) && on_edge(&cut, groups).is_some()
    })
}

/// Draws all edge views that a plate needs.
pub fn draw(views: &mut Views, plate: &Plate, looks: &Looks, factor: f64, first_angle: bool) {
    for (level, far) in EDGES {
        let cut = Cut { far, ..Cut::plain(level, 0.0) };
        let Some(groups) = on_edge(&cut, &plate.groups) else { continue };
        let scale = plate_section::place(views, plate, &cut, factor, first_angle);
        let frame = looks.draw_seen(&mut views.board, "edge", &cut.side(), &scale);
        let edge = Edge { cut, scale, frame };
        edge.holes(views, &groups);
        edge.dimension(views, &groups);
    }
}

/// The groups of an edge, if their places need a view of it.
fn on_edge<'a, 'b>(cut: &Cut, groups: &'b [Group<'a>]) -> Option<Vec<&'b Group<'a>>> {
    let list: Vec<&Group> = groups.iter().filter(|g| faces(cut, g)).collect();
    // those behind one another are one place
    let mut places: Vec<Point2> = Vec::new();
    for p in list.iter().flat_map(|g| &g.members).map(|m| cut.project(m.axis.origin)) {
        if !places.iter().any(|q| (p - q).magnitude() < 1e-6) {
            places.push(p);
        }
    }
    (places.len() >= FEWEST).then_some(list)
}

/// Whether a group opens towards the eye of an edge's view.
fn faces(cut: &Cut, group: &Group) -> bool {
    let d = group.first().axis.direction;
    let towards = cut.side().frame.z;
    let seen = d.x * towards.x + d.y * towards.y < -0.5;
    let bore = matches!(group.first().kind, Kind::Bore { .. });
    group.way == Way::Across && bore && seen && !matches!(group.first().place, Place::Radial { .. })
}

/// An edge in its place.
struct Edge {
    cut: Cut,
    scale: Scale,
    frame: Frame,
}

impl Edge {
    /// Centre of a hole on the paper.
    fn centre(&self, f: &Feature) -> Point2 {
        self.scale.point(self.cut.project(f.axis.origin))
    }

    /// Centre lines, threads and call-outs.
    fn holes(&self, views: &mut Views, groups: &[&Group]) {
        for f in groups.iter().flat_map(|g| &g.members) {
            let r = bore::turned(f).map_or(0.0, |(chain, ..)| bore::widest(chain)) * self.scale.factor;
            centre_cross(&mut views.board, self.centre(f), r);
            if let Kind::Bore { thread: Some(thread), .. } = &f.kind
                && let Some(d) = texts::thread_diameter(&thread.designation)
            {
                thread_circle(&mut views.board, self.centre(f), d / 2.0 * self.scale.factor);
            }
        }
    }

    /// Places along the edge and across it, then what the holes are.
    fn dimension(&self, views: &mut Views, groups: &[&Group]) {
        let (mut along, mut across) = (Vec::new(), Vec::new());
        for group in groups {
            let letter = if self.cut.level { "x" } else { "y" };
            let mut told = vec![format!("{}-{letter}", group.name)];
            for m in &group.members {
                self.add(&mut along, self.cut.along(m.axis.origin), m, std::mem::take(&mut told));
            }
            self.add(
                &mut across,
                group.first().axis.origin.z,
                group.first(),
                vec![format!("{}-z", group.name)],
            );
        }
        let (beside, before) = self.sides();
        views.lanes(beside.0, beside.1, self.linears(&along, true), &[]);
        views.lanes(before.0, before.1, self.linears(&across, false), &[]);
        for group in groups {
            let rim = |m: &&Feature| {
                let r = bore::turned(m).and_then(|(chain, ..)| chain.first().map(|n| n.r)).unwrap_or(0.0);
                let at = |turn: f64| polar(self.centre(m), r * self.scale.factor, turn);
                [0.25, 0.75, 1.25, 1.75].map(|t| at(t * PI)).to_vec()
            };
            let mut rows = group.size_rows(true);
            rows.extend(self.on_datum(group));
            let targets = group.members.iter().flat_map(rim).collect();
            views.call_out(&Callout { rows, targets, tip: Tip::Arrow, along: None }, &self.frame);
        }
    }

    /// What tells the place of a group whose holes all lie on the datum.
    fn on_datum(&self, group: &Group) -> Option<Row> {
        let letter = if self.cut.level { "X" } else { "Y" };
        let centred = group.members.iter().all(|m| self.cut.along(m.axis.origin).abs() < 1e-6);
        centred.then(|| {
            Row::new(format!("at {letter} 0"), &[format!("{}-{}", group.name, letter.to_lowercase())])
        })
    }

    /// Adds a place once, with all that it tells.
    fn add(&self, list: &mut Vec<Spot>, at: f64, f: &Feature, sizes: Vec<String>) {
        match list.iter_mut().find(|s| (s.at - at).abs() < 1e-6) {
            Some(spot) => spot.sizes.extend(sizes),
            None => list.push(Spot { at, centre: self.centre(f), sizes }),
        }
    }

    /// Dimensions from the datum (along the edge) or from the back face.
    fn linears(&self, spots: &[Spot], along: bool) -> Vec<Linear> {
        let level = self.cut.level == along;
        let far = |s: &&Spot| s.at.abs() > 1e-6;
        let linear = |s: &Spot| {
            let (to, foot) = if level { (s.centre.x, s.centre.y) } else { (s.centre.y, s.centre.x) };
            let from = if level { self.scale.origin.x } else { self.scale.origin.y };
            Linear { from, to, feet: [foot, foot], text: texts::plain(s.at.abs()), sizes: s.sizes.clone() }
        };
        spots.iter().filter(far).map(linear).collect()
    }

    /// Sides for the places along the edge and across it, with the view's edge on each.
    fn sides(&self) -> ((Side, f64), (Side, f64)) {
        let f = &self.frame;
        match (self.cut.level, self.cut.rise() > 0.0) {
            (true, true) => ((Side::Above, f.high.y), (Side::Left, f.low.x)),
            (true, false) => ((Side::Below, f.low.y), (Side::Left, f.low.x)),
            (false, true) => ((Side::Right, f.high.x), (Side::Below, f.low.y)),
            (false, false) => ((Side::Left, f.low.x), (Side::Below, f.low.y)),
        }
    }
}

/// A place to be dimensioned: its value, where it is, what it tells.
struct Spot {
    at: f64,
    centre: Point2,
    sizes: Vec<String>,
}
