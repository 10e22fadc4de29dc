//! The ovals along the handle, a row for each.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::state::Workspace;
use super::row::About;
use super::worked::Worked;
use super::{apply, show_handle};
use headwright::handle::{HandleError, MOST_STATIONS, Station};
use headwright::units::{Length, parse_length, show_length, unit_word};

/// A size of a station.
#[derive(Clone, Copy, PartialEq)]
enum Part {
    At,
    Depth,
    Width,
}

impl Part {
    const ALL: [Self; 3] = [Self::At, Self::Depth, Self::Width];

    const fn words(self) -> &'static str {
        match self {
            Self::At => "from the butt",
            Self::Depth => "depth",
            Self::Width => "width",
        }
    }

    const fn of(self, station: &Station) -> Length {
        match self {
            Self::At => station.at,
            Self::Depth => station.depth,
            Self::Width => station.width,
        }
    }

    const fn of_mut(self, station: &mut Station) -> &mut Length {
        match self {
            Self::At => &mut station.at,
            Self::Depth => &mut station.depth,
            Self::Width => &mut station.width,
        }
    }
}

/// A station in the middle of the widest stretch between two, as thick as the handle is there, and its place in the
/// list; beside a single one, as far behind it again.
fn between(stations: &[Station]) -> Option<(usize, Station)> {
    let span = |pair: &[Station]| pair[1].at.in_mm() - pair[0].at.in_mm();
    let widest = stations
        .windows(2)
        .enumerate()
        .max_by(|(_, a), (_, b)| span(a).total_cmp(&span(b)));
    let middle = |a: Length, b: Length| a.with_mm(tenth(0.5 * (a.in_mm() + b.in_mm())));
    match (widest, stations) {
        (Some((index, pair)), _) => Some((
            index + 1,
            Station {
                at: middle(pair[0].at, pair[1].at),
                depth: middle(pair[0].depth, pair[1].depth),
                width: middle(pair[0].width, pair[1].width),
            },
        )),
        (None, [only]) => {
            let first = only.at.in_mm() == 0.0;
            let at = if first {
                50.0
            } else {
                tenth(0.5 * only.at.in_mm())
            };
            let station = Station {
                at: only.at.with_mm(at),
                ..*only
            };
            Some((usize::from(first), station))
        }
        (None, _) => None,
    }
}

fn tenth(mm: f64) -> f64 {
    (10.0 * mm).round() / 10.0
}

/// All of them.
#[component]
pub fn Stations() -> impl IntoView {
    let workspace = Workspace::here();
    let count = Memo::new(move |_| workspace.design.with(|d| d.handle.stations.len()));
    let add = move |_| {
        apply(workspace, |handle| {
            if let Some((place, station)) = between(&handle.stations) {
                handle.stations.insert(place, station);
            }
        });
    };
    view! {
        <div class="stations" role="group" aria-labelledby="stations">
            <h3 id="stations">"ovals, from the butt to the head"</h3>
            {move || (0..count.get()).map(|index| view! { <Row index=index /> }).collect_view()}
            <About
                id="stations-about".to_owned()
                concerns=|error: HandleError| matches!(error, HandleError::StationCount { .. })
            />
            <Show when=move || (1..MOST_STATIONS).contains(&count.get())>
                <button type="button" class="plain" on:click=add>
                    "add an oval"
                </button>
            </Show>
        </div>
    }
}

/// One of them.
#[component]
fn Row(
    /// Its place in the list.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let number = index + 1;
    let count = move || workspace.design.with(|d| d.handle.stations.len());
    let about = format!("oval-{number}-about");
    let concerns = move |error: &HandleError| match *error {
        HandleError::StationSize { number: other, .. }
        | HandleError::StationPlace { number: other, .. }
        | HandleError::StationOrder { number: other, .. } => other == number,
        _ => false,
    };
    let errors = Worked::here().errors;
    let described = {
        let about = about.clone();
        Signal::derive(move || {
            let wrong = errors.with(|all| all.iter().any(concerns));
            wrong.then(|| about.clone())
        })
    };
    view! {
        <div class="oval">
            <span class="oval-name">{number}</span>
            {Part::ALL
                .map(|part| view! { <Size index=index part=part described=described /> })
                .into_iter()
                .collect_view()}
            <Show when=move || { count() > 1 }>
                <button
                    type="button"
                    class="plain"
                    aria-label=format!("take off oval {number}")
                    on:click=move |_| {
                        apply(workspace, |handle| {
                            if index < handle.stations.len() {
                                handle.stations.remove(index);
                            }
                        });
                    }
                >
                    "take off"
                </button>
            </Show>
            <About id=about concerns=move |error: HandleError| concerns(&error) />
        </div>
    }
}

/// One size of one.
#[component]
fn Size(
    /// Its place in the list.
    index: usize,
    /// Which size.
    part: Part,
    /// Id of what is wrong with it.
    described: Signal<Option<String>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let id = format!("oval-{}-{}", index + 1, part.words().replace(' ', "-"));
    let now = Memo::new(move |_| {
        let station = workspace
            .design
            .with(|d| d.handle.stations.get(index).copied());
        station.map(|station| part.of(&station))
    });
    let show = {
        let subject = id.clone();
        move |length: Length| {
            show_handle(workspace, &subject, |handle| {
                if let Some(station) = handle.stations.get_mut(index) {
                    *part.of_mut(station) = length;
                }
            });
        }
    };
    let read = {
        let show = show.clone();
        move |text: String| {
            let length =
                parse_length(&text, system.get_untracked()).map_err(|error| error.to_string())?;
            show(length);
            Ok(())
        }
    };
    let step = move |count: i32| {
        if let Some(length) = now.get_untracked() {
            show(workspace.beside(length, count));
        }
    };
    view! {
        <div class="oval-part">
            <label for=id.clone()>{part.words()}</label>
            <Entry
                label=format!("oval {} {}", index + 1, part.words())
                value=Signal::derive(move || {
                    now.get().map(|length| show_length(length, system.get())).unwrap_or_default()
                })
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                read=read
                keep=move |()| workspace.keep()
                put_back=move |()| workspace.put_back()
                step=Callback::new(step)
                described_by=described
                id=id
            />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn station([at, depth, width]: [f64; 3]) -> Station {
        Station {
            at: Length::mm(at),
            depth: Length::mm(depth),
            width: Length::mm(width),
        }
    }

    #[test]
    fn an_oval_is_added_where_there_is_most_room_and_changes_nothing_there() {
        let stations = [[0.0, 42.0, 32.0], [35.0, 38.0, 28.0], [290.0, 30.0, 24.0]].map(station);
        let added = between(&stations);
        assert_eq!(added, Some((2, station([162.5, 34.0, 26.0]))));
    }

    #[test]
    fn an_oval_beside_a_single_one_has_another_place() {
        let at_the_butt = [station([0.0, 38.0, 28.0])];
        assert_eq!(
            between(&at_the_butt),
            Some((1, station([50.0, 38.0, 28.0])))
        );
        let farther = [station([81.0, 38.0, 28.0])];
        assert_eq!(between(&farther), Some((0, station([40.5, 38.0, 28.0]))));
        assert_eq!(between(&[]), None);
    }
}
