//! Decides the sizes of the piston's seal by its kind.

use super::PistonRing;
use super::bent_ring::BentRing;
use super::closed_gap::Growth;
use super::lip::Lip;
use crate::catalogue::Catalogue;
use crate::catalogue::orings::{Application, gland};
use crate::design::{PistonSeal, Source};
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::dimension::Unit;

/// Room behind a ring or its expander, on the radius \[mm\]; common practice, no source.
const BACK_ROOM_MM: f64 = 0.3;
/// Wall pressure that an expander should give \[MPa\]: 0.01 to 0.05 (from memory), the least for the least friction.
const EXPANDED_MPA: f64 = 0.01;
/// Wall pressure of a metal ring of a light gas engine \[MPa\]: 0.02 to 0.06 (from memory).
const METAL_MPA: f64 = 0.03;
/// Strip of spring steel that is sold \[mm\]; common practice, no source.
const STRIPS_MM: [f64; 9] = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8];
/// Young's modulus of spring steel and of grey iron in rings \[MPa\] (the second seen in a makers' page).
const YOUNGS_MPA: [f64; 2] = [206_000.0, 100_000.0];
/// Bending stress that a spring strip bears for long \[MPa\] (from memory).
const STRIP_STRESS_MPA: f64 = 500.0;
/// How much less high the strip is than its ring \[mm\].
pub const STRIP_PLAY_MM: f64 = 0.2;
/// Ring and bore above the cold end's wall \[K\]; common practice, no source.
const ABOVE_COLD_K: [f64; 2] = [40.0, 20.0];

/// Expansion of a material \[1/K\].
fn expansion(book: &Catalogue, name: &str) -> f64 {
    book.material(name).map_or(12e-6, |m| m.expansion_per_k)
}

/// The material that rings of a kind are made of.
pub fn stuff(kind: PistonSeal) -> &'static str {
    match kind {
        PistonSeal::PtfeRing => "ptfe-carbon",
        PistonSeal::MetalRing => "cast-iron",
        PistonSeal::GraphiteRing => "carbon-graphite",
        PistonSeal::ORing => "nbr",
        PistonSeal::LipRing => "tpu-95a",
        PistonSeal::Fitted => "",
    }
}

/// Growth of ring (or piston) and bore between 20 °C and work.
pub fn growth(d: &Decide, bore_mm: f64, ring: &str) -> Growth {
    let cold = d.design.cold_end.temperature_k.value - 293.15;
    Growth {
        bore_mm,
        ring_per_k: expansion(&d.design.catalogue, ring),
        bore_per_k: expansion(&d.design.catalogue, &d.design.block.material.value),
        ring_rise_k: cold + ABOVE_COLD_K[0],
        bore_rise_k: cold + ABOVE_COLD_K[1],
        gaps: 1,
    }
}

/// The seal of a piston in a bore \[mm\].
pub fn size(d: &mut Decide, bore_mm: f64) -> PistonRing {
    let kind = d.design.piston.seal.value;
    let empty = PistonRing {
        kind,
        count: 0,
        height_mm: 0.0,
        width_mm: 0.0,
        groove_mm: 0.0,
        groove_diameter_mm: bore_mm,
        gap_mm: 0.0,
        gap_hot_mm: 0.0,
        gaps: 0,
        expander_mm: 0.0,
        expander_free_gap_mm: 0.0,
        free_gap_mm: 0.0,
        stress_mpa: 0.0,
        wall_mpa: 0.0,
        lip: None,
        oring: None,
        section_mm: [0.0; 2],
        material: stuff(kind),
    };
    match kind {
        PistonSeal::Fitted => fitted(d, empty),
        PistonSeal::ORing => rubber(d, bore_mm, empty),
        PistonSeal::LipRing => lips(d, bore_mm, empty),
        PistonSeal::PtfeRing | PistonSeal::MetalRing | PistonSeal::GraphiteRing => split(d, bore_mm, empty),
    }
}

/// A piston without rings: rings that the user asked for contradict it.
fn fitted(d: &mut Decide, ring: PistonRing) -> PistonRing {
    if !matches!(d.design.piston.rings.from, Source::Default { .. }) {
        d.refuse(
            "swept::contradiction",
            "piston.rings",
            "a fitted piston has no rings".into(),
            "leave piston.rings out with piston.seal = \"fitted\"".into(),
            "choose another piston.seal, or leave piston.rings out".into(),
        );
    }
    d.rule_in("piston.rings", 0.0, Unit::Count, "none: the piston itself seals", &[]);
    PistonRing { material: "", ..ring }
}

fn count(d: &mut Decide) -> usize {
    let design = d.design;
    d.count("piston.rings", &design.piston.rings)
}

