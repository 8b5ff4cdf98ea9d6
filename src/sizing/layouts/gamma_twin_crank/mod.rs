//! `gamma-twin-crank`: parallel cylinders, a crank for each, a toothed belt 1:1 between them.
//!
//! The displacer's cylinder stands on a cooler plate; the power cylinder hangs below it, its axis beside
//! the displacer's so that both bores overlap and the transfer port is a plain slot through the plate.
//! Both rods run down through bushes in the back plate to clevises, con rods and overhung cranks.

mod block;
mod cooler;
mod displacer;
mod drive;
mod joints;
mod piston;
pub mod path;
mod stack;
pub mod spaces;

use super::super::decide::Decide;
use super::super::engine::Engine;
use crate::design::Design;
use crate::diagnostic::Diagnostic;

/// Decides every dimension of the engine.
///
/// # Errors
/// All rules that the design breaks, each with the place of the number behind it.
pub fn size(design: &Design) -> Result<Engine, Vec<Diagnostic>> {
    let mut d = Decide::new(design);
    let gasket = joints::gasket(&mut d);
    let screw = joints::flange_screw(&mut d);
    let (mut displacer, hot_cap, cold_length) = displacer::size(&mut d, gasket);
    let circle = joints::circle(&mut d, displacer.bore_mm, screw);
    let cold = displacer::cold_cylinder(&mut d, displacer.bore_mm, cold_length, screw, circle);
    let joints = joints::size(&mut d, circle, screw, hot_cap.flange_mm, cold.flange_mm, gasket);
    let mut piston = piston::size(&mut d, displacer.rod_mm);
    let x_low = -(14.0 + 8.0);
    let back = block::back_plate(&mut d, piston.bore_mm, piston.rod_mm, x_low);
    let plate = design.cooler.plate_thickness_mm.value;
    let block = block::size(&mut d, &mut piston, gasket, back.thickness_mm, plate);
    let Some(gland) = cooler::rod_gland(&mut d, displacer.rod_mm) else { return Err(d.problems) };
    let bores = [displacer.bore_mm, piston.bore_mm];
    let strokes = [displacer.stroke_mm, piston.stroke_mm];
    let (mut drive, clevis) = drive::size(&mut d, bores, strokes, displacer.rod_mm, &block, gland.cap[0]);
    let cooler = cooler::size(&mut d, bores, drive.centres_mm, displacer.rod_mm, gland);
    let stack = stack::size(&mut d, &cooler, &block, &back, &cold, gasket, &mut drive, &clevis);
    stack::rods(&mut d, &stack, &drive, &clevis, &cooler, &mut displacer, &mut piston);
    stack::check(&mut d, &drive, &clevis, &hot_cap, &cooler, &block);
    if !d.problems.is_empty() {
        return Err(d.problems);
    }
    let name = design.engine.name.value.clone();
    Ok(Engine { name, hot_cap, cold, displacer, cooler, block, piston, clevis, drive, joints, back, stack, ledger: d.ledger })
}
