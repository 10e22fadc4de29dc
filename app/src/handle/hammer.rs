//! The whole hammer, lying level: from the side with its face down, and from the face.

use leptos::prelude::*;

use super::super::figure::path;
use super::super::sheet::measure;
use super::super::spread::spread;
use super::super::state::Workspace;
use super::super::words;
use super::path::size_along;
use super::worked::{Tool, Worked};
use headwright::drawing::{Drawing, Shape, Stroke, View, draw};
use headwright::handle::{HandlePart, Silhouette, Station};
use headwright::units::System;

/// The least width of the figure, px, over all and for an oval; a narrower window scrolls it in its own region.
const LEAST: f64 = 300.0;
const LEAST_FOR_OVAL: f64 = 40.0;
/// The sheet's width before it is measured, px.
const UNMEASURED: f64 = 1040.0;
/// The largest scale, px to the mm.
const LARGEST: f64 = 4.2;
/// Room beside the hammer, px.
const BESIDE: [f64; 2] = [20.0, 20.0];
/// From the handle to the first line of size and from that to the next, px.
const LINES: [f64; 2] = [46.0, 54.0];
/// What a row of words and its size take, px.
const ROW: f64 = 34.0;
/// Between the ovals in their row, px, and half the width of a letter of their sizes.
const CLEAR: f64 = 14.0;
const HALF_LETTER: f64 = 4.6;

/// The figure.
#[component]
pub fn Hammer() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    let host = NodeRef::<leptos::html::Div>::new();
    let width = measure::width_of(host, UNMEASURED);
    let figure = move || {
        let system = workspace.system.get();
        tool.with(|tool| {
            let tool = tool.as_ref()?;
            let ovals = LEAST_FOR_OVAL * tool.handle.stations.len() as f64;
            let width = width.get().max(LEAST).max(ovals + BESIDE[0] + BESIDE[1]);
            let drawing = workspace
                .design
                .with_untracked(|design| draw(&tool.solid, design, None, system));
            Some(drawn(tool, &drawing, width, system))
        })
    };
    view! {
        <div class="hammer" node_ref=host>
            <div class="sideways" role="region" tabindex="0" aria-label="the whole hammer, figure">
                {figure}
            </div>
        </div>
    }
}

/// Where things lie on the sheet: z to the right, x or y down.
struct Place {
    scale: f64,
    /// Of z = 0.
    middle: f64,
}

impl Place {
    fn z(&self, z: f64) -> f64 {
        self.middle + z * self.scale
    }

    /// A row of points of a view, their first coordinate down from `axis`.
    fn points(&self, points: &[[f64; 2]], axis: f64, closed: bool) -> String {
        let turned = points
            .iter()
            .map(|[down, z]| [self.z(*z), axis + down * self.scale]);
        path(turned, closed)
    }
}

/// The sizes of a station, and where it stands, in words.
fn oval_words(station: &Station, system: System) -> [String; 2] {
    let show = |mm: f64| words::about_number(mm, system);
    [
        format!(
            "{} × {}",
            show(station.depth.in_mm()),
            show(station.width.in_mm())
        ),
        format!("at {}", show(station.at.in_mm())),
    ]
}

/// What the figure says to those who do not see it.
fn label(tool: &Tool, system: System) -> String {
    let handle = &tool.handle;
    let show = |mm: f64| words::about(mm, system);
    let balance = tool.swung.as_ref().map_or_else(String::new, |swung| {
        format!(", its balance point {}", show(swung.balance_from_butt_mm))
    });
    let ovals: Vec<String> = handle
        .stations
        .iter()
        .map(|station| oval_words(station, system).join(" "))
        .collect();
    format!(
        "The hammer to scale, {} over all. From the butt: the middle of the grip {}{balance}. Ovals, depth × width: {}.",
        show(handle.length.in_mm()),
        show(handle.grip.in_mm()),
        ovals.join(", ")
    )
}

/// The greatest half of what `of` takes of the stations, mm.
fn most(stations: &[Station], of: impl Fn(&Station) -> f64) -> f64 {
    stations
        .iter()
        .fold(0.0, |most: f64, station| most.max(0.5 * of(station)))
}

