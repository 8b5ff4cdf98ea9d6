//! Writes sample cut files for outside readers (`tests/outside/test_cutfiles.py`) into the folder named by
//! `SWEPT_OUTSIDE_DIR`, or into a temporary one, and checks here what needs no outside reader.

mod flat_parts;

use flat_parts::{boxes, f_plate, flat, hole, ring, slotted, window};
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use swept::export::cutfile::{Compensation, CutFile, CutOptions, cut_file};
use swept::export::dxf::{Version, dxf};
use swept::export::layers::Layers;
use swept::export::outline_svg::svg;
use swept::parts::part::Part;
use swept::shape::Point2;
use swept::shape::loops::{Loop, polar};
use swept::shape::outline::{Outline, hull, rectangle};
use swept::shape::recipe::{Feature, Tag};

/// The bolt pattern of a joint: seven holes at angles and a radius without short decimals.
fn pattern() -> Vec<Feature> {
    (0..7)
        .map(|i| {
            let at = polar(Point2::new(0.0, 0.0), 100.0 / 3.0, 0.123_456_789 + f64::from(i) * 0.897_597_901);
            hole("bolt-hole", at.x, at.y, 4.3)
        })
        .collect()
}

/// Two flanges of different outlines and the gasket between them, all with the same pattern.
fn joint() -> Vec<Part> {
    let disc =
        Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: 84.0, tag: Tag::new("outside-diameter") };
    let square = Outline::Free {
        boundary: rectangle(Point2::new(-41.7, -43.1), Point2::new(47.3, 42.2), 5.5),
        sizes: Vec::new(),
    };
    let lobes = (0..7)
        .map(|i| {
            let angle = 0.123_456_789 + f64::from(i) * 0.897_597_901;
            (polar(Point2::new(0.0, 0.0), 100.0 / 3.0, angle), 6.0 + 0.3 * f64::from(i))
        })
        .collect();
    let gasket = Outline::Hull { circles: lobes, name: "lobe".to_owned() };
    let with_bore = |bore: f64| {
        let mut features = pattern();
        features.insert(0, hole("bore", 0.0, 0.0, bore));
        features
    };
    vec![
        flat("joint-flange-a", disc, with_bore(40.0)),
        flat("joint-flange-b", square, with_bore(44.0)),
        flat("joint-gasket", gasket, with_bore(42.0)),
    ]
}

/// A disc with a flat (an arc of more than half a turn), a D-shaped window, and a slot at an angle.
fn odd() -> Part {
    let disc = Loop::Path(vec![
        swept::shape::loops::Node::arc(24.0, 18.0, 0.0, 0.0, true),
        swept::shape::loops::Node::line(24.0, -18.0),
    ]);
    let d = Loop::Path(vec![
        swept::shape::loops::Node::arc(-6.0, 8.0, -6.0, 0.0, true),
        swept::shape::loops::Node::line(-6.0, -8.0),
    ]);
    let slot = hull(&[(Point2::new(6.0, -7.0), 2.0), (Point2::new(14.0, 3.0), 2.0)]);
    let outline = Outline::Free { boundary: disc, sizes: Vec::new() };
    flat("odd-plate", outline, vec![window("window", d), window("slot", slot)])
}

fn samples() -> Vec<Part> {
    let mut all = vec![f_plate(), ring(), slotted(), odd()];
    all.extend(joint());
    all
}

/// What an outside reader should find.
fn expected(file: &CutFile, part: &Part) -> Value {
    let holes = swept::export::holes::holes(part.recipe.as_ref().expect("samples have recipes"));
    json!({
        "part": part.name,
        "stem": file.stem(),
        "offset_mm": file.compensation.distance_mm(),
        "origin_mm": [file.origin.x, file.origin.y],
        "page_mm": file.page,
        "circles": file.contours().filter(|c| matches!(c.boundary, Loop::Circle { .. })).count(),
        "paths": file.contours().filter(|c| matches!(c.boundary, Loop::Path(_))).count(),
        "area_mm2": file.outline.boundary.area()
            - file.holes.iter().map(|h| h.boundary.area().abs()).sum::<f64>(),
        "punched": file.punch.len(),
        "bolt_holes_mm": holes.iter().filter(|h| h.group == "bolt-hole").map(|h| [h.at_mm[0], h.at_mm[1]])
            .collect::<Vec<_>>(),
    })
}

fn folder() -> (Option<tempfile::TempDir>, PathBuf) {
    match std::env::var_os("SWEPT_OUTSIDE_DIR") {
        Some(dir) => (None, PathBuf::from(dir).join("cutfiles")),
        None => {
            let dir = tempfile::tempdir().expect("a temporary folder");
            let path = dir.path().join("cutfiles");
            (Some(dir), path)
        }
    }
}

fn write(dir: &Path, name: &str, bytes: &[u8]) {
    fs::write(dir.join(name), bytes).expect("the sample is written");
}

#[test]
fn samples_are_written_and_of_the_right_size() {
    let (_keep, dir) = folder();
    fs::create_dir_all(&dir).expect("the folder");
    let layers = Layers::default();
    let mut list = Vec::new();
    for part in samples() {
        for (compensation, smallest_hole_mm) in [
            (Compensation::Nominal, None),
            (Compensation::Kerf(0.15), None),
            (Compensation::Kerf(0.8), None),
            (Compensation::Knife(0.25), Some(5.0)),
        ] {
            let options = CutOptions {
                compensation,
                smallest_hole_mm,
                mark: true,
                lettering: Some(&boxes),
                ..Default::default()
            };
            let file = cut_file(&part, &options).expect("a good sample");
            let new = dxf(&file, &layers, Version::R2000).expect("a good file");
            write(&dir, &format!("{}.dxf", file.stem()), &new);
            let old = dxf(&file, &layers, Version::R12).expect("a good file");
            write(&dir, &format!("{}.r12.dxf", file.stem()), &old);
            write(&dir, &format!("{}.svg", file.stem()), &svg(&file, &layers));
            assert!(file.page.iter().all(|l| *l > 10.0 && *l < 500.0), "{:?}", file.page);
            list.push(expected(&file, &part));
        }
    }
    let text = serde_json::to_vec_pretty(&list).expect("the list");
    write(&dir, "expected.json", &text);
    assert_eq!(fs::read_dir(&dir).expect("the folder").count(), 7 * 4 * 3 + 1);
}
