//! O-rings in grooves in the place of the gaskets of the cold joints.

use super::bought::buy;
use super::kit::named;
use super::part::{Part, PartSet};
use crate::shape::recipe::{ProfileNode, Tag};
use crate::sizing::engine::{Engine, FaceRing};
use crate::sizing::layouts::{WaterSide, water_side};

/// Groove in a face at height 0 of a turned part, going outwards: its four corners.
pub fn turned_groove(ring: &FaceRing) -> [ProfileNode; 4] {
    let [inner, outer] = ring.groove_mm.map(|d| d / 2.0);
    let depth = || Tag::new("ring-groove-depth").limits(0.05, -0.05).origin("joints.cold_ring_depth");
    let wide = || Tag::new("ring-groove-outside").limits(0.1, 0.0).origin("joints.cold_ring_groove");
    [
        named(inner, 0.0, Tag::new("ring-groove-inside").limits(0.0, -0.1).origin("joints.cold_ring_groove")),
        named(inner, ring.depth_mm, depth()),
        named(outer, ring.depth_mm, wide()),
        named(outer, 0.0, Tag::new("ring-groove-edge")),
    ]
}

/// What must be told about a groove.
pub fn note(ring: &FaceRing) -> String {
    format!(
        "Groove for O-ring {}: sides and bottom Ra 1.6, edges broken 0.1 mm; silicone grease, no mineral oil.",
        ring.designation
    )
}

fn bought(name: &str, title: &str, ring: &FaceRing) -> Part {
    buy(name, title, format!("O-ring {}, FKM", ring.designation), "nbr", 1)
}

/// Puts the rings on the list and takes away the gaskets whose place they take.
pub fn in_place_of_gaskets(e: &Engine, set: &mut PartSet) {
    let power = match water_side(e) {
        WaterSide::Block(block) => block.ring.clone(),
        _ => None,
    };
    let rings = [
        ("cold-cylinder-gasket", "cold-cylinder-ring", "O-ring of the cold cylinder", &e.joints.cold_ring),
        ("power-cylinder-gasket", "power-cylinder-ring", "O-ring of the power cylinder", &power),
    ];
    for (gasket, name, title, ring) in rings {
        let Some(ring) = ring else { continue };
        set.parts.retain(|part| part.name != gasket);
        set.instances.retain(|instance| instance.part != gasket);
        let there = set.steps.iter_mut().flat_map(|step| &mut step.parts);
        there.filter(|part| *part == gasket).for_each(|part| name.clone_into(part));
        for joint in &mut set.joints {
            joint.gasket.take_if(|there| there == gasket);
        }
        set.parts.push(bought(name, title, ring));
    }
}
