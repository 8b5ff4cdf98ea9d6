//! Geometrical tolerances and datums in `build.json` and `tables/geometry.csv`, with where each named surface lies, so that a
//! reader can find it on the solid.

use super::beside::short;
use super::holes::rounded;
use super::tables::{direction, table};
use crate::export::manifest::Manifest;
use crate::parts::part::Part;
use crate::shape::control::{Control, Spot, spots};
use crate::shape::recipe::Recipe;
use crate::shape::{Point3, Vector3};
use serde::{Deserialize, Serialize};

/// One geometrical tolerance.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ControlEntry {
    /// Characteristic, as in ISO 1101, for example `perpendicularity`.
    pub characteristic: String,
    /// Width or diameter of the zone \[mm\].
    pub value_mm: f64,
    /// The zone is a cylinder.
    pub diametral: bool,
    /// Name of the controlled surface or feature.
    pub of: String,
    /// Letters of the datums, the first one first.
    #[serde(default)]
    pub datums: Vec<String>,
    /// The rule that decides the value.
    pub rule: String,
    /// Where the controlled surfaces lie.
    pub surfaces: Vec<SurfaceEntry>,
}

/// One datum.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DatumEntry {
    /// Its letter.
    pub letter: String,
    /// Name of the surface or feature.
    pub of: String,
    /// Where it lies.
    pub surfaces: Vec<SurfaceEntry>,
}

/// A cylinder or a plane of the part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum SurfaceEntry {
    /// A cylinder.
    Cylinder {
        /// A point of its axis, at one end \[mm\].
        at_mm: [f64; 3],
        /// Along the axis, to the other end.
        along: [f64; 3],
        /// Diameter \[mm\].
        diameter_mm: f64,
        /// Length \[mm\].
        length_mm: f64,
    },
    /// A plane.
    Plane {
        /// A point of it \[mm\].
        at_mm: [f64; 3],
        /// Out of the metal.
        normal: [f64; 3],
    },
}

/// The tolerances of a part.
pub fn controls(part: &Part) -> Vec<ControlEntry> {
    let one = |c: &Control| ControlEntry {
        characteristic: c.characteristic.name().to_owned(),
        value_mm: c.limit.mm,
        diametral: c.diametral,
        of: c.of.clone(),
        datums: part.geometry.letters(c).into_iter().map(String::from).collect(),
        rule: c.limit.why.to_owned(),
        surfaces: surfaces(part.recipe.as_ref(), &c.of),
    };
    part.geometry.controls.iter().map(one).collect()
}

/// The datums of a part.
pub fn datums(part: &Part) -> Vec<DatumEntry> {
    let one = |(letter, name): (char, &str)| DatumEntry {
        letter: letter.to_string(),
        of: name.to_owned(),
        surfaces: surfaces(part.recipe.as_ref(), name),
    };
    part.geometry.datums().into_iter().map(one).collect()
}

fn surfaces(recipe: Option<&Recipe>, name: &str) -> Vec<SurfaceEntry> {
    let point = |p: Point3| [p.x, p.y, p.z].map(rounded);
    let way = |v: Vector3| [v.x, v.y, v.z].map(rounded);
    let entry = |spot: Spot| match spot {
        Spot::Axis { origin, direction, radius, length } => SurfaceEntry::Cylinder {
            at_mm: point(origin),
            along: way(direction),
            diameter_mm: rounded(2.0 * radius),
            length_mm: rounded(length),
        },
        Spot::Face { at, normal, .. } => SurfaceEntry::Plane { at_mm: point(at), normal: way(normal) },
    };
    recipe.map(|r| spots(r, name)).unwrap_or_default().into_iter().map(entry).collect()
}

/// `tables/geometry.csv`: every geometrical tolerance with its datums, and every datum, as an inspector takes them down.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn csv(manifest: &Manifest) -> Result<Vec<u8>, String> {
    let head = ["part", "characteristic", "of", "value_mm", "zone", "datums", "surfaces", "rule"];
    let rows = manifest.parts.iter().flat_map(|p| {
        let datums = p.datums.iter().map(|d| {
            [&p.name, "datum", &d.of, "", "", &d.letter, &told(&d.surfaces), ""].map(str::to_owned).to_vec()
        });
        let zone = |c: &ControlEntry| if c.diametral { "cylinder" } else { "width" };
        let controls = p.controls.iter().map(move |c| {
            let (value, letters, where_) = (short(c.value_mm), c.datums.join(" "), told(&c.surfaces));
            [&p.name, &c.characteristic, &c.of, &value, zone(c), &letters, &where_, &c.rule]
                .map(str::to_owned)
                .to_vec()
        });
        datums.chain(controls).collect::<Vec<_>>()
    });
    table(&head, rows)
}

/// Surfaces in words.
fn told(list: &[SurfaceEntry]) -> String {
    let point = |p: &[f64; 3]| p.map(short).join(" ");
    let one = |s: &SurfaceEntry| match s {
        SurfaceEntry::Cylinder { at_mm, along, diameter_mm, .. } => {
            format!("cylinder {} at {} along {}", short(*diameter_mm), point(at_mm), direction(*along))
        }
        SurfaceEntry::Plane { at_mm, normal } => {
            format!("plane at {} facing {}", point(at_mm), direction(*normal))
        }
    };
    list.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// Whether a tolerance that both parts have became smaller.
pub(super) fn tightened(old: &[ControlEntry], new: &[ControlEntry]) -> bool {
    let was = |n: &ControlEntry| old.iter().find(|o| o.is_same(n)).map(|o| o.value_mm);
    new.iter().any(|n| was(n).is_some_and(|before| n.value_mm < before - 1e-9))
}

/// Tolerances that moved, came or went, in a builder's words.
pub(super) fn changes(old: &[ControlEntry], new: &[ControlEntry]) -> Vec<String> {
    let name = |c: &ControlEntry| format!("{} of {}", c.characteristic, c.of);
    let one = |n: &ControlEntry| match old.iter().find(|o| o.is_same(n)).map(|o| o.value_mm) {
        None => Some(format!("{} within {} mm is new: measure it", name(n), short(n.value_mm))),
        Some(was) if (was - n.value_mm).abs() > 1e-9 => {
            Some(format!("{} {} mm -> {} mm", name(n), short(was), short(n.value_mm)))
        }
        Some(_) => None,
    };
    let gone = old.iter().filter(|o| !new.iter().any(|n| n.is_same(o)));
    new.iter().filter_map(one).chain(gone.map(|o| format!("{} is gone", name(o)))).collect()
}

impl ControlEntry {
    fn is_same(&self, other: &Self) -> bool {
        self.characteristic == other.characteristic && self.of == other.of && self.datums == other.datums
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn control(of: &str, value_mm: f64) -> ControlEntry {
        ControlEntry {
            characteristic: "flatness".into(),
            value_mm,
            diametral: false,
            of: of.into(),
            datums: Vec::new(),
            rule: String::new(),
            surfaces: Vec::new(),
        }
    }

    #[test]
    fn what_moved_is_told_and_only_what_is_smaller_than_before_counts_against_the_part() {
        let (old, new) = ([control("a", 0.05), control("b", 0.1)], [control("a", 0.02), control("c", 0.1)]);
        let told = changes(&old, &new);
        let wanted = [
            "flatness of a 0.05 mm -> 0.02 mm",
            "flatness of c within 0.1 mm is new: measure it",
            "flatness of b is gone",
        ];
        assert_eq!(told, wanted);
        assert!(tightened(&old, &new) && !tightened(&new, &old));
    }
}
