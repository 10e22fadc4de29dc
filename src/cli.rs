//! The command line without its files: what was asked, and what is answered.
//!
//! The binary reads and writes; everything it says is made here, so that it can be tried without
//! it. Every answer is one JSON object whose keys end in their unit.

use std::ffi::{OsStr, OsString};

use crate::mesh::Format;
use crate::plan::USUAL_HOT_CELSIUS;
use crate::units::{Length, Mass, Rule};

mod bar;
mod card;
mod compare;
mod cut;
mod drifts;
mod effects;
mod error;
mod heat;
mod hold;
mod plan;
mod range;
mod report;
mod rule;
mod swing;
mod table;
mod values;

pub use bar::{BarAnswer, CauseAreas, PieceAnswer};
pub use card::{CardAsked, CardOptionError, PrintAnswer, PrintFormat};
pub use compare::{CompareAnswer, HammerAnswer, SweepAsked};
pub use cut::{CutAnswer, CutAsked, CutOptionError, SectionList};
pub use drifts::{DriftOptionError, Drifts};
pub use effects::{EffectsAnswer, SizeEffect};
pub use error::CliError;
pub use heat::{
    CriticalAnswer, EndQuenchAnswer, HardenabilityAnswer, HeatAnswer, HeatAsked, HeatOptionError,
    PracticeAnswer, QuenchAnswer, SteelAnswer,
};
pub use hold::{Held, HoldError};
pub use plan::{Asked, HotAnswer, HotSizeAnswer, MarkAnswer, MarksAnswer, PlanAnswer, UpsetAnswer};
pub use range::{Freedom, FreedomError};
pub use report::{FitAnswer, FitResidual, LimitChange, MeshAnswer, SizeChange, Weighed};
pub use rule::{LeftOver, RuleAnswer};
pub use swing::{
    BesideAnswer, BlowAnswer, PatchAnswer, PostureAnswer, SwingAnswer, SwingAsked, SwingNumbers,
    SwingOptionError, ToolAnswer,
};
use values::{cut_option, design, file, format, not_negative, unexpected, value};

/// What `--help` prints.
pub const HELP: &str = "\
Designs forged hammer heads and carries a design to the bar.

  headwright weigh DESIGN                     mass, centroid, inertia, balance, least cheek wall
  headwright fit DESIGN --hold HOLD ...       the nearest design that meets the holds
  headwright effects DESIGN                   what one step of every size does
  headwright bar DESIGN                       what to cut, where it goes, marks, upset, hot sizes
  headwright bar DESIGN --piece 1.42kg        the head that a piece already cut gives, and its sizes
  headwright drift DESIGN                     the last drift's profile, as SVG at 1:1
  headwright cut ORDER                        which piece is cut from which bar, in the fewest bars
  headwright cut DESIGN ... --stock LENGTH    the same for the billets of designs
  headwright swing DESIGN                     the whole tool, its handle and its blow, the smith at the anvil
  headwright compare DESIGN DESIGN ...        up to four hammers side by side, and what that means
  headwright compare DESIGN --sweep RANGE     one with a size from short to long, weight and balance kept
  headwright heat DESIGN                      how it is normalized, hardened and tempered in its steel
  headwright card DESIGN --out FILE           the shop sheet with templates at 1:1, as FILE ends: .pdf, .svg
  headwright draw DESIGN --out FILE           the drawing with every size at 1:1, as FILE ends: .pdf, .svg
  headwright mesh DESIGN --out FILE           the head as triangles, as FILE ends: .stl, .3mf, .glb
  headwright starter                          names of the designs to begin with
  headwright starter NAME                     one of them, as a design file
  headwright schema                           JSON schema of the design file
  headwright --help | --version

