//! Sheets from which several flat parts are cut.

use super::{Job, all, cut_error, letters, not_laid_out};
use crate::design::Design;
use crate::diagnostic::Diagnostic;
use crate::drawing::template::Template;
use crate::drawing::{List, Lists};
use crate::export::cutfile::CutOptions;
use crate::export::nest::{Nested, groups, nested};
use crate::export::stock::Line;
use rayon::prelude::*;

impl<'a> Job<'a> {
    /// Gaskets, and other flat parts of which there are several, together on the workshop's sheets.
    pub(super) fn nests(&self) -> Result<Vec<Nested<'a>>, Vec<Diagnostic>> {
        let groups = groups(self.set, &self.sized.engine.catalogue);
        let lay = |group| {
            let lettered = |options| CutOptions { lettering: Some(&letters), ..options };
            nested(group, &self.design.workshop, &lettered(self.cutter()), &lettered(self.punched()))
        };
        let found = groups.into_par_iter().map(lay);
        all(found.map(|r| r.map_err(|e| vec![cut_error(self.design, &e.to_string())])).collect())
    }

    /// Parts list and stock to buy, laid out on sheets.
    pub(super) fn lists(&self, stock: &[Line]) -> Result<Lists, Vec<Diagnostic>> {
        let lists = [List::of_parts(self.set), to_buy(stock)];
        Lists::of(&lists, &self.sheet_options(None, 1)).map_err(not_laid_out)
    }

    /// Cut files and templates of the sheets.
    pub(super) fn sheets(&self, nests: &[Nested]) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let of = |nest: &Nested| {
            let cut = nest.cut.iter().map(|file| self.cut(file));
            let paper = nest.paper.iter().map(|file| self.template(&Template::of_flat(file), false));
            all(cut.chain(paper).collect())
        };
        let written = nests.par_iter().filter(|nest| nest.is_worth_a_file()).map(of).collect();
        Ok(all(written)?.into_iter().flatten().flatten().collect())
    }
}

/// The stock to buy as a list.
fn to_buy(stock: &[Line]) -> List {
    let row = |line: &Line| {
        let size = match (line.size.is_empty(), line.total_mm) {
            (true, Some(total)) => format!("{:.0} mm long", total.ceil()),
            (true, None) => String::new(),
            (false, _) => format!("{} mm", line.size),
        };
        // a bar of unknown length: one length
        let count = line.to_buy.or(line.total_mm.map(|_| 1)).map(|n| n.to_string()).unwrap_or_default();
        let cuts = line.cuts.iter().map(String::as_str);
        let cuts: Vec<&str> = cuts.chain((!line.note.is_empty()).then_some(&*line.note)).collect();
        vec![line.material.clone(), line.section.clone(), cuts.join("; "), size, count]
    };
    List {
        name: "stock-list",
        title: "Stock to buy",
        columns: vec![
            ("Material", 46.0),
            ("Section, mm", 26.0),
            ("Count, length in mm, part", 56.0),
            ("Length or sheet", 26.0),
            ("Qty", 12.0),
        ],
        rows: stock.iter().map(row).collect(),
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
