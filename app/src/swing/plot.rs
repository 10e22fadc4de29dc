//! A number against the size that is swept.

use std::fmt::Write;

use leptos::prelude::*;

use super::super::axis::{Axis, tick};
use super::sweep::bench::Done;
use headwright::compare::Figure;
use headwright::units::{
    KG_MM2_PER_LB_IN2, KG_PER_POUND, M_PER_FOOT, MM_PER_INCH, Measure, N_PER_POUND_FORCE, System,
    inertia_unit_word, unit_word,
};

/// The picture and the plot in it, px.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 250.0;
const LEFT: f64 = 58.0;
const RIGHT: f64 = 326.0;
const TOP: f64 = 16.0;
const BOTTOM: f64 = 200.0;
/// Room above and below the curve, as a share of its height.
const ROOM: f64 = 0.22;
/// The least height of a curve, as a share of its numbers: what does not change is drawn level.
const LEAST_HEIGHT: f64 = 0.01;

/// How much one of the shown unit is, and the unit.
pub fn unit(figure: Figure, system: System) -> (f64, &'static str) {
    let metric = system == System::Metric;
    match figure {
        Figure::Reach | Figure::OtherReach | Figure::Balance | Figure::BalancePoint => {
            length(system)
        }
        Figure::Hand | Figure::Anvil => length(system),
        Figure::HeadMass | Figure::ToolMass | Figure::Strikes | Figure::StrikesBeside => {
            if metric {
                (1.0, "kg")
            } else {
                (KG_PER_POUND, "lb")
            }
        }
        Figure::HandleInertia | Figure::GripInertia => {
            let one = if metric { 1.0 } else { KG_MM2_PER_LB_IN2 };
            (one, inertia_unit_word(system))
        }
        Figure::Twist if metric => (1.0, "rad/s per N·s"),
        Figure::Twist => (N_PER_POUND_FORCE.recip(), "rad/s per lbf·s"),
        Figure::Tilt | Figure::Elbow => (1f64.to_radians(), "°"),
        Figure::Sting if metric => (1.0, "m/s per N·s"),
        Figure::Sting => (M_PER_FOOT / N_PER_POUND_FORCE, "ft/s per lbf·s"),
        Figure::TurningMoment if metric => (1.0, "N·mm"),
        Figure::TurningMoment => (MM_PER_INCH * N_PER_POUND_FORCE, "in·lbf"),
    }
}

fn length(system: System) -> (f64, &'static str) {
    match system {
        System::Metric => (1.0, unit_word(system)),
        System::Imperial => (MM_PER_INCH, unit_word(system)),
    }
}

/// How much one of the unit of a size is, and the unit.
fn size_unit(size: Measure, system: System) -> (f64, &'static str) {
    match size {
        Measure::Length(_) => length(system),
        Measure::Angle(_) => (1.0, "°"),
    }
}

/// The least and the greatest of `numbers` with room about them.
fn around(numbers: impl Iterator<Item = f64> + Clone) -> [f64; 2] {
    let low = numbers.clone().fold(f64::INFINITY, f64::min);
    let high = numbers.fold(f64::NEG_INFINITY, f64::max);
    let least = LEAST_HEIGHT * low.abs().max(high.abs()).max(1e-6);
    let height = (high - low).max(least);
    let middle = (low + high) / 2.0;
    [-1.0, 1.0].map(|way| middle + way * height * (0.5 + ROOM))
}

/// A number to four figures.
fn figures(number: f64) -> String {
    let unit = 10f64.powf(number.abs().max(1e-9).log10().floor() - 3.0);
    tick((number / unit).round() * unit)
}

