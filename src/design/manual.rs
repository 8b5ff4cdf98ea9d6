//! The keys as a table for the manual.

use super::key::{Key, Kind, Presence};
use super::keys::Design;

/// All keys as Markdown tables, one for each table of the design file.
pub fn keys_markdown() -> String {
    let tables = Design::TABLES.iter().map(|table| {
        let title = format!("### `[{}]`\n\n{}\n\n", table.name, table.doc.trim());
        let lists = table.keys.iter().filter_map(|key| match key.kind {
            Kind::List(keys) => {
                Some(format!("\nAn entry `[[{}.{}]]`:\n\n{}", table.name, key.name, rows(keys)))
            }
            _ => None,
        });
        title + &rows(table.keys) + &lists.collect::<String>()
    });
    tables.collect::<Vec<_>>().join("\n")
}

fn rows(keys: &[Key]) -> String {
    let head = "| key | meaning | allowed | when left out |\n|---|---|---|---|\n";
    keys.iter().fold(head.to_string(), |text, key| text + &row(key))
}

fn row(key: &Key) -> String {
    let absent = match key.presence {
        Presence::Required(_) => "must be given".to_string(),
        Presence::Sought(_) => "open: found for `targets.power`".to_string(),
        Presence::Open(what) => what.trim_start_matches("left out: ").to_string(),
        Presence::Default(text, why) => format!("`{}`: {why}", key.kind.toml(text)),
    };
    format!("| `{}` | {} | {} | {absent} |\n", key.name, key.doc.trim(), key.kind.allowed())
}
