//! The outlines of the handle as the views of the head show them.

use serde::Serialize;

use super::Handle;
use super::body::{HandlePart, frame, stem_corners};
use super::seat::{Prism, Seat};

/// The outline of one part, as closed rows of points whose last joins the first, mm.
///
/// # Accuracy
/// Chords stay within 0.02 mm of an arc of the eye's wall up to a flare of 20 mm on each side. Ovals of the stem are drawn
/// edge on, by the ends of their own axes: with a lean the butt is seen a little open, which is left out.
#[derive(Clone, Debug, PartialEq)]
pub struct Silhouette {
    /// Which part. The wood in the eye is one outline: with a shoulder it is the shoulder's and the tongue's.
    pub part: HandlePart,
    /// Seen across the cheeks: (x, z).
    pub side: Vec<[f64; 2]>,
    /// Seen along the head: (y, z).
    pub front: Vec<[f64; 2]>,
}

/// Half-sizes of the wood at one place along the handle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HalfSizes {
    /// From the head's origin along the true handle axis, negative towards the butt.
    pub along_mm: f64,
    /// Along the head.
    pub half_depth_mm: f64,
    /// Across the cheeks.
    pub half_width_mm: f64,
}

/// Chords between two joints of the eye's wall.
const CHORDS: u32 = 16;

/// Half-sizes along the head and across it at a point of the axis, with the directions they are measured in.
struct Row {
    middle: [f64; 3],
    along: [f64; 3],
    across: [f64; 3],
}

/// The wood from the butt to the tongue's end; where its size jumps, two at one place.
pub(super) fn outline(seat: &Seat<f64>, handle: &Handle) -> Vec<HalfSizes> {
    let butt = seat.bottom * seat.slant - seat.stem;
    let half_sizes = |along_mm: f64, [half_depth_mm, half_width_mm]: [f64; 2]| HalfSizes {
        along_mm,
        half_depth_mm,
        half_width_mm,
    };
    let stem = stem_corners(&handle.stations, seat.stem)
        .into_iter()
        .map(|(s, sizes)| half_sizes(butt + s, sizes));
    let eye = eye_heights(seat)
        .into_iter()
        .map(|z| half_sizes(z * seat.slant, seat.half_sizes_at(z)));
    stem.chain(eye).collect()
}

/// The outlines of the parts that `handle` has: stem, wood in the eye, wedge, cross wedge.
pub(super) fn silhouettes(seat: &Seat<f64>, handle: &Handle) -> Vec<Silhouette> {
    let mut all = vec![
        silhouette(HandlePart::Stem, &stem_rows(seat, handle)),
        silhouette(HandlePart::Tongue, &eye_rows(seat)),
    ];
    let prism_rows = |prism: &Prism<f64>, sizes: fn(f64, f64) -> [f64; 2]| {
        [prism.tip(), prism.end]
            .map(|z| level_row(seat, z, sizes(prism.thickness_at(z), prism.broad)))
    };
    if let Some(wedge) = &seat.wedge {
        let rows = prism_rows(wedge, |thick, broad| [0.5 * broad, 0.5 * thick]);
        all.push(silhouette(HandlePart::Wedge, &rows));
    }
    if let Some(cross) = &seat.cross {
        let rows = prism_rows(cross, |thick, broad| [0.5 * thick, 0.5 * broad]);
        all.push(silhouette(HandlePart::CrossWedge, &rows));
    }
    all
}

fn stem_rows(seat: &Seat<f64>, handle: &Handle) -> Vec<Row> {
    let frame = frame(seat.plug.lean);
    let column = |k: usize, size: f64| frame.map(|row| row[k] * size);
    let butt = seat.bottom * seat.slant - seat.stem;
    stem_corners(&handle.stations, seat.stem)
        .into_iter()
        .map(|(s, [depth, width])| Row {
            middle: column(2, butt + s),
            along: column(0, depth),
            across: column(1, width),
        })
        .collect()
}

/// Heights close enough for the wall, from the lower mouth to the tongue's end.
fn eye_heights(seat: &Seat<f64>) -> Vec<f64> {
    let joints = seat.joints();
    let mut heights = vec![seat.bottom];
    for pair in joints.windows(2).filter(|pair| pair[0] < pair[1]) {
        let share = |chord: u32| f64::from(chord) / f64::from(CHORDS);
        heights.extend((1..=CHORDS).map(|chord| pair[0] + (pair[1] - pair[0]) * share(chord)));
    }
    heights
}

fn eye_rows(seat: &Seat<f64>) -> Vec<Row> {
    eye_heights(seat)
        .into_iter()
        .map(|z| level_row(seat, z, seat.half_sizes_at(z)))
        .collect()
}

fn level_row(seat: &Seat<f64>, z: f64, [along, across]: [f64; 2]) -> Row {
    let [x, y] = seat.plug.centre(z);
    Row {
        middle: [x, y, z],
        along: [along, 0.0, 0.0],
        across: [0.0, across, 0.0],
    }
}

fn silhouette(part: HandlePart, rows: &[Row]) -> Silhouette {
    Silhouette {
        part,
        side: closed(rows, 0, |row| row.along),
        front: closed(rows, 1, |row| row.across),
    }
}

/// Up on one side and down on the other, seen along the axis that is neither `axis` nor z.
fn closed(rows: &[Row], axis: usize, half: impl Fn(&Row) -> [f64; 3]) -> Vec<[f64; 2]> {
    let at = |row: &Row, way: f64| {
        let half = half(row);
        [axis, 2].map(|k| row.middle[k] + way * half[k])
    };
    let up = rows.iter().map(|row| at(row, 1.0));
    let down = rows.iter().rev().map(|row| at(row, -1.0));
    up.chain(down).collect()
}
