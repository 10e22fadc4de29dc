//! The card and the drawing as files.

use std::ffi::{OsStr, OsString};
use std::path::Path;

use serde::Serialize;

use super::plan::Asked;
use super::{CliError, shown};
use crate::card::{self, Card, CardError, Page, Paper};
use crate::design::Design;

/// What a card was asked to be.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CardAsked {
    paper: Option<Paper>,
    link_base: Option<String>,
    date: Option<String>,
}

/// A format of printed pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PrintFormat {
    /// All pages in one file.
    Pdf,
    /// A file for each page.
    Svg,
}

/// Why a text is no paper and no address.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CardOptionError {
    /// A paper that is none.
    #[error("“{0}” is no paper; a card is printed on a4 or letter.")]
    Paper(String),
    /// An address that no browser opens.
    #[error(
        "“{0}” is no address of a page. Write it in full and without #, like https://example.org/headwright/."
    )]
    Address(String),
    /// A day that is longer than its place.
    #[error(
        "“{text}” is too long for a day: {length} characters, and the card has room for {LONGEST_DATE}."
    )]
    Date {
        /// What was given.
        text: String,
        /// Its characters.
        length: usize,
    },
}

/// The longest day, in characters.
const LONGEST_DATE: usize = 40;
/// The longest address, in characters.
const LONGEST_ADDRESS: usize = 200;

/// An option of `card`, and what belongs after it.
pub(super) fn card_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "paper" => ("--paper", "a4 or letter"),
        "link-base" => (
            "--link-base",
            "the address of the page that opens the link, such as https://example.org/",
        ),
        "date" => ("--date", "the day in words, such as 4 March"),
        _ => return None,
    })
}

impl CardAsked {
    /// Takes what follows `option`.
    pub(super) fn take(&mut self, option: &'static str, text: &str) -> Result<(), CliError> {
        let twice = match option {
            "--paper" => {
                let named = Paper::ALL.into_iter().find(|paper| paper.name() == text);
                let paper = named.ok_or_else(|| CardOptionError::Paper(shown(text.as_ref())))?;
                self.paper.replace(paper).is_some()
            }
            "--link-base" => {
                let is_address = (text.starts_with("https://") || text.starts_with("http://"))
                    && text.chars().count() <= LONGEST_ADDRESS
                    && text.chars().all(|c| c.is_ascii_graphic() && c != '#');
                if !is_address {
                    return Err(CardOptionError::Address(shown(text.as_ref())).into());
                }
                self.link_base.replace(text.to_owned()).is_some()
            }
            _ => {
                let length = text.chars().count();
                if length > LONGEST_DATE {
                    let text = shown(text.as_ref());
                    return Err(CardOptionError::Date { text, length }.into());
                }
                self.date.replace(text.to_owned()).is_some()
            }
        };
        if twice {
            return Err(CliError::Repeated(option));
        }
        Ok(())
    }

    /// The first option that was given, if any.
    pub(super) fn given(&self) -> Option<&'static str> {
        let options = [
            (self.paper.is_some(), "--paper"),
            (self.link_base.is_some(), "--link-base"),
            (self.date.is_some(), "--date"),
        ];
        options
            .into_iter()
            .find_map(|(given, option)| given.then_some(option))
    }

    /// The pages of `design`.
    ///
    /// # Errors
    /// Why there are none.
    pub fn pages(&self, design: &Design, asked: &Asked) -> Result<Vec<Page>, CliError> {
        let asked = card::Asked {
            paper: self.paper.unwrap_or_default(),
            date: self.date.as_deref().unwrap_or_default(),
            link_base: self.link_base.as_deref(),
            from: asked.from,
            celsius: asked.celsius,
            drifting: asked.drifts.drifting().clone(),
            system: None,
        };
        let system = design.bar.rule.system();
        match Card::of(design, &asked) {
            Ok(card) => Ok(card.pages),
            Err(CardError::Design(errors)) => Err(CliError::Unsound(errors)),
            Err(CardError::Bar(errors)) => Err(CliError::BarOf(errors, system)),
            Err(CardError::Hot(error)) => Err(error.into()),
        }
    }
}

impl PrintFormat {
    /// The format by the ending of the file’s name.
    pub(super) fn of(command: &'static str, out: &OsStr) -> Result<Self, CliError> {
        let ending = Path::new(out).extension().unwrap_or_default();
        if ending.eq_ignore_ascii_case("pdf") {
            Ok(Self::Pdf)
        } else if ending.eq_ignore_ascii_case("svg") {
            Ok(Self::Svg)
        } else {
            let name = shown(out);
            Err(CliError::NoPrintFormat { command, name })
        }
    }

    /// `pages` as files with their names: one, or for SVG `card-1.svg`, `card-2.svg` and so on where there are several.
    pub fn files(self, pages: &[Page], title: &str, out: &OsStr) -> Vec<(OsString, Vec<u8>)> {
        match (self, pages) {
            (Self::Pdf, _) => vec![(out.to_owned(), card::pdf(pages, title))],
            (Self::Svg, [page]) => vec![(out.to_owned(), card::svg(page).into_bytes())],
            (Self::Svg, _) => {
                let path = Path::new(out);
                let named = |number: usize| {
                    let mut name = path.file_stem().unwrap_or_default().to_owned();
                    name.push(format!("-{number}.svg"));
                    path.with_file_name(name).into_os_string()
                };
                let files = pages.iter().zip(1..);
                files
                    .map(|(page, number)| (named(number), card::svg(page).into_bytes()))
                    .collect()
            }
        }
    }
}

/// What was written of a card or a drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PrintAnswer {
    /// The files.
    pub files: Vec<String>,
    /// Its pages.
    pub pages: usize,
    /// Width and height of its first page.
    pub page_mm: [f64; 2],
}

impl PrintAnswer {
    /// Describes `pages`, which went to `files`.
    pub fn of(pages: &[Page], files: &[(OsString, Vec<u8>)]) -> Self {
        let name = |(name, _): &(OsString, Vec<u8>)| name.to_string_lossy().into_owned();
        Self {
            files: files.iter().map(name).collect(),
            pages: pages.len(),
            page_mm: pages.first().map_or([0.0; 2], |page| page.size),
        }
    }
}
