//! The foot of the sheet: what the marks mean, undo, keeping, files and link.

use leptos::prelude::*;

use super::address;
use super::files;
use super::mark::{Mark, State};
use super::state::{Screen, Workspace};
use super::top::{Looks, Units};
use headwright::mesh::Format;

/// A sentence about link, file or storage, until it has been read.
#[component]
pub fn Notice() -> impl IntoView {
    let workspace = Workspace::here();
    let opening = move || {
        workspace.opening.get().then(|| {
            view! {
                <p class="notice" role="status">
                    "The link is being opened …"
                </p>
            }
        })
    };
    let said = move || {
        workspace.notice.get().map(|sentence| {
            view! {
                <div class="notice" role="alert">
                    <p>{sentence}</p>
                    {workspace
                        .offered
                        .get()
                        .into_iter()
                        .map(|offered| {
                            let words = offered.words.clone();
                            view! {
                                <button
                                    type="button"
                                    class="plain"
                                    on:click=move |_| files::save_offered(workspace, &offered)
                                >
                                    {words}
                                </button>
                            }
                        })
                        .collect_view()}
                    <button
                        type="button"
                        class="plain"
                        on:click=move |_| {
                            workspace.notice.set(None);
                            workspace.offered.set(Vec::new());
                        }
                    >
                        "I have read this"
                    </button>
                </div>
            }
        })
    };
    (opening, said)
}

/// Key to the marks, undo and redo, file and link.
#[component]
pub fn Foot() -> impl IntoView {
    let workspace = Workspace::here();
    let copied = RwSignal::new(None::<String>);
    Effect::new(move || {
        workspace.design.track();
        copied.set(None);
    });
    view! {
        <div class="foot">
            <ul class="key" aria-label="marks">
                <li class="free"><Mark state=State::Free /> "free: the fit may move it"</li>
                <li class="locked"><Mark state=State::Locked /> "locked: stays as you set it"</li>
                <li class="held"><Mark state=State::Held /> "held: a target to keep"</li>
            </ul>
            <div class="actions">
                <Steps />
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| address::copy(workspace, copied)
                >
                    "copy link"
                </button>
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| {
                        workspace.keep();
                        workspace.screen.set(Screen::Offer);
                    }
                >
                    "for the customer …"
                </button>
                <button type="button" class="plain" on:click=move |_| files::save_design(workspace)>
                    "save as file"
                </button>
                <files::Open />
                <Shapes />
            </div>
            <p class="done" role="status">{copied}</p>
        </div>
    }
}

/// The head's shape as a file, one press for each format.
#[component]
fn Shapes() -> impl IntoView {
    let workspace = Workspace::here();
    let buttons = Format::ALL.map(|format| {
        view! {
            <button
                type="button"
                class="plain"
                aria-label=format!("save the shape as {}", format.name())
                on:click=move |_| files::save_shape(workspace, format)
            >
                {format.name()}
            </button>
        }
    });
    view! {
        <div class="shapes" role="group" aria-label="save the shape, to print or to show">
            <span aria-hidden="true">"to print or to show:"</span>
            {buttons.into_iter().collect_view()}
        </div>
    }
}

/// Undo and redo, each with the name of its step.
#[component]
pub fn Steps() -> impl IntoView {
    let workspace = Workspace::here();
    view! {
        {move || {
                    workspace
                        .undo_name()
                        .map(|name| {
                            view! {
                                <button type="button" class="plain" on:click=move |_| workspace.undo()>
                                    {format!("undo {name}")}
                                </button>
                            }
                        })
                }}
        {move || {
                    workspace
                        .redo_name()
                        .map(|name| {
                            view! {
                                <button type="button" class="plain" on:click=move |_| workspace.redo()>
                                    {format!("redo {name}")}
                                </button>
                            }
                        })
                }}
    }
}

/// The foot of every screen: what to mind, and the choices that the phone has no room for above.
#[component]
pub fn PageFoot() -> impl IntoView {
    view! {
        <footer class="page-foot">
            <p class="cautions">
                "Numbers are estimates for planning: weigh and measure. Hot steel burns long after it has stopped glowing. Cover eyes, ears and face at saw and grinder. Your local codes come first."
            </p>
            <Units />
            <Looks />
        </footer>
    }
}
