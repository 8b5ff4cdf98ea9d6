//! Keys that only make sense together or only apart. Rules about sizes belong to sizing.

use super::choice::StockShape;
use super::read::Reader;
use super::rules_work;
use super::value::{Given, Value, Values};
use crate::catalogue::orings::{Application, SECTIONS_MM, gland};
use crate::diagnostic::{Diagnostic, Place};

/// Checks all rules.
pub(super) fn check(reader: &mut Reader<'_>) {
    let broken = [can(reader), kerf_or_knife(reader), ring_section(reader)]
        .into_iter()
        .flatten()
        .chain(stock(reader))
        .chain(accepted(reader))
        .chain(rules_work::check(reader));
    let found: Vec<(Place, Diagnostic)> = broken.collect();
    reader.said.extend(found.into_iter().map(|(place, diagnostic)| diagnostic.at(place)));
}

pub(super) type Broken = (Place, Diagnostic);

fn value<'a>(reader: &'a Reader<'_>, table: &str, key: &str) -> Option<&'a Given> {
    reader.values.get(table)?.get(key)
}

/// A bought can has a diameter, a length and a wall, or there is none.
fn can(reader: &Reader<'_>) -> Option<Broken> {
    const KEYS: [&str; 3] = ["can_diameter", "can_length", "can_wall"];
    let (given, missing): (Vec<&str>, Vec<&str>) =
        KEYS.iter().partition(|key| reader.written.contains(&("displacer", **key)));
    let place = given.iter().find_map(|key| value(reader, "displacer", key)?.place.clone())?;
    let names = missing.join(" and ");
    let diagnostic = Diagnostic::error("swept::together", format!("the bought can lacks {names}"))
        .label("part of a bought can")
        .allowed(format!("all of {}, or none", KEYS.join(", ")))
        .hint(format!("measure the can and add {names} under [displacer]"));
    (!missing.is_empty()).then_some((place, diagnostic))
}

/// A cut has a width or a knife has an offset; nothing has both.
fn kerf_or_knife(reader: &Reader<'_>) -> Option<Broken> {
    let wide = |key| {
        value(reader, "workshop", key).filter(|given| matches!(given.value, Value::Number(n) if n > 0.0))
    };
    let (_, knife) = wide("kerf").zip(wide("knife"))?;
    let diagnostic = Diagnostic::error("swept::together", "workshop.kerf and workshop.knife are both given")
        .label("with a kerf there is no knife")
        .allowed("one of them over zero")
        .hint("keep kerf for a laser or a saw, knife for a drag knife");
    Some((knife.place.clone()?, diagnostic))
}

/// The rod's O-ring has a section that has a groove.
fn ring_section(reader: &Reader<'_>) -> Option<Broken> {
    let section = value(reader, "seals", "rod_ring_section")?;
    let Value::Number(section_mm) = section.value else { return None };
    let unknown = gland(section_mm, Application::ReciprocatingPneumatic).err()?;
    let sections: Vec<String> = SECTIONS_MM.iter().map(|section| format!("{section} mm")).collect();
    let diagnostic =
        Diagnostic::error("swept::choice", "seals.rod_ring_section: no groove is known for this section")
            .label("not a section of the catalogue")
            .allowed(format!("one of {}", sections.join(", ")))
            .hint(format!("the nearest one is \"{}\"", unknown.nearest?));
    Some((section.place.clone()?, diagnostic))
}

fn stock(reader: &Reader<'_>) -> Vec<Broken> {
    let items = match value(reader, "workshop", "stock").map(|given| &given.value) {
        Some(Value::List(items)) => items.as_slice(),
        _ => &[],
    };
    items.iter().filter_map(stock_item).collect()
}

/// A check is accepted for a reason.
fn accepted(reader: &Reader<'_>) -> Vec<Broken> {
    let items = match value(reader, "checks", "accept").map(|given| &given.value) {
        Some(Value::List(items)) => items.as_slice(),
        _ => &[],
    };
    let empty = |item: &Values| {
        let why = item.get("why")?;
        let Value::Text(text) = &why.value else { return None };
        let diagnostic = Diagnostic::error("swept::empty", "checks.accept: the reason is empty")
            .label("no reason")
            .allowed("a reason in plain words")
            .hint("write why you accept it: the drawings of the parts concerned will say it");
        text.trim().is_empty().then_some((why.place.clone()?, diagnostic))
    };
    items.iter().filter_map(empty).collect()
}

/// Flat stock has a thickness, other stock has none.
pub(super) fn stock_item(item: &Values) -> Option<Broken> {
    let shape = item.get("shape")?;
    let Value::Text(name) = &shape.value else { return None };
    let flat = StockShape::from_name(name) == Some(StockShape::Flat);
    match (flat, item.get("thickness")) {
        (true, None) => {
            let diagnostic = Diagnostic::error("swept::together", "flat stock has no thickness")
                .label("flat")
                .allowed("flat stock with size (its width) and thickness")
                .hint("add thickness = \"10 mm\" to this entry");
            Some((shape.place.clone()?, diagnostic))
        }
        (false, Some(thickness)) => {
            let diagnostic = Diagnostic::error("swept::together", format!("{name} stock has no thickness"))
                .label("only flat stock has one")
                .allowed("thickness for flat stock only")
                .hint("leave thickness out, or write shape = \"flat\"");
            Some((thickness.place.clone()?, diagnostic))
        }
        _ => None,
    }
}
