//! The whole way from a design to the set of output files, as bytes; nothing here touches the disk.
//!
//! A part's files depend on nothing but the part, so parts are worked on side by side; results are
//! collected in the order of the parts, so that timing never shows in the output.

mod aids;

use crate::checks;
use crate::design::{self, Design, DxfVersion, Projection, Sheet, StepSchema};
use crate::diagnostic::Diagnostic;
use crate::drawing::audit::{self as sheet_audit, Fault, incomplete};
use crate::drawing::pdf::{self, About};
use crate::drawing::template::{Template, TemplatePaper, pages};
use crate::drawing::{
    self, Assembly, DrawingError, Lists, Paper, Projection as Method, Sheet as DrawnSheet, SheetOptions,
    Units, lettering,
};
use crate::export::aids::AidEntry;
use crate::export::cutfile::{Compensation, CutFile, CutOptions, Stroke, cut_file};
use crate::export::decided::decided;
use crate::export::folder::{Files, list_of};
use crate::export::geometry;
use crate::export::listing::MANIFEST;
use crate::export::manifest::{Build, Manifest, Measured, PartEntry};
use crate::export::revision::{Issue, Record, Revision, record};
use crate::export::step::{Schema, StepOptions, assembly_step, measured_step, part_step, set_up_step};
use crate::export::{audit, dxf, layers::Layers, outline_svg, setups, stock, tables};
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

mod sheets;

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
    /// All sheets of the drawing set.
    pub sheets: Vec<DrawnSheet>,
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
    revisions: Vec<Revision>,
    said: Vec<Diagnostic>,
}

/// Builds all files of a design as a first issue: see [`build_over`].
///
/// # Errors
/// See [`build_over`].
pub fn build(design: &Design, title_block: Option<&str>) -> Result<Built, Vec<Diagnostic>> {
    build_over(design, title_block, None)
}

/// Builds all files of a design; `title_block` is the text of a title block template in place of the built-in one, `before`
/// the set over which this one is built: drawings of parts that differ from it get a new revision.
///
/// # Errors
/// Every rule that the design breaks, in sizing, in the shape of a part, in a cut file or on a drawing.
pub fn build_over(
    design: &Design,
    title_block: Option<&str>,
    before: Option<&Manifest>,
) -> Result<Built, Vec<Diagnostic>> {
    let design = &*settled(design);
    // the point that the target asks for; where the full model has no answer, the isothermal one
    let mut sized = at_target(design).or_else(|_| size(design))?;
    let mut set = part_set(&sized.engine, &design.workshop, design.outputs.crank_angle_deg.value);
    let passing = passing(&sized.engine);
    inspect_set(design, &mut sized, &set, &passing)?;
    checks::accept::note(&sized.answer.checks, &mut set);
    let mut job =
        Job { design, sized: &sized, set: &set, step: step_options(design), title_block, before, sheets: 0 };
    let order = job.laid_out()?;
    let nests = match job.nests() {
        Ok(nests) => nests,
        // each part tells its own fault better than the sheet that it lies on
        Err(said) => return Err(all(job.parts()).err().unwrap_or(said)),
    };
    let stock = stock::lines(&set, &sized.engine.catalogue, &design.workshop, &nests);
    let lists = job.lists(&stock)?;
    // one more is the exploded view
    job.sheets = made_count(&set.parts) + 1 + order.count() + lists.count();
    let mut worked = all(job.parts())?;
    // after the shapes: a shape that cannot be is told by itself
    let failed = checks::accept::failed(design, &sized.engine.ledger, &sized.answer.checks);
    if !failed.is_empty() {
        return Err(failed);
    }
    let mut files: Files = worked.iter().flat_map(|w| w.files.iter().cloned()).collect();
    let sheets = worked.iter_mut().filter_map(|w| w.sheet.take()).collect();
    let solids: Vec<(&Part, (&Solid, &Measure))> =
        worked.iter().filter_map(|w| w.solid.as_ref().map(|(s, m)| (w.part, (s, m)))).collect();
    let assembly = assembly_step(&sized.engine.name, &solids, &set.instances, &job.step);
    files.insert("step/assembly.step".into(), assembly.into_bytes());
    files.extend(job.sheets(&nests)?);
    let by_name = solids.iter().map(|(part, (solid, _))| (part.name.as_str(), *solid)).collect();
    let (aids, prints) = aids::work(&aids_of(&set, design), &by_name, &job.step)?;
    files.extend(prints);
    let sheets = job.all_sheets(sheets, &by_name, order, lists)?;
    files.extend(job.drawings(&sheets)?);
    let measures = worked.iter().filter_map(|w| Some((w.part, &w.solid.as_ref()?.1)));
    files.insert("tables/setups.csv".into(), setups::csv(measures).map_err(internal)?);
    files.insert("tables/stock.csv".into(), stock::csv(&stock).map_err(internal)?);
    let sheets_of = worked.iter().filter(|w| !w.revisions.is_empty());
    let revisions = sheets_of.map(|w| (w.part.name.clone(), w.revisions.clone())).collect();
    let revisions = record(revisions, before);
    let manifest = list(&mut files, &sized, &set, &worked, (passing, aids, revisions), design)?;
    let mut warnings = sized.warnings.clone();
    warnings.extend(checks::all(design, &sized.engine, &set));
    warnings.extend(nests.iter().flat_map(|nest| sheets::too_large(design, nest)));
    warnings.extend(worked.iter().flat_map(|w| w.said.iter().cloned()));
    drop(worked);
    Ok(Built { sized, set, files, manifest, sheets, warnings })
}

