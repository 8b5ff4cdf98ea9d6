//! Plate-like sample parts, made up for the tests of the drawings.

use super::part;
use super::turned_samples::{central, ring, tapped, through};
use crate::parts::part::Part;
use crate::shape::loops::{Loop, Node, polar};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::*;
use crate::shape::{Point2, Point3, Vector3};

type N = ProfileNode;

fn tag(name: &str) -> Tag {
    Tag::new(name)
}

fn at(name: &str, x: f64, y: f64, z: f64, dz: f64, kind: Kind) -> Feature {
    Feature {
        name: name.to_owned(),
        axis: Axis { origin: Point3::new(x, y, z), direction: Vector3::new(0.0, 0.0, dz) },
        x_axis: Vector3::new(1.0, 0.0, 0.0),
        kind,
        place: Place::Coordinates,
    }
}

fn bore(chain: &[(f64, f64)], end: End) -> Kind {
    Kind::Bore { chain: chain.iter().map(|(r, z)| N::new(*r, *z)).collect(), end, thread: None }
}

fn plate(outline: Outline, thickness: Tag, t: f64, features: Vec<Feature>) -> Recipe {
    Recipe { body: Body::Plate { outline, thickness: t, tag: thickness }, features }
}

fn block(w: f64, h: f64, corner: f64) -> Outline {
    Outline::Rectangle {
        low: Point2::new(-w / 2.0, -h / 2.0),
        high: Point2::new(w / 2.0, h / 2.0),
        corner,
        tags: [tag("width"), tag("height")],
    }
}

/// A plate with fourteen holes of four kinds, counterbores and a stepped bore with an inside groove.
pub fn cooler_plate() -> Part {
    let t = 20.0;
    let mut features = ring("hot-hole", 8, 22.5, 112.0, t, -1.0, through("hot-hole", 4.5, t));
    for (i, (x, y)) in [(62.0, 40.0), (98.0, 40.0), (62.0, -40.0), (98.0, -40.0)].into_iter().enumerate() {
        let _ = i;
        features.push(at("power-hole", x, y, t, -1.0, tapped("M5", 4.2, 10.0, 13.0)));
    }
    features.push(at(
        "dowel-hole",
        70.0,
        0.0,
        t,
        -1.0,
        Kind::Bore {
            chain: vec![
                N::new(2.0, 0.0).tag(tag("dowel-diameter").fit("H7", 0.012, 0.0)),
                N::new(2.0, 8.0),
                N::new(0.0, 8.0 + 2.0 / 59.0_f64.to_radians().tan()),
            ],
            end: End::Blind,
            thread: None,
        },
    ));
    features.push(at(
        "foot-hole",
        112.0,
        25.0,
        t,
        -1.0,
        bore(&[(5.0, 0.0), (5.0, 5.7), (2.75, 5.7), (2.75, t)], End::Through),
    ));
    features.push(at(
        "foot-hole",
        112.0,
        -25.0,
        t,
        -1.0,
        bore(&[(5.0, 0.0), (5.0, 5.7), (2.75, 5.7), (2.75, t)], End::Through),
    ));
    features.push(central(
        "rod-gland",
        t,
        -1.0,
        Kind::Bore {
            chain: vec![
                N::new(9.0, 0.0).tag(tag("bush-seat").fit("H7", 0.018, 0.0)),
                N::new(9.0, 9.0).tag(tag("bush-depth").limits(0.1, 0.0)),
                N::new(4.1, 9.0).tag(tag("rod-hole")),
                N::new(4.1, 12.0),
                N::new(5.6, 12.0).tag(tag("ring-groove").limits(0.05, 0.0)),
                N::new(5.6, 14.4),
                N::new(4.1, 14.4),
                N::new(4.1, t),
            ],
            end: End::Through,
            thread: None,
        },
    ));
    let outline = Outline::Rectangle {
        low: Point2::new(-65.0, -65.0),
        high: Point2::new(125.0, 65.0),
        corner: 8.0,
        tags: [tag("width"), tag("height")],
    };
    let mut p = part(
        "cooler-plate",
        "Cooler plate",
        plate(outline, tag("thickness").limits(0.0, -0.1), t, features),
        "Aluminium EN AW-6082 T6",
    );
    p.notes = vec!["Gasket faces Ra 1.6, flat within 0.05.".into()];
    p
}

