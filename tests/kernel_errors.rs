//! What the kernel refuses, and in which words.

mod common;

use common::{DOWN, UP, X, block, bore, chain, disc, drilled, feature, hole, turned};
use swept::shape::loops::{Loop, Node};
use swept::shape::measure::measure;
use swept::shape::recipe::{End, Feature, Kind, ProfileNode as N, Recipe};
use swept::shape::solid::{SolidError, build};

#[track_caller]
fn refused(recipe: &Recipe) -> SolidError {
    match build(recipe) {
        Ok(_) => panic!("was built"),
        Err(e) => e,
    }
}

fn with(mut recipe: Recipe, features: Vec<Feature>) -> Recipe {
    recipe.features = features;
    recipe
}

fn tube() -> Recipe {
    turned(vec![N::new(10.0, 0.0), N::new(16.0, 0.0), N::new(16.0, 50.0), N::new(10.0, 50.0)])
}

#[test]
fn a_hole_over_the_rim_says_by_how_much() {
    let e = refused(&with(
        disc(40.0, 12.0),
        vec![feature("bolt-hole", [18.0, 0.0, 12.0], DOWN, hole(6.0, 12.0))],
    ));
    assert_eq!(e.to_string(), "bolt-hole: breaks out of the flat face at z = 12 mm by 1 mm");
}

#[test]
fn a_hole_into_its_neighbour() {
    let holes = vec![
        feature("first", [0.0, 0.0, 12.0], DOWN, hole(6.0, 12.0)),
        feature("second", [5.0, 0.0, 12.0], DOWN, hole(6.0, 12.0)),
    ];
    match refused(&with(disc(40.0, 12.0), holes)) {
        SolidError::BreaksOut { feature, distance_mm, .. } => {
            assert_eq!(feature, "second");
            assert!((distance_mm - 1.0).abs() < 1e-3, "{distance_mm}");
        }
        e => panic!("{e}"),
    }
}

#[test]
fn a_web_like_foil() {
    let e = refused(&with(
        disc(40.0, 12.0),
        vec![feature("hole", [17.0 - 5e-4, 0.0, 12.0], DOWN, hole(6.0, 12.0))],
    ));
    assert!(matches!(e, SolidError::ThinWeb { web_mm, .. } if (web_mm - 5e-4).abs() < 1e-9), "{e}");
}

#[test]
fn a_counterbore_made_too_late() {
    let features = vec![
        feature("hole", [0.0, 0.0, 12.0], DOWN, hole(6.0, 12.0)),
        feature(
            "counterbore",
            [0.0, 0.0, 12.0],
            DOWN,
            bore(&[(5.0, 0.0), (5.0, 3.0), (0.0, 3.0)], End::Blind),
        ),
    ];
    assert!(matches!(refused(&with(disc(40.0, 12.0), features)), SolidError::Swallows { .. }));
}

#[test]
fn a_hole_without_a_face() {
    let e = refused(&with(disc(40.0, 12.0), vec![feature("hole", [0.0, 0.0, 13.0], DOWN, hole(6.0, 12.0))]));
    assert!(e.to_string().contains("starts on no face"), "{e}");
    let e = refused(&with(disc(40.0, 12.0), vec![feature("hole", [0.0, 0.0, 12.0], DOWN, hole(6.0, 11.0))]));
    assert_eq!(
        e.to_string(),
        "hole: comes out of no face at depth 11 mm; the nearest flat face lies at depth 12 mm"
    );
}

#[test]
fn too_deep_comes_out_on_the_far_side() {
    let e =
        refused(&with(disc(40.0, 12.0), vec![feature("drill", [0.0, 0.0, 12.0], DOWN, drilled(6.0, 11.0))]));
    assert!(matches!(&e, SolidError::Clash { first, .. } if first == "drill"), "{e}");
}

