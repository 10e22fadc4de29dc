//! The browser app.
fn main() {}
