//! The model of a cut file, before any format.

use crate::flat_parts::{boxes, f_plate, feature, flat, hole, ring, slotted, window};
use swept::export::cutfile::{Compensation, CutError, CutFile, CutOptions, MARGIN_MM, Stroke, cut_file};
use swept::parts::part::Part;
use swept::shape::loops::{Loop, Node, Piece};
use swept::shape::offset::OffsetError;
use swept::shape::outline::Outline;
use swept::shape::recipe::{Body, End, Kind, ProfileNode, Recipe, Tag};
use swept::shape::{Point2, Vector3};

fn cut(part: &Part, options: &CutOptions) -> CutFile {
    cut_file(part, options).expect("a good part")
}

fn kerf(width: f64) -> CutOptions<'static> {
    CutOptions { compensation: Compensation::Kerf(width), ..Default::default() }
}

fn circles(file: &CutFile) -> Vec<(Point2, f64)> {
    let circle = |l: &Loop| match l {
        Loop::Circle { centre, radius } => Some((*centre, *radius)),
        Loop::Path(_) => None,
    };
    file.contours().filter_map(|c| circle(&c.boundary)).collect()
}

#[test]
fn the_lower_left_corner_lies_at_the_margin_with_any_compensation() {
    for options in [CutOptions::default(), kerf(0.15), kerf(0.3)] {
        for part in [f_plate(), ring(), slotted()] {
            let (low, _) = cut(&part, &options).outline.boundary.bounds();
            assert!((low.x - MARGIN_MM).abs() < 1e-9 && (low.y - MARGIN_MM).abs() < 1e-9, "{low:?}");
        }
    }
}

#[test]
fn outlines_run_counter_clockwise_and_holes_clockwise() {
    let mut part = slotted();
    // Also when the recipe's loops run the other way.
    if let Some(Recipe { features, .. }) = &mut part.recipe {
        for feature in features {
            if let Kind::Pocket { outline, .. } = &mut feature.kind {
                *outline = outline.reversed();
            }
        }
    }
    for file in [cut(&slotted(), &kerf(0.2)), cut(&part, &CutOptions::default())] {
        assert!(file.outline.boundary.area() > 0.0);
        for hole in file.holes.iter().filter(|h| matches!(h.boundary, Loop::Path(_))) {
            assert!(hole.boundary.area() < 0.0, "{}", hole.name);
        }
        assert_eq!(file.contours().last().map(|c| c.name.as_str()), Some("outline"), "holes come first");
    }
}

#[test]
fn kerf_moves_outlines_out_and_holes_in_by_half() {
    let nominal = circles(&cut(&ring(), &CutOptions::default()));
    let moved = circles(&cut(&ring(), &kerf(0.15)));
    let by: Vec<f64> = nominal.iter().zip(&moved).map(|(a, b)| b.1 - a.1).collect();
    assert_eq!(by.len(), 8);
    assert!(by[..7].iter().all(|d| (d + 0.075).abs() < 1e-12), "{by:?}");
    assert!((by[7] - 0.075).abs() < 1e-12);
    // The knife's offset is a distance and counts whole.
    let knife = CutOptions { compensation: Compensation::Knife(0.25), ..Default::default() };
    assert!((circles(&cut(&ring(), &knife))[7].1 - 30.25).abs() < 1e-12);
}

#[test]
fn arcs_of_a_slot_keep_their_centres_under_kerf() {
    let file = cut(&slotted(), &kerf(0.2));
    let slot = file.holes.iter().find(|h| h.name == "transfer-slot").expect("the slot");
    let arcs: Vec<(Point2, f64)> = slot
        .boundary
        .pieces()
        .iter()
        .filter_map(|p| match p {
            Piece::Arc { centre, radius, .. } => Some((*centre, *radius)),
            Piece::Line { .. } => None,
        })
        .collect();
    assert_eq!(arcs.len(), 2);
    for (centre, radius) in arcs {
        assert!((radius - 3.9).abs() < 1e-9);
        let x = centre.x - file.origin.x;
        assert!((x.abs() - 8.0).abs() < 1e-9 && (centre.y - file.origin.y).abs() < 1e-9, "{centre:?}");
    }
}

#[test]
fn names_and_notes_say_what_is_compensated() {
    let nominal = cut(&ring(), &CutOptions::default());
    assert_eq!(
        (nominal.stem(), nominal.notes[0].as_str()),
        ("ring-six-holes".into(), "ring-six-holes: nominal")
    );
    let moved = cut(&ring(), &kerf(0.15));
    assert_eq!(moved.stem(), "ring-six-holes-kerf-0.15mm");
    assert_eq!(moved.notes[0], "ring-six-holes: kerf 0.15 mm included");
}

