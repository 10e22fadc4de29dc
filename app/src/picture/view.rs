//! From millimetres on the head to places in the picture.

use headwright::mass::PIN_HEIGHT;

/// Height of the handle's broken end above the pin, mm.
pub const BREAK: f64 = 15.0;
/// How far the plumb line goes on below the head, mm.
pub const PLUMB: f64 = 22.0;
/// Distance of the eye from the plumb line, in half-widths of the picture: a long lens.
const DISTANCE: f64 = 9.0;
/// What the lens makes larger at most, and a little room.
const ROOM: f64 = 1.09;
/// Half of what the handle's broken end takes when it is looked at from above, mm.
const HANDLE: f64 = 18.0;
/// Nearest that one looks to straight from above or below, radians.
const STEEPEST: f64 = 1.48;

/// From where the head is looked at: the plumb line stays upright.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// From the side view, front to the right, towards the front face, radians.
    pub azimuth: f64,
    /// From level upwards, radians.
    pub pitch: f64,
}

impl Look {
    /// A little from the front and from above.
    pub const FIRST: Self = Self {
        azimuth: 0.62,
        pitch: 0.33,
    };

    /// Turned by two angles; the pitch stops before straight up and down.
    #[must_use]
    pub fn turned(self, azimuth: f64, pitch: f64) -> Self {
        Self {
            azimuth: (self.azimuth + azimuth).rem_euclid(std::f64::consts::TAU),
            pitch: (self.pitch + pitch).clamp(-STEEPEST, STEEPEST),
        }
    }
}

/// What has to fit into the picture, mm: the same for a head however it tips.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extent {
    /// Farthest reach from the handle axis.
    pub reach: f64,
    /// Half of the greatest height.
    pub half_height: f64,
}

/// A picture: who looks at what, in how many pixels.
#[derive(Clone, Copy, Debug)]
pub struct View {
    right: [f64; 3],
    up: [f64; 3],
    towards: [f64; 3],
    hang: f64,
    size: [f64; 2],
    /// Pixels to the mm at the plumb line.
    scale: f64,
    /// What is shown in the middle of the picture's height, in mm upwards.
    middle: f64,
    /// Distance of the eye, mm.
    distance: f64,
    depth: f64,
}

impl View {
    /// The view of a head tipped by `hang` radians, `size` pixels wide and high.
    pub fn new(look: Look, hang: f64, extent: Extent, size: [f64; 2]) -> Self {
        let ((sin_a, cos_a), (sin_p, cos_p)) = (look.azimuth.sin_cos(), look.pitch.sin_cos());
        // The corners of a broad face reach farther than its middle.
        let half = extent.reach.hypot(extent.half_height) * ROOM;
        let above = (PIN_HEIGHT + BREAK) * cos_p + HANDLE * sin_p.abs();
        let below = (extent.half_height + PLUMB) * cos_p;
        // Looked at from above the ends of the head reach higher than its handle.
        let turned = half * sin_p.abs() + extent.half_height * cos_p;
        let (above, below) = (above.max(turned) + 2.0, below.max(turned) + 2.0);
        Self {
            right: [cos_a, sin_a, 0.0],
            up: [-sin_p * sin_a, sin_p * cos_a, cos_p],
            towards: [sin_a * cos_p, -cos_a * cos_p, sin_p],
            hang,
            size,
            scale: (size[0] / (2.0 * half)).min(size[1] / (above + below)),
            middle: 0.5 * (above - below),
            distance: DISTANCE * half,
            depth: 3.0 * half,
        }
    }

    /// Rows of the turn from the axes of the head to right, up and towards the eye.
    pub fn turn(&self) -> [[f64; 3]; 3] {
        let (sin, cos) = self.hang.sin_cos();
        [self.right, self.up, self.towards].map(|[x, y, z]| {
            // The head is turned about the pin first: x' = x cos + z sin, z' = −x sin + z cos.
            [x * cos - z * sin, y, x * sin + z * cos]
        })
    }

