//! Vents through which the space behind the piston breathes.

use super::kit::{along, lift, through};
use crate::shape::Point2;
use crate::shape::loops::polar;
use crate::shape::recipe::{Feature, Place, Tag};
use crate::sizing::engine::BackPlate;

/// Holes of a back plate at these angles \[deg\] about the power cylinder's axis at `centre`.
pub fn vents(back: &BackPlate, centre: Point2, angles_deg: [f64; 4]) -> Vec<Feature> {
    let (_, diameter, circle) = back.vents;
    let t = back.thickness_mm;
    let place = Place::Circle { centre, diameter: circle, angles_deg: angles_deg.to_vec() };
    let one = |deg: &f64| {
        let at = lift(polar(centre, circle / 2.0, deg.to_radians()), t);
        through(at, along(0.0, 0.0, -1.0), diameter, t, Tag::new("vent").origin("back.vent_diameter"))
            .placed(place.clone())
    };
    angles_deg.iter().map(one).collect()
}
