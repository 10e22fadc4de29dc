//! The head that a choice gives: fitted, so that weight and balance are kept.

use super::check::{OfferError, kg, lengths, weights};
use super::terms::{Between, Open};
use super::{Answer, Choice, Offer};
use crate::design::{
    Design, DesignError, Dim, Edit, Hold, Quantity, Side, TipShape, length_in_words,
};
use crate::fit::{Obstacle, Outcome, Target, fit_to, targets};
use crate::handle::{self, HandleError};
use crate::mass::{MassProperties, mass_properties};
use crate::solid::Solid;
use crate::units::{Mass, MassNotation, System, show_mass};

/// How far a balance that is not held may move, mm, and a weight that is not held, kg (common practice, no source).
const KEPT_MM: f64 = 0.5;
const KEPT_KG: f64 = 0.005;

/// A head as it was chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// The design; a chosen weight is held from here on.
    pub design: Design,
    /// The head.
    pub solid: Solid,
    /// The sizes that moved so that weight and balance are kept.
    pub moved: Vec<Dim>,
}

/// Why a choice cannot be had.
#[derive(Clone, Debug, PartialEq)]
pub enum ChoiceError {
    /// The offer is not sound.
    Offer(OfferError),
    /// The length of the handle is not open.
    HandleNotOpen,
    /// A length of the handle, mm, outside what is open.
    Handle(u32, Between),
    /// The weight is not open.
    WeightNotOpen,
    /// A weight, g, outside what is open.
    Weight(u32, Between),
    /// A tip that is not open.
    TipNotOpen(TipShape),
    /// The head would not be sound.
    Head(DesignError),
    /// The handle could not be made.
    Stem(HandleError),
    /// Weight and balance could not be kept.
    NotKept {
        /// The weight that was asked, or that is drawn.
        asked_kg: f64,
        /// What stands in the way, the greatest obstacle first.
        in_the_way: Vec<Obstacle>,
    },
}

impl ChoiceError {
    /// The sentence, in the units that the reader reads.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::Offer(error) => error.sentence(system),
            Self::HandleNotOpen => "The length of the handle is not left open.".to_owned(),
            Self::Handle(mm, open) => format!(
                "A handle of {} is not offered: it may be {} long.",
                length_in_words(f64::from(*mm), system),
                lengths(*open, system)
            ),
            Self::WeightNotOpen => "The weight is not left open.".to_owned(),
            Self::Weight(grams, open) => format!(
                "A weight of {} is not offered: the head may weigh {}.",
                show_mass(kg(*grams), system),
                weights(*open, system)
            ),
            Self::TipNotOpen(shape) => format!("A {} is not offered.", shape.words()),
            Self::Head(error) => error.sentence(system),
            Self::Stem(error) => error.sentence(system),
            Self::NotKept {
                asked_kg,
                in_the_way,
            } => {
                let reasons: Vec<String> = in_the_way
                    .iter()
                    .map(|obstacle| obstacle.words(system))
                    .collect();
                let why = if reasons.is_empty() {
                    "the smith has left no size free to follow".to_owned()
                } else {
                    format!("in the way stand {}", reasons.join("; "))
                };
                format!(
                    "With this choice the head cannot weigh {} and balance as it does: {why}.",
                    show_mass(*asked_kg, system)
                )
            }
        }
    }
}

impl Offer {
    /// The head that `choice` gives: as drawn but for what is chosen, its free sizes fitted so that it weighs what is
    /// chosen, or what it weighs as drawn, and balances as it does. What the design holds is kept as it is held; a weight
    /// or balance that is not held is kept within 5 g and 0.5 mm.
    ///
    /// # Errors
    /// Everything that the offer does not leave open, or why the head cannot be had.
    pub fn choose(&self, choice: &Choice) -> Result<Chosen, Vec<ChoiceError>> {
        let solid = self.build().map_err(|errors| {
            let told = errors.into_iter().map(ChoiceError::Offer);
            told.collect::<Vec<_>>()
        })?;
        let refused = self.refused(choice);
        if !refused.is_empty() {
            return Err(refused);
        }
        let drawn = mass_properties(&solid);
        let mut design = self.design.clone();
        if let Some(mm) = choice.handle_mm {
            let length = design.handle.length.with_mm(f64::from(mm));
            let handle = design.handle.with_length(length);
            design = design.apply(Edit::Handle(Box::new(handle)));
        }
        if let Some((side, shape)) = self.tip(choice) {
            let (tip, reach) = design.worked_into(side, shape);
            design = design.apply(Edit::Tip(side, Box::new(tip), reach));
        }
        let weight = choice.grams.map_or(drawn.mass, kg);
        if choice.grams.is_some() {
            let hold = weight_held(design.holds.mass, weight);
            design = design.apply(Edit::Hold(Quantity::Mass, Some(hold.map(Into::into))));
        }
        let moves = choice.grams.is_some() || choice.tip.is_some() || design.holds.of_tool();
        let chosen = if moves {
            fitted(&design, &wanted(&design, choice, &drawn), weight)?
        } else {
            settled(design, Vec::new())?
        };
        match handle::make(&chosen.solid, &chosen.design.handle) {
            Ok(_) => Ok(chosen),
            Err(errors) => Err(errors.into_iter().map(ChoiceError::Stem).collect()),
        }
    }

