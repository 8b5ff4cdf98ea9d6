//! Whose word stands behind a number: the place in the design that an error should point at.

use super::ledger::Ledger;
use crate::design::Design;
use crate::diagnostic::Place;

/// Place of the number itself, or of the first number in its chain that the user gave.
pub fn place<'a>(design: &'a Design, ledger: &Ledger, path: &str) -> Option<&'a Place> {
    if let Some(place) = design.place(path) {
        return Some(place);
    }
    // a ledger holds no circles: inputs are decided before what hangs on them
    let inputs = ledger.get(path)?.origin.inputs();
    inputs.iter().find_map(|input| self::place(design, ledger, input))
}
