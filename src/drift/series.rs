//! The series of drifts from the opening to the eye.

use serde::Serialize;

use super::depth::{Depth, Tapered};
use super::error::{
    CLEARANCE_MM, DRIFT_MM, DriftError, MOST_DRIFTS, OPENING_MM, OUTER_MM, RATIO, STEP_MM, TAPER,
};
use super::hot;
use super::note::{Mouth, Note};
use super::outline::{Family, perimeter};
use super::own::{OwnSet, work};
use super::profile::Profile;
use super::wall::{Limits, Walls, cheek_width, parallel, unbroken};
use super::{Drifting, Opening, SLIT_WIDTH_MM, SectionSize, Steps, USUAL_TAPER};
use crate::bar::{Bar, Punch};
use crate::design::Side;
use crate::plan::growth;
use crate::solid::{EyeSection, LEAST_WALL, Plug, Solid};
use crate::units::Length;

/// From the opening to the eye. Tools and holes are measured at the drifting heat, but for what is said to be cold.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// The heat at which the eye is drifted, °C.
    pub celsius: f64,
    /// How much larger head and eye are then, as a share.
    pub growth: f64,
    /// The finished eye, cold, before its mouths are broken: at the top mouth, the waist and the bottom mouth.
    pub eye: [SectionSize; 3],
    /// The opening before the first drift.
    pub opening: Before,
    /// Length of a slit, as wide as the one given or [`SLIT_WIDTH_MM`], whose rim is as long as the waist's: bent open
    /// it needs no stretch.
    pub slit_length_mm: f64,
    /// The drifts in the order of the work; the last is the eye's own.
    pub drifts: Vec<Drift>,
    /// The hole of the bolster under the punch; a slit is cut and needs none.
    pub bolster: Option<Bolster>,
    /// What the smith's own drifts do, where any are given.
    pub own: Option<OwnSet>,
    /// The last drift from the top and from the bottom mouth.
    pub profiles: [Profile; 2],
    /// What is to be said of the series.
    pub notes: Vec<Note>,
}

/// The opening before the first drift.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Before {
    /// The word for its shape.
    pub shape: &'static str,
    /// Its size.
    pub size: SectionSize,
    /// Its perimeter.
    pub perimeter_mm: f64,
    /// The least cheek wall beside it, cold.
    pub wall_mm: f64,
    /// Width of the piece across the eye, cold.
    pub outer_width_mm: f64,
}

/// One drift of the series. Walls and outer widths are estimates, of the cold head.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Drift {
    /// What it opens the waist to: its greatest section, but for the last, which is larger at the mouths.
    pub section: SectionSize,
    /// Size of its corners along and across; half its width on both for round ends.
    pub corner_mm: [f64; 2],
    /// Perimeter of that section.
    pub perimeter_mm: f64,
    /// How much the rim of the opening before is stretched at the waist, percent.
    pub stretch_percent: f64,
    /// How much it is stretched at the wider mouth, percent.
    pub stretch_at_mouth_percent: f64,
    /// The least cheek wall after it when the outer width is kept: the lower limit.
    pub wall_outer_kept_mm: f64,
    /// The least cheek wall after it when metal is pushed sideways only: the upper limit, as before drifting.
    pub wall_sideways_mm: f64,
    /// The outer width in that case, at the widest level: what is more than before is the bulge to be forged back.
    pub outer_width_sideways_mm: f64,
    /// How deep it goes from the top mouth; nothing where it does not enter a mouth that is narrower than the waist.
    pub top: Option<Depth>,
    /// How deep it goes from the bottom mouth, alike.
    pub bottom: Option<Depth>,
}

/// The hole of the bolster.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bolster {
    /// The hole's size: the punch and the clearance on each side.
    pub hole: SectionSize,
}

