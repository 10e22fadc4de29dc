//! What a person needs who does not see the sheet, sees it badly, or works it with a thumb.

use headwright_browser::{Page, View, browse};

/// Every screen by the name of its step, and something that only it says.
const SCREENS: [(&str, &str); 9] = [
    ("head", "all sizes"),
    ("handle", "parts of the handle"),
    ("bar", "of steel."),
    ("heat", "the work, step by step"),
    ("swing", "The short one"),
    ("card", "sheet 1 of"),
    ("log", "Nothing was logged yet."),
    ("rack", "Nothing stands here yet."),
    ("starters", "Heads to begin with"),
];

/// Runs `look` on every screen in both looks.
fn on_every_screen(name: &str, view: View, look: impl Fn(&Page, &str)) {
    for view in [view, view.dark()] {
        browse(name, view, |page| {
            for (screen, says) in SCREENS {
                page.press("button", screen);
                page.wait_for_text(says);
                page.rest(|| page.text());
                let look_of = if view.dark { "slate" } else { "paper" };
                let place = format!("{screen}-{look_of}-{}", view.width);
                page.save_picture(&place);
                look(page, &place);
            }
        });
    }
}

fn rules_are_kept(view: View) {
    let broken = std::cell::RefCell::new(Vec::new());
    on_every_screen("rules of accessibility", view, |page, place| {
        let found = page.broken_rules();
        broken
            .borrow_mut()
            .extend(found.into_iter().map(|rule| format!("{place}: {rule}")));
    });
    let broken = broken.into_inner();
    assert!(
        broken.is_empty(),
        "{} rules are broken:\n{}",
        broken.len(),
        broken.join("\n")
    );
}

#[test]
fn no_rule_of_accessibility_is_broken_on_a_desktop() {
    rules_are_kept(View::desktop());
}

#[test]
fn no_rule_of_accessibility_is_broken_on_a_phone() {
    rules_are_kept(View::phone());
}

#[test]
fn no_rule_is_broken_while_something_is_wrong() {
    browse("rules with a problem", View::desktop(), |page| {
        page.enter("hold weight at, kg", "9 kg");
        page.wait_for_text("out by");
        page.rest(|| page.text());
        let mut broken = page.broken_rules();
        page.enter("cheek length, mm", "7");
        page.wait_for("region", "This head can’t be made");
        page.write("cheek width, mm", "wide");
        page.wait_for_text("is not a number with a unit");
        broken.extend(page.broken_rules());
        assert!(broken.is_empty(), "{}", broken.join("\n"));
    });
}

#[test]
fn the_rules_find_a_button_without_a_name_and_faint_letters() {
    browse("the rules find faults", View::desktop(), |page| {
        page.script(
            "document.querySelector('main').append(document.createElement('button'));
             const said = [...document.querySelectorAll('h2')];
             said.find((heading) => heading.innerText === 'holds').style.color = '#d8d0bc';",
            serde_json::json!([]),
        );
        let broken = page.broken_rules().join("\n");
        assert!(broken.contains("button-name"), "{broken}");
        assert!(broken.contains("color-contrast"), "{broken}");
    });
}

/// Least contrast of letters with their ground, WCAG 2, level AA.
const CONTRAST: f64 = 4.5;

