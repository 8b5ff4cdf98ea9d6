//! The title block (fields after ISO 7200): read from an editable template, drawn with our lettering.

use super::DrawingError;
use super::board::{Board, Frame, Label};
use super::lettering;
use super::options::{Projection, SheetOptions};
use super::pen::Pen;
use crate::parts::part::Part;
use crate::shape::{Point2, Vector2};
use minijinja::{Environment, UndefinedBehavior, context};

/// The built-in template.
const BUILT_IN: &str = include_str!("../../templates/title-block.txt");
/// Height of the field labels \[mm\].
const LABEL: f64 = 1.8;

/// A field of the block.
#[derive(Clone, Debug, PartialEq)]
struct Cell {
    frame: Frame,
    label: String,
    value: String,
    height: f64,
}

/// A title block as its template describes it.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct TitleBlock {
    /// Width \[mm\].
    pub width: f64,
    /// Height \[mm\].
    pub height: f64,
    cells: Vec<Cell>,
    symbol: Option<Frame>,
    /// General notes.
    pub notes: Vec<String>,
}

/// What a sheet is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Subject<'a> {
    /// Kind of document.
    pub document: &'a str,
    /// Name in kebab case.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// Material; empty for none.
    pub material: &'a str,
    /// How many are needed.
    pub quantity: usize,
    /// Whether general tolerances, surface texture and broken edges hold for it.
    pub machined: bool,
}

impl<'a> From<&'a Part> for Subject<'a> {
    fn from(part: &'a Part) -> Self {
        Self {
            document: "Part drawing",
            name: &part.name,
            title: &part.title,
            material: &part.material.name,
            quantity: part.quantity,
            machined: part.is_machined(),
        }
    }
}

/// Fills the template for one sheet.
///
/// # Errors
/// [`DrawingError::Template`] when the template cannot be rendered or a line of it cannot be read.
pub fn fill(
    subject: &Subject<'_>,
    options: &SheetOptions,
    scale: &str,
    paper: &str,
) -> Result<TitleBlock, DrawingError> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    let source = options.template.as_deref().unwrap_or(BUILT_IN);
    let safe = |s: &str| s.replace('|', "/").replace(['\n', '\r'], " ");
    let number = match options.project.as_str() {
        "" => subject.name.to_owned(),
        project => format!("{project}-{}", subject.name),
    };
    let mass = options.mass_g.map_or_else(|| "-".to_owned(), mass_text);
    let values = context! {
        owner => safe(&options.owner), document_type => safe(subject.document), number => safe(&number),
        revision => safe(&options.revision), sheet => options.sheet, sheets => options.sheets,
        title => safe(subject.title), material => safe(subject.material), quantity => subject.quantity,
        creator => safe(&options.creator), approver => safe(&options.approver), date => safe(&options.date),
        machined => subject.machined, mass => mass, scale => scale, paper => paper, units => options.units.name(),
        projection => match options.projection {
            Projection::FirstAngle => "first angle",
            Projection::ThirdAngle => "third angle",
        },
    };
    let text = environment.render_str(source, values).map_err(|e| DrawingError::Template(e.to_string()))?;
    let mut block = TitleBlock::default();
    text.lines().filter(|l| !l.trim().is_empty()).try_for_each(|l| block.take(l))?;
    block.notes.extend(options.units.note().map(str::to_owned));
    Ok(block)
}

/// A mass as written: grams, or kilograms from 1 kg on.
fn mass_text(grams: f64) -> String {
    match grams {
        g if g >= 1000.0 => format!("{:.2} kg", g / 1000.0),
        g if g >= 10.0 => format!("{g:.0} g"),
        g => format!("{g:.1} g"),
    }
}

impl TitleBlock {
    /// Reads one line of the filled template.
    fn take(&mut self, line: &str) -> Result<(), DrawingError> {
        let fields: Vec<&str> = line.split('|').map(str::trim).collect();
        let wrong = || DrawingError::Template(format!("cannot read the line {line:?}"));
        let number = |i: usize| fields.get(i).and_then(|f| f.parse::<f64>().ok()).ok_or_else(wrong);
        let frame = || Ok(Frame::new(number(1)?, number(2)?, number(3)?, number(4)?));
        match (fields[0], fields.len()) {
            ("block", 3) => (self.width, self.height) = (number(1)?, number(2)?),
            ("projection", 5) => self.symbol = Some(frame()?),
            ("note", 2) => self.notes.push(fields[1].to_owned()),
            ("cell", 8) => self.cells.push(Cell {
                frame: frame()?,
                label: fields[5].to_owned(),
                value: fields[6].to_owned(),
                height: if fields[7].is_empty() { 3.5 } else { number(7)? },
            }),
            _ => return Err(wrong()),
        }
        Ok(())
    }

