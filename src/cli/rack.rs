//! Rack files: listed, searched, shown and merged.

use std::ffi::{OsStr, OsString};
use std::fmt;

use serde::Serialize;

use super::{CliError, shown};
use crate::chest::Chest;
use crate::design::Design;
use crate::log::{BuildArrival, BuildArrived, show_day};
use crate::mass::mass_properties;
use crate::rack::{Arrival, Entry, finds};
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
        let (mut chest, mut files) = (Chest::default(), Vec::new());
        let mut copies = 0;
        for (file, text) in self.files.iter().zip(texts) {
            let name = shown(file);
            let coming = Chest::from_json(text).map_err(|error| CliError::Rack {
                name: name.clone(),
                error,
            })?;
            let taken = chest.take_in(coming, || {
                copies += 1;
                format!("copy-{copies}")
            });
            let entries = &taken.entries;
            let count = |arrival| entries.iter().filter(|it| it.arrival == arrival).count();
            let of_builds = |arrival| {
                let builds = taken.builds.iter();
                builds.filter(|it| it.arrival == arrival).count()
            };
            if of_builds(BuildArrival::NoRoom) > 0 {
                return Err(CliError::NoRoom { name });
            }
            let too_much = |it: &&BuildArrived| it.arrival == BuildArrival::TooMuch;
            if let Some(too_much) = taken.builds.iter().find(too_much) {
                return Err(CliError::NoRoomInBuild {
                    name,
                    build: too_much.build.id.clone(),
                });
            }
            files.push(TakenAnswer {
                file: name,
                came: count(Arrival::Came),
                skipped: count(Arrival::Skipped),
                copied: entries
                    .iter()
                    .filter(|it| it.arrival == Arrival::Copied)
                    .map(|it| it.entry.design.name.clone())
                    .collect(),
                builds: BuildsTaken {
                    came: of_builds(BuildArrival::Came),
                    joined: of_builds(BuildArrival::Joined),
                    skipped: of_builds(BuildArrival::Skipped),
                    copied: of_builds(BuildArrival::Copied),
                },
                costs: taken.costs,
            });
        }
        let all = chest.rack.entries.len();
        if let Some(words) = &self.search {
            chest.rack.entries.retain(|entry| finds(words, entry));
            let found = &chest.rack.entries;
            chest.log.builds.retain(|build| {
                let of = |id: &String| found.iter().any(|entry| entry.id == *id);
                build.entry.as_ref().is_some_and(of)
            });
            chest.rack.unread.clear();
            chest.log.unread.clear();
            (chest.costs, chest.unread_costs) = (Vec::new(), Vec::new());
        }
        // As the page lists them: the one changed last first.
        chest
            .rack
            .entries
            .sort_by_key(|entry| std::cmp::Reverse(entry.changed));
        Ok(Racked {
            asked: self,
            chest,
            all,
            files,
        })
    }
}

/// Rack files that were read and merged.
#[derive(Clone, Debug, PartialEq)]
pub struct Racked<'a> {
    asked: &'a RackAsked,
    chest: Chest,
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
        let of_id = self
            .chest
            .rack
            .entries
            .iter()
            .find(|entry| entry.id == *name);
        if let Some(entry) = of_id {
            return Ok(Some(entry.design.to_json()));
        }
        let wanted = name.trim().to_lowercase();
        let named = self.chest.rack.entries.iter();
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
        Some((out, self.chest.to_json()))
    }

    /// What is answered of them.
    pub fn answer(&self) -> RackAnswer {
        let Chest {
            rack,
            log,
            costs,
            unread_costs,
        } = &self.chest;
        let unread = rack.unread.iter().chain(&log.unread).chain(unread_costs);
        RackAnswer {
            hammers: self
                .chest
                .rack
                .entries
                .iter()
                .map(RackedAnswer::of)
                .collect(),
            unread: unread
                .map(|unread| UnreadEntryAnswer {
                    name: unread.name.clone(),
                    reason: unread.reason.clone(),
                })
                .collect(),
            of: self.all,
            builds: log.builds.len(),
            costs: costs.len(),
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
    /// How many builds the log has, with --search those of the hammers that were found.
    pub builds: usize,
    /// How many costs there are.
    pub costs: usize,
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
    /// What came of the builds in its log.
    pub builds: BuildsTaken,
    /// How many costs came.
    pub costs: usize,
}

/// What came of the builds of a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct BuildsTaken {
    /// How many came.
    pub came: usize,
    /// How many had more than was there, and were joined with that.
    pub joined: usize,
    /// How many were there already.
    pub skipped: usize,
    /// How many stand there as a copy, because their id was another's.
    pub copied: usize,
}

impl BuildsTaken {
    /// “3 builds came, 1 was joined”; nothing where none are.
    fn words(self) -> Option<String> {
        let told = [
            (self.came, "came"),
            (self.joined, "joined"),
            (self.skipped, "there already"),
            (self.copied, "kept as a copy"),
        ];
        let told = told.iter().filter(|(count, _)| *count > 0);
        let told: Vec<String> = told
            .map(|(count, what)| format!("{count} {what}"))
            .collect();
        (!told.is_empty()).then(|| format!("builds: {}", told.join(", ")))
    }
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
        if self.builds > 0 || self.costs > 0 {
            writeln!(
                f,
                "Beside them: builds {}, costs {}",
                self.builds, self.costs
            )?;
        }
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
                builds,
                ..
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
                if let Some(builds) = builds.words() {
                    write!(f, "; {builds}")?;
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
