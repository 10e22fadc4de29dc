//! What is compared.

use crate::design::length_in_words;
use crate::units::{
    Angle, MM_PER_INCH, System, inertia_unit_word, show_angle, show_inertia, show_kick, show_mass,
    show_number, show_turning_moment, show_twist,
};

/// A number by which hammers are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Figure {
    /// Reach of the end that strikes: of a face, its offset. mm.
    Reach,
    /// Reach of the other end, mm.
    OtherReach,
    /// Mass of the head, kg.
    HeadMass,
    /// Balance of the head: its centroid before the handle's axis, mm.
    Balance,
    /// Inertia of the tool about the handle, kg·mm².
    HandleInertia,
    /// Twist about the handle by a blow beside the middle, rad/s per N·s.
    Twist,
    /// The mass that meets the work in a blow on the middle, kg.
    Strikes,
    /// The same in a blow beside the middle, kg.
    StrikesBeside,
    /// How far the handle may tilt in the swing with the work still on the crown, radians.
    Tilt,
    /// Mass of the finished tool, kg.
    ToolMass,
    /// From the middle of the eye to the balance point of the tool, towards the butt, mm.
    BalancePoint,
    /// Inertia of the tool about the grip, kg·mm².
    GripInertia,
    /// What the grip gains in speed against the blow for every N·s of it, m/s per N·s.
    Sting,
    /// How the level tool wants to turn in the hand, N·mm.
    TurningMoment,
    /// Height of the hand over the anvil at the blow, mm.
    Hand,
    /// Angle at the elbow at the blow, radians; nothing where the hand does not get there.
    Elbow,
    /// Height of anvil that the hammer wants, mm.
    Anvil,
}

/// 1/64 in, mm.
const SIXTY_FOURTH_MM: f64 = MM_PER_INCH / 64.0;

impl Figure {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 17] = [
        Self::Reach,
        Self::OtherReach,
        Self::HeadMass,
        Self::Balance,
        Self::HandleInertia,
        Self::Twist,
        Self::Strikes,
        Self::StrikesBeside,
        Self::Tilt,
        Self::ToolMass,
        Self::BalancePoint,
        Self::GripInertia,
        Self::Sting,
        Self::TurningMoment,
        Self::Hand,
        Self::Elbow,
        Self::Anvil,
    ];

    /// Its name in JSON and at the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Reach => "reach",
            Self::OtherReach => "other_reach",
            Self::HeadMass => "head_mass",
            Self::Balance => "offset",
            Self::HandleInertia => "inertia_handle",
            Self::Twist => "twist",
            Self::Strikes => "mass_that_strikes",
            Self::StrikesBeside => "mass_that_strikes_beside",
            Self::Tilt => "tilt",
            Self::ToolMass => "tool_mass",
            Self::BalancePoint => "balance_point",
            Self::GripInertia => "grip_inertia",
            Self::Sting => "sting",
            Self::TurningMoment => "turning_moment",
            Self::Hand => "hand_over_anvil",
            Self::Elbow => "elbow",
            Self::Anvil => "anvil",
        }
    }

    /// Its name in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Reach => "reach of the end that strikes",
            Self::OtherReach => "reach of the other end",
            Self::HeadMass => "weight of the head",
            Self::Balance => "balance of the head",
            Self::HandleInertia => "inertia about the handle",
            Self::Twist => "twist by a blow beside the middle",
            Self::Strikes => "weight that strikes",
            Self::StrikesBeside => "weight that strikes beside the middle",
            Self::Tilt => "tilt that stays on the crown",
            Self::ToolMass => "weight of the tool",
            Self::BalancePoint => "balance point below the head’s middle",
            Self::GripInertia => "inertia about the grip",
            Self::Sting => "sting at the grip",
            Self::TurningMoment => "turning moment in the hand",
            Self::Hand => "hand over the anvil at the blow",
            Self::Elbow => "elbow at the blow",
            Self::Anvil => "anvil that the hammer wants",
        }
    }

    /// The unit of its number.
    pub const fn number_unit(self) -> &'static str {
        match self {
            Self::Reach | Self::OtherReach | Self::Balance | Self::BalancePoint => "mm",
            Self::Hand | Self::Anvil => "mm",
            Self::HeadMass | Self::ToolMass | Self::Strikes | Self::StrikesBeside => "kg",
            Self::HandleInertia | Self::GripInertia => "kg·mm²",
            Self::Twist => "rad/s per N·s",
            Self::Tilt | Self::Elbow => "rad",
            Self::Sting => "m/s per N·s",
            Self::TurningMoment => "N·mm",
        }
    }

    /// `number` of it as it is read, with its unit.
    pub fn show(self, number: f64, system: System) -> String {
        match self {
            Self::Reach | Self::OtherReach | Self::Balance | Self::BalancePoint => {
                length(number, system)
            }
            Self::Hand | Self::Anvil => length_in_words(to_tape(number, system), system),
            Self::HeadMass | Self::ToolMass | Self::Strikes | Self::StrikesBeside => {
                show_mass(number, system)
            }
            Self::HandleInertia | Self::GripInertia => format!(
                "{} {}",
                show_inertia(number, system),
                inertia_unit_word(system)
            ),
            Self::Twist => show_twist(number, system),
            Self::Tilt | Self::Elbow => degrees(number),
            Self::Sting => show_kick(number, system),
            Self::TurningMoment => show_turning_moment(number, system),
        }
        .replace('-', "−")
    }

    /// How far apart two numbers of it may lie and still be called the same; `about` is the larger of them.
    ///
    /// A scale's gram and a percent of what no scale weighs, half a millimetre, five on a tape, half a degree, two on
    /// an arm: our choice.
    pub fn alike(self, about: f64) -> f64 {
        match self {
            Self::HeadMass | Self::ToolMass => 1e-3,
            Self::Reach | Self::OtherReach | Self::Balance => 0.5,
            Self::BalancePoint => 1.0,
            Self::Hand | Self::Anvil => 5.0,
            Self::Tilt => 0.5_f64.to_radians(),
            Self::Elbow => 2.0_f64.to_radians(),
            Self::Sting => 0.02,
            Self::TurningMoment => 5.0,
            Self::HandleInertia
            | Self::GripInertia
            | Self::Twist
            | Self::Strikes
            | Self::StrikesBeside => 0.01 * about.abs(),
        }
    }

    /// How much `b` is more than `a`; nothing when they are called the same.
    pub fn change(self, a: f64, b: f64) -> Option<f64> {
        let most = a.abs().max(b.abs());
        let change = b - a;
        (change.abs() > self.alike(most)).then_some(change)
    }
}

/// A length to a tenth of a millimetre, or to a sixty-fourth of an inch.
fn length(mm: f64, system: System) -> String {
    let step = match system {
        System::Metric => 0.1,
        System::Imperial => SIXTY_FOURTH_MM,
    };
    length_in_words((mm / step).round() * step, system)
}

/// To a millimetre, or to an eighth of an inch.
fn to_tape(mm: f64, system: System) -> f64 {
    let step = match system {
        System::Metric => 1.0,
        System::Imperial => 8.0 * SIXTY_FOURTH_MM,
    };
    (mm / step).round() * step
}

fn degrees(radians: f64) -> String {
    let tenths = (radians.to_degrees() * 10.0).round() / 10.0;
    format!("{}°", show_angle(Angle::degrees(tenths)))
}

/// A share in whole percent.
pub(super) fn percent(share: f64) -> String {
    format!("{} %", show_number((100.0 * share).round()))
}
