//! Each finding of the audit, provoked by the smallest fault.

use crate::flat_parts::{ring, slotted};
use swept::export::audit::{Code, audit};
use swept::export::cutfile::{Contour, CutFile, CutOptions, cut_file};
use swept::shape::loops::{Loop, Node};

fn good() -> CutFile {
    cut_file(&slotted(), &CutOptions::default()).expect("a good part")
}

fn codes(file: &CutFile) -> Vec<Code> {
    let mut all: Vec<Code> = audit(file).iter().map(|f| f.code).collect();
    all.dedup();
    all
}

fn path(points: &[(f64, f64)]) -> Loop {
    Loop::Path(points.iter().map(|(x, y)| Node::line(*x, *y)).collect())
}

fn with_hole(boundary: Loop) -> CutFile {
    let mut file = good();
    file.holes = vec![Contour { name: "hole".to_owned(), boundary }];
    file
}

#[test]
fn a_good_file_has_no_finding() {
    assert_eq!(codes(&good()), []);
    assert_eq!(codes(&cut_file(&ring(), &CutOptions::default()).expect("a ring")), []);
}

#[test]
fn an_arc_that_misses_its_end_is_an_open_contour() {
    let l = Loop::Path(vec![Node::arc(40.0, 20.0, 35.0, 20.0, false), Node::line(30.1, 20.0)]);
    assert_eq!(codes(&with_hole(l)), [Code::Open]);
}

#[test]
fn pieces_without_length_are_found() {
    let l = path(&[(30.0, 20.0), (30.0, 30.0), (30.0, 30.0), (40.0, 20.0)]);
    assert_eq!(codes(&with_hole(l)), [Code::NoLength]);
}

#[test]
fn stretches_run_over_twice_are_found() {
    let mut file = good();
    let copy = file.holes[0].clone();
    file.holes.push(copy);
    assert!(codes(&file).contains(&Code::Twice));
    let there_and_back = path(&[(30.0, 15.0), (30.0, 30.0), (30.0, 20.0), (40.0, 20.0)]);
    assert!(codes(&with_hole(there_and_back)).contains(&Code::Twice));
}

#[test]
fn crossings_and_contacts_are_found() {
    let bow_tie = path(&[(30.0, 12.0), (40.0, 22.0), (40.0, 12.0), (30.0, 21.0)]);
    assert!(codes(&with_hole(bow_tie)).contains(&Code::Crossing));
    // Touches the left edge, x = 5, from inside.
    assert_eq!(codes(&with_hole(Loop::circle(8.0, 35.0, 3.0))), [Code::Crossing]);
    assert_eq!(codes(&with_hole(Loop::circle(8.0, 35.0, 2.999))), []);
}

#[test]
fn neighbours_may_only_meet_at_their_corner() {
    // A line, then three quarters of a turn from its end that cut through it again.
    let l = Loop::Path(vec![
        Node::line(30.0, 20.0),
        Node::arc(40.0, 20.0, 37.0, 20.0, true),
        Node::line(37.0, 17.0),
    ]);
    let found = audit(&with_hole(l.reversed()));
    let at = found.iter().find(|f| f.code == Code::Crossing).and_then(|f| f.at).expect("a crossing");
    assert!((at.x - 34.0).abs() < 1e-9 && (at.y - 20.0).abs() < 1e-9, "{found:?}");
}

#[test]
fn holes_in_wrong_places_are_found() {
    assert_eq!(codes(&with_hole(Loop::circle(300.0, 35.0, 3.0))), [Code::HoleOutside]);
    let mut file = with_hole(Loop::circle(55.0, 35.0, 20.0));
    file.holes.push(Contour { name: "inner".to_owned(), boundary: Loop::circle(55.0, 35.0, 5.0) });
    assert_eq!(codes(&file), [Code::HoleInHole]);
    let options = CutOptions { smallest_hole_mm: Some(6.0), ..Default::default() };
    let mut punched = cut_file(&slotted(), &options).expect("a good part");
    punched.punch[0].at.x = 500.0;
    assert_eq!(codes(&punched), [Code::HoleOutside]);
}

#[test]
fn direction_and_coordinates_are_checked() {
    let mut file = good();
    file.outline.boundary = file.outline.boundary.reversed();
    assert_eq!(codes(&file), [Code::Direction]);
    assert_eq!(codes(&with_hole(path(&[(30.0, 20.0), (f64::NAN, 30.0), (40.0, 20.0)]))), [Code::Coordinate]);
    assert!(codes(&with_hole(Loop::circle(1.0, 35.0, 3.0))).contains(&Code::Coordinate));
    assert!(codes(&with_hole(Loop::circle(1e6, 35.0, 3.0))).contains(&Code::Coordinate));
}
