//! What the handle is made of, how long it is and where it is held.

use leptos::prelude::*;

use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::words;
use super::apply;
use super::row::{LengthRow, NumberRow};
use headwright::handle::{Handle, HandleError, Species, Wood};
use headwright::units::{Length, show_number};

/// The word for a wood that is none of those that are known.
const OWN: &str = "another wood";

/// The words to choose a wood by.
fn woods() -> Vec<&'static str> {
    let known = Species::ALL.map(Species::words);
    known.into_iter().chain([OWN]).collect()
}

/// The word of `wood`.
fn word(wood: &Wood) -> &'static str {
    match wood {
        Wood::Species(species) => species.words(),
        Wood::Own { .. } => OWN,
    }
}

/// The wood of that word; another one begins as heavy as `before`.
fn wood(word: &str, before: &Wood) -> Wood {
    let known = Species::ALL.into_iter().find(|wood| wood.words() == word);
    match (known, before) {
        (Some(species), _) => Wood::Species(species),
        (None, Wood::Species(species)) => Wood::Own {
            name: OWN.to_owned(),
            specific_gravity: species.specific_gravity(),
        },
        (None, own @ Wood::Own { .. }) => own.clone(),
    }
}

/// Fields for a wood: which, and of another one its name and its specific gravity.
#[component]
pub fn WoodRows(
    /// "handle" or "wedge".
    of: &'static str,
    /// The wood; nothing while there is none.
    get: fn(&Handle) -> Option<&Wood>,
    /// The wood, to be changed.
    get_mut: fn(&mut Handle) -> Option<&mut Wood>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let now = Memo::new(move |_| workspace.design.with(|d| get(&d.handle).cloned()));
    let own = move || now.with(|wood| matches!(wood, Some(Wood::Own { .. })));
    let choose = move |chosen: String| {
        apply(workspace, |handle| {
            if let Some(of) = get_mut(handle) {
                *of = wood(&chosen, of);
            }
        });
    };
    let name = move |handle: Handle| match get(&handle) {
        Some(Wood::Own { name, .. }) => name.clone(),
        _ => String::new(),
    };
    let read_name = move |(mut handle, text): (Handle, String)| {
        if let Some(Wood::Own { name, .. }) = get_mut(&mut handle) {
            *name = text;
        }
        Ok(handle)
    };
    let gravity = move |handle: Handle| match get(&handle) {
        Some(Wood::Own {
            specific_gravity, ..
        }) => show_number(*specific_gravity),
        _ => String::new(),
    };
    let read_gravity = move |(mut handle, text): (Handle, String)| {
        let number = words::plain_number(&text)?;
        if let Some(Wood::Own {
            specific_gravity, ..
        }) = get_mut(&mut handle)
        {
            *specific_gravity = number;
        }
        Ok(handle)
    };
    view! {
        <Pick
            label="wood"
            of=of
            options=woods()
            chosen=Signal::derive(move || now.with(|wood| wood.as_ref().map_or(OWN, word)))
            choose=choose
        />
        <Show when=own>
            <NumberRow
                id=format!("{of}-wood-name")
                label="its name"
                of=format!("{of} wood")
                unit=""
                get=name
                read=read_name
                concerns=move |error: HandleError| {
                    matches!(error, HandleError::WoodName { of: other } if other == of)
                }
            />
            <NumberRow
                id=format!("{of}-wood-gravity")
                label="specific gravity, at 12 %"
                of=format!("{of} wood")
                unit=""
                get=gravity
                read=read_gravity
                concerns=move |error: HandleError| {
                    matches!(error, HandleError::SpecificGravity { of: other, .. } if other == of)
                }
            />
        </Show>
    }
}

/// The fields of the whole handle.
#[component]
pub fn Fields() -> impl IntoView {
    // While a length is typed, every figure of it starts from the same handle: what it was, and what came of it.
    let typed = StoredValue::new(None::<[Handle; 2]>);
    let set_length = move |(handle, length): (Handle, Option<Length>)| {
        let length = length.unwrap_or(handle.length);
        let before = match typed.get_value() {
            Some([before, after]) if after == handle => before,
            _ => handle,
        };
        let after = before.with_length(length);
        typed.set_value(Some([before, after.clone()]));
        after
    };
    view! {
        <div class="rows" role="group" aria-label="wood, length and grip">
            <WoodRows
                of="handle"
                get=|handle| Some(&handle.wood)
                get_mut=|handle| Some(&mut handle.wood)
            />
            <NumberRow
                id="handle-moisture"
                label="moisture of the wood"
                of="handle"
                unit="%"
                get=|handle: Handle| show_number(handle.moisture_percent)
                read=|(mut handle, text): (Handle, String)| {
                    handle.moisture_percent = words::plain_number(&text)?;
                    Ok(handle)
                }
                concerns=|error: HandleError| matches!(error, HandleError::Moisture { .. })
            />
            <LengthRow
                id="handle-length"
                label="length over all"
                of="handle"
                get=|handle: Handle| Some(handle.length)
                set=set_length
                concerns=|error: HandleError| match error {
                    HandleError::Size { what, .. } => what == "The length of the handle",
                    HandleError::TooShort { .. } => true,
                    _ => false,
                }
            />
            <LengthRow
                id="handle-grip"
                label="middle of the grip, from the butt"
                of="handle"
                get=|handle: Handle| Some(handle.grip)
                set=|(mut handle, length): (Handle, Option<Length>)| {
                    handle.grip = length.unwrap_or(handle.grip);
                    handle
                }
                concerns=|error: HandleError| matches!(error, HandleError::Grip { .. })
            />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_wood_is_found_by_its_word_and_another_begins_as_heavy() {
        let ash = Wood::Species(Species::WhiteAsh);
        for species in Species::ALL {
            assert_eq!(wood(species.words(), &ash), Wood::Species(species));
        }
        let own = wood(OWN, &ash);
        assert_eq!(word(&own), OWN);
        assert!(
            matches!(own, Wood::Own { specific_gravity, .. } if specific_gravity == 0.60),
            "{own:?}"
        );
        // Chosen once more it stays what it is.
        assert_eq!(wood(OWN, &own), own);
    }
}
