//! Joints that this layout has beyond the common ones.

use super::layout;
use crate::parts::flywheel;
use crate::parts::joints::{Patterns as Common, cap_screw, flange_gaskets, flange_joints, joint, square};
use crate::parts::part::{Joint, Part};
use crate::parts::pattern::Pattern;
use crate::shape::Point2;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Hole patterns.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Studs through back plate and block into the cooler plate, about the power cylinder's axis.
    pub studs: Pattern,
    /// Bracket under the back plate, in the engine's X and Y.
    pub bracket: Pattern,
}

impl Patterns {
    /// The patterns of an engine.
    pub fn of(e: &Engine, own: &TwinCrank) -> Self {
        let (y, c, s) = (layout::bracket_middle_y(e), own.centres_mm, own.bracket_screw_mm);
        let x = [-s, s, c - s, c + s];
        Self {
            studs: Pattern::square(own.block.stud, own.block.stud_mm),
            bracket: Pattern::points(e.drive.bracket_screw, x.iter().map(|x| Point2::new(*x, y)).collect()),
        }
    }
}

/// All gaskets.
pub fn gaskets(e: &Engine, own: &TwinCrank, common: &Common, p: &Patterns) -> Vec<Part> {
    let mut all = flange_gaskets(e, common).to_vec();
    all.push(square(e, &own.block, "power-cylinder-gasket", "Power cylinder gasket", &p.studs));
    all.push(square(e, &own.block, "jacket-gasket", "Jacket gasket", &p.studs));
    all
}

/// Entries of the manifest.
pub fn list(e: &Engine, own: &TwinCrank, common: &Common, p: &Patterns) -> Vec<Joint> {
    let stud = format!("stud {} x {} mm", own.block.stud.designation, own.block.stud_length_mm);
    let gland = cap_screw(common.gland.thread, e.gland.screws.screw_mm);
    let bracket = cap_screw(p.bracket.thread, layout::bracket_screw_mm(e, own));
    let power = ["cooler-plate", "power-cylinder-block"];
    let mut all = flange_joints(e, common).to_vec();
    all.extend([
        joint("power-joint", power, Some("power-cylinder-gasket"), stud.clone(), &p.studs),
        joint("jacket-joint", ["power-cylinder-block", "back-plate"], Some("jacket-gasket"), stud, &p.studs),
        joint("gland-joint", ["cooler-plate", "gland-cap"], None, gland, &common.gland),
        joint("bracket-joint", ["back-plate", "crank-bracket"], None, bracket, &p.bracket),
    ]);
    all.extend(flywheel::joint(e));
    all
}