#[test]
fn bores_that_meet_inside_the_metal() {
    let features = vec![
        feature("down", [0.0, 0.0, 30.0], DOWN, drilled(6.0, 20.0)),
        feature("across", [30.0, 5.0, 15.0], -X, drilled(6.0, 40.0)),
    ];
    match refused(&with(block(60.0, 60.0, 30.0, 0.0), features)) {
        SolidError::Clash { first, second, overlap_mm } => {
            assert_eq!((first.as_str(), second.as_str()), ("across", "down"));
            assert!((overlap_mm - 1.0).abs() < 1e-6, "{overlap_mm}");
        }
        e => panic!("{e}"),
    }
}

#[test]
fn bores_that_pass_each_other_closely_are_fine() {
    let features = vec![
        feature("down", [0.0, 0.0, 30.0], DOWN, drilled(6.0, 20.0)),
        feature("across", [30.0, 6.05, 15.0], -X, drilled(6.0, 40.0)),
        feature("below", [30.0, 0.0, 3.0], -X, drilled(4.0, 45.0)),
    ];
    assert!(build(&with(block(60.0, 60.0, 30.0, 0.0), features)).is_ok());
}

#[test]
fn a_meeting_that_is_meant_is_no_clash() {
    let features = vec![
        feature("down", [0.0, 0.0, 30.0], DOWN, drilled(8.0, 20.0)),
        feature("across", [30.0, 0.0, 15.0], -X, hole(5.0, 26.0)),
    ];
    assert!(build(&with(block(60.0, 60.0, 30.0, 0.0), features)).is_ok());
}

#[test]
fn a_blind_hole_through_the_wall_of_a_tube() {
    let e = refused(&with(tube(), vec![feature("screw", [16.0, 0.0, 20.0], -X, drilled(3.0, 8.0))]));
    assert!(e.to_string().contains("cylinder of 20 mm diameter"), "{e}");
}

#[test]
fn one_hole_through_both_walls_of_a_tube() {
    let e = refused(&with(tube(), vec![feature("pin", [-16.0, 0.0, 20.0], X, hole(3.0, 32.0))]));
    assert!(matches!(e, SolidError::Clash { .. }), "{e}");
}

#[test]
fn a_hole_as_wide_as_the_shaft() {
    let shaft = turned(vec![N::new(0.0, 0.0), N::new(8.0, 0.0), N::new(8.0, 40.0), N::new(0.0, 40.0)]);
    let e = refused(&with(shaft, vec![feature("cross", [-8.0, 0.0, 20.0], X, hole(16.0, 16.0))]));
    assert!(e.to_string().contains("not narrower than the cylinder"), "{e}");
}

#[test]
fn a_hole_over_a_shoulder() {
    let shaft = turned(vec![N::new(0.0, 0.0), N::new(8.0, 0.0), N::new(8.0, 40.0), N::new(0.0, 40.0)]);
    let e = refused(&with(shaft, vec![feature("cross", [-8.0, 0.0, 2.0], X, hole(5.0, 16.0))]));
    assert!(e.to_string().contains("cross: breaks out of the cylinder of 16 mm diameter by 0.5 mm"), "{e}");
}

#[test]
fn profiles_that_are_none() {
    let bow = turned(vec![N::new(5.0, 0.0), N::new(10.0, 10.0), N::new(10.0, 0.0), N::new(5.0, 10.0)]);
    assert!(refused(&bow).to_string().contains("crosses itself at (7.5000, 5.0000)"));
    let clockwise = turned(vec![N::new(5.0, 0.0), N::new(5.0, 10.0), N::new(10.0, 10.0), N::new(10.0, 0.0)]);
    assert!(refused(&clockwise).to_string().contains("runs backwards"));
    let over = turned(vec![N::new(-1.0, 0.0), N::new(10.0, 0.0), N::new(10.0, 5.0)]);
    assert!(refused(&over).to_string().contains("over the axis"));
    let nan = turned(vec![N::new(1.0, 0.0), N::new(f64::NAN, 0.0), N::new(10.0, 5.0)]);
    assert!(refused(&nan).to_string().contains("not a number"));
    let arc =
        turned(vec![N::new(0.0, 0.0), N::arc(10.0, 0.0, 8.0, 0.0, true), N::new(8.0, 3.0), N::new(0.0, 3.0)]);
    assert!(refused(&arc).to_string().contains("starts at radius"));
    assert!(build(&turned(Vec::new())).is_err());
}

