//! Parts: pure functions of the sized engine. One file for each part.

pub mod aids;
pub mod assembly;
mod base;
pub mod beta_coaxial;
pub mod blanks;
mod block;
mod bought;
mod channels;
mod cold_cylinder;
mod cooler_plate;
mod crankpin;
mod displacer;
mod drive;
pub mod fastening;
mod flywheel;
pub mod gamma_flat;
pub mod gamma_right_angle;
pub mod gamma_twin_crank;
pub mod geometry_rules;
mod gland;
mod guide;
mod hot_cap;
pub mod items;
pub mod joints;
pub mod kit;
pub mod part;
mod pattern;
mod piston;
mod pulley;
mod regenerator;
mod ring_seals;
mod rings;
mod rods;
pub mod setups;
mod spacer;
pub mod steps;
pub mod stock;
mod vents;

use crate::design::Workshop;
use crate::shape::Point3;
use crate::sizing::engine::{Arranged, Engine};
use blanks::Envelope;
use fastening::Fastening;
use part::{Instance, Joint, Material, Part, PartSet, Step};

/// All parts of the engine, in the order of assembly from the hot end to the crank; `crank_angle_deg` places them.
pub fn part_set(e: &Engine, shop: &Workshop, crank_angle_deg: f64) -> PartSet {
    let mut set = match &e.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::part_set(e, own, shop, crank_angle_deg),
        Arranged::GammaRightAngle(own) => gamma_right_angle::part_set(e, own, shop, crank_angle_deg),
        Arranged::GammaFlat(own) => gamma_flat::part_set(e, own, shop, crank_angle_deg),
        Arranged::BetaCoaxial(own) => beta_coaxial::part_set(e, own, shop, crank_angle_deg),
    };
    ring_seals::in_place_of_gaskets(e, &mut set);
    set.hot_end_down = matches!(e.arranged, Arranged::GammaFlat(_));
    set.steps = steps::kept(std::mem::take(&mut set.steps), &set);
    for part in &mut set.parts {
        let filled = part.material.filled;
        part.material = Material { filled, ..kit::material(&e.catalogue, &part.material.name) };
    }
    note_twins(&mut set);
    set
}

/// Parts of two names that are cut alike say so: one can be cut with the other.
fn note_twins(set: &mut PartSet) {
    let alike = |a: &Part, b: &Part| a.is_drawn() && a.recipe == b.recipe && a.material == b.material;
    for i in 0..set.parts.len() {
        let twin = (0..set.parts.len()).find(|j| *j != i && alike(&set.parts[i], &set.parts[*j]));
        let told =
            twin.and_then(|j| Some((set.parts[j].title.to_lowercase(), set.sheet_of(&set.parts[j].name)?)));
        if let Some((title, sheet)) = told {
            set.parts[i].notes.push(format!("The same part as the {title} (sheet {sheet}): cut both alike."));
        }
    }
}

/// Height, width and depth over all \[mm\], from the largest standing parts and the reach of the cranks.
pub fn over_all_mm(e: &Engine) -> [f64; 3] {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::layout::over_all_mm(e, own),
        Arranged::GammaRightAngle(_) | Arranged::GammaFlat(_) | Arranged::BetaCoaxial(_) => {
            crate::sizing::layouts::sides_mm(e)
        }
    }
}

