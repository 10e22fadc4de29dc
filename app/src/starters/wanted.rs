//! The weight that is wanted of the starters.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::state::Workspace;
use super::begin::{self, Begin};
use headwright::units::{Mass, System, mass_unit_word, parse_mass, show_mass};

/// The field, and how many of the starters come to what is written in it.
#[component]
pub fn Wanted(
    /// The starters.
    begins: Vec<Begin>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let (wanted, system) = (workspace.wanted, workspace.system);
    // What stood in the field before it was written in.
    let before = StoredValue::new(wanted.get_untracked());
    let one = begins.first().map(|begin| begin.design.clone());
    let read = move |text: String| {
        let mass = read(&text, system.get_untracked())?;
        // The core says which weights can be held at all.
        if let (Some(mass), Some(design)) = (mass, &one)
            && let Err(errors) = design.apply(begin::hold(mass)).build()
            && let Some(error) = errors.first()
        {
            return Err(error.sentence(system.get_untracked()));
        }
        wanted.set(mass);
        Ok(())
    };
    let count = begins.len();
    let came = Memo::new(move |_| {
        let all = begins.iter().filter_map(|begin| begin.came.get());
        all.fold((0, 0), |(done, met), came| {
            (done + 1, met + usize::from(came.is_met))
        })
    });
    view! {
        <section class="wanted" aria-label="the weight you want">
            <div class="wanted-line">
                <label for="wanted">"weight you want"</label>
                <Entry
                    label=Signal::derive(move || match wanted.get() {
                        None => "weight you want".to_owned(),
                        Some(_) => format!("weight you want, {}", mass_unit_word(system.get())),
                    })
                    value=Signal::derive(move || {
                        wanted.get().map(|mass| show_mass(mass.in_kg(), system.get())).unwrap_or_default()
                    })
                    unit=Signal::derive(move || match wanted.get() {
                        None => mass_unit_word(system.get()).to_owned(),
                        // A weight is shown with its units, which may be two.
                        Some(_) => String::new(),
                    })
                    read=read
                    keep=move |()| before.set_value(wanted.get_untracked())
                    put_back=move |()| wanted.set(before.get_value())
                    id="wanted"
                    placeholder="as drawn".to_owned()
                />
            </div>
            <p role="status">
                {move || match wanted.get() {
                    None => {
                        "Write one, and every head comes to it as near as its limits let it: its reaches and cheeks follow, its eye and faces stay. Where that would take faces and cheeks out of proportion, all of it is drawn larger or smaller.".to_owned()
                    }
                    Some(mass) => said(mass, came.get(), count, system.get()),
                }}
            </p>
        </section>
    }
}

/// A weight as it is written; nothing of an empty field.
fn read(text: &str, system: System) -> Result<Option<Mass>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    parse_mass(text, system)
        .map(Some)
        .map_err(|error| error.to_string())
}

/// How far the starters have come: how many are worked out, how many of these are met.
fn said(mass: Mass, (done, met): (usize, usize), count: usize, system: System) -> String {
    let weight = show_mass(mass.in_kg(), system);
    if done < count {
        format!("{done} of {count} heads are brought to {weight} …")
    } else {
        let others = match count - met {
            0 => String::new(),
            1 => " The other one shows the nearest that it comes to.".to_owned(),
            others => format!(" The other {others} show the nearest that they come to."),
        };
        format!(
            "{met} of {count} heads come to {weight} and balance in the middle of the eye; both stay held in the one you choose.{others}"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_weight_is_read_in_every_notation_and_nonsense_is_refused() {
        let kg = |text| read(text, System::Metric).map(|mass| mass.map(Mass::in_kg));
        assert_eq!(kg("1.1 kg"), Ok(Some(1.1)));
        assert_eq!(kg("2 lb 6 oz"), Ok(Some(2.375 * 0.45359237)));
        assert_eq!(kg(" "), Ok(None));
        assert!(kg("heavy").is_err_and(|sentence| sentence.contains("“heavy”")));
        assert!(kg("30 mm").is_err());
    }

    #[test]
    fn what_does_not_come_to_the_weight_is_counted() {
        let mass = Mass::kg(1.2);
        let said = |came| said(mass, came, 13, System::Metric);
        assert!(said((4, 3)).starts_with("4 of 13"));
        assert!(said((13, 13)).ends_with("in the one you choose."));
        assert!(said((13, 12)).contains("The other one"));
        assert!(said((13, 9)).contains("The other 4"));
    }
}
