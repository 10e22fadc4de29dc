//! What a fit keeps: holds on the quantities of a head.

use schemars::JsonSchema;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use crate::units::{
    Amount, Inertia, InertiaNotation, Length, LengthNotation, Mass, MassNotation, System,
};

/// A quantity of the head, or of the tool that it makes with its handle, that can be held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Quantity {
    /// Finished mass.
    Mass,
    /// Balance: centroid in front of the handle axis.
    Balance,
    /// Moment of inertia about the z axis.
    Inertia,
    /// Reach of the front over reach of the back.
    ReachRatio,
    /// Length over all: both reaches together.
    Length,
    /// The least cheek wall.
    LeastWall,
    /// Mass of the finished tool, head and handle.
    ToolMass,
    /// From the middle of the eye to the balance point of the finished tool, along the handle.
    ToolBalance,
    /// Moment of inertia of the finished tool about the line across the head through the grip.
    GripInertia,
}

impl Quantity {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 9] = [
        Self::Mass,
        Self::Balance,
        Self::Inertia,
        Self::ReachRatio,
        Self::Length,
        Self::LeastWall,
        Self::ToolMass,
        Self::ToolBalance,
        Self::GripInertia,
    ];

    /// Its name in JSON and at the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Balance => "offset",
            Self::Inertia => "inertia",
            Self::ReachRatio => "reach_ratio",
            Self::Length => "length",
            Self::LeastWall => "least_wall",
            Self::ToolMass => "tool_mass",
            Self::ToolBalance => "balance_point",
            Self::GripInertia => "grip_inertia",
        }
    }

    /// Its name in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Mass => "weight",
            Self::Balance => "balance",
            Self::Inertia => "inertia about the handle",
            Self::ReachRatio => "ratio of the reaches, front to back",
            Self::Length => "length over all",
            Self::LeastWall => "least cheek wall",
            Self::ToolMass => "weight of the finished tool",
            Self::ToolBalance => "balance point of the finished tool below the head’s middle",
            Self::GripInertia => "inertia about the grip",
        }
    }

    /// How far off a value may be when nobody has said: 0.1 g; 0.01 mm; 1 kg·mm², less than a
    /// thousandth of a common hammer's, and 50 kg·mm² about the grip, as little of that; 0.001.
    pub const fn default_tolerance(self) -> f64 {
        match self {
            Self::Mass | Self::ToolMass => 1e-4,
            Self::Balance | Self::Length | Self::LeastWall | Self::ToolBalance => 0.01,
            Self::Inertia => 1.0,
            Self::GripInertia => 50.0,
            Self::ReachRatio => 1e-3,
        }
    }

    /// Whether it may be nothing or less.
    pub const fn can_be_negative(self) -> bool {
        matches!(self, Self::Balance | Self::ToolBalance)
    }

    /// Whether it is one of the finished tool, to which the handle belongs.
    pub const fn is_of_tool(self) -> bool {
        matches!(self, Self::ToolMass | Self::ToolBalance | Self::GripInertia)
    }

    /// An amount of it: `number` kg, mm, kg·mm² or the ratio, in the notation of `system`.
    pub const fn amount(self, number: f64, system: System) -> Amount {
        match self {
            Self::Mass | Self::ToolMass => Amount::Mass(match system {
                System::Metric => Mass::kg(number),
                System::Imperial => Mass::new(number, MassNotation::PoundOunce),
            }),
            Self::Balance | Self::Length | Self::LeastWall | Self::ToolBalance => {
                let notation = match system {
                    System::Metric => LengthNotation::Millimetre,
                    System::Imperial => LengthNotation::InchFraction,
                };
                Amount::Length(Length::new(number, notation))
            }
            Self::Inertia | Self::GripInertia => {
                Amount::Inertia(Inertia::new(number, InertiaNotation::of(system)))
            }
            Self::ReachRatio => Amount::Ratio(number),
        }
    }
}

/// One target.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged, deny_unknown_fields)]
pub enum Hold<Q> {
    /// A value, and how far off it may be; without a tolerance, as far as
    /// [`Quantity::default_tolerance`] says.
    About {
        /// The value.
        value: Q,
        /// How far off it may be, either way.
        #[serde(skip_serializing_if = "Option::is_none")]
        tolerance: Option<Q>,
    },
    /// Anything between two values.
    Between {
        /// The least.
        low: Q,
        /// The most.
        high: Q,
    },
    /// A value or anything above it.
    AtLeast {
        /// The least.
        #[serde(rename = "at_least")]
        least: Q,
    },
    /// A value or anything below it.
    AtMost {
        /// The most.
        #[serde(rename = "at_most")]
        most: Q,
    },
}

