//! Days and times as the browser's calendar has them, and how long something takes.

use wasm_bindgen::JsValue;

use headwright::units::show_number;

/// Milliseconds of a minute.
pub const MINUTE_MS: f64 = 60_000.0;

/// A day, as it is written in English.
pub fn day(ms: u64) -> String {
    let options = js_sys::Object::new();
    for (key, value) in [("day", "numeric"), ("month", "short"), ("year", "numeric")] {
        // A plain object takes every key.
        let _ = js_sys::Reflect::set(&options, &key.into(), &value.into());
    }
    date(ms).to_locale_date_string("en-GB", &options).into()
}

/// A time of day, "08:04", and the day before it where that is not the day of `now`.
pub fn time(ms: u64, now: u64) -> String {
    let time: String = date(ms).to_locale_time_string("en-GB").into();
    let time: String = time.chars().take(5).collect();
    if day(ms) == day(now) {
        time
    } else {
        format!("{}, {time}", day(ms))
    }
}

fn date(ms: u64) -> js_sys::Date {
    js_sys::Date::new(&JsValue::from_f64(ms as f64))
}

/// A time that runs: "0:07", "12:04", "1:12:04".
pub fn running(ms: u64) -> String {
    let seconds = ms / 1000;
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours == 0 {
        format!("{minutes}:{seconds:02}")
    } else {
        format!("{hours}:{minutes:02}:{seconds:02}")
    }
}

/// So many minutes: "0.5 min", "42 min", "1 h 42 min". Tenths only of the first ten.
pub fn minutes(minutes: f64) -> String {
    if minutes < 9.95 {
        return format!("{} min", show_number((minutes * 10.0).round() / 10.0));
    }
    let whole = minutes.round() as u64;
    match (whole / 60, whole % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_running_time_has_hours_only_when_there_are_any() {
        for (ms, text) in [
            (0, "0:00"),
            (7_900, "0:07"),
            (724_000, "12:04"),
            (3_599_999, "59:59"),
            (4_324_000, "1:12:04"),
            (360_000_000, "100:00:00"),
        ] {
            assert_eq!(running(ms), text);
        }
    }

    #[test]
    fn minutes_are_told_as_finely_as_they_matter() {
        for (number, text) in [
            (0.0, "0 min"),
            (0.46, "0.5 min"),
            (9.94, "9.9 min"),
            (9.96, "10 min"),
            (59.6, "1 h"),
            (102.0, "1 h 42 min"),
        ] {
            assert_eq!(minutes(number), text);
        }
    }
}
