//! The end-quench curve of the steel: how hard it gets so far from the quenched end of a bar.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::shown::{self, SCALE_ENDS_HRC};
use super::worked::Worked;
use headwright::heat::{Band, Hardenability};
use headwright::units::{MM_PER_INCH, System, show_number, unit_word};

/// The hardest that is drawn, HRC, and the farthest, mm.
const MOST_HRC: f64 = 70.0;
const MOST_MM: f64 = 52.0;
/// Height of the figure, and of the scale from its upper to its lower end, px.
const HEIGHT: f64 = 226.0;
const UPPER: f64 = 12.0;
const LOWER: f64 = 192.0;
/// Where the scale along the bar begins, share of the width.
const LEFT: f64 = 0.08;
/// Width of a band, px.
const WIDE: f64 = 9.0;
/// The least height of a band, px.
const LEAST: f64 = 2.0;

/// How far down a hardness stands, px.
fn down(hrc: f64) -> f64 {
    let share = (MOST_HRC - hrc.clamp(SCALE_ENDS_HRC, MOST_HRC)) / (MOST_HRC - SCALE_ENDS_HRC);
    UPPER + share * (LOWER - UPPER)
}

/// Where a distance stands along the scale.
fn along(mm: f64) -> String {
    format!("{:.2}%", 100.0 * (LEFT + (1.0 - LEFT) * mm / MOST_MM))
}

/// Upper end and height of a band, px.
fn placed(band: Band) -> [f64; 2] {
    let upper = down(band.high);
    [upper, (down(band.low) - upper).max(LEAST)]
}

/// The figure with its numbers; a sentence where there is no curve.
#[component]
pub fn Curve() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let depth = move || {
        let system = workspace.system.get();
        plan.with(|plan| Some(figure(&plan.as_ref()?.hardenability, system)))
    };
    view! {
        <section class="workshop curve" aria-labelledby="how-deep">
            <h2 id="how-deep">"how deep this steel hardens"</h2>
            <Words id="curve-words" terms=&[Term::EndQuench, Term::IdealDiameter, Term::Martensite] />
            {depth}
        </section>
    }
}

fn said(hardenability: &Hardenability, system: System) -> String {
    let points = hardenability
        .end_quench
        .iter()
        .map(|(mm, hrc)| format!("at {} {}", words::about(*mm, system), shown::hardness(*hrc)));
    format!("HRC {}", points.collect::<Vec<_>>().join(", "))
}

fn figure(hardenability: &Hardenability, system: System) -> AnyView {
    let Some(ideal) = &hardenability.ideal_mm else {
        return view! {
            <p>"No end-quench curve is reckoned for this steel: the method has no factor for what it is made of."</p>
        }
        .into_any();
    };
    let bars = hardenability.end_quench.iter().map(|(mm, hrc)| {
        let [y, height] = placed(*hrc);
        view! {
            <rect class="as-tempered" x=along(*mm) y=y width=WIDE height=height transform=format!("translate({} 0)", -0.5 * WIDE) />
        }
    });
    let levels = [20.0, 30.0, 40.0, 50.0, 60.0, 70.0].map(|hrc| {
        view! {
            <line class="level" x1=along(0.0) x2="100%" y1=down(hrc) y2=down(hrc) />
            <text class="figure" x="0" y=down(hrc) + 5.0>{show_number(hrc)}</text>
        }
    });
    let step = match system {
        System::Metric => 10.0,
        System::Imperial => 0.5 * MM_PER_INCH,
    };
    let distances = (0..=5)
        .map(|k| f64::from(k) * step)
        .filter(|mm| *mm <= MOST_MM - 1.0);
    let distances = distances.map(|mm| {
        view! {
            <line class="tick" x1=along(mm) x2=along(mm) y1=LOWER y2=LOWER + 7.0 />
            <text class="figure" x=along(mm) y=LOWER + 25.0 text-anchor="middle">
                {words::about_number(mm, system)}
            </text>
        }
    });
    let [low, high] = [ideal.value.low, ideal.value.high].map(|mm| words::about(mm, system));
    view! {
        <p class="soft">
            {format!(
                "HRC against the distance from the quenched end of a bar, in {}; each a band. A round of {low} to {high} would harden to half martensite at its centre in an ideal quench.",
                unit_word(system),
            )}
        </p>
        <svg width="100%" height=HEIGHT role="img" aria-label=said(hardenability, system)>
            {levels.into_iter().collect_view()} {distances.collect_view()} {bars.collect_view()}
        </svg>
        <p>
            <small>{super::sources::named(ideal.source, ideal.certainty)}</small>
        </p>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_stands_on_the_scale_and_is_always_to_be_seen() {
        let [upper, height] = placed(Band::new(20.0, 70.0));
        assert!((upper - UPPER).abs() < 1e-12 && (upper + height - LOWER).abs() < 1e-12);
        for band in [
            Band::new(5.0, 12.0),
            Band::new(55.0, 55.0),
            Band::new(60.0, 75.0),
        ] {
            let [upper, height] = placed(band);
            assert!(upper >= UPPER && height >= LEAST, "{band:?}");
            assert!(upper + height <= LOWER + LEAST, "{band:?}");
        }
    }
}
