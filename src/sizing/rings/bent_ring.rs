//! A split ring that springs: wall pressure, stress and free shape of metal rings and of the strips behind soft ones.
//!
//! A thin curved beam of rectangular section that presses evenly all round: bending moment p h r r_m (1 + cos φ), φ from
//! the back; the gap opens by 3π p h r r_m³/(E I). With 7.069 = 9π/4 (derived; the wording of piston-ring standards,
//! ISO 6621, is kept for the letters): p = E a³ m/(7.069 d (d − a)³), σ = 0.4244 E m a/(d − a)². Good to a few per
//! cent for d/a of 20 and more.

use std::f64::consts::PI;

/// A ring of radial thickness a in a bore or round d.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BentRing {
    /// Outside diameter when closed, d \[mm\].
    pub diameter_mm: f64,
    /// Radial thickness, a \[mm\].
    pub thickness_mm: f64,
    /// Young's modulus \[MPa\].
    pub youngs_mpa: f64,
}

/// An arc of the free ring's middle line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Centre \[mm\].
    pub centre: [f64; 2],
    /// Radius of the middle line \[mm\].
    pub radius_mm: f64,
    /// Angles of start and end about the centre, counter-clockwise \[rad\].
    pub from_to: [f64; 2],
}

impl BentRing {
    fn mean_mm(&self) -> f64 {
        self.diameter_mm - self.thickness_mm
    }

    /// Pressure on the wall of a ring whose free gap is `free_gap_mm` wider than its closed one \[MPa\].
    pub fn wall_mpa(&self, free_gap_mm: f64) -> f64 {
        self.youngs_mpa * self.thickness_mm.powi(3) * free_gap_mm
            / (2.25 * PI * self.diameter_mm * self.mean_mm().powi(3))
    }

    /// Opening of the gap, free, that gives a wall pressure \[MPa\] \[mm\].
    pub fn free_gap_mm(&self, wall_mpa: f64) -> f64 {
        wall_mpa / self.wall_mpa(1.0)
    }

    /// Greatest bending stress when closed \[MPa\].
    pub fn stress_mpa(&self, free_gap_mm: f64) -> f64 {
        4.0 / (3.0 * PI) * self.youngs_mpa * free_gap_mm * self.thickness_mm / self.mean_mm().powi(2)
    }

    /// Stress when its ends are pulled apart to slip over the piston \[MPa\]: the gap is opened to 8 a (common practice,
    /// from memory), with the same ratio of stress to opening as for two forces at the ends (derived).
    pub fn fitting_stress_mpa(&self, free_gap_mm: f64) -> f64 {
        self.stress_mpa((8.0 * self.thickness_mm - free_gap_mm).max(0.0))
    }

    /// Force that closes it by a tape round it: p d h/2 \[N\], h the height \[mm\].
    pub fn tangential_n(&self, free_gap_mm: f64, height_mm: f64) -> f64 {
        0.5 * self.wall_mpa(free_gap_mm) * self.diameter_mm * height_mm
    }

    /// The free ring that lies evenly on the wall when closed, as `pieces` arcs of its middle line from one end of the gap
    /// to the other, its back at −X, its gap about +X: curvature (1 − m/(3π r_m) (1 + cos φ))/r_m.
    pub fn free_shape(&self, closed_gap_mm: f64, free_gap_mm: f64, pieces: usize) -> Vec<Arc> {
        let r = 0.5 * self.mean_mm();
        let half = PI - 0.5 * closed_gap_mm / r;
        let step = 2.0 * half / pieces as f64;
        let bend = free_gap_mm / (3.0 * PI * r);
        let mut arcs = Vec::with_capacity(pieces);
        let (mut at, mut heading) = ([0.0, 0.0], 0.0_f64);
        for i in 0..pieces {
            let (low, high) = (-half + step * i as f64, -half + step * (i + 1) as f64);
            // mean of 1 + cos φ over the piece
            let mean = 1.0 + (high.sin() - low.sin()) / step;
            let radius = r / (1.0 - bend * mean);
            let turned = step * r / radius;
            let from = heading - 0.5 * PI;
            let centre = [at[0] - radius * from.cos(), at[1] - radius * from.sin()];
            arcs.push(Arc { centre, radius_mm: radius, from_to: [from, from + turned] });
            let to = from + turned;
            at = [centre[0] + radius * to.cos(), centre[1] + radius * to.sin()];
            heading += turned;
        }
        upright(arcs, at, heading)
    }
}

