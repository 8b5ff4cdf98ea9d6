//! Units of the design file and the shelf file. Conversions beyond powers of ten are those of the `uom` library.

use uom::si::f64::{Angle, AngularVelocity, Length, Power, Pressure, ThermodynamicTemperature};
use uom::si::f64::{Area, Mass, Torque, Velocity, VolumeRate};
use uom::si::{
    angle, angular_velocity as speed, area, length, mass, power, pressure,
    thermodynamic_temperature as temperature, torque, velocity, volume_rate as flow,
};

/// What a quantity measures. In brackets the unit of the design's fields.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Length \[mm\].
    Length,
    /// Temperature \[K\].
    Temperature,
    /// Absolute pressure \[Pa\].
    Pressure,
    /// Angle \[deg\].
    Angle,
    /// Speed of turning \[rpm\].
    Speed,
    /// Power \[W\].
    Power,
    /// Torque \[N m\].
    Torque,
    /// Mass \[kg\].
    Mass,
    /// Area \[m²\].
    Area,
    /// Inertia of what turns \[kg m²\].
    Inertia,
    /// Volume in a time \[L/min\].
    Flow,
    /// A ratio, a plain number or in per cent.
    Ratio,
    /// Force \[N\].
    Force,
    /// Stress or modulus \[MPa\].
    Stress,
    /// Density \[kg/m³\].
    Density,
    /// Thermal conductivity \[W/(m K)\].
    Conductivity,
    /// Linear thermal expansion \[1/K\].
    Expansion,
    /// Specific heat \[J/(kg K)\].
    HeatCapacity,
    /// Viscosity \[Pa s\].
    Viscosity,
    /// Molar mass \[g/mol\].
    MolarMass,
    /// Speed of a stream \[m/s\].
    Velocity,
}

/// A unit: the ways to write it, and the conversion to the unit of the fields.
pub struct Unit {
    /// Ways to write it, the usual one first.
    pub symbols: &'static [&'static str],
    /// To the unit of the fields.
    pub to_field: fn(f64) -> f64,
}

/// The air of the room, from which gauge pressure counts \[Pa\]: standard atmosphere, ISO 2533:1975.
pub const ROOM_PA: f64 = 101_325.0;

/// Words that make a pressure absolute or gauge.
pub const ABSOLUTE: [&str; 2] = ["abs", "absolute"];
/// Words that make a pressure gauge.
pub const GAUGE: [&str; 1] = ["gauge"];

const LENGTHS: &[Unit] = &[
    Unit { symbols: &["mm"], to_field: |v| v },
    Unit { symbols: &["cm"], to_field: |v| Length::new::<length::centimeter>(v).get::<length::millimeter>() },
    Unit { symbols: &["m"], to_field: |v| Length::new::<length::meter>(v).get::<length::millimeter>() },
    Unit {
        symbols: &["in", "inch"],
        to_field: |v| Length::new::<length::inch>(v).get::<length::millimeter>(),
    },
    Unit {
        symbols: &["µm", "μm", "um"],
        to_field: |v| Length::new::<length::micrometer>(v).get::<length::millimeter>(),
    },
];

const TEMPERATURES: &[Unit] = &[
    Unit {
        symbols: &["°C", "C", "degC"],
        to_field: |v| {
            ThermodynamicTemperature::new::<temperature::degree_celsius>(v).get::<temperature::kelvin>()
        },
    },
    Unit { symbols: &["K"], to_field: |v| v },
    Unit {
        symbols: &["°F", "F", "degF"],
        to_field: |v| {
            ThermodynamicTemperature::new::<temperature::degree_fahrenheit>(v).get::<temperature::kelvin>()
        },
    },
];

const PRESSURES: &[Unit] = &[
    Unit { symbols: &["bar"], to_field: |v| Pressure::new::<pressure::bar>(v).get::<pressure::pascal>() },
    Unit {
        symbols: &["kPa"],
        to_field: |v| Pressure::new::<pressure::kilopascal>(v).get::<pressure::pascal>(),
    },
    Unit {
        symbols: &["MPa"],
        to_field: |v| Pressure::new::<pressure::megapascal>(v).get::<pressure::pascal>(),
    },
    Unit { symbols: &["Pa"], to_field: |v| v },
    Unit {
        symbols: &["psi"],
        to_field: |v| Pressure::new::<pressure::pound_force_per_square_inch>(v).get::<pressure::pascal>(),
    },
    Unit {
        symbols: &["atm"],
        to_field: |v| Pressure::new::<pressure::atmosphere>(v).get::<pressure::pascal>(),
    },
];

const ANGLES: &[Unit] = &[
    Unit { symbols: &["°", "deg"], to_field: |v| v },
    Unit { symbols: &["rad"], to_field: |v| Angle::new::<angle::radian>(v).get::<angle::degree>() },
];

