//! Other costs that came with a file: which are to count is the smith's to say.

use leptos::prelude::*;

use super::super::costs::{Change, Keeper, from};
use headwright::price::Costs;

/// Where costs come from that are put back after others were taken in their place.
const COUNTED: &str = "what counted before";

/// Costs that went by an answer, with where they come from.
#[derive(Clone, PartialEq)]
struct Gone {
    from: String,
    costs: Costs,
}

/// All costs that wait, and those that went, until the page is closed.
#[component]
pub fn Choices(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    let gone = RwSignal::new(Vec::<Gone>::new());
    let waiting = Memo::new(move |_| asked.kept.with(|kept| kept.others.clone()));
    let own = Memo::new(move |_| asked.kept.with(|kept| kept.costs().cloned()));
    let choices = move || {
        let all = waiting.get().into_iter();
        let choice =
            |(id, other)| view! { <Choice asked=asked id=id other=other own=own gone=gone /> };
        all.map(choice).collect_view()
    };
    let put_back = move || {
        let one = |it: Gone| {
            let from = &it.from;
            let (said, label) = if it.from == COUNTED {
                (
                    "The costs that counted before are gone.".to_owned(),
                    "put back what counted before".to_owned(),
                )
            } else {
                (
                    format!("The costs from {from} are gone."),
                    format!("put back the costs from {from}"),
                )
            };
            let back = move |_| {
                asked.make(Change::TakeIn(it.from.clone(), vec![it.costs.clone()]));
                gone.update(|gone| gone.retain(|other| *other != it));
            };
            view! {
                <p>
                    {said} " They can be put back as long as this sheet is open. "
                    <button type="button" class="plain" on:click=back>
                        {label}
                    </button>
                </p>
            }
        };
        gone.get().into_iter().map(one).collect_view()
    };
    view! {
        {choices}
        <div role="status">{put_back}</div>
    }
}

/// Both costs where they differ, and the two answers.
#[component]
fn Choice(
    /// What is asked.
    asked: Keeper,
    /// The id of the other costs.
    id: String,
    /// The other costs.
    other: Costs,
    /// Those that count.
    own: Memo<Option<Costs>>,
    /// What went.
    gone: RwSignal<Vec<Gone>>,
) -> impl IntoView {
    let said = format!(
        "Other costs came from {}. Which are to count? Until you say so, yours do.",
        from(&id)
    );
    let theirs = other.clone();
    let rows = move || {
        let own = own.get().unwrap_or_default();
        let rows = different(&own, &theirs).into_iter();
        rows.map(|[what, yours, theirs]| {
            view! {
                <tr>
                    <th scope="row">{what}</th>
                    <td>{yours}</td>
                    <td>{theirs}</td>
                </tr>
            }
        })
        .collect_view()
    };
    let leave = {
        let (id, other) = (id.clone(), other.clone());
        move |_| {
            asked.make(Change::Leave(id.clone()));
            let from = from(&id).to_owned();
            let costs = other.clone();
            gone.update(|gone| gone.push(Gone { from, costs }));
        }
    };
    let take = move |_| {
        // What is being typed is among those that go.
        asked.keep();
        let before = own.get_untracked();
        asked.make(Change::Take(id.clone()));
        gone.update(|gone| {
            gone.extend(before.map(|costs| Gone {
                from: COUNTED.to_owned(),
                costs,
            }));
        });
    };
    view! {
        <div class="log-asked">
            <p class="log-note">{said}</p>
            <table class="log-table">
                <thead>
                    <tr>
                        <th scope="col">"cost"</th>
                        <td>"yours"</td>
                        <td>"the others"</td>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
            <div class="log-presses">
                <button type="button" class="way" on:click=leave>"keep yours"</button>
                <button type="button" class="way" on:click=take>"take the others"</button>
            </div>
        </div>
    }
}

/// What the two say of each line in which they differ: what it is, and both with their units.
fn different(own: &Costs, other: &Costs) -> Vec<[String; 3]> {
    let both = own.lines().into_iter().zip(other.lines());
    let different =
        both.filter(|(own, other)| (&own.value, &own.unit) != (&other.value, &other.unit));
    let told = |value: String, unit: &str| match value.as_str() {
        "" => "not said".to_owned(),
        _ => format!("{value} {unit}").trim_end().to_owned(),
    };
    let rows = different.map(|(own, other)| {
        let what = own.what.to_owned();
        [
            what,
            told(own.value, &own.unit),
            told(other.value, &other.unit),
        ]
    });
    rows.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::price::{Money, Steel};

    #[test]
    fn both_are_said_where_they_differ() {
        let own = Costs {
            wage: Some(Money::cents(3000)),
            ..Costs::default()
        };
        let other = Costs {
            minutes: 90.5,
            steel: Steel::List {
                cost: Money::cents(2760),
                pieces: 8,
            },
            ..Costs::default()
        };
        let rows = different(&own, &other);
        let rows: Vec<[&str; 3]> = rows
            .iter()
            .map(|row| [0, 1, 2].map(|cell| row[cell].as_str()))
            .collect();
        assert_eq!(
            rows,
            [
                ["the steel of a piece", "0.00 EUR", "not said"],
                [
                    "the bars of a cutting list, in the place of that",
                    "not said",
                    "27.60 EUR"
                ],
                ["the pieces of that cutting list", "not said", "8 pieces"],
                ["work on a head", "120 min", "90.5 min"],
                ["what an hour is to pay", "30.00 EUR/h", "not said"],
            ]
        );
        assert_eq!(different(&own, &own), Vec::<[String; 3]>::new());
    }
}
