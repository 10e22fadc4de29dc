//! How hard each end gets, from the skin to the middle.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::Stale;
use super::shown::{self, SCALE_ENDS_HRC};
use super::worked::Worked;
use headwright::design::{Design, Part};
use headwright::heat::{Band, EndHardness, HARDNESS_WINDOWS, Plan};
use headwright::units::{System, show_number};

/// The scale, HRC.
const HRC: [f64; 2] = [SCALE_ENDS_HRC, 70.0];
/// Height of a place's bands, px: as quenched above, as tempered below.
const HEIGHT: f64 = 38.0;
/// The windows that are hatched, HRC, and their classes.
const WINDOWS: [([f64; 2], &str); 2] = [
    ([45.0, 60.0], "window window-wide"),
    ([52.0, 58.0], "window window-narrow"),
];
/// The least width of a band, share of the scale.
const LEAST: f64 = 0.012;

/// A share of the scale as SVG has it.
fn percent(share: f64) -> String {
    format!("{:.2}%", 100.0 * share)
}

/// Where a hardness stands along the scale, from 0 to 1.
fn share(hrc: f64) -> f64 {
    ((hrc - HRC[0]) / (HRC[1] - HRC[0])).clamp(0.0, 1.0)
}

/// Left end and width of a band.
fn placed(band: Band) -> [f64; 2] {
    let width = (share(band.high) - share(band.low)).max(LEAST);
    [share(band.low).min(1.0 - width), width]
}

/// Both ends, and what the windows are.
#[component]
pub fn Ends() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let ends = move || {
        let system = workspace.system.get();
        workspace.design.with(|design| {
            plan.with(|plan| {
                let plan = plan.as_ref()?;
                let ends = plan.ends.iter().map(|end| table(design, plan, end, system));
                Some(ends.collect_view())
            })
        })
    };
    view! {
        <section class="workshop hardness" aria-labelledby="how-hard">
            <h2 id="how-hard">"how hard the ends get"</h2>
            <Words id="ends-words" terms=&[Term::Hrc, Term::Skin] />
            <Stale />
            <p class="soft">
                "HRC, each a band. Open: as quenched. Filled: as tempered. The scale ends at 20: softer steel is said to be below it."
            </p>
            <div class="ends">{ends}</div>
            <ul class="windows">
                {HARDNESS_WINDOWS
                    .map(|window| {
                        let range = match window.least_hrc {
                            Some(least) => {
                                format!("{}–{} HRC", show_number(least), show_number(window.most_hrc))
                            }
                            None => format!("{} HRC at most", show_number(window.most_hrc)),
                        };
                        let hatched = WINDOWS
                            .into_iter()
                            .find(|([least, most], _)| {
                                window.least_hrc == Some(*least) && window.most_hrc == *most
                            });
                        let swatch = hatched.map(|(_, class)| {
                            view! {
                                <svg class="swatch" width="22" height="14" aria-hidden="true" focusable="false">
                                    <rect class=class x="1" y="1" width="20" height="12" />
                                </svg>
                            }
                        });
                        view! {
                            <li>
                                {swatch} <strong>{range}</strong> {format!(" {}. ", window.of)}
                                <small>{window.source}</small>
                            </li>
                        }
                    })
                    .collect_view()}
            </ul>
        </section>
    }
}

/// The hatched windows behind the bands.
fn windows() -> impl IntoView {
    WINDOWS
        .map(|([least, most], class)| {
            let [x, width] = placed(Band::new(least, most)).map(percent);
            view! { <rect class=class x=x y="0" width=width height="100%" /> }
        })
        .collect_view()
}

/// The bands of one place.
fn bands(quenched: Option<Band>, tempered: Option<Band>) -> impl IntoView {
    let band = |band: Band, class: &'static str, y: f64| {
        let [x, width] = placed(band).map(percent);
        view! { <rect class=class x=x y=y width=width height="11" /> }
    };
    view! {
        <svg width="100%" height=HEIGHT aria-hidden="true" focusable="false">
            {windows()}
            {quenched.map(|hrc| band(hrc, "as-quenched", 6.0))}
            {tempered.map(|hrc| band(hrc, "as-tempered", 21.0))}
        </svg>
    }
}

