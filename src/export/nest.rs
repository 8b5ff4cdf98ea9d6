//! Flat parts of one material and thickness on the workshop's sheets: what is cut from each sheet, as a cut file.
//!
//! Every piece that the engine needs is laid once. The lower left corner of the sheet is the origin of its file; its border
//! is drawn on the reference layer. Distances are those of the cut lines, the cutter's compensation included.

use super::beside::{self, short};
use super::contours;
use super::cutfile::{Contour, CutError, CutFile, CutOptions, PunchMark, Stroke, cut_file};
use crate::catalogue::Catalogue;
use crate::design::Workshop;
use crate::parts::part::{Part, PartSet, Supply};
use crate::shape::nest::{Flat, Placed, Sheet, nest};
use crate::shape::recipe::Body;
use crate::shape::{EuclideanSpace, Point2};
use std::collections::BTreeSet;

/// Flat parts that are cut from one kind of sheet.
#[derive(Clone, Debug)]
pub struct Group<'a> {
    /// Trade name of the material.
    pub material: String,
    /// Thickness of the parts; a gasket's when tightened \[mm\].
    pub thickness_mm: f64,
    /// Thickness of the sheet to buy \[mm\].
    pub sheet_mm: f64,
    /// Whether it is a sheet for gaskets.
    pub is_gasket: bool,
    /// The parts.
    pub parts: Vec<&'a Part>,
}

/// A group on its sheets.
#[derive(Clone, Debug)]
pub struct Nested<'a> {
    /// What is laid.
    pub group: Group<'a>,
    /// The sheets, for the cutter.
    pub cut: Vec<CutFile>,
    /// The sheets for paper: nominal, small holes to be punched.
    pub paper: Vec<CutFile>,
    /// Width and length of the least rectangle from the corner that holds all on a sheet, edge included \[mm\].
    pub used_mm: Vec<[f64; 2]>,
    /// Names of parts that are larger than the sheet.
    pub left_out: Vec<String>,
}

impl Group<'_> {
    /// How many pieces there are.
    pub fn pieces(&self) -> usize {
        self.parts.iter().map(|p| p.quantity).sum()
    }

    /// Area of all pieces, holes taken away \[mm²\].
    pub fn net_mm2(&self) -> f64 {
        let of = |c: &Contour| c.boundary.area().abs();
        let net = |p: &&Part| {
            let found = contours::of(p)?;
            Some(p.quantity as f64 * (of(&found.outline) - found.holes.iter().map(of).sum::<f64>()))
        };
        self.parts.iter().filter_map(net).sum()
    }

    /// Name of its files.
    fn name(&self) -> String {
        let kebab = self.material.to_lowercase().replace(|c: char| !c.is_ascii_alphanumeric(), "-");
        let words: Vec<&str> = kebab.split('-').filter(|w| !w.is_empty()).collect();
        format!("nest-{}-{}mm", words.join("-"), short(self.thickness_mm))
    }
}

impl Nested<'_> {
    /// Whether its sheets are written: gaskets always, other parts where there are several to lay.
    pub fn is_worth_a_file(&self) -> bool {
        self.group.is_gasket || self.group.pieces() > 1
    }
}

/// The groups of a set, in the order of their first parts.
pub fn groups<'a>(set: &'a PartSet, book: &Catalogue) -> Vec<Group<'a>> {
    let mut found: Vec<Group> = Vec::new();
    for part in set.parts.iter().filter(|p| p.flat && p.supply == Supply::Make) {
        let Some(thickness_mm) = thickness(part) else { continue };
        let same =
            |g: &&mut Group| g.material == part.material.name && (g.thickness_mm - thickness_mm).abs() < 1e-6;
        if let Some(group) = found.iter_mut().find(same) {
            group.parts.push(part);
            continue;
        }
        let of_sheet = |name: &str| book.material(name).is_ok_and(|m| m.title == part.material.name);
        let sheet = book.gasket_sheets.iter().find(|sheet| of_sheet(&sheet.material));
        found.push(Group {
            material: part.material.name.clone(),
            thickness_mm,
            sheet_mm: sheet.map_or(thickness_mm, |sheet| sheet.sheet_for_mm(thickness_mm)),
            is_gasket: sheet.is_some(),
            parts: vec![part],
        });
    }
    found
}

/// Thickness of a flat part \[mm\].
fn thickness(part: &Part) -> Option<f64> {
    match &part.recipe.as_ref()?.body {
        Body::Plate { thickness, .. } => Some(*thickness),
        Body::Turned(nodes) => {
            let z = || nodes.iter().map(|n| n.z);
            Some(z().fold(f64::NEG_INFINITY, f64::max) - z().fold(f64::INFINITY, f64::min))
        }
    }
}

