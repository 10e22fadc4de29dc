//! The bath: how hard it quenches, how warm it may be and how much of it a head needs.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::stated::{Band, Stated};
use crate::bar::Limit;

/// What a head is quenched in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Medium {
    /// Still or moving air.
    Air,
    /// Quench oil.
    Oil,
    /// Water.
    Water,
    /// Water with 7 % to 10 % of its mass salt.
    Brine,
}

/// How the head is moved in the bath, or the bath around it. The words are those of the published table; none of them is
/// measured.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Agitation {
    /// Held still.
    None,
    /// Moved a little.
    Mild,
    /// Moved.
    Moderate,
    /// Moved well, up and down and in an eight.
    Good,
    /// Moved hard.
    Strong,
    /// In a jet.
    Violent,
}

/// Severity H of a quench, 1/in.
pub type Severity = Stated<Band>;

const SEVERITY_SOURCE: &str =
    "severities after Grossmann in ASM Handbook vol. 4; what moves how much is not measured";

impl Medium {
    /// All of them, from the mildest.
    pub const ALL: [Self; 4] = [Self::Air, Self::Oil, Self::Water, Self::Brine];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Air => "air",
            Self::Oil => "oil",
            Self::Water => "water",
            Self::Brine => "brine",
        }
    }

    /// How warm it may be when the head goes in, °C; water never above 38 °C, brine from 18 °C to 38 °C, quench oil from
    /// 27 °C to 65 °C. Air has the heat of the shop.
    ///
    /// # Source
    /// US Navy training manual 14250: water about 65 °F and never above 100 °F, brine 65 °F to 100 °F, quench oil 80 °F to
    /// 150 °F. The least of water is common practice, no source.
    pub const fn bath_celsius(self) -> Limit {
        let (least, most) = match self {
            Self::Air => (-20.0, 45.0),
            Self::Oil => (27.0, 65.0),
            Self::Water => (5.0, 38.0),
            Self::Brine => (18.0, 38.0),
        };
        Limit { least, most }
    }

    /// How warm it usually is, °C.
    pub const fn usual_celsius(self) -> f64 {
        match self {
            Self::Air => 20.0,
            Self::Oil => 45.0,
            Self::Water => 18.0,
            Self::Brine => 20.0,
        }
    }

    /// Heat that a litre takes for every degree, kJ: density times specific heat, from memory: water 1.00 kg × 4.18, brine
    /// of 10 % 1.07 kg × 3.7, quench oil 0.87 kg × 2.0 kJ/(kg·K). Nothing for air.
    pub const fn kj_per_litre_kelvin(self) -> Option<f64> {
        match self {
            Self::Air => None,
            Self::Oil => Some(1.74),
            Self::Water => Some(4.18),
            Self::Brine => Some(3.96),
        }
    }
}

impl Agitation {
    /// All of them, from none.
    pub const ALL: [Self; 6] = [
        Self::None,
        Self::Mild,
        Self::Moderate,
        Self::Good,
        Self::Strong,
        Self::Violent,
    ];

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::None => "held still",
            Self::Mild => "moved a little",
            Self::Moderate => "moved",
            Self::Good => "moved well, up and down and in an eight",
            Self::Strong => "moved hard",
            Self::Violent => "in a jet",
        }
    }
}

/// The severity of a quench in `medium`, 1/in.
///
/// # Accuracy
/// The band is that of the table; a fast quench oil may quench harder (published: unmoved oils from 0.25 to 0.85). The table
/// has no brine between mildly and violently moved and no air between still and strong: there the band goes from one to
/// the other.
///
/// # Source
/// The table of severities after M. A. Grossmann in ASM Handbook vol. 4, from memory.
pub fn severity(medium: Medium, agitation: Agitation) -> Severity {
    use Agitation::{Good, Mild, Moderate, None, Strong, Violent};
    let (low, high) = match (medium, agitation) {
        (Medium::Air, None) => (0.02, 0.02),
        (Medium::Air, Strong | Violent) => (0.05, 0.05),
        (Medium::Air, _) => (0.02, 0.05),
        (Medium::Oil, None) => (0.25, 0.30),
        (Medium::Oil, Mild) => (0.30, 0.35),
        (Medium::Oil, Moderate) => (0.35, 0.40),
        (Medium::Oil, Good) => (0.40, 0.50),
        (Medium::Oil, Strong) => (0.50, 0.80),
        (Medium::Oil, Violent) => (0.80, 1.10),
        (Medium::Water, None) => (0.9, 1.0),
        (Medium::Water, Mild) => (1.0, 1.1),
        (Medium::Water, Moderate) => (1.2, 1.3),
        (Medium::Water, Good) => (1.4, 1.5),
        (Medium::Water, Strong) => (1.6, 2.0),
        (Medium::Water, Violent) => (4.0, 4.0),
        (Medium::Brine, None) => (2.0, 2.0),
        (Medium::Brine, Mild) => (2.0, 2.2),
        (Medium::Brine, Moderate | Good | Strong) => (2.2, 5.0),
        (Medium::Brine, Violent) => (5.0, 5.0),
    };
    Stated::memory(Band::new(low, high), SEVERITY_SOURCE)
}

/// Heat that a kilogram of steel gives off from `celsius` down to 20 °C, kJ.
///
/// The integral of the specific heat, J/(kg·K):
///
/// ```text
/// 20 to 600 °C    425 + 0.773 T − 1.69e-3 T² + 2.22e-6 T³
/// 600 to 735 °C   666 + 13002 / (738 − T)
/// 735 to 900 °C   545 + 17820 / (T − 731)
/// 900 to 1200 °C  650
/// ```
/// # Accuracy
/// An estimate: the formula is for structural carbon steel on heating, and the heat of transformation is spread around
/// 735 °C.
/// # Source
/// EN 1993-1-2:2005, 3.4.1.2, from memory.
pub fn heat_content_kj_per_kg(celsius: f64) -> f64 {
    let cold = |t: f64| t * (425.0 + t * (0.5 * 0.773 + t * (-1.69e-3 / 3.0 + t * 0.25 * 2.22e-6)));
    let warm = |t: f64| 666.0 * t - 13002.0 * (738.0 - t).ln();
    let turned = |t: f64| 545.0 * t + 17820.0 * (t - 731.0).ln();
    let t = celsius.clamp(20.0, 1200.0);
    let joules = (cold(t.min(600.0)) - cold(20.0))
        + (warm(t.clamp(600.0, 735.0)) - warm(600.0))
        + (turned(t.clamp(735.0, 900.0)) - turned(735.0))
        + 650.0 * (t.max(900.0) - 900.0);
    joules / 1000.0
}
