//! The design in a link's fragment: what stands after the `#` of the address.
//!
//! # Format
//! `7` `cccc` `design` `.` `name` `.` `note`, of which the last parts are left out when they are
//! empty. The first character is the version. The next four are a checksum of all the others
//! (CRC-24 of RFC 9580, section 6.1): it finds every change of one character, and of two or more
//! all but one in 16.7 million. These five mean the same in every version. Every part is URL-safe
//! base64 without padding; name and note are UTF-8, the design is one large number in which every
//! choice takes no more room than it has alternatives. Older versions are read as well.
//!
//! # What travels
//! - Sizes with their notation: exactly where they lie on a grid that people write on (0.001 mm,
//!   1/64 in, 1/40000 in), otherwise to 0.001 mm, and rounded so that a sound design stays sound.
//! - Weights of conic corners to 0.000005, holds to 0.005 g (0.023 g in pounds and ounces),
//!   0.0005 mm, 0.005 kg·mm² (0.015 kg·mm² in lb·in²) and 0.000005, the bar's sizes as the head's, the rule to 0.00001 mm.
//! - The handle's sizes as the head's, moisture and specific gravity to 0.005; where all but its length is usual
//!   ([`crate::handle::Handle::usual_of_length`]) that is all that is said of it. A wood of one's own goes by its
//!   specific gravity: its name stays in the file ([`CUSTOM_WOOD`]).
//! - The steel and its heat treatment: temperatures to 0.005 °C, hardness to 0.005 HRC, soaks to 0.005 h, an analysis to
//!   0.0005 %; of 1045 treated as usual ([`crate::heat::Heat::default`]) a link says no more than that.
//! - Of the sizes that are equal at both ends, which are alike ([`Design::alike`]).
//! - Limits of free sizes as the sizes, rounded outwards and no farther than the table of bounds;
//!   losses to 0.005 g (0.023 g), 0.0005 % or 0.0005 mm. Where the losses are the usual ones
//!   ([`crate::bar::Loss::usual`]) that is all that is said of them.
//!
//! Only where all this takes more than [`LONGEST_DESIGN`] characters, as on the largest head with
//! more than twenty free sizes whose limits are on no grid, do losses travel to 0.5 g, 1/32 oz,
//! 1/200 lb, 0.05 % or 0.05 mm and limits in steps of 0.1 mm, 0.25 mm and so on, outwards, in the notation
//! of their size.
//!
//! The source of a loss travels only when it is the usual one; the workshop's own texts stay in the
//! file, and the link says so ([`CUSTOM_SOURCE`]). Sizes that the chosen outline of the eye does not
//! use stay there too.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

use crate::bar::MOST_LOSSES;
use crate::design::{Design, LONGEST_NAME, LONGEST_NOTE, MOST_NECKS, Side};
use crate::handle::MOST_STATIONS;

mod body;
mod grid;
pub(super) mod pack;
mod round;

use pack::{Fault, Reader, Writer};

/// The version that is written.
const VERSION: char = '7';
/// The versions that are read.
pub(super) const VERSIONS: [char; 7] = ['1', '2', '3', '4', '5', '6', '7'];
/// Characters of the checksum.
const CHECKSUM: usize = 4;
/// The longest link without name and note, in characters.
pub const LONGEST_DESIGN: usize = 400;
/// The longest link of an offer or an answer without name and note, in characters.
pub const LONGEST_OFFER: usize = 600;
/// The longest link to a design, in characters: with name and note come two dots, and a character of them has
/// at most four bytes.
pub const LONGEST_LINK: usize = LONGEST_DESIGN + LONGEST_TEXTS;
/// The longest link of an offer or an answer, in characters.
pub(super) const LONGEST_OFFER_LINK: usize = LONGEST_OFFER + LONGEST_TEXTS;
/// What name and note add to a link at most.
const LONGEST_TEXTS: usize =
    2 + (4 * LONGEST_NAME * 4).div_ceil(3) + (4 * LONGEST_NOTE * 4).div_ceil(3);
/// The source of a loss whose own source is longer than a link carries.
pub const CUSTOM_SOURCE: &str = "stated in the sender’s design file";

/// The name of a wood of the sender's own.
pub const CUSTOM_WOOD: &str = "the sender’s own wood";

