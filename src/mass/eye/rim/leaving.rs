//! Where the wall of the eye leaves the block: the rim, and the places on it where its parts meet.

use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::numeric::roots::crossing_within;
use crate::solid::{Bulge, EyeSection, Head, Lugs, Piece, Plug, Section};
use std::f64::consts::FRAC_PI_2;

/// How many things tell the places apart at which the wall may leave the block.
const CONDITIONS: usize = 7;
/// Looks between which such a thing changes its sign once at most.
const LOOKS: u32 = 4;
/// Places are found to this share of where they are looked for: what lies between is wrong by its
/// square.
const NEAR: f64 = 1e-8;
/// Where a condition comes nearest to 0 is found to this share of where it is looked for.
const ROUGH: f64 = 1e-3;
/// How far from where it is expected the rim is looked for first, mm.
const GUESSES: [f64; 2] = [0.01, 0.5];
/// The rim is found to this, mm: one step of Newton's method leaves its square.
const FOUND: f64 = 1e-7;
/// What happens so near an end of an arc, as a share of it, happens at the end.
const END: f64 = 1e-9;

/// The upper half of block and eye, or the lower one turned over, so that height is up.
pub(super) struct Through<T> {
    pub(super) section: Section<T>,
    bulge: Bulge<T>,
    /// u where the block ends, in front and behind.
    ends: [T; 2],
    pub(super) eye: Plug<T>,
    /// 1 for the upper half, −1 for the lower.
    pub(super) up: f64,
    /// Heights of the joints of the wall.
    joints: Vec<T>,
    /// Height up to which the block has its sides: slices are whole.
    limit: f64,
}

/// A place on the wall of the eye: (x, y), how it changes along the outline and with the height.
pub(super) struct OnWall<T> {
    pub(super) at: [T; 2],
    pub(super) along: [T; 2],
    pub(super) up: [T; 2],
}

/// A place on the rim.
pub(super) struct OnRim<T> {
    pub(super) at: [T; 2],
    pub(super) height: T,
    /// Change of (x, y) and of the height along the rim, with the parameter of the outline.
    pub(super) along: [T; 3],
}

/// The block's cross-section at one x: half-width and height of its roof, and how they change.
pub(super) struct Roof<T> {
    pub(super) half_width: T,
    wider: T,
    pub(super) height: T,
    higher: T,
}

/// A quarter of a piece of the outline.
#[derive(Clone, Copy)]
pub(super) struct Arc {
    piece: Piece,
    /// Signs of x and y.
    pub(super) quarter: [f64; 2],
}

impl<T: Scalar> Through<T> {
    pub(super) fn new(head: &Head<T>, bulge: &Bulge<T>, up: f64) -> Self {
        Self {
            section: head.cheeks,
            bulge: *bulge,
            ends: [0, 1].map(|side| head.ends[side].block_end()),
            eye: head.eye,
            up,
            joints: head.eye.joints().iter().map(|z| *z * up).collect(),
            limit: head.cheek_limit().value(),
        }
    }

    /// The same without derivatives.
    pub(super) fn values(&self) -> Through<f64> {
        Through {
            section: self.section.values(),
            bulge: self.bulge.values(),
            ends: [0, 1].map(|side| self.ends[side].value()),
            eye: self.eye.values(),
            up: self.up,
            joints: self.joints.iter().map(|z| z.value()).collect(),
            limit: self.limit,
        }
    }

    pub(super) fn roof(&self, x: T) -> Roof<T> {
        let side = usize::from(x.value() < 0.0);
        let (u, end) = ([x, -x][side], self.ends[side]);
        let way = [1.0, -1.0][side];
        let station = self.bulge.at(&self.section, u, end);
        let (wider, higher) = self.bulge.growth(u, end);
        Roof {
            half_width: station.section.a,
            wider: wider * way,
            height: station.section.b + station.centre * self.up,
            higher: higher[usize::from(self.up < 0.0)] * way,
        }
    }

    /// The place on the wall at `height` on the line of `shape`.
    pub(super) fn wall(&self, shape: &Shape<T>, height: T) -> OnWall<T> {
        let z = height * self.up;
        let (level, growth) = (self.eye.at(z), self.eye.growth(z));
        let [cx, cy] = self.eye.centre(z);
        let [gx, gy] = self.eye.centre(T::constant(self.up));
        let [x, y] = shape.at(&level);
        let [rx, ry] = shape.at(&growth);
        OnWall {
            at: [cx + x, cy + y],
            along: shape.along(&level),
            up: [gx + rx * self.up, gy + ry * self.up],
        }
    }

