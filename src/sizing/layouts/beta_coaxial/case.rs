//! Crankcase, its end plates with bearings and shaft seal, and the power cylinder that stands on it.

use super::strength::{bolts, plate_mm};
use super::{Case, Cylinder, Shaft, ShaftRing};
use crate::catalogue::orings;
use crate::catalogue::threads::{Thread, port_thread, thread, threads};
use crate::design::ROOM_PA;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{BoltCircle, ColdCylinder, Drive, Flywheel, Piston};
use crate::sizing::layouts::common::base::Stand;
use crate::sizing::layouts::common::gland::{application, ring};
use crate::sizing::layouts::common::joints::{screw, tapped_room};
use crate::sizing::layouts::common::shaft_end::Standing;
use crate::sizing::losses::shaft_seal::FASTEST_M_S;
use crate::sizing::volumes::circle_mm2;
use std::f64::consts::PI;

const COMMON: &str = "common practice, no source";
/// Room between the end plates and the base \[mm\]; common practice, no source.
const BASE_ROOM_MM: f64 = 1.0;
/// How deep the power cylinder stands in the crankcase \[mm\]; common practice, no source.
const SPIGOT_MM: f64 = 5.0;
/// Gasket inside the screws \[mm\]; common practice, no source.
const LAND_MM: f64 = 4.0;

/// Circle of screws outside a bore \[mm\].
fn circle_around(bore: f64, t: &Thread) -> f64 {
    round_up(bore + 2.0 * LAND_MM + t.clearance_medium_mm, 1.0)
}

/// A screw through `through` \[mm\] that bites two diameters, from the standard lengths.
fn screw_length(d: &mut Decide, path: &str, t: &Thread, through: f64, inputs: &[&str]) -> f64 {
    let needed = through + 2.0 * t.major_mm;
    let length = d.design.catalogue.cap_screw_at_least(t, needed).unwrap_or_else(|| round_up(needed, 5.0));
    d.rule(path, length, ("next standard length (ISO 4762) over grip + 2 diameters", "from memory"), inputs)
}

/// Seal of the shaft.
fn seal(d: &mut Decide, shaft: f64) -> Option<ShaftRing> {
    let design = d.design;
    let section = design.seals.rod_ring_section_mm.value;
    let gland = d.look_up(
        "seals.rod_ring_section",
        orings::gland(section, application(d).unwrap_or(orings::Application::ReciprocatingPneumatic)),
    )?;
    let groove = d.rule(
        "seal.groove_diameter",
        shaft + 2.0 * gland.depth_mm(),
        (
            "shaft + 2 gland depth: up to 200 ft/min the gland of a moving rod",
            "a maker's handbook of O-rings, rotary glands",
        ),
        &["drive.journal_bearing", "seals.rod_ring_section"],
    );
    let width =
        d.standard("seal.groove_width", gland.width_mm, "ISO 3601-2", "groove width of a moving seal");
    let speed = PI * 1e-3 * shaft * design.targets.speed_rpm.value / 60.0;
    d.rule_in(
        "seal.surface_speed",
        speed,
        Unit::MetreASecond,
        "pi x shaft x speed",
        &["drive.journal_bearing"],
    );
    if speed > FASTEST_M_S {
        d.refuse(
            "swept::range",
            "targets.speed",
            format!("the shaft runs at {speed:.2} m/s in its O-ring"),
            format!("up to {FASTEST_M_S:.2} m/s"),
            "take a smaller drive.journal_bearing or a lower targets.speed".into(),
        );
    }
    let screw = thread("M3").unwrap_or(&threads()[0]);
    let circle = d.rule(
        "seal.cap_circle",
        round_up(groove + screw.clearance_medium_mm + 3.0, 0.5),
        ("groove + hole + 3 mm, to the next 0.5 mm", COMMON),
        &["seal.groove_diameter"],
    );
    let cap = d.rule(
        "seal.cap_diameter",
        circle + 2.2 * screw.major_mm,
        ("circle + 2.2 screw diameters", COMMON),
        &["seal.cap_circle"],
    );
    Some(ShaftRing {
        groove_mm: [groove, width],
        oring: ring(d, section, shaft),
        cap_mm: [cap, 4.0],
        screws: BoltCircle { thread: screw, diameter_mm: circle, count: 3, first_deg: 90.0, screw_mm: 10.0 },
    })
}

