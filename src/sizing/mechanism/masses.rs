//! Masses of what moves, from densities and plain volumes.
//!
//! An approximation: discs, tubes and bars without chamfers, threads and small holes; a few per cent off the parts as
//! drawn. Bearings are counted as the steel ring between bore and outside at 60 % of the solid (common practice, no
//! source).

use crate::catalogue::bearings::BallBearing;
use crate::sizing::engine::Engine;
use crate::sizing::layouts;
use crate::sizing::volumes::circle_mm2;

/// Density of steel for rods and bearings \[kg/m³\].
const STEEL_KG_M3: f64 = 7850.0;
/// Material of pulleys.
pub const PULLEY: &str = "aluminium-6082";
/// How much of the ring between bore and outside of a ball bearing is metal.
const BEARING_FILL: f64 = 0.6;
/// Density of carbon-filled PTFE rings \[kg/m³\] (from memory).
const RING_KG_M3: f64 = 2100.0;

/// Masses of the drive \[kg\] and inertias \[kg m²\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Masses {
    /// Piston with rings, rod and clevis.
    pub piston_kg: f64,
    /// Displacer with rod and clevis.
    pub displacer_kg: f64,
    /// A con rod with its bearings.
    pub con_rod_kg: f64,
    /// A crank web with its counterpart about the journal.
    pub web_kg: f64,
    /// A crank web about its journal.
    pub web_kg_m2: f64,
}

/// Mass \[kg\] of a volume \[mm³\] at a density \[kg/m³\].
pub fn kg(volume_mm3: f64, density_kg_m3: f64) -> f64 {
    volume_mm3 * 1e-9 * density_kg_m3
}

/// Density of a material \[kg/m³\]; that of steel where it is unknown.
pub fn density(e: &Engine, name: &str) -> f64 {
    e.catalogue.material(name).map_or(STEEL_KG_M3, |m| m.density_kg_m3)
}

/// Cross-section of a tube \[mm²\] by outside diameter and wall.
fn tube_mm2(outer_mm: f64, wall_mm: f64) -> f64 {
    circle_mm2(outer_mm) - circle_mm2((outer_mm - 2.0 * wall_mm).max(0.0))
}

fn clevis_kg(e: &Engine) -> f64 {
    let [x, y, z] = e.clevis.size_mm;
    kg(x * y * z - x * e.clevis.slot_mm * e.clevis.slot_depth_mm, density(e, &e.drive.material))
}

fn piston_kg(e: &Engine) -> f64 {
    let p = &e.piston;
    let grooves = p.seal.count as f64 * p.seal.groove_mm;
    let body = circle_mm2(p.diameter_mm) * p.length_mm
        - (circle_mm2(p.diameter_mm) - circle_mm2(p.seal.groove_diameter_mm)) * grooves
        - circle_mm2(p.inside_mm) * (p.length_mm - p.crown_mm)
        + circle_mm2(p.boss_mm[0]) * p.boss_mm[1];
    let rings = p.seal.count as f64 * tube_mm2(p.bore_mm, p.seal.width_mm) * p.seal.height_mm;
    let hung = layouts::below_piston_kg(e)
        .unwrap_or_else(|| kg(circle_mm2(p.rod_mm) * p.rod_length_mm, STEEL_KG_M3) + clevis_kg(e));
    kg(body, density(e, &p.material)) + kg(rings, RING_KG_M3) + hung
}

fn displacer_kg(e: &Engine) -> f64 {
    let d = &e.displacer;
    let shell =
        tube_mm2(d.diameter_mm, d.shell_wall_mm) * d.length_mm + circle_mm2(d.diameter_mm) * d.shell_wall_mm;
    let base =
        circle_mm2(d.diameter_mm - 2.0 * d.shell_wall_mm) * d.base_mm + circle_mm2(d.hub_mm[0]) * d.hub_mm[1];
    let rod = circle_mm2(d.rod_mm) * d.rod_length_mm;
    let sleeve = d.regenerator.as_ref().map_or(0.0, |r| kg(r.metal_mm3(), density(e, &r.material)));
    // base and hub carry the rod's thread and are of aluminium
    sleeve
        + kg(shell, density(e, &d.material))
        + kg(base, density(e, "aluminium-6082"))
        + kg(rod, STEEL_KG_M3)
        + clevis_kg(e)
}

