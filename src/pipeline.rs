//! The whole way from a design to the set of output files, as bytes; nothing here touches the disk.
//!
//! A part's files depend on nothing but the part, so parts are worked on side by side; results are
//! collected in the order of the parts, so that timing never shows in the output.

mod aids;

use crate::checks;
use crate::design::{self, Design, DxfVersion, Projection, Sheet, StepSchema};
use crate::diagnostic::Diagnostic;
use crate::drawing::pdf::{self, About};
use crate::drawing::template::{Template, TemplatePaper, pages};
use crate::drawing::{
    self, Assembly, DrawingError, Paper, Projection as Method, Sheet as DrawnSheet, SheetOptions, lettering,
};
use crate::export::aids::AidEntry;
use crate::export::cutfile::{Compensation, CutOptions, cut_file};
use crate::export::decided::decided;
use crate::export::folder::{Files, list_of};
use crate::export::listing::MANIFEST;
use crate::export::manifest::{Build, Manifest, Measured};
use crate::export::step::{Schema, StepOptions, assembly_step, part_step};
use crate::export::{audit, dxf, layers::Layers, outline_svg, tables};
use crate::parts::aids::aids as aids_of;
use crate::parts::part::{Part, PartSet, Supply};
use crate::parts::{blanks, part_set};
use crate::shape::measure::{Measure, measure};
use crate::shape::recipe::Size;
use crate::shape::solid::{Solid, SolidError, build as build_solid};
use crate::sizing::answer::{Sized, at_target, size};
use crate::sizing::blame::place;
use crate::sizing::drive_train::settled;
use crate::sizing::inspect::moving::{Passing, passing};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Adds the checks of a builder to a sized engine, without building anything.
///
/// # Errors
/// Checks that the design accepts and that do not exist.
pub fn inspect(design: &Design, sized: &mut Sized) -> Result<(), Vec<Diagnostic>> {
    let set = part_set(&sized.engine, &design.workshop, design.outputs.crank_angle_deg.value);
    let passing = passing(&sized.engine);
    inspect_set(design, sized, &set, &passing)
}

fn inspect_set(
    design: &Design,
    sized: &mut Sized,
    set: &PartSet,
    passing: &[Passing],
) -> Result<(), Vec<Diagnostic>> {
    let mut all = checks::builder::checks(design, sized, set, passing);
    checks::accept::accept(design, &mut all)?;
    sized.answer.checks = all;
    Ok(())
}

/// Everything that a build makes.
#[derive(Debug)]
pub struct Built {
    /// The sized engine.
    pub sized: Sized,
    /// The parts in their places.
    pub set: PartSet,
    /// Path in the output folder → content, the manifest included.
    pub files: Files,
    /// The manifest.
    pub manifest: Manifest,
    /// What the user should know.
    pub warnings: Vec<Diagnostic>,
}

/// One part with what was made of it.
struct Worked<'a> {
    part: &'a Part,
    solid: Option<(Solid, Measure)>,
    sizes: Vec<Size>,
    files: Vec<(String, Vec<u8>)>,
    sheet: Option<DrawnSheet>,
}

/// Builds all files of a design; `title_block` is the text of a title block template in place of the built-in one.
///
/// # Errors
/// Every rule that the design breaks, in sizing, in the shape of a part, in a cut file or on a drawing.
pub fn build(design: &Design, title_block: Option<&str>) -> Result<Built, Vec<Diagnostic>> {
    let design = &*settled(design);
    // the point that the target asks for; where the full model has no answer, the isothermal one
    let mut sized = at_target(design).or_else(|_| size(design))?;
    let mut set = part_set(&sized.engine, &design.workshop, design.outputs.crank_angle_deg.value);
    let passing = passing(&sized.engine);
    inspect_set(design, &mut sized, &set, &passing)?;
    checks::accept::note(&sized.answer.checks, &mut set);
    let mut job =
        Job { design, sized: &sized, set: &set, step: step_options(design), title_block, sheets: 0 };
    let order = job.laid_out()?;
    job.sheets = made_count(&set.parts) + order.count();
    let worked: Vec<Result<Worked, Vec<Diagnostic>>> =
        set.parts.par_iter().enumerate().map(|(i, part)| job.work(part, i)).collect();
    let mut worked = all(worked)?;
    // after the shapes: a shape that cannot be is told by itself
    let failed = checks::accept::failed(design, &sized.engine.ledger, &sized.answer.checks);
    if !failed.is_empty() {
        return Err(failed);
    }
    let mut files: Files = worked.iter().flat_map(|w| w.files.iter().cloned()).collect();
    let solids: Vec<(&Part, &Solid)> =
        worked.iter().filter_map(|w| Some((w.part, &w.solid.as_ref()?.0))).collect();
    let assembly = assembly_step(&sized.engine.name, &solids, &set.instances, &job.step);
    files.insert("step/assembly.step".into(), assembly.into_bytes());
    let (aids, prints) = aids::work(&aids_of(&set, design), &solids, &job.step)?;
    files.extend(prints);
    let sheets = worked.iter_mut().filter_map(|w| w.sheet.take()).collect();
    files.extend(job.drawings(sheets, order)?);
    let manifest = list(&mut files, &sized, &set, &worked, (passing, aids), design)?;
    let mut warnings = sized.warnings.clone();
    warnings.extend(checks::all(design, &sized.engine, &set));
    drop(worked);
    Ok(Built { sized, set, files, manifest, warnings })
}

