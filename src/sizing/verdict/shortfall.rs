//! By how much an engine misses the power wanted of it, and what charge pressure would do it.

use super::change::Change;
use super::net_work::NetWork;
use super::search::root;
use super::speeds::SpeedPoint;

/// How far the charge may be raised in the search, and by how much from try to try.
const MOST_CHARGE: f64 = 200.0;
const STEP: f64 = 1.25;

/// What more charge pressure can do, gas and space behind the piston alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ByCharge {
    /// It gives the power wanted at this pressure \[Pa\].
    Enough {
        /// Charge \[Pa\].
        charge_pa: f64,
    },
    /// It never does within the limit of pressure; the best of what was tried.
    Best {
        /// Charge \[Pa\].
        charge_pa: f64,
        /// Shaft power with it \[W\].
        power_w: f64,
    },
}

/// Power wanted against power given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shortfall {
    /// Power wanted \[W\].
    pub wanted_w: f64,
    /// Power that the model gives \[W\].
    pub given_w: f64,
    /// Speed at which it does \[rpm\].
    pub speed_rpm: f64,
    /// Greatest power at any speed \[rpm, W\], where a curve is known.
    pub most: Option<(f64, f64)>,
    /// What more charge would do, where it was tried.
    pub by_charge: Option<ByCharge>,
}

impl Shortfall {
    /// `None` where the power wanted is met.
    pub fn of(wanted_w: f64, given_w: f64, speed_rpm: f64) -> Option<Self> {
        (given_w < wanted_w).then_some(Self { wanted_w, given_w, speed_rpm, most: None, by_charge: None })
    }

    /// With the best of the curve, and the charge that would do it at the same speed.
    pub fn with(self, best: Option<&SpeedPoint>, by_charge: Option<ByCharge>) -> Self {
        let most = best.map(|p| (p.speed_rpm, p.power_w)).filter(|(_, w)| *w > self.given_w);
        Self { most, by_charge, ..self }
    }

    /// In words: what is given, what is missing and by how much.
    pub fn words(&self, model: &str) -> String {
        let Self { wanted_w, given_w, speed_rpm, .. } = self;
        let mut words = format!(
            "the {model} model gives {} at {speed_rpm:.0} rpm, {} less than targets.power",
            watts(*given_w),
            watts(wanted_w - given_w)
        );
        let (rpm, most) = self.most.unwrap_or((*speed_rpm, *given_w));
        if most <= 0.0 {
            return words + if self.most.is_some() { "; no speed worked out gives any" } else { "" };
        }
        if self.most.is_some() {
            words += &format!("; its best is {}, at {rpm:.0} rpm", watts(most));
        }
        if *wanted_w > 2.0 * most {
            words += &format!("; out of reach: {} are {:.1} times that", watts(*wanted_w), wanted_w / most);
        }
        words
    }

    /// What to do about it.
    pub fn hint(&self) -> String {
        let slower = self.most.is_some_and(|(rpm, _)| rpm < self.speed_rpm);
        let mut others = String::from("enlarge displacer.bore and strokes");
        match self.most.filter(|(_, w)| *w > 0.0) {
            Some((rpm, _)) => others += &format!(", or set targets.speed near {rpm:.0} rpm"),
            None if slower => {}
            None => others += ", or raise targets.speed",
        }
        let bar = |pa: f64| pa / 1e5;
        match self.by_charge {
            None => format!("{others}, or raise engine.charge_pressure"),
            Some(ByCharge::Enough { charge_pa }) => format!(
                "at this speed {:.2} bar abs in the gas and behind the piston would give it: more than 0.5 bar over the air's pressure may be pressure equipment in law, see the cautions; or {others}",
                bar(charge_pa)
            ),
            Some(ByCharge::Best { power_w, .. }) if power_w <= self.given_w => {
                format!("more charge pressure gives no more at this speed; {others}")
            }
            Some(ByCharge::Best { charge_pa, power_w }) => format!(
                "more charge pressure alone does not give it: at this speed {} at the most, with {:.2} bar abs; {others}",
                watts(power_w),
                bar(charge_pa)
            ),
        }
    }
}

/// Power with as many digits as matter.
fn watts(power_w: f64) -> String {
    if power_w.abs() < 1.0 { format!("{power_w:.2} W") } else { format!("{power_w:.1} W") }
}

