//! A solid brought into the coordinates of a view, with the lines that may be seen and what may hide them.

use super::flat::{Bounds, Flat};
use super::patch::{Patch, into_frame};
use super::taken::Away;
use super::{Drawn, View, outline, parallel, rays, turning};
use crate::shape::loops::Piece;
use crate::shape::solid::{Arc, Curve, Edge, Frame, Solid, Surface};
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Point3, Vector2, Vector3};
use std::collections::HashMap;

/// A face hides nothing nearer than this in front of it \[mm\]: curves in which cylinders meet are that exact.
const BEFORE: f64 = 5e-3;
/// How far an outline is taken off its surface before it is asked whether it is seen \[mm\].
const OFF: f64 = 2e-3;
/// A normal this flat has no part towards the eye.
const SIDEWAYS: f64 = 1e-6;
/// What is taken away begins this little behind the cutting plane \[mm\].
const BEHIND: f64 = 1e-6;

/// Where beside a line it is asked whether the cut meets metal there \[mm\].
const BESIDE: Vector2 = Vector2 { x: 7.3e-4, y: 4.1e-4 };

/// Steps in which it is asked along an edge whether a face beside it turns away.
const TURNS: u32 = 24;
/// Turn from sample to sample of an arc \[rad\].
const CHORD: f64 = 0.15;

/// A line that may be seen.
#[derive(Clone, Debug)]
pub struct Line {
    curve: Curve,
    /// Direction off the metal, for an outline.
    off: Option<usize>,
    /// No edge, but where two surfaces go over into one another.
    soft: bool,
    /// Where it is to be cut by itself: a neighbouring face turns away, or the cutting plane is met.
    pub cuts: Vec<f64>,
    samples: Vec<(f64, Point2)>,
    /// The box around it on the paper.
    pub bounds: Bounds,
    /// How far it leaves its chords at most \[mm\].
    pub sag: f64,
}

/// A chord of a line.
#[derive(Clone, Copy, Debug)]
pub struct Chord {
    /// Fraction and place of its start.
    pub from: (f64, Point2),
    /// Fraction and place of its end.
    pub to: (f64, Point2),
    /// The box around it.
    pub bounds: Bounds,
}

/// Everything of a view.
pub struct Scene {
    patches: Vec<Patch>,
    outward: Vec<f64>,
    boxes: Vec<Bounds>,
    lines: Vec<Line>,
    away: Away,
    soft: bool,
}

impl Scene {
    /// A solid in a view.
    pub fn of(solid: &Solid, view: &View) -> Self {
        let faces: Vec<_> = solid.faces().collect();
        let patches: Vec<Patch> = faces.iter().map(|f| Patch::of(f, &view.frame)).collect();
        let outward: Vec<f64> = faces.iter().map(|f| if f.orientation() { 1.0 } else { -1.0 }).collect();
        let mut lines = Vec::new();
        let mut boxes = Vec::new();
        let mut beside: HashMap<_, Vec<usize>> = HashMap::new();
        let mut edges: Vec<Edge> = Vec::new();
        for (i, face) in faces.iter().enumerate() {
            let own = outline::outlines(&patches[i]);
            let mut around: Vec<Bounds> = own.iter().map(bounds_of).collect();
            lines.extend(own.into_iter().flat_map(monotone).filter_map(|c| Line::of(c, Some(i), Vec::new())));
            for edge in face.boundaries().iter().flat_map(|w| w.iter().cloned().collect::<Vec<_>>()) {
                around.push(bounds_of(&into_frame(&edge.curve(), &view.frame)));
                let faces = beside.entry(edge.id()).or_default();
                if faces.is_empty() {
                    edges.push(edge.absolute_clone());
                }
                faces.push(i);
            }
            boxes.extend(around.into_iter().reduce(|a, b| a.joined(&b)));
        }
        let mut scene = Self { patches, outward, boxes, lines, away: Away::of(&view.taken), soft: view.soft };
        for edge in edges {
            let curve = into_frame(&edge.curve(), &view.frame);
            scene.edge(curve, &beside[&edge.id()]);
        }
        let Scene { lines, away, .. } = &mut scene;
        lines.iter_mut().for_each(|l| l.cut_by(away));
        scene
    }

