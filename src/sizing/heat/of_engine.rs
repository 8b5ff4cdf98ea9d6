//! The sized engine, at work at its speed, before its heater, its fins and its water.

use super::burner::{efficiencies, fuel_rate};
use super::chain::{Bath, Body, Settled, settle};
use super::channels::Drilled;
use super::creep::life_h;
use super::hot_wall::HotWall;
use super::jacket::{Flowing, Jacket, needed_l_min, rise_k};
use super::radiator::radiator;
use super::stored::{cooling_s, run_on, warm_up_s};
use super::surface::{FinnedCylinder, Room};
use super::told::{BodyAnswer, HeatAnswer, HeaterAnswer, HotCapAnswer, StoredAnswer, WaterAnswer};
use super::water::Water;
use crate::catalogue::fuels::{fuel, fuels};
use crate::design::{Design, ROOM_PA};
use crate::sizing::cycle::detail::Detail;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::{
    HELD, WaterSide, frame_w_k, holds_pressure, hot_walls, plate_channels, water_side,
};
use crate::sizing::losses::joint_conduction::{Joint, in_a_row_w_k};
use crate::sizing::verdict::{WorkBreakdown, hot_flange_k, through_hot_joint_w};
use crate::sizing::volumes::circle_mm2;
use std::f64::consts::PI;

/// Rise of the water where the design gives no flow \[K\]; common practice, no source.
const RISE_K: f64 = 10.0;
/// Passes between the jacket's film and the temperatures that hang on it.
const PASSES: usize = 30;
/// Heater over the duty where the design gives no power, so that it warms up in good time; common practice, no source.
const HEATER_OVER_DUTY: f64 = 1.5;
/// Below this it does not burn the skin at a touch (ISO 13732-1 for bare metal, from memory).
const TOUCH_K: f64 = 333.15;
/// Emissivity of a hot cap that has turned brown, and of machined light and iron metal (from memory).
const EMISSIVITY: [f64; 3] = [0.6, 0.1, 0.6];

/// What the models of the cycle and the drive know of one turn, and where the engine stalls.
#[derive(Clone, Copy, Debug)]
pub struct AtWork<'a> {
    /// Work and heat.
    pub work: &'a WorkBreakdown,
    /// Heat by cell.
    pub detail: &'a Detail,
    /// Hot wall at which it stops at its speed \[K\]; `None` where it does not run.
    pub stall_k: Option<f64>,
}

/// Heat of the gas to the three bodies of the cold side \[W\]: cold cylinder, cooler plate, power cylinder.
///
/// The gap's cold cells and what is led and radiated down go to the cylinder; the cold space's heat to cylinder and
/// plate half and half; that of the port to the plate; of the power cylinder, with the rub of the rings, to its block.
fn heats_w(at: &AtWork<'_>) -> [f64; 3] {
    let per_second = at.work.speed_rpm / 60.0;
    let cells = |name: &str| -> f64 {
        let cold = at.detail.cells.iter().filter(|c| c.name.starts_with(name) && c.heat_j < 0.0);
        cold.map(|c| -c.heat_j * per_second).sum()
    };
    let led: f64 = at.work.heat.losses.iter().map(|l| l.power_w).sum();
    let flow = at.work.flow_j * per_second;
    let rub: f64 = at.work.friction.iter().filter(|f| f.name == "piston rings").map(|f| f.work_j).sum();
    let cold = cells("cold space");
    let between = cells("displacer gap") + cells("regenerator") + cells("cooler");
    let power = cells("power cylinder") + rub * per_second;
    [between + led + flow + 0.5 * cold, 0.5 * cold + cells("transfer port"), power]
}

/// Two milled faces of light metal, dry, under screws \[W/(m² K)\]; textbooks give 2000 to 12000, from memory.
const CONTACT_W_M2_K: f64 = 5000.0;

