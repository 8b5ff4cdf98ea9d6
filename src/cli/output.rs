//! Writing to the terminal. A reader that went away is no mistake.

use super::exit::Exit;
use std::io::{ErrorKind, Write};

/// Writes a result to stdout.
pub fn print(text: &str) -> Exit {
    let mut out = anstream::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            say(&format!("swept: could not write the result: {error}"));
            Exit::File
        }
        _ => Exit::Done,
    }
}

/// Says something on stderr. When nobody can hear it there is nothing left to do.
pub fn say(text: &str) {
    let _ = writeln!(anstream::stderr().lock(), "{text}");
}
