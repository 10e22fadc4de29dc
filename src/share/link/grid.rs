//! Numbers as steps on the grids that people write on.
//!
//! A [`Scale`] lists the grids of one quantity: half millimetres, sixty-fourths of an inch, and
//! for what lies on none of these a fine grid for every notation. The end of a scale is its
//! limit, whether it lies on a grid or not. A number on no grid is rounded to the fine one before
//! it is coded; one beyond the limits travels as its 64 bits.

use super::pack::{Coder, Fault, WEIGHTS};
use crate::bar::{
    BAR_SIZE_MM, DENSITY_KG_PER_M3, HEATS, LOSS_KG, Limit, MINUTES, PERCENT_OF_EYE, PUNCH_MM,
    SECTION_MM2,
};
use crate::design::Quantity;
use crate::handle::{MOISTURE_PERCENT, SPECIFIC_GRAVITY};
use crate::units::{
    GRAMS_PER_KG, InertiaNotation, KG_MM2_PER_LB_IN2, KG_PER_OUNCE, KG_PER_POUND, LengthNotation,
    MM_PER_CM, MM_PER_INCH, MassNotation, RULE_MAX_MM, RULE_MIN_MM,
};

mod heat;

pub(super) use heat::is_few_percent;

/// The values k / per_unit · unit for whole k. In this order of operations they are the very
/// doubles that reading `2.25 in` gives.
#[derive(Clone, Copy)]
struct Grid {
    /// How likely a number is on this grid and on none before it, of 256.
    weight: u64,
    /// The notation it serves.
    notation: usize,
    /// The notation's unit in the quantity's own.
    unit: f64,
    /// Steps in a unit.
    per_unit: f64,
}

const fn grid(weight: u64, notation: usize, unit: f64, per_unit: f64) -> Grid {
    Grid {
        weight,
        notation,
        unit,
        per_unit,
    }
}

/// The grids of lengths: for every notation the common one, then the fine one. The fine steps are
/// 0.001 mm and 1/40000 in = 0.000635 mm, which holds sixty-fourths and ten-thousandths.
const LENGTHS: [Grid; 7] = [
    grid(46, MILLIMETRE, 1.0, 2.0),
    grid(36, MILLIMETRE, 1.0, 1000.0),
    grid(8, CENTIMETRE, MM_PER_CM, 20.0),
    grid(36, CENTIMETRE, MM_PER_CM, 10_000.0),
    grid(42, INCH_DECIMAL, MM_PER_INCH, 40_000.0),
    grid(44, INCH_FRACTION, MM_PER_INCH, 64.0),
    grid(42, INCH_FRACTION, MM_PER_INCH, 40_000.0),
];
const MILLIMETRE: usize = 0;
const CENTIMETRE: usize = 1;
const INCH_DECIMAL: usize = 2;
const INCH_FRACTION: usize = 3;

/// The grids of a rule, finer than those of lengths because it is multiplied: a hundredth of a
/// micrometre, and 1/1280000 in, which holds 1/128 in and ten-thousandths.
const RULES: [Grid; 6] = [
    grid(60, MILLIMETRE, 1.0, 2.0),
    grid(30, MILLIMETRE, 1.0, 100_000.0),
    grid(20, CENTIMETRE, MM_PER_CM, 1_000_000.0),
    grid(30, INCH_DECIMAL, MM_PER_INCH, 1_280_000.0),
    grid(80, INCH_FRACTION, MM_PER_INCH, 64.0),
    grid(30, INCH_FRACTION, MM_PER_INCH, 1_280_000.0),
];

/// The grids of masses: grams or sixteenths of an ounce, then hundredths of a gram or thousandths
/// of an ounce.
const MASSES: [Grid; 10] = [
    grid(42, 0, 1.0, GRAMS_PER_KG),
    grid(24, 0, 1.0, 100.0 * GRAMS_PER_KG),
    grid(42, 1, 1.0, GRAMS_PER_KG),
    grid(24, 1, 1.0, 100.0 * GRAMS_PER_KG),
    grid(28, 2, KG_PER_OUNCE, 16.0),
    grid(20, 2, KG_PER_OUNCE, 1000.0),
    grid(28, 3, KG_PER_OUNCE, 16.0),
    grid(20, 3, KG_PER_OUNCE, 1000.0),
    grid(14, 4, KG_PER_POUND, 100.0),
    grid(10, 4, KG_PER_POUND, 10_000.0),
];

