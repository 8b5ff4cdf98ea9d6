//! Laying flat pieces on sheets, as few as a simple rule finds: the largest first, each as low and then as far left as it
//! goes, small ones in the holes of large ones. The same input gives the same sheets.
//!
//! The outside of a piece counts as its convex hull, a hole as the largest circle about its middle, so what is laid keeps
//! at least the gap that is asked for; where outlines are hollow it keeps more.

mod hull;

use super::loops::Loop;
use super::{Point2, Vector2};
use hull::{Hull, WAYS, Ways};
use std::collections::BTreeMap;

/// A sheet and how pieces lie on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Along X \[mm\].
    pub width_mm: f64,
    /// Along Y \[mm\].
    pub length_mm: f64,
    /// Least distance of two pieces, and of a piece from the edge \[mm\].
    pub gap_mm: f64,
}

/// A flat piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Flat {
    /// Its outside.
    pub outline: Loop,
    /// Its holes.
    pub holes: Vec<Loop>,
}

/// A piece in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Which piece of the list.
    pub piece: usize,
    /// Quarter turns about the piece's origin, counter-clockwise, before it is moved.
    pub quarters: usize,
    /// By how much it is moved \[mm\].
    pub by: Vector2,
    /// It lies in a hole of another piece, and is cut before that one.
    pub is_inside: bool,
}

/// Pieces on their sheets.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Nest {
    /// Sheets with what lies on each, in the order in which it was laid.
    pub sheets: Vec<Vec<Placed>>,
    /// Pieces that are too large for the sheet.
    pub left_out: Vec<usize>,
}

impl Placed {
    /// A point of the piece, where it lies on the sheet.
    pub fn at(&self, p: Point2) -> Point2 {
        turned(p, self.quarters) + self.by
    }

    /// A loop of the piece, where it lies on the sheet.
    pub fn put(&self, of: &Loop) -> Loop {
        of.mapped(|p| self.at(p), false)
    }
}

/// A point after some quarter turns about the origin.
fn turned(p: Point2, quarters: usize) -> Point2 {
    match quarters % 4 {
        0 => p,
        1 => Point2::new(-p.y, p.x),
        2 => Point2::new(-p.x, -p.y),
        _ => Point2::new(p.y, -p.x),
    }
}

/// Room for pieces: a sheet, or a hole of a piece that lies on it.
struct Bin {
    sheet: usize,
    within: Hull,
    is_hole: bool,
    /// Circle of a hole; a hole that is too narrow for a piece needs no closer look.
    radius: f64,
    taken: Vec<Hull>,
    /// Kind of piece → rank below which none of its kind finds a place any more; infinite when none does at all. What is
    /// laid only takes room away.
    floors: BTreeMap<usize, Rank>,
}

/// How good a place is: height of the top, then the right side \[mm\]; less is better.
type Rank = [f64; 2];

/// A piece as it is laid: its hull in each of its turns that differ.
struct Shape {
    kind: usize,
    hulls: Vec<(usize, Hull)>,
    area: f64,
    longest: f64,
}

impl Shape {
    fn of(ways: &Ways, flat: &Flat, kind: usize) -> Self {
        let mut hulls: Vec<(usize, Hull)> = Vec::new();
        for quarters in 0..4 {
            let hull = ways.hull(&flat.outline.mapped(|p| turned(p, quarters), false));
            // moved to its lower left corner, equal hulls are one
            let corner = |h: &Hull| ways.moved(h, Vector2::new(h.0[WAYS / 2], h.0[3 * WAYS / 4]));
            let new = corner(&hull);
            let same =
                |(_, h): &(usize, Hull)| corner(h).0.iter().zip(&new.0).all(|(a, b)| (a - b).abs() < 1e-6);
            if !hulls.iter().any(same) {
                hulls.push((quarters, hull));
            }
        }
        let [w, h] = hulls[0].1.size();
        Self { kind, hulls, area: w * h, longest: w.max(h) }
    }
}

