//! The bar: what to cut so that the finished head weighs enough.
//!
//! How long a piece of which bar makes a head of this mass? Steel is lost on the way from the bar to the finished
//! head: the slug that the punch drives out, scale in every heat, ends trimmed off, faces ground, the rest dressed.
//! Each [`Loss`] is an expected amount, a spread and a source; the amount is reckoned from its cause where the cause
//! is known ([`LossAmount`]), from what the head has of it ([`Causes`]). [`billet`] adds them up:
//!
//! ```text
//! expected billet = finished head + losses                as likely as not it is enough
//! reserve         = z(confidence) · √(Σ spread²)           for the chosen confidence
//! cut             = expected billet + reserve + rounding   = cut length × area × density
//! ```
//!
//! # Assumptions
//! A spread is one standard deviation. The losses of one head are independent and normal, so their sum is normal
//! with the root of the summed squares, and z is the standard normal quantile. Then the head finishes at or above
//! its target with at least the chosen confidence. Rolled bar has its nominal section, with the corner radius that
//! is stated. Areas are those of the finished head: [`LossAmount`] says what they stand for.
//!
//! [`from_piece`] goes the other way: what head a piece that is already cut and weighed gives.
//!
//! # Examples
//! ```
//! use headwright::bar::{Bar, Causes, billet};
//! use headwright::units::Density;
//!
//! let causes = Causes {
//!     head_kg: 1.1,
//!     eye_kg: 0.15,
//!     surface_mm2: 21_000.0,
//!     face_mm2: [1400.0, 1300.0],
//!     eye_height_mm: 40.0,
//!     eye_mm: [28.0, 19.0],
//! };
//! let bar = Bar { losses: Vec::new(), ..Bar::default() };
//! let billet = billet(&causes, Density::STEEL, &bar)?;
//! // 1.1 kg of 45 mm square: 1.1 / (45² · 7.85e-6) = 69.2 mm, cut at 70.
//! assert_eq!(billet.cut_length_mm, 70.0);
//! # Ok::<(), Vec<headwright::bar::BarError>>(())
//! ```

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Density, Length, Rule};

mod amount;
mod billet;
mod causes;
mod error;
mod limits;
mod loss;
mod normal;
mod on_hand;
mod piece;
mod punch;
mod section;

pub use amount::{Atmosphere, HEAT_MINUTES, LossAmount};
pub use billet::{Billet, LossMass, billet};
pub use causes::Causes;
pub use error::{BarError, LossPart, LossUnit};
pub use limits::{
    ALLOWANCE_MM, AREA_MM2, BAR_SIZE_MM, CONFIDENCE, DENSITY_KG_PER_M3, EYE_KG, EYE_MM,
    FINISHED_KG, HEATS, HEIGHT_MM, LAYER_MM, LOSS_KG, Limit, MINUTES, MOST_BARS, MOST_LOSSES,
    PERCENT_OF_EYE, PERCENT_OF_HEAD, PERCENT_SUM_OF_EYE, PERCENT_SUM_OF_HEAD, PIECE_KG, PUNCH_MM,
    SECTION_MM2, SOURCE_CHARACTERS, TRIM_MM, WEB_MM,
};
pub(crate) use loss::READ_BEFORE;
pub use loss::{Certainty, Loss, LossKind};
pub use on_hand::OnHand;
pub use piece::{Piece, from_piece};
pub use punch::{Punch, SLOT_LENGTH_SHARE, SLOT_WIDTH_SHARE};
pub use section::BarSection;

/// What goes with the saw, the fire and the grinder, wherever a cut is shown (common practice; OSHA and NIOSH on eyes,
/// noise, dust and fume, from memory).
pub const CAUTIONS: [&str; 4] = [
    "Local codes and licensed practice come first.",
    "At the saw: clamp the bar, hold the short piece down too, and wear eye and hearing protection.",
    "At the grinder: guard on, eyes and ears protected, dust drawn off or a respirator worn, nothing that burns in the sparks.",
    "A forge gives off fume and carbon monoxide: work it only with fresh air and an alarm, and never heat galvanized or painted stock.",
];

