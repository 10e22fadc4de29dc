//! What follows from the costs: price, wage and ledger.

use leptos::prelude::*;

use super::super::costs::Keeper;
use headwright::price::{Money, PriceError, Quote, TAXES, Wanted, quote};
use headwright::units::show_number;

/// What follows: the price that pays the wage, and what the given price pays.
#[component]
pub fn Answer(
    /// What is asked.
    asked: Keeper,
) -> impl IntoView {
    let answer = Memo::new(move |_| {
        asked.value.with(|costs| {
            let at_price = costs.sell.map(|price| quote(costs, Wanted::Price(price)));
            let at_price = at_price.transpose()?;
            // Where neither is said, that is what is wrong.
            let wage = costs
                .wage
                .or_else(|| at_price.is_none().then(Money::default));
            let for_wage = wage.map(|wage| quote(costs, Wanted::Wage(wage)));
            Ok((for_wage.transpose()?, at_price))
        })
    });
    view! {
        <div aria-live="polite">
            {move || match answer.get() {
                Err(errors) => wrong(errors).into_any(),
                Ok((for_wage, at_price)) => {
                    let of = at_price.as_ref().or(for_wage.as_ref());
                    view! {
                        {for_wage.as_ref().map(|for_wage| view! { <p class="log-price-said">{must(for_wage)}</p> })}
                        {at_price.as_ref().map(|at_price| view! { <p class="log-price-said">{pays(at_price)}</p> })}
                        {of.map(ledger)}
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
    use headwright::price::Costs;

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
}
