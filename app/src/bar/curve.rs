//! Where the steel must go: the area that the head needs along its length against the bar's.

use std::fmt::Write;

use leptos::prelude::*;

use super::super::sheet::measure::width_of;
use super::super::silhouette::Silhouette;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use headwright::design::{Design, Side, Tip};
use headwright::plan::{AreaCurve, Plan, Work};
use headwright::units::{MM_PER_INCH, System, show_number};
use labels::{Label, placed};

mod labels;

/// Width of the picture's frame, px, at most and at least, and below which it is narrow.
const WIDTH: f64 = 900.0;
const LEAST_WIDTH: f64 = 300.0;
const NARROW: f64 = 600.0;
/// Room before and behind the plot, and how far the bar's line goes on behind it, px, there and in a narrow frame.
const BESIDE: [f64; 3] = [76.0, 100.0, 20.0];
const NARROW_BESIDE: [f64; 3] = [58.0, 76.0, 8.0];
/// Height of the frame, and between which the plot lies in it, px.
const HEIGHT: f64 = 400.0;
const TOP: f64 = 44.0;
const BOTTOM: f64 = 352.0;
/// Share of the plot's height that the head's outline takes at most.
const OUTLINE: f64 = 0.6;
/// Ticks at the side, at most.
const TICKS: f64 = 5.0;

/// Where places and areas lie in the picture.
struct Scales {
    /// Left and right of the plot, the end of the bar's line, and the picture's width, px.
    left: f64,
    right: f64,
    bar_end: f64,
    width: f64,
    /// Least and greatest x, mm.
    x: [f64; 2],
    /// The greatest area, mm².
    most: f64,
}

impl Scales {
    fn of(curve: &AreaCurve, width: f64) -> Self {
        let first = curve.stations.first().map_or(0.0, |s| s.from_mm);
        let last = curve.stations.last().map_or(1.0, |s| s.to_mm);
        let thickest = curve.thickest().map_or(0.0, |s| s.need_mm2);
        let [before, behind, beyond] = if width < NARROW {
            NARROW_BESIDE
        } else {
            BESIDE
        };
        Self {
            left: before,
            right: width - behind,
            bar_end: width - behind + beyond,
            width,
            x: [first, last.max(first + 1.0)],
            most: 1.08 * thickest.max(curve.bar_mm2),
        }
    }

    fn is_narrow(&self) -> bool {
        self.width < NARROW
    }

    fn px_per_mm(&self) -> f64 {
        (self.right - self.left) / (self.x[1] - self.x[0])
    }

    fn x(&self, x: f64) -> f64 {
        self.left + (x - self.x[0]) * self.px_per_mm()
    }

    fn y(&self, mm2: f64) -> f64 {
        BOTTOM - mm2 / self.most * (BOTTOM - TOP)
    }
}

/// Square millimetres of one unit of area.
fn unit(system: System) -> f64 {
    match system {
        System::Metric => 1.0,
        System::Imperial => MM_PER_INCH * MM_PER_INCH,
    }
}

fn unit_word(system: System) -> &'static str {
    match system {
        System::Metric => "mm²",
        System::Imperial => "in²",
    }
}

/// An area in the shown units, to three figures.
pub fn area(mm2: f64, system: System) -> String {
    let number = mm2 / unit(system);
    let figures = 10f64.powf(number.abs().max(1e-9).log10().floor() - 2.0);
    let rounded = (number / figures).round() * figures;
    let text = show_number((rounded * 1e6).round() / 1e6);
    format!("{text} {}", unit_word(system))
}

/// Even areas from nothing to `most`, in steps of 1, 2 and 5.
fn ticks(most: f64, system: System) -> Vec<f64> {
    let most = most / unit(system);
    let mut step = 10f64.powf((most / TICKS).log10().floor());
    for by in [2.0, 2.5, 2.0] {
        if most / step > TICKS {
            step *= by;
        }
    }
    let count = (most / step).floor() as usize;
    (0..=count)
        .map(|k| k as f64 * step * unit(system))
        .collect()
}

/// What is done and how much, from the area needed over the bar's: "draw 1.61".
pub fn amount(work: Work, need: f64) -> String {
    match work {
        Work::Leave => "as it is".to_owned(),
        work => format!("{} {}", work.word(), times(work, need)),
    }
}

/// How much of it, alone: "1.61".
fn times(work: Work, need: f64) -> String {
    let ratio = match work {
        Work::Upset | Work::Leave => need,
        Work::Draw | Work::Fuller => 1.0 / need,
    };
    format!("{ratio:.2}")
}

