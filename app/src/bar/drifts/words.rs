//! The figures of drifts in words.

use headwright::drift::SectionSize;
use headwright::units::{System, show_caliper, show_number, unit_word};

/// "25.2 × 6.3 mm", as a caliper reads it.
pub fn pair(size: SectionSize, system: System) -> String {
    format!("{} {}", size.words(system), unit_word(system))
}

/// "9.5 mm", as a caliper reads it.
pub fn one(mm: f64, system: System) -> String {
    format!("{} {}", show_caliper(mm, system), unit_word(system))
}

/// "9.5 to 11 mm", or one length where both are shown alike.
pub fn range(low_mm: f64, high_mm: f64, system: System) -> String {
    let [low, high] = [low_mm, high_mm].map(|mm| show_caliper(mm, system));
    let unit = unit_word(system);
    if low == high {
        format!("{low} {unit}")
    } else {
        format!("{low} to {high} {unit}")
    }
}

/// "12 %", or "12 to 15 %" where it is more at the mouth.
pub fn stretch(percent: f64, at_mouth: f64) -> String {
    // A stretch of nothing may be short of it by a roundoff.
    let [low, high] = [percent, at_mouth].map(|share| show_number(share.round() + 0.0));
    if low == high {
        format!("{low} %")
    } else {
        format!("{low} to {high} %")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_limits_that_are_shown_alike_are_one() {
        assert_eq!(range(9.52, 11.0, System::Metric), "9.5 to 11 mm");
        assert_eq!(range(10.98, 11.01, System::Metric), "11 mm");
        assert_eq!(range(9.525, 12.7, System::Imperial), "0.375 to 0.500 in");
    }

    #[test]
    fn a_stretch_is_said_without_minus_nothing() {
        assert_eq!(stretch(-1e-12, -1e-12), "0 %");
        assert_eq!(stretch(12.3, 14.8), "12 to 15 %");
    }
}
