//! The point of a polyhedron nearest to a given one: the quadratic step of the fit.
//!
//! # Source
//! D. Goldfarb and A. Idnani, A numerically stable dual method for solving strictly convex
//! quadratic programs, Mathematical Programming 27 (1983) 1–33 (method from memory), with the
//! identity as Hessian. The dual method starts from the point itself, which is feasible or
//! nearly so on most frames, and its failure is a proof that no point exists.

use nalgebra::{DMatrix, DVector};

/// `normal` · x ≥ `least`, or = `least` when `exact`.
#[derive(Clone, Debug, PartialEq)]
pub struct Constraint {
    /// Coefficients.
    pub normal: DVector<f64>,
    /// Right-hand side.
    pub least: f64,
    /// Whether it is an equation.
    pub exact: bool,
}

/// The nearest point and what keeps it there.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// The point.
    pub point: DVector<f64>,
    /// Constraints in force, by index, with their multipliers: point − target = Σ u·normal.
    pub active: Vec<(usize, f64)>,
}

/// Why there is no nearest point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// This constraint contradicts the others.
    Contradiction(usize),
    /// Roundoff kept the method from ending; it must be treated as no answer.
    Stalled,
}

/// Relative size below which a constraint counts as met or a direction as used up.
const ROUNDOFF: f64 = 1e-11;

/// The point nearest to `target` that meets all `constraints`.
///
/// # Errors
/// [`Obstacle::Contradiction`] when no point meets them all.
pub fn nearest(target: &DVector<f64>, constraints: &[Constraint]) -> Result<Nearest, Obstacle> {
    let mut state = State {
        point: target.clone(),
        active: Vec::new(),
        multipliers: Vec::new(),
        // +1, or −1 for an equation entered from its other side.
        signs: Vec::new(),
    };
    // Each turn adds one constraint for good or fails; the drops in between are finite because
    // the dual objective only grows. The cap is a guard against roundoff.
    for _ in 0..20 * (constraints.len() + 1) {
        let Some((index, sign)) = state.most_violated(constraints) else {
            let active = state
                .active
                .iter()
                .zip(state.multipliers.iter().zip(&state.signs))
                .map(|(index, (multiplier, sign))| (*index, multiplier * sign))
                .collect();
            return Ok(Nearest {
                point: state.point,
                active,
            });
        };
        state.add(index, sign, constraints)?;
    }
    Err(Obstacle::Stalled)
}

struct State {
    point: DVector<f64>,
    active: Vec<usize>,
    multipliers: Vec<f64>,
    signs: Vec<f64>,
}