DESIGN is a design file, or - for standard input.
HOLD is on mass, offset (the balance), inertia (about the handle), reach_ratio (front to back), length
(over all), least_wall, or of the finished tool on tool_mass, balance_point (below the head's middle) or
grip_inertia (about the grip): a value mass=1.1kg, with a tolerance mass=1.1kg±10g (or +-10g), a range
mass=1.0kg..1.2kg, at least least_wall=8mm.. or at most length=..110mm; masses in g, kg, oz, lb or lb
and oz, lengths in mm, cm or in, inertia in kg·mm2 or lb·in2. Without --hold the design's own holds are
kept. With --free front.reach=50mm..70mm a size may move between two limits (without limits, between
the usual ones), with --lock front.reach it may not; what is free in the design stays so otherwise.
With --rule 1mm (or 1/16in) the sizes that may move are also put on the divisions of a rule, so that
least is left over of the holds.
effects takes --rule 1mm (or 1/16in), the step, and --accuracy 0.5mm, how far a forged length may lie
off either way; angles count by the degree. Without them the design's own rule and half of it.
bar takes --hot 1050C (or 1920F), the heat for hot sizes and for drifting, as drift does, and --from back, to measure the marks from the
end of the billet that becomes the back; with --table it prints all of it to be read, in the units of the
design's rule, with --piece too.
bar and drift take the opening before drifting, --slot 25mmx6mm (with round ends; --slot 12mm is round,
--slot rectangle:25mmx6mm has square corners) or --slit 32mm (or 32mmx3mm), length by width, in mm without
a unit; and for every drift that there is --drift 20x14 (at its greatest), --drift 20x14@1:12 with its taper.
cut takes for designs --count 6 after each, --stock 3m (or several), --kerf 2mm (when not given), --end 20mm behind the
last piece of every bar, the last cut taken from it, --price 2.4 per kg; an order file says all that itself. --table prints it for reading.
swing and compare take --side back, the end that strikes, --off 8mm (or 8mm,5mm), how far beside its middle, across
and along the handle, and the smith: --stature 1750mm (or --knuckle 760mm --shoulder 1430mm), --anvil 760mm
(knuckle height without it), --work 20mm. swing
takes how hard as --speed 7m/s, --energy 40J, or --torque 20Nm --angle 90deg, and --depth 0.5mm for the print in soft
work; compare takes --sweep front.reach=50mm..72mm. Both take --table. What is said of smith and arm are estimates.
heat takes, in the place of what the design says, --steel 4140 and --analysis C=0.45,Mn=0.75,Si=0.25, --quench oil
(air, water, brine), --agitation good (none, mild, moderate, strong, violent), --bath 45C, --temper 205C or --hardness 52
(HRC), --soak 2h, --times 2, and --table in the units of the design's rule. All its numbers are estimates.
card takes --paper a4 (or letter), --link-base https://example.org/, the address of the page that opens the design's
link in its QR code, --date '4 March', and --hot, --from, --slot, --slit and --drift as bar does; as SVG each page is
a file, FILE-1.svg and so on. Print at 100 %.
FILE.stl is binary STL in mm, FILE.3mf is 3MF with name and mass, FILE.glb is binary glTF, in m and
with the handle axis up as that format wants it.
The answer is one JSON object, but for drift and with --table. Exit status 0 with any answer, 2 and one sentence for wrong input.
";

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

/// The largest design file that is read, in bytes: far more than the longest notes and sources take.
pub const LARGEST_DESIGN: u64 = 1_000_000;

/// The longest piece of an argument that a sentence repeats, in characters.
const SHOWN_CHARACTERS: usize = 60;

/// An argument fit to stand inside a sentence: one line, not too long.
pub fn shown(argument: &OsStr) -> String {
    let text = argument.to_string_lossy();
    let one_line = |c: char| if c.is_control() { ' ' } else { c };
    let mut characters = text.chars().map(one_line);
    let mut short: String = characters.by_ref().take(SHOWN_CHARACTERS).collect();
    if characters.next().is_some() {
        short.pop();
        short.push('…');
    }
    short
}

/// Reads the arguments after the program's name.
///
/// # Errors
/// A sentence for what is missing, unknown or too much.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, CliError> {
    use lexopt::Arg::{Long, Short, Value};

    let mut parser = lexopt::Parser::from_args(arguments);
    let (mut values, mut holds, mut freedom, mut out) = (vec![], vec![], vec![], None);
    let (mut rule, mut accuracy, mut piece) = (None, None, None);
    let (mut hot, mut from, mut table) = (None, None, false);
    let (mut drifts, mut cut) = (Drifts::default(), CutAsked::default());
    let (mut swing, mut sweep) = (SwingAsked::default(), None);
    let mut heat = HeatAsked::default();
    let mut card = CardAsked::default();
    let mut unknown = None;
    while let Some(argument) = parser.next().map_err(unexpected)? {
        match argument {
            Short('h') | Long("help") => return Ok(Command::Help),
            Short('V') | Long("version") => return Ok(Command::Version),
            Long("hold") => {
                let hold = value(&mut parser, "--hold", "what to keep, such as mass=1.1kg")?;
                holds.push(Held::read(&hold.to_string_lossy())?);
            }
            Long("free") => {
                let wanted = "a size and its limits, such as front.reach=50mm..70mm";
                let text = value(&mut parser, "--free", wanted)?;
                freedom.push(Freedom::free(&text.to_string_lossy())?);
            }
            Long("lock") => {
                let text = value(&mut parser, "--lock", "a size, such as front.reach")?;
                freedom.push(Freedom::locked(&text.to_string_lossy())?);
            }
            Long("out") => {
                let wanted = "the file it goes to, such as head.stl or card.pdf";
                let file = value(&mut parser, "--out", wanted)?;
                if out.replace(file).is_some() {
                    return Err(CliError::RepeatedOut);
                }
            }
            Long("rule") => {
                let wanted = "the smallest division, such as 1mm or 1/16in";
                let text = value(&mut parser, "--rule", wanted)?;
                let read = text.to_string_lossy().parse().map_err(CliError::Rule)?;
                if rule.replace(read).is_some() {
                    return Err(CliError::Repeated("--rule"));
                }
            }
            Long("accuracy") => {
                let wanted = "how far off a length may be, such as 0.5mm";
                let text = value(&mut parser, "--accuracy", wanted)?;
                let read = text.to_string_lossy().parse().map_err(CliError::Accuracy)?;
                if accuracy.replace(not_negative(read)?).is_some() {
                    return Err(CliError::Repeated("--accuracy"));
                }
            }
            Long("piece") => {
                let wanted = "the mass of the piece, such as 1.42kg";
                let text = value(&mut parser, "--piece", wanted)?;
                let read = text
                    .to_string_lossy()
                    .parse()
                    .map_err(CliError::PieceMass)?;
                if piece.replace(read).is_some() {
                    return Err(CliError::Repeated("--piece"));
                }
            }
            Long("hot") => {
                let text = value(&mut parser, "--hot", "the heat, such as 1050C")?;
                let read = plan::heat(&text.to_string_lossy())?;
                if hot.replace(read).is_some() {
                    return Err(CliError::Repeated("--hot"));
                }
            }
            Long("from") => {
                let text = value(&mut parser, "--from", "front or back")?;
                if from.replace(plan::end(&text)?).is_some() {
                    return Err(CliError::Repeated("--from"));
                }
            }
            Long("table") => table = true,
            Long("slot") => {
                let wanted = "its length and width, such as 25mmx6mm";
                drifts.slot(&value(&mut parser, "--slot", wanted)?.to_string_lossy())?;
            }
            Long("slit") => {
                let wanted = "its length, such as 32mm";
                drifts.slit(&value(&mut parser, "--slit", wanted)?.to_string_lossy())?;
            }
            Long("drift") => {
                let wanted = "its greatest length and width, such as 20mmx14mm";
                drifts.drift(&value(&mut parser, "--drift", wanted)?.to_string_lossy())?;
            }
            Long(option) if cut_option(option).is_some() => {
                let (option, wanted) = cut_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                cut.take(option, &text.to_string_lossy())?;
            }
            Long("sweep") => {
                let wanted = "a size from short to long, such as front.reach=50mm..72mm";
                let text = value(&mut parser, "--sweep", wanted)?;
                let read = SweepAsked::read(&text.to_string_lossy())?;
                if sweep.replace(read).is_some() {
                    return Err(CliError::Repeated("--sweep"));
                }
            }
            Long(option) if swing::swing_option(option).is_some() => {
                let (option, wanted) = swing::swing_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                swing.take(option, &text.to_string_lossy())?;
            }
            Long(option) if heat::heat_option(option).is_some() => {
                let (option, wanted) = heat::heat_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                heat.take(option, &text.to_string_lossy())?;
            }
            Long(option) if card::card_option(option).is_some() => {
                let (option, wanted) = card::card_option(option).unwrap_or_default();
                let text = value(&mut parser, option, wanted)?;
                card.take(option, &text.to_string_lossy())?;
            }
            Value(value) => values.push(value),
            Short(letter) => {
                unknown.get_or_insert(format!("-{letter}"));
            }
            Long(option) => {
                unknown.get_or_insert(format!("--{}", shown(OsStr::new(option))));
                // Its value, if it has one, belongs to the same fault.
                parser.optional_value();
            }
        }
    }
    let mut values = values.into_iter();
    let name = values.next().unwrap_or_default();
    let foreign = |has: bool, option: &str| has.then(|| option.to_owned());
    let on_the_way = name == "bar" || name == "card";
    let unknown = unknown
        .or_else(|| foreign(!holds.is_empty() && name != "fit", "--hold"))
        .or_else(|| {
            foreign(
                !freedom.is_empty() && name != "fit",
                match freedom.first() {
                    Some(Freedom::Locked(_)) => "--lock",
                    _ => "--free",
                },
            )
        })
        .or_else(|| {
            let files = ["mesh", "card", "draw"];
            foreign(out.is_some() && files.iter().all(|it| name != *it), "--out")
        })
        .or_else(|| {
            foreign(
                rule.is_some() && name != "fit" && name != "effects",
                "--rule",
            )
        })
        .or_else(|| foreign(accuracy.is_some() && name != "effects", "--accuracy"))
        .or_else(|| foreign(piece.is_some() && name != "bar", "--piece"))
        .or_else(|| foreign(hot.is_some() && !on_the_way && name != "drift", "--hot"))
        .or_else(|| foreign(from.is_some() && !on_the_way, "--from"))
        .or_else(|| {
            let tables = ["bar", "cut", "swing", "compare", "heat"];
            foreign(table && tables.iter().all(|told| name != *told), "--table")
        })
        .or_else(|| {
            let swung = name == "swing" || name == "compare";
            swing.given().filter(|_| !swung).map(ToOwned::to_owned)
        })
        .or_else(|| {
            let beyond = swing.beyond_compare();
            beyond.filter(|_| name == "compare").map(ToOwned::to_owned)
        })
        .or_else(|| foreign(sweep.is_some() && name != "compare", "--sweep"))
        .or_else(|| {
            let given = heat.given().filter(|_| name != "heat");
            given.map(ToOwned::to_owned)
        })
        .or_else(|| drifts.given().filter(|_| !on_the_way && name != "drift"))
        .or_else(|| {
            let given = card.given().filter(|_| name != "card");
            given.map(ToOwned::to_owned)
        })
        .or_else(|| {
            cut.design_option()
                .filter(|_| name != "cut")
                .map(ToOwned::to_owned)
        });
    let no_option = |command: &str| match &unknown {
        None => Ok(()),
        Some(option) => Err(CliError::UnknownOption {
            command: command.to_owned(),
            option: option.clone(),
        }),
    };
    if name.is_empty() {
        no_option("headwright")?;
        return Err(CliError::NoCommand);
    }
    const COMMANDS: [&str; 14] = [
        "weigh", "fit", "effects", "bar", "drift", "cut", "swing", "compare", "heat", "card",
        "draw", "mesh", "starter", "schema",
    ];
    let Some(name) = COMMANDS.into_iter().find(|command| name == *command) else {
        return Err(CliError::UnknownCommand(shown(&name)));
    };
    no_option(name)?;
    swing.check_smith()?;
    let command = match name {
        "weigh" => Command::Weigh(design(name, values.next())?),
        "fit" => Command::Fit {
            design: design(name, values.next())?,
            holds,
            freedom,
            rule,
        },
        "effects" => Command::Effects {
            design: design(name, values.next())?,
            rule,
            accuracy,
        },
        "bar" => {
            let design = design(name, values.next())?;
            // What a piece gives has neither marks nor drifts.
            let beside = foreign(hot.is_some(), "--hot")
                .or_else(|| foreign(from.is_some(), "--from"))
                .or_else(|| drifts.given());
            match (piece, beside) {
                (Some(_), Some(option)) => {
                    return Err(CliError::UnknownOption {
                        command: "bar --piece".to_owned(),
                        option,
                    });
                }
                (Some(piece), None) => Command::Piece {
                    design,
                    piece,
                    table,
                },
                (None, _) => Command::Bar {
                    design,
                    asked: Asked::of(from, hot, drifts),
                    table,
                },
            }
        }
        "drift" => Command::Drift {
            design: design(name, values.next())?,
            drifts,
            celsius: hot.unwrap_or(USUAL_HOT_CELSIUS),
        },
        "cut" => {
            cut.files = vec![design(name, values.next())?];
            cut.files.extend(values.by_ref());
            cut.table = table;
            Command::Cut(cut)
        }
        "swing" => Command::Swing {
            design: design(name, values.next())?,
            asked: swing,
            table,
        },
        "compare" => {
            let mut designs = vec![design(name, values.next())?];
            if sweep.is_none() {
                designs.extend(values.by_ref());
            }
            Command::Compare {
                designs,
                asked: swing,
                sweep,
                table,
            }
        }
        "heat" => Command::Heat {
            design: design(name, values.next())?,
            asked: heat,
            table,
        },
        "card" => {
            let design = design("card", values.next())?;
            let out = file("card", out)?;
            Command::Card {
                design,
                asked: Asked::of(from, hot, drifts),
                card,
                format: PrintFormat::of("card", &out)?,
                out,
            }
        }
        "draw" => {
            let design = design("draw", values.next())?;
            let out = file("draw", out)?;
            Command::Draw {
                design,
                format: PrintFormat::of("draw", &out)?,
                out,
            }
        }
        "mesh" => {
            let design = design(name, values.next())?;
            let out = out.filter(|out| !out.is_empty()).ok_or(CliError::NoOut)?;
            let format = format(&out)?;
            Command::Mesh {
                design,
                out,
                format,
            }
        }
        "starter" => match values.next() {
            None => Command::Starters,
            Some(name) => Command::Starter(name.to_string_lossy().into_owned()),
        },
        _ => Command::Schema,
    };
    match values.next() {
        None => Ok(command),
        Some(argument) => Err(CliError::TooMuch {
            command: name,
            argument: shown(&argument),
            takes: takes(&command),
        }),
    }
}

fn takes(command: &Command) -> &'static str {
    match command {
        Command::Weigh(_) | Command::Effects { .. } | Command::Piece { .. } => "one design",
        Command::Bar { .. } | Command::Drift { .. } => {
            "one design, one opening after --slot or --slit, every drift after --drift, and the heat after --hot"
        }
        Command::Fit { .. } => {
            "one design, every hold after --hold, and every size after --free or --lock"
        }
        Command::Cut(_) => "one order, or designs",
        Command::Swing { .. } | Command::Heat { .. } => "one design",
        Command::Compare { .. } => "designs, or one design and a size after --sweep",
        Command::Mesh { .. } | Command::Card { .. } | Command::Draw { .. } => {
            "one design, and one file after --out"
        }
        Command::Starters | Command::Starter(_) => "one name",
        Command::Schema | Command::Help | Command::Version => "nothing more",
    }
}
