//! What `swing` answers: the whole tool, its blow, and the smith who strikes it.

use std::fmt::{self, Write};

use serde::Serialize;

use super::{CliError, shown};
use crate::compare::usual_off_mm;
use crate::design::{Design, Side};
use crate::handle::{self, Made};
use crate::posture::{self, Posture, Smith, Stance};
use crate::solid::Solid;
use crate::swing::{self, Blow, Drive, Line, OffCentre, Patch, Swing, Tool};
use crate::units::{Length, System, UnitError, parse_length};

/// The depth of a print in soft work that is told when nobody asks for another, mm (our choice).
const USUAL_DEPTH_MM: f64 = 0.5;

/// What is asked of a swing, as far as it was said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SwingAsked {
    side: Option<Side>,
    speed: Option<f64>,
    energy: Option<f64>,
    torque: Option<f64>,
    angle: Option<f64>,
    off: Option<[f64; 2]>,
    depth: Option<f64>,
    stature: Option<f64>,
    knuckle: Option<f64>,
    shoulder: Option<f64>,
    anvil: Option<f64>,
    work: Option<f64>,
}

/// Why an option of `swing` or `compare` cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SwingOptionError {
    /// A length that is none.
    #[error("{option}: {error}")]
    Unit {
        /// The option.
        option: &'static str,
        /// What is wrong.
        error: UnitError,
    },
    /// A number that is none.
    #[error("“{text}” is no {what}. Write it like {example}.")]
    Number {
        /// What was given.
        text: String,
        /// What it should be.
        what: &'static str,
        /// How it is written.
        example: &'static str,
    },
    /// An end that is none.
    #[error("“{0}” is no end of the head. Strike with front or back.")]
    End(String),
    /// More than one way to say how hard.
    #[error("Say how hard in one way: --speed, --energy, or --torque with --angle.")]
    Drives,
    /// One of two heights that belong together.
    #[error("Say both --knuckle and --shoulder, or --stature alone.")]
    HalfMeasured,
    /// An option twice.
    #[error("{0} is given twice.")]
    Repeated(&'static str),
}

/// An option of `swing`, and what belongs after it.
pub(super) fn swing_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "side" => ("--side", "front or back"),
        "speed" => ("--speed", "the head's speed, such as 7m/s"),
        "energy" => ("--energy", "the energy of the swing, such as 40J"),
        "torque" => ("--torque", "a steady torque about the grip, such as 20Nm"),
        "angle" => (
            "--angle",
            "the angle that the torque turns through, such as 90deg",
        ),
        "off" => ("--off", "how far off the middle, such as 8mm or 8mm,5mm"),
        "depth" => (
            "--depth",
            "how deep the blow sinks into soft work, such as 0.5mm",
        ),
        "stature" => ("--stature", "the height of the smith, such as 1750mm"),
        "knuckle" => ("--knuckle", "the height of the knuckles, such as 760mm"),
        "shoulder" => ("--shoulder", "the height of the shoulder, such as 1430mm"),
        "anvil" => ("--anvil", "the height of the anvil, such as 760mm"),
        "work" => ("--work", "the thickness of the work, such as 20mm"),
        _ => return None,
    })
}

/// `text` without one of the units, as a number.
fn number(
    text: &str,
    units: &[&str],
    what: &'static str,
    example: &'static str,
) -> Result<f64, SwingOptionError> {
    let trimmed = text.trim();
    let bare = units.iter().find_map(|unit| trimmed.strip_suffix(unit));
    let read = bare.unwrap_or(trimmed).trim().parse().ok();
    read.filter(|number: &f64| number.is_finite())
        .ok_or_else(|| SwingOptionError::Number {
            text: shown(text.as_ref()),
            what,
            example,
        })
}

fn length(option: &'static str, text: &str) -> Result<f64, SwingOptionError> {
    parse_length(text, System::Metric)
        .map(Length::in_mm)
        .map_err(|error| SwingOptionError::Unit { option, error })
}

