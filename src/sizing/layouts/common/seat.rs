//! What a gasketed flange asks of its screws, and how many and which screws give it.

use crate::catalogue::gaskets::GasketSheet;
use crate::catalogue::threads::Thread;
use crate::sizing::engine::BoltCircle;
use crate::sizing::strength::between_screws::Seam;
use crate::sizing::strength::bolt::preload_most_n;
use crate::sizing::strength::gasket_load::RingGasket;
use crate::sizing::volumes::circle_mm2;
use std::f64::consts::PI;

/// How much a gasket's opening stays back from the bore, on diameter \[mm\]; common practice, no source.
pub const OPENING_MM: f64 = 1.0;
/// Screws nearer than this many diameters leave no room for heads and key (common practice, no source).
pub const CLOSEST_OVER_D: f64 = 3.0;
/// Screws wider apart than this many diameters leak between them (common practice, no source).
pub const FARTHEST_OVER_D: f64 = 12.0;
/// Share of a gasket's pressing left midway between screws, wanted and least (common practice, no source).
pub const MIDWAY: [f64; 2] = [0.5, 0.25];
/// Tightened by so much more than what is needed: gaskets settle (common practice, no source).
const SETTLES: f64 = 1.2;

/// Faces of a joint as the gasket sees them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flange {
    /// Inside of the gasket \[mm\].
    pub inner_mm: f64,
    /// Outside of the ring that seals: the inner edge of the screw holes \[mm\].
    pub seals_to_mm: f64,
    /// Outside of the flange \[mm\].
    pub outer_mm: f64,
    /// All of the gasket's face \[mm²\].
    pub area_mm2: f64,
}

impl Flange {
    /// A round flange with its screws on a circle.
    pub fn round(bore_mm: f64, outer_mm: f64, bolts: &BoltCircle) -> Self {
        let hole = bolts.thread.clearance_medium_mm;
        let inner_mm = bore_mm + OPENING_MM;
        let holes = bolts.count as f64 * circle_mm2(hole);
        Self {
            inner_mm,
            seals_to_mm: bolts.diameter_mm - hole,
            outer_mm,
            area_mm2: circle_mm2(outer_mm) - circle_mm2(inner_mm) - holes,
        }
    }

    /// A square block with its screws in the corners; the seal is the round ring that fits between bore and sides.
    pub fn square(bore_mm: f64, half_mm: f64, screws: &Thread) -> Self {
        let inner_mm = bore_mm + OPENING_MM;
        let holes = 4.0 * circle_mm2(screws.clearance_medium_mm);
        Self {
            inner_mm,
            seals_to_mm: 2.0 * half_mm,
            outer_mm: 2.0 * half_mm,
            area_mm2: 4.0 * half_mm * half_mm - circle_mm2(inner_mm) - holes,
        }
    }

    /// Load that all screws together must give \[N\] at a pressure over the air's: seating or running load (ASME VIII-1
    /// Appendix 2); rubber, which needs no seating there, gets its least assembly stress all over.
    pub fn needed_n(&self, sheet: &GasketSheet, over_pa: f64) -> f64 {
        let ring = RingGasket {
            inner_mm: self.inner_mm,
            outer_mm: self.seals_to_mm,
            factor_m: sheet.factor_m,
            seating_mpa: sheet.seating_mpa,
        };
        let rubber = if sheet.seating_mpa == 0.0 { sheet.assembly_min_mpa * self.area_mm2 } else { 0.0 };
        ring.seating_n().max(ring.running_n(over_pa)).max(rubber)
    }

    /// The same where larger holes on the same circle end the ring that seals \[mm\].
    #[must_use]
    pub fn with_holes(self, circle_mm: f64, hole_mm: Option<f64>) -> Self {
        let to = hole_mm.map_or(self.seals_to_mm, |hole| circle_mm - hole);
        Self { seals_to_mm: self.seals_to_mm.min(to), ..self }
    }

