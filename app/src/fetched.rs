//! What does not come with the page: each part is a file of its own, fetched when it is first opened.
//!
//! What only such a part uses goes into its file by itself; `.ci/split` makes the files.

use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

use super::bar::BarScreen;
use super::card::CardScreen;
use super::handle::HandleScreen;
use super::heat::HeatScreen;
use super::margin::at_once;
use super::swing::SwingScreen;
use headwright::mesh::{Format, STL, tessellate};
use headwright::solid::Solid;

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
