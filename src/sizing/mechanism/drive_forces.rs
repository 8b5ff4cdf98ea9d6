//! Forces on every pin and slide through the turn, and what is left at the shaft.
//!
//! At a steady speed. The displacer's crank hands its torque through the belt to the piston's, where flywheel and
//! load sit. Every friction acts on the forces of its own instant. Where the displacer's rod runs through the piston, it
//! rubs with the way between both, drags the piston along and leans its side force on the piston's skirt; both side
//! forces are added as they are, to the safe side.

use super::factors::FrictionFactors;
use super::line::{At, ELEMENTS, Element, Handed, LineForces};
use super::model::{Line, Mechanism, Riding};
use std::f64::consts::{PI, TAU};

/// Pressures over the turn, on an even grid of crank angles that begins where the displacer stands at its cold end
/// (the angle 0 of `VolumeLaw`).
#[derive(Clone, Debug, PartialEq)]
pub struct GasLoop {
    /// Pressure on the piston \[Pa\].
    pub pressure_pa: Vec<f64>,
    /// Pressure of the hot space less that of the cold one \[Pa\]; empty where the flow has no friction.
    pub drop_pa: Vec<f64>,
    /// Pressure behind the piston \[Pa\].
    pub buffer_pa: f64,
}

/// Why there are no forces.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DriveError {
    /// Too few points, or pressure drops on another grid.
    #[error("the loop has {points} pressures and {drops} pressure drops; at least 16 and as many are needed")]
    Grid {
        /// Pressures.
        points: usize,
        /// Pressure drops.
        drops: usize,
    },
    /// Friction in the guides holds the rod fast.
    #[error(
        "the {what} jams in its guides at {angle_deg:.0} degrees: less overhang, or a longer span, frees it"
    )]
    Jams {
        /// Which line.
        what: &'static str,
        /// Crank angle \[deg\].
        angle_deg: f64,
    },
    /// A force is no finite number.
    #[error("the forces at {angle_deg:.0} degrees are no finite numbers")]
    NotFinite {
        /// Crank angle \[deg\].
        angle_deg: f64,
    },
}

/// The drive at one angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrivePoint {
    /// Crank angle \[deg\].
    pub angle_deg: f64,
    /// Piston and what hangs on it.
    pub piston: LineForces,
    /// Displacer and what hangs on it.
    pub displacer: LineForces,
    /// Torque of the gas on both cranks \[N m\].
    pub gas_nm: f64,
    /// Torque through the belt, from the displacer's crank to the piston's \[N m\].
    pub belt_nm: f64,
    /// Torque left at the shaft \[N m\].
    pub shaft_nm: f64,
    /// The same without the torque of the inertia of what slides \[N m\]: what changes ½ J ω² with J
    /// below.
    pub quasi_static_nm: f64,
    /// Inertia of all that turns and slides, referred to the shaft \[kg m²\].
    pub inertia_kg_m2: f64,
}

/// Work that one kind of friction takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrictionWork {
    /// Plain name.
    pub name: &'static str,
    /// Work each turn \[J\].
    pub work_j: f64,
}

/// One turn of the drive.
#[derive(Clone, Debug, PartialEq)]
pub struct DriveResult {
    /// The turn.
    pub points: Vec<DrivePoint>,
    /// Work of the gas each turn \[J\].
    pub gas_work_j: f64,
    /// Work that friction takes, by name.
    pub friction: Vec<FrictionWork>,
    /// Work left at the shaft \[J\].
    pub shaft_work_j: f64,
}

impl DriveResult {
    /// Mean torque at the shaft \[N m\].
    pub fn mean_torque_nm(&self) -> f64 {
        self.shaft_work_j / TAU
    }

    /// All friction \[J\].
    pub fn friction_j(&self) -> f64 {
        self.friction.iter().map(|f| f.work_j).sum()
    }
}

/// Names of friction in the order in which they are summed.
const NAMES: [&str; 9] = [
    "piston rings",
    "rod gland",
    "piston guides",
    "displacer guides",
    "con-rod bearings",
    "crank bearings",
    "belt",
    "windage",
    "shaft seal",
];

/// Solves the drive over one turn at a steady speed.
///
/// # Errors
/// [`DriveError`].
pub fn drive_forces(
    mechanism: &Mechanism,
    gas: &GasLoop,
    speed_rpm: f64,
    factors: &FrictionFactors,
) -> Result<DriveResult, DriveError> {
    let (count, drops) = (gas.pressure_pa.len(), gas.drop_pa.len());
    if count < 16 || (drops != 0 && drops != count) {
        return Err(DriveError::Grid { points: count, drops });
    }
    let windage_nmm =
        1e3 * factors.windage * mechanism.discs.iter().map(|d| d.torque_nm(speed_rpm)).sum::<f64>();
    let seal_nmm = mechanism.shaft_seal.map_or(0.0, |s| factors.gland * s.torque_nmm(gas.buffer_pa));
    let turn = Turn { mechanism, gas, speed_rpm, factors, windage_nmm, seal_nmm };
    let mut sums = [0.0; 9];
    let points =
        (0..count).map(|i| turn.point(i, &mut sums)).collect::<Result<Vec<DrivePoint>, DriveError>>()?;
    let per_turn = TAU / count as f64;
    let friction = NAMES.iter().zip(sums);
    Ok(DriveResult {
        gas_work_j: points.iter().map(|p| p.gas_nm).sum::<f64>() * per_turn,
        shaft_work_j: points.iter().map(|p| p.shaft_nm).sum::<f64>() * per_turn,
        friction: friction.map(|(&name, nmm)| FrictionWork { name, work_j: nmm * 1e-3 * per_turn }).collect(),
        points,
    })
}

