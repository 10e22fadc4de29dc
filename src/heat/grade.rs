//! The steels that hammers are forged from, and how each is treated.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::composition::{Composition, Element, Span};
use super::quench::Medium;
use super::stated::{Band, Stated};
use crate::units::Density;

/// A grade of steel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub enum Grade {
    /// Carbon steel, 0.45 % carbon.
    #[default]
    #[serde(rename = "1045")]
    C1045,
    /// Carbon steel, 0.60 % carbon.
    #[serde(rename = "1060")]
    C1060,
    /// Carbon steel, 0.75 % carbon.
    #[serde(rename = "1075")]
    C1075,
    /// Carbon steel, 0.80 % carbon.
    #[serde(rename = "1080")]
    C1080,
    /// Carbon steel, 0.85 % carbon.
    #[serde(rename = "1084")]
    C1084,
    /// Chromium and molybdenum, 0.40 % carbon.
    #[serde(rename = "4140")]
    A4140,
    /// Nickel, chromium and molybdenum, 0.40 % carbon.
    #[serde(rename = "4340")]
    A4340,
    /// Chromium, 0.60 % carbon.
    #[serde(rename = "5160")]
    A5160,
    /// Water-hardening tool steel.
    W1,
    /// Water-hardening tool steel with vanadium.
    W2,
    /// Shock-resisting tool steel that hardens in air.
    S7,
    /// Hot-work tool steel that hardens in air.
    H13,
}

/// What kind of steel a grade is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Carbon and manganese alone: hardens shallow.
    PlainCarbon,
    /// Some alloy: hardens deep in oil.
    LowAlloy,
    /// Tool steel for water.
    WaterHardening,
    /// Tool steel for air.
    AirHardening,
}

/// What a grade does in a quench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Bears {
    /// It hardens.
    Well,
    /// It may crack or stay soft, by the section.
    WithCare,
    /// It is likely to crack.
    Cracks,
    /// It does not harden.
    StaysSoft,
}

/// How a grade is treated. Temperatures in °C.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Practice {
    /// The grade's range of composition.
    pub span: Stated<Span>,
    /// Forging heat: do not go above, and stop below.
    pub forge: Stated<Band>,
    /// Normalizing heat; nothing where the grade must not be normalized.
    pub normalize: Option<Stated<Band>>,
    /// Heat to warm through at before the hardening heat.
    pub preheat: Option<Stated<Band>>,
    /// Hardening heat.
    pub harden: Stated<Band>,
    /// Hardness at the skin after a quench that suits, HRC.
    pub as_quenched: Stated<Band>,
    /// The quench that suits.
    pub medium: Medium,
    /// An oven's heat for tempering when nothing else is said: common practice, outside the range of embrittlement.
    pub temper_celsius: f64,
    /// How often it is tempered.
    pub tempers: u8,
    /// Ms as published, for grades that the formula does not hold for.
    pub published_ms: Option<Stated<Band>>,
}

/// Ranges as (element, least, most).
const fn span<const N: usize>(ranges: [(Element, f64, f64); N]) -> Span {
    let (mut least, mut most) = (Composition::NOTHING, Composition::NOTHING);
    let mut at = 0;
    while at < N {
        let (element, low, high) = ranges[at];
        least = least.with(element, low);
        most = most.with(element, high);
        at += 1;
    }
    Span { least, most }
}

/// What is left in a carbon steel of the scrap that it was melted from, percent: an assumption, no source. It raises
/// the ideal diameter of 1045 by a third.
pub(super) const RESIDUALS: [(Element, f64); 4] = [
    (Element::Ni, 0.08),
    (Element::Cr, 0.08),
    (Element::Mo, 0.02),
    (Element::Cu, 0.15),
];

const SILICON: (Element, f64, f64) = (Element::Si, 0.15, 0.35);
const A29: &str = "SAE J403 / ASTM A29, as a steel dealer reprints it";
const J403: &str = "SAE J403, carbon and manganese; silicon as is usual";
const GUIDE: &str = "heat treaters’ guides as smiths and dealers quote them";
const GUIDE_MEMORY: &str = "values of heat treaters’ guides";
impl Grade {
    /// All of them: carbon, alloy, tool.
    pub const ALL: [Self; 12] = [
        Self::C1045,
        Self::C1060,
        Self::C1075,
        Self::C1080,
        Self::C1084,
        Self::A4140,
        Self::A4340,
        Self::A5160,
        Self::W1,
        Self::W2,
        Self::S7,
        Self::H13,
    ];

