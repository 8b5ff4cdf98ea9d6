//! Lines of equal value over two inputs, labelled, with the best point marked and what cannot be hatched.

use super::axis::{Axis, decimals, multiples, round_step};
use super::chart::axis_name;
use super::contour::{Grid, contours};
use super::hatch::hatch;
use super::output::Output;
use super::page::{SMALL, Sign, WIDTH, best_mark, heading, heading_height};
use super::plot::Plot;
use super::table::Table;
use crate::drawing::board::{Board, Frame, Label};
use crate::drawing::lettering::width;
use crate::drawing::pen::Pen;
use crate::numerals::fixed;
use crate::shape::{InnerSpace, Point2};

/// Height of the field \[mm\].
const FIELD: f64 = 110.0;
/// Room for numbers and names left of, right of and under the field \[mm\].
const LEFT: f64 = 22.0;
const RIGHT: f64 = 6.0;
const UNDER: f64 = 16.0;
/// Most lines that are drawn, and a third of that at least.
const LINES: usize = 15;
/// Air around the number in a line \[mm\].
const AIR: f64 = 0.7;

/// Draws the field; gives the board and its height \[mm\].
pub fn draw(
    table: &Table,
    x: &[f64],
    y: &[f64],
    output: &Output,
    (title, lines): &(String, Vec<(Sign, String)>),
) -> (Board, f64) {
    let mut board = Board::default();
    let height = heading_height(lines) + FIELD + UNDER;
    heading(&mut board, height, title, lines);
    let plot = Plot {
        x: Axis::exact([x[0], x[x.len() - 1]], [LEFT, WIDTH - RIGHT], 9),
        y: Axis::exact([y[0], y[y.len() - 1]], [UNDER, UNDER + FIELD], 9),
    };
    plot.draw(&mut board, true);
    plot.name_x(&mut board, &axis_name(&table.inputs[0]));
    plot.name_y(&mut board, &axis_name(&table.inputs[1]));
    let grid = grid(table, x, y, output);
    let areas = refused(&plot, &grid);
    hatch(&mut board, &areas);
    border(&mut board, &plot, &grid);
    let best = best(&plot, table, output);
    let taken: Vec<Frame> = areas
        .iter()
        .map(|area| around(area))
        .chain(best.map(|at| Frame::new(at.x - 2.0, at.y - 2.0, 4.0, 4.0)))
        .collect();
    level_lines(&mut board, &plot, &grid, taken);
    if let Some(at) = best {
        best_mark(&mut board, at);
    }
    (board, height)
}

/// The table's rows on a grid of ascending inputs.
fn grid(table: &Table, x: &[f64], y: &[f64], output: &Output) -> Grid {
    let mut z = vec![None; x.len() * y.len()];
    let place = |values: &[f64], text: &str| {
        let value: f64 = text.parse().ok()?;
        values.binary_search_by(|v| v.total_cmp(&value)).ok()
    };
    for row in &table.rows {
        if let (Some(i), Some(j)) = (place(x, &row.inputs[0]), place(y, &row.inputs[1])) {
            z[i * y.len() + j] = row.outputs[output.index()];
        }
    }
    Grid { x: x.to_vec(), y: y.to_vec(), z }
}

/// A node on the paper.
fn node(plot: &Plot, grid: &Grid, (i, j): (usize, usize)) -> Point2 {
    plot.at(grid.x[i], grid.y[j])
}

/// Parts of all squares that belong to nodes without a value; between a node with and one without the border lies
/// half-way.
fn refused(plot: &Plot, grid: &Grid) -> Vec<Vec<Point2>> {
    let area = |square: [(usize, usize); 4]| {
        let unknown = |k: usize| grid.at(square[k % 4]).is_none();
        let at = |k: usize| node(plot, grid, square[k % 4]);
        let mut corners = Vec::new();
        for k in 0..4 {
            if unknown(k) {
                corners.push(at(k));
            }
            if unknown(k) != unknown(k + 1) {
                corners.push(at(k) + (at(k + 1) - at(k)) * 0.5);
            }
        }
        corners
    };
    grid.squares().map(area).filter(|corners| corners.len() > 2).collect()
}

/// Draws the border between what can be and what cannot.
fn border(board: &mut Board, plot: &Plot, grid: &Grid) {
    let z = grid.z.iter().map(|z| Some(if z.is_some() { 1.0 } else { 0.0 })).collect();
    for line in contours(&Grid { z, ..grid.clone() }, 0.5) {
        for pair in line.windows(2) {
            board.line(Pen::Leader, plot.at(pair[0][0], pair[0][1]), plot.at(pair[1][0], pair[1][1]));
        }
    }
}

fn around(points: &[Point2]) -> Frame {
    points.iter().fold(Frame::EMPTY, |frame, p| frame.with(*p))
}

