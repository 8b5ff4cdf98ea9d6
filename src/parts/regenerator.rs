//! Regenerator on the displacer: the sleeve as wound, and the strip to cut for it. Lengths in millimetres.

use super::kit::{made, named};
use super::part::Part;
use crate::design::RegeneratorKind;
use crate::shape::Point2;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::regenerator::Annulus;

/// Longest strip that still lies on a sheet as it is sold for a bench \[mm\]; common practice, no source.
const LONGEST_MM: f64 = 450.0;

/// Sleeve and strip of a regenerator on the displacer; none without one.
pub fn parts(e: &Engine) -> Vec<Part> {
    let wind = "Wind tight round the displacer, tie with wire of the same metal at both ends and in the middle, twist the ends flat.";
    e.displacer.regenerator.as_ref().map_or_else(Vec::new, |r| pair(e, r, wind))
}

/// Sleeve and strip of a regenerator, with how it is wound.
pub fn pair(e: &Engine, r: &Annulus, wind: &str) -> Vec<Part> {
    vec![sleeve(e, r, wind), strip(e, r)]
}

/// The sleeve: a ring that holds the place of the matrix. Datum z = 0 is its cold end.
fn sleeve(e: &Engine, r: &Annulus, wind: &str) -> Part {
    let (inner, outer) = (0.5 * r.inner_mm, 0.5 * r.inner_mm + r.thickness_mm);
    let profile = vec![
        named(inner, 0.0, Tag::new("cold-end")),
        named(outer, 0.0, Tag::new("outside-diameter").limits(0.0, -0.2).origin("displacer.gap")),
        named(outer, r.length_mm, Tag::new("length").origin("regenerator.length")),
        named(inner, r.length_mm, Tag::new("inside-diameter").origin("regenerator.thickness")),
    ];
    let recipe = Recipe { body: Body::Turned(profile), features: Vec::new() };
    let mut part = made("regenerator", "Regenerator, as wound", &r.material, recipe)
        .note(&winding(r, grams(e, r)))
        .note(wind)
        .note(&format!("{:.0} % of it are free; {:.0} % of the gas go past it at the set clearance.", 100.0 * r.porosity, 100.0 * r.bypass()))
        .caution("Loose wire ends catch in the cylinder and cut fingers: gloves. Burn oil off outdoors before use.");
    // the solid holds the place of metal and gas together
    part.material.filled = 1.0 - r.porosity;
    part
}

/// How the strip is cut and wound on.
fn cut(r: &Annulus, pieces: usize, all: f64) -> String {
    let stuff = match r.kind {
        RegeneratorKind::Mesh => "Of woven wire mesh, not of foil or plain sheet: cut along the wires.",
        RegeneratorKind::Foil => "Of plain foil.",
        _ => "Of wool.",
    };
    let how = match pieces {
        1 => "One piece".to_owned(),
        n => format!(
            "{n} pieces, {all:.0} mm in all, wound one after the other, end against end without a lap"
        ),
    };
    format!("The regenerator before winding. {stuff} {how}; trim the last end when it is wound full.")
}

fn winding(r: &Annulus, grams: f64) -> String {
    let [length, width] = r.blank_mm();
    match r.kind {
        RegeneratorKind::Wool => {
            format!("Wool of {} mm fibre, {:.0} g, packed evenly over {width:.1} mm.", r.wire_mm, grams)
        }
        RegeneratorKind::Foil => format!(
            "{} layers of foil {} mm, {width:.1} mm wide, {length:.0} mm long in all; dimples keep {:.2} mm between layers.",
            r.layers,
            r.wire_mm,
            r.pitch_mm - r.wire_mm
        ),
        _ => format!(
            "{} layers of woven mesh, wire {} mm, {:.2} mm from wire to wire, {width:.1} mm wide, {length:.0} mm long in all.",
            r.layers, r.wire_mm, r.pitch_mm
        ),
    }
}

/// Mass of the metal.
fn grams(e: &Engine, r: &Annulus) -> f64 {
    super::kit::material(&e.catalogue, &r.material).density_kg_m3 * r.metal_mm3() * 1e-6
}

/// The strip before winding: as one piece, or as equal pieces where that is too long to handle, wound one after the other.
fn strip(e: &Engine, r: &Annulus) -> Part {
    let [all, width] = r.blank_mm();
    let pieces = (all / LONGEST_MM).ceil().max(1.0) as usize;
    let length = ((all / pieces as f64) * 10.0).round() / 10.0;
    let sheet = match r.kind {
        RegeneratorKind::Mesh => crate::sizing::regenerator::MESH_WIRES * r.wire_mm,
        RegeneratorKind::Foil => r.wire_mm,
        _ => r.thickness_mm,
    };
    let outline = Outline::Rectangle {
        low: Point2::new(0.0, 0.0),
        high: Point2::new(length, width),
        corner: 0.0,
        tags: [
            Tag::new("length").origin("regenerator.layers"),
            Tag::new("width").origin("regenerator.length"),
        ],
    };
    let body = Body::Plate { outline, thickness: sheet, tag: Tag::new("sheet").origin("regenerator.wire") };
    let mut part =
        made("regenerator-strip", "Regenerator strip", &r.material, Recipe { body, features: Vec::new() })
            .flat()
            .times(pieces)
            .note(&cut(r, pieces, all))
            .note(&winding(r, grams(e, r)));
    if r.kind != RegeneratorKind::Foil {
        part.material.filled = 1.0 - r.porosity;
    }
    part
}
