//! A hammer of common practice: 3 3/4 lb with two faces, from a billet of about 4 5/8 in of 2 in round.

use headwright::bar::{Bar, Loss, billet};
use headwright::design::Design;
use headwright::mass::{causes, mass_properties};
use headwright::units::{KG_PER_POUND, MM_PER_INCH};

/// Common practice, no source: what such a hammer of 1045 is cut to.
const BILLET_INCHES: f64 = 4.625;

#[test]
fn a_billet_of_common_practice_is_near_what_the_usual_losses_ask_for() {
    let text = include_str!("two-faced.headwright.json");
    let design = Design::from_json(text).expect("reads");
    let solid = design.build().expect("sound");
    let weighed = mass_properties(&solid);
    assert!((weighed.mass / KG_PER_POUND - 3.75).abs() < 0.01);
    let bar = Bar {
        losses: Loss::usual(),
        ..design.bar.clone()
    };
    let causes = causes(&solid, &weighed);
    let got = billet(&causes, design.density, &bar).expect("a cut");
    let per_inch = bar.section.area_mm2() * design.density.in_kg_per_mm3() * MM_PER_INCH;
    let inches = got.billet_mass_kg / per_inch;
    println!(
        "expected billet {inches:.3} in, {:.3} lb; common practice {BILLET_INCHES} in; one standard deviation {:.3} in",
        got.billet_mass_kg / KG_PER_POUND,
        got.spread_kg / per_inch
    );
    for loss in &got.losses {
        println!(
            "{}: {:.1} g ± {:.1} g",
            loss.name,
            loss.mass_kg * 1e3,
            loss.spread_kg * 1e3
        );
    }
    assert!((inches / BILLET_INCHES - 1.0).abs() < 0.15, "{inches}");
}
