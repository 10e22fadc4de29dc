//! A drag drawn apart from the page: what is sent to and fro between the page, which has the finger, and the thread that
//! fits and draws.
//!
//! A page sends a [`Trace`] when a size is gripped, and then a number for each move. For each it hears what was [`Said`].

use std::fmt::Write;

use serde::{Deserialize, Serialize};

use super::{Key, Laid, Rect, Setting, Style, draw, layout, svg_body};
use crate::design::{Design, Dim, Edit};
use crate::fit::{Effort, Outcome, fit};
use crate::mass::{Weighed, mass_properties};
use crate::units::System;

/// How far below the mark of the dragged size the letters of what it was stand, and their size, px: as the page has them.
const WAS_BELOW: f64 = 15.2;
const WAS_SIZE: f64 = 17.0;

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
    /// Whether all that is held is met.
    pub met: bool,
    /// What it weighs and how it balances.
    pub weighed: Weighed,
}

impl Traced {
    /// The drawing's elements ([`svg_body`]), and over them the mark of the dragged size with what it was.
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
        if let Some(was) = &self.was {
            let (x, y) = (x + 0.5 * w, y + h + WAS_BELOW);
            let _ = writeln!(
                out,
                "<text class=\"dragged-was\" x=\"{x:.1}\" y=\"{y:.1}\" font-size=\"{WAS_SIZE}\">{was}</text>"
            );
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
        let was = (before.number() != number).then(|| format!("was {}", before.words(self.system)));
        Some(Traced {
            design,
            laid,
            press,
            was,
            met,
            weighed: Weighed::from(&properties),
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
