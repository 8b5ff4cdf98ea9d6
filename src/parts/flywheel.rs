//! Flywheel and its hub, and the pulley of the load behind them.

use super::assembly::placed;
use super::bought::{buy, screw, steel};
use super::fastening::{Fastening, Hole, Screw, Tool, names};
use super::geometry_rules as rules;
use super::kit::{along, fit, lift, made, named, tapped_through, through};
use super::part::{Instance, Joint, Part};
use super::pattern::Pattern;
use super::{joints, pulley};
use crate::numerals::{short, significant};
use crate::shape::control::LOWER_FACE;
use crate::shape::loops::polar;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::{BalanceHoles, Engine, Flywheel, Hub, Lightening, MadeWheel, Output};

const CAUTION: &str =
    "Turns fast and stores much energy: fit a guard that only a tool opens; never slow it down by hand.";

/// What happens beyond the fastest that a wheel may turn.
pub const FASTEST: &str = "beyond it, its own pull is more than its material may carry for good";

/// Holes of the hub's screws in the disc: plain, or sunk so far that the grip is left.
fn screw_holes(wheel: &MadeWheel, holes: &Pattern) -> Vec<Feature> {
    let width = wheel.width_mm;
    if wheel.grip_mm >= width {
        return holes.clearance("hub-screw-hole", 0.0, 0.0, width, width);
    }
    holes.sunk("hub-screw-hole", width, width - wheel.grip_mm, width)
}

fn lightening(h: &Lightening, width: f64) -> Vec<Feature> {
    let angles: Vec<f64> = (0..h.count).map(|i| 360.0 * i as f64 / h.count as f64).collect();
    let centre = Point2::new(0.0, 0.0);
    let place = Place::Circle { centre, diameter: h.circle_mm, angles_deg: angles.clone() };
    let one = |deg: &f64| {
        let at = lift(polar(centre, h.circle_mm / 2.0, deg.to_radians()), width);
        let tag = Tag::new("lightening-hole").origin("flywheel.hole_diameter");
        through(at, along(0.0, 0.0, -1.0), h.diameter_mm, width, tag).placed(place.clone())
    };
    angles.iter().map(one).collect()
}

/// Holes on the heavy side, from the far face; X of the wheel points as the crankpin.
fn balance(h: &BalanceHoles, width: f64) -> Vec<Feature> {
    let centre = Point2::new(0.0, 0.0);
    let place = Place::Circle { centre, diameter: h.circle_mm, angles_deg: h.angles_deg.clone() };
    let one = |deg: &f64| {
        let at = lift(polar(centre, h.circle_mm / 2.0, deg.to_radians()), width);
        let tag = Tag::new("balance-hole").origin("flywheel.balance_hole_diameter");
        through(at, along(0.0, 0.0, -1.0), h.diameter_mm, width, tag).placed(place.clone())
    };
    h.angles_deg.iter().map(one).collect()
}

/// The disc: Z towards the engine, datum in its face at the hub.
fn disc(e: &Engine, wheel: &Flywheel, own: &MadeWheel, holes: &Pattern) -> Part {
    let width = own.width_mm;
    let tag = Tag::new("outside-diameter").origin("flywheel.diameter");
    let outline = Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: wheel.diameter_mm, tag };
    let spigot = own.hub.spigot_mm[0];
    let centre = lift(Point2::new(0.0, 0.0), width);
    let mut features =
        vec![through(centre, along(0.0, 0.0, -1.0), spigot, width, fit("bore", spigot, "H7").ra(1.6))];
    features.extend(screw_holes(own, holes));
    features.extend(own.holes.iter().flat_map(|h| lightening(h, width)));
    features.extend(own.balance.iter().flat_map(|h| balance(h, width)));
    let tag = Tag::new("width").origin("flywheel.width");
    let recipe = Recipe { body: Body::Plate { outline, thickness: width, tag }, features };
    let part = made("flywheel", "Flywheel", &own.material, recipe)
        .control(rules::runout("outside-diameter", "bore", rules::RIM))
        .control(rules::square(LOWER_FACE, "bore", rules::BELT))
        .note(&format!(
            "Balance on two level edges{}. {} kg m², {} kg.",
            if own.balance.is_some() {
                " before the balance holes are bored: these balance the cranks"
            } else {
                ""
            },
            significant(e.flywheel.inertia_kg_m2, 3),
            significant(e.flywheel.mass_kg, 3)
        ))
        .note(&format!("No faster than {:.0} rpm: {FASTEST}.", own.fastest_rpm))
        .caution(CAUTION);
    // a sunk head needs more than a cutter of sheet
    if own.grip_mm < width { part } else { part.flat() }
}

