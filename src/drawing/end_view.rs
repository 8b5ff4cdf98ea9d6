//! The view of a turned part along its axis: circles, bolt circles and what lies on them.

use super::board::Frame;
use super::callout::{Callout, Tip};
use super::face::{FacePen, is_through};
use super::group::{Group, Way};
use super::hole_table;
use super::looks::Looks;
use super::texts;
use super::turned::Turned;
use super::views::{Scale, Views, centre_cross};
use crate::shape::project::View;
use crate::shape::{Point2, Vector3};

/// Air between the views \[mm\].
const BETWEEN: f64 = 12.0;

/// From which end the part is seen and where the view stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndView {
    /// Seen from +z (x to the right), or from -z (x to the left).
    from_top: bool,
    /// Stands to the right of the section.
    right: bool,
    /// First or third angle side and scale of the section.
    factor: f64,
}

impl EndView {
    /// From where it is seen.
    fn look(&self) -> View {
        let side = if self.from_top { 1.0 } else { -1.0 };
        View::new(Vector3::unit_z() * side, Vector3::unit_x() * side)
    }
}

/// Chooses the end from which more can be seen. In first angle the view from the right stands on the left.
pub fn plan(part: &Turned, scale: &Scale, first_angle: bool) -> EndView {
    let opens = |g: &&Group, way: Way| !g.is_coaxial() && g.way == way && !is_through(g.first());
    let low = part.groups.iter().filter(|g| opens(g, Way::Up)).count();
    let high = part.groups.iter().filter(|g| opens(g, Way::Down)).count();
    let from_top = high >= low;
    EndView { from_top, right: from_top != first_angle, factor: scale.factor }
}

/// Draws the end view beside what is already on the board.
pub fn draw(views: &mut Views, part: &Turned, looks: &Looks, section: &Scale, view: EndView) {
    let reach = part.radius() * view.factor;
    let bounds = views.board.bounds();
    let x = match view.right {
        true => bounds.high.x + BETWEEN + reach,
        false => bounds.low.x - BETWEEN - reach,
    };
    let scale = Scale { factor: view.factor, origin: Point2::new(x, section.origin.y) };
    let pen = FacePen { from_top: view.from_top, scale };
    looks.draw(&mut views.board, "end", &view.look(), &scale);
    thread_circles(views, part, &pen);
    centre_cross(&mut views.board, scale.origin, reach);
    let frame = Frame::new(x - reach, scale.origin.y - reach, 2.0 * reach, 2.0 * reach);
    for group in part.groups.iter().filter(|g| !g.is_coaxial()) {
        group.members.iter().for_each(|f| pen.centre_lines(views, f));
        pen.circle_of(views, group);
    }
    for group in part.groups.iter().filter(|g| g.is_coaxial()) {
        pen.thread(views, group.first());
    }
    call_outs(views, part, &pen, &frame);
}

/// Narrow circles of outside threads (ISO 6410-1: about three quarters of a circle).
fn thread_circles(views: &mut Views, part: &Turned, pen: &FacePen) {
    for s in part.body.iter().filter(|s| s.tag.as_ref().is_some_and(|t| t.thread.is_some())) {
        pen.three_quarters(views, pen.scale.origin, texts::thread_root(s.a.x));
    }
}

/// Call-outs of groups off the axis, and their rows in the hole table.
fn call_outs(views: &mut Views, part: &Turned, pen: &FacePen, frame: &Frame) {
    let off_axis: Vec<&Group> =
        part.groups.iter().filter(|g| !g.is_coaxial() && g.way != Way::Across).collect();
    for group in off_axis {
        let letter = &group.letter;
        let mut rows = group.size_rows(pen.from_top);
        rows.extend(group.place_rows());
        if let Some(first) = rows.first_mut() {
            first.text = format!("{letter}: {}", first.text);
        }
        let targets = group.members.iter().flat_map(|f| pen.rim_targets(f)).collect();
        let callout = Callout { rows, targets, tip: Tip::Arrow, along: None };
        views.call_out_first(&callout, pen.rim_targets(group.first()), frame);
        hole_table::add(views, group, &|p: Point2| pen.at(p.x, p.y), pen.scale.factor, &|_| false);
    }
}
