//! The list of files with their hashes that stands in the manifest, by which a later run knows what is ours.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// Name of the manifest in the output folder.
pub const MANIFEST: &str = "build.json";

/// A file of ours.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Listed {
    /// Path below the output folder, with `/` between names.
    pub path: String,
    /// SHA-256 of its content, in lower-case hexadecimal.
    pub sha256: String,
}

/// SHA-256 of some bytes in lower-case hexadecimal (FIPS 180-4).
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect()
}

/// The `files` of a manifest; `None` when the text is no manifest of ours. Only this list is read, so that
/// the manifest of an older or newer version still tells which files are ours.
pub fn listed(manifest: &[u8]) -> Option<Vec<Listed>> {
    #[derive(Deserialize)]
    struct Files {
        files: Vec<Listed>,
    }
    serde_json::from_slice::<Files>(manifest).ok().map(|f| f.files)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_the_one_of_the_standard() {
        // FIPS 180-4 example "abc", as published by NIST with the standard.
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(sha256(b"abc"), abc);
    }

    #[test]
    fn only_a_manifest_has_a_list() {
        let text = br#"{"schema_version": 99, "files": [{"path": "a", "sha256": "0", "new": 1}]}"#;
        assert_eq!(listed(text), Some(vec![Listed { path: "a".into(), sha256: "0".into() }]));
        assert_eq!(listed(b"{}"), None);
        assert_eq!(listed(b"not json"), None);
    }
}
