//! `build.json`: what was built, part by part, with every named size and the hash of every file.

use super::aids::AidEntry;
use super::decided::Decided;
use super::geometry::{self, ControlEntry, DatumEntry};
use super::holes::{Hole, holes, rounded};
use super::listing::Listed;
use super::metal_off::{MetalOff, metal_off};
use super::revision::Record;
use super::setups::SET_UPS;
use crate::parts::items::item_numbers;
use crate::parts::part::{Blank, Instance, Joint, Part, PartSet, Supply};
use crate::shape::recipe::{Body, Size, Tolerance};
use crate::sizing::check::Check;
use crate::sizing::inspect::moving::Passing;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Version of the layout of `build.json`; a reader must refuse a higher one.
pub const SCHEMA_VERSION: u32 = 1;

/// What is measured on the exact solid of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// Volume \[mm³\].
    pub volume_mm3: f64,
    /// Surface \[mm²\].
    pub area_mm2: f64,
    /// Centre of mass \[mm\].
    pub centre_mm: [f64; 3],
    /// Least and greatest corner \[mm\].
    pub bounding_box_mm: [[f64; 3]; 2],
    /// Count of faces by kind of surface.
    pub faces: BTreeMap<String, usize>,
}

/// What the manifest needs beside the part set.
#[derive(Clone, Debug, Default)]
pub struct Build<'a> {
    /// Name of the design.
    pub design: &'a str,
    /// Crank angle at which the instances stand \[deg\].
    pub crank_angle_deg: f64,
    /// Part → what is measured on its solid; parts that are only listed have none.
    pub measured: BTreeMap<String, Measured>,
    /// Part → its named sizes.
    pub sizes: BTreeMap<String, Vec<Size>>,
    /// The engine's own numbers.
    pub decided: Vec<Decided>,
    /// Checks of a builder.
    pub checks: Vec<Check>,
    /// Pairs that pass each other, with where they come nearest.
    pub passing: Vec<Passing>,
    /// Aids of the workshop.
    pub aids: Vec<AidEntry>,
    /// Revisions of the parts' drawings.
    pub revisions: Record,
    /// Every file of the build but the manifest, in order of path.
    pub files: Vec<Listed>,
}

/// The whole of `build.json`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Manifest {
    /// See [`SCHEMA_VERSION`].
    pub schema_version: u32,
    /// Name of the program.
    pub program: String,
    /// Version of the program.
    pub version: String,
    /// Name of the design.
    pub design: String,
    /// Crank angle at which the instances stand \[deg\].
    pub crank_angle_deg: f64,
    /// The engine's own numbers, in the order of decision.
    #[serde(default)]
    pub decided: Vec<Decided>,
    /// How many parts there are, made, bought and to fasten with.
    #[serde(default)]
    pub counts: Counts,
    /// The parts.
    pub parts: Vec<PartEntry>,
    /// Where two parts meet.
    pub joints: Vec<JointEntry>,
    /// The assembly.
    pub instances: Vec<InstanceEntry>,
    /// Parts that overlap on purpose.
    pub overlaps: Vec<Overlap>,
    /// Least clearance of every moving pair over the turn.
    #[serde(default)]
    pub clearances: Vec<Clearance>,
    /// Checks of a builder.
    #[serde(default)]
    pub checks: Vec<Check>,
    /// Aids of the workshop: templates, jigs and prints, no parts of the engine.
    #[serde(default)]
    pub aids: Vec<AidEntry>,
    /// Revisions of the parts' drawings, those of parts that are gone too.
    #[serde(default)]
    pub revisions: Record,
    /// Every file but this one.
    pub files: Vec<Listed>,
}

/// How many of one sort: lines of the list, and pieces in all.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Count {
    /// Lines of the list.
    pub kinds: usize,
    /// Pieces.
    pub pieces: usize,
}

/// The parts list in numbers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Counts {
    /// Made from drawings.
    pub made: Count,
    /// Bought, but for fasteners.
    pub bought: Count,
    /// Screws, nuts, washers and the like.
    pub fasteners: Count,
}

impl Counts {
    fn of(parts: &[Part]) -> Self {
        let mut all = Self::default();
        for part in parts {
            let one = match (&part.supply, part.fastener) {
                (_, true) => &mut all.fasteners,
                (Supply::Make, _) => &mut all.made,
                (Supply::Buy { .. }, _) => &mut all.bought,
            };
            one.kinds += 1;
            one.pieces += part.quantity;
        }
        all
    }

