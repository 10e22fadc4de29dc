//! Where the minutes go, per step and per build, and whether they become fewer.

use std::fmt::Write;

use leptos::prelude::*;

use super::super::axis::{Axis, tick};
use super::super::clock;
use super::super::terms::{Term, Words};
use super::here;
use headwright::log::Outcome;
use headwright::log::minutes::{BuildMinutes, Curve, Minutes, StepMinutes, minutes};

/// Height of a step's row in its plot, of its bar, and where the bar begins below the words, px.
const ROW: f64 = 72.0;
const BAR: f64 = 14.0;
const BELOW: f64 = 46.0;
/// Share of the plot's width that the longest bar takes.
const WIDE: f64 = 98.0;
/// The picture of the builds and the plot in it, px.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 250.0;
const LEFT: f64 = 44.0;
const RIGHT: f64 = 326.0;
const TOP: f64 = 16.0;
const BOTTOM: f64 = 200.0;
/// Points along the curve.
const POINTS: u32 = 40;
/// Minutes that make no difference.
const TENTH: f64 = 0.1;
/// The most builds of the table.
const LISTED: usize = 20;

/// The minutes of the log.
#[component]
pub fn WhereTheyGo() -> impl IntoView {
    let keeper = here();
    let told = Memo::new(move |_| {
        keeper
            .builds
            .with(|builds| minutes(builds.as_deref().unwrap_or_default()))
    });
    let any =
        Memo::new(move |_| told.with(|told| told.builds.iter().any(|build| build.minutes > 0.0)));
    view! {
        <section class="workshop log-minutes" aria-labelledby="log-minutes">
            <h2 id="log-minutes">"where the minutes go"</h2>
            <Words
                id="log-minutes-words"
                terms=&[Term::LearningCurve, Term::PerDoubling, Term::NextBuild, Term::Target]
            />
            <Show
                when=move || any.get()
                fallback=|| view! { <p class="soft">"As soon as a step has run, its minutes stand here."</p> }
            >
                {move || {
                    told.with(|told| {
                        view! {
                            <div class="log-plots">
                                {of_steps(&told.steps)}
                                {of_builds(told)}
                            </div>
                            {table(&told.builds)}
                        }
                    })
                }}
            </Show>
        </section>
    }
}

/// What a step takes, in a few words.
fn step_in_words(step: &StepMinutes) -> String {
    let target = step.target_minutes.map(|target| {
        let over = step.mean_minutes - target;
        let way = if over > 0.0 { "over" } else { "under" };
        format!(", {} {way} target", clock::minutes(over.abs()))
    });
    format!(
        "{} · {:.0} %{}",
        clock::minutes(step.mean_minutes),
        step.percent,
        target.unwrap_or_default()
    )
}

/// A bar for each step that took any time: what it takes on average, against its target.
fn of_steps(steps: &[StepMinutes]) -> impl IntoView + use<> {
    let steps: Vec<&StepMinutes> = steps.iter().filter(|step| step.builds > 0).collect();
    let longest = steps
        .iter()
        .map(|step| {
            step.mean_minutes
                .max(step.target_minutes.unwrap_or_default())
        })
        .fold(0.0, f64::max);
    let share = move |minutes: f64| format!("{:.2}%", WIDE * minutes / longest);
    let label: Vec<String> = steps
        .iter()
        .map(|step| format!("{}: {}", step.name, step_in_words(step)))
        .collect();
    let label = format!("minutes of each step on average. {}", label.join("; "));
    let height = ROW * steps.len() as f64;
    let rows = (0u32..).zip(&steps).map(|(place, step)| {
        let top = ROW * f64::from(place);
        let target = step.target_minutes.map(|target| {
            view! {
                <line class="aim" x1=share(target) x2=share(target) y1=top + BELOW - 4.0 y2=top + BELOW + BAR + 4.0 />
            }
        });
        view! {
            <text class="amount" x="0" y=top + 17.0>{step.name.clone()}</text>
            <text class="figure" x="0" y=top + 37.0>{step_in_words(step)}</text>
            <rect class="took" x="0" y=top + BELOW width=share(step.mean_minutes) height=BAR />
            {target}
        }
    });
    let rows = rows.collect_view();
    view! {
        <figure class="log-plot">
            <figcaption>"each step, on average; an upright line is its target"</figcaption>
            <svg width="100%" height=height role="img" aria-label=label>{rows}</svg>
        </figure>
    }
}

