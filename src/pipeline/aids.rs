//! Files of the workshop's aids: 3MF and STL, and STEP of those that are no part of the engine.

use super::measured;
use crate::diagnostic::Diagnostic;
use crate::export::aids::AidEntry;
use crate::export::bed::Standing;
use crate::export::mesh::{stl::stl, threemf::threemf};
use crate::export::step::{StepOptions, part_step};
use crate::parts::aids::{Aid, AidKind, Aids, LeftOut};
use crate::shape::measure::measure;
use crate::shape::mesh::{Mesh, mesh};
use crate::shape::solid::{Solid, build};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Paths with their bytes.
type Written = Vec<(String, Vec<u8>)>;
/// Files of one aid with its entry.
type Made = (AidEntry, Written);
/// An exact solid and its mesh.
type Shape = (Solid, Mesh);

/// Entries and files of all aids; `solids` are those of the engine's parts. An aid whose shape cannot be is left out with the
/// reason: it is no part of the engine and keeps nobody from building.
pub(super) fn work(
    aids: &Aids,
    solids: &BTreeMap<&str, &Solid>,
    step: &StepOptions,
) -> Result<(Vec<AidEntry>, Written), Vec<Diagnostic>> {
    let known = |aid: &Aid| {
        let own = solids.get(aid.part.name.as_str()).filter(|_| aid.kind == AidKind::TrialPrint);
        own.copied()
    };
    let shaped: Vec<(&Aid, Result<Shape, String>)> =
        aids.made.par_iter().map(|aid| (aid, shape(aid, known(aid)))).collect();
    let mut left_out = aids.left_out.clone();
    let mut good = Vec::new();
    for (aid, found) in shaped {
        match found {
            Ok((solid, mesh)) => good.push((aid, solid, mesh)),
            Err(why) => left_out.push(LeftOut {
                kind: aid.kind,
                name: aid.part.name.clone(),
                of: aid.of.join(" "),
                why: format!("shape: {why}"),
            }),
        }
    }
    let made = good.par_iter().map(|(aid, solid, mesh)| files(aid, solid, mesh, step)).collect();
    let (mut entries, written): (Vec<_>, Vec<_>) = super::all(made)?.into_iter().unzip();
    entries.extend(left_out.iter().map(AidEntry::left_out));
    Ok((entries, written.into_iter().flatten().collect()))
}

/// Solid and mesh of an aid.
fn shape(aid: &Aid, known: Option<&Solid>) -> Result<Shape, String> {
    let solid = match (known, &aid.part.recipe) {
        (Some(solid), _) => solid.clone(),
        (None, Some(recipe)) => build(recipe).map_err(|e| e.to_string())?,
        (None, None) => return Err("it has none".to_owned()),
    };
    let mesh = mesh(&solid).map_err(|e| e.to_string())?;
    Ok((solid, mesh))
}

fn files(aid: &Aid, solid: &Solid, mesh: &Mesh, step: &StepOptions) -> Result<Made, Vec<Diagnostic>> {
    let name = &aid.part.name;
    let standing = Standing::of(aid.kind, mesh);
    let mesh = &standing.put(mesh);
    let told: Vec<&str> = std::iter::once(aid.part.title.as_str())
        .chain(aid.part.notes.iter().chain(&aid.part.cautions).map(String::as_str))
        .collect();
    let package = threemf(mesh, name, &told.join(" "))
        .map_err(|e| vec![Diagnostic::error("swept::internal", format!("prints/{name}.3mf: {e}"))])?;
    let mut files =
        vec![(format!("prints/{name}.3mf"), package), (format!("prints/{name}.stl"), stl(mesh, name))];
    if aid.kind != AidKind::TrialPrint {
        files.push((format!("prints/{name}.step"), part_step(&aid.part, solid, step).into_bytes()));
    }
    let paths = files.iter().map(|f| f.0.clone()).collect();
    let entry = AidEntry {
        stands: standing.entry(),
        ..AidEntry::made(aid, &measured(&measure(solid)), mesh.triangles.len(), paths)
    };
    Ok((entry, files))
}