    /// One line for people.
    pub fn text(&self) -> String {
        let one = |what: &str, c: Count| format!("{} {what} ({} pieces)", c.kinds, c.pieces);
        format!(
            "parts list: {}, {}, {}",
            one("kinds made", self.made),
            one("bought", self.bought),
            one("of fasteners", self.fasteners)
        )
    }
}

/// Whether a part is made or bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum MakeOrBuy {
    /// Made from the drawing.
    Make,
    /// Bought by its designation.
    Buy,
}

/// One part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartEntry {
    /// Item number in the parts list.
    #[serde(default)]
    pub item: usize,
    /// Name, the same in every file.
    pub name: String,
    /// Title.
    pub title: String,
    /// How many the engine needs.
    pub quantity: usize,
    /// Made or bought.
    pub make_or_buy: MakeOrBuy,
    /// Screw, nut, washer or the like.
    #[serde(default)]
    pub fastener: bool,
    /// Standard designation of a bought part.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub designation: Option<String>,
    /// Material.
    pub material: String,
    /// Volume \[mm³\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume_mm3: Option<f64>,
    /// Mass of one \[g\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_g: Option<f64>,
    /// Surface \[mm²\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area_mm2: Option<f64>,
    /// Centre of mass \[mm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub centre_mm: Option<[f64; 3]>,
    /// Least and greatest corner \[mm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bounding_box_mm: Option<[[f64; 3]; 2]>,
    /// Count of faces by kind of surface.
    #[serde(default)]
    pub faces: BTreeMap<String, usize>,
    /// Stock to start from, with allowance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blank: Option<String>,
    /// Stock of a made part without a blank, in words; the workshop adds its allowance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<String>,
    /// Named sizes.
    #[serde(default)]
    pub dimensions: Vec<Dimension>,
    /// Geometrical tolerances.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub controls: Vec<ControlEntry>,
    /// Datums of these.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub datums: Vec<DatumEntry>,
    /// Holes.
    #[serde(default)]
    pub holes: Vec<Hole>,
    /// Paths of its files.
    #[serde(default)]
    pub files: Vec<String>,
}

/// A named size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Dimension {
    /// Name, unique inside the part.
    pub name: String,
    /// Nominal value, in `unit`.
    pub value: f64,
    /// `mm`, `deg` or `1`.
    pub unit: String,
    /// Allowed deviation.
    pub tolerance: Allowed,
    /// Path of the engine dimension that decided it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub origin: Option<String>,
    /// Which way it must move for metal only to come off, where that is certain.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub metal_off: Option<MetalOff>,
}

/// Allowed deviation of a size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum Allowed {
    /// The drawing's general tolerance.
    General,
    /// An ISO 286 class.
    Fit {
        /// Class.
        code: String,
        /// Upper limit deviation \[mm\].
        upper: f64,
        /// Lower limit deviation \[mm\].
        lower: f64,
    },
    /// Plain limit deviations.
    Limits {
        /// Upper limit deviation \[mm\].
        upper: f64,
        /// Lower limit deviation \[mm\].
        lower: f64,
    },
}

/// Two parts that meet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JointEntry {
    /// Name.
    pub name: String,
    /// The two parts.
    pub parts: [String; 2],
    /// Gasket between them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gasket: Option<String>,
    /// Screw.
    pub screw: String,
    /// Hole centres in the coordinates of the joint \[mm\].
    pub bolt_pattern_mm: Vec<[f64; 2]>,
}

/// A part in its place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct InstanceEntry {
    /// Name, unique in the assembly.
    pub name: String,
    /// Name of the part.
    pub part: String,
    /// Where its origin lies \[mm\].
    pub origin_mm: [f64; 3],
    /// Direction of its Z.
    pub z_axis: [f64; 3],
    /// Direction of its X.
    pub x_axis: [f64; 3],
}

/// Two parts that overlap on purpose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Overlap {
    /// The two parts.
    pub parts: [String; 2],
    /// Why.
    pub reason: String,
}

/// Two instances that move past each other.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Clearance {
    /// Names of both in the assembly.
    pub parts: [String; 2],
    /// Least distance over the turn, as drawn \[mm\].
    pub least_mm: f64,
    /// Crank angle there, counted as `crank_angle_deg` \[deg\].
    pub at_deg: f64,
    /// Least distance with every length at its running temperature \[mm\].
    pub hot_mm: f64,
    /// Crank angle there \[deg\].
    pub hot_at_deg: f64,
    /// What is wanted \[mm\].
    pub wanted_mm: f64,
}

