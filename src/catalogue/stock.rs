//! Sizes of bars, flats and tubes that metal dealers keep, and cans that a builder found.

use super::table::{Listed, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// Shape of a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BarShape {
    /// Round bar.
    Round,
    /// Square bar.
    Square,
    /// Flat bar or plate.
    Flat,
    /// Round tube.
    Tube,
}

impl BarShape {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Round => "round",
            Self::Square => "square",
            Self::Flat => "flat",
            Self::Tube => "tube",
        }
    }
}

/// A size that dealers keep.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct BarSize {
    /// Family of materials, for example `aluminium`; [`super::materials::Material::stock`] names it.
    pub family: String,
    /// Shape.
    pub shape: BarShape,
    /// Diameter of a round or tube, side of a square, width of a flat \[mm\].
    pub size_mm: f64,
    /// Thickness of a flat, wall of a tube \[mm\].
    pub thickness_mm: Option<f64>,
    /// Whether it was read or recalled.
    pub status: String,
}

impl BarSize {
    /// Bore of a tube \[mm\]; `None` for a full bar.
    pub fn bore_mm(&self) -> Option<f64> {
        self.thickness_mm.filter(|_| self.shape == BarShape::Tube).map(|wall| self.size_mm - 2.0 * wall)
    }
}

/// A bought or found can: closed at one end, thin.
#[derive(Clone, Debug, PartialEq)]
pub struct Can {
    /// Name that the user gave it.
    pub name: String,
    /// Outside diameter \[mm\].
    pub diameter_mm: f64,
    /// Length over all \[mm\].
    pub length_mm: f64,
    /// Wall \[mm\].
    pub wall_mm: f64,
    /// Name of the material, where the user knows it.
    pub material: Option<String>,
    /// Where it stands.
    pub from: Listed,
}

/// All sizes, by family and shape, small to large.
pub fn bar_sizes() -> &'static [BarSize] {
    static SIZES: OnceLock<Vec<BarSize>> = OnceLock::new();
    SIZES.get_or_init(|| rows(include_str!("data/stock.csv")))
}

fn sizes(family: &str, shape: BarShape) -> impl Iterator<Item = &'static BarSize> {
    bar_sizes().iter().filter(move |size| size.family == family && size.shape == shape)
}

/// The smallest round bar of a family that is at least `diameter_mm` thick; `None` when dealers keep none.
pub fn round_at_least(family: &str, diameter_mm: f64) -> Option<&'static BarSize> {
    sizes(family, BarShape::Round).find(|size| size.size_mm >= diameter_mm - 1e-9)
}

/// The flat or square bar of the least section in which a rectangle fits; `None` when dealers keep none.
pub fn bar_at_least(family: &str, width_mm: f64, thickness_mm: f64) -> Option<&'static BarSize> {
    let (wide, thin) = (width_mm.max(thickness_mm), width_mm.min(thickness_mm));
    let section = |bar: &BarSize| bar.size_mm * bar.thickness_mm.unwrap_or(bar.size_mm);
    sizes(family, BarShape::Flat)
        .chain(sizes(family, BarShape::Square))
        .filter(|bar| bar.size_mm >= wide - 1e-9 && bar.thickness_mm.unwrap_or(bar.size_mm) >= thin - 1e-9)
        .min_by(|a, b| section(a).total_cmp(&section(b)))
}

/// The lightest tube of a family that holds a ring of these diameters; `None` when dealers keep none.
pub fn tube_at_least(family: &str, outer_mm: f64, bore_mm: f64) -> Option<&'static BarSize> {
    let wall = |bar: &BarSize| bar.thickness_mm.unwrap_or(0.0);
    sizes(family, BarShape::Tube)
        .filter(|tube| tube.size_mm >= outer_mm - 1e-9)
        .filter(|tube| tube.bore_mm().is_some_and(|bore| bore <= bore_mm + 1e-9))
        .min_by(|a, b| ((a.size_mm - wall(a)) * wall(a)).total_cmp(&((b.size_mm - wall(b)) * wall(b))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::materials::materials;

    #[test]
    fn sizes_rise_and_tubes_have_a_bore() {
        for pair in bar_sizes().windows(2).filter(|pair| pair[0].family == pair[1].family) {
            let key = |bar: &BarSize| (bar.thickness_mm.unwrap_or(0.0), bar.size_mm);
            assert!(pair[0].shape != pair[1].shape || key(&pair[0]) < key(&pair[1]), "{pair:?}");
        }
        for bar in bar_sizes() {
            let thick = matches!(bar.shape, BarShape::Flat | BarShape::Tube);
            assert_eq!(bar.thickness_mm.is_some(), thick, "{bar:?}");
            assert!(bar.bore_mm().is_none_or(|bore| bore > 0.0), "{bar:?}");
            assert!(
                bar.shape != BarShape::Flat || bar.thickness_mm.is_some_and(|t| t < bar.size_mm),
                "{bar:?}"
            );
        }
    }

    #[test]
    fn every_family_that_a_material_names_has_sizes() {
        for family in materials().iter().filter_map(|material| material.stock.as_deref()) {
            assert!(bar_sizes().iter().any(|bar| bar.family == family), "{family}");
        }
        for bar in bar_sizes() {
            assert!(materials().iter().any(|m| m.stock.as_deref() == Some(&bar.family)), "{}", bar.family);
        }
    }

    #[test]
    fn the_smallest_bar_that_serves() {
        assert_eq!(round_at_least("steel", 61.0).unwrap().size_mm, 65.0);
        assert_eq!(round_at_least("steel", 60.0).unwrap().size_mm, 60.0);
        assert_eq!(round_at_least("steel", 151.0), None);
        let flat = bar_at_least("aluminium", 9.5, 48.0).unwrap();
        assert_eq!((flat.size_mm, flat.thickness_mm), (50.0, Some(10.0)));
        let square = bar_at_least("steel", 16.0, 16.0).unwrap();
        assert_eq!((square.shape, square.size_mm), (BarShape::Square, 16.0));
        let tube = tube_at_least("aluminium", 74.0, 66.0).unwrap();
        assert_eq!((tube.size_mm, tube.thickness_mm), (75.0, Some(5.0)));
        assert_eq!(tube_at_least("wood", 10.0, 5.0), None);
    }
}
