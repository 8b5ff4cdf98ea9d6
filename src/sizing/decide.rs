//! Deciding numbers: the design's word where it gave one, a rule or a standard where it did not.

use super::blame::place;
use super::dimension::{Dimension, Formula, Origin, Unit};
use super::layouts::Refused;
use super::ledger::{Ledger, LedgerError};
use crate::catalogue::Listed;
use crate::design::{Design, Setting, Source};
use crate::diagnostic::Diagnostic;

/// Records every decision in a ledger and collects what is wrong, so that one run tells all of it.
#[derive(Debug)]
pub struct Decide<'a> {
    /// The design that is being sized.
    pub design: &'a Design,
    /// Decided so far.
    pub ledger: Ledger,
    /// What is wrong so far.
    pub problems: Vec<Diagnostic>,
}

/// Smallest multiple of `step` that is not below `value`, both \[mm\]; a hair below counts as reached.
pub fn round_up(value: f64, step: f64) -> f64 {
    ((value / step - 1e-9).ceil() * step * 1e9).round() / 1e9
}

/// Nearest multiple of `step` \[mm\].
pub fn round_near(value: f64, step: f64) -> f64 {
    ((value / step).round() * step * 1e9).round() / 1e9
}

impl<'a> Decide<'a> {
    /// Starts with an empty ledger.
    pub fn new(design: &'a Design) -> Self {
        Self { design, ledger: Ledger::new(), problems: Vec::new() }
    }

    /// Records speed and charge where the search found them; they are no dimensions, but somebody may ask why.
    pub fn found_conditions(&mut self) {
        let design = self.design;
        let conditions = [
            ("targets.speed", &design.targets.speed_rpm, Unit::Rpm),
            ("engine.charge_pressure", &design.engine.charge_pressure_pa, Unit::Pascal),
        ];
        for (path, setting, unit) in conditions {
            if matches!(setting.from, Source::Solved { .. }) {
                self.setting(path, setting, unit);
            }
        }
    }

    /// What was found wrong, with what was decided so far.
    pub fn refused(self) -> Refused {
        Refused { problems: self.problems, ledger: self.ledger }
    }

    /// Records a setting that the design gives or whose default stands in \[`unit`\].
    pub fn setting(&mut self, path: &str, setting: &Setting<f64>, unit: Unit) -> f64 {
        let origin = match &setting.from {
            Source::Default { why } => Origin::Default { why: (*why).to_owned() },
            Source::File { file, line, .. } => Origin::Given { place: format!("{file}:{line}") },
            Source::Shelf { file, line, .. } => {
                Origin::Given { place: format!("your shelf file, {file}:{line}") }
            }
            Source::Override { text } => Origin::Given { place: format!("--set {text}") },
            Source::Solved { target, residual } => {
                Origin::Solved { target: target.clone(), residual: *residual, inputs: Vec::new() }
            }
        };
        let done = self.ledger.record(path, Dimension { value: setting.value, unit, origin });
        self.booked(done, setting.value)
    }

    /// Records a length that the design gives or whose default stands in \[mm\].
    pub fn mm(&mut self, path: &str, setting: &Setting<f64>) -> f64 {
        self.setting(path, setting, Unit::Millimetre)
    }

    /// Records a count that the design gives or whose default stands in.
    pub fn count(&mut self, path: &str, setting: &Setting<usize>) -> usize {
        let as_number = Setting { value: setting.value as f64, from: setting.from.clone() };
        self.setting(path, &as_number, Unit::Count) as usize
    }

    /// Records an open length \[mm\]: the design's word, else the rule's `value`.
    pub fn open_mm(
        &mut self,
        path: &str,
        setting: &Option<Setting<f64>>,
        formula: impl Into<Formula>,
        inputs: &[&str],
        value: f64,
    ) -> f64 {
        match setting {
            Some(given) => self.mm(path, given),
            None => self.rule(path, value, formula, inputs),
        }
    }

    /// Records an open count: the design's word, else the rule's `value`.
    pub fn open_count(
        &mut self,
        path: &str,
        setting: &Option<Setting<usize>>,
        formula: impl Into<Formula>,
        inputs: &[&str],
        value: usize,
    ) -> usize {
        match setting {
            Some(given) => self.count(path, given),
            None => self.rule_in(path, value as f64, Unit::Count, formula, inputs) as usize,
        }
    }

    /// Records a length that follows from others \[mm\].
    pub fn rule(&mut self, path: &str, value: f64, formula: impl Into<Formula>, inputs: &[&str]) -> f64 {
        self.rule_in(path, value, Unit::Millimetre, formula, inputs)
    }

    /// Records a number in any unit that follows from others.
    pub fn rule_in(
        &mut self,
        path: &str,
        value: f64,
        unit: Unit,
        formula: impl Into<Formula>,
        inputs: &[&str],
    ) -> f64 {
        let done = self.ledger.rule(path, value, unit, formula, inputs);
        self.booked(done, value)
    }

    /// Records a length read from a standard \[mm\].
    pub fn standard(&mut self, path: &str, value: f64, number: &str, table: &str) -> f64 {
        let done = self.ledger.standard(path, value, Unit::Millimetre, number, table);
        self.booked(done, value)
    }

    /// Records a length read from the catalogue \[mm\]: as the user's word when their own file holds the entry, else as
    /// read from a standard.
    pub fn listed(&mut self, path: &str, value: f64, from: &Listed, number: &str, table: &str) -> f64 {
        if !from.is_own() {
            return self.standard(path, value, number, table);
        }
        let done = self.ledger.given(path, value, Unit::Millimetre, &from.to_string());
        self.booked(done, value)
    }

    /// Records a length found by search \[mm\].
    pub fn solved(&mut self, path: &str, value: f64, target: &str, residual: f64, inputs: &[&str]) -> f64 {
        let done = self.ledger.solved(path, value, Unit::Millimetre, target, residual, inputs);
        self.booked(done, value)
    }

    /// Notes that a decided number cannot be; the place is that of the nearest number the user gave.
    pub fn refuse(&mut self, code: &'static str, path: &str, message: String, allowed: String, hint: String) {
        let mut problem = Diagnostic::error(code, message).allowed(allowed).hint(hint);
        problem.place = place(self.design, &self.ledger, path).cloned();
        problem.label = self.ledger.get(path).map(|d| format!("{path} = {d}"));
        if !self.problems.contains(&problem) {
            self.problems.push(problem);
        }
    }

    /// Looks an entry of the catalogue up; when it is unknown, says so at the place of `path` and gives nothing.
    pub fn look_up<T>(&mut self, path: &str, found: Result<T, crate::catalogue::UnknownEntry>) -> Option<T> {
        match found {
            Ok(entry) => Some(entry),
            Err(unknown) => {
                let hint = match &unknown.nearest {
                    Some(nearest) => format!("did you mean \"{nearest}\"?"),
                    None => "use an entry of the catalogue".to_owned(),
                };
                let allowed = "an entry of the catalogue".to_owned();
                self.refuse("swept::catalogue", path, unknown.to_string(), allowed, hint);
                None
            }
        }
    }

    /// A second decision of the same number is our own mistake: it is told, never swallowed.
    fn booked(&mut self, done: Result<f64, LedgerError>, value: f64) -> f64 {
        if let Err(error) = done {
            self.problems.push(Diagnostic::error("swept::internal", format!("a number went wrong: {error}")));
        }
        value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_up_leaves_exact_multiples_alone() {
        assert_eq!(round_up(0.3, 0.1), 0.3);
        assert_eq!(round_up(0.301, 0.1), 0.4);
        assert_eq!(round_near(5.33, 0.5), 5.5);
    }
}
