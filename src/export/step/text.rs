//! Numbers, strings and numbered lines of an ISO 10303-21 file.

use crate::shape::{EuclideanSpace, InnerSpace, Point3, Vector3};
use std::collections::HashMap;
use std::fmt::Write;

/// Number of an entity in the file.
pub(super) type Id = usize;

/// Longest line that is written where a comma allows a break.
const LINE: usize = 78;

/// The data section as it grows. Points and directions that are written alike share one entity.
#[derive(Default)]
pub(super) struct Sheet {
    text: String,
    count: usize,
    known: HashMap<String, Id>,
    /// Axes of the coordinates in which geometry is written; the part's own where there are none.
    axes: Option<[Vector3; 3]>,
}

impl Sheet {
    /// Adds an entity and gives its number.
    pub fn add(&mut self, entity: &str) -> Id {
        self.count += 1;
        self.text.push_str(&broken(&format!("#{}={entity};", self.count)));
        self.count
    }

    /// Adds an entity unless the very same is there already.
    fn once(&mut self, entity: String) -> Id {
        if let Some(id) = self.known.get(&entity) {
            return *id;
        }
        let id = self.add(&entity);
        self.known.insert(entity, id);
        id
    }

    /// From here on geometry is written in the coordinates with these axes, the origin staying what it is.
    pub fn turn(&mut self, axes: [Vector3; 3]) {
        self.axes = Some(axes);
    }

    /// A vector in the coordinates in which it is written.
    pub fn written(&self, v: Vector3) -> Vector3 {
        self.axes.map_or(v, |[x, y, z]| Vector3::new(v.dot(x), v.dot(y), v.dot(z)))
    }

    /// A point \[mm\].
    pub fn point(&mut self, p: Point3) -> Id {
        let p = self.written(p.to_vec());
        self.once(format!("CARTESIAN_POINT('',({},{},{}))", real(p.x), real(p.y), real(p.z)))
    }

    /// A direction.
    pub fn direction(&mut self, d: Vector3) -> Id {
        let d = self.written(d);
        self.once(format!("DIRECTION('',({},{},{}))", real(d.x), real(d.y), real(d.z)))
    }

    /// A placement with z and x.
    pub fn placement(&mut self, name: &str, origin: Point3, z: Vector3, x: Vector3) -> Id {
        let (o, z, x) = (self.point(origin), self.direction(z), self.direction(x));
        self.add(&format!("AXIS2_PLACEMENT_3D({},#{o},#{z},#{x})", string(name)))
    }

    /// The text of all entities.
    pub fn finish(self) -> String {
        self.text
    }
}

/// A real number: always with a point, at most twelve decimals, never a negative zero.
pub(super) fn real(value: f64) -> String {
    let mut text = crate::numerals::fixed(value, 12);
    text.truncate(text.trim_end_matches('0').len());
    text
}

/// A string in quotes; characters beyond ASCII in the standard's own coding.
pub(super) fn string(text: &str) -> String {
    let mut out = String::from("'");
    for c in text.chars() {
        match c {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(c),
            _ => {
                out.push_str("\\X2\\");
                let mut units = [0; 2];
                for unit in c.encode_utf16(&mut units) {
                    // Writing into a string cannot fail.
                    let _ = write!(out, "{unit:04X}");
                }
                out.push_str("\\X0\\");
            }
        }
    }
    out.push('\'');
    out
}

/// A list of references in brackets.
pub(super) fn list(ids: &[Id]) -> String {
    let refs: Vec<String> = ids.iter().map(|i| format!("#{i}")).collect();
    format!("({})", refs.join(","))
}

/// An entity broken into lines after commas outside strings.
fn broken(entity: &str) -> String {
    if entity.len() <= LINE {
        return format!("{entity}\n");
    }
    let (mut out, mut line, mut quoted) = (String::new(), String::new(), false);
    let mut word = String::new();
    for c in entity.chars() {
        word.push(c);
        quoted ^= c == '\'';
        if c == ',' && !quoted {
            push_word(&mut out, &mut line, &mut word);
        }
    }
    push_word(&mut out, &mut line, &mut word);
    out + &line + "\n"
}

fn push_word(out: &mut String, line: &mut String, word: &mut String) {
    if !line.is_empty() && line.len() + word.len() > LINE {
        out.push_str(line);
        out.push('\n');
        line.clear();
    }
    line.push_str(word);
    word.clear();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reals_have_a_point_and_no_negative_zero() {
        assert_eq!(real(-1e-17), "0.");
        assert_eq!(real(12.0), "12.");
        assert_eq!(real(-0.125), "-0.125");
        assert_eq!(real(1.0 / 3.0), "0.333333333333");
    }

    #[test]
    fn strings_are_plain_ascii() {
        assert_eq!(string("Kolben's Ø"), "'Kolben''s \\X2\\00D8\\X0\\'");
    }

    #[test]
    fn long_entities_break_after_commas_only() {
        let text = broken(&format!("#1=LIST({})", vec!["1234567890"; 20].join(",")));
        assert!(text.lines().all(|l| l.len() <= LINE + 1));
        assert_eq!(text.replace('\n', ""), format!("#1=LIST({})", vec!["1234567890"; 20].join(",")));
    }
}
