//! Belt equations and pulley tables against worked values and pulley makers' tables.

use swept::catalogue::Catalogue;
use swept::catalogue::belts::*;

fn near(got: f64, wanted: f64, tolerance: f64) {
    assert!((got - wanted).abs() <= tolerance, "{got} instead of {wanted}");
}

#[test]
fn length_wrap_and_mesh_of_worked_drives() {
    // teeth, teeth, pitch, centres -> length, wrap in degrees, teeth in mesh; worked apart from this code to 6 digits.
    let worked = [
        (20, 60, "3M", 80.0, 284.581, 152.377, 8.465),
        (20, 20, "5M", 100.0, 300.000, 180.0, 10.0),
        (16, 48, "5M", 90.0, 347.254, 147.128, 6.539),
    ];
    for (z1, z2, name, centres, length, wrap_deg, mesh) in worked {
        let section = belt_section(name).unwrap();
        let (small, large) = (section.pitch_diameter_mm(z1), section.pitch_diameter_mm(z2));
        near(belt_length_mm(small, large, centres).unwrap(), length, 0.0006);
        near(belt_length_mm(large, small, centres).unwrap(), length, 0.0006);
        let wrap = wrap_small_rad(small, large, centres).unwrap();
        near(wrap.to_degrees(), wrap_deg, 0.0006);
        near(teeth_in_mesh(z1, wrap), mesh, 0.0006);
    }
}

/// Belt over two equal pulleys and an idler: pulley and idler radius, centres, depth -> length, turn in degrees; worked apart
/// from this code, once by the condition that the run is square to both radii and once by the shortest of many polylines.
#[test]
fn an_idler_takes_up_length() {
    for (pulley, idler, centres, depth, length, turn) in
        [(12.0, 9.0, 64.0, 5.0, 204.202_976, 9.377_080), (20.0, 17.0, 100.0, 8.0, 326.989_645, 9.687_265)]
    {
        let bent = bent_by_idler(2.0 * pulley, 2.0 * idler, centres, depth).unwrap();
        near(bent.length_mm, length, 1e-5);
        near(bent.turn_rad.to_degrees(), turn, 1e-5);
    }
    let straight = bent_by_idler(24.0, 18.0, 64.0, 0.0).unwrap();
    near(straight.length_mm, belt_length_mm(24.0, 24.0, 64.0).unwrap(), 1e-9);
    assert_eq!(bent_by_idler(24.0, 18.0, 20.0, 15.0), None, "no room between the pulleys");
}

#[test]
fn centres_for_a_belt_on_the_market() {
    let section = belt_section("3M").unwrap();
    let (small, large) = (section.pitch_diameter_mm(20), section.pitch_diameter_mm(60));
    near(centres_mm(small, large, 285.0).unwrap(), 80.2155, 0.0001);
    assert_eq!(centres_mm(small, large, 100.0), None, "shorter than half the pulleys' round");
    assert_eq!(belt_length_mm(10.0, 90.0, 30.0), None);
}

#[test]
fn outside_diameters_of_makers_pulley_tables() {
    // Codes of `sources.csv`: 3M, 5M, T2.5 and T5 from C7 (T5 also C8), MXL from C8. The last number is the spread of
    // the tables, which round to 0.05 or use an offset that is smaller in its third digit.
    type Table = (&'static str, &'static [(usize, f64)], f64);
    let tables: [Table; 5] = [
        (
            "3M",
            &[(10, 8.79), (12, 10.70), (15, 13.56), (18, 16.43), (20, 18.34), (22, 20.25), (26, 24.07)],
            0.01,
        ),
        ("5M", &[(12, 17.96), (14, 21.14), (16, 24.32), (18, 27.51), (20, 30.69), (22, 33.87)], 0.01),
        (
            "T2.5",
            &[(12, 9.00), (16, 12.20), (20, 15.40), (25, 19.35), (32, 24.95), (44, 34.50), (60, 47.25)],
            0.04,
        ),
        ("T5", &[(10, 15.05), (14, 21.45), (16, 24.60), (20, 31.00), (24, 37.40), (28, 43.75)], 0.06),
        ("MXL", &[(12, 7.26), (16, 9.83), (20, 12.42)], 0.02),
    ];
    for (name, rows, spread) in tables {
        let section = belt_section(name).unwrap();
        rows.iter().for_each(|(teeth, outside)| near(section.outside_diameter_mm(*teeth), *outside, spread));
    }
}

#[test]
fn groove_widths_follow_from_depth_and_angle() {
    for section in belt_sections() {
        for groove in [Some(section.groove), section.few_teeth_groove].into_iter().flatten() {
            let (top, worked) = match groove {
                Groove::Straight { depth_mm, root_width_mm, top_width_mm, included_angle_deg, .. } => (
                    top_width_mm,
                    root_width_mm + 2.0 * depth_mm * (included_angle_deg / 2.0).to_radians().tan(),
                ),
                Groove::Curvilinear {
                    depth_mm, bottom_radius_mm, top_width_mm, included_angle_deg, ..
                } => {
                    // The flank is tangent to the bottom arc, whose centre lies depth - radius below the rim.
                    let half = (included_angle_deg / 2.0).to_radians();
                    let below = depth_mm - bottom_radius_mm;
                    (top_width_mm, 2.0 * (bottom_radius_mm / half.cos() + below * half.tan()))
                }
            };
            near(top, worked, 0.055);
        }
    }
}

#[test]
fn lengths_are_whole_numbers_of_teeth() {
    for name in ["3M", "5M"] {
        let pitch = belt_section(name).unwrap().pitch_mm;
        let lengths: Vec<&BeltLength> = Catalogue::standard().belts_of(name).collect();
        assert!(lengths.iter().filter(|length| length.common()).count() > 20);
        lengths.iter().for_each(|l| near(l.pitch_length_mm, l.teeth as f64 * pitch, 1e-9));
        assert!(lengths.is_sorted_by(|a, b| a.pitch_length_mm < b.pitch_length_mm));
    }
    assert_eq!(belt_section("4M").unwrap_err().kind, "belt section");
}

#[test]
fn small_t_pulleys_have_their_own_groove() {
    let section = belt_section("T5").unwrap();
    assert_ne!(section.groove(20), section.groove(21));
    let m3 = belt_section("3M").unwrap();
    assert_eq!(m3.groove(12), m3.groove(40));
}
