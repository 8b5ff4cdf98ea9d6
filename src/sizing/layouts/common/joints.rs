//! Flange joints of hot cap and cold cylinder: one bolt circle serves both.

use super::face_ring;
use super::seat::{self, Flange};
use crate::catalogue::Catalogue;
use crate::catalogue::gaskets::GasketSheet;
use crate::catalogue::threads::{Thread, thread, threads};
use crate::design::ROOM_PA;
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{BoltCircle, Joints};
use crate::sizing::strength::bolt::{FRICTION, on_metal_n, torque_nm};

/// What lies between the flanges as built \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// Gasket under the hot cap.
    pub hot_mm: f64,
    /// Gasket of the cold joints; nothing with O-rings.
    pub cold_mm: f64,
    /// Gasket that shuts the water jacket.
    pub jacket_mm: f64,
}

impl Between {
    /// Both gaskets of the displacer's cylinder \[mm\].
    pub fn cylinder_mm(&self) -> f64 {
        self.hot_mm + self.cold_mm
    }

    /// Both gaskets of the power cylinder \[mm\].
    pub fn power_mm(&self) -> f64 {
        self.cold_mm + self.jacket_mm
    }
}

/// Decides what lies between the flanges.
pub fn between(d: &mut Decide) -> Between {
    let design = d.design;
    let gasket = d.mm("joints.gasket_thickness", &design.joints.gasket_thickness_mm);
    let mut cold_mm = gasket;
    if face_ring::wanted(d) {
        d.mm("joints.ring_section", &design.joints.ring_section_mm);
        cold_mm = 0.0;
    }
    Between { hot_mm: hot_gasket(d, gasket), cold_mm, jacket_mm: gasket }
}

/// A sheet that is so near to a thickness when tightened stands for it \[mm\]: clearances take it up (common practice, no
/// source).
pub const SOLD_MM: f64 = 0.2;

/// Thickness of the hot gasket \[mm\]: the design's word, that of the others, or what its sheet is sold in.
fn hot_gasket(d: &mut Decide, others: f64) -> f64 {
    let design = d.design;
    let found = sheet(&design.catalogue, &design.joints.hot_gasket.value);
    let sold = found.compressed_mm(found.sheet_for_mm(others));
    let (mm, rule) = if (sold - others).abs() <= SOLD_MM {
        (others, "as the other gaskets")
    } else {
        (round_near(sold, 0.01), "nearest thickness that its sheet is sold in, tightened")
    };
    let path = "joints.hot_gasket_thickness";
    d.open_mm(path, &design.joints.hot_gasket_thickness_mm, rule, &["joints.gasket_thickness"], mm)
}

/// Depth that a tapped hole of full thread `depth` needs, drill's tip and 1 mm of metal with it \[mm\].
pub fn tapped_room(t: &Thread, depth: f64) -> f64 {
    depth + 3.0 * t.pitch_mm + 0.6 * t.tap_drill_mm / 2.0 + 1.0
}

/// Screw of the two flanges: the design's word, or the smallest of M4 to M8 that has room for as many as are needed.
pub fn flange_screw(d: &mut Decide, bore: f64, between: Between) -> &'static Thread {
    let design = d.design;
    if let Some(given) = &design.joints.hot_screw {
        return screw(d, "joints.hot_screw", given);
    }
    // the cold cylinder's flange is as thick as its thread is deep
    let fits = |t: &&'static Thread| {
        fewest(d, [bore, circle_mm(d, bore, t), 2.0 * t.major_mm], t, between).is_some()
    };
    let mut all = ["M4", "M5", "M6", "M8"].into_iter().filter_map(|name| thread(name).ok());
    let found = all.clone().find(fits).or(all.next_back()).unwrap_or(&threads()[4]);
    d.rule(
        "joints.hot_screw",
        found.major_mm,
        (
            "smallest of M4 to M8 that seats the gaskets with room for the heads",
            "ASME VIII-1 Appendix 2, from memory; sizes ISO 261",
        ),
        &["displacer.bore"],
    );
    found
}

/// A thread named in the design, with its diameter booked under the same path.
pub fn screw(d: &mut Decide, path: &str, setting: &crate::design::Setting<String>) -> &'static Thread {
    let found = d.look_up(path, thread(&setting.value)).unwrap_or(&threads()[4]);
    d.standard(path, found.major_mm, "ISO 261", &format!("nominal diameter of {}", found.designation));
    found
}

/// Diameter of the flange bolt circle \[mm\]: heads stand clear of the fins.
fn circle_mm(d: &Decide, bore: f64, screw: &Thread) -> f64 {
    let c = &d.design.cold_end;
    round_up(bore + 2.0 * (c.wall_mm.value + c.fin_height_mm.value) + screw.head_knurled_mm + 1.0, 1.0)
}

/// Decides that diameter.
pub fn circle(d: &mut Decide, bore: f64, screw: &Thread) -> f64 {
    let mm = circle_mm(d, bore, screw);
    d.rule(
        "joints.hot_circle",
        mm,
        ("fin diameter + head + 1 mm, to the next mm", "room for head and key, common practice, no source"),
        &["displacer.bore", "joints.hot_screw"],
    )
}

