//! Turned sample parts, made up for the tests of the drawings.

use super::part;
use crate::parts::part::Part;
use crate::shape::recipe::*;
use crate::shape::{Point2, Point3, Vector3};

type N = ProfileNode;

fn tag(name: &str) -> Tag {
    Tag::new(name)
}

fn turned(nodes: Vec<N>, features: Vec<Feature>) -> Recipe {
    Recipe { body: Body::Turned(nodes), features }
}

/// Holes on a circle, from the face at `z` in the direction `dz`.
pub fn ring(
    name: &str,
    count: usize,
    first_deg: f64,
    diameter: f64,
    z: f64,
    dz: f64,
    kind: Kind,
) -> Vec<Feature> {
    let angles: Vec<f64> = (0..count).map(|i| first_deg + 360.0 / count as f64 * i as f64).collect();
    let one = |a: &f64| {
        let (s, c) = a.to_radians().sin_cos();
        Feature {
            name: name.to_owned(),
            axis: Axis {
                origin: Point3::new(diameter / 2.0 * c, diameter / 2.0 * s, z),
                direction: Vector3::new(0.0, 0.0, dz),
            },
            x_axis: Vector3::new(1.0, 0.0, 0.0),
            kind: kind.clone(),
            place: Place::Circle { centre: Point2::new(0.0, 0.0), diameter, angles_deg: angles.clone() },
        }
    };
    angles.iter().map(one).collect()
}

/// A plain hole right through.
pub fn through(name: &str, d: f64, depth: f64) -> Kind {
    Kind::Bore {
        chain: vec![N::new(d / 2.0, 0.0).tag(tag(&format!("{name}-diameter"))), N::new(d / 2.0, depth)],
        end: End::Through,
        thread: None,
    }
}

/// A tapped hole.
pub fn tapped(m: &str, drill: f64, thread: f64, depth: f64) -> Kind {
    let r = drill / 2.0;
    Kind::Bore {
        chain: vec![N::new(r, 0.0), N::new(r, depth), N::new(0.0, depth + r / 59.0_f64.to_radians().tan())],
        end: End::Blind,
        thread: Some(InsideThread { designation: m.to_owned(), depth: Some(thread), both_ends: false }),
    }
}

/// A feature on the axis.
pub fn central(name: &str, z: f64, dz: f64, kind: Kind) -> Feature {
    Feature {
        name: name.to_owned(),
        axis: Axis { origin: Point3::new(0.0, 0.0, z), direction: Vector3::new(0.0, 0.0, dz) },
        x_axis: Vector3::new(1.0, 0.0, 0.0),
        kind,
        place: Place::Central,
    }
}

/// A radial feature at angle 0 or 90.
pub fn radial(name: &str, r: f64, z: f64, angle_deg: f64, kind: Kind) -> Feature {
    let (s, c) = angle_deg.to_radians().sin_cos();
    Feature {
        name: name.to_owned(),
        axis: Axis { origin: Point3::new(r * c, r * s, z), direction: Vector3::new(-c, -s, 0.0) },
        x_axis: Vector3::new(0.0, 0.0, 1.0),
        kind,
        place: Place::Radial { z, angle_deg },
    }
}

/// A flanged cup with bolt circle and fillets.
pub fn hot_cap() -> Part {
    let nodes = vec![
        N::new(48.0, 0.0).tag(tag("flange-face").ra(1.6)),
        N::new(63.0, 0.0).tag(tag("flange-diameter")),
        N::new(63.0, 6.0).tag(tag("flange-thickness")),
        N::arc(52.5, 6.0, 52.5, 9.0, false).tag(tag("flange-fillet")),
        N::new(49.5, 9.0).tag(tag("outside-diameter")),
        N::arc(49.5, 118.0, 44.5, 118.0, true).tag(tag("end-round")),
        N::new(44.5, 123.0).tag(tag("length")),
        N::new(0.0, 123.0),
        N::new(0.0, 120.0).tag(tag("depth")),
        N::arc(45.0, 120.0, 45.0, 117.0, false).tag(tag("inside-fillet")),
        N::new(48.0, 117.0).tag(tag("bore-diameter").fit("H9", 0.087, 0.0)),
    ];
    let holes = ring("flange-hole", 8, 22.5, 114.0, 0.0, 1.0, through("flange-hole", 4.5, 6.0));
    let mut p = part("hot-cap", "Hot cap", turned(nodes, holes), "Stainless steel 1.4301");
    p.cautions = vec!["Surface reaches 550 °C in use. Keep gasket faces free of scratches.".into()];
    p.notes = vec!["Leak test at 1.5 times the charge pressure before first firing.".into()];
    p
}

