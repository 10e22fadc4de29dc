//! A text as a QR code: which of its modules are dark.

use std::fmt::Write;

use qrcodegen::{QrCode, QrCodeEcc, QrSegment};

/// Modules that stay white on every side: ISO/IEC 18004 asks for four.
const QUIET: u32 = 4;
/// A module on a screen is at least so wide, CSS pixels, or a phone held in front of it does not read it (common
/// practice, no source). Printed it is 0.8 mm wide.
pub const LEAST_PX: u32 = 3;

/// A QR code, with what stays white around it.
#[derive(Clone)]
pub struct Code(QrCode);

impl Code {
    /// The code of `text` at level M, or at level L where that one `fits` and the first does not, or neither does;
    /// nothing for a text that no code holds.
    ///
    /// # Examples
    /// ```
    /// use headwright::share::qr::Code;
    ///
    /// let code = Code::of("https://smith.example/", |code| code.across() <= 40).expect("a short text");
    /// assert_eq!(code.across(), 33);
    /// ```
    #[inline]
    pub fn of(text: &str, fits: impl Fn(&Self) -> bool) -> Option<Self> {
        let at = |level| {
            let segments = QrSegment::make_segments(text);
            QrCode::encode_segments(&segments, level).ok().map(Self)
        };
        at(QrCodeEcc::Medium)
            .filter(fits)
            .or_else(|| at(QrCodeEcc::Low))
    }

    /// How many modules it is wide and high.
    pub fn across(&self) -> u32 {
        self.0.size().unsigned_abs() + 2 * QUIET
    }

    /// Dark modules in a row, from above: the first one's place from the left and from above, and how many they are.
    pub fn runs(&self) -> Vec<[u32; 3]> {
        let size = self.0.size();
        let mut runs = Vec::new();
        for down in 0..size {
            let mut from = 0;
            while from < size {
                let dark = (from..size).take_while(|across| self.0.get_module(*across, down));
                let run = dark.count() as i32;
                if run > 0 {
                    let [x, y] = [from, down].map(|place| place.unsigned_abs() + QUIET);
                    runs.push([x, y, run.unsigned_abs()]);
                }
                from += run.max(1);
            }
        }
        runs
    }

    /// The dark modules as the path of an SVG in which a module is 1 wide.
    pub fn path(&self) -> String {
        self.runs()
            .into_iter()
            .fold(String::new(), |mut path, [x, y, run]| {
                // Nothing fails that is written to a text.
                let _ = write!(path, "M{x} {y}h{run}v1h-{run}z");
                path
            })
    }
}