fn bearing_kg(b: &BallBearing) -> f64 {
    kg(BEARING_FILL * (circle_mm2(b.outer_mm) - circle_mm2(b.bore_mm)) * b.width_mm, STEEL_KG_M3)
}

fn con_rod_kg(e: &Engine) -> f64 {
    let (d, t) = (&e.drive, e.drive.con_rod_thickness_mm);
    let [big, small] = d.eye_r_mm;
    // hull of both eyes: half a disc at each end and a trapezium in between, less the bearing seats
    let ends = 0.5 * (circle_mm2(2.0 * big) + circle_mm2(2.0 * small));
    let seats = circle_mm2(d.crankpin_bearing.outer_mm) * d.crankpin_bearing.width_mm
        + circle_mm2(d.small_end_bearing.outer_mm) * d.small_end_bearing.width_mm;
    let body = (ends + (big + small) * d.con_rod_mm) * t - seats;
    kg(body, density(e, &d.material)) + bearing_kg(&d.crankpin_bearing) + bearing_kg(&d.small_end_bearing)
}

/// What hangs on the free end of the shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hung {
    /// Mass \[kg\].
    pub kg: f64,
    /// Inertia about the shaft \[kg m²\].
    pub kg_m2: f64,
    /// Place of its centre along Y \[mm\].
    pub y_mm: f64,
}

/// A ring of `kg` between two diameters \[mm\]: inertia \[kg m²\].
fn ring_kg_m2(kg: f64, outer_mm: f64, inner_mm: f64) -> f64 {
    kg * (outer_mm * outer_mm + inner_mm * inner_mm) / 8.0 * 1e-6
}

/// Flywheel, its hub and the pulley of the load.
pub fn hung(e: &Engine) -> Hung {
    let (end, wheel, shaft) = (&e.shaft_end, &e.flywheel, e.drive.journal_bearing.bore_mm);
    let mut all = vec![(wheel.mass_kg, wheel.inertia_kg_m2, 0.5 * (end.wheel_mm + end.output_mm))];
    if let Some(made) = &wheel.made {
        let face = end.wheel_mm + made.width_mm;
        all[0].2 = end.wheel_mm + 0.5 * made.width_mm;
        let mut far = face;
        for [diameter, long] in [[made.hub.flange_mm[0], made.hub.flange_mm[1]], made.hub.boss_mm] {
            let mass = kg(tube_mm2(diameter, 0.5 * (diameter - shaft)) * long, STEEL_KG_M3);
            all.push((mass, ring_kg_m2(mass, diameter, shaft), far + 0.5 * long));
            far += long;
        }
    }
    if let Some(o) = &end.output {
        let b = &o.pulley;
        let mass =
            kg(tube_mm2(b.flange_mm[1], 0.5 * (b.flange_mm[1] - shaft)) * b.face_mm, density(e, PULLEY));
        all.push((mass, ring_kg_m2(mass, b.flange_mm[1], shaft), end.output_mm + 0.5 * b.face_mm));
    }
    let sum = |pick: fn(&(f64, f64, f64)) -> f64| all.iter().map(pick).sum::<f64>();
    let mass = sum(|p| p.0);
    Hung { kg: mass, kg_m2: sum(|p| p.1), y_mm: sum(|p| p.0 * p.2) / mass }
}

/// Masses of a sized engine.
pub fn masses(e: &Engine) -> Masses {
    let d = &e.drive;
    let reach = d.displacer.throw_mm.max(d.piston.throw_mm);
    let [near, far] = d.web_r_mm;
    let web_kg = kg((circle_mm2(2.0 * near) + 2.0 * far * reach) * d.web_mm, density(e, &d.material));
    Masses {
        piston_kg: piston_kg(e),
        displacer_kg: displacer_kg(e),
        con_rod_kg: con_rod_kg(e),
        web_kg,
        web_kg_m2: web_kg * 1e-6 * reach.powi(2) / 3.0,
    }
}
