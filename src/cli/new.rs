//! `swept new`: a commented starter design.

use super::Global;
use super::exit::Exit;
use super::output::{print, say};
use clap::Args;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use swept::design::{Layout, folder_safe, shelf_starter, starter};

/// Write a commented starter design, or shelf file; a file that exists is left alone.
#[derive(Args)]
#[command(before_help = "Examples:\n  swept new my-engine.toml\n  swept new --shelf shelf.toml")]
pub struct New {
    /// File to write; `-` writes to stdout.
    #[arg(value_name = "FILE")]
    path: PathBuf,
    /// How cylinders and cranks are arranged [default: gamma-twin-crank].
    #[arg(long, value_name = "LAYOUT", value_parser = parse_layout, default_value = "gamma-twin-crank",
        hide_default_value = true)]
    layout: Layout,
    /// Write a shelf file: what you have, put over the tables of the program.
    #[arg(long, conflicts_with = "layout")]
    shelf: bool,
}

fn parse_layout(name: &str) -> Result<Layout, String> {
    Layout::from_name(name).ok_or_else(|| format!("known layouts: {}", Layout::NAMES.join(", ")))
}

impl New {
    pub fn run(&self, global: &Global) -> Exit {
        let text = match self.shelf {
            true => shelf_starter(),
            false => starter(self.layout, &engine_name(&self.path)),
        };
        if self.path == Path::new("-") {
            return print(&text);
        }
        let shown = self.path.display();
        match write_new(&self.path, &text) {
            Ok(()) => {
                if !global.quiet {
                    let next = match self.shelf {
                        true => format!("name it in a design: [workshop] shelf = \"{shown}\""),
                        false => format!("swept check {shown}"),
                    };
                    say(&format!("wrote {shown}\nnext: {next}"));
                }
                Exit::Done
            }
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {
                say(&format!("swept: {shown} exists and is left alone; choose another name"));
                Exit::File
            }
            Err(error) => {
                say(&format!("swept: could not write {shown}: {error}"));
                Exit::File
            }
        }
    }
}

/// The engine is called like its file, as far as a folder can be.
fn engine_name(path: &Path) -> String {
    let stem = path.file_stem().map(|stem| folder_safe(&stem.to_string_lossy())).unwrap_or_default();
    if stem.is_empty() { "my-engine".into() } else { stem }
}

/// Writes a file that must not exist yet.
fn write_new(path: &Path, text: &str) -> std::io::Result<()> {
    OpenOptions::new().write(true).create_new(true).open(path)?.write_all(text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_engine_is_called_like_its_file() {
        assert_eq!(engine_name(Path::new("dir/My Fan.toml")), "my-fan");
        assert_eq!(engine_name(Path::new("-")), "my-engine");
        assert_eq!(engine_name(Path::new("2.toml")), "my-engine");
    }
}
