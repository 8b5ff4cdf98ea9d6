//! Sample recipes that cover everything the kernel makes, for tests and benches.
#![allow(dead_code, reason = "each test crate uses some of the samples")]

use swept::parts::part::{Material, Part, Supply};
use swept::shape::loops::{Loop, Node};
use swept::shape::outline::Outline;
use swept::shape::recipe::{
    Axis, Body, End, Feature, InsideThread, Kind, Place, ProfileNode as N, Recipe, Tag,
};
use swept::shape::solid::{Solid, build};
use swept::shape::{Point2, Point3, Vector3};

pub const UP: Vector3 = Vector3::new(0.0, 0.0, 1.0);
pub const DOWN: Vector3 = Vector3::new(0.0, 0.0, -1.0);
pub const X: Vector3 = Vector3::new(1.0, 0.0, 0.0);
pub const Y: Vector3 = Vector3::new(0.0, 1.0, 0.0);

pub fn feature(name: &str, origin: [f64; 3], direction: Vector3, kind: Kind) -> Feature {
    let x_axis = if direction.x.abs() > 0.9 { Y } else { X };
    let axis = Axis { origin: Point3::new(origin[0], origin[1], origin[2]), direction };
    Feature { name: name.into(), axis, x_axis, kind, place: Place::Coordinates }
}

pub fn chain(corners: &[(f64, f64)]) -> Vec<N> {
    corners.iter().map(|(r, z)| N::new(*r, *z)).collect()
}

pub fn bore(corners: &[(f64, f64)], end: End) -> Kind {
    Kind::Bore { chain: chain(corners), end, thread: None }
}

pub fn hole(diameter: f64, depth: f64) -> Kind {
    bore(&[(diameter / 2.0, 0.0), (diameter / 2.0, depth)], End::Through)
}

/// A drilled hole with a point of 118°.
pub fn drilled(diameter: f64, depth: f64) -> Kind {
    let r = diameter / 2.0;
    bore(&[(r, 0.0), (r, depth), (0.0, depth + r / 59f64.to_radians().tan())], End::Blind)
}

pub fn turned(nodes: Vec<N>) -> Recipe {
    Recipe { body: Body::Turned(nodes), features: Vec::new() }
}

pub fn disc(diameter: f64, thickness: f64) -> Recipe {
    let outline = Outline::Disc { centre: Point2::new(0.0, 0.0), diameter, tag: Tag::new("diameter") };
    Recipe { body: Body::Plate { outline, thickness, tag: Tag::new("thickness") }, features: Vec::new() }
}

pub fn block(x: f64, y: f64, z: f64, corner: f64) -> Recipe {
    let outline = Outline::Rectangle {
        low: Point2::new(-x / 2.0, -y / 2.0),
        high: Point2::new(x / 2.0, y / 2.0),
        corner,
        tags: [Tag::new("width"), Tag::new("height")],
    };
    Recipe { body: Body::Plate { outline, thickness: z, tag: Tag::new("thickness") }, features: Vec::new() }
}

fn with(mut recipe: Recipe, features: Vec<Feature>) -> Recipe {
    recipe.features = features;
    recipe
}

/// Stepped bush with chamfer, outside and inside fillets.
pub fn stepped_bush() -> Recipe {
    turned(vec![
        N::new(6.0, 0.0),
        N::new(14.0, 0.0),
        N::new(15.0, 1.0),
        N::arc(15.0, 8.0, 13.0, 8.0, true),
        N::new(13.0, 10.0),
        N::arc(11.0, 10.0, 11.0, 12.0, false),
        N::new(9.0, 12.0),
        N::new(9.0, 24.0),
        N::new(8.0, 25.0),
        N::new(6.5, 25.0),
        N::new(6.0, 24.5),
    ])
}

/// Disc with a bore and six holes on a bolt circle.
pub fn flange() -> Recipe {
    let mut features = vec![feature("bore", [0.0, 0.0, 10.0], DOWN, hole(25.0, 10.0))];
    for k in 0..6 {
        let a = f64::from(k) * std::f64::consts::FRAC_PI_3;
        let at = [24.0 * a.cos(), 24.0 * a.sin(), 10.0];
        features.push(feature("bolt-hole", at, DOWN, hole(5.5, 10.0)));
    }
    with(disc(60.0, 10.0), features)
}

