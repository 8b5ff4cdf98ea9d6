//! The solid while it is made: faces so far, and the features added to them one after another.

use super::chain::{self, number};
use super::clash::Made;
use super::error::SolidError;
use super::frame::Frame;
use super::prism::lid;
use super::skin::Skin;
use super::split;
use super::surface::Surface;
use super::turn::{Turning, leaves};
use super::wall::Sweep;
use crate::shape::InnerSpace;
use crate::shape::loops::Loop;
use crate::shape::recipe::{Body, Feature, Kind, ProfileNode, Recipe};

/// Faces so far.
pub(super) struct Draft<'a> {
    recipe: &'a Recipe,
    pub skins: Vec<Skin>,
    pub made: Vec<Made>,
}

impl<'a> Draft<'a> {
    /// The body without its features.
    pub fn body(recipe: &'a Recipe) -> Result<Self, SolidError> {
        let frame = Frame::world();
        let angles = split::angles(&centre_of(recipe), &recipe.features);
        let turning = Turning { frame, angles, maker: 0, what: "body" };
        let skins = match &recipe.body {
            Body::Turned(nodes) => turned(&turning, nodes)?,
            Body::Plate { outline, thickness, .. } => plate(turning, &outline.boundary(), *thickness)?,
        };
        Ok(Self { recipe, skins, made: Vec::new() })
    }

    /// Adds feature number `i`.
    pub fn add(&mut self, i: usize) -> Result<(), SolidError> {
        let feature = &self.recipe.features[i];
        check_axis(feature)?;
        let maker = i + 1;
        match &feature.kind {
            Kind::Bore { chain, end, .. } => self.bore(&self.turning(feature, maker), chain, *end),
            Kind::Boss { chain } => self.boss(&self.turning(feature, maker), chain),
            Kind::Pocket { outline, depth, through } => {
                let sweep = self.sweep(feature, maker, outline, *depth, false)?;
                self.pocket(&sweep, outline, *through)
            }
            Kind::Pad { outline, height } => {
                let sweep = self.sweep(feature, maker, outline, *height, true)?;
                self.pad(&sweep, outline)
            }
        }
    }

    fn turning(&self, feature: &'a Feature, maker: usize) -> Turning<'a> {
        let frame = Frame::about(feature.axis.origin, feature.axis.direction);
        let angles = split::angles(&frame, &self.recipe.features);
        Turning { frame, angles, maker, what: &feature.name }
    }

    fn sweep(
        &self,
        feature: &'a Feature,
        maker: usize,
        outline: &Loop,
        height: f64,
        metal_inside: bool,
    ) -> Result<Sweep<'a>, SolidError> {
        let (what, a) = (feature.name.as_str(), feature.axis);
        if !(height.is_finite() && height > chain::TINY) {
            return Err(number(what, format!("depth or height {height} mm is not positive")));
        }
        let x = feature.x_axis;
        if (x.magnitude() - 1.0).abs() > 1e-6 || x.dot(a.direction).abs() > 1e-6 {
            return Err(number(
                what,
                "its x axis is not a unit direction square to its direction".to_owned(),
            ));
        }
        let frame = Frame::new(a.origin, a.direction, x);
        let centre = match outline {
            Loop::Circle { centre, .. } => Frame { origin: frame.point(centre.x, centre.y, 0.0), ..frame },
            Loop::Path(_) => frame,
        };
        let angles = split::angles(&centre, &self.recipe.features);
        Ok(Sweep { turning: Turning { frame, angles, maker, what }, height, metal_inside })
    }

    /// Name of what made a face.
    pub(super) fn name(&self, maker: usize) -> String {
        match maker.checked_sub(1).and_then(|i| self.recipe.features.get(i)) {
            Some(feature) => feature.name.clone(),
            None => "body".to_owned(),
        }
    }
}

/// The axis about which the body's own cylinders lie, as far as one matters for the split.
fn centre_of(recipe: &Recipe) -> Frame {
    let frame = Frame::world();
    match &recipe.body {
        Body::Turned(_) => frame,
        Body::Plate { outline, .. } => match outline.boundary() {
            Loop::Circle { centre, .. } => Frame { origin: frame.point(centre.x, centre.y, 0.0), ..frame },
            Loop::Path(_) => frame,
        },
    }
}

fn turned(turning: &Turning, nodes: &[ProfileNode]) -> Result<Vec<Skin>, SolidError> {
    let corners = chain::closed(nodes, turning.what)?;
    let mut stations =
        corners.iter().map(|c| turning.station(c.at.x, c.at.y)).collect::<Result<Vec<_>, _>>()?;
    stations.extend(stations.first().cloned());
    turning.faces(&stations, &leaves(&corners))
}

fn plate(turning: Turning, outline: &Loop, thickness: f64) -> Result<Vec<Skin>, SolidError> {
    if !(thickness.is_finite() && thickness > chain::TINY) {
        return Err(number(turning.what, format!("thickness {thickness} mm is not positive")));
    }
    let sweep = Sweep { turning, height: thickness, metal_inside: true };
    let walls = sweep.walls(outline)?;
    let bottom = Surface::Plane(Frame { z: -turning.frame.z, ..turning.frame });
    let mut skins = vec![Skin {
        surface: bottom,
        outward: true,
        loops: vec![walls.base.inverse()],
        maker: turning.maker,
    }];
    skins.push(lid(&sweep, walls.top, 1.0));
    skins.extend(walls.skins);
    Ok(skins)
}

fn check_axis(feature: &Feature) -> Result<(), SolidError> {
    let (o, d) = (feature.axis.origin, feature.axis.direction);
    let finite = [o.x, o.y, o.z, d.x, d.y, d.z].iter().all(|v| v.is_finite());
    if !finite || (d.magnitude() - 1.0).abs() > 1e-6 {
        return Err(number(
            &feature.name,
            "its origin is not finite or its direction not a unit direction".into(),
        ));
    }
    Ok(())
}
