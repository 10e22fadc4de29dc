//! The plan: everything that is reckoned of the heat treatment of one head.

use serde::Serialize;

use super::cooling::{self, DIFFUSIVITY_MM2_S, RATE_CELSIUS, Round};
use super::error::{
    CARBON_PERCENT, HeatError, MOST_ALLOY_PERCENT, MOST_TEMPERS, SOAK_HOURS, TEMPER_CELSIUS,
    WANTED_HRC,
};
use super::grade::{Bears, Grade, Kind, Practice, RESIDUALS};
use super::hardenability::{self, EndQuench, SHALLOW_SHARE, Validity};
use super::quench::{Severity, heat_content_kj_per_kg, severity};
use super::round::{EndRound, end_rounds, thickest_mm};
use super::said::{self, Note};
use super::tempering::{Tempering, tempering};
use super::{
    Agitation, Aim, Band, Composition, Element, Heat, Medium, Quench, Span, Stated, Steel, Temper,
    critical, temper,
};
use crate::design::length_in_words;
use crate::mass::mass_properties;
use crate::solid::Solid;
use crate::units::{MM_PER_INCH, System};

/// A place in an end of the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// At the skin.
    Skin,
    /// 3 mm under it, as deep as DIN 1041 asks for hardness; at the centre of what is thinner.
    #[serde(rename = "under_3_mm")]
    Under,
    /// Halfway to the centre.
    MidRadius,
    /// At the centre.
    Centre,
}

/// How deep [`Place::Under`] is, mm.
pub const UNDER_MM: f64 = 3.0;

impl Place {
    /// All of them, from outside.
    pub const ALL: [Self; 4] = [Self::Skin, Self::Under, Self::MidRadius, Self::Centre];

    /// In words.
    pub fn words(self, system: System) -> String {
        match self {
            Self::Skin => "at the skin".to_owned(),
            Self::Under => format!("{} under it", length_in_words(UNDER_MM, system)),
            Self::MidRadius => "halfway in".to_owned(),
            Self::Centre => "at the centre".to_owned(),
        }
    }

    /// Its share of the radius of a round of diameter `round_mm`.
    fn rho(self, round_mm: f64) -> f64 {
        match self {
            Self::Skin => 1.0,
            Self::Under => (1.0 - 2.0 * UNDER_MM / round_mm).max(0.0),
            Self::MidRadius => 0.5,
            Self::Centre => 0.0,
        }
    }
}

/// Hardness at one place.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PlaceHardness {
    /// Where.
    pub place: Place,
    /// Where an end-quench bar cools alike, mm from its end.
    pub end_quench_mm: Option<Band>,
    /// As quenched, HRC; nothing where no formula holds.
    pub as_quenched_hrc: Option<Band>,
    /// As tempered, HRC.
    pub tempered_hrc: Option<Band>,
}

/// Hardness of one end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EndHardness {
    /// The end and its section.
    #[serde(flatten)]
    pub end: EndRound,
    /// Its equivalent round, mm, from a hard to a mild quench within the words for it.
    pub round_mm: Band,
    /// Hardness from outside to the centre.
    pub places: [PlaceHardness; 4],
}

/// Where transformations begin and end, °C; nothing where no formula holds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Critical {
    /// Where austenite begins on heating.
    pub ac1: Option<Stated<f64>>,
    /// Where the last ferrite goes on heating.
    pub ac3: Option<Stated<f64>>,
    /// Where martensite begins on cooling.
    pub ms: Option<Stated<Band>>,
}

/// How deep the steel hardens; nothing where no formula holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hardenability {
    /// Ideal diameter, mm.
    pub ideal_mm: Option<Stated<Band>>,
    /// Hardness of its martensite, by carbon alone, HRC.
    pub martensite_hrc: Stated<Band>,
    /// The end-quench curve: distance from the end, mm, and hardness, HRC.
    pub end_quench: Vec<(f64, Band)>,
}

/// What the bath takes up.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bath {
    /// Heat of the head above the bath, kJ.
    pub heat_kj: f64,
    /// How much warmer the bath may get, K.
    pub rise_kelvin: f64,
    /// How much of it that takes, litres.
    pub litres: f64,
}

