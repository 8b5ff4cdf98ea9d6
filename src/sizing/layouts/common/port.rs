//! The transfer port: a slot through the cooler plate.

use super::cooler::CoolerPlate;
use crate::sizing::cycle::path::{Exchanger, Walls};
use crate::sizing::cycle::transfer::Surface;
use crate::sizing::volumes::{Zone, circle_mm2};
use std::f64::consts::PI;

/// Area of the transfer slot \[mm²\]: rectangle with round ends.
pub fn area_mm2(c: &CoolerPlate) -> f64 {
    let (w, l) = (c.port_width_mm, c.port_length_mm);
    w * (l - w) + circle_mm2(w)
}

/// Volume of the slot \[mm³\].
pub fn volume_mm3(c: &CoolerPlate) -> f64 {
    area_mm2(c) * c.thickness_mm
}

/// The slot through the cooler plate, a rectangle with round ends.
pub fn exchanger(c: &CoolerPlate, cold_k: f64) -> Exchanger {
    let (w, l) = (c.port_width_mm / 1000.0, c.port_length_mm / 1000.0);
    let (area, length) = (area_mm2(c) * 1e-6, c.thickness_mm / 1000.0);
    let perimeter = 2.0 * (l - w) + PI * w;
    Exchanger {
        surface: Surface::Slots { aspect: (w / l).min(1.0) },
        volume_m3: area * length,
        flow_area_m2: area,
        hydraulic_m: 4.0 * area / perimeter,
        wetted_m2: perimeter * length,
        cells: 1,
        ..Exchanger::slots(
            "transfer port",
            Zone::Cold,
            1.0,
            [w, l],
            length,
            Walls::Fixed { hot_k: cold_k, cold_k },
        )
    }
}
