//! What a hammer must sell for, and what a price leaves for an hour.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{File, HtmlInputElement};

use super::super::cutting::search::Found;
use super::super::field::Field;
use super::super::files::save_text;
use super::super::keep;
use super::super::state::Workspace;
use super::super::words::plain_number;
use super::super::workshop::{Kept, Workshop};
use super::here;
use headwright::log::Outcome;
use headwright::log::minutes::minutes;
use headwright::price::{Costs, Money, PriceError, Quote, Steel, TAXES, Wanted, quote};
use headwright::units::show_number;

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

impl Asked {
    /// The usual questions about these costs.
    pub fn of(costs: Costs) -> Self {
        Self {
            costs,
            ..Self::default()
        }
    }
}

/// An amount of the costs: its id and label, whether it is for an hour, and where it stands.
type Amount = (
    &'static str,
    &'static str,
    bool,
    fn(&mut Costs) -> &mut Money,
);

const AMOUNTS: [Amount; 5] = [
    (
        "price-wood",
        "handle, wedges and what else only a good head gets",
        false,
        |costs| &mut costs.wood,
    ),
    (
        "price-used",
        "belts, flux, oil and finish for a head",
        false,
        |costs| &mut costs.consumables,
    ),
    ("price-fuel", "fuel of the fire", true, |costs| {
        &mut costs.fuel_per_hour
    }),
    ("price-overhead", "rent, tools, insurance", true, |costs| {
        &mut costs.overhead_per_hour
    }),
    (
        "price-post",
        "parcel and post of a head, if the price has them in it",
        false,
        |costs| &mut costs.post,
    ),
];

/// A number of the costs: its id, label and unit, and where it stands.
type Count = (
    &'static str,
    &'static str,
    &'static str,
    fn(&mut Costs) -> &mut f64,
);

const COUNTS: [Count; 5] = [
    ("price-minutes", "work on a head", "min", |costs| {
        &mut costs.minutes
    }),
    ("price-heat", "the fire burns for a head", "min", |costs| {
        &mut costs.heat_minutes
    }),
    (
        "price-once",
        "work done once for the batch",
        "min",
        |costs| &mut costs.batch_minutes,
    ),
    (
        "price-spoiled",
        "pieces spoiled, of all begun",
        "%",
        |costs| &mut costs.spoiled_percent,
    ),
    ("price-fees", "fees, of the price", "%", |costs| {
        &mut costs.fees_percent
    }),
];

