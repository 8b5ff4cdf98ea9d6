//! `gamma-twin-crank`: parallel cylinders, a crank for each, a toothed belt 1:1 between them.
//!
//! The displacer's cylinder stands on a cooler plate; the power cylinder hangs below it, its axis beside
//! the displacer's so that both bores overlap and the transfer port is a plain slot through the plate.
//! Both rods run down through bushes in the back plate to clevises, con rods and overhung cranks.

pub mod checks;
mod drive;
pub mod envelope;
pub mod lead;
pub mod mechanism;
pub mod moving;
pub mod tensioner;

use super::Refused;
use super::common::channels::{self, Channels};
use super::common::cooler::{self, CoolerPlate};
use super::common::displacer::Shape;
use super::common::hanging::{self, Heights};
use super::common::hot_side::{self, HotSide};
use super::common::{back_plate, base, block, displacer, flywheel, gland, piston, shaft_end};
use crate::design::Design;
use crate::sizing::decide::Decide;
use crate::sizing::engine::{Arranged, BackPlate, Belt, Block, Engine};
use lead::LeadHub;
use std::sync::Arc;
use tensioner::Tensioner;

/// What this layout has beyond the common.
#[derive(Clone, Debug, PartialEq)]
pub struct TwinCrank {
    /// Cooler plate.
    pub cooler: CoolerPlate,
    /// Water channels through the cooler plate.
    pub channels: Option<Channels>,
    /// Power cylinder block.
    pub block: Block,
    /// Back plate.
    pub back: BackPlate,
    /// Heights.
    pub heights: Heights,
    /// Belt.
    pub belt: Belt,
    /// Hub of the displacer's pulley, by which the lead is set.
    pub lead: LeadHub,
    /// Tensioner of the belt.
    pub tensioner: Tensioner,
    /// Crank centres, and distance of both axes \[mm\].
    pub centres_mm: f64,
    /// Least x of the back plate \[mm\].
    pub back_x_low_mm: f64,
    /// Notch in the bracket's upper edge for the nut of a stud: least and greatest x, depth \[mm\]; `None` where none stands
    /// in its way.
    pub bracket_notch_mm: Option<[f64; 3]>,
    /// Place of the bracket's screws on either side of each crank axis \[mm\].
    pub bracket_screw_mm: f64,
    /// How far the bracket reaches below the crank axes \[mm\].
    pub bracket_low_mm: f64,
}

/// Decides every dimension of the engine.
///
/// # Errors
/// All rules that the design breaks, each with the place of the number behind it.
pub fn size(design: &Design) -> Result<Engine, Refused> {
    let mut d = Decide::new(design);
    d.found_conditions();
    let HotSide { between, mut displacer, hot_cap, cold, joints } = hot_side::size(&mut d, Shape::Tall);
    let mut piston = piston::size(&mut d, &piston::Below::Rod(displacer.rod_mm));
    let back = back_plate::size(&mut d, piston.bore_mm, piston.rod_mm);
    let ends = block::Ends {
        nut_mm: back.thickness_mm,
        nut_path: "back.thickness",
        thread_mm: design.cooler.plate_thickness_mm.value,
        blind: true,
    };
    let block = block::size(&mut d, &mut piston, between, &ends);
    let rod = displacer.rod_mm;
    let Some(recess) = gland::recess(&mut d, rod, 0.0) else { return Err(d.refused()) };
    // the cap of the gland, or 3 mm of metal around the rod where there is none
    let beside_rod = if recess.oring.is_some() { recess.cap[0] } else { recess.groove[0] + 6.0 };
    let bores = [displacer.bore_mm, piston.bore_mm];
    let strokes = [displacer.stroke_mm, piston.stroke_mm];
    let (mut drive, clevis) = super::common::drive::size(&mut d, strokes, rod);
    let drive::BeltSide { belt, lead, tensioner, centres_mm } =
        drive::size(&mut d, bores, &block, beside_rod, &drive);
    super::common::drive::bracket(&mut d, &mut drive);
    let [back_x_low_mm, bracket_screw_mm] = drive::over_bracket(&mut d, &drive);
    let bracket_notch_mm = drive::notch(&mut d, &drive, &block, centres_mm, bracket_screw_mm);
    let plate_mm = cooler::thickness(&mut d);
    let cooler = cooler::size(&mut d, plate_mm, bores, centres_mm);
    let gland = recess.with_bush(&mut d, rod, cooler.thickness_mm);
    let room = cooler::room(&cooler, centres_mm, &block, cold.flange_diameter_mm, &gland, &joints.cold, 0.0);
    let channels =
        channels::size(&mut d, &room, &["displacer.bore", "drive.crank_centres", "joints.hot_screws"]);
    let heights = hanging::size(&mut d, plate_mm, &block, &back, between, &mut drive, &clevis);
    hanging::rods(&mut d, &drive, &clevis, plate_mm, &mut displacer, &mut piston);
    let flywheel = flywheel::size(&mut d, &drive, 2.0 * centres_mm, "drive.crank_centres");
    let standing = envelope::standing(
        &drive,
        &heights,
        block.half_mm,
        cold.flange_diameter_mm,
        (&belt, &lead, centres_mm),
    );
    let start = envelope::behind_teeth_mm(&drive, &belt) + envelope::PULLEY_GAP_MM;
    let shaft_end = shaft_end::size(
        &mut d,
        &drive,
        &flywheel,
        start,
        &standing,
        &["drive.bracket_thickness", "drive.pulley_teeth", "drive.belt_width"],
    );
    let front = envelope::bracket_front_y_mm(&drive);
    let bracket_low_mm = drive::bracket_low(&mut d, &drive, &lead);
    let stand =
        envelope::stand(&drive, &shaft_end, &flywheel, centres_mm, bracket_low_mm, cold.flange_diameter_mm);
    let base = base::size(&mut d, &stand, &block.material, &["drive.crank_centres", "drive.bracket_edge"]);
    hanging::check(&mut d, front, &clevis, &hot_cap, &cooler, &gland, &block);
    let notch = bracket_notch_mm.map_or(0.0, |[_, _, deep]| deep);
    tensioner::check(&mut d, &tensioner, heights.back_low_mm - drive.crank_z_mm - notch);
    if !d.problems.is_empty() {
        return Err(d.refused());
    }
    Ok(Engine {
        name: design.engine.name.value.clone(),
        charge_pa: design.engine.charge_pressure_pa.value,
        stack: displacer::stack(&cold, between),
        hot_cap,
        cold,
        displacer,
        gland,
        piston,
        clevis,
        drive,
        flywheel,
        shaft_end,
        base: Some(base),
        joints,
        arranged: Arranged::GammaTwinCrank(Box::new(TwinCrank {
            cooler,
            channels,
            block,
            back,
            heights,
            belt,
            lead,
            tensioner,
            centres_mm,
            back_x_low_mm,
            bracket_notch_mm,
            bracket_screw_mm,
            bracket_low_mm,
        })),
        catalogue: Arc::clone(&design.catalogue),
        ledger: d.ledger,
    })
}
