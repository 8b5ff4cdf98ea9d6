//! The plan of sizes of a turned body, a boss or a bore: each size that shapes it, exactly once.
//! It is made from the recipe before anything is placed on the sheet.

use super::surface::{Form, Repeat, Surface, repetition};
use super::texts;
use crate::shape::Point2;
use crate::shape::recipe::{Tag, Tolerance};

/// What a size measures, in (r, z) of its own axis.
#[derive(Clone, Debug, PartialEq)]
pub enum Measure {
    /// A diameter that holds from `low` to `high` along the axis.
    Diameter {
        /// Radius \[mm\].
        r: f64,
        /// Lower end of the surface \[mm\].
        low: f64,
        /// Upper end of the surface \[mm\].
        high: f64,
        /// Metal inside, air outside.
        outside: bool,
    },
    /// A length along the axis.
    Length {
        /// From here \[mm\].
        from: f64,
        /// To here \[mm\].
        to: f64,
        /// Radius of the corner measured to \[mm\].
        r: f64,
        /// On the outside of the body.
        outside: bool,
    },
    /// A note with a leader to a place (r, z): chamfer, radius, angle.
    Place(Point2),
}

/// One size of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanSize {
    /// Names that it settles.
    pub names: Vec<String>,
    /// What is written.
    pub text: String,
    /// What it measures.
    pub measure: Measure,
    /// Surface texture Ra \[µm\] of the surface, where its tag asks for one.
    pub ra: Option<f64>,
}

/// A profile to be planned.
pub struct Profile<'a> {
    /// Its surfaces.
    pub surfaces: &'a [Surface],
    /// Whether the last surface meets the first.
    pub closed: bool,
    /// Place from which lengths are given \[mm\].
    pub datum: f64,
    /// Stem of names made up for surfaces without a tag.
    pub stem: &'a str,
    /// Whether there is metal at (r, z).
    pub is_metal: &'a dyn Fn(Point2) -> bool,
}

/// Lets the first size tell the name of the group as well, unless one of them is called that already.
pub fn told_as(sizes: &mut [PlanSize], group: &str) {
    let known = sizes.iter().any(|s| s.names.iter().any(|n| n == group));
    if let Some(first) = sizes.first_mut().filter(|_| !known) {
        first.names.push(group.to_owned());
    }
}

/// Plans all sizes of a profile.
pub fn plan(profile: &Profile) -> Vec<PlanSize> {
    let repeat = repetition(profile.surfaces);
    let planner = Planner { p: profile, repeat };
    let mut drafts: Vec<Draft> = Vec::new();
    for (i, surface) in profile.surfaces.iter().enumerate() {
        if planner.first(i) == i {
            drafts.extend(planner.surface(i, surface).map(|size| planner.draft(i, surface, size)));
            drafts.extend(planner.corner(i).into_iter().map(Draft::alone));
        } else {
            planner.join_names(i, surface, &mut drafts);
        }
    }
    drafts.extend(planner.pitch().map(Draft::alone));
    merged(drafts)
}

/// A profile with what repeats in it.
struct Planner<'a> {
    p: &'a Profile<'a>,
    repeat: Option<Repeat>,
}

