//! Joints that this layout has beyond the common ones.

use super::cooler::{PORTS, port_angles_deg, port_heights_mm};
use super::end_plates::seal_thread_mm;
use crate::parts::base;
use crate::parts::fastening::{Fastening, Hole, Screw, Tool, names, seats, vertical};
use crate::parts::flywheel;
use crate::parts::joints::{Patterns as Common, cap_screw, hot, joint, round};
use crate::parts::part::{Joint, Part};
use crate::parts::pattern::Pattern;
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::engine::BoltCircle;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;
use crate::sizing::layouts::beta_coaxial::cooler::thread_depths_mm;

/// Hole patterns.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Power cylinder on crankcase, in the engine's X and Y.
    pub cylinder: Pattern,
    /// End plate on crankcase, about the crank axis.
    pub plate: Pattern,
    /// Seal cap on the rear plate.
    pub seal: Pattern,
    /// Yoke under the piston, in the engine's X and Y.
    pub yoke: Pattern,
}

impl Patterns {
    /// The patterns of an engine.
    pub fn of(_: &Engine, own: &BetaCoaxial) -> Self {
        let [x, y] = own.yoke.screw_xy_mm;
        let four = [(x, y), (-x, y), (-x, -y), (x, -y)].map(|(x, y)| Point2::new(x, y));
        Self {
            cylinder: Pattern::circle(&own.cylinder.screws),
            plate: Pattern::circle(&own.case.plate_screws),
            seal: Pattern::circle(&own.case.seal.screws),
            yoke: Pattern::points(own.yoke.screw, four.to_vec()),
        }
    }
}

/// All gaskets.
pub fn gaskets(e: &Engine, own: &BetaCoaxial, common: &Common, p: &Patterns) -> Vec<Part> {
    let (j, c) = (&e.joints, &own.case);
    let flange = |bore: f64| ([e.cold.flange_diameter_mm, bore], "cold_end.flange_diameter");
    let foot = ([own.cylinder.flange_mm[0], c.opening_mm], "cylinder.flange_diameter");
    let plate = ([c.plate_mm[0], c.bore_mm], "case.plate_diameter");
    vec![
        hot(e, flange(own.head.low_bore_mm[0]), &common.hot),
        round(
            e,
            ["cooler-gasket", "Cooler gasket", &j.cold_sheet],
            flange(own.cooler.manifold_mm[0]),
            &common.cold,
        )
        .note("Seals gas and water from each other: the land between them is 3 mm wide."),
        round(e, ["cylinder-gasket", "Power cylinder gasket", &j.cold_sheet], foot, &p.cylinder),
        round(e, ["end-plate-gasket", "End plate gasket", &j.cold_sheet], plate, &p.plate).times(2),
    ]
}

/// Entries of the manifest.
pub fn list(e: &Engine, own: &BetaCoaxial, common: &Common, p: &Patterns) -> Vec<Joint> {
    let (j, c) = (&e.joints, &own.case);
    let on = |pattern: &Pattern, long: f64| cap_screw(pattern.thread, long);
    let plates = |name: &str, plate: &str| {
        let screw = on(&p.plate, c.plate_screws.screw_mm);
        joint(name, ["crankcase", plate], Some("end-plate-gasket"), screw, &p.plate)
    };
    let hot_screw = on(&common.hot, j.hot.screw_mm);
    let cold = on(&common.cold, j.cold.screw_mm);
    let foot = on(&p.cylinder, own.cylinder.screws.screw_mm);
    let mut all = vec![
        joint("hot-joint", ["hot-cap", "cooler"], Some("hot-cap-gasket"), hot_screw, &common.hot),
        joint("cold-joint", ["cooler", "power-cylinder"], Some("cooler-gasket"), cold, &common.cold),
        joint("case-joint", ["power-cylinder", "crankcase"], Some("cylinder-gasket"), foot, &p.cylinder),
        plates("front-plate-joint", "front-plate"),
        plates("rear-plate-joint", "rear-plate"),
        joint("yoke-joint", ["piston", "piston-yoke"], None, on(&p.yoke, own.yoke.screw_mm), &p.yoke),
        joint("seal-joint", ["rear-plate", "seal-cap"], None, on(&p.seal, c.seal.screws.screw_mm), &p.seal),
    ];
    all.extend(flywheel::joint(e));
    all.extend(base::joints(e, "crankcase"));
    all
}

/// Thread of a hose fitting below its hexagon \[mm\] (common practice, no source).
const FITTING_MM: f64 = 8.0;

/// Screws through a flange into a part, with full thread 1 mm deeper than they reach.
fn into(joint: &str, threaded: &str, metal: &str, bolts: &BoltCircle, grip_mm: f64) -> Fastening {
    Fastening {
        joint: joint.into(),
        threaded: threaded.into(),
        metal: metal.into(),
        thread: Screw::cap(bolts.thread),
        length_mm: bolts.screw_mm,
        grip_mm,
        hole: Hole::Blind(bolts.screw_mm - grip_mm + 1.0),
        seats: Vec::new(),
        out: vertical(1.0),
        among: names(&[threaded]),
        tool: Tool::Key,
        path: "joints.power_screw",
    }
}

