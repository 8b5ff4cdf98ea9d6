//! The sized engine: a plain value in which every dimension is decided.
//!
//! What every layout has stands in [`Engine`] itself; what belongs to one layout alone is a variant of [`Arranged`],
//! its struct in the layout's folder.
//!
//! Frame: Z points to the hot end along the displacer's axis, X from that axis towards the power cylinder, Y along
//! the crankshafts. The origin is on the displacer's axis in the face of the cooler plate on which the cold cylinder
//! stands. In the layout `gamma-flat` both cylinders stand along the one shaft, the power cylinder on Y. Lengths in
//! millimetres; fields say so by `_mm`.

use super::layouts::beta_coaxial::BetaCoaxial;
use super::layouts::gamma_flat::Flat;
use super::layouts::gamma_right_angle::RightAngle;
use super::layouts::gamma_twin_crank::TwinCrank;
use super::ledger::Ledger;
use super::regenerator::Annulus;
use super::rings::PistonRing;
use crate::catalogue::Catalogue;
use crate::catalogue::bearings::BallBearing;
use crate::catalogue::bushes::Bush;
use crate::catalogue::materials::{Material, materials};
use crate::catalogue::threads::{PortThread, Thread};
use std::sync::Arc;

/// A ring of equally spaced screws.
#[derive(Clone, Debug, PartialEq)]
pub struct BoltCircle {
    /// Screw thread.
    pub thread: &'static Thread,
    /// Diameter of the circle of screw centres \[mm\].
    pub diameter_mm: f64,
    /// Number of screws.
    pub count: usize,
    /// Angle of the first screw from +X \[deg\].
    pub first_deg: f64,
    /// Screw length below the head \[mm\].
    pub screw_mm: f64,
}

/// Hot cap: a cup with a flange; gas at the hot temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct HotCap {
    /// Temperature of the wall that the gas sees \[K\].
    pub temperature_k: f64,
    /// Inside diameter at the hot end \[mm\].
    pub bore_mm: f64,
    /// Wall \[mm\].
    pub wall_mm: f64,
    /// Thickness of the closed end \[mm\].
    pub end_mm: f64,
    /// Inside depth from the gasket face \[mm\].
    pub depth_mm: f64,
    /// Flange thickness \[mm\].
    pub flange_mm: f64,
    /// Name of the material.
    pub material: String,
    /// What heats it burns.
    pub flame: bool,
}

/// Cold cylinder: a tube with two flanges and fins.
#[derive(Clone, Debug, PartialEq)]
pub struct ColdCylinder {
    /// Temperature of the wall that the gas sees \[K\].
    pub temperature_k: f64,
    /// Length between its gasket faces \[mm\].
    pub length_mm: f64,
    /// Wall under the fins \[mm\].
    pub wall_mm: f64,
    /// Flange thickness \[mm\].
    pub flange_mm: f64,
    /// Outside diameter of both flanges and of the hot cap's \[mm\].
    pub flange_diameter_mm: f64,
    /// Number of fins.
    pub fins: usize,
    /// Fin thickness \[mm\].
    pub fin_mm: f64,
    /// Free height between fins \[mm\].
    pub fin_gap_mm: f64,
    /// Fin outside diameter \[mm\].
    pub fin_diameter_mm: f64,
    /// Name of the material.
    pub material: String,
}

/// Displacer, its rod and the cylinder it moves in.
#[derive(Clone, Debug, PartialEq)]
pub struct Displacer {
    /// Cylinder bore \[mm\].
    pub bore_mm: f64,
    /// Stroke \[mm\].
    pub stroke_mm: f64,
    /// Outside diameter of its shell \[mm\].
    pub diameter_mm: f64,
    /// Radial gap to the wall \[mm\].
    pub gap_mm: f64,
    /// Length over all \[mm\].
    pub length_mm: f64,
    /// Inside length of its cylinder, from cooler plate to hot end \[mm\].
    pub cylinder_mm: f64,
    /// Clearance to the hot end at the top of the stroke \[mm\].
    pub hot_clearance_mm: f64,
    /// Clearance to the cooler plate at the bottom of the stroke \[mm\].
    pub cold_clearance_mm: f64,
    /// Wall of the shell \[mm\].
    pub shell_wall_mm: f64,
    /// Thickness of the base \[mm\].
    pub base_mm: f64,
    /// Hub: outside diameter and height above the base \[mm\].
    pub hub_mm: [f64; 2],
    /// Set screw of the hub.
    pub set_screw: &'static Thread,
    /// Rod diameter \[mm\].
    pub rod_mm: f64,
    /// Rod length over all \[mm\].
    pub rod_length_mm: f64,
    /// Built around a bought can.
    pub bought_can: bool,
    /// Regenerator wound on it, where it has one; `gap_mm` is the clearance around that.
    pub regenerator: Option<Annulus>,
    /// Name of the material of the shell.
    pub material: String,
}

