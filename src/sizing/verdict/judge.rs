//! The verdict: does it turn itself over, how fast, with what left, why not, what to change.

use super::change::Change;
use super::gains::{Gain, gains};
use super::net_work::{NetWork, VerdictError, WorkBreakdown};
use super::reasons::{Cause, Reason, reasons};
use super::speeds::{SpeedCurve, SpeedRange};
use super::start::{Start, start};
use super::stroke::{StrokeAdvice, stroke_advice};
use crate::sizing::result::{CauseAnswer, ChangeAnswer, Loss, MapPoint, Verdict};

/// What the verdict is asked about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Question {
    /// Speed at which the engine should work \[rpm\].
    pub speed_rpm: f64,
    /// Fastest spin that a hand gives \[rpm\]; about 200 with a flywheel of some kilograms (common practice, no
    /// source).
    pub hand_rpm: f64,
    /// Speeds of the curve.
    pub range: SpeedRange,
}

impl Question {
    /// The usual question.
    pub fn at(speed_rpm: f64) -> Self {
        Self { speed_rpm, hand_rpm: 200.0, range: SpeedRange::default() }
    }
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// Whether it turns itself over: a spin by hand, let go at any angle, carries it
    /// into a stretch of speeds that it keeps up by itself.
    pub turns_itself_over: bool,
    /// Speed asked for \[rpm\].
    pub asked_rpm: f64,
    /// Speed at which the work was taken apart: the one asked for, or, where the engine does not run there or at all,
    /// that of a spin by hand \[rpm\].
    pub judged_rpm: f64,
    /// Where the work goes at that speed.
    pub work: WorkBreakdown,
    /// Torque over speed without load.
    pub curve: SpeedCurve,
    /// Speed without load \[rpm\]; `None` where it does not run, or runs beyond the curve.
    pub no_load_rpm: Option<f64>,
    /// Start by hand.
    pub start: Start,
    /// Stroke against free travel.
    pub stroke: Option<StrokeAdvice>,
    /// Reasons, the greatest first.
    pub reasons: Vec<Reason>,
    /// The three best single changes.
    pub gains: Vec<Gain>,
}

/// Judges an engine.
///
/// # Errors
/// The model's, where it has no answer for the engine as it is.
pub fn judge(net: &dyn NetWork, base: &Change, question: &Question) -> Result<Judgement, VerdictError> {
    let curve = SpeedCurve::of(net, base, &question.range)?;
    let start = start(net, base, question.hand_rpm)?;
    let turns_itself_over = start.spin_rpm.is_some();
    let runs_there = curve.torque_nm(question.speed_rpm).is_some_and(|t| t > 0.0);
    let judged_rpm = if turns_itself_over && runs_there { question.speed_rpm } else { question.hand_rpm };
    let stroke = stroke_advice(net, judged_rpm, base);
    Ok(Judgement {
        turns_itself_over,
        asked_rpm: question.speed_rpm,
        judged_rpm,
        work: net.at(judged_rpm, base)?,
        no_load_rpm: if turns_itself_over { curve.no_load_rpm() } else { None },
        start,
        reasons: reasons(net, judged_rpm, base, stroke.as_ref())?,
        gains: gains(net, judged_rpm, base, stroke.as_ref(), 3)?,
        stroke,
        curve,
    })
}

impl Judgement {
    /// Work left each turn at the judged speed \[J\]; what is missing where negative.
    pub fn margin_j(&self) -> f64 {
        self.work.net_j
    }

    /// The verdict in the form that readers get; with the probability of [`crate::sizing::band`] where it was sampled.
    pub fn verdict(&self, probability: Option<f64>) -> Verdict {
        let mut words = vec![self.headline(), self.hand_words()];
        words.extend(self.stroke.as_ref().map(stroke_words));
        words.extend(self.reasons.iter().map(|r| r.words.clone()));
        words.extend(self.fuel_words());
        words.extend(
            self.gains
                .iter()
                .map(|g| format!("try: {}: {:+.3} J a turn, {:+.2} W", g.words, g.gain_j, g.gain_w)),
        );
        Verdict {
            turns_itself_over: Some(self.turns_itself_over),
            probability,
            margin_j_per_turn: Some(self.margin_j()),
            judged_speed_rpm: Some(self.judged_rpm),
            no_load_speed_rpm: self.no_load_rpm,
            free_travel_mm: self.stroke.and_then(|s| s.free_travel_mm),
            best_piston_stroke_mm: self.stroke.map(|s| s.best_mm),
            start_spin_rpm: self.start.spin_rpm,
            hand_torque_nm: Some(self.start.hand_torque_nm),
            causes: self.reasons.iter().map(cause_answer).collect(),
            changes: self.gains.iter().map(change_answer).collect(),
            reasons: words,
        }
    }

