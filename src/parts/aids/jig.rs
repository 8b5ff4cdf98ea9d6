//! Drilling jigs: a plate with press-fit drill bushes on a part's bolt circle, put in place by a bore, a spigot or the
//! outside of the part. It lies on the face that is drilled; drawn the other way up, as it is printed: z = 0 is where the
//! drill goes in, the side towards the part is on top.

use super::register::{Register, Site};
use super::{Aid, AidKind, DOT_R_MM, LeftOut, Lies, WALL_MM, aid, dot, least_web};
use crate::catalogue::drill_bushes::{DrillBush, drill_bush};
use crate::parts::kit::{along, at, feature, fit, lift, named, through};
use crate::parts::part::{Part, Supply};
use crate::shape::loops::{Loop, polar};
use crate::shape::offset::offset;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Axis, Body, End, Feature, Kind, Place, ProfileNode, Recipe, Tag};
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Vector2};

/// Play between jig and part on the diameter \[mm\]; common practice for prints, no source.
const PLAY_MM: f64 = 0.2;
/// Material around a bush \[mm\]; common practice, no source.
const AROUND_MM: f64 = 4.0;
/// How far a spigot or rim reaches along the part at most \[mm\]; common practice, no source.
const REACH_MM: f64 = 5.0;
/// What a spigot stays clear of the bottom of its bore \[mm\].
const CLEAR_MM: f64 = 0.5;
/// How near a bush may come to a spigot, which stands on the other side \[mm\].
const BESIDE_MM: f64 = 0.2;
/// Name of the holes for bushes.
const BUSH_HOLE: &str = "bush-hole";
/// Name of the dot beside the first hole.
const DOT: &str = "first-hole-dot";
/// Fewest holes that are worth a jig.
const FEWEST: usize = 3;

/// A jig that has found its place.
struct Laid<'a> {
    recipe: Recipe,
    bush: &'a DrillBush,
    register: Register,
    lies: Lies,
}

impl Site<'_> {
    /// Where a jig with the shortest bushes lies: its own z runs with the drill and begins where that goes in.
    fn lies(&self, bush: &DrillBush) -> Lies {
        let low = bush.lengths_mm.first().copied().unwrap_or(0.0);
        Lies {
            origin: lift(self.centre, self.z - self.drill * low),
            z_axis: along(0.0, 0.0, self.drill),
            x_axis: along(1.0, 0.0, 0.0),
            bush_mm: bush.outer_mm,
        }
    }
}

/// A group of holes of a part on a circle.
struct Group<'a> {
    part: &'a Part,
    recipe: &'a Recipe,
    name: &'a str,
    centre: Point2,
    circle_r: f64,
    angles_deg: &'a [f64],
    axis: Axis,
    drill_mm: f64,
    thread: Option<&'a str>,
    /// Length of a hole that goes right through \[mm\].
    through_mm: Option<f64>,
}

/// The jigs of a part, one for each of its bolt circles.
pub(super) fn jigs(part: &Part) -> Vec<Result<Aid, LeftOut>> {
    let Some(recipe) = part.recipe.as_ref().filter(|_| part.supply == Supply::Make && !is_soft(part)) else {
        return Vec::new();
    };
    let mut names: Vec<&str> = Vec::new();
    let mut all = Vec::new();
    for f in &recipe.features {
        if names.contains(&f.name.as_str()) {
            continue;
        }
        names.push(&f.name);
        all.extend(group(part, recipe, f).map(|g| g.jig()));
    }
    all
}

/// Gaskets are cut and punched, not drilled.
fn is_soft(part: &Part) -> bool {
    part.name.ends_with("-gasket")
}

