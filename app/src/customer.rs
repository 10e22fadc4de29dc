//! What a customer sees of a head: an offer that came as a link, and the answer to one.
//!
//! No step, size or word of the workshop stands here unless the smith shares it. Texts of a link are shown as text, and
//! nothing of it takes the place of the head on the sheet before that has been said and pressed.

use leptos::prelude::*;

use super::address;
use super::state::Workspace;
use super::top::{Looks, Units};
use headwright::design::Design;
use headwright::share::link::LinkError;
use headwright::share::offer::{Answer, Offer};
use headwright::solid::Solid;
use headwright::units::System;

mod answer;
mod choices;
mod code;
mod facts;
mod handed;
mod offered;
mod saying;
mod terms;

pub use saying::OfferScreen;

/// The offer or the answer of the link in front.
#[component]
pub fn CustomerScreen() -> impl IntoView {
    let page = Workspace::here();
    move || {
        let text = page.customer_link.get().unwrap_or_default();
        let system = page.system.get_untracked();
        let shown = of_link(&text, system).unwrap_or_else(|sentence| {
            view! {
                <h1 class="screen-name">"This link can’t be shown"</h1>
                <p class="problem" role="alert">{sentence}</p>
                <button type="button" class="plain" on:click=move |_| address::leave_offer(page)>
                    "draw a head of your own"
                </button>
            }
            .into_any()
        });
        view! {
            <article class="customer">
                {shown}
                <footer class="customer-foot">
                    <Units />
                    <Looks />
                </footer>
            </article>
        }
    }
}

/// What the link `text` holds, if it is sound.
fn of_link(text: &str, system: System) -> Result<AnyView, String> {
    let refused = |error: LinkError| error.to_string();
    match Offer::decode(text) {
        Ok(offer) => match offer.build() {
            Ok(solid) => Ok(view! { <offered::Offered offer=offer solid=solid /> }.into_any()),
            Err(errors) => Err(joined(errors.iter().map(|error| error.sentence(system)))),
        },
        Err(LinkError::Other(_)) => {
            let answer = Answer::decode(text).map_err(refused)?;
            match answer.offer.choose(&answer.choice) {
                Ok(chosen) => {
                    Ok(view! { <answer::Answered answer=answer chosen=chosen /> }.into_any())
                }
                Err(errors) => Err(joined(errors.iter().map(|error| error.sentence(system)))),
            }
        }
        Err(error) => Err(refused(error)),
    }
}

fn joined(sentences: impl Iterator<Item = String>) -> String {
    sentences.collect::<Vec<_>>().join(" ")
}

/// The workspace of a link's head, after which the page is called.
fn apart(page: Workspace, design: Design, solid: Solid) -> Workspace {
    document().set_title(&design.name);
    page.apart(design, solid)
}
