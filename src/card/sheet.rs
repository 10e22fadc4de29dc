//! The pages of a card: heads of pages, the first page's upper part, what follows in columns, templates.

use super::column::{Column, flow};
use super::ink::{Anchor, Ink, Page, Pen, Point, dot, frame, lines, moved, named, text};
use super::letters::{Font, width, wrapped};
use super::qr::Code;
use super::views::{LETTERS_MM, full_size, views};
use super::words::{at_end, length};
use super::{
    CHECK_LINE_MM, Known, MARGIN_MM, Paper, ROOM_FOR_CODE_MM, sections, template, templates,
};
use crate::design::Design;
use crate::plan::Place;
use crate::solid::Solid;
use crate::units::{System, show_mass, unit_word};

/// From the upper margin to what stands below the head of a page that is not the first, mm.
const HEAD_MM: f64 = 21.0;
/// Between templates and the columns below them, mm.
const BELOW_MM: f64 = 7.0;
/// Between the columns, mm.
const GUTTER_MM: f64 = 7.0;
/// The views take no more height than this on the first page, mm.
const VIEWS_MM: f64 = 96.0;
/// Room right of the bar for the cut, mm.
const CUT_MM: f64 = 60.0;
/// A drawing's page is at least this wide between its margins: its check line and what is said of it, mm.
const LEAST_DRAWING_MM: f64 = 186.0;
/// Size of the one big number, mm.
const BIG_MM: f64 = 12.0;

/// All pages of the card.
pub(super) fn pages(known: &Known, paper: Paper) -> Vec<Page> {
    let size = paper.size_mm();
    let wide = size[0] - 2.0 * MARGIN_MM;
    let high = size[1] - 2.0 * MARGIN_MM;
    let code = known
        .link
        .as_ref()
        .and_then(|link| Code::of(link.as_ref().ok()?, ROOM_FOR_CODE_MM));
    let beside = code
        .as_ref()
        .filter(|code| code.least_mm() <= ROOM_FOR_CODE_MM);
    let mut first = Vec::new();
    let mut down = title(known, wide, &mut first);
    let rule = down;
    down += 9.0;
    down += seen(known, wide, down, beside, &mut first);
    down += cut(known, wide, down, &mut first);
    let column = 0.5 * (wide - GUTTER_MM);
    let elsewhere = if beside.is_some() {
        None
    } else {
        code.as_ref()
    };
    let mut all = vec![templates::strip(
        known.solid,
        &known.plan.marks,
        known.system,
    )];
    if let Ok(drifts) = &known.drifts {
        all.extend(templates::drifts(drifts, known.system));
    }
    all.extend(templates::gauges(known.solid, known.system));
    let set = template::set(all, [wide, high - HEAD_MM]);
    // Columns of the shop sheet, and what the templates leave of their pages.
    let columns = |shop: usize| -> Vec<Column> {
        let of_shop = (0..shop).map(|page| if page == 0 { down } else { HEAD_MM });
        let below = set.iter().map(|(_, taken)| HEAD_MM + taken + BELOW_MM);
        let pages = of_shop.chain(below).enumerate();
        pages
            .flat_map(|(page, down)| {
                [0.0, 0.5 * (wide + GUTTER_MM)].map(|left| Column {
                    page,
                    left,
                    down,
                    foot: high,
                })
            })
            .collect()
    };
    let sections = sections::all(known, column, elsewhere);
    let (of_templates, mut inks) = flow(sections, high - HEAD_MM, columns);
    inks[0].splice(0..0, first);
    for (page, (templates, _)) in set.into_iter().enumerate() {
        inks[of_templates + page].extend(moved(templates, [0.0, HEAD_MM]));
    }
    let count = inks.len();
    let page = |(index, own): (usize, Vec<Ink>)| {
        let what = if index < of_templates {
            "shop sheet"
        } else {
            "templates, 1 : 1"
        };
        let title = format!("{}, {what}, {} of {count}", known.name(), index + 1);
        let mut inks = Vec::new();
        if index > 0 {
            name(known, what, wide, &mut inks);
        }
        let at = if index > 0 { 9.0 } else { rule };
        check(at, wide, &format!("{} of {count}", index + 1), &mut inks);
        inks.extend(own);
        Page {
            title,
            size,
            inks: moved(inks, [MARGIN_MM; 2]).collect(),
        }
    };
    inks.into_iter().enumerate().map(page).collect()
}

