//! Rigid bodies: put together, about any line, and struck while nothing holds them.

use nalgebra::{Matrix3, SymmetricEigen, Vector3};

use super::error::{MASS_KG, PLACE_MM, SwingError};
use crate::mass::{MassProperties, mass_properties};
use crate::solid::Solid;

/// Millimetres in a metre: a turning speed from kg·mm² and mm is a thousandfold in rad/s.
const MM_PER_M: f64 = 1000.0;
/// How far moments of inertia may miss what a body can have, as a share of the greatest: a body read from a file keeps
/// fewer digits than it was computed with.
const INERTIA_SLACK: f64 = 1e-6;
/// The least principal moment that can be divided by, as a share of the greatest.
const THINNEST: f64 = 1e-9;

/// A rigid body in the axes of the crate page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Centroid, mm.
    pub centroid_mm: [f64; 3],
    /// Inertia tensor about the centroid, kg·mm²; off the diagonal −∫xy dm.
    pub inertia_kg_mm2: [[f64; 3]; 3],
}

pub(super) fn vector(of: [f64; 3]) -> Vector3<f64> {
    Vector3::from(of)
}

fn matrix(of: [[f64; 3]; 3]) -> Matrix3<f64> {
    Matrix3::from_fn(|i, j| of[i][j])
}

/// m(|r|² δᵢⱼ − rᵢrⱼ): what a mass at `r` adds to the moments about the origin.
fn of_point(mass: f64, r: Vector3<f64>) -> Matrix3<f64> {
    (Matrix3::identity() * r.norm_squared() - r * r.transpose()) * mass
}

impl From<&MassProperties> for Body {
    fn from(head: &MassProperties) -> Self {
        Self {
            mass_kg: head.mass,
            centroid_mm: head.centroid,
            inertia_kg_mm2: head.inertia_centroid,
        }
    }
}

impl Body {
    /// The head, weighed by [`mass_properties`].
    pub fn of_head(solid: &Solid) -> Self {
        Self::from(&mass_properties(solid))
    }

    /// All of `bodies` as one, joined without play; a body of no mass where there are none.
    ///
    /// By the parallel axis theorem: with r from the common centroid to that of each,
    /// I = Σ (Iₖ + mₖ(|rₖ|² δᵢⱼ − rₖᵢrₖⱼ)).
    #[must_use]
    pub fn joined(bodies: &[Self]) -> Self {
        let mass: f64 = bodies.iter().map(|body| body.mass_kg).sum();
        let first = bodies
            .iter()
            .map(|body| vector(body.centroid_mm) * body.mass_kg);
        let centroid = first.sum::<Vector3<f64>>() / if mass > 0.0 { mass } else { 1.0 };
        let about_it = |body: &Self| {
            let from_it = vector(body.centroid_mm) - centroid;
            matrix(body.inertia_kg_mm2) + of_point(body.mass_kg, from_it)
        };
        let inertia: Matrix3<f64> = bodies.iter().map(about_it).sum();
        Self {
            mass_kg: mass,
            centroid_mm: centroid.into(),
            inertia_kg_mm2: rows(&inertia),
        }
    }

    /// Inertia tensor about `point`, kg·mm².
    pub fn inertia_about_point(&self, point: [f64; 3]) -> [[f64; 3]; 3] {
        let from_it = vector(self.centroid_mm) - vector(point);
        rows(&(matrix(self.inertia_kg_mm2) + of_point(self.mass_kg, from_it)))
    }

    /// Moment of inertia about the line through `point` along `direction`, which need not be of unit length, kg·mm²:
    /// n·I n with the tensor I about `point`.
    pub fn inertia_about_line(&self, point: [f64; 3], direction: [f64; 3]) -> f64 {
        let along = vector(direction).normalize();
        along.dot(&(matrix(self.inertia_about_point(point)) * along))
    }

    /// What keeps this from being a body; `of` names it in the sentences.
    pub(super) fn check(&self, of: &'static str) -> Vec<SwingError> {
        let mut errors = Vec::new();
        if !MASS_KG.admits(self.mass_kg) {
            errors.push(SwingError::Mass {
                of,
                kg: self.mass_kg,
            });
        }
        errors.extend(check_place(of, self.centroid_mm));
        if !self.inertia_is_possible() {
            errors.push(SwingError::Inertia { of });
        }
        errors
    }

