//! One slice of a pein: the arm's outline cut by the slab and by the broken corners.

use super::{Outline, Place, Stretch, Sums, Whole, turning};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::Rule;
use crate::numeric::roots::crossing_within;
use crate::solid::{Arm, Pein};

/// A cut is found to this share of a stretch: what a slice loses by it goes with the square.
const NEAR: f64 = 1e-8;

/// A slice at constant v.
pub(super) struct Slice<'a, T> {
    pein: &'a Pein<T>,
    v: T,
    arm: Arm<T>,
    /// What the rocker takes off u for every mm of its recess.
    lost: T,
    /// Half of the slab's thickness.
    pub(super) half: T,
    /// The greatest |ξ| that the broken corners leave.
    limit: Option<T>,
}

/// Where a stretch is cut.
#[derive(Clone, Copy)]
enum Cut {
    /// Its own end.
    End,
    /// A face of the slab.
    Slab,
    /// A broken corner, at ±limit.
    Corner(f64),
}

impl<'a, T: Scalar> Slice<'a, T> {
    pub(super) fn new(pein: &'a Pein<T>, v: T) -> Self {
        let broken = pein.break_at(v).value() > 0.0;
        Self {
            pein,
            v,
            arm: pein.arm(v),
            lost: (v - pein.start) / pein.length(),
            half: pein.thickness(v),
            limit: broken.then(|| pein.limit(v)),
        }
    }

    /// (ξ, η) of the arm's outline where the station's has `on`.
    fn point(&self, [xi_0, eta_0]: [T; 2]) -> [T; 2] {
        let arm = self.arm.at(xi_0, T::constant(0.0));
        [arm.xi, eta_0 * arm.growth]
    }

    /// (ξ, η) of a stretch.
    pub(super) fn place(&self, stretch: &Stretch, t: f64) -> [T; 2] {
        self.point(stretch.at(self.pein, t).0)
    }

    /// Adds −F dξ of a place on a stretch, for a slice that is `dv` thick.
    pub(super) fn walk(&self, place: &Place<T>, dv: T, sum: &mut Sums<T>) {
        let Place {
            on: [xi_0, eta_0],
            change,
            weight,
        } = *place;
        let arm = self.arm.at(xi_0, T::constant(0.0));
        let dxi = change * arm.growth / arm.slope * (dv * weight);
        self.step([arm.xi, eta_0 * arm.growth], arm.recess, -dxi, sum);
    }

    /// Adds −F dξ: with F the antiderivative in η, the boundary integral of each moment.
    fn step(&self, [xi, eta]: [T; 2], recess: T, minus_dxi: T, sum: &mut Sums<T>) {
        let u = self.v - self.lost * recess;
        // Half of the outline stands for all of it.
        let element = minus_dxi * (-recess / self.pein.length() + 1.0) * 2.0;
        let area = element * eta;
        let (along, across) = (area * xi, area * eta);
        sum.volume += area;
        sum.u += area * u;
        sum.uu += area * u * u;
        sum.along += along * xi;
        sum.mixed += along * eta * 0.5;
        sum.across += across * eta * (1.0 / 3.0);
    }

    /// Adds the whole of a stretch of a straight edge, which grows in step with the arm.
    fn grown(&self, stretch: &Sums<T>, dv: T, sum: &mut Sums<T>) {
        let square = self.arm.growth * self.arm.growth * dv;
        let fourth = square * self.arm.growth * self.arm.growth;
        let area = stretch.volume * square;
        sum.volume += area;
        sum.u += area * self.v;
        sum.uu += area * self.v * self.v;
        sum.along += stretch.along * fourth;
        sum.mixed += stretch.mixed * fourth;
        sum.across += stretch.across * fourth;
    }