    /// The matrix from points of the head, mm, to clip space; in columns.
    pub fn clip(&self) -> [f32; 16] {
        let [right, up, towards] = self.turn();
        let (sin, cos) = self.hang.sin_cos();
        // The pin stays: it is where it was before the turn.
        let moved = [-PIN_HEIGHT * sin, 0.0, PIN_HEIGHT * (1.0 - cos)];
        let along = |axis: [f64; 3]| axis[0] * moved[0] + axis[1] * moved[1] + axis[2] * moved[2];
        let (sx, sy) = (
            2.0 * self.scale / self.size[0],
            2.0 * self.scale / self.size[1],
        );
        let offset = [
            sx * along(self.right),
            sy * (along(self.up) - self.middle),
            -along(self.towards) / self.depth,
            1.0 - along(self.towards) / self.distance,
        ];
        let column = |k: usize| {
            [
                sx * right[k],
                sy * up[k],
                -towards[k] / self.depth,
                -towards[k] / self.distance,
            ]
        };
        let mut matrix = [0.0; 16];
        for (target, value) in matrix.iter_mut().zip(
            [column(0), column(1), column(2), offset]
                .into_iter()
                .flatten(),
        ) {
            *target = value as f32;
        }
        matrix
    }

    /// Place in the picture, pixels from its left and top, of a point of the plumb line at
    /// height `z`, mm.
    pub fn on_plumb_line(&self, z: f64) -> [f64; 2] {
        let near = 1.0 - self.towards[2] * z / self.distance;
        let y = self.scale * (self.up[2] * z - self.middle) / near;
        [0.5 * self.size[0], 0.5 * self.size[1] - y]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const EXTENT: Extent = Extent {
        reach: 60.0,
        half_height: 21.0,
    };

    /// Pixels from the left and the top.
    fn place(view: &View, point: [f64; 3]) -> [f64; 2] {
        let m = view.clip().map(f64::from);
        let row =
            |k: usize| m[k] * point[0] + m[4 + k] * point[1] + m[8 + k] * point[2] + m[12 + k];
        let (x, y, w) = (row(0), row(1), row(3));
        [
            0.5 * view.size[0] * (1.0 + x / w),
            0.5 * view.size[1] * (1.0 - y / w),
        ]
    }

    fn looks() -> impl Iterator<Item = Look> {
        (0..40).map(|k| {
            let k = f64::from(k);
            Look::FIRST.turned(0.7 * k, 0.31 * k - 5.0)
        })
    }

    #[test]
    fn the_plumb_line_goes_through_pin_and_balance_point_from_any_side() {
        let centroid: [f64; 3] = [3.0, 0.0, -1.5];
        let hang = centroid[0].atan2(PIN_HEIGHT - centroid[2]);
        let below = centroid[0].hypot(PIN_HEIGHT - centroid[2]);
        for look in looks() {
            let view = View::new(look, hang, EXTENT, [300.0, 220.0]);
            for (point, z) in [
                (centroid, PIN_HEIGHT - below),
                ([0.0, 0.0, PIN_HEIGHT], PIN_HEIGHT),
            ] {
                let (got, wanted) = (place(&view, point), view.on_plumb_line(z));
                assert!((got[0] - wanted[0]).abs() < 1e-3, "{look:?}");
                assert!((got[1] - wanted[1]).abs() < 1e-3, "{look:?}");
            }
        }
    }

    #[test]
    fn a_head_heavy_in_front_hangs_with_its_front_down() {
        let level = Look {
            azimuth: 0.0,
            pitch: 0.0,
        };
        let view = View::new(level, 0.1, EXTENT, [300.0, 220.0]);
        let [front, back] = [60.0, -60.0].map(|x| place(&view, [x, 0.0, 0.0]));
        assert!(front[0] > back[0], "the front is on the right");
        assert!(front[1] > back[1], "and lower");
    }

    #[test]
    fn the_whole_head_is_in_the_picture_from_any_side() {
        for look in looks() {
            for size in [[300.0, 220.0], [220.0, 300.0]] {
                let view = View::new(look, 0.05, EXTENT, size);
                for x in [-60.0, 60.0] {
                    for y in [-19.0, 19.0] {
                        for z in [-19.0, 19.0] {
                            let [left, top] = place(&view, [x, y, z]);
                            assert!(left > 0.0 && left < size[0], "{look:?} {left}");
                            assert!(top > 0.0 && top < size[1], "{look:?} {top}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn the_look_stops_before_straight_from_above() {
        let look = Look::FIRST.turned(0.0, 9.0);
        assert!(look.pitch < std::f64::consts::FRAC_PI_2);
        assert_eq!(look.turned(0.0, 9.0), look);
    }
}
