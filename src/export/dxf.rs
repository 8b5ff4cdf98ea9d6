//! A cut file as DXF: built with the `dxf` crate, then mended (see `dxf_mend`).
//!
//! R2000 says its unit and keeps each contour as one closed light polyline with bulges. R12 is for old
//! cutters: lines, arcs and circles only. Coordinates have nine decimals, so that hole centres of mating
//! parts agree far below what a machine can hold.

use super::cutfile::{CutFile, PunchMark, Stroke};
use super::dxf_mend;
use super::layers::{Action, Layers};
use crate::shape::Point2;
use crate::shape::loops::{Loop, Piece};
use dxf::entities::{Arc, Circle, Entity, EntityType, Line, LwPolyline};
use dxf::enums::{AcadVersion, DrawingUnits, Units};
use dxf::tables::Layer;
use dxf::{Color, Drawing, LwPolylineVertex, Point};
use std::f64::consts::PI;

/// Half the length of the arms of a punch cross \[mm\].
const CROSS_MM: f64 = 1.0;

/// Which DXF.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Version {
    /// AC1015: closed light polylines with bulges, millimetres declared.
    #[default]
    R2000,
    /// AC1009: lines, arcs and circles only; cannot declare a unit.
    R12,
}

/// The bytes of the DXF file.
///
/// # Errors
/// What the `dxf` crate or the mending of its output reports; either would be a fault of the program.
pub fn dxf(file: &CutFile, layers: &Layers, version: Version) -> Result<Vec<u8>, String> {
    let mut drawing = Drawing::new();
    header(&mut drawing, file, version);
    for action in Action::ALL {
        let layer = layers.of(action);
        drawing.add_layer(Layer {
            name: layer.name.clone(),
            color: Color::from_index(layer.dxf_colour),
            ..Default::default()
        });
    }
    let mut put = |action: Action, entities: Vec<EntityType>| {
        for specific in entities {
            let mut entity = Entity::new(specific);
            entity.common.layer = layers.of(action).name.clone();
            drawing.add_entity(entity);
        }
    };
    put(Action::Mark, file.mark.iter().flat_map(stroke).collect());
    put(Action::Punch, file.punch.iter().flat_map(cross).collect());
    put(Action::Cut, file.contours().flat_map(|c| contour(&c.boundary, version)).collect());
    put(Action::Reference, file.reference.iter().flat_map(stroke).collect());
    let mut bytes = Vec::new();
    drawing.save(&mut bytes).map_err(|e| e.to_string())?;
    dxf_mend::mend(&bytes, version, &comments(file, version))
}

/// Version, units and extents.
fn header(drawing: &mut Drawing, file: &CutFile, version: Version) {
    drawing.header.version = match version {
        Version::R2000 => AcadVersion::R2000,
        Version::R12 => AcadVersion::R12,
    };
    drawing.header.default_drawing_units = Units::Millimeters;
    drawing.header.drawing_units = DrawingUnits::Metric;
    let [w, h] = file.page;
    drawing.header.minimum_drawing_extents = Point::new(0.0, 0.0, 0.0);
    drawing.header.maximum_drawing_extents = Point::new(w, h, 0.0);
    drawing.header.minimum_drawing_limits = Point::new(0.0, 0.0, 0.0);
    drawing.header.maximum_drawing_limits = Point::new(w, h, 0.0);
}

/// What a person finds on opening the file as text.
fn comments(file: &CutFile, version: Version) -> Vec<String> {
    let mut out = vec![format!("{}: millimetres, 1:1", file.title)];
    out.extend(file.notes.iter().cloned());
    out.push(format!("origin of the part at {:.9}, {:.9}", file.origin.x, file.origin.y));
    if version == Version::R12 {
        out.push("this version of DXF cannot declare its unit: read it as millimetres".to_owned());
    }
    out
}

/// A point of the crate, in the plane.
fn point(p: Point2) -> Point {
    Point::new(p.x, p.y, 0.0)
}

/// A contour: a circle, one closed polyline, or in R12 its pieces.
fn contour(l: &Loop, version: Version) -> Vec<EntityType> {
    match (l, version) {
        (Loop::Circle { centre, radius }, _) => {
            vec![EntityType::Circle(Circle { center: point(*centre), radius: *radius, ..Default::default() })]
        }
        (Loop::Path(_), Version::R2000) => vec![EntityType::LwPolyline(polyline(l))],
        (Loop::Path(_), Version::R12) => l.pieces().iter().map(piece).collect(),
    }
}

/// One closed polyline; closed by its flag, not by a repeated corner. Arcs of more than half a turn are
/// cut in two, since some readers mishandle a bulge above 1.
fn polyline(l: &Loop) -> LwPolyline {
    let mut out = LwPolyline::default();
    for piece in l.pieces() {
        let (parts, sweep) = match piece {
            Piece::Line { .. } => (1, 0.0),
            Piece::Arc { sweep, .. } => (if sweep.abs() > PI + 1e-9 { 2 } else { 1 }, sweep),
        };
        out.vertices.extend((0..parts).map(|i| {
            let at = piece.at(f64::from(i) / f64::from(parts));
            let bulge = (sweep / f64::from(parts) / 4.0).tan();
            LwPolylineVertex { x: at.x, y: at.y, bulge, ..Default::default() }
        }));
    }
    out.set_is_closed(true);
    out
}

/// A line or an arc; arcs of DXF always run counter-clockwise.
fn piece(piece: &Piece) -> EntityType {
    match *piece {
        Piece::Line { from, to } => EntityType::Line(Line::new(point(from), point(to))),
        Piece::Arc { centre, radius, start, sweep } => {
            let begin = if sweep > 0.0 { start } else { start + sweep };
            let degrees = |a: f64| a.to_degrees().rem_euclid(360.0);
            EntityType::Arc(Arc {
                center: point(centre),
                radius,
                start_angle: degrees(begin),
                end_angle: degrees(begin + sweep.abs()),
                ..Default::default()
            })
        }
    }
}

/// A stroke as lines.
fn stroke(s: &Stroke) -> Vec<EntityType> {
    s.windows(2).map(|w| EntityType::Line(Line::new(point(w[0]), point(w[1])))).collect()
}

/// The two lines of a punch cross.
fn cross(mark: &PunchMark) -> Vec<EntityType> {
    let arm = |dx: f64, dy: f64| {
        let (x, y) = (mark.at.x, mark.at.y);
        EntityType::Line(Line::new(Point::new(x - dx, y - dy, 0.0), Point::new(x + dx, y + dy, 0.0)))
    };
    vec![arm(CROSS_MM, 0.0), arm(0.0, CROSS_MM)]
}
