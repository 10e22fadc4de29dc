//! What a page has on its sheet, on its way to the rack.

use serde::{Deserialize, Serialize};

use crate::design::Design;

/// How many of the states before it a work names.
pub const MOST_STATES: usize = 32;

/// The state of a sheet, as a page notes it with every change and before anything else is done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Work {
    /// Version of the note, as a slip's.
    pub version: u64,
    /// The entry that is worked on; nothing while the design is on no rack, because nothing was changed in it.
    pub entry: Option<String>,
    /// The id of the copy, should the entry have become another's meanwhile.
    pub copy: String,
    /// Marks of the states that this one came from: first the one that was last on the rack, the latest last.
    pub came_from: Vec<String>,
    /// The state that was last on the rack, in its parts; a note of before there were any has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base: Option<Parts>,
    /// When it was noted, ms after 1970 began, UTC.
    pub at: u64,
    /// Whether it is not on the rack yet.
    pub waits: bool,
    /// The last design that can be made, the text of a design file.
    pub design: String,
    /// The design as edited, where that is one that cannot be made.
    pub edited: Option<String>,
}

impl Work {
    /// Notes that this state, with `mark`, is one that the next comes from. The first stays, however many there are.
    pub fn pass(&mut self, mark: String) {
        self.came_from.push(mark);
        if self.came_from.len() > MOST_STATES {
            self.came_from.remove(1);
        }
    }

    /// The text of the note.
    // Inlined with the next, so that each is made by the package that calls it: the page's is built for size.
    #[inline]
    pub fn to_json(&self) -> String {
        // Nothing in it has a key that is no text.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads a note; nothing when it is none, or a newer program's.
    #[inline]
    pub fn from_json(text: &str) -> Option<Self> {
        let work: Self = serde_json::from_str(text).ok()?;
        (work.version <= super::VERSION).then_some(work)
    }
}

/// The marks of what is changed apart: a name given in one place leaves the sizes of another alone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Parts {
    /// The name's.
    pub name: String,
    /// The note's.
    pub note: String,
    /// Of all else.
    pub rest: String,
}

impl Parts {
    /// The parts of `design`.
    #[inline]
    pub fn of(design: &Design) -> Self {
        let bare = Design {
            name: String::new(),
            note: String::new(),
            ..design.clone()
        };
        Self {
            name: mark(&design.name),
            note: mark(&design.note),
            rest: mark(&bare.to_json()),
        }
    }
}

/// The design with what `own` and what `other` changed, both of which came from `base`; nothing where both changed one
/// part into two things.
#[inline]
pub fn joined(base: &Parts, own: &Design, other: &Design) -> Option<Design> {
    let [ours, theirs] = [own, other].map(Parts::of);
    // The one that is not what it was before.
    let of = |part: fn(&Parts) -> &str| match (part(&ours), part(&theirs), part(base)) {
        (own, other, before) if own == other || other == before => Some(true),
        (own, _, before) if own == before => Some(false),
        _ => None,
    };
    let name = of(|parts| &parts.name)?;
    let note = of(|parts| &parts.note)?;
    let rest = of(|parts| &parts.rest)?;
    let side = |is_own: bool| if is_own { own } else { other };
    Some(Design {
        name: side(name).name.clone(),
        note: side(note).note.clone(),
        ..side(rest).clone()
    })
}

/// The mark of a text: the 64 bits of FNV-1a, as 16 digits to the base 16. Two texts that differ have the same mark
/// once in 1.8·10¹⁹.
///
/// # Source
/// G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, T. Hansen, The FNV Non-Cryptographic Hash Algorithm, RFC 9923, from
/// memory; its test vectors are among the tests.
pub fn mark(text: &str) -> String {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    let hash = text.bytes().fold(BASIS, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(PRIME)
    });
    format!("{hash:016x}")
}
