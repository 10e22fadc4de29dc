//! What the smith's own drifts do, in the order in which they are driven.

use serde::Serialize;

use super::depth::{Depth, Tapered, TooLarge};
use super::note::{Mouth, Note};
use super::outline::{Family, perimeter};
use super::series::rim_fits;
use super::wall::{Walls, parallel};
use super::{
    Drifting, Opening, OwnDrift, SectionSize, Steps, USUAL_RATIO, USUAL_STEP_MM, USUAL_TAPER,
};
use crate::design::Wall;
use crate::solid::{EyeSection, LEAST_WALL, Plug};

/// The longest taper of a drift that is reckoned with, from its greatest section towards the tip, mm (common practice,
/// no source).
pub const LONGEST_TAPER_MM: f64 = 100.0;
/// How far, in mm, the opening after the last drift may be from the eye's size and still be the eye: what a file takes
/// off (common practice, no source).
pub const EYE_GAP_MM: f64 = 0.5;

/// Less than this opens nothing, mm.
const LEAST_OPENED_MM: f64 = 0.05;

/// What the smith's own drifts do.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OwnSet {
    /// The drifts in the order of the work, the smallest first; those that do not serve stand where they would have.
    pub steps: Vec<OwnStep>,
    /// What is open after the last at the top mouth, the waist and the bottom mouth.
    pub open: [SectionSize; 3],
    /// What the hot eye still lacks there, of its length and of its width; negative: too large already.
    pub gap: [SectionSize; 3],
    /// Whether the last gives the eye: no gap is larger than [`EYE_GAP_MM`].
    pub gives_eye: bool,
    /// What is missing.
    pub notes: Vec<Note>,
}

/// What one of the smith's own drifts does. Walls and outer widths are estimates of the cold head, as in a series.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OwnStep {
    /// Its number in the list as given, counted from 1.
    pub number: usize,
    /// Its greatest section.
    pub greatest: SectionSize,
    /// Whether it serves: it opens something and is not too large.
    pub serves: bool,
    /// Whether it asks too much after the one before.
    pub step_too_great: bool,
    /// What the waist is open to after it.
    pub open: SectionSize,
    /// How much the rim is stretched, percent, where most.
    pub stretch_percent: f64,
    /// The least cheek wall after it when the outer width is kept.
    pub wall_outer_kept_mm: f64,
    /// The least cheek wall after it when metal is pushed sideways only.
    pub wall_sideways_mm: f64,
    /// The outer width in that case.
    pub outer_width_sideways_mm: f64,
    /// How deep it goes from the top mouth, if it serves.
    pub top: Option<Depth>,
    /// How deep it goes from the bottom mouth, if it serves.
    pub bottom: Option<Depth>,
    /// What is to be said of it.
    pub notes: Vec<Note>,
}

/// The opening at the top mouth, the waist and the bottom mouth.
type Levels = [EyeSection<f64>; 3];