/// Plate with pockets, counterbores, tapped holes and side holes, some on faces made by others.
pub fn plate() -> Recipe {
    let pocket = Loop::Path(vec![
        Node::line(-10.0, -6.0),
        Node::arc(10.0, -6.0, 10.0, 0.0, true),
        Node::line(10.0, 6.0),
        Node::arc(-10.0, 6.0, -10.0, 0.0, true),
    ]);
    let square = Loop::Path(vec![
        Node::line(-4.0, -4.0),
        Node::line(4.0, -4.0),
        Node::line(4.0, 4.0),
        Node::line(-4.0, 4.0),
    ]);
    let counterbore = bore(&[(5.0, 0.0), (5.0, 5.7), (2.75, 5.7), (2.75, 20.0)], End::Through);
    let tapped = Kind::Bore {
        chain: chain(&[(2.5, 0.0), (2.5, 12.0), (0.0, 13.5)]),
        end: End::Blind,
        thread: Some(InsideThread { designation: "M6".into(), depth: Some(10.0), both_ends: false }),
    };
    with(
        block(100.0, 60.0, 20.0, 6.0),
        vec![
            feature(
                "slot",
                [0.0, 0.0, 20.0],
                DOWN,
                Kind::Pocket { outline: pocket, depth: 8.0, through: false },
            ),
            feature(
                "window",
                [10.0, 0.0, 12.0],
                DOWN,
                Kind::Pocket { outline: square, depth: 12.0, through: true },
            ),
            feature("floor-hole", [-10.0, 0.0, 12.0], DOWN, hole(4.0, 12.0)),
            feature("screw", [40.0, 20.0, 20.0], DOWN, counterbore.clone()),
            feature("screw", [-40.0, -20.0, 20.0], DOWN, counterbore),
            feature("tapped", [-40.0, 20.0, 20.0], DOWN, tapped),
            feature("side", [50.0, -10.0, 8.0], -X, drilled(5.0, 25.0)),
            feature(
                "rib",
                [40.0, -18.0, 20.0],
                UP,
                Kind::Pad { outline: Loop::circle(0.0, 0.0, 4.0), height: 3.0 },
            ),
        ],
    )
}

/// Block with a through bore, a ring groove round it, a side hole into the groove and one into the bore.
pub fn grooved_block() -> Recipe {
    let groove = bore(&[(18.0, 0.0), (18.0, 15.0), (13.0, 15.0), (13.0, 0.0)], End::Island);
    with(
        block(60.0, 60.0, 30.0, 0.0),
        vec![
            feature("bore", [0.0, 0.0, 30.0], DOWN, hole(16.0, 30.0)),
            feature("groove", [0.0, 0.0, 30.0], DOWN, groove),
            feature("port", [30.0, 0.0, 22.0], -X, hole(6.0, 12.0)),
            feature("port", [0.0, -30.0, 6.0], Y, hole(5.0, 22.0)),
            feature("island-hole", [10.5, 0.0, 30.0], DOWN, drilled(2.0, 6.0)),
            feature("bridge", [-18.0 + 5.0, 0.0, 22.0], X, hole(4.0, 5.0)),
        ],
    )
}

/// Shaft with a cross hole, a blind one and a step.
pub fn shaft() -> Recipe {
    let body = turned(vec![
        N::new(0.0, 0.0),
        N::new(7.0, 0.0),
        N::new(8.0, 1.0),
        N::new(8.0, 40.0),
        N::new(6.0, 40.0),
        N::new(6.0, 59.0),
        N::new(5.0, 60.0),
        N::new(0.0, 60.0),
    ]);
    with(
        body,
        vec![
            feature("cross-hole", [-8.0, 0.0, 20.0], X, hole(5.0, 16.0)),
            feature("wide-hole", [0.0, 8.0, 32.0], -Y, hole(12.0, 16.0)),
            feature("spot", [0.0, -6.0, 50.0], Y, drilled(3.0, 4.0)),
            feature(
                "centre",
                [0.0, 0.0, 60.0],
                DOWN,
                bore(&[(1.6, 0.0), (0.8, 1.4), (0.8, 2.5), (0.0, 3.0)], End::Blind),
            ),
        ],
    )
}

/// Tube with radial set-screw holes into its bore, three at 120°, and one counterbored.
pub fn tube() -> Recipe {
    let body = turned(vec![N::new(10.0, 0.0), N::new(16.0, 0.0), N::new(16.0, 50.0), N::new(10.0, 50.0)]);
    let mut features = Vec::new();
    for k in 0..3 {
        let a = f64::from(k) * std::f64::consts::TAU / 3.0;
        let out = Vector3::new(a.cos(), a.sin(), 0.0);
        features.push(feature("set-screw", [16.0 * out.x, 16.0 * out.y, 10.0], -out, hole(5.0, 6.0)));
    }
    let stepped = bore(&[(6.0, 0.0), (6.0, 3.0), (2.0, 3.0), (2.0, 6.0)], End::Through);
    features.push(feature("port", [16.0, 0.0, 34.0], -X, stepped));
    with(body, features)
}