/// The word for an end of the head.
pub fn end_word(design: &Design, side: Side) -> &'static str {
    match design.end(side).tip {
        Tip::Face(_) => "face",
        Tip::Pein(_) => "pein",
        Tip::Ball(_) => "ball",
    }
}

/// The curve with its words.
#[component]
pub fn Curve(
    /// How the bar becomes the head.
    plan: Signal<Option<Plan>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let outline = Memo::new(move |_| workspace.sound.with(Silhouette::of));
    let host = NodeRef::<leptos::html::Div>::new();
    let width = width_of(host, WIDTH);
    let figure = move || {
        let system = workspace.system.get();
        // A narrow window gets a narrow picture with letters of the same size.
        let width = width.get().clamp(LEAST_WIDTH, WIDTH);
        let (ends, section) = workspace.design.with(|design| {
            let ends = [Side::Back, Side::Front].map(|side| end_word(design, side));
            (ends, design.bar.section)
        });
        plan.with(|plan| {
            let curve = &plan.as_ref()?.curve;
            let scales = Scales::of(curve, width);
            let Scales { left, right, bar_end, .. } = scales;
            let bar = scales.y(curve.bar_mm2);
            let label = said(curve, system);
            let bar_words = words::bar_section(section, system);
            Some(view! {
                <figure class="area-curve">
                    <div class="sideways" role="region" tabindex="0" aria-label="area needed, figure">
                    <svg viewBox=format!("0 0 {width} {HEIGHT}") role="img" aria-label=label>
                        <defs>
                            <pattern id="open-hatch" width="14" height="14" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                                <path class="hatch" d="M0 0V14" />
                            </pattern>
                            <pattern id="close-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
                                <path class="hatch close" d="M0 0V5" />
                            </pattern>
                        </defs>
                        {outline.with(|outline| head(outline, &scales))}
                        <path fill="url(#open-hatch)" d=between(curve, &scales, false) />
                        <path fill="url(#close-hatch)" d=between(curve, &scales, true) />
                        {ticks(scales.most, system)
                            .into_iter()
                            .map(|mm2| {
                                let y = scales.y(mm2);
                                view! {
                                    <path class="tick" d=format!("M{} {y:.1}h6", left - 14.0) />
                                    <text class="figure" x=left - 20.0 y=y + 5.0 text-anchor="end">
                                        {show_number(mm2 / unit(system))}
                                    </text>
                                }
                            })
                            .collect_view()}
                        <text class="figure" x="2" y="20">{format!("area needed, {}", unit_word(system))}</text>
                        <path class="base" d=format!("M{} {BOTTOM}H{}", left - 14.0, bar_end - 6.0) />
                        <path class="bar-line" d=format!("M{} {bar:.1}H{bar_end}", left - 14.0) />
                        <text class="bar-name" x=bar_end + 6.0 y=bar + 1.0>"bar"</text>
                        <text class="figure" x=bar_end + 6.0 y=bar + 18.0>{area(curve.bar_mm2, system)}</text>
                        <path class="need" d=line(curve, &scales) />
                        {notes(curve, &scales)}
                        <text class="figure" x=left y=BOTTOM + 26.0>{ends[0]}</text>
                        <text class="figure" x=scales.x(0.0) y=BOTTOM + 26.0 text-anchor="middle">"eye"</text>
                        <text class="figure" x=right y=BOTTOM + 26.0 text-anchor="end">{ends[1]}</text>
                    </svg>
                    </div>
                    <figcaption class="soft">
                        {format!(
                            "The line is what the head needs with its losses, the area under it the whole cut. Open hatching: draw {bar_words} down or push it aside. Close hatching: upset.",
                        )}
                        {scales
                            .is_narrow()
                            .then_some(
                                " A figure says how many times as long it is drawn there, or as thick it is upset.",
                            )} " An estimate."
                    </figcaption>
                </figure>
            })
        })
    };
    view! {
        <section class="area-needed" aria-labelledby="where">
            <h2 id="where">"where the steel must go"</h2>
            <Words id="need-words" terms=&[Term::Need, Term::Draw, Term::Upset, Term::Fuller] />
            <div node_ref=host>{figure}</div>
        </section>
    }
}

