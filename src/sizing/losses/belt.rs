//! Drag of a toothed belt: bending, and sliding of the teeth under tension.
//!
//! Each pulley bends the belt and straightens it again. Bending stores E w t³/(6 R²) in each length of a back of
//! width w and thickness t whose cords do not stretch (I = w t³/3 about the cords), and the rubber keeps a part ψ of
//! it: a drag of ψ E w t³/(6 R²) on the belt (DERIVED). Tension presses the teeth while they slide into the
//! groove and out again: a drag of c (T₁ + T₂) at each pulley. That loss grows in proportion to the tension fitted and
//! hardly with the torque (measured: abstract "driving loss in synchronous belt under the transmitted
//! torque", JSME annual meeting 2006). c = 0.01 is from memory of whole drives at 97 to 98 %; take half to double.

/// Loss factor of the rubber for one bend (from memory: 0.2 to 0.4).
const HYSTERESIS: f64 = 0.3;
/// Young's modulus of the rubber back \[MPa\] (from memory, 75 Shore).
const RUBBER_MPA: f64 = 10.0;

/// A belt between two equal pulleys.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeltDrive {
    /// Pitch radius of each pulley \[mm\].
    pub radius_mm: f64,
    /// Width \[mm\].
    pub width_mm: f64,
    /// Thickness of the back without teeth \[mm\].
    pub back_mm: f64,
    /// Tension of each strand at rest \[N\].
    pub strand_n: f64,
    /// Drag at a pulley for each newton of both strands together, c.
    pub tooth_friction: f64,
}

impl BeltDrive {
    /// Both strands' tension together \[N\] while this torque \[N mm\] goes through: that at rest, until the slack
    /// strand hangs loose.
    pub fn pull_n(&self, torque_nmm: f64) -> f64 {
        (2.0 * self.strand_n).max(torque_nmm.abs() / self.radius_mm)
    }

    /// Drag on the shafts, both pulleys together \[N mm\].
    pub fn drag_nmm(&self, torque_nmm: f64) -> f64 {
        let bending =
            HYSTERESIS * RUBBER_MPA * self.width_mm * self.back_mm.powi(3) / (6.0 * self.radius_mm.powi(2));
        2.0 * self.radius_mm * (bending + self.tooth_friction * self.pull_n(torque_nmm))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    fn belt() -> BeltDrive {
        BeltDrive { radius_mm: 15.0, width_mm: 9.0, back_mm: 1.2, strand_n: 25.0, tooth_friction: 0.01 }
    }

    /// By hand: bending 0.3 × 10 × 9 × 1.728 / (6 × 225) = 0.03456 N; teeth 0.01 × 50 = 0.5 N; both pulleys at
    /// 15 mm: 16.037 N mm.
    #[test]
    fn worked_value() {
        close(belt().drag_nmm(300.0), 16.037, 1e-4);
        assert_eq!(belt().pull_n(300.0), 50.0);
        assert_eq!(belt().pull_n(-1500.0), 100.0);
    }

    /// At the torque at which the slack strand goes loose the drive loses 2 c: the 97 to 98 % of handbooks.
    #[test]
    fn a_drive_at_its_full_torque_is_as_good_as_handbooks_say() {
        let full = 2.0 * 25.0 * 15.0;
        let efficiency = 1.0 - belt().drag_nmm(full) / full;
        assert!((0.97..0.985).contains(&efficiency), "{efficiency}");
    }
}
