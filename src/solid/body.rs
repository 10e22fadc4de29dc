//! The body along x: runs between stations.

use super::{Ball, Cap, Pein, Section};
use crate::design::Transition;
use crate::numeric::Scalar;

/// One end of the head, from the handle axis outwards, in u, the distance along its own way out.
#[derive(Clone, Debug, PartialEq)]
pub struct Tail<T> {
    /// The half of the cheek block on this side, then one run to each neck, then the run to the
    /// tip.
    pub runs: Vec<Run<T>>,
    /// What closes the end.
    pub tip: Tip<T>,
    /// How the end's axis falls.
    pub drop: Drop<T>,
}

/// What closes an end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tip<T> {
    /// A land and a face.
    Face(Cap<T>),
    /// A ball.
    Ball(Ball<T>),
    /// A pein.
    Pein(Pein<T>),
}

/// The fall of an end's axis: z_c(u) = −slope·(u − from).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drop<T> {
    /// Tangent of the drop.
    pub slope: T,
    /// u where it begins.
    pub from: T,
}

/// The body between two stations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run<T> {
    /// u of the inner station, mm.
    pub from: T,
    /// u of the outer station, mm.
    pub to: T,
    /// Section at the inner station; of the cheek block, its section without swell and lugs.
    pub inner: Section<T>,
    /// Section at the outer station.
    pub outer: Section<T>,
    /// What lies between them.
    pub form: Form<T>,
    /// How the axis falls.
    pub drop: Drop<T>,
}

/// What lies between two stations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form<T> {
    /// Straight lines.
    Straight,
    /// An S, level at both sections.
    Smooth,
    /// Half of a cheek block with swell or lugs.
    Block(Bulge<T>),
}

/// What is added to a plain cheek block.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bulge<T> {
    /// Half-width added at the handle axis.
    pub swell: T,
    /// The lugs.
    pub lugs: Option<Lugs<T>>,
}

/// Lugs above and below the eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lugs<T> {
    /// Half of their length along the head.
    pub half_length: T,
    /// Height of the upper one on the handle axis.
    pub top: T,
    /// Height of the lower one on the handle axis.
    pub bottom: T,
}

/// A section in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station<T> {
    /// Where it stands.
    pub u: T,
    /// The section.
    pub section: Section<T>,
    /// Height of its middle.
    pub centre: T,
}

/// (1 − s²)², and 0 beyond s = 1: full in the middle, level at the end.
fn bell<T: Scalar>(s: T) -> T {
    let rest = -s * s + 1.0;
    if rest.value() > 0.0 {
        rest * rest
    } else {
        T::constant(0.0)
    }
}

/// Its slope.
fn bell_slope<T: Scalar>(s: T) -> T {
    let rest = -s * s + 1.0;
    if rest.value() > 0.0 {
        s * rest * -4.0
    } else {
        T::constant(0.0)
    }
}

impl<T: Scalar> Drop<T> {
    /// Of an axis that is level.
    pub fn none() -> Self {
        Self {
            slope: T::constant(0.0),
            from: T::constant(0.0),
        }
    }

    /// Height of the axis at `u`.
    pub fn at(&self, u: T) -> T {
        -self.slope * (u - self.from)
    }
}

impl<T: Scalar> Bulge<T> {
    /// The same without derivatives.
    pub fn values(&self) -> Bulge<f64> {
        let lugs = |lugs: &Lugs<T>| Lugs {
            half_length: lugs.half_length.value(),
            top: lugs.top.value(),
            bottom: lugs.bottom.value(),
        };
        Bulge {
            swell: self.swell.value(),
            lugs: self.lugs.as_ref().map(lugs),
        }
    }

    /// `section` with swell and lugs at `u` of a half block that ends at `end`, and the height of
    /// its middle.
    pub fn at(&self, section: &Section<T>, u: T, end: T) -> Station<T> {
        let mut section = *section;
        section.a += self.swell * bell(u / end);
        let mut centre = T::constant(0.0);
        if let Some(Lugs {
            half_length,
            top,
            bottom,
        }) = self.lugs
        {
            let share = bell(u / half_length);
            section.b += (top + bottom) * share * 0.5;
            centre = (top - bottom) * share * 0.5;
        }
        Station { u, section, centre }
    }

    /// How fast the section's half-width and the heights of its top and its bottom over the middle
    /// grow with `u` of a half block that ends at `end`.
    pub fn growth(&self, u: T, end: T) -> (T, [T; 2]) {
        let wider = self.swell * bell_slope(u / end) / end;
        let higher = match self.lugs {
            Some(Lugs {
                half_length,
                top,
                bottom,
            }) => {
                let slope = bell_slope(u / half_length) / half_length;
                [top * slope, bottom * slope]
            }
            None => [T::constant(0.0); 2],
        };
        (wider, higher)
    }
}

impl<T: Scalar> Run<T> {
    /// u at the share `tau` of the run, and the section there.
    pub fn at(&self, tau: f64) -> Station<T> {
        self.at_share(T::constant(tau))
    }

    /// The same at a share that may carry a derivative.
    pub fn at_share(&self, tau: T) -> Station<T> {
        let u = self.from + (self.to - self.from) * tau;
        let g = match &self.form {
            Form::Straight => tau,
            Form::Smooth => tau * tau * (-tau * 2.0 + 3.0),
            Form::Block(bulge) => return bulge.at(&self.inner, u, self.to),
        };
        Station {
            u,
            section: self.inner.towards(&self.outer, g),
            centre: self.drop.at(u),
        }
    }
}

impl<T: Scalar> From<Transition> for Form<T> {
    fn from(transition: Transition) -> Self {
        match transition {
            Transition::Straight => Form::Straight,
            Transition::Smooth => Form::Smooth,
        }
    }
}

impl<T: Scalar> Tip<T> {
    /// u of the farthest point.
    pub fn reach(&self) -> T {
        match self {
            Tip::Face(cap) => cap.reach,
            Tip::Ball(ball) => ball.reach,
            Tip::Pein(pein) => pein.reach,
        }
    }

    /// The station where the tip begins: u, and the section there.
    pub fn station(&self) -> (T, Section<T>) {
        match self {
            Tip::Face(cap) => (cap.land_start(), cap.outline),
            Tip::Ball(ball) => (ball.start(), ball.section()),
            Tip::Pein(pein) => (pein.start, pein.section),
        }
    }

    /// The face, where the end has one.
    pub fn face(&self) -> Option<&Cap<T>> {
        match self {
            Tip::Face(cap) => Some(cap),
            Tip::Ball(_) | Tip::Pein(_) => None,
        }
    }
}

impl<T: Scalar> Tail<T> {
    /// u where the cheek block ends.
    pub fn block_end(&self) -> T {
        self.runs.first().map_or(T::constant(0.0), |block| block.to)
    }

    /// Height of the axis on which a face or a ball stands: it keeps that of the station where it
    /// begins. A pein goes on falling.
    pub fn tip_centre(&self) -> T {
        self.drop.at(self.tip.station().0)
    }
}