#[test]
fn a_hole_that_would_vanish_is_refused_by_name() {
    let part = flat("tiny", disc(20.0), vec![hole("pin-hole", 0.0, 0.0, 0.2)]);
    let error = cut_file(&part, &kerf(0.25)).expect_err("nothing is left of the hole");
    assert!(
        matches!(&error, CutError::Offset { contour, source: OffsetError::Vanishes(_), .. } if contour == "pin-hole"),
        "{error}"
    );
    for bad in [-0.1, f64::NAN, f64::INFINITY] {
        assert!(matches!(cut_file(&part, &kerf(bad)), Err(CutError::Compensation { .. })));
    }
}

fn disc(diameter: f64) -> Outline {
    Outline::Disc { centre: Point2::new(0.0, 0.0), diameter, tag: Tag::new("outside-diameter") }
}

#[test]
fn small_holes_are_punched_where_the_knife_cannot_turn() {
    let options = CutOptions { smallest_hole_mm: Some(6.0), ..Default::default() };
    let file = cut(&slotted(), &options);
    assert_eq!(file.punch.len(), 4);
    assert!(file.punch.iter().all(|m| m.name == "bolt-hole" && m.diameter_mm == 5.5));
    assert_eq!(file.punch[0].at, Point2::new(13.0, 13.0));
    assert_eq!(file.notes[1], "punch or drill 4 x 5.5 mm");
    assert_eq!(circles(&file).len(), 2, "the bores are still cut");
    let exactly = CutOptions { smallest_hole_mm: Some(5.5), ..Default::default() };
    assert!(cut(&slotted(), &exactly).punch.is_empty());
}

#[test]
fn only_what_goes_right_through_is_cut() {
    let blind = Kind::Bore {
        chain: vec![ProfileNode::new(2.0, 0.0), ProfileNode::new(2.0, 0.5), ProfileNode::new(0.0, 0.5)],
        end: End::Blind,
        thread: None,
    };
    let stepped = Kind::Bore {
        chain: vec![
            ProfileNode::new(5.0, 0.0),
            ProfileNode::new(5.0, 0.5),
            ProfileNode::new(3.0, 0.5),
            ProfileNode::new(3.0, 1.0),
        ],
        end: End::Through,
        thread: None,
    };
    let part = flat(
        "plate",
        disc(60.0),
        vec![feature("dowel", 9.0, 0.0, blind), feature("screw", -9.0, 0.0, stepped)],
    );
    let file = cut(&part, &CutOptions::default());
    assert_eq!(circles(&file)[0], (Point2::new(26.0, 35.0), 3.0), "the narrow step is cut");
    assert_eq!(file.notes[1], "not cut here: dowel");
}

#[test]
fn a_pocket_made_from_above_is_not_mirrored_twice() {
    // A right-angled triangle in local coordinates, cut downwards: local y runs to -Y of the part.
    let triangle = Loop::Path(vec![Node::line(0.0, 0.0), Node::line(8.0, 0.0), Node::line(0.0, 4.0)]);
    let mut pocket = window("window", triangle);
    pocket.axis.direction = Vector3::new(0.0, 0.0, -1.0);
    let file = cut(&flat("plate", disc(60.0), vec![pocket]), &CutOptions::default());
    let (low, high) = file.holes[0].boundary.bounds();
    assert_eq!((low, high), (Point2::new(35.0, 31.0), Point2::new(43.0, 35.0)));
    assert!(file.holes[0].boundary.area() < 0.0);
}

#[test]
fn an_arc_in_a_pocket_from_above_bulges_the_same_way() {
    // Half a disc of radius 5 above the local x axis; from above it lies below.
    let half = Loop::Path(vec![Node::arc(5.0, 0.0, 0.0, 0.0, true), Node::line(-5.0, 0.0)]);
    let mut pocket = window("window", half);
    pocket.axis.direction = Vector3::new(0.0, 0.0, -1.0);
    let file = cut(&flat("plate", disc(60.0), vec![pocket]), &CutOptions::default());
    let hole = &file.holes[0].boundary;
    let (low, high) = hole.bounds();
    assert!((low.y - 30.0).abs() < 1e-9 && (high.y - 35.0).abs() < 1e-9, "{low:?} {high:?}");
    assert!((hole.area() + 12.5 * std::f64::consts::PI).abs() < 1e-9);
}