    /// Whether the tensor is symmetric, no principal moment is negative and none is greater than the other two
    /// together: ∫(y² + z²) ≤ ∫(z² + x²) + ∫(x² + y²).
    fn inertia_is_possible(&self) -> bool {
        let tensor = matrix(self.inertia_kg_mm2);
        if !tensor.iter().all(|entry| entry.is_finite()) {
            return false;
        }
        let principal = SymmetricEigen::new(tensor).eigenvalues;
        let slack = INERTIA_SLACK * principal.amax();
        (tensor - tensor.transpose()).amax() <= slack
            && principal.min() >= -slack
            && 2.0 * principal.max() <= principal.sum() + slack
    }
}

/// What keeps `point` from being a place of a tool.
pub(super) fn check_place(of: &'static str, point: [f64; 3]) -> Option<SwingError> {
    let wrong = |mm: &f64| !PLACE_MM.admits(*mm);
    let mm = point.into_iter().find(wrong)?;
    Some(SwingError::Place { of, mm })
}

fn rows(matrix: &Matrix3<f64>) -> [[f64; 3]; 3] {
    std::array::from_fn(|i| std::array::from_fn(|j| matrix[(i, j)]))
}

/// A body that nothing holds, as in the short time of a blow.
///
/// A blow is over in about a thousandth of a second (from memory); what a hand can give in that time is small against
/// the blow, so the body moves as if it were free: the impulse J at r from the centroid changes the centroid's
/// velocity by J/m and the turning speed by I⁻¹(r × J).
///
/// # Source
/// Impulse and momentum of a rigid body, as in any text of mechanics (from memory); the same formula for the effective
/// mass was read in a public thread on the impact of rotating bodies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FreeBody {
    body: Body,
    /// The inverse of its inertia, 1/(kg·mm²).
    inverse: Matrix3<f64>,
}

/// What an impulse changes of a free body's motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Struck {
    /// Velocity of the centroid, m/s.
    pub velocity_m_per_s: [f64; 3],
    /// Turning speed, rad/s, right-handed about the axes.
    pub turning_rad_per_s: [f64; 3],
}

impl FreeBody {
    /// `body` let go; `of` names it in the sentences, as "head".
    ///
    /// # Errors
    /// Everything by which it is no body, or that it is as thin as a line, so that it has no inertia about it.
    pub fn new(body: &Body, of: &'static str) -> Result<Self, Vec<SwingError>> {
        let errors = body.check(of);
        if !errors.is_empty() {
            return Err(errors);
        }
        let tensor = matrix(body.inertia_kg_mm2);
        let principal = SymmetricEigen::new(tensor).eigenvalues;
        let thick = principal.min() > THINNEST * principal.max();
        let inverse = tensor.try_inverse().filter(|_| thick);
        let inverse = inverse.ok_or_else(|| vec![SwingError::Inertia { of }])?;
        Ok(Self {
            body: *body,
            inverse,
        })
    }

    /// The body.
    pub fn body(&self) -> &Body {
        &self.body
    }

    /// From rest, struck at `point` (mm) with `impulse_ns` (N·s).
    pub fn struck(&self, point: [f64; 3], impulse_ns: [f64; 3]) -> Struck {
        let impulse = vector(impulse_ns);
        let from_centroid = vector(point) - vector(self.body.centroid_mm);
        let turning = self.inverse * from_centroid.cross(&impulse) * MM_PER_M;
        Struck {
            velocity_m_per_s: (impulse / self.body.mass_kg).into(),
            turning_rad_per_s: turning.into(),
        }
    }

    /// The velocity that `struck` has given the body's `point`, m/s.
    pub fn velocity_at(&self, struck: &Struck, point: [f64; 3]) -> [f64; 3] {
        let from_centroid = (vector(point) - vector(self.body.centroid_mm)) / MM_PER_M;
        let turned = vector(struck.turning_rad_per_s).cross(&from_centroid);
        (vector(struck.velocity_m_per_s) + turned).into()
    }

    /// The mass of a particle that would take a blow at `point` along `direction` (of any length) as this body does, kg:
    /// 1/(1/m + (r × n)·I⁻¹(r × n)). Never above the mass; equal to it for a blow in line with the centroid.
    pub fn effective_mass_kg(&self, point: [f64; 3], direction: [f64; 3]) -> f64 {
        let along = vector(direction).normalize();
        let lever = (vector(point) - vector(self.body.centroid_mm)).cross(&along);
        (self.body.mass_kg.recip() + lever.dot(&(self.inverse * lever))).recip()
    }
}
