//! What a part may be besides its sizes: corners, outlines, crowns, edges, transitions, necks,
//! and what it may do without.

use leptos::prelude::*;

use headwright::design::Part;

mod extra;
mod eye;
mod face;
mod runs;
mod section;
mod tip;

use extra::Extras;
use eye::EyeKind;
use face::CrownAndEdge;
use runs::{AddNeck, Over, TakeOff};
use section::Section;
use tip::{TipKind, is};

/// The choices of one part.
#[component]
pub fn Choices(
    /// The part, as [`words::group`] names it.
    part: Part,
) -> impl IntoView {
    match part {
        Part::Cheeks => view! {
            <Section part=part />
            <Extras part=part />
            <Extras part=Part::Lugs />
        }
        .into_any(),
        Part::Neck(side, index) => view! {
            <Section part=part />
            <Over part=part />
            <TakeOff side=side last=index />
        }
        .into_any(),
        Part::Face(side) => view! {
            <TipKind side=side />
            <Show when=move || is(side, "face")>
                <Section part=part />
                <CrownAndEdge side=side />
            </Show>
            <Show when=move || is(side, "pein")>
                <Section part=Part::Pein(side) />
                <Extras part=Part::Pein(side) />
            </Show>
            <Extras part=Part::End(side) />
            <Over part=Part::End(side) />
            <AddNeck side=side />
        }
        .into_any(),
        Part::Eye => view! {
            <EyeKind />
            <Extras part=part />
        }
        .into_any(),
        Part::Lugs
        | Part::EyeTop
        | Part::EyeWaist
        | Part::EyeBottom
        | Part::End(_)
        | Part::Ball(_)
        | Part::Pein(_) => ().into_any(),
    }
}