/// The heat treatment of one head.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// The steel.
    pub steel: Steel,
    /// Its composition: the grade's range, or the analysis.
    pub composition: Stated<Span>,
    /// The grade's density, kg/m³.
    pub density_kg_per_m3: Stated<f64>,
    /// How the grade is treated.
    pub practice: Practice,
    /// Where it transforms.
    pub critical: Critical,
    /// How deep it hardens.
    pub hardenability: Hardenability,
    /// The quench.
    pub quench: Quench,
    /// Its severity, 1/in.
    pub severity: Severity,
    /// Front and back.
    pub ends: [EndHardness; 2],
    /// The temper.
    pub tempering: Tempering,
    /// What the bath needs; nothing for air, and for a bath that must cool first.
    pub bath: Option<Bath>,
    /// The head, kg.
    pub mass_kg: f64,
    /// The thickest section, which a soak warms through, mm.
    pub thickest_mm: f64,
    /// What is to be said.
    pub notes: Vec<Note>,
}

/// Plans the heat treatment of `solid`.
///
/// # Errors
/// Every reason why there is no plan.
///
/// # Accuracy
/// Every hardness is an estimate: see [`hardenability`], [`cooling`] and [`temper`].
pub fn plan(solid: &Solid, heat: &Heat) -> Result<Plan, Vec<HeatError>> {
    let errors = check(heat);
    if !errors.is_empty() {
        return Err(errors);
    }
    let Heat { steel, .. } = *heat;
    let (grade, practice) = (steel.grade, steel.grade.practice());
    let quench = heat.quench();
    let composition = steel.composition();
    let mass_kg = mass_properties(solid).mass;
    let hardenability = Hardening::of(&steel);
    let tempering = tempering(&steel, &heat.temper())?;
    let severity = severity(quench.medium, quench.agitation);
    let ends = end_rounds(solid)
        .map(|end| hardness(end, &steel, &hardenability, &quench, &severity, &tempering));
    let mut plan = Plan {
        steel,
        composition,
        density_kg_per_m3: grade.stated_density(),
        practice,
        critical: critical(grade, &composition.value.middle()),
        hardenability: hardenability.shown(),
        quench,
        severity,
        ends,
        tempering,
        bath: bath(mass_kg, practice.harden.value.middle(), &quench),
        mass_kg,
        thickest_mm: thickest_mm(solid),
        notes: Vec::new(),
    };
    plan.notes = said::notes(&plan, solid.head().density);
    Ok(plan)
}

impl Steel {
    /// Its composition: the analysis, or the grade's range.
    pub fn composition(&self) -> Stated<Span> {
        match self.analysis {
            Some(analysis) => Stated {
                value: Span::exactly(analysis),
                source: "the analysis that was typed in",
                certainty: crate::bar::Certainty::Own,
            },
            None => self.grade.practice().span,
        }
    }
}

/// Everything that is wrong with `heat`, but for what only its steel's curve knows.
fn check(heat: &Heat) -> Vec<HeatError> {
    let mut errors = Vec::new();
    if let Some(analysis) = &heat.steel.analysis {
        check_analysis(analysis, &mut errors);
    }
    let (grade, quench) = (heat.steel.grade, heat.quench());
    match grade.bears(quench.medium) {
        Bears::Well | Bears::WithCare => {}
        Bears::Cracks => errors.push(HeatError::Cracks {
            grade,
            medium: quench.medium,
        }),
        Bears::StaysSoft => errors.push(HeatError::StaysSoft {
            grade,
            medium: quench.medium,
        }),
    }
    let possible = heat
        .steel
        .analysis
        .filter(|analysis| analysis.sum() <= MOST_ALLOY_PERCENT);
    let alloy = possible.as_ref().and_then(hardening_alloy);
    if let (Some((element, percent)), Medium::Water | Medium::Brine) = (alloy, quench.medium)
        && grade.bears(quench.medium) != Bears::Cracks
    {
        errors.push(HeatError::AnalysisCracks {
            medium: quench.medium,
            element,
            percent,
        });
    }
    if quench.medium == Medium::Oil && quench.agitation == Agitation::Violent {
        errors.push(HeatError::OilJet);
    }
    if !quench.medium.bath_celsius().admits(quench.bath_celsius) {
        errors.push(HeatError::Bath {
            medium: quench.medium,
            celsius: quench.bath_celsius,
        });
    }
    check_temper(&heat.steel, &heat.temper(), &mut errors);
    errors
}

