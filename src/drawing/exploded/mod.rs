//! The exploded view of the engine: every part in isometric projection, drawn out along its own axis, with balloons that carry
//! the numbers of the parts list.

mod balloons;
mod strings;

use super::board::{Board, Frame};
use super::options::{Paper, SheetOptions};
use super::pen::Pen;
use super::sheet::Sheet;
use super::title::{Subject, fill};
use super::views::Scale;
use super::{DrawingError, paper};
use crate::parts::items::item_numbers;
use crate::parts::part::{Instance, PartSet};
use crate::shape::project::{Flat, View, project};
use crate::shape::solid::{Frame as Axes, Solid};
use crate::shape::{InnerSpace, Point2, Point3, Vector2, Vector3};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Air to the frame of the sheet, room for balloons included \[mm\].
const SIDE: f64 = 22.0;
/// The smallest scale for which the smaller paper will do.
const SMALL_ENOUGH: f64 = 0.35;

const SUBJECT: Subject<'static> = Subject {
    document: "Assembly drawing",
    name: "exploded-view",
    title: "Exploded view",
    material: "-",
    quantity: 1,
};

/// A part in its place, as it is seen: in millimetres of the engine on the plane of the paper.
#[derive(Clone, Debug)]
pub struct Piece {
    /// Name of the part.
    pub part: String,
    /// A point of its axis and the direction of the axis in the engine \[mm\].
    pub axis: (Point3, Vector3),
    /// Its visible lines.
    pub lines: Vec<Flat>,
    /// The box around them.
    pub frame: Frame,
    /// Which string of parts on one axis it belongs to.
    pub string: usize,
}

/// The sheet with the exploded view of a set; `solids` are those of its parts by name.
///
/// # Errors
/// [`DrawingError`]: a template of the title block that cannot be used.
pub fn sheet(
    set: &PartSet,
    solids: &BTreeMap<&str, &Solid>,
    options: &SheetOptions,
) -> Result<Sheet, DrawingError> {
    let seen = |i: &Instance| solids.get(i.part.as_str()).map(|solid| piece(i, solid));
    let pieces: Vec<Piece> = set.instances.par_iter().filter_map(seen).collect();
    let spread = strings::spread(pieces);
    let bounds = spread.iter().fold(Frame::EMPTY, |f, p| f.joined(&p.frame));
    let (paper, factor, area) = scale(&bounds, options)?;
    let space = paper::space(paper);
    let title = fill(&SUBJECT, options, "none", paper.name())?;
    let mut board = title.draw(options.projection)?;
    board.shift(Vector2::new(space.high.x - title.width, space.low.y));
    board.append(paper::draw(paper));
    let centre = area.centre() - bounds.centre() * factor;
    let scale = Scale { factor, origin: Point2::new(centre.x, centre.y) };
    draw(&mut board, &spread, &scale);
    balloons::add(&mut board, &spread, &scale, &item_numbers(set));
    Ok(Sheet {
        name: SUBJECT.name.into(),
        title: SUBJECT.title.into(),
        size_mm: paper.size_mm().into(),
        board,
    })
}

/// The paper, the scale, and where the view stands: A3 where the view does not become too small on it, otherwise A2; above
/// the title block or on its left, where it is larger.
fn scale(bounds: &Frame, options: &SheetOptions) -> Result<(Paper, f64, Frame), DrawingError> {
    let best = |paper: Paper| -> Result<(Paper, f64, Frame), DrawingError> {
        let title = fill(&SUBJECT, options, "none", paper.name())?;
        let whole = paper::space(paper).grown(-SIDE);
        let above = Frame { low: Point2::new(whole.low.x, whole.low.y + title.height), ..whole };
        let left = Frame { high: Point2::new(whole.high.x - title.width, whole.high.y), ..whole };
        let factor = |f: &Frame| (f.width() / bounds.width()).min(f.height() / bounds.height()).min(1.0);
        let area = if factor(&left) > factor(&above) { left } else { above };
        Ok((paper, factor(&area), area))
    };
    match options.paper {
        Some(paper) => best(paper),
        None => {
            Ok(Some(best(Paper::A3)?).filter(|b| b.1 > SMALL_ENOUGH).map_or_else(|| best(Paper::A2), Ok)?)
        }
    }
}

/// An instance in isometric projection.
fn piece(instance: &Instance, solid: &Solid) -> Piece {
    let eye = View::isometric().frame;
    let (x, z) = (instance.x_axis, instance.z_axis);
    let y = z.cross(x);
    let inward = |v: Vector3| Vector3::new(v.dot(x), v.dot(y), v.dot(z));
    let view =
        View { frame: Axes { x: inward(eye.x), z: inward(eye.z), ..eye }, soft: false, taken: Vec::new() };
    let by = eye.flat(instance.origin);
    let drawn = project(solid, &view, &|_| false);
    let seen = drawn.into_iter().filter(|d| d.visible);
    let lines: Vec<Flat> = seen.map(|d| d.flat.placed(1.0, Vector2::new(by.x, by.y))).collect();
    let frame = lines.iter().flat_map(Flat::samples).fold(Frame::EMPTY, |f, p| f.with(p));
    Piece { part: instance.part.clone(), axis: (instance.origin, z), lines, frame, string: 0 }
}

/// Draws all pieces and the axes that join them.
fn draw(board: &mut Board, spread: &[Piece], scale: &Scale) {
    for piece in spread {
        for line in &piece.lines {
            board.push_picture(scale.flat(line));
        }
    }
    for (from, to) in strings::axes(spread) {
        board.line(Pen::Centre, scale.point(from), scale.point(to));
    }
}

#[cfg(test)]
mod tests;
