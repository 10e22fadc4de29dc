//! The drawing on the sheet: lines and figures, with every size to be taken in hand where it
//! stands.

use leptos::prelude::*;
use web_sys::{PointerEvent, TouchEvent};

use super::fitting::Arrival;
use super::list::tied;
use super::state::Workspace;
use super::terms::SizeSaid;
use super::words;
use headwright::design::{Design, DesignError, Dim, Part};
use headwright::drawing::{
    Base, Drawing, Key, Laid, Projection, Setting, Show, Style, draw, layout,
};
use headwright::mass::MassProperties;
use headwright::solid::Solid;
use headwright::units::System;

mod drag;
mod hand;
mod ink;
mod looks;
pub mod measure;
mod pane;
mod projection;
mod section;
mod size;
mod tracing;

pub use looks::looks;
pub use tracing::Tracing;

/// From this width on the sheet is laid out for a desk, px.
const DESK: f64 = 600.0;
/// From this width on the name stands beside the half plan instead of above the drawing, px.
const BESIDE_NAME: f64 = 860.0;
/// What the name takes at most, px; `drawing.css` keeps it to that.
const NAME: [f64; 2] = [420.0, 78.0];
/// The field of the size in hand, px.
const FIELD: [f64; 2] = [212.0, 150.0];
/// The sheet's width before it is measured, px.
const UNMEASURED: f64 = 1040.0;

