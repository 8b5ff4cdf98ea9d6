//! What stands beside the part in a cut file: the reference line, the notes, the check bars. All of it
//! lies above or right of the outline, never over it.

use super::cutfile::{CutFile, MARGIN_MM, Stroke};
use super::lettering::{Lettering, moved, width};
use crate::shape::Point2;

/// Length of the reference line \[mm\].
pub const REFERENCE_MM: f64 = 20.0;

/// Length of the check bars \[mm\].
pub const BAR_MM: f64 = 50.0;

/// Height of the notes' capitals \[mm\] (a height of the series in ISO 3098-1).
const NOTE_MM: f64 = 2.5;

/// Distance between lines of the notes \[mm\].
const LINE_MM: f64 = 5.0;

/// Half the length of a tick \[mm\].
const TICK_MM: f64 = 1.0;

/// Reference strokes and check bars above and right of what ends at `high`.
///
/// # Errors
/// What the lettering says of a character without strokes.
pub(super) fn strokes(
    notes: &[String],
    high: Point2,
    lettering: Option<&dyn Lettering>,
) -> Result<(Vec<Stroke>, Vec<Stroke>), String> {
    let mut y = high.y + LINE_MM;
    let mut reference = bar(REFERENCE_MM, REFERENCE_MM);
    lettered(&mut reference, lettering, "20 mm", REFERENCE_MM + 2.0, -NOTE_MM / 2.0)?;
    let mut reference = moved(reference, MARGIN_MM, y);
    for note in notes {
        y += LINE_MM;
        lettered(&mut reference, lettering, note, MARGIN_MM, y - NOTE_MM / 2.0)?;
    }
    y += LINE_MM;
    let mut across = bar(BAR_MM, 10.0);
    lettered(&mut across, lettering, "50 mm", BAR_MM + 2.0, -NOTE_MM / 2.0)?;
    let across = moved(across, MARGIN_MM, y);
    let right = width(&reference).max(width(&across)).max(high.x);
    let mut upright: Vec<Stroke> =
        bar(BAR_MM, 10.0).into_iter().map(|s| s.iter().map(|p| Point2::new(-p.y, p.x)).collect()).collect();
    lettered(&mut upright, lettering, "50 mm", 2.0, BAR_MM / 2.0 - NOTE_MM / 2.0)?;
    Ok((reference, [across, moved(upright, right + LINE_MM, MARGIN_MM)].concat()))
}

/// Adds a text at (`x`, `y`) if there is lettering.
fn lettered(
    to: &mut Vec<Stroke>,
    lettering: Option<&dyn Lettering>,
    text: &str,
    x: f64,
    y: f64,
) -> Result<(), String> {
    if let Some(l) = lettering {
        to.extend(moved(l.strokes(text, NOTE_MM)?, x, y));
    }
    Ok(())
}

/// A horizontal bar from the origin, with a tick at every step.
fn bar(length: f64, step: f64) -> Vec<Stroke> {
    let mut out = vec![vec![Point2::new(0.0, 0.0), Point2::new(length, 0.0)]];
    let ticks = (length / step).round() as usize;
    out.extend((0..=ticks).map(|i| {
        let x = step * i as f64;
        vec![Point2::new(x, -TICK_MM), Point2::new(x, TICK_MM)]
    }));
    out
}

/// Width and height of everything with the margin \[mm\].
pub(super) fn page(file: &CutFile) -> [f64; 2] {
    let (_, mut high) = file.outline.boundary.bounds();
    for p in file.reference.iter().chain(&file.check_bars).flatten() {
        high = Point2::new(high.x.max(p.x), high.y.max(p.y));
    }
    [high.x + MARGIN_MM, high.y + MARGIN_MM]
}

/// A number with at most three decimals and no trailing zeros.
pub(crate) fn short(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
