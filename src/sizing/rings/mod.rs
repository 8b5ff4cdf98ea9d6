//! The seal of the piston: kinds of rings and a close-fitting piston without one.
//!
//! Pure pieces, a file each: closed gap cold and hot, springy rings and strips, lips. `size` decides the sizes of the
//! chosen kind; [`work`] says what leaks past it and what it rubs.

pub mod bent_ring;
pub mod closed_gap;
pub mod lip;
pub mod size;
pub mod work;

use crate::design::PistonSeal;

/// The seal as sized; lengths that the kind does not have are 0.
#[derive(Clone, Debug, PartialEq)]
pub struct PistonRing {
    /// Kind.
    pub kind: PistonSeal,
    /// Number of rings; 0 for a close-fitting piston.
    pub count: usize,
    /// Height along the bore \[mm\].
    pub height_mm: f64,
    /// Width on the radius as fitted \[mm\].
    pub width_mm: f64,
    /// Width of the groove along the bore \[mm\].
    pub groove_mm: f64,
    /// Diameter of the groove's bottom \[mm\].
    pub groove_diameter_mm: f64,
    /// Gap, cold, of the ring in the bore \[mm\].
    pub gap_mm: f64,
    /// The same when hot \[mm\].
    pub gap_hot_mm: f64,
    /// Gaps round a ring: 1, or 3 for a ring in three pieces; 0 for a whole one.
    pub gaps: usize,
    /// Thickness of the expander's strip \[mm\].
    pub expander_mm: f64,
    /// How much wider the expander's gap is when free \[mm\].
    pub expander_free_gap_mm: f64,
    /// How much wider the gap of a ring that springs itself is when free \[mm\].
    pub free_gap_mm: f64,
    /// Greatest stress in ring or expander as fitted \[MPa\].
    pub stress_mpa: f64,
    /// Pressure on the wall without gas \[MPa\].
    pub wall_mpa: f64,
    /// Lip, of a ring with lips.
    pub lip: Option<lip::Lip>,
    /// Designation, of an O-ring.
    pub oring: Option<String>,
    /// Section of an O-ring and its squeeze as part of it.
    pub section_mm: [f64; 2],
    /// Name of the material; the piston's for a close fit.
    pub material: &'static str,
}

impl PistonRing {
    /// Whether it has a strip behind it.
    pub fn has_expander(&self) -> bool {
        self.expander_mm > 0.0
    }

    /// Force of a ring on the bore without gas \[N\].
    pub fn contact_n(&self, bore_mm: f64) -> f64 {
        self.wall_mpa * std::f64::consts::PI * bore_mm * self.height_mm
    }
}