/// A block with a bore, an annular jacket from one face and ports in its sides.
pub fn power_block() -> Part {
    let side = |name: &str, x: f64, dx: f64, z: f64| Feature {
        name: name.to_owned(),
        axis: Axis { origin: Point3::new(x, 0.0, z), direction: Vector3::new(dx, 0.0, 0.0) },
        x_axis: Vector3::new(0.0, 1.0, 0.0),
        kind: Kind::Bore {
            chain: vec![N::new(4.5, 0.0), N::new(4.5, 8.0)],
            end: End::Through,
            thread: Some(InsideThread { designation: "M10x1".into(), depth: None, both_ends: false }),
        },
        place: Place::Coordinates,
    };
    let mut features = vec![
        central(
            "bore",
            60.0,
            -1.0,
            Kind::Bore {
                chain: vec![
                    N::new(32.0, 0.0).tag(tag("bore-diameter").fit("H7", 0.030, 0.0).ra(0.4)),
                    N::new(32.0, 60.0),
                ],
                end: End::Through,
                thread: None,
            },
        ),
        central(
            "jacket",
            60.0,
            -1.0,
            Kind::Bore {
                chain: vec![
                    N::new(43.0, 0.0).tag(tag("jacket-outside")),
                    N::new(43.0, 48.0).tag(tag("jacket-depth")),
                    N::new(37.0, 48.0).tag(tag("jacket-inside")),
                    N::new(37.0, 0.0),
                ],
                end: End::Island,
                thread: None,
            },
        ),
        side("port-low", 51.0, -1.0, 20.0),
        side("port-high", -51.0, 1.0, 52.0),
    ];
    for (x, y) in [(43.0, 43.0), (-43.0, 43.0), (-43.0, -43.0), (43.0, -43.0)] {
        features.push(at("stud-hole", x, y, 60.0, -1.0, tapped("M5", 4.2, 12.0, 15.0)));
    }
    part(
        "power-block",
        "Power cylinder block",
        plate(block(102.0, 102.0, 0.0), tag("length"), 60.0, features),
        "Aluminium EN AW-6082 T6",
    )
}

/// A connecting rod with a stepped bearing seat at each end.
pub fn con_rod() -> Part {
    let seat = |d: f64, code: &str, up: f64, lo: f64, name: &str| Kind::Bore {
        chain: vec![
            N::new(d / 2.0, 0.0).tag(tag(name).fit(code, up, lo)),
            N::new(d / 2.0, 5.0).tag(tag(&format!("{name}-depth"))),
            N::new(d / 2.0 - 1.0, 5.0),
            N::new(d / 2.0 - 1.0, 8.0),
        ],
        end: End::Through,
        thread: None,
    };
    let mut small = at("small-end", 96.0, 0.0, 8.0, -1.0, seat(13.0, "N7", -0.005, -0.023, "small-seat"));
    small.place = Place::Central;
    let features = vec![central("big-end", 8.0, -1.0, seat(16.0, "N7", -0.005, -0.023, "big-seat")), small];
    let outline = Outline::Hull {
        circles: vec![(Point2::new(0.0, 0.0), 13.0), (Point2::new(96.0, 0.0), 10.0)],
        name: "rod-end".into(),
    };
    part("con-rod", "Connecting rod", plate(outline, tag("thickness"), 8.0, features), "Aluminium EN AW-7075")
}

/// A crank: a web with a journal on one side and a pin on the other.
pub fn crank() -> Part {
    let boss = |name: &str, r: f64, code: &str, up: f64, lo: f64, h: f64| Kind::Boss {
        chain: vec![
            N::new(r + 1.5, 0.0).tag(tag(&format!("{name}-shoulder"))),
            N::new(r + 1.5, 1.0).tag(tag(&format!("{name}-shoulder-height"))),
            N::new(r, 1.0).tag(tag(&format!("{name}-diameter")).fit(code, up, lo).ra(0.8)),
            N::new(r, h - 0.5).tag(tag(&format!("{name}-chamfer"))),
            N::new(r - 0.5, h).tag(tag(&format!("{name}-length"))),
            N::new(0.0, h),
        ],
    };
    let mut pin = at("pin", 16.0, 0.0, 10.0, 1.0, boss("pin", 4.0, "k6", 0.010, 0.001, 9.0));
    pin.place = Place::Central;
    let features = vec![central("journal", 0.0, -1.0, boss("journal", 4.0, "k6", 0.010, 0.001, 32.0)), pin];
    let outline = Outline::Hull {
        circles: vec![(Point2::new(-6.0, 0.0), 16.0), (Point2::new(16.0, 0.0), 9.0)],
        name: "web".into(),
    };
    part("crank-power", "Power crank", plate(outline, tag("web-thickness"), 10.0, features), "Steel 11SMn30")
}

