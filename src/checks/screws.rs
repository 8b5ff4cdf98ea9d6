//! Screws: long enough, not too long, and can screw and tool get there?
//!
//! Reach is measured on the metal of the parts that are there already when the screw is put in: a column as wide as the head
//! is followed from its seat until it meets metal.

use crate::parts::fastening::{Fastening, Hole, Tool, inside};
use crate::parts::part::{Instance, PartSet};
use crate::shape::metal::Metal;
use crate::shape::{InnerSpace, Point3, Vector3};
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit::Millimetre;
use crate::sizing::strength::engagement::wanted_over_d;
use std::f64::consts::TAU;

/// Least engagement borne, as a share of what is wanted (common practice, no source).
const ENGAGED: f64 = 0.7;
/// Turns of thread of a hose fitting, wanted and least: it carries no load but the hose (common practice, no source).
const FITTING_TURNS: [f64; 2] = [4.0, 3.0];
/// Full thread left beyond the end of a screw, wanted and least \[mm\] (common practice, no source).
const SPARE_MM: [f64; 2] = [0.5, 0.0];
/// How far one looks \[mm\].
const LOOK_MM: f64 = 100.0;
/// Stride of the look \[mm\].
const STRIDE_MM: f64 = 0.5;
/// Directions around the head.
const AROUND: usize = 12;
/// Way for a spanner over a nut, in screw diameters, and for a fitting with its hose \[mm\]; wanted and least (common
/// practice, no source).
const SPANNER_OVER_D: [f64; 2] = [3.0, 2.0];
const HOSE_MM: [f64; 2] = [40.0, 25.0];

/// All checks of screws.
pub fn check(set: &PartSet) -> Vec<Check> {
    let metals = metals(set);
    set.screws.iter().flat_map(|f| of_joint(f, &metals)).collect()
}

/// Instances with their metal.
fn metals(set: &PartSet) -> Vec<(&Instance, Metal)> {
    let of = |i: &'_ Instance| set.parts.iter().find(|p| p.name == i.part)?.recipe.as_ref().map(Metal::of);
    set.instances.iter().filter_map(|i| Some((i, of(i)?))).collect()
}

fn of_joint(f: &Fastening, metals: &[(&Instance, Metal)]) -> Vec<Check> {
    let words = f.joint.replace('-', " ");
    let told = |check: Check| check.at(f.path).of(&[&f.threaded]);
    let mut all = vec![told(engaged(f, &words))];
    all.extend(spare(f, &words).map(told));
    let free = f.seats.iter().map(|seat| free_mm(f, *seat, metals)).fold(LOOK_MM, f64::min);
    let (needs, what, source) = needs(f);
    let what = format!("{words}: free way over {what}, up to {LOOK_MM} mm looked at");
    all.push(told(
        Check::at_least(&format!("{}-reach", f.joint), &what, free, Millimetre, needs[0], needs[1])
            .source(source)
            .hint("a shorter screw, or more way between the parts"),
    ));
    all
}

/// Thread engaged.
fn engaged(f: &Fastening, words: &str) -> Check {
    let beyond = f.length_mm - f.grip_mm;
    let mm = match f.hole {
        Hole::Blind(depth) => beyond.min(depth),
        Hole::Through { thick, .. } => beyond.min(thick),
    };
    let t = &f.thread;
    let (wanted, least, source) = if f.tool == Tool::Fitting {
        let turns = FITTING_TURNS.map(|n| n * t.pitch_mm);
        (turns[0], turns[1], "4 turns of a fitting; common practice, no source")
    } else {
        let d = wanted_over_d(&f.metal) * t.major_mm;
        (
            d,
            ENGAGED * d,
            "1 d in steel, 1.5 d in iron and brass, 2 d in aluminium; common practice, no source",
        )
    };
    let what = format!("{words}: thread engaged in the {}", f.threaded.replace('-', " "));
    Check::at_least(&format!("{}-engagement", f.joint), &what, mm, Millimetre, wanted, least)
        .source(source)
        .hint("a longer screw, and thread as deep")
}

/// What is left before the screw's end meets the end of the thread, or metal behind it.
fn spare(f: &Fastening, words: &str) -> Option<Check> {
    let beyond = f.length_mm - f.grip_mm;
    let left = match f.hole {
        // a stud is meant to go to the end
        Hole::Blind(_) if f.tool == Tool::Spanner => return None,
        Hole::Blind(depth) => depth - beyond,
        Hole::Through { thick, behind } => thick + behind - beyond,
    };
    let what = format!("{words}: way left beyond the screw's end");
    let check =
        Check::at_least(&format!("{}-screw-end", f.joint), &what, left, Millimetre, SPARE_MM[0], SPARE_MM[1])
            .source("a screw that bottoms does not clamp; 0.5 mm common practice, no source")
            .hint("a shorter screw, or a deeper hole");
    Some(check)
}

/// Way needed over the seat, wanted and least \[mm\], what for, and who says so.
fn needs(f: &Fastening) -> ([f64; 2], &'static str, &'static str) {
    let t = &f.thread;
    match f.tool {
        Tool::Key => {
            let goes_in = f.length_mm + t.high_mm;
            let source = "length and head; short arm of the key, ISO 2936, from memory";
            ([goes_in.max(t.key_way_mm), goes_in], "the seat for screw and key", source)
        }
        Tool::Spanner => {
            let over = SPANNER_OVER_D.map(|n| n * t.major_mm);
            (over, "the seat of the nut for a spanner", "3 d, common practice, no source")
        }
        Tool::Fitting => (HOSE_MM, "the port for fitting and hose", "40 mm, common practice, no source"),
    }
}

/// Free way over a seat \[mm\].
fn free_mm(f: &Fastening, seat: Point3, metals: &[(&Instance, Metal)]) -> f64 {
    let there: Vec<_> = metals.iter().filter(|(i, _)| f.among.contains(&i.name)).collect();
    let radius = 0.5 * f.thread.head_mm;
    // between the strides: faces of parts lie on whole and half millimetres
    let strides = (0..).map(|i| (f64::from(i) + 0.5) * STRIDE_MM).take_while(|mm| *mm <= LOOK_MM);
    let blocked = |mm: &f64| {
        let middle = seat + f.out * *mm;
        ring(middle, f.out, radius).any(|p| there.iter().any(|(i, metal)| metal.contains(inside(i, p))))
    };
    strides.into_iter().find(blocked).map_or(LOOK_MM, |mm| mm - 0.5 * STRIDE_MM)
}

/// Points around a middle, and the middle.
fn ring(middle: Point3, out: Vector3, radius: f64) -> impl Iterator<Item = Point3> {
    let helper = if out.x.abs() > 0.9 { Vector3::new(0.0, 1.0, 0.0) } else { Vector3::new(1.0, 0.0, 0.0) };
    let x = out.cross(helper).normalize();
    let y = out.cross(x);
    let around = (0..AROUND).map(move |i| {
        let (sin, cos) = (i as f64 * TAU / AROUND as f64).sin_cos();
        middle + (x * cos + y * sin) * radius
    });
    around.chain([middle])
}