/// What the drifts of `drifting` do to `opening` on the way to `eye`.
pub(super) fn work(
    opening: Opening,
    drifting: &Drifting,
    eye: &Plug<f64>,
    walls: &Walls<'_>,
) -> OwnSet {
    let (ratio, step_mm) = match drifting.steps {
        Steps::Most { ratio, step } => (ratio, step.in_mm()),
        Steps::Count(_) => (USUAL_RATIO, USUAL_STEP_MM),
    };
    let bench = Bench {
        slit: opening.is_slit(),
        family: Family::of(&eye.waist),
        ratio,
        step_mm,
        eye,
        walls,
    };
    let mut order: Vec<(usize, OwnDrift)> = (1..).zip(drifting.own.iter().copied()).collect();
    let rim = |drift: &OwnDrift| perimeter(&bench.greatest(drift));
    order.sort_by(|(_, a), (_, b)| rim(a).total_cmp(&rim(b)));
    let mut open: Levels = [opening.section(); 3];
    let steps = order
        .into_iter()
        .map(|(number, drift)| bench.drive(number, &drift, &mut open))
        .collect();
    let wanted = [eye.top, eye.waist, eye.bottom].map(SectionSize::from);
    let open = open.map(SectionSize::from);
    let gap: [SectionSize; 3] = std::array::from_fn(|level| SectionSize {
        length_mm: wanted[level].length_mm - open[level].length_mm,
        width_mm: wanted[level].width_mm - open[level].width_mm,
    });
    let right =
        |gap: &SectionSize| gap.length_mm.abs() <= EYE_GAP_MM && gap.width_mm.abs() <= EYE_GAP_MM;
    let places = [Some(Mouth::Top), None, Some(Mouth::Bottom)];
    // The waist first: what is missing there is missing everywhere.
    let notes = [1, 0, 2]
        .into_iter()
        .filter(|level| !right(&gap[*level]))
        .map(|level| Note::Missing {
            mouth: places[level],
            open: open[level],
            eye: wanted[level],
        })
        .collect();
    OwnSet {
        steps,
        open,
        gap,
        gives_eye: gap.iter().all(right),
        notes,
    }
}

struct Bench<'a> {
    slit: bool,
    family: Family,
    ratio: f64,
    step_mm: f64,
    eye: &'a Plug<f64>,
    walls: &'a Walls<'a>,
}

