//! The card's sheet: the shop sheet and its templates as they print.

use leptos::prelude::*;
use wasm_bindgen::JsValue;

use super::bar::print::print_pages;
use super::files::{file_name, offer};
use super::foot;
use super::keep;
use super::state::Workspace;
use super::workshop::Workshop;
use headwright::card::{Asked, Card, Page, Paper, drawing, pdf, svg};

/// The day in words: "26 November 2026".
fn today() -> String {
    let parts = js_sys::Object::new();
    for (part, look) in [("day", "numeric"), ("month", "long"), ("year", "numeric")] {
        // A plain object takes every property.
        let _ = js_sys::Reflect::set(&parts, &part.into(), &look.into());
    }
    js_sys::Date::new_0()
        .to_locale_date_string("en-GB", &parts)
        .into()
}

/// The address of this page without its link, where it is one that another device can open.
fn address() -> Option<String> {
    let href = window().location().href().ok()?;
    let bare = href.split('#').next()?.to_owned();
    bare.starts_with("http").then_some(bare)
}

/// The paper that was chosen last; A4 for someone who never did.
fn kept() -> Paper {
    let word = keep::read_text(keep::PAPER);
    let known = Paper::ALL
        .into_iter()
        .find(|paper| word.as_deref() == Some(paper.name()));
    known.unwrap_or_default()
}

/// The card.
#[component]
pub fn CardScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let workshop = Workshop::open(workspace.notice);
    let paper = RwSignal::new(kept());
    let card = Memo::new(move |_| {
        let (date, base) = (today(), address());
        let asked = Asked {
            paper: paper.get(),
            date: &date,
            link_base: base.as_deref(),
            from: workshop.marks_from.get(),
            celsius: workshop.celsius.value.get(),
            drifting: workshop.drifting.value.get(),
            system: Some(workspace.system.get()),
        };
        workspace
            .design
            .with(|design| Card::of(design, &asked))
            .map(|card| card.pages)
    });
    view! {
        <div class="columns card-screen">
            <div class="sheet">
                <h1 class="screen-name">{move || workspace.design.with(|d| d.name.clone())}</h1>
                <p class="said-once">"its card: the shop sheet, and templates full size"</p>
                <div role="status">
                    {move || {
                        let system = workspace.system.get();
                        card.with(|card| card.as_ref().err().map(|error| error.sentence(system)))
                            .map(|sentence| {
                                view! {
                                    <div class="problems">
                                        <h2>"There is no card for this"</h2>
                                        <p>{sentence}</p>
                                    </div>
                                }
                            })
                    }}
                </div>
                <Pages card=card />
            </div>
            <aside class="margin" aria-label="to print and to keep">
                <Papers paper=paper />
                <Show when=move || card.with(Result::is_ok)>
                    <Presses card=card paper=paper />
                </Show>
                <p class="soft">
                    "Print at 100 %, without fitting to the page, then measure the line at the top of each sheet: it is 100 mm long. Drifts, forging heat and the end that marks are measured from are your workshop’s, as on the bar’s sheet."
                </p>
                <p class="soft">
                    "To read it aloud: its weights, marks and drifts stand on the bar’s sheet, heats on the heat sheet, the handle on its own, and every size in the list of the head."
                </p>
            </aside>
            <div class="under">
                <div class="actions">
                    <foot::Steps />
                </div>
            </div>
        </div>
    }
}

/// The pages, one under another, each with its name.
#[component]
fn Pages(
    /// The card.
    card: Memo<Result<Vec<Page>, headwright::card::CardError>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    move || {
        let pages = card.with(|card| card.clone().unwrap_or_default());
        let count = pages.len();
        let page = move |(index, page): (usize, Page)| {
            let heading = format!("sheet {} of {count}", index + 1);
            let title = page.title.clone();
            let drawn = svg(&page);
            let kept = drawn.clone();
            let save = move |_| {
                let ending = format!("{}.svg", index + 1);
                save_text(workspace, &ending, &kept);
            };
            view! {
                <section class="card-sheet">
                    <div class="card-sheet-head">
                        <h2>{heading.clone()}</h2>
                        <button type="button" class="plain" aria-label=format!("save {heading} as SVG") on:click=save>
                            "save as SVG"
                        </button>
                    </div>
                    <div class="card-paper" role="img" aria-label=title inner_html=drawn></div>
                </section>
            }
        };
        pages.into_iter().enumerate().map(page).collect_view()
    }
}

/// The choice of the paper.
#[component]
fn Papers(
    /// The one that is chosen.
    paper: RwSignal<Paper>,
) -> impl IntoView {
    let choice = move |choice: Paper, words: &'static str| {
        view! {
            <button
                type="button"
                class="choice"
                aria-pressed=move || (paper.get() == choice).to_string()
                on:click=move |_| {
                    paper.set(choice);
                    keep::store_word(keep::PAPER, choice.name());
                }
            >
                <span>{words}</span>
            </button>
        }
    };
    view! {
        <div class="choices papers" role="group" aria-label="paper">
            {choice(Paper::A4, "A4")} {choice(Paper::Letter, "letter")}
        </div>
    }
}

/// What is done with the card and with the drawing.
#[component]
fn Presses(
    /// The card.
    card: Memo<Result<Vec<Page>, headwright::card::CardError>>,
    /// What it is printed on.
    paper: RwSignal<Paper>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let pages = move || card.with_untracked(|card| card.clone().unwrap_or_default());
    let name = move || {
        workspace
            .design
            .with_untracked(|design| design.name.clone())
    };
    let print = move |_| {
        let sheets: Vec<String> = pages().iter().map(svg).collect();
        print_pages(&sheets, paper.get_untracked().name());
    };
    let save = move |_| save_pdf(workspace, "card.pdf", &pdf(&pages(), &name()));
    let drawn = move || {
        let system = workspace.system.get_untracked();
        workspace
            .design
            .with_untracked(|design| drawing(design, system))
            .ok()
    };
    let draw_pdf = move |_| {
        if let Some(page) = drawn() {
            save_pdf(workspace, "drawing.pdf", &pdf(&[page], &name()));
        }
    };
    let draw_svg = move |_| {
        if let Some(page) = drawn() {
            save_text(workspace, "drawing.svg", &svg(&page));
        }
    };
    view! {
        <div class="card-presses">
            <button type="button" class="way first" on:click=print>
                "print the card"
            </button>
            <button type="button" class="plain" on:click=save>
                "save the card as PDF"
            </button>
            <button type="button" class="plain" on:click=draw_pdf>
                "save the drawing as PDF, full size"
            </button>
            <button type="button" class="plain" on:click=draw_svg>
                "save the drawing as SVG, full size"
            </button>
        </div>
    }
}

fn save_pdf(workspace: Workspace, ending: &str, bytes: &[u8]) {
    let bytes = js_sys::Uint8Array::from(bytes);
    save_as(workspace, ending, "application/pdf", &bytes);
}

fn save_text(workspace: Workspace, ending: &str, text: &str) {
    save_as(workspace, ending, "image/svg+xml", &JsValue::from_str(text));
}

/// Offers a file that is called after the head.
fn save_as(workspace: Workspace, ending: &str, kind: &str, content: &JsValue) {
    let name = workspace
        .design
        .with_untracked(|design| file_name(&design.name, ending));
    offer(workspace, &name, kind, content);
}
