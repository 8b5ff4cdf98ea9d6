//! Cooler plate: carries both cylinders, transfer port, rod bush and gland. Datum: lower face, displacer axis.

use super::joints::Patterns;
use super::kit::{along, at, feature, fit, made, named, tapped_reach};
use super::part::Part;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::engine::Engine;

/// Radius of the plate's corners at the power cylinder \[mm\].
const CORNER_MM: f64 = 8.0;

/// Band around the cold flange and the block's far corners.
fn outline(e: &Engine) -> Outline {
    let corner = e.block.half_mm - CORNER_MM;
    let x = e.drive.centres_mm + corner;
    Outline::Hull {
        circles: vec![
            (Point2::new(0.0, 0.0), e.cold.flange_diameter_mm / 2.0),
            (Point2::new(x, -corner), CORNER_MM),
            (Point2::new(x, corner), CORNER_MM),
        ],
        name: "outline".to_owned(),
    }
}

/// Rod bore: O-ring recess from the lower face, running clearance, bush seat at the upper face.
fn rod_bore(e: &Engine) -> Feature {
    let (c, t) = (&e.cooler, e.cooler.thickness_mm);
    let [gland, width] = c.gland_mm;
    let (free, seat) = (e.displacer.rod_mm / 2.0 + 0.15, c.bush.housing_mm / 2.0);
    let chain = vec![
        named(gland / 2.0, 0.0, fit("gland-diameter", gland, "H9").origin("cooler.gland_diameter").ra(1.6)),
        named(gland / 2.0, width, Tag::new("gland-width").limits(0.2, 0.0).origin("cooler.gland_width")),
        named(free, width, Tag::new("rod-clearance")),
        named(free, t - c.bush_length_mm, Tag::new("bush-seat-depth").from_z(t).origin("cooler.bush_length")),
        named(seat, t - c.bush_length_mm, fit("bush-seat", c.bush.housing_mm, &c.bush.housing_fit).ra(1.6)),
        at(seat, t),
    ];
    super::kit::bore("rod-bore", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, 1.0), chain, End::Through)
}

/// Transfer port: a slot right through.
fn port(e: &Engine) -> Feature {
    let (c, t) = (&e.cooler, e.cooler.thickness_mm);
    let (r, y) = (c.port_width_mm / 2.0, (c.port_length_mm - c.port_width_mm) / 2.0);
    // Local coordinates of a pocket run right-handed about its direction (down): local y is -Y; the slot is symmetric.
    let outline = if y < 1e-9 {
        Loop::circle(0.0, 0.0, r)
    } else {
        Loop::Path(vec![
            Node::arc(r, y, 0.0, y, true),
            Node::line(-r, y),
            Node::arc(-r, -y, 0.0, -y, true),
            Node::line(r, -y),
        ])
    };
    let kind = Kind::Pocket { outline, depth: t, through: true };
    let mut f = feature("transfer-port", Point3::new(c.port_x_mm, 0.0, t), along(0.0, 0.0, -1.0), kind);
    f.x_axis = Vector3::new(1.0, 0.0, 0.0);
    f.placed(Place::Coordinates)
}

/// Depth of full thread for the screws of the cold flange \[mm\].
fn screw_depth(e: &Engine) -> f64 {
    let s = &e.joints.cold;
    let engaged = s.screw_mm - e.cold.flange_mm - e.joints.gasket_mm;
    let room = e.cooler.thickness_mm - 2.0 - (tapped_reach(s.thread, 0.0));
    (engaged + 1.0).min(room)
}

/// The part.
pub fn part(e: &Engine, p: &Patterns) -> Part {
    let (t, x) = (e.cooler.thickness_mm, e.drive.centres_mm);
    let mut features = vec![rod_bore(e), port(e)];
    features.extend(p.cold.tapped("cold-flange-thread", 0.0, 0.0, t, -1.0, screw_depth(e)));
    features.extend(p.studs.tapped("stud-thread", x, 0.0, 0.0, 1.0, e.block.stud_depth_mm));
    features.extend(p.gland.tapped("gland-cap-thread", 0.0, 0.0, 0.0, 1.0, 2.0 * p.gland.thread.major_mm));
    let tag = Tag::new("thickness").origin("cooler.plate_thickness").ra(1.6);
    let recipe = Recipe { body: Body::Plate { outline: outline(e), thickness: t, tag }, features };
    made("cooler-plate", "Cooler plate", &e.cooler_material(), recipe)
        .note("Both faces flat within 0.05 mm; port edges broken 0.5 mm on both faces.")
        .note(&format!(
            "O-ring {} in the gland, dry or with a trace of silicone grease: no mineral oil.",
            e.cooler.oring
        ))
        .caution("No oil on the gas side: oil mist in hot compressed air can burn or explode.")
}

impl Engine {
    /// Material of cooler plate, back plate and gland cap: as the block's.
    pub fn cooler_material(&self) -> String {
        self.block.material.clone()
    }
}
