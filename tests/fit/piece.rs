//! A design fitted to a piece that is cut and weighed.

use headwright::bar::{Loss, billet, from_piece};
use headwright::design::{Design, Edit, Hold, Quantity, starter, starter_names};
use headwright::fit::{PieceError, PieceFit, to_piece};
use headwright::mass::{causes, mass_properties};
use headwright::units::{Amount, Length, Mass, System};

/// A milligram, in kg.
const SETTLED_KG: f64 = 1e-6;

/// What `design` asks for on average, kg.
fn asked(design: &Design) -> f64 {
    let solid = design.build().expect("sound");
    let causes = causes(&solid, &mass_properties(&solid));
    let billet = billet(&causes, design.density, &design.bar).expect("a cut");
    billet.billet_mass_kg
}

#[track_caller]
fn check_balance(fit: &PieceFit, piece_kg: f64) {
    let solid = fit.design.build().expect("sound");
    let weighed = mass_properties(&solid);
    assert!((weighed.mass - fit.piece.finished_kg).abs() < SETTLED_KG);
    assert!((weighed.mass - fit.piece.finished_kg - fit.off_kg).abs() < 1e-12);
    let lost: f64 = fit.piece.losses.iter().map(|loss| loss.mass_kg).sum();
    assert!((fit.piece.finished_kg + lost - piece_kg).abs() < 1e-9);
    // The losses are those of the fitted head.
    let again = from_piece(
        piece_kg,
        &causes(&solid, &weighed),
        fit.design.density,
        &fit.design.bar,
    );
    assert_eq!(again.as_ref(), Ok(&fit.piece));
    let [low, high] = fit.piece.finished_range_kg;
    assert!(low < fit.piece.finished_kg && fit.piece.finished_kg < high);
}

#[test]
fn a_piece_of_what_a_design_asks_for_gives_the_design() {
    let design = starter("rounding").expect("a starter");
    let piece = asked(&design);
    let fit = to_piece(&design, Mass::kg(piece)).expect("fits");
    check_balance(&fit, piece);
    let weighed = mass_properties(&design.build().expect("sound")).mass;
    assert!((fit.piece.finished_kg - weighed).abs() < SETTLED_KG);
}

#[test]
fn every_starter_is_fitted_to_a_lighter_and_a_heavier_piece() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        for share in [0.93, 1.1] {
            let piece = asked(&design) * share;
            let fit = to_piece(&design, Mass::kg(piece)).expect("fits");
            check_balance(&fit, piece);
            assert!(fit.rounds <= 3, "{name}: {} rounds", fit.rounds);
            assert!(!fit.changed.is_empty() && fit.missed.is_empty());
        }
    }
}

#[test]
fn the_other_holds_are_kept_while_they_can_be() {
    let mut design = starter("rounding").expect("a starter");
    design = design.apply(Edit::hold(
        Quantity::Balance,
        Hold::About {
            value: Length::mm(0.5),
            tolerance: None,
        },
    ));
    let piece = asked(&design) * 1.05;
    let fit = to_piece(&design, Mass::kg(piece)).expect("fits");
    check_balance(&fit, piece);
    assert_eq!(fit.missed, []);
    let weighed = mass_properties(&fit.design.build().expect("sound"));
    assert!((weighed.balance() - 0.5).abs() < 0.01);
    assert!(matches!(
        fit.design.holds.get(Quantity::Mass),
        Some(Hold::About {
            value: Amount::Mass(_),
            tolerance: None
        })
    ));
    // Out of reach they are told, and the piece is used all the same.
    let far = design.apply(Edit::hold(
        Quantity::Balance,
        Hold::AtLeast {
            least: Length::mm(40.0),
        },
    ));
    let fit = to_piece(&far, Mass::kg(piece)).expect("fits");
    check_balance(&fit, piece);
    assert_eq!(fit.missed, [Quantity::Balance]);
}

#[track_caller]
fn check_refused(design: &Design, kg: f64, beginning: &str, end: &str) {
    let error = to_piece(design, Mass::kg(kg)).expect_err("refused");
    let sentence = error.to_string();
    assert!(
        sentence.starts_with(beginning) && sentence.ends_with(end),
        "{sentence}"
    );
}

#[test]
fn a_piece_for_no_head_of_this_design_is_refused_with_a_sentence() {
    let design = starter("rounding").expect("a starter");
    check_refused(
        &design,
        0.5,
        "A piece of 0.5 kg leaves a head of ",
        "Free more sizes, widen their limits or take a heavier piece.",
    );
    check_refused(
        &design,
        9.0,
        "A piece of 9 kg leaves a head of ",
        "Free more sizes, widen their limits or take a lighter piece.",
    );
    let heavy = to_piece(&design, Mass::kg(9.0)).expect_err("refused");
    let told = heavy.sentence(System::Imperial);
    assert!(
        told.starts_with("A piece of 19 lb 13.5 oz leaves a head of "),
        "{told}"
    );
    check_refused(
        &design,
        0.02,
        "The piece weighs 0.02 kg and the losses take ",
        "no head is left.",
    );
    check_refused(&design, -1.0, "The piece weighs −1 kg.", "at most 200 kg.");
    check_refused(
        &design,
        f64::NAN,
        "The piece weighs NaN kg.",
        "at most 200 kg.",
    );
    let mut locked = design.clone();
    locked.free.clear();
    check_refused(
        &locked,
        1.0,
        "A piece of 1 kg leaves a head of ",
        "take a heavier piece.",
    );
    let mut wrong = design.clone();
    wrong.bar.losses = vec![Loss::usual().remove(0); 13];
    check_refused(&wrong, 1.3, "The bar lists 13 losses.", "together.");
    let reach = "front.reach".parse().expect("a dimension");
    let unsound = design.apply(Edit::set(reach, Length::mm(1.0)));
    assert!(matches!(
        to_piece(&unsound, Mass::kg(1.3)),
        Err(PieceError::Unsound(_))
    ));
}
