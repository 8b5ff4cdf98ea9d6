//! Joints that this layout has beyond the common ones.

use crate::parts::channels::{self, PLATE_HOSES};
use crate::parts::fastening::{
    Fastening, Hole, Screw, Tool, names, of_flanges, of_gland, of_hose, seats, vertical,
};
use crate::parts::gland::cold_thread_mm;
use crate::parts::joints::{Patterns as Common, block_joints, cap_screw, joint};
use crate::parts::part::Joint;
use crate::parts::pattern::Pattern;
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_flat::Flat;

/// Hole patterns.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Studs through back plate and block into the cooler plate, about the power cylinder's axis.
    pub studs: Pattern,
    /// Bracket on the cooler plate, in the engine's X and Y.
    pub bracket: Pattern,
}

impl Patterns {
    /// The patterns of an engine.
    pub fn of(e: &Engine, own: &Flat) -> Self {
        let (b, middle) = (&own.bracket, own.bracket.front_y_mm + e.drive.bracket_mm / 2.0);
        let (x, rows) = (b.screw_x_mm, [middle - b.row_mm, middle + b.row_mm]);
        let feet = [(-x, rows[0]), (x, rows[0]), (x, rows[1]), (-x, rows[1])];
        Self {
            studs: Pattern::square(own.block.stud, own.block.stud_mm),
            bracket: Pattern::points(b.screw, feet.iter().map(|(x, y)| Point2::new(*x, *y)).collect()),
        }
    }
}

/// Entries of the manifest.
pub fn list(e: &Engine, own: &Flat, common: &Common, p: &Patterns) -> Vec<Joint> {
    let screw = cap_screw(own.bracket.screw, own.bracket.screw_mm);
    let bracket = joint("bracket-joint", ["cooler-plate", "crank-bracket"], None, screw, &p.bracket);
    block_joints(e, &own.block, common, &p.studs, ("cooler-plate", Some("rod-guide")), vec![bracket])
}

/// How the screws, studs and hose fittings of this layout are put in.
pub fn screws(e: &Engine, own: &Flat, common: &Common, p: &Patterns) -> Vec<Fastening> {
    let (t, b, metal, c) = (own.cooler.thickness_mm, &own.block, &own.block.material, own.centres_mm);
    let mut all = of_flanges(e, common, "cooler-plate", cold_thread_mm(e, t), metal).to_vec();
    all.push(Fastening {
        among: names(&["rod-guide", "cooler-plate"]),
        ..of_gland(e, common, "cooler-plate", -t, metal)
    });
    all.push(Fastening {
        joint: "bracket-joint".into(),
        threaded: "cooler-plate".into(),
        metal: metal.clone(),
        thread: Screw::cap(own.bracket.screw),
        length_mm: own.bracket.screw_mm,
        grip_mm: own.bracket.foot_mm,
        hole: Hole::Blind(own.bracket.thread_mm),
        seats: seats(&p.bracket, 0.0, 0.0, -t - own.bracket.foot_mm),
        out: vertical(-1.0),
        // before the block stands beside it
        among: names(&["crank-bracket", "cooler-plate", "rod-guide"]),
        tool: Tool::Key,
        path: "bracket.screw_length",
    });
    all.push(Fastening {
        joint: "power-joint".into(),
        threaded: "cooler-plate".into(),
        metal: metal.clone(),
        thread: Screw::nut(b.stud),
        length_mm: b.stud_length_mm,
        grip_mm: b.stud_length_mm - b.stud_depth_mm,
        hole: Hole::Blind(b.stud_depth_mm),
        seats: seats(&p.studs, 0.0, c, own.heights.back_low_mm),
        out: vertical(-1.0),
        among: names(&["back-plate", "power-cylinder-block", "crank-bracket", "cooler-plate"]),
        tool: Tool::Spanner,
        path: "block.stud_length",
    });
    // the block is turned so that its Y is the engine's -X
    let among = ["power-cylinder-block", "cooler-plate", "back-plate", "crank-bracket", "cold-cylinder"];
    let ports = crate::parts::block::ports(b).into_iter().zip(["lower-hose", "upper-hose"]);
    all.extend(ports.map(|([sign, far], joint)| {
        let seat = Point3::new(-sign * b.half_mm, c, own.heights.block_low_mm + far);
        of_hose(b, joint, seat, Vector3::new(-sign, 0.0, 0.0), &among)
    }));
    let line = Vector3::new(0.0, 1.0, 0.0);
    all.extend(own.channels.iter().flat_map(|c| channels::screws(c, line, metal, -t, &PLATE_HOSES)));
    all
}
