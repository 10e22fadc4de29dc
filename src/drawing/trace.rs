//! A drag drawn apart from the page: what is sent to and fro between the page, which has the finger, and the thread that
//! fits and draws.
//!
//! A page sends a [`Trace`] when a size is gripped, and then a number for each move. For each it hears what was [`Said`].

use std::fmt::Write;

use serde::{Deserialize, Serialize};

use super::value::width;
use super::{Key, Laid, Rect, Setting, Style, draw, layout, svg_body};
use crate::design::{Design, Dim, Edit, Quantity};
use crate::fit::{Effort, Outcome, fit};
use crate::mass::{Weighed, mass_properties};
use crate::units::{Measure, System};

/// The letters under the mark of the dragged size and the height of a line of them, with how far below its upper edge they
/// stand, how far below the size the first line begins and what a line has beside its letters, px: as the page has them.
const LETTERS: f64 = 17.0;
const LINE: f64 = 19.0;
const BASE: f64 = 14.6;
const BELOW: f64 = 5.0;
const BESIDE: f64 = 3.0;

/// A size that is dragged on a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    design: Design,
    dim: Dim,
    setting: Setting,
    system: System,
}

/// A trace on its way.
#[derive(Serialize, Deserialize)]
struct Sent {
    /// As a file: a page writes it anyway.
    design: String,
    /// Its sizes, which a file rounds.
    numbers: Vec<f64>,
    dim: Dim,
    setting: Setting,
    system: System,
}

/// The head after a move.
#[derive(Clone, Debug, PartialEq)]
pub struct Traced {
    /// Its sizes, fitted to what is held.
    pub design: Design,
    /// Its drawing.
    pub laid: Laid,
    /// Where the dragged size stands on it.
    pub press: Rect,
    /// What that size was, in words; nothing while it is the same.
    pub was: Option<String>,
    /// What the head weighs and how it balances, in words; nothing while both are kept ([`weighs`]).
    pub weighs: Option<String>,
    /// Whether all that is held is met.
    pub met: bool,
    /// What it weighs and how it balances.
    pub weighed: Weighed,
}

impl Traced {
    /// The drawing's elements ([`svg_body`]), and over them the mark of the dragged size with what it was
    /// and what the head weighs.
    pub fn body(&self) -> String {
        let mut out = svg_body(&self.laid);
        let Rect { x, y, w, h } = self.press;
        for (class, out_by) in [("dragged-straw", 3.5), ("dragged-ink", 1.0)] {
            let (x, y) = (x - out_by, y - out_by);
            let (w, h) = (w + 2.0 * out_by, h + 2.0 * out_by);
            let _ = writeln!(
                out,
                "<rect class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\"/>"
            );
        }
        let mut under = |line, class, words: &str| {
            let Rect { x, y, w, h } = line_under(self.press, line, words, self.laid.width);
            let (middle, base) = (x + 0.5 * w, y + BASE);
            let _ = writeln!(
                out,
                "<rect class=\"dragged-ground\" x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\"/>\n\
                 <text class=\"{class}\" x=\"{middle:.1}\" y=\"{base:.1}\" font-size=\"{LETTERS}\">{words}</text>"
            );
        };
        if let Some(was) = &self.was {
            under(0, "dragged-was", was);
            if let Some(weighs) = &self.weighs {
                let class = if self.met {
                    "dragged-was"
                } else {
                    "dragged-out"
                };
                under(1, class, weighs);
            }
        }
        out
    }

    /// What the page is told of it.
    pub fn said(&self) -> Said {
        Said::Drawn {
            numbers: self.design.in_numbers(),
            met: self.met,
            weighed: self.weighed,
        }
    }
}

/// What a page hears of the thread that draws.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Said {
    /// A drag may be sent.
    Ready,
    /// A move is drawn.
    Drawn {
        /// The head's sizes, mm or degrees ([`Design::with_numbers`]).
        numbers: Vec<f64>,
        /// Whether all that is held is met.
        met: bool,
        /// What it weighs and how it balances.
        weighed: Weighed,
    },
    /// The head of this move cannot be made: there is more to be said of it than a drawing shows.
    Aside,
}

