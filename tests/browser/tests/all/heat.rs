//! From the head to the fire: its steel, the quench, the temper and the ways round a brittle one.

use headwright_browser::{Page, View, browse, key};
use serde_json::json;

fn open(page: &Page, starter: &str) {
    page.begin_with(starter);
    page.press("button", "heat");
    page.wait_for_region("in short", "hardening heat");
}

/// What the figure of the heats says.
fn heats(page: &Page) -> String {
    let mut images = page.all("image").into_iter().map(|found| found.name);
    images
        .find(|name| name.starts_with("Heats of "))
        .expect("the heats are drawn")
}

/// Chooses from the list `name` by the first letters of a word.
fn choose(page: &Page, name: &str, letters: &str) {
    page.tab_to("combobox", name);
    page.type_text(letters);
}

/// Chooses the word `value` in the list with this id, as the finger does on a phone, whose own list no test can press.
fn choose_by_touch(page: &Page, id: &str, value: &str) {
    page.script(
        "const list = document.getElementById(arguments[0]);
         list.value = arguments[1];
         list.dispatchEvent(new Event('change', { bubbles: true }));",
        json!([id, value]),
    );
}

/// Words of the figures that touch each other, or stand out of their figure.
const TOUCHING: &str = "const found = [];
for (const figure of document.querySelectorAll('.heat-screen svg')) {
    const words = [...figure.querySelectorAll('text')].map((text) => [text.textContent, text.getBoundingClientRect()]);
    const { left, right } = figure.getBoundingClientRect();
    words.forEach(([name, a], index) => {
        if (a.left < left - 1 || a.right > right + 1) found.push(`${name} stands out`);
        // A line of words is as high as its letters, which leave a third of it free.
        for (const [other, b] of words.slice(index + 1)) {
            const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            if (across > 0.5 && down > 0.33 * Math.min(a.height, b.height)) found.push(`${name} | ${other}`);
        }
    });
}
return found";

#[test]
fn another_steel_brings_its_heats_and_its_weight_along_and_is_one_step() {
    browse("another steel", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let before = heats(page);
        assert!(before.contains("Heats of 1045"), "{before}");
        let weight = page.region("finished weight");
        page.save_long_picture("heat-desk");
        choose(page, "steel", "S7");
        page.wait_for("button", "undo steel S7");
        page.wait_for_region("in short", "7.76 g/cm³");
        let after = heats(page);
        assert!(after.contains("Heats of S7"), "{after}");
        assert!(after.contains("do not normalize"), "{after}");
        assert!(after.contains("quench in air"), "{after}");
        assert_ne!(page.region("finished weight"), weight);
        assert!(
            page.region("how hard the ends get")
                .contains("at the centre"),
            "the ends are shown"
        );
        page.press("button", "undo steel S7");
        page.wait("everything is as it was", || heats(page) == before);
        assert_eq!(page.region("finished weight"), weight);
        page.press("button", "redo steel S7");
        page.wait("the steel is there again", || heats(page) == after);
        // It is there at the next visit.
        page.reload();
        page.press("button", "heat");
        page.wait_for_region("in short", "7.76 g/cm³");
        assert_eq!(heats(page), after);
    });
}

#[test]
fn nonsense_is_refused_under_its_field_and_the_last_plan_stays() {
    browse("heats that cannot be", View::desktop(), |page| {
        open(page, "Cross pein hammer");
        let before = heats(page);
        page.write("temper oven, °C", "warm");
        page.wait_for_text("“warm” is not a number with a unit");
        page.keys(&[key::ESCAPE]);
        page.enter("temper oven, °C", "800");
        page.wait_for_text("There is no plan for this");
        let field = page.find("textbox", "temper oven, °C").expect("a field");
        assert!(field.description.contains("lies above Ac1"), "{field:?}");
        assert_eq!(field.value, "800", "what was typed stays");
        assert_eq!(heats(page), before, "the last plan stays");
        page.press("button", "undo temper at 800 °C");
        page.wait("there is a plan again", || {
            !page.text().contains("There is no plan for this")
        });
        page.enter("temper oven, °C", "400 F");
        page.wait_for_value("temper oven, °C", "204.4");
        page.enter("temper each soak, h", "90");
        page.wait_for_text("A soak of 90 h is not reckoned");
        page.press("button", "usual temper for this steel");
        page.enter("quench heat of the bath before, °C", "80");
        page.wait_for_text("The water is at 80 °C");
        page.press("button", "usual quench for this steel");
        page.wait("the usual treatment is back", || heats(page) == before);
        choose(page, "quench in", "a");
        page.wait_for_text("1045 does not get hard enough in air.");
        assert_eq!(heats(page), before);
    });
}

#[test]
fn a_brittle_temper_is_said_and_never_chosen_and_a_way_leads_round_it() {
    browse("a brittle temper", View::desktop(), |page| {
        open(page, "Rounding hammer");
        assert!(!page.text().contains("brittle temper"));
        choose(page, "temper asked for by", "the har");
        page.wait_for("textbox", "temper hardness, HRC");
        page.enter("temper hardness, HRC", "50");
        page.wait_for_text("brittle temper");
        page.wait_for_text("where this steel gets brittle");
        page.save_long_picture("heat-brittle");
        let ways = page.all("button");
        let ways: Vec<&str> = ways
            .iter()
            .map(|way| way.name.as_str())
            .filter(|name| name.contains(" · about ") && name.contains(" HRC"))
            .collect();
        assert!(ways.len() >= 3, "{ways:?}");
        assert!(
            ways.iter()
                .any(|way| way.starts_with("S7, ") && way.contains("weight ")),
            "{ways:?}"
        );
        assert!(page.broken_rules().is_empty());
        page.press("button", "225 °C, one soak · about …");
        page.wait("it is brittle no more", || {
            !page.text().contains("brittle temper")
        });
        page.wait_for_value("temper oven, °C", "225");
        page.press("button", "undo temper at 225 °C");
        page.wait_for_text("brittle temper");
        page.press("button", "S7, …");
        page.wait_for("button", "undo steel S7");
        page.wait("S7 is not brittle there", || {
            !page.text().contains("brittle temper")
        });
    });
}

