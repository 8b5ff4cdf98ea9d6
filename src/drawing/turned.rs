//! Views of a turned part: a full section with the axis level, and an end view where features lie off
//! the axis.

use super::DrawingError;
use super::along::angle_of;
use super::board::Frame;
use super::bore;
use super::end_view;
use super::frame_map::PlaneAxis;
use super::frames::{self, Frames};
use super::group::{Group, Way, groups};
use super::hole_table;
use super::looks::Looks;
use super::pen::Pen;
use super::plan::{Measure, PlanSize, Profile, plan, told_as};
use super::section::Section;
use super::surface::{Form, Surface, surfaces};
use super::texts;
use super::turned_sizes;
use super::views::{Scale, Views, centre_line};
use crate::shape::recipe::{Feature, InsideThread, Kind, ProfileNode};
use crate::shape::{InnerSpace, Point2, Point3, Vector2};

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
    looks: &Looks,
    factor: f64,
    first_angle: bool,
    told: Frames,
) -> Result<Views, DrawingError> {
    let part = Turned::new(nodes, features)?;
    let mut views = Views::telling(told, looks.units);
    let scale = Scale::new(factor);
    let frame = part.draw_along(&mut views.board, looks, &scale);
    draw_axes(&mut views, &part, &scale, &frame);
    draw_threads(&mut views, &part, &scale);
    let end = if part.needs_end_view() { Some(end_view::plan(&part, &scale, first_angle)) } else { None };
    turned_sizes::dimension(&mut views, &part, looks, &scale, &frame);
    if let Some(end) = end {
        end_view::draw(&mut views, &part, looks, &scale, end);
    }
    mark_groups(&mut views, &part, &scale);
    frames::finish(&mut views);
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
        let mut groups = groups(features)?;
        // a radial hole goes through one wall
        let nearer = |f: &Feature, out: Point3| out.x.hypot(out.y) < f.axis.origin.x.hypot(f.axis.origin.y);
        groups
            .iter_mut()
            .for_each(|g| g.note_way_out(|f, out| f.axis.direction.z.abs() < 0.5 && nearer(f, out)));
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
        let upwards = self.radial_angle();
        let mut taken: Vec<(f64, f64, f64, f64)> = Vec::new();
        for second in [false, true] {
            // what lies radially first: it stands where it does
            let mut order: Vec<usize> = (0..self.groups.len()).collect();
            order.sort_by_key(|i| self.groups[*i].way != Way::Across);
            for i in order {
                let wanted =
                    !second || (self.groups[i].members.len() > 1 && self.groups[i].way != Way::Across);
                let free = |axis: &PlaneAxis| {
                    let f = footprint(&self.groups[i], axis);
                    !taken.iter().any(|t| t.0 < f.1 && f.0 < t.1 && t.2 < f.3 && f.2 < t.3)
                };
                let shown = |a: &PlaneAxis| self.cut.iter().any(|(g, c)| *g == i && c == a);
                let axes = plane_axes(&self.groups[i], upwards);
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
    pub fn is_metal(&self, p: Point2) -> bool {
        self.section.is_metal(Point2::new(p.y, p.x)) || self.section.is_metal(Point2::new(p.y, -p.x))
    }

    /// Whether there is nothing inside to be shown: no features cut, no metal missing between axis and skin.
    pub fn is_solid(&self) -> bool {
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
    pub fn sizes(&self) -> Vec<PlanSize> {
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
        told_as(&mut sizes, group.name);
        sizes
    }

    /// The face from which lengths are given: z = 0, or the lowest face if none lies there.
    fn datum(&self) -> f64 {
        let flats = || self.body.iter().filter(|s| s.form == Form::Flat).map(|s| s.a.y);
        if flats().any(|z| z.abs() < 1e-9) { 0.0 } else { flats().fold(f64::INFINITY, f64::min).min(1e9) }
    }

    /// Lowest and highest z of the body \[mm\].
    pub fn ends(&self) -> (f64, f64) {
        self.nodes.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |e, n| (e.0.min(n.z), e.1.max(n.z)))
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
///
/// `upwards` is the angle about the axis \[rad\] of the upper half for radial ones.
fn plane_axes(group: &Group, upwards: Option<f64>) -> Vec<PlaneAxis> {
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
    let off = upwards.map_or(0.0, |up| angle_of(group.first()) - up);
    if off.cos() > -1e-9 { vec![at(1.0), at(-1.0)] } else { vec![at(-1.0), at(1.0)] }
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

/// The letters of groups beside the axis at their holes in the section, where there are several to be told apart.
fn mark_groups(views: &mut Views, part: &Turned, scale: &Scale) {
    let lies = |g: &Group| g.way != Way::Across && !g.is_coaxial();
    if part.groups.iter().filter(|g| lies(g)).count() < 2 {
        return;
    }
    for (group, axis) in part.cut.iter().filter(|(g, _)| lies(&part.groups[*g])) {
        let mouth = scale.point(axis.origin) - axis.along * 3.0;
        hole_table::mark_cut(views, &part.groups[*group].letter, mouth);
    }
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
pub fn draw_threads(views: &mut Views, part: &Turned, scale: &Scale) {
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
