//! A solid as MANIFOLD_SOLID_BREP with elementary surfaces and curves.

use super::text::{Id, Sheet, list, real, string};
use crate::shape::InnerSpace;
use crate::shape::solid::{Curve, Edge, Face, Frame, Solid, Spline, Surface, Wire};
use std::collections::HashMap;

/// Writes a solid under a name.
pub(super) fn solid(sheet: &mut Sheet, solid: &Solid, name: &str) -> Id {
    let mut brep = Brep { sheet, vertices: HashMap::new(), edges: HashMap::new() };
    let faces: Vec<Id> = solid.faces().map(|f| brep.face(f)).collect();
    let shell = sheet.add(&format!("CLOSED_SHELL('',{})", list(&faces)));
    sheet.add(&format!("MANIFOLD_SOLID_BREP({},#{shell})", string(name)))
}

/// What has been written of one solid; keys are truck's own identities and only looked up.
struct Brep<'a> {
    sheet: &'a mut Sheet,
    vertices: HashMap<truck_topology::VertexID<crate::shape::Point3>, Id>,
    edges: HashMap<truck_topology::EdgeID<Curve>, Id>,
}

impl Brep<'_> {
    fn face(&mut self, face: &Face) -> Id {
        let bound = |(i, id): (usize, Id)| (if i == 0 { "FACE_OUTER_BOUND" } else { "FACE_BOUND" }, id);
        let loops: Vec<Id> = face.boundaries().iter().map(|w| self.edge_loop(w)).collect();
        let bounds: Vec<Id> = loops
            .into_iter()
            .enumerate()
            .map(bound)
            .map(|(kind, id)| self.sheet.add(&format!("{kind}('',#{id},.T.)")))
            .collect();
        let surface = self.surface(&face.surface());
        let sense = if face.orientation() { ".T." } else { ".F." };
        self.sheet.add(&format!("ADVANCED_FACE('',{},#{surface},{sense})", list(&bounds)))
    }

    fn edge_loop(&mut self, wire: &Wire) -> Id {
        let edges: Vec<Id> = wire.iter().map(|e| self.oriented(e)).collect();
        self.sheet.add(&format!("EDGE_LOOP('',{})", list(&edges)))
    }

    fn oriented(&mut self, edge: &Edge) -> Id {
        let curve = match self.edges.get(&edge.id()) {
            Some(id) => *id,
            None => self.edge(&edge.absolute_clone()),
        };
        let sense = if edge.orientation() { ".T." } else { ".F." };
        self.sheet.add(&format!("ORIENTED_EDGE('',*,*,#{curve},{sense})"))
    }

    fn edge(&mut self, edge: &Edge) -> Id {
        let (from, to) = (self.vertex(edge.front()), self.vertex(edge.back()));
        let curve = self.curve(&edge.curve());
        let id = self.sheet.add(&format!("EDGE_CURVE('',#{from},#{to},#{curve},.T.)"));
        self.edges.insert(edge.id(), id);
        id
    }

    fn vertex(&mut self, vertex: &crate::shape::solid::Vertex) -> Id {
        if let Some(id) = self.vertices.get(&vertex.id()) {
            return *id;
        }
        let point = self.sheet.point(vertex.point());
        let id = self.sheet.add(&format!("VERTEX_POINT('',#{point})"));
        self.vertices.insert(vertex.id(), id);
        id
    }

    fn curve(&mut self, curve: &Curve) -> Id {
        match curve {
            Curve::Line { from, to } => {
                let way = to - from;
                let (start, along) = (self.sheet.point(*from), self.sheet.direction(way.normalize()));
                let vector = self.sheet.add(&format!("VECTOR('',#{along},{})", real(way.magnitude())));
                self.sheet.add(&format!("LINE('',#{start},#{vector})"))
            }
            Curve::Arc(arc) => {
                let at = self.frame(&arc.frame);
                self.sheet.add(&format!("CIRCLE('',#{at},{})", real(arc.radius)))
            }
            Curve::Spline(s) => self.spline(s),
        }
    }

    fn spline(&mut self, spline: &Spline) -> Id {
        let points: Vec<Id> = spline.control_points().into_iter().map(|p| self.sheet.point(p)).collect();
        let n = spline.pieces();
        let ends = |i: usize| if i == 0 || i == n { "4" } else { "1" };
        let multiples: Vec<&str> = (0..=n).map(ends).collect();
        let knots: Vec<String> = (0..=n).map(|i| real(i as f64)).collect();
        self.sheet.add(&format!(
            "B_SPLINE_CURVE_WITH_KNOTS('',3,{},.UNSPECIFIED.,.F.,.F.,({}),({}),.UNSPECIFIED.)",
            list(&points),
            multiples.join(","),
            knots.join(",")
        ))
    }

    fn surface(&mut self, surface: &Surface) -> Id {
        let at = self.frame(surface.frame());
        let text = match surface {
            Surface::Plane(_) => format!("PLANE('',#{at})"),
            Surface::Cylinder { radius, .. } => format!("CYLINDRICAL_SURFACE('',#{at},{})", real(*radius)),
            Surface::Cone { radius, half_angle, .. } => {
                format!("CONICAL_SURFACE('',#{at},{},{})", real(*radius), real(*half_angle))
            }
            Surface::Torus { major, minor, .. } => {
                format!("TOROIDAL_SURFACE('',#{at},{},{})", real(*major), real(*minor))
            }
            Surface::Sphere { radius, .. } => format!("SPHERICAL_SURFACE('',#{at},{})", real(*radius)),
        };
        self.sheet.add(&text)
    }

    fn frame(&mut self, frame: &Frame) -> Id {
        self.sheet.placement("", frame.origin, frame.z, frame.x)
    }
}
