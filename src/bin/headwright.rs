//! The command line: reads a design, prints one JSON object.

use std::ffi::{OsStr, OsString};
use std::fs::File;
use std::io::{self, Read, Write};
use std::process::ExitCode;

use headwright::card::{Page, drawing};
use headwright::cli::{
    BarAnswer, CliError, Command, CompareAnswer, CutAnswer, EffectsAnswer, FileKind, FitAnswer,
    ForgedAnswer, HELP, HeatAnswer, LogAnswer, MeasuredAnswer, MeshAnswer, PieceAnswer,
    PriceAnswer, PrintAnswer, PrintFormat, SwingAnswer, Weighed, parse, shown, with_learned,
};
use headwright::design::{Design, schema, starter, starter_names};
use headwright::mass::mass_properties;
use headwright::mesh::{STL, tessellate};
use serde::Serialize;

/// Exit status for wrong input.
const WRONG_INPUT: u8 = 2;

fn main() -> ExitCode {
    let answer = parse(std::env::args_os().skip(1)).and_then(answer);
    match answer.and_then(|text| print(&text)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            // Nobody is left to tell when standard error is closed too.
            let _ = writeln!(io::stderr(), "{}", error.to_string().replace('\n', " "));
            ExitCode::from(WRONG_INPUT)
        }
    }
}

fn answer(command: Command) -> Result<String, CliError> {
    Ok(match command {
        Command::Weigh(design) => json(&Weighed::of(&read(&design)?)?),
        Command::Fit {
            design,
            holds,
            freedom,
            rule,
        } => json(&FitAnswer::of(&read(&design)?, &holds, &freedom, rule)?),
        Command::Effects {
            design,
            rule,
            accuracy,
        } => json(&EffectsAnswer::of(&read(&design)?, rule, accuracy)?),
        Command::Piece {
            design,
            piece,
            table,
        } => {
            let design = read(&design)?;
            let answer = PieceAnswer::of(&design, piece)?;
            if table {
                answer.table(&design)
            } else {
                json(&answer)
            }
        }
        Command::Bar {
            design,
            asked,
            log,
            table,
        } => {
            let mut design = read(&design)?;
            if let Some(log) = log {
                design = with_learned(&design, &text(&log, FileKind::Log)?)?;
            }
            let answer = BarAnswer::of(&design, &asked)?;
            if table {
                answer.table(&design)
            } else {
                json(&answer)
            }
        }
        Command::Cut(asked) => {
            let texts = asked.files.iter().map(|file| text(file, FileKind::Design));
            let texts = texts.collect::<Result<Vec<String>, CliError>>()?;
            let answer = CutAnswer::of(asked.orders(&texts)?)?;
            if asked.table {
                answer.table()
            } else {
                json(&answer)
            }
        }
        Command::Drift {
            design,
            drifts,
            celsius,
        } => drifts.profile(&read(&design)?, celsius)?,
        Command::Swing {
            design,
            asked,
            table,
        } => {
            let answer = SwingAnswer::of(&read(&design)?, &asked)?;
            if table {
                answer.to_string()
            } else {
                json(&answer)
            }
        }
        Command::Compare {
            designs,
            asked,
            sweep,
            table,
        } => {
            let designs = designs.iter().map(|design| read(design));
            let designs = designs.collect::<Result<Vec<Design>, CliError>>()?;
            let answer = match (sweep, designs.as_slice()) {
                (Some(size), [design, ..]) => CompareAnswer::swept(design, &asked, size)?,
                _ => CompareAnswer::side_by_side(&designs, &asked)?,
            };
            if table {
                answer.to_string()
            } else {
                json(&answer)
            }
        }
        Command::Heat {
            design,
            asked,
            table,
        } => {
            let answer = HeatAnswer::of(&read(&design)?, &asked)?;
            if table {
                answer.to_string()
            } else {
                json(&answer)
            }
        }
        Command::Log { log, asked } => {
            let text = text(&log, FileKind::Log)?;
            match asked.form {
                Some(form) => {
                    let (written, left_out) = LogAnswer::written(&text, form)?;
                    if let Some(left_out) = left_out {
                        // Nobody is left to tell when standard error is closed.
                        let _ = writeln!(io::stderr(), "{left_out}");
                    }
                    written
                }
                None if asked.table => LogAnswer::of(&text)?.table(),
                None => json(&LogAnswer::of(&text)?),
            }
        }
        Command::Forged(asked) => {
            let answer = ForgedAnswer::of(&text(&asked.file, asked.kind())?, &asked)?;
            if asked.table {
                answer.table()
            } else {
                json(&answer)
            }
        }
        Command::Measured(asked) => {
            let text = text(&asked.design, FileKind::Design)?;
            let answer = MeasuredAnswer::of(&text, &asked)?;
            if asked.table {
                answer.table()
            } else {
                json(&answer)
            }
        }
        Command::Price { costs, asked } => {
            let costs = text(&costs, FileKind::Costs)?;
            let beside = |file: &Option<OsString>, kind| {
                let text = file.as_deref().map(|file| text(file, kind));
                text.transpose()
            };
            let order = beside(&asked.order, FileKind::Design)?;
            let log = beside(&asked.log, FileKind::Log)?;
            let (order, log) = (order.as_deref(), log.as_deref());
            if let Some(form) = asked.form {
                return PriceAnswer::written(&costs, order, log, &asked, form);
            }
            let answer = PriceAnswer::of(&costs, order, log, &asked)?;
            if asked.table {
                answer.to_string()
            } else {
                json(&answer)
            }
        }
        Command::Card {
            design,
            asked,
            card,
            out,
            format,
        } => {
            let design = read(&design)?;
            print_to(&card.pages(&design, &asked)?, format, &design.name, &out)?
        }
        Command::Draw {
            design,
            out,
            format,
        } => {
            let design = read(&design)?;
            let page = drawing(&design, design.bar.rule.system()).map_err(CliError::Unsound)?;
            print_to(&[page], format, &design.name, &out)?
        }
        Command::Rack(asked) => {
            asked.check_out(same_file)?;
            let texts = asked.files.iter().map(|file| text(file, FileKind::Rack));
            let texts = texts.collect::<Result<Vec<String>, CliError>>()?;
            let racked = asked.racked(&texts)?;
            if let Some(shown) = racked.shown()? {
                return Ok(shown);
            }
            if let Some((out, text)) = racked.file() {
                write(out, text.as_bytes())?;
            }
            let answer = racked.answer();
            if asked.table {
                answer.to_string()
            } else {
                json(&answer)
            }
        }
        Command::Mesh {
            design,
            out,
            format,
        } => {
            let design = read(&design)?;
            let solid = design.build().map_err(CliError::Unsound)?;
            let mesh = tessellate(&solid, STL);
            let bytes = format.write(&mesh, &design.name, mass_properties(&solid).mass);
            write(&out, &bytes)?;
            json(&MeshAnswer::of(&mesh, &out))
        }
        Command::Starters => starter_names().map(|name| format!("{name}\n")).collect(),
        Command::Starter(name) => starter(&name)
            .ok_or_else(|| CliError::UnknownStarter {
                name: shown(name.as_ref()),
            })?
            .to_json(),
        Command::Schema => json(&schema()),
        Command::Help => HELP.to_owned(),
        Command::Version => format!("headwright {}\n", env!("CARGO_PKG_VERSION")),
    })
}

