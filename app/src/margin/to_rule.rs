//! The free sizes on the divisions of a rule, and what that leaves over, said before it is done.

use std::time::Duration;

use leptos::prelude::*;

use super::super::fitting;
use super::super::holding::off_words;
use super::super::later::Later;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use headwright::design::{Design, Edit, Quantity};
use headwright::fit::{ANGLE_DIVISION, Fitted, Outcome, Rounded};
use headwright::units::{Length, Measure, ROUND_UP_SLACK_MM, Rule, System};

/// How long the head rests before its roundings are weighed: twelve free sizes may take half a second.
const REST: Duration = Duration::from_millis(400);

/// Shown while something is held and met, and something is free: what else is to be done first,
/// the margin says elsewhere.
#[component]
pub fn ToRule() -> impl IntoView {
    let workspace = Workspace::here();
    let shown = move || {
        let met = |f: &Option<Fitted>| f.as_ref().is_some_and(|f| f.outcome == Outcome::Met);
        workspace.fitted.with(met) && workspace.design.with(|d| !d.free.is_empty())
    };
    view! {
        <Show when=shown>
            <Block />
        </Show>
    }
}

#[component]
fn Block() -> impl IntoView {
    let workspace = Workspace::here();
    let said = RwSignal::new(String::new());
    let later = Later::new();
    Effect::new(move || {
        workspace.design.track();
        workspace.system.track();
        if is_done(workspace) {
            later.stop();
            said.set(afterwards(workspace));
        } else {
            said.set(String::new());
            let say = move || said.set(untrack(|| beforehand(workspace)));
            later.start(REST, say);
        }
    });
    // The same search once more: it finds what was said.
    let press = move |_| match untrack(|| search(workspace)) {
        Ok(rounded) => {
            let name = untrack(|| format!("sizes on the rule of {}", workspace.rule()));
            workspace.replace(name, rounded.design);
        }
        Err(sentence) => said.set(sentence),
    };
    let choice = move |index: usize| {
        let rule = move || usual(workspace.system.get())[index];
        view! {
            <button
                type="button"
                class="choice"
                aria-pressed=move || same(rule(), workspace.rule()).to_string()
                on:click=move |_| {
                    let mut bar = workspace.design.with_untracked(|d| d.bar.clone());
                    bar.rule = untrack(rule);
                    workspace.apply(Edit::Bar(Box::new(bar)));
                }
            >
                <span>{move || rule().to_string()}</span>
            </button>
        }
    };
    view! {
        <section class="to-rule" aria-labelledby="to-rule">
            <h2 id="to-rule">"to the rule"</h2>
            <Words id="rule-words" terms=&[Term::Rule, Term::Fit] />
            <div class="choices" role="group" aria-label="rule, here and for the bar">
                {(0..3).map(choice).collect_view()}
            </div>
            <p id="left-over">{said}</p>
            <div class="ways">
                <button
                    type="button"
                    class="way"
                    aria-describedby="left-over"
                    aria-disabled=move || is_done(workspace).to_string()
                    on:click=press
                >
                    {move || format!("Put the free sizes on the rule of {}", workspace.rule())}
                </button>
            </div>
        </section>
    }
}

/// Whether every free size lies on the smith's rule.
pub fn is_done(workspace: Workspace) -> bool {
    let rule = workspace.rule();
    workspace.design.with(|design| on_the_rule(design, rule))
}

/// The best rounding, or in a sentence why there is none.
fn search(workspace: Workspace) -> Result<Rounded, String> {
    let rule = workspace.rule();
    match workspace
        .design
        .with(|design| fitting::to_rule(design, rule))
    {
        Some(rounded) => rounded.map_err(|error| error.to_string()),
        None => Err("What puts sizes on a rule has not come yet.".to_owned()),
    }
}

/// What the rounding would leave over, or why there is none, in a sentence.
fn beforehand(workspace: Workspace) -> String {
    match search(workspace) {
        Ok(rounded) => would_leave(&rounded, workspace.system.get()),
        Err(sentence) => sentence,
    }
}

