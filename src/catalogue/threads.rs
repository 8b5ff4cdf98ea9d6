//! Metric screws M2 to M12 and everything that goes with one, port threads, set screws, screw lengths.

use super::table::{Listed, UnknownEntry, find, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// A coarse metric thread with the screw, hole, counterbore and washer of its size. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// Designation, for example `M5`.
    pub designation: String,
    /// Major diameter \[mm\] (ISO 261).
    pub major_mm: f64,
    /// Pitch \[mm\] (ISO 261).
    pub pitch_mm: f64,
    /// Minor diameter of the nut thread D1 \[mm\] (ISO 724).
    pub minor_mm: f64,
    /// Tap drill \[mm\] (ISO 2306).
    pub tap_drill_mm: f64,
    /// Stress area \[mm²\] (ISO 898-1).
    pub stress_area_mm2: f64,
    /// Clearance hole, fine series \[mm\] (ISO 273).
    pub clearance_fine_mm: f64,
    /// Clearance hole, medium series \[mm\] (ISO 273).
    pub clearance_medium_mm: f64,
    /// Clearance hole, coarse series \[mm\] (ISO 273).
    pub clearance_coarse_mm: f64,
    /// Counterbore for the cap screw \[mm\] (DIN 974-1).
    pub counterbore_diameter_mm: f64,
    /// Depth of that counterbore \[mm\] (DIN 974-1).
    pub counterbore_depth_mm: f64,
    /// Cap screw head, plain, largest \[mm\] (ISO 4762).
    pub head_diameter_mm: f64,
    /// Cap screw head, knurled, largest \[mm\] (ISO 4762): use this one for clearances.
    pub head_knurled_mm: f64,
    /// Cap screw head height \[mm\] (ISO 4762).
    pub head_height_mm: f64,
    /// Key size of the cap screw \[mm\] (ISO 4762).
    pub hex_key_mm: f64,
    /// Depth of the key socket \[mm\] (ISO 4762).
    pub socket_depth_mm: f64,
    /// Reference length of thread on a long cap screw \[mm\] (ISO 4762).
    pub thread_length_mm: f64,
    /// Bore of the plain washer \[mm\] (ISO 7089).
    pub washer_inner_mm: f64,
    /// Outside of the plain washer \[mm\] (ISO 7089).
    pub washer_outer_mm: f64,
    /// Thickness of the plain washer, nominal \[mm\] (ISO 7089).
    pub washer_thickness_mm: f64,
    /// Key size of the set screw \[mm\] (ISO 4026).
    pub set_screw_key_mm: f64,
    /// Depth of the set screw's key socket: of the shortest lengths, and of the others \[mm\] (ISO 4026).
    pub set_screw_socket_mm: [f64; 2],
    /// Flat point of the set screw, largest \[mm\] (ISO 4026).
    pub set_screw_point_mm: f64,
    /// Thickness of the plain washer, largest \[mm\] (ISO 7089).
    pub washer_thickness_max_mm: f64,
    /// Largest minor diameter of the nut thread \[mm\] (ISO 965-2, 6H; from memory).
    pub minor_max_mm: f64,
    /// Shortest and longest of the preferred lengths of cap screws \[mm\] (ISO 4762; from memory).
    pub cap_screw_range_mm: [f64; 2],
    /// Shortest and longest of the preferred lengths of set screws \[mm\] (ISO 4026; from memory).
    pub set_screw_range_mm: [f64; 2],
    /// State and sources of the numbers.
    pub from: Listed,
}

/// Short arm of a hexagon key by its size \[mm\] (ISO 2936, from memory).
fn short_arm_mm(key_mm: f64) -> f64 {
    let arms = [(1.5, 14.0), (2.0, 16.0), (2.5, 18.0), (3.0, 20.0), (4.0, 25.0), (5.0, 28.0), (6.0, 32.0)];
    arms.iter().find(|(key, _)| key_mm <= *key).map_or(36.0, |(_, arm)| *arm)
}

impl Thread {
    /// Way that the short arm of a key needs over the seat of a cap screw's head \[mm\].
    pub fn key_way_mm(&self) -> f64 {
        self.head_height_mm - self.socket_depth_mm + short_arm_mm(self.hex_key_mm)
    }

    /// Preferred lengths of cap screws of this thread \[mm\].
    pub fn cap_screws_mm(&self) -> impl Iterator<Item = f64> {
        between(&SCREW_LENGTHS_MM, self.cap_screw_range_mm)
    }

    /// Preferred lengths of set screws of this thread \[mm\].
    pub fn set_screws_mm(&self) -> impl Iterator<Item = f64> {
        between(&SCREW_LENGTHS_MM, self.set_screw_range_mm)
    }
}

fn between(all: &'static [f64], [low, high]: [f64; 2]) -> impl Iterator<Item = f64> {
    all.iter().copied().filter(move |length| (low..=high).contains(length))
}