impl Manifest {
    /// The manifest of a part set.
    pub fn new(set: &PartSet, build: &Build) -> Self {
        Self {
            schema_version: SCHEMA_VERSION,
            program: env!("CARGO_PKG_NAME").to_owned(),
            version: env!("CARGO_PKG_VERSION").to_owned(),
            design: build.design.to_owned(),
            crank_angle_deg: rounded(build.crank_angle_deg),
            decided: build.decided.clone(),
            counts: Counts::of(&set.parts),
            parts: parts(set, build),
            joints: set.joints.iter().map(joint).collect(),
            instances: set.instances.iter().map(instance).collect(),
            overlaps: set.overlaps.iter().map(|(p, r)| overlap(p, r)).collect(),
            clearances: build.passing.iter().map(clearance).collect(),
            checks: build.checks.iter().map(check).collect(),
            aids: build.aids.clone(),
            revisions: build.revisions.clone(),
            files: build.files.clone(),
        }
    }

    /// The text of `build.json`.
    ///
    /// # Errors
    /// When a number is not finite: a fault of the program.
    pub fn to_json(&self) -> Result<Vec<u8>, String> {
        let mut text = serde_json::to_vec_pretty(self).map_err(|e| e.to_string())?;
        text.push(b'\n');
        // JSON has no number for "not finite" and null stands in its place; no other field is null.
        let value = serde_json::to_value(self).map_err(|e| e.to_string())?;
        match null(&value, "build") {
            Some(path) => Err(format!("{path} is not a number")),
            None => Ok(text),
        }
    }

    /// Reads a `build.json`.
    ///
    /// # Errors
    /// When it is not one, or one of a later layout.
    pub fn from_json(text: &[u8]) -> Result<Self, String> {
        let found: Self = serde_json::from_slice(text).map_err(|e| format!("not a build manifest: {e}"))?;
        if found.schema_version > SCHEMA_VERSION {
            return Err(format!(
                "the build manifest has layout {}, this program reads up to {SCHEMA_VERSION}",
                found.schema_version
            ));
        }
        Ok(found)
    }
}

/// Path of the first null in a value.
fn null(value: &serde_json::Value, path: &str) -> Option<String> {
    use serde_json::Value;
    match value {
        Value::Null => Some(path.to_owned()),
        Value::Array(all) => all.iter().enumerate().find_map(|(i, v)| null(v, &format!("{path}[{i}]"))),
        Value::Object(all) => all.iter().find_map(|(k, v)| null(v, &format!("{path}.{k}"))),
        _ => None,
    }
}

/// Entries of all parts.
fn parts(set: &PartSet, build: &Build) -> Vec<PartEntry> {
    let items = item_numbers(set);
    let entry = |p| {
        let found = part(p, build);
        PartEntry { item: items.get(&found.name).copied().unwrap_or_default(), ..found }
    };
    set.parts.iter().map(entry).collect()
}

impl PartEntry {
    /// The entry of one part alone, to be compared: without its files and its item number.
    pub(crate) fn alone(p: &Part, measured: Measured, sizes: Vec<Size>) -> Self {
        let (measured, sizes) = ([(p.name.clone(), measured)].into(), [(p.name.clone(), sizes)].into());
        part(p, &Build { measured, sizes, ..Build::default() })
    }
}

/// Entry of a part, its item number still to come.
fn part(p: &Part, build: &Build) -> PartEntry {
    let measured = build.measured.get(&p.name);
    let (make_or_buy, designation) = match &p.supply {
        Supply::Make => (MakeOrBuy::Make, None),
        Supply::Buy { designation } => (MakeOrBuy::Buy, Some(designation.clone())),
    };
    let off = p.recipe.as_ref().map(metal_off).unwrap_or_default();
    let sizes = build.sizes.get(&p.name).map(Vec::as_slice).unwrap_or_default();
    PartEntry {
        item: 0,
        name: p.name.clone(),
        title: p.title.clone(),
        quantity: p.quantity,
        make_or_buy,
        fastener: p.fastener,
        designation,
        material: p.material.name.clone(),
        volume_mm3: measured.map(|m| rounded(m.volume_mm3)),
        // mm³ × kg/m³ = 1e-9 kg = 1e-6 g.
        mass_g: measured.map(|m| rounded(m.volume_mm3 * p.material.drawn_kg_m3() * 1e-6)),
        area_mm2: measured.map(|m| rounded(m.area_mm2)),
        centre_mm: measured.map(|m| m.centre_mm.map(rounded)),
        bounding_box_mm: measured.map(|m| m.bounding_box_mm.map(|c| c.map(rounded))),
        faces: measured.map(|m| m.faces.clone()).unwrap_or_default(),
        blank: p.blank.as_ref().map(blank),
        stock: measured.filter(|_| p.blank.is_none() && p.supply == Supply::Make).and_then(|m| stock(p, m)),
        dimensions: sizes.iter().map(|s| dimension(s, off.get(&s.name).copied())).collect(),
        controls: geometry::controls(p),
        datums: geometry::datums(p),
        holes: p.recipe.as_ref().map(holes).unwrap_or_default(),
        files: build.files.iter().filter(|f| belongs(&f.path, &p.name)).map(|f| f.path.clone()).collect(),
    }
}

