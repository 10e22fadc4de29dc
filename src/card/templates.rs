//! The templates of a head: the marks along the bar, its last drift, its eye, gauges for what strikes.

use super::ink::{Anchor, Pen, Point, dot};
use super::letters::{Font, width};
use super::template::{LINE_MM, Template, label};
use super::views::LETTERS_MM;
use super::words::{at_end, length};
use crate::design::Side;
use crate::drift::{Plan as Drifts, Profile};
use crate::plan::{Marks, Place};
use crate::solid::{Cap, Pein, Solid, Tail, Tip};
use crate::units::{System, show_caliper, unit_word};

/// Width of the strip that is laid along the bar, mm.
const STRIP_MM: f64 = 18.0;
/// From a strip to what is written at its marks, mm.
const LEADER_MM: f64 = 6.0;
/// Room over the outlines of a drift for what they show, mm.
const WORD_MM: f64 = 6.0;
/// How far the mark of a drift stands out of its outline, mm.
const OVERHANG_MM: f64 = 3.0;
/// Card that is left around the hollow of a gauge, mm.
const AROUND_MM: f64 = 8.0;
/// How far, in mm, the chords of a gauge may lie off its curve.
const CHORD_MM: f64 = 0.01;
/// A gauge of a ball reaches this far to either side of its pole, degrees.
const BALL_DEGREES: f64 = 70.0;
/// A gauge of a nose goes on for this far along its slopes, mm.
const SLOPE_MM: f64 = 12.0;
/// A gauge of a pein reaches this far back from its tip, mm.
const PEIN_MM: f64 = 60.0;

/// The strip that is laid along the bar: a line and dots at every mark, one dot at the eye.
pub(super) fn strip(solid: &Solid, marks: &Marks, system: System) -> Template {
    let long = marks.length_mm;
    let mut lines = vec![
        (
            Some("strip left".to_owned()),
            Pen::Narrow,
            vec![[0.0, 0.0], [0.0, long]],
        ),
        (None, Pen::Narrow, vec![[STRIP_MM, 0.0], [STRIP_MM, long]]),
        (
            Some("strip end".to_owned()),
            Pen::Narrow,
            vec![[0.0, 0.0], [STRIP_MM, 0.0]],
        ),
        (
            Some("strip end".to_owned()),
            Pen::Narrow,
            vec![[0.0, long], [STRIP_MM, long]],
        ),
    ];
    let mut whole = Vec::new();
    let mut said = vec![(0.0, format!("0: {}", at_end(solid, marks.from)))];
    for mark in &marks.marks {
        let at = mark.at_mm;
        let row = vec![[0.0, at], [STRIP_MM, at]];
        lines.push((Some("mark".to_owned()), Pen::Narrow, row));
        let shares: &[f64] = if mark.place == Place::Eye {
            &[0.5]
        } else {
            &[0.25, 0.75]
        };
        whole.extend(shares.iter().map(|share| dot([share * STRIP_MM, at], 0.8)));
        said.push((
            at,
            format!("{}: {}", length(at, system), mark.place.words()),
        ));
    }
    said.push((
        long,
        format!(
            "{}: {}",
            length(long, system),
            at_end(solid, marks.from.other())
        ),
    ));
    let (mut foot, mut wide) = (long, 0.0_f64);
    let mut down = f64::NEG_INFINITY;
    let text_at = STRIP_MM + LEADER_MM;
    for (at, words) in said {
        down = (down + LINE_MM).max(at.max(1.0) + 1.3);
        lines.push((
            None,
            Pen::Hair,
            vec![[STRIP_MM, at], [text_at - 1.0, down - 1.3]],
        ));
        whole.push(label(&words, [text_at, down], Anchor::Start));
        foot = foot.max(down + 1.0);
        wide = wide.max(width(&words, Font::Plain) * LETTERS_MM);
    }
    Template {
        name: format!(
            "Marks along the bar, 1 : 1, in {}. Centre-punch them: chalk burns off.",
            unit_word(system)
        ),
        size: [text_at + wide, foot],
        lines,
        whole,
    }
}

/// The last drift from both sides, and the eye that it leaves; once where both mouths are alike.
pub(super) fn drifts(plan: &Drifts, system: System) -> Vec<Template> {
    let [top, bottom] = &plan.profiles;
    let from: Vec<(&Profile, &str)> = if top.is_as(bottom) {
        vec![(top, "either mouth")]
    } else {
        vec![(top, "the top mouth"), (bottom, "the bottom mouth")]
    };
    let templates = from.into_iter().flat_map(|(profile, mouth)| {
        [
            drift(plan, profile, mouth, system),
            eye(plan, profile, mouth),
        ]
    });
    templates.collect()
}

