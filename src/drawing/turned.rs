//! Views of a turned part: a full section with the axis level, and an end view where features lie off
//! the axis.

use super::DrawingError;
use super::board::Frame;
use super::bore;
use super::callout::{Callout, Row, Tip};
use super::end_view;
use super::frame_map::PlaneAxis;
use super::group::{Group, Way, groups};
use super::lanes::{Linear, Side};
use super::pen::Pen;
use super::plan::{Measure, PlanSize, Profile, plan};
use super::section::Section;
use super::surface::{Form, Surface, surfaces};
use super::texts;
use super::views::{Scale, Views, centre_line, draw_section};
use crate::shape::recipe::{Feature, InsideThread, Kind, Place, ProfileNode};
use crate::shape::{InnerSpace, Point2, Vector2};

/// A turned part as the views need it.
pub struct Turned<'a> {
    /// The body's surfaces.
    pub body: Vec<Surface>,
    /// The body's profile.
    pub nodes: &'a [ProfileNode],
    /// Its features.
    pub groups: Vec<Group<'a>>,
    /// The section plane.
    pub section: Section,
    /// Features as they lie in the section plane: group, axis.
    pub cut: Vec<(usize, PlaneAxis)>,
}

/// Draws all views of a turned part.
///
/// # Errors
/// [`DrawingError::Skew`] for a feature that runs neither along nor across the axis.
pub fn views(
    nodes: &[ProfileNode],
    features: &[Feature],
    factor: f64,
    first_angle: bool,
) -> Result<Views, DrawingError> {
    let part = Turned::new(nodes, features)?;
    let mut views = Views::default();
    let scale = Scale::new(factor);
    let frame = draw_section(&mut views.board, &part.section, &scale, part.is_solid());
    draw_axes(&mut views, &part, &scale, &frame);
    draw_threads(&mut views, &part, &scale);
    let end = if part.needs_end_view() { Some(end_view::plan(&part, &scale, first_angle)) } else { None };
    dimension(&mut views, &part, &scale, &frame);
    if let Some(end) = end {
        end_view::draw(&mut views, &part, &scale, end);
    }
    views.board.join_centre_lines();
    Ok(views)
}

/// Greatest extent of a turned part with its bosses \[mm\].
pub fn longest(nodes: &[ProfileNode], features: &[Feature]) -> f64 {
    let ends = |f: &Feature| match &f.kind {
        Kind::Boss { chain } => f.axis.origin.z + f.axis.direction.z * bore::deepest(chain),
        _ => f.axis.origin.z,
    };
    let all = nodes.iter().map(|n| n.z).chain(features.iter().map(ends));
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |e, z| (e.0.min(z), e.1.max(z)));
    (high - low).max(2.0 * bore::widest(nodes))
}

impl<'a> Turned<'a> {
    /// Brings all features into the section plane.
    fn new(nodes: &'a [ProfileNode], features: &'a [Feature]) -> Result<Self, DrawingError> {
        let body = surfaces(nodes, true);
        let mut section = Section::default();
        for side in [1.0, -1.0] {
            section.add(PlaneAxis::LEVEL.body(nodes, side));
        }
        PlaneAxis::LEVEL.rims(&body, true, &mut section);
        let groups = groups(features)?;
        let mut part = Self { body, nodes, groups, section, cut: Vec::new() };
        part.turn_into_plane();
        for i in 0..part.cut.len() {
            let (group, axis) = part.cut[i];
            part.add(group, &axis);
        }
        Ok(part)
    }

    /// Chooses for each group the side of the axis on which it is shown; pairs are shown on both.
    fn turn_into_plane(&mut self) {
        let mut taken: Vec<(f64, f64, f64, f64)> = Vec::new();
        for second in [false, true] {
            for i in 0..self.groups.len() {
                let wanted =
                    !second || (self.groups[i].members.len() > 1 && self.groups[i].way != Way::Across);
                let free = |axis: &PlaneAxis| {
                    let f = footprint(&self.groups[i], axis);
                    !taken.iter().any(|t| t.0 < f.1 && f.0 < t.1 && t.2 < f.3 && f.2 < t.3)
                };
                let shown = |a: &PlaneAxis| self.cut.iter().any(|(g, c)| *g == i && c == a);
                let axes = plane_axes(&self.groups[i]);
                let chosen = axes.iter().find(|a| free(a) && !shown(a));
                if let Some(axis) =
                    chosen.or_else(|| if second { None } else { axes.first() }).filter(|_| wanted)
                {
                    taken.push(footprint(&self.groups[i], axis));
                    let axis = *axis;
                    self.cut.push((i, axis));
                }
            }
        }
    }