/// Whether a file is one of a part's: its name is the part's, or the part's with a compensation or the number of a set-up.
fn belongs(path: &str, part: &str) -> bool {
    let file = path.rsplit('/').next().unwrap_or(path);
    let Some(rest) = file.strip_prefix(part) else { return false };
    if path.starts_with(SET_UPS) {
        let number = rest.strip_prefix('-').and_then(|rest| rest.strip_suffix(".step"));
        return number.is_some_and(|n| n.bytes().all(|b| b.is_ascii_digit()));
    }
    let offset = path.starts_with("outlines/") && ["-kerf-", "-knife-"].iter().any(|s| rest.starts_with(s));
    path.contains('/') && (rest.starts_with('.') || offset)
}

/// Stock in words: shape and sizes \[mm\].
pub(super) fn blank(b: &Blank) -> String {
    use super::beside::short;
    match b {
        Blank::Round { diameter, length, .. } => format!("round {} x {}", short(*diameter), short(*length)),
        Blank::Block { low, high } => {
            let d = high - low;
            format!("block {} x {} x {}", short(d.x), short(d.y), short(d.z))
        }
    }
}

/// Least stock of a part in words \[mm\]: sheet, round or block that holds it.
fn stock(p: &Part, m: &Measured) -> Option<String> {
    use super::beside::short;
    let [low, high] = m.bounding_box_mm;
    let [x, y, z] = [0, 1, 2].map(|i| short(high[i] - low[i]));
    Some(match &p.recipe.as_ref()?.body {
        Body::Turned(_) => {
            let wide = (0..2).map(|i| high[i].max(-low[i])).fold(0.0, f64::max);
            format!("round {} x {z} + allowance", short(2.0 * wide))
        }
        Body::Plate { thickness, .. } if p.flat => {
            format!("sheet {} mm, {x} x {y} + allowance", short(*thickness))
        }
        Body::Plate { .. } => format!("block {x} x {y} x {z} + allowance"),
    })
}

/// Entry of a named size.
fn dimension(s: &Size, metal_off: Option<MetalOff>) -> Dimension {
    let tolerance = match &s.tolerance {
        Tolerance::General => Allowed::General,
        Tolerance::Fit { code, upper, lower } => {
            Allowed::Fit { code: code.clone(), upper: rounded(*upper), lower: rounded(*lower) }
        }
        Tolerance::Limits { upper, lower } => {
            Allowed::Limits { upper: rounded(*upper), lower: rounded(*lower) }
        }
    };
    Dimension {
        name: s.name.clone(),
        value: rounded(s.value),
        unit: s.unit.to_owned(),
        tolerance,
        origin: s.origin.clone(),
        metal_off,
    }
}

/// Entry of a joint.
fn joint(j: &Joint) -> JointEntry {
    JointEntry {
        name: j.name.clone(),
        parts: j.parts.clone(),
        gasket: j.gasket.clone(),
        screw: j.screw.clone(),
        bolt_pattern_mm: j.holes.iter().map(|h| h.map(rounded)).collect(),
    }
}

/// Entry of an instance.
fn instance(i: &Instance) -> InstanceEntry {
    let (o, z, x) = (i.origin, i.z_axis, i.x_axis);
    InstanceEntry {
        name: i.name.clone(),
        part: i.part.clone(),
        origin_mm: [o.x, o.y, o.z].map(rounded),
        z_axis: [z.x, z.y, z.z].map(rounded),
        x_axis: [x.x, x.y, x.z].map(rounded),
    }
}

/// Entry of a pair.
fn clearance(p: &Passing) -> Clearance {
    Clearance {
        parts: p.pair.parts.map(str::to_owned),
        least_mm: rounded(p.cold.gap_mm),
        at_deg: rounded(p.cold.angle_deg),
        hot_mm: rounded(p.hot.gap_mm),
        hot_at_deg: rounded(p.hot.angle_deg),
        wanted_mm: rounded(p.pair.wanted_mm[0]),
    }
}

/// Entry of a check.
fn check(c: &Check) -> Check {
    Check { value: rounded(c.value), bound: rounded(c.bound), ..c.clone() }
}

/// Entry of an overlap.
fn overlap(parts: &[String; 2], reason: &str) -> Overlap {
    Overlap { parts: parts.clone(), reason: reason.to_owned() }
}
