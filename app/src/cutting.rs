//! Cutting lists: which piece is cut from which bar.

pub mod search;
pub mod worker;
