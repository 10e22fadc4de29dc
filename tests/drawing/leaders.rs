//! Leaders among the lines of other sizes.

use headwright::design::{starter, starter_names};
use headwright::drawing::{Drawing, Form, Laid, LaidSize, Segment, Setting, Style, layout};
use headwright::units::System;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};

use super::{common, drawn, settings};

/// The leader of a size, where it has one: its arrow runs back along it, and its shelf begins where it ends.
fn leader(size: &LaidSize) -> Option<Segment> {
    let ([line, shelf], [arrow]) = (&size.lines[..], &size.arrows[..]) else {
        return None;
    };
    let is_leader = line.from == arrow.to && line.to == arrow.from && shelf.from == line.to;
    is_leader.then_some(*line)
}

/// How much of `line` runs within a few degrees and 2 px of `leader`, px.
fn shared(leader: &Segment, line: &Segment) -> f64 {
    let way = |s: &Segment| [s.to[0] - s.from[0], s.to[1] - s.from[1]];
    let (u, v) = (way(leader), way(line));
    let long = u[0].hypot(u[1]);
    let turn = (u[0] * v[1] - u[1] * v[0]).abs() / (long * v[0].hypot(v[1])).max(1e-9);
    if turn > 0.1 {
        return 0.0;
    }
    let steps = 400;
    let near = |step: &i32| {
        let share = f64::from(*step) / f64::from(steps);
        let (x, y) = (
            line.from[0] + share * v[0] - leader.from[0],
            line.from[1] + share * v[1] - leader.from[1],
        );
        let along = (x * u[0] + y * u[1]) / long;
        let off = (x * u[1] - y * u[0]) / long;
        (0.0..=long).contains(&along) && off.abs() < 2.0
    };
    let count = (0..steps).filter(near).count();
    count as f64 / f64::from(steps) * v[0].hypot(v[1])
}

#[track_caller]
fn check_leaders(drawing: &Drawing, laid: &Laid, what: &str) -> usize {
    let mut seen = 0;
    for (index, size) in laid.sizes.iter().enumerate() {
        // A size that found no lane on a narrow sheet has a leader too, among lines that cannot give way.
        let mut forms = drawing.dimensions.iter().filter(|it| it.key == size.key);
        let by_leader = forms.all(|it| {
            let mut forms = it.forms.iter();
            forms.all(|(_, form)| matches!(form, Form::Leader { .. }))
        });
        let Some(leader) = leader(size).filter(|_| by_leader) else {
            continue;
        };
        seen += 1;
        let others = laid
            .sizes
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != index);
        for (_, other) in others {
            for line in &other.lines {
                let most = shared(&leader, line);
                assert!(
                    most < 8.0,
                    "{what}: the leader of “{}” lies on a line of “{}” for {most:.0} px",
                    size.spoken,
                    other.spoken
                );
            }
        }
    }
    seen
}

/// On a phone all sizes at once leave no other way for some.
fn roomy_settings() -> Vec<Setting> {
    let mut settings = settings();
    settings.retain(|it| it.style != Style::Phone);
    settings
}

/// Has every starter and 60 random heads laid out by every one of `settings`.
fn each(settings: &[Setting], mut check: impl FnMut(&Drawing, &Laid, &str)) {
    let mut lay_out = |drawing: &Drawing, what: &str| {
        for setting in settings {
            check(drawing, &layout(drawing, setting), what);
        }
    };
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        lay_out(&drawn(&design, System::Metric), name);
    }
    let mut runner = TestRunner::new(Config {
        rng_seed: RngSeed::Fixed(6),
        ..Config::default()
    });
    for index in 0..60 {
        let head = common::sound_designs()
            .new_tree(&mut runner)
            .expect("a design");
        let drawing = drawn(&head.current(), System::Metric);
        lay_out(&drawing, &format!("head {index}"));
    }
}

#[test]
fn no_leader_lies_on_a_line_of_another_size() {
    let mut seen = 0;
    each(&roomy_settings(), |drawing, laid, what| {
        seen += check_leaders(drawing, laid, what);
    });
    assert!(seen > 500, "{seen} leaders");
}

#[test]
fn no_leader_runs_through_the_text_that_it_leads_to() {
    let mut seen = 0;
    each(&roomy_settings(), |_, laid, what| {
        for size in &laid.sizes {
            let Some(leader) = leader(size) else { continue };
            seen += 1;
            assert!(
                !size.text.rect.is_crossed(&leader),
                "{what}, {} px: the leader of “{}”",
                laid.width,
                size.spoken
            );
        }
    });
    assert!(seen > 500, "{seen} leaders");
}
