//! The finished head as a row of cells from back to front, split where the definition has its joints.

use crate::bar::Bar;
use crate::design::Side;
use crate::mass::{PartVolumes, part_volumes, section_areas};
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::gauss;
use crate::solid::{Cap, Piece, Section, Solid, Tail, Tip};

/// Points in a stretch between two stations: the sections there are known to 1e-9 from this many.
const RUN_POINTS: usize = 8;
/// Points in a stretch of a tip, whose whole volume is known apart.
const TIP_POINTS: usize = 6;
/// Points where a tip closes.
const CLOSING_POINTS: usize = 3;
/// Stretches shorter than this, mm, are none.
const SHORTEST: f64 = 1e-9;

/// A piece of the head's length with what the finished head has there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Cell {
    /// x where it begins and ends, mm.
    pub from: f64,
    pub to: f64,
    /// x that its areas belong to, mm.
    pub x: f64,
    /// Area of the body as if unpierced, mm².
    pub body: f64,
    /// Area of the pierced head, mm².
    pub pierced: f64,
    /// The end that it closes, where the section shrinks to nothing.
    pub closes: Option<Side>,
}

impl Cell {
    pub fn length(&self) -> f64 {
        self.to - self.from
    }
}

/// What does not depend on the bar.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Profile {
    /// From back to front.
    pub cells: Vec<Cell>,
    /// Area of each end before it is closed, mm²: front, back.
    pub end_areas: [f64; 2],
    /// Half-length of the punched slot, mm.
    pub slot: f64,
    /// x of the eye's back and front, mm.
    pub eye: [f64; 2],
    /// Volume of the eye, mm³.
    pub eye_mm3: f64,
    /// Volume of the cells, mm³.
    pub volume: f64,
}

impl Profile {
    /// Cells of `solid`, split where the punch of `bar` ends.
    ///
    /// # Accuracy
    /// Runs are integrated to 1e-9. The areas of tips and eye, good to 1e-4, are brought to the volumes that
    /// [`part_volumes`] gives, so that every part between two stations has its own volume.
    pub fn of(solid: &Solid, bar: &Bar) -> Self {
        let head = solid.head();
        let volumes = part_volumes(solid);
        let punch = bar.punch(head.eye.least_sizes());
        let waist = head.eye.waist.p;
        let slot = punch.map_or(waist, |punch| waist.min(0.5 * punch.across()[0].in_mm()));
        let reach = [1.0, -1.0].map(|way| head.eye.farthest(way).1);
        let mut cells = Vec::with_capacity(160);
        let mut end_areas = [0.0; 2];
        for side in Side::BOTH.into_iter().rev() {
            let way = way(side);
            let tail = head.end(side);
            let mut out = block(solid, side, [slot, reach[side as usize]], &volumes);
            for run in tail.runs.iter().skip(1) {
                let area = |u: f64| run.at((u - run.from) / (run.to - run.from)).section.area();
                fill(&mut out, [run.from, run.to], RUN_POINTS, area);
            }
            end_areas[side as usize] =
                tip(solid, side, tail, volumes.tips[side as usize], &mut out);
            if side == Side::Back {
                out.reverse();
                for cell in &mut out {
                    (cell.from, cell.to, cell.x) = (way * cell.to, way * cell.from, way * cell.x);
                }
            }
            cells.append(&mut out);
        }
        let volume = cells.iter().map(|cell| cell.pierced * cell.length()).sum();
        Self {
            cells,
            end_areas,
            slot,
            eye: [-reach[1], reach[0]],
            eye_mm3: volumes.eye.iter().sum(),
            volume,
        }
    }

    /// Mean area of the body along the eye as if unpierced, mm².
    pub fn cheeks_mm2(&self) -> f64 {
        let [back, front] = self.eye;
        let along = self
            .cells
            .iter()
            .filter(|cell| back < cell.x && cell.x < front);
        let (volume, length) = along.fold((0.0, 0.0), |(volume, length), cell| {
            (volume + cell.body * cell.length(), length + cell.length())
        });
        volume / length
    }
}

fn way(side: Side) -> f64 {
    match side {
        Side::Front => 1.0,
        Side::Back => -1.0,
    }
}

