//! Displacer, its cylinder (hot cap and cold cylinder) and what follows in length.

use super::joints::Between;
use crate::catalogue::fuels::fuel;
use crate::catalogue::threads::{Thread, thread};
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::engine::{ColdCylinder, Displacer, HotCap, Stack};
use crate::sizing::regenerator::size as regenerator;

/// Proportions of a displacer's cylinder where the design leaves them open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Longer than wide: room for a large fall of temperature along it.
    Tall,
    /// Wide and shallow, for a small one.
    Shallow,
    /// As tall, in a liner with the regenerator in a canister around it.
    Lined,
}

impl Shape {
    /// Length of the cold cylinder by bore \[mm\], in words and as a number.
    fn cold(self, bore: f64) -> (&'static str, f64) {
        match self {
            Shape::Tall | Shape::Lined => ("0.6 bore, to the nearest 5 mm", round_near(0.6 * bore, 5.0)),
            Shape::Shallow => {
                ("0.14 bore, at least 20 mm, to the nearest mm", round_near(0.14 * bore, 1.0).max(20.0))
            }
        }
    }

    /// Depth of the hot cap.
    fn depth(self, bore: f64) -> (&'static str, f64) {
        match self {
            Shape::Tall | Shape::Lined => ("0.95 bore, to the nearest 5 mm", round_near(0.95 * bore, 5.0)),
            Shape::Shallow => ("0.2 bore, to the nearest mm", round_near(0.2 * bore, 1.0)),
        }
    }

    /// Thickest rod.
    fn rod(self, bore: f64) -> (&'static str, f64) {
        match self {
            Shape::Tall | Shape::Lined => {
                ("the largest bush size up to bore / 11, at least 5 mm", bore / 11.0)
            }
            Shape::Shallow => ("the largest bush size up to bore / 30, at least 5 mm", bore / 30.0),
        }
    }
}

/// Displacer diameter and gap \[mm\]; a bought can decides both. A regenerator of a thickness \[mm\] lies between, or
/// stands around the liner.
fn gap(d: &mut Decide, bore: f64, sleeve: f64) -> (f64, f64) {
    let design = d.design;
    let s = &design.displacer;
    if let Some(can) = &s.can_diameter_mm {
        let can = d.mm("displacer.can_diameter", can);
        let gap = d.rule(
            "displacer.gap",
            (bore - can) / 2.0 - sleeve,
            "(bore - can diameter) / 2, less the regenerator where there is one",
            &between(sleeve, ["displacer.bore", "displacer.can_diameter"]),
        );
        if let Some(wanted) = &s.gap_mm
            && (wanted.value - gap).abs() > 1e-6
        {
            d.refuse(
                "swept::contradiction",
                "displacer.gap",
                format!("the gap is {gap:.3} mm with this can and bore, not {:.3} mm", wanted.value),
                "leave displacer.gap out when a can is given".into(),
                format!("set displacer.bore to \"{:.3} mm\"", can + 2.0 * (wanted.value + sleeve)),
            );
        }
        let diameter = d.rule("displacer.diameter", can, "the can's diameter", &["displacer.can_diameter"]);
        return (diameter, gap);
    }
    let (formula, value) = if sleeve > 0.0 {
        let close =
            "0.4 % of the bore, at least 0.3 mm, to the next 0.1 mm: little gas goes past the regenerator";
        (close, round_up((0.004 * bore).max(0.3), 0.1))
    } else {
        let formula = "0.8 % of the bore, at least 0.5 mm, to the next 0.1 mm";
        (formula, round_up((0.008 * bore).max(0.5), 0.1))
    };
    let common = "common practice, no source";
    let gap = d.open_mm("displacer.gap", &s.gap_mm, (formula, common), &["displacer.bore"], value);
    let diameter = d.rule(
        "displacer.diameter",
        bore - 2.0 * (gap + sleeve),
        if sleeve > 0.0 { "bore - 2 (gap + regenerator)" } else { "bore - 2 gap" },
        &between(sleeve, ["displacer.bore", "displacer.gap"]),
    );
    (diameter, gap)
}

/// Inputs of a radial chain, with the regenerator's thickness where there is one.
fn between(sleeve: f64, inputs: [&str; 2]) -> Vec<&str> {
    let mut all = inputs.to_vec();
    if sleeve > 0.0 {
        all.push("regenerator.thickness");
    }
    all
}

