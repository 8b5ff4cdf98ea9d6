//! One candidate: numbers in, score out.

use super::TOLERANCE_MM;
use super::lever::Lever;
use super::score::{Score, bulk};
use super::variable::Variable;
use crate::design::{Design, Draft, ROOM_PA, Setting};
use crate::sizing::answer::full_engine;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::{Refused, attempt, sides_mm};
use crate::sizing::verdict::{Change, FullEngine, NetWork, start};

/// Part of the pressure limit that the search keeps in hand: the middle case is a little cooler than the design.
const PRESSURE_IN_HAND: f64 = 0.02;

/// Called while the search runs.
pub trait Watch: Sync {
    /// Work of so many candidates at the most begins.
    fn begin(&self, what: &str, candidates: usize);
    /// One more candidate is done.
    fn step(&self);
}

/// For callers who do not watch.
impl Watch for () {
    fn begin(&self, _: &str, _: usize) {}
    fn step(&self) {}
}

/// What is known of a candidate.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Figures {
    /// Height, width and depth \[mm\].
    pub sides_mm: [f64; 3],
    /// Shaft power in the middle case \[W\].
    pub middle_w: f64,
    /// Shaft power in the bad case \[W\].
    pub bad_w: Option<f64>,
    /// Greatest pressure \[Pa\].
    pub pressure_pa: f64,
}

/// What is sought.
pub struct Problem<'a> {
    /// The design with its openings.
    pub draft: &'a Draft,
    /// The openings, in their order; the lever stands behind them where it is a number of its own.
    pub variables: Vec<Variable>,
    /// What else may move, where the target is to be met by moving it as little as possible.
    pub lever: Option<Lever>,
    /// Power wanted \[W\].
    pub target_w: f64,
    /// The middle case and the bad case.
    pub cases: [Change; 2],
    /// Who watches.
    pub watch: &'a dyn Watch,
}

/// The sides of the envelope with their limits.
pub fn side_limits(design: &Design) -> [(&'static str, Option<f64>); 3] {
    let l = &design.limits;
    let of = |limit: &Option<Setting<f64>>| limit.as_ref().map(|l| l.value);
    [
        ("limits.height", of(&l.height_mm)),
        ("limits.width", of(&l.width_mm)),
        ("limits.depth", of(&l.depth_mm)),
    ]
}

impl Problem<'_> {
    /// The design with a candidate's numbers; `None` where a number is outside its key's range.
    pub fn design(&self, numbers: &[f64]) -> Option<Design> {
        let open = self.draft.openings().len();
        let mut design = self.draft.with(&numbers[..open], "", 0.0).ok()?;
        if let (Some(lever), Some(number)) = (&self.lever, numbers.get(open)) {
            lever.set(&mut design, *number);
        }
        Some(design)
    }

    /// Score of a candidate. With `thorough`, a start by hand is worked out and not only guessed from the work at hand speed.
    pub fn score(&self, numbers: &[f64], thorough: bool) -> (Score, Figures) {
        let scored =
            self.design(numbers).map_or((Score::Refused(f64::INFINITY), Figures::default()), |design| {
                match attempt(&design) {
                    Ok(engine) => self.judge(&design, &engine, numbers, thorough),
                    Err(refused) => (Score::Refused(misses(&refused)), Figures::default()),
                }
            });
        self.watch.step();
        scored
    }

    fn judge(&self, design: &Design, engine: &Engine, numbers: &[f64], thorough: bool) -> (Score, Figures) {
        let mut figures = Figures { sides_mm: sides_mm(engine), ..Figures::default() };
        let over = self.sides_over(design, figures.sides_mm);
        if over > 0.0 {
            return (Score::Over(over), figures);
        }
        let net = full_engine(design, engine);
        let speed_rpm = design.targets.speed_rpm.value;
        let Ok(work) = net.at(speed_rpm, &self.cases[0]) else { return (Score::Silent, figures) };
        figures.middle_w = work.power_w();
        figures.pressure_pa = work.pressure_max_pa * (1.0 + PRESSURE_IN_HAND);
        let over = figures.pressure_pa / design.limits.peak_pressure_pa.value - 1.0;
        if over > 0.0 && !self.released("limits.peak_pressure") {
            return (Score::Over(over), figures);
        }
        let missing = 1.0 - figures.middle_w / self.target_w;
        match &self.lever {
            _ if missing > 0.0 => (Score::Short(missing), figures),
            Some(lever) => (Score::Met(lever.moved(&figures, numbers)), figures),
            None => self.reserve(design, &net, figures, thorough),
        }
    }

    /// What an engine that meets its target has beyond it.
    fn reserve(
        &self,
        design: &Design,
        net: &FullEngine,
        mut figures: Figures,
        thorough: bool,
    ) -> (Score, Figures) {
        let [middle, bad] = &self.cases;
        let hand_rpm = design.model.hand_speed_rpm.value;
        let at_hand = net.at(hand_rpm, middle).map_or(-1.0, |work| work.net_j);
        let carried = !thorough || start(net, middle, hand_rpm).is_ok_and(|s| s.spin_rpm.is_some());
        figures.bad_w = net.at(design.targets.speed_rpm.value, bad).ok().map(|work| work.power_w());
        if at_hand <= 0.0 || !carried {
            return (Score::Start((-at_hand).max(0.0)), figures);
        }
        let missing = 1.0 - figures.bad_w.unwrap_or(0.0) / self.target_w;
        let charge = design.engine.charge_pressure_pa.value / ROOM_PA;
        let score =
            if missing > 0.0 { Score::Reserve(missing) } else { Score::Met(bulk(figures.sides_mm, charge)) };
        (score, figures)
    }

    /// By which parts of the limits the sides are too long, together; what the estimate may be off is kept in hand.
    fn sides_over(&self, design: &Design, sides_mm: [f64; 3]) -> f64 {
        let over = side_limits(design).into_iter().zip(sides_mm).filter_map(|((path, limit), side)| {
            let over = (side + TOLERANCE_MM) / limit? - 1.0;
            (over > 0.0 && !self.released(path)).then_some(over)
        });
        over.sum()
    }

    fn released(&self, path: &str) -> bool {
        self.lever.as_ref().is_some_and(|lever| lever.releases(path))
    }
}

/// How far off an engine is that breaks rules: their number, and what the bores lack for a port and the displacer for its hub.
fn misses(refused: &Refused) -> f64 {
    let value = |path: &str| refused.ledger.get(path).map(|d| d.value);
    let beyond = |need: Option<f64>, have: Option<f64>| match (need, have) {
        (Some(need), Some(have)) => (need / have.max(1e-3) - 1.0).max(0.0),
        _ => 0.0,
    };
    let overlap = value("displacer.bore").zip(value("piston.bore")).map(|(d, p)| 0.5 * (d + p) - 8.0);
    let hub = value("displacer.base_thickness").zip(value("displacer.hub_height")).map(|(b, h)| b + h + 3.0);
    refused.problems.len() as f64
        + beyond(value("drive.least_centres"), overlap)
        + beyond(hub, value("displacer.length").map(|l| l.max(1.0)))
}
