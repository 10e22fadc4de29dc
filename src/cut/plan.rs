//! The cutting list: bars, cuts in order, what is left, masses and costs.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::order::{HUNDREDTHS, Order};
use super::problem::{Cut, PER_MM, Problem};

/// What is cut from which bar, and how good that is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CuttingList {
    /// The bars, those of one stock length together, the fullest first.
    pub bars: Vec<CutBar>,
    /// What all bars come to.
    pub totals: Totals,
    /// How near the list is to the best there can be.
    pub bound: Bound,
    /// How many bars of the longest stock are missing: what is on hand is not enough. They are among the bars.
    pub missing: usize,
}

/// One bar, or several that are cut alike.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CutBar {
    /// The stock's line in the order, counted from 1; nothing for a bar that is missing.
    pub stock: Option<usize>,
    /// How many bars are cut so.
    pub times: usize,
    /// Length of the bar in mm.
    pub length_mm: f64,
    /// The pieces in the order they are cut, the longest first.
    pub pieces: Vec<CutPiece>,
    /// What is left of the bar behind its last cut, in mm: the end waste less that cut, and what is over.
    pub offcut_mm: f64,
    /// Mass of the whole bar in kg, when the section is known.
    pub mass_kg: Option<f64>,
    /// What the bar costs, when prices are known.
    pub cost: Option<f64>,
}

/// A piece and where it lies, in mm from the bar's free end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CutPiece {
    /// The piece's line in the order, counted from 1.
    pub line: usize,
    /// What it is cut for.
    pub name: String,
    /// Where it begins.
    pub from_mm: f64,
    /// Where it ends; the saw's kerf lies behind it.
    pub to_mm: f64,
    /// Its mass in kg, when the section is known.
    pub mass_kg: Option<f64>,
}

/// What all bars come to: `bought_mm = pieces_mm + kerf_mm + offcut_mm`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Totals {
    /// How many bars.
    pub bars: usize,
    /// How many pieces.
    pub pieces: usize,
    /// The bars' length.
    pub bought_mm: f64,
    /// The pieces' length.
    pub pieces_mm: f64,
    /// What the saw takes.
    pub kerf_mm: f64,
    /// What is left behind the last cuts, end wastes included.
    pub offcut_mm: f64,
    /// The longest single one of those.
    pub longest_offcut_mm: f64,
    /// Mass in kg of the bars on hand or bought, when the section is known; missing bars are not in it.
    pub mass_kg: Option<f64>,
    /// What the same bars cost, when prices are known, exact to the hundredth; missing bars are not in it.
    pub cost: Option<f64>,
}

/// What is made least.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// The number of bars: there is one stock length.
    Bars,
    /// The length of bar in mm: there are several, without prices.
    Length,
    /// What the bars cost.
    Cost,
    /// The number of missing bars: what is on hand is not enough.
    Missing,
}

/// How near a list is to the best there can be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Bound {
    /// What is made least, before anything else.
    pub aim: Aim,
    /// What the list takes of it.
    pub value: f64,
    /// What every list takes at least.
    pub least: f64,
    /// Share of `value` that a better list could save at most: (value − least) / value.
    pub gap: f64,
    /// Whether no list takes less.
    pub proved: bool,
    /// Whether no list that takes as little has less steel in its bars.
    pub steel_proved: bool,
}

/// The bound of `bars`, in the measure in which the order is shown.
pub(super) fn bound(
    problem: &Problem,
    order: &Order,
    bars: &[Cut],
    lower: i128,
    steel_proved: bool,
) -> Bound {
    let cost = problem.cost(bars);
    // A first answer's bound is not above the answer.
    let lower = problem.whole(lower).min(cost);
    let ceil = |cost: i128, each: i64| {
        let each = i128::from(each.max(1));
        (cost + each - 1) / each
    };
    let kinds = problem.kinds.iter();
    let on_hand: i128 = kinds
        .filter(|kind| kind.stock.is_some())
        .map(|kind| i128::from(kind.cost) * i128::from(kind.count))
        .sum();
    let missing = problem.kinds.last().filter(|kind| kind.stock.is_none());
    let priced = order
        .stock
        .iter()
        .all(|stock| order.hundredths(stock).is_some());
    let (aim, value, least) = if let Some(bar) = missing.filter(|_| cost > on_hand) {
        let absent = bars
            .iter()
            .filter(|(kind, _)| problem.kinds[*kind].stock.is_none());
        let least = ceil((lower - on_hand).max(0), bar.cost);
        (Aim::Missing, absent.count() as f64, least as f64)
    } else if order.stock.len() == 1 {
        let least = ceil(lower, problem.kinds[0].cost);
        (Aim::Bars, bars.len() as f64, least as f64)
    } else if priced {
        let money = |cost: i128| (cost / i128::from(problem.fineness)) as f64 / HUNDREDTHS;
        (Aim::Cost, money(cost), money(lower))
    } else {
        let length = |cost: i128| (cost / i128::from(problem.fineness)) as f64 / PER_MM;
        (Aim::Length, length(cost), length(lower))
    };
    let proved = lower >= cost;
    let least = if proved { value } else { least };
    let gap = if value > 0.0 {
        (value - least) / value
    } else {
        0.0
    };
    Bound {
        aim,
        value,
        least,
        gap,
        proved,
        steel_proved,
    }
}

