//! Shaking forces of the cranks, and the holes in the flywheel that balance them where a design asks for it.
//!
//! What goes to and fro with mass m on a crank of throw r and a con rod of length l shakes the frame along its cylinder with
//! m r ω² (cos θ + (r / l) cos 2θ); what goes round with an unbalance U (mass times arm) shakes it with U ω² towards U
//! (Norton, Design of Machinery, ch. 13 and 14; from memory). Metal taken out of the flywheel on the side of the crankpin
//! takes up all that goes round with the cranks on its shaft, and a share of what goes to and fro: so much less along the
//! cylinder, so much more across it. Two lines at a right angle on one pin ask for the mean of both masses: with equal masses
//! nothing of the first order is left. The wheel stands beside the cranks, so that forces are balanced and a moment about
//! the bracket remains.

use super::super::Refused;
use crate::catalogue::threads::thread;
use crate::design::Design;
use crate::shape::Point2;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::Outline;
use crate::sizing::decide::{Decide, round_near};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{Arranged, BalanceHoles, Crank, Engine, MadeWheel};
use crate::sizing::mechanism::masses::{density, kg};
use crate::sizing::mechanism::{BIG_END, Masses, masses};
use crate::sizing::volumes::circle_mm2;
use std::f64::consts::TAU;

const NORTON: &str = "Norton, Design of Machinery, ch. 13, from memory";
/// Metal beside a balance hole \[mm\] (common practice, no source).
const WALL_MM: f64 = 3.0;
/// Largest balance hole \[mm\]: a drill that a small machine turns (common practice, no source).
const LARGEST_MM: f64 = 20.0;
/// Most balance holes.
const MOST_HOLES: usize = 9;
/// Greatest angle from the heavy side at which a hole still helps \[deg\].
const WIDEST_DEG: f64 = 75.0;

/// Area \[mm²\] and first moment along X \[mm³\] of the outline of a plate, by the polygon of its points (Green's theorem).
pub fn section(outline: &Loop) -> [f64; 2] {
    /// Points that an arc is cut into: within a thousandth.
    const CUTS: usize = 64;
    let cut =
        |p: &crate::shape::loops::Piece| (0..CUTS).map(|i| p.at(i as f64 / CUTS as f64)).collect::<Vec<_>>();
    let points: Vec<Point2> = outline.pieces().iter().flat_map(cut).collect();
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).fold([0.0; 2], |sum, (a, b)| {
        let cross = a.x * b.y - b.x * a.y;
        [sum[0] + 0.5 * cross, sum[1] + cross * (a.x + b.x) / 6.0]
    })
}

/// One line of what goes to and fro, or an unbalance alone.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shaker {
    /// Mass \[kg\].
    pub mass_kg: f64,
    /// Throw \[mm\].
    pub throw_mm: f64,
    /// Throw over con rod.
    pub ratio: f64,
    /// Its cylinder stands along X, not along the displacer's.
    pub across: bool,
    /// How far its pin is behind the displacer's \[rad\].
    pub behind_rad: f64,
    /// Unbalance that goes round with its pin \[kg mm\].
    pub round_kg_mm: f64,
}

/// Greatest force on the frame across and along the displacer's cylinder at a speed \[N\].
pub fn shaking_n(lines: &[Shaker], speed_rpm: f64) -> [f64; 2] {
    let omega2 = (TAU * speed_rpm / 60.0).powi(2) * 1e-3;
    let at = |deg: i32| {
        let mut sum = [0.0; 2];
        for s in lines {
            let pin = f64::from(deg).to_radians() - s.behind_rad;
            // the pin points along Z at 0 and goes on towards X
            let own = if s.across { pin - 0.25 * TAU } else { pin };
            let slides = s.mass_kg * s.throw_mm * (own.cos() + s.ratio * (2.0 * own).cos());
            sum[usize::from(!s.across)] += omega2 * slides;
            sum[0] += omega2 * s.round_kg_mm * pin.sin();
            sum[1] += omega2 * s.round_kg_mm * pin.cos();
        }
        sum
    };
    (0..360).map(at).fold([0.0; 2], |most, n| [most[0].max(n[0].abs()), most[1].max(n[1].abs())])
}

