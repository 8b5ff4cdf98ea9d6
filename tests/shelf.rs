//! A shelf file over the catalogue: what it adds and overrides, what is refused, that results hang on it.

use std::fs;
use std::process::{Command, Output};
use swept::catalogue::Catalogue;
use swept::design::{Design, read_shelf, read_with, shelf_named, shelf_schema, shelf_starter};
use swept::diagnostic::Diagnostic;
use swept::pipeline::build;
use swept::sizing::answer::size;

const PUMP: &str = include_str!("../sample-designs/allotment-pump.toml");

/// A shelf as a builder might have it.
const SHELF: &str = r#"
[[material]]
name = "boiler-tube"
like = "stainless-316"
title = "Stainless tube, unknown grade"
service_limit = "600 °C"

[[material]]
name = "cork"
density = "240 kg/m³"
heat_capacity = "1.9 kJ/(kg K)"
expansion = "40 µm/(m K)"
modulus = "30 MPa"
service_limit = "110 °C"
[[material.at]]
temperature = "20 °C"
conductivity = "0.045 W/(m K)"
allowable = "1 MPa"
[[material.at]]
temperature = "110 °C"
conductivity = "0.05 W/(m K)"
allowable = "0.5 MPa"

[[gas]]
name = "argon"
molar_mass = "39.948 g/mol"
heat_capacity = "520.3 J/(kg K)"
viscosity = "22.7 µPa s"
viscosity_exponent = 0.77
conductivity = "0.0178 W/(m K)"
conductivity_exponent = 0.76

[[gasket]]
name = "cork-sheet"
like = "paper-oiled"
material = "cork"
thicknesses = ["1.5 mm", "3 mm"]

[[bearing]]
name = "608"
width = "7.2 mm"

[[bearing]]
name = "skate-8"
like = "608-2RS"
dynamic = "3 kN"

[[bush]]
shaft = "8 mm"
lengths = ["7 mm", "9 mm"]

[[o_ring]]
inner = "7.8 mm"
section = "1.78 mm"

[[belt]]
section = "3M"
teeth = 91

[[screw]]
thread = "M4"
lengths = ["14 mm", "18 mm"]

[[can]]
name = "tea-tin"
diameter = "94 mm"
length = "109 mm"
wall = "0.25 mm"
material = "mild-steel"

[[stock]]
shape = "round"
material = "boiler-tube"
size = "111 mm"
"#;

fn design(sets: &[(&str, &str)]) -> Result<Design, Vec<Diagnostic>> {
    let shelf = read_shelf("shelf.toml", SHELF.as_bytes()).unwrap_or_else(|said| panic!("{said:#?}"));
    let all = [("workshop.shelf", "shelf.toml")].iter().chain(sets);
    let sets: Vec<(String, String)> = all.map(|(key, value)| ((*key).into(), (*value).into())).collect();
    read_with("pump.toml", PUMP.as_bytes(), &sets, Some(&shelf)).map(|(design, _)| design)
}

/// Line of the shelf that holds a text.
fn line(text: &str) -> usize {
    SHELF.lines().position(|line| line.contains(text)).unwrap() + 1
}

fn refused(shelf: &str) -> Vec<Diagnostic> {
    read_shelf("shelf.toml", shelf.as_bytes()).expect_err("this shelf is wrong")
}

#[test]
fn entries_stand_over_the_tables_and_beside_them() {
    let book = design(&[]).unwrap().catalogue;
    let standard = Catalogue::standard();
    assert_eq!(book.bearing("608ZZ").unwrap().width_mm, 7.2);
    assert_eq!(book.bearing("608").unwrap().outer_mm, 22.0, "what is not written stays");
    assert_eq!(standard.bearing("608").unwrap().width_mm, 7.0);
    let own = book.bearing("SKATE 8").unwrap();
    assert_eq!((own.width_mm, own.dynamic_n, own.static_n), (7.2, 3000.0, 1370.0));
    assert_eq!(own.from.to_string(), format!("your shelf file, shelf.toml:{}", line("skate-8")));
    assert_eq!(book.bush(8.0).unwrap().lengths_mm, [7.0, 9.0]);
    assert_eq!(book.bush(8.0).unwrap().housing_mm, 10.0);
    assert_eq!(book.ring_nearest(1.78, 7.8).unwrap().inner_mm, 7.8);
    assert_eq!(book.bearings.len(), standard.bearings.len() + 1);
    let tube = book.material("boiler-tube").unwrap();
    assert_eq!((tube.service_limit_c.round(), tube.density_kg_m3), (600.0, 8027.0));
    let cork = book.material("cork").unwrap();
    assert!((cork.conductivity_w_m_k(65.0) - 0.0475).abs() < 1e-9 && cork.allowable_mpa(111.0).is_none());
    assert_eq!((cork.heat_capacity_j_kg_k, cork.youngs_modulus_gpa), (1900.0, 0.03));
    let sheet = book.gasket_sheet("cork-sheet").unwrap();
    assert_eq!((sheet.material.as_str(), sheet.sheet_for_mm(1.2), sheet.factor_m), ("cork", 1.5, 1.75));
    let argon = book.gas("argon").unwrap();
    // Argon: kappa 5/3, R 208.13 J/(kg K), Pr 0.66 (common knowledge of a gas of single atoms; from memory).
    assert!((argon.gamma(300.0) - 5.0 / 3.0).abs() < 0.002 && (argon.r_j_kg_k - 208.13).abs() < 0.01);
    assert!((argon.prandtl(300.0) - 0.66).abs() < 0.01);
}

