//! A drag that is drawn apart from the page.

use std::collections::BTreeSet;

use headwright::design::{
    Design, Dim, Edit, Hold, Part, Quantity, Side, Size, starter, starter_names,
};
use headwright::drawing::{
    Base, Key, Look, Looks, Rect, Said, Setting, Style, Trace, Traced, draw, layout, line_under,
    samples, svg_body,
};
use headwright::fit::{Effort, Outcome, fit};
use headwright::mass::mass_properties;
use headwright::units::{Length, Mass, System};

use super::{drawn, setting, settings};

const REACH: Dim = Part::End(Side::Front).size(Size::Reach);

/// A rounding hammer whose weight and balance are held, fitted: its sizes have more figures than a file.
fn held() -> Design {
    let design = starter("rounding").expect("a starter");
    let hold = Hold::About {
        value: Mass::kg(1.1),
        tolerance: None,
    };
    let middle = Hold::About {
        value: Length::mm(0.0),
        tolerance: None,
    };
    let design = design
        .apply(Edit::hold(Quantity::Mass, hold))
        .apply(Edit::hold(Quantity::Balance, middle));
    let fitted = fit(&design, Effort::Thorough).expect("a sound head");
    assert_eq!(fitted.outcome, Outcome::Met);
    fitted.design
}

fn desk() -> Setting {
    setting(1040.0, Style::Desktop, Base::Key, None)
}

#[test]
fn a_move_is_fitted_and_drawn_as_the_page_does_it() {
    let design = held();
    let trace = Trace::new(design.clone(), REACH, desk(), System::Metric);
    let read = Trace::read(&trace.write()).expect("what was written");
    let number = design.size(REACH).expect("a reach").number() + 1.0;
    let traced = read.at(number).expect("a head that meets its holds");

    let put = design.put(REACH, Length::mm(number).into());
    let alone = put.apply(Edit::Lock(REACH));
    let fitted = fit(&alone, Effort::Quick).expect("a sound head").design;
    assert_eq!(traced.design.in_numbers(), fitted.in_numbers());
    assert!(traced.design.is_free(REACH));
    let shown = Design {
        free: put.free.clone(),
        ..fitted
    };
    let solid = shown.build().expect("sound");
    let drawing = draw(
        &solid,
        &shown,
        Some(&mass_properties(&solid)),
        System::Metric,
    );
    assert_eq!(traced.laid, layout(&drawing, &desk()));
    // The page has the design; the sizes are all that it needs of the answer, and until it has time for them what changes
    // in sight.
    let told = Said::read(&traced.said().write());
    let Some(Said::Drawn {
        numbers,
        met: true,
        weighed,
    }) = told
    else {
        panic!("{told:?}");
    };
    let own = mass_properties(&solid);
    for (heard, own) in [
        (weighed.mass, own.mass),
        (weighed.balance, own.balance()),
        (weighed.hang_angle, own.hang_angle),
        (weighed.front_mass, own.front_mass),
        (weighed.back_mass, own.back_mass),
    ] {
        assert!((heard - own).abs() < 1e-12, "{heard} for {own}");
    }
    let heard = put.with_numbers(&numbers).expect("the same sizes");
    // A number on its way may lose its last bit.
    for (heard, shown) in heard.in_numbers().iter().zip(shown.in_numbers()) {
        assert!((heard - shown).abs() < 1e-9, "{heard} for {shown}");
    }
    assert_eq!(heard.with_numbers(&shown.in_numbers()), Some(shown));
    let dragged = traced
        .laid
        .sizes
        .iter()
        .find(|size| size.key == Key::Size(REACH));
    assert_eq!(dragged.map(|size| size.press), Some(traced.press));
    let before = design.size(REACH).expect("a reach");
    let was = format!("was {}", before.words(System::Metric));
    assert_eq!(traced.was.as_ref(), Some(&was));
    // The mark and what it was are drawn over all else, by elements of which there is a sample.
    let body = traced.body();
    let mark = body.strip_prefix(&svg_body(&traced.laid));
    let mark = mark.expect("the drawing comes first");
    assert!(mark.contains(&was), "{mark}");
    assert!(names(mark).is_subset(&names(&samples())), "{mark}");
    // Weight and balance stay where they are held: there is nothing to be said of them.
    assert_eq!(traced.weighs, None);
    let still = read.at(before.number()).expect("a sound head");
    assert_eq!(still.was, None);
}

/// The last line of what is drawn.
fn last_line(traced: &Traced) -> String {
    let body = traced.body();
    body.lines().last().expect("a line").to_owned()
}

#[test]
fn what_a_dragged_size_does_to_weight_and_balance_stands_under_it() {
    let design = held();
    let beyond = |design: &Design, system| {
        let trace = Trace::new(design.clone(), REACH, desk(), system);
        trace.at(150.0).expect("a sound head")
    };
    let missed = beyond(&design, System::Metric);
    let words = missed.weighed.words(System::Metric);
    assert_eq!(missed.weighs.as_ref(), Some(&words));
    let line = last_line(&missed);
    assert!(line.starts_with("<text class=\"dragged-out\""), "{line}");
    assert!(line.ends_with(&format!(">{words}</text>")), "{line}");
    assert!(names(&line).is_subset(&names(&samples())), "{line}");
    // One of the two that is not held may move, and misses nothing.
    let loose = design.apply(Edit::Hold(Quantity::Balance, None));
    let met = Trace::new(loose, REACH, desk(), System::Imperial);
    let number = design.size(REACH).expect("a reach").number() + 1.0;
    let met = met.at(number).expect("a sound head");
    assert!(met.met);
    assert_eq!(met.weighs, Some(met.weighed.words(System::Imperial)));
    assert!(last_line(&met).starts_with("<text class=\"dragged-was\""));
    // Before it has moved nothing is said.
    let now = design.size(REACH).expect("a reach").number();
    let still = Trace::new(design, REACH, desk(), System::Metric);
    let mut still = still.at(now).expect("a sound head");
    still.weighs = Some(words.clone());
    assert!(!still.body().contains(&words));
}

