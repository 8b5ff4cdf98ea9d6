//! Set-ups of a made part on lathe and mill: from which sides it is worked, and what is done from each.
//!
//! A surface belongs to the set-up from whose side it is seen: holes and pockets to the side that they open to, bosses to the
//! side that they stand on, and a plain hole right through along Z to the side from which a tool reaches it, of two such to
//! the one that is worked anyway. Of a turned
//! body the upper end comes first; the lower end is a set-up of its own when something there is seen from below alone. What
//! is cut from sheet has none.

use super::part::{Part, Supply};
use super::stock::envelope;
use crate::shape::metal::Metal;
use crate::shape::recipe::{Body, End, Feature, Kind, ProfileNode, Recipe};
use crate::shape::{InnerSpace, Vector3};

/// Where X, Y and Z are counted from.
pub const DATUM: &str = "origin of the part's drawing: X 0, Y 0, Z 0";

/// Directions nearer than this are one (of a unit vector).
const SAME: f64 = 1e-9;

/// Steps in which the way of a tool is looked at \[mm\]: half the thinnest fin that a design allows.
const STEP_MM: f64 = 0.25;

/// Part of a hole's radius at which it is looked for metal in the way: inside the rounding of its edge.
const REACH: f64 = 0.99;

/// One set-up.
#[derive(Clone, Debug, PartialEq)]
pub struct SetUp {
    /// Counted from 1.
    pub number: usize,
    /// What is done.
    pub what: String,
    /// Its Z, towards the tool, in the part's coordinates \[unit vector\].
    pub z_axis: Vector3,
    /// Its X, in the part's coordinates \[unit vector\].
    pub x_axis: Vector3,
    /// Features that are made.
    pub features: Vec<String>,
}

impl SetUp {
    /// Its Y, in the part's coordinates.
    pub fn y_axis(&self) -> Vector3 {
        self.z_axis.cross(self.x_axis)
    }

    /// A vector of the part in the coordinates of the set-up. Both have one origin.
    pub fn turned(&self, v: Vector3) -> Vector3 {
        Vector3::new(v.dot(self.x_axis), v.dot(self.y_axis()), v.dot(self.z_axis))
    }
}

/// A side from which a part is worked.
struct Side {
    towards: Vector3,
    features: Vec<String>,
}

/// The set-ups of a part, in order; none for what is bought, cut from sheet or wound.
pub fn set_ups(part: &Part) -> Vec<SetUp> {
    let is_solid = part.material.filled >= 1.0 && !part.flat;
    let Some(recipe) = part.recipe.as_ref().filter(|_| is_solid && part.supply == Supply::Make) else {
        return Vec::new();
    };
    let mut sides: Vec<Side> = Vec::new();
    if let Body::Turned(profile) = &recipe.body {
        side(&mut sides, Vector3::unit_z());
        if has_lower_end(profile) {
            side(&mut sides, -Vector3::unit_z());
        }
    }
    let above = Above::of(recipe);
    let mut free: Vec<(&Feature, Vector3)> = Vec::new();
    for f in &recipe.features {
        let own = seen_from(f);
        let depth = if is_plain_through(f) { depth(&f.kind) } else { None };
        // a hole right through is drilled from where nothing stands over it
        match depth.map(|depth| [above.is_clear(f, own, 0.0), above.is_clear(f, -own, depth)]) {
            Some([false, true]) => add(side(&mut sides, -own), &f.name),
            Some([true, true]) => free.push((f, own)),
            _ => add(side(&mut sides, own), &f.name),
        }
    }
    for (f, own) in free {
        let is_other = |s: &&mut Side| is_same(s.towards, -own);
        let has_own = sides.iter().any(|s| is_same(s.towards, own));
        match sides.iter_mut().find(is_other).filter(|_| !has_own) {
            Some(other) => add(other, &f.name),
            None => add(side(&mut sides, own), &f.name),
        }
    }
    // the outline of a plate is milled from above or below
    if !sides.iter().any(|s| s.towards.z.abs() > 1.0 - SAME) {
        side(&mut sides, Vector3::unit_z());
    }
    // from above, from below, from the sides
    sides.sort_by(|a, b| {
        b.towards.z.abs().total_cmp(&a.towards.z.abs()).then(b.towards.z.total_cmp(&a.towards.z))
    });
    let is_turned = matches!(recipe.body, Body::Turned(_));
    let numbered = sides.into_iter().enumerate();
    numbered.map(|(i, side)| set_up(i + 1, side, is_turned)).collect()
}

