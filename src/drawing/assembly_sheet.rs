//! The order of assembly on sheets of A4: each step with its parts, what to do, what to set and its cautions.

use super::board::{Board, Frame, Label};
use super::options::{Paper, SheetOptions};
use super::pen::Pen;
use super::sheet::Sheet;
use super::title::{Subject, fill, wrap};
use super::{DrawingError, paper};
use crate::parts::part::{Setting, Step};
use crate::shape::{Point2, Vector2};

/// Heights of lettering: heading, text, table \[mm\] (ISO 3098-1).
const HEADING: f64 = 5.0;
const TEXT: f64 = 3.5;
const SMALL: f64 = 2.5;
/// From base line to base line, as a multiple of the height (ISO 3098-1 asks 1.4 at least).
const LEADING: f64 = 1.6;
/// Air between steps, and beside texts \[mm\].
const AIR: f64 = 4.0;
/// Air to the frame \[mm\]: clear of the centring marks.
const SIDE: f64 = 7.0;
const BESIDE: f64 = 1.5;
/// Columns of the table of settings: what, value \[mm\]; how to measure takes the rest.
const WHAT: f64 = 52.0;
const VALUE: f64 = 38.0;

/// The order of assembly, laid out: sheets with their blocks.
#[derive(Clone, Debug)]
pub struct Assembly(Vec<Vec<Board>>);

impl Assembly {
    /// Lays the steps out.
    ///
    /// # Errors
    /// [`DrawingError`]: a step that no sheet holds, a template that cannot be read.
    pub fn of(steps: &[Step], options: &SheetOptions) -> Result<Self, DrawingError> {
        let space = paper::space(Paper::A4);
        let title = fill(&SUBJECT, options, "-", Paper::A4.name())?;
        let room = space.height() - title.height - 2.0 * AIR;
        let width = space.width() - 2.0 * SIDE;
        let mut sheets: Vec<Vec<Board>> = vec![Vec::new()];
        let mut used = 0.0;
        for (i, step) in steps.iter().enumerate() {
            let block = step_block(i + 1, step, width)?;
            let tall = block.bounds().height() + AIR;
            if tall > room {
                return Err(DrawingError::DoesNotFit { part: step.title.clone() });
            }
            if used + tall > room {
                sheets.push(Vec::new());
                used = 0.0;
            }
            used += tall;
            if let Some(sheet) = sheets.last_mut() {
                sheet.push(block);
            }
        }
        Ok(Self(sheets))
    }

    /// How many sheets there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// The sheets, in order; `options.sheet` is the number of the first.
    ///
    /// # Errors
    /// [`DrawingError`]: a character without a glyph, a template that cannot be read.
    pub fn sheets(self, options: &SheetOptions) -> Result<Vec<Sheet>, DrawingError> {
        let space = paper::space(Paper::A4);
        self.0.into_iter().enumerate().map(|(i, blocks)| sheet(blocks, i, &space, options)).collect()
    }
}

const SUBJECT: Subject<'static> = Subject {
    document: "Assembly instruction",
    name: "assembly",
    title: "Order of assembly",
    material: "-",
    quantity: 1,
};

/// One sheet with its blocks one below the other.
fn sheet(
    blocks: Vec<Board>,
    index: usize,
    space: &Frame,
    options: &SheetOptions,
) -> Result<Sheet, DrawingError> {
    let numbered = SheetOptions { sheet: options.sheet + index, mass_g: None, ..options.clone() };
    let mut board = fill(&SUBJECT, &numbered, "-", Paper::A4.name())?.draw(options.projection)?;
    board.shift(Vector2::new(space.low.x, space.low.y));
    board.append(paper::draw(Paper::A4));
    let mut top = space.high.y - AIR - 2.0;
    for mut block in blocks {
        block.shift(Vector2::new(space.low.x + SIDE, top));
        top -= block.bounds().height() + AIR;
        board.append(block);
    }
    Ok(Sheet {
        name: format!("{}-{}", SUBJECT.name, index + 1),
        title: format!("{}, {}", SUBJECT.title, index + 1),
        size_mm: Paper::A4.size_mm().into(),
        board,
    })
}

