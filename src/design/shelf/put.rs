//! Putting entries of the shelf file over the catalogue.

use super::super::key::{Key, Presence};
use super::super::read::Reader;
use super::super::rules::stock_item;
use super::super::value::{Value, Values};
use super::entry::{Entry, Wrong};
use super::{Shelf, list_of};
use crate::catalogue::bearings::BallBearing;
use crate::catalogue::belts::{BeltLength, belt_section};
use crate::catalogue::bushes::{Bush, LinearBushing};
use crate::catalogue::gases::{Gas, NamedGas};
use crate::catalogue::gaskets::GasketSheet;
use crate::catalogue::materials::Material;
use crate::catalogue::orings::{ORing, SECTIONS_MM};
use crate::catalogue::stock::Can;
use crate::catalogue::{Catalogue, Listed, OwnScrews, put};
use std::sync::Arc;

/// Molar gas constant of the SI (2019) \[J/(kmol K)\].
const GAS_CONSTANT: f64 = 8_314.462_618;

/// Puts one entry of a list over the catalogue, or says what is wrong with it.
pub(super) fn entry(shelf: &mut Shelf, reader: &mut Reader<'_>, list: &'static str, values: Values) {
    let needed = |key: &&Key| matches!(key.presence, Presence::Required(_));
    if !list_of(list).keys.iter().filter(needed).all(|key| values.contains_key(key.name)) {
        return; // what is missing or wrong has been said
    }
    let mut e = Entry::new(list, values.clone());
    let line = e.line(reader);
    let done = match list {
        "stock" => stock(shelf, values),
        "can" => can(shelf, &mut e, line, values),
        _ => {
            let book = Arc::make_mut(&mut shelf.catalogue);
            match list {
                "material" => material(book, &mut e, line),
                "gas" => gas(book, &mut e, line),
                "gasket" => gasket(book, &mut e, line),
                "bearing" => bearing(book, &mut e, line),
                "bush" => bush(book, &mut e, line),
                "linear_bushing" => linear(book, &mut e, line),
                "o_ring" => ring(book, &mut e, line),
                "belt" => belt(book, &mut e, line),
                _ => screw(book, &mut e, line),
            }
        }
    };
    reader.said.extend(done.err().map(|said| *said));
}

fn same(a: &str, b: &str) -> bool {
    a.eq_ignore_ascii_case(b)
}

fn material(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let name = e.text_or("name", None);
    let known = |name: &str| book.materials.iter().find(|m| same(&m.name, name)).cloned();
    let base = e.base(|name| book.material(name).cloned(), known)?;
    let known = |of: fn(&Material) -> f64| base.as_ref().map(of);
    let expansion = e.own("expansion");
    let modulus = e.own("modulus").map(|mpa| mpa / 1000.0);
    let mut made = Material {
        title: e.text("title").unwrap_or_else(|| name.clone()),
        density_kg_m3: e.number("density", known(|m| m.density_kg_m3)),
        conductivity: curve(e, "conductivity", base.as_ref().map(|m| &m.conductivity)),
        expansion_per_k: e.number("expansion", known(|m| m.expansion_per_k)),
        expansion: base.as_ref().filter(|_| expansion.is_none()).map_or(Vec::new(), |m| m.expansion.clone()),
        heat_capacity_j_kg_k: e.number("heat_capacity", known(|m| m.heat_capacity_j_kg_k)),
        youngs_modulus_gpa: e.number("modulus", known(|m| 1000.0 * m.youngs_modulus_gpa)) / 1000.0,
        modulus: base.as_ref().filter(|_| modulus.is_none()).map_or(Vec::new(), |m| m.modulus.clone()),
        allowable: curve(e, "allowable", base.as_ref().map(|m| &m.allowable)),
        yield_strength: curve(e, "yield_strength", base.as_ref().map(|m| &m.yield_strength)),
        creep: base.as_ref().map_or(Vec::new(), |m| m.creep.clone()),
        creep_hours: base.as_ref().and_then(|m| m.creep_hours),
        stock: base.as_ref().and_then(|m| m.stock.clone()),
        service_limit_c: e.number("service_limit", known(|m| m.service_limit_c + 273.15)) - 273.15,
        colour: base.as_ref().map_or([0.6, 0.6, 0.6], |m| m.colour),
        status: format!("your shelf file, {line}"),
        own: Some(line),
        name,
    };
    if made.conductivity.is_empty() || made.allowable.is_empty() {
        e.lacks("at");
    }
    e.whole()?;
    for points in [&made.conductivity, &made.allowable, &made.yield_strength] {
        let rising = points.is_sorted_by(|a, b| a[0] < b[0]);
        e.together(rising, "at", "the temperatures do not rise", "entries [[material.at]] from cold to hot")?;
    }
    if made.title.is_empty() {
        made.title.clone_from(&made.name);
    }
    let name = made.name.clone();
    put(&mut book.materials, made, |m| same(&m.name, &name));
    Ok(())
}