/// The group that a feature belongs to, where it is drilled along Z on a circle.
fn group<'a>(part: &'a Part, recipe: &'a Recipe, f: &'a Feature) -> Option<Group<'a>> {
    let Place::Circle { centre, diameter, angles_deg } = &f.place else { return None };
    let Kind::Bore { chain, thread, end } = &f.kind else { return None };
    // a blind hole without a thread is a mark or a pocket
    if *end != End::Through && thread.is_none() {
        return None;
    }
    let least = chain.iter().map(|n| n.r).filter(|r| *r > 0.0).fold(f64::INFINITY, f64::min);
    let fits = angles_deg.len() >= FEWEST && f.axis.direction.z.abs() > 0.999 && least.is_finite();
    fits.then_some(Group {
        part,
        recipe,
        name: &f.name,
        centre: *centre,
        circle_r: 0.5 * diameter,
        angles_deg,
        axis: f.axis,
        drill_mm: 2.0 * least,
        thread: thread.as_ref().map(|t| t.designation.as_str()),
        through_mm: chain.last().map(|n| n.z).filter(|_| *end == End::Through),
    })
}

impl Group<'_> {
    /// The jig on the face where the drill goes in or, for a hole right through, else where it comes out.
    fn jig(&self) -> Result<Aid, LeftOut> {
        let name = format!("{}-{}-jig", self.part.name, self.name);
        let found = match drill_bush(self.drill_mm) {
            Some(bush) => self.seats().iter().map(|seat| self.on(seat, bush)).reduce(Result::or),
            None => Some(Err("no drill bush of DIN 179 is so large".to_owned())),
        };
        let title =
            format!("Drilling jig: {}, {}", self.part.title.to_lowercase(), self.name.replace('-', " "));
        match found {
            Some(Ok(laid)) => {
                let bare = aid(AidKind::DrillingJig, &name, &title, self.part, laid.recipe);
                Ok(self.noted(Aid { lies: Some(laid.lies), ..bare }, laid.bush, &laid.register))
            }
            Some(Err(why)) => {
                Err(LeftOut { kind: AidKind::DrillingJig, name, of: self.part.name.clone(), why })
            }
            None => unreachable!("a hole has a face where it begins"),
        }
    }

    /// The faces on which a jig may lie.
    fn seats(&self) -> Vec<Site<'_>> {
        let (z, drill) = (self.axis.origin.z, self.axis.direction.z.signum());
        let site = |z: f64, drill: f64| Site {
            recipe: self.recipe,
            centre: self.centre,
            z,
            drill,
            circle_r: self.circle_r,
        };
        let far = self.through_mm.map(|long| site(z + drill * long, -drill));
        std::iter::once(site(z, drill)).chain(far).collect()
    }

    /// The jig on a face, by the first register that leaves room for the bushes.
    fn on<'b>(&self, site: &Site, bush: &'b DrillBush) -> Result<Laid<'b>, String> {
        if site.is_blocked() {
            return Err("something stands on the face beside the axis".to_owned());
        }
        let found = site.look();
        let widest = (self.circle_r + 0.5 * bush.outer_mm + AROUND_MM).min(found.free[1] - 0.5 * PLAY_MM);
        let by = |register: Register| {
            let set = Layout { group: self, drill: site.drill, bush };
            let recipe = set.recipe(&register, widest).ok_or("the outline cannot be set off")?;
            set.room(&recipe).map(|()| Laid { recipe, bush, register, lies: site.lies(bush) })
        };
        let tried = found.registers.into_iter().map(by).reduce(Result::or);
        tried.unwrap_or_else(|| Err("the face has neither bore nor spigot nor edge to find it by".to_owned()))
    }

    fn noted(&self, mut aid: Aid, bush: &DrillBush, register: &Register) -> Aid {
        let part = &mut aid.part;
        let length = bush.lengths_mm.first().copied().unwrap_or(0.0);
        let drill = short(self.drill_mm);
        let thread = self.thread.map(|t| format!(" (core of {t})")).unwrap_or_default();
        part.notes.push(format!(
            "{} drill bushes DIN 179 form A, drill {drill} mm{thread}, outside {} mm, length {length} mm (table from memory: \
             measure the bush you bought). Ream the printed holes to {}; a drop of glue holds a loose bush.",
            self.angles_deg.len(),
            bush.outer_mm,
            DrillBush::HOUSING_FIT
        ));
        part.notes.push(match register {
            Register::Bore { r, .. } => format!("Its spigot goes into the bore of {} mm.", short(2.0 * r)),
            Register::Spigot { r } => format!("Its bore goes over the spigot of {} mm.", short(2.0 * r)),
            Register::Outside { .. } => "Its rim goes over the outside of the part.".to_owned(),
        });
        let marked = part.recipe.iter().flat_map(|r| &r.features).any(|f| f.name == DOT);
        let told = if marked {
            "First hole, beside the dot; the dot faces the drill. It stands"
        } else {
            "First hole"
        };
        part.notes.push(format!(
            "{told} at {} deg from the part's X: drill it, put a pin through bush and hole, clamp, drill the others.",
            short(self.angles_deg.first().copied().unwrap_or(0.0))
        ));
        part.cautions.push("Clamp jig and part to the table: a drill that grabs turns both.".to_owned());
        aid
    }
}

