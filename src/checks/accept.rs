//! Checks that fail: an error each, unless the design accepts it by name; then it is told with its reason.

use crate::catalogue::nearest;
use crate::design::Design;
use crate::diagnostic::Diagnostic;
use crate::parts::part::PartSet;
use crate::sizing::blame::place;
use crate::sizing::check::{Check, Sense, State};
use crate::sizing::dimension::Unit;
use crate::sizing::ledger::Ledger;

/// Marks the checks that the design accepts.
///
/// # Errors
/// Names that no check has, each with the nearest one.
pub fn accept(design: &Design, checks: &mut [Check]) -> Result<(), Vec<Diagnostic>> {
    let mut unknown = Vec::new();
    for accepted in &design.checks.accept {
        let name = &accepted.name.value;
        let mut found = false;
        for check in checks.iter_mut().filter(|c| c.name == *name) {
            found = true;
            if check.state == State::Fail {
                check.accepted = Some(accepted.why.value.trim().to_owned());
            }
        }
        if !found {
            let near = nearest(name, checks.iter().map(|c| c.name.as_str())).unwrap_or_default();
            let said = Diagnostic::error("swept::check", format!("there is no check \"{name}\""))
                .label("not the name of a check of this engine")
                .allowed("the name of a check, as `swept size` tells it")
                .hint(format!("the nearest one is \"{near}\""));
            unknown.push(match &accepted.place {
                Some(place) => said.at(place.clone()),
                None => said,
            });
        }
    }
    if unknown.is_empty() { Ok(()) } else { Err(unknown) }
}

/// An error for each check that fails and is not accepted, at the number of the design that matters.
pub fn failed(design: &Design, ledger: &Ledger, checks: &[Check]) -> Vec<Diagnostic> {
    let fails = checks.iter().filter(|c| c.state == State::Fail && c.accepted.is_none());
    fails.map(|c| error(design, ledger, c)).collect()
}

fn error(design: &Design, ledger: &Ledger, c: &Check) -> Diagnostic {
    let side = match c.sense {
        Sense::AtLeast => "or more",
        Sense::AtMost => "or less",
    };
    let bound = c.bound_shown();
    let said = Diagnostic::error("swept::check", format!("{}: {}: {}", c.name, c.what, c.figures()))
        .allowed(format!("{bound} {side} ({})", c.source))
        .hint(format!(
            "{}; or accept it: [[checks.accept]] with name = \"{}\" and why = \"...\"",
            if c.hint.is_empty() { "change the number" } else { &c.hint },
            c.name
        ));
    if let Some(place) = place(design, ledger, &c.path) {
        return said.at(place.clone()).label(c.path.clone());
    }
    // nobody gave the number: what loads the engine was given
    let loads = LOADS.iter().find_map(|path| Some((path, design.place(path)?)));
    match loads.filter(|_| carries(c)) {
        Some((path, place)) => said.at(place.clone()).label(format!("{path}, with {} left out", c.path)),
        None => said,
    }
}

/// What the parts carry comes from these, the first that was given.
const LOADS: [&str; 2] = ["engine.charge_pressure", "piston.bore"];

/// Whether a check is about something that must be carried.
fn carries(c: &Check) -> bool {
    matches!(c.unit, Unit::Pascal | Unit::Newton | Unit::Hour | Unit::Ratio)
}

/// Writes what was accepted on the drawings of the parts concerned.
pub fn note(checks: &[Check], set: &mut PartSet) {
    for c in checks {
        let Some(why) = &c.accepted else { continue };
        for part in set.parts.iter_mut().filter(|part| c.parts.contains(&part.name)) {
            let what = format!("{}: {}", c.name, c.figures());
            part.notes.push(format!("Fails a check and was accepted: {what}. Reason given: {why}."));
        }
    }
}
