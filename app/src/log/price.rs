//! What a hammer must sell for, and what a price leaves for an hour.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{File, HtmlInputElement};

use super::super::files::save_text;
use super::super::keep;
use super::super::state::Workspace;
use super::super::workshop::Kept;
use headwright::price::{Costs, Money};

mod answer;
mod fields;

use answer::Answer;
use fields::{AMOUNTS, AmountField, COUNTS, CountField, FromTheLog, Heads, Sell, SteelField, Wage};

/// Name of the file of costs.
const FILE: &str = "costs.json";
/// Costs are a few hundred bytes; what is larger than this is something else.
const LARGEST: f64 = 1e6;

/// What is asked about the price, as the browser keeps it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Asked {
    /// What goes into hammers.
    pub costs: Costs,
    /// What an hour is to pay.
    wage: Money,
    /// What a head sells for, where that is given.
    sell: Option<Money>,
}

impl Asked {
    /// The usual questions about these costs.
    pub fn of(costs: Costs) -> Self {
        Self {
            costs,
            ..Self::default()
        }
    }
}

/// What goes into a head is the smith's to say; an hour of 30 is a number to begin with.
impl Default for Asked {
    fn default() -> Self {
        Self {
            costs: Costs::default(),
            wage: Money::cents(3000),
            sell: None,
        }
    }
}

/// The price.
#[component]
pub fn Price() -> impl IntoView {
    let workspace = Workspace::here();
    let say = move |sentence: String| workspace.say(&sentence, Vec::new());
    let asked = Kept::open(keep::PRICE, "The costs of a hammer", Asked::default(), say);
    view! {
        <section class="workshop log-price" aria-labelledby="log-price">
            <h2 id="log-price">"what a hammer must sell for"</h2>
            <p class="soft">"Entered once and kept in this browser. It goes along in the rack’s file; it is in no file of a design and in no link."</p>
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
            <OutAndIn asked=asked />
        </section>
    }
}

/// The costs out as a file, and in from one.
#[component]
fn OutAndIn(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let said = RwSignal::new(None::<String>);
    let save = move |_| {
        let text = asked.value.with_untracked(|asked| asked.costs.to_json());
        save_text(workspace, FILE, &text);
    };
    let read = move |file: File, input: HtmlInputElement| {
        spawn_local(async move {
            let text = if file.size() > LARGEST {
                None
            } else {
                let text = JsFuture::from(file.text()).await.ok();
                text.and_then(|text| text.as_string())
            };
            let costs =
                text.ok_or_else(|| "It is too large, or the browser could not read it.".to_owned());
            let costs =
                costs.and_then(|text| Costs::from_json(&text).map_err(|error| error.to_string()));
            let name = file.name();
            let came = match costs {
                Ok(costs) => {
                    asked.apply(|asked| asked.costs = costs);
                    format!("The costs are those of {name}.")
                }
                Err(reason) => {
                    format!("The file {name} was not taken in; the costs stand. {reason}")
                }
            };
            // The sheet may have been left meanwhile.
            drop(said.try_set(Some(came)));
            // The same file may be chosen again after it was mended.
            input.set_value("");
        });
    };
    view! {
        <div class="actions rack-files">
            <button type="button" class="plain" on:click=save>"save the costs as a file"</button>
            <label class="plain open-file">
                "take in costs"
                <input
                    type="file"
                    accept=".json,application/json"
                    on:change:target=move |event| {
                        let input = event.target();
                        if let Some(file) = input.files().and_then(|files| files.get(0)) {
                            read(file, input);
                        }
                    }
                />
            </label>
        </div>
        <p class="rack-report" role="status">{said}</p>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_asked_is_kept_and_read_again() {
        let asked = Asked {
            costs: Costs {
                minutes: 150.0,
                ..Costs::default()
            },
            wage: Money::cents(3650),
            sell: Some(Money::cents(18_000)),
        };
        let text = serde_json::to_string(&asked).expect("plain data");
        assert_eq!(serde_json::from_str::<Asked>(&text).ok(), Some(asked));
    }
}
