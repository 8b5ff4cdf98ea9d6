//! Balloons: the number of the parts list in a circle, with a leader to the part (ISO 6433).

use super::Piece;
use crate::drawing::board::{ARROW, Board, Frame, Label};
use crate::drawing::lettering;
use crate::drawing::pen::Pen;
use crate::drawing::views::Scale;
use crate::shape::loops::polar;
use crate::shape::{InnerSpace, Point2, Vector2};
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;

/// Diameter of a balloon and height of its number \[mm\] (ISO 6433: numbers larger than those of the sizes).
const DIAMETER: f64 = 10.0;
const NUMBER: f64 = 5.0;
/// Nearest and farthest a balloon's centre lies from the box of its part \[mm\].
const NEAREST: f64 = 7.0;
const FARTHEST: f64 = 70.0;
/// Least distance from a balloon's centre to the tip of its leader \[mm\]: the arrow head has room.
const SHORTEST: f64 = DIAMETER / 2.0 + ARROW + 1.0;
/// Directions that are tried at each distance.
const WAYS: usize = 32;
/// Height of the count beside a balloon, and its air to it \[mm\].
const COUNT: f64 = 3.5;
const BESIDE: f64 = 1.0;

/// Adds a balloon for each part that is drawn, at the first of its pieces for which there is room; `counts` tell how often the
/// engine has it.
pub fn add(
    board: &mut Board,
    spread: &[Piece],
    scale: &Scale,
    numbers: &BTreeMap<String, usize>,
    counts: &BTreeMap<&str, usize>,
) {
    let mut told = BTreeSet::new();
    for piece in spread {
        let part = piece.instance.part.as_str();
        let Some(number) = numbers.get(part).filter(|_| !told.contains(part)) else { continue };
        let count = counts.get(part).filter(|n| **n > 1).map(|n| format!("{n}x"));
        let frame = Frame { low: scale.point(piece.frame.low), high: scale.point(piece.frame.high) };
        let outline: Vec<Point2> = piece.lines.iter().flat_map(|l| scale.flat(l).samples()).collect();
        let wide = count.as_ref().map_or(0.0, |text| BESIDE + lettering::width(text, COUNT));
        if let Some((centre, tip)) = spot(board, &frame, &outline, wide) {
            draw(board, centre, tip, &number.to_string());
            if let Some(text) = count {
                let x = if tip.x > centre.x {
                    centre.x - DIAMETER / 2.0 - wide
                } else {
                    centre.x + DIAMETER / 2.0 + BESIDE
                };
                board.write(Label::level(&text, x, centre.y - COUNT / 2.0, COUNT));
            }
            told.insert(part);
        }
    }
}

/// The nearest place for a balloon with a text so `wide` \[mm\] on the side away from its leader, and the point of the outline
/// that the leader meets.
fn spot(board: &Board, frame: &Frame, outline: &[Point2], wide: f64) -> Option<(Point2, Point2)> {
    let (half_w, half_h) = (frame.width() / 2.0, frame.height() / 2.0);
    let distances = (0..).map(|i| NEAREST + f64::from(i) * 3.0).take_while(|d| *d < FARTHEST);
    let centres = distances.flat_map(|d| {
        (0..WAYS).map(move |k| {
            let angle = TAU * (k as f64 + 0.5) / WAYS as f64;
            frame.centre() + Vector2::new((half_w + d) * angle.cos(), (half_h + d) * angle.sin())
        })
    });
    let tip_of = |c: Point2| {
        let away = |p: &&Point2| (**p - c).magnitude();
        outline.iter().min_by(|a, b| away(a).total_cmp(&away(b))).copied()
    };
    let circle = |c: Point2, tip: Point2| {
        let left = if tip.x > c.x { wide } else { 0.0 };
        Frame::new(c.x - DIAMETER / 2.0 - left, c.y - DIAMETER / 2.0, DIAMETER + wide, DIAMETER)
    };
    let open = |(c, tip): &(Point2, Point2)| {
        let towards = (tip - c).normalize();
        let (from, to) = (c + towards * DIAMETER / 2.0, tip - towards * 0.2);
        (tip - c).magnitude() > SHORTEST
            && board.is_free(&circle(*c, *tip))
            && board.is_clear(from, to)
            && board.crossings(from, to) == 0
    };
    centres.filter_map(|c| tip_of(c).map(|tip| (c, tip))).find(open)
}

fn draw(board: &mut Board, centre: Point2, tip: Point2, number: &str) {
    let towards = (tip - centre).normalize();
    board.circle(Pen::Leader, centre, DIAMETER / 2.0);
    let angle = towards.y.atan2(towards.x);
    board.line(Pen::Leader, polar(centre, DIAMETER / 2.0, angle), tip);
    board.arrow(tip, towards);
    let width = lettering::width(number, NUMBER);
    board.write(Label::level(number, centre.x - width / 2.0, centre.y - NUMBER / 2.0, NUMBER));
}
