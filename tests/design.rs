//! The design file as it should be: values with their units, where they come from, defaults, overrides, starter.

use swept::catalogue::{Catalogue, threads};
use swept::design::*;
use swept::diagnostic::{Diagnostic, Severity};

const SMALL: &str = "\
[engine]
name = \"fan\"
layout = \"gamma-twin-crank\"
[displacer]
bore = \"40 mm\"
stroke = \"20 mm\"
[piston]
bore = \"28 mm\"
stroke = \"20 mm\"
";

fn good(text: &str, sets: &[(&str, &str)]) -> (Design, Vec<Diagnostic>) {
    let sets: Vec<(String, String)> =
        sets.iter().map(|(key, value)| (key.to_string(), value.to_string())).collect();
    read("fan.toml", text.as_bytes(), &sets).unwrap_or_else(|said| panic!("{said:#?}"))
}

#[test]
fn values_know_where_they_come_from() {
    let (design, said) = good(SMALL, &[("piston.stroke", "22 mm"), ("piston.rings", "3")]);
    assert!(said.is_empty(), "{said:?}");
    let file = Source::File { file: "fan.toml".into(), line: 8, column: 8 };
    assert_eq!((design.piston.bore_mm.value, &design.piston.bore_mm.from), (28.0, &file));
    let set = Source::Override { text: "piston.stroke=22 mm".into() };
    assert_eq!((design.piston.stroke_mm.value, &design.piston.stroke_mm.from), (22.0, &set));
    assert_eq!((design.piston.rings.value, design.piston.rings.is_given()), (3, true));
    assert_eq!(design.engine.gas.from, Source::Default { why: "it costs nothing and a leak does no harm" });
    assert_eq!(design.engine.charge_pressure_pa.value, 101_325.0);
    assert_eq!(design.drive.lead_deg.value, 90.0);
    assert_eq!(design.piston.length_mm, None);
    assert_eq!(design.engine.layout.value, Layout::GammaTwinCrank);
    assert!(design.workshop.stock.is_empty());
}

#[test]
fn the_record_says_every_default_out_loud() {
    let (design, _) = good(SMALL, &[]);
    let entry = |path: &str| design.record.iter().find(|entry| entry.path == path).unwrap();
    assert_eq!(entry("drive.lead").text.as_deref(), Some("90°"));
    assert!(matches!(entry("drive.lead").from, Some(Source::Default { why }) if why.len() > 5));
    assert_eq!(entry("piston.stroke").text.as_deref(), Some("20 mm"));
    assert_eq!(entry("piston.length").from, None);
    let keys: usize = Design::TABLES.iter().map(|table| table.keys.len()).sum();
    assert_eq!(design.record.len(), keys);
}

#[test]
fn units_convert_as_the_tables_of_nist_say() {
    // NIST SP 811 (2008), appendix B.8: inch 25.4 mm, psi 6894.757 Pa, atmosphere 101 325 Pa, degree Fahrenheit
    // (t + 459.67) / 1.8; BIPM SI brochure: bar 100 000 Pa, degree Celsius t + 273.15.
    let cases = [
        (Dimension::Length, "27 mm", 27.0),
        (Dimension::Length, "2.7cm", 27.0),
        (Dimension::Length, "0.027 m", 27.0),
        (Dimension::Length, "1/4 in", 6.35),
        (Dimension::Length, "1 1/2 in", 38.1),
        (Dimension::Length, "1.5 inch", 38.1),
        (Dimension::Length, "50 µm", 0.05),
        (Dimension::Length, "2.7e1 mm", 27.0),
        (Dimension::Length, " +27. mm ", 27.0),
        (Dimension::Temperature, "500 °C", 773.15),
        (Dimension::Temperature, "-40 °F", 233.15),
        (Dimension::Temperature, "212 F", 373.15),
        (Dimension::Temperature, "300 K", 300.0),
        (Dimension::Pressure, "2 bar abs", 200_000.0),
        (Dimension::Pressure, "1 bar gauge", 201_325.0),
        (Dimension::Pressure, "100 kPa absolute", 100_000.0),
        (Dimension::Pressure, "0.5 MPa gauge", 601_325.0),
        (Dimension::Pressure, "14.5 psi abs", 99_973.98),
        (Dimension::Pressure, "1 atm abs", 101_325.0),
        (Dimension::Speed, "600 rpm", 600.0),
        (Dimension::Speed, "10 Hz", 600.0),
        (Dimension::Speed, "10 1/s", 600.0),
        (Dimension::Power, "0.012 kW", 12.0),
        (Dimension::Angle, "90°", 90.0),
        (Dimension::Angle, "90 deg", 90.0),
        (Dimension::Angle, "1.5707963267948966 rad", 90.0),
    ];
    for (dimension, text, wanted) in cases {
        let got = read_quantity(dimension, text).unwrap_or_else(|error| panic!("{text}: {error:?}"));
        assert!((got / wanted - 1.0).abs() < 1e-7, "{text}: {got} instead of {wanted}");
    }
}