fn drawn(tool: &Tool, drawing: &Drawing, width: f64, system: System) -> impl IntoView + use<> {
    let made = &tool.made;
    let handle = &tool.handle;
    let stations = &handle.stations;
    let [side, _, face] = drawing.extents;
    let on_axis = |from_butt: f64| [0, 1, 2].map(|k| made.butt_mm[k] + made.axis[k] * from_butt);
    let [butt, end] = [0.0, handle.length.in_mm()].map(on_axis);
    let highest = end[2].max(side.high[1]);
    let scale = ((width - BESIDE[0] - BESIDE[1]) / (highest - butt[2])).min(LARGEST);
    let place = Place {
        scale,
        middle: BESIDE[0] - butt[2] * scale,
    };
    let deep = most(stations, |station| station.depth.in_mm()) * scale;
    let broad = most(stations, |station| station.width.in_mm()) * scale;
    // From the side: the back end above the axis, the face below it.
    let above = deep + LINES[0] + LINES[1] + ROW;
    let axis = 20.0 + above.max(-side.low[0] * scale);
    let head_begins = place.z(side.low[1]);
    let ovals = Ovals::new(tool, &place, head_begins, width, system);
    let under = if ovals.fit {
        axis + deep
    } else {
        axis + side.high[0] * scale
    };
    let row = under + 26.0 + deep;
    let side_ends = (axis + side.high[0] * scale).max(row + deep + 2.0 * ROW - 14.0);
    let length_line = side_ends + 40.0;
    let half_face = broad.max(face.high[0].abs().max(face.low[0].abs()) * scale);
    let face_axis = length_line + 48.0 + half_face;
    let height = face_axis + half_face + 12.0;
    let begins = |from_butt: f64| axis - half_depth(stations, from_butt) * scale;
    let grip = handle.grip.in_mm();
    let first = axis - deep - LINES[0];
    let grip_at = on_axis(grip);
    let balance = tool.swung.as_ref().map(|swung| {
        let mm = swung.balance_from_butt_mm;
        let [x, y, z] = swung.free.body().centroid_mm;
        let to = place.z(on_axis(mm)[2]);
        let at = [place.z(z), axis + x * scale, face_axis + y * scale];
        let line = first - LINES[1];
        view! {
            {size_along([place.z(butt[2]), to], [begins(0.0), at[1]], line, mm, system)}
            <text class="word" x=0.5 * (place.z(butt[2]) + to) y=line + 18.0 text-anchor="middle">
                "balance point"
            </text>
            {[at[1], at[2]]
                .map(|y| {
                    view! {
                        <circle class="ring" cx=at[0] cy=y r="6.5" />
                        <circle class="dot" cx=at[0] cy=y r="2.4" />
                    }
                })
                .into_iter()
                .collect_view()}
        }
    });
    let length = {
        let half = 0.5 * made.tongue.section.length_mm * scale;
        let from = axis + half_depth(stations, 0.0) * scale;
        let ends = [butt, end].map(|at| place.z(at[2]));
        size_along(
            ends,
            [from, axis + half],
            length_line,
            handle.length.in_mm(),
            system,
        )
    };
    let name = label(tool, system);
    view! {
        <svg
            width=width
            height=height
            viewBox=format!("0 0 {width:.0} {height:.0}")
            role="img"
            aria-label=name
        >
            {one_view(tool, drawing, View::Side, &place, axis)}
            {one_view(tool, drawing, View::Face, &place, face_axis)}
            {ovals.drawn(tool, &place, axis, row)}
            <path
                class="dim"
                d=format!(
                    "M{x:.1} {:.1}V{:.1}",
                    axis - half_depth(stations, grip) * scale,
                    axis + half_depth(stations, grip) * scale,
                    x = place.z(grip_at[2]),
                )
            />
            {size_along(
                [place.z(butt[2]), place.z(grip_at[2])],
                [begins(0.0), begins(grip)],
                first,
                grip,
                system,
            )}
            <text
                class="word"
                x=0.5 * (place.z(butt[2]) + place.z(grip_at[2]))
                y=first + 18.0
                text-anchor="middle"
            >
                "grip"
            </text>
            {balance}
            {length}
            <text class="word" x="0" y="16">"from the side, face down"</text>
            <text class="word" x="0" y=length_line + 34.0>"from the face"</text>
        </svg>
    }
}

