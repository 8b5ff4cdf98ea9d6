//! `swept catalogue`: what names are known, with sizes and where they stand.

use super::design_file::read_shelf_file;
use super::exit::Exit;
use super::output::{print, say};
use clap::Args;
use std::path::PathBuf;
use std::sync::Arc;
use swept::catalogue::listing::{Listing, listings};
use swept::catalogue::{Catalogue, nearest};

/// List what the catalogue knows: bearings, screws, belts, materials and more.
#[derive(Args)]
#[command(
    name = "catalogue",
    before_help = "Examples:\n  swept catalogue\n  swept catalogue bearings\n  swept catalogue stainless\n  swept catalogue materials --shelf shelf.toml"
)]
pub struct Show {
    /// Name of a list, or a word in the entries; without it the lists are named.
    #[arg(value_name = "WORD")]
    word: Option<String>,
    /// Your shelf file, to see what it adds.
    #[arg(long, value_name = "FILE")]
    shelf: Option<PathBuf>,
}

impl Show {
    pub fn run(&self) -> Exit {
        let book = match self.shelf.as_ref().map(|path| read_shelf_file(path, false)) {
            Some(Err(exit)) => return exit,
            Some(Ok(shelf)) => shelf.catalogue,
            None => Arc::clone(Catalogue::standard()),
        };
        let lists = listings(&book);
        match &self.word {
            None => print(&names(&lists)),
            Some(word) => found(&lists, word),
        }
    }
}

fn names(lists: &[Listing]) -> String {
    lists.iter().map(|list| format!("{:<16} {:>4} entries\n", list.name, list.rows.len())).collect()
}

/// The list of this name, else all entries with the word.
fn found(lists: &[Listing], word: &str) -> Exit {
    if let Some(list) = lists.iter().find(|list| list.name == word.to_lowercase()) {
        return print(&list.text());
    }
    let some = lists.iter().map(|list| list.with(word)).filter(|list| !list.rows.is_empty());
    let texts: Vec<String> = some.map(|list| list.text()).collect();
    if texts.is_empty() {
        let near = nearest(word, lists.iter().map(|list| list.name)).unwrap_or_default();
        say(&format!("swept: nothing in the catalogue is called {word:?}; the nearest list is {near}"));
        return Exit::Usage;
    }
    print(&texts.join("\n"))
}
