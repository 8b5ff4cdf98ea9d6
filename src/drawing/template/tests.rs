use super::*;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;

fn ring(radius: f64) -> Template {
    let mut board = Board::default();
    board.circle(Pen::Template, Point2::new(0.0, 0.0), radius);
    Template { name: "ring".into(), title: "Ring".into(), notes: vec!["nominal".into()], board }
}

fn drawn_mm(sheet: &crate::drawing::Sheet, pen: Pen) -> f64 {
    sheet.board.strokes.iter().filter(|s| s.pen == pen).map(|s| s.line.length()).sum()
}

#[test]
fn what_fits_is_one_page_of_the_paper() {
    let sheets = pages(&ring(80.0), TemplatePaper::A4, "pump");
    assert_eq!(sheets.len(), 1);
    assert_eq!(sheets[0].size_mm, [210.0, 297.0]);
    let turn = std::f64::consts::TAU * 80.0;
    assert!((drawn_mm(&sheets[0], Pen::Template) - turn).abs() < 1e-9);
    assert_eq!(pages(&ring(80.0), TemplatePaper::Letter, "pump")[0].size_mm, [215.9, 279.4]);
}

/// Two neighbours show the same 10 mm twice; each cross of a seam lies on that of the next page.
#[test]
fn tiles_overlap_and_their_marks_meet() {
    let sheets = pages(&ring(150.0), TemplatePaper::A4, "pump");
    assert_eq!(sheets.len(), 4);
    let circles = |i: usize| {
        let of = |s: &crate::drawing::board::Stroke| match s.line {
            Flat::Piece(Piece::Arc { centre, .. }) if s.pen == Pen::Ruling => Some(centre),
            _ => None,
        };
        sheets[i].board.strokes.iter().filter_map(of).collect::<Vec<_>>()
    };
    let (left, right) = (circles(0), circles(1));
    assert!(left.len() == 4 && right.len() == 4, "two on each of two seams");
    // the seam is the right one of the left page and the left one of the right page
    let at = |points: &[Point2], x: f64| {
        let mut y: Vec<f64> = points.iter().filter(|p| (p.x - x).abs() < 1e-9).map(|p| p.y).collect();
        y.sort_by(f64::total_cmp);
        y
    };
    let ends = [195.0, 23.0];
    assert_eq!(at(&left, ends[0]).len(), 2);
    assert_eq!(at(&left, ends[0]), at(&right, ends[1]));
    let whole: f64 = sheets.iter().map(|s| drawn_mm(s, Pen::Template)).sum();
    assert!(whole > std::f64::consts::TAU * 150.0, "the overlaps are drawn twice");
}

/// A tube with a flange at each end, drilled from the top: a template for each flange, with the ring that its face is; a drill
/// through the upper one is not led to the lower one's holes.
#[test]
fn faces_behind_each_other_have_a_template_each() {
    use crate::parts::kit::{along, at, lift, made, through};
    use crate::shape::recipe::Tag;
    let profile = vec![
        at(20.0, 0.0),
        at(40.0, 0.0),
        at(40.0, 5.0),
        at(25.0, 5.0),
        at(25.0, 45.0),
        at(45.0, 45.0),
        at(45.0, 50.0),
        at(20.0, 50.0),
    ];
    let hole = |x: f64, z: f64, name: &str| {
        through(lift(Point2::new(x, 0.0), z), along(0.0, 0.0, -1.0), 5.0, 5.0, Tag::new(name))
    };
    let features = vec![
        hole(35.0, 50.0, "upper"),
        hole(-35.0, 50.0, "upper"),
        hole(32.0, 5.0, "lower"),
        hole(-32.0, 5.0, "lower"),
    ];
    let recipe = Recipe { body: Body::Turned(profile), features };
    let found = Template::drilling(&made("tube", "Tube", "steel", recipe));
    let names: Vec<&str> = found.iter().map(|t| t.name.as_str()).collect();
    assert_eq!(names, ["tube-drilling-top", "tube-drilling-top-2"]);
    for (template, [inner, outer]) in found.iter().zip([[20.0, 45.0], [25.0, 40.0]]) {
        let sheet = &pages(template, TemplatePaper::A4, "pump")[0];
        let turn = std::f64::consts::TAU * (inner + outer + 2.0 * 2.5);
        assert!((drawn_mm(sheet, Pen::Template) - turn).abs() < 1e-9, "{}", template.name);
        assert!(
            template.notes.iter().any(|n| n.contains(&format!("⌀{}", 2.0 * outer))),
            "{:?}",
            template.notes
        );
    }
}
