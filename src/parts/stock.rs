//! Bars to buy: the made parts that are not cut from sheet, by material and section, with the lengths to saw.

use super::blanks::{Envelope, chosen, same_material, volume};
use super::part::{Blank, Part, PartSet, Supply};
use crate::catalogue::Catalogue;
use crate::catalogue::stock::{BarShape, bar_sizes, tube_at_least};
use crate::design::{StockItem, StockShape, Workshop};
use crate::shape::loops::{Loop, Piece};
use crate::shape::recipe::{Body, Kind, Recipe};
use crate::shape::{Point2, Point3, Vector3};

/// Rods of this material are bought ground to size: only their length gets an allowance.
const GROUND: &str = "silver-steel";

/// A bar of the workshop's list serves a part without a planned blank while it holds at most this many times the metal of
/// the least bar that dealers keep (common practice, no source).
const WASTE: f64 = 2.0;

/// A part is a tube while its wall is at most this share of its outside radius (common practice, no source).
const THIN: f64 = 0.4;

/// Two lengths nearer than this are the same \[mm\].
const SAME_MM: f64 = 1e-6;

/// Section of a bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Section {
    /// A round of this diameter \[mm\].
    Round(f64),
    /// A flat or square of this width and thickness \[mm\].
    Flat(f64, f64),
    /// A tube of these outside and inside diameters \[mm\].
    Tube(f64, f64),
}

/// Where a bar comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// The workshop's list.
    Own,
    /// A size that dealers keep.
    Dealer,
    /// No size that dealers keep: sawn from plate, or from the next larger bar that is found.
    Nowhere,
}

/// Lengths to saw for one part.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Name of the part.
    pub part: String,
    /// How many.
    pub count: usize,
    /// Length of each with its allowance \[mm\].
    pub length_mm: f64,
}

/// Bars of one material and section.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Trade name of the material.
    pub material: String,
    /// Section.
    pub section: Section,
    /// What is sawn from them, the longest first.
    pub cuts: Vec<Cut>,
    /// Length of a bar, where it is known \[mm\].
    pub bar_mm: Option<f64>,
    /// Where the bar comes from.
    pub from: From,
    /// Width of the saw's cut \[mm\].
    pub saw_mm: f64,
}

impl Bar {
    /// Length of all pieces with a saw cut after each \[mm\].
    pub fn total_mm(&self) -> f64 {
        self.cuts.iter().map(|cut| cut.count as f64 * (cut.length_mm + self.saw_mm)).sum()
    }

    /// How many pieces there are.
    pub fn pieces(&self) -> usize {
        self.cuts.iter().map(|cut| cut.count).sum()
    }

    /// Bars needed, where their length is known: the longest pieces first, each from the first bar with enough left. A
    /// piece longer than a bar counts as a bar of its own.
    pub fn needed(&self) -> Option<usize> {
        let bar_mm = self.bar_mm?;
        let mut left: Vec<f64> = Vec::new();
        for length in self.cuts.iter().flat_map(|cut| vec![cut.length_mm; cut.count]) {
            // the last cut of a bar may run into its end
            match left.iter_mut().find(|rest| **rest >= length - SAME_MM) {
                Some(rest) => *rest -= length + self.saw_mm,
                None => left.push(bar_mm - length - self.saw_mm),
            }
        }
        Some(left.len())
    }
}

/// All bars: materials in the order of the parts that need them first, and so the sections of each.
pub fn bars(set: &PartSet, book: &Catalogue, shop: &Workshop) -> Vec<Bar> {
    let mut found: Vec<Bar> = Vec::new();
    for part in set.parts.iter().filter(|p| p.supply == Supply::Make && !p.flat) {
        let Some(Sawn { section, length_mm, bar_mm, from }) = sawn(part, book, shop) else { continue };
        let cut = Cut { part: part.name.clone(), count: part.quantity, length_mm };
        match found.iter_mut().find(|b| b.material == part.material.name && b.section == section) {
            Some(bar) => bar.cuts.push(cut),
            None => found.push(Bar {
                material: part.material.name.clone(),
                section,
                cuts: vec![cut],
                bar_mm,
                from,
                saw_mm: shop.saw_cut_mm.value,
            }),
        }
    }
    let materials: Vec<String> = found.iter().map(|bar| bar.material.clone()).collect();
    found.sort_by_key(|bar| materials.iter().position(|m| *m == bar.material));
    for bar in &mut found {
        bar.cuts.sort_by(|a, b| b.length_mm.total_cmp(&a.length_mm));
    }
    found
}

