//! What the smith is told of a heat treatment, in sentences.

use serde::{Serialize, Serializer};

use super::composition::Element;
use super::critical::{self, Outside};
use super::error::hundredths;
use super::grade::{Bears, Grade, Kind};
use super::hardenability::{self, Validity};
use super::plan::{AIR_HARDENS_MM, Place, Plan, UNDER_MM};
use super::quench::Medium;
use super::temper::EMBRITTLEMENT;
use super::tempering::CLEAR_CELSIUS;
use crate::bar::Certainty;
use crate::design::{Side, length_in_words};
use crate::units::{System, show_number, show_temperature};

/// A caution and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// The caution.
    pub text: &'static str,
    /// Its source.
    pub source: &'static str,
    /// How surely it is known.
    pub certainty: Certainty,
}

const fn read(text: &'static str, source: &'static str) -> Caution {
    Caution {
        text,
        source,
        certainty: Certainty::Read,
    }
}

const fn practice(text: &'static str) -> Caution {
    Caution {
        text,
        source: "common practice, no source",
        certainty: Certainty::CommonPractice,
    }
}

/// What goes with every heat treatment, wherever one is shown.
pub const CAUTIONS: [Caution; 9] = [
    practice(
        "Local codes and licensed practice come first: fire, fuel gas, oil and fume are ruled where you work.",
    ),
    read(
        "A face that is too hard chips, and a chip blinds. Wear eye protection (ANSI Z87.1), and so must those who stand by.",
        "ASME B107.53-2004 section 6 and DGUV Information 209-001, section 2.3, as quoted",
    ),
    read(
        "Never strike hardened faces together, nor one hammer with another.",
        "DIN 1193, introduction; university safety manuals",
    ),
    practice(
        "Water cracks alloy steels: 4140, 4340 and 5160 go into oil. A crack may open hours later: temper at once, and look again.",
    ),
    read(
        "Quench oil burns and foams over where water has got into it. Keep a steel tank with a lid at hand, far more oil than the head needs, and an extinguisher for oil; wear face shield, gloves and clothes that do not melt.",
        "CCOHS, heat treating; a trade journal on quench fires, 2016",
    ),
    Caution {
        text: "Put the head all the way under oil at once: steel that is half in lights the oil. Never use motor oil or an unknown one.",
        source: "smiths’ forums; common practice",
        certainty: Certainty::CommonPractice,
    },
    read(
        "No galvanized or plated stock or tongs in the fire: zinc fume makes ill.",
        "AWS Fact Sheet 25 (2002); OSHA and NIOSH limits 5 mg/m³",
    ),
    practice(
        "Forges and ovens make carbon monoxide: burn in the open air or under a hood that draws, with an alarm near your head.",
    ),
    practice(
        "Black-hot steel does not glow and burns as well: mark the head as hot until it is cold.",
    ),
];

/// A window of hardness that a public standard asks for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HardnessWindow {
    /// What it is for.
    pub of: &'static str,
    /// The least, HRC; nothing where only a most is said.
    pub least_hrc: Option<f64>,
    /// The most, HRC.
    pub most_hrc: f64,
    /// The standard.
    pub source: &'static str,
}

/// Hardness windows of public standards, as read in quotations of them.
pub const HARDNESS_WINDOWS: [HardnessWindow; 5] = [
    HardnessWindow {
        of: "striking face, with a tougher core behind it",
        least_hrc: Some(45.0),
        most_hrc: 60.0,
        source: "ASME B107.54-2001, 4.3.1",
    },
    HardnessWindow {
        of: "pein of a smith’s cross-pein sledge, at least 12.7 mm back",
        least_hrc: Some(45.0),
        most_hrc: 60.0,
        source: "ASME B107.54-2001, 4.3.3",
    },
    HardnessWindow {
        of: "face and pein",
        least_hrc: Some(52.0),
        most_hrc: 58.0,
        source: "DIN 1193, as DGUV Information 209-001 quotes it",
    },
    HardnessWindow {
        of: "face and pein, at least 3 mm deep",
        least_hrc: Some(50.0),
        most_hrc: 58.0,
        source: "DIN 1041, as a public summary has it",
    },
    HardnessWindow {
        of: "around the eye",
        least_hrc: None,
        most_hrc: 30.0,
        source: "DIN 1193, as DGUV Information 209-001 quotes it",
    },
];

/// From here on a face is harder than the standards let it be, HRC.
const TOO_HARD_HRC: f64 = 60.0;
/// Below this a face is softer than they want it, HRC.
const TOO_SOFT_HRC: f64 = 45.0;
/// What DIN 1041 wants as deep as 3 mm, HRC.
const DEEP_HRC: f64 = 50.0;
/// Where the scale ends, HRC.
const LEAST_HRC: f64 = 20.0;
/// Densities further apart than this share are worth a word.
const DENSITY_APART: f64 = 0.004;

