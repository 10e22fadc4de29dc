//! Upsetting: how much bar is gathered, and whether it will buckle.

use std::f64::consts::PI;

use super::need::{AreaCurve, Work};
use crate::bar::BarSection;
use crate::units::{Length, System, show_length, show_number, unit_word};

/// Free length, in diameters, that a hand upset gathers without buckling: common practice, no source.
pub const HAND_DIAMETERS: f64 = 2.5;
/// Free length, in diameters, that one blow may gather.
///
/// # Source
/// Forging Industry Association, Design rules for upset forgings (forging.org, 3.5.4.2), rule 1.
pub const FREE_DIAMETERS: f64 = 3.0;
/// Most diameter of a longer upset over the bar's, the same source, rule 2.
pub const LONG_UPSET_WIDTH: f64 = 1.5;
/// Most bar that may stand out of the hole that holds a longer upset, in diameters, the same source, rule 3; its
/// text is garbled there, and other handbooks say 1 (from memory).
pub const LONG_UPSET_OUTSIDE: f64 = 1.5;

/// What the rules for upsetting say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UpsetRule {
    /// Short enough for the hand hammer.
    Free,
    /// Longer than [`HAND_DIAMETERS`], within [`FREE_DIAMETERS`] (rule 1).
    BeyondHand,
    /// Longer than [`FREE_DIAMETERS`], no wider than [`LONG_UPSET_WIDTH`]: only in a hole (rules 2 and 3).
    InHole,
    /// Longer and wider: not in one go.
    InSteps,
}

/// A stretch of bar to be upset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Upset {
    /// x where the stretch begins on the finished head, mm.
    pub from_mm: f64,
    /// x where it ends, mm.
    pub to_mm: f64,
    /// Distance of the gathered bar's beginning from the billet's back end, mm.
    pub bar_from_mm: f64,
    /// Free length of bar that is gathered, mm.
    pub bar_length_mm: f64,
    /// Diameter of the bar, of other than round bar that of a round as stiff across its least thickness or of its area,
    /// the lesser, mm.
    pub diameter_mm: f64,
    /// Free length in diameters.
    pub diameters: f64,
    /// Greatest area needed over the bar's.
    pub ratio: f64,
    /// What the rules say.
    pub rule: UpsetRule,
}

impl UpsetRule {
    /// Its name, for a program.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Free => "within_hand_limit",
            Self::BeyondHand => "within_free_limit",
            Self::InHole => "beyond_in_hole",
            Self::InSteps => "beyond_in_steps",
        }
    }

    /// The verdict in words: "within 2.5 d, by hand".
    pub fn words(self) -> String {
        match self {
            Self::Free => format!("within {HAND_DIAMETERS} d, by hand"),
            Self::BeyondHand => format!("within {FREE_DIAMETERS} d, too long by hand"),
            Self::InHole => format!("beyond {FREE_DIAMETERS} d, in a hole"),
            Self::InSteps => format!("beyond {FREE_DIAMETERS} d, in steps"),
        }
    }

    /// The rule for a free length in diameters of the bar and an upset whose diameter is `width` times the bar's.
    pub fn of(diameters: f64, width: f64) -> Self {
        if diameters <= HAND_DIAMETERS {
            Self::Free
        } else if diameters <= FREE_DIAMETERS {
            Self::BeyondHand
        } else if width <= LONG_UPSET_WIDTH {
            Self::InHole
        } else {
            Self::InSteps
        }
    }
}

impl Upset {
    /// What to beware of, in a sentence; nothing where the hand hammer will do.
    pub fn caution(&self, system: System) -> Option<String> {
        let mm = |mm: f64| {
            format!(
                "{} {}",
                show_length(Length::mm(round_tenth(mm)), system),
                unit_word(system)
            )
        };
        let gathered = format!(
            "The upset gathers {} of bar, {} diameters of {}",
            mm(self.bar_length_mm),
            show_number(round_tenth(self.diameters)),
            mm(self.diameter_mm),
        );
        match self.rule {
            UpsetRule::Free => None,
            UpsetRule::BeyondHand => Some(format!(
                "{gathered}: more than the {HAND_DIAMETERS} that stand up under a hand hammer. Upset it in two steps or take thicker bar."
            )),
            UpsetRule::InHole => Some(format!(
                "{gathered}: more than the {FREE_DIAMETERS} that may stand free. Upset it in a hole no wider than {}, with no more than {} standing out, or take thicker bar.",
                mm(LONG_UPSET_WIDTH * self.diameter_mm),
                mm(LONG_UPSET_OUTSIDE * self.diameter_mm),
            )),
            UpsetRule::InSteps => Some(format!(
                "{gathered}: more than the {FREE_DIAMETERS} that may stand free, and it is to become {} times as thick, more than {LONG_UPSET_WIDTH}. Upset it in steps or take thicker bar.",
                show_number((self.ratio.sqrt() * 100.0).round() / 100.0),
            )),
        }
    }
}

/// To a tenth: no sentence promises more.
fn round_tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// Every stretch of `curve` that is upset, from back to front.
///
/// Steel between two of them that is left as it is stands as free as they do and counts with them. What may buckle is
/// told by the round that is as stiff across the bar's least thickness, or the round of its area where that is less.
pub(super) fn upsets(curve: &AreaCurve, section: BarSection) -> Vec<Upset> {
    let round = (4.0 / PI * curve.bar_mm2).sqrt();
    let sizes = section.sizes().into_iter().map(|(_, size)| size.in_mm());
    // The round of the same least radius of gyration: d/4 = t/√12.
    let diameter_mm = sizes
        .map(|size| size * 2.0 / 3f64.sqrt())
        .fold(round, f64::min);
    let mut bar_from_mm = 0.0;
    let mut upsets: Vec<Upset> = Vec::new();
    let mut left = None;
    for stretch in &curve.stretches {
        match (stretch.work, upsets.last_mut(), left) {
            (Work::Upset, Some(last), Some(between)) => {
                last.to_mm = stretch.to_mm;
                last.bar_length_mm += between + stretch.bar_length_mm;
                last.ratio = last.ratio.max(stretch.ratio);
                left = Some(0.0);
            }
            (Work::Upset, ..) => {
                upsets.push(Upset {
                    from_mm: stretch.from_mm,
                    to_mm: stretch.to_mm,
                    bar_from_mm,
                    bar_length_mm: stretch.bar_length_mm,
                    diameter_mm,
                    diameters: 0.0,
                    ratio: stretch.ratio,
                    rule: UpsetRule::Free,
                });
                left = Some(0.0);
            }
            (Work::Leave, _, Some(between)) => left = Some(between + stretch.bar_length_mm),
            _ => left = None,
        }
        bar_from_mm += stretch.bar_length_mm;
    }
    for upset in &mut upsets {
        upset.diameters = upset.bar_length_mm / diameter_mm;
        upset.rule = UpsetRule::of(upset.diameters, upset.ratio.sqrt());
    }
    upsets
}
