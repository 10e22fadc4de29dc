//! The plan as the steps of the work.

use serde::Serialize;

use super::grade::Kind;
use super::plan::{PlaceHardness, Plan};
use super::quench::{Agitation, Medium};
use super::stated::Band;
use super::temper;
use crate::bar::Certainty;
use crate::design::length_in_words;
use crate::units::{
    LITRES_PER_GALLON, System, show_about_temperature, show_number, show_whole_temperature,
};

/// What a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// Forging heat.
    Forge,
    /// Normalizing, or what takes its place.
    Normalize,
    /// What is done cold before the hardening heat.
    Prepare,
    /// The hardening heat and its soak.
    Harden,
    /// The quench.
    Quench,
    /// The temper.
    Temper,
    /// Eye and cheeks drawn softer.
    Eye,
    /// What is tried at the end.
    Prove,
}

impl StepKind {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Forge => "forge",
            Self::Normalize => "normalize",
            Self::Prepare => "make ready",
            Self::Harden => "hardening heat",
            Self::Quench => "quench",
            Self::Temper => "temper",
            Self::Eye => "soften the eye",
            Self::Prove => "prove",
        }
    }
}

/// A step of the work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Step {
    /// What it is.
    pub kind: StepKind,
    /// Its one number: a heat, a bath.
    pub value: String,
    /// What is done.
    pub work: String,
    /// What is looked at after it.
    pub check: String,
    /// Where the number comes from, and the rest.
    pub source: String,
    /// How surely the number is known.
    pub certainty: Certainty,
}

const PRACTICE: &str = "common practice, no source";
/// A soak in an oven for every mm of the thickest section, minutes: an hour to the inch, common practice.
const MINUTES_PER_MM: f64 = 60.0 / 25.4;

/// A bath that may warm up by less than this is hardly any use, K (our choice).
const LITTLE_KELVIN: f64 = 5.0;

/// The heat that the eye is drawn to, °C: a red that just shows in the dark.
const EYE_CELSIUS: f64 = 650.0;

/// `source` for the number of a step; what else the step says is common practice.
fn besides(source: &str) -> String {
    format!("{source}; the rest is {PRACTICE}")
}

/// What a new file does on steel of this hardness: common practice, no source.
fn file(hrc: Option<Band>) -> &'static str {
    match hrc {
        None => "a new file slips where it is hard and bites where it is soft",
        Some(hrc) if hrc.low >= 58.0 => "a new file slips",
        Some(hrc) if hrc.high < 52.0 => "a new file bites, if slowly",
        Some(hrc) if hrc.low >= 52.0 => "a new file slips or barely bites",
        Some(_) => "a new file slips or barely bites; where it bites readily the steel stayed soft",
    }
}

/// A band of heats.
fn heats(band: Band, system: System) -> String {
    let [low, high] = [band.low, band.high].map(|celsius| show_about_temperature(celsius, system));
    let unit = low.rfind(' ').map_or("", |at| &low[at..]);
    if low == high {
        low
    } else {
        format!("{} to {high}", low.trim_end_matches(unit))
    }
}

fn litres(litres: f64, system: System) -> String {
    let (amount, unit) = match system {
        System::Metric => (litres, "litres"),
        System::Imperial => (litres / LITRES_PER_GALLON, "US gallons"),
    };
    // Rounded up: less does not do.
    let step = if amount < 10.0 { 1.0 } else { 5.0 };
    format!("{} {unit}", show_number((amount / step).ceil() * step))
}

impl Plan {
    /// The band that both skins lie in.
    fn skins(&self, hardness: fn(&PlaceHardness) -> Option<Band>) -> Option<Band> {
        let skins = self.ends.iter().flat_map(|end| end.places.first());
        let bands: Option<Vec<Band>> = skins.map(hardness).collect();
        bands?
            .into_iter()
            .reduce(|a, b| Band::new(a.low.min(b.low), a.high.max(b.high)))
    }

    /// What a short and a longer hold leave of full hardness where the eye is drawn.
    fn left_at_the_eye(&self) -> String {
        let grade = self.steel.grade;
        let left = [5.0, 60.0].map(|minutes| temper::hardness(grade, EYE_CELSIUS, minutes / 60.0));
        match left {
            [Some(short), Some(long)] => format!(
                "Of full hardness five minutes there leave some {} HRC, an hour {} HRC (an estimate). ",
                short.round(),
                long.round()
            ),
            _ => String::new(),
        }
    }

