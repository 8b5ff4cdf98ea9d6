//! Hub that holds a disc on a shaft.

use crate::catalogue::Catalogue;
use crate::catalogue::threads::{Thread, thread};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{BoltCircle, Hub};

const PLAIN: &str = "common practice, no source";
/// Screws of the disc.
const SCREWS: usize = 4;
/// Longest spigot \[mm\].
const SPIGOT_MM: f64 = 3.0;
/// Disc up to which M3 holds it \[mm\].
const SMALL_MM: f64 = 160.0;

fn known(designation: &str) -> &'static Thread {
    thread(designation).unwrap_or_else(|_| unreachable!("in the catalogue"))
}

/// Longest set screw of stock that stays inside a wall of `wall` \[mm\]; the shortest that there is where none does.
pub fn set_screw_mm(t: &Thread, wall: f64) -> f64 {
    let inside = t.set_screws_mm().filter(|length| *length <= wall + 1e-9).last();
    inside.unwrap_or(t.set_screw_range_mm[0])
}

/// Screw that passes `grip` \[mm\] and bites a diameter or more.
fn screw_mm(book: &Catalogue, t: &Thread, grip: f64) -> f64 {
    let needed = grip + t.major_mm;
    book.cap_screw_at_least(t, needed).unwrap_or_else(|| round_up(needed, 5.0))
}

/// Room that the heads of a hub's screws need in front of the disc \[mm\].
pub fn head_room_mm(hub: &Hub) -> f64 {
    hub.screws.thread.head_height_mm + 0.5
}

/// Hub on a shaft of `shaft` for a disc of `diameter` with `grip` under the screws' heads \[mm\]; `name` is the first word
/// of its paths.
pub fn size(d: &mut Decide, name: &str, shaft: f64, diameter: f64, grip: f64) -> Hub {
    let set_screw = known(if shaft < 8.0 { "M4" } else { "M5" });
    let screw = known(if diameter <= SMALL_MM { "M3" } else { "M5" });
    let path = |what: &str| format!("{name}.hub_{what}");
    let boss = d.rule(
        &path("diameter"),
        round_up(shaft + 3.0 * set_screw.major_mm, 1.0),
        ("shaft + 1.5 set screws of wall on either side, to the next mm", PLAIN),
        &["drive.journal_bearing"],
    );
    let length = d.rule(
        &path("length"),
        round_up(1.5 * set_screw.major_mm + 2.0, 1.0),
        ("1.5 set screws + 2 mm, to the next mm", PLAIN),
        &[],
    );
    let circle = d.rule(
        &path("screw_circle"),
        boss + screw.major_mm + 3.0,
        ("boss + screw + 3 mm", PLAIN),
        &[&path("diameter")],
    );
    let flange = d.rule(
        &path("flange_diameter"),
        round_up(circle + 2.4 * screw.major_mm, 1.0),
        ("screw circle + 2.4 screws, to the next mm", PLAIN),
        &[&path("screw_circle")],
    );
    let thick = d.rule(
        &path("flange_thickness"),
        round_up(1.2 * screw.major_mm, 1.0),
        ("1.2 screws, to the next mm", PLAIN),
        &[],
    );
    let spigot = d.rule(
        &path("spigot_diameter"),
        round_up(shaft + 6.0, 1.0),
        ("shaft + 6 mm, to the next mm", PLAIN),
        &["drive.journal_bearing"],
    );
    Hub {
        bore_mm: shaft,
        boss_mm: [boss, length],
        flange_mm: [flange, thick],
        spigot_mm: [spigot, SPIGOT_MM.min(grip - 0.5)],
        screws: BoltCircle {
            thread: screw,
            diameter_mm: circle,
            count: SCREWS,
            first_deg: 45.0,
            screw_mm: screw_mm(&d.design.catalogue, screw, grip),
        },
        set_screw,
        set_screw_mm: set_screw_mm(set_screw, (boss - shaft) / 2.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Preferred lengths of ISO 4026 (from memory): M4 from 4 mm, M5 5, 6, 8 mm.
    #[test]
    fn a_set_screw_stays_inside_its_wall() {
        assert_eq!(set_screw_mm(known("M5"), 7.5), 6.0);
        assert_eq!(set_screw_mm(known("M5"), 8.0), 8.0);
        assert_eq!(set_screw_mm(known("M4"), 3.0), 4.0);
    }
}