/// Points of one property over temperature \[°C\]: those of the entry, else the known ones.
fn curve(e: &Entry, key: &str, known: Option<&Vec<[f64; 2]>>) -> Vec<[f64; 2]> {
    let number = |point: &Values, key: &str| match point.get(key)?.value {
        Value::Number(number) => Some(number),
        _ => None,
    };
    let points = e.list("at").unwrap_or(&[]).iter();
    let own: Vec<[f64; 2]> = points
        .filter_map(|point| Some([number(point, "temperature")? - 273.15, number(point, key)?]))
        .collect();
    if own.is_empty() { known.cloned().unwrap_or_default() } else { own }
}

fn gas(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let name = e.text_or("name", None);
    let known = |name: &str| book.gases.iter().find(|g| same(&g.name, name)).map(|g| g.gas);
    let base = e.base(|name| book.gas(name), known)?;
    let known = |of: fn(&Gas) -> f64| base.as_ref().map(of);
    let molar = e.number("molar_mass", known(|g| g.molar_mass_g_mol));
    let new_curve = e.own("heat_capacity").is_some();
    let term = |key: &str, of: fn(&Gas) -> f64| {
        e.own(key).unwrap_or_else(|| if new_curve { 0.0 } else { base.as_ref().map_or(0.0, of) })
    };
    let terms = [
        term("heat_capacity_1", |g| g.cp_a1),
        term("heat_capacity_2", |g| g.cp_a2),
        term("heat_capacity_3", |g| g.cp_a3),
    ];
    let gas = Gas {
        molar_mass_g_mol: molar,
        r_j_kg_k: GAS_CONSTANT / molar,
        cp_a0: e.number("heat_capacity", known(|g| g.cp_a0)),
        cp_a1: terms[0],
        cp_a2: terms[1],
        cp_a3: terms[2],
        viscosity_300_pa_s: e.number("viscosity", known(|g| g.viscosity_300_pa_s)),
        viscosity_exponent: e.number("viscosity_exponent", known(|g| g.viscosity_exponent)),
        conductivity_300_w_m_k: e.number("conductivity", known(|g| g.conductivity_300_w_m_k)),
        conductivity_exponent: e.number("conductivity_exponent", known(|g| g.conductivity_exponent)),
    };
    e.whole()?;
    // A gas of molecules has cp > R everywhere; the fits of the program go from 250 to 1100 K.
    let sound = (250..=1100).step_by(50).all(|t| gas.cv_j_kg_k(f64::from(t)) > 0.5 * gas.r_j_kg_k);
    e.together(
        sound,
        "heat_capacity",
        "the heat capacity is too small for the molar mass",
        "cp of 2.5 R or more (a gas of single atoms), R = 8314 / molar mass in J/(kg K), from 250 to 1100 K",
    )?;
    let own = NamedGas { name: name.clone(), gas, from: Listed::Shelf(line) };
    put(&mut book.gases, own, |g| same(&g.name, &name));
    Ok(())
}

