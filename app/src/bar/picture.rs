//! The billet to scale with its marks, and its section.

use leptos::prelude::*;

use super::super::figure::{arrow, fraction};
use super::super::sheet::measure::width_of;
use super::super::state::Workspace;
use super::curve::end_word;
use headwright::bar::BarSection;
use headwright::design::Side;
use headwright::plan::{Mark, Marks, Place, Plan};
use headwright::units::{Length, System, show_length};

/// Width of the picture's frame, px, at most and at least, and the greatest height of the billet in it.
const WIDTH: f64 = 700.0;
const LEAST_WIDTH: f64 = 300.0;
const MOST_HIGH: f64 = 150.0;
/// Room at either side, and between billet and section, px, there and in a narrow frame.
const BESIDE: f64 = 14.0;
const GAP: f64 = 60.0;
const NARROW_GAP: f64 = 28.0;
/// Height of a row of words above the billet, and of a dimension line below it, px.
const WORDS: f64 = 24.0;
const LINE: f64 = 32.0;
/// Width of a letter of a word and of a figure, px.
const LETTER: f64 = 8.4;
const FIGURE: f64 = 13.0;

/// Width and height of a section, mm.
fn size(section: BarSection) -> (f64, f64) {
    match section {
        BarSection::Round { diameter } => (diameter.in_mm(), diameter.in_mm()),
        BarSection::Square { across, .. } => (across.in_mm(), across.in_mm()),
        BarSection::Rectangular { width, height, .. } => (width.in_mm(), height.in_mm()),
        BarSection::Octagonal { across_flats } => (across_flats.in_mm(), across_flats.in_mm()),
        BarSection::Hexagonal { across_flats } => {
            (across_flats.in_mm(), across_flats.in_mm() / HEXAGON)
        }
        // Drawn as the circle of its area.
        BarSection::OfArea { area_mm2 } => {
            let across = (4.0 / std::f64::consts::PI * area_mm2.max(0.0)).sqrt();
            (across, across)
        }
    }
}

/// What a corner of a regular octagon takes of its width across flats.
const OCTAGON_CORNER: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// Across flats over across corners of a regular hexagon.
const HEXAGON: f64 = 0.866_025_403_784_438_6;

/// Outline of the section in a box of `w` by `h` px whose upper left corner is (`x`, `y`), at
/// `scale` px to the mm.
fn outline(section: BarSection, [x, y]: [f64; 2], [w, h]: [f64; 2], scale: f64) -> String {
    match section {
        BarSection::Round { .. } | BarSection::OfArea { .. } => {
            let r = 0.5 * w;
            format!(
                "M{x} {cy}a{r} {r} 0 1 1 {w} 0a{r} {r} 0 1 1 -{w} 0z",
                cy = y + r
            )
        }
        BarSection::Octagonal { .. } => {
            let (c, m) = (w * OCTAGON_CORNER, w * (1.0 - 2.0 * OCTAGON_CORNER));
            format!(
                "M{} {y}h{m}l{c} {c}v{m}l-{c} {c}h-{m}l-{c} -{c}v-{m}z",
                x + c
            )
        }
        BarSection::Hexagonal { .. } => {
            let (half, quarter) = (0.5 * w, 0.25 * h);
            format!(
                "M{} {y}l{half} {quarter}v{}l-{half} {quarter}l-{half} -{quarter}v-{}z",
                x + half,
                2.0 * quarter,
                2.0 * quarter
            )
        }
        BarSection::Square { corner_radius, .. }
        | BarSection::Rectangular { corner_radius, .. } => {
            let r = (corner_radius.in_mm() * scale).clamp(0.0, 0.5 * w.min(h));
            let (across, up) = (w - 2.0 * r, h - 2.0 * r);
            format!(
                "M{} {y}h{across}a{r} {r} 0 0 1 {r} {r}v{up}a{r} {r} 0 0 1 -{r} {r}h-{across}a{r} {r} 0 0 1 -{r} -{r}v-{up}a{r} {r} 0 0 1 {r} -{r}z",
                x + r
            )
        }
    }
}