/// A cylinder with ten fins.
pub fn finned_cylinder() -> Part {
    let mut nodes = vec![
        N::new(48.0, 0.0),
        N::new(63.0, 0.0).tag(tag("flange-diameter")),
        N::new(63.0, 8.0).tag(tag("flange-thickness")),
    ];
    for i in 0..10 {
        let z = 12.0 + 6.0 * f64::from(i);
        nodes.push(N::new(52.0, z - 4.0).tag(tag(&format!("fin-{}-root", i + 1))));
        nodes.push(N::new(52.0, z).tag(tag(&format!("fin-{}-low", i + 1))));
        nodes.push(N::new(62.0, z).tag(tag(&format!("fin-{}-diameter", i + 1))));
        nodes.push(N::new(62.0, z + 2.0).tag(tag(&format!("fin-{}-high", i + 1))));
    }
    nodes.extend([
        N::new(52.0, 68.0).tag(tag("neck-diameter")),
        N::new(52.0, 72.0).tag(tag("top-flange-start")),
        N::new(63.0, 72.0).tag(tag("top-flange-diameter")),
        N::new(63.0, 80.0).tag(tag("length")),
        N::new(48.0, 80.0).tag(tag("bore-diameter").fit("H7", 0.035, 0.0).ra(0.8)),
    ]);
    let mut holes = ring("hot-hole", 8, 22.5, 114.0, 0.0, 1.0, tapped("M4", 3.3, 6.0, 7.0));
    if let Some(Kind::Bore { chain, .. }) = holes.first().map(|h| h.kind.clone()) {
        assert!(chain.len() == 3);
    }
    holes.truncate(8);
    part("cold-cylinder", "Cold cylinder with fins", turned(nodes, holes), "Aluminium EN AW-6082 T6")
}

/// A piston with two ring grooves.
pub fn piston() -> Part {
    let nodes = vec![
        N::new(0.0, 0.0),
        N::new(31.0, 0.0).tag(tag("crown-chamfer")),
        N::new(31.96, 0.96).tag(tag("piston-diameter").fit("f7", -0.030, -0.060).ra(0.8)),
        N::new(31.96, 6.0).tag(tag("ring-1-top").limits(0.1, -0.1)),
        N::new(28.4, 6.0).tag(tag("ring-1-root").limits(0.0, -0.05)),
        N::new(28.4, 9.0).tag(tag("ring-1-width").limits(0.05, 0.0)),
        N::new(31.96, 9.0),
        N::new(31.96, 12.0).tag(tag("ring-2-top")),
        N::new(28.4, 12.0).tag(tag("ring-2-root").limits(0.0, -0.05)),
        N::new(28.4, 15.0).tag(tag("ring-2-width").limits(0.05, 0.0)),
        N::new(31.96, 15.0),
        N::new(31.96, 40.0).tag(tag("length")),
        N::new(27.0, 40.0).tag(tag("skirt-bore")),
        N::new(27.0, 10.0).tag(tag("crown")),
        N::new(10.0, 10.0).tag(tag("boss-diameter")),
        N::new(10.0, 24.0).tag(tag("boss-end")),
        N::new(0.0, 24.0),
    ];
    let hole = central("rod-thread", 24.0, -1.0, tapped("M8", 6.8, 12.0, 16.0));
    part("power-piston", "Power piston", turned(nodes, vec![hole]), "Aluminium EN AW-6082 T6")
}

