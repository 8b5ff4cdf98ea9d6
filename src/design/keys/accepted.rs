//! A check that the user accepts although it fails.

use super::super::key::Presence::Required;
use super::super::key::{Key, Kind};
use super::super::setting::Setting;
use super::super::value::{Field, Values};
use crate::diagnostic::Place;

/// An accepted check.
#[derive(Clone, Debug, PartialEq)]
pub struct Accepted {
    /// Name of the check.
    pub name: Setting<String>,
    /// Why it is accepted.
    pub why: Setting<String>,
    /// Where its name stands.
    pub place: Option<Place>,
}

impl Accepted {
    /// Its keys.
    pub const KEYS: &'static [Key] = &[
        Key {
            name: "name",
            kind: Kind::Text,
            presence: Required("journal-bending"),
            doc: " Name of the check, as `swept size` tells it.",
        },
        Key {
            name: "why",
            kind: Kind::Text,
            presence: Required("it runs an hour a year, behind a guard"),
            doc: " Why; the drawings of the parts concerned say it.",
        },
    ];

    /// Takes its values; `None` when one is missing or of another type.
    pub(in crate::design) fn take(values: &mut Values) -> Option<Self> {
        let place = values.get("name")?.place.clone();
        Some(Self { name: Field::take(values, "name")?, why: Field::take(values, "why")?, place })
    }
}
