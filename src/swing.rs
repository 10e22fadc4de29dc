//! The swing: what do head and handle make together, and what does a blow do to them and to the hand?
//!
//! [`tool`] joins two plain bodies ([`Body`]) that are held at a grip ([`Held`]) and strike with two ends
//! ([`Striker`]), and gives a [`Tool`]: mass, balance point, inertia, centre of percussion, and for each end a
//! [`Blow`] with its sting, its effective mass and the tilt it bears. Of a tool, [`Tool::swing`] gives speed, energy
//! and momentum from any of them or from a torque through an angle ([`Drive`]), [`Tool::off_centre`] a blow beside the
//! middle, [`Striker::patch`] the print in soft work.
//!
//! # Assumptions
//! - Head and handle are rigid and joined without play; a wooden handle gives, which softens what the hand feels.
//! - While a blow lasts nothing holds the tool ([`FreeBody`]); its line goes along the head's x, without friction.
//! - Before the blow the tool turns about the grip, which stands still.
//!
//! # Units
//! mm, kg, kg·mm², m/s, J, N·s, radians; the axes of the crate page. What is given per N·s of a blow is multiplied by
//! [`Swing::impulse_ns`] for the blow itself.
//!
//! # Source
//! Centre of percussion q = (k² + d²)/d, pivot and centre of percussion interchangeable: read in public pages on it.
//! Rigid-body impact as [`FreeBody`] says. All are closed forms; the tests hold them against bodies worked by hand.

mod body;
mod drive;
mod error;
mod made;
mod meaning;
mod off_centre;
mod striker;
mod tool;

pub use body::{Body, FreeBody, Struck};
pub use drive::{Drive, Swing};
pub use error::{
    ANGLE_DEG, Asked, DEPTH_MM, ENERGY_J, LEAST_LEVER_MM, MASS_KG, MOST_LEAN, MOST_SIZE_MM,
    PLACE_MM, SPEED_M_PER_S, SwingError, TORQUE_NM,
};
pub use meaning::Line;
pub use off_centre::{OffCentre, Shares};
pub use striker::{Patch, Striker, Surface, Tilt};
pub use tool::{Blow, Held, Tool, tool};

/// The speed of the head that is taken when nobody names one, m/s (from memory: hand hammers strike at 5 to 10).
pub const USUAL_SPEED_M_PER_S: f64 = 7.0;
/// The torque about the grip that is taken when an angle alone is named, N·m (our choice).
pub const USUAL_TORQUE_NM: f64 = 20.0;
/// The angle that is taken when a torque alone is named, degrees (our choice).
pub const USUAL_ANGLE_DEG: f64 = 90.0;

/// What goes with swinging a hammer, wherever its numbers are shown (OSHA 29 CFR 1926.301 on handles; ASME B107.53 and
/// DGUV Information 209-001 on eyes, splinters and square blows; an older tool catalogue on worn heads).
pub const CAUTIONS: [&str; 5] = [
    "Before each use look for splinters and cracks in the handle and for a head that moves on it; a loose head is not struck with.",
    "Wear eye protection, and so does whoever stands near: steel splinters fly from face and pein.",
    "Never strike one hardened face with another, nor a hammer with a hammer.",
    "Strike squarely: a blow on the edge chips it. A chipped, mushroomed or dented face is dressed or thrown away.",
    "The speeds, energies and jolts are comparisons of tools with a hand that stands still, no advice on what a body can bear.",
];
