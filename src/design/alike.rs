//! Front and back alike: sizes of the back that are as the same size of the front.
//!
//! A size of the back in [`Design::alike`] has a fellow at the front with the same value, and a
//! fit moves it exactly when it may move that one. [`Design::apply`] keeps it so: giving either
//! of the two a value gives it to both, and what takes one of them away cuts the tie.

use std::collections::BTreeSet;
use std::mem::discriminant;

use super::{Design, Dim, Edit, MOST_NECKS, Part, Range, Side, Size, Tip};
use crate::units::Measure;

/// A size of the back and its fellow at the front.
struct Pair {
    back: Dim,
    /// Values at the back and at the front.
    values: [Measure; 2],
}

impl Design {
    /// The sizes of the back that both ends have, so that they can be as those of the front.
    ///
    /// The leg of a chamfer and the radius of a rounding are two sizes, whatever they are called.
    /// Reaches are no pair: they set the balance.
    pub fn pairs(&self) -> Vec<Dim> {
        self.all_pairs().iter().map(|pair| pair.back).collect()
    }

    /// The sizes of the back that have the value of the front's, in the order of the list.
    pub fn equal_pairs(&self) -> Vec<Dim> {
        let mut pairs = self.all_pairs();
        pairs.retain(|Pair { values, .. }| values[0] == values[1]);
        pairs.iter().map(|pair| pair.back).collect()
    }

    /// Whether `dim` is one of [`Self::pairs`].
    pub fn has_pair(&self, dim: Dim) -> bool {
        let Some(front) = dim.mirrored().filter(|_| is_named_back(dim)) else {
            return false;
        };
        let sizes = self.sizes();
        let there = |dim: Dim| sizes.iter().any(|(other, _)| *other == dim);
        there(dim) && there(front) && self.same_kind(front, dim)
    }

    /// The sizes that are alike when nobody has said otherwise: all that have the same value,
    /// but for those of the back that a fit may move by themselves.
    pub fn default_alike(&self) -> BTreeSet<Dim> {
        let mut equal = self.equal_pairs();
        equal.retain(|back| !self.free.contains_key(back));
        // One after the other: collecting would sort them first.
        let mut alike = BTreeSet::new();
        for back in equal {
            alike.insert(back);
        }
        alike
    }

    /// The size that `dim` is as: the front's, where front and back are alike, else itself.
    pub fn leader(&self, dim: Dim) -> Dim {
        let fellow = dim.mirrored().filter(|_| self.alike.contains(&dim));
        fellow.unwrap_or(dim)
    }

    /// The size of the back that is as `dim` of the front.
    pub fn follower(&self, dim: Dim) -> Option<Dim> {
        dim.mirrored().filter(|back| self.alike.contains(back))
    }

    /// Whether a fit may move `dim`, by itself or with the size it is as.
    pub fn is_free(&self, dim: Dim) -> bool {
        self.free.contains_key(&self.leader(dim))
    }

    /// The limits between which a fit may move `dim`; nothing when it is locked.
    pub fn range(&self, dim: Dim) -> Option<Range> {
        self.free.get(&self.leader(dim)).copied()
    }

    /// Makes the back's one of `dim` and its fellow as the front's, or parts them.
    pub(super) fn set_alike(&mut self, dim: Dim, alike: bool) {
        let back = match dim.mirrored() {
            Some(fellow) if fellow.side() == Some(Side::Back) => fellow,
            Some(_) => dim,
            None => return,
        };
        if !alike {
            self.keep_ties(&|dim| dim != back);
            return;
        }
        let pairs = self.all_pairs();
        if let Some(pair) = pairs.iter().find(|pair| pair.back == back) {
            self.set(back, pair.values[1]);
            self.alike.insert(back);
        }
    }

    /// Gives every size that is tied to one which differs from `before` the value of that one.
    pub(super) fn follow(&mut self, before: &Design) {
        let then = before.sizes();
        let was = |dim: Dim, value: Measure| then.contains(&(dim, value));
        let mut pairs = self.all_pairs();
        pairs.retain(|pair| self.alike.contains(&pair.back));
        for Pair { back, values } in pairs {
            let front = self.leader(back);
            if !was(front, values[1]) {
                self.set(back, values[1]);
            } else if !was(back, values[0]) {
                self.set(front, values[0]);
            }
        }
    }

    /// Cuts the ties that do not hold, and leaves no size free by itself that is as another.
    pub(crate) fn settle_ties(&mut self) {
        if self.alike.is_empty() {
            return;
        }
        let equal = self.equal_pairs();
        self.keep_ties(&|dim| equal.contains(&dim));
        let Self { alike, free, .. } = self;
        free.retain(|dim, _| !alike.contains(dim));
    }

    /// Cuts all ties but those that `keep` names.
    pub(super) fn keep_ties(&mut self, keep: &dyn Fn(Dim) -> bool) {
        // Made anew: what takes single entries out of a set is much code for the browser.
        let mut kept = BTreeSet::new();
        for dim in &self.alike {
            if keep(*dim) {
                kept.insert(*dim);
            }
        }
        self.alike = kept;
    }

    fn all_pairs(&self) -> Vec<Pair> {
        let sizes = self.sizes();
        let value = |dim: Dim| sizes.iter().find(|(other, _)| *other == dim);
        let mut pairs = Vec::new();
        for (back, at_back) in &sizes {
            let front = back.mirrored();
            let Some((front, at_front)) = front.and_then(value) else {
                continue;
            };
            if is_named_back(*back) && self.same_kind(*front, *back) {
                pairs.push(Pair {
                    back: *back,
                    values: [*at_back, *at_front],
                });
            }
        }
        pairs
    }

    /// Whether two sizes of the same name are the same thing.
    fn same_kind(&self, front: Dim, back: Dim) -> bool {
        match back.size {
            Size::Corner => {
                let outlines = self.outlines();
                let kind = |part: Part| {
                    let of_part = outlines.iter().find(|(other, _)| *other == part);
                    of_part.map(|(_, outline)| discriminant(&outline.corner))
                };
                kind(front.part) == kind(back.part)
            }
            Size::Edge => match (&self.front.tip, &self.back.tip) {
                (Tip::Face(one), Tip::Face(other)) => {
                    discriminant(&one.edge) == discriminant(&other.edge)
                }
                _ => true,
            },
            _ => true,
        }
    }
}

/// Whether `dim` is a size of the back: of a neck too many, as a file may have, there is no name
/// to write it by.
fn is_named_back(dim: Dim) -> bool {
    let too_many = matches!(dim.part, Part::Neck(_, n) if usize::from(n) >= MOST_NECKS);
    dim.side() == Some(Side::Back) && !too_many
}

impl Edit {
    /// Whether it gives sizes values, so that the sizes tied to them take these too.
    pub(super) fn gives_values(&self) -> bool {
        matches!(
            self,
            Self::Set(..)
                | Self::Optional(..)
                | Self::Corner(..)
                | Self::Crown(..)
                | Self::Edge(..)
        )
    }
}
