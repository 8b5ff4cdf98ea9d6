//! Drilling jigs: a plate with press-fit drill bushes on a part's bolt circle, put in place by a bore, a spigot or the
//! outside of the part. It lies on the face that is drilled; drawn the other way up, as it is printed: z = 0 is where the
//! drill goes in, the side towards the part is on top.

use super::register::{Register, Site};
use super::{Aid, AidKind, LeftOut, WALL_MM, aid, least_web};
use crate::catalogue::drill_bushes::{DrillBush, drill_bush};
use crate::parts::kit::{along, at, feature, fit, lift, named, through};
use crate::parts::part::{Part, Supply};
use crate::shape::Point2;
use crate::shape::loops::{Loop, polar};
use crate::shape::offset::offset;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Axis, Body, Feature, Kind, Place, Recipe, Tag};

/// Play between jig and part on the diameter \[mm\]; common practice for prints, no source.
const PLAY_MM: f64 = 0.2;
/// Material around a bush \[mm\]; common practice, no source.
const AROUND_MM: f64 = 4.0;
/// How far a spigot or rim reaches along the part at most \[mm\]; common practice, no source.
const REACH_MM: f64 = 5.0;
/// What a spigot stays clear of the bottom of its bore \[mm\].
const CLEAR_MM: f64 = 0.5;
/// Fewest holes that are worth a jig.
const FEWEST: usize = 3;

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
    let Kind::Bore { chain, thread, .. } = &f.kind else { return None };
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
    })
}

impl Group<'_> {
    fn jig(&self) -> Result<Aid, LeftOut> {
        let name = format!("{}-{}-jig", self.part.name, self.name);
        let left = |why: &str| LeftOut {
            kind: AidKind::DrillingJig,
            name: name.clone(),
            of: self.part.name.clone(),
            why: why.to_owned(),
        };
        let bush = drill_bush(self.drill_mm).ok_or_else(|| left("no drill bush of DIN 179 is so large"))?;
        let site = Site {
            recipe: self.recipe,
            centre: self.centre,
            z: self.axis.origin.z,
            drill: self.axis.direction.z.signum(),
            circle_r: self.circle_r,
        };
        if site.is_blocked() {
            return Err(left("something stands on the face beside the axis"));
        }
        let found = site.look();
        let register = found.register.ok_or_else(|| left("the face has neither bore nor spigot nor edge to find it by"))?;
        let widest = (self.circle_r + 0.5 * bush.outer_mm + AROUND_MM).min(found.free[1] - 0.5 * PLAY_MM);
        let recipe = self.recipe(bush, &register, widest).ok_or_else(|| left("the outline cannot be set off"))?;
        let web = least_web(&self.loops(&recipe, bush));
        if web < WALL_MM {
            return Err(left(&format!("bushes of {} mm leave a wall of {web:.2} mm", bush.outer_mm)));
        }
        let title = format!("Drilling jig: {}, {}", self.part.title.to_lowercase(), self.name.replace('-', " "));
        Ok(self.noted(aid(AidKind::DrillingJig, &name, &title, self.part, recipe), bush, &register))
    }

    /// Turned over to the side that lies on the part: y changes its sign where the drill goes down.
    fn turned(&self, p: Point2) -> Point2 {
        Point2::new(p.x, p.y * self.axis.direction.z.signum())
    }

    fn centres(&self) -> Vec<Point2> {
        let on = |deg: &f64| self.turned(polar(Point2::new(0.0, 0.0), self.circle_r, deg.to_radians()));
        self.angles_deg.iter().map(on).collect()
    }

    fn recipe(&self, bush: &DrillBush, register: &Register, widest: f64) -> Option<Recipe> {
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
                let chain = vec![named(r, 0.0, Tag::new("spigot-diameter").limits(0.0, -0.1)), at(r, high), at(0.0, high)];
                features.push(feature("spigot", top(low), up, Kind::Boss { chain }));
                disc(2.0 * widest)
            }
            Register::Spigot { r } => {
                let tag = Tag::new("register-bore").limits(0.1, 0.0);
                features.push(through(top(0.0), up, 2.0 * r + PLAY_MM, low, tag));
                disc(2.0 * widest)
            }
            Register::Outside { edge, depth } => {
                let mirrored = self.axis.direction.z < 0.0;
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
        let tag = || fit("bush-hole", bush.outer_mm, DrillBush::HOUSING_FIT);
        features.extend(self.centres().into_iter().map(|c| through(lift(c, 0.0), up, bush.outer_mm, low, tag())));
        let body = Body::Plate { outline, thickness, tag: Tag::new("thickness") };
        Some(Recipe { body, features })
    }

    /// Loops between which walls must stay: the plate's edge or the pocket's, the register, the bushes.
    fn loops(&self, recipe: &Recipe, bush: &DrillBush) -> Vec<Loop> {
        let mut all: Vec<Loop> = self
            .centres()
            .into_iter()
            .map(|centre| Loop::Circle { centre, radius: 0.5 * bush.outer_mm })
            .collect();
        if let Body::Plate { outline, .. } = &recipe.body {
            all.push(outline.boundary());
        }
        for f in &recipe.features {
            if let (Kind::Bore { chain, .. } | Kind::Boss { chain }, true) = (&f.kind, f.name != "bush-hole") {
                all.push(Loop::circle(0.0, 0.0, chain.iter().map(|n| n.r).fold(0.0, f64::max)));
            }
        }
        all
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
        part.notes.push(format!(
            "First hole at {} deg from the part's X: drill it, put a pin through bush and hole, clamp, drill the others.",
            short(self.angles_deg.first().copied().unwrap_or(0.0))
        ));
        part.cautions.push("Clamp jig and part to the table: a drill that grabs turns both.".to_owned());
        aid
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
