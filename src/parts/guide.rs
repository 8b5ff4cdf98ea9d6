//! Rod guide: sleeve with a flange that holds the rod's O-ring, bush at its lower end. Datum: lower end.

use super::geometry_rules as rules;
use super::joints::Patterns;
use super::kit::{fit, made, named};
use super::part::Part;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::guide::Guide;

/// Radius between sleeve and flange \[mm\].
const FILLET_MM: f64 = 0.5;

/// The part, of the metal `stuff`.
pub fn part(e: &Engine, g: &Guide, stuff: &str, common: &Patterns) -> Part {
    let [flange, thick] = e.gland.cap_mm;
    let (sleeve, rim, l) = (g.sleeve_mm / 2.0, flange / 2.0, g.length_mm);
    let (seat, free) = (g.bush.housing_mm / 2.0, e.displacer.rod_mm / 2.0 + 0.15);
    let profile = vec![
        named(seat, 0.0, Tag::new("lower-end")),
        named(sleeve, 0.0, Tag::new("sleeve-diameter").origin("guide.sleeve_diameter")),
        ProfileNode::arc(sleeve, l - thick - FILLET_MM, sleeve + FILLET_MM, l - thick - FILLET_MM, false)
            .tag(Tag::new("sleeve-fillet")),
        named(sleeve + FILLET_MM, l - thick, Tag::new("flange-thickness").from_z(l)),
        named(rim, l - thick, Tag::new("flange-diameter").origin("cooler.gland_cap_diameter")),
        named(rim, l, Tag::new("length").origin("guide.length").ra(1.6)),
        named(free, l, Tag::new("rod-clearance")),
        named(free, g.bush_length_mm, Tag::new("bush-seat-depth").origin("guide.bush_length")),
        named(seat, g.bush_length_mm, fit("bush-seat", g.bush.housing_mm, &g.bush.housing_fit).ra(1.6)),
    ];
    let features = common.gland.clearance("screw-hole", 0.0, 0.0, l, thick);
    let recipe = Recipe { body: Body::Turned(profile), features };
    let part = made("rod-guide", "Rod guide", stuff, recipe)
        .control(rules::square("length", "bush-seat", rules::GUIDE))
        .note("Bush seat and flange face in one setting; the rod lines guide and cooler plate up before the screws are tightened.");
    e.gland.oring.iter().fold(part, |part, _| {
        part.note(
            "Break the edge of the rod hole at the flange 0.2 mm so that it does not cut the rod's O-ring.",
        )
    })
}