/// Gap cold and hot \[mm\]; `least` \[mm\] is what trade keeps at the least.
fn gaps(d: &mut Decide, bore_mm: f64, ring: &PistonRing, least_mm: f64, step_mm: f64) -> [f64; 2] {
    let design = d.design;
    let g = Growth { gaps: ring.gaps, ..growth(d, bore_mm, ring.material) };
    let inputs = ["piston.bore", "cold_end.temperature"];
    let cold = d.open_mm(
        "piston.ring_gap",
        &design.piston.ring_gap_mm,
        ("growth of ring less that of bore + 0.05 mm, rounded up", "expansion figures from memory"),
        &inputs,
        round_up(g.cold_mm(least_mm), step_mm),
    );
    let hot = d.rule(
        "piston.ring_gap_hot",
        g.hot_mm(cold),
        "gap, cold, less growth of ring more than bore",
        &["piston.ring_gap", "piston.bore", "cold_end.temperature"],
    );
    [cold, hot]
}

/// Strip behind a ring: thickness, free gap, stress, and pressure on the bore. `outer` is what it presses on \[mm\].
fn expander(d: &mut Decide, bore_mm: f64, outer_mm: f64, height_mm: f64) -> [f64; 4] {
    let design = d.design;
    let part = (height_mm - STRIP_PLAY_MM).max(0.1) / height_mm * outer_mm / bore_mm;
    let strip = |t: f64| BentRing { diameter_mm: outer_mm, thickness_mm: t, youngs_mpa: YOUNGS_MPA[0] };
    let bears = |t: f64| strip(t).stress_mpa(strip(t).free_gap_mm(EXPANDED_MPA / part)) <= STRIP_STRESS_MPA;
    let rule = STRIPS_MM.into_iter().find(|t| bears(*t)).unwrap_or(STRIPS_MM[8]);
    let thickness = d.open_mm(
        "piston.expander_thickness",
        &design.piston.expander_thickness_mm,
        (
            "thinnest strip that presses with 0.01 MPa at 500 MPa of bending",
            "thin curved beam; wall pressure from memory",
        ),
        &["piston.bore", "piston.ring_width"],
        rule,
    );
    let own = strip(thickness);
    let most = STRIP_STRESS_MPA / own.stress_mpa(1.0);
    let free = d.rule(
        "piston.expander_free_gap",
        round_near(own.free_gap_mm(EXPANDED_MPA / part).min(most), 0.1),
        ("7.069 p d (d - a)^3 / (E a^3), at 500 MPa at the most", "thin curved beam"),
        &["piston.bore", "piston.ring_width", "piston.expander_thickness"],
    );
    [thickness, free, own.stress_mpa(free), own.wall_mpa(free) * part]
}

/// PTFE, metal, graphite: a ring with gaps.
fn split(d: &mut Decide, bore_mm: f64, ring: PistonRing) -> PistonRing {
    let design = d.design;
    let p = &design.piston;
    let count = count(d);
    let height = d.mm("piston.ring_height", &p.ring_height_mm);
    let (share, step, least) = match ring.kind {
        PistonSeal::MetalRing => (30.0, 0.1, 1.0),
        PistonSeal::GraphiteRing => (16.0, 0.5, 2.5),
        _ => (20.0, 0.5, 1.5),
    };
    let text = format!("bore / {share:.0}, to the nearest {step} mm, at least {least} mm");
    let width = d.open_mm(
        "piston.ring_width",
        &p.ring_width_mm,
        (text.as_str(), "common practice, no source"),
        &["piston.bore"],
        round_near(bore_mm / share, step).max(least),
    );
    let metal = ring.kind == PistonSeal::MetalRing;
    let [strip, strip_free, mut stress, mut wall] =
        if metal { [0.0; 4] } else { expander(d, bore_mm, bore_mm - 2.0 * width, height) };
    let mut free = 0.0;
    if metal {
        [free, stress, wall] = springy(d, bore_mm, width);
    }
    let play = if ring.kind == PistonSeal::PtfeRing { 0.015 * height } else { 0.03 };
    let groove = d.rule(
        "piston.groove_width",
        round_up(height + play, 0.01),
        (
            "ring height + 1.5 % (PTFE) or 0.03 mm, to the next 0.01 mm",
            "side clearance 1.2 to 1.8 % of the height, makers of PTFE compressor rings; 0.02 to 0.05 mm from memory",
        ),
        &["piston.ring_height"],
    );
    let bottom = d.rule(
        "piston.groove_diameter",
        bore_mm - 2.0 * (width + strip + BACK_ROOM_MM),
        "bore - 2 (ring + expander + 0.3 mm)",
        if metal {
            &["piston.bore", "piston.ring_width"]
        } else {
            &["piston.bore", "piston.ring_width", "piston.expander_thickness"]
        },
    );
    // iron and carbon rings keep 0.2 % of the bore (seen in a makers' page)
    let soft = ring.kind == PistonSeal::PtfeRing;
    let ring = PistonRing { gaps: if ring.kind == PistonSeal::GraphiteRing { 3 } else { 1 }, ..ring };
    let [gap, hot] =
        if soft { gaps(d, bore_mm, &ring, 0.0, 0.1) } else { gaps(d, bore_mm, &ring, 0.002 * bore_mm, 0.05) };
    PistonRing {
        count,
        height_mm: height,
        width_mm: width,
        groove_mm: groove,
        groove_diameter_mm: bottom,
        gap_mm: gap,
        gap_hot_mm: hot,
        expander_mm: strip,
        expander_free_gap_mm: strip_free,
        free_gap_mm: free,
        stress_mpa: stress,
        wall_mpa: wall,
        ..ring
    }
}

