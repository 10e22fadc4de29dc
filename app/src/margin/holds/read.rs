//! Holds as they are written.

use headwright::design::Hold;

/// A hold as it is written: nothing, one value, one ± another, two with "to" between them, or one
/// after "at least" or "at most".
///
/// # Errors
/// What `read` says about a part that it cannot read.
pub fn read_hold<Q: Copy>(
    text: &str,
    tolerance: Option<Q>,
    read: impl Fn(&str) -> Result<Q, String>,
) -> Result<Option<Hold<Q>>, String> {
    let text = text.trim();
    let after = |signs: [&str; 2]| signs.iter().find_map(|sign| text.strip_prefix(sign));
    if text.is_empty() {
        return Ok(None);
    }
    let hold = if let Some(least) = after(["at least ", "≥"]) {
        let least = read(least)?;
        Hold::AtLeast { least }
    } else if let Some(most) = after(["at most ", "≤"]) {
        let most = read(most)?;
        Hold::AtMost { most }
    } else if let Some((low, high)) = text.split_once(" to ").or_else(|| text.split_once('–')) {
        let (low, high) = (read(low)?, read(high)?);
        Hold::Between { low, high }
    } else if let Some((value, off)) = text.split_once('±') {
        let (value, tolerance) = (read(value)?, Some(read(off)?));
        Hold::About { value, tolerance }
    } else {
        let value = read(text)?;
        Hold::About { value, tolerance }
    };
    Ok(Some(hold))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::units::{Length, System, parse_length};

    fn read(text: &str) -> Result<Option<Hold<Length>>, String> {
        read_hold(text, None, |text| {
            parse_length(text, System::Metric).map_err(|e| e.to_string())
        })
    }

    #[test]
    fn a_hold_is_read_in_every_form() {
        let [one, two, half] = [1.0, 2.0, 0.5].map(Length::mm);
        let about = |tolerance| Hold::About {
            value: one,
            tolerance,
        };
        let between = Hold::Between {
            low: one,
            high: two,
        };
        for (text, hold) in [
            (" ", None),
            ("1", Some(about(None))),
            ("1 ± 0.5", Some(about(Some(half)))),
            ("1 to 2", Some(between)),
            ("at least 1", Some(Hold::AtLeast { least: one })),
            ("≥ 1 mm", Some(Hold::AtLeast { least: one })),
            ("at most 2", Some(Hold::AtMost { most: two })),
            ("≤2", Some(Hold::AtMost { most: two })),
        ] {
            assert_eq!(read(text), Ok(hold), "{text}");
        }
        for text in ["1 to x", "at least", "at least x", "±"] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
