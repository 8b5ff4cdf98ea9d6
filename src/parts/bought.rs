//! Bought parts: listed by standard designation, without a shape of their own.

use super::kit::stuff_named;
use super::part::{Part, Supply};
use crate::catalogue::bearings::BallBearing;
use crate::catalogue::bushes::Bush;
use crate::catalogue::threads::Thread;

/// One line of the list.
pub fn buy(name: &str, title: &str, designation: String, stuff: &str, quantity: usize) -> Part {
    Part {
        name: name.to_owned(),
        title: title.to_owned(),
        quantity,
        supply: Supply::Buy { designation },
        material: stuff_named(stuff),
        recipe: None,
        flat: false,
        blank: None,
        notes: Vec::new(),
        cautions: Vec::new(),
    }
}

/// Ball bearings.
pub fn bearing(name: &str, title: &str, b: &BallBearing, quantity: usize) -> Part {
    let size = format!("ball bearing {} ({} x {} x {} mm)", b.designation, b.bore_mm, b.outer_mm, b.width_mm);
    buy(name, title, size, "bearing-steel", quantity)
}

/// Wrapped bushes, `long` \[mm\].
pub fn bush(name: &str, title: &str, b: &Bush, long: f64, quantity: usize) -> Part {
    let size = format!("ISO 3547 wrapped bush {} x {} x {long}, PTFE lined", b.shaft_mm, b.housing_mm);
    buy(name, title, size, "brass", quantity)
}

/// Cap screws, `long` \[mm\] below the head.
pub fn screw(name: &str, title: &str, thread: &Thread, long: f64, quantity: usize) -> Part {
    buy(name, title, super::joints::cap_screw(thread, long), "steel-zinc", quantity)
}
