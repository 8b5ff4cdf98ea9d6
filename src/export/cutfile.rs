//! The cut file of a flat part, before any format: contours, marks and what is written beside them.
//!
//! Guaranteed of every [`CutFile`] that [`cut_file`] returns: contours are closed chains of lines and
//! arcs without pieces of no length; the outline runs counter-clockwise and holes clockwise; its lower
//! left corner lies at ([`MARGIN_MM`], [`MARGIN_MM`]) and nothing has a negative coordinate; the
//! compensation was applied once, to the nominal shape; the audit of [`super::audit`] found nothing.

use super::audit::{self, Finding};
use super::contours::{self, Contours};
use super::lettering::Lettering;
use super::{beside, name_mark};
use crate::parts::part::Part;
use crate::shape::loops::Loop;
use crate::shape::offset::{OffsetError, offset};
use crate::shape::{Point2, Vector2};

/// Distance of the outline from both axes \[mm\].
pub const MARGIN_MM: f64 = 5.0;

/// A polyline that is drawn, engraved or only read \[mm\]; never a cut.
pub type Stroke = Vec<Point2>;

/// What the cutter takes away or follows.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub enum Compensation {
    /// The outline is the nominal one; the machine compensates, or need not.
    #[default]
    Nominal,
    /// Width of the cut \[mm\]; the line moves by half of it away from the part.
    Kerf(f64),
    /// Distance of the blade from the line that the holder follows \[mm\]; the line moves by all of it.
    Knife(f64),
}

/// What is wanted of a cut file.
#[derive(Clone, Copy)]
pub struct CutOptions<'a> {
    /// Compensation of the cutter.
    pub compensation: Compensation,
    /// Mark the part's name on the part, where there is room.
    pub mark: bool,
    /// Write the reference line, notes and check bars.
    pub reference: bool,
    /// Round holes smaller than this \[mm\] are marked for the punch instead of cut.
    pub smallest_hole_mm: Option<f64>,
    /// Single-stroke lettering; without it nothing is lettered and notes are only in the file's text.
    pub lettering: Option<&'a dyn Lettering>,
}

/// A named closed contour.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    /// Name of the feature, or `outline`.
    pub name: String,
    /// The loop \[mm\].
    pub boundary: Loop,
}

/// A hole to be punched by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct PunchMark {
    /// Name of the feature.
    pub name: String,
    /// Centre \[mm\].
    pub at: Point2,
    /// Nominal diameter of the hole \[mm\].
    pub diameter_mm: f64,
}

/// A flat part ready for a writer of any format.
#[derive(Clone, Debug, PartialEq)]
pub struct CutFile {
    /// Name of the part.
    pub part: String,
    /// Title of the part.
    pub title: String,
    /// Compensation that the contours hold.
    pub compensation: Compensation,
    /// The outside, counter-clockwise.
    pub outline: Contour,
    /// Holes, clockwise.
    pub holes: Vec<Contour>,
    /// Contours of other parts on the same sheet, in cutting order; none on the file of a single part.
    pub others: Vec<Contour>,
    /// Holes to be punched.
    pub punch: Vec<PunchMark>,
    /// Strokes of the name on the part.
    pub mark: Vec<Stroke>,
    /// The 20 mm line and lettered notes.
    pub reference: Vec<Stroke>,
    /// Bars of 50 mm in both directions, for formats that are printed.
    pub check_bars: Vec<Stroke>,
    /// What a person must know, also as plain text in the file.
    pub notes: Vec<String>,
    /// Where the part's origin lies in the file \[mm\].
    pub origin: Point2,
    /// Width and height that hold everything with the margin around it \[mm\].
    pub page: [f64; 2],
}

/// Why a part has no cut file.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CutError {
    /// It is not a flat part with a recipe.
    #[error("{0} is not a flat part")]
    NotFlat(String),
    /// The compensation is negative or not a number.
    #[error("{part}: a kerf or knife offset of {value_mm} mm is not possible")]
    Compensation {
        /// Name of the part.
        part: String,
        /// The value found \[mm\].
        value_mm: f64,
    },
    /// A contour cannot be offset.
    #[error("{part}, {contour}: {source}; make it larger or the kerf smaller")]
    Offset {
        /// Name of the part.
        part: String,
        /// Name of the contour.
        contour: String,
        /// What went wrong.
        source: OffsetError,
    },
    /// A character has no strokes.
    #[error("{part}: {what}")]
    Lettering {
        /// Name of the part.
        part: String,
        /// What the lettering said.
        what: String,
    },
    /// The contours are not fit to be cut.
    #[error("{part} cannot be cut: {}", list(.findings))]
    Audit {
        /// Name of the part.
        part: String,
        /// What was found.
        findings: Vec<Finding>,
    },
}

impl Default for CutOptions<'_> {
    fn default() -> Self {
        Self {
            compensation: Compensation::Nominal,
            mark: false,
            reference: true,
            smallest_hole_mm: None,
            lettering: None,
        }
    }
}

impl Compensation {
    /// How far contours move away from the part's material \[mm\].
    pub fn distance_mm(self) -> f64 {
        match self {
            Compensation::Nominal => 0.0,
            Compensation::Kerf(width) => width / 2.0,
            Compensation::Knife(distance) => distance,
        }
    }

    /// The words on the reference layer.
    pub fn note(self) -> String {
        match self {
            Compensation::Nominal => "nominal".to_owned(),
            Compensation::Kerf(width) => format!("kerf {width} mm included"),
            Compensation::Knife(distance) => format!("knife offset {distance} mm included"),
        }
    }

    /// What is added to the file's name: nothing when nominal.
    pub fn suffix(self) -> String {
        match self {
            Compensation::Nominal => String::new(),
            Compensation::Kerf(width) => format!("-kerf-{width}mm"),
            Compensation::Knife(distance) => format!("-knife-{distance}mm"),
        }
    }
}

