//! How the program ends.

use std::panic::{AssertUnwindSafe, PanicHookInfo, catch_unwind, set_hook};
use std::process::ExitCode;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// Done.
    Done,
    /// The design is wrong or a check failed.
    Design,
    /// The command line is wrong.
    Usage,
    /// A file could not be read or written.
    File,
    /// A mistake in the program.
    Internal,
}

impl Exit {
    fn code(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Design => 1,
            Self::Usage => 2,
            Self::File => 3,
            Self::Internal => 70,
        }
    }
}

/// Runs the program; a panic becomes a plain sentence and exit code 70.
pub fn guarded(run: impl FnOnce() -> Exit) -> ExitCode {
    set_hook(Box::new(confess));
    let exit = catch_unwind(AssertUnwindSafe(run)).unwrap_or(Exit::Internal);
    ExitCode::from(exit.code())
}

fn confess(info: &PanicHookInfo<'_>) {
    let what = info.payload_as_str().unwrap_or("no message");
    let place =
        info.location().map_or_else(String::new, |place| format!(" ({}:{})", place.file(), place.line()));
    let version = env!("CARGO_PKG_VERSION");
    super::output::say(&format!(
        "swept {version} has made a mistake of its own; your design is not to blame. Please report this line:\n  {what}{place}"
    ));
}

/// Ends after a wrong command line, or after help and version were asked for.
pub fn usage(error: &clap::Error) -> Exit {
    match error.print() {
        Err(fault) if fault.kind() != std::io::ErrorKind::BrokenPipe => Exit::File,
        _ if error.use_stderr() => Exit::Usage,
        _ => Exit::Done,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_ends_with_70() {
        let code = guarded(|| panic!("a test of the last resort"));
        let _ = std::panic::take_hook();
        assert_eq!(format!("{code:?}"), format!("{:?}", ExitCode::from(70)));
    }

    #[test]
    fn every_end_has_its_own_code() {
        let codes = [Exit::Done, Exit::Design, Exit::Usage, Exit::File, Exit::Internal].map(Exit::code);
        assert_eq!(codes, [0, 1, 2, 3, 70]);
    }
}
