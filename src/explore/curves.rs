//! Curves over one input: a field for each output, one curve for each value of the other input.

use super::axis::Axis;
use super::chart::{axis_name, figures};
use super::hatch::hatch;
use super::output::Output;
use super::page::{SMALL, Sign, WIDTH, best_mark, heading, heading_height};
use super::plot::Plot;
use super::table::{Row, Table};
use crate::drawing::board::{Board, Frame, Label};
use crate::drawing::lettering::width;
use crate::drawing::pen::Pen;
use crate::shape::Point2;

/// Height of a field \[mm\]; a single one is higher.
const FIELD: f64 = 52.0;
const ONLY_FIELD: f64 = 80.0;
/// Distance of two fields \[mm\].
const BETWEEN: f64 = 7.0;
/// Room for numbers and names left of and under a field \[mm\].
const LEFT: f64 = 22.0;
const UNDER: f64 = 16.0;
/// Points up to which each is marked on its curve.
const FEW: usize = 25;

/// A curve: a name and points in ascending order; a point that is refused has no height.
struct Curve {
    name: String,
    points: Vec<(f64, Option<f64>)>,
}

/// Draws the fields; gives the board and its height \[mm\].
pub fn draw(
    table: &Table,
    along: usize,
    what: &[&Output],
    (title, lines): &(String, Vec<(Sign, String)>),
) -> (Board, f64) {
    let mut board = Board::default();
    let field = if what.len() == 1 { ONLY_FIELD } else { FIELD };
    let fields = what.len() as f64 * (field + BETWEEN) - BETWEEN;
    let height = heading_height(lines) + fields + UNDER;
    heading(&mut board, height, title, lines);
    let right = WIDTH - right_margin(table, along);
    for (k, output) in what.iter().enumerate() {
        let curves = curves(table, along, output);
        let low = UNDER + (what.len() - 1 - k) as f64 * (field + BETWEEN);
        let plot = Plot {
            x: Axis::exact(range(curves.iter().flat_map(|c| c.points.iter().map(|p| p.0))), [LEFT, right], 9),
            y: Axis::round(
                range(curves.iter().flat_map(|c| c.points.iter().filter_map(|p| p.1))),
                [low, low + field],
                6,
            ),
        };
        let last = k + 1 == what.len();
        field_of(&mut board, &plot, &curves, last);
        plot.name_y(&mut board, &format!("{} [{}]", output.title, output.unit));
        if last {
            plot.name_x(&mut board, &axis_name(&table.inputs[along]));
        }
        mark(&mut board, &plot, table, along, output);
    }
    (board, height)
}

/// Room right of the fields for the names of the curves \[mm\].
fn right_margin(table: &Table, along: usize) -> f64 {
    let widest = |row: &Row| width(&name(table, along, row), SMALL);
    6.0 + table.rows.iter().map(widest).fold(0.0, f64::max).min(50.0)
}

/// Name of the curve to which a row belongs: the value of the other input.
fn name(table: &Table, along: usize, row: &Row) -> String {
    match (table.inputs.get(1 - along), row.inputs.get(1 - along)) {
        (Some(column), Some(value)) => column.told(value),
        _ => String::new(),
    }
}

/// The curves of an output, in the order of the table.
fn curves(table: &Table, along: usize, output: &Output) -> Vec<Curve> {
    let mut curves: Vec<Curve> = Vec::new();
    for row in &table.rows {
        let Ok(x) = row.inputs[along].parse::<f64>() else { continue };
        let name = name(table, along, row);
        let point = (x, row.outputs[output.index()]);
        match curves.iter_mut().find(|curve| curve.name == name) {
            Some(curve) => curve.points.push(point),
            None => curves.push(Curve { name, points: vec![point] }),
        }
    }
    curves.iter_mut().for_each(|curve| curve.points.sort_by(|a, b| a.0.total_cmp(&b.0)));
    curves
}

fn range(values: impl Iterator<Item = f64>) -> [f64; 2] {
    values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| [low.min(v), high.max(v)])
}