    /// How far a place lies outside the surface by which the wall leaves the block there, in some
    /// measure, and how that changes along x, y and the height.
    fn gap(&self, [x, y]: [T; 2], height: T) -> (T, [T; 3]) {
        let (zero, one) = (T::constant(0.0), T::constant(1.0));
        let Roof {
            half_width,
            wider,
            height: top,
            higher,
        } = self.roof(x);
        let Section { c, d, w, .. } = self.section;
        let side = if y.value() < 0.0 { -one } else { one };
        let (beside, over) = (y * side - half_width, height - top);
        let at_corner = beside.value() > -c.value() && over.value() > -d.value();
        let further_up = over.value() > beside.value();
        let within = over.value() < 0.0 && beside.value() < 0.0;
        if !(at_corner && within) {
            let by_top = if at_corner || c.value() == 0.0 {
                further_up
            } else {
                beside.value() <= -c.value()
            };
            return if by_top {
                (over, [-higher, zero, one])
            } else {
                (beside, [-wider, side, zero])
            };
        }
        // α + β + 2w√(αβ) = 1, times √(αβ): its slopes would not end at either end.
        let (alpha, beta) = (-beside / c, -over / d);
        let root = (alpha * beta).sqrt();
        let gap = root * (-alpha - beta - w * root * 2.0 + 1.0);
        let across = (root + w * beta) / c;
        let upwards = (root + w * alpha) / d;
        let along = -across * wider - upwards * higher;
        (gap, [along, across * side, upwards])
    }

    /// The place on the line of `shape` where the wall leaves the block, near the height `found`.
    pub(super) fn rim(&self, shape: &Shape<T>, found: f64) -> OnRim<T> {
        let found = T::constant(found);
        let wall = self.wall(shape, found);
        let (gap, normal) = self.gap(wall.at, found);
        let height = found - gap / rate(normal, wall.up, 1.0).value();
        let wall = self.wall(shape, height);
        let (_, normal) = self.gap(wall.at, height);
        let climb = -rate(normal, wall.along, 0.0) / rate(normal, wall.up, 1.0);
        let [x, y] = wall.along;
        let [up_x, up_y] = wall.up;
        OnRim {
            at: wall.at,
            height,
            along: [x + up_x * climb, y + up_y * climb, climb],
        }
    }

    /// What changes its sign where the way in which the wall leaves the block does, and its slope
    /// along the rim: 0 and 1 at the roof's flat, its corner or the block's side, 2 within the lugs
    /// or beside them, 3 before the handle axis or behind it, from 4 on above a joint of the wall or
    /// below it.
    pub(super) fn condition(&self, rim: &OnRim<T>, which: usize) -> (T, T) {
        let ([x, y], height) = (rim.at, rim.height);
        let [dx, dy, climb] = rim.along;
        let never = (T::constant(1.0), T::constant(0.0));
        let Section { c, d, .. } = self.section;
        let sharp = c.value() == 0.0;
        let signed = |number: T, by: T| if number.value() < 0.0 { -by } else { by };
        match which {
            0 | 1 => {
                let roof = self.roof(x);
                let flat = roof.half_width - c;
                let over = (signed(y, y) - flat, signed(y, dy) - roof.wider * dx);
                let under = (roof.height - d - height, roof.higher * dx - climb);
                match which {
                    0 if sharp => (over.0 + under.0, over.1 + under.1),
                    // A roof has its ridge where a flat top has its two sides.
                    0 if flat.value() <= 0.0 => (y, dy),
                    0 => over,
                    _ if sharp => never,
                    _ => under,
                }
            }
            2 => match self.bulge.lugs {
                Some(lugs) => (signed(x, x) - lugs.half_length, signed(x, dx)),
                None => never,
            },
            3 => (x, dx),
            joint => match self.joints.get(joint - 4) {
                Some(joint) => (height - *joint, climb),
                None => never,
            },
        }
    }
}

/// How fast a surface with `normal` is left on a way that goes by (x, y) and `up`.
fn rate<T: Scalar>([nx, ny, nz]: [T; 3], [x, y]: [T; 2], up: f64) -> T {
    nx * x + ny * y + nz * up
}

