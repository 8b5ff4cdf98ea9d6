//! Sheets from which several flat parts are cut.

use super::{Job, all, cut_error, letters};
use crate::design::Design;
use crate::diagnostic::Diagnostic;
use crate::drawing::template::Template;
use crate::export::cutfile::CutOptions;
use crate::export::nest::{Nested, groups, nested};
use rayon::prelude::*;

impl Job<'_> {
    /// Gaskets, and other flat parts of which there are several, together on the workshop's sheets.
    pub(super) fn nests(&self) -> Result<Vec<Nested<'_>>, Vec<Diagnostic>> {
        let groups = groups(self.set, &self.sized.engine.catalogue);
        let lay = |group| {
            let lettered = |options| CutOptions { lettering: Some(&letters), ..options };
            nested(group, &self.design.workshop, &lettered(self.cutter()), &lettered(self.punched()))
        };
        let found = groups.into_par_iter().map(lay);
        all(found.map(|r| r.map_err(|e| vec![cut_error(self.design, &e.to_string())])).collect())
    }

    /// Cut files and templates of the sheets.
    pub(super) fn sheets(&self, nests: &[Nested]) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let mut files = Vec::new();
        for nest in nests.iter().filter(|nest| nest.is_worth_a_file()) {
            for file in &nest.cut {
                files.extend(self.cut(file)?);
            }
            for file in &nest.paper {
                files.extend(self.template(&Template::of_flat(file), false)?);
            }
        }
        Ok(files)
    }
}

/// Flat parts for which the sheet is too small.
pub(super) fn too_large(design: &Design, nest: &Nested) -> Vec<Diagnostic> {
    let shop = &design.workshop;
    let sheet = format!("{} mm x {} mm", shop.sheet_width_mm.value, shop.sheet_length_mm.value);
    let warn = |part: &String| {
        let text = format!("{part} does not fit on a sheet of {sheet} and is on none of the sheets to cut");
        let said = Diagnostic::warning("swept::sheet", text)
            .hint("set workshop.sheet_width and workshop.sheet_length to the sheet that you have");
        match ["workshop.sheet_width", "workshop.sheet_length"].iter().find_map(|path| design.place(path)) {
            Some(place) => said.at(place.clone()),
            None => said,
        }
    };
    nest.left_out.iter().filter(|_| nest.group.is_gasket).map(warn).collect()
}
