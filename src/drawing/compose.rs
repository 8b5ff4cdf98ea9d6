//! Brings views, tables, notes and the title block onto a sheet: the smallest paper and the best scale
//! that hold them all.

use super::DrawingError;
use super::board::{Board, Frame, Stroke};
use super::looks::Looks;
use super::occupancy::{Marks, Occupancy};
use super::options::{Paper, SheetOptions};
use super::pen::Pen;
use super::views::Views;
use super::{paper, revisions, tables, title};
use crate::parts::part::Part;
use crate::shape::{Point2, Vector2};

/// Recommended scales (ISO 5455), the largest first: name and factor.
const SCALES: &[(&str, f64)] = &[
    ("10:1", 10.0),
    ("5:1", 5.0),
    ("2:1", 2.0),
    ("1:1", 1.0),
    ("1:2", 0.5),
    ("1:5", 0.2),
    ("1:10", 0.1),
    ("1:20", 0.05),
];
/// Sides of the axonometric view that are tried \[mm\].
const PICTURES: [f64; 3] = [60.0, 42.0, 30.0];
/// Air between the blocks of a sheet \[mm\].
const AIR: f64 = 5.0;

/// A sheet that holds everything.
#[derive(Clone, Debug)]
pub struct Composed {
    /// Everything drawn.
    pub board: Board,
    /// The paper.
    pub paper: Paper,
    /// Its scale as written.
    #[cfg_attr(not(test), expect(dead_code, reason = "told in the title block; tests ask for it"))]
    pub scale: &'static str,
}

/// Makes the sheet of a part of which `longest` \[mm\] is the greatest extent; `draw` makes the views at
/// a given scale. Sizes that find no place in the views at any scale are told in a list beside them.
///
/// # Errors
/// [`DrawingError::DoesNotFit`] when not even the largest sheet holds the part at a small scale;
/// whatever `draw` and the title block report.
pub fn compose(
    part: &Part,
    options: &SheetOptions,
    looks: &Looks,
    longest: f64,
    draw: &dyn Fn(f64) -> Result<Views, DrawingError>,
) -> Result<Composed, DrawingError> {
    let pictures = PICTURES.map(|side| looks.picture(side));
    let best = SCALES.iter().position(|s| longest * s.1 <= good_size(longest)).unwrap_or(SCALES.len() - 1);
    let mut drawn: Vec<Option<Views>> = vec![None; SCALES.len()];
    for crowded in [false, true] {
        for (step, paper) in order(best, options.paper) {
            let Some((name, factor)) = SCALES.get(step) else { continue };
            if drawn[step].is_none() {
                drawn[step] = Some(draw(*factor)?);
            }
            let Some(views) = drawn[step].as_ref().filter(|v| crowded || v.homeless.is_empty()) else {
                continue;
            };
            if let Some(board) = fit(part, options, &pictures, views, (paper, name))? {
                return Ok(Composed { board, paper, scale: name });
            }
        }
    }
    Err(DrawingError::DoesNotFit { part: part.name.clone() })
}

/// Largest size on paper that a part is enlarged to \[mm\].
fn good_size(longest: f64) -> f64 {
    if longest > 60.0 { longest } else { 125.0 }
}

/// Sheets and scales in the order in which they are tried: the good scale on A4 and A3, the next lower
/// one on the same, then larger paper before smaller scales.
fn order(best: usize, forced: Option<Paper>) -> Vec<(usize, Paper)> {
    let papers = forced.map_or_else(|| Paper::ALL.to_vec(), |p| vec![p]);
    let small: Vec<Paper> = papers.iter().copied().filter(|p| *p != Paper::A2 || forced.is_some()).collect();
    let mut list: Vec<(usize, Paper)> = Vec::new();
    for step in [best, best + 1] {
        list.extend(small.iter().map(|p| (step, *p)));
    }
    for step in best..SCALES.len() {
        list.extend(papers.iter().map(|p| (step, *p)));
    }
    let mut once = Vec::new();
    list.retain(|try_| {
        !once.contains(try_) && {
            once.push(*try_);
            true
        }
    });
    list
}

