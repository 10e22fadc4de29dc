//! The command line without its files: what was asked, and what is answered.
//!
//! The binary reads and writes; everything it says is made here, so that it can be tried without
//! it. Every answer is one JSON object whose keys end in their unit.

use std::ffi::{OsStr, OsString};

use crate::plan::USUAL_HOT_CELSIUS;

mod bar;
mod card;
mod command;
mod compare;
mod cut;
mod drifts;
mod effects;
mod error;
mod forged;
mod heat;
mod help;
mod hold;
mod log;
mod measured;
mod plan;
mod price;
mod rack;
mod range;
mod readings;
mod report;
mod rule;
mod swing;
mod table;
mod values;

pub use self::log::{
    BuildAnswer, LogAnswer, LogAsked, LogForm, LogOptionError, LossAnswer, SpanAnswer, StepAnswer,
    UnreadAnswer, with_learned,
};
pub use bar::{BarAnswer, CauseAreas, PieceAnswer};
pub use card::{CardAsked, CardOptionError, PrintAnswer, PrintFormat};
pub use command::Command;
pub use compare::{CompareAnswer, HammerAnswer, SweepAsked};
pub use cut::{CutAnswer, CutAsked, CutOptionError, SectionList};
pub use drifts::{DriftOptionError, Drifts};
pub use effects::{EffectsAnswer, SizeEffect};
pub use error::{CliError, FileKind};
pub use forged::{BuildOptionError, ForgedAnswer, ForgedAsked, HoldAnswer, MoveAnswer};
pub use heat::{
    CriticalAnswer, EndQuenchAnswer, HardenabilityAnswer, HeatAnswer, HeatAsked, HeatOptionError,
    PracticeAnswer, QuenchAnswer, SteelAnswer,
};
pub use help::HELP;
pub use hold::{Held, HoldError};
pub use measured::{ExplanationAnswer, MeasuredAnswer, MeasuredAsked, RestError};
pub use plan::{Asked, HotAnswer, HotSizeAnswer, MarkAnswer, MarksAnswer, PlanAnswer, UpsetAnswer};
pub use price::{CostsForm, PriceAnswer, PriceAsked, PriceOptionError};
pub use rack::{
    BuildsTaken, RackAnswer, RackAsked, Racked, RackedAnswer, TakenAnswer, UnreadEntryAnswer,
    WrittenAnswer,
};
pub use range::{Freedom, FreedomError};
pub use readings::{MeasuredSize, ReadAsked, ReadOptionError};
pub use report::{FitAnswer, FitResidual, LimitChange, MeshAnswer, SizeChange, Weighed};
pub use rule::{LeftOver, RuleAnswer};
pub use swing::{
    BesideAnswer, BlowAnswer, PatchAnswer, PostureAnswer, SwingAnswer, SwingAsked, SwingNumbers,
    SwingOptionError, ToolAnswer,
};
use values::{cut_option, design, file, format, not_negative, takes, unexpected, value};

/// The largest design file that is read, in bytes: far more than the longest notes and sources take.
pub const LARGEST_DESIGN: u64 = 1_000_000;

/// The largest log file that is read, in bytes.
pub const LARGEST_LOG: u64 = crate::log::MOST_BYTES as u64;
/// The largest rack file that is read, bytes.
pub const LARGEST_RACK: u64 = crate::rack::MOST_BYTES as u64;

/// The longest piece of an argument that a sentence repeats, in characters.
const SHOWN_CHARACTERS: usize = 60;

/// An argument fit to stand inside a sentence: one line, not too long.
pub fn shown(argument: &OsStr) -> String {
    let text = argument.to_string_lossy();
    let one_line = |c: char| if c.is_control() { ' ' } else { c };
    let mut characters = text.chars().map(one_line);
    let mut short: String = characters.by_ref().take(SHOWN_CHARACTERS).collect();
    if characters.next().is_some() {
        short.pop();
        short.push('…');
    }
    short
}

