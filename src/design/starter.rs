//! A commented design file to begin with.

use super::choice::Layout;
use super::key::{Key, Kind, Presence};
use super::keys::Design;
use super::shelf::SHELF;

const HEAD: &str = "\
# Design file of a small hot-air engine.
#
# Every quantity is text with its unit: \"28 mm\", \"1 1/2 in\", \"500 °C\", \"2 bar abs\", \"1 bar gauge\", \"300 rpm\".
# Whole numbers stand without quotation marks: rings = 2.
# Take away the # before a line to decide that value yourself; what you leave out gets the default that is shown, or is
# decided by sizing. Bores and strokes that you leave out are searched for the power wanted; \"open\" does the same where
# it is allowed.
";

/// A commented design file for a layout, with every key. It reads without a mistake as it is.
pub fn starter(layout: Layout, name: &str) -> String {
    let mut text = String::from(HEAD);
    for table in Design::TABLES {
        text += &format!("\n# {}\n[{}]\n", table.doc.trim(), table.name);
        for key in table.keys {
            text += &key_lines(table.name, key, layout, name);
        }
    }
    text
}

fn key_lines(table: &str, key: &Key, layout: Layout, name: &str) -> String {
    let allowed = key.kind.allowed();
    let doc = format!("# {} Allowed: {allowed}.", key.doc.trim());
    if let Kind::List(keys) = key.kind {
        return format!("{doc}\n{}", list_lines(&format!("{table}.{}", key.name), keys));
    }
    let shown = |text: &str| format!("{} = {}", key.name, key.kind.toml(text));
    match key.presence {
        Presence::Required(example) | Presence::Sought(example) => {
            let text = match (table, key.name) {
                ("engine", "name") => name,
                ("engine", "layout") => layout.name(),
                _ => example,
            };
            format!("{doc}\n{}\n", shown(text))
        }
        Presence::Default(text, why) => format!("{doc}\n# Default: {why}.\n# {}\n", shown(text)),
        Presence::Open(what) => format!("{doc}\n# {}.\n# {}\n", capital(what), shown(&blank(&key.kind))),
    }
}

/// A value still to be written.
fn blank(kind: &Kind) -> String {
    match kind {
        Kind::Quantity { dimension, .. } | Kind::Quantities { dimension, .. } => {
            format!("... {}", dimension.units()[0].symbols[0])
        }
        _ => "...".into(),
    }
}

fn list_lines(path: &str, keys: &[Key]) -> String {
    let mut text = format!("# [[{path}]]\n");
    for key in keys {
        if let Kind::List(inner) = key.kind {
            text += &list_lines(&format!("{path}.{}", key.name), inner);
            continue;
        }
        let (value, about) = match key.presence {
            Presence::Required(example) | Presence::Sought(example) => (example.to_string(), "must be given"),
            Presence::Open(what) => (blank(&key.kind), what),
            Presence::Default(default, why) => (default.to_string(), why),
        };
        let line = format!("{} = {}", key.name, key.kind.toml(&value));
        text += &format!("# {line} # {} ({about})\n", key.doc.trim().trim_end_matches('.'));
    }
    text
}

const SHELF_HEAD: &str = "\
# Shelf file: what you have, put over the tables of the program. A design beside it names it: [workshop] shelf = \"...\".
#
# An entry with the name of a known thing stands over it and keeps what you do not write; something new wants all its keys,
# or like = \"...\" with the name of a known thing that it resembles. `swept catalogue` lists what the program knows.
# Take away the # before the lines of an entry to use it, and copy it for the next one.
";

/// A commented shelf file with every list and key. It reads without a mistake as it is.
pub fn shelf_starter() -> String {
    let lists =
        SHELF.iter().map(|table| format!("\n# {}\n{}", table.doc.trim(), list_lines(table.name, table.keys)));
    SHELF_HEAD.to_owned() + &lists.collect::<String>()
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}
