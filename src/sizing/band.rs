//! Band.
