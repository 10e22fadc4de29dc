//! Fields of what the workshop keeps of smith and blow.

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::super::field::Field;
use super::super::state::Workspace;
use super::super::words;
use super::super::workshop::Kept;
use headwright::units::{
    Length, M_PER_FOOT, N_PER_POUND_FORCE, System, parse_length, show_length, show_number,
    unit_word,
};

/// A kept value, what is wrong with it, and how a field shows and changes a part of it.
pub struct Part<T: 'static> {
    /// Id of the field.
    pub id: &'static str,
    /// Its label.
    pub label: &'static str,
    /// What it belongs to, for those who do not see the heading.
    pub of: &'static str,
    /// Its value as shown.
    pub show: fn(&T, System) -> String,
    /// Its unit.
    pub unit: fn(System) -> &'static str,
    /// Puts what a text says in its place, or says why it does not.
    pub put: fn(&mut T, &str, System) -> Result<(), String>,
    /// Shown while it is empty.
    pub placeholder: Option<Signal<String>>,
}

/// The field of `part`; what `check` has to say of the changed value is refused.
pub fn field<T>(
    kept: Kept<T>,
    part: Part<T>,
    check: impl Fn(&T, System) -> Result<(), String> + Copy + Send + Sync + 'static,
) -> impl IntoView
where
    T: Serialize + DeserializeOwned + Clone + Send + Sync + 'static,
{
    let system = Workspace::here().system;
    let Part {
        id,
        label,
        of,
        show,
        unit,
        put,
        placeholder,
    } = part;
    view! {
        <Field
            id=id
            label=label
            of=of
            value=Signal::derive(move || kept.value.with(|value| show(value, system.get())))
            unit=Signal::derive(move || unit(system.get()).to_owned())
            placeholder=placeholder.unwrap_or_else(|| Signal::stored(String::new()))
            read=move |text: String| {
                let system = system.get_untracked();
                let mut changed = kept.value.get_untracked();
                put(&mut changed, &text, system)?;
                check(&changed, system)?;
                kept.show(|value| *value = changed);
                Ok(())
            }
            keep=move |()| kept.keep()
            put_back=move |()| kept.put_back()
        />
    }
}

/// A length as a field shows it.
pub fn show(length: Length, system: System) -> String {
    show_length(length, system)
}

/// Reads a length.
///
/// # Errors
/// A sentence when the text is none.
pub fn read(text: &str, system: System) -> Result<Length, String> {
    parse_length(text, system).map_err(|error| error.to_string())
}

/// The unit of lengths.
pub fn mm(system: System) -> &'static str {
    unit_word(system)
}

/// The unit of angles.
pub fn degrees(_: System) -> &'static str {
    "°"
}

/// What a field for a number counts: what one of its unit is in the units of the core.
#[derive(Clone, Copy)]
pub struct Counted {
    /// Metric unit.
    pub metric: &'static str,
    /// Imperial unit.
    pub imperial: &'static str,
    /// How much one of the imperial unit is.
    one: f64,
}

/// Speeds, m/s.
pub const SPEED: Counted = Counted {
    metric: "m/s",
    imperial: "ft/s",
    one: M_PER_FOOT,
};
/// Energies, J.
pub const ENERGY: Counted = Counted {
    metric: "J",
    imperial: "ft·lbf",
    one: M_PER_FOOT * N_PER_POUND_FORCE,
};
/// Torques, N·m.
pub const TORQUE: Counted = Counted {
    metric: "N·m",
    imperial: "ft·lbf",
    one: M_PER_FOOT * N_PER_POUND_FORCE,
};

impl Counted {
    /// The unit.
    pub const fn unit(self, system: System) -> &'static str {
        match system {
            System::Metric => self.metric,
            System::Imperial => self.imperial,
        }
    }

    fn one_in(self, system: System) -> f64 {
        match system {
            System::Metric => 1.0,
            System::Imperial => self.one,
        }
    }

    /// `number` as a field shows it, to hundredths.
    pub fn show(self, number: f64, system: System) -> String {
        show_number((number / self.one_in(system) * 100.0).round() / 100.0)
    }

    /// Reads a number: a bare one is in the unit that is shown, and either unit may be written.
    ///
    /// # Errors
    /// A sentence when the text is none.
    pub fn read(self, text: &str, system: System) -> Result<f64, String> {
        let text = text.trim();
        let written = [
            (self.metric, System::Metric),
            (self.imperial, System::Imperial),
        ];
        let named = written.into_iter().find_map(|(unit, system)| {
            let plain = unit.replace('·', "");
            let bare = text
                .strip_suffix(unit)
                .or_else(|| text.strip_suffix(&plain));
            bare.map(|bare| (bare, system))
        });
        let (bare, system) = named.unwrap_or((text, system));
        words::plain_number(bare).map(|number| number * self.one_in(system))
    }
}

/// Reads degrees.
///
/// # Errors
/// A sentence when the text is no number.
pub fn read_degrees(text: &str) -> Result<f64, String> {
    words::plain_number(text.trim().trim_end_matches('°'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_read_in_the_unit_that_is_shown_or_in_its_own() {
        assert_eq!(SPEED.read("7", System::Metric), Ok(7.0));
        assert_eq!(SPEED.read("7,5 m/s", System::Imperial), Ok(7.5));
        assert_eq!(SPEED.read("10", System::Imperial), Ok(3.048));
        assert_eq!(TORQUE.read("20 Nm", System::Metric), Ok(20.0));
        for text in ["", "fast", "NaN", "inf", "7 kg"] {
            assert!(SPEED.read(text, System::Metric).is_err(), "{text}");
        }
    }

    #[test]
    fn what_is_shown_is_read_as_the_same() {
        for system in [System::Metric, System::Imperial] {
            for counted in [SPEED, ENERGY, TORQUE] {
                let shown = counted.show(counted.one_in(system) * 12.25, system);
                let read = counted.read(&shown, system).expect("a number");
                assert!(
                    (read / counted.one_in(system) - 12.25).abs() < 1e-9,
                    "{shown}"
                );
            }
        }
    }

    #[test]
    fn degrees_may_bear_their_sign() {
        assert_eq!(read_degrees("130°"), Ok(130.0));
        assert_eq!(read_degrees(" 92.5 "), Ok(92.5));
        assert!(read_degrees("bent").is_err());
    }
}
