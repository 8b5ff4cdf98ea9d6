//! What only the engine at work can tell of its drive: the ratio to its load and the width of its flywheel. Both are found
//! with the full model before any part is made, where the design leaves them open.

use super::answer::full_engine;
use super::decide::round_up;
use super::engine::Engine;
use super::layouts;
use super::uncertain::known;
use super::verdict::{
    Gearing, NetWork, SpeedCurve, SpeedRange, flywheel_for, load_of, running, unsteadiness,
};
use crate::catalogue::stock::{BarShape, BarSize, bar_sizes};
use crate::design::{CycleChoice, Design, Setting, Source};
use std::borrow::Cow;

/// Step of the ratio that is kept.
const RATIO_STEP: f64 = 1e-4;
/// How far below the width that is worked out the trying begins, and how many widths are tried.
const NEAR: f64 = 0.85;
const TRIES: usize = 8;
/// Widest and narrowest wheel that is taken \[mm\], as the design file allows.
const WIDTHS_MM: [f64; 2] = [1.0, 500.0];

/// Whether the best ratio is to be found.
fn ratio_open(design: &Design) -> bool {
    design.load.kind.is_some() && design.load.speed_ratio.is_none()
}

/// Whether the width of the wheel is to follow from the steadiness.
fn width_open(design: &Design) -> bool {
    let f = &design.flywheel;
    f.steadiness.is_some() && f.inertia_kg_m2.is_none() && matches!(f.width_mm.from, Source::Default { .. })
}

/// The design with both found, as far as they are open and the full model has an answer; else as it is.
pub fn settled(design: &Design) -> Cow<'_, Design> {
    if design.model.cycle.value != CycleChoice::Full || !(ratio_open(design) || width_open(design)) {
        return Cow::Borrowed(design);
    }
    let Ok(engine) = layouts::size(design) else { return Cow::Borrowed(design) };
    let mut found = design.clone();
    let net = full_engine(design, &engine);
    let base = known(&design.spread);
    let curve =
        design.load.kind.as_ref().and_then(|_| SpeedCurve::of(&net, &base, &SpeedRange::default()).ok());
    let ratio =
        if ratio_open(design) { curve.as_ref().and_then(|curve| best_ratio(design, curve)) } else { None };
    found.load.speed_ratio = ratio.or(found.load.speed_ratio);
    if width_open(design)
        && let Some(width) = wide_enough(&found, &engine, &net, curve.as_ref())
    {
        found.flywheel.width_mm = width;
    }
    Cow::Owned(found)
}

/// Ratio at which most power reaches the load.
fn best_ratio(design: &Design, curve: &SpeedCurve) -> Option<Setting<f64>> {
    let (load, gearing) = load_of(&design.load)?;
    let ratio = running(curve, &load, &Gearing { ratio: None, ..gearing })?.ratio;
    let value = (ratio / RATIO_STEP).round() * RATIO_STEP;
    let target = "the most power at the load".to_owned();
    Some(Setting { value, from: Source::Solved { target, residual: 0.0 } })
}

/// Speed at which the wheel must be steady \[rpm\]: where the engine runs with its load, or the target.
fn working_rpm(design: &Design, curve: Option<&SpeedCurve>) -> f64 {
    let at_load = || {
        let (load, gearing) = load_of(&design.load)?;
        Some(running(curve?, &load, &gearing)?.engine_rpm)
    };
    at_load().unwrap_or(design.targets.speed_rpm.value)
}

/// Widths to try from `width` on \[mm\]: the plates that dealers keep, whole millimetres beyond those.
fn widths(design: &Design, width: f64) -> Vec<f64> {
    let family =
        design.catalogue.material(&design.flywheel.material.value).ok().and_then(|m| m.stock.clone());
    let of = |bar: &&BarSize| Some(&bar.family) == family.as_ref() && bar.shape == BarShape::Flat;
    let mut all: Vec<f64> = bar_sizes().iter().filter(of).filter_map(|bar| bar.thickness_mm).collect();
    all.sort_by(f64::total_cmp);
    all.dedup();
    let beyond = round_up(width.max(all.last().copied().unwrap_or(0.0)), 1.0);
    all.extend((0..TRIES).map(|more| beyond + more as f64));
    all.retain(|w| *w >= width.max(WIDTHS_MM[0]) && *w <= WIDTHS_MM[1]);
    all.truncate(TRIES);
    all
}

/// Speed swing of the engine with its load at a speed; `None` without an answer.
fn swing(design: &Design, speed_rpm: f64) -> Option<f64> {
    let engine = layouts::size(design).ok()?;
    let work = full_engine(design, &engine).at(speed_rpm, &known(&design.spread)).ok()?;
    unsteadiness(&work, 0.0)
}

/// Width of a wheel that keeps the steadiness asked for. Inertia goes with the width; what else changes with it is found by
/// trying.
fn wide_enough(
    design: &Design,
    engine: &Engine,
    net: &dyn NetWork,
    curve: Option<&SpeedCurve>,
) -> Option<Setting<f64>> {
    let wanted = design.flywheel.steadiness.as_ref()?.value;
    let speed_rpm = working_rpm(design, curve);
    let work = net.at(speed_rpm, &known(&design.spread)).ok()?;
    let now = engine.flywheel.inertia_kg_m2;
    let needed = flywheel_for(&work, now, wanted)? / now * engine.flywheel.made.as_ref()?.width_mm;
    let target = format!("a speed swing of {wanted} at {speed_rpm:.0} rpm");
    let mut tried = design.clone();
    widths(design, NEAR * needed).into_iter().find_map(|value| {
        tried.flywheel.width_mm.value = value;
        let over = swing(&tried, speed_rpm)? - wanted;
        let from = Source::Solved { target: target.clone(), residual: (over * 1e4).round() * 1e-4 };
        (over <= 0.0).then_some(Setting { value, from })
    })
}