/// Name, date, weight and balance; what they take.
fn title(known: &Known, wide: f64, inks: &mut Vec<Ink>) -> f64 {
    const NUMBER_MM: f64 = 7.4;
    const APART_MM: f64 = 8.0;
    let system = known.system;
    let balance = known.mass.centroid[0];
    let about = length(balance.abs(), system);
    let towards = match about.as_str() {
        "0" => "balance",
        _ if balance < 0.0 => "balance, to the back",
        _ => "balance, to the front",
    };
    let mut right = wide;
    for (label, number) in [
        (towards, format!("{about} {}", unit_word(system))),
        ("finished weight", show_mass(known.mass.mass, system)),
    ] {
        let needs =
            (width(label, Font::Plain) * LETTERS_MM).max(width(&number, Font::Bold) * NUMBER_MM);
        let left = right - needs;
        inks.push(text(
            label,
            Font::Plain,
            LETTERS_MM,
            [left, 3.6],
            Anchor::Start,
        ));
        inks.push(text(
            &number,
            Font::Bold,
            NUMBER_MM,
            [left, 11.2],
            Anchor::Start,
        ));
        right = left - APART_MM;
    }
    let name = known.name();
    let large = 8.4;
    let mut down;
    if width(&super::letters::set(name, Font::Heading), Font::Heading) * large <= right {
        inks.push(text(name, Font::Heading, large, [0.0, 7.2], Anchor::Start));
        down = 7.2;
    } else {
        down = -1.0;
        for line in wrapped(name, Font::Heading, 5.4, right) {
            down += 5.9;
            inks.push(text(&line, Font::Heading, 5.4, [0.0, down], Anchor::Start));
        }
    }
    let units = match system {
        System::Metric => "mm",
        System::Imperial => "inches",
    };
    let day = known.date;
    let after = if day.is_empty() { "" } else { " · " };
    let said = format!("{day}{after}sizes in {units}, cold unless said");
    for line in wrapped(&said, Font::Plain, LETTERS_MM, right) {
        down += 5.6;
        inks.push(text(
            &line,
            Font::Plain,
            LETTERS_MM,
            [0.0, down],
            Anchor::Start,
        ));
    }
    down.max(12.6) + 3.4
}

/// The name over a page that is not the first.
fn name(known: &Known, what: &str, wide: f64, inks: &mut Vec<Ink>) {
    let words = super::letters::set(known.name(), Font::Heading);
    let beside = width(what, Font::Plain) * LETTERS_MM;
    let room = wide - beside - 6.0;
    let size = (room / width(&words, Font::Heading).max(1e-6)).min(6.0);
    inks.push(text(&words, Font::Heading, size, [0.0, 5.4], Anchor::Start));
    inks.push(text(
        what,
        Font::Plain,
        LETTERS_MM,
        [wide, 5.4],
        Anchor::End,
    ));
}

/// The line that shows whether the page is printed at its size: 100 mm, divided as a rule is.
fn check(at: f64, wide: f64, number: &str, inks: &mut Vec<Ink>) {
    inks.push(named(
        "check line",
        Pen::Wide,
        vec![[0.0, at], [CHECK_LINE_MM, at]],
    ));
    let tick = |mm: u32| {
        let long = if mm.is_multiple_of(10) {
            3.2
        } else if mm.is_multiple_of(5) {
            2.2
        } else {
            1.3
        };
        vec![[f64::from(mm), at], [f64::from(mm), at + long]]
    };
    inks.push(lines(
        Pen::Narrow,
        (0..=CHECK_LINE_MM as u32).map(tick).collect(),
    ));
    let words = "measure this: 100 mm. Print at 100 %.";
    inks.push(text(
        words,
        Font::Plain,
        LETTERS_MM,
        [CHECK_LINE_MM + 3.0, at + 3.2],
        Anchor::Start,
    ));
    inks.push(text(
        number,
        Font::Plain,
        LETTERS_MM,
        [wide, at + 3.2],
        Anchor::End,
    ));
}

