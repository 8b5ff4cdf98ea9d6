//! The lists of the shelf file and the keys of their entries.

use super::super::key::Presence::{Open, Required};
use super::super::key::{Key, Kind, Presence, Table, celsius, count, lengths, mm, quantity};
use super::super::keys::StockItem;
use super::super::units::Dimension::{
    Conductivity, Density, Expansion, Force, HeatCapacity, MolarMass, Stress, Viscosity,
};

/// Must be there for something new; an entry that stands over a known one takes it from there.
const NEW: Presence = Open("must be given for something new, else as in the entry it stands over or is like");
const OPTIONAL: Presence = Open("left out: not known");

const fn key(name: &'static str, kind: Kind, presence: Presence, doc: &'static str) -> Key {
    Key { name, kind, presence, doc }
}

const fn like(doc: &'static str) -> Key {
    key("like", Kind::Label, Open("left out: as the known entry of this name, if there is one"), doc)
}

const fn number(min: f64, max: f64) -> Kind {
    Kind::Number { min, max }
}

const BELTS: &[&str] = super::super::choice::BeltSection::NAMES;
const THREADS: &[&str] = &["M2", "M2.5", "M3", "M4", "M5", "M6", "M8", "M10", "M12"];

/// What is known of a material at one temperature.
const POINT: &[Key] = &[
    key("temperature", celsius(-200.0, 1500.0), Required("20 °C"), "Temperature; the entries rise in it."),
    key("conductivity", quantity(Conductivity, 0.001, 2000.0), OPTIONAL, "Thermal conductivity there."),
    key("allowable", quantity(Stress, 0.0, 5000.0), OPTIONAL, "Stress allowed for a lasting load there."),
    key(
        "yield_strength",
        quantity(Stress, 0.0, 5000.0),
        OPTIONAL,
        "Yield or proof strength there in a short test.",
    ),
];

const MATERIAL: &[Key] = &[
    key("name", Kind::Label, Required("my-stainless"), "Name in design files."),
    like("A material that it is like but for what is written here."),
    key("title", Kind::Text, Open("left out: the name"), "Name on drawings."),
    key("density", quantity(Density, 10.0, 25_000.0), NEW, "Density."),
    key("heat_capacity", quantity(HeatCapacity, 50.0, 10_000.0), NEW, "Specific heat near 20 °C."),
    key("expansion", quantity(Expansion, -1e-5, 1e-3), NEW, "Mean linear expansion from 20 °C."),
    key("modulus", quantity(Stress, 0.1, 1_000_000.0), NEW, "Young's modulus."),
    key("service_limit", celsius(0.0, 1500.0), NEW, "Highest temperature in service under load, in air."),
    key(
        "at",
        Kind::List(POINT),
        NEW,
        "What is known at a temperature; one entry at least for something new.",
    ),
];

const GAS: &[Key] = &[
    key("name", Kind::Label, Required("argon"), "Name in design files."),
    like("A gas that it is like but for what is written here."),
    key("molar_mass", quantity(MolarMass, 1.0, 500.0), NEW, "Molar mass."),
    key(
        "heat_capacity",
        quantity(HeatCapacity, 50.0, 50_000.0),
        NEW,
        "Heat capacity at constant pressure: its constant term a0 in a0 + a1 t + a2 t² + a3 t³, t in 1000 K.",
    ),
    key("heat_capacity_1", number(-1e5, 1e5), Open("left out: 0"), "Its term a1, in J/(kg K)."),
    key("heat_capacity_2", number(-1e5, 1e5), Open("left out: 0"), "Its term a2, in J/(kg K)."),
    key("heat_capacity_3", number(-1e5, 1e5), Open("left out: 0"), "Its term a3, in J/(kg K)."),
    key(
        "viscosity",
        quantity(Viscosity, 1e-7, 1e-3),
        NEW,
        "Viscosity at 300 K in the power law v (T / 300 K)^n.",
    ),
    key("viscosity_exponent", number(0.0, 2.0), NEW, "Its exponent n."),
    key("conductivity", quantity(Conductivity, 0.0001, 10.0), NEW, "Conductivity at 300 K in the power law."),
    key("conductivity_exponent", number(0.0, 2.0), NEW, "Its exponent."),
];