/// The common grids of [`MASSES`] alone, each as likely as the others.
const COMMON_MASSES: [Grid; 5] = [
    grid(50, 0, 1.0, GRAMS_PER_KG),
    grid(50, 1, 1.0, GRAMS_PER_KG),
    grid(50, 2, KG_PER_OUNCE, 16.0),
    grid(50, 3, KG_PER_OUNCE, 16.0),
    grid(50, 4, KG_PER_POUND, 100.0),
];

/// The common grids of [`LENGTHS`] for losses: tenths of a millimetre, thousandths and sixty-fourths of an inch.
const COMMON_LENGTHS: [Grid; 4] = [
    grid(70, MILLIMETRE, 1.0, 10.0),
    grid(50, CENTIMETRE, MM_PER_CM, 100.0),
    grid(60, INCH_DECIMAL, MM_PER_INCH, 1000.0),
    grid(70, INCH_FRACTION, MM_PER_INCH, 64.0),
];

const HEAT_COUNTS: [Grid; 1] = [grid(250, 0, 1.0, 1.0)];
/// The grids of specific gravities: hundredths, then thousandths.
const GRAVITIES: [Grid; 2] = [grid(200, 0, 1.0, 100.0), grid(50, 0, 1.0, 1000.0)];
/// The grids of minutes and of moistures: halves, then hundredths.
const MINUTE_GRIDS: [Grid; 2] = [grid(200, 0, 1.0, 2.0), grid(50, 0, 1.0, 100.0)];
/// The grids of a section's area: mm², then thousandths.
const AREAS: [Grid; 2] = [grid(200, 0, 1.0, 1.0), grid(50, 0, 1.0, 1000.0)];
const COMMON_PERCENTS: [Grid; 1] = [grid(250, 0, 1.0, 10.0)];
const PERCENTS: [Grid; 2] = [grid(200, 0, 1.0, 10.0), grid(50, 0, 1.0, 1000.0)];
/// The grids of angles: half degrees, then ten-thousandths.
const ANGLES: [Grid; 2] = [grid(150, 0, 1.0, 2.0), grid(100, 0, 1.0, 10_000.0)];
const SHARES: [Grid; 2] = [grid(220, 0, 1.0, 1000.0), grid(30, 0, 1.0, 1e6)];
const WEIGHT_GRIDS: [Grid; 2] = [grid(110, 0, 1.0, 1000.0), grid(142, 0, 1.0, 100_000.0)];
/// The grids of moments of inertia: kg·mm² or hundredths of a lb·in², then hundredths of these.
const INERTIAS: [Grid; 4] = [
    grid(100, 0, 1.0, 1.0),
    grid(50, 0, 1.0, 100.0),
    grid(60, 1, KG_MM2_PER_LB_IN2, 100.0),
    grid(40, 1, KG_MM2_PER_LB_IN2, 10_000.0),
];
const RATIOS: [Grid; 2] = [grid(180, 0, 1.0, 100.0), grid(70, 0, 1.0, 100_000.0)];
const DENSITIES: [Grid; 2] = [grid(220, 0, 1.0, 0.1), grid(30, 0, 1.0, 1000.0)];

/// The order of the notations of a length in a link.
pub(super) const LENGTH_NOTATIONS: [LengthNotation; 4] = [
    LengthNotation::Millimetre,
    LengthNotation::Centimetre,
    LengthNotation::InchDecimal,
    LengthNotation::InchFraction,
];
/// The order of the notations of a mass in a link.
pub(super) const MASS_NOTATIONS: [MassNotation; 5] = [
    MassNotation::Gram,
    MassNotation::Kilogram,
    MassNotation::Ounce,
    MassNotation::PoundOunce,
    MassNotation::Pound,
];

