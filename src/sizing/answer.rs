//! The answer of `swept size`: the engine, its cycle and what binds.

use super::at_work::{at_work, rim_caution};
use super::band::{Sampling, of_engine};
use super::cycle::adiabatic::Adiabatic;
use super::cycle::free_travel::FreeTravel;
use super::cycle::full::Full;
use super::cycle::{Charge, CycleInput, CycleModel, CycleResult, Isothermal, MeanTemperature, Temperatures};
use super::dimension::Unit;
use super::drive_train;
use super::engine::Engine;
use super::heat;
use super::layouts;
use super::result::{Limit, OperatingPoint, SCHEMA_VERSION, SizeResult, Verdict};
use super::search::Settled;
use super::uncertain::{known, spreads};
use super::verdict::{FullEngine, NetWork, Question, Shortfall, SpeedCurve, Surroundings, by_charge, judge};
use crate::catalogue::gases::Gas;
use crate::design::{CycleChoice, Design, ROOM_PA};
use crate::diagnostic::Diagnostic;

/// Share of a limit from which on it is listed.
const NEAR_LIMIT: f64 = 0.9;

/// Code of the warning that the power wanted is not met.
const FALLS_SHORT: &str = "swept::target";

/// A sized engine with its cycle and the answer for readers.
#[derive(Clone, Debug)]
pub struct Sized {
    /// The engine.
    pub engine: Engine,
    /// One turn of the gas.
    pub cycle: CycleResult,
    /// Ratio of specific heats of its gas, between the walls.
    pub gamma: f64,
    /// What `--json` prints.
    pub answer: SizeResult,
    /// What the user should know.
    pub warnings: Vec<Diagnostic>,
}

/// Sizes a design.
///
/// # Errors
/// All rules that the design breaks.
pub fn size(design: &Design) -> Result<Sized, Vec<Diagnostic>> {
    let engine = layouts::size(design)?;
    let failed = |e: &dyn std::fmt::Display| {
        vec![Diagnostic::error("swept::cycle", format!("the gas cycle has no answer: {e}"))]
    };
    let law = layouts::volume_law(&engine).map_err(|e| failed(&e))?;
    let filling = working_gas(design);
    let temperatures = Temperatures {
        hot_k: engine.hot_cap.temperature_k,
        cold_k: engine.cold.temperature_k,
        mean: MeanTemperature::Logarithmic,
    };
    let input = CycleInput {
        volumes: &law,
        temperatures,
        gas_constant_j_kg_k: filling.r_j_kg_k,
        heat_capacity_ratio: filling.gamma(temperatures.between_k()),
        path: None,
        charge: Charge::MeanPressure(design.engine.charge_pressure_pa.value),
        points: 360,
    };
    let cycle = Isothermal.solve(&input).map_err(|e| failed(&e))?;
    let travel = FreeTravel::of(&input, cycle.mass_kg, design.engine.charge_pressure_pa.value).ok();
    let answer = SizeResult {
        schema_version: SCHEMA_VERSION,
        engine: engine.ledger.clone(),
        operating_point: OperatingPoint::indicated(Isothermal.name(), &cycle, design.targets.speed_rpm.value),
        map: Vec::new(),
        losses: Vec::new(),
        verdict: verdict(&engine, travel.map(|t| t.travel_mm)),
        load: None,
        flywheel: None,
        spread: Vec::new(),
        heat: None,
        checks: Vec::new(),
        limits: limits(design, &engine, &cycle),
        search: None,
    };
    let warnings = warnings(design, &engine, &answer, plain_shortfall(design, &answer));
    Ok(Sized { engine, cycle, gamma: input.heat_capacity_ratio, answer, warnings })
}