/// The views, and beside them the link; what they take.
fn seen(known: &Known, wide: f64, down: f64, code: Option<&Code>, inks: &mut Vec<Ink>) -> f64 {
    let taken = if code.is_some() {
        ROOM_FOR_CODE_MM + 4.0
    } else {
        0.0
    };
    let seen = views(
        known.design,
        known.solid,
        known.system,
        [wide - taken, VIEWS_MM],
    );
    let [_, high] = seen.size;
    inks.extend(moved(seen.inks, [0.0, down]));
    let caption = format!("views at {}", seen.scale);
    inks.push(text(
        &caption,
        Font::Plain,
        LETTERS_MM,
        [0.0, down + high + 4.6],
        Anchor::Start,
    ));
    symbol(
        [
            width(&caption, Font::Plain) * LETTERS_MM + 4.0,
            down + high + 3.2,
        ],
        inks,
    );
    let mut takes = high + 8.0;
    if let Some(code) = code {
        let left = wide - ROOM_FOR_CODE_MM;
        inks.push(code.ink([left, down], ROOM_FOR_CODE_MM));
        let middle = left + 0.5 * ROOM_FOR_CODE_MM;
        let mut foot = down + ROOM_FOR_CODE_MM - 2.2;
        for line in wrapped(code.caption(), Font::Plain, LETTERS_MM, ROOM_FOR_CODE_MM) {
            foot += 5.2;
            inks.push(text(
                &line,
                Font::Plain,
                LETTERS_MM,
                [middle, foot],
                Anchor::Middle,
            ));
        }
        takes = takes.max(foot + 5.0 - down);
    }
    takes
}

/// A circle as points.
fn circle([x, y]: Point, radius: f64) -> Vec<Point> {
    let at = |k: u32| {
        let (sin, cos) = (f64::from(k) / 32.0 * std::f64::consts::TAU).sin_cos();
        [x + radius * cos, y + radius * sin]
    };
    (0..=32).map(at).collect()
}

/// The sign of third-angle projection, its middle line at `at`.
fn symbol([x, y]: Point, inks: &mut Vec<Ink>) {
    let round = |radius: f64| circle([x + 2.0, y], radius);
    let cone = vec![
        [x + 5.5, y - 1.0],
        [x + 10.0, y - 2.0],
        [x + 10.0, y + 2.0],
        [x + 5.5, y + 1.0],
        [x + 5.5, y - 1.0],
    ];
    inks.push(lines(Pen::Narrow, vec![round(2.0), round(1.0), cone]));
    inks.push(lines(
        Pen::Centre,
        vec![
            vec![[x - 1.0, y], [x + 11.0, y]],
            vec![[x + 2.0, y - 3.0], [x + 2.0, y + 3.0]],
        ],
    ));
}

