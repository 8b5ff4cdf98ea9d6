//! Stock to start from: the smallest bar on the shelf that holds the part with its allowance.

use super::part::{Blank, Part};
use crate::catalogue::Catalogue;
use crate::catalogue::stock::{bar_at_least, round_at_least};
use crate::design::{StockItem, StockShape, Workshop};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::shape::solid::{Solid, SolidError, build};
use crate::shape::{Point2, Point3, Vector3};

/// Envelope of a part in its own coordinates, and whether it is turned about Z.
#[derive(Clone, Copy, Debug)]
pub struct Envelope {
    /// Lower corner \[mm\].
    pub low: Point3,
    /// Upper corner \[mm\].
    pub high: Point3,
    /// Turned about Z: round bar on the axis serves.
    pub turned: bool,
}

impl Envelope {
    fn grown(&self, by: f64) -> Self {
        let d = Vector3::new(by, by, by);
        Self { low: self.low - d, high: self.high + d, turned: self.turned }
    }

    /// Largest distance from the Z axis \[mm\].
    fn reach(&self) -> f64 {
        if self.turned {
            return self.high.x.max(-self.low.x);
        }
        let x = self.low.x.abs().max(self.high.x.abs());
        let y = self.low.y.abs().max(self.high.y.abs());
        x.hypot(y)
    }
}

/// Gives the part its blank: from the shelf when a bar there serves, else the least bar that dealers keep. The part's
/// material still has its name of the catalogue.
pub fn fit(part: &mut Part, envelope: Envelope, book: &Catalogue, shop: &Workshop) {
    part.blank = Some(chosen(&part.material.name, envelope, book, shop));
}

/// The bar for an envelope of a material, by its name in the catalogue; the stock list says where it comes from.
pub(super) fn chosen(stuff: &str, envelope: Envelope, book: &Catalogue, shop: &Workshop) -> Blank {
    let e = envelope.grown(shop.blank_allowance_mm.value);
    let best = shop
        .stock
        .iter()
        .filter(|s| same_material(book, &s.material.value, stuff))
        .filter_map(|s| bar(s, &e))
        .min_by(|a, b| volume(a).total_cmp(&volume(b)));
    if let Some(best) = best {
        return best;
    }
    let family = book.material(stuff).ok().and_then(|material| material.stock.as_deref());
    family.and_then(|family| sold(family, &e)).unwrap_or_else(|| least(&e))
}

/// The blank cut from the least bar that dealers keep, its length along Z for a turned part, else along the longest side.
fn sold(family: &str, e: &Envelope) -> Option<Blank> {
    if e.turned {
        let bar = round_at_least(family, 2.0 * e.reach())?;
        return Some(Blank::Round { diameter: bar.size_mm, length: e.high.z - e.low.z, z_low: e.low.z });
    }
    let s = [e.high.x - e.low.x, e.high.y - e.low.y, e.high.z - e.low.z];
    let long = (0..3).max_by(|a, b| s[*a].total_cmp(&s[*b]))?;
    let [a, b] = [(long + 1) % 3, (long + 2) % 3];
    let bar = bar_at_least(family, s[a], s[b])?;
    let (wide, thin) = (bar.size_mm, bar.thickness_mm.unwrap_or(bar.size_mm));
    let mut grown = s;
    (grown[a], grown[b]) = if s[a] >= s[b] { (wide, thin) } else { (thin, wide) };
    Some(about_middle(e, grown))
}

/// A block of this size about the middle of the envelope.
fn about_middle(e: &Envelope, size: [f64; 3]) -> Blank {
    let middle =
        Point3::new((e.low.x + e.high.x) / 2.0, (e.low.y + e.high.y) / 2.0, (e.low.z + e.high.z) / 2.0);
    let half = Vector3::new(size[0] / 2.0, size[1] / 2.0, size[2] / 2.0);
    Blank::Block { low: middle - half, high: middle + half }
}

