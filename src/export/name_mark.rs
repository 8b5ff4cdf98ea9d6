//! A place on the part for its name, clear of every edge.

use super::cutfile::{CutFile, Stroke};
use super::lettering::{Lettering, moved, width};
use crate::shape::loops::Loop;
use crate::shape::{Point2, Vector2};

/// Heights tried \[mm\], from the series of ISO 3098-1.
const HEIGHTS_MM: [f64; 3] = [5.0, 3.5, 2.5];

/// Least distance of the lettering from an edge \[mm\] (common practice, no source).
const CLEAR_MM: f64 = 1.0;

/// Strokes of the part's name in the largest height that fits, upright or turned by a quarter; `None`
/// when it fits nowhere.
///
/// # Errors
/// What the lettering says of a character without strokes.
pub(super) fn place(file: &CutFile, lettering: &dyn Lettering) -> Result<Option<Vec<Stroke>>, String> {
    for height in HEIGHTS_MM {
        let strokes = lettering.strokes(&file.part, height)?;
        // Letters such as g and p reach below the line they stand on.
        let (strokes, height) = standing(strokes);
        let length = width(&strokes);
        for along in [Vector2::new(1.0, 0.0), Vector2::new(0.0, 1.0)] {
            if let Some(middle) = room(file, length, height, along) {
                return Ok(Some(turned(strokes, length, height, along, middle)));
            }
        }
    }
    Ok(None)
}

/// Strokes moved so that the lowest point lies on y = 0, and their height \[mm\].
fn standing(strokes: Vec<Stroke>) -> (Vec<Stroke>, f64) {
    let y = || strokes.iter().flatten().map(|p| p.y);
    let (low, high) = (y().fold(f64::INFINITY, f64::min), y().fold(f64::NEG_INFINITY, f64::max));
    // A text without height (a dash) still takes a band.
    if low > high { (strokes, 1.0) } else { (moved(strokes, 0.0, -low), (high - low).max(1.0)) }
}

/// Middle of the first clear band of `length` by `height` \[mm\] along a direction, searched on a grid.
fn room(file: &CutFile, length: f64, height: f64, along: Vector2) -> Option<Point2> {
    let (low, high) = file.outline.boundary.bounds();
    let steps = |a: f64, b: f64| ((b - a) / height).floor() as usize;
    let grid = (0..=steps(low.y, high.y)).flat_map(|j| {
        (0..=steps(low.x, high.x)).map(move |i| Vector2::new(i as f64 * height, j as f64 * height))
    });
    grid.map(|d| low + d).find(|middle| clear(file, *middle, length, height, along))
}

/// Whether a band is clear: discs along its axis, large enough to cover it, touch no edge, and its middle
/// lies in the material.
fn clear(file: &CutFile, middle: Point2, length: f64, height: f64, along: Vector2) -> bool {
    let reach = (height / 2.0).hypot(height / 4.0) + CLEAR_MM;
    let count = (length / (height / 2.0)).ceil().max(1.0) as usize;
    let at = |i: usize| middle + along * (length * (i as f64 / count as f64 - 0.5));
    let edges: Vec<&Loop> = file.contours().map(|c| &c.boundary).collect();
    let free = |p: Point2| {
        edges.iter().all(|l| l.distance(p) >= reach)
            && file.punch.iter().all(|m| (m.at.x - p.x).hypot(m.at.y - p.y) >= reach + m.diameter_mm / 2.0)
    };
    (0..=count).all(|i| free(at(i)))
        && file.outline.boundary.contains(middle)
        && !file.holes.iter().any(|h| h.boundary.contains(middle))
}

/// Strokes centred on a place and turned along a direction.
fn turned(strokes: Vec<Stroke>, length: f64, height: f64, along: Vector2, middle: Point2) -> Vec<Stroke> {
    let up = Vector2::new(-along.y, along.x);
    let map = |p: Point2| middle + along * p.x + up * p.y;
    moved(strokes, -length / 2.0, -height / 2.0)
        .into_iter()
        .map(|s| s.into_iter().map(map).collect())
        .collect()
}
