//! The recipe of a part: a turned profile or a plate, with features and named, toleranced sizes.
//!
//! Conventions, the same everywhere:
//! * a turned body is a closed profile in (r, z), turned about the Z axis, running counter-clockwise
//!   with r to the right and z up (material on the left hand); a profile may touch the axis (r = 0);
//! * a plate body is an outline in XY, from z = 0 up to z = thickness;
//! * a feature sits on a face found by place: the planar face (or, for radial holes, the cylindrical
//!   face) on which its origin lies. It must lie wholly inside that face, with at least 1 µm of metal to
//!   the face's edge and to every opening already there;
//! * features are made in their order. One may start on a face made by an earlier one (a pocket's floor, a
//!   boss's top, a shoulder, an island), but may not go round an opening that is already there (only a
//!   ring groove may: its island takes them along). A counterbore is therefore a step of its hole's chain;
//! * a feature must not run into anything inside the metal but the faces it starts and ends on;
//! * pieces without length are dropped, so that a chamfer of 0 needs no special case;
//! * an arc of a profile or chain whose full circle would reach over the axis must have its centre on it
//!   (a ball); any other would be no ring fillet.

use super::loops::{Leave, Loop};
use super::outline::Outline;
use super::{Point2, Point3, Vector3};

/// Deviation that a size may have.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Tolerance {
    /// The drawing's general tolerance (ISO 2768-m).
    #[default]
    General,
    /// An ISO 286 class, with its limit deviations \[mm\].
    Fit {
        /// Class code, for example `H7`.
        code: String,
        /// Upper limit deviation \[mm\].
        upper: f64,
        /// Lower limit deviation \[mm\].
        lower: f64,
    },
    /// Plain limit deviations \[mm\].
    Limits {
        /// Upper limit deviation \[mm\].
        upper: f64,
        /// Lower limit deviation \[mm\].
        lower: f64,
    },
}

/// What is known of a size beyond its number.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Tag {
    /// Plain trade name in kebab case, unique inside the part, for example `bore-diameter`.
    pub name: String,
    /// Allowed deviation.
    pub tolerance: Tolerance,
    /// Path of the dimension of the sized engine that decided it, if one did.
    pub origin: Option<String>,
    /// Outside thread cut on this surface, for example `M6`.
    pub thread: Option<String>,
    /// Surface texture Ra \[µm\], where it matters.
    pub ra: Option<f64>,
    /// For a face across the axis: the z \[mm\] from which its place is dimensioned (0 by default).
    pub from_z: Option<f64>,
}

/// A corner of a turned profile; `leave` and `tag` belong to the surface from here to the next corner.
#[derive(Clone, Debug, PartialEq)]
pub struct ProfileNode {
    /// Radius \[mm\].
    pub r: f64,
    /// Place along the axis \[mm\]; in a hole the depth below its face.
    pub z: f64,
    /// Line, or arc about (r, z) of the centre.
    pub leave: Leave,
    /// Name and tolerance of the surface that starts here.
    pub tag: Option<Tag>,
}

/// Where a run of turned surfaces ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// It comes out of another face (planar across the axis, or a cylinder crossed at right angles by an
    /// axis that meets the cylinder's). The last node's depth is exactly where the axis meets that face: on
    /// a cylinder, convex or hollow, its crown. A hole goes through one wall; a pin hole through both walls
    /// of a tube is two features of one name.
    Through,
    /// It closes on its own axis: the last node has r = 0, at a flat bottom or at a drill's point.
    Blind,
    /// It comes back to its own face (depth 0) at a smaller radius and leaves an island (a ring groove in a
    /// flat face). Openings that lie on the island stay where they are.
    Island,
}

/// A place and a direction in space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Origin \[mm\], on the face that the feature starts from.
    pub origin: Point3,
    /// Unit direction: into the metal for holes and pockets, out of it for bosses and pads.
    pub direction: Vector3,
}

/// An inside thread, drawn and listed; the solid holds the tapping drill.
#[derive(Clone, Debug, PartialEq)]
pub struct InsideThread {
    /// Designation, for example `M5` or `G1/8`.
    pub designation: String,
    /// Depth of full thread \[mm\]; `None` for a thread right through.
    pub depth: Option<f64>,
    /// Whether a hole right through has it at its far end too.
    pub both_ends: bool,
}

/// What a feature does to the body.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// Metal taken away, turned about the feature's axis; nodes are (r, depth), from depth 0.
    /// On a cylindrical face (from outside, or from inside a bore outwards) the axis must cross the
    /// cylinder's axis at right angles, the first node has the depth 0 at the crown of the cylinder, the
    /// first surface is a plain cylinder, narrower than the cylinder it crosses and deeper than the curve
    /// in which they meet. The same holds for the last surface where a hole comes out of a cylinder.
    Bore {
        /// (r, depth) from the face inwards.
        chain: Vec<ProfileNode>,
        /// Where it ends.
        end: End,
        /// Inside thread, if tapped.
        thread: Option<InsideThread>,
    },
    /// Metal added on a planar face, turned about the feature's axis; nodes are (r, height), from height 0.
    Boss {
        /// (r, height) from the face outwards; the last node has r = 0 (bosses are always closed to the axis).
        chain: Vec<ProfileNode>,
    },
    /// Metal taken away inside an outline (local coordinates, see [`Feature::x_axis`]), run either way.
    /// It starts on a flat face; a pocket right through comes out of the flat face exactly at its depth.
    Pocket {
        /// Outline in the face's local coordinates \[mm\].
        outline: Loop,
        /// Depth \[mm\].
        depth: f64,
        /// Comes out of the opposite face.
        through: bool,
    },
    /// Metal added inside an outline.
    Pad {
        /// Outline in the face's local coordinates \[mm\].
        outline: Loop,
        /// Height \[mm\].
        height: f64,
    },
}

