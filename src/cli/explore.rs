//! `swept explore`: one or two inputs over a range.

use super::Global;
use super::design_file::{DesignFile, parse_set};
use super::exit::Exit;
use super::output::{print, say};
use super::progress::Progress;
use super::render::render;
use clap::Args;
use std::path::{Path, PathBuf};
use swept::catalogue::Catalogue;
use swept::diagnostic::Diagnostic;
use swept::explore::{Input, Output, Shard, Sweep, Table, chart, merge};

const EXAMPLES: &str = "\
Examples:
  swept explore fan.toml --over piston.stroke=\"20 mm..36 mm\" --chart stroke.svg
  swept explore fan.toml --over engine.gas=\"air, helium\" --over drive.lead=\"60°..120°\"
  swept explore fan.toml --over targets.speed=\"100 rpm..900 rpm\" --shard 3/8 --csv 3.csv
  swept explore --merge 1.csv 2.csv 3.csv --csv all.csv --chart all.svg";

/// Size the engine over a range of one or two inputs: a table and a chart.
#[derive(Args)]
#[command(before_help = EXAMPLES)]
pub struct Explore {
    /// Design file; `-` reads it from stdin.
    #[arg(value_name = "DESIGN", required_unless_present = "merge", conflicts_with = "merge")]
    path: Option<PathBuf>,
    /// Override a key of the file at all points, for example --set engine.gas=helium.
    #[arg(long, value_name = "KEY=VALUE", value_parser = parse_set, conflicts_with = "merge")]
    set: Vec<(String, String)>,
    /// Input to sweep, a range "20 mm..36 mm" or a list "air, helium"; once or twice.
    #[arg(long, value_name = "KEY=VALUES", value_parser = parse_over, conflicts_with = "merge",
        required_unless_present = "merge")]
    over: Vec<(String, String)>,
    /// Values of a range, both ends counted; give it twice for unlike inputs [default: 41].
    #[arg(long, value_name = "COUNT", conflicts_with = "merge")]
    steps: Vec<usize>,
    /// Output to draw, for example efficiency; up to four over one input [default: power].
    #[arg(long, value_name = "OUTPUT", value_parser = Output::find)]
    what: Vec<&'static Output>,
    /// Table to write; `-` writes to stdout, which is usual when no chart is asked for.
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
    /// Chart to write as SVG; `-` writes to stdout.
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// Size one share of the points only, for example 3/8 on the third of eight machines.
    #[arg(long, value_name = "NUMBER/OF", value_parser = parse_shard, conflicts_with_all = ["merge", "chart"])]
    shard: Option<Shard>,
    /// Put the tables of all shards together.
    #[arg(long, value_name = "FILE", num_args = 1..)]
    merge: Vec<PathBuf>,
}

fn parse_over(option: &str) -> Result<(String, String), String> {
    let (key, values) =
        option.split_once('=').ok_or("write KEY=VALUES, for example piston.stroke=\"20 mm..36 mm\"")?;
    Ok((key.into(), values.into()))
}

fn parse_shard(option: &str) -> Result<Shard, String> {
    let parts = option
        .split_once('/')
        .and_then(|(number, of)| Shard::new(number.trim().parse().ok()?, of.trim().parse().ok()?));
    parts.ok_or_else(|| "write NUMBER/OF with 1 <= NUMBER <= OF, for example 3/8".into())
}

impl Explore {
    pub fn run(&self, global: &Global) -> Exit {
        let stdout = Path::new("-");
        if self.csv.as_deref() == Some(stdout) && self.chart.as_deref() == Some(stdout) {
            return usage("table and chart cannot both go to stdout; name a file for one of them");
        }
        let table = match &self.path {
            Some(path) => self.sweep(global, path),
            None => self.merged(),
        };
        match table {
            Ok(table) => self.write(global, &table),
            Err(exit) => exit,
        }
    }

    /// The table of a sweep.
    fn sweep(&self, global: &Global, path: &Path) -> Result<Table, Exit> {
        let design = DesignFile::new(path.to_owned(), self.set.clone());
        let (name, bytes) = design.bytes()?;
        let shelf = design.shelf(&bytes, false)?;
        let book = shelf.as_ref().map_or_else(|| Catalogue::standard().as_ref(), |shelf| &*shelf.catalogue);
        let inputs = self.inputs(book).map_err(|said| refuse(&said))?;
        if self.steps.len() > inputs.len() {
            return Err(usage("--steps is given more often than --over"));
        }
        let sweep = Sweep::with_shelf(&name, bytes, self.set.clone(), shelf, inputs).map_err(|said| {
            let line = said.iter().all(|said| said.code == "swept::explore");
            say(&render(&said));
            if line { Exit::Usage } else { Exit::Design }
        })?;
        if !sweep.warnings().is_empty() {
            say(&render(sweep.warnings()));
        }
        let shard = self.shard.unwrap_or(Shard::WHOLE);
        let points = shard.points(sweep.total()).len();
        if points == 0 {
            return Err(usage(&format!(
                "shard {shard} is empty: the sweep has {} points only",
                sweep.total()
            )));
        }
        let progress = Progress::new(global, points);
        let table = sweep.run(shard, &|| progress.step());
        let taken = progress.end();
        if global.verbose {
            let rate = points as f64 / taken.as_secs_f64();
            say(&format!("{points} points in {:.2} s, {rate:.0} points a second", taken.as_secs_f64()));
        }
        Ok(table)
    }

