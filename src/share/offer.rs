//! What a smith offers a customer, what of it the customer may choose, and the answer: each a link of its own.
//!
//! # Format
//! As a design's link ([`super::link`]), but that the first character is `A` for an offer and `a` for an answer; programs
//! that know neither say that it was made by a newer one. What the smith says, and the choice of an answer, are packed
//! before the design into the same number; the design is packed as version 7 of the design's links has it.
//!
//! # What travels
//! The head, its handle, its steel's grade, what is held and what is free, so that a choice can be fitted where it is
//! made. Bar, losses and the way it is hardened stay in the workshop unless sizes are shared; nothing else of the
//! workshop is in a design. An answer carries all of the offer, so that it can be read wherever it is opened.
//!
//! # Examples
//! ```
//! use headwright::design::starter;
//! use headwright::share::offer::{Answer, Between, Choice, Offer, Terms};
//! use headwright::units::System;
//!
//! let mut offer = Offer::new(starter("rounding").expect("a starter"));
//! offer.terms.open.handle_mm = Some(Between { low: 300, high: 400 });
//! let choice = Choice { handle_mm: Some(390), ..Choice::default() };
//! let chosen = offer.choose(&choice).expect("may be had");
//! assert_eq!(chosen.design.handle.length.in_mm(), 390.0);
//! let link = Answer { offer, choice }.encode()?;
//! let came = Answer::decode(&link)?.differences(System::Metric);
//! assert!(came[0].starts_with("handle length 390 mm instead of "));
//! # Ok::<(), headwright::share::link::LinkError>(())
//! ```

use super::link::{self, LONGEST_OFFER, LONGEST_OFFER_LINK, LinkError};
use crate::bar::Bar;
use crate::design::{Design, TipShape};
use crate::heat::{Heat, Steel};

mod carried;
mod check;
mod choose;
mod ends;
mod said;
mod terms;

pub use check::OfferError;
pub use choose::{ChoiceError, Chosen};
pub use ends::{Missed, OpenEnd};
pub use said::in_the_hand;
pub use terms::{
    Between, Currency, Date, GRAMS, HANDLE_MM, LARGEST_HUNDREDTHS, MOST_INSTEAD, Open, OpenTip,
    Price, Stage, Stands, Terms, YEARS,
};

/// How the link of an offer begins.
const OFFER: char = 'A';
/// How the link of an answer begins.
const ANSWER: char = 'a';
/// Both.
pub(super) const KINDS: [char; 2] = [OFFER, ANSWER];
/// The version of a design's link as which the design is packed in both.
const DESIGN: char = '7';

/// A head as it is offered to a customer. May be impossible: [`Offer::build`] says.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The head, with its name and the smith's note.
    pub design: Design,
    /// What the smith says beside it.
    pub terms: Terms,
}

/// What a customer chooses of what is open; nothing of it is the head as drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// Length of the handle over all, mm.
    pub handle_mm: Option<u32>,
    /// Weight of the finished head, g.
    pub grams: Option<u32>,
    /// What the open end is worked into.
    pub tip: Option<TipShape>,
}

/// What a customer answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The offer that is answered.
    pub offer: Offer,
    /// The choice.
    pub choice: Choice,
}

impl Offer {
    /// `design` with nothing open and nothing said.
    pub fn new(design: Design) -> Self {
        Self {
            design,
            terms: Terms::default(),
        }
    }

    /// The text that follows the `#` of the offer's link: at most [`LONGEST_OFFER`] characters besides name and note.
    ///
    /// # Errors
    /// [`LinkError::NoOffer`] for what [`Offer::build`] refuses in what the smith says, else as [`link::encode`].
    pub fn encode(&self) -> Result<String, LinkError> {
        self.write(OFFER, None)
    }

    /// The offer of a link, given as what follows the `#` or as the whole address. It need not be sound.
    ///
    /// # Errors
    /// A sentence for a text that is no link, another link, a damaged one and one of a newer version.
    pub fn decode(text: &str) -> Result<Self, LinkError> {
        let (kind, body) = link::opened(text, LONGEST_OFFER_LINK)?;
        if kind != OFFER {
            return Err(other(kind, "offer"));
        }
        let mut terms = Terms::default();
        let design = link::read(DESIGN, body, &mut |reader| {
            carried::terms(reader, &mut terms)
        })?;
        Ok(Self { design, terms })
    }

    /// The offer with what of the design is meant for the customer.
    #[must_use]
    pub fn sent(&self) -> Self {
        let mut sent = self.clone();
        if !self.terms.shares_sizes {
            sent.design.bar = Bar {
                rule: self.design.bar.rule,
                ..Bar::default()
            };
            sent.design.heat = Heat {
                steel: Steel {
                    grade: self.design.heat.steel.grade,
                    analysis: None,
                },
                ..Heat::default()
            };
        }
        sent
    }

    fn write(&self, kind: char, choice: Option<&Choice>) -> Result<String, LinkError> {
        let sent = self.sent();
        // What does not go into its place in the number is what the check refuses.
        if carried::refused(&sent.terms, choice) {
            return Err(LinkError::NoOffer);
        }
        link::write(kind, DESIGN, LONGEST_OFFER, &sent.design, &|writer| {
            let mut terms = sent.terms.clone();
            carried::terms(writer, &mut terms)?;
            match choice {
                Some(choice) => carried::choice(writer, &terms, &mut choice.clone()),
                None => Ok(()),
            }
        })
    }
}

impl Answer {
    /// The text that follows the `#` of the answer's link: at most [`LONGEST_OFFER`] characters besides name and note.
    ///
    /// # Errors
    /// As [`Offer::encode`]; [`LinkError::NoOffer`] also for a choice that is not open.
    pub fn encode(&self) -> Result<String, LinkError> {
        self.offer.write(ANSWER, Some(&self.choice))
    }

    /// The answer of a link, given as what follows the `#` or as the whole address. Its choice is one that is open; the
    /// offer need not be sound.
    ///
    /// # Errors
    /// As [`Offer::decode`].
    pub fn decode(text: &str) -> Result<Self, LinkError> {
        let (kind, body) = link::opened(text, LONGEST_OFFER_LINK)?;
        if kind != ANSWER {
            return Err(other(kind, "answer to an offer"));
        }
        let (mut terms, mut choice) = (Terms::default(), Choice::default());
        let design = link::read(DESIGN, body, &mut |reader| {
            carried::terms(reader, &mut terms)?;
            carried::choice(reader, &terms, &mut choice)
        })?;
        Ok(Self {
            offer: Offer { design, terms },
            choice,
        })
    }
}

/// Whether what follows the `#` of an address begins as the link of an offer or an answer does.
pub fn is_offered(text: &str) -> bool {
    text.starts_with(KINDS)
}

/// Why a link that begins with `kind` is no `wanted`.
fn other(kind: char, wanted: &'static str) -> LinkError {
    if KINDS.contains(&kind) || link::VERSIONS.contains(&kind) {
        LinkError::Other(wanted)
    } else {
        LinkError::Newer(kind)
    }
}