/// The order of the notations of a moment of inertia in a link.
pub(super) const INERTIA_NOTATIONS: [InertiaNotation; 2] = [
    InertiaNotation::KilogramSquareMillimetre,
    InertiaNotation::PoundSquareInch,
];

/// A number and which of its quantity's notations it is in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number {
    pub notation: usize,
    pub value: f64,
}

/// Which grids losses lie on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fineness {
    /// Common and fine ones.
    Fine,
    /// Common ones alone.
    Common,
}

/// A quantity's grids between two limits.
#[derive(Clone, Copy)]
pub(super) struct Scale {
    grids: &'static [Grid],
    notations: usize,
    low: f64,
    high: f64,
    /// How far a number may lie off a grid and still be on it: what a conversion there and back
    /// takes.
    roundoff: f64,
}

/// Roundoff of a length, mm: the precision of a design file.
const ROUNDOFF_MM: f64 = 1e-9;
/// Roundoff of a mass, kg: the precision of a design file. Plain numbers use it as well.
const ROUNDOFF_KG: f64 = 1e-12;
/// Roundoff of a moment of inertia, kg·mm²: the precision of a design file.
const ROUNDOFF_KG_MM2: f64 = 1e-9;
/// Held masses on the grids end here, kg; beyond it the 64 bits travel.
const MOST_HELD_KG: f64 = 100.0;
/// Held lengths on the grids lie within this, mm; beyond it the 64 bits travel.
const MOST_HELD_MM: f64 = 250.0;
/// Held lengths over all on the grids end here, mm.
const LONGEST_HELD_MM: f64 = 500.0;
/// Held moments of inertia on the grids end here, kg·mm².
const MOST_HELD_KG_MM2: f64 = 1e6;
/// Held moments of inertia about the grip on the grids end here, kg·mm².
const MOST_HELD_ABOUT_GRIP_KG_MM2: f64 = 1e8;
/// Held balance points of the tool on the grids lie within this, mm.
const FARTHEST_HELD_MM: f64 = 1000.0;
/// Held ratios on the grids end here.
const MOST_HELD_RATIO: f64 = 25.0;

impl Scale {
    /// Lengths between two limits, mm.
    pub fn lengths(low: f64, high: f64) -> Self {
        Self::in_length_notations(&LENGTHS, low, high)
    }

    /// The smallest divisions of a rule.
    pub fn rules() -> Self {
        Self::in_length_notations(&RULES, RULE_MIN_MM, RULE_MAX_MM)
    }

    fn in_length_notations(grids: &'static [Grid], low: f64, high: f64) -> Self {
        let scale = Self::plain(grids, low, high);
        Self {
            notations: LENGTH_NOTATIONS.len(),
            roundoff: ROUNDOFF_MM,
            ..scale
        }
    }

    /// What is held of a quantity.
    pub fn held(quantity: Quantity) -> Self {
        match quantity {
            Quantity::Mass | Quantity::ToolMass => Self::masses(&MASSES, MOST_HELD_KG),
            Quantity::Balance => Self::lengths(-MOST_HELD_MM, MOST_HELD_MM),
            Quantity::Inertia => Self::inertias(MOST_HELD_KG_MM2),
            Quantity::GripInertia => Self::inertias(MOST_HELD_ABOUT_GRIP_KG_MM2),
            Quantity::ReachRatio => Self::plain(&RATIOS, 0.0, MOST_HELD_RATIO),
            Quantity::Length => Self::lengths(0.0, LONGEST_HELD_MM),
            Quantity::LeastWall => Self::lengths(0.0, MOST_HELD_MM),
            Quantity::ToolBalance => Self::lengths(-FARTHEST_HELD_MM, FARTHEST_HELD_MM),
        }
    }

    fn inertias(most: f64) -> Self {
        Self {
            notations: INERTIA_NOTATIONS.len(),
            roundoff: ROUNDOFF_KG_MM2,
            ..Self::plain(&INERTIAS, 0.0, most)
        }
    }

