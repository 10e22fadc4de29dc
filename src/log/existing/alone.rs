//! One size alone: the number nearest to its own at which a head weighs what it weighs.
//!
//! Both ways from where it stands, in steps that grow with the distance, until the difference changes its sign or the head is
//! no longer sound; then between the two places. A head whose weight goes up and down again within a step is passed over.

use crate::design::{Design, Dim, bounds};
use crate::mass::mass_properties;
use crate::numeric::roots::{bisected, crossing_within};

/// How much farther each place lies than the one before it, as a share of the distance, once that is more than a step.
const GROWS: f64 = 0.05;
/// Numbers are written to this many mm or degrees.
const GRAIN: f64 = 1e-6;
/// How near a crossing is found, as a share of the stretch that it is looked for in.
const NEAR: f64 = 1e-12;
/// Halvings to the end of what is sound: from a stretch of some mm to below the grain.
const HALVINGS: usize = 40;

/// The number nearest to its own of `dim`, with the size that is as it, at which `design` is sound and weighs `kg`.
pub(super) fn nearest(design: &Design, dim: Dim, kg: f64) -> Option<f64> {
    let here = design.size(dim)?.number();
    let search = Search { design, dim, kg };
    let step = bounds(dim).step;
    let start = (here, search.more(here)?);
    let mut ways = [1.0, -1.0].map(|way| (way, Some(start)));
    let mut distance = 0.0_f64;
    while ways.iter().any(|(_, last)| last.is_some()) {
        distance += step.max(GROWS * distance);
        let mut found: Option<f64> = None;
        for (way, last) in &mut ways {
            let Some(before) = last.take() else { continue };
            let (next, open) = search.next(before, here + *way * distance);
            let root = crossing_within(NEAR, before, next, &|number| {
                search.more(number).unwrap_or(f64::NAN)
            });
            *last = open.then_some(next);
            let nearer =
                |root: &f64| found.is_none_or(|it| (root - here).abs() < (it - here).abs());
            found = root.filter(nearer).or(found);
        }
        if let Some(root) = found {
            return Some((root / GRAIN).round() * GRAIN);
        }
    }
    None
}

struct Search<'a> {
    design: &'a Design,
    dim: Dim,
    kg: f64,
}

impl Search<'_> {
    /// How much more than wanted the head weighs, kg, with the size at `number`; nothing where it is not sound.
    fn more(&self, number: f64) -> Option<f64> {
        let mut head = self.design.clone();
        head.visit_sizes(&mut |dim, size| {
            if self.design.leader(dim) == self.dim {
                *size = size.with_number(number);
            }
        });
        let solid = head.build().ok()?;
        Some(mass_properties(&solid).mass - self.kg)
    }

    /// The next place on the way `to`, from `before` which is sound, and whether it goes on behind it: at the end of the
    /// bounds and of what is sound it does not.
    fn next(&self, before: (f64, f64), to: f64) -> ((f64, f64), bool) {
        let limits = bounds(self.dim);
        let inside = to.clamp(limits.low, limits.high);
        if let Some(more) = self.more(inside) {
            return ((inside, more), inside == to);
        }
        let sound = |number: f64| {
            if self.more(number).is_some() {
                1.0
            } else {
                -1.0
            }
        };
        let edge = bisected(HALVINGS, before.0, inside, sound);
        // The last that is sound, a grain before the edge.
        let back = |edge: f64| edge - GRAIN * (inside - before.0).signum();
        let last = edge.map(back).and_then(|at| Some((at, self.more(at)?)));
        (last.unwrap_or(before), false)
    }
}