    /// The inputs, or everything that is wrong with them.
    fn inputs(&self, book: &Catalogue) -> Result<Vec<Input>, Vec<Diagnostic>> {
        let steps = |i: usize| self.steps.get(i).or(self.steps.last()).copied();
        let read =
            self.over.iter().enumerate().map(|(i, (key, text))| Input::read_in(book, key, text, steps(i)));
        let (good, bad): (Vec<_>, Vec<_>) = read.partition(Result::is_ok);
        match bad.is_empty() {
            true => Ok(good.into_iter().filter_map(Result::ok).collect()),
            false => Err(bad.into_iter().filter_map(Result::err).collect()),
        }
    }

    /// The table of all shards.
    fn merged(&self) -> Result<Table, Exit> {
        let wrong = |text: String, exit| {
            say(&format!("swept: {text}"));
            exit
        };
        let read = |path: &PathBuf| {
            let name = path.display().to_string();
            let bytes = std::fs::read(path)
                .map_err(|error| wrong(format!("could not read {name}: {error}"), Exit::File))?;
            let table =
                Table::from_csv(&name, &bytes).map_err(|error| wrong(error.to_string(), Exit::Design))?;
            Ok((name, table))
        };
        let tables = self.merge.iter().map(read).collect::<Result<Vec<_>, Exit>>()?;
        merge(tables).map_err(|error| wrong(error.to_string(), Exit::Design))
    }

    /// Writes table and chart; the chart is made first, so that nothing is written when it cannot be.
    fn write(&self, global: &Global, table: &Table) -> Exit {
        let chart = match self.chart.as_ref().map(|path| Ok((path, chart(table, &self.what)?))) {
            Some(Err::<_, swept::explore::ChartError>(error)) => {
                say(&format!("swept: {error}"));
                return Exit::Design;
            }
            Some(Ok(chart)) => Some(chart),
            None => None,
        };
        let bytes = match table.to_csv() {
            Ok(bytes) => bytes,
            Err(error) => {
                say(&format!("swept: could not form the table: {error}"));
                return Exit::Internal;
            }
        };
        let stdout = PathBuf::from("-");
        let csv = self.csv.as_ref().or(if chart.is_none() { Some(&stdout) } else { None });
        let files = csv.map(|path| (path, bytes)).into_iter();
        for (path, bytes) in files.chain(chart.map(|(path, text)| (path, text.into_bytes()))) {
            let exit = put(path, &bytes);
            if exit != Exit::Done {
                return exit;
            }
        }
        if !global.quiet {
            say(&summary(table, &self.what));
        }
        Exit::Done
    }
}

/// Writes a file, or to stdout.
fn put(path: &Path, bytes: &[u8]) -> Exit {
    if path == Path::new("-") {
        return print(&String::from_utf8_lossy(bytes));
    }
    match swept::export::file::write(path, bytes) {
        Ok(()) => Exit::Done,
        Err(error) => {
            say(&format!("swept: could not write {}: {error}", path.display()));
            Exit::File
        }
    }
}

/// How many points there are, which are refused, which is best.
fn summary(table: &Table, what: &[&'static Output]) -> String {
    let refused: usize = table.refusals().iter().map(|(_, count)| count).sum();
    let mut text = format!("{}: {} points, {refused} refused", table.mark.engine, table.rows.len());
    for (codes, count) in table.refusals() {
        text += &format!("\n  refused by {codes}: {count}");
    }
    let usual = || ["shaft-power", "indicated-power"].into_iter().filter_map(|name| Output::find(name).ok());
    let chosen: Vec<&Output> = match what {
        [] => usual().find(|output| table.knows(output)).into_iter().collect(),
        some => some.to_vec(),
    };
    for output in chosen {
        if let Some((row, value)) = table.best(output) {
            text += &format!("\n  most {}: {value} {} at {}", output.title, output.unit, table.place(row));
        }
    }
    text
}

fn usage(text: &str) -> Exit {
    say(&format!("swept: {text}"));
    Exit::Usage
}

fn refuse(said: &[Diagnostic]) -> Exit {
    say(&render(said));
    Exit::Usage
}
