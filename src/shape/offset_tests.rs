use super::*;
use crate::shape::outline::{hull, rectangle};

fn p(x: f64, y: f64) -> Point2 {
    Point2::new(x, y)
}

/// Steiner's formula for a convex body: A(d) = A + L·d + π·d² (textbook of convex geometry).
fn steiner(l: &Loop, d: f64) -> f64 {
    l.area().abs() + l.length() * d + PI * d * d
}

#[test]
fn a_circle_is_offset_exactly() {
    let c = Loop::circle(3.0, -7.0, 21.0);
    assert_eq!(offset(&c, 0.075), Ok(Loop::circle(3.0, -7.0, 21.075)));
    assert_eq!(offset(&c, -0.075), Ok(Loop::circle(3.0, -7.0, 20.925)));
    assert_eq!(offset(&Loop::circle(0.0, 0.0, 0.07), -0.075), Err(OffsetError::Vanishes(0.075)));
}

#[test]
fn a_circle_in_two_arcs_comes_back_as_a_circle() {
    let l = Loop::Path(vec![Node::arc(5.0, 0.0, 0.0, 0.0, true), Node::arc(-5.0, 0.0, 0.0, 0.0, true)]);
    assert_eq!(offset(&l, 0.5), Ok(Loop::circle(0.0, 0.0, 5.5)));
}

#[test]
fn convex_loops_obey_steiner_in_both_directions_of_travel() {
    let shapes = [
        rectangle(p(0.0, 0.0), p(60.0, 40.0), 0.0),
        rectangle(p(-10.0, -5.0), p(50.0, 35.0), 6.0),
        hull(&[(p(0.0, 0.0), 12.0), (p(40.0, 5.0), 6.0), (p(10.0, 30.0), 4.0)]),
        hull(&[(p(0.0, 0.0), 4.0), (p(30.0, 0.0), 4.0)]),
    ];
    for l in shapes {
        for d in [0.075, 0.5, 2.0] {
            let out = offset(&l, d).expect("convex loops always grow");
            assert!((out.area() - steiner(&l, d)).abs() < 1e-6, "{} {}", out.area(), steiner(&l, d));
            assert!((out.length() - (l.length() + TAU * d)).abs() < 1e-6);
            let back = offset(&l.reversed(), d).expect("the other way round too");
            assert!((back.area() + out.area()).abs() < 1e-6, "direction of travel is kept");
        }
    }
}

#[test]
fn arcs_stay_arcs_about_their_own_centres() {
    let l = rectangle(p(-10.0, -5.0), p(50.0, 35.0), 6.0);
    let out = offset(&l, 0.075).expect("it grows");
    let arcs: Vec<(Point2, f64)> = out
        .pieces()
        .into_iter()
        .filter_map(|piece| match piece {
            Piece::Arc { centre, radius, .. } => Some((centre, radius)),
            Piece::Line { .. } => None,
        })
        .collect();
    assert_eq!(arcs.len(), 4);
    for (centre, radius) in arcs {
        assert!((radius - 6.075).abs() < 1e-9, "{radius}");
        let at_a_corner = [p(44.0, 1.0), p(44.0, 29.0), p(-4.0, 29.0), p(-4.0, 1.0)].contains(&centre);
        assert!(at_a_corner, "{centre:?}");
    }
}

#[test]
fn an_arc_of_more_than_half_a_turn_is_one_arc_afterwards() {
    // A disc of radius 10 with a flat at x = 6: three quarters of a turn and one line.
    let l = Loop::Path(vec![Node::arc(6.0, 8.0, 0.0, 0.0, true), Node::line(6.0, -8.0)]);
    let out = offset(&l, -0.1).expect("it shrinks");
    let Loop::Path(nodes) = &out else { panic!("a path stays a path") };
    assert_eq!(nodes.len(), 2, "{nodes:?}");
    // Circular segment formula: the disc of radius 9.9 cut at x = 5.9.
    let half = (5.9_f64 / 9.9).acos();
    let area = 9.9 * 9.9 * (PI - half + half.sin() * half.cos());
    assert!((out.area() - area).abs() < 1e-6, "{} {area}", out.area());
}

#[test]
fn inward_offset_of_a_rectangle_keeps_sharp_corners() {
    let out = offset(&rectangle(p(0.0, 0.0), p(20.0, 10.0), 0.0), -1.0).expect("it shrinks");
    assert!((out.area() - 18.0 * 8.0).abs() < 1e-9);
    assert_eq!(out.pieces().len(), 4);
}

#[test]
fn a_loop_that_is_too_small_vanishes() {
    let l = rectangle(p(0.0, 0.0), p(20.0, 1.0), 0.0);
    assert_eq!(offset(&l, -0.6), Err(OffsetError::Vanishes(0.6)));
    let slot = hull(&[(p(0.0, 0.0), 0.5), (p(30.0, 0.0), 0.5)]);
    assert_eq!(offset(&slot, -0.6), Err(OffsetError::Vanishes(0.6)));
}

#[test]
fn a_waist_that_is_too_thin_splits() {
    let bone = [
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 4.0),
        (20.0, 4.0),
        (20.0, 0.0),
        (30.0, 0.0),
        (30.0, 10.0),
        (20.0, 10.0),
        (20.0, 5.0),
        (10.0, 5.0),
        (10.0, 10.0),
        (0.0, 10.0),
    ];
    let l = Loop::Path(bone.iter().map(|(x, y)| Node::line(*x, *y)).collect());
    assert_eq!(offset(&l, -0.6), Err(OffsetError::Splits { by_mm: -0.6, loops: 2 }));
    assert!(offset(&l, -0.4).is_ok());
}