/// A parameter, the rim's height there and how fast it climbs: where to look for it next.
#[derive(Clone, Copy)]
pub(super) struct Near {
    t: f64,
    height: f64,
    climb: f64,
}

impl Near {
    pub(super) fn new<T: Scalar>(t: f64, rim: &OnRim<T>) -> Self {
        Self {
            t,
            height: rim.height.value(),
            climb: rim.along[2].value(),
        }
    }

    /// The height that is expected at `t`.
    pub(super) fn at(&self, t: f64) -> f64 {
        self.height + self.climb * (t - self.t)
    }
}

/// A place on an arc where its parts meet.
pub(super) struct Break {
    pub(super) t: f64,
    /// The rim near it.
    pub(super) near: Near,
    /// What changes its sign there; nothing at the arc's own ends.
    pub(super) condition: Option<usize>,
}

/// An arc and where its parts meet.
pub(super) struct Walk {
    pub(super) arc: Arc,
    pub(super) breaks: Vec<Break>,
    /// The least height of the rim that was seen.
    pub(super) lowest: f64,
}

/// What is seen at one place of an arc: the rim, the conditions and their slopes.
struct Look {
    rim: Near,
    conditions: [(f64, f64); CONDITIONS],
}

impl Through<f64> {
    /// The arcs that have a length at some level.
    pub(super) fn arcs(&self) -> impl Iterator<Item = Arc> {
        let levels = [&self.eye.top, &self.eye.waist, &self.eye.bottom];
        let there = levels.map(|level| level.section());
        let quarters: &[[f64; 2]] = match self.eye.lean {
            Some(_) => &[[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]],
            None => &[[1.0, 1.0], [-1.0, 1.0]],
        };
        Piece::ALL
            .into_iter()
            .filter(move |piece| {
                there
                    .iter()
                    .any(|section| section.pieces().any(|p| p == *piece))
            })
            .flat_map(move |piece| quarters.iter().map(move |&quarter| Arc { piece, quarter }))
    }

    /// Height of the lugs over their half-length: the steeper, the more the rim bends.
    pub(super) fn steepness(&self) -> f64 {
        /// Lugs steeper than this have the points of this.
        const STEEPEST: f64 = 2.0;
        let steep = |lugs: &Lugs<f64>| lugs.top.max(lugs.bottom) / lugs.half_length;
        self.bulge.lugs.as_ref().map_or(0.0, steep).min(STEEPEST)
    }

    /// What is seen at `t` of an arc, where the rim is expected at the height `expected`.
    fn look(&self, arc: &Arc, t: f64, expected: f64) -> Look {
        let shape = Shape::new(arc, t);
        let rim = self.rim(&shape, self.exit(&shape, expected));
        Look {
            rim: Near::new(t, &rim),
            conditions: std::array::from_fn(|k| self.condition(&rim, k)),
        }
    }

    /// Looks along an arc for the places where its parts meet.
    pub(super) fn walk(&self, arc: Arc) -> Walk {
        let mut last = self.look(&arc, 0.0, self.limit);
        let end = |look: &Look| Break {
            t: look.rim.t,
            near: look.rim,
            condition: None,
        };
        let mut walk = Walk {
            lowest: last.rim.height,
            breaks: vec![end(&last)],
            arc,
        };
        for k in 1..=LOOKS {
            let t = f64::from(k) / f64::from(LOOKS);
            let look = self.look(&arc, t, last.rim.at(t));
            for k in 0..CONDITIONS {
                self.find(&mut walk, k, &last, &look);
            }
            walk.lowest = walk.lowest.min(look.rim.height);
            last = look;
        }
        walk.breaks.push(end(&last));
        sort_few(&mut walk.breaks, |place| place.t);
        walk
    }