/// A jig being laid out: the drill goes along `drill` × z of the part.
struct Layout<'a> {
    group: &'a Group<'a>,
    drill: f64,
    bush: &'a DrillBush,
}

impl Layout<'_> {
    /// Turned over to the side that lies on the part: y changes its sign where the drill goes down.
    fn turned(&self, p: Point2) -> Point2 {
        Point2::new(p.x, p.y * self.drill)
    }

    fn centres(&self) -> Vec<Point2> {
        let on = |deg: &f64| self.turned(polar(Point2::new(0.0, 0.0), self.group.circle_r, deg.to_radians()));
        self.group.angles_deg.iter().map(on).collect()
    }

    fn recipe(&self, register: &Register, widest: f64) -> Option<Recipe> {
        let bush = self.bush;
        let low = bush.lengths_mm.first().copied()?;
        let disc = |diameter: f64| Outline::Disc {
            centre: Point2::new(0.0, 0.0),
            diameter,
            tag: Tag::new("outside-diameter"),
        };
        let up = along(0.0, 0.0, 1.0);
        let top = |z: f64| lift(Point2::new(0.0, 0.0), z);
        let mut features = Vec::new();
        let mut thickness = low;
        let outline = match register {
            Register::Bore { r, depth } => {
                let r = r - 0.5 * PLAY_MM;
                let high = (depth[1] - CLEAR_MM).min(depth[0] + REACH_MM);
                let chain = vec![
                    named(r, 0.0, Tag::new("spigot-diameter").limits(0.0, -0.1)),
                    at(r, high),
                    at(0.0, high),
                ];
                features.push(feature("spigot", top(low), up, Kind::Boss { chain }));
                disc(2.0 * widest)
            }
            Register::Spigot { r } => {
                let tag = Tag::new("register-bore").limits(0.1, 0.0);
                features.push(through(top(0.0), up, 2.0 * r + PLAY_MM, low, tag));
                disc(2.0 * widest)
            }
            Register::Outside { edge, depth } => {
                let mirrored = self.drill < 0.0;
                let inside = offset(&edge.mapped(|p| self.turned(p), mirrored), 0.5 * PLAY_MM).ok()?;
                let rim = offset(&inside, AROUND_MM).ok()?;
                let reach = depth.min(REACH_MM);
                thickness = low + reach;
                // seen along the pocket's own direction, down from the top, y runs the other way
                let local = inside.mapped(|p| Point2::new(p.x, -p.y), true);
                let pocket = Kind::Pocket { outline: local, depth: reach, through: false };
                features.push(feature("register-pocket", top(thickness), along(0.0, 0.0, -1.0), pocket));
                match rim {
                    Loop::Circle { radius, .. } => disc(2.0 * radius),
                    boundary => Outline::Free { boundary, sizes: Vec::new() },
                }
            }
        };
        let tag = || fit(BUSH_HOLE, bush.outer_mm, DrillBush::HOUSING_FIT);
        features
            .extend(self.centres().into_iter().map(|c| through(lift(c, 0.0), up, bush.outer_mm, low, tag())));
        let body = Body::Plate { outline, thickness, tag: Tag::new("thickness") };
        let mut recipe = Recipe { body, features };
        if let Some(place) = self.dot_place(&recipe) {
            recipe.features.push(dot(DOT, lift(place, 0.0), up));
        }
        Some(recipe)
    }

    /// Where the dot beside the first hole goes: out, in, or round from it, where walls stay.
    fn dot_place(&self, recipe: &Recipe) -> Option<Point2> {
        let first = *self.centres().first()?;
        let out = first.to_vec() / first.to_vec().magnitude();
        let round = Vector2::new(-out.y, out.x);
        let away = 0.5 * self.bush.outer_mm + WALL_MM + DOT_R_MM;
        let edge = match &recipe.body {
            Body::Plate { outline, .. } => outline.boundary(),
            Body::Turned(_) => return None,
        };
        let holes: Vec<(Point2, f64)> = recipe
            .features
            .iter()
            .filter_map(|f| match &f.kind {
                Kind::Bore { chain, .. } => {
                    let widest = chain.iter().map(|n| n.r).fold(0.0, f64::max);
                    Some((Point2::new(f.axis.origin.x, f.axis.origin.y), widest))
                }
                _ => None,
            })
            .collect();
        let free = |p: &Point2| {
            let hole = |(c, r): &(Point2, f64)| (*p - *c).magnitude() - r;
            let web = holes.iter().map(hole).fold(edge.distance(*p), f64::min) - DOT_R_MM;
            edge.contains(*p) && web > WALL_MM - 1e-6
        };
        [out, -out, round, -round].iter().map(|way| first + *way * away).find(free)
    }

    /// Whether walls stay between the bushes, the edge and the register.
    fn room(&self, recipe: &Recipe) -> Result<(), String> {
        let radius = 0.5 * self.bush.outer_mm;
        let bushes: Vec<Loop> =
            self.centres().into_iter().map(|centre| Loop::Circle { centre, radius }).collect();
        let with = |more: Option<Loop>| -> f64 {
            let all: Vec<Loop> = bushes.iter().cloned().chain(more).collect();
            least_web(&all)
        };
        let edge = match &recipe.body {
            Body::Plate { outline, .. } => Some(outline.boundary()),
            Body::Turned(_) => None,
        };
        let round =
            |chain: &[ProfileNode]| Loop::circle(0.0, 0.0, chain.iter().map(|n| n.r).fold(0.0, f64::max));
        let mut webs = vec![(with(edge), WALL_MM)];
        for f in recipe.features.iter().filter(|f| f.name != BUSH_HOLE && f.name != DOT) {
            match &f.kind {
                Kind::Boss { chain } => webs.push((with(Some(round(chain))), BESIDE_MM)),
                Kind::Bore { chain, .. } => webs.push((with(Some(round(chain))), WALL_MM)),
                _ => {}
            }
        }
        match webs.into_iter().find(|(web, least)| web < least) {
            Some((web, _)) => Err(format!("bushes of {} mm leave a wall of {web:.2} mm", self.bush.outer_mm)),
            None => Ok(()),
        }
    }
}

/// A number for a sentence, at most two decimals.
fn short(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Jigs of one shape are one jig for several parts; other aids stay as they are.
pub(super) fn shared(aids: Vec<Aid>) -> Vec<Aid> {
    let mut kept: Vec<Aid> = Vec::new();
    for aid in aids {
        let same = |k: &&mut Aid| k.kind == AidKind::DrillingJig && k.part.recipe == aid.part.recipe;
        match kept.iter_mut().find(same) {
            Some(first) => {
                first.of.extend(aid.of);
                first.part.notes.push(format!("Serves as {} too.", aid.part.name));
            }
            None => kept.push(aid),
        }
    }
    kept
}
