//! Putting the engine together, step by step: what several layouts share. A layout's own `steps.rs` lists them in order.

mod running;
mod standing;

pub use running::{displacer, ends, first_run, load_and_guard, piston, rods, wheel};
pub use standing::{SEATED, base, bushes, cold_cylinder, gland, hot_cap, short, studs};

use super::part::{PartSet, Setting, Step};
use crate::catalogue::threads::Thread;
use crate::sizing::strength::bolt::{FRICTION, torque_nm};

impl Step {
    /// A step with its title.
    pub fn new(title: &str) -> Self {
        Self {
            title: title.to_owned(),
            parts: Vec::new(),
            lines: Vec::new(),
            settings: Vec::new(),
            cautions: Vec::new(),
            on_the_bench: false,
        }
    }

    /// Of parts that are put together on the bench and go in as one.
    #[must_use]
    pub fn on_the_bench(self) -> Self {
        Self { on_the_bench: true, ..self }
    }

    /// With parts that come in, by name; [`kept`] leaves out those that this engine has not.
    #[must_use]
    pub fn with(mut self, parts: &[&str]) -> Self {
        self.parts.extend(parts.iter().map(|p| (*p).to_owned()));
        self
    }

    /// Without a part that came in before.
    #[must_use]
    pub fn without(mut self, part: &str) -> Self {
        self.parts.retain(|p| p != part);
        self
    }

    /// With something to do.
    #[must_use]
    pub fn line(mut self, text: &str) -> Self {
        self.lines.push(text.to_owned());
        self
    }

    /// With something to set.
    #[must_use]
    pub fn set(mut self, what: &str, value: String, how: &str) -> Self {
        self.settings.push(Setting { what: what.to_owned(), value, how: how.to_owned() });
        self
    }

    /// With a caution.
    #[must_use]
    pub fn caution(mut self, text: &str) -> Self {
        self.cautions.push(text.to_owned());
        self
    }

    /// With screws that are tightened in three rounds.
    #[must_use]
    pub fn tighten(self, what: &str, thread: &Thread, preload_n: f64, how: &str) -> Self {
        self.set(
            &format!("{what}, {}", thread.designation),
            rounds(thread, preload_n),
            &format!("in three rounds, {how}"),
        )
    }
}

/// Torque in three rounds: a third, two thirds, all of it (common practice, no source); friction as of a screw with a trace
/// of oil.
fn rounds(thread: &Thread, preload_n: f64) -> String {
    let all = torque_nm(thread, preload_n, FRICTION);
    let one = |share: f64| {
        let nm = share * all;
        if nm < 1.0 { format!("{nm:.2}") } else { format!("{nm:.1}") }
    };
    format!("{}, {}, {} N m", one(1.0 / 3.0), one(2.0 / 3.0), one(1.0))
}

/// The steps with only those parts that the set has; a step whose parts are all missing falls away.
pub fn kept(steps: Vec<Step>, set: &PartSet) -> Vec<Step> {
    let known = |name: &String| set.parts.iter().any(|p| p.name == *name);
    let cut = |mut step: Step| {
        let had = !step.parts.is_empty();
        step.parts.retain(known);
        (!had || !step.parts.is_empty()).then_some(step)
    };
    steps.into_iter().filter_map(cut).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::threads::thread;

    /// VDI 2230 table A1 for M6, class 8.8, friction 0.12 (from memory): 9.4 kN with 10.1 N m; a third is 3.4 N m.
    #[test]
    fn three_rounds_end_at_the_whole_torque() {
        let text = rounds(thread("M6").unwrap(), 9400.0);
        let all: Vec<f64> = text.trim_end_matches(" N m").split(", ").map(|t| t.parse().unwrap()).collect();
        assert!((all[2] - 10.1).abs() < 0.6, "{text}");
        assert!((all[0] * 3.0 - all[2]).abs() < 0.2 && (all[1] * 1.5 - all[2]).abs() < 0.1, "{text}");
    }
}
