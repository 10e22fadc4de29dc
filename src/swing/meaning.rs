//! What the numbers mean, in sentences.

use serde::Serialize;

use super::drive::Swing;
use super::off_centre::OffCentre;
use super::striker::{Patch, Striker, Surface, Tilt};
use super::tool::{Blow, Tool};
use crate::design::length_in_words;
use crate::mass::PIN_HEIGHT;
use crate::units::{
    Angle, System, inertia_unit_word, show_angle, show_energy, show_impulse, show_inertia,
    show_kick, show_mass, show_number, show_speed, show_turning_moment, show_twist,
};

/// How far a blow may pass from the centre of percussion and be said to pass through it, mm (our choice: a hand is far
/// wider).
const THROUGH_MM: f64 = 3.0;
/// A turning moment below this is not felt, N·mm (our choice: 10 g on a lever of 50 mm).
const LEVEL_NMM: f64 = 5.0;

/// One quantity as a table shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// Its name.
    pub name: &'static str,
    /// Its value with its unit.
    pub value: String,
    /// What it means, a sentence.
    pub meaning: String,
}

impl Line {
    pub(crate) fn new(name: &'static str, value: String, meaning: impl Into<String>) -> Self {
        Self {
            name,
            value,
            meaning: meaning.into(),
        }
    }
}

/// To tenths, for a sentence.
fn tenths(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
}

/// A length to a tenth of a millimetre, or to a sixty-fourth of an inch.
fn length(mm: f64, system: System) -> String {
    match system {
        System::Metric => length_in_words(tenths(mm), system),
        System::Imperial => {
            length_in_words((mm / SIXTY_FOURTH_MM).round() * SIXTY_FOURTH_MM, system)
        }
    }
}

/// 1/64 in, mm.
const SIXTY_FOURTH_MM: f64 = crate::units::MM_PER_INCH / 64.0;

fn degrees(radians: f64) -> String {
    format!(
        "{}°",
        show_angle(Angle::degrees(tenths(radians.to_degrees())))
    )
}

fn percent(share: f64) -> String {
    format!("{} %", show_number(tenths(100.0 * share)))
}

fn inertia(kg_mm2: f64, system: System) -> String {
    format!(
        "{} {}",
        show_inertia(kg_mm2, system),
        inertia_unit_word(system)
    )
}

impl Tool {
    /// All of the tool that belongs to neither end.
    pub fn lines(&self, system: System) -> Vec<Line> {
        let side = if self.turning_moment_nmm > 0.0 {
            "front"
        } else {
            "back"
        };
        let turning = if self.turning_moment_nmm.abs() < LEVEL_NMM {
            "Held level with the head on its side, the head stays so.".to_owned()
        } else {
            format!("Held level with the head on its side, the {side} turns down in the hand.")
        };
        vec![
            Line::new(
                "mass",
                show_mass(self.mass_kg(), system),
                "What the hand lifts, head and handle together.",
            ),
            Line::new(
                "balance point from the butt",
                length(self.balance_from_butt_mm, system),
                format!(
                    "The tool lies level on an edge here, {} from the middle of the eye.",
                    length(self.balance_from_eye_mm, system)
                ),
            ),
            Line::new(
                "inertia about the grip",
                inertia(self.inertia_grip_kg_mm2, system),
                "How hard the tool is to swing from the grip and to stop.",
            ),
            Line::new(
                "inertia about the handle",
                inertia(self.inertia_handle_axis_kg_mm2, system),
                "How firmly the head stays put when a blow lands beside its middle.",
            ),
            Line::new(
                "inertia about the head’s length",
                inertia(self.inertia_head_axis_kg_mm2, system),
                "How hard it is to swing the handle from side to side about the head.",
            ),
            Line::new(
                "radius of gyration",
                length(self.gyration_mm, system),
                "All of the mass at this distance from the grip would be as hard to swing.",
            ),
            Line::new(
                "centre of percussion",
                length(self.percussion_mm, system),
                "A blow that passes at this distance from the grip leaves the hand at rest.",
            ),
            Line::new(
                "turning moment about the handle",
                show_turning_moment(self.turning_moment_nmm, system),
                turning,
            ),
            Line::new(
                "hang angle",
                degrees(self.hang_angle),
                format!(
                    "Hung on a pin {} above the middle of the eye, the tool tips by this; the {} hangs lower.",
                    length(PIN_HEIGHT, system),
                    if self.hang_angle >= 0.0 {
                        "front"
                    } else {
                        "back"
                    }
                ),
            ),
        ]
    }
}

