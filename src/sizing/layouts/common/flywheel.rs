//! The flywheel on the piston's crank: a disc on a hub, with holes between hub and rim where a rim is asked for.

use super::hub;
use crate::catalogue::materials::{Material, materials};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{Drive, Flywheel, Hub, Lightening, MadeWheel};
use crate::sizing::volumes::circle_mm2;
use std::f64::consts::PI;

const PLAIN: &str = "common practice, no source";
/// Metal between hub, holes and rim, and between two holes, over the diameter of a hole; common practice, no source.
const BETWEEN: f64 = 0.15;
/// Holes at most.
const MOST_HOLES: usize = 8;
/// Least hole worth its work \[mm\].
const LEAST_HOLE_MM: f64 = 10.0;
/// Disc beyond which the screws' heads are sunk \[mm\], and the metal that is left under them.
const SINK_MM: [f64; 2] = [25.0, 10.0];
/// Warmest that a wheel gets \[°C\]; it runs beside the cold end.
const WARM_C: f64 = 50.0;
/// Stress at the edge of a hole over that beside it: 3 in a wide plate (G. Kirsch, 1898).
const AT_A_HOLE: f64 = 3.0;
/// (3 + ν)/4 with ν = 0.3: stress at a small bore of a turning disc over ρ v² (S. Timoshenko, Strength of Materials II,
/// rotating disks).
const AT_A_BORE: f64 = 0.825;

/// Diameter \[mm\]: given, or about as large as the drive is wide.
fn diameter(d: &mut Decide, drive: &Drive, wide_mm: f64, wide_path: &str) -> f64 {
    let design = d.design;
    let longest = drive.piston.throw_mm.max(drive.displacer.throw_mm);
    d.open_mm(
        "flywheel.diameter",
        &design.flywheel.diameter_mm,
        ("as large as the drive, at least eight throws", PLAIN),
        &["drive.piston_throw", "drive.displacer_throw", wide_path],
        (8.0 * longest).max(wide_mm),
    )
}

/// A wheel that the builder has: its inertia, and its mass or that of a plain disc.
fn own(d: &mut Decide, diameter_mm: f64, inertia: &crate::design::Setting<f64>) -> Flywheel {
    let design = d.design;
    let inertia_kg_m2 = d.setting("flywheel.inertia", inertia, Unit::KilogramSquareMetre);
    let radius_m = 0.5e-3 * diameter_mm;
    let mass_kg = match &design.flywheel.mass_kg {
        Some(given) => d.setting("flywheel.mass", given, Unit::Kilogram),
        None => d.rule_in(
            "flywheel.mass",
            2.0 * inertia_kg_m2 / (radius_m * radius_m),
            Unit::Kilogram,
            "2 inertia / radius^2, a plain disc",
            &["flywheel.inertia", "flywheel.diameter"],
        ),
    };
    Flywheel { diameter_mm, mass_kg, inertia_kg_m2, made: None }
}

/// Holes between a hub and a rim \[mm\]: as large as the web allows, as many as fit; `None` where there is no room.
fn lightening(hub_mm: f64, rim_mm: f64) -> Option<Lightening> {
    let web = 0.5 * (rim_mm - hub_mm);
    let diameter_mm = (web / (1.0 + 2.0 * BETWEEN)).floor();
    let circle_mm = 0.5 * (rim_mm + hub_mm);
    // chord between two holes: circle × sin(π/n)
    let apart = |n: &usize| circle_mm * (PI / *n as f64).sin() >= (1.0 + BETWEEN) * diameter_mm;
    let count = (3..=MOST_HOLES).rev().find(apart)?;
    (diameter_mm >= LEAST_HOLE_MM).then_some(Lightening { count, diameter_mm, circle_mm })
}

