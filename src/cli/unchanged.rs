//! What a build hangs on, as one hash: the program itself and all that it reads.

use super::design_file::Loaded;
use swept::export::stamp::identity;

/// Identity of the inputs of a build; `None` when the program cannot read itself.
///
/// The whole executable counts, not its version: one that was compiled anew must never be taken for the old one.
pub fn inputs(loaded: &Loaded, title_block: Option<&str>) -> Option<String> {
    let program = std::fs::read(std::env::current_exe().ok()?).ok()?;
    let shelf = loaded.shelf.as_ref().map(|shelf| shelf.bytes.as_slice());
    let mut all: Vec<&[u8]> = vec![&program, loaded.name.as_bytes(), &loaded.bytes];
    for beside in [shelf, title_block.map(str::as_bytes)] {
        // none and empty are told apart
        all.extend([beside.map_or(&b"none"[..], |_| b"some"), beside.unwrap_or_default()]);
    }
    all.extend(loaded.sets.iter().flat_map(|(key, value)| [key.as_bytes(), value.as_bytes()]));
    Some(identity(all))
}
