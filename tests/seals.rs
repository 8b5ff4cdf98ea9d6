//! The seal of the piston by kind: grooves, parts, leak and friction follow `piston.seal`.

use swept::design::{Design, PistonSeal, read};
use swept::parts::part::Part;
use swept::parts::part_set;
use swept::sizing::answer::{full_engine, size};
use swept::sizing::engine::Engine;
use swept::sizing::layouts::mechanism;

const PUMP: &[u8] = include_bytes!("../sample-designs/allotment-pump.toml");

fn design(sets: &[&str]) -> Design {
    let pair = |set: &&str| set.split_once('=').map(|(key, value)| (key.to_owned(), value.to_owned()));
    let sets: Vec<(String, String)> = sets.iter().filter_map(pair).collect();
    read("pump.toml", PUMP, &sets).expect("a sound design").0
}

fn engine(kind: &str) -> (Design, Engine) {
    let design = design(&[&format!("piston.seal={kind}"), "cold_end.temperature=40 °C"]);
    let engine = size(&design).unwrap_or_else(|said| panic!("{kind}: {said:?}")).engine;
    (design, engine)
}

fn seal_parts(kind: &str) -> Vec<Part> {
    let (design, engine) = engine(kind);
    let set = part_set(&engine, &design.workshop, 0.0);
    set.parts
        .into_iter()
        .filter(|p| {
            p.name.contains("piston-") && p.name != "piston-rod" && p.name != "piston-crank"
                || p.name.contains("expander")
        })
        .collect()
}

/// Ring leak \[kg/(s Pa)\] near the room's pressure, and friction at 0.3 bar \[N\].
fn leak_and_friction(kind: &str) -> (f64, f64) {
    use swept::sizing::cycle::path::{Place, leak::LeakGas};
    let (design, engine) = engine(kind);
    let net = full_engine(&design, &engine);
    let path = net.gas_path(300.0).unwrap();
    let gas = LeakGas { r_j_kg_k: 287.05, gamma: 1.4, viscosity_pa_s: 1.9e-5, temperature_k: 313.0 };
    let leak = path.leaks.iter().filter(|l| l.from == Place::Power);
    let leak = leak.map(|l| l.kind.conductance_kg_s_pa(1.3e5, 1e5, &gas)).sum();
    let drive = mechanism(&engine, &net.surroundings.choices).unwrap();
    (leak, drive.piston.seals.rings.map_or(0.0, |r| r.force_n(30_000.0)))
}

#[test]
fn every_kind_has_its_parts() {
    let names = |kind| -> Vec<(String, usize)> {
        seal_parts(kind).into_iter().map(|p| (p.name, p.quantity)).collect()
    };
    let pair = |name: &str, n| (name.to_owned(), n);
    assert_eq!(names("ptfe-ring"), [pair("piston-ring", 2), pair("ring-expander", 2)]);
    assert_eq!(names("metal-ring"), [pair("piston-ring", 2), pair("piston-ring-free", 2)]);
    assert_eq!(names("graphite-ring"), [pair("piston-ring-segment", 6), pair("ring-expander", 2)]);
    assert_eq!(names("o-ring"), [pair("piston-o-ring", 2)]);
    assert_eq!(names("lip-ring"), [pair("piston-ring", 2)]);
    assert_eq!(names("fitted"), []);
    assert_eq!(PistonSeal::NAMES.len(), 6, "no kind is left out above");
}

/// Trade knowledge (common practice, no source): rubber is tightest and rubs most of all, a close fit rubs least, PTFE runs
/// lighter than iron.
#[test]
fn leak_and_friction_rank_as_the_trade_knows_them() {
    let all = ["ptfe-ring", "metal-ring", "o-ring", "graphite-ring", "lip-ring", "fitted"];
    let found: Vec<(f64, f64)> = all.into_iter().map(leak_and_friction).collect();
    let [ptfe, metal, rubber, graphite, lip, fitted] = found[..] else { panic!() };
    assert!(all.iter().zip(&found).all(|(_, (leak, _))| *leak > 0.0), "{found:?}");
    assert!(rubber.0 < lip.0 && lip.0 < metal.0 && metal.0 < graphite.0, "{found:?}");
    assert!(rubber.1 > metal.1 && metal.1 > ptfe.1 && rubber.1 > lip.1, "{found:?}");
    assert_eq!(fitted.1, 0.0, "the skirt counts with the guides");
    assert!(graphite.0 > ptfe.0, "three gaps to one");
}

/// Gaps never close when hot, cold ones are drawn; the sheet says how to set them.
#[test]
fn rings_are_told_with_their_gaps_and_how_to_fit_them() {
    for kind in ["ptfe-ring", "metal-ring", "graphite-ring"] {
        let (_, engine) = engine(kind);
        let seal = &engine.piston.seal;
        assert!(seal.gap_hot_mm > 0.0 && seal.gap_mm > 0.0, "{kind}: {seal:?}");
        let parts = seal_parts(kind);
        let notes = parts.iter().flat_map(|p| &p.notes).cloned().collect::<Vec<_>>().join(" ");
        assert!(notes.contains("hot") && notes.contains("N on the bore"), "{kind}: {notes}");
        assert!(notes.contains("half a turn apart") || notes.contains("between those"), "{kind}: {notes}");
    }
    let ptfe = seal_parts("ptfe-ring");
    assert!(ptfe[0].cautions.iter().any(|c| c.contains("260 °C")));
    assert!(ptfe[0].flat, "it has an outline to cut");
    assert!(seal_parts("metal-ring")[1].flat, "the free shape too");
}

#[test]
fn a_tight_piston_that_grows_is_refused() {
    let tight = design(&[
        "piston.seal=fitted",
        "piston.side_clearance=0.02 mm",
        "block.material=cast-iron",
        "cold_end.temperature=60 °C",
    ]);
    let said = size(&tight).unwrap_err();
    assert!(said.iter().any(|d| d.code == "swept::range" && d.message.contains("jams")), "{said:?}");
    let both = design(&["piston.seal=fitted", "piston.rings=2"]);
    assert!(size(&both).unwrap_err().iter().any(|d| d.code == "swept::contradiction"));
}
