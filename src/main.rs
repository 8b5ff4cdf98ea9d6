//! swept
fn main() {}
