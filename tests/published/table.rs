//! The table of predicted and measured power.

use super::data::{Engine, From, Output, Point, file};
use super::predict::{SAMPLES, predict};
use swept::sizing::band::{Band, Percentiles};

/// A line of the table.
pub struct Row {
    pub engine: Engine,
    pub point: Point,
    pub band: Band,
}

impl Row {
    /// Percentiles.
    pub fn power_w(&self) -> Percentiles {
        self.band.power_w.unwrap_or_else(|| {
            let why = self.band.failure.as_deref().unwrap_or("");
            panic!("{} on {}: no sample has an answer: {why}", self.engine.id, self.point.gas)
        })
    }

    /// P50 over the measured power.
    pub fn ratio(&self) -> Option<f64> {
        self.point.measured_w.map(|m| self.power_w().p50 / m)
    }

    /// By what factor P50 is off, either way; without bound where the engine is predicted not to run.
    pub fn factor(&self) -> Option<f64> {
        self.ratio().map(|r| if r > 0.0 { r.max(1.0 / r) } else { f64::INFINITY })
    }

    /// Whether the measured power lies between P10 and P90.
    pub fn in_band(&self) -> Option<bool> {
        let p = self.power_w();
        self.point.measured_w.map(|m| p.p10 <= m && m <= p.p90)
    }

    /// Whether pass or fail may hang on it.
    pub fn counts(&self) -> bool {
        self.point.counts()
    }
}

/// All lines.
pub fn rows() -> Vec<Row> {
    let mut rows = Vec::new();
    for engine in &file().engine {
        for point in &engine.point {
            let band = predict(engine, point);
            rows.push(Row { engine: engine.clone(), point: point.clone(), band });
        }
    }
    rows
}

/// Share of the judged points inside the band, and the median factor of P50.
pub fn score(rows: &[Row]) -> (f64, f64) {
    let judged: Vec<&Row> = rows.iter().filter(|r| r.counts()).collect();
    let inside = judged.iter().filter(|r| r.in_band() == Some(true)).count();
    let mut factors: Vec<f64> = judged.iter().filter_map(|r| r.factor()).collect();
    factors.sort_by(f64::total_cmp);
    let n = factors.len();
    let median = 0.5 * (factors[(n - 1) / 2] + factors[n / 2]);
    (inside as f64 / n as f64, median)
}

/// Two significant digits.
fn short(value: f64) -> String {
    if value.abs() < 1e-9 {
        return "0".into();
    }
    let digits = 1 - value.abs().log10().floor() as i32;
    let scale = 10f64.powi(digits);
    let rounded = (value * scale).round() / scale;
    format!("{rounded:.*}", digits.max(0) as usize)
}

fn measured(point: &Point) -> String {
    let Some(w) = point.measured_w else { return "–".into() };
    let what = match point.output {
        Output::Shaft => "",
        Output::Electric => " el.",
        Output::Rating => " el., rating",
    };
    let memory = if point.measured_from == Some(From::Memory) { " (from memory)" } else { "" };
    format!("{w}{what}{memory}")
}

fn quantity(point: &Point, name: &str) -> String {
    let q = &point.at[name];
    match (q.value, q.low, q.high) {
        (Some(v), ..) => format!("{v:.0}"),
        (_, Some(low), Some(high)) => format!("{low:.0}–{high:.0}"),
        _ => String::new(),
    }
}

/// One line; the reason stands at the first point of its engine.
fn line(row: &Row, first: bool) -> String {
    let (p, band) = (row.power_w(), row.in_band());
    let verdict = match (band, row.counts()) {
        (None, _) => "–",
        (Some(true), true) => "yes",
        (Some(false), true) => "**no**",
        (Some(true), false) => "(yes)",
        (Some(false), false) => "(no)",
    };
    let ratio = row.ratio().map_or("–".into(), short);
    let failed = match row.band.failed {
        0 => String::new(),
        n => format!(" ({n} of the samples have no answer)"),
    };
    format!(
        "| {} | {} | {} | {} | {} | {} / {} / {} | {} | {} | {}{} |\n",
        row.engine.id,
        row.point.gas,
        quantity(&row.point, "pressure_kpa"),
        quantity(&row.point, "speed_rpm"),
        measured(&row.point),
        short(p.p10),
        short(p.p50),
        short(p.p90),
        ratio,
        verdict,
        if first { row.engine.reason.as_str() } else { "" },
        failed
    )
}

/// The table as Markdown.
pub fn markdown(rows: &[Row]) -> String {
    let (inside, median) = score(rows);
    let judged = rows.iter().filter(|r| r.counts()).count();
    let mut text = String::from(
        "| engine | gas | pressure, kPa | rpm | measured, W | predicted P10 / P50 / P90, W | P50 / measured | in band | likely reason where bad |\n\
         |---|---|---|---|---|---|---|---|---|\n",
    );
    for (i, row) in rows.iter().enumerate() {
        text += &line(row, i == 0 || rows[i - 1].engine.id != row.engine.id);
    }
    text += &format!(
        "\nOf {judged} measured points {:.0} % lie between P10 and P90; the median factor between P50 and measured power is {:.2}. \
         Lines in brackets are listed and not judged: the power is remembered or a maker's rating. {SAMPLES} samples a line, one set \
         of coefficients for all.\n",
        100.0 * inside,
        median
    );
    text += "\n";
    text += &super::gpu3::markdown();
    text += "\nNot built, for want of data: ";
    let left: Vec<String> = file().left_out.iter().map(|l| format!("{} ({})", l.id, l.why)).collect();
    text + &left.join("; ") + ".\n"
}