/// Made parts that come neither from a bar nor from a sheet: wire, strip, what is wound or printed.
pub fn other<'a>(set: &'a PartSet, book: &Catalogue, shop: &Workshop) -> Vec<&'a Part> {
    let made = set.parts.iter().filter(|p| p.supply == Supply::Make && !p.flat);
    made.filter(|part| sawn(part, book, shop).is_none()).collect()
}

/// How a part is sawn off.
struct Sawn {
    section: Section,
    length_mm: f64,
    bar_mm: Option<f64>,
    from: From,
}

/// `None` for a material that is not sold in bars.
fn sawn(part: &Part, book: &Catalogue, shop: &Workshop) -> Option<Sawn> {
    let stuff = book.materials.iter().find(|m| m.title == part.material.name)?;
    let own: Vec<&StockItem> =
        shop.stock.iter().filter(|s| same_material(book, &s.material.value, &stuff.name)).collect();
    if part.material.filled < 1.0 || stuff.stock.is_none() && own.is_empty() {
        return None;
    }
    let bar_mm = shop.bar_length_mm.as_ref().map(|l| l.value);
    let envelope = envelope(part.recipe.as_ref()?);
    if stuff.name == GROUND && envelope.turned {
        let length_mm = envelope.high.z - envelope.low.z + 2.0 * shop.blank_allowance_mm.value;
        let section = Section::Round(2.0 * envelope.high.x);
        return Some(Sawn { section, length_mm, bar_mm, from: From::Dealer });
    }
    let allowance = shop.blank_allowance_mm.value;
    let drawn =
        plain_tube(part).and_then(|[outer, bore]| tube(stuff.stock.as_deref(), outer, bore, allowance));
    if let Some((section, from)) = drawn.filter(|_| own.is_empty()) {
        let length_mm = envelope.high.z - envelope.low.z + 2.0 * allowance;
        return Some(Sawn { section, length_mm, bar_mm, from });
    }
    let blank = part.blank.clone().unwrap_or_else(|| {
        let listed = chosen(&stuff.name, envelope, book, shop);
        let none = Workshop { stock: Vec::new(), ..shop.clone() };
        let bought = chosen(&stuff.name, envelope, book, &none);
        if volume(&listed) <= WASTE * volume(&bought) { listed } else { bought }
    });
    let ways: Vec<(Section, f64)> = match blank {
        Blank::Round { diameter, length, .. } => vec![(Section::Round(diameter), length)],
        Blank::Block { low, high } => ways([high.x - low.x, high.y - low.y, high.z - low.z]).to_vec(),
    };
    let on_list = |section: Section| own.iter().find(|item| is_of(item, section)).copied();
    if let Some((section, length_mm, item)) = ways.iter().find_map(|(s, l)| Some((*s, *l, on_list(*s)?))) {
        let bar_mm = item.length_mm.as_ref().map(|l| l.value).or(bar_mm);
        return Some(Sawn { section, length_mm, bar_mm, from: From::Own });
    }
    let sold = ways.iter().find(|(s, _)| is_sold(stuff.stock.as_deref(), *s));
    let (section, length_mm) = *sold.or(ways.first())?;
    let from = if sold.is_some() { From::Dealer } else { From::Nowhere };
    Some(Sawn { section, length_mm, bar_mm, from })
}

/// Outside and inside diameter of a part that is a long, thin tube and nothing else \[mm\].
fn plain_tube(part: &Part) -> Option<[f64; 2]> {
    let Recipe { body: Body::Turned(nodes), features } = part.recipe.as_ref()? else { return None };
    let ends = |of: fn(&crate::shape::recipe::ProfileNode) -> f64| {
        let all = || nodes.iter().map(of);
        [all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max)]
    };
    let ([bore, outer], [low, high]) = (ends(|n| n.r), ends(|n| n.z));
    let thin = outer - bore <= THIN * outer;
    let plain = features.iter().all(|f| !matches!(f.kind, Kind::Boss { .. } | Kind::Pad { .. }));
    (bore > 0.0 && thin && plain && high - low > outer).then_some([2.0 * outer, 2.0 * bore])
}