/// The hub: datum in the flange's face at the disc, Z away from the engine.
fn hub(h: &Hub, name: &str, title: &str, holes: &Pattern) -> Part {
    let (bore, [boss, long], [flange, thick], [spigot, into]) =
        (h.bore_mm / 2.0, h.boss_mm, h.flange_mm, h.spigot_mm);
    let end = thick + long;
    let profile = vec![
        named(bore, -into, Tag::new("spigot-length")),
        named(spigot / 2.0, -into, fit("spigot", spigot, "h6").ra(1.6)),
        named(spigot / 2.0, 0.0, Tag::new("disc-face").ra(1.6)),
        named(flange / 2.0, 0.0, Tag::new("flange-diameter").origin("flywheel.hub_flange_diameter")),
        named(flange / 2.0, thick, Tag::new("flange-thickness")),
        named(boss / 2.0, thick, Tag::new("boss-diameter").origin("flywheel.hub_diameter")),
        named(boss / 2.0, end, Tag::new("length")),
        named(bore, end, fit("bore", h.bore_mm, "H7").ra(1.6)),
    ];
    let t = h.set_screw;
    let (z, wall) = (thick + long / 2.0, (boss - h.bore_mm) / 2.0);
    let set = |angle_deg: f64| {
        let (sin, cos) = angle_deg.to_radians().sin_cos();
        let (sin, cos) = (sin.round(), cos.round());
        let origin = Point3::new(boss / 2.0 * cos, boss / 2.0 * sin, z);
        tapped_through("set-screw", origin, along(-cos, -sin, 0.0), &t.designation, t.tap_drill_mm, wall)
            .placed(Place::Radial { z, angle_deg })
    };
    let mut features = holes.tapped_through("disc-thread", thick, thick);
    features.extend([set(0.0), set(90.0)]);
    made(name, title, "mild-steel", Recipe { body: Body::Turned(profile), features })
        .control(rules::runout("spigot", "bore", rules::HUB))
        .control(rules::runout("disc-face", "bore", rules::HUB))
        .note("Bore, spigot and disc face in one clamping. One set screw onto a flat of the shaft, filed at assembly, the other at a right angle to it, both with thread-locking compound.")
}

fn hub_holes(wheel: &MadeWheel) -> Pattern {
    Pattern::circle(&wheel.hub.screws)
}

/// Pulley of the load.
fn output(e: &Engine, o: &Output) -> Part {
    pulley::part(&o.pulley, e.drive.journal_bearing.bore_mm, "output-pulley", "Output pulley", 1)
        .note("Set screw onto a flat of the shaft, filed at assembly. The flange on this pulley and one on the other side of the load's hold the belt.")
        .note(&format!(
            "Drives the load at {} of the engine's speed: pulley of {} teeth on the load, {:.1} mm from shaft to shaft. Mount the load so that it can be slid by 3 mm either way to tighten the belt.",
            short(o.ratio(), 4),
            o.mate_teeth,
            o.centres_mm
        ))
        .caution(pulley::CAUTION)
}