/// Crank web: a hull with a pin on a boss, a bore and a clamp hole between two walls.
pub fn crank() -> Recipe {
    let outline = Outline::Hull {
        circles: vec![(Point2::new(0.0, 0.0), 12.0), (Point2::new(25.0, 0.0), 8.0)],
        name: "web".into(),
    };
    let body = Body::Plate { outline, thickness: 8.0, tag: Tag::new("thickness") };
    let mut pin = chain(&[(5.0, 0.0), (5.0, 3.0), (3.0, 3.0), (3.0, 17.5), (2.5, 18.0), (0.0, 18.0)]);
    pin[0] = N::new(5.0, 0.0);
    Recipe {
        body,
        features: vec![
            feature("pin", [25.0, 0.0, 8.0], UP, Kind::Boss { chain: pin }),
            feature("pin-hole", [25.0, 0.0, 26.0], DOWN, drilled(2.0, 8.0)),
            feature("shaft-bore", [0.0, 0.0, 8.0], DOWN, hole(8.0, 8.0)),
            feature("set-screw", [-12.0, 0.0, 4.0], X, hole(3.3, 8.0)),
        ],
    }
}

/// Ball-ended piece: sphere, inside and outside tori of every quarter, dome with its pole.
pub fn rounded() -> Recipe {
    turned(vec![
        N::new(0.0, 0.0),
        N::arc(10.0, 0.0, 10.0, 3.0, true),
        N::arc(13.0, 3.0, 13.0, 5.0, false),
        N::arc(11.0, 5.0, 11.0, 8.0, false),
        N::new(11.0, 11.0),
        N::new(10.0, 11.0),
        N::arc(10.0, 14.0, 0.0, 14.0, true),
        N::new(0.0, 24.0),
    ])
}

/// A ball, two poles and nothing else.
pub fn ball() -> Recipe {
    turned(vec![N::arc(0.0, -5.0, 0.0, 0.0, true), N::new(0.0, 5.0)])
}

/// Split ring as a free outline.
pub fn split_ring() -> Recipe {
    let (a, b) = (0.1f64, std::f64::consts::TAU - 0.1);
    let at = |r: f64, t: f64| (r * t.cos(), r * t.sin());
    let [(ax, ay), (bx, by)] = [at(20.0, a), at(20.0, b)];
    let [(cx, cy), (dx, dy)] = [at(17.0, b), at(17.0, a)];
    let boundary = Loop::Path(vec![
        Node::arc(ax, ay, 0.0, 0.0, true),
        Node::line(bx, by),
        Node::arc(cx, cy, 0.0, 0.0, false),
        Node::line(dx, dy),
    ]);
    let outline = Outline::Free {
        boundary,
        sizes: vec![(Tag::new("outside-diameter"), swept::shape::outline::Measure::Diameter(40.0))],
    };
    Recipe { body: Body::Plate { outline, thickness: 3.0, tag: Tag::new("thickness") }, features: Vec::new() }
}

/// Cones to a point above and below, with a blind conical hole.
pub fn points() -> Recipe {
    let body = turned(vec![N::new(0.0, 0.0), N::new(10.0, 6.0), N::new(10.0, 16.0), N::new(0.0, 30.0)]);
    with(
        body,
        vec![feature("spot", [10.0, 0.0, 11.0], -X, bore(&[(2.0, 0.0), (2.0, 3.0), (0.0, 5.0)], End::Blind))],
    )
}

/// All samples under their names.
pub fn all() -> Vec<(&'static str, Recipe)> {
    vec![
        ("stepped-bush", stepped_bush()),
        ("flange", flange()),
        ("plate", plate()),
        ("grooved-block", grooved_block()),
        ("shaft", shaft()),
        ("tube", tube()),
        ("crank", crank()),
        ("rounded", rounded()),
        ("ball", ball()),
        ("split-ring", split_ring()),
        ("points", points()),
    ]
}

/// A part of a sample.
pub fn part(name: &str, recipe: Recipe) -> Part {
    Part {
        name: name.into(),
        title: format!("Sample {name} Ø"),
        quantity: 1,
        supply: Supply::Make,
        material: Material {
            name: "Steel 1.0715".into(),
            density_kg_m3: 7850.0,
            filled: 1.0,
            colour: [0.7, 0.2, 0.3],
        },
        recipe: Some(recipe),
        flat: false,
        blank: None,
        fastener: false,
        notes: Vec::new(),
        geometry: swept::shape::control::Geometry::default(),
        cautions: Vec::new(),
    }
}

