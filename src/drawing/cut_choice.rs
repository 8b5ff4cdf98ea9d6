//! Where a plate is cut: in the plane that shows most of what the front view cannot, with steps to further planes where
//! these show enough more, seen from the side on which more of the part is left.

use super::bore;
use super::cut::{Cut, FAR, Step, in_front};
use super::face::is_through;
use super::group::{Group, Way};
use crate::shape::loops::Loop;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Feature, Kind};

/// What a step must show more than the cut without it (in the units of [`worth_of`]).
const STEP_WORTH: f64 = 3.0;
/// Most steps of one cut.
const MOST_STEPS: usize = 2;
/// Metal left on either side of a step beside what is cut there \[mm\].
const STEP_AIR: f64 = 1.0;
/// How many times as long as thick a boss is a shaft (common practice, no source).
const SHAFT: f64 = 1.5;
/// Seen the other way when less than this share of the plate would be left (common practice, no source).
const LITTLE: f64 = 0.35;

/// The cut that shows most, if any shows something worth a second view. A wide plate is cut level, a tall one upright, when
/// both show as much. One that is `wanted` is there in any case.
pub fn choose(groups: &[Group], outline: &Loop, wanted: bool) -> Option<Cut> {
    let (low, high) = outline.bounds();
    let wide = high.x - low.x >= high.y - low.y;
    let better = |c: &Cut| {
        let off: f64 = c.steps.iter().map(|s| s.at.abs()).sum();
        worth(c, groups) + if c.level == wide { 0.2 } else { 0.0 } - off * 1e-4
    };
    let best = planes(groups).into_iter().max_by(|a, b| better(a).total_cmp(&better(b)))?;
    let needed = wanted || groups.iter().any(|g| worth_of(g) > 1.0);
    needed.then(|| facing(stepped(best, groups, outline), outline))
}

/// How the second view of a plate shows its inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// Seen from outside: the cut would open nothing.
    Outside,
    /// Cut right across, in steps if need be.
    Section,
    /// One half cut, the other seen from outside: for what is the same on both sides, where its outside counts too.
    Half,
    /// Seen from outside with its holes broken open: shafts are not cut along their axis (ISO 128-3).
    Broken,
}

/// How a plate with this cut is shown; a half section keeps but one half of the cut.
pub fn manner(cut: &mut Cut, outline: &Outline, thickness: f64, groups: &[Group]) -> Manner {
    let (sections, shown) = cut.sections(&outline.boundary(), thickness, groups);
    if !sections.iter().flat_map(|s| &s.shapes).any(|s| !s.adds) {
        return Manner::Outside;
    }
    let holes = shown.iter().filter(|f| matches!(groups[f.group].first().kind, Kind::Bore { .. }));
    let holes: Vec<f64> = holes.map(|f| if cut.level { f.axis.origin.x } else { f.axis.origin.y }).collect();
    if cut.steps == [Step::whole(0.0)] && has_rim(outline, groups) {
        let half = [(0.0, FAR), (-FAR, 0.0)].map(|(from, to)| Step { at: 0.0, from, to });
        if let Some(step) = half.into_iter().find(|s| holes.iter().all(|h| s.holds(*h))) {
            cut.steps = vec![step];
            return Manner::Half;
        }
    }
    match groups.iter().any(|g| is_shaft(g, groups)) {
        true => Manner::Broken,
        false => Manner::Section,
    }
}

/// Whether a disc has a rim that is not round: teeth, which only the outside shows.
fn has_rim(outline: &Outline, groups: &[Group]) -> bool {
    let central = |p: f64, q: f64| p.hypot(q) < 1e-9;
    let is_rim = |g: &Group| {
        let o = g.first().axis.origin;
        matches!(g.first().kind, Kind::Pad { .. }) && g.members.len() == 1 && central(o.x, o.y)
    };
    matches!(outline, Outline::Disc { centre, .. } if central(centre.x, centre.y))
        && groups.iter().any(is_rim)
}

/// Whether a boss is a shaft: longer than thick, and not bored out.
fn is_shaft(group: &Group, groups: &[Group]) -> bool {
    let Kind::Boss { chain } = &group.first().kind else { return false };
    let long = bore::deepest(chain);
    let o = group.first().axis.origin;
    let bored = groups.iter().flat_map(|g| &g.members).any(|m| match &m.kind {
        Kind::Bore { chain, .. } => {
            let p = m.axis.origin;
            (p.x - o.x).hypot(p.y - o.y) < 1e-6 && bore::deepest(chain) > long / 2.0
        }
        _ => false,
    });
    long > SHAFT * 2.0 * bore::widest(chain) && !bored
}

/// All planes through the axis of a feature.
fn planes(groups: &[Group]) -> Vec<Cut> {
    let mut planes: Vec<Cut> = Vec::new();
    for member in groups.iter().flat_map(|g| &g.members) {
        let o = member.axis.origin;
        for cut in [Cut::plain(true, o.y), Cut::plain(false, o.x)] {
            if !planes.contains(&cut) {
                planes.push(cut);
            }
        }
    }
    planes
}

/// The cut with the steps that show enough more.
fn stepped(mut cut: Cut, groups: &[Group], outline: &Loop) -> Cut {
    for _ in 0..MOST_STEPS {
        let now = worth(&cut, groups);
        let best = further(&cut, groups, outline)
            .into_iter()
            .map(|c| (worth(&c, groups), c))
            .filter(|(worth, _)| *worth >= now + STEP_WORTH)
            .reduce(|a, b| if b.0 > a.0 + 1e-9 { b } else { a });
        match best {
            Some((_, better)) => cut = better,
            None => break,
        }
    }
    cut
}

