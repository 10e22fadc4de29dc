//! Reads numbers off a text: decimals with point or comma, fractions, mixed numbers, fraction glyphs.

use super::error::{Quantity, UnitError, quoted};

/// How a number was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// `58`
    Whole,
    /// `5.8`, `1e3`
    Decimal,
    /// `1/2`, `2 1/4`
    Fraction,
}

/// A number as it stood in the text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number {
    /// Its value, finite.
    pub value: f64,
    /// How it was written.
    pub form: Form,
}

/// A text being read from left to right.
pub(super) struct Scanner<'a> {
    text: &'a str,
    wanted: Quantity,
    characters: Vec<char>,
    at: usize,
}

impl<'a> Scanner<'a> {
    /// Starts at the left of `text`; `wanted` is what errors ask for.
    pub fn new(text: &'a str, wanted: Quantity) -> Result<Self, UnitError> {
        let characters = plain_characters(text);
        if characters.is_empty() {
            return Err(UnitError::Empty { wanted });
        }
        Ok(Self {
            text,
            wanted,
            characters,
            at: 0,
        })
    }

    /// The sign in front of everything: −1 after a minus, otherwise 1.
    pub fn sign(&mut self) -> f64 {
        self.skip_blanks();
        let minus = self.take('-');
        if !minus {
            self.take('+');
        }
        self.skip_blanks();
        if minus { -1.0 } else { 1.0 }
    }

    /// The next number, without sign: `58`, `5,8`, `.5`, `1e3`, `1/2`, `2 1/4`, `2-1/4`.
    pub fn number(&mut self) -> Result<Number, UnitError> {
        let whole = self.digits();
        let mark = self.take_decimal_mark();
        let decimals = if mark.is_some() {
            self.digits()
        } else {
            String::new()
        };
        if whole.is_empty() && decimals.is_empty() {
            return Err(self.not_a_number());
        }
        let goes_on = matches!(self.peek(0), Some('.' | ','));
        let thousands = decimals.len() == 3 && !whole.trim_start_matches('0').is_empty();
        if mark == Some(',') && thousands && !goes_on {
            return Err(UnitError::AmbiguousComma {
                text: quoted(self.text),
                with_point: quoted(&format!("{whole}.{decimals}")),
                without_mark: quoted(&format!("{whole}{decimals}")),
            });
        }
        let exponent = self.exponent();
        let form = if mark.is_none() && exponent.is_empty() {
            Form::Whole
        } else {
            Form::Decimal
        };
        if form == Form::Whole {
            if let Some(denominator) = self.denominator()? {
                return self.finite(digits_value(&whole) / denominator, Form::Fraction);
            }
            if let Some(part) = self.fraction_after_whole()? {
                return self.finite(digits_value(&whole) + part, Form::Fraction);
            }
        }
        let or_zero = |digits: String| {
            if digits.is_empty() {
                "0".to_owned()
            } else {
                digits
            }
        };
        let written = format!("{}.{}{exponent}", or_zero(whole), or_zero(decimals));
        // Digits, a point, digits and an exponent always parse, at worst to infinity.
        self.finite(written.parse().unwrap_or(f64::INFINITY), form)
    }

    /// Takes the next word if `accepts` knows it, otherwise takes nothing.
    ///
    /// The word ends before a digit, a sign, or a blank with a decimal mark and a digit: `lb, 6`, `lb.6`, `lb .5`.
    pub fn take_word(&mut self, accepts: impl Fn(&str) -> bool) -> bool {
        let start = self.at;
        self.skip_blanks();
        let rest = &self.characters[self.at..];
        let is_digit = |at: usize| rest.get(at).is_some_and(char::is_ascii_digit);
        let ends = |at: &usize| match rest[*at] {
            '+' | '-' => true,
            ' ' => matches!(rest.get(at + 1), Some('.' | ',')) && is_digit(at + 2),
            _ => is_digit(*at),
        };
        let length = (0..rest.len()).find(ends).unwrap_or(rest.len());
        let word: String = rest[..length].iter().collect();
        let known = accepts(word.trim().trim_end_matches(',').to_lowercase().trim_end());
        self.at = if known { self.at + length } else { start };
        known
    }

    /// All that remains, in lower case, as the name of a unit; empty when nothing remains.
    ///
    /// # Errors
    /// When it begins like a further number.
    pub fn unit(&mut self) -> Result<String, UnitError> {
        self.skip_blanks();
        let rest: String = self.characters[self.at..].iter().collect();
        self.at = self.characters.len();
        if rest.starts_with(|c: char| c.is_ascii_digit() || ".,/+-".contains(c)) {
            return Err(self.not_a_number());
        }
        Ok(rest.to_lowercase())
    }

    /// Whether everything has been read.
    pub fn is_done(&self) -> bool {
        self.characters[self.at..].iter().all(|c| *c == ' ')
    }

    /// The error for a text that is no number.
    pub fn not_a_number(&self) -> UnitError {
        UnitError::NotANumber {
            text: quoted(self.text),
            wanted: self.wanted,
        }
    }

