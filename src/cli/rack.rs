//! Rack files: listed, searched, shown and merged.

use std::ffi::{OsStr, OsString};
use std::fmt;

use serde::Serialize;

use super::{CliError, shown};
use crate::design::Design;
use crate::log::show_day;
use crate::mass::mass_properties;
use crate::rack::{Arrival, Entry, Rack, finds};
use crate::units::show_mass;

/// What was asked of rack files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RackAsked {
    /// The files, at least one.
    pub files: Vec<OsString>,
    /// Whether as a table to be read.
    pub table: bool,
    search: Option<String>,
    show: Option<String>,
    out: Option<OsString>,
}

/// How many ids a sentence names.
const SAID_IDS: usize = 5;

/// An option of `rack`, and what belongs after it.
pub(super) fn rack_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "search" => ("--search", "words, such as 'sold anna'"),
        "show" => ("--show", "the name or the id of a hammer"),
        _ => return None,
    })
}

impl RackAsked {
    /// Takes what follows `option`.
    pub(super) fn take(&mut self, option: &'static str, text: &str) -> Result<(), CliError> {
        let place = match option {
            "--search" => &mut self.search,
            _ => &mut self.show,
        };
        match place.replace(text.to_owned()) {
            Some(_) => Err(CliError::Repeated(option)),
            None => Ok(()),
        }
    }

    /// The first option that was given, if any.
    pub(super) fn given(&self) -> Option<&'static str> {
        let options = [
            (self.search.is_some(), "--search"),
            (self.show.is_some(), "--show"),
        ];
        let given = options.into_iter().find(|(given, _)| *given);
        given.map(|(_, option)| option)
    }

    /// The same with what goes for other commands too.
    pub(super) fn ended(mut self, out: Option<OsString>, table: bool) -> Result<Self, CliError> {
        self.out = out.filter(|out| !out.is_empty());
        self.table = table;
        // One that is shown is printed as the file that it is.
        let beside = [(self.out.is_some(), "--out"), (self.table, "--table")];
        match beside.into_iter().find(|(given, _)| *given) {
            Some((_, option)) if self.show.is_some() => Err(CliError::UnknownOption {
                command: "rack --show".to_owned(),
                option: option.to_owned(),
            }),
            _ => Ok(self),
        }
    }

    /// Whether what is written leaves every file whole. `same` says whether two names are of one file.
    ///
    /// # Errors
    /// What is found by a search would go over a file that it was searched in.
    pub fn check_out(&self, same: impl Fn(&OsStr, &OsStr) -> bool) -> Result<(), CliError> {
        let (Some(_), Some(out)) = (&self.search, &self.out) else {
            return Ok(());
        };
        // The hyphen is standard input.
        let mut files = self.files.iter().filter(|file| *file != "-");
        match files.find(|file| same(file, out)) {
            Some(file) => Err(CliError::FoundOverRack { name: shown(file) }),
            None => Ok(()),
        }
    }

    /// Reads the files' `texts`, merges them, and finds what was searched.
    ///
    /// # Errors
    /// The first that is no rack file.
    pub fn racked(&self, texts: &[String]) -> Result<Racked<'_>, CliError> {
        let (mut rack, mut files) = (Rack::default(), Vec::new());
        let mut copies = 0;
        for (file, text) in self.files.iter().zip(texts) {
            let name = shown(file);
            let coming = Rack::from_json(text).map_err(|error| CliError::Rack {
                name: name.clone(),
                error,
            })?;
            let arrived = rack.take_in(coming.entries, || {
                copies += 1;
                format!("copy-{copies}")
            });
            let count = |arrival| arrived.iter().filter(|it| it.arrival == arrival).count();
            files.push(TakenAnswer {
                file: name,
                came: count(Arrival::Came),
                skipped: count(Arrival::Skipped),
                copied: arrived
                    .iter()
                    .filter(|it| it.arrival == Arrival::Copied)
                    .map(|it| it.entry.design.name.clone())
                    .collect(),
            });
            for unread in coming.unread {
                if !rack.unread.contains(&unread) {
                    rack.unread.push(unread);
                }
            }
        }
        let all = rack.entries.len();
        if let Some(words) = &self.search {
            rack.entries.retain(|entry| finds(words, entry));
            rack.unread.clear();
        }
        // As the page lists them: the one changed last first.
        rack.entries
            .sort_by_key(|entry| std::cmp::Reverse(entry.changed));
        Ok(Racked {
            asked: self,
            rack,
            all,
            files,
        })
    }
}

/// Rack files that were read and merged.
#[derive(Clone, Debug, PartialEq)]
pub struct Racked<'a> {
    asked: &'a RackAsked,
    rack: Rack,
    /// How many hammers there are, found or not.
    all: usize,
    files: Vec<TakenAnswer>,
}

