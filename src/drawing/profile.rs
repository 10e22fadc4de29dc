//! Side view and half plan: silhouettes, inner edges, the walls of the eye.

use super::pein::{self, Slice};
use super::{Point, Shape, Stroke, View};
use crate::design::{Side, Wall};
use crate::numeric::order::sort_few;
use crate::numeric::roots::crossing;
use crate::solid::{
    Ball, Bulge, Cap, Form, Head, Pein, Piece, Plug, Rim, Run, Section, Station, Tail, Tip,
};

/// How far a chord may leave its curve, mm.
pub(super) const CHORD: f64 = 0.01;
/// How far a line between two smooth surfaces stays short of the outline, mm.
const SHORT: f64 = 1.2;
/// Points on the quarter round of a broken rim.
const ROUND_STEPS: usize = 10;
/// Points on a corner of a rim seen from the side.
const RIM_STEPS: usize = 16;
/// Up to this weight a corner's start is drawn as an edge: the conic turns there with the radius
/// 2w² times the corner, a third of it here; above, the surface only bends.
const EDGE_WEIGHT: f64 = 0.4;
/// Points on an arc of the eye's wall.
const WALL_STEPS: usize = 16;
/// A product of sine and cosine below this is that of a right angle.
const STRAIGHT: f64 = 1e-9;

