//! `swept build`: writes the output folder.

use super::Global;
use super::checks;
use super::design_file::{DesignFile, refuse};
use super::exit::Exit;
use super::output::{print, say};
use super::render::render;
use super::size::{searched, summary};
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;
use swept::design::Design;
use swept::diagnostic::Diagnostic;
use swept::export::change::{Changes, compare};
use swept::export::folder::{Folder, FolderError, Planned, State};
use swept::export::manifest::{Manifest, SCHEMA_VERSION};
use swept::pipeline::{Built, build};
use swept::sizing::search::Settled;
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
        let settled = match self.settled(global) {
            Ok(settled) => settled,
            Err(exit) => return exit,
        };
        if let Some(report) = settled.report.as_ref().filter(|report| !report.met) {
            return refuse(&[out_of_reach(report)], self.json);
        }
        let design = settled.design;
        let title_block =
            match design.drawings.title_block.as_ref().map(|name| self.design.beside(&name.value)) {
                Some(Err(exit)) => return exit,
                Some(Ok(text)) => Some(text),
                None => None,
            };
        let built = match build(&design, title_block.as_deref()) {
            Ok(built) => built,
            Err(said) => return refuse(&said, self.json),
        };
        if !built.warnings.is_empty() && !global.quiet && !self.json {
            say(&render(&built.warnings));
        }
        let folder = Folder::new(self.out.join(&design.engine.name.value));
        let found = settled.report.as_ref().map_or_else(String::new, searched);
        match self.write(global, &found, &design, &built, &folder) {
            Ok(exit) => exit,
            Err(error) => {
                say(&format!("swept: {error}"));
                match error {
                    FolderError::BadSet(_) => Exit::Internal,
                    _ => Exit::File,
                }
            }
        }
    }

    fn settled(&self, global: &Global) -> Result<Settled, Exit> {
        self.design.load(global, self.json)?.settled(global, self.json)
    }

    fn write(
        &self,
        global: &Global,
        found: &str,
        design: &Design,
        built: &Built,
        folder: &Folder,
    ) -> Result<Exit, FolderError> {
        let old = folder.manifest()?.and_then(|bytes| Manifest::from_json(&bytes).ok());
        let changes = old.map(|old| compare(&old, &built.manifest)).unwrap_or_default();
        if self.json {
            return self.tell_json(built, folder, &changes);
        }
        let mut text =
            summary(design, &built.sized) + found + &checks::not_passed(&built.sized.answer.checks);
        text += &changed(&changes);
        if self.dry_run {
            for file in folder.plan(&built.files)? {
                text += &format!("  {:<9} {:>9} bytes  {}\n", word(file.state), file.size_bytes, file.path);
            }
            return Ok(print(&text));
        }
        let summary = folder.write(&built.files)?;
        text += &format!("  {}\n{}\n", built.manifest.counts.text(), summary.text(folder.root()));
        let exit = print(&text);
        if !global.quiet {
            say(&format!(
                "next: look at {}/drawings, send {}/step to the machine",
                folder.root().display(),
                folder.root().display()
            ));
        }
        Ok(exit)
    }

    fn tell_json(&self, built: &Built, folder: &Folder, changes: &Changes) -> Result<Exit, FolderError> {
        let told = Told {
            schema_version: SCHEMA_VERSION,
            folder: folder.root().display().to_string(),
            written: !self.dry_run,
            files: folder.plan(&built.files)?,
            decided_anew: changes.decided.iter().map(|d| d.text()).collect(),
            parts_changed: changes.parts.iter().map(|p| p.text()).collect(),
            parts_same: changes.same,
            warnings: &built.warnings,
        };
        let text = match serde_json::to_string_pretty(&told) {
            Ok(text) => text,
            Err(error) => {
                say(&format!("swept: could not write the result as JSON: {error}"));
                return Ok(Exit::Internal);
            }
        };
        if !self.dry_run {
            folder.write(&built.files)?;
        }
        Ok(print(&(text + "\n")))
    }
}

/// What is done or would be done to each file, in words of a machine.
#[derive(Serialize)]
struct Told<'a> {
    schema_version: u32,
    folder: String,
    written: bool,
    files: Vec<Planned>,
    /// Dimensions decided anew since the last build, in words.
    decided_anew: Vec<String>,
    /// Parts that change, in words.
    parts_changed: Vec<String>,
    parts_same: usize,
    warnings: &'a [Diagnostic],
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
