//! Ways out when a hold is out of reach: each is tried by a fit before it is offered.

use super::history::Standing;
use super::holding::holdings;
use super::settle::fitted;
use super::words;
use headwright::design::{Design, Edit, Hold, Range, bounds};
use headwright::fit::{Obstacle, Outcome, Quantity};
use headwright::mass::mass_properties;
use headwright::units::{Length, Mass, MassNotation, System};

/// A way out that was tried and works.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// What to do: "Let the front face offset go to 86 mm".
    pub words: String,
    /// The design it leads to.
    pub design: Design,
    /// What that weighs, kg.
    pub mass: f64,
    /// Where it balances, mm.
    pub balance: f64,
}

impl Way {
    /// Name of the step that taking it is.
    pub fn name(&self) -> String {
        let mut letters = self.words.chars();
        let first = letters.next().map(|c| c.to_lowercase().to_string());
        first.unwrap_or_default() + letters.as_str()
    }
}

/// The most limits that are tried.
const MOST_LIMITS: usize = 2;
/// Tolerances that are offered are multiples of this, mm.
const BALANCE_STEP: f64 = 0.5;
/// Tolerances that are offered are multiples of this, kg.
const MASS_STEP: f64 = 0.005;

/// The ways out of `now`: let a limit go, ask for less, go back to `before`, which had that name.
/// `division` is the rule's, mm.
pub fn ways(
    now: &Standing,
    before: Option<&(String, Standing)>,
    division: f64,
    system: System,
) -> Vec<Way> {
    let Some(outcome) = now.fitted.as_ref().map(|fitted| fitted.outcome) else {
        return Vec::new();
    };
    if outcome == Outcome::Met {
        return Vec::new();
    }
    let mut ways = limits_let_go(now, division, system);
    let less = less_asked(now, system);
    let nothing_less = less.is_empty();
    ways.extend(less);
    ways.extend(before.and_then(|(name, before)| back(now, name, before, system)));
    if nothing_less {
        ways.extend(one_let_go(now));
    }
    ways
}

fn way(words: String, design: Design) -> Option<Way> {
    let properties = mass_properties(&design.build().ok()?);
    Some(Way {
        words,
        design,
        mass: properties.mass,
        balance: properties.balance(),
    })
}

/// `design` fitted as `now` was; nothing unless every hold is met.
fn met(design: Design, now: &Standing) -> Option<Design> {
    let after = fitted(design, now.moved);
    let outcome = after.fitted.map(|fitted| fitted.outcome);
    (outcome == Some(Outcome::Met)).then_some(after.design)
}

fn limits_let_go(now: &Standing, division: f64, system: System) -> Vec<Way> {
    let obstacles = now.fitted.iter().flat_map(|fitted| &fitted.in_the_way);
    let limits = obstacles.filter_map(|obstacle| match obstacle {
        Obstacle::Limit { dim, upper, .. } => Some((*dim, *upper)),
        Obstacle::Soundness(_) => None,
    });
    limits
        .take(MOST_LIMITS)
        .filter_map(|(dim, upper)| {
            let range = *now.design.free.get(&dim)?;
            let table = bounds(dim);
            let with = |mm: f64| {
                let range = if upper {
                    Range {
                        high: range.high.with_number(mm),
                        ..range
                    }
                } else {
                    Range {
                        low: range.low.with_number(mm),
                        ..range
                    }
                };
                now.design.apply(Edit::Free(dim, range))
            };
            let far = if upper { table.high } else { table.low };
            let needed = met(with(far), now)?.size(dim)?.number() / division;
            // Outwards to the rule: a limit is what a smith can measure.
            let limit = if upper { needed.ceil() } else { needed.floor() } * division;
            let limit = limit.clamp(table.low, table.high);
            let design = met(with(limit), now)?;
            let to = range.low.with_number(limit).words(system);
            way(format!("Let the {} go to {to}", dim.words()), design)
        })
        .collect()
}