    /// Flange and gasket between screws; thicknesses of both \[mm\].
    pub fn seam(&self, sheet: &GasketSheet, [flange_mm, gasket_mm]: [f64; 2], youngs_mpa: f64) -> Seam {
        let wide = |outer: f64| 0.5 * (outer - self.inner_mm);
        Seam {
            flange_mm,
            wide_mm: wide(self.outer_mm),
            youngs_mpa,
            gasket_wide_mm: wide(self.seals_to_mm),
            gasket_mm,
            gasket_mpa: sheet.spring_mpa(),
        }
    }

    /// Preload of each of `count` screws \[N\]: what is needed and a fifth more, but not more than the screw bears.
    pub fn preload_n(&self, sheet: &GasketSheet, over_pa: f64, screw: &Thread, count: usize) -> f64 {
        (SETTLES * self.needed_n(sheet, over_pa) / count as f64).min(preload_most_n(screw))
    }
}

/// Distance of neighbouring screws along their circle \[mm\].
pub fn pitch_mm(bolts: &BoltCircle) -> f64 {
    PI * bolts.diameter_mm / bolts.count.max(1) as f64
}

/// Fewest screws on a circle that hold the load and stand near enough, even and at least six; `None` where so many have no
/// room.
pub fn count(needed_n: f64, circle_mm: f64, screw: &Thread, seam: &Seam) -> Option<usize> {
    let round = PI * circle_mm;
    let room = (round / (CLOSEST_OVER_D * screw.major_mm)).floor() as usize;
    let enough = |n: usize| {
        let pitch = round / n as f64;
        let holds = n as f64 * preload_most_n(screw) >= needed_n;
        holds && pitch <= FARTHEST_OVER_D * screw.major_mm && seam.midway(pitch) >= MIDWAY[0]
    };
    (6..=room).step_by(2).find(|n| enough(*n))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::catalogue::threads::thread;

    fn sheet(name: &str) -> &'static GasketSheet {
        Catalogue::standard().gasket_sheet(name).unwrap()
    }

    /// Worked by hand: opening 97 mm, holes of 4.5 mm on 125 mm, so the ring seals to 120.5 mm: N = 11.75 mm, b = 5.875 mm,
    /// G = 108.75 mm; seating π 5.875 108.75 17.2 = 34 523 N. Ten M4 tightened to 3565 N hold it; under a thin flange more
    /// are needed, with no room for them.
    #[test]
    fn a_graphite_gasket_of_97_mm() {
        let m4 = thread("M4").unwrap();
        let bolts = BoltCircle { thread: m4, diameter_mm: 125.0, count: 10, first_deg: 0.0, screw_mm: 16.0 };
        let graphite = sheet("graphite");
        let face = Flange::round(96.0, 137.0, &bolts);
        let needed = face.needed_n(graphite, 40e3);
        assert!((needed - 34_523.0).abs() < 40.0, "{needed}");
        let seam = |flange_mm: f64| face.seam(graphite, [flange_mm, 1.0], 200e3);
        assert_eq!(count(needed, 125.0, m4, &seam(6.0)), Some(10));
        assert_eq!(count(needed, 125.0, m4, &seam(0.5)), None);
        assert_eq!(count(1e6, 125.0, m4, &seam(6.0)), None);
    }

    /// Rubber gets 0.7 MPa all over: 0.7 (π/4 (137² − 97²) − 10 holes) N.
    #[test]
    fn rubber_is_pressed_all_over() {
        let bolts = BoltCircle {
            thread: thread("M4").unwrap(),
            diameter_mm: 125.0,
            count: 10,
            first_deg: 0.0,
            screw_mm: 16.0,
        };
        let face = Flange::round(96.0, 137.0, &bolts);
        let needed = face.needed_n(sheet("silicone"), 40e3);
        assert!((needed - 0.7 * (7351.3 - 159.0)).abs() < 2.0, "{needed}");
    }
}