fn field_of(board: &mut Board, plot: &Plot, curves: &[Curve], numbered: bool) {
    plot.draw(board, numbered);
    if let [only] = curves {
        hatch(board, &refused(plot, only));
        borders(board, plot, only);
    }
    for curve in curves {
        let known: Vec<Option<Point2>> =
            curve.points.iter().map(|(x, y)| y.map(|y| plot.at(*x, y))).collect();
        for pair in known.windows(2) {
            if let [Some(a), Some(b)] = pair {
                board.line(Pen::Curve, *a, *b);
            }
        }
        let alone = |i: usize| {
            let unknown = |k: usize| known.get(k).copied().flatten().is_none();
            (i == 0 || unknown(i - 1)) && unknown(i + 1)
        };
        let marked = known.iter().enumerate().filter(|(i, _)| known.len() <= FEW || alone(*i));
        marked.filter_map(|(_, p)| *p).for_each(|p| board.dot(p));
    }
    name_curves(board, plot, curves);
}

/// Upright strips around the points that are refused.
fn refused(plot: &Plot, curve: &Curve) -> Vec<Vec<Point2>> {
    let (points, f) = (&curve.points, plot.frame());
    let border = |i: usize, j: usize| (plot.x.at(points[i].0) + plot.x.at(points[j].0)) / 2.0;
    let strip = |i: usize| {
        let left = if i == 0 { f.low.x } else { border(i - 1, i) };
        let right = if i + 1 == points.len() { f.high.x } else { border(i, i + 1) };
        [(left, f.low.y), (right, f.low.y), (right, f.high.y), (left, f.high.y)]
            .map(|(x, y)| Point2::new(x, y))
            .to_vec()
    };
    (0..points.len()).filter(|i| points[*i].1.is_none()).map(strip).collect()
}

/// Lines between what can be and what cannot.
fn borders(board: &mut Board, plot: &Plot, curve: &Curve) {
    let f = plot.frame();
    for pair in curve.points.windows(2).filter(|pair| pair[0].1.is_some() != pair[1].1.is_some()) {
        let x = (plot.x.at(pair[0].0) + plot.x.at(pair[1].0)) / 2.0;
        board.line(Pen::Leader, Point2::new(x, f.low.y), Point2::new(x, f.high.y));
    }
}

/// Writes the names of several curves at their right-hand ends, moved apart where they would meet.
fn name_curves(board: &mut Board, plot: &Plot, curves: &[Curve]) {
    let end = |curve: &Curve| curve.points.iter().rev().find_map(|(x, y)| y.map(|y| plot.at(*x, y)));
    let mut ends: Vec<(Point2, &str)> = curves
        .iter()
        .filter(|c| !c.name.is_empty())
        .filter_map(|c| Some((end(c)?, c.name.as_str())))
        .collect();
    ends.sort_by(|a, b| a.0.y.total_cmp(&b.0.y));
    let (right, mut lowest) = (plot.frame().high.x, f64::NEG_INFINITY);
    for (at, name) in ends {
        let y = (at.y - SMALL / 2.0).max(lowest);
        if at.x < right - 0.5 || y > at.y {
            board.line(Pen::Leader, at, Point2::new(right + 1.5, y + SMALL / 2.0));
        }
        let height = SMALL * (50.0 / width(name, SMALL)).min(1.0);
        board.write(Label::level(name, right + 2.5, y, height));
        lowest = y + SMALL + 1.5;
    }
}

/// Marks the best point with its height.
fn mark(board: &mut Board, plot: &Plot, table: &Table, along: usize, output: &Output) {
    let Some((row, value)) = table.best(output) else { return };
    let Ok(x) = row.inputs[along].parse::<f64>() else { return };
    let at = plot.at(x, value);
    best_mark(board, at);
    let text = figures(value);
    let (f, w) = (plot.frame(), width(&text, SMALL));
    let (right, left) = (at.x + 3.0, at.x - 3.0 - w);
    let (over, under) = (at.y + 2.0, at.y - 2.0 - SMALL);
    let level = at.y - SMALL / 2.0;
    let places = [(right, over), (left, over), (left, level), (right, level), (right, under), (left, under)];
    let covers = |pen: Pen| matches!(pen, Pen::Curve | Pen::Hatch | Pen::Leader);
    let free = |(x, y): &(f64, f64)| {
        let label = Frame::new(*x, *y, w, SMALL);
        let inside = f.holds_point(label.low) && f.holds_point(label.high);
        inside && !board.strokes.iter().any(|s| covers(s.pen) && s.crosses(&label.grown(0.5)))
    };
    // The heading tells it too, so it can be left out where there is no room.
    if let Some((left, low)) = places.iter().find(|place| free(place)) {
        board.write(Label::level(&text, *left, *low, SMALL));
    }
}
