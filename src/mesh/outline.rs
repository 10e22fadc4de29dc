//! Where vertices stand along an outline: parameters on its pieces, and how many of them a
//! chord tolerance asks for.

use crate::solid::{EyeSection, Plug, Section};

/// A flat or a corner shorter than this, mm, counts as none: it is what a conversion between
/// inches and millimetres leaves of two sizes that were meant to be equal.
pub(super) const NO_LENGTH: f64 = 1e-6;

/// The most parts a piece is divided into, whatever the tolerance.
const MOST_PARTS: usize = 4096;

/// Steps in which a path is looked at to count its parts.
const LOOKS: usize = 16;

/// The quarter y, z ≥ 0 of an outline as parameters: 0 to 1 along the side flat, 1 to 2 along
/// the corner, 2 to 3 along the top flat. A piece without length has a single vertex.
#[derive(Clone, Debug)]
pub(super) struct Quarter {
    /// Parameters, increasing, from the y axis to the z axis.
    pub(super) at: Vec<f64>,
    /// Index of the vertex where each piece begins, and where the last one ends.
    pub(super) ends: [usize; 4],
}

impl Quarter {
    /// Every piece divided evenly into its count; a count of zero leaves the piece out.
    pub(super) fn even(counts: [usize; 3]) -> Self {
        let mut at = vec![0.0];
        let mut ends = [0; 4];
        for (piece, count) in counts.into_iter().enumerate() {
            let parts = (1..=count).map(|k| piece as f64 + k as f64 / count as f64);
            at.extend(parts);
            ends[piece + 1] = at.len() - 1;
        }
        Self { at, ends }
    }
}

impl Quarter {
    /// All stops once round, as places of [`around`].
    pub(super) fn once_round(&self) -> Vec<f64> {
        let last = self.at.len() - 1;
        let back = self.at[1..].iter().rev().map(|s| 6.0 - s);
        let half: Vec<f64> = self.at[..last].iter().copied().chain(back).collect();
        let again = half.iter().map(|place| place + 6.0);
        half.iter().copied().chain(again).collect()
    }

    /// One more stop within the corner, unless one of its even parts ends nearly there.
    pub(super) fn insert(&mut self, place: f64, parts: usize) {
        /// A stop this close, as a share of a part, serves as well.
        const NEAR: f64 = 0.1;
        let near = |at: &f64| (at - place).abs() * parts as f64 <= NEAR;
        // The ends of a corner without flats have the places of these.
        if !self.at.iter().chain(&[1.0, 2.0]).any(near) {
            let k = self.at.partition_point(|at| *at < place);
            self.at.insert(k, place);
            self.ends[2] += 1;
            self.ends[3] += 1;
        }
    }
}

/// `section` without the flats that roundoff leaves beside a corner of full size.
pub(super) fn tidy(section: &Section<f64>) -> Section<f64> {
    let mut tidied = *section;
    if section.a - section.c < NO_LENGTH {
        tidied.c = section.a;
    }
    if section.b - section.d < NO_LENGTH {
        tidied.d = section.b;
    }
    tidied
}

/// `plug` without the straights that roundoff leaves beside a corner of full size.
pub(super) fn tidy_plug(plug: &Plug<f64>) -> Plug<f64> {
    let level = |level: EyeSection<f64>| {
        let Section { a, b, c, d, .. } = tidy(&level.section());
        EyeSection { p: a, q: b, c, d }
    };
    Plug {
        top: level(plug.top),
        waist: level(plug.waist),
        bottom: level(plug.bottom),
        ..*plug
    }
}

/// Which pieces of `section` have a length: side, corner, top.
pub(super) fn present(section: &Section<f64>) -> [bool; 3] {
    let Section { a, b, c, d, .. } = *section;
    [b - d > 0.0, c > 0.0, a - c > 0.0]
}

