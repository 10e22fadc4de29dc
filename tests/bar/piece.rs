//! The head that a piece gives which is cut already.

use headwright::bar::{Bar, Causes, billet, from_piece};
use headwright::units::Density;

use super::{ACCOUNT_KG, head, sentences};

#[test]
fn a_piece_gives_the_head_that_would_have_asked_for_it() {
    let bar = Bar::default();
    let asked = billet(&head(1.2, 0.16), Density::STEEL, &bar).unwrap();
    let piece = asked.billet_mass_kg;
    let given = from_piece(piece, &head(1.2, 0.16), Density::STEEL, &bar).unwrap();
    assert!((given.finished_kg - 1.2).abs() < ACCOUNT_KG);
    // Half a percent of dressing goes with the head, and two thirds of the 81.64 g off its surfaces.
    let spread = asked.spread_kg / (1.005 + 0.081_64 / 1.8);
    assert!((given.spread_kg - spread).abs() < ACCOUNT_KG);
    let [low, high] = given.finished_range_kg;
    assert!((low - (1.2 - 1.281_551_565_544_600_4 * spread)).abs() < ACCOUNT_KG);
    assert!((low + high - 2.4).abs() < ACCOUNT_KG);
    // 21.195 g of grinding and 6 g of dressing.
    assert!((given.before_grinding_kg - 1.227_195).abs() < ACCOUNT_KG);
}

/// The head of [`head`] and another of its shape that weighs `head_kg`, with the same eye.
fn alike(head_kg: f64) -> Causes {
    let grown = (head_kg / 1.2_f64).powf(2.0 / 3.0);
    let causes = head(head_kg, 0.16);
    Causes {
        surface_mm2: causes.surface_mm2 * grown,
        face_mm2: causes.face_mm2.map(|face| face * grown),
        ..causes
    }
}

#[test]
fn surfaces_grow_with_the_head_that_is_found() {
    let bar = Bar::default();
    for head_kg in [0.3, 1.0, 1.5, 6.0] {
        let asked = billet(&alike(head_kg), Density::STEEL, &bar).unwrap();
        for known_kg in [0.5, 1.2, 4.0] {
            let piece = asked.billet_mass_kg;
            let given = from_piece(piece, &alike(known_kg), Density::STEEL, &bar).unwrap();
            assert!(
                (given.finished_kg - head_kg).abs() < ACCOUNT_KG,
                "{given:?}"
            );
            for (given, asked) in given.losses.iter().zip(&asked.losses) {
                assert!(
                    (given.mass_kg - asked.mass_kg).abs() < ACCOUNT_KG,
                    "{given:?}"
                );
            }
        }
    }
}

#[test]
fn the_spread_of_the_head_is_what_little_more_steel_gives() {
    let (bar, causes) = (Bar::default(), head(1.2, 0.16));
    let of = |kg: f64| from_piece(kg, &causes, Density::STEEL, &bar).unwrap();
    let step = 1e-5;
    let slope = (of(1.5 + step).finished_kg - of(1.5 - step).finished_kg) / (2.0 * step);
    let found = of(1.5);
    let as_found = billet(&alike(found.finished_kg), Density::STEEL, &bar).unwrap();
    assert!((found.spread_kg / (slope * as_found.spread_kg) - 1.0).abs() < 1e-8);
}

#[test]
fn a_piece_that_is_lost_altogether_or_none_is_refused() {
    let of = |kg| {
        let errors = from_piece(kg, &head(1.2, 0.16), Density::STEEL, &Bar::default());
        sentences(&errors.unwrap_err())
    };
    // 9.482 g of slug and 15.896 g of ends go whatever is left.
    assert_eq!(
        of(0.025),
        [
            "The piece weighs 0.025 kg and the losses take 0.025379 kg of it, so that no head is left."
        ]
    );
    for (kg, shown) in [
        (0.0, "0"),
        (-2.0, "−2"),
        (f64::NAN, "NaN"),
        (1e9, "1000000000"),
    ] {
        let limits = "It must weigh at least 0.001 kg and at most 200 kg.";
        assert_eq!(of(kg), [format!("The piece weighs {shown} kg. {limits}")]);
    }
}
