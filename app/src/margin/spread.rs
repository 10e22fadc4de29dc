//! How far the finished weight spreads when sizes are forged to an accuracy.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::keep;
use super::super::state::Workspace;
use headwright::fit::{ANGLE_STEP, Accuracy, Effect, mass_spread};
use headwright::units::{Length, Measure, System, parse_length, show_length, show_mass, unit_word};

/// Standard deviations either side of the middle between which a normally spread weight lies
/// nineteen times in twenty.
const NINETEEN_IN_TWENTY: f64 = 1.96;
/// The coarsest accuracy, mm: beyond, what a size does to the weight is no longer a straight line.
const COARSEST: f64 = 5.0;

/// A field for the accuracy, and the spread that follows from it.
#[component]
pub fn Spread(
    /// What one step of each size does.
    effects: Memo<Vec<Effect>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    // As text, which is how it is kept: a millimetre stays one, an inch an inch.
    let kept = RwSignal::new(keep::read(keep::ACCURACY));
    let shown = RwSignal::new(kept.get_untracked());
    let within = move || {
        let own = shown.with(|text| usable(text.as_ref()?.parse().ok()?).ok());
        own.unwrap_or_else(|| usual(system.get()))
    };
    let said = Memo::new(move |_| effects.with(|all| sentence(all, within(), system.get())));
    let keep = move |()| {
        if let Some(text) = shown.get_untracked() {
            keep::store_word(keep::ACCURACY, &text);
            kept.set(Some(text));
        }
    };
    view! {
        <div class="row-line spread">
            <label for="forged-within">"forged within ±"</label>
            <Entry
                label="forged within ±".to_owned()
                value=Signal::derive(move || show_length(within(), system.get()))
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                read=move |text: String| {
                    let length = parse_length(&text, system.get_untracked())
                        .map_err(|e| e.to_string())?;
                    shown.set(Some(usable(length)?.to_string()));
                    Ok(())
                }
                keep=keep
                put_back=move |()| shown.set(kept.get_untracked())
                id="forged-within"
            />
        </div>
        <p role="status">{said}</p>
    }
}

/// What a smith works to who has not said: half a millimetre, or a 64th of an inch.
fn usual(system: System) -> Length {
    match system {
        System::Metric => Length::mm(0.5),
        System::Imperial => Length::inches(1.0 / 64.0),
    }
}

/// `length` as an accuracy.
///
/// # Errors
/// A sentence when it is none, or so coarse that the estimate does not hold.
fn usable(length: Length) -> Result<Length, String> {
    if length.in_mm() > 0.0 && length.in_mm() <= COARSEST {
        Ok(length)
    } else {
        Err(format!(
            "The accuracy is {length}. Make it more than 0 and at most {}.",
            length.with_mm(COARSEST)
        ))
    }
}

/// What the finished weight does when every size is off by up to `within`.
fn sentence(effects: &[Effect], within: Length, system: System) -> String {
    let off = NINETEEN_IN_TWENTY * mass_spread(effects, Accuracy::within(within));
    let turned = effects.iter().any(|effect| effect.dim.is_angle());
    let angles = if turned {
        format!(
            ", angles by up to {}",
            Measure::from(ANGLE_STEP).words(system)
        )
    } else {
        String::new()
    };
    format!(
        "With each size off by up to that on its own{angles}, the finished weight comes out within \
         ±{}, nineteen times in twenty (estimate).",
        show_mass(off, system)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::fit::effects;
    use headwright::units::Rule;

    fn of(name: &str) -> Vec<Effect> {
        effects(&starter(name).expect("a starter"), Rule::MILLIMETRE).expect("sound")
    }

    #[test]
    fn the_spread_is_said_at_nineteen_in_twenty_in_the_units_that_are_shown() {
        let effects = of("rounding");
        let sd = mass_spread(&effects, Accuracy::within(Length::mm(0.5)));
        assert!((0.005..0.03).contains(&sd), "{sd}");
        let metric = sentence(&effects, Length::mm(0.5), System::Metric);
        let grams = format!("±{:.1} g, nineteen times in twenty", sd * 1.96 * 1000.0);
        assert!(metric.contains(&grams), "{metric}");
        let imperial = sentence(&effects, Length::mm(0.5), System::Imperial);
        assert!(imperial.contains(" oz, nineteen"), "{imperial}");
    }

    #[test]
    fn angles_are_spoken_of_where_there_are_some() {
        let said = |name: &str| sentence(&of(name), Length::mm(0.5), System::Metric);
        assert!(!said("rounding").contains("angles"), "{}", said("rounding"));
        assert!(said("diagonal").contains("angles by up to 1°"));
    }

    #[test]
    fn an_accuracy_of_nothing_or_of_too_much_is_refused_in_its_own_unit() {
        assert!(usable(Length::mm(0.0)).is_err());
        assert!(usable(Length::mm(-0.5)).is_err());
        assert_eq!(
            usable(Length::inches(1.0 / 32.0)),
            Ok(Length::inches(1.0 / 32.0))
        );
        assert_eq!(
            usable(Length::mm(8.0)),
            Err("The accuracy is 8 mm. Make it more than 0 and at most 5 mm.".to_owned())
        );
    }
}
