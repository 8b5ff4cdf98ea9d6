//! Seal of the piston: rings, what springs them, and their places. Lengths in millimetres.

use super::assembly::Axis;
use super::bought::buy;
use super::kit::{at, fit, made, named, split_ring};
use super::part::{Instance, Part};
use super::piston::groove_top;
use crate::design::PistonSeal;
use crate::shape::Point2;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::rings::PistonRing;
use crate::sizing::rings::bent_ring::{Arc, BentRing};
use crate::sizing::rings::lip::Lip;
use crate::sizing::rings::size::STRIP_PLAY_MM;
use std::f64::consts::{PI, TAU};

/// Arcs of a free shape.
const PIECES: usize = 24;
/// Gap of the strip behind a ring, as fitted.
const STRIP_GAP_MM: f64 = 2.0;
/// How to set rings.
const FITTING: &str = "Fit with the gaps half a turn apart.";

/// All parts of the seal; none for a close-fitting piston.
pub fn parts(e: &Engine) -> Vec<Part> {
    let s = &e.piston.seal;
    match s.kind {
        PistonSeal::Fitted => Vec::new(),
        PistonSeal::PtfeRing => vec![ptfe(e), expander(e)],
        PistonSeal::GraphiteRing => vec![graphite(e), expander(e)],
        PistonSeal::MetalRing => vec![metal(e), metal_free(e)],
        PistonSeal::ORing => vec![rubber(s)],
        PistonSeal::LipRing => vec![lips(e)],
    }
}

/// Pair that overlaps on purpose: lips are drawn as printed, the bore bends them in.
pub fn overlap(e: &Engine) -> Option<([String; 2], String)> {
    (e.piston.seal.kind == PistonSeal::LipRing).then(|| {
        let pair = ["piston-ring", "power-cylinder-block"].map(str::to_owned);
        (pair, "lips drawn free: the bore bends them in".to_owned())
    })
}

/// A plate of a height cut to an outline.
fn flat(boundary: Loop, sizes: Vec<(Tag, Measure)>, height: f64) -> Recipe {
    let tag = fit("height", height, "h9").origin("piston.ring_height");
    let body = Body::Plate { outline: Outline::Free { boundary, sizes }, thickness: height, tag };
    Recipe { body, features: Vec::new() }
}

/// A split ring: outside and inside diameter, gap, height.
fn split(diameters: [f64; 2], gap: f64, height: f64) -> Recipe {
    // its ends stand at +X, parallel to X
    let end = |side: f64| {
        let (r, y) = (diameters[0] / 2.0, side * gap / 2.0);
        Point2::new((r * r - y * y).sqrt(), y)
    };
    let sizes = vec![
        (Tag::new("outside-diameter").origin("piston.bore"), Measure::Diameter(diameters[0])),
        (Tag::new("inside-diameter").origin("piston.ring_width"), Measure::Diameter(diameters[1])),
        (Tag::new("gap").limits(0.1, 0.0).origin("piston.ring_gap"), Measure::Upright(end(-1.0), end(1.0))),
    ];
    flat(split_ring(diameters[0] / 2.0, diameters[1] / 2.0, gap), sizes, height)
}

fn diameters(e: &Engine) -> [f64; 2] {
    [e.piston.bore_mm, e.piston.bore_mm - 2.0 * e.piston.seal.width_mm]
}

/// Gap and force in words.
fn told(e: &Engine) -> String {
    let s = &e.piston.seal;
    format!(
        "Gap {:.2} mm at 20 °C, {:.2} mm hot. Each ring presses with {:.1} N on the bore without gas.",
        s.gap_mm,
        s.gap_hot_mm,
        s.contact_n(e.piston.bore_mm)
    )
}

fn ptfe(e: &Engine) -> Part {
    let s = &e.piston.seal;
    made("piston-ring", "Piston ring", s.material, split(diameters(e), s.gap_mm, s.height_mm))
        .flat()
        .times(s.count)
        .note("Sizes as fitted in the bore, cold. Cut from sheet of this height, or turn a tube to these diameters and part off; then cut the gap.")
        .note(&told(e))
        .note(FITTING)
        .caution("PTFE gives off harmful fumes above 260 °C: keep it away from the hot end, do not burn scrap, do not smoke near the dust.")
}

