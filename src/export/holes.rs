//! Holes of a part as a list: group, label, place, size, depth, thread. The same rows stand in
//! `tables/holes.csv` and in the manifest.

use super::beside::short;
use crate::shape::letters;
use crate::shape::recipe::{End, Feature, Kind, ProfileNode, Recipe};
use serde::{Deserialize, Serialize};

/// One hole.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hole {
    /// Name of its group: the feature's name.
    pub group: String,
    /// Letter of the group and number in it, for example `B3` (a hole that is alone: `B`); the same for all outputs.
    pub label: String,
    /// Centre on the face that it starts from, in the part's coordinates \[mm\].
    pub at_mm: [f64; 3],
    /// Unit direction into the metal.
    pub direction: [f64; 3],
    /// Diameter at its narrowest \[mm\]; for a tapped hole that of the tapping drill.
    pub diameter_mm: f64,
    /// Depth \[mm\]; absent when it goes right through.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth_mm: Option<f64>,
    /// Inside thread with its depth, for example `M5 x 12`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread: Option<String>,
    /// Wider steps from the face inwards: (diameter \[mm\], depth \[mm\]).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps_mm: Vec<[f64; 2]>,
}

/// All holes of a recipe, in the order in which groups first appear.
pub fn holes(recipe: &Recipe) -> Vec<Hole> {
    let labels = letters::labels(&recipe.features);
    let mut out = Vec::new();
    for (feature, label) in recipe.features.iter().zip(&labels) {
        if let Kind::Bore { chain, end, thread } = &feature.kind
            && *end != End::Island
        {
            let mut hole = hole(feature, chain, *end);
            hole.label = letters::written(label);
            hole.thread = thread.as_ref().map(|t| match t.depth {
                Some(depth) if t.both_ends => format!("{} x {} from both ends", t.designation, short(depth)),
                Some(depth) => format!("{} x {}", t.designation, short(depth)),
                None => t.designation.clone(),
            });
            out.push(hole);
        }
    }
    out
}

/// A hole without label and thread.
fn hole(feature: &Feature, chain: &[ProfileNode], end: End) -> Hole {
    let walls = walls(chain);
    let narrow = walls.iter().map(|w| w[0]).fold(f64::INFINITY, f64::min);
    let (o, d) = (feature.axis.origin, feature.axis.direction);
    Hole {
        group: feature.name.clone(),
        label: String::new(),
        at_mm: [o.x, o.y, o.z].map(rounded),
        direction: [d.x, d.y, d.z].map(rounded),
        diameter_mm: rounded(2.0 * narrow),
        depth_mm: (end == End::Blind)
            .then(|| rounded(walls.iter().filter(|w| w[0] == narrow).map(|w| w[1]).fold(0.0, f64::max))),
        thread: None,
        steps_mm: walls
            .iter()
            .filter(|w| w[0] > narrow)
            .map(|w| [rounded(2.0 * w[0]), rounded(w[1])])
            .collect(),
    }
}

/// Cylindrical walls of a chain: (radius, depth of their lower end) \[mm\]. A chain without any (a centre
/// mark, a cone) counts with its mouth.
fn walls(chain: &[ProfileNode]) -> Vec<[f64; 2]> {
    let straight = |w: &[ProfileNode]| (w[0].r == w[1].r && w[0].z != w[1].z).then(|| [w[0].r, w[1].z.abs()]);
    let found: Vec<[f64; 2]> = chain.windows(2).filter_map(straight).collect();
    let deepest = chain.iter().map(|n| n.z.abs()).fold(0.0, f64::max);
    match (found.is_empty(), chain.first()) {
        (true, Some(mouth)) => vec![[mouth.r, deepest]],
        _ => found,
    }
}

/// Rounded to nine decimals: far below what can be measured, above the rounding of different machines'
/// mathematical libraries, so that bytes stay the same.
pub(super) fn rounded(value: f64) -> f64 {
    let r = (value * 1e9).round() / 1e9;
    if r == 0.0 { 0.0 } else { r }
}