/// Pressure that crankcase and cylinder must bear \[Pa\], over that of the room.
fn design_pressure(d: &mut Decide) -> f64 {
    let design = d.design;
    let (limit, charge) = (&design.limits.peak_pressure_pa, &design.engine.charge_pressure_pa);
    d.setting("limits.peak_pressure", limit, Unit::Pascal);
    if charge.value >= limit.value {
        d.refuse(
            "swept::limit",
            "limits.peak_pressure",
            format!(
                "a charge of {:.2} bar abs is at the limit already, and the cycle swings above it",
                charge.value / 1e5
            ),
            format!("more than {:.2} bar abs", charge.value / 1e5),
            "raise limits.peak_pressure, or lower engine.charge_pressure".into(),
        );
    }
    d.rule_in(
        "case.design_pressure",
        limit.value - ROOM_PA,
        Unit::Pascal,
        "the highest pressure that the design allows, over that of the room",
        &["limits.peak_pressure"],
    )
}

/// Lower flange of the cylinder (diameter, thickness \[mm\]) and its screws, around a tube of `outer` \[mm\].
fn cylinder_flange(
    d: &mut Decide,
    t: &'static Thread,
    outer: f64,
    gasket: f64,
    design_pa: f64,
) -> ([f64; 2], BoltCircle) {
    let case_circle = d.rule(
        "case.cylinder_circle",
        circle_around(outer, t),
        ("spigot + 2 x 4 mm of gasket + hole, to the next mm", COMMON),
        &["cylinder.diameter", "joints.power_screw"],
    );
    let flange = [case_circle + 3.0 * t.major_mm, 2.0 * t.major_mm];
    d.rule(
        "cylinder.flange_diameter",
        flange[0],
        ("circle + 3 screw diameters", "edge rule, common practice, no source"),
        &["case.cylinder_circle"],
    );
    d.rule("cylinder.flange_thickness", flange[1], ("2 screw diameters", COMMON), &["joints.power_screw"]);
    let count = bolts(d, "case.cylinder_screws", t, case_circle, design_pa);
    let long = screw_length(
        d,
        "case.cylinder_screw_length",
        t,
        flange[1] + gasket,
        &["cylinder.flange_thickness", "joints.gasket_thickness"],
    );
    let screws = BoltCircle {
        thread: t,
        diameter_mm: case_circle,
        count,
        first_deg: 180.0 / count as f64,
        screw_mm: long,
    };
    (flange, screws)
}

/// End plates (diameter, thickness \[mm\]) over a bore \[mm\], their screws, and the seal of the shaft.
fn end_plates(
    d: &mut Decide,
    t: &'static Thread,
    [bore, shaft]: [f64; 2],
    gasket: f64,
    design_pa: f64,
) -> ([f64; 2], BoltCircle, ShaftRing) {
    let plate_circle = d.rule(
        "case.plate_circle",
        circle_around(bore, t),
        ("bore + 2 x 4 mm of gasket + hole, to the next mm", COMMON),
        &["case.bore", "joints.power_screw"],
    );
    let plate_diameter = d.rule(
        "case.plate_diameter",
        plate_circle + 3.0 * t.major_mm,
        ("circle + 3 screw diameters", "edge rule, common practice, no source"),
        &["case.plate_circle"],
    );
    let seal =
        seal(d, shaft).unwrap_or_else(|| unreachable!("sections without a groove are refused on reading"));
    let plate = plate_mm(d, design_pa, plate_circle, (seal.groove_mm[1] + 8.0).max(2.0 * t.major_mm));
    let plate_count = bolts(d, "case.plate_screws", t, plate_circle, design_pa);
    let plate_long = screw_length(
        d,
        "case.plate_screw_length",
        t,
        plate + gasket,
        &["case.plate_thickness", "joints.gasket_thickness"],
    );
    let screws = BoltCircle {
        thread: t,
        diameter_mm: plate_circle,
        count: plate_count,
        first_deg: 0.0,
        screw_mm: plate_long,
    };
    ([plate_diameter, plate], screws, seal)
}