impl SwingAsked {
    /// Reads what follows `option`, one of [`swing_option`]'s.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub(super) fn take(
        &mut self,
        option: &'static str,
        text: &str,
    ) -> Result<(), SwingOptionError> {
        let repeated = match option {
            "--side" => {
                let named = Side::BOTH.into_iter().find(|side| text == side.word());
                let side = named.ok_or_else(|| SwingOptionError::End(shown(text.as_ref())))?;
                self.side.replace(side).is_some()
            }
            "--speed" => {
                let speed = number(text, &["m/s"], "speed", "7m/s")?;
                self.speed.replace(speed).is_some()
            }
            "--energy" => {
                let energy = number(text, &["J"], "energy", "40J")?;
                self.energy.replace(energy).is_some()
            }
            "--torque" => {
                let torque = number(text, &["N·m", "Nm"], "torque", "20Nm")?;
                self.torque.replace(torque).is_some()
            }
            "--angle" => {
                let angle = number(text, &["deg", "°"], "angle", "90deg")?;
                self.angle.replace(angle).is_some()
            }
            "--off" => {
                let (across, along) = text.split_once(',').unwrap_or((text, "0"));
                let off = [length(option, across)?, length(option, along)?];
                self.off.replace(off).is_some()
            }
            "--depth" => self.depth.replace(length(option, text)?).is_some(),
            "--stature" => self.stature.replace(length(option, text)?).is_some(),
            "--knuckle" => self.knuckle.replace(length(option, text)?).is_some(),
            "--shoulder" => self.shoulder.replace(length(option, text)?).is_some(),
            "--anvil" => self.anvil.replace(length(option, text)?).is_some(),
            _ => self.work.replace(length(option, text)?).is_some(),
        };
        if repeated {
            return Err(SwingOptionError::Repeated(option));
        }
        let energies = [self.speed, self.energy, self.torque.or(self.angle)];
        if energies.into_iter().flatten().count() > 1 {
            return Err(SwingOptionError::Drives);
        }
        Ok(())
    }

    /// Whether the smith is told in one whole way.
    ///
    /// # Errors
    /// That a height is missing, or told twice over.
    pub(super) fn check_smith(&self) -> Result<(), SwingOptionError> {
        let measured = [self.knuckle, self.shoulder].into_iter().flatten().count();
        if measured == 1 || (measured == 2 && self.stature.is_some()) {
            Err(SwingOptionError::HalfMeasured)
        } else {
            Ok(())
        }
    }

    /// The first option that was given, if any.
    pub(super) fn given(&self) -> Option<&'static str> {
        [
            (self.side.is_some(), "--side"),
            (self.speed.is_some(), "--speed"),
            (self.energy.is_some(), "--energy"),
            (self.torque.is_some(), "--torque"),
            (self.angle.is_some(), "--angle"),
            (self.off.is_some(), "--off"),
            (self.depth.is_some(), "--depth"),
            (self.stature.is_some(), "--stature"),
            (self.knuckle.is_some(), "--knuckle"),
            (self.shoulder.is_some(), "--shoulder"),
            (self.anvil.is_some(), "--anvil"),
            (self.work.is_some(), "--work"),
        ]
        .into_iter()
        .find_map(|(given, option)| given.then_some(option))
    }

    /// The first of the options that a comparison has no use for.
    pub(super) fn beyond_compare(&self) -> Option<&'static str> {
        let rest = Self {
            side: None,
            off: self.off.filter(|[_, along]| *along != 0.0),
            stature: None,
            knuckle: None,
            shoulder: None,
            anvil: None,
            work: None,
            ..self.clone()
        };
        rest.given()
    }

    /// The end that strikes.
    pub(super) fn side(&self) -> Side {
        self.side.unwrap_or(Side::Front)
    }

    /// Where a blow lands beside the middle, across and along.
    pub(super) fn off<'a>(&self, solids: impl IntoIterator<Item = &'a Solid>) -> [f64; 2] {
        self.off
            .unwrap_or_else(|| [usual_off_mm(solids, self.side()), 0.0])
    }

    /// Smith, anvil and work.
    pub(super) fn stance(&self) -> Stance {
        let usual = crate::compare::Conditions::default().stance;
        Stance {
            smith: match (self.knuckle, self.shoulder) {
                (Some(knuckle_mm), Some(shoulder_mm)) => Smith::Measured {
                    knuckle_mm,
                    shoulder_mm,
                },
                _ => self.stature.map_or(usual.smith, |mm| Smith::Stature { mm }),
            },
            anvil_mm: self.anvil.or(usual.anvil_mm),
            work_mm: self.work.unwrap_or(usual.work_mm),
            ..usual
        }
    }

    fn drive(&self) -> Drive {
        match (self.energy, self.torque.or(self.angle)) {
            (Some(joules), _) => Drive::Energy { joules },
            (None, Some(_)) => Drive::TorqueThroughAngle {
                newton_metres: self.torque.unwrap_or(swing::USUAL_TORQUE_NM),
                degrees: self.angle.unwrap_or(swing::USUAL_ANGLE_DEG),
            },
            (None, None) => Drive::HeadSpeed {
                m_per_s: self.speed.unwrap_or(swing::USUAL_SPEED_M_PER_S),
            },
        }
    }
}