/// A build as its mark in the plot.
fn dot(build: &BuildMinutes, x: f64, y: f64) -> AnyView {
    match build.outcome {
        Outcome::Finished => {
            view! { <circle class="dot" cx=format!("{x:.1}") cy=format!("{y:.1}") r="5" /> }
                .into_any()
        }
        Outcome::Open => {
            view! { <circle class="dot long" cx=format!("{x:.1}") cy=format!("{y:.1}") r="5" /> }
                .into_any()
        }
        Outcome::Spoiled => {
            let d = format!("M{:.1} {:.1}l9 9m0 -9l-9 9", x - 4.5, y - 4.5);
            view! { <path class="spoiled" d=d /> }.into_any()
        }
    }
}

/// The curve through the builds, up to the next, with the range of that.
fn drawn(curve: &Curve, x: &Axis, y: &Axis) -> impl IntoView + use<> {
    let mut path = String::new();
    let next = f64::from(curve.next);
    for point in 0..=POINTS {
        let n = 1.0 + (next - 1.0) * f64::from(point) / f64::from(POINTS);
        let letter = if point == 0 { 'M' } else { 'L' };
        let minutes = curve.first_minutes * n.powf(curve.exponent);
        // Writing to a string cannot fail.
        let _ = write!(
            path,
            "{letter}{:.1} {:.1}",
            x.at(n),
            y.at(minutes.min(y.ends[1]))
        );
    }
    let [soonest, latest] = curve.next_range.map(|minutes| y.at(minutes.min(y.ends[1])));
    let at = x.at(next);
    let range = format!(
        "M{at:.1} {soonest:.1}V{latest:.1}M{:.1} {soonest:.1}h10M{:.1} {latest:.1}h10",
        at - 5.0,
        at - 5.0
    );
    view! {
        <path class="curve" d=path />
        <path class="range" d=range />
    }
}

/// Minutes against the number of the build, with the learning curve when there is one.
fn of_builds(told: &Minutes) -> impl IntoView + use<> {
    let curve = told.curve();
    let builds: Vec<&BuildMinutes> = told
        .builds
        .iter()
        .filter(|build| build.minutes > 0.0)
        .collect();
    let last = told.builds.last().map_or(1, |build| build.number);
    let most = builds
        .iter()
        .map(|build| build.minutes.max(aim(build).unwrap_or_default()))
        .chain(curve.iter().map(|curve| curve.next_minutes))
        .fold(1.0, f64::max);
    let x = Axis {
        ends: [0.5, f64::from(last) + 1.5],
        px: [LEFT, RIGHT],
    };
    let y = Axis {
        ends: [0.0, most * 1.15],
        px: [BOTTOM, TOP],
    };
    let said = match &curve {
        Ok(curve) => curve.to_string(),
        Err(none) => none.to_string(),
    };
    let label: Vec<String> = builds
        .iter()
        .map(|build| format!("build {}: {}", build.number, clock::minutes(build.minutes)))
        .collect();
    let label = format!("minutes of each build. {}", label.join("; "));
    let levels = y.ticks().into_iter().map(|number| {
        let at = y.at(number);
        view! {
            <path class="grid" d=format!("M{LEFT} {at:.1}H{RIGHT}") />
            <text class="figure" x=LEFT - 8.0 y=format!("{:.1}", at + 5.0) text-anchor="end">{tick(number)}</text>
        }
    });
    let numbers = x.ticks().into_iter().filter(|number| number.fract() == 0.0);
    let numbers = numbers.map(|number| {
        let at = x.at(number);
        view! {
            <path class="tick" d=format!("M{at:.1} {BOTTOM}v5") />
            <text class="figure" x=format!("{at:.1}") y=BOTTOM + 20.0 text-anchor="middle">{tick(number)}</text>
        }
    });
    let marks = builds.iter().map(|build| {
        let at = x.at(f64::from(build.number));
        let aim = aim(build).map(|target| {
            view! { <path class="aim" d=format!("M{:.1} {:.1}h14", at - 7.0, y.at(target)) /> }
        });
        view! {
            {aim}
            {dot(build, at, y.at(build.minutes))}
        }
    });
    let line = curve.as_ref().ok().map(|curve| drawn(curve, &x, &y));
    let (levels, numbers, marks) = (
        levels.collect_view(),
        numbers.collect_view(),
        marks.collect_view(),
    );
    view! {
        <figure class="sweep-plot log-plot">
            <figcaption>
                "each build, in minutes, by its number; filled: finished, open: going on, crossed: spoiled; a short line is its target"
            </figcaption>
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=label>
                {levels}
                <path class="base" d=format!("M{LEFT} {BOTTOM}H{RIGHT}") />
                {numbers}
                {line}
                {marks}
                <text class="figure" x=RIGHT y=HEIGHT - 8.0 text-anchor="end">"number of the build"</text>
            </svg>
            <p class="log-sure">{said}</p>
            <p class="soft">
                "The curve is Wright’s, of the n-th build, drawn through the finished ones; the upright bar is where nine of ten next builds would lie. T. P. Wright, Journal of the Aeronautical Sciences 3 (1936), from memory."
            </p>
        </figure>
    }
}