/// Its length and its width side by side, with marks through both.
fn drift(plan: &Drifts, profile: &Profile, mouth: &str, system: System) -> Template {
    let end = profile.length_mm();
    let (mut lines, mut whole) = (Vec::new(), Vec::new());
    let mut right = 0.0;
    for (row, word) in [
        (&profile.length_plane, "length"),
        (&profile.width_plane, "width"),
    ] {
        let half = row.iter().fold(0.0, |most: f64, [_, half]| most.max(*half));
        let room = half.max(0.5 * width(word, Font::Plain) * LETTERS_MM);
        let middle = right + OVERHANG_MM + room;
        let side = |way: f64| -> Vec<Point> {
            row.iter()
                .map(|[along, half]| [middle + way * half, WORD_MM + along])
                .collect()
        };
        let called = format!("drift {word}");
        lines.extend([
            (Some(called.clone()), Pen::Narrow, side(-1.0)),
            (Some(called), Pen::Narrow, side(1.0)),
            (
                None,
                Pen::Centre,
                vec![[middle, WORD_MM], [middle, WORD_MM + end]],
            ),
        ]);
        whole.push(label(word, [middle, WORD_MM - 1.8], Anchor::Middle));
        right = middle + room + OVERHANG_MM;
    }
    let mut wide = 0.0_f64;
    let mut down = f64::NEG_INFINITY;
    for cut in &profile.sections {
        let at = WORD_MM + cut.at_mm;
        lines.push((None, Pen::Narrow, vec![[0.0, at], [right, at]]));
        let words = if cut.at_mm == 0.0 {
            cut.name.to_owned()
        } else {
            format!("{} {}", cut.name, show_caliper(cut.at_mm, system))
        };
        let size = cut.size.words(system);
        for words in [words, size] {
            down = (down + LINE_MM).max(at + 1.3);
            whole.push(label(&words, [right + 1.5, down], Anchor::Start));
            wide = wide.max(width(&words, Font::Plain) * LETTERS_MM);
        }
    }
    Template {
        name: format!(
            "Last drift, 1 : 1, in {}, from {mouth}, {}. Finished eye {} cold.",
            unit_word(system),
            plan.made_hot(system),
            plan.finished_eye(system)
        ),
        size: [right + 1.5 + wide, (WORD_MM + end).max(down + 1.0)],
        lines,
        whole,
    }
}

/// The finished eye, which is smaller than its hot drift.
fn eye(plan: &Drifts, profile: &Profile, mouth: &str) -> Template {
    let cold = (1.0 + plan.growth).recip();
    let [at_mouth, waist, _] = &profile.sections;
    let most =
        |k: fn(&crate::drift::SectionSize) -> f64| cold * k(&at_mouth.size).max(k(&waist.size));
    let size = [most(|size| size.length_mm), most(|size| size.width_mm)];
    let outline = |cut: &crate::drift::CutOutline| -> Vec<Point> {
        let points = cut.outline.iter().chain(cut.outline.first());
        points
            .map(|[x, y]| [0.5 * size[0] + cold * x, 0.5 * size[1] - cold * y])
            .collect()
    };
    Template {
        name: format!("Finished eye, cold, at {mouth}, waist dashed"),
        size,
        lines: vec![
            (Some("eye mouth".to_owned()), Pen::Narrow, outline(at_mouth)),
            (Some("eye waist".to_owned()), Pen::Hidden, outline(waist)),
        ],
        whole: Vec::new(),
    }
}

/// Gauges for both ends: hollows to be cut out of card and laid on the steel.
pub(super) fn gauges(solid: &Solid, system: System) -> Vec<Template> {
    Side::BOTH
        .into_iter()
        .flat_map(|side| of_end(solid.head().end(side), side.word(), system))
        .collect()
}