/// Lays pieces on as few sheets as it finds.
pub fn nest(flats: &[Flat], sheet: &Sheet) -> Nest {
    let ways = Ways::new();
    // pieces with one outline are one kind
    let kind_of =
        |flat: &Flat| flats.iter().position(|other| other.outline == flat.outline).unwrap_or_default();
    let kinds: Vec<usize> = flats.iter().map(kind_of).collect();
    let mut made: BTreeMap<usize, Shape> = BTreeMap::new();
    for &kind in &kinds {
        made.entry(kind).or_insert_with(|| Shape::of(&ways, &flats[kind], kind));
    }
    let shapes: Vec<&Shape> = kinds.iter().map(|kind| &made[kind]).collect();
    let by = |key: fn(&Shape) -> f64| {
        let mut order: Vec<usize> = (0..flats.len()).collect();
        order.sort_by(|a, b| key(shapes[*b]).total_cmp(&key(shapes[*a])).then(a.cmp(b)));
        order
    };
    let (first, second) = (by(|s| s.area), by(|s| s.longest));
    let one = laid(&ways, flats, &shapes, &first, sheet);
    if first == second {
        return one;
    }
    let other = laid(&ways, flats, &shapes, &second, sheet);
    if other.sheets.len() < one.sheets.len() { other } else { one }
}

/// Lays pieces in an order.
fn laid(ways: &Ways, flats: &[Flat], shapes: &[&Shape], order: &[usize], sheet: &Sheet) -> Nest {
    let mut found = Nest::default();
    let mut bins: Vec<Bin> = Vec::new();
    let whole = Hull::rectangle(ways, sheet.width_mm, sheet.length_mm);
    for &piece in order {
        let shape = shapes[piece];
        let mut place =
            (0..bins.len()).find_map(|i| Some((i, lowest(ways, &mut bins[i], shape, sheet.gap_mm)?)));
        if place.is_none() {
            let mut new = Bin {
                sheet: found.sheets.len(),
                within: whole.clone(),
                is_hole: false,
                radius: f64::INFINITY,
                taken: Vec::new(),
                floors: BTreeMap::new(),
            };
            place = lowest(ways, &mut new, shape, sheet.gap_mm).map(|at| (bins.len(), at));
            if place.is_some() {
                bins.push(new);
                found.sheets.push(Vec::new());
            }
        }
        let Some((bin, (turn, by))) = place else {
            found.left_out.push(piece);
            continue;
        };
        let (quarters, hull) = &shape.hulls[turn];
        bins[bin].taken.push(ways.moved(hull, by));
        let at = bins[bin].sheet;
        let placed = Placed { piece, quarters: *quarters, by, is_inside: bins[bin].is_hole };
        bins.extend(flats[piece].holes.iter().filter_map(|hole| hole_bin(ways, &placed.put(hole), at)));
        // holes before sheets, narrow ones first: what fits there costs nothing
        bins.sort_by(|a, b| b.is_hole.cmp(&a.is_hole).then(a.radius.total_cmp(&b.radius)));
        found.sheets[at].push(placed);
    }
    found
}

/// The room in a hole.
fn hole_bin(ways: &Ways, hole: &Loop, sheet: usize) -> Option<Bin> {
    let (low, high) = hole.bounds();
    let (centre, radius) = match hole {
        Loop::Circle { centre, radius } => (*centre, *radius),
        Loop::Path(_) => {
            let middle = Point2::new((low.x + high.x) / 2.0, (low.y + high.y) / 2.0);
            (middle, if hole.contains(middle) { hole.distance(middle) } else { return None })
        }
    };
    let within = Hull::in_circle(ways, centre, radius);
    Some(Bin { sheet, within, is_hole: true, radius, taken: Vec::new(), floors: BTreeMap::new() })
}

