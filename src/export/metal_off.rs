//! Which named sizes of a recipe take metal off when they move, as far as it is certain.

use crate::shape::loops::Leave;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Kind, ProfileNode, Recipe};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Which way a named size must move for metal only to come off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MetalOff {
    /// The size must become larger (a bore).
    Larger,
    /// The size must become smaller (an outside diameter, a thickness).
    Smaller,
}

/// For each named surface of which it is certain, the way in which metal only comes off. Sizes that are
/// not here move other surfaces too, or it cannot be told from the recipe. A plain hole without a tag goes
/// by the name `<feature>-diameter`.
pub fn metal_off(recipe: &Recipe) -> BTreeMap<String, MetalOff> {
    let mut found: Vec<(String, MetalOff)> = body(&recipe.body);
    for feature in &recipe.features {
        if let Kind::Bore { chain, end, .. } = &feature.kind
            && *end != End::Island
        {
            let walls = || chain.windows(2).map(|w| (&w[0], &w[1])).filter(round);
            let single = walls().count() == 1 && walls().all(|(a, _)| a.tag.is_none());
            found.extend(single.then(|| (format!("{}-diameter", feature.name), MetalOff::Larger)));
            found.extend(walls().filter_map(|(a, _)| named(a, MetalOff::Larger)));
        }
    }
    certain(found)
}

/// Named surfaces of the body.
fn body(body: &Body) -> Vec<(String, MetalOff)> {
    match body {
        Body::Plate { outline, tag, .. } => {
            let outside = match outline {
                Outline::Disc { tag, .. } => Some((tag.name.clone(), MetalOff::Smaller)),
                _ => None,
            };
            outside.into_iter().chain([(tag.name.clone(), MetalOff::Smaller)]).collect()
        }
        Body::Turned(profile) => {
            let next = |i: usize| &profile[(i + 1) % profile.len()];
            // The profile runs counter-clockwise: an outside surface goes up, a bore goes down.
            let sense = |up: bool| if up { MetalOff::Smaller } else { MetalOff::Larger };
            let pairs = profile.iter().enumerate().map(|(i, n)| (n, next(i)));
            pairs.filter(round).filter_map(|(a, b)| named(a, sense(b.z > a.z))).collect()
        }
    }
}

/// Whether the surface between two corners is a cylinder.
fn round((a, b): &(&ProfileNode, &ProfileNode)) -> bool {
    a.leave == Leave::Line && a.r == b.r && a.z != b.z && a.r > 0.0
}

/// The name of a surface with its sense, if it has a name.
fn named(node: &ProfileNode, off: MetalOff) -> Option<(String, MetalOff)> {
    node.tag.as_ref().map(|t| (t.name.clone(), off))
}

/// The names that always have the same sense.
fn certain(found: Vec<(String, MetalOff)>) -> BTreeMap<String, MetalOff> {
    let mut out: BTreeMap<String, Option<MetalOff>> = BTreeMap::new();
    for (name, off) in found {
        let kept = out.entry(name).or_insert(Some(off));
        if *kept != Some(off) {
            *kept = None;
        }
    }
    out.into_iter().filter_map(|(name, off)| off.map(|o| (name, o))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::recipe::Tag;

    fn node(r: f64, z: f64, name: &str) -> ProfileNode {
        let node = ProfileNode::new(r, z);
        if name.is_empty() { node } else { node.tag(Tag::new(name)) }
    }

    #[test]
    fn outside_and_bore_of_a_turned_body_are_told_apart() {
        // A bush with a flange, a groove outside and a bore.
        let profile = vec![
            node(5.0, 0.0, ""),
            node(10.0, 0.0, "outside"),
            node(10.0, 4.0, "shoulder"),
            node(8.0, 4.0, "groove"),
            node(8.0, 6.0, ""),
            node(9.0, 6.0, "both"),
            node(9.0, 10.0, "end"),
            node(6.0, 10.0, "both"),
            node(6.0, 5.0, ""),
            node(5.0, 5.0, "bore"),
        ];
        let found = metal_off(&Recipe { body: Body::Turned(profile), features: Vec::new() });
        let expected =
            [("bore", MetalOff::Larger), ("groove", MetalOff::Smaller), ("outside", MetalOff::Smaller)];
        assert_eq!(found, expected.map(|(n, o)| (n.to_owned(), o)).into());
    }
}
