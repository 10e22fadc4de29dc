//! What is asked of a swing: the blow, and the smith at the anvil. The workshop keeps both.

use serde::{Deserialize, Serialize};

use headwright::compare::{Conditions, USUAL_OFF_MM};
use headwright::design::Side;
use headwright::posture::{Smith, Stance, Table, USUAL_ELBOW_DEG, USUAL_WORK_MM};
use headwright::swing::{Drive, USUAL_ANGLE_DEG, USUAL_SPEED_M_PER_S, USUAL_TORQUE_NM};
use headwright::units::Length;

/// The energy that a swing begins with when energy is chosen, J (our choice: about 1 kg at 8 m/s).
const USUAL_ENERGY_J: f64 = 30.0;
/// The depth of a print in soft work to begin with, mm (our choice).
const USUAL_DEPTH_MM: f64 = 0.5;
/// A smith to begin with, mm: stature, shoulder and knuckles as [`Table::DrillisContini`] has them.
const USUAL_SMITH_MM: [f64; 3] = [1750.0, 1430.0, 760.0];

/// The core's sides, as they are kept.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Side", rename_all = "snake_case")]
enum SideText {
    Front,
    Back,
}

/// The core's tables, as they are kept.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Table", rename_all = "snake_case")]
enum TableText {
    DrillisContini,
    AnsurMen,
    AnsurWomen,
}

/// What is known of a swing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Known {
    /// The speed of the head.
    Speed,
    /// The energy.
    Energy,
    /// A torque through an angle.
    Torque,
}

impl Known {
    /// All of them, the usual first.
    pub const ALL: [Self; 3] = [Self::Speed, Self::Energy, Self::Torque];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Speed => "speed of the head",
            Self::Energy => "energy",
            Self::Torque => "torque through an angle",
        }
    }
}

/// A blow: which end strikes, how hard, how far from the middle, how deep.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Blow {
    /// The end that strikes.
    #[serde(with = "SideText")]
    pub side: Side,
    /// What is known of the swing; the other numbers wait.
    pub known: Known,
    /// m/s.
    pub speed: f64,
    /// J.
    pub energy: f64,
    /// N·m.
    pub torque: f64,
    /// Degrees.
    pub angle: f64,
    /// From the middle across the head.
    pub across: Length,
    /// From the middle along the handle.
    pub along: Length,
    /// How deep the work gives way.
    pub depth: Length,
}

impl Default for Blow {
    fn default() -> Self {
        Self {
            side: Side::Front,
            known: Known::Speed,
            speed: USUAL_SPEED_M_PER_S,
            energy: USUAL_ENERGY_J,
            torque: USUAL_TORQUE_NM,
            angle: USUAL_ANGLE_DEG,
            across: Length::mm(USUAL_OFF_MM),
            along: Length::mm(0.0),
            depth: Length::mm(USUAL_DEPTH_MM),
        }
    }
}

impl Blow {
    /// How hard.
    pub fn drive(&self) -> Drive {
        match self.known {
            Known::Speed => Drive::HeadSpeed {
                m_per_s: self.speed,
            },
            Known::Energy => Drive::Energy {
                joules: self.energy,
            },
            Known::Torque => Drive::TorqueThroughAngle {
                newton_metres: self.torque,
                degrees: self.angle,
            },
        }
    }

    /// How far from the middle, across the head and along the handle, mm.
    pub fn off(&self) -> [f64; 2] {
        [self.across, self.along].map(Length::in_mm)
    }
}

/// A smith at an anvil.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AtAnvil {
    /// Whether shoulder and knuckles are measured; else the stature says them.
    pub measured: bool,
    /// Stature.
    pub stature: Length,
    /// Measured height of the shoulder.
    pub shoulder: Length,
    /// Measured height of the knuckles.
    pub knuckle: Length,
    /// Whose proportions are taken.
    #[serde(with = "TableText")]
    pub table: Table,
    /// Height of the anvil's face; nothing for knuckle height.
    pub anvil: Option<Length>,
    /// Thickness of the work.
    pub work: Length,
    /// The angle at the elbow that is aimed at, degrees.
    pub elbow: f64,
}

impl Default for AtAnvil {
    fn default() -> Self {
        let [stature, shoulder, knuckle] = USUAL_SMITH_MM.map(Length::mm);
        Self {
            measured: false,
            stature,
            shoulder,
            knuckle,
            table: Table::DrillisContini,
            anvil: None,
            work: Length::mm(USUAL_WORK_MM),
            elbow: USUAL_ELBOW_DEG,
        }
    }
}

impl AtAnvil {
    /// The stance, with a hammer of usual lengths.
    pub fn stance(&self) -> Stance {
        let smith = if self.measured {
            Smith::Measured {
                knuckle_mm: self.knuckle.in_mm(),
                shoulder_mm: self.shoulder.in_mm(),
            }
        } else {
            Smith::Stature {
                mm: self.stature.in_mm(),
            }
        };
        Stance {
            table: self.table,
            anvil_mm: self.anvil.map(Length::in_mm),
            work_mm: self.work.in_mm(),
            elbow_deg: self.elbow,
            ..Stance::of(smith)
        }
    }
}

/// What is the same for all hammers that are compared.
pub fn conditions(blow: &Blow, at_anvil: &AtAnvil) -> Conditions {
    Conditions {
        side: blow.side,
        off_mm: blow.across.in_mm(),
        stance: at_anvil.stance(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::posture::posture;

    #[test]
    fn what_is_asked_to_begin_with_can_be_worked_out() {
        for measured in [false, true] {
            let at_anvil = AtAnvil {
                measured,
                ..AtAnvil::default()
            };
            let got = posture(&at_anvil.stance()).expect("a usual stance");
            assert!(got.arm.is_some(), "{got:?}");
        }
    }

    #[test]
    fn what_is_asked_is_kept_and_read_again() {
        let blow = Blow {
            side: Side::Back,
            known: Known::Torque,
            along: Length::inches(0.25),
            ..Blow::default()
        };
        let text = serde_json::to_string(&blow).expect("plain data");
        assert_eq!(serde_json::from_str::<Blow>(&text).ok(), Some(blow));
        let at_anvil = AtAnvil {
            table: Table::AnsurWomen,
            anvil: Some(Length::inches(30.5)),
            ..AtAnvil::default()
        };
        let text = serde_json::to_string(&at_anvil).expect("plain data");
        assert_eq!(serde_json::from_str::<AtAnvil>(&text).ok(), Some(at_anvil));
    }

    #[test]
    fn only_what_is_known_drives_the_swing() {
        let blow = Blow {
            known: Known::Energy,
            speed: 9.0,
            ..Blow::default()
        };
        assert_eq!(
            blow.drive(),
            Drive::Energy {
                joules: USUAL_ENERGY_J
            }
        );
    }
}