    /// Adds an edge if it is sharp, or soft and an outline.
    fn edge(&mut self, curve: Curve, faces: &[usize]) {
        let normal = |i: usize, t: f64| normal(&self.patches[i].surface, curve.at(t));
        let soft = match faces {
            [a, b] => {
                parallel(normal(*a, 0.4), normal(*b, 0.4)) && parallel(normal(*a, 0.7), normal(*b, 0.7))
            }
            _ => false,
        };
        let turned = |i: &usize| [0.2, 0.5, 0.9].iter().all(|t| normal(*i, *t).z.abs() < SIDEWAYS);
        let (off, soft) = match soft {
            true if faces.iter().any(turned) => (Some(faces[0]), false),
            true if self.soft && self.differ(faces) => (Some(faces[0]), true),
            true => return,
            false => (None, false),
        };
        let cuts: Vec<f64> = faces.iter().flat_map(|i| turns(&curve, &self.patches[*i].surface)).collect();
        if let [one] = &monotone(curve.clone())[..] {
            self.lines.extend(Line::of(one.clone(), off, cuts).map(|l| Line { soft, ..l }));
        } else {
            let parts = monotone(curve).into_iter().filter_map(|c| Line::of(c, off, Vec::new()));
            self.lines.extend(parts.map(|l| Line { soft, ..l }));
        }
    }

    /// Whether two faces lie on surfaces of different kinds: not the two halves of one.
    fn differ(&self, faces: &[usize]) -> bool {
        let kind = |i: &usize| std::mem::discriminant(&self.patches[*i].surface);
        faces.iter().any(|f| kind(f) != kind(&faces[0]))
    }

    /// The lines that may be seen.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// Whether the middle of a stretch is seen; `None` where it is cut away.
    pub fn sees(&self, line: &Line, t: f64, metal: &dyn Fn(Point2) -> bool) -> Option<bool> {
        let on = line.curve.at(t);
        let cut = self.away.depth(paper(on));
        if cut.is_some_and(|depth| on.z > depth - BEHIND) {
            return None;
        }
        let p = match line.off {
            Some(i) => on + normal(&self.patches[i].surface, on) * (OFF * self.outward[i]),
            None => on,
        };
        let room = cut.map_or(f64::INFINITY, |depth| depth - p.z);
        let flat = Point2::new(p.x, p.y);
        let hides =
            |i: usize| self.boxes[i].near(flat, 1e-6) && rays::hides(&self.patches[i], p, BEFORE, room);
        // metal on both sides: a line may run along the edge of the cut, or where two shapes of it meet
        let behind_metal = || metal(flat + BESIDE) && metal(flat - BESIDE);
        let hidden = (0..self.patches.len()).any(hides) || (cut.is_some() && behind_metal());
        // behind a cut, what is hidden is left out
        if hidden && cut.is_some() { None } else { Some(!hidden) }
    }
}

/// Unit normal of a surface on its natural side.
fn normal(surface: &Surface, p: Point3) -> Vector3 {
    let f = surface.frame();
    let q = f.local(p);
    let r = q.x.hypot(q.y).max(1e-12);
    let out = f.x * (q.x / r) + f.y() * (q.y / r);
    match *surface {
        Surface::Plane(_) => f.z,
        Surface::Cylinder { .. } => out,
        Surface::Cone { half_angle, .. } => out * half_angle.cos() - f.z * half_angle.sin(),
        Surface::Torus { major, .. } => (out * (r - major) + f.z * q.z).normalize(),
        Surface::Sphere { .. } => (out * r + f.z * q.z).normalize(),
    }
}

/// Fractions at which a face beside an edge turns away from the eye.
fn turns(curve: &Curve, surface: &Surface) -> Vec<f64> {
    if matches!((curve, surface), (_, Surface::Plane(_)) | (Curve::Line { .. }, _)) {
        return Vec::new();
    }
    let tilt = |t: f64| normal(surface, curve.at(t)).z;
    let at = |i: u32| f64::from(i) / f64::from(TURNS);
    (0..TURNS).filter_map(|i| turning(at(i), at(i + 1), &tilt)).collect()
}

/// An arc seen on edge runs to and fro on a straight line: it is taken apart where it turns round.
fn monotone(curve: Curve) -> Vec<Curve> {
    let Curve::Arc(arc) = &curve else { return vec![curve] };
    if arc.frame.z.z.abs() > 1e-9 {
        return vec![curve];
    }
    // where the tangent points at the eye: -x sin + y cos has no part in the paper
    let along = arc.frame.z.cross(Vector3::unit_z());
    let turn = arc.frame.y().dot(along).atan2(arc.frame.x.dot(along));
    let mut angles: Vec<f64> = (-2..=3)
        .map(|k| turn + std::f64::consts::PI * f64::from(k))
        .filter(|a| *a > 1e-9 && *a < arc.sweep - 1e-9)
        .collect();
    angles.insert(0, 0.0);
    angles.push(arc.sweep);
    let part = |w: &[f64]| {
        let frame = Frame { x: arc.frame.radial(w[0]), ..arc.frame };
        Curve::Arc(Arc { frame, radius: arc.radius, sweep: w[1] - w[0] })
    };
    angles.windows(2).map(part).collect()
}

fn paper(p: Point3) -> Point2 {
    Point2::new(p.x, p.y)
}