/// How the place of a group of features is given on the drawing.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Place {
    /// On the axis of the part, or told by its own note.
    #[default]
    Central,
    /// By X and Y from the part's datum (its origin).
    Coordinates,
    /// Evenly or at given angles on a circle.
    Circle {
        /// Centre \[mm\] in the plane of the face.
        centre: Point2,
        /// Diameter of the circle \[mm\].
        diameter: f64,
        /// Angle of each member \[deg\], counter-clockwise from +X.
        angles_deg: Vec<f64>,
    },
    /// Radially into a turned body, at `z` \[mm\] from the part's datum and `angle_deg` about the axis.
    Radial {
        /// Distance from the part's datum along the axis \[mm\].
        z: f64,
        /// Angle about the axis \[deg\].
        angle_deg: f64,
    },
}

/// One feature. Features with the same name are one group, and one call-out on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Feature {
    /// Plain trade name in kebab case, shared by the members of a pattern.
    pub name: String,
    /// Where it sits and which way it goes.
    pub axis: Axis,
    /// Direction of the local x \[unit vector\]; local y = direction × x for pads,
    /// and for pockets too (so that the local system is right-handed about `direction`). It must be square
    /// to the direction; bores and bosses, being round, do not use it.
    pub x_axis: Vector3,
    /// What it does.
    pub kind: Kind,
    /// How its place is told.
    pub place: Place,
}

/// The body before features.
#[allow(clippy::large_enum_variant, reason = "one body for each part: a box would save nothing")]
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// Closed profile in (r, z).
    Turned(Vec<ProfileNode>),
    /// Outline in XY, with thickness along Z.
    Plate {
        /// The outside.
        outline: Outline,
        /// Thickness \[mm\].
        thickness: f64,
        /// Name and tolerance of the thickness.
        tag: Tag,
    },
}

/// Everything that shapes a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    /// The body.
    pub body: Body,
    /// Features in the order in which they are made.
    pub features: Vec<Feature>,
}

/// A named size read off a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Name, unique inside the part.
    pub name: String,
    /// Nominal value \[mm\], or \[deg\] when `degrees`, or a count when `count`.
    pub value: f64,
    /// Unit: `mm`, `deg` or `1`.
    pub unit: &'static str,
    /// Allowed deviation.
    pub tolerance: Tolerance,
    /// Path of the engine dimension behind it.
    pub origin: Option<String>,
}

impl Tag {
    /// A tag with a name and the general tolerance.
    pub fn new(name: &str) -> Self {
        Self { name: name.to_owned(), ..Self::default() }
    }

    /// With an ISO 286 class and its limit deviations \[mm\].
    pub fn fit(mut self, code: &str, upper: f64, lower: f64) -> Self {
        self.tolerance = Tolerance::Fit { code: code.to_owned(), upper, lower };
        self
    }

    /// With plain limit deviations \[mm\].
    pub fn limits(mut self, upper: f64, lower: f64) -> Self {
        self.tolerance = Tolerance::Limits { upper, lower };
        self
    }

    /// With the path of the engine dimension that decided it.
    pub fn origin(mut self, path: &str) -> Self {
        self.origin = Some(path.to_owned());
        self
    }

    /// With an outside thread.
    pub fn thread(mut self, designation: &str) -> Self {
        self.thread = Some(designation.to_owned());
        self
    }

    /// With a surface texture Ra \[µm\].
    pub fn ra(mut self, ra: f64) -> Self {
        self.ra = Some(ra);
        self
    }

    /// Dimensioned from another face at `z` \[mm\] instead of the datum.
    pub fn from_z(mut self, z: f64) -> Self {
        self.from_z = Some(z);
        self
    }
}

impl ProfileNode {
    /// A corner left by a straight surface (cylinder, cone or flat).
    pub fn new(r: f64, z: f64) -> Self {
        Self { r, z, leave: Leave::Line, tag: None }
    }

    /// A corner left by an arc about (`cr`, `cz`) \[mm\].
    pub fn arc(r: f64, z: f64, cr: f64, cz: f64, ccw: bool) -> Self {
        Self { r, z, leave: Leave::Arc { centre: Point2::new(cr, cz), ccw }, tag: None }
    }

    /// With the tag of the surface that starts here.
    pub fn tag(mut self, tag: Tag) -> Self {
        self.tag = Some(tag);
        self
    }
}
