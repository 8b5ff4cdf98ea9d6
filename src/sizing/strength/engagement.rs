//! Length of thread that must be engaged.
//!
//! By material, in screw diameters: steel 1, cast iron and brass 1.5, aluminium 2 (common practice, no source). Stripping
//! of the nut thread: shear area of an inside thread π d (0.875 P) / P for each mm (the outer edge of the nut's teeth
//! at the screw's major diameter; FED-STD-H28 and Machinery's Handbook give it with tolerances, from memory), shear
//! strength 0.577 of yield.

use crate::catalogue::threads::Thread;
use std::f64::consts::PI;

/// Engaged length over screw diameter that a material wants.
pub fn wanted_over_d(material: &str) -> f64 {
    match material {
        m if m.starts_with("aluminium") => 2.0,
        "brass" | "cast-iron" => 1.5,
        m if m.contains("steel") || m.starts_with("stainless") => 1.0,
        _ => 2.0,
    }
}

/// Force that strips the inside thread over `engaged_mm` \[N\]; `yield_mpa` of the metal that holds it.
pub fn strip_n(thread: &Thread, engaged_mm: f64, yield_mpa: f64) -> f64 {
    0.577 * yield_mpa * PI * thread.major_mm * 0.875 * engaged_mm
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::threads::thread;
    use crate::sizing::strength::bolt::preload_most_n;

    /// The trade's lengths hold the trade's screws: 1 d of mild steel and 2 d of aluminium 6082 strip above the force to
    /// which an 8.8 screw is tightened.
    #[test]
    fn the_wanted_length_holds_the_preload() {
        for name in ["M3", "M4", "M5", "M6", "M8"] {
            let t = thread(name).unwrap();
            for (material, yield_mpa) in [("mild-steel", 235.0), ("aluminium-6082", 250.0)] {
                let strips = strip_n(t, wanted_over_d(material) * t.major_mm, yield_mpa);
                assert!(strips > preload_most_n(t), "{name} in {material}: {strips}");
            }
        }
    }

    /// M10 x 1.5 engaged 10 mm in metal of 200 MPa shear strength: about 27.5 mm² for each mm (Machinery's Handbook gives
    /// 26 to 28 for class 6H, from memory).
    #[test]
    fn the_area_is_that_of_the_handbooks() {
        let t = thread("M10").unwrap();
        let area = strip_n(t, 1.0, 1.0 / 0.577);
        assert!((26.0..28.5).contains(&area), "{area}");
    }
}
