//! A time as a person and a spreadsheet read it: ISO 8601, always UTC.

/// Milliseconds of a day.
const DAY_MS: u64 = 86_400_000;
/// The last year that is written with four digits.
const LAST_YEAR: u64 = 9999;
/// Days from the first of March of the year 0 to the first of January 1970.
const TO_1970: u64 = 719_468;
/// Days of 400 years.
const ERA_DAYS: u64 = 146_097;

/// The time as `2026-03-04T08:04:00Z`, with thousandths where there are any; as plain ms after 1970 beyond the year 9999.
///
/// # Source
/// Days to dates as in H. Hinnant, chrono-Compatible Low-Level Date Algorithms, from memory; checked over every day of
/// 800 years by the tests.
pub fn show_time(at: u64) -> String {
    let (days, ms) = (at / DAY_MS, at % DAY_MS);
    let (year, _, _) = date(days);
    if year > LAST_YEAR {
        return at.to_string();
    }
    let day = show_day(at);
    let (hour, minute) = (ms / 3_600_000, ms / 60_000 % 60);
    let (second, thousandth) = (ms / 1000 % 60, ms % 1000);
    let part = match thousandth {
        0 => String::new(),
        _ => format!(".{thousandth:03}"),
    };
    format!("{day}T{hour:02}:{minute:02}:{second:02}{part}Z")
}

/// The day of a time, ms after 1970 began, UTC, as `2026-03-04`.
pub(crate) fn show_day(at: u64) -> String {
    let (year, month, day) = date(at / DAY_MS);
    format!("{year:04}-{month:02}-{day:02}")
}

/// Reads what [`show_time`] writes, the same without T, Z, thousandths, seconds or the time of day, and plain ms.
pub fn read_time(text: &str) -> Option<u64> {
    let text = text.trim();
    if !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit()) {
        return text.parse().ok();
    }
    let text = text.strip_suffix('Z').unwrap_or(text);
    let (day, time) = text.split_once(['T', ' ']).unwrap_or((text, "0:00"));
    let mut parts = day.splitn(3, '-').map(|part| digits(part, LAST_YEAR));
    let (year, month, day) = (parts.next()??, parts.next()??, parts.next()??);
    let days = days(year, month, day)?;
    let (time, part) = time.split_once('.').unwrap_or((time, ""));
    let mut parts = time.splitn(3, ':');
    let hour = digits(parts.next()?, 23)?;
    let minute = digits(parts.next()?, 59)?;
    let second = parts.next().map_or(Some(0), |second| digits(second, 59))?;
    let thousandth = match part.len() {
        0 => 0,
        1..=3 => digits(&format!("{part:0<3}"), 999)?,
        _ => return None,
    };
    Some(days * DAY_MS + ((hour * 60 + minute) * 60 + second) * 1000 + thousandth)
}

fn digits(text: &str, most: u64) -> Option<u64> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    text.parse().ok().filter(|number| *number <= most)
}

/// Year, month and day of a day after 1970 began. Years are counted from March, so that the day of leap years is the last.
fn date(days: u64) -> (u64, u64, u64) {
    let days = days + TO_1970;
    let (era, day) = (days / ERA_DAYS, days % ERA_DAYS);
    let year = (day - day / 1460 + day / 36_524 - day / 146_096) / 365;
    let of_year = day - (365 * year + year / 4 - year / 100);
    let from_march = (5 * of_year + 2) / 153;
    let day = of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 {
        from_march + 3
    } else {
        from_march - 9
    };
    (era * 400 + year + u64::from(month <= 2), month, day)
}

/// The day after 1970 began, if there is such a date and it is no earlier.
fn days(year: u64, month: u64, day: u64) -> Option<u64> {
    if !(1970..=LAST_YEAR).contains(&year) || !(1..=12).contains(&month) || day == 0 {
        return None;
    }
    let from_march = (month + 9) % 12;
    let marched = year - u64::from(month <= 2);
    let (era, year_of_era) = (marched / 400, marched % 400);
    let of_year = (153 * from_march + 2) / 5 + day - 1;
    let of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + of_year;
    let days = (era * ERA_DAYS + of_era).checked_sub(TO_1970)?;
    // A day that the month does not have would be one of the next.
    (date(days) == (year, month, day)).then_some(days)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rack::LATEST;

    #[test]
    fn days_are_those_of_the_calendar() {
        for (at, told) in [
            (0, "1970-01-01"),
            (DAY_MS - 1, "1970-01-01"),
            (58 * DAY_MS, "1970-02-28"),
            (59 * DAY_MS, "1970-03-01"),
            (951_782_400_000, "2000-02-29"),
            (951_868_800_000, "2000-03-01"),
            (1_700_000_000_000, "2023-11-14"),
            (4_107_456_000_000, "2100-02-28"),
            (4_107_542_400_000, "2100-03-01"),
            (LATEST, "275760-09-13"),
        ] {
            assert_eq!(show_day(at), told, "{at}");
        }
    }

    #[test]
    fn times_are_written_as_they_are_known() {
        for (at, text) in [
            (0, "1970-01-01T00:00:00Z"),
            (951_782_400_000, "2000-02-29T00:00:00Z"),
            (1_772_611_440_000, "2026-03-04T08:04:00Z"),
            (1_772_611_440_007, "2026-03-04T08:04:00.007Z"),
            (253_402_300_799_999, "9999-12-31T23:59:59.999Z"),
            (253_402_300_800_000, "253402300800000"),
        ] {
            assert_eq!(show_time(at), text);
            assert_eq!(read_time(text), Some(at));
        }
    }

    #[test]
    fn every_day_of_eight_hundred_years_follows_the_one_before() {
        let leap = |year: u64| {
            year.is_multiple_of(4) && !year.is_multiple_of(100) || year.is_multiple_of(400)
        };
        let (mut year, mut month, mut day) = (1970, 1, 1);
        for at in 0..2 * ERA_DAYS {
            assert_eq!(date(at), (year, month, day));
            assert_eq!(days(year, month, day), Some(at));
            let length = match month {
                2 => 28 + u64::from(leap(year)),
                4 | 6 | 9 | 11 => 30,
                _ => 31,
            };
            day += 1;
            if day > length {
                (month, day) = (month + 1, 1);
            }
            if month > 12 {
                (year, month) = (year + 1, 1);
            }
        }
    }

    #[test]
    fn a_person_may_write_less_and_what_is_no_time_is_none() {
        for text in [
            "2026-03-04 08:04",
            "2026-03-04T08:04:00",
            "2026-3-4 8:04:00.0Z",
        ] {
            assert_eq!(read_time(text), Some(1_772_611_440_000), "{text}");
        }
        assert_eq!(read_time("2026-03-04"), Some(1_772_582_400_000));
        for text in [
            "",
            "yesterday",
            "2026-02-29",
            "2026-13-01",
            "2026-03-00",
            "1969-12-31",
            "2026-03-04 24:00",
            "2026-03-04 08:60",
            "2026-03-04 08",
            "2026-03-04T08:04:00.1234Z",
            "99999999999999999999",
            "-5",
            "2026-03-04T",
        ] {
            assert_eq!(read_time(text), None, "{text}");
        }
    }
}
