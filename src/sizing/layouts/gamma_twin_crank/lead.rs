//! How the lead is set and locked: the displacer's pulley is no part of its crank, but clamped to a hub there by screws in
//! curved slots. Steps of a tooth of the belt are the coarse means, the slots the fine one: together they reach every lead.

use crate::catalogue::belts::BeltSection;
use crate::catalogue::threads::{Thread, thread};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::Belt;
use crate::sizing::layouts::common::hub::set_screw_mm;
use crate::sizing::layouts::common::pulley::groove_depth;

const PLAIN: &str = "common practice, no source";
/// Screws that clamp the pulley, each in its slot.
pub const SCREWS: usize = 3;
/// Step of the scale on the hub \[deg\].
pub const SCALE_DEG: f64 = 5.0;
/// Parts of the vernier on the pulley, which take as much room as one less of the scale.
pub const VERNIER_PARTS: usize = 5;
/// Way that the slots give beyond half a tooth \[deg\].
const BEYOND_TOOTH_DEG: f64 = 3.0;
/// Metal between the pulley's rim and the threads in its flange \[mm\].
const BESIDE_RIM_MM: f64 = 1.0;
/// Ring for the scale beside the washers \[mm on the radius\].
const SCALE_RING_MM: f64 = 2.5;
/// Ring for the vernier beside the hub \[mm on the radius\].
const VERNIER_RING_MM: f64 = 3.0;

/// Hub on the displacer's crank and the flange of the pulley that it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct LeadHub {
    /// Boss: diameter and length \[mm\].
    pub boss_mm: [f64; 2],
    /// Flange with the slots: diameter and thickness \[mm\].
    pub flange_mm: [f64; 2],
    /// Flange of the pulley: diameter and thickness \[mm\].
    pub pulley_flange_mm: [f64; 2],
    /// Circle of the clamping screws \[mm\].
    pub circle_mm: f64,
    /// Their threads end inside the rim, not beside it.
    pub in_rim: bool,
    /// How far the pulley can be turned on the hub to either side \[deg\].
    pub range_deg: f64,
    /// Clamping screws.
    pub screw: &'static Thread,
    /// Length of these \[mm\].
    pub screw_mm: f64,
    /// Set screws of the boss, two at a right angle.
    pub set_screw: &'static Thread,
    /// Length of these \[mm\].
    pub set_screw_mm: f64,
}

impl LeadHub {
    /// Circle of the scale on the hub \[mm\].
    pub fn scale_mm(&self) -> f64 {
        self.flange_mm[0] - SCALE_RING_MM
    }

    /// Circle of the vernier on the pulley \[mm\].
    pub fn vernier_mm(&self) -> f64 {
        self.flange_mm[0] + VERNIER_RING_MM
    }

    /// What lies between the heads of the screws and the threads: washer and flange \[mm\].
    pub fn grip_mm(&self) -> f64 {
        self.screw.washer_thickness_mm + self.flange_mm[1]
    }

    /// Length along the shaft from the pulley's teeth on \[mm\].
    pub fn long_mm(&self) -> f64 {
        self.pulley_flange_mm[1] + self.flange_mm[1] + self.boss_mm[1]
    }

    /// Step that the vernier tells apart \[deg\].
    pub fn step_deg(&self) -> f64 {
        SCALE_DEG / VERNIER_PARTS as f64
    }

    /// Greatest torque that the clamped faces carry by friction \[N m\]: screws × preload × friction × radius of their circle
    /// (uniform pressure about the screws, Shigley ch. 16, from memory).
    pub fn holds_nm(&self, preload_n: f64, friction: f64) -> f64 {
        SCREWS as f64 * preload_n * friction * 0.5e-3 * self.circle_mm
    }
}

fn known(designation: &str) -> &'static Thread {
    thread(designation).unwrap_or_else(|_| unreachable!("in the catalogue"))
}

fn set_screw(shaft: f64) -> &'static Thread {
    known(if shaft < 8.0 { "M4" } else { "M5" })
}

fn boss(shaft: f64) -> f64 {
    round_up(shaft + 3.0 * set_screw(shaft).major_mm, 1.0)
}

/// Circle of the screws for a pulley of these outside and root diameters \[mm\], and whether their threads end in the rim:
/// beside the washers where the rim is so large that it holds them, else outside of it.
fn circle(shaft: f64, [outside, root]: [f64; 2]) -> (f64, bool) {
    let t = known("M4");
    let beside_boss = round_up(boss(shaft) + t.washer_outer_mm + 1.0, 1.0);
    let around = t.major_mm + 2.0 * BESIDE_RIM_MM;
    if beside_boss + around <= root {
        return (beside_boss, true);
    }
    (beside_boss.max(round_up(outside + around, 1.0)), false)
}

/// Outside and root diameter of a pulley \[mm\].
fn rim(section: &BeltSection, teeth: usize) -> [f64; 2] {
    let outside = section.outside_diameter_mm(teeth);
    [outside, outside - 2.0 * groove_depth(section)]
}

/// Flange of the pulley for a hub flange and an outside diameter \[mm\]: room for the vernier, and for the belt's edge.
fn pulley_flange(hub: f64, outside: f64) -> f64 {
    (hub + 2.0 * VERNIER_RING_MM).max(round_up(outside + 3.0, 0.5))
}