/// Edges that are seen on the side of the bar, as shares of its height.
fn edges(section: BarSection) -> &'static [f64] {
    match section {
        BarSection::Octagonal { .. } => &[OCTAGON_CORNER, 1.0 - OCTAGON_CORNER],
        BarSection::Hexagonal { .. } => &[0.25, 0.75],
        _ => &[],
    }
}

/// The word at a mark.
fn word(place: Place, from: Side) -> &'static str {
    match place {
        Place::Eye => "eye",
        // Read from the end that it is measured from.
        Place::Cheeks(side) if side == from => "cheeks begin",
        Place::Cheeks(_) => "cheeks end",
        Place::Neck(..) => "neck",
    }
}

/// The least row in which a word from `from` to `to` stands clear of those before it; `ends` are
/// the ends of the rows so far.
fn row(ends: &mut Vec<f64>, from: f64, to: f64) -> usize {
    const CLEAR: f64 = 10.0;
    let free = ends.iter().position(|end| *end + CLEAR <= from);
    let row = free.unwrap_or(ends.len());
    if row == ends.len() {
        ends.push(to);
    } else {
        ends[row] = to;
    }
    row
}

/// The billet with its marks, measured from the end at the left.
#[component]
pub fn Billet(
    /// How the bar becomes the head.
    plan: Signal<Option<Plan>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let host = NodeRef::<leptos::html::Div>::new();
    let width = width_of(host, WIDTH);
    let picture = move || {
        let system = workspace.system.get();
        let (section, ends) = workspace.design.with(|d| {
            let ends = Side::BOTH.map(|side| end_word(d, side));
            (d.bar.section, ends)
        });
        let marks = plan.with(|plan| plan.as_ref().map(|plan| plan.marks.clone()))?;
        // A narrow window gets a narrow picture with letters of the same size.
        let width = width.get().clamp(LEAST_WIDTH, WIDTH);
        Some(drawn(&marks, section, ends, width, system))
    };
    view! { <div node_ref=host>{picture}</div> }
}