/// Which half-size of a section a view shows.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Across {
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

    /// Which of (y, z) it is.
    fn axis(self) -> usize {
        match self {
            Across::Up => 1,
            Across::Wide => 0,
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

pub(super) fn side(head: &Head<f64>, peins: &Peins, shapes: &mut Vec<Shape>) {
    let view = View::Side;
    let mut outline = whole(head, peins, Across::Up, 1.0);
    let lower = whole(head, peins, Across::Up, -1.0);
    outline.extend(lower.into_iter().rev());
    let [low, high] = outline.iter().fold([0.0_f64; 2], |[low, high], [_, z]| {
        [low.min(*z), high.max(*z)]
    });
    add(shapes, view, Stroke::Steel, outline.clone(), true);
    add(shapes, view, Stroke::Outline, outline, true);
    for side in Side::BOTH {
        let tail = head.end(side);
        for line in inner_edges(tail, Across::Up) {
            for way in [1.0, -1.0] {
                let placed = line
                    .iter()
                    .map(|[u, h]| [sign(side) * u, middle(tail, *u) + way * h]);
                add(shapes, view, Stroke::Edge, placed.collect(), false);
            }
        }
        // Seen from −y.
        for line in pein::edges(&peins[side as usize], [-1.0, 0.0]) {
            let placed = line
                .iter()
                .map(|[u, _, z]| [sign(side) * u, middle(tail, *u) + z]);
            add(shapes, view, Stroke::Edge, placed.collect(), false);
        }
    }
    for way in [1.0, -1.0] {
        add(
            shapes,
            view,
            Stroke::Hidden,
            wall(head, Across::Up, way),
            false,
        );
    }
    let mut axis: Vec<Point> = fallen(head, Side::Back).into_iter().rev().collect();
    axis.extend(fallen(head, Side::Front));
    add(shapes, view, Stroke::Centre, axis, false);
    let handle = [low, high].map(|z| [head.eye.centre(z)[0], z]).to_vec();
    add(shapes, view, Stroke::Centre, handle, false);
}

pub(super) fn plan(head: &Head<f64>, peins: &Peins, shapes: &mut Vec<Shape>) {
    let view = View::Plan;
    let whole_plan = is_lopsided(head);
    let ways: &[f64] = if whole_plan { &[1.0, -1.0] } else { &[1.0] };
    let mut outline = whole(head, peins, Across::Wide, 1.0);
    if whole_plan {
        let other: Vec<Point> = outline.iter().rev().map(|[x, y]| [*x, -y]).collect();
        outline.extend(other);
    }
    add(shapes, view, Stroke::Steel, outline.clone(), true);
    add(shapes, view, Stroke::Outline, outline, whole_plan);
    for side in Side::BOTH {
        for line in inner_edges(head.end(side), Across::Wide) {
            for way in ways {
                let turned = line.iter().map(|[u, h]| [sign(side) * u, way * h]);
                add(shapes, view, Stroke::Edge, turned.collect(), false);
            }
        }
        for line in pein::edges(&peins[side as usize], [0.0, 1.0]) {
            if whole_plan || line.iter().all(|[_, y, _]| *y > 0.0) {
                let turned = line.iter().map(|[u, y, _]| [sign(side) * u, *y]);
                add(shapes, view, Stroke::Edge, turned.collect(), false);
            }
        }
    }
    let plug = &head.eye;
    let mouth = mouth(head, 1.0, whole_plan);
    add(shapes, view, Stroke::Opening, mouth.clone(), true);
    add(shapes, view, Stroke::Outline, mouth, whole_plan);
    add(
        shapes,
        view,
        Stroke::Edge,
        level(plug, plug.waist_height, whole_plan),
        whole_plan,
    );
    if let Some(size) = plug.mouth_break {
        // Where the body has fallen below it, nothing is left of this edge.
        let z = plug.mouths[1] - size;
        let line = level(plug, z, whole_plan);
        for part in line.split(|point| height(head, *point, 1.0) < z) {
            add(
                shapes,
                view,
                Stroke::Edge,
                part.to_vec(),
                part.len() == line.len() && whole_plan,
            );
        }
    }
    if plug.bottom != plug.top || whole_plan || head.bulge().is_some() {
        let below = self::mouth(head, -1.0, whole_plan);
        add(shapes, view, Stroke::Hidden, below, whole_plan);
    }
    let [back, front] = ends(head);
    let axis = vec![[back, 0.0], [front, 0.0]];
    add(shapes, view, Stroke::Centre, axis, false);
    let wide = head.block_at(0.0).section.a;
    let low = if whole_plan { -wide } else { 0.0 };
    add(
        shapes,
        view,
        Stroke::Centre,
        vec![[0.0, low], [0.0, wide]],
        false,
    );
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

/// The peins' slices, front and back; none where an end has no pein.
pub(super) type Peins = [Vec<Slice>; 2];

pub(super) fn peins(head: &Head<f64>) -> Peins {
    Side::BOTH.map(|side| match &head.end(side).tip {
        Tip::Pein(pein) => pein::slices(pein),
        Tip::Face(_) | Tip::Ball(_) => Vec::new(),
    })
}

/// Whether a pein's edge lies neither across nor along the handle. Half a turn leaves a pein as it
/// is: straight, its halves are alike.
pub(super) fn is_askew(pein: &Pein<f64>) -> bool {
    (pein.direction[0] * pein.direction[1]).abs() > STRAIGHT
}

/// Whether the halves to the left and to the right of the head differ.
pub(super) fn is_lopsided(head: &Head<f64>) -> bool {
    let askew = |tail: &Tail<f64>| matches!(&tail.tip, Tip::Pein(pein) if is_askew(pein));
    head.eye.lean.is_some_and(|lean| lean.across != 0.0) || head.ends.iter().any(askew)
}

/// Height of the middle of an end at `u`: of lugs that differ, of an axis that falls, of a tip
/// that falls no more.
pub(super) fn middle(tail: &Tail<f64>, u: f64) -> f64 {
    let end = tail.block_end();
    let keeps = !matches!(tail.tip, Tip::Pein(_)) && u > tail.tip.station().0;
    match tail.runs.first() {
        Some(block) if u <= end => block.at(u / end).centre,
        _ if keeps => tail.tip_centre(),
        _ => tail.drop.at(u),
    }
}

/// The axis of an end from where it begins to fall outwards, in the side view.
fn fallen(head: &Head<f64>, side: Side) -> Vec<Point> {
    let tail = head.end(side);
    let (start, tip) = (tail.tip.station().0, tail.tip.reach());
    let stops = [tail.block_end(), start, tip];
    let level = if tail.drop.slope == 0.0 { 2 } else { 0 };
    let turned = stops[level..].iter();
    turned.map(|u| [sign(side) * u, middle(tail, *u)]).collect()
}

/// The silhouette on one side of the axis, `way` 1 or −1, from the back's farthest point to the
/// front's.
fn whole(head: &Head<f64>, peins: &Peins, across: Across, way: f64) -> Vec<Point> {
    let end = |side: Side| {
        let tail = head.end(side);
        let line = silhouette(tail, &peins[side as usize], across).into_iter();
        line.map(move |[u, h]| match across {
            Across::Up => [sign(side) * u, middle(tail, u) + way * h],
            Across::Wide => [sign(side) * u, way * h],
        })
    };
    end(Side::Back).rev().chain(end(Side::Front)).collect()
}

/// One end's silhouette from the handle axis out to the crown's apex.
///
/// The face's farthest points for a given height lie in the plane of symmetry, so that its
/// silhouette is the height field's own profile there.
fn silhouette(tail: &Tail<f64>, slices: &[Slice], across: Across) -> Vec<Point> {
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
        Tip::Pein(pein) => {
            line.extend(
                slices
                    .iter()
                    .map(|slice| [slice.u, slice.half(across.axis())]),
            );
            line.push([pein.reach, 0.0]);
        }
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
/// 6 |rise| / (8 n²) when it is cut into n, the bell of a swell or a lug by 8 |rise| / (8 n²).
fn shares(run: &Run<f64>, across: Across) -> impl Iterator<Item = f64> {
    let steps = match run.form {
        Form::Straight => 1,
        Form::Smooth => {
            let rise = (across.half(&run.outer) - across.half(&run.inner)).abs();
            ((0.75 * rise / CHORD).sqrt().ceil() as usize).max(2)
        }
        Form::Block(Bulge { swell, lugs }) => {
            let (rise, length) = match (across, lugs) {
                (Across::Wide, _) => (swell, run.to),
                (Across::Up, None) => (0.0, run.to),
                (Across::Up, Some(lugs)) => (lugs.top.max(lugs.bottom), lugs.half_length),
            };
            (run.to / length * (rise / CHORD).sqrt()).ceil().max(1.0) as usize
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
pub(super) fn curve_steps(size: f64) -> usize {
    let half_turn = std::f64::consts::FRAC_PI_2;
    (half_turn * (size / (8.0 * CHORD)).sqrt()).ceil().max(4.0) as usize
}

/// The eye's outline at height `z`, seen along the handle.
fn level(plug: &Plug<f64>, z: f64, whole: bool) -> Vec<Point> {
    let section = plug.at(z).section();
    let [x, y] = plug.centre(z);
    let quarter = quarter(&section);
    quarters(whole, &|along, across| {
        let turned = quarter.iter().map(|[p, q]| [x + along * p, y + across * q]);
        turned.collect()
    })
}

/// Two quarters of an outline, or all four, from its back end over the side to its front end; a
/// quarter is given from the length's end to the side.
fn quarters(whole: bool, quarter: &dyn Fn(f64, f64) -> Vec<Point>) -> Vec<Point> {
    let mut line = quarter(-1.0, 1.0);
    line.extend(quarter(1.0, 1.0).into_iter().rev());
    if whole {
        line.extend(quarter(1.0, -1.0));
        line.extend(quarter(-1.0, -1.0).into_iter().rev());
    }
    line
}

/// Height of the block's top, or with `way` −1 its depth below the axis, at (x, y).
fn height(head: &Head<f64>, [x, y]: Point, way: f64) -> f64 {
    let Station {
        section, centre, ..
    } = head.block_at(x);
    let Section { a, b, c, d, w } = section;
    let upright = Section {
        a: b,
        b: a,
        c: d,
        d: c,
        w,
    };
    way * centre + upright.half_width_at(y.abs().min(a))
}

/// The height, upwards or with `way` −1 downwards, at which a line on the eye's wall leaves the
/// block.
fn exit(head: &Head<f64>, way: f64, line: &dyn Fn(f64) -> Point) -> f64 {
    let mouth = head.eye.mouths[usize::from(way > 0.0)];
    let beyond = |z: f64| way * z - height(head, line(z), way);
    crossing((0.0, beyond(0.0)), (mouth, beyond(mouth)), beyond).unwrap_or(mouth)
}

/// The mouth where the plug leaves the block, seen along the handle: on a flat top the outline
/// at the mouth's level, on any other the curve that it cuts there. `way` is 1 for the upper
/// mouth and −1 for the lower.
fn mouth(head: &Head<f64>, way: f64, whole: bool) -> Vec<Point> {
    let plug = &head.eye;
    let section = if way > 0.0 { &plug.top } else { &plug.bottom }.section();
    quarters(whole, &|along, across| {
        let mut line = Vec::new();
        for piece in section.pieces() {
            let steps = match piece {
                Piece::Corner => curve_steps(section.c.max(section.d)),
                _ => 4,
            };
            for step in 0..=steps {
                let point = |z: f64| {
                    let share = step as f64 / steps as f64;
                    let (p, q, ..) = plug.at(z).section().along(piece, share);
                    let [x, y] = plug.centre(z);
                    [x + along * p, y + across * q]
                };
                line.push(point(exit(head, way, &point)));
            }
        }
        line
    })
}

/// The hidden wall of the eye from mouth to mouth, in the side view or, across, in the view of
/// the face; `way` is −1 for its back or left side.
pub(super) fn wall(head: &Head<f64>, across: Across, way: f64) -> Vec<Point> {
    let plug = &head.eye;
    let farthest = |z: f64| {
        let ([x, y], level) = (plug.centre(z), plug.at(z));
        match across {
            Across::Up => [x + way * level.p, y],
            Across::Wide => [x, y + way * level.q],
        }
    };
    let [low, high] = [-1.0, 1.0].map(|way| exit(head, way, &farthest));
    let mut stops = plug.joints();
    if plug.wall == Wall::Arc {
        stops.extend((0..=2 * WALL_STEPS).map(|k| {
            let share = k as f64 / WALL_STEPS as f64 - 1.0;
            let mouth = plug.mouths[usize::from(share > 0.0)];
            plug.waist_height + (mouth - plug.waist_height) * share.abs()
        }));
    }
    stops.retain(|z| low < *z && *z < high);
    stops.extend([low, high]);
    sort_few(&mut stops, |z| *z);
    stops.dedup();
    let along = 1 - across.axis();
    stops.iter().map(|z| [farthest(*z)[along], *z]).collect()
}
