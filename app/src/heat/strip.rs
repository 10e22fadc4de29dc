//! The work along one scale of heat: forging, normalizing, hardening, quench and temper.

use leptos::prelude::*;

use super::super::figure::arrow;
use super::super::sheet::measure;
use super::super::spread::spread;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::lens::{self, Lens};
use super::scale::Scale;
use super::shown;
use super::worked::Worked;
use headwright::heat::temper::EMBRITTLEMENT;
use headwright::heat::{Band, Plan};
use headwright::units::{System, show_about_temperature, show_number};

/// The least width of the figure, and the sheet's before it is measured, px.
const LEAST: f64 = 280.0;
const UNMEASURED: f64 = 1040.0;
/// The scale, °C: from ice to above every forging heat.
const CELSIUS: [f64; 2] = [0.0, 1300.0];
/// Room for half a number beside the ends of a scale, px.
pub const BESIDE: f64 = 20.0;
/// From here on the sheet has room for big letters and long words, px.
pub const WIDE: f64 = 700.0;
/// A scale: its line, and where what belongs to it begins, px below its top.
pub const RULE: f64 = 22.0;
pub const UNDER_RULE: f64 = 42.0;
/// A row with one line of words and a band beside it, and the one of the hardening heat, px.
const ROW: f64 = 36.0;
const HARDEN_ROW: f64 = 88.0;
/// A line of words, px.
pub const LINE: f64 = 24.0;
/// About the width of a letter, px.
pub const LETTER: f64 = 7.9;

/// The figure and what it means.
#[component]
pub fn Strip() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let host = NodeRef::<leptos::html::Div>::new();
    let width = measure::width_of(host, UNMEASURED);
    let figure = move || {
        let system = workspace.system.get();
        let width = width.get().max(LEAST);
        plan.with(|plan| Some(drawn(plan.as_ref()?, width, system)))
    };
    view! {
        <figure class="heat-strip" aria-label="the heats of the work">
            <div node_ref=host>{figure}</div>
            <figcaption class="soft">
                "Colours are those of bright steel after minutes at a heat; in a long soak they run on: a rough guide only. Where steel gets brittle and which colour it has are from memory."
            </figcaption>
        </figure>
        <Words
            id="strip-words"
            terms=&[
                Term::Normalize,
                Term::Harden,
                Term::Quench,
                Term::Temper,
                Term::TemperColour,
                Term::Ac1,
                Term::Ac3,
                Term::Ms,
                Term::Brittle,
            ]
        />
    }
}

/// What the figure says to those who do not see it.
fn label(plan: &Plan, system: System) -> String {
    let heats = |band: Band| shown::heats(band, system);
    let practice = &plan.practice;
    let mut said = vec![format!("forge {}", heats(practice.forge.value))];
    said.push(match practice.normalize {
        Some(normalize) => format!("normalize {}", heats(normalize.value)),
        None => "do not normalize".to_owned(),
    });
    if let Some(preheat) = practice.preheat {
        said.push(format!("warm through {}", heats(preheat.value)));
    }
    said.push(format!("hardening heat {}", heats(practice.harden.value)));
    said.extend(marks(plan, system).into_iter().map(|(_, words)| words));
    said.push(format!("quench in {}", shown::quench(plan, system)));
    if let Some(ms) = plan.critical.ms {
        said.push(format!("martensite from {}", heats(ms.value)));
    }
    said.push(format!("temper {}", shown::temper(&plan.tempering, system)));
    if plan.steel.grade.embrittles() {
        said.push(lens::brittle_range(system));
    }
    format!("Heats of {}: {}.", plan.steel.grade.name(), said.join("; "))
}

/// Where the steel turns to austenite, °C, and the words for it.
fn marks(plan: &Plan, system: System) -> Vec<(f64, String)> {
    let critical = &plan.critical;
    let marks = [("Ac1", critical.ac1), ("Ac3", critical.ac3)];
    let known = marks.into_iter().filter_map(|(name, at)| Some((name, at?)));
    known
        .map(|(name, at)| {
            let heat = show_about_temperature(at.value, system);
            (at.value, format!("{name} {heat}"))
        })
        .collect()
}

/// The line of a scale with its ticks and numbers, its top at `y`.
pub fn rule(scale: &Scale, y: f64, system: System) -> impl IntoView + use<> {
    let line = y + RULE;
    let ticks = scale.ticks(system).into_iter().map(|tick| {
        let long = if tick.number.is_some() { 12 } else { 6 };
        let number = tick.number.map(|number| {
            view! { <text class="figure" x=px(tick.x) y=y + 14.0 text-anchor="middle">{number}</text> }
        });
        view! {
            <path class="tick" d=format!("M{:.1} {line}v{long}", tick.x) />
            {number}
        }
    });
    view! {
        {ticks.collect_view()}
        <path class="rule" d=format!("M{:.1} {line}H{:.1}", scale.px[0], scale.px[1]) />
    }
}

