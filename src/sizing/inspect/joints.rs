//! Bolted flanges: load, spacing, edge, gasket by stress and by temperature.

use super::case::Case;
use super::metal::youngs_pa;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::BoltCircle;
use crate::sizing::layouts::common::seat::{CLOSEST_OVER_D, FARTHEST_OVER_D, Flange, MIDWAY, pitch_mm};
use crate::sizing::layouts::hot_walls;
use crate::sizing::strength::MPA;
use crate::sizing::strength::bolt::{kept_hot, preload_most_n};
use crate::sizing::verdict::hot_flange_k;

/// A flange with its screws under load.
struct Side<'a> {
    name: &'static str,
    title: &'static str,
    bolts: &'a BoltCircle,
    preload_n: f64,
    sheet: &'a str,
    flange_mm: f64,
    metal_c: f64,
    metal: &'a str,
    parts: [&'static str; 2],
    gasket: &'static str,
}

/// All checks of the flanges at the displacer's cylinder.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    let (e, j) = (case.engine, &case.engine.joints);
    let hot_c = hot_flange_k(e, case.hot_c + 273.15, case.cold_c + 273.15) - 273.15;
    let hot = Side {
        name: "hot-joint",
        title: "hot joint",
        bolts: &j.hot,
        preload_n: j.hot_preload_n,
        sheet: &j.hot_sheet,
        flange_mm: e.hot_cap.flange_mm,
        metal_c: hot_c,
        metal: &e.hot_cap.material,
        parts: ["hot-cap", "cold-cylinder"],
        gasket: "hot-cap-gasket",
    };
    let cold = Side {
        name: "cold-joint",
        title: "cold joint",
        bolts: &j.cold,
        preload_n: j.cold_preload_n,
        sheet: &j.cold_sheet,
        flange_mm: e.cold.flange_mm,
        metal_c: case.cold_c,
        metal: &e.cold.material,
        parts: ["cold-cylinder", "cooler-plate"],
        gasket: "cold-cylinder-gasket",
    };
    [&hot, &cold].into_iter().flat_map(|s| flange(case, s)).collect()
}

fn flange(case: &Case<'_>, s: &Side<'_>) -> Vec<Check> {
    let Ok(sheet) = case.book().gasket_sheet(s.sheet) else { return Vec::new() };
    let (e, d) = (case.engine, s.bolts.thread.major_mm);
    let access = e.joints.access_mm.filter(|_| s.name == "hot-joint");
    let face = Flange::round(hot_walls(e).joint_bore_mm, e.cold.flange_diameter_mm, s.bolts)
        .with_holes(s.bolts.diameter_mm, access);
    let count = s.bolts.count as f64;
    let holds = count * preload_most_n(s.bolts.thread) * kept_hot(s.metal_c);
    let needed = face.needed_n(sheet, case.over_air_pa);
    let pressed = count * s.preload_n / face.area_mm2 * 1e6;
    let pitch = pitch_mm(s.bolts);
    let seam =
        face.seam(sheet, [s.flange_mm, e.joints.gasket_mm], youngs_pa(case.book(), s.metal, s.metal_c) / MPA);
    let name = |what: &str| format!("{}-{what}", s.name);
    let mut all = vec![
        Check::at_least(
            &name("load"),
            &format!("what the screws of the {} hold, at its temperature", s.title),
            holds,
            Unit::Newton,
            needed,
            needed,
        )
        .source("ASME VIII-1 Appendix 2 (from memory); class 8.8, ISO 898-1, tightened to 70 % of proof")
        .at("joints.hot_screws")
        .of(&s.parts)
        .hint("more screws or larger ones, or a softer gasket"),
        Check::at_most(
            &name("pitch"),
            &format!("distance of the screws of the {}", s.title),
            pitch,
            Unit::Millimetre,
            FARTHEST_OVER_D * d,
            1.25 * FARTHEST_OVER_D * d,
        )
        .source("12 d, common practice, no source")
        .at("joints.hot_screws")
        .of(&s.parts)
        .hint("more screws"),
        Check::at_least(
            &name("key-room"),
            &format!("distance of the screws of the {}: room for heads and key", s.title),
            pitch,
            Unit::Millimetre,
            CLOSEST_OVER_D * d,
            2.5 * d,
        )
        .source("3 d, common practice, no source")
        .at("joints.hot_screws")
        .of(&s.parts)
        .hint("fewer screws, or smaller ones"),
        Check::at_least(
            &name("midway"),
            &format!("share of the gasket's pressing left midway between screws of the {}", s.title),
            seam.midway(pitch),
            Unit::Ratio,
            MIDWAY[0],
            MIDWAY[1],
        )
        .source("beam on an elastic bed, Hetenyi, 1946; half: common practice, no source")
        .at("joints.hot_screws")
        .of(&s.parts)
        .hint("more screws, a thicker flange or a softer gasket"),
        Check::at_most(
            &name("gasket-stress"),
            &format!("pressing of the gasket of the {}", s.title),
            pressed,
            Unit::Pascal,
            sheet.assembly_max_mpa * 1e6,
            sheet.assembly_max_mpa * 1e6,
        )
        .source("greatest assembly stress of the sheet, data/gaskets.toml")
        .at("joints.hot_screws")
        .of(&[s.gasket])
        .hint("less torque, or a firmer sheet"),
        Check::at_most(
            &name("gasket-temperature"),
            &format!("temperature of the gasket of the {}", s.title),
            s.metal_c + 273.15,
            Unit::Kelvin,
            sheet.service_limit_c + 273.15,
            sheet.service_limit_c + 273.15,
        )
        .source("service limit of the sheet, data/gaskets.toml; flange temperature by Fourier's law")
        .at(if s.name == "hot-joint" { "hot_end.temperature" } else { "cold_end.temperature" })
        .of(&[s.gasket])
        .hint("a longer or thinner hot cap, or a sheet that bears more heat"),
    ];
    let edge = 0.5 * (e.cold.flange_diameter_mm - s.bolts.diameter_mm);
    all.push(
        Check::at_least(
            &name("edge"),
            &format!("screw centres of the {} to the edge of its flange", s.title),
            edge,
            Unit::Millimetre,
            1.5 * d,
            1.25 * d,
        )
        .source("1.5 d, common practice, no source")
        .at("cold_end.flange_diameter")
        .of(&s.parts)
        .hint("a larger flange"),
    );
    all
}