/// What stays the same over the turn.
struct Turn<'a> {
    mechanism: &'a Mechanism,
    gas: &'a GasLoop,
    speed_rpm: f64,
    factors: &'a FrictionFactors,
    windage_nmm: f64,
    seal_nmm: f64,
}

impl Turn<'_> {
    /// One point; friction torques \[N mm\] are added to `sums` by [`NAMES`].
    fn point(&self, i: usize, sums: &mut [f64; 9]) -> Result<DrivePoint, DriveError> {
        let turn = i as f64 / self.gas.pressure_pa.len() as f64;
        let (m, angle_deg) = (self.mechanism, 360.0 * turn);
        let at_displacer = TAU * turn + PI;
        let at_piston = at_displacer - m.lead_deg.to_radians();
        let moves = |line: &Line, angle: f64| [line.crank.displacement_mm(angle), line.crank.slope_mm(angle)];
        let [on_piston, on_displacer] = [moves(&m.piston, at_piston), moves(&m.displacer, at_displacer)];
        let alone = Handed::default();
        let mut displacer = self
            .line(&m.displacer, i, at_displacer, (on_piston, alone))
            .ok_or(jams("displacer rod", angle_deg))?;
        let handed = match m.displacer.guides.riding {
            Riding::OnOther { below_mm } => Handed {
                along_n: displacer.drag_n,
                side_n: displacer.side_n,
                below_mm: below_mm + on_displacer[0] - on_piston[0],
            },
            _ => alone,
        };
        let mut piston = self
            .line(&m.piston, i, at_piston, (on_displacer, handed))
            .ok_or(jams("piston rod", angle_deg))?;
        let (belt_nmm, drag_nmm) = self.belt(&mut piston, &mut displacer);
        add(sums, &piston, 2);
        add(sums, &displacer, 3);
        sums[6] += drag_nmm;
        sums[7] += self.windage_nmm;
        sums[8] += self.seal_nmm;
        let piston_nmm = piston.crank_nmm - piston.friction_nmm[4];
        let shaft_nm = 1e-3 * (piston_nmm + belt_nmm - drag_nmm - self.windage_nmm - self.seal_nmm);
        if !shaft_nm.is_finite() {
            return Err(DriveError::NotFinite { angle_deg });
        }
        Ok(DrivePoint {
            angle_deg,
            piston,
            displacer,
            gas_nm: 1e-3 * (piston.gas_nmm + displacer.gas_nmm),
            belt_nm: 1e-3 * belt_nmm,
            shaft_nm,
            quasi_static_nm: shaft_nm - 1e-3 * (piston.inertia_nmm + displacer.inertia_nmm),
            inertia_kg_m2: m.turning_kg_m2
                + sliding(&m.piston, at_piston)
                + sliding(&m.displacer, at_displacer),
        })
    }

    /// Forces in a line; the other's displacement and slope, and what its rod does to this one, come with it. `None`
    /// where it jams.
    fn line(
        &self,
        line: &Line,
        i: usize,
        angle_rad: f64,
        (other, handed): ([f64; 2], Handed),
    ) -> Option<LineForces> {
        let at = At {
            angle_rad,
            speed_rpm: self.speed_rpm,
            over_pa: self.gas.pressure_pa[i] - self.gas.buffer_pa,
            drop_pa: self.gas.drop_pa.get(i).copied().unwrap_or(0.0),
            other,
            handed,
            factors: self.factors,
        };
        line.forces(&at)
    }

    /// Torque that the displacer's crank hands over, and the belt's drag \[N mm\]; the belt's pull adds to the
    /// loads of all journals.
    fn belt(&self, piston: &mut LineForces, displacer: &mut LineForces) -> (f64, f64) {
        let through = displacer.crank_nmm - displacer.friction_nmm[4];
        let Some(belt) = self.mechanism.belt else { return (through, 0.0) };
        let pull = belt.pull_n(through);
        let extra = |line: &Line, forces: &mut LineForces| {
            forces.journals_n += pull;
            let nmm = self.factors.bearings * line.journals.bearing.load_nmm(pull);
            forces.friction_nmm[4] += nmm;
            nmm
        };
        extra(&self.mechanism.piston, piston);
        let on_displacer = extra(&self.mechanism.displacer, displacer);
        (through - on_displacer, self.factors.belt * belt.drag_nmm(through))
    }
}

fn jams(what: &'static str, angle_deg: f64) -> DriveError {
    DriveError::Jams { what, angle_deg }
}

/// Inertia of what slides, referred to the crank \[kg m²\].
fn sliding(line: &Line, angle_rad: f64) -> f64 {
    line.reciprocating_kg() * (1e-3 * line.crank.slope_mm(angle_rad)).powi(2)
}

/// Adds a line's friction to the sums; its guides have a name of their own.
fn add(sums: &mut [f64; 9], forces: &LineForces, guides: usize) {
    for (element, nmm) in ELEMENTS.iter().zip(forces.friction_nmm) {
        let place = match element {
            Element::Rings => 0,
            Element::Gland => 1,
            Element::Guides => guides,
            Element::ConRodBearings => 4,
            Element::Journals => 5,
        };
        sums[place] += nmm;
    }
}

#[cfg(test)]
#[path = "drive_tests.rs"]
mod tests;
