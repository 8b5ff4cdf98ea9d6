//! The chart of a table: curves over one input, lines of equal value over two.

use super::output::{OUTPUTS, Output};
use super::page::{self, Sign};
use super::table::{Column, Table};
use super::{curves, levels};
use crate::design::{Kind, find_key};
use crate::drawing::DrawingError;
use crate::drawing::board::Board;
use crate::numerals::short;

/// Values of both inputs from which on lines of equal value are drawn.
const ENOUGH: usize = 5;
/// Most outputs on a chart.
const MOST: usize = 4;

/// Why there is no chart.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ChartError {
    /// No point can be.
    #[error("there is nothing to draw: all points are refused ({0})")]
    NothingStands(String),
    /// The model does not know the output.
    #[error("the model does not know {wanted}; it knows {known}")]
    NotKnown {
        /// What was asked for.
        wanted: &'static str,
        /// What there is.
        known: String,
    },
    /// Too many outputs.
    #[error("a chart over {inputs} shows {most} at most")]
    TooMany {
        /// How many inputs in words.
        inputs: &'static str,
        /// How many outputs in words.
        most: &'static str,
    },
    /// No input is a number with two values at least.
    #[error("a chart needs an input that is a number and has two values or more")]
    NoAxis,
    /// A part of the sweep.
    #[error("shard {0} of a sweep is no chart: put the shards together first")]
    Share(super::shard::Shard),
    /// The text of the table cannot be lettered.
    #[error(transparent)]
    Drawing(#[from] DrawingError),
}

/// The chart of a whole sweep as an SVG file; `what` is drawn, or shaft power where it is known and else indicated power
/// (over one input with the efficiency).
///
/// # Errors
/// [`ChartError`].
pub fn chart(table: &Table, what: &[&'static Output]) -> Result<String, ChartError> {
    if table.mark.shard.of() > 1 {
        return Err(ChartError::Share(table.mark.shard));
    }
    if table.known().is_empty() {
        let codes: Vec<&str> = table.refusals().into_iter().map(|(code, _)| code).collect();
        return Err(ChartError::NothingStands(codes.join(", ")));
    }
    let axes: Vec<Option<Vec<f64>>> = (0..table.inputs.len()).map(|i| places(table, i)).collect();
    let what = chosen(table, what, axes.len())?;
    let sized = |axis: &Option<Vec<f64>>| axis.as_ref().map_or(0, Vec::len);
    let (board, height) = match axes.as_slice() {
        [Some(x), Some(y)] if x.len() >= ENOUGH && y.len() >= ENOUGH => {
            levels::draw(table, x, y, what[0], &heading(table, &what, true))
        }
        [first, second] if sized(first) >= 2 || sized(second) >= 2 => {
            let along = usize::from(sized(second) > sized(first));
            curves::draw(table, along, &what, &heading(table, &what, false))
        }
        [Some(x)] if x.len() >= 2 => curves::draw(table, 0, &what, &heading(table, &what, true)),
        _ => return Err(ChartError::NoAxis),
    };
    Ok(written(&board, height, table, &what)?)
}

fn written(board: &Board, height: f64, table: &Table, what: &[&Output]) -> Result<String, DrawingError> {
    crate::drawing::svg::write(board, page::WIDTH, height, &title(table, what))
}

/// Distinct values of an input in ascending order; `None` when they are words.
fn places(table: &Table, input: usize) -> Option<Vec<f64>> {
    let key = find_key(&table.inputs[input].path).ok()?;
    if !matches!(key.kind, Kind::Quantity { .. } | Kind::Count { .. }) {
        return None;
    }
    let mut values: Vec<f64> =
        table.rows.iter().map(|row| row.inputs[input].parse().ok()).collect::<Option<_>>()?;
    values.sort_by(f64::total_cmp);
    values.dedup();
    Some(values)
}

/// What is drawn.
fn chosen(
    table: &Table,
    what: &[&'static Output],
    inputs: usize,
) -> Result<Vec<&'static Output>, ChartError> {
    match (inputs, what.len()) {
        (1, n) if n > MOST => return Err(ChartError::TooMany { inputs: "one input", most: "four outputs" }),
        (2, n) if n > 1 => return Err(ChartError::TooMany { inputs: "two inputs", most: "one output" }),
        _ => {}
    }
    if let Some(unknown) = what.iter().find(|output| !table.knows(output)) {
        let known: Vec<&str> = table.known().iter().map(|output| output.name).collect();
        return Err(ChartError::NotKnown { wanted: unknown.name, known: known.join(", ") });
    }
    if !what.is_empty() {
        return Ok(what.to_vec());
    }
    let named = |name: &str| OUTPUTS.iter().find(|output| output.name == name && table.knows(output));
    let power =
        named("shaft-power").or_else(|| named("indicated-power")).or_else(|| table.known().first().copied());
    let efficiency = if inputs == 1 { named("efficiency") } else { None };
    Ok(power.into_iter().chain(efficiency).collect())
}

/// Name of an axis, for example `piston.stroke [mm]`.
pub(super) fn axis_name(column: &Column) -> String {
    match column.unit.as_str() {
        "" => column.path.clone(),
        unit => format!("{} [{unit}]", column.path),
    }
}

fn title(table: &Table, what: &[&Output]) -> String {
    let names: Vec<&str> = what.iter().map(|output| output.title).collect();
    let over: Vec<&str> = table.inputs.iter().map(|column| column.path.as_str()).collect();
    format!("{}: {} over {}", table.mark.engine, names.join(", "), over.join(" and "))
}

/// Title and lines over the chart: the model, the speed if it is the same everywhere, the best point, what is hatched.
fn heading(table: &Table, what: &[&Output], hatched: bool) -> (String, Vec<(Sign, String)>) {
    let models: Vec<&str> = table.models().into_iter().collect();
    let mut lines = vec![(Sign::Plain, format!("{} model{}", models.join(", "), speed(table)))];
    for output in what {
        if let Some((row, value)) = table.best(output) {
            let text =
                format!("most {}: {} {} at {}", output.title, figures(value), output.unit, table.place(row));
            lines.push((Sign::Best, text));
        } else if let Some(value) = table.constant(output) {
            let text = format!("{}: {} {} everywhere", output.title, figures(value), output.unit);
            lines.push((Sign::Plain, text));
        }
    }
    if !table.refusals().is_empty() {
        let told = |(codes, count): (&str, usize)| {
            format!("{count} points ({})", codes.replace("swept::", "").replace(' ', ", "))
        };
        let counts: Vec<String> = table.refusals().into_iter().take(3).map(told).collect();
        let text = format!("cannot be built: {} of {}", counts.join(", "), table.rows.len());
        lines.push((if hatched { Sign::Hatched } else { Sign::Plain }, text));
    }
    (title(table, what), lines)
}

/// The speed if it is the same at all points.
fn speed(table: &Table) -> String {
    let mut speeds: Vec<f64> = table.rows.iter().filter_map(|row| row.outputs[0]).collect();
    speeds.dedup();
    match speeds.as_slice() {
        [speed] => format!(" at {} rpm", short(*speed, 2)),
        _ => String::new(),
    }
}

/// A number with about four figures.
pub(super) fn figures(value: f64) -> String {
    let decimals = 3 - value.abs().max(1e-6).log10().floor() as i32;
    short(value, decimals.clamp(0, 9) as usize)
}