    /// Adds one feature to the section.
    fn add(&mut self, group: usize, axis: &PlaneAxis) {
        let feature = self.groups[group].members[0].clone();
        match (bore::turned(&feature), &feature.kind) {
            (Some((chain, end, adds)), _) => {
                let list = surfaces(chain, false);
                for side in [1.0, -1.0] {
                    let shape = axis.chain(chain, end, side);
                    if adds { self.section.add(shape) } else { self.section.cut(shape) }
                }
                axis.rims(&list, false, &mut self.section);
            }
            (None, Kind::Pocket { outline, depth, .. }) => {
                let shape = slab(axis, outline, *depth);
                self.section.cut(shape);
            }
            (None, Kind::Pad { outline, height }) => {
                let shape = slab(axis, outline, *height);
                self.section.add(shape);
            }
            (None, _) => {}
        }
    }

    /// Whether there is metal at (r, z) of the body.
    fn is_metal(&self, p: Point2) -> bool {
        self.section.is_metal(Point2::new(p.y, p.x)) || self.section.is_metal(Point2::new(p.y, -p.x))
    }

    /// Whether there is nothing inside to be shown: no features cut, no metal missing between axis and skin.
    fn is_solid(&self) -> bool {
        let body = PlaneAxis::LEVEL.body(self.nodes, 1.0);
        let cuts =
            self.groups.iter().any(|g| !matches!(g.first().kind, Kind::Boss { .. } | Kind::Pad { .. }));
        let on_axis = |w: &[ProfileNode]| {
            let z = (w[0].z + w[1].z) / 2.0;
            (w[0].z - w[1].z).abs() < 1e-6 || body.contains(Point2::new(z, 1e-4))
        };
        !cuts && self.nodes.windows(2).all(on_axis)
    }

    /// Whether something lies off the axis.
    fn needs_end_view(&self) -> bool {
        self.groups.iter().any(|g| !g.is_coaxial())
    }

    /// Sizes of the body and of bosses on its axis.
    fn sizes(&self) -> Vec<PlanSize> {
        let is_metal = |p: Point2| self.is_metal(p);
        let profile = Profile {
            surfaces: &self.body,
            closed: true,
            datum: self.datum(),
            stem: "body",
            is_metal: &is_metal,
        };
        let mut sizes = plan(&profile);
        for group in self.groups.iter().filter(|g| g.is_coaxial()) {
            if let Kind::Boss { chain } = &group.first().kind {
                sizes.extend(self.boss_sizes(group, chain, &is_metal));
            }
        }
        sizes
    }

    /// Sizes of a boss on the axis, lengths from the face it stands on.
    fn boss_sizes(
        &self,
        group: &Group,
        chain: &[ProfileNode],
        is_metal: &dyn Fn(Point2) -> bool,
    ) -> Vec<PlanSize> {
        let (face, up) = (group.first().axis.origin.z, group.way == Way::Up);
        let there = |z: f64| if up { face + z } else { face - z };
        let list = surfaces(chain, false);
        let metal = |p: Point2| is_metal(Point2::new(p.x, there(p.y)));
        let profile =
            Profile { surfaces: &list, closed: false, datum: 0.0, stem: group.name, is_metal: &metal };
        let mut sizes = plan(&profile);
        for size in &mut sizes {
            turn_measure(&mut size.measure, &there);
        }
        if let Some(first) = sizes.first_mut().filter(|s| !s.names.contains(&group.name.to_owned())) {
            first.names.push(group.name.to_owned());
        }
        sizes
    }

    /// The face from which lengths are given: z = 0, or the lowest face if none lies there.
    fn datum(&self) -> f64 {
        let flats = || self.body.iter().filter(|s| s.form == Form::Flat).map(|s| s.a.y);
        if flats().any(|z| z.abs() < 1e-9) { 0.0 } else { flats().fold(f64::INFINITY, f64::min).min(1e9) }
    }

