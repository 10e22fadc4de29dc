//! The drawing on a sheet: a place for every size.

use super::board::{Board, THROUGH};
use super::dimension::{Dimension, Form, Key, Lane};
use super::frame::{BEYOND_AXIS, Frame, MARGIN, Metrics, frame, is_whole, shapes, views};
use super::laid::{Laid, LaidShape, LaidSize, Mark, Note, Rect, Segment, Setting};
use super::place::{LineKind, Placed, Search, candidates, word};
use super::value::{State, width};
use super::{Drawing, Point, Show, View};
use crate::numeric::order::{order, sort_few};

/// Extension lines that begin this near each other, px, may share their beginning.
const FAR_BEGIN: f64 = 1.0;
/// A press area is at least this wide and high.
const PRESS: f64 = 44.0;
/// Below this width the remark on the half plan is left out.
const NOTE_FROM: f64 = 860.0;

/// Lays a drawing out on a sheet.
///
/// Places are found by rule: every size has an ordered list of places (lanes 34 px off the
/// outline and then 50 px further, nudged along their line; leaders in a fan of directions); of
/// those the one with the least cost is taken, where a text on another text costs more than
/// everything else together. Lanes and a last row of shelves below the drawing go on as far as
/// needed, so that a free place always exists and the sheet grows in height instead.
pub fn layout(drawing: &Drawing, setting: &Setting) -> Laid {
    let metrics = Metrics::new(setting.style);
    let shown: Vec<&Dimension> = drawing.shown(setting.show).collect();
    let views = views(setting, &shown);
    let frame = frame(drawing, setting, &shown, &views, metrics);
    let mut shapes = shapes(drawing, &frame, &views);
    let mut board = Board::new(setting.width, &shapes);
    let mut notes = Vec::new();
    let halved = !is_whole(&drawing.extent(View::Plan));
    if views.len() == 3 && setting.width >= NOTE_FROM && halved {
        notes.push(note(drawing, &frame));
        board.keep_clear(note_rect(&notes[0], metrics));
    }
    let mut placed: Vec<Option<Placed>> = vec![None; shown.len()];
    let ranks: Vec<f64> = shown.iter().map(|size| rank(size, &views)).collect();
    for index in order(&ranks) {
        let straw = is_in_hand(shown[index], setting.show) && setting.field.is_none();
        let find = |search| board.best(candidates(shown[index], &frame, &views, straw, search));
        let mut best = find(Search::Near);
        if best.as_ref().is_none_or(|(cost, _)| *cost >= THROUGH) {
            best = find(Search::Far);
        }
        let best = best.map(|(_, place)| place);
        if let Some(best) = &best {
            board.add(best);
        }
        placed[index] = best;
    }
    share_extensions(&mut placed);
    let mut sizes: Vec<LaidSize> = shown
        .iter()
        .zip(placed)
        .filter_map(|(dimension, placed)| Some(laid(dimension, placed?, setting.show)))
        .collect();
    let mut field = setting
        .field
        .and_then(|size| field(&sizes, size, setting.width));
    let drop = setting.still.map_or_else(
        || drop(&shapes, &sizes, &notes, field, setting.title),
        |still| still.down,
    );
    let mut bottom: f64 = 0.0;
    let mut lower = |point: &mut Point| {
        point[1] += drop;
        bottom = bottom.max(point[1]);
    };
    for shape in &mut shapes {
        shape.points.iter_mut().for_each(&mut lower);
    }
    for note in &mut notes {
        lower(&mut note.at);
    }
    for size in &mut sizes {
        for line in size.lines.iter_mut().chain(&mut size.arrows) {
            lower(&mut line.from);
            lower(&mut line.to);
        }
        size.dot.iter_mut().for_each(&mut lower);
        lower(&mut size.text.at);
        for rect in [&mut size.text.rect, &mut size.press] {
            rect.y += drop;
        }
        let mut corner = [0.0, size.text.rect.y + size.text.rect.h - drop];
        lower(&mut corner);
    }
    if let Some(rect) = &mut field {
        rect.y += drop;
        bottom = bottom.max(rect.y + rect.h);
    }
    Laid {
        width: setting.width,
        height: (bottom + MARGIN).ceil(),
        still: frame.still(drop),
        figures: metrics.figures,
        words: metrics.words,
        shapes,
        sizes,
        notes,
        field,
    }
}

