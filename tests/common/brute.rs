//! Parts of a head added up in columns straight from their definition: slow, and nothing of the
//! quadrature is in it but the surfaces themselves.

use headwright::mass::{Moments, Order, moments};
use headwright::solid::{Ball, EyeSection, Head, Pein, Section, Tip};

/// ∫dV, ∫x dV, ∫x² dV, ∫y² dV, ∫z² dV, ∫xy dV, ∫yz dV, ∫zx dV; mm³ to mm⁵.
pub type Sums = [f64; 8];

fn sums(of: &Moments<f64>) -> Sums {
    [of.volume, of.x, of.xx, of.yy, of.zz, of.xy, of.yz, of.zx]
}

fn difference(a: &Head<f64>, b: &Head<f64>, order: Order) -> Sums {
    let (a, b) = (sums(&moments(a, order)), sums(&moments(b, order)));
    std::array::from_fn(|k| a[k] - b[k])
}

/// What the quadrature says that the eye takes out.
pub fn weighed_eye(head: &Head<f64>, order: Order) -> Sums {
    const PIN: f64 = 1e-6;
    let mut whole = head.clone();
    let pin = EyeSection {
        p: PIN,
        q: PIN,
        c: PIN,
        d: PIN,
    };
    whole.eye.top = pin;
    whole.eye.waist = pin;
    whole.eye.bottom = pin;
    whole.eye.mouth_break = None;
    difference(&whole, head, order)
}

/// What the quadrature says of the tip of end `end`, about the head's axes.
pub fn weighed_tip(head: &Head<f64>, end: usize, order: Order) -> Sums {
    let mut without = head.clone();
    without.ends[end].tip = Tip::Ball(Ball {
        radius: 1e-6,
        neck: 5e-7,
        reach: 0.0,
    });
    difference(head, &without, order)
}

/// The eye's part of the block in columns along y, in `steps` along the head and as many in height.
pub fn eye(head: &Head<f64>, steps: u32) -> Sums {
    let plug = &head.eye;
    let [low, high] = plug.mouths;
    let (b, flat) = (head.cheeks.b, head.cheeks.b - head.cheeks.d);
    let mut sum = [0.0; 8];
    // A flat top lies between two columns, or the sum would jump there.
    let levels = [low, -b, -flat, flat, b, high];
    let heights = levels.windows(2).flat_map(|pair| {
        let dz = (pair[1] - pair[0]) / f64::from(steps);
        (0..steps).map(move |k| (pair[0] + dz * (f64::from(k) + 0.5), dz))
    });
    for (z, dz) in heights {
        let (level, [cx, cy]) = (plug.at(z), plug.centre(z));
        let dx = 2.0 * level.p / f64::from(steps);
        for j in 0..steps {
            let along = -level.p + dx * (f64::from(j) + 0.5);
            let x = cx + along;
            let station = head.block_at(x);
            let height = z - station.centre;
            if height.abs() > station.section.b {
                continue;
            }
            let (half, side) = (
                level.half_width_at(along),
                station.section.half_width_at(height),
            );
            let (from, to) = ((cy - half).max(-side), (cy + half).min(side));
            if to > from {
                add(&mut sum, dx * dz, x, z, [from, to]);
            }
        }
    }
    sum
}

/// A column at (x, z) from y = `from` to `to` on `area`.
fn add(sum: &mut Sums, area: f64, x: f64, z: f64, [from, to]: [f64; 2]) {
    let power = |k: i32| (to.powi(k) - from.powi(k)) / f64::from(k) * area;
    let [one, y, yy] = [1, 2, 3].map(power);
    let terms = [
        one,
        x * one,
        x * x * one,
        yy,
        z * z * one,
        x * y,
        y * z,
        z * x * one,
    ];
    for (sum, term) in sum.iter_mut().zip(terms) {
        *sum += term;
    }
}