/// Why a text is no link, or why a design does not go into one.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LinkError {
    /// Nothing after the `#`.
    #[error("This link carries no design: nothing stands after the #.")]
    Empty,
    /// Longer than any link.
    #[error(
        "This is not a link to a design: it has {length} characters, and the longest has \
         {longest}."
    )]
    TooLong {
        /// Its characters.
        length: usize,
        /// Those of the longest.
        longest: usize,
    },
    /// Characters or a beginning that no link has.
    #[error("This is not a link to a design.")]
    Foreign,
    /// The checksum does not fit.
    #[error(
        "This link is damaged or was cut short: its checksum does not match. Ask for it again, or \
         copy all of it."
    )]
    Damaged,
    /// Written by a later program.
    #[error(
        "This link was made by a newer Headwright (link version {0}); this one reads up to \
         version {VERSION}. Reload the app or install the newer one."
    )]
    Newer(char),
    /// An offer or an answer where a design is wanted.
    #[error(
        "This is the link of an offer to a customer, or of the answer to one, and no head by itself. \
         Open it on the page."
    )]
    OfOffer,
    /// Something else where an offer is wanted, or an answer.
    #[error("This link holds no {0}.")]
    Other(&'static str),
    /// What a smith says to a customer beside the head, or a choice, is out of its limits.
    #[error("There is no link for this: what is offered or chosen lies outside its limits.")]
    NoOffer,
    /// The checksum fits, but there is no design behind it.
    #[error("This link can’t be read: its checksum matches, but it holds no design.")]
    NoDesign,
    /// A name or note too long to be sent.
    #[error(
        "The {what} has {length} characters; a link carries at most {most}. Shorten it, or send \
         the design file."
    )]
    Text {
        /// "name" or "note".
        what: &'static str,
        /// Its characters.
        length: usize,
        /// The most.
        most: usize,
    },
    /// More necks than an end can have.
    #[error("The {} has {count} necks; a link carries at most {MOST_NECKS}.", .side.word())]
    Necks {
        /// The end.
        side: Side,
        /// How many.
        count: usize,
    },
    /// More lines of losses than a bar can have.
    #[error("The bar lists {count} losses; a link carries at most {MOST_LOSSES}.")]
    Losses {
        /// How many.
        count: usize,
    },
    /// More stations than a handle can have.
    #[error("The handle lists {count} stations; a link carries at most {MOST_STATIONS}.")]
    Stations {
        /// How many.
        count: usize,
    },
    /// Longer than a link may be, however coarse.
    #[error(
        "This design takes more than the {most} characters of a link. Shorten the list \
         of losses, or send the design file."
    )]
    TooMuch {
        /// The most, without name and note.
        most: usize,
    },
}

/// `design` as the text that follows the `#`.
///
/// # Errors
/// None for a sound design whose bar is in order and whose holds are at most 100 kg, 250 mm (500 mm
/// over all), 1 kg·m² and 25.
/// [`LinkError::TooMuch`] is possible only beyond that, or on a head with two peins and nearly all
/// that a head may do without, or with all six quantities held besides every loss, or with more
/// than six losses that are reckoned from punch or heats, or with a handle that is not the usual one, and only when
/// most sizes are conic, free and on no grid; the other errors say which limit of the design is passed.
///
/// # Examples
/// ```
/// use headwright::{design, share::link};
///
/// let design = design::starter("rounding").expect("a starter");
/// let text = link::encode(&design)?;
/// assert!(text.len() < 300);
/// assert_eq!(link::decode(&text)?, design);
/// # Ok::<(), link::LinkError>(())
/// ```
pub fn encode(design: &Design) -> Result<String, LinkError> {
    write(VERSION, VERSION, LONGEST_DESIGN, design, &|_| Ok(()))
}

/// A link that begins with `kind`: what `more` notes, and `design` as `version` has it, with the finest detail by which
/// both are no longer than `most` characters; then name and note.
///
/// # Errors
/// As [`encode`].
pub(super) fn write(
    kind: char,
    version: char,
    most: usize,
    design: &Design,
    more: &dyn Fn(&mut Writer) -> Result<(), Fault>,
) -> Result<String, LinkError> {
    for (what, text, most) in [
        ("name", &design.name, LONGEST_NAME),
        ("note", &design.note, LONGEST_NOTE),
    ] {
        let length = text.chars().count();
        if length > most {
            return Err(LinkError::Text { what, length, most });
        }
    }
    for side in Side::BOTH {
        let count = design.end(side).necks.len();
        if count > MOST_NECKS {
            return Err(LinkError::Necks { side, count });
        }
    }
    let count = design.bar.losses.len();
    if count > MOST_LOSSES {
        return Err(LinkError::Losses { count });
    }
    let count = design.handle.stations.len();
    if count > MOST_STATIONS {
        return Err(LinkError::Stations { count });
    }
    let longest = most - 1 - CHECKSUM;
    let mut body = packed(version, longest, design, more).ok_or(LinkError::TooMuch { most })?;
    for text in [&design.name, &design.note] {
        body.push('.');
        body.push_str(&URL_SAFE_NO_PAD.encode(text));
    }
    let body = body.trim_end_matches('.');
    Ok(format!("{kind}{}{body}", checksum(kind, body)))
}

