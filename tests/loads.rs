//! Loads and units of a design file against hand calculations and published conversions.

use swept::design::{Design, Dimension, read, read_quantity};
use swept::sizing::verdict::{LoadCurve, load_of};

fn load(keys: &str) -> LoadCurve {
    let text = format!(
        "[engine]\nname = \"cabin\"\nlayout = \"gamma-twin-crank\"\n[displacer]\nbore = \"80 mm\"\nstroke = \"30 mm\"\n\
         [piston]\nbore = \"48 mm\"\nstroke = \"24 mm\"\n[load]\n{keys}"
    );
    let (design, _): (Design, _) =
        read("cabin.toml", text.as_bytes(), &[]).unwrap_or_else(|e| panic!("{e:#?}"));
    load_of(&design.load).unwrap().0
}

/// Road load F = C m g cos α + ρ C_d A v²/2 + m g sin α (C. Mi, M. A. Masrur and D. W. Gao, Hybrid Electric Vehicles, 2011,
/// equations 3.2 to 3.4). By hand for 40 kg, 1.5 %, 2 % up, 0.3 m² at 2 m/s on wheels of 200 mm: 392.266 N ×
/// (0.014997 + 0.019996) + 0.72 N = 14.4466 N, at 0.1 m.
#[test]
fn a_vehicle_asks_for_its_road_load() {
    let v = load(
        "kind = \"vehicle\"\nmass = \"40 kg\"\nrolling = \"1.5 %\"\nslope = \"2 %\"\ndrag_area = \"0.3 m2\"\nwheel_diameter = \"200 mm\"\n",
    );
    assert!((v.torque_nm(190.9859) - 1.444_66).abs() < 1e-5, "{}", v.torque_nm(190.9859));
    assert!((v.inertia_kg_m2() - 0.4).abs() < 1e-12, "40 kg at 0.1 m");
}

/// Affinity laws: flow with the speed, head with its square, power with its cube. The worked figures of a pump that is slowed
/// from 60 to 50 Hz: 10 hp become 5.8 hp (any text book of pumps; controlsfreak.dev, affinity laws, read 2026).
#[test]
fn pumps_and_fans_follow_the_affinity_laws() {
    for kind in ["pump", "fan"] {
        let l = load(&format!("kind = \"{kind}\"\npower = \"7.457 kW\"\nspeed = \"3600 rpm\"\n"));
        let hp = |rpm: f64| l.torque_nm(rpm) * std::f64::consts::TAU * rpm / 60.0 / 745.7;
        assert!((hp(3600.0) - 10.0).abs() < 1e-9 && (hp(3000.0) - 5.8).abs() < 0.05, "{}", hp(3000.0));
    }
}

/// 10 W at 600 rpm are 0.159155 N m, of which 0.02 N m are there at any speed: at half the speed 0.089577 N m.
#[test]
fn a_generator_has_an_idle_torque_and_a_part_that_grows_with_speed() {
    let g = load("kind = \"generator\"\npower = \"10 W\"\nspeed = \"600 rpm\"\nidle_torque = \"2 N cm\"\n");
    assert!((g.torque_nm(0.0) - 0.02).abs() < 1e-12 && (g.torque_nm(300.0) - 0.089_577).abs() < 1e-6);
    let c = load("kind = \"constant-torque\"\ntorque = \"300 N mm\"\n");
    assert_eq!((c.torque_nm(10.0), c.torque_nm(1000.0)), (0.3, 0.3));
}

/// NIST SP 811 (2008), appendix B.8: pound-force foot 1.355 818 N m, pound-force inch 0.112 984 8 N m, pound
/// 0.453 592 4 kg, square foot 0.092 903 04 m².
#[test]
fn units_convert_as_the_tables_of_nist_say() {
    let cases = [
        (Dimension::Torque, "0.3 N m", 0.3),
        (Dimension::Torque, "1 lbf ft", 1.355_818),
        (Dimension::Torque, "2 lbf in", 0.225_969_6),
        (Dimension::Torque, "30 Ncm", 0.3),
        (Dimension::Mass, "40 kg", 40.0),
        (Dimension::Mass, "2500 g", 2.5),
        (Dimension::Mass, "10 lb", 4.535_924),
        (Dimension::Area, "0.3 m2", 0.3),
        (Dimension::Area, "3000 cm²", 0.3),
        (Dimension::Area, "1 ft2", 0.092_903_04),
        (Dimension::Inertia, "20 kg cm2", 2e-3),
        (Dimension::Inertia, "500 g cm²", 5e-5),
        (Dimension::Flow, "6 L/min", 6.0),
        (Dimension::Flow, "360 L/h", 6.0),
        (Dimension::Flow, "0.36 m3/h", 6.0),
        (Dimension::Ratio, "0.25", 0.25),
        (Dimension::Ratio, "25 %", 0.25),
        (Dimension::Ratio, "1/4", 0.25),
    ];
    for (dimension, text, wanted) in cases {
        let got = read_quantity(dimension, text).unwrap_or_else(|error| panic!("{text}: {error:?}"));
        assert!((got / wanted - 1.0).abs() < 1e-6, "{text}: {got} instead of {wanted}");
    }
}