/// Point (y, z) of the quarter of `section` at parameter `s`.
///
/// Unlike [`Section::along`], a corner is run through by the conic's own parameter at weight 0
/// too, so that a chamfer goes over into a round corner without a jump of the parameter.
pub(super) fn point(section: &Section<f64>, s: f64) -> [f64; 2] {
    let Section { a, b, c, d, w } = *section;
    if s <= 1.0 {
        [a, (b - d) * s]
    } else if s < 2.0 {
        let t = s - 1.0;
        let r = 1.0 - t;
        let weight = r * r + t * t + 2.0 * w * t * r;
        [a - c * (t * t / weight), b - d * (r * r / weight)]
    } else {
        [(a - c) * (3.0 - s), b]
    }
}

/// Point (y, z) of `section` at a place once round: against the clock as seen from the front, 0 on
/// the +y axis, 3 on the +z axis, 6 and 9 on the others.
pub(super) fn around(section: &Section<f64>, place: f64) -> [f64; 2] {
    let place = place.rem_euclid(12.0);
    let half = place % 6.0;
    let [y, z] = point(section, half.min(6.0 - half));
    [
        if (3.0..9.0).contains(&place) { -y } else { y },
        if place > 6.0 { -z } else { z },
    ]
}

/// Into how many even parts a path has to be divided for its chords to stay within `accuracy`.
///
/// A chord misses a smooth path by an amount that falls with the square of its share of the
/// path; the amount is measured on short chords all along.
pub(super) fn parts(accuracy: f64, path: &dyn Fn(f64) -> [f64; 3]) -> usize {
    let step = 1.0 / LOOKS as f64;
    let mut last = path(0.0);
    let mut middle = path(step);
    let mut sag: f64 = 0.0;
    for k in 2..=LOOKS {
        let next = path(k as f64 * step);
        sag = sag.max(distance_from_chord(middle, last, next));
        (last, middle) = (middle, next);
    }
    let parts = (sag / accuracy).sqrt() / (2.0 * step);
    (parts.ceil() as usize).clamp(1, MOST_PARTS)
}

/// How far `point` lies from the line through the ends of a chord.
pub(super) fn distance_from_chord(point: [f64; 3], from: [f64; 3], to: [f64; 3]) -> f64 {
    let minus = |p: [f64; 3], q: [f64; 3]| [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
    let dot = |p: [f64; 3], q: [f64; 3]| p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
    let (chord, arm) = (minus(to, from), minus(point, from));
    let square = dot(chord, chord);
    let along = if square > 0.0 {
        dot(arm, chord) / square
    } else {
        0.0
    };
    let off = [0, 1, 2].map(|k| arm[k] - chord[k] * along);
    dot(off, off).sqrt()
}

/// Parts of the corner of `section`; none where it has no corner.
pub(super) fn corner_parts(accuracy: f64, section: &Section<f64>) -> usize {
    if section.c <= 0.0 {
        return 0;
    }
    parts(accuracy, &|t| {
        let [y, z] = point(section, 1.0 + t);
        [0.0, y, z]
    })
}

/// How far a corner is turned on its way from one section to another, mm: the deviation of a
/// patch spanned by both from its two triangles would be a quarter of it.
pub(super) fn twist(from: &Section<f64>, to: &Section<f64>) -> f64 {
    const CHORDS: usize = 4;
    let chord = |section: &Section<f64>, k: usize| {
        let at = |k: usize| point(section, 1.0 + k as f64 / CHORDS as f64);
        let (p, q) = (at(k), at(k + 1));
        [q[0] - p[0], q[1] - p[1]]
    };
    let mut most: f64 = 0.0;
    for k in 0..CHORDS {
        let (e, f) = (chord(from, k), chord(to, k));
        let longer = e[0].hypot(e[1]).max(f[0].hypot(f[1]));
        if longer > 0.0 {
            let turned = (e[0] * f[1] - e[1] * f[0]).abs() / longer;
            most = most.max(turned * CHORDS as f64);
        }
    }
    most
}

/// Raises two counts, in equal shares, until a patch with `twist` is within `accuracy` of its
/// triangles.
pub(super) fn untwist(accuracy: f64, twist: f64, along: usize, across: usize) -> (usize, usize) {
    let needed = twist / (4.0 * accuracy);
    let share = (needed / (along * across).max(1) as f64).sqrt();
    if share <= 1.0 {
        return (along, across);
    }
    let raise = |count: usize| ((count as f64 * share).ceil() as usize).min(MOST_PARTS);
    (raise(along), raise(across))
}
