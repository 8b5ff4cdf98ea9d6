//! What a part is: a recipe with name, material, quantity and what the workshop must be told.

use super::fastening::Fastening;
use crate::shape::control::Geometry;
use crate::shape::recipe::Recipe;
use crate::shape::{Point3, Vector3};

/// Made in the workshop, or bought.
#[derive(Clone, Debug, PartialEq)]
pub enum Supply {
    /// Made from the drawing.
    Make,
    /// Bought by its standard designation.
    Buy {
        /// Designation, for example `ISO 15 - 608`.
        designation: String,
    },
}

/// What it is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// Trade name.
    pub name: String,
    /// Density \[kg/m³\].
    pub density_kg_m3: f64,
    /// Share of the solid that is metal; below 1 for a matrix of wire, wool or foil.
    pub filled: f64,
    /// Colour in the solid file: red, green, blue, 0..1.
    pub colour: [f64; 3],
}

impl Material {
    /// Density of the solid as drawn \[kg/m³\].
    pub fn drawn_kg_m3(&self) -> f64 {
        self.density_kg_m3 * self.filled
    }
}

/// Stock to start from, with allowance, for CAM.
#[derive(Clone, Debug, PartialEq)]
pub enum Blank {
    /// Round bar.
    Round {
        /// Diameter \[mm\].
        diameter: f64,
        /// Length \[mm\].
        length: f64,
        /// z of the lower end in the part's coordinates \[mm\].
        z_low: f64,
    },
    /// Flat or square bar.
    Block {
        /// Lower corner in the part's coordinates \[mm\].
        low: Point3,
        /// Upper corner in the part's coordinates \[mm\].
        high: Point3,
    },
}

/// One part.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Plain trade name in kebab case; the same in every file.
    pub name: String,
    /// Title on the drawing, for example `Power cylinder block`.
    pub title: String,
    /// How many the engine needs.
    pub quantity: usize,
    /// Made or bought.
    pub supply: Supply,
    /// Screw, nut, washer or the like.
    pub fastener: bool,
    /// Material.
    pub material: Material,
    /// The shape; `None` for a part that is only listed (screws, belts).
    pub recipe: Option<Recipe>,
    /// Geometrical tolerances and datums.
    pub geometry: Geometry,
    /// Cut from sheet by its outline (gaskets, ring blanks, flat plates): gets DXF and 1:1 SVG.
    pub flat: bool,
    /// Stock with allowance, where the workshop's list holds it.
    pub blank: Option<Blank>,
    /// Notes for the drawing.
    pub notes: Vec<String>,
    /// Cautions for the drawing (heat, pressure, moving parts …).
    pub cautions: Vec<String>,
}

/// A part in its place in the engine.
#[derive(Clone, Debug, PartialEq)]
pub struct Instance {
    /// Name, unique in the assembly.
    pub name: String,
    /// Name of the part.
    pub part: String,
    /// Where the part's origin comes to lie \[mm\].
    pub origin: Point3,
    /// Direction of the part's Z \[unit vector\].
    pub z_axis: Vector3,
    /// Direction of the part's X \[unit vector\].
    pub x_axis: Vector3,
}

/// Two parts that meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Name in kebab case.
    pub name: String,
    /// Names of the two parts.
    pub parts: [String; 2],
    /// Name of the gasket between them, if any.
    pub gasket: Option<String>,
    /// Screw, for example `ISO 4762 M5x16`.
    pub screw: String,
    /// Hole centres in the coordinates of the joint \[mm\].
    pub holes: Vec<[f64; 2]>,
}

/// Something to set while the engine is put together.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// What is set.
    pub what: String,
    /// To which value.
    pub value: String,
    /// How it is set or measured.
    pub how: String,
}

/// One step of the assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is put together.
    pub title: String,
    /// Names of the parts that come in.
    pub parts: Vec<String>,
    /// What to do, a sentence or two each.
    pub lines: Vec<String>,
    /// What to set.
    pub settings: Vec<Setting>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// What comes in is put together on the bench and goes into the engine as one.
    pub on_the_bench: bool,
}

impl Part {
    /// Whether it gets a drawing: made, with a shape.
    pub fn is_drawn(&self) -> bool {
        self.recipe.is_some() && self.supply == Supply::Make
    }

    /// Whether it is cut metal, for which general tolerances, surface texture and broken edges hold: no gasket, ring, strip or
    /// matrix.
    pub fn is_machined(&self) -> bool {
        let soft = ["gasket", "piston-ring", "ring-expander", "regenerator-strip"];
        self.is_drawn() && self.material.filled >= 1.0 && !soft.iter().any(|word| self.name.contains(word))
    }
}

impl PartSet {
    /// Number of the sheet with the drawing of a part: sheets begin with those of the parts, in the order of the set.
    pub fn sheet_of(&self, name: &str) -> Option<usize> {
        self.parts.iter().filter(|p| p.is_drawn()).position(|p| p.name == name).map(|i| i + 1)
    }
}

/// All parts of the engine, how they meet and where they sit at one crank angle.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct PartSet {
    /// The parts.
    pub parts: Vec<Part>,
    /// The joints.
    pub joints: Vec<Joint>,
    /// How screws are put in.
    pub screws: Vec<Fastening>,
    /// The assembly.
    pub instances: Vec<Instance>,
    /// Pairs of part names that overlap on purpose (press fits, threads), with the reason.
    pub overlaps: Vec<([String; 2], String)>,
    /// How it is put together, in order.
    pub steps: Vec<Step>,
    /// The engine stands on its hot end: what is up in use is −Z.
    pub hot_end_down: bool,
}
