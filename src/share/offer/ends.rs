//! Whether what is left open can be had up to its ends.

use super::check::kg;
use super::terms::{Between, OpenTip};
use super::{Choice, ChoiceError, Offer};
use crate::design::{TipShape, length_in_words};
use crate::mass::mass_properties;
use crate::units::{System, show_mass};

/// An end of what is left open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpenEnd {
    /// The shortest handle, mm.
    Shortest(u32),
    /// The longest handle, mm.
    Longest(u32),
    /// The lightest head, g.
    Lightest(u32),
    /// The heaviest head, g.
    Heaviest(u32),
    /// Another tip.
    Tip(TipShape),
}

/// An end of what is left open that cannot be had.
#[derive(Clone, Debug, PartialEq)]
pub struct Missed {
    /// The end.
    pub end: OpenEnd,
    /// How far towards it can be had, mm or g; nothing where no more than what is drawn can, and for a tip.
    pub reach: Option<u32>,
    /// Why no more.
    pub why: Vec<ChoiceError>,
}

impl OpenEnd {
    /// The choice of this end and of nothing else.
    fn choice(self) -> Choice {
        match self {
            Self::Shortest(_) | Self::Longest(_) | Self::Lightest(_) | Self::Heaviest(_) => {
                self.at(self.number())
            }
            Self::Tip(shape) => Choice {
                tip: Some(shape),
                ..Choice::default()
            },
        }
    }

    /// The choice of `number` in the place of this end's.
    fn at(self, number: u32) -> Choice {
        let mut choice = Choice::default();
        match self {
            Self::Shortest(_) | Self::Longest(_) => choice.handle_mm = Some(number),
            Self::Lightest(_) | Self::Heaviest(_) => choice.grams = Some(number),
            Self::Tip(_) => {}
        }
        choice
    }

    fn number(self) -> u32 {
        match self {
            Self::Shortest(number)
            | Self::Longest(number)
            | Self::Lightest(number)
            | Self::Heaviest(number) => number,
            Self::Tip(_) => 0,
        }
    }
}

impl Missed {
    /// The sentences, in the units that the reader reads: which end, how far it can be had, and why no farther.
    pub fn sentence(&self, system: System) -> String {
        let show = |number: u32| match self.end {
            OpenEnd::Shortest(_) | OpenEnd::Longest(_) => {
                length_in_words(f64::from(number), system)
            }
            _ => show_mass(kg(number), system),
        };
        let (what, to) = match self.end {
            OpenEnd::Shortest(_) => ("The length of the handle", "down to"),
            OpenEnd::Longest(_) => ("The length of the handle", "up to"),
            OpenEnd::Lightest(_) => ("The weight", "down to"),
            OpenEnd::Heaviest(_) => ("The weight", "up to"),
            OpenEnd::Tip(shape) => {
                let why = self.reasons(system);
                return format!("A {} is left open and cannot be had. {why}", shape.words());
            }
        };
        let asked = show(self.end.number());
        let had = match self.reach {
            Some(reach) => format!("can be had only {to} {}", show(reach)),
            None => "can be had only as it is drawn".to_owned(),
        };
        let why = self.reasons(system);
        format!("{what} is left open {to} {asked} and {had}. {why}")
    }

    fn reasons(&self, system: System) -> String {
        let sentences: Vec<String> = self
            .why
            .iter()
            .map(|error| error.sentence(system))
            .collect();
        sentences.join(" ")
    }
}

