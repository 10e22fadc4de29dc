//! What can be wrong with a tool, a blow or a question about them, each a sentence in either system of units.

use std::fmt;

use crate::bar::Limit;
use crate::design::{Side, length_in_words};
use crate::units::{
    Angle, System, show_angle, show_energy, show_mass, show_number, show_speed, show_torque,
};

/// Mass of a head, of a handle or of both, kg.
pub const MASS_KG: Limit = Limit {
    least: 0.005,
    most: 200.0,
};
/// Every coordinate of a place of the tool, mm.
pub const PLACE_MM: Limit = Limit {
    least: -3000.0,
    most: 3000.0,
};
/// The greatest size of what strikes, as a radius or half of an edge, mm; each is above 0.
pub const MOST_SIZE_MM: f64 = 100_000.0;
/// The most by which a handle may lean from the head's z axis, radians: 45°.
pub const MOST_LEAN: f64 = std::f64::consts::FRAC_PI_4;
/// How far the balance point and the lines of the blows must at least lie before the grip, mm: nearer, nothing is swung.
pub const LEAST_LEVER_MM: f64 = 10.0;
/// Speed of the head, m/s. A smith's blow is about 5 to 10 (from memory).
pub const SPEED_M_PER_S: Limit = Limit {
    least: 0.1,
    most: 40.0,
};
/// Energy of a swing, J.
pub const ENERGY_J: Limit = Limit {
    least: 0.1,
    most: 10_000.0,
};
/// Torque about the grip, N·m.
pub const TORQUE_NM: Limit = Limit {
    least: 0.1,
    most: 500.0,
};
/// Angle through which the torque works, degrees.
pub const ANGLE_DEG: Limit = Limit {
    least: 1.0,
    most: 360.0,
};
/// How deep the work gives way under a blow, mm.
pub const DEPTH_MM: Limit = Limit {
    least: 0.05,
    most: 20.0,
};

/// A number that was asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Asked {
    /// Speed of the head, m/s.
    Speed,
    /// Energy of the swing, J.
    Energy,
    /// Torque about the grip, N·m.
    Torque,
    /// Angle through which it works, degrees.
    Angle,
    /// How deep the work gives way, mm.
    Depth,
}

impl Asked {
    /// The words for it, as a sentence begins.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Speed => "The speed of the head",
            Self::Energy => "The energy of the swing",
            Self::Torque => "The torque about the grip",
            Self::Angle => "The angle of the swing",
            Self::Depth => "The depth in the work",
        }
    }

    /// What it may be.
    pub const fn limit(self) -> Limit {
        match self {
            Self::Speed => SPEED_M_PER_S,
            Self::Energy => ENERGY_J,
            Self::Torque => TORQUE_NM,
            Self::Angle => ANGLE_DEG,
            Self::Depth => DEPTH_MM,
        }
    }

    /// `value` with its unit.
    fn show(self, value: f64, system: System) -> String {
        match self {
            Self::Speed => show_speed(value, system),
            Self::Energy => show_energy(value, system),
            Self::Torque => show_torque(value, system),
            Self::Angle => format!("{}°", show_angle(Angle::degrees(value))),
            Self::Depth => length_in_words(value, system),
        }
    }
}

/// Why a tool or a blow cannot be worked out. Written as a sentence; [`SwingError::sentence`] says it in the units that
/// the smith reads.
#[derive(Clone, Debug, PartialEq)]
pub enum SwingError {
    /// A mass out of bounds.
    Mass {
        /// What it is the mass of.
        of: &'static str,
        /// Its value.
        kg: f64,
    },
    /// A place that is no number or too far away.
    Place {
        /// What lies there.
        of: &'static str,
        /// The coordinate that is out of bounds.
        mm: f64,
    },
    /// Moments of inertia that no body has.
    Inertia {
        /// What they are the moments of.
        of: &'static str,
    },
    /// An axis of the handle that has no direction or leans too far.
    Axis,
    /// A grip that does not lie on the handle.
    Grip {
        /// From the butt to the grip along the handle.
        from_butt_mm: f64,
        /// From the butt to the middle of the eye.
        handle_mm: f64,
    },
    /// A balance point that does not lie before the grip.
    Balance {
        /// How far before it it lies.
        lever_mm: f64,
    },
    /// A blow whose line does not pass before the grip.
    BlowLine {
        /// The end.
        side: Side,
        /// How far before it it passes.
        lever_mm: f64,
    },
    /// A size of what strikes.
    Size {
        /// The end.
        side: Side,
        /// Which size.
        size: &'static str,
        /// Its value.
        mm: f64,
    },
    /// Angles that no pein has.
    PeinAngle {
        /// The end.
        side: Side,
    },
    /// Striking surfaces that are not those of the front and the back.
    Sides,
    /// A number that was asked about.
    OutOfBounds {
        /// Which.
        asked: Asked,
        /// Its value.
        value: f64,
    },
    /// A torque or an energy that would swing the head faster or slower than is worked out.
    Speed {
        /// The speed that the head would have.
        m_per_s: f64,
    },
    /// A place of the blow beside the face.
    BesideFace {
        /// The end.
        side: Side,
        /// How far across the head the blow lands from the middle.
        across_mm: f64,
        /// How far along the handle.
        along_mm: f64,
        /// How far it could land in that direction.
        most_mm: f64,
    },
}

