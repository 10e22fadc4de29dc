//! The card: what stands on it, where, and that it is true.

use headwright::bar::BarSection;
use headwright::card::{
    Asked, Card, DEEPEST_MM, Font, Ink, LEAST_FLAT_MM, LEAST_MODULE_MM, MARGIN_MM, MOST_OF_WALL,
    Page, Paper, Path, Pen, Surface, Text, Touchmark, drawing,
};
use headwright::design::{Design, LONGEST_NAME, starter, starter_names};
use headwright::heat::{Agitation, Quench};
use headwright::mass::{causes, mass_properties};
use headwright::units::{Length, Rule};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};

mod common;
#[path = "card/measured.rs"]
mod measured;

const ADDRESS: &str = "https://headwright.example/";

fn named(name: &str) -> Design {
    starter(name).expect("a starter")
}

/// The usual card, with a link.
fn card(design: &Design, paper: Paper) -> Card {
    let asked = Asked {
        paper,
        date: "26 November",
        link_base: Some(ADDRESS),
        ..Asked::default()
    };
    Card::of(design, &asked).expect("a card")
}

fn texts(page: &Page) -> impl Iterator<Item = &Text> {
    page.inks.iter().filter_map(|ink| match ink {
        Ink::Text(text) => Some(text),
        Ink::Path(_) => None,
    })
}

/// The paths of that name on all pages.
fn paths<'a>(pages: &'a [Page], name: &str) -> Vec<&'a Path> {
    let all = pages.iter().flat_map(|page| &page.inks);
    all.filter_map(|ink| match ink {
        Ink::Path(path) if path.name.as_deref() == Some(name) => Some(path),
        _ => None,
    })
    .collect()
}

/// What stands right of `words` on their line, the first that is.
fn beside(card: &Card, words: &str) -> String {
    for page in &card.pages {
        for text in texts(page).filter(|text| text.words == words) {
            let right = texts(page)
                .filter(|other| other.at[1] == text.at[1] && other.at[0] > text.at[0])
                .min_by(|a, b| a.at[0].total_cmp(&b.at[0]));
            if let Some(right) = right {
                return right.words.clone();
            }
        }
    }
    panic!("nothing stands beside “{words}”")
}

/// Roundoff of places, mm.
const ROUNDOFF: f64 = 1e-6;

/// Asserts that nothing is clipped and nothing unreadable.
fn check_page(page: &Page, place: &str) {
    for ink in &page.inks {
        let [low, high] = ink.bounds();
        for axis in 0..2 {
            // A line along the margin may stand out by half its width.
            let out = (MARGIN_MM - low[axis]).max(high[axis] - (page.size[axis] - MARGIN_MM));
            assert!(
                out <= 0.25 + ROUNDOFF,
                "{place}, {}: {ink:?} stands out by {out}",
                page.title
            );
        }
    }
    let all: Vec<&Text> = texts(page)
        .filter(|text| !text.words.trim().is_empty())
        .collect();
    for (index, one) in all.iter().enumerate() {
        for other in &all[index + 1..] {
            let ([a, b], [c, d]) = (one.bounds(), other.bounds());
            let apart = (0..2).any(|k| b[k] <= c[k] + ROUNDOFF || d[k] <= a[k] + ROUNDOFF);
            assert!(
                apart,
                "{place}, {}: “{}” stands on “{}”",
                page.title, one.words, other.words
            );
        }
    }
    // 0.589 is the least height of a figure of these fonts, beside the size.
    let figures = |text: &&&Text| text.words.chars().any(|letter| letter.is_ascii_digit());
    for text in all
        .iter()
        .filter(figures)
        .filter(|text| text.font != Font::Heading)
    {
        assert!(
            0.589 * text.size >= 2.5,
            "{place}: “{}” is {} mm small",
            text.words,
            text.size
        );
    }
}

#[test]
fn every_starters_card_keeps_its_margins_and_can_be_read() {
    for name in starter_names() {
        for paper in Paper::ALL {
            let card = card(&named(name), paper);
            for page in &card.pages {
                assert_eq!(page.size, paper.size_mm());
                check_page(page, name);
                check_headings(page, name);
            }
        }
    }
}