impl Planner<'_> {
    /// The surface that stands for this one: the same, or its twin in the first period.
    fn first(&self, i: usize) -> usize {
        self.repeat.and_then(|r| r.first_of(i)).unwrap_or(i)
    }

    /// How often a surface is there, if it belongs to a repetition.
    fn times(&self, i: usize) -> usize {
        self.repeat.filter(|r| r.first_of(i).is_some()).map_or(1, |r| r.count)
    }

    /// The sizes that a surface itself needs.
    fn surface(&self, i: usize, s: &Surface) -> Option<PlanSize> {
        let name = s.name(self.p.stem, i);
        let middle = s.piece.at(0.5);
        let (text, measure) = match s.form {
            Form::Cylinder => (texts::diameter(s.a.x, s.tag.as_ref()), self.diameter(s)),
            Form::Flat => self.flat(i, s)?,
            Form::Chamfer => (s.chamfer_text(), Measure::Place(middle)),
            Form::Arc => (format!("R{}", self.toleranced(s.arc_radius(), s)), Measure::Place(middle)),
            Form::Cone => return self.cone_angle(i, s),
            Form::Axis => return None,
        };
        Some(PlanSize { names: vec![name], text, measure, ra: s.tag.as_ref().and_then(|t| t.ra) })
    }

    /// A value with the tolerance of a surface.
    fn toleranced(&self, value: f64, s: &Surface) -> String {
        texts::toleranced(value, s.tag.as_ref().map_or(&Tolerance::General, |t| &t.tolerance))
    }

    /// Whether a cylinder of a repetition is a land (it is then the same diameter everywhere).
    fn is_outermost(&self, s: &Surface) -> bool {
        self.p.surfaces.iter().all(|o| o.a.x.max(o.b.x) <= s.a.x + 1e-9)
    }

    /// The measure of a cylinder.
    fn diameter(&self, s: &Surface) -> Measure {
        let (low, high) = s.span();
        let beyond = Point2::new(s.a.x + 1e-3, (low + high) / 2.0);
        Measure::Diameter { r: s.a.x, low, high, outside: !(self.p.is_metal)(beyond) }
    }

    /// Place of a flat along the axis, unless it is the datum itself.
    fn flat(&self, i: usize, s: &Surface) -> Option<(String, Measure)> {
        let to = s.a.y;
        let from = self.origin_of(i, s);
        if (to - from).abs() < 1e-9 {
            return None;
        }
        let text = self.toleranced((to - from).abs(), s);
        Some((text, self.length(from, to, s.a.x.max(s.b.x))))
    }

    /// A length, told apart by whether its corner shows on the outside.
    fn length(&self, from: f64, to: f64, r: f64) -> Measure {
        let metal = |dz: f64| (self.p.is_metal)(Point2::new(r + 1e-3, to + dz));
        Measure::Length { from, to, r, outside: !metal(1e-3) && !metal(-1e-3) }
    }

    /// From where a flat is dimensioned: its tag's wish, the near side of its groove, or the datum.
    fn origin_of(&self, i: usize, s: &Surface) -> f64 {
        let wish = s.tag.as_ref().and_then(|t: &Tag| t.from_z);
        wish.or_else(|| self.groove_side(i, s)).unwrap_or(self.p.datum)
    }

    /// The near side of the groove of which this flat is the far side: the other flat that meets the
    /// same floor (with fillets between, at most), when both walls rise from it.
    fn groove_side(&self, i: usize, s: &Surface) -> Option<f64> {
        [-1_i64, 1].into_iter().find_map(|step| {
            let other = self.across_floor(i, step)?;
            let o = &self.p.surfaces[other];
            let far = (s.a.y - self.p.datum).abs() > (o.a.y - self.p.datum).abs();
            (far && (s.a.y - o.a.y).abs() < GROOVE_WIDTH).then_some(o.a.y)
        })
    }

    /// Index of the flat on the other side of a groove's floor, walking by `step`.
    fn across_floor(&self, i: usize, step: i64) -> Option<usize> {
        let s = &self.p.surfaces[i];
        let mut at = i as i64;
        let mut floor = None;
        for _ in 0..4 {
            at += step;
            let next = self.p.surfaces.get(usize::try_from(at).ok()?)?;
            match next.form {
                Form::Cylinder if floor.is_none() => floor = Some(next.a.x),
                Form::Arc | Form::Chamfer => {}
                Form::Flat => {
                    let floor = floor?;
                    let depth = |f: &Surface| [f.a.x - floor, f.b.x - floor].into_iter().fold(0.0, extreme);
                    let metal = (self.p.is_metal)(Point2::new(
                        floor + depth(s).signum() * 1e-3,
                        (s.a.y + next.a.y) / 2.0,
                    ));
                    let same_side = depth(s) * depth(next) > 0.0;
                    return (same_side && !metal).then_some(at as usize);
                }
                _ => return None,
            }
        }
        None
    }

    /// A cone tells its angle when a fillet or the axis leaves that open.
    fn cone_angle(&self, i: usize, s: &Surface) -> Option<PlanSize> {
        let (before, after) = (self.neighbour(i, -1), self.neighbour(i, 1));
        let soft = before.is_some_and(|b| b.is_tangent_to(s)) || after.is_some_and(|a| s.is_tangent_to(a));
        let tip = s.a.x.abs() < 1e-9 || s.b.x.abs() < 1e-9;
        (soft || tip).then(|| PlanSize {
            names: vec![s.name(self.p.stem, i)],
            text: format!("{}°", texts::number(s.cone_angle_deg())),
            measure: Measure::Place(s.piece.at(0.5)),
            ra: None,
        })
    }

    /// The surface before or after.
    fn neighbour(&self, i: usize, step: i64) -> Option<&Surface> {
        let n = self.p.surfaces.len() as i64;
        let at = i as i64 + step;
        match self.p.closed {
            true => self.p.surfaces.get(at.rem_euclid(n) as usize),
            false => self.p.surfaces.get(usize::try_from(at).ok()?),
        }
    }

    /// The sizes that the corner at the end of surface `i` needs beyond those of its two surfaces.
    fn corner(&self, i: usize) -> Vec<PlanSize> {
        let s = &self.p.surfaces[i];
        let Some(next) = self.neighbour(i, 1) else { return Vec::new() };
        let (need_r, need_z) = corner_needs(s, next);
        let owner = if matches!(s.form, Form::Cone | Form::Arc | Form::Cylinder) { s } else { next };
        let stem = owner.name(self.p.stem, i);
        let at = s.b;
        // a cone without an angle of its own is told by where it ends
        let by_ends = owner.form == Form::Cone && self.cone_angle(i, owner).is_none();
        let own = owner.tag.as_ref().filter(|_| by_ends).map(|t| t.name.clone());
        let size = |suffix: &str, text: String, measure| PlanSize {
            names: vec![format!("{stem}-{suffix}")],
            text,
            measure,
            ra: None,
        };
        let mut sizes = Vec::new();
        if need_z && (at.y - self.p.datum).abs() > 1e-9 {
            let text = texts::plain((at.y - self.p.datum).abs());
            sizes.push(size("end", text, self.length(self.p.datum, at.y, at.x)));
        }
        if need_r {
            let outside = !(self.p.is_metal)(Point2::new(at.x + 1e-3, at.y));
            let measure = Measure::Diameter { r: at.x, low: at.y, high: at.y, outside };
            sizes.push(size("end-diameter", format!("⌀{}", texts::plain(2.0 * at.x)), measure));
        }
        if let Some(first) = sizes.first_mut() {
            first.names.extend(own);
        }
        sizes
    }

    /// The step of the repetition.
    fn pitch(&self) -> Option<PlanSize> {
        let r = self.repeat?;
        let first = &self.p.surfaces[r.start];
        let steps = r.count - 1;
        let total = r.pitch * steps as f64;
        let text = format!("{steps}× {} (= {})", texts::plain(r.pitch.abs()), texts::plain(total.abs()));
        let name = format!("{}-pitch", first.name(self.p.stem, r.start));
        let (from, to) = (first.a.y, first.a.y + total);
        Some(PlanSize {
            names: vec![name],
            text,
            measure: self.length(from, to, first.a.x.max(first.b.x)),
            ra: None,
        })
    }

    /// A size with its count. Lands are one diameter however often they are interrupted, and a length
    /// from the datum is there once.
    fn draft(&self, i: usize, s: &Surface, size: PlanSize) -> Draft {
        let (once, counts) = match size.measure {
            Measure::Diameter { .. } => (self.is_outermost(s), true),
            Measure::Length { from, .. } => ((from - self.p.datum).abs() < 1e-9, false),
            Measure::Place(_) => (false, true),
        };
        let tagged = s.tag.is_some() || matches!(size.measure, Measure::Place(_));
        Draft { size, count: if once { 1 } else { self.times(i) }, tagged, adds_up: counts && !once }
    }

    /// Adds the name of a repeated surface to the size of its twin in the first period.
    fn join_names(&self, i: usize, s: &Surface, drafts: &mut [Draft]) {
        let twin = self.p.surfaces[self.first(i)].name(self.p.stem, self.first(i));
        let draft = drafts.iter_mut().find(|d| d.size.names.contains(&twin));
        if let (Some(tag), Some(draft)) = (&s.tag, draft) {
            draft.size.names.push(tag.name.clone());
        }
    }
}

