//! What the search turns: an opening with its bounds, in steps that a workshop would take.

use crate::design::{Design, Dimension, Draft, Opening, ROOM_PA};
use crate::diagnostic::Diagnostic;
use crate::sizing::layouts::tied;

/// A number that is sought.
#[derive(Clone, Debug, PartialEq)]
pub struct Variable {
    /// Its key.
    pub path: String,
    /// What it measures.
    pub dimension: Dimension,
    /// Bounds, in the unit of the design's fields.
    pub bounds: [f64; 2],
    /// Step, in the same unit.
    pub step: f64,
    /// Whether the user gave the bounds.
    pub given: bool,
}

impl Variable {
    /// The value at a place between the bounds, 0 to 1: a multiple of the step, or a bound. Sizes, speeds and pressures
    /// go by ratios, so that small and large ones are tried alike.
    pub fn at(&self, place: f64) -> f64 {
        let [low, high] = self.bounds;
        let place = place.clamp(0.0, 1.0);
        let value = match self.dimension {
            Dimension::Angle | Dimension::Temperature => low + (high - low) * place,
            _ => low * (high / low).powf(place),
        };
        self.snapped(value)
    }

    /// The nearest multiple of the step inside the bounds, or a bound where that is nearer.
    pub fn snapped(&self, value: f64) -> f64 {
        let [low, high] = self.bounds;
        let value = value.clamp(low, high);
        let grid = ((value / self.step).round() * self.step).clamp(low, high);
        let off = |x: f64| (x - value).abs();
        [low, high].into_iter().fold(grid, |near, bound| if off(bound) < off(near) { bound } else { near })
    }

    /// The place of a value between the bounds.
    pub fn place(&self, value: f64) -> f64 {
        let [low, high] = self.bounds;
        let place = match self.dimension {
            Dimension::Angle | Dimension::Temperature => (value - low) / (high - low),
            _ => (value / low).ln() / (high / low).ln(),
        };
        place.clamp(0.0, 1.0)
    }
}

/// The variables of a draft, in the order of its openings. `sample` is the draft with any numbers in its openings: what is
/// not open is read from it.
///
/// # Errors
/// An opening for which the limits leave no room.
pub fn variables(draft: &Draft, sample: &Design) -> Result<Vec<Variable>, Vec<Diagnostic>> {
    let (good, bad): (Vec<_>, Vec<_>) =
        draft.openings().iter().map(|opening| variable(opening, sample)).partition(Result::is_ok);
    match bad.is_empty() {
        true => Ok(good.into_iter().filter_map(Result::ok).collect()),
        false => Err(bad.into_iter().filter_map(Result::err).collect()),
    }
}

fn variable(opening: &Opening, sample: &Design) -> Result<Variable, Diagnostic> {
    let layout = sample.engine.layout.value;
    if tied(layout).contains(&opening.path.as_str()) {
        let text =
            format!("{} cannot be open: {} ties lead and strokes to each other", opening.path, layout.name());
        return Err(Diagnostic::error("swept::open", text)
            .allowed("a number, the same for both strokes")
            .hint(format!("give {} a number, and leave the bores open instead", opening.path))
            .at(opening.place.clone()));
    }
    let usual = usual(&opening.path, sample);
    let [low, high] = opening.given.unwrap_or(usual);
    let bounds = [low.max(opening.range[0]), high.min(opening.range[1])];
    if bounds[0] < bounds[1] {
        return Ok(Variable {
            path: opening.path.clone(),
            dimension: opening.dimension,
            bounds,
            step: opening.step,
            given: opening.given.is_some(),
        });
    }
    let show = |value| opening.dimension.show(value);
    Err(Diagnostic::error(
        "swept::open",
        format!("{} is open, but the limits leave no room for it", opening.path),
    )
    .label(format!("{} at the least, {} at the most", show(low), show(high)))
    .allowed(format!("a range inside {} to {}", show(opening.range[0]), show(opening.range[1])))
    .hint("raise the limits under [limits], or give a value or a range of your own")
    .at(opening.place.clone()))
}

/// Bounds of a search for which nothing was said, in the unit of the fields: engines for one bench and one lathe, inside the
/// limits of the design; common practice, no source.
fn usual(path: &str, design: &Design) -> [f64; 2] {
    let l = &design.limits;
    let side = |sides: [&Option<crate::design::Setting<f64>>; 2]| {
        sides.iter().filter_map(|s| s.as_ref()).map(|s| s.value).fold(f64::INFINITY, f64::min)
    };
    let across = side([&l.width_mm, &l.depth_mm]);
    let along = side([&l.height_mm, &None]);
    match path {
        "displacer.bore" => [30.0, across.min(250.0)],
        "piston.bore" => [16.0, across.min(200.0)],
        "displacer.stroke" | "piston.stroke" => [6.0, (along / 4.0).min(120.0)],
        "displacer.gap" => [0.2, 2.5],
        "drive.lead" => [60.0, 120.0],
        "targets.speed" => [60.0, 1500.0],
        _ => [ROOM_PA, l.peak_pressure_pa.value],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bore() -> Variable {
        Variable {
            path: "piston.bore".into(),
            dimension: Dimension::Length,
            bounds: [20.3, 81.2],
            step: 0.5,
            given: true,
        }
    }

    #[test]
    fn values_stand_on_the_grid_of_the_workshop_or_on_a_bound() {
        let b = bore();
        assert_eq!([b.at(0.0), b.at(0.5), b.at(1.0), b.at(7.0)], [20.3, 40.5, 81.2, 81.2]);
        assert_eq!(b.snapped(33.3), 33.5);
        assert!((b.place(40.6) - 0.5).abs() < 1e-12);
    }
}