/// Strip behind a ring.
fn expander(e: &Engine) -> Part {
    let s = &e.piston.seal;
    let outer = e.piston.bore_mm - 2.0 * s.width_mm;
    let middle = outer - s.expander_mm;
    let (height, strip) = (s.height_mm - STRIP_PLAY_MM, PI * middle - STRIP_GAP_MM);
    let free = outer + s.expander_free_gap_mm / PI;
    let recipe = split([outer, outer - 2.0 * s.expander_mm], STRIP_GAP_MM, height);
    made("ring-expander", "Ring expander", "spring-steel", recipe)
        .times(s.count)
        .note(&format!("Sizes as fitted; t is the width of the strip along the axis. From spring strip {} x {height:.2} mm (thickness x width), cut {strip:.1} mm long, ends rounded.", s.expander_mm))
        .note(&format!(
            "Free shape: an even arc of about {free:.1} mm outside, drawn cold round a mandrel a third smaller until it springs back to that, ends {:.1} mm apart, no flat and no kink; {:.0} MPa of bending as fitted.",
            STRIP_GAP_MM + s.expander_free_gap_mm,
            s.stress_mpa
        ))
        .note("Its gap opposite to that of the ring.")
}

/// A third of a graphite ring, about +X.
fn graphite(e: &Engine) -> Part {
    let s = &e.piston.seal;
    let [outer, inner] = diameters(e).map(|d| d / 2.0);
    // straight ends, parallel to the gap's middle line
    let cut = |r: f64| {
        let h = 0.5 * s.gap_mm;
        let half = PI / 3.0 - (h / r).asin();
        (r * half.cos(), r * half.sin())
    };
    let ((xo, yo), (xi, yi)) = (cut(outer), cut(inner));
    let boundary = Loop::Path(vec![
        Node::arc(xo, -yo, 0.0, 0.0, true),
        Node::line(xo, yo),
        Node::arc(xi, yi, 0.0, 0.0, false),
        Node::line(xi, -yi),
    ]);
    let sizes = vec![
        (Tag::new("outside-radius").origin("piston.bore"), Measure::Radius(outer)),
        (Tag::new("inside-radius").origin("piston.ring_width"), Measure::Radius(inner)),
    ];
    made("piston-ring-segment", "Piston ring segment", s.material, flat(boundary, sizes, s.height_mm))
        .flat()
        .times(3 * s.count)
        .note("Three make a ring. Cut from plate of this height, or turn a tube to these radii, part off, saw in three: each joint loses the gap.")
        .note(&told(e))
        .note("Fit the joints of one ring between those of the next.")
        .caution("Graphite dust soils and conducts: keep it away from electric gear, do not breathe it.")
}

/// A metal ring as fitted.
fn metal(e: &Engine) -> Part {
    let s = &e.piston.seal;
    made("piston-ring", "Piston ring, as fitted", s.material, split(diameters(e), s.gap_mm, s.height_mm))
        .times(s.count)
        .note("Shape in the bore, for checking; made to the free shape of piston-ring-free.")
        .note(&told(e))
        .note(FITTING)
        .note("Bed it in with a trace of oil only where the working gas is not hot compressed air.")
}

/// A metal ring before it is fitted: the shape that lies evenly on the wall when closed.
fn metal_free(e: &Engine) -> Part {
    let s = &e.piston.seal;
    let ring = BentRing { diameter_mm: e.piston.bore_mm, thickness_mm: s.width_mm, youngs_mpa: 0.0 };
    let arcs = ring.free_shape(s.gap_mm, s.free_gap_mm, PIECES);
    let sizes = vec![
        (Tag::new("width").origin("piston.ring_width"), Measure::Listed(s.width_mm)),
        (Tag::new("free-gap").origin("piston.ring_free_gap"), Measure::Listed(s.gap_mm + s.free_gap_mm)),
    ];
    made("piston-ring-free", "Piston ring, free shape", s.material, flat(beside(&arcs, s.width_mm), sizes, s.height_mm))
        .flat()
        .times(s.count)
        .note("The same ring before fitting: cut from plate or from a turned tube, or turn round, cut and set hot over a wedge.")
        .note(&format!("{:.0} MPa of bending as fitted. Slip it on over three strips of shim.", s.stress_mpa))
}

