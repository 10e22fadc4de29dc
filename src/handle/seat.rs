//! The handle in the eye: tongue, shoulder, kerf and wedges at every height.

use super::{Handle, Shoulder};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::solid::{EyeSection, Head, Lean, Plug};

/// What the tongue, the shoulder and the wedges are, and where they lie. Heights are those of the head.
pub(super) struct Seat<T> {
    /// The eye without the broken corners of its mouths.
    pub plug: Plug<T>,
    /// Whether the wood below the waist follows the wall.
    pub fills: bool,
    /// The tongue's section.
    pub tongue: EyeSection<T>,
    /// Height of the lower mouth.
    pub bottom: T,
    /// Height of the upper mouth.
    pub top: T,
    /// Height of the tongue's end.
    pub end: T,
    /// How much longer the handle is than its height: 1 but for a cocked eye.
    pub slant: T,
    /// Along the handle from the butt to the lower mouth.
    pub stem: T,
    pub kerf: Option<Slot<T>>,
    pub wedge: Option<Prism<T>>,
    pub cross: Option<Prism<T>>,
}

/// The kerf.
pub(super) struct Slot<T> {
    /// Height of its bottom.
    pub bottom: T,
    pub half_width: f64,
}

/// A wedge: its thickness falls evenly to nothing from its thick end downwards.
pub(super) struct Prism<T> {
    /// Height of its thick end.
    pub end: T,
    pub length: f64,
    pub thick: T,
    /// Its size square to thickness and length.
    pub broad: T,
}

impl<T: Scalar> Prism<T> {
    pub fn thickness_at(&self, z: T) -> T {
        or_nothing(self.thick * ((z - self.end) / self.length + 1.0))
    }

    pub fn tip(&self) -> T {
        self.end - self.length
    }
}

/// How far the wood moves outwards on each side, and how far it would move beyond the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spread<T> {
    pub moved: T,
    pub crushed: T,
    /// What is left between wood and wall; negative where the wood is crushed. Between two joints it is a polynomial of
    /// degree 2 at most.
    pub room: f64,
}

impl<T: Scalar> Spread<T> {
    fn new(open: T, room: T) -> Self {
        let left = (room - open).value();
        let (open, room) = (or_nothing(open), or_nothing(room));
        Self {
            moved: lesser(open, room),
            crushed: or_nothing(open - room),
            room: left,
        }
    }
}

/// Where between 0 and 1 a polynomial of degree 2 passes nothing.
fn roots(f: impl Fn(f64) -> f64) -> impl Iterator<Item = f64> {
    let [before, middle, after] = [0.25, 0.5, 0.75].map(f);
    // In u = 4t − 2.
    let (a, b) = (0.5 * (before + after) - middle, 0.5 * (after - before));
    let sum = -0.5 * (b + (b * b - 4.0 * a * middle).sqrt().copysign(b));
    [sum / a, middle / sum]
        .into_iter()
        .map(|u| 0.25 * u + 0.5)
        .filter(|share| (0.0..1.0).contains(share))
}

impl<T: Scalar> Seat<T> {
    pub fn new(head: &Head<T>, handle: &Handle) -> Self {
        let plug = Plug {
            mouth_break: None,
            ..head.eye
        };
        let [bottom, top] = plug.mouths;
        let tongue = passing(&[plug.waist, plug.bottom, plug.top]);
        let proud = handle.proud.in_mm();
        let end = top + proud;
        let slant = match plug.lean {
            Some(Lean { along, across }) => (along * along + across * across + 1.0).sqrt(),
            None => T::constant(1.0),
        };
        let kerf = handle.kerf.map(|kerf| Slot {
            bottom: end - kerf.depth.in_mm(),
            half_width: 0.5 * kerf.width.in_mm(),
        });
        let half_kerf = kerf.as_ref().map_or(0.0, |kerf| kerf.half_width);
        let wedge = handle.wedge.as_ref().map(|wedge| {
            let length = wedge.length.in_mm();
            let thick = match wedge.thick {
                Some(thick) => T::constant(thick.in_mm()),
                None => {
                    let opened = (plug.top.q - tongue.q + half_kerf) * 2.0;
                    (opened + wedge.crush.in_mm()) * (1.0 - proud / length).recip()
                }
            };
            let broad = if half_kerf < tongue.q.value() {
                tongue.half_length_at(T::constant(half_kerf)) * 2.0
            } else {
                T::constant(0.0)
            };
            Prism {
                end,
                length,
                thick,
                broad,
            }
        });
        let cross = handle.cross_wedge.map(|cross| Prism {
            end,
            length: cross.length.in_mm(),
            thick: T::constant(cross.thick.in_mm()),
            broad: T::constant(cross.width.in_mm()),
        });
        Self {
            plug,
            fills: handle.shoulder == Shoulder::FillsMouth,
            tongue,
            bottom,
            top,
            end,
            slant,
            stem: -(end - bottom) * slant + handle.length.in_mm(),
            kerf,
            wedge,
            cross,
        }
    }