/// As [`judged`], for a design that may have been searched for: the answer tells what was found, and what binds where the
/// target is out of reach.
///
/// # Errors
/// All rules that the design breaks.
pub fn judged_settled(settled: &Settled) -> Result<Sized, Vec<Diagnostic>> {
    let mut sized = judged(&settled.design)?;
    if let Some(report) = &settled.report {
        sized.answer.limits.extend(report.limits());
        // the report says what is missing and what would lift it, with the other openings following
        sized.warnings.retain(|said| said.code != FALLS_SHORT);
        sized.answer.search = Some(report.clone());
    }
    Ok(sized)
}

/// Sizes a design and works out, with the model that the design chooses, what the engine will do.
///
/// # Errors
/// All rules that the design breaks.
pub fn judged(design: &Design) -> Result<Sized, Vec<Diagnostic>> {
    let design = &*drive_train::settled(design);
    let mut sized = size(design)?;
    match design.model.cycle.value {
        CycleChoice::Isothermal => {}
        CycleChoice::Adiabatic => adiabatic(design, &mut sized),
        CycleChoice::Full => full(design, &mut sized),
    }
    Ok(sized)
}

/// As [`judged`], but the target speed alone: no verdict, no curve, no band. For sweeps over many designs.
///
/// # Errors
/// All rules that the design breaks, and a model that has no answer.
pub fn at_target(design: &Design) -> Result<Sized, Vec<Diagnostic>> {
    if design.model.cycle.value != CycleChoice::Full {
        return judged(design);
    }
    let mut sized = size(design)?;
    let net = full_engine(design, &sized.engine);
    let work = net.at(design.targets.speed_rpm.value, &known(&design.spread));
    let work = work.map_err(|e| vec![no_answer("full", &e.to_string())])?;
    sized.answer.operating_point = OperatingPoint::of_work("full", &work);
    sized.answer.verdict.margin_j_per_turn = Some(work.net_j);
    sized.answer.verdict.judged_speed_rpm = Some(work.speed_rpm);
    let left = format!(
        "{:+.3} J a turn are left at {:.0} rpm; swept size says the rest",
        work.net_j, work.speed_rpm
    );
    sized.answer.verdict.reasons = vec![left];
    let short = plain_shortfall(design, &sized.answer);
    sized.warnings = warnings(design, &sized.engine, &sized.answer, short);
    Ok(sized)
}

/// The ideal adiabatic cycle in place of the isothermal one.
fn adiabatic(design: &Design, sized: &mut Sized) {
    let net = full_engine(design, &sized.engine);
    let solved = net.gas_path(design.targets.speed_rpm.value).map_err(|e| e.to_string()).and_then(|path| {
        let law = path.law();
        Adiabatic::default().solve(&path.input(&law, 360)).map_err(|e| e.to_string())
    });
    match solved {
        Ok(cycle) => {
            sized.answer.operating_point = OperatingPoint::indicated(
                Adiabatic::default().name(),
                &cycle,
                design.targets.speed_rpm.value,
            );
            sized.cycle = cycle;
        }
        Err(error) => sized.warnings.push(no_answer("adiabatic", &error)),
    }
}

