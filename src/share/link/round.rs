//! What a link carries of a design: every size on its grid, limits and losses as finely as there
//! is room for.

use std::collections::BTreeMap;

use super::grid::{
    Fineness, INERTIA_NOTATIONS, LENGTH_NOTATIONS, MASS_NOTATIONS, Number, Scale, is_few_percent,
};
use crate::bar::{ALLOWANCE_MM, Bar, BarSection, LAYER_MM, LossAmount, Punch, TRIM_MM, WEB_MM};
use crate::design::{Bounds, Corner, Design, Dim, Quantity, Range, Side, Tip, bounds};
use crate::handle::{Handle, LENGTH_MM};
use crate::heat::{Aim, Heat};
use crate::solid::{Head, checks};
use crate::units::{
    Amount, Density, Inertia, Length, LengthNotation, MM_PER_INCH, Mass, Measure, Rule,
};

/// How finely limits and losses travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Detail {
    /// Losses: to 0.01 g and 0.001 %, or to 1 g, 1/16 oz, 1/100 lb and 0.1 %.
    pub losses: Fineness,
    /// Limits: as finely as sizes and each in its own notation, or in steps of mm and inch in the
    /// notation of the size.
    pub limits: Option<(f64, f64)>,
}

const fn detail(losses: Fineness, limits: Option<(f64, f64)>) -> Detail {
    Detail { losses, limits }
}

const fn coarse(mm: f64, inch: f64) -> Detail {
    detail(Fineness::Common, Some((mm, inch)))
}

/// The details, tried from the first on until a link is short enough. With the last every limit is
/// that of the table of bounds.
pub(super) const DETAILS: [Detail; 12] = [
    detail(Fineness::Fine, None),
    detail(Fineness::Common, None),
    coarse(0.1, 1.0 / 256.0),
    coarse(0.25, 1.0 / 128.0),
    coarse(0.5, 1.0 / 64.0),
    coarse(1.0, 1.0 / 32.0),
    coarse(2.0, 1.0 / 16.0),
    coarse(4.0, 1.0 / 8.0),
    coarse(8.0, 1.0 / 4.0),
    coarse(16.0, 1.0 / 2.0),
    coarse(32.0, 1.0),
    coarse(4096.0, 128.0),
];

impl Detail {
    /// The step of limits, mm or degrees, for `size`; nothing when they travel finely.
    pub fn limit_step(&self, size: Measure) -> Option<f64> {
        let (mm, inch) = self.limits?;
        Some(match size {
            Measure::Length(length)
                if matches!(
                    length.notation(),
                    LengthNotation::InchDecimal | LengthNotation::InchFraction
                ) =>
            {
                inch * MM_PER_INCH
            }
            Measure::Length(_) | Measure::Angle(_) => mm,
        })
    }
}

/// Off a step by less than this, mm, a limit is on it: a conversion there and back takes no more.
const ROUNDOFF_MM: f64 = 1e-9;

/// The last step not above `mm`, in steps.
pub(super) fn step_below(mm: f64, step: f64) -> f64 {
    ((mm + ROUNDOFF_MM) / step).floor()
}

/// The first step not below `mm`, in steps.
pub(super) fn step_above(mm: f64, step: f64) -> f64 {
    ((mm - ROUNDOFF_MM) / step).ceil()
}

/// `length` as a number of a length's scale.
pub(super) fn length_number(length: Length) -> Number {
    let notation = LENGTH_NOTATIONS
        .iter()
        .position(|notation| *notation == length.notation());
    Number {
        notation: notation.unwrap_or(0),
        value: length.in_mm(),
    }
}

/// `size` as a number of its dimension's scale.
pub(super) fn size_number(size: Measure) -> Number {
    match size {
        Measure::Length(length) => length_number(length),
        Measure::Angle(angle) => Number {
            notation: 0,
            value: angle.in_degrees(),
        },
    }
}

/// `mass` as a number of a mass's scale.
pub(super) fn mass_number(mass: Mass) -> Number {
    let notation = MASS_NOTATIONS
        .iter()
        .position(|notation| *notation == mass.notation());
    Number {
        notation: notation.unwrap_or(0),
        value: mass.in_kg(),
    }
}

/// `inertia` as a number of a moment of inertia's scale.
fn inertia_number(inertia: Inertia) -> Number {
    let notation = INERTIA_NOTATIONS
        .iter()
        .position(|notation| *notation == inertia.notation());
    Number {
        notation: notation.unwrap_or(0),
        value: inertia.in_kg_mm2(),
    }
}

