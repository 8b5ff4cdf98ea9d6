//! Joints of the engine: each makes its holes in both parts, the gasket between them and its entry in the lists.

use super::kit::{made, through};
use super::part::{Joint, Part};
use super::pattern::Pattern;
use super::{base, flywheel};
use crate::catalogue::Catalogue;
use crate::catalogue::threads::Thread;
use crate::shape::Point2;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Recipe, Tag};
use crate::sizing::engine::{Block, Engine};
use crate::sizing::verdict::hot_flange_k;

/// How much a gasket's opening stays back from the bore, on diameter \[mm\]; common practice, no source.
const OPENING_MM: f64 = 1.0;
/// 0 °C \[K\].
const ICE_K: f64 = 273.15;
/// Where the thickness of all gaskets but the hot one is decided.
const COLD_THICKNESS: &str = "joints.gasket_thickness";

/// Hole patterns of the joints that every layout has.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Hot cap on cold cylinder.
    pub hot: Pattern,
    /// Cold cylinder on cooler plate.
    pub cold: Pattern,
    /// Gland cap on cooler plate.
    pub gland: Pattern,
}

impl Patterns {
    /// The patterns of an engine.
    pub fn of(e: &Engine) -> Self {
        Self {
            hot: Pattern::circle(&e.joints.hot),
            cold: Pattern::circle(&e.joints.cold),
            gland: Pattern::circle(&e.gland.screws),
        }
    }
}

/// A gasket: outline and openings, cut from sheet of the thickness that it has when tightened.
fn gasket(
    book: &Catalogue,
    name: &str,
    title: &str,
    sheet: &str,
    (thickness, origin): (f64, &str),
    outline: Outline,
    features: Vec<Feature>,
) -> Part {
    let tag = Tag::new("thickness").origin(origin);
    let recipe = Recipe { body: Body::Plate { outline, thickness, tag }, features };
    let found = book.gasket_sheet(sheet);
    let limit = found
        .as_ref()
        .map(|s| format!("Sheet for up to {:.0} °C in air.", s.service_limit_c))
        .unwrap_or_default();
    let stuff = found.as_ref().map_or(sheet, |s| s.material.as_str());
    made(name, title, stuff, recipe)
        .flat()
        .note(&found.as_ref().map_or_else(
            |_| "Thickness as tightened.".to_owned(),
            |s| {
                format!(
                    "t is the thickness as tightened in the joint: buy sheet of {} mm, it yields.",
                    s.sheet_for_mm(thickness)
                )
            },
        ))
        .note(&limit)
}

/// Opening for a bore of `diameter` \[mm\] at (x, y).
fn opening(name: &str, x: f64, y: f64, diameter: f64, t: f64) -> Feature {
    through(
        super::kit::lift(Point2::new(x, y), t),
        super::kit::along(0.0, 0.0, -1.0),
        diameter + OPENING_MM,
        t,
        Tag::new(name),
    )
}

/// Gasket of the hot cap: outside diameter and bore \[mm\], and the dimension that decides the first.
pub fn hot(e: &Engine, wide: ([f64; 2], &str), holes: &Pattern) -> Part {
    let t = e.joints.hot_gasket_mm;
    let names = ["hot-cap-gasket", "Hot cap gasket", &e.joints.hot_sheet];
    let flange_k = hot_flange_k(e, e.hot_cap.temperature_k, e.cold.temperature_k);
    round_of(e, names, (t, "joints.hot_gasket_thickness"), wide, holes)
        .note(&format!(
            "The joint reaches some {:.0} °C where the wall of the cap has {:.0} °C: it is the joint that the sheet must stand.",
            flange_k - ICE_K,
            e.hot_cap.temperature_k - ICE_K
        ))
        .caution("Hot joint: no silicone or PTFE here. Overheated PTFE gives off harmful fumes.")
}

/// Gasket of a cold round flange: name, title and sheet; outside diameter and bore \[mm\], and the dimension that decides
/// the first.
pub fn round(e: &Engine, names: [&str; 3], wide: ([f64; 2], &str), holes: &Pattern) -> Part {
    round_of(e, names, (e.joints.gasket_mm, COLD_THICKNESS), wide, holes)
}

