//! Cooler plate that carries both cylinders, with a transfer port where their bores overlap.

use super::channels::{Hole, Room, around_rod, rectangle_mm};
use crate::sizing::decide::Decide;
use crate::sizing::engine::{Block, BoltCircle, RodGland};

/// Cooler plate between both cylinders.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolerPlate {
    /// Thickness \[mm\].
    pub thickness_mm: f64,
    /// Place of the slot's centre on the line from the displacer's axis to the piston's \[mm\].
    pub port_x_mm: f64,
    /// Width of the slot, along that line \[mm\].
    pub port_width_mm: f64,
    /// Length of the slot over its round ends, across that line \[mm\].
    pub port_length_mm: f64,
}

/// Metal left between the port and the edge of either bore \[mm\]; common practice, no source.
const PORT_EDGE_MM: f64 = 1.5;
/// Narrowest port that a common cutter makes \[mm\].
const LEAST_PORT_MM: f64 = 4.0;

/// Half length between the centres of the slot's round ends \[mm\], or nothing when it does not fit.
fn half_span(width: f64, x: f64, bores: [f64; 2], centres: f64) -> Option<f64> {
    let reach = |radius: f64, x: f64| {
        let r = radius - PORT_EDGE_MM - width / 2.0;
        (r * r - x * x).max(0.0).sqrt()
    };
    let span = reach(bores[0] / 2.0, x).min(reach(bores[1] / 2.0, centres - x));
    let fits_across = (x + width / 2.0 <= bores[0] / 2.0 - PORT_EDGE_MM + 1e-9)
        && (centres - x + width / 2.0 <= bores[1] / 2.0 - PORT_EDGE_MM + 1e-9);
    fits_across.then_some(span)
}

/// Slot (x, width, length over its ends) of the greatest area that lies inside both bores \[mm\].
fn slot(bores: [f64; 2], centres: f64, widest: f64) -> Option<[f64; 3]> {
    let x = ((centres - bores[1] / 2.0) + bores[0] / 2.0) / 2.0;
    let x = (x * 100.0).round() / 100.0;
    let candidates = (0..).map(|i| LEAST_PORT_MM + 0.5 * f64::from(i)).take_while(|w| *w <= widest + 1e-9);
    let area = |w: f64, span: f64| 2.0 * span * w + std::f64::consts::PI * w * w / 4.0;
    candidates
        .filter_map(|w| Some((w, half_span(w, x, bores, centres)?)))
        .max_by(|a, b| area(a.0, a.1).total_cmp(&area(b.0, b.1)))
        .map(|(w, span)| [x, w, (2.0 * span + w).floor().max(w)])
}

/// Thickness of the plate \[mm\].
pub fn thickness(d: &mut Decide) -> f64 {
    let design = d.design;
    d.mm("cooler.plate_thickness", &design.cooler.plate_thickness_mm)
}

/// The plate with its slot; thickness, bores of displacer and piston and their centres in \[mm\].
pub fn size(d: &mut Decide, thickness: f64, bores: [f64; 2], centres: f64) -> CoolerPlate {
    let design = d.design;
    let inputs = ["displacer.bore", "piston.bore", "drive.crank_centres"];
    let widest = design.cooler.port_width_mm.as_ref().map_or(16.0, |w| w.value);
    let port = slot(bores, centres, widest).unwrap_or_else(|| {
        d.refuse(
            "swept::range",
            "drive.crank_centres",
            format!("at {centres} mm between the axes the bores overlap too little for a transfer port of {LEAST_PORT_MM} mm"),
            format!("{:.1} mm at the most", (bores[0] + bores[1]) / 2.0 - 2.0 * PORT_EDGE_MM - LEAST_PORT_MM),
            "bring the axes nearer, or enlarge a bore".into(),
        );
        [centres / 2.0, LEAST_PORT_MM, LEAST_PORT_MM]
    });
    let target = "greatest slot inside both bores, 1.5 mm from their edges";
    let x = d.rule("cooler.port_x", port[0], "middle of the overlap of both bores", &inputs);
    let width = match &design.cooler.port_width_mm {
        Some(given) if (given.value - port[1]).abs() < 1e-9 => d.mm("cooler.port_width", given),
        _ => d.solved("cooler.port_width", port[1], target, 0.0, &inputs),
    };
    let length = d.solved("cooler.port_length", port[2], target, 0.0, &inputs);
    CoolerPlate { thickness_mm: thickness, port_x_mm: x, port_width_mm: width, port_length_mm: length }
}

/// Room for water channels in a rectangular plate, whose line of both axes is `line_deg` from X: beside rod and gland, the
/// screws of the cold flange, the slot and the studs of the block.
pub fn room(
    plate: &CoolerPlate,
    centres: f64,
    block: &Block,
    flange: f64,
    gland: &RodGland,
    cold: &BoltCircle,
    line_deg: f64,
) -> Room {
    let mut holes = around_rod(gland, cold, line_deg);
    holes.push(Hole { at_mm: plate.port_x_mm, half_mm: plate.port_width_mm / 2.0 });
    let studs = [-block.stud_mm, block.stud_mm].map(|aside| centres + aside);
    holes.extend(studs.map(|at_mm| Hole { at_mm, half_mm: block.stud.major_mm / 2.0 }));
    let [along_mm, ends_mm] = rectangle_mm(flange, centres, block);
    Room { thickness_mm: plate.thickness_mm, along_mm, ends_mm, holes }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slot_stays_inside_both_bores() {
        let [x, w, l] = slot([96.0, 64.0], 64.5, 16.0).unwrap();
        let y = l / 2.0 - w / 2.0;
        assert!(x.hypot(y) + w / 2.0 <= 48.0 - 1.4, "displacer side");
        assert!((64.5 - x).hypot(y) + w / 2.0 <= 32.0 - 1.4, "piston side");
        assert!(slot([40.0, 20.0], 40.0, 16.0).is_none(), "no overlap, no port");
    }
}
