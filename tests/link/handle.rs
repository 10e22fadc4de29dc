//! The handle travels with the head.

use headwright::design::{Design, Edit, starter, starter_names};
use headwright::handle::{
    CrossWedge, Handle, Kerf, LENGTH_MM, MOST_STATIONS, Shoulder, Species, Station, Wedge, Wood,
};
use headwright::share::link::{CUSTOM_WOOD, LONGEST_DESIGN, decode, encode};
use headwright::units::{Length, LengthNotation, MM_PER_INCH};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{CARRIED_MM, length_without_texts};

fn carried(design: &Design) -> (Handle, usize) {
    let link = encode(design).expect("goes into a link");
    let length = length_without_texts(&link);
    (decode(&link).expect("reads back").handle, length)
}

fn with(design: &Design, handle: Handle) -> Design {
    design.apply(Edit::Handle(Box::new(handle)))
}

#[test]
fn the_usual_handle_takes_a_few_characters_at_any_length() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let (handle, with_handle) = carried(&design);
        assert_eq!(handle, design.handle, "{name}");
        let solid = design.build().expect("sound");
        let longer = Handle::usual_of_length(&solid, Length::mm(411.0));
        let (handle, _) = carried(&with(&design, longer.clone()));
        assert_eq!(handle, longer, "{name}");
        assert!(with_handle < 250, "{name}: {with_handle}");
    }
}

#[test]
fn a_wood_of_ones_own_goes_by_its_gravity() {
    let design = starter("rounding").expect("a starter");
    let own = |name: &str| Wood::Own {
        name: name.to_owned(),
        specific_gravity: 0.583,
    };
    let handle = Handle {
        wood: own("hornbeam"),
        ..design.handle.clone()
    };
    let (got, _) = carried(&with(&design, handle.clone()));
    assert_eq!(
        got,
        Handle {
            wood: own(CUSTOM_WOOD),
            ..handle
        }
    );
}

/// More stations on no grid may be too much for a link.
const MOST_RANDOM: usize = 6;

/// A length up to `most`, in millimetres or in inches.
fn length(most: f64) -> impl Strategy<Value = Length> {
    between(0.0, most)
}

fn between(least: f64, most: f64) -> impl Strategy<Value = Length> {
    prop_oneof![
        (least..most).prop_map(|mm| Length::mm((mm * 10.0).round() / 10.0)),
        (least..most).prop_map(|mm| {
            let sixteenths = (mm / MM_PER_INCH * 16.0).round();
            Length::new(
                sixteenths / 16.0 * MM_PER_INCH,
                LengthNotation::InchFraction,
            )
        }),
        (least..most).prop_map(Length::mm),
    ]
}

fn wood() -> impl Strategy<Value = Wood> {
    (0..Species::ALL.len()).prop_map(|index| Wood::Species(Species::ALL[index]))
}

fn station() -> impl Strategy<Value = Station> {
    (length(1200.0), between(5.0, 90.0), between(5.0, 90.0))
        .prop_map(|(at, depth, width)| Station { at, depth, width })
}

/// A handle with every size in its bounds, or nearly so, whether it can be made or not.
fn handles() -> impl Strategy<Value = Handle> {
    let kerf = (length(200.0), length(10.0)).prop_map(|(depth, width)| Kerf { depth, width });
    let wedge = (
        wood(),
        length(200.0),
        prop::option::of(length(60.0)),
        length(3.0),
    )
        .prop_map(|(wood, length, thick, crush)| Wedge {
            wood,
            length,
            thick,
            crush,
        });
    let cross =
        (length(100.0), length(15.0), length(60.0)).prop_map(|(length, thick, width)| CrossWedge {
            length,
            thick,
            width,
        });
    (
        (
            wood(),
            8u32..=40,
            between(LENGTH_MM.least, LENGTH_MM.most),
            length(400.0),
        ),
        prop::collection::vec(station(), 0..=MOST_RANDOM),
        (any::<bool>(), length(20.0)),
        (
            prop::option::of(kerf),
            prop::option::of(wedge),
            prop::option::of(cross),
        ),
    )
        .prop_map(
            |(
                (wood, halves, length, grip),
                stations,
                (fills, proud),
                (kerf, wedge, cross_wedge),
            )| {
                Handle {
                    wood,
                    moisture_percent: 0.5 * f64::from(halves),
                    length,
                    stations,
                    grip,
                    shoulder: if fills {
                        Shoulder::FillsMouth
                    } else {
                        Shoulder::None
                    },
                    proud,
                    kerf,
                    wedge,
                    cross_wedge,
                }
            },
        )
}

/// Every length of a handle.
fn lengths(handle: &Handle) -> Vec<Length> {
    let mut all = vec![handle.length, handle.grip, handle.proud];
    for station in &handle.stations {
        all.extend([station.at, station.depth, station.width]);
    }
    all.extend(handle.kerf.iter().flat_map(|kerf| [kerf.depth, kerf.width]));
    if let Some(wedge) = &handle.wedge {
        all.extend([wedge.length, wedge.crush]);
        all.extend(wedge.thick);
    }
    let cross = handle.cross_wedge.iter();
    all.extend(cross.flat_map(|cross| [cross.length, cross.thick, cross.width]));
    all
}

/// The handle with every length at nothing.
fn bare(handle: &Handle) -> Handle {
    let nothing = |length: &mut Length| *length = Length::mm(0.0);
    let mut bare = handle.clone();
    nothing(&mut bare.length);
    nothing(&mut bare.grip);
    nothing(&mut bare.proud);
    for station in &mut bare.stations {
        *station = Station {
            at: Length::mm(0.0),
            depth: Length::mm(0.0),
            width: Length::mm(0.0),
        };
    }
    if let Some(kerf) = &mut bare.kerf {
        nothing(&mut kerf.depth);
        nothing(&mut kerf.width);
    }
    if let Some(wedge) = &mut bare.wedge {
        nothing(&mut wedge.length);
        nothing(&mut wedge.crush);
        wedge.thick.iter_mut().for_each(nothing);
    }
    if let Some(cross) = &mut bare.cross_wedge {
        nothing(&mut cross.length);
        nothing(&mut cross.thick);
        nothing(&mut cross.width);
    }
    bare
}

#[test]
fn more_stations_than_a_handle_can_have_are_refused() {
    let design = starter("rounding").expect("a starter");
    let mut handle = design.handle.clone();
    handle.stations = vec![handle.stations[0]; MOST_STATIONS + 1];
    assert_eq!(
        encode(&with(&design, handle))
            .expect_err("too many")
            .to_string(),
        "The handle lists 13 stations; a link carries at most 12."
    );
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::with_cases(300) })]

    #[test]
    fn any_handle_travels_to_a_thousandth_of_a_millimetre(handle in handles()) {
        let design = with(&starter("rounding").expect("a starter"), handle.clone());
        let link = encode(&design).expect("goes into a link");
        prop_assert!(length_without_texts(&link) <= LONGEST_DESIGN);
        let got = decode(&link).expect("reads back").handle;
        prop_assert_eq!(bare(&got), bare(&handle));
        for (sent, got) in lengths(&handle).into_iter().zip(lengths(&got)) {
            prop_assert!((sent.in_mm() - got.in_mm()).abs() <= CARRIED_MM, "{} came back as {}", sent, got);
            // What is nothing has no notation of its own.
            prop_assert!(sent.in_mm() == 0.0 || sent.notation() == got.notation());
        }
    }
}
