//! Friction torque of an O-ring on a turning shaft: squeeze and the pressure of the closed space.
//!
//! The force is that of an O-ring on a rod ([`RodRing`]), at half the shaft's diameter. A maker's handbook (rotary O-ring
//! glands) takes the gland of a moving rod up to 200 ft/min, 1.02 m/s, and other ones beyond.

use super::gland::RodRing;

/// Fastest surface for the gland of a moving rod \[m/s\]: 200 ft/min (a maker's handbook).
pub const FASTEST_M_S: f64 = 1.016;

/// An O-ring around a shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShaftSeal {
    /// The ring on its shaft.
    pub ring: RodRing,
    /// Pressure of the room \[Pa\].
    pub room_pa: f64,
}

impl ShaftSeal {
    /// Torque \[N mm\] with this pressure in the closed space \[Pa\].
    pub fn torque_nmm(&self, inside_pa: f64) -> f64 {
        0.5 * self.ring.rod_mm * self.ring.force_n(inside_pa - self.room_pa)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: the ring of [`RodRing`]'s worked value, 1.6821 N on a rod of 6 mm, on a radius of 3 mm.
    #[test]
    fn worked_value() {
        let ring = RodRing { rod_mm: 6.0, section_mm: 1.78, squeeze: 0.10, youngs_mpa: 5.5, friction: 0.2 };
        let seal = ShaftSeal { ring, room_pa: 101_325.0 };
        close(seal.torque_nmm(201_325.0), 5.0463, 1e-3);
    }
}
