use super::order::sorted;
use super::*;
use crate::parts::assembly::placed;
use crate::parts::kit::{along, at, through};
use crate::shape::recipe::{Body, Tag};

/// A tube or disc about Z: inner and outer radius, from z to z.
fn tube(inner: f64, outer: f64, low: f64, high: f64) -> Recipe {
    let nodes = vec![at(inner, low), at(outer, low), at(outer, high), at(inner, high)];
    Recipe { body: Body::Turned(nodes), features: Vec::new() }
}

fn standing(name: &str, z: [f64; 3], x: [f64; 3], origin: Point3) -> Instance {
    placed(name, name.trim_end_matches(char::is_numeric), origin, z, x)
}

fn upright(name: &str) -> Instance {
    standing(name, [0.0, 0.0, 1.0], [1.0, 0.0, 0.0], Point3::new(0.0, 0.0, 0.0))
}

fn piece_of<'a>(instance: &'a Instance, recipe: &'a Recipe, bench: Option<usize>) -> Piece<'a> {
    let axis = Line { point: instance.origin, way: instance.z_axis };
    let c = View::isometric().frame.flat(instance.origin);
    Piece {
        instance,
        recipe,
        metal: Metal::of(recipe),
        axis,
        lines_of: std::iter::once(axis).chain(depths::feature_lines(instance, recipe)).collect(),
        bench,
        lines: Vec::new(),
        frame: Frame::new(c.x - 20.0, c.y - 20.0, 40.0, 40.0),
        by: Vector2::new(0.0, 0.0),
        string: 0,
    }
}

fn names<'a>(all: &[Piece<'a>]) -> Vec<&'a str> {
    all.iter().map(|p| p.instance.name.as_str()).collect()
}

/// A cap over a displacer that is longer than the cylinder: by their middles the gasket would lie within the displacer.
#[test]
fn what_is_put_together_on_the_bench_stays_together() {
    let recipes = [
        (
            "cap",
            vec![
                at(0.0, 100.0),
                at(0.0, 96.0),
                at(30.0, 96.0),
                at(30.0, 40.0),
                at(40.0, 40.0),
                at(40.0, 44.0),
                at(34.0, 44.0),
                at(34.0, 100.0),
            ],
            None,
        ),
        ("gasket", vec![at(30.0, 39.0), at(40.0, 39.0), at(40.0, 40.0), at(30.0, 40.0)], None),
        ("cylinder", vec![at(30.0, 0.0), at(40.0, 0.0), at(40.0, 39.0), at(30.0, 39.0)], None),
        (
            "shell",
            vec![at(28.0, 5.0), at(29.0, 5.0), at(29.0, 90.0), at(0.0, 90.0), at(0.0, 89.0), at(28.0, 89.0)],
            Some(1),
        ),
        ("base", vec![at(0.0, 5.0), at(28.0, 5.0), at(28.0, 8.0), at(0.0, 8.0)], Some(1)),
    ]
    .map(|(name, nodes, bench)| {
        (upright(name), Recipe { body: Body::Turned(nodes), features: vec![] }, bench)
    });
    let pieces = recipes.iter().map(|(i, r, bench)| piece_of(i, r, *bench)).collect();
    let order = sorted(pieces, Vector3::unit_z());
    assert_eq!(names(&order), ["cap", "shell", "base", "gasket", "cylinder"]);
}

/// Two rings lie in grooves on both sides of the piston's middle, the upper one farther from it: both go over the crown.
#[test]
fn rings_go_over_one_end_of_the_piston() {
    let grooved = |low: f64| [at(20.0, low), at(18.0, low), at(18.0, low + 2.0), at(20.0, low + 2.0)];
    let mut nodes = vec![at(0.0, 0.0), at(20.0, 0.0)];
    nodes.extend(grooved(8.0).into_iter().chain(grooved(24.0)));
    nodes.extend([at(20.0, 30.0), at(0.0, 30.0)]);
    let piston = Recipe { body: Body::Turned(nodes), features: vec![] };
    let rings = [tube(18.2, 20.2, 8.0, 10.0), tube(18.2, 20.2, 24.0, 26.0)];
    let (a, b, c) = (upright("piston"), upright("ring1"), upright("ring2"));
    let pieces =
        vec![piece_of(&a, &piston, None), piece_of(&b, &rings[0], None), piece_of(&c, &rings[1], None)];
    assert_eq!(names(&sorted(pieces, Vector3::unit_z())), ["ring2", "ring1", "piston"]);
}

#[test]
fn a_foot_goes_with_the_plate_that_has_a_hole_for_it() {
    let mut plate = tube(0.0, 50.0, 0.0, 10.0);
    let feet: Vec<Instance> = (0..2)
        .map(|i| {
            standing(
                &format!("foot{i}"),
                [0.0, 0.0, 1.0],
                [1.0, 0.0, 0.0],
                Point3::new(40.0 - 80.0 * f64::from(i), 0.0, -20.0),
            )
        })
        .collect();
    for foot in &feet {
        let at = Point3::new(foot.origin.x, 0.0, 10.0);
        plate.features.push(through(at, along(0.0, 0.0, -1.0), 5.0, 10.0, Tag::new("hole")));
    }
    let (low, cover) = (tube(0.0, 8.0, 0.0, 20.0), tube(10.0, 50.0, 10.0, 12.0));
    let (a, b) = (upright("plate"), upright("cover"));
    let pieces = vec![
        piece_of(&feet[0], &low, None),
        piece_of(&feet[1], &low, None),
        piece_of(&a, &plate, None),
        piece_of(&b, &cover, None),
    ];
    let eye = View::isometric().frame;
    let spread = strings::spread(pieces, &eye);
    assert_eq!(names(&spread), ["cover", "plate", "foot0", "foot1"]);
    assert!((spread[2].by - spread[3].by).magnitude() < 1e-9, "feet stay abreast");
    assert!(spread[2].by.y < spread[1].by.y && spread[1].by.y < spread[0].by.y, "downwards");
    for (i, a) in spread.iter().enumerate() {
        let others = spread[i + 1..].iter().filter(|b| b.instance.part != a.instance.part);
        assert!(others.into_iter().all(|b| !a.frame.overlaps(&b.frame)), "{}", a.instance.name);
    }
    assert_eq!(strings::axes(&spread, &eye).len(), 3, "cover to plate, plate to each foot");
}

#[test]
fn strings_move_aside() {
    let shape = tube(0.0, 20.0, 0.0, 10.0);
    let a = upright("plate");
    let b = standing("pulley", [0.0, 1.0, 0.0], [1.0, 0.0, 0.0], Point3::new(0.0, 0.0, 0.0));
    let spread = strings::spread(
        vec![piece_of(&a, &shape, None), piece_of(&b, &shape, None)],
        &View::isometric().frame,
    );
    assert!(!spread[0].frame.overlaps(&spread[1].frame));
}
