//! One punch for the slug, the bolster and the drifts.

use headwright::bar::{Bar, LossAmount, LossKind, Punch, billet};
use headwright::design::starter_names;
use headwright::drift::{Drifting, Note, plan};
use headwright::mass::{causes, mass_properties};
use headwright::solid::Solid;
use headwright::units::{Density, Length, System};

use super::{COLD, Opening, head, slit, slot, unpunched};

fn punched(punch: Option<Punch>) -> Bar {
    let mut bar = Bar::default();
    if let LossAmount::Punched { punch: of_slug, .. } = &mut bar.losses[0].amount {
        *of_slug = punch;
    }
    bar
}

/// Volume of the slug over its web: the area of the punch, mm².
fn slug_mm2(solid: &Solid, bar: &Bar) -> f64 {
    let causes = causes(solid, &mass_properties(solid));
    let billet = billet(&causes, Density::STEEL, bar).expect("a cut");
    let slug = billet
        .losses
        .iter()
        .find(|loss| loss.kind == LossKind::Slug);
    slug.expect("a slug").mass_kg / (8.0 * 7.85e-6)
}

#[test]
fn slug_bolster_and_first_drift_are_of_one_punch() {
    let solid = head("rounding", &[]);
    let rectangle = Punch::Rectangle {
        length: Length::mm(24.0),
        width: Length::inches(0.25),
    };
    let bar = punched(Some(rectangle));
    let opened = plan(&solid, &bar, &Drifting::default(), COLD).expect("drifts");
    assert_eq!(opened.opening.shape, "rectangular");
    assert_eq!(
        (opened.opening.size.length_mm, opened.opening.size.width_mm),
        (24.0, 6.35)
    );
    let hole = opened.bolster.expect("a punched slot").hole;
    assert!((hole.length_mm - 26.0).abs() < 1e-12 && (hole.width_mm - 8.35).abs() < 1e-12);
    assert!((slug_mm2(&solid, &bar) - 24.0 * 6.35).abs() < 1e-9);
    assert_eq!(opened.notes, []);
}

#[test]
fn the_usual_punch_is_one_for_every_starter_and_fits_it() {
    for name in starter_names() {
        let solid = head(name, &[]);
        let bar = Bar::default();
        let opened = plan(&solid, &bar, &Drifting::default(), COLD).expect(name);
        let without = plan(&solid, &unpunched(), &Drifting::default(), COLD).expect(name);
        assert_eq!(opened, without, "{name}");
        let size = opened.opening.size;
        let punch = Punch::Obround {
            length: Length::mm(size.length_mm),
            width: Length::mm(size.width_mm),
        };
        assert!(
            (slug_mm2(&solid, &bar) - punch.area_mm2()).abs() < 1e-9,
            "{name}"
        );
    }
}

#[test]
fn an_opening_of_ones_own_that_is_another_than_the_punch_is_told_with_both_sizes() {
    let solid = head("rounding", &[]);
    let bar = punched(Some(Punch::Obround {
        length: Length::inches(1.0),
        width: Length::inches(0.25),
    }));
    let notes = |drifting: &Drifting| plan(&solid, &bar, drifting, COLD).expect("drifts").notes;
    // The same by another notation.
    assert_eq!(notes(&slot(25.4, 6.35)), []);
    let told = notes(&slot(25.0, 6.0));
    assert_eq!(
        told[0].to_string(),
        "The opening is 25 mm × 6 mm obround, but the slug in the bar’s losses is reckoned for a punch of 25.4 mm × 6.35 mm obround: \
         the drifts follow the opening, the cut follows the punch."
    );
    let told = notes(&slit(32.0, 3.175))[0].sentence(System::Imperial);
    assert!(
        told.starts_with("The opening is 1.260 in × 1/8 in slit, but"),
        "{told}"
    );
    assert!(told.contains("a punch of 1 in × 1/4 in obround"), "{told}");
    let rectangle = Drifting {
        opening: Some(Opening::Punched(Punch::Rectangle {
            length: Length::mm(25.4),
            width: Length::mm(6.35),
        })),
        ..Drifting::default()
    };
    assert!(matches!(notes(&rectangle)[..], [Note::OtherPunch { .. }]));
}

#[test]
fn a_punch_that_does_not_fit_the_eye_opens_nothing() {
    let light = head("light", &[]);
    let bar = punched(Some(Punch::Obround {
        length: Length::mm(25.0),
        width: Length::mm(12.0),
    }));
    let errors = plan(&light, &bar, &Drifting::default(), COLD).expect_err("refused");
    assert_eq!(
        errors[0].to_string(),
        "The opening is 25 mm long, but the eye only 22 mm at its narrowest, hot. Begin with a smaller opening."
    );
    assert_eq!(
        errors[0].sentence(System::Imperial),
        "The opening is 0.984 in long, but the eye only 0.866 in at its narrowest, hot. Begin with a smaller opening."
    );
    // With an opening that fits it can be drifted, and the punch is told of.
    let opened = plan(&light, &bar, &slot(19.0, 5.0), COLD).expect("drifts");
    assert!(matches!(opened.notes[..], [Note::OtherPunch { .. }]));
}
