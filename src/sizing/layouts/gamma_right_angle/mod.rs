//! `gamma-right-angle`: cylinders at 90 degrees, both con rods side by side on one crankpin.
//!
//! The displacer's cylinder stands on a cooler plate, its rod runs down through a rod guide below that plate. The power
//! cylinder lies: back plate, block and head plate one behind the other along X. The geometry fixes the lead at 90
//! degrees and both strokes to the same throw; there is no belt. A bracket below the cooler plate carries the crank and
//! the back plate. The passage runs from the cold space through a drilling in the cooler plate, down a tube and through
//! the head plate into the power cylinder.

pub mod checks;
pub mod frame;
pub mod mechanism;
pub mod moving;
pub mod passage;

use super::Refused;
use super::common::channels::{self, Channels};
use super::common::displacer::Shape;
use super::common::guide::{self, Guide};
use super::common::hot_side::{self, HotSide};
use super::common::{back_plate, base, block, displacer, flywheel, gland, piston, shaft_end};
use crate::catalogue::threads::Thread;
use crate::design::Design;
use crate::sizing::decide::Decide;
use crate::sizing::engine::{Arranged, BackPlate, Block, Engine};
use std::sync::Arc;

/// Head plate that closes the power cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct HeadPlate {
    /// Thickness \[mm\].
    pub thickness_mm: f64,
    /// Height of its upper edge above the power cylinder's axis \[mm\].
    pub top_mm: f64,
}

/// The passage between the cylinders, in the order of the flow from the cold space.
#[derive(Clone, Debug, PartialEq)]
pub struct Passage {
    /// Blind hole from the cold space: diameter and depth \[mm\].
    pub mouth_mm: [f64; 2],
    /// Place of that hole on X \[mm\].
    pub mouth_x_mm: f64,
    /// Drilling along the cooler plate: diameter \[mm\]; it begins at the plate's edge.
    pub drilling_mm: f64,
    /// x of the plate's edge at which the drilling begins \[mm\].
    pub edge_x_mm: f64,
    /// Plug of the drilling.
    pub plug: &'static Thread,
    /// Depth of full thread for the plug \[mm\].
    pub plug_depth_mm: f64,
    /// Tube: bore and outside diameter \[mm\].
    pub tube_mm: [f64; 2],
    /// How deep the tube stands in either plate \[mm\].
    pub spigot_mm: f64,
    /// Length of the tube \[mm\].
    pub tube_length_mm: f64,
    /// Drilling down the head plate: diameter and depth below the power cylinder's axis \[mm\].
    pub head_drilling_mm: [f64; 2],
}

/// Where things stand in the engine frame \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub struct Places {
    /// y of the piston's con rod and of the power cylinder's axis.
    pub piston_y_mm: f64,
    /// x of the back plate's face towards the crank.
    pub back_x_mm: f64,
    /// x of the block's crank end.
    pub block_x_mm: f64,
    /// x of the head plate's inner face.
    pub head_x_mm: f64,
}

/// Crank bracket: a plate upright along X that hangs below the cooler plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Bracket {
    /// y of its face towards the web \[mm\].
    pub front_y_mm: f64,
    /// x of its left end under the cooler plate \[mm\].
    pub left_x_mm: f64,
    /// Height of the arm under the cooler plate \[mm\].
    pub arm_mm: f64,
    /// Depth below the crank axis \[mm\].
    pub low_mm: f64,
    /// Depth of the bracket's lower edge below the crank axis, on the base \[mm\].
    pub bottom_mm: f64,
    /// Distance of the cooler plate's screws from the displacer's axis along X \[mm\].
    pub plate_screw_x_mm: f64,
    /// Distance of the back plate's screws above and below the crank axis \[mm\].
    pub back_screw_z_mm: f64,
    /// Distance of both rows of screws from the bracket's middle plane \[mm\].
    pub row_mm: f64,
    /// Length of the screws into the bracket: from the cooler plate, from the back plate \[mm\].
    pub screw_mm: [f64; 2],
}