/// Gasket and screws between two bodies \[W/K\]; with an O-ring metal lies on metal.
fn joint_w_k(e: &Engine, outside_mm: f64, bore_mm: f64, screws: (usize, f64, f64)) -> f64 {
    if e.joints.cold_ring.is_some() {
        return CONTACT_W_M2_K * 1e-6 * PI / 4.0 * (outside_mm * outside_mm - bore_mm * bore_mm);
    }
    let sheet = e.catalogue.gasket_sheet(&e.joints.cold_sheet).map_or("paper-oiled", |s| s.material.as_str());
    let joint = Joint {
        gasket_w_m_k: e.metal(sheet).conductivity_w_m_k(40.0),
        diameters_mm: [bore_mm, outside_mm],
        thickness_mm: e.joints.gasket_mm,
        screws: screws.0,
        screw_w_m_k: e.metal("mild-steel").conductivity_w_m_k(40.0),
        screw_mm: screws.1,
        screw_length_mm: screws.2,
    };
    joint.conductance_w_k()
}

/// The cold cylinder from outside; upright in this layout.
fn fins(e: &Engine) -> FinnedCylinder {
    let c = &e.cold;
    let stuff = e.metal(&c.material);
    let light = stuff.density_kg_m3 < 5000.0 || c.material == "brass";
    FinnedCylinder {
        root_mm: e.displacer.bore_mm + 2.0 * c.wall_mm,
        tip_mm: c.fin_diameter_mm,
        length_mm: c.length_mm,
        fins: c.fins,
        fin_mm: c.fin_mm,
        gap_mm: c.fin_gap_mm,
        conductivity_w_m_k: stuff.conductivity_w_m_k(60.0),
        emissivity: if light { EMISSIVITY[1] } else { EMISSIVITY[2] },
        lies: false,
    }
}

fn jacket(e: &Engine) -> Jacket {
    let (bore_mm, radii_mm, length_mm, stuff) = match water_side(e) {
        WaterSide::Block(b) => (e.piston.bore_mm, b.jacket_r_mm, b.jacket_depth_mm, &b.material),
        WaterSide::Cooler { wall_mm, jacket_r_mm, .. } => {
            (wall_mm[0], jacket_r_mm, wall_mm[1], &e.cold.material)
        }
    };
    Jacket {
        bore_r_mm: 0.5 * bore_mm,
        radii_mm,
        length_mm,
        wall_w_m_k: e.metal(stuff).conductivity_w_m_k(40.0),
    }
}

/// Water through the cooler plate, where it has channels.
fn drilled(e: &Engine) -> Option<Drilled> {
    plate_channels(e).map(|c| Drilled {
        count: c.at_mm.len(),
        diameter_mm: c.hose.tap_drill_mm,
        length_mm: c.length_mm(),
    })
}

/// The row of the cold side, its joints and ways out; the water is at its last body, and before that in the `plate`.
fn row(e: &Engine, heats: &[f64], plate: Option<Bath>, bath: Bath) -> Vec<Body> {
    let j = &e.joints;
    let cold = (j.cold.count, j.cold.thread.major_mm, e.cold.flange_mm + j.cold_gap_mm);
    let to_plate = joint_w_k(e, e.cold.flange_diameter_mm, e.displacer.bore_mm, cold);
    let body = |name: &str, heat_w: f64, to_next_w_k: f64| Body {
        name: name.into(),
        heat_w,
        outside: None,
        bath: None,
        to_next_w_k,
    };
    let block = match water_side(e) {
        WaterSide::Block(block) => block,
        WaterSide::Cooler { cylinder_mm: [root_mm, length_mm], .. } => {
            let dry = FinnedCylinder { root_mm, tip_mm: root_mm, length_mm, ..fins(e) };
            return vec![
                Body { outside: Some(dry), ..body("power cylinder", heats[0], to_plate) },
                Body { outside: Some(fins(e)), bath: Some(bath), ..body("cooler", heats[1], 0.0) },
            ];
        }
    };
    let square = (4.0 / PI).sqrt() * 2.0 * block.half_mm;
    let studs = (4, block.stud.major_mm, block.length_mm);
    let gasket = joint_w_k(e, square, e.piston.bore_mm, studs);
    let to_block = frame_w_k(e).map_or(gasket, |frame| in_a_row_w_k(gasket, frame));
    vec![
        Body { outside: Some(fins(e)), ..body("cold cylinder", heats[0], to_plate) },
        Body { bath: plate, ..body(PLATE, heats[1], to_block) },
        Body { bath: Some(bath), ..body("power cylinder", heats[2], 0.0) },
    ]
}