/// Diameter of both rods \[mm\]: a bush size.
pub fn rod(d: &mut Decide, bore: f64, shape: Shape) -> f64 {
    let design = d.design;
    let shafts = || design.catalogue.bushes.iter().map(|b| b.shaft_mm);
    let fits = |limit: f64| shafts().filter(|s| *s <= limit).fold(5.0, f64::max);
    let (formula, thickest) = shape.rod(bore);
    let rod = d.open_mm(
        "displacer.rod_diameter",
        &design.displacer.rod_diameter_mm,
        (formula, "common practice, no source"),
        &["displacer.bore"],
        fits(thickest),
    );
    let piston_rod = d.open_mm(
        "piston.rod_diameter",
        &design.piston.rod_diameter_mm,
        "as the displacer's rod, so that one clevis and one bush serve both",
        &["displacer.rod_diameter"],
        rod,
    );
    if (piston_rod - rod).abs() > 1e-9 {
        d.refuse(
            "swept::contradiction",
            "piston.rod_diameter",
            format!("both rods share one clevis; {piston_rod} mm and {rod} mm differ"),
            format!("{rod} mm"),
            format!("leave piston.rod_diameter out or set it to \"{rod} mm\""),
        );
    }
    rod
}

/// Thread for the end of a rod: the coarsest that leaves a shoulder (4/5 of the rod at most).
pub fn rod_thread(rod: f64) -> &'static Thread {
    let name = match 0.8 * rod {
        x if x >= 8.0 => "M8",
        x if x >= 6.0 => "M6",
        x if x >= 5.0 => "M5",
        x if x >= 4.0 => "M4",
        _ => "M3",
    };
    thread(name).unwrap_or_else(|_| &crate::catalogue::threads::threads()[0])
}

/// Lengths of hot cap and cold cylinder and the displacer's own, each from the others.
struct Lengths {
    cold: f64,
    depth: f64,
    cylinder: f64,
    length: f64,
}

