//! The picture of a trade-off: axes, the edge and its points, what is held, the head as it is.

use std::fmt::Write;

use super::search::Search;
use super::side::{held, title};
use headwright::design::Quantity;
use headwright::fit::Traded;
use headwright::units::{
    Amount, KG_MM2_PER_LB_IN2, KG_PER_OUNCE, Length, MM_PER_INCH, System, show_length, show_number,
};

/// Size of the picture and of the plot in it, px.
const WIDTH: f64 = 280.0;
const HEIGHT: f64 = 226.0;
const RIGHT: f64 = 268.0;
const TOP: f64 = 30.0;
const BOTTOM: f64 = 182.0;
/// Half the width of what is moved along the plot.
const THUMB: f64 = 8.0;
/// Least distance of two ticks, px.
const APART: [f64; 2] = [48.0, 26.0];

/// The ticks of an axis that runs from `low` to `high` over `room` px.
///
/// Inches and ounces are halved and doubled, everything else goes by 1, 2 and 5.
fn ticks(side: Traded, [low, high]: [f64; 2], most: f64, system: System) -> Vec<f64> {
    let (unit, halved) = unit(side, system);
    let least = (high - low) / unit / most;
    let (mut step, by) = if halved {
        (1.0 / 64.0, [2.0; 3])
    } else {
        (1e-6, [2.0, 2.5, 2.0])
    };
    for by in by.into_iter().cycle() {
        if step >= least {
            break;
        }
        step *= by;
    }
    let step = step * unit;
    let first = (low / step - 1e-9).ceil();
    let count = ((high / step + 1e-9).floor() - first).max(-1.0) + 1.0;
    (0..count.min(50.0) as usize)
        .map(|at| (first + at as f64) * step)
        .collect()
}

/// The kind of what a side counts; nothing for angles.
fn kind(side: Traded, system: System) -> Option<Amount> {
    match side {
        Traded::Size(dim) if dim.is_angle() => None,
        Traded::Size(_) => Some(Quantity::Length.amount(0.0, system)),
        Traded::Quantity(quantity) => Some(quantity.amount(0.0, system)),
    }
}

/// Whether the figures of a side are pounds and ounces.
fn in_ounces(side: Traded, system: System) -> bool {
    system == System::Imperial && matches!(kind(side, system), Some(Amount::Mass(_)))
}

/// What the steps between ticks are counted in, and whether they are halved and doubled.
fn unit(side: Traded, system: System) -> (f64, bool) {
    match (system, kind(side, system)) {
        (System::Imperial, Some(Amount::Mass(_))) => (KG_PER_OUNCE, true),
        (System::Imperial, Some(Amount::Length(_))) => (MM_PER_INCH, true),
        (System::Imperial, Some(Amount::Inertia(_))) => (KG_MM2_PER_LB_IN2, false),
        _ => (1.0, false),
    }
}

/// What stands at a tick: "1.1", "2 lb 8 oz", "2 1/4".
fn figure(side: Traded, number: f64, system: System) -> String {
    if let Some(Amount::Length(_)) = kind(side, system) {
        show_length(Length::mm(number), system)
    } else if in_ounces(side, system) {
        let ounces = number / KG_PER_OUNCE;
        let pounds = ((ounces + 1e-6) / 16.0).floor();
        let rest = show_number((ounces - 16.0 * pounds).max(0.0));
        match (pounds > 0.0, rest.as_str()) {
            (true, "0") => format!("{pounds} lb"),
            (true, _) => format!("{pounds} lb {rest}"),
            (false, _) => format!("{rest} oz"),
        }
    } else {
        show_number(number / unit(side, system).0)
    }
}

/// Where numbers lie in the picture.
struct Scales {
    left: f64,
    x: [f64; 2],
    y: [f64; 2],
}

impl Scales {
    fn of(search: &Search, now: [f64; 2], system: System) -> Self {
        let found = search.points.iter().flatten();
        let [mut low, mut high] = [now[1]; 2];
        for pair in found {
            (low, high) = (low.min(pair.y), high.max(pair.y));
        }
        let room = (0.08 * (high - low)).max(1e-6 * high.abs()).max(1e-9);
        let x = [search.span[0].min(now[0]), search.span[1].max(now[0])];
        let wide = in_ounces(search.y, system);
        Self {
            left: if wide { 58.0 } else { 44.0 },
            x: [x[0], x[1].max(x[0] + 1e-9)],
            y: [low - room, high + room],
        }
    }