impl Blow {
    /// What belongs to a blow of this end.
    pub fn lines(&self, system: System) -> Vec<Line> {
        vec![
            Line::new(
                "line of the blow",
                length(self.line_mm, system),
                format!(
                    "From the grip to the middle of the {}.",
                    self.striker.surface.word()
                ),
            ),
            Line::new(
                "sting",
                show_kick(self.sting_per_ns, system),
                self.sting_meaning(system),
            ),
            Line::new(
                "effective mass",
                show_mass(self.effective_mass_kg, system),
                "The work feels a blow as from a block of this mass; the rest of the tool swings on.",
            ),
            Line::new(
                "mass in the swing",
                show_mass(self.swing_mass_kg, system),
                "All of it in the line of the blow would be as hard to swing.",
            ),
            Line::new(
                "tilt in the swing",
                degrees(self.tilt.in_swing),
                self.tilt.meaning_in_swing(&self.striker),
            ),
            Line::new(
                "tilt about the handle",
                degrees(self.tilt.about_handle),
                self.tilt.meaning_about_handle(&self.striker),
            ),
        ]
    }

    fn sting_meaning(&self, system: System) -> String {
        let off = self.beyond_percussion_mm;
        if off.abs() < THROUGH_MM {
            return "The blow passes through the centre of percussion: the hand hardly feels a jerk."
                .to_owned();
        }
        let (place, jerk) = if off < 0.0 {
            ("nearer to the hand than", "back, away from the work")
        } else {
            ("beyond", "on towards the work")
        };
        format!(
            "The blow passes {} {place} the centre of percussion: the handle jerks {jerk}.",
            length(off.abs(), system)
        )
    }
}

impl Tilt {
    fn meaning_in_swing(&self, striker: &Striker) -> String {
        meaning_of_tilt(
            striker,
            self.in_swing,
            "The butt may be too high or too low by this",
        )
    }

    fn meaning_about_handle(&self, striker: &Striker) -> String {
        meaning_of_tilt(
            striker,
            self.about_handle,
            "The head may be rolled about the handle by this",
        )
    }
}

fn meaning_of_tilt(striker: &Striker, tilt: f64, may: &str) -> String {
    let edge = match striker.surface {
        Surface::Face { .. } => "before the edge of the face marks flat work",
        Surface::Ball { .. } => "and the ball still lands on its sphere",
        Surface::Pein { .. } => "before something else than nose and rocker marks flat work",
    };
    if tilt > 0.0 {
        format!("{may} {edge}.")
    } else {
        "Any tilt lands on the edge.".to_owned()
    }
}

impl Swing {
    /// What belongs to this swing.
    pub fn lines(&self, system: System) -> Vec<Line> {
        vec![
            Line::new(
                "speed of the head",
                show_speed(self.speed_m_per_s, system),
                "Speed of the middle of the striking surface as it lands.",
            ),
            Line::new(
                "energy of the swing",
                show_energy(self.energy_j, system),
                "What the tool holds when it swings about a grip at rest; hand and arm bring more.",
            ),
            Line::new(
                "momentum",
                show_impulse(self.momentum_ns, system),
                "Of the whole tool along the blow.",
            ),
            Line::new(
                "impulse of the blow",
                show_impulse(self.impulse_ns, system),
                "What the work takes when the head stops dead; a head that springs back gives up to twice as much.",
            ),
            Line::new(
                "energy of the blow",
                show_energy(self.delivered_j, system),
                format!(
                    "What goes into the work, {} of the swing; the rest stays in the tool.",
                    percent(self.delivered_j / self.energy_j)
                ),
            ),
        ]
    }
}

impl OffCentre {
    /// What the blow off centre does, in a sentence.
    pub fn meaning(&self, system: System) -> String {
        let turns = [
            (
                self.across_mm,
                "across the middle",
                "the head twists about the handle",
                self.handle_twist_per_ns,
            ),
            (
                self.along_mm,
                "along the handle",
                "the tool turns in the swing",
                self.swing_twist_per_ns,
            ),
        ];
        let beside = turns.into_iter().filter(|(mm, ..)| *mm != 0.0);
        let turn = |(mm, way, what, twist): (f64, &str, &str, f64)| {
            let place = length(mm.abs(), system);
            format!(
                "{place} {way} {what} by {}",
                show_twist(twist.abs(), system)
            )
        };
        let turned: Vec<String> = beside.map(turn).collect();
        if turned.is_empty() {
            return "The blow lands in the middle.".to_owned();
        }
        let part = if self.lost_share < 0.0 {
            format!("brings {} more to the work", percent(-self.lost_share))
        } else {
            format!("keeps {} from the work", percent(self.lost_share))
        };
        format!(
            "{}; against a centred blow of the same speed it {part}.",
            turned.join(", ")
        )
    }
}

impl Patch {
    /// The print, in a sentence.
    pub fn meaning(&self, system: System) -> String {
        let [first, second] = self.lengths_mm.map(|mm| length(mm, system));
        let edge = if self.to_edge {
            "It reaches the edge, which marks the work."
        } else {
            "It stays inside the edge."
        };
        format!("The print is {first} × {second}. {edge}")
    }
}
