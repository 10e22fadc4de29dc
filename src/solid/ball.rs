//! The ball end: a sphere on a neck.

use super::Section;
use crate::numeric::Scalar;

/// A sphere whose neck is a circle on it, mm; from that circle outwards the body is the sphere
/// alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ball<T> {
    /// Radius of the sphere.
    pub radius: T,
    /// Radius of the neck where it meets the sphere.
    pub neck: T,
    /// u of the pole.
    pub reach: T,
}

impl<T: Scalar> Ball<T> {
    /// u of the sphere's centre.
    pub fn centre(&self) -> T {
        self.reach - self.radius
    }

    /// From the neck's circle to the sphere's centre; 0 when the neck is no thinner than the ball.
    pub fn depth(&self) -> T {
        let square = self.radius * self.radius - self.neck * self.neck;
        if square.value() > 0.0 {
            square.sqrt()
        } else {
            T::constant(0.0)
        }
    }

    /// u of the neck's circle, where the sphere begins.
    pub fn start(&self) -> T {
        self.centre() - self.depth()
    }

    /// The section where the sphere begins.
    pub fn section(&self) -> Section<T> {
        Section::circle(self.neck)
    }
}
