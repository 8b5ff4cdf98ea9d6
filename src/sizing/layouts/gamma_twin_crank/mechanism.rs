//! The drive: two overhung cranks in one bracket, rods in bushes, a belt between the cranks.

use super::TwinCrank;
use super::envelope::bracket_front_y_mm;
use crate::catalogue::belts::belt_section;
use crate::sizing::engine::{Belt, Engine};
use crate::sizing::layouts::common::guides::{hanging_piston, small_end_mm};
use crate::sizing::losses::belt::BeltDrive;
use crate::sizing::losses::bush::Bush;
use crate::sizing::losses::windage::Disc;
use crate::sizing::mechanism::build::{displacer_line, journals, journals_with_wheel, piston_line};
use crate::sizing::mechanism::masses::{PULLEY, density, hung, kg};
use crate::sizing::mechanism::{Choices, Guide, Guides, Mechanism, MechanismError, Riding, masses};
use crate::sizing::volumes::circle_mm2;

/// Displacer rod in the bushes of back plate and cooler plate.
fn displacer_guides(e: &Engine, own: &TwinCrank, choices: &Choices) -> Guides {
    let guide = Guide::Bush(Bush { friction: choices.bush_friction });
    let bush = own.heights.back_middle_mm();
    Guides {
        lower: guide,
        upper: guide,
        overhang_mm: bush - small_end_mm(e, e.drive.displacer.throw_mm),
        span_mm: -0.5 * e.gland.bush_length_mm - bush,
        riding: Riding::Still,
    }
}

fn belt(b: &Belt, choices: &Choices) -> Option<BeltDrive> {
    let section = belt_section(&b.section).ok()?;
    Some(BeltDrive {
        radius_mm: 0.5 * section.pitch_diameter_mm(b.pulley_teeth),
        width_mm: b.width_mm,
        back_mm: section.thickness_mm - section.tooth_height_mm,
        strand_n: choices.strand_n_mm * b.width_mm,
        tooth_friction: choices.belt_tooth_friction,
    })
}

/// Mass \[kg\] and inertia about its axis \[kg m²\] of discs: diameter and thickness \[mm\].
fn discs(e: &Engine, all: &[[f64; 2]], stuff: &str) -> [f64; 2] {
    let one = |[diameter, thick]: &[f64; 2]| {
        let mass = kg(circle_mm2(*diameter) * thick, density(e, stuff));
        [mass, 0.125e-6 * mass * diameter.powi(2)]
    };
    all.iter().map(one).fold([0.0; 2], |sum, d| [sum[0] + d[0], sum[1] + d[1]])
}

/// The same of the piston's pulley.
fn piston_pulley(e: &Engine, b: &Belt) -> [f64; 2] {
    discs(e, &[[b.flange_mm[1], b.face_mm]], PULLEY)
}

/// The same of the displacer's pulley with its hub, both of steel.
fn displacer_pulley(e: &Engine, own: &TwinCrank) -> [f64; 2] {
    let (b, h) = (&own.belt, &own.lead);
    discs(e, &[[b.flange_mm[1], b.face_mm], h.pulley_flange_mm, h.flange_mm, h.boss_mm], "mild-steel")
}

/// The drive of an engine.
///
/// # Errors
/// [`MechanismError`] where a con rod is too short to turn.
pub fn mechanism(e: &Engine, own: &TwinCrank, choices: &Choices) -> Result<Mechanism, MechanismError> {
    let (m, d, plate_mm) = (masses(e), &e.drive, own.cooler.thickness_mm);
    let longest = d.piston.throw_mm.max(d.displacer.throw_mm);
    let [first, second] = [displacer_pulley(e, own), piston_pulley(e, &own.belt)];
    let rear_mm = bracket_front_y_mm(d) + d.bracket_mm;
    let piston_journals = journals_with_wheel(e, m.web_kg + second[0], rear_mm);
    let displacer_journals = journals(e, m.web_kg + first[0]);
    let web_mm = longest + d.web_r_mm[1];
    Ok(Mechanism {
        piston: piston_line(
            e,
            &m,
            hanging_piston(e, &own.heights, plate_mm, choices),
            piston_journals,
            choices,
        )?,
        displacer: displacer_line(e, &m, displacer_guides(e, own, choices), displacer_journals, choices)?,
        lead_deg: d.lead_deg,
        shaft_seal: None,
        belt: belt(&own.belt, choices),
        turning_kg_m2: hung(e).kg_m2 + 2.0 * m.web_kg_m2 + first[1] + second[1],
        discs: [Disc::in_room(0.5 * e.flywheel.diameter_mm), Disc::in_room(web_mm)],
    })
}
