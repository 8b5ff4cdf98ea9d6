//! Joints that this layout has beyond the common ones.

use super::{layout, lead, tensioner};
use crate::parts::base;
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
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Hole patterns.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Studs through back plate and block into the cooler plate, about the power cylinder's axis.
    pub studs: Pattern,
    /// Bracket under the back plate, in the engine's X and Y.
    pub bracket: Pattern,
}

impl Patterns {
    /// The patterns of an engine.
    pub fn of(e: &Engine, own: &TwinCrank) -> Self {
        let (y, c, s) = (layout::bracket_middle_y(e), own.centres_mm, own.bracket_screw_mm);
        let x = [-s, s, c - s, c + s];
        Self {
            studs: Pattern::square(own.block.stud, own.block.stud_mm),
            bracket: Pattern::points(e.drive.bracket_screw, x.iter().map(|x| Point2::new(*x, y)).collect()),
        }
    }
}

/// Entries of the manifest.
pub fn list(e: &Engine, own: &TwinCrank, common: &Common, p: &Patterns) -> Vec<Joint> {
    let screw = cap_screw(p.bracket.thread, layout::bracket_screw_mm(e, own));
    let bracket = joint("bracket-joint", ["back-plate", "crank-bracket"], None, screw, &p.bracket);
    let (h, t) = (&own.lead, &own.tensioner);
    let slide = joint(
        "tensioner-joint",
        ["tensioner-plate", "crank-bracket"],
        None,
        cap_screw(t.screw, t.screw_mm),
        &tensioner::pattern(t),
    );
    let clamp = joint(
        "lead-joint",
        ["lead-hub", "lead-pulley"],
        None,
        cap_screw(h.screw, h.screw_mm),
        &lead::pattern(h),
    );
    block_joints(
        e,
        &own.block,
        common,
        &p.studs,
        ("cooler-plate", e.gland.oring.is_some().then_some("gland-cap")),
        vec![bracket, clamp, slide],
    )
}

/// How the screws, studs and hose fittings of this layout are put in.
pub fn screws(e: &Engine, own: &TwinCrank, common: &Common, p: &Patterns) -> Vec<Fastening> {
    let (t, b, metal) = (own.cooler.thickness_mm, &own.block, &own.block.material);
    let mut all = of_flanges(e, common, "cooler-plate", cold_thread_mm(e, t), metal).to_vec();
    if e.gland.oring.is_some() {
        all.push(of_gland(e, common, "cooler-plate", -t, metal));
    }
    let bracket_screw = layout::bracket_screw_mm(e, own);
    let grip = own.back.thickness_mm - p.bracket.thread.counterbore_depth_mm;
    all.push(Fastening {
        joint: "bracket-joint".into(),
        threaded: "crank-bracket".into(),
        metal: metal.clone(),
        thread: Screw::cap(p.bracket.thread),
        length_mm: bracket_screw,
        grip_mm: grip,
        hole: Hole::Blind(layout::bracket_thread_mm(e, own)),
        seats: seats(&p.bracket, 0.0, 0.0, own.heights.back_low_mm + grip),
        out: vertical(1.0),
        // before the block stands on the back plate
        among: names(&["back-plate", "crank-bracket"]),
        tool: Tool::Key,
        path: "back.thickness",
    });
    let beyond = b.stud_length_mm - b.stud_depth_mm;
    all.push(Fastening {
        joint: "power-joint".into(),
        threaded: "cooler-plate".into(),
        metal: metal.clone(),
        thread: Screw::nut(b.stud),
        length_mm: b.stud_length_mm,
        grip_mm: beyond,
        hole: Hole::Blind(b.stud_depth_mm),
        seats: seats(&p.studs, own.centres_mm, 0.0, own.heights.back_low_mm),
        out: vertical(-1.0),
        among: names(&["back-plate", "crank-bracket", "power-cylinder-block"]),
        tool: Tool::Spanner,
        path: "block.stud_length",
    });
    all.push(clamp(e, own));
    let rear = layout::bracket_front_y(e) + e.drive.bracket_mm;
    all.push(tensioner::fastening(&own.tensioner, rear, e.drive.crank_z_mm, metal));
    let among = ["power-cylinder-block", "cooler-plate", "back-plate", "crank-bracket", "cold-cylinder"];
    let ports = crate::parts::block::ports(b).into_iter().zip(["lower-hose", "upper-hose"]);
    all.extend(ports.map(|([sign, far], joint)| {
        let seat = Point3::new(own.centres_mm, sign * b.half_mm, own.heights.block_low_mm + far);
        of_hose(b, joint, seat, Vector3::new(0.0, sign, 0.0), &among)
    }));
    all.extend(base::screws(e, "crank-bracket", metal));
    let line = Vector3::new(1.0, 0.0, 0.0);
    all.extend(own.channels.iter().flat_map(|c| channels::screws(c, line, metal, -t, &PLATE_HOSES)));
    all
}

/// Screws that clamp the displacer's pulley, before the flywheel is there.
fn clamp(e: &Engine, own: &TwinCrank) -> Fastening {
    let h = &own.lead;
    let y = layout::lead_y(e, own) + h.grip_mm();
    // the hub's X points up at crank angle 0, its Z along the engine's Y
    let seat = |c: &Point2| Point3::new(c.y, y, e.drive.crank_z_mm + c.x);
    let head_mm = h.screw.washer_outer_mm;
    Fastening {
        joint: "lead-joint".into(),
        threaded: "lead-pulley".into(),
        metal: "mild-steel".into(),
        thread: Screw { head_mm, ..Screw::cap(h.screw) },
        length_mm: h.screw_mm,
        grip_mm: h.grip_mm(),
        hole: if h.in_rim {
            Hole::Blind(h.pulley_flange_mm[1])
        } else {
            Hole::Through { thick: h.pulley_flange_mm[1], behind: 0.0 }
        },
        seats: lead::pattern(h).centres.iter().map(seat).collect(),
        out: Vector3::new(0.0, 1.0, 0.0),
        among: names(&[
            "lead-hub",
            "lead-pulley",
            "displacer-crank",
            "piston-crank",
            "piston-pulley",
            "crank-bracket",
            "back-plate",
        ]),
        tool: Tool::Key,
        path: "lead.screw_length",
    }
}
