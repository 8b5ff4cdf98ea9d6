//! Motion of a piston or displacer by its crank: exact slider-crank, and harmonic motion as its limit.
//!
//! Crank angle is counted from where the crankpin points straight at the cylinder.

use serde::Serialize;

/// Why a mechanism cannot turn.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum MechanismError {
    /// The con rod does not reach over the crank.
    #[error("con rod of {con_rod_mm} mm is too short: throw and offset together are {reach_mm} mm")]
    ConRodTooShort {
        /// Con rod between its pins \[mm\].
        con_rod_mm: f64,
        /// Throw and offset together \[mm\].
        reach_mm: f64,
    },
    /// A throw must be a positive length and an offset a finite one.
    #[error("throw {throw_mm} mm and offset {offset_mm} mm make no crank")]
    NoCrank {
        /// Throw \[mm\].
        throw_mm: f64,
        /// Offset \[mm\].
        offset_mm: f64,
    },
}

/// A slider on a straight line moved by crank and con rod.
///
/// With throw r, con rod L and offset e, the slider stands at y = r cos θ + √(L² − (r sin θ − e)²)
/// from the crank axis along the cylinder (triangle of crank, con rod and axis; plain geometry).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SliderCrank {
    /// Throw, r \[mm\].
    pub throw_mm: f64,
    /// Con rod between its pins, L \[mm\].
    pub con_rod_mm: f64,
    /// Distance of the cylinder axis from the crank axis, e, positive to the side where the
    /// crankpin stands at 90° \[mm\].
    pub offset_mm: f64,
}

impl SliderCrank {
    /// A crank whose cylinder axis runs through its own axis.
    ///
    /// # Errors
    /// [`MechanismError`] where the crank cannot turn: con rod ≤ throw + |offset|, or a throw that is no length.
    pub fn new(throw_mm: f64, con_rod_mm: f64) -> Result<Self, MechanismError> {
        Self::with_offset(throw_mm, con_rod_mm, 0.0)
    }

    /// A crank whose cylinder axis passes it at a distance.
    ///
    /// # Errors
    /// As [`SliderCrank::new`].
    pub fn with_offset(throw_mm: f64, con_rod_mm: f64, offset_mm: f64) -> Result<Self, MechanismError> {
        if !(throw_mm > 0.0 && throw_mm.is_finite() && offset_mm.is_finite()) {
            return Err(MechanismError::NoCrank { throw_mm, offset_mm });
        }
        let reach_mm = throw_mm + offset_mm.abs();
        if !(con_rod_mm > reach_mm && con_rod_mm.is_finite()) {
            return Err(MechanismError::ConRodTooShort { con_rod_mm, reach_mm });
        }
        Ok(Self { throw_mm, con_rod_mm, offset_mm })
    }

    /// Sideways reach of the con rod, r sin θ − e \[mm\], and its reach along the cylinder \[mm\].
    fn reach(&self, angle_rad: f64) -> (f64, f64) {
        let aside = self.throw_mm * angle_rad.sin() - self.offset_mm;
        (aside, ((self.con_rod_mm - aside) * (self.con_rod_mm + aside)).sqrt())
    }

    /// Distance of the slider from the crank axis along the cylinder \[mm\].
    pub fn height_mm(&self, angle_rad: f64) -> f64 {
        self.throw_mm * angle_rad.cos() + self.reach(angle_rad).1
    }

    /// Greatest height, √((L + r)² − e²) \[mm\].
    pub fn top_mm(&self) -> f64 {
        let straight = self.con_rod_mm + self.throw_mm;
        (straight * straight - self.offset_mm * self.offset_mm).sqrt()
    }

    /// Least height, √((L − r)² − e²) \[mm\].
    pub fn bottom_mm(&self) -> f64 {
        let folded = self.con_rod_mm - self.throw_mm;
        (folded * folded - self.offset_mm * self.offset_mm).sqrt()
    }

    /// Crank angle of top dead centre, asin(e / (L + r)) \[rad\].
    pub fn top_dead_centre_rad(&self) -> f64 {
        (self.offset_mm / (self.con_rod_mm + self.throw_mm)).asin()
    }

    /// Crank angle of bottom dead centre, π + asin(e / (L − r)) \[rad\].
    pub fn bottom_dead_centre_rad(&self) -> f64 {
        std::f64::consts::PI + (self.offset_mm / (self.con_rod_mm - self.throw_mm)).asin()
    }

    /// Angle of the con rod against the cylinder axis, positive as the crankpin at 90° \[rad\].
    pub fn con_rod_angle_rad(&self, angle_rad: f64) -> f64 {
        (self.reach(angle_rad).0 / self.con_rod_mm).asin()
    }

    /// Displacement of the slider from its top dead centre \[mm\].
    pub fn displacement_mm(&self, angle_rad: f64) -> f64 {
        self.top_mm() - self.height_mm(angle_rad)
    }

