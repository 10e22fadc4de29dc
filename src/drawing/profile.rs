//! Side view and half plan: silhouettes, inner edges, the walls of the eye.

use super::pein::{self, Seen};
use super::{Point, Shape, Stroke, View};
use crate::design::Side;
use crate::solid::{
    Ball, Cap, EyeSection, Form, Head, Piece, Plug, Rim, Run, Section, Station, Tail, Tip,
};

/// How far a chord may leave its curve, mm.
const CHORD: f64 = 0.01;
/// How far a line between two smooth surfaces stays short of the outline, mm.
const SHORT: f64 = 1.2;
/// Points on the quarter round of a broken rim.
const ROUND_STEPS: usize = 10;
/// Points on a corner of a rim seen from the side.
const RIM_STEPS: usize = 16;
/// Up to this weight a corner's start is drawn as an edge: the conic turns there with the radius
/// 2w² times the corner, a third of it here; above, the surface only bends.
const EDGE_WEIGHT: f64 = 0.4;

/// Which half-size of a section a view shows.
#[derive(Clone, Copy, PartialEq)]
enum Across {
    /// The height, seen from the side.
    Up,
    /// The width, seen from above.
    Wide,
}

impl Across {
    fn half(self, section: &Section<f64>) -> f64 {
        match self {
            Across::Up => section.b,
            Across::Wide => section.a,
        }
    }

    fn corner(self, section: &Section<f64>) -> f64 {
        match self {
            Across::Up => section.d,
            Across::Wide => section.c,
        }
    }

    fn seen(self) -> Seen {
        match self {
            Across::Up => Seen::Up,
            Across::Wide => Seen::Wide,
        }
    }

    fn of(self, y: f64, z: f64) -> f64 {
        match self {
            Across::Up => z,
            Across::Wide => y,
        }
    }
}

/// What turns u, the distance along an end’s own way out, into x.
pub(super) fn sign(side: Side) -> f64 {
    match side {
        Side::Front => 1.0,
        Side::Back => -1.0,
    }
}

pub(super) fn side(head: &Head<f64>, shapes: &mut Vec<Shape>) {
    let view = View::Side;
    let upper = whole(head, Across::Up);
    let mut outline = upper.clone();
    outline.extend(upper.iter().rev().map(|[x, z]| [*x, -z]));
    add(shapes, view, Stroke::Steel, outline.clone(), true);
    add(shapes, view, Stroke::Outline, outline, true);
    for side in Side::BOTH {
        for line in inner_edges(head.end(side), Across::Up) {
            for way in [1.0, -1.0] {
                let mirrored = line.iter().map(|[u, h]| [sign(side) * u, way * h]);
                add(shapes, view, Stroke::Edge, mirrored.collect(), false);
            }
        }
    }
    let plug = &head.eye;
    for way in [1.0, -1.0] {
        let wall = vec![
            [way * plug.bottom.p, plug.mouths[0]],
            [way * plug.waist.p, plug.waist_height],
            [way * plug.top.p, plug.mouths[1]],
        ];
        add(shapes, view, Stroke::Hidden, wall, false);
    }
    let [back, front] = ends(head);
    let high = greatest(&upper);
    let axis = vec![[back, 0.0], [front, 0.0]];
    add(shapes, view, Stroke::Centre, axis, false);
    let handle = vec![[0.0, -high], [0.0, high]];
    add(shapes, view, Stroke::Centre, handle, false);
}

pub(super) fn plan(head: &Head<f64>, shapes: &mut Vec<Shape>) {
    let view = View::Plan;
    let half = whole(head, Across::Wide);
    add(shapes, view, Stroke::Steel, half.clone(), true);
    add(shapes, view, Stroke::Outline, half, false);
    for side in Side::BOTH {
        for line in inner_edges(head.end(side), Across::Wide) {
            let turned = line.iter().map(|[u, h]| [sign(side) * u, *h]);
            add(shapes, view, Stroke::Edge, turned.collect(), false);
        }
    }
    let plug = &head.eye;
    let mouth = mouth(plug, &head.cheeks, 1.0);
    add(shapes, view, Stroke::Opening, mouth.clone(), true);
    add(shapes, view, Stroke::Outline, mouth, false);
    let waist = half_outline(&plug.waist);
    add(shapes, view, Stroke::Edge, waist, false);
    if plug.bottom != plug.top {
        let below = self::mouth(plug, &head.cheeks, -1.0);
        add(shapes, view, Stroke::Hidden, below, false);
    }
    let [back, front] = ends(head);
    let axis = vec![[back, 0.0], [front, 0.0]];
    add(shapes, view, Stroke::Centre, axis, false);
    let handle = vec![[0.0, 0.0], [0.0, head.cheeks.a]];
    add(shapes, view, Stroke::Centre, handle, false);
}

fn add(shapes: &mut Vec<Shape>, view: View, stroke: Stroke, points: Vec<Point>, closed: bool) {
    shapes.push(Shape {
        view,
        stroke,
        points,
        closed,
    });
}