/// What every part's work needs to know.
struct Job<'a> {
    design: &'a Design,
    sized: &'a Sized,
    set: &'a PartSet,
    step: StepOptions,
    title_block: Option<&'a str>,
    /// How many sheets there are.
    sheets: usize,
}

impl Job<'_> {
    /// Solid, measures and all files of one part; `index` counts the parts of the set.
    fn work<'a>(&self, part: &'a Part, index: usize) -> Result<Worked<'a>, Vec<Diagnostic>> {
        let Some(recipe) = &part.recipe else {
            return Ok(Worked { part, solid: None, sizes: Vec::new(), files: Vec::new(), sheet: None });
        };
        let solid = build_solid(recipe).map_err(|e| vec![self.shape_error(part, &e)])?;
        let measure = measure(&solid);
        let mut files =
            vec![(format!("step/{}.step", part.name), part_step(part, &solid, &self.step).into_bytes())];
        if let Some(blank) = &part.blank {
            let bar = blank.solid().map_err(|e| vec![self.shape_error(part, &e)])?;
            let text = part_step(&blanks::stock(part), &bar, &self.step);
            files.push((format!("blanks/{}.step", part.name), text.into_bytes()));
        }
        if part.flat {
            files.extend(self.outlines(part)?);
        }
        let sheet = match part.supply {
            Supply::Make => {
                files.extend(self.templates(part)?);
                Some(self.drawing(part, &measure, index)?)
            }
            _ => None,
        };
        Ok(Worked { part, sizes: recipe.sizes(), solid: Some((solid, measure)), files, sheet })
    }

    /// DXF and 1:1 SVG of a flat part.
    fn outlines(&self, part: &Part) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let shop = &self.design.workshop;
        let compensation = match (shop.kerf_mm.value, shop.knife_mm.value) {
            (kerf, _) if kerf > 0.0 => Compensation::Kerf(kerf),
            (_, knife) if knife > 0.0 => Compensation::Knife(knife),
            _ => Compensation::Nominal,
        };
        let letters = |text: &str, height: f64| {
            lettering::strokes(text, height).map_err(|e| format!("no strokes for the character {:?}", e.0))
        };
        let options = CutOptions { compensation, lettering: Some(&letters), ..CutOptions::default() };
        let file = cut_file(part, &options).map_err(|e| vec![cut_error(self.design, &e.to_string())])?;
        let findings = audit::audit(&file);
        if !findings.is_empty() {
            return Err(findings.iter().map(|f| cut_error(self.design, &f.to_string())).collect());
        }
        let version = match self.design.outputs.dxf_version.value {
            DxfVersion::R2000 => dxf::Version::R2000,
            DxfVersion::R12 => dxf::Version::R12,
        };
        let layers = Layers::default();
        let drawn = dxf::dxf(&file, &layers, version).map_err(|e| vec![cut_error(self.design, &e)])?;
        let stem = file.stem();
        Ok(vec![
            (format!("outlines/{stem}.dxf"), drawn),
            (format!("outlines/{stem}.svg"), outline_svg::svg(&file, &layers)),
        ])
    }

    /// Templates of a part on paper: a PDF for each, the pages of drilling templates as SVG too (flat parts have theirs among
    /// the outlines).
    fn templates(&self, part: &Part) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let punched = CutOptions {
            smallest_hole_mm: Some(self.design.outputs.punch_below_mm.value),
            reference: false,
            ..CutOptions::default()
        };
        let paper = match self.design.outputs.template_paper.value {
            design::TemplatePaper::A4 => TemplatePaper::A4,
            design::TemplatePaper::Letter => TemplatePaper::Letter,
        };
        let mut files = Vec::new();
        let mut found = Template::drilling(part);
        if part.flat {
            let cut = cut_file(part, &punched).map_err(|e| vec![cut_error(self.design, &e.to_string())])?;
            found.push(Template::of_flat(&cut));
        }
        for template in &found {
            let sheets = pages(template, paper, &self.sized.engine.name);
            let about = About { title: &template.title, author: &self.design.drawings.creator.value };
            let bytes = pdf::write(&sheets, &about).map_err(|e| not_drawn(&template.name, &e))?;
            files.push((format!("templates/{}.pdf", template.name), bytes));
            for sheet in sheets.iter().filter(|_| !part.flat) {
                let text = sheet.svg().map_err(|e| not_drawn(&sheet.name, &e))?;
                files.push((format!("templates/{}.svg", sheet.name), text.into_bytes()));
            }
        }
        Ok(files)
    }

    /// Drawing sheet of a part.
    fn drawing(&self, part: &Part, measure: &Measure, index: usize) -> Result<DrawnSheet, Vec<Diagnostic>> {
        let mass_g = measure.volume_mm3 * part.material.drawn_kg_m3() * 1e-6;
        let options = self.sheet_options(Some(mass_g), made_count(&self.set.parts[..=index]));
        drawing::sheet(part, &options).map_err(|e| not_drawn(&part.name, &e))
    }

    /// The order of assembly, laid out on sheets.
    fn laid_out(&self) -> Result<Assembly, Vec<Diagnostic>> {
        Assembly::of(&self.set.steps, &self.sheet_options(None, 1)).map_err(not_laid_out)
    }

    /// All sheets, each as SVG and all in one PDF: those of the parts, then the order of assembly.
    fn drawings(
        &self,
        mut sheets: Vec<DrawnSheet>,
        order: Assembly,
    ) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let first = sheets.len() + 1;
        sheets.extend(order.sheets(&self.sheet_options(None, first)).map_err(not_laid_out)?);
        let svg = |sheet: &DrawnSheet| {
            let text = sheet.svg().map_err(|e| not_drawn(&sheet.name, &e))?;
            Ok((format!("drawings/{}.svg", sheet.name), text.into_bytes()))
        };
        let mut files = all(sheets.par_iter().map(svg).collect())?;
        let about = About { title: &self.sized.engine.name, author: &self.design.drawings.creator.value };
        let one = pdf::write(&sheets, &about).map_err(|e| not_drawn("the set", &e))?;
        files.push(("drawings/all-sheets.pdf".into(), one));
        Ok(files)
    }

    /// What a sheet is told.
    fn sheet_options(&self, mass_g: Option<f64>, sheet: usize) -> SheetOptions {
        let d = &self.design.drawings;
        let paper = match d.sheet.value {
            Sheet::Auto => None,
            Sheet::A4 => Some(Paper::A4),
            Sheet::A3 => Some(Paper::A3),
            Sheet::A2 => Some(Paper::A2),
        };
        let projection = match d.projection.value {
            Projection::FirstAngle => Method::FirstAngle,
            Projection::ThirdAngle => Method::ThirdAngle,
        };
        SheetOptions {
            projection,
            paper,
            owner: d.owner.value.clone(),
            creator: d.creator.value.clone(),
            approver: d.approver.value.clone(),
            date: d.date.value.clone(),
            revision: d.revision.value.clone(),
            project: self.sized.engine.name.clone(),
            sheet,
            sheets: self.sheets,
            mass_g,
            template: self.title_block.map(str::to_owned),
        }
    }

    /// A shape that cannot be, told at the number of the design behind it.
    fn shape_error(&self, part: &Part, error: &SolidError) -> Diagnostic {
        let said = Diagnostic::error("swept::shape", format!("{}: {error}", part.name))
            .allowed("features that lie wholly inside their face, with metal between them")
            .hint("change the size that the excerpt points at, or leave it out so that sizing decides it");
        match error.feature().and_then(|name| self.origin_of(part, name)) {
            Some(place) => said.at(place.clone()),
            None => said,
        }
    }

    /// Place in the design of the number behind a feature.
    fn origin_of(&self, part: &Part, feature: &str) -> Option<&crate::diagnostic::Place> {
        let path = crate::parts::blame_path(&part.name, feature)?;
        place(self.design, &self.sized.engine.ledger, path)
    }
}

