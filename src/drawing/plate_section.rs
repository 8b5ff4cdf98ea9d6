//! The section A-A of a plate, placed by the projection method: thickness, bosses, and the inside of bores.

use super::board::Frame;
use super::bore;
use super::broken;
use super::callout::{Callout, Row, Tip};
use super::cut::{Cut, CutFeature, in_front};
use super::cut_choice::Manner;
use super::edge_view;
use super::frame_map::PlaneAxis;
use super::group::{Group, Way};
use super::lanes::{Linear, Side};
use super::looks::Looks;
use super::pen::Pen;
use super::plan::{Measure, PlanSize, Profile, plan, told_as};
use super::plate::Plate;
use super::section::Section;
use super::surface::surfaces;
use super::texts;
use super::turned::inside_thread;
use super::views::{Scale, Views, draw_section, title_above};
use crate::shape::loops::{Loop, Piece};
use crate::shape::project::View;
use crate::shape::recipe::{Feature, Kind, ProfileNode};
use crate::shape::{Point2, Point3, Vector2};

/// Air between the views \[mm\].
const BETWEEN: f64 = 16.0;

/// The section in its place.
struct Shown<'a> {
    plate: &'a Plate<'a>,
    cut: &'a Cut,
    scale: Scale,
    frame: Frame,
    planes: Vec<Section>,
}

/// Draws the section beside the front view: below or to the right in first angle, above or to the left in
/// third angle.
pub fn draw(views: &mut Views, plate: &Plate, cut: &Cut, looks: &Looks, factor: f64, first_angle: bool) {
    let (planes, features) = cut.sections(&plate.outline.boundary(), plate.thickness, &plate.groups);
    let scale = place(views, plate, cut, factor, first_angle);
    let (view, sections) = match plate.manner {
        Manner::Outside => (cut.side(), Vec::new()),
        Manner::Section | Manner::Half => (cut.view(), planes.clone()),
        Manner::Broken => broken_open(plate, cut, &planes, &features, factor),
    };
    let edges: Vec<Piece> = sections.iter().flat_map(Section::edges).collect();
    let metal = |p: Point2| sections.iter().any(|s| s.is_metal(p));
    let board = &mut views.board;
    let number = looks.draw_behind(board, name_of(plate.manner), &view, &scale, &metal, &edges);
    draw_section(board, &sections, &edges, &scale, number);
    let frame = board.view_frame(number);
    if plate.manner == Manner::Broken {
        sections.iter().for_each(|s| broken::draw_border(board, s, &scale));
    }
    let shown = Shown { plate, cut, scale, frame, planes };
    shown.centre_lines(views, &features);
    shown.dimension(views);
}

/// What the view is called in the file.
fn name_of(manner: Manner) -> &'static str {
    match manner {
        Manner::Section => "A-A",
        Manner::Outside | Manner::Half | Manner::Broken => "side",
    }
}

/// The view from outside with the holes in the plane broken open, each on its own.
fn broken_open(
    plate: &Plate,
    cut: &Cut,
    planes: &[Section],
    features: &[CutFeature],
    factor: f64,
) -> (View, Vec<Section>) {
    let (mut view, mut sections) = (cut.side(), Vec::new());
    let mut borders: Vec<Loop> = Vec::new();
    for f in features {
        let feature = plate.groups[f.group].first();
        let border =
            broken::border(feature, &f.axis, factor).filter(|_| matches!(feature.kind, Kind::Bore { .. }));
        if let Some(border) = border.filter(|b| !borders.iter().any(|other| broken::collide(other, b))) {
            view = view.cut_within(cut.height(&cut.steps[0]), border.clone());
            sections.extend(planes.iter().map(|p| p.clone().within(&border)));
            borders.push(border);
        }
    }
    (view, sections)
}

/// Whether the section shows the height of a group of holes in the edge.
pub fn shows(cut: &Cut, group: &Group) -> bool {
    let f = group.first();
    let d = cut.direction(f.axis.direction);
    group.way == Way::Across && (d.x.hypot(d.y) - 1.0).abs() < 1e-9 && cut.distance(f.axis.origin) < 1e-6
}

/// The member of a group that lies in the plane of the cut.
pub fn in_plane<'a>(cut: &Cut, group: &Group<'a>) -> Option<&'a Feature> {
    group.members.iter().copied().find(|m| cut.distance(m.axis.origin) < 1e-6)
}

/// Lowest and highest z of a plate with all that stands on it \[mm\].
pub fn heights<'a>(thickness: f64, features: impl Iterator<Item = &'a Feature>) -> (f64, f64) {
    let top = |f: &Feature| match &f.kind {
        Kind::Boss { chain } => f.axis.origin.z + f.axis.direction.z * bore::deepest(chain),
        Kind::Pad { height, .. } => f.axis.origin.z + f.axis.direction.z * height,
        _ => f.axis.origin.z.clamp(0.0, thickness),
    };
    features.map(top).chain([0.0, thickness]).fold((0.0, 0.0), |e, z| (e.0.min(z), e.1.max(z)))
}