    /// Largest radius of the body \[mm\].
    pub fn radius(&self) -> f64 {
        bore::widest(self.nodes)
    }
}

/// A measure of a feature told along the body's axis.
pub fn turn_measure(measure: &mut Measure, there: &dyn Fn(f64) -> f64) {
    match measure {
        Measure::Diameter { low, high, .. } => {
            let (a, b) = (there(*low), there(*high));
            (*low, *high) = (a.min(b), a.max(b));
        }
        Measure::Length { from, to, .. } => (*from, *to) = (there(*from), there(*to)),
        Measure::Place(p) => p.y = there(p.y),
    }
}

/// Axes in the section plane (x = z of the part, y = radius) on which a group may be shown, best first.
fn plane_axes(group: &Group) -> Vec<PlaneAxis> {
    let a = &group.first().axis;
    let along = Vector2::new(a.direction.z, 0.0);
    let r = a.origin.x.hypot(a.origin.y);
    if group.way != Way::Across {
        let at = |y: f64| PlaneAxis { origin: Point2::new(a.origin.z, y), along };
        return if r < 1e-9 { vec![at(0.0)] } else { vec![at(r), at(-r)] };
    }
    let inward = (a.direction.x * a.origin.x + a.direction.y * a.origin.y).signum();
    let at = |side: f64| PlaneAxis {
        origin: Point2::new(a.origin.z, r * side),
        along: Vector2::new(0.0, inward * side),
    };
    vec![at(1.0), at(-1.0)]
}

/// Part of the section plane that a feature takes: left, right, low, high.
fn footprint(group: &Group, axis: &PlaneAxis) -> (f64, f64, f64, f64) {
    let (r, depth) = match &group.first().kind {
        Kind::Bore { chain, .. } | Kind::Boss { chain } => (bore::widest(chain), bore::deepest(chain)),
        Kind::Pocket { outline, depth, .. } => (outline.bounds().1.x, *depth),
        Kind::Pad { outline, height } => (outline.bounds().1.x, *height),
    };
    let corners = [axis.point(Point2::new(r, 0.0), 1.0), axis.point(Point2::new(r, depth), -1.0)];
    let f = corners.iter().fold(Frame::EMPTY, |f, p| f.with(*p));
    (f.low.x, f.high.x, f.low.y, f.high.y)
}

/// A pocket or pad in the section plane, by the width of its outline across the axis.
fn slab(axis: &PlaneAxis, outline: &crate::shape::loops::Loop, depth: f64) -> crate::shape::loops::Loop {
    let (low, high) = outline.bounds();
    let at = |r: f64, z: f64| axis.point(Point2::new(r, z), 1.0);
    let corner = |p: Point2| crate::shape::loops::Node::line(p.x, p.y);
    crate::shape::loops::Loop::Path(vec![
        corner(at(low.x, 0.0)),
        corner(at(high.x, 0.0)),
        corner(at(high.x, depth)),
        corner(at(low.x, depth)),
    ])
}

/// Centre lines of the body and of every feature shown.
fn draw_axes(views: &mut Views, part: &Turned, scale: &Scale, frame: &Frame) {
    let level = scale.origin.y;
    centre_line(&mut views.board, Point2::new(frame.low.x, level), Point2::new(frame.high.x, level));
    for (group, axis) in part.cut.iter().filter(|(g, _)| !part.groups[*g].is_coaxial()) {
        let Some((chain, ..)) = bore::turned(part.groups[*group].first()) else { continue };
        let end = axis.origin + axis.along * bore::deepest(chain);
        let (a, b) = (scale.point(axis.origin), scale.point(end));
        let over = (b - a).normalize() * 2.5;
        views.board.line(Pen::Centre, a - over, b + over);
    }
}

