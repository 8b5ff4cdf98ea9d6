//! Crank web: a flat bar that the pin's force bends in its plane and out of it, pulls and twists.
//!
//! Bending 6 M / (b h²); twist of a rectangle T (3 + 1.8 t/w) / (w t²), w the longer side (Timoshenko's approximation,
//! Shigley eq. 3-40; within 2 %); all summed as if at one point, to the safe side.

use super::MPA;

/// Section of a web and where the force acts \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Web {
    /// Width across the throw.
    pub width_mm: f64,
    /// Thickness along the shaft.
    pub thickness_mm: f64,
    /// From the section to the pin along the web.
    pub arm_mm: f64,
    /// From the web's middle to the middle of the bearing on the pin.
    pub overhang_mm: f64,
}

impl Web {
    /// Equivalent stress under a force at the pin that may point anywhere \[Pa\].
    pub fn stress_pa(&self, force_n: f64) -> f64 {
        let (w, t, f) = (self.width_mm, self.thickness_mm, force_n.abs());
        let in_plane = 6.0 * f * self.arm_mm / (t * w * w);
        let across = 6.0 * f * self.overhang_mm / (w * t * t);
        let pull = f / (w * t);
        let twist = twist_mpa(f * self.overhang_mm, w, t);
        // the force points along the web (pull and bending out of the plane) or across it (bending in the plane, twist)
        let along = pull + across;
        let aside = (in_plane * in_plane + 3.0 * twist * twist).sqrt();
        along.max(aside) * MPA
    }
}

/// Greatest shear of a twisted rectangle \[MPa\].
fn twist_mpa(torque_nmm: f64, a_mm: f64, b_mm: f64) -> f64 {
    let (w, t) = (a_mm.max(b_mm), a_mm.min(b_mm));
    torque_nmm * (3.0 + 1.8 * t / w) / (w * t * t)
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// Exact factor of a square is 4.81, of a strip 3 (Saint-Venant, in Timoshenko, Theory of Elasticity).
    #[test]
    fn twist_of_a_square_and_of_a_strip() {
        close(twist_mpa(1000.0, 10.0, 10.0), 4.81, 0.005);
        close(twist_mpa(1000.0, 1000.0, 1.0), 3.0, 0.001);
    }

    #[test]
    fn bending_in_the_plane_is_that_of_a_beam() {
        let web = Web { width_mm: 20.0, thickness_mm: 8.0, arm_mm: 30.0, overhang_mm: 0.0 };
        close(web.stress_pa(100.0), 6.0 * 3000.0 / (8.0 * 400.0) * 1e6, 1e-12);
    }
}
