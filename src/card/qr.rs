//! The link as a QR code.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment};

use super::Link;
use super::ink::{Ink, Point, filled};

/// A module is printed at least this large, mm: a phone reads it at arm's length.
pub const LEAST_MODULE_MM: f64 = 0.4;
/// Modules that stay white on every side: ISO/IEC 18004 asks for four.
const QUIET: f64 = 4.0;

/// A QR code.
pub(super) struct Code {
    code: QrCode,
    /// Whether the note stayed out of it.
    bare: bool,
}

impl Code {
    /// The code of `link` at level M, or at level L where it then is small enough for `room` mm and would not be at M;
    /// without the note where that takes more room. Nothing for a link that no code holds.
    pub fn of(link: &Link, room: f64) -> Option<Self> {
        let at = |text: &str, bare: bool, level| {
            let segments = QrSegment::make_segments(text);
            let code = QrCode::encode_segments(&segments, level).ok()?;
            Some(Self { code, bare })
        };
        let fits = |code: &Self| code.least_mm() <= room;
        let within = |text: &str, bare: bool| {
            let levels = [QrCodeEcc::Medium, QrCodeEcc::Low];
            levels
                .into_iter()
                .find_map(|level| at(text, bare, level).filter(fits))
        };
        let without = link.without_note.as_deref();
        within(&link.whole, false)
            .or_else(|| within(without?, true))
            .or_else(|| {
                at(
                    without.unwrap_or(&link.whole),
                    without.is_some(),
                    QrCodeEcc::Low,
                )
            })
    }

    /// What is said beside it.
    pub const fn caption(&self) -> &'static str {
        if self.bare {
            "this head on a phone, without its note"
        } else {
            "this head on a phone"
        }
    }

    /// How many modules it is wide with what stays white.
    fn modules(&self) -> f64 {
        f64::from(self.code.size()) + 2.0 * QUIET
    }

    /// How wide it is at least, with what stays white.
    pub fn least_mm(&self) -> f64 {
        self.modules() * LEAST_MODULE_MM
    }

    /// The code as a black area `wide` mm wide, with what stays white, its upper left corner `at`.
    pub fn ink(&self, [x, y]: Point, wide: f64) -> Ink {
        let module = wide / self.modules();
        let mut rows = Vec::new();
        let size = self.code.size();
        for down in 0..size {
            let mut from = 0;
            while from < size {
                let dark = (from..size).take_while(|across| self.code.get_module(*across, down));
                let run = dark.count() as i32;
                if run > 0 {
                    let at = |across: i32, down: i32| {
                        [
                            x + module * (QUIET + f64::from(across)),
                            y + module * (QUIET + f64::from(down)),
                        ]
                    };
                    let (to, below) = (from + run, down + 1);
                    rows.push(vec![
                        at(from, down),
                        at(to, down),
                        at(to, below),
                        at(from, below),
                    ]);
                }
                from += run.max(1);
            }
        }
        filled(rows)
    }
}
