//! Evaluating the points of a sweep.

use super::input::Input;
use super::output::OUTPUTS;
use super::shard::Shard;
use super::table::{Column, Mark, Row, Table};
use crate::design::{Design, Shelf, read_with, round_to};
use crate::diagnostic::{Diagnostic, Severity};
use crate::sizing::answer::{Sized, at_target};
use rayon::prelude::*;
use sha2::{Digest, Sha256};

/// Most points of a sweep.
pub const MOST_POINTS: usize = 1_000_000;

/// Significant digits of the outputs: more than any model is worth, fewer than another processor could change.
const DIGITS: usize = 7;

/// A design and the inputs that go over their values. The last input goes fastest.
#[derive(Clone, Debug)]
pub struct Sweep {
    file: String,
    bytes: Vec<u8>,
    sets: Vec<(String, String)>,
    shelf: Option<Shelf>,
    inputs: Vec<Input>,
    engine: String,
    warnings: Vec<Diagnostic>,
}

impl Sweep {
    /// A sweep over the design in `bytes`, with overrides that hold for every point. The file is read once, so that a
    /// mistake that has nothing to do with the inputs is told here and not at every point.
    ///
    /// # Errors
    /// No input or more than two, the same input twice, an input that is also overridden, more than [`MOST_POINTS`];
    /// everything that is wrong with the file.
    pub fn new(
        file: &str,
        bytes: Vec<u8>,
        sets: Vec<(String, String)>,
        inputs: Vec<Input>,
    ) -> Result<Self, Vec<Diagnostic>> {
        Self::with_shelf(file, bytes, sets, None, inputs)
    }

    /// As [`Sweep::new`], with the shelf file that the design names.
    ///
    /// # Errors
    /// As [`Sweep::new`].
    pub fn with_shelf(
        file: &str,
        bytes: Vec<u8>,
        sets: Vec<(String, String)>,
        shelf: Option<Shelf>,
        inputs: Vec<Input>,
    ) -> Result<Self, Vec<Diagnostic>> {
        sound(&inputs, &sets).map_err(|said| vec![said])?;
        let mut sweep = Self {
            file: file.into(),
            bytes,
            sets,
            shelf,
            inputs,
            engine: String::new(),
            warnings: Vec::new(),
        };
        // One end may break a rule between keys; a file that is wrong at both is wrong.
        let last = sweep.total() - 1;
        let (design, warnings) = sweep.design(0).or_else(|said| sweep.design(last).map_err(|_| said))?;
        sweep.engine = design.engine.name.value;
        sweep.warnings = warnings;
        Ok(sweep)
    }

    /// Points of the whole sweep.
    pub fn total(&self) -> usize {
        self.inputs.iter().map(|input| input.values.len()).product()
    }

    /// What should be said about the file.
    pub fn warnings(&self) -> &[Diagnostic] {
        &self.warnings
    }

    /// Sizes all points of a share, in parallel; `done` is called after each. The rows come in the order of the points.
    pub fn run(&self, shard: Shard, done: &(dyn Fn() + Sync)) -> Table {
        let points = shard.points(self.total());
        let row = |index: usize| {
            let row = self.row(index);
            done();
            row
        };
        let rows = points.into_par_iter().map(row).collect();
        let column = |input: &Input| Column { path: input.path.clone(), unit: input.unit.into() };
        let mark = Mark {
            version: env!("CARGO_PKG_VERSION").into(),
            engine: self.engine.clone(),
            sweep: self.hash(),
            shard,
            total: self.total(),
        };
        Table { mark, inputs: self.inputs.iter().map(column).collect(), rows }
    }

    /// Which value of each input a point has.
    fn indices(&self, index: usize) -> Vec<usize> {
        let mut rest = index;
        let mut indices: Vec<usize> = self
            .inputs
            .iter()
            .rev()
            .map(|input| {
                let count = input.values.len();
                let index = rest % count;
                rest /= count;
                index
            })
            .collect();
        indices.reverse();
        indices
    }