/// Where the displacer's rod leaves the gas: bush, O-ring in a recess, cap that holds it.
#[derive(Clone, Debug, PartialEq)]
pub struct RodGland {
    /// Rod bush.
    pub bush: Bush,
    /// Length of the rod bush \[mm\].
    pub bush_length_mm: f64,
    /// Groove: diameter and width (depth from the face) \[mm\]; no width where the bush alone seals.
    pub groove_mm: [f64; 2],
    /// Rod O-ring, for the parts list; `None` where the bush alone seals.
    pub oring: Option<String>,
    /// Cap: diameter and thickness \[mm\].
    pub cap_mm: [f64; 2],
    /// Screws of the cap.
    pub screws: BoltCircle,
}

/// Power cylinder block with its water jacket.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// Length \[mm\].
    pub length_mm: f64,
    /// Half the side of the square \[mm\].
    pub half_mm: f64,
    /// Inner and outer radius of the jacket \[mm\].
    pub jacket_r_mm: [f64; 2],
    /// Depth of the jacket from the crank end \[mm\].
    pub jacket_depth_mm: f64,
    /// Distance of the stud centres from both middle planes \[mm\].
    pub stud_mm: f64,
    /// Stud thread.
    pub stud: &'static Thread,
    /// Preload of each stud \[N\].
    pub stud_preload_n: f64,
    /// Stud length \[mm\].
    pub stud_length_mm: f64,
    /// Depth of full thread in the cooler plate \[mm\].
    pub stud_depth_mm: f64,
    /// O-ring in its face towards the gas in the place of a gasket.
    pub ring: Option<FaceRing>,
    /// Hose port thread.
    pub hose: &'static PortThread,
    /// Name of the material.
    pub material: String,
}

/// Piston, rings and rod.
#[derive(Clone, Debug, PartialEq)]
pub struct Piston {
    /// Bore of the power cylinder \[mm\].
    pub bore_mm: f64,
    /// Stroke \[mm\].
    pub stroke_mm: f64,
    /// Outside diameter \[mm\].
    pub diameter_mm: f64,
    /// Length \[mm\].
    pub length_mm: f64,
    /// Crown thickness \[mm\].
    pub crown_mm: f64,
    /// Inside diameter below the crown \[mm\].
    pub inside_mm: f64,
    /// Land above the first ring \[mm\].
    pub top_land_mm: f64,
    /// Land between rings \[mm\].
    pub land_mm: f64,
    /// What seals it.
    pub seal: PistonRing,
    /// Play in the bore on the diameter when hot \[mm\].
    pub hot_play_mm: f64,
    /// Clearance to the cooler plate at the top of the stroke \[mm\].
    pub top_clearance_mm: f64,
    /// Clearance to the back plate at the bottom of the stroke \[mm\].
    pub bottom_clearance_mm: f64,
    /// Boss: diameter and height below the crown \[mm\].
    pub boss_mm: [f64; 2],
    /// Rod diameter \[mm\].
    pub rod_mm: f64,
    /// Rod length over all \[mm\].
    pub rod_length_mm: f64,
    /// Name of the material.
    pub material: String,
}

/// Rod ends: thread and engagement.
#[derive(Clone, Debug, PartialEq)]
pub struct RodEnd {
    /// Thread on the end of a rod.
    pub thread: &'static Thread,
    /// Length of thread on the rod \[mm\].
    pub length_mm: f64,
}