/// What a head on the rule leaves over, in a sentence.
fn afterwards(workspace: Workspace) -> String {
    let all = workspace.holdings.get();
    let left = all
        .iter()
        .map(|h| (h.target.quantity, h.target.off(h.value)));
    let left: Vec<_> = left.collect();
    format!(
        "The free sizes are on the rule of {}: the head {}.",
        workspace.rule(),
        left_over(&left, workspace.system.get())
    )
}

/// Whether every free size of `design` lies on a division of `rule`, angles on theirs.
pub fn on_the_rule(design: &Design, rule: Rule) -> bool {
    let sizes = design.sizes();
    let mut free = sizes.iter().filter(|(dim, _)| design.is_free(*dim));
    free.all(|(_, size)| {
        let step = match size {
            Measure::Length(_) => rule.division().in_mm(),
            Measure::Angle(_) => ANGLE_DIVISION.in_degrees(),
        };
        let off = size.number() - (size.number() / step).round() * step;
        off.abs() <= ROUND_UP_SLACK_MM
    })
}

/// The rules to choose from; any other is written on the bar's sheet.
fn usual(system: System) -> [Rule; 3] {
    let (half, one, two) = match system {
        System::Metric => (Length::mm(0.5), Length::mm(1.0), Length::mm(2.0)),
        System::Imperial => (
            Length::inches(1.0 / 32.0),
            Length::inches(1.0 / 16.0),
            Length::inches(1.0 / 8.0),
        ),
    };
    [half, one, two].map(|length| Rule::new(length).unwrap_or_default())
}

/// Whether two rules have the same divisions, however written.
fn same(one: Rule, other: Rule) -> bool {
    (one.division().in_mm() - other.division().in_mm()).abs() <= ROUND_UP_SLACK_MM
}

fn would_leave(rounded: &Rounded, system: System) -> String {
    let left = rounded.residuals.iter();
    let left = left.map(|residual| (residual.target.quantity, residual.left_over()));
    let left: Vec<_> = left.collect();
    let best = if rounded.exact {
        "the best there is"
    } else {
        "the best found"
    };
    format!("Then the head {}: {best}.", left_over(&left, system))
}

/// What is left over of each hold: "is 1.2 g too heavy and balances as held".
fn left_over(left: &[(Quantity, f64)], system: System) -> String {
    let clauses = left.iter().map(|&(quantity, off)| {
        let amount = off_words(quantity, off, system);
        // What the numbers do not show is not there.
        let nothing = !amount.contains(|digit: char| ('1'..='9').contains(&digit));
        let (verb, off_verb, sides) = match quantity {
            Quantity::Mass => ("weighs", "is", ["too heavy", "too light"]),
            Quantity::Balance => (
                "balances",
                "balances",
                ["too far to the front", "too far to the back"],
            ),
            Quantity::Inertia => ("turns", "has", ["too much inertia", "too little inertia"]),
            Quantity::ReachRatio => (
                "has the reaches",
                "has the reaches",
                ["too long in front", "too short in front"],
            ),
            Quantity::ToolMass => ("makes a tool", "makes a tool", ["too heavy", "too light"]),
            Quantity::ToolBalance => (
                "balances as a tool",
                "balances as a tool",
                ["too near to the hand", "too near to the head"],
            ),
            Quantity::GripInertia => (
                "turns about the grip",
                "has",
                [
                    "too much inertia about the grip",
                    "too little inertia about the grip",
                ],
            ),
            Quantity::Length => ("is long", "is", ["too long over all", "too short over all"]),
            Quantity::LeastWall => (
                "has its cheek wall",
                "has",
                ["too much cheek wall", "too little cheek wall"],
            ),
        };
        if nothing {
            format!("{verb} as held")
        } else {
            format!("{off_verb} {amount} {}", sides[usize::from(off < 0.0)])
        }
    });
    clauses.collect::<Vec<_>>().join(" and ")
}

#[cfg(test)]
mod tests {
    use super::super::super::history::Standing;
    use super::super::super::holding::holdings;
    use super::super::super::settle::{look, settle};
    use super::*;
    use headwright::design::{Hold, starter};
    use headwright::fit::Effort;
    use headwright::units::Mass;

    /// A starter held at a weight that no division meets.
    fn held() -> Standing {
        let start = look(starter("rounding").expect("a starter"));
        let hold = Hold::About {
            value: Mass::kg(1.0873),
            tolerance: None,
        };
        settle(&start, &Edit::hold(Quantity::Mass, hold), Effort::Thorough)
    }

