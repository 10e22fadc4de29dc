//! Every refusal, in millimetres and in inches.

use expect_test::{Expect, expect};
use headwright::handle::{
    CrossWedge, Handle, HandleError, Kerf, Species, Station, Wedge, Wood, make,
};
use headwright::units::{Length, System};

use super::{head, mm, plain, station};

/// The usual handle of the rounding hammer, changed; its eye is 42 mm deep.
#[track_caller]
fn refused(change: impl FnOnce(&mut Handle)) -> Vec<HandleError> {
    let solid = head("rounding", &[]);
    let mut handle = Handle::usual(&solid, System::Metric);
    change(&mut handle);
    make(&solid, &handle).expect_err("must be refused")
}

#[track_caller]
fn check(change: impl FnOnce(&mut Handle), expected: Expect) {
    let said: Vec<String> = refused(change)
        .iter()
        .flat_map(|error| [System::Metric, System::Imperial].map(|system| error.sentence(system)))
        .collect();
    expected.assert_eq(&said.join("\n"));
}

fn wedge(handle: &mut Handle) -> &mut Wedge {
    handle.wedge.as_mut().expect("a wedge")
}

fn kerf(handle: &mut Handle) -> &mut Kerf {
    handle.kerf.as_mut().expect("a kerf")
}

