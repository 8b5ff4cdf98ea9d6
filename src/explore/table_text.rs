//! A table as comma-separated text and back. The first line says what the table belongs to.

use super::output::OUTPUTS;
use super::shard::Shard;
use super::table::{Column, Mark, Row, Table};

/// Columns after the inputs that are not numbers.
const MODEL: &str = "model";
const REFUSED: &str = "refused";
const WHY: &str = "why";

/// What is wrong with a table that is read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TableError {
    /// The first line is not that of a sweep.
    #[error("{file} does not begin with the line that swept explore writes first")]
    NoMark {
        /// Name of the file.
        file: String,
    },
    /// The columns are not those of this version.
    #[error("{file} has other columns than this version of swept writes")]
    Columns {
        /// Name of the file.
        file: String,
    },
    /// A row cannot be read.
    #[error("{file}: row {row} cannot be read: {what}")]
    Row {
        /// Name of the file.
        file: String,
        /// Row, the first point being 1.
        row: usize,
        /// What is wrong.
        what: String,
    },
    /// Rows are missing, or there are too many.
    #[error("{file} should hold {wanted} points and holds {found}: was its run cut off?")]
    Length {
        /// Name of the file.
        file: String,
        /// Points that its share has.
        wanted: usize,
        /// Points that were found.
        found: usize,
    },
}

impl Table {
    /// The table as comma-separated text; lines end with a line feed on every system.
    ///
    /// # Errors
    /// When it cannot be formed: a fault of the program.
    pub fn to_csv(&self) -> Result<Vec<u8>, String> {
        let start = format!("{}\n", mark_line(&self.mark, self.rows.len())).into_bytes();
        let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::Any(b'\n')).from_writer(start);
        writer.write_record(head(&self.inputs)).map_err(|e| e.to_string())?;
        for row in &self.rows {
            writer.write_record(fields(row)).map_err(|e| e.to_string())?;
        }
        writer.into_inner().map_err(|e| e.to_string())
    }

    /// Reads what [`Table::to_csv`] wrote; `file` is its name in errors.
    ///
    /// # Errors
    /// Text that is no such table, or a table that was cut off.
    pub fn from_csv(file: &str, bytes: &[u8]) -> Result<Self, TableError> {
        let no_mark = || TableError::NoMark { file: file.into() };
        let line = bytes.iter().position(|b| *b == b'\n').ok_or_else(no_mark)?;
        let first = std::str::from_utf8(&bytes[..line]).map_err(|_| no_mark())?;
        let mark = read_mark(first.trim_end()).ok_or_else(no_mark)?;
        let mut reader = csv::ReaderBuilder::new().from_reader(&bytes[line + 1..]);
        let columns = || TableError::Columns { file: file.into() };
        let inputs = read_head(reader.headers().map_err(|_| columns())?).ok_or_else(columns)?;
        let mut rows = Vec::new();
        for record in reader.records() {
            let fault = |what: String| TableError::Row { file: file.into(), row: rows.len() + 1, what };
            let record = record.map_err(|e| fault(e.to_string()))?;
            rows.push(read_row(&record, inputs.len()).map_err(fault)?);
        }
        let wanted = mark.shard.points(mark.total).len();
        if rows.len() != wanted {
            return Err(TableError::Length { file: file.into(), wanted, found: rows.len() });
        }
        Ok(Self { mark, inputs, rows })
    }
}

fn mark_line(mark: &Mark, points: usize) -> String {
    let Mark { version, engine, sweep, shard, total } = mark;
    format!("# swept {version} explore {engine}: sweep {sweep}, shard {shard}, {points} of {total} points")
}

fn read_mark(line: &str) -> Option<Mark> {
    let (version, rest) = line.strip_prefix("# swept ")?.split_once(" explore ")?;
    let (engine, rest) = rest.split_once(": sweep ")?;
    let (sweep, rest) = rest.split_once(", shard ")?;
    let (shard, rest) = rest.split_once(", ")?;
    let (number, of) = shard.split_once('/')?;
    let (_, total) = rest.strip_suffix(" points")?.split_once(" of ")?;
    Some(Mark {
        version: version.into(),
        engine: engine.into(),
        sweep: sweep.into(),
        shard: Shard::new(number.parse().ok()?, of.parse().ok()?)?,
        total: total.parse().ok()?,
    })
}

fn head(inputs: &[Column]) -> Vec<String> {
    let named = |column: &Column| match column.unit.as_str() {
        "" => column.path.clone(),
        unit => format!("{} [{unit}]", column.path),
    };
    let mut head: Vec<String> = inputs.iter().map(named).collect();
    head.push(MODEL.into());
    head.extend(OUTPUTS.iter().map(|output| output.head()));
    head.extend([REFUSED.into(), WHY.into()]);
    head
}

fn read_head(record: &csv::StringRecord) -> Option<Vec<Column>> {
    let names: Vec<&str> = record.iter().collect();
    let inputs: Vec<Column> = names
        .iter()
        .take_while(|name| **name != MODEL)
        .map(|name| {
            let (path, unit) = name.split_once(" [").unwrap_or((name, ""));
            Column { path: path.into(), unit: unit.trim_end_matches(']').into() }
        })
        .collect();
    (matches!(inputs.len(), 1 | 2) && head(&inputs) == names).then_some(inputs)
}

fn fields(row: &Row) -> Vec<String> {
    let number = |value: &Option<f64>| value.map_or_else(String::new, |value| value.to_string());
    let mut fields = row.inputs.clone();
    fields.push(row.model.clone());
    fields.extend(row.outputs.iter().map(number));
    fields.extend([row.refused.clone(), row.why.clone()]);
    fields
}

fn read_row(record: &csv::StringRecord, inputs: usize) -> Result<Row, String> {
    let field = |i: usize| record.get(i).unwrap_or("").to_owned();
    let number = |text: String| match text.as_str() {
        "" => Ok(None),
        _ => match text.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(Some(value)),
            _ => Err(format!("`{}` is no number", crate::diagnostic::shown(&text))),
        },
    };
    let first = inputs + 1;
    let last = first + OUTPUTS.len();
    Ok(Row {
        inputs: (0..inputs).map(field).collect(),
        model: field(inputs),
        outputs: (first..last).map(|i| number(field(i))).collect::<Result<_, _>>()?,
        refused: field(last),
        why: field(last + 1),
    })
}
