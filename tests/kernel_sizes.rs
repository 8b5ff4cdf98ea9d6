//! Whatever shapes a part shows in its sizes: each number of each sample is moved by itself.

mod common;

use swept::shape::loops::{Leave, Loop};
use swept::shape::outline::Outline;
use swept::shape::recipe::{Body, End, Kind, ProfileNode, Recipe};
use swept::shape::{InnerSpace, Vector3};

/// Ways of moving one number of a recipe by a little, each under a name.
fn changes(recipe: &Recipe) -> Vec<(String, Recipe)> {
    let mut all = Vec::new();
    let mut add = |name: String, change: &dyn Fn(&mut Recipe)| {
        let mut other = recipe.clone();
        change(&mut other);
        all.push((name, other));
    };
    match &recipe.body {
        Body::Turned(nodes) => (0..nodes.len()).for_each(|i| {
            add(format!("r of corner {i}"), &|r| profile(r)[i].r += 0.01);
            add(format!("z of corner {i}"), &|r| profile(r)[i].z += 0.01);
        }),
        Body::Plate { .. } => add("thickness".into(), &|r| {
            if let Body::Plate { thickness, .. } = &mut r.body {
                *thickness += 0.01;
            }
        }),
    }
    for (k, feature) in recipe.features.iter().enumerate() {
        let name = &feature.name;
        for (axis, e) in [("x", Vector3::unit_x()), ("y", Vector3::unit_y()), ("z", Vector3::unit_z())] {
            if e.dot(feature.axis.direction).abs() < 1e-9 {
                add(format!("{axis} of {name} {k}"), &|r| r.features[k].axis.origin += e * 0.01);
            }
        }
        add(format!("{name} {k} taken out"), &|r| drop(r.features.remove(k)));
        for i in 0..chain_length(&feature.kind) {
            let closes = i + 1 == chain_length(&feature.kind)
                && matches!(feature.kind, Kind::Bore { end: End::Blind, .. } | Kind::Boss { .. });
            if !closes {
                add(format!("r of {name} {k} corner {i}"), &|r| chain(r, k)[i].r += 0.01);
            }
            // The end of a through hole follows from its exit face, that of a groove is 0.
            let follows = matches!(&feature.kind, Kind::Bore { chain, end: End::Through | End::Island, .. } if i + 1 == chain.len());
            if i > 0 && !follows {
                add(format!("depth of {name} {k} corner {i}"), &|r| chain(r, k)[i].z += 0.01);
            }
        }
        match &feature.kind {
            Kind::Pocket { outline, through, .. } => {
                moved_outline(&mut add, k, outline);
                if !through {
                    add(format!("depth of {name} {k}"), &|r| match &mut r.features[k].kind {
                        Kind::Pocket { depth, .. } => *depth += 0.01,
                        _ => unreachable!("a pocket"),
                    });
                }
            }
            Kind::Pad { outline, .. } => moved_outline(&mut add, k, outline),
            _ => {}
        }
    }
    all
}

/// Takes a named change of a recipe.
type Add<'a> = dyn FnMut(String, &dyn Fn(&mut Recipe)) + 'a;

fn moved_outline(add: &mut Add, k: usize, outline: &Loop) {
    let nodes = if let Loop::Path(nodes) = outline { nodes.len() } else { 0 };
    for i in 0..nodes {
        add(format!("outline of feature {k}, corner {i}"), &|r| match &mut r.features[k].kind {
            Kind::Pocket { outline: Loop::Path(n), .. } | Kind::Pad { outline: Loop::Path(n), .. } => {
                n[i].at.x += 0.01
            }
            _ => unreachable!("a path"),
        });
    }
}

fn profile(recipe: &mut Recipe) -> &mut Vec<ProfileNode> {
    let Body::Turned(nodes) = &mut recipe.body else { unreachable!("a turned body") };
    nodes
}

fn chain(recipe: &mut Recipe, k: usize) -> &mut Vec<ProfileNode> {
    match &mut recipe.features[k].kind {
        Kind::Bore { chain, .. } | Kind::Boss { chain } => chain,
        _ => unreachable!("a chain"),
    }
}

fn chain_length(kind: &Kind) -> usize {
    match kind {
        Kind::Bore { chain, .. } | Kind::Boss { chain } => chain.len(),
        _ => 0,
    }
}

#[test]
fn each_number_that_shapes_a_part_shows() {
    let mut count = 0;
    for (name, recipe) in common::all() {
        let sizes = recipe.sizes();
        for (what, changed) in changes(&recipe) {
            count += 1;
            assert_ne!(changed.sizes(), sizes, "{name}: {what} does not show");
        }
    }
    assert!(count > 250, "only {count} numbers were moved");
}

#[test]
fn outlines_show_too() {
    for (name, mut recipe) in common::all() {
        let sizes = recipe.sizes();
        let Body::Plate { outline, .. } = &mut recipe.body else { continue };
        match outline {
            Outline::Disc { diameter, .. } => *diameter += 0.01,
            Outline::Rectangle { high, .. } => high.x += 0.01,
            Outline::Hull { circles, .. } => circles[1].0.x += 0.01,
            Outline::Free { boundary, .. } => {
                let Loop::Path(nodes) = boundary else { panic!("a path") };
                let Leave::Arc { centre, .. } = &mut nodes[0].leave else { panic!("an arc") };
                centre.x += 0.01;
            }
        }
        assert_ne!(recipe.sizes(), sizes, "{name}: the outline does not show");
    }
}