/// The numbers of the scale.
fn scale() -> impl IntoView {
    let numbers = [20.0, 30.0, 40.0, 50.0, 60.0, 70.0].map(|hrc| {
        let anchor = if hrc == HRC[0] {
            "start"
        } else if hrc == HRC[1] {
            "end"
        } else {
            "middle"
        };
        let x = percent(share(hrc));
        view! {
            <text class="figure" x=x.clone() y="14" text-anchor=anchor>{show_number(hrc)}</text>
            <line class="tick" x1=x.clone() x2=x y1="18" y2="26" />
        }
    });
    view! {
        <svg width="100%" height="26" aria-hidden="true" focusable="false">
            {numbers.collect_view()}
            <line class="rule" x1="0" x2="100%" y1="26" y2="26" />
        </svg>
    }
}

/// What the quench sees of an end.
fn seen(end: &EndHardness, system: System) -> String {
    let [low, high] =
        [end.round_mm.low, end.round_mm.high].map(|mm| words::about_number(mm, system));
    let round = if low == high {
        words::about(end.round_mm.high, system)
    } else {
        format!("{low} to {}", words::about(end.round_mm.high, system))
    };
    let [across, up] = end.end.section_mm.map(|mm| words::about_number(mm, system));
    format!(
        "{} behind its tip it measures {across} × {up} and cools as a round of {round}.",
        words::about(end.end.behind_mm, system)
    )
}

/// The table of an end, with the bands drawn in it.
fn table(design: &Design, plan: &Plan, end: &EndHardness, system: System) -> impl IntoView + use<> {
    let name = words::heading_of(design, Part::Face(end.end.side));
    let unknown = end
        .places
        .iter()
        .any(|place| place.as_quenched_hrc.is_none());
    let rows = end.places.iter().map(|place| {
        let shown =
            |band: Option<Band>| band.map_or_else(|| "not known".to_owned(), shown::hardness);
        view! {
            <tr>
                <th scope="row">{place.place.words(system)}</th>
                <td class="bands">{bands(place.as_quenched_hrc, place.tempered_hrc)}</td>
                <td>{shown(place.as_quenched_hrc)}</td>
                <td class="tempered">{shown(place.tempered_hrc)}</td>
            </tr>
        }
    });
    let rows = rows.collect_view();
    let why = unknown.then(|| {
        let grade = plan.steel.grade.name();
        view! {
            <p class="soft">
                {format!(
                    "Where it says “not known” no formula holds for {grade} and no published value was found: break a test piece, or have one measured.",
                )}
            </p>
        }
    });
    view! {
        <div class="end">
            <h3>{name}</h3>
            <p class="soft">{seen(end, system)}</p>
            <table class="lines" aria-label=format!("{name}, hardness in HRC")>
                <thead>
                    <tr>
                        <th scope="col">"place"</th>
                        <td class="bands">{scale()}</td>
                        <th scope="col">"quenched"</th>
                        <th scope="col">"tempered"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
            {why}
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_lies_on_the_scale_and_is_always_to_be_seen() {
        let [x, width] = placed(Band::new(45.0, 60.0));
        assert!((x - 0.5).abs() < 1e-12 && (width - 0.3).abs() < 1e-12);
        for band in [
            Band::new(5.0, 12.0),
            Band::new(70.0, 75.0),
            Band::new(55.0, 55.0),
        ] {
            let [x, width] = placed(band);
            assert!(
                x >= 0.0 && x + width <= 1.0 + 1e-12 && width >= LEAST,
                "{band:?}"
            );
        }
    }

    #[test]
    fn the_hatched_windows_are_those_of_the_standards() {
        for ([least, most], _) in WINDOWS {
            let standard = HARDNESS_WINDOWS
                .iter()
                .find(|window| window.least_hrc == Some(least) && window.most_hrc == most);
            assert!(standard.is_some(), "{least} to {most}");
        }
    }
}
