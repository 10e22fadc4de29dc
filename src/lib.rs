//! Headwright.
