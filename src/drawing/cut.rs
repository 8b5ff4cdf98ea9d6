//! The plane in which a plate is cut: chosen so that it shows most of what the front view cannot, and what
//! lies in it.

use super::bore;
use super::face::is_through;
use super::frame_map::PlaneAxis;
use super::group::{Group, Way};
use super::section::{Section, split};
use crate::shape::loops::{Loop, Node, Piece};
use crate::shape::project::View;
use crate::shape::recipe::{Feature, Kind, ProfileNode};
use crate::shape::{Point2, Point3, Vector2, Vector3};

/// A plane across a plate: y = at (level) or x = at (upright).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Level in the front view.
    pub level: bool,
    /// Its place \[mm\].
    pub at: f64,
}

/// A feature in the plane of the cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutFeature {
    /// Index of its group.
    pub group: usize,
    /// Its axis in the plane.
    pub axis: PlaneAxis,
}

impl Cut {
    /// A point of the part in the view of the cut: the level cut is seen from above the front view, with z
    /// downwards; the upright one from the left, with z to the right.
    pub fn project(&self, p: Point3) -> Point2 {
        if self.level { Point2::new(p.x, -p.z) } else { Point2::new(p.z, p.y) }
    }

    /// A direction in the view of the cut.
    pub fn direction(&self, d: Vector3) -> Vector2 {
        if self.level { Vector2::new(d.x, -d.z) } else { Vector2::new(d.z, d.y) }
    }

    /// From where the cut is seen.
    pub fn view(&self) -> View {
        match self.level {
            true => View::new(Vector3::unit_y(), Vector3::unit_x()).cut_at(self.at),
            false => View::new(-Vector3::unit_x(), Vector3::unit_z()).cut_at(-self.at),
        }
    }

    /// Distance of a point from the plane \[mm\].
    pub fn distance(&self, p: Point3) -> f64 {
        if self.level { (p.y - self.at).abs() } else { (p.x - self.at).abs() }
    }

    /// A place in the view from a place along the cut and a height.
    fn place(&self, along: f64, z: f64) -> Point2 {
        if self.level { Point2::new(along, -z) } else { Point2::new(z, along) }
    }

    /// Stretches along the cut that lie inside a loop of the front view.
    fn runs(&self, outline: &Loop) -> Vec<(f64, f64)> {
        let (low, high) = outline.bounds();
        let (from, to) = match self.level {
            true => (Point2::new(low.x - 1.0, self.at), Point2::new(high.x + 1.0, self.at)),
            false => (Point2::new(self.at, low.y - 1.0), Point2::new(self.at, high.y + 1.0)),
        };
        let along = |p: Point2| if self.level { p.x } else { p.y };
        let mut runs: Vec<(f64, f64)> = Vec::new();
        for part in split(&Piece::Line { from, to }, &outline.pieces()) {
            if outline.contains(part.at(0.5)) {
                let (a, b) = (along(part.at(0.0)), along(part.at(1.0)));
                match runs.last_mut().filter(|r| (r.1 - a).abs() < 1e-9) {
                    Some(last) => last.1 = b,
                    None => runs.push((a, b)),
                }
            }
        }
        runs
    }

    /// A rectangle of the view.
    fn block(&self, run: (f64, f64), z: (f64, f64)) -> Loop {
        let corners = [(run.0, z.0), (run.1, z.0), (run.1, z.1), (run.0, z.1)];
        Loop::Path(corners.iter().map(|(a, z)| self.place(*a, *z)).map(|p| Node::line(p.x, p.y)).collect())
    }

    /// The section of a plate in this plane, with the features that lie in it.
    pub fn section(&self, outline: &Loop, thickness: f64, groups: &[Group]) -> (Section, Vec<CutFeature>) {
        let mut section = Section::default();
        for run in self.runs(outline) {
            section.add(self.block(run, (0.0, thickness)));
        }
        let mut shown = Vec::new();
        for (i, group) in groups.iter().enumerate() {
            for member in &group.members {
                if let Some(axis) = self.add(&mut section, member) {
                    shown.push(CutFeature { group: i, axis });
                }
            }
        }
        (section, shown)
    }

