//! File formats; every writer gives the text or bytes of a file and touches no disk.

pub mod step;
