//! `beta-coaxial`: displacer and piston in one cylinder line, the displacer's rod through the piston.
//!
//! From the top: a hot cap whose narrow upper bore is the heater, around a thin liner in which the displacer moves; the
//! regenerator in a canister around the liner, in the cap's wider lower bore; a drilled cooler with an annular water
//! jacket; the power cylinder; a crankcase that holds the charge pressure behind the piston. A yoke under the piston
//! carries two con rods, the displacer's con rod runs between them on a pin of its own in the middle of a built-up
//! crankshaft, whose pins set the lead. A ring around the shaft keeps the gas in.

mod case;
pub mod checks;
pub mod cooler;
mod head;
mod line;
pub mod mechanism;
pub mod meet;
pub mod moving;
pub mod path;
mod shaft;
mod strength;

use super::Refused;
use super::common::base::{self, bottom_mm};
use super::common::{displacer, drive, flywheel, gland, joints, piston, shaft_end};
use crate::catalogue::bushes::Bush;
use crate::catalogue::threads::{PortThread, Thread};
use crate::design::Design;
use crate::sizing::decide::Decide;
use crate::sizing::engine::{Arranged, BoltCircle, Engine};
use crate::sizing::regenerator::Annulus;
use std::sync::Arc;

/// Liner, heater and canister inside the hot cap.
#[derive(Clone, Debug, PartialEq)]
pub struct Head {
    /// Wall of the liner \[mm\].
    pub liner_wall_mm: f64,
    /// Outside diameter of the liner \[mm\].
    pub liner_mm: f64,
    /// Length of the liner \[mm\].
    pub liner_length_mm: f64,
    /// How deep it stands in the cooler \[mm\].
    pub seat_mm: f64,
    /// Way for the gas between its upper end and the hot end \[mm\].
    pub turn_mm: f64,
    /// Gap of the heater on the radius \[mm\].
    pub heater_gap_mm: f64,
    /// Length of the hot cap's narrow bore \[mm\].
    pub heater_mm: f64,
    /// Wide lower bore of the hot cap: diameter and depth \[mm\].
    pub low_bore_mm: [f64; 2],
    /// Regenerator.
    pub regenerator: Annulus,
    /// Sheet of the canister \[mm\].
    pub shell_mm: f64,
    /// Free height above and below the matrix \[mm\].
    pub plenum_mm: f64,
}

/// Drilled cooler; its length and outside diameter are those of the engine's cold cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct Cooler {
    /// Gas holes: number, diameter, circle diameter \[mm\].
    pub holes: (usize, f64, f64),
    /// Recess into which they open below: diameter and depth \[mm\].
    pub manifold_mm: [f64; 2],
    /// Widened bore into which the piston's crown rises: diameter and height \[mm\].
    pub belt_mm: [f64; 2],
    /// Inner and outer radius of the jacket \[mm\].
    pub jacket_r_mm: [f64; 2],
    /// Depth of the jacket from the lower face \[mm\].
    pub jacket_depth_mm: f64,
    /// Hose port thread.
    pub hose: &'static PortThread,
}

/// Yoke under the piston.
#[derive(Clone, Debug, PartialEq)]
pub struct Yoke {
    /// Bar below the crown \[mm\].
    pub bar_mm: f64,
    /// Slot of a con rod (along Y) \[mm\].
    pub slot_mm: f64,
    /// Legs beside the slots \[mm\].
    pub leg_mm: f64,
    /// y of the con rods \[mm\].
    pub rod_y_mm: f64,
    /// Half its length along Y \[mm\].
    pub half_mm: f64,
    /// Width along X \[mm\].
    pub width_mm: f64,
    /// Depth of its slots from the lower end \[mm\].
    pub slot_depth_mm: f64,
    /// Height of the pins above the lower end \[mm\].
    pub pin_z_mm: f64,
    /// Lower bush of the displacer's rod.
    pub bush: Bush,
    /// Length of that bush \[mm\].
    pub bush_length_mm: f64,
    /// Screws into the crown.
    pub screw: &'static Thread,
    /// Places of the four screws, x and y \[mm\].
    pub screw_xy_mm: [f64; 2],
    /// Length of the screws \[mm\].
    pub screw_mm: f64,
}

impl Yoke {
    /// Height over all \[mm\].
    pub fn height_mm(&self) -> f64 {
        self.bar_mm + self.slot_depth_mm
    }
}

/// Power cylinder: a tube between the cooler and the crankcase.
#[derive(Clone, Debug, PartialEq)]
pub struct Cylinder {
    /// Outside diameter of the tube \[mm\].
    pub outer_mm: f64,
    /// Thickness of the upper flange \[mm\].
    pub top_flange_mm: f64,
    /// Height of the lower end in the engine frame \[mm\] (negative).
    pub low_z_mm: f64,
    /// Lower flange: diameter and thickness \[mm\].
    pub flange_mm: [f64; 2],
    /// Screws of the lower flange.
    pub screws: BoltCircle,
}

