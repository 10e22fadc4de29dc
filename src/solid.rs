//! A sound head: the exact surface that every result is computed from.
//!
//! [`Head`] holds the numbers of the definition over any [`Scalar`]; [`Solid`] is a head of
//! `f64` that has passed [`Design::build`](crate::design::Design::build), so that nothing
//! after it can fail. The definition is the one of the crate page: a body of stations along x,
//! pierced by an eye.

use crate::design::{
    self, Cheeks, Corner, Crown, Design, Dim, Edge, End, Eye, EyeLevel, EyeOutline, Face, Outline,
    Part, Side, Size,
};
use crate::numeric::Scalar;
use crate::units::{Angle, Length};

mod ball;
mod body;
mod cap;
mod eye;
mod pein;
mod profile;
mod soundness;
mod wall;

pub use ball::Ball;
pub use body::{Bulge, Drop, Form, Lugs, Run, Station, Tail, Tip};
pub use cap::{Cap, Rim};
pub use eye::{EyeSection, Lean, Plug};
pub use pein::Pein;
pub(crate) use pein::{Arm, PeinSizes};
pub use profile::{CornerShare, Piece, Section, SectionMoments};
pub use soundness::{
    Check, LEAST_END_WALL, LEAST_FACE, LEAST_GAP, LEAST_WAIST_DEPTH, LEAST_WALL, MOST_CROWN,
    MOST_NECK, MOST_ROCKER, checks,
};
pub use wall::CheekWall;

/// The numbers of a head, mm, over any scalar.
#[derive(Clone, Debug, PartialEq)]
pub struct Head<T> {
    /// Section of the cheek block without swell and lugs.
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
    /// `scalar` is asked once for every dimension, with its value in mm or degrees, and answers with the
    /// number to use: the value itself, a changed one, or a dual number with its derivative
    /// seeded. The head may be unsound: see [`checks`].
    pub fn lift(design: &Design, scalar: &mut dyn FnMut(Dim, f64) -> T) -> Self {
        let mut lift = Lift { scalar };
        let cheeks = lift.cheeks(&design.cheeks);
        let eye = lift.eye(&design.eye, &cheeks);
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

struct Lift<'a, T> {
    scalar: &'a mut dyn FnMut(Dim, f64) -> T,
}

struct Block<T> {
    section: Section<T>,
    length: T,
    offset: T,
    form: Form<T>,
}

/// What a regular octagon leaves of half a side, as a share of half the width across flats.
const OCTAGON: f64 = 2.0 - std::f64::consts::SQRT_2;

impl<T: Scalar> Lift<'_, T> {
    fn size(&mut self, dim: Dim, length: Length) -> T {
        (self.scalar)(dim, length.in_mm())
    }

    fn optional(&mut self, dim: Dim, length: Option<Length>) -> Option<T> {
        length.map(|length| self.size(dim, length))
    }

    /// A length that is nothing where a design does without it.
    fn or_nothing(&mut self, dim: Dim, length: Option<Length>) -> T {
        self.optional(dim, length).unwrap_or(T::constant(0.0))
    }

    /// In radians.
    fn angle(&mut self, dim: Dim, angle: Angle) -> T {
        (self.scalar)(dim, angle.in_degrees()) * 1f64.to_radians()
    }

    /// The tangent of an angle that is nothing where a design does without it.
    fn tangent(&mut self, dim: Dim, angle: Option<Angle>) -> T {
        angle.map_or(T::constant(0.0), |angle| self.angle(dim, angle).tan())
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
        let length = self.size(Part::Cheeks.size(Size::Length), cheeks.length);
        let section = self.outline(Part::Cheeks, &cheeks.outline);
        let offset = self.size(Part::Cheeks.size(Size::Offset), cheeks.offset);
        let swell = self.optional(Part::Cheeks.size(Size::Swell), cheeks.swell);
        let lugs = cheeks.lugs.map(|lugs| Lugs {
            half_length: self.size(Part::Lugs.size(Size::Length), lugs.length) * 0.5,
            top: self.size(Part::Lugs.size(Size::Top), lugs.top),
            bottom: self.size(Part::Lugs.size(Size::Bottom), lugs.bottom),
        });
        let form = match (swell, lugs) {
            (None, None) => Form::Straight,
            _ => Form::Block(Bulge {
                swell: swell.unwrap_or(T::constant(0.0)),
                lugs,
            }),
        };
        Block {
            section,
            length,
            offset,
            form,
        }
    }

    fn eye(&mut self, eye: &Eye, block: &Block<T>) -> Plug<T> {
        let half = block.section.b;
        let mouths = match block.form {
            Form::Block(Bulge {
                lugs: Some(Lugs { top, bottom, .. }),
                ..
            }) => [-half - bottom, half + top],
            _ => [-half, half],
        };
        let lean = (eye.cock_along.is_some() || eye.cock_across.is_some()).then(|| Lean {
            along: self.tangent(Part::Eye.size(Size::CockAlong), eye.cock_along),
            across: self.tangent(Part::Eye.size(Size::CockAcross), eye.cock_across),
        });
        Plug {
            top: self.eye_level(eye.outline, Part::EyeTop, &eye.top),
            waist: self.eye_level(eye.outline, Part::EyeWaist, &eye.waist),
            bottom: self.eye_level(eye.outline, Part::EyeBottom, &eye.bottom),
            waist_height: self.size(Part::Eye.size(Size::WaistHeight), eye.waist_height),
            mouths,
            wall: eye.wall,
            lean,
            mouth_break: self.optional(Part::Eye.size(Size::MouthBreak), eye.mouth_break),
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
            form: block.form,
            drop: Drop::none(),
        });
        let reach = self.size(Part::End(side).size(Size::Reach), end.reach);
        let drop = Drop {
            slope: self.tangent(Part::End(side).size(Size::Drop), end.drop),
            from: block_end,
        };
        let run = |(from, inner), (to, outer), transition: design::Transition| Run {
            from,
            to,
            inner,
            outer,
            form: transition.into(),
            drop,
        };
        for (index, neck) in end.necks.iter().enumerate() {
            let part = Part::Neck(side, index as u8);
            let at = self.size(part.size(Size::At), neck.at);
            let section = self.outline(part, &neck.outline);
            runs.push(run(from, (at, section), neck.transition));
            from = (at, section);
        }
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
            design::Tip::Pein(pein) => Tip::Pein(self.pein(Part::Pein(side), pein, reach)),
        };
        runs.push(run(from, tip.station(), end.transition));
        Tail { runs, tip, drop }
    }

    fn pein(&mut self, part: Part, pein: &design::Pein, reach: T) -> Pein<T> {
        Pein::new(PeinSizes {
            start: self.size(part.size(Size::At), pein.at),
            section: self.outline(part, &pein.outline),
            reach,
            direction: self.angle(part.size(Size::Direction), pein.direction),
            edge: self.size(part.size(Size::Edge), pein.edge),
            nose: self.size(part.size(Size::Nose), pein.nose),
            rocker: self
                .optional(part.size(Size::Rocker), pein.rocker)
                .map_or(T::constant(0.0), |radius| radius.recip()),
            hollow: self.or_nothing(part.size(Size::Hollow), pein.hollow),
            corner_break: self.or_nothing(part.size(Size::CornerBreak), pein.corner_break),
        })
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
