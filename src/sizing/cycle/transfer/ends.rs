//! Heat transfer in a cylinder space: gas that is squeezed, and gas that streams in and out.
//!
//! **Squeezed**, as in a gas spring: Pe = ω d_h²/(4 a), d_h = 4 V/A, a thermal diffusivity. Without turbulence (K. P.
//! Lee 1983, in A. A. Kornhauser and J. L. Smith, J. Energy Resources Technology 115 (1993) 70; from memory) the
//! complex Nusselt number is √(2 Pe) (1 + i) tanh z/(1 − tanh z/z), z = (1 + i) √(Pe/8): 12 at low Pe, √(2 Pe) each
//! of real and imaginary part at high Pe. Measured: 0.56 Pe^0.69 for Pe > 100 (A. A. Kornhauser and J. L. Smith, J.
//! Heat Transfer 116 (1994) 536; from memory, medium confidence). Only the real part is used: it makes the loss,
//! while the imaginary part only shifts the pressure a little.
//!
//! **Streaming**: what comes in through gap, tubes or port stirs the space, as it does in any engine during the
//! exchange of gas: Nu = 0.035 Re^0.8 on the bore, with the speed 6.18 c_m, c_m the mean speed of the wall that draws
//! the gas in (G. Woschni, SAE 670931, 1967, his constants for the scavenging period; seen in two secondary pages).
//! W. J. D. Annand (Proc. IMechE 177 (1963) 973; seen in a secondary page) has a Re^0.7 on c_m itself, a from 0.35
//! for quiet to 0.8 for strong motion: at Re 10³ to 10⁵ that is 1.2 to 0.5 and 2.7 to 1.1 times as much. Such
//! correlations differ by a factor of two, so the band draws that.
//!
//! A narrow gap blows harder than a valve. In steady state turbulence decays as fast as the jets feed it, k^1.5/l in
//! proportion to (flow/mass) u²/2; the jets' speed u is φ c_m with φ cylinder over opening, flow over mass c_m over
//! the depth, l in proportion to the depth: the speed of the turbulence goes with φ^⅔ c_m (DERIVED). Woschni's engines
//! breathe through valves with φ of about 9 (lift a quarter of the diameter, valve 0.45 of the bore, C_d 0.55: J. B.
//! Heywood, Internal Combustion Engine Fundamentals, 1988, from memory), so 6.18 c_m (φ/9)^⅔. With ε =
//! 0.164 k^1.5/l and l a tenth of the depth (k-ε practice, from memory) the same balance gives 1.1 φ^⅔ c_m: 4.8 c_m at
//! φ = 9, without Woschni.
//!
//! Both together: cube root of the sum of cubes (the rule of S. W. Churchill and R. Usagi, AIChE J. 18 (1972) 1121,
//! for two mechanisms that work side by side; exponent 3 as for mixed convection; from memory).

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

/// Speed of the gas over the mean speed of the wall that draws it in (Woschni 1967, scavenging).
const EXCHANGE_SPEED: f64 = 6.18;

/// Cross-section of the cylinder over the opening through which Woschni's engines breathe (from memory).
pub const VALVE_RATIO: f64 = 9.0;

/// Speed of the gas in a space over the mean speed of the wall that draws it in; φ is cylinder over opening.
pub fn exchange_speed(ratio: f64) -> f64 {
    EXCHANGE_SPEED * (ratio / VALVE_RATIO).cbrt().powi(2)
}

/// Nusselt number on the bore while gas streams in and out; Re by [`exchange_speed`] and bore (Woschni 1967).
pub fn exchange_nusselt(re: f64) -> f64 {
    0.035 * re.powf(0.8)
}

/// Film of two mechanisms side by side, in the unit of both (Churchill and Usagi 1972, exponent 3).
pub fn side_by_side(a: f64, b: f64) -> f64 {
    (a.powi(3) + b.powi(3)).cbrt()
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

    /// Woschni's own form in engineer's units, h = 130 D^−0.2 p^0.8 T^−0.53 w^0.8 with p in kgf/cm² (seen as 129.8 and
    /// p in bar in a secondary page), is this law for air. At 3 bar, 400 K, 70 mm, 1.2 m/s: 130 × 1.702 × 2.408 ×
    /// 0.0418 × 4.971 = 110.7 W/(m² K), by hand. 15 % are left for the gas data of then.
    #[test]
    fn exchange_of_gas_is_the_published_one() {
        let (d, p, t, speed) = (0.07_f64, 3.0_f64, 400.0_f64, 1.2 * exchange_speed(VALVE_RATIO));
        let dimensional = 130.0 * d.powf(-0.2) * p.powf(0.8) * t.powf(-0.53) * speed.powf(0.8);
        assert!((dimensional / 110.7 - 1.0).abs() < 5e-3, "{dimensional}");
        let re = p * 1e5 / (287.05 * t) * speed * d / 2.306e-5;
        let film = exchange_nusselt(re) * 0.03345 / d;
        assert!((film / dimensional - 1.0).abs() < 0.15, "{film} {dimensional}");
    }

    /// By hand: eight times the ratio, four times the speed.
    #[test]
    fn a_narrow_gap_blows_harder() {
        assert!((exchange_speed(8.0 * VALVE_RATIO) / 6.18 - 4.0).abs() < 1e-12);
    }

    #[test]
    fn the_stronger_of_two_mechanisms_decides() {
        assert!((side_by_side(3.0, 0.0) - 3.0).abs() < 1e-12);
        assert!((side_by_side(10.0, 1.0) - 10.003_332).abs() < 1e-5);
        assert!((side_by_side(1.0, 1.0) - 1.259_921).abs() < 1e-6);
    }
}
