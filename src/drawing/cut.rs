//! How a plate is cut across, in one plane or in parallel ones with steps between (ISO 128-3), and what lies in the cut.

use super::bore;
use super::frame_map::PlaneAxis;
use super::group::Group;
use super::section::Section;
use crate::shape::crossing::split;
use crate::shape::loops::{Loop, Node, Piece};
use crate::shape::project::View;
use crate::shape::recipe::{Feature, Kind, ProfileNode};
use crate::shape::{Point2, Point3, Vector2, Vector3};

/// Beyond every part \[mm\].
pub const FAR: f64 = 1e4;

/// A cut across a plate, square to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Along x in the front view (level), or along y (upright).
    pub level: bool,
    /// Seen the other way: from below the front view, or from its right.
    pub far: bool,
    /// Its planes along the cut, one after another; the first begins and the last ends far away.
    pub steps: Vec<Step>,
}

/// One of the planes of a cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Where it lies across the cut: y of a level one, x of an upright one \[mm\].
    pub at: f64,
    /// Where it begins along the cut \[mm\].
    pub from: f64,
    /// Where it ends \[mm\].
    pub to: f64,
}

/// A feature in the plane of the cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutFeature {
    /// Index of its group.
    pub group: usize,
    /// Its axis in the plane.
    pub axis: PlaneAxis,
}

impl Step {
    /// A plane right across.
    pub fn whole(at: f64) -> Self {
        Self { at, from: -FAR, to: FAR }
    }

    /// Whether a place along the cut belongs to it.
    pub fn holds(&self, along: f64) -> bool {
        self.from - 1e-9 < along && along < self.to + 1e-9
    }

    /// Whether it goes right across.
    fn is_whole(&self) -> bool {
        self.from <= -FAR && self.to >= FAR
    }
}

impl Cut {
    /// In one plane, seen from above the front view or from its left.
    pub fn plain(level: bool, at: f64) -> Self {
        Self { level, far: false, steps: vec![Step::whole(at)] }
    }

    /// Place of a point along the cut \[mm\].
    pub fn along(&self, p: Point3) -> f64 {
        if self.level { p.x } else { p.y }
    }

    /// Place of a point across the cut \[mm\].
    pub fn across(&self, p: Point3) -> f64 {
        if self.level { p.y } else { p.x }
    }

    /// Which way z of the part runs in the view of the cut: up or to the right (+1), or down or to the left (-1).
    pub fn rise(&self) -> f64 {
        if self.level == self.far { 1.0 } else { -1.0 }
    }

    /// A point of the part in the view of the cut.
    pub fn project(&self, p: Point3) -> Point2 {
        self.place(self.along(p), p.z)
    }

    /// A direction in the view of the cut.
    pub fn direction(&self, d: Vector3) -> Vector2 {
        if self.level { Vector2::new(d.x, self.rise() * d.z) } else { Vector2::new(self.rise() * d.z, d.y) }
    }

    /// A place in the view from a place along the cut and a height.
    fn place(&self, along: f64, z: f64) -> Point2 {
        if self.level { Point2::new(along, self.rise() * z) } else { Point2::new(self.rise() * z, along) }
    }

    /// From where the cut is seen; nothing is taken away yet.
    pub fn side(&self) -> View {
        let side = if self.far { -1.0 } else { 1.0 };
        match self.level {
            true => View::new(Vector3::unit_y() * side, Vector3::unit_x()),
            false => View::new(Vector3::unit_x() * -side, Vector3::unit_z() * side),
        }
    }

    /// Height of a plane above the origin, towards the eye \[mm\].
    pub fn height(&self, step: &Step) -> f64 {
        if self.level == self.far { -step.at } else { step.at }
    }

    /// The view with all in front of its planes taken away.
    pub fn view(&self) -> View {
        self.steps.iter().fold(self.side(), |view, step| match self.strip(step) {
            Some(strip) => view.cut_within(self.height(step), strip),
            None => view.cut_at(self.height(step)),
        })
    }

    /// The part of the view in which a plane is cut; none if it goes right across.
    fn strip(&self, step: &Step) -> Option<Loop> {
        (!step.is_whole()).then(|| self.block((step.from, step.to), (-FAR, FAR)))
    }

