//! The handle: what handle fits the eye, and what does it weigh?
//!
//! [`make`] takes a sound head and a [`Handle`], which is plain data and may be impossible, and gives everything about
//! the made handle ([`Made`]): its parts with volume and mass, its moments in the axes of the head, tongue, kerf and
//! wedge, the gap that is left at each level of the eye, its outlines, and what is to be said of it. Or it gives every
//! reason why it cannot be made. [`body`] gives the same moments over any scalar.
//!
//! # The handle, exactly
//! - **Stem**, from the butt to the lower mouth: ellipses whose sizes run straight from station to station; before the
//!   first and after the last station the oval stays as it is. It lies along the true handle axis, its ovals square to
//!   it, their depth in the plane of that axis and the head's x.
//! - **Tongue**, in the eye: the waist's section, or the lesser of its sizes and those of a mouth that is narrower
//!   ([`drift::Note::NarrowMouth`](crate::drift::Note::NarrowMouth)); where corners are rounded, by the greatest
//!   radius of the three levels, so that it passes all of them.
//! - **Shoulder**, between the lower mouth and the waist: with [`Shoulder::FillsMouth`] the wood follows the wall of
//!   the eye, with [`Shoulder::None`] the tongue goes on through.
//! - **Kerf**: a slot along the head and through the tongue, from the tongue's end downwards.
//! - **Wedge**: a prism as long along the head as the tongue is at the walls of the kerf; its thickness falls evenly to
//!   nothing over its length. Left out, its thick end is the one with which, at the upper mouth, wood and wedge are
//!   wider than the eye by the crush:
//!   `thick·(1 − proud/length) = mouth's width − (tongue's width − kerf's width) + crush`.
//! - **Cross wedge**: a steel prism across the middle of the tongue, tapering alike.
//!
//! In the eye everything is measured as the eye is: heights and depths square to the head, sections in planes
//! z = const, and with a cocked eye each is moved sideways as the eye's are. Along the handle, lengths are measured
//! along its axis.
//!
//! # Assumptions
//! - Spread wood keeps its section: where a wedge is thicker than the kerf the two halves of the tongue move apart,
//!   until they meet the wall. What they would move farther is crush: there the wood is pressed together and keeps its
//!   mass, and the place counts once for the wood and once for the wedge.
//! - The kerf's wood is gone; where the wedge is thinner than the kerf the rest of it is air.
//! - Wood never fills the broken corner of a mouth, and no gap is counted there.
//! - A tongue that stands out of the eye is as wide as in the mouth.
//! - The stem begins square to the axis where that passes the lower mouth, whatever shape the cheeks have there.
//!
//! # Units
//! Lengths in mm, masses in kg, inertia in kg·mm². A size along the head is a length (in the eye) or a depth (of the
//! stem), across the cheeks it is a width.
//!
//! # Examples
//! ```
//! use headwright::units::System;
//! use headwright::{design, handle};
//!
//! let solid = design::starter("rounding").expect("a starter").build().expect("starters are sound");
//! let made = handle::make(&solid, &handle::Handle::usual(&solid, System::Metric))?;
//! let parts: f64 = made.parts.iter().map(|part| part.mass_kg).sum();
//! assert!((parts - made.mass_kg).abs() < 1e-12);
//! // Hickory of a usual hand hammer.
//! assert!((0.1..0.4).contains(&made.mass_kg));
//! # Ok::<(), Vec<handle::HandleError>>(())
//! ```

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::Length;

mod body;
mod check;
mod error;
mod made;
mod note;
mod oval;
mod seat;
mod silhouette;
mod tool;
mod usual;
mod wood;

pub use body::{HandlePart, body};
pub use error::{
    CROSS_LENGTH_MM, CROSS_THICK_MM, CROSS_WIDTH_MM, CRUSH_MM, HandleError, KERF_DEPTH_MM,
    KERF_WIDTH_MM, LEAST_STEM_MM, LEAST_WOOD_MM, LENGTH_MM, LONGEST_WOOD_NAME, MOISTURE_PERCENT,
    MOST_STATIONS, PROUD_MM, SPECIFIC_GRAVITY, STATION_MM, WEDGE_LENGTH_MM, WEDGE_THICK_MM,
};
pub use made::{KerfSize, Level, Made, PartMass, Strength, TongueSize, WedgeSize, make};
pub use note::{CAUTIONS, MOST_CRUSH_MM, Note};
pub use silhouette::{HalfSizes, Silhouette};
pub use tool::Tool;
pub use usual::{USUAL_CRUSH_MM, USUAL_KERF_SHARE, usual_length_mm};
pub use wood::{Species, Wood};

/// A handle as the smith describes it. May be impossible: [`make`] says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Handle {
    /// What it is made of.
    pub wood: Wood,
    /// Mass of the water in the wood, in percent of that of the dry wood.
    pub moisture_percent: f64,
    /// Over all, from the butt to the end of the tongue, along the handle.
    pub length: Length,
    /// Its ovals from the butt to the head.
    pub stations: Vec<Station>,
    /// From the butt to the middle of the hand.
    pub grip: Length,
    /// What fills the eye below the waist.
    pub shoulder: Shoulder,
    /// How far the tongue stands out of the upper mouth; left out, it is flush.
    #[serde(default = "flush", skip_serializing_if = "is_flush")]
    pub proud: Length,
    /// The saw cut for the wedge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kerf: Option<Kerf>,
    /// The wedge along the head, which spreads the tongue across.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wedge: Option<Wedge>,
    /// The steel wedge across the head, which spreads the tongue along.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cross_wedge: Option<CrossWedge>,
}

/// An oval of the handle, an ellipse.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Station {
    /// From the butt.
    pub at: Length,
    /// Along the head.
    pub depth: Length,
    /// Across the cheeks.
    pub width: Length,
}

/// What fills the eye between the lower mouth and the waist.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Shoulder {
    /// A shoulder that follows the wall and fills the lower mouth.
    FillsMouth,
    /// Nothing but the tongue, as it is at the waist.
    None,
}

/// The saw cut into the tongue, along the head.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Kerf {
    /// From the end of the tongue.
    pub depth: Length,
    /// Across the head.
    pub width: Length,
}

/// The wedge in the kerf.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wedge {
    /// What it is made of.
    pub wood: Wood,
    /// How deep it goes, from the end of the tongue.
    pub length: Length,
    /// Its thickness at the end of the tongue; left out, what fills the upper mouth across.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thick: Option<Length>,
    /// By how much wood and wedge are wider than the upper mouth, where `thick` is left out.
    pub crush: Length,
}

/// A steel wedge across the head, of [`Density::STEEL`](crate::units::Density::STEEL).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CrossWedge {
    /// How deep it goes, from the end of the tongue.
    pub length: Length,
    /// Its thickness at the end of the tongue, along the head.
    pub thick: Length,
    /// Across the head.
    pub width: Length,
}

const fn flush() -> Length {
    Length::mm(0.0)
}

fn is_flush(proud: &Length) -> bool {
    proud.in_mm() == 0.0
}
