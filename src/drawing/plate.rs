//! Views of a plate: the front view along Z with its outline and holes, and a section where thickness alone
//! does not tell the rest.

use super::DrawingError;
use super::board::{Board, Frame};
use super::bore;
use super::callout::{Callout, Row, Tip};
use super::cut::{self, Cut};
use super::cut_choice::{self, Manner};
use super::cut_mark;
use super::edge_view;
use super::face::FacePen;
use super::frames::{self, Frames};
use super::group::{Group, Way, groups};
use super::hole_table;
use super::looks::Looks;
use super::outline_sizes;
use super::pen::Pen;
use super::plate_face;
use super::plate_section;
use super::pocket;
use super::texts;
use super::views::{HoleRow, Scale, Views, centre_cross, centre_line};
use crate::shape::loops::Loop;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Feature, Kind, Place, Tag};
use crate::shape::{Point2, Point3};

/// A plate as the views need it.
pub struct Plate<'a> {
    /// Its outside.
    pub outline: &'a Outline,
    /// Its thickness \[mm\].
    pub thickness: f64,
    /// Name and tolerance of the thickness.
    pub tag: &'a Tag,
    /// Its features.
    pub groups: Vec<Group<'a>>,
    /// Where it is cut, if it is.
    pub cut: Option<Cut>,
    /// How the view in its place shows the inside.
    pub manner: Manner,
}

/// Draws all views of a plate.
///
/// # Errors
/// [`DrawingError::Skew`] for a feature that runs neither along nor across Z.
pub fn views(
    (outline, thickness, tag): (&Outline, f64, &Tag),
    features: &[Feature],
    looks: &Looks,
    factor: f64,
    first_angle: bool,
    told: Frames,
) -> Result<Views, DrawingError> {
    let mut groups = groups(features)?;
    let boundary = outline.boundary();
    groups.iter_mut().for_each(|g| g.note_way_out(|f, out| is_inside(&boundary, thickness, f, out)));
    let mut cut = cut_choice::choose(&groups, &boundary, told.want_side());
    let manner = match &mut cut {
        Some(cut) => cut_choice::manner(cut, outline, thickness, &groups),
        None => Manner::Outside,
    };
    let shown = |g: &Group| cut.as_ref().is_some_and(|c| plate_section::in_plane(c, g).is_some());
    groups.iter_mut().for_each(|g| g.height_shown = shown(g));
    let plate = Plate { outline, thickness, tag, groups, cut, manner };
    let mut views = Views::telling(told, looks.units);
    let scale = Scale::new(factor);
    let frame = draw_front(&mut views, &plate, looks, &scale);
    // before the sizes: nearest to the outline its ends are in nobody's way
    if let Some(cut) = plate.cut.as_ref().filter(|_| plate.manner == Manner::Section) {
        cut_mark::draw(&mut views, cut, &scale, &frame);
    }
    outline_sizes::dimension(&mut views, &plate, &scale, &frame);
    mark_datum(&mut views, &plate, &scale);
    outline_sizes::notes(&mut views, &plate, &scale, &frame);
    tell_features(&mut views, &plate, &scale, &frame);
    match &plate.cut {
        Some(cut) => plate_section::draw(&mut views, &plate, cut, looks, factor, first_angle),
        None => tell_thickness(&mut views, &plate, &scale, &frame),
    }
    edge_view::draw(&mut views, &plate, looks, factor, first_angle);
    frames::finish(&mut views);
    views.board.join_centre_lines();
    Ok(views)
}

/// Whether a hole comes out inside a plate: between its faces, or within its outline.
fn is_inside(boundary: &Loop, thickness: f64, f: &Feature, out: Point3) -> bool {
    if f.axis.direction.z.abs() > 0.5 {
        return out.z > 1e-6 && out.z < thickness - 1e-6;
    }
    let p = Point2::new(out.x, out.y);
    boundary.contains(p) && boundary.distance(p) > 1e-6
}

/// Greatest extent of a plate with what stands on it \[mm\].
pub fn longest(outline: &Outline, thickness: f64, features: &[Feature]) -> f64 {
    let (low, high) = outline.boundary().bounds();
    let (bottom, top) = plate_section::heights(thickness, features.iter());
    (high.x - low.x).max(high.y - low.y).max(top - bottom)
}

/// Edges and centre lines of the front view.
fn draw_front(views: &mut Views, plate: &Plate, looks: &Looks, scale: &Scale) -> Frame {
    plate_face::draw(views, plate, looks, scale);
    let (low, high) = plate.outline.boundary().bounds();
    let frame = Frame { low: scale.point(low), high: scale.point(high) };
    let pen = FacePen { from_top: true, scale: *scale };
    for group in &plate.groups {
        for member in &group.members {
            pen.centre_lines(views, member);
        }
        pen.circle_of(views, group);
    }
    outline_centres(&mut views.board, plate.outline, scale);
    frame
}