    /// Adds one feature; its axis in the plane is returned when it lies there.
    fn add(&self, section: &mut Section, f: &Feature) -> Option<PlaneAxis> {
        let off = self.distance(f.axis.origin);
        let along = self.direction(f.axis.direction);
        let in_plane = (along.x.hypot(along.y) - 1.0).abs() < 1e-9;
        let square = along.x.hypot(along.y) < 1e-9;
        match (bore::turned(f), &f.kind) {
            (Some((chain, _, adds)), _) if square => {
                let at = self.project(f.axis.origin);
                if let Some(r) = self.met(f, chain) {
                    let circle = Loop::circle(at.x, at.y, r);
                    if adds { section.add(circle) } else { section.cut(circle) }
                }
                None
            }
            (Some((chain, end, adds)), _) if in_plane && off < bore::widest(chain) - 1e-6 => {
                let axis = PlaneAxis { origin: self.project(f.axis.origin), along };
                let chain = shrunk(chain, off);
                for side in [1.0, -1.0] {
                    let shape = axis.chain(&chain, end, side);
                    if adds { section.add(shape) } else { section.cut(shape) }
                }
                (off < 1e-6).then_some(axis)
            }
            (None, Kind::Pocket { outline, depth, .. }) if f.axis.direction.z.abs() > 0.5 => {
                self.slabs(f, outline, *depth).into_iter().for_each(|s| section.cut(s));
                None
            }
            (None, Kind::Pad { outline, height }) if f.axis.direction.z.abs() > 0.5 => {
                self.slabs(f, outline, *height).into_iter().for_each(|s| section.add(s));
                None
            }
            _ => None,
        }
    }

    /// Radius \[mm\] at which the plane meets what is turned about an axis square to it, if it does.
    fn met(&self, f: &Feature, chain: &[ProfileNode]) -> Option<f64> {
        let (o, d) = (f.axis.origin, f.axis.direction);
        let depth = if self.level { (self.at - o.y) * d.y } else { (self.at - o.x) * d.x };
        let step = chain.windows(2).find(|w| w[0].z < depth && depth < w[1].z)?;
        let share = (depth - step[0].z) / (step[1].z - step[0].z);
        Some(step[0].r + (step[1].r - step[0].r) * share)
    }

    /// What the plane meets of a pocket or pad.
    fn slabs(&self, f: &Feature, outline: &Loop, depth: f64) -> Vec<Loop> {
        let z = f.axis.origin.z;
        let far = z + f.axis.direction.z * depth;
        self.runs(&in_front(f, outline)).into_iter().map(|run| self.block(run, (z, far))).collect()
    }

    /// How much this plane shows that the front view cannot.
    fn worth(&self, groups: &[Group]) -> f64 {
        groups.iter().map(|g| self.group_worth(g)).sum()
    }

    /// Worth of the plane for one group.
    fn group_worth(&self, group: &Group) -> f64 {
        let met = group.members.iter().any(|m| {
            let d = self.direction(m.axis.direction);
            let in_plane = (d.x.hypot(d.y) - 1.0).abs() < 1e-9;
            in_plane && self.distance(m.axis.origin) < 1e-6
        });
        let crossed = match &group.first().kind {
            Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => {
                group.members.iter().any(|m| !self.runs(&in_front(m, outline)).is_empty())
            }
            _ => false,
        };
        if met || crossed { worth_of(group) } else { 0.0 }
    }
}

/// How much a group gains from being cut.
fn worth_of(group: &Group) -> f64 {
    let plain = matches!(&group.first().kind, Kind::Bore { chain, .. } if chain.len() == 2 && is_through(group.first()));
    let boss = matches!(group.first().kind, Kind::Boss { .. });
    match (boss, plain, group.way) {
        (true, ..) => 10.0,
        (_, true, Way::Up | Way::Down) => 0.5,
        _ => 4.0 + bore::turned(group.first()).map_or(1.0, |(chain, ..)| bore::widest(chain) * 0.05),
    }
}

/// The outline of a pocket or pad in the front view.
pub fn in_front(f: &Feature, outline: &Loop) -> Loop {
    let y_axis = f.axis.direction.cross(f.x_axis);
    let place = |p: Point2| {
        let world = f.axis.origin + f.x_axis * p.x + y_axis * p.y;
        Point2::new(world.x, world.y)
    };
    outline.mapped(place, f.axis.direction.z < 0.0)
}

/// A chain as a plane at a distance from its axis meets it: half chords in place of radii.
fn shrunk(chain: &[ProfileNode], off: f64) -> Vec<ProfileNode> {
    let half = |r: f64| (r * r - off * off).max(0.0).sqrt();
    chain
        .iter()
        .map(|n| if off < 1e-9 { n.clone() } else { ProfileNode { r: half(n.r), ..n.clone() } })
        .collect()
}

/// The plane that shows most, if any shows something worth a second view. A wide plate is cut level, a
/// tall one upright, when both show as much. One that is `wanted` is there in any case.
pub fn choose(groups: &[Group], wide: bool, wanted: bool) -> Option<Cut> {
    let mut planes: Vec<Cut> = Vec::new();
    for member in groups.iter().flat_map(|g| &g.members) {
        let o = member.axis.origin;
        for cut in [Cut { level: true, at: o.y }, Cut { level: false, at: o.x }] {
            if !planes.contains(&cut) {
                planes.push(cut);
            }
        }
    }
    let better = |c: &Cut| c.worth(groups) + if c.level == wide { 0.2 } else { 0.0 } - c.at.abs() * 1e-4;
    let best = planes.into_iter().max_by(|a, b| better(a).total_cmp(&better(b)))?;
    let needed = wanted || groups.iter().any(|g| worth_of(g) > 1.0);
    needed.then_some(best)
}
