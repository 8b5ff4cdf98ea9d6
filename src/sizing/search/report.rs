//! What a search found, for readers.

use super::TOLERANCE_MM;
use super::lever::Moved;
use super::problem::Figures;
use super::score::Score;
use crate::design::{Design, Dimension, ROOM_PA};
use crate::sizing::dimension::Unit;
use crate::sizing::result::Limit;
use serde::{Deserialize, Serialize};

/// What was sought and what was found; part of `swept size --json`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Report {
    /// Power wanted \[W\].
    #[serde(rename = "target_W")]
    pub target_w: f64,
    /// Speed at which it is wanted \[rpm\].
    pub speed_rpm: f64,
    /// Whether it is met in the middle case.
    pub met: bool,
    /// Shaft power in the middle case: every uncertain input at its median \[W\].
    #[serde(rename = "middle_case_W")]
    pub middle_case_w: f64,
    /// Shaft power in the bad case, about the worst of ten engines \[W\]; absent where the target is not met or the model has
    /// no answer.
    #[serde(rename = "bad_case_W", default, skip_serializing_if = "Option::is_none")]
    pub bad_case_w: Option<f64>,
    /// Power over the target in the bad case, as a part of the target; negative where it falls short.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub margin: Option<f64>,
    /// Whether a spin by hand starts it in the middle case; absent where the target is not met.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub starts_by_hand: Option<bool>,
    /// What was found: key and value as it is written in a design.
    pub found: Vec<(String, String)>,
    /// Estimated height, width and depth \[mm\], within a millimetre of what is drawn.
    pub sides_mm: [f64; 3],
    /// Where the target is not met: what binds, each moved alone.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moves: Vec<Move>,
}

/// One thing moved alone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Move {
    /// Its key.
    pub path: String,
    /// Where it stands now.
    pub bound: f64,
    /// Where it would have to stand; absent where moving it alone cannot do it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub needed: Option<f64>,
    /// Unit of both.
    pub unit: Unit,
    /// Most power in the middle case that was found by moving it \[W\].
    #[serde(rename = "most_W")]
    pub most_w: f64,
    /// The same in words, with the caution that belongs to it.
    pub words: String,
}

impl Report {
    pub(super) fn new(
        target_w: f64,
        design: &Design,
        found: Vec<(String, String)>,
        score: Score,
        f: &Figures,
    ) -> Self {
        let met = score.meets();
        Self {
            target_w,
            speed_rpm: design.targets.speed_rpm.value,
            met,
            middle_case_w: f.middle_w,
            bad_case_w: f.bad_w,
            margin: f.bad_w.map(|bad| bad / target_w - 1.0),
            starts_by_hand: met.then_some(!matches!(score, Score::Start(_))),
            found,
            sides_mm: f.sides_mm,
            moves: Vec::new(),
        }
    }

    /// What binds, in the form of the answer's limits.
    pub fn limits(&self) -> Vec<Limit> {
        let limit = |m: &Move| Limit {
            path: m.path.clone(),
            value: m.needed.unwrap_or(m.bound),
            bound: m.bound,
            unit: m.unit,
            remedy: Some(m.words.clone()),
        };
        self.moves.iter().map(limit).collect()
    }

    /// The report in words, a line for each thing.
    pub fn words(&self) -> Vec<String> {
        let mut lines = vec![format!(
            "searched for {} W at {:.0} rpm: {}",
            self.target_w,
            self.speed_rpm,
            self.found.iter().map(|(path, value)| format!("{path} {value}")).collect::<Vec<_>>().join(", ")
        )];
        let sides = self.sides_mm.map(|side| format!("{side:.0}")).join(" x ");
        lines.push(format!("about {sides} mm high, wide and deep"));
        if !self.met {
            lines.push(format!(
                "not met: {:.1} W in the middle case is the best that can be had; each of these alone:",
                self.middle_case_w
            ));
            lines.extend(self.moves.iter().map(|m| format!("  {}", m.words)));
            return lines;
        }
        let bad = self.bad_case_w.zip(self.margin).map_or_else(
            || "no answer in the bad case".to_owned(),
            |(bad, margin)| {
                format!("{bad:.1} W in a bad case (about the worst of ten): margin {:+.0} %", 100.0 * margin)
            },
        );
        lines.push(format!("met: {:.1} W in the middle case, {bad}", self.middle_case_w));
        if self.starts_by_hand == Some(false) {
            lines.push("no engine was found that meets it and that a hand surely starts".into());
        }
        lines
    }
}

impl Move {
    pub(super) fn new(moved: &Moved) -> Self {
        let (lever, show) = (&moved.lever, |value| moved.lever.dimension.show(value));
        let words = match moved.needed {
            Some(needed) => {
                let caution = caution(&lever.path, lever.dimension, needed);
                format!(
                    "{}: {} would do it instead of {}{caution}",
                    lever.path,
                    show(needed),
                    show(lever.bound)
                )
            }
            None => format!(
                "{}: moving it alone from {} cannot do it; {:.1} W is the most",
                lever.path,
                show(lever.bound),
                moved.most_w
            ),
        };
        Self {
            path: lever.path.clone(),
            bound: lever.bound,
            needed: moved.needed,
            unit: unit(lever.dimension),
            most_w: moved.most_w,
            words,
        }
    }
}

/// The usual caution of a move.
fn caution(path: &str, dimension: Dimension, needed: f64) -> &'static str {
    match (dimension, path) {
        (Dimension::Pressure, _) if needed > ROOM_PA + 50_000.0 => {
            " (over 0.5 bar gauge it may be pressure equipment in law: have it checked under your local code before it is \
             filled, test with water, fit a relief valve)"
        }
        (Dimension::Temperature, _) => " (see that the hot cap's metal still carries load there)",
        (Dimension::Speed, _) => " (guard what spins, and balance the cranks)",
        _ => "",
    }
}

fn unit(dimension: Dimension) -> Unit {
    match dimension {
        Dimension::Length => Unit::Millimetre,
        Dimension::Temperature => Unit::Kelvin,
        Dimension::Pressure => Unit::Pascal,
        Dimension::Angle => Unit::Degree,
        Dimension::Speed => Unit::Rpm,
        Dimension::Power => Unit::Watt,
        Dimension::Torque => Unit::NewtonMetre,
        Dimension::Mass => Unit::Kilogram,
        Dimension::Inertia => Unit::KilogramSquareMetre,
        Dimension::Flow => Unit::LitreAMinute,
        Dimension::Velocity => Unit::MetreASecond,
        Dimension::Force => Unit::Newton,
        // what only the shelf file measures is never left open
        _ => Unit::Ratio,
    }
}

/// What a check says where the drawn engine differs from what the search took it for.
pub fn differs_mm(estimate: [f64; 3], drawn: [f64; 3]) -> Option<f64> {
    let most = estimate.iter().zip(drawn).map(|(e, d)| (e - d).abs()).fold(0.0, f64::max);
    (most > TOLERANCE_MM).then_some(most)
}