fn samples(curve: &Curve) -> Vec<(f64, Point2)> {
    let n = match curve {
        Curve::Line { .. } => 1,
        Curve::Arc(arc) => (arc.sweep / CHORD).ceil().max(1.0) as usize,
        Curve::Spline(s) => 2 * s.pieces(),
    };
    (0..=n).map(|i| i as f64 / n as f64).map(|t| (t, paper(curve.at(t)))).collect()
}

/// How far a curve leaves the chords between its samples at most \[mm\].
fn sag(curve: &Curve) -> f64 {
    match curve {
        Curve::Line { .. } => 0.0,
        Curve::Arc(arc) => arc.radius * CHORD * CHORD / 8.0,
        Curve::Spline(s) => {
            let long: f64 = s.points().windows(2).map(|w| (w[1] - w[0]).magnitude()).sum();
            0.1 * long / s.pieces() as f64
        }
    }
}

/// The box around a curve on the paper.
fn bounds_of(curve: &Curve) -> Bounds {
    Bounds::of(samples(curve).into_iter().map(|s| s.1)).grown(sag(curve))
}

impl Line {
    /// A line that is more than a point on the paper.
    fn of(curve: Curve, off: Option<usize>, cuts: Vec<f64>) -> Option<Self> {
        let samples = samples(&curve);
        let long: f64 = samples.windows(2).map(|w| (w[1].1 - w[0].1).magnitude()).sum();
        let (sag, bounds) = (sag(&curve), bounds_of(&curve));
        (long > 1e-6).then_some(Self { curve, off, soft: false, cuts, samples, bounds, sag })
    }

    /// Point on the paper \[mm\].
    pub fn at(&self, t: f64) -> Point2 {
        paper(self.curve.at(t))
    }

    /// Change of the point with `t` \[mm\].
    pub fn slope(&self, t: f64) -> Vector2 {
        let d = self.curve.slope(t);
        Vector2::new(d.x, d.y)
    }

    /// Its chords.
    pub fn chords(&self) -> impl Iterator<Item = Chord> + '_ {
        self.samples.windows(2).map(|w| Chord { from: w[0], to: w[1], bounds: Bounds::of([w[0].1, w[1].1]) })
    }

    /// Length on the paper by chords \[mm\].
    pub fn length(&self) -> f64 {
        self.samples.windows(2).map(|w| (w[1].1 - w[0].1).magnitude()).sum()
    }

    /// Notes where it goes through a cutting plane, and over the borders of what is taken away.
    fn cut_by(&mut self, away: &Away) {
        for depth in away.depths() {
            let height = |t: f64| self.curve.at(t).z - depth;
            let found = self.samples.windows(2).filter_map(|w| turning(w[0].0, w[1].0, &height));
            self.cuts.extend(found.collect::<Vec<f64>>());
        }
        let found = match self.curve {
            Curve::Line { .. } => away.borders_of_line(self.at(0.0), self.at(1.0)),
            _ => {
                let samples: Vec<f64> = self.samples.iter().map(|s| s.0).collect();
                away.borders(&samples, &|t| self.at(t))
            }
        };
        self.cuts.extend(found);
    }

    /// The part between two fractions, seen or hidden.
    pub fn part(&self, (from, to, visible): (f64, f64, bool)) -> Drawn {
        let flat = match &self.curve {
            Curve::Line { .. } => Flat::Piece(Piece::Line { from: self.at(from), to: self.at(to) }),
            Curve::Arc(arc) => arc_part(arc, from, to),
            Curve::Spline(s) => {
                Flat::Cubics((0..s.pieces()).map(|i| s.bezier(i).map(paper)).collect()).part(from, to)
            }
        };
        Drawn { flat, visible, soft: self.soft }
    }
}

/// The part of an arc on the paper: an arc, a straight line where it is seen on edge, or an ellipse.
fn arc_part(arc: &Arc, from: f64, to: f64) -> Flat {
    let f = &arc.frame;
    let flat = |v: Vector3| Vector2::new(v.x, v.y) * arc.radius;
    if f.z.z.abs() < 1e-9 {
        return Flat::Piece(Piece::Line { from: paper(arc.at(from)), to: paper(arc.at(to)) });
    }
    let centre = Point2::from_vec(Vector2::new(f.origin.x, f.origin.y));
    if f.z.z.abs() > 1.0 - 1e-12 {
        let sign = f.z.z.signum();
        let start = f.x.y.atan2(f.x.x) + sign * arc.sweep * from;
        let sweep = sign * arc.sweep * (to - from);
        return Flat::Piece(Piece::Arc { centre, radius: arc.radius, start, sweep });
    }
    Flat::ellipse(centre, flat(f.x), flat(f.y()), arc.sweep).part(from, to)
}
