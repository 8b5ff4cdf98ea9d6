//! Files of the workshop's aids: 3MF and STL, and STEP of those that are no part of the engine.

use super::measured;
use crate::diagnostic::Diagnostic;
use crate::export::aids::AidEntry;
use crate::export::mesh::{stl::stl, threemf::threemf};
use crate::export::step::{StepOptions, part_step};
use crate::parts::aids::{Aid, AidKind, Aids};
use crate::parts::part::Part;
use crate::shape::measure::measure;
use crate::shape::mesh::mesh;
use crate::shape::solid::{Solid, build};
use rayon::prelude::*;

/// Files of one aid with its entry.
type Made = (AidEntry, Vec<(String, Vec<u8>)>);

/// Entries and files of all aids; `solids` are those of the engine's parts.
pub(super) fn work(
    aids: &Aids,
    solids: &[(&Part, &Solid)],
    step: &StepOptions,
) -> Result<(Vec<AidEntry>, Vec<(String, Vec<u8>)>), Vec<Diagnostic>> {
    let known = |aid: &Aid| {
        let own =
            |(part, _): &&(&Part, &Solid)| aid.kind == AidKind::TrialPrint && part.name == aid.part.name;
        solids.iter().find(own).map(|(_, solid)| *solid)
    };
    let made: Vec<Result<Made, Vec<Diagnostic>>> =
        aids.made.par_iter().map(|aid| one(aid, known(aid), step)).collect();
    let mut entries = Vec::new();
    let mut files = Vec::new();
    for (entry, own) in super::all(made)? {
        entries.push(entry);
        files.extend(own);
    }
    entries.extend(aids.left_out.iter().map(AidEntry::left_out));
    Ok((entries, files))
}

fn one(aid: &Aid, known: Option<&Solid>, step: &StepOptions) -> Result<Made, Vec<Diagnostic>> {
    let name = &aid.part.name;
    let wrong = |e: &dyn std::fmt::Display| {
        let text = format!("{} {name}: {e}", aid.kind.words());
        vec![
            Diagnostic::error("swept::print", text)
                .hint("this is a fault of the program: please report the design"),
        ]
    };
    let built = match (known, &aid.part.recipe) {
        (None, Some(recipe)) => Some(build(recipe).map_err(|e| wrong(&e))?),
        _ => None,
    };
    let Some(solid) = known.or(built.as_ref()) else { return Err(wrong(&"it has no shape")) };
    let mesh = mesh(solid).map_err(|e| wrong(&e))?;
    let mut files = vec![
        (format!("prints/{name}.3mf"), threemf(&mesh, name).map_err(|e| wrong(&e))?),
        (format!("prints/{name}.stl"), stl(&mesh, name)),
    ];
    if aid.kind != AidKind::TrialPrint {
        files.push((format!("prints/{name}.step"), part_step(&aid.part, solid, step).into_bytes()));
    }
    let paths = files.iter().map(|f| f.0.clone()).collect();
    let entry = AidEntry::made(aid, &measured(&measure(solid)), mesh.triangles.len(), paths);
    Ok((entry, files))
}
