//! What is seen of a solid from one side: its edges and the outlines of its curved faces, as lines, arcs and ellipses, each
//! split where it becomes hidden.
//!
//! Everything is taken into the coordinates of the view first (x to the right, y up, z towards the eye), so that projecting
//! is leaving z out. Candidates are the sharp edges of the solid and, on each curved face, the lines along which it turns
//! away from the eye. They are cut where others cross them; what lies between two cuts is seen as a whole or not at all, so
//! that one ray towards the eye decides it, met with the exact surfaces.

mod crossing;
mod flat;
mod outline;
mod patch;
mod rays;
mod scene;
mod taken;

pub use flat::Flat;

use super::loops::Loop;
use super::solid::{Frame, Solid};
use super::{InnerSpace, Point2, Vector3};
use scene::Scene;

/// How a solid is looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// x runs to the right on the paper, y upwards, z towards the eye; the origin comes to lie at (0, 0).
    pub frame: Frame,
    /// Whether it shows where surfaces go over into one another without an edge.
    pub soft: bool,
    /// What is taken away in front; where several lie on one another, the first counts.
    pub taken: Vec<Taken>,
}

/// What a section takes away: everything in front of a plane across the view, all over it or inside a loop.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// Height of the plane above the frame's \[mm\].
    pub depth: f64,
    /// Where in the view \[mm\]; everywhere if `None`.
    pub within: Option<Loop>,
}

/// A line of a view.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Its shape \[mm\].
    pub flat: Flat,
    /// Seen, or hidden behind the part itself.
    pub visible: bool,
    /// Where one surface goes over into another without an edge: an imaginary line of intersection (ISO 128-3).
    pub soft: bool,
}

impl View {
    /// Seen against `towards`, with `right` to the right.
    pub fn new(towards: Vector3, right: Vector3) -> Self {
        Self { frame: Frame::new(Frame::world().origin, towards, right), soft: false, taken: Vec::new() }
    }

    /// Seen so that the three axes make equal angles with the paper and z points up (isometric, ISO 5456-3).
    pub fn isometric() -> Self {
        Self { soft: true, ..Self::new(Vector3::new(1.0, -1.0, 1.0), Vector3::new(1.0, 1.0, 0.0)) }
    }

    /// With everything in front of `depth` \[mm\] taken away.
    pub fn cut_at(mut self, depth: f64) -> Self {
        self.taken.push(Taken { depth, within: None });
        self
    }

    /// With everything in front of `depth` \[mm\] taken away inside a loop of the view.
    pub fn cut_within(mut self, depth: f64, within: Loop) -> Self {
        self.taken.push(Taken { depth, within: Some(within) });
        self
    }

    /// Height of the cutting plane at a place of the view \[mm\], if anything is taken away there.
    pub fn depth(&self, p: Point2) -> Option<f64> {
        taken::Away::of(&self.taken).depth(p)
    }
}

/// The lines of a view, hidden ones behind visible ones left out. With a cut, `metal` tells where the cut surface is: what
/// lies behind it is hidden.
pub fn project(solid: &Solid, view: &View, metal: &dyn Fn(Point2) -> bool) -> Vec<Drawn> {
    let scene = Scene::of(solid, view);
    let lines = scene.lines();
    let parts = crossing::parts(lines);
    let mut drawn = Vec::new();
    for (line, cuts) in lines.iter().zip(&parts) {
        let seen = |w: &[f64]| scene.sees(line, (w[0] + w[1]) / 2.0, metal);
        let mut run: Option<(f64, f64, bool)> = None;
        for (w, seen) in cuts.windows(2).map(|w| (w, seen(w))) {
            run = match (run, seen) {
                (Some((from, _, is)), Some(now)) if is == now => Some((from, w[1], is)),
                (before, now) => {
                    drawn.extend(before.map(|b| line.part(b)));
                    now.map(|now| (w[0], w[1], now))
                }
            };
        }
        drawn.extend(run.map(|b| line.part(b)));
    }
    uncovered(drawn)
}

/// How near two drawn lines lie on one another \[mm\].
const TOGETHER: f64 = 2e-5;

/// Leaves out what lies under a visible line, and all but one of those that lie on one another.
fn uncovered(drawn: Vec<Drawn>) -> Vec<Drawn> {
    let boxes: Vec<_> = drawn.iter().map(|d| d.flat.bounds()).collect();
    let mut kept: Vec<usize> = Vec::new();
    // visible ones first, long ones before short ones, so that a part never stands for the whole
    let mut order: Vec<usize> = (0..drawn.len()).collect();
    let rank =
        |i: &usize| (!drawn[*i].visible, drawn[*i].soft, -(drawn[*i].flat.length() * 1e6).round() as i64, *i);
    order.sort_by_key(rank);
    for i in order {
        let under =
            |p: &Point2, k: &usize| boxes[*k].near(*p, TOGETHER) && drawn[*k].flat.distance(*p) < TOGETHER;
        if !drawn[i].flat.probes().all(|p| kept.iter().any(|k| under(&p, k))) {
            kept.push(i);
        }
    }
    kept.sort_unstable();
    kept.into_iter().map(|i| drawn[i].clone()).collect()
}

/// The place from `low` to `high` at which a value changes its sign, by halving; none where it does not.
fn turning(mut low: f64, mut high: f64, value: &dyn Fn(f64) -> f64) -> Option<f64> {
    let sign = value(low);
    if sign == 0.0 || sign * value(high) > 0.0 {
        return None;
    }
    for _ in 0..50 {
        let middle = (low + high) / 2.0;
        if value(middle) * sign > 0.0 { low = middle } else { high = middle }
    }
    Some((low + high) / 2.0)
}

/// The angle between two directions is next to nothing, whichever way they point.
fn parallel(a: Vector3, b: Vector3) -> bool {
    a.cross(b).magnitude() < 1e-6
}

#[cfg(test)]
mod tests;
