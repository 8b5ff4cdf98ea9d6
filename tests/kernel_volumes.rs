//! Volumes, areas and inertia against closed forms of any textbook of solid geometry, and against
//! quadrature that shares nothing with the kernel.

mod common;

use common::{DOWN, X, block, bore, disc, drilled, feature, hole, turned};
use std::f64::consts::PI;
use swept::shape::Vector3;
use swept::shape::loops::{Loop, Node};
use swept::shape::measure::{Measure, measure};
use swept::shape::recipe::{End, Kind, ProfileNode as N, Recipe};
use swept::shape::solid::{build, directed};

fn made(recipe: &Recipe) -> Measure {
    measure(&build(recipe).unwrap_or_else(|e| panic!("{e}")))
}

#[track_caller]
fn close(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-11 * wanted.abs().max(1.0), "{found} instead of {wanted}");
}

#[test]
fn frustum() {
    let (a, b, h) = (10.0, 6.0, 15.0);
    let m = made(&turned(vec![N::new(0.0, 0.0), N::new(a, 0.0), N::new(b, h), N::new(0.0, h)]));
    close(m.volume_mm3, PI * h / 3.0 * (a * a + a * b + b * b));
    close(m.area_mm2, PI * (a * a + b * b + (a + b) * f64::hypot(a - b, h)));
    close(m.centre.z, h / 4.0 * (a * a + 2.0 * a * b + 3.0 * b * b) / (a * a + a * b + b * b));
}

#[test]
fn cone_to_a_point_above_and_below() {
    let m = made(&turned(vec![N::new(0.0, 0.0), N::new(9.0, 12.0), N::new(0.0, 20.0)]));
    close(m.volume_mm3, PI * 81.0 * 20.0 / 3.0);
    close(m.area_mm2, PI * 9.0 * (15.0 + f64::hypot(9.0, 8.0)));
}

#[test]
fn torus_ring_by_pappus() {
    let (big, small) = (20.0, 3.0);
    let m = made(&turned(vec![
        N::arc(big + small, 0.0, big, 0.0, true),
        N::arc(big - small, 0.0, big, 0.0, true),
    ]));
    close(m.volume_mm3, 2.0 * PI * PI * big * small * small);
    close(m.area_mm2, 4.0 * PI * PI * big * small);
    close(m.high.x, big + small);
    close(m.high.z, small);
    close(m.inertia_mm5[2][2], m.volume_mm3 * (big * big + 0.75 * small * small));
}

#[test]
fn ball_has_its_volume_and_inertia() {
    let m = made(&common::ball());
    close(m.volume_mm3, 4.0 / 3.0 * PI * 125.0);
    close(m.area_mm2, 100.0 * PI);
    for k in 0..3 {
        close(m.inertia_mm5[k][k], 0.4 * m.volume_mm3 * 25.0);
        close(m.low[k], -5.0);
        close(m.high[k], 5.0);
    }
}

#[test]
fn fillets_inside_and_outside_by_pappus() {
    // A quarter disc of radius ρ has its centroid at 4ρ/(3π) from its two straight sides.
    let (r, rho, h) = (10.0, 2.0, 12.0);
    let outside = made(&turned(vec![
        N::new(0.0, 0.0),
        N::new(r, 0.0),
        N::arc(r, h - rho, r - rho, h - rho, true),
        N::new(r - rho, h),
        N::new(0.0, h),
    ]));
    let quarter = PI * rho * rho / 4.0;
    let corner = rho * rho * (r - rho / 2.0) - quarter * (r - rho + 4.0 * rho / (3.0 * PI));
    close(outside.volume_mm3, PI * r * r * h - 2.0 * PI * corner);
    let inside = made(&turned(vec![
        N::new(0.0, 0.0),
        N::new(20.0, 0.0),
        N::new(20.0, 5.0),
        N::arc(r + rho, 5.0, r + rho, 5.0 + rho, false),
        N::new(r, 5.0 + rho),
        N::new(r, h),
        N::new(0.0, h),
    ]));
    let web = rho * rho * (r + rho / 2.0) - quarter * (r + rho - 4.0 * rho / (3.0 * PI));
    close(inside.volume_mm3, PI * 400.0 * 5.0 + PI * r * r * (h - 5.0) + 2.0 * PI * web);
}

#[test]
fn block_has_the_inertia_of_the_tables() {
    let m = made(&block(30.0, 20.0, 10.0, 0.0));
    close(m.volume_mm3, 6000.0);
    close(m.area_mm2, 2.0 * (600.0 + 300.0 + 200.0));
    close(m.inertia_mm5[0][0], 6000.0 / 12.0 * 500.0);
    close(m.inertia_mm5[2][2], 6000.0 / 12.0 * 1300.0);
    assert_eq!((m.faces.plane, m.faces.cylinder), (6, 0));
}

/// ∫ over a round hole of radius `r` of √(R² − y²), by Simpson's rule over y = r sin t.
fn depth_integral(r: f64, cylinder: f64) -> f64 {
    let n = 2000;
    let f = |t: f64| 2.0 * (r * t.cos()).powi(2) * (cylinder * cylinder - (r * t.sin()).powi(2)).sqrt();
    let h = PI / f64::from(n);
    let weight = |i: i32| {
        if i == 0 || i == n {
            1.0
        } else if i % 2 == 1 {
            4.0
        } else {
            2.0
        }
    };
    (0..=n).map(|i| weight(i) * f(-PI / 2.0 + h * f64::from(i))).sum::<f64>() * h / 3.0
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-9 * wanted.abs(), "{found} instead of {wanted}");
}

