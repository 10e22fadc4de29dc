//! What `heat` answers: how the head is normalized, hardened and tempered.

use super::shown;
use crate::heat::{
    Agitation, Aim, Composition, Element, Grade, Heat, Medium, Quench, Steel, Temper,
};
use crate::units::{System, UnitError, parse_temperature};

mod answer;
mod table;

pub use answer::{
    CriticalAnswer, EndQuenchAnswer, HardenabilityAnswer, HeatAnswer, PracticeAnswer, QuenchAnswer,
    SteelAnswer,
};

/// The words for how the head is moved, in the order of [`Agitation::ALL`].
const AGITATIONS: [&str; 6] = ["none", "mild", "moderate", "good", "strong", "violent"];
/// Minutes of an hour.
const MINUTES: f64 = 60.0;

/// What is asked of a heat treatment, as far as it was said: in the place of what the design says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HeatAsked {
    steel: Option<Grade>,
    analysis: Option<Composition>,
    medium: Option<Medium>,
    agitation: Option<Agitation>,
    bath: Option<f64>,
    aim: Option<Aim>,
    soak: Option<f64>,
    times: Option<u8>,
}

/// Why an option of `heat` cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HeatOptionError {
    /// A steel that is none.
    #[error("There is no steel “{0}” here; the steels are {known}.", known = grades())]
    Steel(String),
    /// A quench that is none.
    #[error("There is no quench in “{0}” here; the media are {known}.", known = media())]
    Medium(String),
    /// A way of moving that is none.
    #[error(
        "“{0}” does not say how the head is moved; the words for it are {known}.", known = agitations()
    )]
    Agitation(String),
    /// A temperature that is none.
    #[error("{option}: {error}")]
    Unit {
        /// The option.
        option: &'static str,
        /// What is wrong.
        error: UnitError,
    },
    /// A number that is none.
    #[error("“{text}” is no {what}. Write it like {example}.")]
    Number {
        /// What was given.
        text: String,
        /// What it should be.
        what: &'static str,
        /// How it is written.
        example: &'static str,
    },
    /// Both ways to say how it is tempered.
    #[error("Say how it is tempered in one way: --temper or --hardness.")]
    Aims,
    /// A part of an analysis that is none.
    #[error(
        "“{0}” is no share of an element. Write an analysis in percent, like C=0.45,Mn=0.75,Si=0.25."
    )]
    Share(String),
    /// An element that is not reckoned with.
    #[error("“{0}” is no element of an analysis; the elements are {known}.", known = elements())]
    Element(String),
    /// An element twice.
    #[error("The analysis gives {} twice.", .0.name())]
    ElementTwice(Element),
    /// An analysis without carbon.
    #[error(
        "The analysis says nothing of carbon, by which steel hardens. Write it like C=0.45,Mn=0.75,Si=0.25."
    )]
    NoCarbon,
    /// An option twice.
    #[error("{0} is given twice.")]
    Repeated(&'static str),
}

fn grades() -> String {
    Grade::ALL.map(Grade::name).join(", ")
}

fn media() -> String {
    Medium::ALL.map(Medium::name).join(", ")
}

fn agitations() -> String {
    AGITATIONS.join(", ")
}

fn elements() -> String {
    Element::ALL.map(Element::symbol).join(", ")
}

/// An option of `heat`, and what belongs after it.
pub(super) fn heat_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "steel" => ("--steel", "the grade, such as 4140"),
        "analysis" => ("--analysis", "percents, such as C=0.45,Mn=0.75,Si=0.25"),
        "quench" => ("--quench", "air, oil, water or brine"),
        "agitation" => ("--agitation", "how the head is moved, such as good"),
        "bath" => ("--bath", "how warm the bath is, such as 45C or 115F"),
        "temper" => ("--temper", "the oven’s heat, such as 205C or 400F"),
        "hardness" => ("--hardness", "the hardness of the faces in HRC, such as 52"),
        "soak" => ("--soak", "how long each soak is, such as 2h or 90min"),
        "times" => ("--times", "how often it is tempered, such as 2"),
        _ => return None,
    })
}

/// `text` without one of the units, which count so much each, as a number.
fn number(
    text: &str,
    units: &[(&str, f64)],
    what: &'static str,
    example: &'static str,
) -> Result<f64, HeatOptionError> {
    let trimmed = text.trim();
    let bare = units
        .iter()
        .find_map(|(unit, counts)| Some((trimmed.strip_suffix(unit)?, *counts)));
    let (bare, counts) = bare.unwrap_or((trimmed, 1.0));
    let read = bare.trim().parse::<f64>().ok();
    read.filter(|number| number.is_finite())
        .map(|number| number * counts)
        .ok_or_else(|| HeatOptionError::Number {
            text: shown(text.as_ref()),
            what,
            example,
        })
}

fn celsius(option: &'static str, text: &str) -> Result<f64, HeatOptionError> {
    parse_temperature(text, System::Metric).map_err(|error| HeatOptionError::Unit { option, error })
}