fn set_up(number: usize, side: Side, is_turned: bool) -> SetUp {
    let z = side.towards;
    let along_z = z.z.abs() > 1.0 - SAME;
    let what = match (along_z, is_turned, number, z.z > 0.0) {
        (true, true, _, true) => "turn the upper end, the outside and what opens there",
        (true, true, _, false) => "turn the lower end and what opens there",
        (true, false, 1, true) => "mill the outline and the upper side",
        (true, false, 1, false) => "mill the outline and the lower side",
        (true, false, ..) => "turn over: the other side",
        (false, ..) => "across: what opens to this side",
    };
    // X stays where it is; seen from a side, the part's Z points up the page
    let x_axis = if along_z { Vector3::unit_x() } else { Vector3::unit_z().cross(z).normalize() };
    SetUp { number, what: what.to_owned(), z_axis: z, x_axis, features: side.features }
}

/// The side with a direction, made if there is none yet.
fn side(sides: &mut Vec<Side>, towards: Vector3) -> &mut Side {
    let at = sides.iter().position(|s| is_same(s.towards, towards)).unwrap_or_else(|| {
        sides.push(Side { towards, features: Vec::new() });
        sides.len() - 1
    });
    &mut sides[at]
}

fn add(side: &mut Side, feature: &str) {
    if !side.features.iter().any(|f| f == feature) {
        side.features.push(feature.to_owned());
    }
}

fn is_same(a: Vector3, b: Vector3) -> bool {
    a.dot(b) > 1.0 - SAME
}

/// The side from which a feature is made.
fn seen_from(feature: &Feature) -> Vector3 {
    match feature.kind {
        Kind::Bore { .. } | Kind::Pocket { .. } => -feature.axis.direction,
        Kind::Boss { .. } | Kind::Pad { .. } => feature.axis.direction,
    }
}

/// Whether a feature goes right through along Z and looks the same from both sides.
fn is_plain_through(feature: &Feature) -> bool {
    let along_z = feature.axis.direction.z.abs() > 1.0 - SAME;
    along_z
        && match &feature.kind {
            Kind::Bore { chain, end: End::Through, .. } => {
                chain.iter().all(|n| (n.r - chain[0].r).abs() < SAME)
            }
            Kind::Pocket { through, .. } => *through,
            _ => false,
        }
}

/// Depth of a feature right through \[mm\].
fn depth(kind: &Kind) -> Option<f64> {
    match kind {
        Kind::Bore { chain, .. } => chain.last().map(|n| n.z),
        Kind::Pocket { depth, .. } => Some(*depth),
        Kind::Boss { .. } | Kind::Pad { .. } => None,
    }
}

/// What stands over an opening, seen along Z.
struct Above {
    metal: Metal,
    ends: [f64; 2],
}

impl Above {
    fn of(recipe: &Recipe) -> Self {
        let box_mm = envelope(recipe);
        Self { metal: Metal::of(recipe), ends: [box_mm.low.z, box_mm.high.z] }
    }

    /// Whether a tool reaches an opening at `depth` \[mm\] below the mouth of its feature from one side: on the feature's
    /// axis and around it no metal is met on the way.
    fn is_clear(&self, feature: &Feature, towards: Vector3, depth: f64) -> bool {
        let mouth = feature.axis.origin + feature.axis.direction * depth;
        let way = if towards.z > 0.0 { self.ends[1] - mouth.z } else { mouth.z - self.ends[0] };
        let wide = match &feature.kind {
            Kind::Bore { chain, .. } => REACH * chain.iter().map(|n| n.r).fold(0.0, f64::max),
            _ => 0.0,
        };
        let across = feature.axis.direction.cross(feature.x_axis);
        let around = [Vector3::new(0.0, 0.0, 0.0), feature.x_axis, -feature.x_axis, across, -across];
        let steps = (way / STEP_MM).ceil() as usize;
        (1..=steps).all(|i| {
            let at = mouth + towards * (STEP_MM * (i as f64 - 0.5)).min(way);
            around.iter().all(|u| !self.metal.contains(at + *u * wide))
        })
    }
}

