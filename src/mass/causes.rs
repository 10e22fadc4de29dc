//! What of a head causes losses on the way to it.

use super::{MassProperties, face_area, surface_area};
use crate::bar::Causes;
use crate::design::Side;
use crate::solid::Solid;

/// What of `solid`, which has been `weighed`, causes losses.
///
/// It measures the surface and so costs several times more than the weighing.
pub fn causes(solid: &Solid, weighed: &MassProperties) -> Causes {
    let eye = &solid.head().eye;
    let [low, high] = eye.mouths;
    Causes {
        head_kg: weighed.mass,
        eye_kg: weighed.eye_mass,
        surface_mm2: surface_area(solid),
        face_mm2: Side::BOTH.map(|side| face_area(solid, side)),
        eye_height_mm: high - low,
        eye_mm: eye.least_sizes(),
    }
}
