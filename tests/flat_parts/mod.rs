//! Flat parts for tests: the asymmetric "F" plate, a ring with six holes, a slotted gasket.

#![allow(dead_code)] // each test program uses what it needs

use swept::export::cutfile::Stroke;
use swept::parts::part::{Material, Part, Supply};
use swept::shape::loops::{Loop, Node, polar};
use swept::shape::outline::{Outline, hull, rectangle};
use swept::shape::recipe::{Axis, Body, End, Feature, Kind, Place, ProfileNode, Recipe, Tag};
use swept::shape::{Point2, Point3, Vector3};

/// A flat part of 1 mm sheet.
pub fn flat(name: &str, outline: Outline, features: Vec<Feature>) -> Part {
    let body = Body::Plate { outline, thickness: 1.0, tag: Tag::new("thickness") };
    Part {
        name: name.to_owned(),
        title: name.replace('-', " "),
        quantity: 1,
        supply: Supply::Make,
        material: Material {
            name: "Graphite sheet".to_owned(),
            density_kg_m3: 1000.0,
            filled: 1.0,
            colour: [0.2; 3],
        },
        recipe: Some(Recipe { body, features }),
        flat: true,
        blank: None,
        fastener: false,
        notes: Vec::new(),
        geometry: swept::shape::control::Geometry::default(),
        cautions: Vec::new(),
    }
}

/// A plain hole right through the sheet, drilled from below.
pub fn hole(name: &str, x: f64, y: f64, diameter: f64) -> Feature {
    let r = diameter / 2.0;
    let chain =
        vec![ProfileNode::new(r, 0.0).tag(Tag::new(&format!("{name}-diameter"))), ProfileNode::new(r, 1.0)];
    feature(name, x, y, Kind::Bore { chain, end: End::Through, thread: None })
}

/// A pocket right through the sheet.
pub fn window(name: &str, outline: Loop) -> Feature {
    feature(name, 0.0, 0.0, Kind::Pocket { outline, depth: 1.0, through: true })
}

/// A feature from the lower face upwards.
pub fn feature(name: &str, x: f64, y: f64, kind: Kind) -> Feature {
    Feature {
        name: name.to_owned(),
        axis: Axis { origin: Point3::new(x, y, 0.0), direction: Vector3::new(0.0, 0.0, 1.0) },
        x_axis: Vector3::new(1.0, 0.0, 0.0),
        kind,
        place: Place::Coordinates,
    }
}

/// A plate in the shape of the letter F, 40 mm wide and 60 mm high, with one hole near its foot: mirrored
/// or turned, it is another shape.
pub fn f_plate() -> Part {
    let corners = [
        (0.0, 0.0),
        (12.0, 0.0),
        (12.0, 24.0),
        (30.0, 24.0),
        (30.0, 36.0),
        (12.0, 36.0),
        (12.0, 48.0),
        (40.0, 48.0),
        (40.0, 60.0),
        (0.0, 60.0),
    ];
    let boundary = Loop::Path(corners.iter().map(|(x, y)| Node::line(*x, *y)).collect());
    flat("f-plate", Outline::Free { boundary, sizes: Vec::new() }, vec![hole("foot-hole", 6.0, 6.0, 5.0)])
}

/// A ring of 60 mm with a bore of 36 mm and six holes of 4.5 mm on a circle of 50 mm.
pub fn ring() -> Part {
    let outline =
        Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: 60.0, tag: Tag::new("outside-diameter") };
    let holes = (0..6).map(|i| {
        let at = polar(Point2::new(0.0, 0.0), 25.0, f64::from(i) * std::f64::consts::FRAC_PI_3 + 0.1);
        hole("bolt-hole", at.x, at.y, 4.5)
    });
    flat("ring-six-holes", outline, std::iter::once(hole("bore", 0.0, 0.0, 36.0)).chain(holes).collect())
}

/// A gasket round two bores with a slot between them, rounded corners and four holes.
pub fn slotted() -> Part {
    let outline = Outline::Rectangle {
        low: Point2::new(-50.0, -30.0),
        high: Point2::new(50.0, 30.0),
        corner: 8.0,
        tags: [Tag::new("width"), Tag::new("height")],
    };
    let slot = hull(&[(Point2::new(-8.0, 0.0), 4.0), (Point2::new(8.0, 0.0), 4.0)]);
    let mut features: Vec<Feature> = [(-42.0, -22.0), (42.0, -22.0), (42.0, 22.0), (-42.0, 22.0)]
        .iter()
        .map(|(x, y)| hole("bolt-hole", *x, *y, 5.5))
        .collect();
    features.push(hole("bore", -30.0, 0.0, 20.0));
    features.push(hole("bore", 30.0, 0.0, 20.0));
    features.push(window("transfer-slot", slot));
    features.push(window("window", rectangle(Point2::new(-6.0, 12.0), Point2::new(9.0, 18.0), 1.5)));
    flat("slotted-gasket", outline, features)
}

/// A stand-in for lettering: every character of `a-z`, `0-9`, space and `.:,-` is a box with a diagonal,
/// 0.7 of its height wide; any other is refused.
pub fn boxes(text: &str, height_mm: f64) -> Result<Vec<Stroke>, String> {
    let mut out = Vec::new();
    for (i, c) in text.chars().enumerate() {
        if !(c.is_ascii_lowercase() || c.is_ascii_digit() || " .:,-".contains(c)) {
            return Err(format!("the character {c:?} has no strokes"));
        }
        let (x, w) = (0.9 * height_mm * i as f64, 0.7 * height_mm);
        if c != ' ' {
            let corner = |dx: f64, dy: f64| Point2::new(x + dx, dy);
            out.push(vec![
                corner(0.0, 0.0),
                corner(w, 0.0),
                corner(w, height_mm),
                corner(0.0, height_mm),
                corner(0.0, 0.0),
                corner(w, height_mm),
            ]);
        }
    }
    Ok(out)
}
