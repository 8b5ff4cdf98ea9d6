//! A power cylinder that hangs below the cooler plate: heights, rod lengths, and what must not meet.

use super::cooler::CoolerPlate;
use super::displacer::peak_temperature;
use super::drive::{CLEVIS_CLEAR_MM, displacer_rod, piston_rod};
use super::joints::Between;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{BackPlate, Block, Clevis, Displacer, Drive, HotCap, Piston, RodGland};

/// Heights below the cooler plate, in the engine frame \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub struct Heights {
    /// Top face of the block.
    pub block_top_mm: f64,
    /// Lower face of the block.
    pub block_low_mm: f64,
    /// Top face of the back plate.
    pub back_top_mm: f64,
    /// Lower face of the back plate.
    pub back_low_mm: f64,
}

impl Heights {
    /// Middle of the back plate \[mm\].
    pub fn back_middle_mm(&self) -> f64 {
        0.5 * (self.back_top_mm + self.back_low_mm)
    }
}

/// Heights in the engine frame \[mm\], below a cooler plate of `plate` \[mm\].
pub fn size(
    d: &mut Decide,
    plate: f64,
    block: &Block,
    back: &BackPlate,
    between: Between,
    drive: &mut Drive,
    clevis: &Clevis,
) -> Heights {
    let block_top = -plate - between.cold_mm;
    let block_low = block_top - block.length_mm;
    let back_top = block_low - between.jacket_mm;
    let back_low = d.rule(
        "stack.back_plate_low",
        back_top - back.thickness_mm,
        "below plate, gasket, block, gasket and back plate",
        &["cooler.plate_thickness", "joints.gasket_thickness", "block.length", "back.thickness"],
    );
    let above_pin = clevis.size_mm[2] - clevis.pin_z_mm;
    let longest = drive.displacer.throw_mm.max(drive.piston.throw_mm);
    drive.crank_z_mm = d.rule(
        "drive.crank_height",
        back_low - CLEVIS_CLEAR_MM - above_pin - drive.con_rod_mm - longest,
        "below the back plate by the thread above the clevis (6 mm) and 1 mm, clevis, con rod and the longer throw",
        &[
            "stack.back_plate_low",
            "clevis.height",
            "drive.con_rod_length",
            "drive.displacer_throw",
            "drive.piston_throw",
        ],
    );
    Heights { block_top_mm: block_top, block_low_mm: block_low, back_top_mm: back_top, back_low_mm: back_low }
}

/// Rod lengths that follow from the heights \[mm\].
pub fn rods(
    d: &mut Decide,
    drive: &Drive,
    clevis: &Clevis,
    plate: f64,
    displacer: &mut Displacer,
    piston: &mut Piston,
) {
    displacer.rod_length_mm = displacer_rod(d, drive, clevis, displacer);
    let of_head: (&str, &[&str]) = ("drive.crank_height", &["cooler.plate_thickness"]);
    piston.rod_length_mm = piston_rod(d, drive, clevis, piston, -plate - drive.crank_z_mm, of_head);
}

/// What must not meet, and the limits of the design; `front` \[mm\] is the bracket's face before the plane of a con rod.
pub fn check(
    d: &mut Decide,
    front: f64,
    clevis: &Clevis,
    cap: &HotCap,
    cooler: &CoolerPlate,
    gland: &RodGland,
    block: &Block,
) {
    if clevis.size_mm[1] / 2.0 + 0.5 > front {
        d.refuse(
            "swept::range",
            "drive.small_end_bearing",
            format!(
                "the clevis is {:.1} mm wide and meets the crank bracket at {front:.1} mm from its middle",
                clevis.size_mm[1]
            ),
            format!("a clevis up to {:.1} mm wide", 2.0 * front - 1.0),
            "take a smaller small-end bearing or a larger crankpin bearing".into(),
        );
    }
    let least = (3.0 * block.stud.major_mm).max(gland.groove_mm[1] + gland.bush_length_mm + 2.0);
    if cooler.thickness_mm < least {
        d.refuse(
            "swept::range",
            "cooler.plate_thickness",
            format!("a cooler plate of {} mm has no room for studs, rod gland and bush", cooler.thickness_mm),
            format!("{least:.1} mm or more"),
            format!("set cooler.plate_thickness to \"{} mm\"", round_up(least, 1.0)),
        );
    }
    peak_temperature(d, cap);
}