    fn rounded(design: &Design, rule: Rule) -> Rounded {
        fitting::to_rule(design, rule)
            .expect("there")
            .expect("sound")
    }

    #[test]
    fn what_is_left_over_is_said_as_a_smith_says_it() {
        #[track_caller]
        fn check(left: &[(Quantity, f64)], system: System, expected: &str) {
            assert_eq!(left_over(left, system), expected);
        }
        use Quantity::{Balance, Mass};
        let both = [(Mass, 0.0012), (Balance, -0.26)];
        check(
            &both,
            System::Metric,
            "is 1.2 g too heavy and balances 0.3 mm too far to the back",
        );
        check(
            &[(Mass, -0.00567), (Balance, 0.1)],
            System::Imperial,
            "is 0.2 oz too light and balances 0.004 in too far to the front",
        );
        check(
            &[(Mass, 0.00004), (Balance, 0.004)],
            System::Metric,
            "weighs as held and balances as held",
        );
        check(&[(Balance, 0.0)], System::Imperial, "balances as held");
    }

    #[test]
    fn the_best_is_called_so_only_when_all_roundings_were_tried() {
        let mut rounded = rounded(&held().design, Rule::MILLIMETRE);
        let said = |rounded: &Rounded| would_leave(rounded, System::Metric);
        assert!(said(&rounded).ends_with(": the best there is."));
        rounded.exact = false;
        assert!(said(&rounded).ends_with(": the best found."));
    }

    #[test]
    fn a_rounded_head_is_on_its_rule_and_what_it_leaves_over_is_what_was_said() {
        for rule in [Rule::MILLIMETRE, Rule::SIXTEENTH] {
            let design = held().design;
            assert!(!on_the_rule(&design, rule));
            let rounded = rounded(&design, rule);
            assert!(on_the_rule(&rounded.design, rule));
            let solid = rounded.design.build().expect("sound");
            let weighed = headwright::mass::mass_properties(&solid);
            for (holding, residual) in holdings(&rounded.design, &solid, &weighed)
                .iter()
                .zip(&rounded.residuals)
            {
                let left = holding.target.off(holding.value);
                assert!((left - residual.left_over()).abs() < 1e-9, "{left}");
            }
        }
    }

    #[test]
    fn a_rounded_head_is_shown_as_it_is_though_a_fit_could_do_better() {
        let rounded = rounded(&held().design, Rule::MILLIMETRE).design;
        let shown = look(rounded.clone());
        assert_eq!(shown.design, rounded);
        let outcome = shown.fitted.map(|fitted| fitted.outcome);
        assert_eq!(outcome, Some(Outcome::Met));
    }

    #[test]
    fn a_rounded_head_within_its_tolerances_stays_on_the_rule_when_these_change() {
        let weight = |grams: f64| {
            Edit::hold(
                Quantity::Mass,
                Hold::About {
                    value: Mass::kg(1.0873),
                    tolerance: Some(Mass::grams(grams)),
                },
            )
        };
        let balance = Edit::hold(
            Quantity::Balance,
            Hold::About {
                value: Length::mm(0.0),
                tolerance: Some(Length::mm(1.0)),
            },
        );
        let held = settle(
            &settle(&held(), &weight(20.0), Effort::Thorough),
            &balance,
            Effort::Thorough,
        );
        let rounded = rounded(&held.design, Rule::MILLIMETRE).design;
        let after = settle(&look(rounded.clone()), &weight(30.0), Effort::Thorough);
        assert_eq!(after.design.sizes(), rounded.sizes());
    }

    #[test]
    fn the_rules_to_choose_from_are_of_the_units_that_are_shown() {
        let words = |system: System| usual(system).map(|rule| rule.to_string());
        assert_eq!(words(System::Metric), ["0.5 mm", "1 mm", "2 mm"]);
        assert_eq!(words(System::Imperial), ["1/32 in", "1/16 in", "1/8 in"]);
        let centimetres = "0.1 cm".parse().expect("a rule");
        assert!(same(centimetres, usual(System::Metric)[1]));
    }
}