/// A pein in columns along η, in `steps` along the head and as many along the edge; `way` is 1
/// in front and −1 behind, `fall` the height of the end's axis at u.
pub fn pein(pein: &Pein<f64>, steps: u32, way: f64, fall: impl Fn(f64) -> f64) -> Sums {
    let boundary = Boundary::new(pein);
    let du = pein.length() / f64::from(steps);
    let [cos, sin] = pein.direction;
    let mut sum = [0.0; 8];
    for k in 0..steps {
        let u = pein.start + du * (f64::from(k) + 0.5);
        let growth = pein.growth(u);
        let most = boundary.most * growth;
        let (x, dz) = (way * u, fall(u));
        let dxi = 2.0 * most / f64::from(steps);
        for j in 0..steps {
            let xi = -most + dxi * (f64::from(j) + 0.5);
            let v = pein.start + (u - pein.start) / pein.shortening(xi);
            if v > pein.reach {
                continue;
            }
            let taken = pein.break_at(v);
            if taken > 0.0 && xi.abs() > pein.radius * growth - taken {
                continue;
            }
            let half = pein.thickness(v);
            let to = (growth * boundary.at(xi / growth)).min(half);
            let from = (-growth * boundary.at(-xi / growth)).max(-half);
            if to <= from {
                continue;
            }
            let power = |k: i32| (to.powi(k) - from.powi(k)) / f64::from(k) * dxi * du;
            let [one, eta, square] = [1, 2, 3].map(power);
            // y = ξ cos − η sin, z = ξ sin + η cos, before the axis falls.
            let y = xi * cos * one - sin * eta;
            let z = xi * sin * one + cos * eta;
            let yy = xi * xi * cos * cos * one - 2.0 * xi * cos * sin * eta + sin * sin * square;
            let zz = xi * xi * sin * sin * one + 2.0 * xi * cos * sin * eta + cos * cos * square;
            let yz =
                xi * xi * cos * sin * one + xi * (cos * cos - sin * sin) * eta - cos * sin * square;
            let terms = [
                one,
                x * one,
                x * x * one,
                yy,
                zz + 2.0 * dz * z + dz * dz * one,
                x * y,
                yz + dz * y,
                x * (z + dz * one),
            ];
            for (sum, term) in sum.iter_mut().zip(terms) {
                *sum += term;
            }
        }
    }
    sum
}

/// The greatest η of the station's outline over ξ, from a polygon of many corners.
struct Boundary {
    /// (ξ, η), ξ rising.
    points: Vec<[f64; 2]>,
    most: f64,
}

impl Boundary {
    fn new(pein: &Pein<f64>) -> Self {
        const POINTS: u32 = 2000;
        let mut corners = Vec::new();
        let section: &Section<f64> = &pein.section;
        for (sy, sz) in [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)] {
            for piece in section.pieces() {
                for k in 0..=POINTS {
                    let (y, z, ..) = section.along(piece, f64::from(k) / f64::from(POINTS));
                    corners.push(pein.along(sy * y, sz * z));
                }
            }
        }
        corners.sort_by(|a, b| a[0].total_cmp(&b[0]));
        // The upper half of the convex hull.
        let mut points: Vec<[f64; 2]> = Vec::new();
        for corner in corners {
            while points.len() > 1 {
                let ([ax, ay], [bx, by]) = (points[points.len() - 2], points[points.len() - 1]);
                if (bx - ax) * (corner[1] - ay) - (by - ay) * (corner[0] - ax) < 0.0 {
                    break;
                }
                points.pop();
            }
            points.push(corner);
        }
        let most = points.last().map_or(0.0, |point| point[0]);
        Self { points, most }
    }

    fn at(&self, xi: f64) -> f64 {
        let after = self.points.partition_point(|point| point[0] < xi);
        let after = after.clamp(1, self.points.len() - 1);
        let ([ax, ay], [bx, by]) = (self.points[after - 1], self.points[after]);
        if bx - ax <= 0.0 {
            return ay.max(by);
        }
        ay + (by - ay) * ((xi - ax) / (bx - ax)).clamp(0.0, 1.0)
    }
}