/// `value` as JSON with a line's end. No answer has keys that are no strings, the one thing that
/// would not go into JSON.
fn json(value: &impl Serialize) -> String {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}

/// Writes `pages` to the file `out`, or to files named after it, and tells which.
fn print_to(
    pages: &[Page],
    format: PrintFormat,
    title: &str,
    out: &OsStr,
) -> Result<String, CliError> {
    let files = format.files(pages, title, out);
    for (name, bytes) in &files {
        write(name, bytes)?;
    }
    Ok(json(&PrintAnswer::of(pages, &files)))
}

fn write(name: &OsStr, bytes: &[u8]) -> Result<(), CliError> {
    std::fs::write(name, bytes).map_err(|error| CliError::Unwritable {
        name: shown(name),
        reason: reason(&error),
    })
}

/// Whether two names are of one file; of what does not exist the names themselves are compared.
fn same_file(one: &OsStr, other: &OsStr) -> bool {
    match (std::fs::canonicalize(one), std::fs::canonicalize(other)) {
        (Ok(one), Ok(other)) => one == other,
        _ => one == other,
    }
}

fn read(name: &OsStr) -> Result<Design, CliError> {
    Ok(Design::from_json(&text(name, FileKind::Design)?)?)
}

/// The text of a file, or of standard input for `-`.
fn text(name: &OsStr, kind: FileKind) -> Result<String, CliError> {
    let stdin = name == "-";
    let shown = if stdin {
        "standard input".to_owned()
    } else {
        shown(name)
    };
    let mut bytes = Vec::new();
    let limit = kind.largest() + 1;
    let outcome = if stdin {
        io::stdin().lock().take(limit).read_to_end(&mut bytes)
    } else {
        File::open(name).and_then(|file| file.take(limit).read_to_end(&mut bytes))
    };
    match outcome {
        Err(error) => Err(CliError::Unreadable {
            kind,
            name: shown,
            reason: reason(&error),
        }),
        Ok(length) if length as u64 > kind.largest() => {
            Err(CliError::TooLarge { kind, name: shown })
        }
        Ok(_) => String::from_utf8(bytes).map_err(|_| CliError::NotText { kind, name: shown }),
    }
}

/// The system's reason without its number, fit for the end of a sentence.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it is not allowed".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        _ => error.to_string().trim_end_matches('.').to_owned(),
    }
}

/// Prints the answer. A reader that has seen enough and closed the pipe is no error.
fn print(text: &str) -> Result<(), CliError> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(CliError::Unwritable {
            name: "standard output".to_owned(),
            reason: reason(&error),
        }),
        _ => Ok(()),
    }
}