    /// Finds where condition `k` changes its sign between two looks, once or there and back.
    fn find(&self, walk: &mut Walk, k: usize, from: &Look, to: &Look) {
        let (arc, near) = (walk.arc, from.rim);
        let at = |t: f64| self.look(&arc, t, near.at(t)).conditions[k];
        let ((value, slope), (end, end_slope)) = (from.conditions[k], to.conditions[k]);
        let (low, high) = (from.rim.t, to.rim.t);
        let mut find = |low: (f64, f64), high: (f64, f64)| {
            let found = crossing_within(NEAR, low, high, &|t| at(t).0);
            let within = |t: &f64| END < *t && *t < 1.0 - END;
            walk.breaks.extend(found.filter(within).map(|t| Break {
                t,
                near,
                condition: Some(k),
            }));
        };
        if (value > 0.0) != (end > 0.0) {
            find((low, value), (high, end));
        } else if value * slope < 0.0 && end * end_slope > 0.0 {
            // It comes nearer to 0 and leaves it again: between, it may have passed it.
            let turn = crossing_within(ROUGH, (low, slope), (high, end_slope), &|t| at(t).1);
            if let Some(t) = turn {
                let there = (t, at(t).0);
                find((low, value), there);
                find(there, (high, end));
            }
        }
    }

    /// The height at which the wall leaves the block on the line of `shape`, to about 1e-7 mm.
    pub(super) fn exit(&self, shape: &Shape<f64>, near: f64) -> f64 {
        let outside = |height: f64| self.outside(shape, height);
        let mouth = self.up * self.eye.mouths[usize::from(self.up > 0.0)];
        let ends = GUESSES.map(|by| [near - by, near + by]);
        let all = [0.5 * self.limit, mouth + 1.0];
        ends.into_iter()
            .chain([all])
            .find_map(|[low, high]| {
                let share = FOUND / (high - low);
                let [low, high] = [low, high].map(|height| (height, outside(height)));
                crossing_within(share, low, high, &outside)
            })
            .unwrap_or(self.limit)
    }

    /// How far the wall lies outside the block at `height`: upwards or across.
    fn outside(&self, shape: &Shape<f64>, height: f64) -> f64 {
        let [x, y] = self.wall(shape, height).at;
        let roof = self.roof(x);
        let section = Section {
            a: roof.half_width,
            b: roof.height,
            ..self.section
        };
        (height - half_height_at(&section, y)).max(y.abs() - section.a)
    }
}

/// Half-height at the distance `y` from the middle; beyond the sides that of the side's end.
fn half_height_at(section: &Section<f64>, y: f64) -> f64 {
    let turned = Section {
        a: section.b,
        b: section.a,
        c: section.d,
        d: section.c,
        w: section.w,
    };
    if y.abs() < section.a {
        turned.half_width_at(y)
    } else {
        section.b - section.d
    }
}

/// The outline's point at a parameter as shares of its sizes: x = (p − c)·x₀ + c·x₁ and
/// y = (q − d)·y₀ + d·y₁, with their slopes along it. A corner is run through by its angle.
pub(super) struct Shape<T> {
    x: [T; 2],
    y: [T; 2],
    along_x: [T; 2],
    along_y: [T; 2],
}

impl<T: Scalar> Shape<T> {
    pub(super) fn new(arc: &Arc, t: T) -> Self {
        let (zero, one) = (T::constant(0.0), T::constant(1.0));
        let [sx, sy] = arc.quarter;
        let (x, y, along_x, along_y) = match arc.piece {
            Piece::Side => ([one, one], [t, zero], [zero; 2], [one, zero]),
            Piece::Corner => {
                let (sin, cos) = (t * FRAC_PI_2).sin_cos();
                (
                    [one, cos],
                    [one, sin],
                    [zero, -sin * FRAC_PI_2],
                    [zero, cos * FRAC_PI_2],
                )
            }
            Piece::Top => ([-t + 1.0, zero], [one, one], [-one, zero], [zero; 2]),
        };
        Self {
            x: x.map(|share| share * sx),
            y: y.map(|share| share * sy),
            along_x: along_x.map(|share| share * sx),
            along_y: along_y.map(|share| share * sy),
        }
    }

    /// (x, y) of a level, or how they grow with the sizes of one.
    fn at(&self, level: &EyeSection<T>) -> [T; 2] {
        Self::of(level, self.x, self.y)
    }

    /// How (x, y) change with the parameter.
    fn along(&self, level: &EyeSection<T>) -> [T; 2] {
        Self::of(level, self.along_x, self.along_y)
    }

    fn of(level: &EyeSection<T>, x: [T; 2], y: [T; 2]) -> [T; 2] {
        let EyeSection { p, q, c, d } = *level;
        [(p - c) * x[0] + c * x[1], (q - d) * y[0] + d * y[1]]
    }
}