/// x of the farthest point at the back and at the front.
pub(super) fn ends(head: &Head<f64>) -> [f64; 2] {
    [
        -head.end(Side::Back).tip.reach(),
        head.end(Side::Front).tip.reach(),
    ]
}

fn greatest(line: &[Point]) -> f64 {
    line.iter().fold(0.0, |most, point| most.max(point[1]))
}

/// The upper silhouette from the back's farthest point to the front's.
fn whole(head: &Head<f64>, across: Across) -> Vec<Point> {
    let back = silhouette(head.end(Side::Back), across);
    let mut line: Vec<Point> = back.into_iter().rev().map(|[u, h]| [-u, h]).collect();
    line.extend(silhouette(head.end(Side::Front), across));
    line
}

/// One end's silhouette from the handle axis out to the crown's apex.
///
/// The face's farthest points for a given height lie in the plane of symmetry, so that its
/// silhouette is the height field's own profile there.
fn silhouette(tail: &Tail<f64>, across: Across) -> Vec<Point> {
    let mut line = Vec::new();
    for run in &tail.runs {
        line.extend(shares(run, across).map(|tau| {
            let Station { u, section, .. } = run.at(tau);
            [u, across.half(&section)]
        }));
    }
    match &tail.tip {
        Tip::Face(cap) => line.extend(face_profile(cap, across)),
        Tip::Ball(ball) => line.extend(ball_profile(ball)),
        Tip::Pein(pein) => line.extend(pein::profile(pein, across.seen())),
    }
    line
}

/// The ball's meridian from its neck to its pole.
fn ball_profile(ball: &Ball<f64>) -> impl Iterator<Item = Point> {
    let Ball { radius, neck, .. } = *ball;
    let centre = ball.centre();
    let from = neck.atan2(-ball.depth());
    // A chord of angle φ leaves its circle by r φ²/8.
    let steps = (from * (radius / (8.0 * CHORD)).sqrt()).ceil() as usize;
    (0..=steps).map(move |step| {
        let (sin, cos) = (from * (1.0 - step as f64 / steps as f64)).sin_cos();
        [centre + radius * cos, radius * sin]
    })
}

/// The shares of a run at which it is sampled: a cubic's chord leaves it by at most
/// 6 |rise| / (8 n²) when it is cut into n.
fn shares(run: &Run<f64>, across: Across) -> impl Iterator<Item = f64> {
    let steps = match run.form {
        Form::Straight => 1,
        Form::Smooth | Form::Block(_) => {
            let rise = (across.half(&run.outer) - across.half(&run.inner)).abs();
            ((0.75 * rise / CHORD).sqrt().ceil() as usize).max(2)
        }
    };
    (0..=steps).map(move |step| step as f64 / steps as f64)
}

/// Land, broken rim and crown in the plane of symmetry.
fn face_profile(cap: &Cap<f64>, across: Across) -> Vec<Point> {
    let half = across.half(&cap.outline);
    let mut line = vec![[cap.land_start(), half]];
    let steps = match cap.rim {
        Rim::Sharp => 0,
        Rim::Chamfered => 1,
        Rim::Rounded => ROUND_STEPS,
    };
    let at = |inset: f64, drop: f64| {
        let h = half - inset;
        [cap.reach - cap.sag(h * h) - drop, h]
    };
    for step in 0..=steps {
        let (inset, drop, ..) = cap.edge_at(step as f64 / steps.max(1) as f64);
        line.push(at(inset, drop));
    }
    let crown = half - cap.edge_at(1.0).0;
    let steps = (crown * (cap.curvature / (8.0 * CHORD)).sqrt())
        .ceil()
        .max(1.0) as usize;
    line.extend((1..=steps).map(|step| at(half - crown * (1.0 - step as f64 / steps as f64), 0.0)));
    line
}

/// Edges inside the outline of one end, in (u, h) with h ≥ 0.
fn inner_edges(tail: &Tail<f64>, across: Across) -> Vec<Vec<Point>> {
    let mut lines = Vec::new();
    for (inside, outside) in tail.runs.iter().zip(&tail.runs[1..]) {
        let block = inside.from == 0.0;
        let bent = outside.form == Form::Straight || (!block && inside.form == Form::Straight);
        // Between two smooth runs there is nothing to be seen.
        if block || bent {
            lines.push(station(inside.to, across.half(&inside.outer), bent));
        }
    }
    if let Some(last) = tail.runs.last() {
        let ball = matches!(tail.tip, Tip::Ball(_));
        let bent = ball || last.form == Form::Straight;
        lines.push(station(last.to, across.half(&last.outer), bent));
    }
    for run in &tail.runs {
        lines.extend(corner_edge(run, across));
    }
    let Tip::Face(cap) = &tail.tip else {
        return lines;
    };
    let corner = across.corner(&cap.outline);
    if cap.outline.w == 0.0 && corner > 0.0 {
        let h = across.half(&cap.outline) - corner;
        let flat = match across {
            Across::Up => cap.outline.a,
            Across::Wide => cap.outline.b,
        };
        let end = cap.reach - cap.sag(h * h + flat * flat) - cap.edge_at(0.0).1;
        lines.push(vec![[cap.land_start(), h], [end, h]]);
    }
    lines.extend(rims(cap, across));
    lines
}

