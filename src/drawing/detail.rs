//! Details at a larger scale (ISO 128-3): narrow grooves and reliefs of turned parts, ringed with a thin circle and a letter
//! in the view and drawn again beside it with the sizes that lie inside.

use super::board::{Board, Frame, Label};
use super::callout::{Callout, Row, Tip};
use super::compose::SCALES;
use super::frame_map::PlaneAxis;
use super::lanes::{Linear, Side};
use super::lettering;
use super::looks::Looks;
use super::pen::Pen;
use super::plan::{Measure, PlanSize};
use super::surface::{Form, Surface};
use super::texts;
use super::turned::{self, Turned};
use super::turned_sizes;
use super::views::{Scale, Views, title_above};
use crate::shape::loops::polar;
use crate::shape::{InnerSpace, Point2};

/// A groove narrower than this on the paper gets a detail \[mm\]: two arrow heads and a figure need it.
const NARROW: f64 = 7.0;
/// Grooves and ends nearer than this on the paper share one \[mm\].
const NEAR: f64 = 9.0;
/// What a groove should be wide on the paper in the detail \[mm\].
const WIDE: f64 = 10.0;
/// Largest diameter of the circle of a detail on the paper \[mm\].
const LARGEST: f64 = 75.0;
/// Letters of details, apart from those of sections and holes (common practice, no source).
const LETTERS: [char; 4] = ['X', 'Y', 'Z', 'W'];
/// Height of the letters \[mm\].
const LETTER: f64 = 5.0;

/// A detail of the view along the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Detail {
    letter: char,
    /// Centre of its circle, (r, z) \[mm\].
    centre: Point2,
    /// Radius of its circle \[mm\].
    radius: f64,
    /// On the outside of the body, and so on the lower half of the view.
    outside: bool,
    /// Its scale as written, and paper over model.
    scale: (&'static str, f64),
}

/// A groove: from and to along the axis, bottom and nearer shoulder.
#[derive(Clone, Copy, Debug)]
struct Groove {
    z: (f64, f64),
    r: (f64, f64),
    outside: bool,
}

/// The details that a view at a scale needs for these sizes.
pub fn choose(part: &Turned, sizes: &[PlanSize], factor: f64) -> Vec<Detail> {
    let mut found = Vec::new();
    for outside in [true, false] {
        let mut list: Vec<Groove> = grooves(part)
            .into_iter()
            .filter(|g| g.outside == outside && (g.z.1 - g.z.0) * factor < NARROW)
            .collect();
        list.sort_by(|a, b| a.z.0.total_cmp(&b.z.0));
        let mut clusters: Vec<Vec<Groove>> = Vec::new();
        for groove in list {
            match clusters.last_mut() {
                Some(c) if (groove.z.0 - c[c.len() - 1].z.1) * factor < NEAR => c.push(groove),
                _ => clusters.push(vec![groove]),
            }
        }
        found.extend(clusters.iter().filter_map(|c| around(part, c, factor)));
    }
    found.retain(|d| sizes.iter().any(|s| d.is_length(part, s)));
    found.truncate(LETTERS.len());
    found.iter_mut().zip(LETTERS).for_each(|(d, letter)| d.letter = letter);
    found
}

/// All grooves of the body: a bottom between two shoulders.
fn grooves(part: &Turned) -> Vec<Groove> {
    let n = part.body.len();
    let beside = |i: usize| (&part.body[(i + n - 1) % n], &part.body[i], &part.body[(i + 1) % n]);
    (0..n).filter_map(|i| groove(part, beside(i))).collect()
}