/// Adds the cells of a stretch in u; their areas are the body's.
fn fill(cells: &mut Vec<Cell>, [from, to]: [f64; 2], points: usize, area: impl Fn(f64) -> f64) {
    let length = to - from;
    if length < SHORTEST {
        return;
    }
    // The places of a Gauss rule lie between the sums of its weights (Chebyshev, Markov, Stieltjes), so that each
    // stands for a cell around itself. The rule lists them from 1 down to 0 or the other way.
    let mut nodes: Vec<(f64, f64)> = gauss(points).nodes().collect();
    sort_few(&mut nodes, |(place, _)| *place);
    let mut begin = from;
    let last = nodes.len() - 1;
    for (index, (place, weight)) in nodes.into_iter().enumerate() {
        let end = if index == last {
            to
        } else {
            begin + length * weight
        };
        let u = from + length * place;
        let body = area(u);
        cells.push(Cell {
            from: begin,
            to: end,
            x: u,
            body,
            pierced: body,
            closes: None,
        });
        begin = end;
    }
}

/// Half of the cheek block with its share of the eye; `cuts` are the slot's end and the eye's.
fn block(solid: &Solid, side: Side, cuts: [f64; 2], volumes: &PartVolumes) -> Vec<Cell> {
    let mut cells = Vec::with_capacity(48);
    let Some(run) = solid.head().end(side).runs.first() else {
        return cells;
    };
    let end = run.to;
    let mut joints = vec![0.0, end];
    joints.extend(cuts);
    if let crate::solid::Form::Block(crate::solid::Bulge {
        lugs: Some(lugs), ..
    }) = run.form
    {
        joints.push(lugs.half_length);
    }
    for joint in &mut joints {
        *joint = joint.clamp(0.0, end);
    }
    sort_few(&mut joints, |u| *u);
    for pair in joints.windows(2) {
        let area = |u: f64| run.at(u / end).section.area();
        fill(&mut cells, [pair[0], pair[1]], RUN_POINTS, area);
    }
    let eye_end = cuts[1];
    let inside = |cell: &&mut Cell| cell.x < eye_end;
    let mut taken = 0.0;
    for cell in cells.iter_mut().filter(inside) {
        let areas = section_areas(solid, way(side) * cell.x);
        cell.pierced = areas.pierced;
        taken += (areas.body - areas.pierced) * cell.length();
    }
    let share = volumes.eye[side as usize] / taken;
    if share.is_finite() {
        for cell in cells.iter_mut().filter(inside) {
            cell.pierced = (cell.body - share * (cell.body - cell.pierced)).max(0.0);
        }
    }
    cells
}

/// Adds the cells of what closes an end, which has `volume`; answers the area before it is closed.
fn tip(solid: &Solid, side: Side, tail: &Tail<f64>, volume: f64, cells: &mut Vec<Cell>) -> f64 {
    let area = |u: f64| section_areas(solid, way(side) * u).body;
    let (start, section) = tail.tip.station();
    let reach = tail.tip.reach();
    let first = cells.len();
    let (closes, whole) = match &tail.tip {
        Tip::Face(cap) => (lowest_rim(cap).clamp(start, reach), section.area()),
        Tip::Ball(ball) => (ball.centre(), area(ball.centre())),
        Tip::Pein(pein) => (pein.tangent[0], area(pein.tangent[0])),
    };
    match &tail.tip {
        // A face is a prism up to its rim.
        Tip::Face(_) => fill(cells, [start, closes], 1, |_| whole),
        Tip::Ball(_) | Tip::Pein(_) => fill(cells, [start, closes], TIP_POINTS, area),
    }
    let open = cells.len();
    fill(cells, [closes, reach], CLOSING_POINTS, area);
    for cell in &mut cells[open..] {
        cell.closes = Some(side);
    }
    let sum = |cells: &[Cell]| -> f64 { cells.iter().map(|cell| cell.body * cell.length()).sum() };
    let face = matches!(tail.tip, Tip::Face(_));
    if face {
        // What the crown lacks of the prism is brought to its volume; the land stays as it is.
        let lacks = whole * (reach - closes) - sum(&cells[open..]);
        let share = (whole * (reach - start) - volume) / lacks;
        if lacks > SHORTEST * whole {
            for cell in &mut cells[open..] {
                cell.body = (whole - share * (whole - cell.body)).max(0.0);
            }
        }
    } else {
        let share = volume / sum(&cells[first..]);
        for cell in &mut cells[first..] {
            cell.body *= share;
        }
    }
    for cell in &mut cells[first..] {
        cell.pierced = cell.body;
    }
    whole
}

/// u of the lowest point of a face's rim, seen at the ends and the middle of every piece of its outline.
fn lowest_rim(cap: &Cap<f64>) -> f64 {
    let section: &Section<f64> = &cap.outline;
    let rim = |piece: Piece| [0.0, 0.5, 1.0].map(|t| cap.rim_at(piece, t));
    section.pieces().flat_map(rim).fold(cap.reach, f64::min)
}