    /// The eye at height `z`; above its mouth, that of the mouth.
    pub fn eye_at(&self, z: T) -> EyeSection<T> {
        self.plug.at(lesser(z, self.top))
    }

    /// Whether the wood at height `z` is the shoulder's.
    pub fn is_shoulder(&self, z: f64) -> bool {
        self.fills && z < self.plug.waist_height.value()
    }

    /// The wood at height `z` before it is cut and spread.
    pub fn section_at(&self, z: T) -> EyeSection<T> {
        if self.is_shoulder(z.value()) {
            passing(&[self.plug.at(z), self.plug.bottom])
        } else {
            self.tongue
        }
    }

    /// Half the width of the kerf at height `z`, where it is cut.
    pub fn half_kerf_at(&self, z: T) -> Option<T> {
        let kerf = self.kerf.as_ref()?;
        (z.value() > kerf.bottom.value()).then(|| T::constant(kerf.half_width))
    }

    /// How the wedge spreads the wood across at height `z`.
    pub fn across_at(&self, z: T) -> Spread<T> {
        let half_kerf = self.kerf.as_ref().map_or(0.0, |kerf| kerf.half_width);
        let open = self.wedge.as_ref().map_or(T::constant(0.0), |wedge| {
            wedge.thickness_at(z) * 0.5 - half_kerf
        });
        Spread::new(open, self.eye_at(z).q - self.section_at(z).q)
    }

    /// How the cross wedge spreads the wood along at height `z`.
    pub fn along_at(&self, z: T) -> Spread<T> {
        let open = self
            .cross
            .as_ref()
            .map_or(T::constant(0.0), |cross| cross.thickness_at(z) * 0.5);
        Spread::new(open, self.eye_at(z).p - self.section_at(z).p)
    }

    /// Half-length and half-width of the wood with its wedges at height `z`.
    pub fn half_sizes_at(&self, z: T) -> [T; 2] {
        let section = self.section_at(z);
        [
            section.p + self.along_at(z).moved,
            section.q + self.across_at(z).moved,
        ]
    }

    /// Heights between which the wood changes smoothly, from the lower mouth to the tongue's end.
    pub fn joints(&self) -> Vec<T> {
        let mut joints = vec![self.plug.waist_height, self.top];
        joints.extend(self.kerf.as_ref().map(|kerf| kerf.bottom));
        joints.extend(self.cross.as_ref().map(Prism::tip));
        if let (Some(kerf), Some(wedge)) = (&self.kerf, &self.wedge) {
            joints.push(wedge.tip());
            // Where the wedge is as thick as the kerf is wide.
            let share = -(wedge.thick.recip() * (2.0 * kerf.half_width)) + 1.0;
            joints.push(wedge.end - share * wedge.length);
        }
        joints.retain(|z| self.bottom.value() < z.value() && z.value() < self.end.value());
        joints.extend([self.bottom, self.end]);
        sort_few(&mut joints, |z| z.value());
        let mut meetings = Vec::new();
        for pair in joints.windows(2) {
            let [from, to] = [pair[0].value(), pair[1].value()];
            for spread in [Self::along_at, Self::across_at] {
                let room = |share: f64| spread(self, T::constant(from + (to - from) * share)).room;
                for share in roots(room) {
                    meetings.push(T::constant(from + (to - from) * share));
                }
            }
        }
        joints.extend(meetings);
        sort_few(&mut joints, |z| z.value());
        joints
    }
}

/// The greatest section that passes through all of `levels`: the lesser of their sizes; where corners are rounded, by
/// the greatest of their radii.
fn passing<T: Scalar>(levels: &[EyeSection<T>]) -> EyeSection<T> {
    let Some((first, others)) = levels.split_first() else {
        let nothing = T::constant(0.0);
        return EyeSection {
            p: nothing,
            q: nothing,
            c: nothing,
            d: nothing,
        };
    };
    let is_ellipse = |level: &EyeSection<T>| {
        level.c.value() == level.p.value() && level.d.value() == level.q.value()
    };
    let (mut p, mut q, mut radius) = (first.p, first.q, first.d);
    for level in others {
        p = lesser(p, level.p);
        q = lesser(q, level.q);
        if level.d.value() > radius.value() {
            radius = level.d;
        }
    }
    let (c, d) = if levels.iter().all(is_ellipse) {
        (p, q)
    } else {
        let radius = lesser(radius, lesser(p, q));
        (radius, radius)
    };
    EyeSection { p, q, c, d }
}

fn lesser<T: Scalar>(a: T, b: T) -> T {
    if b.value() < a.value() { b } else { a }
}

fn or_nothing<T: Scalar>(size: T) -> T {
    if size.value() > 0.0 {
        size
    } else {
        T::constant(0.0)
    }
}
