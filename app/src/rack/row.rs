//! One entry of the rack, and what can be done with it.

use leptos::html;
use leptos::prelude::*;

use super::super::clock::day;
use super::super::files::sound;
use super::super::journal::{id, now};
use super::super::state::{Screen, Workspace};
use super::form::OneField;
use super::keeper::Keeper;
use super::sheet::{Attention, Row};
use super::shelf::entered;
use crate::silhouette::Silhouette;
use headwright::design::{Design, Edit, LONGEST_NAME};
use headwright::rack::{Entry, Slip, read_tags};
use headwright::units::show_mass;

/// What is being written in a row.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Writing {
    Nothing,
    Name,
    Tags,
}

/// Whether an entry is on the sheet.
#[derive(Clone, Copy, PartialEq, Eq)]
enum OnSheet {
    No,
    AsHere,
    /// In a state that another tab has changed since.
    Otherwise,
}

impl OnSheet {
    fn words(self) -> Option<&'static str> {
        match self {
            Self::No => None,
            Self::AsHere => Some("on the sheet"),
            Self::Otherwise => Some("on the sheet, in another state"),
        }
    }
}

/// An entry: picture, name, weight, date, tags, note, and what can be done with it.
#[component]
pub fn RackRow(
    /// The entry.
    row: Row,
    /// Length of the longest head of the list, mm.
    widest: Memo<f64>,
) -> impl IntoView {
    let Row { slip, made } = row;
    if slip.removed {
        return view! { <Removed slip=slip /> }.into_any();
    }
    let workspace = Workspace::here();
    let entry = slip.entry.clone();
    let name = called(&entry.design);
    let (own, mark) = (entry.id.clone(), slip.mark.clone());
    let in_work = Memo::new(move |_| {
        workspace.journal.noted.track();
        if workspace.journal.entry.with(|at| at.as_ref() != Some(&own)) {
            OnSheet::No
        } else if workspace.journal.is_at(&own, &mark) {
            OnSheet::AsHere
        } else {
            OnSheet::Otherwise
        }
    });
    let weight = made.as_ref().map(|(_, kg)| *kg);
    let facts = move || {
        let weight = weight.map(|kg| show_mass(kg, workspace.system.get()));
        let weight = weight.unwrap_or_else(|| "can’t be made as it is".to_owned());
        format!("{weight} · {}", day(entry.changed))
    };
    let tags = entry.tags.join(", ");
    view! {
        <li class="rack-row">
            <div class="rack-picture">{made.map(|(view, _)| picture(view, widest))}</div>
            <div class="rack-words">
                <h2>{name}</h2>
                <p class="rack-facts">
                    <strong>{facts}</strong>
                    {move || in_work.get().words().map(|words| view! { <span class="rack-here">{words}</span> })}
                </p>
                {(!tags.is_empty()).then(|| view! { <p class="rack-tags">"tags: " {tags}</p> })}
                {(!entry.design.note.is_empty())
                    .then(|| view! { <p class="rack-note">{entry.design.note.clone()}</p> })}
                <Deeds slip=slip in_work=in_work />
            </div>
        </li>
    }
    .into_any()
}

