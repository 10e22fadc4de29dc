//! Why nothing can be answered.

use super::{
    CutOptionError, DriftOptionError, FreedomError, HoldError, LARGEST_DESIGN, LARGEST_LOG,
    LARGEST_RACK,
};
use crate::design::{DesignError, FileError, starter_names};
use crate::mesh::Format;
use crate::units::{Length, System, UnitError};

/// Why nothing can be answered, one sentence each.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CliError {
    /// No command at all.
    #[error(
        "Say what to do: weigh, fit, effects, bar, drift, cut, swing, compare, heat, log, forged, measured, price, card, draw, rack, mesh, starter or schema; headwright --help tells how."
    )]
    NoCommand,
    /// A command that is none.
    #[error(
        "There is no command “{0}”; the commands are weigh, fit, effects, bar, drift, cut, swing, compare, heat, log, forged, measured, price, card, draw, rack, mesh, starter and schema."
    )]
    UnknownCommand(String),
    /// An option that the command does not have.
    #[error("{command} has no option {option}; headwright --help lists them.")]
    UnknownOption {
        /// The command.
        command: String,
        /// The option as given.
        option: String,
    },
    /// No design was named.
    #[error("Name the design file after {0}, or - to read it from standard input.")]
    NoDesign(&'static str),
    /// No rack file was named.
    #[error("Name the rack file after rack, or - to read it from standard input.")]
    NoRack,
    /// A rack file that cannot be read.
    #[error("“{name}”: {error}")]
    Rack {
        /// Its name.
        name: String,
        /// What is wrong.
        error: crate::rack::RackError,
    },
    /// More builds than a log holds.
    #[error(
        "With “{name}” the log would have more than the {} builds that a log holds, and some would be lost; merge fewer files.",
        crate::log::MOST_BUILDS
    )]
    NoRoom {
        /// The file's name.
        name: String,
    },
    /// Two states of one build that hold too much together.
    #[error(
        "The build “{build}” of “{name}” and its state in the files before have more than {} steps or {} entries together, and \
         some would be lost; merge without one of them.",
        crate::log::MOST_STEPS,
        crate::log::MOST_EVENTS
    )]
    NoRoomInBuild {
        /// The file's name.
        name: String,
        /// The build's id.
        build: String,
    },
    /// A hammer that does not stand on the rack.
    #[error(
        "No hammer on the rack is called “{name}” and none has that id; headwright rack lists all {count}."
    )]
    NoHammer {
        /// What was asked for.
        name: String,
        /// How many there are.
        count: usize,
    },
    /// What was found in a rack file, over that file.
    #[error(
        "--out would write what --search finds over “{name}”, and the other hammers in it would be lost; name another file."
    )]
    FoundOverRack {
        /// The file's name.
        name: String,
    },
    /// A name that more than one hammer has.
    #[error("“{name}” is the name of {count} hammers on the rack; say the id of one: {ids}.")]
    ManyHammers {
        /// What was asked for.
        name: String,
        /// How many have it.
        count: usize,
        /// Some of their ids.
        ids: String,
    },
    /// No log was named.
    #[error("Name the log file after log, or - to read it from standard input.")]
    NoLog,
    /// No costs were named.
    #[error("Name the file of costs after price, or - to read it from standard input.")]
    NoCosts,
    /// More than the command takes.
    #[error("“{argument}” is too much: {command} takes {takes}.")]
    TooMuch {
        /// The command.
        command: &'static str,
        /// The first argument that is too much.
        argument: String,
        /// What the command takes, in words.
        takes: &'static str,
    },
    /// An option without what belongs to it.
    #[error("Say after {option} {wanted}.")]
    NoValue {
        /// The option.
        option: &'static str,
        /// What belongs after it.
        wanted: &'static str,
    },
    /// An option twice.
    #[error("--out is given twice; say one file.")]
    RepeatedOut,
    /// Another option twice.
    #[error("{0} is given twice.")]
    Repeated(&'static str),
    /// A division that is none.
    #[error("The rule: {0}")]
    Rule(UnitError),
    /// An accuracy that is no length.
    #[error("The accuracy: {0}")]
    Accuracy(UnitError),
    /// An accuracy below nothing.
    #[error("An accuracy of {0} can’t be: it is how far off a length may be, either way.")]
    NegativeAccuracy(Length),
    /// A heat that is none.
    #[error("“{0}” is no heat. Write it like 1050C or 1920F.")]
    NoHeat(String),
    /// A heat that the growth of steel is not known for.
    #[error(transparent)]
    Heat(#[from] crate::plan::HotError),
    /// An end that is none.
    #[error("“{0}” is no end of the billet. Marks are measured from front or back.")]
    NoEnd(String),
    /// A mesh without a file.
    #[error("Say where the mesh goes: mesh DESIGN --out head.stl.")]
    NoOut,
    /// A card or a drawing without a file.
    #[error("Say where it goes: {0} DESIGN --out {0}.pdf.")]
    NoPrint(&'static str),
    /// A card or a drawing whose file ends in no format.
    #[error("“{name}” does not say its format: {command} writes a file that ends in .pdf or .svg.")]
    NoPrintFormat {
        /// The command.
        command: &'static str,
        /// The file as given.
        name: String,
    },
    /// An option of `card` that cannot be read.
    #[error(transparent)]
    CardOption(#[from] super::CardOptionError),
    /// A mesh whose file ends in no format.
    #[error(
        "“{name}” does not say its format: a mesh goes to a file that ends in {}.",
        endings()
    )]
    NoFormat {
        /// The file as given.
        name: String,
    },
    /// A hold that cannot be read.
    #[error(transparent)]
    Hold(#[from] HoldError),
    /// A size to be freed or locked that cannot be.
    #[error(transparent)]
    Freedom(#[from] FreedomError),
    /// An opening or a drift that cannot be read.
    #[error(transparent)]
    DriftOption(#[from] DriftOptionError),
    /// Neither the command nor the design holds anything.
    #[error("Nothing is held: say what to keep, such as --hold mass=1.1kg --hold offset=0mm.")]
    NothingHeld,
    /// A starter that is none.
    #[error("There is no starter “{name}”; the starters are {}.", starters())]
    UnknownStarter {
        /// The name as given.
        name: String,
    },
    /// A file that cannot be read.
    #[error("The {} “{name}” can’t be read: {reason}.", .kind.words())]
    Unreadable {
        /// What it is to be.
        kind: FileKind,
        /// Its name.
        name: String,
        /// Why.
        reason: String,
    },
    /// Larger than any of its kind.
    #[error(
        "The {} “{name}” is larger than {} kB, which {}.",
        .kind.words(), .kind.largest() / 1000, .kind.none_is()
    )]
    TooLarge {
        /// What it is to be.
        kind: FileKind,
        /// Its name.
        name: String,
    },
    /// Bytes that are no text.
    #[error("The {} “{name}” is not text: it is not UTF-8.", .kind.words())]
    NotText {
        /// What it is to be.
        kind: FileKind,
        /// Its name.
        name: String,
    },
    /// An option of `log` that cannot be read.
    #[error(transparent)]
    LogOption(#[from] super::LogOptionError),
    /// Text that is no log.
    #[error(transparent)]
    Log(#[from] crate::log::LogFileError),
    /// Text that is no log as CSV.
    #[error(transparent)]
    Csv(#[from] crate::log::CsvError),
    /// An option of `price` that cannot be read.
    #[error(transparent)]
    PriceOption(#[from] super::PriceOptionError),
    /// An option that tells of readings and cannot be read.
    #[error(transparent)]
    ReadOption(#[from] super::ReadOptionError),
    /// A build that is not in the log.
    #[error(transparent)]
    BuildOption(#[from] super::BuildOptionError),
    /// Nothing that could be made of the rest.
    #[error(transparent)]
    Rest(#[from] super::RestError),
    /// Readings that cannot be, in the units of the design's rule.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Readings(Vec<crate::log::ReadingError>, System),
    /// Costs that no price can be made of.
    #[error("{}", joined(.0))]
    Price(Vec<crate::price::PriceError>),
    /// Text that is no design.
    #[error("{0}")]
    File(#[from] FileError),
    /// A design that cannot be made.
    #[error("{}", joined(.0))]
    Unsound(Vec<DesignError>),
    /// Something after an option of `cut`.
    #[error(transparent)]
    CutOption(#[from] CutOptionError),
    /// An order that cannot be read.
    #[error(transparent)]
    Order(crate::cut::CutError),
    /// An order that cannot be cut.
    #[error(transparent)]
    Cut(crate::cut::CutErrors),
    /// A bar of an order that cannot be worked from.
    #[error("{}", joined(.0))]
    Bar(Vec<crate::bar::BarError>),
    /// A design's bar that cannot be worked from, in the units of its rule.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    BarOf(Vec<crate::bar::BarError>, System),
    /// What stands after `--piece` is no mass.
    #[error("--piece: {0}")]
    PieceMass(UnitError),
    /// A piece that this design cannot be made from, in the units of its rule.
    #[error("{}", .0.sentence(*.1))]
    Piece(crate::fit::PieceError, System),
    /// Drifts that cannot be worked out, in the units of the rule of the bar.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Drifts(Vec<crate::drift::DriftError>, System),
    /// An option of `swing` or `compare` that cannot be read.
    #[error(transparent)]
    SwingOption(#[from] super::SwingOptionError),
    /// A handle that cannot be made.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Handle(Vec<crate::handle::HandleError>, System),
    /// A tool that cannot be swung so.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Swing(Vec<crate::swing::SwingError>, System),
    /// A smith who cannot stand so.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Posture(Vec<crate::posture::PostureError>, System),
    /// Hammers that cannot be compared.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Compare(Vec<crate::compare::CompareError>, System),
    /// One of several hammers that cannot be compared.
    #[error("“{name}”: {}", told(.errors.iter().map(|error| error.sentence(*.system))))]
    CompareOf {
        /// Its name.
        name: String,
        /// What is wrong.
        errors: Vec<crate::compare::CompareError>,
        /// The units of its rule.
        system: System,
    },
    /// An option of `heat` that cannot be read.
    #[error(transparent)]
    HeatOption(#[from] super::HeatOptionError),
    /// A heat treatment that cannot be.
    #[error("{}", told(.0.iter().map(|error| error.sentence(*.1))))]
    Treatment(Vec<crate::heat::HeatError>, System),
    /// A file that cannot be written.
    #[error("“{name}” can’t be written: {reason}.")]
    Unwritable {
        /// Its name.
        name: String,
        /// Why.
        reason: String,
    },
}

/// What a file is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A design, or an order.
    Design,
    /// A log.
    Log,
    /// Costs.
    Costs,
    /// A rack.
    Rack,
}

impl FileKind {
    const fn words(self) -> &'static str {
        match self {
            Self::Design => "design file",
            Self::Log => "log file",
            Self::Costs => "file of costs",
            Self::Rack => "rack file",
        }
    }

    const fn none_is(self) -> &'static str {
        match self {
            Self::Design => "no design is",
            Self::Log => "no log is",
            Self::Costs => "no costs are",
            Self::Rack => "no rack is",
        }
    }

    /// The most bytes that are read of it.
    pub const fn largest(self) -> u64 {
        match self {
            Self::Design | Self::Costs => LARGEST_DESIGN,
            Self::Log => LARGEST_LOG,
            Self::Rack => LARGEST_RACK,
        }
    }
}

fn starters() -> String {
    starter_names().collect::<Vec<_>>().join(", ")
}

/// “.stl, .3mf or .glb”
fn endings() -> String {
    let [first @ .., last] = Format::ALL.map(|format| format!(".{}", format.ending()));
    format!("{} or {last}", first.join(", "))
}

/// All reasons on one line.
fn joined(errors: &[impl ToString]) -> String {
    told(errors.iter().map(ToString::to_string))
}

fn told(sentences: impl Iterator<Item = String>) -> String {
    sentences.collect::<Vec<_>>().join(" ")
}
