//! Revisions of the drawings: which index a part's sheet bears, and what the change that made it was.
//!
//! A set carries the record of its own sheets in `build.json`. The next set over it takes the record over and adds an entry
//! for each part that differs from the set before, with the words of the change report. A part that does not differ gets none,
//! so that building the same design again changes nothing.

use super::beside::short;
use super::change::{PartChange, SizeChange, changed};
use super::manifest::{MakeOrBuy, Manifest, PartEntry};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Index of a first issue.
pub const FIRST: &str = "A";
/// Letters of an index: I and O are left out, they look like figures (common practice, no source).
const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// One revision of a part's drawing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Revision {
    /// Index in the title block (ISO 7200).
    pub index: String,
    /// Date of issue as the design gave it; empty for none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub date: String,
    /// What changed, in words; none in a first issue.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<String>,
}

/// Part → revisions of its drawing, the oldest first; parts that are gone keep theirs.
pub type Record = BTreeMap<String, Vec<Revision>>;

/// What the user says of the issue that is built now.
#[derive(Clone, Copy, Debug)]
pub struct Issue<'a> {
    /// The user's own index, if there is one.
    pub index: Option<&'a str>,
    /// Date of issue; may be empty.
    pub date: &'a str,
}

impl Issue<'_> {
    fn revision(&self, index: &str, changes: Vec<String>) -> Revision {
        Revision { index: index.to_owned(), date: self.date.to_owned(), changes }
    }

    /// A drawing that was not there before.
    fn first(&self) -> Vec<Revision> {
        vec![self.revision(self.index.unwrap_or(FIRST), Vec::new())]
    }

    /// The revisions of a part over the set before.
    pub fn of(&self, part: &PartEntry, before: Option<&Manifest>) -> Vec<Revision> {
        let Some(before) = before else { return self.first() };
        let was = before.parts.iter().find(|p| p.name == part.name && p.make_or_buy == MakeOrBuy::Make);
        let changes = match (was, before.revisions.get(&part.name)) {
            (None, None) => return self.first(),
            (None, Some(_)) => vec!["in the set again".to_owned()],
            (Some(was), _) => changed(was, part).map(|c| notes(&c)).unwrap_or_default(),
        };
        // a set of a program that kept no record yet is a first issue
        let start = || vec![Revision { index: FIRST.to_owned(), date: String::new(), changes: Vec::new() }];
        let mut all = before.revisions.get(&part.name).cloned().unwrap_or_else(start);
        if !changes.is_empty() {
            self.add(&mut all, changes);
        }
        all
    }

    /// Adds a change: under the next index, or under the user's own, which may be that of the newest entry still.
    fn add(&self, all: &mut Vec<Revision>, changes: Vec<String>) {
        let newest = all.last().map(|r| r.index.clone()).unwrap_or_default();
        let index = self.index.map_or_else(|| next(&newest), str::to_owned);
        match all.last_mut().filter(|last| last.index == index) {
            Some(last) => {
                last.date = self.date.to_owned();
                last.changes.extend(changes);
            }
            None => all.push(self.revision(&index, changes)),
        }
    }
}

/// The record of a set: that of its sheets, and that of the parts that the set before had and this one has not.
pub fn record(sheets: Record, before: Option<&Manifest>) -> Record {
    let mut all = before.map(|b| b.revisions.clone()).unwrap_or_default();
    all.extend(sheets);
    all
}

/// The index after another: the letters or figures at its end count on.
fn next(index: &str) -> String {
    let tail = |is: fn(&u8) -> bool| index.bytes().rev().take_while(is).count();
    let (letters, figures) = (tail(u8::is_ascii_uppercase), tail(u8::is_ascii_digit));
    let (stem, end) = index.split_at(index.len() - letters.max(figures));
    match end.parse::<u64>() {
        Ok(number) => format!("{stem}{:0width$}", number.saturating_add(1), width = figures),
        Err(_) if letters > 0 => format!("{stem}{}", next_letters(end.as_bytes())),
        Err(_) if index.is_empty() => FIRST.to_owned(),
        Err(_) => format!("{index}-{FIRST}"),
    }
}

/// Letters counted on: A, B … Z, AA, AB.
fn next_letters(letters: &[u8]) -> String {
    let mut done: Vec<u8> = letters.to_vec();
    for letter in done.iter_mut().rev() {
        match LETTERS.iter().find(|l| **l > *letter) {
            Some(higher) => {
                *letter = *higher;
                return String::from_utf8_lossy(&done).into_owned();
            }
            None => *letter = LETTERS[0],
        }
    }
    done.insert(0, LETTERS[0]);
    String::from_utf8_lossy(&done).into_owned()
}

/// The words of a change for a drawing, where lengths are millimetres.
fn notes(change: &PartChange) -> Vec<String> {
    let arrow = |text: &str| text.replace(" -> ", " → ");
    let sizes = change.sizes.iter().map(size);
    let tolerances = change.tolerances.iter().map(|t| arrow(&t.text()));
    sizes.chain(tolerances).chain(change.other.iter().map(|o| arrow(o))).collect()
}

/// For example `bore-diameter 32 → 34`.
fn size(change: &SizeChange) -> String {
    let unit = if change.unit == "deg" { "°" } else { "" };
    let value = |v: f64| format!("{}{unit}", short(v));
    match (change.from, change.to) {
        (Some(a), Some(b)) => format!("{} {} → {}", change.name, value(a), value(b)),
        (None, Some(b)) => format!("{} {} added", change.name, value(b)),
        (Some(a), None) => format!("{} {} removed", change.name, value(a)),
        (None, None) => change.name.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own(index: Option<&'static str>) -> Issue<'static> {
        Issue { index, date: "2026-05-01" }
    }

    #[test]
    fn an_index_counts_on_without_the_letters_that_look_like_figures() {
        let told = ["A", "H", "N", "Z", "AZ", "ZZ", "9", "09", "P2", "draft", ""].map(next);
        assert_eq!(told, ["B", "J", "P", "AA", "BA", "AAA", "10", "10", "P3", "draft-A", "A"]);
    }

    #[test]
    fn a_change_is_the_next_entry_or_joins_the_users_own_index() {
        let mut all = own(None).first();
        own(None).add(&mut all, vec!["bore 32 → 34".into()]);
        own(Some("X1")).add(&mut all, vec!["bore 34 → 35".into()]);
        own(Some("X1")).add(&mut all, vec!["length 60 → 61".into()]);
        let told: Vec<(&str, usize)> = all.iter().map(|r| (r.index.as_str(), r.changes.len())).collect();
        assert_eq!(told, [("A", 0), ("B", 1), ("X1", 2)]);
    }

    #[test]
    fn sizes_that_move_come_or_go_are_told_without_millimetres() {
        let of = |unit: &str, from, to| {
            size(&SizeChange { name: "lead".into(), unit: unit.into(), from, to, origin: None })
        };
        assert_eq!(of("mm", Some(32.0), Some(34.5)), "lead 32 → 34.5");
        assert_eq!(of("deg", Some(90.0), Some(85.0)), "lead 90° → 85°");
        assert_eq!(of("1", None, Some(4.0)), "lead 4 added");
        assert_eq!(of("mm", Some(4.0), None), "lead 4 removed");
    }
}