/// The keys of a hold in a file. Read so, a fault is named where it is, and the download is
/// smaller than with a reader that tries one form after the other.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HoldKeys<Q> {
    value: Option<Q>,
    tolerance: Option<Q>,
    low: Option<Q>,
    high: Option<Q>,
    at_least: Option<Q>,
    at_most: Option<Q>,
}

impl<'de, Q: Deserialize<'de>> Deserialize<'de> for Hold<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match HoldKeys::deserialize(deserializer)? {
            HoldKeys {
                value: Some(value),
                tolerance,
                low: None,
                high: None,
                at_least: None,
                at_most: None,
            } => Ok(Self::About { value, tolerance }),
            HoldKeys {
                value: None,
                tolerance: None,
                low: Some(low),
                high: Some(high),
                at_least: None,
                at_most: None,
            } => Ok(Self::Between { low, high }),
            HoldKeys {
                value: None,
                tolerance: None,
                low: None,
                high: None,
                at_least: Some(least),
                at_most: None,
            } => Ok(Self::AtLeast { least }),
            HoldKeys {
                value: None,
                tolerance: None,
                low: None,
                high: None,
                at_least: None,
                at_most: Some(most),
            } => Ok(Self::AtMost { most }),
            _ => Err(D::Error::custom(
                "a hold is a value with or without its tolerance, low and high, at_least or at_most",
            )),
        }
    }
}

impl<Q: Copy> Hold<Q> {
    /// The hold with every amount as `f` gives it; nothing when it gives none for one of them.
    pub fn try_map<R>(self, f: impl Fn(Q) -> Option<R>) -> Option<Hold<R>> {
        Some(match self {
            Self::About { value, tolerance } => Hold::About {
                value: f(value)?,
                tolerance: match tolerance {
                    Some(tolerance) => Some(f(tolerance)?),
                    None => None,
                },
            },
            Self::Between { low, high } => Hold::Between {
                low: f(low)?,
                high: f(high)?,
            },
            Self::AtLeast { least } => Hold::AtLeast { least: f(least)? },
            Self::AtMost { most } => Hold::AtMost { most: f(most)? },
        })
    }

    /// The hold with every amount as `f` gives it.
    #[must_use]
    pub fn map<R: Copy>(self, f: impl Fn(Q) -> R) -> Hold<R> {
        match self {
            Self::About { value, tolerance } => Hold::About {
                value: f(value),
                tolerance: tolerance.map(f),
            },
            Self::Between { low, high } => Hold::Between {
                low: f(low),
                high: f(high),
            },
            Self::AtLeast { least } => Hold::AtLeast { least: f(least) },
            Self::AtMost { most } => Hold::AtMost { most: f(most) },
        }
    }
}

impl Hold<Amount> {
    /// The hold as it stands after "held": "at 0 ± 1", "from 1.1 kg to 1.2 kg", "at least 8".
    pub fn words(self, system: System) -> String {
        let show = |amount: Amount| amount.show(system);
        match self {
            Self::About { value, tolerance } => {
                let off = tolerance.map(|off| format!(" ± {}", show(off)));
                format!("at {}{}", show(value), off.unwrap_or_default())
            }
            Self::Between { low, high } => format!("from {} to {}", show(low), show(high)),
            Self::AtLeast { least } => format!("at least {}", show(least)),
            Self::AtMost { most } => format!("at most {}", show(most)),
        }
    }
}

impl Hold<f64> {
    /// The least and the most that count as met, −∞ or ∞ where there is no such end; `tolerance`
    /// goes for a value without its own.
    pub fn ends(self, tolerance: f64) -> (f64, f64) {
        match self {
            Self::About {
                value,
                tolerance: own,
            } => {
                let off = own.unwrap_or(tolerance);
                (value - off, value + off)
            }
            Self::Between { low, high } => (low, high),
            Self::AtLeast { least } => (least, f64::INFINITY),
            Self::AtMost { most } => (f64::NEG_INFINITY, most),
        }
    }

