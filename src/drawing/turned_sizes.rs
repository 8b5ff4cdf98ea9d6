//! Sizes of a turned part around its section: diameters at the ends or led out, lengths below (outside) and
//! above (inside), notes with leaders.

use super::board::Frame;
use super::callout::{Callout, Row, Tip};
use super::detail::{self, Detail};
use super::frame_map::PlaneAxis;
use super::group::{Group, Way};
use super::lanes::{Linear, Side};
use super::looks::Looks;
use super::pen::Pen;
use super::plan::{Measure, PlanSize};
use super::texts;
use super::turned::Turned;
use super::views::{Scale, Views};
use crate::shape::recipe::{Kind, Place};
use crate::shape::{Point2, Vector2};

/// Places all sizes around the section.
pub fn dimension(views: &mut Views, part: &Turned, looks: &Looks, scale: &Scale, frame: &Frame) {
    let sizes = part.sizes();
    let details = detail::choose(part, &sizes, scale.factor);
    details.iter().for_each(|d| d.ring(views, scale));
    let mut sorted = Sorted::default();
    for size in sizes.iter().filter(|s| !details.iter().any(|d| d.tells(part, s))) {
        sorted.take(part, size.clone(), scale, frame);
    }
    for group in part.groups.iter().filter(|g| g.way == Way::Across) {
        sorted.radial(group, scale);
    }
    sorted.place(views, scale, frame);
    textures(views, part, scale, frame, &details);
    bores(views, part, scale, frame);
    details.iter().for_each(|d| d.write_letter(views, scale));
    detail::draw_all(views, &details, part, looks, &sizes);
}

/// A length of the body as a dimension in a lane, if the size is one.
pub fn length(part: &Turned, size: &PlanSize, scale: &Scale) -> Option<Linear> {
    let Measure::Length { from, to, r, outside } = size.measure else { return None };
    let side = if outside { -1.0 } else { 1.0 };
    let x = |z: f64| scale.point(Point2::new(z, 0.0)).x;
    let foot = |z: f64| {
        let r = if (z - to).abs() < 1e-9 { r } else { corner_radius(part, z, outside) };
        scale.point(Point2::new(0.0, r * side)).y
    };
    Some(Linear {
        from: x(from),
        to: x(to),
        feet: [foot(from), foot(to)],
        text: size.text.clone(),
        sizes: size.names.clone(),
    })
}

/// Sizes told apart by the way in which they are placed.
#[derive(Default)]
struct Sorted {
    below: Vec<Linear>,
    above: Vec<Linear>,
    left: Vec<Linear>,
    right: Vec<Linear>,
    extended: Vec<Extended>,
    led: Vec<Extended>,
    notes: Vec<(PlanSize, Point2)>,
}

impl Sorted {
    /// Decides how one size is placed.
    fn take(&mut self, part: &Turned, size: PlanSize, scale: &Scale, frame: &Frame) {
        match size.measure.clone() {
            Measure::Place(p) => self.notes.push((size, p)),
            Measure::Length { outside, .. } => {
                let list = if outside { &mut self.below } else { &mut self.above };
                list.extend(length(part, &size, scale));
            }
            Measure::Diameter { r, low, high, outside } => {
                self.diameter(part, size, (r, low, high, outside), scale, frame)
            }
        }
    }

    /// A diameter goes to the end of the view to which its extension lines run free, or is led out.
    fn diameter(
        &mut self,
        part: &Turned,
        size: PlanSize,
        (r, low, high, outside): (f64, f64, f64, bool),
        scale: &Scale,
        frame: &Frame,
    ) {
        let x = |z: f64| scale.point(Point2::new(z, 0.0)).x;
        let beside = if outside { r + 2e-3 } else { r - 2e-3 };
        let ends = part.ends();
        let free = |from: f64, to: f64| {
            (0..60).all(|i| {
                !part.is_metal(Point2::new(beside, from + (to - from) * (f64::from(i) + 0.5) / 60.0))
            })
        };
        let (to_left, to_right) = (free(ends.0, low), free(high, ends.1));
        let half = r * scale.factor;
        let linear = |foot: f64| Linear {
            from: scale.origin.y - half,
            to: scale.origin.y + half,
            feet: [foot, foot],
            text: size.text.clone(),
            sizes: size.names.clone(),
        };
        let left_first = x(low) - frame.low.x < frame.high.x - x(high);
        let roomy = |list: &Vec<Linear>| list.len() < 4;
        if to_left && roomy(&self.left) && (left_first || !to_right) {
            self.left.push(linear(x(low)));
        } else if to_right && roomy(&self.right) {
            self.right.push(linear(x(high)));
        } else if outside {
            // a dimension line would run through the part
            self.led.push((size, r, low, high));
        } else {
            self.extended.push((size, r, low, high));
        }
    }

    /// The place of a radial hole along the axis.
    fn radial(&mut self, group: &Group, scale: &Scale) {
        let Place::Radial { z, .. } = group.first().place else { return };
        let o = group.first().axis.origin;
        let x = |z: f64| scale.point(Point2::new(z, 0.0)).x;
        let r = o.x.hypot(o.y);
        let foot = scale.point(Point2::new(0.0, r)).y;
        self.above.push(Linear {
            from: x(o.z - z),
            to: x(o.z),
            feet: [foot, foot],
            text: texts::plain(z.abs()),
            sizes: vec![format!("{}-z", group.name)],
        });
    }

