//! Webs, pins and journals of the built-up crankshaft.

use crate::parts::blanks::Envelope;
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, at, fit, made, named, tapped_through, through};
use crate::parts::part::Part;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Chamfer of pins and journals \[mm\].
const CHAMFER_MM: f64 = 0.5;
/// How far the short journal reaches behind its bearing \[mm\].
const BEHIND_MM: f64 = 1.0;

/// Spring pin of a joint: diameter and length \[mm\] (ISO 8752, from memory).
pub const SPRING_PIN_MM: [f64; 2] = [2.0, 12.0];
/// What a joint is drilled deeper than its spring pin is long \[mm\]; common practice, no source.
const DEEPER_MM: f64 = 1.0;

const BONDED: &str = "Pins and journals with retaining compound. Drilled at the assembly, when the lead has been set on a plate and the compound has set: neither dimple nor pin hole before.";

const GUARD: &str = "Turns fast and close by: only with the crankcase closed.";

/// A web with two bores on X, the first at the origin: radii about them and bores \[mm\], their distance, its thickness.
struct Web<'a> {
    names: [&'a str; 2],
    radii: [f64; 2],
    bores: [(&'a str, f64, &'a str); 2],
    apart: (f64, &'a str),
    thickness: (f64, &'a str),
}

impl Web<'_> {
    fn part(&self, e: &Engine, own: &BetaCoaxial) -> Part {
        let (l, t) = (self.apart.0, self.thickness.0);
        let circles = vec![(Point2::new(0.0, 0.0), self.radii[0]), (Point2::new(l, 0.0), self.radii[1])];
        let outline = Outline::Hull { circles, name: "web".to_owned() };
        let mut features: Vec<Feature> = Vec::new();
        for (x, (name, bore, path)) in [0.0, l].into_iter().zip(self.bores) {
            let tag = fit(name, bore, "H7").origin(path).ra(1.6);
            features.push(
                through(Point3::new(x, 0.0, t), along(0.0, 0.0, -1.0), bore, t, tag)
                    .placed(Place::Coordinates),
            );
        }
        let screw = own.shaft.set_screw;
        let ends = [(-self.radii[0], 1.0, 0), (l + self.radii[1], -1.0, 1)];
        features.extend(ends.map(|(x, way, i)| {
            let wall = self.radii[i] - self.bores[i].1 / 2.0;
            tapped_through(
                "set-screw",
                Point3::new(x, 0.0, t / 2.0),
                along(way, 0.0, 0.0),
                &screw.designation,
                screw.tap_drill_mm,
                wall,
            )
            .placed(Place::Coordinates)
        }));
        let tag = Tag::new("thickness").origin(self.thickness.1);
        let body = Body::Plate { outline, thickness: t, tag };
        made(self.names[0], self.names[1], &e.drive.material, Recipe { body, features })
            .times(2)
            .note(&format!(
                "Bores {l:.3} mm apart within 0.01 mm ({}); drill both webs together.",
                self.apart.1
            ))
            .control(rules::parallel_axis(self.bores[1].0, self.bores[0].0, rules::WEB))
            .note(BONDED)
            .note(&self.drilled(screw.tap_drill_mm))
            .caution(GUARD)
    }
}

impl Web<'_> {
    /// Where dimples and spring pins go.
    fn drilled(&self, core_mm: f64) -> String {
        let [pin, long] = SPRING_PIN_MM;
        format!(
            "At each bore: a dimple for the cone of the set screw, with a drill of {core_mm} mm through its thread, 1 mm into the pin; \
             a hole of {pin} mm H12, {} mm deep, from the edge on the +Y side square to the line of both bores, in the middle of \
             the thickness, towards the bore's centre through the wall into the pin; spring pin {pin} x {long} flush.",
            long + DEEPER_MM
        )
    }
}

/// Web between the pins of displacer and piston.
pub fn inner_web(e: &Engine, own: &BetaCoaxial) -> Part {
    let (s, pin) = (&own.shaft, e.drive.crankpin_bearing.bore_mm);
    let bore = |name| (name, pin, "drive.crankpin_bearing");
    Web {
        names: ["crank-web-inner", "Inner crank web"],
        radii: [s.web_r_mm; 2],
        bores: [bore("piston-pin-bore"), bore("displacer-pin-bore")],
        apart: (s.pins_apart_mm, "sets the lead"),
        thickness: (s.webs_mm[0], "shaft.inner_web"),
    }
    .part(e, own)
}