fn of_end(tail: &Tail<f64>, side: &str, system: System) -> Vec<Template> {
    let length = |mm: f64| format!("{} {}", length(mm, system), unit_word(system));
    match &tail.tip {
        Tip::Face(cap) if cap.curvature > 0.0 => {
            let radius = cap.curvature.recip();
            let name = format!("Gauge: {side} crown R {}", length(radius));
            vec![gauge(name, format!("{side} crown"), crown(cap))]
        }
        Tip::Face(_) => Vec::new(),
        Tip::Ball(ball) => {
            let name = format!("Gauge: {side} ball R {}", length(ball.radius));
            let half = (ball.radius * BALL_DEGREES.to_radians().sin()).min(ball.radius);
            vec![gauge(name, format!("{side} ball"), arc(ball.radius, half))]
        }
        Tip::Pein(pein) => {
            let nose = format!("Gauge: {side} nose R {}", length(pein.nose));
            let slopes = format!(
                "Gauge: {side} pein, last {}",
                length(PEIN_MM.min(pein.length()))
            );
            let mut gauges = vec![
                gauge(
                    nose,
                    format!("{side} nose"),
                    slab(tail, pein, pein.nose + SLOPE_MM),
                ),
                gauge(slopes, format!("{side} pein"), slab(tail, pein, PEIN_MM)),
            ];
            if pein.rocker > 0.0 {
                let radius = pein.rocker.recip();
                let name = format!("Gauge: {side} edge, rocker R {}", length(radius));
                let half = pein.half_edge - pein.corner_break;
                gauges.push(gauge(name, format!("{side} rocker"), arc(radius, half)));
            }
            gauges
        }
    }
}

/// The crown across the longer way of its face.
fn crown(cap: &Cap<f64>) -> Vec<Point> {
    arc(cap.curvature.recip(), cap.outline.a.max(cap.outline.b))
}

/// An arc of `radius` up to `half` to either side: (across, depth below its top).
fn arc(radius: f64, half: f64) -> Vec<Point> {
    let turn = (half / radius).min(1.0).asin();
    // A chord of angle φ leaves its circle by r φ²/8.
    // Both halves alike, so that one point is the top.
    let half_steps = (turn / (8.0 * CHORD_MM / radius).sqrt()).ceil().max(2.0);
    let steps = 2 * half_steps as usize;
    let at = |step: usize| {
        let (sin, cos) = (turn * (2.0 * step as f64 / steps as f64 - 1.0)).sin_cos();
        [radius * sin, radius * (1.0 - cos)]
    };
    (0..=steps).map(at).collect()
}

/// The pein in the plane of its edge’s middle, from its tip back by `depth` at most: (across the edge, depth below the
/// tip), with the fall of its end.
fn slab(tail: &Tail<f64>, pein: &Pein<f64>, depth: f64) -> Vec<Point> {
    const STEPS: u32 = 96;
    let from = depth.min(pein.length());
    // Steps grow with the square: close at the nose, where the curve is.
    let back = |step: u32| from * (f64::from(step) / f64::from(STEPS)).powi(2);
    let fall = |u: f64| (tail.drop.at(u) - tail.drop.at(pein.reach)) * pein.direction[0];
    let [cos, sin] = pein.direction;
    let chord = pein.section.radius_towards(sin.abs(), cos.abs());
    let at = |way: f64, step: u32| {
        let u = pein.reach - back(step);
        // The slab is cut out of the arm, which may be thinner there.
        let half = pein.thickness(u).min(chord * pein.growth(u));
        [way * half + fall(u), back(step)]
    };
    let left = (0..=STEPS).rev().map(|step| at(-1.0, step));
    left.chain((1..=STEPS).map(|step| at(1.0, step))).collect()
}

/// The card around a hollow: `profile` from left to right, each point (across, depth below the top of the hollow).
fn gauge(name: String, called: String, profile: Vec<Point>) -> Template {
    let (low, high) = profile
        .iter()
        .fold((0.0_f64, 0.0_f64), |(low, high), [x, _]| {
            (low.min(*x), high.max(*x))
        });
    let placed: Vec<Point> = profile
        .iter()
        .map(|[x, y]| [x - low + AROUND_MM, y + AROUND_MM])
        .collect();
    let wide = high - low + 2.0 * AROUND_MM;
    let foot = |at: Option<&Point>| at.map_or(0.0, |[_, y]| *y);
    let (left, right) = (foot(placed.first()), foot(placed.last()));
    let mut around = vec![[wide, right], [wide, 0.0], [0.0, 0.0], [0.0, left]];
    around.extend(placed.first());
    around.splice(0..0, placed.last().copied());
    Template {
        name,
        size: [wide, left.max(right)],
        lines: vec![
            (Some(called), Pen::Narrow, placed),
            (None, Pen::Narrow, around),
        ],
        whole: Vec::new(),
    }
}