    /// Heat past the cycle that costs no work because the hot end keeps its temperature, where it is the most of it.
    fn fuel_words(&self) -> Option<String> {
        let heat = &self.work.heat;
        let past: f64 = heat.losses.iter().map(|l| l.power_w).sum();
        let told = self.reasons.iter().any(|r| r.cause == Cause::Conduction);
        (!told && past > 0.5 * heat.supply_w).then(|| {
            format!(
                "conduction eats the heat: {past:.0} W of {:.0} W go past the cycle; while the heater keeps the hot end at {:.0} °C that costs fuel, not power",
                heat.supply_w,
                heat.hot_wall_k - 273.15
            )
        })
    }

    fn hand_words(&self) -> String {
        let energy = self.start.energy_j.map_or_else(String::new, |j| {
            format!("; that spin holds {j:.2} J, its deepest valley takes {:.2} J", self.start.valley_j)
        });
        format!(
            "by hand from rest it takes {:.2} N m at the hardest angle{energy}",
            self.start.hand_torque_nm
        )
    }

    fn headline(&self) -> String {
        let left = format!("{:+.3} J a turn at {:.0} rpm", self.margin_j(), self.judged_rpm);
        let Some(spin) = self.start.spin_rpm else {
            return format!("{}: {left}", self.why_not());
        };
        let free = self.no_load_rpm.map_or_else(
            || "its speed without load lies beyond the speeds worked out".to_owned(),
            |free| format!("without load it settles at {free:.0} rpm"),
        );
        let but = if self.judged_rpm == self.asked_rpm {
            String::new()
        } else {
            format!(", but does not keep up {:.0} rpm", self.asked_rpm)
        };
        format!(
            "turns itself over{but}: {left}; a spin of {spin:.0} rpm starts it wherever it is let go; {free}"
        )
    }

    /// What a spin by hand does to an engine that it does not surely start.
    fn why_not(&self) -> String {
        let Some(best) = self.start.best_spin_rpm else { return "does not turn itself over".into() };
        let but = if self.margin_j() > 0.0 {
            "no spin by hand carries it through one; a heavier flywheel helps".to_owned()
        } else {
            let from = self.curve.driving().first().and_then(|(low, _)| *low);
            let from = from.map_or_else(String::new, |low| format!(", and drives from {low:.0} rpm on only"));
            format!("at the speed of a spin by hand it brakes itself{from}")
        };
        format!(
            "does not surely turn itself over: let go just past its compression with {best:.0} rpm it would, but {but}"
        )
    }

    /// Powers over speed for readers.
    pub fn map(&self) -> Vec<MapPoint> {
        let point = |p: &super::speeds::SpeedPoint| MapPoint {
            speed_rpm: p.speed_rpm,
            shaft_power_w: Some(p.power_w),
            indicated_power_w: p.indicated_j * p.speed_rpm / 60.0,
        };
        // beyond the speed at which the gas itself gives nothing there is nothing to read
        let points = &self.curve.points;
        let spent = points.iter().rposition(|p| p.indicated_j > 0.0).map_or(points.len(), |last| last + 2);
        points.iter().take(spent).map(point).collect()
    }

    /// All losses at the judged speed by name \[W\]: of work first, then of heat.
    pub fn losses(&self) -> Vec<Loss> {
        let per_second = self.work.speed_rpm / 60.0;
        let work = |name: &str, j: f64| Loss { name: name.into(), power_w: j * per_second };
        let gas = [
            ("leakage", self.work.leak_j),
            ("gas-spring hysteresis", self.work.hysteresis_j),
            ("flow friction", self.work.flow_j),
        ];
        let mut all: Vec<Loss> = gas.iter().map(|(name, j)| work(name, *j)).collect();
        all.extend(self.work.friction.iter().map(|f| work(f.name, f.work_j)));
        all.extend(self.work.heat.losses.iter().cloned());
        all
    }
}

fn cause_answer(r: &Reason) -> CauseAnswer {
    CauseAnswer { cause: r.cause, gain_j: r.gain_j, words: r.words.clone() }
}

fn change_answer(g: &Gain) -> ChangeAnswer {
    ChangeAnswer { words: g.words.clone(), gain_j: g.gain_j, gain_w: g.gain_w }
}

fn stroke_words(s: &StrokeAdvice) -> String {
    let travel = s.free_travel_mm.map_or_else(String::new, |t| {
        format!(
            "a free piston would move {t:.1} mm, {:.2} times the stroke of {:.1} mm; ",
            t / s.stroke_mm,
            s.stroke_mm
        )
    });
    if (s.factor() - 1.0).abs() < 0.02 {
        let what = if s.tied_bore_mm.is_some() { "bore" } else { "stroke" };
        return format!("{travel}no other {what} leaves more work per turn");
    }
    let most = if s.best_net_j > 0.0 {
        "most work per turn is left"
    } else {
        "no other size of the piston alone makes it drive; least is lost"
    };
    format!("{travel}{most} with a {}: {:.3} J instead of {:.3} J", s.best_words(), s.best_net_j, s.net_j)
}
