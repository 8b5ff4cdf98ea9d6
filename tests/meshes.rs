//! The meshes of all parts of all samples: closed, of the solid's volume, within the chord error.

use rayon::prelude::*;
use std::fs;
use swept::design::read;
use swept::parts::part::Part;
use swept::parts::part_set;
use swept::shape::measure::measure;
use swept::shape::mesh::{Mesh, mesh};
use swept::shape::solid::{Solid, Surface, build};
use swept::shape::Point3;
use swept::sizing::answer::size;

/// Greatest distance of a triangle from the solid \[mm\].
const WITHIN_MM: f64 = 0.02;

fn samples() -> Vec<(String, Vec<Part>)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-designs");
    let mut files: Vec<_> = fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    files.retain(|p| p.extension().is_some_and(|e| e == "toml"));
    files.sort();
    let all: Vec<_> = files
        .par_iter()
        .filter_map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            // a sample that leaves something open would be searched first; the outside check meshes that one too
            let (design, _) = read(&name, &fs::read(path).unwrap(), &[]).ok()?;
            let design = swept::sizing::drive_train::settled(&design);
            let sized = size(&design).unwrap();
            Some((name, part_set(&sized.engine, &design.workshop, 0.0).parts))
        })
        .collect();
    assert!(all.len() >= 5);
    all
}

/// Least distance of a point from the surfaces of a solid \[mm\]; a mesh that is wrong lies off all of them.
fn off(surfaces: &[Surface], p: Point3) -> f64 {
    surfaces.iter().map(|s| s.side(p).abs()).fold(f64::INFINITY, f64::min)
}

fn check(name: &str, solid: &Solid) -> Mesh {
    let found = mesh(solid).unwrap_or_else(|e| panic!("{name}: {e}"));
    assert_eq!(found.open_edges(), 0, "{name}");
    let (volume, exact) = (found.volume_mm3(), measure(solid).volume_mm3);
    assert!((volume / exact - 1.0).abs() < 2e-3, "{name}: {volume} mm³ and not {exact} mm³");
    let surfaces: Vec<Surface> = solid.faces().map(|f| f.surface()).collect();
    for triangle in &found.triangles {
        let [a, b, c] = found.corners(*triangle);
        let far = [a + (b - a) * 0.5, b + (c - b) * 0.5, c + (a - c) * 0.5, a + ((b - a) + (c - a)) / 3.0]
            .map(|p| off(&surfaces, p));
        assert!(far.iter().all(|d| *d < WITHIN_MM), "{name}: {far:?} mm off at {a:?} {b:?} {c:?}");
    }
    found
}

#[test]
fn meshes_of_all_parts_of_all_samples_are_closed_and_true() {
    let all = samples();
    let parts: Vec<(&String, &Part)> =
        all.iter().flat_map(|(sample, parts)| parts.iter().map(move |p| (sample, p))).collect();
    let meshed: usize = parts
        .par_iter()
        .filter_map(|(sample, part)| {
            let solid = build(part.recipe.as_ref()?).unwrap();
            check(&format!("{} of {sample}", part.name), &solid);
            Some(1)
        })
        .sum();
    assert!(meshed > 130, "{meshed}");
}
