//! What the checks are made under: temperatures, greatest pressures, forces over the turn.

use crate::catalogue::Catalogue;
use crate::design::{Design, ROOM_PA};
use crate::sizing::check::Check;
use crate::sizing::cycle::CycleResult;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::Engine;
use crate::sizing::layouts;
use crate::sizing::layouts::common::warm::Warm;
use crate::sizing::mechanism::{
    Choices, DriveResult, FrictionFactors, GasLoop, LineForces, Mechanism, SliderCrank, drive_forces,
};

/// Circumstances of the checks.
#[derive(Debug)]
pub struct Case<'a> {
    /// The design.
    pub design: &'a Design,
    /// The engine.
    pub engine: &'a Engine,
    /// Hot wall \[°C\].
    pub hot_c: f64,
    /// Cold wall \[°C\].
    pub cold_c: f64,
    /// Greatest pressure of the gas over that of the air outside \[Pa\], 0 where it never is.
    pub over_air_pa: f64,
    /// By how much the least pressure is under that of the air \[Pa\], 0 where it never is.
    pub under_air_pa: f64,
    /// Greatest pressure over the mean \[Pa\].
    pub swing_pa: f64,
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// The drive.
    pub mechanism: Option<Mechanism>,
    /// Its forces over the turn.
    pub turn: Result<DriveResult, String>,
}

/// One of the two lines with its forces and its motion.
#[derive(Debug)]
pub struct LineTurn<'a> {
    /// `piston` or `displacer`.
    pub which: &'static str,
    /// Forces over the turn.
    pub forces: Vec<&'a LineForces>,
    /// Motion.
    pub crank: SliderCrank,
    /// Con rods side by side that share the force.
    pub abreast: f64,
    /// Crank angle of each of the forces from the line's own top dead centre \[rad\].
    pub angles_rad: Vec<f64>,
}

impl<'a> Case<'a> {
    /// Works the forces out.
    pub fn of(design: &'a Design, engine: &'a Engine, cycle: &CycleResult, gamma: f64) -> Self {
        let buffer_pa = design.engine.charge_pressure_pa.value;
        let mean = cycle.pressure_mean_pa;
        let wider = |pa: f64| mean + gamma * (pa - mean);
        let pressure_pa: Vec<f64> = cycle.points.iter().map(|p| wider(p.pressure_pa)).collect();
        let most = pressure_pa.iter().copied().fold(mean, f64::max);
        let least = pressure_pa.iter().copied().fold(mean, f64::min);
        let speed_rpm = design.targets.speed_rpm.value;
        let mechanism = layouts::mechanism(engine, &Choices::default());
        let turn = mechanism.as_ref().map_err(ToString::to_string).and_then(|m| {
            let gas = GasLoop { pressure_pa, drop_pa: Vec::new(), buffer_pa };
            drive_forces(m, &gas, speed_rpm, &FrictionFactors::default()).map_err(|e| e.to_string())
        });
        Self {
            design,
            engine,
            hot_c: engine.hot_cap.temperature_k - 273.15,
            cold_c: engine.cold.temperature_k - 273.15,
            over_air_pa: (most - ROOM_PA).max(0.0),
            under_air_pa: (ROOM_PA - least).max(0.0),
            swing_pa: most - mean,
            speed_rpm,
            mechanism: mechanism.ok(),
            turn,
        }
    }

    /// Where materials and sheets are looked up.
    pub fn book(&self) -> &Catalogue {
        &self.engine.catalogue
    }

    /// How it grows from the drawing.
    pub fn warm(&self) -> Warm<'_> {
        Warm { engine: self.engine, frame: layouts::frame_material(self.engine) }
    }

    /// Whether the drive can turn at all.
    pub fn turns(&self) -> Vec<Check> {
        let (free, what) = match &self.turn {
            Ok(_) => (1.0, "rods run free in their guides over the whole turn".to_owned()),
            Err(why) => (0.0, format!("the drive cannot turn: {why}")),
        };
        vec![
            Check::at_least("rods-run-free", &what, free, Unit::Ratio, 1.0, 1.0)
                .source("statics with Coulomb friction")
                .at("drive.con_rod_length")
                .of(&["piston-rod", "displacer-rod"])
                .hint("a longer con rod or a shorter stroke"),
        ]
    }

    /// Both lines over the turn; none where the drive cannot turn.
    pub fn lines(&self) -> Vec<LineTurn<'_>> {
        let (Ok(turn), Some(m)) = (&self.turn, &self.mechanism) else { return Vec::new() };
        let angles = |lead_deg: f64| {
            // the loop begins where the displacer stands at its cold end
            turn.points.iter().map(|p| (p.angle_deg + 180.0 - lead_deg).to_radians()).collect::<Vec<f64>>()
        };
        vec![
            LineTurn {
                which: "piston",
                forces: turn.points.iter().map(|p| &p.piston).collect(),
                crank: m.piston.crank,
                abreast: m.piston.abreast,
                angles_rad: angles(m.lead_deg),
            },
            LineTurn {
                which: "displacer",
                forces: turn.points.iter().map(|p| &p.displacer).collect(),
                crank: m.displacer.crank,
                abreast: m.displacer.abreast,
                angles_rad: angles(0.0),
            },
        ]
    }
}

impl LineTurn<'_> {
    /// Greatest size of something over the turn.
    pub fn most(&self, of: impl Fn(&LineForces) -> f64) -> f64 {
        self.forces.iter().map(|f| of(f).abs()).fold(0.0, f64::max)
    }

    /// Greatest size of something that hangs on the displacement too \[mm\].
    pub fn most_with_way(&self, of: impl Fn(&LineForces, f64) -> f64) -> f64 {
        let ways = self.angles_rad.iter().map(|a| self.crank.displacement_mm(*a));
        self.forces.iter().zip(ways).map(|(f, x)| of(f, x).abs()).fold(0.0, f64::max)
    }
}

/// The forces on one con rod, the greater of both lines, for parts that both share.
pub fn most_of(lines: &[LineTurn<'_>], of: impl Fn(&LineForces) -> f64 + Copy) -> f64 {
    lines.iter().map(|l| l.most(of) / l.abreast).fold(0.0, f64::max)
}