/// Pressure over the air's that the joints are made for \[Pa\]: twice the charge, which no engine of this kind reaches, or
/// the limit of the design where that is less.
pub fn design_over_pa(d: &Decide) -> f64 {
    let (charge, limit) = (d.design.engine.charge_pressure_pa.value, d.design.limits.peak_pressure_pa.value);
    ((2.0 * charge).min(limit) - ROOM_PA).max(0.0)
}

/// Sheet of a gasket; the design file admits only sheets of the catalogue.
pub fn sheet<'a>(book: &'a Catalogue, name: &str) -> &'a GasketSheet {
    book.gasket_sheet(name).unwrap_or(&book.gasket_sheets[0])
}

/// One of the two flanges: its thickness \[mm\], its metal and the sheet under it with its thickness \[mm\].
struct Side<'a> {
    flange_mm: f64,
    gasket_mm: f64,
    youngs_mpa: f64,
    sheet: &'a GasketSheet,
}

/// Hot cap's flange and the cold cylinder's.
fn sides<'a>(d: &Decide<'a>, flange: f64, between: Between) -> [Side<'a>; 2] {
    let design = d.design;
    let book = &*design.catalogue;
    let side = |[flange_mm, gasket_mm]: [f64; 2], stuff: &str, name: &str| Side {
        flange_mm,
        gasket_mm,
        youngs_mpa: 1e3 * book.material(stuff).map_or(70.0, |m| m.youngs_modulus_gpa),
        sheet: sheet(book, name),
    };
    let (hot, cold) = (&design.hot_end, &design.cold_end);
    [
        side(
            [hot.flange_thickness_mm.value, between.hot_mm],
            &hot.material.value,
            &design.joints.hot_gasket.value,
        ),
        side([flange, between.jacket_mm], &cold.material.value, &design.joints.cold_gasket.value),
    ]
}

/// Fewest screws of a size that hold both flanges tight, by bore, bolt circle and thickness of the cold cylinder's flange
/// \[mm\]; `None` where they have no room.
fn fewest(
    d: &Decide,
    [bore, circle, flange]: [f64; 3],
    screw: &'static Thread,
    between: Between,
) -> Option<usize> {
    let one = |s: Side<'_>| {
        let bolts =
            BoltCircle { thread: screw, diameter_mm: circle, count: 0, first_deg: 0.0, screw_mm: 0.0 };
        let face = Flange::round(bore, circle + 3.0 * screw.major_mm, &bolts);
        let needed = face.needed_n(s.sheet, design_over_pa(d));
        let seam = face.seam(s.sheet, [s.flange_mm, s.gasket_mm], s.youngs_mpa);
        seat::count(needed, circle, screw, &seam)
    };
    let [hot, cold] = sides(d, flange, between);
    // an O-ring asks for far less than the hot gasket
    let cold = if face_ring::wanted(d) { 0 } else { one(cold)? };
    Some(one(hot)?.max(cold))
}

/// Number of screws on a circle.
fn count(d: &mut Decide, sizes: [f64; 3], screw: &'static Thread, between: Between) -> usize {
    let design = d.design;
    let circle = sizes[1];
    let fewest = fewest(d, sizes, screw, between);
    if fewest.is_none() && design.joints.hot_screws.is_none() {
        d.refuse(
            "swept::joint",
            "joints.hot_screw",
            format!("so many {} screws as the gaskets need have no room on a circle of {circle} mm", screw.designation),
            "screws at least 3 diameters apart".into(),
            "take a larger joints.hot_screw, a softer joints.hot_gasket or a thicker hot_end.flange_thickness".into(),
        );
    }
    d.open_count(
        "joints.hot_screws",
        &design.joints.hot_screws,
        (
            "fewest, even, at least 6, at most 12 d apart, that seat the gaskets and leave half of the pressing midway",
            "seating: ASME VIII-1 Appendix 2, from memory; midway: Hetenyi, 1946; 12 d: common practice, no source",
        ),
        &["joints.hot_circle", "joints.hot_screw", "hot_end.flange_thickness", "displacer.bore"],
        fewest.unwrap_or(6),
    )
}

/// Smallest standard screw that reaches `through` and bites `bite` \[mm\].
fn length(d: &mut Decide, path: &str, screw: &Thread, [through, bite]: [f64; 2], inputs: &[&str]) -> f64 {
    let needed = through + bite;
    let found = d.design.catalogue.cap_screw_at_least(screw, needed);
    let length = found.unwrap_or_else(|| round_up(needed, 10.0));
    d.rule(path, length, ("next standard length (ISO 4762) over grip + engagement", "from memory"), inputs)
}