    /// Second derivative of the displacement by the crank angle \[mm per rad²\]: with a = r sin θ − e and
    /// s = √(L² − a²) it is r cos θ − r sin θ a/s + r² cos² θ L²/s³ (plain calculus).
    pub fn curvature_mm(&self, angle_rad: f64) -> f64 {
        let (aside, along) = self.reach(angle_rad);
        let (sin, cos) = angle_rad.sin_cos();
        let ratio = self.con_rod_mm / along;
        self.throw_mm * (cos - sin * aside / along + self.throw_mm * cos * cos * ratio * ratio / along)
    }

    /// Turning of the con rod for each turning of the crank, dβ/dθ = r cos θ / s; positive where the crankpin
    /// is nearer to the cylinder, where the rod turns against the crank.
    pub fn con_rod_rate(&self, angle_rad: f64) -> f64 {
        self.throw_mm * angle_rad.cos() / self.reach(angle_rad).1
    }

    /// Derivative of the displacement by the crank angle \[mm per rad\].
    pub fn slope_mm(&self, angle_rad: f64) -> f64 {
        let (aside, along) = self.reach(angle_rad);
        self.throw_mm * (angle_rad.sin() + angle_rad.cos() * aside / along)
    }
}

/// How a piston or displacer moves over the turn.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Motion {
    /// Harmonic motion: the slider-crank with an endless con rod.
    Harmonic {
        /// Half the stroke \[mm\].
        throw_mm: f64,
    },
    /// Exact motion of crank and con rod.
    SliderCrank(SliderCrank),
    /// The same seen from its far end: displacement counts from bottom dead centre. So moves the displacer of a
    /// rhombic drive, whose yoke hangs below the cranks.
    FromBelow(SliderCrank),
}

impl Motion {
    /// Displacement from top dead centre, seen from below from the bottom one \[mm\].
    pub fn displacement_mm(&self, angle_rad: f64) -> f64 {
        match self {
            Motion::Harmonic { throw_mm } => throw_mm * (1.0 - angle_rad.cos()),
            Motion::SliderCrank(crank) => crank.displacement_mm(angle_rad),
            Motion::FromBelow(crank) => self.stroke_mm() - crank.displacement_mm(angle_rad),
        }
    }

    /// Derivative of the displacement by the crank angle \[mm per rad\].
    pub fn slope_mm(&self, angle_rad: f64) -> f64 {
        match self {
            Motion::Harmonic { throw_mm } => throw_mm * angle_rad.sin(),
            Motion::SliderCrank(crank) => crank.slope_mm(angle_rad),
            Motion::FromBelow(crank) => -crank.slope_mm(angle_rad),
        }
    }

    /// Angle of the con rod against the cylinder axis \[rad\]; an endless one stays straight.
    pub fn con_rod_angle_rad(&self, angle_rad: f64) -> f64 {
        match self {
            Motion::Harmonic { .. } => 0.0,
            Motion::SliderCrank(crank) | Motion::FromBelow(crank) => crank.con_rod_angle_rad(angle_rad),
        }
    }

