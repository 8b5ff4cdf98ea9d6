//! A regenerator on the displacer: it fits, the gas path knows it, its strip is listed to be cut.

use swept::design::{Design, read};
use swept::parts::part_set;
use swept::sizing::answer::{full_engine, size};
use swept::sizing::cycle::transfer::Surface;
use swept::sizing::verdict::{Change, NetWork};

const PUMP: &[u8] = include_bytes!("../sample-designs/allotment-pump.toml");

fn design(sets: &[(&str, &str)]) -> Design {
    let sets: Vec<(String, String)> = sets.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    read("pump.toml", PUMP, &sets).expect("a sound design").0
}

#[test]
fn bore_gap_matrix_and_displacer_add_up() {
    for kind in ["mesh", "wool", "foil"] {
        let design = design(&[("regenerator.kind", kind)]);
        let engine = size(&design).unwrap_or_else(|said| panic!("{kind}: {said:?}")).engine;
        let d = &engine.displacer;
        let r = d.regenerator.as_ref().expect("a regenerator");
        let across = d.diameter_mm + 2.0 * (r.thickness_mm + d.gap_mm);
        assert!((across - d.bore_mm).abs() < 1e-9 && r.length_mm < d.length_mm, "{kind}: {r:?}");
        assert!((0.5..0.95).contains(&r.porosity) && r.layers >= 1, "{kind}: {r:?}");
    }
}

/// The element of the gas path holds what the annulus leaves free of metal, as the volumes over the turn say too.
#[test]
fn the_gas_path_holds_the_matrix() {
    let design = design(&[("regenerator.kind", "mesh")]);
    let engine = size(&design).unwrap().engine;
    let net = full_engine(&design, &engine);
    let path = net.gas_path(300.0).unwrap();
    let element = &path.exchangers[0];
    assert!(matches!(element.surface, Surface::WovenMesh { .. }) && element.name == "regenerator");
    let d = &engine.displacer;
    let ring = std::f64::consts::FRAC_PI_4 * (d.bore_mm.powi(2) - d.diameter_mm.powi(2)) * d.length_mm;
    let metal = d.regenerator.as_ref().unwrap().metal_mm3();
    let step = std::f64::consts::FRAC_PI_4
        * ((d.bore_mm + 1.0).powi(2) - d.bore_mm.powi(2))
        * engine.joints.hot_gasket_mm;
    assert!((element.volume_m3 * 1e9 / (ring - metal + step) - 1.0).abs() < 1e-9);
    assert!(net.at(300.0, &Change::NONE).is_ok());
}

/// What a regenerator is for (any textbook on these engines): less heat for each turn of the cycle.
#[test]
fn it_saves_heat() {
    let heat = |sets: &[(&str, &str)]| {
        let design = design(sets);
        let engine = size(&design).unwrap().engine;
        let work = full_engine(&design, &engine).at(300.0, &Change::NONE).unwrap();
        work.heat.cycle_w
    };
    assert!(heat(&[("regenerator.kind", "mesh")]) < 0.8 * heat(&[]));
}

#[test]
fn its_strip_is_listed_and_drawn() {
    for (kind, note) in [("mesh", "woven mesh"), ("wool", "Wool of"), ("foil", "dimples")] {
        let design = design(&[("regenerator.kind", kind)]);
        let engine = size(&design).unwrap().engine;
        let set = part_set(&engine, &design.workshop, 0.0);
        let find = |name: &str| set.parts.iter().find(|p| p.name == name).unwrap();
        let (sleeve, strip) = (find("regenerator"), find("regenerator-strip"));
        assert!(strip.flat && strip.notes.iter().any(|n| n.contains(note)), "{kind}: {:?}", strip.notes);
        assert!(!sleeve.cautions.is_empty() && sleeve.recipe.is_some());
        assert!(set.instances.iter().any(|i| i.part == "regenerator"));
    }
    let without = size(&design(&[])).unwrap().engine;
    assert!(
        part_set(&without, &design(&[]).workshop, 0.0).parts.iter().all(|p| !p.name.starts_with("regen"))
    );
}

#[test]
fn one_that_does_not_fit_is_refused() {
    for wrong in [("regenerator.length", "150 mm"), ("regenerator.thickness", "0.3 mm")] {
        let said = size(&design(&[("regenerator.kind", "mesh"), wrong])).unwrap_err();
        assert!(said.iter().all(|d| d.code == "swept::range" && d.hint.is_some()), "{said:?}");
    }
}
