//! The meshes of all parts of all samples: closed, of the solid's volume, within the chord error.

use rayon::prelude::*;
use std::fs;
use swept::design::read;
use swept::parts::aids::{AidKind, aids};
use swept::parts::part::Part;
use swept::parts::part_set;
use swept::shape::Point3;
use swept::shape::measure::measure;
use swept::shape::mesh::{Mesh, mesh};
use swept::shape::recipe::{Body, ProfileNode, Recipe};
use swept::shape::solid::{Solid, Surface, build};
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

/// Whether a point lies near one of the surfaces of a solid; the one that was near last is asked first.
fn is_near(surfaces: &[Surface], last: &mut usize, p: Point3) -> bool {
    let near = |s: &Surface| s.side(p).abs() < WITHIN_MM;
    if near(&surfaces[*last]) {
        return true;
    }
    let found = surfaces.iter().position(near);
    *last = found.unwrap_or(*last);
    found.is_some()
}

fn check(name: &str, solid: &Solid) -> Mesh {
    let found = mesh(solid).unwrap_or_else(|e| panic!("{name}: {e}"));
    assert_eq!(found.open_edges(), 0, "{name}");
    let (volume, exact) = (found.volume_mm3(), measure(solid).volume_mm3);
    assert!((volume / exact - 1.0).abs() < 2e-3, "{name}: {volume} mm³ and not {exact} mm³");
    let surfaces: Vec<Surface> = solid.faces().map(|f| f.surface()).collect();
    let mut last = 0;
    for triangle in &found.triangles {
        let [a, b, c] = found.corners(*triangle);
        let (ab, ac) = (b - a, c - a);
        for p in [a + ab * 0.5, a + ac * 0.5, a + (ab + ac) * 0.5, a + (ab + ac) / 3.0] {
            assert!(is_near(&surfaces, &mut last, p), "{name}: {p:?} in {a:?} {b:?} {c:?}");
        }
    }
    found
}

/// Balls are in no sample: a rod with a ball end, whose one face has a point on the axis, and a barrel between two rings.
#[test]
fn balls_are_meshed_from_their_poles_too() {
    let node = ProfileNode::new;
    let turned = |nodes: Vec<ProfileNode>| Recipe { body: Body::Turned(nodes), features: Vec::new() };
    let ball_end = turned(vec![
        node(0.0, 0.0),
        node(6.0, 0.0),
        node(6.0, 8.0),
        ProfileNode::arc(10.0, 8.0, 0.0, 8.0, true),
        node(0.0, 18.0),
    ]);
    let barrel = turned(vec![
        node(0.0, -6.0),
        ProfileNode::arc(8.0, -6.0, 0.0, 0.0, true),
        node(8.0, 6.0),
        node(0.0, 6.0),
    ]);
    for (name, recipe) in [("ball end", ball_end), ("barrel", barrel)] {
        let solid = build(&recipe).unwrap();
        assert!(solid.faces().any(|f| f.surface().kind() == "sphere"), "{name}");
        let found = check(name, &solid);
        assert!(found.triangles.len() > 500, "{name}: {}", found.triangles.len());
    }
}

#[test]
fn a_hole_in_a_mesh_is_found() {
    let node = ProfileNode::new;
    let disc = Recipe {
        body: Body::Turned(vec![node(0.0, 0.0), node(5.0, 0.0), node(5.0, 2.0), node(0.0, 2.0)]),
        features: Vec::new(),
    };
    let mut found = mesh(&build(&disc).unwrap()).unwrap();
    found.triangles.pop();
    assert_eq!(found.open_edges(), 3);
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

/// Every gasket has a template whose cut edges stand back by the blade, screw holes stay as they are; jigs hold bushes of
/// DIN 179 on the circle that they are for; nothing of it is on the parts list.
#[test]
fn aids_follow_the_parts_they_serve() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-designs/stove-fan.toml");
    let sets = [("workshop.blade_offset", "0.3 mm"), ("outputs.guide_height", "8 mm")];
    let sets = sets.map(|(key, value)| (key.to_owned(), value.to_owned()));
    let (design, _) = read("stove-fan.toml", &fs::read(path).unwrap(), &sets).unwrap();
    let sized = size(&design).unwrap();
    let set = part_set(&sized.engine, &design.workshop, 0.0);
    let all = aids(&set, &design);
    let size_of = |part: &Part, name: &str| {
        let sizes = part.recipe.as_ref().unwrap().sizes();
        sizes.iter().find(|s| s.name == name).unwrap_or_else(|| panic!("{name} of {}", part.name)).value
    };
    let mut templates = 0;
    for gasket in set.joints.iter().filter_map(|j| j.gasket.as_ref()) {
        let part = set.parts.iter().find(|p| p.name == *gasket).unwrap();
        let name = format!("{gasket}-knife-template");
        let aid = all.made.iter().find(|a| a.part.name == name).unwrap_or_else(|| panic!("{name}"));
        assert_eq!((aid.kind, &aid.of), (AidKind::KnifeTemplate, &vec![gasket.clone()]));
        assert_eq!(size_of(&aid.part, "guide-height"), 8.0);
        assert!((size_of(&aid.part, "opening") - size_of(part, "opening") - 0.6).abs() < 1e-9);
        let hole =
            if gasket.contains("power") || gasket.contains("jacket") { "stud-hole" } else { "bolt-hole" };
        assert!((size_of(&aid.part, hole) - size_of(part, hole)).abs() < 1e-9);
        let box_of = |p: &Part| measure(&build(p.recipe.as_ref().unwrap()).unwrap()).high;
        assert!((box_of(part).x - box_of(&aid.part).x - 0.3).abs() < 1e-6, "{name}");
        assert!(aid.part.cautions.iter().any(|c| c.contains("blade")));
        templates += 1;
    }
    assert_eq!(templates, 4);
    let jigs: Vec<_> = all.made.iter().filter(|a| a.kind == AidKind::DrillingJig).collect();
    assert!(jigs.len() >= 4, "{:?}", all.left_out);
    for jig in jigs {
        let bush = size_of(&jig.part, "bush-hole");
        assert!(swept::catalogue::drill_bushes::drill_bushes().iter().any(|b| b.outer_mm == bush));
        assert!(jig.of.iter().all(|of| set.parts.iter().any(|p| p.name == *of)));
    }
    let prints = all.made.iter().filter(|a| a.kind == AidKind::TrialPrint);
    for aid in prints {
        assert!(aid.part.cautions.iter().any(|c| c.contains("without pressure")), "{}", aid.part.name);
    }
    assert!(all.left_out.iter().all(|l| !l.why.is_empty()));
}
