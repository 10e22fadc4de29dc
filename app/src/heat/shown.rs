//! Bands as the sheet writes them.

use headwright::heat::{Band, EndHardness, Medium, Place, Plan, Tempering};
use headwright::units::{System, show_about_temperature, show_number, show_temperature};

use super::temper::times;

/// From here down the scale of hardness ends, HRC.
pub const SCALE_ENDS_HRC: f64 = 20.0;

/// A band of heats, "820–850 °C".
pub fn heats(band: Band, system: System) -> String {
    let [low, high] = [band.low, band.high].map(|celsius| show_about_temperature(celsius, system));
    if low == high {
        return low;
    }
    let number = low.split(' ').next().unwrap_or_default();
    format!("{number}–{high}")
}

/// A band of hardness, "52–58"; below the scale there are no numbers.
pub fn hardness(band: Band) -> String {
    let [low, high] = [band.low, band.high].map(f64::round);
    if high <= SCALE_ENDS_HRC {
        "below 20".to_owned()
    } else if low < SCALE_ENDS_HRC {
        format!("below 20 to {}", show_number(high))
    } else if low == high {
        show_number(high)
    } else {
        format!("{}–{}", show_number(low), show_number(high))
    }
}

/// The temper in short, "190 °C, 2 h once".
pub fn temper(tempering: &Tempering, system: System) -> String {
    format!(
        "{}, {} h {}",
        show_temperature(tempering.celsius, system),
        show_number(tempering.soak_hours),
        times(tempering.times)
    )
}

/// The quench in short, "water at 18 °C".
pub fn quench(plan: &Plan, system: System) -> String {
    let name = plan.quench.medium.name();
    if plan.quench.medium == Medium::Air {
        return name.to_owned();
    }
    format!(
        "{name} at {}",
        show_temperature(plan.quench.bath_celsius, system)
    )
}

/// Hardness as tempered at the skin of an end; nothing where none is known.
pub fn skin(end: &EndHardness) -> Option<Band> {
    let skin = end.places.iter().find(|place| place.place == Place::Skin);
    skin.and_then(|skin| skin.tempered_hrc)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_of_heats_has_its_unit_once() {
        let band = Band::new(820.0, 850.0);
        assert_eq!(heats(band, System::Metric), "820–850 °C");
        assert_eq!(heats(band, System::Imperial), "1510–1560 °F");
        let one = Band::new(300.0, 301.0);
        assert_eq!(heats(one, System::Metric), "300 °C");
    }

    #[test]
    fn hardness_below_the_scale_is_said_to_be_below_it() {
        assert_eq!(hardness(Band::new(51.6, 58.2)), "52–58");
        assert_eq!(hardness(Band::new(57.0, 57.2)), "57");
        assert_eq!(hardness(Band::new(12.0, 33.0)), "below 20 to 33");
        assert_eq!(hardness(Band::new(12.0, 20.2)), "below 20");
    }
}
