//! What a steel is made of.

use std::collections::BTreeMap;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};

/// An element that a mill's certificate names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Element {
    /// Carbon.
    C,
    /// Manganese.
    Mn,
    /// Silicon.
    Si,
    /// Nickel.
    Ni,
    /// Chromium.
    Cr,
    /// Molybdenum.
    Mo,
    /// Vanadium.
    V,
    /// Tungsten.
    W,
    /// Copper.
    Cu,
    /// Phosphorus.
    P,
    /// Sulphur.
    S,
}

impl Element {
    /// How many there are.
    pub const COUNT: usize = 11;

    /// All of them, in the order of a certificate.
    pub const ALL: [Self; Self::COUNT] = [
        Self::C,
        Self::Mn,
        Self::Si,
        Self::Ni,
        Self::Cr,
        Self::Mo,
        Self::V,
        Self::W,
        Self::Cu,
        Self::P,
        Self::S,
    ];

    /// Its symbol.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::C => "C",
            Self::Mn => "Mn",
            Self::Si => "Si",
            Self::Ni => "Ni",
            Self::Cr => "Cr",
            Self::Mo => "Mo",
            Self::V => "V",
            Self::W => "W",
            Self::Cu => "Cu",
            Self::P => "P",
            Self::S => "S",
        }
    }

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::C => "carbon",
            Self::Mn => "manganese",
            Self::Si => "silicon",
            Self::Ni => "nickel",
            Self::Cr => "chromium",
            Self::Mo => "molybdenum",
            Self::V => "vanadium",
            Self::W => "tungsten",
            Self::Cu => "copper",
            Self::P => "phosphorus",
            Self::S => "sulphur",
        }
    }
}

/// A composition, percent of mass; the rest is iron.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(from = "BTreeMap<Element, f64>", into = "BTreeMap<Element, f64>")]
pub struct Composition([f64; Element::COUNT]);

impl From<BTreeMap<Element, f64>> for Composition {
    fn from(map: BTreeMap<Element, f64>) -> Self {
        map.into_iter()
            .fold(Self::default(), |all, (element, percent)| {
                all.with(element, percent)
            })
    }
}

impl From<Composition> for BTreeMap<Element, f64> {
    fn from(composition: Composition) -> Self {
        composition
            .iter()
            .filter(|(_, percent)| *percent != 0.0)
            .collect()
    }
}

impl JsonSchema for Composition {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Composition".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let percents: BTreeMap<&str, Schema> = Element::ALL
            .into_iter()
            .map(|element| (element.symbol(), f64::json_schema(generator)))
            .collect();
        json_schema!({
            "type": "object",
            "description": "A composition, percent of mass by the symbols of the elements; the rest is iron.",
            "properties": percents,
            "additionalProperties": false,
        })
    }
}

impl Composition {
    /// Nothing but iron.
    pub const NOTHING: Self = Self([0.0; Element::COUNT]);

    /// Percent of `element`.
    pub const fn percent(&self, element: Element) -> f64 {
        self.0[element as usize]
    }

    /// The same with another share of `element`.
    #[must_use]
    pub const fn with(mut self, element: Element, percent: f64) -> Self {
        self.0[element as usize] = percent;
        self
    }

    /// Every element with its percent.
    pub fn iter(&self) -> impl Iterator<Item = (Element, f64)> + use<> {
        let percents = self.0;
        Element::ALL
            .into_iter()
            .map(move |element| (element, percents[element as usize]))
    }

    /// Everything but iron, percent.
    pub fn sum(&self) -> f64 {
        self.0.iter().sum()
    }
}

/// A range of compositions.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Span {
    /// The least of every element.
    pub least: Composition,
    /// The most of every element.
    pub most: Composition,
}

impl Span {
    /// A single composition.
    pub const fn exactly(composition: Composition) -> Self {
        Self {
            least: composition,
            most: composition,
        }
    }

    /// The middle of every range.
    pub fn middle(&self) -> Composition {
        let mut middle = self.least;
        for element in Element::ALL {
            let sum = self.least.percent(element) + self.most.percent(element);
            middle = middle.with(element, 0.5 * sum);
        }
        middle
    }

    /// Least and most of `element`.
    pub const fn of(&self, element: Element) -> (f64, f64) {
        (self.least.percent(element), self.most.percent(element))
    }

    /// The elements of `composition` that lie outside.
    pub fn outside<'a>(
        &'a self,
        composition: &'a Composition,
    ) -> impl Iterator<Item = Element> + 'a {
        // A certificate rounds to hundredths.
        const ROUNDING: f64 = 0.005;
        composition.iter().filter_map(move |(element, percent)| {
            let (least, most) = self.of(element);
            (percent < least - ROUNDING || percent > most + ROUNDING).then_some(element)
        })
    }
}
