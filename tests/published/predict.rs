//! Power of a published engine over the spread of what is not known.

use super::data::{Engine, Point};
use super::drive;
use super::heat_side;
use super::path::{Built, Given, build};
use rand_pcg::Pcg64;
use rand_pcg::rand_core::SeedableRng;
use swept::sizing::band::{Band, Input, Outcome, Spread, Uncertain, band, default_spreads, sample};
use swept::sizing::cycle::path::Factors;
use swept::sizing::cycle::{CycleModel, CycleResult, Full};
use swept::sizing::verdict::Change;
use swept::sizing::volumes::Zone;

/// Samples of each point.
pub const SAMPLES: u64 = 120;
const SEED: u64 = 1;
/// Rounds in which hot wall and heat find each other, and the change that is small enough \[K\].
const ROUNDS: usize = 12;
const SETTLED_K: f64 = 0.5;

/// One solved engine.
pub struct Solved {
    pub built: Built,
    pub cycle: CycleResult,
}

/// What the heat side sees of the gas.
pub struct Gas {
    /// Heat taken in \[W\].
    pub heat_w: f64,
    /// Hot wall, gas side \[K\].
    pub wall_k: f64,
    /// Cold wall \[K\].
    pub cold_k: f64,
    /// Gas in the heater, mean \[K\].
    pub heater_k: f64,
}

impl Solved {
    /// Turns a second.
    pub fn per_second(&self) -> f64 {
        self.built.path.speed_rpm / 60.0
    }

    /// Work at the shaft, flow friction and the drive's share taken off \[J\].
    pub fn shaft_j(&self) -> f64 {
        let effectiveness = self.built.common.get("effectiveness");
        drive::shaft_j(&self.cycle, self.built.path.buffer.pressure_pa, effectiveness)
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

    fn gas(&self) -> Gas {
        let path = &self.built.path;
        let heater = path.exchangers.iter().filter(|e| e.zone == Zone::Hot);
        let names: Vec<&str> = heater.map(|e| e.name.as_str()).collect();
        let of = |name: &str| names.iter().any(|n| name.starts_with(n));
        let cells: Vec<f64> =
            self.cycle.detail.cells.iter().filter(|c| of(&c.name)).map(|c| c.gas_mean_k).collect();
        Gas {
            heat_w: self.cycle.heat_in_j * self.per_second(),
            wall_k: path.hot.wall_k,
            cold_k: path.cold.wall_k,
            heater_k: cells.iter().sum::<f64>() / cells.len() as f64,
        }
    }
}

/// Solves an engine that is built.
pub fn solve(built: Built) -> Result<Solved, String> {
    let law = built.path.law();
    let cycle = Full::default().solve(&built.path.input(&law, 180)).map_err(|e| e.to_string())?;
    Ok(Solved { built, cycle })
}

/// Solves an engine with the hot wall that its heat side keeps up; `of` builds it with that wall.
fn settle(point: &Point, given: Given, of: impl Fn(&Given) -> Built) -> Result<Solved, String> {
    let mut given = given;
    let mut solved = solve(of(&given))?;
    for _ in 0..ROUNDS {
        let (gas, built) = (solved.gas(), &solved.built);
        let next = heat_side::wall_k(point.hot_is, &built.common, built.stated_k, built.heated_m2, &gas);
        if (next - gas.wall_k).abs() < SETTLED_K {
            return Ok(solved);
        }
        given.hot_k = Some(next);
        solved = solve(of(&given))?;
    }
    Err(format!("the hot wall does not settle: {:.0} K", solved.built.path.hot.wall_k))
}

/// Gaps that are tried \[mm\], each a sixth wider than the one before.
fn gaps_mm() -> impl Iterator<Item = f64> {
    (0..28).map(|i| 0.15 * 2f64.powf(0.25 * f64::from(i)))
}

/// The displacer gap of an engine whose source leaves it open: that which gives the model's engine the most, all else
/// at its middle, as whoever builds and publishes an engine will have looked for. Measured power has no part in it.
pub fn best_gap_mm(engine: &Engine, point: &Point) -> f64 {
    if !engine.gap_is_open() {
        return 1.0;
    }
    let power = |gap_mm: f64| at_middle(engine, point, gap_mm).map_or(f64::NEG_INFINITY, |s| s.shaft_j());
    let all: Vec<(f64, f64)> = gaps_mm().map(|gap| (gap, power(gap))).collect();
    all.into_iter().max_by(|a, b| a.1.total_cmp(&b.1)).map_or(1.0, |best| best.0)
}

fn at_middle(engine: &Engine, point: &Point, gap_mm: f64) -> Result<Solved, String> {
    settle(point, Given { gap_mm, hot_k: None, cold_share: 0.0 }, |given| build(engine, point, None, given))
}

/// The engine with everything at its middle and nothing changed.
pub fn middle(engine: &Engine, point: &Point) -> Solved {
    at_middle(engine, point, best_gap_mm(engine, point)).unwrap()
}

/// Default spreads of the crate, but for the leak, whose opening is drawn with the engine, and for the hot wall, which
/// follows from the heat side.
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
        end_heat_transfer: change.heat_transfer * change.end_heat_transfer,
        friction: change.flow_friction,
        leak: change.leak,
    };
    built
}

/// One sample: the crate's own uncertain inputs, and the numbers that the source does not give.
pub fn one(engine: &Engine, point: &Point, gap_mm: f64, index: u64) -> Result<Solved, String> {
    let change = sample(&spreads(), SEED, index);
    let random = Pcg64::seed_from_u64(SEED.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ (index + 1_000_003));
    let given = Given { gap_mm, hot_k: None, cold_share: change.cold_share };
    settle(point, given, |given| changed(build(engine, point, Some(random.clone()), given), &change))
}

/// The band of a point.
pub fn predict(engine: &Engine, point: &Point) -> Band {
    let gap_mm = best_gap_mm(engine, point);
    band(SAMPLES, |i| {
        let solved = one(engine, point, gap_mm, i)?;
        Ok::<_, String>(Outcome { power_w: solved.output_w(), turns_over: solved.shaft_j() > 0.0 })
    })
}
