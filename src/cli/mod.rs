//! The command line: a file for each command. Results go to stdout, talk to stderr.

mod build;
mod catalogue;
mod check;
mod checks;
mod design_file;
mod exit;
mod explore;
mod new;
mod output;
mod progress;
mod render;
mod schema;
mod size;
mod unchanged;

use clap::{Args, CommandFactory, FromArgMatches, Parser, Subcommand};
use exit::Exit;
use std::process::ExitCode;

const EXAMPLES: &str = "\
Examples:
  swept new my-engine.toml          write a commented starter design
  swept check my-engine.toml        say everything that is wrong with it
  swept size my-engine.toml         say what the engine will do, and why
  swept build my-engine.toml        write all parts to output/my-engine
  swept explore my-engine.toml --over piston.stroke=\"20 mm..36 mm\"  sweep an input
  swept catalogue bearings          list what names are known
  swept schema > swept.schema.json  let the editor complete and check it";

const EXITS: &str = "\
Exit codes:
  0   done
  1   the design is wrong or a check failed
  2   the command line is wrong
  3   a file could not be read or written
  70  a mistake in swept itself";

/// From one design file of a small hot-air engine to parts you can cut.
#[derive(Parser)]
#[command(version, before_help = EXAMPLES, after_help = EXITS, max_term_width = 100)]
struct Cli {
    #[command(flatten)]
    global: Global,
    #[command(subcommand)]
    command: Command,
}

/// Options of every command.
#[derive(Args)]
struct Global {
    /// When to use colour; NO_COLOR, CLICOLOR_FORCE and TERM=dumb are obeyed [default: auto].
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto", hide_default_value = true)]
    color: Colour,
    /// Say errors and warnings only.
    #[arg(short, long, global = true, conflicts_with = "verbose")]
    quiet: bool,
    /// Say more: every default that was taken, every step.
    #[arg(short, long, global = true)]
    verbose: bool,
}

/// When to use colour.
#[derive(Clone, Copy, clap::ValueEnum)]
enum Colour {
    Auto,
    Always,
    Never,
}

#[derive(Subcommand)]
enum Command {
    New(new::New),
    Check(check::Check),
    Size(size::Size),
    Build(build::BuildCommand),
    Explore(explore::Explore),
    Catalogue(catalogue::Show),
    Schema(schema::Schema),
}

/// Runs the program with the arguments of the process.
pub fn main() -> ExitCode {
    exit::guarded(|| match parse() {
        Ok(cli) => run(&cli),
        Err(exit) => exit,
    })
}

fn run(cli: &Cli) -> Exit {
    match &cli.command {
        Command::New(command) => command.run(&cli.global),
        Command::Check(command) => command.run(&cli.global),
        Command::Size(command) => command.run(&cli.global),
        Command::Build(command) => command.run(&cli.global),
        Command::Explore(command) => command.run(&cli.global),
        Command::Catalogue(command) => command.run(),
        Command::Schema(command) => command.run(),
    }
}

/// Reads the command line. Colour is chosen before, since the help has colours too.
fn parse() -> Result<Cli, Exit> {
    let choice = colour_of(std::env::args());
    choice.write_global();
    let clap_choice = match choice {
        anstream::ColorChoice::Always | anstream::ColorChoice::AlwaysAnsi => clap::ColorChoice::Always,
        anstream::ColorChoice::Never => clap::ColorChoice::Never,
        anstream::ColorChoice::Auto => clap::ColorChoice::Auto,
    };
    let matches = Cli::command().color(clap_choice).try_get_matches();
    matches.and_then(|matches| Cli::from_arg_matches(&matches)).map_err(|error| exit::usage(&error))
}

/// The wish for colour among the raw arguments; the last one counts.
fn colour_of(arguments: impl Iterator<Item = String>) -> anstream::ColorChoice {
    let mut choice = anstream::ColorChoice::Auto;
    let mut after_option = false;
    for argument in arguments {
        let value = argument.strip_prefix("--color=").or(after_option.then_some(argument.as_str()));
        choice = match value {
            Some("always") => anstream::ColorChoice::Always,
            Some("never") => anstream::ColorChoice::Never,
            Some("auto") => anstream::ColorChoice::Auto,
            _ => choice,
        };
        after_option = argument == "--color";
    }
    choice
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_command_line_is_consistent() {
        Cli::command().debug_assert();
    }

    #[test]
    fn the_last_wish_for_colour_counts() {
        let choice = |line: &str| colour_of(line.split(' ').map(Into::into));
        assert_eq!(choice("swept check --color never x"), anstream::ColorChoice::Never);
        assert_eq!(choice("swept --color=never check --color=always x"), anstream::ColorChoice::Always);
        assert_eq!(choice("swept check x"), anstream::ColorChoice::Auto);
    }
}
