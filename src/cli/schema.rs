//! `swept schema`: the JSON Schema of the design file.

use super::exit::Exit;
use super::output::print;
use clap::Args;

/// Print the JSON Schema of the design file, so that an editor completes and checks it.
#[derive(Args)]
#[command(before_help = "Example:\n  swept schema > swept.schema.json")]
pub struct Schema {}

impl Schema {
    pub fn run(&self) -> Exit {
        print(&format!("{:#}\n", swept::design::schema()))
    }
}
