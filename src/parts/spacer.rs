//! Ring between two bearings, or between a collar and a bearing, on one pin or shaft. Datum: one end.

use super::geometry_rules as rules;
use super::kit::{made, named};
use super::part::Part;
use crate::shape::recipe::{Body, Recipe, Tag};

/// Play on the pin or shaft, on the radius \[mm\].
const PLAY_MM: f64 = 0.05;

/// A ring on a pin or shaft of `bore`, `outer` wide and `long` \[mm\], as `origin` wants it.
pub fn ring(name: &str, title: &str, [bore, outer]: [f64; 2], long: f64, origin: &'static str) -> Part {
    let (inner, outer) = (bore / 2.0 + PLAY_MM, outer / 2.0);
    let profile = vec![
        named(inner, 0.0, Tag::new("lower-end")),
        named(outer, 0.0, Tag::new("outside-diameter")),
        named(outer, long, Tag::new("length").limits(0.0, -0.05).origin(origin)),
        named(inner, long, Tag::new("bore").limits(0.1, 0.0)),
    ];
    made(name, title, "mild-steel", Recipe { body: Body::Turned(profile), features: Vec::new() })
        .control(rules::parallel("length", "lower-end", rules::SIDE))
        .note("Touches the inner rings only.")
}
