//! Numbers: the scalar the core is written over, integration rules and the fit's quadratic step.

mod dual;
pub mod least_distance;
pub mod order;
pub mod quadrature;
pub mod roots;
mod scalar;

pub use dual::Dual;
pub use scalar::Scalar;
