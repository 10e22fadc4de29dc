//! What a fit is asked for: quantities and what each is to be.

use crate::design::{Design, Dim, Hold, Quantity, Side};
use crate::handle::{Handle, Tool};
use crate::mass::{MassProperties, Moments, Order, moments};
use crate::numeric::Scalar;
use crate::solid::{Head, Solid};
use crate::units::Amount;

/// A design with what was worked out of it once for all quantities.
pub struct Worked<T> {
    /// The head, possibly not sound.
    pub head: Head<T>,
    /// Its volume integrals.
    pub moments: Moments<T>,
    /// Every size, mm or degrees.
    sizes: Vec<(Dim, T)>,
    /// The handle.
    handle: Handle,
}

impl<T: Scalar> Worked<T> {
    /// Works `design` out; `scalar` gives the number to use for every size, as for [`Head::lift`].
    pub fn lift(design: &Design, scalar: &mut dyn FnMut(Dim, f64) -> T) -> Self {
        let mut sizes = Vec::with_capacity(48);
        let head = Head::lift(design, &mut |dim, number| {
            let size = scalar(dim, number);
            sizes.push((dim, size));
            size
        });
        Self {
            moments: moments(&head, Order::default()),
            head,
            sizes,
            handle: design.handle.clone(),
        }
    }

    /// A size, mm or degrees; nothing for one that the design does not have.
    pub fn size(&self, dim: Dim) -> Option<T> {
        let mut sizes = self.sizes.iter();
        sizes.find_map(|(other, size)| (*other == dim).then_some(*size))
    }

    /// Head and handle together.
    pub fn tool(&self) -> Tool<T> {
        Tool::new(&self.head, &self.moments, &self.handle)
    }

    /// kg per mm³ of the steel.
    pub fn kg_per_mm3(&self) -> f64 {
        self.head.density * 1e-9
    }
}

/// A quantity that a fit can hold.
///
/// The fit knows none by itself: the head's own are [`Quantity`], and what is made with a head
/// brings further ones.
pub trait Measurable: Copy + PartialEq {
    /// How far off a value may be when nobody has said.
    fn tolerance(self) -> f64;

    /// What counts as equally far off when not every target can be met.
    fn scale(self) -> f64;

    /// Gives `found` the quantity on a head, or several values of which the quantity is the least.
    ///
    /// Every value must be smooth in the sizes of the head, so that a fit can go by its
    /// derivatives: a least wall is to be given as all walls that may be it. On one head always
    /// as many are given, whatever the scalar.
    fn measure<T: Scalar>(self, worked: &Worked<T>, found: &mut dyn FnMut(T));
}

impl Measurable for Quantity {
    fn tolerance(self) -> f64 {
        self.default_tolerance()
    }

    /// A percent of a common hammer's weight and inertia, half a millimetre of balance, a percent
    /// of a ratio.
    fn scale(self) -> f64 {
        match self {
            Quantity::Mass | Quantity::ReachRatio | Quantity::ToolMass => 0.01,
            Quantity::Balance | Quantity::Length | Quantity::LeastWall => 0.5,
            Quantity::ToolBalance => 2.0,
            Quantity::Inertia => 20.0,
            Quantity::GripInertia => 1000.0,
        }
    }

    fn measure<T: Scalar>(self, worked: &Worked<T>, found: &mut dyn FnMut(T)) {
        let Worked { head, moments, .. } = worked;
        let reach = |side: Side| head.end(side).tip.reach();
        match self {
            Quantity::Mass => found(moments.volume * worked.kg_per_mm3()),
            Quantity::Balance => found(moments.x / moments.volume),
            Quantity::Inertia => found((moments.xx + moments.yy) * worked.kg_per_mm3()),
            Quantity::ReachRatio => found(reach(Side::Front) / reach(Side::Back)),
            Quantity::Length => found(reach(Side::Front) + reach(Side::Back)),
            Quantity::LeastWall => {
                for wall in head.walls() {
                    found(wall.thickness);
                }
            }
            Quantity::ToolMass => found(worked.tool().mass),
            Quantity::ToolBalance => found(worked.tool().balance),
            Quantity::GripInertia => found(worked.tool().inertia_grip),
        }
    }
}

impl Quantity {
    /// The quantity on a head that was weighed already, hung on `handle`.
    pub fn of(self, solid: &Solid, weighed: &MassProperties, handle: &Handle) -> f64 {
        let head = solid.head();
        let tool = || Tool::new(head, &moments(head, Order::default()), handle);
        let reach = |side: Side| head.end(side).tip.reach();
        match self {
            Quantity::Mass => weighed.mass,
            Quantity::Balance => weighed.balance(),
            Quantity::Inertia => weighed.inertia_handle_axis,
            Quantity::ReachRatio => reach(Side::Front) / reach(Side::Back),
            Quantity::Length => reach(Side::Front) + reach(Side::Back),
            // Every head has walls beside its eye.
            Quantity::LeastWall => head.least_wall().map_or(0.0, |wall| wall.thickness),
            Quantity::ToolMass => tool().mass,
            Quantity::ToolBalance => tool().balance,
            Quantity::GripInertia => tool().inertia_grip,
        }
    }
}

/// What a quantity is to be: anything from `low` to `high`, in kg, mm, kg·mm² or as a ratio; with
/// an `aim`, just that, and the range is what still counts as met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target<Q = Quantity> {
    /// The quantity.
    pub quantity: Q,
    /// The least that counts as met; −∞ when there is none.
    pub low: f64,
    /// The most that counts as met; ∞ when there is none.
    pub high: f64,
    /// The value itself, when no tolerance was given.
    pub aim: Option<f64>,
}

impl<Q: Measurable> Target<Q> {
    /// Just `value`, to the usual tolerance.
    pub fn just(quantity: Q, value: f64) -> Self {
        let off = quantity.tolerance();
        Self {
            quantity,
            low: value - off,
            high: value + off,
            aim: Some(value),
        }
    }

    /// A hold as a target.
    pub fn new(quantity: Q, hold: Hold<Amount>) -> Self {
        let hold = hold.map(Amount::number);
        let (low, high) = hold.ends(quantity.tolerance());
        let aim = match hold {
            Hold::About {
                value,
                tolerance: None,
            } => Some(value),
            _ => None,
        };
        Self {
            quantity,
            low,
            high,
            aim,
        }
    }
}

impl<Q> Target<Q> {
    /// How far `value` lies outside: negative below, positive above, 0 when met.
    pub fn miss(&self, value: f64) -> f64 {
        (value - self.high).max(0.0) + (value - self.low).min(0.0)
    }

    /// How far `value` lies from what is wanted: from the aim, or outside the range without one.
    pub fn off(&self, value: f64) -> f64 {
        self.aim.map_or_else(|| self.miss(value), |aim| value - aim)
    }
}

/// A target and what became of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual<Q = Quantity> {
    /// The target.
    pub target: Target<Q>,
    /// What the design gives, in the quantity's unit.
    pub value: f64,
    /// How far that lies outside the target; 0 when met.
    pub miss: f64,
}

impl<Q> Residual<Q> {
    /// How far the value lies from what is wanted, whatever still counts as met: from the aim, or
    /// outside the range.
    pub fn left_over(&self) -> f64 {
        self.target.off(self.value)
    }
}
