//! The keys of the design file, in one place: the typed design, reading, ranges, defaults, documentation, schema, starter
//! and the table of the manual all come from this table.
//!
//! Ranges are sanity limits of a single value; rules between values belong to sizing. Defaults are common practice of
//! small engines unless they name a source.

use super::choice::*;
use super::key::Presence::{Default, Open, Required, Sought};
use super::key::{Key, Kind, List, Table, bar_abs, celsius, count, deg, mm, ratio, rpm, unit_range, watt};
use super::setting::Setting;
use super::units::Dimension;
use super::value::{Field, Values};
use crate::catalogue::Catalogue;
use std::sync::Arc;

/// Makes a struct of settings and its keys from rows `name in the file => field: type = kind, presence`.
macro_rules! table {
    ($(#[doc = $table_doc:literal])+ $Table:ident {
        $($(#[doc = $doc:literal])+ $key:literal => $field:ident: $type:ty = $kind:expr, $presence:expr;)+
    }) => {
        $(#[doc = $table_doc])+
        ///
        /// Units stand in the names of the fields.
        #[derive(Clone, Debug, PartialEq)]
        pub struct $Table {
            $($(#[doc = $doc])+ pub $field: $type,)+
        }

        impl $Table {
            /// Its keys.
            pub const KEYS: &'static [Key] = &[
                $(Key { name: $key, kind: $kind, presence: $presence, doc: concat!($($doc),+) },)+
            ];
            /// What it is about.
            pub const DOC: &'static str = concat!($($table_doc),+);

            /// Takes its values; `None` when one is missing or of another type than this table says.
            pub(in crate::design) fn take(values: &mut Values) -> Option<Self> {
                Some(Self { $($field: Field::take(values, $key)?,)+ })
            }
        }
    };
}

mod accepted;
mod work;
pub use accepted::Accepted;
pub use work::{Flywheel, Load, Spreads};

const SIZING: &str = "left out: sizing decides it";
const UNBOUNDED: &str = "left out: no limit";
const HOT_METALS: &[&str] = &["stainless-304", "stainless-316", "mild-steel"];
const COLD_METALS: &[&str] = &["aluminium-6082", "aluminium-6061", "mild-steel", "cast-iron", "brass"];
const PISTON_METALS: &[&str] = &["aluminium-6082", "aluminium-6061", "cast-iron"];
const SHELL_METALS: &[&str] = &["stainless-304", "stainless-316", "mild-steel", "aluminium-6082"];
const CRANK_METALS: &[&str] = &["mild-steel", "aluminium-6082", "brass"];
const GASES: &[&str] = &["air", "nitrogen", "helium", "hydrogen"];
const GASKETS: &[&str] = &["graphite", "vermiculite", "silicone", "ptfe", "fibre", "paper-oiled"];
const FUELS: &[&str] = &["propane", "butane", "natural-gas", "ethanol", "wood", "electric"];
const SCREWS: &[&str] = &["M3", "M4", "M5", "M6", "M8"];

table! {
    /// The engine: its name, how it is arranged, its gas.
    Engine {
        /// Name of the engine; the output folder is called so.
        "name" => name: Setting<String> = Kind::Name, Required("my-engine");
        /// How cylinders, cranks and belt are arranged.
        "layout" => layout: Setting<Layout> = Kind::Choice(Layout::NAMES), Required("gamma-twin-crank");
        /// Working gas.
        "gas" => gas: Setting<String> = Kind::Listed(List::Gas, GASES),
            Default("air", "it costs nothing and a leak does no harm");
        /// Mean pressure with which the engine is filled when cold.
        "charge_pressure" => charge_pressure_pa: Setting<f64> = bar_abs(0.5, 50.0).open(1e4),
            Default("1.01325 bar abs", "the air of the room (ISO 2533)");
    }
}

table! {
    /// What the engine should do.
    Targets {
        /// Speed at which it should work.
        "speed" => speed_rpm: Setting<f64> = rpm(10.0, 6000.0).open(5.0), Default("300 rpm", "gentle for a first engine");
        /// Shaft power wanted.
        "power" => power_w: Option<Setting<f64>> = watt(0.01, 10_000.0), Open("left out: sizing says what the engine gives; what is open needs it");
    }
}

table! {
    /// How what the engine will do is worked out.
    Model {
        /// Model of the gas cycle.
        "cycle" => cycle: Setting<CycleChoice> = Kind::Choice(CycleChoice::NAMES),
            Default("full", "it knows leaks, lag of heat, flow friction and the drive");
        /// Samples for the band of power; 0 for none.
        "samples" => samples: Setting<usize> = count(0, 2000), Default("40", "a tenth part to either side can be told");
        /// Seed of the samples.
        "seed" => seed: Setting<usize> = count(0, 1_000_000), Default("1", "the same seed gives the same answer");
        /// Fastest spin that a hand gives.
        "hand_speed" => hand_speed_rpm: Setting<f64> = rpm(10.0, 1000.0), Default("200 rpm", "with a flywheel of some kilograms");
    }
}

table! {
    /// What must not be exceeded.
    Limits {
        /// Greatest height of the whole engine.
        "height" => height_mm: Option<Setting<f64>> = mm(20.0, 5000.0), Open(UNBOUNDED);
        /// Greatest width of the whole engine.
        "width" => width_mm: Option<Setting<f64>> = mm(20.0, 5000.0), Open(UNBOUNDED);
        /// Greatest depth of the whole engine.
        "depth" => depth_mm: Option<Setting<f64>> = mm(20.0, 5000.0), Open(UNBOUNDED);
        /// Highest temperature of the hot end's metal.
        "peak_temperature" => peak_temperature_k: Setting<f64> = celsius(50.0, 1100.0),
            Default("650 °C", "stainless steel still carries some load there");
        /// Highest pressure of the gas.
        "peak_pressure" => peak_pressure_pa: Setting<f64> = bar_abs(1.0, 100.0),
            Default("10 bar abs", "beyond it the strength of every part needs a second look");
    }
}

table! {
    /// The hot cap: a closed cup with a flange, heated from outside.
    HotEnd {
        /// Temperature of the hot wall on the gas side.
        "temperature" => temperature_k: Setting<f64> = celsius(40.0, 900.0),
            Default("500 °C", "a gas burner on stainless steel");
        /// Heat that the heater gives to the hot end at most; a wall that loses more stays cooler.
        "heater_power" => heater_power_w: Option<Setting<f64>> = watt(1.0, 100_000.0), Open("left out: it keeps the temperature");
        /// Wall of the cup.
        "wall" => wall_mm: Setting<f64> = mm(0.2, 20.0), Default("1.5 mm", "thin enough to lead little heat down");
        /// Thickness of the closed end.
        "end_thickness" => end_thickness_mm: Setting<f64> = mm(0.2, 50.0), Default("3 mm", "a flat end bends, so it is thicker than the wall");
        /// Inside depth, from the flange face to the closed end.
        "depth" => depth_mm: Option<Setting<f64>> = mm(5.0, 1000.0), Open(SIZING);
        /// Gap between hot cap and cylinder liner in which the gas is heated (beta-coaxial).
        "heater_gap" => heater_gap_mm: Option<Setting<f64>> = mm(0.2, 20.0), Open(SIZING);
        /// Thickness of the flange.
        "flange_thickness" => flange_thickness_mm: Setting<f64> = mm(1.0, 50.0), Default("6 mm", "stiff between M4 screws");
        /// Material.
        "material" => material: Setting<String> = Kind::Listed(List::Material, HOT_METALS),
            Default("stainless-304", "holds at temperature and leads little heat down");
    }
}

table! {
    /// What heats the hot cap.
    Heater {
        /// Fuel, for the fuel rate that is told.
        "fuel" => fuel: Setting<String> = Kind::Choice(FUELS), Default("propane", "its burners are common");
        /// Share of the fuel's heat that reaches the hot end.
        "efficiency" => efficiency: Option<Setting<f64>> = ratio(0.01, 1.0), Open("left out: low, likely and high of the fuel");
    }
}

table! {
    /// The cold cylinder of the displacer, with cooling fins.
    ColdEnd {
        /// Temperature of the cold wall on the gas side.
        "temperature" => temperature_k: Setting<f64> = celsius(-50.0, 200.0), Default("60 °C", "water or fins in a warm room");
        /// Temperature of the room.
        "air_temperature" => air_temperature_k: Setting<f64> = celsius(-40.0, 60.0), Default("25 °C", "a warm day");
        /// Speed of the air across the fins; 0 for still air.
        "air_speed" => air_speed_m_s: Setting<f64> = unit_range(Dimension::Velocity, 0.0, 30.0), Default("0 m/s", "no fan");
        /// Length of the cold cylinder between its gasket faces.
        "cylinder_length" => cylinder_length_mm: Option<Setting<f64>> = mm(5.0, 1000.0), Open(SIZING);
        /// Wall under the fins.
        "wall" => wall_mm: Setting<f64> = mm(0.5, 50.0), Default("4 mm", "holds its shape while the fins are turned");
        /// Number of fins; 0 for none.
        "fins" => fins: Option<Setting<usize>> = count(0, 200), Open(SIZING);
        /// Thickness of a fin.
        "fin_thickness" => fin_thickness_mm: Setting<f64> = mm(0.5, 20.0), Default("2 mm", "stands up to the parting tool");
        /// Gap between two fins.
        "fin_gap" => fin_gap_mm: Setting<f64> = mm(0.5, 50.0), Default("4 mm", "air still rises between the fins");
        /// Height of a fin above the wall.
        "fin_height" => fin_height_mm: Setting<f64> = mm(0.0, 100.0), Default("6 mm", "three times the thickness, so that the flange screws stay within reach");
        /// Material.
        "material" => material: Setting<String> = Kind::Listed(List::Material, COLD_METALS), Default("aluminium-6082", "leads heat away and turns well");
    }
}

table! {
    /// The cooler plate between the cylinders, with the transfer port and the rod's gland.
    Cooler {
        /// Thickness of the plate.
        "plate_thickness" => plate_thickness_mm: Setting<f64> = mm(5.0, 200.0), Default("20 mm", "room for gland, bush and threads from both faces");
        /// Greatest width of the transfer slot; bore of the passage where there is no slot (gamma-right-angle).
        "port_width" => port_width_mm: Option<Setting<f64>> = mm(4.0, 50.0), Open(SIZING);
        /// Water channels drilled straight through the cooler plate, from edge to edge; the water goes through them first, then
        /// through the jacket (not beta-coaxial).
        "plate_channels" => plate_channels: Setting<usize> = count(0, 8), Default("0", "the jacket alone");
        /// Diameter of the cooler's gas holes (beta-coaxial).
        "hole_diameter" => hole_diameter_mm: Option<Setting<f64>> = mm(1.0, 20.0), Open(SIZING);
        /// Number of the cooler's gas holes (beta-coaxial).
        "holes" => holes: Option<Setting<usize>> = count(4, 400), Open(SIZING);
        /// Width of the water jacket around the power cylinder, in beta-coaxial around the cooler.
        "jacket_width" => jacket_width_mm: Setting<f64> = mm(2.0, 50.0), Default("6 mm", "a cutter of 6 mm cuts it in one pass");
        /// Temperature of the water on entry.
        "water_temperature" => water_temperature_k: Setting<f64> = celsius(0.0, 95.0), Default("15 °C", "a tap or a butt");
        /// Flow of the water.
        "water_flow" => water_flow_l_min: Option<Setting<f64>> = unit_range(Dimension::Flow, 0.001, 200.0), Open("left out: what a rise of 10 K needs");
        /// Thread for the hose connectors.
        "hose_thread" => hose_thread: Setting<String> = Kind::Choice(&["M8", "M10", "G1/8"]), Default("M10", "its drill is in every workshop");
    }
}

table! {
    /// The displacer: a light closed shell that moves the gas between hot and cold.
    Displacer {
        /// Bore of the displacer's cylinder.
        "bore" => bore_mm: Setting<f64> = mm(5.0, 500.0).open(0.5), Sought("80 mm");
        /// Stroke of the displacer.
        "stroke" => stroke_mm: Setting<f64> = mm(1.0, 500.0).open(0.5), Sought("30 mm");
        /// Gap between displacer and cylinder, on the radius, cold.
        "gap" => gap_mm: Option<Setting<f64>> = mm(0.05, 20.0).open(0.05), Open(SIZING);
        /// Clearance to the hot end at the end of the stroke.
        "hot_clearance" => hot_clearance_mm: Setting<f64> = mm(0.1, 50.0), Default("1.5 mm", "room for the shell to grow");
        /// Clearance to the cooler plate at the end of the stroke.
        "cold_clearance" => cold_clearance_mm: Setting<f64> = mm(0.1, 50.0), Default("1.5 mm", "room for errors of length");
        /// Length of the displacer.
        "length" => length_mm: Option<Setting<f64>> = mm(5.0, 1000.0), Open(SIZING);
        /// Wall of the shell.
        "shell_wall" => shell_wall_mm: Setting<f64> = mm(0.1, 10.0), Default("0.5 mm", "light, and leads little heat down");
        /// Thickness of the base that carries the rod.
        "base_thickness" => base_thickness_mm: Setting<f64> = mm(2.0, 100.0), Default("8 mm", "enough thread for the rod");
        /// Diameter of the displacer's rod.
        "rod_diameter" => rod_diameter_mm: Option<Setting<f64>> = mm(2.0, 25.0), Open(SIZING);
        /// A can of your shelf file, in place of the three sizes below.
        "can" => can: Option<Setting<String>> = Kind::Listed(List::Can, &[]), Open("left out: the shell is made, or the three sizes of a can are given");
        /// Outside diameter of a bought can; give all three of the can or none.
        "can_diameter" => can_diameter_mm: Option<Setting<f64>> = mm(5.0, 500.0), Open("left out: the shell is made");
        /// Length of a bought can.
        "can_length" => can_length_mm: Option<Setting<f64>> = mm(5.0, 1000.0), Open("left out: the shell is made");
        /// Wall of a bought can.
        "can_wall" => can_wall_mm: Option<Setting<f64>> = mm(0.05, 10.0), Open("left out: the shell is made");
        /// Material of the shell.
        "material" => material: Setting<String> = Kind::Listed(List::Material, SHELL_METALS),
            Default("stainless-304", "leads little heat down");
    }
}

table! {
    /// The regenerator: a sleeve wound on the displacer, in beta-coaxial a canister around its cylinder.
    Regenerator {
        /// What it is wound of.
        "kind" => kind: Setting<RegeneratorKind> = Kind::Choice(RegeneratorKind::NAMES), Default("none", "the gap alone, easy to build");
        /// Thickness on the radius; the displacer gets thinner by it, where it is wound on it.
        "thickness" => thickness_mm: Setting<f64> = mm(0.1, 50.0), Default("4 mm", "lets the gas pass without much friction");
        /// Length in the direction of the flow.
        "length" => length_mm: Option<Setting<f64>> = mm(2.0, 1000.0), Open(SIZING);
        /// Wire of a mesh, fibre of wool, or thickness of foil.
        "wire" => wire_mm: Option<Setting<f64>> = mm(0.01, 2.0), Open(SIZING);
        /// From wire to wire of a mesh, from layer to layer of foil.
        "pitch" => pitch_mm: Option<Setting<f64>> = mm(0.02, 10.0), Open(SIZING);
        /// Material.
        "material" => material: Setting<String> = Kind::Listed(List::Material, HOT_METALS), Default("stainless-304", "does not scale, leads little heat down");
    }
}

table! {
    /// The power piston with its rings.
    Piston {
        /// Bore of the power cylinder.
        "bore" => bore_mm: Setting<f64> = mm(3.0, 500.0).open(0.5), Sought("48 mm");
        /// Stroke of the piston.
        "stroke" => stroke_mm: Setting<f64> = mm(1.0, 500.0).open(0.5), Sought("24 mm");
        /// Length of the piston.
        "length" => length_mm: Option<Setting<f64>> = mm(3.0, 1000.0), Open(SIZING);
        /// Thickness of the crown.
        "crown" => crown_mm: Option<Setting<f64>> = mm(0.5, 100.0), Open(SIZING);
        /// Clearance between piston and bore, on the diameter, cold.
        "side_clearance" => side_clearance_mm: Option<Setting<f64>> = mm(0.005, 5.0), Open(SIZING);
        /// Clearance above the piston at the end of the stroke; in beta-coaxial least clearance between displacer and piston.
        "top_clearance" => top_clearance_mm: Setting<f64> = mm(0.1, 50.0), Default("1 mm", "little dead volume, no knock");
        /// What seals it.
        "seal" => seal: Setting<PistonSeal> = Kind::Choice(PistonSeal::NAMES), Default("ptfe-ring", "runs dry and wears little");
        /// Number of rings.
        "rings" => rings: Setting<usize> = count(1, 3), Default("2", "the second one halves the leak at little friction");
        /// Height of a ring.
        "ring_height" => ring_height_mm: Setting<f64> = mm(0.5, 20.0), Default("3 mm", "PTFE of this height can be parted off");
        /// Radial width of a ring.
        "ring_width" => ring_width_mm: Option<Setting<f64>> = mm(0.5, 50.0), Open(SIZING);
        /// Gap of a ring, cold, in the bore.
        "ring_gap" => ring_gap_mm: Option<Setting<f64>> = mm(0.01, 20.0), Open(SIZING);
        /// Land between the crown and the first ring.
        "top_land" => top_land_mm: Option<Setting<f64>> = mm(0.5, 50.0), Open(SIZING);
        /// Land between two rings.
        "land" => land_mm: Option<Setting<f64>> = mm(0.5, 50.0), Open(SIZING);
        /// Thickness of the spring strip under a ring.
        "expander_thickness" => expander_thickness_mm: Option<Setting<f64>> = mm(0.05, 5.0), Open(SIZING);
        /// Diameter of the piston's rod.
        "rod_diameter" => rod_diameter_mm: Option<Setting<f64>> = mm(2.0, 50.0), Open(SIZING);
        /// Material.
        "material" => material: Setting<String> = Kind::Listed(List::Material, PISTON_METALS), Default("aluminium-6082", "light");
    }
}

table! {
    /// The power cylinder's block.
    Block {
        /// Wall between bore and water.
        "wall" => wall_mm: Setting<f64> = mm(1.0, 50.0), Default("5 mm", "stays round when it is clamped");
        /// Wall outside the water.
        "outer_wall" => outer_wall_mm: Setting<f64> = mm(1.0, 100.0), Default("7 mm", "room for the thread of a hose port");
        /// Length of the cylinder.
        "length" => length_mm: Option<Setting<f64>> = mm(3.0, 1000.0), Open(SIZING);
        /// Material.
        "material" => material: Setting<String> = Kind::Listed(List::Material, COLD_METALS), Default("aluminium-6082", "leads heat away and mills well");
    }
}

table! {
    /// Cranks, connecting rods, bearings and the belt between the cranks.
    Drive {
        /// Crank angle by which the displacer is ahead of the piston; 90° where one crankpin moves both.
        "lead" => lead_deg: Setting<f64> = deg(30.0, 150.0).open(1.0), Default("90°", "near the best of most engines");
        /// Length of the connecting rods between their centres.
        "con_rod_length" => con_rod_length_mm: Option<Setting<f64>> = mm(5.0, 1000.0), Open(SIZING);
        /// Distance between the two cranks.
        "crank_centres" => crank_centres_mm: Option<Setting<f64>> = mm(10.0, 2000.0), Open(SIZING);
        /// Section of the toothed belt.
        "belt_section" => belt_section: Setting<BeltSection> = Kind::Choice(BeltSection::NAMES), Default("3M", "light and on every shelf");
        /// Width of the belt.
        "belt_width" => belt_width_mm: Setting<f64> = mm(3.0, 50.0), Default("9 mm", "a stock width of 3M and 5M");
        /// Teeth of the pulleys.
        "pulley_teeth" => pulley_teeth: Option<Setting<usize>> = count(10, 120), Open(SIZING);
        /// Share of what goes to and fro that holes in the flywheel balance, beside all that goes round with the cranks on its
        /// shaft; 50 % shares the shaking between along and across the cylinder. Not for beta-coaxial.
        "balance" => balance: Option<Setting<f64>> = ratio(0.0, 1.0), Open("left out: no balance");
        /// Ball bearing of the crank journals.
        "journal_bearing" => journal_bearing: Setting<String> = Kind::Bearing, Default("608", "the cheapest there is");
        /// Ball bearing of the crank pin.
        "crankpin_bearing" => crankpin_bearing: Setting<String> = Kind::Bearing, Default("688ZZ", "slim, 8 mm bore, shielded");
        /// Ball bearing of the small end.
        "small_end_bearing" => small_end_bearing: Setting<String> = Kind::Bearing, Default("686ZZ", "slim, 6 mm bore, shielded");
        /// Material of cranks and rods.
        "material" => material: Setting<String> = Kind::Listed(List::Material, CRANK_METALS), Default("mild-steel", "cheap and stiff");
    }
}

table! {
    /// The gland of the displacer's rod.
    Seals {
        /// Section of the rod's O-ring.
        "rod_ring_section" => rod_ring_section_mm: Setting<f64> = mm(1.0, 4.0), Default("1.78 mm", "the smallest common section of ISO 3601-1");
        /// Groove of the rod's O-ring, or the bush alone for small pressures.
        "gland" => gland: Setting<GlandKind> = Kind::Choice(GlandKind::NAMES), Default("reciprocating-pneumatic", "an O-ring with little friction");
    }
}

table! {
    /// Screws and gaskets of the joints.
    Joints {
        /// Screw of the joints at the hot cap and the cold cylinder.
        "hot_screw" => hot_screw: Option<Setting<String>> = Kind::Choice(SCREWS), Open(SIZING);
        /// How many of them.
        "hot_screws" => hot_screws: Option<Setting<usize>> = count(3, 48), Open(SIZING);
        /// Screw of the power cylinder's joints.
        "power_screw" => power_screw: Setting<String> = Kind::Choice(SCREWS), Default("M5", "holds in aluminium");
        /// Thickness of the gaskets when tightened.
        "gasket_thickness" => gasket_thickness_mm: Setting<f64> = mm(0.1, 5.0), Default("1 mm", "a common sheet, tightened");
        /// Thickness of the hot gasket when tightened: a thick one of a sheet that leads little heat is a thermal break.
        "hot_gasket_thickness" => hot_gasket_thickness_mm: Option<Setting<f64>> = mm(0.1, 20.0), Open("as the others, or what its sheet is sold in");
        /// What seals the cold joints, below the cold cylinder and at the head of the power cylinder: a gasket keeps heat back, with
        /// O-rings metal lies on metal.
        "cold_seal" => cold_seal: Setting<ColdSeal> = Kind::Choice(ColdSeal::NAMES), Default("gasket", "no groove to cut");
        /// Section of those O-rings.
        "ring_section" => ring_section_mm: Setting<f64> = mm(1.0, 4.0), Default("2.62 mm", "a common section of ISO 3601-1 for flanges");
        /// Sheet of the hot gasket.
        "hot_gasket" => hot_gasket: Setting<String> = Kind::Listed(List::Gasket, GASKETS), Default("graphite", "holds 400 °C in air");
        /// Sheet of the cold gaskets.
        "cold_gasket" => cold_gasket: Setting<String> = Kind::Listed(List::Gasket, GASKETS), Default("silicone", "seals at a low screw load");
    }
}

table! {
    /// A piece of stock on the shelf.
    StockItem {
        /// Shape.
        "shape" => shape: Setting<StockShape> = Kind::Choice(StockShape::NAMES), Required("round");
        /// Material.
        "material" => material: Setting<String> = Kind::Material, Required("aluminium-6082");
        /// Diameter of a round, width of a flat or side of a square bar.
        "size" => size_mm: Setting<f64> = mm(1.0, 2000.0), Required("60 mm");
        /// Thickness of a flat bar or plate.
        "thickness" => thickness_mm: Option<Setting<f64>> = mm(0.1, 500.0), Open("for flat stock only");
        /// Length on the shelf.
        "length" => length_mm: Option<Setting<f64>> = mm(1.0, 10_000.0), Open("left out: long enough");
    }
}

table! {
    /// The workshop: tools and stock.
    Workshop {
        /// Extra material on each surface of a blank.
        "blank_allowance" => blank_allowance_mm: Setting<f64> = mm(0.0, 20.0), Default("1.5 mm", "a saw cut and a facing cut");
        /// Smallest milling cutter for inside corners.
        "smallest_cutter" => smallest_cutter_mm: Setting<f64> = mm(0.5, 25.0), Default("4 mm", "does not break at once");
        /// Width of a laser or saw cut, to be allowed for in the outlines; not together with `knife`.
        "kerf" => kerf_mm: Setting<f64> = mm(0.0, 5.0), Default("0 mm", "outlines are nominal");
        /// Offset of a drag knife's tip; not together with `kerf`.
        "knife" => knife_mm: Setting<f64> = mm(0.0, 5.0), Default("0 mm", "outlines are nominal");
        /// Width of the sheets that gaskets and other flat parts are cut from.
        "sheet_width" => sheet_width_mm: Setting<f64> = mm(20.0, 3000.0), Default("300 mm", "a small sheet that most dealers cut");
        /// Length of these sheets.
        "sheet_length" => sheet_length_mm: Setting<f64> = mm(20.0, 3000.0), Default("500 mm", "a small sheet that most dealers cut");
        /// Least distance of two parts on a sheet, and of a part from its edge.
        "sheet_gap" => sheet_gap_mm: Setting<f64> = mm(0.0, 50.0), Default("3 mm", "scissors and knife need as much");
        /// Length of the bars that you buy, for stock that is not on your list.
        "bar_length" => bar_length_mm: Option<Setting<f64>> = mm(50.0, 10_000.0), Open("left out: the dealer cuts to length");
        /// Width of the saw's cut, for the list of stock.
        "saw_cut" => saw_cut_mm: Setting<f64> = mm(0.0, 10.0), Default("2 mm", "a band saw or a hacksaw");
        /// Distance of a hand knife's cut from the guide that the blade lies against: the knife templates stand back by so much.
        "blade_offset" => blade_offset_mm: Setting<f64> = mm(0.0, 3.0), Default("0.2 mm", "half of a snap-off blade of 0.4 mm");
        /// Your own file beside the design, of what you have: bearings, bushes, O-rings, belts, screws, cans, stock, materials,
        /// gases, gasket sheets. It adds to the program's tables and overrides them; `swept new --shelf` writes one to begin with.
        "shelf" => shelf: Option<Setting<String>> = Kind::Text, Open("left out: the program's tables alone");
        /// Stock on the shelf; blanks are cut from it.
        "stock" => stock: Vec<StockItem> = Kind::List(StockItem::KEYS), Open("left out: no blanks are planned");
    }
}

table! {
    /// Checks of a builder.
    Checks {
        /// Checks that you accept although they fail; any other that fails stops `swept build`.
        "accept" => accept: Vec<Accepted> = Kind::List(Accepted::KEYS), Open("left out: none is accepted");
    }
}

table! {
    /// What is written.
    Outputs {
        /// Crank angle at which the assembly is shown.
        "crank_angle" => crank_angle_deg: Setting<f64> = deg(0.0, 360.0), Default("0°", "the piston at the top");
        /// Schema of the STEP files.
        "step_schema" => step_schema: Setting<StepSchema> = Kind::Choice(StepSchema::NAMES), Default("AP214", "most programs read it");
        /// Version of the DXF files.
        "dxf_version" => dxf_version: Setting<DxfVersion> = Kind::Choice(DxfVersion::NAMES), Default("R2000", "it can say that it means millimetres");
        /// Paper of your printer, for the templates at 1:1.
        "template_paper" => template_paper: Setting<TemplatePaper> = Kind::Choice(TemplatePaper::NAMES), Default("A4", "ISO 216");
        /// Round holes smaller than this are crosses for the punch on templates.
        "punch_below" => punch_below_mm: Setting<f64> = mm(0.0, 30.0), Default("8 mm", "a knife cuts no smaller circle well");
        /// Height of the knife templates, along which the blade is led.
        "guide_height" => guide_height_mm: Setting<f64> = mm(2.0, 40.0), Default("6 mm", "holds a blade upright");
    }
}

table! {
    /// The drawings and their title blocks.
    Drawings {
        /// Size of the sheets.
        "sheet" => sheet: Setting<Sheet> = Kind::Choice(Sheet::NAMES), Default("auto", "the smallest that holds the part");
        /// Method of projection.
        "projection" => projection: Setting<Projection> = Kind::Choice(Projection::NAMES), Default("first-angle", "ISO 5456-2");
        /// Units of the lengths on part drawings; with inches, each is followed by its value in square brackets.
        "units" => units: Setting<Units> = Kind::Choice(Units::NAMES), Default("mm", "one unit on a drawing (ISO 129-1)");
        /// Template of the title block, a file beside the design.
        "title_block" => title_block: Option<Setting<String>> = Kind::Text, Open("left out: the built-in one, a copy of templates/title-block.txt");
        /// Legal owner in the title block (ISO 7200).
        "owner" => owner: Setting<String> = Kind::Text, Default("", "the field stays empty");
        /// Who drew it.
        "creator" => creator: Setting<String> = Kind::Text, Default("", "the field stays empty");
        /// Who approved it.
        "approver" => approver: Setting<String> = Kind::Text, Default("", "the field stays empty");
        /// Date of issue, as it shall stand in the title block.
        "date" => date: Setting<String> = Kind::Text, Default("", "the program reads no clock");
        /// Revision; with parts that change over an earlier set, the index of their newest one.
        "revision" => revision: Setting<String> = Kind::Text, Default("A", "the first one; a part that changes gets the next letter");
    }
}

/// Makes the design and the list of its tables from rows `field: Type`.
macro_rules! design {
    ($($name:literal => $field:ident: $Table:ident,)+) => {
        /// The design as the user gave it, with defaults filled in.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Design {
            $(#[doc = concat!("Table `", $name, "`.")] pub $field: $Table,)+
            /// Every key in the order of the tables with what was decided and why, for example to say the defaults out
            /// loud.
            pub record: Vec<super::value::Entry>,
            /// What names are looked up in: the program's tables and the user's own entries.
            pub catalogue: Arc<Catalogue>,
        }

        impl Design {
            /// All tables of the design file.
            pub const TABLES: &'static [Table] = &[
                $(Table { name: $name, doc: $Table::DOC, keys: $Table::KEYS },)+
            ];

            /// Takes all values; `None` when one is missing or of another type than the tables say.
            pub(super) fn take(values: &mut super::value::AllValues, catalogue: Arc<Catalogue>) -> Option<Self> {
                let record = super::value::record(values);
                Some(Self { $($field: $Table::take(values.entry($name).or_default())?,)+ record, catalogue })
            }
        }
    };
}

design! {
    "engine" => engine: Engine,
    "targets" => targets: Targets,
    "load" => load: Load,
    "model" => model: Model,
    "spread" => spread: Spreads,
    "limits" => limits: Limits,
    "hot_end" => hot_end: HotEnd,
    "heater" => heater: Heater,
    "cold_end" => cold_end: ColdEnd,
    "cooler" => cooler: Cooler,
    "displacer" => displacer: Displacer,
    "regenerator" => regenerator: Regenerator,
    "piston" => piston: Piston,
    "block" => block: Block,
    "drive" => drive: Drive,
    "flywheel" => flywheel: Flywheel,
    "seals" => seals: Seals,
    "joints" => joints: Joints,
    "workshop" => workshop: Workshop,
    "checks" => checks: Checks,
    "outputs" => outputs: Outputs,
    "drawings" => drawings: Drawings,
}
