//! Holds as they are written.

use headwright::design::Hold;

/// A hold as it is written: nothing, one value, two with "to" between them, or one ± another.
///
/// # Errors
/// What `read` says about a part that it cannot read.
pub fn read_hold<Q: Copy>(
    text: &str,
    tolerance: Option<Q>,
    read: impl Fn(&str) -> Result<Q, String>,
) -> Result<Option<Hold<Q>>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    if let Some((low, high)) = text.split_once(" to ").or_else(|| text.split_once('–')) {
        let (low, high) = (read(low)?, read(high)?);
        return Ok(Some(Hold::Between { low, high }));
    }
    if let Some((value, off)) = text.split_once('±') {
        let (value, off) = (read(value)?, read(off)?);
        return Ok(Some(Hold::About {
            value,
            tolerance: Some(off),
        }));
    }
    let value = read(text)?;
    Ok(Some(Hold::About { value, tolerance }))
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
    fn a_hold_is_read_as_a_value_a_tolerance_or_a_range() {
        let value = Length::mm(1.0);
        assert_eq!(read(" "), Ok(None));
        assert_eq!(
            read("1"),
            Ok(Some(Hold::About {
                value,
                tolerance: None
            }))
        );
        assert_eq!(
            read("1 ± 0.5"),
            Ok(Some(Hold::About {
                value,
                tolerance: Some(Length::mm(0.5))
            }))
        );
        let high = Length::mm(2.0);
        assert_eq!(read("1 to 2"), Ok(Some(Hold::Between { low: value, high })));
        assert!(read("1 to x").is_err());
    }
}