    /// Draws the block with its lower left corner at the origin.
    ///
    /// # Errors
    /// [`DrawingError::TooLong`] when a value does not fit into its field even in small letters.
    pub fn draw(&self, projection: Projection) -> Result<Board, DrawingError> {
        let mut board = Board::default();
        board.frame(Pen::Box, &Frame::new(0.0, 0.0, self.width, self.height));
        for cell in &self.cells {
            cell.draw(&mut board)?;
        }
        if let Some(frame) = &self.symbol {
            symbol(&mut board, frame, projection);
        }
        Ok(board)
    }
}

impl Cell {
    /// Draws the field: border, label, value.
    fn draw(&self, board: &mut Board) -> Result<(), DrawingError> {
        board.frame(Pen::Rule, &self.frame);
        let (x, top) = (self.frame.low.x + 1.2, self.frame.high.y);
        board.write(Label::level(&self.label, x, top - 1.0 - LABEL, LABEL));
        let room = self.frame.width() - 2.4;
        let (lines, height) = fitted(&self.value, self.height, room, self.frame.height() - 5.4)
            .ok_or_else(|| DrawingError::TooLong { field: self.label.clone(), value: self.value.clone() })?;
        let bottom = self.frame.low.y + 1.6;
        for (i, line) in lines.iter().rev().enumerate() {
            board.write(Label::level(line, x, bottom + 1.5 * height * i as f64, height));
        }
        Ok(())
    }
}

/// The largest lettering, at most `height`, in which a value fits into a field, and its lines.
fn fitted(value: &str, height: f64, room: f64, tall: f64) -> Option<(Vec<String>, f64)> {
    if value.is_empty() {
        return Some((Vec::new(), height));
    }
    [5.0, 3.5, 2.5, 1.8].into_iter().filter(|h| *h <= height).find_map(|h| {
        let lines = wrap(value, h, room)?;
        let needed = h * (1.0 + 1.5 * (lines.len() as f64 - 1.0));
        (lines.len() == 1 || needed <= tall).then_some((lines, h))
    })
}

/// Breaks a text at spaces and hyphens so that no line is wider than `room` \[mm\].
pub fn wrap(text: &str, height: f64, room: f64) -> Option<Vec<String>> {
    let mut lines: Vec<String> = vec![String::new()];
    for word in text.split_inclusive([' ', '-']) {
        let longer = lines.last().map(|l| format!("{l}{word}")).unwrap_or_default();
        if lettering::width(longer.trim_end(), height) <= room {
            if let Some(last) = lines.last_mut() {
                *last = longer;
            }
        } else if lettering::width(word.trim_end(), height) <= room {
            lines.push(word.to_owned());
        } else {
            return None;
        }
    }
    Some(lines.into_iter().map(|l| l.trim_end().to_owned()).filter(|l| !l.is_empty()).collect())
}

/// The symbol of the projection method (ISO 5456-2): in first angle the frustum with its small end to
/// the left stands left of the circles, in third angle right of them.
fn symbol(board: &mut Board, frame: &Frame, projection: Projection) {
    let h = 3.5;
    let centre = frame.centre();
    let (cone, circles) = match projection {
        Projection::FirstAngle => (centre.x - 3.0 * h, centre.x + 2.0 * h),
        Projection::ThirdAngle => (centre.x + 1.0 * h, centre.x - 2.0 * h),
    };
    let at = |x: f64, y: f64| Point2::new(x, centre.y + y);
    let corners = [at(cone, -h / 2.0), at(cone + 2.0 * h, -h), at(cone + 2.0 * h, h), at(cone, h / 2.0)];
    (0..4).for_each(|i| board.line(Pen::Visible, corners[i], corners[(i + 1) % 4]));
    board.circle(Pen::Visible, at(circles, 0.0), h / 2.0);
    board.circle(Pen::Visible, at(circles, 0.0), h);
    board.line(Pen::Centre, at(cone - 2.0, 0.0), at(cone + 2.0 * h + 2.0, 0.0));
    for d in [Vector2::new(h + 2.0, 0.0), Vector2::new(0.0, h + 2.0)] {
        board.line(Pen::Centre, at(circles, 0.0) - d, at(circles, 0.0) + d);
    }
}