/// Lets an extension line begin where a shorter one on it ends: drawn twice it would be wide.
fn share_extensions(placed: &mut [Option<Placed>]) {
    /// Two lines are one when they are this near, px.
    const SAME: f64 = 0.6;
    let mut lines: Vec<&mut Segment> = placed
        .iter_mut()
        .flatten()
        .flat_map(|place| &mut place.lines)
        .filter(|(kind, _)| *kind == LineKind::Extension)
        .map(|(_, line)| line)
        .collect();
    let length = |line: &Segment| (line.to[0] - line.from[0]).hypot(line.to[1] - line.from[1]);
    sort_few(&mut lines, |line| length(line));
    for longer in 1..lines.len() {
        let (shorter, rest) = lines.split_at_mut(longer);
        let line = &mut *rest[0];
        for other in shorter.iter().rev() {
            let axis = usize::from((line.to[1] - line.from[1]).abs() > SAME);
            let same = (other.from[1 - axis] - line.from[1 - axis]).abs() < SAME
                && (other.to[1 - axis] - line.to[1 - axis]).abs() < SAME;
            let way = (line.to[axis] - line.from[axis]).signum();
            let within = |at: f64| (at - line.from[axis]) * way >= -SAME;
            if same
                && within(other.from[axis])
                && (line.to[axis] - other.to[axis]) * way > 0.0
                && within(other.to[axis])
            {
                let begins = (other.from[axis] - line.from[axis]).abs();
                // Between the two beginnings there would be a gap: only a near one is shared.
                if begins < FAR_BEGIN {
                    line.from[axis] = other.to[axis];
                }
                break;
            }
        }
    }
}

fn is_in_hand(dimension: &Dimension, show: Show) -> bool {
    match dimension.key {
        Key::Size(dim) => show.in_hand == Some(dim),
        Key::Balance | Key::Overall => false,
    }
}

/// Which sizes look for their place first: the small before the large in the lanes, leaders
/// after all lanes, for they can go round.
fn rank(dimension: &Dimension, views: &[View]) -> f64 {
    let form = dimension
        .forms
        .iter()
        .find(|(view, _)| views.contains(view));
    let span = |between: &[Point; 2], axis: usize| (between[1][axis] - between[0][axis]).abs();
    match form.map(|(_, form)| form) {
        Some(Form::Balance { .. }) => 0.0,
        Some(Form::Level {
            lane: Lane::Inside(_),
            ..
        }) => 1.0,
        Some(Form::Half { .. }) => 2.0,
        Some(Form::Upright {
            lane: Lane::Inside(_),
            ..
        }) => 3.0,
        Some(Form::Upright { between, .. }) => 1e3 + span(between, 1),
        Some(Form::Level { between, .. }) => 2e3 + span(between, 0),
        Some(Form::Leader { .. }) | None => 1e4,
    }
}

const NOTE: [&str; 2] = ["half plan, from above;", "the other half is alike"];
/// Distance of the baselines of a remark, px.
const NOTE_LINE: f64 = 19.0;

fn note(drawing: &Drawing, frame: &Frame) -> Note {
    let plan = drawing.extent(View::Plan);
    // On the side of the face view, where there is room above or below it.
    let x = if frame.way < 0.0 {
        frame.plan[0] + plan.high[0] * frame.scale + 2.0 * BEYOND_AXIS + 4.0
    } else {
        frame.face[0] + drawing.extent(View::Face).low[0] * frame.scale
    };
    let middle = frame.plan[1] + frame.way * plan.high[1] * frame.scale * 0.6;
    Note {
        at: [x, middle],
        lines: NOTE.to_vec(),
    }
}