/// Widest recess that is dimensioned as a groove, by its width \[mm\] (common practice, no source).
const GROOVE_WIDTH: f64 = 20.0;

/// The value farther from zero.
fn extreme(a: f64, b: f64) -> f64 {
    if b.abs() > a.abs() { b } else { a }
}

/// Whether the corner between two surfaces needs a radius and a place of its own.
fn corner_needs(s: &Surface, next: &Surface) -> (bool, bool) {
    use Form::{Arc, Axis, Chamfer, Cone, Cylinder, Flat};
    if s.b.x.abs() < 1e-9 {
        return (false, matches!((s.form, next.form), (Arc, Axis) | (Axis, Arc)));
    }
    match (s.form, next.form) {
        (Chamfer, _) | (_, Chamfer) | (Cylinder, Flat) | (Flat, Cylinder) => (false, false),
        (Cylinder, Cylinder) => (false, true),
        (Flat, Flat) => (true, false),
        _ if s.is_tangent_to(next) => (false, false),
        (Cone | Arc, Cylinder) | (Cylinder, Cone | Arc) => (false, true),
        (Cone | Arc, Flat) | (Flat, Cone | Arc) => (true, false),
        (Cone | Arc, Cone | Arc) => (true, true),
        _ => (false, false),
    }
}

