//! Power cylinder block with water jacket.

use super::face_ring;
use super::joints::{Between, design_over_pa, screw, sheet, tightened};
use super::seat::Flange;
use crate::catalogue::threads::port_thread;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{Block, Piston};

/// Metal between jacket and gasket face \[mm\]; common practice, no source.
const DECK_MM: f64 = 8.0;
/// Least way between piston and back plate at the bottom of the stroke \[mm\].
const LEAST_BOTTOM_MM: f64 = 1.0;

/// Block length \[mm\] and the clearance that is left below the piston.
fn length(d: &mut Decide, p: &Piston, between: Between) -> (f64, f64) {
    let design = d.design;
    let used = p.top_clearance_mm + p.stroke_mm + p.length_mm - between.power_mm();
    let two = between.cold_mm > 0.0;
    let inputs = ["piston.top_clearance", "piston.stroke", "piston.length", "joints.gasket_thickness"];
    let length = d.open_mm(
        "block.length",
        &design.block.length_mm,
        (
            if two {
                "top clearance + stroke + piston + 2 mm - two gaskets, to the next mm"
            } else {
                "top clearance + stroke + piston + 2 mm - jacket gasket, to the next mm"
            },
            "2 mm below the piston: common practice, no source",
        ),
        &inputs,
        round_up(used + 2.0, 1.0),
    );
    let bottom = d.rule(
        "piston.bottom_clearance",
        length - used,
        if two {
            "block + two gaskets - top clearance - stroke - piston"
        } else {
            "block + jacket gasket - top clearance - stroke - piston"
        },
        &[
            "block.length",
            "piston.top_clearance",
            "piston.stroke",
            "piston.length",
            "joints.gasket_thickness",
        ],
    );
    if bottom < LEAST_BOTTOM_MM {
        d.refuse(
            "swept::stroke",
            "piston.stroke",
            format!("the piston stroke of {} mm is longer than the cylinder: {bottom:.2} mm are left below the piston", p.stroke_mm),
            format!("{LEAST_BOTTOM_MM} mm or more below the piston"),
            format!("set piston.stroke to \"{:.2} mm\" or less, or leave block.length out", p.stroke_mm + bottom - LEAST_BOTTOM_MM),
        );
    }
    (length, bottom)
}

/// The plates at both ends of the block, for its studs.
#[derive(Clone, Copy, Debug)]
pub struct Ends {
    /// Thickness of the plate under the nuts \[mm\].
    pub nut_mm: f64,
    /// Where that was decided.
    pub nut_path: &'static str,
    /// Thickness of the plate that holds the threads \[mm\].
    pub thread_mm: f64,
    /// Whether the threads stop inside that plate.
    pub blind: bool,
}

/// The block between its end plates.
pub fn size(d: &mut Decide, piston: &mut Piston, between: Between, ends: &Ends) -> Block {
    let design = d.design;
    let b = &design.block;
    let (length, bottom) = length(d, piston, between);
    piston.bottom_clearance_mm = bottom;
    let wall = d.mm("block.wall", &b.wall_mm);
    let jacket = d.mm("cooler.jacket_width", &design.cooler.jacket_width_mm);
    let outer = d.mm("block.outer_wall", &b.outer_wall_mm);
    let inner_r = d.rule(
        "block.jacket_inner_radius",
        piston.bore_mm / 2.0 + wall,
        "bore / 2 + wall",
        &["piston.bore", "block.wall"],
    );
    let outer_r = d.rule(
        "block.jacket_outer_radius",
        inner_r + jacket,
        "inner radius + jacket width",
        &["block.jacket_inner_radius", "cooler.jacket_width"],
    );
    let half = d.rule(
        "block.half_side",
        round_up(outer_r + outer, 0.5),
        "jacket + outer wall, to the next 0.5 mm",
        &["block.jacket_outer_radius", "block.outer_wall"],
    );
    let stud = screw(d, "joints.power_screw", &design.joints.power_screw);
    let stud_mm = d.rule(
        "block.stud_place",
        half - 1.5 * stud.major_mm - 0.5,
        ("half side - 1.5 screw diameters - 0.5 mm", "edge rule, common practice, no source"),
        &["block.half_side", "joints.power_screw"],
    );
    let jacket_depth =
        d.rule("block.jacket_depth", length - DECK_MM, "block length - 8 mm deck", &["block.length"]);
    let room = if ends.blind { ends.thread_mm - stud.major_mm } else { ends.thread_mm };
    let bite = (2.0 * stud.major_mm).min(room);
    let grip = between.power_mm() + length + ends.nut_mm;
    let above = stud.washer_thickness_mm + 0.9 * stud.major_mm + 2.0;
    let stud_length = d.rule(
        "block.stud_length",
        round_up(bite + grip + above, 1.0),
        "engagement + gaskets + block + plate + washer + nut (0.9 d) + 2 mm",
        &["block.length", "joints.gasket_thickness", ends.nut_path, "joints.power_screw"],
    );
    let face = Flange::square(piston.bore_mm, half, stud);
    let cold_sheet = sheet(&d.design.catalogue, &design.joints.cold_gasket.value);
    let preload = face.preload_n(cold_sheet, design_over_pa(d), stud, 4);
    let inputs = ["block.half_side", "joints.power_screw"];
    let ring = face_ring::size(d, "power", piston.bore_mm, 2.0 * half, &["piston.bore", "block.half_side"]);
    // the jacket's gasket lies under the same studs
    let stud_preload_n = tightened(d, "power", stud, preload, &inputs);
    let hose = d.look_up("cooler.hose_thread", port_thread(&design.cooler.hose_thread.value.to_string()));
    let hose = hose.or_else(|| port_thread("M10").ok());
    if jacket_depth < 2.0 * hose.map_or(10.0, |h| h.major_mm) {
        d.refuse(
            "swept::range",
            "block.length",
            format!("a jacket {jacket_depth:.1} mm deep has no room for two hose ports"),
            format!("{:.1} mm or more", 2.0 * hose.map_or(10.0, |h| h.major_mm) + DECK_MM),
            "take a smaller cooler.hose_thread or a longer block".into(),
        );
    }
    Block {
        length_mm: length,
        half_mm: half,
        jacket_r_mm: [inner_r, outer_r],
        jacket_depth_mm: jacket_depth,
        stud_mm,
        stud,
        stud_preload_n,
        ring,
        stud_length_mm: stud_length,
        stud_depth_mm: bite,
        hose: hose.unwrap_or_else(|| unreachable!("M10 is in the catalogue")),
        material: b.material.value.to_string(),
    }
}
