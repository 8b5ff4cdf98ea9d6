//! The catalogue that a design looks things up in: the tables of the program, with the user's own entries over them.

use super::bearings::{BallBearing, bearings, find_bearing};
use super::belts::{BeltLength, all_belt_lengths};
use super::bushes::{Bush, LinearBushing, bushes, linear_bushings};
use super::gases::{Gas, NamedGas, gases};
use super::gaskets::{GasketSheet, gasket_sheets};
use super::materials::{Material, materials};
use super::orings::{ORing, SECTIONS_MM, all_rings};
use super::stock::Can;
use super::table::{Listed, UnknownEntry, find, find_size};
use super::threads::Thread;
use std::fmt;
use std::sync::{Arc, OnceLock};

/// Cap screws that the user has in lengths of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnScrews {
    /// Thread, for example `M5`.
    pub thread: String,
    /// Lengths below the head \[mm\].
    pub lengths_mm: Vec<f64>,
    /// Where they stand.
    pub from: Listed,
}

/// Everything of which a user may have entries of their own. Threads, fits, belt sections and grooves are standards and
/// stand beside it, the same for everybody.
#[derive(Clone, PartialEq)]
pub struct Catalogue {
    /// Ball bearings.
    pub bearings: Vec<BallBearing>,
    /// Wrapped bushes, small to large.
    pub bushes: Vec<Bush>,
    /// Linear ball bushings.
    pub linear_bushings: Vec<LinearBushing>,
    /// O-rings.
    pub rings: Vec<ORing>,
    /// Belts.
    pub belts: Vec<BeltLength>,
    /// Cap screws beyond the preferred lengths.
    pub screws: Vec<OwnScrews>,
    /// Materials.
    pub materials: Vec<Material>,
    /// Working gases.
    pub gases: Vec<NamedGas>,
    /// Sheets for gaskets.
    pub gasket_sheets: Vec<GasketSheet>,
    /// Cans; the program itself knows none.
    pub cans: Vec<Can>,
}

impl fmt::Debug for Catalogue {
    /// How many entries there are: the tables would fill pages.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let counts = [self.bearings.len(), self.bushes.len(), self.rings.len(), self.belts.len()];
        let more = [self.materials.len(), self.gases.len(), self.gasket_sheets.len(), self.cans.len()];
        write!(f, "Catalogue({counts:?}, {more:?})")
    }
}

/// Puts an entry over the one that is the same, or adds it.
pub(crate) fn put<T>(entries: &mut Vec<T>, entry: T, same: impl Fn(&T) -> bool) {
    match entries.iter_mut().find(|known| same(known)) {
        Some(known) => *known = entry,
        None => entries.push(entry),
    }
}

