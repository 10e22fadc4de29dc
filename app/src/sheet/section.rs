//! The section through the eye: across the head and along it, with the eye's sizes to be taken in hand.

use leptos::prelude::*;

use super::super::figure::{arrow, fraction, path};
use super::super::state::Workspace;
use super::super::words;
use headwright::design::Dim;
use headwright::drawing::{Cut, Level, Point, Way, cut};
use headwright::units::System;

/// Widest figure and largest scale, px and px/mm.
const WIDEST: f64 = 420.0;
const LARGEST: f64 = 6.0;
/// Room above, below and beside, px.
const ROOM: f64 = 14.0;
/// Height of a size with its line, px.
const SIZE: f64 = 44.0;
/// How far a line of a mouth stands inside it, px.
const INSIDE: f64 = 12.0;

/// Both cuts, side by side or one under the other.
#[component]
pub fn Section(
    /// Takes a size in hand.
    take: Callback<Dim>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let cuts = Memo::new(move |_| {
        let sound = workspace.sound.get();
        Way::BOTH.map(|way| cut(sound.head(), way))
    });
    view! {
        <section class="cuts" aria-label="section through the eye">
            <svg class="hatching" width="0" height="0" aria-hidden="true" focusable="false">
                <defs>
                    <pattern id="cut-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                        <path d="M0 0V7" />
                    </pattern>
                </defs>
            </svg>
            {Way::BOTH
                .into_iter()
                .enumerate()
                .map(|(index, way)| {
                    view! {
                        <figure>
                            {move || {
                                cuts.with(|cuts| figure(&cuts[index], workspace.system.get(), take))
                            }}
                            <figcaption>
                                {move || {
                                    cuts.with(|cuts| caption(way, &cuts[index], workspace.system.get()))
                                }}
                            </figcaption>
                        </figure>
                    }
                })
                .collect_view()}
        </section>
    }
}

/// Which way it is cut, and how thick the cheeks are there.
fn caption(way: Way, cut: &Cut, system: System) -> String {
    let thick = |ends: &[Point; 2]| words::about(ends[1][0] - ends[0][0], system);
    match &cut.walls[..] {
        [left, right] if thick(left) == thick(right) => format!(
            "{}; each cheek is {} thick beside the waist",
            way.words(),
            thick(left)
        ),
        [left, right] => format!(
            "{}; the cheeks are {} and {} thick beside the waist",
            way.words(),
            thick(left),
            thick(right)
        ),
        _ => way.words().to_owned(),
    }
}

/// Where a cut lies in its figure.
struct Place {
    scale: f64,
    low: Point,
    high: Point,
}

impl Place {
    fn of(cut: &Cut) -> Self {
        let points = || cut.steel.iter().flatten();
        let end = |pick: fn(f64, f64) -> f64, start: f64| {
            [0, 1].map(|k| points().map(|point| point[k]).fold(start, pick))
        };
        let (low, high) = (end(f64::min, f64::MAX), end(f64::max, f64::MIN));
        let scale = ((WIDEST - 2.0 * ROOM) / (high[0] - low[0])).min(LARGEST);
        Self { scale, low, high }
    }

    fn at(&self, [right, up]: Point) -> Point {
        [
            ROOM + (right - self.low[0]) * self.scale,
            ROOM + (self.high[1] - up) * self.scale,
        ]
    }

    fn size(&self) -> [f64; 2] {
        [0, 1].map(|k| 2.0 * ROOM + (self.high[k] - self.low[k]) * self.scale)
    }
}

/// Heights of the three lines, px: inside the mouths and at the waist, as far apart as their figures need.
fn rows(place: &Place, levels: &[Level; 3]) -> [f64; 3] {
    let [top, waist, bottom] = [0, 1, 2].map(|k| place.at(levels[k].between[0])[1]);
    let (top, bottom) = (top + INSIDE + 0.5 * SIZE, bottom - INSIDE);
    let waist = waist.clamp(top + SIZE, (bottom - SIZE).max(top + SIZE));
    [top, waist, bottom.max(waist + SIZE)]
}

fn figure(cut: &Cut, system: System, take: Callback<Dim>) -> AnyView {
    let place = Place::of(cut);
    let [width, height] = place.size();
    let steel = cut.steel.iter().map(|points| {
        let d = path(points.iter().map(|point| place.at(*point)), true);
        view! {
            <path class="steel" d=d.clone() />
            <path class="hatch" d=d.clone() />
            <path class="outline" d=d />
        }
    });
    let rows = rows(&place, &cut.levels);
    let height = height.max(rows[2] + ROOM);
    let lines = cut.levels.iter().zip(rows).map(|(level, y)| {
        let [from, to] = level.between.map(|end| place.at(end)[0]);
        let mm = level.between[1][0] - level.between[0][0];
        view! {
            <path class="dim" d=format!("M{from:.1} {y:.1}H{to:.1}") />
            <path class="arrow" d=arrow(from, y, -1.0, 0.0) />
            <path class="arrow" d=arrow(to, y, 1.0, 0.0) />
            <text class="size" x=0.5 * (from + to) y=y - 7.0>
                {fraction(mm, system)}
            </text>
        }
    });
    let walls = cut.walls.iter().map(|ends| {
        let [[from, y], [to, _]] = ends.map(|end| place.at(end));
        let mm = ends[1][0] - ends[0][0];
        view! {
            <path class="dim" d=format!("M{from:.1} {y:.1}H{to:.1}") />
            <path class="arrow" d=arrow(from, y, -1.0, 0.0) />
            <path class="arrow" d=arrow(to, y, 1.0, 0.0) />
            <text class="size follows-text" x=0.5 * (from + to) y=y - 7.0>
                "(" {fraction(mm, system)} ")"
            </text>
        }
    });
    let presses = cut.levels.iter().zip(rows).map(|(level, y)| {
        let [from, to] = level.between.map(|end| place.at(end)[0]);
        let dim = level.dim;
        let wide = (to - from).max(SIZE);
        let style = format!(
            "left:{:.1}%;top:{:.1}%;width:{:.1}%;height:{:.1}%",
            (0.5 * (from + to) - 0.5 * wide) / width * 100.0,
            (y - SIZE + 6.0) / height * 100.0,
            wide / width * 100.0,
            SIZE / height * 100.0
        );
        let mm = level.between[1][0] - level.between[0][0];
        let name = format!("{}, {} in the section", dim.words(), words::about(mm, system));
        view! {
            <button type="button" class="press" style=style aria-label=name on:click=move |_| take.run(dim)></button>
        }
    });
    view! {
        <div class="cut" style:max-width=format!("{width:.0}px")>
            <div class="cut-board">
                <svg
                    viewBox=format!("0 0 {width:.1} {height:.1}")
                    aria-hidden="true"
                    focusable="false"
                >
                    {steel.collect_view()} {lines.collect_view()} {walls.collect_view()}
                </svg>
                {presses.collect_view()}
            </div>
        </div>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Edit, Part, Size, starter, starter_names};
    use headwright::units::Length;

    #[test]
    fn the_figures_of_a_cut_stand_one_over_the_other() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            let high = Part::Eye.size(Size::WaistHeight);
            for waist in [-9.0, 0.0, 9.0] {
                let design = design.apply(Edit::set(high, Length::mm(waist)));
                let Ok(solid) = design.build() else { continue };
                for way in Way::BOTH {
                    let cut = cut(solid.head(), way);
                    let [top, middle, bottom] = rows(&Place::of(&cut), &cut.levels);
                    assert!(
                        middle - top >= SIZE && bottom - middle >= SIZE,
                        "{name} {waist}"
                    );
                }
            }
        }
    }
}
