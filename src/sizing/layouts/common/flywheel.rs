//! The flywheel on the piston's crank.

use crate::catalogue::materials::materials;
use crate::sizing::decide::Decide;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{Drive, Flywheel};
use crate::sizing::volumes::circle_mm2;

const PLAIN: &str = "common practice, no source";

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
    Flywheel { diameter_mm, width_mm: None, mass_kg, inertia_kg_m2 }
}

/// Decides the flywheel: ring of density ρ and width b, m = ρ b π (R² − r²), J = m (R² + r²) / 2 (closed forms of any
/// handbook); spokes and hub are not counted. The drive is `wide_mm` wide for the reason of `wide_path`.
pub fn size(d: &mut Decide, drive: &Drive, wide_mm: f64, wide_path: &str) -> Flywheel {
    let design = d.design;
    let wheel = &design.flywheel;
    let diameter_mm = diameter(d, drive, wide_mm, wide_path);
    if let Some(inertia) = &wheel.inertia_kg_m2 {
        return own(d, diameter_mm, inertia);
    }
    let width_mm = d.mm("flywheel.width", &wheel.width_mm);
    let rim_mm = wheel.rim_mm.as_ref().map(|rim| d.mm("flywheel.rim_thickness", rim));
    let radius = 0.5 * diameter_mm;
    let hole = rim_mm.map_or(0.0, |rim| radius - rim);
    if hole < 0.0 {
        d.refuse(
            "swept::range",
            "flywheel.rim_thickness",
            format!("a rim of this thickness is more than the wheel's radius of {radius:.1} mm"),
            format!("up to {radius:.1} mm"),
            "leave flywheel.rim_thickness out for a plain disc, or enlarge flywheel.diameter".into(),
        );
    }
    let stuff = d
        .look_up("flywheel.material", d.design.catalogue.material(&wheel.material.value))
        .unwrap_or(&materials()[0]);
    let volume_mm3 = width_mm * (circle_mm2(diameter_mm) - circle_mm2(2.0 * hole));
    let mut sizes = vec!["flywheel.diameter", "flywheel.width"];
    sizes.extend(rim_mm.map(|_| "flywheel.rim_thickness"));
    let mass_kg = d.rule_in(
        "flywheel.mass",
        volume_mm3 * 1e-9 * stuff.density_kg_m3,
        Unit::Kilogram,
        (format!("pi (R^2 - r^2) width x density of {}", stuff.name).as_str(), "plain geometry"),
        &sizes,
    );
    sizes.push("flywheel.mass");
    let inertia_kg_m2 = d.rule_in(
        "flywheel.inertia",
        0.5 * mass_kg * (radius * radius + hole * hole) * 1e-6,
        Unit::KilogramSquareMetre,
        "mass x (R^2 + r^2) / 2",
        &sizes,
    );
    Flywheel { diameter_mm, width_mm: Some(width_mm), mass_kg, inertia_kg_m2 }
}