/// Something to be said of a heat treatment. Written as a sentence in metric units; [`Note::sentence`] says it in the
/// units that the smith reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Note {
    /// The analysis has a share that the grade does not.
    OutsideGrade {
        /// The grade.
        grade: Grade,
        /// The element.
        element: Element,
        /// Its share, percent.
        percent: f64,
        /// Least and most that the grade has, percent.
        of_grade: (f64, f64),
    },
    /// The head is reckoned with another density.
    Density {
        /// The grade.
        grade: Grade,
        /// The grade's, kg/m³.
        of_grade: f64,
        /// The design's, kg/m³.
        of_design: f64,
    },
    /// Andrews' formulas do not hold.
    NoCritical {
        /// The grade.
        grade: Grade,
        /// Why.
        outside: Outside,
    },
    /// An element lies beyond the range of the hardenability method.
    Extrapolated {
        /// The element.
        element: Element,
        /// Its share, percent.
        percent: f64,
    },
    /// There is no factor for an element.
    NoHardenability {
        /// The grade.
        grade: Grade,
        /// The element.
        element: Element,
    },
    /// Only the skin gets hard.
    Shallow {
        /// The grade.
        grade: Grade,
    },
    /// The quench is a matter of care.
    WithCare {
        /// The grade.
        grade: Grade,
        /// The medium.
        medium: Medium,
    },
    /// Too thick for air.
    TooThickForAir {
        /// The end.
        side: Side,
        /// Its round, mm.
        round_mm: f64,
    },
    /// The temper is in the brittle range.
    Brittle {
        /// Its temperature, °C.
        celsius: f64,
    },
    /// A face that may come out too hard.
    Hard {
        /// The end.
        side: Side,
        /// What it may come to, HRC.
        hrc: f64,
    },
    /// A face that cannot come out hard enough.
    Soft {
        /// The end.
        side: Side,
        /// What it comes to at most, HRC.
        hrc: f64,
    },
    /// A face that may stay soft.
    MayStaySoft {
        /// The end.
        side: Side,
        /// What it may come to, HRC.
        hrc: f64,
    },
    /// An end that is soft where DIN 1041 still wants it hard.
    SoftUnder {
        /// The end.
        side: Side,
        /// What it has there at most, HRC.
        hrc: f64,
    },
    /// A thin end, which heats and cools first.
    Thin {
        /// The end.
        side: Side,
        /// Its thickness, mm.
        thick_mm: f64,
        /// Whether it goes into water or brine so thin that it may crack there.
        may_crack: bool,
    },
    /// The quench leaves less than is wanted, whatever the temper.
    NotReached {
        /// The end.
        side: Side,
        /// What is wanted, HRC.
        wanted: f64,
        /// What the quench leaves at most at the skin, HRC.
        most: f64,
    },
}

impl Serialize for Note {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.sentence(System::Metric))
    }
}

/// The most of an element that comes with scrap into a steel which does not name it, percent: ASTM A29 for nickel, chromium,
/// molybdenum and copper, and for phosphorus and sulphur of carbon steel, from memory; for the others no source.
const fn most_from_scrap(element: Element) -> f64 {
    match element {
        Element::Cu => 0.35,
        Element::Ni => 0.25,
        Element::Cr => 0.20,
        Element::Mo => 0.06,
        Element::P => 0.04,
        Element::S | Element::V | Element::W => 0.05,
        Element::C | Element::Mn | Element::Si => 0.0,
    }
}

/// An end thinner than this may crack in water, mm (common practice, no source).
const MAY_CRACK_MM: f64 = 6.0;
/// An end thinner than this share of the thickest section runs ahead of it.
const THIN_SHARE: f64 = 0.5;