fn note_rect(note: &Note, metrics: Metrics) -> Rect {
    let wide = note
        .lines
        .iter()
        .map(|line| width(line))
        .fold(0.0, f64::max);
    Rect {
        x: note.at[0],
        y: note.at[1] - metrics.words,
        w: wide * metrics.words,
        h: NOTE_LINE * note.lines.len() as f64,
    }
}

fn laid(dimension: &Dimension, placed: Placed, show: Show) -> LaidSize {
    let in_hand = is_in_hand(dimension, show);
    let mark = match &dimension.state {
        _ if in_hand => Mark::InHand,
        State::Free { .. } => Mark::Free,
        State::Locked => Mark::Locked,
        State::Held(_) => Mark::Held,
        State::Problem(_) => Mark::Problem,
        State::Derived => Mark::None,
    };
    let rect = placed.text.rect;
    let grow = |size: f64| (PRESS - size).max(0.0) / 2.0;
    let press = Rect {
        x: rect.x - grow(rect.w),
        y: rect.y - grow(rect.h),
        w: rect.w.max(PRESS),
        h: rect.h.max(PRESS),
    };
    LaidSize {
        key: dimension.key,
        value: dimension.value.clone(),
        state: dimension.state.clone(),
        mark,
        word: word(dimension, in_hand),
        spoken: dimension.spoken.clone(),
        in_hand,
        lines: placed.lines.into_iter().map(|(_, line)| line).collect(),
        arrows: placed.arrows,
        dot: placed.dot,
        text: placed.text,
        press,
    }
}

/// How far the field looks for a free place, in steps of this, px.
const FIELD_STEP: f64 = 24.0;
const FIELD_STEPS: i32 = 8;

/// The place of the field of the size in hand: on its text, or as near to it as no other text is
/// covered.
fn field(sizes: &[LaidSize], [w, h]: [f64; 2], wide: f64) -> Option<Rect> {
    let own = sizes.iter().find(|size| size.in_hand)?.text.rect;
    let middle = [own.x + own.w / 2.0, own.y + own.h / 2.0];
    let mut best: Option<(f64, Rect)> = None;
    for right in -FIELD_STEPS..=FIELD_STEPS {
        for down in -FIELD_STEPS..=FIELD_STEPS {
            let (dx, dy) = (f64::from(right) * FIELD_STEP, f64::from(down) * FIELD_STEP);
            let x = middle[0] + dx - w / 2.0;
            let rect = Rect {
                x: x.clamp(MARGIN, (wide - MARGIN - w).max(MARGIN)),
                y: middle[1] + dy - h / 2.0,
                w,
                h,
            };
            let others = sizes.iter().filter(|size| !size.in_hand);
            let covered: f64 = others
                .filter_map(|size| rect.overlap(&size.text.rect.grown(4.0)))
                .sum();
            // Downwards is where sheets have room.
            let far = dx.hypot(dy) + if dy < 0.0 { 10.0 } else { 0.0 };
            let cost = covered * 100.0 + far;
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, rect));
            }
        }
    }
    best.map(|(_, rect)| rect)
}

/// How far everything goes down so that it clears the upper edge and the title.
fn drop(
    shapes: &[LaidShape],
    sizes: &[LaidSize],
    notes: &[Note],
    field: Option<Rect>,
    title: [f64; 2],
) -> f64 {
    let mut top = [f64::INFINITY; 2];
    let mut meet = |x: f64, y: f64| {
        top[0] = top[0].min(y);
        if x < title[0] {
            top[1] = top[1].min(y);
        }
    };
    for point in shapes.iter().flat_map(|shape| &shape.points) {
        meet(point[0], point[1]);
    }
    for size in sizes {
        for line in &size.lines {
            meet(line.from[0].min(line.to[0]), line.from[1].min(line.to[1]));
        }
        meet(size.text.rect.x, size.text.rect.y);
    }
    for note in notes {
        meet(note.at[0], note.at[1] - NOTE_LINE);
    }
    if let Some(rect) = field {
        meet(rect.x, rect.y);
    }
    let over = MARGIN - top[0];
    if top[1].is_finite() {
        over.max(title[1] - top[1])
    } else {
        over
    }
}