impl Offer {
    /// The ends of what is left open that cannot be had, each tried by itself with all else as drawn: by this a smith
    /// learns it before the customer does. Nothing for an offer that is not sound, of which [`Offer::build`] says why.
    ///
    /// # Accuracy
    /// How far an end can be had is found by halving, to the whole gram and millimetre: what is said can be had. It
    /// begins with the whole number that is nearest to what is drawn, or with that on the other side of it where the
    /// nearest cannot be had.
    pub fn missed(&self) -> Vec<Missed> {
        let Ok(solid) = self.build() else {
            return Vec::new();
        };
        let drawn_mm = self.design.handle.length.in_mm();
        let drawn_g = 1000.0 * mass_properties(&solid).mass;
        let open = &self.terms.open;
        let mut ends = Vec::new();
        if let Some(Between { low, high }) = open.handle_mm {
            ends.push((OpenEnd::Shortest(low), drawn_mm));
            ends.push((OpenEnd::Longest(high), drawn_mm));
        }
        if let Some(Between { low, high }) = open.grams {
            ends.push((OpenEnd::Lightest(low), drawn_g));
            ends.push((OpenEnd::Heaviest(high), drawn_g));
        }
        if let Some(OpenTip { instead, .. }) = &open.tip {
            ends.extend(instead.iter().map(|shape| (OpenEnd::Tip(*shape), 0.0)));
        }
        let missed = ends.into_iter().filter_map(|(end, drawn)| {
            let why = self.choose(&end.choice()).err()?;
            let reach = self.reach(end, drawn);
            Some(Missed { end, reach, why })
        });
        missed.collect()
    }

    /// How far towards `end` can be had, if any whole number can but the one nearest to `drawn`.
    fn reach(&self, end: OpenEnd, drawn: f64) -> Option<u32> {
        let mut had = self.beside(end, drawn)?;
        let mut missed = end.number();
        let can = |number: u32| self.choose(&end.at(number)).is_ok();
        while had.abs_diff(missed) > 1 {
            let middle = had.midpoint(missed);
            if can(middle) {
                had = middle;
            } else {
                missed = middle;
            }
        }
        (had != drawn.round() as u32).then_some(had)
    }

    /// The whole number beside `drawn` that can be had, the nearest if both can; nothing for a tip.
    fn beside(&self, end: OpenEnd, drawn: f64) -> Option<u32> {
        if matches!(end, OpenEnd::Tip(_)) {
            return None;
        }
        let nearest = drawn.round();
        let other = drawn.floor() + drawn.ceil() - nearest;
        let both = [nearest, other].map(|number| number as u32);
        let can = |number: &u32| self.choose(&end.at(*number)).is_ok();
        both.into_iter().find(can)
    }

    /// The offer with nothing left open of what is `missed`.
    #[must_use]
    pub fn narrowed(&self, missed: &[Missed]) -> Self {
        let mut offer = self.clone();
        let open = &mut offer.terms.open;
        let drawn_mm = self.design.handle.length.in_mm();
        let drawn_g = self.build().ok().map(|solid| mass_properties(&solid).mass);
        for Missed { end, reach, .. } in missed {
            let (range, drawn) = match end {
                OpenEnd::Shortest(_) | OpenEnd::Longest(_) => (&mut open.handle_mm, Some(drawn_mm)),
                OpenEnd::Lightest(_) | OpenEnd::Heaviest(_) => {
                    (&mut open.grams, drawn_g.map(|kg| 1000.0 * kg))
                }
                OpenEnd::Tip(shape) => {
                    if let Some(tip) = &mut open.tip {
                        tip.instead.retain(|one| one != shape);
                    }
                    continue;
                }
            };
            // Where not even what stands beside the drawn number can be had, nothing of the range is left.
            let to = reach.or_else(|| self.beside(*end, drawn?));
            *range = range.zip(to).map(|(range, to)| match end {
                OpenEnd::Shortest(_) | OpenEnd::Lightest(_) => Between { low: to, ..range },
                _ => Between { high: to, ..range },
            });
        }
        // What is left of a range is none where both ends are what is drawn.
        open.handle_mm = open.handle_mm.filter(|range| range.low < range.high);
        open.grams = open.grams.filter(|range| range.low < range.high);
        open.tip = open.tip.take().filter(|tip| !tip.instead.is_empty());
        offer
    }
}
