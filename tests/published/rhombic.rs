//! The rhombic drive.
//!
//! Both yokes hang on the same pair of cranks: heights r cos θ ± √(L² − (r sin θ − e)²) with throw r, con rod L and
//! eccentricity e (plain geometry): the piston's is that of an offset slider-crank, the displacer's that of one with the
//! offset on the other side, half a turn ahead and seen from below.

use super::data::Drawn;
use swept::sizing::mechanism::{Motion, SliderCrank};
use swept::sizing::volumes::{Arrangement, Displacer, Overlap, Piston};

/// Lead of the displacer's crank by which the two motions belong together \[degree\].
pub const LEAD_DEG: f64 = 180.0;

/// The offset slider-crank, with the offset on one side or the other (1 or −1).
pub fn crank(size: &Drawn, side: f64) -> Motion {
    Motion::SliderCrank(slider(size, side))
}

fn slider(size: &Drawn, side: f64) -> SliderCrank {
    let offset_mm = side * size.get("eccentricity_mm");
    SliderCrank::with_offset(size.get("crank_mm"), size.get("con_rod_mm"), offset_mm).unwrap()
}

/// Displacer and piston on their yokes; they nearly touch once a turn, and what stays between them is dead volume.
pub fn arrangement(size: &Drawn, displacer: Displacer, piston: Piston) -> Arrangement {
    Arrangement::Beta {
        displacer: Displacer { motion: Motion::FromBelow(slider(size, -1.0)), ..displacer },
        piston: Piston { motion: crank(size, 1.0), ..piston },
        overlap: Overlap::Touching,
    }
}
