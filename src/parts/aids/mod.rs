//! Aids of the workshop: what is printed to make or try the engine and is no part of it. Pure functions of the parts.

mod jig;
mod knife;
mod register;
mod trial;

use super::part::{Material, Part, PartSet};
use crate::design::Design;
use crate::shape::loops::Loop;
use crate::shape::recipe::{End, Feature, Recipe, Tag};
use crate::shape::{Point3, Vector3};

/// What an aid is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AidKind {
    /// A plate along which a gasket is cut by hand.
    KnifeTemplate,
    /// A plate that guides a drill.
    DrillingJig,
    /// A part of the engine, printed to try the mechanism cold and without pressure.
    TrialPrint,
}

impl AidKind {
    /// What it is, in words.
    pub fn words(self) -> &'static str {
        match self {
            AidKind::KnifeTemplate => "knife template",
            AidKind::DrillingJig => "drilling jig",
            AidKind::TrialPrint => "trial print",
        }
    }
}

/// An aid.
#[derive(Clone, Debug, PartialEq)]
pub struct Aid {
    /// What it is for.
    pub kind: AidKind,
    /// Names of the parts that it serves.
    pub of: Vec<String>,
    /// Name, title, recipe, notes and cautions, in the place of a part. A trial print bears the part's own name.
    pub part: Part,
    /// Where a jig lies, on the first of its parts.
    pub lies: Option<Lies>,
}

/// Where a jig lies on its part, in the part's coordinates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lies {
    /// Where the jig's origin comes to lie \[mm\].
    pub origin: Point3,
    /// Direction of its Z: the way of the drill.
    pub z_axis: Vector3,
    /// Direction of its X.
    pub x_axis: Vector3,
    /// Outside diameter of its bushes \[mm\].
    pub bush_mm: f64,
}

/// An aid that cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOut {
    /// What it would have been.
    pub kind: AidKind,
    /// Its name.
    pub name: String,
    /// The part that it would have served.
    pub of: String,
    /// Why there is none.
    pub why: String,
}

/// All aids of an engine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Aids {
    /// Those that are made, by kind and then in the order of the parts.
    pub made: Vec<Aid>,
    /// Those that are not.
    pub left_out: Vec<LeftOut>,
}

impl Aids {
    fn take(&mut self, found: Result<Aid, LeftOut>) {
        match found {
            Ok(aid) => self.made.push(aid),
            Err(left) => self.left_out.push(left),
        }
    }
}

/// The aids for a set of parts.
pub fn aids(set: &PartSet, design: &Design) -> Aids {
    let mut all = Aids::default();
    let blade = knife::Blade::of(design);
    for part in set.parts.iter().filter(|p| knife::is_gasket(p, set)) {
        all.take(knife::template(part, set, &blade));
    }
    for part in &set.parts {
        jig::jigs(part).into_iter().for_each(|found| all.take(found));
    }
    all.made = jig::shared(all.made);
    let printed = set.parts.iter().filter(|p| trial::is_printed(p, design));
    all.made.extend(printed.map(|p| trial::print(p, design)));
    all
}

/// Least wall of a print \[mm\]: three lines of a nozzle of 0.4 mm; common practice, no source.
const WALL_MM: f64 = 1.2;

/// What aids are printed of, with its density \[kg/m³\] (PLA, from memory) and a colour that no part of the engine has.
fn printed() -> Material {
    Material {
        name: "PLA or PETG, printed".to_owned(),
        density_kg_m3: 1240.0,
        filled: 1.0,
        colour: [0.95, 0.55, 0.15],
    }
}

/// Radius and depth of the dot that tells how an aid lies \[mm\]: seen and felt, and printed by any nozzle; common practice, no
/// source.
const DOT_R_MM: f64 = 1.0;
const DOT_DEEP_MM: f64 = 1.0;

/// A dot into a face.
fn dot(name: &str, at: Point3, into: Vector3) -> Feature {
    let corner = super::kit::at;
    let tag = Tag::new(name);
    let chain =
        vec![super::kit::named(DOT_R_MM, 0.0, tag), corner(DOT_R_MM, DOT_DEEP_MM), corner(0.0, DOT_DEEP_MM)];
    super::kit::bore(name, at, into, chain, End::Blind)
}

/// An aid with neither notes nor cautions yet.
fn aid(kind: AidKind, name: &str, title: &str, of: &Part, recipe: Recipe) -> Aid {
    let part = Part { material: printed(), ..super::kit::made(name, title, "", recipe) };
    Aid { kind, of: vec![of.name.clone()], part, lies: None }
}

/// Least distance of loops from each other \[mm\]; nothing where they cross.
fn least_web(loops: &[Loop]) -> f64 {
    let pairs = loops.iter().enumerate().flat_map(|(i, a)| loops[i + 1..].iter().map(move |b| (a, b)));
    pairs.map(|(a, b)| crate::shape::gap::loop_gap(a, b)).fold(f64::INFINITY, f64::min)
}
