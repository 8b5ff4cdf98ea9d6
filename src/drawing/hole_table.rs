//! Labels at holes and rows of the hole table: X and Y of each hole from the datum of the part.

use super::board::{Frame, Label};
use super::bore;
use super::callout::Row;
use super::group::Group;
use super::lettering;
use super::pocket;
use super::texts;
use super::views::{HoleRow, Views};
use crate::shape::Point2;
use crate::shape::letters::written;
use crate::shape::loops::polar;
use crate::shape::recipe::{Kind, Place};

/// How far from its hole a label may stand that could be left out, and one that could not \[mm\].
const NEAR: u32 = 4;
const FAR: u32 = 30;
/// Height of labels at holes \[mm\].
const LABEL: f64 = 2.5;

/// Labels the members of a group in a view and adds their rows. Members on a circle, whose place the
/// call-out tells, and those whose place is told `elsewhere` have their X and Y in brackets, as auxiliary dimensions
/// (ISO 129-1).
pub fn add(
    views: &mut Views,
    group: &Group,
    at: &dyn Fn(Point2) -> Point2,
    factor: f64,
    elsewhere: &dyn Fn(Point2) -> bool,
) {
    let on_circle = matches!(group.first().place, Place::Circle { .. });
    let single = group.members.len() == 1;
    for (i, member) in group.members.iter().enumerate() {
        let label = written(&(group.letter.clone(), (!single).then_some(i + 1)));
        let Point2 { x, y } = pocket::place(member);
        let auxiliary = on_circle || elsewhere(Point2::new(x, y));
        let write = |v: f64| match auxiliary {
            true => format!("({})", texts::plain(hundredths(v))),
            false => texts::plain(v),
        };
        let stem = if single { group.name.to_owned() } else { format!("{}-{}", group.name, i + 1) };
        let names = if auxiliary { Vec::new() } else { vec![format!("{stem}-x"), format!("{stem}-y")] };
        views.holes.push(HoleRow::Member(label.clone(), write(x), write(y), names, false));
        if i == 0 {
            views.sizes.extend(pocket::corners(member));
        }
        let (centre, clear) = (at(Point2::new(x, y)), radius(&member.kind) * factor);
        // the call-out tells the places of these: a label that would stand away from its hole is worse than none
        if !near(views, &label, centre, clear, if on_circle { NEAR } else { FAR }) && !on_circle {
            views.homeless.push(Row::new(label, &[]));
        }
    }
}

/// Radius that a label keeps clear of \[mm of the part\].
fn radius(kind: &Kind) -> f64 {
    match kind {
        Kind::Bore { chain, .. } | Kind::Boss { chain } => bore::widest(chain),
        Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => {
            let (low, high) = outline.bounds();
            (high.x - low.x).max(high.y - low.y) / 2.0
        }
    }
}

/// Rounded as an auxiliary dimension is written.
fn hundredths(v: f64) -> f64 {
    (v * 100.0).round() / 100.0
}

/// Writes a label near a hole where there is room for it.
pub fn mark(views: &mut Views, text: &str, centre: Point2, radius: f64) {
    if !near(views, text, centre, radius, FAR) {
        views.homeless.push(Row::new(text, &[]));
    }
}

/// Writes the letter of a group at a hole in a section, if it has room there.
pub fn mark_cut(views: &mut Views, text: &str, mouth: Point2) {
    near(views, text, mouth, 0.5, NEAR);
}

/// Writes a label within `reach` \[mm\] of the rim of a hole, if it has room there.
fn near(views: &mut Views, text: &str, centre: Point2, radius: f64, reach: u32) -> bool {
    let width = lettering::width(text, LABEL);
    let place = |distance: f64, turn: f64| {
        let p = polar(centre, distance, turn);
        Label::level(text, p.x - width / 2.0, p.y - LABEL / 2.0, LABEL)
    };
    let rings = (0..reach).map(|i| radius + 2.2 + f64::from(i));
    let spots = rings.flat_map(|d| (0..16).map(move |i| (d, f64::from(i) * 22.5 + 40.0)));
    for (distance, degrees) in spots {
        let label = place(distance, degrees.to_radians());
        let frame: Frame = label.frame();
        if views.board.is_free(&frame) {
            views.board.write(label);
            return true;
        }
    }
    false
}
