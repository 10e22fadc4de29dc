//! An offer, as the customer sees it.

use leptos::prelude::*;

use super::super::address;
use super::super::state::Workspace;
use super::apart;
use super::choices::{Choices, Chooser};
use super::code::LinkCode;
use super::facts::{Facts, Sentences, Sizes, Turning};
use super::handed::HandOut;
use headwright::share::offer::{Answer, Offer, Stage, Stands};
use headwright::solid::Solid;

/// The offer.
#[component]
pub fn Offered(
    /// The offer, which is sound.
    offer: Offer,
    /// The head that is offered.
    solid: Solid,
) -> impl IntoView {
    let page = Workspace::here();
    let own = apart(page, offer.design.clone(), solid);
    provide_context(own);
    let terms = offer.terms.clone();
    let chooser = Chooser::new(offer, own);
    view! {
        <p class="soft">"drawn for you"</p>
        <h1 class="screen-name">{own.design.with_untracked(|design| design.name.clone())}</h1>
        <Turning />
        <Facts terms=terms.clone() />
        <Sentences />
        {terms.stands.map(|stands| view! { <Standing stands=stands /> })}
        {terms.shares_sizes.then(|| view! { <Sizes /> })}
        {(!terms.open.is_empty()).then(|| view! { <Choices chooser=chooser /> })}
        <YourAnswer chooser=chooser />
        <p class="soft">
            "This is the head as drawn. A forged one differs a little, and each is weighed before it leaves. This page does not change by itself: ask the smith for a newer one."
        </p>
        <OnAnotherDevice page=page />
        <IntoTheWorkshop page=page />
    }
}

/// The code of this page.
#[component]
fn OnAnotherDevice(
    /// The workspace of the page.
    page: Workspace,
) -> impl IntoView {
    let link = page.customer_link.get_untracked().unwrap_or_default();
    view! {
        <section aria-labelledby="another-device">
            <h2 id="another-device">"on another device"</h2>
            <LinkCode address=address::whole(&link) what="this page" />
        </section>
    }
}

/// Where the work stands, as the smith said it on a day.
#[component]
fn Standing(
    /// What was said.
    stands: Stands,
) -> impl IntoView {
    let reached = Stage::ALL.iter().position(|stage| *stage == stands.stage);
    let stages = Stage::ALL.into_iter().enumerate().map(|(index, stage)| {
        let here = Some(index) == reached;
        let done = Some(index) < reached;
        view! {
            <li class:here=here class:done=done aria-current=here.then_some("step")>
                <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">
                    <circle cx="8" cy="8" r="6.5" />
                </svg>
                {stage.words()}
                {done.then(|| view! { <span class="aloud">", done"</span> })}
            </li>
        }
    });
    view! {
        <section aria-labelledby="where-it-stands">
            <h2 id="where-it-stands">"where it stands"</h2>
            <p class="soft">{format!("as of {}, from the smith", stands.as_of)}</p>
            <ol class="stages">{stages.collect_view()}</ol>
        </section>
    }
}

/// What the answer says, and the press that sends it.
#[component]
fn YourAnswer(
    /// What is chosen.
    chooser: Chooser,
) -> impl IntoView {
    let own = Workspace::here();
    let said = move || {
        let choice = chooser.choice.get();
        let system = own.system.get();
        let differences = chooser
            .offer
            .with_value(|offer| offer.differences(&choice, system));
        if differences.is_empty() {
            return view! { <p>"As it is drawn."</p> }.into_any();
        }
        let differences = differences.into_iter().map(|one| view! { <li>{one}</li> });
        view! { <ul class="differences">{differences.collect_view()}</ul> }.into_any()
    };
    let make = move |()| {
        let offer = chooser.offer.get_value();
        let choice = chooser.choice.get_untracked();
        Answer { offer, choice }
            .encode()
            .map_err(|error| error.to_string())
    };
    view! {
        <section aria-labelledby="your-answer">
            <h2 id="your-answer">"your answer"</h2>
            <div role="status">{said}</div>
            <HandOut words="Send this answer" what="the answer’s link" make=make changes=chooser.turns />
        </section>
    }
}

/// The way into the workshop, which asks before the head there makes room.
#[component]
fn IntoTheWorkshop(
    /// The workspace of the page.
    page: Workspace,
) -> impl IntoView {
    let own = Workspace::here();
    let asks = RwSignal::new(false);
    // Asked once at a press: what follows the page's head would run once more when the page leaves for it.
    let there = move || page.design.with_untracked(|design| design.name.clone());
    let open = move |_| {
        let design = own.design.get_untracked();
        address::leave_offer(page);
        page.bring(format!("link to {}", design.name), design, None);
    };
    view! {
        <section class="way-in">
            <button
                type="button"
                class="plain"
                aria-expanded=move || asks.get().to_string()
                on:click=move |_| asks.update(|asks| *asks = !*asks)
            >
                "open it in the workshop"
            </button>
            {move || {
                asks.get()
                    .then(|| {
                        view! {
                            <p role="alert">
                                {format!(
                                    "This head comes onto a sheet of its own in front of “{}”, which stands in the workshop of this browser and stays on its rack; undo brings it back in front.",
                                    there(),
                                )}
                            </p>
                            <p class="actions">
                                <button type="button" class="plain" on:click=open>
                                    "put it there"
                                </button>
                                <button type="button" class="plain" on:click=move |_| asks.set(false)>
                                    "leave it as it is"
                                </button>
                            </p>
                        }
                    })
            }}
        </section>
    }
}