/// A size on its way into the plan, with what decides whether another one says the same.
struct Draft {
    size: PlanSize,
    /// How often it is there.
    count: usize,
    /// Whether the recipe names it.
    tagged: bool,
    /// Whether equal ones elsewhere are counted together with it.
    adds_up: bool,
}

/// Sizes that say the same are written once, with all their names: `2× ⌀57` for two equal grooves, the plain
/// diameter for a cylinder that grooves interrupt.
fn merged(drafts: Vec<Draft>) -> Vec<PlanSize> {
    let mut list: Vec<Draft> = Vec::new();
    for draft in drafts {
        match list.iter_mut().find(|known| says_the_same(known, &draft)) {
            Some(known) => known.absorb(draft),
            None => list.push(draft),
        }
    }
    list.into_iter().map(Draft::finished).collect()
}

impl Draft {
    /// A size that stands for itself.
    fn alone(size: PlanSize) -> Self {
        Self { size, count: 1, tagged: true, adds_up: false }
    }

    /// Takes over the names of another draft; the text of a named surface wins over that of a nameless one.
    fn absorb(&mut self, other: Draft) {
        if !self.tagged && other.tagged {
            (self.size.text, self.size.measure) = (other.size.text, other.size.measure);
        } else if self.adds_up && self.tagged == other.tagged {
            self.count += other.count;
        }
        self.tagged |= other.tagged;
        self.size.names.extend(other.size.names);
    }

    /// The size with its count.
    fn finished(mut self) -> PlanSize {
        if self.count > 1 {
            self.size.text = format!("{}× {}", self.count, self.size.text);
        }
        self.size
    }
}

/// Whether two drafts are one size: equal diameters on one axis, equal lengths between equal places, equal
/// chamfers.
fn says_the_same(a: &Draft, b: &Draft) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() < 1e-9;
    let text = a.size.text == b.size.text;
    let agree = text || !a.tagged || !b.tagged;
    match (&a.size.measure, &b.size.measure) {
        (Measure::Diameter { r, outside, .. }, Measure::Diameter { r: q, outside: o, .. }) => {
            near(*r, *q) && outside == o && agree
        }
        (Measure::Length { from, to, .. }, Measure::Length { from: f, to: t, .. }) => {
            near(*from, *f) && near(*to, *t) && agree
        }
        (Measure::Place(_), Measure::Place(_)) => text && a.size.text.ends_with("× 45°"),
        _ => false,
    }
}
