//! Forces in one line of slider, con rod and crank at one angle.
//!
//! The slider is pushed by gas, inertia and weight; seals and guides hold it back. With the con rod at β the side
//! force is N = P tan β, P the force that is left for the con rod, and the guides hold back κ |N|. Since P depends on
//! the friction and the friction on P, with s the sign of the motion,
//!   P = (P₀ − s F) / (1 + s κ |tan β| sign P),
//! which is exact and keeps the sign of P₀ − s F while κ |tan β| < 1; beyond that the rod jams. (Statics;
//! Coulomb friction.) Gas that drives the crank loses to friction, and a crank that drives the gas needs the more for
//! it: forced work is paid for twice.

use super::factors::FrictionFactors;
use super::model::{Line, Riding};
use std::f64::consts::TAU;

/// Standard gravity \[m/s²\].
const GRAVITY: f64 = 9.806_65;

/// Where friction acts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Element {
    /// Piston rings.
    Rings,
    /// Rod gland.
    Gland,
    /// Guides of a rod.
    Guides,
    /// Small end and crankpin.
    ConRodBearings,
    /// Journals of the crank.
    Journals,
}

/// Elements of a line in the order of [`LineForces::friction_nmm`].
pub const ELEMENTS: [Element; 5] =
    [Element::Rings, Element::Gland, Element::Guides, Element::ConRodBearings, Element::Journals];

/// Forces \[N\] and torques \[N mm\] at one angle.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LineForces {
    /// Gas on the slider \[N\].
    pub gas_n: f64,
    /// Inertia of what goes to and fro \[N\].
    pub inertia_n: f64,
    /// Along the cylinder, left for the con rod \[N\].
    pub axial_n: f64,
    /// Across the cylinder at the small end \[N\].
    pub side_n: f64,
    /// Along the con rod \[N\].
    pub con_rod_n: f64,
    /// On the lower and upper guide \[N\].
    pub guides_n: [f64; 2],
    /// On the crankpin bearing, with the con rod's share in going round \[N\].
    pub crankpin_n: f64,
    /// Both journals' loads together, without the belt \[N\].
    pub journals_n: f64,
    /// Torque of the gas at the crank \[N mm\].
    pub gas_nmm: f64,
    /// Torque of the inertia at the crank, nothing over a whole turn \[N mm\].
    pub inertia_nmm: f64,
    /// Torque left at the crank after all friction but that of the journals \[N mm\].
    pub crank_nmm: f64,
    /// What friction takes, by `ELEMENTS`, as torque at the crank \[N mm\]; journals without belt pull.
    pub friction_nmm: [f64; 5],
    /// Friction of seals and guides on what they sit in, towards the crank \[N\].
    pub drag_n: f64,
}

/// What a rod that runs through a slider does to it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Handed {
    /// Friction along it, towards the crank \[N\].
    pub along_n: f64,
    /// Side force of its con rod \[N\].
    pub side_n: f64,
    /// How far below the slider's lower guide that acts \[mm\].
    pub below_mm: f64,
}

/// Running conditions at one angle.
#[derive(Clone, Copy, Debug)]
pub(super) struct At<'a> {
    /// Crank angle from the line's own top dead centre \[rad\].
    pub angle_rad: f64,
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Gas pressure over that of the buffer \[Pa\].
    pub over_pa: f64,
    /// Hot less cold pressure \[Pa\].
    pub drop_pa: f64,
    /// Displacement of the other slider \[mm\] and its slope \[mm per rad\].
    pub other: [f64; 2],
    /// What a rod through this slider hands it.
    pub handed: Handed,
    /// Factors on friction.
    pub factors: &'a FrictionFactors,
}

/// What rubs along the slider: constant part \[N\] by rings, gland, guides, and κ.
struct Rubbing {
    rings_n: f64,
    gland_n: f64,
    guides_n: f64,
    guide_factor: f64,
    lever: f64,
}

impl Line {
    fn rubbing(&self, at: &At<'_>, displacement_mm: f64) -> Rubbing {
        let (guides, f) = (&self.guides, at.factors);
        let lever = guides.lever(displacement_mm, at.other[0]);
        let (lower, upper) = (guides.lower.friction(), guides.upper.friction());
        let hung = at.handed.below_mm / guides.span_mm;
        let handed = at.handed.side_n.abs() * (lower * (1.0 + hung).abs() + upper * hung.abs());
        Rubbing {
            rings_n: f.rings * self.seals.rings.map_or(0.0, |r| r.force_n(at.over_pa)),
            gland_n: f.gland * self.seals.gland.map_or(0.0, |g| g.force_n(at.over_pa)),
            guides_n: f.guides * (guides.lower.drag_n() + guides.upper.drag_n() + handed),
            guide_factor: f.guides * (lower * (1.0 + lever).abs() + upper * lever.abs()),
            lever,
        }
    }

