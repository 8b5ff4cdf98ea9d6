//! Keys of what the engine works against and with: load, flywheel, and how far its uncertain inputs spread.

use super::super::choice::{BeltSection, LoadKind};
use super::super::key::Presence::{Default, Open};
use super::super::key::{Key, Kind, List, ratio, unit_range};
use super::super::spread::Spread;
use super::super::units::Dimension;
use super::{Field, Setting, Values, mm, rpm, watt};

const OF_KIND: &str = "for the kinds that ask for it";
const NONE: &str = "left out: none";

table! {
    /// What the engine drives. Each kind has keys of its own.
    Load {
        /// Kind of load: `constant-torque` (torque), `lift-pump` (head, flow at a speed), `pump` and `fan` (torque or power at a speed, as the square of the speed), `generator` (torque or power at a speed, idle torque), `vehicle`.
        "kind" => kind: Option<Setting<LoadKind>> = Kind::Choice(LoadKind::NAMES), Open("left out: no load");
        /// Torque at the load's shaft.
        "torque" => torque_nm: Option<Setting<f64>> = unit_range(Dimension::Torque, 1e-4, 10_000.0), Open(OF_KIND);
        /// Power at the load's shaft, in the place of a torque.
        "power" => power_w: Option<Setting<f64>> = watt(0.001, 100_000.0), Open(OF_KIND);
        /// Speed of the load's shaft at which torque, power or flow are given.
        "speed" => speed_rpm: Option<Setting<f64>> = rpm(1.0, 100_000.0), Open(OF_KIND);
        /// Part of the torque that a generator takes at any speed: cogging and bearings.
        "idle_torque" => idle_nm: Option<Setting<f64>> = unit_range(Dimension::Torque, 0.0, 1000.0), Open(NONE);
        /// Height by which a lift pump raises the water, friction of the pipe with it.
        "head" => head_mm: Option<Setting<f64>> = mm(10.0, 500_000.0), Open(OF_KIND);
        /// Water that a lift pump moves at its speed.
        "flow" => flow_l_min: Option<Setting<f64>> = unit_range(Dimension::Flow, 0.001, 10_000.0), Open(OF_KIND);
        /// Efficiency of a lift pump.
        "pump_efficiency" => pump_efficiency: Option<Setting<f64>> = ratio(0.01, 1.0), Open(OF_KIND);
        /// Mass of a vehicle with what it carries.
        "mass" => mass_kg: Option<Setting<f64>> = unit_range(Dimension::Mass, 0.01, 100_000.0), Open(OF_KIND);
        /// Rolling resistance of a vehicle over its weight.
        "rolling" => rolling: Option<Setting<f64>> = ratio(0.0, 1.0), Open(OF_KIND);
        /// Drag coefficient of a vehicle times its frontal area.
        "drag_area" => drag_m2: Option<Setting<f64>> = unit_range(Dimension::Area, 0.0, 100.0), Open(OF_KIND);
        /// Slope that a vehicle climbs, rise over way on the map.
        "slope" => slope: Option<Setting<f64>> = ratio(0.0, 1.0), Open("left out: the flat");
        /// Diameter of a vehicle's driven wheels.
        "wheel_diameter" => wheel_mm: Option<Setting<f64>> = mm(5.0, 5000.0), Open(OF_KIND);
        /// Speed of the load's shaft over that of the engine.
        "speed_ratio" => speed_ratio: Option<Setting<f64>> = ratio(0.005, 200.0), Open("left out: the best is sought");
        /// Efficiency of the drive between engine and load.
        "drive_efficiency" => drive_efficiency: Setting<f64> = ratio(0.05, 1.0), Default("0.95", "a belt or a pair of gears in good order");
        /// Section of the toothed belt to the load.
        "belt_section" => belt_section: Setting<BeltSection> = Kind::Choice(BeltSection::NAMES), Default("3M", "light and on every shelf");
        /// Width of that belt.
        "belt_width" => belt_width_mm: Setting<f64> = mm(3.0, 50.0), Default("9 mm", "a stock width of 3M and 5M");
    }
}

