//! Common pieces of part recipes: holes, threads, fits, patterns. Lengths in millimetres.

use super::part::{Material, Part, Supply};
use crate::catalogue::{Catalogue, fits, threads::Thread};
use crate::shape::control::{Control, Geometry};
use crate::shape::loops::{Loop, Node};
use crate::shape::recipe::{Axis, End, Feature, InsideThread, Kind, Place, ProfileNode, Recipe, Tag};
use crate::shape::{Point2, Point3, Vector3};

/// Half of the point angle of a twist drill, 118° over all (common practice): tangent of 59°.
const DRILL_TIP_TAN: f64 = 1.664_279_482_350_517_8;

/// A profile corner.
pub fn at(r: f64, z: f64) -> ProfileNode {
    ProfileNode::new(r, z)
}

/// A profile corner whose surface has a name.
pub fn named(r: f64, z: f64, tag: Tag) -> ProfileNode {
    ProfileNode::new(r, z).tag(tag)
}

/// A tag with an ISO 286 class at a nominal size; an unknown class leaves the general tolerance.
pub fn fit(name: &str, nominal_mm: f64, class: &str) -> Tag {
    match fits::limits(nominal_mm, class) {
        Ok(limits) => Tag::new(name).fit(class, limits.upper_mm, limits.lower_mm),
        Err(_) => Tag::new(name),
    }
}

/// Unit vector along X, Y or Z, either way.
pub fn along(x: f64, y: f64, z: f64) -> Vector3 {
    Vector3::new(x, y, z)
}

/// Local x for a direction: X where it can be, else Y.
fn side(direction: Vector3) -> Vector3 {
    if direction.x.abs() > 0.5 { Vector3::new(0.0, 1.0, 0.0) } else { Vector3::new(1.0, 0.0, 0.0) }
}

/// A feature with its place told centrally.
pub fn feature(name: &str, origin: Point3, direction: Vector3, kind: Kind) -> Feature {
    Feature {
        name: name.to_owned(),
        axis: Axis { origin, direction },
        x_axis: side(direction),
        kind,
        place: Place::Central,
    }
}

/// A hole turned about its axis.
pub fn bore(name: &str, origin: Point3, direction: Vector3, chain: Vec<ProfileNode>, end: End) -> Feature {
    feature(name, origin, direction, Kind::Bore { chain, end, thread: None })
}

/// A plain hole through `length`.
pub fn through(origin: Point3, direction: Vector3, diameter: f64, length: f64, tag: Tag) -> Feature {
    let name = tag.name.clone();
    bore(
        &name,
        origin,
        direction,
        vec![named(diameter / 2.0, 0.0, tag), at(diameter / 2.0, length)],
        End::Through,
    )
}

/// A tapped blind hole: full thread to `depth`, drilled three pitches deeper, with the drill's tip.
pub fn tapped(name: &str, origin: Point3, direction: Vector3, thread: &Thread, depth: f64) -> Feature {
    let r = thread.tap_drill_mm / 2.0;
    let drilled = depth + 3.0 * thread.pitch_mm;
    let chain = vec![named(r, 0.0, Tag::new(name)), at(r, drilled), at(0.0, drilled + r / DRILL_TIP_TAN)];
    let inside =
        InsideThread { designation: thread.designation.clone(), depth: Some(depth), both_ends: false };
    feature(name, origin, direction, Kind::Bore { chain, end: End::Blind, thread: Some(inside) })
}

/// How deep a tapped hole of full thread `depth` reaches, with the drill's tip.
pub fn tapped_reach(thread: &Thread, depth: f64) -> f64 {
    depth + 3.0 * thread.pitch_mm + thread.tap_drill_mm / 2.0 / DRILL_TIP_TAN
}