fn hub_flange(circle: f64) -> f64 {
    round_up(circle + known("M4").washer_outer_mm + 2.0 * SCALE_RING_MM, 1.0)
}

/// Least distance of the crank axes at which the pulley's flange passes the other pulley \[mm\].
pub fn least_centres_mm(section: &BeltSection, teeth: usize, shaft: f64) -> f64 {
    let rim = rim(section, teeth);
    0.5 * pulley_flange(hub_flange(circle(shaft, rim).0), rim[0]) + 0.5 * rim[0] + 2.0
}

/// The hub for the pulleys of `belt` on a shaft of `shaft` \[mm\].
pub fn size(d: &mut Decide, section: &BeltSection, belt: &Belt, shaft: f64) -> LeadHub {
    let (screw, set) = (known("M4"), set_screw(shaft));
    let rim = rim(section, belt.pulley_teeth);
    let (circle, in_rim) = circle(shaft, rim);
    let boss = d.rule(
        "lead.hub_diameter",
        boss(shaft),
        ("shaft + 1.5 set screws of wall on either side, to the next mm", PLAIN),
        &["drive.journal_bearing"],
    );
    let long = d.rule(
        "lead.hub_length",
        round_up(1.5 * set.major_mm + 2.0, 1.0),
        ("1.5 set screws + 2 mm, to the next mm", PLAIN),
        &[],
    );
    let circle_mm = d.rule(
        "lead.screw_circle",
        circle,
        ("washers beside the boss, threads inside the rim or outside of it, to the next mm", PLAIN),
        &["lead.hub_diameter", "drive.pulley_teeth"],
    );
    let flange = d.rule(
        "lead.hub_flange_diameter",
        hub_flange(circle_mm),
        ("screw circle + washer + a ring of 2.5 mm for the scale, to the next mm", PLAIN),
        &["lead.screw_circle"],
    );
    let thick = d.rule(
        "lead.hub_flange_thickness",
        round_up(1.2 * screw.major_mm, 1.0),
        ("1.2 screws, to the next mm", PLAIN),
        &[],
    );
    let pulley = d.rule(
        "lead.pulley_flange_diameter",
        pulley_flange(flange, rim[0]),
        ("hub flange + a ring of 3 mm for the vernier, at least 1.5 mm beside the belt", PLAIN),
        &["lead.hub_flange_diameter", "drive.pulley_teeth"],
    );
    let pulley_thick = d.rule(
        "lead.pulley_flange_thickness",
        round_up(1.5 * screw.major_mm, 0.5),
        ("1.5 screws: thread in steel", PLAIN),
        &[],
    );
    let range_deg = d.rule_in(
        "lead.slot_range",
        round_up(180.0 / belt.pulley_teeth as f64 + BEYOND_TOOTH_DEG, 1.0),
        Unit::Degree,
        ("half a tooth of the belt and 3° beyond, to either side, to the next degree", PLAIN),
        &["drive.pulley_teeth"],
    );
    let most = screw.washer_thickness_mm + thick + pulley_thick - 0.5;
    let screw_mm = d.design.catalogue.cap_screw_at_most(screw, most).unwrap_or(10.0);
    d.rule(
        "lead.screw_length",
        screw_mm,
        ("the longest that ends inside the pulley's flange", PLAIN),
        &["lead.hub_flange_thickness", "lead.pulley_flange_thickness"],
    );
    LeadHub {
        boss_mm: [boss, long],
        flange_mm: [flange, thick],
        pulley_flange_mm: [pulley, pulley_thick],
        circle_mm,
        in_rim,
        range_deg,
        screw,
        screw_mm,
        set_screw: set,
        set_screw_mm: set_screw_mm(set, 0.5 * (boss - shaft)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::belts::belt_section;

    /// Three M4 of class 8.8 at 2 kN, steel on steel 0.15, on a circle of 40 mm: 3 × 2000 N × 0.15 × 20 mm = 18 N m, worked
    /// by hand.
    #[test]
    fn clamped_faces_carry_what_friction_gives() {
        let hub = LeadHub {
            boss_mm: [23.0, 10.0],
            flange_mm: [54.0, 5.0],
            pulley_flange_mm: [60.0, 6.0],
            circle_mm: 40.0,
            in_rim: false,
            range_deg: 11.0,
            screw: known("M4"),
            screw_mm: 10.0,
            set_screw: known("M5"),
            set_screw_mm: 6.0,
        };
        assert!((hub.holds_nm(2000.0, 0.15) - 18.0).abs() < 1e-9);
        assert_eq!(hub.step_deg(), 1.0);
    }

    #[test]
    fn threads_stay_clear_of_the_teeth() {
        let section = belt_section("5M").unwrap();
        for teeth in [14, 20, 24, 26, 30, 40] {
            let [outside, root] = rim(section, teeth);
            let (circle, in_rim) = circle(8.0, [outside, root]);
            assert!(
                circle >= 33.0 && if in_rim { circle + 6.0 <= root } else { circle >= outside + 6.0 },
                "{teeth}"
            );
        }
    }
}