const GASKET: &[Key] = &[
    key("name", Kind::Label, Required("cork-sheet"), "Name in design files."),
    like("A sheet that it is like but for what is written here."),
    key("material", Kind::Material, NEW, "What it is made of: a material of the program or of this file."),
    key("service_limit", celsius(0.0, 1000.0), NEW, "Highest lasting temperature in air."),
    key("thicknesses", lengths(0.02, 20.0), NEW, "Thicknesses that you have."),
    key(
        "least_compression",
        number(0.0, 0.9),
        NEW,
        "Part of its thickness by which a joint compresses it, least.",
    ),
    key("most_compression", number(0.0, 0.9), NEW, "The same, most."),
    key("factor_m", number(0.0, 20.0), NEW, "Gasket factor m."),
    key("seating", quantity(Stress, 0.0, 500.0), NEW, "Seating stress y."),
    key("least_stress", quantity(Stress, 0.0, 500.0), NEW, "Stress to tighten to, least."),
    key("most_stress", quantity(Stress, 0.0, 500.0), NEW, "The same, most."),
    key("note", Kind::Text, OPTIONAL, "What to know about it."),
];

const BEARING: &[Key] = &[
    key("name", Kind::Label, Required("608"), "Designation, as a design names it."),
    like("A ball bearing that it is like but for what is written here."),
    key("bore", mm(1.0, 100.0), NEW, "Bore."),
    key("outer", mm(2.0, 300.0), NEW, "Outside diameter."),
    key("width", mm(0.5, 100.0), NEW, "Width."),
    key("corner", mm(0.05, 5.0), NEW, "Smallest corner radius."),
    key("dynamic", quantity(Force, 10.0, 1e6), NEW, "Dynamic load rating C."),
    key("static", quantity(Force, 1.0, 1e6), NEW, "Static load rating C0."),
];

const BUSH: &[Key] = &[
    key(
        "shaft",
        mm(1.0, 100.0),
        Required("8 mm"),
        "Shaft diameter; a bush of this size stands over the known one.",
    ),
    key("housing", mm(1.5, 120.0), NEW, "Bore of the housing."),
    key("lengths", lengths(1.0, 200.0), NEW, "Lengths that you have."),
    key("shaft_fit", Kind::Label, Open("left out: f7, or as known"), "ISO 286 class of the shaft."),
    key("housing_fit", Kind::Label, Open("left out: H7, or as known"), "ISO 286 class of the housing bore."),
];

const LINEAR: &[Key] = &[
    key("name", Kind::Label, Required("LM8UU"), "Code."),
    like("A linear ball bushing that it is like but for what is written here."),
    key("shaft", mm(1.0, 100.0), NEW, "Shaft diameter."),
    key("outer", mm(2.0, 200.0), NEW, "Outside diameter."),
    key("length", mm(2.0, 300.0), NEW, "Length."),
    key("dynamic", quantity(Force, 10.0, 1e6), NEW, "Dynamic load rating C."),
    key("static", quantity(Force, 10.0, 1e6), NEW, "Static load rating C0."),
];

const RING: &[Key] = &[
    key("inner", mm(1.0, 300.0), Required("7.5 mm"), "Inside diameter."),
    key("section", mm(1.0, 6.0), Required("2 mm"), "Section: one that has a groove in the catalogue."),
    key("name", Kind::Label, Open("left out: inside diameter x section"), "Designation."),
];

const BELT: &[Key] = &[
    key("section", Kind::Choice(BELTS), Required("3M"), "Section."),
    key("teeth", count(20, 2000), Required("85"), "Number of teeth."),
];

const SCREW: &[Key] = &[
    key("thread", Kind::Choice(THREADS), Required("M5"), "Thread."),
    key(
        "lengths",
        lengths(2.0, 300.0),
        Required("22 mm, 27 mm"),
        "Lengths of cap screws that you have beside the usual ones.",
    ),
];

const CAN: &[Key] = &[
    key("name", Kind::Label, Required("tea-tin"), "Name, for displacer.can in a design."),
    key("diameter", mm(5.0, 500.0), Required("73 mm"), "Outside diameter."),
    key("length", mm(5.0, 1000.0), Required("110 mm"), "Length over all."),
    key("wall", mm(0.05, 10.0), Required("0.2 mm"), "Wall."),
    key("material", Kind::Material, Open("left out: as the design says"), "What it is made of."),
];

const fn table(name: &'static str, doc: &'static str, keys: &'static [Key]) -> Table {
    Table { name, doc, keys }
}

/// The lists of the shelf file. Materials stand first, since other entries name them.
pub const SHELF: &[Table] = &[
    table("material", "Materials.", MATERIAL),
    table("gas", "Working gases.", GAS),
    table("gasket", "Sheets for gaskets.", GASKET),
    table("bearing", "Ball bearings.", BEARING),
    table("bush", "Wrapped bushes for the rods.", BUSH),
    table("linear_bushing", "Linear ball bushings.", LINEAR),
    table("o_ring", "O-rings.", RING),
    table("belt", "Toothed belts; one that fits is taken before those that are sold.", BELT),
    table("screw", "Cap screws in lengths beside the usual ones.", SCREW),
    table("can", "Cans for a displacer.", CAN),
    table("stock", "Bars and plates; blanks are cut from them.", StockItem::KEYS),
];
