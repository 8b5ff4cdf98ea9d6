//! Belt tensioner: a roller on a plate that slides on the bracket pushes on the belt's back, in the middle between both
//! pulleys.

use crate::catalogue::bearings::BallBearing;
use crate::catalogue::belts::{BeltSection, Bent, bent_by_idler};
use crate::catalogue::threads::{Thread, thread};
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::Belt;

const PLAIN: &str = "common practice, no source";
/// By how much the axes stand nearer than the belt's length asks for, so that the shortest belt of its tolerance (0.4 mm,
/// makers' sheets, from memory) goes on with slack \[mm\].
pub const SHORT_MM: f64 = 0.5;
/// The same for centres that the user gives, least and most \[mm\].
pub const SHORT_RANGE_MM: [f64; 2] = [0.25, 1.5];
/// How much longer than its name a belt may be and still be tightened: twice the tolerance \[mm\].
const LONGER_MM: f64 = 0.8;
/// An idler on the back of a belt should be so many times as large as the section's smallest pulley (makers' practice, from
/// memory).
const BACK_OVER_SMALLEST: f64 = 1.5;
/// Smallest pulleys of the sections, teeth (makers' sheets, from memory).
const SMALLEST: [(&str, f64); 5] = [("3M", 10.0), ("5M", 14.0), ("MXL", 10.0), ("T2.5", 12.0), ("T5", 10.0)];
/// Wall of the roller around its bearing \[mm\].
const WALL_MM: f64 = 3.0;
/// Thickness of the plate \[mm\]: a stock size.
const PLATE_MM: f64 = 5.0;
/// Metal between slots, and between the edge of the plate and a slot \[mm\].
const BETWEEN_MM: f64 = 3.0;
/// Free way between roller and washers \[mm\].
const FREE_MM: f64 = 1.0;

/// The tensioner.
#[derive(Clone, Debug, PartialEq)]
pub struct Tensioner {
    /// Roller: diameter and width \[mm\].
    pub roller_mm: [f64; 2],
    /// Its bearing.
    pub bearing: BallBearing,
    /// Place of the roller's axis when the belt is tight: X, and height above the crank axes \[mm\].
    pub place_mm: [f64; 2],
    /// By how much the roller pushes the belt in \[mm\].
    pub depth_mm: f64,
    /// By how much the belt is longer than around both pulleys alone \[mm\].
    pub slack_mm: f64,
    /// Angle by which each half of the strand is bent \[deg\].
    pub bent_deg: f64,
    /// Way of the plate away from the belt and towards it \[mm\].
    pub travel_mm: [f64; 2],
    /// Radius of the plate about the roller's pin and about the ends of its slots \[mm\].
    pub end_r_mm: [f64; 2],
    /// Thickness of the plate \[mm\].
    pub plate_mm: f64,
    /// Place of the screws: to either side of the roller's axis, and above it when the belt is tight \[mm\].
    pub screws_mm: [f64; 2],
    /// Screws of the plate.
    pub screw: &'static Thread,
    /// Length of these \[mm\].
    pub screw_mm: f64,
    /// Depth of full thread for them in the bracket \[mm\].
    pub thread_mm: f64,
    /// Ring between plate and bearing \[mm\].
    pub spacer_mm: f64,
    /// Length of the roller's pin \[mm\].
    pub pin_mm: f64,
}

impl Tensioner {
    /// What lies between the heads of the screws and the threads: washer and plate \[mm\].
    pub fn grip_mm(&self) -> f64 {
        self.screw.washer_thickness_mm + self.plate_mm
    }

    /// Upper end of the plate above the crank axes when it is pushed all the way up \[mm\].
    pub fn top_mm(&self) -> f64 {
        self.place_mm[1] + self.far_mm() + self.end_r_mm[1] + self.travel_mm[0]
    }

    /// Height of the slots' upper ends above the roller's axis \[mm\].
    pub fn far_mm(&self) -> f64 {
        self.screws_mm[1] + self.travel_mm[1]
    }