/// The whole tool, its blow, and the smith.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SwingAnswer {
    /// The handle: its parts, levels in the eye, wedge, notes.
    pub handle: Made,
    /// The finished tool.
    pub tool: ToolAnswer,
    /// The end that strikes, "front" or "back".
    pub side: &'static str,
    /// Its blow on the middle.
    pub blow: BlowAnswer,
    /// A swing as hard as was asked.
    pub swing: SwingNumbers,
    /// A blow beside the middle.
    pub beside: BesideAnswer,
    /// Its print in soft work.
    pub patch: PatchAnswer,
    /// The smith at the blow.
    pub posture: PostureAnswer,
    /// What is to be said beside every number of the posture.
    pub estimate: &'static str,
    /// What goes with handles and blows.
    pub cautions: Vec<&'static str>,
    #[serde(skip)]
    lines: Vec<(&'static str, Vec<Line>)>,
    #[serde(skip)]
    sentences: Vec<String>,
}

/// The finished tool at rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToolAnswer {
    /// Mass.
    pub mass_kg: f64,
    /// Centroid in the axes of the head.
    pub centroid_mm: [f64; 3],
    /// From the butt to the balance point, along the handle.
    pub balance_from_butt_mm: f64,
    /// From the middle of the eye to it, towards the butt.
    pub balance_from_eye_mm: f64,
    /// About the grip.
    pub inertia_grip_kg_mm2: f64,
    /// About the head's x axis.
    pub inertia_head_axis_kg_mm2: f64,
    /// About the handle's axis.
    pub inertia_handle_axis_kg_mm2: f64,
    /// About the grip.
    pub radius_of_gyration_mm: f64,
    /// From the grip to the centre of percussion.
    pub centre_of_percussion_mm: f64,
    /// How the level tool wants to turn in the hand; positive: the front goes down.
    pub turning_moment_nmm: f64,
    /// How far the hung tool tips.
    pub hang_angle_deg: f64,
}

/// A blow on the middle.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BlowAnswer {
    /// From the grip to the line of the blow.
    pub line_mm: f64,
    /// How far that passes beyond the centre of percussion.
    pub beyond_percussion_mm: f64,
    /// What the grip gains in speed against the blow for every N·s of it.
    pub sting_m_per_s_per_ns: f64,
    /// The mass that meets the work.
    pub effective_mass_kg: f64,
    /// How far the handle may tilt in the swing with the work still on the crown.
    pub tilt_in_swing_deg: f64,
    /// The same about the handle.
    pub tilt_about_handle_deg: f64,
}

/// A swing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SwingNumbers {
    /// Speed of the head.
    pub speed_m_per_s: f64,
    /// Energy of the tool.
    pub energy_j: f64,
    /// Momentum of the tool along the blow.
    pub momentum_ns: f64,
    /// What the work takes when the head stops dead on it.
    pub impulse_ns: f64,
    /// The energy that goes with it.
    pub delivered_j: f64,
}