    fn x(&self, x: f64) -> f64 {
        let share = (x - self.x[0]) / (self.x[1] - self.x[0]);
        self.left + share.clamp(0.0, 1.0) * (RIGHT - self.left)
    }

    fn y(&self, y: f64) -> f64 {
        let share = (y - self.y[0]) / (self.y[1] - self.y[0]);
        BOTTOM - share.clamp(0.0, 1.0) * (BOTTOM - TOP)
    }
}

/// Where what is moved along the plot lies over it, as a style.
pub fn over(search: &Search, now: [f64; 2], system: System) -> String {
    let scales = Scales::of(search, now, system);
    let [left, right] = search.span.map(|x| scales.x(x));
    format!(
        "left:{:.2}%;width:{:.2}%;top:{:.2}%;height:{:.2}%",
        (left - THUMB) / WIDTH * 100.0,
        (right - left + 2.0 * THUMB) / WIDTH * 100.0,
        TOP / HEIGHT * 100.0,
        (BOTTOM - TOP) / HEIGHT * 100.0
    )
}

/// The picture; `now` is the head as it is.
pub fn plot(search: &Search, now: [f64; 2], system: System) -> String {
    let scales = Scales::of(search, now, system);
    let left = scales.left;
    let mut svg = format!(
        "<svg viewBox=\"0 0 {WIDTH} {HEIGHT}\" aria-hidden=true focusable=false>\
         <pattern id=can-be width=6 height=6 patternUnits=userSpaceOnUse><path d=\"M0 6 6 0\"/></pattern>"
    );
    let edge = |svg: &mut String, class: &str, to: Option<f64>| {
        let points = search.points.iter().map(|pair| pair.as_ref());
        let all: Vec<_> = points.collect();
        for run in all.split(Option::is_none) {
            let place = |pair: &&_| {
                let pair: &headwright::fit::Pair = pair;
                format!("{:.1} {:.1}", scales.x(pair.x), scales.y(pair.y))
            };
            let line: Vec<String> = run.iter().flatten().map(place).collect();
            let (Some(Some(first)), Some(Some(last))) = (run.first(), run.last()) else {
                continue;
            };
            let close = to.map_or_else(String::new, |y| {
                let [a, b] = [last, first].map(|pair| scales.x(pair.x));
                format!("L{a:.1} {y}H{b:.1}Z")
            });
            let _ = write!(
                svg,
                "<path class={class} d=\"M{}{close}\"/>",
                line.join("L")
            );
        }
    };
    let far = if search.upper { BOTTOM } else { TOP };
    edge(&mut svg, "can-be", Some(far));
    let room = [RIGHT - left, BOTTOM - TOP];
    let [across, up] = [(search.x, scales.x), (search.y, scales.y)];
    for x in ticks(across.0, across.1, room[0] / APART[0], system) {
        let (at, figure) = (scales.x(x), figure(search.x, x, system));
        let _ = write!(
            svg,
            "<path class=tick d=\"M{at:.1} {BOTTOM}v5\"/><text x={at:.1} y={} text-anchor=middle>{figure}</text>",
            BOTTOM + 18.0
        );
    }
    for y in ticks(up.0, up.1, room[1] / APART[1], system) {
        let (at, figure) = (scales.y(y), figure(search.y, y, system));
        let _ = write!(
            svg,
            "<path class=tick d=\"M{left} {at:.1}h-5\"/><text x={} y={:.1} text-anchor=end>{figure}</text>",
            left - 8.0,
            at + 4.5
        );
    }
    let _ = write!(
        svg,
        "<path class=axes d=\"M{left} {TOP}V{BOTTOM}H{RIGHT}\"/>\
         <text x=0 y=14>{}</text><text x={RIGHT} y={} text-anchor=end>{}</text>",
        title(search.y, system),
        HEIGHT - 8.0,
        title(search.x, system)
    );
    bands(&mut svg, search, &scales);
    edge(&mut svg, "edge", None);
    let here = search.here();
    for (index, pair) in search.points.iter().enumerate() {
        let Some(pair) = pair else { continue };
        let (x, y) = (scales.x(pair.x), scales.y(pair.y));
        let _ = if Some(index) == here {
            write!(
                svg,
                "<path class=lead d=\"M{left} {y:.1}H{x:.1}V{BOTTOM}\"/>\
                 <path class=here d=\"M{x:.1} {:.1}l7 7-7 7-7-7z\"/>",
                y - 7.0
            )
        } else {
            write!(svg, "<circle class=had cx={x:.1} cy={y:.1} r=2.4 />")
        };
    }
    let (x, y) = (scales.x(now[0]), scales.y(now[1]));
    let (anchor, by) = if x > 0.5 * (left + RIGHT) {
        ("end", -9.0)
    } else {
        ("start", 9.0)
    };
    let _ = write!(
        svg,
        "<circle class=now cx={x:.1} cy={y:.1} r=4.5 /><text class=now x={:.1} y={:.1} text-anchor={anchor}>now</text></svg>",
        x + by,
        // Below the ring, unless the axis is there.
        if y + 17.0 < BOTTOM { y + 15.0 } else { y - 8.0 }
    );
    svg
}

