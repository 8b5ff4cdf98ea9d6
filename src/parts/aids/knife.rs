//! Knife templates: a plate of a gasket's shape, set back by what a blade needs, screwed down through the gasket's own holes.

use super::{Aid, AidKind, DOT_R_MM, LeftOut, WALL_MM, aid, dot, least_web};
use crate::design::Design;
use crate::parts::kit::{along, lift};
use crate::parts::part::{Joint, Part, PartSet};
use crate::shape::Point2;
use crate::shape::loops::Loop;
use crate::shape::offset::{OffsetError, offset};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Axis, Body, End, Feature, Kind, ProfileNode, Recipe, Tag};

/// A hole is the screw's when its centre lies this near to it \[mm\].
const SAME_PLACE: f64 = 1e-6;

/// What the design says of cutting by hand, all \[mm\].
pub(super) struct Blade {
    offset: f64,
    height: f64,
    /// Round holes smaller than this are punched.
    punch_below: f64,
}

impl Blade {
    pub fn of(design: &Design) -> Self {
        Self {
            offset: design.workshop.blade_offset_mm.value,
            height: design.outputs.guide_height_mm.value,
            punch_below: design.outputs.punch_below_mm.value,
        }
    }
}

/// How an opening of the gasket is made.
#[derive(Clone, Copy, PartialEq)]
enum Made {
    /// For a screw of the joint: the template is held by it.
    Screw,
    /// Punched through the template.
    Punched,
    /// Cut along the template.
    Cut,
}

/// Whether a joint names the part as its gasket.
pub(super) fn is_gasket(part: &Part, set: &PartSet) -> bool {
    part.flat && joint_of(part, set).is_some()
}

fn joint_of<'a>(part: &Part, set: &'a PartSet) -> Option<&'a Joint> {
    set.joints.iter().find(|j| j.gasket.as_ref() == Some(&part.name))
}

/// The template of a gasket.
pub(super) fn template(part: &Part, set: &PartSet, blade: &Blade) -> Result<Aid, LeftOut> {
    let name = format!("{}-knife-template", part.name);
    let left = |why: String| LeftOut {
        kind: AidKind::KnifeTemplate,
        name: name.clone(),
        of: part.name.clone(),
        why,
    };
    let (Some(recipe), Some(joint)) = (&part.recipe, joint_of(part, set)) else {
        return Err(left("it has no shape".to_owned()));
    };
    let Body::Plate { outline, thickness, .. } = &recipe.body else {
        return Err(left("it is no plate".to_owned()));
    };
    let cannot = |e: OffsetError| left(e.to_string());
    let edge = set_back(outline, blade.offset).map_err(cannot)?;
    let openings: Vec<(Feature, Loop, Made)> = recipe
        .features
        .iter()
        .map(|f| opening(f, joint, *thickness, blade))
        .collect::<Result<_, _>>()
        .map_err(cannot)?;
    let loops: Vec<Loop> =
        std::iter::once(edge.boundary()).chain(openings.iter().map(|o| o.1.clone())).collect();
    let web = least_web(&loops);
    if web < WALL_MM {
        return Err(left(format!("set back by the blade it leaves a wall of {web:.2} mm")));
    }
    let count = |made: Made| openings.iter().filter(|o| o.2 == made).count();
    let counts = [Made::Screw, Made::Punched, Made::Cut].map(count);
    let tag = Tag::new("guide-height").origin("outputs.guide_height");
    let body = Body::Plate { outline: edge, thickness: blade.height, tag };
    let place = dot_place(&loops);
    let mut recipe = Recipe { body, features: openings.into_iter().map(|o| o.0).collect() };
    recipe.features.extend(place.map(|p| dot(DOT, lift(p, blade.height), along(0.0, 0.0, -1.0))));
    let title = format!("Knife template: {}", part.title.to_lowercase());
    let found = aid(AidKind::KnifeTemplate, &name, &title, part, recipe);
    Ok(noted(found, blade, joint, counts))
}

/// Name of the dot on the upper face.
const DOT: &str = "x-dot";
/// Steps in which a place for the dot is sought \[mm\], and how many.
const DOT_STEP: (f64, usize) = (0.5, 24);