    /// The design at a point. Reading the file anew takes a fraction of the time of sizing and is sure to mean the same
    /// as `--set`.
    fn design(&self, index: usize) -> Result<(Design, Vec<Diagnostic>), Vec<Diagnostic>> {
        let swept = self.inputs.iter().zip(self.indices(index)).map(|(input, i)| input.set(i));
        let sets: Vec<(String, String)> = self.sets.iter().cloned().chain(swept).collect();
        read_with(&self.file, &self.bytes, &sets, self.shelf.as_ref())
    }

    fn row(&self, index: usize) -> Row {
        let inputs: Vec<String> =
            self.inputs.iter().zip(self.indices(index)).map(|(input, i)| input.values[i].clone()).collect();
        match self.design(index).and_then(|(design, _)| at_target(&design)) {
            Ok(sized) => told(inputs, &sized),
            Err(said) => refused(inputs, &said),
        }
    }

    /// Says which sweep a table belongs to.
    fn hash(&self) -> String {
        let mut hash = Sha256::new();
        let mut add = |text: &[u8]| {
            hash.update((text.len() as u64).to_le_bytes());
            hash.update(text);
        };
        add(env!("CARGO_PKG_VERSION").as_bytes());
        add(&self.bytes);
        self.shelf.iter().for_each(|shelf| add(&shelf.bytes));
        self.sets.iter().for_each(|(key, value)| add(format!("{key}={value}").as_bytes()));
        for input in &self.inputs {
            add(format!("{} [{}]", input.path, input.unit).as_bytes());
            input.values.iter().for_each(|value| add(value.as_bytes()));
        }
        hash.finalize()[..8].iter().map(|byte| format!("{byte:02x}")).collect()
    }
}

/// One or two unlike inputs that nobody overrides, and not too many points.
fn sound(inputs: &[Input], sets: &[(String, String)]) -> Result<(), Diagnostic> {
    let wrong = |message: String, hint: &str| Err(Diagnostic::error("swept::explore", message).hint(hint));
    let points = inputs.iter().try_fold(1_usize, |n, input| n.checked_mul(input.values.len()));
    match inputs {
        [] => return wrong("no input is swept".into(), "name one with --over"),
        [_] => {}
        [a, b] if a.path == b.path => {
            return wrong(format!("{} is swept twice", a.path), "take two different inputs, or one");
        }
        [_, _] => {}
        more => {
            let hint = "sweep two of them and --set the others, once for each of their values";
            return wrong(format!("{} inputs are swept; a sweep has one or two", more.len()), hint);
        }
    }
    if let Some(input) = inputs.iter().find(|input| sets.iter().any(|(key, _)| key.trim() == input.path)) {
        return wrong(format!("{} is both set and swept", input.path), "leave one of the two out");
    }
    match points {
        Some(points) if points <= MOST_POINTS => Ok(()),
        _ => wrong(
            format!("the sweep has more than {MOST_POINTS} points"),
            "take fewer --steps; a chart needs some 40 for each input",
        ),
    }
}

/// The row of an engine that can be.
fn told(inputs: Vec<String>, sized: &Sized) -> Row {
    let numbers: Vec<Option<f64>> = OUTPUTS.iter().map(|output| (output.of)(sized)).collect();
    if numbers.iter().flatten().any(|number| !number.is_finite()) {
        let why = "the model gave a number that is not finite".into();
        return Row::refused(inputs, "swept::not-finite".into(), why);
    }
    // Adding zero takes the sign from a negative zero.
    let outputs = numbers.iter().map(|number| number.map(|value| round_to(value, DIGITS) + 0.0)).collect();
    let model = sized.answer.operating_point.model.clone();
    Row { inputs, model, outputs, refused: String::new(), why: String::new() }
}

/// The row of a point that breaks rules.
fn refused(inputs: Vec<String>, said: &[Diagnostic]) -> Row {
    let errors: Vec<&Diagnostic> = said.iter().filter(|said| said.severity == Severity::Error).collect();
    let mut codes: Vec<&str> = errors.iter().map(|said| said.code).collect();
    codes.dedup();
    let why = errors.first().map_or_else(String::new, |said| said.message.clone());
    Row::refused(inputs, codes.join(" "), why)
}