/// Whether a turned profile has a surface, beside its plain lower end, that is seen from below alone: a shoulder, a chamfer,
/// a bore behind a narrower one.
fn has_lower_end(profile: &[ProfileNode]) -> bool {
    let n = profile.len();
    let sides: Vec<[&ProfileNode; 2]> = (0..n).map(|i| [&profile[i], &profile[(i + 1) % n]]).collect();
    let twice: f64 = sides.iter().map(|[a, b]| a.r * b.z - b.r * a.z).sum();
    let low = profile.iter().map(|n| n.z).fold(f64::INFINITY, f64::min);
    sides.iter().any(|[a, b]| {
        // the metal lies on the left of a profile that runs counter-clockwise in (r, z)
        let (dr, dz) = ((b.r - a.r) * twice.signum(), (b.z - a.z) * twice.signum());
        let faces_down = dr > SAME;
        let is_end = a.z.max(b.z) < low + SAME;
        let is_bore = dz < -SAME && a.r.min(b.r) > SAME;
        let top = a.z.max(b.z);
        let is_hidden = || profile.iter().any(|n| n.z > top + SAME && n.r < a.r.min(b.r) - SAME);
        faces_down && !is_end || is_bore && is_hidden()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::kit::made;
    use crate::shape::outline::Outline;
    use crate::shape::recipe::{Axis, Place, Recipe, Tag};
    use crate::shape::{Point2, Point3};

    fn turned(corners: &[(f64, f64)]) -> Part {
        let nodes = corners.iter().map(|(r, z)| ProfileNode::new(*r, *z)).collect();
        made("p", "P", "brass", Recipe { body: Body::Turned(nodes), features: Vec::new() })
    }

    fn hole(name: &str, at: [f64; 3], direction: Vector3, radii: [f64; 2], end: End) -> Feature {
        // through a plate of 10 mm, but for a flange of 5 mm at its face
        let deep = if at[2] == 5.0 { 5.0 } else { 10.0 };
        let mut chain = vec![ProfileNode::new(radii[0], 0.0), ProfileNode::new(radii[1], deep)];
        if radii[1] != radii[0] {
            chain.insert(1, ProfileNode::new(radii[0], 5.0));
            chain.insert(2, ProfileNode::new(radii[1], 5.0));
        }
        let axis = Axis { origin: Point3::new(at[0], at[1], at[2]), direction };
        let kind = Kind::Bore { chain, end, thread: None };
        let x_axis = if direction.x.abs() > 0.9 { Vector3::unit_y() } else { Vector3::unit_x() };
        Feature { name: name.into(), axis, x_axis, kind, place: Place::Coordinates }
    }

    fn plate(features: Vec<Feature>) -> Part {
        let outline = Outline::Rectangle {
            low: Point2::new(-20.0, -20.0),
            high: Point2::new(20.0, 20.0),
            corner: 0.0,
            tags: [Tag::new("width"), Tag::new("height")],
        };
        let body = Body::Plate { outline, thickness: 10.0, tag: Tag::new("thickness") };
        made("p", "P", "brass", Recipe { body, features })
    }

    /// Numbers of set-ups of profiles that a turner would tell at a glance.
    #[test]
    fn turned_ends() {
        let count = |corners: &[(f64, f64)]| set_ups(&turned(corners)).len();
        assert_eq!(count(&[(0.0, 0.0), (5.0, 0.0), (5.0, 9.0), (0.0, 9.0)]), 1, "a plain pin is parted off");
        assert_eq!(
            count(&[(0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (5.0, 4.0), (5.0, 9.0), (0.0, 9.0)]),
            1,
            "a step up"
        );
        assert_eq!(
            count(&[(0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (8.0, 4.0), (8.0, 9.0), (0.0, 9.0)]),
            2,
            "a step down"
        );
        assert_eq!(
            count(&[(0.0, 0.0), (4.0, 0.0), (5.0, 1.0), (5.0, 9.0), (0.0, 9.0)]),
            2,
            "a chamfer below"
        );
        assert_eq!(count(&[(3.0, 0.0), (5.0, 0.0), (5.0, 9.0), (3.0, 9.0)]), 1, "a plain bore");
        let narrow_above = [(3.0, 0.0), (5.0, 0.0), (5.0, 9.0), (2.0, 9.0), (2.0, 6.0), (3.0, 6.0)];
        assert_eq!(count(&narrow_above), 2, "a bore behind a narrower one");
        let mut clockwise = narrow_above;
        clockwise.reverse();
        assert_eq!(count(&clockwise), 2, "whichever way it runs");
        let wide_above = [(2.0, 0.0), (5.0, 0.0), (5.0, 9.0), (3.0, 9.0), (3.0, 6.0), (2.0, 6.0)];
        assert_eq!(count(&wide_above), 1, "a bore in front of a narrower one");
    }

    #[test]
    fn plain_holes_follow_the_side_that_is_worked_anyway() {
        let (up, down) = (Vector3::unit_z(), -Vector3::unit_z());
        let plain = |d: Vector3| {
            hole("plain", [0.0, 0.0, if d.z > 0.0 { 0.0 } else { 10.0 }], d, [2.0; 2], End::Through)
        };
        let stepped = hole("stepped", [5.0, 0.0, 0.0], up, [4.0, 2.0], End::Through);
        let one = set_ups(&plate(vec![plain(down), stepped.clone()]));
        assert_eq!(one.len(), 1);
        assert_eq!(
            (one[0].z_axis, &one[0].features[..]),
            (down, &["stepped".to_owned(), "plain".to_owned()][..])
        );
        let blind = hole("blind", [9.0, 0.0, 10.0], down, [2.0; 2], End::Blind);
        let two = set_ups(&plate(vec![plain(down), stepped, blind]));
        let told: Vec<_> = two.iter().map(|s| (s.number, s.z_axis, s.features.join(" "))).collect();
        assert_eq!(told, [(1, up, "blind plain".to_owned()), (2, down, "stepped".to_owned())]);
        assert_eq!(set_ups(&plate(Vec::new())).len(), 1);
    }

    /// A flange with a wider one over it: its holes are drilled from below although they are drawn from above.
    #[test]
    fn a_hole_under_a_flange_is_drilled_from_the_free_side() {
        let mut part = turned(&[
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, 5.0),
            (8.0, 5.0),
            (8.0, 12.0),
            (25.0, 12.0),
            (25.0, 16.0),
            (0.0, 16.0),
        ]);
        let down = -Vector3::unit_z();
        if let Some(recipe) = &mut part.recipe {
            recipe.features = vec![hole("flange-hole", [14.0, 0.0, 5.0], down, [2.0; 2], End::Through)];
        }
        let found = set_ups(&part);
        assert_eq!(found.len(), 2);
        assert!(found[0].features.is_empty());
        assert_eq!(found[1].features, ["flange-hole"]);
    }

    #[test]
    fn a_cross_hole_looks_up_in_its_set_up() {
        let cross = hole("cross", [20.0, 0.0, 5.0], -Vector3::unit_x(), [2.0; 2], End::Blind);
        let found = set_ups(&plate(vec![cross]));
        assert_eq!(found.len(), 2, "the outline, and the hole");
        let s = &found[1];
        assert_eq!(s.turned(Vector3::unit_x()), Vector3::unit_z(), "into the metal is down");
        assert_eq!(s.turned(Vector3::unit_z()), Vector3::unit_y());
        // right-handed
        assert_eq!(s.turned(s.x_axis.cross(s.y_axis())), Vector3::unit_z());
    }
}
