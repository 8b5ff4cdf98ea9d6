//! Least clearance of every moving pair over the turn, as drawn and with the parts warm.

use crate::sizing::check::Check;
use crate::sizing::clearance::piece::{Nearest, Pair, Piece, Turn};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::Engine;
use crate::sizing::layouts;

/// A pair with where it comes nearest.
#[derive(Clone, Debug, PartialEq)]
pub struct Passing {
    /// The pair.
    pub pair: Pair,
    /// Its least distance over the turn, as drawn.
    pub cold: Nearest,
    /// The same with every length grown to its running temperature.
    pub hot: Nearest,
}

/// All pairs of an engine.
pub fn passing(e: &Engine) -> Vec<Passing> {
    let warm = layouts::warm(e);
    let hot = layouts::pairs(&warm);
    let turns = [e, &warm].map(|e| Turn::of(move |deg| layouts::pieces(e, deg)));
    let both = layouts::pairs(e).into_iter().zip(&hot);
    both.map(|(pair, grown)| Passing { cold: least(&turns[0], &pair), hot: least(&turns[1], grown), pair })
        .collect()
}

/// Nearest over the turn.
fn least(turn: &Turn<impl Fn(f64) -> Vec<Piece>>, pair: &Pair) -> Nearest {
    let found = turn.nearest(pair.parts[0], pair.parts[1]);
    Nearest { gap_mm: found.gap_mm.min(pair.beside_mm.unwrap_or(f64::INFINITY)), ..found }
}

/// One check for each pair.
pub fn checks(passing: &[Passing]) -> Vec<Check> {
    passing.iter().map(check).collect()
}

fn check(p: &Passing) -> Check {
    let [a, b] = p.pair.parts;
    let words = |name: &str| name.replace('-', " ");
    let what = format!(
        "{} to {}: {:.2} mm at {:.0} degrees cold, {:.2} mm at {:.0} degrees hot; the least",
        words(a),
        words(b),
        p.cold.gap_mm,
        p.cold.angle_deg,
        p.hot.gap_mm,
        p.hot.angle_deg
    );
    let [wanted, limit] = p.pair.wanted_mm;
    let least = p.cold.gap_mm.min(p.hot.gap_mm);
    Check::at_least(&p.pair.name(), &what, least, Unit::Millimetre, wanted, limit)
        .source("exact motion of crank and con rod, growth by heat; clearance common practice, no source")
        .at(p.pair.path)
        .of(&[part_of(a), part_of(b)])
        .hint("leave the number out so that sizing decides it, or enlarge it")
}

/// Name of the part of an instance.
fn part_of(instance: &'static str) -> &'static str {
    match instance {
        "displacer-con-rod" | "piston-con-rod" => "con-rod",
        "front-piston-con-rod" | "rear-piston-con-rod" => "con-rod",
        "displacer-clevis" | "piston-clevis" => "clevis",
        "piston-pulley" => "timing-pulley",
        "crank-web-inner-front" | "crank-web-inner-rear" => "crank-web-inner",
        "crank-web-outer-front" | "crank-web-outer-rear" => "crank-web-outer",
        other => other,
    }
}