/// What this layout has beyond the common.
#[derive(Clone, Debug, PartialEq)]
pub struct RightAngle {
    /// Thickness of the cooler plate \[mm\].
    pub plate_mm: f64,
    /// Corners of the cooler plate in X and Y: lower left, upper right \[mm\].
    pub plate_corners_mm: [[f64; 2]; 2],
    /// Water channels through the cooler plate.
    pub channels: Option<Channels>,
    /// Rod guide.
    pub guide: Guide,
    /// Power cylinder block.
    pub block: Block,
    /// Back plate.
    pub back: BackPlate,
    /// Head plate.
    pub head: HeadPlate,
    /// Passage between the cylinders.
    pub passage: Passage,
    /// Places.
    pub places: Places,
    /// Crank bracket.
    pub bracket: Bracket,
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
    frame::one_crankpin(&mut d, displacer.stroke_mm, piston.stroke_mm);
    let back = back_plate::size(&mut d, piston.bore_mm, piston.rod_mm);
    let tube_mm = passage::tube(&mut d, &piston);
    let thickness_mm = passage::head_thickness(&mut d, tube_mm[1]);
    let ends = block::Ends {
        nut_mm: thickness_mm,
        nut_path: "head.thickness",
        thread_mm: back.thickness_mm,
        blind: false,
    };
    let block = block::size(&mut d, &mut piston, between, &ends);
    let head = HeadPlate { thickness_mm, top_mm: block.half_mm };
    let rod = displacer.rod_mm;
    let guide = guide::size(&mut d, rod, None);
    let Some(recess) = gland::recess(&mut d, rod, guide.sleeve_mm) else { return Err(d.refused()) };
    let strokes = [displacer.stroke_mm, piston.stroke_mm];
    let (mut drive, clevis) = super::common::drive::size(&mut d, strokes, rod);
    frame::lead(&mut d, drive.lead_deg);
    super::common::drive::bracket(&mut d, &mut drive);
    let plate_mm = d.mm("cooler.plate_thickness", &design.cooler.plate_thickness_mm);
    let gland = recess.with_bush(&mut d, rod, plate_mm);
    let deep = frame::Deep { plate: plate_mm, guide: guide.length_mm, back: back.thickness_mm, between };
    let places = frame::places(&mut d, &deep, &block, &mut drive, &clevis);
    frame::rods(&mut d, &drive, &clevis, &places, &mut displacer, &mut piston);
    let room = places.back_x_mm.min(-drive.crank_z_mm - plate_mm) - frame::WHEEL_ROOM_MM;
    let flywheel = flywheel::size(&mut d, &drive, 2.0 * room, "stack.back_plate_x");
    let bracket = frame::bracket(&mut d, &drive, &places, &block, &deep, cold.flange_diameter_mm);
    let passage = passage::size(&mut d, tube_mm, &displacer, &drive, &places, &head, plate_mm);
    let plate_corners_mm =
        frame::plate_corners(&mut d, &drive, &bracket, cold.flange_diameter_mm, passage.edge_x_mm);
    let room = frame::channel_room(&plate_corners_mm, plate_mm, &passage, &bracket, &drive, &gland, &joints);
    let channels = channels::size(&mut d, &room, &["displacer.bore", "passage.mouth_x", "joints.hot_screws"]);
    passage::check(&mut d, &passage, &displacer, &gland, &joints, &places);
    frame::check(&mut d, &drive, &clevis, &gland, &bracket, &places, &deep);
    displacer::peak_temperature(&mut d, &hot_cap);
    let rear = bracket.front_y_mm + drive.bracket_mm;
    let beside = [cold.flange_diameter_mm, rear];
    let standing = frame::standing(&drive, &places, &deep, &block, &plate_corners_mm, beside);
    let start = rear + 1.0;
    let shaft_end = shaft_end::size(
        &mut d,
        &drive,
        &flywheel,
        start,
        &standing,
        &["bracket.front", "drive.bracket_thickness"],
    );
    let beside = [cold.flange_diameter_mm, block.length_mm];
    let stand = frame::stand(&drive, &shaft_end, &flywheel, &bracket, &places, beside);
    let base = base::size(&mut d, &stand, &block.material, &["bracket.bottom", "stack.back_plate_x"]);
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
        arranged: Arranged::GammaRightAngle(Box::new(RightAngle {
            plate_mm,
            plate_corners_mm,
            channels,
            guide,
            block,
            back,
            head,
            passage,
            places,
            bracket,
        })),
        catalogue: Arc::clone(&design.catalogue),
        ledger: d.ledger,
    })
}
