//! Every check of a builder: those that need no drawing, from sizing, and those that look at the parts as drawn.

use super::{cutters, holes, screws};
use crate::design::Design;
use crate::parts::part::PartSet;
use crate::sizing::answer::Sized;
use crate::sizing::check::Check;
use crate::sizing::inspect::{self, moving};

/// All checks, in the order in which they are told.
pub fn checks(design: &Design, sized: &Sized, set: &PartSet, passing: &[moving::Passing]) -> Vec<Check> {
    let mut all = inspect::checks(design, &sized.engine, &sized.cycle, sized.gamma);
    all.extend(moving::checks(passing));
    all.extend(screws::check(set));
    all.extend(holes::check(set));
    all.extend(cutters::check(set, &design.workshop));
    all
}
