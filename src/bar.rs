//! The bar: what to cut so that the finished head weighs enough.
//!
//! How long a piece of which bar makes a head of this mass? Steel is lost on the way from the bar to the finished
//! head: the slug that the punch drives out, scale in every heat, ends trimmed off, faces ground, the rest dressed.
//! Each [`Loss`] is an expected amount, a spread and a source. [`billet`] adds them up:
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
//! its target with at least the chosen confidence. Rolled bar has its nominal section: the small corner radii of
//! square bar (about 0.3 % of the area of a 50 mm square at 3 mm radius) are left to the reserve.
//!
//! # Examples
//! ```
//! use headwright::bar::{Bar, billet};
//! use headwright::units::Density;
//!
//! let bar = Bar { losses: Vec::new(), ..Bar::default() };
//! let billet = billet(1.1, 0.15, Density::STEEL, &bar)?;
//! // 1.1 kg of 45 mm square: 1.1 / (45² · 7.85e-6) = 69.2 mm, cut at 70.
//! assert_eq!(billet.cut_length_mm, 70.0);
//! # Ok::<(), Vec<headwright::bar::BarError>>(())
//! ```

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Length, Rule};

mod billet;
mod error;
mod limits;
mod loss;
mod normal;
mod section;

pub use billet::{Billet, LossMass, billet};
pub use error::{BarError, LossPart};
pub use limits::{
    BAR_SIZE_MM, CONFIDENCE, DENSITY_KG_PER_M3, EYE_KG, FINISHED_KG, LOSS_KG, Limit, MOST_LOSSES,
    PERCENT_OF_EYE, PERCENT_OF_HEAD, SOURCE_CHARACTERS,
};
pub use loss::{Loss, LossAmount, LossKind};
pub use section::BarSection;

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
        if !CONFIDENCE.admits(self.confidence) {
            errors.push(BarError::Confidence {
                value: self.confidence,
            });
        }
        errors
    }
}

/// 45 mm square, the losses of [`Loss::usual`], nine heads in ten, whole millimetres.
impl Default for Bar {
    fn default() -> Self {
        Self {
            section: BarSection::Square {
                across: Length::mm(45.0),
            },
            losses: Loss::usual(),
            confidence: 0.9,
            rule: Rule::MILLIMETRE,
        }
    }
}
