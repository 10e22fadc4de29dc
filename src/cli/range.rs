//! Sizes that may move, and their limits, as they are written at the command line.

use crate::design::{Design, Dim, Edit, ParseDimError, Range};
use crate::units::{Measure, UnitError};

/// The signs between the ends of a range.
pub(super) const RANGE_SIGNS: [&str; 2] = ["..", "…"];

/// `text` before and after the first of `signs` that it has.
pub(super) fn split<'a>(text: &'a str, signs: &[&str]) -> Option<(&'a str, &'a str)> {
    signs.iter().find_map(|sign| text.split_once(sign))
}

/// Whether a fit may move a size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Freedom {
    /// Between two limits; between the usual ones when none are given.
    Free(Dim, Option<Range>),
    /// Not at all.
    Locked(Dim),
}

/// Why a text says nothing about a size.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FreedomError {
    /// A name that no size has.
    #[error("{0}")]
    Name(ParseDimError),
    /// A limit that is no length or angle.
    #[error("The limits of {dim}: {error}")]
    Unit {
        /// The size.
        dim: Dim,
        /// What is wrong.
        error: UnitError,
    },
    /// Not two limits.
    #[error("“{text}” is no range; write two limits, such as {dim}=50mm..70mm.")]
    NoRange {
        /// The size.
        dim: Dim,
        /// The text as given.
        text: String,
    },
    /// An angle for a length, or a length for an angle.
    #[error("The limits of {dim} are to be {wanted}.")]
    Kind {
        /// The size.
        dim: Dim,
        /// "lengths" or "angles".
        wanted: &'static str,
    },
    /// Limits that leave no room.
    #[error("The limits of {dim}, “{text}”, begin above their end.")]
    UpsideDown {
        /// The size.
        dim: Dim,
        /// The text as given.
        text: String,
    },
    /// A size that the design does not have.
    #[error("This design has no size {0}; a design file lists those that it has.")]
    NoSuchSize(Dim),
}

impl Freedom {
    /// Reads what follows `--free`: `front.reach=50mm..70mm`, or `front.reach` alone.
    ///
    /// # Errors
    /// A sentence that says what is wrong with which part.
    ///
    /// # Examples
    /// ```
    /// use headwright::cli::Freedom;
    ///
    /// assert!(matches!(Freedom::free("front.reach=50mm..70mm")?, Freedom::Free(_, Some(_))));
    /// # Ok::<(), headwright::cli::FreedomError>(())
    /// ```
    pub fn free(text: &str) -> Result<Self, FreedomError> {
        match text.split_once('=') {
            None => Ok(Self::Free(name(text)?, None)),
            Some((dim, limits)) => {
                let dim = name(dim)?;
                Ok(Self::Free(dim, Some(range(dim, limits)?)))
            }
        }
    }

    /// Reads what follows `--lock`: `front.reach`.
    ///
    /// # Errors
    /// That no size has this name.
    pub fn locked(text: &str) -> Result<Self, FreedomError> {
        Ok(Self::Locked(name(text)?))
    }

    /// `design` with the size so.
    ///
    /// # Errors
    /// That the design has no such size.
    pub(super) fn on(self, design: &Design) -> Result<Design, FreedomError> {
        let (Self::Free(dim, _) | Self::Locked(dim)) = self;
        let usual = design.default_range(dim);
        let usual = usual.ok_or(FreedomError::NoSuchSize(dim))?;
        Ok(design.apply(match self {
            Self::Free(dim, range) => Edit::Free(dim, range.unwrap_or(usual)),
            Self::Locked(dim) => Edit::Lock(dim),
        }))
    }
}

fn name(text: &str) -> Result<Dim, FreedomError> {
    text.trim().parse().map_err(FreedomError::Name)
}

fn range(dim: Dim, text: &str) -> Result<Range, FreedomError> {
    let shown = || super::shown(text.trim().as_ref());
    let Some((low, high)) = split(text, &RANGE_SIGNS) else {
        return Err(FreedomError::NoRange { dim, text: shown() });
    };
    let limit = |text: &str| -> Result<Measure, FreedomError> {
        let limit: Measure = text
            .parse()
            .map_err(|error| FreedomError::Unit { dim, error })?;
        if matches!(limit, Measure::Angle(_)) == dim.is_angle() {
            Ok(limit)
        } else {
            let wanted = if dim.is_angle() { "angles" } else { "lengths" };
            Err(FreedomError::Kind { dim, wanted })
        }
    };
    let (low, high) = (limit(low)?, limit(high)?);
    if low.number() > high.number() {
        Err(FreedomError::UpsideDown { dim, text: shown() })
    } else {
        Ok(Range { low, high })
    }
}