/// Holes in the upper flange for the screws of the lower one \[mm\], where screw or key have no way between the flanges:
/// `free` \[mm\] is that way, `long` \[mm\] the screw.
fn access(d: &mut Decide, screw: &Thread, free: f64, long: f64) -> Option<f64> {
    let needed = (long + screw.head_height_mm).max(screw.key_way_mm());
    (free < needed).then(|| {
        d.rule(
            "joints.access_hole",
            round_up(screw.head_knurled_mm + 0.5, 0.5),
            (
                "head + 0.5 mm, to the next 0.5 mm: the cold joint's screws go in through the upper flange",
                "common practice, no source",
            ),
            &["joints.hot_screw", "cold_end.cylinder_length", "joints.cold_screw_length"],
        )
    })
}

/// Both flange joints, by the thickness of the hot cap's flange, that of the cold cylinder's, and the cold cylinder's length
/// \[mm\].
pub fn size(
    d: &mut Decide,
    bore: f64,
    circle: f64,
    screw: &'static Thread,
    [cap_flange, flange, long]: [f64; 3],
    between: Between,
) -> Joints {
    let design = d.design;
    let count = count(d, [bore, circle, flange], screw, between);
    let [hot_side, cold_side] = sides(d, flange, between);
    let inputs = ["cold_end.flange_thickness", "joints.gasket_thickness", "joints.hot_screw"];
    let cold_mm = length(
        d,
        "joints.cold_screw_length",
        screw,
        [flange + between.cold_mm, 2.0 * screw.major_mm],
        &inputs,
    );
    let access_mm = access(d, screw, long - 2.0 * flange, cold_mm);
    let half = 180.0 / count as f64;
    let (first, rule) = match access_mm {
        Some(_) => (0.0, "half a pitch beside the screws of the cold joint, which go in between them"),
        None => (half, "half a pitch from the plane of both axes"),
    };
    d.rule_in("joints.hot_first_screw", first, Unit::Degree, rule, &["joints.hot_screws"]);
    let inputs = ["hot_end.flange_thickness", "joints.hot_gasket_thickness", "joints.hot_screw"];
    let hot_mm = length(
        d,
        "joints.hot_screw_length",
        screw,
        [cap_flange + between.hot_mm, 1.5 * screw.major_mm],
        &inputs,
    );
    let ring = |first_deg: f64, screw_mm: f64| BoltCircle {
        thread: screw,
        diameter_mm: circle,
        count,
        first_deg,
        screw_mm,
    };
    let outer = circle + 3.0 * screw.major_mm;
    let (hot, cold) = (ring(first, hot_mm), ring(half, cold_mm));
    let tighten = |d: &mut Decide, name: &str, bolts: &BoltCircle, sheet: &GasketSheet| {
        let face = Flange::round(bore, outer, bolts);
        let preload = face.preload_n(sheet, design_over_pa(d), screw, count);
        tightened(d, name, screw, preload, &["joints.hot_screws", "joints.hot_circle", "joints.hot_screw"])
    };
    let hot_preload_n = tighten(d, "hot", &hot, hot_side.sheet);
    let cold_preload_n = if face_ring::wanted(d) {
        on_metal(d, "cold", screw, &["joints.hot_screws", "joints.hot_screw"])
    } else {
        tighten(d, "cold", &cold, cold_side.sheet)
    };
    let to = circle - screw.clearance_medium_mm;
    let cold_ring = face_ring::size(d, "cold", bore, to, &["displacer.bore", "joints.hot_circle"]);
    Joints {
        hot,
        cold,
        access_mm,
        hot_preload_n,
        cold_preload_n,
        hot_gasket_mm: between.hot_mm,
        gasket_mm: between.jacket_mm,
        cold_gap_mm: between.cold_mm,
        cold_ring,
        hot_sheet: design.joints.hot_gasket.value.to_string(),
        cold_sheet: design.joints.cold_gasket.value.to_string(),
    }
}

/// Records preload and torque of screws that press a gasket; gives the preload \[N\].
pub fn tightened(d: &mut Decide, joint: &str, screw: &Thread, preload_n: f64, inputs: &[&str]) -> f64 {
    let rule = (
        "what seats the gasket and a fifth more, shared by the screws",
        "ASME VIII-1 Appendix 2, from memory",
    );
    preloaded(d, joint, screw, preload_n, rule, inputs)
}

/// The same where metal lies on metal.
fn on_metal(d: &mut Decide, joint: &str, screw: &Thread, inputs: &[&str]) -> f64 {
    let rule = ("half of what the screw bears: metal lies on metal", "common practice, no source");
    preloaded(d, joint, screw, on_metal_n(screw), rule, inputs)
}

fn preloaded(
    d: &mut Decide,
    joint: &str,
    screw: &Thread,
    preload_n: f64,
    rule: (&str, &str),
    inputs: &[&str],
) -> f64 {
    let path = format!("joints.{joint}_preload");
    d.rule_in(&path, preload_n, Unit::Newton, rule, inputs);
    let torque = torque_nm(screw, preload_n, FRICTION);
    d.rule_in(
        &format!("joints.{joint}_torque"),
        torque,
        Unit::NewtonMetre,
        ("F (0.16 P + 0.58 d2 mu + D mu / 2), mu 0.12", "VDI 2230 Part 1, from memory"),
        &[&path],
    );
    preload_n
}