#[test]
fn chains_that_are_none() {
    let try_chain = |corners: &[(f64, f64)], end: End| {
        refused(&with(disc(40.0, 12.0), vec![feature("f", [0.0, 0.0, 12.0], DOWN, bore(corners, end))]))
            .to_string()
    };
    assert!(try_chain(&[(3.0, 0.0), (3.0, -5.0), (0.0, -5.0)], End::Blind).contains("backwards"));
    assert!(try_chain(&[(-3.0, 0.0), (-3.0, 5.0), (0.0, 5.0)], End::Blind).contains("negative"));
    assert!(try_chain(&[(3.0, 0.0), (3.0, 5.0)], End::Blind).contains("must end on its axis"));
    assert!(try_chain(&[(3.0, 1.0), (3.0, 5.0), (0.0, 5.0)], End::Blind).contains("not at 0"));
    assert!(
        try_chain(&[(3.0, 0.0), (3.0, 5.0), (5.0, 5.0), (5.0, 0.0)], End::Island).contains("smaller radius")
    );
    assert!(try_chain(&[(3.0, 0.0), (3.0, f64::INFINITY)], End::Through).contains("not a number"));
    assert!(try_chain(&[], End::Blind).contains("empty"));
}

#[test]
fn features_that_are_none() {
    let pocket = |outline: Loop, depth: f64| Kind::Pocket { outline, depth, through: false };
    let flat =
        |kind| refused(&with(disc(40.0, 12.0), vec![feature("f", [0.0, 0.0, 12.0], DOWN, kind)])).to_string();
    assert!(flat(pocket(Loop::circle(0.0, 0.0, 3.0), 0.0)).contains("not positive"));
    assert!(flat(pocket(Loop::circle(0.0, 0.0, f64::NAN), 1.0)).contains("radius NaN"));
    assert!(
        flat(pocket(Loop::Path(vec![Node::line(0.0, 0.0), Node::line(1.0, 0.0)]), 1.0))
            .contains("encloses nothing")
    );
    assert!(flat(pocket(Loop::circle(0.0, 0.0, 3.0), 13.0)).contains("run into each other"));
    let mut crooked = feature("f", [0.0, 0.0, 12.0], DOWN, hole(3.0, 12.0));
    crooked.axis.direction *= 2.0;
    assert!(refused(&with(disc(40.0, 12.0), vec![crooked])).to_string().contains("unit direction"));
}

#[test]
fn a_pad_against_a_wall() {
    let features = vec![
        feature(
            "post",
            [0.0, 0.0, 12.0],
            UP,
            Kind::Boss { chain: chain(&[(3.0, 0.0), (3.0, 10.0), (6.0, 10.0), (6.0, 12.0), (0.0, 12.0)]) },
        ),
        feature(
            "pad",
            [5.0, 0.0, 12.0],
            UP,
            Kind::Pad { outline: Loop::circle(0.0, 0.0, 1.5), height: 11.0 },
        ),
    ];
    assert!(matches!(refused(&with(disc(40.0, 12.0), features)), SolidError::Clash { .. }));
}

#[test]
fn nothing_makes_it_panic_and_what_it_makes_holds_together() {
    let sound = common::trials(1500, 7);
    assert!(sound.len() > 500, "only {} of the trials were sound: the test would prove little", sound.len());
    assert!(sound.iter().all(|(_, solid)| measure(solid).volume_mm3 > 0.0));
}
