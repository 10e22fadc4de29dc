//! A link that is handed out: into the clipboard, and where it can be copied by hand.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::address;
use super::super::words::capitalized;
use super::code::LinkCode;

/// A press that makes a link, and the link once it is made.
#[component]
pub fn HandOut(
    /// What the press says.
    words: &'static str,
    /// What the link is: "the answer’s link".
    what: &'static str,
    /// What makes a link that is too long for a code shorter, for who can do that.
    #[prop(optional)]
    advice: &'static str,
    /// Makes it.
    #[prop(into)]
    make: Callback<(), Result<String, String>>,
    /// Changes when a link that was made no longer says what is shown.
    #[prop(into)]
    changes: Signal<u32>,
) -> impl IntoView {
    let made = RwSignal::new(None::<Result<(String, bool), String>>);
    Effect::new(move || {
        changes.track();
        made.set(None);
    });
    let hand_out = move |_| match make.run(()) {
        Err(sentence) => made.set(Some(Err(sentence))),
        Ok(link) => spawn_local(async move {
            let address = address::whole(&link);
            let copied = address::in_clipboard(&address).await;
            // The page may have been left, or something chosen, while the clipboard was asked.
            let _ = made.try_set(Some(Ok((address, copied))));
        }),
    };
    view! {
        <button type="button" class="main-way" on:click=hand_out>
            {words}
        </button>
        <div role="status">
            {move || {
                made.get()
                    .map(|made| match made {
                        Err(sentence) => view! { <p class="problem">{sentence}</p> }.into_any(),
                        Ok((address, copied)) => {
                            let subject = capitalized(what);
                            let said = if copied {
                                format!("{subject} is copied: paste it into a message.")
                            } else {
                                format!("{subject} stands here: copy all of it into a message.")
                            };
                            let code = address.clone();
                            view! {
                                <p>{said}</p>
                                <input
                                    class="handed"
                                    type="text"
                                    readonly
                                    aria-label=what
                                    prop:value=address
                                    on:focus:target=move |event| event.target().select()
                                />
                                <LinkCode address=code what=what advice=advice />
                            }
                                .into_any()
                        }
                    })
            }}
        </div>
    }
}
