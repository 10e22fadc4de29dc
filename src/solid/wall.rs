//! The cheek walls beside the eye.

use super::{Bulge, Form, Head, Lean, Lugs};
use crate::design::{Side, Wall};
use crate::numeric::Scalar;
use crate::numeric::roots::peak;

/// A cheek wall, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheekWall<T> {
    /// Thickness across the head, in a plane z = const; negative where the eye has left the steel.
    pub thickness: T,
    /// Where on the wall of the eye it is measured.
    pub at: [T; 3],
}

/// Turns of the fixed point that finds where a wall beside a swell is thinnest: a swell is flat
/// beside the curve of the eye, so each turn wins more than a digit.
const TURNS: usize = 16;

impl<T: Scalar> Head<T> {
    /// The block's half-width at `x` and height `z`.
    pub fn half_width_at(&self, x: T, z: T) -> T {
        match self.bulge() {
            None => self.cheeks.half_width_at(z),
            Some(_) => {
                let station = self.block_at(x);
                station.section.half_width_at(z - station.centre)
            }
        }
    }

    /// Swell and lugs, where the block has any.
    pub fn bulge(&self) -> Option<&Bulge<T>> {
        match self.ends[0].runs.first().map(|run| &run.form) {
            Some(Form::Block(bulge)) => Some(bulge),
            _ => None,
        }
    }

    /// Up to this distance from the middle the block's sides count as cheeks.
    pub fn cheek_limit(&self) -> T {
        let flat = self.cheeks.b - self.cheeks.d;
        let half = self.cheeks.b * 0.5;
        if flat.value() > half.value() {
            flat
        } else {
            half
        }
    }

    /// The cheek walls that may be the thinnest, |z| up to [`Head::cheek_limit`].
    ///
    /// Along the handle the wall is concave between the joints of the eye's wall, because the
    /// block is convex and the eye's half-width straight or growing: it is least at a joint or a
    /// limit. An arc that narrows towards the mouth is the exception; there it is least where
    /// the arc and the lean balance.
    pub fn walls(&self) -> Vec<CheekWall<T>> {
        let limit = self.cheek_limit();
        let plug = &self.eye;
        let mut heights = vec![-limit, limit];
        heights.extend(plug.joints());
        let ways: &[f64] = match plug.lean {
            Some(_) => &[1.0, -1.0],
            None => &[1.0],
        };
        let mut walls = Vec::with_capacity(6);
        for way in ways {
            let mut heights = heights.clone();
            if let (Wall::Arc, Some(Lean { across, .. })) = (plug.wall, plug.lean) {
                let [low, high] = plug.mouths;
                for (mouth, q) in [(high, plug.top.q), (low, plug.bottom.q)] {
                    let (span, growth) = (mouth - plug.waist_height, (q - plug.waist.q) * 2.0);
                    if growth.value() < 0.0 {
                        let tau = -across * *way * span / growth;
                        heights.push(plug.waist_height + span * tau);
                    }
                }
            }
            for z in heights {
                if z.value().abs() <= limit.value() {
                    self.walls_at(*way, z, &mut walls);
                }
            }
        }
        walls
    }

    /// The thinnest cheek wall.
    ///
    /// # Accuracy
    /// Exact beside straight cheeks; beside a swell to 1e-6 mm.
    pub fn least_wall(&self) -> Option<CheekWall<T>> {
        let thicker = |a: &CheekWall<T>, b: &CheekWall<T>| {
            a.thickness.value().total_cmp(&b.thickness.value())
        };
        self.walls().into_iter().min_by(thicker)
    }

