//! The cutting list: what it comes to, how good it is, and every bar to scale.

use leptos::prelude::*;

use super::super::super::words;
use headwright::cut::{Aim, Bound, CutBar, CuttingList, Order};
use headwright::units::{System, show_mass, show_number};

/// Width and height of a bar in the picture, px.
const WIDTH: f64 = 900.0;
const HEIGHT: f64 = 44.0;
/// Width of a letter, px.
const LETTER: f64 = 8.2;

/// The list of `order`; `old` when the order has changed since.
pub(super) fn shown(
    order: &Order,
    list: &CuttingList,
    old: bool,
    system: System,
) -> impl IntoView + use<> {
    let totals = &list.totals;
    let cost = |cost: f64| show_number((cost * 100.0).round() / 100.0);
    let longest = list.bars.iter().map(|bar| bar.length_mm);
    let longest = longest.fold(1.0, f64::max);
    let bars = list.bars.iter().map(|bar| picture(bar, longest, system));
    let bars = bars.collect_view();
    let rows = [
        ("pieces", totals.pieces.to_string()),
        ("bought", words::length(whole(totals.bought_mm), system)),
        ("in pieces", words::length(whole(totals.pieces_mm), system)),
        ("to the saw", words::length(whole(totals.kerf_mm), system)),
        ("offcuts", words::length(whole(totals.offcut_mm), system)),
        (
            "longest offcut",
            words::length(whole(totals.longest_offcut_mm), system),
        ),
    ];
    let of = order
        .section
        .map(|section| words::bar_section(section, system));
    view! {
        <div class="cutting-list">
            {old.then(|| view! { <p class="problem">"The order has changed since: find the list again."</p> })}
            <p class="answer">
                <strong>{bars_in_words(totals.bars)}</strong>
                {of.map(|of| format!(" of {of}"))}
                ". "
                {goodness(&list.bound, system)}
            </p>
            {(list.missing > 0)
                .then(|| {
                    view! {
                        <p class="problem">
                            {format!(
                                "What is on hand is not enough: {} of these bars are missing, of the longest stock. Mass and cost are without them.",
                                list.missing,
                            )}
                        </p>
                    }
                })}
            <ol class="cut-bars">{bars}</ol>
            <dl class="totals">
                {rows
                    .into_iter()
                    .map(|(name, value)| view! { <div><dt>{name}</dt><dd>{value}</dd></div> })
                    .collect_view()}
                {totals
                    .mass_kg
                    .map(|kg| view! { <div><dt>"mass"</dt><dd>{show_mass(kg, system)}</dd></div> })}
                {totals.cost.map(|sum| view! { <div><dt>"cost"</dt><dd>{cost(sum)}</dd></div> })}
            </dl>
        </div>
    }
}

fn whole(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

pub(super) fn bars_in_words(count: usize) -> String {
    if count == 1 {
        "1 bar".to_owned()
    } else {
        format!("{count} bars")
    }
}

/// How near the list is to the best there can be: lower bound and gap, always.
pub(super) fn goodness(bound: &Bound, system: System) -> String {
    let amount = |value: f64| match bound.aim {
        Aim::Bars => bars_in_words(value as usize),
        Aim::Missing => format!("{} missing", bars_in_words(value as usize)),
        Aim::Length => words::length(whole(value), system),
        Aim::Cost => show_number((value * 100.0).round() / 100.0),
    };
    if bound.proved {
        format!(
            "No list takes less than {}: proved, gap 0 %.",
            amount(bound.value)
        )
    } else {
        format!(
            "Every list takes at least {}; this one {}, so {:.1} % could be saved at most.",
            amount(bound.least),
            amount(bound.value),
            100.0 * bound.gap
        )
    }
}

/// One bar, or several alike, to scale.
fn picture(bar: &CutBar, longest: f64, system: System) -> impl IntoView + use<> {
    let scale = WIDTH / longest;
    let times = if bar.times > 1 {
        format!("{} times: ", bar.times)
    } else {
        String::new()
    };
    let at = |mm: f64| words::length(whole(mm), system);
    let heading = format!(
        "{times}bar of {}, {} left over{}",
        at(bar.length_mm),
        at(bar.offcut_mm),
        bar.mass_kg
            .map(|kg| format!(", {}", show_mass(kg, system)))
            .unwrap_or_default()
    );
    let pieces: Vec<_> = bar.pieces.iter().map(|piece| {
        let (x, width) = (piece.from_mm * scale, (piece.to_mm - piece.from_mm) * scale);
        let length = at(piece.to_mm - piece.from_mm);
        let room = |text: &str| text.chars().count() as f64 * LETTER < width;
        // A piece too short for its words is told below.
        let words = [format!("{} {length}", piece.name), length].into_iter().find(|text| room(text));
        view! {
            <rect class="cut-piece" x=x y="1" width=width height=HEIGHT - 2.0 />
            {words
                .map(|words| {
                    view! {
                        <text class="figure" x=x + 0.5 * width y=0.5 * HEIGHT + 5.0 text-anchor="middle">
                            {words}
                        </text>
                    }
                })}
        }
    }).collect();
    let told: Vec<String> = bar
        .pieces
        .iter()
        .map(|piece| format!("{} at {}", piece.name, at(piece.from_mm)))
        .collect();
    let told = told.join(", ");
    view! {
        <li>
            <p>{heading}</p>
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=told.clone()>
                <rect class="cut-stock" x="0" y="1" width=bar.length_mm * scale height=HEIGHT - 2.0 />
                {pieces}
            </svg>
            <details>
                <summary>"where each piece begins"</summary>
                <p class="soft">{told}</p>
            </details>
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_good_a_list_is_is_said_with_its_bound_and_gap() {
        let bound = |value, least, proved| Bound {
            aim: Aim::Bars,
            value,
            least,
            gap: (value - least) / value,
            proved,
            steel_proved: proved,
        };
        assert_eq!(
            goodness(&bound(4.0, 4.0, true), System::Metric),
            "No list takes less than 4 bars: proved, gap 0 %."
        );
        assert_eq!(
            goodness(&bound(5.0, 4.0, false), System::Metric),
            "Every list takes at least 4 bars; this one 5 bars, so 20.0 % could be saved at most."
        );
    }
}