/// Reads `C=0.45,Mn=0.75,Si=0.25`; whether such a steel can be is for the plan to say.
fn analysis(text: &str) -> Result<Composition, HeatOptionError> {
    let mut given = Vec::new();
    let mut analysis = Composition::NOTHING;
    for part in text.split(',') {
        let share = || HeatOptionError::Share(shown(part.trim().as_ref()));
        let (symbol, percent) = part.split_once('=').ok_or_else(share)?;
        let symbol = symbol.trim();
        let element = Element::ALL
            .into_iter()
            .find(|element| element.symbol().eq_ignore_ascii_case(symbol))
            .ok_or_else(|| HeatOptionError::Element(shown(symbol.as_ref())))?;
        let percent = percent.trim().trim_end_matches(['%', ' ']);
        let percent = percent.parse::<f64>().ok().filter(|it| it.is_finite());
        if given.contains(&element) {
            return Err(HeatOptionError::ElementTwice(element));
        }
        given.push(element);
        analysis = analysis.with(element, percent.ok_or_else(share)?);
    }
    if given.contains(&Element::C) {
        Ok(analysis)
    } else {
        Err(HeatOptionError::NoCarbon)
    }
}

impl HeatAsked {
    /// Reads what follows `option`, one of [`heat_option`]'s.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub(super) fn take(&mut self, option: &'static str, text: &str) -> Result<(), HeatOptionError> {
        let word = text.trim();
        let repeated = match option {
            "--steel" => {
                let mut grades = Grade::ALL.into_iter();
                let grade = grades.find(|grade| grade.name().eq_ignore_ascii_case(word));
                let grade = grade.ok_or_else(|| HeatOptionError::Steel(shown(text.as_ref())))?;
                self.steel.replace(grade).is_some()
            }
            "--analysis" => self.analysis.replace(analysis(text)?).is_some(),
            "--quench" => {
                let mut media = Medium::ALL.into_iter();
                let medium = media.find(|medium| medium.name() == word);
                let medium = medium.ok_or_else(|| HeatOptionError::Medium(shown(text.as_ref())))?;
                self.medium.replace(medium).is_some()
            }
            "--agitation" => {
                let index = AGITATIONS.iter().position(|name| *name == word);
                let way = index.and_then(|index| Agitation::ALL.get(index));
                let way = way.ok_or_else(|| HeatOptionError::Agitation(shown(text.as_ref())))?;
                self.agitation.replace(*way).is_some()
            }
            "--bath" => self.bath.replace(celsius(option, text)?).is_some(),
            "--temper" => {
                let aim = Aim::Celsius(celsius(option, text)?);
                return self.aim(aim, option);
            }
            "--hardness" => {
                let hrc = number(text, &[("HRC", 1.0)], "hardness", "52")?;
                return self.aim(Aim::Hrc(hrc), option);
            }
            "--soak" => {
                let units = [("h", 1.0), ("min", 1.0 / MINUTES)];
                let hours = number(text, &units, "soak", "2h or 90min")?;
                self.soak.replace(hours).is_some()
            }
            _ => {
                let times = word.parse().map_err(|_| HeatOptionError::Number {
                    text: shown(text.as_ref()),
                    what: "number of tempers",
                    example: "2",
                })?;
                self.times.replace(times).is_some()
            }
        };
        if repeated {
            return Err(HeatOptionError::Repeated(option));
        }
        Ok(())
    }

    /// Takes note of what a temper is for.
    fn aim(&mut self, aim: Aim, option: &'static str) -> Result<(), HeatOptionError> {
        match (self.aim.replace(aim), aim) {
            (None, _) => Ok(()),
            (Some(Aim::Celsius(_)), Aim::Celsius(_)) | (Some(Aim::Hrc(_)), Aim::Hrc(_)) => {
                Err(HeatOptionError::Repeated(option))
            }
            (Some(_), _) => Err(HeatOptionError::Aims),
        }
    }

    /// The first option that was given, if any.
    pub(super) fn given(&self) -> Option<&'static str> {
        let aim = match self.aim {
            Some(Aim::Hrc(_)) => "--hardness",
            Some(Aim::Celsius(_)) | None => "--temper",
        };
        [
            (self.steel.is_some(), "--steel"),
            (self.analysis.is_some(), "--analysis"),
            (self.medium.is_some(), "--quench"),
            (self.agitation.is_some(), "--agitation"),
            (self.bath.is_some(), "--bath"),
            (self.aim.is_some(), aim),
            (self.soak.is_some(), "--soak"),
            (self.times.is_some(), "--times"),
        ]
        .into_iter()
        .find_map(|(given, option)| given.then_some(option))
    }

    /// `own`, changed as was asked. Another steel is treated as is usual for it: analysis, quench and temper of `own` are
    /// for the other.
    fn heat(&self, own: &Heat) -> Heat {
        let grade = self.steel.unwrap_or(own.steel.grade);
        let base = if grade == own.steel.grade {
            *own
        } else {
            Heat {
                steel: Steel {
                    grade,
                    analysis: None,
                },
                ..Heat::default()
            }
        };
        let quench = match self.medium {
            Some(medium) if medium != base.quench().medium => Quench::in_medium(medium),
            _ => base.quench(),
        };
        let temper = base.temper();
        let says_quench = self.medium.is_some() || self.agitation.is_some() || self.bath.is_some();
        let says_temper = self.aim.is_some() || self.soak.is_some() || self.times.is_some();
        Heat {
            steel: Steel {
                grade,
                analysis: self.analysis.or(base.steel.analysis),
            },
            quench: if says_quench {
                Some(Quench {
                    medium: quench.medium,
                    agitation: self.agitation.unwrap_or(quench.agitation),
                    bath_celsius: self.bath.unwrap_or(quench.bath_celsius),
                })
            } else {
                base.quench
            },
            temper: if says_temper {
                Some(Temper {
                    aim: self.aim.unwrap_or(temper.aim),
                    soak_hours: self.soak.unwrap_or(temper.soak_hours),
                    times: self.times.unwrap_or(temper.times),
                })
            } else {
                base.temper
            },
        }
    }
}
