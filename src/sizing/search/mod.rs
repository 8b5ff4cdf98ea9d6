//! The search: finds the numbers that a design leaves open, so that `targets.power` is met inside envelope and limits with
//! the best margin.
//!
//! * Power is that of the full model at `targets.speed`, in the middle case (every uncertain input at its median) and in
//!   the bad case (about the worst of ten engines); see [`case`].
//! * The order of wishes, see [`score`]: an engine that breaks no rule; inside its limits; the power wanted; a start by hand;
//!   the power wanted also in the bad case. Margin is power over the target in the bad case. It is sought until it is
//!   nothing or more; beyond that a smaller box and a lower charge pressure win.
//! * Numbers are tried in steps that a workshop would take, so that what was judged is what stands in the design.
//! * Where the target is out of reach, the most power that can be had is found, and how far each limit alone would have to
//!   move; see [`lever`].
//! * The envelope is estimated from the sized engine within [`TOLERANCE_MM`]; see [`layouts::sides_mm`].

pub mod case;
pub mod lever;
pub mod optimise;
pub mod problem;
pub mod report;
pub mod score;
pub mod variable;

use crate::design::{Design, Draft};
use crate::diagnostic::Diagnostic;
use crate::sizing::answer::full_engine;
use crate::sizing::band::Uncertain;
use crate::sizing::layouts;
use crate::sizing::uncertain::spreads;
use optimise::{Best, Effort, polish, search};
use problem::{Figures, Problem, Watch, side_limits};
use report::{Move, Report};
use score::Score;
use variable::variables;

/// A design in which every number is decided, and what was found where some were open.
#[derive(Clone, Debug)]
pub struct Settled {
    /// The design.
    pub design: Design,
    /// What the search found; `None` where nothing was open.
    pub report: Option<Report>,
}

/// How far the drawn engine may differ from the estimate of its sides \[mm\]; the search keeps this much inside the limits,
/// and a check compares.
pub const TOLERANCE_MM: f64 = 1.0;

/// Candidates of the last steps at the most.
const POLISH: usize = 500;

/// Population and generations for so many openings.
fn effort(openings: usize, seed: u64) -> Effort {
    Effort { population: (9 * openings).clamp(20, 60), generations: 60, patience: 15, seed }
}

/// Finds what a draft leaves open. The seed is `model.seed`; the same seed gives the same answer on any number of threads.
///
/// # Errors
/// Openings for which the limits leave no room; no engine that breaks no rule, or none inside the limits.
pub fn settle(draft: &Draft, watch: &dyn Watch) -> Result<Settled, Vec<Diagnostic>> {
    if draft.openings().is_empty() {
        return Ok(Settled { design: draft.clone().closed()?, report: None });
    }
    let anything: Vec<f64> = draft.openings().iter().map(|o| o.range[0]).collect();
    let sample = draft.with(&anything, "", 0.0).map_err(|path| internal(&path))?;
    let target_w =
        sample.targets.power_w.as_ref().map(|power| power.value).ok_or_else(|| internal("targets.power"))?;
    let inputs = spreads(&sample.spread);
    let mut problem = Problem {
        draft,
        variables: variables(draft, &sample)?,
        lever: None,
        target_w,
        cases: [case::middle(&inputs), case::bad(&inputs, &case::equal(&inputs))],
        watch,
    };
    let seed = sample.model.seed.value as u64;
    let (best, figures) = found(&mut problem, &inputs, seed);
    if !best.score.is_engine() {
        return Err(nothing(&problem, &best, &figures));
    }
    settled(&problem, &best, &figures, seed)
}

/// The best candidate, thoroughly judged. A short search comes first, so that the bad case is that of an engine near the
/// one that is sought.
fn found(problem: &mut Problem<'_>, inputs: &[Uncertain], seed: u64) -> (Best<Score>, Figures) {
    let long = effort(problem.variables.len(), seed);
    let short = Effort { generations: long.generations / 3, patience: 6, ..long };
    let candidates = long.population * (long.generations + short.generations + 2) as usize;
    problem.watch.begin("searching", candidates + POLISH);
    let first = search(&problem.variables, &short, &[], |numbers| problem.score(numbers, false).0);
    know_bad_case(problem, inputs, &first.numbers);
    let known = [first.numbers];
    let quick = search(&problem.variables, &long, &known, |numbers| problem.score(numbers, false).0);
    know_bad_case(problem, inputs, &quick.numbers);
    let again = problem.score(&quick.numbers, true).0;
    let best = polish(&problem.variables, Best { score: again, ..quick }, POLISH, |numbers| {
        problem.score(numbers, true).0
    });
    let figures = problem.score(&best.numbers, true).1;
    (best, figures)
}

