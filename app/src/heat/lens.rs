//! The heats of tempering, larger: the range to keep clear of, and the colours.

use leptos::prelude::*;

use super::super::spread::spread;
use super::scale::Scale;
use super::shown;
use super::strip::{BESIDE, LETTER, UNDER_RULE, px, rule};
use headwright::heat::temper::{COLOURS, EMBRITTLEMENT};
use headwright::heat::{Band, Plan};
use headwright::units::{System, show_about_temperature, show_temperature};

/// The heats that it shows, °C; further where the temper lies beyond.
const CELSIUS: [f64; 2] = [150.0, 400.0];
/// Room beside a temper beyond them, °C.
const ROOM: f64 = 30.0;
/// Where the last colour has gone, °C (from memory).
const LAST_COLOUR: f64 = 400.0;
/// Below the top of the lens: its bands, their height, and the height of the colours, px.
const BANDS: f64 = UNDER_RULE + 24.0;
const BAND: f64 = 22.0;
const COLOUR: f64 = 14.0;
/// Between the names of two colours, px, and from one line of them to the next.
const CLEAR: f64 = 10.0;
const STAIR: f64 = 22.0;

/// The range in which these steels get brittle, in words.
pub fn brittle_range(system: System) -> String {
    let range = Band::new(EMBRITTLEMENT.least, EMBRITTLEMENT.most);
    format!("brittle, {}", shown::heats(range, system))
}

/// The mark of the temper over a band: a line with a point on it.
pub fn pointer(x: f64, top: f64, height: f64, brittle: bool) -> impl IntoView {
    let line = format!("M{x:.1} {}v{}", top - 2.0, height + 4.0);
    let point = format!("M{:.1} {}h12l-6 10z", x - 6.0, top - 3.0);
    view! {
        <g class="temper-mark" class:problem=brittle>
            <path class="at" d=line />
            <path class="point" d=point />
        </g>
    }
}

/// The lens.
pub struct Lens {
    /// Its scale.
    pub scale: Scale,
    /// Where the names of the colours stand when they have room beside each other; else they go down in stairs.
    names: Option<Vec<f64>>,
    width: f64,
}

/// Each colour from its heat to the next.
fn colours() -> impl DoubleEndedIterator<Item = (Band, &'static str)> + Clone {
    (0..COLOURS.len()).map(|index| {
        let next = COLOURS.get(index + 1).map_or(LAST_COLOUR, |(to, _)| *to);
        let (from, name) = COLOURS[index];
        (Band::new(from, next), name)
    })
}

impl Lens {
    /// The lens for `plan` on a sheet of this width, px.
    pub fn new(plan: &Plan, width: f64) -> Self {
        let at = plan.tempering.celsius;
        let scale = Scale {
            celsius: [CELSIUS[0].min(at - ROOM), CELSIUS[1].max(at + ROOM)],
            px: [BESIDE, width - BESIDE],
        };
        let middles: Vec<f64> = colours().map(|(band, _)| scale.at(band.middle())).collect();
        let half: Vec<f64> = colours()
            .map(|(_, name)| 0.5 * LETTER * name.len() as f64)
            .collect();
        let needs: f64 = half.iter().map(|half| 2.0 * half + CLEAR).sum();
        let names = (needs <= width).then(|| spread(&middles, &half, CLEAR, 0.0, width));
        Self {
            scale,
            names,
            width,
        }
    }

    /// Its height, px.
    pub fn height(&self) -> f64 {
        let names = match self.names {
            Some(_) => 38.0,
            None => 10.0 + STAIR * COLOURS.len() as f64,
        };
        BANDS + BAND + COLOUR + names
    }