#[test]
fn a_handle_shorter_than_a_hand_is_refused() {
    check(
        |handle| {
            handle.length = mm(151.0);
            handle.stations = vec![station(0.0, 36.0, 28.0)];
        },
        expect![[r#"
            The handle is 151 mm long, of which 109 mm are outside the head: too little for a hand, which needs 110 mm. Make it at least 152 mm long.
            The handle is 5.945 in long, of which 4.291 in are outside the head: too little for a hand, which needs 4.331 in. Make it at least 5.984 in long."#]],
    );
}

#[test]
fn a_length_out_of_bounds_is_refused() {
    check(
        |handle| handle.length = Length::inches(60.0),
        expect![[r#"
        The length of the handle is 1524 mm. It must be at least 150 mm and at most 1200 mm.
        The length of the handle is 60 in. It must be at least 5.906 in and at most 47.244 in."#]],
    );
    check(
        |handle| handle.proud = mm(-1.0),
        expect![[r#"
            What the tongue stands out of the eye is −1 mm. It must be at least 0 mm and at most 20 mm.
            What the tongue stands out of the eye is −0.039 in. It must be at least 0 in and at most 0.787 in."#]],
    );
    check(
        |handle| handle.proud = mm(25.0),
        expect![[r#"
            What the tongue stands out of the eye is 25 mm. It must be at least 0 mm and at most 20 mm.
            What the tongue stands out of the eye is 0.984 in. It must be at least 0 in and at most 0.787 in.
            The wedge is 567 mm thick at its end and the upper mouth only 21 mm open. Take a thinner or a longer one, or let the tongue stand out less.
            The wedge is 22.323 in thick at its end and the upper mouth only 0.827 in open. Take a thinner or a longer one, or let the tongue stand out less.
            The wedge is 25.2 mm long and the tongue stands out 25 mm: the wedge must reach at least 1.5 mm into the eye.
            The wedge is 0.992 in long and the tongue stands out 0.984 in: the wedge must reach at least 0.059 in into the eye."#]],
    );
}

#[test]
fn stations_out_of_bounds_order_or_number_are_refused() {
    check(
        |handle| handle.stations[1].depth = mm(3.0),
        expect![[r#"
        Station 2 of the handle: its depth is 3 mm. It must be at least 4 mm and at most 90 mm.
        Station 2 of the handle: its depth is 0.118 in. It must be at least 0.157 in and at most 3.543 in."#]],
    );
    check(
        |handle| handle.stations[3].width = mm(95.0),
        expect![[r#"
        Station 4 of the handle: its width is 95 mm. It must be at least 4 mm and at most 90 mm.
        Station 4 of the handle: its width is 3.740 in. It must be at least 0.157 in and at most 3.543 in."#]],
    );
    check(
        |handle| handle.stations.swap(1, 2),
        expect![[r#"
        Station 3 of the handle lies 35 mm from the butt, not beyond the one before it at 115 mm. List the stations from the butt to the head.
        Station 3 of the handle lies 1.378 in from the butt, not beyond the one before it at 4.528 in. List the stations from the butt to the head."#]],
    );
    check(
        |handle| handle.stations[4].at = mm(361.0),
        expect![[r#"
            Station 5 of the handle lies 361 mm from the butt. It must lie on the handle, which is 360 mm long.
            Station 5 of the handle lies 14.213 in from the butt. It must lie on the handle, which is 14.173 in long."#]],
    );
    check(
        |handle| handle.stations.clear(),
        expect![[r#"
        The handle has 0 stations. It must have at least 1 and at most 12.
        The handle has 0 stations. It must have at least 1 and at most 12."#]],
    );
    check(
        |handle| {
            handle.stations = (0..13).map(|k| station(f64::from(k), 30.0, 25.0)).collect();
        },
        expect![[r#"
            The handle has 13 stations. It must have at least 1 and at most 12.
            The handle has 13 stations. It must have at least 1 and at most 12."#]],
    );
}

#[test]
fn a_grip_off_the_handle_is_refused() {
    check(
        |handle| handle.grip = mm(345.0),
        expect![[r#"
        The middle of the grip lies 345 mm from the butt. It must lie between the butt and the lower mouth of the eye, 318 mm from it.
        The middle of the grip lies 13.583 in from the butt. It must lie between the butt and the lower mouth of the eye, 12.520 in from it."#]],
    );
    check(
        |handle| handle.grip = mm(-5.0),
        expect![[r#"
            The middle of the grip lies −5 mm from the butt. It must lie between the butt and the lower mouth of the eye, 318 mm from it.
            The middle of the grip lies −0.197 in from the butt. It must lie between the butt and the lower mouth of the eye, 12.520 in from it."#]],
    );
}

#[test]
fn a_kerf_or_wedge_deeper_than_the_eye_is_refused() {
    check(
        |handle| kerf(handle).depth = mm(43.0),
        expect![[r#"
            The kerf goes 43 mm deep, deeper than the tongue of 42 mm in the eye. Make it shallower.
            The kerf goes 1.693 in deep, deeper than the tongue of 1.654 in in the eye. Make it shallower."#]],
    );
    check(
        |handle| {
            handle.cross_wedge = Some(CrossWedge {
                length: mm(45.0),
                thick: mm(4.0),
                width: mm(22.0),
            });
        },
        expect![[r#"
            The cross wedge goes 45 mm deep, deeper than the tongue of 42 mm in the eye. Make it shallower.
            The cross wedge goes 1.772 in deep, deeper than the tongue of 1.654 in in the eye. Make it shallower.
            The cross wedge is 22 mm wide but the tongue only 19 mm. Make it narrower.
            The cross wedge is 0.866 in wide but the tongue only 0.748 in. Make it narrower."#]],
    );
    check(
        |handle| wedge(handle).length = mm(30.0),
        expect![[r#"
        The wedge is 30 mm long but the kerf only 28 mm deep: it would strike its bottom. Shorten the wedge or saw deeper.
        The wedge is 1.181 in long but the kerf only 1.102 in deep: it would strike its bottom. Shorten the wedge or saw deeper."#]],
    );
    check(
        |handle| {
            handle.proud = mm(8.0);
            wedge(handle).length = mm(9.0);
        },
        expect![[r#"
            The wedge is 40.5 mm thick at its end and the upper mouth only 21 mm open. Take a thinner or a longer one, or let the tongue stand out less.
            The wedge is 1.594 in thick at its end and the upper mouth only 0.827 in open. Take a thinner or a longer one, or let the tongue stand out less.
            The wedge is 9 mm long and the tongue stands out 8 mm: the wedge must reach at least 1.5 mm into the eye.
            The wedge is 0.354 in long and the tongue stands out 0.315 in: the wedge must reach at least 0.059 in into the eye."#]],
    );
    check(
        |handle| handle.kerf = None,
        expect![[r#"
        There is a wedge but no kerf. Saw a kerf for it or leave the wedge out.
        There is a wedge but no kerf. Saw a kerf for it or leave the wedge out."#]],
    );
}

#[test]
fn a_kerf_wider_than_the_tongue_is_refused() {
    let solid = head("rounding", &[("eye.waist.width", 8.0)]);
    let mut handle = Handle::usual(&solid, System::Metric);
    kerf(&mut handle).width = mm(9.0);
    let refused = make(&solid, &handle).expect_err("too wide");
    expect!["The kerf is 9 mm wide and the tongue 8 mm. The kerf must leave at least 1 mm of wood on each side."].assert_eq(&refused[0].sentence(System::Metric));
    check(
        |handle| kerf(handle).width = mm(12.0),
        expect![[r#"
        The width of the kerf is 12 mm. It must be at least 0.5 mm and at most 10 mm.
        The width of the kerf is 0.472 in. It must be at least 0.020 in and at most 0.394 in."#]],
    );
}

#[test]
fn a_wedge_out_of_bounds_is_refused() {
    check(
        |handle| wedge(handle).crush = mm(4.0),
        expect![[r#"
        The crush of the wedge is 4 mm. It must be at least 0 mm and at most 3 mm.
        The crush of the wedge is 0.157 in. It must be at least 0 in and at most 0.118 in."#]],
    );
    check(
        |handle| wedge(handle).thick = Some(mm(0.1)),
        expect![[r#"
        The thickness of the wedge is 0.1 mm. It must be at least 0.5 mm and at most 60 mm.
        The thickness of the wedge is 0.004 in. It must be at least 0.020 in and at most 2.362 in."#]],
    );
}

#[test]
fn a_wedge_as_thick_as_the_eye_is_refused() {
    check(
        |handle| wedge(handle).thick = Some(mm(22.0)),
        expect![[r#"
            The wedge is 22 mm thick at its end and the upper mouth only 21 mm open. Take a thinner or a longer one, or let the tongue stand out less.
            The wedge is 0.866 in thick at its end and the upper mouth only 0.827 in open. Take a thinner or a longer one, or let the tongue stand out less."#]],
    );
    let solid = head("light", &[("eye.top.length", 24.0)]);
    let handle = Handle {
        cross_wedge: Some(CrossWedge {
            length: mm(20.0),
            thick: mm(15.0),
            width: mm(10.0),
        }),
        ..Handle::usual(&solid, System::Metric)
    };
    assert!(make(&solid, &handle).is_ok());
    let small = head(
        "light",
        &[
            ("eye.waist.length", 14.0),
            ("eye.top.length", 15.0),
            ("eye.waist.width", 13.0),
        ],
    );
    let handle = Handle {
        cross_wedge: handle.cross_wedge,
        ..Handle::usual(&small, System::Metric)
    };
    let refused = make(&small, &handle).expect_err("too thick");
    expect!["The cross wedge is 15 mm thick at its end and the upper mouth only 15 mm open. Take a thinner or a longer one, or let the tongue stand out less."].assert_eq(&refused[0].sentence(System::Metric));
}

#[test]
fn moisture_and_gravity_out_of_bounds_are_refused() {
    check(
        |handle| handle.moisture_percent = 30.0,
        expect![[r#"
        The wood’s moisture is 30 %. It must be at least 4 % and at most 20 %.
        The wood’s moisture is 30 %. It must be at least 4 % and at most 20 %."#]],
    );
    check(
        |handle| {
            handle.wood = Wood::Own {
                name: " ".to_owned(),
                specific_gravity: 7.2,
            };
        },
        expect![[r#"
            The handle’s wood must have a name of at least 1 and at most 40 characters.
            The handle’s wood must have a name of at least 1 and at most 40 characters.
            The specific gravity of the handle’s wood is 7.2. It must be at least 0.1 and at most 1.4.
            The specific gravity of the handle’s wood is 7.2. It must be at least 0.1 and at most 1.4."#]],
    );
}

#[test]
fn everything_that_is_wrong_is_said_at_once() {
    let errors = refused(|handle| {
        handle.moisture_percent = f64::NAN;
        handle.length = mm(f64::NAN);
        handle.stations[0] = Station {
            at: mm(f64::NAN),
            ..station(0.0, f64::INFINITY, 30.0)
        };
        kerf(handle).width = mm(20.0);
    });
    assert!(errors.len() >= 5, "{errors:?}");
    for error in &errors {
        let said = error.to_string();
        assert!(said.ends_with('.') && !said.contains("NaN"), "{said}");
    }
}

#[test]
fn an_unknown_species_is_named_with_those_that_are_known() {
    let text = serde_json::to_string(&plain(300.0, &[(0.0, 30.0, 24.0)])).expect("plain data");
    let read = |name: &str| {
        serde_json::from_str::<Handle>(&text.replace("shagbark_hickory", name))
            .map(|handle| handle.wood)
    };
    let schema = schemars::schema_for!(Handle).to_value().to_string();
    for species in Species::ALL {
        assert_eq!(read(species.name()).expect("known"), Wood::Species(species));
        assert_eq!(serde_json::json!(species), species.name());
        assert!(schema.contains(&format!("\"{}\"", species.name())));
    }
    let error = read("balsa").expect_err("no handle of balsa").to_string();
    expect!["“balsa” is no wood that is known here. Known are shagbark_hickory, white_ash, white_oak, sugar_maple, black_locust, yellow_birch, american_beech, osage_orange; give any other as “own”, with its name and specific gravity. at line 1 column 27"].assert_eq(&error);
    let own = r#"{"own":{"name":"hornbeam","specific_gravity":0.7,"colour":"pale"}}"#;
    let error = serde_json::from_str::<Wood>(own).expect_err("a foreign field");
    assert!(error.to_string().contains("colour"), "{error}");
    let foreign = text.replace("\"grip\"", "\"gripp\"");
    let error = serde_json::from_str::<Handle>(&foreign).expect_err("a foreign field");
    assert!(error.to_string().contains("gripp"), "{error}");
}
