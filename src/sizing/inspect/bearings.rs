//! Life and static safety of the ball bearings.

use super::case::{Case, LineTurn};
use crate::catalogue::bearings::BallBearing;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::layouts;
use crate::sizing::strength::bearing_life::{hours, static_safety};

/// Life wanted and least \[h\] (common practice, no source): some seasons of an engine that runs now and then.
const LIFE_H: [f64; 2] = [2000.0, 500.0];
/// Static safety wanted and least (makers' practice for quiet and for rough running, from memory).
const STATIC: [f64; 2] = [2.0, 1.0];
/// Lives beyond this are told as this \[h\].
const ENDLESS_H: f64 = 1e6;

/// One kind of bearing on one line: loads and turns of the bearing for each turn of the crank.
struct Loaded<'a> {
    name: &'static str,
    title: &'static str,
    path: &'static str,
    bearing: &'a BallBearing,
}

/// All checks of the bearings.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    let lines = case.lines();
    if lines.is_empty() {
        return Vec::new();
    }
    let d = &case.engine.drive;
    let kinds = [
        Loaded {
            name: "journal-bearing",
            title: "journal bearing",
            path: "drive.journal_bearing",
            bearing: &d.journal_bearing,
        },
        Loaded {
            name: "crankpin-bearing",
            title: "crankpin bearing",
            path: "drive.crankpin_bearing",
            bearing: &d.crankpin_bearing,
        },
        Loaded {
            name: "small-end-bearing",
            title: "small-end bearing",
            path: "drive.small_end_bearing",
            bearing: &d.small_end_bearing,
        },
    ];
    kinds.iter().flat_map(|k| of(case, k, &lines)).collect()
}

fn of(case: &Case<'_>, kind: &Loaded<'_>, lines: &[LineTurn<'_>]) -> [Check; 2] {
    let loads = |l: &LineTurn<'_>| -> Vec<f64> {
        let load = |f: &&crate::sizing::mechanism::LineForces| match kind.name {
            // both bearings' loads together stand for the nearer one: to the safe side
            "journal-bearing" => f.journals_n,
            "crankpin-bearing" => f.crankpin_n / l.abreast,
            _ => f.con_rod_n / l.abreast,
        };
        l.forces.iter().map(load).collect()
    };
    let turns = |l: &LineTurn<'_>| -> Vec<f64> {
        let rate = |a: &f64| match kind.name {
            "journal-bearing" => 1.0,
            "crankpin-bearing" => 1.0 + l.crank.con_rod_rate(*a),
            _ => l.crank.con_rod_rate(*a),
        };
        l.angles_rad.iter().map(rate).collect()
    };
    let b = kind.bearing;
    let mut all: Vec<(Vec<f64>, Vec<f64>)> = lines.iter().map(|l| (loads(l), turns(l))).collect();
    if kind.name == "journal-bearing" && layouts::one_shaft(case.engine) && all.len() == 2 {
        // one shaft for both lines: their loads are added as if they pulled the same way, to the safe side
        let (far, _) = all.remove(1);
        all[0].0.iter_mut().zip(far).for_each(|(near, far)| *near = near.abs() + far.abs());
    }
    let life = all.iter().map(|(loads, turns)| hours(b.dynamic_n, loads, turns, case.speed_rpm));
    let life = life.fold(ENDLESS_H, f64::min);
    let safe = all.iter().map(|(loads, _)| static_safety(b.static_n, loads)).fold(100.0, f64::min);
    let hint = "a bearing of the same bore and a heavier row";
    let told = |check: Check, source: &str| check.source(source).at(kind.path).of(&[kind.name]).hint(hint);
    [
        told(
            Check::at_least(
                &format!("{}-life", kind.name),
                &format!("life L10 of the {} {}", kind.title, b.designation),
                life,
                Unit::Hour,
                LIFE_H[0],
                LIFE_H[1],
            ),
            "ISO 281; hours wanted common practice, no source",
        ),
        told(
            Check::at_least(
                &format!("{}-static", kind.name),
                &format!("static safety of the {} {}", kind.title, b.designation),
                safe,
                Unit::Ratio,
                STATIC[0],
                STATIC[1],
            ),
            "ISO 76; factors makers' practice, from memory",
        ),
    ]
}