#[test]
fn any_sound_heads_card_keeps_its_margins_and_can_be_read() {
    const HEADS: u32 = 60;
    let config = Config {
        rng_seed: RngSeed::Fixed(5),
        ..Config::default()
    };
    let mut runner = TestRunner::new(config);
    let inches = Rule::new(Length::inches(0.0625)).expect("a rule");
    for k in 0..HEADS {
        let drawn = common::sound_designs()
            .new_tree(&mut runner)
            .expect("a design");
        let mut design = drawn.current();
        design.name = "W".repeat(k as usize % (LONGEST_NAME + 1));
        if k % 2 == 0 {
            design.bar.rule = inches;
        }
        let paper = Paper::ALL[k as usize / 2 % 2];
        let pages = card(&design, paper).pages;
        for page in pages
            .iter()
            .chain([&drawing(&design, design.bar.rule.system()).expect("sound")])
        {
            check_page(page, &format!("head {k} on {}", paper.name()));
            check_headings(page, &format!("head {k} on {}", paper.name()));
        }
    }
}

/// Size of the letters of a section’s heading, mm.
const HEADING_MM: f64 = 5.0;

fn headings(page: &Page) -> Vec<&Text> {
    texts(page)
        .filter(|text| text.font == Font::Heading && text.size == HEADING_MM)
        .collect()
}

/// Everything that is written on a card.
fn said(card: &Card) -> String {
    let all: Vec<&str> = card
        .pages
        .iter()
        .flat_map(texts)
        .map(|text| text.words.as_str())
        .collect();
    all.join(" ")
}

#[test]
fn a_starters_card_is_three_pages_and_cautions_never_stand_alone() {
    // Letter is shorter, and a pein with a hollow, a turn or a rocker has more sizes and gauges.
    let longer = ["straight", "cross", "diagonal"];
    for name in starter_names() {
        for paper in Paper::ALL {
            let pages = card(&named(name), paper).pages;
            let most = match paper {
                Paper::Letter if longer.contains(&name) => 4,
                _ => 3,
            };
            assert_eq!(pages.len(), most, "{name} on {}", paper.name());
            for page in &pages {
                let headings = headings(page);
                if headings.iter().any(|text| text.words == "take care") {
                    assert!(headings.len() > 1, "{name} on {}", paper.name());
                }
            }
        }
    }
}

/// Asserts that below every heading of a page stands what it is the heading of.
fn check_headings(page: &Page, place: &str) {
    for heading in headings(page) {
        let below = texts(page).any(|text| {
            let down = text.at[1] - heading.at[1];
            let [low, high] = text.bounds();
            let beside = low[0] < heading.at[0] + 90.0 && high[0] > heading.at[0];
            text.font == Font::Plain && beside && down > 1.0 && down < 12.0
        });
        let code = heading.words.starts_with("this head on a phone");
        assert!(below || code, "{place}: “{}” stands alone", heading.words);
    }
}

#[test]
fn a_note_is_printed_and_leaves_a_code_that_it_would_make_too_dense() {
    let mut design = named("rounding");
    let short = card(&design, Paper::A4);
    assert!(said(&short).contains("One face nearly flat"));
    let words = said(&short);
    assert!(words.contains("this head on a phone") && !words.contains("without its"));
    design.note = "For a left hand. ".repeat(50).trim().to_owned();
    let long = card(&design, Paper::A4);
    let words = said(&long);
    assert!(words.contains("For a left hand.") && words.contains("without its"));
    // The code of a head without a note.
    design.note = String::new();
    let bare = card(&design, Paper::A4);
    let code = |card: &Card| -> Path {
        let code = card.pages[0].inks.iter().find_map(|ink| match ink {
            Ink::Path(path) if path.fill == Some(0.0) && path.rows.len() > 300 => Some(path),
            _ => None,
        });
        code.expect("a code").clone()
    };
    assert_eq!(code(&long).rows, code(&bare).rows);
    for card in [&short, &long, &bare] {
        let across = |row: &Vec<[f64; 2]>| row[1][0] - row[0][0];
        let module = code(card)
            .rows
            .iter()
            .map(across)
            .fold(f64::INFINITY, f64::min);
        assert!(module >= LEAST_MODULE_MM - ROUNDOFF, "{module}");
    }
}

