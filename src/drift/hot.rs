//! The eye at the heat at which it is drifted, and how the drift is told from it.

use super::{Depth, Plan, SectionSize};
use crate::solid::{EyeSection, Plug};
use crate::units::{System, show_caliper, show_temperature, unit_word};

/// The outline `times` as large.
pub(super) fn section(section: &EyeSection<f64>, times: f64) -> EyeSection<f64> {
    EyeSection {
        p: section.p * times,
        q: section.q * times,
        c: section.c * times,
        d: section.d * times,
    }
}

/// The eye `times` as large, its heights too; it leans as before.
pub(super) fn plug(eye: &Plug<f64>, times: f64) -> Plug<f64> {
    Plug {
        top: section(&eye.top, times),
        waist: section(&eye.waist, times),
        bottom: section(&eye.bottom, times),
        waist_height: eye.waist_height * times,
        mouths: eye.mouths.map(|z| z * times),
        mouth_break: eye.mouth_break.map(|size| size * times),
        ..*eye
    }
}

/// Less than this is level, mm.
const LEVEL_MM: f64 = 0.05;

/// A length as a caliper reads it, with its unit.
fn told(mm: f64, system: System) -> String {
    format!("{} {}", show_caliper(mm, system), unit_word(system))
}

impl SectionSize {
    /// "28.4 × 19.3" as a caliper reads it ([`show_caliper`]), without the unit.
    pub fn words(&self, system: System) -> String {
        let [length, width] = [self.length_mm, self.width_mm].map(|mm| show_caliper(mm, system));
        format!("{length} × {width}")
    }
}

impl Depth {
    /// How deep a drift goes from a mouth: "to the mark 12.3 mm", "right through"; of one without a depth "does not
    /// enter".
    pub fn words(depth: Option<Self>, system: System) -> String {
        match depth.map(|depth| depth.mark_mm) {
            None => "does not enter".to_owned(),
            Some(None) => "right through".to_owned(),
            Some(Some(mark)) if mark.abs() < LEVEL_MM => "level with the mouth".to_owned(),
            Some(Some(mark)) if mark > 0.0 => format!("to the mark {}", told(mark, system)),
            Some(Some(mark)) => format!("{} below the mouth", told(-mark, system)),
        }
    }
}

impl Plan {
    /// How much larger than the finished eye the last drift is at the waist: along the head and across it.
    pub fn larger(&self) -> SectionSize {
        let waist = self.eye[1];
        SectionSize {
            length_mm: waist.length_mm * self.growth,
            width_mm: waist.width_mm * self.growth,
        }
    }

    /// "made for the eye hot, at 1050 °C: 0.4 mm longer and 0.3 mm wider".
    pub fn made_hot(&self, system: System) -> String {
        let larger = self.larger();
        format!(
            "made for the eye hot, at {}: {} longer and {} wider",
            show_temperature(self.celsius, system),
            told(larger.length_mm, system),
            told(larger.width_mm, system)
        )
    }

    /// "28 × 19 mm": what the eye measures at its waist when it is cold.
    pub fn finished_eye(&self, system: System) -> String {
        format!("{} {}", self.eye[1].words(system), unit_word(system))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_depth_says_where_to_stop() {
        let at = |mark_mm| {
            let size = SectionSize {
                length_mm: 20.0,
                width_mm: 14.0,
            };
            let depth = Depth {
                mark_mm,
                at_mouth: size,
                at_waist: size,
            };
            [System::Metric, System::Imperial].map(|system| Depth::words(Some(depth), system))
        };
        assert_eq!(at(None), ["right through"; 2]);
        assert_eq!(at(Some(0.0)), ["level with the mouth"; 2]);
        assert_eq!(
            at(Some(12.34)),
            ["to the mark 12.3 mm", "to the mark 0.486 in"]
        );
        assert_eq!(
            at(Some(-3.0)),
            ["3 mm below the mouth", "0.118 in below the mouth"]
        );
        assert_eq!(Depth::words(None, System::Metric), "does not enter");
    }
}
