//! `swept build`: writes the output folder.

use super::Global;
use super::checks;
use super::design_file::{DesignFile, refuse};
use super::exit::Exit;
use super::output::{print, say};
use super::render::render;
use super::size::{searched, summary};
use super::unchanged;
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;
use swept::design::Design;
use swept::diagnostic::Diagnostic;
use swept::export::change::{Changes, compare};
use swept::export::folder::{Folder, FolderError, Planned, State, Summary};
use swept::export::manifest::{Manifest, SCHEMA_VERSION};
use swept::export::stamp::{Made, Said, Stamp};
use swept::pipeline::{Built, build_over};
use swept::sizing::search::report::Report;

/// Write solids, outlines, drawings and lists of every part; only what changed is written.
#[derive(Args)]
#[command(
    before_help = "Examples:\n  swept build my-engine.toml\n  swept build my-engine.toml --set piston.stroke=\"27 mm\"\n  swept build my-engine.toml --dry-run"
)]
pub struct BuildCommand {
    #[command(flatten)]
    design: DesignFile,
    /// Folder that holds a folder for each engine [default: output].
    #[arg(short, long, value_name = "FOLDER", default_value = "output", hide_default_value = true)]
    out: PathBuf,
    /// Say what would be written and write nothing.
    #[arg(long)]
    dry_run: bool,
    /// Print one JSON document with every file and its state, also when the design is wrong.
    #[arg(long)]
    json: bool,
}

impl BuildCommand {
    pub fn run(&self, global: &Global) -> Exit {
        self.built(global).unwrap_or_else(|exit| exit)
    }

    fn built(&self, global: &Global) -> Result<Exit, Exit> {
        let loaded = self.design.load(global, self.json)?;
        let title_block = loaded.draft.text("drawings", "title_block");
        let title_block = title_block.map(|name| self.design.beside(name)).transpose()?;
        let inputs = unchanged::inputs(&loaded, title_block.as_deref());
        if let Some(name) = loaded.draft.text("engine", "name") {
            let folder = Folder::new(self.out.join(name));
            if let Some(stamp) = inputs.as_deref().and_then(|inputs| folder.unchanged(inputs)) {
                return Ok(self.tell_again(global, &folder, stamp));
            }
        }
        let settled = loaded.settled(global, self.json)?;
        if let Some(report) = settled.report.as_ref().filter(|report| !report.met) {
            return Err(refuse(&[out_of_reach(report)], self.json));
        }
        let design = settled.design;
        let folder = Folder::new(self.out.join(&design.engine.name.value));
        let before = folder.manifest().map_err(|error| not_written(&error))?;
        let before = before.and_then(|bytes| Manifest::from_json(&bytes).ok());
        let built = build_over(&design, title_block.as_deref(), before.as_ref());
        let built = built.map_err(|said| refuse(&said, self.json))?;
        let changes = before.map(|old| compare(&old, &built.manifest)).unwrap_or_default();
        let found = settled.report.as_ref().map_or_else(String::new, searched);
        let said = said(&design, &built, &found);
        let exit =
            self.write(global, &said, (&built, &changes), &folder).map_err(|error| not_written(&error))?;
        if let Some(inputs) = inputs.filter(|_| !self.dry_run) {
            // without a stamp the next build is a full one: no reason to fail
            let _ = folder.keep_stamp(&Stamp::new(&inputs, &built.files, said));
        }
        Ok(exit)
    }

    /// Says what the last build said, where nothing has changed since.
    fn tell_again(&self, global: &Global, folder: &Folder, stamp: Stamp) -> Exit {
        if global.verbose {
            say("design, program and files are those of the last build: nothing is worked out again");
        }
        let same = |made: &Made| Planned {
            path: made.listed.path.clone(),
            state: State::Same,
            size_bytes: made.size_bytes,
        };
        let plan: Vec<Planned> = stamp.files.iter().map(same).collect();
        let changes = Changes { same: stamp.said.parts, ..Changes::default() };
        if self.json {
            return self.print_json(folder, plan, &changes, stamp.said.warnings);
        }
        self.warn(global, &stamp.said.shown);
        if self.dry_run {
            return print(&(stamp.said.summary + &listed(&plan)));
        }
        let summary = Summary { unchanged: plan.len(), ..Summary::default() };
        self.finish(global, &(stamp.said.summary + &stamp.said.counts), &summary, folder)
    }