/// The cut with one step more, to any plane, at any place between features.
fn further(cut: &Cut, groups: &[Group], outline: &Loop) -> Vec<Cut> {
    let mut found = Vec::new();
    for plane in planes(groups).into_iter().filter(|p| p.level == cut.level) {
        let at = plane.steps[0].at;
        for (near, border) in [(&cut.steps[0], false), (&cut.steps[cut.steps.len() - 1], true)] {
            if (near.at - at).abs() < 1e-6 {
                continue;
            }
            let places = borders(cut, near, &Step::whole(at), groups, outline);
            found
                .extend(places.into_iter().filter(|b| near.holds(*b)).map(|b| with_step(cut, at, b, border)));
        }
    }
    found
}

/// The cut with a further plane before or after the others, from the border \[mm\].
fn with_step(cut: &Cut, at: f64, border: f64, after: bool) -> Cut {
    let mut steps = cut.steps.clone();
    if after {
        steps.iter_mut().last().into_iter().for_each(|last| last.to = border);
        steps.push(Step { at, from: border, to: FAR });
    } else {
        steps[0].from = border;
        steps.insert(0, Step { at, from: -FAR, to: border });
    }
    Cut { steps, ..cut.clone() }
}

/// Places along the cut at which one may step from plane to plane: in the middle of metal that neither has anything to show
/// in, with some air.
fn borders(cut: &Cut, a: &Step, b: &Step, groups: &[Group], outline: &Loop) -> Vec<f64> {
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for f in groups.iter().flat_map(|g| &g.members) {
        let near = [a, b].iter().any(|step| (cut.across(f.axis.origin) - step.at).abs() < reach(f));
        if near || f.axis.direction.z.abs() < 0.5 {
            let (low, high) = extent(cut, f);
            taken.push((low - STEP_AIR, high + STEP_AIR));
        }
    }
    taken.sort_by(|x, y| x.0.total_cmp(&y.0));
    let runs = [a, b].map(|step| cut.runs(step, outline));
    let metal = |p: f64| runs.iter().all(|list| list.iter().any(|r| r.0 < p && p < r.1));
    let mut found = Vec::new();
    let mut end = f64::NEG_INFINITY;
    for (low, high) in taken {
        if end.is_finite() && low > end {
            found.push((end + low) / 2.0);
        }
        end = end.max(high);
    }
    found.retain(|p| metal(*p));
    found
}

/// How far a feature reaches across its axis \[mm\].
fn reach(f: &Feature) -> f64 {
    match &f.kind {
        Kind::Bore { chain, .. } | Kind::Boss { chain } => bore::widest(chain),
        Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => {
            let (low, high) = outline.bounds();
            [low.x, low.y, high.x, high.y].into_iter().fold(0.0, |far, v| v.abs().max(far))
        }
    }
}

/// From where to where a feature lies along the cut \[mm\].
fn extent(cut: &Cut, f: &Feature) -> (f64, f64) {
    let r = reach(f);
    let deep = bore::turned(f).map_or(0.0, |(chain, ..)| bore::deepest(chain));
    let (from, to) = (cut.along(f.axis.origin), cut.along(f.axis.origin + f.axis.direction * deep));
    (from.min(to) - r, from.max(to) + r)
}

/// How much a cut shows that the front view cannot.
fn worth(cut: &Cut, groups: &[Group]) -> f64 {
    groups.iter().filter(|g| is_met(cut, g)).map(worth_of).sum()
}

/// Whether a cut shows a member of a group.
fn is_met(cut: &Cut, group: &Group) -> bool {
    let met = group.members.iter().any(|m| {
        let d = cut.direction(m.axis.direction);
        (d.x.hypot(d.y) - 1.0).abs() < 1e-9 && cut.distance(m.axis.origin) < 1e-6
    });
    let crossed = |m: &&Feature| match &m.kind {
        Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => cut
            .steps
            .iter()
            .any(|step| cut.runs(step, &in_front(m, outline)).iter().any(|r| step.holds((r.0 + r.1) / 2.0))),
        _ => false,
    };
    met || group.members.iter().any(crossed)
}

/// How much a group gains from being cut.
fn worth_of(group: &Group) -> f64 {
    let plain = matches!(&group.first().kind, Kind::Bore { chain, .. } if chain.len() == 2 && is_through(group.first()));
    let boss = matches!(group.first().kind, Kind::Boss { .. });
    match (boss, plain, group.way) {
        (true, ..) => 10.0,
        (_, true, Way::Up | Way::Down) => 0.5,
        (_, true, Way::Across) => 1.2,
        _ => 4.0 + bore::turned(group.first()).map_or(1.0, |(chain, ..)| bore::widest(chain) * 0.05),
    }
}

/// The cut seen from the side on which enough of the plate is left behind it.
fn facing(cut: Cut, outline: &Loop) -> Cut {
    let (low, high) = outline.bounds();
    let ((from, to), (near, far)) =
        if cut.level { ((low.x, high.x), (low.y, high.y)) } else { ((low.y, high.y), (low.x, high.x)) };
    let behind = |s: &Step| {
        let long = s.to.min(to) - s.from.max(from);
        let share = (s.at - near) / (far - near);
        // a level cut is seen from above and leaves what lies lower, an upright one from the left
        long * if cut.level { share } else { 1.0 - share }
    };
    let left: f64 = cut.steps.iter().map(behind).sum::<f64>() / (to - from);
    Cut { far: left < LITTLE, ..cut }
}
