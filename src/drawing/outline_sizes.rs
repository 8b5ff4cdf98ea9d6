//! Sizes of a plate's outline: each kind dimensioned as a machinist would.

use super::board::Frame;
use super::callout::{Callout, Row, Tip};
use super::lanes::{Linear, Side};
use super::plate::Plate;
use super::texts;
use super::views::{Scale, Views};
use crate::shape::Point2;
use crate::shape::loops::{Piece, polar};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::Tag;

/// Points on a piece of an outline that are looked at for its ends.
const STEPS: u32 = 16;
/// Points that lie so near to an end belong to it \[mm on the sheet\].
const ENDS_MM: f64 = 0.05;
/// Radii and centres that differ by less are the same \[mm\].
const SAME_MM: f64 = 1e-6;

/// Sizes of one outline on their way to the lanes.
struct Sizes<'a> {
    scale: &'a Scale,
    frame: &'a Frame,
    below: Vec<Linear>,
    above: Vec<Linear>,
    left: Vec<Linear>,
    right: Vec<Linear>,
    notes: Vec<(Row, Vec<Point2>)>,
    table: Vec<(String, String)>,
}

/// Dimensions the outline in the front view with lines beside it.
pub fn dimension(views: &mut Views, plate: &Plate, scale: &Scale, frame: &Frame) {
    let sizes = Sizes::of(plate, scale, frame);
    views.lanes(Side::Left, frame.low.x, sizes.left, &[]);
    views.lanes(Side::Below, frame.low.y, sizes.below, &[]);
    views.lanes(Side::Right, frame.high.x, sizes.right, &[]);
    views.lanes(Side::Above, frame.high.y, sizes.above, &[]);
    views.sizes.extend(sizes.table);
}

/// Sizes of the outline that are told with leaders.
pub fn notes(views: &mut Views, plate: &Plate, scale: &Scale, frame: &Frame) {
    for (row, targets) in Sizes::of(plate, scale, frame).notes {
        views.call_out(&Callout { rows: vec![row], targets, tip: Tip::Arrow, along: None }, frame);
    }
}

impl<'a> Sizes<'a> {
    /// All sizes of the outline of a plate.
    fn of(plate: &Plate, scale: &'a Scale, frame: &'a Frame) -> Self {
        let [below, above, left, right] = [const { Vec::new() }; 4];
        let (notes, table) = (Vec::new(), Vec::new());
        let mut sizes = Sizes { scale, frame, below, above, left, right, notes, table };
        match plate.outline {
            Outline::Disc { centre, diameter, tag } => sizes.disc(*centre, *diameter, tag),
            Outline::Rectangle { low, high, corner, tags } => sizes.rectangle(*low, *high, *corner, tags),
            Outline::Hull { circles, name } => sizes.hull(circles, name),
            Outline::Free { sizes: list, .. } => sizes.free(list, plate.outline),
        }
        sizes
    }

    /// A level size between two places.
    fn level(&mut self, from: Point2, to: Point2, text: String, name: String) {
        let (a, b) = (self.scale.point(from), self.scale.point(to));
        self.below.push(Linear { from: a.x, to: b.x, feet: [a.y, b.y], text, sizes: vec![name] });
    }

    /// An upright size between two places.
    fn upright(&mut self, from: Point2, to: Point2, text: String, name: String) {
        let (a, b) = (self.scale.point(from), self.scale.point(to));
        self.left.push(Linear { from: a.y, to: b.y, feet: [a.x, b.x], text, sizes: vec![name] });
    }

    /// Where the shape lies from the datum, unless it is centred on it or starts there.
    fn offset(&mut self, to: Point2, stem: &str) {
        let datum = Point2::new(0.0, 0.0);
        if to.x.abs() > 1e-9 {
            self.level(datum, to, texts::plain(to.x.abs()), format!("{stem}-x"));
        }
        if to.y.abs() > 1e-9 {
            self.upright(datum, to, texts::plain(to.y.abs()), format!("{stem}-y"));
        }
    }

