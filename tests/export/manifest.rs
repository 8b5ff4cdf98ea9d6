//! `build.json` and the tables made from it.

use crate::flat_parts::{feature, ring};
use std::collections::BTreeMap;
use swept::export::folder::{Files, list_of};
use swept::export::manifest::{Build, MakeOrBuy, Manifest, Measured};
use swept::export::tables;
use swept::parts::part::{Blank, Instance, Joint, Material, Part, PartSet, Supply};
use swept::shape::recipe::{End, InsideThread, Kind, ProfileNode, Size, Tolerance};
use swept::shape::{Point3, Vector3};

pub fn screw() -> Part {
    Part {
        name: "power-screw".to_owned(),
        title: "Cap screw, \"long\"".to_owned(),
        quantity: 6,
        supply: Supply::Buy { designation: "ISO 4762 - M5x16".to_owned() },
        material: Material {
            name: "Steel 8.8".to_owned(),
            density_kg_m3: 7850.0,
            filled: 1.0,
            colour: [0.5; 3],
        },
        recipe: None,
        flat: false,
        blank: None,
        fastener: false,
        notes: Vec::new(),
        geometry: swept::shape::control::Geometry::default(),
        cautions: Vec::new(),
    }
}

pub fn size(name: &str, value: f64, tolerance: Tolerance) -> Size {
    Size { name: name.to_owned(), value, unit: "mm", tolerance, origin: Some("joints.ring".to_owned()) }
}

fn tapped() -> Kind {
    let chain = vec![
        ProfileNode::new(4.0, 0.0),
        ProfileNode::new(4.0, 0.2),
        ProfileNode::new(2.1, 0.2),
        ProfileNode::new(2.1, 0.8),
        ProfileNode::new(0.0, 0.9),
    ];
    let thread = Some(InsideThread { designation: "M5".to_owned(), depth: Some(0.7), both_ends: false });
    Kind::Bore { chain, end: End::Blind, thread }
}

pub fn part_set() -> PartSet {
    let mut part = ring();
    part.blank = Some(Blank::Round { diameter: 63.0, length: 4.5, z_low: -1.5 });
    if let Some(recipe) = &mut part.recipe {
        recipe.features.push(feature("tapped", 21.0, 0.0, tapped()));
    }
    let instance = Instance {
        name: "ring-1".to_owned(),
        part: part.name.clone(),
        origin: Point3::new(1.0, 2.0, 3.0),
        z_axis: Vector3::new(0.0, 0.0, 1.0),
        x_axis: Vector3::new(1.0, 0.0, 0.0),
    };
    let joint = Joint {
        name: "power-joint".to_owned(),
        parts: ["block".to_owned(), "plate".to_owned()],
        gasket: Some(part.name.clone()),
        screw: "ISO 4762 M5x16".to_owned(),
        holes: vec![[25.0, 0.0]],
    };
    let overlaps = vec![(["bush".to_owned(), "plate".to_owned()], "press fit H7/s6".to_owned())];
    PartSet {
        parts: vec![part, screw()],
        joints: vec![joint],
        screws: Vec::new(),
        instances: vec![instance],
        overlaps,
        steps: Vec::new(),
        hot_end_down: false,
    }
}

pub fn measured() -> Measured {
    Measured {
        volume_mm3: 1700.0,
        area_mm2: 4000.0,
        centre_mm: [0.0, 0.0, 0.5],
        bounding_box_mm: [[-30.0, -30.0, 0.0], [30.0, 30.0, 1.0]],
        faces: BTreeMap::from([("cylinder".to_owned(), 16), ("plane".to_owned(), 2)]),
    }
}

pub fn files() -> Files {
    let paths = [
        "outlines/ring-six-holes.dxf",
        "outlines/ring-six-holes-kerf-0.15mm.dxf",
        "step/ring-six-holes.step",
        "step/ring-six-holes-other.step",
        "step/assembly.step",
    ];
    paths.iter().map(|p| ((*p).to_owned(), p.as_bytes().to_vec())).collect()
}

pub fn manifest(set: &PartSet, sizes: Vec<Size>, measured: Measured) -> Manifest {
    let build = Build {
        decided: Vec::new(),
        checks: Vec::new(),
        passing: Vec::new(),
        aids: Vec::new(),
        design: "pump",
        crank_angle_deg: 0.0,
        measured: BTreeMap::from([("ring-six-holes".to_owned(), measured)]),
        sizes: BTreeMap::from([("ring-six-holes".to_owned(), sizes)]),
        revisions: Default::default(),
        files: list_of(&files()),
    };
    Manifest::new(set, &build)
}