/// What can be done with an entry.
#[component]
fn Deeds(
    /// The entry.
    slip: Slip,
    /// Whether it is on the sheet.
    in_work: Memo<OnSheet>,
) -> impl IntoView {
    let keeper: Keeper = expect_context();
    let Attention(attention) = expect_context();
    let name = called(&slip.entry.design);
    let writing = RwSignal::new(Writing::Nothing);
    let said = RwSignal::new(None::<String>);
    let slip = StoredValue::new(slip);
    let first = NodeRef::<html::Button>::new();
    let own = slip.with_value(|slip| slip.entry.id.clone());
    take_attention(attention, own.clone(), first);
    let noticed = move || attention.set(Some(own.clone()));
    let write = {
        let noticed = noticed.clone();
        move || match writing.get() {
            Writing::Nothing => ().into_any(),
            Writing::Name => {
                let noticed = noticed.clone();
                view! {
                    <OneField
                        label=format!("new name of {}", slip.with_value(|slip| called(&slip.entry.design)))
                        what="name"
                        in_link=true
                        begin=slip.with_value(|slip| slip.entry.design.name.clone())
                        longest=LONGEST_NAME
                        keep=move |text: String| {
                            noticed();
                            rename(keeper, slip.get_value(), in_work.get_untracked(), text);
                            Ok(())
                        }
                        close=move || writing.set(Writing::Nothing)
                    />
                }
                .into_any()
            }
            Writing::Tags => {
                let noticed = noticed.clone();
                view! {
                    <OneField
                        label=format!(
                            "tags of {}, parted by commas",
                            slip.with_value(|slip| called(&slip.entry.design)),
                        )
                        what="row of tags"
                        in_link=false
                        begin=slip.with_value(|slip| slip.entry.tags.join(", "))
                        longest=1000
                        keep=move |text: String| {
                            let tags = read_tags(&text).map_err(|error| error.to_string())?;
                            noticed();
                            tag(keeper, slip.get_value(), tags);
                            Ok(())
                        }
                        close=move || writing.set(Writing::Nothing)
                    />
                }
                .into_any()
            }
        }
    };
    let label = |deed: &str| format!("{deed} {name}");
    view! {
        <div class="actions rack-deeds">
            <button
                type="button"
                class="plain"
                node_ref=first
                aria-label=label("open")
                on:click=move |_| open(keeper, &slip.get_value(), in_work.get_untracked(), said)
            >
                "open"
            </button>
            <button
                type="button"
                class="plain"
                aria-label=label("copy")
                on:click=move |_| slip.with_value(|slip| copy(keeper, slip))
            >
                "copy"
            </button>
            <button
                type="button"
                class="plain"
                aria-label=label("rename")
                on:click=move |_| writing.set(Writing::Name)
            >
                "rename"
            </button>
            <button
                type="button"
                class="plain"
                aria-label=label("tags of")
                on:click=move |_| writing.set(Writing::Tags)
            >
                "tags"
            </button>
            <button
                type="button"
                class="plain"
                aria-label=label("remove")
                on:click=move |_| {
                    noticed();
                    mark_removed(keeper, slip.get_value(), in_work.get_untracked());
                }
            >
                "remove"
            </button>
        </div>
        {write}
        <p class="problem" role="status">{said}</p>
    }
}

/// An entry that was removed, until the sheet is left.
#[component]
fn Removed(
    /// The entry.
    slip: Slip,
) -> impl IntoView {
    let keeper: Keeper = expect_context();
    let Attention(attention) = expect_context();
    let workspace = Workspace::here();
    let name = called(&slip.entry.design);
    let first = NodeRef::<html::Button>::new();
    let own = slip.entry.id.clone();
    take_attention(attention, own.clone(), first);
    let until = if workspace.journal.has_sheet_of(&own) {
        "It can be put back, or undone, as long as this page is open."
    } else {
        "It goes for good when you leave this sheet."
    };
    view! {
        <li class="rack-row gone">
            <p>{format!("{name} was removed. {until}")}</p>
            <button
                type="button"
                class="plain"
                node_ref=first
                on:click=move |_| {
                    attention.set(Some(own.clone()));
                    let back = Slip {
                        removed: false,
                        ..slip.clone()
                    };
                    workspace.journal.take_back(&entered(&back));
                    put(keeper, back, |now, back| match now {
                        // Another tab worked on it meanwhile: it is back already.
                        Some(now) if !now.removed => None,
                        _ => Some(back),
                    });
                }
            >
                {format!("put {name} back")}
            </button>
        </li>
    }
}