/// The lowest place of a piece in a bin: which of its turns, and by how much it is moved.
fn lowest(ways: &Ways, bin: &mut Bin, shape: &Shape, gap: f64) -> Option<(usize, Vector2)> {
    let floor = bin.floors.get(&shape.kind).copied().unwrap_or([f64::NEG_INFINITY; 2]);
    if 2.0 * bin.radius < shape.longest || floor[0] == f64::INFINITY {
        return None;
    }
    let mut best: Option<(Rank, usize, Vector2)> = None;
    for (turn, (_, hull)) in shape.hulls.iter().enumerate() {
        let less = best.as_ref().map(|(rank, ..)| *rank);
        let turned = Turned { ways, hull, gap, floor };
        if let Some(p) = turned.lowest(bin, less) {
            best = Some((turned.rank(p), turn, Vector2::new(p.x, p.y)));
        }
    }
    let found = best.as_ref().map_or([f64::INFINITY; 2], |(rank, ..)| *rank);
    bin.floors.insert(shape.kind, found);
    best.map(|(_, turn, by)| (turn, by))
}

/// To a millionth of a millimetre, so that rounding decides nothing.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() * 1e-6
}

/// A piece in one of its turns, looking for its place.
struct Turned<'a> {
    ways: &'a Ways,
    hull: &'a Hull,
    gap: f64,
    /// Nothing better than this is free.
    floor: Rank,
}

impl Turned<'_> {
    fn rank(&self, p: Point2) -> Rank {
        [p.y + self.hull.0[WAYS / 4], p.x + self.hull.0[0]].map(rounded)
    }

    /// The lowest place that is free, if there is one better than `less`: a corner of the room or of what is taken, or a
    /// place where two borders cross.
    fn lowest(&self, bin: &Bin, mut less: Option<Rank>) -> Option<Point2> {
        let ways = self.ways;
        let room = ways.room(&bin.within, self.hull, self.gap);
        let borders = ways.sides(&room);
        if borders.is_empty() {
            return None;
        }
        let taken: Vec<Hull> = bin.taken.iter().map(|t| ways.taken(t, self.hull, self.gap)).collect();
        let mut best = None;
        let mut look = |p: Point2, less: &mut Option<Rank>| {
            let rank = self.rank(p);
            let is_better = rank >= self.floor && less.is_none_or(|r| rank < r);
            if is_better && ways.holds(&room, p) && !taken.iter().any(|t| ways.covers(t, p)) {
                (best, *less) = (Some(p), Some(rank));
            }
        };
        // what ends below the floor holds no place
        let reached = |t: &&Hull| rounded(t.0[WAYS / 4] + self.hull.0[WAYS / 4]) >= self.floor[0];
        let near: Vec<(&Hull, Vec<[Point2; 2]>)> =
            taken.iter().filter(reached).map(|t| (t, ways.sides(t))).collect();
        borders.iter().chain(near.iter().flat_map(|(_, s)| s)).for_each(|[p, _]| look(*p, &mut less));
        let own = borders.iter().map(|s| (&room, s));
        for (whose, [a, b]) in own.chain(near.iter().flat_map(|(t, s)| s.iter().map(move |s| (*t, s)))) {
            let tops = [self.rank(*a)[0], self.rank(*b)[0]];
            if less.is_some_and(|r| tops[0].min(tops[1]) > r[0]) || tops[0].max(tops[1]) < self.floor[0] {
                continue;
            }
            let others = near.iter().map(|(t, _)| *t).chain([&room]).filter(|t| !std::ptr::eq(*t, whose));
            for other in others.filter(|t| t.meets_box(*a, *b)) {
                let crossed = ways.cut(other, *a, b - a, [0.0, 1.0]).into_iter().flatten();
                for at in crossed.filter(|at| *at > 0.0 && *at < 1.0) {
                    look(a + (b - a) * at, &mut less);
                }
            }
        }
        best
    }
}

#[cfg(test)]
mod tests;
