//! What the written quantities share: decimals without idle digits, and text as their saved form.

/// From here on a number is written with a power of ten: a sentence about 1e300 mm must stay a sentence.
const POWERS_OF_TEN_FROM: f64 = 1e15;

/// `value` with exactly `decimals` decimals, or as `1e300` when it is huge.
pub(super) fn fixed(value: f64, decimals: usize) -> String {
    if value.abs() < POWERS_OF_TEN_FROM {
        format!("{value:.decimals$}")
    } else {
        format!("{value:e}")
    }
}

/// `value` with at most `decimals` decimals and no idle zeros: `58`, `57.15`, `-0.5`, never `-0`.
pub(super) fn trimmed(value: f64, decimals: usize) -> String {
    let fixed = fixed(value, decimals);
    let short = if fixed.contains('.') && !fixed.contains('e') {
        fixed.trim_end_matches('0').trim_end_matches('.')
    } else {
        &fixed
    };
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}

/// `number` as a person reads it: with a minus in the place of a hyphen.
pub(crate) fn with_minus(number: String) -> String {
    if number.starts_with('-') {
        number.replacen('-', "−", 1)
    } else {
        number
    }
}

/// A unit's name as compared: lower case has been seen to, a full stop of abbreviation goes.
pub(super) fn unit_name(unit: &str) -> &str {
    unit.trim_end_matches('.').trim_end()
}

/// Saves `$type` as the text of its `Display`, reads it with its `FromStr`, and describes both in the schema.
macro_rules! saved_as_text {
    ($type:ident, $expected:literal, $description:literal, $pattern:literal) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Text;
                impl serde::de::Visitor<'_> for Text {
                    type Value = $type;

                    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                        f.write_str($expected)
                    }

                    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<$type, E> {
                        text.parse().map_err(E::custom)
                    }
                }
                deserializer.deserialize_str(Text)
            }
        }

        impl schemars::JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "description": $description, "pattern": $pattern })
            }
        }
    };
}
pub(super) use saved_as_text;