/// Turns and shifts the arcs so that the gap lies about +X and the hull's middle near the origin.
fn upright(arcs: Vec<Arc>, end: [f64; 2], heading: f64) -> Vec<Arc> {
    // the axis of symmetry runs from the middle of the gap to the back; the chord of the gap is square to it
    let axis = 0.5 * heading + PI * 0.5 + PI;
    let turn = -axis + PI;
    let (sin, cos) = turn.sin_cos();
    let middle = [0.5 * end[0], 0.5 * end[1]];
    let rotate = |p: [f64; 2]| [cos * p[0] - sin * p[1], sin * p[0] + cos * p[1]];
    let mut all: Vec<Arc> = arcs
        .into_iter()
        .map(|a| Arc {
            centre: rotate([a.centre[0] - middle[0], a.centre[1] - middle[1]]),
            radius_mm: a.radius_mm,
            from_to: a.from_to.map(|t| t + turn),
        })
        .collect();
    let back = all.get(all.len() / 2).map_or(0.0, |a| a.centre[0] - a.radius_mm);
    for arc in &mut all {
        arc.centre[0] -= 0.5 * back;
    }
    all
}

impl Arc {
    /// A point of the arc's line, or of one beside it by `out_mm`, at its start (0) or end (1) \[mm\].
    pub fn end(&self, which: usize, out_mm: f64) -> [f64; 2] {
        let t = self.from_to[which.min(1)];
        let r = self.radius_mm + out_mm;
        [self.centre[0] + r * t.cos(), self.centre[1] + r * t.sin()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    const RING: BentRing = BentRing { diameter_mm: 50.0, thickness_mm: 2.0, youngs_mpa: 100_000.0 };

    /// Worked independently, with the constants of handbooks: d 50, a 2, h 2, E 100 000, m 6: p 0.1228 MPa, F_t 6.140 N,
    /// σ 221 MPa.
    #[test]
    fn worked_ring() {
        close(RING.wall_mpa(6.0), 0.1228, 5e-4);
        close(RING.tangential_n(6.0, 2.0), 6.140, 5e-4);
        close(RING.stress_mpa(6.0), 221.0, 1e-3);
        close(RING.free_gap_mm(0.1228), 6.0, 5e-4);
        close(RING.fitting_stress_mpa(6.0), 221.0 * 10.0 / 6.0, 1e-3);
    }

    /// The free shape's own gap is the free gap and the closed one together, to the first order of the beam's law; its arcs
    /// join without a corner; their length is that of the closed ring.
    #[test]
    fn free_shape_opens_by_its_gap() {
        let arcs = RING.free_shape(0.15, 6.0, 24);
        let (first, last) = (arcs[0].end(0, 0.0), arcs[23].end(1, 0.0));
        let gap = (first[0] - last[0]).hypot(first[1] - last[1]);
        assert!((gap - 6.15).abs() < 0.25, "{gap}");
        close(first[0], last[0], 1e-9);
        assert!(first[1] > 0.0 && (first[1] + last[1]).abs() < 1e-9, "{first:?} {last:?}");
        let length: f64 = arcs.iter().map(|a| a.radius_mm * (a.from_to[1] - a.from_to[0])).sum();
        close(length, PI * 48.0 - 0.15, 1e-9);
        for pair in arcs.windows(2) {
            let (a, b) = (pair[0].end(1, 1.0), pair[1].end(0, 1.0));
            assert!((a[0] - b[0]).hypot(a[1] - b[1]) < 1e-9, "joins smoothly, beside the middle line too");
        }
        let closed = RING.free_shape(0.15, 0.0, 24);
        assert!(closed.iter().all(|a| (a.radius_mm - 24.0).abs() < 1e-9), "without a free gap it is round");
    }
}
