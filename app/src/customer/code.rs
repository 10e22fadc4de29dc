//! A link as a QR code, where a phone can read it.

use leptos::prelude::*;

use super::super::words::capitalized;
use headwright::share::qr::{Code, LEAST_PX};

/// The widest that a code is drawn, CSS pixels: what a phone has between its margins.
const ROOM_PX: u32 = 340;
/// The widest module that is drawn, CSS pixels.
const MOST_PX: u32 = 6;

/// The code of an address, or why it has none.
#[component]
pub fn LinkCode(
    /// The whole address.
    address: String,
    /// What it is: "the answer’s link".
    what: &'static str,
    /// What makes room for the code where it has none, for who can do that.
    #[prop(optional)]
    advice: &'static str,
) -> impl IntoView {
    let code = Code::of(&address, |code| module(code) >= LEAST_PX);
    match code.filter(|code| module(code) >= LEAST_PX) {
        None => view! {
            <p class="soft">
                {format!("There is no code for a phone: {what} is too long for one that a phone reads. {advice}")}
            </p>
        }
        .into_any(),
        Some(code) => {
            let across = code.across();
            let wide = across * module(&code).min(MOST_PX);
            view! {
                <figure class="link-code">
                    <svg
                        role="img"
                        aria-label=format!("QR code of {what}")
                        viewBox=format!("0 0 {across} {across}")
                        width=wide
                        height=wide
                        shape-rendering="crispEdges"
                    >
                        <rect width=across height=across />
                        <path d=code.path() />
                    </svg>
                    <figcaption class="soft">{format!("{}, for the camera of a phone", capitalized(what))}</figcaption>
                </figure>
            }
            .into_any()
        }
    }
}

/// How wide a module of `code` can be, CSS pixels.
fn module(code: &Code) -> u32 {
    ROOM_PX / code.across()
}
