//! Compare: what is different from one hammer to another, and why does it matter?
//!
//! [`measure`] takes a design and the conditions of the comparison ([`Conditions`]) and gives every [`Figure`] of the
//! hammer; [`words`] says of two of them what the numbers show, and nothing else. [`sweep`] makes one design with a size
//! from short to long, above all the face offset, each fitted anew so that weight and balance stay where they are held.
//!
//! # Assumptions
//! Those of [`handle`](crate::handle), [`swing`](crate::swing) and [`posture`](crate::posture), whose numbers are
//! compared. A blow that lands beside the middle lands on the same place of every face. Two numbers that differ by less
//! than [`Figure::alike`] says are called the same.
//!
//! # Units
//! As [`Figure::number_unit`] says.
//!
//! # Examples
//! ```
//! use headwright::compare::{Conditions, Figure, measure};
//! use headwright::design::starter;
//!
//! let conditions = Conditions::default();
//! let [short, long] = ["rounding", "long"].map(|name| starter(name).expect("a starter"));
//! let short = measure(&short, &conditions)?;
//! let long = measure(&long, &conditions)?;
//! // A long face is twisted less by a blow beside its middle.
//! assert!(long.get(Figure::Twist) < short.get(Figure::Twist));
//! # Ok::<(), Vec<headwright::compare::CompareError>>(())
//! ```

mod error;
mod figure;
mod measured;
mod said;
mod sweep;

pub use error::CompareError;
pub use figure::Figure;
pub use measured::{Conditions, Measured, USUAL_OFF_MM, measure, usual_off_mm};
pub use said::words;
pub use sweep::{FEWEST_STEPS, Hammer, MOST_STEPS, Step, Sweep, USUAL_STEPS, sweep};

/// The most hammers that are compared side by side.
pub const MOST: usize = 4;
