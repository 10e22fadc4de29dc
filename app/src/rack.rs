//! The rack: what keeps the designs, and their sheet.

mod empty;
mod form;
pub mod keeper;
mod out_in;
mod row;
mod sheet;
mod shelf;

pub use super::taken::Unreadable;
pub use sheet::RackScreen;
