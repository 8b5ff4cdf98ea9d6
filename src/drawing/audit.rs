//! Whether a sheet says everything once and can be read: asked of the finished sheet, whatever laid it out.

use super::board::{Board, Frame};
use super::frames::datum_name;
use super::group::groups;
use super::sheet::Sheet;
use crate::parts::part::Part;
use crate::shape::Point2;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Kind, ProfileNode, Recipe};
use std::collections::{BTreeMap, BTreeSet};

/// Something wrong with a sheet.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A size that shapes the part stands nowhere on the sheet.
    #[error("the size {0} is not on the drawing")]
    Missing(String),
    /// A size stands on the sheet more than once.
    #[error("the size {0} is on the drawing {1} times")]
    Repeated(String, usize),
    /// A tolerance or a datum does not stand on the sheet exactly once.
    #[error("the {0} is on the drawing {1} times, not once")]
    Geometry(String, usize),
    /// A tolerance names what is no surface of the part.
    #[error("a geometrical tolerance names {0}, which the part does not have")]
    Unknown(String),
    /// Two texts lie on one another.
    #[error("{0:?} lies on {1:?}")]
    Overlap(String, String),
    /// A line or an arrow head runs through a text.
    #[error("one of the {1} runs through {0:?}")]
    Crossed(String, &'static str),
}

/// Sizes of the recipe that the sheet does not tell, or tells more than once.
pub fn incomplete(sheet: &Sheet, recipe: &Recipe) -> Vec<Fault> {
    let mut told: BTreeMap<&str, usize> = BTreeMap::new();
    for label in &sheet.board.labels {
        // a group and the one surface of its members may go by one name, in one text
        for name in label.sizes.iter().collect::<BTreeSet<_>>() {
            *told.entry(name).or_default() += 1;
        }
    }
    // one name may stand for what is made from two sides: each of these has its own text
    let ways =
        |name: &str| groups(&recipe.features).map_or(1, |all| all.iter().filter(|g| g.name == name).count());
    let too_often = |(name, n): &(&&str, &usize)| **n > 1 && **n > ways(name);
    let repeated = told.iter().filter(too_often).map(|(name, n)| Fault::Repeated((*name).to_owned(), *n));
    let missing =
        names(recipe).into_iter().filter(|name| !told.contains_key(name.as_str())).map(Fault::Missing);
    repeated.chain(missing).collect()
}

/// Geometrical tolerances and datums of a part that the sheet does not tell exactly once, and names in them that nothing bears.
pub fn geometry(sheet: &Sheet, part: &Part) -> Vec<Fault> {
    let all = &part.geometry;
    let lost = part.recipe.iter().flat_map(|r| all.unknown(r)).map(Fault::Unknown);
    let datums = all.datums().into_iter().map(|(letter, _)| datum_name(letter));
    let wanted = all.controls.iter().map(|c| c.name()).chain(datums);
    let told = |name: &String| sheet.board.labels.iter().filter(|l| l.sizes.contains(name)).count();
    let not_once = wanted.map(|name| (told(&name), name)).filter(|(n, _)| *n != 1);
    lost.chain(not_once.map(|(n, name)| Fault::Geometry(name, n))).collect()
}

/// Texts of the sheet that cannot be read.
pub fn unreadable(sheet: &Sheet) -> Vec<Fault> {
    let Board { labels, strokes, fills, .. } = &sheet.board;
    let mut found = Vec::new();
    for (i, label) in labels.iter().enumerate() {
        let frame = label.frame();
        let on = labels[i + 1..].iter().filter(|other| frame.overlaps(&other.frame()));
        found.extend(on.map(|other| Fault::Overlap(label.text.clone(), other.text.clone())));
        let line = strokes.iter().find(|s| s.crosses(&frame)).map(|s| s.pen.name());
        let arrow = fills.iter().find(|f| covers(f, &frame)).map(|_| "arrow heads");
        found.extend(line.or(arrow).map(|what| Fault::Crossed(label.text.clone(), what)));
    }
    found
}

/// Whether a filled shape reaches into a frame: one of its edges or corners does.
fn covers(fill: &[Point2], frame: &Frame) -> bool {
    let next = fill.iter().cycle().skip(1);
    fill.iter().zip(next).any(|(a, b)| frame.holds_point(*a) || frame.crossed(*a, *b))
}

/// Names that the recipe gives to sizes: tags of surfaces, outlines and thickness, and groups of features. The face that is
/// the datum has no size of its own.
fn names(recipe: &Recipe) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    match &recipe.body {
        Body::Turned(nodes) => names.extend(tags(nodes, true)),
        Body::Plate { outline, tag, .. } => {
            names.insert(tag.name.clone());
            names.extend(outline_names(outline));
        }
    }
    for f in &recipe.features {
        if let Kind::Bore { chain, .. } | Kind::Boss { chain } = &f.kind {
            names.extend(tags(chain, false));
        }
    }
    names.extend(recipe.features.iter().map(|f| f.name.clone()));
    names
}

fn outline_names(outline: &Outline) -> Vec<String> {
    match outline {
        Outline::Disc { tag, .. } => vec![tag.name.clone()],
        Outline::Rectangle { tags, .. } => tags.iter().map(|t| t.name.clone()).collect(),
        Outline::Hull { circles, name } => (1..=circles.len()).map(|i| format!("{name}-{i}")).collect(),
        Outline::Free { sizes, .. } => sizes.iter().map(|(t, _)| t.name.clone()).collect(),
    }
}

/// Names of the surfaces of a run, but for the flat one at the datum.
fn tags(nodes: &[ProfileNode], closed: bool) -> Vec<String> {
    let n = nodes.len();
    let count = if closed { n } else { n - 1 };
    let at_datum = |i: usize| nodes[i].z == 0.0 && nodes[(i + 1) % n].z == 0.0;
    let named = (0..count).filter(|i| !at_datum(*i)).filter_map(|i| nodes[i].tag.as_ref());
    named.map(|t| t.name.clone()).collect()
}