/// The name of a step before its words. Not written out in place: there a part without anything that changes would be
/// made as HTML, which a drawing does not show.
fn named(word: &'static str) -> impl IntoView {
    view! { <tspan class="name">{word}</tspan> }
}

/// A place as SVG has it.
pub fn px(place: f64) -> String {
    format!("{place:.1}")
}

/// A band of heats at a row.
fn band(
    class: &'static str,
    scale: &Scale,
    heats: Band,
    y: f64,
    height: f64,
) -> impl IntoView + use<> {
    let [from, to] = [heats.low, heats.high].map(|celsius| scale.at(celsius));
    view! { <rect class=class x=px(from) y=y width=px((to - from).max(2.0)) height=height /> }
}

fn drawn(plan: &Plan, width: f64, system: System) -> impl IntoView + use<> {
    let wide = width >= WIDE;
    let scale = Scale {
        celsius: CELSIUS,
        px: [BESIDE, width - BESIDE],
    };
    let practice = &plan.practice;
    let heats = |band: Band| shown::heats(band, system);

    // The heats that make the steel glow, one below the other, words at the left and bands under the scale.
    let mut rows = vec![("forge", Some(practice.forge.value))];
    rows.push(match practice.normalize {
        Some(normalize) if wide => ("normalize, three times", Some(normalize.value)),
        Some(normalize) => ("normalize", Some(normalize.value)),
        None => ("do not normalize", None),
    });
    rows.extend(
        practice
            .preheat
            .map(|heat| ("warm through", Some(heat.value))),
    );
    let glowing = rows.iter().enumerate().map(|(index, (word, heat))| {
        let y = UNDER_RULE + ROW * index as f64;
        let words = heat.map_or_else(String::new, |heat| format!(" {}", heats(heat)));
        let heat = heat.map(|heat| band("glow", &scale, heat, y + 6.0, ROW - 12.0));
        view! {
            <text x="0" y=y + 23.0>{named(word)}{words}</text>
            {heat}
            <path class="hair" d=format!("M0 {}H{width:.0}", y + ROW) />
        }
    });
    let glowing = glowing.collect_view();
    let top = UNDER_RULE + ROW * rows.len() as f64;
    let harden = practice.harden.value;
    let hardening = {
        let text = heats(harden);
        let (number, unit) = text.rsplit_once(' ').unwrap_or((&text, ""));
        let big = if wide { "big" } else { "big less" };
        view! {
            {band("hot", &scale, harden, top + 6.0, HARDEN_ROW - 12.0)}
            <text class="name" x="0" y=top + 23.0>"hardening heat"</text>
            <text class=big x="0" y=top + 72.0>
                {number.to_owned()}
                <tspan class="unit" dx="5">{unit.to_owned()}</tspan>
            </text>
            <path class="hair" d=format!("M0 {}H{width:.0}", top + HARDEN_ROW) />
        }
    };
    let mut y = top + HARDEN_ROW;

    // Where the steel turns, down from the scale to words of their own.
    let marks = marks(plan, system);
    let at: Vec<f64> = marks
        .iter()
        .map(|(celsius, _)| scale.at(*celsius))
        .collect();
    let half: Vec<f64> = marks
        .iter()
        .map(|(_, words)| 0.5 * LETTER * words.chars().count() as f64)
        .collect();
    let places = spread(&at, &half, 12.0, 0.0, width);
    let turns = marks
        .into_iter()
        .zip(at)
        .zip(places)
        .map(|(((_, words), at), place)| {
            let line = format!("M{at:.1} {RULE}V{:.1}L{place:.1} {:.1}", y + 4.0, y + 14.0);
            view! {
                <path class="turn" d=line />
                <text class="word" x=px(place) y=y + 30.0 text-anchor="middle">{words}</text>
            }
        });
    let turns = turns.collect_view();
    if !half.is_empty() {
        y += 38.0;
    }

    let (quenched, down) = quench(plan, &scale, y, width, system);
    y += down;
    let tempered_at = y;
    y += LINE + 26.0;
    let lens = Lens::new(plan, width);
    let fan = {
        let [low, high] = lens.scale.celsius.map(|celsius| scale.at(celsius));
        let [left, right] = lens.scale.px;
        let bottom = y + 26.0;
        format!(
            "M{low:.1} {y}V{:.1}L{left:.1} {bottom}M{high:.1} {y}V{:.1}L{right:.1} {bottom}",
            y + 3.0,
            y + 3.0
        )
    };
    let lens_at = y + 26.0;
    let height = lens_at + lens.height();
    let size = format!("0 0 {width:.0} {height:.0}");
    view! {
        <svg viewBox=size width=px(width) height=px(height) role="img" aria-label=label(plan, system)>
            {rule(&scale, 0.0, system)}
            {turns}
            {glowing}
            {hardening}
            {quenched}
            {tempered(plan, &scale, tempered_at, wide, system)}
            <path class="fan" d=fan />
            {lens.drawn(plan, lens_at, system)}
        </svg>
    }
}