#[test]
fn a_decimal_length_is_the_number_that_was_typed() {
    for tenths in 1..5000 {
        let text = format!("{} mm", f64::from(tenths) / 10.0);
        assert_eq!(read_quantity(Dimension::Length, &text).unwrap(), f64::from(tenths) / 10.0);
    }
    assert_eq!(read_quantity(Dimension::Length, "1/4 in").unwrap(), 6.35);
    assert_eq!(read_quantity(Dimension::Length, "2.3 cm").unwrap(), 23.0);
}

#[test]
fn bounds_of_a_range_are_allowed_in_every_unit() {
    good(SMALL, &[("piston.bore", "3 mm"), ("engine.charge_pressure", "50 kPa abs")]);
    good(SMALL, &[("hot_end.temperature", "900 °C"), ("cold_end.fin_height", "0 mm")]);
    good(SMALL, &[("hot_end.temperature", "1652 °F"), ("targets.speed", "100 Hz")]);
}

#[test]
fn stock_is_a_list_of_tables() {
    let text = format!(
        "{SMALL}[[workshop.stock]]\nshape = \"flat\"\nmaterial = \"mild-steel\"\nsize = \"50 mm\"\nthickness = \"10 mm\"\n\
         [[workshop.stock]]\nshape = \"round\"\nmaterial = \"brass\"\nsize = \"2 in\"\n"
    );
    let (design, _) = good(&text, &[]);
    let [flat, round] = &design.workshop.stock[..] else { panic!("two pieces") };
    assert_eq!(
        (flat.shape.value, flat.thickness_mm.as_ref().map(|t| t.value)),
        (StockShape::Flat, Some(10.0))
    );
    assert_eq!((round.size_mm.value, &round.length_mm), (50.8, &None));
    assert_eq!(round.material.from, Source::File { file: "fan.toml".into(), line: 17, column: 12 });
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_do_no_harm() {
    let (design, _) = good(&format!("\u{feff}{}", SMALL.replace('\n', "\r\n")), &[]);
    assert_eq!(design.piston.bore_mm.from, Source::File { file: "fan.toml".into(), line: 8, column: 8 });
}

#[test]
fn a_later_step_can_point_at_what_was_written() {
    let (design, _) = good(SMALL, &[("piston.crown", "4 mm")]);
    let at = |path: &str| design.at(path, Diagnostic::error("swept::test", "a test")).place;
    let stroke = at("piston.stroke").unwrap();
    assert_eq!((stroke.file.as_str(), stroke.line, stroke.column), ("fan.toml", 9, 10));
    assert_eq!(&stroke.excerpt[stroke.caret.clone()], "\"20 mm\"");
    assert_eq!(at("piston.crown").unwrap().file, "--set");
    assert_eq!(at("piston.top_clearance"), None, "a default has no place");
}

#[test]
fn an_override_mends_what_the_file_leaves_out() {
    let text = SMALL.replace("bore = \"28 mm\"\n", "");
    assert!(read("fan.toml", text.as_bytes(), &[]).is_err());
    let (design, _) = good(&text, &[("piston.bore", "\"30 mm\"")]);
    assert_eq!(design.piston.bore_mm.value, 30.0);
}

#[test]
fn setting_a_key_twice_is_said() {
    let (design, said) = good(SMALL, &[("piston.bore", "30 mm"), ("piston.bore", "31 mm")]);
    assert_eq!(design.piston.bore_mm.value, 31.0);
    assert_eq!((said.len(), said[0].severity), (1, Severity::Warning));
}

#[test]
fn overrides_point_at_themselves() {
    let sets = [("piston.strok".into(), "28 mm".into()), ("piston.crown".into(), "4".into())];
    let said = read("fan.toml", SMALL.as_bytes(), &sets).unwrap_err();
    let place = |i: usize| said[i].place.as_ref().unwrap();
    assert_eq!(
        (place(0).file.as_str(), &place(0).excerpt[place(0).caret.clone()]),
        ("--set", "piston.strok")
    );
    assert!(said[0].hint.as_ref().unwrap().contains("piston.stroke"));
    assert_eq!((place(1).column, &place(1).excerpt[place(1).caret.clone()]), (14, "4"));
    assert!(said[1].hint.as_ref().unwrap().contains("\"4 mm\""));
}

#[test]
fn the_starter_reads_without_a_word() {
    for name in ["fan", "my-engine"] {
        let (design, said) = good(&starter(Layout::GammaTwinCrank, name), &[]);
        assert!(said.is_empty(), "{said:?}");
        assert_eq!(design.engine.name.value, name);
    }
}

#[test]
fn every_default_of_the_starter_can_be_uncommented() {
    let text = starter(Layout::GammaTwinCrank, "fan");
    let uncommented: Vec<&str> = text.lines().map(uncomment).collect();
    assert!(uncommented.iter().filter(|line| line.contains(" = ")).count() > 60);
    let (all, said) = good(&uncommented.join("\n"), &[]);
    assert!(said.is_empty(), "{said:?}");
    let (bare, _) = good(&text, &[]);
    let texts = |design: &Design| design.record.iter().map(|entry| entry.text.clone()).collect::<Vec<_>>();
    let differ = |i: &usize| texts(&all)[*i] != texts(&bare)[*i];
    let changed: Vec<String> =
        (0..all.record.len()).filter(differ).map(|i| all.record[i].path.clone()).collect();
    assert_eq!(changed, ["workshop.stock", "checks.accept"], "uncommenting changes nothing but the lists");
    assert_eq!((all.workshop.stock.len(), all.checks.accept.len()), (1, 1));
}

/// A commented key with a value, or a commented list entry, without its `# `.
fn uncomment(line: &str) -> &str {
    let Some(bare) = line.strip_prefix("# ") else { return line };
    let key =
        bare.split_once(" = ").filter(|(key, _)| key.chars().all(|c| c.is_ascii_lowercase() || c == '_'));
    let value = key.is_some_and(|(_, value)| !value.starts_with("\"...") && !value.starts_with("..."));
    if value || bare.starts_with("[[") { bare } else { line }
}

/// All keys with the table they belong to, entries of lists too.
fn all_keys() -> Vec<(&'static str, &'static Key)> {
    let mut keys: Vec<(&str, &Key)> =
        Design::TABLES.iter().flat_map(|table| table.keys.iter().map(move |key| (table.name, key))).collect();
    keys.extend(StockItem::KEYS.iter().map(|key| ("workshop.stock", key)));
    keys.extend(Accepted::KEYS.iter().map(|key| ("checks.accept", key)));
    keys
}

#[test]
fn every_key_is_documented_and_named_once() {
    let mut names: Vec<String> =
        all_keys().iter().map(|(table, key)| format!("{table}.{}", key.name)).collect();
    for (table, key) in all_keys() {
        assert!(key.doc.len() > 4 && key.doc.trim().ends_with('.'), "{table}.{}", key.name);
        assert!(!key.doc.contains("  ") && !key.doc.contains('|'), "{table}.{}", key.name);
    }
    names.sort();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count);
}