/// Charge that gives a power at a speed, from the present one upwards as far as the greatest pressure stays within the
/// limit. `None` where the model has no answer even for the engine as it is.
pub fn by_charge(
    net: &dyn NetWork,
    base: &Change,
    speed_rpm: f64,
    wanted_w: f64,
    charge_pa: f64,
    limit_pa: f64,
) -> Option<ByCharge> {
    let power_w = |factor: f64| {
        let work = net.at(speed_rpm, &base.and(&Change { charge: factor, ..Change::NONE })).ok()?;
        (factor == 1.0 || work.pressure_max_pa <= limit_pa).then(|| work.power_w())
    };
    let mut last = (1.0, power_w(1.0)?);
    let mut best = last;
    while last.1 < wanted_w && last.0 < MOST_CHARGE {
        let factor = last.0 * STEP;
        let Some(power) = power_w(factor) else { break };
        if power >= wanted_w {
            let missing = |factor: f64| power_w(factor).map(|w| w - wanted_w);
            let ends = [(last.0, last.1 - wanted_w), (factor, power - wanted_w)];
            return Some(ByCharge::Enough { charge_pa: charge_pa * root(ends, 1e-3, missing)? });
        }
        last = (factor, power);
        best = if power > best.1 { last } else { best };
    }
    Some(ByCharge::Best { charge_pa: charge_pa * best.0, power_w: best.1 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::verdict::cases::engine;

    /// Words with the figures by hand: 120 − 9.8, 120/10.
    #[test]
    fn what_is_missing_is_told_by_how_much() {
        assert_eq!(Shortfall::of(4.0, 9.8, 300.0), None);
        let short = Shortfall::of(120.0, 9.8, 300.0).unwrap();
        let best =
            SpeedPoint { speed_rpm: 330.0, torque_nm: 0.3, indicated_j: 2.0, net_j: 1.8, power_w: 10.0 };
        let words = short.with(Some(&best), None).words("full");
        assert!(words.contains("gives 9.8 W at 300 rpm, 110.2 W less than targets.power"), "{words}");
        assert!(
            words.contains("its best is 10.0 W, at 330 rpm; out of reach: 120.0 W are 12.0 times"),
            "{words}"
        );
        let none = Shortfall::of(5.0, -1.0, 300.0).unwrap();
        let brakes = none.with(Some(&SpeedPoint { power_w: -0.2, ..best }), None);
        let words = brakes.words("full");
        assert!(
            words.contains("gives -1.0 W") && words.ends_with("no speed worked out gives any"),
            "{words}"
        );
        assert!(brakes.hint().starts_with("enlarge"));
    }

    /// The charge found gives the power wanted when the model is asked again.
    #[test]
    fn the_charge_found_does_it() {
        let engine = engine();
        let now = engine.at(300.0, &Change::NONE).unwrap().power_w();
        let wanted = 1.1 * now;
        let Some(ByCharge::Enough { charge_pa }) =
            by_charge(&engine, &Change::NONE, 300.0, wanted, 101_325.0, 1e7)
        else {
            panic!("no charge gives {wanted} W")
        };
        let charge = charge_pa / 101_325.0;
        let power = engine.at(300.0, &Change { charge, ..Change::NONE }).unwrap().power_w();
        assert!((power / wanted - 1.0).abs() < 5e-3, "{power} {wanted}");
        // in proportion at the best; where heat transfer does not keep up, more is needed
        assert!((1.1..1.5).contains(&charge), "{charge}");
    }

    #[test]
    fn a_limit_of_pressure_is_kept() {
        let engine = engine();
        let now = engine.at(300.0, &Change::NONE).unwrap();
        let limit = 2.0 * now.pressure_max_pa;
        let Some(ByCharge::Best { charge_pa, power_w }) =
            by_charge(&engine, &Change::NONE, 300.0, 1e3 * now.power_w(), 101_325.0, limit)
        else {
            panic!("out of reach")
        };
        let charge = charge_pa / 101_325.0;
        let there = engine.at(300.0, &Change { charge, ..Change::NONE }).unwrap();
        assert!(there.pressure_max_pa <= limit && (there.power_w() / power_w - 1.0).abs() < 1e-9);
        assert!(charge > 1.2 && power_w > now.power_w());
    }
}