/// Where things stand in the engine frame \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub struct Heights {
    /// How high the piston's crown rises above the power cylinder.
    pub crown_mm: f64,
    /// Upper face of the crankcase.
    pub case_top_mm: f64,
}

/// Built-up crankshaft, symmetric about the middle of the displacer's con rod.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaft {
    /// Webs between displacer and piston pins, and beyond the piston's \[mm\].
    pub webs_mm: [f64; 2],
    /// Distance between the displacer's and a piston's pin \[mm\].
    pub pins_apart_mm: f64,
    /// Radius of a web about a pin \[mm\].
    pub web_r_mm: f64,
    /// y of the outer face of the outer webs \[mm\].
    pub reach_mm: f64,
    /// Shim between web and journal bearing \[mm\].
    pub shim_mm: f64,
    /// Set screws in the webs.
    pub set_screw: &'static Thread,
}

/// Seal of the shaft: an O-ring in the outer face of an end plate, under a cap.
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftRing {
    /// Groove: diameter and width \[mm\].
    pub groove_mm: [f64; 2],
    /// O-ring.
    pub oring: String,
    /// Cap: diameter and thickness \[mm\].
    pub cap_mm: [f64; 2],
    /// Screws of the cap.
    pub screws: BoltCircle,
}

/// Crankcase: a block bored through along Y, with an end plate at either end.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// Bore \[mm\].
    pub bore_mm: f64,
    /// Length along Y \[mm\].
    pub length_mm: f64,
    /// Half its width along X \[mm\].
    pub half_mm: f64,
    /// Height above and depth below the crank axis \[mm\].
    pub rise_mm: [f64; 2],
    /// Opening for the power cylinder \[mm\].
    pub opening_mm: f64,
    /// End plates: diameter and thickness \[mm\].
    pub plate_mm: [f64; 2],
    /// Screws of an end plate.
    pub plate_screws: BoltCircle,
    /// Hub of an end plate inside the case: diameter, and y of its end \[mm\].
    pub hub_mm: [f64; 2],
    /// Thread of filling valve, relief valve and gauge.
    pub port: &'static PortThread,
    /// Place of two ports beside the middle of the case along Y \[mm\].
    pub port_y_mm: f64,
    /// Screws below, for a base.
    pub foot: &'static Thread,
    /// Their places, x and y \[mm\].
    pub foot_xy_mm: [f64; 2],
    /// Pressure over that of the room which it must bear \[Pa\].
    pub design_pa: f64,
    /// Gas in it, piston in the middle \[mm³\].
    pub gas_mm3: f64,
    /// Seal of the shaft.
    pub seal: ShaftRing,
    /// Name of the material of case, end plates and power cylinder.
    pub material: String,
}

impl Case {
    /// y of the rear plate's outer face \[mm\].
    pub fn rear_mm(&self, gasket: f64) -> f64 {
        self.length_mm / 2.0 + gasket + self.plate_mm[1]
    }

    /// How far screw heads and the seal's cap stand out from that face \[mm\].
    pub fn heads_mm(&self) -> f64 {
        let cap = self.seal.cap_mm[1] + self.seal.screws.thread.head_height_mm;
        cap.max(self.plate_screws.thread.head_height_mm)
    }
}

/// What this layout has beyond the common. The cold cylinder of the engine is the cooler; the rod's gland sits in the
/// piston's crown, the yoke is its cap.
#[derive(Clone, Debug, PartialEq)]
pub struct BetaCoaxial {
    /// Liner, heater, canister.
    pub head: Head,
    /// Cooler.
    pub cooler: Cooler,
    /// Yoke.
    pub yoke: Yoke,
    /// Power cylinder.
    pub cylinder: Cylinder,
    /// Heights.
    pub heights: Heights,
    /// Crankshaft.
    pub shaft: Shaft,
    /// Crankcase.
    pub case: Case,
}

