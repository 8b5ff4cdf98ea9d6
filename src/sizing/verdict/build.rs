//! What the sized engine works in, and the ways for heat past its cycle.

use super::heat_paths::HeatPaths;
use crate::catalogue::Catalogue;
use crate::catalogue::gases::Gas;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::hot_walls;
use crate::sizing::losses::joint_conduction::{Joint, in_a_row_w_k};
use crate::sizing::losses::radiation::Hollow;
use crate::sizing::losses::shuttle::Shuttle;
use crate::sizing::losses::wall_conduction::Tube;
use crate::sizing::mechanism::Choices;
use crate::sizing::volumes::circle_mm2;

/// What the engine works in, beyond its dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// Working gas.
    pub gas: Gas,
    /// Mean pressure where nothing leaks \[Pa\].
    pub charge_pa: f64,
    /// Pressure behind the piston \[Pa\].
    pub buffer_pa: f64,
    /// Emissivity inside the displacer.
    pub emissivity: f64,
    /// Power of the heater \[W\], where it is known.
    pub heater_w: Option<f64>,
    /// Highest that the hot wall may have \[K\].
    pub hot_limit_k: Option<f64>,
    /// Highest pressure allowed \[Pa\].
    pub pressure_limit_pa: Option<f64>,
    /// Friction and what else the builder chooses.
    pub choices: Choices,
}

impl Surroundings {
    /// Charge and buffer at `charge_pa`; emissivity 0.4 of oxidised stainless steel is from memory.
    pub fn new(gas: Gas, charge_pa: f64) -> Self {
        Self {
            gas,
            charge_pa,
            buffer_pa: charge_pa,
            emissivity: 0.4,
            heater_w: None,
            hot_limit_k: None,
            pressure_limit_pa: None,
            choices: Choices::default(),
        }
    }
}

/// Mean conductivity of a material between two temperatures \[W/(m K)\]; that of stainless steel where it is unknown.
fn conducts(book: &Catalogue, name: &str, from_k: f64, to_k: f64) -> f64 {
    book.material(name).map_or(18.0, |m| m.conductivity_w_m_k(0.5 * (from_k + to_k) - 273.15))
}

/// The hot joint: its gasket and its screws side by side.
fn hot_joint(e: &Engine, cold_k: f64) -> Joint {
    let cap = &e.hot_cap;
    let sheet = e.catalogue.gasket_sheet(&e.joints.hot_sheet).map_or("paper-oiled", |s| s.material.as_str());
    Joint {
        gasket_w_m_k: conducts(&e.catalogue, sheet, cold_k, cold_k),
        diameters_mm: [hot_walls(e).joint_bore_mm, e.cold.flange_diameter_mm],
        thickness_mm: e.joints.hot_gasket_mm,
        screws: e.joints.hot.count,
        screw_w_m_k: conducts(&e.catalogue, "mild-steel", cold_k, cold_k),
        screw_mm: e.joints.hot.thread.major_mm,
        screw_length_mm: cap.flange_mm + e.joints.hot_gasket_mm,
    }
}

/// Hot cap, from where hot gas no longer bathes it, and the joint behind it \[W/K\].
fn wall_and_joint_w_k(e: &Engine, hot_k: f64, cold_k: f64) -> [f64; 2] {
    [tube_w_k(e, hot_walls(e).cap_mm, hot_k, cold_k), hot_joint(e, cold_k).conductance_w_k()]
}

/// Heat from the hot cap's flange through its gasket, and through its screws \[W\].
pub fn through_hot_joint_w(e: &Engine, hot_k: f64, cold_k: f64) -> [f64; 2] {
    let fall_k = hot_flange_k(e, hot_k, cold_k) - cold_k;
    hot_joint(e, cold_k).ways_w_k().map(|way| way * fall_k)
}

/// A tube of the hot cap's metal: middle diameter, wall, length \[mm\].
fn tube_w_k(e: &Engine, [diameter_mm, wall_mm, length_mm]: [f64; 3], hot_k: f64, cold_k: f64) -> f64 {
    let conductivity_w_m_k = conducts(&e.catalogue, &e.hot_cap.material, hot_k, cold_k);
    Tube { conductivity_w_m_k, diameter_mm, wall_mm, length_mm }.conductance_w_k()
}

/// The same with a liner and a standing matrix beside it.
fn cylinder_w_k(e: &Engine, hot_k: f64, cold_k: f64) -> f64 {
    let [wall, joint] = wall_and_joint_w_k(e, hot_k, cold_k);
    let beside = hot_walls(e);
    let matrix =
        beside.matrix.map_or(0.0, |m| m.along_w_k(conducts(&e.catalogue, &m.material, hot_k, cold_k)));
    let liner = beside.liner_mm.map_or(0.0, |tube| tube_w_k(e, tube, hot_k, cold_k));
    in_a_row_w_k(wall, joint) + liner + matrix
}

/// Temperature of the hot cap's flange where it lies on its gasket \[K\]: the fall from the hot wall to the cold one is shared
/// out by what wall and joint conduct (Fourier's law; a flange cooled by the air around it is colder).
pub fn hot_flange_k(e: &Engine, hot_k: f64, cold_k: f64) -> f64 {
    let [wall, joint] = wall_and_joint_w_k(e, hot_k, cold_k);
    cold_k + (hot_k - cold_k) * wall / (wall + joint)
}

pub(super) fn paths(e: &Engine, s: &Surroundings) -> HeatPaths {
    let (hot_k, cold_k, d) = (e.hot_cap.temperature_k, e.cold.temperature_k, &e.displacer);
    let shell = Tube {
        conductivity_w_m_k: conducts(&e.catalogue, &d.material, hot_k, cold_k),
        diameter_mm: d.diameter_mm - d.shell_wall_mm,
        wall_mm: d.shell_wall_mm,
        length_mm: d.length_mm,
    };
    HeatPaths {
        shuttle: Shuttle {
            gas_w_m_k: s.gas.conductivity_w_m_k(0.5 * (hot_k + cold_k)),
            diameter_mm: d.bore_mm,
            stroke_mm: d.stroke_mm,
            gap_mm: d.gap_mm,
            length_mm: d.length_mm,
        },
        cylinder_w_k: cylinder_w_k(e, hot_k, cold_k),
        shell_w_k: shell.conductance_w_k()
            + d.regenerator
                .as_ref()
                .map_or(0.0, |r| r.along_w_k(conducts(&e.catalogue, &r.material, hot_k, cold_k))),
        inside: Hollow { area_mm2: circle_mm2(d.diameter_mm), emissivity: s.emissivity, shields: 0 },
        closed_gap: None,
    }
}