fn less_asked(now: &Standing, system: System) -> Vec<Way> {
    let Ok(solid) = now.design.build() else {
        return Vec::new();
    };
    let missed = holdings(&now.design, &mass_properties(&solid))
        .into_iter()
        .filter(|holding| holding.miss != 0.0);
    missed
        .filter_map(|holding| {
            let middle = 0.5 * (holding.target.low + holding.target.high);
            let off = (holding.value - middle).abs();
            let (edit, words) = match holding.target.quantity {
                Quantity::Mass => {
                    let off = (off / MASS_STEP).ceil() * MASS_STEP;
                    let within = headwright::units::show_mass(off, system);
                    let hold = Hold::About {
                        value: Mass::kg(middle),
                        tolerance: Some(Mass::new(off, MassNotation::Gram)),
                    };
                    (
                        Edit::HoldMass(Some(hold)),
                        format!("Hold the weight within {within}"),
                    )
                }
                Quantity::Balance => {
                    let off = (off / BALANCE_STEP).ceil() * BALANCE_STEP;
                    let within = words::length(off, system);
                    let hold = Hold::About {
                        value: Length::mm(middle),
                        tolerance: Some(Length::mm(off)),
                    };
                    (
                        Edit::HoldBalance(Some(hold)),
                        format!("Hold the balance within {within}"),
                    )
                }
            };
            way(words, met(now.design.apply(edit), now)?)
        })
        .collect()
}

/// When both holds are missed: letting one go so that the other is kept.
fn one_let_go(now: &Standing) -> Vec<Way> {
    let holds = now.design.holds;
    if holds.mass.is_none() || holds.balance.is_none() {
        return Vec::new();
    }
    [
        ("Let the weight go, keep the balance", Edit::HoldMass(None)),
        (
            "Let the balance go, keep the weight",
            Edit::HoldBalance(None),
        ),
    ]
    .into_iter()
    .filter_map(|(words, edit)| way(words.to_owned(), met(now.design.apply(edit), now)?))
    .collect()
}

fn back(now: &Standing, name: &str, before: &Standing, system: System) -> Option<Way> {
    let solid = before.design.build().ok()?;
    let holds = Design {
        holds: now.design.holds,
        ..before.design.clone()
    };
    let kept = holdings(&holds, &mass_properties(&solid))
        .iter()
        .all(|holding| holding.miss == 0.0);
    if !kept || before.design.holds != now.design.holds {
        return None;
    }
    let words = match now
        .moved
        .and_then(|dim| Some((dim, before.design.size(dim)?)))
    {
        Some((dim, size)) => format!("Put the {} back to {}", dim.words(), size.words(system)),
        None => format!("Take back: {name}"),
    };
    way(words, before.design.clone())
}

#[cfg(test)]
mod tests {
    use super::super::settle::{look, settle};
    use super::*;
    use headwright::design::{Part, Side, Size, starter};

    fn out_of_reach() -> (Standing, (String, Standing)) {
        let design = starter("rounding").expect("a starter");
        let mass = mass_properties(&design.build().expect("sound")).mass;
        let hold = Hold::About {
            value: Mass::kg(mass),
            tolerance: None,
        };
        // The back face may hardly move, so that a longer front one cannot be balanced.
        let [front, back] = Side::BOTH.map(|side| Part::End(side).size(Size::Reach));
        let narrow = Range::new(Length::mm(50.0), Length::mm(56.0));
        let design = design.apply(Edit::Free(back, narrow));
        let start = settle(&look(design), &Edit::HoldMass(Some(hold)));
        let after = settle(&start, &Edit::set(front, Length::mm(60.0)));
        (after, ("front face offset 60".to_owned(), start))
    }

    #[test]
    fn every_way_out_that_is_offered_meets_every_hold() {
        let (now, before) = out_of_reach();
        let outcome = now.fitted.as_ref().expect("fitted").outcome;
        assert_ne!(outcome, Outcome::Met, "the trial must be out of reach");
        let ways = ways(&now, Some(&before), 1.0, System::Metric);
        assert!(ways.len() >= 2, "{ways:?}");
        for way in ways {
            let properties = mass_properties(&way.design.build().expect("sound"));
            for holding in holdings(&way.design, &properties) {
                assert_eq!(holding.miss, 0.0, "{}", way.words);
            }
        }
    }

    #[test]
    fn going_back_is_offered_with_the_value_that_was() {
        let (now, before) = out_of_reach();
        let ways = ways(&now, Some(&before), 1.0, System::Metric);
        let words: Vec<&str> = ways.iter().map(|way| way.words.as_str()).collect();
        assert!(
            words
                .iter()
                .any(|words| words.starts_with("Put the front face offset back to")),
            "{words:?}"
        );
    }
}