/// The drifts that open `solid`'s eye at `celsius` as `drifting` says, from the opening that the punch of `bar` leaves
/// where it says none.
///
/// # Accuracy
/// Drifts are larger than the eye by [`growth`], which may lie off by
/// [`growth_uncertainty`](crate::plan::growth_uncertainty): 0.04 mm on an eye of 28 mm.
///
/// # Errors
/// A heat that the growth of steel is not known for, everything that is out of bounds, an opening larger than the eye, a slit whose rim is too long, a series that is too
/// long, a bolster's hole larger than the cheeks. [`Drifting::default`] with the usual punch has none of these on any
/// sound head.
pub fn plan(
    solid: &Solid,
    bar: &Bar,
    drifting: &Drifting,
    celsius: f64,
) -> Result<Plan, Vec<DriftError>> {
    let cold = unbroken(&solid.head().eye);
    let growth = growth(celsius).map_err(|error| vec![error.into()])?;
    let eye = hot::plug(&cold, 1.0 + growth);
    let punch = bar.punch(cold.least_sizes()).map(Opening::Punched);
    let mut errors = check(drifting, drifting.opening.or(punch));
    if !errors.is_empty() {
        return Err(errors);
    }
    let usual = || Opening::Punched(Punch::usual(cold.least_sizes()));
    let opening = drifting.opening.or(punch).unwrap_or_else(usual);
    errors.extend(against_eye(opening, &eye));
    let bolster = bolster(solid, drifting.clearance, opening, &mut errors);
    let slot = opening.section();
    let family = Family::of(&eye.waist);
    let count = match drifting.steps {
        Steps::Count(count) => usize::from(count),
        Steps::Most { ratio, step } => count(opening, &eye.waist, ratio, step.in_mm()),
    };
    if count > MOST_DRIFTS {
        errors.push(DriftError::TooManyNeeded { needed: count });
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    let outer = drifting.outer_width.map(Length::in_mm);
    let walls = Walls::new(solid, outer, slot, 1.0 + growth);
    let mut drifts: Vec<Drift> = Vec::with_capacity(count);
    let mut before = slot;
    for number in 1..count {
        let section = between(opening, family, &eye.waist, number as f64 / count as f64);
        let by_width = opening.is_slit() && rim_fits(&section, &eye);
        drifts.push(passing(&before, section, &eye, by_width, &walls));
        before = section;
    }
    drifts.push(last(&before, &eye, &walls));
    let mut notes = notes(&cold, &drifts);
    if let Some(punch) = punch.filter(|punch| !opening.is_as(*punch)) {
        notes.insert(0, Note::OtherPunch { opening, punch });
    }
    Ok(Plan {
        celsius,
        growth,
        eye: [cold.top, cold.waist, cold.bottom].map(SectionSize::from),
        opening: Before {
            shape: opening.shape(),
            size: slot.into(),
            perimeter_mm: perimeter(&slot),
            wall_mm: walls.before,
            outer_width_mm: walls.outer,
        },
        slit_length_mm: 2.0 * slit_half_length(opening, &eye),
        drifts,
        bolster,
        own: (!drifting.own.is_empty()).then(|| work(opening, drifting, &eye, &walls)),
        profiles: Mouth::BOTH.map(|mouth| Profile::new(&eye, mouth, &before)),
        notes,
    })
}

/// Everything out of bounds.
fn check(drifting: &Drifting, opening: Option<Opening>) -> Vec<DriftError> {
    let mut errors = Vec::new();
    let mut size = |what, value: Length, limit: crate::bar::Limit| {
        if !limit.admits(value.in_mm()) {
            errors.push(DriftError::Size { what, value, limit });
        }
    };
    if let Some(opening) = opening {
        let [length, width] = opening.sizes();
        size("The opening’s length", length, OPENING_MM);
        size("The opening’s width", width, OPENING_MM);
    }
    size("The bolster’s clearance", drifting.clearance, CLEARANCE_MM);
    if let Some(outer) = drifting.outer_width {
        size("The width of the piece across the eye", outer, OUTER_MM);
    }
    if let Steps::Most { step, .. } = drifting.steps {
        size("The most that one drift opens a slit", step, STEP_MM);
    }
    if let Some([length, width]) = opening.map(Opening::sizes)
        && length.in_mm() < width.in_mm()
    {
        errors.push(DriftError::WiderThanLong { length, width });
    }
    match drifting.steps {
        Steps::Count(count) if count == 0 || usize::from(count) > MOST_DRIFTS => {
            errors.push(DriftError::Count { count });
        }
        Steps::Most { ratio, .. } if !RATIO.admits(ratio) => {
            errors.push(DriftError::Ratio { value: ratio });
        }
        Steps::Count(_) | Steps::Most { .. } => {}
    }
    if drifting.own.len() > MOST_DRIFTS {
        errors.push(DriftError::TooManyOwn {
            count: drifting.own.len(),
        });
    }
    for (number, drift) in (1..).zip(&drifting.own) {
        for (size, value) in [("length", drift.length), ("width", drift.width)] {
            if !DRIFT_MM.admits(value.in_mm()) {
                errors.push(DriftError::OwnSize {
                    number,
                    size,
                    value,
                });
            }
        }
        if let Some(value) = drift.taper.filter(|taper| !TAPER.admits(*taper)) {
            errors.push(DriftError::OwnTaper { number, value });
        }
    }
    errors
}

/// Half the length of a slit of the waist's perimeter.
fn slit_half_length(opening: Opening, eye: &Plug<f64>) -> f64 {
    let half = match opening {
        Opening::Slit { width, .. } => 0.5 * width.in_mm(),
        _ => 0.5 * SLIT_WIDTH_MM,
    };
    Family::Obround.half_length(half, perimeter(&eye.waist), half)
}

fn against_eye(opening: Opening, eye: &Plug<f64>) -> Vec<DriftError> {
    /// Relative; a slit of just the right length is no longer than it must be.
    const ROUNDOFF: f64 = 1e-9;
    let slit = opening.is_slit();
    let sizes = ["long", "wide"]
        .into_iter()
        .zip(opening.sizes())
        .zip(eye.least_sizes());
    let mut errors: Vec<DriftError> = sizes
        .filter(|((across, value), eye)| !(slit && *across == "long") && value.in_mm() > *eye)
        .map(|((across, value), eye_mm)| DriftError::LargerThanEye {
            across,
            value,
            eye_mm,
        })
        .collect();
    let (rim_mm, waist_mm) = (perimeter(&opening.section()), perimeter(&eye.waist));
    if slit && rim_mm > waist_mm * (1.0 + ROUNDOFF) {
        errors.push(DriftError::SlitTooLong {
            length: opening.sizes()[0],
            rim_mm,
            waist_mm,
            most_mm: 2.0 * slit_half_length(opening, eye),
        });
    }
    errors
}

fn bolster(
    solid: &Solid,
    clearance: Length,
    opening: Opening,
    errors: &mut Vec<DriftError>,
) -> Option<Bolster> {
    if opening.is_slit() {
        return None;
    }
    let head = solid.head();
    let [length, width] = opening
        .sizes()
        .map(|size| size.in_mm() + 2.0 * clearance.in_mm());
    let block = head.end(Side::Front).block_end() + head.end(Side::Back).block_end();
    for (across, hole_mm, cheeks_mm) in
        [("long", length, block), ("wide", width, cheek_width(head))]
    {
        if hole_mm > cheeks_mm {
            errors.push(DriftError::Bolster {
                across,
                hole_mm,
                cheeks_mm,
                clearance,
            });
        }
    }
    Some(Bolster {
        hole: SectionSize {
            length_mm: length,
            width_mm: width,
        },
    })
}

/// The fewest drifts that do not ask too much of any.
fn count(opening: Opening, waist: &EyeSection<f64>, ratio: f64, step_mm: f64) -> usize {
    /// Of a drift: what a whole number of drifts does exactly takes no more.
    const SLACK: f64 = 1e-9;
    let slot = opening.section();
    let drifts = |growth: f64| growth.ln() / ratio.ln();
    let needed = if opening.is_slit() {
        let stretch = drifts(perimeter(waist) / perimeter(&slot));
        stretch.max(2.0 * (waist.q - slot.q) / step_mm)
    } else {
        drifts(waist.p / slot.p).max(drifts(waist.q / slot.q))
    };
    (needed - SLACK).ceil().max(1.0) as usize
}

/// The section on the share `share` of the way from the opening to the waist.
fn between(
    opening: Opening,
    family: Family,
    waist: &EyeSection<f64>,
    share: f64,
) -> EyeSection<f64> {
    let slot = opening.section();
    let grown = |from: f64, to: f64| from * (to / from).powf(share);
    if opening.is_slit() {
        let half_width = slot.q + (waist.q - slot.q) * share;
        let rim = grown(perimeter(&slot), perimeter(waist));
        // No drift of the series is wider in proportion than the eye.
        let least = half_width * (waist.p / waist.q).min(1.0);
        family.section(family.half_length(half_width, rim, least), half_width)
    } else {
        family.section(grown(slot.p, waist.p), grown(slot.q, waist.q))
    }
}

/// Whether the rim of a slit, bent around `section`, is nowhere longer than that of `eye`.
pub(super) fn rim_fits(section: &EyeSection<f64>, eye: &Plug<f64>) -> bool {
    let rim = perimeter(section);
    [eye.top, eye.waist, eye.bottom]
        .iter()
        .all(|level| rim <= perimeter(level))
}

/// A drift that opens the eye to `section` from mouth to mouth.
fn passing(
    before: &EyeSection<f64>,
    section: EyeSection<f64>,
    eye: &Plug<f64>,
    by_width: bool,
    walls: &Walls<'_>,
) -> Drift {
    let drift = Tapered {
        p: section.p,
        q: section.q,
        rate: 0.5 * USUAL_TAPER,
    };
    let depths = Mouth::BOTH.map(|mouth| drift.depth(eye, mouth, by_width).ok());
    let limits = walls.beside(&parallel(eye, section));
    described(before, &section, depths, limits, walls)
}

/// The eye's own drift.
fn last(before: &EyeSection<f64>, eye: &Plug<f64>, walls: &Walls<'_>) -> Drift {
    let depths = Mouth::BOTH.map(|mouth| {
        Some(Depth {
            mark_mm: Some(0.0),
            at_mouth: mouth.level(eye).into(),
            at_waist: eye.waist.into(),
        })
    });
    let mut drift = described(before, &eye.waist, depths, walls.beside(eye), walls);
    let widest = perimeter(&eye.top).max(perimeter(&eye.bottom));
    drift.stretch_at_mouth_percent = percent(widest / perimeter(before));
    drift
}

fn described(
    before: &EyeSection<f64>,
    section: &EyeSection<f64>,
    [top, bottom]: [Option<Depth>; 2],
    limits: Limits,
    walls: &Walls<'_>,
) -> Drift {
    let rim = perimeter(section);
    let stretch = percent(rim / perimeter(before));
    Drift {
        section: (*section).into(),
        corner_mm: [section.c, section.d],
        perimeter_mm: rim,
        stretch_percent: stretch,
        stretch_at_mouth_percent: stretch,
        wall_outer_kept_mm: limits.thinned,
        wall_sideways_mm: walls.before,
        outer_width_sideways_mm: limits.outer,
        top,
        bottom,
    }
}

fn percent(ratio: f64) -> f64 {
    100.0 * (ratio - 1.0)
}

fn notes(eye: &Plug<f64>, drifts: &[Drift]) -> Vec<Note> {
    /// The least wall of a sound head may be short by a roundoff, mm.
    const ROUNDOFF_MM: f64 = 1e-9;
    let mut notes = Vec::new();
    for mouth in Mouth::BOTH {
        let level = mouth.level(eye);
        if level.p < eye.waist.p || level.q < eye.waist.q {
            notes.push(Note::NarrowMouth {
                mouth,
                size: level.into(),
                waist: eye.waist.into(),
            });
        }
    }
    if let Some(lean) = eye.lean {
        notes.push(Note::Cocked {
            along_deg: lean.along.atan().to_degrees(),
            across_deg: lean.across.atan().to_degrees(),
        });
    }
    for (drift, number) in drifts.iter().zip(1..) {
        if drift.wall_outer_kept_mm < LEAST_WALL - ROUNDOFF_MM {
            notes.push(Note::ThinWall {
                drift: number,
                wall_mm: drift.wall_outer_kept_mm,
            });
        }
    }
    notes
}
