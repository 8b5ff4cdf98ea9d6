//! DXF read back by its group codes and by the crate's reader. The outside reader is in `tests/outside`.

use crate::flat_parts::{boxes, f_plate, ring, slotted};
use dxf::Drawing;
use dxf::entities::EntityType;
use swept::export::cutfile::{CutFile, CutOptions, cut_file};
use swept::export::dxf::{Version, dxf as write};
use swept::export::layers::{Layer, Layers};
use swept::parts::part::Part;

fn file(part: &Part) -> CutFile {
    cut_file(part, &CutOptions::default()).expect("a good part")
}

fn bytes(part: &Part, version: Version) -> Vec<u8> {
    write(&file(part), &Layers::default(), version).expect("a good file")
}

fn read(bytes: &[u8]) -> Drawing {
    Drawing::load(&mut &bytes[..]).expect("the crate reads it")
}

/// Kinds of entities on a layer, in order.
fn kinds(drawing: &Drawing, layer: &str) -> Vec<&'static str> {
    let kind = |e: &EntityType| match e {
        EntityType::Circle(_) => "CIRCLE",
        EntityType::LwPolyline(_) => "LWPOLYLINE",
        EntityType::Line(_) => "LINE",
        EntityType::Arc(_) => "ARC",
        _ => "other",
    };
    drawing.entities().filter(|e| e.common.layer == layer).map(|e| kind(&e.specific)).collect()
}

/// Pairs of group code and value.
fn pairs(bytes: &[u8]) -> Vec<(i32, String)> {
    let text = std::str::from_utf8(bytes).expect("text");
    let lines: Vec<&str> = text.lines().collect();
    lines.chunks(2).map(|p| (p[0].trim().parse().expect("a group code"), p[1].to_owned())).collect()
}

fn header(bytes: &[u8], name: &str) -> Option<String> {
    let pairs = pairs(bytes);
    let at = pairs.iter().position(|(c, v)| *c == 9 && v == name)?;
    pairs.get(at + 1).map(|(_, v)| v.clone())
}

#[test]
fn the_f_plate_keeps_size_and_orientation() {
    let drawing = read(&bytes(&f_plate(), Version::R2000));
    assert_eq!(kinds(&drawing, "CUT"), ["CIRCLE", "LWPOLYLINE"]);
    let outline = drawing
        .entities()
        .find_map(|e| match &e.specific {
            EntityType::LwPolyline(p) => Some(p.clone()),
            _ => None,
        })
        .expect("an outline");
    assert!(outline.is_closed());
    let f = [
        (0.0, 0.0),
        (12.0, 0.0),
        (12.0, 24.0),
        (30.0, 24.0),
        (30.0, 36.0),
        (12.0, 36.0),
        (12.0, 48.0),
        (40.0, 48.0),
        (40.0, 60.0),
        (0.0, 60.0),
    ];
    let found: Vec<(f64, f64)> = outline.vertices.iter().map(|v| (v.x - 5.0, v.y - 5.0)).collect();
    assert_eq!(found, f, "not mirrored, not turned, counter-clockwise, no repeated corner");
    let hole = drawing.entities().find_map(|e| match &e.specific {
        EntityType::Circle(c) => Some((c.center.x, c.center.y, c.radius)),
        _ => None,
    });
    assert_eq!(hole, Some((11.0, 11.0, 2.5)));
}

#[test]
fn circles_stay_circles_and_arcs_become_bulges() {
    let drawing = read(&bytes(&ring(), Version::R2000));
    assert_eq!(kinds(&drawing, "CUT"), ["CIRCLE"; 8]);
    let drawing = read(&bytes(&slotted(), Version::R2000));
    let mut expected = vec!["CIRCLE"; 6];
    expected.extend(["LWPOLYLINE"; 3]);
    assert_eq!(kinds(&drawing, "CUT"), expected);
    let bulges: Vec<Vec<f64>> = drawing
        .entities()
        .filter_map(|e| match &e.specific {
            EntityType::LwPolyline(p) => {
                Some(p.vertices.iter().map(|v| v.bulge).filter(|b| *b != 0.0).collect())
            }
            _ => None,
        })
        .collect();
    // Half turns have the bulge 1, quarter turns tan(90°/4); holes run clockwise.
    let quarter = (std::f64::consts::FRAC_PI_8).tan();
    for (found, (count, bulge)) in bulges.iter().zip([(2, -1.0), (4, -quarter), (4, quarter)]) {
        assert_eq!(found.len(), count);
        assert!(found.iter().all(|b| (b - bulge).abs() < 1e-9), "{found:?}");
    }
}

