//! Joints of the engine: each makes its holes in both parts, the gasket between them and its entry in the lists.

use super::kit::{fit, made, through};
use super::part::{Joint, Part};
use super::pattern::Pattern;
use crate::catalogue::gaskets::gasket_sheet;
use crate::shape::Point2;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Recipe, Tag};
use crate::sizing::engine::Engine;

/// How much a gasket's opening stays back from the bore, on diameter \[mm\]; common practice, no source.
const OPENING_MM: f64 = 1.0;

/// Hole patterns of all joints.
#[derive(Clone, Debug)]
pub struct Patterns {
    /// Hot cap on cold cylinder.
    pub hot: Pattern,
    /// Cold cylinder on cooler plate.
    pub cold: Pattern,
    /// Studs through back plate and block into the cooler plate, about the power cylinder's axis.
    pub studs: Pattern,
    /// Gland cap on cooler plate.
    pub gland: Pattern,
    /// Bracket under the back plate, in the engine's X and Y.
    pub bracket: Pattern,
}

impl Patterns {
    /// All patterns of an engine.
    pub fn of(e: &Engine) -> Self {
        let d = &e.drive;
        let y = super::layout::bracket_middle_y(e);
        let x = [-9.0, 9.0, d.centres_mm - 9.0, d.centres_mm + 9.0];
        Self {
            hot: Pattern::circle(&e.joints.hot),
            cold: Pattern::circle(&e.joints.cold),
            studs: Pattern::square(e.block.stud, e.block.stud_mm),
            gland: Pattern::circle(&e.cooler.gland_screws),
            bracket: Pattern::points(d.bracket_screw, x.iter().map(|x| Point2::new(*x, y)).collect()),
        }
    }
}

/// A gasket: outline and openings, cut from sheet of the thickness that it has when tightened.
fn gasket(
    name: &str,
    title: &str,
    sheet: &str,
    thickness: f64,
    outline: Outline,
    features: Vec<Feature>,
) -> Part {
    let tag = Tag::new("thickness").origin("joints.gasket_thickness");
    let recipe = Recipe { body: Body::Plate { outline, thickness, tag }, features };
    let limit = gasket_sheet(sheet)
        .map(|s| format!("Sheet for up to {:.0} °C in air.", s.service_limit_c))
        .unwrap_or_default();
    let stuff = gasket_sheet(sheet).map_or(sheet, |s| s.material.as_str());
    made(name, title, stuff, recipe)
        .flat()
        .note("Thickness as tightened; buy the sheet one step thicker where it yields.")
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

/// Gasket of a round flange.
fn round(e: &Engine, name: &str, title: &str, sheet: &str, holes: &Pattern) -> Part {
    let t = e.joints.gasket_mm;
    let outline = Outline::Disc {
        centre: Point2::new(0.0, 0.0),
        diameter: e.cold.flange_diameter_mm,
        tag: Tag::new("outside-diameter").origin("cold_end.flange_diameter"),
    };
    let mut features = vec![opening("opening", 0.0, 0.0, e.displacer.bore_mm, t)];
    features.extend(holes.clearance("bolt-hole", 0.0, 0.0, t, t));
    gasket(name, title, sheet, t, outline, features)
}

/// Gasket of the square block, about the power cylinder's axis.
fn square(e: &Engine, name: &str, title: &str, holes: &Pattern) -> Part {
    let t = e.joints.gasket_mm;
    let mut features = vec![opening("opening", 0.0, 0.0, e.piston.bore_mm, t)];
    features.extend(holes.clearance("stud-hole", 0.0, 0.0, t, t));
    gasket(name, title, &e.joints.cold_sheet, t, super::block::outline(e), features)
}

/// All gaskets.
pub fn gaskets(e: &Engine, p: &Patterns) -> Vec<Part> {
    vec![
        round(e, "hot-cap-gasket", "Hot cap gasket", &e.joints.hot_sheet, &p.hot)
            .caution("Hot joint: no silicone or PTFE here. Overheated PTFE gives off harmful fumes."),
        round(e, "cold-cylinder-gasket", "Cold cylinder gasket", &e.joints.cold_sheet, &p.cold),
        square(e, "power-cylinder-gasket", "Power cylinder gasket", &p.studs),
        square(e, "jacket-gasket", "Jacket gasket", &p.studs),
    ]
}

/// Entries of the manifest.
pub fn list(e: &Engine, p: &Patterns) -> Vec<Joint> {
    let cap = |thread: &str, length: f64| format!("ISO 4762 {thread}x{length}");
    let joint = |name: &str, a: &str, b: &str, gasket: Option<&str>, screw: String, holes: &Pattern| Joint {
        name: name.to_owned(),
        parts: [a.to_owned(), b.to_owned()],
        gasket: gasket.map(str::to_owned),
        screw,
        holes: holes.list(),
    };
    let stud = format!("stud {} x {} mm", e.block.stud.designation, e.block.stud_length_mm);
    let hot = cap(&e.joints.hot.thread.designation, e.joints.hot.screw_mm);
    let cold = cap(&e.joints.cold.thread.designation, e.joints.cold.screw_mm);
    let gland = cap(&p.gland.thread.designation, e.cooler.gland_screws.screw_mm);
    let bracket = cap(&p.bracket.thread.designation, super::layout::bracket_screw_mm(e));
    vec![
        joint("hot-joint", "hot-cap", "cold-cylinder", Some("hot-cap-gasket"), hot, &p.hot),
        joint("cold-joint", "cold-cylinder", "cooler-plate", Some("cold-cylinder-gasket"), cold, &p.cold),
        joint(
            "power-joint",
            "cooler-plate",
            "power-cylinder-block",
            Some("power-cylinder-gasket"),
            stud.clone(),
            &p.studs,
        ),
        joint("jacket-joint", "power-cylinder-block", "back-plate", Some("jacket-gasket"), stud, &p.studs),
        joint("gland-joint", "cooler-plate", "gland-cap", None, gland, &p.gland),
        joint("bracket-joint", "back-plate", "crank-bracket", None, bracket, &p.bracket),
    ]
}

/// Cap that holds the rod's O-ring in its recess.
pub fn gland_cap(e: &Engine, p: &Patterns) -> Part {
    let [diameter, t] = e.cooler.gland_cap_mm;
    let outline = Outline::Disc {
        centre: Point2::new(0.0, 0.0),
        diameter,
        tag: Tag::new("outside-diameter").origin("cooler.gland_cap_diameter"),
    };
    let down = super::kit::along(0.0, 0.0, -1.0);
    let hole = e.displacer.rod_mm + 0.2;
    let centre = super::kit::lift(Point2::new(0.0, 0.0), t);
    let mut features = vec![through(centre, down, hole, t, fit("rod-hole", hole, "H9"))];
    features.extend(p.gland.clearance("screw-hole", 0.0, 0.0, t, t));
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag: Tag::new("thickness") }, features };
    made("gland-cap", "Gland cap", &e.cooler_material(), recipe)
        .flat()
        .note("Break the edge of the rod hole 0.2 mm so that it does not cut the rod's O-ring.")
}
