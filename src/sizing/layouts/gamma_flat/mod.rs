//! `gamma-flat`: a wide, shallow displacer for a small difference of temperature, both cylinders along one crankshaft.
//!
//! The engine stands on its hot end: a pan on a hot plate or a mug. The displacer's rod leaves through the cooler plate
//! and its guide; the power cylinder stands on the same plate beside it, so near that both bores overlap and the
//! transfer port is a plain slot through the plate. A bracket on the plate carries one shaft along the line of both
//! axes. Its own crank moves the displacer; at the other end a second crank for the piston is clamped on it, at
//! whatever lead; the flywheel turns between them. There is no belt.

pub mod checks;
pub mod frame;
pub mod mechanism;
pub mod moving;

use super::Refused;
use super::common::channels::{self, Channels};
use super::common::cooler::{self, CoolerPlate};
use super::common::displacer::Shape;
use super::common::guide::{self, Guide};
use super::common::hanging::{self, Heights};
use super::common::hot_side::{self, HotSide};
use super::common::{back_plate, block, displacer, flywheel, gland, piston, shaft_end};
use crate::catalogue::threads::Thread;
use crate::design::Design;
use crate::sizing::decide::Decide;
use crate::sizing::engine::{Arranged, BackPlate, Block, Engine};
use std::sync::Arc;

/// Crank bracket: a plate upright along X on two feet below the cooler plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Bracket {
    /// y of its face towards the displacer's web \[mm\].
    pub front_y_mm: f64,
    /// Half length over both feet \[mm\].
    pub foot_x_mm: f64,
    /// Height of a foot \[mm\].
    pub foot_mm: f64,
    /// Distance of the screws from the displacer's axis along X \[mm\].
    pub screw_x_mm: f64,
    /// Distance of both rows of screws from the bracket's middle plane \[mm\].
    pub row_mm: f64,
    /// Its screws.
    pub screw: &'static Thread,
    /// Length of the screws \[mm\].
    pub screw_mm: f64,
    /// Depth of full thread for them in the cooler plate \[mm\].
    pub thread_mm: f64,
}

/// What sits on the shaft behind the displacer's crank, and where along Y.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaft {
    /// Length of the ring between the crank's collar and the front bearing \[mm\].
    pub spacer_mm: f64,
    /// Radius that is free for the flywheel \[mm\].
    pub wheel_room_mm: f64,
    /// y at which the piston's crank may begin \[mm\].
    pub crank_y_mm: f64,
    /// Thickness of the piston's crank \[mm\].
    pub crank_mm: f64,
    /// Depth of the shaft's seat in it \[mm\].
    pub seat_mm: f64,
    /// Half the width of the piston's crank, and its radius about the pin \[mm\].
    pub crank_r_mm: f64,
    /// Set screw that clamps it.
    pub set_screw: &'static Thread,
}

/// What this layout has beyond the common.
#[derive(Clone, Debug, PartialEq)]
pub struct Flat {
    /// Cooler plate.
    pub cooler: CoolerPlate,
    /// Water channels through the cooler plate.
    pub channels: Option<Channels>,
    /// Rod guide.
    pub guide: Guide,
    /// Power cylinder block.
    pub block: Block,
    /// Back plate.
    pub back: BackPlate,
    /// Heights.
    pub heights: Heights,
    /// Distance of both axes, along Y \[mm\].
    pub centres_mm: f64,
    /// Crank bracket.
    pub bracket: Bracket,
    /// Shaft.
    pub shaft: Shaft,
}

/// Decides every dimension of the engine.
///
/// # Errors
/// All rules that the design breaks, each with the place of the number behind it.
pub fn size(design: &Design) -> Result<Engine, Refused> {
    let mut d = Decide::new(design);
    d.found_conditions();
    let HotSide { between, mut displacer, hot_cap, cold, joints } = hot_side::size(&mut d, Shape::Shallow);
    let mut piston = piston::size(&mut d, &piston::Below::Rod(displacer.rod_mm));
    let back = back_plate::size(&mut d, piston.bore_mm, piston.rod_mm);
    let plate_mm = cooler::thickness(&mut d);
    let ends = block::Ends {
        nut_mm: back.thickness_mm,
        nut_path: "back.thickness",
        thread_mm: plate_mm,
        blind: true,
    };
    let block = block::size(&mut d, &mut piston, between, &ends);
    let rod = displacer.rod_mm;
    let low = block.length_mm + between.power_mm() + back.thickness_mm;
    let below = ["block.length", "joints.gasket_thickness", "back.thickness"];
    let guide = guide::size(&mut d, rod, Some((low, &below)));
    let Some(recess) = gland::recess(&mut d, rod, guide.sleeve_mm) else { return Err(d.refused()) };
    let strokes = [displacer.stroke_mm, piston.stroke_mm];
    let (mut drive, clevis) = super::common::drive::size(&mut d, strokes, rod);
    super::common::drive::without_belt(&mut d, "both cranks sit on one shaft");
    super::common::drive::bracket(&mut d, &mut drive);
    let gland = recess.with_bush(&mut d, rod, plate_mm);
    let heights = hanging::size(&mut d, plate_mm, &block, &back, between, &mut drive, &clevis);
    hanging::rods(&mut d, &drive, &clevis, plate_mm, &mut displacer, &mut piston);
    let room = frame::wheel_room(&mut d, &drive, &heights, &block);
    let flywheel = flywheel::size(&mut d, &drive, 2.0 * room, "shaft.wheel_room");
    let bracket = frame::bracket(&mut d, &drive, &gland);
    let start = frame::behind_bracket_mm(&drive, &bracket);
    let after = ["bracket.front", "drive.bracket_thickness"];
    let shaft_end = shaft_end::size(&mut d, &drive, &flywheel, start, &[], &after);
    let shaft = frame::shaft(&mut d, &drive, &bracket, shaft_end.end_mm, room);
    let bores = [displacer.bore_mm, piston.bore_mm];
    let centres_mm = frame::centres(&mut d, &drive, &bracket, &shaft, &block, bores);
    let cooler = cooler::size(&mut d, plate_mm, bores, centres_mm);
    hanging::check(&mut d, bracket.front_y_mm, &clevis, &hot_cap, &cooler, &gland, &block);
    let mut room =
        cooler::room(&cooler, centres_mm, &block, cold.flange_diameter_mm, &gland, &joints.cold, 90.0);
    room.holes.extend(frame::feet(&bracket, &drive));
    let channels =
        channels::size(&mut d, &room, &["displacer.bore", "drive.crank_centres", "joints.hot_screws"]);
    let own = Flat { cooler, channels, guide, block, back, heights, centres_mm, bracket, shaft };
    frame::check(&mut d, &own, &joints, &flywheel);
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
        // it stands on its hot end
        base: None,
        joints,
        arranged: Arranged::GammaFlat(Box::new(own)),
        catalogue: Arc::clone(&design.catalogue),
        ledger: d.ledger,
    })
}