    /// Stroke between the dead centres \[mm\]; with an offset it is longer than two throws.
    pub fn stroke_mm(&self) -> f64 {
        match self {
            Motion::Harmonic { throw_mm } => 2.0 * throw_mm,
            Motion::SliderCrank(crank) | Motion::FromBelow(crank) => crank.top_mm() - crank.bottom_mm(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI, TAU};

    fn close(a: f64, b: f64, tolerance: f64) {
        assert!((a - b).abs() <= tolerance, "{a} is not {b}");
    }

    fn crank(throw: f64, rod: f64, offset: f64) -> Motion {
        Motion::SliderCrank(SliderCrank::with_offset(throw, rod, offset).unwrap())
    }

    fn seen_from_below() -> Motion {
        Motion::FromBelow(SliderCrank::with_offset(14.0, 40.0, 9.0).unwrap())
    }

    /// Right-angled triangle 3-4-5: with r = 3 and L = 5 the slider at 90° is 3 + 5 − 4 below the top.
    /// Relation s = r cos θ + √(L² − r² sin² θ): J. B. Heywood, Internal Combustion Engine Fundamentals,
    /// 1988, eq. 2.5 (from memory).
    #[test]
    fn quarter_turns_are_the_textbook_ones() {
        let m = crank(3.0, 5.0, 0.0);
        close(m.displacement_mm(0.0), 0.0, 1e-14);
        close(m.displacement_mm(FRAC_PI_2), 4.0, 1e-14);
        close(m.displacement_mm(PI), 6.0, 1e-14);
        close(m.con_rod_angle_rad(FRAC_PI_2), (0.6_f64).asin(), 1e-15);
        close(m.slope_mm(FRAC_PI_2), 3.0, 1e-14);
    }

    /// Triangles 12-16-20 and 9-12-15: with e = 12, L + r = 20 and L − r = 15 the stroke is 16 − 9.
    #[test]
    fn an_offset_crank_has_the_stroke_of_its_two_triangles() {
        let c = SliderCrank::with_offset(2.5, 17.5, 12.0).unwrap();
        let m = Motion::SliderCrank(c);
        close(m.stroke_mm(), 7.0, 1e-13);
        close(m.displacement_mm(c.top_dead_centre_rad()), 0.0, 1e-13);
        close(m.displacement_mm(c.bottom_dead_centre_rad()), 7.0, 1e-13);
        close(m.slope_mm(c.top_dead_centre_rad()), 0.0, 1e-14);
        close(m.slope_mm(c.bottom_dead_centre_rad()), 0.0, 1e-14);
    }

    /// Two-term expansion x = r [(1 − cos θ) + λ/4 (1 − cos 2θ)], λ = r/L: C. F. Taylor, The Internal
    /// Combustion Engine in Theory and Practice, vol. 2, 1968, engine balance (from memory). The next
    /// term of the binomial series is λ³ r sin⁴ θ / 8.
    #[test]
    fn a_long_con_rod_tends_to_the_two_term_expansion() {
        for ratio in [4.0, 8.0, 16.0_f64] {
            let (r, lambda) = (10.0, 1.0 / ratio);
            let m = crank(r, r * ratio, 0.0);
            for i in 0..72 {
                let a = f64::from(i) * TAU / 72.0;
                let two = r * (1.0 - a.cos() + lambda / 4.0 * (1.0 - (2.0 * a).cos()));
                let next = r * lambda.powi(3) * a.sin().powi(4) / 8.0;
                close(m.displacement_mm(a), two + next, r * lambda.powi(5) / 8.0);
            }
        }
    }

    /// Top and bottom change places; with an endless con rod nothing is left of the difference but half a turn.
    #[test]
    fn seen_from_below_the_ends_change_places() {
        let c = SliderCrank::with_offset(2.5, 17.5, 12.0).unwrap();
        let below = Motion::FromBelow(c);
        close(below.displacement_mm(c.bottom_dead_centre_rad()), 0.0, 1e-13);
        close(below.displacement_mm(c.top_dead_centre_rad()), 7.0, 1e-13);
        close(below.stroke_mm(), 7.0, 1e-13);
        let long = Motion::FromBelow(SliderCrank::new(10.0, 1e7).unwrap());
        close(long.displacement_mm(1.0), crank(10.0, 1e7, 0.0).displacement_mm(1.0 + PI), 1e-5);
    }

    #[test]
    fn an_endless_con_rod_gives_harmonic_motion() {
        let harmonic = Motion::Harmonic { throw_mm: 10.0 };
        let long = crank(10.0, 1e7, 0.0);
        for i in 0..36 {
            let a = f64::from(i) * TAU / 36.0;
            close(long.displacement_mm(a), harmonic.displacement_mm(a), 1e-5);
            close(long.slope_mm(a), harmonic.slope_mm(a), 1e-5);
        }
        assert_eq!(harmonic.stroke_mm(), 20.0);
    }

    #[test]
    fn slopes_agree_with_finite_differences() {
        for m in [
            crank(14.0, 60.0, 0.0),
            crank(14.0, 40.0, 9.0),
            Motion::Harmonic { throw_mm: 14.0 },
            seen_from_below(),
        ] {
            for i in 0..36 {
                let (a, h) = (f64::from(i) * TAU / 36.0, 1e-4);
                let difference = (m.displacement_mm(a + h) - m.displacement_mm(a - h)) / (2.0 * h);
                close(m.slope_mm(a), difference, 1e-6);
            }
        }
    }

    #[test]
    fn curvature_and_rod_rate_agree_with_finite_differences() {
        for c in [SliderCrank::new(14.0, 60.0).unwrap(), SliderCrank::with_offset(14.0, 40.0, 9.0).unwrap()] {
            for i in 0..36 {
                let (a, h) = (f64::from(i) * TAU / 36.0, 1e-5);
                close(c.curvature_mm(a), (c.slope_mm(a + h) - c.slope_mm(a - h)) / (2.0 * h), 1e-6);
                let rate = (c.con_rod_angle_rad(a + h) - c.con_rod_angle_rad(a - h)) / (2.0 * h);
                close(c.con_rod_rate(a), rate, 1e-8);
            }
        }
    }

    #[test]
    fn cranks_that_cannot_turn_are_refused() {
        let short = SliderCrank::with_offset(14.0, 20.0, -6.0);
        assert_eq!(short, Err(MechanismError::ConRodTooShort { con_rod_mm: 20.0, reach_mm: 20.0 }));
        for (throw, rod, offset) in
            [(0.0, 9.0, 0.0), (-1.0, 9.0, 0.0), (f64::NAN, 9.0, 0.0), (1.0, 9.0, f64::NAN)]
        {
            assert!(matches!(
                SliderCrank::with_offset(throw, rod, offset),
                Err(MechanismError::NoCrank { .. })
            ));
        }
        assert!(SliderCrank::new(1.0, f64::INFINITY).is_err() && SliderCrank::new(1.0, f64::NAN).is_err());
    }
}
