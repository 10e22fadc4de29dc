//! Losses by their cause, and every section of bar, in a link.

use headwright::bar::{Atmosphere, BarSection, Certainty, Loss, LossAmount, LossKind, Punch};
use headwright::design::starter;
use headwright::share::link::{LONGEST_DESIGN, decode, encode};
use headwright::units::Length;

use super::{LENGTH_NOTATIONS, check_carried, check_near, length_without_texts};

/// Losses of every basis, in every notation, with every certainty.
fn every_cause() -> Vec<Loss> {
    let length = |mm: f64, turn: usize| Length::new(mm, LENGTH_NOTATIONS[turn % 4]);
    let amounts = [
        LossAmount::Punched {
            punch: Some(Punch::Round {
                diameter: length(12.7, 3),
            }),
            expected: length(7.9375, 3),
            spread: length(3.2, 0),
        },
        LossAmount::Punched {
            punch: Some(Punch::Obround {
                length: length(25.123, 0),
                width: length(12.05, 1),
            }),
            expected: length(100.0 / 13.0, 2),
            spread: length(2.0, 0),
        },
        LossAmount::Punched {
            punch: Some(Punch::Rectangle {
                length: length(30.0, 1),
                width: length(8.0, 0),
            }),
            expected: length(9.0, 0),
            spread: length(2.5, 1),
        },
        LossAmount::Punched {
            punch: None,
            expected: length(8.0, 0),
            spread: length(3.0, 0),
        },
        LossAmount::PerHeat {
            heats: 11,
            minutes: 7.25,
            atmosphere: Atmosphere::Oxidizing,
            expected: length(0.055, 0),
            spread: length(0.0254, 2),
        },
        LossAmount::PercentPerHeat {
            heats: 5,
            expected: 1.25,
            spread: 0.5,
        },
        LossAmount::OffSurface {
            expected: length(0.035, 0),
            spread: length(0.01, 1),
        },
        LossAmount::OffFaces {
            expected: length(25.4 / 32.0, 3),
            spread: length(0.4, 0),
        },
        LossAmount::OffEnds {
            expected: length(3.0, 0),
            spread: length(1.5875, 3),
        },
    ];
    let losses = amounts.into_iter().enumerate().map(|(index, amount)| Loss {
        kind: LossKind::ALL[index % 6],
        amount,
        source: String::new(),
        certainty: Certainty::ALL[index % 4],
    });
    losses.collect()
}

#[test]
fn losses_by_their_cause_and_every_section_of_bar_travel() {
    let mut design = starter("rounding").expect("a starter");
    let usual = length_without_texts(&check_carried(&design));
    design.bar.losses = every_cause();
    let link = check_carried(&design);
    println!("{} characters, {usual} with usual losses", link.len());
    let carried = decode(&link).expect("reads").bar.losses;
    for (sent, got) in design.bar.losses.iter().zip(&carried) {
        let [sent, got] = [sent, got].map(|loss| loss.amount.numbers());
        check_near(&sent, &got, 0.0005 + 1e-9);
    }
    let mm = Length::mm;
    for section in [
        BarSection::square(mm(45.0)).with_corner_radius(mm(3.0)),
        BarSection::square(mm(45.0)).with_corner_radius(Length::inches(0.0)),
        BarSection::rectangular(mm(50.0), Length::inches(1.25)).with_corner_radius(mm(1.5)),
        BarSection::Hexagonal {
            across_flats: Length::inches(1.75),
        },
        BarSection::OfArea { area_mm2: 1963.495 },
    ] {
        design.bar.section = section;
        let carried = decode(&check_carried(&design)).expect("reads");
        assert_eq!(carried.bar.section, section);
    }
}

/// The lightest starter as a link of version 5 has it: with the losses that were usual then, and with all but the last
/// of them, line by line.
const LIGHT_OF_VERSION_5: [&str; 2] = [
    "5O_F2sNuKXJNYlHIMlrieVYufSwuwdUG6BmOf3KGHhDUOJfsnFrX8uBXttC1FIunnXSBEkVTFiT8mn0iQWF4mGA.TGlnaHQgYmVuY2ggaGFtbWVy.Rm9yIHNtYWxsIHdvcmsgYW5kIGZvciBhIGZpcnN0IGhhbW1lci4",
    "531mEsNuKXJNYlHIMlrieVYufSwuwdUG6BmOf3KGHhDUOJfsnFrX8uBXttC1FIunnXYDSLPkcC-H0jItX4AAgnfwXJw1Vk1QaylQeXGNijANgOW1fLVMQKzUB.TGlnaHQgYmVuY2ggaGFtbWVy.Rm9yIHNtYWxsIHdvcmsgYW5kIGZvciBhIGZpcnN0IGhhbW1lci4",
];

#[test]
fn a_link_of_version_5_keeps_the_punch_that_was_usual_then() {
    let mut light = starter("light").expect("a starter");
    if let LossAmount::Punched { punch, .. } = &mut light.bar.losses[0].amount {
        *punch = Some(Punch::Obround {
            length: Length::mm(25.0),
            width: Length::mm(12.0),
        });
    }
    assert_eq!(decode(LIGHT_OF_VERSION_5[0]).as_ref(), Ok(&light));
    light.bar.losses.remove(5);
    assert_eq!(decode(LIGHT_OF_VERSION_5[1]).as_ref(), Ok(&light));
    // Sent again they say their punch line by line.
    assert_eq!(decode(&check_carried(&light)).as_ref(), Ok(&light));
}

#[test]
fn usual_losses_take_next_to_nothing() {
    let design = starter("rounding").expect("a starter");
    let mut without = design.clone();
    without.bar.losses.clear();
    let [with, without] = [&design, &without].map(|d| length_without_texts(&check_carried(d)));
    assert!(with <= without, "{with} characters against {without}");
}

#[test]
fn bars_beyond_every_limit_travel_as_they_are() {
    let mut design = starter("light").expect("a starter");
    design.bar.losses = every_cause();
    for loss in &mut design.bar.losses {
        loss.amount = loss.amount.with_numbers([-3.0, 1e9]);
        if let LossAmount::PerHeat { heats, minutes, .. } = &mut loss.amount {
            (*heats, *minutes) = (u32::MAX, -1.0);
        }
    }
    design.bar.losses.truncate(6);
    design.bar.section = BarSection::OfArea { area_mm2: -4.0 };
    let carried = decode(&encode(&design).expect("goes")).expect("reads");
    assert_eq!(carried.bar, design.bar);
}

#[test]
fn the_largest_head_takes_six_lines_by_cause() {
    for loss in every_cause() {
        let mut design = super::largest(0, false);
        design.bar.losses = vec![loss; 6];
        let link = encode(&design).expect("goes into a link");
        assert!(link.len() <= LONGEST_DESIGN, "{}", link.len());
    }
}
