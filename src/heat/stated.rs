//! A value with where it comes from, and a band.

use serde::Serialize;

use crate::bar::Certainty;

/// A value, its source and how surely it is known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stated<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub source: &'static str,
    /// How surely it is known.
    pub certainty: Certainty,
}

impl<T> Stated<T> {
    /// Read in `source`.
    pub const fn read(value: T, source: &'static str) -> Self {
        Self {
            value,
            source,
            certainty: Certainty::Read,
        }
    }

    /// From memory: `source` says what is remembered.
    pub const fn memory(value: T, source: &'static str) -> Self {
        Self {
            value,
            source,
            certainty: Certainty::Memory,
        }
    }

    /// Common practice, no source.
    pub const fn practice(value: T) -> Self {
        Self {
            value,
            source: "common practice, no source",
            certainty: Certainty::CommonPractice,
        }
    }

    /// The same source for what `change` makes of the value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Stated<U> {
        Stated {
            value: change(self.value),
            source: self.source,
            certainty: self.certainty,
        }
    }
}

/// From a least to a most likely value.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Band {
    /// The lower edge.
    pub low: f64,
    /// The upper edge.
    pub high: f64,
}

impl Band {
    /// From `low` to `high`.
    pub const fn new(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    /// The least band that has both values.
    pub fn of(a: f64, b: f64) -> Self {
        Self::new(a.min(b), a.max(b))
    }

    /// Halfway.
    pub fn middle(self) -> f64 {
        0.5 * (self.low + self.high)
    }

    /// Each edge changed; the lower stays the lower.
    pub fn map(self, change: impl Fn(f64) -> f64) -> Self {
        Self::of(change(self.low), change(self.high))
    }
}
