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
        match self.design.load(global) {
            Err(exit) => exit,
            Ok(design) => {
                let given = design.record.iter().filter(|entry| entry.text.is_some()).count();
                let open = design.record.len() - given;
                if !global.quiet {
                    let name = &design.engine.name.value;
                    say(&format!("{name}: the file is sound, {open} keys are left to sizing"));
                }
                Exit::Done
            }
        }
    }
}
