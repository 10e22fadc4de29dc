//! Speeds, energies, impulses and turning moments for the screen, each with its unit.

use super::text::{fixed, with_minus};
use super::{KG_PER_POUND, MM_PER_INCH, System};

/// Standard gravity, m/s², exactly (third General Conference on Weights and Measures, 1901; from memory).
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Newtons in a pound-force, exactly.
pub const N_PER_POUND_FORCE: f64 = KG_PER_POUND * STANDARD_GRAVITY;
/// Metres in a foot, exactly.
pub const M_PER_FOOT: f64 = 0.3048;

/// Joules, or newton metres, in a foot-pound-force.
const J_PER_FOOT_POUND: f64 = M_PER_FOOT * N_PER_POUND_FORCE;
/// Newton millimetres in an inch-pound-force.
const N_MM_PER_INCH_POUND: f64 = MM_PER_INCH * N_PER_POUND_FORCE;

fn written(value: f64, decimals: usize, unit: &str) -> String {
    let number = fixed(value, decimals);
    // Rounded to nothing it has no sign.
    let idle = number.starts_with('-') && number.bytes().all(|byte| b"-0.".contains(&byte));
    let number = number[usize::from(idle)..].to_owned();
    format!("{} {unit}", with_minus(number))
}

/// A speed with its unit: `8.0 m/s`, `26.2 ft/s`.
pub fn show_speed(m_per_s: f64, system: System) -> String {
    match system {
        System::Metric => written(m_per_s, 1, "m/s"),
        System::Imperial => written(m_per_s / M_PER_FOOT, 1, "ft/s"),
    }
}

/// An energy with its unit: `36.2 J`, `26.7 ft·lbf`.
pub fn show_energy(joules: f64, system: System) -> String {
    match system {
        System::Metric => written(joules, 1, "J"),
        System::Imperial => written(joules / J_PER_FOOT_POUND, 1, "ft·lbf"),
    }
}

/// An impulse or a momentum with its unit: `9.10 N·s`, `2.05 lbf·s`.
pub fn show_impulse(newton_seconds: f64, system: System) -> String {
    match system {
        System::Metric => written(newton_seconds, 2, "N·s"),
        System::Imperial => written(newton_seconds / N_PER_POUND_FORCE, 2, "lbf·s"),
    }
}

/// A torque with its unit: `12.0 N·m`, `8.9 ft·lbf`.
pub fn show_torque(newton_metres: f64, system: System) -> String {
    match system {
        System::Metric => written(newton_metres, 1, "N·m"),
        System::Imperial => written(newton_metres / J_PER_FOOT_POUND, 1, "ft·lbf"),
    }
}

/// A small turning moment with its unit: `54 N·mm`, `0.48 in·lbf`.
pub fn show_turning_moment(newton_millimetres: f64, system: System) -> String {
    match system {
        System::Metric => written(newton_millimetres, 0, "N·mm"),
        System::Imperial => written(newton_millimetres / N_MM_PER_INCH_POUND, 2, "in·lbf"),
    }
}

/// A speed for every unit of a blow's impulse, given in m/s per N·s: `0.21 m/s per N·s`, `3.06 ft/s per lbf·s`.
pub fn show_kick(m_per_s_per_ns: f64, system: System) -> String {
    match system {
        System::Metric => written(m_per_s_per_ns, 2, "m/s per N·s"),
        System::Imperial => {
            let value = m_per_s_per_ns * N_PER_POUND_FORCE / M_PER_FOOT;
            written(value, 2, "ft/s per lbf·s")
        }
    }
}

/// A turning speed for every unit of a blow's impulse, given in rad/s per N·s: `2.5 rad/s per N·s`,
/// `11.1 rad/s per lbf·s`.
pub fn show_twist(rad_per_s_per_ns: f64, system: System) -> String {
    match system {
        System::Metric => written(rad_per_s_per_ns, 1, "rad/s per N·s"),
        System::Imperial => written(rad_per_s_per_ns * N_PER_POUND_FORCE, 1, "rad/s per lbf·s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_moves_is_shown_in_the_units_of_either_system() {
        // By hand: 1 ft = 0.3048 m, 1 lbf = 4.4482216 N, 1 ft·lbf = 1.3558179 J, 1 in·lbf = 112.98483 N·mm.
        let show = |system| {
            [
                show_speed(8.0, system),
                show_energy(36.0, system),
                show_impulse(9.1, system),
                show_torque(12.0, system),
                show_turning_moment(-54.0, system),
                show_kick(0.21, system),
                show_twist(2.5, system),
            ]
        };
        assert_eq!(
            show(System::Metric),
            [
                "8.0 m/s",
                "36.0 J",
                "9.10 N·s",
                "12.0 N·m",
                "−54 N·mm",
                "0.21 m/s per N·s",
                "2.5 rad/s per N·s",
            ]
        );
        assert_eq!(
            show(System::Imperial),
            [
                "26.2 ft/s",
                "26.6 ft·lbf",
                "2.05 lbf·s",
                "8.9 ft·lbf",
                "−0.48 in·lbf",
                "3.06 ft/s per lbf·s",
                "11.1 rad/s per lbf·s",
            ]
        );
    }

    #[test]
    fn what_rounds_to_nothing_has_no_sign_and_what_is_huge_is_written_short() {
        assert_eq!(show_turning_moment(-0.3, System::Metric), "0 N·mm");
        assert_eq!(show_kick(-0.004, System::Metric), "0.00 m/s per N·s");
        assert_eq!(show_speed(1e300, System::Metric), "1e300 m/s");
        assert_eq!(show_speed(f64::NAN, System::Metric), "NaN m/s");
    }
}
