//! The head that a piece gives which is cut already.

use headwright::bar::{Bar, billet, from_piece};
use headwright::units::Density;

use super::{ACCOUNT_KG, head, sentences};

#[test]
fn a_piece_gives_the_head_that_would_have_asked_for_it() {
    let bar = Bar::default();
    let asked = billet(&head(1.2, 0.16), Density::STEEL, &bar).unwrap();
    let piece = asked.billet_mass_kg;
    let given = from_piece(piece, &head(9.9, 0.16), Density::STEEL, &bar).unwrap();
    assert!((given.finished_kg - 1.2).abs() < ACCOUNT_KG);
    // Half a percent of dressing goes with the head.
    let spread = asked.spread_kg / 1.005;
    assert!((given.spread_kg - spread).abs() < ACCOUNT_KG);
    let [low, high] = given.finished_range_kg;
    assert!((low - (1.2 - 1.281_551_565_544_600_4 * spread)).abs() < ACCOUNT_KG);
    assert!((low + high - 2.4).abs() < ACCOUNT_KG);
    // 21.195 g of grinding and 6 g of dressing.
    assert!((given.before_grinding_kg - 1.227_195).abs() < ACCOUNT_KG);
}

#[test]
fn a_piece_that_is_lost_altogether_or_none_is_refused() {
    let of = |kg| {
        let errors = from_piece(kg, &head(1.2, 0.16), Density::STEEL, &Bar::default());
        sentences(&errors.unwrap_err())
    };
    assert_eq!(
        of(0.1),
        ["The piece weighs 0.1 kg and the losses take 0.107019 kg of it, so that no head is left."]
    );
    for (kg, shown) in [
        (0.0, "0"),
        (-2.0, "-2"),
        (f64::NAN, "NaN"),
        (1e9, "1000000000"),
    ] {
        let limits = "It must weigh at least 0.001 kg and at most 200 kg.";
        assert_eq!(of(kg), [format!("The piece weighs {shown} kg. {limits}")]);
    }
}
