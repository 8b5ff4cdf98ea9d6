//! Metal left beside and behind every hole, measured on the recipe.
//!
//! From points on the hole's wall one goes square away from its axis, and from its bottom along it, until the metal ends.
//! A thread counts from its major diameter.

use crate::catalogue::threads::port_thread;
use crate::parts::part::{Part, PartSet, Supply};
use crate::shape::metal::Metal;
use crate::shape::recipe::{End, Feature, Kind, ProfileNode, Recipe};
use crate::shape::{Point3, Vector3};
use crate::sizing::check::{Check, WALL_MM};
use crate::sizing::dimension::Unit;
use std::f64::consts::TAU;

/// How far one looks \[mm\]: thicker walls are not told apart.
const LOOK_MM: f64 = 4.0;
/// Stride of the first look \[mm\].
const STRIDE_MM: f64 = 0.2;
/// Skin at which metal begins or ends \[mm\].
const SKIN_MM: f64 = 1e-3;
/// Directions around a hole.
const AROUND: usize = 16;
/// The same for gaskets \[mm\] (common practice, no source).
const SHEET_MM: [f64; 2] = [2.0, 1.0];

/// Depth up to which a blind hole is a mark, which takes no strength \[mm\] (common practice, no source).
const MARK_MM: f64 = 0.5;

/// The thinnest wall of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// Thickness \[mm\], the greatest looked at where no wall is thinner.
    pub mm: f64,
    /// Name of the hole.
    pub hole: String,
    /// Whether it is the wall behind the bottom.
    pub behind: bool,
}

/// One check for each made part that has holes.
pub fn check(set: &PartSet) -> Vec<Check> {
    set.parts.iter().filter(|p| p.supply == Supply::Make).filter_map(of_part).collect()
}

fn of_part(part: &Part) -> Option<Check> {
    let wall = thinnest(part.recipe.as_ref()?)?;
    let side = if wall.behind { "behind" } else { "beside" };
    let [wanted, limit] = if part.name.ends_with("gasket") { SHEET_MM } else { WALL_MM };
    let what = format!("{}: least wall {side} a hole ({})", part.title, wall.hole);
    let path = crate::parts::blame_path(&part.name, &wall.hole).unwrap_or_default();
    Some(
        Check::at_least(&format!("wall-{}", part.name), &what, wall.mm, Unit::Millimetre, wanted, limit)
            .source("common practice, no source")
            .at(path)
            .of(&[&part.name])
            .hint("move the hole, take a smaller screw, or make the part larger there"),
    )
}

/// Thinnest wall beside or behind any hole; `None` where there is no hole.
pub fn thinnest(recipe: &Recipe) -> Option<Wall> {
    let metal = Metal::of(recipe);
    let walls = recipe.features.iter().filter_map(|f| match &f.kind {
        Kind::Bore { chain, end, .. } if !is_mark(chain, *end) => Some(of_hole(&metal, f, chain, *end)),
        _ => None,
    });
    walls.min_by(|a, b| a.mm.total_cmp(&b.mm))
}

/// Whether it only marks a place.
fn is_mark(chain: &[ProfileNode], end: End) -> bool {
    end == End::Blind && chain.iter().all(|n| n.z <= MARK_MM)
}

fn of_hole(metal: &Metal, f: &Feature, chain: &[ProfileNode], end: End) -> Wall {
    let beside = beside_mm(metal, f, chain) - thread_mm(f);
    let behind = if end == End::Through { LOOK_MM } else { behind_mm(metal, f, chain, end) };
    Wall { mm: beside.min(behind), hole: f.name.clone(), behind: behind < beside }
}

/// By how much a thread is larger than its drill, on the radius \[mm\].
fn thread_mm(f: &Feature) -> f64 {
    let Kind::Bore { thread: Some(thread), .. } = &f.kind else { return 0.0 };
    port_thread(&thread.designation).map_or(0.0, |t| (t.major_mm - t.tap_drill_mm) / 2.0)
}

/// Directions square to the axis.
fn around(f: &Feature) -> impl Iterator<Item = Vector3> {
    let (x, y) = (f.x_axis, f.axis.direction.cross(f.x_axis));
    (0..AROUND).map(move |i| {
        let (sin, cos) = (i as f64 * TAU / AROUND as f64).sin_cos();
        x * cos + y * sin
    })
}

