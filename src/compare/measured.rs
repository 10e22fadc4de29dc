//! A hammer's numbers, under the conditions of the comparison.

use super::error::CompareError;
use super::figure::Figure;
use crate::design::{Design, Side};
use crate::handle::{Handle, Made, make};
use crate::mass::{MassProperties, mass_properties};
use crate::posture::{Posture, Smith, Stance, posture};
use crate::solid::Solid;
use crate::swing::{Striker, Tool};

/// How far beside the middle a blow usually lands in a comparison, mm (our choice).
pub const USUAL_OFF_MM: f64 = 8.0;
/// The smith who stands at the anvil when nobody is named: about the median of men and the 95th percentile of women
/// in ANSUR II (C. C. Gordon and others, NATICK/TR-15/007, 2014), mm.
const USUAL_STATURE_MM: f64 = 1750.0;

/// How far beside the middle a blow usually lands on all of `solids`, mm: [`USUAL_OFF_MM`], or as far across as the least
/// of their striking surfaces on `side` goes.
pub fn usual_off_mm<'a>(solids: impl IntoIterator<Item = &'a Solid>, side: Side) -> f64 {
    let reaches = solids
        .into_iter()
        .map(|solid| Striker::of(solid, side).reach_towards([1.0, 0.0]));
    reaches.fold(USUAL_OFF_MM, f64::min)
}

/// What is the same for all hammers that are compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The end that strikes.
    pub side: Side,
    /// How far beside the middle, across the head, a blow lands, mm.
    pub off_mm: f64,
    /// Smith, anvil and work; the hammer's own lengths take the place of those in it.
    pub stance: Stance,
}

/// The front strikes, [`USUAL_OFF_MM`] beside its middle, a smith of 1750 mm at an anvil of knuckle height.
impl Default for Conditions {
    fn default() -> Self {
        Self {
            side: Side::Front,
            off_mm: USUAL_OFF_MM,
            stance: Stance::of(Smith::Stature {
                mm: USUAL_STATURE_MM,
            }),
        }
    }
}

/// A hammer and its numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The head.
    pub solid: Solid,
    /// What it weighs.
    pub weighed: MassProperties,
    /// The handle.
    pub made: Made,
    /// Both together.
    pub tool: Tool,
    /// The smith at the blow.
    pub posture: Posture,
    numbers: [f64; Figure::ALL.len()],
}

impl Measured {
    /// Its number of `figure`, NaN where it has none: see [`Figure::Elbow`].
    pub fn get(&self, figure: Figure) -> f64 {
        self.numbers[figure as usize]
    }
}

/// The numbers of `design`.
///
/// # Errors
/// Everything that keeps head, handle, tool or smith from being what they are asked to be.
pub fn measure(design: &Design, conditions: &Conditions) -> Result<Measured, Vec<CompareError>> {
    let solid = design.build().map_err(|e| all(e, CompareError::Design))?;
    measure_head(solid, &design.handle, conditions)
}

fn all<E>(errors: Vec<E>, kind: impl Fn(E) -> CompareError) -> Vec<CompareError> {
    errors.into_iter().map(kind).collect()
}

fn measure_head(
    solid: Solid,
    handle: &Handle,
    conditions: &Conditions,
) -> Result<Measured, Vec<CompareError>> {
    let side = conditions.side;
    let made = make(&solid, handle).map_err(|e| all(e, CompareError::Handle))?;
    let tool = Tool::of(&solid, &made).map_err(|e| all(e, CompareError::Swing))?;
    let beside = tool
        .off_centre(side, [conditions.off_mm, 0.0])
        .map_err(|e| all(e, CompareError::Swing))?;
    let blow = *tool.end(side);
    let reach = |side: Side| solid.head().end(side).tip.reach();
    let stance = Stance {
        face_offset_mm: reach(side),
        grip_to_face_mm: blow.line_mm,
        ..conditions.stance
    };
    let posture = posture(&stance).map_err(|e| all(e, CompareError::Posture))?;
    let weighed = mass_properties(&solid);
    let number = |figure: Figure| match figure {
        Figure::Reach => reach(side),
        Figure::OtherReach => reach(side.other()),
        Figure::HeadMass => weighed.mass,
        Figure::Balance => weighed.balance(),
        Figure::HandleInertia => tool.inertia_handle_axis_kg_mm2,
        Figure::Twist => beside.handle_twist_per_ns.abs(),
        Figure::Strikes => blow.effective_mass_kg,
        Figure::StrikesBeside => beside.effective_mass_kg,
        Figure::Tilt => blow.tilt.in_swing,
        Figure::ToolMass => tool.mass_kg(),
        Figure::BalancePoint => tool.balance_from_eye_mm,
        Figure::GripInertia => tool.inertia_grip_kg_mm2,
        Figure::Sting => blow.sting_per_ns,
        Figure::TurningMoment => tool.turning_moment_nmm,
        Figure::Hand => posture.hand_mm - posture.anvil_mm,
        Figure::Elbow => posture.arm.map_or(f64::NAN, |arm| arm.elbow),
        Figure::Anvil => posture.wanted_anvil_mm,
    };
    Ok(Measured {
        numbers: Figure::ALL.map(number),
        solid,
        weighed,
        made,
        tool,
        posture,
    })
}
