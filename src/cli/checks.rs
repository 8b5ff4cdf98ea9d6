//! Checks of a builder, for people.

use swept::sizing::check::{Check, State};

/// One line with how many came out how.
fn counts(checks: &[Check]) -> String {
    let count = |state: State| checks.iter().filter(|c| c.state == state).count();
    format!("checks: {} pass, {} warn, {} fail\n", count(State::Pass), count(State::Warn), count(State::Fail))
}

/// One check in a line, with its rule's source.
fn line(c: &Check) -> String {
    let why = c.accepted.as_ref().map_or_else(String::new, |why| format!("; accepted: {why}"));
    format!("  {:<4}  {}: {}: {} [{}]{why}\n", c.state.word(), c.name, c.what, c.figures(), c.source)
}

/// Every check.
pub fn all(checks: &[Check]) -> String {
    checks.iter().fold(counts(checks), |text, c| text + &line(c))
}

/// How many there are, and those that did not pass.
pub fn not_passed(checks: &[Check]) -> String {
    checks.iter().filter(|c| c.state != State::Pass).fold(counts(checks), |text, c| text + &line(c))
}
