//! The figures of drifts in words.

use super::super::super::words;
use headwright::drift::{Depth, SectionSize};
use headwright::units::{System, show_number, unit_word};

/// "25.2 × 6.3 mm".
pub fn pair(size: SectionSize, system: System) -> String {
    let [length, width] = [size.length_mm, size.width_mm].map(|mm| words::about_number(mm, system));
    format!("{length} × {width} {}", unit_word(system))
}

/// "9.5 to 11 mm", or one length where both are shown alike.
pub fn range(low_mm: f64, high_mm: f64, system: System) -> String {
    let [low, high] = [low_mm, high_mm].map(|mm| words::about_number(mm, system));
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

/// Less than this is level, mm.
const LEVEL_MM: f64 = 0.05;

/// How deep a drift goes from a mouth.
pub fn depth(depth: Option<Depth>, system: System) -> String {
    match depth.map(|depth| depth.mark_mm) {
        None => "does not enter".to_owned(),
        Some(None) => "right through".to_owned(),
        Some(Some(mark)) if mark.abs() < LEVEL_MM => "level with the mouth".to_owned(),
        Some(Some(mark)) if mark > 0.0 => format!("to the mark {}", words::about(mark, system)),
        Some(Some(mark)) => format!("{} below the mouth", words::about(-mark, system)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_limits_that_are_shown_alike_are_one() {
        assert_eq!(range(9.52, 11.0, System::Metric), "9.5 to 11 mm");
        assert_eq!(range(10.98, 11.01, System::Metric), "11 mm");
        assert_eq!(range(9.525, 12.7, System::Imperial), "3/8 to 1/2 in");
    }

    #[test]
    fn a_stretch_is_said_without_minus_nothing() {
        assert_eq!(stretch(-1e-12, -1e-12), "0 %");
        assert_eq!(stretch(12.3, 14.8), "12 to 15 %");
    }

    #[test]
    fn a_depth_says_where_to_stop() {
        let at = |mark_mm| {
            let size = SectionSize {
                length_mm: 20.0,
                width_mm: 14.0,
            };
            depth(
                Some(Depth {
                    mark_mm,
                    at_mouth: size,
                    at_waist: size,
                }),
                System::Metric,
            )
        };
        assert_eq!(at(None), "right through");
        assert_eq!(at(Some(0.0)), "level with the mouth");
        assert_eq!(at(Some(12.34)), "to the mark 12.3 mm");
        assert_eq!(at(Some(-3.0)), "3 mm below the mouth");
        assert_eq!(depth(None, System::Metric), "does not enter");
    }
}
