//! The built-up crankshaft.

use super::{Shaft, Yoke};
use crate::catalogue::threads::{thread, threads};
use crate::sizing::check::WALL_MM;
use crate::sizing::decide::Decide;
use crate::sizing::engine::Drive;

/// Least metal between two pins in a web \[mm\]; common practice, no source.
const BETWEEN_PINS_MM: f64 = 3.0;
/// Shim between web and journal bearing, a size that is sold (DIN 988) \[mm\].
const SHIM_MM: f64 = 1.0;

/// Refuses an outer web whose bores for the journal and the piston's pin meet.
fn room_for_the_journal(d: &mut Decide, drive: &Drive) {
    let (journal, pin) = (drive.journal_bearing.bore_mm, drive.crankpin_bearing.bore_mm);
    let left = drive.piston.throw_mm - (journal + pin) / 2.0;
    if left < WALL_MM[1] {
        d.refuse(
            "swept::range",
            "drive.journal_bearing",
            format!(
                "a journal of {journal} mm and a pin of {pin} mm leave {left:.1} mm of metal in the outer web"
            ),
            format!("{} mm or more", WALL_MM[1]),
            "take a smaller drive.journal_bearing or drive.crankpin_bearing, or a longer piston.stroke"
                .into(),
        );
    }
}

/// Webs and pins.
pub fn size(d: &mut Decide, drive: &Drive, yoke: &Yoke) -> Shaft {
    let (t, gap, pin) = (drive.con_rod_thickness_mm, drive.side_gap_mm, drive.crankpin_bearing.bore_mm);
    let inner = d.rule(
        "shaft.inner_web",
        yoke.rod_y_mm - t - 2.0 * gap,
        "fills the room between the con rods but for 0.5 mm at either side",
        &["yoke.rod_place", "drive.con_rod_thickness"],
    );
    let outer = d.rule(
        "shaft.outer_web",
        drive.web_mm,
        ("crankpin, at least 6 mm", "common practice, no source"),
        &["drive.crankpin_bearing"],
    );
    let [a, b] = [drive.displacer.throw_mm, drive.piston.throw_mm];
    let lead = drive.lead_deg.to_radians();
    let apart = d.rule(
        "shaft.pins_apart",
        (a * a + b * b - 2.0 * a * b * lead.cos()).sqrt(),
        "third side of the triangle of both throws and the lead",
        &["drive.displacer_throw", "drive.piston_throw", "drive.lead"],
    );
    if apart < pin + BETWEEN_PINS_MM {
        d.refuse(
            "swept::range",
            "drive.lead",
            format!("displacer's and piston's pins of {pin} mm stand {apart:.1} mm apart in one web"),
            format!("{:.1} mm or more", pin + BETWEEN_PINS_MM),
            "take longer strokes, a larger lead, or a smaller drive.crankpin_bearing".into(),
        );
    }
    room_for_the_journal(d, drive);
    let reach = d.rule(
        "shaft.reach",
        yoke.rod_y_mm + t / 2.0 + gap + outer,
        "con rod + 0.5 mm + outer web",
        &["yoke.rod_place", "drive.con_rod_thickness", "shaft.outer_web"],
    );
    Shaft {
        webs_mm: [inner, outer],
        pins_apart_mm: apart,
        web_r_mm: drive.web_r_mm[1],
        reach_mm: reach,
        shim_mm: SHIM_MM,
        set_screw: thread("M3").unwrap_or(&threads()[0]),
    }
}