/// Clevis that joins rod and con rod.
#[derive(Clone, Debug, PartialEq)]
pub struct Clevis {
    /// Size along X, Y and Z \[mm\].
    pub size_mm: [f64; 3],
    /// Slot width (along Y) \[mm\].
    pub slot_mm: f64,
    /// Slot depth from the lower end \[mm\].
    pub slot_depth_mm: f64,
    /// Height of the pin above the lower end \[mm\].
    pub pin_z_mm: f64,
    /// Pin diameter \[mm\].
    pub pin_mm: f64,
}

/// Drive of one cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct Crank {
    /// Throw \[mm\].
    pub throw_mm: f64,
    /// Rod thread and the lengths of it.
    pub rod_end: RodEnd,
}

/// Con rods, cranks and bracket.
#[derive(Clone, Debug, PartialEq)]
pub struct Drive {
    /// Lead of the displacer \[deg\].
    pub lead_deg: f64,
    /// Crank of the displacer.
    pub displacer: Crank,
    /// Crank of the piston.
    pub piston: Crank,
    /// Con rod between centres \[mm\].
    pub con_rod_mm: f64,
    /// Con rod thickness \[mm\].
    pub con_rod_thickness_mm: f64,
    /// Radius of the big and small eye \[mm\].
    pub eye_r_mm: [f64; 2],
    /// Bearing on the crankpin.
    pub crankpin_bearing: BallBearing,
    /// Bearing on the clevis pin.
    pub small_end_bearing: BallBearing,
    /// Bearing of the journals.
    pub journal_bearing: BallBearing,
    /// Web thickness \[mm\].
    pub web_mm: f64,
    /// Radius of the web about journal and pin \[mm\].
    pub web_r_mm: [f64; 2],
    /// Gap between con rod and web, and web and bracket \[mm\].
    pub side_gap_mm: f64,
    /// Bracket thickness \[mm\].
    pub bracket_mm: f64,
    /// Metal of the bracket beside and below a crank axis \[mm\].
    pub bracket_edge_mm: f64,
    /// Bracket screws.
    pub bracket_screw: &'static Thread,
    /// Height of the crank axes in the engine frame \[mm\] (negative).
    pub crank_z_mm: f64,
    /// Name of the material of cranks and con rods.
    pub material: String,
}

/// Toothed belt 1:1 between both cranks.
#[derive(Clone, Debug, PartialEq)]
pub struct Belt {
    /// Section, `3M` or `5M`.
    pub section: String,
    /// Teeth of each pulley.
    pub pulley_teeth: usize,
    /// Belt length \[mm\].
    pub length_mm: f64,
    /// Belt width \[mm\].
    pub width_mm: f64,
    /// Width over the pulley's teeth \[mm\].
    pub face_mm: f64,
    /// Hub diameter and length of a pulley \[mm\].
    pub hub_mm: [f64; 2],
    /// Flange thickness and diameter \[mm\].
    pub flange_mm: [f64; 2],
    /// Set screw of the hub.
    pub set_screw: &'static Thread,
}

/// O-ring in a groove of a flange's face.
#[derive(Clone, Debug, PartialEq)]
pub struct FaceRing {
    /// Designation.
    pub designation: String,
    /// Section \[mm\].
    pub section_mm: f64,
    /// Inside and outside diameter of the groove \[mm\].
    pub groove_mm: [f64; 2],
    /// Depth of the groove \[mm\].
    pub depth_mm: f64,
    /// Least and greatest squeeze, part of the section.
    pub squeeze: [f64; 2],
    /// Part of the groove that it fills.
    pub fill: f64,
}

/// Joints of the hot and cold flange and what seals them.
#[derive(Clone, Debug, PartialEq)]
pub struct Joints {
    /// Hot cap on the cold cylinder.
    pub hot: BoltCircle,
    /// Cold cylinder on the cooler plate.
    pub cold: BoltCircle,
    /// Holes in the cold cylinder's upper flange through which the screws of the cold joint go in, where it is too short for
    /// them between its flanges: diameter \[mm\].
    pub access_mm: Option<f64>,
    /// Preload of each screw of the hot joint \[N\].
    pub hot_preload_n: f64,
    /// Preload of each screw of the cold joint \[N\].
    pub cold_preload_n: f64,
    /// Thickness of the hot gasket as built \[mm\].
    pub hot_gasket_mm: f64,
    /// Thickness of each other gasket as built \[mm\].
    pub gasket_mm: f64,
    /// Gap between the flanges of the cold joints \[mm\]: their gasket, or nothing with an O-ring.
    pub cold_gap_mm: f64,
    /// O-ring below the cold cylinder in the place of its gasket.
    pub cold_ring: Option<FaceRing>,
    /// Sheet of the hot gasket.
    pub hot_sheet: String,
    /// Sheet of the other gaskets.
    pub cold_sheet: String,
}