table! {
    /// The flywheel on the piston's crank: a plain disc on a hub, or one with round holes between hub and rim.
    Flywheel {
        /// Inertia of a wheel that you have; not together with width, rim or material.
        "inertia" => inertia_kg_m2: Option<Setting<f64>> = unit_range(Dimension::Inertia, 1e-7, 1000.0), Open("left out: it follows from the sizes");
        /// Mass of a wheel that you have; only together with its inertia.
        "mass" => mass_kg: Option<Setting<f64>> = unit_range(Dimension::Mass, 0.001, 10_000.0), Open("left out: it follows from the sizes");
        /// Outside diameter.
        "diameter" => diameter_mm: Option<Setting<f64>> = mm(10.0, 3000.0), Open("left out: sizing decides it");
        /// Width; with a steadiness and without a width, the plate that is thick enough for it.
        "width" => width_mm: Setting<f64> = mm(1.0, 500.0), Default("10 mm", "plate of that thickness is common");
        /// Thickness of a rim, on the radius: the disc inside it gets round holes.
        "rim_thickness" => rim_mm: Option<Setting<f64>> = mm(1.0, 1500.0), Open("left out: a plain disc");
        /// Material.
        "material" => material: Setting<String> = Kind::Listed(List::Material, &["mild-steel", "cast-iron", "brass", "aluminium-6082"]), Default("mild-steel", "heavy and cheap");
        /// Steadiness wanted at the target speed: greatest less least speed in a turn, over the mean.
        "steadiness" => steadiness: Option<Setting<f64>> = ratio(0.001, 1.0), Open("left out: it is told, not asked");
    }
}

/// A factor on what the model takes.
const FACTOR: Kind = Kind::Spread { kelvin: false };
/// An addition to a temperature.
const KELVIN: Kind = Kind::Spread { kelvin: true };
const FROM_MEMORY: &str = "range of published values, from memory";
const PRACTICE: &str = "common practice, no source";

table! {
    /// How far what is uncertain spreads, as a factor on what the model takes: `within 1.5` (eight in ten between 1/1.5 and 1.5 times), `0.8..1.2` (even between), `1.1` (measured), `known`. Walls: what the gas sees over what is said, in kelvin: `-60 K..10 K`, `-20 K`, `known`.
    Spreads {
        /// Friction of the piston rings.
        "ring_friction" => ring_friction: Setting<Spread> = FACTOR, Default("within 1.8", FROM_MEMORY);
        /// Friction of the rod's gland.
        "gland_friction" => gland_friction: Setting<Spread> = FACTOR, Default("within 2", FROM_MEMORY);
        /// Friction of the guides.
        "guide_friction" => guide_friction: Setting<Spread> = FACTOR, Default("within 1.6", FROM_MEMORY);
        /// Friction of the ball bearings.
        "bearing_friction" => bearing_friction: Setting<Spread> = FACTOR, Default("within 1.5", PRACTICE);
        /// Drag of the belt.
        "belt_drag" => belt_drag: Setting<Spread> = FACTOR, Default("within 2", PRACTICE);
        /// Leak past rings and gland.
        "leak" => leak: Setting<Spread> = FACTOR, Default("within 3", PRACTICE);
        /// Heat transfer between gas and walls.
        "heat_transfer" => heat_transfer: Setting<Spread> = FACTOR, Default("within 1.5", "correlations of mesh differ by 30 to 40 %, of channels by 20 %");
        /// Another one on that in the cylinder spaces.
        "end_heat_transfer" => end_heat_transfer: Setting<Spread> = FACTOR, Default("within 2", "published laws for cylinders differ so much");
        /// Friction of the flow.
        "flow_friction" => flow_friction: Setting<Spread> = FACTOR, Default("within 1.4", "correlations differ by 30 to 40 %");
        /// Hot wall that the gas sees, over `hot_end.temperature`.
        "hot_wall" => hot_wall: Setting<Spread> = KELVIN, Default("-60 K..10 K", "the gas side is cooler than what is measured outside; for a fall of 450 K, in proportion to it");
        /// Cold wall that the gas sees, over `cold_end.temperature`.
        "cold_wall" => cold_wall: Setting<Spread> = KELVIN, Default("-5 K..20 K", "the gas side is warmer than the coolant; for a fall of 450 K, in proportion to it");
    }
}