/// Half the depth of the stem at `at` from the butt, mm.
fn half_depth(stations: &[Station], at: f64) -> f64 {
    let half = |station: &Station| 0.5 * station.depth.in_mm();
    let place = |station: &Station| station.at.in_mm();
    let between = stations.windows(2).find(|pair| at < place(&pair[1]));
    match (stations.first(), between, stations.last()) {
        (Some(first), _, _) if at <= place(first) => half(first),
        (_, Some([a, b]), _) => {
            let share = (at - place(a)) / (place(b) - place(a));
            half(a) + share * (half(b) - half(a))
        }
        (_, _, Some(last)) => half(last),
        _ => 0.0,
    }
}

/// Wood behind, head in front of it, and dashed what the head hides.
fn one_view(
    tool: &Tool,
    drawing: &Drawing,
    view: View,
    place: &Place,
    axis: f64,
) -> impl IntoView + use<> {
    let of = |silhouette: &Silhouette| match view {
        View::Face => silhouette.front.clone(),
        View::Side | View::Plan => silhouette.side.clone(),
    };
    let outlines: Vec<(HandlePart, String)> = tool
        .made
        .silhouettes
        .iter()
        .map(|silhouette| (silhouette.part, place.points(&of(silhouette), axis, true)))
        .collect();
    let wood = outlines
        .iter()
        .filter(|(part, _)| matches!(part, HandlePart::Stem | HandlePart::Tongue))
        .map(|(_, d)| view! { <path class="wood" d=d.clone() /> })
        .collect_view();
    let hidden = outlines
        .iter()
        .filter(|(part, _)| *part != HandlePart::Stem)
        .map(|(_, d)| view! { <path class="hidden-edge" d=d.clone() /> })
        .collect_view();
    let class = |shape: &Shape| match shape.stroke {
        Stroke::Steel => Some("head-steel"),
        Stroke::FaceArea => Some("head-face"),
        Stroke::Hidden => Some("hidden-edge"),
        Stroke::Edge => Some("head-edge"),
        Stroke::Outline => Some("head-outline"),
        Stroke::Opening | Stroke::Centre => None,
    };
    let head = drawing
        .shapes
        .iter()
        .filter(|shape| shape.view == view)
        .filter_map(|shape| {
            let class = class(shape)?;
            let d = place.points(&shape.points, axis, shape.closed);
            Some(view! { <path class=class d=d /> })
        })
        .collect_view();
    let ends = tool.made.outline.first().zip(tool.made.outline.last());
    let line = ends.map(|(from, to)| {
        let down = match view {
            View::Face => tool.made.axis[1],
            View::Side | View::Plan => tool.made.axis[0],
        };
        let at = |along: f64| {
            let [x, y] = [tool.made.axis[2], down].map(|part| part * along * place.scale);
            [place.middle + x, axis + y]
        };
        let clear = 12.0 / place.scale;
        path([at(from.along_mm - clear), at(to.along_mm + clear)], false)
    });
    view! {
        {wood}
        {head}
        {hidden}
        {line.map(|d| view! { <path class="axis" d=d /> })}
    }
}

/// The ovals in their row.
struct Ovals {
    /// Middle of each on the sheet.
    places: Vec<f64>,
    /// Sizes, and place from the butt.
    words: Vec<[String; 2]>,
    /// Whether the row has room beside the head.
    fit: bool,
    /// Whether their words have room in the row; the fields below have them all.
    told: bool,
}

impl Ovals {
    fn new(tool: &Tool, place: &Place, head_begins: f64, width: f64, system: System) -> Self {
        let stations = &tool.handle.stations;
        let words: Vec<[String; 2]> = stations
            .iter()
            .map(|station| oval_words(station, system))
            .collect();
        let halves = |told: bool| -> Vec<f64> {
            let each = stations.iter().zip(&words);
            each.map(|(station, words)| {
                let letters = words.iter().map(|word| word.chars().count()).max();
                let letters = letters.filter(|_| told).unwrap_or(1);
                (0.5 * station.width.in_mm() * place.scale).max(HALF_LETTER * letters as f64)
            })
            .collect()
        };
        let needs =
            |half: &[f64]| -> f64 { half.iter().map(|half| 2.0 * half + CLEAR).sum::<f64>() };
        let at: Vec<f64> = stations
            .iter()
            .map(|station| place.z(tool.made.butt_mm[2] + tool.made.axis[2] * station.at.in_mm()))
            .collect();
        // The line of the whole length goes down from the butt.
        let first = place.z(tool.made.butt_mm[2]) + CLEAR;
        let told = first + needs(&halves(true)) <= width;
        let half = halves(told);
        let needs = needs(&half);
        let last = head_begins - CLEAR;
        let fit = first + needs <= last + CLEAR;
        let last = if fit { last } else { last.max(first + needs) };
        Self {
            places: spread(&at, &half, CLEAR, first, last),
            words,
            fit,
            told,
        }
    }

