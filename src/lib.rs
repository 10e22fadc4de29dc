//! Designs forged hammer heads and carries a design to the bar.
//!
//! # Frame and units
//! Right-handed axes with the origin where the handle axis crosses the middle of the cheek
//! block's height: x along the head towards the front face, y across the cheeks, z along the
//! handle towards the top, the wedge side. Lengths are in mm, volumes in mm³, masses in kg,
//! inertia in kg·mm², angles in radians, densities in kg/m³.
//!
//! # One way
//! An [`Edit`](design::Edit) changes a [`Design`](design::Design), which is plain data and may be
//! impossible. [`Design::build`](design::Design::build) makes a [`Solid`](solid::Solid) of it or
//! says everything that is wrong. What is derived from a solid cannot fail.
//!
//! ```
//! use headwright::{design, mass};
//!
//! let design = design::starter("rounding").expect("a starter");
//! let solid = design.build().expect("starters are sound");
//! let weighed = mass::mass_properties(&solid);
//! let both_sides = weighed.front_mass + weighed.back_mass;
//! assert!((both_sides - weighed.mass).abs() < 1e-9);
//! ```

pub mod bar;
pub mod card;
pub mod chest;
pub mod cli;
pub mod compare;
pub mod cut;
pub mod design;
pub mod drawing;
pub mod drift;
pub mod fit;
pub mod handle;
pub mod heat;
pub mod log;
pub mod mass;
pub mod mesh;
pub mod numeric;
pub mod plan;
pub mod posture;
pub mod price;
pub mod rack;
pub mod share;
pub mod solid;
mod spreadsheet;
pub mod swing;
pub mod units;
