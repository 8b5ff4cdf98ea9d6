//! The exploded view of the engine: every part in isometric projection, drawn out along its own axis in the order in which
//! parts come off it, with balloons that carry the numbers of the parts list.

mod balloons;
mod depths;
mod order;
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
use crate::shape::metal::Metal;
use crate::shape::project::{Flat, View, project};
use crate::shape::recipe::{Feature, Kind, Recipe};
use crate::shape::solid::{Frame as Axes, Solid};
use crate::shape::{InnerSpace, Point2, Point3, Vector2, Vector3};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Air to the frame of the sheet, room for balloons included \[mm\].
const SIDE: f64 = 22.0;
/// The smallest scale for which the smaller paper will do.
const SMALL_ENOUGH: f64 = 0.35;
/// Two axes are one within this \[mm\].
const ONE_AXIS: f64 = 0.01;

const SUBJECT: Subject<'static> = Subject {
    document: "Assembly drawing",
    name: "exploded-view",
    title: "Exploded view",
    material: "-",
    quantity: 1,
    machined: false,
};

/// A straight line in the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// A point of it \[mm\].
    pub point: Point3,
    /// Its direction.
    pub way: Vector3,
}

impl Line {
    /// Whether both are one line, whichever way they run.
    fn is(&self, other: &Line) -> bool {
        self.way.cross(other.way).magnitude() < 1e-6
            && (other.point - self.point).cross(self.way).magnitude() < ONE_AXIS
    }
}

/// A part in its place, as it is seen: in millimetres of the engine on the plane of the paper.
#[derive(Clone, Debug)]
pub struct Piece<'a> {
    /// The part in its place.
    pub instance: &'a Instance,
    /// Its shape.
    pub recipe: &'a Recipe,
    /// Where it has metal.
    pub metal: Metal,
    /// The line along which it is drawn out.
    pub axis: Line,
    /// The lines of everything round on it, its own axis first.
    pub lines_of: Vec<Line>,
    /// With which others it is put together on the bench before it comes in.
    pub bench: Option<usize>,
    /// Its visible lines.
    pub lines: Vec<Flat>,
    /// The box around them.
    pub frame: Frame,
    /// How far it has been moved on the paper.
    pub by: Vector2,
    /// Which string of parts it belongs to.
    pub string: usize,
}

impl Piece<'_> {
    /// Whether something round on it has this line.
    fn has(&self, line: &Line) -> bool {
        self.axis.is(line) || self.lines_of.iter().any(|l| l.is(line))
    }
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
    let eye = eye(set);
    let of = |instance| piece(set, instance, solids, &eye);
    let pieces: Vec<Piece> = set.instances.par_iter().filter_map(of).collect();
    let spread = strings::spread(pieces, &eye);
    let bounds = spread.iter().fold(Frame::EMPTY, |f, p| f.joined(&p.frame));
    let (paper, factor, area) = scale(&bounds, options)?;
    let space = paper::space(paper);
    let title = fill(&SUBJECT, options, "none", paper.name())?;
    let mut board = title.draw(options.projection)?;
    board.shift(Vector2::new(space.high.x - title.width, space.low.y));
    board.append(paper::draw(paper));
    let centre = area.centre() - bounds.centre() * factor;
    let scale = Scale { factor, origin: Point2::new(centre.x, centre.y) };
    draw(&mut board, &spread, &scale, &eye);
    let counts = set.parts.iter().map(|p| (p.name.as_str(), p.quantity)).collect();
    balloons::add(&mut board, &spread, &scale, &item_numbers(set), &counts);
    Ok(Sheet {
        name: SUBJECT.name.into(),
        title: SUBJECT.title.into(),
        size_mm: paper.size_mm().into(),
        board,
    })
}

/// From where it is looked at: so that what is up in use is up on the paper.
fn eye(set: &PartSet) -> Axes {
    let eye = View::isometric().frame;
    if !set.hot_end_down {
        return eye;
    }
    // half a turn about X
    let turned = |v: Vector3| Vector3::new(v.x, -v.y, -v.z);
    Axes { x: turned(eye.x), z: turned(eye.z), ..eye }
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

/// An instance as it is seen; `None` for a part without a shape.
fn piece<'a>(
    set: &'a PartSet,
    instance: &'a Instance,
    solids: &BTreeMap<&str, &Solid>,
    eye: &Axes,
) -> Option<Piece<'a>> {
    let solid = solids.get(instance.part.as_str())?;
    let recipe = set.parts.iter().find(|p| p.name == instance.part)?.recipe.as_ref()?;
    let (x, z) = (instance.x_axis, instance.z_axis);
    let y = z.cross(x);
    let inward = |v: Vector3| Vector3::new(v.dot(x), v.dot(y), v.dot(z));
    let view =
        View { frame: Axes { x: inward(eye.x), z: inward(eye.z), ..*eye }, soft: false, taken: Vec::new() };
    let by = eye.flat(instance.origin);
    let drawn = project(solid, &view, &|_| false);
    let seen = drawn.into_iter().filter(|d| d.visible);
    let lines: Vec<Flat> = seen.map(|d| d.flat.placed(1.0, Vector2::new(by.x, by.y))).collect();
    let frame = lines.iter().flat_map(Flat::samples).fold(Frame::EMPTY, |f, p| f.with(p));
    let axis = Line { point: instance.origin, way: z };
    let featured = recipe.features.iter().zip(depths::feature_lines(instance, recipe));
    let round = featured.filter(|(f, _)| is_round(f)).map(|(_, line)| line);
    Some(Piece {
        instance,
        recipe,
        metal: Metal::of(recipe),
        axis,
        lines_of: std::iter::once(axis).chain(round).collect(),
        bench: set.steps.iter().position(|s| s.on_the_bench && s.parts.contains(&instance.part)),
        lines,
        frame,
        by: Vector2::new(0.0, 0.0),
        string: 0,
    })
}

/// Whether a feature has an axis.
fn is_round(f: &Feature) -> bool {
    matches!(f.kind, Kind::Bore { .. } | Kind::Boss { .. })
}

/// Draws all pieces and the axes that join them.
fn draw(board: &mut Board, spread: &[Piece], scale: &Scale, eye: &Axes) {
    for piece in spread {
        for line in &piece.lines {
            board.push_picture(scale.flat(line));
        }
    }
    for (from, to) in strings::axes(spread, eye) {
        board.line(Pen::Centre, scale.point(from), scale.point(to));
    }
}

#[cfg(test)]
mod tests;