impl CutFile {
    /// Name of the file without folder and ending: the part's name, and the compensation if any.
    pub fn stem(&self) -> String {
        format!("{}{}", self.part, self.compensation.suffix())
    }

    /// All contours in cutting order: holes first, so that the part is still held while they are cut.
    pub fn contours(&self) -> impl Iterator<Item = &Contour> {
        self.others.iter().chain(&self.holes).chain(std::iter::once(&self.outline))
    }
}

/// The cut file of a flat part.
///
/// # Errors
/// [`CutError`] when the part is not flat, a contour vanishes under the compensation, a character cannot
/// be lettered, or the contours would not cut cleanly.
pub fn cut_file(part: &Part, options: &CutOptions) -> Result<CutFile, CutError> {
    let nominal = contours::of(part).ok_or_else(|| CutError::NotFlat(part.name.clone()))?;
    let by = options.compensation.distance_mm();
    if !by.is_finite() || by < 0.0 {
        return Err(CutError::Compensation { part: part.name.clone(), value_mm: by });
    }
    let punched = |c: &Contour| punch_mark(c, options.smallest_hole_mm);
    let outline = moved(&part.name, &nominal.outline, by)?;
    let cut = nominal.holes.iter().filter(|c| punched(c).is_none());
    let holes = cut.map(|c| moved(&part.name, c, -by)).collect::<Result<Vec<_>, _>>()?;
    let punch = nominal.holes.iter().filter_map(punched).collect();
    let mut file = placed(part, options.compensation, outline, holes, punch);
    // Before anything is placed beside or on it: the search for room needs sound contours.
    let findings = audit::audit(&file);
    if !findings.is_empty() {
        return Err(CutError::Audit { part: part.name.clone(), findings });
    }
    file.notes = notes(&file, &nominal);
    letter(&mut file, options).map_err(|what| CutError::Lettering { part: part.name.clone(), what })?;
    file.page = beside::page(&file);
    Ok(file)
}

/// A contour offset outwards \[mm\].
fn moved(part: &str, contour: &Contour, outwards: f64) -> Result<Contour, CutError> {
    let boundary = offset(&contour.boundary, outwards).map_err(|source| CutError::Offset {
        part: part.to_owned(),
        contour: contour.name.clone(),
        source,
    })?;
    Ok(Contour { name: contour.name.clone(), boundary })
}

/// The punch mark that stands for a round hole too small to cut.
fn punch_mark(contour: &Contour, smallest: Option<f64>) -> Option<PunchMark> {
    let Loop::Circle { centre, radius } = contour.boundary else { return None };
    let diameter_mm = 2.0 * radius;
    let small = diameter_mm < smallest? - 1e-9;
    small.then(|| PunchMark { name: contour.name.clone(), at: centre, diameter_mm })
}

/// Everything moved so that the outline's lower left corner lies at the margin, and turned the right way.
fn placed(
    part: &Part,
    compensation: Compensation,
    outline: Contour,
    holes: Vec<Contour>,
    punch: Vec<PunchMark>,
) -> CutFile {
    let low = outline.boundary.bounds().0;
    let d = Vector2::new(MARGIN_MM - low.x, MARGIN_MM - low.y);
    let turned = |c: Contour, sense: f64| {
        let boundary = c.boundary.moved(d.x, d.y);
        let right = boundary.area() * sense > 0.0;
        Contour { name: c.name, boundary: if right { boundary } else { boundary.reversed() } }
    };
    CutFile {
        part: part.name.clone(),
        title: part.title.clone(),
        compensation,
        outline: turned(outline, 1.0),
        holes: holes.into_iter().map(|c| turned(c, -1.0)).collect(),
        others: Vec::new(),
        punch: punch.into_iter().map(|m| PunchMark { at: m.at + d, ..m }).collect(),
        mark: Vec::new(),
        reference: Vec::new(),
        check_bars: Vec::new(),
        notes: Vec::new(),
        origin: Point2::new(d.x, d.y),
        page: [0.0; 2],
    }
}

/// The notes: whose part it is, what is compensated, what to punch or drill, what is not cut here.
fn notes(file: &CutFile, nominal: &Contours) -> Vec<String> {
    let mut out = vec![format!("{}: {}", file.part, file.compensation.note())];
    let mut sizes: Vec<(String, usize)> = Vec::new();
    for mark in &file.punch {
        let size = format!("{} mm", beside::short(mark.diameter_mm));
        match sizes.iter_mut().find(|(s, _)| *s == size) {
            Some((_, n)) => *n += 1,
            None => sizes.push((size, 1)),
        }
    }
    out.extend(sizes.into_iter().map(|(size, n)| format!("punch or drill {n} x {size}")));
    if !nominal.not_cut.is_empty() {
        out.push(format!("not cut here: {}", nominal.not_cut.join(", ")));
    }
    out
}

/// Name on the part, reference line, lettered notes and check bars.
fn letter(file: &mut CutFile, options: &CutOptions) -> Result<(), String> {
    if let Some(lettering) = options.lettering.filter(|_| options.mark) {
        match name_mark::place(file, lettering)? {
            Some(strokes) => file.mark = strokes,
            None => file.notes.push("no room for the name on the part".to_owned()),
        }
    }
    if options.reference {
        let high = file.outline.boundary.bounds().1;
        let (reference, bars) = beside::strokes(&file.notes, high, options.lettering)?;
        file.reference = reference;
        file.check_bars = bars;
    }
    Ok(())
}

/// Findings in one line.
fn list(findings: &[Finding]) -> String {
    findings.iter().map(Finding::to_string).collect::<Vec<_>>().join("; ")
}
