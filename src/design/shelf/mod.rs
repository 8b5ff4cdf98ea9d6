//! The shelf file: what the user has, put over the tables of the program.

mod entry;
mod keys;
mod put;

use super::key::Table;
use super::read::{Reader, decode};
use super::value::Values;
use super::walk;
use crate::catalogue::Catalogue;
use crate::diagnostic::{Diagnostic, Severity};
pub use keys::SHELF;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A shelf file that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Shelf {
    /// The tables of the program with the user's entries over them.
    pub catalogue: Arc<Catalogue>,
    /// Stock, as a design lists it under `workshop.stock`.
    pub(super) stock: Vec<Values>,
    /// Cans by name.
    pub(super) cans: BTreeMap<String, Values>,
    /// The bytes of the file: part of what a result hangs on.
    pub bytes: Vec<u8>,
}

impl Shelf {
    /// A can by its name.
    pub(super) fn can(&self, name: &str) -> Option<&Values> {
        self.cans.get(name)
    }
}

/// Reads a shelf file.
///
/// # Errors
/// Everything that is wrong with it, in the order of the file.
pub fn read_shelf(file_name: &str, bytes: &[u8]) -> Result<Shelf, Vec<Diagnostic>> {
    let text = decode(file_name, bytes).map_err(|error| vec![error])?;
    let mut reader = Reader::new(file_name, text, SHELF);
    reader.is_shelf = true;
    let catalogue = Arc::clone(Catalogue::standard());
    let shelf =
        RefCell::new(Shelf { catalogue, stock: Vec::new(), cans: BTreeMap::new(), bytes: bytes.into() });
    walk::entries(&mut reader, &|reader, table, values| {
        put::entry(&mut shelf.borrow_mut(), reader, table, values);
        reader.catalogue = Arc::clone(&shelf.borrow().catalogue);
    });
    reader.sort();
    match reader.said.iter().any(|said| said.severity == Severity::Error) {
        true => Err(reader.said),
        false => Ok(shelf.into_inner()),
    }
}

/// The list of the shelf file with this name.
pub(super) fn list_of(name: &str) -> &'static Table {
    SHELF.iter().find(|table| table.name == name).expect("every list that is read is one of them")
}