/// The faintest letters of all drawings: their contrast with the sheet and what they say. A halo
/// that is not under its letters hides them.
const FAINTEST: &str = "const parts = (text) => text.match(/[0-9.]+/g).slice(0, 3).map(Number);
const light = (text) => { const [r, g, b] = parts(text).map((v) => v / 255)
        .map((v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
const ground = getComputedStyle(document.documentElement).backgroundColor;
const contrast = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
const all = [...document.querySelectorAll('svg text')].map((text) => {
    const { fill, stroke, paintOrder } = getComputedStyle(text);
    const seen = stroke === 'none' || paintOrder.startsWith('stroke');
    const behind = text.closest('.card-paper') ? 1 : light(ground);
    return [seen ? contrast(light(fill), behind) : 1, text.textContent]; });
return all.sort(([a], [b]) => a - b)";

#[test]
fn figures_on_the_drawings_stand_out_from_the_sheet() {
    // The engine of rules cannot tell what lies behind letters in a drawing.
    for view in [View::desktop(), View::phone()] {
        on_every_screen("figures stand out", view, |page, place| {
            let letters = page.script(FAINTEST, serde_json::json!([]));
            let count = letters.as_array().map_or(0, Vec::len);
            assert!(
                count > 0
                    || ["starters", "rack", "log"]
                        .iter()
                        .any(|screen| place.starts_with(screen)),
                "{place}: no figures"
            );
            if count > 0 {
                let faintest = letters[0][0].as_f64().unwrap_or_default();
                assert!(faintest >= CONTRAST, "{place}: {}", letters[0]);
            }
        });
    }
}

#[test]
fn nothing_runs_over_the_side_of_a_phone() {
    nothing_runs_over(View::phone());
}

#[test]
fn nothing_runs_over_the_side_of_a_phone_that_lies() {
    nothing_runs_over(View::lying());
}

#[test]
fn nothing_runs_over_the_side_at_a_zoom_of_200_percent() {
    nothing_runs_over(View::enlarged());
}

/// Where weight and balance are said at a glance.
const AT_A_GLANCE: &str = "weight and balance at a glance";

#[test]
fn weight_and_balance_stay_in_sight_however_far_a_sheet_is_scrolled() {
    for view in [
        View::desktop(),
        View::phone(),
        View::lying(),
        View::enlarged(),
    ] {
        browse("weight and balance in sight", view, |page| {
            for (screen, says) in SCREENS
                .into_iter()
                .filter(|(screen, _)| !["starters", "rack", "log"].contains(screen))
            {
                page.press("button", screen);
                page.wait_for_text(says);
                page.script(
                    "scrollTo(0, document.body.scrollHeight)",
                    serde_json::json!([]),
                );
                page.wait(&format!("{screen}: the strip at {}", view.width), || {
                    let strip = page.find("region", AT_A_GLANCE);
                    strip.is_some_and(|strip| {
                        let [left, top, width, height] = page.place_of(&strip).bounds;
                        let whole = left >= 0.0 && left + width <= f64::from(view.width);
                        whole && (0.0..1.0).contains(&top) && height < 0.25 * f64::from(view.height)
                    })
                });
                let said = page.region(AT_A_GLANCE);
                assert!(said.contains(" g") || said.contains(" kg"), "{said}");
                assert!(said.contains(" mm"), "{said}");
                page.save_picture(&format!("glance-{screen}-{}", view.width));
            }
        });
    }
}

fn nothing_runs_over(view: View) {
    on_every_screen("no sideways scrolling", view, |page, place| {
        let over = page.script(
            "const wide = [...document.querySelectorAll('body *')].filter((e) => {
                 const r = e.getBoundingClientRect();
                 return r.width > 0 && r.right > innerWidth + 0.5 && !e.closest('svg');
             });
             return [document.documentElement.scrollWidth - innerWidth,
                     wide.slice(0, 8).map((e) => e.outerHTML.slice(0, 160))]",
            serde_json::json!([]),
        );
        assert!(
            over[0].as_f64() <= Some(0.0),
            "{place} is wider than the phone: {over:#}"
        );
    });
}

/// Least side of a press area, CSS pixels.
const THUMB: f64 = 44.0;

#[test]
fn everything_to_be_pressed_on_a_phone_takes_a_thumb() {
    let small = std::cell::RefCell::new(Vec::new());
    on_every_screen("press areas", View::phone(), |page, place| {
        assert!(page.all("button").len() > 5, "{place} has buttons");
        for role in ["button", "textbox", "combobox", "checkbox", "link"] {
            for found in page.all(role) {
                let [width, height] = page.press_area(&found);
                if width > 0.0 && (width < THUMB || height < THUMB) {
                    small.borrow_mut().push(format!(
                        "{place}: the {role} “{}” is {width:.0} × {height:.0}",
                        found.name
                    ));
                }
            }
        }
    });
    let small = small.into_inner();
    assert!(
        small.is_empty(),
        "{} are too small for a thumb:\n{}",
        small.len(),
        small.join("\n")
    );
}

#[test]
fn what_has_the_focus_is_to_be_seen_and_follows_the_page() {
    browse("the focus is seen", View::desktop(), |page| {
        let mut seen = Vec::new();
        for _ in 0..40 {
            page.keys(&[headwright_browser::key::TAB]);
            // A moment, for what slides into the window.
            let ring = page.rest(|| {
                page.script(
                "const e = document.activeElement;
                 const rings = (e) => { const s = getComputedStyle(e);
                     return (s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2) || s.boxShadow !== 'none'; };
                 const r = e.getBoundingClientRect();
                 return [rings(e) || (e.parentElement && rings(e.parentElement))
                         || Boolean(e.closest('label') && rings(e.closest('label'))),
                         r.bottom > 0 && r.top < innerHeight, e.outerHTML.slice(0, 160)]",
                serde_json::json!([]),
                )
            });
            let (role, name) = page.focused();
            assert!(
                ring[0] == true,
                "no ring on the {role} “{name}”: {}",
                ring[2]
            );
            assert!(
                ring[1] == true,
                "the {role} “{name}” has the focus outside the window"
            );
            assert!(!name.is_empty(), "the {role} {} has no name", ring[2]);
            seen.push(name);
        }
        seen.dedup();
        assert!(seen.len() > 30, "Tab goes on: {seen:?}");
    });
}

#[test]
fn a_change_is_said_when_it_has_come_to_rest() {
    browse("said aloud", View::desktop(), |page| {
        page.enter("hold weight at, kg", "1.2 kg");
        page.wait("a live region says the weight and the holds", || {
            page.all("status").iter().any(|status| {
                let text = page.text_of(status);
                text.contains("Weight 1.200 kg.") && text.contains("held at 1.200 kg")
            })
        });
    });
}