/// A step, its upper left corner at the origin.
fn step_block(number: usize, step: &Step, width: f64) -> Result<Board, DrawingError> {
    let mut pen = Writer { board: Board::default(), y: 0.0, width };
    pen.text(&format!("{number}  {}", step.title), 0.0, HEADING)?;
    if !step.parts.is_empty() {
        pen.text(&format!("Parts: {}", step.parts.join(", ")), 0.0, SMALL)?;
    }
    for line in &step.lines {
        pen.text(line, 0.0, TEXT)?;
    }
    pen.table(&step.settings)?;
    for caution in &step.cautions {
        pen.caution(caution)?;
    }
    Ok(pen.board)
}

/// Writes downwards from the top.
struct Writer {
    board: Board,
    y: f64,
    width: f64,
}

impl Writer {
    /// A text, wrapped.
    fn text(&mut self, text: &str, x: f64, height: f64) -> Result<(), DrawingError> {
        for line in lines(text, height, self.width - x)? {
            self.y -= LEADING * height;
            self.board.write(Label::level(&line, x, self.y, height));
        }
        self.y -= 0.3 * height;
        Ok(())
    }

    /// The settings, ruled; nothing without any.
    fn table(&mut self, settings: &[Setting]) -> Result<(), DrawingError> {
        if settings.is_empty() {
            return Ok(());
        }
        let columns = [(0.0, WHAT), (WHAT, VALUE), (WHAT + VALUE, self.width - WHAT - VALUE)];
        self.y -= 1.0;
        let top = self.y;
        for setting in settings {
            let texts = [&setting.what, &setting.value, &setting.how];
            let mut tall = 0;
            for (text, (x, wide)) in texts.into_iter().zip(columns) {
                let all = lines(text, SMALL, wide - 2.0 * BESIDE)?;
                for (i, line) in all.iter().enumerate() {
                    let y = self.y - 1.0 - SMALL - LEADING * SMALL * i as f64;
                    self.board.write(Label::level(line, x + BESIDE, y, SMALL));
                }
                tall = tall.max(all.len());
            }
            self.y -= 1.0 + LEADING * SMALL * tall as f64;
            self.rule(self.y);
        }
        self.board.frame(Pen::Box, &Frame::new(0.0, self.y, self.width, top - self.y));
        for (x, _) in &columns[1..] {
            self.board.line(Pen::Rule, Point2::new(*x, self.y), Point2::new(*x, top));
        }
        self.y -= 1.0;
        Ok(())
    }

    fn rule(&mut self, y: f64) {
        self.board.line(Pen::Rule, Point2::new(0.0, y), Point2::new(self.width, y));
    }

    /// A caution in its box.
    fn caution(&mut self, text: &str) -> Result<(), DrawingError> {
        self.y -= 1.0;
        let top = self.y;
        self.y -= 0.5;
        let whole = self.width;
        self.width -= BESIDE;
        let written = self.text(&format!("CAUTION  {text}"), BESIDE, TEXT);
        self.width = whole;
        written?;
        self.y -= 0.5;
        self.board.frame(Pen::Box, &Frame::new(0.0, self.y, self.width, top - self.y));
        Ok(())
    }
}

/// A text in lines that fit.
fn lines(text: &str, height: f64, width: f64) -> Result<Vec<String>, DrawingError> {
    wrap(text, height, width).ok_or_else(|| DrawingError::TooLong {
        field: "Order of assembly".to_owned(),
        value: text.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(lines: usize) -> Step {
        let many = (0..lines).map(|i| format!("Line {i} of what there is to do.")).collect();
        Step { lines: many, ..Step::new("Step").set("gap", "1 mm".to_owned(), "feeler") }
    }

    #[test]
    fn steps_go_on_to_the_next_sheet_and_never_leave_the_frame() {
        let options = SheetOptions::default();
        let sheets = |steps: &[Step]| Assembly::of(steps, &options)?.sheets(&options).map(|all| all.len());
        assert_eq!(sheets(&[step(3)]).unwrap(), 1);
        assert_eq!(sheets(&vec![step(3); 12]).unwrap(), 3);
        assert!(matches!(sheets(&[step(80)]), Err(DrawingError::DoesNotFit { .. })));
    }
}
