//! The browser app: one sheet in front of the smith at a time.
//!
//! Components read signals of the [`Workspace`] and emit edits; they compute nothing but text and
//! pixels. What a page needs beyond that (storage, address, look) hangs on effects that are set
//! up here, once.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

mod address;
mod aloud;
mod axis;
mod bar;
mod card;
mod clock;
mod customer;
mod cutting;
mod entry;
mod fetched;
mod field;
mod figure;
mod files;
mod finished;
mod fitting;
mod foot;
mod handle;
mod hanging;
mod head;
mod heat;
mod history;
mod holding;
mod journal;
mod keep;
mod keys;
mod later;
mod list;
mod log;
mod margin;
mod mark;
mod offline;
mod page;
mod pick;
mod picture;
mod quantity;
mod rack;
mod settle;
mod sheet;
mod silhouette;
mod spread;
mod starters;
mod state;
mod stem;
mod stepper;
mod strip;
mod swing;
mod taken;
mod terms;
mod texts;
mod theme;
mod top;
mod tracer;
mod turned;
mod ways;
mod words;
mod workshop;

use state::{Screen, Workspace};

fn main() {
    // A panic would be a fault of ours; the hook writes it to the console and nowhere else.
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(App);
}

/// The whole page.
#[component]
fn App() -> impl IntoView {
    let workspace = Workspace::new(keep::open());
    provide_context(workspace);
    workspace.fetch_fit();
    theme::follow(workspace);
    address::follow(workspace);
    journal::follow(workspace);
    fetched::keep_rack(workspace);
    keys::follow(workspace);
    title(workspace.behind());
    turn(workspace);
    turned::follow();
    // Who opens an offer sees nothing of the workshop.
    let in_workshop = Memo::new(move |_| workspace.screen.get() != Screen::Customer);
    let newer = offline::follow();
    view! {
        <a class="skip" href="#sheet">"Skip to the sheet"</a>
        {move || in_workshop.get().then(|| view! { <top::Top /> <strip::Strip /> })}
        <main id="sheet" class="page" tabindex="-1">
            <foot::Notice />
            <offline::Newer newer=newer />
            {move || match workspace.screen.get() {
                Screen::Head => view! { <head::Head /> }.into_any(),
                Screen::Handle => view! { <fetched::Handle /> }.into_any(),
                Screen::Bar => view! { <fetched::Bar /> }.into_any(),
                Screen::Heat => view! { <fetched::Heat /> }.into_any(),
                Screen::Swing => view! { <fetched::Swing /> }.into_any(),
                Screen::Card => view! { <fetched::Card /> }.into_any(),
                Screen::Log => view! { <fetched::Log /> }.into_any(),
                Screen::Rack => view! { <fetched::Rack /> }.into_any(),
                Screen::Starters => view! { <fetched::Starters /> }.into_any(),
                Screen::Offer => view! { <fetched::Offer /> }.into_any(),
                Screen::Customer => view! { <fetched::Customer /> }.into_any(),
            }}
            {move || in_workshop.get().then(|| view! { <foot::PageFoot /> })}
        </main>
        <aloud::Aloud />
    }
}

/// The page is called after the head; what is offered calls it after itself.
fn title(workspace: Workspace) {
    Effect::new(move || {
        if workspace.screen.get() == Screen::Customer {
            return;
        }
        let name = workspace.design.with(|design| design.name.clone());
        document().set_title(&format!("{name} – Headwright"));
    });
}

/// A new sheet is read from its top, and has the focus when what had it is gone.
fn turn(workspace: Workspace) {
    Effect::new(move |before: Option<()>| {
        workspace.screen.track();
        if before.is_none() {
            return;
        }
        window().scroll_to_with_x_and_y(0.0, 0.0);
        request_animation_frame(|| {
            let lost = document()
                .active_element()
                .is_none_or(|at| at.tag_name() == "BODY");
            let sheet = document()
                .get_element_by_id("sheet")
                .and_then(|sheet| sheet.dyn_into::<HtmlElement>().ok());
            if let Some(sheet) = sheet
                && lost
            {
                // A sheet that cannot take the focus is read all the same.
                let _ = sheet.focus();
            }
        });
    });
}