/// What moves on the cranks of an engine.
struct Moving<'a> {
    e: &'a Engine,
    density_kg_m3: f64,
    m: Masses,
}

impl<'a> Moving<'a> {
    fn of(e: &'a Engine) -> Self {
        Self { e, density_kg_m3: density(e, &e.drive.material), m: masses(e) }
    }

    /// What goes round with a pin that carries `rods`, times its throw \[kg mm\].
    fn pin_kg_mm(&self, crank: &Crank, rods: f64) -> f64 {
        let d = &self.e.drive;
        let tapped = thread("M3").map_or(0.0, |t| t.tap_drill_mm);
        let area = circle_mm2(d.crankpin_bearing.bore_mm) - circle_mm2(tapped);
        let pin = kg(area * d.con_rod_thickness_mm, self.density_kg_m3);
        rods * (BIG_END * self.m.con_rod_kg + pin) * crank.throw_mm
    }

    /// Unbalance of a plate `thick` \[mm\] of the cranks' metal \[kg mm\].
    fn plate_kg_mm(&self, outline: &Loop, thick: f64) -> f64 {
        kg(section(outline)[1] * thick, self.density_kg_m3)
    }

    /// Unbalance of a web.
    fn web_kg_mm(&self, crank: &Crank) -> f64 {
        let d = &self.e.drive;
        let [journal, tip] = d.web_r_mm;
        let circles = vec![(Point2::new(0.0, 0.0), journal), (Point2::new(crank.throw_mm, 0.0), tip)];
        self.plate_kg_mm(&Outline::around(circles, "web").boundary(), d.web_mm)
    }

    fn line(&self, slider_kg: f64, crank: &Crank, behind_deg: f64, round_kg_mm: f64) -> Shaker {
        Shaker {
            mass_kg: slider_kg + (1.0 - BIG_END) * self.m.con_rod_kg,
            throw_mm: crank.throw_mm,
            ratio: crank.throw_mm / self.e.drive.con_rod_mm,
            across: false,
            behind_rad: behind_deg.to_radians(),
            round_kg_mm,
        }
    }

    /// Both lines, displacer first; `None` for a crankshaft that is built up of webs on both sides of its pins.
    fn lines(&self) -> Option<[Shaker; 2]> {
        let d = &self.e.drive;
        let (first, second, lead) = (&d.displacer, &d.piston, d.lead_deg);
        let displacer = |round: f64| self.line(self.m.displacer_kg, first, 0.0, round);
        let piston = |round: f64| self.line(self.m.piston_kg, second, lead, round);
        let each = |crank: &Crank| self.pin_kg_mm(crank, 1.0) + self.web_kg_mm(crank);
        match &self.e.arranged {
            Arranged::GammaTwinCrank(_) => Some([displacer(each(first)), piston(each(second))]),
            // one pin and one web, counted with the displacer's line
            Arranged::GammaRightAngle(_) => {
                let both = self.pin_kg_mm(first, 2.0) + self.web_kg_mm(first);
                Some([displacer(both), Shaker { across: true, behind_rad: 0.0, ..piston(0.0) }])
            }
            Arranged::GammaFlat(own) => {
                let (throw, r) = (second.throw_mm, own.shaft.crank_r_mm);
                let bar = Loop::Path(vec![
                    Node::line(-r, -r),
                    Node::arc(throw, -r, throw, 0.0, true),
                    Node::line(throw, r),
                    Node::line(-r, r),
                ]);
                let bar = self.plate_kg_mm(&bar, own.shaft.crank_mm);
                Some([displacer(each(first)), piston(self.pin_kg_mm(second, 1.0) + bar)])
            }
            Arranged::BetaCoaxial(_) => None,
        }
    }

