//! The program `swept`.

mod cli;

fn main() -> std::process::ExitCode {
    cli::main()
}