fn station(u: f64, half: f64, bent: bool) -> Vec<Point> {
    let short = if bent { 0.0 } else { SHORT.min(half / 4.0) };
    vec![[u, 0.0], [u, half - short]]
}

/// Where the flat meets its corner along a run, as far as it is an edge.
fn corner_edge(run: &Run<f64>, across: Across) -> Option<Vec<Point>> {
    let line: Vec<Point> = shares(run, across)
        .map(|tau| run.at(tau))
        .filter(|Station { section, .. }| {
            let corner = across.corner(section);
            section.w <= EDGE_WEIGHT && corner > 0.0 && corner < across.half(section)
        })
        .map(|Station { u, section, .. }| [u, across.half(&section) - across.corner(&section)])
        .collect();
    (line.len() > 1).then_some(line)
}

/// The rim of the face, and the inner one of a chamfer, seen across.
fn rims(cap: &Cap<f64>, across: Across) -> Vec<Vec<Point>> {
    let half = across.half(&cap.outline);
    let mut lines = vec![rim(cap, across, 0.0, 1.0)];
    match cap.rim {
        Rim::Sharp => {}
        Rim::Chamfered => lines.push(rim(cap, across, cap.edge, 0.0)),
        Rim::Rounded => {
            let most = half - SHORT.min(half / 4.0);
            lines[0].retain(|point| point[1] <= most);
        }
    }
    lines
}

/// The curve on the face at `inset` from its outline, with `share` of the edge's drop.
fn rim(cap: &Cap<f64>, across: Across, inset: f64, share: f64) -> Vec<Point> {
    let (wide, up) = cap.shrink(inset);
    let outline = cap.outline.shrunk(wide, up);
    let drop = cap.edge_at(0.0).1 * share;
    let mut line = Vec::new();
    for piece in outline.pieces() {
        let steps = match piece {
            Piece::Corner if outline.w > 0.0 => RIM_STEPS,
            _ if cap.curvature > 0.0 => RIM_STEPS / 2,
            _ => 1,
        };
        for step in 0..=steps {
            let (y, z, ..) = outline.along(piece, step as f64 / steps as f64);
            line.push([cap.reach - cap.sag(y * y + z * z) - drop, across.of(y, z)]);
        }
    }
    line
}

/// Half of the eye's outline at one level, from its back end over the side to its front end.
fn half_outline(level: &EyeSection<f64>) -> Vec<Point> {
    let section = level.section();
    let quarter: Vec<Point> = quarter(&section);
    let back = quarter.iter().map(|[x, y]| [-x, *y]);
    back.chain(quarter.iter().rev().copied()).collect()
}

/// The quarter of an outline, y, z ≥ 0, as points that keep within the chord's error.
pub(super) fn quarter(section: &Section<f64>) -> Vec<Point> {
    let mut line = Vec::new();
    for piece in section.pieces() {
        let steps = match piece {
            Piece::Corner if section.w > 0.0 => curve_steps(section.c.max(section.d)),
            _ => 1,
        };
        for step in 0..=steps {
            let (y, z, ..) = section.along(piece, step as f64 / steps as f64);
            if line.last() != Some(&[y, z]) {
                line.push([y, z]);
            }
        }
    }
    line
}

/// Cuts of a quarter of an ellipse of this size: chord error r (π/2n)²/8.
fn curve_steps(size: f64) -> usize {
    let half_turn = std::f64::consts::FRAC_PI_2;
    (half_turn * (size / (8.0 * CHORD)).sqrt()).ceil().max(4.0) as usize
}

/// Where a point of the mouth settles: the wall leans a little, so that each step comes nearer
/// by at least half.
const MOUTH_STEPS: usize = 14;

/// The mouth where the plug leaves the block, seen along the handle: on a flat top the outline
/// at the mouth's level, on a chamfered or round one the curve that it cuts there. `way` is 1 for
/// the upper mouth and −1 for the lower.
fn mouth(plug: &Plug<f64>, cheeks: &Section<f64>, way: f64) -> Vec<Point> {
    let upright = Section {
        a: cheeks.b,
        b: cheeks.a,
        c: cheeks.d,
        d: cheeks.c,
        w: cheeks.w,
    };
    let level = if way > 0.0 { &plug.top } else { &plug.bottom };
    let settle = |share: f64, piece: Piece| {
        let mut z = plug.mouths[1];
        let mut point = [0.0; 2];
        for _ in 0..MOUTH_STEPS {
            let (x, y, ..) = plug.at(way * z).section().along(piece, share);
            point = [x, y];
            z = upright.half_width_at(y.min(cheeks.a));
        }
        point
    };
    let section = level.section();
    let mut front = Vec::new();
    for piece in section.pieces() {
        let steps = match piece {
            Piece::Corner => curve_steps(section.c.max(section.d)),
            _ => 4,
        };
        for step in 0..=steps {
            front.push(settle(step as f64 / steps as f64, piece));
        }
    }
    let back = front.iter().map(|[x, y]| [-x, *y]);
    back.chain(front.iter().rev().copied()).collect()
}