/// The side view, to the scale of the longest.
fn picture(view: Silhouette, widest: Memo<f64>) -> impl IntoView {
    let (back, front) = view.ends;
    let height = view.half_height + 2.0;
    let frame = format!(
        "{} {} {} {}",
        back - 2.0,
        -height,
        front - back + 4.0,
        2.0 * height
    );
    let share = move || format!("width: {:.1}%", (front - back) / widest.get() * 100.0);
    view! {
        <svg viewBox=frame style=share aria-hidden="true" focusable="false">
            <path class="steel" d=view.outline />
            <path class="hidden-edge" d=view.eye />
        </svg>
    }
}

/// Gives the focus to `button` if its row was just worked on.
fn take_attention(attention: RwSignal<Option<String>>, own: String, button: NodeRef<html::Button>) {
    Effect::new(move || {
        if let Some(button) = button.get()
            && attention.get_untracked().as_ref() == Some(&own)
        {
            attention.set(None);
            // A button that cannot take the focus is there all the same.
            let _ = button.focus();
        }
    });
}

/// What a design is called on the rack.
fn called(design: &Design) -> String {
    if design.name.trim().is_empty() {
        "hammer without a name".to_owned()
    } else {
        design.name.clone()
    }
}

fn open(keeper: Keeper, slip: &Slip, in_work: OnSheet, said: RwSignal<Option<String>>) {
    let workspace = keeper.workspace();
    if in_work != OnSheet::AsHere {
        let design = slip.entry.design.clone();
        if let Err(reason) = sound(&design, workspace.system.get_untracked()) {
            said.set(Some(format!("It was not opened. {reason}")));
            return;
        }
        workspace.bring(design.name.clone(), design, Some(entered(slip)));
    }
    workspace.screen.set(Screen::Head);
}

fn copy(keeper: Keeper, slip: &Slip) {
    let name = format!("{} copy", slip.entry.design.name.trim_end());
    let name = name.chars().take(LONGEST_NAME).collect();
    let entry = Entry {
        id: id(),
        design: slip.entry.design.apply(Edit::Name(name)),
        made: now(),
        changed: now(),
        tags: slip.entry.tags.clone(),
    };
    keeper.work(move |shelf| async move { shelf.change(|_| (vec![Slip::new(entry)], ())).await });
}

fn rename(keeper: Keeper, slip: Slip, in_work: OnSheet, name: String) {
    // What is on the sheet in another state stays that; the name reaches it when it is taken up.
    if in_work == OnSheet::AsHere {
        keeper.workspace().apply(Edit::Name(name));
        return;
    }
    put(keeper, slip, move |now_there, slip| {
        let entry = now_there.unwrap_or(slip).entry;
        let design = entry.design.apply(Edit::Name(name));
        Some(Slip::new(Entry {
            design,
            changed: now(),
            ..entry
        }))
    });
}

fn tag(keeper: Keeper, slip: Slip, tags: Vec<String>) {
    put(keeper, slip, move |now_there, slip| {
        let mut slip = now_there.unwrap_or(slip);
        slip.entry.tags = tags;
        Some(slip)
    });
}

fn mark_removed(keeper: Keeper, slip: Slip, in_work: OnSheet) {
    if in_work != OnSheet::No {
        keeper.remember(slip.clone());
        keeper.workspace().take_off(&called(&slip.entry.design));
    }
    put(keeper, slip, |now_there, slip| {
        Some(Slip {
            removed: true,
            ..now_there.unwrap_or(slip)
        })
    });
}

/// Puts what `change` makes of an entry, as it stands now, in its place.
fn put(
    keeper: Keeper,
    slip: Slip,
    change: impl FnOnce(Option<Slip>, Slip) -> Option<Slip> + 'static,
) {
    keeper.work(move |shelf| async move {
        shelf
            .change(|all| {
                let there = all.iter().find(|(id, _)| *id == slip.entry.id);
                match there.map(|(_, text)| Slip::from_json(text)) {
                    // A newer program's, or damaged: it stays as it stands.
                    Some(Err(_)) => (Vec::new(), ()),
                    Some(Ok(now_there)) => {
                        (change(Some(now_there), slip).into_iter().collect(), ())
                    }
                    None => (change(None, slip).into_iter().collect(), ()),
                }
            })
            .await
    });
}
