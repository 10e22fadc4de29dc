//! Volume integrals of a closed mesh.

use super::TriMesh;
use crate::mass::Moments;

/// A sum that carries along what roundoff takes from it.
///
/// # Source
/// A. Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, ZAMM 54
/// (1974), 39–51.
#[derive(Clone, Copy, Default)]
struct Sum {
    sum: f64,
    rest: f64,
}

impl Sum {
    fn add(&mut self, value: f64) {
        let next = self.sum + value;
        self.rest += if self.sum.abs() >= value.abs() {
            (self.sum - next) + value
        } else {
            (value - next) + self.sum
        };
        self.sum = next;
    }

    fn value(self) -> f64 {
        self.sum + self.rest
    }
}

impl TriMesh {
    /// Normal of a triangle, as long as its area is large: ½ (b − a) × (c − a), mm².
    pub(super) fn area_vector(&self, triangle: [u32; 3]) -> [f64; 3] {
        let [a, b, c] = self.corners(triangle);
        let (u, v) = (minus(b, a), minus(c, a));
        cross(u, v).map(|component| 0.5 * component)
    }

    /// Enclosed volume, mm³; positive when the triangles face outwards.
    pub fn volume(&self) -> f64 {
        let mut volume = Sum::default();
        for triangle in &self.triangles {
            volume.add(self.tetrahedron(*triangle));
        }
        volume.value()
    }

    /// Area of all triangles, mm².
    pub fn area(&self) -> f64 {
        let mut area = Sum::default();
        for triangle in &self.triangles {
            let [x, y, z] = self.area_vector(*triangle);
            area.add((x * x + y * y + z * z).sqrt());
        }
        area.value()
    }

    /// Volume integrals up to second order about the origin.
    ///
    /// By the divergence theorem the body is the sum, with signs, of the tetrahedra from the
    /// origin to every triangle. Of a tetrahedron with corners 0, a, b, c and volume V,
    /// ∫r dV = V/4 · Σr and ∫rᵢrⱼ dV = V/20 · (Σrᵢ Σrⱼ + Σ rᵢrⱼ), summed over the corners.
    ///
    /// # Accuracy
    /// Exact for the mesh up to roundoff; the sums are compensated.
    pub fn moments(&self) -> Moments<f64> {
        let mut sums = [Sum::default(); 10];
        for triangle in &self.triangles {
            let corners = self.corners(*triangle);
            let volume = self.tetrahedron(*triangle);
            let total = [0, 1, 2].map(|i| corners.iter().map(|corner| corner[i]).sum::<f64>());
            let second = |i: usize, j: usize| {
                let own: f64 = corners.iter().map(|corner| corner[i] * corner[j]).sum();
                volume / 20.0 * (total[i] * total[j] + own)
            };
            let terms = [
                volume,
                volume / 4.0 * total[0],
                volume / 4.0 * total[1],
                volume / 4.0 * total[2],
                second(0, 0),
                second(1, 1),
                second(2, 2),
                second(0, 1),
                second(1, 2),
                second(2, 0),
            ];
            for (sum, term) in sums.iter_mut().zip(terms) {
                sum.add(term);
            }
        }
        let [volume, x, y, z, xx, yy, zz, xy, yz, zx] = sums.map(Sum::value);
        Moments {
            volume,
            x,
            y,
            z,
            xx,
            yy,
            zz,
            xy,
            yz,
            zx,
        }
    }

    /// Signed volume of the tetrahedron from the origin to a triangle: a · (b × c) / 6.
    fn tetrahedron(&self, triangle: [u32; 3]) -> f64 {
        let [a, b, c] = self.corners(triangle);
        let [x, y, z] = cross(b, c);
        (a[0] * x + a[1] * y + a[2] * z) / 6.0
    }
}

pub(super) fn minus(p: [f64; 3], q: [f64; 3]) -> [f64; 3] {
    [p[0] - q[0], p[1] - q[1], p[2] - q[2]]
}

pub(super) fn cross(u: [f64; 3], v: [f64; 3]) -> [f64; 3] {
    [
        u[1] * v[2] - u[2] * v[1],
        u[2] * v[0] - u[0] * v[2],
        u[0] * v[1] - u[1] * v[0],
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mesh::Patch;
    use approx::assert_relative_eq;

    /// A wedge of steel off the origin: a tetrahedron with right angles at (x, y, z) and legs
    /// 3, 4, 5 along the axes.
    fn wedge([x, y, z]: [f64; 3]) -> TriMesh {
        TriMesh {
            positions: vec![[x, y, z], [x + 3.0, y, z], [x, y + 4.0, z], [x, y, z + 5.0]],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            patches: vec![Patch::Cheek; 4],
        }
    }

    #[test]
    fn a_tetrahedron_has_its_closed_forms_wherever_it_lies() {
        for at in [[0.0; 3], [7.0, -2.0, 11.0]] {
            let moments = wedge(at).moments();
            assert_relative_eq!(moments.volume, 10.0, max_relative = 1e-13);
            let centroid = moments.centroid();
            for (got, (from, leg)) in centroid.iter().zip(at.iter().zip([3.0, 4.0, 5.0])) {
                assert_relative_eq!(*got, from + leg / 4.0, max_relative = 1e-12);
            }
            // About the centroid ∫x² = 3/80 · V · leg², ∫xy = −V/80 · leg · leg.
            let inertia = moments.inertia_about(centroid);
            assert_relative_eq!(
                inertia[0][0],
                10.0 * 3.0 / 80.0 * (16.0 + 25.0),
                max_relative = 1e-11
            );
            assert_relative_eq!(inertia[0][1], 10.0 / 80.0 * 12.0, max_relative = 1e-11);
            assert_relative_eq!(inertia[1][2], 10.0 / 80.0 * 20.0, max_relative = 1e-11);
        }
    }

    #[test]
    fn a_sum_keeps_what_roundoff_would_take() {
        let mut sum = Sum::default();
        for value in [1.0, 1e100, 1.0, -1e100] {
            sum.add(value);
        }
        assert_eq!(sum.value(), 2.0);
    }

    #[test]
    fn the_area_is_that_of_the_four_sides() {
        let legs: f64 = 6.0 + 7.5 + 10.0;
        let slanted = (36.0f64 + 56.25 + 100.0).sqrt();
        assert_relative_eq!(
            wedge([1.0, 2.0, 3.0]).area(),
            legs + slanted,
            max_relative = 1e-13
        );
    }
}