/// Hose fittings in the cooler's jacket.
fn hoses(e: &Engine, own: &BetaCoaxial) -> [Fastening; 2] {
    let (c, r) = (&own.cooler, e.cold.flange_diameter_mm / 2.0);
    let one = |i: usize| {
        let (sin, cos) = port_angles_deg(e)[i].to_radians().sin_cos();
        let out = Vector3::new(cos, sin, 0.0);
        let low = Point3::new(0.0, 0.0, e.stack.cold_low_mm + port_heights_mm(own)[i]);
        Fastening {
            joint: PORTS[i].replace("-port", ""),
            threaded: "cooler".into(),
            metal: e.cold.material.clone(),
            thread: Screw::fitting(c.hose),
            length_mm: FITTING_MM,
            grip_mm: 0.0,
            hole: Hole::Through { thick: r - c.jacket_r_mm[1], behind: c.jacket_r_mm[1] - c.jacket_r_mm[0] },
            seats: vec![low + out * r],
            out,
            among: names(&["cooler", "hot-cap", "power-cylinder"]),
            tool: Tool::Fitting,
            path: "joints.hot_circle",
        }
    };
    [one(0), one(1)]
}

/// How the screws and hose fittings of this layout are put in; the piston's crown stands at `crown` \[mm\].
pub fn screws(e: &Engine, own: &BetaCoaxial, common: &Common, p: &Patterns, crown: f64) -> Vec<Fastening> {
    let (s, j, c, y) = (&e.stack, &e.joints, &own.case, &own.yoke);
    let (cold, case) = (&e.cold.material, &own.case.material);
    let [upper, lower] = thread_depths_mm(j, &e.cold, e.hot_cap.flange_mm);
    let foot = &own.cylinder;
    let rear = c.rear_mm(j.gasket_mm);
    let around = |pattern: &Pattern, y: f64| -> Vec<Point3> {
        pattern.centres.iter().map(|at| Point3::new(at.x, y, e.drive.crank_z_mm + at.y)).collect()
    };
    let along = |sign: f64| Vector3::new(0.0, sign, 0.0);
    let plate = |name: &str, plate: &str, sign: f64| Fastening {
        seats: around(&p.plate, sign * rear),
        out: along(sign),
        among: names(&[plate, "crankcase", "seal-cap", "power-cylinder"]),
        ..into(name, "crankcase", case, &c.plate_screws, c.plate_mm[1] + j.gasket_mm)
    };
    let bar = BoltCircle { screw_mm: y.screw_mm, thread: y.screw, ..e.gland.screws.clone() };
    let mut all = vec![
        Fastening {
            hole: Hole::Blind(upper),
            seats: seats(&common.hot, 0.0, 0.0, s.cap_low_mm + e.hot_cap.flange_mm),
            among: names(&["hot-cap", "cooler"]),
            path: "joints.hot_screw_length",
            ..into("hot-joint", "cooler", cold, &j.hot, e.hot_cap.flange_mm + j.hot_gasket_mm)
        },
        Fastening {
            hole: Hole::Blind(lower),
            seats: seats(&common.cold, 0.0, 0.0, -e.cold.flange_mm),
            out: vertical(-1.0),
            among: names(&["power-cylinder", "cooler", "crankcase"]),
            path: "joints.cold_screw_length",
            ..into("cold-joint", "cooler", cold, &j.cold, e.cold.flange_mm + j.gasket_mm)
        },
        Fastening {
            seats: seats(&p.cylinder, 0.0, 0.0, own.heights.case_top_mm + j.gasket_mm + foot.flange_mm[1]),
            among: names(&["power-cylinder", "crankcase"]),
            ..into("case-joint", "crankcase", case, &foot.screws, foot.flange_mm[1] + j.gasket_mm)
        },
        plate("front-plate-joint", "front-plate", -1.0),
        plate("rear-plate-joint", "rear-plate", 1.0),
        Fastening {
            seats: seats(&p.yoke, 0.0, 0.0, crown - e.piston.crown_mm - y.bar_mm),
            out: vertical(-1.0),
            among: names(&["piston", "piston-yoke"]),
            path: "yoke.bar",
            ..into("yoke-joint", "piston", &e.piston.material, &bar, y.bar_mm)
        },
        Fastening {
            hole: Hole::Blind(seal_thread_mm(own)),
            seats: around(&p.seal, rear + c.seal.cap_mm[1]),
            out: along(1.0),
            among: names(&["seal-cap", "rear-plate"]),
            path: "seal.cap_circle",
            ..into("seal-joint", "rear-plate", case, &c.seal.screws, c.seal.cap_mm[1])
        },
    ];
    all.extend(hoses(e, own));
    all.extend(base::screws(e, "crankcase", case));
    all
}