    /// Masses that are lost.
    pub fn lost_masses(fineness: Fineness) -> Self {
        match fineness {
            Fineness::Fine => Self::masses(&MASSES, LOSS_KG.most),
            Fineness::Common => Self::masses(&COMMON_MASSES, LOSS_KG.most),
        }
    }

    fn masses(grids: &'static [Grid], most: f64) -> Self {
        let scale = Self::plain(grids, 0.0, most);
        Self {
            notations: MASS_NOTATIONS.len(),
            ..scale
        }
    }

    /// Losses in percent.
    pub fn percents(fineness: Fineness) -> Self {
        let grids: &[Grid] = match fineness {
            Fineness::Fine => &PERCENTS,
            Fineness::Common => &COMMON_PERCENTS,
        };
        Self::plain(grids, PERCENT_OF_EYE.least, PERCENT_OF_EYE.most)
    }

    /// Lengths that are lost, or whose spread is.
    pub fn lost_lengths(limit: Limit, fineness: Fineness) -> Self {
        let grids: &[Grid] = match fineness {
            Fineness::Fine => &LENGTHS,
            Fineness::Common => &COMMON_LENGTHS,
        };
        Self::in_length_notations(grids, limit.least, limit.most)
    }

    /// Sizes of a punch.
    pub fn punches(fineness: Fineness) -> Self {
        Self::lost_lengths(PUNCH_MM, fineness)
    }

    /// Numbers of heats.
    pub fn heats() -> Self {
        Self::plain(&HEAT_COUNTS, HEATS.least, HEATS.most)
    }

    /// Lengths of heats.
    pub fn minutes() -> Self {
        Self::plain(&MINUTE_GRIDS, MINUTES.least, MINUTES.most)
    }

    /// Moistures of wood, percent.
    pub fn moistures() -> Self {
        Self::plain(&MINUTE_GRIDS, MOISTURE_PERCENT.least, MOISTURE_PERCENT.most)
    }

    /// Specific gravities of wood.
    pub fn gravities() -> Self {
        Self::plain(&GRAVITIES, SPECIFIC_GRAVITY.least, SPECIFIC_GRAVITY.most)
    }

    /// Shares of one.
    pub fn shares() -> Self {
        Self::plain(&SHARES, 0.0, 1.0)
    }

    /// Weights of conic corners. Half a step of the fine grid moves a corner of 75 mm by less than
    /// 0.0002 mm.
    pub fn weights() -> Self {
        Self::plain(&WEIGHT_GRIDS, 0.0, 1.0)
    }

    /// Densities, kg/m³.
    pub fn densities() -> Self {
        Self::plain(&DENSITIES, DENSITY_KG_PER_M3.least, DENSITY_KG_PER_M3.most)
    }

    /// Angles between two limits, degrees. Half a step of the fine grid moves a point at 250 mm by
    /// less than 0.0003 mm.
    pub fn angles(low: f64, high: f64) -> Self {
        Self::plain(&ANGLES, low, high)
    }

    /// Sizes of a bar's section.
    pub fn bar_sizes() -> Self {
        Self::lengths(BAR_SIZE_MM.least, BAR_SIZE_MM.most)
    }

    /// Radii of a bar's rolled corners.
    pub fn bar_corners() -> Self {
        Self::lengths(0.0, 0.5 * BAR_SIZE_MM.most)
    }

    /// Areas of a section that is given by its area.
    pub fn bar_areas() -> Self {
        Self::plain(&AREAS, SECTION_MM2.least, SECTION_MM2.most)
    }

    fn plain(grids: &'static [Grid], low: f64, high: f64) -> Self {
        Self {
            grids,
            notations: 1,
            low,
            high,
            roundoff: ROUNDOFF_KG,
        }
    }

