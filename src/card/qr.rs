//! The link as a QR code.

use super::ink::{Ink, Point, filled};
use crate::share::qr;

/// A module is printed at least this large, mm: a phone reads it at arm's length.
pub const LEAST_MODULE_MM: f64 = 0.4;

/// A QR code.
pub(super) struct Code(qr::Code);

impl Code {
    /// The code of `text` at level M, or at level L where it then is small enough for `room` mm and would not be at M;
    /// nothing for a text that no code holds.
    pub fn of(text: &str, room: f64) -> Option<Self> {
        qr::Code::of(text, |code| least_mm(code) <= room).map(Self)
    }

    /// How wide it is at least, with what stays white.
    pub fn least_mm(&self) -> f64 {
        least_mm(&self.0)
    }

    /// The code as a black area `wide` mm wide, with what stays white, its upper left corner `at`.
    pub fn ink(&self, [x, y]: Point, wide: f64) -> Ink {
        let module = wide / f64::from(self.0.across());
        let at =
            |across: u32, down: u32| [x + module * f64::from(across), y + module * f64::from(down)];
        let rows = self.0.runs().into_iter().map(|[across, down, run]| {
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
