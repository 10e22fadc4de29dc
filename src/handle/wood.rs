//! The woods of handles and wedges.

use std::fmt;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use super::LONGEST_WOOD_NAME;
use crate::units::Density;

/// What a handle or a wedge is made of.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Wood {
    /// One of the woods that are known here.
    Species(Species),
    /// Another wood.
    Own {
        /// Its name.
        name: String,
        /// Mass when dry over volume at 12 % moisture, in g/cm³.
        specific_gravity: f64,
    },
}

/// A wood that handles are made of.
///
/// # Source
/// U.S. Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), table 5-3, clear wood at 12 % moisture. The
/// handbook itself was not read. Specific gravities and moduli of rupture were read as quoted from it by G. Wengert,
/// Strength and density predictors, FDMC magazine (maple, birch, beech, ash, oak; its headings are mixed up), and the
/// specific gravities of hickory and locust in a reprint of its table. Not from it: Osage orange (a Forest Products
/// Laboratory sheet, and The Wood Database as quoted) and the modulus of rupture of locust (quoted alike). That of
/// shagbark hickory is from memory. The specific gravity of Osage orange may be of air-dry mass, and then a tenth too high.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Species {
    /// Carya ovata.
    ShagbarkHickory,
    /// Fraxinus americana.
    WhiteAsh,
    /// Quercus alba.
    WhiteOak,
    /// Acer saccharum.
    SugarMaple,
    /// Robinia pseudoacacia.
    BlackLocust,
    /// Betula alleghaniensis.
    YellowBirch,
    /// Fagus grandifolia.
    AmericanBeech,
    /// Maclura pomifera.
    OsageOrange,
}

impl Species {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::ShagbarkHickory,
        Self::WhiteAsh,
        Self::WhiteOak,
        Self::SugarMaple,
        Self::BlackLocust,
        Self::YellowBirch,
        Self::AmericanBeech,
        Self::OsageOrange,
    ];

    /// Its name in JSON.
    pub const fn name(self) -> &'static str {
        match self {
            Self::ShagbarkHickory => "shagbark_hickory",
            Self::WhiteAsh => "white_ash",
            Self::WhiteOak => "white_oak",
            Self::SugarMaple => "sugar_maple",
            Self::BlackLocust => "black_locust",
            Self::YellowBirch => "yellow_birch",
            Self::AmericanBeech => "american_beech",
            Self::OsageOrange => "osage_orange",
        }
    }

    /// Its name in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::ShagbarkHickory => "shagbark hickory",
            Self::WhiteAsh => "white ash",
            Self::WhiteOak => "white oak",
            Self::SugarMaple => "sugar maple",
            Self::BlackLocust => "black locust",
            Self::YellowBirch => "yellow birch",
            Self::AmericanBeech => "American beech",
            Self::OsageOrange => "Osage orange",
        }
    }

    /// Mass when dry over volume at 12 % moisture, g/cm³.
    pub const fn specific_gravity(self) -> f64 {
        match self {
            Self::ShagbarkHickory => 0.72,
            Self::WhiteAsh => 0.60,
            Self::WhiteOak => 0.68,
            Self::SugarMaple => 0.63,
            Self::BlackLocust => 0.69,
            Self::YellowBirch => 0.62,
            Self::AmericanBeech => 0.64,
            Self::OsageOrange => 0.85,
        }
    }

    /// Modulus of rupture at 12 % moisture, MPa.
    pub const fn modulus_of_rupture_mpa(self) -> f64 {
        match self {
            Self::ShagbarkHickory => 139.0,
            Self::WhiteAsh => 103.0,
            Self::WhiteOak => 105.0,
            Self::SugarMaple => 109.0,
            Self::BlackLocust => 134.0,
            Self::YellowBirch => 114.0,
            Self::AmericanBeech => 103.0,
            Self::OsageOrange => 128.6,
        }
    }
}

/// A wood by a name that is not known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownSpecies(String);

impl fmt::Display for UnknownSpecies {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names = Species::ALL.map(Species::name).join(", ");
        write!(
            f,
            "\u{201c}{}\u{201d} is no wood that is known here. Known are {names}; give any other as \u{201c}own\u{201d}, with its \
             name and specific gravity.",
            self.0
        )
    }
}

impl std::error::Error for UnknownSpecies {}

impl FromStr for Species {
    type Err = UnknownSpecies;

    fn from_str(text: &str) -> Result<Self, UnknownSpecies> {
        Self::ALL
            .into_iter()
            .find(|species| species.name() == text)
            .ok_or_else(|| UnknownSpecies(text.chars().take(LONGEST_WOOD_NAME).collect()))
    }
}

impl<'de> Deserialize<'de> for Species {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(Error::custom)
    }
}

impl Wood {
    /// Its name in words.
    pub fn words(&self) -> &str {
        match self {
            Self::Species(species) => species.words(),
            Self::Own { name, .. } => name,
        }
    }

    /// Mass when dry over volume at 12 % moisture, g/cm³.
    pub const fn specific_gravity(&self) -> f64 {
        match self {
            Self::Species(species) => species.specific_gravity(),
            Self::Own {
                specific_gravity, ..
            } => *specific_gravity,
        }
    }

    /// Density at `moisture_percent`: 1000·G·(1 + M/100) kg/m³, with the volume that the wood has at 12 %.
    ///
    /// # Accuracy
    /// At 12 % that of the species' mean; what wood shrinks and swells between 4 % and 20 % is left out, a few percent
    /// of its volume. One stick differs from the mean of its species by more.
    /// # Source
    /// U.S. Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), chapter 4: ρ = ρ_w·G·(1 + M/100), read as
    /// quoted by D. R. Larsen, Forestry Functions, University of Missouri. That the specific gravities of the tables
    /// are dry mass over volume at 12 % is from memory.
    pub fn density(&self, moisture_percent: f64) -> Density {
        Density::g_per_cm3(self.specific_gravity() * (1.0 + moisture_percent / 100.0))
    }

    /// Modulus of rupture at 12 % moisture, MPa, where it is known.
    pub const fn modulus_of_rupture_mpa(&self) -> Option<f64> {
        match self {
            Self::Species(species) => Some(species.modulus_of_rupture_mpa()),
            Self::Own { .. } => None,
        }
    }
}
