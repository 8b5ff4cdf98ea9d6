//! In which order the pieces of a string come off it.
//!
//! Where two have metal on one line along the string, that line tells which lies over the other. A part within another (a
//! piston in its bore) lies over nothing: it comes where its upper end is, with all that was put together with it. A ring in
//! its groove goes over the nearer end, and all rings of a sort over the same.

use super::Piece;
use super::depths::{Span, lines, spans};
use crate::shape::Vector3;

/// Two parts lie in one another, if they overlap by more than this along a line \[mm\].
const WITHIN: f64 = 0.2;

/// How a piece lies to another.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Lies {
    /// Over it where positive: sum of the distances of their middles \[mm\].
    over: f64,
    /// On some line they lie in one another.
    within: bool,
}

/// The pieces of a string, the farthest along `way` first.
pub fn sorted<'a>(string: Vec<Piece<'a>>, way: Vector3) -> Vec<Piece<'a>> {
    let at = lines(&string, way);
    let found: Vec<Vec<Option<Span>>> = string.iter().map(|p| spans(p, &at, way)).collect();
    let over = votes(&string, &found);
    let top = |of: &[Option<Span>]| of.iter().flatten().map(|s| s[1]).fold(f64::NEG_INFINITY, f64::max);
    let own: Vec<f64> = found.iter().map(|f| top(f)).collect();
    // what was put together on the bench comes as one
    let of_bench = |i: usize| {
        let same = |j: &usize| string[i].bench.is_some() && string[*j].bench == string[i].bench;
        (0..string.len()).filter(same).map(|j| own[j]).fold(own[i], f64::max)
    };
    let keys: Vec<[f64; 2]> = (0..string.len()).map(|i| [of_bench(i), own[i]]).collect();
    let sequence = sequence(&over, &keys);
    let mut taken: Vec<Option<Piece>> = string.into_iter().map(Some).collect();
    sequence.into_iter().filter_map(|i| taken[i].take()).collect()
}

/// Whether each lies over each other one.
fn votes(string: &[Piece], found: &[Vec<Option<Span>>]) -> Vec<Vec<bool>> {
    let n = string.len();
    let pairs: Vec<Vec<Option<Lies>>> = (0..n)
        .map(|i| (0..n).map(|j| (i != j).then(|| lies(&found[i], &found[j])).flatten()).collect())
        .collect();
    let is_over = |i: usize, j: usize| {
        let Some(own) = pairs[i][j] else { return false };
        if !own.within {
            return own.over > 0.0;
        }
        // all of a sort go over the same end
        let sort = |k: usize, of: usize| string[k].instance.part == string[of].instance.part;
        let all =
            (0..n).flat_map(|a| (0..n).map(move |b| (a, b))).filter(|(a, b)| sort(*a, i) && sort(*b, j));
        all.filter_map(|(a, b)| pairs[a][b]).map(|l| l.over).sum::<f64>() > 0.0
    };
    (0..n).map(|i| (0..n).map(|j| is_over(i, j)).collect()).collect()
}

/// How one lies to another; `None` where no line meets both.
fn lies(a: &[Option<Span>], b: &[Option<Span>]) -> Option<Lies> {
    let both = a.iter().zip(b).filter_map(|(a, b)| Some(((*a)?, (*b)?)));
    both.fold(None, |lies: Option<Lies>, (a, b)| {
        let over = (a[0] + a[1] - b[0] - b[1]) / 2.0;
        let within = a[0] < b[1] - WITHIN && b[0] < a[1] - WITHIN;
        let before = lies.unwrap_or(Lies { over: 0.0, within: false });
        Some(Lies { over: before.over + over, within: before.within || within })
    })
}

/// One after the other, nothing before what lies over it, otherwise the greatest key first.
fn sequence(over: &[Vec<bool>], keys: &[[f64; 2]]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..keys.len()).collect();
    let mut done = Vec::new();
    let greater = |a: &usize, b: &usize| {
        let ([a0, a1], [b0, b1]) = (keys[*a], keys[*b]);
        // of equals the first
        a0.total_cmp(&b0).then(a1.total_cmp(&b1)).then(b.cmp(a))
    };
    while !left.is_empty() {
        let free = left.iter().copied().filter(|i| !left.iter().any(|j| over[*j][*i]));
        // parts that hold each other both ways: the greatest key after all
        let next = free.max_by(greater).or_else(|| left.iter().copied().max_by(greater));
        let Some(next) = next else { break };
        left.retain(|i| *i != next);
        done.push(next);
    }
    done
}