fn check_analysis(analysis: &Composition, errors: &mut Vec<HeatError>) {
    let wrong = |percent: f64| !(0.0..=100.0).contains(&percent);
    let shares = analysis.iter().filter(|(_, percent)| wrong(*percent));
    errors.extend(shares.map(|(element, percent)| HeatError::Percent { element, percent }));
    let carbon = analysis.percent(Element::C);
    if !wrong(carbon) && !CARBON_PERCENT.admits(carbon) {
        errors.push(HeatError::Carbon { percent: carbon });
    }
    let percent = analysis.sum();
    if percent > 100.0 {
        errors.push(HeatError::Sum { percent });
    } else if percent > MOST_ALLOY_PERCENT {
        errors.push(HeatError::Alloy { percent });
    }
}

/// Shares from which on an element makes a steel one for oil, percent: half of what the oil-hardening grades have at least
/// (our choice).
const FOR_OIL: [(Element, f64); 3] = [
    (Element::Cr, 0.35),
    (Element::Mo, 0.10),
    (Element::Ni, 0.80),
];

/// What makes an analysis that of an oil-hardening steel.
fn hardening_alloy(analysis: &Composition) -> Option<(Element, f64)> {
    let shares = FOR_OIL.map(|(element, from)| (element, analysis.percent(element), from));
    let found = shares
        .into_iter()
        .find(|(_, percent, from)| percent >= from);
    found.map(|(element, percent, _)| (element, percent))
}

/// Where most steels have Ac1 on slow heating, °C, for what the formula does not hold for.
const USUAL_AC1_CELSIUS: f64 = 725.0;

/// How far a temper stays below Ac1, °C: as much as that may lie off.
const BELOW_AC1_CELSIUS: f64 = critical::UNCERTAINTY_CELSIUS;

/// Why a temper at `celsius` is none.
pub(super) fn above_ac1(steel: &Steel, celsius: f64) -> Option<HeatError> {
    let middle = steel.composition().value.middle();
    let ac1_celsius = match critical::check(&middle) {
        Ok(()) => critical::ac1(&middle),
        Err(_) => USUAL_AC1_CELSIUS,
    };
    (celsius > ac1_celsius).then(|| HeatError::AboveAc1 {
        celsius,
        ac1_celsius,
        most_celsius: TEMPER_CELSIUS.most.min(ac1_celsius - BELOW_AC1_CELSIUS),
    })
}

fn check_temper(steel: &Steel, temper: &Temper, errors: &mut Vec<HeatError>) {
    if !SOAK_HOURS.admits(temper.soak_hours) {
        errors.push(HeatError::Soak {
            hours: temper.soak_hours,
        });
    }
    if !(1..=MOST_TEMPERS).contains(&temper.times) {
        errors.push(HeatError::Times {
            times: temper.times,
        });
    }
    match temper.aim {
        Aim::Hrc(hrc) => {
            let reach = temper::reach(steel.grade);
            if !WANTED_HRC.admits(hrc) {
                errors.push(HeatError::Wanted { hrc });
            } else if !reach.admits(hrc) {
                errors.push(HeatError::OutOfReach {
                    grade: steel.grade,
                    hrc,
                    reach,
                });
            }
        }
        Aim::Celsius(celsius) => {
            if let Some(error) = above_ac1(steel, celsius) {
                errors.push(error);
            } else if !TEMPER_CELSIUS.admits(celsius) {
                errors.push(HeatError::Temper { celsius });
            }
        }
    }
}

fn critical(grade: Grade, composition: &Composition) -> Critical {
    let published = Critical {
        ac1: None,
        ac3: None,
        ms: grade.practice().published_ms,
    };
    match critical::check(composition) {
        Err(_) => published,
        Ok(()) => {
            let ms = critical::ms(composition);
            Critical {
                ac1: Some(Stated::read(critical::ac1(composition), critical::SOURCE)),
                ac3: Some(Stated::read(critical::ac3(composition), critical::SOURCE)),
                ms: Some(Stated::read(
                    Band::new(
                        ms - critical::UNCERTAINTY_CELSIUS,
                        ms + critical::UNCERTAINTY_CELSIUS,
                    ),
                    critical::SOURCE,
                )),
            }
        }
    }
}

