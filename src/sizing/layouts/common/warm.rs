//! The engine as it is when it runs: every length grown by heat, so that clearances can be asked of it as of the cold one.
//!
//! Temperatures are estimates: hot cap and shell run from cold to hot, all that stands below the cooler plate and the rods are
//! at the cold end's temperature.

use crate::sizing::clearance::growth::{Stretch, chain_mm};
use crate::sizing::engine::Engine;

/// Metal of the rods.
pub const ROD: &str = "silver-steel";

/// Growth of an engine from the drawing to its running temperatures.
#[derive(Debug)]
pub struct Warm<'a> {
    /// The engine as drawn.
    pub engine: &'a Engine,
    /// Metal of what stands between crank and cylinders.
    pub frame: &'a str,
}

impl Warm<'_> {
    /// Cold end \[°C\].
    pub fn cold_c(&self) -> f64 {
        self.engine.cold.temperature_k - 273.15
    }

    /// Hot end \[°C\].
    pub fn hot_c(&self) -> f64 {
        self.engine.hot_cap.temperature_k - 273.15
    }

    fn stretch(&self, stuff: &str, length_mm: f64, at_c: f64) -> Stretch {
        Stretch::of(&self.engine.catalogue, stuff, length_mm, at_c)
    }

    /// By how much a length of a metal at the cold end's temperature is multiplied.
    pub fn factor(&self, stuff: &str) -> f64 {
        1.0 + self.stretch(stuff, 1.0, self.cold_c()).growth_mm()
    }

    /// By how much the rods grow more than the frame over a length \[mm\].
    pub fn lift_mm(&self, length_mm: f64) -> f64 {
        length_mm * (self.factor(ROD) - self.factor(self.frame))
    }

    /// Growth of the displacer's cylinder over its length, its cap at `cap_c` where the stroke bathes it \[mm\].
    pub fn cylinder_mm(&self, cap_c: f64) -> f64 {
        let (e, d, cap) = (self.engine, &self.engine.displacer, &self.engine.hot_cap);
        let bathed = (d.stroke_mm + d.hot_clearance_mm).min(cap.depth_mm);
        chain_mm(&[
            self.stretch(&e.cold.material, e.cold.length_mm, self.cold_c()),
            self.stretch(&cap.material, cap.depth_mm - bathed, 0.5 * (cap_c + self.cold_c())),
            self.stretch(&cap.material, bathed, cap_c),
        ])
    }

    /// Growth of the displacer's shell over its length \[mm\].
    pub fn shell_mm(&self) -> f64 {
        let d = &self.engine.displacer;
        self.stretch(&d.material, d.length_mm, 0.5 * (self.hot_c() + self.cold_c())).growth_mm()
    }

    /// Gap beside the displacer where it is least: at the top, whose shell the stroke carries down to colder metal, or at the
    /// joint \[mm on the radius\].
    pub fn gap_mm(&self) -> f64 {
        let (e, d) = (self.engine, &self.engine.displacer);
        let rise = self.hot_c() - self.cold_c();
        let shell_c = |above: f64| self.cold_c() + rise * (above / d.length_mm).clamp(0.0, 1.0);
        let gap = |hole: &str, wall_c: f64, above: f64| {
            let bore = self.stretch(hole, d.bore_mm, wall_c).growth_mm();
            let shell = self.stretch(&d.material, d.bore_mm - 2.0 * d.gap_mm, shell_c(above)).growth_mm();
            d.gap_mm + 0.5 * (bore - shell)
        };
        let at_joint = gap(&e.cold.material, self.cold_c(), e.cold.length_mm - d.cold_clearance_mm);
        let carried = rise * d.stroke_mm / d.length_mm;
        let at_top = gap(&e.hot_cap.material, self.hot_c() - carried, d.length_mm);
        d.gap_mm.min(at_joint).min(at_top)
    }

    /// What every layout has, grown; `head_mm` is the height of the piston's head above the crank axis.
    pub fn grown(&self, head_mm: f64) -> Engine {
        let mut w = self.engine.clone();
        let (frame, crank) = (self.factor(self.frame), self.factor(&w.drive.material));
        let lift = self.lift_mm(-w.drive.crank_z_mm);
        let (cylinder, shell) = (self.cylinder_mm(self.hot_c()), self.shell_mm());
        let gap = self.gap_mm();
        let d = &mut w.drive;
        for length in [&mut d.crank_z_mm, &mut d.bracket_mm, &mut d.bracket_edge_mm] {
            *length *= frame;
        }
        let [pin, small] = &mut d.eye_r_mm;
        let [journal, tip] = &mut d.web_r_mm;
        let (one, other) = (&mut d.displacer.throw_mm, &mut d.piston.throw_mm);
        let along = [&mut d.con_rod_thickness_mm, &mut d.web_mm, &mut d.side_gap_mm, &mut d.con_rod_mm];
        along.into_iter().chain([pin, small, journal, tip, one, other]).for_each(|length| *length *= crank);
        if let Some(base) = &mut w.base {
            base.top_mm *= frame;
        }
        let c = &mut w.clevis;
        let [x, y, z] = &mut c.size_mm;
        [x, y, z, &mut c.slot_mm, &mut c.slot_depth_mm, &mut c.pin_z_mm]
            .into_iter()
            .for_each(|l| *l *= crank);
        let s = &mut w.displacer;
        s.stroke_mm *= crank;
        s.cold_clearance_mm += lift;
        s.length_mm += shell;
        s.gap_mm = gap;
        w.stack.cap_low_mm += cylinder;
        let p = &mut w.piston;
        let lift = self.lift_mm(head_mm);
        p.stroke_mm *= crank;
        p.top_clearance_mm -= lift;
        p.bottom_clearance_mm += lift;
        w
    }
}