    /// Distance of a point from the plane that cuts where it lies \[mm\].
    pub fn distance(&self, p: Point3) -> f64 {
        let here = self.steps.iter().find(|s| s.holds(self.along(p)));
        here.map_or(f64::INFINITY, |step| (self.across(p) - step.at).abs())
    }

    /// Stretches along a plane that lie inside a loop of the front view.
    pub fn runs(&self, step: &Step, outline: &Loop) -> Vec<(f64, f64)> {
        let (low, high) = outline.bounds();
        let (from, to) = match self.level {
            true => (Point2::new(low.x - 1.0, step.at), Point2::new(high.x + 1.0, step.at)),
            false => (Point2::new(step.at, low.y - 1.0), Point2::new(step.at, high.y + 1.0)),
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

    /// The sections of a plate in the planes, with the features that lie in them.
    pub fn sections(
        &self,
        outline: &Loop,
        thickness: f64,
        groups: &[Group],
    ) -> (Vec<Section>, Vec<CutFeature>) {
        let mut shown = Vec::new();
        let sections = self.steps.iter().map(|step| {
            let mut section = Section::default();
            for run in self.runs(step, outline) {
                section.add(self.block(run, (0.0, thickness)));
            }
            for (i, group) in groups.iter().enumerate() {
                for member in &group.members {
                    let axis = self.add(step, &mut section, member);
                    let here = axis.filter(|_| step.holds(self.along(member.axis.origin)));
                    shown.extend(here.map(|axis| CutFeature { group: i, axis }));
                }
            }
            match self.strip(step) {
                Some(strip) => section.within(&strip),
                None => section,
            }
        });
        (sections.collect(), shown)
    }

    /// Adds one feature; its axis in the plane is returned when it lies there.
    fn add(&self, step: &Step, section: &mut Section, f: &Feature) -> Option<PlaneAxis> {
        let off = (self.across(f.axis.origin) - step.at).abs();
        let along = self.direction(f.axis.direction);
        let in_plane = (along.x.hypot(along.y) - 1.0).abs() < 1e-9;
        let square = along.x.hypot(along.y) < 1e-9;
        match (bore::turned(f), &f.kind) {
            (Some((chain, _, adds)), _) if square => {
                let at = self.project(f.axis.origin);
                if let Some(r) = self.met(step, f, chain) {
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
                self.slabs(step, f, outline, *depth).into_iter().for_each(|s| section.cut(s));
                None
            }
            (None, Kind::Pad { outline, height }) if f.axis.direction.z.abs() > 0.5 => {
                self.slabs(step, f, outline, *height).into_iter().for_each(|s| section.add(s));
                None
            }
            _ => None,
        }
    }

    /// Radius \[mm\] at which a plane meets what is turned about an axis square to it, if it does.
    fn met(&self, step: &Step, f: &Feature, chain: &[ProfileNode]) -> Option<f64> {
        let d = if self.level { f.axis.direction.y } else { f.axis.direction.x };
        radius_at(chain, (step.at - self.across(f.axis.origin)) * d)
    }

    /// What a plane meets of a pocket or pad.
    fn slabs(&self, step: &Step, f: &Feature, outline: &Loop, depth: f64) -> Vec<Loop> {
        let z = f.axis.origin.z;
        let far = z + f.axis.direction.z * depth;
        self.runs(step, &in_front(f, outline)).into_iter().map(|run| self.block(run, (z, far))).collect()
    }
}

/// Radius of a chain at a depth \[mm\], if it reaches there.
pub fn radius_at(chain: &[ProfileNode], depth: f64) -> Option<f64> {
    let step = chain.windows(2).find(|w| w[0].z < depth && depth < w[1].z)?;
    let share = (depth - step[0].z) / (step[1].z - step[0].z);
    Some(step[0].r + (step[1].r - step[0].r) * share)
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
pub fn shrunk(chain: &[ProfileNode], off: f64) -> Vec<ProfileNode> {
    let half = |r: f64| (r * r - off * off).max(0.0).sqrt();
    chain
        .iter()
        .map(|n| if off < 1e-9 { n.clone() } else { ProfileNode { r: half(n.r), ..n.clone() } })
        .collect()
}