    /// Places everything: lanes first, then what is led out.
    fn place(self, views: &mut Views, scale: &Scale, frame: &Frame) {
        let bars: Vec<f64> =
            self.extended.iter().map(|(_, _, low, high)| middle(scale, *low, *high)).collect();
        views.lanes(Side::Left, frame.low.x, self.left, &[]);
        views.lanes(Side::Right, frame.high.x, self.right, &[]);
        views.lanes(Side::Below, frame.low.y, self.below, &[]);
        views.lanes(Side::Above, frame.high.y, self.above, &bars);
        lead_out(views, self.extended, scale, frame);
        for (size, r, low, high) in self.led {
            let row = Row::new(size.text, &size.names);
            let along = [0.5, 0.3, 0.7].map(|t| Point2::new(r, low + (high - low) * t));
            note(views, vec![row], along.iter().flat_map(|p| corner_targets(*p, scale)).collect(), frame);
        }
        for (size, p) in &self.notes {
            let row = Row::new(size.text.clone(), &size.names);
            note(views, vec![row], corner_targets(*p, scale), frame);
        }
    }
}

/// Middle of a surface on the paper.
fn middle(scale: &Scale, low: f64, high: f64) -> f64 {
    scale.point(Point2::new((low + high) / 2.0, 0.0)).x
}

/// Leads out diameters from the ends of the view inwards, so that no text bars the way of another line.
fn lead_out(views: &mut Views, mut list: Vec<Extended>, scale: &Scale, frame: &Frame) {
    let x = |e: &Extended| middle(scale, e.2, e.3);
    let centre = frame.centre().x;
    list.sort_by(|a, b| (x(b) - centre).abs().total_cmp(&(x(a) - centre).abs()));
    let way = |x: f64| (Point2::new(x, frame.high.y), Point2::new(x, frame.high.y + 200.0));
    for i in 0..list.len() {
        views.board.kept = list[i + 1..].iter().map(|e| way(x(e))).collect();
        let (size, r, low, high) = &list[i];
        extend(views, size, *r, (*low, *high), scale, frame);
    }
}

/// A diameter to be led out: size, radius, ends of its surface.
type Extended = (PlanSize, f64, f64, f64);

/// A diameter whose dimension line is led out of the view above.
fn extend(views: &mut Views, size: &PlanSize, r: f64, (low, high): (f64, f64), scale: &Scale, frame: &Frame) {
    let x = middle(scale, low, high);
    let half = r * scale.factor;
    let (a, b) = (Point2::new(x, scale.origin.y - half), Point2::new(x, scale.origin.y + half));
    let up = Vector2::new(0.0, 1.0);
    views.board.line(Pen::Dimension, a, b);
    views.board.arrow(b, up);
    views.board.arrow(a, -up);
    let top = Point2::new(x, frame.high.y.max(b.y) + 2.0);
    views.board.line(Pen::Dimension, b, top);
    let rows = vec![Row::new(size.text.clone(), &size.names)];
    views.call_out(&Callout { rows, targets: vec![top], tip: Tip::Bare, along: Some(up) }, frame);
}

/// A note with an arrow.
fn note(views: &mut Views, rows: Vec<Row>, targets: Vec<Point2>, frame: &Frame) {
    views.call_out(&Callout { rows, targets, tip: Tip::Arrow, along: None }, frame);
}

/// The two places (upper and lower half) at which a leader may point to a corner.
fn corner_targets(p: Point2, scale: &Scale) -> Vec<Point2> {
    [1.0, -1.0].map(|side| scale.point(PlaneAxis::LEVEL.point(p, side))).to_vec()
}

/// Symbols of surface texture where the tag asks for one.
fn textures(views: &mut Views, part: &Turned, scale: &Scale, frame: &Frame, details: &[Detail]) {
    for s in part.body.iter().filter(|s| !details.iter().any(|d| d.shows(s))) {
        let Some(ra) = s.tag.as_ref().and_then(|t| t.ra) else { continue };
        let targets = [0.3, 0.7].iter().flat_map(|t| corner_targets(s.piece.at(*t), scale)).collect();
        note(views, vec![Row::new(texts::texture(ra), &[])], targets, frame);
    }
}

/// Call-outs of bores on the axis and of radial features: shown where they are cut.
fn bores(views: &mut Views, part: &Turned, scale: &Scale, frame: &Frame) {
    for (i, axis) in &part.cut {
        let group = &part.groups[*i];
        let first_time = part.cut.iter().find(|(g, _)| g == i).is_some_and(|(_, a)| a == axis);
        let is_boss = matches!(group.first().kind, Kind::Boss { .. });
        let here = (group.is_coaxial() && !is_boss) || group.way == Way::Across;
        if !(first_time && here) {
            continue;
        }
        let rows = group.size_rows(group.way == Way::Down).into_iter().chain(group.place_rows()).collect();
        let r = match &group.first().kind {
            Kind::Bore { chain, .. } | Kind::Boss { chain } => chain.first().map_or(0.0, |n| n.r),
            Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => outline.bounds().1.x,
        };
        let mouth = [1.0, -1.0].map(|side| scale.point(axis.point(Point2::new(r, 0.0), side)));
        note(views, rows, mouth.to_vec(), frame);
    }
}

/// Radius of the corner from which the extension line at `z` starts: the outermost one there.
fn corner_radius(part: &Turned, z: f64, outside: bool) -> f64 {
    let at = part.nodes.iter().filter(|n| (n.z - z).abs() < 1e-9).map(|n| n.r);
    let widest = at.fold(0.0, f64::max);
    if outside || widest > 0.0 { widest } else { part.radius() }
}