/// Decides every dimension of the engine.
///
/// # Errors
/// All rules that the design breaks, each with the place of the number behind it.
pub fn size(design: &Design) -> Result<Engine, Refused> {
    let mut d = Decide::new(design);
    d.found_conditions();
    line::unused_keys(&mut d);
    let between = joints::between(&mut d);
    let gasket = between.jacket_mm;
    let screw = cooler::screw(&mut d);
    let (mut displacer, mut hot_cap, cold_length) = displacer::size(&mut d, between, displacer::Shape::Lined);
    let Some(head) = head::size(&mut d, &mut hot_cap, &displacer, between.hot_mm) else {
        return Err(d.refused());
    };
    let (stroke, clearance) = piston::line(&mut d);
    let strokes = [displacer.stroke_mm, stroke];
    let rod = displacer.rod_mm;
    let (mut drive, clevis) = drive::size(&mut d, strokes, rod);
    let Ok(meet) = meet::Meet::of(&drive) else { return Err(d.refused()) };
    let crown_mm = line::crown_rise(&mut d, &displacer, &meet, clearance);
    let cooler = cooler::size(&mut d, &head, &displacer, cold_length, crown_mm - gasket);
    let circle = cooler::circle(&mut d, &cooler, &head, &hot_cap, screw);
    let cold = cooler::body(&mut d, displacer.bore_mm, cold_length, screw, circle);
    let joints = joints::size(
        &mut d,
        head.low_bore_mm[0],
        circle,
        screw,
        // the screws of the cold joint come from below: nothing stands in their way
        [hot_cap.flange_mm, cold.flange_mm, f64::INFINITY],
        between,
    );
    let Some((groove, oring)) = gland::groove(&mut d, rod) else { return Err(d.refused()) };
    let gland_bush = line::gland_bush(&mut d, rod);
    let room = line::yoke_room(&mut d, rod, groove[1] + gland_bush.1, crown_mm);
    let piston = piston::size(&mut d, &piston::Below::Yoke(room));
    let yoke = line::yoke(&mut d, &room, &piston, &drive, &clevis, &meet);
    drive.crank_z_mm = line::crank_height(&mut d, &piston, &yoke, &drive, crown_mm);
    displacer.rod_length_mm = drive::displacer_rod(&mut d, &drive, &clevis, &displacer);
    let shaft = shaft::size(&mut d, &drive, &yoke);
    let (case, cylinder) = case::size(&mut d, &piston, &drive, &shaft, &cold, [crown_mm, gasket]);
    let heights = Heights { crown_mm, case_top_mm: drive.crank_z_mm + case.rise_mm[0] };
    let flywheel = flywheel::size(&mut d, &drive, 2.0 * case.half_mm, "case.half_width");
    let start = case.rear_mm(gasket) + case.heads_mm() + 1.0;
    let beside = case::standing(&case, &cylinder, &cold, drive.crank_z_mm, gasket);
    let after = ["case.length", "case.plate_thickness", "joints.gasket_thickness"];
    let shaft_end = shaft_end::size(&mut d, &drive, &flywheel, start, &beside, &after);
    let stand = case::stand(&case, drive.crank_z_mm, gasket, shaft_end.wheel_mm, &flywheel);
    let after = ["drive.crank_height", "case.height_below_crank", "case.half_width"];
    let base = base::size(&mut d, &stand, &case.material, &after);
    let gland = line::gland_of(&yoke, groove, oring, gland_bush);
    line::check(&mut d, &piston, &yoke, &cylinder, &drive, &displacer);
    cooler::check(&mut d, &cooler, &joints, &cold, hot_cap.flange_mm);
    strength::check(&mut d, &case, &hot_cap, &head, &joints);
    displacer::peak_temperature(&mut d, &hot_cap);
    if !d.problems.is_empty() {
        return Err(d.refused());
    }
    Ok(Engine {
        name: design.engine.name.value.clone(),
        charge_pa: design.engine.charge_pressure_pa.value,
        base: Some(base),
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
        joints,
        arranged: Arranged::BetaCoaxial(Box::new(BetaCoaxial {
            head,
            cooler,
            yoke,
            cylinder,
            heights,
            shaft,
            case,
        })),
        catalogue: Arc::clone(&design.catalogue),
        ledger: d.ledger,
    })
}

/// Height, width and depth over all \[mm\]: hot cap to base or wheel, the widest of flange, base and wheel, from the front
/// plate's screws to the end of the shaft.
pub fn sides_mm(e: &Engine, own: &BetaCoaxial) -> [f64; 3] {
    let (c, wheel) = (&own.case, e.flywheel.diameter_mm);
    let top = e.stack.cap_low_mm + e.hot_cap.depth_mm + e.hot_cap.end_mm;
    let flange = e.cold.flange_diameter_mm;
    let plate = c.rear_mm(e.joints.gasket_mm);
    let [low, wide] = e.base.as_ref().map_or([0.0; 2], |b| [bottom_mm(b), b.high_mm[0] - b.low_mm[0]]);
    [
        (top - e.drive.crank_z_mm + c.rise_mm[1].max(wheel / 2.0)).max(top - low),
        flange.max(2.0 * c.half_mm).max(wheel).max(wide),
        plate.max(flange / 2.0) + e.shaft_end.end_mm.max(flange / 2.0),
    ]
}
