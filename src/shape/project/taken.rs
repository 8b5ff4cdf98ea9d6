//! What a section takes away in front, ready to be asked point by point.

use super::flat::Bounds;
use super::{Taken, turning};
use crate::shape::Point2;
use crate::shape::crossing::places;
use crate::shape::loops::{Inside, Piece};

/// One part of what is taken away.
struct Part {
    depth: f64,
    within: Option<(Inside, Vec<Piece>, Bounds)>,
}

/// All that is taken away in a view.
pub struct Away(Vec<Part>);

impl Away {
    /// Of the parts of a view.
    pub fn of(taken: &[Taken]) -> Self {
        let part = |t: &Taken| {
            let within = t.within.as_ref().map(|outline| {
                let (low, high) = outline.bounds();
                (Inside::of(outline), outline.pieces(), Bounds::of([low, high]))
            });
            Part { depth: t.depth, within }
        };
        Self(taken.iter().map(part).collect())
    }

    /// Height of the cutting plane at a place of the view \[mm\], if anything is taken away there.
    pub fn depth(&self, p: Point2) -> Option<f64> {
        self.0.iter().find(|part| part.holds(p)).map(|part| part.depth)
    }

    /// All heights at which it is cut \[mm\].
    pub fn depths(&self) -> impl Iterator<Item = f64> + '_ {
        self.0.iter().map(|part| part.depth)
    }

    /// Fractions at which a straight line of the view goes over a border.
    pub fn borders_of_line(&self, from: Point2, to: Point2) -> Vec<f64> {
        let line = Piece::Line { from, to };
        let pieces = self.0.iter().filter_map(|part| part.within.as_ref()).flat_map(|(_, pieces, _)| pieces);
        pieces.flat_map(|piece| places(&line, piece)).collect()
    }

    /// Fractions at which a curve goes over a border, between one sample and the next.
    pub fn borders(&self, samples: &[f64], at: &dyn Fn(f64) -> Point2) -> Vec<f64> {
        let parts = self.0.iter().filter(|part| part.within.is_some());
        parts
            .flat_map(|part| {
                let side = |t: f64| if part.holds(at(t)) { 1.0 } else { -1.0 };
                samples.windows(2).filter_map(move |w| turning(w[0], w[1], &side)).collect::<Vec<_>>()
            })
            .collect()
    }
}

impl Part {
    fn holds(&self, p: Point2) -> bool {
        self.within.as_ref().is_none_or(|(inside, _, bounds)| bounds.near(p, 0.0) && inside.contains(p))
    }
}
