//! The named sizes of a recipe: what a report of changes compares.
//!
//! Order is that of the recipe. Names come from the tags; a surface without a tag is named by its kind and
//! its position (`diameter-3`), a size of a feature by the feature (`bolt-hole-depth`). Sizes that follow
//! from others (a fillet's tangent points, the depth of a hole right through, the face that a feature
//! starts on) are not repeated.

mod outline;
mod place;
mod profile;

use super::recipe::{Body, End, Feature, Kind, Recipe, Size, Tag, Tolerance};
use std::collections::HashSet;

impl Recipe {
    /// All sizes, each under its own name, in the order of the recipe.
    pub fn sizes(&self) -> Vec<Size> {
        let mut list = List::default();
        match &self.body {
            Body::Turned(nodes) => profile::turned(&mut list, nodes),
            Body::Plate { outline, thickness, tag } => {
                outline::plate(&mut list, outline);
                list.tagged(tag, "thickness", *thickness);
            }
        }
        for group in groups(&self.features) {
            feature_group(&mut list, &group);
        }
        list.sizes
    }
}

/// Sizes collected so far, with their names kept unique.
#[derive(Default)]
struct List {
    sizes: Vec<Size>,
    used: HashSet<String>,
}

impl List {
    /// A length \[mm\] under the tag's name, or under `other` if the tag has none.
    fn tagged(&mut self, tag: &Tag, other: &str, value: f64) {
        let name = if tag.name.is_empty() { other } else { &tag.name };
        self.push(name, value, "mm", tag.tolerance.clone(), tag.origin.clone());
        if let Some(thread) = &tag.thread {
            self.plain(&format!("{name}-thread-{}", thread.to_lowercase()), value, "mm");
        }
    }

    /// A size of which nothing is known but its value.
    fn plain(&mut self, name: &str, value: f64, unit: &'static str) {
        self.push(name, value, unit, Tolerance::General, None);
    }

    /// A length \[mm\] that is left out where it is 0.
    fn unless_zero(&mut self, name: &str, value: f64) {
        if value.abs() > 1e-9 {
            self.plain(name, value, "mm");
        }
    }

    fn push(
        &mut self,
        name: &str,
        value: f64,
        unit: &'static str,
        tolerance: Tolerance,
        origin: Option<String>,
    ) {
        let name = (1..)
            .map(|n| if n == 1 { name.to_owned() } else { format!("{name}-{n}") })
            .find(|n| !self.used.contains(n))
            .unwrap_or_default();
        self.used.insert(name.clone());
        self.sizes.push(Size { name, value, unit, tolerance, origin });
    }
}

/// Features of one name and one shape.
struct Group<'a> {
    name: String,
    members: Vec<&'a Feature>,
}

/// Features grouped by name in order of appearance; a member of another shape starts a variant.
fn groups(features: &[Feature]) -> Vec<Group<'_>> {
    let mut groups: Vec<Group> = Vec::new();
    for feature in features {
        let same = |g: &&mut Group| g.members[0].name == feature.name && g.members[0].kind == feature.kind;
        if let Some(group) = groups.iter_mut().find(same) {
            group.members.push(feature);
            continue;
        }
        let variants = groups.iter().filter(|g| g.members[0].name == feature.name).count();
        let name = if variants == 0 {
            feature.name.clone()
        } else {
            format!("{}-variant-{}", feature.name, variants + 1)
        };
        groups.push(Group { name, members: vec![feature] });
    }
    groups
}