/// Holes as the rim asks for them.
fn holes(d: &mut Decide, diameter: f64, hub: &Hub) -> Option<Lightening> {
    let rim = d.design.flywheel.rim_mm.as_ref().map(|rim| d.mm("flywheel.rim_thickness", rim))?;
    let radius = 0.5 * diameter;
    if rim > radius {
        d.refuse(
            "swept::range",
            "flywheel.rim_thickness",
            format!("a rim of this thickness is more than the wheel's radius of {radius:.1} mm"),
            format!("up to {radius:.1} mm"),
            "leave flywheel.rim_thickness out for a plain disc, or enlarge flywheel.diameter".into(),
        );
    }
    let found = lightening(hub.flange_mm[0], diameter - 2.0 * rim)?;
    let sizes = ["flywheel.diameter", "flywheel.rim_thickness", "flywheel.hub_flange_diameter"];
    d.rule(
        "flywheel.hole_diameter",
        found.diameter_mm,
        ("way from hub to rim / 1.3, to whole mm below", PLAIN),
        &sizes,
    );
    d.rule("flywheel.hole_circle", found.circle_mm, "half way between hub and rim", &sizes);
    d.rule_in(
        "flywheel.holes",
        found.count as f64,
        Unit::Count,
        ("as many as leave 0.15 holes of metal between two, up to 8", PLAIN),
        &["flywheel.hole_diameter", "flywheel.hole_circle"],
    );
    Some(found)
}

/// Volume over width \[mm²\] and polar moment of area \[mm⁴\] of a disc with its holes and its bore.
fn section(diameter: f64, bore: f64, holes: Option<&Lightening>) -> [f64; 2] {
    let polar = |d: f64| circle_mm2(d) * d * d / 8.0;
    let mut all = [circle_mm2(diameter) - circle_mm2(bore), polar(diameter) - polar(bore)];
    if let Some(h) = holes {
        let (n, one) = (h.count as f64, circle_mm2(h.diameter_mm));
        all[0] -= n * one;
        all[1] -= n * (polar(h.diameter_mm) + one * (h.circle_mm / 2.0).powi(2));
    }
    all
}

/// Speed at which the greatest stress of the wheel is what its material may carry for good \[rpm\]: ρ v² in a thin ring, that
/// at the bore of a disc, three times as much at the edge of a hole.
fn fastest(d: &mut Decide, stuff: &Material, diameter: f64, with_holes: bool) -> f64 {
    let (share, what) = if with_holes {
        (AT_A_HOLE, "thin ring rho v^2, times 3 at a hole")
    } else {
        (AT_A_BORE, "bore of a disc, 0.825 rho v^2")
    };
    let allowed_pa = stuff.allowable_mpa(WARM_C).unwrap_or(0.0) * 1e6;
    let rim_m_s = (allowed_pa / (share * stuff.density_kg_m3)).sqrt();
    d.rule_in(
        "flywheel.fastest_speed",
        rounded_down(rim_m_s / (PI * diameter * 1e-3) * 60.0),
        Unit::Rpm,
        (
            format!("allowable stress of {} reached: {what}", stuff.name).as_str(),
            "Timoshenko, Strength of Materials II; Kirsch 1898",
        ),
        &["flywheel.diameter"],
    )
}

/// A speed rounded down to three digits: it is a limit from a rule, not a measured number.
fn rounded_down(rpm: f64) -> f64 {
    let step = 10_f64.powi(rpm.max(1.0).log10().floor() as i32 - 2);
    (rpm / step).floor() * step
}

