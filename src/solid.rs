//! A sound head: the exact surface that every result is computed from.
//!
//! [`Head`] holds the numbers of the definition over any [`Scalar`]; [`Solid`] is a head of
//! `f64` that has passed [`Design::build`](crate::design::Design::build), so that nothing
//! after it can fail. The definition is the one of the crate page: a body of stations along x,
//! pierced by an eye.

use crate::design::{
    self, Cheeks, Corner, Crown, Design, Dim, Edge, End, Eye, EyeLevel, EyeOutline, Face, Outline,
    Part, Side, Size, Transition,
};
use crate::numeric::Scalar;

mod ball;
mod body;
mod cap;
mod eye;
mod profile;
mod soundness;

pub use ball::Ball;
pub use body::{Run, Tail, Tip};
pub use cap::{Cap, Rim};
pub use eye::{EyeSection, Plug};
pub use profile::{CornerShare, Piece, Section, SectionMoments};
pub use soundness::{
    Check, LEAST_END_WALL, LEAST_GAP, LEAST_WAIST_DEPTH, LEAST_WALL, Level, MOST_CROWN, MOST_NECK,
    checks,
};
pub(crate) use soundness::{LEAST_FACE, wall};

/// The numbers of a head, mm, over any scalar.
#[derive(Clone, Debug, PartialEq)]
pub struct Head<T> {
    /// Section of the cheek block.
    pub cheeks: Section<T>,
    /// Front and back, each from the handle axis outwards.
    pub ends: [Tail<T>; 2],
    /// The plug that is taken out for the eye.
    pub eye: Plug<T>,
    /// Density, kg/m³.
    pub density: f64,
}

/// A head that exists: every dimension inside its bounds, stations in order, walls thick enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid(Head<f64>);

impl Solid {
    /// `head` must have passed every check.
    pub(crate) fn new(head: Head<f64>) -> Self {
        Self(head)
    }

    /// The numbers.
    pub fn head(&self) -> &Head<f64> {
        &self.0
    }
}

impl<T: Scalar> Head<T> {
    /// Lifts a design to scalars.
    ///
    /// `scalar` is asked once for every dimension, with its value in mm, and answers with the
    /// number to use: the value itself, a changed one, or a dual number with its derivative
    /// seeded. The head may be unsound: see [`checks`].
    pub fn lift(design: &Design, scalar: &mut impl FnMut(Dim, f64) -> T) -> Self {
        let mut lift = Lift { scalar };
        let cheeks = lift.cheeks(&design.cheeks);
        let eye = lift.eye(&design.eye, cheeks.section.b);
        let ends = Side::BOTH.map(|side| lift.end(side, design.end(side), &cheeks));
        Self {
            cheeks: cheeks.section,
            ends,
            eye,
            density: design.density.in_kg_per_m3(),
        }
    }

    /// The end on `side`.
    pub fn end(&self, side: Side) -> &Tail<T> {
        &self.ends[side as usize]
    }
}

struct Lift<'a, F> {
    scalar: &'a mut F,
}

struct Block<T> {
    section: Section<T>,
    length: T,
    offset: T,
}

/// What a regular octagon leaves of half a side, as a share of half the width across flats.
const OCTAGON: f64 = 2.0 - std::f64::consts::SQRT_2;

