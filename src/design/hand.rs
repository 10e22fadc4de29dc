//! A size in hand: put somewhere, and what goes with it.

use super::{Design, Dim, Edit, Range};
use crate::units::Measure;

impl Design {
    /// The design with `dim` put at `size` by hand. The limits of a free dimension follow the smith who goes beyond them.
    #[must_use]
    pub fn put(&self, dim: Dim, size: Measure) -> Design {
        let mut design = self.apply(Edit::Set(dim, size));
        let leader = design.leader(dim);
        if let Some(Range { low, high }) = design.free.get_mut(&leader) {
            if size.number() < low.number() {
                *low = size;
            }
            if size.number() > high.number() {
                *high = size;
            }
        }
        design
    }

    /// Millimetres or degrees of every dimension, in the order of [`Design::sizes`].
    pub fn in_numbers(&self) -> Vec<f64> {
        self.sizes()
            .into_iter()
            .map(|(_, size)| size.number())
            .collect()
    }

    /// The design with these numbers, each in the notation that was there; nothing when they are of a design with other
    /// dimensions.
    #[must_use]
    pub fn with_numbers(&self, numbers: &[f64]) -> Option<Design> {
        let mut design = self.clone();
        let mut left = numbers.iter();
        let mut enough = true;
        design.visit_sizes(&mut |_, size| match left.next() {
            Some(number) => *size = size.with_number(*number),
            None => enough = false,
        });
        (enough && left.next().is_none()).then_some(design)
    }
}