/// A thread for a hose or a plug: a coarse metric one or a parallel pipe thread (ISO 228-1).
#[derive(Clone, Debug, PartialEq)]
pub struct PortThread {
    /// Designation, for example `G1/8`.
    pub designation: String,
    /// Major diameter \[mm\].
    pub major_mm: f64,
    /// Pitch \[mm\].
    pub pitch_mm: f64,
    /// Minor diameter of the internal thread \[mm\].
    pub minor_mm: f64,
    /// Tap drill \[mm\].
    pub tap_drill_mm: f64,
}

/// ISO 228-1 G1/8: 28 threads to the inch, major 9.728, minor 8.566, tap drill 8.8. From memory.
const G1_8: (&str, f64, f64, f64, f64) = ("G1/8", 9.728, 0.907, 8.566, 8.8);

/// Standard lengths of cap screws and set screws \[mm\], ISO 4762 and ISO 4026. From memory.
pub const SCREW_LENGTHS_MM: [f64; 25] = [
    2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0,
    60.0, 65.0, 70.0, 80.0, 90.0, 100.0, 120.0,
];

/// A coarse metric thread by its designation.
///
/// # Errors
/// When the table holds no such thread; names the nearest one.
pub fn thread(designation: &str) -> Result<&'static Thread, UnknownEntry> {
    find("thread", designation, threads(), |thread| &thread.designation)
}

/// All threads of the table, small to large.
pub fn threads() -> &'static [Thread] {
    static THREADS: OnceLock<Vec<Thread>> = OnceLock::new();
    THREADS.get_or_init(join)
}

/// A thread for a hose or a plug, metric or `G1/8`.
///
/// # Errors
/// When there is no such thread; names the nearest one.
pub fn port_thread(designation: &str) -> Result<&'static PortThread, UnknownEntry> {
    static PORTS: OnceLock<Vec<PortThread>> = OnceLock::new();
    find("port thread", designation, PORTS.get_or_init(port_threads), |thread| &thread.designation)
}

fn port_threads() -> Vec<PortThread> {
    let metric = threads().iter().map(|thread| PortThread {
        designation: thread.designation.clone(),
        major_mm: thread.major_mm,
        pitch_mm: thread.pitch_mm,
        minor_mm: thread.minor_mm,
        tap_drill_mm: thread.tap_drill_mm,
    });
    let (designation, major_mm, pitch_mm, minor_mm, tap_drill_mm) = G1_8;
    let pipe = PortThread { designation: designation.into(), major_mm, pitch_mm, minor_mm, tap_drill_mm };
    metric.chain([pipe]).collect()
}

#[derive(Deserialize)]
struct ThreadRow {
    thread: String,
    d_mm: f64,
    pitch_mm: f64,
    #[serde(rename = "D1_mm")]
    d1_mm: f64,
    tap_drill_mm: f64,
    #[serde(rename = "D1_max_6H_mm")]
    d1_max_mm: f64,
    #[serde(rename = "As_mm2")]
    as_mm2: f64,
    status: String,
    src: String,
}

#[derive(Deserialize)]
struct HoleRow {
    #[serde(rename = "fine_H12_mm")]
    fine: f64,
    #[serde(rename = "medium_H13_mm")]
    medium: f64,
    #[serde(rename = "coarse_H14_mm")]
    coarse: f64,
}

#[derive(Deserialize)]
struct CounterboreRow {
    #[serde(rename = "counterbore_dia_H13_mm")]
    diameter: f64,
    depth_mm: f64,
}

#[derive(Deserialize)]
struct CapRow {
    dk_max_plain_mm: f64,
    dk_max_knurled_mm: f64,
    k_max_mm: f64,
    hex_s_mm: f64,
    t_min_mm: f64,
    b_ref_thread_length_mm: f64,
}

#[derive(Deserialize)]
struct WasherRow {
    d1_mm: f64,
    d2_mm: f64,
    h_nom_mm: f64,
    h_max_mm: f64,
}

#[derive(Deserialize)]
struct LengthRow {
    cap_shortest_mm: f64,
    cap_longest_mm: f64,
    set_shortest_mm: f64,
    set_longest_mm: f64,
}

#[derive(Deserialize)]
struct SetRow {
    hex_s_mm: f64,
    t_min_short_mm: f64,
    t_min_mm: f64,
    flat_point_dp_max_mm: f64,
}