fn round_of(
    e: &Engine,
    [name, title, sheet]: [&str; 3],
    thick: (f64, &str),
    ([diameter, bore], origin): ([f64; 2], &str),
    holes: &Pattern,
) -> Part {
    let t = thick.0;
    let outline = Outline::Disc {
        centre: Point2::new(0.0, 0.0),
        diameter,
        tag: Tag::new("outside-diameter").origin(origin),
    };
    let mut features = vec![opening("opening", 0.0, 0.0, bore, t)];
    features.extend(holes.clearance("bolt-hole", 0.0, 0.0, t, t));
    gasket(&e.catalogue, name, title, sheet, thick, outline, features)
}

/// Gasket of the square block, about the power cylinder's axis.
pub fn square(e: &Engine, block: &Block, name: &str, title: &str, studs: &Pattern) -> Part {
    let t = e.joints.gasket_mm;
    let mut features = vec![opening("opening", 0.0, 0.0, e.piston.bore_mm, t)];
    features.extend(studs.clearance("stud-hole", 0.0, 0.0, t, t));
    let thick = (t, COLD_THICKNESS);
    gasket(&e.catalogue, name, title, &e.joints.cold_sheet, thick, super::block::outline(block), features)
}

/// Gaskets of the displacer's cylinder.
pub fn flange_gaskets(e: &Engine, p: &Patterns) -> [Part; 2] {
    let wide = ([e.cold.flange_diameter_mm, e.displacer.bore_mm], "cold_end.flange_diameter");
    [
        hot(e, wide, &p.hot),
        round(e, ["cold-cylinder-gasket", "Cold cylinder gasket", &e.joints.cold_sheet], wide, &p.cold),
    ]
}

/// Gaskets of an engine whose power cylinder is a block on studs.
pub fn gaskets(e: &Engine, block: &Block, p: &Patterns, studs: &Pattern) -> Vec<Part> {
    let mut all = flange_gaskets(e, p).to_vec();
    all.push(square(e, block, "power-cylinder-gasket", "Power cylinder gasket", studs));
    all.push(square(e, block, "jacket-gasket", "Jacket gasket", studs));
    all
}

/// Entries of such an engine: the block lies against `head`, what holds the rod's gland is `holder`, if anything does; `own` are the
/// joints of its bracket.
pub fn block_joints(
    e: &Engine,
    block: &Block,
    p: &Patterns,
    studs: &Pattern,
    (head, holder): (&str, Option<&str>),
    own: Vec<Joint>,
) -> Vec<Joint> {
    let stud = format!("stud {} x {} mm", block.stud.designation, block.stud_length_mm);
    let gland = |holder| {
        let screw = cap_screw(p.gland.thread, e.gland.screws.screw_mm);
        joint("gland-joint", ["cooler-plate", holder], None, screw, &p.gland)
    };
    let body = "power-cylinder-block";
    let mut all = flange_joints(e, p).to_vec();
    all.extend([
        joint("power-joint", [head, body], Some("power-cylinder-gasket"), stud.clone(), studs),
        joint("jacket-joint", [body, "back-plate"], Some("jacket-gasket"), stud, studs),
    ]);
    all.extend(holder.map(gland));
    all.extend(own);
    all.extend(flywheel::joint(e));
    all.extend(base::joints(e, "crank-bracket"));
    all
}

/// Designation of a cap screw.
pub fn cap_screw(thread: &Thread, length: f64) -> String {
    format!("ISO 4762 {}x{length}", thread.designation)
}

/// One entry of the manifest.
pub fn joint(name: &str, parts: [&str; 2], gasket: Option<&str>, screw: String, holes: &Pattern) -> Joint {
    Joint {
        name: name.to_owned(),
        parts: parts.map(str::to_owned),
        gasket: gasket.map(str::to_owned),
        screw,
        holes: holes.list(),
    }
}

/// Entries of the joints of the displacer's cylinder.
pub fn flange_joints(e: &Engine, p: &Patterns) -> [Joint; 2] {
    let (hot, cold) = (&e.joints.hot, &e.joints.cold);
    let (hot, cold) = (cap_screw(hot.thread, hot.screw_mm), cap_screw(cold.thread, cold.screw_mm));
    [
        joint("hot-joint", ["hot-cap", "cold-cylinder"], Some("hot-cap-gasket"), hot, &p.hot),
        joint("cold-joint", ["cold-cylinder", "cooler-plate"], Some("cold-cylinder-gasket"), cold, &p.cold),
    ]
}
