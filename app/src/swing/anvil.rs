//! At the anvil: the smith at the blow, what is asked of smith and anvil, what follows.

use leptos::prelude::*;

use super::super::pick::Pick;
use super::super::quantity::Number;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::workshop::Workshop;
use super::asked::AtAnvil;
use super::fields::{self, Part, field};
use super::lines::table;
use super::present::{Present, refused};
use super::sweep::bench::Bench;
use super::sweep::{Swatch, hands};
use headwright::posture::{ESTIMATE, Proportions, Table, posture};
use headwright::units::{Angle, Length, System, show_angle, show_length, show_number, unit_word};

mod smith;

/// The figure beside its fields.
#[component]
pub fn AtTheAnvil() -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let present = Present::here();
    let blow = Workshop::here().blow;
    let figure = move || {
        let system = system.get();
        let side = blow.value.with(|blow| blow.side);
        let work = Workshop::here()
            .at_anvil
            .value
            .with(|asked| asked.work.in_mm());
        match (present.hammer.get(), present.posture.get()) {
            (Ok(hammer), Some(Ok(posture))) => {
                smith::figure(&hammer, &posture, side, work, system).into_any()
            }
            (Ok(_), Some(Err(sentences))) | (Err(sentences), _) => refused(sentences).into_any(),
            (Ok(_), None) => ().into_any(),
        }
    };
    let numbers = move || {
        let system = system.get();
        let posture = present.posture.get()?.ok()?;
        let notes = posture.notes.iter();
        let notes = notes.map(|note| view! { <li>{note.sentence(system)}</li> });
        Some(view! {
            <ul class="said">{notes.collect_view()}</ul>
            {table("the smith at the blow", posture.lines(system))}
        })
    };
    let ends = move || {
        let system = system.get();
        let done = Bench::here().done.get()?;
        let said = hands(&done, system).into_iter();
        Some(
            said.map(|(place, text)| view! { <p><Swatch place=place /> {text}</p> })
                .collect_view(),
        )
    };
    view! {
        <section class="at-anvil workshop" aria-labelledby="at-anvil">
            <h2 id="at-anvil">"at the anvil"</h2>
            <Words id="anvil-words" terms=&[Term::Stature, Term::StandOff] />
            <p class="soft">"Straight back, level handle, flat work."</p>
            <div class="anvil-parts">
                <div>
                    {figure}
                    <div class="hands">{ends}</div>
                    <p class="soft small">{ESTIMATE}</p>
                </div>
                <div>
                    <Fields />
                    {numbers}
                </div>
            </div>
        </section>
    }
}

/// What is wrong with a stance, first things first.
fn check(asked: &AtAnvil, system: System) -> Result<(), String> {
    match posture(&asked.stance()) {
        Ok(_) => Ok(()),
        Err(errors) => Err(errors
            .first()
            .map(|error| error.sentence(system))
            .unwrap_or_default()),
    }
}

/// What is known of the smith.
const KNOWN: [&str; 2] = ["stature", "shoulder and knuckles"];

/// What is asked of smith and anvil.
#[component]
fn Fields() -> impl IntoView {
    let system = Workspace::here().system;
    let kept = Workshop::here().at_anvil;
    let present = Present::here();
    let knuckle = Signal::derive(move || {
        let posture = present.posture.get().and_then(Result::ok);
        let height = posture.map(|posture| posture.build.knuckle_mm);
        let system = system.get();
        height.map_or(String::new(), |mm| {
            show_length(Length::mm(on_tape(mm, system)), system)
        })
    });
    let measured = Memo::new(move |_| kept.value.with(|asked| asked.measured));
    let of_smith = move || {
        if measured.get() {
            view! {
                {field(kept, SHOULDER, check)}
                {field(kept, KNUCKLE, check)}
            }
            .into_any()
        } else {
            field(kept, STATURE, check).into_any()
        }
    };
    view! {
        <div class="rows">
            <Pick
                label="known of the smith"
                of="anvil"
                options=KNOWN.to_vec()
                chosen=Signal::derive(move || KNOWN[usize::from(measured.get())])
                choose=move |word: String| kept.apply(|asked| asked.measured = word == KNOWN[1])
            />
            {of_smith}
            <Pick
                label="proportions of"
                of="anvil"
                options=Table::ALL.map(Table::words).to_vec()
                chosen=Signal::derive(move || kept.value.with(|asked| asked.table.words()))
                choose=move |word: String| {
                    if let Some(table) = Table::ALL.into_iter().find(|table| table.words() == word) {
                        kept.apply(|asked| asked.table = table);
                    }
                }
            />
            {field(kept, Part { placeholder: Some(knuckle), ..ANVIL }, check)}
            {field(kept, WORK, check)}
            {field(kept, ELBOW, check)}
        </div>
        <p class="soft small">
            {move || shares(kept.value.with(|asked| asked.table).proportions())}
        </p>
        {move || {
            let wanted = present.posture.get()?.ok()?.wanted_anvil_mm;
            let system = system.get();
            let text = show_length(Length::mm(on_tape(wanted, system)), system);
            Some(view! {
                <p class="wanted">
                    "this hammer wants an anvil of "
                    <strong><Number text=text /> {format!(" {}", unit_word(system))}</strong>
                    {format!(", elbow at {}°. An estimate.", show_angle(Angle::degrees(kept.value.with(|asked| asked.elbow))))}
                </p>
            })
        }}
    }
}

