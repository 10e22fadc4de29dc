//! What a customer may choose: each choice is fitted at once, or refused in a sentence.

use leptos::prelude::*;

use super::super::field::Field;
use super::super::state::Workspace;
use super::joined;
use headwright::design::{Side, TipShape};
use headwright::share::offer::{Between, Choice, Offer, OpenTip};
use headwright::units::{Length, parse_length, parse_mass, show_length, show_mass, unit_word};

/// The offer and what is chosen of it.
#[derive(Clone, Copy)]
pub struct Chooser {
    /// The offer.
    pub offer: StoredValue<Offer>,
    /// What is chosen.
    pub choice: RwSignal<Choice>,
    /// How often that changed.
    pub turns: RwSignal<u32>,
    /// What was chosen before a field was written in.
    before: StoredValue<Choice>,
    /// The head as it is chosen.
    own: Workspace,
}

impl Chooser {
    /// Nothing of `offer` chosen yet; `own` shows what is.
    pub fn new(offer: Offer, own: Workspace) -> Self {
        Self {
            offer: StoredValue::new(offer),
            choice: RwSignal::new(Choice::default()),
            turns: RwSignal::new(0),
            before: StoredValue::new(Choice::default()),
            own,
        }
    }

    /// Chooses what `change` makes of the present choice.
    fn change(self, change: impl FnOnce(&mut Choice)) -> Result<(), String> {
        let mut choice = self.choice.get_untracked();
        change(&mut choice);
        self.choose(choice)
    }

    fn choose(self, choice: Choice) -> Result<(), String> {
        if choice == self.choice.get_untracked() {
            return Ok(());
        }
        let system = self.own.system.get_untracked();
        match self.offer.with_value(|offer| offer.choose(&choice)) {
            Ok(chosen) => {
                self.choice.set(choice);
                self.turns.update(|turns| *turns += 1);
                self.own.put_on(chosen.design);
                Ok(())
            }
            Err(errors) => Err(joined(errors.iter().map(|error| error.sentence(system)))),
        }
    }

    /// Keeps what is chosen as what a field goes back to.
    fn keep(self) {
        self.before.set_value(self.choice.get_untracked());
    }

    fn put_back(self) {
        // What was chosen before could be had.
        let _ = self.choose(self.before.get_value());
    }
}

/// The fields of what is open.
#[component]
pub fn Choices(
    /// What is chosen.
    chooser: Chooser,
) -> impl IntoView {
    let open = chooser.offer.with_value(|offer| offer.terms.open.clone());
    view! {
        <section aria-labelledby="to-choose">
            <h2 id="to-choose">"what you may choose"</h2>
            {open.handle_mm.map(|range| view! { <HandleLength chooser=chooser range=range /> })}
            {open.grams.map(|range| view! { <Weight chooser=chooser range=range /> })}
            {open.tip.map(|tip| view! { <Tips chooser=chooser tip=tip /> })}
        </section>
    }
}

/// The length of the handle.
#[component]
fn HandleLength(
    /// What is chosen.
    chooser: Chooser,
    /// What may be.
    range: Between,
) -> impl IntoView {
    let system = chooser.own.system;
    let show = move |mm: f64| show_length(Length::mm(mm), system.get());
    let value = move || {
        chooser
            .own
            .design
            .with(|design| show(design.handle.length.in_mm()))
    };
    let read = move |text: String| {
        let length = parse_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
        let mm = whole(length.in_mm())?;
        chooser.change(|choice| choice.handle_mm = Some(mm))
    };
    let limits = move || {
        let [low, high] = [range.low, range.high].map(|mm| show(f64::from(mm)));
        format!("{low} to {high} {} may be had", unit_word(system.get()))
    };
    view! {
        <Field
            id="choose-handle"
            label="length of the handle"
            value=Signal::derive(value)
            unit=Signal::derive(move || unit_word(system.get()).to_owned())
            read=read
            keep=Callback::new(move |()| chooser.keep())
            put_back=Callback::new(move |()| chooser.put_back())
        />
        <p class="soft">{limits}</p>
    }
}

/// The weight of the head.
#[component]
fn Weight(
    /// What is chosen.
    chooser: Chooser,
    /// What may be.
    range: Between,
) -> impl IntoView {
    let system = chooser.own.system;
    let show = move |grams: u32| show_mass(f64::from(grams) / 1000.0, system.get());
    let value = move || {
        chooser
            .own
            .properties
            .with(|p| show_mass(p.mass, system.get()))
    };
    let read = move |text: String| {
        let mass = parse_mass(&text, system.get_untracked()).map_err(|e| e.to_string())?;
        let grams = whole(mass.in_grams())?;
        chooser.change(|choice| choice.grams = Some(grams))
    };
    view! {
        <Field
            id="choose-weight"
            label="weight of the head"
            value=Signal::derive(value)
            unit=Signal::stored(String::new())
            read=read
            keep=Callback::new(move |()| chooser.keep())
            put_back=Callback::new(move |()| chooser.put_back())
        />
        <p class="soft">{move || format!("{} to {} may be had", show(range.low), show(range.high))}</p>
    }
}

/// What the open end is worked into.
#[component]
fn Tips(
    /// What is chosen.
    chooser: Chooser,
    /// What may be.
    tip: OpenTip,
) -> impl IntoView {
    let side = tip.side;
    let drawn = drawn(chooser, side);
    let wrong = RwSignal::new(None::<String>);
    let shapes = std::iter::once(drawn).chain(tip.instead).map(|shape| {
        let chosen = move || chooser.choice.get().tip.unwrap_or(drawn) == shape;
        let choose = move |_| {
            let tip = (shape != drawn).then_some(shape);
            wrong.set(chooser.change(|choice| choice.tip = tip).err());
            chooser.keep();
        };
        view! {
            <button type="button" class="choice" aria-pressed=move || chosen().to_string() on:click=choose>
                <span>{shape.words()}</span>
            </button>
        }
    });
    view! {
        <div class="row tips" role="group" aria-label=format!("{}, worked into", side.word())>
            <span>{format!("{}, worked into a", side.word())}</span>
            <div class="choices">{shapes.collect_view()}</div>
        </div>
        {move || {
            wrong.get().map(|sentence| view! { <p class="sentence problem" role="alert">{sentence}</p> })
        }}
    }
}

fn drawn(chooser: Chooser, side: Side) -> TipShape {
    chooser
        .offer
        .with_value(|offer| TipShape::of(&offer.design.end(side).tip))
}

/// `number` to the whole, if it is a number of anything that can be chosen.
pub fn whole(number: f64) -> Result<u32, String> {
    let rounded = number.round();
    if (0.0..=1e6).contains(&rounded) {
        Ok(rounded as u32)
    } else {
        Err("That is out of all bounds.".to_owned())
    }
}