    /// Gas, inertia and weight on the slider \[N\].
    fn pushes(&self, at: &At<'_>) -> (f64, f64, f64) {
        let omega = TAU * at.speed_rpm / 60.0;
        let gas = (at.over_pa * self.pressed_mm2 + at.drop_pa * self.drop_mm2) * 1e-6;
        let inertia = -self.reciprocating_kg() * omega * omega * self.crank.curvature_mm(at.angle_rad) * 1e-3;
        (gas, inertia, self.reciprocating_kg() * GRAVITY * self.gravity)
    }

    /// Forces at an angle; `None` where the rod jams in its guides.
    pub(super) fn forces(&self, at: &At<'_>) -> Option<LineForces> {
        let (x, slope) = (self.crank.displacement_mm(at.angle_rad), self.crank.slope_mm(at.angle_rad));
        let tan = self.crank.con_rod_angle_rad(at.angle_rad).tan();
        let rub = self.rubbing(at, x);
        let (gas_n, inertia_n, weight_n) = self.pushes(at);
        let slides = match self.guides.riding {
            Riding::OnOther { .. } => slope - at.other[1],
            _ => slope,
        };
        let way = if slides == 0.0 { 0.0 } else { slides.signum() };
        let pushed_n = gas_n + inertia_n + weight_n + at.handed.along_n;
        let free_n = pushed_n - way * (rub.rings_n + rub.gland_n + rub.guides_n);
        let jam = rub.guide_factor * tan.abs();
        if jam >= 1.0 || jam.is_nan() {
            return None;
        }
        let axial_n = free_n / (1.0 + way * jam * free_n.signum());
        let side_n = axial_n * tan;
        let mut forces = LineForces {
            gas_n,
            inertia_n,
            axial_n,
            side_n,
            con_rod_n: axial_n.hypot(side_n),
            guides_n: [side_n * (1.0 + rub.lever), side_n * rub.lever],
            gas_nmm: gas_n * slope,
            inertia_nmm: inertia_n * slope,
            ..LineForces::default()
        };
        let guides_n = rub.guides_n + jam * axial_n.abs();
        let sliding = [rub.rings_n, rub.gland_n, guides_n];
        forces.drag_n = way * sliding.iter().sum::<f64>();
        forces.friction_nmm[..3].copy_from_slice(&sliding.map(|f| f * slides.abs()));
        self.pins(at, &mut forces);
        forces.crank_nmm = axial_n * slope - forces.friction_nmm[3];
        Some(forces)
    }

    /// Loads and friction of the pins.
    fn pins(&self, at: &At<'_>, forces: &mut LineForces) {
        let omega = TAU * at.speed_rpm / 60.0;
        let rate = self.crank.con_rod_rate(at.angle_rad);
        let swing = self.con_rod_big_end * self.con_rod_kg * omega * omega * self.crank.throw_mm * 1e-3;
        forces.crankpin_n = self.pin_load_n(at.angle_rad, forces, swing);
        let lever = self.journals.overhang_mm / self.journals.span_mm;
        forces.journals_n = forces.crankpin_n * (1.0 + 2.0 * lever) + self.journals.steady_n;
        let f = at.factors.bearings;
        let n = self.abreast;
        let small = n * self.small_end.torque_nmm(forces.con_rod_n / n, at.speed_rpm * rate) * rate.abs();
        let big_rate = 1.0 + rate;
        let big =
            n * self.crankpin.torque_nmm(forces.crankpin_n / n, at.speed_rpm * big_rate) * big_rate.abs();
        forces.friction_nmm[3] = f * (small + big);
        let bearing = &self.journals.bearing;
        // two bearings: the load is shared, the drag of the grease is not
        forces.friction_nmm[4] = f * if self.journals.drag_counted {
            bearing.load_nmm(forces.journals_n)
        } else {
            bearing.torque_nmm(forces.journals_n, at.speed_rpm) + bearing.torque_nmm(0.0, at.speed_rpm)
        };
    }

    /// Con-rod force and the pull of its big end outwards, as vectors along and across the cylinder \[N\].
    fn pin_load_n(&self, angle_rad: f64, forces: &LineForces, swing_n: f64) -> f64 {
        let (sin, cos) = angle_rad.sin_cos();
        // outwards at top dead centre is towards the cylinder, against the positive direction of forces
        (forces.axial_n - swing_n * cos).hypot(forces.side_n + swing_n * sin)
    }
}