    fn write(
        &self,
        global: &Global,
        said: &Said,
        (built, changes): (&Built, &Changes),
        folder: &Folder,
    ) -> Result<Exit, FolderError> {
        self.warn(global, &said.shown);
        if self.json {
            let plan = folder.plan(&built.files)?;
            if !self.dry_run {
                folder.write(&built.files)?;
            }
            return Ok(self.print_json(folder, plan, changes, said.warnings.clone()));
        }
        let text = said.summary.clone() + &changed(changes);
        if self.dry_run {
            return Ok(print(&(text + &listed(&folder.plan(&built.files)?))));
        }
        let summary = folder.write(&built.files)?;
        Ok(self.finish(global, &(text + &said.counts), &summary, folder))
    }

    fn warn(&self, global: &Global, shown: &str) {
        if !shown.is_empty() && !global.quiet && !self.json {
            say(shown);
        }
    }

    /// The last lines of a build that was written.
    fn finish(&self, global: &Global, text: &str, summary: &Summary, folder: &Folder) -> Exit {
        let exit = print(&format!("{text}{}\n", summary.text(folder.root())));
        if !global.quiet {
            say(&format!(
                "next: look at {}/drawings, send {}/step to the machine",
                folder.root().display(),
                folder.root().display()
            ));
        }
        exit
    }

    fn print_json(
        &self,
        folder: &Folder,
        files: Vec<Planned>,
        changes: &Changes,
        warnings: serde_json::Value,
    ) -> Exit {
        let told = Told {
            schema_version: SCHEMA_VERSION,
            folder: folder.root().display().to_string(),
            written: !self.dry_run,
            files,
            decided_anew: changes.decided.iter().map(|d| d.text()).collect(),
            parts_changed: changes.parts.iter().map(|p| p.text()).collect(),
            parts_same: changes.same,
            warnings,
        };
        match serde_json::to_string_pretty(&told) {
            Ok(text) => print(&(text + "\n")),
            Err(error) => {
                say(&format!("swept: could not write the result as JSON: {error}"));
                Exit::Internal
            }
        }
    }
}

/// Says why the folder cannot be read or written.
fn not_written(error: &FolderError) -> Exit {
    say(&format!("swept: {error}"));
    match error {
        FolderError::BadSet(_) => Exit::Internal,
        _ => Exit::File,
    }
}

/// What a build says beside what it wrote.
fn said(design: &Design, built: &Built, found: &str) -> Said {
    let summary = summary(design, &built.sized) + found + &checks::not_passed(&built.sized.answer.checks);
    Said {
        summary,
        counts: format!("  {}\n", built.manifest.counts.text()),
        parts: built.manifest.parts.len(),
        shown: if built.warnings.is_empty() { String::new() } else { render(&built.warnings) },
        warnings: serde_json::json!(built.warnings),
    }
}

/// A line for each file.
fn listed(plan: &[Planned]) -> String {
    let line =
        |file: &Planned| format!("  {:<9} {:>9} bytes  {}\n", word(file.state), file.size_bytes, file.path);
    plan.iter().map(line).collect()
}

/// What is done or would be done to each file, in words of a machine.
#[derive(Serialize)]
struct Told {
    schema_version: u32,
    folder: String,
    written: bool,
    files: Vec<Planned>,
    /// Dimensions decided anew since the last build, in words.
    decided_anew: Vec<String>,
    /// Parts that change, in words.
    parts_changed: Vec<String>,
    parts_same: usize,
    warnings: serde_json::Value,
}

/// No parts are made of an engine that cannot do what it is for, unless its builder has settled for it.
fn out_of_reach(report: &Report) -> Diagnostic {
    let text = format!(
        "the design asks for {} W at {:.0} rpm and {:.1} W are the most that can be had; nothing is written",
        report.target_w, report.speed_rpm, report.middle_case_w
    );
    Diagnostic::error("swept::target", text)
        .allowed("a power that can be had inside the limits")
        .hint("`swept size` with the same file says what would lift it; with --write-settled FILE it writes the best that can be had into a file that you can build all the same")
}

fn word(state: State) -> &'static str {
    match state {
        State::New => "new",
        State::Changed => "changed",
        State::Edited => "edited",
        State::Same => "same",
        State::Removed => "removed",
        State::Kept => "kept",
    }
}

/// What differs from the last build: numbers of the engine, then parts.
fn changed(changes: &Changes) -> String {
    let mut text = String::new();
    if !changes.decided.is_empty() {
        text += "decided anew\n";
        changes.decided.iter().for_each(|d| text += &format!("  {}\n", d.text()));
    }
    if !changes.parts.is_empty() {
        text += "parts that change\n";
        changes.parts.iter().for_each(|p| text += &format!("  {}\n", p.text()));
        text += &format!("  {} parts stay as they are\n", changes.same);
    }
    text
}