    fn contains(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// First and last step of `grid`: the ones that reach both limits.
    fn ends(&self, grid: &Grid) -> (f64, f64) {
        let steps = |value: f64| value / grid.unit * grid.per_unit;
        (steps(self.low).floor(), steps(self.high).ceil())
    }

    fn at(&self, grid: &Grid, step: f64) -> f64 {
        (step / grid.per_unit * grid.unit).clamp(self.low, self.high)
    }

    /// The step of `grid` that `value` lies on.
    fn step(&self, grid: &Grid, value: f64) -> Option<f64> {
        let (first, last) = self.ends(grid);
        let nearest = (value / grid.unit * grid.per_unit).round();
        // Beside a limit that is on no step the nearest step need not be the one that stands for it.
        [nearest, nearest - 1.0, nearest + 1.0]
            .into_iter()
            .find(|step| {
                (first..=last).contains(step)
                    && (self.at(grid, *step) - value).abs() <= self.roundoff
            })
    }

    fn grids_of(&self, notation: usize) -> impl Iterator<Item = (usize, &'static Grid)> {
        let grids = self.grids.iter().enumerate();
        grids.filter(move |(_, grid)| grid.notation == notation)
    }

    fn place(&self, number: Number) -> Option<(usize, f64)> {
        self.grids_of(number.notation)
            .find_map(|(index, grid)| Some((index, self.step(grid, number.value)?)))
    }

    /// The values on the notation's finest grid on either side of `number`, the lower first; twice
    /// the number itself when it lies on a grid, beyond the limits or is none.
    pub fn neighbours(&self, number: Number) -> [f64; 2] {
        let Number { notation, value } = number;
        match self.grids_of(notation).last() {
            Some((_, grid)) if self.contains(value) && self.place(number).is_none() => {
                let below = (value / grid.unit * grid.per_unit).floor();
                [self.at(grid, below), self.at(grid, below + 1.0)]
            }
            _ => [value; 2],
        }
    }

    /// The nearer of the two [`neighbours`](Self::neighbours).
    pub fn nearest(&self, number: Number) -> f64 {
        let [below, above] = self.neighbours(number);
        if number.value - below <= above - number.value {
            below
        } else {
            above
        }
    }

    /// Codes a number: a step where it lies on a grid, otherwise its bits.
    pub fn code(&self, coder: &mut impl Coder, number: Number) -> Result<Number, Fault> {
        let mut kinds: Vec<(u64, u64)> = self
            .grids
            .iter()
            .map(|grid| {
                let (first, last) = self.ends(grid);
                (grid.weight, (last - first) as u64 + 1)
            })
            .collect();
        let taken: u64 = kinds.iter().map(|(weight, _)| weight).sum();
        kinds.push((WEIGHTS - taken, self.notations as u64));
        let wanted = match self.place(number) {
            Some((index, step)) => (index, (step - self.ends(&self.grids[index]).0) as u64),
            None => (self.grids.len(), number.notation as u64),
        };
        let (kind, value) = coder.weighted(wanted, &kinds)?;
        Ok(match self.grids.get(kind) {
            Some(grid) => Number {
                notation: grid.notation,
                value: self.at(grid, self.ends(grid).0 + value as f64),
            },
            None => Number {
                notation: value as usize,
                value: f64::from_bits(coder.bits(number.value.to_bits())?),
            },
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::pack::{Reader, Writer};
    use super::*;
    use crate::heat::Medium;

    fn scales() -> Vec<Scale> {
        vec![
            Scale::lengths(-40.0, 40.0),
            Scale::lengths(0.2, 75.0),
            Scale::lengths(5.0, 2000.0),
            Scale::rules(),
            Scale::held(Quantity::Mass),
            Scale::held(Quantity::Inertia),
            Scale::held(Quantity::ReachRatio),
            Scale::held(Quantity::Length),
            Scale::lost_masses(Fineness::Fine),
            Scale::lost_masses(Fineness::Common),
            Scale::percents(Fineness::Fine),
            Scale::percents(Fineness::Common),
            Scale::punches(Fineness::Fine),
            Scale::punches(Fineness::Common),
            Scale::heats(),
            Scale::minutes(),
            Scale::baths(Medium::Air),
            Scale::ovens(),
            Scale::hardnesses(),
            Scale::soaks(),
            Scale::elements(true),
            Scale::elements(false),
            Scale::bar_areas(),
            Scale::shares(),
            Scale::weights(),
            Scale::densities(),
            Scale::angles(-90.0, 90.0),
        ]
    }

    #[test]
    fn the_weights_of_every_scale_leave_room_for_the_bits() {
        for scale in scales() {
            let taken: u64 = scale.grids.iter().map(|grid| grid.weight).sum();
            assert!(taken < WEIGHTS, "{taken}");
            assert!(scale.grids.iter().all(|grid| grid.weight > 0));
        }
    }

    #[track_caller]
    fn check_comes_back(scale: Scale, number: Number) -> usize {
        let mut writer = Writer::default();
        // A second choice keeps the length from depending on the first one's idle zeros.
        for _ in 0..8 {
            scale.code(&mut writer, number).expect("in range");
        }
        let bytes = writer.finish();
        let mut reader = Reader::new(&bytes);
        for _ in 0..8 {
            let junk = Number {
                notation: 0,
                value: 1.0,
            };
            let back = scale.code(&mut reader, junk).expect("readable");
            assert_eq!(back.notation, number.notation);
            assert!(
                back.value.to_bits() == number.value.to_bits()
                    || (back.value - number.value).abs() <= scale.roundoff,
                "{number:?} came back as {back:?}"
            );
        }
        bytes.len()
    }

    #[test]
    fn every_number_comes_back_on_every_scale_in_every_notation() {
        for scale in scales() {
            for notation in 0..scale.notations {
                let values = [
                    scale.low,
                    scale.high,
                    scale.low - 1.0,
                    scale.high + 1.0,
                    0.5 * (scale.low + scale.high),
                    std::f64::consts::PI,
                    1e300,
                    f64::NAN,
                    f64::NEG_INFINITY,
                ];
                for value in values {
                    check_comes_back(scale, Number { notation, value });
                }
            }
        }
    }

    #[test]
    fn what_smiths_write_takes_about_two_characters_and_anything_else_under_four() {
        let scale = Scale::lengths(8.0, 150.0);
        // Eight numbers; a character of a link is 6 bits.
        let length = |notation, value| {
            let number = Number { notation, value };
            let value = scale.nearest(number);
            assert!((value - number.value).abs() <= 0.0005 + 1e-12);
            check_comes_back(scale, Number { notation, value }) as f64 * 8.0 / 6.0 / 8.0
        };
        assert!(length(MILLIMETRE, 42.5) <= 2.0);
        assert!(length(INCH_FRACTION, 2.25 * 25.4) <= 2.0);
        for notation in 0..4 {
            assert!(length(notation, 100.0 / 3.0) < 4.0);
        }
    }

    #[test]
    fn a_written_number_comes_back_as_the_same_double() {
        let scale = Scale::lengths(0.2, 150.0);
        for (text, notation) in [
            ("57.15 mm", MILLIMETRE),
            ("58.123 mm", MILLIMETRE),
            ("5.8123 cm", CENTIMETRE),
            ("2.283 in", INCH_DECIMAL),
            ("2 47/64 in", INCH_FRACTION),
        ] {
            let value = text
                .parse::<crate::units::Length>()
                .expect("a length")
                .in_mm();
            let mut writer = Writer::default();
            scale
                .code(&mut writer, Number { notation, value })
                .expect("in range");
            let mut reader = Reader::new(&writer.finish());
            let back = scale.code(
                &mut reader,
                Number {
                    notation: 0,
                    value: 0.0,
                },
            );
            assert_eq!(back, Ok(Number { notation, value }), "{text}");
        }
    }

    #[test]
    fn neighbours_enclose_a_number_and_stay_inside_the_limits() {
        let scale = Scale::lengths(8.0, 150.0);
        for notation in 0..4 {
            for value in [8.0, 8.0001, 33.3333333, 149.9999, 150.0] {
                let [below, above] = scale.neighbours(Number { notation, value });
                assert!(8.0 <= below && below <= value && value <= above && above <= 150.0);
                assert!(above - below <= 0.001 + 1e-9);
            }
        }
    }
}