/// The bar with its marks, not to scale, and the length to cut; what they take.
fn cut(known: &Known, wide: f64, down: f64, inks: &mut Vec<Ink>) -> f64 {
    let (system, marks, billet) = (known.system, &known.plan.marks, &known.billet);
    let bar = &known.design.bar;
    inks.push(lines(Pen::Narrow, vec![vec![[0.0, down], [wide, down]]]));
    inks.push(text(
        "cut, and the marks to punch",
        Font::Heading,
        5.0,
        [0.0, down + 6.2],
        Anchor::Start,
    ));
    let (left, long, top, tall) = (2.0, wide - CUT_MM - 6.0, down + 14.0, 11.0);
    let bottom = top + tall;
    inks.push(text(
        &at_end(known.solid, marks.from),
        Font::Plain,
        LETTERS_MM,
        [left, top - 1.4],
        Anchor::Start,
    ));
    inks.push(text(
        &at_end(known.solid, marks.from.other()),
        Font::Plain,
        LETTERS_MM,
        [left + long, top - 1.4],
        Anchor::End,
    ));
    inks.push(frame(Pen::Wide, [left, top], [long, tall]));
    let scale = long / marks.length_mm;
    let base = bottom + 9.4;
    let places: Vec<(f64, String)> = marks
        .marks
        .iter()
        .map(|mark| (left + scale * mark.at_mm, length(mark.at_mm, system)))
        .collect();
    let halves: Vec<f64> = places
        .iter()
        .map(|(_, words)| 0.5 * width(words, Font::Bold) * LETTERS_MM)
        .collect();
    let mut middles: Vec<f64> = Vec::new();
    let apart = 1.8;
    for ((at, _), half) in places.iter().zip(&halves) {
        let free = match (middles.last(), halves.get(middles.len().wrapping_sub(1))) {
            (Some(before), Some(wide)) => before + wide + half + apart,
            _ => left + half,
        };
        middles.push(at.max(free));
    }
    let mut most = left + long + 4.0;
    for (middle, half) in middles.iter_mut().zip(&halves).rev() {
        *middle = middle.min(most - half);
        most = *middle - half - apart;
    }
    // Running sizes, from one origin.
    let level = bottom + 2.0;
    let last = places.iter().fold(left, |most: f64, (at, _)| most.max(*at));
    let run = vec![[left + 1.0, level], [last, level]];
    inks.push(lines(Pen::Narrow, vec![circle([left, level], 1.0), run]));
    for (((at, words), middle), mark) in places.iter().zip(&middles).zip(&marks.marks) {
        inks.push(lines(Pen::Centre, vec![vec![[*at, top], [*at, bottom]]]));
        inks.push(lines(
            Pen::Narrow,
            vec![vec![
                [*at, bottom],
                [*at, bottom + 2.0],
                [*middle, base - 3.4],
            ]],
        ));
        let shares: &[f64] = if mark.place == Place::Eye {
            &[0.5]
        } else {
            &[0.25, 0.75]
        };
        inks.extend(
            shares
                .iter()
                .map(|share| dot([*at, top + share * tall], 0.9)),
        );
        inks.push(text(
            words,
            Font::Bold,
            LETTERS_MM,
            [*middle, base],
            Anchor::Middle,
        ));
    }
    let said = "Not to scale. One dot: the eye; two: cheeks and necks.";
    let mut foot = base + 0.6;
    for line in wrapped(said, Font::Plain, LETTERS_MM, long) {
        foot += 5.1;
        inks.push(text(
            &line,
            Font::Plain,
            LETTERS_MM,
            [left, foot],
            Anchor::Start,
        ));
    }
    let right = wide - CUT_MM + 2.0;
    let number = format!(
        "{} {}",
        length(billet.cut_length_mm, system),
        unit_word(system)
    );
    let size = BIG_MM.min((wide - right) / width(&number, Font::Bold).max(1e-6));
    inks.push(text(
        &number,
        Font::Bold,
        size,
        [right, down + 16.0],
        Anchor::Start,
    ));
    let mut beside = down + 18.0;
    let from = format!(
        "of {}, {}",
        bar.section.words(system),
        super::words::mass(billet.cut_mass_kg, system)
    );
    for line in wrapped(&from, Font::Plain, LETTERS_MM, wide - right) {
        beside += 5.4;
        inks.push(text(
            &line,
            Font::Plain,
            LETTERS_MM,
            [right, beside],
            Anchor::Start,
        ));
    }
    foot.max(beside) + 4.0 - down
}

/// The drawing at 1 : 1 with its check line, on a page as large as it needs.
pub(super) fn drawing(design: &Design, solid: &Solid, system: System) -> Page {
    let seen = full_size(design, solid, system);
    let heading = super::letters::set(super::name(design), Font::Heading);
    let wide = seen.size[0]
        .max(LEAST_DRAWING_MM)
        .max(width(&heading, Font::Heading) * 6.0);
    let mut inks = vec![text(
        &heading,
        Font::Heading,
        6.0,
        [0.0, 5.4],
        Anchor::Start,
    )];
    check(9.0, wide, seen.scale, &mut inks);
    inks.extend(moved(seen.inks, [0.0, HEAD_MM]));
    Page {
        title: super::name(design).to_owned(),
        size: [
            wide + 2.0 * MARGIN_MM,
            HEAD_MM + seen.size[1] + 2.0 * MARGIN_MM,
        ],
        inks: moved(inks, [MARGIN_MM; 2]).collect(),
    }
}
