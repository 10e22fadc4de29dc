//! Posture: where is the hand at the blow, how are elbow and wrist bent, and how high an anvil does this hammer want?
//!
//! [`posture`] takes a smith, an anvil, the work and a hammer ([`Stance`]) and gives a [`Posture`]: heights, angles and
//! a small [`Figure`] of joints that can be drawn. Everything is an estimate.
//!
//! ```text
//! hand at the blow = anvil + thickness of the work + face offset
//! wrist            = hand at the blow + (wrist to grip) · sin(grip angle)
//! forearm          = asin((elbow − wrist) / forearm) below level
//! elbow            = 90° + upper arm + forearm          wrist bend = grip angle − forearm
//! ```
//!
//! # Assumptions
//! - The smith stands upright with a straight back, the shoulder over the ankles, and faces the anvil; all lies in one
//!   plane seen from the side.
//! - At the blow the handle is level, the face lies flat on the work, and the handle's axis is the face offset above it.
//! - The arm is three straight lines: shoulder to elbow, elbow to wrist, wrist to the middle of the grip. The upper arm
//!   stands at an angle that is given ([`USUAL_UPPER_ARM_DEG`]: it hangs), so how far away the smith stands follows.
//! - With a straight wrist a fist holds the handle at [`GRIP_DEG`] to the forearm.
//! - A straight arm that hangs reaches down to the knuckles; wrist to grip is what upper arm and forearm leave of it.
//!
//! # Source
//! [`Table`] names the tables, [`USUAL_ELBOW_DEG`] and the others say where they come from.
//!
//! # Examples
//! ```
//! use headwright::posture::{Smith, Stance, posture};
//!
//! let stance = Stance { face_offset_mm: 80.0, ..Stance::of(Smith::Stature { mm: 1750.0 }) };
//! let got = posture(&stance)?;
//! // Nothing is said of the anvil, so it stands at knuckle height, 0.434 of the stature.
//! assert!((got.anvil_mm - 759.5).abs() < 1e-9);
//! assert!((got.hand_mm - (759.5 + 20.0 + 80.0)).abs() < 1e-9);
//! # Ok::<(), Vec<headwright::posture::PostureError>>(())
//! ```

mod arm;
mod build;
mod error;
mod figure;
mod meaning;

pub use arm::{Arm, Posture, posture};
pub use build::{Build, Proportions, Smith, Table};
pub use error::{
    ANVIL_MM, ARM_MM, ELBOW_DEG, FACE_OFFSET_MM, GRIP_TO_FACE_MM, Given, KNUCKLE_MM, PostureError,
    SHOULDER_MM, STATURE_MM, UPPER_ARM_DEG, WORK_MM,
};
pub use figure::Figure;
pub use meaning::{Note, STRAIN_RADIAL_DEG, STRAIN_ULNAR_DEG};

/// The usual angle of the upper arm at the blow, degrees forward of hanging (common practice, no source).
pub const USUAL_UPPER_ARM_DEG: f64 = 0.0;
/// The angle between upper arm and forearm that is aimed at, degrees, 180 for a straight arm. Our choice: with a hammer
/// of 80 mm face offset and work of 20 mm it asks for an anvil at about knuckle height, which is common practice.
pub const USUAL_ELBOW_DEG: f64 = 130.0;
/// Between the forearm and a handle held in the fist with a straight wrist, degrees (from memory: 65 to 80).
pub const GRIP_DEG: f64 = 70.0;
/// The usual thickness of the work, mm (common practice, no source).
pub const USUAL_WORK_MM: f64 = 20.0;
/// The usual distance from the middle of the grip to the line of the blow, mm (common practice, no source).
pub const USUAL_GRIP_TO_FACE_MM: f64 = 260.0;
/// The usual face offset, mm (common practice, no source).
pub const USUAL_FACE_OFFSET_MM: f64 = 60.0;

/// What is to be said beside every number of this room.
pub const ESTIMATE: &str = "Estimates: tables give the average of a group and no person, and the arm is three straight lines. Try it with a block under the feet or the anvil before anything is cut.";

/// A smith at an anvil with a hammer. Lengths in mm over the floor or as said, angles in degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stance {
    /// The smith.
    pub smith: Smith,
    /// The table that the smith's other lengths are taken from.
    pub table: Table,
    /// Height of the anvil's face; nothing for knuckle height (common practice; H. A. Shearer, Farm Mechanics, 1918:
    /// the knuckles of the hanging fist just clear the face).
    pub anvil_mm: Option<f64>,
    /// Thickness of the work on it.
    pub work_mm: f64,
    /// Face offset of the end that strikes: its reach from the handle's axis.
    pub face_offset_mm: f64,
    /// From the middle of the grip to the line of the blow along the handle.
    pub grip_to_face_mm: f64,
    /// Angle of the upper arm at the blow, forward of hanging.
    pub upper_arm_deg: f64,
    /// The angle between upper arm and forearm that is aimed at; 180 for a straight arm.
    pub elbow_deg: f64,
}

impl Stance {
    /// `smith` as [`Table::DrillisContini`] has it, at an anvil of knuckle height, with all else usual.
    pub fn of(smith: Smith) -> Self {
        Self {
            smith,
            table: Table::DrillisContini,
            anvil_mm: None,
            work_mm: USUAL_WORK_MM,
            face_offset_mm: USUAL_FACE_OFFSET_MM,
            grip_to_face_mm: USUAL_GRIP_TO_FACE_MM,
            upper_arm_deg: USUAL_UPPER_ARM_DEG,
            elbow_deg: USUAL_ELBOW_DEG,
        }
    }
}