/// The way down into the bath, heavier where martensite forms, and the room it takes.
fn quench(
    plan: &Plan,
    scale: &Scale,
    y: f64,
    width: f64,
    system: System,
) -> (impl IntoView + use<>, f64) {
    let line = y + LINE + 8.0;
    let [from, to] = [
        plan.practice.harden.value.middle(),
        plan.quench.bath_celsius,
    ]
    .map(|celsius| scale.at(celsius));
    let amount = plan
        .bath
        .filter(|_| width >= WIDE)
        .map(|_| format!(", {}", plan.quench.agitation.words()));
    let ms = plan.critical.ms.map(|ms| {
        let [low, high] = [ms.value.low, ms.value.high].map(|celsius| scale.at(celsius));
        let words = format!("Ms {}", shown::heats(ms.value, system));
        let means = if width >= WIDE { ": from here down it hardens" } else { "" };
        view! {
            <path class="hardens" d=format!("M{high:.1} {line}H{:.1}", to + 8.0) />
            <path class="turn" d=format!("M{low:.1} {}v14M{high:.1} {}v14", line - 7.0, line - 7.0) />
            <text class="word" x=px(low) y=line + 24.0>{format!("{words}{means}")}</text>
        }
    });
    let down = if ms.is_some() {
        LINE + 44.0
    } else {
        LINE + 24.0
    };
    let drawn = view! {
        <text x="0" y=y + 20.0>
            {named("quench")}
            {format!(" in {}", shown::quench(plan, system))}
            {amount}
        </text>
        <path class="down" d=format!("M{from:.1} {line}H{:.1}", to + 8.0) />
        <circle class="from" cx=px(from) cy=line r="4.5" />
        {ms}
        <path class="arrow" d=arrow(to, line, -1.0, 0.0) />
        <path class="hair" d=format!("M0 {}H{width:.0}", y + down) />
    };
    (drawn, down)
}

/// The temper on the scale of the work, with the range to keep clear of.
fn tempered(
    plan: &Plan,
    scale: &Scale,
    y: f64,
    wide: bool,
    system: System,
) -> impl IntoView + use<> {
    let tempering = &plan.tempering;
    let x = scale.at(tempering.celsius);
    let top = y + LINE + 4.0;
    let brittle = plan.steel.grade.embrittles().then(|| {
        let range = Band::new(EMBRITTLEMENT.least, EMBRITTLEMENT.most);
        band("brittle", scale, range, top, 20.0)
    });
    let left = wide.then(|| {
        let hrc = show_number(tempering.martensite_hrc.value.round());
        format!(": leaves about {hrc} HRC of full hardness")
    });
    view! {
        {brittle}
        <text x="0" y=y + 20.0>
            {named("temper")}
            {format!(" {}", shown::temper(tempering, system))}
            {left}
        </text>
        {lens::pointer(x, top, 20.0, tempering.embrittles)}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::steel::forged_from;
    use headwright::design::starter;
    use headwright::heat::{Grade, plan};

    #[test]
    fn the_figure_says_every_heat_of_every_grade() {
        let solid = starter("rounding")
            .expect("a starter")
            .build()
            .expect("sound");
        for grade in Grade::ALL {
            let plan = plan(&solid, &forged_from(grade)).expect("usual");
            let said = label(&plan, System::Metric);
            for word in [
                "forge ",
                "normalize",
                "hardening heat ",
                "quench in ",
                "temper ",
            ] {
                assert!(said.contains(word), "{said}");
            }
            assert_eq!(said.contains("brittle"), grade.embrittles(), "{said}");
            // Every heat lies on the scale.
            assert!(plan.practice.forge.value.high < CELSIUS[1]);
        }
    }
}