/// Back plate at the crank end of the block.
#[derive(Clone, Debug, PartialEq)]
pub struct BackPlate {
    /// Thickness \[mm\].
    pub thickness_mm: f64,
    /// Guide bush of a rod.
    pub bush: Bush,
    /// Length of a guide bush \[mm\].
    pub bush_length_mm: f64,
    /// Vents: number, diameter, circle diameter \[mm\].
    pub vents: (usize, f64, f64),
}

/// Heights of the displacer's cylinder in the engine frame \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// Gasket face of the cold cylinder on the cooler plate.
    pub cold_low_mm: f64,
    /// Gasket face of the cold cylinder under the hot cap.
    pub cold_top_mm: f64,
    /// Gasket face of the hot cap.
    pub cap_low_mm: f64,
}

/// Hub that holds a disc on a shaft: a boss with set screws, a flange, a spigot that centres the disc.
#[derive(Clone, Debug, PartialEq)]
pub struct Hub {
    /// Bore \[mm\].
    pub bore_mm: f64,
    /// Boss: diameter and length \[mm\].
    pub boss_mm: [f64; 2],
    /// Flange: diameter and thickness \[mm\].
    pub flange_mm: [f64; 2],
    /// Spigot: diameter and length \[mm\].
    pub spigot_mm: [f64; 2],
    /// Screws through the disc into the flange.
    pub screws: BoltCircle,
    /// Set screws of the boss, two at a right angle.
    pub set_screw: &'static Thread,
    /// Length of these \[mm\].
    pub set_screw_mm: f64,
}

/// Round holes between hub and rim of a wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Lightening {
    /// How many.
    pub count: usize,
    /// Diameter \[mm\].
    pub diameter_mm: f64,
    /// Circle of their centres \[mm\].
    pub circle_mm: f64,
}

/// Holes on the heavy side of a wheel, which balance the cranks.
#[derive(Clone, Debug, PartialEq)]
pub struct BalanceHoles {
    /// Diameter \[mm\].
    pub diameter_mm: f64,
    /// Circle of their centres \[mm\].
    pub circle_mm: f64,
    /// Where they stand, from the crankpin by which the wheel is set \[deg\].
    pub angles_deg: Vec<f64>,
}

/// What a wheel that is made has beyond its figures.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeWheel {
    /// Width of the disc \[mm\].
    pub width_mm: f64,
    /// Metal under the heads of the hub's screws \[mm\]: the width, or what a counterbore leaves of it.
    pub grip_mm: f64,
    /// Holes between hub and rim; `None` for a plain disc.
    pub holes: Option<Lightening>,
    /// Holes that balance the cranks, where the design asks for it.
    pub balance: Option<BalanceHoles>,
    /// Hub.
    pub hub: Hub,
    /// Speed at which the stress in the wheel is what its material may carry \[rpm\].
    pub fastest_rpm: f64,
    /// Name of the material.
    pub material: String,
}

/// Flywheel on the piston's crank.
#[derive(Clone, Debug, PartialEq)]
pub struct Flywheel {
    /// Outside diameter \[mm\].
    pub diameter_mm: f64,
    /// Mass \[kg\].
    pub mass_kg: f64,
    /// Inertia about its shaft \[kg m²\].
    pub inertia_kg_m2: f64,
    /// What it is made as; `None` for a wheel that the builder has.
    pub made: Option<MadeWheel>,
}

/// Belt drive to the load.
#[derive(Clone, Debug, PartialEq)]
pub struct Output {
    /// Pulley on the engine's shaft; its belt goes to the load.
    pub pulley: Belt,
    /// Teeth of the pulley on the load.
    pub mate_teeth: usize,
    /// Speed of the load over that of the engine that was asked for.
    pub wanted: f64,
    /// Distance from the shaft to that of the load \[mm\].
    pub centres_mm: f64,
}

