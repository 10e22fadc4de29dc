//! How hard: from the speed, the energy or the torque of a swing to all that goes with it.

use super::error::{Asked, SPEED_M_PER_S, SwingError};
use super::tool::Tool;
use crate::design::Side;

/// What is known of a swing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Drive {
    /// Speed of the middle of the striking surface along the blow, m/s.
    HeadSpeed {
        /// Its value.
        m_per_s: f64,
    },
    /// Energy of the tool that swings, J.
    Energy {
        /// Its value.
        joules: f64,
    },
    /// A steady torque about the grip through an angle, from rest; their product is the energy.
    TorqueThroughAngle {
        /// The torque, N·m.
        newton_metres: f64,
        /// The angle, degrees.
        degrees: f64,
    },
}

/// A tool that swings about its grip, and the blow it strikes.
///
/// The whole tool turns about the grip, which stands still; what hand and arm bring beside it, and gravity, are left
/// out. So these are comparisons of tools and not the work of an arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// The end that strikes.
    pub side: Side,
    /// Speed of the middle of the striking surface along the blow, m/s.
    pub speed_m_per_s: f64,
    /// How fast the tool turns, rad/s.
    pub turning_rad_per_s: f64,
    /// Energy of the tool, J: half of the inertia about the grip times the squared turning speed.
    pub energy_j: f64,
    /// Momentum of the tool along the blow, N·s: mass × lever × turning speed.
    pub momentum_ns: f64,
    /// What the work takes when the head stops dead on it, N·s: effective mass × speed. A head that springs back gives
    /// more, at most twice as much.
    pub impulse_ns: f64,
    /// The energy that goes with it, J: half of the effective mass times the squared speed. The rest stays in the tool:
    /// it goes into hand and arm.
    pub delivered_j: f64,
}

impl Drive {
    /// The numbers that were asked for.
    fn asked(self) -> Vec<(Asked, f64)> {
        match self {
            Self::HeadSpeed { m_per_s } => vec![(Asked::Speed, m_per_s)],
            Self::Energy { joules } => vec![(Asked::Energy, joules)],
            Self::TorqueThroughAngle {
                newton_metres,
                degrees,
            } => vec![(Asked::Torque, newton_metres), (Asked::Angle, degrees)],
        }
    }
}

impl Tool {
    /// The swing that `drive` gives, striking with the end on `side`.
    ///
    /// With the distance h of the line of the blow from the grip and the inertia I about it, the head's speed is v = ωh
    /// and the energy ½Iω² = torque × angle.
    ///
    /// # Errors
    /// What of `drive` is out of bounds, or that the head would be too fast or too slow.
    pub fn swing(&self, side: Side, drive: Drive) -> Result<Swing, Vec<SwingError>> {
        let wrong = |(asked, value): &(Asked, f64)| !asked.limit().admits(*value);
        let asked = drive.asked().into_iter().filter(wrong);
        let errors: Vec<SwingError> = asked
            .map(|(asked, value)| SwingError::OutOfBounds { asked, value })
            .collect();
        if !errors.is_empty() {
            return Err(errors);
        }
        let end = self.end(side);
        let from_energy = |joules: f64| (2.0 * joules / end.swing_mass_kg).sqrt();
        let speed = match drive {
            Drive::HeadSpeed { m_per_s } => m_per_s,
            Drive::Energy { joules } => from_energy(joules),
            Drive::TorqueThroughAngle {
                newton_metres,
                degrees,
            } => from_energy(newton_metres * degrees.to_radians()),
        };
        if !SPEED_M_PER_S.admits(speed) {
            return Err(vec![SwingError::Speed { m_per_s: speed }]);
        }
        let half_square = 0.5 * speed * speed;
        Ok(Swing {
            side,
            speed_m_per_s: speed,
            turning_rad_per_s: speed / (end.line_mm * 1e-3),
            energy_j: end.swing_mass_kg * half_square,
            momentum_ns: self.mass_kg() * speed * self.lever_mm / end.line_mm,
            impulse_ns: end.effective_mass_kg * speed,
            delivered_j: end.effective_mass_kg * half_square,
        })
    }
}
