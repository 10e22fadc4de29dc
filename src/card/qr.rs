//! The link as a QR code.

use super::Link;
use super::ink::{Ink, Point, filled};
use crate::share::qr;

/// A module is printed at least this large, mm: a phone reads it at arm's length.
pub const LEAST_MODULE_MM: f64 = 0.4;

/// A QR code.
pub(super) struct Code {
    code: qr::Code,
    /// Whether the note stayed out of it.
    bare: bool,
}

impl Code {
    /// The code of `link` at level M, or at level L where it then is small enough for `room` mm and would not be at M;
    /// without the note where that takes more room. Nothing for a link that no code holds.
    pub fn of(link: &Link, room: f64) -> Option<Self> {
        let at = |text: &str, bare: bool| {
            let code = qr::Code::of(text, |code| least_mm(code) <= room)?;
            Some(Self { code, bare })
        };
        let whole = at(&link.whole, false);
        match &link.without_note {
            Some(text) if whole.as_ref().is_none_or(|code| code.least_mm() > room) => {
                at(text, true)
            }
            _ => whole,
        }
    }

    /// What is said beside it.
    pub const fn caption(&self) -> &'static str {
        if self.bare {
            "this head on a phone, without its note"
        } else {
            "this head on a phone"
        }
    }

    /// How wide it is at least, with what stays white.
    pub fn least_mm(&self) -> f64 {
        least_mm(&self.code)
    }

    /// The code as a black area `wide` mm wide, with what stays white, its upper left corner `at`.
    pub fn ink(&self, [x, y]: Point, wide: f64) -> Ink {
        let module = wide / f64::from(self.code.across());
        let at =
            |across: u32, down: u32| [x + module * f64::from(across), y + module * f64::from(down)];
        let rows = self.code.runs().into_iter().map(|[across, down, run]| {
            let (to, below) = (across + run, down + 1);
            vec![
                at(across, down),
                at(to, down),
                at(to, below),
                at(across, below),
            ]
        });
        filled(rows.collect())
    }
}

fn least_mm(code: &qr::Code) -> f64 {
    f64::from(code.across()) * LEAST_MODULE_MM
}