    /// What of `choice` is not open.
    fn refused(&self, choice: &Choice) -> Vec<ChoiceError> {
        let Open {
            handle_mm, grams, ..
        } = &self.terms.open;
        let handle = choice.handle_mm.and_then(|mm| match handle_mm {
            None => Some(ChoiceError::HandleNotOpen),
            Some(open) => (!open.admits(mm)).then_some(ChoiceError::Handle(mm, *open)),
        });
        let weight = choice.grams.and_then(|asked| match grams {
            None => Some(ChoiceError::WeightNotOpen),
            Some(open) => (!open.admits(asked)).then_some(ChoiceError::Weight(asked, *open)),
        });
        let tip = choice.tip.filter(|_| self.tip(choice).is_none());
        let tip = tip.map(ChoiceError::TipNotOpen);
        handle.into_iter().chain(weight).chain(tip).collect()
    }

    /// The end that `choice` works into something else.
    fn tip(&self, choice: &Choice) -> Option<(Side, TipShape)> {
        let (open, shape) = (self.terms.open.tip.as_ref()?, choice.tip?);
        open.instead.contains(&shape).then_some((open.side, shape))
    }

    /// What `choice` is against the head as drawn, in words: "handle length 340 mm instead of 360 mm".
    ///
    /// Nothing is said of what is chosen as it is drawn.
    pub fn differences(&self, choice: &Choice, system: System) -> Vec<String> {
        let length = |mm: f64| length_in_words(mm, system);
        let mm = self.design.handle.length.in_mm();
        let handle = choice.handle_mm.map(f64::from);
        let handle = handle.map(|chosen| ("handle length", length(chosen), length(mm)));
        let weight = choice.grams.and_then(|grams| {
            let drawn = mass_properties(&self.design.build().ok()?).mass;
            let [chosen, drawn] = [kg(grams), drawn].map(|kg| show_mass(kg, system));
            Some(("weight", chosen, drawn))
        });
        let tip = self.tip(choice).map(|(side, shape)| {
            let drawn = TipShape::of(&self.design.end(side).tip);
            let [chosen, drawn] = [shape, drawn].map(|shape| format!("a {}", shape.words()));
            (side.word(), chosen, drawn)
        });
        let all = [handle, weight, tip].into_iter().flatten();
        all.filter(|(_, chosen, drawn)| chosen != drawn)
            .map(|(what, chosen, drawn)| format!("{what} {chosen} instead of {drawn}"))
            .collect()
    }
}

impl Answer {
    /// What was chosen against what was offered, as [`Offer::differences`].
    pub fn differences(&self, system: System) -> Vec<String> {
        self.offer.differences(&self.choice, system)
    }

    /// The chosen head as the smith whose present design is `own` takes it: where that is the one that was offered, it
    /// keeps bar and hardening, which the link may have left in the workshop.
    ///
    /// # Errors
    /// As [`Offer::choose`].
    pub fn taken(&self, own: &Design) -> Result<Design, Vec<ChoiceError>> {
        let chosen = self.offer.choose(&self.choice)?.design;
        if !self.is_of(own) {
            return Ok(chosen);
        }
        Ok(Design {
            bar: own.bar.clone(),
            heat: own.heat,
            ..chosen
        })
    }

    /// Whether `own` is the design that was offered: both would travel as the same link.
    pub fn is_of(&self, own: &Design) -> bool {
        let own = Offer {
            design: own.clone(),
            terms: self.offer.terms.clone(),
        };
        matches!((own.encode(), self.offer.encode()), (Ok(a), Ok(b)) if a == b)
    }
}

/// A weight of `kg`, held as closely as `before`.
fn weight_held(before: Option<Hold<Mass>>, kg: f64) -> Hold<Mass> {
    let of = |notation: MassNotation| Mass::new(kg, notation);
    match before {
        Some(Hold::About { value, tolerance }) => Hold::About {
            value: of(value.notation()),
            tolerance,
        },
        Some(Hold::Between { low, high }) => Hold::About {
            value: of(low.notation()),
            tolerance: Some(low.with_kg(0.5 * (high.in_kg() - low.in_kg()).abs())),
        },
        Some(Hold::AtLeast { least: one } | Hold::AtMost { most: one }) => Hold::About {
            value: of(one.notation()),
            tolerance: None,
        },
        None => Hold::About {
            value: of(MassNotation::Kilogram),
            tolerance: None,
        },
    }
}

/// What the fit of a choice is to meet.
fn wanted(design: &Design, choice: &Choice, drawn: &MassProperties) -> Vec<Target> {
    let mut wanted = targets(design);
    if let Some(grams) = choice.grams {
        // The customer gets what was chosen, however freely the weight is held.
        wanted.retain(|target| target.quantity != Quantity::Mass);
        wanted.push(Target::just(Quantity::Mass, kg(grams)));
    }
    for (quantity, value, off) in [
        (Quantity::Mass, drawn.mass, KEPT_KG),
        (Quantity::Balance, drawn.balance(), KEPT_MM),
    ] {
        if wanted.iter().all(|target| target.quantity != quantity) {
            wanted.push(Target {
                quantity,
                low: value - off,
                high: value + off,
                aim: None,
            });
        }
    }
    wanted
}

fn fitted(design: &Design, wanted: &[Target], asked_kg: f64) -> Result<Chosen, Vec<ChoiceError>> {
    let fitted = fit_to(design, wanted).map_err(heads)?;
    if fitted.outcome != Outcome::Met {
        let in_the_way = fitted.in_the_way;
        return Err(vec![ChoiceError::NotKept {
            asked_kg,
            in_the_way,
        }]);
    }
    settled(fitted.design, fitted.changed)
}

fn settled(design: Design, moved: Vec<Dim>) -> Result<Chosen, Vec<ChoiceError>> {
    Ok(Chosen {
        solid: design.build().map_err(heads)?,
        design,
        moved,
    })
}

fn heads(errors: Vec<DesignError>) -> Vec<ChoiceError> {
    errors.into_iter().map(ChoiceError::Head).collect()
}
