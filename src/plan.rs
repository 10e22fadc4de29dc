//! The plan: where must the steel be, and how does the bar become the head?
//!
//! Only the slug leaves at the eye; what else the punch displaces is pushed aside. So the bar must supply, at each
//! station x of the head,
//!
//! ```text
//! A_need(x) = k·A_pierced(x) + A_slug(x) + A_skin(x) + A_ends(x),    ∫A_need dx = volume of the cut
//! ```
//!
//! and everything follows from A_need against the bar's area: marks, upset, draw and fuller.
//!
//! # How the losses are spread
//! All of it is common practice, no source.
//! - **Reserve and rounding** like the finished steel: k = (finished + reserve + rounding) / finished.
//! - **Slug** evenly over the length 2p of the bar's punch, or of the eye's waist where the bar reckons its slug without
//!   a punch: A_slug = V / 2p for |x| < p.
//! - **Scale of both kinds and dressing** by the perimeter, taken as that of sections of one shape: A_skin is in
//!   proportion to the square root of the unpierced section's area.
//! - **Trimming** half at each end, **grinding** the same depth off both, which gives an end its share by the area that
//!   it has before it is closed (the face's outline, the ball at its middle, the pein where its nose begins). It fills up
//!   what the crown, the ball's outer half or the nose lacks of a prism of that area; what is left stands beyond the
//!   finished end, so that the head as forged is longer than the finished one.
//!
//! # Volume coordinate
//! A place on the billet belongs to the place on the head that has as much volume of need behind it. Marks come from
//! it ([`Marks`]), and each side of a mark has its volume with its share of the losses.
//!
//! # Examples
//! ```
//! use headwright::design::{self, Side};
//! use headwright::{bar, mass, plan};
//!
//! let design = design::starter("cross").expect("a starter");
//! let solid = design.build().expect("starters are sound");
//! let mass = mass::mass_properties(&solid);
//! let billet = bar::billet(&mass::causes(&solid, &mass), design.density, &design.bar)?;
//! let plan = plan::plan(&solid, &billet, &design.bar, Side::Front);
//! let cut = billet.cut_length_mm * design.bar.section.area_mm2();
//! assert!((plan.curve.volume_mm3() / cut - 1.0).abs() < 1e-9);
//! # Ok::<(), Vec<bar::BarError>>(())
//! ```

use crate::bar::{Bar, Billet, LossKind};
use crate::design::Side;
use crate::solid::Solid;
use crate::units::{Length, System, show_length, unit_word};

mod hot;
mod marks;
mod need;
mod profile;
mod stock;
mod svg;
mod upset;

pub use hot::{
    GROWTH_SOURCE, GROWTH_UNCERTAINTY, HOT_CELSIUS, HotError, HotSize, HotSizes,
    TRANSFORMATION_CELSIUS, TRANSFORMATION_UNCERTAINTY, USUAL_HOT_CELSIUS, growth,
    growth_uncertainty, hot_sizes,
};
pub use marks::{Mark, Marks, Place};
pub use need::{AreaCurve, LEFT_ALONE, Station, Stretch, Work};
pub use stock::{BarFit, TooSmall, least_forging};
pub use svg::{CHECK_LINE_MM, marks_svg};
pub use upset::{
    FREE_DIAMETERS, HAND_DIAMETERS, LONG_UPSET_OUTSIDE, LONG_UPSET_WIDTH, Upset, UpsetRule,
};

/// How the bar becomes the head.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What the bar must supply along the head.
    pub curve: AreaCurve,
    /// Where to set the punch marks.
    pub marks: Marks,
    /// The stretches to be upset, from back to front.
    pub upsets: Vec<Upset>,
    /// The bar, where it has less area than the head needs.
    pub too_small: Option<TooSmall>,
    /// How much forging the bulged cheeks back lengthens the head, mm: the steel that punch and drifts push aside, volume
    /// of the eye less that of the slug, over the mean unpierced section along the eye. Nothing where the slug is as large
    /// as the eye.
    pub lengthens_mm: f64,
}

/// The plan for `solid` from the cut that `billet` describes of `bar`, its marks measured `from` one end.
///
/// # Accuracy
/// ∫A_need dx is the volume of the cut to roundoff. Between stations of the head and at the handle axis the share of
/// the volume is good to 1e-6; areas through crown, pein and eye to 1e-3, the finer course of what is drawn.
pub fn plan(solid: &Solid, billet: &Billet, bar: &Bar, from: Side) -> Plan {
    let profile = profile::Profile::of(solid, bar);
    let curve = need::area_curve(&profile, billet, bar.section.area_mm2());
    let slug = billet
        .losses
        .iter()
        .filter(|loss| loss.kind == LossKind::Slug);
    let slug_kg: f64 = slug.map(|loss| loss.mass_kg).sum();
    let mm3_per_kg = bar.section.area_mm2() * billet.cut_length_mm / billet.cut_mass_kg;
    let aside = (profile.eye_mm3 - slug_kg * mm3_per_kg).max(0.0);
    Plan {
        marks: marks::marks(solid, &curve, from, billet.cut_length_mm, bar.rule),
        upsets: upset::upsets(&curve, bar.section),
        too_small: stock::too_small(&curve, bar.section, bar.rule),
        lengthens_mm: aside / profile.cheeks_mm2(),
        curve,
    }
}

/// Less than this, mm, is not worth a sentence.
const LEAST_LENGTHENING: f64 = 0.5;

impl Plan {
    /// What to know before the fire is lit, in sentences.
    pub fn cautions(&self, system: System) -> Vec<String> {
        let mut cautions: Vec<String> = Vec::new();
        cautions.extend(self.too_small.map(|small| small.words(system)));
        cautions.extend(self.upsets.iter().filter_map(|upset| upset.caution(system)));
        if self.lengthens_mm > LEAST_LENGTHENING {
            let by = Length::mm((self.lengthens_mm * 10.0).round() / 10.0);
            cautions.push(format!(
                "Drifting bulges the cheeks. Forging them back lengthens the head by about {} {} over the eye; the marks allow for it.",
                show_length(by, system),
                unit_word(system),
            ));
        }
        cautions
    }
}