/// Tries one sheet.
fn fit(
    part: &Part,
    options: &SheetOptions,
    pictures: &[Board],
    views: &Views,
    (size, scale): (Paper, &str),
) -> Result<Option<Board>, DrawingError> {
    let space = paper::space(size);
    let block = title::fill(&part.into(), options, scale, size.name())?;
    let mut fixed = block.draw(options.projection)?;
    fixed.shift(Vector2::new(space.high.x - block.width, space.low.y));
    let title_frame = fixed.bounds();
    fixed.append(paper::draw(size));
    let notes: Vec<String> = block.notes.iter().chain(&part.notes).cloned().collect();
    let bounds = views.board.bounds();
    let change = (revisions::table(&options.revisions), Point2::new(space.high.x, space.low.y));
    let blocks = blocks(&space, views, &notes, part, change);
    // the centring marks reach as far inwards as views may stand outwards
    let marks: Vec<&Stroke> = fixed.strokes.iter().filter(|s| s.pen == Pen::Frame).collect();
    let clear = |by: &Vector2| {
        let moved = |f: Frame| Frame { low: f.low + *by, high: f.high + *by };
        let mut frames = views.board.labels.iter().map(|l| moved(l.frame()));
        frames.all(|frame| !marks.iter().any(|mark| mark.crosses(&frame)))
    };
    let places: Vec<Vector2> = view_places(&space, &title_frame, &bounds).into_iter().filter(clear).collect();
    if places.is_empty() {
        return Ok(None);
    }
    let (still, moving) = (Marks::of(&fixed), Marks::of(&views.board));
    for (place, picture) in places.iter().flat_map(|place| pictures.iter().map(move |p| (*place, p))) {
        let taken = Occupancy::new(&[(&still, Vector2::new(0.0, 0.0)), (&moving, place)], &space);
        let blocks: Vec<(Board, Point2)> =
            blocks.iter().cloned().chain([(picture.clone(), space.high)]).collect();
        if let Some(moves) = room_for(taken, &space, &blocks) {
            let blocks = blocks.into_iter().map(|(block, _)| block).zip(moves);
            for (mut board, by) in std::iter::once((views.board.clone(), place)).chain(blocks) {
                board.shift(by);
                fixed.append(board);
            }
            return Ok(Some(fixed));
        }
    }
    Ok(None)
}

/// Places at which the views may stand, best first.
fn view_places(space: &Frame, block: &Frame, bounds: &Frame) -> Vec<Vector2> {
    let (w, h) = (bounds.width(), bounds.height());
    let upper = Frame::new(space.low.x, block.high.y, space.width(), space.high.y - block.high.y).grown(-AIR);
    let whole = space.grown(-AIR);
    let mut list = Vec::new();
    for across in [0.5, 0.0, 0.25, 1.0] {
        for up in [0.5, 1.0, 0.0] {
            for area in [&upper, &whole] {
                if w <= area.width() && h <= area.height() {
                    let low = area.low + Vector2::new((area.width() - w) * across, (area.height() - h) * up);
                    let frame = Frame::new(low.x, low.y, w, h);
                    if !frame.overlaps(&block.grown(AIR)) {
                        list.push(low - bounds.low);
                    }
                }
            }
        }
    }
    list
}

/// Finds room for tables, notes and cautions: how far each is to be moved.
fn room_for(mut taken: Occupancy, space: &Frame, blocks: &[(Board, Point2)]) -> Option<Vec<Vector2>> {
    let room = space.grown(-AIR);
    let mut moves = Vec::new();
    for (block, corner) in blocks {
        let f = block.bounds();
        let low = taken.nearest(&room, (f.width(), f.height()), AIR - 1.0, *corner)?;
        taken.take(&Frame::new(low.x, low.y, f.width(), f.height()));
        moves.push(low - f.low);
    }
    Some(moves)
}

/// Tables, cautions and notes of a sheet, each with the corner that it should be near to; `first` has the first choice.
fn blocks(
    space: &Frame,
    views: &Views,
    notes: &[String],
    part: &Part,
    first: (Option<Board>, Point2),
) -> Vec<(Board, Point2)> {
    let top = space.high;
    let low = Point2::new(space.high.x, space.low.y);
    let width = 120.0;
    let list = [
        first,
        (tables::holes(&views.holes), top),
        (tables::sizes(&views.sizes), top),
        (tables::homeless(&views.homeless), top),
        (tables::cautions(&part.cautions, width), low),
        (tables::notes(notes, width), low),
    ];
    list.into_iter().filter_map(|(block, corner)| Some((block?, corner))).collect()
}