/// The plot of `figure`; a sentence where too few steps have it.
pub fn plot(done: &Done, figure: Figure, system: System) -> AnyView {
    let reached = done.reached();
    let (one, word) = unit(figure, system);
    let Some((size, _)) = reached.first() else {
        return ().into_any();
    };
    let (one_of_size, word_of_size) = size_unit(*size, system);
    let points: Vec<[f64; 2]> = reached
        .iter()
        .map(|(size, hammer)| {
            [
                size.number() / one_of_size,
                hammer.measured.get(figure) / one,
            ]
        })
        .filter(|[_, y]| y.is_finite())
        .collect();
    let ([first, .., last], Some(from), Some(to)) =
        (points.as_slice(), done.steps.first(), done.steps.last())
    else {
        return view! { <p class="soft">"Fewer than two steps have this number."</p> }.into_any();
    };
    let x = Axis {
        ends: [from, to].map(|step| step.value.number() / one_of_size),
        px: [LEFT + 12.0, RIGHT - 12.0],
    };
    let y = Axis {
        ends: around(points.iter().map(|[_, y]| *y)),
        px: [BOTTOM, TOP],
    };
    let mut curve = String::new();
    for (place, [px, py]) in points.iter().enumerate() {
        let letter = if place == 0 { 'M' } else { 'L' };
        // Writing to a string cannot fail.
        let _ = write!(curve, "{letter}{:.1} {:.1}", x.at(*px), y.at(*py));
    }
    // Where the curve is not: beside its left end it rises or falls to the right, and the other way round.
    let rises = last[1] > first[1];
    let ends = [(first, "short"), (last, "long")].map(|([px, py], class)| {
        let (cx, cy) = (x.at(*px), y.at(*py));
        let left = class == "short";
        let (anchor, dx) = if left { ("start", 6.0) } else { ("end", -6.0) };
        let dy = if rises == left { 22.0 } else { -10.0 };
        view! {
            <path class="drop" d=format!("M{cx:.1} {cy:.1}V{BOTTOM}") />
            <circle class=format!("dot {class}") cx=format!("{cx:.1}") cy=format!("{cy:.1}") r="5" />
            <text class="amount" x=format!("{:.1}", cx + dx) y=format!("{:.1}", cy + dy) text-anchor=anchor>
                {figures(*py)}
            </text>
        }
    });
    let names = done.names();
    let label = format!(
        "{} against {}: {} at {} {word_of_size}, {} at {} {word_of_size}",
        figure.words(),
        done.dim.words(),
        said(first[1], word),
        figures(first[0]),
        said(last[1], word),
        figures(last[0]),
    );
    view! {
        <figure class="sweep-plot">
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=label>
                {y.ticks()
                    .into_iter()
                    .map(|number| {
                        let at = y.at(number);
                        view! {
                            <path class="grid" d=format!("M{LEFT} {at:.1}H{RIGHT}") />
                            <text class="figure" x=LEFT - 8.0 y=format!("{:.1}", at + 5.0) text-anchor="end">{tick(number)}</text>
                        }
                    })
                    .collect_view()}
                <path class="base" d=format!("M{LEFT} {BOTTOM}H{RIGHT}") />
                {x.ticks()
                    .into_iter()
                    .map(|number| {
                        let at = x.at(number);
                        view! {
                            <path class="tick" d=format!("M{at:.1} {BOTTOM}v5") />
                            <text class="figure" x=format!("{at:.1}") y=BOTTOM + 20.0 text-anchor="middle">{tick(number)}</text>
                        }
                    })
                    .collect_view()}
                <path class="curve" d=curve />
                {ends.into_iter().collect_view()}
                <text class="figure" x=RIGHT y=HEIGHT - 8.0 text-anchor="end">
                    {format!("{}, {word_of_size}", done.dim.words())}
                </text>
            </svg>
            <figcaption class="soft">
                {format!("In {}. Filled dot: {}; open dot: {}.", word_for(word), names[0], names[1])}
            </figcaption>
        </figure>
    }
    .into_any()
}

/// The unit as a caption says it.
fn word_for(unit: &str) -> &str {
    if unit == "°" { "degrees" } else { unit }
}

fn said(number: f64, unit: &str) -> String {
    let space = if unit == "°" { "" } else { " " };
    format!("{}{space}{unit}", figures(number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_change_has_room_about_it_all_the_same() {
        let [low, high] = around([1.2, 1.2].into_iter());
        assert!(low < 1.2 && 1.2 < high);
        let [low, high] = around([0.0, 0.0].into_iter());
        assert!(low < 0.0 && 0.0 < high);
    }

    #[test]
    fn a_number_in_the_shown_unit_is_the_one_that_the_tables_show() {
        for figure in Figure::ALL {
            for system in [System::Metric, System::Imperial] {
                let (one, word) = unit(figure, system);
                let shown = figure.show(10.0 * one, system);
                // Fractions, ounces and grams are written otherwise and mean the same.
                if shown.ends_with(word) && !shown.contains('/') || shown.contains(" per ") {
                    assert!(shown.starts_with("10"), "{figure:?}: {shown}");
                }
            }
        }
    }

    #[test]
    fn a_value_has_four_figures_and_a_true_minus() {
        assert_eq!(figures(1352.49), "1352");
        assert_eq!(figures(5.912_34), "5.912");
        assert_eq!(figures(-0.25), "−0.25");
    }
}
