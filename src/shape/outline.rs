//! Outlines of plates, kept as what they are (a disc, a rounded rectangle, a hull of circles), so that
//! the drawing can dimension them as a machinist would and not node by node.

use super::loops::{Loop, Node, polar};
use super::recipe::Tag;
use super::{InnerSpace, Point2};

/// The outside of a plate, in XY \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub enum Outline {
    /// A disc.
    Disc {
        /// Centre \[mm\].
        centre: Point2,
        /// Diameter \[mm\].
        diameter: f64,
        /// Name and tolerance of the diameter.
        tag: Tag,
    },
    /// A rectangle with rounded corners, from `low` to `high`.
    Rectangle {
        /// Lower left corner \[mm\].
        low: Point2,
        /// Upper right corner \[mm\].
        high: Point2,
        /// Corner radius \[mm\], 0 for sharp corners.
        corner: f64,
        /// Names and tolerances of width (x) and height (y).
        tags: [Tag; 2],
    },
    /// The tight band around circles (centre, radius), listed counter-clockwise.
    Hull {
        /// Centre and radius of each circle \[mm\].
        circles: Vec<(Point2, f64)>,
        /// Name of the shape's sizes: radii become `<name>-1`, `<name>-2` ….
        name: String,
    },
    /// Any other loop, with the sizes that a drawing gives for it.
    Free {
        /// The loop, counter-clockwise.
        boundary: Loop,
        /// The sizes that define it, each with what it measures.
        sizes: Vec<(Tag, Measure)>,
    },
}

/// What a size of a free outline measures.
#[derive(Clone, Debug, PartialEq)]
pub enum Measure {
    /// The distance along X between two points of the part \[mm\].
    Level(Point2, Point2),
    /// The distance along Y between two points of the part \[mm\].
    Upright(Point2, Point2),
    /// The radius of all arcs of the outline that have it \[mm\].
    Radius(f64),
    /// The diameter of the circle of which the outline has arcs \[mm\].
    Diameter(f64),
    /// Nothing that a line could show: a number for the table \[mm\].
    Listed(f64),
}

impl Measure {
    /// What it comes to \[mm\].
    pub fn value(&self) -> f64 {
        match self {
            Self::Level(a, b) => (b.x - a.x).abs(),
            Self::Upright(a, b) => (b.y - a.y).abs(),
            Self::Radius(v) | Self::Diameter(v) | Self::Listed(v) => *v,
        }
    }
}

impl Outline {
    /// The tight band around circles, listed counter-clockwise: without those that lie inside another, a disc where one
    /// holds all.
    pub fn around(circles: Vec<(Point2, f64)>, name: &str) -> Self {
        let inside = |i: usize, j: usize| {
            let ((a, r), (b, whole)) = (circles[i], circles[j]);
            let over = whole - r - (a - b).magnitude();
            // of two that are the same the first stays
            over > 0.0 || (over == 0.0 && j < i)
        };
        let all = 0..circles.len();
        let free = |i: &usize| !all.clone().any(|j| j != *i && inside(*i, j));
        let kept: Vec<_> = all.clone().filter(free).map(|i| circles[i]).collect();
        match kept[..] {
            [(centre, radius)] => {
                Outline::Disc { centre, diameter: 2.0 * radius, tag: Tag::new(&format!("{name}-diameter")) }
            }
            _ => Outline::Hull { circles: kept, name: name.to_owned() },
        }
    }

    /// The closed loop, counter-clockwise.
    pub fn boundary(&self) -> Loop {
        match self {
            Outline::Disc { centre, diameter, .. } => {
                Loop::Circle { centre: *centre, radius: diameter / 2.0 }
            }
            Outline::Rectangle { low, high, corner, .. } => rectangle(*low, *high, *corner),
            Outline::Hull { circles, .. } => hull(circles),
            Outline::Free { boundary, .. } => boundary.clone(),
        }
    }
}

/// Rectangle with rounded corners, counter-clockwise.
pub fn rectangle(low: Point2, high: Point2, corner: f64) -> Loop {
    let (a, b, c) = (low, high, corner);
    if c <= 0.0 {
        return Loop::Path(vec![
            Node::line(a.x, a.y),
            Node::line(b.x, a.y),
            Node::line(b.x, b.y),
            Node::line(a.x, b.y),
        ]);
    }
    Loop::Path(vec![
        Node::line(a.x + c, a.y),
        Node::arc(b.x - c, a.y, b.x - c, a.y + c, true),
        Node::line(b.x, a.y + c),
        Node::arc(b.x, b.y - c, b.x - c, b.y - c, true),
        Node::line(b.x - c, b.y),
        Node::arc(a.x + c, b.y, a.x + c, b.y - c, true),
        Node::line(a.x, b.y - c),
        Node::arc(a.x, a.y + c, a.x + c, a.y + c, true),
    ])
}

/// Tight band around circles given counter-clockwise; each must touch the band.
///
/// The outer tangent of two circles leaves both at the same normal angle
/// ν = φ − acos((r₁ − r₂)/d), with φ the direction from the first centre to the second.
pub fn hull(circles: &[(Point2, f64)]) -> Loop {
    let n = circles.len();
    let normal = |i: usize| {
        let ((c1, r1), (c2, r2)) = (circles[i % n], circles[(i + 1) % n]);
        let d = c2 - c1;
        d.y.atan2(d.x) - ((r1 - r2) / d.magnitude()).acos()
    };
    let mut nodes = Vec::new();
    for (i, &(c, r)) in circles.iter().enumerate() {
        let (arrive, leave) = (polar(c, r, normal(i + n - 1)), polar(c, r, normal(i)));
        nodes.push(Node::arc(arrive.x, arrive.y, c.x, c.y, true));
        nodes.push(Node::line(leave.x, leave.y));
    }
    Loop::Path(nodes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hull_of_two_equal_circles_is_a_slot() {
        let l = hull(&[(Point2::new(0.0, 0.0), 4.0), (Point2::new(30.0, 0.0), 4.0)]);
        let area = std::f64::consts::PI * 16.0 + 30.0 * 8.0;
        assert!((l.area() - area).abs() < 1e-9, "{}", l.area());
    }

    #[test]
    fn a_band_leaves_out_what_lies_inside_a_circle_and_may_be_a_disc() {
        let at = |x: f64, r: f64| (Point2::new(x, 0.0), r);
        let disc = Outline::around(vec![at(0.0, 11.0), at(4.0, 6.5)], "web");
        assert!(matches!(disc, Outline::Disc { diameter, .. } if diameter == 22.0), "{disc:?}");
        let band = Outline::around(vec![at(0.0, 11.0), at(4.0, 6.5), at(20.0, 6.0)], "web");
        assert!(matches!(&band, Outline::Hull { circles, .. } if circles.len() == 2), "{band:?}");
        assert!(matches!(Outline::around(vec![at(1.0, 3.0), at(1.0, 3.0)], "web"), Outline::Disc { .. }));
    }

    #[test]
    fn rounded_rectangle_loses_only_its_corners() {
        let l = rectangle(Point2::new(-10.0, -5.0), Point2::new(10.0, 5.0), 2.0);
        assert!((l.area() - (200.0 - (4.0 - std::f64::consts::PI) * 4.0)).abs() < 1e-9);
    }
}
