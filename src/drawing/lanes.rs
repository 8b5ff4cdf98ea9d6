//! Linear dimensions in lanes beside a view: the first 10 mm from the outline, the next ones 7 mm apart
//! (ISO 129-1), shorter ones nearer, and no text where a line will pass.

use super::board::{ARROW, Board, DimensionLine, Label};
use super::callout::Row;
use super::lettering;
use super::pen::Pen;
use crate::shape::{Point2, Vector2};

/// Height of dimension texts \[mm\].
pub const TEXT: f64 = 3.5;
/// Distance of the first dimension line from the outline \[mm\].
const FIRST: f64 = 10.0;
/// Distance between dimension lines \[mm\].
const NEXT: f64 = 7.0;
/// How far extension lines run beyond the dimension line \[mm\].
const OVERSHOOT: f64 = 1.5;
/// Air between text and dimension line \[mm\].
const GAP: f64 = 0.9;
/// Air kept along a lane \[mm\].
const AIR: f64 = 1.2;

/// Most lanes on one side.
const LANES: usize = 30;

/// On which side of the view the lanes lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Below.
    Below,
    /// Above.
    Above,
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// A dimension to be placed in a lane.
#[derive(Clone, Debug, PartialEq)]
pub struct Linear {
    /// Start along the lane \[mm of paper\].
    pub from: f64,
    /// End along the lane \[mm of paper\].
    pub to: f64,
    /// Place across the lane where each extension line starts \[mm of paper\].
    pub feet: [f64; 2],
    /// What is written.
    pub text: String,
    /// Sizes that it tells.
    pub sizes: Vec<String>,
}

/// A stretch of a lane that is taken.
#[derive(Clone, Copy)]
struct Taken {
    lane: usize,
    from: f64,
    to: f64,
}

/// Where a dimension came to lie: lane, start of the text along it, stretch used.
struct Spot {
    lane: usize,
    text: f64,
    from: f64,
    to: f64,
}

/// Places all dimensions of one side; `edge` is the outline's place across the lanes, `bars` are places
/// along them where other lines cross (extended diameters). Returns those that found no place.
pub fn place(board: &mut Board, side: Side, edge: f64, mut list: Vec<Linear>, bars: &[f64]) -> Vec<Row> {
    list.sort_by(|a, b| {
        (a.to - a.from).abs().total_cmp(&(b.to - b.from).abs()).then(a.from.total_cmp(&b.from))
    });
    let mut taken: Vec<Taken> = Vec::new();
    let mut homeless = Vec::new();
    for i in 0..list.len() {
        let crossing = obstacles(&list, i, bars);
        let Some(spot) = find(board, side, edge, &list[i], &crossing, &taken) else {
            homeless.push(Row::new(list[i].text.clone(), &list[i].sizes));
            continue;
        };
        taken.push(Taken { lane: spot.lane, from: spot.from, to: spot.to });
        let at = across(side, edge, spot.lane);
        draw(board, side, at, &list[i], &spot);
    }
    homeless
}

/// Places along the lane at which lines of other dimensions (not yet placed, so farther out) will pass.
fn obstacles(list: &[Linear], index: usize, bars: &[f64]) -> Vec<f64> {
    let later = list[index + 1..].iter().flat_map(|l| [l.from, l.to]);
    later.chain(bars.iter().copied()).collect()
}

/// Place of a lane across the view.
fn across(side: Side, edge: f64, lane: usize) -> f64 {
    let out = FIRST + NEXT * lane as f64;
    match side {
        Side::Below | Side::Left => edge - out,
        Side::Above | Side::Right => edge + out,
    }
}

/// The first lane and the first place of the text in which nothing is in the way.
fn find(board: &Board, side: Side, edge: f64, l: &Linear, bars: &[f64], taken: &[Taken]) -> Option<Spot> {
    let width = lettering::width(&l.text, TEXT);
    let (low, high) = (l.from.min(l.to), l.from.max(l.to));
    let tight = high - low < 2.0 * ARROW + 1.0;
    let tail = if tight { ARROW + 2.0 } else { 0.0 };
    for lane in 0..LANES {
        let at = across(side, edge, lane);
        for text in text_places(low, high, width, tail, bars) {
            let from = (low - tail).min(text);
            let to = (high + tail).max(text + width);
            let spot = Spot { lane, text, from, to };
            if is_open(board, side, at, l, &spot, bars, taken, width) {
                return Some(spot);
            }
        }
    }
    None
}

