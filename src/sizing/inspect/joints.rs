//! Bolted flanges: load, spacing, edge, gasket by stress and by temperature.

use super::case::Case;
use super::metal::youngs_pa;
use crate::catalogue::gaskets::GasketSheet;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{BoltCircle, FaceRing};
use crate::sizing::layouts::common::joints::SOLD_MM;
use crate::sizing::layouts::common::seat::{CLOSEST_OVER_D, FARTHEST_OVER_D, Flange, MIDWAY, pitch_mm};
use crate::sizing::layouts::hot_walls;
use crate::sizing::strength::MPA;
use crate::sizing::strength::bolt::{kept_hot, preload_most_n};
use crate::sizing::verdict::hot_flange_k;

/// Highest temperature of the O-rings' rubber, FKM \[°C\] (from memory).
const RUBBER_C: f64 = 200.0;
/// By how much a tightened gasket may differ from the drawing: clearances take it up; wanted and most \[mm\] (common practice,
/// no source).
const THICKNESS_MM: [f64; 2] = [SOLD_MM, 2.0 * SOLD_MM];

/// A flange with its screws under load.
struct Side<'a> {
    name: &'static str,
    title: &'static str,
    bolts: &'a BoltCircle,
    preload_n: f64,
    sheet: &'a str,
    gasket_mm: f64,
    gasket_path: &'static str,
    flange_mm: f64,
    metal_c: f64,
    metal: &'a str,
    parts: [&'static str; 2],
    gasket: &'static str,
    ring: Option<&'a FaceRing>,
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
        gasket_mm: j.hot_gasket_mm,
        gasket_path: "joints.hot_gasket_thickness",
        flange_mm: e.hot_cap.flange_mm,
        metal_c: hot_c,
        metal: &e.hot_cap.material,
        parts: ["hot-cap", "cold-cylinder"],
        gasket: "hot-cap-gasket",
        ring: None,
    };
    let cold = Side {
        name: "cold-joint",
        title: "cold joint",
        bolts: &j.cold,
        preload_n: j.cold_preload_n,
        sheet: &j.cold_sheet,
        gasket_mm: j.gasket_mm,
        gasket_path: "joints.gasket_thickness",
        flange_mm: e.cold.flange_mm,
        metal_c: case.cold_c,
        metal: &e.cold.material,
        parts: ["cold-cylinder", "cooler-plate"],
        gasket: "cold-cylinder-gasket",
        ring: j.cold_ring.as_ref(),
    };
    [&hot, &cold].into_iter().flat_map(|s| flange(case, s)).collect()
}

fn flange(case: &Case<'_>, s: &Side<'_>) -> Vec<Check> {
    let holds = s.bolts.count as f64 * preload_most_n(s.bolts.thread) * kept_hot(s.metal_c);
    let mut all = match s.ring {
        Some(ring) => ring_seal(case, s.name, ring, holds, &s.parts),
        None => gasket(case, s, holds),
    };
    all.extend(places(case, s));
    all
}

/// Where the screws stand.
fn places(case: &Case<'_>, s: &Side<'_>) -> [Check; 3] {
    let (pitch, d) = (pitch_mm(s.bolts), s.bolts.thread.major_mm);
    let edge = 0.5 * (case.engine.cold.flange_diameter_mm - s.bolts.diameter_mm);
    let mm = Unit::Millimetre;
    let name = |what: &str| format!("{}-{what}", s.name);
    let told = |check: Check, source: &str, path: &str, hint: &str| {
        check.source(source).at(path).of(&s.parts).hint(hint)
    };
    let far = [FARTHEST_OVER_D * d, 1.25 * FARTHEST_OVER_D * d];
    let what = format!("distance of the screws of the {}", s.title);
    let room = format!("{what}: room for heads and key");
    let beside = format!("screw centres of the {} to the edge of its flange", s.title);
    [
        told(
            Check::at_most(&name("pitch"), &what, pitch, mm, far[0], far[1]),
            "12 d, common practice, no source",
            "joints.hot_screws",
            "more screws",
        ),
        told(
            Check::at_least(&name("key-room"), &room, pitch, mm, CLOSEST_OVER_D * d, 2.5 * d),
            "3 d, common practice, no source",
            "joints.hot_screws",
            "fewer screws, or smaller ones",
        ),
        told(
            Check::at_least(&name("edge"), &beside, edge, mm, 1.5 * d, 1.25 * d),
            "1.5 d, common practice, no source",
            "cold_end.flange_diameter",
            "a larger flange",
        ),
    ]
}