    /// Each below its place, joined to it by a thin line.
    fn drawn(&self, tool: &Tool, place: &Place, axis: f64, row: f64) -> impl IntoView + use<> {
        let deepest = most(&tool.handle.stations, |station| station.depth.in_mm()) * place.scale;
        let each = tool
            .handle
            .stations
            .iter()
            .zip(&self.places)
            .zip(&self.words);
        each.enumerate()
            .map(|(index, ((station, x), [sizes, at]))| {
                let [depth, width] = [station.depth, station.width]
                    .map(|size| 0.5 * size.in_mm() * place.scale);
                let from = place.z(tool.made.butt_mm[2] + tool.made.axis[2] * station.at.in_mm());
                let bend = axis + deepest + 8.0;
                let line = format!(
                    "M{from:.1} {:.1}V{bend:.1}L{x:.1} {:.1}V{:.1}",
                    axis - depth,
                    bend + 12.0,
                    row + depth + 6.0
                );
                let words = row + deepest + 22.0;
                view! {
                    <path class="cut" d=line />
                    <ellipse class="oval-cut" cx=*x cy=row rx=width ry=depth />
                    <text class="oval-number" x=*x y=row + 5.0 text-anchor="middle">{index + 1}</text>
                    {self
                        .told
                        .then(|| {
                            view! {
                                <text class="oval-size" x=*x y=words text-anchor="middle">{sizes.clone()}</text>
                                <text class="word" x=*x y=words + 18.0 text-anchor="middle">{at.clone()}</text>
                            }
                        })}
                }
            })
            .collect_view()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::units::Length;

    fn tool() -> Tool {
        let design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        Tool::new(&solid, &design.handle).expect("usual")
    }

    #[test]
    fn the_figure_says_length_grip_balance_and_every_oval() {
        let tool = tool();
        let said = label(&tool, System::Metric);
        let length = words::about(tool.handle.length.in_mm(), System::Metric);
        assert!(said.contains(&format!("{length} over all")), "{said}");
        assert!(said.contains("middle of the grip 75 mm"), "{said}");
        assert!(said.contains("balance point"), "{said}");
        assert_eq!(said.matches(" at ").count(), tool.handle.stations.len());
    }

    #[test]
    fn ovals_stand_clear_of_each_other_in_a_narrow_window_and_lose_their_words_first() {
        let tool = tool();
        for (width, told) in [
            (1040.0, true),
            (640.0, true),
            (358.0, false),
            (300.0, false),
        ] {
            let length = tool.handle.length.in_mm() + 40.0;
            let place = Place {
                scale: (width - 40.0) / length,
                middle: width - 80.0,
            };
            let ovals = Ovals::new(&tool, &place, width - 100.0, width, System::Metric);
            assert_eq!(ovals.told, told, "{width}");
            for pair in ovals.places.windows(2) {
                assert!(pair[1] - pair[0] > 2.0 * HALF_LETTER, "{:?}", ovals.places);
            }
        }
    }

    #[test]
    fn the_depth_between_two_ovals_runs_straight_and_stays_beyond_them() {
        let station = |at: f64, depth: f64| Station {
            at: Length::mm(at),
            depth: Length::mm(depth),
            width: Length::mm(20.0),
        };
        let stations = [station(10.0, 40.0), station(50.0, 30.0)];
        assert_eq!(half_depth(&stations, 0.0), 20.0);
        assert_eq!(half_depth(&stations, 30.0), 17.5);
        assert_eq!(half_depth(&stations, 90.0), 15.0);
        assert_eq!(half_depth(&[], 90.0), 0.0);
    }

    #[test]
    fn the_stem_is_as_deep_as_the_core_makes_it() {
        let tool = tool();
        for half in &tool.made.outline {
            let from_butt = half.along_mm - tool.made.outline[0].along_mm;
            if from_butt < tool.made.stem_mm - 1e-9 {
                let here = half_depth(&tool.handle.stations, from_butt);
                assert!(
                    (here - half.half_depth_mm).abs() < 1e-9,
                    "{from_butt}: {here}"
                );
            }
        }
    }
}
