//! How does a design get from one person to another? As a link that carries all of it.

pub mod link;
pub mod offer;
pub mod qr;
