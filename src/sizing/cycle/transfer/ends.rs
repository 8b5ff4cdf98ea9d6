//! Gas in a cylinder space that is compressed and expanded: heat transfer as in a gas spring.
//!
//! Pe = ω d_h²/(4 a), d_h = 4 V/A, a thermal diffusivity. Without turbulence (K. P. Lee 1983, in A. A.
//! Kornhauser and J. L. Smith, J. Energy Resources Technology 115 (1993) 70; from memory) the complex Nusselt
//! number is √(2 Pe) (1 + i) tanh z/(1 − tanh z/z), z = (1 + i) √(Pe/8): 12 at low Pe, √(2 Pe) each of real
//! and imaginary part at high Pe. Measured: 0.56 Pe^0.69 for Pe > 100 (A. A. Kornhauser and J. L. Smith, J.
//! Heat Transfer 116 (1994) 536; from memory, medium confidence). Only the real part is used: it makes the
//! loss, while the imaginary part only shifts the pressure a little. Gas that streams in stirs the space and
//! raises the transfer; the factor of the ends is there for that.

use std::f64::consts::FRAC_PI_2;

/// Pe = ω d_h²/(4 a), from angular speed \[rad/s\], d_h \[m\] and thermal diffusivity \[m²/s\].
pub fn peclet(omega_rad_s: f64, hydraulic_m: f64, diffusivity_m2_s: f64) -> f64 {
    omega_rad_s * hydraulic_m * hydraulic_m / (4.0 * diffusivity_m2_s)
}

/// tanh of (1 + i) y as real and imaginary part.
fn tanh_diagonal(y: f64) -> [f64; 2] {
    if y > 18.0 {
        return [1.0, 0.0];
    }
    let below = (2.0 * y).cosh() + (2.0 * y).cos();
    [(2.0 * y).sinh() / below, (2.0 * y).sin() / below]
}

/// Real part of the Nusselt number without turbulence.
pub fn laminar_nusselt(pe: f64) -> f64 {
    let y = (pe / 8.0).sqrt();
    if y < 0.05 {
        return 12.0;
    }
    let [re, im] = tanh_diagonal(y);
    // tanh z/z = t (1 − i)/(2 y)
    let over = [(re + im) / (2.0 * y), (im - re) / (2.0 * y)];
    let (below_re, below_im) = (1.0 - over[0], -over[1]);
    let (above_re, above_im) = (re - im, re + im);
    let square = below_re * below_re + below_im * below_im;
    (2.0 * pe).sqrt() * (above_re * below_re + above_im * below_im) / square
}

/// Nusselt number h d_h/k: the greater of the laminar and the measured one.
pub fn nusselt(pe: f64) -> f64 {
    laminar_nusselt(pe).max(0.56 * pe.powf(0.69))
}

/// Loss number L of a gas spring: work lost per turn = L p₀ V₀ (p₁/p₀)² with pressure amplitude p₁ (Lee
/// 1983, in Kornhauser and Smith 1993; from memory).
pub fn spring_loss(pe: f64, heat_capacity_ratio: f64) -> f64 {
    let y = (pe / 8.0).sqrt();
    let (sinh, cosh, sin, cos) = (y.sinh(), y.cosh(), y.sin(), y.cos());
    let shape = (sinh * cosh - sin * cos) / (cosh * cosh - sin * sin);
    FRAC_PI_2 * (heat_capacity_ratio - 1.0) / heat_capacity_ratio / y * shape
}

#[cfg(test)]
mod tests {
    use super::*;

    /// COMPUTED: air at 330 K, 101325 Pa, 200 cm³, 300 cm², 10 Hz: Pe 424.2, L 0.061635; it equals the loss
    /// of an acoustic boundary layer.
    #[test]
    fn loss_of_a_gas_spring_is_the_worked_one() {
        assert!((spring_loss(424.2, 1.4) / 0.061635 - 1.0).abs() < 5e-5, "{}", spring_loss(424.2, 1.4));
    }

    /// Limits of the closed form, derived: a slab with heat made evenly inside has Nu 12; thin layers √(2 Pe).
    #[test]
    fn limits_of_slow_and_fast() {
        assert!((laminar_nusselt(0.1) - 12.0).abs() < 0.01);
        assert!((laminar_nusselt(0.019) - laminar_nusselt(0.021)).abs() < 1e-4);
        assert!((laminar_nusselt(1e5) / 2e5_f64.sqrt() - 1.0).abs() < 0.01);
        assert!((nusselt(424.2) / 36.4 - 1.0).abs() < 0.01, "{}", nusselt(424.2));
        assert!(nusselt(1.0) >= 12.0 && nusselt(1.0) < 12.1);
    }
}