    /// The error for a unit that is not of the wanted quantity.
    pub fn unknown_unit(&self, unit: &str) -> UnitError {
        let found = [
            (Quantity::Length, super::length::is_length_unit(unit)),
            (Quantity::Mass, super::mass::is_mass_unit(unit)),
            (Quantity::Density, super::density::is_density_unit(unit)),
            (Quantity::Angle, super::angle::is_angle_unit(unit)),
            (Quantity::Inertia, super::inertia::is_inertia_unit(unit)),
            (
                Quantity::Temperature,
                super::temperature::temperature_unit(unit).is_some(),
            ),
        ];
        match found.into_iter().find(|(_, known)| *known) {
            Some((found, _)) => UnitError::WrongQuantity {
                text: quoted(self.text),
                found,
                wanted: self.wanted,
            },
            None => UnitError::UnknownUnit {
                text: quoted(self.text),
                unit: quoted(unit),
                wanted: self.wanted,
            },
        }
    }

    /// The error for a bare number where the unit must be written.
    pub fn missing_unit(&self) -> UnitError {
        UnitError::MissingUnit {
            text: quoted(self.text),
            wanted: self.wanted,
        }
    }

    /// `value` if a number can hold it, else the error that says so.
    pub fn finite_value(&self, value: f64) -> Result<f64, UnitError> {
        if value.is_finite() {
            Ok(value)
        } else {
            Err(UnitError::TooLarge {
                text: quoted(self.text),
                wanted: self.wanted,
            })
        }
    }

    fn finite(&self, value: f64, form: Form) -> Result<Number, UnitError> {
        Ok(Number {
            value: self.finite_value(value)?,
            form,
        })
    }

    fn peek(&self, ahead: usize) -> Option<char> {
        self.characters.get(self.at + ahead).copied()
    }

    fn take(&mut self, wanted: char) -> bool {
        let found = self.peek(0) == Some(wanted);
        if found {
            self.at += 1;
        }
        found
    }

    /// Goes on to the next character that is not a blank.
    pub fn skip_blanks(&mut self) {
        while self.take(' ') {}
    }

    fn digits(&mut self) -> String {
        let rest = &self.characters[self.at..];
        let digits: String = rest.iter().take_while(|c| c.is_ascii_digit()).collect();
        self.at += digits.len();
        digits
    }

    fn take_decimal_mark(&mut self) -> Option<char> {
        ['.', ','].into_iter().find(|mark| self.take(*mark))
    }

    /// `e3`, `E-3`; empty when what follows is a word.
    fn exponent(&mut self) -> String {
        if !matches!(self.peek(0), Some('e' | 'E')) {
            return String::new();
        }
        let signed = matches!(self.peek(1), Some('+' | '-'));
        let sign = if self.peek(1) == Some('-') { "-" } else { "" };
        let first_digit = if signed { 2 } else { 1 };
        if !self.peek(first_digit).is_some_and(|c| c.is_ascii_digit()) {
            return String::new();
        }
        self.at += first_digit;
        format!("e{sign}{}", self.digits())
    }

    /// `/4` after a numerator; blanks around the line are allowed.
    fn denominator(&mut self) -> Result<Option<f64>, UnitError> {
        let start = self.at;
        self.skip_blanks();
        if !self.take('/') {
            self.at = start;
            return Ok(None);
        }
        self.skip_blanks();
        let below = self.digits();
        if below.is_empty() {
            return Err(self.not_a_number());
        }
        let below = digits_value(&below);
        if below == 0.0 {
            return Err(UnitError::ZeroDenominator {
                text: quoted(self.text),
            });
        }
        Ok(Some(self.finite_value(below)?))
    }

    /// ` 1/4` or `-1/4` after a whole number.
    fn fraction_after_whole(&mut self) -> Result<Option<f64>, UnitError> {
        let start = self.at;
        self.skip_blanks();
        self.take('-');
        self.skip_blanks();
        let above = self.digits();
        if !above.is_empty()
            && let Some(below) = self.denominator()?
        {
            return Ok(Some(digits_value(&above) / below));
        }
        self.at = start;
        Ok(None)
    }
}

/// The value of a run of digits; infinite when there are too many.
fn digits_value(digits: &str) -> f64 {
    digits.parse().unwrap_or(f64::INFINITY)
}

/// `text` in plain characters: one kind of blank, minus, fraction line and inch mark; no glyph fractions.
fn plain_characters(text: &str) -> Vec<char> {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            c if c.is_whitespace() || c == '\u{200b}' || c == '\u{feff}' => plain.push(' '),
            '−' | '–' | '‐' | '‑' | '﹣' | '-' => plain.push('-'),
            '⁄' | '∕' => plain.push('/'),
            '″' | '”' | '“' | '"' => plain.push('"'),
            '′' | '’' => plain.push('\''),
            c => match glyph_fraction(c) {
                // The blank parts it from a whole number before it: 2½ is two and a half.
                Some(fraction) => {
                    plain.push(' ');
                    plain.push_str(fraction);
                }
                None => plain.push(c),
            },
        }
    }
    plain.replace("''", "\"").trim().chars().collect()
}

fn glyph_fraction(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        _ => return None,
    })
}
