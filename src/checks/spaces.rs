//! Gas spaces as drawn against those that sizing used.

use crate::diagnostic::Diagnostic;
use crate::parts::part::{Part, PartSet};
use crate::shape::recipe::{Body, Kind, ProfileNode};
use crate::sizing::engine::{Arranged, Engine};
use crate::sizing::layouts::{hot_cap_mm3, port_mm3};
use crate::sizing::volumes::circle_mm2;
use std::f64::consts::PI;

/// Allowed difference: what fillets and edge radii may take \[share\].
const ALLOWED: f64 = 0.02;

/// Volume of a turned profile \[mm³\], worked out from the recipe's corners as if arcs were chords.
fn solid_of_revolution(nodes: &[ProfileNode]) -> f64 {
    let pairs = nodes.iter().zip(nodes.iter().cycle().skip(1));
    // signed Pappus sum over the edges: ∮ π r² dz, positive for a profile run counter-clockwise
    pairs.map(|(a, b)| PI * (b.z - a.z) * (a.r * a.r + a.r * b.r + b.r * b.r) / 3.0).sum()
}

fn turned<'a>(set: &'a PartSet, name: &str) -> Option<&'a [ProfileNode]> {
    let part: &Part = set.parts.iter().find(|p| p.name == name)?;
    match &part.recipe.as_ref()?.body {
        Body::Turned(nodes) => Some(nodes),
        Body::Plate { .. } => None,
    }
}

/// Room inside the hot cap as drawn \[mm³\]: what its outside up to the axis encloses, less its metal.
fn inside_hot_cap(set: &PartSet) -> Option<f64> {
    let nodes = turned(set, "hot-cap")?;
    let end = nodes.iter().position(|n| n.r == 0.0)?;
    let mut outside = vec![ProfileNode::new(0.0, 0.0)];
    outside.extend_from_slice(&nodes[..=end]);
    Some(solid_of_revolution(&outside) - solid_of_revolution(nodes))
}

/// Feature of a part.
fn feature<'a>(set: &'a PartSet, part: &str, name: &str) -> Option<&'a Kind> {
    let recipe = set.parts.iter().find(|p| p.name == part)?.recipe.as_ref()?;
    recipe.features.iter().find(|f| f.name == name).map(|f| &f.kind)
}

/// What a hole takes out of its part \[mm³\].
fn hole_mm3(kind: &Kind) -> Option<f64> {
    match kind {
        Kind::Pocket { outline, depth, through: true } => Some(outline.area().abs() * depth),
        Kind::Bore { chain, .. } => {
            let pairs = chain.iter().zip(chain.iter().skip(1));
            Some(pairs.map(|(a, b)| PI * (b.z - a.z) * (a.r * a.r + a.r * b.r + b.r * b.r) / 3.0).sum())
        }
        _ => None,
    }
}

/// The passage between the cylinders as drawn \[mm³\].
fn port_as_drawn(set: &PartSet, e: &Engine) -> Option<f64> {
    let hole = |part: &str, name: &str| hole_mm3(feature(set, part, name)?);
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaFlat(_) => hole("cooler-plate", "transfer-port"),
        Arranged::GammaRightAngle(own) => {
            let tube = turned(set, "transfer-tube")?;
            let inner = tube.iter().map(|n| n.r).fold(f64::INFINITY, f64::min);
            let (low, high) = tube.iter().fold((0.0_f64, 0.0_f64), |(l, h), n| (l.min(n.z), h.max(n.z)));
            let holes = [
                hole("cooler-plate", "transfer-mouth")?,
                hole("cooler-plate", "transfer-drilling")?,
                hole("cooler-plate", "transfer-riser")?,
                hole("head-plate", "transfer-drilling")?,
                hole("head-plate", "transfer-inlet")?,
                circle_mm2(2.0 * inner) * (high - low),
            ];
            let p = &own.passage;
            let filled =
                circle_mm2(p.drilling_mm) * p.plug_depth_mm + 2.0 * circle_mm2(p.tube_mm[1]) * p.spigot_mm;
            Some(holes.iter().sum::<f64>() - filled)
        }
        Arranged::BetaCoaxial(own) => {
            let recipe = set.parts.iter().find(|p| p.name == "cooler")?.recipe.as_ref()?;
            let holes = recipe.features.iter().filter(|f| f.name == "gas-hole");
            let holes: f64 = holes.filter_map(|f| hole_mm3(&f.kind)).sum();
            let tube = solid_of_revolution(turned(set, "cooler")?);
            let [length, seat] = [e.cold.length_mm, own.head.seat_mm];
            let whole = circle_mm2(e.cold.flange_diameter_mm) * length - tube;
            let plain =
                circle_mm2(e.displacer.bore_mm) * (length - seat) + circle_mm2(own.head.liner_mm) * seat;
            Some(holes + whole - plain)
        }
    }
}

/// Differences that matter.
pub fn check(e: &Engine, set: &PartSet) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let mut compare = |what: &str, drawn: Option<f64>, sized: f64| {
        let Some(drawn) = drawn else { return };
        if (drawn - sized).abs() > ALLOWED * sized {
            found.push(Diagnostic::warning(
                "swept::spaces",
                format!("{what}: {:.2} cm³ as drawn, {:.2} cm³ in the cycle", drawn / 1e3, sized / 1e3),
            ));
        }
    };
    compare("transfer port", port_as_drawn(set, e), port_mm3(e));
    compare("hot cap", inside_hot_cap(set), hot_cap_mm3(e));
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Frustum of a cone, π h (R² + R r + r²) / 3 (any geometry text).
    #[test]
    fn revolution_of_a_frustum_is_the_textbook_one() {
        let n = ProfileNode::new;
        let v = solid_of_revolution(&[n(0.0, 0.0), n(5.0, 0.0), n(3.0, 4.0), n(0.0, 4.0)]);
        assert!((v - PI * 4.0 * (25.0 + 15.0 + 9.0) / 3.0).abs() < 1e-9, "{v}");
    }
}