/// The full model with losses, verdict and band.
fn full(design: &Design, sized: &mut Sized) {
    let net = full_engine(design, &sized.engine);
    let speed_rpm = design.targets.speed_rpm.value;
    let hand_rpm = design.model.hand_speed_rpm.value;
    let question = Question { hand_rpm, ..Question::at(speed_rpm) };
    let base = known(&design.spread);
    let count = design.model.samples.value as u64;
    let seed = design.model.seed.value as u64;
    let inputs = spreads(&design.spread);
    let sampling = Sampling { inputs, count, seed, hand_rpm, speed_rpm };
    let judged = judge(&net, &base, &question).and_then(|j| {
        let beyond = at_work(design, &sized.engine, &net, &base, &j, &sampling)?;
        Ok((net.at(speed_rpm, &base)?, j, beyond))
    });
    let (work, judgement, beyond) = match judged {
        Ok(judged) => judged,
        Err(error) => return sized.warnings.push(no_answer("full", &error.to_string())),
    };
    let band = (count > 0).then(|| of_engine(&net, &sampling));
    let failed = band.as_ref().filter(|b| b.failed > 0).map(|band| {
        let why = band.failure.clone().unwrap_or_default();
        no_answer(&format!("full ({} of {count} samples)", band.failed), &why)
    });
    let answer = &mut sized.answer;
    answer.operating_point = OperatingPoint::of_work("full", &work);
    answer.operating_point.shaft_power_band_w = band.as_ref().and_then(|b| b.power_w);
    answer.map = judgement.map();
    answer.losses = judgement.losses();
    answer.verdict = judgement.verdict(band.and_then(|b| b.turns_over));
    (answer.load, answer.flywheel, answer.spread) = (beyond.load, beyond.flywheel, beyond.spread);
    answer.heat = heat::of_work(design, &net, &work, &base);
    let short = shortfall(design, &sized.answer.operating_point)
        .map(|short| falls_short(&farther(short, design, &net, &judgement.curve), "full"));
    // the first warnings were said of the isothermal point
    sized.warnings = warnings(design, &sized.engine, &sized.answer, short);
    sized.warnings.extend(failed);
    sized.warnings.extend(holes(&judgement.curve));
}

fn no_answer(model: &str, error: &str) -> Diagnostic {
    Diagnostic::warning("swept::model", format!("the {model} model has no answer: {error}"))
        .hint("the figures are those of the isothermal cycle; set model.cycle = \"isothermal\" to say so")
}

/// Gas in the engine; the design file admits only gases of the catalogue.
fn working_gas(design: &Design) -> Gas {
    let book = &design.catalogue;
    book.gas(&design.engine.gas.value).unwrap_or(book.gases[0].gas)
}

/// The engine before the full model, in the surroundings that the design gives.
pub fn full_engine(design: &Design, engine: &Engine) -> FullEngine {
    let filling = working_gas(design);
    let surroundings = Surroundings {
        hot_limit_k: Some(design.limits.peak_temperature_k.value),
        heater_w: design.hot_end.heater_power_w.as_ref().map(|w| w.value),
        pressure_limit_pa: Some(design.limits.peak_pressure_pa.value),
        ..Surroundings::new(filling, design.engine.charge_pressure_pa.value)
    };
    FullEngine { engine: engine.clone(), surroundings, model: Full::default() }
}

/// What an isothermal cycle can say of running: the free travel, and what it cannot say.
fn verdict(engine: &Engine, travel_mm: Option<f64>) -> Verdict {
    let mut reasons = vec![
        "the isothermal cycle knows neither friction nor leakage nor heat transfer: it cannot say whether the engine turns itself over"
            .to_owned(),
    ];
    if let Some(travel) = travel_mm {
        let share = engine.piston.stroke_mm / travel;
        reasons.push(format!(
            "a free piston would move {travel:.1} mm while the displacer is shifted slowly from end to end; the stroke is {:.1} mm, {share:.2} of that",
            engine.piston.stroke_mm
        ));
    }
    Verdict { free_travel_mm: travel_mm, reasons, ..Verdict::default() }
}

/// Limits of the design that bind or nearly do.
fn limits(design: &Design, engine: &Engine, cycle: &CycleResult) -> Vec<Limit> {
    let l = &design.limits;
    let all = [
        (
            "limits.peak_pressure",
            cycle.pressure_max_pa,
            l.peak_pressure_pa.value,
            Unit::Pascal,
            "lower engine.charge_pressure or piston.stroke",
        ),
        (
            "limits.peak_temperature",
            engine.hot_cap.temperature_k,
            l.peak_temperature_k.value,
            Unit::Kelvin,
            "lower hot_end.temperature",
        ),
    ];
    all.into_iter()
        .filter(|(_, value, bound, ..)| *value >= NEAR_LIMIT * bound)
        .map(|(path, value, bound, unit, remedy)| Limit {
            path: path.into(),
            value,
            bound,
            unit,
            remedy: Some(remedy.into()),
        })
        .collect()
}