/// What is known of how deep a steel hardens: the edges of its band.
struct Hardening {
    /// Carbon, percent.
    carbon: Band,
    /// Ideal diameter by the formula, mm; nothing where it does not hold.
    ideal_mm: Option<Band>,
    /// Whether the formula overstates it.
    shallow: bool,
    /// Whether what is published of the grade may be said of this bar.
    of_the_grade: bool,
}

/// How far a hardness that is read off an end-quench curve may lie off, HRC: what the curves leave of the points of 4140H, and
/// a little over half of what they leave of 1045H, where they leave most.
const CURVE_UNCERTAINTY_HRC: f64 = 4.0;

/// The most carbon that has a factor, percent.
const MOST_CARBON_WITH_A_FACTOR: f64 = 0.90;

impl Hardening {
    fn of(steel: &Steel) -> Self {
        let Span { least, mut most } = steel.composition().value;
        let alloyed = steel.analysis.as_ref().and_then(hardening_alloy).is_some();
        let shallow = steel.grade.kind() == Kind::PlainCarbon && !alloyed;
        if shallow {
            // What a certificate leaves out is there as far as scrap brings it in.
            for (element, percent) in RESIDUALS {
                if most.percent(element) == 0.0 {
                    most = most.with(element, percent);
                }
            }
        }
        let of_the_grade = steel.analysis.as_ref().is_none_or(|analysis| {
            let span = steel.grade.practice().span.value;
            span.outside(analysis)
                .all(|element| analysis.percent(element) == 0.0)
        });
        let carbon = Band::new(least.percent(Element::C), most.percent(Element::C));
        let holds = !matches!(
            hardenability::validity(&Span { least, most }.middle()),
            Validity::Outside(_)
        );
        let with_a_factor = |composition: Composition, carbon: f64| {
            composition.with(Element::C, carbon.min(MOST_CARBON_WITH_A_FACTOR))
        };
        let [low, high] = hardenability::ideal_range_mm(&Span {
            least: with_a_factor(least, carbon.low),
            most: with_a_factor(most, carbon.high),
        });
        Self {
            carbon,
            ideal_mm: holds.then_some(Band::new(low, high)),
            shallow,
            of_the_grade,
        }
    }

    /// The end-quench curves of the two edges.
    fn curves(&self) -> Option<[EndQuench; 2]> {
        let Self {
            carbon, ideal_mm, ..
        } = self;
        ideal_mm.map(|ideal| {
            [
                EndQuench::new(carbon.low, ideal.low),
                EndQuench::new(carbon.high, ideal.high),
            ]
        })
    }

    fn shown(&self) -> Hardenability {
        let lower = if self.shallow { SHALLOW_SHARE } else { 1.0 };
        let band = |ideal: Band| Band::new(lower * ideal.low, ideal.high);
        let curve = self.curves().map(|[low, high]| {
            let at = |mm| (mm, Band::new(low.hrc_at(mm), high.hrc_at(mm)));
            EndQuench::distances_mm().map(at).collect()
        });
        let read = |value| Stated::read(value, hardenability::SOURCE);
        Hardenability {
            ideal_mm: self.ideal_mm.map(|ideal| read(band(ideal))),
            martensite_hrc: Stated::read(
                self.carbon.map(hardenability::martensite_hrc),
                hardenability::SOURCE,
            ),
            end_quench: curve.unwrap_or_default(),
        }
    }
}

/// The largest round that air hardens through, mm: S7 to 2.5 in by a steel maker's data sheet; taken for H13 as well.
pub(super) const AIR_HARDENS_MM: f64 = 2.5 * MM_PER_INCH;