/// One turn in a second, as turns in a minute.
fn per_second(turns: f64) -> f64 {
    AngularVelocity::new::<speed::revolution_per_second>(turns).get::<speed::revolution_per_minute>()
}

const SPEEDS: &[Unit] = &[
    Unit { symbols: &["rpm", "1/min"], to_field: |v| v },
    Unit { symbols: &["Hz", "1/s"], to_field: per_second },
];

const POWERS: &[Unit] = &[
    Unit { symbols: &["W"], to_field: |v| v },
    Unit { symbols: &["kW"], to_field: |v| Power::new::<power::kilowatt>(v).get::<power::watt>() },
];

const TORQUES: &[Unit] = &[
    Unit { symbols: &["N m", "Nm", "N·m"], to_field: |v| v },
    Unit {
        symbols: &["N cm", "Ncm"],
        to_field: |v| Torque::new::<torque::newton_centimeter>(v).get::<torque::newton_meter>(),
    },
    Unit {
        symbols: &["N mm", "Nmm", "mN m", "mNm"],
        to_field: |v| Torque::new::<torque::newton_millimeter>(v).get::<torque::newton_meter>(),
    },
    Unit {
        symbols: &["lbf ft", "ft lbf"],
        to_field: |v| Torque::new::<torque::pound_force_foot>(v).get::<torque::newton_meter>(),
    },
    Unit {
        symbols: &["lbf in", "in lbf"],
        to_field: |v| Torque::new::<torque::pound_force_inch>(v).get::<torque::newton_meter>(),
    },
];

const MASSES: &[Unit] = &[
    Unit { symbols: &["kg"], to_field: |v| v },
    Unit { symbols: &["g"], to_field: |v| Mass::new::<mass::gram>(v).get::<mass::kilogram>() },
    Unit { symbols: &["lb"], to_field: |v| Mass::new::<mass::pound>(v).get::<mass::kilogram>() },
];

const AREAS: &[Unit] = &[
    Unit { symbols: &["m2", "m²"], to_field: |v| v },
    Unit {
        symbols: &["cm2", "cm²"],
        to_field: |v| Area::new::<area::square_centimeter>(v).get::<area::square_meter>(),
    },
    Unit {
        symbols: &["ft2", "ft²"],
        to_field: |v| Area::new::<area::square_foot>(v).get::<area::square_meter>(),
    },
];

/// Inertia of a mass \[kg\] at a radius of 1 cm.
fn at_a_centimetre(kg: f64) -> f64 {
    let one = Length::new::<length::centimeter>(1.0).get::<length::meter>();
    kg * one * one
}

const INERTIAS: &[Unit] = &[
    Unit { symbols: &["kg m2", "kg m²"], to_field: |v| v },
    Unit { symbols: &["kg cm2", "kg cm²"], to_field: at_a_centimetre },
    Unit {
        symbols: &["g cm2", "g cm²"],
        to_field: |v| at_a_centimetre(Mass::new::<mass::gram>(v).get::<mass::kilogram>()),
    },
];

const FLOWS: &[Unit] = &[
    Unit { symbols: &["L/min", "l/min"], to_field: |v| v },
    Unit {
        symbols: &["L/h", "l/h"],
        to_field: |v| VolumeRate::new::<flow::cubic_meter_per_hour>(v * 1e-3).get::<flow::liter_per_minute>(),
    },
    Unit {
        symbols: &["m3/h", "m³/h"],
        to_field: |v| VolumeRate::new::<flow::cubic_meter_per_hour>(v).get::<flow::liter_per_minute>(),
    },
];

const RATIOS: &[Unit] =
    &[Unit { symbols: &[""], to_field: |v| v }, Unit { symbols: &["%"], to_field: |v| v / 100.0 }];

const FORCES: &[Unit] =
    &[Unit { symbols: &["N"], to_field: |v| v }, Unit { symbols: &["kN"], to_field: |v| 1000.0 * v }];

const STRESSES: &[Unit] = &[
    Unit { symbols: &["MPa", "N/mm²", "N/mm2"], to_field: |v| v },
    Unit { symbols: &["GPa"], to_field: |v| 1000.0 * v },
    Unit {
        symbols: &["ksi"],
        to_field: |v| {
            Pressure::new::<pressure::pound_force_per_square_inch>(1000.0 * v).get::<pressure::megapascal>()
        },
    },
];

const DENSITIES: &[Unit] = &[
    Unit { symbols: &["kg/m³", "kg/m3"], to_field: |v| v },
    Unit { symbols: &["g/cm³", "g/cm3"], to_field: |v| 1000.0 * v },
];

const CONDUCTIVITIES: &[Unit] =
    &[Unit { symbols: &["W/(m K)", "W/(m·K)", "W/m/K", "W/mK"], to_field: |v| v }];

const EXPANSIONS: &[Unit] = &[
    Unit { symbols: &["µm/(m K)", "μm/(m K)", "um/(m K)", "ppm/K"], to_field: |v| 1e-6 * v },
    Unit { symbols: &["1/K"], to_field: |v| v },
];