fn groove(part: &Turned, (before, bottom, after): (&Surface, &Surface, &Surface)) -> Option<Groove> {
    let (low, high) = bottom.span();
    let is_side = |s: &Surface| matches!(s.form, Form::Flat | Form::Chamfer | Form::Cone);
    if bottom.form != Form::Cylinder || !is_side(before) || !is_side(after) {
        return None;
    }
    let r = bottom.a.x;
    let outside = !part.is_metal(Point2::new(r + 1e-3, (low + high) / 2.0));
    let (a, b) = (before.a.x - r, after.b.x - r);
    let deep = if outside { a.min(b) } else { -a.max(b) };
    let ends = [before.a.y, before.b.y, after.a.y, after.b.y];
    let z = ends.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |e, z| (e.0.min(*z), e.1.max(*z)));
    (deep > 0.1).then_some(Groove { z, r: (r, if outside { r + deep } else { r - deep }), outside })
}

/// The circle around grooves that are near to one another, with an end of the part if that is near as well.
fn around(part: &Turned, list: &[Groove], factor: f64) -> Option<Detail> {
    let ends = part.ends();
    let (mut low, mut high) = (list[0].z.0, list[list.len() - 1].z.1);
    if (low - ends.0) * factor < NEAR {
        low = ends.0;
    }
    if (ends.1 - high) * factor < NEAR {
        high = ends.1;
    }
    let radii = || list.iter().flat_map(|g| [g.r.0, g.r.1]);
    let (inner, outer) = (radii().fold(f64::INFINITY, f64::min), radii().fold(0.0, f64::max));
    let half = (high - low).hypot(outer - inner) / 2.0;
    let radius = half * 1.1 + 2.0 / factor;
    let narrowest = list.iter().map(|g| g.z.1 - g.z.0).fold(f64::INFINITY, f64::min);
    let larger = || SCALES.iter().rev().filter(|s| s.1 > factor && 2.0 * radius * s.1 <= LARGEST);
    let scale = *larger().find(|s| narrowest * s.1 >= WIDE).or_else(|| larger().next_back())?;
    let centre = Point2::new((inner + outer) / 2.0, (low + high) / 2.0);
    Some(Detail { letter: 'X', centre, radius, outside: list[0].outside, scale })
}

impl Detail {
    /// Whether a place (r, z) lies inside.
    fn holds(&self, p: Point2) -> bool {
        (p - self.centre).magnitude() < self.radius * 0.999
    }

    /// Whether it is the detail that shows a length.
    fn is_length(&self, part: &Turned, size: &PlanSize) -> bool {
        let there =
            |along: f64, foot: f64| (Point2::new(along, foot) - self.middle()).magnitude() < self.radius;
        turned_sizes::length(part, size, &Scale::new(1.0))
            .is_some_and(|l| there(l.from, l.feet[0]) && there(l.to, l.feet[1]))
    }

    /// Whether a size is told in the detail and not in the view.
    pub fn tells(&self, part: &Turned, size: &PlanSize) -> bool {
        self.is_length(part, size) || matches!(size.measure, Measure::Place(p) if self.holds(p))
    }

    /// Whether a surface lies inside from end to end.
    pub fn shows(&self, s: &Surface) -> bool {
        self.holds(s.a) && self.holds(s.b)
    }

    /// Half of the view on which it lies.
    fn side(&self) -> f64 {
        if self.outside { -1.0 } else { 1.0 }
    }

    /// Centre of its circle in the view along the axis \[mm\].
    fn middle(&self) -> Point2 {
        PlaneAxis::LEVEL.point(self.centre, self.side())
    }

    /// Rings it in the view.
    pub fn ring(&self, views: &mut Views, scale: &Scale) {
        views.board.circle(Pen::Leader, scale.point(self.middle()), self.radius * scale.factor);
    }