#[test]
fn a_mouth_that_closes_is_refused() {
    let c = [
        (0.0, 0.0),
        (30.0, 0.0),
        (30.0, 14.5),
        (25.0, 14.5),
        (25.0, 5.0),
        (5.0, 5.0),
        (5.0, 25.0),
        (25.0, 25.0),
        (25.0, 15.5),
        (30.0, 15.5),
        (30.0, 30.0),
        (0.0, 30.0),
    ];
    let l = Loop::Path(c.iter().map(|(x, y)| Node::line(*x, *y)).collect());
    assert!(matches!(offset(&l, 0.6), Err(OffsetError::Splits { .. })), "{:?}", offset(&l, 0.6));
    assert!(offset(&l, 0.4).is_ok());
}

#[test]
fn nonsense_is_refused() {
    let l = rectangle(p(0.0, 0.0), p(20.0, 1.0), 0.0);
    assert!(matches!(offset(&l, f64::NAN), Err(OffsetError::Unusable(_))));
    let flat = Loop::Path(vec![Node::line(0.0, 0.0), Node::line(5.0, 0.0)]);
    assert!(matches!(offset(&flat, 0.1), Err(OffsetError::Unusable(_))));
}

#[test]
fn a_wrong_result_would_be_noticed() {
    let l = rectangle(p(0.0, 0.0), p(30.0, 20.0), 3.0);
    let good = offset(&l, 0.5).expect("it grows");
    assert_eq!(verify(&l, &good, 0.5), Ok(()));
    let unusable = |r| matches!(r, Err(OffsetError::Unusable(_)));
    assert!(unusable(verify(&l, &good.moved(0.001, 0.0), 0.5)), "shifted");
    assert!(unusable(verify(&l, &good, 0.4)), "by another distance");
    assert!(unusable(verify(&l, &good, -0.5)), "the other way");
    assert_eq!(verify(&l, &good.reversed(), 0.5), Err(OffsetError::Vanishes(-0.5)), "turned round");
    // Two squares joined by a bridge of 1; inwards by 0.6 there are two, of which one is lost here.
    let bone = [(0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (20.0, 4.0), (20.0, 0.0), (30.0, 0.0)];
    let back = [(30.0, 10.0), (20.0, 10.0), (20.0, 5.0), (10.0, 5.0), (10.0, 10.0), (0.0, 10.0)];
    let bone = Loop::Path(bone.iter().chain(&back).map(|(x, y)| Node::line(*x, *y)).collect());
    let one = rectangle(p(0.6, 0.6), p(9.4, 9.4), 0.0);
    assert_eq!(verify(&bone, &one, -0.6), Err(OffsetError::Splits { by_mm: -0.6, loops: 2 }));
}

/// Numbers that look random and are the same each time (a linear congruential generator, Knuth's MMIX).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

#[test]
fn sound_shapes_are_never_refused() {
    let mut numbers = Numbers(7);
    for case in 0..400 {
        let count = 3 + case % 6;
        let step = TAU / count as f64;
        // Corners on a circle, each rounded by its own radius: convex, so that a hull is tight.
        let circles: Vec<(Point2, f64)> = (0..count)
            .map(|i| {
                let angle = step * i as f64 + numbers.next(-0.1, 0.1);
                (polar(p(0.0, 0.0), numbers.next(28.0, 30.0), angle), numbers.next(2.0, 4.0))
            })
            .collect();
        let l = hull(&circles);
        let d = numbers.next(0.02, 1.5);
        let out = offset(&l, d).unwrap_or_else(|e| panic!("case {case}: {e}"));
        assert!((out.area() - steiner(&l, d)).abs() < 1e-6, "case {case}");
        let back = offset(&out, -d).unwrap_or_else(|e| panic!("case {case}, inwards: {e}"));
        assert!((back.area() - l.area()).abs() < 1e-6, "case {case}, inwards");
        assert_eq!(back.pieces().len(), l.pieces().len(), "case {case}: arcs are neither lost nor cut");
    }
}

#[test]
fn hollow_corners_keep_their_arcs() {
    // An L with a fillet of 5 in its hollow corner and a sharp corner outside.
    let l = Loop::Path(vec![
        Node::line(0.0, 0.0),
        Node::line(40.0, 0.0),
        Node::line(40.0, 10.0),
        Node::arc(15.0, 10.0, 15.0, 15.0, false),
        Node::line(10.0, 15.0),
        Node::line(10.0, 30.0),
        Node::line(0.0, 30.0),
    ]);
    for d in [0.05, 0.5, 4.9] {
        let out = offset(&l, d).expect("it grows");
        // The boundary turns by 2π in all, the hollow arc counting against it, and no part of the offset
        // covers another while the fillet lasts: so Steiner's formula holds here too.
        assert!((out.area() - steiner(&l, d)).abs() < 1e-6, "{d}: {} {}", out.area(), steiner(&l, d));
        let radii: Vec<f64> = out
            .pieces()
            .iter()
            .filter_map(|q| match q {
                Piece::Arc { radius, sweep, .. } if *sweep < 0.0 => Some(*radius),
                _ => None,
            })
            .collect();
        assert_eq!(radii.len(), 1);
        assert!((radii[0] - (5.0 - d)).abs() < 1e-7, "{radii:?}");
    }
}
