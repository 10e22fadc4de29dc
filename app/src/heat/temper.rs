//! How it is tempered.

use leptos::prelude::*;

use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::words;
use super::apply;
use super::row::HeatRow;
use super::worked::Worked;
use headwright::heat::{Aim, Heat, HeatError, MOST_TEMPERS, Temper};
use headwright::units::{parse_temperature, show_number, temperature_unit_word};

/// The words for how a temper is asked for.
const BY: [&str; 2] = ["the heat of the oven", "the hardness of the faces"];
/// The words for how often.
const TIMES: [&str; MOST_TEMPERS as usize] = ["once", "twice", "three times"];

/// The word for how often.
pub fn times(times: u8) -> &'static str {
    let at = usize::from(times).clamp(1, TIMES.len());
    TIMES[at - 1]
}

/// `heat` with its temper changed.
fn tempered(mut heat: Heat, change: impl FnOnce(&mut Temper)) -> Heat {
    let mut temper = heat.temper();
    change(&mut temper);
    heat.temper = Some(temper);
    heat
}

/// The fields of the temper.
#[component]
pub fn Fields() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::here();
    let temper = Memo::new(move |_| workspace.design.with(|d| d.heat.temper()));
    let own = Memo::new(move |_| workspace.design.with(|d| d.heat.temper.is_some()));
    let by_hardness = Memo::new(move |_| matches!(temper.get().aim, Aim::Hrc(_)));
    // Asked for in the other way it stays what it is.
    let choose = move |word: String| {
        let now = worked.plan.with_untracked(|plan| {
            let tempering = plan.as_ref().map(|plan| &plan.tempering);
            tempering.map(|t| (t.celsius, t.martensite_hrc.value.round()))
        });
        if let Some((celsius, hrc)) = now {
            let aim = if word == BY[1] {
                Aim::Hrc(hrc)
            } else {
                Aim::Celsius(celsius)
            };
            apply(workspace, |heat| *heat = tempered(*heat, |t| t.aim = aim));
        }
    };
    let choose_times = move |word: String| {
        if let Some(at) = TIMES.iter().position(|times| *times == word) {
            apply(workspace, |heat| {
                *heat = tempered(*heat, |t| t.times = at as u8 + 1);
            });
        }
    };
    let about_aim = |error: HeatError| {
        matches!(
            error,
            HeatError::Wanted { .. }
                | HeatError::OutOfReach { .. }
                | HeatError::Temper { .. }
                | HeatError::AboveAc1 { .. }
                | HeatError::Unknown { .. }
        )
    };
    view! {
        <div class="rows" role="group" aria-label="temper">
            <h3>"temper"</h3>
            <Pick
                label="asked for by"
                of="temper"
                options=BY.to_vec()
                chosen=Signal::derive(move || BY[usize::from(by_hardness.get())])
                choose=choose
            />
            <Show
                when=move || by_hardness.get()
                fallback=move || {
                    view! {
                        <HeatRow
                            id="temper-oven"
                            label="oven"
                            of="temper"
                            unit=Signal::derive(move || {
                                temperature_unit_word(workspace.system.get()).to_owned()
                            })
                            get=move |heat: Heat| match heat.temper().aim {
                                Aim::Celsius(celsius) => {
                                    words::temperature(celsius, workspace.system.get())
                                }
                                Aim::Hrc(_) => String::new(),
                            }
                            read=move |(heat, text): (Heat, String)| {
                                let system = workspace.system.get_untracked();
                                let celsius = parse_temperature(&text, system)
                                    .map_err(|error| error.to_string())?;
                                Ok(tempered(heat, |t| t.aim = Aim::Celsius(celsius)))
                            }
                            concerns=about_aim
                        />
                    }
                }
            >
                <HeatRow
                    id="temper-hardness"
                    label="hardness"
                    of="temper"
                    unit=Signal::derive(|| "HRC".to_owned())
                    get=|heat: Heat| match heat.temper().aim {
                        Aim::Hrc(hrc) => show_number(hrc),
                        Aim::Celsius(_) => String::new(),
                    }
                    read=|(heat, text): (Heat, String)| {
                        let hrc = words::plain_number(&text)?;
                        Ok(tempered(heat, |t| t.aim = Aim::Hrc(hrc)))
                    }
                    concerns=about_aim
                />
            </Show>
            <HeatRow
                id="temper-soak"
                label="each soak"
                of="temper"
                unit=Signal::derive(|| "h".to_owned())
                get=|heat: Heat| show_number(heat.temper().soak_hours)
                read=|(heat, text): (Heat, String)| {
                    let hours = words::plain_number(&text)?;
                    Ok(tempered(heat, |t| t.soak_hours = hours))
                }
                concerns=|error: HeatError| matches!(error, HeatError::Soak { .. })
            />
            <Pick
                label="how often"
                of="temper"
                options=TIMES.to_vec()
                chosen=Signal::derive(move || times(temper.get().times))
                choose=choose_times
            />
            <Show when=move || own.get()>
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| apply(workspace, |heat| heat.temper = None)
                >
                    "usual temper for this steel"
                </button>
            </Show>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_of_tempers_has_a_word() {
        assert_eq!([1, 2, 3].map(times), TIMES);
        // What a file may say and no plan bears.
        assert_eq!([0, 200].map(times), ["once", "three times"]);
    }
}
