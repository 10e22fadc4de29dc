//! Ways out when a hold is out of reach: each is tried by a fit before it is offered.

use super::history::Standing;
use super::holding::{Holding, holdings};
use super::settle::{fitted, start};
use headwright::design::{Design, Dim, Edit, Hold, Quantity};
use headwright::fit::{Effort, Measurable, Outcome, Target, reliefs, targets};
use headwright::mass::mass_properties;
use headwright::units::{Amount, Mass, MassNotation, System};

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

/// The most ways of moving limits that are offered.
const MOST_LIMITS: usize = 2;
/// Limits of angles are offered in multiples of this, degrees.
const HALF_DEGREE: f64 = 0.5;
/// Tolerances that are offered are multiples of this share of what counts as equally far off.
const TOLERANCE_STEP: f64 = 0.5;

/// How many turns it takes to find all ways.
pub const TURNS: usize = 3;

/// The ways out of `now` that are found in the turn numbered `turn` of [`TURNS`], each of which takes a moment: let a limit go; ask
/// for less; go back to `before`, which had that name, or let a hold go where nothing less helps. `found` has those of the
/// turns before. `division` is the rule's, mm.
pub fn ways(
    now: &Standing,
    before: Option<&(String, Standing)>,
    division: f64,
    system: System,
    turn: usize,
    found: &[Way],
) -> Vec<Way> {
    let outcome = now.fitted.as_ref().map(|fitted| fitted.outcome);
    if outcome.is_none_or(|outcome| outcome == Outcome::Met) {
        return Vec::new();
    }
    match turn {
        0 => {
            let mut ways = limits_let_go(now, division, system);
            ways.extend(usual_set_free(now));
            ways
        }
        1 => less_asked(now, system),
        _ => {
            let back = before.and_then(|(name, before)| back(now, name, before, system));
            let mut ways = Vec::from_iter(back);
            if !found.iter().any(|way| way.design.holds != now.design.holds) {
                ways.extend(one_let_go(now));
            }
            ways
        }
    }
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
    let after = fitted(design, now.moved, Effort::Thorough);
    let outcome = after.fitted.map(|fitted| fitted.outcome);
    (outcome == Some(Outcome::Met)).then_some(after.design)
}

/// Limits moved as far as they must be, outwards to the rule.
fn limits_let_go(now: &Standing, division: f64, system: System) -> Vec<Way> {
    let Some(fitted) = &now.fitted else {
        return Vec::new();
    };
    let start = start(&now.design, now.moved);
    // On the rule: a limit is what a smith can measure.
    let step = |dim: Dim| {
        if dim.is_angle() {
            HALF_DEGREE
        } else {
            division
        }
    };
    let reliefs = reliefs(&start, &targets(&start), fitted, MOST_LIMITS, &step);
    let offered = reliefs.iter().filter_map(|relief| {
        let all = relief.iter();
        let design = all.fold(now.design.clone(), |design, limit| limit.on(&design));
        let each = relief.iter();
        let each =
            each.map(|limit| format!("{} go to {}", limit.dim.words(), limit.to.words(system)));
        let words = format!("Let the {}", each.collect::<Vec<_>>().join(", the "));
        way(words, met(design, now)?)
    });
    offered.collect()
}

/// Where nothing may move: the usual sizes set free.
fn usual_set_free(now: &Standing) -> Option<Way> {
    if !now.design.free.is_empty() {
        return None;
    }
    let usual = now.design.default_free();
    let free = usual.into_iter();
    let design = free.fold(now.design.clone(), |design, (dim, range)| {
        design.apply(Edit::Free(dim, range))
    });
    let words = "Let both reaches and the cheeks’ width and height move".to_owned();
    way(words, met(design, now)?)
}

