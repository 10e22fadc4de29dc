//! What stands at a size: its number, its sign, and the word for its state.

use crate::units::{Length, System, show_length};

/// A shown number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Number {
    /// Digits, perhaps with a point and a minus: `58`, `57.15`.
    Plain(String),
    /// A fraction of an inch, perhaps with a whole part: `2`, `1`, `4` for 2 1/4.
    Fraction {
        /// Whole part with its minus; empty without one.
        whole: String,
        /// What stands above.
        numerator: String,
        /// What stands below.
        denominator: String,
    },
}

/// The text of a size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Value {
    /// What stands before the number: `Ø`, `R`.
    pub before: &'static str,
    /// The number.
    pub number: Number,
    /// What stands after it: ` × 45°`.
    pub after: &'static str,
    /// Whether it follows from other sizes and stands in brackets.
    pub derived: bool,
}

/// What a size is to the fit. Each has its own mark, word and colour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    /// The fit may move it.
    Free {
        /// It lies on one of its limits.
        at_limit: bool,
    },
    /// It stays as set.
    Locked,
    /// A target that is met, in words: `held at 0 ± 1`.
    Held(String),
    /// A target that is not met, in words: `held at 0 ± 1, out by 2.1`.
    Problem(String),
    /// It follows from the others, and nobody holds it.
    Derived,
}

impl State {
    /// The word under the line; none for what follows from others.
    pub fn word(&self) -> &str {
        match self {
            State::Free { at_limit: false } => "free",
            State::Free { at_limit: true } => "free, at its limit",
            State::Locked => "locked",
            State::Held(words) | State::Problem(words) => words,
            State::Derived => "",
        }
    }

    /// The name of its look in the style sheet.
    pub fn class(&self) -> &'static str {
        match self {
            State::Free { .. } => "free",
            State::Locked => "locked",
            State::Held(_) => "held",
            State::Problem(_) => "problem",
            State::Derived => "derived",
        }
    }
}

/// `mm` as a shown number, with a minus sign that is one.
pub fn number(mm: f64, system: System) -> Number {
    let shown = show_length(Length::mm(mm), system);
    let Some((front, denominator)) = shown.split_once('/') else {
        return Number::Plain(shown);
    };
    let (whole, numerator) = match front.split_once(' ') {
        Some((whole, numerator)) => (whole, numerator),
        None => match front.strip_prefix('−') {
            Some(numerator) => ("−", numerator),
            None => ("", front),
        },
    };
    Number::Fraction {
        whole: whole.to_owned(),
        numerator: numerator.to_owned(),
        denominator: denominator.to_owned(),
    }
}

/// Size of the figures of a fraction beside the others.
pub(super) const FRACTION: f64 = 0.82;
/// Gap between a whole number and its fraction, beside the size of the letters.
pub(super) const FRACTION_GAP: f64 = 0.12;

impl Value {
    /// The text in one line, for reading aloud and for the clipboard: `R 2 1/4`.
    pub fn plain(&self) -> String {
        let number = match &self.number {
            Number::Plain(text) => text.clone(),
            Number::Fraction {
                whole,
                numerator,
                denominator,
            } => {
                let gap = if whole.is_empty() || whole == "−" {
                    ""
                } else {
                    " "
                };
                format!("{whole}{gap}{numerator}/{denominator}")
            }
        };
        let text = format!("{}{number}{}", self.before, self.after);
        if self.derived {
            format!("({text})")
        } else {
            text
        }
    }

    /// Width of the text set at `size` px, px.
    pub fn width(&self, size: f64) -> f64 {
        let number = match &self.number {
            Number::Plain(text) => width(text),
            Number::Fraction {
                whole,
                numerator,
                denominator,
            } => {
                let gap = if whole.is_empty() { 0.0 } else { FRACTION_GAP };
                let slash = 0.29;
                width(whole) + gap + slash + FRACTION * (width(numerator) + width(denominator))
            }
        };
        let brackets = if self.derived { 0.6 } else { 0.0 };
        size * (number + width(self.before) + width(self.after) + brackets)
    }
}

/// Width of a text at size 1, on the safe side by some hundredths: the letters of the sheet in
/// weight 500 with tabular figures, by their own tables of widths.
pub(super) fn width(text: &str) -> f64 {
    text.chars()
        .map(|letter| match letter {
            '0'..='9' => 0.53,
            ' ' => 0.17,
            '.' | ',' | '/' | '(' | ')' | '°' => 0.30,
            'i' | 'j' | 'l' | '’' | '\'' => 0.27,
            'f' | 'r' | 't' => 0.33,
            'a' | 'c' | 'e' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' => 0.46,
            'm' | 'w' | 'M' | 'W' => 0.81,
            'Ø' | 'R' => 0.64,
            'A'..='Z' => 0.66,
            _ => 0.52,
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check_plain(mm: f64, system: System, expected: &str) {
        let value = Value {
            before: "",
            number: number(mm, system),
            after: "",
            derived: false,
        };
        assert_eq!(value.plain(), expected);
    }

    #[test]
    fn numbers_read_as_on_the_rule() {
        check_plain(58.0, System::Metric, "58");
        check_plain(57.15, System::Metric, "57.15");
        check_plain(-3.1, System::Metric, "−3.1");
        check_plain(57.15, System::Imperial, "2 1/4");
        check_plain(50.8, System::Imperial, "2");
        check_plain(-0.396875, System::Imperial, "−1/64");
        check_plain(58.0, System::Imperial, "2.283");
    }

    #[test]
    fn a_fraction_keeps_its_parts() {
        let expected = Number::Fraction {
            whole: "1".into(),
            numerator: "11".into(),
            denominator: "16".into(),
        };
        assert_eq!(number(25.4 * 27.0 / 16.0, System::Imperial), expected);
    }

    #[test]
    fn what_follows_from_others_stands_in_brackets() {
        let value = Value {
            before: "",
            number: number(145.0, System::Metric),
            after: "",
            derived: true,
        };
        assert_eq!(value.plain(), "(145)");
    }
}