/// Centre lines of the outline itself.
fn outline_centres(board: &mut Board, outline: &Outline, scale: &Scale) {
    match outline {
        Outline::Disc { centre, diameter, .. } => {
            centre_cross(board, scale.point(*centre), diameter / 2.0 * scale.factor);
        }
        Outline::Hull { circles, .. } => {
            circles.iter().for_each(|(c, r)| centre_cross(board, scale.point(*c), r * scale.factor));
        }
        Outline::Rectangle { low, high, .. } => {
            if (low.x + high.x).abs() < 1e-9 {
                centre_line(
                    board,
                    scale.point(Point2::new(0.0, low.y)),
                    scale.point(Point2::new(0.0, high.y)),
                );
            }
            if (low.y + high.y).abs() < 1e-9 {
                centre_line(
                    board,
                    scale.point(Point2::new(low.x, 0.0)),
                    scale.point(Point2::new(high.x, 0.0)),
                );
            }
        }
        Outline::Free { .. } => {}
    }
}

/// The datum for X and Y: a small circle with `0` (ISO 129-1: origin symbol), where a table needs it.
fn mark_datum(views: &mut Views, plate: &Plate, scale: &Scale) {
    let by_place = |g: &Group| match g.way {
        Way::Across => !matches!(g.first().place, Place::Radial { .. }),
        _ => needs_table(g, plate.outline),
    };
    if plate.groups.iter().any(by_place) {
        let at = scale.point(Point2::new(0.0, 0.0));
        views.board.circle(Pen::Leader, at, 1.5);
        hole_table::mark(views, "0", at, 1.5);
    }
}

/// Whether the places of a group are told by X and Y in the table: all that are given by coordinates, and
/// whatever lies neither on the datum nor on a centre of the outline.
fn needs_table(group: &Group, outline: &Outline) -> bool {
    let centred = |m: &&Feature| is_centre(outline, pocket::place(m));
    match group.first().place {
        Place::Coordinates => !(group.members.len() == 1 && centred(&group.first())),
        Place::Circle { .. } => true,
        Place::Central | Place::Radial { .. } => !group.members.iter().all(centred),
    }
}

/// Whether a place is the datum or a centre of the outline, whose place is dimensioned anyway.
fn is_centre(outline: &Outline, p: Point2) -> bool {
    let near = |c: &Point2| (c.x - p.x).hypot(c.y - p.y) < 1e-6;
    let shape = match outline {
        Outline::Disc { centre, .. } => near(centre),
        Outline::Hull { .. } => is_end(outline, p),
        Outline::Rectangle { .. } | Outline::Free { .. } => false,
    };
    shape || near(&Point2::new(0.0, 0.0))
}

/// Whether a place is the centre of one of the rounded ends of the outline, which has dimensions there.
fn is_end(outline: &Outline, p: Point2) -> bool {
    matches!(outline, Outline::Hull { circles, .. } if circles.iter().any(|(c, _)| (c.x - p.x).hypot(c.y - p.y) < 1e-6))
}

/// Call-outs and table rows of all features.
fn tell_features(views: &mut Views, plate: &Plate, scale: &Scale, frame: &Frame) {
    let pen = FacePen { from_top: true, scale: *scale };
    for group in plate.groups.iter().filter(|g| g.way != Way::Across) {
        let dimensioned = plate.cut.as_ref().is_some_and(|c| plate_section::in_plane(c, group).is_some());
        let boss = matches!(group.first().kind, Kind::Boss { .. }) && dimensioned;
        if needs_table(group, plate.outline) {
            let told = |p: Point2| is_end(plate.outline, p);
            tell_in_table(views, group, &pen, frame, boss, &told);
        } else if !boss {
            views.sizes.extend(pocket::corners(group.first()));
            call_out(views, group, group.size_rows(true), &pen, frame);
        }
    }
    let untold = |g: &&Group| g.way == Way::Across && !edge_view::tells(&plate.groups, g);
    for group in plate.groups.iter().filter(untold) {
        let rows = group.size_rows(true).into_iter().chain(side_place(group, plate.cut.as_ref())).collect();
        call_out(views, group, rows, &pen, frame);
    }
}