/// What the user should know beyond the numbers; last, by how much the power wanted is missed.
fn warnings(
    design: &Design,
    engine: &Engine,
    answer: &SizeResult,
    short: Option<Diagnostic>,
) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    let point = &answer.operating_point;
    let warn = |code, text: String, hint: &str| Diagnostic::warning(code, text).hint(hint);
    if point.pressure_max_pa > design.limits.peak_pressure_pa.value {
        all.push(warn(
            "swept::limit",
            format!("the gas reaches {:.2} bar abs, over limits.peak_pressure", point.pressure_max_pa / 1e5),
            "lower engine.charge_pressure or piston.stroke",
        ));
    }
    if point.pressure_max_pa - ROOM_PA > 50_000.0 {
        all.push(warn(
            "swept::pressure",
            format!(
                "the gas reaches {:.2} bar over the air's pressure: this may be pressure equipment in law",
                (point.pressure_max_pa - ROOM_PA) / 1e5
            ),
            "have it checked under your local code before it is filled; test with water, not with air",
        ));
    }
    let fastest = answer.verdict.no_load_speed_rpm.unwrap_or(0.0).max(point.speed_rpm);
    if let Some(text) = rim_caution(engine, fastest) {
        let hint = "guard it, take a smaller or a steel wheel, and have its strength checked";
        all.push(warn("swept::flywheel", text, hint));
    }
    if let Ok(m) = engine.catalogue.material(&engine.hot_cap.material) {
        let hot_c = engine.hot_cap.temperature_k - 273.15;
        if hot_c > m.service_limit_c {
            all.push(warn(
                "swept::material",
                format!(
                    "{} is not meant for {hot_c:.0} °C under load (limit {:.0} °C)",
                    m.title, m.service_limit_c
                ),
                "lower hot_end.temperature or take a better hot_end.material",
            ));
        }
    }
    if let Some(heat) = &answer.heat {
        all.extend(heat::warnings(design, heat));
    }
    all.extend(short);
    all
}

/// Power wanted against the best figure that the model has; `None` where it is met or not asked for.
fn shortfall(design: &Design, point: &OperatingPoint) -> Option<Shortfall> {
    let wanted_w = design.targets.power_w.as_ref()?.value;
    Shortfall::of(wanted_w, point.shaft_power_w.unwrap_or(point.indicated_power_w), point.speed_rpm)
}

/// What is missing at the target speed alone.
fn plain_shortfall(design: &Design, answer: &SizeResult) -> Option<Diagnostic> {
    let point = &answer.operating_point;
    shortfall(design, point).map(|short| falls_short(&short, &point.model))
}

fn falls_short(short: &Shortfall, model: &str) -> Diagnostic {
    Diagnostic::warning(FALLS_SHORT, short.words(model)).hint(short.hint())
}

/// What is missing, told with what other speeds and more charge pressure would do.
fn farther(short: Shortfall, design: &Design, net: &FullEngine, curve: &SpeedCurve) -> Shortfall {
    let (charge_pa, limit_pa) =
        (design.engine.charge_pressure_pa.value, design.limits.peak_pressure_pa.value);
    let charge = by_charge(net, &known(&design.spread), short.speed_rpm, short.wanted_w, charge_pa, limit_pa);
    short.with(curve.best_power(), charge)
}

/// Speeds of the curve that the model could not answer: between their neighbours it is a straight line.
fn holes(curve: &SpeedCurve) -> Option<Diagnostic> {
    let (rpm, why) = curve.failed.first()?;
    let count = curve.failed.len();
    let said =
        format!("the full model has no answer at {count} of the speeds tried, the first {rpm:.0} rpm: {why}");
    Some(
        Diagnostic::warning("swept::model", said)
            .hint("between the speeds listed the curve is taken as straight there"),
    )
}
