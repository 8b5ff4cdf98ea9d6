//! Aids of the workshop in `build.json` and in `tables/aids.csv`.

use super::beside::short;
use super::holes::rounded;
use super::manifest::Measured;
use crate::parts::aids::{Aid, LeftOut, Lies};
use serde::{Deserialize, Serialize};

/// An aid of the workshop: no part of the engine.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AidEntry {
    /// Name, that of its files; a trial print bears its part's.
    pub name: String,
    /// What it is for.
    pub kind: String,
    /// Title.
    pub title: String,
    /// Parts that it serves.
    pub of: Vec<String>,
    /// Why there is none; the rest is empty then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_out: Option<String>,
    /// Material.
    #[serde(default)]
    pub material: String,
    /// Volume of the exact solid \[mm³\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume_mm3: Option<f64>,
    /// Least and greatest corner \[mm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bounding_box_mm: Option<[[f64; 3]; 2]>,
    /// Where a jig lies on the first of its parts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lies: Option<LiesEntry>,
    /// How a trial print stands in its files: the place of the part's origin, and the directions of its Z and X.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stands: Option<LiesEntry>,
    /// Outside diameter of a jig's bushes \[mm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bush_mm: Option<f64>,
    /// Triangles of its mesh.
    #[serde(default)]
    pub triangles: usize,
    /// Notes.
    #[serde(default)]
    pub notes: Vec<String>,
    /// Cautions.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// Paths of its files.
    #[serde(default)]
    pub files: Vec<String>,
}

/// A jig in its place, in the coordinates of the part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LiesEntry {
    /// Where its origin lies \[mm\].
    pub origin_mm: [f64; 3],
    /// Direction of its Z.
    pub z_axis: [f64; 3],
    /// Direction of its X.
    pub x_axis: [f64; 3],
}

impl LiesEntry {
    fn of(lies: &Lies) -> Self {
        let (o, z, x) = (lies.origin, lies.z_axis, lies.x_axis);
        Self {
            origin_mm: [o.x, o.y, o.z].map(rounded),
            z_axis: [z.x, z.y, z.z].map(rounded),
            x_axis: [x.x, x.y, x.z].map(rounded),
        }
    }
}

impl AidEntry {
    /// An aid that is made, with its files.
    pub fn made(aid: &Aid, measured: &Measured, triangles: usize, files: Vec<String>) -> Self {
        Self {
            name: aid.part.name.clone(),
            kind: aid.kind.words().to_owned(),
            title: aid.part.title.clone(),
            of: aid.of.clone(),
            left_out: None,
            material: aid.part.material.name.clone(),
            volume_mm3: Some(rounded(measured.volume_mm3)),
            bounding_box_mm: Some(measured.bounding_box_mm.map(|c| c.map(rounded))),
            lies: aid.lies.as_ref().map(LiesEntry::of),
            stands: None,
            bush_mm: aid.lies.map(|l| rounded(l.bush_mm)),
            triangles,
            notes: aid.part.notes.clone(),
            cautions: aid.part.cautions.clone(),
            files,
        }
    }

    /// One that is not.
    pub fn left_out(left: &LeftOut) -> Self {
        Self {
            name: left.name.clone(),
            kind: left.kind.words().to_owned(),
            title: String::new(),
            of: vec![left.of.clone()],
            left_out: Some(left.why.clone()),
            material: String::new(),
            volume_mm3: None,
            bounding_box_mm: None,
            lies: None,
            stands: None,
            bush_mm: None,
            triangles: 0,
            notes: Vec::new(),
            cautions: Vec::new(),
            files: Vec::new(),
        }
    }

    /// Head of the table.
    pub(super) const HEAD: [&str; 10] = [
        "name",
        "kind",
        "title",
        "for_parts",
        "left_out_because",
        "material",
        "size_mm",
        "notes",
        "cautions",
        "files",
    ];

    /// Row of the table.
    pub(super) fn row(&self) -> Vec<String> {
        let size =
            self.bounding_box_mm.map(|[low, high]| [0, 1, 2].map(|i| short(high[i] - low[i])).join(" x "));
        vec![
            self.name.clone(),
            self.kind.clone(),
            self.title.clone(),
            self.of.join(" "),
            self.left_out.clone().unwrap_or_default(),
            self.material.clone(),
            size.unwrap_or_default(),
            self.notes.join(" "),
            self.cautions.join(" "),
            self.files.join(" "),
        ]
    }
}