/// What stands by a dragged size of `design`, which weighs `weighed`: weight and balance in words. Nothing while both are
/// held and all that is held is `met`, since then neither changes.
pub fn weighs(design: &Design, met: bool, weighed: &Weighed, system: System) -> Option<String> {
    let both = [Quantity::Mass, Quantity::Balance]
        .into_iter()
        .all(|quantity| design.holds.get(quantity).is_some());
    (!(both && met)).then(|| weighed.words(system))
}

/// Where a line of `words` stands under the mark of a dragged size with the place `press`, counted from 0: under its middle, or
/// as near to that as the words have room on a sheet that is so many px `wide`.
pub fn line_under(press: Rect, line: u8, words: &str, wide: f64) -> Rect {
    let half = 0.5 * LETTERS * width(words) + BESIDE;
    let middle = (press.x + 0.5 * press.w).min(wide - half).max(half);
    Rect {
        x: middle - half,
        y: press.y + press.h + BELOW + LINE * f64::from(line),
        w: 2.0 * half,
        h: LINE,
    }
}

/// What a dragged size was, in words.
pub fn was(before: Measure, system: System) -> String {
    format!("was {}", before.words(system))
}

impl Trace {
    /// `dim` of `design` is dragged, on a sheet that stands still as `setting` says.
    pub fn new(design: Design, dim: Dim, setting: Setting, system: System) -> Self {
        Self {
            design,
            dim,
            setting,
            system,
        }
    }

    /// The trace as JSON.
    pub fn write(&self) -> String {
        let sent = Sent {
            design: self.design.to_json(),
            numbers: self.design.in_numbers(),
            dim: self.dim,
            setting: self.setting,
            system: self.system,
        };
        // No key of it is anything but a string, the one thing that would not go into JSON.
        serde_json::to_string(&sent).unwrap_or_default()
    }

    /// Reads what [`Trace::write`] wrote; nothing when it is something else.
    pub fn read(text: &str) -> Option<Self> {
        let sent: Sent = serde_json::from_str(text).ok()?;
        let design = Design::from_json(&sent.design).ok()?;
        let design = design.with_numbers(&sent.numbers)?;
        Some(Self::new(design, sent.dim, sent.setting, sent.system))
    }

    /// The head with the dragged size at `number`, mm or degrees, fitted to what is held as by [`Effort::Quick`]; nothing
    /// when that head is not sound.
    pub fn at(&self, number: f64) -> Option<Traced> {
        let size = self.design.size(self.dim)?.with_number(number);
        let put = self.design.put(self.dim, size);
        let (design, met) = if put.holds.is_empty() {
            (put, true)
        } else {
            let fitted = fit(&put.apply(Edit::Lock(self.dim)), Effort::Quick).ok()?;
            let met = fitted.outcome == Outcome::Met;
            // The dimension in hand was locked for this fit alone.
            let free = put.free;
            (
                Design {
                    free,
                    ..fitted.design
                },
                met,
            )
        };
        let solid = design.build().ok()?;
        let properties = mass_properties(&solid);
        let drawn = (self.setting.style == Style::Desktop).then_some(&properties);
        let drawing = draw(&solid, &design, drawn, self.system);
        let laid = layout(&drawing, &self.setting);
        let dragged = Key::Size(self.dim);
        let press = laid.sizes.iter().find(|size| size.key == dragged)?.press;
        let before = self.design.size(self.dim)?;
        let was = (before.number() != number).then(|| was(before, self.system));
        let weighed = Weighed::from(&properties);
        Some(Traced {
            weighs: weighs(&design, met, &weighed, self.system),
            design,
            laid,
            press,
            was,
            met,
            weighed,
        })
    }
}

impl Said {
    /// The message as JSON.
    pub fn write(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads what [`Said::write`] wrote; nothing when it is something else.
    pub fn read(text: &str) -> Option<Self> {
        serde_json::from_str(text).ok()
    }
}
