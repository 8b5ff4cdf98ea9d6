//! The gas path of the sized engine: what the full model of the cycle needs to know.

use crate::catalogue::bushes::Bush;
use crate::catalogue::fits::limits;
use crate::catalogue::gases::Gas;
use crate::sizing::cycle::Charge;
use crate::sizing::cycle::path::{
    Buffer, EndSpace, Exchanger, Factors, GasPath, Leak, LeakKind, Place, Walls,
};
use crate::sizing::engine::Engine;
use crate::sizing::rings::work::InBore;
use crate::sizing::volumes::{VolumeLaw, Zone};

/// Even clearance that leaks as much as one fitted ring with its gap and its contact \[mm\]. Assumed: with a
/// ring 4 mm high on a bore of 64 mm in air of the room it is about 1e-8 kg/(s Pa). Band: a tenth to three
/// times the flow; no measurement behind it.
pub const RING_CLEARANCE_MM: f64 = 0.035;

/// The same for the rod's O-ring over half its section \[mm\]. Assumed, band as above.
pub const GLAND_CLEARANCE_MM: f64 = 0.005;

/// How the engine is run.
#[derive(Clone, Debug)]
pub struct Conditions {
    /// Working gas.
    pub gas: Gas,
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Amount of gas; only where the search begins, for the rings leak.
    pub charge: Charge,
    /// Space behind the piston: the room, or a crankcase under pressure.
    pub buffer: Buffer,
    /// Multipliers of what is uncertain.
    pub factors: Factors,
}

/// Gas path of a gamma engine: the displacer gap is heater, regenerator and cooler in one, its walls linear from
/// the hot to the cold temperature along the displacer; spaces and port are at the temperature of their end.
pub fn gamma_path(e: &Engine, law: &VolumeLaw, port: Vec<Exchanger>, run: Conditions) -> GasPath {
    let dead_m3 = |names: &[&str]| -> f64 {
        law.dead().iter().filter(|d| names.contains(&d.name.as_str())).map(|d| d.volume_m3).sum()
    };
    let (hot_k, cold_k) = (e.hot_cap.temperature_k, e.cold.temperature_k);
    let [bore_m, piston_m] = [e.displacer.bore_mm, e.piston.bore_mm].map(|mm| mm / 1000.0);
    let space = |name: &str, bore, wall, dead_m3| EndSpace { dead_m3, ..EndSpace::plain(name, bore, wall) };
    GasPath {
        arrangement: *law.arrangement(),
        lead_deg: e.drive.lead_deg,
        hot: EndSpace::plain("hot space", bore_m, hot_k),
        exchangers: vec![gap(e, dead_m3(&["displacer gap", "hot gasket step"]))],
        cold: space("cold space", bore_m, cold_k, dead_m3(&["cold gasket step"])),
        port,
        power: Some(space(
            "power cylinder",
            piston_m,
            cold_k,
            dead_m3(&["power gasket step", "land above the first ring"]),
        )),
        leaks: leaks(e, Place::Power),
        buffer: run.buffer,
        gas: run.gas,
        speed_rpm: run.speed_rpm,
        charge: run.charge,
        factors: run.factors,
    }
}

/// The gap between displacer and cylinder, or the regenerator in it; the gasket's step in the middle of it counts as gap.
fn gap(e: &Engine, volume_m3: f64) -> Exchanger {
    let d = &e.displacer;
    if let Some(r) = &d.regenerator {
        let ends_k = [e.hot_cap.temperature_k, e.cold.temperature_k];
        return Exchanger { volume_m3, ..r.exchanger(ends_k) };
    }
    let walls = Walls::Fixed { hot_k: e.hot_cap.temperature_k, cold_k: e.cold.temperature_k };
    let [bore, gap, length] =
        [d.bore_mm, 0.5 * (d.bore_mm - d.diameter_mm), d.length_mm].map(|mm| mm / 1000.0);
    Exchanger {
        volume_m3,
        ..Exchanger::annular_gap("displacer gap", Zone::Between, bore, gap, length, walls)
    }
}

/// Mean clearance between a rod and its bush on the radius \[mm\]: middles of the housing's and the rod's limits
/// (ISO 286-1) and of the bush's wall (ISO 3547-1).
fn bush_clearance_mm(b: &Bush) -> f64 {
    let middle =
        |size: f64, class: &str| limits(size, class).map_or(size, |l| size + 0.5 * (l.upper_mm + l.lower_mm));
    let bore = middle(b.housing_mm, &b.housing_fit) - b.wall_max_mm - b.wall_min_mm;
    0.5 * (bore - middle(b.shaft_mm, &b.shaft_fit))
}

/// Piston rings in series, from the space above the piston, and the rod gland.
pub fn leaks(e: &Engine, above_piston: Place) -> Vec<Leak> {
    let seal = |name: &str, from, diameter_mm: f64, clearance_mm: f64, length_mm: f64| Leak {
        name: name.into(),
        from,
        kind: LeakKind::Clearance {
            diameter_m: diameter_mm / 1000.0,
            clearance_m: clearance_mm / 1000.0,
            length_m: length_mm / 1000.0,
            eccentricity: 0.0,
        },
    };
    let (p, d) = (&e.piston, &e.displacer);
    let at = InBore {
        bore_mm: p.bore_mm,
        piston_mm: p.diameter_mm,
        length_mm: p.length_mm,
        hot_play_mm: p.hot_play_mm,
    };
    let past = p.seal.leaks(&at, RING_CLEARANCE_MM).into_iter();
    let mut all: Vec<Leak> =
        past.map(|(name, kind)| Leak { name: name.into(), from: above_piston, kind }).collect();
    let (clearance_mm, long_mm) = if e.gland.oring.is_some() {
        (GLAND_CLEARANCE_MM, 0.25 * (e.gland.groove_mm[0] - d.rod_mm))
    } else {
        (bush_clearance_mm(&e.gland.bush), e.gland.bush_length_mm)
    };
    all.push(seal("rod gland", Place::Cold, d.rod_mm, clearance_mm, long_mm));
    all
}

/// Ring leak of the path at its buffer pressure \[kg/(s Pa)\], for reports.
pub fn ring_leak_kg_s_pa(path: &GasPath) -> f64 {
    use crate::sizing::cycle::path::leak::LeakGas;
    let temperature_k = path.cold.wall_k;
    let gas = LeakGas {
        r_j_kg_k: path.gas.r_j_kg_k,
        gamma: path.heat_capacity_ratio(),
        viscosity_pa_s: path.gas.viscosity_pa_s(temperature_k),
        temperature_k,
    };
    let p = path.buffer.pressure_pa;
    let rings = path.leaks.iter().filter(|l| l.from == Place::Power);
    path.factors.leak * rings.map(|l| l.kind.conductance_kg_s_pa(p, p, &gas)).sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::bushes::bushes;

    /// By hand: 5.5 H6 (0 to +8 µm) less two walls of 0.73 to 0.75 mm is 4.024 mm, 4 h6 (0 to -8 µm) is 3.996 mm.
    #[test]
    fn clearance_of_a_bush_of_4_mm() {
        let bush = bushes().iter().find(|b| b.shaft_mm == 4.0).unwrap();
        assert!((bush_clearance_mm(bush) - 0.014).abs() < 1e-9);
    }
}
