//! Where the target is out of reach: what binds, and how far each limit alone would have to move.

use super::TOLERANCE_MM;
use super::optimise::{Best, Effort, polish, search};
use super::problem::{Figures, Problem, side_limits};
use super::score::Score;
use super::variable::Variable;
use crate::design::{Design, Dimension, Draft, Kind as KeyKind, find_key};

/// Part of a limit from which on it binds: belts come in steps, so that an engine seldom fills its limits to the last.
const BINDS: f64 = 0.93;

/// One thing that may move while everything else stays.
#[derive(Clone, Debug)]
pub struct Lever {
    /// Its key.
    pub path: String,
    /// What it measures.
    pub dimension: Dimension,
    /// Where it stands now, in the unit of the design's fields.
    pub bound: f64,
    kind: Kind,
}

#[derive(Clone, Debug)]
enum Kind {
    /// A number that the design gives: sought between bounds, in steps.
    Given { bounds: [f64; 2], step: f64, set: fn(&mut Design, f64) },
    /// An opening whose bounds the user gave, or a search's usual bound: sought in the whole range of its key.
    Opening { index: usize },
    /// A limit that is lifted; what the engine then needs is told.
    Limit { need: fn(&Figures) -> f64 },
}

/// What moving one lever alone would do.
#[derive(Clone, Debug)]
pub struct Moved {
    /// What was moved.
    pub lever: Lever,
    /// Where it would have to stand; `None` where moving it alone cannot do it.
    pub needed: Option<f64>,
    /// Most power in the middle case that was found with it \[W\].
    pub most_w: f64,
}

impl Lever {
    /// Puts a given number in its place.
    pub fn set(&self, design: &mut Design, number: f64) {
        if let Kind::Given { set, .. } = self.kind {
            set(design, number);
        }
    }

    /// Whether it lifts this limit.
    pub fn releases(&self, path: &str) -> bool {
        matches!(self.kind, Kind::Limit { .. }) && self.path == path
    }

    /// How far it has moved, as a part of where it stood.
    pub fn moved(&self, figures: &Figures, numbers: &[f64]) -> f64 {
        (self.stands(figures, numbers) / self.bound).ln().abs()
    }

    /// Where it stands with a candidate; a limit is never tightened.
    fn stands(&self, figures: &Figures, numbers: &[f64]) -> f64 {
        match self.kind {
            Kind::Given { .. } => numbers.last().copied().unwrap_or(self.bound),
            Kind::Opening { index } => numbers[index],
            Kind::Limit { need } => need(figures).max(self.bound),
        }
    }

    /// The openings with what this lever adds to them or widens.
    fn variables(&self, draft: &Draft, base: &[Variable]) -> Vec<Variable> {
        let mut all = base.to_vec();
        let path = self.path.clone();
        match self.kind {
            Kind::Given { bounds, step, .. } => {
                all.push(Variable { path, dimension: self.dimension, bounds, step, given: false });
            }
            Kind::Opening { index } => all[index].bounds = draft.openings()[index].range,
            // pressure that is open rises with its limit
            Kind::Limit { .. } if self.path == PEAK_PRESSURE => {
                let charge = draft.openings().iter().position(|o| o.path == CHARGE);
                if let Some(i) = charge.filter(|i| !base[*i].given) {
                    all[i].bounds[1] = draft.openings()[i].range[1];
                }
            }
            Kind::Limit { .. } => {}
        }
        all
    }
}

const CHARGE: &str = "engine.charge_pressure";
const HOT: &str = "hot_end.temperature";
const PEAK_PRESSURE: &str = "limits.peak_pressure";

/// What binds, or could be moved instead: `numbers` and `figures` are those of the best engine.
pub fn levers(
    draft: &Draft,
    design: &Design,
    base: &[Variable],
    numbers: &[f64],
    figures: &Figures,
) -> Vec<Lever> {
    let open = |path: &str| draft.openings().iter().any(|o| o.path == path);
    let mut all: Vec<Lever> = given(design).into_iter().filter(|lever| !open(&lever.path)).collect();
    all.extend(ends(draft, base, numbers));
    let needs: [fn(&Figures) -> f64; 3] = [|f| side(f, 0), |f| side(f, 1), |f| side(f, 2)];
    for (i, (path, limit)) in side_limits(design).into_iter().enumerate() {
        let Some(bound) = limit.filter(|limit| figures.sides_mm[i] >= BINDS * limit) else { continue };
        all.push(Lever {
            path: path.into(),
            dimension: Dimension::Length,
            bound,
            kind: Kind::Limit { need: needs[i] },
        });
    }
    let bound = design.limits.peak_pressure_pa.value;
    if figures.pressure_pa >= BINDS * bound {
        let need = |f: &Figures| (f.pressure_pa / 1e4).ceil() * 1e4;
        all.push(Lever {
            path: PEAK_PRESSURE.into(),
            dimension: Dimension::Pressure,
            bound,
            kind: Kind::Limit { need },
        });
    }
    all
}