/// What became of the cold side.
struct ColdSide {
    settled: Vec<Settled>,
    jacket: Flowing,
    flow_l_min: f64,
    /// Of plate and jacket together \[W/K\].
    conductance_w_k: f64,
}

/// Name of the cooler plate in the row.
const PLATE: &str = "cooler plate";

/// Water with the films of channels and jacket and, where the design gives none, its flow: all hang on the heat that goes
/// there. It goes through the plate first, and is the warmer for it in the jacket.
fn cold_side(design: &Design, e: &Engine, heats: &[f64]) -> Option<ColdSide> {
    let inlet_k = design.cooler.water_temperature_k.value;
    let given = design.cooler.water_flow_l_min.as_ref().map(|f| f.value);
    let (room, jacket, water) = (room(design), jacket(e), Water::at(inlet_k));
    let drilled = drilled(e);
    let (mut to_water, mut in_plate): (f64, f64) = (heats.iter().sum(), 0.0);
    let mut wall_k = e.cold.temperature_k;
    let mut answer = None;
    for _ in 0..PASSES {
        let flow = given.unwrap_or_else(|| needed_l_min(to_water.max(0.1), RISE_K, inlet_k));
        let flow_w_k = water.cp_j_kg_k * water.density_kg_m3 * flow / 60_000.0;
        let plate = drilled.map(|d| {
            let conductance_w_k = d.conductance_w_k(flow, inlet_k + 0.5 * in_plate / flow_w_k);
            Bath { conductance_w_k, inlet_k, flow_w_k }
        });
        let behind_k = inlet_k + in_plate / flow_w_k;
        let mean_k = behind_k + 0.5 * (to_water - in_plate) / flow_w_k;
        let through = jacket.flowing(flow, mean_k, wall_k);
        let bath = Bath { conductance_w_k: through.conductance_w_k, inlet_k: behind_k, flow_w_k };
        let all = settle(&row(e, heats, plate, bath), &room)?;
        to_water = all.iter().map(|s| s.to_water_w).sum();
        in_plate = all.iter().filter(|s| s.name == PLATE).map(|s| s.to_water_w).sum();
        wall_k = 0.5 * (wall_k + all.last()?.temperature_k);
        let conductance_w_k = through.conductance_w_k + plate.map_or(0.0, |p| p.conductance_w_k);
        answer = Some(ColdSide { settled: all, jacket: through, flow_l_min: flow, conductance_w_k });
    }
    answer
}

fn room(design: &Design) -> Room {
    Room {
        temperature_k: design.cold_end.air_temperature_k.value,
        speed_m_s: design.cold_end.air_speed_m_s.value,
    }
}

fn heater(design: &Design, e: &Engine, duty_w: f64) -> HeaterAnswer {
    let burnt = fuel(&design.heater.fuel.value).unwrap_or(&fuels()[0]);
    let own = design.heater.efficiency.as_ref().map(|s| s.value);
    let efficiency = efficiencies(burnt, own, e.hot_cap.temperature_k - 273.15);
    let rate = efficiency.map(|all| fuel_rate(burnt, duty_w, all));
    HeaterAnswer {
        duty_w,
        fuel: burnt.title.clone(),
        efficiency,
        fuel_w: rate.map(|r| r.heat_w),
        fuel_g_per_h: rate.and_then(|r| r.fuel_g_h),
        gas_l_per_h: rate.and_then(|r| r.gas_l_h),
    }
}

