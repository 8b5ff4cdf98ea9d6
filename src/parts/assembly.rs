//! Putting the engine together at one crank angle: what several layouts share.

use super::part::Instance;
use crate::shape::{Point3, Vector3};
use crate::sizing::engine::{Crank, Engine};
use crate::sizing::mechanism::{Motion, SliderCrank};

/// How far below its top dead centre a piston stands \[mm\].
pub fn drop(e: &Engine, crank: &Crank, angle: f64) -> f64 {
    SliderCrank::new(crank.throw_mm, e.drive.con_rod_mm)
        .map_or(0.0, |m| Motion::SliderCrank(m).displacement_mm(angle))
}

/// A part that stands upright, its origin at (x, y, z).
pub fn upright(name: &str, part: &str, x: f64, y: f64, z: f64) -> Instance {
    placed(name, part, Point3::new(x, y, z), [0.0, 0.0, 1.0], [1.0, 0.0, 0.0])
}

/// A part with its origin, its Z and its X told.
pub fn placed(name: &str, part: &str, origin: Point3, z: [f64; 3], x: [f64; 3]) -> Instance {
    let v = |a: [f64; 3]| Vector3::new(a[0], a[1], a[2]);
    Instance { name: name.to_owned(), part: part.to_owned(), origin, z_axis: v(z), x_axis: v(x) }
}

/// Displacer with its rod.
pub fn displacer(e: &Engine, angle: f64) -> Vec<Instance> {
    let d = &e.displacer;
    let z = d.cold_clearance_mm + d.stroke_mm - drop(e, &e.drive.displacer, angle);
    let rod = z + d.base_mm + d.hub_mm[1] - d.rod_length_mm;
    let shell = if d.bought_can { "displacer-can" } else { "displacer-shell" };
    let mut all = vec![
        upright(shell, shell, 0.0, 0.0, z),
        upright("displacer-base", "displacer-base", 0.0, 0.0, z),
        upright("displacer-rod", "displacer-rod", 0.0, 0.0, rod),
    ];
    if let Some(r) = &d.regenerator {
        let low = z + 0.5 * (d.length_mm - r.length_mm);
        all.push(upright("regenerator", "regenerator", 0.0, 0.0, low));
    }
    all
}

/// Hot cap, cold cylinder and their gaskets.
pub fn cylinder(e: &Engine) -> Vec<Instance> {
    let s = &e.stack;
    let one = |name: &str, z: f64| upright(name, name, 0.0, 0.0, z);
    vec![
        one("hot-cap", s.cap_low_mm),
        one("hot-cap-gasket", s.cold_top_mm),
        one("cold-cylinder", s.cold_low_mm),
        one("cold-cylinder-gasket", 0.0),
    ]
}
