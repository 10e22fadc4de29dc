//! What is looked for on a pein in steps: its slices, its height, the hollow that it bears.

use super::Pein;
use crate::numeric::roots::bisected;

/// Halvings to below 1e-8 mm on any pein.
const HALVINGS: usize = 34;
/// Steps in which a slice is looked over for its extent.
const LOOKS: usize = 48;

impl Pein<f64> {
    /// Whether a point of the slice at `u` is steel, before the end drops.
    pub fn contains(&self, u: f64, y: f64, z: f64) -> bool {
        let [xi, eta] = self.along(y, z);
        let v = self.start + (u - self.start) / self.shortening(xi);
        let growth = self.growth(u);
        let [y, z] = [y, z].map(|size| (size / growth).abs());
        v <= self.reach
            && eta.abs() <= self.thickness(v)
            && z <= self.section.b
            && y <= self.section.half_width_at(z)
            && (self.break_at(v) == 0.0 || xi.abs() <= self.radius * growth - self.break_at(v))
    }

    /// From the axis to the outline of the slice at `u` in the direction (`cos`, `sin`) of (y, z).
    ///
    /// From its middle every point of the outline is seen. Nothing beyond the tip.
    pub fn slice_radius(&self, u: f64, cos: f64, sin: f64) -> f64 {
        let farthest = self.growth(u).max(1.0) * self.section.a.hypot(self.section.b);
        let inside = |r: f64| {
            if self.contains(u, r * cos, r * sin) {
                1.0
            } else {
                -1.0
            }
        };
        bisected(HALVINGS, 0.0, farthest, inside).unwrap_or(0.0)
    }

    /// Half of the height of the slice at `u`, looked for in even steps of direction.
    pub fn half_height_at(&self, u: f64) -> f64 {
        (0..LOOKS)
            .map(|k| {
                let (sin, cos) = (std::f64::consts::PI * k as f64 / LOOKS as f64).sin_cos();
                self.slice_radius(u, cos, sin) * sin
            })
            .fold(0.0, f64::max)
    }

    /// The deepest hollow that leaves half a thickness of `least` everywhere, mm, looked for at
    /// even steps along the slope.
    pub fn most_hollow(&self, least: f64) -> f64 {
        const STEPS: u32 = 512;
        let [_, there] = self.tangent;
        (1..STEPS)
            .map(|step| {
                let tau = f64::from(step) / f64::from(STEPS);
                let line = self.root + (there - self.root) * tau;
                (line - least) / (6.75 * tau * (1.0 - tau) * (1.0 - tau))
            })
            .fold(f64::INFINITY, f64::min)
            .max(0.0)
    }
}
