//! The view of a turned part along its axis: a full section, or the outside of a shaft.

use super::board::{Board, Frame};
use super::frame_map::PlaneAxis;
use super::group::Way;
use super::looks::{Looks, note};
use super::pen::Pen;
use super::turned::Turned;
use super::views::{Scale, draw_section};
use crate::shape::loops::wrap;
use crate::shape::project::{Flat, View};
use crate::shape::recipe::Feature;
use crate::shape::{Point2, Vector3};
use std::f64::consts::PI;

impl Turned<'_> {
    /// Draws the view along the axis: a full section, or the outside of a shaft (shafts are not cut, ISO 128-3). Returns
    /// its frame on the paper.
    pub fn draw_along(&self, board: &mut Board, looks: &Looks, scale: &Scale) -> Frame {
        let angle = self.plane_angle();
        let up =
            angle.or(self.radial_angle()).map_or(Vector3::unit_x(), |a| Vector3::new(a.cos(), a.sin(), 0.0));
        let view = View::new(Vector3::unit_z().cross(up), Vector3::unit_z());
        if self.is_solid() && angle.is_some() {
            return looks.draw(board, "side", &view, scale);
        }
        let edges = self.section.edges();
        let cut = view.cut_at(0.0);
        if angle.is_some() {
            let metal = |p: Point2| self.section.is_metal(p);
            let number = looks.draw_behind(board, "section", &cut, scale, &metal, &edges);
            return draw_section(board, std::slice::from_ref(&self.section), &edges, scale, number);
        }
        // features are turned into the plane (ISO 128-3), so that no one view shows them
        let number = note(board, "turned-section", &cut, scale);
        for rim in self.section.seen_rims() {
            board.edge(Pen::Visible, Flat::Piece(scale.piece(&rim)), number);
        }
        draw_section(board, std::slice::from_ref(&self.section), &edges, scale, number)
    }

    /// The angle about the axis \[rad\] at which the upper half is cut, if all features that are shown lie in one plane there,
    /// and none that is not shown.
    fn plane_angle(&self) -> Option<f64> {
        let off_axis = |(g, _): &&(usize, PlaneAxis)| !self.groups[*g].is_coaxial();
        let shown: Vec<Vec<f64>> = self.cut.iter().filter(off_axis).map(|c| self.upper_angles(c)).collect();
        let Some(first) = shown.first() else { return Some(0.0) };
        let lies_there = |angle: f64| shown.iter().all(|s| s.iter().any(|a| same(*a, angle)));
        let fits = |a: &&f64| lies_there(**a) && self.in_plane(**a) <= shown.len();
        first.iter().filter(fits).copied().min_by(|a, b| off_upright(*a).total_cmp(&off_upright(*b)))
    }

    /// The angle about the axis \[rad\] of the radial feature that is shown in the upper half.
    pub fn radial_angle(&self) -> Option<f64> {
        let across = self.groups.iter().filter(|g| g.way == Way::Across).flat_map(|g| &g.members);
        across.map(|m| angle_of(m)).min_by(|a, b| off_upright(*a).total_cmp(&off_upright(*b)))
    }

    /// Angles \[rad\] of the upper half of a plane in which members of a group lie as they are shown.
    fn upper_angles(&self, (group, axis): &(usize, PlaneAxis)) -> Vec<f64> {
        let side = if axis.origin.y.abs() < 1e-9 { -axis.along.y } else { axis.origin.y };
        let turned = if side < 0.0 { PI } else { 0.0 };
        self.groups[*group].members.iter().map(|m| wrap(angle_of(m) - turned)).collect()
    }

    /// How many features off the axis lie in the plane at an angle \[rad\].
    fn in_plane(&self, angle: f64) -> usize {
        let off_axis = self.groups.iter().filter(|g| !g.is_coaxial()).flat_map(|g| &g.members);
        off_axis.filter(|m| same(angle_of(m), angle) || same(angle_of(m), angle + PI)).count()
    }
}

/// How far an angle is from upwards, as the view along the axis stands \[rad\]: there a section needs no turning.
fn off_upright(angle: f64) -> f64 {
    (wrap(angle - PI / 2.0 + PI) - PI).abs()
}

/// Angle of a feature's place about the axis \[rad\].
pub fn angle_of(f: &Feature) -> f64 {
    f.axis.origin.y.atan2(f.axis.origin.x)
}

/// Whether two angles are the same \[rad\].
fn same(a: f64, b: f64) -> bool {
    (wrap(a - b + PI) - PI).abs() < 1e-6
}