#[test]
fn cross_holes_by_quadrature() {
    for r in [0.5, 3.0, 7.0, 7.9] {
        let mut shaft =
            turned(vec![N::new(0.0, 0.0), N::new(8.0, 0.0), N::new(8.0, 40.0), N::new(0.0, 40.0)]);
        shaft.features.push(feature("cross", [-8.0, 0.0, 20.0], X, hole(2.0 * r, 16.0)));
        near(made(&shaft).volume_mm3, PI * 64.0 * 40.0 - 2.0 * depth_integral(r, 8.0));
    }
}

#[test]
fn holes_from_outside_into_a_bore_at_any_angle() {
    for k in 0..7 {
        let a = 0.3 + f64::from(k);
        let out = Vector3::new(a.cos(), a.sin(), 0.0);
        let mut tube =
            turned(vec![N::new(10.0, 0.0), N::new(16.0, 0.0), N::new(16.0, 50.0), N::new(10.0, 50.0)]);
        tube.features.push(feature("port", [16.0 * out.x, 16.0 * out.y, 20.0], -out, hole(9.0, 6.0)));
        let removed = depth_integral(4.5, 16.0) - depth_integral(4.5, 10.0);
        near(made(&tube).volume_mm3, PI * (256.0 - 100.0) * 50.0 - removed);
    }
}

#[test]
fn a_hole_from_inside_a_bore_outwards_is_the_same_hole() {
    let mut tube = turned(vec![N::new(10.0, 0.0), N::new(16.0, 0.0), N::new(16.0, 50.0), N::new(10.0, 50.0)]);
    tube.features.push(feature("port", [10.0, 0.0, 20.0], X, hole(9.0, 6.0)));
    near(made(&tube).volume_mm3, PI * 156.0 * 50.0 - depth_integral(4.5, 16.0) + depth_integral(4.5, 10.0));
}

#[test]
fn from_a_flat_into_a_groove_wall() {
    let mut part = block(60.0, 60.0, 30.0, 0.0);
    let groove = bore(&[(18.0, 0.0), (18.0, 15.0), (13.0, 15.0), (13.0, 0.0)], End::Island);
    part.features = vec![
        feature("groove", [0.0, 0.0, 30.0], DOWN, groove),
        feature("port", [30.0, 0.0, 22.0], -X, hole(6.0, 12.0)),
    ];
    let port = 30.0 * PI * 9.0 - depth_integral(3.0, 18.0);
    near(made(&part).volume_mm3, 108_000.0 - PI * (324.0 - 169.0) * 15.0 - port);
}

#[test]
fn drilled_holes_pockets_and_pads() {
    let mut part = disc(50.0, 20.0);
    let slot = Loop::Path(vec![
        Node::line(-5.0, -2.0),
        Node::arc(5.0, -2.0, 5.0, 0.0, true),
        Node::line(5.0, 2.0),
        Node::arc(-5.0, 2.0, -5.0, 0.0, true),
    ]);
    part.features = vec![
        feature("drill", [0.0, 15.0, 20.0], DOWN, drilled(6.0, 10.0)),
        feature(
            "slot",
            [0.0, 0.0, 20.0],
            DOWN,
            Kind::Pocket { outline: slot.clone(), depth: 4.0, through: false },
        ),
        feature(
            "slot",
            [0.0, -12.0, 20.0],
            DOWN,
            Kind::Pocket { outline: slot.reversed(), depth: 20.0, through: true },
        ),
        feature(
            "pad",
            [12.0, 8.0, 20.0],
            -DOWN,
            Kind::Pad { outline: Loop::circle(1.0, 0.0, 3.0), height: 2.0 },
        ),
    ];
    let drill = PI * 9.0 * (10.0 + 3.0 / 59f64.to_radians().tan() / 3.0);
    let area = 40.0 + 4.0 * PI;
    close(made(&part).volume_mm3, PI * 625.0 * 20.0 - drill - area * 24.0 + PI * 18.0);
}

#[test]
fn an_island_takes_its_holes_along() {
    let mut part = disc(50.0, 20.0);
    part.features = vec![
        feature("bore", [0.0, 0.0, 20.0], DOWN, hole(8.0, 20.0)),
        feature(
            "groove",
            [0.0, 0.0, 20.0],
            DOWN,
            bore(&[(15.0, 0.0), (15.0, 5.0), (10.0, 5.0), (10.0, 0.0)], End::Island),
        ),
        feature("spot", [7.0, 0.0, 20.0], DOWN, drilled(2.0, 3.0)),
    ];
    let spot = PI * (3.0 + 1.0 / 59f64.to_radians().tan() / 3.0);
    close(made(&part).volume_mm3, PI * (625.0 - 16.0) * 20.0 - PI * 125.0 * 5.0 - spot);
}

#[test]
fn a_moved_solid_is_the_same_elsewhere() {
    let here = build(&common::tube()).expect("a tube");
    let (a, b) = (measure(&here), measure(&here.moved(Vector3::new(5.0, -7.0, 100.0))));
    close(b.volume_mm3, a.volume_mm3);
    close(b.centre.z, a.centre.z + 100.0);
    close(b.low.x, a.low.x + 5.0);
    close(b.high.y, a.high.y - 7.0);
    close(b.inertia_mm5[0][0], a.inertia_mm5[0][0]);
}

#[test]
fn every_edge_lies_on_its_faces() {
    for (name, recipe) in common::all() {
        let solid = build(&recipe).unwrap_or_else(|e| panic!("{name}: {e}"));
        for face in solid.faces() {
            let surface = face.surface();
            for edge in face.edge_iter() {
                let curve = directed(&edge);
                let off =
                    (0..=400).map(|i| surface.side(curve.at(f64::from(i) / 400.0)).abs()).fold(0.0, f64::max);
                assert!(off < 1e-6, "{name}: an edge lies {off} mm off its {}", surface.kind());
            }
        }
    }
}