/// Roots of outside threads and crests of inside threads as narrow lines (ISO 6410-1).
fn draw_threads(views: &mut Views, part: &Turned, scale: &Scale) {
    for s in part.body.iter().filter(|s| s.tag.as_ref().is_some_and(|t| t.thread.is_some())) {
        let root = texts::thread_root(s.a.x);
        for side in [1.0, -1.0] {
            let at = |z: f64| scale.point(PlaneAxis::LEVEL.point(Point2::new(root, z), side));
            views.board.line(Pen::Thread, at(s.a.y), at(s.b.y));
        }
        for z in [s.a.y, s.b.y] {
            let at = |side: f64| scale.point(PlaneAxis::LEVEL.point(Point2::new(s.a.x, z), side));
            views.board.line(Pen::Visible, at(-1.0), at(1.0));
        }
    }
    for (group, axis) in &part.cut {
        if let Kind::Bore { chain, thread: Some(thread), .. } = &part.groups[*group].first().kind {
            inside_thread(views, chain, thread, axis, scale);
        }
    }
}

/// The crest lines of one inside thread and the limit of its full depth.
pub fn inside_thread(
    views: &mut Views,
    chain: &[ProfileNode],
    thread: &InsideThread,
    axis: &PlaneAxis,
    scale: &Scale,
) {
    let Some(d) = texts::thread_diameter(&thread.designation) else { return };
    let depth = thread.depth.unwrap_or_else(|| bore::deepest(chain));
    let at = |z: f64, side: f64| scale.point(axis.point(Point2::new(d / 2.0, z), side));
    for side in [1.0, -1.0] {
        views.board.line(Pen::Thread, at(0.0, side), at(depth, side));
    }
    if thread.depth.is_some() {
        views.board.line(Pen::Visible, at(depth, 1.0), at(depth, -1.0));
    }
}

/// Places all sizes around the section.
fn dimension(views: &mut Views, part: &Turned, scale: &Scale, frame: &Frame) {
    let sizes = part.sizes();
    let mut sorted = Sorted::default();
    for size in sizes {
        sorted.take(part, size, scale, frame);
    }
    for group in part.groups.iter().filter(|g| g.way == Way::Across) {
        sorted.radial(group, scale);
    }
    sorted.place(views, part, scale, frame);
}

/// Sizes told apart by the way in which they are placed.
#[derive(Default)]
struct Sorted {
    below: Vec<Linear>,
    above: Vec<Linear>,
    left: Vec<Linear>,
    right: Vec<Linear>,
    extended: Vec<Extended>,
    notes: Vec<(PlanSize, Point2)>,
}

impl Sorted {
    /// Decides how one size is placed.
    fn take(&mut self, part: &Turned, size: PlanSize, scale: &Scale, frame: &Frame) {
        match size.measure.clone() {
            Measure::Place(p) => self.notes.push((size, p)),
            Measure::Length { from, to, r, outside } => {
                let side = if outside { -1.0 } else { 1.0 };
                let x = |z: f64| scale.point(Point2::new(z, 0.0)).x;
                let foot = |z: f64| {
                    let r = if (z - to).abs() < 1e-9 { r } else { corner_radius(part, z, outside) };
                    scale.point(Point2::new(0.0, r * side)).y
                };
                let linear = Linear {
                    from: x(from),
                    to: x(to),
                    feet: [foot(from), foot(to)],
                    text: size.text,
                    sizes: size.names,
                };
                if outside { self.below.push(linear) } else { self.above.push(linear) }
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
        let ends = part
            .nodes
            .iter()
            .map(|n| n.z)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |e, z| (e.0.min(z), e.1.max(z)));
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
    fn place(self, views: &mut Views, part: &Turned, scale: &Scale, frame: &Frame) {
        let bars: Vec<f64> =
            self.extended.iter().map(|(_, _, low, high)| middle(scale, *low, *high)).collect();
        views.lanes(Side::Left, frame.low.x, self.left, &[]);
        views.lanes(Side::Right, frame.high.x, self.right, &[]);
        views.lanes(Side::Below, frame.low.y, self.below, &[]);
        views.lanes(Side::Above, frame.high.y, self.above, &bars);
        lead_out(views, self.extended, scale, frame);
        for (size, p) in &self.notes {
            let row = Row::new(size.text.clone(), &size.names);
            note(views, vec![row], corner_targets(*p, scale), frame);
        }
        textures(views, part, scale, frame);
        bores(views, part, scale, frame);
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
fn textures(views: &mut Views, part: &Turned, scale: &Scale, frame: &Frame) {
    for s in &part.body {
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