    /// The lens with its top at `y`.
    pub fn drawn(&self, plan: &Plan, y: f64, system: System) -> impl IntoView + use<> {
        let tempering = &plan.tempering;
        let bands = y + BANDS;
        let box_of = |class: String, band: Band, top: f64, height: f64| {
            let [from, to] = [band.low, band.high].map(|celsius| self.scale.at(celsius));
            view! { <rect class=class x=px(from) y=top width=px(to - from) height=height /> }
        };
        let range = Band::new(EMBRITTLEMENT.least, EMBRITTLEMENT.most);
        let mut names = vec![(
            tempering.celsius,
            format!("temper {}", show_temperature(tempering.celsius, system)),
            "name",
        )];
        let brittle = plan.steel.grade.embrittles().then(|| {
            names.push((range.middle(), brittle_range(system), "word strong"));
            box_of("brittle".to_owned(), range, bands, BAND)
        });
        names.sort_by(|a, b| a.0.total_cmp(&b.0));
        let at: Vec<f64> = names.iter().map(|(at, ..)| self.scale.at(*at)).collect();
        let half: Vec<f64> = names
            .iter()
            .map(|(_, words, _)| 0.5 * LETTER * words.chars().count() as f64)
            .collect();
        let places = spread(&at, &half, CLEAR, 0.0, self.width);
        let named = names.into_iter().zip(places).map(|((_, words, class), x)| {
            view! { <text class=class x=px(x) y=bands - 8.0 text-anchor="middle">{words}</text> }
        });
        let colours = colours().enumerate().map(|(index, (band, _))| {
            box_of(format!("colour colour-{index}"), band, bands + BAND, COLOUR)
        });
        let x = self.scale.at(tempering.celsius);
        view! {
            {rule(&self.scale, y, system)}
            {brittle}
            {colours.collect_view()}
            {self.named(bands + BAND + COLOUR, system)}
            <path class="base" d=format!("M{:.1} {}H{:.1}", self.scale.px[0], bands + BAND, self.scale.px[1]) />
            {named.collect_view()}
            {pointer(x, bands, BAND + COLOUR, tempering.embrittles)}
        }
    }

    /// The names of the colours below `y`: side by side, or from the right in stairs, so that no line runs through a name.
    fn named(&self, y: f64, system: System) -> impl IntoView + use<> {
        match &self.names {
            Some(places) => colours()
                .zip(places)
                .map(|((band, name), place)| {
                    let middle = self.scale.at(band.middle());
                    view! {
                        <path class="leader" d=format!("M{middle:.1} {y}v4L{place:.1} {}", y + 14.0) />
                        <text class="word" x=px(*place) y=y + 30.0 text-anchor="middle">{name}</text>
                    }
                    .into_any()
                })
                .collect_view(),
            None => colours()
                .rev()
                .enumerate()
                .map(|(step, (band, name))| {
                    let x = self.scale.at(band.low) + 2.0;
                    let line = y + 20.0 + STAIR * step as f64;
                    let from = show_about_temperature(band.low, system);
                    let words = format!("{name} {from}");
                    // Where there is little room at the right, its heat stands on the scale alone.
                    let end = x + 5.0 + LETTER * words.chars().count() as f64;
                    let words = if end <= self.width { words } else { name.to_owned() };
                    view! {
                        <path class="leader" d=format!("M{x:.1} {y}V{:.1}", line) />
                        <text class="word" x=px(x + 5.0) y=line>{words}</text>
                    }
                    .into_any()
                })
                .collect_view(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::steel::forged_from;
    use headwright::design::starter;
    use headwright::heat::{Grade, plan};

    #[test]
    fn names_of_colours_stand_side_by_side_or_in_stairs_and_never_touch() {
        let solid = starter("rounding")
            .expect("a starter")
            .build()
            .expect("sound");
        for grade in Grade::ALL {
            let plan = plan(&solid, &forged_from(grade)).expect("usual");
            for width in [328.0, 704.0, 1052.0, 1500.0] {
                let lens = Lens::new(&plan, width);
                let [low, high] = lens.scale.celsius;
                assert!((low..=high).contains(&plan.tempering.celsius));
                assert_eq!(lens.names.is_some(), width > 600.0);
                let Some(places) = lens.names else {
                    // In stairs each begins left of the one above it.
                    let at: Vec<f64> = colours().map(|(band, _)| lens.scale.at(band.low)).collect();
                    assert!(at.windows(2).all(|pair| pair[0] < pair[1]));
                    continue;
                };
                let ends: Vec<[f64; 2]> = places
                    .iter()
                    .zip(colours())
                    .map(|(at, (_, name))| {
                        let half = 0.5 * LETTER * name.len() as f64;
                        [at - half, at + half]
                    })
                    .collect();
                assert!(
                    ends.windows(2).all(|pair| pair[0][1] < pair[1][0]),
                    "{ends:?}"
                );
                assert!(
                    ends[0][0] >= -1e-9 && ends[8][1] <= width + 1e-9,
                    "{ends:?}"
                );
            }
        }
    }
}