/// Web between a piston's pin and a journal.
pub fn outer_web(e: &Engine, own: &BetaCoaxial) -> Part {
    let (s, d) = (&own.shaft, &e.drive);
    Web {
        names: ["crank-web-outer", "Outer crank web"],
        radii: d.web_r_mm,
        bores: [
            ("journal-bore", d.journal_bearing.bore_mm, "drive.journal_bearing"),
            ("piston-pin-bore", d.crankpin_bearing.bore_mm, "drive.crankpin_bearing"),
        ],
        apart: (d.piston.throw_mm, "the piston's throw"),
        thickness: (s.webs_mm[1], "shaft.outer_web"),
    }
    .part(e, own)
}

fn envelope([a, b]: [f64; 2], apart: f64, thickness: f64) -> Envelope {
    let wide = a.max(b);
    Envelope {
        low: Point3::new(-a, -wide, 0.0),
        high: Point3::new(apart + b, wide, thickness),
        turned: false,
    }
}

/// Envelope of the inner web.
pub fn inner_envelope(own: &BetaCoaxial) -> Envelope {
    envelope([own.shaft.web_r_mm; 2], own.shaft.pins_apart_mm, own.shaft.webs_mm[0])
}

/// Envelope of the outer web.
pub fn outer_envelope(e: &Engine, own: &BetaCoaxial) -> Envelope {
    envelope(e.drive.web_r_mm, e.drive.piston.throw_mm, own.shaft.webs_mm[1])
}

/// Half the room of a con rod between two webs \[mm\].
fn half_slot(e: &Engine) -> f64 {
    e.drive.con_rod_thickness_mm / 2.0 + e.drive.side_gap_mm
}

/// y of both ends of a piston's pin \[mm\].
pub fn piston_pin_y(e: &Engine, own: &BetaCoaxial) -> [f64; 2] {
    [half_slot(e), own.shaft.reach_mm]
}

/// y of an end of the displacer's pin \[mm\].
pub fn displacer_pin_y(e: &Engine, own: &BetaCoaxial) -> f64 {
    half_slot(e) + own.shaft.webs_mm[0]
}

/// Length of the short and the long journal \[mm\], from the inner face of the outer web.
pub fn journals_mm(e: &Engine, own: &BetaCoaxial) -> [f64; 2] {
    let s = &own.shaft;
    let short = s.webs_mm[1] + s.shim_mm + e.drive.journal_bearing.width_mm + BEHIND_MM;
    let long = e.shaft_end.end_mm - (s.reach_mm - s.webs_mm[1]);
    [short, long]
}

/// A ground pin with chamfers, standing on z = 0.
fn pin([name, title]: [&str; 2], diameter: f64, length: f64, [across, along]: [&str; 2]) -> Part {
    let r = diameter / 2.0;
    let profile = vec![
        at(0.0, 0.0),
        named(r - CHAMFER_MM, 0.0, Tag::new("lower-chamfer")),
        named(r, CHAMFER_MM, fit("diameter", diameter, "h6").origin(across).ra(0.4)),
        named(r, length - CHAMFER_MM, Tag::new("upper-chamfer")),
        named(r - CHAMFER_MM, length, Tag::new("length").limits(0.0, -0.1).origin(along)),
        at(0.0, length),
    ];
    made(name, title, "silver-steel", Recipe { body: Body::Turned(profile), features: Vec::new() })
        .note("From ground bar: do not turn the running surface.")
        .note(&format!(
            "{BONDED} In each web one dimple 1 mm deep for the cone of its set screw and one hole of {} mm for its spring pin, a \
             quarter turn from each other, in the middle of the web: drilled through the web (see its sheet).",
            SPRING_PIN_MM[0]
        ))
}

/// Pins and journals.
pub fn pins(e: &Engine, own: &BetaCoaxial) -> Vec<Part> {
    let (crankpin, journal) = (e.drive.crankpin_bearing.bore_mm, e.drive.journal_bearing.bore_mm);
    let [inner, outer] = piston_pin_y(e, own);
    let [short, long] = journals_mm(e, own);
    let on_pin = ["drive.crankpin_bearing", "shaft.reach"];
    let on_journal = ["drive.journal_bearing", "shaft.reach"];
    vec![
        pin(["displacer-crankpin", "Crankpin of the displacer"], crankpin, 2.0 * displacer_pin_y(e, own), on_pin),
        pin(["piston-crankpin", "Crankpin of the piston"], crankpin, outer - inner, on_pin).times(2),
        pin(["crank-journal", "Front crank journal"], journal, short, on_journal),
        pin(["crank-shaft", "Crankshaft end"], journal, long, ["drive.journal_bearing", "shaft.end"])
            .note("Polish where the O-ring runs, Ra 0.4 or better; no flat or keyway may pass through the ring.")
            .caution("The end turns outside the case: guard it and the flywheel so that only a tool opens the guard."),
    ]
}
