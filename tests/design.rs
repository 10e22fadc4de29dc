//! Edits, and what a design that cannot be is told.

use expect_test::{Expect, expect};
use headwright::design::{
    Ball, Corner, Crown, Design, DesignError, Dim, Edge, Edit, EyeOutline, Hold, Lugs, Outline,
    Part, Purpose, Quantity, Range, Side, Size, Tip, bounds, starter, starter_names,
    starter_purpose,
};
use headwright::heat::{Composition, Element, Grade, Heat, Steel, Temper};
use headwright::units::{Angle, Density, Length, Mass, Measure, System};

#[path = "design/alike.rs"]
mod alike;
#[path = "common/references.rs"]
mod references;

use references::reference_heads;

fn rounding() -> Design {
    starter("rounding").expect("a starter")
}

fn dim(path: &str) -> Dim {
    path.parse().expect("a dimension")
}

fn set(path: &str, mm: f64) -> Edit {
    Edit::set(dim(path), Length::mm(mm))
}

/// Parts a size of the back from that of the front.
fn cut(path: &str) -> Edit {
    Edit::Alike(dim(path), false)
}

fn edited(edits: &[Edit]) -> Design {
    edits
        .iter()
        .cloned()
        .fold(rounding(), |design, edit| design.apply(edit))
}

/// The sentences a design is refused with, a line each.
#[track_caller]
fn check_refusal(edits: &[Edit], expected: Expect) {
    let errors = edited(edits).build().expect_err("unsound");
    let sentences: String = errors.iter().map(|error| format!("{error}\n")).collect();
    expected.assert_eq(&sentences);
}

#[test]
fn every_starter_is_sound_and_its_name_is_one_word() {
    assert!(starter_names().count() >= 6);
    for name in starter_names() {
        assert!(!name.contains(char::is_whitespace));
        let design = starter(name).expect("listed");
        assert_eq!(design.build().err(), None, "{name}");
    }
    assert_eq!(starter("no-such-head"), None);
}

#[test]
fn starters_run_from_half_a_kilogram_to_three() {
    let weights: Vec<f64> = starter_names()
        .filter_map(starter)
        .map(|design| headwright::mass::mass_properties(&design.build().expect("sound")).mass)
        .collect();
    let (least, most) = weights.iter().fold((f64::MAX, 0.0f64), |(low, high), kg| {
        (low.min(*kg), high.max(*kg))
    });
    assert!((0.45..=0.55).contains(&least), "{weights:?}");
    assert!((2.8..=3.2).contains(&most), "{weights:?}");
}

#[test]
fn every_starter_balances_within_a_millimetre_of_the_handle_axis() {
    for name in starter_names() {
        let solid = starter(name).expect("listed").build().expect("sound");
        let balance = headwright::mass::mass_properties(&solid).balance();
        assert!(balance.abs() < 1.0, "{name}: {balance} mm");
    }
}

#[test]
fn a_pein_lies_across_along_and_between_among_the_starters() {
    for (name, degrees) in [("cross", 0.0), ("straight", 90.0), ("diagonal", 45.0)] {
        let design = starter(name).expect("listed");
        let direction = design.size(Part::Pein(Side::Back).size(Size::Direction));
        assert_eq!(direction.map(|angle| angle.number()), Some(degrees));
    }
}

#[test]
fn every_starter_has_a_purpose_and_every_purpose_a_starter() {
    let of_all: Vec<Purpose> = starter_names().filter_map(starter_purpose).collect();
    assert_eq!(of_all.len(), starter_names().count());
    for purpose in Purpose::ALL {
        assert!(of_all.contains(&purpose), "{purpose:?}");
        let said = [purpose.words(), purpose.sentence()];
        assert!(said.iter().all(|text| !text.is_empty()), "{purpose:?}");
    }
    assert_eq!(starter_purpose("no-such-head"), None);
}

#[test]
fn what_a_starter_is_for_stands_in_no_file() {
    for name in starter_names() {
        let file = starter(name).expect("listed").to_json();
        assert!(!file.contains("purpose"), "{name}");
    }
}