    /// The steps in the order of the work, in the units of `system`.
    pub fn steps(&self, system: System) -> Vec<Step> {
        let heat = |celsius: f64| show_about_temperature(celsius, system);
        let (practice, kind) = (&self.practice, self.steel.grade.kind());
        let name = self.steel.grade.name();
        let step = |kind, value: String, work: String, check: String| Step {
            kind,
            value,
            work,
            check,
            source: PRACTICE.to_owned(),
            certainty: Certainty::CommonPractice,
        };
        let forge = Step {
            source: practice.forge.source.to_owned(),
            certainty: practice.forge.certainty,
            ..step(
                StepKind::Forge,
                heats(practice.forge.value, system),
                format!(
                    "Forge {name} below {} and stop at {}: colder steel tears, hotter steel burns and grows coarse.",
                    heat(practice.forge.value.high),
                    heat(practice.forge.value.low)
                ),
                "Look for laps, cold shuts and cracks while it is warm: grind them out now, or begin anew.".to_owned(),
            )
        };
        let normalize = match practice.normalize {
            Some(normalize) => Step {
                source: besides(normalize.source),
                certainty: normalize.certainty,
                ..step(
                    StepKind::Normalize,
                    heats(normalize.value, system),
                    format!(
                        "Three times: an even heat right through at {}, then still air until it is black and the magnet pulls again. Take the second and third some {} cooler than the one before.",
                        heats(normalize.value, system),
                        match system {
                            System::Metric => "25 °C",
                            System::Imperial => "50 °F",
                        }
                    ),
                    match kind {
                        Kind::LowAlloy => format!(
                            "A file must bite everywhere: {name} may come out of still air hard where it is thin. Draw it then at about {} before it is worked cold.",
                            heat(650.0)
                        ),
                        _ => "Break a test piece of the same bar that went through it: the grain must be fine and even, grey as velvet, without a coarse glitter.".to_owned(),
                    },
                )
            },
            None => step(
                StepKind::Normalize,
                "none".to_owned(),
                format!(
                    "Do not normalize {name}: it would harden in air. Let it cool slowly after forging, in dry ash or in the oven as it cools, so that it can be worked cold."
                ),
                "A file must bite everywhere.".to_owned(),
            ),
        };
        let prepare = step(
            StepKind::Prepare,
            "cold".to_owned(),
            "File and grind to size but for the last of the faces. Round the mouths of the eye and every sharp corner, and polish scratches and punch marks out of the neck: a crack begins there. The burnt skin must come off the faces.".to_owned(),
            "Ring it: hung on a wire and tapped it sings clear. A dull sound means a crack.".to_owned(),
        );
        let mut steps = vec![
            forge,
            normalize,
            prepare,
            self.harden(system),
            self.quench_step(system),
        ];
        steps.push(self.temper_step(system));
        steps.push(step(
            StepKind::Eye,
            match kind {
                Kind::AirHardening => "none".to_owned(),
                _ => heat(EYE_CELSIUS),
            },
            match kind {
                Kind::AirHardening => "Leave it: this steel is tough enough at one hardness, and hardens again where it is made red hot. Draw the eye no further than the temper.".to_owned(),
                Kind::PlainCarbon | Kind::LowAlloy | Kind::WaterHardening => format!(
                    "Brighten the cheeks. Heat a drift or bar that fits the eye to a bright red, put it in, and hold the ends in wet cloth or shallow water, so that they stay cooler than their temper, {}. Blue is not enough: go on past grey, without a stop in the brittle range, until a dull red just shows in the dark, about {}, and no brighter. {}Around the eye the standards want 30 HRC at most: hold it at that red until a file bites as in mild steel.",
                    show_whole_temperature(self.tempering.celsius, system),
                    heat(EYE_CELSIUS),
                    self.left_at_the_eye()
                ),
            },
            match kind {
                Kind::AirHardening => "A file does the same on cheeks and faces.".to_owned(),
                _ => "The faces must not have got hotter than their temper: if they have, harden again.".to_owned(),
            },
        ));
        steps.push(step(
            StepKind::Prove,
            "file and ring".to_owned(),
            "Finish the faces with a cool wheel and water at hand: a blue spot is soft. Then strike mild steel, first lightly, with eyes covered and nobody near.".to_owned(),
            format!(
                "{} on the faces{}; the head rings; no hairline shows with dye or oil and chalk.",
                file(self.skins(|place| place.tempered_hrc)),
                match kind {
                    Kind::AirHardening => "",
                    _ => ", and bites readily at the eye",
                }
            ),
        ));
        steps
    }

    fn harden(&self, system: System) -> Step {
        let practice = &self.practice;
        let minutes = 5.0 * (self.thickest_mm * MINUTES_PER_MM / 5.0).ceil();
        let preheat = practice.preheat.map_or_else(String::new, |preheat| {
            format!(
                "Warm it through at {} first. ",
                heats(preheat.value, system)
            )
        });
        let magnet = match self.steel.grade.kind() {
            Kind::AirHardening => "The magnet stops far too early to be a guide: this heat needs an oven or a pyrometer.".to_owned(),
            _ => format!(
                "The magnet stops pulling at about {}: the hardening heat lies a shade brighter, where shadows run out of the steel.",
                show_about_temperature(770.0, system)
            ),
        };
        Step {
            kind: StepKind::Harden,
            value: heats(practice.harden.value, system),
            work: format!(
                "{preheat}Bring it slowly to an even {}. In an oven about {} minutes from when it goes in, for the thickest section of {}{}",
                heats(practice.harden.value, system),
                show_number(minutes),
                length_in_words(self.thickest_mm, system),
                match self.steel.grade.kind() {
                    Kind::AirHardening =>
                        ", wrapped in foil or in a protecting gas: its skin scales and loses carbon at this heat.",
                    _ =>
                        "; in a forge until no shadow is left inside, then two to five minutes more and no longer.",
                }
            ),
            check: magnet,
            source: besides(practice.harden.source),
            certainty: practice.harden.certainty,
        }
    }