/// Place of the best point.
fn best(plot: &Plot, table: &Table, output: &Output) -> Option<Point2> {
    let (row, _) = table.best(output)?;
    Some(plot.at(row.inputs[0].parse().ok()?, row.inputs[1].parse().ok()?))
}

/// Draws the lines, each interrupted by its number.
fn level_lines(board: &mut Board, plot: &Plot, grid: &Grid, mut taken: Vec<Frame>) {
    let known: Vec<f64> = grid.z.iter().copied().flatten().collect();
    let low = known.iter().copied().fold(f64::INFINITY, f64::min);
    let high = known.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    // What is the same everywhere has no lines; the heading says so.
    if high - low <= 1e-6 * high.abs().max(low.abs()) {
        return;
    }
    let step = round_step(high - low, LINES);
    let lines: Vec<(String, Vec<Point2>)> = multiples(low, high, step)
        .into_iter()
        .flat_map(|level| {
            let text = fixed(level, decimals(step));
            let on_paper = |line: Vec<[f64; 2]>| line.iter().map(|p| plot.at(p[0], p[1])).collect();
            contours(grid, level).into_iter().map(move |line| (text.clone(), on_paper(line)))
        })
        .collect();
    for (k, (text, line)) in lines.iter().enumerate() {
        let others = || {
            lines.iter().enumerate().filter(|(other, _)| *other != k).map(|(_, (_, line))| line.as_slice())
        };
        let number = number_place(plot, text, line, &taken, others);
        if let Some((label, frame)) = number {
            board.write(label);
            taken.push(frame);
            interrupted(board, line, &frame);
        } else {
            line.windows(2).for_each(|pair| board.line(Pen::Level, pair[0], pair[1]));
        }
    }
}

/// The place of a line's number: on the line, as near to its middle as is free.
fn number_place<'a, I: Iterator<Item = &'a [Point2]>>(
    plot: &Plot,
    text: &str,
    line: &[Point2],
    taken: &[Frame],
    others: impl Fn() -> I,
) -> Option<(Label, Frame)> {
    let (w, field) = (width(text, SMALL), plot.frame());
    let length: f64 = line.windows(2).map(|pair| (pair[1] - pair[0]).magnitude()).sum();
    if length < 3.0 * w {
        return None;
    }
    let middle = line.len() / 2;
    let mut order: Vec<usize> = (0..line.len()).collect();
    order.sort_by_key(|i| i.abs_diff(middle));
    let crossed =
        |line: &[Point2], frame: &Frame| line.windows(2).any(|pair| frame.crossed(pair[0], pair[1]));
    let place = |i: usize, clear: bool| {
        let at = line[i];
        let label = Label::level(text, at.x - w / 2.0, at.y - SMALL / 2.0, SMALL);
        let frame = label.frame().grown(AIR);
        let inside = field.holds_point(frame.low) && field.holds_point(frame.high);
        let hidden = taken.iter().any(|t| t.overlaps(&frame)) || others().any(|line| crossed(line, &frame));
        let free = inside && !hidden && (!clear || !ruled(plot, &frame));
        free.then_some((label, frame))
    };
    // Beside the ruling if it can be.
    let find = |clear: bool| order.iter().find_map(|i| place(*i, clear));
    find(true).or_else(|| find(false))
}

/// Whether a line of the ruling goes through a frame.
fn ruled(plot: &Plot, frame: &Frame) -> bool {
    let within = |at: f64, low: f64, high: f64| at > low && at < high;
    plot.x.ticks.iter().any(|x| within(plot.x.at(*x), frame.low.x, frame.high.x))
        || plot.y.ticks.iter().any(|y| within(plot.y.at(*y), frame.low.y, frame.high.y))
}

/// Draws a line outside a frame.
fn interrupted(board: &mut Board, line: &[Point2], frame: &Frame) {
    for pair in line.windows(2) {
        for (from, to) in outside(pair[0], pair[1], frame) {
            board.line(Pen::Level, from, to);
        }
    }
}

/// Parts of a straight line that lie outside a frame.
fn outside(a: Point2, b: Point2, frame: &Frame) -> Vec<(Point2, Point2)> {
    let d = b - a;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, step, low, high) in
        [(a.x, d.x, frame.low.x, frame.high.x), (a.y, d.y, frame.low.y, frame.high.y)]
    {
        if step.abs() < 1e-12 {
            if start <= low || start >= high {
                return vec![(a, b)];
            }
            continue;
        }
        let (t1, t2) = ((low - start) / step, (high - start) / step);
        from = from.max(t1.min(t2));
        to = to.min(t1.max(t2));
    }
    if from >= to {
        return vec![(a, b)];
    }
    let parts = [(0.0, from), (to, 1.0)];
    parts.into_iter().filter(|(s, e)| e - s > 1e-9).map(|(s, e)| (a + d * s, a + d * e)).collect()
}