/// The price.
#[component]
pub fn Price() -> impl IntoView {
    let workspace = Workspace::here();
    let say = move |sentence: String| workspace.say(&sentence, Vec::new());
    let asked = Kept::open(keep::PRICE, "The costs of a hammer", Asked::default(), say);
    view! {
        <section class="workshop log-price" aria-labelledby="log-price">
            <h2 id="log-price">"what a hammer must sell for"</h2>
            <p class="soft">"Entered once and kept in this browser. It is in no file of a design and in no link."</p>
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

fn read_money(text: &str) -> Result<Money, String> {
    text.parse()
        .map_err(|error: headwright::price::MoneyError| error.to_string())
}

/// The currency, of an amount or of one for an hour.
fn currency(asked: Kept<Asked>, per_hour: bool) -> Signal<String> {
    Signal::derive(move || {
        let money = asked.value.with(|asked| asked.costs.currency.clone());
        if per_hour {
            format!("{money}/h")
        } else {
            money
        }
    })
}

/// Currency and number of heads.
#[component]
fn Heads(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    view! {
        <Field
            id="price-currency"
            label="currency"
            value=Signal::derive(move || asked.value.with(|asked| asked.costs.currency.clone()))
            unit=Signal::derive(String::new)
            read=move |text: String| {
                asked.show(|asked| asked.costs.currency = text.trim().to_owned());
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
        <Field
            id="price-heads"
            label="good heads of the batch"
            value=Signal::derive(move || asked.value.with(|asked| asked.costs.heads.to_string()))
            unit=Signal::derive(|| "heads".to_owned())
            read=move |text: String| {
                let heads = text.trim().parse().map_err(|_| format!("“{}” is no whole number of heads.", text.trim()))?;
                asked.show(|asked| asked.costs.heads = heads);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// What the steel costs: by the piece, or from the cutting list.
#[component]
fn SteelField(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let found = Workshop::open(workspace.notice).searching.found;
    let list = Memo::new(move |_| {
        asked.value.with(|asked| match asked.costs.steel {
            Steel::List { cost, pieces } => Some((cost, pieces)),
            Steel::Each(_) => None,
        })
    });
    let of_the_list = move || found.with(from_the_list);
    move || {
        let by_the_piece = match list.get() {
            Some((cost, pieces)) => view! {
                <p class="row">
                    {move || {
                        let money = currency(asked, false).get();
                        format!("The steel costs {cost} {money} for the {pieces} pieces of the cutting list. ")
                    }}
                    <button
                        type="button"
                        class="plain"
                        on:click=move |_| asked.apply(|asked| asked.costs.steel = Steel::default())
                    >
                        "by the piece"
                    </button>
                </p>
            }
            .into_any(),
            None => view! {
                <Field
                    id="price-steel"
                    label="steel of a piece"
                    value=Signal::derive(move || {
                        asked.value.with(|asked| match asked.costs.steel {
                            Steel::Each(money) => money.to_string(),
                            Steel::List { .. } => String::new(),
                        })
                    })
                    unit=currency(asked, false)
                    read=move |text: String| {
                        let money = read_money(&text)?;
                        asked.show(|asked| asked.costs.steel = Steel::Each(money));
                        Ok(())
                    }
                    keep=move |()| asked.keep()
                    put_back=move |()| asked.put_back()
                />
            }
            .into_any(),
        };
        view! {
            {by_the_piece}
            {move || {
                of_the_list().map(|steel| {
                    view! {
                        <button
                            type="button"
                            class="plain"
                            on:click=move |_| asked.apply(|asked| asked.costs.steel = steel)
                        >
                            "steel from the cutting list"
                        </button>
                    }
                })
            }}
        }
    }
}

/// What a whole cutting list with prices comes to.
fn from_the_list(found: &Found) -> Option<Steel> {
    let Found::List(answer, _) = found else {
        return None;
    };
    let list = &answer.1;
    let cents = list.totals.cost.filter(|_| list.missing == 0)? * 100.0;
    Some(Steel::List {
        cost: Money::cents(cents.round() as i64),
        pieces: u32::try_from(list.totals.pieces).ok()?,
    })
}

/// A field for an amount.
#[component]
fn AmountField(
    /// What is asked.
    asked: Kept<Asked>,
    /// Which amount.
    amount: Amount,
) -> impl IntoView {
    let (id, label, per_hour, place) = amount;
    view! {
        <Field
            id=id
            label=label
            value=Signal::derive(move || place(&mut asked.value.get().costs).to_string())
            unit=currency(asked, per_hour)
            read=move |text: String| {
                let money = read_money(&text)?;
                asked.show(|asked| *place(&mut asked.costs) = money);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// A field for a number.
#[component]
fn CountField(
    /// What is asked.
    asked: Kept<Asked>,
    /// Which number.
    count: Count,
) -> impl IntoView {
    let (id, label, unit, place) = count;
    view! {
        <Field
            id=id
            label=label
            value=Signal::derive(move || show_number((*place(&mut asked.value.get().costs) * 100.0).round() / 100.0))
            unit=Signal::derive(move || unit.to_owned())
            read=move |text: String| {
                let number = plain_number(&text)?;
                asked.show(|asked| *place(&mut asked.costs) = number);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// Minutes and spoiled pieces as the log has them.
#[component]
fn FromTheLog(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    let keeper = here();
    let of_the_log = move || {
        let told = keeper
            .builds
            .with(|builds| minutes(builds.as_deref().unwrap_or_default()));
        let finished = told.finished();
        let good = finished.len();
        let sum: f64 = finished.iter().map(|(_, minutes)| minutes).sum();
        let ended = |outcome| {
            told.builds
                .iter()
                .filter(|it| it.outcome == outcome)
                .count() as f64
        };
        let (all, spoiled) = (ended(Outcome::Finished), ended(Outcome::Spoiled));
        (good > 0).then(|| (sum / good as f64, spoiled / (all + spoiled) * 100.0))
    };
    move || {
        of_the_log().map(|(minutes, spoiled)| {
            view! {
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| {
                        asked
                            .apply(|asked| {
                                asked.costs.minutes = minutes;
                                asked.costs.spoiled_percent = spoiled;
                            });
                    }
                >
                    "minutes and spoiled pieces from the log"
                </button>
            }
        })
    }
}

/// The wanted wage.
#[component]
fn Wage(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    view! {
        <Field
            id="price-wage"
            label="an hour is to pay"
            value=Signal::derive(move || asked.value.with(|asked| asked.wage.to_string()))
            unit=currency(asked, true)
            read=move |text: String| {
                let wage = read_money(&text)?;
                asked.show(|asked| asked.wage = wage);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// The price that a head sells for.
#[component]
fn Sell(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    view! {
        <Field
            id="price-sell"
            label="a head sells for"
            value=Signal::derive(move || {
                asked.value.with(|asked| asked.sell.map(|price| price.to_string()).unwrap_or_default())
            })
            unit=currency(asked, false)
            placeholder=Signal::derive(|| "not said".to_owned())
            read=move |text: String| {
                let price = if text.trim().is_empty() { None } else { Some(read_money(&text)?) };
                asked.show(|asked| asked.sell = price);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// What follows: the price that pays the wage, and what the given price pays.
#[component]
fn Answer(
    /// What is asked.
    asked: Kept<Asked>,
) -> impl IntoView {
    let answer = Memo::new(move |_| {
        asked.value.with(|asked| {
            let for_wage = quote(&asked.costs, Wanted::Wage(asked.wage))?;
            let at_price = asked
                .sell
                .map(|price| quote(&asked.costs, Wanted::Price(price)));
            Ok((for_wage, at_price.transpose()?))
        })
    });
    view! {
        <div aria-live="polite">
            {move || match answer.get() {
                Err(errors) => wrong(errors).into_any(),
                Ok((for_wage, at_price)) => {
                    let of = at_price.clone().unwrap_or_else(|| for_wage.clone());
                    view! {
                        <p class="log-price-said">{must(&for_wage)}</p>
                        {at_price.as_ref().map(|at_price| view! { <p class="log-price-said">{pays(at_price)}</p> })}
                        {ledger(&of)}
                    }
                        .into_any()
                }
            }}
        </div>
        <p>{TAXES}</p>
    }
}

fn wrong(errors: Vec<PriceError>) -> impl IntoView {
    let all = errors
        .into_iter()
        .map(|error| view! { <p>{error.to_string()}</p> });
    view! {
        <div class="problems">
            <h3>"No price can be worked out"</h3>
            {all.collect_view()}
        </div>
    }
}

/// The price that pays the wage.
fn must(quote: &Quote) -> String {
    format!(
        "To pay {} {money} an hour, a head must sell for {} {money}.",
        quote.wage,
        quote.price,
        money = quote.currency
    )
}

/// The wage that the price pays.
fn pays(quote: &Quote) -> String {
    let money = &quote.currency;
    let less = if quote.wage < Money::cents(0) {
        " The price does not pay what goes into the head: every hour costs you money."
    } else {
        ""
    };
    format!(
        "Sold for {} {money}, an hour pays {} {money}.{less}",
        quote.price, quote.wage
    )
}

/// What ten minutes less on every head are worth.
fn ten_minutes(quote: &Quote) -> Option<String> {
    let money = &quote.currency;
    let less = quote.ten_minutes?;
    Some(format!(
        "Ten minutes less on every head: {} {money} off the price with the same wage, or {} {money} more for an hour at the same price.",
        less.off_price, less.on_wage
    ))
}

/// The ledger of one head and of the batch.
fn ledger(quote: &Quote) -> impl IntoView + use<> {
    let lines = quote.one.iter().zip(&quote.batch).map(|(one, batch)| {
        view! {
            <tr>
                <th scope="row">{one.item.words()}</th>
                <td>{one.amount.to_string()}</td>
                <td>{batch.amount.to_string()}</td>
            </tr>
        }
    });
    let lines = lines.collect_view();
    let begun = show_number((quote.pieces * 100.0).round() / 100.0);
    view! {
        <table class="log-table">
            <thead>
                <tr>
                    <th scope="col">{quote.currency.clone()}</th>
                    <td>"one head"</td>
                    <td>{format!("batch of {}", quote.heads)}</td>
                </tr>
            </thead>
            <tbody>
                {lines}
                <tr class="sum">
                    <th scope="row">"price"</th>
                    <td>{quote.price.to_string()}</td>
                    <td>{quote.batch_price.to_string()}</td>
                </tr>
            </tbody>
        </table>
        <p>{format!("{:.1} h of work for {} good of {begun} begun.", quote.hours, quote.heads)}</p>
        <p>{ten_minutes(quote)}</p>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn costs() -> Costs {
        Costs {
            minutes: 150.0,
            fees_percent: 10.0,
            ..Costs::default()
        }
    }

    #[test]
    fn price_and_wage_are_said_in_the_currency() {
        let paid = quote(&costs(), Wanted::Wage(Money::cents(3600))).expect("a price");
        assert_eq!(
            must(&paid),
            "To pay 36.00 EUR an hour, a head must sell for 100.00 EUR."
        );
        let sold = quote(&costs(), Wanted::Price(Money::cents(5000))).expect("a wage");
        assert_eq!(pays(&sold), "Sold for 50.00 EUR, an hour pays 18.00 EUR.");
        let ten = ten_minutes(&paid).expect("more than ten minutes");
        // 93.34 instead of 100.00: both are rounded up to the cent.
        assert!(ten.contains("6.66 EUR off the price"), "{ten}");
    }

    #[test]
    fn a_price_that_pays_nothing_is_said_to_cost_money() {
        let costs = Costs {
            wood: Money::cents(9000),
            ..costs()
        };
        let sold = quote(&costs, Wanted::Price(Money::cents(5000))).expect("a wage");
        assert!(pays(&sold).contains("every hour costs you money"));
    }

    #[test]
    fn what_is_asked_is_kept_and_read_again() {
        let asked = Asked {
            costs: costs(),
            wage: Money::cents(3650),
            sell: Some(Money::cents(18_000)),
        };
        let text = serde_json::to_string(&asked).expect("plain data");
        assert_eq!(serde_json::from_str::<Asked>(&text).ok(), Some(asked));
    }
}
