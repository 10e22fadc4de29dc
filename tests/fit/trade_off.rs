//! The edge of what two quantities can be at once.

use headwright::design::{Edit, Hold, Quantity, Range};
use headwright::fit::{TradeOff, TradeOffError, Traded};
use headwright::units::Length;

use super::cases::value_of;
use super::{Design, dim, rounding, weigh};

const WEIGHT: Traded = Traded::Quantity(Quantity::Mass);
const BALANCE: Traded = Traded::Quantity(Quantity::Balance);

fn reach() -> Traded {
    Traded::Size(dim("front.reach"))
}

/// A head of which only the cheeks' width and the front's reach may move.
fn two_free() -> Design {
    let mut design = rounding();
    design.free.clear();
    let ranges = [("cheeks.width", 38.0, 50.0), ("front.reach", 50.0, 60.0)];
    ranges
        .into_iter()
        .fold(design, |design, (path, low, high)| {
            let range = Range::new(Length::mm(low), Length::mm(high));
            design.apply(Edit::Free(dim(path), range))
        })
}

/// `design` with the two sizes so.
fn with(design: &Design, width: f64, reach: f64) -> Design {
    design
        .apply(Edit::set(dim("cheeks.width"), Length::mm(width)))
        .apply(Edit::set(dim("front.reach"), Length::mm(reach)))
}

#[test]
fn the_span_ends_where_the_limits_do() {
    let design = two_free();
    let question = TradeOff::new(&design, WEIGHT, reach(), true).expect("a question");
    let [least, most] = question.span();
    let (lightest, _) = weigh(&with(&design, 38.0, 50.0));
    let (heaviest, _) = weigh(&with(&design, 50.0, 60.0));
    assert!(
        (0.0..3e-4).contains(&(least - lightest)),
        "{least} {lightest}"
    );
    assert!(
        (0.0..3e-4).contains(&(heaviest - most)),
        "{most} {heaviest}"
    );
}

#[test]
fn the_edge_is_that_of_the_two_sizes_alone() {
    // With two sizes free the longest reach of a weight has the narrowest cheeks, as long as the
    // reach is inside its limits.
    let design = two_free();
    for (upper, width) in [(true, 38.0), (false, 50.0)] {
        let question = TradeOff::new(&design, WEIGHT, reach(), upper).expect("a question");
        let mut near = None;
        for reach in [51.0, 53.0, 55.0, 57.0, 59.0] {
            let (mass, _) = weigh(&with(&design, width, reach));
            let pair = question.at(mass, near.as_ref()).expect("within reach");
            assert!((pair.y - reach).abs() < 0.03, "{upper} {reach}: {}", pair.y);
            assert!((pair.x - mass).abs() < 1e-4, "{reach}");
            assert_eq!(pair.y, reach_of(&pair.design));
            near = Some(pair);
        }
    }
}

fn reach_of(design: &Design) -> f64 {
    design.size(dim("front.reach")).expect("a reach").number()
}

#[test]
fn every_pair_keeps_what_else_is_held_and_no_pair_beyond_it_is_within_reach() {
    let hold = Hold::AtLeast {
        least: Length::mm(9.0),
    };
    let design = rounding().apply(Edit::hold(Quantity::LeastWall, hold));
    let face = Traded::Size(dim("front.face.width"));
    let question = TradeOff::new(&design, BALANCE, face, true).expect("a question");
    let [least, most] = question.span();
    assert!(least < -1.0 && most > 1.0, "{least} {most}");
    for share in [0.1, 0.5, 0.9] {
        let x = least + share * (most - least);
        let pair = question.at(x, None).expect("within reach");
        assert!(value_of(&pair.design, Quantity::LeastWall) >= 9.0 - 1e-9);
        let (_, balance) = weigh(&pair.design);
        assert!((balance - x).abs() < 0.01, "{balance} {x}");
    }
}

#[test]
fn a_question_that_cannot_be_asked_is_refused_in_a_sentence() {
    let design = rounding();
    let refused = |design: &Design, x, y| {
        let question = TradeOff::new(design, x, y, true);
        question.err().map(|error| error.to_string())
    };
    assert_eq!(
        refused(&design, WEIGHT, WEIGHT).as_deref(),
        Some(
            "A trade-off is between two different things; choose another than weight for one of them."
        )
    );
    let nose = Traded::Size(dim("front.pein.nose"));
    assert_eq!(
        refused(&design, WEIGHT, nose).as_deref(),
        Some("This design has no size front.pein.nose.")
    );
    let hold = Hold::AtLeast {
        least: Length::mm(60.0),
    };
    let impossible = design.apply(Edit::hold(Quantity::LeastWall, hold));
    let question = TradeOff::new(&impossible, WEIGHT, BALANCE, true);
    assert_eq!(question.err(), Some(TradeOffError::OutOfReach));
}