/// Dimension of the engine that decides a feature, so that an error can point at the design behind it.
pub fn blame_path(part: &str, feature: &str) -> Option<&'static str> {
    let path = match (part, feature) {
        (
            _,
            "flange-hole"
            | "bolt-hole"
            | "lower-flange-hole"
            | "access-hole"
            | "upper-flange-thread"
            | "cold-flange-thread",
        ) => "joints.hot_screws",
        (_, "stud-hole" | "stud-thread") => "block.stud_place",
        ("power-cylinder-block", "lower-hose-port" | "upper-hose-port") => "block.length",
        ("power-cylinder-block", _) => "block.half_side",
        ("cooler-plate", "transfer-port" | "transfer-mouth" | "transfer-drilling" | "transfer-riser") => {
            "cooler.port_width"
        }
        ("power-cylinder", _) => "piston.length",
        ("cooler", "gas-hole") => "cooler.hole_diameter",
        ("cooler", _) => "cold_end.cylinder_length",
        ("crankcase" | "front-plate" | "rear-plate", _) => "joints.power_screw",
        ("crank-web-inner" | "crank-web-outer", _) => "drive.crankpin_bearing",
        ("piston", "yoke-thread" | "rod-bore") => "piston.crown",
        ("piston-yoke", _) => "drive.small_end_bearing",
        ("cooler-plate", "water-channel") => "cooler.plate_channels",
        ("head-plate", _) => "head.thickness",
        ("rod-guide", _) => "guide.length",
        ("cooler-plate", _) => "cooler.plate_thickness",
        ("back-plate", _) => "piston.bore",
        ("crank-bracket", _) => "drive.journal_bearing",
        ("piston", _) => "piston.boss_height",
        ("clevis" | "con-rod", _) => "drive.small_end_bearing",
        ("displacer-crank" | "piston-crank" | "crank", _) => "drive.crankpin_bearing",
        ("timing-pulley", _) => "drive.pulley_teeth",
        ("tensioner-plate" | "tensioner-roller" | "tensioner-spacer", _) => "drive.small_end_bearing",
        ("lead-pulley" | "lead-hub", _) => "lead.screw_circle",
        ("output-pulley", _) => "load.speed_ratio",
        ("base-plate" | "base-foot", _) => "flywheel.diameter",
        ("flywheel", _) => "flywheel.diameter",
        ("flywheel-hub", _) => "drive.journal_bearing",
        ("displacer-base", _) => "displacer.rod_diameter",
        _ => return None,
    };
    Some(path)
}

/// What a layout with a piston rod lists beside the parts that it makes.
struct Lists {
    gaskets: Vec<Part>,
    bought: Vec<Part>,
    joints: Vec<Joint>,
    screws: Vec<Fastening>,
    instances: Vec<Instance>,
    steps: Vec<Step>,
}

/// Its whole set: the rings stand before the piston's rod, what every such engine has follows the layout's own parts.
fn with_piston_rod(e: &Engine, mut parts: Vec<Part>, lists: Lists) -> PartSet {
    let at_rod = parts.iter().position(|part| part.name == "piston-rod").unwrap_or(parts.len());
    parts.splice(at_rod..at_rod, rings::parts(e));
    parts.extend(flywheel::parts(e));
    parts.extend(base::parts(e));
    parts.extend(regenerator::parts(e));
    parts.extend(lists.gaskets);
    parts.extend(lists.bought);
    let threads = [("displacer-rod", "clevis"), ("piston-rod", "clevis"), ("piston-rod", "piston")];
    let mut screws = lists.screws;
    screws.extend(flywheel::fastening(e, &lists.instances));
    screws.extend(crankpin::fastenings(e, &parts, &lists.instances));
    PartSet {
        parts,
        joints: lists.joints,
        screws,
        instances: lists.instances,
        overlaps: threads.into_iter().map(|(a, b)| screwed(a, b)).chain(rings::overlap(e)).collect(),
        steps: lists.steps,
        hot_end_down: false,
    }
}

fn with_blank(e: &Engine, mut part: Part, envelope: Envelope, shop: &Workshop) -> Part {
    blanks::fit(&mut part, envelope, &e.catalogue, shop);
    part
}

fn piston_envelope(e: &Engine) -> Envelope {
    let r = e.piston.diameter_mm / 2.0;
    Envelope { low: Point3::new(-r, -r, 0.0), high: Point3::new(r, r, e.piston.length_mm), turned: true }
}

fn crank_envelope(e: &Engine, throw: f64, journal: f64, rods: usize) -> Envelope {
    let d = &e.drive;
    let [r, tip] = d.web_r_mm;
    let pin = rods as f64 * (d.side_gap_mm + d.con_rod_thickness_mm);
    let wide = r.max(tip);
    Envelope {
        low: Point3::new(-r, -wide, -journal),
        high: Point3::new(throw + tip, wide, d.web_mm + pin),
        turned: false,
    }
}

/// A pair that overlaps on purpose: an outside thread in a tapped hole.
fn screwed(a: &str, b: &str) -> ([String; 2], String) {
    let why = "outside thread drawn at its major diameter in a hole drawn at the tapping drill";
    ([a.to_owned(), b.to_owned()], why.to_owned())
}