#[test]
fn what_stands_under_a_dragged_size_stays_on_the_sheet() {
    let words = "1.368 kg, 7.1 mm to the back";
    let press = |x| Rect {
        x,
        y: 40.0,
        w: 50.0,
        h: 45.0,
    };
    let under = |x, line| line_under(press(x), line, words, 360.0);
    let [left, middle, right] = [0.0, 155.0, 310.0].map(|x| under(x, 0));
    assert_eq!(middle.x + 0.5 * middle.w, 180.0);
    assert_eq!(left.x, 0.0);
    assert!((right.x + right.w - 360.0).abs() < 1e-9, "{right:?}");
    // Below the size and its mark, and no line on another.
    assert!(middle.y > 40.0 + 45.0 + 3.5);
    assert_eq!(under(155.0, 1).y, middle.y + middle.h);
}

#[test]
fn a_head_that_cannot_be_made_is_left_to_the_page() {
    let design = held();
    let width = Part::Cheeks.size(Size::Width);
    let trace = Trace::new(design.clone(), width, desk(), System::Metric);
    assert!(trace.at(1.0).is_none());
    // One that misses what is held is drawn, and it is said.
    let trace = Trace::new(design.clone(), REACH, desk(), System::Metric);
    assert!(!trace.at(150.0).expect("a sound head").met);
    // The same head without holds is drawn as it is put.
    let loose = Edit::Hold(Quantity::Mass, None);
    let loose = design
        .apply(loose)
        .apply(Edit::Hold(Quantity::Balance, None));
    let trace = Trace::new(loose, REACH, desk(), System::Metric);
    let traced = trace.at(150.0).expect("a sound head");
    assert_eq!(traced.design.size(REACH), Some(Length::mm(150.0).into()));
}

#[test]
fn numbers_of_another_head_are_refused() {
    let design = starter("rounding").expect("a starter");
    let numbers = design.in_numbers();
    assert!(design.with_numbers(&numbers[1..]).is_none());
    assert!(
        design
            .with_numbers(&[&numbers[..], &[1.0]].concat())
            .is_none()
    );
    assert_eq!(design.with_numbers(&numbers), Some(design));
    assert!(Trace::read("{}").is_none() && Said::read("1").is_none());
}

/// The names of every element of `body`, each with those around it.
fn names(body: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut open: Vec<&str> = Vec::new();
    for piece in body.split('<').skip(1) {
        let (tag, _) = piece.split_once('>').expect("a tag ends");
        if tag.starts_with('/') {
            open.pop();
            continue;
        }
        let class = tag
            .split_once("class=\"")
            .and_then(|(_, rest)| rest.split('"').next());
        let name = tag.split([' ', '/']).next().expect("a name");
        open.push(class.unwrap_or(name));
        found.insert(open.join("/"));
        if tag.ends_with('/') {
            open.pop();
        }
    }
    found
}

#[test]
fn there_is_a_sample_of_every_element_of_every_drawing() {
    let known = names(&samples());
    let mut seen = BTreeSet::new();
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let far = Hold::About {
            value: Length::mm(30.0),
            tolerance: None,
        };
        let held = design.apply(Edit::hold(Quantity::Balance, far));
        let wrong = Part::Cheeks.size(Size::Width);
        for system in [System::Metric, System::Imperial] {
            for drawing in [drawn(&design, system), drawn(&held, system)] {
                let drawing = drawing.with_problems(|dim| dim == wrong);
                for mut setting in settings() {
                    seen.extend(names(&svg_body(&layout(&drawing, &setting))));
                    setting.show.in_hand = Some(REACH);
                    seen.extend(names(&svg_body(&layout(&drawing, &setting))));
                }
            }
        }
    }
    let unknown: Vec<_> = seen.difference(&known).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
    assert!(seen.len() > 40, "{}", seen.len());
}

#[test]
fn a_look_is_found_by_the_names_it_was_noted_under() {
    let look = Look {
        fill: "none".to_owned(),
        fill_opacity: 1.0,
        stroke: "rgb(1, 2, 3)".to_owned(),
        stroke_width: 1.1,
        dashes: vec![7.0, 4.0],
        join: "round".to_owned(),
        cap: "butt".to_owned(),
        opacity: 0.9,
        weight: 500.0,
        anchor: "middle".to_owned(),
    };
    let mut looks = Looks::default();
    looks.note(&["size free", "path"], look.clone());
    let read = Looks::read(&looks.write()).expect("what was written");
    assert_eq!(read.of(&["size free", "path"]), Some(&look));
    assert_eq!(read.of(&["size free"]), None);
}
