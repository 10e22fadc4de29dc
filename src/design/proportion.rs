//! A head drawn larger or smaller as a whole, and its cheeks kept around what stands beside them.

use super::edit::{round_for, step_for};
use super::{Design, EyeLevel, Part, Range, Size, bounds};
use crate::bar::BarSection;
use crate::solid::{LEAST_END_WALL, LEAST_WALL};
use crate::units::{Length, LengthNotation, MM_PER_INCH, Measure};

/// What bars are ordered by, mm and in (common practice, no source).
const BARS_BY_MM: f64 = 5.0;
const BARS_BY_IN: f64 = 0.25;

/// What worked corners take of a cheek wall at a mouth, at most, mm, of heads as light as are drawn (found by trying).
const WORKED_AWAY: f64 = 1.0;

impl Design {
    /// This head with every length `share` times as long, so that its weight goes with the cube of it.
    ///
    /// Lengths are rounded to half a millimetre or a thirty-second of an inch and kept inside their bounds; angles stay.
    /// What is free gets its usual limits anew, and the bar follows, by 5 mm or a quarter of an inch. The handle stays.
    #[must_use]
    pub fn in_proportion(&self, share: f64) -> Design {
        let mut design = self.clone();
        design.visit_sizes(&mut |dim, size| {
            if let Measure::Length(length) = size {
                let limits = bounds(dim);
                let mm = round_for(length.notation(), length.in_mm() * share);
                *length = length.with_mm(mm.clamp(limits.low, limits.high));
            }
        });
        design.leave_steel_about_the_eye();
        for dim in self.free.keys() {
            if let Some(range) = design.default_range(*dim) {
                design.free.insert(*dim, range);
            }
        }
        design.bar.section = bar_in_proportion(self.bar.section, share);
        design
    }

    /// Lengthens and widens the cheeks to what the eye needs about it, which does not go with the size of a head.
    fn leave_steel_about_the_eye(&mut self) {
        let levels = [&self.eye.top, &self.eye.waist, &self.eye.bottom];
        let most = |of: fn(&EyeLevel) -> Length| {
            let sizes = levels.iter().map(|level| of(level).in_mm());
            sizes.fold(0.0, f64::max)
        };
        let long = most(|level| level.length) + 2.0 * LEAST_END_WALL;
        let wide =
            most(|level| level.width.unwrap_or(level.length)) + 2.0 * (LEAST_WALL + WORKED_AWAY);
        let at_least = |size: &mut Length, mm: f64| {
            let step = step_for(size.notation());
            if size.in_mm() < mm {
                *size = size.with_mm((mm / step).ceil() * step);
            }
        };
        at_least(&mut self.cheeks.length, long);
        at_least(&mut self.cheeks.outline.width, wide);
    }

    /// What necks and tips measure across at most, mm: where the cheeks are narrower, something stands proud of them.
    pub fn most_across_mm(&self) -> f64 {
        let beside = |part: Part| {
            matches!(
                part,
                Part::Neck(..) | Part::Face(_) | Part::Pein(_) | Part::Ball(_)
            )
        };
        let across = |size: Size, part: Part| match size {
            Size::Width | Size::Height | Size::Diameter => true,
            Size::Edge => matches!(part, Part::Pein(_)),
            _ => false,
        };
        let sizes = self.sizes().into_iter();
        sizes
            .filter(|(dim, _)| beside(dim.part) && across(dim.size, dim.part))
            .fold(0.0, |most: f64, (_, size)| most.max(size.number()))
    }

    /// This design with limits of its cheeks that leave no face, pein, ball or neck standing proud of them; cheeks that
    /// are locked, or narrower already, stay as they are.
    #[must_use]
    pub fn with_cheeks_around(&self) -> Design {
        let mut design = self.clone();
        let across = self.most_across_mm();
        for size in [Size::Width, Size::Height] {
            let dim = Part::Cheeks.size(size);
            let now = self.size(dim).map_or(0.0, Measure::number);
            if let Some(Range { low, .. }) = design.free.get_mut(&dim)
                && (low.number()..=now).contains(&across)
            {
                *low = low.with_number(across);
            }
        }
        design
    }
}

/// The bar of about `share` times the size.
fn bar_in_proportion(section: BarSection, share: f64) -> BarSection {
    let sized = |length: Length| {
        let step = match length.notation() {
            LengthNotation::Millimetre | LengthNotation::Centimetre => BARS_BY_MM,
            LengthNotation::InchDecimal | LengthNotation::InchFraction => BARS_BY_IN * MM_PER_INCH,
        };
        length.with_mm((length.in_mm() * share / step).round().max(1.0) * step)
    };
    match section {
        BarSection::Round { diameter } => BarSection::round(sized(diameter)),
        BarSection::Square {
            across,
            corner_radius,
        } => BarSection::square(sized(across)).with_corner_radius(corner_radius),
        BarSection::Rectangular {
            width,
            height,
            corner_radius,
        } => BarSection::rectangular(sized(width), sized(height)).with_corner_radius(corner_radius),
        BarSection::Octagonal { across_flats } => BarSection::Octagonal {
            across_flats: sized(across_flats),
        },
        BarSection::Hexagonal { across_flats } => BarSection::Hexagonal {
            across_flats: sized(across_flats),
        },
        BarSection::OfArea { area_mm2 } => BarSection::OfArea {
            area_mm2: (area_mm2 * share * share).round(),
        },
    }
}