#[test]
fn a_design_uses_what_is_on_the_shelf_and_says_so() {
    let sets = [
        ("engine.gas", "argon"),
        ("hot_end.material", "boiler-tube"),
        ("joints.cold_seal", "gasket"),
        ("joints.cold_gasket", "cork-sheet"),
        ("drive.journal_bearing", "skate-8"),
    ];
    let design = design(&sets).unwrap();
    let sized = size(&design).unwrap_or_else(|said| panic!("{said:#?}"));
    let e = &sized.engine;
    let origin = |path: &str| e.ledger.get(path).unwrap().origin.to_string();
    assert_eq!(e.drive.journal_bearing.designation, "skate-8");
    assert_eq!(
        origin("drive.journal_bearing"),
        format!("given (your shelf file, shelf.toml:{})", line("skate-8"))
    );
    assert!(origin("drive.crankpin_bearing").contains("ISO 15"));
    assert_eq!(e.joints.hot.screw_mm, 14.0, "grip 7 mm and 6 mm of thread");
    assert_eq!(origin("back.thickness"), format!("given (your shelf file, shelf.toml:{})", line("shaft =")));
    assert_eq!((e.ledger.get("back.thickness").unwrap().value, e.gland.bush.lengths_mm.len()), (9.0, 2));
    let built = build(&design, None).unwrap_or_else(|said| panic!("{said:#?}"));
    let part = |name: &str| built.set.parts.iter().find(|part| part.name == name).unwrap();
    assert_eq!(part("hot-cap").material.name, "Stainless tube, unknown grade");
    assert_eq!(part("cold-cylinder-gasket").material.density_kg_m3, 240.0);
    assert_eq!(part("piston").material.name, "Aluminium EN AW-6082 T6");
    assert_eq!(design.workshop.stock.last().unwrap().size_mm.value, 111.0);
}

#[test]
fn a_can_of_the_shelf_becomes_the_displacer() {
    let named = design(&[("displacer.can", "tea-tin"), ("joints.cold_seal", "gasket")]).unwrap();
    let d = &named.displacer;
    assert_eq!(d.can_diameter_mm.as_ref().unwrap().value, 94.0);
    assert_eq!(
        d.can_wall_mm.as_ref().unwrap().from.to_string(),
        format!("given in your shelf file shelf.toml:{}:8", line("wall ="))
    );
    assert_eq!(d.material.value, "mild-steel");
    let sized = size(&named).unwrap_or_else(|said| panic!("{said:#?}"));
    assert!(sized.engine.displacer.bought_can && sized.engine.displacer.diameter_mm == 94.0);
    let origin = sized.engine.ledger.get("displacer.can_diameter").unwrap().origin.to_string();
    assert_eq!(origin, format!("given (your shelf file, shelf.toml:{})", line("diameter =")));
    let said = design(&[("displacer.can", "tea-tin"), ("displacer.can_wall", "0.3 mm")]).unwrap_err();
    assert_eq!(said[0].code, "swept::together");
    let said = design(&[("displacer.can", "tea-tim")]).unwrap_err();
    assert_eq!(said[0].hint.as_deref(), Some("did you mean \"tea-tin\"?"));
}

#[test]
fn mistakes_are_told_with_their_place_all_at_once() {
    let said = refused(
        "[[bearing]]\nname = \"odd\"\nbore = \"8 mm\"\n\n[[bearing]]\nname = \"608\"\nouter = \"5 mm\"\n\n\
         [[gas]]\nname = \"argon\"\nmolar_mass = \"39.948\"\n\n[[bush]]\nhousing = \"9 mm\"\n\n\
         [[o_ring]]\ninner = \"8 mm\"\nsection = \"2.2 mm\"\n\n[[sprocket]]\nteeth = 12\n\n[belt]\nteeth = 80\n",
    );
    let lines: Vec<(usize, &str)> =
        said.iter().map(|d| (d.place.as_ref().map_or(0, |place| place.line), d.code)).collect();
    let wanted = [
        (2, "swept::missing"),
        (7, "swept::together"),
        (11, "swept::unit"),
        (13, "swept::missing"),
        (18, "swept::together"),
        (20, "swept::unknown-table"),
    ];
    for line in wanted {
        assert!(lines.contains(&line), "{line:?} is not in {lines:?}");
    }
    assert!(
        said.iter()
            .any(|d| d.code == "swept::type" && d.hint.as_ref().is_some_and(|h| h.contains("[[belt]]")))
    );
    let lacks = &said[0];
    assert!(lacks.message.contains("outer, width, corner, dynamic, static"), "{}", lacks.message);
    assert!(lacks.hint.as_ref().unwrap().contains("like"));
    assert!(said.iter().all(|d| d.place.as_ref().is_some_and(|place| place.file == "shelf.toml")));
    assert_eq!(
        refused("[[bearing]]\nname = \"x\"\nlike = \"6088\"\n")[0].hint.as_deref(),
        Some("did you mean \"608\"?")
    );
    assert_eq!(
        refused("[[can]]\nname = \"a\\u001bb\"\ndiameter = \"9 mm\"\nlength = \"9 mm\"\nwall = \"1 mm\"\n")
            [0]
        .code,
        "swept::name"
    );
    assert_eq!(refused("x = = 1")[0].code, "swept::syntax");
}