/// Reads the arguments after the program's name.
///
/// # Errors
/// A sentence for what is missing, unknown or too much.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, CliError> {
    use lexopt::Arg::{Long, Short, Value};

    let mut parser = lexopt::Parser::from_args(arguments);
    let (mut values, mut holds, mut freedom, mut out) = (vec![], vec![], vec![], None);
    let (mut rule, mut accuracy, mut piece) = (None, None, None);
    let (mut hot, mut from, mut table) = (None, None, false);
    let (mut drifts, mut cut) = (Drifts::default(), CutAsked::default());
    let (mut swing, mut sweep) = (SwingAsked::default(), None);
    let mut heat = HeatAsked::default();
    let (mut card, mut rack) = (CardAsked::default(), RackAsked::default());
    let (mut log, mut form, mut price) = (None, None, PriceAsked::default());
    let (mut read, mut build, mut rest) = (ReadAsked::default(), None, None);
    let mut unknown = None;
    while let Some(argument) = parser.next().map_err(unexpected)? {
        match argument {
            Short('h') | Long("help") => return Ok(Command::Help),
            Short('V') | Long("version") => return Ok(Command::Version),
            Long("hold") => {
                let hold = value(&mut parser, "--hold", "what to keep, such as mass=1.1kg")?;
                holds.push(Held::read(&hold.to_string_lossy())?);
            }
            Long("free") => {
                let wanted = "a size and its limits, such as front.reach=50mm..70mm";
                let text = value(&mut parser, "--free", wanted)?;
                freedom.push(Freedom::free(&text.to_string_lossy())?);
            }
            Long("lock") => {
                let text = value(&mut parser, "--lock", "a size, such as front.reach")?;
                freedom.push(Freedom::locked(&text.to_string_lossy())?);
            }
            Long("out") => {
                let wanted = "the file it goes to, such as head.stl or card.pdf";
                let file = value(&mut parser, "--out", wanted)?;
                if out.replace(file).is_some() {
                    return Err(CliError::RepeatedOut);
                }
            }
            Long("rule") => {
                let wanted = "the smallest division, such as 1mm or 1/16in";
                let text = value(&mut parser, "--rule", wanted)?;
                let read = text.to_string_lossy().parse().map_err(CliError::Rule)?;
                if rule.replace(read).is_some() {
                    return Err(CliError::Repeated("--rule"));
                }
            }
            Long("accuracy") => {
                let wanted = "how far off a length may be, such as 0.5mm";
                let text = value(&mut parser, "--accuracy", wanted)?;
                let read = text.to_string_lossy().parse().map_err(CliError::Accuracy)?;
                if accuracy.replace(not_negative(read)?).is_some() {
                    return Err(CliError::Repeated("--accuracy"));
                }
            }
            Long("piece") => {
                let wanted = "the mass of the piece, such as 1.42kg";
                let text = value(&mut parser, "--piece", wanted)?;
                let read = text
                    .to_string_lossy()
                    .parse()
                    .map_err(CliError::PieceMass)?;
                if piece.replace(read).is_some() {
                    return Err(CliError::Repeated("--piece"));
                }
            }
            Long("hot") => {
                let text = value(&mut parser, "--hot", "the heat, such as 1050C")?;
                let read = plan::heat(&text.to_string_lossy())?;
                if hot.replace(read).is_some() {
                    return Err(CliError::Repeated("--hot"));
                }
            }
            Long("from") => {
                let text = value(&mut parser, "--from", "front or back")?;
                if from.replace(plan::end(&text)?).is_some() {
                    return Err(CliError::Repeated("--from"));
                }
            }
            Long("table") => table = true,
            Long("slot") => {
                let wanted = "its length and width, such as 25mmx6mm";
                drifts.slot(&value(&mut parser, "--slot", wanted)?.to_string_lossy())?;
            }
            Long("slit") => {
                let wanted = "its length, such as 32mm";
                drifts.slit(&value(&mut parser, "--slit", wanted)?.to_string_lossy())?;
            }
            Long("drift") => {
                let wanted = "its greatest length and width, such as 20mmx14mm";
                drifts.drift(&value(&mut parser, "--drift", wanted)?.to_string_lossy())?;
            }
            Long(option) if cut_option(option).is_some() => {
                let (option, wanted) = cut_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                cut.take(option, &text.to_string_lossy())?;
            }
            Long("sweep") => {
                let wanted = "a size from short to long, such as front.reach=50mm..72mm";
                let text = value(&mut parser, "--sweep", wanted)?;
                let read = SweepAsked::read(&text.to_string_lossy())?;
                if sweep.replace(read).is_some() {
                    return Err(CliError::Repeated("--sweep"));
                }
            }
            Long(option) if swing::swing_option(option).is_some() => {
                let (option, wanted) = swing::swing_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                swing.take(option, &text.to_string_lossy())?;
            }
            Long(option) if heat::heat_option(option).is_some() => {
                let (option, wanted) = heat::heat_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                heat.take(option, &text.to_string_lossy())?;
            }
            Long(option) if card::card_option(option).is_some() => {
                let (option, wanted) = card::card_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                card.take(option, &text.to_string_lossy())?;
            }
            Long(option) if rack::rack_option(option).is_some() => {
                let (option, wanted) = rack::rack_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                rack.take(option, &text.to_string_lossy())?;
            }
            Long("log") => {
                let file = value(
                    &mut parser,
                    "--log",
                    "the log, such as builds.headwright-log.json",
                )?;
                if log.replace(file).is_some() {
                    return Err(CliError::Repeated("--log"));
                }
            }
            Long("as") => {
                let text = value(&mut parser, "--as", "csv or json, or of a log losses")?;
                if form.replace(text).is_some() {
                    return Err(CliError::Repeated("--as"));
                }
            }
            Long(option) if readings::read_option(option).is_some() => {
                let (option, wanted) = readings::read_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                read.take(option, &text.to_string_lossy())?;
            }
            Long("build") => {
                let wanted = "a build of the log, by its number or its id";
                let text = value(&mut parser, "--build", wanted)?;
                if build.replace(text.to_string_lossy().into_owned()).is_some() {
                    return Err(CliError::Repeated("--build"));
                }
            }
            Long("rest") => {
                let text = value(&mut parser, "--rest", "proportion or weight")?;
                if rest.replace(measured::rest(&text)?).is_some() {
                    return Err(CliError::Repeated("--rest"));
                }
            }
            Long(option) if price::price_option(option).is_some() => {
                let (option, wanted) = price::price_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                price.take(option, text)?;
            }
            Value(value) => values.push(value),
            Short(letter) => {
                unknown.get_or_insert(format!("-{letter}"));
            }
            Long(option) => {
                unknown.get_or_insert(format!("--{}", shown(OsStr::new(option))));
                // Its value, if it has one, belongs to the same fault.
                parser.optional_value();
            }
        }
    }
    let mut values = values.into_iter();
    let name = values.next().unwrap_or_default();
    let foreign = |has: bool, option: &str| has.then(|| option.to_owned());
    let on_the_way = name == "bar" || name == "card";
    let of_readings = name == "forged" || name == "measured";
    let unknown = unknown
        .or_else(|| foreign(!holds.is_empty() && name != "fit", "--hold"))
        .or_else(|| {
            foreign(
                !freedom.is_empty() && name != "fit",
                match freedom.first() {
                    Some(Freedom::Locked(_)) => "--lock",
                    _ => "--free",
                },
            )
        })
        .or_else(|| {
            let files = ["mesh", "card", "draw", "rack"];
            foreign(out.is_some() && files.iter().all(|it| name != *it), "--out")
        })
        .or_else(|| {
            foreign(
                rule.is_some() && name != "fit" && name != "effects",
                "--rule",
            )
        })
        .or_else(|| {
            let told = name == "effects" || of_readings;
            foreign(accuracy.is_some() && !told, "--accuracy")
        })
        .or_else(|| {
            let given = read.given().filter(|_| !of_readings);
            given.map(ToOwned::to_owned)
        })
        .or_else(|| foreign(build.is_some() && name != "forged", "--build"))
        .or_else(|| foreign(rest.is_some() && name != "measured", "--rest"))
        .or_else(|| foreign(piece.is_some() && name != "bar", "--piece"))
        .or_else(|| foreign(hot.is_some() && !on_the_way && name != "drift", "--hot"))
        .or_else(|| foreign(from.is_some() && !on_the_way, "--from"))
        .or_else(|| {
            let tables = [
                "bar", "cut", "swing", "compare", "heat", "log", "price", "rack", "forged",
                "measured",
            ];
            foreign(table && tables.iter().all(|told| name != *told), "--table")
        })
        .or_else(|| {
            let swung = name == "swing" || name == "compare";
            swing.given().filter(|_| !swung).map(ToOwned::to_owned)
        })
        .or_else(|| {
            let beyond = swing.beyond_compare();
            beyond.filter(|_| name == "compare").map(ToOwned::to_owned)
        })
        .or_else(|| foreign(sweep.is_some() && name != "compare", "--sweep"))
        .or_else(|| {
            let given = heat.given().filter(|_| name != "heat");
            given.map(ToOwned::to_owned)
        })
        .or_else(|| drifts.given().filter(|_| !on_the_way && name != "drift"))
        .or_else(|| foreign(log.is_some() && name != "bar" && name != "price", "--log"))
        .or_else(|| foreign(form.is_some() && name != "log" && name != "price", "--as"))
        .or_else(|| {
            let given = price.given().filter(|_| name != "price");
            given.map(ToOwned::to_owned)
        })
        .or_else(|| {
            let given = card.given().filter(|_| name != "card");
            given.map(ToOwned::to_owned)
        })
        .or_else(|| {
            let given = rack.given().filter(|_| name != "rack");
            given.map(ToOwned::to_owned)
        })
        .or_else(|| {
            cut.design_option()
                .filter(|_| name != "cut")
                .map(ToOwned::to_owned)
        });
    let no_option = |command: &str| match &unknown {
        None => Ok(()),
        Some(option) => Err(CliError::UnknownOption {
            command: command.to_owned(),
            option: option.clone(),
        }),
    };
    if name.is_empty() {
        no_option("headwright")?;
        return Err(CliError::NoCommand);
    }
    const COMMANDS: [&str; 19] = [
        "weigh", "fit", "effects", "bar", "drift", "cut", "swing", "compare", "heat", "log",
        "forged", "measured", "price", "card", "draw", "rack", "mesh", "starter", "schema",
    ];
    let Some(name) = COMMANDS.into_iter().find(|command| name == *command) else {
        return Err(CliError::UnknownCommand(shown(&name)));
    };
    no_option(name)?;
    swing.check_smith()?;
    let command = match name {
        "weigh" => Command::Weigh(design(name, values.next())?),
        "fit" => Command::Fit {
            design: design(name, values.next())?,
            holds,
            freedom,
            rule,
        },
        "effects" => Command::Effects {
            design: design(name, values.next())?,
            rule,
            accuracy,
        },
        "bar" => {
            let design = design(name, values.next())?;
            // What a piece gives has neither marks nor drifts.
            let beside = foreign(hot.is_some(), "--hot")
                .or_else(|| foreign(from.is_some(), "--from"))
                .or_else(|| foreign(log.is_some(), "--log"))
                .or_else(|| drifts.given());
            match (piece, beside) {
                (Some(_), Some(option)) => {
                    return Err(CliError::UnknownOption {
                        command: "bar --piece".to_owned(),
                        option,
                    });
                }
                (Some(piece), None) => Command::Piece {
                    design,
                    piece,
                    table,
                },
                (None, _) => Command::Bar {
                    design,
                    asked: Asked::of(from, hot, drifts),
                    log,
                    table,
                },
            }
        }
        "drift" => Command::Drift {
            design: design(name, values.next())?,
            drifts,
            celsius: hot.unwrap_or(USUAL_HOT_CELSIUS),
        },
        "cut" => {
            cut.files = vec![design(name, values.next())?];
            cut.files.extend(values.by_ref());
            cut.table = table;
            Command::Cut(cut)
        }
        "swing" => Command::Swing {
            design: design(name, values.next())?,
            asked: swing,
            table,
        },
        "compare" => {
            let mut designs = vec![design(name, values.next())?];
            if sweep.is_none() {
                designs.extend(values.by_ref());
            }
            Command::Compare {
                designs,
                asked: swing,
                sweep,
                table,
            }
        }
        "heat" => Command::Heat {
            design: design(name, values.next())?,
            asked: heat,
            table,
        },
        "log" => Command::Log {
            log: values.next().ok_or(CliError::NoLog)?,
            asked: LogAsked::of(form.as_deref(), table)?,
        },
        "forged" => Command::Forged(ForgedAsked {
            file: design(name, values.next())?,
            build,
            read,
            accuracy,
            table,
        }),
        "measured" => Command::Measured(MeasuredAsked {
            design: design(name, values.next())?,
            read,
            rest: rest.unwrap_or_default(),
            accuracy,
            table,
        }),
        "price" => Command::Price {
            costs: values.next().ok_or(CliError::NoCosts)?,
            asked: price.with(log, form.as_deref(), table)?,
        },
        "card" => {
            let design = design("card", values.next())?;
            let out = file("card", out)?;
            Command::Card {
                design,
                asked: Asked::of(from, hot, drifts),
                card,
                format: PrintFormat::of("card", &out)?,
                out,
            }
        }
        "draw" => {
            let design = design("draw", values.next())?;
            let out = file("draw", out)?;
            Command::Draw {
                design,
                format: PrintFormat::of("draw", &out)?,
                out,
            }
        }
        "rack" => {
            let first = values.next().filter(|file| !file.is_empty());
            rack.files = vec![first.ok_or(CliError::NoRack)?];
            rack.files.extend(values.by_ref());
            Command::Rack(rack.ended(out, table)?)
        }
        "mesh" => {
            let design = design(name, values.next())?;
            let out = out.filter(|out| !out.is_empty()).ok_or(CliError::NoOut)?;
            let format = format(&out)?;
            Command::Mesh {
                design,
                out,
                format,
            }
        }
        "starter" => match values.next() {
            None => Command::Starters,
            Some(name) => Command::Starter(name.to_string_lossy().into_owned()),
        },
        _ => Command::Schema,
    };
    match values.next() {
        None => Ok(command),
        Some(argument) => Err(CliError::TooMuch {
            command: name,
            argument: shown(&argument),
            takes: takes(&command),
        }),
    }
}