/// Decides the lengths: a given displacer (or can) decides the hot cap, else the cylinder decides the displacer.
fn lengths(
    d: &mut Decide,
    bore: f64,
    shape: Shape,
    [stroke, hot, cold_clear]: [f64; 3],
    between: Between,
) -> Lengths {
    let design = d.design;
    let common = "common practice, no source";
    let (formula, value) = shape.cold(bore);
    let cold = d.open_mm(
        "cold_end.cylinder_length",
        &design.cold_end.cylinder_length_mm,
        (formula, common),
        &["displacer.bore"],
        value,
    );
    let own = design.displacer.can_length_mm.as_ref().or(design.displacer.length_mm.as_ref());
    let used = stroke + hot + cold_clear;
    let parts = ["displacer.stroke", "displacer.hot_clearance", "displacer.cold_clearance"];
    let chain = |first: &[&'static str]| [first, &parts].concat();
    let Some(own) = own else {
        let (formula, value) = shape.depth(bore);
        let given = &design.hot_end.depth_mm;
        let depth = d.open_mm("hot_end.depth", given, (formula, common), &["displacer.bore"], value);
        let cylinder = cylinder(d, cold, depth, between);
        let length = d.rule(
            "displacer.length",
            cylinder - used,
            "cylinder - stroke - hot clearance - cold clearance",
            &chain(&["displacer.cylinder_length"]),
        );
        return Lengths { cold, depth, cylinder, length };
    };
    let path =
        if design.displacer.can_length_mm.is_some() { "displacer.can_length" } else { "displacer.length" };
    let length = d.mm(path, own);
    if path != "displacer.length" {
        d.rule("displacer.length", length, "the can's length", &[path]);
    }
    let needed = length + used - cold - between.cylinder_mm();
    let depth = match &design.hot_end.depth_mm {
        Some(given) => d.mm("hot_end.depth", given),
        None => d.rule(
            "hot_end.depth",
            needed,
            "displacer + stroke + clearances - cold cylinder - gaskets",
            &chain(&[
                "displacer.length",
                "cold_end.cylinder_length",
                "joints.gasket_thickness",
                "joints.hot_gasket_thickness",
            ]),
        ),
    };
    if (depth - needed).abs() > 1e-6 {
        d.refuse(
            "swept::contradiction",
            "hot_end.depth",
            format!("a displacer of {length} mm with this stroke needs {needed:.3} mm inside the hot cap, not {depth} mm"),
            format!("{needed:.3} mm"),
            "leave either hot_end.depth or displacer.length out".into(),
        );
    }
    let cylinder = cylinder(d, cold, depth, between);
    Lengths { cold, depth, cylinder, length }
}

/// Inside length of the displacer's cylinder \[mm\].
fn cylinder(d: &mut Decide, cold: f64, depth: f64, between: Between) -> f64 {
    d.rule(
        "displacer.cylinder_length",
        cold + depth + between.cylinder_mm(),
        if between.cold_mm > 0.0 {
            "cold cylinder + hot cap depth + two gaskets"
        } else {
            "cold cylinder + hot cap depth + hot gasket"
        },
        &[
            "cold_end.cylinder_length",
            "hot_end.depth",
            "joints.gasket_thickness",
            "joints.hot_gasket_thickness",
        ],
    )
}

/// Everything about displacer and hot cap.
pub fn size(d: &mut Decide, between: Between, shape: Shape) -> (Displacer, HotCap, f64) {
    let design = d.design;
    let s = &design.displacer;
    let bore = d.mm("displacer.bore", &s.bore_mm);
    let stroke = d.mm("displacer.stroke", &s.stroke_mm);
    let hot_clearance = d.mm("displacer.hot_clearance", &s.hot_clearance_mm);
    let cold_clearance = d.mm("displacer.cold_clearance", &s.cold_clearance_mm);
    let sleeve = if shape == Shape::Lined { 0.0 } else { regenerator::thickness(d) };
    let (diameter, gap) = gap(d, bore, sleeve);
    let l = lengths(d, bore, shape, [stroke, hot_clearance, cold_clearance], between);
    let wall = match &s.can_wall_mm {
        Some(can) => d.mm("displacer.can_wall", can),
        None => d.mm("displacer.shell_wall", &s.shell_wall_mm),
    };
    let base = d.mm("displacer.base_thickness", &s.base_thickness_mm);
    let rod = rod(d, bore, shape);
    let set_screw = rod_thread(rod / 2.0 + 1.0);
    let hub = [rod + 2.0 * (set_screw.major_mm + 2.0), 2.0 * set_screw.major_mm + 6.0];
    d.rule("displacer.hub_diameter", hub[0], "rod + 2 (set screw + 2 mm)", &["displacer.rod_diameter"]);
    d.rule("displacer.hub_height", hub[1], "2 set screw + 6 mm", &["displacer.rod_diameter"]);
    let drum = regenerator::Drum::displacer(diameter, sleeve, l.length, gap);
    let regenerator = if shape == Shape::Lined { None } else { regenerator::wound(d, &drum) };
    check_displacer(d, l.length, base + hub[1] + wall + 2.0, l.cylinder, stroke, gap);
    let displacer = Displacer {
        bore_mm: bore,
        stroke_mm: stroke,
        diameter_mm: diameter,
        gap_mm: gap,
        length_mm: l.length,
        cylinder_mm: l.cylinder,
        hot_clearance_mm: hot_clearance,
        cold_clearance_mm: cold_clearance,
        shell_wall_mm: wall,
        base_mm: base,
        hub_mm: hub,
        set_screw,
        rod_mm: rod,
        rod_length_mm: 0.0,
        bought_can: s.can_diameter_mm.is_some(),
        regenerator,
        material: s.material.value.to_string(),
    };
    (displacer, hot_cap(d, bore, l.depth), l.cold)
}

/// The hot cap from the design's word and the decided depth.
fn hot_cap(d: &mut Decide, bore: f64, depth: f64) -> HotCap {
    let design = d.design;
    let h = &design.hot_end;
    HotCap {
        temperature_k: d.setting(
            "hot_end.temperature",
            &h.temperature_k,
            crate::sizing::dimension::Unit::Kelvin,
        ),
        bore_mm: bore,
        wall_mm: d.mm("hot_end.wall", &h.wall_mm),
        end_mm: d.mm("hot_end.end_thickness", &h.end_thickness_mm),
        depth_mm: depth,
        flange_mm: d.mm("hot_end.flange_thickness", &h.flange_thickness_mm),
        material: h.material.value.to_string(),
        flame: fuel(&design.heater.fuel.value).map_or(true, |f| f.carbon_monoxide),
    }
}

/// A displacer must hold its hub and must not be longer than the room for it.
fn check_displacer(d: &mut Decide, length: f64, least: f64, cylinder: f64, stroke: f64, gap: f64) {
    if length < least {
        d.refuse(
            "swept::stroke",
            "displacer.stroke",
            format!("the displacer stroke of {stroke} mm leaves {length:.2} mm for the displacer in a cylinder of {cylinder:.2} mm"),
            format!("displacer length of {least:.1} mm or more"),
            format!("shorten displacer.stroke below \"{:.1} mm\" or lengthen hot_end.depth", stroke - (least - length)),
        );
    }
    if gap < 0.15 {
        d.refuse(
            "swept::range",
            "displacer.gap",
            format!("the displacer gap of {gap:.3} mm would touch the wall when hot"),
            "0.15 mm or more".into(),
            "enlarge the bore, or take a smaller displacer".into(),
        );
    }
}

/// Cold cylinder with its fins; flanges hold a bolt circle outside the fins.
pub fn cold_cylinder(
    d: &mut Decide,
    bore: f64,
    length: f64,
    screw: &'static Thread,
    circle: f64,
) -> ColdCylinder {
    let design = d.design;
    let c = &design.cold_end;
    let wall = d.mm("cold_end.wall", &c.wall_mm);
    let fin = d.mm("cold_end.fin_thickness", &c.fin_thickness_mm);
    let fin_gap = d.mm("cold_end.fin_gap", &c.fin_gap_mm);
    let fin_height = d.mm("cold_end.fin_height", &c.fin_height_mm);
    let flange = d.rule(
        "cold_end.flange_thickness",
        2.0 * screw.major_mm,
        ("2 screw diameters, so that a tapped flange holds", "common practice, no source"),
        &["joints.hot_screw"],
    );
    let room = length - 2.0 * flange - fin_gap;
    let fins = d.open_count(
        "cold_end.fins",
        &c.fins,
        "as many as fit between the flanges",
        &[
            "cold_end.cylinder_length",
            "cold_end.flange_thickness",
            "cold_end.fin_thickness",
            "cold_end.fin_gap",
        ],
        (room / (fin + fin_gap)).floor().max(0.0) as usize,
    );
    if fins as f64 * (fin + fin_gap) > room + 1e-9 {
        d.refuse(
            "swept::range",
            "cold_end.fins",
            format!(
                "{fins} fins need {:.1} mm between the flanges and there are {room:.1} mm",
                fins as f64 * (fin + fin_gap)
            ),
            format!("{} fins at the most", (room / (fin + fin_gap)).floor().max(0.0)),
            "leave cold_end.fins out, or lengthen cold_end.cylinder_length".into(),
        );
    }
    let fin_diameter = d.rule(
        "cold_end.fin_diameter",
        bore + 2.0 * (wall + fin_height),
        "bore + 2 (wall + fin height)",
        &["displacer.bore", "cold_end.wall", "cold_end.fin_height"],
    );
    let flange_diameter = d.rule(
        "cold_end.flange_diameter",
        circle + 3.0 * screw.major_mm,
        ("bolt circle + 3 screw diameters", "edge rule, common practice, no source"),
        &["joints.hot_circle", "joints.hot_screw"],
    );
    ColdCylinder {
        temperature_k: d.setting(
            "cold_end.temperature",
            &c.temperature_k,
            crate::sizing::dimension::Unit::Kelvin,
        ),
        length_mm: length,
        wall_mm: wall,
        flange_mm: flange,
        flange_diameter_mm: flange_diameter,
        fins,
        fin_mm: fin,
        fin_gap_mm: fin_gap,
        fin_diameter_mm: fin_diameter,
        material: c.material.value.to_string(),
    }
}

/// The hot end must stay within the limits of the design.
pub fn peak_temperature(d: &mut Decide, cap: &HotCap) {
    let limit = d.design.limits.peak_temperature_k.value;
    if cap.temperature_k > limit {
        d.refuse(
            "swept::limit",
            "hot_end.temperature",
            format!("the hot end at {:.0} °C is over limits.peak_temperature", cap.temperature_k - 273.15),
            format!("up to {:.0} °C", limit - 273.15),
            "lower hot_end.temperature, or raise the limit if the material of the hot cap allows it".into(),
        );
    }
}

/// Heights of the displacer's cylinder on its gasket \[mm\].
pub fn stack(cold: &ColdCylinder, between: Between) -> Stack {
    let cold_top = between.cold_mm + cold.length_mm;
    Stack { cold_low_mm: between.cold_mm, cold_top_mm: cold_top, cap_low_mm: cold_top + between.hot_mm }
}