/// A blow beside the middle.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BesideAnswer {
    /// Where it lands, across and along.
    pub off_mm: [f64; 2],
    /// Twist about the handle.
    pub twist_rad_per_s_per_ns: f64,
    /// Turning in the swing beyond that of a blow on the middle.
    pub swing_twist_rad_per_s_per_ns: f64,
    /// The mass that meets the work.
    pub effective_mass_kg: f64,
    /// Shares of the blow's energy in the straight motion, in the swing and in the twist.
    pub shares: [f64; 3],
    /// The share of the energy of a blow on the middle that no longer reaches the work.
    pub lost_share: f64,
}

/// The print of a blow in soft work.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PatchAnswer {
    /// How deep it sinks in.
    pub depth_mm: f64,
    /// Its lengths, of a face across and along, of a pein along its edge and across it.
    pub lengths_mm: [f64; 2],
    /// Whether it reaches the edge, which then marks the work.
    pub to_edge: bool,
}

/// The smith at the blow.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PostureAnswer {
    /// Height of the anvil.
    pub anvil_mm: f64,
    /// Height of the hand.
    pub hand_mm: f64,
    /// Between upper arm and forearm; null where the hand does not get there.
    pub elbow_deg: Option<f64>,
    /// How far the hand is bent towards the little finger; negative: towards the thumb.
    pub wrist_deg: Option<f64>,
    /// The height of anvil that this hammer wants.
    pub wanted_anvil_mm: f64,
    /// What is to be said of it.
    pub notes: Vec<posture::Note>,
}

impl SwingAnswer {
    /// The tool of `design`, swung as `asked`.
    ///
    /// # Errors
    /// Why head, handle, tool or smith are not to be had.
    pub fn of(design: &Design, asked: &SwingAsked) -> Result<Self, CliError> {
        let system = design.bar.rule.system();
        let solid = design.build().map_err(CliError::Unsound)?;
        let handle = handle::make(&solid, &design.handle)
            .map_err(|errors| CliError::Handle(errors, system))?;
        let swing = |errors| CliError::Swing(errors, system);
        let tool = Tool::of(&solid, &handle).map_err(swing)?;
        let side = asked.side();
        let blow = *tool.end(side);
        let swung = tool.swing(side, asked.drive()).map_err(swing)?;
        let beside = tool.off_centre(side, asked.off([&solid])).map_err(swing)?;
        let depth_mm = asked.depth.unwrap_or(USUAL_DEPTH_MM);
        let patch = blow.striker.patch(depth_mm).map_err(swing)?;
        let posture = stand(&solid, &blow, asked).map_err(|e| CliError::Posture(e, system))?;
        let notes = handle.notes.iter().map(|note| note.sentence(system));
        let all_notes = notes.chain(posture.notes.iter().map(|note| note.sentence(system)));
        let cautions = handle::CAUTIONS
            .into_iter()
            .chain(swing::CAUTIONS)
            .collect();
        Ok(Self {
            lines: vec![
                ("The tool", tool.lines(system)),
                ("The blow", blow.lines(system)),
                ("The swing", swung.lines(system)),
                ("The smith", posture.lines(system)),
            ],
            sentences: [beside.meaning(system), patch.meaning(system)]
                .into_iter()
                .chain(all_notes)
                .collect(),
            tool: ToolAnswer::of(&tool),
            side: side.word(),
            blow: BlowAnswer::of(&blow),
            swing: SwingNumbers::of(&swung),
            beside: BesideAnswer::of(&beside),
            patch: PatchAnswer::of(depth_mm, &patch),
            posture: PostureAnswer::of(posture),
            estimate: posture::ESTIMATE,
            cautions,
            handle,
        })
    }
}

fn stand(
    solid: &Solid,
    blow: &Blow,
    asked: &SwingAsked,
) -> Result<Posture, Vec<posture::PostureError>> {
    posture::posture(&Stance {
        face_offset_mm: solid.head().end(blow.striker.side).tip.reach(),
        grip_to_face_mm: blow.line_mm,
        ..asked.stance()
    })
}