/// `amount` as a number of the scale of what is held.
pub(super) fn amount_number(amount: Amount) -> Number {
    match amount {
        Amount::Mass(mass) => mass_number(mass),
        Amount::Length(length) => length_number(length),
        Amount::Inertia(inertia) => inertia_number(inertia),
        Amount::Ratio(value) => Number { notation: 0, value },
    }
}

/// The scale of a dimension.
pub(super) fn scale(dim: Dim) -> Scale {
    let Bounds { low, high, .. } = bounds(dim);
    if dim.is_angle() {
        Scale::angles(low, high)
    } else {
        Scale::lengths(low, high)
    }
}

/// `design` with all that does not depend on the detail rounded. Sound if `design` is sound.
pub(super) fn rounded(design: &Design) -> Design {
    let mut rounded = design.clone();
    // Of ties that do not hold a link has no word.
    rounded.settle_ties();
    round_weights(&mut rounded);
    round_sizes(&mut rounded, design.build().is_ok());
    round_targets(&mut rounded);
    round_bar(&mut rounded.bar);
    round_handle(design, &mut rounded);
    round_heat(&mut rounded.heat);
    rounded
}

/// The usual handle of its length for a head; nothing for a head that cannot be made.
pub(super) fn usual_handle(design: &Design) -> Option<Handle> {
    let solid = design.build_head().ok()?;
    Some(Handle::usual_of_length(&solid, design.handle.length))
}

/// The handle's length as the head's. One that was usual is that of the rounded head.
fn round_handle(design: &Design, rounded: &mut Design) {
    if design.handle == design.usual_handle() {
        rounded.handle = rounded.usual_handle();
        return;
    }
    round_length(
        &mut rounded.handle.length,
        Scale::lengths(LENGTH_MM.least, LENGTH_MM.most),
    );
    if usual_handle(design).as_ref() == Some(&design.handle)
        && let Some(handle) = usual_handle(rounded)
    {
        rounded.handle = handle;
    }
}

/// Temperatures to 0.005 °C, hardness to 0.005 HRC, soaks to 0.005 h, an analysis to 0.0005 %.
fn round_heat(heat: &mut Heat) {
    let nearest = |value: &mut f64, scale: Scale| {
        let number = Number {
            notation: 0,
            value: *value,
        };
        *value = scale.nearest(number);
    };
    if let Some(analysis) = &mut heat.steel.analysis {
        for (element, mut percent) in analysis.iter() {
            let scale = Scale::elements(is_few_percent(percent));
            nearest(&mut percent, scale);
            *analysis = analysis.with(element, percent);
        }
    }
    if let Some(quench) = &mut heat.quench {
        nearest(&mut quench.bath_celsius, Scale::baths(quench.medium));
    }
    if let Some(temper) = &mut heat.temper {
        match &mut temper.aim {
            Aim::Hrc(hrc) => nearest(hrc, Scale::hardnesses()),
            Aim::Celsius(celsius) => nearest(celsius, Scale::ovens()),
        }
        nearest(&mut temper.soak_hours, Scale::soaks());
    }
}

/// `design`, of which `rounded` has been made, as a link with `detail` carries it.
pub(super) fn detailed(design: &Design, rounded: &Design, detail: &Detail) -> Design {
    let mut detailed = rounded.clone();
    detailed.free = limits(design, rounded, detail);
    for loss in &mut detailed.bar.losses {
        round_loss(&mut loss.amount, detail.losses);
    }
    detailed
}

fn round_weights(design: &mut Design) {
    let round = |corner: &mut Corner| {
        if let Corner::Conic { weight, .. } = corner {
            let number = Number {
                notation: 0,
                value: *weight,
            };
            *weight = Scale::weights().nearest(number);
        }
    };
    round(&mut design.cheeks.outline.corner);
    for side in Side::BOTH {
        let end = design.end_mut(side);
        for neck in &mut end.necks {
            round(&mut neck.outline.corner);
        }
        match &mut end.tip {
            Tip::Face(face) => round(&mut face.outline.corner),
            Tip::Pein(pein) => round(&mut pein.outline.corner),
            Tip::Ball(_) => {}
        }
    }
}

