//! What one step of one dimension does to the head, and what all of them leave open of its weight.

use super::gradient::{Moving, gradients};
use crate::design::{Design, DesignError, Dim};
use crate::numeric::order::sort_few;
use crate::units::{Angle, Length, Measure, Rule};

/// The step of a dimension that is an angle.
pub const ANGLE_STEP: Angle = Angle::degrees(1.0);

/// What one step of a dimension does, to first order: its derivative times the step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effect {
    /// The dimension.
    pub dim: Dim,
    /// The one of the back that is as it ([`Design::alike`]) and takes the step with it.
    pub follower: Option<Dim>,
    /// What it is.
    pub size: Measure,
    /// The step: a division of the rule, or [`ANGLE_STEP`].
    pub step: Measure,
    /// What the step adds to the finished mass, kg.
    pub mass: f64,
    /// How much of that the follower adds, kg.
    pub follower_mass: f64,
    /// What it adds to the balance, the centroid in front of the handle axis, mm.
    pub balance: f64,
    /// What it adds to the moment of inertia about the z axis, kg·mm².
    pub inertia_handle_axis: f64,
}

/// What one step of the rule does in every dimension of `design`, the greatest effect on mass
/// first.
///
/// A size that is left out because it follows another is no dimension of its own: what it does
/// is part of the effect of the one it follows. So is what a size of the back does that is as
/// that of the front: the two have one effect, under the name of the front's.
///
/// # Accuracy
/// Derivatives are exact but for the quadrature of [`crate::mass::Order::default`]. A whole step differs from
/// them by how the quantity curves: for a side of 30 mm and a step of 1 mm by a few percent.
///
/// # Errors
/// Why the design is not sound.
///
/// # Examples
/// ```
/// use headwright::design::starter;
/// use headwright::fit::effects;
/// use headwright::units::Rule;
///
/// let effects = effects(&starter("rounding").expect("a starter"), Rule::MILLIMETRE)?;
/// // A millimetre of the front's reach moves the balance to the front.
/// let reach = effects.iter().find(|effect| effect.dim.to_string() == "front.reach");
/// assert!(reach.is_some_and(|effect| effect.mass > 0.0 && effect.balance > 0.0));
/// # Ok::<(), Vec<headwright::design::DesignError>>(())
/// ```
pub fn effects(design: &Design, rule: Rule) -> Result<Vec<Effect>, Vec<DesignError>> {
    design.build()?;
    let sizes = design.sizes();
    let step = |size: Measure| match size {
        Measure::Length(_) => Measure::Length(rule.division()),
        Measure::Angle(_) => Measure::Angle(ANGLE_STEP),
    };
    let moving: Vec<Moving> = sizes
        .iter()
        .map(|(dim, size)| Moving {
            dim: *dim,
            follower: None,
            number: size.number(),
            step: step(*size).number(),
        })
        .collect();
    let values = gradients(design, &moving, |worked| {
        let (moments, per_mm3) = (worked.moments, worked.kg_per_mm3());
        vec![
            moments.volume * per_mm3,
            moments.x / moments.volume,
            (moments.xx + moments.yy) * per_mm3,
        ]
    });
    let alone = |quantity: usize, k: usize| {
        let value = values.get(quantity);
        value.map_or(0.0, |value| value.gradient[k])
    };
    let place = |dim: Dim| sizes.iter().position(|(other, _)| *other == dim);
    let leaders = sizes.iter().enumerate();
    let leaders = leaders.filter(|(_, (dim, _))| design.leader(*dim) == *dim);
    let mut effects: Vec<Effect> = leaders
        .map(|(k, (dim, size))| {
            let follower = design.follower(*dim);
            let after = follower.and_then(place);
            let of_follower = |quantity: usize| after.map_or(0.0, |after| alone(quantity, after));
            let of = |quantity: usize| alone(quantity, k) + of_follower(quantity);
            Effect {
                dim: *dim,
                follower,
                size: *size,
                step: step(*size),
                mass: of(0),
                follower_mass: of_follower(0),
                balance: of(1),
                inertia_handle_axis: of(2),
            }
        })
        .collect();
    sort_few(&mut effects, |effect| -effect.mass.abs());
    Ok(effects)
}

/// How far a forged dimension may lie from what is written, either way. Every value between is
/// as likely as any other, so that the standard deviation is the half-width over √3.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accuracy {
    /// Half-width for lengths.
    pub length: Length,
    /// Half-width for angles.
    pub angle: Angle,
}

impl Accuracy {
    /// Lengths within `length`, angles within [`ANGLE_STEP`].
    pub const fn within(length: Length) -> Self {
        Self {
            length,
            angle: ANGLE_STEP,
        }
    }
}

/// Standard deviation of the finished mass, kg, when every dimension of a head with these
/// `effects` is forged to `accuracy`, each independently of the others.
///
/// Computes √Σ (∂m/∂dᵢ · hᵢ)²/3 with hᵢ the half-width of dimension dᵢ. A height that follows
/// its width is off together with it: one section is worked to one measure. Front and back are
/// forged apart, so that two sizes that are alike on paper are off independently in the steel.
///
/// # Accuracy
/// First order in h. On the starters with h = 0.15 mm it agrees with a sample of 3000 forged heads
/// within the sample's own error, 1.3 %.
pub fn mass_spread(effects: &[Effect], accuracy: Accuracy) -> f64 {
    let squares = effects.iter().flat_map(|effect| {
        let half_width = match effect.step {
            Measure::Length(_) => accuracy.length.in_mm(),
            Measure::Angle(_) => accuracy.angle.in_degrees(),
        };
        let places = [effect.mass - effect.follower_mass, effect.follower_mass];
        places.map(|mass| {
            let off = mass / effect.step.number() * half_width;
            off * off / 3.0
        })
    });
    squares.sum::<f64>().sqrt()
}
