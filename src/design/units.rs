//! Units of the design file. All conversions are those of the `uom` library.

use uom::si::f64::{Angle, AngularVelocity, Length, Power, Pressure, ThermodynamicTemperature};
use uom::si::f64::{Velocity, VolumeRate};
use uom::si::{
    angle, angular_velocity as speed, length, power, pressure, thermodynamic_temperature as temperature,
    velocity, volume_rate as flow,
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
    /// Volume in a time \[L/min\].
    Flow,
    /// A ratio, a plain number or in per cent.
    Ratio,
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
            Self::Flow => "flow",
            Self::Ratio => "ratio",
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
            Self::Flow => FLOWS,
            Self::Ratio => RATIOS,
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

    /// A value of a field in the usual unit: temperatures in degrees Celsius, pressures in bar, the others as they are.
    pub fn usual(self, field: f64) -> f64 {
        match self {
            Self::Temperature => ThermodynamicTemperature::new::<temperature::kelvin>(field)
                .get::<temperature::degree_celsius>(),
            Self::Pressure => Pressure::new::<pressure::pascal>(field).get::<pressure::bar>(),
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
            Self::Flow => "L/min",
            Self::Ratio => "",
            Self::Velocity => "m/s",
        }
    }
}

/// A number rounded to so many significant digits, so that `0.25 in` is 6.35 mm and not 6.350000000000001 mm.
pub fn round_to(number: f64, digits: usize) -> f64 {
    format!("{number:.*e}", digits - 1).parse().unwrap_or(number)
}