/// Crankcase and power cylinder; `crown` \[mm\] is how high the crown rises.
pub fn size(
    d: &mut Decide,
    piston: &Piston,
    drive: &Drive,
    shaft: &Shaft,
    cold: &ColdCylinder,
    [crown, gasket]: [f64; 2],
) -> (Case, Cylinder) {
    let design = d.design;
    let design_pa = design_pressure(d);
    let t = screw(d, "joints.power_screw", &design.joints.power_screw);
    let wall = d.mm("block.wall", &design.block.wall_mm);
    let outer = d.rule(
        "cylinder.diameter",
        piston.bore_mm + 2.0 * wall,
        "bore + 2 walls",
        &["piston.bore", "block.wall"],
    );
    let bore = d.rule(
        "case.bore",
        round_up(
            (outer + 8.0)
                .max(2.0 * (drive.piston.throw_mm.max(drive.displacer.throw_mm) + drive.eye_r_mm[0] + 2.0)),
            1.0,
        ),
        ("8 mm wider than the cylinder that stands in it, and clear of the crank, to the next mm", COMMON),
        &["cylinder.diameter", "drive.piston_throw", "drive.displacer_throw", "drive.big_eye_radius"],
    );
    let (flange, cylinder_screws) = cylinder_flange(d, t, outer, gasket, design_pa);
    let journal = drive.journal_bearing.bore_mm;
    let (plate_mm, plate_screws, seal) = end_plates(d, t, [bore, journal], gasket, design_pa);
    let half = d.rule(
        "case.half_width",
        round_up(plate_mm[0] / 2.0, 0.5),
        "as wide as the end plates, to the next 0.5 mm",
        &["case.plate_diameter"],
    );
    let low = d.rule(
        "case.height_below_crank",
        half + BASE_ROOM_MM,
        ("half width + 1 mm: the end plates clear the base", COMMON),
        &["case.half_width"],
    );
    let deep = tapped_room(t, cylinder_screws.screw_mm - flange[1] - gasket + 1.0);
    let top = d.rule(
        "case.height_above_crank",
        round_up(plate_screws.diameter_mm / 2.0 + t.major_mm / 2.0 + deep, 0.5),
        ("the cylinder's threads end above those of the end plates, to the next 0.5 mm", COMMON),
        &["case.plate_circle", "case.cylinder_screw_length"],
    );
    let least = 2.0 * (shaft.reach_mm + shaft.shim_mm + drive.journal_bearing.width_mm);
    let length = d.rule(
        "case.length",
        round_up(flange[0].max(least), 1.0),
        ("as long as the cylinder's flange is wide, or as shaft and bearings are, to the next mm", COMMON),
        &["cylinder.flange_diameter", "shaft.reach", "drive.journal_bearing"],
    );
    let port = port_thread("G1/8").or_else(|_| port_thread("M10"));
    let port = port.unwrap_or_else(|_| unreachable!("in the catalogue"));
    let foot = thread("M6").unwrap_or(t);
    let low_z = cylinder_low(d, piston, drive, top, crown);
    let gas_mm3 = gas(d, piston, drive, (bore, length), (outer, top));
    let case = Case {
        bore_mm: bore,
        length_mm: length,
        half_mm: half,
        rise_mm: [top, low],
        opening_mm: outer,
        plate_mm,
        plate_screws,
        hub_mm: [drive.journal_bearing.outer_mm + 10.0, shaft.reach_mm + shaft.shim_mm],
        port,
        port_y_mm: 0.2 * length,
        foot,
        foot_xy_mm: [half - 2.0 * foot.major_mm, 0.35 * length],
        design_pa,
        gas_mm3,
        seal,
        material: design.block.material.value.to_string(),
    };
    let cylinder = Cylinder {
        outer_mm: outer,
        top_flange_mm: cold.flange_mm,
        low_z_mm: low_z,
        flange_mm: flange,
        screws: cylinder_screws,
    };
    room_for_keys(d, &cylinder, cold, drive.crank_z_mm + top + gasket);
    (case, cylinder)
}

/// Lower end of the power cylinder in the engine frame \[mm\]: below the skirt at the bottom of the stroke, and inside
/// the case by its spigot.
fn cylinder_low(d: &mut Decide, piston: &Piston, drive: &Drive, top: f64, crown: f64) -> f64 {
    let skirt = crown - piston.stroke_mm - piston.length_mm;
    let spigot = drive.crank_z_mm + top - SPIGOT_MM;
    d.rule(
        "piston.bottom_clearance",
        (skirt - spigot).max(0.0),
        "skirt above the cylinder's lower end at the bottom of the stroke",
        &["piston.stroke", "piston.length", "piston.crown_rise"],
    );
    let length = round_up(-skirt.min(spigot), 0.5);
    d.rule(
        "cylinder.length",
        length,
        (
            "to the skirt at the bottom of the stroke, at least 5 mm into the crankcase, to the next 0.5 mm",
            COMMON,
        ),
        &[
            "piston.crown_rise",
            "piston.stroke",
            "piston.length",
            "drive.crank_height",
            "case.height_above_crank",
        ],
    );
    -length
}