impl State {
    fn most_violated(&self, constraints: &[Constraint]) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut depth = ROUNDOFF;
        for (index, constraint) in constraints.iter().enumerate() {
            if self.active.contains(&index) {
                continue;
            }
            let excess = constraint.normal.dot(&self.point) - constraint.least;
            let scale =
                constraint.normal.norm() * (1.0 + self.point.norm()) + constraint.least.abs();
            let short = if constraint.exact {
                excess.abs()
            } else {
                -excess
            } / scale.max(1e-300);
            // Equations first: once in, they stay.
            let short = if constraint.exact && short > ROUNDOFF {
                short + 1e6
            } else {
                short
            };
            if short > depth {
                depth = short;
                let sign = if constraint.exact && excess > 0.0 {
                    -1.0
                } else {
                    1.0
                };
                worst = Some((index, sign));
            }
        }
        worst
    }

    /// Takes a violated constraint in, dropping others where their multipliers run out.
    fn add(&mut self, index: usize, sign: f64, constraints: &[Constraint]) -> Result<(), Obstacle> {
        let normal = &constraints[index].normal * sign;
        let least = constraints[index].least * sign;
        let mut own = 0.0;
        for _ in 0..=constraints.len() {
            let (direction, loads) = self.split(&normal, constraints);
            let (mut dual, mut dropped) = (f64::INFINITY, None);
            for (k, load) in loads.iter().enumerate() {
                let exact = constraints[self.active[k]].exact;
                if !exact && *load > 0.0 && self.multipliers[k] / load < dual {
                    dual = self.multipliers[k] / load;
                    dropped = Some(k);
                }
            }
            let gain = direction.dot(&normal);
            let free = gain > ROUNDOFF * normal.norm_squared();
            let full = if free {
                (least - normal.dot(&self.point)) / gain
            } else {
                f64::INFINITY
            };
            let step = dual.min(full);
            if !step.is_finite() {
                return Err(Obstacle::Contradiction(index));
            }
            if free {
                self.point += &direction * step;
            }
            for (multiplier, load) in self.multipliers.iter_mut().zip(loads.iter()) {
                *multiplier -= step * load;
            }
            own += step;
            if full <= dual {
                self.active.push(index);
                self.multipliers.push(own);
                self.signs.push(sign);
                return Ok(());
            }
            if let Some(k) = dropped {
                self.active.remove(k);
                self.multipliers.remove(k);
                self.signs.remove(k);
            }
        }
        Err(Obstacle::Stalled)
    }

    /// Splits `normal` into its part across the active normals and its loads along them.
    fn split(&self, normal: &DVector<f64>, constraints: &[Constraint]) -> (DVector<f64>, Vec<f64>) {
        let count = self.active.len();
        if count == 0 {
            return (normal.clone(), Vec::new());
        }
        let columns = DMatrix::from_fn(normal.len(), count, |row, k| {
            constraints[self.active[k]].normal[row] * self.signs[k]
        });
        let qr = columns.qr();
        let (q, r) = (qr.q(), qr.r());
        let along = q.tr_mul(normal);
        let direction = normal - &q * &along;
        match r.solve_upper_triangular(&along) {
            Some(loads) => (direction, loads.iter().copied().collect()),
            // Active normals are independent by construction; roundoff alone comes here, and
            // zero loads end in a refusal, not in a wrong answer.
            None => (DVector::zeros(normal.len()), vec![0.0; count]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn at_least(normal: &[f64], least: f64) -> Constraint {
        Constraint {
            normal: DVector::from_row_slice(normal),
            least,
            exact: false,
        }
    }

    fn exactly(normal: &[f64], least: f64) -> Constraint {
        Constraint {
            exact: true,
            ..at_least(normal, least)
        }
    }

    fn point(target: &[f64], constraints: &[Constraint]) -> Result<Vec<f64>, Obstacle> {
        nearest(&DVector::from_row_slice(target), constraints)
            .map(|nearest| nearest.point.iter().copied().collect())
    }

    #[test]
    fn a_point_that_meets_everything_stays() {
        assert_eq!(
            point(&[1.0, 2.0], &[at_least(&[1.0, 1.0], 2.0)]),
            Ok(vec![1.0, 2.0])
        );
    }

    #[test]
    fn an_equation_is_met_by_the_shortest_way_from_either_side() {
        for start in [[0.0, 0.0], [4.0, 4.0]] {
            let got = point(&start, &[exactly(&[1.0, 1.0], 2.0)]).expect("reachable");
            assert_relative_eq!(got[0], 1.0, max_relative = 1e-12);
            assert_relative_eq!(got[1], 1.0, max_relative = 1e-12);
        }
    }

    #[test]
    fn a_constraint_that_no_longer_binds_is_dropped() {
        // First the steep wall binds; on the way to the second, it lets go.
        let walls = [at_least(&[1.0, 0.1], 1.0), at_least(&[1.0, -0.1], 2.0)];
        let got = nearest(&DVector::from_row_slice(&[0.0, 0.0]), &walls).expect("reachable");
        assert_eq!(got.active.len(), 1);
        assert_eq!(got.active[0].0, 1);
        assert!(got.point[0] + 0.1 * got.point[1] >= 1.0);
    }

    #[test]
    fn contradictory_constraints_are_called_so() {
        let walls = [at_least(&[1.0, 0.0], 1.0), at_least(&[-1.0, 0.0], 0.0)];
        assert!(matches!(
            point(&[0.0, 0.0], &walls),
            Err(Obstacle::Contradiction(_))
        ));
    }

    #[test]
    fn the_multipliers_carry_the_point_from_the_target() {
        let target = DVector::from_row_slice(&[0.0, 0.0, 0.0]);
        let walls = [
            exactly(&[1.0, 2.0, -1.0], 4.0),
            at_least(&[0.0, -1.0, 0.0], -1.0),
            at_least(&[-1.0, 0.0, 0.0], -1.5),
        ];
        let got = nearest(&target, &walls).expect("reachable");
        let carried = got
            .active
            .iter()
            .fold(target, |sum, (index, u)| sum + &walls[*index].normal * *u);
        assert_relative_eq!(carried, got.point, epsilon = 1e-12);
        for (index, u) in &got.active {
            assert!(walls[*index].exact || *u >= 0.0);
        }
    }

    #[test]
    fn random_problems_meet_the_conditions_of_a_nearest_point() {
        let mut seed = 7u64;
        let mut random = move || {
            seed = seed
                .wrapping_mul(6364136223846793005)
                .wrapping_add(1442695040888963407);
            (seed >> 33) as f64 / (1u64 << 31) as f64 * 2.0 - 1.0
        };
        let mut solved = 0;
        for _ in 0..300 {
            let target = DVector::from_fn(6, |_, _| 3.0 * random());
            let walls: Vec<Constraint> = (0..12)
                .map(|k| Constraint {
                    normal: DVector::from_fn(6, |_, _| random()),
                    least: random(),
                    exact: k < 2,
                })
                .collect();
            let Ok(got) = nearest(&target, &walls) else {
                continue;
            };
            solved += 1;
            let mut rest = &got.point - &target;
            for (index, u) in &got.active {
                rest -= &walls[*index].normal * *u;
                assert!(walls[*index].exact || *u >= -1e-9);
            }
            assert!(rest.norm() < 1e-8, "stationary: {rest}");
            for wall in &walls {
                let excess = wall.normal.dot(&got.point) - wall.least;
                assert!(if wall.exact {
                    excess.abs() < 1e-8
                } else {
                    excess > -1e-8
                });
            }
        }
        assert!(solved > 100, "{solved} of 300 were reachable");
    }
}