fn drawn(
    marks: &Marks,
    section: BarSection,
    [front, back]: [&'static str; 2],
    width: f64,
    system: System,
) -> impl IntoView + use<> {
    let (across, high) = size(section);
    let long = marks.length_mm;
    let gap = if width < WIDTH { NARROW_GAP } else { GAP };
    let scale = ((width - gap - 2.0 * BESIDE) / (long + across)).min(MOST_HIGH / high);
    let (l, w, h) = (long * scale, across * scale, high * scale);
    let left = BESIDE;
    let right = left + l + gap;
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let placed: Vec<(&Mark, f64, usize, usize)> = marks
        .marks
        .iter()
        .map(|mark| {
            let x = left + mark.at_mm * scale;
            let half = 0.5 * LETTER * word(mark.place, marks.from).len() as f64;
            let figure = FIGURE * show_length(Length::mm(mark.at_mm), system).len() as f64;
            let words = row(&mut above, x - half, x + half);
            (mark, x, words, row(&mut below, x - figure - 12.0, x))
        })
        .collect();
    let top = WORDS * above.len() as f64 + 8.0;
    let bottom = top + h;
    let total = bottom + LINE * (below.len() + 1) as f64;
    let (first, last) = match marks.from {
        Side::Front => (front, back),
        Side::Back => (back, front),
    };
    let ends = [first, last].map(|end| format!("{end} end"));
    // The words of both ends share a row where they have room in it.
    let letters: usize = ends.iter().map(String::len).sum();
    let last_row = if LETTER * (letters + 2) as f64 > l {
        2.0
    } else {
        1.0
    };
    let height = total + (1.0 + last_row) * WORDS;
    let at = |mm: f64| super::words::length(mm, system);
    let said: Vec<String> = marks
        .marks
        .iter()
        .map(|mark| format!("{} at {}", word(mark.place, marks.from), at(mark.at_mm)))
        .collect();
    let label = format!(
        "The cut to scale: {} long, {} bar. Marks from the {first} end: {}",
        at(long),
        super::words::bar_section(section, system),
        said.join(", ")
    );
    let sides = edges(section)
        .iter()
        .map(|share| {
            let y = top + share * h;
            view! { <line class="bar-edge" x1=left x2=left + l y1=y y2=y /> }
        })
        .collect_view();
    let dots = placed.iter().map(|(mark, x, _, _)| {
        // One dot at the eye, two at everything else.
        let shares: &[f64] = if mark.place == Place::Eye {
            &[0.5]
        } else {
            &[0.2, 0.8]
        };
        shares
            .iter()
            .map(|share| view! { <circle class="punched" cx=*x cy=top + share * h r="5.5" /> })
            .collect_view()
    });
    let lines = placed.iter().map(|(mark, x, words, line)| {
        let y = bottom + LINE * (line + 1) as f64;
        let name = WORDS * (above.len() - words) as f64 - 8.0;
        view! {
            <path class="mark-line" d=format!("M{x} {top}V{bottom}") />
            <text class="word" x=*x y=name text-anchor="middle">{word(mark.place, marks.from)}</text>
            <path class="dim" d=format!("M{x} {}V{}M{left} {y}H{x}", bottom + 3.0, y + 6.0) />
            <path class="arrow" d=arrow(*x, y, 1.0, 0.0) />
            <text class="size" x=x - 12.0 y=y - 6.0 text-anchor="end">{fraction(mark.at_mm, system)}</text>
        }
    });
    let (dots, lines) = (dots.collect_view(), lines.collect_view());
    let origins = (0..below.len())
        .map(|line| {
            let y = bottom + LINE * (line + 1) as f64;
            view! { <circle class="origin" cx=left cy=y r="3.5" /> }
        })
        .collect_view();
    let frame = (right + w + BESIDE).max(width);
    let [first, last] = ends;
    view! {
        <figure class="bar-picture">
            <svg viewBox=format!("0 0 {frame} {height}") role="img" aria-label=label>
                <rect class="bar-body" x=left y=top width=l height=h />
                {sides}
                <path class="bar-section" d=outline(section, [right, top], [w, h], scale) />
                {lines}
                {dots}
                {origins}
                {across_dim([left, left + l], bottom, total, long, system)}
                {across_dim([right, right + w], bottom, bottom + LINE, across, system)}
                <text class="word" x=left y=total + WORDS>{first}</text>
                <text class="word" x=left + l y=total + last_row * WORDS text-anchor="end">{last}</text>
            </svg>
        </figure>
    }
}

/// A size across, its line at `y`.
fn across_dim(
    [from, to]: [f64; 2],
    below: f64,
    y: f64,
    mm: f64,
    system: System,
) -> impl IntoView + use<> {
    let lines = format!(
        "M{from} {b}V{e}M{to} {b}V{e}M{from} {y}H{to}",
        b = below + 3.0,
        e = y + 6.0
    );
    view! {
        <path class="dim" d=lines />
        <path class="arrow" d=arrow(from, y, -1.0, 0.0) />
        <path class="arrow" d=arrow(to, y, 1.0, 0.0) />
        <text class="size" x=0.5 * (from + to) y=y - 6.0 text-anchor="middle">
            {fraction(mm, system)}
        </text>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_octagon_drawn_has_eight_equal_sides() {
        let side = 1.0 - 2.0 * OCTAGON_CORNER;
        let slant = OCTAGON_CORNER * std::f64::consts::SQRT_2;
        assert!((side - slant).abs() < 1e-12);
    }

    #[test]
    fn words_that_would_touch_go_to_another_row() {
        let mut ends = Vec::new();
        assert_eq!(row(&mut ends, 0.0, 60.0), 0);
        assert_eq!(row(&mut ends, 50.0, 90.0), 1);
        assert_eq!(row(&mut ends, 80.0, 120.0), 0);
        assert_eq!(row(&mut ends, 95.0, 130.0), 2);
    }
}
