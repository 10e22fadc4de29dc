//! The temper that was asked for, what it leaves, and the ways round a brittle one.

use serde::Serialize;

use super::error::{HeatError, TEMPER_CELSIUS};
use super::grade::{Grade, Kind};
use super::plan::above_ac1;
use super::{Aim, Element, Stated, Steel, Temper, hardenability, temper};

/// The temper.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tempering {
    /// The hardness that is wanted, HRC; nothing where an oven's heat is.
    pub wanted_hrc: Option<f64>,
    /// The oven, °C.
    pub celsius: f64,
    /// Each soak, hours at temperature.
    pub soak_hours: f64,
    /// How often.
    pub times: u8,
    /// What it leaves of martensite, HRC, give or take [`temper::UNCERTAINTY_HRC`].
    pub martensite_hrc: Stated<f64>,
    /// Colour of bright carbon and low-alloy steel after minutes at this heat, from memory: a rough guide.
    pub colour: Option<&'static str>,
    /// Whether it lies where the steel gets brittle.
    pub embrittles: bool,
    /// Ways round that.
    pub ways: Vec<Way>,
}

/// A way round a brittle temper.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Way {
    /// What is done.
    pub kind: WayKind,
    /// With which steel.
    pub grade: Grade,
    /// How it is tempered.
    pub temper: Temper,
    /// What is left of martensite, HRC.
    pub hrc: f64,
}

/// What is done instead of a brittle temper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WayKind {
    /// Below the range, and harder.
    Lower,
    /// Twice below the range.
    Double,
    /// Above the range, and softer.
    Higher,
    /// Another grade, which is not brittle there, for the same hardness.
    Tougher,
}

/// As far below and above the brittle range as an oven may be off, °C (our choice).
pub(super) const CLEAR_CELSIUS: f64 = 5.0;

pub(super) fn tempering(steel: &Steel, asked: &Temper) -> Result<Tempering, Vec<HeatError>> {
    let grade = steel.grade;
    let hours = asked.soak_hours * f64::from(asked.times);
    let celsius = match asked.aim {
        Aim::Celsius(celsius) => celsius,
        // A wanted hardness lies within reach, so there is a temperature; it may still be beyond an oven's.
        Aim::Hrc(hrc) => {
            let celsius = temper::celsius_for(grade, hrc, hours);
            let celsius = celsius.unwrap_or(TEMPER_CELSIUS.most).round();
            if let Some(error) = above_ac1(steel, celsius) {
                return Err(vec![error]);
            }
            if !TEMPER_CELSIUS.admits(celsius) {
                return Err(vec![HeatError::Temper { celsius }]);
            }
            celsius
        }
    };
    let unknown = || {
        vec![HeatError::Unknown {
            grade,
            celsius,
            hours,
        }]
    };
    let left = left(steel, celsius, hours).ok_or_else(unknown)?;
    // An oven that is a little off is in the range as well.
    let [from, to] = [
        temper::EMBRITTLEMENT.least - CLEAR_CELSIUS,
        temper::EMBRITTLEMENT.most + CLEAR_CELSIUS,
    ];
    let embrittles = grade.embrittles() && from < celsius && celsius < to;
    let ways = if embrittles {
        ways(steel, asked, left)
    } else {
        Vec::new()
    };
    Ok(Tempering {
        wanted_hrc: match asked.aim {
            Aim::Hrc(hrc) => Some(hrc),
            Aim::Celsius(_) => None,
        },
        celsius,
        soak_hours: asked.soak_hours,
        times: asked.times,
        martensite_hrc: Stated::memory(left, temper::SOURCE),
        colour: match grade.kind() {
            // Chromium shifts the colours.
            Kind::AirHardening => None,
            _ => temper::colour(celsius),
        },
        embrittles,
        ways,
    })
}

/// What tempering leaves of martensite, HRC: never harder than its carbon makes it.
fn left(steel: &Steel, celsius: f64, hours: f64) -> Option<f64> {
    let most = steel.composition().value.of(Element::C).1;
    let left = temper::hardness(steel.grade, celsius, hours)?;
    Some(left.min(hardenability::martensite_hrc(most)))
}

fn ways(steel: &Steel, asked: &Temper, wanted_hrc: f64) -> Vec<Way> {
    let at = |kind: WayKind, steel: &Steel, celsius: f64, times: u8| {
        let temper = Temper {
            aim: Aim::Celsius(celsius),
            soak_hours: asked.soak_hours,
            times,
        };
        let hours = asked.soak_hours * f64::from(times);
        left(steel, celsius, hours).map(|hrc| Way {
            kind,
            grade: steel.grade,
            temper,
            hrc,
        })
    };
    let below = temper::EMBRITTLEMENT.least - CLEAR_CELSIUS;
    let above = temper::EMBRITTLEMENT.most + CLEAR_CELSIUS;
    let tougher = Grade::ALL.into_iter().filter(|other| !other.embrittles());
    let tougher = tougher.filter_map(|other| {
        let times = other.practice().tempers;
        let hours = asked.soak_hours * f64::from(times);
        let celsius = temper::celsius_for(other, wanted_hrc, hours)?;
        let celsius = TEMPER_CELSIUS.admits(celsius).then(|| celsius.round())?;
        let other = Steel {
            grade: other,
            analysis: None,
        };
        at(WayKind::Tougher, &other, celsius, times)
    });
    [
        at(WayKind::Lower, steel, below, 1),
        at(WayKind::Double, steel, below, 2),
        at(WayKind::Higher, steel, above, 1),
    ]
    .into_iter()
    .flatten()
    .chain(tougher)
    .collect()
}
