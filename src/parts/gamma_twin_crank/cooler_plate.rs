//! Cooler plate: carries both cylinders, transfer port, rod bush and gland. Datum: lower face, displacer axis.

use super::joints::Patterns;
use crate::parts::gland::{cold_thread_mm, rod_bore};
use crate::parts::joints::Patterns as Common;
use crate::parts::kit::{along, feature, made};
use crate::parts::part::Part;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Radius of the plate's corners at the power cylinder \[mm\].
const CORNER_MM: f64 = 8.0;

/// Band around the cold flange and the block's far corners.
fn outline(e: &Engine, own: &TwinCrank) -> Outline {
    let corner = own.block.half_mm - CORNER_MM;
    let x = own.centres_mm + corner;
    Outline::Hull {
        circles: vec![
            (Point2::new(0.0, 0.0), e.cold.flange_diameter_mm / 2.0),
            (Point2::new(x, -corner), CORNER_MM),
            (Point2::new(x, corner), CORNER_MM),
        ],
        name: "outline".to_owned(),
    }
}

/// Transfer port: a slot right through.
fn port(own: &TwinCrank) -> Feature {
    let (c, t) = (&own.cooler, own.cooler.thickness_mm);
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

/// The part.
pub fn part(e: &Engine, own: &TwinCrank, common: &Common, p: &Patterns) -> Part {
    let (t, x) = (own.cooler.thickness_mm, own.centres_mm);
    let mut features = vec![rod_bore(e, t), port(own)];
    features.extend(common.cold.tapped("cold-flange-thread", 0.0, 0.0, t, -1.0, cold_thread_mm(e, t)));
    features.extend(p.studs.tapped("stud-thread", x, 0.0, 0.0, 1.0, own.block.stud_depth_mm));
    features.extend(common.gland.tapped(
        "gland-cap-thread",
        0.0,
        0.0,
        0.0,
        1.0,
        2.0 * common.gland.thread.major_mm,
    ));
    let tag = Tag::new("thickness").origin("cooler.plate_thickness").ra(1.6);
    let recipe = Recipe { body: Body::Plate { outline: outline(e, own), thickness: t, tag }, features };
    made("cooler-plate", "Cooler plate", &own.block.material, recipe)
        .note("Both faces flat within 0.05 mm; port edges broken 0.5 mm on both faces.")
        .note(&format!(
            "O-ring {} in the gland, dry or with a trace of silicone grease: no mineral oil.",
            e.gland.oring
        ))
        .caution("No oil on the gas side: oil mist in hot compressed air can burn or explode.")
}