/// Made and bought parts.
pub fn parts(e: &Engine) -> Vec<Part> {
    let mut all = match &e.flywheel.made {
        Some(wheel) => made_parts(e, wheel),
        None => {
            let f = &e.flywheel;
            let what = format!(
                "flywheel that you have: {} kg m², {} kg, {} mm across; bored {} H7 with two set screws",
                significant(f.inertia_kg_m2, 3),
                significant(f.mass_kg, 3),
                f.diameter_mm,
                e.drive.journal_bearing.bore_mm
            );
            vec![buy("flywheel", "Flywheel", what, "mild-steel", 1).caution(CAUTION)]
        }
    };
    if let Some(o) = &e.shaft_end.output {
        let b = &o.pulley;
        all.push(output(e, o));
        let belt = format!("{} belt, {} mm long, {} mm wide", b.section, b.length_mm, b.width_mm);
        let mate = format!(
            "pulley {} teeth {} for a belt {} mm wide, one flange, bore to the load's shaft",
            o.mate_teeth, b.section, b.width_mm
        );
        all.extend([
            buy("output-belt", "Belt to the load", belt, "nbr", 1),
            buy("load-pulley", "Pulley on the load", mate, "aluminium-6082", 1),
            pulley::set_screw(
                b,
                e.drive.journal_bearing.bore_mm,
                "output-pulley-set-screw",
                "Set screw of the output pulley",
                1,
            ),
        ]);
    }
    all
}

fn made_parts(e: &Engine, wheel: &MadeWheel) -> Vec<Part> {
    let (h, holes) = (&wheel.hub, hub_holes(wheel));
    let set = format!("ISO 4026 {}x{}", h.set_screw.designation, h.set_screw_mm);
    vec![
        disc(e, &e.flywheel, wheel, &holes),
        hub(h, "flywheel-hub", "Flywheel hub", &holes),
        screw(
            "flywheel-screw",
            "Screw of flywheel and hub",
            h.screws.thread,
            h.screws.screw_mm,
            h.screws.count,
        ),
        steel("flywheel-set-screw", "Set screw of the flywheel hub", set, 2),
    ]
}

/// Entry of the manifest.
pub fn joint(e: &Engine) -> Option<Joint> {
    let wheel = e.flywheel.made.as_ref()?;
    let screws = &wheel.hub.screws;
    let screw = joints::cap_screw(screws.thread, screws.screw_mm);
    Some(joints::joint("flywheel-joint", ["flywheel", "flywheel-hub"], None, screw, &hub_holes(wheel)))
}

/// How the screws of the wheel are put in, while wheel and hub lie on the bench; `instances` hold the hub.
pub fn fastening(e: &Engine, instances: &[Instance]) -> Option<Fastening> {
    let wheel = e.flywheel.made.as_ref()?;
    let hub = instances.iter().find(|i| i.name == "flywheel-hub")?;
    let screws = &wheel.hub.screws;
    let y = hub.z_axis.cross(hub.x_axis);
    let seat = |c: &Point2| hub.origin + hub.x_axis * c.x + y * c.y - hub.z_axis * wheel.grip_mm;
    Some(Fastening {
        joint: "flywheel-joint".into(),
        threaded: "flywheel-hub".into(),
        metal: "mild-steel".into(),
        thread: Screw::cap(screws.thread),
        length_mm: screws.screw_mm,
        grip_mm: wheel.grip_mm,
        hole: Hole::Through { thick: wheel.hub.flange_mm[1], behind: wheel.hub.boss_mm[1] },
        seats: hub_holes(wheel).centres.iter().map(seat).collect(),
        out: -hub.z_axis,
        among: names(&["flywheel", "flywheel-hub"]),
        tool: Tool::Key,
        path: "flywheel.width",
    })
}

/// Places on a shaft along Y through (`x`, `z`) \[mm\] at a crank angle \[rad\].
pub fn instances(e: &Engine, x: f64, z: f64, angle: f64) -> Vec<Instance> {
    let (sin, cos) = angle.sin_cos();
    let turned = [sin, 0.0, cos];
    let (end, out, into) = (&e.shaft_end, [0.0, 1.0, 0.0], [0.0, -1.0, 0.0]);
    let mut all = Vec::new();
    if let Some(wheel) = &e.flywheel.made {
        let face = Point3::new(x, end.wheel_mm + wheel.width_mm, z);
        all.push(placed("flywheel", "flywheel", face, into, turned));
        all.push(placed("flywheel-hub", "flywheel-hub", face, out, turned));
    }
    if let Some(o) = &end.output {
        // teeth towards the wheel, flange and hub outside
        let y = end.output_mm + o.pulley.face_mm + o.pulley.flange_mm[0];
        all.push(placed("output-pulley", "output-pulley", Point3::new(x, y, z), into, turned));
    }
    all
}