fn hardness(
    end: EndRound,
    steel: &Steel,
    hardening: &Hardening,
    quench: &Quench,
    severity: &Severity,
    tempering: &Tempering,
) -> EndHardness {
    // A milder quench gives a square a rounder look.
    let Band { low, high } = severity.value;
    let rounds = [end.round_mm(low), end.round_mm(high)];
    let round_mm = Band::of(rounds[0], rounds[1]);
    let published = steel.grade.practice().as_quenched.value;
    let biot = |of: f64, severity: f64| severity * of / MM_PER_INCH;
    let mild = Round::new(biot(rounds[0], low));
    let hard = Round::new(biot(rounds[1], high));
    let hot = steel.grade.practice().harden.value.middle();
    // A skin may come as hard as is published, where the reckoning falls short of it: who took it for softer would temper it
    // too little.
    let known = |place: Place, martensite_hrc: f64| {
        let usual = quench.medium == steel.grade.practice().medium && hardening.of_the_grade;
        if place == Place::Skin && usual {
            published.high.min(martensite_hrc)
        } else {
            0.0
        }
    };
    let place = |place: Place| {
        let by_rate = |round: &Round, mm: f64| by_rate(round, mm, place, hot, quench.bath_celsius);
        let fast = by_half(&hard, rounds[1], place).min(by_rate(&hard, rounds[1]));
        let slow = by_half(&mild, rounds[0], place);
        let slow = match place {
            // Half temperature makes a skin softer than any that is measured.
            Place::Skin => slow.min(by_rate(&mild, rounds[0])),
            Place::Under | Place::MidRadius | Place::Centre => slow,
        };
        let (end_quench_mm, as_quenched_hrc) = match hardening.curves() {
            Some([soft, deep]) => (
                Some(Band::of(fast, slow)),
                Some(Band::new(
                    soft.hrc_at(slow) - CURVE_UNCERTAINTY_HRC,
                    (deep.hrc_at(fast) + CURVE_UNCERTAINTY_HRC)
                        .max(known(place, deep.martensite_hrc()))
                        .min(deep.martensite_hrc()),
                )),
            ),
            None if !hardening.of_the_grade => (None, None),
            None if steel.grade.kind() == Kind::AirHardening => {
                (None, (round_mm.high <= AIR_HARDENS_MM).then_some(published))
            }
            None => {
                let hardens =
                    place == Place::Skin && matches!(quench.medium, Medium::Water | Medium::Brine);
                (None, hardens.then_some(published))
            }
        };
        PlaceHardness {
            place,
            end_quench_mm,
            as_quenched_hrc,
            tempered_hrc: as_quenched_hrc.map(|quenched| {
                let left = tempering.martensite_hrc.value;
                Band::new(
                    quenched.low.min(left - temper::UNCERTAINTY_HRC),
                    quenched.high.min(left + temper::UNCERTAINTY_HRC),
                )
            }),
        }
    };
    EndHardness {
        end,
        round_mm,
        places: Place::ALL.map(place),
    }
}

fn by_half(round: &Round, round_mm: f64, place: Place) -> f64 {
    let fourier = round.fourier_at(0.5, place.rho(round_mm));
    cooling::end_quench_by_half_mm(0.25 * round_mm * round_mm * fourier)
}

fn by_rate(round: &Round, round_mm: f64, place: Place, hot: f64, bath: f64) -> f64 {
    let rho = place.rho(round_mm);
    let fourier = round.fourier_at((RATE_CELSIUS - bath) / (hot - bath), rho);
    let per_second = DIFFUSIVITY_MM2_S / (0.25 * round_mm * round_mm);
    cooling::end_quench_by_rate_mm(round.falls(fourier, rho) * (hot - bath) * per_second)
}

/// A bath that may warm up by less than this must cool before it is used, K (our choice).
const LEAST_RISE_KELVIN: f64 = 3.0;

fn bath(mass_kg: f64, hot: f64, quench: &Quench) -> Option<Bath> {
    let per_litre = quench.medium.kj_per_litre_kelvin()?;
    let most = quench.medium.bath_celsius().most;
    let rise_kelvin = most - quench.bath_celsius;
    if rise_kelvin < LEAST_RISE_KELVIN {
        return None;
    }
    let content = heat_content_kj_per_kg(hot) - heat_content_kj_per_kg(most);
    let heat_kj = mass_kg * content;
    Some(Bath {
        heat_kj,
        rise_kelvin,
        litres: heat_kj / (per_litre * rise_kelvin),
    })
}