#[test]
fn the_analysis_of_the_bar_is_typed_in_and_let_go() {
    browse("own analysis", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let before = heats(page);
        page.press("button", "type in the bar’s analysis");
        page.enter("analysis carbon, C, %", "0.50");
        page.wait_for("button", "undo analysis");
        page.wait("Ac3 follows the carbon", || heats(page) != before);
        page.enter("analysis carbon, C, %", "45");
        page.wait_for_text("The analysis says 45 % carbon. A steel that hardens has at least");
        let field = page
            .find("textbox", "analysis carbon, C, %")
            .expect("a field");
        assert!(field.description.contains("45 % carbon"), "{field:?}");
        page.enter("analysis carbon, C, %", "0.45");
        page.enter("analysis chromium, Cr, %", "100");
        page.wait_for_text("more than 100 %. Look at the decimal points.");
        page.press("button", "use the grade’s range again");
        page.wait("the grade’s range is back", || heats(page) == before);
    });
}

#[test]
fn heats_are_read_and_said_in_fahrenheit() {
    browse("heats in fahrenheit", View::desktop(), |page| {
        open(page, "Rounding hammer");
        page.press("button", "in, lb");
        page.wait_for_region("in short", "°F");
        page.enter("temper oven, °F", "450");
        page.wait_for("button", "undo temper at 450 °F");
        page.wait_for_text("brittle temper");
        page.enter("temper oven, °F", "210 C");
        page.wait_for_value("temper oven, °F", "410");
        assert!(!heats(page).contains("°C"), "{}", heats(page));
        assert!(page.region("the work, step by step").contains("US gallons"));
        page.save_long_picture("heat-inches");
    });
}

#[test]
fn words_of_the_figures_never_touch() {
    let sized = |width| View {
        width,
        ..View::desktop()
    };
    for view in [View::phone(), sized(768), sized(1200), View::wide()] {
        let width = view.width;
        browse("words beside each other", view, |page| {
            open(page, "Cross pein hammer");
            for system in ["mm, kg", "in, lb"] {
                page.press("button", system);
                // Far below the range of the lens, in it and far above.
                for (steel, oven) in [
                    ("1045", "120 C"),
                    ("5160", "300 C"),
                    ("W1", "600 C"),
                    ("H13", "540 C"),
                ] {
                    choose_by_touch(page, "steel", steel);
                    let field = if system == "mm, kg" {
                        "temper oven, °C"
                    } else {
                        "temper oven, °F"
                    };
                    page.enter(field, oven);
                    page.rest(|| heats(page));
                    let touching = page.script(TOUCHING, json!([]));
                    assert_eq!(
                        touching,
                        json!([]),
                        "{steel} at {oven}, {width} wide, {system}"
                    );
                }
            }
        });
    }
}

#[test]
fn the_sheet_is_worked_by_touch_on_a_phone() {
    browse("heat on a phone", View::phone(), |page| {
        open(page, "Straight pein hammer");
        choose_by_touch(page, "steel", "5160");
        page.wait_for("button", "undo steel 5160");
        page.enter("temper oven, °C", "300");
        page.wait_for_text("brittle temper");
        page.save_long_picture("heat-phone");
        page.press("button", "225 °C twice · about …");
        page.wait("it is brittle no more", || {
            !page.text().contains("brittle temper")
        });
        let row = page.script(
            "return [...document.querySelectorAll('.step')].map((step) => step.getBoundingClientRect().top)",
            json!([]),
        );
        let tops = row.as_array().cloned().unwrap_or_default();
        assert_eq!(tops.len(), 9);
        let rows = [&tops[..5], &tops[5..]];
        for row in rows {
            assert!(row.iter().all(|top| *top == row[0]), "two rows: {tops:?}");
        }
        let wider = page.script(
            "return document.documentElement.scrollWidth - document.documentElement.clientWidth",
            json!([]),
        );
        assert_eq!(wider.as_f64(), Some(0.0));
    });
}

#[test]
fn no_rule_of_accessibility_is_broken_on_the_heat_sheet() {
    for view in [View::desktop(), View::phone()] {
        for view in [view, view.dark()] {
            browse("rules on the heat sheet", view, |page| {
                open(page, "Rounding hammer");
                page.enter("temper oven, °C", "300");
                page.wait_for_text("brittle temper");
                page.rest(|| page.text());
                let broken = page.broken_rules();
                assert!(broken.is_empty(), "{}", broken.join("\n"));
                page.press("button", "usual temper for this steel");
                page.enter("temper oven, °C", "900");
                page.wait_for_text("There is no plan for this");
                let broken = page.broken_rules();
                assert!(broken.is_empty(), "{}", broken.join("\n"));
            });
        }
    }
}
