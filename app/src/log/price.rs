//! What a hammer must sell for, and what a price leaves for an hour.

use leptos::prelude::*;
use wasm_bindgen::JsValue;

use super::super::files::{offer, save_text};
use super::super::state::Workspace;
use super::super::taken::{Report, Reported, TakeIn, Unreadable};
use super::costs::{self, Keeper};
use headwright::price::Costs;

mod answer;
mod choice;
mod fields;

use answer::Answer;
use choice::Choices;
use fields::{AMOUNTS, AmountField, COUNTS, CountField, FromTheLog, Heads, Sell, SteelField, Wage};

/// Names of the files of costs.
const FILE: &str = "costs.json";
const TABLE: &str = "costs.csv";
/// Costs are a few hundred bytes; what is larger than this is something else.
const LARGEST: f64 = 1e6;

/// The price.
#[component]
pub fn Price() -> impl IntoView {
    let asked = costs::open(Workspace::here());
    let trouble = move || asked.trouble.get().map(costs::sentence);
    let unread = move || asked.kept.with(costs::Kept::unread);
    view! {
        <section class="workshop log-price" aria-labelledby="log-price">
            <h2 id="log-price">"what a hammer must sell for"</h2>
            <p class="soft">"Entered once and kept in this browser. It goes along in the rack’s file; it is in no file of a design and in no link."</p>
            <p class="problem" role="status">{trouble}</p>
            {move || view! { <Unreadable all=unread() /> }}
            <Choices asked=asked />
            <div class="field-columns">
                <div class="rows">
                    <Heads asked=asked />
                    <SteelField asked=asked />
                    {AMOUNTS.map(|amount| view! { <AmountField asked=asked amount=amount /> }).into_iter().collect_view()}
                </div>
                <div class="rows">
                    {COUNTS.map(|count| view! { <CountField asked=asked count=count /> }).into_iter().collect_view()}
                    <FromTheLog asked=asked />
                </div>
                <div class="rows">
                    <Wage asked=asked />
                    <Sell asked=asked />
                </div>
            </div>
            <Answer asked=asked />
            // Before, what goes out and what is said of what comes in would not be the smith's.
            <Show when=move || asked.is_read()>
                <OutAndIn asked=asked />
            </Show>
        </section>
    }
}

/// The costs out as a file or a table, and in from either.
#[component]
fn OutAndIn(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    let workspace = Workspace::here();
    let report = RwSignal::new(None::<Report>);
    let file = move |_| save_text(workspace, FILE, &asked.value.with_untracked(Costs::to_json));
    let table = move |_| {
        let text = asked.value.with_untracked(Costs::to_csv);
        offer(workspace, TABLE, "text/csv", &JsValue::from_str(&text));
    };
    let took = move |(name, text): (String, Result<String, String>)| {
        let came = text.and_then(|text| {
            Costs::read(&text).map_err(|errors| {
                let sentences: Vec<String> = errors.iter().map(ToString::to_string).collect();
                sentences.join(" ")
            })
        });
        report.set(Some(match came {
            Ok(costs) => {
                let said = asked.take_in(&name, vec![costs]);
                Report::of(format!("From {name}: {said}"))
            }
            Err(reason) => Report::refused(&name, "the costs stand", &reason),
        }));
    };
    view! {
        <div class="actions rack-files">
            <button type="button" class="plain" on:click=file>"save the costs as a file"</button>
            <button type="button" class="plain" on:click=table>
                "save the costs as a table (CSV)"
            </button>
            <TakeIn
                label="take in costs"
                kinds=".json,.csv,application/json,text/csv"
                what="a file of costs"
                most=LARGEST
                took=took
            />
        </div>
        <Reported report=report />
    }
}