/// All tables list the same sizes in the same order (a test compares the names).
fn join() -> Vec<Thread> {
    let holes: Vec<HoleRow> = rows(include_str!("data/clearance_holes.csv"));
    let bores: Vec<CounterboreRow> = rows(include_str!("data/counterbores.csv"));
    let caps: Vec<CapRow> = rows(include_str!("data/cap_screws.csv"));
    let washers: Vec<WasherRow> = rows(include_str!("data/washers.csv"));
    let sets: Vec<SetRow> = rows(include_str!("data/set_screws.csv"));
    let lengths: Vec<LengthRow> = rows(include_str!("data/screw_lengths.csv"));
    rows::<ThreadRow>(include_str!("data/threads.csv"))
        .into_iter()
        .enumerate()
        .map(|(i, row)| assemble(row, &holes[i], &bores[i], &caps[i], &washers[i], &sets[i], &lengths[i]))
        .collect()
}

fn assemble(
    row: ThreadRow,
    hole: &HoleRow,
    bore: &CounterboreRow,
    cap: &CapRow,
    washer: &WasherRow,
    set: &SetRow,
    lengths: &LengthRow,
) -> Thread {
    Thread {
        designation: row.thread,
        major_mm: row.d_mm,
        pitch_mm: row.pitch_mm,
        minor_mm: row.d1_mm,
        tap_drill_mm: row.tap_drill_mm,
        stress_area_mm2: row.as_mm2,
        clearance_fine_mm: hole.fine,
        clearance_medium_mm: hole.medium,
        clearance_coarse_mm: hole.coarse,
        counterbore_diameter_mm: bore.diameter,
        counterbore_depth_mm: bore.depth_mm,
        head_diameter_mm: cap.dk_max_plain_mm,
        head_knurled_mm: cap.dk_max_knurled_mm,
        head_height_mm: cap.k_max_mm,
        hex_key_mm: cap.hex_s_mm,
        socket_depth_mm: cap.t_min_mm,
        thread_length_mm: cap.b_ref_thread_length_mm,
        washer_inner_mm: washer.d1_mm,
        washer_outer_mm: washer.d2_mm,
        washer_thickness_mm: washer.h_nom_mm,
        set_screw_key_mm: set.hex_s_mm,
        set_screw_socket_mm: [set.t_min_short_mm, set.t_min_mm],
        set_screw_point_mm: set.flat_point_dp_max_mm,
        washer_thickness_max_mm: washer.h_max_mm,
        minor_max_mm: row.d1_max_mm,
        cap_screw_range_mm: [lengths.cap_shortest_mm, lengths.cap_longest_mm],
        set_screw_range_mm: [lengths.set_shortest_mm, lengths.set_longest_mm],
        from: Listed::table("ISO 261, ISO 724, ISO 2306", &row.status, &row.src),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Deserialize)]
    struct Name {
        thread: String,
    }

    fn names(text: &str) -> Vec<String> {
        rows::<Name>(text).into_iter().map(|row| row.thread).collect()
    }

    #[test]
    fn the_tables_that_are_joined_list_the_same_sizes() {
        let threads = names(include_str!("data/threads.csv"));
        for text in [
            include_str!("data/clearance_holes.csv"),
            include_str!("data/counterbores.csv"),
            include_str!("data/cap_screws.csv"),
            include_str!("data/washers.csv"),
            include_str!("data/set_screws.csv"),
            include_str!("data/screw_lengths.csv"),
        ] {
            assert_eq!(names(text), threads);
        }
    }

    #[test]
    fn minor_diameter_and_stress_area_follow_iso_724_and_iso_898_1() {
        for thread in threads() {
            // ISO 724: D1 = d - 1.082532 P. ISO 898-1: As = pi/4 (d - 0.938194 P)^2.
            let minor = thread.major_mm - 1.082_532 * thread.pitch_mm;
            let area = std::f64::consts::FRAC_PI_4 * (thread.major_mm - 0.938_194 * thread.pitch_mm).powi(2);
            assert!((thread.minor_mm - minor).abs() < 0.001, "{}", thread.designation);
            assert!((thread.stress_area_mm2 - area).abs() < 0.01, "{}", thread.designation);
        }
    }

    #[test]
    fn a_head_fits_its_counterbore_and_a_screw_its_hole() {
        for thread in threads() {
            assert!(thread.counterbore_diameter_mm > thread.head_knurled_mm);
            assert!(thread.counterbore_depth_mm > thread.head_height_mm);
            assert!(thread.major_mm < thread.clearance_fine_mm);
            assert!(thread.clearance_fine_mm < thread.clearance_medium_mm);
            assert!(thread.clearance_medium_mm < thread.clearance_coarse_mm);
            assert!(thread.tap_drill_mm >= thread.minor_mm && thread.tap_drill_mm < thread.major_mm);
        }
    }

    #[test]
    fn an_unknown_thread_names_the_nearest() {
        assert_eq!(thread("M55").unwrap_err().nearest.as_deref(), Some("M5"));
        assert_eq!(thread("m5").unwrap().tap_drill_mm, 4.2);
        assert_eq!(port_thread("G1/8").unwrap().tap_drill_mm, 8.8);
        assert_eq!(port_thread("G1/4").unwrap_err().nearest.as_deref(), Some("G1/8"));
    }
}