/// A gasket: load, pressing everywhere, heat, thickness as built.
fn gasket(case: &Case<'_>, s: &Side<'_>, holds: f64) -> Vec<Check> {
    let Ok(sheet) = case.book().gasket_sheet(s.sheet) else { return Vec::new() };
    let e = case.engine;
    let access = e.joints.access_mm.filter(|_| s.name == "hot-joint");
    let face = Flange::round(hot_walls(e).joint_bore_mm, e.cold.flange_diameter_mm, s.bolts)
        .with_holes(s.bolts.diameter_mm, access);
    let needed = face.needed_n(sheet, case.over_air_pa);
    let pressed = s.bolts.count as f64 * s.preload_n / face.area_mm2 * MPA;
    let youngs_mpa = youngs_pa(case.book(), s.metal, s.metal_c) / MPA;
    let seam = face.seam(sheet, [s.flange_mm, s.gasket_mm], youngs_mpa);
    let name = |what: &str| format!("{}-{what}", s.name);
    let holding = format!("what the screws of the {} hold, at its temperature", s.title);
    let midway = format!("share of the gasket's pressing left midway between screws of the {}", s.title);
    let limit_k = sheet.service_limit_c + 273.15;
    let most = sheet.assembly_max_mpa * MPA;
    vec![
        Check::at_least(&name("load"), &holding, holds, Unit::Newton, needed, needed)
            .source("ASME VIII-1 Appendix 2 (from memory); class 8.8, ISO 898-1, tightened to 70 % of proof")
            .at("joints.hot_screws")
            .of(&s.parts)
            .hint("more screws or larger ones, or a softer gasket"),
        Check::at_least(
            &name("midway"),
            &midway,
            seam.midway(pitch_mm(s.bolts)),
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
            most,
            most,
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
            limit_k,
            limit_k,
        )
        .source("service limit of the sheet, data/gaskets.toml; flange temperature by Fourier's law")
        .at(if s.name == "hot-joint" { "hot_end.temperature" } else { "cold_end.temperature" })
        .of(&[s.gasket])
        .hint("a longer or thinner hot cap, or a sheet that bears more heat"),
        thickness(&name("gasket-thickness"), s, sheet),
    ]
}

/// By how much the nearest sheet of the market, tightened, differs from what the engine is drawn with.
fn thickness(name: &str, s: &Side<'_>, sheet: &GasketSheet) -> Check {
    let drawn_mm = s.gasket_mm;
    let buy = sheet.sheet_for_mm(drawn_mm);
    let tight = sheet.compressed_mm(buy);
    let what = format!(
        "gasket of the {}: a sheet of {buy} mm is {tight:.2} mm when tightened, drawn {drawn_mm} mm; difference",
        s.title
    );
    let off = (tight - drawn_mm).abs();
    Check::at_most(name, &what, off, Unit::Millimetre, THICKNESS_MM[0], THICKNESS_MM[1])
        .source(
            "thickness and compression of the sheet, data/gaskets.toml; bounds common practice, no source",
        )
        .at(s.gasket_path)
        .of(&[s.gasket])
        .hint(&format!("{} = \"{tight:.2} mm\"", s.gasket_path))
}

/// An O-ring in a face: load, squeeze, filling of its groove, heat.
pub fn ring_seal(case: &Case<'_>, joint: &str, ring: &FaceRing, holds: f64, parts: &[&str]) -> Vec<Check> {
    let words = joint.replace('-', " ");
    let name = |what: &str| format!("{joint}-{what}");
    let needed = ring.needed_n(case.over_air_pa);
    let [least, most] = ring.squeeze;
    let (k, limit_k) = (case.cold_c + 273.15, RUBBER_C + 273.15);
    let told = |check: Check, source: &str, path: &str, hint: &str| {
        check.source(source).at(path).of(parts).hint(hint)
    };
    let section = "joints.ring_section";
    let table = "groove of a still seal, ISO 3601-2, a maker's table; bounds makers' practice, from memory";
    vec![
        told(
            Check::at_least(
                &name("load"),
                &format!("what the screws of the {words} hold"),
                holds,
                Unit::Newton,
                needed,
                needed,
            ),
            "end force of the gas and 5 N/mm of ring, makers' curves, from memory",
            section,
            "more screws or larger ones",
        ),
        told(
            Check::at_least(
                &name("ring-squeeze"),
                &format!("least squeeze of the O-ring of the {words}"),
                least,
                Unit::Ratio,
                0.15,
                0.10,
            ),
            table,
            section,
            "a larger joints.ring_section",
        ),
        told(
            Check::at_most(
                &name("ring-squeeze-most"),
                &format!("greatest squeeze of the O-ring of the {words}"),
                most,
                Unit::Ratio,
                0.33,
                0.40,
            ),
            table,
            section,
            "a larger joints.ring_section",
        ),
        told(
            Check::at_most(
                &name("ring-fill"),
                &format!("part of its groove that the O-ring of the {words} fills"),
                ring.fill,
                Unit::Ratio,
                0.90,
                0.95,
            ),
            table,
            section,
            "another joints.ring_section",
        ),
        told(
            Check::at_most(
                &name("ring-temperature"),
                &format!("temperature of the O-ring of the {words}"),
                k,
                Unit::Kelvin,
                limit_k,
                limit_k,
            ),
            "FKM bears 200 degrees in air, from memory",
            "cold_end.temperature",
            "a gasket that bears more heat",
        ),
    ]
}
