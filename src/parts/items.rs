//! Item numbers of the parts list (ISO 7573), decided once for list, balloons and tables.

use super::part::{Part, PartSet, Supply};
use std::collections::BTreeMap;

/// Sorts of parts in the order in which a parts list counts them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// Made from a drawing.
    Made,
    /// Bought, but for fasteners.
    Bought,
    /// Screws, nuts, washers and the like.
    Fastener,
}

impl Sort {
    /// Of a part.
    pub fn of(part: &Part) -> Self {
        match (&part.supply, part.fastener) {
            (_, true) => Self::Fastener,
            (Supply::Make, false) => Self::Made,
            (Supply::Buy { .. }, false) => Self::Bought,
        }
    }
}

/// The parts in the order of their item numbers: made, bought, fasteners, each in the order of the set.
pub fn in_order(set: &PartSet) -> Vec<&Part> {
    let mut parts: Vec<&Part> = set.parts.iter().collect();
    parts.sort_by_key(|part| Sort::of(part));
    parts
}

/// Item number of each part by its name, counted from 1 without gaps.
pub fn item_numbers(set: &PartSet) -> BTreeMap<String, usize> {
    in_order(set).into_iter().zip(1..).map(|(part, number)| (part.name.clone(), number)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::bought::{buy, steel};

    #[test]
    fn made_parts_are_counted_first_and_fasteners_last() {
        let made = |name: &str| Part { supply: Supply::Make, ..buy(name, name, String::new(), "brass", 1) };
        let bought = |name: &str| buy(name, name, "O-ring".to_owned(), "nbr", 1);
        let parts =
            vec![steel("nut", "Nut", "ISO 4032 M5".to_owned(), 4), made("rod"), bought("ring"), made("cap")];
        let numbers = item_numbers(&PartSet { parts, ..PartSet::default() });
        let told: Vec<(&str, usize)> = numbers.iter().map(|(name, n)| (name.as_str(), *n)).collect();
        assert_eq!(told, [("cap", 2), ("nut", 4), ("ring", 3), ("rod", 1)]);
    }
}
