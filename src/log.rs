//! What really happened on a build, and what follows from it.
//!
//! A [`Build`] is plain data: the design that it was begun with, the steps in the order of the work, and what was
//! pressed or typed at each of them ([`Event`]), with times that come from outside. [`Build::story`] says what follows:
//! minutes and heats of every step, which step runs, and what the head lost between two weighings. It is total:
//! whatever cannot be as it stands is a [`BuildNote`], a sentence, and nothing is lost.
//!
//! # Examples
//! ```
//! use headwright::design::starter;
//! use headwright::log::{Build, Event, What};
//! use headwright::units::Mass;
//!
//! let design = starter("rounding").expect("a starter");
//! let mut build = Build::begun("build-1", None, design, 0);
//! let [cut, forge] = [build.steps[0].id, build.steps[1].id];
//! let minutes = |minutes: u64| minutes * 60_000;
//! for (step, at, what) in [
//!     (cut, 4, What::weighed(Mass::grams(1420.0))),
//!     (forge, 10, What::Start),
//!     (forge, 52, What::Stop),
//!     (forge, 55, What::weighed(Mass::grams(1388.0))),
//! ] {
//!     build.record(Event { step, at: minutes(at), what })?;
//! }
//! let story = build.story();
//! assert_eq!(story.minutes, 42.0);
//! assert!((story.losses[0].kg - 0.032).abs() < 1e-12);
//! # Ok::<(), headwright::log::LogError>(())
//! ```

mod build;
mod csv;
mod date;
mod error;
mod event;
pub mod existing;
mod file;
pub mod forged;
pub mod losses;
mod merge;
pub mod minutes;
mod note;
mod reading;
mod story;

pub use self::csv::{COLUMNS, CsvError};
pub use build::{
    Build, LONGEST_STEP, MOST_EVENTS, MOST_STEPS, Outcome, Step, StepEdit, Weight, usual_steps,
};
pub(crate) use date::show_day;
pub use date::{read_time, show_time};
pub use error::{LogError, LogFileError};
pub use event::{CELSIUS, Event, HEATS, LONGEST_NOTE, MINUTES, Verdict, WEIGHED_KG, What};
pub use file::{FORMAT, Log, MOST_BUILDS, MOST_BYTES, SCHEMA_ID, VERSION, schema};
pub use merge::{BuildArrival, BuildArrived};
pub use note::BuildNote;
pub use reading::{
    Measured, Precision, Reading, ReadingError, Readings, Taken, WITHIN_DEGREES, WITHIN_KG,
    WITHIN_MM, Weighing,
};
pub use story::{Between, LONG_RUN_HOURS, StepStory, Story};
