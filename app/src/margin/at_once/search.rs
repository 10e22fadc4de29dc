//! The working out of a trade-off, one point in each turn.

use headwright::design::{Design, Part, Quantity, Side, Size};
use headwright::fit::{Pair, TradeOff, TradeOffError, Traded};

/// How many points are worked out.
pub const COUNT: usize = 17;

/// A trade-off that is being worked out, and what was found of it.
pub struct Search {
    /// Along which the points stand.
    pub x: Traded,
    /// Of which there is as much or as little as can be.
    pub y: Traded,
    /// Whether as much.
    pub upper: bool,
    /// The design it is about.
    pub design: Option<Design>,
    /// Its `x`, from which the points are worked out both ways.
    from: f64,
    trade_off: Option<TradeOff>,
    next: Option<[f64; 2]>,
    /// How many points have been tried.
    pub done: usize,
    /// Whether what was found belongs to another design or another question.
    pub old: bool,
    /// The least and the greatest `x` of what was found.
    pub span: [f64; 2],
    /// What was found, evenly along `x`; nothing where no head was.
    pub points: Vec<Option<Pair>>,
    /// The point that is looked at.
    pub chosen: Option<usize>,
    /// Why there is nothing to be found.
    pub wrong: Option<TradeOffError>,
}

impl Search {
    /// The weight against the reach of the front.
    pub fn new() -> Self {
        Self {
            x: Traded::Quantity(Quantity::Mass),
            y: Traded::Size(Part::End(Side::Front).size(Size::Reach)),
            upper: true,
            design: None,
            from: 0.0,
            trade_off: None,
            next: None,
            done: 0,
            old: true,
            span: [0.0; 2],
            points: Vec::new(),
            chosen: None,
            wrong: None,
        }
    }

    /// What was found belongs to the past; it stays until something new is found.
    pub fn outlive(&mut self) {
        (self.trade_off, self.next, self.wrong) = (None, None, None);
        (self.done, self.old) = (0, true);
    }

    /// Begins with `design`, whose `x` is `from`.
    pub fn begin(&mut self, design: Design, from: f64) {
        (self.design, self.from) = (Some(design), from);
    }

    /// Whether turns have been made that can be gone on with.
    pub fn is_begun(&self) -> bool {
        self.trade_off.is_some()
    }

    /// One turn: whether there is more to do.
    pub fn turn(&mut self) -> bool {
        let Some(design) = &self.design else {
            return false;
        };
        let Some(trade_off) = &self.trade_off else {
            match TradeOff::new(design, self.x, self.y, self.upper) {
                Ok(trade_off) => self.trade_off = Some(trade_off),
                Err(wrong) => {
                    self.points.clear();
                    self.wrong = Some(wrong);
                    return false;
                }
            }
            return true;
        };
        let Some(span) = self.next else {
            self.next = Some(trade_off.span());
            return true;
        };
        if self.done == 0 {
            self.points = (0..COUNT).map(|_| None).collect();
            (self.span, self.old) = (span, false);
        }
        if self.done == COUNT {
            return false;
        }
        let index = order(nearest(span, self.from), self.done);
        let beside = |at: &usize| at.abs_diff(index);
        let near = (0..COUNT).filter(|at| self.points[*at].is_some());
        let near = near
            .min_by_key(beside)
            .and_then(|at| self.points[at].as_ref());
        self.points[index] = trade_off.at(place(span, index), near);
        self.done += 1;
        self.done < COUNT
    }

    /// The point that is looked at, or the one nearest to the design; nothing while none is found.
    pub fn here(&self) -> Option<usize> {
        let index = self.chosen.unwrap_or_else(|| nearest(self.span, self.from));
        let found = (0..self.points.len()).filter(|at| self.points[*at].is_some());
        found.min_by_key(|at| at.abs_diff(index))
    }

    /// Looks at the point `to`, or at the next one found beyond it.
    pub fn choose(&mut self, to: usize) {
        let Some(here) = self.here() else {
            return;
        };
        let found = |at: &usize| self.points.get(*at).is_some_and(Option::is_some);
        let next = if to > here {
            (to..COUNT).find(found)
        } else {
            (0..=to).rev().find(found)
        };
        self.chosen = Some(next.unwrap_or(here));
    }
}

/// `x` of the point `index`.
fn place(span: [f64; 2], index: usize) -> f64 {
    span[0] + (span[1] - span[0]) * index as f64 / (COUNT - 1) as f64
}

/// The point whose `x` is nearest to this.
fn nearest(span: [f64; 2], x: f64) -> usize {
    let share = (x - span[0]) / (span[1] - span[0]);
    // An empty span has its points in one place: any will do.
    (share.clamp(0.0, 1.0) * (COUNT - 1) as f64).round() as usize
}

/// Which point is worked out after `done` others: from `first` up, then from beside it down, so that
/// each has one beside it to begin from.
fn order(first: usize, done: usize) -> usize {
    if first + done < COUNT {
        first + done
    } else {
        COUNT - 1 - done
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::mass::mass_properties;

    #[test]
    fn every_point_is_worked_out_once_from_one_beside_it() {
        for first in 0..COUNT {
            let all: Vec<usize> = (0..COUNT).map(|done| order(first, done)).collect();
            for (done, at) in all.iter().enumerate().skip(1) {
                let near = all[..done].iter().any(|before| before.abs_diff(*at) == 1);
                assert!(near, "{at} of {all:?}");
                assert!(!all[..done].contains(at), "{at} twice in {all:?}");
            }
        }
    }

    #[test]
    fn the_point_nearest_to_the_design_comes_first() {
        assert_eq!(nearest([1.0, 2.0], 1.26), 4);
        assert_eq!(nearest([1.0, 2.0], 7.0), COUNT - 1);
        assert_eq!(nearest([1.0, 2.0], 0.0), 0);
        assert_eq!(nearest([1.0, 1.0], 1.0), 0);
    }

    #[test]
    fn one_turn_after_the_other_finds_heads_that_can_be_made() {
        let design = starter("rounding").expect("a starter");
        let mass = |design: &Design| mass_properties(&design.build().expect("sound")).mass;
        let mut search = Search::new();
        search.begin(design.clone(), mass(&design));
        let mut turns = 1;
        while search.turn() {
            turns += 1;
        }
        assert_eq!(turns, COUNT + 2);
        let found: Vec<&Pair> = search.points.iter().flatten().collect();
        assert!(found.len() > COUNT / 2, "{}", found.len());
        for pair in &found {
            assert!((mass(&pair.design) - pair.x).abs() < 1e-6);
        }
        // The keys go from one to the next that was found, and stay at the ends.
        search.choose(COUNT - 1);
        let last = search.here();
        search.choose(COUNT - 1);
        assert_eq!(search.here(), last);
        search.choose(0);
        assert!(search.here() < last);
    }
}
