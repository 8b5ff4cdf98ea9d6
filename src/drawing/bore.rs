//! What a call-out says of a bore: diameters with fits, depths, grooves, thread, in the order of the tool.

use super::callout::Row;
use super::surface::{Form, Surface, surfaces};
use super::texts;
use super::units::Units;
use crate::shape::recipe::{End, Feature, InsideThread, Kind, ProfileNode, Tag, Tolerance};

/// Rows of the call-out of a group of `count` equal bores called `name`.
pub fn rows(
    name: &str,
    count: usize,
    chain: &[ProfileNode],
    end: End,
    thread: Option<&InsideThread>,
    way_out: &str,
) -> Vec<Row> {
    let list = surfaces(chain, false);
    let told_through = thread.is_some_and(|t| t.depth.is_none());
    let teller = Teller { list: &list, end, drill: thread.is_some(), told_through, way_out };
    let mut rows: Vec<Row> =
        thread.map(|t| Row::new(thread_text(t, end, way_out), &[])).into_iter().collect();
    rows.extend((0..list.len()).filter_map(|i| teller.row(i)));
    if end == End::Island
        && let Some(first) = rows.first_mut()
    {
        first.text = format!("ring groove {}", first.text);
    }
    if let (true, Some(first)) = (count > 1, rows.first_mut()) {
        first.text = format!("{count}× {}", first.text);
    }
    let known = rows.iter().any(|r| r.sizes.iter().any(|s| s == name));
    if let Some(first) = rows.first_mut().filter(|_| !known) {
        first.sizes.insert(0, name.to_owned());
    }
    short(rows)
}

/// Rows that fit together on one line are joined, to keep call-outs low.
fn short(rows: Vec<Row>) -> Vec<Row> {
    let mut kept: Vec<Row> = Vec::new();
    let long = |row: &Row| Units::Mm.told(&row.text).chars().count();
    for row in rows {
        match kept.last_mut().filter(|k| long(k) + long(&row) < 34) {
            Some(last) => {
                last.text = format!("{}, {}", last.text, row.text);
                last.sizes.extend(row.sizes);
            }
            None => kept.push(row),
        }
    }
    kept
}

/// How an inside thread is written.
fn thread_text(t: &InsideThread, end: End, way_out: &str) -> String {
    match (t.depth, end) {
        (Some(depth), End::Through) if t.both_ends => {
            format!("{} ↧{} from both ends", t.designation, texts::plain(depth))
        }
        (Some(depth), _) => format!("{} ↧{}", t.designation, texts::plain(depth)),
        (None, End::Through) => format!("{} {way_out}", t.designation),
        (None, _) => t.designation.clone(),
    }
}

/// All that is needed to tell of one surface after another.
struct Teller<'a> {
    list: &'a [Surface],
    end: End,
    drill: bool,
    /// The thread has already been told to go right through.
    told_through: bool,
    /// Where it goes through to.
    way_out: &'a str,
}