/// A boss with a tapped hole and a cross pin hole.
pub fn hub() -> Part {
    let nodes = vec![
        N::new(0.0, 0.0),
        N::new(20.0, 0.0).tag(tag("flange-diameter")),
        N::new(20.0, 5.0).tag(tag("flange-thickness")),
        N::new(9.0, 5.0).tag(tag("hub-diameter").fit("h8", 0.0, -0.027)),
        N::new(9.0, 23.0).tag(tag("end-chamfer")),
        N::new(8.0, 24.0).tag(tag("length")),
        N::new(0.0, 24.0),
    ];
    let features = vec![
        central("rod-hole", 24.0, -1.0, tapped("M6", 5.0, 14.0, 17.0)),
        radial(
            "pin-hole",
            9.0,
            14.0,
            90.0,
            Kind::Bore {
                chain: vec![
                    N::new(1.5, 0.0).tag(tag("pin-diameter").fit("H7", 0.010, 0.0)),
                    N::new(1.5, 6.5),
                ],
                end: End::Through,
                thread: None,
            },
        ),
    ];
    part("displacer-hub", "Displacer hub", turned(nodes, features), "Aluminium EN AW-6082 T6")
}

/// A long rod with a thread at both ends.
pub fn rod() -> Part {
    let nodes = vec![
        N::new(0.0, 0.0),
        N::new(2.3, 0.0).tag(tag("low-chamfer")),
        N::new(3.0, 0.7).tag(tag("low-thread").thread("M6")),
        N::new(3.0, 14.0).tag(tag("low-thread-end")),
        N::new(4.0, 14.0).tag(tag("rod-diameter").fit("h6", 0.0, -0.009).ra(0.4)),
        N::new(4.0, 171.0).tag(tag("high-thread-start")),
        N::new(3.0, 171.0).tag(tag("high-thread").thread("M6")),
        N::new(3.0, 184.3).tag(tag("high-chamfer")),
        N::new(2.3, 185.0).tag(tag("length")),
        N::new(0.0, 185.0),
    ];
    part("displacer-rod", "Displacer rod", turned(nodes, vec![]), "Stainless steel 1.4305, ground")
}

/// A thin shell, closed at one end, with a step for its base.
pub fn displacer_shell() -> Part {
    let nodes = vec![
        N::new(46.5, 0.0).tag(tag("rim")),
        N::new(47.0, 0.0).tag(tag("shell-diameter").limits(0.0, -0.1)),
        N::arc(47.0, 158.0, 45.0, 158.0, true).tag(tag("dome-round")),
        N::new(45.0, 160.0).tag(tag("length")),
        N::new(0.0, 160.0),
        N::new(0.0, 159.5).tag(tag("end-thickness").from_z(160.0)),
        N::arc(45.0, 159.5, 45.0, 158.0, false).tag(tag("dome-inside-round")),
        N::new(46.5, 158.0).tag(tag("shell-bore").fit("H8", 0.054, 0.0)),
    ];
    let vent = radial("vent-hole", 47.0, 6.0, 0.0, through("vent-hole", 1.0, 0.5));
    part("displacer-shell", "Displacer shell", turned(nodes, vec![vent]), "Stainless steel 1.4301")
}

/// A round base with a spigot, a rod boss and a cross hole, as bosses on a turned disc.
pub fn displacer_base() -> Part {
    let nodes = vec![
        N::new(0.0, 0.0),
        N::new(47.0, 0.0).tag(tag("base-diameter")),
        N::new(47.0, 3.0).tag(tag("rim-height")),
        N::new(46.5, 3.0).tag(tag("spigot-diameter").fit("h7", 0.0, -0.035)),
        N::new(46.5, 8.0).tag(tag("base-height")),
        N::new(0.0, 8.0),
    ];
    let boss = Kind::Boss {
        chain: vec![
            N::new(9.0, 0.0).tag(tag("boss-diameter")),
            N::new(9.0, 11.5).tag(tag("boss-chamfer")),
            N::new(8.5, 12.0).tag(tag("boss-height")),
            N::new(0.0, 12.0),
        ],
    };
    let features = vec![
        central("rod-boss", 8.0, 1.0, boss),
        central(
            "rod-seat",
            0.0,
            1.0,
            Kind::Bore {
                chain: vec![
                    N::new(4.0, 0.0).tag(tag("rod-seat-diameter").fit("H7", 0.015, 0.0).ra(1.6)),
                    N::new(4.0, 16.0).tag(tag("rod-seat-depth")),
                    N::new(0.0, 16.0),
                ],
                end: End::Blind,
                thread: None,
            },
        ),
    ];
    part("displacer-base", "Displacer base", turned(nodes, features), "Aluminium EN AW-6082 T6")
}