    fn quench_step(&self, system: System) -> Step {
        let quench = &self.quench;
        let bath = show_whole_temperature(quench.bath_celsius, system);
        let must_cool = match quench.medium {
            Medium::Air => String::new(),
            _ => format!(
                "The bath is as warm as it may be, {}: let it cool first. ",
                show_whole_temperature(quench.medium.bath_celsius().most, system)
            ),
        };
        let salt = match (quench.medium, system) {
            (Medium::Brine, System::Metric) => "Of 1 kg of brine 70 g to 100 g are salt. ",
            (Medium::Brine, System::Imperial) => "3/4 lb of salt to the US gallon of water. ",
            _ => "",
        };
        let amount = self.bath.map_or(must_cool, |bath| {
            format!(
                "At least {} of {}, so that this head makes it no warmer than {}; as much again for each that follows before it has cooled. {}",
                litres(bath.litres, system),
                quench.medium.name(),
                show_whole_temperature(quench.bath_celsius + bath.rise_kelvin, system),
                if bath.rise_kelvin < LITTLE_KELVIN {
                    "The bath is nearly as warm as it may be: let it cool first, and it need not be so large."
                } else {
                    ""
                }
            )
        });
        let still = quench.agitation == Agitation::None;
        let file = file(self.skins(|place| place.as_quenched_hrc));
        let (work, check) = match quench.medium {
            Medium::Air => (
                match still {
                    true => "Hang it in still air, clear of draughts and of cold steel, and turn it. ".to_owned(),
                    false => "Hang it in moving air, as from a fan, and turn it so that all sides get it. ".to_owned(),
                },
                "It is hard when it can be held in the hand; the magnet pulls long before.".to_owned(),
            ),
            Medium::Oil => (
                format!(
                    "Put it all the way under at once, face first, and keep it under{}, until it no longer moves the oil. ",
                    match still {
                        true => ": held still it keeps a jacket of vapour and hardens less",
                        false => ": move it up and down and in an eight without breaking the surface, which tears the jacket of vapour",
                    }
                ),
                format!("Take it out when it can just be touched, wipe it, and try it on the faces: {file}."),
            ),
            Medium::Water | Medium::Brine => (
                format!(
                    "The whole head at once, face first and straight down{}. A head that is held at one line cracks there. ",
                    match still {
                        true => ": held still it keeps a jacket of steam, which leaves soft spots",
                        false => ", then up and down and in an eight at once: that tears the jacket of steam, which leaves soft spots",
                    }
                ),
                format!("Take it out when it no longer hisses, hand-warm, and try it on both ends: {file}. Look for hairlines."),
            ),
        };
        Step {
            kind: StepKind::Quench,
            value: match quench.medium {
                Medium::Air => "air".to_owned(),
                _ => format!("{} at {bath}", quench.medium.name()),
            },
            work: format!("{work}{salt}{amount}").trim_end().to_owned(),
            check,
            source: match quench.medium {
                Medium::Air => PRACTICE.to_owned(),
                _ => besides(
                    "bath temperatures and salt: US Navy training manual 14250; volume computed from the head’s heat, with specific heats from memory",
                ),
            },
            certainty: match quench.medium {
                Medium::Air => Certainty::CommonPractice,
                _ => Certainty::Read,
            },
        }
    }

    fn temper_step(&self, system: System) -> Step {
        let temper = &self.tempering;
        let at = show_whole_temperature(temper.celsius, system);
        let often = match temper.times {
            1 => "Once".to_owned(),
            2 => "Twice, cooled to the hand between".to_owned(),
            times => format!("{times} times, cooled to the hand between"),
        };
        let colour = temper.colour.map_or_else(
            || "No colour shows at this heat: go by the oven.".to_owned(),
            |colour| format!(
                "Bright steel runs to about {colour} in minutes, and further in a long soak: a rough guide only."
            ),
        );
        Step {
            kind: StepKind::Temper,
            value: at.clone(),
            work: format!(
                "At once, while it is still hand-warm and within the hour: an untempered head can crack on the bench. {often}, {} h at {at} right through, by the oven’s own thermometer and another. {}",
                show_number(temper.soak_hours),
                if temper.embrittles {
                    "This heat lies in the brittle range: see the ways round it."
                } else {
                    "Let it cool in air."
                }
            ),
            check: colour,
            source: besides(temper.martensite_hrc.source),
            certainty: temper.martensite_hrc.certainty,
        }
    }
}