/// Numbers without a pattern, the same in every run (a linear congruential generator; constants from
/// memory of Knuth's MMIX).
pub struct Dice(u64);

impl Dice {
    fn roll(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1u64 << 53) as f64)
    }

    fn odd(&mut self) -> f64 {
        match self.roll(0.0, 60.0) as usize {
            0 => f64::NAN,
            1 => f64::INFINITY,
            2 => -1.0,
            3 => 0.0,
            _ => self.roll(0.2, 12.0),
        }
    }
}

/// Recipes put together at random, good and bad numbers alike; those that become a solid, as they grow.
pub fn trials(count: usize, seed: u64) -> Vec<(Recipe, Solid)> {
    let mut dice = Dice(seed);
    let mut sound = Vec::new();
    for _ in 0..count {
        let (a, b, c) = (dice.odd(), dice.odd(), dice.odd());
        let (mut recipe, top) = match dice.roll(0.0, 3.0) as usize {
            0 => (disc(4.0 * a, b), b),
            1 => (block(4.0 * a, 4.0 * b, c, dice.roll(0.0, 2.0)), c),
            _ => (trial_bush(a, b), b),
        };
        for k in 0..5 {
            let feature = trial_feature(&mut dice, k, [a, b, c], top);
            recipe.features.push(feature);
            match build(&recipe) {
                Ok(solid) => sound.push((recipe.clone(), solid)),
                Err(_) => drop(recipe.features.pop()),
            }
        }
    }
    sound
}

fn trial_bush(a: f64, b: f64) -> Recipe {
    turned(vec![
        N::new(a / 3.0, 0.0),
        N::new(a + 1.0, 0.0),
        N::new(a + 1.0, b * 0.7),
        N::arc(a + 0.5, b * 0.7, a + 0.5, b * 0.7 + 0.2, false),
        N::new(a + 0.3, b * 0.7 + 0.2),
        N::new(a + 0.2, b),
        N::new(a / 3.0, b),
    ])
}

fn trial_feature(dice: &mut Dice, k: usize, [a, b, c]: [f64; 3], top: f64) -> Feature {
    let (r, d) = (dice.odd() / 4.0, dice.odd());
    let at = [dice.roll(-6.0, 6.0), dice.roll(-6.0, 6.0), top];
    match (k, dice.roll(0.0, 5.0) as usize) {
        (4, _) => feature("end", [0.0, -2.0 * b, c / 2.0], Y, drilled(2.0 * r, d)),
        (3, 1 | 2) => {
            let angle = dice.roll(0.0, std::f64::consts::TAU);
            let out = Vector3::new(angle.cos(), angle.sin(), 0.0);
            let kind = if r > 0.8 { drilled(2.0 * r, d / 6.0) } else { hole(2.0 * r, 2.0 * a / 3.0 + 1.0) };
            feature("radial", [(a + 1.0) * out.x, (a + 1.0) * out.y, b * 0.4], -out, kind)
        }
        (3, 0) => feature("side", [a + 1.0, 0.0, b / 2.0], -X, hole(2.0 * r, 2.0 * a / 3.0 + 1.0)),
        (3, _) => feature("side", [a + 1.0, 0.0, b / 2.0], -X, drilled(2.0 * r, d / 3.0)),
        (2, _) => feature("other", [2.0 * a, 0.0, c / 2.0], -X, drilled(2.0 * r, d)),
        (_, 0) => feature("hole", at, DOWN, hole(2.0 * r, top)),
        (_, 1) => feature("drill", at, DOWN, drilled(2.0 * r, d / 2.0)),
        (_, 2) => {
            let ring = bore(&[(r + 1.0, 0.0), (r + 1.0, d / 4.0), (r, d / 4.0), (r, 0.0)], End::Island);
            feature("groove", at, DOWN, ring)
        }
        (_, 3) => {
            let outline =
                swept::shape::outline::rectangle(Point2::new(-r, -2.0 * r), Point2::new(r, r), r / 3.0);
            feature("pocket", at, DOWN, Kind::Pocket { outline, depth: d / 3.0, through: false })
        }
        _ => feature(
            "boss",
            at,
            UP,
            Kind::Boss { chain: chain(&[(r, 0.0), (r, d), (r / 2.0, d + 1.0), (0.0, d + 1.0)]) },
        ),
    }
}