#[test]
fn a_shelf_that_was_not_read_is_told_at_the_key() {
    let text = format!("{PUMP}\n");
    let sets = vec![("workshop.shelf".to_owned(), "shelf.toml".to_owned())];
    let said = swept::design::read("pump.toml", text.as_bytes(), &sets).unwrap_err();
    assert_eq!((said[0].code, said[0].place.as_ref().unwrap().file.as_str()), ("swept::shelf", "--set"));
    assert_eq!(shelf_named(b"[workshop]\nshelf = \"my.toml\"\n", &[]).as_deref(), Some("my.toml"));
    assert_eq!(shelf_named(b"[workshop", &[]), None);
}

#[test]
fn starter_and_schema_know_every_list() {
    let starter = shelf_starter();
    assert!(
        read_shelf("shelf.toml", format!("{starter}\n[[belt]]\nsection = \"5M\"\nteeth = 80\n").as_bytes())
            .is_ok()
    );
    let schema = shelf_schema();
    for table in swept::design::SHELF {
        assert!(starter.contains(&format!("# [[{}]]", table.name)), "{}", table.name);
        let keys = schema["properties"][table.name]["items"]["properties"].as_object().unwrap();
        assert_eq!(keys.len(), table.keys.len(), "{}", table.name);
    }
}

fn swept(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_swept")).args(arguments).output().unwrap()
}

#[test]
fn the_program_finds_the_shelf_beside_the_design() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).display().to_string();
    fs::write(at("pump.toml"), PUMP).unwrap();
    fs::write(at("shelf.toml"), SHELF).unwrap();
    let set = ["--set", "workshop.shelf=shelf.toml"];
    let done = swept(&[
        "size",
        &at("pump.toml"),
        set[0],
        set[1],
        "--set",
        "drive.journal_bearing=skate-8",
        "--why",
        "drive.journal_bearing",
    ]);
    let said = String::from_utf8(done.stdout).unwrap();
    assert!(done.status.success() && said.contains("your shelf file"), "{said}");
    let gone = swept(&["check", &at("pump.toml"), "--set", "workshop.shelf=nothing.toml"]);
    assert_eq!(gone.status.code(), Some(3));
    fs::write(at("shelf.toml"), "[[can]]\nname = \"x\"\n").unwrap();
    let wrong = swept(&["check", &at("pump.toml"), set[0], set[1]]);
    assert_eq!(wrong.status.code(), Some(1));
    assert!(
        String::from_utf8_lossy(&wrong.stderr).contains("shelf.toml:1:1"),
        "{}",
        String::from_utf8_lossy(&wrong.stderr)
    );
    fs::write(at("shelf.toml"), SHELF).unwrap();
    let argon = [
        "explore",
        &at("pump.toml"),
        set[0],
        set[1],
        "--set",
        "model.cycle=isothermal",
        "--over",
        "engine.gas=air, argon",
    ];
    let swept_over = swept(&argon);
    assert!(swept_over.status.success(), "{}", String::from_utf8_lossy(&swept_over.stderr));
    assert!(String::from_utf8_lossy(&swept_over.stdout).contains("\nargon,isothermal,"));
}

#[test]
fn the_catalogue_command_lists_names_sizes_and_sources() {
    let text = |arguments: &[&str]| String::from_utf8(swept(arguments).stdout).unwrap();
    assert!(text(&["catalogue"]).contains("bearings"));
    let bearings = text(&["catalogue", "bearings"]);
    assert!(bearings.contains("608") && bearings.contains("ISO 15; SEEN"), "{bearings}");
    assert!(text(&["catalogue", "stainless"]).lines().count() > 3);
    assert_eq!(swept(&["catalogue", "unobtainium"]).status.code(), Some(2));
    let folder = tempfile::tempdir().unwrap();
    let shelf = folder.path().join("shelf.toml");
    fs::write(&shelf, SHELF).unwrap();
    assert!(text(&["catalogue", "cans", "--shelf", &shelf.display().to_string()]).contains("tea-tin"));
}