/// Everything to be said of `plan`, for a design of this density, kg/m³.
pub(super) fn notes(plan: &Plan, density: f64) -> Vec<Note> {
    let mut notes = Vec::new();
    let grade = plan.steel.grade;
    if let Some(analysis) = &plan.steel.analysis {
        let span = plan.practice.span.value;
        // What the grade does not name may be there as far as scrap brings it in.
        let strange = |element: &Element| {
            let named = span.of(*element).1 > 0.0;
            named || analysis.percent(*element) > most_from_scrap(*element)
        };
        // What a certificate leaves out is not said to be missing.
        let stated = |element: &Element| analysis.percent(*element) != 0.0;
        let outside = span.outside(analysis).filter(strange).filter(stated);
        notes.extend(outside.map(|element| Note::OutsideGrade {
            grade,
            element,
            percent: analysis.percent(element),
            of_grade: span.of(element),
        }));
    }
    let of_grade = grade.density().in_kg_per_m3();
    if (density / of_grade - 1.0).abs() > DENSITY_APART {
        notes.push(Note::Density {
            grade,
            of_grade,
            of_design: density,
        });
    }
    let middle = plan.composition.value.middle();
    if let Err(outside) = critical::check(&middle) {
        notes.push(Note::NoCritical { grade, outside });
    }
    match hardenability::validity(&middle) {
        Validity::Within => {}
        Validity::Beyond(element) => notes.push(Note::Extrapolated {
            element,
            percent: middle.percent(element),
        }),
        Validity::Outside(element) => notes.push(Note::NoHardenability { grade, element }),
    }
    if grade.bears(plan.quench.medium) == Bears::WithCare {
        let medium = plan.quench.medium;
        notes.push(Note::WithCare { grade, medium });
    }
    let through = plan.ends.iter().flat_map(|end| end.places.last());
    let soft_inside = through.filter_map(|centre| centre.as_quenched_hrc);
    let shallow =
        soft_inside.clone().count() == 0 || soft_inside.clone().any(|hrc| hrc.high < DEEP_HRC);
    if shallow && matches!(grade.kind(), Kind::PlainCarbon | Kind::WaterHardening) {
        notes.push(Note::Shallow { grade });
    }
    if plan.tempering.embrittles {
        let celsius = plan.tempering.celsius;
        notes.push(Note::Brittle { celsius });
    }
    for end in &plan.ends {
        let side = end.end.side;
        let round_mm = end.round_mm.high;
        if plan.quench.medium == Medium::Air && round_mm > AIR_HARDENS_MM {
            notes.push(Note::TooThickForAir { side, round_mm });
        }
        let skin = end.places.iter().find(|place| place.place == Place::Skin);
        let quenched = skin.and_then(|skin| skin.as_quenched_hrc);
        if let (Some(wanted), Some(quenched)) = (plan.tempering.wanted_hrc, quenched)
            && quenched.high < wanted
        {
            notes.push(Note::NotReached {
                side,
                wanted,
                most: quenched.high,
            });
        }
        if let Some(hrc) = skin.and_then(|skin| skin.tempered_hrc) {
            if hrc.high > TOO_HARD_HRC {
                notes.push(Note::Hard {
                    side,
                    hrc: hrc.high,
                });
            }
            if hrc.high < TOO_SOFT_HRC {
                notes.push(Note::Soft {
                    side,
                    hrc: hrc.high,
                });
            } else if hrc.low < TOO_SOFT_HRC {
                notes.push(Note::MayStaySoft { side, hrc: hrc.low });
            }
        }
        let under = end.places.iter().find(|place| place.place == Place::Under);
        if let Some(hrc) = under.and_then(|under| under.tempered_hrc)
            && hrc.high < DEEP_HRC
        {
            notes.push(Note::SoftUnder {
                side,
                hrc: hrc.high,
            });
        }
        let thick_mm = end.end.section_mm[0].min(end.end.section_mm[1]);
        if thick_mm < THIN_SHARE * plan.thickest_mm {
            let in_water = matches!(plan.quench.medium, Medium::Water | Medium::Brine);
            notes.push(Note::Thin {
                side,
                thick_mm,
                may_crack: in_water && thick_mm < MAY_CRACK_MM,
            });
        }
    }
    notes
}