    /// Unbalance to be met on the wheel's shaft with a share of what goes to and fro, in the wheel's own X and Y, X towards the
    /// pin by which it is set \[kg mm\].
    fn wanted(&self, lines: &[Shaker; 2], share: f64) -> [f64; 2] {
        let [first, second] = lines;
        let all = |s: &Shaker| s.round_kg_mm + share * s.mass_kg * s.throw_mm;
        match &self.e.arranged {
            // the wheel sits on the piston's crank alone
            Arranged::GammaTwinCrank(_) => [all(second), 0.0],
            Arranged::GammaRightAngle(_) => {
                let mean = 0.5 * (first.mass_kg + second.mass_kg);
                [first.round_kg_mm + share * mean * first.throw_mm, 0.0]
            }
            // both cranks on one shaft; the wheel is set by the displacer's, its Y runs against the turn
            Arranged::GammaFlat(_) | Arranged::BetaCoaxial(_) => {
                let (sin, cos) = second.behind_rad.sin_cos();
                [all(first) + all(second) * cos, all(second) * sin]
            }
        }
    }

    /// The unbalance of holes as a line of its own: `at_rad` is their middle in the wheel's own frame.
    fn holes(&self, u_kg_mm: f64, at_rad: f64) -> Shaker {
        let set_by = if matches!(self.e.arranged, Arranged::GammaTwinCrank(_)) {
            self.e.drive.lead_deg.to_radians()
        } else {
            0.0
        };
        Shaker { behind_rad: set_by + at_rad, round_kg_mm: -u_kg_mm, ..Shaker::default() }
    }
}

/// Where holes have room in a wheel: circle of their centres and largest diameter \[mm\].
fn place(wheel: &MadeWheel, diameter_mm: f64) -> [f64; 2] {
    let inner = match &wheel.holes {
        Some(h) => 0.5 * (h.circle_mm + h.diameter_mm),
        None => 0.5 * wheel.hub.flange_mm[0],
    };
    let hole = (0.5 * diameter_mm - inner - 2.0 * WALL_MM).min(LARGEST_MM);
    [diameter_mm - 2.0 * WALL_MM - hole, hole]
}

/// Angles of `count` holes about the heavy side \[deg\].
fn angles(count: usize, circle: f64, hole: f64) -> Vec<f64> {
    let step = 2.0 * ((hole + WALL_MM) / circle).clamp(-1.0, 1.0).asin().to_degrees();
    (0..count).map(|i| (i as f64 - 0.5 * (count - 1) as f64) * step).collect()
}

/// Holes that take an unbalance \[kg mm\] out of a wheel of `kg_mm2` \[kg for each mm²\]; else the most that they can take.
fn holes(wheel: &MadeWheel, diameter_mm: f64, kg_mm2: f64, wanted: f64) -> Result<BalanceHoles, f64> {
    let [circle, largest] = place(wheel, diameter_mm);
    let mut most = 0.0;
    if largest < 2.0 {
        return Err(most);
    }
    for count in 1..=MOST_HOLES {
        let angles_deg = angles(count, circle, largest);
        if angles_deg.iter().any(|a| a.abs() > WIDEST_DEG) {
            break;
        }
        let arm = 0.5 * circle * angles_deg.iter().map(|a| a.to_radians().cos()).sum::<f64>();
        most = kg_mm2 * circle_mm2(largest) * arm;
        if most >= wanted {
            let diameter = (wanted / (kg_mm2 * circle_mm2(1.0) * arm)).sqrt();
            // to a tenth, as drills and boring heads are set
            let diameter_mm = round_near(diameter, 0.1).clamp(1.0, largest);
            return Ok(BalanceHoles { diameter_mm, circle_mm: circle, angles_deg });
        }
    }
    Err(most)
}