/// What is held of either side, with its word.
fn bands(svg: &mut String, search: &Search, scales: &Scales) {
    let Some(design) = &search.design else {
        return;
    };
    let left = scales.left;
    if let Some((low, high)) = held(search.x, design) {
        let [a, b] = [low, high].map(|x| scales.x(x));
        let _ = write!(
            svg,
            "<path class=held d=\"M{a:.1} {TOP}V{BOTTOM}H{b:.1}V{TOP}\"/><text class=held x={:.1} y={} text-anchor=middle>held</text>",
            (0.5 * (a + b)).clamp(left + 16.0, RIGHT - 12.0),
            TOP - 3.0
        );
    }
    if let Some((low, high)) = held(search.y, design) {
        let [a, b] = [low, high].map(|y| scales.y(y));
        let _ = write!(
            svg,
            "<path class=held d=\"M{RIGHT} {a:.1}H{left}V{b:.1}H{RIGHT}\"/><text class=held x={RIGHT} y={:.1} text-anchor=end>held</text>",
            b.max(TOP + 14.0) - 4.0
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Part, Side, Size};

    const WEIGHT: Traded = Traded::Quantity(Quantity::Mass);
    const REACH: Traded = Traded::Size(Part::End(Side::Front).size(Size::Reach));

    fn figures(side: Traded, ends: [f64; 2], system: System) -> Vec<String> {
        ticks(side, ends, 5.0, system)
            .into_iter()
            .map(|at| figure(side, at, system))
            .collect()
    }

    #[test]
    fn ticks_are_round_in_the_units_of_the_smith() {
        let metric = System::Metric;
        assert_eq!(
            figures(WEIGHT, [0.83, 1.52], metric),
            ["1", "1.2", "1.4"],
            "kilograms"
        );
        assert_eq!(figures(REACH, [41.0, 76.3], metric), ["50", "60", "70"]);
        assert_eq!(
            figures(Traded::Quantity(Quantity::Balance), [-2.1, 3.2], metric),
            ["−2", "0", "2"]
        );
        let inch = System::Imperial;
        assert_eq!(
            figures(WEIGHT, [0.83, 1.52], inch),
            ["2 lb", "2 lb 8", "3 lb"]
        );
        assert_eq!(
            figures(WEIGHT, [0.4, 0.5], inch),
            ["15 oz", "1 lb", "1 lb 1"]
        );
        assert_eq!(figures(REACH, [41.0, 60.0], inch), ["1 3/4", "2", "2 1/4"]);
    }

    #[test]
    fn a_side_that_hardly_changes_has_ticks_that_end() {
        assert!(ticks(REACH, [54.0, 54.0], 5.0, System::Metric).len() <= 50);
        assert!(ticks(REACH, [54.0, 54.0001], 5.0, System::Imperial).len() <= 50);
    }

    #[test]
    fn numbers_keep_inside_the_plot() {
        let mut search = Search::new();
        search.span = [1.0, 2.0];
        let scales = Scales::of(&search, [0.5, 60.0], System::Metric);
        assert_eq!(scales.x(0.5), scales.left);
        assert_eq!(scales.x(2.0), RIGHT);
        assert_eq!(scales.x(9.0), RIGHT);
        assert_eq!(scales.y(f64::INFINITY), TOP);
        assert_eq!(scales.y(f64::NEG_INFINITY), BOTTOM);
        let middle = 0.5 * (TOP + BOTTOM);
        assert!((scales.y(60.0) - middle).abs() < 1e-6);
    }
}