    /// Adds the slice; `plain` is the same without derivatives.
    pub(super) fn add(&self, plain: &Slice<f64>, outline: &Outline<T>, dv: T, sum: &mut Sums<T>) {
        let (half, limit) = (plain.half, plain.limit);
        let inside =
            |[xi, eta]: [f64; 2]| eta.abs() <= half && limit.is_none_or(|limit| xi.abs() <= limit);
        let mut ends: Vec<T> = Vec::with_capacity(2);
        for (stretch, whole) in outline.stretches.iter().zip(&outline.wholes) {
            let places = plain.ends(stretch);
            let [from, to] = places.map(|(_, [_, eta])| eta);
            if from.min(to) > half || from.max(to) < -half {
                continue;
            }
            let mut cuts = vec![(stretch.from, Cut::End), (stretch.to, Cut::End)];
            let find = |axis, level| plain.find(stretch, &places, axis, level);
            for way in [1.0, -1.0] {
                if let Some(t) = find(1, way * half) {
                    cuts.push((t, Cut::Slab));
                    // Below, it is the mirror image of a point above.
                    ends.push(self.place(stretch, t)[0] * way);
                }
                if let Some(t) = limit.and_then(|limit| find(0, way * limit)) {
                    cuts.push((t, Cut::Corner(way)));
                }
            }
            if cuts.len() == 2 {
                let [(_, from), (_, to)] = places;
                if inside([0, 1].map(|axis| 0.5 * (from[axis] + to[axis]))) {
                    match whole {
                        Whole::Grown(whole) => self.grown(whole, dv, sum),
                        Whole::Bent(places) => {
                            places.iter().for_each(|place| self.walk(place, dv, sum));
                        }
                    }
                }
                continue;
            }
            sort_few(&mut cuts, |(t, _)| *t);
            for pair in cuts.windows(2) {
                let [(from, start), (to, stop)] = [pair[0], pair[1]];
                if to <= from || !inside(plain.place(stretch, 0.5 * (from + to))) {
                    continue;
                }
                let ends = [from, to].map(|t| plain.place(stretch, t)[0]);
                for place in stretch.places(self.pein, [from, to], ends) {
                    self.walk(&place, dv, sum);
                }
                // The cut moves with the sizes, the parameter does not: what lies between has no
                // length, but it has a derivative.
                for (t, cut, way) in [(from, start, -1.0), (to, stop, 1.0)] {
                    if let (Cut::Corner(side), Some(limit)) = (cut, self.limit) {
                        let at = self.place(stretch, t);
                        let recess = self.pein.recess(at[0]);
                        self.step(at, recess, -(limit * side - at[0]) * dv * way, sum);
                    }
                }
            }
        }
        self.add_face(ends, outline.face, dv, sum);
    }

    /// ξ of the ends of the slab's upper face, as wide as the arm is there; `plain` is the slice
    /// without derivatives.
    pub(super) fn face(&self, plain: &Slice<f64>, stretches: &[Stretch]) -> Vec<T> {
        const STEP: f64 = 1e-6;
        let mut face = Vec::with_capacity(2);
        for stretch in stretches {
            let ends = plain.ends(stretch);
            for way in [1.0, -1.0] {
                let Some(t) = plain.find(stretch, &ends, 1, way * plain.half) else {
                    continue;
                };
                // Where the outline passes the face moves with the sizes, the parameter does not.
                let [below, above] = [-STEP, STEP].map(|by| plain.place(stretch, t + by));
                let slope = (above[0] - below[0]) / (above[1] - below[1]);
                let [xi, eta] = self.place(stretch, t);
                face.push((xi - (eta - self.half * way) * slope) * way);
            }
        }
        sort_few(&mut face, |xi| xi.value());
        face
    }

    /// The face of the slab: between every second pair of ends the arm stands beyond it. A rocker
    /// may leave the middle of a flat within the slab, or its ends.
    fn add_face(&self, mut ends: Vec<T>, rule: &Rule, dv: T, sum: &mut Sums<T>) {
        sort_few(&mut ends, |xi| xi.value());
        for pair in ends.chunks_exact(2) {
            let [left, right] = [pair[0], pair[1]].map(|xi| match self.limit {
                Some(limit) if xi.value() > limit.value() => limit,
                Some(limit) if xi.value() < -limit.value() => -limit,
                _ => xi,
            });
            let length = right - left;
            let rocker = self.pein.rocker.value();
            for (s, weight) in turning(rule, rocker, [left, right].map(T::value)) {
                let xi = left + length * s;
                let recess = self.pein.recess(xi);
                self.step([xi, self.half], recess, length * dv * weight, sum);
            }
        }
    }
}

impl Slice<'_, f64> {
    /// The parameters of a stretch's two ends and their (ξ, η).
    fn ends(&self, stretch: &Stretch) -> [(f64, [f64; 2]); 2] {
        let [from, to] = stretch.ends.map(|on| self.point(on));
        [(stretch.from, from), (stretch.to, to)]
    }

    /// The parameter at which ξ (`axis` 0) or η (1) passes `level` between `ends`.
    fn find(
        &self,
        stretch: &Stretch,
        ends: &[(f64, [f64; 2]); 2],
        axis: usize,
        level: f64,
    ) -> Option<f64> {
        let [from, to] = ends.map(|(t, at)| (t, at[axis] - level));
        crossing_within(NEAR, from, to, &|t| self.place(stretch, t)[axis] - level)
    }
}