    /// The thinnest places at height `z` on the side `way` of y.
    fn walls_at(&self, way: f64, z: T, walls: &mut Vec<CheekWall<T>>) {
        let level = self.eye.at(z);
        let [middle_x, middle_y] = self.eye.centre(z);
        let mut measure = |x: T, half: T| {
            let thickness = self.half_width_at(middle_x + x, z) - middle_y * way - half;
            walls.push(CheekWall {
                thickness,
                at: [middle_x + x, middle_y + half * way, z],
            });
        };
        if self.bulge().is_none() {
            return measure(T::constant(0.0), level.q);
        }
        for end in [1.0, -1.0] {
            // On the corner the eye falls off at −(d/c)·tan φ, the cheek at its own slope.
            let straight = level.p - level.c;
            let mut sine = 0.0;
            for _ in 0..TURNS {
                let x = middle_x.value() + end * (straight.value() + level.c.value() * sine);
                let slope = -end * self.cheek_slope(x, z.value());
                let tangent = slope * level.c.value() / level.d.value();
                sine = (tangent / tangent.hypot(1.0)).max(0.0);
            }
            let (sine, cosine) = (T::constant(sine), T::constant((1.0 - sine * sine).sqrt()));
            measure(
                (straight + level.c * sine) * end,
                level.q - level.d + level.d * cosine,
            );
        }
    }

    /// The half-length that lugs need at least, mm, so that the wall of the eye leaves them once.
    ///
    /// A lug of height l is as steep as 8l/(3√3·ℓ) at ℓ/√3; a point of the wall moves towards its
    /// middle by the lean and by what the outline and its straight sides lose in length.
    pub fn least_lug(&self) -> T {
        const STEEPEST: f64 = 1.539_600_717_839_002;
        let Some(Bulge {
            lugs: Some(Lugs { top, bottom, .. }),
            ..
        }) = self.bulge()
        else {
            return T::constant(0.0);
        };
        let plug = &self.eye;
        let greater = |a: T, b: T| if a.value() < b.value() { b } else { a };
        let lean = plug.lean.map_or(T::constant(0.0), |lean| lean.along);
        let lean = greater(lean, -lean);
        let ends = [
            (*bottom, plug.mouths[0], &plug.bottom),
            (*top, plug.mouths[1], &plug.top),
        ];
        let mut least = T::constant(0.0);
        for (height, mouth, level) in ends {
            let span = mouth - plug.waist_height;
            let rate = match plug.wall {
                Wall::Straight => span.recip(),
                Wall::Arc => span.recip() * 2.0,
            };
            let rate = greater(rate, -rate);
            let (shorter, rounder) = (plug.waist.p - level.p, level.c - plug.waist.c);
            let narrowing = greater(greater(shorter, shorter + rounder) * rate, T::constant(0.0));
            least = greater(least, height * (lean + narrowing) * STEEPEST);
        }
        least
    }

    /// How fast the block's half-width changes along x.
    fn cheek_slope(&self, x: f64, z: f64) -> f64 {
        const STEP: f64 = 1e-4;
        let at = |x: f64| self.half_width_at(T::constant(x), T::constant(z)).value();
        (at(x + STEP) - at(x - STEP)) / (2.0 * STEP)
    }

    /// The wall at a waist that lies beyond the cheeks proper, where it has to be there.
    ///
    /// Such a waist may lie outside the steel, as a mouth does; but where the eye comes back into
    /// the steel on its way to the mouth, the waist must lie within it too.
    pub(super) fn waist_beyond(&self) -> Option<CheekWall<T>> {
        let waist = self.eye.waist_height;
        if waist.value().abs() < self.cheek_limit().value() {
            return None;
        }
        let zero = T::constant(0.0);
        let wall = |z: f64| {
            let z = T::constant(z);
            (self.half_width_at(zero, z) - self.eye.at(z).q).value()
        };
        let mouth = self.eye.mouths[usize::from(waist.value() > 0.0)].value();
        // Concave between them, so it has one peak.
        let highest = peak(waist.value().min(mouth), waist.value().max(mouth), wall);
        (wall(highest) > 0.0).then(|| CheekWall {
            thickness: self.half_width_at(zero, waist) - self.eye.at(waist).q,
            at: [zero, self.eye.at(waist).q, waist],
        })
    }

    /// The block's section at `x`, within its length.
    pub fn block_at(&self, x: T) -> super::Station<T> {
        let (side, u) = if x.value() < 0.0 {
            (Side::Back, -x)
        } else {
            (Side::Front, x)
        };
        let end = self.end(side).block_end();
        match self.bulge() {
            Some(bulge) => bulge.at(&self.cheeks, u, end),
            None => super::Station {
                u,
                section: self.cheeks,
                centre: T::constant(0.0),
            },
        }
    }
}
