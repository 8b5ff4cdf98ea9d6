//! The front view of a plate: its edges and holes, with holes in the edge broken open where no section shows them.

use super::bore;
use super::broken;
use super::group::Way;
use super::looks::Looks;
use super::plate::Plate;
use super::plate_section;
use super::section::Section;
use super::turned::inside_thread;
use super::views::{Scale, Views, draw_section};
use crate::shape::loops::{Loop, Piece};
use crate::shape::project::View;
use crate::shape::recipe::{Feature, Kind};
use crate::shape::{Point2, Vector3};

/// Longest and widest hole that is broken open on the paper \[mm\]; the edges of larger ones are dashed.
const LARGEST_OPENED: [f64; 2] = [60.0, 30.0];

/// The front view, with one hole of each group in the edge broken open unless the section shows it.
pub fn draw(views: &mut Views, plate: &Plate, looks: &Looks, scale: &Scale) {
    let boundary = plate.outline.boundary();
    let mut view = View::new(Vector3::unit_z(), Vector3::unit_x());
    let mut sections: Vec<Section> = Vec::new();
    let mut opened: Vec<&Feature> = Vec::new();
    let mut borders: Vec<Loop> = Vec::new();
    for group in plate.groups.iter().filter(|g| g.way == Way::Across) {
        if plate.cut.as_ref().is_some_and(|c| plate_section::shows(c, group)) {
            continue;
        }
        let border = |m: &Feature| broken::border(m, &broken::in_face(m), scale.factor);
        let fits = |b: &Loop| !borders.iter().any(|other| broken::collide(other, b));
        let found = group.members.iter().find_map(|m| Some((*m, border(m).filter(&fits)?)));
        if let Some((member, border)) = found.filter(|(m, _)| is_small(m, scale)) {
            let z = member.axis.origin.z;
            view = view.cut_within(z, border.clone());
            sections.push(broken::face_section(&boundary, &plate.groups, z).within(&border));
            opened.push(member);
            borders.push(border);
        }
    }
    let edges: Vec<Piece> = sections.iter().flat_map(Section::edges).collect();
    let metal = |p: Point2| sections.iter().any(|s| s.is_metal(p));
    let number = looks.draw_behind(&mut views.board, "front", &view, scale, &metal, &edges);
    draw_section(&mut views.board, &sections, &edges, scale, number);
    sections.iter().for_each(|s| broken::draw_border(&mut views.board, s, scale));
    for f in opened {
        if let Kind::Bore { chain, thread: Some(thread), .. } = &f.kind {
            inside_thread(views, chain, thread, &broken::in_face(f), scale);
        }
    }
}

/// Whether a hole is small enough on the paper to be broken open.
fn is_small(f: &Feature, scale: &Scale) -> bool {
    let [long, wide] = LARGEST_OPENED.map(|v| v / scale.factor);
    bore::turned(f).is_some_and(|(chain, ..)| bore::deepest(chain) < long && 2.0 * bore::widest(chain) < wide)
}