#[test]
fn the_old_version_has_lines_arcs_and_circles_only() {
    let old = bytes(&slotted(), Version::R12);
    let drawing = read(&old);
    let all: Vec<&str> = ["CUT", "REFERENCE"].iter().flat_map(|l| kinds(&drawing, l)).collect();
    assert!(all.iter().all(|k| ["CIRCLE", "LINE", "ARC"].contains(k)), "{all:?}");
    assert_eq!(all.iter().filter(|k| **k == "ARC").count(), 2 + 4 + 4);
    assert_eq!(header(&old, "$ACADVER").as_deref(), Some("AC1009"));
    assert!(pairs(&old).iter().all(|(code, _)| *code != 100 && *code != 5 && *code < 1000));
}

#[test]
fn the_header_says_millimetres_and_no_clock() {
    let new = bytes(&ring(), Version::R2000);
    assert_eq!(header(&new, "$ACADVER").as_deref(), Some("AC1015"));
    assert_eq!(header(&new, "$INSUNITS").as_deref(), Some("4"));
    assert_eq!(header(&new, "$MEASUREMENT").as_deref(), Some("1"));
    for absent in ["$TDCREATE", "$TDUPDATE", "$FINGERPRINTGUID", "$VERSIONGUID"] {
        assert_eq!(header(&new, absent), None);
    }
}

#[test]
fn handles_are_there_once_each_and_below_the_seed() {
    let new = bytes(&slotted(), Version::R2000);
    let mut handles: Vec<u32> = pairs(&new)
        .iter()
        .filter(|(code, _)| *code == 5 || *code == 105)
        .map(|(_, v)| u32::from_str_radix(v, 16).expect("a hexadecimal handle"))
        .collect();
    let seed = handles.remove(0);
    assert!(handles.iter().all(|h| *h > 0 && *h < seed));
    let count = handles.len();
    handles.sort_unstable();
    handles.dedup();
    assert_eq!(handles.len(), count);
}

#[test]
fn bytes_are_the_same_each_time() {
    for version in [Version::R2000, Version::R12] {
        let first = bytes(&slotted(), version);
        std::thread::sleep(std::time::Duration::from_millis(5));
        assert_eq!(first, bytes(&slotted(), version));
    }
}

#[test]
fn layers_may_be_renamed_and_punch_and_mark_have_their_own() {
    let layers = Layers { cut: Layer::new("RED", 1, [255, 0, 0]), ..Default::default() };
    let options =
        CutOptions { smallest_hole_mm: Some(6.0), mark: true, lettering: Some(&boxes), ..Default::default() };
    let file = cut_file(&slotted(), &options).expect("a good part");
    let drawing = read(&write(&file, &layers, Version::R2000).expect("a good file"));
    assert_eq!(kinds(&drawing, "CUT"), [""; 0]);
    assert_eq!(kinds(&drawing, "RED").len(), 2 + 3);
    assert_eq!(kinds(&drawing, "PUNCH"), ["LINE"; 8], "two arms at each of four holes");
    assert!(!kinds(&drawing, "MARK").is_empty());
    let colours: Vec<(String, Option<u8>)> =
        drawing.layers().map(|l| (l.name.clone(), l.color.index())).collect();
    assert!(colours.contains(&("RED".to_owned(), Some(1))), "{colours:?}");
}

#[test]
fn titles_outside_ascii_are_escaped() {
    let mut part = ring();
    part.title = "Ring Ø60".to_owned();
    let text = String::from_utf8(bytes(&part, Version::R2000)).expect("text");
    assert!(text.starts_with("999\r\nRing \\U+00D860: millimetres, 1:1\r\n"), "{}", &text[..60]);
}
