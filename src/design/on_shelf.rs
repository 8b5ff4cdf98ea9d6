//! What the shelf file gives to a design: a can that it names, stock.

use super::read::Reader;
use super::shelf::Shelf;
use super::value::{Given, Value};
use crate::diagnostic::Diagnostic;

/// Puts the shelf file's values into the design's.
pub(super) fn put(reader: &mut Reader<'_>, shelf: Option<&Shelf>) {
    match shelf {
        Some(shelf) => {
            can(reader, shelf);
            stock(reader, shelf);
        }
        None => unread(reader),
    }
}

/// A design that names a shelf file is read together with it.
fn unread(reader: &mut Reader<'_>) {
    let place = reader.table("workshop").get("shelf").and_then(|given| given.place.clone());
    if let Some(place) = place {
        let said = Diagnostic::error("swept::shelf", "the shelf file was not read with the design")
            .label("names a file beside the design")
            .hint("give the file to read it with, or leave workshop.shelf out");
        reader.said.push(said.at(place));
    }
}

/// Sizes of the can, under the keys of a can that is measured, and its material where none is written.
fn can(reader: &mut Reader<'_>, shelf: &Shelf) {
    let Some(Given { value: Value::Text(name), .. }) = reader.table("displacer").get("can") else { return };
    let Some(can) = shelf.can(name) else { return };
    for (own, key) in [
        ("diameter", "can_diameter"),
        ("length", "can_length"),
        ("wall", "can_wall"),
        ("material", "material"),
    ] {
        let Some(given) = can.get(own) else { continue };
        let written = reader.written.contains(&("displacer", key));
        match (written, key) {
            (true, "material") => {}
            (true, _) => both(reader, key),
            (false, _) => {
                reader.table("displacer").insert(key, given.clone());
                reader.written.insert(("displacer", key));
            }
        }
    }
}

/// The can is named and measured.
fn both(reader: &mut Reader<'_>, key: &str) {
    let place = reader.table("displacer").get(key).and_then(|given| given.place.clone());
    let said =
        Diagnostic::error("swept::together", format!("displacer.can and displacer.{key} are both given"))
            .label("the can of the shelf file has its own")
            .allowed("the name of a can of the shelf file, or the three sizes of one")
            .hint(format!("leave displacer.{key} out, or displacer.can"));
    reader.said.extend(place.map(|place| said.at(place)));
}

/// Stock of the shelf file stands after that of the design.
fn stock(reader: &mut Reader<'_>, shelf: &Shelf) {
    let Some(first) = shelf.stock.first() else { return };
    let like = first.values().next().map(|given| (given.from.clone(), given.place.clone()));
    let Some((from, place)) = like else { return };
    let listed = reader.table("workshop").entry("stock").or_insert_with(|| Given {
        value: Value::List(Vec::new()),
        text: "from the shelf file".into(),
        from,
        place,
    });
    if let Value::List(items) = &mut listed.value {
        items.extend(shelf.stock.iter().cloned());
    }
}