/// A sheet that cannot be drawn.
fn not_drawn(name: &str, error: &DrawingError) -> Vec<Diagnostic> {
    let text = format!("the drawing of {name} cannot be laid out: {error}");
    vec![Diagnostic::error("swept::drawing", text).hint("choose a larger sheet: set drawings.sheet = \"A2\"")]
}

/// Steps that no sheet holds.
fn not_laid_out(error: DrawingError) -> Vec<Diagnostic> {
    vec![Diagnostic::error("swept::drawing", format!("the order of assembly cannot be laid out: {error}"))]
}

/// All results, or all errors.
fn all<T>(results: Vec<Result<T, Vec<Diagnostic>>>) -> Result<Vec<T>, Vec<Diagnostic>> {
    let mut good = Vec::new();
    let mut bad = Vec::new();
    for result in results {
        match result {
            Ok(one) => good.push(one),
            Err(more) => bad.extend(more),
        }
    }
    if bad.is_empty() { Ok(good) } else { Err(bad) }
}

/// How many of these parts get a drawing.
fn made_count(parts: &[Part]) -> usize {
    parts.iter().filter(|p| p.recipe.is_some() && p.supply == Supply::Make).count()
}

/// A cut file that cannot be, told at the kerf or knife of the design.
fn cut_error(design: &Design, text: &str) -> Diagnostic {
    let said = Diagnostic::error("swept::outline", text)
        .allowed("a kerf or knife offset that leaves every hole and every web")
        .hint("make workshop.kerf or workshop.knife smaller, or leave it out");
    match ["workshop.kerf", "workshop.knife"].iter().find_map(|path| design.place(path)) {
        Some(place) => said.at(place.clone()),
        None => said,
    }
}

