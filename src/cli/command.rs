//! The commands, each with what it takes.

use std::ffi::OsString;

use super::{
    Asked, CardAsked, CutAsked, Drifts, ForgedAsked, Freedom, HeatAsked, Held, LogAsked,
    MeasuredAsked, PriceAsked, PrintFormat, RackAsked, SweepAsked, SwingAsked,
};
use crate::mesh::Format;
use crate::units::{Length, Mass, Rule};

/// What a person asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// `weigh DESIGN`
    Weigh(OsString),
    /// `fit DESIGN --hold …`
    Fit {
        /// The design.
        design: OsString,
        /// What is to be held; empty for the design's own holds.
        holds: Vec<Held>,
        /// What may move and what may not, over what the design says; the later one counts.
        freedom: Vec<Freedom>,
        /// The rule that the answer goes on to, if any.
        rule: Option<Rule>,
    },
    /// `effects DESIGN [--rule 1mm] [--accuracy 0.5mm]`
    Effects {
        /// The design.
        design: OsString,
        /// The step; that of the design's bar when none is given.
        rule: Option<Rule>,
        /// How far off a forged length may be; half a step when not given.
        accuracy: Option<Length>,
    },
    /// `bar DESIGN --piece 1.42kg [--table]`
    Piece {
        /// The design.
        design: OsString,
        /// The piece that is cut already.
        piece: Mass,
        /// Whether as a table to be read.
        table: bool,
    },
    /// `bar DESIGN [--hot 1050C] [--from back] [--slot …] [--slit …] [--drift …] [--table]`
    Bar {
        /// The design.
        design: OsString,
        /// How the way from bar to head is to be told.
        asked: Asked,
        /// The log that its losses are learned from, if any.
        log: Option<OsString>,
        /// Whether as a table to be read.
        table: bool,
    },
    /// `drift DESIGN`, with the options of `bar`
    Drift {
        /// The design.
        design: OsString,
        /// What it is drifted with.
        drifts: Drifts,
        /// The heat at which it is drifted, °C.
        celsius: f64,
    },
    /// `cut ORDER` or `cut DESIGN …`
    Cut(CutAsked),
    /// `swing DESIGN …`
    Swing {
        /// The design.
        design: OsString,
        /// How it is swung, and by whom.
        asked: SwingAsked,
        /// Whether as a table to be read.
        table: bool,
    },
    /// `compare DESIGN …`
    Compare {
        /// The designs.
        designs: Vec<OsString>,
        /// What is the same for all of them.
        asked: SwingAsked,
        /// The size that one of them is to have from short to long.
        sweep: Option<SweepAsked>,
        /// Whether as a table to be read.
        table: bool,
    },
    /// `heat DESIGN …`
    Heat {
        /// The design.
        design: OsString,
        /// What is said in the place of its own heat treatment.
        asked: HeatAsked,
        /// Whether as a table to be read.
        table: bool,
    },
    /// `log LOG …`
    Log {
        /// The log.
        log: OsString,
        /// How it is to be answered.
        asked: LogAsked,
    },
    /// `forged DESIGN …` or `forged LOG --build BUILD …`
    Forged(ForgedAsked),
    /// `measured DESIGN …`
    Measured(MeasuredAsked),
    /// `price COSTS …`
    Price {
        /// The file of costs.
        costs: OsString,
        /// What is asked of them.
        asked: PriceAsked,
    },
    /// `card DESIGN --out FILE`
    Card {
        /// The design.
        design: OsString,
        /// How the way from bar to head is to be told.
        asked: Asked,
        /// What the card is to be.
        card: CardAsked,
        /// The file to be written.
        out: OsString,
        /// What its ending asks for.
        format: PrintFormat,
    },
    /// `draw DESIGN --out FILE`
    Draw {
        /// The design.
        design: OsString,
        /// The file to be written.
        out: OsString,
        /// What its ending asks for.
        format: PrintFormat,
    },
    /// `rack FILE …`
    Rack(RackAsked),
    /// `mesh DESIGN --out FILE`
    Mesh {
        /// The design.
        design: OsString,
        /// The file to be written.
        out: OsString,
        /// What its ending asks for.
        format: Format,
    },
    /// `starter`
    Starters,
    /// `starter NAME`
    Starter(String),
    /// `schema`
    Schema,
    /// `--help`
    Help,
    /// `--version`
    Version,
}