/// The tube for a part of these diameters \[mm\]: the one of just these, or with an allowance; of the part's own size where
/// no tube of the material is known. `None` where dealers keep tubes but none that serves.
fn tube(family: Option<&str>, outer: f64, bore: f64, allowance: f64) -> Option<(Section, From)> {
    let found = |o: f64, b: f64| tube_at_least(family?, o, b).and_then(|t| Some((t.size_mm, t.bore_mm()?)));
    let same = |t: &(f64, f64)| (t.0 - outer).abs() < SAME_MM && (t.1 - bore).abs() < SAME_MM;
    let dealt =
        found(outer, bore).filter(same).or_else(|| found(outer + 2.0 * allowance, bore - 2.0 * allowance));
    match dealt {
        Some((outer, bore)) => Some((Section::Tube(outer, bore), From::Dealer)),
        None => {
            let keeps =
                bar_sizes().iter().any(|b| Some(b.family.as_str()) == family && b.shape == BarShape::Tube);
            (!keeps).then_some((Section::Tube(outer, bore), From::Nowhere))
        }
    }
}

/// Whether an entry of the workshop's list has a section.
fn is_of(item: &StockItem, section: Section) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < SAME_MM;
    let size = item.size_mm.value;
    let thick = item.thickness_mm.as_ref().map_or(size, |t| t.value);
    match (item.shape.value, section) {
        (StockShape::Round, Section::Round(d)) => near(d, size),
        (StockShape::Round, _) | (_, Section::Round(_) | Section::Tube(..)) => false,
        (_, Section::Flat(w, t)) => near(w, size) && near(t, thick),
    }
}

/// A block as a section and a length, the longest side along the bar first.
fn ways(d: [f64; 3]) -> [(Section, f64); 3] {
    let mut s = d;
    s.sort_by(|a, b| b.total_cmp(a));
    [(Section::Flat(s[1], s[2]), s[0]), (Section::Flat(s[0], s[2]), s[1]), (Section::Flat(s[0], s[1]), s[2])]
}

/// Whether dealers keep a section.
fn is_sold(family: Option<&str>, section: Section) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < SAME_MM;
    let same = |bar: &&crate::catalogue::stock::BarSize| match (bar.shape, section) {
        (BarShape::Flat | BarShape::Square, Section::Flat(w, t)) => {
            near(bar.size_mm, w) && near(bar.thickness_mm.unwrap_or(bar.size_mm), t)
        }
        (BarShape::Round, Section::Round(d)) => near(bar.size_mm, d),
        _ => false,
    };
    bar_sizes().iter().filter(|bar| Some(bar.family.as_str()) == family).any(|bar| same(&bar))
}

/// The box around a part, read off its recipe; round about Z for a turned part, and for a plate that a round bar holds with
/// less metal than a flat one.
pub fn envelope(recipe: &Recipe) -> Envelope {
    let mut all = Box3::default();
    match &recipe.body {
        Body::Turned(nodes) => nodes.iter().for_each(|n| {
            all.add(Point3::new(-n.r, -n.r, n.z));
            all.add(Point3::new(n.r, n.r, n.z));
        }),
        Body::Plate { outline, thickness, .. } => {
            let (low, high) = outline.boundary().bounds();
            all.add(Point3::new(low.x, low.y, 0.0));
            all.add(Point3::new(high.x, high.y, *thickness));
        }
    }
    for f in &recipe.features {
        let d = f.axis.direction;
        match &f.kind {
            Kind::Boss { chain } => chain.iter().for_each(|n| {
                let at = f.axis.origin + d * n.z;
                // a circle square to d reaches r sin of the angle between d and each axis
                let across = [d.x, d.y, d.z].map(|c| n.r * (1.0 - c * c).max(0.0).sqrt());
                let across = Vector3::new(across[0], across[1], across[2]);
                all.add(at - across);
                all.add(at + across);
            }),
            Kind::Pad { outline, height } => {
                let (low, high) = outline.bounds();
                let y = crate::shape::Vector3::cross(d, f.x_axis);
                for (u, v) in [(low.x, low.y), (high.x, low.y), (low.x, high.y), (high.x, high.y)] {
                    for h in [0.0, *height] {
                        all.add(f.axis.origin + f.x_axis * u + y * v + d * h);
                    }
                }
            }
            _ => {}
        }
    }
    let Box3 { mut low, mut high } = all;
    let widest = high.x.max(high.y).max(-low.x).max(-low.y);
    let round_r = match &recipe.body {
        Body::Turned(_) => Some(widest),
        Body::Plate { outline, .. } => Some(widest.max(reach(&outline.boundary())))
            .filter(|r| std::f64::consts::PI * r * r < (high.x - low.x) * (high.y - low.y)),
    };
    if let Some(r) = round_r {
        (low.x, low.y, high.x, high.y) = (-r, -r, r, r);
    }
    let turned = round_r.is_some();
    Envelope { low, high, turned }
}

