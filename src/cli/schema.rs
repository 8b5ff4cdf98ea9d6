//! `swept schema`: the JSON Schema of the design file and of the shelf file.

use super::exit::Exit;
use super::output::print;
use clap::Args;

/// Print the JSON Schema of the design file or the shelf file, so that an editor completes and checks it.
#[derive(Args)]
#[command(before_help = "Example:\n  swept schema > swept.schema.json")]
pub struct Schema {
    /// Of the shelf file.
    #[arg(long)]
    shelf: bool,
}

impl Schema {
    pub fn run(&self) -> Exit {
        let schema = if self.shelf { swept::design::shelf_schema() } else { swept::design::schema() };
        print(&format!("{schema:#}\n"))
    }
}
