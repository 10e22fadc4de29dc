//! The arm at the blow: three straight lines from the shoulder to the grip.

use std::f64::consts::{FRAC_PI_2, PI};

use super::build::Build;
use super::error::PostureError;
use super::figure::Figure;
use super::meaning::Note;
use super::{GRIP_DEG, Stance};

/// The least angle between upper arm and forearm, degrees (from memory: an elbow bends by about 145).
const FOLDED_DEG: f64 = 35.0;

/// How the arm is bent at the blow, radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arm {
    /// Between upper arm and forearm; π for a straight arm.
    pub elbow: f64,
    /// How far the forearm points below level.
    pub forearm: f64,
    /// How far the hand is bent from the line of the forearm towards the little finger (ulnar); negative: towards the
    /// thumb (radial).
    pub wrist: f64,
}

/// A smith at the blow. Heights over the floor, mm. Estimates.
#[derive(Clone, Debug, PartialEq)]
pub struct Posture {
    /// How the smith is built.
    pub build: Build,
    /// The anvil: as given, or at knuckle height.
    pub anvil_mm: f64,
    /// The hand at the blow: anvil + work + face offset.
    pub hand_mm: f64,
    /// How the arm is bent; nothing where the hand cannot get there.
    pub arm: Option<Arm>,
    /// How much lower the hand would have to get than it can with a straight back, mm; negative: higher; 0 where it
    /// reaches.
    pub short_mm: f64,
    /// How far before the ankles the blow lands, mm.
    pub stand_off_mm: f64,
    /// The height of anvil that this hammer wants with this work: the one at which the elbow has the angle that is aimed
    /// at. A longer face offset wants an anvil that is as much lower.
    pub wanted_anvil_mm: f64,
    /// The joints, to be drawn.
    pub figure: Figure,
    /// What is to be said of it.
    pub notes: Vec<Note>,
}

/// Where the arm and the anvil are, as [`Figure`] has them.
pub(super) struct Lines {
    pub elbow: [f64; 2],
    pub wrist: [f64; 2],
    pub grip: [f64; 2],
    /// Height of the anvil.
    pub anvil: f64,
}

/// How `stance` holds the arm at the blow, and what anvil it wants.
///
/// # Units
/// As each field of [`Posture`] says.
/// # Errors
/// Everything of the stance that is out of bounds. That a hand does not reach is no error: it is in the notes.
pub fn posture(stance: &Stance) -> Result<Posture, Vec<PostureError>> {
    let errors = stance.check();
    if !errors.is_empty() {
        return Err(errors);
    }
    let build = Build::of(stance.smith, stance.table);
    let anvil = stance.anvil_mm.unwrap_or(build.knuckle_mm);
    let above_anvil = stance.work_mm + stance.face_offset_mm;
    let hand = anvil + above_anvil;

    let (grip_sin, grip_cos) = GRIP_DEG.to_radians().sin_cos();
    let upper_arm = stance.upper_arm_deg.to_radians();
    let (sin, cos) = upper_arm.sin_cos();
    let elbow = [
        build.upper_arm_mm * sin,
        build.shoulder_mm - build.upper_arm_mm * cos,
    ];
    let below_elbow = |hand: f64| elbow[1] - (hand + build.hand_mm * grip_sin);
    // An elbow bends from straight to folded and no further.
    let lowest = (FRAC_PI_2 - upper_arm).min(FRAC_PI_2);
    let highest = (FOLDED_DEG.to_radians() - FRAC_PI_2 - upper_arm).max(-FRAC_PI_2);
    let drop = below_elbow(hand);
    let [most, least] = [lowest, highest].map(|angle| build.forearm_mm * angle.sin());
    let within = drop.min(most).max(least);
    let short = drop - within;
    let forearm = (within / build.forearm_mm).asin();
    let arm = (short == 0.0).then(|| Arm {
        elbow: (FRAC_PI_2 + upper_arm + forearm).min(PI),
        forearm,
        wrist: GRIP_DEG.to_radians() - forearm,
    });
    let wrist = [
        elbow[0] + build.forearm_mm * forearm.cos(),
        elbow[1] - build.forearm_mm * forearm.sin(),
    ];
    let lines = Lines {
        elbow,
        wrist,
        grip: [wrist[0] + build.hand_mm * grip_cos, hand],
        anvil,
    };
    let wanted_forearm = stance.elbow_deg.to_radians() - FRAC_PI_2 - upper_arm;
    let wanted_hand = elbow[1] - build.forearm_mm * wanted_forearm.sin() - build.hand_mm * grip_sin;
    Ok(Posture {
        build,
        anvil_mm: anvil,
        hand_mm: hand,
        arm,
        short_mm: short,
        stand_off_mm: lines.grip[0] + stance.grip_to_face_mm,
        wanted_anvil_mm: wanted_hand - above_anvil,
        figure: Figure::of(&build, stance, &lines),
        notes: Note::all(arm, short),
    })
}