#[test]
fn an_eye_longer_than_the_cheeks_is_told_how_long_they_must_be() {
    check_refusal(
        &[set("cheeks.length", 30.0), set("eye.top.length", 34.0)],
        expect![[r#"
            The eye is 34 mm long but the cheek block only 30 mm. Lengthen the cheeks to at least 42 mm (4 mm beyond the eye at each end) or shorten the eye.
        "#]],
    );
}

#[test]
fn an_eye_wider_than_the_cheeks_leaves_no_wall() {
    let levels = ["top", "waist", "bottom"];
    let mut edits = vec![set("cheeks.length", 60.0), set("front.neck1.at", 31.0)];
    edits.push(set("back.neck1.at", 31.0));
    edits.extend(levels.map(|level| set(&format!("eye.{level}.length"), 46.0)));
    edits.extend(levels.map(|level| set(&format!("eye.{level}.width"), 44.0)));
    check_refusal(
        &edits,
        expect![[r#"
            The cheeks leave no wall beside the eye, which is 44 mm wide 15 mm below the middle; they must keep 6 mm. Widen the cheeks to at least 56 mm or narrow the eye.
        "#]],
    );
}

#[test]
fn an_eye_that_leaves_the_cheeks_and_comes_back_is_refused() {
    let mut design = rounding();
    design.cheeks.outline = Outline::equal(
        Length::mm(48.0),
        Corner::Chamfer {
            size: Length::mm(15.0),
        },
    );
    design.free.clear();
    design.eye.waist_height = Length::mm(21.0);
    design.eye.waist.width = Some(Length::mm(26.0));
    design.eye.bottom.width = Some(Length::mm(10.0));
    design.eye.top.width = Some(Length::mm(20.0));
    assert!(design.build().is_ok(), "{:?}", design.build());
    design.eye.top.width = Some(Length::mm(8.0));
    let sentences: Vec<String> = design
        .build()
        .expect_err("the eye comes back")
        .iter()
        .map(ToString::to_string)
        .collect();
    expect![[r#"
        The waist of the eye is 26 mm wide 21 mm above the middle, wider than the cheeks are there, and the eye narrows again towards the mouth. Narrow the waist, widen the mouth or move the waist towards the middle.
    "#]]
    .assert_eq(&(sentences.join("\n") + "\n"));
}

#[test]
fn a_ball_no_thicker_than_its_neck_is_told_how_thin_that_must_be() {
    let ball = Tip::Ball(Ball {
        diameter: Length::mm(34.0),
        neck: Length::mm(33.5),
    });
    check_refusal(
        &[Edit::Tip(Side::Back, Box::new(ball), Length::mm(80.0))],
        expect![[r#"
            The back ball is 34 mm across and its neck 33.5 mm; the neck may be at most 33.32 mm. Make the ball larger or the neck thinner.
        "#]],
    );
}

#[test]
fn stations_out_of_order_are_named_with_their_places() {
    // Alone: the neck of the back would be out of order with it.
    check_refusal(
        &[cut("back.neck1.at"), set("front.neck1.at", 60.0)],
        expect![[r#"
        At the front, the land of the face begins 41.05 mm from the handle axis and neck 1 is at 60 mm. They must follow each other outwards, at least 0.5 mm apart.
    "#]],
    );
    check_refusal(
        &[set("back.reach", 30.0)],
        expect![[r#"
        At the back, the land of the face begins 15.86 mm from the handle axis and neck 1 is at 29 mm. They must follow each other outwards, at least 0.5 mm apart.
    "#]],
    );
}

#[test]
fn all_reasons_are_given_at_once() {
    check_refusal(
        &[
            set("cheeks.length", f64::NAN),
            set("front.reach", -5.0),
            // Alone: the front's would be told with it.
            cut("back.face.width"),
            set("back.face.width", 1e9),
        ],
        expect![[r#"
            The cheek length is not a number; it must be between 15 mm and 150 mm.
            The front face offset is −5 mm; it must be between 12 mm and 250 mm.
            The back face width is 1000000000 mm; it must be between 8 mm and 150 mm.
        "#]],
    );
    check_refusal(
        &[
            set("front.face.crown", 15.0),
            set("back.face.land", 1.0),
            set("eye.waist_height", 20.0),
            cut("back.face.edge"),
            set("back.face.edge", 25.0),
            Edit::Corner(
                Part::Cheeks,
                Corner::Chamfer {
                    size: Length::mm(23.0),
                },
            ),
        ],
        expect![[r#"
            The cheek corner takes 23 mm of the width, more than half. Make it at most 21 mm.
            The cheek corner takes 23 mm of the height, more than half. Make it at most 21 mm.
            The waist of the eye is 20 mm from the middle; it must lie inside both mouths, at most 19 mm from the middle.
            The cheeks leave no wall beside the eye, which is 20.49 mm wide 10.5 mm below the middle; they must keep 6 mm. Widen the cheeks or narrow the eye.
            The crown radius of the front face is 15 mm, too round for its outline. Make it at least 19.7 mm.
            The land of the back face is 1 mm, but its crown and edge come down 25 mm at the corners. Make the land at least 25 mm.
            The edge of the back face takes 25 mm, which leaves nothing of the face. Make it at most 19.45 mm.
        "#]],
    );
}

#[test]
fn weights_holds_and_limits_are_checked_by_the_same_door() {
    let conic = Corner::Conic {
        across: Length::mm(5.0),
        up: Length::mm(5.0),
        weight: f64::NAN,
    };
    let range = |low: f64, high: f64| Range::new(Length::mm(low), Length::mm(high));
    check_refusal(
        &[
            Edit::Corner(Part::Face(Side::Front), conic),
            Edit::hold(
                Quantity::Mass,
                Hold::About {
                    value: Mass::kg(-1.0),
                    tolerance: None,
                },
            ),
            Edit::hold(
                Quantity::Balance,
                Hold::Between {
                    low: Length::mm(2.0),
                    high: Length::mm(1.0),
                },
            ),
            Edit::Free(dim("front.reach"), range(80.0, 40.0)),
        ],
        expect![[r#"
            The weight of the front face corner is NaN; it must be between 0 and 0.95.
            The held weight must be more than nothing.
            The held balance has a lower limit above its upper one.
            The front face offset has a lower limit above its upper one.
        "#]],
    );
}

#[test]
fn a_name_or_note_that_is_too_long_is_said_and_keeps_no_head_from_being_made() {
    let long = rounding()
        .apply(Edit::Name("x".repeat(81)))
        .apply(Edit::Note("y".repeat(1001)));
    assert!(long.build().is_ok());
    let said: Vec<String> = long
        .texts_too_long()
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        said,
        [
            "The name has 81 characters; it may have at most 80.",
            "The note has 1001 characters; it may have at most 1000.",
        ]
    );
    // Neither hides what is wrong with the head.
    let width = Part::Cheeks.size(Size::Width);
    let errors = long.apply(Edit::set(width, Length::mm(-1.0))).build();
    assert!(matches!(
        errors.expect_err("no head").as_slice(),
        [DesignError::OutOfBounds { .. }]
    ));
}

/// Every dimension that a head can have, each in a sound design that has it.
fn all_sizes() -> Vec<(Design, Dim, Measure)> {
    let mut sizes: Vec<(Design, Dim, Measure)> = Vec::new();
    let heads = reference_heads().into_iter().map(|(_, design)| design);
    for design in heads.chain([rounding()]) {
        for (dim, size) in design.sizes() {
            if !sizes.iter().any(|(_, known, _)| *known == dim) {
                sizes.push((design.clone(), dim, size));
            }
        }
    }
    sizes
}

#[test]
fn every_dimension_is_refused_just_beyond_its_bounds_and_named() {
    for (design, dim, size) in all_sizes() {
        let limits = bounds(dim);
        assert!(limits.contain(size.number()), "{dim}");
        for number in [
            limits.low - 1e-6,
            limits.high + 1e-6,
            f64::INFINITY,
            f64::NAN,
        ] {
            let errors = design
                .apply(Edit::set(dim, size.with_number(number)))
                .build()
                .expect_err("beyond its bounds");
            let named = errors.iter().any(|error| {
                matches!(error, DesignError::OutOfBounds { dim: other, .. } if *other == dim)
            });
            assert!(named, "{dim} at {number}: {errors:?}");
        }
    }
}

#[test]
fn a_dimension_on_its_bound_is_not_out_of_bounds() {
    for (design, dim, size) in all_sizes() {
        for number in [bounds(dim).low, bounds(dim).high] {
            let result = design
                .apply(Edit::set(dim, size.with_number(number)))
                .build();
            let errors = result.err().unwrap_or_default();
            let bound = errors
                .iter()
                .any(|e| matches!(e, DesignError::OutOfBounds { .. }));
            assert!(!bound, "{dim} at {number}: {errors:?}");
        }
    }
}

#[test]
fn lugs_that_a_leaning_eye_would_pierce_twice_are_refused() {
    let lugs = |top| Lugs {
        length: Length::mm(10.0),
        top: Length::mm(top),
        bottom: Length::mm(2.0),
    };
    let mut design = starter("rounding").expect("a starter");
    design.cheeks.length = Length::mm(60.0);
    design.eye.cock_along = Some(Angle::degrees(-10.0));
    let told = |top| -> Vec<String> {
        let errors = design.apply(Edit::Lugs(Some(lugs(top)))).build().err();
        errors.iter().flatten().map(ToString::to_string).collect()
    };
    assert!(!told(12.0).iter().any(|told| told.contains("steeply")));
    assert!(
        told(24.0).iter().any(|told| told
            == "The lugs rise so steeply that the eye would leave their sides and come back into \
                them. Make them at least 13.03 mm long, or lower."),
        "{:?}",
        told(24.0)
    );
}

#[test]
fn sentences_speak_the_units_of_the_reader() {
    let errors = edited(&[set("cheeks.length", 25.4)])
        .build()
        .expect_err("too short");
    let sentence = errors[0].sentence(System::Imperial);
    assert!(sentence.contains("the cheek block only 1 in"), "{sentence}");
}

#[test]
fn reading_and_writing_know_the_same_dimensions() {
    let starters = starter_names().map(|name| (name.to_owned(), starter(name).expect("a starter")));
    for (name, mut design) in starters.chain(reference_heads()) {
        for outline in [
            EyeOutline::RoundedRectangle,
            EyeOutline::Round,
            EyeOutline::Ellipse,
        ] {
            design = design.apply(Edit::EyeOutline(outline));
            let mut lifted = Vec::new();
            headwright::solid::Head::lift(&design, &mut |dim, mm| {
                lifted.push(dim);
                mm
            });
            let mut listed: Vec<Dim> = design.sizes().into_iter().map(|(dim, _)| dim).collect();
            lifted.sort();
            listed.sort();
            assert_eq!(lifted, listed, "{name}, {outline:?}");
        }
    }
}

#[test]
fn setting_a_dimension_changes_it_alone() {
    for (mut before, dim, size) in all_sizes() {
        before.alike.clear();
        let after = before.apply(Edit::set(dim, size.with_number(size.number() + 0.25)));
        for ((other, old), (_, new)) in before.sizes().into_iter().zip(after.sizes()) {
            assert_eq!(old != new, other == dim, "{dim} and {other}");
        }
    }
}

#[test]
fn a_tied_height_follows_the_width_and_an_untied_one_starts_there() {
    let face = Part::Face(Side::Front);
    let design = rounding();
    assert_eq!(design.size(face.size(Size::Height)), None);
    let cut = design.apply(Edit::Equal(face, false));
    assert_eq!(
        cut.size(face.size(Size::Height)),
        cut.size(face.size(Size::Width))
    );
    assert_eq!(cut.apply(Edit::Equal(face, true)), design);
}

#[test]
fn a_dimension_that_goes_away_is_no_longer_free() {
    let crown = dim("front.face.crown");
    let range = Range::new(Length::mm(100.0), Length::mm(400.0));
    let design = rounding().apply(Edit::Free(crown, range));
    assert!(design.is_free(crown));
    assert!(
        !design
            .apply(Edit::Crown(Side::Front, Crown::Flat))
            .is_free(crown)
    );
}

#[test]
fn a_neck_is_added_on_the_run_and_taken_off_again() {
    let design = rounding();
    let added = design.apply(Edit::AddNeck(Side::Back));
    assert_eq!(added.back.necks.len(), 2);
    assert_eq!(added.build().err(), None);
    let weight = |d: &Design| headwright::mass::mass_properties(&d.build().expect("sound")).mass;
    assert!((weight(&added) / weight(&design) - 1.0).abs() < 0.01);
    assert_eq!(
        added.apply(Edit::AddNeck(Side::Back)),
        added,
        "an end has at most two"
    );
    let bare = added
        .apply(Edit::RemoveNeck(Side::Back))
        .apply(Edit::RemoveNeck(Side::Back));
    assert_eq!(bare.back.necks.len(), 0);
    assert_eq!(bare.apply(Edit::RemoveNeck(Side::Back)), bare);
}

#[test]
fn a_rim_can_be_sharp_rounded_or_chamfered() {
    for edge in [
        Edge::Sharp,
        Edge::Rounded(Length::mm(3.0)),
        Edge::Chamfered(Length::mm(3.0)),
    ] {
        let design = rounding().apply(Edit::Edge(Side::Front, edge));
        assert_eq!(design.build().err(), None);
        assert_eq!(
            design.size(dim("front.face.edge")).is_some(),
            edge != Edge::Sharp
        );
    }
}

#[test]
fn another_grade_brings_its_density_and_the_same_grade_leaves_the_smiths_own() {
    let own = Density::kg_per_m3(7790.0);
    let design = rounding().apply(Edit::Density(own));
    let grade = |grade: Grade| {
        Edit::Heat(Box::new(Heat {
            steel: Steel {
                grade,
                analysis: None,
            },
            ..design.heat
        }))
    };
    let s7 = design.apply(grade(Grade::S7));
    assert_eq!(s7.density, Grade::S7.density());
    assert_ne!(s7.density, own);
    let analysis = Composition::NOTHING.with(Element::C, 0.46);
    let same = design.apply(Edit::Heat(Box::new(Heat {
        steel: Steel {
            grade: design.heat.steel.grade,
            analysis: Some(analysis),
        },
        temper: Some(Temper::usual(Grade::C1060)),
        ..design.heat
    })));
    assert_eq!(same.density, own);
    assert_eq!(same.heat.steel.analysis, Some(analysis));
    // Of carbon steels one is as dense as the other.
    let back = s7.apply(grade(Grade::C1045));
    assert_eq!(back.density, Grade::C1045.density());
}

#[test]
fn a_head_in_proportion_weighs_with_the_cube_and_keeps_its_ties_and_angles() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let before = headwright::mass::mass_properties(&design.build().expect("sound")).mass;
        assert_eq!(design.in_proportion(1.0).sizes(), design.sizes(), "{name}");
        for share in [0.75, 1.3] {
            let other = design.in_proportion(share);
            assert_eq!(other.alike, design.alike, "{name}");
            for ((dim, was), (_, is)) in design.sizes().into_iter().zip(other.sizes()) {
                let expected = was.number() * if dim.is_angle() { 1.0 } else { share };
                // The steel about the eye does not go with the size.
                let about_the_eye = dim.part == Part::Cheeks && is.number() > expected;
                let off = (is.number() - expected).abs();
                assert!(
                    off <= if about_the_eye { 2.5 } else { 0.41 },
                    "{name} {dim}: {is}"
                );
            }
            for (dim, range) in &other.free {
                let now = other.size(*dim).expect("a size").number();
                assert!((range.low.number()..=range.high.number()).contains(&now));
            }
            let solid = other.build();
            let after = headwright::mass::mass_properties(&solid.expect(name)).mass;
            let ratio = after / before / share.powi(3);
            assert!((0.93..1.07).contains(&ratio), "{name} {share}: {ratio}");
        }
    }
}

#[test]
fn what_is_refused_is_said_as_it_was_written() {
    let length = Part::Cheeks.size(Size::Length);
    for (mm, said) in [
        (0.0001, "The cheek length is 0.0001 mm; it must be"),
        (-5.0, "The cheek length is −5 mm; it must be"),
        (14.9996, "The cheek length is 14.9996 mm; it must be"),
        (150.0004, "The cheek length is 150.0004 mm; it must be"),
        (-1e-12, "The cheek length is −1e-12 mm; it must be"),
        (9e300, "The cheek length is 9e300 mm; it must be"),
    ] {
        let errors = edited(&[Edit::set(length, Length::mm(mm))]).build();
        let errors = errors.expect_err("out of bounds");
        let sentence = errors[0].sentence(System::Metric);
        assert!(sentence.starts_with(said), "{sentence}");
    }
}
