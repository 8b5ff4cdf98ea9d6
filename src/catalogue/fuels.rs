//! Fuels for the hot end.

use super::table::{UnknownEntry, find};
use serde::Deserialize;
use std::sync::OnceLock;

/// A fuel.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Fuel {
    /// Name in design files, for example `propane`.
    pub name: String,
    /// Name in sentences.
    pub title: String,
    /// Lower heating value at 25 °C \[MJ/kg\]; `None` for electricity.
    pub lower_heating_mj_kg: Option<f64>,
    /// Lower heating value of a gas at 15 °C and 1.01325 bar \[MJ/m³\].
    pub lower_heating_mj_m3: Option<f64>,
    /// Heat that reaches a bare hot cap over heat in the fuel: low, likely, high.
    pub efficiency: [f64; 3],
    /// Temperature of the flame \[°C\]; `None` for electricity.
    pub flame_c: Option<f64>,
    /// Whether it gives off carbon monoxide.
    pub carbon_monoxide: bool,
    /// Which values were seen, derived, or are from memory.
    pub status: String,
}

/// A fuel by its name.
///
/// # Errors
/// When there is no such fuel; names the nearest one.
pub fn fuel(name: &str) -> Result<&'static Fuel, UnknownEntry> {
    find("fuel", name, fuels(), |fuel| &fuel.name)
}

/// All fuels of the table.
pub fn fuels() -> &'static [Fuel] {
    #[derive(Deserialize)]
    struct File {
        fuel: Vec<Fuel>,
    }
    static FUELS: OnceLock<Vec<Fuel>> = OnceLock::new();
    FUELS.get_or_init(|| {
        let file: File =
            toml::from_str(include_str!("data/fuels.toml")).expect("an embedded table is well formed");
        file.fuel
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Enthalpies of formation at 25 °C \[kJ/mol\] (NIST Chemistry WebBook, from memory): CO₂ −393.51,
    /// H₂O gas −241.83, propane −104.7, butane −125.6, ethanol liquid −277.0. Heat of combustion to
    /// CO₂ and steam over the molar mass; 23.645 L/mol at 15 °C and 1.01325 bar.
    #[test]
    fn heating_values_follow_from_enthalpies_of_formation() {
        let burnt = |carbon: f64, hydrogen: f64, formation: f64| {
            carbon * 393.51 + 0.5 * hydrogen * 241.83 + formation
        };
        for (name, heat, molar) in [
            ("propane", burnt(3.0, 8.0, -104.7), 44.097),
            ("butane", burnt(4.0, 10.0, -125.6), 58.123),
            ("ethanol", burnt(2.0, 6.0, -277.0), 46.068),
        ] {
            let fuel = fuel(name).unwrap();
            assert!((fuel.lower_heating_mj_kg.unwrap() / (heat / molar) - 1.0).abs() < 0.003, "{name}");
            if let Some(by_volume) = fuel.lower_heating_mj_m3 {
                // real gases are 2 to 4 % denser than the ideal one
                let ideal = heat / 23.645;
                assert!((0.99..1.06).contains(&(by_volume / ideal)), "{name} {by_volume} {ideal}");
            }
        }
        let methane = burnt(1.0, 4.0, -74.6) / 16.043;
        let mains = fuel("natural-gas").unwrap().lower_heating_mj_kg.unwrap();
        assert!(mains < methane && mains > 0.9 * methane, "{mains} {methane}");
    }

    /// Flue gas cannot leave cooler than a wall of 500 °C: no efficiency beyond 1 − 480/(flame − 20).
    #[test]
    fn no_flame_gives_more_than_its_flue_gas_leaves() {
        for fuel in fuels() {
            let [low, likely, high] = fuel.efficiency;
            assert!(low < likely && likely < high && high < 1.0);
            if let Some(flame) = fuel.flame_c {
                assert!(high <= 1.0 - 480.0 / (flame - 20.0), "{}", fuel.name);
            }
        }
    }
}