/// Least wall beside the cylindrical walls of a chain \[mm\]. Holes that open into this one leave no wall to it.
fn beside_mm(metal: &Metal, f: &Feature, chain: &[ProfileNode]) -> f64 {
    let straight = chain.windows(2).filter(|w| w[0].r == w[1].r && w[0].z != w[1].z);
    let mut looks = Vec::new();
    for wall in straight {
        let (r, low, high) = (wall[0].r, wall[0].z.min(wall[1].z), wall[0].z.max(wall[1].z));
        for depth in depths(low, high) {
            // the wall of an island has its metal inside
            let at = |aside: Vector3| f.axis.origin + f.axis.direction * depth + aside * r;
            looks.extend(around(f).flat_map(|aside| [(at(aside), aside), (at(aside), -aside)]));
        }
    }
    let opens: Vec<usize> = looks.iter().filter_map(|(at, way)| metal.opening(at + way * SKIN_MM)).collect();
    let walls = looks.iter().filter_map(|(at, way)| {
        let mm = thickness_mm(metal, *at, *way)?;
        let behind = metal.opening(at + way * (mm + 10.0 * SKIN_MM));
        (!behind.is_some_and(|i| opens.contains(&i))).then_some(mm)
    });
    walls.fold(LOOK_MM, f64::min)
}

/// Depths at which a wall is looked at: away from its ends, where it meets faces \[mm\].
fn depths(low: f64, high: f64) -> [f64; 5] {
    let edge = (0.25 * (high - low)).min(1.0);
    let at = |share: f64| low + edge + share * (high - low - 2.0 * edge);
    [0.0, 0.25, 0.5, 0.75, 1.0].map(at)
}

/// Metal behind the bottom \[mm\].
fn behind_mm(metal: &Metal, f: &Feature, chain: &[ProfileNode], end: End) -> f64 {
    let deepest = chain.iter().map(|n| n.z).fold(0.0, f64::max);
    let at_bottom: Vec<f64> = chain.iter().filter(|n| n.z == deepest).map(|n| n.r).collect();
    let middle = at_bottom.iter().sum::<f64>() / at_bottom.len().max(1) as f64;
    let r = if end == End::Island { middle } else { 0.0 };
    let bottom = |aside: Vector3| {
        let at = f.axis.origin + f.axis.direction * deepest + aside * r;
        thickness_mm(metal, at, f.axis.direction).unwrap_or(LOOK_MM)
    };
    around(f).map(bottom).fold(LOOK_MM, f64::min)
}

/// Thickness of the metal from a surface point along a way \[mm\]; `None` where no metal begins there, or where it is
/// thicker than one looks.
fn thickness_mm(metal: &Metal, from: Point3, way: Vector3) -> Option<f64> {
    let has = |mm: f64| metal.contains(from + way * mm);
    if !has(SKIN_MM) {
        return None;
    }
    let strides = (1..).map(|i| f64::from(i) * STRIDE_MM).take_while(|mm| *mm <= LOOK_MM);
    let out = strides.into_iter().find(|mm| !has(*mm))?;
    let (mut low, mut high) = (out - STRIDE_MM, out);
    for _ in 0..16 {
        let middle = 0.5 * (low + high);
        if has(middle) { low = middle } else { high = middle }
    }
    // the search ends within a tenth of a micrometre: what is told is exact to one
    Some((500.0 * (low + high)).round() / 1e3)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::kit::{along, tapped, through};
    use crate::shape::Point2;
    use crate::shape::outline::Outline;
    use crate::shape::recipe::{Body, Tag};

    fn plate(features: Vec<Feature>) -> Recipe {
        let outline = Outline::Rectangle {
            low: Point2::new(-20.0, -10.0),
            high: Point2::new(20.0, 10.0),
            corner: 0.0,
            tags: [Tag::new("width"), Tag::new("height")],
        };
        Recipe { body: Body::Plate { outline, thickness: 10.0, tag: Tag::new("thickness") }, features }
    }

    fn hole(x: f64, y: f64, d: f64) -> Feature {
        through(Point3::new(x, y, 10.0), along(0.0, 0.0, -1.0), d, 10.0, Tag::new("hole"))
    }

    #[test]
    fn walls_to_the_edge_and_to_the_next_hole() {
        let near = |recipe: Recipe| thinnest(&recipe).unwrap();
        assert!((near(plate(vec![hole(0.0, 7.0, 4.0)])).mm - 1.0).abs() < 1e-3);
        assert!((near(plate(vec![hole(-3.0, 0.0, 4.0), hole(3.5, 0.0, 4.0)])).mm - 2.5).abs() < 1e-3);
        assert!(thinnest(&plate(vec![])).is_none());
        assert_eq!(near(plate(vec![hole(0.0, 0.0, 4.0)])).mm, LOOK_MM);
    }

    /// M5 to 6 mm: drilled three pitches (0.8 mm) deeper, point of 118° on 4.2 mm: 9.66 mm, 0.34 mm are left.
    #[test]
    fn a_blind_thread_nearly_comes_out_behind() {
        let t = crate::catalogue::threads::thread("M5").unwrap();
        let f = tapped("thread", Point3::new(0.0, 0.0, 10.0), along(0.0, 0.0, -1.0), t, 6.0);
        let wall = thinnest(&plate(vec![f])).unwrap();
        assert!(wall.behind && (wall.mm - 0.338).abs() < 2e-3, "{wall:?}");
    }
}
