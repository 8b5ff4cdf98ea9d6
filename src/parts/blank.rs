//! Stock to start from, as a recipe and as a solid in the part's coordinates.

use super::part::Blank;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::shape::solid::{Solid, SolidError, build};
use crate::shape::{Point2, Vector3};

impl Blank {
    /// Recipe of the stock with its lower end at z = 0; [`Blank::z_low`] says where that lies.
    pub fn recipe(&self) -> Recipe {
        let body = match self {
            Blank::Round { diameter, length, .. } => round(*diameter, *length),
            Blank::Block { low, high } => Body::Plate {
                outline: Outline::Rectangle {
                    low: Point2::new(low.x, low.y),
                    high: Point2::new(high.x, high.y),
                    corner: 0.0,
                    tags: [Tag::new("width"), Tag::new("height")],
                },
                thickness: high.z - low.z,
                tag: Tag::new("thickness"),
            },
        };
        Recipe { body, features: Vec::new() }
    }

    /// z of the lower end in the part's coordinates \[mm\].
    pub fn z_low(&self) -> f64 {
        match self {
            Blank::Round { z_low, .. } => *z_low,
            Blank::Block { low, .. } => low.z,
        }
    }

    /// The stock where it lies round the part.
    ///
    /// # Errors
    /// A size that is not positive or not a number.
    pub fn solid(&self) -> Result<Solid, SolidError> {
        Ok(build(&self.recipe())?.moved(Vector3::unit_z() * self.z_low()))
    }
}

fn round(diameter: f64, length: f64) -> Body {
    Body::Turned(vec![
        ProfileNode::new(0.0, 0.0),
        ProfileNode::new(diameter / 2.0, 0.0).tag(Tag::new("diameter")),
        ProfileNode::new(diameter / 2.0, length).tag(Tag::new("length")),
        ProfileNode::new(0.0, length),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Point3;
    use crate::shape::measure::measure;

    #[test]
    fn stock_lies_round_the_part() {
        let bar = Blank::Round { diameter: 30.0, length: 42.0, z_low: -1.0 };
        let m = measure(&bar.solid().expect("a bar"));
        assert!((m.volume_mm3 - std::f64::consts::PI * 225.0 * 42.0).abs() < 1e-9);
        assert!((m.low.z + 1.0).abs() < 1e-12 && (m.high.z - 41.0).abs() < 1e-12);
        let block = Blank::Block { low: Point3::new(-3.0, -4.0, -2.0), high: Point3::new(10.0, 5.0, 6.0) };
        let m = measure(&block.solid().expect("a block"));
        assert!((m.volume_mm3 - 13.0 * 9.0 * 8.0).abs() < 1e-9);
        assert!((m.low.z + 2.0).abs() < 1e-12 && (m.low.x + 3.0).abs() < 1e-12);
        assert!(Blank::Round { diameter: -1.0, length: 1.0, z_low: 0.0 }.solid().is_err());
    }
}
