//! The link as a QR code.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment};

use super::ink::{Ink, Point, filled};

/// A module is printed at least this large, mm: a phone reads it at arm's length.
pub const LEAST_MODULE_MM: f64 = 0.4;
/// Modules that stay white on every side: ISO/IEC 18004 asks for four.
const QUIET: f64 = 4.0;

/// A QR code.
pub(super) struct Code(QrCode);

impl Code {
    /// The code of `text` at level M, or at level L where it then is small enough for `room` mm and would not be at M;
    /// nothing for a text that no code holds.
    pub fn of(text: &str, room: f64) -> Option<Self> {
        let at = |level| {
            let segments = QrSegment::make_segments(text);
            QrCode::encode_segments(&segments, level).ok().map(Self)
        };
        let fits = |code: &Self| code.least_mm() <= room;
        at(QrCodeEcc::Medium)
            .filter(fits)
            .or_else(|| at(QrCodeEcc::Low))
    }

    /// How many modules it is wide with what stays white.
    fn modules(&self) -> f64 {
        f64::from(self.0.size()) + 2.0 * QUIET
    }

    /// How wide it is at least, with what stays white.
    pub fn least_mm(&self) -> f64 {
        self.modules() * LEAST_MODULE_MM
    }

    /// The code as a black area `wide` mm wide, with what stays white, its upper left corner `at`.
    pub fn ink(&self, [x, y]: Point, wide: f64) -> Ink {
        let module = wide / self.modules();
        let mut rows = Vec::new();
        let size = self.0.size();
        for down in 0..size {
            let mut from = 0;
            while from < size {
                let dark = (from..size).take_while(|across| self.0.get_module(*across, down));
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
