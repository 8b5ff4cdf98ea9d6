//! Reading the design that a command works on.

use super::Global;
use super::exit::Exit;
use super::output::{print, say};
use super::progress::SearchProgress;
use super::render::render;
use clap::Args;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};
use swept::design::{Draft, Entry, LARGEST_FILE, Shelf, Source, read_draft_with, read_shelf, shelf_named};
use swept::diagnostic::Diagnostic;
use swept::sizing::result::SCHEMA_VERSION;
use swept::sizing::search::{Settled, settle};

/// The design file and its overrides: the arguments of every command that works on a design.
#[derive(Args)]
pub struct DesignFile {
    /// Design file; `-` reads it from stdin.
    #[arg(value_name = "DESIGN")]
    path: PathBuf,
    /// Override a key of the file, for example --set piston.stroke="28 mm".
    #[arg(long, value_name = "KEY=VALUE", value_parser = parse_set)]
    set: Vec<(String, String)>,
}

impl DesignFile {
    /// For a command that takes its design file and overrides in another way.
    pub fn new(path: PathBuf, set: Vec<(String, String)>) -> Self {
        Self { path, set }
    }

    /// Reads the design and says everything that is to be said about it; with `json` what is wrong becomes one JSON
    /// document on stdout.
    ///
    /// # Errors
    /// How the program should end when the design cannot be used.
    pub fn load(&self, global: &Global, json: bool) -> Result<Loaded, Exit> {
        let (name, bytes) = self.bytes()?;
        let shelf = self.shelf(&bytes, json)?;
        match read_draft_with(&name, &bytes, &self.set, shelf.as_ref()) {
            Ok((draft, warnings)) => {
                if !warnings.is_empty() {
                    say(&render(&warnings));
                }
                if global.verbose {
                    say_defaults(&draft.record());
                }
                Ok(Loaded { name, bytes, sets: self.set.clone(), shelf, draft })
            }
            Err(said) => Err(refuse(&said, json)),
        }
    }

    /// The shelf file that the design in `bytes` names, if it names one.
    ///
    /// # Errors
    /// When it cannot be read, or something is wrong with it.
    pub fn shelf(&self, bytes: &[u8], json: bool) -> Result<Option<Shelf>, Exit> {
        let Some(name) = shelf_named(bytes, &self.set) else { return Ok(None) };
        read_shelf_file(&self.path.parent().unwrap_or(Path::new("")).join(name), json).map(Some)
    }

    /// Text of a file that the design names, looked for beside the design.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn beside(&self, name: &str) -> Result<String, Exit> {
        let path = self.path.parent().unwrap_or(Path::new("")).join(name);
        std::fs::read_to_string(&path).map_err(|error| {
            say(&format!("swept: could not read {}: {error}", path.display()));
            Exit::File
        })
    }

    /// Name and content of the file.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn bytes(&self) -> Result<(String, Vec<u8>), Exit> {
        let stdin = self.path == Path::new("-");
        let name = if stdin { "<stdin>".into() } else { self.path.display().to_string() };
        let bytes = if stdin {
            read_start(std::io::stdin().lock())
        } else {
            File::open(&self.path).and_then(read_start)
        };
        bytes.map(|bytes| (name.clone(), bytes)).map_err(|error| {
            say(&format!("swept: could not read {name}: {error}"));
            Exit::File
        })
    }
}

/// A design as it was read.
pub struct Loaded {
    /// Name of the file, as the user gave it.
    pub name: String,
    /// The file.
    pub bytes: Vec<u8>,
    /// The overrides.
    pub sets: Vec<(String, String)>,
    /// The shelf file that the design names.
    pub shelf: Option<Shelf>,
    /// The design, which may have openings.
    pub draft: Draft,
}

impl Loaded {
    /// Finds what is open, with progress on stderr.
    ///
    /// # Errors
    /// How the program should end when there is no such engine.
    pub fn settled(&self, global: &Global, json: bool) -> Result<Settled, Exit> {
        let progress = SearchProgress::new(global);
        let settled = settle(&self.draft, &progress);
        progress.end();
        settled.map_err(|said| refuse(&said, json))
    }
}

/// Reads a shelf file.
///
/// # Errors
/// When it cannot be read, or something is wrong with it.
pub fn read_shelf_file(path: &Path, json: bool) -> Result<Shelf, Exit> {
    let name = path.display().to_string();
    let bytes = File::open(path).and_then(read_start).map_err(|error| {
        say(&format!("swept: could not read {name}: {error}"));
        Exit::File
    })?;
    read_shelf(&name, &bytes).map_err(|said| refuse(&said, json))
}

/// Says what is wrong with a design: to people, or as a JSON document.
pub fn refuse(said: &[Diagnostic], json: bool) -> Exit {
    if !json {
        say(&render(said));
        return Exit::Design;
    }
    let document = serde_json::json!({ "schema_version": SCHEMA_VERSION, "diagnostics": said });
    match print(&format!("{document:#}\n")) {
        Exit::Done => Exit::Design,
        other => other,
    }
}

/// Reads to the end, or as far as it takes to see that this is too large for a design.
fn read_start(from: impl Read) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(LARGEST_FILE as u64 + 1).read_to_end(&mut bytes).map(|_| bytes)
}

/// Splits `KEY=VALUE`.
pub fn parse_set(option: &str) -> Result<(String, String), String> {
    let (key, value) =
        option.split_once('=').ok_or("write KEY=VALUE, for example piston.stroke=\"28 mm\"")?;
    Ok((key.into(), value.into()))
}

fn say_defaults(record: &[Entry]) {
    for entry in record {
        if let (Some(text), Some(Source::Default { why })) = (&entry.text, &entry.from) {
            say(&format!("default: {} = {text:?}: {why}", entry.path));
        }
    }
}
