//! What is to be said of a head to who is to use it.

use leptos::prelude::*;

use super::super::fetched::Picture;
use super::super::picture::Shown;
use super::super::quantity::MassNumber;
use super::super::state::Workspace;
use super::super::words;
use headwright::design::{Side, TipShape};
use headwright::share::offer::{Terms, in_the_hand};
use headwright::units::{show_length, show_mass, unit_word};

/// The head, which can be turned.
#[component]
pub fn Turning() -> impl IntoView {
    let own = Workspace::here();
    let label = move || {
        let name = own.design.with(|design| design.name.clone());
        let weight = own.properties.with(|p| show_mass(p.mass, own.system.get()));
        format!("{name}, {weight}, hanging from its handle")
    };
    let shown = Shown {
        solid: own.sound.into(),
        properties: own.properties.into(),
        standing: Signal::stored(""),
        label: Signal::derive(label),
        theme: own.theme.into(),
    };
    view! {
        <div class="customer-picture balance">
            <Picture shown=shown />
        </div>
    }
}

/// Weight, handle, ends, steel and wood, and the price where it is named.
#[component]
pub fn Facts(
    /// What the smith says.
    terms: Terms,
) -> impl IntoView {
    let own = Workspace::here();
    let (design, system) = (own.design, own.system);
    let handle = move || {
        let system = system.get();
        let length = design.with(|d| show_length(d.handle.length, system));
        format!("{length} {}", unit_word(system))
    };
    let tip = move |side: Side| design.with(|d| TipShape::of(&d.end(side).tip).words());
    view! {
        <dl class="facts">
            <div class="fact-weight">
                <dt>"finished head"</dt>
                <dd class="big">
                    <MassNumber kg=Signal::derive(move || own.properties.with(|p| p.mass)) system=system />
                </dd>
            </div>
            <div>
                <dt>"handle, over all"</dt>
                <dd>{handle}</dd>
            </div>
            <div>
                <dt>"front"</dt>
                <dd>{move || tip(Side::Front)}</dd>
            </div>
            <div>
                <dt>"back"</dt>
                <dd>{move || tip(Side::Back)}</dd>
            </div>
            <div>
                <dt>"steel"</dt>
                <dd>
                    {move || {
                        let grade = design.with(|d| d.heat.steel.grade);
                        format!("{}, {}", grade.name(), grade.words())
                    }}
                </dd>
            </div>
            <div>
                <dt>"wood of the handle"</dt>
                <dd>{move || design.with(|d| d.handle.wood.words().to_owned())}</dd>
            </div>
            {terms
                .price
                .map(|price| {
                    view! {
                        <div>
                            <dt>"price"</dt>
                            <dd>{price.to_string()}</dd>
                        </div>
                    }
                })}
        </dl>
    }
}

/// How it sits in the hand, and what the smith wrote.
#[component]
pub fn Sentences() -> impl IntoView {
    let own = Workspace::here();
    let hand = Memo::new(move |_| {
        let system = own.system.get();
        own.design
            .with(|design| own.sound.with(|solid| in_the_hand(design, solid, system)))
    });
    let note = own.design.with_untracked(|design| design.note.clone());
    view! {
        <section aria-labelledby="in-the-hand">
            <h2 id="in-the-hand">"how it sits in the hand"</h2>
            <p>{move || hand.with(|said| said.join(" "))}</p>
        </section>
        {(!note.trim().is_empty())
            .then(|| {
                view! {
                    <section aria-labelledby="smiths-note">
                        <h2 id="smiths-note">"from the smith"</h2>
                        <p class="written">{note}</p>
                    </section>
                }
            })}
    }
}

/// All sizes of the head, for who is shown them.
#[component]
pub fn Sizes() -> impl IntoView {
    let own = Workspace::here();
    let rows = move || {
        let system = own.system.get();
        own.design.with(|design| {
            let parts = words::groups(design).into_iter().map(|part| {
                let sizes = words::sizes_of(design, part).into_iter();
                let sizes = sizes.filter_map(|dim| Some((dim, design.size(dim)?)));
                let sizes = sizes.map(|(dim, size)| {
                    view! {
                        <div>
                            <dt>{words::label(design, dim)}</dt>
                            <dd>{size.words(system)}</dd>
                        </div>
                    }
                });
                view! {
                    <h3>{words::heading_of(design, part)}</h3>
                    <dl class="facts">{sizes.collect_view()}</dl>
                }
            });
            parts.collect_view()
        })
    };
    view! {
        <section aria-labelledby="shared-sizes">
            <h2 id="shared-sizes">"sizes, cold"</h2>
            {rows}
        </section>
    }
}