/// What `more` notes and the design with the finest detail that is short enough.
fn packed(
    version: char,
    longest: usize,
    design: &Design,
    more: &dyn Fn(&mut Writer) -> Result<(), Fault>,
) -> Option<String> {
    let rounded = round::rounded(design);
    let mut details = round::DETAILS.iter().enumerate();
    details.find_map(|(index, detail)| {
        let mut detailed = round::detailed(design, &rounded, detail);
        let mut writer = Writer::default();
        more(&mut writer).ok()?;
        body::design(&mut writer, &mut detailed, version, index).ok()?;
        let text = URL_SAFE_NO_PAD.encode(writer.finish());
        (text.len() <= longest).then_some(text)
    })
}

/// The design of a link, given as what follows the `#` or as the whole address.
///
/// The design need not be sound: a link carries what its sender had. [`Design::build`] says.
///
/// # Errors
/// A sentence for a text that is no link, a damaged one and one of a newer version.
pub fn decode(text: &str) -> Result<Design, LinkError> {
    let (version, body) = opened(text, LONGEST_LINK)?;
    if super::offer::KINDS.contains(&version) {
        return Err(LinkError::OfOffer);
    }
    if !VERSIONS.contains(&version) {
        return Err(LinkError::Newer(version));
    }
    read(version, body, &mut |_| Ok(()))
}

/// The first character of a link and what follows its checksum, which fits; at most `longest` characters are looked at.
///
/// # Errors
/// A sentence for a text that is no link and a damaged one.
pub(super) fn opened(text: &str, longest: usize) -> Result<(char, &str), LinkError> {
    let text = text.trim();
    let link = text.split_once('#').map_or(text, |(_, fragment)| fragment);
    if link.is_empty() {
        return Err(LinkError::Empty);
    }
    if link.len() > longest {
        return Err(LinkError::TooLong {
            length: link.chars().count(),
            longest,
        });
    }
    let version = match link.chars().next() {
        Some(version) if version.is_ascii_alphanumeric() && version != '0' => version,
        _ => return Err(LinkError::Foreign),
    };
    if !link
        .chars()
        .all(|c| c.is_ascii_alphanumeric() || "-_.".contains(c))
    {
        return Err(LinkError::Foreign);
    }
    // All characters are ASCII from here on, so that cutting cannot part one.
    let (stated, body) = link[1..]
        .split_at_checked(CHECKSUM)
        .ok_or(LinkError::Damaged)?;
    if checksum(version, body) != stated {
        return Err(LinkError::Damaged);
    }
    Ok((version, body))
}

/// The design behind the checksum, as `version` has it, after what `more` reads.
///
/// # Errors
/// [`LinkError::NoDesign`].
pub(super) fn read(
    version: char,
    body: &str,
    more: &mut dyn FnMut(&mut Reader) -> Result<(), Fault>,
) -> Result<Design, LinkError> {
    unpacked(version, body, more).ok_or(LinkError::NoDesign)
}

fn unpacked(
    version: char,
    body: &str,
    more: &mut dyn FnMut(&mut Reader) -> Result<(), Fault>,
) -> Option<Design> {
    let mut parts = body.split('.');
    let bytes = URL_SAFE_NO_PAD.decode(parts.next()?).ok()?;
    // A writer leaves no idle zero at the end, and no design is all zeros.
    if bytes.last().is_none_or(|byte| *byte == 0) {
        return None;
    }
    let mut text = |most: usize| {
        let bytes = URL_SAFE_NO_PAD.decode(parts.next().unwrap_or("")).ok()?;
        let text = String::from_utf8(bytes).ok()?;
        (text.chars().count() <= most).then_some(text)
    };
    let (name, note) = (text(LONGEST_NAME)?, text(LONGEST_NOTE)?);
    let mut design = body::unread();
    let mut reader = Reader::new(&bytes);
    more(&mut reader).ok()?;
    body::design(&mut reader, &mut design, version, 0).ok()?;
    let all_read = reader.is_done() && parts.next().is_none();
    all_read.then_some(Design {
        name,
        note,
        ..design
    })
}

/// CRC-24 of the version and the text, as four characters.
///
/// # Source
/// RFC 9580 (OpenPGP, 2024), section 6.1.1: generator 0x864CFB, initial value 0xB704CE.
fn checksum(version: char, text: &str) -> String {
    const GENERATOR: u32 = 0x0186_4cfb;
    const INITIAL: u32 = 0x00b7_04ce;
    let bytes = std::iter::once(version as u8).chain(text.bytes());
    let crc = bytes.fold(INITIAL, |crc, byte| {
        (0..8).fold(crc ^ u32::from(byte) << 16, |crc, _| {
            let shifted = crc << 1;
            if shifted & 0x0100_0000 == 0 {
                shifted
            } else {
                shifted ^ GENERATOR
            }
        })
    });
    URL_SAFE_NO_PAD.encode(&crc.to_be_bytes()[1..])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_checksum_is_crc_24_of_the_openpgp_standard() {
        // The catalogue's check value of CRC-24/OPENPGP: 0x21CF02 for "123456789".
        let expected = URL_SAFE_NO_PAD.encode([0x21, 0xcf, 0x02]);
        assert_eq!(checksum('1', "23456789"), expected);
    }
}
