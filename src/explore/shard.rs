//! A share of a sweep, for machines that work side by side.

use std::fmt;
use std::ops::Range;

/// One of several shares of about the same size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shard {
    /// Which one, counted from 1.
    number: usize,
    /// How many there are.
    of: usize,
}

impl Shard {
    /// The whole sweep.
    pub const WHOLE: Self = Self { number: 1, of: 1 };

    /// The share `number` of `of`; `None` unless 1 ≤ `number` ≤ `of`.
    pub fn new(number: usize, of: usize) -> Option<Self> {
        (1..=of).contains(&number).then_some(Self { number, of })
    }

    /// Which one, counted from 1.
    pub fn number(&self) -> usize {
        self.number
    }

    /// How many there are.
    pub fn of(&self) -> usize {
        self.of
    }

    /// Its points among `total`, one after the other.
    pub fn points(&self, total: usize) -> Range<usize> {
        let border = |k: usize| (k as u128 * total as u128 / self.of as u128) as usize;
        border(self.number - 1)..border(self.number)
    }
}

/// As it is read, for example `3/8`.
impl fmt::Display for Shard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.number, self.of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_follow_one_another_and_leave_nothing_out() {
        for (total, of) in [(10, 3), (7, 7), (1681, 8), (1, 1), (1_000_000, 999)] {
            let mut next = 0;
            for number in 1..=of {
                let points = Shard::new(number, of).unwrap().points(total);
                assert_eq!(points.start, next);
                assert!(points.len() == total / of || points.len() == total / of + 1);
                next = points.end;
            }
            assert_eq!(next, total);
        }
        assert!(Shard::new(0, 3).is_none() && Shard::new(4, 3).is_none() && Shard::new(1, 0).is_none());
    }
}
