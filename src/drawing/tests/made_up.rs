//! Parts made up by a fixed sequence of numbers: steps, grooves, holes and bosses in places that nobody
//! chose, so that the placement of texts meets what the samples do not hold.

use super::part;
use super::turned_samples::{central, radial, ring, tapped, through};
use crate::parts::part::Part;
use crate::shape::outline::Outline;
use crate::shape::recipe::*;
use crate::shape::solid::build;
use crate::shape::{Point2, Point3, Vector3};

type N = ProfileNode;

/// Numbers that are always the same (a linear congruential sequence).
struct Numbers(u64);

impl Numbers {
    /// A number in `low..high`, in tenths of a millimetre.
    fn mm(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let t = (self.0 >> 33) as f64 / (1_u64 << 31) as f64;
        ((low + (high - low) * t) * 10.0).round() / 10.0
    }

    /// One of `n`.
    fn pick(&mut self, n: usize) -> usize {
        (self.mm(0.0, n as f64 - 0.11)).floor() as usize
    }
}

/// The first `count` that are sound solids, turned ones and plates in turn.
pub fn parts(count: usize) -> Vec<Part> {
    let sound = |part: &Part| part.recipe.as_ref().is_some_and(|r| build(r).is_ok());
    let half = |make: fn(u64) -> Part| (0..).map(make).filter(sound).take(count / 2).collect::<Vec<_>>();
    half(turned).into_iter().chain(half(plate)).collect()
}

/// A named surface, sometimes with a fit or limits.
fn tag(n: &mut Numbers, name: &str, i: usize) -> Tag {
    let tag = Tag::new(&format!("{name}-{}", i + 1));
    match n.pick(4) {
        0 => tag.fit("h6", 0.0, -0.013),
        1 => tag.limits(0.1, -0.05),
        2 => tag.ra(0.8),
        _ => tag,
    }
}

/// A stepped shaft or bush with grooves and holes.
fn turned(seed: u64) -> Part {
    let n = &mut Numbers(seed + 7);
    let steps = 3 + n.pick(6);
    let (mut nodes, mut z) = (Vec::new(), 0.0);
    let bore = [0.0, n.mm(2.0, 6.0)][n.pick(2)];
    nodes.push(N::new(bore, 0.0));
    for i in 0..steps {
        let r = n.mm(bore + 4.0, 40.0);
        let length = n.mm(1.5, 25.0);
        nodes.push(N::new(r, z).tag(tag(n, "step", i)));
        z += length;
        let name = format!("face-{}", i + 1);
        nodes.push(N::new(r, z).tag(if i % 3 == 2 {
            Tag::new(&name).limits(0.1, -0.1)
        } else {
            Tag::new(&name)
        }));
    }
    let end = N::new(bore, z);
    nodes.push(if bore > 0.0 { end.tag(Tag::new("bore").fit("H7", 0.015, 0.0)) } else { end });
    let (first, last) = (nodes[1].r, nodes[nodes.len() - 2].r);
    let mut features = Vec::new();
    if last > bore + 12.0 {
        let circle = (last + bore).round();
        features.extend(ring(
            "end-hole",
            3 + n.pick(6),
            n.mm(0.0, 50.0),
            circle,
            z,
            -1.0,
            tapped("M3", 2.5, 1.0, 1.2),
        ));
    }
    if bore == 0.0 && last > 5.0 {
        features.push(central("centre-hole", z, -1.0, tapped("M4", 3.3, 8.0, 10.0)));
    }
    let half = (nodes[2].z / 2.0 * 10.0).round() / 10.0;
    features.push(radial(
        "cross-hole",
        first,
        half,
        90.0,
        through("cross-hole", 1.0, if bore > 0.0 { first - bore } else { 2.0 * first }),
    ));
    part(
        &format!("turned-{seed}"),
        "Made-up turned part",
        Recipe { body: Body::Turned(nodes), features },
        "Brass",
    )
}

/// A plate with scattered holes, a stepped bore and sometimes a boss.
fn plate(seed: u64) -> Part {
    let n = &mut Numbers(seed + 99);
    let (w, h, t) = (n.mm(50.0, 180.0), n.mm(40.0, 140.0), n.mm(3.0, 25.0));
    let outline = match n.pick(3) {
        0 => Outline::Disc {
            centre: Point2::new(0.0, 0.0),
            diameter: w,
            tag: Tag::new("outside").limits(0.0, -0.2),
        },
        1 => Outline::Rectangle {
            low: Point2::new(0.0, 0.0),
            high: Point2::new(w, h),
            corner: n.mm(0.0, 6.0),
            tags: [Tag::new("width"), Tag::new("height").limits(0.1, -0.1)],
        },
        _ => Outline::Hull {
            circles: vec![
                (Point2::new(0.0, 0.0), w / 3.0),
                (Point2::new(w, 0.0), w / 5.0),
                (Point2::new(w / 2.0, h), w / 6.0),
            ],
            name: "corner".into(),
        },
    };
    let boundary = outline.boundary();
    let (low, high) = boundary.bounds();
    let mut taken: Vec<Point2> = Vec::new();
    let mut features = Vec::new();
    for i in 0..40 {
        let p = Point2::new(n.mm(low.x, high.x), n.mm(low.y, high.y));
        let clear = taken.iter().all(|q| (p.x - q.x).hypot(p.y - q.y) > 14.0);
        if !(boundary.contains(p) && boundary.distance(p) > 7.0 && clear) || taken.len() > 16 {
            continue;
        }
        taken.push(p);
        let kind = match i % 5 {
            0 => tapped("M5", 4.2, t * 0.4, t * 0.5),
            1 => Kind::Bore {
                chain: vec![N::new(5.0, 0.0), N::new(5.0, t / 2.0), N::new(2.75, t / 2.0), N::new(2.75, t)],
                end: End::Through,
                thread: None,
            },
            4 => Kind::Boss { chain: vec![N::new(4.0, 0.0), N::new(4.0, 6.0), N::new(0.0, 6.0)] },
            k => Kind::Bore {
                chain: vec![N::new(k as f64, 0.0), N::new(k as f64, t)],
                end: End::Through,
                thread: None,
            },
        };
        let boss = matches!(kind, Kind::Boss { .. });
        features.push(Feature {
            name: format!("kind-{}", i % 5 + 1),
            axis: Axis {
                origin: Point3::new(p.x, p.y, t),
                direction: Vector3::new(0.0, 0.0, if boss { 1.0 } else { -1.0 }),
            },
            x_axis: Vector3::new(1.0, 0.0, 0.0),
            kind,
            place: Place::Coordinates,
        });
    }
    let body = Body::Plate { outline, thickness: t, tag: tag(n, "thickness", 0) };
    part(&format!("plate-{seed}"), "Made-up plate", Recipe { body, features }, "Steel")
}