/// Radius about the origin that holds a loop \[mm\].
fn reach(l: &Loop) -> f64 {
    let of = |p: Point2| p.x.hypot(p.y);
    let piece = |p: Piece| match p {
        Piece::Line { from, .. } => of(from),
        Piece::Arc { centre, radius, .. } => {
            // a corner of a rounded outline reaches less far than its circle
            let ends = of(p.at(0.0)).max(of(p.at(1.0))).max(of(p.at(0.5)));
            if of(centre) < SAME_MM { radius } else { ends }
        }
    };
    l.pieces().into_iter().map(piece).fold(0.0, f64::max)
}

/// Least and greatest corner of what was added.
struct Box3 {
    low: Point3,
    high: Point3,
}

impl Default for Box3 {
    fn default() -> Self {
        let far = f64::INFINITY;
        Self { low: Point3::new(far, far, far), high: Point3::new(-far, -far, -far) }
    }
}

impl Box3 {
    fn add(&mut self, p: Point3) {
        self.low = Point3::new(self.low.x.min(p.x), self.low.y.min(p.y), self.low.z.min(p.z));
        self.high = Point3::new(self.high.x.max(p.x), self.high.y.max(p.y), self.high.z.max(p.z));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(cuts: &[(usize, f64)], bar_mm: f64) -> Bar {
        let cut = |(count, length_mm): &(usize, f64)| Cut {
            part: "rod".into(),
            count: *count,
            length_mm: *length_mm,
        };
        Bar {
            material: "Steel".into(),
            section: Section::Round(8.0),
            cuts: cuts.iter().map(cut).collect(),
            bar_mm: Some(bar_mm),
            from: From::Dealer,
            saw_mm: 2.0,
        }
    }

    #[test]
    fn saw_cuts_count_and_short_pieces_fill_what_is_left() {
        // 3 x 300 + 3 x 2 = 906; the 90 fits behind them, the second 90 does not: 906 + 92 = 998
        let one = bar(&[(3, 300.0), (1, 90.0)], 1000.0);
        assert_eq!((one.needed(), one.pieces()), (Some(1), 4));
        assert!((one.total_mm() - 998.0).abs() < 1e-9);
        assert_eq!(bar(&[(3, 300.0), (2, 90.0)], 1000.0).needed(), Some(2));
        // the last cut may run into the end of the bar
        assert_eq!(bar(&[(2, 499.0)], 1000.0).needed(), Some(1));
        assert_eq!(bar(&[(2, 500.0)], 1000.0).needed(), Some(2));
        assert_eq!(bar(&[(1, 1200.0)], 1000.0).needed(), Some(1));
    }

    #[test]
    fn the_section_of_a_block_that_dealers_keep_lies_across_the_bar() {
        assert!(is_sold(Some("steel"), Section::Flat(30.0, 10.0)));
        assert!(
            !is_sold(Some("steel"), Section::Flat(31.7, 10.0)) && !is_sold(None, Section::Flat(30.0, 10.0))
        );
        assert_eq!(ways([10.0, 84.0, 30.0])[0], (Section::Flat(30.0, 10.0), 84.0));
    }
}
