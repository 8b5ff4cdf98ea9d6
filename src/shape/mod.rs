//! Shapes: two-dimensional loops, recipes of parts, exact solids and what is measured on them.
//!
//! The recipe ([`recipe::Recipe`]) is the narrow waist of the program. Solid, cut outline, drawing
//! views, dimensions, volume and mass are all derived from it; nothing else describes a part.
//! All lengths are millimetres, all angles inside the kernel are radians.

pub mod control;
pub mod crossing;
pub mod gap;
pub mod letters;
pub mod loops;
pub mod measure;
pub mod mesh;
pub mod metal;
pub mod nest;
pub mod offset;
pub mod outline;
pub mod project;
pub mod recipe;
pub mod sizes;
pub mod solid;

pub use truck_modeling::base::{EuclideanSpace, InnerSpace, Point2, Point3, Vector2, Vector3};
