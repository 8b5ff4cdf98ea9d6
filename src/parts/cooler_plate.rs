//! Cooler plate that carries both cylinders: transfer port, rod bush and gland. Datum: lower face, displacer axis.

use super::channels;
use super::gland::{cap_thread_mm, cold_thread_mm, controls, note, rod_bore};
use super::joints::Patterns;
use super::kit::{along, feature, made};
use super::part::Part;
use super::pattern::Pattern;
use crate::shape::control::UPPER_FACE;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Kind, Place, Recipe, Tag};
use crate::shape::{InnerSpace, Point2, Point3, Vector3};
use crate::sizing::engine::{Block, Engine};
use crate::sizing::layouts::common::channels::{CORNER_MM, Channels, rectangle_mm};
use crate::sizing::layouts::common::cooler::CoolerPlate;

/// What the plate carries besides the displacer's cylinder.
pub struct Carries<'a> {
    /// The plate as sized.
    pub cooler: &'a CoolerPlate,
    /// Power cylinder below it.
    pub block: &'a Block,
    /// Axis of that cylinder.
    pub centre: Vector3,
    /// Its studs.
    pub studs: &'a Pattern,
    /// Water channels.
    pub channels: Option<&'a Channels>,
    /// Threads below the rod gland, by what their screws hold; `None` where nothing is held there.
    pub gland_thread: Option<&'a str>,
}

impl Carries<'_> {
    /// Direction from the displacer's axis to the piston's.
    fn towards(&self) -> Vector3 {
        self.centre / self.centre.magnitude()
    }

    /// Rectangle below flange and block: channels end in straight edges.
    fn rectangle(&self, flange_mm: f64) -> Outline {
        let [[near, far], [right, left]] = rectangle_mm(flange_mm, self.centre.magnitude(), self.block);
        // the line of both axes is X or Y
        let along_x = self.centre.x.abs() > self.centre.y.abs();
        let at = |along: f64, across: f64| {
            if along_x { Point2::new(along, across) } else { Point2::new(across, along) }
        };
        let (long, wide) = ("drive.crank_centres", "cold_end.flange_diameter");
        let [x, y] = if along_x { [long, wide] } else { [wide, long] };
        Outline::Rectangle {
            low: at(near, right),
            high: at(far, left),
            corner: CORNER_MM,
            tags: [Tag::new("length").origin(x), Tag::new("width").origin(y)],
        }
    }

    /// Band around the cold flange and the block's far corners.
    fn outline(&self, flange_mm: f64) -> Outline {
        if self.channels.is_some() {
            return self.rectangle(flange_mm);
        }
        let (u, corner) = (self.towards(), self.block.half_mm - CORNER_MM);
        let aside = Vector3::new(-u.y, u.x, 0.0) * corner;
        let far = self.centre + u * corner;
        let at = |v: Vector3| Point2::new(v.x, v.y);
        let circles = vec![
            (Point2::new(0.0, 0.0), flange_mm / 2.0),
            (at(far - aside), CORNER_MM),
            (at(far + aside), CORNER_MM),
        ];
        Outline::around(circles, "outline")
    }

    /// Transfer port: a slot right through.
    fn port(&self) -> Feature {
        let (c, t) = (self.cooler, self.cooler.thickness_mm);
        let (r, y) = (c.port_width_mm / 2.0, (c.port_length_mm - c.port_width_mm) / 2.0);
        // Local coordinates of a pocket run right-handed about its direction (down); the slot is symmetric.
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
        let middle = Point3::new(0.0, 0.0, t) + self.towards() * c.port_x_mm;
        let mut f = feature("transfer-port", middle, along(0.0, 0.0, -1.0), kind);
        f.x_axis = self.towards();
        f.placed(Place::Coordinates)
    }
}

/// The part, with what else the layout screws to it.
pub fn part(e: &Engine, own: &Carries<'_>, common: &Patterns, more: Vec<Feature>) -> Part {
    let t = own.cooler.thickness_mm;
    let mut features = vec![rod_bore(e, 0.0, t), own.port()];
    features.extend(common.cold.tapped("cold-flange-thread", 0.0, 0.0, t, -1.0, cold_thread_mm(e, t)));
    let (x, y) = (own.centre.x, own.centre.y);
    features.extend(own.studs.tapped("stud-thread", x, y, 0.0, 1.0, own.block.stud_depth_mm));
    let depth = cap_thread_mm(e);
    let held = own.gland_thread.map(|name| common.gland.tapped(name, 0.0, 0.0, 0.0, 1.0, depth));
    features.extend(held.into_iter().flatten());
    features.extend(more);
    features.extend(own.channels.iter().flat_map(|c| channels::features(c, own.towards())));
    let tag = Tag::new("thickness").origin("cooler.plate_thickness").ra(1.6);
    let outline = own.outline(e.cold.flange_diameter_mm);
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag }, features };
    let part = made("cooler-plate", "Cooler plate", &own.block.material, recipe)
        .note("Port edges broken 0.5 mm on both faces.")
        .note(&note(e))
        .caution("No oil on the gas side: oil mist in hot compressed air can burn or explode.");
    let part = controls(e, UPPER_FACE).into_iter().fold(part, Part::control);
    own.channels.into_iter().fold(part, channels::told)
}