/// Decides the flywheel: m = ρ b A and J = ρ b I_p of a disc less its holes (closed forms of any handbook); the hub counts
/// with what else turns. The drive is `wide_mm` wide for the reason of `wide_path`.
pub fn size(d: &mut Decide, drive: &Drive, wide_mm: f64, wide_path: &str) -> Flywheel {
    let design = d.design;
    let wheel = &design.flywheel;
    let diameter_mm = diameter(d, drive, wide_mm, wide_path);
    if let Some(inertia) = &wheel.inertia_kg_m2 {
        return own(d, diameter_mm, inertia);
    }
    let width_mm = d.mm("flywheel.width", &wheel.width_mm);
    let grip_mm = if width_mm > SINK_MM[0] { SINK_MM[1] } else { width_mm };
    let hub = hub::size(d, "flywheel", drive.journal_bearing.bore_mm, diameter_mm, grip_mm);
    if hub.flange_mm[0] + 4.0 > diameter_mm {
        d.refuse(
            "swept::range",
            "flywheel.diameter",
            format!("the wheel is not larger than its hub of {} mm", hub.flange_mm[0]),
            format!("{} mm or more", round_up(hub.flange_mm[0] + 4.0, 1.0)),
            "enlarge flywheel.diameter, or give flywheel.inertia of a wheel that you have".into(),
        );
    }
    let holes = holes(d, diameter_mm, &hub);
    let stuff = d
        .look_up("flywheel.material", d.design.catalogue.material(&wheel.material.value))
        .unwrap_or(&materials()[0]);
    let [area, polar] = section(diameter_mm, hub.spigot_mm[0], holes.as_ref());
    let mut sizes = vec!["flywheel.diameter", "flywheel.width", "flywheel.hub_spigot_diameter"];
    if holes.is_some() {
        sizes.extend(["flywheel.holes", "flywheel.hole_diameter", "flywheel.hole_circle"]);
    }
    let mass_kg = d.rule_in(
        "flywheel.mass",
        area * width_mm * 1e-9 * stuff.density_kg_m3,
        Unit::Kilogram,
        (
            format!("area of the disc less its holes x width x density of {}", stuff.name).as_str(),
            "plain geometry",
        ),
        &sizes,
    );
    let inertia_kg_m2 = d.rule_in(
        "flywheel.inertia",
        polar * width_mm * 1e-15 * stuff.density_kg_m3,
        Unit::KilogramSquareMetre,
        (format!("polar moment of that area x width x density of {}", stuff.name).as_str(), "plain geometry"),
        &sizes,
    );
    let with_holes = holes.is_some() || design.drive.balance.is_some();
    let fastest_rpm = fastest(d, stuff, diameter_mm, with_holes);
    let material = stuff.name.clone();
    Flywheel {
        diameter_mm,
        mass_kg,
        inertia_kg_m2,
        made: Some(MadeWheel { width_mm, grip_mm, holes, balance: None, hub, fastest_rpm, material }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: disc of 200 mm with four holes of 40 mm on 120 mm and no bore. I_p = π 200⁴/32 − 4 (π 40⁴/32 + π 20² 60²).
    #[test]
    fn a_disc_with_holes_of_a_hand_calculation() {
        let holes = Lightening { count: 4, diameter_mm: 40.0, circle_mm: 120.0 };
        let [area, polar] = section(200.0, 0.0, Some(&holes));
        assert!((area - PI * (100.0_f64.powi(2) - 4.0 * 400.0)).abs() < 1e-6);
        let hand = PI * 200.0_f64.powi(4) / 32.0 - 4.0 * (PI * 40.0_f64.powi(4) / 32.0 + PI * 400.0 * 3600.0);
        assert!((polar / hand - 1.0).abs() < 1e-12, "{polar}");
    }

    #[test]
    fn holes_leave_metal_on_all_sides() {
        for (hub, rim) in [(40.0, 180.0), (30.0, 70.0), (45.0, 400.0)] {
            let h = lightening(hub, rim).unwrap();
            let apart = h.circle_mm * (PI / h.count as f64).sin() - h.diameter_mm;
            assert!(apart >= 0.14 * h.diameter_mm, "{h:?}");
            assert!(
                h.circle_mm - h.diameter_mm > hub + 2.0 && h.circle_mm + h.diameter_mm < rim - 2.0,
                "{h:?}"
            );
        }
        assert_eq!(lightening(40.0, 60.0), None);
    }
}