/// Makes the bad case that of a candidate, where there is such an engine.
fn know_bad_case(problem: &mut Problem<'_>, inputs: &[Uncertain], numbers: &[f64]) {
    let shares = problem.design(numbers).and_then(|design| {
        let net = full_engine(&design, &layouts::size(&design).ok()?);
        case::shares(&net, design.targets.speed_rpm.value, inputs)
    });
    if let Some(shares) = shares {
        problem.cases[1] = case::bad(inputs, &shares);
    }
}

/// The design with what was found, and the report; where the target is not met, with what binds.
fn settled(
    problem: &Problem<'_>,
    best: &Best<Score>,
    figures: &Figures,
    seed: u64,
) -> Result<Settled, Vec<Diagnostic>> {
    let draft = problem.draft;
    let speed = problem.design(&best.numbers).map_or(0.0, |design| design.targets.speed_rpm.value);
    let target = format!("{} W at {speed} rpm", problem.target_w);
    let residual = (figures.middle_w - problem.target_w) * 1e3;
    let design =
        draft.with(&best.numbers, &target, residual.round() * 1e-3).map_err(|path| internal(&path))?;
    let text = |path: &str| design.entry(path).and_then(|entry| entry.text.clone()).unwrap_or_default();
    let found = draft.openings().iter().map(|o| (o.path.clone(), text(&o.path))).collect();
    let mut report = Report::new(problem.target_w, &design, found, best.score, figures);
    if !report.met {
        let levers = lever::levers(draft, &design, &problem.variables, &best.numbers, figures);
        let each = lever::EFFORT.population * (lever::EFFORT.generations as usize + 1) + lever::POLISH;
        problem.watch.begin("what would lift it", levers.len() * each);
        let pulled = levers.into_iter().map(|lever| lever::pull(problem, lever, &best.numbers, seed));
        report.moves = pulled.map(|moved| Move::new(&moved)).collect();
    }
    Ok(Settled { design, report: Some(report) })
}

/// Why there is no engine at all.
fn nothing(problem: &Problem<'_>, best: &Best<Score>, figures: &Figures) -> Vec<Diagnostic> {
    let place = problem.draft.openings()[0].place.clone();
    let said = |text: String, hint: &str| {
        Diagnostic::error("swept::open", text)
            .label("open")
            .allowed("openings for which there is an engine")
            .hint(hint)
            .at(place.clone())
    };
    let Some(design) = problem.design(&best.numbers) else { return internal("numbers") };
    match best.score {
        Score::Over(_) => {
            let sides = side_limits(&design).into_iter().zip(figures.sides_mm);
            let over: Vec<String> = sides
                .filter_map(|((path, limit), side)| {
                    let limit = limit?;
                    (side + TOLERANCE_MM > limit).then(|| format!("{path}: {side:.0} mm of {limit:.0} mm"))
                })
                .collect();
            let over = if over.is_empty() { "limits.peak_pressure".to_owned() } else { over.join(", ") };
            vec![said(
                format!("no engine was found inside the limits; the nearest one needs {over}"),
                "raise these limits, or give openings a wider range",
            )]
        }
        Score::Refused(_) => {
            let mut all = vec![said(
                "no engine was found that breaks no rule of sizing; the nearest one breaks these".into(),
                "give openings a wider range, or leave what the rules name to sizing",
            )];
            all.extend(layouts::size(&design).err().into_iter().flatten());
            all
        }
        _ => vec![said(
            "the full model has no answer for any engine that was tried".into(),
            "give openings a narrower range around an engine that you know",
        )],
    }
}

fn internal(path: &str) -> Vec<Diagnostic> {
    vec![Diagnostic::error("swept::internal", format!("the search lost its way at {path}"))]
}
