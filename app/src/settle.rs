//! An edit and what follows from it: the fit runs at once when something is held.

use super::fitting::fit;
use super::history::Standing;
use headwright::design::{Design, Dim, Edit, Hold, Quantity};
use headwright::fit::Effort;
use headwright::units::Length;

/// The standing after `edit` on `start`.
///
/// With a hold on, every edit that concerns the head is followed by a fit that leaves the edited
/// dimension alone; its design is shown, whatever the outcome. A head that cannot be stays as it
/// was edited, so that [`Design::build`] can say why; so does one that the fit is not yet there for.
pub fn settle(start: &Standing, edit: &Edit, effort: Effort) -> Standing {
    let design = match edit {
        Edit::Hold(Quantity::Mass | Quantity::ToolMass, Some(_)) => {
            hold_mass(&start.design, edit.clone())
        }
        Edit::Set(dim, size) => start.design.put(*dim, *size),
        _ => start.design.apply(edit.clone()),
    };
    let moved = match edit {
        Edit::Set(dim, _) => Some(*dim),
        _ => None,
    };
    match edit {
        // What comes from elsewhere is shown as it came; the fit only says how it stands.
        Edit::Replace(_) => look(design),
        _ if concerns_the_head(&start.design, edit) => fitted(design, moved, effort),
        _ => Standing {
            design,
            fitted: start.fitted.clone(),
            moved: start.moved,
        },
    }
}

/// Whether `edit` on `before` changes the head or what is asked of it.
pub fn concerns_the_head(before: &Design, edit: &Edit) -> bool {
    match edit {
        Edit::Name(_) | Edit::Note(_) | Edit::Bar(_) => false,
        Edit::Handle(_) => before.holds.of_tool(),
        // Another density is another weight.
        Edit::Heat(_) => before.apply(edit.clone()).density != before.density,
        _ => true,
    }
}

/// `design` as it is, with what a fit says about its holds.
pub fn look(design: Design) -> Standing {
    let fitted = holds_something(&design)
        .then(|| fit(&design, Effort::Thorough))
        .flatten();
    Standing {
        design,
        fitted,
        moved: None,
    }
}

/// `design` fitted to its holds, with `moved` left alone.
pub fn fitted(design: Design, moved: Option<Dim>, effort: Effort) -> Standing {
    if !holds_something(&design) {
        return Standing {
            design,
            fitted: None,
            moved,
        };
    }
    match fit(&start(&design, moved), effort) {
        Some(mut fitted) => {
            // The dimension in hand was locked for this fit alone.
            fitted.design.free = design.free;
            Standing {
                design: fitted.design.clone(),
                fitted: Some(fitted),
                moved,
            }
        }
        None => Standing {
            design,
            fitted: None,
            moved,
        },
    }
}

/// What a fit of `design` begins from: `moved` locked for this fit alone.
pub fn start(design: &Design, moved: Option<Dim>) -> Design {
    match moved {
        Some(dim) => design.apply(Edit::Lock(dim)),
        None => design.clone(),
    }
}

/// Whether a fit has anything to keep.
pub fn holds_something(design: &Design) -> bool {
    !design.holds.is_empty()
}

/// `design` with its weight, or that of the tool, held as `edit` says: where nothing was held before, the balance comes
/// with it, at the middle of the eye.
fn hold_mass(design: &Design, edit: Edit) -> Design {
    let held = design.apply(edit);
    if holds_something(design) {
        return held;
    }
    let middle = Hold::About {
        value: Length::mm(0.0),
        tolerance: None,
    };
    held.apply(Edit::hold(Quantity::Balance, middle))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Part, Range, Side, Size, starter};
    use headwright::mass::mass_properties;
    use headwright::units::Mass;

    const REACH: Dim = Part::End(Side::Front).size(Size::Reach);

    fn held() -> Standing {
        let design = starter("rounding").expect("a starter");
        let mass = mass_properties(&design.build().expect("sound")).mass;
        let hold = Hold::About {
            value: Mass::kg(mass),
            tolerance: None,
        };
        settle(
            &look(design),
            &Edit::hold(Quantity::Mass, hold),
            Effort::Quick,
        )
    }

    #[test]
    fn a_dimension_in_hand_stays_where_it_is_put_and_stays_free() {
        let start = held();
        let to = Length::mm(start.design.size(REACH).expect("a reach").number() + 2.0);
        let after = settle(&start, &Edit::set(REACH, to), Effort::Quick);
        assert_eq!(after.design.size(REACH), Some(to.into()));
        assert!(after.design.is_free(REACH));
        let weighed = mass_properties(&after.design.build().expect("sound"));
        assert!(weighed.balance().abs() <= 0.01, "{}", weighed.balance());
    }

    #[test]
    fn going_back_restores_the_head() {
        let start = held();
        let there = settle(&start, &Edit::set(REACH, Length::mm(60.0)), Effort::Quick);
        assert_ne!(there.design, start.design);
        let back = start.design.size(REACH).expect("a reach");
        let again = settle(&start, &Edit::set(REACH, back), Effort::Quick);
        for ((dim, before), (_, after)) in
            start.design.sizes().into_iter().zip(again.design.sizes())
        {
            assert!(
                (before.number() - after.number()).abs() < 1e-6,
                "{dim}: {before} became {after}"
            );
        }
    }

    #[test]
    fn naming_a_weight_holds_the_balance_in_the_middle_too() {
        let design = held().design;
        assert_eq!(
            design.holds.balance,
            Some(Hold::About {
                value: Length::mm(0.0),
                tolerance: None
            })
        );
    }

    #[test]
    fn two_that_are_alike_stay_where_either_is_put_and_stay_free() {
        let [front, back] = Side::BOTH.map(|side| Part::Face(side).size(Size::Width));
        let range = Range::new(Length::mm(36.0), Length::mm(41.0));
        let start = settle(&held(), &Edit::Free(back, range), Effort::Quick);
        for dim in [front, back] {
            // Beyond the limits, which follow.
            let to = Length::mm(42.5);
            let after = settle(&start, &Edit::set(dim, to), Effort::Quick).design;
            assert_eq!(
                [front, back].map(|dim| after.size(dim)),
                [Some(to.into()); 2]
            );
            assert_eq!(after.free[&front].high, to.into());
            assert!(!after.free.contains_key(&back));
            assert_eq!(after.alike, start.design.alike);
            let weighed = mass_properties(&after.build().expect("sound"));
            assert!(weighed.balance().abs() <= 0.01, "{}", weighed.balance());
        }
    }

    #[test]
    fn a_limit_follows_the_smith_who_goes_beyond_it() {
        let design = starter("rounding").expect("a starter");
        let start = Standing {
            design,
            fitted: None,
            moved: None,
        };
        let after = settle(&start, &Edit::set(REACH, Length::mm(120.0)), Effort::Quick);
        assert_eq!(after.design.free[&REACH].high, Length::mm(120.0).into());
    }
}
