//! The command `gatepost`.
fn main() {}
