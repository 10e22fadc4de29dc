//! What is held of the finished tool: head and handle together.

use headwright::design::{Design, Edit, Hold, Quantity, Range, starter, starter_names};
use headwright::fit::{Effort, Outcome, Target, fit, fit_to};
use headwright::handle::{Handle, make};
use headwright::units::{Length, Mass, System};

use super::cases::{Even, on_all_cores, pair, value_of};
use super::common::sound_designs;

const OF_THE_TOOL: [Quantity; 3] = [
    Quantity::ToolMass,
    Quantity::ToolBalance,
    Quantity::GripInertia,
];

/// Heads drawn for fits to what another tool gives.
const FITS: u64 = 300;

#[test]
fn what_a_tool_gives_is_met_from_another_head_on_the_same_handle() {
    let missed = on_all_cores(FITS, |seed| {
        let mut even = Even(seed);
        // A handle that both heads take: the mouths of the two eyes differ.
        let (design, witness) = (0..)
            .map(|round| {
                let (mut design, mut witness) =
                    pair(1000 * round + seed, sound_designs(), 3..=8, &mut even);
                design.handle = design.usual_handle();
                witness.handle = design.handle.clone();
                (design, witness)
            })
            .find(|(design, witness)| fits(design) && fits(witness))
            .expect("some head takes the usual handle of another");
        let count = 1 + even.below(OF_THE_TOOL.len());
        let targets: Vec<Target> = OF_THE_TOOL[..count]
            .iter()
            .map(|quantity| Target::just(*quantity, value_of(&witness, *quantity)))
            .collect();
        let fitted = fit_to(&design, &targets).expect("a sound start");
        (fitted.outcome != Outcome::Met || fitted.design.build().is_err())
            .then(|| format!("{seed}: {:?} {:?}", fitted.outcome, fitted.residuals))
    });
    assert!(
        missed.is_empty(),
        "{}:\n{}",
        missed.len(),
        missed.join("\n")
    );
}

fn fits(design: &Design) -> bool {
    let solid = design.build().expect("sound");
    make(&solid, &design.handle).is_ok()
}

#[test]
fn every_starter_is_fitted_to_a_lighter_tool_with_its_balance_kept() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let heavy = value_of(&design, Quantity::ToolMass);
        let held = design
            .apply(Edit::hold(
                Quantity::ToolMass,
                Hold::About {
                    value: Mass::kg(0.97 * heavy),
                    tolerance: None,
                },
            ))
            .apply(Edit::hold(
                Quantity::Balance,
                Hold::About {
                    value: Length::mm(value_of(&design, Quantity::Balance)),
                    tolerance: None,
                },
            ));
        let fitted = fit(&held, Effort::Thorough).expect("sound");
        assert_eq!(fitted.outcome, Outcome::Met, "{name}");
        let weighs = value_of(&fitted.design, Quantity::ToolMass);
        assert!(
            (weighs - 0.97 * heavy).abs() <= 1e-4 + 1e-9,
            "{name}: {weighs}"
        );
    }
}

#[test]
fn a_handle_that_keeps_a_fit_from_its_target_is_named() {
    let path = "cheeks.height".parse().expect("a size");
    let mut design = starter("rounding").expect("a starter");
    design.free.clear();
    let range = Range::new(Length::mm(31.0), Length::mm(60.0));
    let mut design = design.apply(Edit::Free(path, range));
    for (kerf, outcome) in [(28.0, Outcome::Met), (40.0, Outcome::OutOfReach)] {
        if let (Some(sawn), Some(wedge)) = (&mut design.handle.kerf, &mut design.handle.wedge) {
            sawn.depth = Length::mm(kerf);
            wedge.length = Length::mm(kerf - 4.0);
        }
        let held = design.apply(Edit::hold(
            Quantity::ToolMass,
            Hold::About {
                value: Mass::kg(1.15),
                tolerance: None,
            },
        ));
        let fitted = fit(&held, Effort::Thorough).expect("sound");
        assert_eq!(fitted.outcome, outcome);
        assert!(fitted.design.build().is_ok());
        let ways: Vec<String> = fitted
            .in_the_way
            .iter()
            .map(|way| way.words(System::Metric))
            .collect();
        let named = ways
            .iter()
            .any(|way| way.starts_with("The kerf goes 40 mm deep"));
        assert_eq!(named, outcome != Outcome::Met, "{ways:?}");
    }
}

#[test]
fn a_hold_on_the_tool_is_refused_where_the_handle_cannot_be_made() {
    let design = starter("rounding").expect("a starter");
    let hold = Hold::AtMost {
        most: Mass::kg(2.0),
    };
    let short = Handle {
        length: Length::mm(150.0),
        ..design.handle.clone()
    };
    let design = design.apply(Edit::Handle(Box::new(short)));
    assert!(design.build().is_ok());
    let held = design.apply(Edit::hold(Quantity::ToolMass, hold));
    let reasons = held.build().expect_err("no handle");
    assert!(reasons[0].to_string().contains("handle"), "{}", reasons[0]);
    assert_eq!(fit(&held, Effort::Quick).expect_err("no handle"), reasons);
}
