//! Numbers: the scalar the core is written over, integration rules, the fit's quadratic step and Student's t.

mod dual;
pub mod least_distance;
pub mod order;
pub mod quadrature;
pub mod roots;
mod scalar;
pub mod student;

pub use dual::Dual;
pub use scalar::Scalar;