/// A hole tapped right through `length`.
pub fn tapped_through(
    name: &str,
    origin: Point3,
    direction: Vector3,
    designation: &str,
    drill: f64,
    length: f64,
) -> Feature {
    let r = drill / 2.0;
    let chain = vec![named(r, 0.0, Tag::new(name)), at(r, length)];
    let inside = InsideThread { designation: designation.to_owned(), depth: None, both_ends: false };
    feature(name, origin, direction, Kind::Bore { chain, end: End::Through, thread: Some(inside) })
}

/// A clearance hole (ISO 273 medium) with a counterbore (DIN 974-1) for a cap screw.
pub fn counterbored(name: &str, origin: Point3, direction: Vector3, thread: &Thread, length: f64) -> Feature {
    sunk(name, origin, direction, thread, thread.counterbore_depth_mm, length)
}

/// As [`counterbored`], the counterbore `deep` \[mm\].
pub fn sunk(
    name: &str,
    origin: Point3,
    direction: Vector3,
    thread: &Thread,
    deep: f64,
    length: f64,
) -> Feature {
    let head = thread.counterbore_diameter_mm / 2.0;
    let r = thread.clearance_medium_mm / 2.0;
    let chain = vec![
        named(head, 0.0, Tag::new(&format!("{name}-counterbore"))),
        at(head, deep),
        named(r, deep, Tag::new(name)),
        at(r, length),
    ];
    bore(name, origin, direction, chain, End::Through)
}

impl Feature {
    /// The same feature with another way to tell its place.
    pub fn placed(mut self, place: Place) -> Self {
        self.place = place;
        self
    }
}

/// A material by its name in the catalogue, still to be looked up by [`material`] when the set is whole: no density before.
pub fn stuff_named(name: &str) -> Material {
    Material { name: name.to_owned(), density_kg_m3: 0.0, filled: 1.0, colour: [0.6, 0.6, 0.6] }
}

/// Material of the catalogue; an unknown name keeps the name and counts as steel.
pub fn material(book: &Catalogue, name: &str) -> Material {
    match book.material(name) {
        Ok(m) => {
            Material { name: m.title.clone(), density_kg_m3: m.density_kg_m3, filled: 1.0, colour: m.colour }
        }
        Err(_) => Material { density_kg_m3: 7850.0, ..stuff_named(name) },
    }
}

/// A made part with neither notes nor blank yet.
pub fn made(name: &str, title: &str, stuff: &str, recipe: Recipe) -> Part {
    Part {
        name: name.to_owned(),
        title: title.to_owned(),
        quantity: 1,
        supply: Supply::Make,
        fastener: false,
        material: stuff_named(stuff),
        recipe: Some(recipe),
        flat: false,
        blank: None,
        notes: Vec::new(),
        geometry: Geometry::default(),
        cautions: Vec::new(),
    }
}

impl Part {
    /// With a note for the drawing.
    pub fn note(mut self, text: &str) -> Self {
        self.notes.push(text.to_owned());
        self
    }

    /// With a caution for the drawing.
    pub fn caution(mut self, text: &str) -> Self {
        self.cautions.push(text.to_owned());
        self
    }

    /// With a geometrical tolerance.
    pub fn control(mut self, control: Control) -> Self {
        self.geometry.controls.push(control);
        self
    }

    /// Needed `n` times.
    pub fn times(mut self, n: usize) -> Self {
        self.quantity = n;
        self
    }

    /// Cut from sheet.
    pub fn flat(mut self) -> Self {
        self.flat = true;
        self
    }
}

/// A split ring in plan: outer and inner radius, gap with parallel ends about +X.
pub fn split_ring(outer: f64, inner: f64, gap: f64) -> Loop {
    let h = gap / 2.0;
    let (xo, xi) = ((outer * outer - h * h).sqrt(), (inner * inner - h * h).sqrt());
    Loop::Path(vec![
        Node::arc(xo, h, 0.0, 0.0, true),
        Node::line(xo, -h),
        Node::arc(xi, -h, 0.0, 0.0, false),
        Node::line(xi, h),
    ])
}

/// A point in the XY plane at height z.
pub fn lift(p: Point2, z: f64) -> Point3 {
    Point3::new(p.x, p.y, z)
}