impl ToolAnswer {
    fn of(tool: &Tool) -> Self {
        Self {
            mass_kg: tool.mass_kg(),
            centroid_mm: tool.free.body().centroid_mm,
            balance_from_butt_mm: tool.balance_from_butt_mm,
            balance_from_eye_mm: tool.balance_from_eye_mm,
            inertia_grip_kg_mm2: tool.inertia_grip_kg_mm2,
            inertia_head_axis_kg_mm2: tool.inertia_head_axis_kg_mm2,
            inertia_handle_axis_kg_mm2: tool.inertia_handle_axis_kg_mm2,
            radius_of_gyration_mm: tool.gyration_mm,
            centre_of_percussion_mm: tool.percussion_mm,
            turning_moment_nmm: tool.turning_moment_nmm,
            hang_angle_deg: tool.hang_angle.to_degrees(),
        }
    }
}

impl BlowAnswer {
    fn of(blow: &Blow) -> Self {
        Self {
            line_mm: blow.line_mm,
            beyond_percussion_mm: blow.beyond_percussion_mm,
            sting_m_per_s_per_ns: blow.sting_per_ns,
            effective_mass_kg: blow.effective_mass_kg,
            tilt_in_swing_deg: blow.tilt.in_swing.to_degrees(),
            tilt_about_handle_deg: blow.tilt.about_handle.to_degrees(),
        }
    }
}

impl SwingNumbers {
    fn of(swing: &Swing) -> Self {
        Self {
            speed_m_per_s: swing.speed_m_per_s,
            energy_j: swing.energy_j,
            momentum_ns: swing.momentum_ns,
            impulse_ns: swing.impulse_ns,
            delivered_j: swing.delivered_j,
        }
    }
}

impl BesideAnswer {
    fn of(blow: &OffCentre) -> Self {
        let shares = blow.shares;
        Self {
            off_mm: [blow.across_mm, blow.along_mm],
            twist_rad_per_s_per_ns: blow.handle_twist_per_ns,
            swing_twist_rad_per_s_per_ns: blow.swing_twist_per_ns,
            effective_mass_kg: blow.effective_mass_kg,
            shares: [shares.straight, shares.swing, shares.twist],
            lost_share: blow.lost_share,
        }
    }
}

impl PatchAnswer {
    fn of(depth_mm: f64, patch: &Patch) -> Self {
        Self {
            depth_mm,
            lengths_mm: patch.lengths_mm,
            to_edge: patch.to_edge,
        }
    }
}

impl PostureAnswer {
    fn of(posture: Posture) -> Self {
        Self {
            anvil_mm: posture.anvil_mm,
            hand_mm: posture.hand_mm,
            elbow_deg: posture.arm.map(|arm| arm.elbow.to_degrees()),
            wrist_deg: posture.arm.map(|arm| arm.wrist.to_degrees()),
            wanted_anvil_mm: posture.wanted_anvil_mm,
            notes: posture.notes,
        }
    }
}

/// As a table to be read.
impl fmt::Display for SwingAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = self.lines.iter().flat_map(|(_, lines)| lines);
        let width = |part: fn(&Line) -> &str| {
            let widths = all.clone().map(|line| part(line).chars().count());
            widths.max().unwrap_or(0)
        };
        let names = width(|line| line.name);
        let values = width(|line| &line.value);
        for (heading, lines) in &self.lines {
            writeln!(f, "{heading}")?;
            for line in lines {
                let mut row = String::new();
                write!(
                    row,
                    "  {:<names$}  {:>values$}  {}",
                    line.name, line.value, line.meaning
                )?;
                writeln!(f, "{}", row.trim_end())?;
            }
            writeln!(f)?;
        }
        for sentence in &self.sentences {
            writeln!(f, "{sentence}")?;
        }
        writeln!(f, "\n{}\n", self.estimate)?;
        self.cautions
            .iter()
            .try_for_each(|text| writeln!(f, "– {text}"))
    }
}
