//! The answer against that of a general-purpose optimiser.

use std::cell::RefCell;

use headwright::design::{Design, Dim, bounds};
use headwright::fit::{Measurable, Outcome, Target, Worked, fit_to};
use headwright::numeric::{self, Scalar};
use headwright::solid::{Check, Head, checks};
use nalgebra::SVector;
use slsqp::{Func, StopTols, minimize};

use super::cases::{Case, free_sizes, reachable, with_sizes};
use super::common::plain_sound_designs;

/// How far the optimiser's answer may be off, mm or as a share of a scale.
const TOLERANCE: f64 = 1e-6;
/// Cases compared.
const CASES: u64 = 50;
/// More free sizes than a case has.
const WIDTH: usize = 12;
type Dual = numeric::Dual<WIDTH>;

/// A value with its slope per step of every free size.
type Value = (f64, SVector<f64, WIDTH>);

/// The free sizes of a design with their starts, limits and steps.
struct Space<'a> {
    design: &'a Design,
    targets: &'a [Target],
    free: Vec<(Dim, f64, f64)>,
    /// What must stay positive, at the start.
    margins: Vec<Check>,
    last: RefCell<Option<(Vec<f64>, Vec<Value>)>>,
}

impl<'a> Space<'a> {
    fn new(design: &'a Design, targets: &'a [Target]) -> Self {
        let mut margins = Vec::new();
        let head = Head::lift(design, &mut |_, number| number);
        checks(&head, &mut |check, _: f64| {
            if !margins.contains(&check) {
                margins.push(check);
            }
        });
        Self {
            design,
            targets,
            free: free_sizes(design),
            margins,
            last: RefCell::new(None),
        }
    }

    /// Low and high of every target as something that must not be positive, by its scale, then
    /// every margin.
    fn constraints(&self, point: &[f64]) -> Vec<Value> {
        if let Some((at, values)) = &*self.last.borrow()
            && at == point
        {
            return values.clone();
        }
        let worked = Worked::lift(self.design, &mut |dim, number| {
            let Some(k) = self.free.iter().position(|(free, ..)| *free == dim) else {
                return Dual::constant(number);
            };
            let step = bounds(dim).step;
            Dual::variable(point[k] * step, k, step)
        });
        let pair = |value: Dual| (value.value, SVector::from(value.slopes));
        let mut values = Vec::new();
        for target in self.targets {
            let scale = target.quantity.scale();
            let [low, high] = ends(target, scale);
            let mut pieces: Vec<Dual> = Vec::new();
            target
                .quantity
                .measure(&worked, &mut |piece| pieces.push(piece));
            let least = pieces.iter().min_by(|a, b| a.value.total_cmp(&b.value));
            let least = *least.expect("every quantity has a value");
            if high.is_finite() {
                values.push(pair((least - high) * (1.0 / scale)));
            }
            if low.is_finite() {
                let reached = pieces
                    .into_iter()
                    .map(|piece| (-piece + low) * (1.0 / scale));
                values.extend(reached.map(pair));
            }
        }
        // The least of those with one name; a check that does not apply is kept.
        let mut margins = vec![(1.0, SVector::zeros()); self.margins.len()];
        let mut seen = vec![false; self.margins.len()];
        checks(&worked.head, &mut |check, margin: Dual| {
            let Some(k) = self.margins.iter().position(|known| *known == check) else {
                return;
            };
            if !seen[k] || margin.value < margins[k].0 {
                margins[k] = pair(margin);
                seen[k] = true;
            }
        });
        let kept = margins.into_iter();
        values.extend(kept.map(|(margin, slope)| (CLEARANCE - margin, -slope)));
        *self.last.borrow_mut() = Some((point.to_vec(), values.clone()));
        values
    }
}

/// How far inside a range the fit stays for the sake of writing, as a share of a quantity's scale,
/// and how far from a margin, mm: the optimiser is held to the same.
const INSET: f64 = 1e-4;
const CLEARANCE: f64 = 1e-5;

