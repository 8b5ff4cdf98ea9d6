//! Gas properties against CoolProp 8.0.0 (own copy in `tests/data/gases.csv`).

use std::collections::HashMap;
use swept::catalogue::gases::{gas, gases};

fn near(what: &str, got: f64, wanted: f64, part: f64) {
    assert!((got / wanted - 1.0).abs() <= part, "{what}: {got} instead of {wanted}");
}

#[test]
fn properties_stay_within_their_stated_errors() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/gases.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    let rows: Vec<HashMap<String, String>> = reader.deserialize().collect::<Result<_, _>>().unwrap();
    assert_eq!(rows.len(), 4 * 11);
    for row in rows {
        let number = |column: &str| row[column].parse::<f64>().unwrap();
        let (gas, t) = (gas(&row["gas"]).unwrap(), number("t_k"));
        let what = |property: &str| format!("{property} of {} at {t} K", row["gas"]);
        near(&what("cp"), gas.cp_j_kg_k(t), number("cp"), 0.0046);
        // Cold air and nitrogen at 1 bar are not quite ideal, which the reference shows in gamma.
        near(&what("gamma"), gas.gamma(t), number("gamma"), 0.0035);
        near(&what("viscosity"), gas.viscosity_pa_s(t), number("mu") * 1e-6, 0.016);
        near(&what("conductivity"), gas.conductivity_w_m_k(t), number("k"), 0.014);
        near(&what("Prandtl number"), gas.prandtl(t), number("pr"), 0.03);
    }
}

#[test]
fn the_gas_constant_follows_from_the_molar_mass() {
    // Molar gas constant of the SI (2019): 8.314462618 J/(mol K).
    for gas in gases() {
        near(&gas.name, gas.gas.r_j_kg_k, 8_314.462_618 / gas.gas.molar_mass_g_mol, 2e-5);
    }
}

#[test]
fn a_misspelt_gas_names_the_nearest() {
    assert_eq!(gas("helum").unwrap_err().nearest.as_deref(), Some("helium"));
}