/// The list of `bars`.
pub(super) fn plan(order: &Order, problem: &Problem, bars: &[Cut], bound: Bound) -> CuttingList {
    let (kerf, kg_per_mm) = (order.kerf.in_mm(), order.kg_per_mm());
    let mut sorted: Vec<&Cut> = bars.iter().collect();
    sorted.sort_by(|a, b| {
        let key = |cut: &Cut| (cut.0, std::cmp::Reverse(problem.filled(&cut.1)));
        key(a).cmp(&key(b)).then_with(|| a.1.cmp(&b.1))
    });
    let mut lines = Lines::of(order, problem);
    let mut listed: Vec<CutBar> = Vec::new();
    for (kind, pattern) in sorted {
        let kind = &problem.kinds[*kind];
        let (length, mut from) = (kind.length as f64 / PER_MM, 0.0);
        let mut pieces = Vec::new();
        for &(i, n) in pattern {
            for _ in 0..n {
                let Some(line) = lines.next(i) else {
                    continue;
                };
                let piece = &order.pieces[line];
                let to = from + piece.length.in_mm();
                pieces.push(CutPiece {
                    line: line + 1,
                    name: piece.name.clone(),
                    from_mm: from,
                    to_mm: to,
                    mass_kg: kg_per_mm.map(|kg| kg * piece.length.in_mm()),
                });
                from = to + kerf;
            }
        }
        let stock = kind.stock.map(|at| &order.stock[at]);
        let bar = CutBar {
            stock: kind.stock.map(|at| at + 1),
            times: 1,
            length_mm: length,
            pieces,
            offcut_mm: (length - from).max(0.0),
            mass_kg: kg_per_mm.map(|kg| kg * length),
            cost: stock.and_then(|stock| Some(order.hundredths(stock)? as f64 / HUNDREDTHS)),
        };
        match listed.last_mut() {
            Some(last)
                if (CutBar {
                    times: 1,
                    ..last.clone()
                }) == bar =>
            {
                last.times += 1
            }
            _ => listed.push(bar),
        }
    }
    let missing = bars
        .iter()
        .filter(|(kind, _)| problem.kinds[*kind].stock.is_none());
    CuttingList {
        totals: Totals::of(&listed),
        missing: missing.count(),
        bars: listed,
        bound,
    }
}

impl Totals {
    fn of(bars: &[CutBar]) -> Self {
        let sum = |part: &dyn Fn(&CutBar) -> f64| -> f64 {
            bars.iter().map(|bar| part(bar) * bar.times as f64).sum()
        };
        let pieces_mm = sum(&|bar| {
            bar.pieces
                .iter()
                .map(|piece| piece.to_mm - piece.from_mm)
                .sum()
        });
        let (bought_mm, offcut_mm) = (sum(&|bar| bar.length_mm), sum(&|bar| bar.offcut_mm));
        let known = |known: bool, total: f64| known.then_some(total);
        Self {
            bars: bars.iter().map(|bar| bar.times).sum(),
            pieces: bars.iter().map(|bar| bar.times * bar.pieces.len()).sum(),
            bought_mm,
            pieces_mm,
            kerf_mm: bought_mm - pieces_mm - offcut_mm,
            offcut_mm,
            longest_offcut_mm: bars.iter().map(|bar| bar.offcut_mm).fold(0.0, f64::max),
            mass_kg: known(
                bars.iter().all(|bar| bar.mass_kg.is_some()),
                sum(&|bar| bar.mass_kg.filter(|_| bar.stock.is_some()).unwrap_or(0.0)),
            ),
            cost: cost(bars),
        }
    }
}

/// The sum of what the bars that are not missing cost, in whole hundredths until the end.
fn cost(bars: &[CutBar]) -> Option<f64> {
    let here = bars.iter().filter(|bar| bar.stock.is_some());
    let costs = here.map(|bar| Some((bar.cost? * HUNDREDTHS).round() as i64 * bar.times as i64));
    let costs = costs.collect::<Option<Vec<i64>>>()?;
    (!costs.is_empty()).then(|| costs.iter().sum::<i64>() as f64 / HUNDREDTHS)
}

/// Which lines of the order the pieces of one size are cut for.
struct Lines {
    left: Vec<Vec<(usize, u32)>>,
}

impl Lines {
    fn of(order: &Order, problem: &Problem) -> Self {
        let mut left = vec![Vec::new(); problem.sizes.len()];
        let kerf = super::problem::nanometres(order.kerf.in_mm());
        // The last is taken first.
        for (line, piece) in order.pieces.iter().enumerate().rev() {
            let size = super::problem::nanometres(piece.length.in_mm()) + kerf;
            let at = problem.sizes.iter().position(|other| *other == size);
            if let Some(at) = at.filter(|_| piece.count > 0) {
                left[at].push((line, piece.count));
            }
        }
        Self { left }
    }

    fn next(&mut self, size: usize) -> Option<usize> {
        let lines = &mut self.left[size];
        let (line, count) = lines.last_mut()?;
        let found = *line;
        *count -= 1;
        if *count == 0 {
            lines.pop();
        }
        Some(found)
    }
}
