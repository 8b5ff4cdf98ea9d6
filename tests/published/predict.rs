//! Power of a published engine over the spread of what is not known.

use super::data::{Engine, Point};
use super::drive::mechanism;
use super::path::{Built, build};
use rand_pcg::Pcg64;
use rand_pcg::rand_core::SeedableRng;
use swept::sizing::band::{Band, Input, Outcome, Spread, Uncertain, band, default_spreads, sample};
use swept::sizing::cycle::path::Factors;
use swept::sizing::cycle::{CycleModel, CycleResult, Full};
use swept::sizing::mechanism::{DriveResult, FrictionFactors, GasLoop, drive_forces};
use swept::sizing::verdict::Change;

/// Samples of each point.
pub const SAMPLES: u64 = 120;
const SEED: u64 = 1;

/// One solved engine.
pub struct Solved {
    pub built: Built,
    pub cycle: CycleResult,
    pub drive: DriveResult,
}

impl Solved {
    /// Turns a second.
    pub fn per_second(&self) -> f64 {
        self.built.path.speed_rpm / 60.0
    }

    /// Work at the shaft, flow friction and the drive's friction taken off \[J\].
    pub fn shaft_j(&self) -> f64 {
        self.cycle.work_j - self.drive.friction_j() - self.cycle.detail.friction_j()
    }

    /// What comes out, behind the generator where there is one \[W\].
    pub fn output_w(&self) -> f64 {
        let shaft = self.shaft_j() * self.per_second();
        if shaft > 0.0 { shaft * self.built.passes_on } else { shaft }
    }

    /// Indicated power, flow friction taken off \[W\].
    pub fn indicated_w(&self) -> f64 {
        (self.cycle.work_j - self.cycle.detail.friction_j()) * self.per_second()
    }
}

/// Solves an engine that is built.
pub fn solve(built: Built, friction: &FrictionFactors) -> Result<Solved, String> {
    let law = built.path.law();
    let cycle = Full::default().solve(&built.path.input(&law, 180)).map_err(|e| e.to_string())?;
    let buffer_pa = built.path.buffer.pressure_pa;
    let swing_pa = (cycle.pressure_max_pa - buffer_pa).max(buffer_pa - cycle.pressure_min_pa);
    let gas = GasLoop {
        pressure_pa: cycle.points.iter().map(|p| p.pressure_pa).collect(),
        drop_pa: vec![],
        buffer_pa,
    };
    let drive = drive_forces(&mechanism(&built, swing_pa), &gas, built.path.speed_rpm, friction)
        .map_err(|e| e.to_string())?;
    Ok(Solved { built, cycle, drive })
}

/// The engine with everything at its middle and nothing changed.
pub fn middle(engine: &Engine, point: &Point) -> Solved {
    solve(build(engine, point, None, [0.0, 0.0]), &FrictionFactors::default()).unwrap()
}

/// Default spreads of the crate, but for the leak: its opening is drawn with the engine.
fn spreads() -> Vec<Uncertain> {
    let known = |mut u: Uncertain| {
        if u.input == Input::Leak {
            u.spread = Spread::Fixed { value: 1.0 };
        }
        u
    };
    default_spreads().into_iter().map(known).collect()
}

fn changed(mut built: Built, change: &Change) -> Built {
    built.path.factors = Factors {
        heat_transfer: change.heat_transfer,
        end_heat_transfer: change.heat_transfer,
        friction: change.flow_friction,
        leak: change.leak,
    };
    built
}

/// One sample: the crate's own uncertain inputs, and the numbers that the source does not give.
pub fn one(engine: &Engine, point: &Point, index: u64) -> Result<Solved, String> {
    let change = sample(&spreads(), SEED, index);
    let random = Pcg64::seed_from_u64(SEED.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ (index + 1_000_003));
    let built = build(engine, point, Some(random), [change.hot_k, change.cold_k]);
    solve(changed(built, &change), &change.friction)
}

/// The band of a point.
pub fn predict(engine: &Engine, point: &Point) -> Band {
    band(SAMPLES, |i| {
        let solved = one(engine, point, i)?;
        Ok::<_, String>(Outcome { power_w: solved.output_w(), turns_over: solved.shaft_j() > 0.0 })
    })
}
