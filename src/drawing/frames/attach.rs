//! Places what hangs below no call-out: searches around every hook for room that nothing covers.

use super::Item;
use super::hooks::{Hook, of_cylinder, of_dimension, of_face};
use super::stack::{self, HIGH, Under};
use crate::drawing::board::{ARROW, Board, Frame};
use crate::drawing::callout::{Row, cheapest, growth};
use crate::drawing::pen::Pen;
use crate::drawing::views::Views;
use crate::shape::{InnerSpace, Point2, Vector2};

/// Shortest leader and step of its length \[mm\].
const LEADER: [f64; 2] = [5.0, 1.5];
/// How many lengths are tried.
const LENGTHS: usize = 60;
/// Level piece between an upright leader and its frame \[mm\].
const SHELF: f64 = 2.5;
/// What standing inside a view costs \[mm of leader\].
const INSIDE: f64 = 70.0;
/// How many places with room are looked at more closely.
const TRIED: usize = 200;

/// A place for an item.
struct Spot {
    hook: Hook,
    /// Where the leader turns; the end of it for a level one.
    knee: Point2,
    /// Where it meets the frame.
    end: Point2,
    /// What is covered.
    room: Frame,
}

/// Places everything that is still to be told; what finds no room is told in the list of the homeless.
pub fn finish(views: &mut Views) {
    for item in std::mem::take(&mut views.frames).items {
        if !place(&mut views.board, &item) {
            let row = |under: &Under| Row::new(under.text(), &[under.tells()]);
            views.homeless.extend(item.stack.iter().map(row));
        }
    }
}

/// Places what stands in line with dimension lines, before call-outs take the room around them.
pub fn settle(views: &mut Views) {
    let board = &mut views.board;
    let told = |board: &Board, item: &Item| {
        board.dimensions.iter().any(|d| d.sizes.contains(&item.name)) && item.is_axis()
    };
    views.frames.items.retain(|item| !(told(board, item) && place(board, item)));
}

/// Places an item; says whether there was room.
fn place(board: &mut Board, item: &Item) -> bool {
    let hooks = match (item.is_axis(), item.of_surface) {
        (true, false) => of_dimension(board, &item.name),
        (true, true) => item.spots.iter().flat_map(|s| of_cylinder(board, s)).collect(),
        (false, _) => item.spots.iter().flat_map(|s| of_face(board, s, &item.openings)).collect(),
    };
    let Some(spot) = search(board, &hooks, &item.stack) else { return false };
    draw(board, &item.stack, &spot);
    true
}

/// The cheapest place with room.
fn search(board: &Board, hooks: &[Hook], what: &[Under]) -> Option<Spot> {
    let bounds = board.bounds();
    let looks: Vec<Frame> = (0..board.views.len()).map(|i| board.view_frame(i)).collect();
    let mut all: Vec<(f64, Spot)> = hooks.iter().flat_map(|h| around(*h, what)).collect();
    for (cost, spot) in &mut all {
        let inside = looks.iter().any(|f| f.overlaps(&spot.room));
        *cost += growth(&bounds, &spot.room) + if inside { INSIDE } else { 0.0 };
    }
    let crossed = |spot: &Spot| {
        let shy = spot.hook.from + spot.hook.out * 0.2;
        board.crossings(shy, spot.knee) + board.crossings(spot.knee, spot.end)
    };
    cheapest(all, TRIED, &|spot| is_open(board, spot), &crossed).map(|(_, spot)| spot)
}

/// Places around a hook with their costs.
fn around(hook: Hook, what: &[Under]) -> Vec<(f64, Spot)> {
    let lengths = (0..LENGTHS).map(|i| LEADER[0] + LEADER[1] * i as f64);
    lengths.flat_map(|long| at(hook, long, what)).collect()
}

/// Places with a leader of one length.
fn at(hook: Hook, long: f64, what: &[Under]) -> Vec<(f64, Spot)> {
    let knee = hook.from + hook.out * long;
    if let [Under::Datum(_)] = what {
        let away = (knee - hook.at).dot(hook.out);
        let room = stack::standing_frame(hook.at, hook.out, away);
        return vec![(long, Spot { hook, knee, end: knee, room })];
    }
    let size = stack::size(what);
    let room = |end: Point2, right: bool| {
        let low = if right { end.x } else { end.x - size.x };
        Frame::new(low, end.y + HIGH / 2.0 - size.y, size.x, size.y)
    };
    if hook.out.y.abs() < hook.out.x.abs() {
        return vec![(long, Spot { hook, knee, end: knee, room: room(knee, hook.out.x > 0.0) })];
    }
    let side = |right: bool| {
        let end = knee + Vector2::new(if right { SHELF } else { -SHELF }, 0.0);
        (long + SHELF, Spot { hook, knee, end, room: room(end, right) })
    };
    vec![side(true), side(false)]
}

/// Whether a place has room.
fn is_open(board: &Board, spot: &Spot) -> bool {
    board.is_clear(spot.hook.at, spot.knee)
        && board.is_clear(spot.knee, spot.end)
        && board.is_free(&spot.room)
}

/// Draws an item in its place.
fn draw(board: &mut Board, what: &[Under], spot: &Spot) {
    let hook = &spot.hook;
    if let [Under::Datum(letter)] = what {
        let away = (spot.knee - hook.at).dot(hook.out);
        return stack::standing(board, *letter, hook.at, hook.out, away);
    }
    board.line(Pen::Leader, hook.from, spot.knee);
    if (spot.end - spot.knee).magnitude() > 1e-6 {
        board.line(Pen::Leader, spot.knee, spot.end);
    }
    if (hook.from - hook.at).magnitude() < ARROW {
        board.arrow(hook.at, -hook.out);
    }
    stack::draw(board, what, Point2::new(spot.room.low.x, spot.room.high.y));
}
