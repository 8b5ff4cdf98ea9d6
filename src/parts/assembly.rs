//! Putting the engine together at one crank angle: what several layouts share.

use super::part::Instance;
use super::rings;
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

/// A line of slider, con rod and crank in space: where it begins, its direction from the crank to the cylinder, and the
/// direction in which the crankpin leaves top dead centre.
#[derive(Clone, Copy, Debug)]
pub struct Axis {
    /// Origin; distances along the line count from here \[mm\].
    pub origin: Point3,
    /// From the crank to the cylinder.
    pub along: Vector3,
    /// Where the crankpin goes from top dead centre.
    pub across: Vector3,
}

/// Direction without what rounding leaves of zeros.
fn clean(v: Vector3) -> Vector3 {
    let one = |x: f64| if x.abs() < 1e-12 { 0.0 } else { x };
    Vector3::new(one(v.x), one(v.y), one(v.z))
}

impl Axis {
    /// The point `far` along the line \[mm\].
    pub fn at(&self, far: f64) -> Point3 {
        self.origin + self.along * far
    }

    /// A part of revolution with its datum `far` along the line, turned about it by `angle` \[rad\].
    pub fn stands(&self, name: &str, part: &str, far: f64, angle: f64) -> Instance {
        let (sin, cos) = angle.sin_cos();
        Instance {
            name: name.to_owned(),
            part: part.to_owned(),
            origin: self.at(far),
            z_axis: self.along,
            x_axis: clean(self.across * cos + self.along.cross(self.across) * sin),
        }
    }
}

/// Piston with rings, expanders and rod; `crown` \[mm\] is its place along the line.
pub fn piston(e: &Engine, axis: &Axis, crown: f64) -> Vec<Instance> {
    let p = &e.piston;
    let boss = crown - p.crown_mm - p.boss_mm[1];
    let rod = boss + 1.5 * e.drive.piston.rod_end.thread.major_mm - p.rod_length_mm;
    let mut all = vec![
        axis.stands("piston", "piston", crown - p.length_mm, 0.0),
        axis.stands("piston-rod", "piston-rod", rod, 0.0),
    ];
    all.extend(rings::instances(e, axis, crown));
    all
}

/// Where the rear face of a con rod or clevis looks.
fn behind(axis: &Axis) -> Vector3 {
    clean(axis.along.cross(axis.across))
}

/// Clevis and con rod of one line; the crank axis stands `crank` \[mm\] along it.
pub fn con_rod(e: &Engine, axis: &Axis, which: &str, crank: f64, throw: f64, angle: f64) -> [Instance; 2] {
    let rod = con_rod_alone(e, axis, which, crank, throw, angle);
    let small_end = crank + throw * angle.cos() + small_end_mm(e, throw * angle.sin());
    let clevis = fork(axis, small_end, e.clevis.pin_z_mm, e.clevis.size_mm[0]);
    [Instance { name: format!("{which}-clevis"), part: "clevis".to_owned(), ..clevis }, rod]
}

/// How far along the line the small end is from the crankpin, which is `aside` of it \[mm\].
fn small_end_mm(e: &Engine, aside: f64) -> f64 {
    (e.drive.con_rod_mm.powi(2) - aside * aside).sqrt()
}

/// A plate across the line with a pin `pin_z` above its lower edge at `far` along it, `wide` across \[mm\].
pub fn fork(axis: &Axis, far: f64, pin_z: f64, wide: f64) -> Instance {
    Instance {
        name: String::new(),
        part: String::new(),
        origin: axis.at(far - pin_z) - axis.across * (wide / 2.0),
        z_axis: axis.across,
        x_axis: behind(axis),
    }
}

/// Con rod of one line; the crank axis stands `crank` \[mm\] along it.
pub fn con_rod_alone(e: &Engine, axis: &Axis, which: &str, crank: f64, throw: f64, angle: f64) -> Instance {
    let d = &e.drive;
    let (sin, cos) = angle.sin_cos();
    let aside = throw * sin;
    let pin = axis.origin + axis.across * aside + axis.along * (crank + throw * cos);
    let (rod, behind) = (axis.along * small_end_mm(e, aside) - axis.across * aside, behind(axis));
    Instance {
        name: format!("{which}-con-rod"),
        part: "con-rod".to_owned(),
        origin: pin + behind * (d.con_rod_thickness_mm / 2.0),
        z_axis: -behind,
        x_axis: clean(rod / d.con_rod_mm),
    }
}
