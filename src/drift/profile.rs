//! The profile of the last drift, fitted to the hourglass from one mouth.

use serde::Serialize;

use super::note::Mouth;
use super::outline::{Family, points};
use super::own::LONGEST_TAPER_MM;
use super::{SectionSize, USUAL_TAPER};
use crate::design::Wall;
use crate::solid::{EyeSection, Plug};

/// The last drift for one half of the hot eye: from the mark that stops level with the mouth, through the waist, to the tip.
///
/// Down to the waist its sections are the hot eye's. Beyond it, it runs out straight to a tip that enters the opening
/// which the drift before has left, at [`USUAL_TAPER`], over at least [`SHORTEST_RUN_OUT_MM`] and at most
/// [`LONGEST_TAPER_MM`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Profile {
    /// The mouth from which it is driven.
    pub from: Mouth,
    /// Half its outline seen across the cheeks: (distance from the mouth's mark towards the tip, half-length), mm.
    #[serde(rename = "length_plane_mm")]
    pub length_plane: Vec<[f64; 2]>,
    /// Half its outline seen along the head: (distance from the mouth's mark towards the tip, half-width), mm.
    #[serde(rename = "width_plane_mm")]
    pub width_plane: Vec<[f64; 2]>,
    /// Its sections at the mouth, at the waist and at the tip.
    pub sections: [CutOutline; 3],
}

/// A section of the last drift.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutOutline {
    /// "mouth", "waist" or "tip".
    pub name: &'static str,
    /// Distance from the mouth's mark towards the tip.
    pub at_mm: f64,
    /// Its size.
    pub size: SectionSize,
    /// The outline as a closed row of points (along the head, across it), mm, whose last joins the first.
    ///
    /// # Accuracy
    /// Chords stay within 0.02 mm of a corner of up to 40 mm.
    #[serde(skip)]
    pub outline: Vec<[f64; 2]>,
}

/// The least length of the last drift beyond the waist, mm (common practice, no source).
pub const SHORTEST_RUN_OUT_MM: f64 = 10.0;

/// How far, in mm, the chords of an arc's profile may lie off it.
const ARC_ACCURACY_MM: f64 = 0.01;

impl Profile {
    /// The profile from the mouth `from` of the eye `plug`, after a drift that has left the opening `before`.
    pub(super) fn new(plug: &Plug<f64>, from: Mouth, before: &EyeSection<f64>) -> Self {
        let (mouth, waist, depth) = (from.level(plug), plug.waist, from.depth(plug));
        let tip = Family::of(&waist).section(before.p.min(waist.p), before.q.min(waist.q));
        let narrower = 2.0 * (waist.p - tip.p).max(waist.q - tip.q);
        let run_out = (narrower / USUAL_TAPER).clamp(SHORTEST_RUN_OUT_MM, LONGEST_TAPER_MM);
        let end = depth + run_out;
        let plane = |mouth: f64, waist: f64, tip: f64| {
            let mut row = wall(plug.wall, mouth, waist, depth);
            row.push([end, tip]);
            row
        };
        let cut = |name: &'static str, at_mm: f64, section: EyeSection<f64>| CutOutline {
            name,
            at_mm,
            size: section.into(),
            outline: points(&section),
        };
        Self {
            from,
            length_plane: plane(mouth.p, waist.p, tip.p),
            width_plane: plane(mouth.q, waist.q, tip.q),
            sections: [
                cut("mouth", 0.0, mouth),
                cut("waist", depth, waist),
                cut("tip", end, tip),
            ],
        }
    }

    /// From the mouth's mark to the tip, mm.
    pub fn length_mm(&self) -> f64 {
        self.sections[2].at_mm
    }

    /// Whether it is the same drift as `other`, whichever mouth that goes into.
    pub fn is_as(&self, other: &Self) -> bool {
        self.length_plane == other.length_plane
            && self.width_plane == other.width_plane
            && self.sections == other.sections
    }
}

/// Points of the wall from the mouth to the waist; a chord of N on an arc of flare f lies off it by f/(4N²).
fn wall(wall: Wall, mouth: f64, waist: f64, depth: f64) -> Vec<[f64; 2]> {
    let flare = mouth - waist;
    let chords = match wall {
        Wall::Straight => 1,
        Wall::Arc => (flare.abs() / (4.0 * ARC_ACCURACY_MM))
            .sqrt()
            .ceil()
            .max(1.0) as usize,
    };
    (0..=chords)
        .map(|chord| {
            let share = chord as f64 / chords as f64;
            let tau = 1.0 - share;
            let g = match wall {
                Wall::Straight => tau,
                Wall::Arc => tau * tau,
            };
            [depth * share, waist + flare * g]
        })
        .collect()
}