/// Holds to 0.005 g, 0.0003 oz, 0.0005 mm, 0.005 kg·mm², 0.015 kg·mm² (in lb·in²) or 0.000005 and
/// density to 0.0005 kg/m³: far inside the tolerance of a hold that states none.
fn round_targets(design: &mut Design) {
    for quantity in Quantity::ALL {
        let scale = Scale::held(quantity);
        let round = |amount: Amount| amount.with_number(scale.nearest(amount_number(amount)));
        let hold = design.holds.get(quantity).map(|hold| hold.map(round));
        design.holds.set(quantity, hold);
    }
    let density = Number {
        notation: 0,
        value: design.density.in_kg_per_m3(),
    };
    let density = Scale::densities().nearest(density);
    design.density = Density::kg_per_m3(density);
}

/// The bar's sizes as those of the head, its confidence to 0.0000005. its rule to
/// 0.00001 mm.
fn round_bar(bar: &mut Bar) {
    let round = |length: &mut Length| round_length(length, Scale::bar_sizes());
    match &mut bar.section {
        BarSection::Round { diameter: size }
        | BarSection::Octagonal { across_flats: size }
        | BarSection::Hexagonal { across_flats: size } => round(size),
        BarSection::Square {
            across,
            corner_radius,
        } => {
            round(across);
            round_length(corner_radius, Scale::bar_corners());
        }
        BarSection::Rectangular {
            width,
            height,
            corner_radius,
        } => {
            round(width);
            round(height);
            round_length(corner_radius, Scale::bar_corners());
        }
        BarSection::OfArea { area_mm2 } => {
            let number = Number {
                notation: 0,
                value: *area_mm2,
            };
            *area_mm2 = Scale::bar_areas().nearest(number);
        }
    }
    let confidence = Number {
        notation: 0,
        value: bar.confidence,
    };
    bar.confidence = Scale::shares().nearest(confidence);
    let mut division = bar.rule.division();
    round_length(&mut division, Scale::rules());
    // A scale ends at its limits, so that the rounded division is one that a rule may have.
    bar.rule = Rule::new(division).unwrap_or(bar.rule);
}

fn round_length(length: &mut Length, scale: Scale) {
    let nearest = scale.nearest(length_number(*length));
    *length = length.with_mm(nearest);
}

/// How often the sizes are gone through for a sound rounding.
const PASSES: usize = 4;

/// Rounds every size to the nearer neighbour on its grid, and where that would make a sound design
/// unsound some sizes to the farther one: a fit's answer often lies exactly on a condition.
fn round_sizes(design: &mut Design, sound: bool) {
    let mut choices = Vec::new();
    let alike = design.alike.clone();
    design.visit_sizes(&mut |dim, size| {
        let number = size_number(*size);
        let [below, above] = scale(dim).neighbours(number);
        // What is as another is moved with it.
        if below < above && !alike.contains(&dim) {
            choices.push((dim, [below, above]));
        }
        *size = size.with_number(scale(dim).nearest(number));
    });
    if !sound {
        return;
    }
    // Every margin grows with a size or shrinks with it, so the right neighbours exist for any one
    // condition. Where each of a row of sizes stands on the one before, no single one can move:
    // then all of them begin above, or below.
    let nearest = design.clone();
    for begin in [None, Some(1), Some(0)] {
        let mut tried = nearest.clone();
        for (dim, neighbours) in &choices {
            if let Some(side) = begin {
                tried = with(&tried, *dim, |_| neighbours[side]);
            }
        }
        settle(&mut tried, &choices);
        if tried.build().is_ok() {
            *design = tried;
            return;
        }
    }
}

/// Moves single sizes to their other neighbours while that makes `design` less unsound.
fn settle(design: &mut Design, choices: &[(Dim, [f64; 2])]) {
    for _ in 0..PASSES {
        if design.build().is_ok() {
            return;
        }
        for (dim, [below, above]) in choices {
            let other = with(
                design,
                *dim,
                |now| if now == *below { *above } else { *below },
            );
            if shortfall(&other) < shortfall(design) {
                *design = other;
            }
        }
    }
}

/// `design` with another number for `dim` and for what is as it.
fn with(design: &Design, dim: Dim, number: impl Fn(f64) -> f64) -> Design {
    let mut other = design.clone();
    let follower = design.follower(dim);
    other.visit_sizes(&mut |at, size| {
        if at == dim || Some(at) == follower {
            *size = size.with_number(number(size.number()));
        }
    });
    other
}

