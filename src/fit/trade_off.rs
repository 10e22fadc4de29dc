//! What can be had at once of two quantities: the edge of the pairs within reach.
//!
//! # Method
//! For a value of the one, the other is pushed outwards by fits until it is out of reach, in steps
//! that double, and the last step is bisected. What is within reach is told by the fit alone, so
//! that the edge is as true as its outcomes: every pair comes with a design that has it. (The
//! ε-constraint method: Y. Y. Haimes, L. S. Lasdon and D. A. Wismer, On a bicriterion formulation
//! of the problems of integrated system identification and system optimization, IEEE Trans. Syst.
//! Man Cybern. 1 (1971) 296–297; from memory.)

use super::{Measurable, Outcome, Target, Worked, fit_to};
use crate::design::{Design, DesignError, Dim, Edit, Quantity, bounds};
use crate::numeric::Scalar;

/// One side of a trade-off: a quantity of the head, or one of its sizes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Traded {
    /// A quantity.
    Quantity(Quantity),
    /// A size, mm or degrees.
    Size(Dim),
}

impl Traded {
    /// Its name in words.
    pub fn words(self) -> String {
        match self {
            Self::Quantity(quantity) => quantity.words().to_owned(),
            Self::Size(dim) => dim.words(),
        }
    }
}

impl Measurable for Traded {
    fn tolerance(self) -> f64 {
        match self {
            Self::Quantity(quantity) => quantity.tolerance(),
            Self::Size(_) => 0.01,
        }
    }

    /// That of the quantity; of a size its step.
    fn scale(self) -> f64 {
        match self {
            Self::Quantity(quantity) => quantity.scale(),
            Self::Size(dim) => bounds(dim).step,
        }
    }

    fn measure<T: Scalar>(self, worked: &Worked<T>, found: &mut dyn FnMut(T)) {
        match self {
            Self::Quantity(quantity) => quantity.measure(worked, found),
            Self::Size(dim) => worked.size(dim).into_iter().for_each(found),
        }
    }
}

/// A pair within reach, and a design that has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The one.
    pub x: f64,
    /// The other.
    pub y: f64,
    /// The design: sound, inside its limits, with every other hold met.
    pub design: Design,
}

/// Why there is no trade-off.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TradeOffError {
    /// The design itself is not sound.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))]
    Unsound(Vec<DesignError>),
    /// A size that the design does not have.
    #[error("This design has no size {0}.")]
    NoSuchSize(Dim),
    /// Twice the same.
    #[error(
        "A trade-off is between two different things; choose another than {0} for one of them."
    )]
    Same(String),
    /// The holds on other quantities cannot be met.
    #[error("What else is held can’t be kept as it is; let one hold go or widen a limit first.")]
    OutOfReach,
}

/// How near to the edge the pairs are, as a share of what counts as equally far off: 0.1 g,
/// 0.005 mm, 0.2 kg·mm².
const NEARNESS: f64 = 0.01;
/// The first step outwards, as such a share.
const FIRST_STEP: f64 = 0.5;
/// Steps outwards before the edge is given up: they double, so that no head has as much.
const MOST_STEPS: usize = 24;

/// A question about two quantities of a design, with all that is held besides them.
pub struct TradeOff {
    /// A design that meets the other holds, with the traded sizes free.
    start: Design,
    others: Vec<Target<Traded>>,
    x: Traded,
    y: Traded,
    upper: bool,
}

impl TradeOff {
    /// Asks how much (`upper`) or how little `y` can be when `x` is this or that. Sizes that are
    /// free may move, and so may `x` and `y` where they are sizes, between their usual limits when
    /// they are locked. Holds on the two are left out.
    ///
    /// # Errors
    /// A sentence when there is no such trade-off.
    pub fn new(design: &Design, x: Traded, y: Traded, upper: bool) -> Result<Self, TradeOffError> {
        design.build().map_err(TradeOffError::Unsound)?;
        // Two sizes that are alike are one.
        let leader = |traded| match traded {
            Traded::Size(dim) => Traded::Size(design.leader(dim)),
            quantity => quantity,
        };
        if leader(x) == leader(y) {
            return Err(TradeOffError::Same(x.words()));
        }
        let mut start = design.clone();
        for traded in [x, y] {
            if let Traded::Size(dim) = traded
                && !start.is_free(dim)
            {
                let usual = start.default_range(dim);
                let usual = usual.ok_or(TradeOffError::NoSuchSize(dim))?;
                start = start.apply(Edit::Free(dim, usual));
            }
        }
        let held = design.holds.iter();
        let held = held.map(|(quantity, hold)| Target::new(Traded::Quantity(quantity), hold));
        let others: Vec<_> = held
            .filter(|target| target.quantity != x && target.quantity != y)
            .collect();
        let fitted = fit_to(&start, &others).map_err(TradeOffError::Unsound)?;
        if fitted.outcome != Outcome::Met {
            return Err(TradeOffError::OutOfReach);
        }
        Ok(Self {
            start: fitted.design,
            others,
            x,
            y,
            upper,
        })
    }

    /// The least and the greatest `x` within reach.
    pub fn span(&self) -> [f64; 2] {
        [false, true].map(|upper| {
            let design = self.farthest(&self.start, &[], self.x, upper);
            value(&design, self.x)
        })
    }

    /// The pair on the edge at `x`, which lies in the span; `near` is one beside it, to begin from.
    /// Nothing when the fit does not come to `x`.
    pub fn at(&self, x: f64, near: Option<&Pair>) -> Option<Pair> {
        let pinned = Target::just(self.x, x);
        let from = near.map_or(&self.start, |pair| &pair.design);
        let met = self.met(from, &[pinned])?;
        let design = self.farthest(&met, &[pinned], self.y, self.upper);
        Some(Pair {
            x: value(&design, self.x),
            y: value(&design, self.y),
            design,
        })
    }

    /// The design nearest to `from` that meets the other holds and `targets`.
    fn met(&self, from: &Design, targets: &[Target<Traded>]) -> Option<Design> {
        let all = [&self.others, targets].concat();
        let fitted = fit_to(from, &all).ok()?;
        (fitted.outcome == Outcome::Met).then_some(fitted.design)
    }

    /// A design with as much or as little of `quantity` as can be, `targets` and the other holds
    /// met; `from` meets them.
    fn farthest(
        &self,
        from: &Design,
        targets: &[Target<Traded>],
        quantity: Traded,
        upper: bool,
    ) -> Design {
        let scale = quantity.scale();
        let outwards = |from: &Design, by: f64| {
            let at = value(from, quantity);
            let (low, high) = if upper {
                (at + by, f64::INFINITY)
            } else {
                (f64::NEG_INFINITY, at - by)
            };
            let further = Target {
                quantity,
                low,
                high,
                aim: None,
            };
            self.met(from, &[targets, &[further]].concat())
        };
        let mut design = from.clone();
        let mut step = FIRST_STEP * scale;
        for _ in 0..MOST_STEPS {
            let Some(further) = outwards(&design, step) else {
                break;
            };
            (design, step) = (further, 2.0 * step);
        }
        while step > NEARNESS * scale {
            step *= 0.5;
            if let Some(further) = outwards(&design, step) {
                design = further;
            }
        }
        design
    }
}

/// A quantity or size of `design`.
fn value(design: &Design, traded: Traded) -> f64 {
    let mut least = f64::INFINITY;
    let worked = Worked::lift(design, &mut |_, number: f64| number);
    traded.measure(&worked, &mut |value| least = least.min(value));
    least
}
