//! Tables of the catalogue against second copies, typed apart from them, and against the formulas of their standards.

use std::collections::HashMap;
use swept::catalogue::Catalogue;
use swept::catalogue::belts::{BeltLength, belt_section};
use swept::catalogue::materials::{Material, materials};
use swept::catalogue::orings::{Application, gland, rings};
use swept::catalogue::threads::{Thread, threads};

fn belts(section: &str) -> Vec<&BeltLength> {
    Catalogue::standard().belts_of(section).collect()
}

fn material(name: &str) -> &'static Material {
    Catalogue::standard().material(name).unwrap()
}

fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!((got - wanted).abs() <= tolerance, "{what}: {got} instead of {wanted}");
}

#[test]
fn screws_and_washers_agree_with_the_second_copy() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/catalogue/screws.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    let rows: Vec<HashMap<String, String>> = reader.deserialize().collect::<Result<_, _>>().unwrap();
    assert_eq!(rows.len(), threads().len());
    type Column = (&'static str, fn(&Thread) -> f64);
    let columns: [Column; 17] = [
        ("dk_knurled", |t| t.head_knurled_mm),
        ("dk_plain", |t| t.head_diameter_mm),
        ("k", |t| t.head_height_mm),
        ("s", |t| t.hex_key_mm),
        ("t", |t| t.socket_depth_mm),
        ("b", |t| t.thread_length_mm),
        ("set_s", |t| t.set_screw_key_mm),
        ("set_dp", |t| t.set_screw_point_mm),
        ("set_t_short", |t| t.set_screw_socket_mm[0]),
        ("set_t", |t| t.set_screw_socket_mm[1]),
        ("washer_d1", |t| t.washer_inner_mm),
        ("washer_d2", |t| t.washer_outer_mm),
        ("washer_h", |t| t.washer_thickness_mm),
        ("hole_fine", |t| t.clearance_fine_mm),
        ("hole_medium", |t| t.clearance_medium_mm),
        ("hole_coarse", |t| t.clearance_coarse_mm),
        ("minor_max", |t| t.minor_max_mm),
    ];
    let mut compared = 0;
    for (row, thread) in rows.iter().zip(threads()) {
        assert_eq!(row["thread"], thread.designation);
        for (column, of) in columns.iter().filter(|(column, _)| !row[*column].is_empty()) {
            near(
                &format!("{column} of {}", thread.designation),
                of(thread),
                row[*column].parse().unwrap(),
                1e-9,
            );
            compared += 1;
        }
    }
    assert_eq!(compared, 9 * 17 - 6);
}

#[test]
fn lengths_of_screws_stay_in_the_range_of_their_thread() {
    for thread in threads() {
        for lengths in [thread.cap_screws_mm().collect::<Vec<_>>(), thread.set_screws_mm().collect()] {
            assert!(lengths.len() > 5 && lengths.is_sorted(), "{}", thread.designation);
        }
        assert_eq!(
            thread.cap_screws_mm().next(),
            Some(thread.cap_screw_range_mm[0]),
            "{}",
            thread.designation
        );
        assert_eq!(
            thread.set_screws_mm().last(),
            Some(thread.set_screw_range_mm[1]),
            "{}",
            thread.designation
        );
        // A set screw is longer than its short socket is deep, else the key would fall through.
        assert!(thread.set_screw_range_mm[0] > thread.set_screw_socket_mm[0], "{}", thread.designation);
    }
    let m5: Vec<f64> = threads()[4].cap_screws_mm().collect();
    // ISO 4762, M5: 8 to 50 (from memory).
    assert_eq!(m5, [8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0]);
}

#[test]
fn belt_lengths_agree_with_what_the_maker_prints() {
    // Code C10 of `sources.csv`: teeth and millimetres of MXL belts as printed, to a hundredth.
    let mxl = [
        (54, 109.73),
        (71, 144.27),
        (88, 178.82),
        (113, 229.62),
        (125, 254.0),
        (164, 333.25),
        (251, 510.03),
        (505, 1026.16),
    ];
    let lengths = belts("MXL");
    for (teeth, printed) in mxl {
        let found = lengths.iter().find(|length| length.teeth == teeth).expect("a length of the list");
        near("MXL", found.pitch_length_mm, printed, 0.005);
    }
    for (name, least) in [("MXL", 60), ("T2.5", 28), ("T5", 60)] {
        let pitch = belt_section(name).unwrap().pitch_mm;
        let lengths = belts(name);
        assert!(lengths.len() >= least && lengths.iter().all(|length| length.common()), "{name}");
        lengths.iter().for_each(|l| near(name, l.pitch_length_mm, l.teeth as f64 * pitch, 1e-9));
        assert!(lengths.is_sorted_by(|a, b| a.teeth < b.teeth), "{name}");
    }
}