impl Catalogue {
    /// The tables of the program alone.
    pub fn standard() -> &'static Arc<Self> {
        static STANDARD: OnceLock<Arc<Catalogue>> = OnceLock::new();
        STANDARD.get_or_init(|| {
            Arc::new(Self {
                bearings: bearings().to_vec(),
                bushes: bushes().to_vec(),
                linear_bushings: linear_bushings().to_vec(),
                rings: all_rings().to_vec(),
                belts: all_belt_lengths().to_vec(),
                screws: Vec::new(),
                materials: materials().to_vec(),
                gases: gases().to_vec(),
                gasket_sheets: gasket_sheets().to_vec(),
                cans: Vec::new(),
            })
        })
    }

    /// A ball bearing by its designation. `608ZZ` and `608-2RS` are found under `608`, since they share its sizes.
    ///
    /// # Errors
    /// When there is no such bearing; names the nearest one. So for all that is looked up here.
    pub fn bearing(&self, designation: &str) -> Result<&BallBearing, UnknownEntry> {
        find_bearing(&self.bearings, designation)
    }

    /// A wrapped bush by its shaft diameter \[mm\].
    ///
    /// # Errors
    /// As [`Catalogue::bearing`].
    pub fn bush(&self, shaft_mm: f64) -> Result<&Bush, UnknownEntry> {
        find_size("wrapped bush", shaft_mm, &self.bushes, |bush| bush.shaft_mm)
    }

    /// A linear ball bushing by its code; `LM8UU` is found under `LM8`.
    ///
    /// # Errors
    /// As [`Catalogue::bearing`].
    pub fn linear_bushing(&self, code: &str) -> Result<&LinearBushing, UnknownEntry> {
        let code = code.trim();
        let bare = if code.to_uppercase().ends_with("UU") { &code[..code.len() - 2] } else { code };
        let exact = self.linear_bushings.iter().find(|b| b.designation.eq_ignore_ascii_case(code));
        exact.map_or_else(|| find("linear bushing", bare, &self.linear_bushings, |b| &b.designation), Ok)
    }

    /// The O-ring of a section whose inside diameter comes nearest to `inner_mm`.
    ///
    /// # Errors
    /// When the section has no groove; names the nearest one.
    pub fn ring_nearest(&self, section_mm: f64, inner_mm: f64) -> Result<&ORing, UnknownEntry> {
        find_size("O-ring section", section_mm, &SECTIONS_MM, |section| *section)?;
        let away = |ring: &ORing| (ring.inner_mm - inner_mm).abs();
        let fitting = self.rings.iter().filter(|ring| (ring.section_mm - section_mm).abs() < 0.01);
        fitting.min_by(|a, b| away(a).total_cmp(&away(b))).ok_or_else(|| UnknownEntry {
            kind: "O-ring",
            wanted: format!("{inner_mm} x {section_mm}"),
            nearest: None,
        })
    }

    /// Belts of a section, those of the market short to long, then the user's own.
    pub fn belts_of<'a>(&'a self, section: &'a str) -> impl Iterator<Item = &'a BeltLength> {
        self.belts.iter().filter(move |belt| belt.section.eq_ignore_ascii_case(section))
    }

    /// The shortest cap screw of a thread that is at least `needed_mm` long; `None` when none is.
    pub fn cap_screw_at_least(&self, thread: &Thread, needed_mm: f64) -> Option<f64> {
        self.cap_screws(thread).filter(|length| *length >= needed_mm - 1e-9).min_by(f64::total_cmp)
    }

    /// The longest cap screw of a thread that is at most `room_mm` long; `None` when none is.
    pub fn cap_screw_at_most(&self, thread: &Thread, room_mm: f64) -> Option<f64> {
        self.cap_screws(thread).filter(|length| *length <= room_mm + 1e-9).max_by(f64::total_cmp)
    }

    /// Lengths of cap screws of a thread \[mm\], in no order.
    fn cap_screws<'a>(&'a self, thread: &'a Thread) -> impl Iterator<Item = f64> + 'a {
        let own = self.screws.iter().filter(|screws| screws.thread == thread.designation);
        thread.cap_screws_mm().chain(own.flat_map(|screws| screws.lengths_mm.iter().copied()))
    }

    /// A material by its name.
    ///
    /// # Errors
    /// As [`Catalogue::bearing`].
    pub fn material(&self, name: &str) -> Result<&Material, UnknownEntry> {
        find("material", name, &self.materials, |material| &material.name)
    }

    /// A working gas by its name.
    ///
    /// # Errors
    /// As [`Catalogue::bearing`].
    pub fn gas(&self, name: &str) -> Result<Gas, UnknownEntry> {
        find("gas", name, &self.gases, |gas| &gas.name).map(|named| named.gas)
    }

    /// A gasket sheet by its name.
    ///
    /// # Errors
    /// As [`Catalogue::bearing`].
    pub fn gasket_sheet(&self, name: &str) -> Result<&GasketSheet, UnknownEntry> {
        find("gasket sheet", name, &self.gasket_sheets, |sheet| &sheet.name)
    }

    /// A can by its name.
    ///
    /// # Errors
    /// As [`Catalogue::bearing`].
    pub fn can(&self, name: &str) -> Result<&Can, UnknownEntry> {
        find("can", name, &self.cans, |can| &can.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::threads::thread;

    #[test]
    fn an_own_entry_stands_over_the_table_and_beside_it() {
        let mut book = Catalogue::clone(Catalogue::standard());
        let own =
            BallBearing { width_mm: 9.0, designation: "608".into(), ..book.bearing("608").unwrap().clone() };
        put(&mut book.bearings, own, |known| known.designation == "608");
        assert_eq!(book.bearing("608-2RS").unwrap().width_mm, 9.0);
        assert_eq!(book.bearings.len(), Catalogue::standard().bearings.len());
        assert_eq!(Catalogue::standard().bearing("608").unwrap().width_mm, 7.0);
    }

    #[test]
    fn screws_of_odd_lengths_are_found_beside_the_preferred_ones() {
        let mut book = Catalogue::clone(Catalogue::standard());
        let m5 = thread("M5").unwrap();
        assert_eq!(
            (book.cap_screw_at_least(m5, 20.1), book.cap_screw_at_most(m5, 24.9)),
            (Some(25.0), Some(20.0))
        );
        assert_eq!(book.cap_screw_at_least(m5, 51.0), None);
        let from = Listed::Shelf("shelf.toml:3".into());
        book.screws.push(OwnScrews { thread: "M5".into(), lengths_mm: vec![22.0, 90.0], from });
        assert_eq!(
            (book.cap_screw_at_least(m5, 20.1), book.cap_screw_at_most(m5, 24.9)),
            (Some(22.0), Some(22.0))
        );
        assert_eq!(book.cap_screw_at_least(m5, 51.0), Some(90.0));
        assert_eq!(book.cap_screw_at_least(thread("M4").unwrap(), 20.1), Some(25.0));
    }

    #[test]
    fn codes_of_linear_bushings_with_and_without_seals() {
        let book = Catalogue::standard();
        assert_eq!(book.linear_bushing("LM8UU").unwrap().outer_mm, 15.0);
        assert_eq!(book.linear_bushing("LME8").unwrap().outer_mm, 16.0);
        assert_eq!(book.linear_bushing("LM9").unwrap_err().kind, "linear bushing");
    }

    #[test]
    fn the_nearest_ring_of_a_section() {
        let book = Catalogue::standard();
        assert_eq!(book.ring_nearest(1.78, 6.0).unwrap().designation, "AS568-010");
        assert_eq!(book.ring_nearest(2.0, 23.0).unwrap().inner_mm, 22.0);
        assert!(book.ring_nearest(5.0, 20.0).is_err());
    }
}