/// Places where the text may start, best first: the middle, gaps between bars, beyond either end.
fn text_places(low: f64, high: f64, width: f64, tail: f64, bars: &[f64]) -> Vec<f64> {
    let mut places = Vec::new();
    if width + 2.0 <= high - low {
        let middle = (low + high - width) / 2.0;
        places.push(middle);
        let mut step = 1.0;
        while middle - step > low + 1.0 {
            places.extend([middle - step, middle + step]);
            step += 1.0;
        }
    }
    let mut right = vec![high + tail + 1.0];
    right.extend(bars.iter().filter(|b| **b > high).map(|b| b + AIR + 0.3));
    let mut left = vec![low - tail - 1.0 - width];
    left.extend(bars.iter().filter(|b| **b < low).map(|b| b - AIR - 0.3 - width));
    let mut beyond: Vec<f64> = right.into_iter().chain(left).collect();
    let away = |t: &f64| (t + width / 2.0 - (low + high) / 2.0).abs();
    beyond.sort_by(|a, b| away(a).total_cmp(&away(b)));
    places.extend(beyond);
    places
}

/// Whether a dimension may lie in this spot.
#[allow(clippy::too_many_arguments)]
fn is_open(
    board: &Board,
    side: Side,
    at: f64,
    l: &Linear,
    spot: &Spot,
    bars: &[f64],
    taken: &[Taken],
    width: f64,
) -> bool {
    let meets = |t: &&Taken| t.lane == spot.lane && t.from < spot.to + AIR && spot.from < t.to + AIR;
    if taken.iter().any(|t| meets(&t)) {
        return false;
    }
    let (from, to) = (spot.text - 0.8, spot.text + width + 0.8);
    let own = [l.from, l.to];
    if bars.iter().chain(&own).any(|b| from < *b && *b < to) {
        return false;
    }
    let lines_clear = board.is_clear(point(side, spot.from, at), point(side, spot.to, at))
        && extensions(side, at, l).iter().all(|(a, b)| board.is_clear(*a, *b));
    lines_clear && board.is_free(&label(side, at, l, spot).frame())
}

/// A point from its place along and across the lanes.
fn point(side: Side, along: f64, across: f64) -> Point2 {
    match side {
        Side::Below | Side::Above => Point2::new(along, across),
        Side::Left | Side::Right => Point2::new(across, along),
    }
}

/// The extension lines of a dimension.
fn extensions(side: Side, at: f64, l: &Linear) -> [(Point2, Point2); 2] {
    let end = at + OVERSHOOT * if matches!(side, Side::Below | Side::Left) { -1.0 } else { 1.0 };
    [0, 1].map(|i| {
        let along = [l.from, l.to][i];
        (point(side, along, l.feet[i]), point(side, along, end))
    })
}

/// The text in its place, above the line or to the left of it.
fn label(side: Side, at: f64, l: &Linear, spot: &Spot) -> Label {
    let gap = GAP.max(lettering::depth(&l.text, TEXT) + 0.4);
    let label = match side {
        Side::Below | Side::Above => Label::level(&l.text, spot.text, at + gap, TEXT),
        Side::Left | Side::Right => Label::upright(&l.text, at - gap, spot.text, TEXT),
    };
    label.telling(&l.sizes)
}

/// Draws a dimension in its place.
fn draw(board: &mut Board, side: Side, at: f64, l: &Linear, spot: &Spot) {
    for (a, b) in extensions(side, at, l) {
        board.line(Pen::Extension, a, b);
    }
    let (low, high) = (l.from.min(l.to), l.from.max(l.to));
    let tight = high - low < 2.0 * ARROW + 1.0;
    board.line(Pen::Dimension, point(side, spot.from, at), point(side, spot.to, at));
    let ahead = match side {
        Side::Below | Side::Above => Vector2::new(1.0, 0.0),
        Side::Left | Side::Right => Vector2::new(0.0, 1.0),
    };
    let towards = if tight { -ahead } else { ahead };
    board.arrow(point(side, high, at), towards);
    board.arrow(point(side, low, at), -towards);
    board.write(label(side, at, l, spot));
    let both = |ends: [f64; 2]| ends.map(|along| point(side, along, at));
    let (ends, reach) = (both([low, high]), both([spot.from, spot.to]));
    board.dimensions.push(DimensionLine { sizes: l.sizes.clone(), ends, reach });
}
