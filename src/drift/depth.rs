//! How deep a drift goes so that the eye is nowhere opened too far.

use serde::Serialize;

use super::SectionSize;
use super::note::Mouth;
use super::own::LONGEST_TAPER_MM;
use crate::design::Wall;
use crate::solid::{EyeSection, Plug};

/// How deep a drift goes from one mouth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Depth {
    /// From its greatest section towards the tip to the mark that stops level with the mouth; negative: its greatest
    /// section stops that far below the mouth. Nothing when it may be driven right through.
    pub mark_mm: Option<f64>,
    /// The drift's section at the mouth when it is driven so far.
    pub at_mouth: SectionSize,
    /// The drift's section at the waist when it is driven so far.
    pub at_waist: SectionSize,
}

/// A drift: half-sizes of its greatest section, and how fast the half-sizes fall towards the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tapered {
    pub p: f64,
    pub q: f64,
    pub rate: f64,
}

/// Why a drift has no depth: from its greatest section to the mark it would be this far, mm; nothing when it has no
/// taper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TooLarge(pub Option<f64>);

impl Tapered {
    /// Half-sizes at the distance `along` from the greatest section towards the tip; behind it the drift is as thick
    /// as there.
    fn at(&self, along: f64) -> (f64, f64) {
        let less = self.rate * along.max(0.0);
        ((self.p - less).max(0.0), (self.q - less).max(0.0))
    }

    fn size_at(&self, along: f64) -> SectionSize {
        let (p, q) = self.at(along);
        SectionSize {
            length_mm: 2.0 * p,
            width_mm: 2.0 * q,
        }
    }

    /// The depth from `mouth` of the eye `plug`; `by_width` when the rim of a slit yields in length.
    pub fn depth(&self, plug: &Plug<f64>, mouth: Mouth, by_width: bool) -> Result<Depth, TooLarge> {
        let level = mouth.level(plug);
        let half = Half {
            wall: plug.wall,
            span: mouth.depth(plug),
            rate: self.rate,
        };
        let along = if by_width {
            Mark::Through
        } else {
            half.mark(self.p, plug.waist.p, level.p)
        };
        let marks = [along, half.mark(self.q, plug.waist.q, level.q)];
        let mut mark: Option<f64> = None;
        for found in marks {
            match found {
                Mark::Through => {}
                Mark::At(at) => mark = Some(mark.map_or(at, |known| known.max(at))),
                Mark::Nowhere => return Err(TooLarge(None)),
            }
        }
        match mark {
            Some(at) if at > LONGEST_TAPER_MM => Err(TooLarge(Some(at))),
            Some(at) => Ok(Depth {
                mark_mm: Some(at),
                at_mouth: self.size_at(at),
                at_waist: self.size_at(at + half.span),
            }),
            None => Ok(Depth {
                mark_mm: None,
                at_mouth: self.size_at(0.0),
                at_waist: self.size_at(0.0),
            }),
        }
    }
}

impl Mouth {
    pub(super) fn level(self, plug: &Plug<f64>) -> EyeSection<f64> {
        match self {
            Self::Top => plug.top,
            Self::Bottom => plug.bottom,
        }
    }

    /// From the mouth to the waist.
    pub(super) fn depth(self, plug: &Plug<f64>) -> f64 {
        let [low, high] = plug.mouths;
        match self {
            Self::Top => high - plug.waist_height,
            Self::Bottom => plug.waist_height - low,
        }
    }
}

/// One half of the eye's wall and the drift in it, in one plane.
struct Half {
    wall: Wall,
    /// From the mouth to the waist.
    span: f64,
    /// How fast the drift's half-size falls.
    rate: f64,
}

/// Where one size of a drift stops it.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Mark {
    Through,
    At(f64),
    Nowhere,
}

