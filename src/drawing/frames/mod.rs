//! Geometrical tolerances on a sheet (ISO 1101) with their datums (ISO 5459). What speaks of an axis hangs below the size of
//! the feature or stands in line with its dimension line; what speaks of a face points at its line or at an extension of it.

mod attach;
mod hooks;
mod openings;
mod stack;

pub use attach::{finish, settle};
pub use stack::Under;
pub(super) use stack::{datum_name, draw, size};

use super::callout::{Callout, Row};
use super::texts;
use super::units::Units;
use super::views::HoleRow;
use crate::shape::control::{Characteristic, Control, Geometry, Spot, spots};
use crate::shape::recipe::Recipe;
use openings::{Opening, openings};

/// What is told of one feature.
#[derive(Clone, Debug)]
struct Item {
    /// Name of the feature.
    name: String,
    /// Where it lies on the part.
    spots: Vec<Spot>,
    /// Frames, then the datum.
    stack: Vec<Under>,
    /// It speaks of the surface itself, not of its axis.
    of_surface: bool,
    /// Where a face is open: nothing may point there.
    openings: Vec<Opening>,
}

/// What is still to be told on a sheet.
#[derive(Clone, Debug, Default)]
pub struct Frames {
    items: Vec<Item>,
    /// Names of features whose place is given by exact sizes.
    exact: Vec<String>,
}

impl Frames {
    /// All controls and datums of a part, in the units of the sheet.
    pub fn of(geometry: &Geometry, recipe: &Recipe, units: Units) -> Self {
        let mut items: Vec<Item> = Vec::new();
        let mut add = |name: &str, under: Under, of_surface: bool| {
            let known = |i: &&mut Item| i.name == name && (i.of_surface == of_surface || !i.is_axis());
            match items.iter_mut().find(known) {
                Some(item) => item.stack.push(under),
                None => items.push(Item::new(recipe, name, under, of_surface)),
            }
        };
        for control in &geometry.controls {
            let frame = Under::Frame(cells(control, geometry, units), control.name());
            add(&control.of, frame, control.characteristic.is_of_surfaces());
        }
        for (letter, name) in geometry.datums() {
            add(name, Under::Datum(letter), false);
        }
        let placed = geometry.controls.iter().filter(|c| c.characteristic == Characteristic::Position);
        let exact = placed.map(|c| c.of.clone()).collect();
        Self { items, exact }
    }

    /// Whether something is still to be told of an axis with one of these names.
    pub fn want(&self, names: &[String]) -> bool {
        self.items.iter().any(|i| i.is_axis() && names.contains(&i.name))
    }

    /// Whether something is still to be told of a face that the front view of a plate does not show as a line.
    pub fn want_side(&self) -> bool {
        let across = |s: &Spot| matches!(s, Spot::Face { normal, .. } if normal.z.abs() > 0.5);
        self.items.iter().any(|i| i.spots.iter().any(across))
    }

    /// A call-out with what hangs below the sizes that it tells.
    pub fn dressed(&mut self, callout: &Callout) -> Callout {
        let mut callout = callout.clone();
        for item in std::mem::take(&mut self.items) {
            let row = callout.rows.iter().position(|r| item.is_axis() && r.sizes.contains(&item.name));
            let Some(row) = row else {
                self.items.push(item);
                continue;
            };
            let circle = format!("{}-circle", item.name);
            let exact = self.exact.contains(&item.name);
            callout.rows[row].under.extend(item.stack);
            let place = callout.rows.iter_mut().find(|r| exact && r.sizes.contains(&circle));
            place.into_iter().for_each(Row::put_in_box);
        }
        callout
    }

    /// Puts the places of a group that has a tolerance of position into boxes, in the hole table.
    pub fn mark_exact(&self, group: &str, rows: &mut [HoleRow]) {
        if !self.exact.iter().any(|name| name == group) {
            return;
        }
        for row in rows {
            if let HoleRow::Member(_, _, _, names, exact) = row {
                *exact |= names.iter().any(|n| n.starts_with(&format!("{group}-")));
            }
        }
    }
}

impl Item {
    fn new(recipe: &Recipe, name: &str, under: Under, of_surface: bool) -> Self {
        let spots = spots(recipe, name);
        // of a face there is nothing but the surface
        let axis = matches!(spots.first(), Some(Spot::Axis { .. }));
        let openings = spots.first().map(|s| openings(recipe, s)).unwrap_or_default();
        Self { name: name.to_owned(), spots, stack: vec![under], of_surface: of_surface && axis, openings }
    }

    fn is_axis(&self) -> bool {
        matches!(self.spots.first(), Some(Spot::Axis { .. }))
    }
}

/// What stands in the compartments of a frame.
fn cells(control: &Control, geometry: &Geometry, units: Units) -> Vec<String> {
    let round = if control.diametral { "⌀" } else { "" };
    let value = format!("{round}{}", units.told(&texts::plain(control.limit.mm)));
    let letters = geometry.letters(control).into_iter().map(String::from);
    [control.characteristic.symbol().to_string(), value].into_iter().chain(letters).collect()
}