/// By how much the conditions of soundness are missed, added up.
fn shortfall(design: &Design) -> f64 {
    let head = Head::lift(design, &mut |_, mm| mm);
    let mut sum = 0.0;
    checks(&head, &mut |_, margin: f64| sum += (-margin).max(0.0));
    sum
}

/// The limits of `design` rounded outwards, so that what a fit may reach it still may. Limits beyond
/// the table of bounds become those of the table.
fn limits(design: &Design, rounded: &Design, detail: &Detail) -> BTreeMap<Dim, Range> {
    let sizes = design.sizes().into_iter().zip(rounded.sizes());
    let free = sizes.filter_map(|((dim, exact), (_, size))| {
        let range = design.free.get(&dim)?;
        let Bounds { low, high, .. } = bounds(dim);
        // A size inside its limits stays inside, wherever it was rounded to.
        let mut range = *range;
        if range.low.number() <= exact.number() {
            range.low = range.low.with_number(range.low.number().min(size.number()));
        }
        if range.high.number() >= exact.number() {
            range.high = range
                .high
                .with_number(range.high.number().max(size.number()));
        }
        let limit = |limit: Measure| limit.with_number(limit.number().clamp(low, high));
        let (from, to) = (limit(range.low), limit(range.high));
        let range = match detail.limit_step(size) {
            None => {
                let [below, _] = scale(dim).neighbours(size_number(from));
                let [_, above] = scale(dim).neighbours(size_number(to));
                Range {
                    low: from.with_number(below),
                    high: to.with_number(above),
                }
            }
            Some(step) => {
                let at = |steps: f64| size.with_number((steps * step).clamp(low, high));
                Range {
                    low: at(step_below(from.number(), step)),
                    high: at(step_above(to.number(), step)),
                }
            }
        };
        Some((dim, range))
    });
    // One after the other: collecting would sort them first.
    let mut limits = BTreeMap::new();
    limits.extend(free);
    limits
}

/// The scale of an amount's two numbers. Layers of scale travel finely even where there is little room: all of one
/// is less than a tenth of a millimetre.
pub(super) fn loss_scale(amount: LossAmount, fineness: Fineness) -> Scale {
    match amount {
        LossAmount::Mass { .. } => Scale::lost_masses(fineness),
        LossAmount::PercentOfHead { .. }
        | LossAmount::PercentOfEye { .. }
        | LossAmount::PercentPerHeat { .. } => Scale::percents(fineness),
        LossAmount::PerHeat { .. } | LossAmount::OffSurface { .. } => {
            Scale::lost_lengths(LAYER_MM, Fineness::Fine)
        }
        LossAmount::Punched { .. } => Scale::lost_lengths(WEB_MM, fineness),
        LossAmount::OffFaces { .. } => Scale::lost_lengths(ALLOWANCE_MM, fineness),
        LossAmount::OffEnds { .. } => Scale::lost_lengths(TRIM_MM, fineness),
    }
}

fn round_loss(amount: &mut LossAmount, fineness: Fineness) {
    let scale = loss_scale(*amount, fineness);
    let plain = |value: f64, scale: Scale| scale.nearest(Number { notation: 0, value });
    match amount {
        LossAmount::Mass { expected, spread } => {
            for mass in [expected, spread] {
                *mass = mass.with_kg(scale.nearest(mass_number(*mass)));
            }
        }
        LossAmount::PercentOfHead { expected, spread }
        | LossAmount::PercentOfEye { expected, spread }
        | LossAmount::PercentPerHeat {
            expected, spread, ..
        } => {
            for value in [expected, spread] {
                *value = plain(*value, scale);
            }
        }
        LossAmount::Punched {
            expected, spread, ..
        }
        | LossAmount::PerHeat {
            expected, spread, ..
        }
        | LossAmount::OffSurface { expected, spread }
        | LossAmount::OffFaces { expected, spread }
        | LossAmount::OffEnds { expected, spread } => {
            for length in [expected, spread] {
                round_length(length, scale);
            }
        }
    }
    match amount {
        LossAmount::PerHeat { minutes, .. } => *minutes = plain(*minutes, Scale::minutes()),
        LossAmount::Punched {
            punch: Some(punch), ..
        } => match punch {
            Punch::Round { diameter } => round_length(diameter, Scale::punches(fineness)),
            Punch::Obround { length, width } | Punch::Rectangle { length, width } => {
                round_length(length, Scale::punches(fineness));
                round_length(width, Scale::punches(fineness));
            }
        },
        _ => {}
    }
}
