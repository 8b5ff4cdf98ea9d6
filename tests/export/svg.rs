//! SVG read back from its text.

use crate::flat_parts::{f_plate, ring, slotted};
use swept::export::cutfile::{CutOptions, cut_file};
use swept::export::layers::Layers;
use swept::export::outline_svg::svg as write;
use swept::parts::part::Part;

fn text(part: &Part) -> String {
    let file = cut_file(part, &CutOptions::default()).expect("a good part");
    String::from_utf8(write(&file, &Layers::default())).expect("text")
}

/// The text of the group with an id.
fn group<'a>(text: &'a str, id: &str) -> &'a str {
    let from = text.find(&format!("id=\"{id}\"")).expect("the group");
    let rest = &text[from..];
    &rest[..rest.find("</g>").expect("its end")]
}

/// Values of an attribute in order.
fn values(text: &str, name: &str) -> Vec<String> {
    let key = format!(" {name}=\"");
    text.split(&key).skip(1).map(|rest| rest[..rest.find('"').expect("a quote")].to_owned()).collect()
}

/// Numbers in a text.
fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().filter_map(|w| w.parse().ok()).collect()
}

#[test]
fn one_unit_is_one_millimetre() {
    let text = text(&f_plate());
    let [w, h] = ["width", "height"].map(|name| values(&text, name)[0].clone());
    assert!(w.ends_with("mm") && h.ends_with("mm"));
    let view = format!("0 0 {} {}", w.trim_end_matches("mm"), h.trim_end_matches("mm"));
    assert_eq!(values(&text, "viewBox"), [view]);
    assert!(!text.contains("transform"), "coordinates are turned, never mirrored by a transform");
}

#[test]
fn the_f_plate_keeps_size_and_orientation() {
    let text = text(&f_plate());
    let height = numbers(&values(&text, "viewBox")[0])[3];
    let cut = group(&text, "CUT");
    let outline = numbers(&values(cut, "d")[0]);
    let found: Vec<(f64, f64)> = outline.chunks(2).map(|p| (p[0] - 5.0, height - p[1] - 5.0)).collect();
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
    assert_eq!(found, f);
    let hole = ["cx", "cy", "r"].map(|name| numbers(&values(cut, name)[0])[0]);
    assert_eq!(hole, [11.0, height - 11.0, 2.5]);
}

#[test]
fn circles_and_arcs_stay_what_they_are() {
    let ring = text(&ring());
    assert_eq!(group(&ring, "CUT").matches("<circle").count(), 8);
    let slotted = text(&slotted());
    let cut = group(&slotted, "CUT");
    // Quarter turns are one command each, half turns two.
    assert_eq!((cut.matches("<circle").count(), cut.matches(" A ").count()), (6, 4 + 4 + 2 * 2));
    for d in values(cut, "d") {
        assert!(d.ends_with(" Z") && !d.contains('C') && !d.contains('Q'), "{d}");
    }
    // With Y down, the counter-clockwise outline has sweep flag 0 and clockwise holes have 1.
    let flags: Vec<Vec<String>> = values(cut, "d")
        .iter()
        .map(|d| d.split(" A ").skip(1).map(|a| a.split(' ').nth(4).unwrap_or("").to_owned()).collect())
        .collect();
    assert!(flags[0].iter().all(|f| f == "1") && flags[2].iter().all(|f| f == "0"), "{flags:?}");
}

#[test]
fn groups_are_hair_lines_without_fill_and_bars_measure_fifty() {
    let text = text(&ring());
    for id in ["CUT", "PUNCH", "MARK", "REFERENCE"] {
        assert!(text.contains(&format!("<g fill=\"none\" id=\"{id}\" stroke=\"#")), "{id}");
    }
    let bars: Vec<[f64; 2]> = values(group(&text, "REFERENCE"), "d")
        .iter()
        .map(|d| numbers(d))
        .map(|p| [(p[2] - p[0]).abs(), (p[3] - p[1]).abs()])
        .collect();
    assert!(bars.contains(&[50.0, 0.0]) && bars.contains(&[0.0, 50.0]) && bars.contains(&[20.0, 0.0]));
}

#[test]
fn nothing_lies_outside_the_page() {
    for part in [f_plate(), ring(), slotted()] {
        let text = text(&part);
        let page = numbers(&values(&text, "viewBox")[0]);
        for d in values(group(&text, "REFERENCE"), "d") {
            for p in numbers(&d).chunks(2) {
                assert!(p[0] >= 0.0 && p[0] <= page[2] && p[1] >= 0.0 && p[1] <= page[3], "{p:?}");
            }
        }
    }
}