impl Teller<'_> {
    /// The row of one surface, if it needs one.
    fn row(&self, i: usize) -> Option<Row> {
        let s = &self.list[i];
        let text = match s.form {
            Form::Cylinder if self.goes_on(i) => return None,
            Form::Cylinder => return Some(self.cylinder(i)),
            Form::Chamfer if self.is_at_far_mouth(i) => format!("chamfer {}, other end", s.chamfer_text()),
            Form::Chamfer => format!("chamfer {}", s.chamfer_text()),
            Form::Cone if s.b.x.abs() < 1e-9 => format!("tip {}°", texts::number(s.cone_angle_deg())),
            Form::Cone if i == 0 => {
                format!("⌵ ⌀{} × {}°", texts::plain(2.0 * s.a.x), texts::number(s.cone_angle_deg()))
            }
            Form::Cone => format!("cone {}°", texts::number(s.cone_angle_deg())),
            Form::Arc => format!("R{}", texts::plain(s.arc_radius())),
            Form::Flat | Form::Axis => return None,
        };
        Some(Row::new(text, &self.names(s)))
    }

    /// Whether a surface is the mouth at the other end of a hole right through.
    fn is_at_far_mouth(&self, i: usize) -> bool {
        self.end == End::Through && i > 0 && i + 1 == self.list.len()
    }

    /// The name of a surface.
    fn names(&self, s: &Surface) -> Vec<String> {
        s.tag.iter().map(|t| t.name.clone()).collect()
    }

    /// Whether the same diameter goes on farther in (a groove only interrupts it).
    fn goes_on(&self, i: usize) -> bool {
        self.list[i + 1..].iter().take_while(|o| !self.is_narrower(i, o)).any(|o| self.is_same(i, o))
    }

    /// The same cylinder farther out, as long as nothing narrower stands between (then it is another one).
    fn earlier(&self, i: usize) -> impl Iterator<Item = &Surface> {
        let near = self.list[..i].iter().rev().take_while(move |o| !self.is_narrower(i, o));
        near.filter(move |o| self.is_same(i, o))
    }

    /// Whether a surface is a narrower cylinder than number `i`.
    fn is_narrower(&self, i: usize, o: &Surface) -> bool {
        o.form == Form::Cylinder && o.a.x < self.list[i].a.x - 1e-9
    }

    /// Whether a surface is the same cylinder as number `i`.
    fn is_same(&self, i: usize, o: &Surface) -> bool {
        o.form == Form::Cylinder && (o.a.x - self.list[i].a.x).abs() < 1e-9
    }

    /// The tag that tells most of a cylinder: its own or that of a part of it before a groove.
    fn tag(&self, i: usize) -> Option<&Tag> {
        let own = self.list[i].tag.as_ref();
        own.or_else(|| self.earlier(i).find_map(|o| o.tag.as_ref()))
    }

    /// Diameter and depth of one cylinder.
    fn cylinder(&self, i: usize) -> Row {
        let s = &self.list[i];
        let tag = self.tag(i);
        let diameter = texts::diameter(s.a.x, tag);
        let (low, high) = s.span();
        let mut names: Vec<String> = self.earlier(i).chain([s]).flat_map(|o| self.names(o)).collect();
        let floor = self.floor(i);
        names.extend(floor.iter().filter_map(|f| f.tag.as_ref()).map(|t| t.name.clone()));
        let depth = floor.map_or_else(|| texts::plain(high), |f| depth_text(f, high));
        let radius = s.a.x;
        let narrower = |o: &Surface| o.form == Form::Cylinder && o.a.x < radius - 1e-9;
        let (before, after) = (self.list[..i].iter().any(narrower), self.list[i + 1..].iter().any(narrower));
        let last = !self.list[i + 1..].iter().any(|o| o.form == Form::Cylinder);
        let drill = if self.drill && last { "drill " } else { "" };
        let text = if s.b.y < s.a.y - 1e-9 {
            format!("{diameter} inside")
        } else if before && after {
            format!("groove {diameter} × {} at ↧{}", texts::plain(high - low), texts::plain(low))
        } else if before && last && self.end == End::Through {
            // a step that is made from where the hole comes out: what is narrower tells how deep
            format!("⌴ {diameter} from other end")
        } else if before && !self.list[..i].iter().any(|o| self.is_same(i, o)) {
            format!("inner {diameter} from ↧{}", texts::plain(low))
        } else if last && self.end == End::Through {
            let out = if self.told_through { String::new() } else { format!(" {}", self.way_out) };
            format!("{drill}{diameter}{out}")
        } else if after
            && self.end != End::Island
            && self.list.get(i + 1).is_some_and(|n| n.form == Form::Flat)
        {
            format!("⌴ {diameter} ↧{depth}")
        } else {
            format!("{drill}{diameter} ↧{depth}")
        };
        let texture =
            tag.and_then(|t| t.ra).map_or_else(String::new, |ra| format!(" {}", texts::texture(ra)));
        Row::new(text + &texture, &names)
    }

    /// The flat that ends a cylinder, straight after it or after a chamfer or fillet.
    fn floor(&self, i: usize) -> Option<&Surface> {
        let rest = self.list.get(i + 1..)?;
        let next = rest.iter().find(|s| !matches!(s.form, Form::Chamfer | Form::Arc))?;
        (next.form == Form::Flat).then_some(next)
    }
}

/// A depth with the tolerance of the floor.
fn depth_text(floor: &Surface, depth: f64) -> String {
    let depth = depth.max(floor.a.y);
    texts::toleranced(depth, floor.tag.as_ref().map_or(&Tolerance::General, |t: &Tag| &t.tolerance))
}

/// Largest radius of a chain \[mm\].
pub fn widest(chain: &[ProfileNode]) -> f64 {
    chain.iter().map(|n| n.r).fold(0.0, f64::max)
}

/// Deepest point of a chain \[mm\].
pub fn deepest(chain: &[ProfileNode]) -> f64 {
    chain.iter().map(|n| n.z).fold(0.0, f64::max)
}

/// The chain and end of a bore or boss, if the feature is one.
pub fn turned(feature: &Feature) -> Option<(&[ProfileNode], End, bool)> {
    match &feature.kind {
        Kind::Bore { chain, end, .. } => Some((chain, *end, false)),
        Kind::Boss { chain } => Some((chain, End::Blind, true)),
        Kind::Pocket { .. } | Kind::Pad { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts_of(chain: &[(f64, f64)], end: End, thread: Option<InsideThread>) -> Vec<String> {
        let nodes: Vec<ProfileNode> = chain.iter().map(|(r, z)| ProfileNode::new(*r, *z)).collect();
        let told = rows("hole", 4, &nodes, end, thread.as_ref(), "through");
        told.into_iter().map(|r| Units::Mm.told(&r.text)).collect()
    }

    #[test]
    fn a_plain_hole_a_counterbore_and_a_tapped_hole() {
        assert_eq!(texts_of(&[(2.75, 0.0), (2.75, 6.0)], End::Through, None), ["4× ⌀5.5 through"]);
        let counterbore = [(5.0, 0.0), (5.0, 5.7), (2.75, 5.7), (2.75, 20.0)];
        assert_eq!(texts_of(&counterbore, End::Through, None), ["4× ⌴ ⌀10 ↧5.7, ⌀5.5 through"]);
        let thread = InsideThread { designation: "M5".to_owned(), depth: Some(10.0), both_ends: false };
        let tapped = [(2.1, 0.0), (2.1, 12.0), (0.0, 12.0 + 2.1 / 59.0_f64.to_radians().tan())];
        let told = texts_of(&tapped, End::Blind, Some(thread));
        assert_eq!(told, ["4× M5 ↧10, drill ⌀4.2 ↧12, tip 118°"]);
    }

    #[test]
    fn a_ring_groove_in_a_bore_tells_width_and_place() {
        let chain = [(11.0, 0.0), (11.0, 7.0), (11.7, 7.0), (11.7, 8.1), (11.0, 8.1), (11.0, 12.0)];
        let told = texts_of(&chain, End::Through, None).join(" | ");
        assert!(told.contains("groove ⌀23.4 × 1.1 at ↧7"), "{told}");
    }
}