/// What every part's work needs to know.
struct Job<'a> {
    design: &'a Design,
    sized: &'a Sized,
    set: &'a PartSet,
    step: StepOptions,
    title_block: Option<&'a str>,
    /// The set over which this one is built.
    before: Option<&'a Manifest>,
    /// How many sheets there are.
    sheets: usize,
}

impl<'a> Job<'a> {
    /// The work on every part.
    fn parts(&self) -> Vec<Result<Worked<'a>, Vec<Diagnostic>>> {
        self.set.parts.par_iter().enumerate().map(|(i, part)| self.work(part, i)).collect()
    }

    /// Solid, measures and all files of one part; `index` counts the parts of the set.
    fn work(&self, part: &'a Part, index: usize) -> Result<Worked<'a>, Vec<Diagnostic>> {
        let Some(recipe) = &part.recipe else {
            return Ok(Worked {
                part,
                solid: None,
                sizes: Vec::new(),
                files: Vec::new(),
                sheet: None,
                revisions: Vec::new(),
                said: Vec::new(),
            });
        };
        let solid = build_solid(recipe).map_err(|e| vec![self.shape_error(part, &e)])?;
        let measure = measure(&solid);
        let mut files = vec![(
            format!("step/{}.step", part.name),
            measured_step(part, (&solid, &measure), &self.step).into_bytes(),
        )];
        files.extend(setups::several(part).iter().map(|set_up| {
            (
                setups::path(part, set_up),
                set_up_step(part, (&solid, &measure), set_up, &self.step).into_bytes(),
            )
        }));
        if let Some(blank) = &part.blank {
            let bar = blank.solid().map_err(|e| vec![self.shape_error(part, &e)])?;
            let text = part_step(&blanks::stock(part), &bar, &self.step);
            files.push((format!("blanks/{}.step", part.name), text.into_bytes()));
        }
        if part.flat {
            files.extend(self.outlines(part)?);
        }
        let sizes = recipe.sizes();
        let (sheet, revisions) = match part.supply {
            Supply::Make => {
                files.extend(self.templates(part)?);
                let entry = PartEntry::alone(part, measured(&measure), sizes.clone());
                let revisions = self.issue().of(&entry, self.before);
                let drawn = self.drawing(part, (&solid, &measure), index, &revisions)?;
                (Some(drawn), revisions)
            }
            _ => (None, Vec::new()),
        };
        let faults = sheet
            .iter()
            .flat_map(|s| incomplete(s, recipe).into_iter().chain(sheet_audit::geometry(s, part)));
        let said = faults.map(|f| not_whole(part, &f)).collect();
        Ok(Worked { part, sizes, solid: Some((solid, measure)), files, sheet, revisions, said })
    }

    /// DXF and 1:1 SVG of a flat part.
    fn outlines(&self, part: &Part) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let options = CutOptions { lettering: Some(&letters), ..self.cutter() };
        let file = cut_file(part, &options).map_err(|e| vec![cut_error(self.design, &e.to_string())])?;
        let findings = audit::audit(&file);
        if !findings.is_empty() {
            return Err(findings.iter().map(|f| cut_error(self.design, &f.to_string())).collect());
        }
        self.cut(&file)
    }

    /// How flat parts are cut.
    fn cutter(&self) -> CutOptions<'static> {
        let shop = &self.design.workshop;
        let compensation = match (shop.kerf_mm.value, shop.knife_mm.value) {
            (kerf, _) if kerf > 0.0 => Compensation::Kerf(kerf),
            (_, knife) if knife > 0.0 => Compensation::Knife(knife),
            _ => Compensation::Nominal,
        };
        CutOptions { compensation, ..CutOptions::default() }
    }

    /// How flat parts stand on paper.
    fn punched(&self) -> CutOptions<'static> {
        CutOptions {
            smallest_hole_mm: Some(self.design.outputs.punch_below_mm.value),
            reference: false,
            ..CutOptions::default()
        }
    }

    /// DXF and 1:1 SVG of a cut file.
    fn cut(&self, file: &CutFile) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let version = match self.design.outputs.dxf_version.value {
            DxfVersion::R2000 => dxf::Version::R2000,
            DxfVersion::R12 => dxf::Version::R12,
        };
        let layers = Layers::default();
        let drawn = dxf::dxf(file, &layers, version).map_err(|e| vec![cut_error(self.design, &e)])?;
        let stem = file.stem();
        Ok(vec![
            (format!("outlines/{stem}.dxf"), drawn),
            (format!("outlines/{stem}.svg"), outline_svg::svg(file, &layers)),
        ])
    }

    /// Templates of a part on paper: a PDF for each, the pages of drilling templates as SVG too (flat parts have theirs among
    /// the outlines).
    fn templates(&self, part: &Part) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let mut found = Template::drilling(part);
        if part.flat {
            let cut =
                cut_file(part, &self.punched()).map_err(|e| vec![cut_error(self.design, &e.to_string())])?;
            found.push(Template::of_flat(&cut));
        }
        let files = found.iter().map(|template| self.template(template, !part.flat)).collect();
        Ok(all(files)?.into_iter().flatten().collect())
    }

    /// One template as PDF, and its pages as SVG where they are wanted.
    fn template(&self, template: &Template, as_svg: bool) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let paper = match self.design.outputs.template_paper.value {
            design::TemplatePaper::A4 => TemplatePaper::A4,
            design::TemplatePaper::Letter => TemplatePaper::Letter,
        };
        let sheets = pages(template, paper, &self.sized.engine.name);
        let about = About { title: &template.title, author: &self.design.drawings.creator.value };
        let bytes = pdf::write(&sheets, &about).map_err(|e| not_drawn(&template.name, &e))?;
        let mut files = vec![(format!("templates/{}.pdf", template.name), bytes)];
        for sheet in sheets.iter().filter(|_| as_svg) {
            let text = sheet.svg().map_err(|e| not_drawn(&sheet.name, &e))?;
            files.push((format!("templates/{}.svg", sheet.name), text.into_bytes()));
        }
        Ok(files)
    }

    /// Drawing sheet of a part.
    fn drawing(
        &self,
        part: &Part,
        (solid, measure): (&Solid, &Measure),
        index: usize,
        revisions: &[Revision],
    ) -> Result<DrawnSheet, Vec<Diagnostic>> {
        let mass_g = measure.volume_mm3 * part.material.drawn_kg_m3() * 1e-6;
        let mut options = self.sheet_options(Some(mass_g), made_count(&self.set.parts[..=index]));
        options.revisions = revisions.to_vec();
        if let Some(newest) = revisions.last() {
            options.revision = newest.index.clone();
        }
        drawing::sheet_of(part, solid, &options).map_err(|e| not_drawn(&part.name, &e))
    }

    /// What the design says of the issue that is built.
    fn issue(&self) -> Issue<'a> {
        let d = &self.design.drawings;
        let own = d.revision.is_given().then_some(d.revision.value.as_str());
        Issue { index: own.filter(|index| !index.is_empty()), date: &d.date.value }
    }

    /// The order of assembly, laid out on sheets.
    fn laid_out(&self) -> Result<Assembly, Vec<Diagnostic>> {
        Assembly::of(self.set, &self.sheet_options(None, 1)).map_err(not_laid_out)
    }

    /// All sheets: those of the parts, then the exploded view and the order of assembly, then the lists.
    fn all_sheets(
        &self,
        mut sheets: Vec<DrawnSheet>,
        solids: &BTreeMap<&str, &Solid>,
        order: Assembly,
        lists: Lists,
    ) -> Result<Vec<DrawnSheet>, Vec<Diagnostic>> {
        let next = |sheets: &[DrawnSheet]| self.sheet_options(None, sheets.len() + 1);
        sheets.push(drawing::exploded::sheet(self.set, solids, &next(&sheets)).map_err(not_laid_out)?);
        sheets.extend(order.sheets(&next(&sheets)).map_err(not_laid_out)?);
        sheets.extend(lists.sheets(&next(&sheets)).map_err(not_laid_out)?);
        Ok(sheets)
    }

    /// All sheets, each as SVG and all in one PDF.
    fn drawings(&self, sheets: &[DrawnSheet]) -> Result<Vec<(String, Vec<u8>)>, Vec<Diagnostic>> {
        let svg = |sheet: &DrawnSheet| {
            let text = sheet.svg().map_err(|e| not_drawn(&sheet.name, &e))?;
            Ok((format!("drawings/{}.svg", sheet.name), text.into_bytes()))
        };
        let mut files = all(sheets.par_iter().map(svg).collect())?;
        let about = About { title: &self.sized.engine.name, author: &self.design.drawings.creator.value };
        let one = pdf::write(sheets, &about).map_err(|e| not_drawn("the set", &e))?;
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
        let units = match d.units.value {
            design::Units::Mm => Units::Mm,
            design::Units::MmAndInch => Units::MmAndInch,
        };
        SheetOptions {
            projection,
            paper,
            units,
            owner: d.owner.value.clone(),
            creator: d.creator.value.clone(),
            approver: d.approver.value.clone(),
            date: d.date.value.clone(),
            revision: d.revision.value.clone(),
            revisions: Vec::new(),
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

/// Single-stroke lettering for cut files.
fn letters(text: &str, height: f64) -> Result<Vec<Stroke>, String> {
    lettering::strokes(text, height).map_err(|e| format!("no strokes for the character {:?}", e.0))
}

/// A sheet that cannot be drawn.
fn not_drawn(name: &str, error: &DrawingError) -> Vec<Diagnostic> {
    let text = format!("the drawing of {name} cannot be laid out: {error}");
    vec![Diagnostic::error("swept::drawing", text).hint("choose a larger sheet: set drawings.sheet = \"A2\"")]
}

/// A sheet that does not say everything once.
fn not_whole(part: &Part, fault: &Fault) -> Diagnostic {
    Diagnostic::warning("swept::drawing", format!("{}: {fault}", part.name))
        .hint("take the size from build.json or the STEP file, and report the design that brought this about")
}

/// Steps that no sheet holds.
fn not_laid_out(error: DrawingError) -> Vec<Diagnostic> {
    vec![Diagnostic::error(
        "swept::drawing",
        format!("order of assembly and lists cannot be laid out: {error}"),
    )]
}

/// A fault of the program.
fn internal(error: String) -> Vec<Diagnostic> {
    vec![Diagnostic::error("swept::internal", error)]
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
    parts.iter().filter(|p| p.is_drawn()).count()
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
    (passing, aids, revisions): (Vec<Passing>, Vec<AidEntry>, Record),
    design: &Design,
) -> Result<Manifest, Vec<Diagnostic>> {
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
                revisions: revisions.clone(),
                files: list_of(files),
            },
        )
    };
    let first = manifest(files);
    files.insert("tables/parts.csv".into(), tables::parts(&first).map_err(internal)?);
    files.insert("tables/holes.csv".into(), tables::holes(&first).map_err(internal)?);
    files.insert("tables/geometry.csv".into(), geometry::csv(&first).map_err(internal)?);
    files.insert("tables/checks.csv".into(), tables::checks(&first).map_err(internal)?);
    files.insert("tables/aids.csv".into(), tables::aids(&first).map_err(internal)?);
    let last = manifest(files);
    files.insert(MANIFEST.into(), last.to_json().map_err(internal)?);
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
