//! The body along x: runs between stations.

use super::{Ball, Cap, Section};
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
}

/// What closes an end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tip<T> {
    /// A land and a face.
    Face(Cap<T>),
    /// A ball.
    Ball(Ball<T>),
}

/// The body between two stations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run<T> {
    /// u of the inner station, mm.
    pub from: T,
    /// u of the outer station, mm.
    pub to: T,
    /// Section at the inner station.
    pub inner: Section<T>,
    /// Section at the outer station.
    pub outer: Section<T>,
    /// How it goes over.
    pub transition: Transition,
}

impl<T: Scalar> Run<T> {
    /// The run between two stations.
    pub fn new(from: (T, Section<T>), to: (T, Section<T>), transition: Transition) -> Self {
        Self {
            from: from.0,
            to: to.0,
            inner: from.1,
            outer: to.1,
            transition,
        }
    }

    /// u at the share `tau` of the run, and the section there.
    pub fn at(&self, tau: f64) -> (T, Section<T>) {
        let g = match self.transition {
            Transition::Straight => tau,
            Transition::Smooth => tau * tau * (3.0 - 2.0 * tau),
        };
        let u = self.from + (self.to - self.from) * tau;
        (u, self.inner.towards(&self.outer, T::constant(g)))
    }

    /// Derivative of the share of the way over with respect to the share of the run.
    pub fn slope(&self, tau: f64) -> f64 {
        match self.transition {
            Transition::Straight => 1.0,
            Transition::Smooth => 6.0 * tau * (1.0 - tau),
        }
    }
}

impl<T: Scalar> Tip<T> {
    /// u of the farthest point.
    pub fn reach(&self) -> T {
        match self {
            Tip::Face(cap) => cap.reach,
            Tip::Ball(ball) => ball.reach,
        }
    }

    /// The station where the tip begins: u, and the section there.
    pub fn station(&self) -> (T, Section<T>) {
        match self {
            Tip::Face(cap) => (cap.land_start(), cap.outline),
            Tip::Ball(ball) => (ball.start(), ball.section()),
        }
    }

    /// The face, where the end has one.
    pub fn face(&self) -> Option<&Cap<T>> {
        match self {
            Tip::Face(cap) => Some(cap),
            Tip::Ball(_) => None,
        }
    }
}

impl<T: Scalar> Tail<T> {
    /// u where the cheek block ends.
    pub fn block_end(&self) -> T {
        self.runs.first().map_or(T::constant(0.0), |block| block.to)
    }
}
