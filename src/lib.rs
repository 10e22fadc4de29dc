//! Headwright.
pub mod units;