    /// Its number or letter.
    pub const fn name(self) -> &'static str {
        match self {
            Self::C1045 => "1045",
            Self::C1060 => "1060",
            Self::C1075 => "1075",
            Self::C1080 => "1080",
            Self::C1084 => "1084",
            Self::A4140 => "4140",
            Self::A4340 => "4340",
            Self::A5160 => "5160",
            Self::W1 => "W1",
            Self::W2 => "W2",
            Self::S7 => "S7",
            Self::H13 => "H13",
        }
    }

    /// What it is, for who does not know the number.
    pub const fn words(self) -> &'static str {
        match self {
            Self::C1045 => "carbon steel, 0.45 % carbon",
            Self::C1060 => "carbon steel, 0.60 % carbon",
            Self::C1075 => "carbon steel, 0.75 % carbon",
            Self::C1080 => "carbon steel, 0.80 % carbon",
            Self::C1084 => "carbon steel, 0.85 % carbon",
            Self::A4140 => "chromium-molybdenum steel, 0.40 % carbon",
            Self::A4340 => "nickel-chromium-molybdenum steel, 0.40 % carbon",
            Self::A5160 => "chromium spring steel, 0.60 % carbon",
            Self::W1 => "water-hardening tool steel",
            Self::W2 => "water-hardening tool steel with vanadium",
            Self::S7 => "shock-resisting tool steel, hardens in air",
            Self::H13 => "hot-work tool steel, hardens in air",
        }
    }

    /// What kind of steel it is.
    pub const fn kind(self) -> Kind {
        match self {
            Self::C1045 | Self::C1060 | Self::C1075 | Self::C1080 | Self::C1084 => {
                Kind::PlainCarbon
            }
            Self::A4140 | Self::A4340 | Self::A5160 => Kind::LowAlloy,
            Self::W1 | Self::W2 => Kind::WaterHardening,
            Self::S7 | Self::H13 => Kind::AirHardening,
        }
    }

    /// Whether tempering between 230 °C and 370 °C makes it brittle.
    pub const fn embrittles(self) -> bool {
        !matches!(self.kind(), Kind::AirHardening)
    }

    /// What it does in `medium`: common practice, no source.
    pub const fn bears(self, medium: Medium) -> Bears {
        match (self.kind(), medium) {
            (Kind::AirHardening, Medium::Air) => Bears::Well,
            (_, Medium::Air) => Bears::StaysSoft,
            (Kind::LowAlloy, Medium::Oil) => Bears::Well,
            (Kind::LowAlloy | Kind::AirHardening, Medium::Water | Medium::Brine) => Bears::Cracks,
            (Kind::WaterHardening, Medium::Water | Medium::Brine) => Bears::Well,
            // With so much carbon water cracks what has an eye or a sharp corner.
            (Kind::PlainCarbon, Medium::Water) => match self {
                Self::C1075 | Self::C1080 | Self::C1084 => Bears::WithCare,
                _ => Bears::Well,
            },
            (Kind::PlainCarbon, Medium::Brine | Medium::Oil) => Bears::WithCare,
            (Kind::WaterHardening | Kind::AirHardening, Medium::Oil) => Bears::WithCare,
        }
    }

    /// Its density.
    pub const fn density(self) -> Density {
        Density::kg_per_m3(match self {
            Self::C1045 | Self::C1060 | Self::C1075 | Self::C1080 | Self::C1084 => 7850.0,
            Self::A4140 | Self::A4340 | Self::A5160 | Self::W2 => 7850.0,
            Self::W1 => 7840.0,
            Self::S7 => 7760.0,
            Self::H13 => 7800.0,
        })
    }

    /// Where its density comes from, kg/m³.
    pub const fn stated_density(self) -> Stated<f64> {
        let value = self.density().in_kg_per_m3();
        match self {
            Self::C1045 => Stated::read(
                value,
                "the design convention for steel, Eurocode 3, UK National Annex",
            ),
            Self::W1 => Stated::read(
                value,
                "Metals Handbook Desk Edition, 2nd ed., ASM, as a public table quotes it",
            ),
            Self::S7 => Stated::read(
                value,
                "a public table of materials; 7830 kg/m³ is quoted as well, from memory",
            ),
            Self::H13 => Stated::read(value, "a public table of materials"),
            _ => Stated::memory(value, "the usual value for this grade"),
        }
    }

    /// How it is treated.
    pub fn practice(self) -> Practice {
        use Element::{C, Cr, Mn, Mo, Ni, P, S, Si, V};
        let band = Band::new;
        let carbon = Practice {
            span: Stated::read(
                span([
                    (C, 0.43, 0.50),
                    (Mn, 0.60, 0.90),
                    SILICON,
                    (P, 0.0, 0.040),
                    (S, 0.0, 0.050),
                ]),
                A29,
            ),
            forge: Stated::read(band(850.0, 1250.0), "smiths’ forums"),
            normalize: Some(Stated::read(band(870.0, 920.0), GUIDE)),
            preheat: None,
            harden: Stated::read(band(820.0, 850.0), GUIDE),
            as_quenched: Stated::memory(band(52.0, 57.0), GUIDE_MEMORY),
            medium: Medium::Water,
            temper_celsius: 190.0,
            tempers: 1,
            published_ms: None,
        };
        let high_carbon = Practice {
            forge: Stated::memory(band(815.0, 1150.0), GUIDE_MEMORY),
            normalize: Some(Stated::memory(band(845.0, 885.0), GUIDE_MEMORY)),
            harden: Stated::memory(band(800.0, 815.0), GUIDE_MEMORY),
            as_quenched: Stated::memory(band(63.0, 65.0), GUIDE_MEMORY),
            temper_celsius: 220.0,
            published_ms: Some(Stated::memory(
                band(200.0, 240.0),
                "Ms of 1080 and its neighbours",
            )),
            ..carbon
        };
        let alloy = Practice {
            medium: Medium::Oil,
            ..carbon
        };
        let water_tool = Practice {
            forge: Stated::memory(band(815.0, 1065.0), GUIDE_MEMORY),
            normalize: Some(Stated::memory(
                band(790.0, 870.0),
                "after forging only; the heat falls as carbon rises",
            )),
            harden: Stated::memory(band(760.0, 845.0), "the heat falls as carbon rises"),
            as_quenched: Stated::memory(band(64.0, 67.0), GUIDE_MEMORY),
            // Below the brittle range it stays harder than the standards let a face be: twice takes a little more off.
            temper_celsius: 225.0,
            tempers: 2,
            published_ms: Some(Stated::memory(
                band(200.0, 215.0),
                "Ms of W1 with 1 % carbon",
            )),
            ..carbon
        };
        match self {
            Self::C1045 => carbon,
            Self::C1060 => Practice {
                span: Stated::memory(span([(C, 0.55, 0.65), (Mn, 0.60, 0.90), SILICON]), J403),
                normalize: Some(Stated::memory(band(870.0, 900.0), GUIDE_MEMORY)),
                harden: Stated::memory(band(805.0, 825.0), GUIDE_MEMORY),
                as_quenched: Stated::memory(band(60.0, 64.0), GUIDE_MEMORY),
                published_ms: None,
                ..high_carbon
            },
            Self::C1075 => Practice {
                span: Stated::memory(span([(C, 0.70, 0.80), (Mn, 0.40, 0.70), SILICON]), J403),
                ..high_carbon
            },
            Self::C1080 => Practice {
                span: Stated::memory(
                    span([(C, 0.75, 0.88), (Mn, 0.60, 0.90), SILICON]),
                    "SAE J403; carbon read on a dealer’s page",
                ),
                normalize: Some(Stated::read(band(870.0, 890.0), "a steel dealer’s page")),
                ..high_carbon
            },
            Self::C1084 => Practice {
                span: Stated::memory(span([(C, 0.80, 0.93), (Mn, 0.60, 0.90), SILICON]), J403),
                ..high_carbon
            },
            Self::A4140 => Practice {
                span: Stated::read(
                    span([
                        (C, 0.38, 0.43),
                        (Mn, 0.75, 1.00),
                        SILICON,
                        (Cr, 0.80, 1.10),
                        (Mo, 0.15, 0.25),
                    ]),
                    "steel dealers’ and heat treaters’ pages",
                ),
                forge: Stated::read(band(980.0, 1200.0), "a steel dealer’s page"),
                normalize: Some(Stated::read(band(870.0, 900.0), "a steel dealer’s page")),
                harden: Stated::read(band(845.0, 870.0), "an engineers’ table, 1550 to 1600 °F"),
                as_quenched: Stated::read(band(54.0, 59.0), "SAE Handbook as a page quotes it"),
                temper_celsius: 205.0,
                ..alloy
            },
            Self::A4340 => Practice {
                span: Stated::memory(
                    span([
                        (C, 0.38, 0.43),
                        (Mn, 0.60, 0.80),
                        SILICON,
                        (Ni, 1.65, 2.00),
                        (Cr, 0.70, 0.90),
                        (Mo, 0.20, 0.30),
                    ]),
                    "SAE J404",
                ),
                forge: Stated::memory(band(980.0, 1200.0), GUIDE_MEMORY),
                normalize: Some(Stated::read(
                    band(870.0, 925.0),
                    "an engineers’ table, 1600 to 1700 °F",
                )),
                harden: Stated::read(band(815.0, 845.0), "an engineers’ table, 1500 to 1550 °F"),
                as_quenched: Stated::memory(band(54.0, 58.0), GUIDE_MEMORY),
                temper_celsius: 205.0,
                ..alloy
            },
            Self::A5160 => Practice {
                span: Stated::read(
                    span([(C, 0.56, 0.64), (Mn, 0.75, 1.00), SILICON, (Cr, 0.70, 0.90)]),
                    "ASTM A29 as a steel dealer quotes it",
                ),
                forge: Stated::read(band(870.0, 1205.0), "smiths’ pages that quote ASM"),
                normalize: Some(Stated::read(
                    band(860.0, 880.0),
                    "smiths’ pages that quote ASM",
                )),
                harden: Stated::read(band(820.0, 840.0), "smiths’ pages that quote ASM"),
                as_quenched: Stated::read(band(58.0, 63.0), "smiths’ pages that quote ASM"),
                temper_celsius: 225.0,
                ..alloy
            },
            Self::W1 => Practice {
                span: Stated::read(
                    span([
                        (C, 0.70, 1.50),
                        (Mn, 0.10, 0.40),
                        (Si, 0.10, 0.40),
                        (Cr, 0.0, 0.15),
                        (Ni, 0.0, 0.20),
                        (Mo, 0.0, 0.10),
                        (V, 0.0, 0.10),
                    ]),
                    "UNS T72301 in a public table of materials",
                ),
                ..water_tool
            },
            Self::W2 => Practice {
                span: Stated::read(
                    span([
                        (C, 0.85, 1.50),
                        (Mn, 0.10, 0.40),
                        (Si, 0.10, 0.40),
                        (Cr, 0.0, 0.15),
                        (Ni, 0.0, 0.20),
                        (Mo, 0.0, 0.10),
                        (V, 0.15, 0.35),
                    ]),
                    "UNS T72302 in a public table of materials",
                ),
                as_quenched: Stated::read(
                    band(64.0, 67.0),
                    "a disc 16 mm thick, quenched in water from 790 °C, in a textbook",
                ),
                ..water_tool
            },
            Self::S7 => Practice {
                span: Stated::read(
                    span([
                        (C, 0.45, 0.55),
                        (Mn, 0.20, 0.90),
                        (Si, 0.20, 1.00),
                        (Cr, 3.00, 3.50),
                        (Mo, 1.30, 1.80),
                        (V, 0.0, 0.35),
                    ]),
                    "ASTM A681 as a page quotes it",
                ),
                forge: Stated::memory(band(925.0, 1120.0), GUIDE_MEMORY),
                normalize: None,
                preheat: Some(Stated::read(
                    band(650.0, 705.0),
                    "a steel maker’s data sheet",
                )),
                harden: Stated::read(
                    band(925.0, 955.0),
                    "steel makers’ data sheets, 1700 to 1750 °F",
                ),
                as_quenched: Stated::read(
                    band(57.0, 60.0),
                    "a steel maker’s data sheet, 59 HRC from air",
                ),
                medium: Medium::Air,
                temper_celsius: 260.0,
                tempers: 2,
                ..carbon
            },
            Self::H13 => Practice {
                span: Stated::read(
                    span([
                        (C, 0.32, 0.45),
                        (Mn, 0.20, 0.50),
                        (Si, 0.80, 1.20),
                        (Cr, 4.8, 5.5),
                        (Ni, 0.0, 0.30),
                        (Mo, 1.1, 1.8),
                        (V, 0.80, 1.20),
                    ]),
                    "a public table of materials",
                ),
                forge: Stated::memory(band(900.0, 1150.0), GUIDE_MEMORY),
                normalize: None,
                preheat: Some(Stated::memory(band(650.0, 815.0), GUIDE_MEMORY)),
                harden: Stated::memory(band(995.0, 1040.0), GUIDE_MEMORY),
                as_quenched: Stated::memory(band(51.0, 54.0), GUIDE_MEMORY),
                medium: Medium::Air,
                temper_celsius: 540.0,
                tempers: 2,
                ..carbon
            },
        }
    }
}