/// A toothed pulley: round grooves on a free outline, and a hub with a set screw.
pub fn pulley() -> Part {
    let (n, r, g) = (24_u32, 18.0, 1.5);
    let mut nodes = Vec::new();
    for i in 0..n {
        let a = f64::from(i) * std::f64::consts::TAU / f64::from(n);
        let half = (g / (2.0_f64 * r)).asin() * 2.0;
        let (s, e, c) = (
            polar(Point2::new(0.0, 0.0), r, a - half),
            polar(Point2::new(0.0, 0.0), r, a + half),
            polar(Point2::new(0.0, 0.0), r, a),
        );
        nodes.push(Node::arc(s.x, s.y, c.x, c.y, false));
        nodes.push(Node::arc(e.x, e.y, 0.0, 0.0, true));
    }
    let outline = Outline::Free {
        boundary: Loop::Path(nodes),
        sizes: vec![
            (tag("teeth"), Measure::Listed(24.0)),
            (tag("outside-diameter"), Measure::Diameter(36.0)),
            (tag("groove-radius"), Measure::Radius(1.5)),
            (tag("pitch"), Measure::Listed(3.0)),
        ],
    };
    let hub = Kind::Boss {
        chain: vec![
            N::new(10.0, 0.0).tag(tag("hub-diameter")),
            N::new(10.0, 9.0).tag(tag("hub-length")),
            N::new(0.0, 9.0),
        ],
    };
    let features = vec![
        central("hub", 10.0, 1.0, hub),
        central(
            "shaft-bore",
            19.0,
            -1.0,
            Kind::Bore {
                chain: vec![
                    N::new(4.0, 0.0).tag(tag("bore-diameter").fit("H7", 0.015, 0.0)),
                    N::new(4.0, 19.0),
                ],
                end: End::Through,
                thread: None,
            },
        ),
        super::turned_samples::radial(
            "set-screw",
            10.0,
            14.5,
            90.0,
            Kind::Bore {
                chain: vec![N::new(1.65, 0.0), N::new(1.65, 6.0)],
                end: End::Through,
                thread: Some(InsideThread { designation: "M4".into(), depth: None, both_ends: false }),
            },
        ),
    ];
    part(
        "timing-pulley",
        "Timing pulley",
        plate(outline, tag("face-width"), 10.0, features),
        "Aluminium EN AW-6082 T6",
    )
}

/// A gasket.
pub fn gasket() -> Part {
    let t = 1.0;
    let mut features = ring("hole", 8, 22.5, 112.0, t, -1.0, through("hole", 4.8, t));
    features.push(central("opening", t, -1.0, through("opening", 97.0, t)));
    let outline =
        Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: 126.0, tag: tag("outside-diameter") };
    part("hot-gasket", "Hot gasket", plate(outline, tag("thickness"), t, features), "Graphite sheet")
}

/// A split ring: a C cut from a disc.
pub fn split_ring() -> Part {
    let (ro, ri, half) = (32.0_f64, 28.5_f64, 0.2_f64);
    let (ao, ai) = ((half / ro).asin(), (half / ri).asin());
    let p = |r: f64, a: f64| polar(Point2::new(0.0, 0.0), r, a);
    let (a, b) = (p(ro, ao), p(ro, -ao));
    let (c, d) = (p(ri, -ai), p(ri, ai));
    let boundary = Loop::Path(vec![
        Node::arc(a.x, a.y, 0.0, 0.0, true),
        Node::line(b.x, b.y),
        Node::arc(c.x, c.y, 0.0, 0.0, false),
        Node::line(d.x, d.y),
    ]);
    let sizes = vec![
        (tag("ring-outside"), Measure::Diameter(64.0)),
        (tag("ring-inside"), Measure::Diameter(57.0)),
        (tag("ring-gap").limits(0.1, 0.0), Measure::Upright(b, a)),
    ];
    part(
        "piston-ring",
        "Piston ring",
        plate(Outline::Free { boundary, sizes }, tag("ring-height").limits(-0.02, -0.06), 3.0, vec![]),
        "PTFE, glass filled",
    )
}

/// A bracket with a slot, a rectangular pocket, a free pocket and a pad.
pub fn bracket() -> Part {
    let t = 12.0;
    let local = |name: &str, x: f64, y: f64, dz: f64, kind: Kind| Feature {
        place: if name == "slot" { Place::Coordinates } else { Place::Central },
        ..at(name, x, y, t, dz, kind)
    };
    let slot = crate::shape::outline::hull(&[(Point2::new(-10.0, 0.0), 3.0), (Point2::new(10.0, 0.0), 3.0)]);
    let window = crate::shape::outline::rectangle(Point2::new(-15.0, -9.0), Point2::new(15.0, 9.0), 3.0);
    let wedge =
        Loop::Path(vec![Node::line(-6.0, -5.0), Node::line(8.0, -5.0), Node::arc(8.0, 5.0, 1.0, 0.0, true)]);
    let pad = Loop::circle(0.0, 0.0, 7.0);
    let features = vec![
        local("slot", 0.0, 28.0, -1.0, Kind::Pocket { outline: slot, depth: t, through: true }),
        local("window", 0.0, 0.0, -1.0, Kind::Pocket { outline: window, depth: 5.0, through: false }),
        local("wedge", -32.0, -18.0, -1.0, Kind::Pocket { outline: wedge, depth: 3.0, through: false }),
        local("pad", 36.0, 0.0, 1.0, Kind::Pad { outline: pad, height: 4.0 }),
    ];
    part("bracket", "Bracket", plate(block(100.0, 80.0, 5.0), tag("thickness"), t, features), "Steel S235JR")
}