pub(super) fn same_material(book: &Catalogue, stock: &str, wanted: &str) -> bool {
    let title = |name: &str| book.material(name).map(|material| material.title.as_str());
    stock == wanted || matches!((title(stock), title(wanted)), (Ok(a), Ok(b)) if a == b)
}

/// The blank cut from one bar, if the bar is large and long enough.
fn bar(stock: &StockItem, e: &Envelope) -> Option<Blank> {
    let size = stock.size_mm.value;
    let long = stock.length_mm.as_ref().map_or(f64::INFINITY, |l| l.value);
    let z = e.high.z - e.low.z;
    if stock.shape.value == StockShape::Round {
        let fits = size / 2.0 >= e.reach() && z <= long;
        return fits.then_some(Blank::Round { diameter: size, length: z, z_low: e.low.z });
    }
    let thick = stock.thickness_mm.as_ref().map_or(size, |t| t.value);
    let s = [e.high.x - e.low.x, e.high.y - e.low.y, z];
    // the bar's length may lie along X, Y or Z, its width along either of the others
    let ways = [
        [long, size, thick],
        [long, thick, size],
        [size, long, thick],
        [thick, long, size],
        [size, thick, long],
        [thick, size, long],
    ];
    let fit = ways.iter().find(|w| (0..3).all(|i| s[i] <= w[i] + 1e-9))?;
    Some(about_middle(e, [0, 1, 2].map(|i| if fit[i] == long { s[i] } else { fit[i] })))
}

/// The least bar in whole millimetres.
fn least(e: &Envelope) -> Blank {
    if e.turned {
        return Blank::Round {
            diameter: (2.0 * e.reach()).ceil(),
            length: e.high.z - e.low.z,
            z_low: e.low.z,
        };
    }
    Blank::Block { low: e.low, high: e.high }
}

/// Metal of a blank \[mm³\].
pub(super) fn volume(blank: &Blank) -> f64 {
    match blank {
        Blank::Round { diameter, length, .. } => std::f64::consts::FRAC_PI_4 * diameter * diameter * length,
        Blank::Block { low, high } => (high.x - low.x) * (high.y - low.y) * (high.z - low.z),
    }
}

impl Blank {
    /// The bar itself as a recipe.
    fn recipe(&self) -> Recipe {
        match *self {
            Blank::Round { diameter, length, z_low } => {
                let (r, top) = (diameter / 2.0, z_low + length);
                let corner = ProfileNode::new;
                let profile = vec![corner(0.0, z_low), corner(r, z_low), corner(r, top), corner(0.0, top)];
                Recipe { body: Body::Turned(profile), features: Vec::new() }
            }
            Blank::Block { low, high } => block(low, high),
        }
    }
}

impl Blank {
    /// The bar in the coordinates of its part.
    ///
    /// # Errors
    /// When a size of the bar is not positive.
    pub fn solid(&self) -> Result<Solid, SolidError> {
        let solid = build(&self.recipe())?;
        Ok(match self {
            Blank::Round { .. } => solid,
            Blank::Block { low, .. } => solid.moved(Vector3::new(0.0, 0.0, low.z)),
        })
    }
}

/// A block between two corners, standing on z = 0 like every plate; [`Blank::solid`] lifts it to its place.
fn block(low: Point3, high: Point3) -> Recipe {
    let outline = Outline::Rectangle {
        low: Point2::new(low.x, low.y),
        high: Point2::new(high.x, high.y),
        corner: 0.0,
        tags: [Tag::new("width"), Tag::new("height")],
    };
    let body = Body::Plate { outline, thickness: high.z - low.z, tag: Tag::new("thickness") };
    Recipe { body, features: Vec::new() }
}

/// The stock of a part as a part of its own, for its STEP file.
pub fn stock(part: &Part) -> Part {
    Part {
        name: format!("{}-blank", part.name),
        title: format!("{} blank", part.title),
        recipe: None,
        blank: None,
        fastener: false,
        ..part.clone()
    }
}