/// The curve in words, for who does not see it.
fn said(curve: &AreaCurve, system: System) -> String {
    let stretches = curve.stretches.iter().map(|stretch| {
        let [from, to] = [stretch.from_mm, stretch.to_mm].map(|x| words::length(tenth(x), system));
        format!(
            "{} from {from} to {to}",
            amount(stretch.work, stretch.ratio)
        )
    });
    let stretches: Vec<String> = stretches.collect();
    format!(
        "Area needed along the head against {} of bar, measured from the handle axis to the front: {}.",
        area(curve.bar_mm2, system),
        stretches.join("; ")
    )
}

fn tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// The head's outline under the curve, the eye dashed.
fn head(outline: &Silhouette, scales: &Scales) -> impl IntoView + use<> {
    let fits = OUTLINE * (BOTTOM - TOP) / (2.0 * outline.half_height);
    let k = scales.px_per_mm();
    let middle = BOTTOM - (BOTTOM - TOP) * 0.5 * OUTLINE - 12.0;
    let place = format!(
        "translate({:.2} {middle:.2}) scale({k:.4} {:.4})",
        scales.x(0.0),
        k.min(fits)
    );
    view! {
        <g transform=place>
            <path class="head-under" d=outline.outline.clone() />
            <path class="eye-under" d=outline.eye.clone() />
        </g>
        <path class="axis-under" d=format!("M{:.1} {}V{BOTTOM}", scales.x(0.0), TOP - 8.0) />
    }
}

/// The corners of the curve: the base, then every station, then the base again.
fn corners(curve: &AreaCurve) -> Vec<[f64; 2]> {
    let mut corners = Vec::with_capacity(curve.stations.len() + 4);
    if let (Some(first), Some(last)) = (curve.stations.first(), curve.stations.last()) {
        corners.push([first.from_mm, 0.0]);
        corners.push([first.from_mm, first.need_mm2]);
        corners.extend(curve.stations.iter().map(|s| [s.x_mm, s.need_mm2]));
        corners.push([last.to_mm, last.need_mm2]);
        corners.push([last.to_mm, 0.0]);
    }
    corners
}

fn line(curve: &AreaCurve, scales: &Scales) -> String {
    let mut path = String::new();
    for (k, [x, need]) in corners(curve).into_iter().enumerate() {
        let letter = if k == 0 { 'M' } else { 'L' };
        // Writing to a string cannot fail.
        let _ = write!(path, "{letter}{:.1} {:.1}", scales.x(x), scales.y(need));
    }
    path
}

/// What lies between the curve and the bar: above it where `upset`, else below.
fn between(curve: &AreaCurve, scales: &Scales, upset: bool) -> String {
    let bar = curve.bar_mm2;
    let mut path = String::new();
    for pair in corners(curve).windows(2) {
        let [[x0, a], [x1, b]] = [pair[0], pair[1]];
        let side = |need: f64| if upset { need - bar } else { bar - need };
        let (da, db) = (side(a), side(b));
        if da <= 0.0 && db <= 0.0 || x1 <= x0 {
            continue;
        }
        // Where the curve passes the bar a stretch begins or ends.
        let share = if da == db { 0.0 } else { da / (da - db) };
        let crossing = x0 + share * (x1 - x0);
        let (from, to) = match (da > 0.0, db > 0.0) {
            (true, true) => ([x0, a], [x1, b]),
            (true, false) => ([x0, a], [crossing, bar]),
            _ => ([crossing, bar], [x1, b]),
        };
        let [from_x, to_x] = [from, to].map(|[x, _]| scales.x(x));
        let _ = write!(
            path,
            "M{from_x:.1} {bar_y:.1}L{from_x:.1} {:.1}L{to_x:.1} {:.1}V{bar_y:.1}Z",
            scales.y(from[1]),
            scales.y(to[1]),
            bar_y = scales.y(bar)
        );
    }
    path
}

/// What a turn of the curve is worth saying from, as a share of the bar's area.
const WORTH: f64 = 0.08;

/// Places of `values` at which they turn back by more than `least`, both ends among them.
fn turns(values: &[f64], least: f64) -> Vec<usize> {
    let mut found = vec![0];
    // The farthest place since the last turn, and which way it lies: 0 where nothing is known yet.
    let (mut far, mut way) = (0, 0.0);
    for (place, value) in values.iter().enumerate() {
        let ahead = value - values[far];
        if way * ahead >= 0.0 && (way != 0.0 || ahead.abs() > least) {
            way = if way == 0.0 { ahead.signum() } else { way };
            far = place;
        } else if ahead.abs() > least {
            found.push(far);
            (far, way) = (place, ahead.signum());
        }
    }
    found.extend([far, values.len().saturating_sub(1)]);
    found.dedup();
    found
}