    /// What is wrong with the hold, where something is, as it goes on after its name.
    pub(crate) fn problem(self, quantity: Quantity) -> Option<&'static str> {
        let least = if quantity.can_be_negative() {
            f64::NEG_INFINITY
        } else {
            f64::MIN_POSITIVE
        };
        let value = |value: f64| {
            if !value.is_finite() {
                Some("is not a number")
            } else if value < least {
                Some("must be more than nothing")
            } else {
                None
            }
        };
        match self {
            Self::About {
                value: v,
                tolerance,
            } => value(v).or(match tolerance {
                Some(off) if !off.is_finite() => Some("is not a number"),
                Some(off) if off < 0.0 => Some("has a tolerance below nothing"),
                _ => None,
            }),
            Self::Between { low, high } if low.is_finite() && high.is_finite() => {
                let upside_down = (low > high).then_some("has a lower limit above its upper one");
                value(low).or(upside_down)
            }
            Self::Between { .. } => Some("has a limit that is not a number"),
            Self::AtLeast { least: v } | Self::AtMost { most: v } => value(v),
        }
    }
}

/// The targets a fit keeps, at most one for each quantity.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Holds {
    /// Finished mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Hold<Mass>>,
    /// Balance: centroid in front of the handle axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub balance: Option<Hold<Length>>,
    /// Moment of inertia about the z axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inertia_handle_axis: Option<Hold<Inertia>>,
    /// Reach of the front over reach of the back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reach_ratio: Option<Hold<f64>>,
    /// Length over all: both reaches together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Hold<Length>>,
    /// The least cheek wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least_wall: Option<Hold<Length>>,
    /// Mass of the finished tool, head and handle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tool_mass: Option<Hold<Mass>>,
    /// From the middle of the eye to the balance point of the finished tool, along the handle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tool_balance: Option<Hold<Length>>,
    /// Moment of inertia of the finished tool about the line across the head through the grip.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grip_inertia: Option<Hold<Inertia>>,
}

impl Holds {
    /// The hold on `quantity`.
    pub fn get(&self, quantity: Quantity) -> Option<Hold<Amount>> {
        let masses = |hold: Option<Hold<Mass>>| hold.map(|hold| hold.map(Amount::Mass));
        let lengths = |hold: Option<Hold<Length>>| hold.map(|hold| hold.map(Amount::Length));
        let inertias = |hold: Option<Hold<Inertia>>| hold.map(|hold| hold.map(Amount::Inertia));
        match quantity {
            Quantity::Mass => masses(self.mass),
            Quantity::Balance => lengths(self.balance),
            Quantity::Inertia => inertias(self.inertia_handle_axis),
            Quantity::ReachRatio => self.reach_ratio.map(|hold| hold.map(Amount::Ratio)),
            Quantity::Length => lengths(self.length),
            Quantity::LeastWall => lengths(self.least_wall),
            Quantity::ToolMass => masses(self.tool_mass),
            Quantity::ToolBalance => lengths(self.tool_balance),
            Quantity::GripInertia => inertias(self.grip_inertia),
        }
    }

    /// Puts `hold` on `quantity`, or lets it go; a hold on amounts of another kind changes nothing.
    pub fn set(&mut self, quantity: Quantity, hold: Option<Hold<Amount>>) {
        match quantity {
            Quantity::Mass => put(&mut self.mass, hold, Amount::as_mass),
            Quantity::Balance => put(&mut self.balance, hold, Amount::as_length),
            Quantity::Inertia => put(&mut self.inertia_handle_axis, hold, Amount::as_inertia),
            Quantity::ReachRatio => put(&mut self.reach_ratio, hold, Amount::as_ratio),
            Quantity::Length => put(&mut self.length, hold, Amount::as_length),
            Quantity::LeastWall => put(&mut self.least_wall, hold, Amount::as_length),
            Quantity::ToolMass => put(&mut self.tool_mass, hold, Amount::as_mass),
            Quantity::ToolBalance => put(&mut self.tool_balance, hold, Amount::as_length),
            Quantity::GripInertia => put(&mut self.grip_inertia, hold, Amount::as_inertia),
        }
    }

    /// Whether something is held of the finished tool.
    pub fn of_tool(&self) -> bool {
        self.iter().any(|(quantity, _)| quantity.is_of_tool())
    }

    /// Everything that is held, in the order of [`Quantity::ALL`].
    pub fn iter(&self) -> impl Iterator<Item = (Quantity, Hold<Amount>)> + '_ {
        let all = Quantity::ALL.into_iter();
        all.filter_map(|quantity| Some((quantity, self.get(quantity)?)))
    }

    /// Whether nothing is held.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Puts `hold` in its typed place; one of another type changes nothing.
fn put<Q>(slot: &mut Option<Hold<Q>>, hold: Option<Hold<Amount>>, typed: fn(Amount) -> Option<Q>) {
    match hold {
        None => *slot = None,
        Some(hold) => *slot = hold.try_map(typed).or(slot.take()),
    }
}