impl SwingError {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let length = |mm: f64| length_in_words(mm, system);
        let before = |mm: f64| {
            let way = if mm < 0.0 { "behind" } else { "before" };
            format!("{} {way} the grip", length(mm.abs()))
        };
        match self {
            Self::Mass { of, kg } => format!(
                "The {of} weighs {}. It must weigh at least {} and at most {}.",
                show_mass(*kg, system),
                show_mass(MASS_KG.least, system),
                show_mass(MASS_KG.most, system)
            ),
            Self::Place { of, mm } => format!(
                "The {of} has a coordinate of {}. It must lie within {} of the middle of the eye.",
                length(*mm),
                length(PLACE_MM.most)
            ),
            Self::Inertia { of } => format!(
                "The {of}’s moments of inertia are not those of a body: each principal moment must be above zero and at \
                 most the sum of the other two. Weigh it again."
            ),
            Self::Axis => format!(
                "The handle’s axis must point from the butt to the head and lean at most {}° from square to the head.",
                show_number(MOST_LEAN.to_degrees())
            ),
            Self::Grip {
                from_butt_mm,
                handle_mm,
            } => format!(
                "The grip is {} {} the butt. It must lie on the handle, between the butt and the eye, which is {} from it.",
                length(from_butt_mm.abs()),
                if *from_butt_mm < 0.0 {
                    "beyond"
                } else {
                    "from"
                },
                length(*handle_mm)
            ),
            Self::Balance { lever_mm } => format!(
                "The tool balances {}. Hold it at least {} behind its balance point.",
                before(*lever_mm),
                length(LEAST_LEVER_MM)
            ),
            Self::BlowLine { side, lever_mm } => format!(
                "The blow of the {} passes {}. It must pass at least {} before it.",
                side.word(),
                before(*lever_mm),
                length(LEAST_LEVER_MM)
            ),
            Self::Size { side, size, mm } => format!(
                "The {size} of the {} is {}. It must be above 0 and at most {}.",
                side.word(),
                length(*mm),
                length(MOST_SIZE_MM)
            ),
            Self::PeinAngle { side } => format!(
                "The {} pein’s edge must be turned by at most 180°, and its slope must stand at least 0° and less than 90° \
                 from its middle.",
                side.word()
            ),
            Self::Sides => {
                "Two striking surfaces are needed, the front’s first and the back’s second."
                    .to_owned()
            }
            Self::OutOfBounds { asked, value } => format!(
                "{} is {}. It must be at least {} and at most {}.",
                asked.words(),
                asked.show(*value, system),
                asked.show(asked.limit().least, system),
                asked.show(asked.limit().most, system)
            ),
            Self::Speed { m_per_s } => format!(
                "The head would move at {}. Swings are worked out from {} to {}: change the torque, the angle or the \
                 energy.",
                show_speed(*m_per_s, system),
                show_speed(SPEED_M_PER_S.least, system),
                show_speed(SPEED_M_PER_S.most, system)
            ),
            Self::BesideFace {
                side,
                across_mm,
                along_mm,
                most_mm,
            } => format!(
                "A blow {} across and {} along the handle from the middle lands beside the striking surface of the {}. \
                 In that direction it may land at most {} from the middle.",
                length(*across_mm),
                length(*along_mm),
                side.word(),
                length(*most_mm)
            ),
        }
    }
}

impl fmt::Display for SwingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl std::error::Error for SwingError {}