#[test]
fn the_card_says_how_the_head_is_moved_in_the_quench() {
    let mut design = named("rounding");
    for agitation in Agitation::ALL {
        design.heat.quench = Some(Quench {
            agitation,
            ..design.heat.quench()
        });
        let words = said(&card(&design, Paper::A4));
        assert!(
            words.contains(&format!("it is {}.", agitation.words())),
            "{words}"
        );
    }
}

#[test]
fn the_last_drift_is_named_with_its_own_size_and_the_finished_eyes() {
    let card = card(&named("rounding"), Paper::A4);
    assert_eq!(beside(&card, "drift 3, the last"), "28.4 × 19.3");
    assert_eq!(beside(&card, "finished eye, waist"), "28 × 19");
    let words = said(&card);
    let hot = "made for the eye hot, at 1050 °C: 0.4 mm longer and 0.3 mm wider";
    assert_eq!(
        words.matches(hot).count(),
        2,
        "in the section and over the template: {words}"
    );
}

#[test]
fn the_ledger_on_the_card_adds_up_to_the_cut() {
    for name in starter_names() {
        let design = named(name);
        let solid = design.build().expect("sound");
        let billet = headwright::bar::billet(
            &causes(&solid, &mass_properties(&solid)),
            design.density,
            &design.bar,
        )
        .expect("a billet");
        let card = card(&design, Paper::A4);
        let imperial = design.bar.rule.system() == headwright::units::System::Imperial;
        let told = |words: &str| -> f64 {
            let text = beside(&card, words);
            let number = text.trim_end_matches(['g', 'o', 'z', ' ']);
            let step = if imperial { 10.0 } else { 1.0 };
            (number.parse::<f64>().expect("a number") * step).round()
        };
        let mut sum = told("finished head");
        for loss in &billet.losses {
            sum += told(loss.name);
        }
        assert_eq!(sum, told("billet, as likely as not"), "{name}");
        sum += told("reserve") + told(&format!("up to the rule, {}", design.bar.rule));
        assert_eq!(sum, told("cut"), "{name}");
        let unit = if imperial {
            0.1 * headwright::units::KG_PER_OUNCE
        } else {
            1e-3
        };
        assert!(
            (sum - billet.cut_mass_kg / unit).abs() <= 0.5 + ROUNDOFF,
            "{name}: {sum}"
        );
    }
}

#[test]
fn weights_fall_from_stage_to_stage_and_end_at_the_head() {
    let design = named("rounding");
    let card = card(&design, Paper::A4);
    let weight = mass_properties(&design.build().expect("sound")).mass;
    let stages = ["billet", "after forging", "after the heats", "finished"];
    let grams = |words: &str| -> f64 { words.trim_end_matches(" g").parse().expect("a number") };
    let mut before = [f64::INFINITY; 2];
    for stage in stages {
        let page = card
            .pages
            .iter()
            .find(|page| texts(page).any(|text| text.words == stage))
            .expect("a page");
        let at = texts(page)
            .find(|text| text.words == stage)
            .expect("a stage")
            .at;
        let mut right: Vec<&Text> = texts(page)
            .filter(|it| it.at[1] == at[1] && it.at[0] > at[0] && it.at[0] < at[0] + 95.0)
            .collect();
        right.sort_by(|a, b| a.at[0].total_cmp(&b.at[0]));
        let now = [grams(&right[0].words), grams(&right[1].words)];
        assert!(
            now[0] < before[0] && now[1] < before[1],
            "{stage}: {now:?} after {before:?}"
        );
        assert!(now[1] <= now[0], "{stage}: {now:?}");
        before = now;
    }
    assert_eq!(before[1], (1000.0 * weight).round());
}