fn gasket(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let name = e.text_or("name", None);
    let known = |name: &str| book.gasket_sheets.iter().find(|s| same(&s.name, name)).cloned();
    let base = e.base(|name| book.gasket_sheet(name).cloned(), known)?;
    let known = |of: fn(&GasketSheet) -> f64| base.as_ref().map(of);
    let sheet = GasketSheet {
        material: e.text_or("material", base.as_ref().map(|s| s.material.clone())),
        service_limit_c: e.number("service_limit", known(|s| s.service_limit_c + 273.15)) - 273.15,
        thicknesses_mm: e.numbers("thicknesses", base.as_ref().map(|s| s.thicknesses_mm.clone())),
        compression: [
            e.number("least_compression", known(|s| s.compression[0])),
            e.number("most_compression", known(|s| s.compression[1])),
        ],
        factor_m: e.number("factor_m", known(|s| s.factor_m)),
        seating_mpa: e.number("seating", known(|s| s.seating_mpa)),
        assembly_min_mpa: e.number("least_stress", known(|s| s.assembly_min_mpa)),
        assembly_max_mpa: e.number("most_stress", known(|s| s.assembly_max_mpa)),
        note: e.text("note").or(base.as_ref().map(|s| s.note.clone())).unwrap_or_default(),
        status: format!("your shelf file, {line}"),
        own: Some(line),
        name: name.clone(),
    };
    e.whole()?;
    e.together(
        sheet.compression[0] <= sheet.compression[1],
        "most_compression",
        "it is less than least_compression",
        "most_compression of least_compression or more",
    )?;
    e.together(
        sheet.assembly_min_mpa <= sheet.assembly_max_mpa,
        "most_stress",
        "it is less than least_stress",
        "most_stress of least_stress or more",
    )?;
    e.together(!sheet.thicknesses_mm.is_empty(), "thicknesses", "there is none", "one thickness or more")?;
    put(&mut book.gasket_sheets, sheet, |s| same(&s.name, &name));
    Ok(())
}

fn bearing(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let name = e.text_or("name", None);
    let known = |name: &str| book.bearings.iter().find(|b| same(&b.designation, name)).cloned();
    let base = e.base(|name| book.bearing(name).cloned(), known)?;
    let known = |of: fn(&BallBearing) -> f64| base.as_ref().map(of);
    let made = BallBearing {
        designation: name.clone(),
        kind: base.as_ref().map_or_else(|| "own".into(), |b| b.kind.clone()),
        bore_mm: e.number("bore", known(|b| b.bore_mm)),
        outer_mm: e.number("outer", known(|b| b.outer_mm)),
        width_mm: e.number("width", known(|b| b.width_mm)),
        corner_mm: e.number("corner", known(|b| b.corner_mm)),
        dynamic_n: e.number("dynamic", known(|b| b.dynamic_n)),
        static_n: e.number("static", known(|b| b.static_n)),
        from: Listed::Shelf(line),
    };
    e.whole()?;
    e.together(
        made.outer_mm > made.bore_mm + 1.0,
        "outer",
        "no balls fit between bore and outside",
        "an outside diameter well over the bore",
    )?;
    put(&mut book.bearings, made, |b| same(&b.designation, &name));
    Ok(())
}

fn bush(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let shaft = e.number("shaft", None);
    let base = book.bush(shaft).ok().cloned();
    let housing = e.number("housing", base.as_ref().map(|b| b.housing_mm));
    let fit = |key: &str, of: fn(&Bush) -> String, usual: &str| {
        e.text(key).or(base.as_ref().map(of)).unwrap_or_else(|| usual.into())
    };
    let (shaft_fit, housing_fit) = (
        fit("shaft_fit", |b| b.shaft_fit.clone(), "f7"),
        fit("housing_fit", |b| b.housing_fit.clone(), "H7"),
    );
    // Walls of ISO 3547-1 are a few micrometres over the gap at most and 25 um under it (from the table).
    let wall = (housing - shaft) / 2.0;
    let made = Bush {
        shaft_mm: shaft,
        housing_mm: housing,
        wall_max_mm: wall + 0.005,
        wall_min_mm: wall - 0.02,
        shaft_fit,
        housing_fit,
        lengths_mm: e.numbers("lengths", base.as_ref().map(|b| b.lengths_mm.clone())),
        from: Listed::Shelf(line),
    };
    e.whole()?;
    e.together(
        housing > shaft + 0.2,
        "housing",
        "it is not wider than the shaft",
        "a housing bore over the shaft by two walls",
    )?;
    for (key, class, nominal) in
        [("shaft_fit", &made.shaft_fit, shaft), ("housing_fit", &made.housing_fit, housing)]
    {
        let sound = crate::catalogue::fits::limits(nominal, class).is_ok();
        e.together(
            sound,
            key,
            "there is no such class of ISO 286 at this size",
            "a letter and a grade, for example H7 or f7",
        )?;
    }
    put(&mut book.bushes, made, |b| (b.shaft_mm - shaft).abs() < 0.01);
    book.bushes.sort_by(|a, b| a.shaft_mm.total_cmp(&b.shaft_mm));
    Ok(())
}