/// Decides the balance that a design asks for, once its masses are known, and tells how the engine shakes.
///
/// # Errors
/// A share that the flywheel cannot give.
pub fn decide(design: &Design, mut e: Engine) -> Result<Engine, Refused> {
    let asked = design.drive.balance.as_ref();
    let mut d = Decide { design, ledger: std::mem::take(&mut e.ledger), problems: Vec::new() };
    let speed = design.targets.speed_rpm.value;
    let moving = Moving::of(&e);
    let lines = moving.lines();
    let mut found = None;
    if let Some(lines) = &lines {
        told(
            &mut d,
            ["drive.shaking_across", "drive.shaking_along"],
            shaking_n(lines, speed),
            "as the cranks are",
        );
    }
    if let Some(share) = asked {
        let share = d.setting("drive.balance", share, Unit::Ratio);
        let made = e.flywheel.made.as_ref();
        match (&lines, made) {
            (Some(lines), Some(made)) => {
                let [x, y] = moving.wanted(lines, share);
                let stuff = kg(made.width_mm, density(&e, &made.material));
                match holes(made, e.flywheel.diameter_mm, stuff, x.hypot(y)) {
                    Ok(mut h) => {
                        let at_rad = y.atan2(x);
                        let cos = h.angles_deg.iter().map(|a| a.to_radians().cos()).sum::<f64>();
                        let u = stuff * circle_mm2(h.diameter_mm) * 0.5 * h.circle_mm * cos;
                        h.angles_deg.iter_mut().for_each(|a| *a += at_rad.to_degrees());
                        let all = [lines[0], lines[1], moving.holes(u, at_rad)];
                        let left = shaking_n(&all, speed);
                        told(
                            &mut d,
                            ["drive.shaking_across_balanced", "drive.shaking_along_balanced"],
                            left,
                            "with the balance holes",
                        );
                        found = Some((h, stuff));
                    }
                    Err(most) => {
                        too_much(&mut d, [moving.wanted(lines, 0.0), moving.wanted(lines, 1.0)], most)
                    }
                }
            }
            _ => nothing_for_it(&mut d, lines.is_none()),
        }
    }
    if let Some((h, stuff)) = found {
        bored(&mut d, &mut e, h, stuff);
    }
    if !d.problems.is_empty() {
        return Err(d.refused());
    }
    e.ledger = d.ledger;
    Ok(e)
}

/// Records the holes, and what they leave of the wheel.
fn bored(d: &mut Decide, e: &mut Engine, h: BalanceHoles, kg_mm2: f64) {
    let inputs = ["drive.balance", "flywheel.diameter", "flywheel.width"];
    let why = ("all that goes round on its shaft, and the share of what goes to and fro", NORTON);
    d.rule("flywheel.balance_hole_diameter", h.diameter_mm, why, &inputs);
    let common = "common practice, no source";
    d.rule(
        "flywheel.balance_hole_circle",
        h.circle_mm,
        ("3 mm of metal to the rim", common),
        &["flywheel.diameter"],
    );
    d.rule_in(
        "flywheel.balance_holes",
        h.angles_deg.len() as f64,
        Unit::Count,
        ("the fewest that are large enough, 3 mm apart or more", common),
        &inputs,
    );
    let (n, one) = (h.angles_deg.len() as f64, kg_mm2 * circle_mm2(h.diameter_mm));
    let polar = 0.25 * h.circle_mm.powi(2) + 0.125 * h.diameter_mm.powi(2);
    let wheel = &mut e.flywheel;
    wheel.mass_kg = d.rule_in(
        "flywheel.balanced_mass",
        wheel.mass_kg - n * one,
        Unit::Kilogram,
        ("mass less the balance holes", "plain geometry"),
        &["flywheel.mass", "flywheel.balance_hole_diameter"],
    );
    wheel.inertia_kg_m2 = d.rule_in(
        "flywheel.balanced_inertia",
        wheel.inertia_kg_m2 - n * one * polar * 1e-6,
        Unit::KilogramSquareMetre,
        ("inertia less the balance holes", "plain geometry"),
        &["flywheel.inertia", "flywheel.balance_hole_diameter", "flywheel.balance_hole_circle"],
    );
    if let Some(made) = &mut wheel.made {
        made.balance = Some(h);
    }
}

/// Records the greatest forces across and along the displacer's cylinder.
fn told(d: &mut Decide, paths: [&str; 2], forces: [f64; 2], how: &str) {
    let inputs = ["drive.displacer_throw", "drive.piston_throw", "drive.con_rod_length"];
    for ((path, way), n) in paths.into_iter().zip(["across", "along"]).zip(forces) {
        let words =
            format!("greatest force on the frame {way} the displacer's cylinder at the target speed, {how}");
        d.rule_in(path, round_near(n, 0.01), Unit::Newton, (words.as_str(), NORTON), &inputs);
    }
}