fn hot_cap(e: &Engine, at: &AtWork<'_>, buffer_pa: f64) -> HotCapAnswer {
    let cap = &e.hot_cap;
    let stuff = e.metal(&cap.material);
    let wall = HotWall {
        bore_mm: cap.bore_mm,
        wall_mm: cap.wall_mm,
        end_mm: cap.end_mm,
        heated_mm: hot_walls(e).heated_mm,
        conductivity_w_m_k: stuff.conductivity_w_m_k(cap.temperature_k - 273.15),
    };
    let drop = wall.drop(at.work.heat.supply_w);
    let outside_k = cap.temperature_k + drop.side_k.max(drop.end_k);
    let over_mpa = 1e-6 * (at.work.pressure_max_pa - buffer_pa).max(0.0);
    let stress = over_mpa * (cap.bore_mm + cap.wall_mm) / (2.0 * cap.wall_mm);
    let [through_gasket_w, through_screws_w] =
        through_hot_joint_w(e, cap.temperature_k, e.cold.temperature_k);
    HotCapAnswer {
        flux_w_m2: drop.flux_w_m2,
        outside_k,
        limit_k: stuff.service_limit_c + 273.15,
        flange_k: hot_flange_k(e, cap.temperature_k, e.cold.temperature_k),
        gasket_mm: e.joints.hot_gasket_mm,
        through_gasket_w,
        through_screws_w,
        stress_mpa: stress,
        creep_life_h: life_h(&cap.material, outside_k - 273.15, stress),
    }
}

/// Heat capacities \[J/K\]: of what is hot in use (the rest of the side counts half, for it is cooler towards the
/// flange, and half of the displacer's shell), and of all of cap and shell.
fn capacities_j_k(e: &Engine) -> [f64; 2] {
    let (cap, d) = (&e.hot_cap, &e.displacer);
    let per_mm3 = |name: &str| e.metal(name).density_kg_m3 * e.metal(name).heat_capacity_j_kg_k * 1e-9;
    let walls = hot_walls(e);
    let outside = cap.bore_mm + 2.0 * cap.wall_mm;
    let ring = circle_mm2(outside) - circle_mm2(cap.bore_mm);
    let end = circle_mm2(outside) * cap.end_mm;
    let (bathed, rest) = (ring * walls.heated_mm, ring * (cap.depth_mm - walls.heated_mm));
    // liner and standing matrix: hot above, cold below
    let liner = walls
        .liner_mm
        .map_or(0.0, |[diameter, wall, long]| PI * diameter * wall * (walls.heated_mm + 0.5 * long));
    let inside = per_mm3(&cap.material) * liner
        + walls.matrix.map_or(0.0, |m| 0.5 * per_mm3(&m.material) * m.metal_mm3());
    let flange = (circle_mm2(e.cold.flange_diameter_mm) - circle_mm2(outside)) * cap.flange_mm;
    let shell = per_mm3(&d.material)
        * ((circle_mm2(d.diameter_mm) - circle_mm2(d.diameter_mm - 2.0 * d.shell_wall_mm)) * d.length_mm
            + circle_mm2(d.diameter_mm) * d.shell_wall_mm);
    let metal = per_mm3(&cap.material);
    [
        metal * (end + bathed + 0.5 * rest) + 0.5 * shell + inside,
        metal * (end + bathed + rest + flange) + shell + inside,
    ]
}

/// Heat that the standing hot cap gives to a still room at a temperature \[W\]; conduction down is left out, so that it
/// cools slower here than it does.
fn cap_to_room_w(e: &Engine, wall_k: f64, room_k: f64) -> f64 {
    let cap = &e.hot_cap;
    let outside = cap.bore_mm + 2.0 * cap.wall_mm;
    let side = FinnedCylinder {
        root_mm: outside,
        tip_mm: outside,
        length_mm: cap.depth_mm + cap.end_mm,
        fins: 0,
        fin_mm: 0.0,
        gap_mm: 0.0,
        conductivity_w_m_k: 20.0,
        emissivity: EMISSIVITY[0],
        lies: false,
    };
    let with_end = 1.0 + circle_mm2(outside) / (PI * outside * side.length_mm);
    let room = Room { temperature_k: room_k, speed_m_s: 0.0 };
    with_end * side.air_side(wall_k, &room).conductance_w_k * (wall_k - room_k)
}