/// The bar a head is cut from and what is lost between bar and finished head.
///
/// Plain data that may be out of bounds; [`Bar::check`] says what is wrong with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Bar {
    /// The bar's section.
    pub section: BarSection,
    /// What is lost on the way, one line each, in the order of the work.
    pub losses: Vec<Loss>,
    /// Share of heads that are to finish at or above their target, from 0.5 (as likely as not) to 0.999.
    #[schemars(range(min = CONFIDENCE.least, max = CONFIDENCE.most))]
    pub confidence: f64,
    /// The smallest division the cut is measured with; the cut is rounded up to it.
    pub rule: Rule,
}

impl Bar {
    /// Everything that is wrong with the bar; nothing when it can be worked from.
    pub fn check(&self) -> Vec<BarError> {
        let mut errors = self.section.check();
        if self.losses.len() > MOST_LOSSES {
            errors.push(BarError::TooManyLosses {
                count: self.losses.len(),
            });
        }
        for (index, loss) in self.losses.iter().enumerate() {
            errors.extend(loss.check(index + 1));
        }
        // Of lines that are wrong by themselves no sum is taken.
        if errors.is_empty() {
            errors.extend(self.check_sums());
        }
        if !CONFIDENCE.admits(self.confidence) {
            errors.push(BarError::Confidence {
                value: self.confidence,
            });
        }
        errors
    }

    /// Whether lines in percent take more than there is.
    fn check_sums(&self) -> Vec<BarError> {
        let (mut of_head, mut of_eye) = (0.0, 0.0);
        for loss in &self.losses {
            match loss.amount {
                LossAmount::PercentOfHead { expected, .. } => of_head += expected,
                LossAmount::PercentPerHeat {
                    heats, expected, ..
                } => of_head += f64::from(heats) * expected,
                LossAmount::PercentOfEye { expected, .. } => of_eye += expected,
                _ => {}
            }
        }
        let sums = [
            ("head", of_head, PERCENT_SUM_OF_HEAD),
            ("eye", of_eye, PERCENT_SUM_OF_EYE),
        ];
        let above = sums.into_iter().filter(|(_, sum, most)| sum > most);
        above
            .map(|(of, sum, most)| BarError::PercentSum { of, sum, most })
            .collect()
    }

    /// The punch that the slug is reckoned for, in an eye of this least length and width, mm; none where the slug is
    /// reckoned from something else.
    pub fn punch(&self, eye_mm: [f64; 2]) -> Option<Punch> {
        let slugs = self
            .losses
            .iter()
            .filter(|loss| loss.kind == LossKind::Slug);
        let mut punches = slugs.filter_map(|loss| match loss.amount {
            LossAmount::Punched { punch, .. } => Some(punch),
            _ => None,
        });
        let chosen = punches.next()?;
        Some(chosen.unwrap_or_else(|| Punch::usual(eye_mm)))
    }

    /// What of the losses cannot be on a head of these causes.
    fn check_on(&self, causes: &Causes, density: Density) -> Vec<BarError> {
        let mut errors = Vec::new();
        let mut slug_kg = 0.0;
        for (line, loss) in (1..).zip(&self.losses) {
            let is_punched = matches!(loss.amount, LossAmount::Punched { .. });
            if is_punched || loss.kind == LossKind::Slug {
                slug_kg += loss.amount.in_kg(causes, density, self.section).0;
            }
            let LossAmount::Punched {
                punch,
                expected: web,
                ..
            } = loss.amount
            else {
                continue;
            };
            let name = loss.kind.words();
            if web.in_mm() > causes.eye_height_mm {
                errors.push(BarError::Web {
                    line,
                    name,
                    web,
                    height_mm: causes.eye_height_mm,
                });
            }
            let sizes = punch.into_iter().flat_map(Punch::across);
            for ((across, value), eye_mm) in
                ["long", "wide"].into_iter().zip(sizes).zip(causes.eye_mm)
            {
                if value.in_mm() > eye_mm {
                    errors.push(BarError::Punch {
                        line,
                        name,
                        across,
                        value,
                        eye_mm,
                    });
                }
            }
        }
        // Of a punch or a web that does not fit no mass is taken.
        if errors.is_empty() && slug_kg > causes.eye_kg {
            errors.push(BarError::Slug {
                slug_kg,
                eye_kg: causes.eye_kg,
            });
        }
        errors
    }
}

/// 45 mm square, the losses of [`Loss::usual`], nine heads in ten, whole millimetres.
impl Default for Bar {
    fn default() -> Self {
        Self {
            section: BarSection::square(Length::mm(45.0)),
            losses: Loss::usual(),
            confidence: 0.9,
            rule: Rule::MILLIMETRE,
        }
    }
}
