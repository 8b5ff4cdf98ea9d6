//! Verdict.