    /// A disc: its diameter beside the view.
    fn disc(&mut self, centre: Point2, diameter: f64, tag: &Tag) {
        let r = diameter / 2.0;
        let (a, b) = (Point2::new(centre.x, centre.y - r), Point2::new(centre.x, centre.y + r));
        self.upright(a, b, texts::diameter(r, Some(tag)), tag.name.clone());
        self.offset(centre, &format!("{}-centre", tag.name));
    }

    /// A rectangle: width, height, corner radius, and where the datum lies if not in the middle or a corner.
    fn rectangle(&mut self, low: Point2, high: Point2, corner: f64, tags: &[Tag; 2]) {
        let text = |v: f64, t: &Tag| texts::toleranced(v, &t.tolerance);
        let (lr, ul) = (Point2::new(high.x, low.y), Point2::new(low.x, high.y));
        self.level(low, lr, text(high.x - low.x, &tags[0]), tags[0].name.clone());
        self.upright(low, ul, text(high.y - low.y, &tags[1]), tags[1].name.clone());
        let odd = |a: f64, b: f64| a.abs() > 1e-9 && b.abs() > 1e-9 && (a + b).abs() > 1e-9;
        let at = Point2::new(
            if odd(low.x, high.x) { low.x } else { 0.0 },
            if odd(low.y, high.y) { low.y } else { 0.0 },
        );
        self.offset(at, "datum");
        if corner > 1e-9 {
            let c = [
                (low.x, low.y, 225.0),
                (high.x, low.y, 315.0),
                (high.x, high.y, 45.0),
                (low.x, high.y, 135.0),
            ];
            let inset = |v: f64, l: f64| if (v - l).abs() < 1e-9 { v + corner } else { v - corner };
            let targets = c
                .iter()
                .map(|(x, y, a): &(f64, f64, f64)| {
                    let centre = Point2::new(inset(*x, low.x), inset(*y, low.y));
                    self.scale.point(polar(centre, corner, a.to_radians()))
                })
                .collect();
            self.notes.push((
                Row::new(format!("4× R{}", texts::plain(corner)), &["corner-radius".to_owned()]),
                targets,
            ));
        }
    }

    /// A hull: radius and centre of each circle; equal radii are told together.
    fn hull(&mut self, circles: &[(Point2, f64)], name: &str) {
        let mut told: Vec<(f64, Row, Vec<Point2>)> = Vec::new();
        for (i, (centre, r)) in circles.iter().enumerate() {
            let size = format!("{name}-{}", i + 1);
            self.offset(*centre, &size);
            let targets = self.rim(circles, *centre, *r);
            match told.iter_mut().find(|t| (t.0 - r).abs() < 1e-9) {
                Some(same) => {
                    same.1.sizes.push(size);
                    same.2.extend(targets);
                }
                None => told.push((*r, Row::new(format!("R{}", texts::plain(*r)), &[size]), targets)),
            }
        }
        for (_, mut row, targets) in told {
            if row.sizes.len() > 1 {
                row.text = format!("{}× {}", row.sizes.len(), row.text);
            }
            self.notes.push((row, targets));
        }
    }

    /// Points on the part of a circle that belongs to the outline.
    fn rim(&self, circles: &[(Point2, f64)], centre: Point2, r: f64) -> Vec<Point2> {
        let outline = crate::shape::outline::hull(circles);
        (0..24)
            .map(|i| polar(centre, r, f64::from(i) * 15.0_f64.to_radians()))
            .filter(|p| outline.distance(*p) < 1e-3)
            .map(|p| self.scale.point(p))
            .collect()
    }

    /// Where extension lines of the overall sizes leave a free outline: heights of its left and right ends, nearest to the
    /// dimension line below, and level places of its lower and upper ends, nearest to the one on the left.
    fn ends(&self, outline: &Outline) -> [[f64; 2]; 2] {
        let boundary = outline.boundary();
        let on = |piece: &Piece| {
            (0..=STEPS).map(|i| piece.at(f64::from(i) / f64::from(STEPS))).collect::<Vec<_>>()
        };
        let points: Vec<Point2> =
            boundary.pieces().iter().flat_map(on).map(|p| self.scale.point(p)).collect();
        // the outermost points along one way, and of them the least across it
        let nearest = |out: &dyn Fn(&Point2) -> f64, across: &dyn Fn(&Point2) -> f64| {
            let far = points.iter().map(out).fold(f64::NEG_INFINITY, f64::max);
            points.iter().filter(|p| out(p) > far - ENDS_MM).map(across).fold(f64::INFINITY, f64::min)
        };
        let (x, y) = (|p: &Point2| p.x, |p: &Point2| p.y);
        [[nearest(&|p| -p.x, &y), nearest(&x, &y)], [nearest(&|p| -p.y, &x), nearest(&y, &x)]]
    }