impl<T: Scalar, F: FnMut(Dim, f64) -> T> Lift<'_, F> {
    fn size(&mut self, dim: Dim, length: crate::units::Length) -> T {
        (self.scalar)(dim, length.in_mm())
    }

    fn outline(&mut self, part: Part, outline: &Outline) -> Section<T> {
        let a = self.size(part.size(Size::Width), outline.width) * 0.5;
        let b = outline
            .height
            .map_or(a, |height| self.size(part.size(Size::Height), height) * 0.5);
        let zero = T::constant(0.0);
        let (c, d, weight) = match outline.corner {
            Corner::Sharp => (zero, zero, 0.0),
            Corner::Chamfer { size } => {
                let leg = self.size(part.size(Size::Corner), size);
                (leg, leg, 0.0)
            }
            Corner::Octagon => (a * OCTAGON, b * OCTAGON, 0.0),
            Corner::Rounded { radius } => {
                let radius = self.size(part.size(Size::Corner), radius);
                (radius, radius, Section::<T>::ROUND)
            }
            Corner::Round => (a, b, Section::<T>::ROUND),
            Corner::Conic { across, up, weight } => (
                self.size(part.size(Size::CornerAcross), across),
                self.size(part.size(Size::CornerUp), up),
                weight,
            ),
        };
        Section {
            a,
            b,
            c,
            d,
            w: T::constant(weight),
        }
    }

    fn cheeks(&mut self, cheeks: &Cheeks) -> Block<T> {
        Block {
            length: self.size(Part::Cheeks.size(Size::Length), cheeks.length),
            section: self.outline(Part::Cheeks, &cheeks.outline),
            offset: self.size(Part::Cheeks.size(Size::Offset), cheeks.offset),
        }
    }

    fn eye(&mut self, eye: &Eye, half_height: T) -> Plug<T> {
        Plug {
            top: self.eye_level(eye.outline, Part::EyeTop, &eye.top),
            waist: self.eye_level(eye.outline, Part::EyeWaist, &eye.waist),
            bottom: self.eye_level(eye.outline, Part::EyeBottom, &eye.bottom),
            waist_height: self.size(Part::Eye.size(Size::WaistHeight), eye.waist_height),
            half_height,
        }
    }

    fn eye_level(&mut self, outline: EyeOutline, part: Part, level: &EyeLevel) -> EyeSection<T> {
        let p = self.size(part.size(Size::Length), level.length) * 0.5;
        let q = match level.width {
            Some(width) if outline != EyeOutline::Round => {
                self.size(part.size(Size::Width), width) * 0.5
            }
            _ => p,
        };
        let (c, d) = match outline {
            EyeOutline::Round => (p, p),
            EyeOutline::Ellipse => (p, q),
            EyeOutline::Obround => (q, q),
            EyeOutline::RoundedRectangle => {
                let radius = level
                    .radius
                    .map_or(q, |r| self.size(part.size(Size::Radius), r));
                (radius, radius)
            }
        };
        EyeSection { p, q, c, d }
    }

    fn end(&mut self, side: Side, end: &End, block: &Block<T>) -> Tail<T> {
        let toward = if side == Side::Front {
            -block.offset
        } else {
            block.offset
        };
        let block_end = block.length * 0.5 + toward;
        let mut runs = Vec::with_capacity(end.necks.len() + 2);
        let mut from = (block_end, block.section);
        runs.push(Run {
            from: T::constant(0.0),
            to: block_end,
            inner: block.section,
            outer: block.section,
            transition: Transition::Straight,
        });
        for (index, neck) in end.necks.iter().enumerate() {
            let part = Part::Neck(side, index as u8);
            let at = self.size(part.size(Size::At), neck.at);
            let section = self.outline(part, &neck.outline);
            runs.push(Run::new(from, (at, section), neck.transition));
            from = (at, section);
        }
        let reach = self.size(Part::End(side).size(Size::Reach), end.reach);
        let tip = match &end.tip {
            design::Tip::Face(face) => Tip::Face(self.face(Part::Face(side), face, reach)),
            design::Tip::Ball(ball) => {
                let part = Part::Ball(side);
                Tip::Ball(Ball {
                    radius: self.size(part.size(Size::Diameter), ball.diameter) * 0.5,
                    neck: self.size(part.size(Size::Neck), ball.neck) * 0.5,
                    reach,
                })
            }
        };
        runs.push(Run::new(from, tip.station(), end.transition));
        Tail { runs, tip }
    }

    fn face(&mut self, part: Part, face: &Face, reach: T) -> Cap<T> {
        let outline = self.outline(part, &face.outline);
        let land = self.size(part.size(Size::Land), face.land);
        let curvature = match face.crown {
            Crown::Flat => T::constant(0.0),
            Crown::Radius(radius) => self.size(part.size(Size::Crown), radius).recip(),
        };
        let (rim, edge) = match face.edge {
            Edge::Sharp => (Rim::Sharp, T::constant(0.0)),
            Edge::Rounded(size) => (Rim::Rounded, self.size(part.size(Size::Edge), size)),
            Edge::Chamfered(size) => (Rim::Chamfered, self.size(part.size(Size::Edge), size)),
        };
        Cap {
            outline,
            land,
            curvature,
            rim,
            edge,
            reach,
        }
    }
}