/// What the optimiser is held to: the aim, or the range.
fn ends(target: &Target, scale: f64) -> [f64; 2] {
    let inset = (INSET * scale).min(0.25 * (target.high - target.low));
    let aim = target.aim.map(|aim| [aim, aim]);
    aim.unwrap_or([target.low + inset, target.high - inset])
}

/// Half the squared distance of the optimiser's answer, in steps, from the start; nothing when it
/// found none that meets all.
fn by_slsqp(space: &Space<'_>) -> Option<f64> {
    let in_steps = |dim: &Dim, number: f64| number / bounds(*dim).step;
    let start: Vec<f64> = space
        .free
        .iter()
        .map(|(dim, ..)| in_steps(dim, space.design.size(*dim).expect("free").number()))
        .collect();
    let limits: Vec<(f64, f64)> = space
        .free
        .iter()
        .map(|(dim, low, high)| (in_steps(dim, *low), in_steps(dim, *high)))
        .collect();
    let distance = |point: &[f64], gradient: Option<&mut [f64]>, _: &mut ()| {
        let apart: Vec<f64> = point.iter().zip(&start).map(|(a, b)| a - b).collect();
        if let Some(gradient) = gradient {
            gradient.copy_from_slice(&apart);
        }
        0.5 * apart.iter().map(|a| a * a).sum::<f64>()
    };
    let count = space.constraints(&start).len();
    let one = |k: usize| {
        move |point: &[f64], gradient: Option<&mut [f64]>, _: &mut ()| {
            let (value, slope) = space.constraints(point)[k];
            if let Some(gradient) = gradient {
                for (entry, part) in gradient.iter_mut().zip(slope.iter()) {
                    *entry = *part;
                }
            }
            value
        }
    };
    let constraints: Vec<_> = (0..count).map(one).collect();
    let constraints: Vec<&dyn Func<()>> = constraints.iter().map(|one| one as _).collect();
    let stop = StopTols {
        ftol_rel: 1e-12,
        xtol_rel: 1e-12,
        ..StopTols::default()
    };
    let ended = minimize(distance, &start, &limits, &constraints, (), 500, Some(stop));
    let point = match ended {
        Ok((_, point, _)) | Err((_, point, _)) => point,
    };
    // A corner as large as may be has no margin at the start: the head itself must be sound.
    let numbers = space.free.iter().zip(&point);
    let numbers = numbers.map(|((dim, ..), at)| (*dim, at * bounds(*dim).step));
    let sound = with_sizes(space.design, numbers).build().is_ok();
    let values = space.constraints(&point);
    let kept = sound && values.iter().all(|(value, _)| *value <= TOLERANCE);
    kept.then(|| distance(&point, None, &mut ()))
}

#[test]
fn no_answer_is_farther_than_that_of_slsqp() {
    let (mut compared, mut seed) = (0, 0);
    while compared < CASES {
        let Case {
            design, targets, ..
        } = reachable(seed, plain_sound_designs());
        seed += 1;
        let Some(theirs) = by_slsqp(&Space::new(&design, &targets)) else {
            continue;
        };
        compared += 1;
        let fitted = fit_to(&design, &targets).expect("sound");
        assert_eq!(fitted.outcome, Outcome::Met, "{seed}");
        let apart = |(dim, old): &(Dim, headwright::units::Measure)| {
            let new = fitted.design.size(*dim).expect("the same sizes");
            (new.number() - old.number()) / bounds(*dim).step
        };
        let ours: f64 = design
            .sizes()
            .iter()
            .map(|size| 0.5 * apart(size).powi(2))
            .sum();
        assert!(
            ours <= theirs * (1.0 + 1e-4) + 1e-4,
            "{seed}: ours {ours}, theirs {theirs}"
        );
    }
    println!("{compared} of {seed} were met by slsqp");
}