/// All features of a plate.
fn features<'a>(plate: &'a Plate) -> impl Iterator<Item = &'a Feature> {
    plate.groups.iter().flat_map(|g| g.members.iter().copied())
}

/// Scale and origin of the section view.
pub fn place(views: &Views, plate: &Plate, cut: &Cut, factor: f64, first_angle: bool) -> Scale {
    let bounds = views.board.bounds();
    let (low, high) = heights(plate.thickness, features(plate));
    let ends = [low * factor * cut.rise(), high * factor * cut.rise()];
    let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
    // in first angle a view stands on the other side of the part than its eye
    let origin = match (cut.level, first_angle != cut.far) {
        (true, true) => Point2::new(0.0, bounds.low.y - BETWEEN - high),
        (true, false) => Point2::new(0.0, bounds.high.y + BETWEEN - low),
        (false, true) => Point2::new(bounds.high.x + BETWEEN - low, 0.0),
        (false, false) => Point2::new(bounds.low.x - BETWEEN - high, 0.0),
    };
    Scale { factor, origin }
}

impl Shown<'_> {
    /// Centre lines and threads of all features that lie in the plane.
    fn centre_lines(&self, views: &mut Views, features: &[CutFeature]) {
        for f in features {
            let feature = self.plate.groups[f.group].first();
            let Some((chain, ..)) = bore::turned(feature) else { continue };
            let end = f.axis.origin + f.axis.along * bore::deepest(chain);
            let over = f.axis.along * 3.0;
            let (a, b) = (self.scale.point(f.axis.origin), self.scale.point(end));
            views.board.line(Pen::Centre, a - over, b + over);
            if let Kind::Bore { chain, thread: Some(thread), .. } = &feature.kind {
                inside_thread(views, chain, thread, &f.axis, &self.scale);
            }
        }
    }

    /// Thickness and bosses.
    fn dimension(&self, views: &mut Views) {
        let mut lanes = vec![self.thickness()];
        let mut notes: Vec<(Row, Vec<Point2>)> = Vec::new();
        for group in &self.plate.groups {
            if let (Kind::Boss { chain }, Some(member)) = (&group.first().kind, in_plane(self.cut, group)) {
                self.boss(group.name, member, chain, &mut lanes, &mut notes);
            }
            if let (Kind::Pad { outline, height }, Some(member)) =
                (&group.first().kind, in_plane(self.cut, group))
            {
                lanes.push(self.pad(member, outline, *height));
            }
            if shows(self.cut, group) && !edge_view::tells(&self.plate.groups, group) {
                lanes.push(self.side_height(group));
            }
        }
        lanes.extend(self.overall());
        let (near, far) = self.sides();
        let (edge_near, edge_far) = (self.edge(near), self.edge(far));
        let middle = if self.cut.level { self.frame.centre().x } else { self.frame.centre().y };
        let is_near = |l: &Linear| l.feet[1] < middle;
        let (left, right): (Vec<Linear>, Vec<Linear>) = lanes.into_iter().partition(is_near);
        views.lanes(near, edge_near, left, &[]);
        views.lanes(far, edge_far, right, &[]);
        if self.plate.manner == Manner::Section {
            title_above(&mut views.board, name_of(self.plate.manner), &self.frame, 5.0);
        }
        for (row, targets) in notes {
            views.call_out(&Callout { rows: vec![row], targets, tip: Tip::Arrow, along: None }, &self.frame);
        }
    }

    /// Sides of the view along which heights are dimensioned.
    fn sides(&self) -> (Side, Side) {
        if self.cut.level { (Side::Left, Side::Right) } else { (Side::Below, Side::Above) }
    }

    /// Edge of the view on a side.
    fn edge(&self, side: Side) -> f64 {
        match side {
            Side::Left => self.frame.low.x,
            Side::Right => self.frame.high.x,
            Side::Below => self.frame.low.y,
            Side::Above => self.frame.high.y,
        }
    }

    /// The thickness of the plate.
    fn thickness(&self) -> Linear {
        let (low, _) = self.plate.outline.boundary().bounds();
        let (x, y) = (low.x, low.y);
        let mut linear = self.height(
            Point3::new(x, y, 0.0),
            Point3::new(x, y, self.plate.thickness),
            texts::toleranced(self.plate.thickness, &self.plate.tag.tolerance),
            vec![self.plate.tag.name.clone()],
        );
        // from what is shown: the cut may leave but a part of the plate
        linear.feet = [if self.cut.level { self.frame.low.x } else { self.frame.low.y }; 2];
        linear
    }

    /// The height of a pad, at its far side.
    fn pad(&self, member: &Feature, outline: &Loop, height: f64) -> Linear {
        let (_, high) = in_front(member, outline).bounds();
        let foot = Point3::new(high.x, high.y, member.axis.origin.z);
        self.height(foot, foot + member.axis.direction * height, texts::plain(height), Vec::new())
    }

    /// The height of the plate with all that stands on it, in brackets: it follows from the others (ISO 129-1).
    fn overall(&self) -> Option<Linear> {
        let (low, high) = heights(self.plate.thickness, features(self.plate));
        let more = low < -1e-9 || high > self.plate.thickness + 1e-9;
        let corner = self.plate.outline.boundary().bounds().0;
        let at = |z: f64| Point3::new(corner.x, corner.y, z);
        more.then(|| self.height(at(low), at(high), format!("({})", texts::plain(high - low)), Vec::new()))
    }

    /// Height of a hole in the edge above the lower face.
    fn side_height(&self, group: &Group) -> Linear {
        let o = group.first().axis.origin;
        let name = vec![format!("{}-z", group.name)];
        self.height(Point3::new(o.x, o.y, 0.0), o, texts::plain(o.z.abs()), name)
    }

    /// A dimension along z between two points.
    fn height(&self, from: Point3, to: Point3, text: String, sizes: Vec<String>) -> Linear {
        let (a, b) = (self.scale.point(self.cut.project(from)), self.scale.point(self.cut.project(to)));
        match self.cut.level {
            true => Linear { from: a.y, to: b.y, feet: [a.x, b.x], text, sizes },
            false => Linear { from: a.x, to: b.x, feet: [a.y, b.y], text, sizes },
        }
    }

    /// Sizes of one boss: lengths in lanes, diameters and bevels with leaders.
    fn boss(
        &self,
        name: &str,
        feature: &Feature,
        chain: &[ProfileNode],
        lanes: &mut Vec<Linear>,
        notes: &mut Vec<(Row, Vec<Point2>)>,
    ) {
        let axis = PlaneAxis {
            origin: self.cut.project(feature.axis.origin),
            along: self.cut.direction(feature.axis.direction),
        };
        let list = surfaces(chain, false);
        let is_metal = |p: Point2| match &self.planes[..] {
            [one] => one.is_filled(axis.point(p, 1.0)),
            steps => steps.iter().any(|s| s.is_metal(axis.point(p, 1.0))),
        };
        let profile = Profile { surfaces: &list, closed: false, datum: 0.0, stem: name, is_metal: &is_metal };
        let mut sizes = plan(&profile);
        told_as(&mut sizes, name);
        for size in sizes {
            self.boss_size(&axis, size, lanes, notes);
        }
    }

    /// Sorts one size of a boss.
    fn boss_size(
        &self,
        axis: &PlaneAxis,
        size: PlanSize,
        lanes: &mut Vec<Linear>,
        notes: &mut Vec<(Row, Vec<Point2>)>,
    ) {
        let at = |r: f64, z: f64, side: f64| self.scale.point(axis.point(Point2::new(r, z), side));
        let both = |r: f64, z: f64| [1.0, -1.0].map(|s| at(r, z, s)).to_vec();
        let texture = size.ra.map_or_else(String::new, |ra| format!(" {}", texts::texture(ra)));
        let row = Row::new(size.text.clone() + &texture, &size.names);
        match size.measure {
            Measure::Place(p) => notes.push((row, both(p.x, p.y))),
            Measure::Diameter { r, low, high, .. } => {
                let targets = [0.5, 0.3, 0.7].iter().flat_map(|t| both(r, low + (high - low) * t)).collect();
                notes.push((row, targets));
            }
            Measure::Length { from, to, r, .. } => {
                let side = self.outer_side(axis);
                let (a, b) = (at(r, from, side), at(r, to, side));
                let linear = match self.cut.level {
                    true => {
                        Linear { from: a.y, to: b.y, feet: [a.x, b.x], text: size.text, sizes: size.names }
                    }
                    false => {
                        Linear { from: a.x, to: b.x, feet: [a.y, b.y], text: size.text, sizes: size.names }
                    }
                };
                lanes.push(linear);
            }
        }
    }

    /// The side of an axis that looks away from the middle of the view.
    fn outer_side(&self, axis: &PlaneAxis) -> f64 {
        let o = self.scale.point(axis.origin);
        let out: Vector2 = axis.outward(1.0);
        let from_middle = o - self.frame.centre();
        if out.x * from_middle.x + out.y * from_middle.y >= 0.0 { 1.0 } else { -1.0 }
    }
}