#[test]
fn o_rings_of_as568_keep_their_steps_and_squeeze_stays_sound() {
    // AS568 (from memory): inside diameters of -012 to -028 rise by 1/16 in, of -110 to -149 by 1/16 in.
    for (section, names, step) in [(1.78, 12..=28, 1.5875), (2.62, 110..=149, 1.5875)] {
        let of = |dash: usize| {
            let name = format!("AS568-{dash:03}");
            rings(section)
                .into_iter()
                .find(|ring| ring.designation == name)
                .expect("a ring of the run")
                .inner_mm
        };
        let (first, last) = (*names.start(), *names.end());
        (first..last).for_each(|dash| near("step", of(dash + 1) - of(dash), step, 0.025)); // printed in thousandths of an inch
    }
    for section in [1.78, 2.62] {
        let moving = gland(section, Application::ReciprocatingPneumatic).unwrap();
        let still = gland(section, Application::StaticFace).unwrap();
        for ring in rings(section) {
            let [least, most] = moving.squeeze_of(ring);
            // Moving seals in gas 6 to 20 %, still ones 15 to 35 % over all tolerances (common practice, no source).
            assert!(least > 0.06 && most < 0.20, "{}: {least} to {most}", ring.designation);
            let [least, most] = still.squeeze_of(ring);
            assert!(least > 0.15 && most < 0.35, "{}: {least} to {most}", ring.designation);
        }
    }
}

/// Thousand pounds to the square inch in megapascals.
const KSI: f64 = 6.894_757;

#[test]
fn strength_at_temperature_agrees_with_the_producers_table() {
    // Code W96: a producer's table, in ksi: yield in a short test, rupture in 1000 h; Fahrenheit as printed.
    let c = |f: f64| (f - 32.0) / 1.8;
    type Case = (&'static str, fn(&Material, f64) -> Option<f64>, f64, f64);
    let cases: [Case; 9] = [
        ("stainless-304", Material::yield_mpa, 1000.0, 18.0),
        ("stainless-304", Material::yield_mpa, 1200.0, 16.0),
        ("stainless-304", Material::creep_mpa, 1000.4, 37.0),
        ("stainless-304", Material::creep_mpa, 1202.0, 17.0),
        ("stainless-304", Material::creep_mpa, 1499.0, 4.0),
        ("stainless-316", Material::yield_mpa, 75.2, 40.0),
        ("stainless-316", Material::yield_mpa, 1000.0, 28.0),
        ("stainless-316", Material::creep_mpa, 1202.0, 24.0),
        ("stainless-316", Material::creep_mpa, 1499.0, 7.0),
    ];
    for (name, of, fahrenheit, ksi) in cases {
        let got = of(material(name), c(fahrenheit)).unwrap();
        near(&format!("{name} at {fahrenheit} F"), got, ksi * KSI, 0.8);
    }
}

#[test]
fn steel_and_aluminium_soften_as_the_eurocodes_say() {
    let steel = material("mild-steel");
    // EN 1993-1-2:2005, 3.4.1.1: elongation 1.2e-5 T + 0.4e-8 T^2 - 2.416e-4; table 3.1: reduction of yield and modulus (from memory).
    for t in [100.0, 200.0, 400.0, 600.0] {
        near("elongation", steel.growth(t), 1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4, 3e-5);
    }
    for (t, yields, modulus) in [(400.0, 1.0, 0.7), (500.0, 0.78, 0.6), (600.0, 0.47, 0.31)] {
        near("yield of steel", steel.yield_mpa(t).unwrap() / 235.0, yields, 0.005);
        near("modulus of steel", steel.modulus_gpa(t) / 210.0, modulus, 0.005);
    }
    let aluminium = material("aluminium-6082");
    // EN 1999-1-2:2007, table 1a (6082-T6) and table 2: two-hour proof strength and modulus (from memory).
    for (t, proof, modulus) in
        [(100.0, 0.90, 67.9), (150.0, 0.79, 65.1), (200.0, 0.65, 60.2), (250.0, 0.38, 54.6)]
    {
        near("proof strength", aluminium.yield_mpa(t).unwrap() / 250.0, proof, 0.005);
        near("modulus", aluminium.modulus_gpa(t), modulus, 1e-9);
    }
    assert_eq!(aluminium.yield_mpa(351.0), None);
    assert_eq!(aluminium.creep_mpa(200.0), None, "not known");
}

#[test]
fn what_is_allowed_for_long_stays_below_what_ruins() {
    for m in materials() {
        for t in (20..=800).step_by(20).map(f64::from) {
            let Some(allowed) = m.allowable_mpa(t) else { continue };
            for (what, limit) in [("yield", m.yield_mpa(t)), ("creep", m.creep_mpa(t))] {
                assert!(
                    limit.is_none_or(|limit| allowed < limit),
                    "{} at {t}: {allowed}, {what} {limit:?}",
                    m.name
                );
            }
        }
        let growth = m.growth(m.service_limit_c);
        assert!(growth > 0.0 && growth < 0.06, "{}: {growth}", m.name);
    }
}