/// Holding what is missed less closely: within as much as it is out by, rounded up.
fn less_asked(now: &Standing, system: System) -> Vec<Way> {
    let missed = missed(&now.design);
    let offered = missed.into_iter().filter_map(|holding| {
        let Target {
            quantity,
            low,
            high,
            ..
        } = holding.target;
        let hold = if low.is_finite() && high.is_finite() {
            let middle = 0.5 * (low + high);
            let off = outwards(quantity, (holding.value - middle).abs());
            Hold::About {
                value: quantity.amount(middle, system),
                tolerance: Some(small(quantity, off, system)),
            }
        } else if low.is_finite() {
            let least = low - outwards(quantity, low - holding.value);
            Hold::AtLeast {
                least: quantity.amount(least, system),
            }
        } else {
            let most = high + outwards(quantity, holding.value - high);
            Hold::AtMost {
                most: quantity.amount(most, system),
            }
        };
        let words = match hold {
            Hold::About {
                tolerance: Some(off),
                ..
            } => format!("within {}", off.words(system)),
            Hold::AtLeast { least } => format!("at least {}", least.words(system)),
            Hold::AtMost { most } => format!("at most {}", most.words(system)),
            hold => hold.words(system),
        };
        let words = format!("Hold the {} {words}", quantity.words());
        let edit = Edit::Hold(quantity, Some(hold));
        way(words, met(now.design.apply(edit), now)?)
    });
    offered.collect()
}

/// `off` rounded up to what a hold is eased by.
fn outwards(quantity: Quantity, off: f64) -> f64 {
    let step = TOLERANCE_STEP * quantity.scale();
    (off / step).ceil() * step
}

/// A tolerance, in the notation of small amounts.
fn small(quantity: Quantity, off: f64, system: System) -> Amount {
    match quantity.amount(off, system) {
        Amount::Mass(_) => Amount::Mass(Mass::new(off, MassNotation::Gram)),
        amount => amount,
    }
}

/// Letting one hold go so that the others are kept.
fn one_let_go(now: &Standing) -> Vec<Way> {
    let held: Vec<Quantity> = now.design.holds.iter().map(|(held, _)| held).collect();
    if held.len() < 2 {
        return Vec::new();
    }
    let offered = held.iter().filter_map(|quantity| {
        let words = match held.as_slice() {
            [one, other] => {
                let kept = if quantity == one { other } else { one };
                format!("Let the {} go, keep the {}", quantity.words(), kept.words())
            }
            _ => format!("Let the {} go, keep the rest", quantity.words()),
        };
        let design = now.design.apply(Edit::Hold(*quantity, None));
        way(words, met(design, now)?)
    });
    offered.collect()
}

/// The holds that `design` does not keep; none of one that cannot be.
fn missed(design: &Design) -> Vec<Holding> {
    let Ok(solid) = design.build() else {
        return Vec::new();
    };
    let mut all = holdings(design, &solid, &mass_properties(&solid));
    all.retain(|holding| holding.miss != 0.0);
    all
}

fn back(now: &Standing, name: &str, before: &Standing, system: System) -> Option<Way> {
    let sound = before.design.build().is_ok();
    if !sound || before.design.holds != now.design.holds || !missed(&before.design).is_empty() {
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
    use headwright::design::{Part, Range, Side, Size, starter};
    use headwright::units::Length;

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
        let start = settle(
            &look(design),
            &Edit::hold(Quantity::Mass, hold),
            Effort::Thorough,
        );
        let after = settle(
            &start,
            &Edit::set(front, Length::mm(60.0)),
            Effort::Thorough,
        );
        (after, ("front face offset 60".to_owned(), start))
    }

    fn all_ways(now: &Standing, before: &(String, Standing)) -> Vec<Way> {
        (0..TURNS).fold(Vec::new(), |mut found, turn| {
            let more = ways(now, Some(before), 1.0, System::Metric, turn, &found);
            found.extend(more);
            found
        })
    }

    #[test]
    fn every_way_out_that_is_offered_meets_every_hold() {
        let (now, before) = out_of_reach();
        let outcome = now.fitted.as_ref().expect("fitted").outcome;
        assert_ne!(outcome, Outcome::Met, "the trial must be out of reach");
        let ways = all_ways(&now, &before);
        assert!(ways.len() >= 2, "{ways:?}");
        for way in ways {
            assert!(way.design.build().is_ok(), "{}", way.words);
            assert_eq!(missed(&way.design), [], "{}", way.words);
        }
    }

    #[test]
    fn going_back_is_offered_with_the_value_that_was() {
        let (now, before) = out_of_reach();
        let ways = all_ways(&now, &before);
        let words: Vec<&str> = ways.iter().map(|way| way.words.as_str()).collect();
        assert!(
            words
                .iter()
                .any(|words| words.starts_with("Put the front face offset back to")),
            "{words:?}"
        );
    }
}
