//! Which bar: too small a one, and the one that needs least forging.

use super::need::{AreaCurve, LEFT_ALONE, area_curve};
use super::profile::Profile;
use crate::bar::{Bar, BarError, BarSection, Causes, billet};
use crate::solid::Solid;
use crate::units::{
    Density, Length, MM_PER_INCH, Rule, System, show_length, show_number, unit_word,
};

/// A head that needs more than the bar's area somewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TooSmall {
    /// x where it needs most, mm.
    pub x_mm: f64,
    /// Area needed there, mm².
    pub need_mm2: f64,
    /// The bar.
    pub section: BarSection,
    /// A bar of the same shape that has that area, on the rule.
    pub enough: BarSection,
}

/// Whether a bar of `section` has less area than `curve` needs, by more than what is left alone.
pub(super) fn too_small(curve: &AreaCurve, section: BarSection, rule: Rule) -> Option<TooSmall> {
    let thickest = curve.thickest()?;
    (thickest.ratio > 1.0 + LEFT_ALONE).then(|| TooSmall {
        x_mm: thickest.x_mm,
        need_mm2: thickest.need_mm2,
        section,
        enough: scaled(section, thickest.ratio.sqrt(), rule),
    })
}

/// `section` with every size `by` times as large, rounded up to `rule`.
fn scaled(section: BarSection, by: f64, rule: Rule) -> BarSection {
    let size = |length: Length| rule.division().with_mm(rule.round_up(by * length.in_mm()));
    match section {
        BarSection::Round { diameter } => BarSection::Round {
            diameter: size(diameter),
        },
        BarSection::Square {
            across,
            corner_radius,
        } => BarSection::Square {
            across: size(across),
            corner_radius,
        },
        BarSection::Rectangular {
            width,
            height,
            corner_radius,
        } => BarSection::Rectangular {
            width: size(width),
            height: size(height),
            corner_radius,
        },
        BarSection::Octagonal { across_flats } => BarSection::Octagonal {
            across_flats: size(across_flats),
        },
        BarSection::Hexagonal { across_flats } => BarSection::Hexagonal {
            across_flats: size(across_flats),
        },
        BarSection::OfArea { area_mm2 } => BarSection::OfArea {
            area_mm2: (area_mm2 * by * by).ceil(),
        },
    }
}

impl TooSmall {
    /// In a sentence, with what helps.
    pub fn words(&self, system: System) -> String {
        let bar_mm2 = self.section.area_mm2();
        let away = Length::mm((self.x_mm.abs() * 10.0).round() / 10.0);
        format!(
            "The head needs {} at {} {} {} the handle axis, {} times the {} of the {} bar. Upset it there, or take a bar of at least that area, such as {}.",
            area(self.need_mm2, system),
            show_length(away, system),
            unit_word(system),
            if self.x_mm < 0.0 {
                "behind"
            } else {
                "in front of"
            },
            show_number((self.need_mm2 / bar_mm2 * 100.0).round() / 100.0),
            area(bar_mm2, system),
            self.section.words(system),
            self.enough.words(system),
        )
    }
}

/// An area with its unit: whole mm², or in² to two decimals.
fn area(mm2: f64, system: System) -> String {
    match system {
        System::Metric => format!("{mm2:.0} mm²"),
        System::Imperial => format!("{:.2} in²", mm2 / MM_PER_INCH.powi(2)),
    }
}

/// A bar and how much forging it asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarFit {
    /// The bar.
    pub section: BarSection,
    /// Length of its cut, mm.
    pub cut_length_mm: f64,
    /// Volume to be moved, mm³: ∫|A_need − A_bar| dx.
    pub moved_mm3: f64,
    /// The same as a share of the finished head's volume.
    pub share: f64,
    /// Greatest area needed over the bar's.
    pub greatest_ratio: f64,
}

/// What a head from each of `sections` asks of the hammer, the bar that asks least first; equal ones keep their order.
///
/// `causes` are those of `solid`; losses, confidence and rule those of `bar`.
///
/// # Errors
/// Everything that is wrong with the bar or with one of the sections.
pub fn least_forging(
    solid: &Solid,
    causes: &Causes,
    density: Density,
    bar: &Bar,
    sections: &[BarSection],
) -> Result<Vec<BarFit>, Vec<BarError>> {
    let profile = Profile::of(solid, bar);
    let mut fits = Vec::with_capacity(sections.len());
    for section in sections.iter().copied() {
        let bar = Bar {
            section,
            ..bar.clone()
        };
        let billet = billet(causes, density, &bar)?;
        let curve = area_curve(&profile, &billet, section.area_mm2());
        let moved_mm3 = curve.moved_mm3();
        fits.push(BarFit {
            section,
            cut_length_mm: billet.cut_length_mm,
            moved_mm3,
            share: moved_mm3 / profile.volume,
            greatest_ratio: curve.thickest().map_or(0.0, |station| station.ratio),
        });
    }
    fits.sort_by(|a, b| a.moved_mm3.total_cmp(&b.moved_mm3));
    Ok(fits)
}
