//! Sizes stepped by a rule, in the notation of the units that are shown.

use headwright::bar::Bar;
use headwright::units::{LengthNotation, System};

/// `notation` where it belongs to `system`, else the plain one of `system`.
pub fn written_in(notation: LengthNotation, system: System) -> LengthNotation {
    use LengthNotation::{Centimetre, InchDecimal, InchFraction, Millimetre};
    match (system, notation) {
        (System::Metric, InchDecimal | InchFraction) => Millimetre,
        (System::Imperial, Millimetre | Centimetre) => InchFraction,
        _ => notation,
    }
}

/// `bar` with a rule that lies at hand where lengths are of this system.
pub fn bar_in(bar: &Bar, system: System) -> Bar {
    Bar {
        rule: bar.rule.in_system(system),
        ..bar.clone()
    }
}

/// By which an angle is stepped, degrees.
pub const HALF_DEGREE: f64 = 0.5;

/// How near to a division, in divisions, a value counts as lying on it.
const ON_THE_RULE: f64 = 1e-6;

/// `mm` moved by `count` divisions; from between two divisions the first step leads onto the rule.
pub fn stepped(mm: f64, division: f64, count: i32) -> f64 {
    let at = mm / division;
    let from = if count > 0 {
        (at + ON_THE_RULE).floor()
    } else {
        (at - ON_THE_RULE).ceil()
    };
    (from + f64::from(count)) * division
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::units::{Length, Rule};

    #[test]
    fn a_step_from_between_two_divisions_leads_onto_the_rule() {
        assert_eq!(stepped(41.3, 1.0, 1), 42.0);
        assert_eq!(stepped(41.3, 1.0, -1), 41.0);
        assert_eq!(stepped(41.0, 1.0, 1), 42.0);
        assert_eq!(stepped(41.0, 1.0, -1), 40.0);
        assert_eq!(stepped(-0.4, 0.5, -1), -0.5);
    }

    #[test]
    fn steps_along_the_rule_come_back_to_where_they_began() {
        let sixteenth = Rule::SIXTEENTH.division().in_mm();
        let mut mm = 33.0 * sixteenth;
        for _ in 0..7 {
            mm = stepped(mm, sixteenth, 1);
        }
        for _ in 0..7 {
            mm = stepped(mm, sixteenth, -1);
        }
        assert!((mm - 33.0 * sixteenth).abs() < 1e-9, "{mm}");
    }

    #[test]
    fn a_cut_is_measured_with_a_rule_of_the_units_that_are_shown() {
        let eighth = Rule::new(Length::inches(0.125)).expect("a rule");
        assert_eq!(eighth.in_system(System::Imperial), eighth);
        assert_eq!(eighth.in_system(System::Metric), Rule::MILLIMETRE);
        let bar = bar_in(&Bar::default(), System::Imperial);
        assert_eq!(bar.rule, Rule::SIXTEENTH);
        assert_eq!(bar.section, Bar::default().section);
    }

    #[test]
    fn a_stepped_size_is_written_in_the_units_that_are_shown() {
        let inch = LengthNotation::InchFraction;
        assert_eq!(written_in(inch, System::Metric), LengthNotation::Millimetre);
        assert_eq!(written_in(inch, System::Imperial), inch);
        let cm = LengthNotation::Centimetre;
        assert_eq!(written_in(cm, System::Metric), cm);
        assert_eq!(written_in(cm, System::Imperial), inch);
    }
}
