//! Lists for the workshop and the shop counter, as comma-separated tables.

use super::aids::AidEntry;
use super::beside::short;
use super::holes::Hole;
use super::manifest::{MakeOrBuy, Manifest, PartEntry};
use crate::sizing::check::Check;

/// `tables/parts.csv`: every part with quantity, supply, material, mass, stock and files. Bought parts and
/// fasteners stand in it by their standard designation.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn parts(manifest: &Manifest) -> Result<Vec<u8>, String> {
    let head = [
        "item",
        "name",
        "title",
        "quantity",
        "make_or_buy",
        "fastener",
        "designation",
        "material",
        "mass_g",
        "stock_mm",
        "files",
    ];
    table(&head, manifest.parts.iter().map(|p| part_row(p).to_vec()))
}

/// `tables/holes.csv`: every hole with its place and size; lengths in millimetres from the part's datum.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn holes(manifest: &Manifest) -> Result<Vec<u8>, String> {
    let head = [
        "part",
        "hole",
        "label",
        "x_mm",
        "y_mm",
        "z_mm",
        "direction",
        "diameter_mm",
        "depth_mm",
        "thread",
        "steps",
    ];
    let rows = manifest.parts.iter().flat_map(|p| p.holes.iter().map(|h| hole_row(&p.name, h).to_vec()));
    table(&head, rows)
}

/// `tables/checks.csv`: every check of a builder with its figures, the rule's source and how it came out.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn checks(manifest: &Manifest) -> Result<Vec<u8>, String> {
    let head =
        ["state", "name", "what", "figures", "source", "decided_by", "parts", "accepted_because", "hint"];
    let row = |c: &Check| {
        vec![
            c.state.word().to_owned(),
            c.name.clone(),
            c.what.clone(),
            c.figures(),
            c.source.clone(),
            c.path.clone(),
            c.parts.join(" "),
            c.accepted.clone().unwrap_or_default(),
            c.hint.clone(),
        ]
    };
    table(&head, manifest.checks.iter().map(row))
}

/// `tables/aids.csv`: every aid of the workshop with what it is for, its notes, cautions and files, and those that were left out
/// with the reason.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn aids(manifest: &Manifest) -> Result<Vec<u8>, String> {
    table(&AidEntry::HEAD, manifest.aids.iter().map(AidEntry::row))
}

/// A table with a head; lines end with a line feed on every system.
pub(super) fn table(head: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Result<Vec<u8>, String> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::Any(b'\n')).from_writer(Vec::new());
    writer.write_record(head).map_err(|e| e.to_string())?;
    for row in rows {
        writer.write_record(&row).map_err(|e| e.to_string())?;
    }
    writer.into_inner().map_err(|e| e.to_string())
}

/// Row of a part. A bought part without a solid has no mass here.
fn part_row(p: &PartEntry) -> [String; 11] {
    let supply = match p.make_or_buy {
        MakeOrBuy::Make => "make",
        MakeOrBuy::Buy => "buy",
    };
    [
        p.item.to_string(),
        p.name.clone(),
        p.title.clone(),
        p.quantity.to_string(),
        supply.to_owned(),
        if p.fastener { "yes" } else { "" }.to_owned(),
        p.designation.clone().unwrap_or_default(),
        p.material.clone(),
        p.mass_g.map(|m| format!("{m:.1}")).unwrap_or_default(),
        p.blank.clone().or_else(|| p.stock.clone()).unwrap_or_default(),
        p.files.join(" "),
    ]
}

/// Row of a hole.
fn hole_row(part: &str, h: &Hole) -> [String; 11] {
    let [x, y, z] = h.at_mm.map(short);
    let steps = h.steps_mm.iter().map(|[d, depth]| format!("{} to depth {}", short(*d), short(*depth)));
    [
        part.to_owned(),
        h.group.clone(),
        h.label.clone(),
        x,
        y,
        z,
        direction(h.direction),
        short(h.diameter_mm),
        h.depth_mm.map_or("through".to_owned(), short),
        h.thread.clone().unwrap_or_default(),
        steps.collect::<Vec<_>>().join("; "),
    ]
}

/// A direction along an axis by its name, any other by its components.
pub(super) fn direction(d: [f64; 3]) -> String {
    let named =
        [("+X", 0, 1.0), ("-X", 0, -1.0), ("+Y", 1, 1.0), ("-Y", 1, -1.0), ("+Z", 2, 1.0), ("-Z", 2, -1.0)];
    let along = named.iter().find(|(_, axis, sign)| (d[*axis] - sign).abs() < 1e-9);
    along.map_or_else(|| d.map(short).join(" "), |(name, _, _)| (*name).to_owned())
}