/// A metal ring: free gap, stress as fitted, wall pressure.
fn springy(d: &mut Decide, bore_mm: f64, width_mm: f64) -> [f64; 3] {
    let own = BentRing { diameter_mm: bore_mm, thickness_mm: width_mm, youngs_mpa: YOUNGS_MPA[1] };
    let free = d.rule(
        "piston.ring_free_gap",
        round_near(own.free_gap_mm(METAL_MPA), 0.1).max(0.1),
        ("7.069 p d (d - a)^3 / (E a^3) with p = 0.03 MPa", "thin curved beam; wall pressure from memory"),
        &["piston.bore", "piston.ring_width"],
    );
    let fitting = own.fitting_stress_mpa(free);
    // 400 MPa while it is slipped on, from memory
    if fitting > 400.0 {
        d.refuse(
            "swept::range",
            "piston.ring_width",
            format!("a metal ring of {width_mm} mm is bent with {fitting:.0} MPa when it is slipped over the piston and breaks"),
            "400 MPa or less".into(),
            format!("take a ring of about {:.1} mm, or piston.seal = \"ptfe-ring\"", bore_mm / 32.0),
        );
    }
    [free, own.stress_mpa(free), own.wall_mpa(free)]
}

/// An O-ring in a groove of the piston.
fn rubber(d: &mut Decide, bore_mm: f64, ring: PistonRing) -> PistonRing {
    let count = count(d);
    // thin sections twist when they slide far (seen as a note to the sizes)
    let wanted = match bore_mm {
        b if b < 20.0 => 1.78,
        b if b < 45.0 => 2.62,
        _ => 3.0,
    };
    let section =
        d.standard("piston.ring_height", wanted, "ISO 3601-1", "section by bore; 3 mm is a trade section");
    let Some(groove) = d.look_up("piston.bore", gland(section, Application::ReciprocatingPneumatic)) else {
        return ring;
    };
    let depth = groove.depth_mm();
    let width = d.rule("piston.ring_width", depth, "depth of the groove, where the bore holds it", &[]);
    let axial = d.standard("piston.groove_width", groove.width_mm, "ISO 3601-2", "groove of a moving seal");
    let bottom = d.rule(
        "piston.groove_diameter",
        bore_mm - 2.0 * depth,
        ("bore - 2 gland depth", "ISO 3601-2"),
        &["piston.bore", "piston.ring_width"],
    );
    let near = d.design.catalogue.ring_nearest(section, 0.98 * bottom);
    let oring = near.map_or_else(|_| format!("{:.1} x {section}", 0.98 * bottom), |r| r.designation.clone());
    let squeeze = 1.0 - depth / section;
    PistonRing {
        count,
        height_mm: section,
        width_mm: width,
        groove_mm: axial,
        groove_diameter_mm: bottom,
        oring: Some(oring),
        section_mm: [section, squeeze],
        ..ring
    }
}

/// A printed ring with two lips back to back.
fn lips(d: &mut Decide, bore_mm: f64, ring: PistonRing) -> PistonRing {
    let design = d.design;
    let count = count(d);
    let lip = Lip::of_bore(bore_mm);
    let height = d.rule(
        "piston.ring_height",
        2.0 * lip.length_mm + 2.0,
        ("two lips and a web of 2 mm", "common practice, no source"),
        &[],
    );
    let width = d.open_mm(
        "piston.ring_width",
        &design.piston.ring_width_mm,
        ("four lip thicknesses", "common practice, no source"),
        &[],
        4.0 * lip.thickness_mm,
    );
    let groove = d.rule("piston.groove_width", height + 0.2, "ring height + 0.2 mm", &["piston.ring_height"]);
    let bottom = d.rule(
        "piston.groove_diameter",
        bore_mm - 2.0 * (width + 0.1),
        "bore - 2 (ring + 0.1 mm)",
        &["piston.bore", "piston.ring_width"],
    );
    d.rule(
        "piston.lip_bend",
        lip.bent_mm,
        ("0.1 mm + 0.2 % of the bore, on the radius", "from memory"),
        &["piston.bore"],
    );
    PistonRing {
        count,
        height_mm: height,
        width_mm: width,
        groove_mm: groove,
        groove_diameter_mm: bottom,
        wall_mpa: lip.line_n_mm() * 2.0 / height,
        lip: Some(lip),
        ..ring
    }
}
