use super::*;
use crate::shape::loops::Piece;
use crate::shape::outline::{Outline, rectangle};
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::shape::solid::build;

fn shaft() -> Solid {
    // two diameters, Ø20 x 10 and Ø10 x 15
    let nodes = vec![
        ProfileNode::new(0.0, 0.0),
        ProfileNode::new(10.0, 0.0),
        ProfileNode::new(10.0, 10.0),
        ProfileNode::new(5.0, 10.0),
        ProfileNode::new(5.0, 25.0),
        ProfileNode::new(0.0, 25.0),
    ];
    build(&Recipe { body: Body::Turned(nodes), features: Vec::new() }).unwrap()
}

fn lengths(drawn: &[Drawn]) -> (f64, f64) {
    let sum = |visible: bool| drawn.iter().filter(|d| d.visible == visible).map(|d| d.flat.length()).sum();
    (sum(true), sum(false))
}

#[test]
fn a_stepped_shaft_from_the_side_is_two_rectangles() {
    let view = View::new(Vector3::unit_y(), Vector3::unit_z());
    let drawn = project(&shaft(), &view, &|_| false);
    let (seen, hidden) = lengths(&drawn);
    // 20 + 2·10 + 20 around the head, 2·15 + 10 around the stem, nothing hidden
    assert!((seen - 100.0).abs() < 1e-6 && hidden < 1e-9, "{seen} {hidden} {drawn:#?}");
    assert!(drawn.iter().all(|d| matches!(d.flat, Flat::Piece(Piece::Line { .. }))));
}

#[test]
fn a_stepped_shaft_from_its_ends_is_circles() {
    let from_stem = lengths(&project(&shaft(), &View::new(Vector3::unit_z(), Vector3::unit_x()), &|_| false));
    assert!((from_stem.0 - std::f64::consts::TAU * 15.0).abs() < 1e-9 && from_stem.1 < 1e-9, "{from_stem:?}");
    let from_head =
        lengths(&project(&shaft(), &View::new(-Vector3::unit_z(), Vector3::unit_x()), &|_| false));
    assert!((from_head.0 - std::f64::consts::TAU * 10.0).abs() < 1e-9, "{from_head:?}");
    assert!((from_head.1 - std::f64::consts::TAU * 5.0).abs() < 1e-9, "{from_head:?}");
}

#[test]
fn a_cube_in_isometric_projection_has_nine_seen_and_three_hidden_edges() {
    let outline = Outline::Rectangle {
        low: Point2::new(0.0, 0.0),
        high: Point2::new(10.0, 10.0),
        corner: 0.0,
        tags: [Tag::new("width"), Tag::new("height")],
    };
    let body = Body::Plate { outline, thickness: 10.0, tag: Tag::new("thickness") };
    let solid = build(&Recipe { body, features: Vec::new() }).unwrap();
    let drawn = project(&solid, &View::isometric(), &|_| false);
    let edge = 10.0 * (2.0_f64 / 3.0).sqrt();
    let (seen, hidden) = lengths(&drawn);
    assert!((seen - 9.0 * edge).abs() < 1e-6 && (hidden - 3.0 * edge).abs() < 1e-6, "{seen} {hidden}");
}

#[test]
fn a_cut_shows_what_lies_behind_it_and_hides_it_behind_metal() {
    // cut along the axis, a shaft without a bore shows nothing but its cut surface
    let view = View::new(Vector3::unit_y(), Vector3::unit_z()).cut_at(0.0);
    let drawn = project(&shaft(), &view, &|p| {
        p.x > 0.0 && p.x < 25.0 && p.y.abs() < if p.x < 10.0 { 10.0 } else { 5.0 }
    });
    // what is seen lies on the outline of the cut surface: both ends and the shoulder; what is hidden is left out
    let (seen, hidden) = lengths(&drawn);
    assert!((seen - 40.0).abs() < 1e-6 && hidden == 0.0, "{drawn:?}");
}

#[test]
fn what_is_taken_away_inside_a_loop_ends_at_its_border() {
    // the lower half of the view along the axis, seen from outside, the upper half cut
    let view = View::new(Vector3::unit_y(), Vector3::unit_z());
    let upper = rectangle(Point2::new(-100.0, 0.0), Point2::new(100.0, 100.0), 0.0);
    let metal = |p: Point2| p.y > 0.0 && p.x > 0.0 && p.x < 25.0 && p.y < if p.x < 10.0 { 10.0 } else { 5.0 };
    let whole = project(&shaft(), &view, &|_| false);
    let half = project(&shaft(), &view.cut_within(0.0, upper), &metal);
    // below the axis all is as before, above it the edges of the cut surface alone are left
    let below = |list: &[Drawn]| -> f64 {
        let disc = (Point2::new(0.0, -1e6), 1e6);
        let parts = list.iter().filter(|d| d.visible).flat_map(|d| d.flat.inside(disc.0, disc.1));
        parts.map(|f| f.length()).sum()
    };
    assert!((below(&half) - below(&whole)).abs() < 1e-3, "{} {}", below(&half), below(&whole));
    assert!(half.iter().all(|d| d.visible), "{half:?}");
}

fn counterbored() -> Solid {
    use crate::shape::Point3;
    use crate::shape::recipe::{Axis, End, Feature, Kind, Place};
    let outline = Outline::Rectangle {
        low: Point2::new(-20.0, -10.0),
        high: Point2::new(20.0, 10.0),
        corner: 0.0,
        tags: [Tag::new("width"), Tag::new("height")],
    };
    let body = Body::Plate { outline, thickness: 12.0, tag: Tag::new("thickness") };
    let hole = Feature {
        name: "hole".to_owned(),
        axis: Axis { origin: Point3::new(0.0, 0.0, 12.0), direction: -Vector3::unit_z() },
        x_axis: Vector3::unit_x(),
        kind: Kind::Bore {
            chain: vec![
                ProfileNode::new(5.0, 0.0),
                ProfileNode::new(5.0, 5.7),
                ProfileNode::new(2.75, 5.7),
                ProfileNode::new(2.75, 12.0),
            ],
            end: End::Through,
            thread: None,
        },
        place: Place::Central,
    };
    build(&Recipe { body, features: vec![hole] }).unwrap()
}

#[test]
fn the_step_of_a_counterbore_is_seen_behind_a_cut_through_its_axis() {
    let view = View::new(Vector3::unit_y(), Vector3::unit_x()).cut_at(0.0);
    let metal = |p: Point2| {
        let r = if p.y < -6.3 { 5.0 } else { 2.75 };
        p.x.abs() > r && p.x.abs() < 20.0 && p.y < 0.0 && p.y > -12.0
    };
    let drawn = project(&counterbored(), &view, &metal);
    let at_step = drawn.iter().filter(|d| d.visible && (d.flat.at(0.5).y + 6.3).abs() < 1e-6);
    let long: f64 = at_step.map(|d| d.flat.length()).sum();
    // across the whole counterbore: its rim beside the hole lies on the edge of the cut
    assert!((long - 10.0).abs() < 1e-6, "{long} {drawn:#?}");
}
