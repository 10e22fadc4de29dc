//! What a head has that causes losses, as plain numbers.

use super::error::BarError;
use super::limits::{AREA_MM2, EYE_KG, EYE_MM, FINISHED_KG, HEIGHT_MM};

/// What a head has that causes losses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Causes {
    /// The finished head's mass, kg.
    pub head_kg: f64,
    /// The mass of the steel whose place the eye takes, kg: its volume × density.
    pub eye_kg: f64,
    /// The whole surface of the finished head, the eye's wall included, mm². It stands for what is hot and scales.
    pub surface_mm2: f64,
    /// What is ground at the front and at the back, mm²: the crowned face, the nose of a pein, half of a ball.
    pub face_mm2: [f64; 2],
    /// How high the steel is at the eye, mm: no web can be thicker.
    pub eye_height_mm: f64,
    /// Least length and least width of the eye, mm: no punch can be larger.
    pub eye_mm: [f64; 2],
}

impl Causes {
    /// Everything that is wrong with the numbers.
    pub(super) fn check(&self) -> Vec<BarError> {
        let mut errors = Vec::new();
        if !FINISHED_KG.admits(self.head_kg) {
            errors.push(BarError::FinishedMass { kg: self.head_kg });
        }
        errors.extend(self.check_shape());
        errors
    }

    /// What is wrong with all but the mass of the head.
    fn check_shape(&self) -> Vec<BarError> {
        let mut errors = Vec::new();
        if !EYE_KG.admits(self.eye_kg) {
            errors.push(BarError::EyeMass { kg: self.eye_kg });
        }
        let [front, back] = self.face_mm2;
        for (what, mm2) in [
            ("head’s surface", self.surface_mm2),
            ("front face", front),
            ("back face", back),
        ] {
            if !AREA_MM2.admits(mm2) {
                errors.push(BarError::Area { what, mm2 });
            }
        }
        if !HEIGHT_MM.admits(self.eye_height_mm) {
            errors.push(BarError::EyeHeight {
                mm: self.eye_height_mm,
            });
        }
        for (across, mm) in ["long", "wide"].into_iter().zip(self.eye_mm) {
            if !EYE_MM.admits(mm) {
                errors.push(BarError::EyeSize { across, mm });
            }
        }
        errors
    }
}
