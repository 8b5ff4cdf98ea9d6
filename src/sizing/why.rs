//! Tells where a number came from, down to what was given.

use super::ledger::{Ledger, LedgerError};
use std::collections::BTreeSet;

/// The chain of `path` as a tree: a line for each number, inputs below it, two spaces deeper.
/// A chain that was shown before is not repeated.
pub(super) fn tree(ledger: &Ledger, path: &str) -> Result<String, LedgerError> {
    let mut lines = Vec::new();
    let mut shown = BTreeSet::new();
    // A stack of our own: chains may be as long as the ledger.
    let mut open = vec![(0_usize, path)];
    while let Some((depth, path)) = open.pop() {
        let dimension = ledger.find(path)?;
        let inputs = dimension.origin.inputs();
        let again = !inputs.is_empty() && !shown.insert(path);
        let origin = if again { "shown above".into() } else { dimension.origin.to_string() };
        lines.push(format!("{}{path} = {dimension}: {origin}\n", "  ".repeat(depth)));
        if !again {
            open.extend(inputs.iter().rev().map(|input| (depth + 1, input.as_str())));
        }
    }
    Ok(lines.concat())
}

#[cfg(test)]
mod tests {
    use super::super::dimension::Unit::{Millimetre, SquareMillimetre};
    use super::*;

    #[test]
    fn the_tree_goes_down_to_the_givens_and_repeats_no_chain() {
        let mut l = Ledger::new();
        l.given("bore", 20.0, Millimetre, "fan.toml:3").unwrap();
        l.standard("thread", 4.0, Millimetre, "ISO 262", "M4").unwrap();
        l.rule("wall", 2.0, Millimetre, ("bore / 10", "common practice"), &["bore"]).unwrap();
        l.rule("outer", 24.0, Millimetre, "bore + 2 wall", &["bore", "wall"]).unwrap();
        l.solved("flange", 40.0, Millimetre, "bolt stress", 1e-7, &["outer", "thread", "wall"]).unwrap();
        l.given("unused", 1.0, SquareMillimetre, "fan.toml:4").unwrap();
        let expected = "\
flange = 40 mm: solved for bolt stress, off by 1.000e-7
  outer = 24 mm: rule: bore + 2 wall
    bore = 20 mm: given (fan.toml:3)
    wall = 2 mm: rule: bore / 10 [common practice]
      bore = 20 mm: given (fan.toml:3)
  thread = 4 mm: standard ISO 262, M4
  wall = 2 mm: shown above
";
        assert_eq!(l.why("flange").unwrap(), expected);
        assert!(l.why("flang").unwrap_err().to_string().contains("did you mean flange?"));
    }

    #[test]
    fn a_very_long_or_very_knotted_chain_stays_small() {
        let mut l = Ledger::new();
        l.given("d0", 1.0, Millimetre, "--set").unwrap();
        for i in 1..2_000 {
            let below = format!("d{}", i - 1);
            l.rule(&format!("d{i}"), 1.0, Millimetre, "twice below", &[&below, &below]).unwrap();
        }
        assert_eq!(l.why("d300").unwrap().lines().count(), 601);
        assert!(tree(&l, "d1999").is_ok());
    }
}