fn linear(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let name = e.text_or("name", None);
    let base =
        e.base(|name| book.linear_bushing(name).cloned(), |name| book.linear_bushing(name).ok().cloned())?;
    let known = |of: fn(&LinearBushing) -> f64| base.as_ref().map(of);
    let made = LinearBushing {
        designation: name.clone(),
        family: base.as_ref().map_or_else(|| "own".into(), |b| b.family.clone()),
        shaft_mm: e.number("shaft", known(|b| b.shaft_mm)),
        outer_mm: e.number("outer", known(|b| b.outer_mm)),
        length_mm: e.number("length", known(|b| b.length_mm)),
        grooves_mm: base.as_ref().and_then(|b| b.grooves_mm),
        dynamic_n: e.number("dynamic", known(|b| b.dynamic_n)),
        static_n: e.number("static", known(|b| b.static_n)),
        from: Listed::Shelf(line),
    };
    e.whole()?;
    e.together(
        made.outer_mm > made.shaft_mm + 2.0,
        "outer",
        "no balls fit between shaft and outside",
        "an outside diameter well over the shaft",
    )?;
    put(&mut book.linear_bushings, made, |b| same(&b.designation, &name));
    Ok(())
}

fn ring(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let (inner_mm, section_mm) = (e.number("inner", None), e.number("section", None));
    e.whole()?;
    let names: Vec<String> = SECTIONS_MM.iter().map(|section| format!("{section} mm")).collect();
    let sound = SECTIONS_MM.iter().any(|section| (section - section_mm).abs() < 0.01);
    e.together(
        sound,
        "section",
        "no groove is known for this section",
        &format!("one of {}", names.join(", ")),
    )?;
    let designation = e.text("name").unwrap_or_else(|| format!("{inner_mm}x{section_mm}"));
    let tolerance_mm = [(0.01 * inner_mm).max(0.13), 0.09];
    let made = ORing { designation, inner_mm, section_mm, tolerance_mm, from: Listed::Shelf(line) };
    put(&mut book.rings, made, |r| {
        (r.inner_mm - inner_mm).abs() < 0.005 && (r.section_mm - section_mm).abs() < 0.005
    });
    Ok(())
}

fn belt(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let section = e.text_or("section", None);
    let teeth = e.number("teeth", None) as usize;
    e.whole()?;
    let Ok(known) = belt_section(&section) else { return Ok(()) };
    let own = BeltLength {
        pitch_length_mm: teeth as f64 * known.pitch_mm,
        teeth,
        availability: "yours".into(),
        from: Listed::Shelf(line),
        section,
    };
    let section = known.name.clone();
    put(&mut book.belts, own, |b| b.teeth == teeth && same(&b.section, &section));
    Ok(())
}

fn screw(book: &mut Catalogue, e: &mut Entry, line: String) -> Result<(), Wrong> {
    let thread = e.text_or("thread", None);
    let lengths_mm = e.numbers("lengths", None);
    e.whole()?;
    book.screws.push(OwnScrews { thread, lengths_mm, from: Listed::Shelf(line) });
    Ok(())
}

fn can(shelf: &mut Shelf, e: &mut Entry, line: String, values: Values) -> Result<(), Wrong> {
    let name = e.text_or("name", None);
    let [diameter_mm, length_mm, wall_mm] = ["diameter", "length", "wall"].map(|key| e.number(key, None));
    e.whole()?;
    e.together(
        2.0 * wall_mm < diameter_mm,
        "wall",
        "it is thicker than the can",
        "a wall under half the diameter",
    )?;
    let material = e.text("material");
    let own =
        Can { name: name.clone(), diameter_mm, length_mm, wall_mm, material, from: Listed::Shelf(line) };
    put(&mut Arc::make_mut(&mut shelf.catalogue).cans, own, |can| can.name == name);
    shelf.cans.insert(name, values);
    Ok(())
}

fn stock(shelf: &mut Shelf, values: Values) -> Result<(), Wrong> {
    if let Some((place, said)) = stock_item(&values) {
        return Err(Box::new(said.at(place)));
    }
    shelf.stock.push(values);
    Ok(())
}