/// Outline on both sides of a middle line.
fn beside(arcs: &[Arc], width: f64) -> Loop {
    let half = 0.5 * width;
    let mut nodes = Vec::with_capacity(2 * arcs.len() + 2);
    for arc in arcs {
        let [x, y] = arc.end(0, half);
        nodes.push(Node::arc(x, y, arc.centre[0], arc.centre[1], true));
    }
    if let Some(last) = arcs.last() {
        let [x, y] = last.end(1, half);
        nodes.push(Node::line(x, y));
    }
    for arc in arcs.iter().rev() {
        let [x, y] = arc.end(1, -half);
        nodes.push(Node::arc(x, y, arc.centre[0], arc.centre[1], false));
    }
    if let Some(first) = arcs.first() {
        let [x, y] = first.end(0, -half);
        nodes.push(Node::line(x, y));
    }
    Loop::Path(nodes)
}

fn rubber(s: &PistonRing) -> Part {
    let name = s.oring.clone().unwrap_or_default();
    buy("piston-o-ring", "O-ring of the piston", format!("O-ring {name}, FKM or EPDM"), s.material, s.count)
        .note(
            "A trace of silicone grease, no mineral oil: oil mist in hot compressed air can burn or explode.",
        )
}

/// A ring with two lips, z = 0 at one end; lips as printed.
fn lips(e: &Engine) -> Part {
    let s = &e.piston.seal;
    let lip = s.lip.unwrap_or_else(|| Lip::of_bore(e.piston.bore_mm));
    let (bore, h) = (0.5 * e.piston.bore_mm, s.height_mm);
    let (inside, root) = (bore - s.width_mm, bore - 0.2);
    let (edge, l, t) = (bore + lip.bent_mm, lip.length_mm, lip.thickness_mm);
    // a channel at each end between the inner wall and the lip
    let profile = vec![
        at(inside, 0.0),
        named(inside + t, 0.0, Tag::new("wall")),
        named(inside + t, l, Tag::new("channel").limits(0.1, 0.0)),
        named(root - t, l, Tag::new("lip-root")),
        named(edge - t, 0.0, Tag::new("lip-inside")),
        named(edge, 0.0, Tag::new("lip-diameter").limits(0.1, -0.1).origin("piston.lip_bend")),
        named(root, l, Tag::new("lip-outside")),
        named(root, h - l, Tag::new("web-diameter").limits(0.0, -0.1)),
        named(edge, h, Tag::new("upper-lip-outside")),
        named(edge - t, h, Tag::new("height").origin("piston.ring_height")),
        named(root - t, h - l, Tag::new("upper-lip-inside")),
        named(inside + t, h - l, Tag::new("upper-channel")),
        named(inside + t, h, Tag::new("upper-wall")),
        named(inside, h, Tag::new("upper-end")),
    ];
    let recipe = Recipe { body: Body::Turned(profile), features: Vec::new() };
    made("piston-ring", "Piston ring with lips", s.material, recipe)
        .times(s.count)
        .note(&format!("Print lying, lips of two lines, no seam on the lips; drawn as printed, {:.2} mm over the lips: the bore bends them in.", 2.0 * edge))
        .note(&format!("Each ring presses with {:.1} N on the bore without gas; the gas presses the lip that faces it.", s.contact_n(e.piston.bore_mm)))
        .note("Stretch it over the crown warm; the bore needs a lead-in chamfer.")
        .caution("Softens above 80 °C: keep the cold end cool.")
}

/// Rings and strips in their grooves; `crown` is the place of the piston's crown along its axis \[mm\].
pub fn instances(e: &Engine, axis: &Axis, crown: f64) -> Vec<Instance> {
    let s = &e.piston.seal;
    let mut all = Vec::new();
    for i in 0..s.count {
        let low = crown - groove_top(e, i) - 0.5 * (s.groove_mm + s.height_mm);
        // gaps half a turn apart, those of three pieces a sixth
        let turn = match s.kind {
            PistonSeal::GraphiteRing => TAU / 6.0 * i as f64,
            _ => PI * i as f64,
        };
        let one = |name: String, part: &str, z: f64, angle: f64| axis.stands(&name, part, z, angle);
        match s.kind {
            PistonSeal::Fitted | PistonSeal::ORing => {}
            PistonSeal::GraphiteRing => all.extend((0..3).map(|k| {
                let name = format!("piston-ring-segment-{}", 3 * i + k + 1);
                one(name, "piston-ring-segment", low, turn + TAU / 3.0 * k as f64)
            })),
            _ => all.push(one(format!("piston-ring-{}", i + 1), "piston-ring", low, turn)),
        }
        if s.has_expander() {
            let name = format!("ring-expander-{}", i + 1);
            all.push(one(name, "ring-expander", low + 0.5 * STRIP_PLAY_MM, turn + PI));
        }
    }
    all
}