    /// Force on the roller while both halves of the strand pull with `strand_n` \[N\].
    pub fn force_n(&self, strand_n: f64) -> f64 {
        2.0 * strand_n * self.bent_deg.to_radians().sin()
    }

    /// From the plate to the middle of the belt \[mm\]: the arm of that force on the pin.
    pub fn arm_mm(&self) -> f64 {
        self.spacer_mm + 0.5 * self.bearing.width_mm
    }
}

/// How the free strand is tried: way \[mm\] by which it gives in its middle, and the force \[N\] across it at the tension of
/// rest. A string of length C pulled by S that gives f in its middle pushes back with 4 S f / C; makers take f = C / 64 (from
/// memory), hence S / 16.
pub fn deflection(centres_mm: f64, strand_n: f64) -> [f64; 2] {
    [centres_mm / 64.0, strand_n / 16.0]
}

/// Depth at which an idler takes up a slack \[mm\], by halving; the belt grows with the depth.
fn depth_for(slack: f64, pulley: f64, idler: f64, centres: f64) -> f64 {
    let plain = 2.0 * centres + std::f64::consts::PI * pulley;
    let takes = |depth: f64| {
        bent_by_idler(pulley, idler, centres, depth).map_or(f64::INFINITY, |b| b.length_mm - plain)
    };
    let (mut low, mut high) = (0.0_f64, 0.5 * (pulley + idler));
    for _ in 0..100 {
        let middle = low.midpoint(high);
        if takes(middle) < slack { low = middle } else { high = middle }
    }
    low.midpoint(high)
}

/// The tensioner of a belt around pulleys `centres` \[mm\] apart; `gap` \[mm\] is the way from the bracket to the teeth.
pub fn size(
    d: &mut Decide,
    section: &BeltSection,
    belt: &Belt,
    centres: f64,
    gap: f64,
    bearing: &BallBearing,
) -> Tensioner {
    let smallest = SMALLEST.iter().find(|s| s.0 == section.name).map_or(10.0, |s| s.1) * section.pitch_mm;
    let least = BACK_OVER_SMALLEST * smallest / std::f64::consts::PI;
    let diameter = d.rule(
        "tensioner.roller_diameter",
        round_up(least.max(bearing.outer_mm + 2.0 * WALL_MM), 1.0),
        ("3 mm around its bearing, 1.5 times the section's smallest pulley, to the next mm", PLAIN),
        &["drive.small_end_bearing"],
    );
    let pulley = section.pitch_diameter_mm(belt.pulley_teeth);
    // from the cords to the back
    let back = section.thickness_mm - section.tooth_height_mm - 0.5 * section.two_a_mm;
    let idler = diameter + 2.0 * back;
    let slack = d.rule(
        "tensioner.slack",
        belt.length_mm - 2.0 * centres - belt.pulley_teeth as f64 * section.pitch_mm,
        "belt length - 2 crank centres - teeth x pitch",
        &["drive.belt_length", "drive.crank_centres", "drive.pulley_teeth"],
    );
    let depth = d.solved(
        "tensioner.depth",
        round_near(depth_for(slack.max(0.0), pulley, idler, centres), 0.01),
        "the belt's length around both pulleys and the roller",
        0.0,
        &["tensioner.slack", "tensioner.roller_diameter"],
    );
    let up = d.rule(
        "tensioner.travel_off",
        round_up(depth, 0.5),
        ("until the belt hangs free, to the next 0.5 mm", PLAIN),
        &["tensioner.depth"],
    );
    let down = d.rule(
        "tensioner.travel_on",
        round_up(depth_for(slack.max(0.0) + LONGER_MM, pulley, idler, centres) - depth, 0.5),
        ("a belt 0.8 mm too long is tightened too, to the next 0.5 mm", PLAIN),
        &["tensioner.depth"],
    );
    let bent = bent_by_idler(pulley, idler, centres, depth).unwrap_or(Bent { length_mm: 0.0, turn_rad: 0.0 });
    let screw = thread("M4").unwrap_or_else(|_| unreachable!("in the catalogue"));
    let hole = screw.clearance_medium_mm;
    let high = 0.5 * (pulley + idler) - depth;
    let place = d.rule(
        "tensioner.screw_place",
        round_up(high + 0.5 * diameter + 0.5 * screw.washer_outer_mm + FREE_MM + up, 0.5),
        (
            "above the crank axes: washer 1 mm beside the roller when the plate is up, to the next 0.5 mm",
            PLAIN,
        ),
        &["tensioner.roller_diameter", "tensioner.travel_off"],
    );
    let pitch = d.rule(
        "tensioner.screw_pitch",
        round_up((screw.washer_outer_mm + 1.0).max(hole + BETWEEN_MM), 0.5),
        ("both washers side by side, 1 mm between them, to the next 0.5 mm", PLAIN),
        &[],
    );
    let grip = screw.washer_thickness_mm + PLATE_MM;
    let needed = grip + 2.0 * screw.major_mm;
    let screw_mm = d.design.catalogue.cap_screw_at_least(screw, needed).unwrap_or(needed);
    let spacer = d.rule(
        "tensioner.spacer",
        round_near(gap - PLATE_MM + 0.5 * (belt.face_mm - bearing.width_mm), 0.01),
        "from the plate to the bearing in the middle of the belt",
        &["drive.belt_width", "drive.small_end_bearing"],
    );
    Tensioner {
        roller_mm: [diameter, belt.width_mm.max(bearing.width_mm + 1.0)],
        bearing: bearing.clone(),
        place_mm: [0.5 * centres, high],
        depth_mm: depth,
        slack_mm: slack,
        bent_deg: d.rule_in(
            "tensioner.bend",
            bent.turn_rad.to_degrees(),
            Unit::Degree,
            "tangents of pulley and roller",
            &["tensioner.depth"],
        ),
        travel_mm: [up, down],
        end_r_mm: [0.5 * bearing.bore_mm + 2.0 * BETWEEN_MM, 0.5 * hole + BETWEEN_MM],
        plate_mm: PLATE_MM,
        screws_mm: [0.5 * pitch, place - high],
        screw,
        screw_mm,
        thread_mm: screw_mm - grip + 1.0,
        spacer_mm: spacer,
        pin_mm: round_near(PLATE_MM + spacer + bearing.width_mm, 0.01),
    }
}

