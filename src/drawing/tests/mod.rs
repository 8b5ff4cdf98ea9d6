//! Whole sheets of sample parts: completeness, free texts, reproducible bytes.

mod plate_samples;
mod turned_samples;

use super::*;
use crate::parts::part::{Material, Part, Supply};

/// A part around a recipe.
fn part(name: &str, title: &str, recipe: Recipe, material: &str) -> Part {
    Part {
        name: name.to_owned(),
        title: title.to_owned(),
        quantity: 1,
        supply: Supply::Make,
        material: Material { name: material.to_owned(), density_kg_m3: 2700.0, colour: [0.7, 0.7, 0.7] },
        recipe: Some(recipe),
        flat: false,
        blank: None,
        notes: Vec::new(),
        cautions: Vec::new(),
    }
}

/// All samples.
fn samples() -> Vec<Part> {
    use plate_samples as p;
    use turned_samples as t;
    vec![
        t::hot_cap(),
        t::finned_cylinder(),
        t::piston(),
        t::hub(),
        t::rod(),
        p::cooler_plate(),
        p::power_block(),
        p::con_rod(),
        p::crank(),
        p::pulley(),
        p::gasket(),
        p::split_ring(),
    ]
}

fn options() -> SheetOptions {
    SheetOptions {
        owner: "Allotment workshop".into(),
        creator: "A. Turner".into(),
        date: "2026-05-01".into(),
        project: "pump".into(),
        mass_g: Some(123.4),
        ..SheetOptions::default()
    }
}

/// Writes all sheets for looking at: `cargo test --release write_sheets -- --ignored`.
#[test]
#[ignore = "writes files to be looked at"]
fn write_sheets() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("target/sheets");
    std::fs::create_dir_all(&folder).unwrap();
    for part in samples() {
        let start = std::time::Instant::now();
        match sheet(&part, &options()) {
            Ok(text) => std::fs::write(folder.join(format!("{}.svg", part.name)), text).unwrap(),
            Err(e) => println!("{}: {e}", part.name),
        }
        println!("{}: {:?}", part.name, start.elapsed());
    }
}