impl Bench<'_> {
    fn greatest(&self, drift: &OwnDrift) -> EyeSection<f64> {
        let half = |length: crate::units::Length| 0.5 * length.in_mm();
        self.family.section(half(drift.length), half(drift.width))
    }

    /// Drives `drift` from both mouths as deep as it may go and says what it did to `open`.
    fn drive(&self, number: usize, drift: &OwnDrift, open: &mut Levels) -> OwnStep {
        let greatest = self.greatest(drift);
        let tapered = Tapered {
            p: greatest.p,
            q: greatest.q,
            rate: 0.5 * drift.taper.unwrap_or(USUAL_TAPER),
        };
        let mut notes = Vec::new();
        let by_width = self.slit && rim_fits(&greatest, self.eye);
        let depths = Mouth::BOTH.map(|mouth| tapered.depth(self.eye, mouth, by_width));
        let before = *open;
        let mut depths = match depths {
            [Ok(top), Ok(bottom)] => Some([top, bottom]),
            [Err(TooLarge(mark_mm)), _] | [_, Err(TooLarge(mark_mm))] => {
                notes.push(Note::TooLarge {
                    mark_mm,
                    most_mm: LONGEST_TAPER_MM,
                    waist: self.eye.waist.into(),
                });
                None
            }
        };
        if let Some([top, bottom]) = &depths {
            let opened = self.opened(&before, top, bottom);
            if (0..3).any(|level| wider(&before[level], &opened[level])) {
                *open = opened;
            } else {
                notes.push(Note::Idle {
                    open: before[1].into(),
                });
                depths = None;
            }
        }
        let mut step_too_great = false;
        if let Some(depths) = &depths {
            let from_to = (0..3).map(|level| (&before[level], &open[level]));
            let too_great = from_to
                .map(|(from, to)| (self.effort(from, to), from, to))
                .filter(|(effort, ..)| *effort > 1.0)
                .max_by(|(a, ..), (b, ..)| a.total_cmp(b));
            if let Some((_, from, to)) = too_great {
                step_too_great = true;
                notes.push(Note::TooGreat {
                    from: (*from).into(),
                    to: (*to).into(),
                    between: self.halfway(from, to).into(),
                });
            }
            self.stops(&greatest, depths, &mut notes);
        }
        let [top, waist, bottom] = *open;
        let limits = self.walls.beside(&Plug {
            top,
            waist,
            bottom,
            wall: Wall::Straight,
            ..*self.eye
        });
        let stretch = (0..3)
            .map(|level| perimeter(&open[level]) / perimeter(&before[level]))
            .fold(1.0, f64::max);
        OwnStep {
            number,
            greatest: greatest.into(),
            serves: depths.is_some(),
            step_too_great,
            open: waist.into(),
            stretch_percent: 100.0 * (stretch - 1.0),
            wall_outer_kept_mm: limits.thinned,
            wall_sideways_mm: self.walls.before,
            outer_width_sideways_mm: limits.outer,
            top: depths.map(|[top, _]| top),
            bottom: depths.map(|[_, bottom]| bottom),
            notes,
        }
    }

    /// What is open after a drift at these depths.
    fn opened(&self, before: &Levels, top: &Depth, bottom: &Depth) -> Levels {
        let larger = |a: SectionSize, b: SectionSize| SectionSize {
            length_mm: a.length_mm.max(b.length_mm),
            width_mm: a.width_mm.max(b.width_mm),
        };
        let sizes = [
            top.at_mouth,
            larger(top.at_waist, bottom.at_waist),
            bottom.at_mouth,
        ];
        std::array::from_fn(|level| self.after(&before[level], sizes[level]))
    }

    /// An opening after a drift of `size`: as large as both; the rim of a slit keeps its length.
    fn after(&self, before: &EyeSection<f64>, size: SectionSize) -> EyeSection<f64> {
        let q = before.q.max(0.5 * size.width_mm);
        let p = 0.5 * size.length_mm;
        if q == before.q && p <= before.p {
            return *before;
        }
        let p = if self.slit {
            self.family.half_length(q, perimeter(before), p)
        } else {
            before.p.max(p)
        };
        self.family.section(p, q)
    }

    /// What a step asks, as a share of the most that one drift may.
    fn effort(&self, from: &EyeSection<f64>, to: &EyeSection<f64>) -> f64 {
        /// What is just the most is not too much.
        const SLACK: f64 = 1e-9;
        let ratio = |growth: f64| growth.ln() / self.ratio.ln();
        let asked = if self.slit {
            let opened = 2.0 * (to.q - from.q) / self.step_mm;
            opened.max(ratio(perimeter(to) / perimeter(from)))
        } else {
            ratio(to.p / from.p).max(ratio(to.q / from.q))
        };
        asked - SLACK
    }

    fn halfway(&self, from: &EyeSection<f64>, to: &EyeSection<f64>) -> EyeSection<f64> {
        if self.slit {
            let q = 0.5 * (from.q + to.q);
            let rim = (perimeter(from) * perimeter(to)).sqrt();
            self.family
                .section(self.family.half_length(q, rim, q.min(to.p)), q)
        } else {
            self.family
                .section((from.p * to.p).sqrt(), (from.q * to.q).sqrt())
        }
    }

    /// Where the drift must stop, and what driving it through would do to the wall.
    fn stops(&self, greatest: &EyeSection<f64>, depths: &[Depth; 2], notes: &mut Vec<Note>) {
        for (mouth, depth) in Mouth::BOTH.into_iter().zip(depths) {
            if let Some(mark_mm) = depth.mark_mm {
                notes.push(Note::StopAtMark {
                    mouth,
                    mark_mm,
                    greatest: (*greatest).into(),
                    waist: self.eye.waist.into(),
                });
            }
        }
        let through = self.walls.beside(&parallel(self.eye, *greatest));
        if depths.iter().any(|depth| depth.mark_mm.is_some()) && through.thinned < LEAST_WALL {
            notes.push(Note::ThinWallThrough {
                wall_mm: through.thinned,
            });
        }
    }
}

/// Whether `after` is open further than `before`.
fn wider(before: &EyeSection<f64>, after: &EyeSection<f64>) -> bool {
    2.0 * (after.p - before.p) > LEAST_OPENED_MM || 2.0 * (after.q - before.q) > LEAST_OPENED_MM
}