/// The target of a build, where every step that took any time has one: only then it is one of the whole.
fn aim(build: &BuildMinutes) -> Option<f64> {
    let (target, over) = build.target_minutes.zip(build.over_minutes)?;
    ((target + over - build.minutes).abs() < TENTH).then_some(target)
}

/// How the steps with a target came out.
fn against(build: &BuildMinutes) -> String {
    match build.target_minutes.zip(build.over_minutes) {
        Some((target, over)) => {
            let way = if over > 0.0 { "over" } else { "under" };
            let aim = clock::minutes(target);
            if over.abs() < TENTH {
                format!("{aim}, as aimed at")
            } else {
                format!("{} {way} {aim}", clock::minutes(over.abs()))
            }
        }
        None => "none".to_owned(),
    }
}

/// The newest builds as a table.
fn table(builds: &[BuildMinutes]) -> impl IntoView + use<> {
    let rows = builds.iter().rev().take(LISTED).map(|build| {
        view! {
            <tr>
                <th scope="row">
                    {format!("{}, {}", build.number, build.name)}
                    <small>{build.outcome.word()}</small>
                </th>
                <td>{clock::minutes(build.minutes)}</td>
                <td>{against(build)}</td>
            </tr>
        }
    });
    let rows = rows.collect_view();
    let earlier = builds.len().saturating_sub(LISTED);
    let earlier =
        (earlier > 0).then(|| view! { <p class="soft">{format!("and {earlier} earlier")}</p> });
    view! {
        <table class="log-table">
            <thead>
                <tr>
                    <th scope="col">"build"</th>
                    <td>"took"</td>
                    <td>"steps with a target"</td>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
        {earlier}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_build_has_a_target_of_its_own_when_all_its_steps_have_one() {
        let mut build = BuildMinutes {
            id: "b1".to_owned(),
            name: String::new(),
            number: 1,
            begun: 0,
            outcome: Outcome::Finished,
            minutes: 50.0,
            target_minutes: Some(40.0),
            over_minutes: Some(10.0),
        };
        assert_eq!(aim(&build), Some(40.0));
        assert_eq!(against(&build), "10 min over 40 min");
        // Twelve minutes went into a step without a target.
        build.over_minutes = Some(-2.0);
        assert_eq!(aim(&build), None);
        assert_eq!(against(&build), "2 min under 40 min");
        build.over_minutes = Some(0.0);
        assert_eq!(against(&build), "40 min, as aimed at");
        build.target_minutes = None;
        assert_eq!(against(&build), "none");
    }

    #[test]
    fn a_step_says_its_mean_its_share_and_how_far_it_is_from_its_target() {
        let mut step = StepMinutes {
            name: "punch".to_owned(),
            builds: 2,
            minutes: 84.0,
            mean_minutes: 42.0,
            percent: 18.4,
            target_minutes: None,
        };
        assert_eq!(step_in_words(&step), "42 min · 18 %");
        step.target_minutes = Some(40.0);
        assert_eq!(step_in_words(&step), "42 min · 18 %, 2 min over target");
        step.target_minutes = Some(45.0);
        assert_eq!(step_in_words(&step), "42 min · 18 %, 3 min under target");
    }
}
