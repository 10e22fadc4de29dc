//! What can be wrong with a stance, each a sentence in either system of units.

use std::fmt;

use super::Stance;
use super::build::Smith;
use crate::bar::Limit;
use crate::design::length_in_words;
use crate::units::{Angle, System, show_angle};

/// Stature, mm.
pub const STATURE_MM: Limit = Limit {
    least: 1000.0,
    most: 2300.0,
};
/// Height of the shoulder, mm.
pub const SHOULDER_MM: Limit = Limit {
    least: 800.0,
    most: 1950.0,
};
/// Height of the knuckles, mm.
pub const KNUCKLE_MM: Limit = Limit {
    least: 350.0,
    most: 1150.0,
};
/// From the shoulder to the knuckles, mm.
pub const ARM_MM: Limit = Limit {
    least: 300.0,
    most: 1000.0,
};
/// Height of the anvil's face, mm.
pub const ANVIL_MM: Limit = Limit {
    least: 200.0,
    most: 1300.0,
};
/// Thickness of the work, mm.
pub const WORK_MM: Limit = Limit {
    least: 0.0,
    most: 300.0,
};
/// Face offset, mm.
pub const FACE_OFFSET_MM: Limit = Limit {
    least: 5.0,
    most: 400.0,
};
/// From the grip to the line of the blow, mm.
pub const GRIP_TO_FACE_MM: Limit = Limit {
    least: 10.0,
    most: 1200.0,
};
/// Angle of the upper arm forward of hanging, degrees.
pub const UPPER_ARM_DEG: Limit = Limit {
    least: -20.0,
    most: 60.0,
};
/// Angle at the elbow that can be aimed at, degrees.
pub const ELBOW_DEG: Limit = Limit {
    least: 60.0,
    most: 160.0,
};

/// What is given of a stance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Given {
    /// The smith's stature.
    Stature,
    /// The height of the smith's knuckles.
    Knuckle,
    /// The height of the smith's shoulder.
    Shoulder,
    /// The length of the arm that follows from both.
    Arm,
    /// The anvil's height.
    Anvil,
    /// The thickness of the work.
    Work,
    /// The face offset.
    FaceOffset,
    /// The distance from the grip to the line of the blow.
    GripToFace,
    /// The angle of the upper arm.
    UpperArm,
    /// The angle at the elbow that is aimed at.
    Elbow,
}

impl Given {
    /// The words for it, as a sentence begins.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Stature => "The stature",
            Self::Knuckle => "The height of the knuckles",
            Self::Shoulder => "The height of the shoulder",
            Self::Arm => "The arm, from the height of the shoulder to that of the knuckles,",
            Self::Anvil => "The height of the anvil",
            Self::Work => "The thickness of the work",
            Self::FaceOffset => "The face offset",
            Self::GripToFace => "The distance from the grip to the line of the blow",
            Self::UpperArm => "The angle of the upper arm",
            Self::Elbow => "The angle at the elbow",
        }
    }

    /// What it may be.
    pub const fn limit(self) -> Limit {
        match self {
            Self::Stature => STATURE_MM,
            Self::Knuckle => KNUCKLE_MM,
            Self::Shoulder => SHOULDER_MM,
            Self::Arm => ARM_MM,
            Self::Anvil => ANVIL_MM,
            Self::Work => WORK_MM,
            Self::FaceOffset => FACE_OFFSET_MM,
            Self::GripToFace => GRIP_TO_FACE_MM,
            Self::UpperArm => UPPER_ARM_DEG,
            Self::Elbow => ELBOW_DEG,
        }
    }

    fn show(self, value: f64, system: System) -> String {
        match self {
            Self::UpperArm | Self::Elbow => format!("{}°", show_angle(Angle::degrees(value))),
            _ => length_in_words(value, system),
        }
    }
}

/// Why no posture can be worked out: a number of the stance is out of bounds. Written as a sentence;
/// [`PostureError::sentence`] says it in the units that the smith reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PostureError {
    /// Which number.
    pub given: Given,
    /// Its value, mm or degrees.
    pub value: f64,
}

impl PostureError {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let show = |value| self.given.show(value, system);
        let limit = self.given.limit();
        format!(
            "{} is {}. It must be at least {} and at most {}.",
            self.given.words(),
            show(self.value),
            show(limit.least),
            show(limit.most)
        )
    }
}

impl fmt::Display for PostureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl std::error::Error for PostureError {}

impl Stance {
    /// Everything that is wrong with the stance; nothing when it can be worked from.
    pub fn check(&self) -> Vec<PostureError> {
        let smith = match self.smith {
            Smith::Stature { mm } => vec![(Given::Stature, mm)],
            Smith::Measured {
                knuckle_mm,
                shoulder_mm,
            } => vec![
                (Given::Knuckle, knuckle_mm),
                (Given::Shoulder, shoulder_mm),
                (Given::Arm, shoulder_mm - knuckle_mm),
            ],
        };
        let anvil = self.anvil_mm.map(|mm| (Given::Anvil, mm));
        let rest = [
            (Given::Work, self.work_mm),
            (Given::FaceOffset, self.face_offset_mm),
            (Given::GripToFace, self.grip_to_face_mm),
            (Given::UpperArm, self.upper_arm_deg),
            (Given::Elbow, self.elbow_deg),
        ];
        let all = smith.into_iter().chain(anvil).chain(rest);
        let wrong = |(given, value): &(Given, f64)| !given.limit().admits(*value);
        all.filter(wrong)
            .map(|(given, value)| PostureError { given, value })
            .collect()
    }
}