/// Lays a group on the workshop's sheets; `cutter` and `paper` say how a single part of it would be written.
///
/// # Errors
/// As [`cut_file`].
pub fn nested<'a>(
    group: Group<'a>,
    shop: &Workshop,
    cutter: &CutOptions,
    paper: &CutOptions,
) -> Result<Nested<'a>, CutError> {
    let sheet = Sheet {
        width_mm: shop.sheet_width_mm.value,
        length_mm: shop.sheet_length_mm.value,
        gap_mm: shop.sheet_gap_mm.value,
    };
    let of = |options: &CutOptions| -> Result<Vec<CutFile>, CutError> {
        let options = CutOptions { mark: true, reference: false, ..*options };
        group.parts.iter().map(|part| cut_file(part, &options)).collect()
    };
    let (cut, punched) = (of(cutter)?, of(paper)?);
    let flats: Vec<Flat> = cut.iter().map(flat).collect();
    // which part each piece is
    let which: Vec<usize> =
        group.parts.iter().enumerate().flat_map(|(i, part)| vec![i; part.quantity]).collect();
    let pieces: Vec<Flat> = which.iter().map(|i| flats[*i].clone()).collect();
    let found = nest(&pieces, &sheet);
    let left: BTreeSet<usize> = found.left_out.iter().map(|piece| which[*piece]).collect();
    let used = |laid: &Vec<Placed>| {
        let highs = laid.iter().map(|p| p.put(&pieces[p.piece].outline).bounds().1);
        let far = highs.fold([0.0_f64; 2], |m, h| [m[0].max(h.x), m[1].max(h.y)]);
        far.map(|m| m + sheet.gap_mm)
    };
    let count = found.sheets.len();
    let written = |files: &[CutFile], options: &CutOptions| {
        let page = |(i, laid): (usize, &Vec<Placed>)| {
            let page = Page { group: &group, sheet: &sheet, number: i + 1, count };
            page.file(laid, &which, files, options)
        };
        found.sheets.iter().enumerate().filter_map(|one| page(one).transpose()).collect::<Result<Vec<_>, _>>()
    };
    Ok(Nested {
        cut: written(&cut, cutter)?,
        paper: written(&punched, paper)?,
        used_mm: found.sheets.iter().map(used).collect(),
        left_out: left.into_iter().map(|i| group.parts[i].name.clone()).collect(),
        group,
    })
}

/// A part's contours in its own coordinates.
fn flat(file: &CutFile) -> Flat {
    let own = |c: &Contour| c.boundary.moved(-file.origin.x, -file.origin.y);
    Flat { outline: own(&file.outline), holes: file.holes.iter().map(own).collect() }
}

/// One sheet of a group.
struct Page<'a> {
    group: &'a Group<'a>,
    sheet: &'a Sheet,
    number: usize,
    count: usize,
}

impl Page<'_> {
    /// The cut file of what is laid on the sheet; none of an empty one.
    fn file(
        &self,
        laid: &[Placed],
        which: &[usize],
        files: &[CutFile],
        options: &CutOptions,
    ) -> Result<Option<CutFile>, CutError> {
        let mut all: Vec<Contour> = Vec::new();
        let (mut punch, mut mark) = (Vec::new(), Vec::new());
        // what lies in a hole was laid later and is cut before its host
        for placed in laid.iter().rev() {
            let file = &files[which[placed.piece]];
            let at = |p: Point2| placed.at(p - (file.origin - Point2::origin()));
            all.extend(file.contours().map(|c| Contour {
                name: format!("{}: {}", file.part, c.name),
                boundary: c.boundary.mapped(at, false),
            }));
            mark.extend(file.mark.iter().map(|s| s.iter().map(|p| at(*p)).collect::<Stroke>()));
            punch.extend(file.punch.iter().map(|m| PunchMark { at: at(m.at), ..m.clone() }));
        }
        let Some(outline) = all.pop() else { return Ok(None) };
        let mut sheet = CutFile {
            part: self.name(),
            title: format!("Sheet of {} mm, {}", short(self.group.thickness_mm), self.group.material),
            compensation: options.compensation,
            outline,
            holes: Vec::new(),
            others: all,
            punch,
            mark,
            reference: Vec::new(),
            check_bars: Vec::new(),
            notes: self.notes(laid, which, options),
            origin: Point2::origin(),
            page: [0.0; 2],
        };
        if options.reference {
            self.furnish(&mut sheet, options)
                .map_err(|what| CutError::Lettering { part: sheet.part.clone(), what })?;
        }
        Ok(Some(sheet))
    }

    fn name(&self) -> String {
        let number = if self.count > 1 { format!("-{}", self.number) } else { String::new() };
        self.group.name() + &number
    }

    /// What lies on the sheet.
    fn notes(&self, laid: &[Placed], which: &[usize], options: &CutOptions) -> Vec<String> {
        let s = self.sheet;
        let size = format!("{} x {} mm", short(s.width_mm), short(s.length_mm));
        let mut notes = vec![
            format!("sheet {} of {}, {size}: {}", self.number, self.count, options.compensation.note()),
            format!("sheet to buy: {} mm {}", short(self.group.sheet_mm), self.group.material),
        ];
        for (i, part) in self.group.parts.iter().enumerate() {
            let count = laid.iter().filter(|p| which[p.piece] == i).count();
            if count > 0 {
                notes.push(format!("{count} x {}", part.name));
            }
        }
        notes
    }

    /// Border of the sheet, notes and check bars.
    fn furnish(&self, file: &mut CutFile, options: &CutOptions) -> Result<(), String> {
        let high = Point2::new(self.sheet.width_mm, self.sheet.length_mm);
        let (reference, bars) = beside::strokes(&file.notes, high, options.lettering)?;
        let (w, l) = (high.x, high.y);
        file.reference = reference;
        let corners = [(0.0, 0.0), (w, 0.0), (w, l), (0.0, l), (0.0, 0.0)];
        file.reference.push(corners.map(|(x, y)| Point2::new(x, y)).to_vec());
        file.check_bars = bars;
        file.page = beside::page(file);
        Ok(())
    }
}