#[test]
fn a_bar_longer_than_the_paper_is_parted_clear_of_its_marks() {
    let mut design = named("sledge");
    design.bar.section = BarSection::round(Length::mm(30.0));
    let pages = card(&design, Paper::Letter).pages;
    let sides = paths(&pages, "strip left");
    assert!(sides.len() > 1, "{} parts", sides.len());
    let length = |path: &&Path| (path.rows[0][1][1] - path.rows[0][0][1]).abs();
    let solid = design.build().expect("sound");
    let billet = headwright::bar::billet(
        &causes(&solid, &mass_properties(&solid)),
        design.density,
        &design.bar,
    )
    .expect("a billet");
    let sum: f64 = sides.iter().map(length).sum();
    assert!((sum - billet.cut_length_mm).abs() < ROUNDOFF, "{sum}");
    for page in &pages {
        check_page(page, "parted");
        let joints = page.inks.iter().filter_map(|ink| match ink {
            Ink::Path(path) if path.pen == Some(Pen::Hidden) && path.rows[0].len() == 2 => {
                Some(path.rows[0][0][1])
            }
            _ => None,
        });
        let joints: Vec<f64> = joints.collect();
        for mark in paths(std::slice::from_ref(page), "mark") {
            let at = mark.rows[0][0][1];
            assert!(
                joints.iter().all(|joint| (joint - at).abs() > 2.9),
                "{at} {joints:?}"
            );
        }
    }
    let letters = |letter: &str| {
        let all = pages.iter().flat_map(texts);
        all.filter(|text| text.words == letter).count()
    };
    assert_eq!(letters("A"), 2);
    assert_eq!(letters("B"), if sides.len() > 2 { 2 } else { 0 });
}

#[test]
fn a_touchmark_stands_on_a_flat_and_leaves_the_wall() {
    let mut tops = 0;
    for name in starter_names() {
        let solid = named(name).build().expect("sound");
        let head = solid.head();
        let Some(mark) = Touchmark::of(&solid) else {
            continue;
        };
        let wall = head.least_wall().expect("a wall").thickness;
        assert!(mark.depth_mm <= MOST_OF_WALL * wall + ROUNDOFF && mark.depth_mm <= DEEPEST_MM);
        assert!(mark.left_mm > 0.9 * wall, "{name}: {mark:?}");
        assert!(mark.flat_mm.iter().all(|flat| *flat >= LEAST_FLAT_MM));
        let half = 0.5 * mark.flat_mm[0];
        match mark.surface {
            Surface::Top(side) => {
                tops += 1;
                let end = head.end(side).block_end();
                assert!(mark.x_mm.abs() + half < end, "{name}: {mark:?}");
                assert!(mark.x_mm.abs() - half > head.eye.top.p, "{name}: {mark:?}");
            }
            Surface::Cheek => {
                assert!(
                    0.5 * mark.flat_mm[1] < head.cheeks.b - head.cheeks.d,
                    "{name}: {mark:?}"
                );
            }
        }
    }
    assert!(tops > 0, "no starter has a top that takes a mark");
}

#[test]
fn without_an_address_there_is_no_code_and_with_another_date_another_card() {
    let design = named("cross");
    let plain = Card::of(&design, &Asked::default()).expect("a card");
    assert!(!said(&plain).contains("on a phone"));
    assert!(said(&card(&design, Paper::A4)).contains("on a phone"));
    assert!(said(&card(&design, Paper::A4)).contains("26 November"));
    assert_eq!(plain, Card::of(&design, &Asked::default()).expect("a card"));
}

#[test]
fn a_head_that_cannot_be_has_no_card() {
    let mut design = named("rounding");
    design.cheeks.outline.width = Length::mm(20.0);
    let errors = design.build().expect_err("too thin");
    let refused = Card::of(&design, &Asked::default()).expect_err("no card");
    let system = design.bar.rule.system();
    let sentences: Vec<String> = errors.iter().map(|error| error.sentence(system)).collect();
    assert_eq!(refused.sentence(system), sentences.join(" "));
    assert_eq!(drawing(&design, system).expect_err("no drawing"), errors);
    let hot = Asked {
        celsius: 1300.0,
        ..Asked::default()
    };
    let sentence = Card::of(&named("rounding"), &hot)
        .expect_err("no growth")
        .to_string();
    assert!(
        sentence.starts_with("The growth of steel at 1300 °C"),
        "{sentence}"
    );
}
