//! What goes into a hammer, each in a field.

use leptos::prelude::*;

use super::super::super::cutting::search::Found;
use super::super::super::field::Field;
use super::super::super::state::Workspace;
use super::super::super::words::plain_number;
use super::super::super::workshop::Workshop;
use super::super::costs::Keeper;
use super::super::here;
use headwright::log::Outcome;
use headwright::log::minutes::minutes;
use headwright::price::{Costs, Money, MoneyError, Steel};
use headwright::units::show_number;

/// An amount of the costs: its id and label, whether it is for an hour, and where it stands.
pub type Amount = (
    &'static str,
    &'static str,
    bool,
    fn(&mut Costs) -> &mut Money,
);

/// The amounts.
pub const AMOUNTS: [Amount; 5] = [
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
pub type Count = (
    &'static str,
    &'static str,
    &'static str,
    fn(&mut Costs) -> &mut f64,
);

/// The numbers.
pub const COUNTS: [Count; 5] = [
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

fn read_money(text: &str) -> Result<Money, String> {
    text.parse().map_err(|error: MoneyError| error.to_string())
}

/// An amount that may be left open.
fn read_maybe(text: &str) -> Result<Option<Money>, String> {
    let said = !text.trim().is_empty();
    said.then(|| read_money(text)).transpose()
}

fn maybe(money: Option<Money>) -> String {
    money.map(|money| money.to_string()).unwrap_or_default()
}

/// The currency, of an amount or of one for an hour.
fn currency(asked: Keeper, per_hour: bool) -> Signal<String> {
    Signal::derive(move || {
        let money = asked.value.with(|costs| costs.currency.clone());
        if per_hour {
            format!("{money}/h")
        } else {
            money
        }
    })
}

/// Currency and number of heads.
#[component]
pub fn Heads(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    view! {
        <Field
            id="price-currency"
            label="currency"
            value=Signal::derive(move || asked.value.with(|costs| costs.currency.clone()))
            unit=Signal::derive(String::new)
            read=move |text: String| {
                asked.show(|costs| costs.currency = text.trim().to_owned());
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
        <Field
            id="price-heads"
            label="good heads of the batch"
            value=Signal::derive(move || asked.value.with(|costs| costs.heads.to_string()))
            unit=Signal::derive(|| "heads".to_owned())
            read=move |text: String| {
                let heads = text.trim().parse().map_err(|_| format!("“{}” is no whole number of heads.", text.trim()))?;
                asked.show(|costs| costs.heads = heads);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// What the steel costs: by the piece, or from the cutting list.
#[component]
pub fn SteelField(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    let workspace = Workspace::here();
    let found = Workshop::open(workspace.notice).searching.found;
    let list = Memo::new(move |_| {
        asked.value.with(|costs| match costs.steel {
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
                        on:click=move |_| asked.apply(|costs| costs.steel = Steel::default())
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
                        asked.value.with(|costs| match costs.steel {
                            Steel::Each(money) => money.to_string(),
                            Steel::List { .. } => String::new(),
                        })
                    })
                    unit=currency(asked, false)
                    read=move |text: String| {
                        let money = read_money(&text)?;
                        asked.show(|costs| costs.steel = Steel::Each(money));
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
                            on:click=move |_| asked.apply(|costs| costs.steel = steel)
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
pub fn AmountField(
    /// What is asked.
    asked: Keeper,
    /// Which amount.
    amount: Amount,
) -> impl IntoView {
    let (id, label, per_hour, place) = amount;
    view! {
        <Field
            id=id
            label=label
            value=Signal::derive(move || place(&mut asked.value.get()).to_string())
            unit=currency(asked, per_hour)
            read=move |text: String| {
                let money = read_money(&text)?;
                asked.show(|costs| *place(costs) = money);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// A field for a number.
#[component]
pub fn CountField(
    /// What is asked.
    asked: Keeper,
    /// Which number.
    count: Count,
) -> impl IntoView {
    let (id, label, unit, place) = count;
    view! {
        <Field
            id=id
            label=label
            value=Signal::derive(move || show_number(hundredths(*place(&mut asked.value.get()))))
            unit=Signal::derive(move || unit.to_owned())
            read=move |text: String| {
                let number = plain_number(&text)?;
                asked.show(|costs| *place(costs) = number);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// Minutes and spoiled pieces as the log has them.
#[component]
pub fn FromTheLog(
    /// What is asked.
    asked: Keeper,
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
                            .apply(|costs| {
                                costs.minutes = hundredths(minutes);
                                costs.spoiled_percent = hundredths(spoiled);
                            });
                    }
                >
                    "minutes and spoiled pieces from the log"
                </button>
            }
        })
    }
}

/// As it is shown: what stands in a file is what stands on the sheet.
fn hundredths(number: f64) -> f64 {
    (number * 100.0).round() / 100.0
}

/// The wanted wage.
#[component]
pub fn Wage(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    view! {
        <Field
            id="price-wage"
            label="an hour is to pay"
            value=Signal::derive(move || maybe(asked.value.with(|costs| costs.wage)))
            unit=currency(asked, true)
            placeholder=Signal::derive(|| "not said".to_owned())
            read=move |text: String| {
                let wage = read_maybe(&text)?;
                asked.show(|costs| costs.wage = wage);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}

/// The price that a head sells for.
#[component]
pub fn Sell(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    view! {
        <Field
            id="price-sell"
            label="a head sells for"
            value=Signal::derive(move || maybe(asked.value.with(|costs| costs.sell)))
            unit=currency(asked, false)
            placeholder=Signal::derive(|| "not said".to_owned())
            read=move |text: String| {
                let price = read_maybe(&text)?;
                asked.show(|costs| costs.sell = price);
                Ok(())
            }
            keep=move |()| asked.keep()
            put_back=move |()| asked.put_back()
        />
    }
}