/// Gas in the crankcase with the piston in the middle \[mm³\], crank and yoke taken off by a quarter; and how much its
/// pressure swings.
fn gas(
    d: &mut Decide,
    piston: &Piston,
    drive: &Drive,
    (bore, length): (f64, f64),
    (outer, top): (f64, f64),
) -> f64 {
    let opening = circle_mm2(outer) * (top - bore / 2.0);
    let under = circle_mm2(piston.bore_mm) * (piston.stroke_mm / 2.0).max(0.0);
    let gas = d.rule_in(
        "case.gas_volume",
        0.75 * (circle_mm2(bore) * length + opening) + under,
        Unit::CubicMillimetre,
        ("three quarters of bore and opening, and half the piston's sweep", COMMON),
        &["case.bore", "case.length", "cylinder.diameter", "piston.stroke"],
    );
    let swept = circle_mm2(piston.bore_mm) * 2.0 * drive.piston.throw_mm;
    let share = d.rule_in(
        "case.swept_share",
        swept / gas,
        Unit::Ratio,
        "volume swept by the piston / gas in the crankcase",
        &["piston.bore", "piston.stroke", "case.gas_volume"],
    );
    if share > 0.5 {
        d.refuse(
            "swept::range",
            "piston.stroke",
            format!(
                "the piston sweeps {:.0} % of the gas in the crankcase, whose pressure is taken as constant",
                100.0 * share
            ),
            "half of it at the most".into(),
            "take a shorter piston.stroke or a smaller piston.bore".into(),
        );
    }
    gas
}

/// Screws of both flanges of the cylinder go in between them.
fn room_for_keys(d: &mut Decide, c: &Cylinder, cold: &ColdCylinder, flange_z: f64) {
    let free = -c.top_flange_mm - (flange_z + c.flange_mm[1]);
    let needed = c.screws.screw_mm.max(2.0 * c.screws.thread.major_mm + cold.flange_mm)
        + c.screws.thread.head_height_mm
        + 2.0;
    d.rule(
        "cylinder.between_flanges",
        free,
        "room between both flanges",
        &["cylinder.length", "cylinder.flange_thickness", "cold_end.flange_thickness"],
    );
    if free < needed {
        d.refuse(
            "swept::range",
            "piston.length",
            format!(
                "between the flanges of the power cylinder are {free:.1} mm, too little for screws and key"
            ),
            format!("{needed:.1} mm or more"),
            "take a longer piston.length or drive.con_rod_length".into(),
        );
    }
}

/// How the case stands on its base, `wheel_mm` \[mm\] before the flywheel.
pub fn stand(case: &Case, crank_z: f64, gasket: f64, wheel_mm: f64, wheel: &Flywheel) -> Stand {
    let ([x, y], long) = (case.foot_xy_mm, case.length_mm / 2.0);
    Stand {
        edge_x_mm: [-case.half_mm, case.half_mm],
        edge_y_mm: [-long, long],
        edge_z_mm: crank_z - case.rise_mm[1],
        deep_mm: case.rise_mm[1] - (0.25 * case.bore_mm * case.bore_mm - x * x).max(0.0).sqrt() - 1.0,
        screw: case.foot,
        screws_mm: [[-x, -y], [x, -y], [x, y], [-x, y]],
        front_mm: -case.rear_mm(gasket) - case.heads_mm(),
        covers: ["screws of the front plate", "case.length"],
        wheel_y_mm: wheel_mm,
        wheel_low_mm: crank_z - wheel.diameter_mm / 2.0,
    }
}

/// What stands beside the flywheel: flanges of the power cylinder, the crankcase.
pub fn standing(
    case: &Case,
    cylinder: &Cylinder,
    cold: &ColdCylinder,
    crank_z: f64,
    gasket: f64,
) -> [Standing; 3] {
    [
        Standing { far_mm: -crank_z - cylinder.top_flange_mm, reach_mm: cold.flange_diameter_mm / 2.0 },
        Standing { far_mm: case.rise_mm[0], reach_mm: cylinder.flange_mm[0] / 2.0 },
        Standing { far_mm: 0.0, reach_mm: case.rear_mm(gasket) + case.heads_mm() },
    ]
}
