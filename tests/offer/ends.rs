//! Ends of what is left open: what cannot be had is said with how far it can.

use super::*;
use headwright::design::{Dim, Range};
use headwright::share::offer::OpenEnd;

/// The cross-pein starter with `grams` left open.
fn open_from(low: u32, high: u32) -> Offer {
    let mut offer = Offer::new(starter("cross").expect("a starter"));
    offer.terms.open.grams = Some(Between { low, high });
    offer
}

fn drawn_g(offer: &Offer) -> u32 {
    let solid = offer.design.build().expect("sound");
    (1000.0 * mass_properties(&solid).mass).round() as u32
}

fn choice_of(grams: u32) -> Choice {
    Choice {
        grams: Some(grams),
        ..Choice::default()
    }
}

#[test]
fn ends_that_can_be_had_are_not_said() {
    let drawn = drawn_g(&open_from(1, 2));
    assert_eq!(open_from(drawn - 20, drawn + 20).missed(), []);
    assert_eq!(
        Offer::new(starter("cross").expect("a starter")).missed(),
        []
    );
}

#[test]
fn an_end_beyond_the_free_sizes_is_said_with_how_far_it_can_be_had() {
    let drawn = drawn_g(&open_from(1, 2));
    let offer = open_from(drawn / 3, 3 * drawn);
    assert!(offer.build().is_ok());
    let missed = offer.missed();
    let ends: Vec<OpenEnd> = missed.iter().map(|missed| missed.end).collect();
    assert_eq!(
        ends,
        [OpenEnd::Lightest(drawn / 3), OpenEnd::Heaviest(3 * drawn)]
    );
    let reach = missed[1].reach.expect("a little more can be had");
    assert!((drawn + 1..3 * drawn).contains(&reach), "{reach}");
    assert!(offer.choose(&choice_of(reach)).is_ok());
    assert!(offer.choose(&choice_of(reach + 1)).is_err());
    let said = missed[1].sentence(System::Metric);
    let begins = format!(
        "The weight is left open up to {:.3} kg and can be had only up to {:.3} kg. ",
        f64::from(3 * drawn) / 1000.0,
        f64::from(reach) / 1000.0
    );
    assert!(said.starts_with(&begins), "{said}");
    assert!(said.contains("in the way stand"), "{said}");
    let narrowed = offer.narrowed(&missed);
    assert!(narrowed.build().is_ok());
    assert_eq!(narrowed.missed(), []);
    assert_eq!(
        narrowed.terms.open.grams.map(|range| range.high),
        Some(reach)
    );
}

#[test]
fn a_head_without_free_sizes_can_be_had_only_as_it_is_drawn() {
    let mut offer = open_from(1, 2);
    offer.design.free.clear();
    let drawn = drawn_g(&offer);
    offer.terms.open.grams = Some(Between {
        low: drawn - 30,
        high: drawn + 30,
    });
    let missed = offer.missed();
    assert_eq!(
        missed.iter().map(|missed| missed.reach).collect::<Vec<_>>(),
        [None, None]
    );
    let said = missed[0].sentence(System::Metric);
    assert!(
        said.contains("and can be had only as it is drawn."),
        "{said}"
    );
    assert_eq!(offer.narrowed(&missed).terms.open.grams, None);
}

/// The cross-pein starter with its sizes free up to what they are, so that it can be had only lighter.
fn at_its_heaviest() -> Offer {
    let mut offer = open_from(1, 2);
    let design = &mut offer.design;
    let free: Vec<Dim> = design.free.keys().copied().collect();
    for dim in free {
        let size = design.size(dim).expect("a size that is there");
        let least = size.with_number(0.8 * size.number());
        design.free.insert(dim, Range::new(least, size));
    }
    offer
}

#[test]
fn a_head_at_its_heaviest_can_be_had_up_to_the_gram_below_though_its_own_rounds_to_more() {
    let mut offer = at_its_heaviest();
    let drawn = drawn_g(&offer);
    for high in [drawn, drawn + 30] {
        let low = drawn / 3;
        offer.terms.open.grams = Some(Between { low, high });
        assert!(offer.choose(&choice_of(drawn)).is_err());
        assert!(offer.choose(&choice_of(drawn - 1)).is_ok());
        let missed = offer.missed();
        let ends: Vec<OpenEnd> = missed.iter().map(|missed| missed.end).collect();
        assert_eq!(ends, [OpenEnd::Lightest(low), OpenEnd::Heaviest(high)]);
        let reach = missed[0].reach.expect("lighter ones can be had");
        assert!(reach < drawn - 1, "{reach}");
        assert_eq!(missed[1].reach, Some(drawn - 1));
        let narrowed = offer.narrowed(&missed);
        let left = Between {
            low: reach,
            high: drawn - 1,
        };
        assert_eq!(narrowed.terms.open.grams, Some(left));
        assert_eq!(narrowed.build().err(), None);
        assert_eq!(narrowed.missed(), []);
    }
}

#[test]
fn where_neither_gram_beside_what_is_drawn_can_be_had_no_weight_is_left_open() {
    let mut offer = at_its_heaviest();
    offer.design.free.clear();
    let drawn = drawn_g(&offer);
    offer.terms.open.grams = Some(Between {
        low: drawn,
        high: drawn + 30,
    });
    let missed = offer.missed();
    assert_eq!(missed.len(), 2);
    // Were only the lower end missed, it would go all the same.
    assert_eq!(offer.narrowed(&missed[..1]).terms.open.grams, None);
}

#[test]
fn a_handle_that_cannot_be_made_so_long_is_said() {
    let mut offer = Offer::new(starter("cross").expect("a starter"));
    let mm = offer.design.handle.length.in_mm().round() as u32;
    offer.terms.open.handle_mm = Some(Between {
        low: HANDLE_MM.low,
        high: mm + 10,
    });
    let expected = Choice {
        handle_mm: Some(HANDLE_MM.low),
        ..Choice::default()
    };
    let missed = offer.missed();
    assert_eq!(missed.is_empty(), offer.choose(&expected).is_ok());
    for missed in &missed {
        assert_eq!(missed.end, OpenEnd::Shortest(HANDLE_MM.low));
        let said = missed.sentence(System::Metric);
        assert!(
            said.starts_with("The length of the handle is left open down to "),
            "{said}"
        );
    }
}
