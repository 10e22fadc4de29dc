//! What does not come with the page: each part is a file of its own, fetched when it is first opened.
//!
//! What only such a part uses goes into its file by itself; `.ci/split` makes the files.

use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

use super::bar::BarScreen;
use super::card::CardScreen;
use super::customer::{CustomerScreen, OfferScreen};
use super::fitting::Fitter;
use super::handle::HandleScreen;
use super::hanging::Hanging;
use super::heat::HeatScreen;
use super::log::{LogScreen, for_the_bar};
use super::margin::at_once;
use super::picture::{Shown, Turned};
use super::rack::{RackScreen, keeper};
use super::starters::Starters as StartersScreen;
use super::state::Workspace;
use super::swing::SwingScreen;
use super::terms::{Meaning as MeaningOf, Subject};
use headwright::bar::Bar as Cut;
use headwright::design::Design;
use headwright::mass::surface_area;
use headwright::mesh::{Format, STL, tessellate};
use headwright::share::link::{LinkError, decode, encode};
use headwright::solid::Solid;

/// What fits heads to what is held, in the file `fit`.
///
/// # Errors
/// That file did not come.
#[wasm_split(fit, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn fitter() -> Result<Fitter, SplitLoaderError> {
    Ok(Fitter::whole())
}

/// The bar's sheet, in the file `bar`.
#[wasm_split(bar, wasm_split_path = ::leptos::wasm_split, fallible)]
fn bar() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <BarScreen /> }.into_any())
}

/// The bar's sheet, or what stands in its place until it is there.
#[component]
pub fn Bar() -> impl IntoView {
    fetched(bar)
}

/// The handle's sheet, in the file `handle`.
#[wasm_split(handle, wasm_split_path = ::leptos::wasm_split, fallible)]
fn handle() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <HandleScreen /> }.into_any())
}

/// The handle's sheet, or what stands in its place until it is there.
#[component]
pub fn Handle() -> impl IntoView {
    fetched(handle)
}

/// The heat treatment's sheet, in the file `heat`.
#[wasm_split(heat, wasm_split_path = ::leptos::wasm_split, fallible)]
fn heat() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <HeatScreen /> }.into_any())
}

/// The heat treatment's sheet, or what stands in its place until it is there.
#[component]
pub fn Heat() -> impl IntoView {
    fetched(heat)
}

/// The swing's sheet, in the file `swing`.
#[wasm_split(swing, wasm_split_path = ::leptos::wasm_split, fallible)]
fn swing() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <SwingScreen /> }.into_any())
}

/// The swing's sheet, or what stands in its place until it is there.
#[component]
pub fn Swing() -> impl IntoView {
    fetched(swing)
}

/// The card, in the file `card`.
#[wasm_split(card, wasm_split_path = ::leptos::wasm_split, fallible)]
fn card() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <CardScreen /> }.into_any())
}

/// The card, or what stands in its place until it is there.
#[component]
pub fn Card() -> impl IntoView {
    fetched(card)
}

/// The log, in the file `log`.
#[wasm_split(log, wasm_split_path = ::leptos::wasm_split, fallible)]
fn log() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <LogScreen /> }.into_any())
}

/// The losses that the log has taught for a bar, in the file `log`; they go to `done` once the log is read.
///
/// # Errors
/// That file did not come.
#[wasm_split(log, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn learned(
    workspace: Workspace,
    sheet: Owner,
    bar: Cut,
    done: Callback<(Option<Cut>, String)>,
) -> Result<(), SplitLoaderError> {
    sheet.with(|| for_the_bar(workspace, bar, done));
    Ok(())
}

/// The log, or what stands in its place until it is there.
#[component]
pub fn Log() -> impl IntoView {
    fetched(log)
}

/// The starters, in the file `starters`.
#[wasm_split(starters, wasm_split_path = ::leptos::wasm_split, fallible)]
fn starters() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <StartersScreen /> }.into_any())
}

/// The starters, or what stands in their place until they are there.
#[component]
pub fn Starters() -> impl IntoView {
    fetched(starters)
}

/// The offer or the answer of a link, in the file `customer`.
#[wasm_split(customer, wasm_split_path = ::leptos::wasm_split, fallible)]
fn customer() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <CustomerScreen /> }.into_any())
}

/// The offer or the answer of a link, or what stands in its place until it is there.
#[component]
pub fn Customer() -> impl IntoView {
    fetched(customer)
}

/// What is offered to a customer, in the file `customer`.
#[wasm_split(customer, wasm_split_path = ::leptos::wasm_split, fallible)]
fn offer() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <OfferScreen /> }.into_any())
}

/// What is offered to a customer, or what stands in its place until it is there.
#[component]
pub fn Offer() -> impl IntoView {
    fetched(offer)
}

/// What a word means, in the file `words`.
#[wasm_split(words, wasm_split_path = ::leptos::wasm_split, fallible)]
fn words(subject: Subject) -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <MeaningOf subject=subject /> }.into_any())
}