impl Note {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let degrees = |celsius: f64| show_temperature(celsius, system);
        match *self {
            Self::OutsideGrade {
                grade,
                element,
                percent,
                of_grade: (least, most),
            } => format!(
                "The analysis says {} % {}, but {} has {}: look at the certificate, or choose the grade that it is of.",
                hundredths(percent),
                element.name(),
                grade.name(),
                match (least, most) {
                    (_, 0.0) => "none but what scrap brings in".to_owned(),
                    (0.0, most) => format!("{} % at most", hundredths(most)),
                    (least, most) => format!("{} % to {} %", hundredths(least), hundredths(most)),
                }
            ),
            Self::Density {
                grade,
                of_grade,
                of_design,
            } => format!(
                "The design reckons with {} g/cm³, {} has {} g/cm³: with that the head weighs {} % {}.",
                hundredths(of_design / 1000.0),
                grade.name(),
                hundredths(of_grade / 1000.0),
                show_number(((of_grade / of_design - 1.0).abs() * 1000.0).round() / 10.0),
                if of_grade > of_design { "more" } else { "less" }
            ),
            Self::NoCritical { grade, outside } => match outside {
                Outside::Carbon(percent) => format!(
                    "No Ac1, Ac3 or Ms is reckoned for {}: Andrews’ formulas hold up to {} % carbon, and this has {} %.",
                    grade.name(),
                    critical::MOST_CARBON,
                    hundredths(percent)
                ),
                Outside::Alloy(percent) => format!(
                    "No Ac1, Ac3 or Ms is reckoned for {}: Andrews’ formulas are for steel with at most {} % of other elements, and this has {} %.",
                    grade.name(),
                    critical::MOST_ALLOY,
                    hundredths(percent)
                ),
                Outside::Crossed => format!(
                    "No Ac1, Ac3 or Ms is reckoned for this analysis of {}: Andrews’ formulas put its Ac3 below its Ac1.",
                    grade.name()
                ),
            },
            Self::Extrapolated { element, percent } => format!(
                "The ideal diameter is reckoned beyond the range of its method, with {} % {}.",
                hundredths(percent),
                element.name()
            ),
            Self::NoHardenability { grade, element } => format!(
                "No ideal diameter is reckoned for {}: the method has no factor for so much {}. Hardness is as published, where there is any.",
                grade.name(),
                element.name()
            ),
            Self::Shallow { grade } => format!(
                "{} hardens shallow: a hard skin over a tough core. That suits a hammer, but what is ground off the face comes off the hard part.",
                grade.name()
            ),
            Self::WithCare { grade, medium } => match (grade.kind(), medium) {
                (_, Medium::Water | Medium::Brine) => format!(
                    "{} may crack in {}, at the eye and at punch marks first. Round and polish those, take it out while it is still hand-warm, and temper at once.",
                    grade.name(),
                    medium.name()
                ),
                (Kind::AirHardening, _) => format!(
                    "{} goes into oil only where it is thicker than {}; else air is enough, and warps less.",
                    grade.name(),
                    length_in_words(AIR_HARDENS_MM, system)
                ),
                _ => format!(
                    "{} hardens in oil only where it is thin, about {}; a face of this size is likely to stay soft inside and may stay soft at the skin.",
                    grade.name(),
                    length_in_words(6.35, system)
                ),
            },
            Self::TooThickForAir { side, round_mm } => format!(
                "The {} end cools as a round of {}, more than the {} that air is known to harden through: no hardness is reckoned for it.",
                side.word(),
                length_in_words(round_mm, system),
                length_in_words(AIR_HARDENS_MM, system)
            ),
            Self::Brittle { celsius } => format!(
                "A temper at {} lies in the range from {} to {}, or within {} of it, where this steel gets brittle: a blow breaks it with a third to a half less energy than after {}, though it is softer (from memory).",
                degrees(celsius),
                degrees(EMBRITTLEMENT.least),
                degrees(EMBRITTLEMENT.most),
                match system {
                    System::Metric => format!("{CLEAR_CELSIUS} °C"),
                    System::Imperial => format!("{} °F", CLEAR_CELSIUS * 1.8),
                },
                degrees(200.0)
            ),
            Self::Hard { side, hrc } => format!(
                "The {} end may keep {} HRC at the skin; the standards let a face have at most {TOO_HARD_HRC} HRC, because a harder one chips. Below the brittle range another soak takes a little off; above it, from {} on, it is tough again and much softer.",
                side.word(),
                hrc.round(),
                degrees(EMBRITTLEMENT.most + CLEAR_CELSIUS)
            ),
            Self::Soft { side, hrc } => format!(
                "The {} end comes to {} HRC at the skin at most; the standards want at least {TOO_SOFT_HRC} HRC. Move it harder in the bath that suits the grade, temper cooler, or take another steel.",
                side.word(),
                hrc.round()
            ),
            Self::MayStaySoft { side, hrc } => format!(
                "The {} end may stay as soft as {} HRC at the skin, if the bar is at the lean end of its grade or the quench at the mild end of its words: try it with a file.",
                side.word(),
                hrc.round()
            ),
            Self::Thin {
                side,
                thick_mm,
                may_crack,
            } => format!(
                "The {} end is {} thick, far less than the cheeks: it is hot first and cools first. Heat it last and hold it out of the hottest fire.{}",
                side.word(),
                length_in_words(thick_mm, system),
                if may_crack {
                    " So thin an edge may crack in water: leave it thicker until it is hard, and grind it then."
                } else {
                    ""
                }
            ),
            Self::SoftUnder { side, hrc } => format!(
                "{} under the skin the {} end has {} at most; DIN 1041 wants {DEEP_HRC} HRC as deep as that. Grind little off, or take a steel that hardens deeper.",
                length_in_words(UNDER_MM, system),
                side.word(),
                if hrc < LEAST_HRC {
                    format!("less than {LEAST_HRC} HRC")
                } else {
                    format!("{} HRC", hrc.round())
                }
            ),
            Self::NotReached { side, wanted, most } => format!(
                "The {} end gets {} HRC at the skin at most in this quench, less than the {} HRC that are wanted: no temper makes it harder.",
                side.word(),
                most.round(),
                hundredths(wanted)
            ),
        }
    }
}
