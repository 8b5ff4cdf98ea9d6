//! The order of assembly on sheets of A4: each step with its parts, what to do, what to set and its cautions.

use super::board::{Board, Frame, Label};
use super::options::{Paper, SheetOptions};
use super::pen::Pen;
use super::sheet::Sheet;
use super::title::{Subject, fill, wrap};
use super::{DrawingError, paper};
use crate::parts::items::item_numbers;
use crate::parts::part::{PartSet, Setting, Step};
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
/// Heads of the table of settings.
const HEADS: [&str; 3] = ["What", "Set to", "How"];
/// Columns of the table of settings: what, value \[mm\]; how to measure takes the rest.
const WHAT: f64 = 52.0;
const VALUE: f64 = 38.0;

/// The order of assembly, laid out: sheets with their blocks.
#[derive(Clone, Debug)]
pub struct Assembly(Vec<Vec<Board>>);

impl Assembly {
    /// Lays the steps of a set out.
    ///
    /// # Errors
    /// [`DrawingError`]: a step that no sheet holds, a template that cannot be read.
    pub fn of(set: &PartSet, options: &SheetOptions) -> Result<Self, DrawingError> {
        let space = paper::space(Paper::A4);
        let title = fill(&SUBJECT, options, "-", Paper::A4.name())?;
        let room = space.height() - title.height - 2.0 * AIR;
        let width = space.width() - 2.0 * SIDE;
        let mut sheets: Vec<Vec<Board>> = vec![Vec::new()];
        let mut used = 0.0;
        for (i, step) in set.steps.iter().enumerate() {
            let block = step_block(i + 1, step, &coming_in(set, step), width)?;
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
    machined: false,
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

/// The parts that come in at a step: title, item of the parts list, and how many where all of them come in here.
fn coming_in(set: &PartSet, step: &Step) -> String {
    let numbers = item_numbers(set);
    let steps_with = |name: &String| set.steps.iter().filter(|s| s.parts.contains(name)).count();
    let one = |name: &String| {
        let part = set.parts.iter().find(|p| p.name == *name)?;
        let number = numbers.get(name).map(usize::to_string).unwrap_or_default();
        let count = (part.quantity > 1 && steps_with(name) == 1).then(|| format!("{}x ", part.quantity));
        Some(format!("{}{} ({number})", count.unwrap_or_default(), part.title))
    };
    step.parts.iter().filter_map(one).collect::<Vec<_>>().join(", ")
}

/// A step with its parts in words, its upper left corner at the origin.
fn step_block(number: usize, step: &Step, parts: &str, width: f64) -> Result<Board, DrawingError> {
    let mut pen = Writer { board: Board::default(), y: 0.0, width };
    pen.text(&format!("{number}  {}", step.title), 0.0, HEADING)?;
    if !parts.is_empty() {
        pen.text(&format!("Parts (item of the parts list): {parts}"), 0.0, SMALL)?;
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
        let told = settings.iter().map(|s| [s.what.as_str(), s.value.as_str(), s.how.as_str()]);
        for (row, texts) in std::iter::once(HEADS).chain(told).enumerate() {
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
            self.rule(if row == 0 { Pen::Box } else { Pen::Rule });
        }
        self.board.frame(Pen::Box, &Frame::new(0.0, self.y, self.width, top - self.y));
        for (x, _) in &columns[1..] {
            self.board.line(Pen::Rule, Point2::new(*x, self.y), Point2::new(*x, top));
        }
        self.y -= 1.0;
        Ok(())
    }

    fn rule(&mut self, pen: Pen) {
        self.board.line(pen, Point2::new(0.0, self.y), Point2::new(self.width, self.y));
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
    use crate::parts::kit::made;
    use crate::shape::recipe::{Body, Recipe};

    fn step(lines: usize) -> Step {
        let many = (0..lines).map(|i| format!("Line {i} of what there is to do.")).collect();
        Step { lines: many, ..Step::new("Step").set("gap", "1 mm".to_owned(), "feeler") }
    }

    #[test]
    fn steps_go_on_to_the_next_sheet_and_never_leave_the_frame() {
        let options = SheetOptions::default();
        let sheets = |steps: Vec<Step>| {
            let set = PartSet { steps, ..PartSet::default() };
            Assembly::of(&set, &options)?.sheets(&options).map(|all| all.len())
        };
        assert_eq!(sheets(vec![step(3)]).unwrap(), 1);
        assert_eq!(sheets(vec![step(3); 12]).unwrap(), 3);
        assert!(matches!(sheets(vec![step(80)]), Err(DrawingError::DoesNotFit { .. })));
    }

    #[test]
    fn parts_are_told_by_title_item_and_count() {
        let empty = || Recipe { body: Body::Turned(Vec::new()), features: Vec::new() };
        let part = |name: &str, title: &str, n| made(name, title, "brass", empty()).times(n);
        let both = Step::new("one").with(&["ring", "nut"]);
        let set = PartSet {
            parts: vec![part("ring", "Ring", 1), part("nut", "Nut", 4), part("pin", "Pin", 2)],
            steps: vec![both, Step::new("two").with(&["pin"]), Step::new("three").with(&["pin"])],
            ..PartSet::default()
        };
        let told: Vec<String> = set.steps.iter().map(|s| coming_in(&set, s)).collect();
        assert_eq!(told, ["Ring (1), 4x Nut (2)", "Pin (3)", "Pin (3)"]);
    }
}
