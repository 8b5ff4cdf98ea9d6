//! Piston stroke against free travel, and the stroke that leaves the most work.

use super::change::Change;
use super::net_work::NetWork;
use super::search::best;

/// Advice on the piston's stroke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrokeAdvice {
    /// Stroke as it is \[mm\].
    pub stroke_mm: f64,
    /// Bore of the piston where it must change in the stroke's place \[mm\].
    pub tied_bore_mm: Option<f64>,
    /// Work at the shaft with it \[J\].
    pub net_j: f64,
    /// Way of a free piston \[mm\].
    pub free_travel_mm: Option<f64>,
    /// Stroke that leaves the most work at this speed \[mm\].
    pub best_mm: f64,
    /// Work at the shaft with that \[J\].
    pub best_net_j: f64,
}

impl StrokeAdvice {
    /// The best stroke as a factor on the present one.
    pub fn factor(&self) -> f64 {
        self.best_mm / self.stroke_mm
    }

    /// What to change and to which size, in words: `stroke of 27.0 mm`.
    pub fn best_words(&self) -> String {
        sweeping(self.tied_bore_mm, self.stroke_mm, self.factor())
    }
}

/// Searches the stroke between 0.2 and 1.8 of the present one, as far as the con rod reaches.
///
/// `None` where the model has no answer at any stroke.
pub fn stroke_advice(net: &dyn NetWork, speed_rpm: f64, change: &Change) -> Option<StrokeAdvice> {
    let with = |factor: f64| change.and(&Change { piston_stroke: factor, ..Change::NONE });
    let net_j =
        |factor: f64| net.at(speed_rpm, &with(factor)).ok().map(|w| w.net_j).filter(|j| j.is_finite());
    let (factor, best_net_j) = best(0.2, 1.8, 9, 0.005, net_j)?;
    let facts = net.facts(change);
    Some(StrokeAdvice {
        stroke_mm: facts.piston_stroke_mm,
        tied_bore_mm: facts.tied_bore_mm,
        net_j: net_j(1.0)?,
        free_travel_mm: facts.free_travel_mm,
        best_mm: factor * facts.piston_stroke_mm,
        best_net_j,
    })
}

/// Size of the piston that sweeps `factor` times as much: its stroke, or its bore where the stroke is tied \[mm\].
pub fn sweeping(tied_bore_mm: Option<f64>, stroke_mm: f64, factor: f64) -> String {
    match tied_bore_mm {
        Some(bore) => format!("bore of {:.1} mm", bore * factor.sqrt()),
        None => format!("stroke of {:.1} mm", stroke_mm * factor),
    }
}
