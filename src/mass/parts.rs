//! Volumes of the parts whose sections are not in closed form.

use super::{Order, ball, cap, eye, pein};
use crate::design::Side;
use crate::solid::{Solid, Tip};

/// Volumes of tips and eye, mm³, by side: front, back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartVolumes {
    /// Of what closes each end: land and face, ball, or pein.
    pub tips: [f64; 2],
    /// What the eye takes out in front of the plane x = 0 and behind it.
    pub eye: [f64; 2],
}

/// Volumes of the tips and of the eye of `solid`.
///
/// # Accuracy
/// That of [`Order::default`]; with a cocked eye, the cut of its mouths by worked corners and lugs counts as alike on
/// both sides of x = 0.
pub fn part_volumes(solid: &Solid) -> PartVolumes {
    let head = solid.head();
    let order = Order::default();
    let tips = Side::BOTH.map(|side| match &head.end(side).tip {
        Tip::Face(cap) => cap::moments(cap, order).volume,
        Tip::Ball(ball) => ball::moments(ball).volume,
        Tip::Pein(pein) => pein::moments(pein, order).volume,
    });
    let volume = eye::moments(head, order).volume;
    let front = eye::front_volume(head, volume);
    PartVolumes {
        tips,
        eye: [front, volume - front],
    }
}
