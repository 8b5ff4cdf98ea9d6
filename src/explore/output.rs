//! What a sweep tells of each point: one row here is one column of the table and one thing to draw.

use crate::catalogue::nearest;
use crate::sizing::answer::Sized;
use crate::sizing::result::{OperatingPoint, Verdict};

/// One number that sizing gives, or may give.
#[derive(Debug)]
pub struct Output {
    /// Name in tables and on the command line.
    pub name: &'static str,
    /// Name on a chart.
    pub title: &'static str,
    /// Unit of the numbers.
    pub unit: &'static str,
    /// Whether the builder wants it as large as can be; such a point is marked on a chart.
    pub more_is_better: bool,
    /// The number of a sized engine; `None` when the model does not know it.
    pub of: fn(&Sized) -> Option<f64>,
}

fn point(sized: &Sized) -> &OperatingPoint {
    &sized.answer.operating_point
}

fn verdict(sized: &Sized) -> &Verdict {
    &sized.answer.verdict
}

/// Makes the rows `name, title, unit, more is better, of`.
macro_rules! outputs {
    ($($name:literal, $title:literal, $unit:literal, $better:literal, $of:expr;)+) => {
        &[$(Output { name: $name, title: $title, unit: $unit, more_is_better: $better, of: $of },)+]
    };
}

/// All outputs in the order of the columns.
pub const OUTPUTS: &[Output] = outputs! {
    "speed", "speed", "rpm", false, |s| Some(point(s).speed_rpm);
    "shaft-power", "shaft power", "W", true, |s| point(s).shaft_power_w;
    "indicated-power", "indicated power", "W", true, |s| Some(point(s).indicated_power_w);
    "heat-in", "heat in", "W", false, |s| Some(point(s).heat_in_w);
    "heat-out", "heat out", "W", false, |s| Some(point(s).heat_out_w);
    "efficiency", "efficiency", "%", true, |s| point(s).efficiency.map(|e| e * 100.0);
    "pressure-min", "least pressure", "bar abs", false, |s| Some(point(s).pressure_min_pa / 1e5);
    "pressure-mean", "mean pressure", "bar abs", false, |s| Some(point(s).pressure_mean_pa / 1e5);
    "pressure-max", "greatest pressure", "bar abs", false, |s| Some(point(s).pressure_max_pa / 1e5);
    "free-travel", "free travel of the piston", "mm", false, |s| verdict(s).free_travel_mm;
    "no-load-speed", "speed without load", "rpm", true, |s| verdict(s).no_load_speed_rpm;
    "margin", "work left in each turn", "J", true, |s| verdict(s).margin_j_per_turn;
    "probability", "probability that it turns itself over", "%", true,
        |s| verdict(s).probability.map(|p| p * 100.0);
};

impl Output {
    /// The output of this name.
    ///
    /// # Errors
    /// When there is none, in words, with the nearest name and all of them.
    pub fn find(name: &str) -> Result<&'static Self, String> {
        let names: Vec<&str> = OUTPUTS.iter().map(|output| output.name).collect();
        OUTPUTS.iter().find(|output| output.name == name).ok_or_else(|| {
            let hint = nearest(name, names.iter().copied()).unwrap_or_default();
            format!("there is no such output; did you mean {hint}? Known are {}", names.join(", "))
        })
    }

    /// Its column.
    pub(super) fn index(&self) -> usize {
        OUTPUTS.iter().position(|output| output.name == self.name).unwrap_or(0)
    }

    /// Head of its column, for example `heat-in [W]`.
    pub(super) fn head(&self) -> String {
        format!("{} [{}]", self.name, self.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_unlike_and_a_slip_finds_the_nearest() {
        for (i, output) in OUTPUTS.iter().enumerate() {
            assert_eq!(Output::find(output.name).unwrap().index(), i);
        }
        assert!(Output::find("shaft-pwer").unwrap_err().contains("did you mean shaft-power?"));
    }
}