#[test]
fn a_plain_ring_turned_as_a_body_is_flat_too() {
    let mut part = ring();
    let profile = [(12.0, 0.0), (20.0, 0.0), (20.0, 3.0), (12.0, 3.0)];
    let body = Body::Turned(profile.iter().map(|(r, z)| ProfileNode::new(*r, *z)).collect());
    part.recipe = Some(Recipe { body, features: Vec::new() });
    let radii: Vec<f64> = circles(&cut(&part, &CutOptions::default())).iter().map(|c| c.1).collect();
    assert_eq!(radii, [12.0, 20.0]);
    part.flat = false;
    assert_eq!(cut_file(&part, &CutOptions::default()), Err(CutError::NotFlat("ring-six-holes".into())));
}

#[test]
fn the_reference_line_is_twenty_millimetres_and_can_be_left_out() {
    let file = cut(&ring(), &CutOptions::default());
    let line = &file.reference[0];
    assert_eq!(((line[1].x - line[0].x), line[0].y - line[1].y), (20.0, 0.0));
    let top = file.outline.boundary.bounds().1.y;
    assert!(file.reference.iter().flatten().all(|p| p.y > top), "beside the part, not on it");
    let bars: Vec<f64> = file
        .check_bars
        .iter()
        .map(|s| (s[1].x - s[0].x).hypot(s[1].y - s[0].y))
        .filter(|l| *l > 10.0)
        .collect();
    assert_eq!(bars, [50.0, 50.0]);
    let bare = cut(&ring(), &CutOptions { reference: false, ..Default::default() });
    assert!(bare.reference.is_empty() && bare.check_bars.is_empty());
    assert_eq!(bare.page, [70.0, 70.0]);
}

#[test]
fn the_name_is_marked_clear_of_every_edge() {
    let options = CutOptions { mark: true, lettering: Some(&boxes), ..Default::default() };
    for part in [f_plate(), slotted()] {
        let file = cut(&part, &options);
        assert!(!file.mark.is_empty(), "{}", part.name);
        for p in file.mark.iter().flatten() {
            assert!(file.outline.boundary.contains(*p));
            assert!(file.contours().all(|c| c.boundary.distance(*p) > 0.99), "{} {p:?}", part.name);
            assert!(!file.holes.iter().any(|h| h.boundary.contains(*p)));
        }
    }
    let file = cut(&flat("much-too-long-a-name-for-it", disc(30.0), Vec::new()), &options);
    assert!(file.mark.is_empty() && file.notes.iter().any(|n| n.contains("no room")));
}

#[test]
fn numbers_that_are_none_stop_the_build() {
    let options = CutOptions { mark: true, lettering: Some(&boxes), ..Default::default() };
    for bad in [f64::NAN, f64::INFINITY, 1e308] {
        let parts = [
            flat("plate", disc(bad), Vec::new()),
            flat("plate", disc(60.0), vec![hole("hole", bad, 0.0, 4.0)]),
            flat("plate", disc(60.0), vec![hole("hole", 0.0, 0.0, bad)]),
        ];
        for part in parts {
            assert!(matches!(cut_file(&part, &options), Err(CutError::Audit { .. })), "{bad}");
        }
    }
}

#[test]
fn letters_that_hang_below_their_line_stay_clear_too() {
    let hanging = |text: &str, height: f64| -> Result<Vec<Stroke>, String> {
        let low = |s: Stroke| s.iter().map(|p| Point2::new(p.x, p.y - 0.6 * height)).collect();
        boxes(text, height).map(|all| all.into_iter().map(low).collect())
    };
    let options = CutOptions { mark: true, lettering: Some(&hanging), ..Default::default() };
    let file = cut(&slotted(), &options);
    assert!(!file.mark.is_empty());
    for p in file.mark.iter().flatten() {
        assert!(file.contours().all(|c| c.boundary.distance(*p) > 0.99), "{p:?}");
    }
    // A name without any height is no reason to search for ever.
    let dash = |_: &str, _: f64| -> Result<Vec<Stroke>, String> {
        Ok(vec![vec![Point2::new(0.0, 1.0), Point2::new(3.0, 1.0)]])
    };
    let options = CutOptions { mark: true, lettering: Some(&dash), ..Default::default() };
    assert_eq!(cut(&slotted(), &options).mark.len(), 1);
}

#[test]
fn a_character_without_strokes_is_an_error() {
    let mut part = ring();
    part.name = "ring_a".to_owned();
    let options = CutOptions { lettering: Some(&boxes), ..Default::default() };
    let error = cut_file(&part, &options).expect_err("no strokes for an underscore");
    assert_eq!(error.to_string(), "ring_a: the character '_' has no strokes");
}

#[test]
fn holes_that_break_out_stop_the_build() {
    let part = flat("plate", disc(20.0), vec![hole("edge-hole", 9.0, 0.0, 4.0)]);
    let error = cut_file(&part, &CutOptions::default()).expect_err("the hole crosses the edge");
    assert!(error.to_string().contains("cut-104: contours cross or touch (edge-hole, outline)"), "{error}");
}
