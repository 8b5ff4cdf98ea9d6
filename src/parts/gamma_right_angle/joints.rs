//! Joints that this layout has beyond the common ones.

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
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Hole patterns.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Studs through head plate and block into the back plate, about the power cylinder's axis.
    pub studs: Pattern,
    /// Cooler plate on bracket, in the engine's X and Y.
    pub plate: Pattern,
    /// Back plate on bracket: the engine's Y from the power cylinder's axis, and Z from the crank axis.
    pub back: Pattern,
}

impl Patterns {
    /// The patterns of an engine.
    pub fn of(e: &Engine, own: &RightAngle) -> Self {
        let b = &own.bracket;
        let middle = b.front_y_mm + e.drive.bracket_mm / 2.0;
        let rows = [middle - b.row_mm, middle + b.row_mm];
        let four = |far: f64, rows: [f64; 2]| {
            [(-far, rows[0]), (far, rows[0]), (far, rows[1]), (-far, rows[1])].to_vec()
        };
        let plate = four(b.plate_screw_x_mm, rows).into_iter().map(|(x, y)| Point2::new(x, y));
        let back = four(b.back_screw_z_mm, rows)
            .into_iter()
            .map(|(z, y)| Point2::new(y - own.places.piston_y_mm, z));
        Self {
            studs: Pattern::square(own.block.stud, own.block.stud_mm),
            plate: Pattern::points(e.drive.bracket_screw, plate.collect()),
            back: Pattern::points(e.drive.bracket_screw, back.collect()),
        }
    }
}

/// Entries of the manifest.
pub fn list(e: &Engine, own: &RightAngle, common: &Common, p: &Patterns) -> Vec<Joint> {
    let screw = |i: usize| cap_screw(e.drive.bracket_screw, own.bracket.screw_mm[i]);
    let bracket = vec![
        joint("bracket-joint", ["cooler-plate", "crank-bracket"], None, screw(0), &p.plate),
        joint("back-plate-joint", ["back-plate", "crank-bracket"], None, screw(1), &p.back),
    ];
    block_joints(e, &own.block, common, &p.studs, ("head-plate", Some("rod-guide")), bracket)
}

/// How the screws, studs and hose fittings of this layout are put in.
pub fn screws(e: &Engine, own: &RightAngle, common: &Common, p: &Patterns) -> Vec<Fastening> {
    let (t, b, metal, places) = (own.plate_mm, &own.block, &own.block.material, &own.places);
    let mut all = of_flanges(e, common, "cooler-plate", cold_thread_mm(e, t), metal).to_vec();
    all.push(Fastening {
        among: names(&["rod-guide", "cooler-plate"]),
        ..of_gland(e, common, "cooler-plate", -t, metal)
    });
    let bracket = |joint: &str, i: usize, grip: f64| Fastening {
        joint: joint.into(),
        threaded: "crank-bracket".into(),
        metal: metal.clone(),
        thread: Screw::cap(e.drive.bracket_screw),
        length_mm: own.bracket.screw_mm[i],
        grip_mm: grip,
        hole: Hole::Blind(own.bracket.screw_mm[i] - grip + 1.0),
        seats: Vec::new(),
        out: vertical(1.0),
        among: Vec::new(),
        tool: Tool::Key,
        path: "cooler.plate_thickness",
    };
    all.push(Fastening {
        seats: seats(&p.plate, 0.0, 0.0, 0.0),
        among: names(&["cooler-plate", "crank-bracket", "cold-cylinder"]),
        ..bracket("bracket-joint", 0, t)
    });
    let lying = |x: f64, c: &Point2| Point3::new(x, places.piston_y_mm + c.x, e.drive.crank_z_mm + c.y);
    let back = own.back.thickness_mm;
    all.push(Fastening {
        seats: p.back.centres.iter().map(|c| lying(places.back_x_mm + back, c)).collect(),
        out: Vector3::new(1.0, 0.0, 0.0),
        among: names(&["back-plate", "crank-bracket", "cooler-plate", "power-cylinder-block"]),
        path: "back.thickness",
        ..bracket("back-plate-joint", 1, back)
    });
    let head = places.head_x_mm + own.head.thickness_mm;
    all.push(Fastening {
        joint: "power-joint".into(),
        threaded: "back-plate".into(),
        metal: metal.clone(),
        thread: Screw::nut(b.stud),
        length_mm: b.stud_length_mm,
        grip_mm: b.stud_length_mm - b.stud_depth_mm,
        hole: Hole::Blind(b.stud_depth_mm),
        seats: p.studs.centres.iter().map(|c| lying(head, c)).collect(),
        out: Vector3::new(1.0, 0.0, 0.0),
        among: names(&["head-plate", "power-cylinder-block", "back-plate", "cooler-plate"]),
        tool: Tool::Spanner,
        path: "block.stud_length",
    });
    // the block lies with its ports below and above
    let among = [
        "power-cylinder-block",
        "cooler-plate",
        "back-plate",
        "head-plate",
        "crank-bracket",
        "cold-cylinder",
    ];
    let ports = crate::parts::block::ports(b).into_iter().zip(["lower-hose", "upper-hose"]);
    all.extend(ports.map(|([sign, far], joint)| {
        let z = e.drive.crank_z_mm - sign * b.half_mm;
        let seat = Point3::new(places.block_x_mm + far, places.piston_y_mm, z);
        of_hose(b, joint, seat, Vector3::new(0.0, 0.0, -sign), &among)
    }));
    all.extend(base::screws(e, "crank-bracket", metal));
    let line = Vector3::new(1.0, 0.0, 0.0);
    all.extend(own.channels.iter().flat_map(|c| channels::screws(c, line, metal, -t, &PLATE_HOSES)));
    all
}