/// The drawing of the head.
#[component]
pub fn Sheet(
    /// The design as edited.
    #[prop(into)]
    design: Signal<Design>,
    /// The last sound head.
    #[prop(into)]
    solid: Signal<Solid>,
    /// Its mass properties.
    #[prop(into)]
    properties: Signal<MassProperties>,
    /// What is wrong with the design as edited.
    #[prop(into)]
    problems: Signal<Vec<DesignError>>,
    /// Units that are shown.
    #[prop(into)]
    system: Signal<System>,
    /// The size being edited.
    in_hand: RwSignal<Option<Dim>>,
    /// The part that is open in the list.
    open_part: RwSignal<Option<Part>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let host = NodeRef::<leptos::html::Div>::new();
    let board = NodeRef::<leptos::html::Div>::new();
    let width = measure::width_of(host, UNMEASURED);
    let look = pane::Look::new(host);
    let grip = RwSignal::new(None::<drag::Grip>);
    // A page that shows no sheet, as a customer's, fetches nothing for drags.
    Effect::new(move |_| {
        if workspace.fit_file.get() == Arrival::Here {
            workspace.tracer.start_when_idle();
        }
    });
    let dragged = Memo::new(move |_| {
        grip.get()
            .filter(|grip| grip.moved && !grip.given_up)
            .map(|grip| grip.dim)
    });
    let projection = projection::kept();
    let with_section = workspace.with_section;
    let named = move || width.get() >= BESIDE_NAME && !look.is_near();
    let style = Memo::new(move |_| {
        if width.get() < DESK {
            Style::Phone
        } else {
            Style::Desktop
        }
    });
    let drawing: Memo<Drawing> = Memo::new(move |_| {
        let properties = (style.get() == Style::Desktop).then(|| properties.get());
        let drawing = solid.with(|solid| {
            design.with(|design| draw(solid, design, properties.as_ref(), system.get()))
        });
        problems.with(|errors| {
            drawing.with_problems(|dim| errors.iter().any(|error| words::concerns(error, dim)))
        })
    });
    let setting = Memo::new(move |_| Setting {
        still: grip.get().filter(|grip| grip.moved).map(|grip| grip.still),
        ..setting(
            width.get(),
            look.zoom.get(),
            style.get(),
            projection.get(),
            Show {
                base: base(style.get()),
                open: open_part.get(),
                in_hand: in_hand.get(),
            },
        )
    });
    let is_traced = Memo::new(move |_| workspace.traced.get());
    let laid: Memo<Laid> = Memo::new(move |before: Option<&Laid>| match before {
        // Another drawing is in front.
        Some(before) if is_traced.get() => before.clone(),
        _ => drawing.with(|drawing| setting.with(|setting| layout(drawing, setting))),
    });
    let extent = Memo::new(move |_| laid.with(|laid| [laid.width, laid.height]));
    // What answers a press stays where it is while one size is dragged: nothing else can be pressed then. Nothing of it is
    // even asked whether it has changed.
    let resting = RwSignal::new(laid.get_untracked());
    Effect::new(move |_| {
        if dragged.get().is_none() && laid.with(|laid| resting.with_untracked(|r| r != laid)) {
            resting.set(laid.get());
        }
    });
    let under_finger = Selector::new(move || dragged.get().map(Key::Size));
    let keys = Memo::new(move |_| {
        resting.with(|laid| laid.sizes.iter().map(|size| size.key).collect::<Vec<_>>())
    });
    // Where the size in hand was taken: its field takes the focus only if that was here.
    let taken_here = RwSignal::new(None::<Dim>);
    let take = Callback::new(move |dim: Dim| {
        taken_here.set(Some(dim));
        in_hand.set(Some(dim));
        if style.get_untracked() == Style::Phone {
            // Its part stays open in the list, and the drawing in sight: it is worked under the thumb.
            open_part.set(Some(words::group(dim.part)));
        }
    });
    hand::give_back_focus(in_hand, taken_here);
    let drag = drag::Drag::new(workspace, grip, setting, laid, board);
    let seize = Callback::new(move |(dim, event): (Dim, PointerEvent)| {
        let Some(board) = board.get_untracked() else {
            return;
        };
        let frame = board.get_bounding_client_rect();
        let at = [
            f64::from(event.client_x()) - frame.left(),
            f64::from(event.client_y()) - frame.top(),
        ];
        drag.seize(&event, dim, at);
    });
    let hand = Memo::new(move |_| {
        let field = laid.with(|laid| laid.field)?;
        Some((in_hand.get()?, field))
    });
    let held = Memo::new(move |_| hand.get().map(|(dim, _)| dim));
    let under_thumb = Memo::new(move |_| {
        let taken = in_hand.get().filter(|dim| taken_here.get() == Some(*dim));
        taken.filter(|_| style.get() == Style::Phone)
    });
    // They outlive the field, which goes in the same moment as a size that is put back changes.
    let of_held = move |of: fn(&Design, Dim) -> Option<bool>| {
        Memo::new(move |_| design.with(|design| in_hand.get().and_then(|dim| of(design, dim))))
    };
    let is_free = of_held(|design, dim| Some(design.is_free(dim)));
    let free = Memo::new(move |_| is_free.get() == Some(true));
    let is_tied = of_held(tied);
    view! {
        <section
            class="drawing"
            class:named=named
            class:phone=move || style.get() == Style::Phone
            aria-label="drawing of the head"
        >
            <div
                class="pane"
                class:near=move || look.is_near()
                node_ref=host
                on:touchstart=move |event: TouchEvent| {
                    if event.touches().length() > 1 {
                        // A second finger draws nearer: what the first has dragged goes back.
                        drag.let_go(false);
                    }
                    look.touch(&event);
                }
                on:touchmove=move |event| look.pinch(&event)
                on:wheel=move |event| look.wheel(&event)
                on:pointerdown=move |event| look.press(&event)
                on:pointermove=move |event| look.drag(&event)
                on:pointerup=move |_| look.let_go()
                on:pointercancel=move |_| look.let_go()
            >
            <div
                class="board"
                class:traced=is_traced
                node_ref=board
                style:height=move || format!("{}px", extent.get()[1])
                style:width=move || {
                    if look.is_near() {
                        format!("{}px", extent.get()[0])
                    } else {
                        "100%".to_owned()
                    }
                }
            >
                <ink::Ink laid=laid extent=extent />
                <For
                    each=move || keys.get()
                    key=|key| *key
                    children=move |key| {
                        let under_finger = under_finger.clone();
                        let dragged = Signal::derive(move || under_finger.selected(&Some(key)));
                        let laid = Memo::new(move |_| {
                            let find = |laid: &Laid| {
                                laid.sizes.iter().find(|size| size.key == key).cloned()
                            };
                            if dragged.get() { laid.with(find) } else { resting.with(find) }
                        });
                        view! {
                            <size::Size key=key laid=laid take=take drag=drag dragged=dragged seize=seize />
                        }
                    }
                />
                {move || {
                    held.get()
                        .map(|dim| {
                            view! {
                                <hand::Hand
                                    dim=dim
                                    place=Some(Signal::derive(move || hand.get().map(|(_, rect)| rect)))
                                    grab=taken_here.get_untracked() == Some(dim)
                                    in_hand=in_hand
                                    free=free
                                    is_tied=is_tied
                                />
                            }
                        })
                }}
            </div>
            </div>
            {move || held.get().or(under_thumb.get()).map(|dim| view! { <SizeSaid dim=dim id=hand::ID /> })}
            <div class="drawing-foot">
                <projection::Choice projection=projection />
                <button
                    type="button"
                    class="with-section"
                    aria-pressed=move || with_section.get().to_string()
                    on:click=move |_| with_section.update(|on| *on = !*on)
                >
                    "section through the eye"
                </button>
                <pane::Nearer look=look />
            </div>
            {move || with_section.get().then(|| view! { <section::Section take=take /> })}
            {move || {
                under_thumb
                    .get()
                    .map(|dim| {
                        view! {
                            <hand::Hand
                                dim=dim
                                place=None
                                grab=!hand::by_finger()
                                in_hand=in_hand
                                free=free
                                is_tied=is_tied
                            />
                        }
                    })
            }}
        </section>
    }
}

fn base(style: Style) -> Base {
    match style {
        Style::Desktop | Style::Print => Base::Key,
        Style::Phone => Base::None,
    }
}

fn setting(width: f64, zoom: f64, style: Style, projection: Projection, show: Show) -> Setting {
    let named = width >= BESIDE_NAME && zoom <= 1.0;
    Setting {
        width: width * zoom,
        style,
        projection,
        show,
        title: if named { NAME } else { [0.0; 2] },
        field: (style == Style::Desktop).then_some(FIELD),
        zoom,
        still: None,
    }
}

/// The name of a size's control in the page.
fn id_of(key: Key) -> String {
    match key {
        Key::Size(dim) => format!("drawn-{dim}"),
        Key::Balance => "drawn-balance".to_owned(),
        Key::Overall => "drawn-overall".to_owned(),
    }
}