    /// A free outline: each size where it is, and an overall extent that is none of them in brackets, for the stock.
    fn free(&mut self, list: &[(Tag, Measure)], outline: &Outline) {
        for (tag, measure) in list {
            self.measured(tag, measure, outline);
        }
        let f = self.frame;
        let spans = |list: &[Linear], low: f64, high: f64| {
            list.iter().any(|l| (l.from.min(l.to) - low).hypot(l.from.max(l.to) - high) < ENDS_MM)
        };
        let disc = list.iter().any(|(_, m)| matches!(m, Measure::Diameter(_)));
        let level = disc || [&self.below, &self.above].iter().any(|l| spans(l, f.low.x, f.high.x));
        let upright = disc || [&self.left, &self.right].iter().any(|l| spans(l, f.low.y, f.high.y));
        let bracket = |v: f64| format!("({})", texts::plain((v * 100.0 / self.scale.factor).round() / 100.0));
        let linear = |from, to, feet: [f64; 2], text| Linear { from, to, feet, text, sizes: Vec::new() };
        let [below, left] = self.ends(outline);
        let (width, height) = (bracket(f.width()), bracket(f.height()));
        if !level {
            self.below.push(linear(f.low.x, f.high.x, below, width));
        }
        if !upright {
            self.left.push(linear(f.low.y, f.high.y, left, height));
        }
    }

    /// One size of a free outline, on the side of the view to which its points are nearer.
    fn measured(&mut self, tag: &Tag, measure: &Measure, outline: &Outline) {
        let text = texts::toleranced(measure.value(), &tag.tolerance);
        let sizes = vec![tag.name.clone()];
        let middle = self.frame.centre();
        match *measure {
            Measure::Level(from, to) => {
                let (a, b) = (self.scale.point(from), self.scale.point(to));
                let low = (a.y + b.y) / 2.0 <= middle.y;
                let lanes = if low { &mut self.below } else { &mut self.above };
                lanes.push(Linear { from: a.x, to: b.x, feet: [a.y, b.y], text, sizes });
            }
            Measure::Upright(from, to) => {
                let (a, b) = (self.scale.point(from), self.scale.point(to));
                let left = (a.x + b.x) / 2.0 <= middle.x;
                let lanes = if left { &mut self.left } else { &mut self.right };
                lanes.push(Linear { from: a.y, to: b.y, feet: [a.x, b.x], text, sizes });
            }
            Measure::Radius(r) => {
                let (count, targets) = self.arcs(outline, r);
                let times = if count > 1 { format!("{count}× ") } else { String::new() };
                self.notes.push((Row::new(format!("{times}R{text}"), &sizes), targets));
            }
            Measure::Diameter(d) => {
                let (_, targets) = self.arcs(outline, d / 2.0);
                self.notes.push((Row::new(format!("⌀{text}"), &sizes), targets));
            }
            Measure::Listed(_) => self.table.push((tag.name.clone(), text)),
        }
    }

    /// How many circles of this radius the outline follows, and places on its arcs of them.
    fn arcs(&self, outline: &Outline, r: f64) -> (usize, Vec<Point2>) {
        let mut centres: Vec<Point2> = Vec::new();
        let mut places = Vec::new();
        for piece in outline.boundary().pieces() {
            let Piece::Arc { centre, radius, .. } = piece else { continue };
            if (radius - r).abs() > SAME_MM {
                continue;
            }
            if !centres.iter().any(|c| (c.x - centre.x).hypot(c.y - centre.y) < SAME_MM) {
                centres.push(centre);
            }
            places.extend([0.2, 0.35, 0.5, 0.65, 0.8].map(|t| self.scale.point(piece.at(t))));
        }
        (centres.len(), places)
    }
}