impl Racked<'_> {
    /// The design file of the hammer that is to be shown, if one is.
    ///
    /// # Errors
    /// No hammer of that name or id, or several.
    pub fn shown(&self) -> Result<Option<String>, CliError> {
        let Some(name) = &self.asked.show else {
            return Ok(None);
        };
        let of_id = self.rack.entries.iter().find(|entry| entry.id == *name);
        if let Some(entry) = of_id {
            return Ok(Some(entry.design.to_json()));
        }
        let wanted = name.trim().to_lowercase();
        let named = self.rack.entries.iter();
        let named = named.filter(|entry| entry.design.name.trim().to_lowercase() == wanted);
        match named.collect::<Vec<_>>().as_slice() {
            [entry] => Ok(Some(entry.design.to_json())),
            [] => Err(CliError::NoHammer {
                name: shown(name.as_ref()),
                count: self.all,
            }),
            several => {
                let ids = several.iter().take(SAID_IDS).map(|entry| entry.id.as_str());
                Err(CliError::ManyHammers {
                    name: shown(name.as_ref()),
                    count: several.len(),
                    ids: ids.collect::<Vec<_>>().join(", "),
                })
            }
        }
    }

    /// The rack file that is to be written, if one is, with its name.
    pub fn file(&self) -> Option<(&OsStr, String)> {
        let out = self.asked.out.as_deref()?;
        Some((out, self.rack.to_json()))
    }

    /// What is answered of them.
    pub fn answer(&self) -> RackAnswer {
        let unread = self.rack.unread.iter();
        RackAnswer {
            hammers: self.rack.entries.iter().map(RackedAnswer::of).collect(),
            unread: unread
                .map(|unread| UnreadEntryAnswer {
                    name: unread.name.clone(),
                    reason: unread.reason.clone(),
                })
                .collect(),
            of: self.all,
            files: self.files.clone(),
            written: self.file().map(|(out, text)| WrittenAnswer {
                file: shown(out),
                bytes: text.len(),
            }),
        }
    }
}

/// What stands on the rack, as it is printed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RackAnswer {
    /// The hammers that were found, the one changed last first.
    pub hammers: Vec<RackedAnswer>,
    /// What cannot be read.
    pub unread: Vec<UnreadEntryAnswer>,
    /// How many hammers there are, found or not.
    pub of: usize,
    /// What came of every file.
    pub files: Vec<TakenAnswer>,
    /// The file that was written.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub written: Option<WrittenAnswer>,
}

/// A hammer on the rack.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RackedAnswer {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What the head weighs; nothing where it cannot be made.
    pub mass_kg: Option<f64>,
    /// Why it cannot be made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub refused: Option<String>,
    /// When it came onto the rack, ms after 1970 began, UTC.
    pub made_ms: u64,
    /// When it was changed last, ms after 1970 began, UTC.
    pub changed_ms: u64,
    /// Words to find it by.
    pub tags: Vec<String>,
    /// Its note.
    pub note: String,
    /// Its weight in the units of its rule, for the table.
    #[serde(skip)]
    weight: String,
}

/// Something that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct UnreadEntryAnswer {
    /// The name of its design, where that much can be told.
    pub name: Option<String>,
    /// Why it cannot be read.
    pub reason: String,
}

/// What came of a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TakenAnswer {
    /// Its name.
    pub file: String,
    /// How many hammers came.
    pub came: usize,
    /// How many stood there already.
    pub skipped: usize,
    /// Names of those that stand there as a copy, because their id was another's.
    pub copied: Vec<String>,
}

/// A rack file that was written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WrittenAnswer {
    /// Its name.
    pub file: String,
    /// Its size.
    pub bytes: usize,
}

impl RackedAnswer {
    fn of(entry: &Entry) -> Self {
        let Entry {
            id,
            design,
            made,
            changed,
            tags,
        } = entry;
        let (mass_kg, refused) = match design.build() {
            Ok(solid) => (Some(mass_properties(&solid).mass), None),
            Err(errors) => {
                let sentences: Vec<String> = errors.iter().map(ToString::to_string).collect();
                (None, Some(sentences.join(" ")))
            }
        };
        Self {
            id: id.clone(),
            name: design.name.clone(),
            weight: weight(design, mass_kg),
            mass_kg,
            refused,
            made_ms: *made,
            changed_ms: *changed,
            tags: tags.clone(),
            note: design.note.clone(),
        }
    }

    /// Its cells in the table.
    fn cells(&self) -> [String; 4] {
        let name = match self.name.trim() {
            "" => "hammer without a name",
            name => name,
        };
        [
            name.to_owned(),
            self.weight.clone(),
            show_day(self.changed_ms),
            self.tags.join(", "),
        ]
    }
}

fn weight(design: &Design, kg: Option<f64>) -> String {
    let shown = kg.map(|kg| show_mass(kg, design.bar.rule.system()));
    shown.unwrap_or_else(|| "can’t be made".to_owned())
}

/// As a table to be read.
impl fmt::Display for RackAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let heading = ["name", "weight", "changed", "tags"].map(str::to_owned);
        let rows = self.hammers.iter().map(RackedAnswer::cells);
        let rows: Vec<[String; 4]> = std::iter::once(heading).chain(rows).collect();
        let widest = |column: usize| {
            let cells = rows.iter().filter_map(|row| row.get(column));
            cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let (names, weights) = (widest(0), widest(1));
        for [name, weight, changed, tags] in &rows {
            let line = format!("{name:<names$}  {weight:>weights$}  {changed:<10}  {tags}");
            writeln!(f, "{}", line.trim_end())?;
        }
        writeln!(f, "\n{} of {} hammers", self.hammers.len(), self.of)?;
        for unread in &self.unread {
            let name = unread.name.as_deref().unwrap_or("something");
            writeln!(f, "{name} can’t be read. {}", unread.reason)?;
        }
        if let [_, _, ..] = self.files.as_slice() {
            for TakenAnswer {
                file,
                came,
                skipped,
                copied,
            } in &self.files
            {
                write!(f, "From {file}: {came} came, {skipped} stood here already")?;
                if !copied.is_empty() {
                    let copied = copied.join(", ");
                    write!(
                        f,
                        ", kept as a copy because another state stands here: {copied}"
                    )?;
                }
                writeln!(f, ".")?;
            }
        }
        match &self.written {
            Some(written) => writeln!(f, "Written to {}: {} bytes.", written.file, written.bytes),
            None => Ok(()),
        }
    }
}
