//! Whether a part that was made can stay, be reworked, or must be made again.
//!
//! The judgement is on the safe side: a part is only said to be reworkable when it is certain that metal
//! only comes off, and only kept when every part made to the old sizes passes the new ones.

use super::geometry;
use super::holes::Hole;
use super::manifest::{Allowed, Dimension, PartEntry};
use super::metal_off::MetalOff;

/// Two lengths \[mm\], areas \[mm²\] or volumes \[mm³\] this close are the same; the manifest holds nine
/// decimals, and readers of decimal text may err in the last digit.
const SAME: f64 = 1e-7;

/// What becomes of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// It can stay as it is.
    Keep,
    /// Metal only comes off.
    Rework,
    /// It must be made, or bought, anew.
    Remake,
}

/// The verdict on a part that is in both sets.
pub fn verdict(old: &PartEntry, new: &PartEntry) -> Verdict {
    let same_kind = old.material == new.material
        && old.make_or_buy == new.make_or_buy
        && old.designation == new.designation;
    let same_names = old.dimensions.len() == new.dimensions.len()
        && old.dimensions.iter().zip(&new.dimensions).all(|(a, b)| a.name == b.name && a.unit == b.unit);
    if !same_kind || !same_names {
        return Verdict::Remake;
    }
    if geometry::tightened(&old.controls, &new.controls) {
        return Verdict::Remake;
    }
    let pairs = || old.dimensions.iter().zip(&new.dimensions);
    let sizes = pairs().map(|(a, b)| size_verdict(a, b)).max().unwrap_or(Verdict::Keep);
    let moved = pairs().any(|(a, b)| !near(a.value, b.value));
    match (moved, same_shape(old, new)) {
        (false, true) => sizes,
        // The shape changed in a way that no named size tells.
        (false, false) => Verdict::Remake,
        (true, _) if only_less(old, new) => sizes.max(Verdict::Rework),
        (true, _) => Verdict::Remake,
    }
}

/// The verdict on one size, from the limits within which the old part lies and the new one must.
fn size_verdict(old: &Dimension, new: &Dimension) -> Verdict {
    if near(old.value, new.value) && old.tolerance == new.tolerance {
        return Verdict::Keep;
    }
    let (Some([low, high]), Some([new_low, new_high])) = (limits(old), limits(new)) else {
        return Verdict::Remake;
    };
    if low >= new_low - SAME && high <= new_high + SAME {
        return Verdict::Keep;
    }
    match new.metal_off.filter(|_| old.metal_off == new.metal_off) {
        Some(MetalOff::Larger) if high <= new_high + SAME => Verdict::Rework,
        Some(MetalOff::Smaller) if low >= new_low - SAME => Verdict::Rework,
        _ => Verdict::Remake,
    }
}

/// Least and greatest allowed value \[mm\]; none for angles and counts.
fn limits(d: &Dimension) -> Option<[f64; 2]> {
    if d.unit != "mm" {
        return None;
    }
    let (upper, lower) = match d.tolerance {
        Allowed::Fit { upper, lower, .. } | Allowed::Limits { upper, lower } => (upper, lower),
        Allowed::General => general(d.value).map(|g| (g, -g))?,
    };
    Some([d.value + lower, d.value + upper])
}

/// General tolerance \[mm\] of ISO 2768-1:1989, table 1, class m; none beyond its range.
fn general(size_mm: f64) -> Option<f64> {
    let table = [(6.0, 0.1), (30.0, 0.2), (120.0, 0.3), (400.0, 0.5), (1000.0, 0.8), (2000.0, 1.2)];
    table.iter().find(|(up_to, _)| (0.5..=*up_to).contains(&size_mm)).map(|(_, t)| *t)
}

/// Whether all that is measured says that the new part is the old one with metal off: same kinds of faces,
/// no corner further out, less volume, no hole moved, fewer or narrower.
fn only_less(old: &PartEntry, new: &PartEntry) -> bool {
    let (Some(a), Some(b)) = (old.bounding_box_mm, new.bounding_box_mm) else { return false };
    let inside = (0..3).all(|i| b[0][i] >= a[0][i] - SAME && b[1][i] <= a[1][i] + SAME);
    let less = match (old.volume_mm3, new.volume_mm3) {
        (Some(a), Some(b)) => b < a,
        _ => false,
    };
    let in_place = |(a, b): (&Hole, &Hole)| {
        a.group == b.group
            && near_all(&a.at_mm, &b.at_mm)
            && near_all(&a.direction, &b.direction)
            && b.diameter_mm >= a.diameter_mm - SAME
            && a.thread == b.thread
    };
    let holes = old.holes.len() == new.holes.len() && old.holes.iter().zip(&new.holes).all(in_place);
    old.faces == new.faces && inside && less && holes
}

/// Whether everything measured on the two parts is the same.
pub(super) fn same_shape(old: &PartEntry, new: &PartEntry) -> bool {
    let same = |a: Option<f64>, b: Option<f64>| match (a, b) {
        (Some(a), Some(b)) => near(a, b),
        (a, b) => a == b,
    };
    let flat = |b: Option<[[f64; 3]; 2]>| b.map(|c| c.concat()).unwrap_or_default();
    let centre = |c: Option<[f64; 3]>| c.map(|c| c.to_vec()).unwrap_or_default();
    let hole = |(a, b): (&Hole, &Hole)| {
        (&a.group, &a.label, &a.thread) == (&b.group, &b.label, &b.thread)
            && near_all(&a.at_mm, &b.at_mm)
            && near_all(&a.direction, &b.direction)
            && near(a.diameter_mm, b.diameter_mm)
            && same(a.depth_mm, b.depth_mm)
            && near_all(&a.steps_mm.concat(), &b.steps_mm.concat())
    };
    same(old.volume_mm3, new.volume_mm3)
        && same(old.area_mm2, new.area_mm2)
        && near_all(&centre(old.centre_mm), &centre(new.centre_mm))
        && near_all(&flat(old.bounding_box_mm), &flat(new.bounding_box_mm))
        && old.faces == new.faces
        && old.holes.len() == new.holes.len()
        && old.holes.iter().zip(&new.holes).all(hole)
}

/// Whether two numbers are the same but for rounding, which grows with the number.
pub(super) fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME * a.abs().max(b.abs()).max(1.0)
}

/// Whether two lists of numbers are the same but for rounding.
fn near_all(a: &[f64], b: &[f64]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| near(*a, *b))
}
