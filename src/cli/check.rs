//! `swept check`: reads a design and says everything that is wrong with it.

use super::Global;
use super::design_file::DesignFile;
use super::exit::Exit;
use super::output::say;
use clap::Args;

/// Read a design and say everything that is wrong with the file.
#[derive(Args)]
#[command(before_help = "Example:\n  swept check my-engine.toml --set piston.stroke=\"28 mm\"")]
pub struct Check {
    #[command(flatten)]
    design: DesignFile,
}

impl Check {
    pub fn run(&self, global: &Global) -> Exit {
        match self.design.load(global, false) {
            Err(exit) => exit,
            Ok(loaded) => {
                let record = loaded.draft.record();
                let left = record.iter().filter(|entry| entry.text.is_none()).count();
                if !global.quiet {
                    let name = record.iter().find(|entry| entry.path == "engine.name");
                    let name = name.and_then(|entry| entry.text.as_deref()).unwrap_or_default();
                    let open = match loaded.draft.openings().len() {
                        0 => String::new(),
                        open => format!(", {open} are open and searched for"),
                    };
                    say(&format!("{name}: the file is sound, {left} keys are left to sizing{open}"));
                }
                Exit::Done
            }
        }
    }
}