/// Refuses a tensioner that has no room below what stands over the bracket; `top` \[mm\] is the bracket's upper edge above the
/// crank axes, less its notch.
pub fn check(d: &mut Decide, t: &Tensioner, top: f64) {
    let needed = t.top_mm() + FREE_MM;
    let threads = t.place_mm[1] + t.screws_mm[1] + t.screw.major_mm + BETWEEN_MM;
    let needed = needed.max(threads);
    if needed > top {
        d.refuse(
            "swept::range",
            "drive.con_rod_length",
            format!(
                "the belt's tensioner reaches {needed:.1} mm above the crank axes, the bracket {top:.1} mm"
            ),
            format!("a con rod longer by {:.1} mm or more", needed - top),
            format!(
                "set drive.con_rod_length = \"{:.0} mm\"",
                (d.ledger.get("drive.con_rod_length").map_or(0.0, |l| l.value) + needed - top).ceil()
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A string of 64 mm under 16 N gives 1 mm under 1 N: 4 × 16 × 1 / 64 = 1 N, worked by hand.
    #[test]
    fn a_free_strand_gives_as_a_string_does() {
        let [way, force] = deflection(64.0, 16.0);
        assert!((way - 1.0).abs() < 1e-12 && (force - 4.0 * 16.0 * way / 64.0).abs() < 1e-12);
    }

    #[test]
    fn the_depth_takes_the_slack_up() {
        let (pulley, idler, centres) = (24.0, 18.0, 64.0);
        let depth = depth_for(1.0, pulley, idler, centres);
        let length = bent_by_idler(pulley, idler, centres, depth).unwrap().length_mm;
        assert!((length - 2.0 * centres - std::f64::consts::PI * pulley - 1.0).abs() < 1e-9);
    }
}