fn sample() -> Manifest {
    let fit = Tolerance::Fit { code: "H7".to_owned(), upper: 0.025, lower: 0.0 };
    manifest(&part_set(), vec![size("bore-diameter", 36.0, fit)], measured())
}

#[test]
fn it_holds_what_the_contract_names() {
    let text = sample().to_json().expect("a manifest");
    let json: serde_json::Value = serde_json::from_slice(&text).expect("JSON");
    let part = &json["parts"][0];
    assert_eq!(part["name"], "ring-six-holes");
    assert_eq!(part["make_or_buy"], "make");
    assert_eq!(part["volume_mm3"], 1700.0);
    // 1700 mm³ at 1 g/cm³ is 1.7 g.
    assert_eq!(part["mass_g"], 1.7);
    assert_eq!(part["faces"]["cylinder"], 16);
    assert_eq!(part["bounding_box_mm"][1][0], 30.0);
    assert_eq!(part["dimensions"][0]["tolerance"]["code"], "H7");
    assert_eq!(part["dimensions"][0]["metal_off"], "larger");
    assert_eq!(
        part["files"],
        serde_json::json!([
            "outlines/ring-six-holes-kerf-0.15mm.dxf",
            "outlines/ring-six-holes.dxf",
            "step/ring-six-holes.step"
        ])
    );
    assert_eq!(json["joints"][0]["bolt_pattern_mm"][0][0], 25.0);
    assert_eq!(json["joints"][0]["gasket"], "ring-six-holes");
    assert_eq!(json["overlaps"][0]["reason"], "press fit H7/s6");
    assert_eq!(json["instances"][0]["origin_mm"], serde_json::json!([1.0, 2.0, 3.0]));
    assert_eq!(json["files"].as_array().map(Vec::len), Some(5));
    assert_eq!(json["schema_version"], 1);
    assert!(part.get("designation").is_none());
    assert_eq!(json["parts"][1]["designation"], "ISO 4762 - M5x16");
}

#[test]
fn it_reads_back_as_it_was() {
    let there = sample();
    let text = there.to_json().expect("a manifest");
    assert_eq!(Manifest::from_json(&text), Ok(there));
    assert_eq!(sample().to_json(), Ok(text.clone()), "the same bytes each time");
    let later =
        String::from_utf8(text).expect("text").replace("\"schema_version\": 1", "\"schema_version\": 2");
    assert!(Manifest::from_json(later.as_bytes()).expect_err("a later layout").contains("layout 2"));
    assert!(Manifest::from_json(b"{}").is_err());
}

#[test]
fn numbers_that_are_none_are_refused_with_their_place() {
    let bad = Measured { volume_mm3: f64::NAN, ..measured() };
    let error = manifest(&part_set(), Vec::new(), bad).to_json().expect_err("not a number");
    assert_eq!(error, "build.parts[0].volume_mm3 is not a number");
}

#[test]
fn bought_parts_stand_in_the_list_by_their_designation() {
    let table = String::from_utf8(tables::parts(&sample()).expect("a table")).expect("text");
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(
        lines[0],
        "item,name,title,quantity,make_or_buy,fastener,designation,material,mass_g,stock_mm,files"
    );
    assert!(
        lines[1].starts_with(
            "1,ring-six-holes,ring six holes,1,make,,,Graphite sheet,1.7,round 63 x 4.5,outlines/"
        )
    );
    assert_eq!(lines[2], "2,power-screw,\"Cap screw, \"\"long\"\"\",6,buy,,ISO 4762 - M5x16,Steel 8.8,,,");
    assert_eq!(sample().parts[1].make_or_buy, MakeOrBuy::Buy);
}

#[test]
fn every_hole_stands_in_the_table_with_its_place() {
    let table = String::from_utf8(tables::holes(&sample()).expect("a table")).expect("text");
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(lines.len(), 1 + 1 + 6 + 1);
    assert_eq!(lines[1], "ring-six-holes,bore,C,0,0,0,+Z,36,through,,");
    // 25·cos(0.1) and 25·sin(0.1).
    assert_eq!(lines[2], "ring-six-holes,bolt-hole,A1,24.875,2.496,0,+Z,4.5,through,,");
    assert!(lines[7].starts_with("ring-six-holes,bolt-hole,A6,"));
    assert_eq!(lines[8], "ring-six-holes,tapped,B,21,0,0,+Z,4.2,0.8,M5 x 0.7,8 to depth 0.2");
}
