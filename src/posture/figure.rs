//! A smith drawn with few lines.

use super::Stance;
use super::arm::Lines;
use super::build::Build;

/// Places in the plane of the swing, mm: `[forward of the ankles, over the floor]`.
///
/// A body is drawn from foot to hip, shoulder and chin, the head as a ring from chin to crown; an arm from shoulder to
/// elbow, wrist and grip; the handle from grip to eye, the head from eye to face; work and anvil below the face. Where
/// the hand cannot reach, wrist and grip lie farther apart than a hand is long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// Under the ankle.
    pub foot: [f64; 2],
    /// The hip.
    pub hip: [f64; 2],
    /// The shoulder.
    pub shoulder: [f64; 2],
    /// The chin.
    pub chin: [f64; 2],
    /// The top of the head.
    pub crown: [f64; 2],
    /// The elbow.
    pub elbow: [f64; 2],
    /// The wrist.
    pub wrist: [f64; 2],
    /// The middle of the grip.
    pub grip: [f64; 2],
    /// The handle's axis over the blow.
    pub eye: [f64; 2],
    /// The face on the work.
    pub face: [f64; 2],
    /// The anvil's face under it.
    pub anvil: [f64; 2],
}

impl Figure {
    pub(super) fn of(build: &Build, stance: &Stance, lines: &Lines) -> Self {
        let upright = |height: f64| [0.0, height];
        let blow = lines.grip[0] + stance.grip_to_face_mm;
        Self {
            foot: upright(0.0),
            hip: upright(build.hip_mm),
            shoulder: upright(build.shoulder_mm),
            chin: upright(build.chin_mm),
            crown: upright(build.stature_mm),
            elbow: lines.elbow,
            wrist: lines.wrist,
            grip: lines.grip,
            eye: [blow, lines.grip[1]],
            face: [blow, lines.anvil + stance.work_mm],
            anvil: [blow, lines.anvil],
        }
    }
}