#[test]
fn every_name_that_can_be_chosen_is_in_the_catalogue() {
    let book = Catalogue::standard();
    for (table, key) in all_keys() {
        if let Kind::Listed(list, names) = key.kind {
            names.iter().for_each(|name| match list {
                List::Material => assert!(book.material(name).is_ok(), "{name}"),
                List::Gas => assert!(book.gas(name).is_ok(), "{name}"),
                List::Gasket => assert!(book.gasket_sheet(name).is_ok(), "{name}"),
                List::Can => panic!("the program knows no cans"),
            });
        }
        let Kind::Choice(names) = key.kind else { continue };
        for name in names {
            match key.name {
                "hot_screw" | "power_screw" => drop(threads::thread(name).unwrap()),
                "hose_thread" => drop(threads::port_thread(name).unwrap()),
                "fuel" => drop(swept::catalogue::fuels::fuel(name).unwrap()),
                "belt_section" => drop(swept::catalogue::belts::belt_section(name).unwrap()),
                "layout" | "kind" | "cycle" | "gland" | "seal" | "cold_seal" | "step_schema"
                | "dxf_version" | "template_paper" | "sheet" | "projection" | "units" | "shape" => {}
                other => panic!("{table}.{other} is not compared with the catalogue"),
            }
        }
    }
    let (design, _) = good(SMALL, &[]);
    for name in
        [&design.drive.journal_bearing, &design.drive.crankpin_bearing, &design.drive.small_end_bearing]
    {
        assert!(book.bearing(&name.value).is_ok());
    }
}

#[test]
fn the_manual_names_every_key() {
    let manual = keys_markdown();
    for (table, key) in all_keys() {
        assert!(manual.contains(&format!("| `{}` |", key.name)), "{table}.{}", key.name);
    }
}

#[test]
fn the_schema_has_every_key_and_refuses_others() {
    let schema = schema();
    assert_eq!(schema["additionalProperties"], false);
    for table in Design::TABLES {
        let part = &schema["properties"][table.name];
        assert_eq!(part["additionalProperties"], false);
        let keys: Vec<&str> = part["properties"].as_object().unwrap().keys().map(String::as_str).collect();
        assert_eq!(keys, table.keys.iter().map(|key| key.name).collect::<Vec<_>>());
    }
}
