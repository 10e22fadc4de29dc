//! What stands after options and commands.

use std::ffi::{OsStr, OsString};

use super::{CliError, Command, shown};
use crate::mesh::Format;
use crate::units::Length;

/// An option of `cut` that takes something, and what belongs after it.
pub(super) fn cut_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "count" => ("--count", "how many of a design, such as 6"),
        "stock" => ("--stock", "the length of a bar, such as 3m or 3000mm"),
        "kerf" => ("--kerf", "the width of the saw's cut, such as 2mm"),
        "end" => ("--end", "what must be left of a bar, such as 20mm"),
        "price" => ("--price", "what a kilogram of bar costs, such as 2.4"),
        _ => return None,
    })
}

pub(super) fn value(
    parser: &mut lexopt::Parser,
    option: &'static str,
    wanted: &'static str,
) -> Result<OsString, CliError> {
    parser
        .value()
        .map_err(|_| CliError::NoValue { option, wanted })
}

pub(super) fn not_negative(accuracy: Length) -> Result<Length, CliError> {
    if accuracy.in_mm() < 0.0 {
        Err(CliError::NegativeAccuracy(accuracy))
    } else {
        Ok(accuracy)
    }
}

pub(super) fn design(command: &'static str, value: Option<OsString>) -> Result<OsString, CliError> {
    value
        .filter(|value| !value.is_empty())
        .ok_or(CliError::NoDesign(command))
}

/// The file that printed pages go to.
pub(super) fn file(command: &'static str, out: Option<OsString>) -> Result<OsString, CliError> {
    out.filter(|out| !out.is_empty())
        .ok_or(CliError::NoPrint(command))
}

/// The format by the ending of the file's name.
pub(super) fn format(out: &OsStr) -> Result<Format, CliError> {
    let name = out.to_string_lossy();
    name.rsplit_once('.')
        .and_then(|(_, ending)| Format::of_ending(ending))
        .ok_or_else(|| CliError::NoFormat { name: shown(out) })
}

/// The only fault left to the parser's own words: a value for an option that takes none.
pub(super) fn unexpected(error: lexopt::Error) -> CliError {
    let option = match error {
        lexopt::Error::UnexpectedValue { option, .. } => option,
        other => other.to_string(),
    };
    CliError::UnknownOption {
        command: "headwright".to_owned(),
        option: format!("{} with a value", shown(OsStr::new(&option))),
    }
}

/// What a command takes, in words.
pub(super) fn takes(command: &Command) -> &'static str {
    match command {
        Command::Weigh(_) | Command::Effects { .. } | Command::Piece { .. } => "one design",
        Command::Bar { .. } | Command::Drift { .. } => {
            "one design, one opening after --slot or --slit, every drift after --drift, and the heat after --hot"
        }
        Command::Fit { .. } => {
            "one design, every hold after --hold, and every size after --free or --lock"
        }
        Command::Cut(_) => "one order, or designs",
        Command::Rack(_) => "rack files",
        Command::Swing { .. } | Command::Heat { .. } => "one design",
        Command::Log { .. } => "one log",
        Command::Forged(_) => "one design, or one log and a build after --build",
        Command::Measured(_) => "one design",
        Command::Price { .. } => "one file of costs",
        Command::Compare { .. } => "designs, or one design and a size after --sweep",
        Command::Mesh { .. } | Command::Card { .. } | Command::Draw { .. } => {
            "one design, and one file after --out"
        }
        Command::Starters | Command::Starter(_) => "one name",
        Command::Schema | Command::Help | Command::Version => "nothing more",
    }
}