const HEAT_CAPACITIES: &[Unit] = &[
    Unit { symbols: &["J/(kg K)", "J/(kg·K)", "J/kg/K", "J/kgK"], to_field: |v| v },
    Unit { symbols: &["kJ/(kg K)", "kJ/kg/K"], to_field: |v| 1000.0 * v },
];

const VISCOSITIES: &[Unit] = &[
    Unit { symbols: &["µPa s", "μPa s", "uPa s"], to_field: |v| 1e-6 * v },
    Unit { symbols: &["Pa s"], to_field: |v| v },
];

const MOLAR_MASSES: &[Unit] = &[Unit { symbols: &["g/mol", "kg/kmol"], to_field: |v| v }];

const VELOCITIES: &[Unit] = &[
    Unit { symbols: &["m/s"], to_field: |v| v },
    Unit {
        symbols: &["km/h"],
        to_field: |v| Velocity::new::<velocity::kilometer_per_hour>(v).get::<velocity::meter_per_second>(),
    },
];

impl Dimension {
    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Temperature => "temperature",
            Self::Pressure => "pressure",
            Self::Angle => "angle",
            Self::Speed => "speed",
            Self::Power => "power",
            Self::Torque => "torque",
            Self::Mass => "mass",
            Self::Area => "area",
            Self::Inertia => "inertia",
            Self::Flow => "flow",
            Self::Ratio => "ratio",
            Self::Force => "force",
            Self::Stress => "stress",
            Self::Density => "density",
            Self::Conductivity => "conductivity",
            Self::Expansion => "expansion",
            Self::HeatCapacity => "heat capacity",
            Self::Viscosity => "viscosity",
            Self::MolarMass => "molar mass",
            Self::Velocity => "speed of a stream",
        }
    }

    /// Its units, the usual one first.
    pub fn units(self) -> &'static [Unit] {
        match self {
            Self::Length => LENGTHS,
            Self::Temperature => TEMPERATURES,
            Self::Pressure => PRESSURES,
            Self::Angle => ANGLES,
            Self::Speed => SPEEDS,
            Self::Power => POWERS,
            Self::Torque => TORQUES,
            Self::Mass => MASSES,
            Self::Area => AREAS,
            Self::Inertia => INERTIAS,
            Self::Flow => FLOWS,
            Self::Ratio => RATIOS,
            Self::Force => FORCES,
            Self::Stress => STRESSES,
            Self::Density => DENSITIES,
            Self::Conductivity => CONDUCTIVITIES,
            Self::Expansion => EXPANSIONS,
            Self::HeatCapacity => HEAT_CAPACITIES,
            Self::Viscosity => VISCOSITIES,
            Self::MolarMass => MOLAR_MASSES,
            Self::Velocity => VELOCITIES,
        }
    }

    /// Its units in words, for example `mm, cm, m, in or µm`.
    pub fn unit_list(self) -> String {
        if self == Self::Ratio {
            return "a plain number or %".into();
        }
        let names: Vec<&str> = self.units().iter().map(|unit| unit.symbols[0]).collect();
        let (last, others) = names.split_last().map_or(("", &[][..]), |(last, others)| (*last, others));
        if others.is_empty() { last.into() } else { format!("{} or {last}", others.join(", ")) }
    }

    /// A value of a field in words, in the usual unit, for example `500 °C` or `10 bar abs`.
    pub fn show(self, field: f64) -> String {
        let gap = if matches!(self, Self::Angle | Self::Ratio) { "" } else { " " };
        format!("{}{gap}{}", round_to(self.usual(field), 6), self.usual_unit())
    }

    /// A value of a field in the usual unit: temperatures in degrees Celsius, pressures in bar, expansion
    /// and viscosity in millionths, the others as they are.
    pub fn usual(self, field: f64) -> f64 {
        match self {
            Self::Temperature => ThermodynamicTemperature::new::<temperature::kelvin>(field)
                .get::<temperature::degree_celsius>(),
            Self::Pressure => Pressure::new::<pressure::pascal>(field).get::<pressure::bar>(),
            Self::Expansion | Self::Viscosity => 1e6 * field,
            _ => field,
        }
    }

    /// The usual unit as it is written in a design, for example `bar abs`.
    pub fn usual_unit(self) -> &'static str {
        match self {
            Self::Length => "mm",
            Self::Temperature => "°C",
            Self::Pressure => "bar abs",
            Self::Angle => "°",
            Self::Speed => "rpm",
            Self::Power => "W",
            other => other.units()[0].symbols[0],
        }
    }
}

/// A number rounded to so many significant digits, so that `0.25 in` is 6.35 mm and not 6.350000000000001 mm.
pub fn round_to(number: f64, digits: usize) -> f64 {
    format!("{number:.*e}", digits - 1).parse().unwrap_or(number)
}