/// A group told in the hole table; a group on a circle has its call-out at the view as well.
fn tell_in_table(
    views: &mut Views,
    group: &Group,
    pen: &FacePen,
    frame: &Frame,
    boss: bool,
    told: &dyn Fn(Point2) -> bool,
) {
    let letter = &group.letter;
    let mut rows = if boss { Vec::new() } else { group.size_rows(true) };
    let wanted = rows.iter().any(|r| views.frames.want(&r.sizes));
    let from = views.holes.len();
    if wanted || matches!(group.first().place, Place::Circle { .. }) {
        rows.extend(group.place_rows());
        if let Some(first) = rows.first_mut() {
            first.text = format!("{letter}: {}", first.text);
        }
        call_out(views, group, rows, pen, frame);
    } else if boss {
        views.holes.push(HoleRow::Group(letter.clone(), vec![Row::new(group.name.replace('-', " "), &[])]));
    } else {
        views.holes.push(HoleRow::Group(letter.clone(), rows));
    }
    hole_table::add(views, group, &|p: Point2| pen.at(p.x, p.y), pen.scale.factor, told);
    views.frames.mark_exact(group.name, &mut views.holes[from..]);
}

/// A call-out with its leader to any member of a group.
fn call_out(views: &mut Views, group: &Group, rows: Vec<Row>, pen: &FacePen, frame: &Frame) {
    let targets = group.members.iter().flat_map(|m| pen.rim_targets(m)).collect();
    let callout = Callout { rows, targets, tip: Tip::Arrow, along: None };
    match group.first().place {
        Place::Circle { .. } => views.call_out_first(&callout, pen.rim_targets(group.first()), frame),
        _ => views.call_out(&callout, frame),
    }
}

/// Place of features in the edge of the plate: along the edge or around the axis, and in height unless the
/// section shows that.
fn side_place(group: &Group, cut: Option<&Cut>) -> Vec<Row> {
    let name = |suffix: &str| format!("{}-{suffix}", group.name);
    let z = group.first().axis.origin.z;
    let in_section = cut.is_some_and(|c| plate_section::shows(c, group));
    let height = (!in_section).then(|| Row::new(format!("{} from back face", texts::plain(z)), &[name("z")]));
    if let Place::Radial { .. } = group.first().place {
        return group.place_rows().into_iter().chain(height).collect();
    }
    let along_x = |m: &Feature| m.axis.direction.x.abs() > 0.5;
    let letter = if along_x(group.first()) { "Y" } else { "X" };
    let mut places: Vec<String> = group
        .members
        .iter()
        .map(|m| texts::plain(if along_x(m) { m.axis.origin.y } else { m.axis.origin.x }))
        .collect();
    if places.iter().all(|p| *p == places[0]) {
        places.truncate(1);
    }
    let place = Row::new(format!("at {letter} {}", places.join(" / ")), &[name(&letter.to_lowercase())]);
    std::iter::once(place).chain(height).collect()
}

/// The thickness of a plate that needs no second view: `t = 1` on its face.
fn tell_thickness(views: &mut Views, plate: &Plate, scale: &Scale, frame: &Frame) {
    let text = format!("t = {}", texts::toleranced(plate.thickness, &plate.tag.tolerance));
    let rows = vec![Row::new(text, std::slice::from_ref(&plate.tag.name))];
    let targets = face_points(plate).into_iter().map(|p| scale.point(p)).collect();
    views.call_out(&Callout { rows, targets, tip: Tip::Dot, along: None }, frame);
}

/// Points on the face of the plate, clear of its edges and holes.
fn face_points(plate: &Plate) -> Vec<Point2> {
    let boundary = plate.outline.boundary();
    let (low, high) = boundary.bounds();
    let holes = |p: Point2| plate.groups.iter().flat_map(|g| &g.members).all(|m| clear_of(m, p));
    let grid = (1..24).flat_map(|i| (1..24).map(move |j| (f64::from(i) / 24.0, f64::from(j) / 24.0)));
    let points = grid.map(|(i, j)| Point2::new(low.x + (high.x - low.x) * i, low.y + (high.y - low.y) * j));
    let air = 0.01 * (high.x - low.x);
    let mut open: Vec<Point2> =
        points.filter(|p| boundary.contains(*p) && boundary.distance(*p) > air && holes(*p)).collect();
    let step = (open.len() / 24).max(1);
    open = open.into_iter().step_by(step).collect();
    if open.is_empty() {
        // a strip too narrow for a dot: its edge will do
        open = boundary.pieces().iter().flat_map(|piece| [0.3, 0.7].map(|t| piece.at(t))).collect();
    }
    open
}

/// Whether a point is clear of a feature.
fn clear_of(f: &Feature, p: Point2) -> bool {
    let d = (f.axis.origin.x - p.x).hypot(f.axis.origin.y - p.y);
    match &f.kind {
        Kind::Bore { chain, .. } | Kind::Boss { chain } => d > bore::widest(chain) + 0.2,
        Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => !cut::in_front(f, outline).contains(p),
    }
}