fn feature_group(list: &mut List, group: &Group) {
    let name = &group.name;
    match &group.members[0].kind {
        Kind::Bore { chain, end, thread } => {
            profile::chain(list, name, chain, *end, "depth");
            if let Some(thread) = thread {
                let depth = thread.depth.or_else(|| chain.last().map(|n| n.z)).unwrap_or(0.0);
                list.plain(&format!("{name}-thread-{}", thread.designation.to_lowercase()), depth, "mm");
            }
        }
        Kind::Boss { chain } => profile::chain(list, name, chain, End::Blind, "height"),
        Kind::Pocket { outline, depth, through } => {
            outline::local(list, name, outline);
            outline::turned(list, name, group.members[0], outline);
            if !through {
                list.plain(&format!("{name}-depth"), *depth, "mm");
            }
        }
        Kind::Pad { outline, height } => {
            outline::local(list, name, outline);
            outline::turned(list, name, group.members[0], outline);
            list.plain(&format!("{name}-height"), *height, "mm");
        }
    }
    place::group(list, name, &group.members);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::loops::Loop;
    use crate::shape::outline::Outline;
    use crate::shape::recipe::{Axis, Place, ProfileNode as N};
    use crate::shape::{Point2, Point3, Vector3};

    fn value(sizes: &[Size], name: &str) -> f64 {
        sizes.iter().find(|s| s.name == name).unwrap_or_else(|| panic!("no {name} in {sizes:#?}")).value
    }

    fn bush() -> Recipe {
        Recipe {
            body: Body::Turned(vec![
                N::new(4.0, 0.0),
                N::new(9.0, 0.0).tag(Tag::new("chamfer")),
                N::new(10.0, 1.0).tag(Tag::new("outside").fit("h7", 0.0, -0.021).origin("bush.outside")),
                N::new(10.0, 20.0).tag(Tag::new("head").from_z(5.0)),
                N::new(4.0, 20.0),
            ]),
            features: Vec::new(),
        }
    }

    #[test]
    fn a_turned_part_gives_what_its_drawing_shows() {
        let sizes = bush().sizes();
        assert_eq!(value(&sizes, "outside"), 20.0);
        assert_eq!(value(&sizes, "head"), 15.0);
        assert_eq!(value(&sizes, "chamfer-length"), 1.0);
        assert!((value(&sizes, "chamfer-angle") - 45.0).abs() < 1e-12);
        assert_eq!(value(&sizes, "diameter-2"), 8.0);
        let outside = sizes.iter().find(|s| s.name == "outside").expect("there");
        assert_eq!(outside.origin.as_deref(), Some("bush.outside"));
        assert!(matches!(outside.tolerance, Tolerance::Fit { .. }));
    }

    fn plate(angles: &[f64]) -> Recipe {
        let hole = |a: f64| Feature {
            name: "bolt-hole".into(),
            axis: Axis {
                origin: Point3::new(20.0 * a.to_radians().cos(), 20.0 * a.to_radians().sin(), 6.0),
                direction: -Vector3::unit_z(),
            },
            x_axis: Vector3::unit_x(),
            kind: Kind::Bore {
                chain: vec![N::new(2.75, 0.0), N::new(2.75, 6.0)],
                end: End::Through,
                thread: None,
            },
            place: Place::Circle {
                centre: Point2::new(0.0, 0.0),
                diameter: 40.0,
                angles_deg: angles.to_vec(),
            },
        };
        let outline =
            Outline::Disc { centre: Point2::new(0.0, 0.0), diameter: 55.0, tag: Tag::new("outside") };
        Recipe {
            body: Body::Plate { outline, thickness: 6.0, tag: Tag::new("thickness") },
            features: angles.iter().map(|a| hole(*a)).collect(),
        }
    }

    #[test]
    fn a_bolt_circle_is_one_group() {
        let sizes = plate(&[30.0, 120.0, 210.0, 300.0]).sizes();
        let names: Vec<&str> = sizes.iter().map(|s| s.name.as_str()).collect();
        assert_eq!(
            names,
            [
                "outside",
                "thickness",
                "bolt-hole-diameter",
                "bolt-hole-count",
                "bolt-hole-circle-diameter",
                "bolt-hole-first-angle"
            ]
        );
        assert_eq!(value(&sizes, "bolt-hole-count"), 4.0);
        assert_eq!(value(&sizes, "bolt-hole-first-angle"), 30.0);
    }

    #[test]
    fn uneven_angles_are_told_one_by_one() {
        let sizes = plate(&[0.0, 50.0, 180.0]).sizes();
        assert_eq!(value(&sizes, "bolt-hole-angle-2"), 50.0);
    }

    #[test]
    fn any_change_of_a_pocket_shows() {
        let with = |outline: Loop, depth: f64| {
            let mut recipe = plate(&[]);
            recipe.features.push(Feature {
                name: "pocket".into(),
                axis: Axis { origin: Point3::new(3.0, 4.0, 6.0), direction: -Vector3::unit_z() },
                x_axis: Vector3::unit_x(),
                kind: Kind::Pocket { outline, depth, through: false },
                place: Place::Coordinates,
            });
            recipe.sizes()
        };
        let square =
            |w: f64| crate::shape::outline::rectangle(Point2::new(0.0, 0.0), Point2::new(w, 5.0), 1.0);
        let first = with(square(8.0), 2.0);
        assert_ne!(first, with(square(9.0), 2.0));
        assert_ne!(first, with(square(8.0), 2.5));
        assert_eq!(value(&first, "pocket-width"), 8.0);
        assert_eq!(value(&first, "pocket-corner"), 1.0);
        assert_eq!(value(&first, "pocket-x"), 3.0);
    }

    #[test]
    fn names_never_repeat() {
        let mut recipe = bush();
        let Body::Turned(nodes) = &mut recipe.body else { unreachable!("a bush is turned") };
        nodes[0].tag = Some(Tag::new("outside"));
        let sizes = recipe.sizes();
        let names: HashSet<&str> = sizes.iter().map(|s| s.name.as_str()).collect();
        assert_eq!(names.len(), sizes.len());
    }
}