/// Limit that one side needs: its estimate with what that may be off, to the next millimetre.
fn side(figures: &Figures, i: usize) -> f64 {
    (figures.sides_mm[i] + TOLERANCE_MM).ceil()
}

/// Numbers that the design gives and that power hangs on. Beyond the limit of the hot end, the limit goes with it.
fn given(design: &Design) -> Vec<Lever> {
    let lever = |path: &str, dimension, bound, bounds, step, set| Lever {
        path: path.into(),
        dimension,
        bound,
        kind: Kind::Given { bounds, step, set },
    };
    let charge = design.engine.charge_pressure_pa.value;
    let most_charge = largest(CHARGE).max(1.01 * charge);
    let hottest = largest(HOT);
    let (hot, limit) = (design.hot_end.temperature_k.value, design.limits.peak_temperature_k.value);
    let mut all = vec![
        lever(CHARGE, Dimension::Pressure, charge, [charge, most_charge], 1e4, |d, v| {
            d.engine.charge_pressure_pa.value = v;
        }),
        lever(
            "targets.speed",
            Dimension::Speed,
            design.targets.speed_rpm.value,
            [30.0, 3000.0],
            5.0,
            |d, v| {
                d.targets.speed_rpm.value = v;
            },
        ),
    ];
    if hot + 1.0 < limit {
        all.push(lever(HOT, Dimension::Temperature, hot, [hot, limit], 5.0, |d, v| {
            d.hot_end.temperature_k.value = v;
        }));
    } else if hot < hottest {
        all.push(lever(
            "limits.peak_temperature",
            Dimension::Temperature,
            hot,
            [hot, hottest],
            5.0,
            |d, v| {
                d.hot_end.temperature_k.value = v;
                d.limits.peak_temperature_k.value = v;
            },
        ));
    }
    all
}

/// Largest value that a key may have, in the unit of the design's fields.
fn largest(path: &str) -> f64 {
    match find_key(path).map(|key| &key.kind) {
        Ok(KeyKind::Quantity { max, .. }) => *max,
        _ => f64::NEG_INFINITY,
    }
}

/// Openings that stand at an end of their bounds and whose key goes further.
fn ends(draft: &Draft, base: &[Variable], numbers: &[f64]) -> Vec<Lever> {
    let at_end = |(index, v): (usize, &Variable)| {
        let (n, opening) = (numbers[index], &draft.openings()[index]);
        let end = [0, 1]
            .into_iter()
            .find(|i| (n - v.bounds[*i]).abs() < 1.5 * v.step && v.bounds[*i] != opening.range[*i])?;
        let kind = Kind::Opening { index };
        Some(Lever { path: v.path.clone(), dimension: v.dimension, bound: v.bounds[end], kind })
    };
    base.iter().enumerate().filter(|(_, v)| v.given || v.path != CHARGE).filter_map(at_end).collect()
}

/// Candidates that one lever's search tries at the most.
pub const EFFORT: Effort = Effort { population: 24, generations: 36, patience: 12, seed: 0 };
/// Candidates of the steps after it.
pub const POLISH: usize = 120;

/// Moves one lever as little as possible until the target is met, everything else that is open free to follow.
pub fn pull(problem: &Problem<'_>, lever: Lever, numbers: &[f64], seed: u64) -> Moved {
    let variables = lever.variables(problem.draft, &problem.variables);
    let own = variables.len() - numbers.len();
    let known: Vec<Vec<f64>> = [0.0, 0.25, 0.5, 0.75, 1.0]
        .into_iter()
        .map(|place| {
            let mut numbers = numbers.to_vec();
            match (own, &lever.kind) {
                (1, _) => numbers.extend(variables.last().map(|v| v.at(place))),
                (_, Kind::Opening { index }) if place > 0.0 => numbers[*index] = variables[*index].at(place),
                _ => {}
            }
            numbers
        })
        .collect();
    let moved = Problem { variables, lever: Some(lever.clone()), ..*problem };
    let score = |numbers: &[f64]| moved.score(numbers, false).0;
    let best: Best<Score> = search(&moved.variables, &Effort { seed, ..EFFORT }, &known, score);
    let best = polish(&moved.variables, best, POLISH, score);
    let figures = moved.score(&best.numbers, false).1;
    let needed = best.score.meets().then(|| lever.stands(&figures, &best.numbers));
    Moved { lever, needed, most_w: figures.middle_w }
}