/// Refuses a share that asks for more than the wheel's holes take out; `ends` is what 0 and 100 % want.
fn too_much(d: &mut Decide, ends: [[f64; 2]; 2], most: f64) {
    let [none, all] = ends.map(|[x, y]| x.hypot(y));
    let bound = (most - none) / (all - none).max(1e-9);
    let (message, allowed) = if bound < 0.0 {
        (
            "holes in the flywheel do not even balance what goes round with the cranks".to_owned(),
            "leave it out".to_owned(),
        )
    } else {
        let percent = (100.0 * bound).floor();
        (
            format!("holes in the flywheel balance at the most {percent:.0} % of what goes to and fro"),
            format!("0 % to {percent:.0} %"),
        )
    };
    let hint =
        "a larger flywheel.diameter, a wider flywheel.width or rim, or a smaller drive.balance".to_owned();
    d.refuse("swept::range", "drive.balance", message, allowed, hint);
}

/// Refuses a balance where there is no wheel for it, or no cranks of which the masses are known.
fn nothing_for_it(d: &mut Decide, built_up: bool) {
    let (message, allowed) = if built_up {
        (
            "drive.balance is not worked out for a built-up crankshaft between two plates",
            "gamma-twin-crank, gamma-right-angle, gamma-flat",
        )
    } else {
        ("drive.balance bores holes into the flywheel, and this one you have already", "a wheel that is made")
    };
    let hint = "leave drive.balance out".to_owned();
    d.refuse("swept::contradiction", "drive.balance", message.into(), allowed.into(), hint);
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn line(across: bool, round_kg_mm: f64, ratio: f64) -> Shaker {
        Shaker { mass_kg: 0.4, throw_mm: 20.0, ratio, across, behind_rad: 0.0, round_kg_mm }
    }

    /// Half of the mass balanced turns half of the first-order force across (any text on single cylinders); 0.4 kg at 20 mm
    /// and 3000 rpm: m r ω² = 0.4 × 0.02 × 314.159² = 789.57 N, by hand.
    #[test]
    fn half_a_balance_shares_the_force_between_both_ways() {
        let [across, along] = shaking_n(&[line(false, 0.0, 0.0)], 3000.0);
        assert!(across.abs() < 1e-9 && (along - 789.57).abs() < 0.01, "{across} {along}");
        let [across, along] = shaking_n(&[line(false, -4.0, 0.0)], 3000.0);
        assert!((across - 394.78).abs() < 0.01 && (along - 394.78).abs() < 0.01, "{across} {along}");
    }

    /// Two equal lines at a right angle on one pin: an unbalance of the whole mass at the throw opposite the pin leaves
    /// nothing of the first order (Norton, ch. 14; Den Hartog, Mechanical Vibrations; from memory). Of the second order is
    /// left m r ω² r / l in either direction.
    #[test]
    fn a_right_angle_is_balanced_but_for_the_second_order() {
        let [across, along] = shaking_n(&[line(false, -8.0, 0.0), line(true, 0.0, 0.0)], 3000.0);
        assert!(across < 1e-6 && along < 1e-6, "{across} {along}");
        let [across, along] = shaking_n(&[line(false, -8.0, 0.25), line(true, 0.0, 0.25)], 3000.0);
        assert!((across - 197.39).abs() < 0.01 && (along - 197.39).abs() < 0.01, "{across} {along}");
    }

    /// Disc off the axis, half disc: area times arm, 2/3 R³ about the flat (any handbook).
    #[test]
    fn sections_are_those_of_the_handbook() {
        let [area, moment] = section(&Loop::circle(3.0, 0.0, 10.0));
        assert!((area / (PI * 100.0) - 1.0).abs() < 2e-3 && (moment / (300.0 * PI) - 1.0).abs() < 2e-3);
        let half = Loop::Path(vec![Node::arc(0.0, -9.0, 0.0, 0.0, true), Node::line(0.0, 9.0)]);
        assert!((section(&half)[1] / (2.0 / 3.0 * 729.0) - 1.0).abs() < 2e-3);
    }

    #[test]
    fn holes_stand_apart_about_the_heavy_side() {
        let found = angles(3, 200.0, 17.0);
        assert!((found[1]).abs() < 1e-12 && (found[0] + found[2]).abs() < 1e-12);
        let chord = 200.0 * (0.5 * found[2].to_radians()).sin();
        assert!((chord - 20.0).abs() < 1e-9, "{chord}");
    }
}
