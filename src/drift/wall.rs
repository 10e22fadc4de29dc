//! The cheek wall beside an opening, between its two limits.

use super::{SectionSize, hot};
use crate::solid::{EyeSection, Head, Plug, Solid};

/// The head whose walls are asked for.
pub(super) struct Walls<'a> {
    head: &'a Head<f64>,
    /// How much wider the piece is than the finished cheeks, on each side.
    spare: f64,
    /// Width of the piece across the eye, on the handle axis.
    pub outer: f64,
    /// How many times as large the hot piece is.
    grown: f64,
    /// Width of the opening before the first drift, cold.
    slot_width: f64,
    /// The least wall beside it.
    pub before: f64,
}

/// The cheek wall after a drift: between `thinned`, with the outer width kept, and the wall before, with the metal
/// pushed sideways only, which takes the outer width to `outer`; of the cold piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Limits {
    pub thinned: f64,
    pub outer: f64,
}

impl<'a> Walls<'a> {
    /// For `solid`, `outer` mm wide across the eye, or as its finished cheeks, with the opening `slot` when it is
    /// `grown` times as large.
    pub fn new(solid: &'a Solid, outer: Option<f64>, slot: EyeSection<f64>, grown: f64) -> Self {
        let head = solid.head();
        let slot = hot::section(&slot, grown.recip());
        let finished = cheek_width(head);
        let outer = outer.unwrap_or(finished);
        let mut walls = Self {
            head,
            spare: 0.5 * (outer - finished),
            outer,
            grown,
            slot_width: 2.0 * slot.q,
            before: 0.0,
        };
        walls.before = walls.least(&parallel(&head.eye, slot));
        walls
    }

    /// The walls beside `plug`, which is hot.
    pub fn beside(&self, plug: &Plug<f64>) -> Limits {
        let plug = &hot::plug(plug, self.grown.recip());
        let widest = [plug.top, plug.waist, plug.bottom]
            .map(|level| SectionSize::from(level).width_mm)
            .into_iter()
            .fold(0.0, f64::max);
        Limits {
            // Near its ends an ellipse is narrower than the slot it comes from, whose wall is there already.
            thinned: self.least(plug).min(self.before),
            outer: self.outer + (widest - self.slot_width).max(0.0),
        }
    }

    fn least(&self, plug: &Plug<f64>) -> f64 {
        let head = Head {
            eye: *plug,
            ..self.head.clone()
        };
        let beside = |wall: crate::solid::CheekWall<f64>| wall.thickness;
        let middle = 0.5 * cheek_width(self.head) - plug.waist.q;
        head.least_wall().map_or(middle, beside) + self.spare
    }
}

/// Width of the cheek block on the handle axis, with its swell.
pub(super) fn cheek_width(head: &Head<f64>) -> f64 {
    2.0 * head.half_width_at(0.0, 0.0)
}

/// The eye as the last drift leaves it: its mouths are not broken yet.
pub(super) fn unbroken(eye: &Plug<f64>) -> Plug<f64> {
    Plug {
        mouth_break: None,
        ..*eye
    }
}

/// An opening that is `section` from mouth to mouth, where `eye` is to be.
pub(super) fn parallel(eye: &Plug<f64>, section: EyeSection<f64>) -> Plug<f64> {
    Plug {
        top: section,
        waist: section,
        bottom: section,
        ..unbroken(eye)
    }
}