fn stored(design: &Design, e: &Engine, at: &AtWork<'_>) -> StoredAnswer {
    let (hot_k, cold_k, room_k) =
        (e.hot_cap.temperature_k, e.cold.temperature_k, design.cold_end.air_temperature_k.value);
    let supply = at.work.heat.supply_w;
    let led: f64 = at.work.heat.losses.iter().map(|l| l.power_w).sum();
    let heater_w = HEATER_OVER_DUTY * supply;
    let [hot, all] = capacities_j_k(e);
    let on = at.stall_k.filter(|s| *s < hot_k && *s > cold_k && supply > 0.0);
    let on = on.map(|stall_k| (stall_k, run_on(hot, supply, hot_k, stall_k, cold_k, at.work.speed_rpm)));
    StoredAnswer {
        capacity_j_k: hot,
        heater_w,
        warm_up_s: warm_up_s(hot, heater_w, led / (hot_k - cold_k), hot_k - room_k),
        stall_k: on.map(|o| o.0),
        run_on_s: on.map(|o| o.1.time_s),
        run_on_turns: on.map(|o| o.1.turns),
        run_on_j: on.map(|o| o.1.heat_j),
        above_60_s: (room_k < TOUCH_K)
            .then(|| cooling_s(all, hot_k, TOUCH_K, |t| cap_to_room_w(e, t, room_k)))
            .flatten(),
    }
}

fn bodies(e: &Engine, heats: &[f64], settled: &[Settled]) -> Vec<BodyAnswer> {
    let answer = |(s, heat_w): (&Settled, f64)| BodyAnswer {
        name: s.name.clone(),
        heat_w,
        temperature_k: s.temperature_k,
        over_k: s.temperature_k - e.cold.temperature_k,
        to_air_w: s.to_air_w,
        to_water_w: s.to_water_w,
        air_film_w_m2_k: s.air.map(|a| a.film_w_m2_k),
        fin_efficiency: s.air.map(|a| a.fin_efficiency),
    };
    settled.iter().zip(heats.iter().copied()).map(answer).collect()
}

/// Heat of a sized engine at work; `None` where the cold side finds no temperatures.
pub fn heat_answer(design: &Design, e: &Engine, at: &AtWork<'_>) -> Option<HeatAnswer> {
    let [cylinder, plate, power] = heats_w(at);
    let heats = match water_side(e) {
        WaterSide::Block(_) => vec![cylinder, plate, power],
        WaterSide::Cooler { .. } => vec![plate + power, cylinder],
    };
    let ColdSide { settled, jacket, flow_l_min, conductance_w_k } = cold_side(design, e, &heats)?;
    let to_water: f64 = settled.iter().map(|s| s.to_water_w).sum();
    let inlet_k = design.cooler.water_temperature_k.value;
    let warmest_mean_k = e.cold.temperature_k - to_water / conductance_w_k;
    let air = radiator(to_water, warmest_mean_k, design.cold_end.air_temperature_k.value);
    let answer = HeatAnswer {
        heater: heater(design, e, at.work.heat.supply_w),
        cold_side: bodies(e, &heats, &settled),
        water: WaterAnswer {
            flow_l_min,
            given: design.cooler.water_flow_l_min.is_some(),
            inlet_k,
            rise_k: rise_k(to_water, flow_l_min, inlet_k),
            film_w_m2_k: jacket.film_w_m2_k,
            warmest_mean_k,
            panel_m2: air.map(|a| a.panel_m2),
            finned_m2: air.map(|a| a.finned_m2),
        },
        hot_cap: hot_cap(e, at, design.engine.charge_pressure_pa.value.min(ROOM_PA)),
        stored: stored(design, e, at),
        words: Vec::new(),
        cautions: cautions(design, e),
    };
    Some(answer.told())
}

/// Cautions that heat always calls for.
fn cautions(design: &Design, e: &Engine) -> Vec<String> {
    let burns = fuel(&design.heater.fuel.value).map_or(true, |f| f.carbon_monoxide);
    let mut all = Vec::new();
    if burns {
        all.push("a flame makes carbon monoxide and can set fire: ventilate, keep 0.5 m from what burns, leave gas fittings to licensed practice".into());
    } else {
        all.push("an electric heater needs an earth, a fuse and a cut-out, by local code".into());
    }
    all.push(
        "keep the water running while the engine is hot, never with a jacket shut: steam bursts it".into(),
    );
    if holds_pressure(e) {
        all.push(HELD.into());
    }
    all
}