fn step_options(design: &Design) -> StepOptions {
    let schema = match design.outputs.step_schema.value {
        StepSchema::Ap214 => Schema::Ap214,
        StepSchema::Ap242 => Schema::Ap242,
    };
    let d = &design.drawings;
    StepOptions {
        schema,
        author: d.creator.value.clone(),
        organisation: d.owner.value.clone(),
        ..StepOptions::default()
    }
}

/// Adds tables and manifest to the files.
fn list(
    files: &mut Files,
    sized: &Sized,
    set: &PartSet,
    worked: &[Worked],
    (passing, aids): (Vec<Passing>, Vec<AidEntry>),
    design: &Design,
) -> Result<Manifest, Vec<Diagnostic>> {
    let wrong = |e: String| vec![Diagnostic::error("swept::internal", e)];
    let measured: BTreeMap<String, Measured> =
        worked.iter().filter_map(|w| Some((w.part.name.clone(), measured(&w.solid.as_ref()?.1)))).collect();
    let sizes: BTreeMap<String, Vec<Size>> =
        worked.iter().map(|w| (w.part.name.clone(), w.sizes.clone())).collect();
    let manifest = |files: &Files| {
        Manifest::new(
            set,
            &Build {
                design: &sized.engine.name,
                crank_angle_deg: design.outputs.crank_angle_deg.value,
                measured: measured.clone(),
                sizes: sizes.clone(),
                decided: decided(&sized.engine.ledger),
                checks: sized.answer.checks.clone(),
                passing: passing.clone(),
                aids: aids.clone(),
                files: list_of(files),
            },
        )
    };
    let first = manifest(files);
    files.insert("tables/parts.csv".into(), tables::parts(&first).map_err(wrong)?);
    files.insert("tables/holes.csv".into(), tables::holes(&first).map_err(wrong)?);
    files.insert("tables/checks.csv".into(), tables::checks(&first).map_err(wrong)?);
    files.insert("tables/aids.csv".into(), tables::aids(&first).map_err(wrong)?);
    let last = manifest(files);
    files.insert(MANIFEST.into(), last.to_json().map_err(wrong)?);
    Ok(last)
}

fn measured(m: &Measure) -> Measured {
    let f = m.faces;
    let faces = [
        ("plane", f.plane),
        ("cylinder", f.cylinder),
        ("cone", f.cone),
        ("torus", f.torus),
        ("sphere", f.sphere),
    ];
    Measured {
        volume_mm3: m.volume_mm3,
        area_mm2: m.area_mm2,
        centre_mm: [m.centre.x, m.centre.y, m.centre.z],
        bounding_box_mm: [[m.low.x, m.low.y, m.low.z], [m.high.x, m.high.y, m.high.z]],
        faces: faces.into_iter().filter(|(_, n)| *n > 0).map(|(k, n)| (k.to_owned(), n)).collect(),
    }
}