impl Half {
    /// The least mark at which a drift of half-size `size` is nowhere larger than the eye between `waist` and `mouth`.
    ///
    /// At the share τ of the way from waist to mouth the eye's half-size is e = waist + (mouth − waist)·g(τ), the
    /// drift's `size` − rate·(mark + span·(1 − τ)). So mark ≥ (size − e)/rate − span·(1 − τ) wherever the drift at its
    /// greatest is larger than the eye. That has its greatest value at an end of those levels or, on an arc, where its
    /// slope is zero: τ = span·rate/(2(mouth − waist)).
    fn mark(&self, size: f64, waist: f64, mouth: f64) -> Mark {
        if size <= waist.min(mouth) {
            return Mark::Through;
        }
        if self.rate <= 0.0 {
            return Mark::Nowhere;
        }
        let flare = mouth - waist;
        let share = |tau: f64| match self.wall {
            Wall::Straight => tau,
            Wall::Arc => tau * tau,
        };
        // Where the eye is as large as the drift at its greatest.
        let equal = || {
            let g = ((size - waist) / flare).clamp(0.0, 1.0);
            match self.wall {
                Wall::Straight => g,
                Wall::Arc => g.sqrt(),
            }
        };
        let (from, to) = if flare > 0.0 {
            (0.0, equal())
        } else if flare < 0.0 && size < waist {
            (equal(), 1.0)
        } else {
            (0.0, 1.0)
        };
        let needed =
            |tau: f64| (size - waist - flare * share(tau)) / self.rate - self.span * (1.0 - tau);
        let mut mark = needed(from).max(needed(to));
        if self.wall == Wall::Arc && flare > 0.0 {
            let level = 0.5 * self.span * self.rate / flare;
            mark = mark.max(needed(level.clamp(from, to)));
        }
        Mark::At(mark)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const STRAIGHT: Half = Half {
        wall: Wall::Straight,
        span: 20.0,
        rate: 0.05,
    };

    #[test]
    fn a_drift_steeper_than_the_eye_stops_at_the_mouth() {
        // Half-sizes: eye 10 at the waist, 10.5 at the mouth; the drift loses 1 on the way.
        assert_eq!(STRAIGHT.mark(11.0, 10.0, 10.5), Mark::At(10.0));
        assert_eq!(STRAIGHT.mark(10.5, 10.0, 10.5), Mark::At(0.0));
        assert_eq!(STRAIGHT.mark(10.0, 10.0, 10.5), Mark::Through);
    }

    #[test]
    fn a_drift_flatter_than_the_eye_stops_at_the_waist() {
        // Eye 10 at the waist, 13 at the mouth: the drift must fall from 12 to 10 in 40 mm, 20 of them in the eye.
        assert_eq!(STRAIGHT.mark(12.0, 10.0, 13.0), Mark::At(20.0));
        // From 10.5 in 10 mm: its greatest section stops 10 mm below the mouth.
        assert_eq!(STRAIGHT.mark(10.5, 10.0, 13.0), Mark::At(-10.0));
    }

    #[test]
    fn a_drift_without_taper_goes_through_or_not_at_all() {
        let level = Half {
            rate: 0.0,
            ..STRAIGHT
        };
        assert_eq!(level.mark(10.0, 10.0, 10.5), Mark::Through);
        assert_eq!(level.mark(10.1, 10.0, 10.5), Mark::Nowhere);
    }

    #[test]
    fn on_no_wall_is_the_mark_less_than_a_search_finds() {
        for wall in [Wall::Straight, Wall::Arc] {
            for (size, waist, mouth) in [
                (11.0, 10.0, 12.0),
                (12.5, 10.0, 12.0),
                (10.2, 10.0, 14.0),
                (11.0, 10.0, 10.0),
                (11.0, 12.0, 10.0),
                (13.0, 12.0, 10.0),
            ] {
                let half = Half {
                    wall,
                    span: 20.0,
                    rate: 0.06,
                };
                let Mark::At(found) = half.mark(size, waist, mouth) else {
                    panic!("{size} is larger than {waist} or {mouth}");
                };
                let steps = 20_000;
                let searched = (0..=steps)
                    .map(|step| f64::from(step) / f64::from(steps))
                    .map(|tau| (tau, if wall == Wall::Arc { tau * tau } else { tau }))
                    .map(|(tau, g)| (tau, waist + (mouth - waist) * g))
                    .filter(|(_, eye)| *eye < size)
                    .map(|(tau, eye)| (size - eye) / 0.06 - 20.0 * (1.0 - tau))
                    .fold(f64::NEG_INFINITY, f64::max);
                assert_relative_eq!(found, searched, epsilon = 0.01);
                assert!(found >= searched - 1e-9);
            }
        }
    }
}
