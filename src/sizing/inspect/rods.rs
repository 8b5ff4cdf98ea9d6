//! Piston rod and displacer rod: bending by the side force below their guide, buckling, thread.

use super::case::{Case, LineTurn};
use super::crank::buckling;
use super::metal::{TO_AND_FRO, alternating_pa, cracking_pa, yield_pa, youngs_pa};
use crate::catalogue::threads::Thread;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::layouts::below_piston_kg;
use crate::sizing::layouts::common::warm::ROD;
use crate::sizing::mechanism::Line;
use crate::sizing::strength::buckling::Column;
use crate::sizing::strength::engagement::strip_n;
use crate::sizing::strength::{MPA, pin};

/// Fixity of a rod that is held at its guide and free to move aside at the clevis.
const ONE_END: f64 = 0.25;

/// Thread engaged at the ends of a rod, in diameters.
const ENGAGED_OVER_D: f64 = 1.5;
/// Load that strips a thread over the load, wanted and least: it goes to and fro (common practice, no source).
const STRIP: [f64; 2] = [6.0, 4.0];

/// All checks of both rods.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    let Some(m) = &case.mechanism else { return Vec::new() };
    let mut lines = case.lines();
    // a yoke takes the place of the piston's rod
    lines.retain(|l| l.which != "piston" || below_piston_kg(case.engine).is_none());
    let of = |l: &LineTurn<'_>| rod(case, l, if l.which == "piston" { &m.piston } else { &m.displacer });
    lines.iter().flat_map(of).collect()
}

fn rod(case: &Case<'_>, l: &LineTurn<'_>, line: &Line) -> Vec<Check> {
    let piston = l.which == "piston";
    let e = case.engine;
    let diameter = if piston { e.piston.rod_mm } else { e.displacer.rod_mm };
    let end = if piston { &e.drive.piston.rod_end } else { &e.drive.displacer.rod_end };
    let name = format!("{}-rod", l.which);
    let path = if piston { "piston.rod_diameter" } else { "displacer.rod_diameter" };
    let allowed = alternating_pa(case.book(), ROD, case.cold_c);
    let cracks = cracking_pa(case.book(), ROD, case.cold_c);
    let moment = l.most_with_way(|f, x| f.side_n * (line.guides.overhang_mm + x));
    let bent = pin::bending_pa(moment, diameter);
    let push = l.most(|f| f.axial_n).max(1e-9);
    let free = line.guides.overhang_mm + l.crank.throw_mm * 2.0;
    let column = Column::round(
        diameter,
        free,
        ONE_END,
        youngs_pa(case.book(), ROD, case.cold_c),
        yield_pa(case.book(), ROD, case.cold_c),
    );
    let thread_pa = push / end.thread.stress_area_mm2 * MPA;
    let stress = |check: &str, what: String, value: f64| {
        Check::at_most(&format!("{name}-{check}"), &what, value, Unit::Pascal, allowed, cracks)
            .source(&format!("beam theory, Shigley ch. 3; {TO_AND_FRO}"))
            .at(path)
            .of(&[&name])
            .hint("a thicker rod, or a longer con rod")
    };
    vec![
        stress("bending", format!("bending of the {} rod below its guide by the side force", l.which), bent),
        buckling(
            &format!("{name}-buckling"),
            &format!("load that buckles the {} rod below its guide over the greatest push", l.which),
            column.critical_n() / push,
        )
        .at(path)
        .of(&[&name]),
        strip(case, l, end.thread, push),
        stress("thread", format!("push and pull in the thread of the {} rod", l.which), thread_pa),
    ]
}

/// Thread of a rod in its piston or base against the greatest push and pull: what strips it over what it carries.
fn strip(case: &Case<'_>, l: &LineTurn<'_>, thread: &Thread, push_n: f64) -> Check {
    let (piston, e) = (l.which == "piston", case.engine);
    let clevis_n = strip_n(
        thread,
        ENGAGED_OVER_D * thread.major_mm,
        yield_pa(case.book(), &e.drive.material, case.cold_c) / MPA,
    );
    let boss_n = strip_n(
        thread,
        ENGAGED_OVER_D * thread.major_mm,
        yield_pa(case.book(), &e.piston.material, case.cold_c) / MPA,
    );
    let holds = if piston { clevis_n.min(boss_n) } else { clevis_n };
    let what = format!("what strips the thread of the {} rod over its greatest push and pull", l.which);
    Check::at_least(
        &format!("{}-rod-strip", l.which),
        &what,
        (holds / push_n).min(1e4),
        Unit::Ratio,
        STRIP[0],
        STRIP[1],
    )
    .source("shear area of the thread, FED-STD-H28, from memory; factors common practice, no source")
    .at(if piston { "piston.rod_diameter" } else { "displacer.rod_diameter" })
    .of(if piston { &["piston", "clevis"] } else { &["clevis"] })
    .hint("a thicker rod has a larger thread")
}