/// To a millimetre, or an eighth of an inch.
fn on_tape(mm: f64, system: System) -> f64 {
    let step = match system {
        System::Metric => 1.0,
        System::Imperial => headwright::units::MM_PER_INCH / 8.0,
    };
    (mm / step).round() * step
}

/// What a table says, as shares of the stature.
fn shares(table: Proportions) -> String {
    let percent = |share: f64| show_number((1000.0 * share).round() / 10.0);
    format!(
        "Of the stature: shoulder {} %, upper arm {} %, forearm {} %, knuckles {} %.",
        percent(table.shoulder),
        percent(table.upper_arm),
        percent(table.forearm),
        percent(table.knuckle)
    )
}

const STATURE: Part<AtAnvil> = Part {
    id: "stature",
    label: "stature",
    of: "smith’s",
    show: |asked, system| fields::show(asked.stature, system),
    unit: fields::mm,
    put: |asked, text, system| {
        asked.stature = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const SHOULDER: Part<AtAnvil> = Part {
    id: "shoulder",
    label: "shoulder over the floor",
    of: "smith’s",
    show: |asked, system| fields::show(asked.shoulder, system),
    unit: fields::mm,
    put: |asked, text, system| {
        asked.shoulder = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const KNUCKLE: Part<AtAnvil> = Part {
    id: "knuckle",
    label: "knuckles over the floor",
    of: "smith’s",
    show: |asked, system| fields::show(asked.knuckle, system),
    unit: fields::mm,
    put: |asked, text, system| {
        asked.knuckle = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const ANVIL: Part<AtAnvil> = Part {
    id: "anvil",
    label: "anvil height",
    of: "smith’s",
    show: |asked, system| {
        asked
            .anvil
            .map_or(String::new(), |anvil| fields::show(anvil, system))
    },
    unit: fields::mm,
    put: |asked, text, system| {
        asked.anvil = if text.trim().is_empty() {
            None
        } else {
            Some(fields::read(text, system)?)
        };
        Ok(())
    },
    placeholder: None,
};

const WORK: Part<AtAnvil> = Part {
    id: "work",
    label: "thickness of the work",
    of: "anvil,",
    show: |asked, system| fields::show(asked.work, system),
    unit: fields::mm,
    put: |asked, text, system| {
        asked.work = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const ELBOW: Part<AtAnvil> = Part {
    id: "elbow",
    label: "elbow to aim at",
    of: "smith’s",
    show: |asked, _| show_angle(Angle::degrees(asked.elbow)),
    unit: fields::degrees,
    put: |asked, text, _| {
        asked.elbow = fields::read_degrees(text)?;
        Ok(())
    },
    placeholder: None,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_smith_of_no_height_is_refused_with_both_limits() {
        let asked = AtAnvil {
            stature: Length::mm(0.0),
            ..AtAnvil::default()
        };
        let sentence = check(&asked, System::Metric).expect_err("no smith");
        assert!(
            sentence.contains("0 mm") && sentence.contains("1000 mm"),
            "{sentence}"
        );
        assert!(check(&AtAnvil::default(), System::Imperial).is_ok());
    }

    #[test]
    fn an_anvil_of_which_nothing_is_said_is_none() {
        let mut asked = AtAnvil::default();
        (ANVIL.put)(&mut asked, "30 1/2 in", System::Metric).expect("a height");
        assert_eq!(asked.anvil, Some(Length::inches(30.5)));
        (ANVIL.put)(&mut asked, " ", System::Metric).expect("nothing");
        assert_eq!(asked.anvil, None);
        assert!((ANVIL.put)(&mut asked, "high", System::Metric).is_err());
    }
}