/// "upset 1.11" where the curve turns, in a narrow picture "1.11", none over another: each with its place.
fn turning(curve: &AreaCurve, scales: &Scales) -> Vec<(Label, [f64; 2])> {
    let needs: Vec<f64> = curve.stations.iter().map(|s| s.need_mm2).collect();
    let turns = turns(&needs, WORTH * curve.bar_mm2).into_iter();
    let stations = turns.filter_map(|place| curve.stations.get(place));
    let wanted = stations.filter(|station| station.work != Work::Leave);
    let text = if scales.is_narrow() { times } else { amount };
    let wanted = wanted.map(|station| Label {
        text: text(station.work, station.ratio),
        at: [scales.x(station.x_mm), scales.y(station.need_mm2)],
        above: station.work == Work::Upset,
    });
    let frame = [[scales.left, 2.0], [scales.width - 4.0, BOTTOM - 4.0]];
    // Where the bar's line has its words.
    let bar = scales.y(curve.bar_mm2);
    let words = [scales.bar_end, bar - 14.0, scales.width, bar + 24.0];
    placed(wanted.collect(), frame, words)
}

/// The labels of [`turning`] with their points.
fn notes(curve: &AreaCurve, scales: &Scales) -> impl IntoView + use<> {
    let placed = turning(curve, scales);
    let points = placed.iter().map(|(label, _)| label.at);
    let points = points.map(|[x, y]| {
        view! { <circle class="station" cx=format!("{x:.1}") cy=format!("{y:.1}") r="4.5" /> }
    });
    let points = points.collect_view();
    let words = placed.into_iter().map(|(label, [x, y])| {
        view! {
            <text class="amount" x=format!("{x:.1}") y=format!("{y:.1}") text-anchor="middle">
                {label.text}
            </text>
        }
    });
    (points, words.collect_view())
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::bar::billet;
    use headwright::design::{starter, starter_names};
    use headwright::mass::{causes, mass_properties};
    use headwright::plan::plan;

    #[test]
    fn an_area_is_said_to_three_figures_in_either_system() {
        assert_eq!(area(1963.495, System::Metric), "1960 mm²");
        assert_eq!(area(645.16, System::Imperial), "1 in²");
        assert_eq!(area(79.0, System::Metric), "79 mm²");
    }

    #[test]
    fn a_curve_is_known_by_where_it_turns() {
        let values = [1.0, 2.0, 3.0, 2.95, 3.05, 1.0, 1.05, 0.5, 4.0];
        assert_eq!(turns(&values, 0.2), [0, 4, 7, 8]);
        assert_eq!(turns(&[1.0, 1.1, 1.0], 0.2), [0, 2]);
        assert_eq!(turns(&[], 0.2), [0]);
    }

    #[test]
    fn on_a_phone_every_figure_of_a_starter_stands_by_its_point() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            let solid = design.build().expect("a sound head");
            let causes = causes(&solid, &mass_properties(&solid));
            let billet = billet(&causes, design.density, &design.bar).expect("a cut");
            let curve = plan(&solid, &billet, &design.bar, Side::Back).curve;
            let scales = Scales::of(&curve, 328.0);
            let needs: Vec<f64> = curve.stations.iter().map(|s| s.need_mm2).collect();
            let turns = turns(&needs, WORTH * curve.bar_mm2);
            let wanted = turns.iter().map(|place| curve.stations[*place].work);
            let wanted = wanted.filter(|work| *work != Work::Leave).count();
            let placed = turning(&curve, &scales);
            assert_eq!(placed.len(), wanted, "{name}");
            for (Label { text, at, .. }, place) in placed {
                let apart = (place[0] - at[0]).hypot(place[1] - at[1]);
                assert!(apart < 40.0, "{name}: {text} stands {apart:.0} px off");
            }
        }
    }

    #[test]
    fn ticks_are_even_and_few() {
        for most in [3.0, 170.0, 1800.0, 2600.0, 9000.0] {
            for system in [System::Metric, System::Imperial] {
                let ticks = ticks(most, system);
                assert!((2..=6).contains(&ticks.len()), "{most}: {ticks:?}");
                assert!(ticks.iter().all(|tick| *tick <= most));
            }
        }
    }
}
