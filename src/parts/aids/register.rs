//! How a jig finds its place on a face: what stands or lies around the axis of the bolt circle there.

use crate::shape::loops::{Leave, Loop};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, Kind, ProfileNode, Recipe};
use crate::shape::{InnerSpace, Point2};

/// Places that agree to this are one \[mm\].
const SAME: f64 = 1e-6;
/// A chamfer up to this size may lie between a face and the cylinder that locates \[mm\].
const CHAMFER_MM: f64 = 2.5;
/// Least depth of a cylinder that locates \[mm\]; common practice, no source.
const LEAST_DEPTH_MM: f64 = 2.0;

/// What locates a jig.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Register {
    /// A bore in the part: radius, and where it begins and ends below the face \[mm\].
    Bore { r: f64, depth: [f64; 2] },
    /// A spigot of the part that stands on the face: radius \[mm\].
    Spigot { r: f64 },
    /// The part's outside, falling off from the face: its loop about the bolt circle's centre, and how deep it goes \[mm\].
    Outside { edge: Loop, depth: f64 },
}

/// A face of a part with a bolt circle in it.
pub(super) struct Site<'a> {
    pub recipe: &'a Recipe,
    /// Centre of the bolt circle \[mm\].
    pub centre: Point2,
    /// Place of the face along the axis \[mm\].
    pub z: f64,
    /// 1 where a drill goes upwards, −1 where it goes down.
    pub drill: f64,
    /// Radius of the bolt circle \[mm\].
    pub circle_r: f64,
}

/// What a site offers, and how wide its face is.
pub(super) struct Found {
    /// What can locate a jig, the best first.
    pub registers: Vec<Register>,
    /// Free part of the face about the centre: least and greatest radius that a jig may cover \[mm\].
    pub free: [f64; 2],
}

impl Site<'_> {
    /// Looks at the face.
    pub fn look(&self) -> Found {
        let mut found = match &self.recipe.body {
            Body::Turned(nodes) => self.turned(nodes),
            Body::Plate { outline, thickness, .. } => self.plate(outline, *thickness),
        };
        for feature in self.recipe.features.iter().filter(|f| self.is_central(f)) {
            match &feature.kind {
                Kind::Bore { chain, end, .. } if *end != End::Island => {
                    let nodes: Vec<(f64, f64)> = chain.iter().map(|n| (n.r, n.z)).collect();
                    if let Some((r, depth)) = cylinder(&nodes) {
                        found.registers.insert(0, Register::Bore { r, depth });
                    }
                }
                Kind::Boss { chain } => {
                    let widest = chain.iter().map(|n| n.r).fold(0.0, f64::max);
                    // nothing else can be reached past what stands there
                    found.registers = vec![Register::Spigot { r: widest }];
                    found.free[0] = found.free[0].max(widest);
                }
                _ => {}
            }
        }
        found
    }

    /// Whether a feature stands on this face about the circle's axis, inside it.
    fn is_central(&self, f: &Feature) -> bool {
        let o = f.axis.origin;
        let widest = match &f.kind {
            Kind::Bore { chain, .. } | Kind::Boss { chain } => chain.iter().map(|n| n.r).fold(0.0, f64::max),
            _ => return false,
        };
        (o.z - self.z).abs() < SAME
            && f.axis.direction.z.abs() > 0.999
            && (Point2::new(o.x, o.y) - self.centre).magnitude() < SAME
            && widest < self.circle_r
    }

    /// Whether something stands on the face beside the axis, where a jig would lie.
    pub fn is_blocked(&self) -> bool {
        let on_face =
            |f: &&Feature| (f.axis.origin.z - self.z).abs() < SAME && f.axis.direction.z.abs() > 0.999;
        let stands = |f: &Feature| {
            matches!(f.kind, Kind::Pad { .. }) || (matches!(f.kind, Kind::Boss { .. }) && !self.is_central(f))
        };
        self.recipe.features.iter().filter(on_face).any(stands)
    }

    fn turned(&self, nodes: &[ProfileNode]) -> Found {
        let n = nodes.len();
        let none = Found { registers: Vec::new(), free: [0.0, 0.0] };
        if self.centre.x.abs() > SAME || self.centre.y.abs() > SAME {
            return none;
        }
        let flat = (0..n).find(|i| {
            let (a, b) = (&nodes[*i], &nodes[(i + 1) % n]);
            a.leave == Leave::Line
                && (a.z - self.z).abs() < SAME
                && (b.z - self.z).abs() < SAME
                && (a.r - self.circle_r) * (b.r - self.circle_r) < 0.0
        });
        let Some(i) = flat else { return none };
        // how the profile goes on at both ends of the face, as (radius, depth below the face)
        let below = |k: usize| (nodes[k % n].r, (nodes[k % n].z - self.z) * self.drill);
        let ahead: Vec<(f64, f64)> = (1..4).map(|k| below(i + k)).collect();
        let behind: Vec<(f64, f64)> = (0..3).map(|k| below(i + n - k)).collect();
        let (inner, outer) =
            if nodes[i].r < nodes[(i + 1) % n].r { (behind, ahead) } else { (ahead, behind) };
        let mut free = [0.0, f64::INFINITY];
        let mut registers = Vec::new();
        if let Some((r, depth)) = cylinder(&outer) {
            let edge = Loop::circle(0.0, 0.0, r);
            registers.push(Register::Outside { edge, depth: depth[1] });
        } else if outer[1].1 < -SAME {
            free[1] = outer[0].0;
        }
        if let Some((r, depth)) = cylinder(&inner) {
            registers.insert(0, Register::Bore { r, depth });
        } else if inner[1].1 < -SAME {
            free[0] = inner[0].0;
            let plain = (inner[1].0 - inner[0].0).abs() < SAME;
            let high = inner[1].1 < -LEAST_DEPTH_MM && plain;
            // a rim would have to reach over what stands there
            registers = if high { vec![Register::Spigot { r: inner[0].0 }] } else { Vec::new() };
        }
        // a jig comes down along the axis: what stands over the face must be narrower or wider than it
        let over = |node: &ProfileNode| (node.z - self.z) * self.drill < -SAME;
        let in_the_way = |node: &ProfileNode| node.r > free[0] + SAME && node.r < free[1] - SAME;
        if nodes.iter().any(|n| over(n) && in_the_way(n)) {
            registers.clear();
        }
        Found { registers, free }
    }

    fn plate(&self, outline: &Outline, thickness: f64) -> Found {
        let at_end = self.z.abs() < SAME || (self.z - thickness).abs() < SAME;
        let edge = outline.boundary().moved(-self.centre.x, -self.centre.y);
        let registers = at_end.then_some(Register::Outside { edge, depth: thickness }).into_iter().collect();
        Found { registers, free: [0.0, f64::INFINITY] }
    }
}

/// The first cylinder of a run that goes down from a face, past a chamfer at most: radius and depths \[mm\].
fn cylinder(run: &[(f64, f64)]) -> Option<(f64, [f64; 2])> {
    let falls = run.windows(2).find(|w| (w[0].0 - w[1].0).abs() < SAME && w[1].1 - w[0].1 > SAME)?;
    let ([r, from], to) = ([falls[0].0, falls[0].1], falls[1].1);
    let near = (-SAME..=CHAMFER_MM).contains(&from) && (run[0].0 - r).abs() <= CHAMFER_MM;
    (r > 0.0 && near && to - from >= LEAST_DEPTH_MM).then_some((r, [from, to]))
}