/// What a word means, or what stands in its place until it is there.
#[component]
pub fn Meaning(
    /// What is explained.
    subject: Subject,
) -> impl IntoView {
    fetched(move || words(subject))
}

/// The rack's sheet, in the file `rack`.
#[wasm_split(rack, wasm_split_path = ::leptos::wasm_split, fallible)]
fn rack() -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <RackScreen /> }.into_any())
}

/// The rack's sheet, or what stands in its place until it is there.
#[component]
pub fn Rack() -> impl IntoView {
    fetched(rack)
}

/// What takes up on the rack what is on the sheet, in the file `keeper`.
#[wasm_split(keeper, wasm_split_path = ::leptos::wasm_split, fallible)]
fn keeper_of(workspace: Workspace, page: Owner) -> Result<(), SplitLoaderError> {
    page.with(|| keeper::open(workspace));
    Ok(())
}

/// Fetches what keeps the rack, and lets it begin. Until it has come the browser has the journal; the rack's sheet
/// begins it too, so that another try is made there.
pub fn keep_rack(workspace: Workspace) {
    let page = Owner::current().unwrap_or_default();
    spawn_local(async move {
        // A part that does not come is asked for again by the rack's sheet, which says so.
        let _ = keeper_of(workspace, page).await;
    });
}

/// What can be had at once, in the file `at_once`.
#[wasm_split(at_once, wasm_split_path = ::leptos::wasm_split, fallible)]
fn curve(search: at_once::Kept) -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <at_once::Curve search=search /> }.into_any())
}

/// What can be had at once, or what stands in its place until it is there.
#[component]
pub fn Curve(
    /// What was asked and found.
    search: at_once::Kept,
) -> impl IntoView {
    fetched(move || curve(search))
}

/// The design of a link, in the file `link`.
///
/// # Errors
/// That file did not come.
#[wasm_split(link, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn read_link(text: String) -> Result<Result<Design, LinkError>, SplitLoaderError> {
    Ok(decode(&text))
}

/// The link of `design`, in the file `link`.
///
/// # Errors
/// That file did not come.
#[wasm_split(link, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn write_link(design: Design) -> Result<Result<String, LinkError>, SplitLoaderError> {
    Ok(encode(&design))
}

/// The shaded picture, in the file `picture`.
#[wasm_split(picture, wasm_split_path = ::leptos::wasm_split, fallible)]
fn shaded(shown: Shown) -> Result<AnyView, SplitLoaderError> {
    Ok(view! { <Turned shown=shown /> }.into_any())
}

/// The shaded picture; the plain side view stands in its place until it is there, and when it does not come.
#[component]
pub fn Picture(
    /// What it shows.
    shown: Shown,
) -> impl IntoView {
    let plain = move || view! { <Hanging solid=shown.solid properties=shown.properties standing=shown.standing /> };
    view! {
        <Suspense fallback=move || view! { <div class="picture">{plain()}</div> }>
            {move || Suspend::new(async move {
                match shaded(shown).await {
                    Ok(picture) => picture,
                    Err(_) => {
                        view! {
                            <div class="picture">
                                {plain()}
                                <p class="picture-hint">
                                    "The shaded picture could not be fetched: here is the side view. All else works."
                                </p>
                            </div>
                        }
                            .into_any()
                    }
                }
            })}
        </Suspense>
    }
}

/// The surface of the head, mm², measured in the file `surface`.
///
/// # Errors
/// That file did not come.
#[wasm_split(surface, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn surface(solid: Solid) -> Result<f64, SplitLoaderError> {
    Ok(surface_area(&solid))
}

/// The head's shape as the content of a file, written in the file `shapes`.
///
/// # Errors
/// That file did not come.
#[wasm_split(shapes, wasm_split_path = ::leptos::wasm_split, fallible)]
pub fn shape(
    solid: Solid,
    format: Format,
    head: String,
    kg: f64,
) -> Result<Vec<u8>, SplitLoaderError> {
    Ok(format.write(&tessellate(&solid, STL), &head, kg))
}

/// `part` as soon as it is there; when it does not come, a sentence, and another try at a press.
fn fetched<F>(part: impl Fn() -> F + Send + 'static) -> impl IntoView
where
    F: Future<Output = Result<AnyView, SplitLoaderError>> + Send + 'static,
{
    let tries = RwSignal::new(0_u32);
    let again = move |_| tries.update(|tries| *tries += 1);
    view! {
        <Suspense fallback=|| view! { <p class="fetched" role="status">"This part is being fetched …"</p> }>
            {move || {
                tries.track();
                let part = part();
                Suspend::new(async move {
                    match part.await {
                        Ok(part) => part,
                        Err(_) => {
                            view! {
                                <div class="fetched">
                                    <p role="alert">
                                        "This part could not be fetched; the head stands as you left it. Try again when you have a connection. If that does not help, load the page again."
                                    </p>
                                    <button type="button" class="plain" on:click=again>
                                        "try again"
                                    </button>
                                </div>
                            }
                                .into_any()
                        }
                    }
                })
            }}
        </Suspense>
    }
}
