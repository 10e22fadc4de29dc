//! What of the finished tool a fit can hold, over any scalar.

use super::Handle;
use super::body::{body, frame};
use super::seat::Seat;
use crate::mass::Moments;
use crate::numeric::Scalar;
use crate::solid::{Head, Lean};

/// Head and handle together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tool<T> {
    /// Mass, kg.
    pub mass: T,
    /// From the middle of the eye to the balance point along the handle, mm, positive towards the butt.
    pub balance: T,
    /// About the line through the grip that a swing turns about, square to the handle and to the head's x, kg·mm².
    pub inertia_grip: T,
}

impl<T: Scalar> Tool<T> {
    /// The tool of `head`, whose volume integrals are `moments`, and `handle`.
    ///
    /// For a handle that [`make`](super::make) accepts; it gives numbers without meaning for others, never a panic.
    ///
    /// # Accuracy
    /// That of [`body`] and of the moments.
    pub fn new(head: &Head<T>, moments: &Moments<T>, handle: &Handle) -> Self {
        let all = body(head, handle).plus(&moments.times(head.density * 1e-9));
        let seat = Seat::new(head, handle);
        let along = frame(seat.plug.lean).map(|[_, _, along]| along);
        let grip = seat.bottom * seat.slant - seat.stem + handle.grip.in_mm();
        let [x, y, z] = all.centroid();
        let inertia = all.inertia_about(along.map(|part| part * grip));
        // Square to the handle (·, y, z) and to x: (0, z, −y) of unit length.
        let lean = seat
            .plug
            .lean
            .map_or(T::constant(0.0), |Lean { across, .. }| across);
        let short = (lean * lean + 1.0).recip();
        let [[..], [_, yy, yz], [_, _, zz]] = inertia;
        Self {
            mass: all.volume,
            balance: -(x * along[0] + y * along[1] + z * along[2]),
            inertia_grip: (yy - yz * lean * 2.0 + zz * lean * lean) * short,
        }
    }
}