/// Where the dot goes: as near as can be to where X leaves the outline, the first of the loops, with walls to all of them.
fn dot_place(loops: &[Loop]) -> Option<Point2> {
    let (edge, openings) = loops.split_first()?;
    let (low, high) = edge.bounds();
    let middle = 0.5 * (low.y + high.y);
    let free = |p: &Point2| {
        edge.contains(*p)
            && !openings.iter().any(|o| o.contains(*p))
            && loops.iter().all(|l| l.distance(*p) > DOT_R_MM + WALL_MM)
    };
    let grid = |k: usize| DOT_STEP.0 * k as f64;
    let aside = (0..2 * DOT_STEP.1).map(|k| if k % 2 == 0 { grid(k / 2) } else { -grid(k / 2 + 1) });
    aside.flat_map(|y| (2..DOT_STEP.1).map(move |k| Point2::new(high.x - grid(k), middle + y))).find(free)
}

/// An outline made smaller by the blade; a disc stays one.
fn set_back(outline: &Outline, by: f64) -> Result<Outline, OffsetError> {
    let boundary = offset(&outline.boundary(), -by)?;
    Ok(match boundary {
        Loop::Circle { centre, radius } => {
            Outline::Disc { centre, diameter: 2.0 * radius, tag: Tag::new("outside-diameter") }
        }
        boundary => Outline::Free { boundary, sizes: Vec::new() },
    })
}

/// An opening of the gasket in the template, with its loop in the plate's plane.
fn opening(
    feature: &Feature,
    joint: &Joint,
    thickness: f64,
    blade: &Blade,
) -> Result<(Feature, Loop, Made), OffsetError> {
    let mut own = feature.clone();
    let at = Point2::new(feature.axis.origin.x, feature.axis.origin.y);
    // what starts on the gasket's upper face starts on the template's
    if feature.axis.origin.z > 0.5 * thickness {
        own.axis.origin.z = blade.height;
    }
    match &feature.kind {
        Kind::Pocket { outline, .. } => {
            let wide = offset(outline, blade.offset)?;
            let Axis { direction, .. } = feature.axis;
            let (x, y) = (feature.x_axis, direction.cross(feature.x_axis));
            let place = |p: Point2| Point2::new(at.x + x.x * p.x + y.x * p.y, at.y + x.y * p.x + y.y * p.y);
            let drawn = wide.mapped(place, direction.z < 0.0);
            own.kind = Kind::Pocket { outline: wide, depth: blade.height, through: true };
            Ok((own, drawn, Made::Cut))
        }
        Kind::Bore { chain, .. } => {
            let nominal = chain.iter().map(|n| n.r).fold(0.0, f64::max);
            let is_screw = joint
                .holes
                .iter()
                .any(|[x, y]| (x - at.x).abs() < SAME_PLACE && (y - at.y).abs() < SAME_PLACE);
            let made = match is_screw {
                true => Made::Screw,
                false if 2.0 * nominal < blade.punch_below => Made::Punched,
                false => Made::Cut,
            };
            let r = if made == Made::Cut { nominal + blade.offset } else { nominal };
            let chain = vec![
                ProfileNode::new(r, 0.0).tag(Tag::new(&feature.name)),
                ProfileNode::new(r, blade.height),
            ];
            own.kind = Kind::Bore { chain, end: End::Through, thread: None };
            Ok((own, Loop::Circle { centre: at, radius: r }, made))
        }
        _ => Err(OffsetError::Unusable("a gasket has holes only".to_owned())),
    }
}

fn noted(mut aid: Aid, blade: &Blade, joint: &Joint, [screws, punched, cut]: [usize; 3]) -> Aid {
    let part = &mut aid.part;
    let marked = part.recipe.iter().flat_map(|r| &r.features).any(|f| f.name == DOT);
    let mut note = |text: String| part.notes.push(text);
    if marked {
        note("The dot is on the upper face, beside the gasket's X.".to_owned());
    }
    note(format!(
        "Walls stand back by {} mm: the cut of a blade that lies flat against them is the gasket's edge. Try it on a scrap and \
         set workshop.blade_offset.",
        blade.offset
    ));
    let size = joint.screw.split(['x', ' ']).find(|w| w.starts_with('M')).unwrap_or("the joint");
    note(format!(
        "1. Lay the sheet on a board, the template on it; punch the {screws} screw holes through the template and clamp all \
         with screws of {size}."
    ));
    if punched > 0 {
        note(format!("2. Punch the {punched} small openings through the template too."));
    }
    if cut > 0 {
        note(format!(
            "{}. Cut the {cut} opening(s) in the middle first, while the sheet is still held all round.",
            if punched > 0 { 3 } else { 2 }
        ));
    }
    note("Last, cut around the outside: several light strokes, not one hard one.".to_owned());
    part.cautions.push(
        "Sharp blade: cut away from your hand, keep fingers below the top of the guide, cut-resistant glove on the holding hand."
            .to_owned(),
    );
    aid
}