    /// Writes its letter beside its circle, where the sizes have left room.
    pub fn write_letter(&self, views: &mut Views, scale: &Scale) {
        let (centre, r) = (scale.point(self.middle()), self.radius * scale.factor);
        let text = self.letter.to_string();
        let width = lettering::width(&text, LETTER);
        // outwards first, then farther round and away
        let out = -90.0_f64.copysign(-self.side());
        let turns = [35.0, -35.0, 60.0, -60.0, 90.0, -90.0, 130.0, -130.0];
        let places = (0..8).flat_map(|i| turns.map(|t| (2.0 + f64::from(i), (out + t).to_radians())));
        let label = |(away, angle): (f64, f64)| {
            let p = polar(centre, r + away + LETTER / 2.0, angle);
            Label::level(&text, p.x - width / 2.0, p.y - LETTER / 2.0, LETTER)
        };
        match places.map(label).find(|l| views.board.is_free(&l.frame())) {
            Some(free) => views.board.write(free),
            None => views.homeless.push(Row::new(format!("Detail {text}"), &[])),
        }
    }

    /// Draws it with the sizes that it tells.
    pub fn draw(&self, part: &Turned, looks: &Looks, sizes: &[PlanSize]) -> Views {
        let scale = Scale::new(self.scale.1);
        let mut views = Views { units: looks.units, ..Views::default() };
        part.draw_along(&mut views.board, looks, &scale);
        turned::draw_threads(&mut views, part, &scale);
        let (centre, r) = (scale.point(self.middle()), self.radius * scale.factor);
        views.board.keep_inside((centre, r), (self.middle(), self.radius));
        views.board.circle(Pen::Leader, centre, r);
        let frame = Frame::new(centre.x - r, centre.y - r, 2.0 * r, 2.0 * r);
        self.dimension(&mut views, part, sizes, &scale, &frame);
        title_above(&mut views.board, &format!("{} ({})", self.letter, self.scale.0), &frame, 3.0);
        views
    }

    /// Lengths on the side of the circle that looks away from the axis, notes around it.
    fn dimension(&self, views: &mut Views, part: &Turned, sizes: &[PlanSize], scale: &Scale, frame: &Frame) {
        let lengths = sizes.iter().filter(|s| self.is_length(part, s));
        let lanes: Vec<Linear> = lengths.filter_map(|s| turned_sizes::length(part, s, scale)).collect();
        match self.outside {
            true => views.lanes(Side::Below, frame.low.y, lanes, &[]),
            false => views.lanes(Side::Above, frame.high.y, lanes, &[]),
        }
        let at = |p: Point2| scale.point(PlaneAxis::LEVEL.point(p, self.side()));
        let mut note = |row: Row, targets: Vec<Point2>| {
            views.call_out(&Callout { rows: vec![row], targets, tip: Tip::Arrow, along: None }, frame);
        };
        for size in sizes.iter().filter(|s| self.tells(part, s)) {
            if let Measure::Place(p) = size.measure {
                note(Row::new(size.text.clone(), &size.names), vec![at(p)]);
            }
        }
        for s in part.body.iter().filter(|s| self.shows(s)) {
            if let Some(ra) = s.tag.as_ref().and_then(|t| t.ra) {
                note(Row::new(texts::texture(ra), &[]), [0.3, 0.7].map(|t| at(s.piece.at(t))).to_vec());
            }
        }
    }
}

/// Draws all details, each as a block of its own; sizes without a place are told with those of the views.
pub fn draw_all(views: &mut Views, list: &[Detail], part: &Turned, looks: &Looks, sizes: &[PlanSize]) {
    for detail in list {
        let Views { board, homeless, .. } = detail.draw(part, looks, sizes);
        views.details.push(board);
        views.homeless.extend(homeless);
    }
}

impl Board {
    /// Keeps what is drawn inside a circle, of its views what lies inside the circle `limit` of theirs.
    fn keep_inside(&mut self, circle: (Point2, f64), limit: (Point2, f64)) {
        let strokes = std::mem::take(&mut self.strokes);
        for stroke in strokes {
            for part in stroke.line.inside(circle.0, circle.1) {
                self.stroke(stroke.pen, part, stroke.view);
            }
        }
        self.views.iter_mut().for_each(|v| v.limit = Some(limit));
    }
}
