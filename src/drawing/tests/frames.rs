//! Frames of geometrical tolerances on whole sheets: each is told once, at the feature that it speaks of.

use super::*;
use crate::drawing::audit::Fault;
use crate::shape::control::{Characteristic, Control, LOWER_FACE, Limit, UPPER_FACE};

fn control(what: Characteristic, of: &str, to: &[&str]) -> Control {
    Control::new(what, of, Limit { mm: 0.02, why: "test" }).to(to)
}

/// The block of the samples: end faces square to the bore, holes placed about it.
fn block() -> Part {
    let mut part = plate_samples::power_block();
    let all = [
        control(Characteristic::Perpendicularity, UPPER_FACE, &["bore-diameter"]),
        control(Characteristic::Parallelism, LOWER_FACE, &[UPPER_FACE]),
        control(Characteristic::Position, "stud-hole", &["bore-diameter"]),
        control(Characteristic::Cylindricity, "bore-diameter", &[]),
    ];
    part.geometry.controls.extend(all);
    part
}

/// A cylinder with everything that may be controlled of it told in line with dimension lines.
fn cylinder() -> Part {
    let mut part = turned_samples::displacer_base();
    let all = [
        control(Characteristic::CircularRunout, "spigot-diameter", &["rod-seat-diameter"]),
        control(Characteristic::Perpendicularity, "base-height", &["rod-seat-diameter"]),
    ];
    part.geometry.controls.extend(all);
    part
}

fn label<'a>(sheet: &'a Sheet, telling: &str) -> &'a board::Label {
    let told = |l: &&board::Label| l.sizes.iter().any(|s| s == telling);
    sheet.board.labels.iter().find(told).unwrap_or_else(|| panic!("{telling} is not told"))
}

#[test]
fn every_tolerance_and_datum_is_told_once_and_can_be_read() {
    for part in [block(), cylinder()] {
        let sheet = sheet(&part, &options()).unwrap();
        let faults = audit::geometry(&sheet, &part);
        assert!(faults.is_empty(), "{}: {faults:?}", part.name);
        let faults = audit::unreadable(&sheet);
        assert!(faults.is_empty(), "{}: {faults:?}", part.name);
        let texts: Vec<&str> = sheet.board.labels.iter().map(|l| l.text.as_str()).collect();
        assert!(!texts.iter().any(|t| t.contains("datum ")), "a datum is told in words: {texts:?}");
    }
}

#[test]
fn what_speaks_of_an_axis_hangs_close_below_its_size() {
    let part = block();
    let sheet = sheet(&part, &options()).unwrap();
    for (size, what) in [
        ("bore-diameter", "datum S"),
        ("bore-diameter", "cylindricity of bore-diameter"),
        ("stud-hole", "position of stud-hole"),
    ] {
        let (above, below) = (label(&sheet, size).at, label(&sheet, what).at);
        let drop = above.y - below.y;
        assert!(0.0 < drop && drop < 22.0 && (above.x - below.x).abs() < 16.0, "{what}: {above:?} {below:?}");
    }
}

#[test]
fn the_audit_finds_a_tolerance_that_is_missing_doubled_or_of_nothing() {
    let mut part = block();
    let mut sheet = sheet(&part, &options()).unwrap();
    let name = "position of stud-hole";
    let twin = label(&sheet, name).clone();
    sheet.board.write(twin);
    assert!(audit::geometry(&sheet, &part).contains(&Fault::Geometry(name.into(), 2)));
    sheet.board.labels.retain(|l| !l.sizes.iter().any(|s| s == name));
    assert!(audit::geometry(&sheet, &part).contains(&Fault::Geometry(name.into(), 0)));
    sheet.board.labels.retain(|l| !l.sizes.iter().any(|s| s == "datum S"));
    assert!(audit::geometry(&sheet, &part).contains(&Fault::Geometry("datum S".into(), 0)));
    part.geometry.controls.push(control(Characteristic::Flatness, "no-such-face", &[]));
    assert!(audit::geometry(&sheet, &part).contains(&Fault::Unknown("no-such-face".into())));
}

/// ISO 1101: sizes that place a pattern with a tolerance of position are theoretically exact and stand in boxes.
#[test]
fn exact_sizes_stand_in_boxes() {
    let boxes = |part: &Part| {
        let sheet = sheet(part, &options()).unwrap();
        sheet.board.strokes.iter().filter(|s| s.pen == Pen::Leader).count()
    };
    let mut plain = block();
    plain.geometry.controls.retain(|c| c.characteristic != Characteristic::Position);
    let holes = block().recipe.unwrap().features.iter().filter(|f| f.name == "stud-hole").count();
    // four lines around each X and each Y
    assert!(boxes(&block()) >= boxes(&plain) + 8 * holes, "{} {} {holes}", boxes(&block()), boxes(&plain));
}