impl Output {
    /// Speed of the load over that of the engine that the teeth give.
    pub fn ratio(&self) -> f64 {
        self.pulley.pulley_teeth as f64 / self.mate_teeth as f64
    }
}

/// A foot under a base plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Foot {
    /// Diameter \[mm\].
    pub diameter_mm: f64,
    /// Length \[mm\].
    pub length_mm: f64,
    /// Depth of full thread in either end \[mm\].
    pub thread_mm: f64,
    /// Screw from the plate into it \[mm\].
    pub screw_mm: f64,
}

/// Base plate under the crank bracket or the crankcase.
#[derive(Clone, Debug, PartialEq)]
pub struct Base {
    /// Least x and y \[mm\].
    pub low_mm: [f64; 2],
    /// Greatest x and y \[mm\].
    pub high_mm: [f64; 2],
    /// Height of its upper face \[mm\].
    pub top_mm: f64,
    /// Thickness \[mm\].
    pub thickness_mm: f64,
    /// Screws into what stands on it, from below.
    pub screw: &'static Thread,
    /// Length of these \[mm\].
    pub screw_mm: f64,
    /// Where they stand in X and Y \[mm\].
    pub screws_mm: [[f64; 2]; 4],
    /// Depth of full thread for them \[mm\].
    pub thread_mm: f64,
    /// Screws into feet or bench.
    pub hold_down: &'static Thread,
    /// Where these stand \[mm\].
    pub hold_down_mm: [[f64; 2]; 4],
    /// Feet, where the flywheel reaches below the plate.
    pub foot: Option<Foot>,
    /// Name of the material.
    pub material: String,
}

/// What sits on the free end of the crankshaft, by its place along Y \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftEnd {
    /// Where the free end begins.
    pub start_mm: f64,
    /// Face of the flywheel towards the engine.
    pub wheel_mm: f64,
    /// Where the pulley of the load begins.
    pub output_mm: f64,
    /// End of the shaft.
    pub end_mm: f64,
    /// Belt drive to the load, where there is one.
    pub output: Option<Output>,
}

/// What is decided for one layout alone.
#[derive(Clone, Debug, PartialEq)]
pub enum Arranged {
    /// Parallel cylinders, a crank each, a belt between them.
    GammaTwinCrank(Box<TwinCrank>),
    /// Cylinders at a right angle, both con rods on one crankpin.
    GammaRightAngle(Box<RightAngle>),
    /// A wide displacer, both cylinders along one crankshaft.
    GammaFlat(Box<Flat>),
    /// Displacer and piston in one cylinder line, the rod through the piston, a crankcase under pressure.
    BetaCoaxial(Box<BetaCoaxial>),
}

/// Everything decided.
#[derive(Clone, Debug)]
pub struct Engine {
    /// Name of the design.
    pub name: String,
    /// Pressure with which it is filled when cold \[Pa\].
    pub charge_pa: f64,
    /// Hot cap.
    pub hot_cap: HotCap,
    /// Cold cylinder.
    pub cold: ColdCylinder,
    /// Displacer.
    pub displacer: Displacer,
    /// Rod gland.
    pub gland: RodGland,
    /// Piston.
    pub piston: Piston,
    /// Clevis of both rods.
    pub clevis: Clevis,
    /// Drive.
    pub drive: Drive,
    /// Flywheel.
    pub flywheel: Flywheel,
    /// Free end of the crankshaft with flywheel and output pulley.
    pub shaft_end: ShaftEnd,
    /// Base under the bracket; `None` for an engine that stands on something else.
    pub base: Option<Base>,
    /// Joints.
    pub joints: Joints,
    /// Heights.
    pub stack: Stack,
    /// What belongs to the layout alone.
    pub arranged: Arranged,
    /// Where materials, screws and sheets are looked up: the program's tables and the user's own entries.
    pub catalogue: Arc<Catalogue>,
    /// Where every number came from.
    pub ledger: Ledger,
}

impl Engine {
    /// A material by its name; the first of the table for one that is unknown.
    pub fn metal(&self, name: &str) -> &Material {
        self.catalogue.material(name).unwrap_or(&materials()[0])
    }
}
