//! The wood of whole handles against sums over small columns, which know the definition and no closed form.

use approx::assert_relative_eq;
use headwright::design::{EyeOutline, Wall};
use headwright::handle::{CrossWedge, Handle, Kerf, Shoulder, Species, Wedge, Wood, body};
use headwright::mass::Moments;
use headwright::solid::{EyeSection, Solid};
use headwright::units::{Angle, Length};

use super::{design, entries, mm, plain};

/// Columns per section, slices per part.
const FINE: u32 = 400;

/// Middles of `FINE` equal parts from `from` to `to`, with their length.
fn middles(from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
    let step = (to - from) / f64::from(FINE);
    (0..FINE).map(move |k| (from + step * (f64::from(k) + 0.5), step))
}

/// What is summed: mass times 1, x, y, z and their products.
struct Sum(Moments<f64>);

impl Sum {
    /// A box of `size` about `middle`, of mass `kg`, along the axes.
    fn add_box(&mut self, kg: f64, [x, y, z]: [f64; 3], [a, b, c]: [f64; 3]) {
        let sum = &mut self.0;
        sum.volume += kg;
        sum.x += kg * x;
        sum.y += kg * y;
        sum.z += kg * z;
        sum.xx += kg * (x * x + a * a / 12.0);
        sum.yy += kg * (y * y + b * b / 12.0);
        sum.zz += kg * (z * z + c * c / 12.0);
        sum.xy += kg * x * y;
        sum.yz += kg * y * z;
        sum.zx += kg * z * x;
    }
}

struct Case {
    solid: Solid,
    handle: Handle,
}

impl Case {
    /// The smallest of the eye's levels, which in these cases is the waist.
    fn wood_at(&self, z: f64) -> EyeSection<f64> {
        let eye = self.solid.head().eye;
        let below = z < eye.waist_height;
        if below && self.handle.shoulder == Shoulder::FillsMouth {
            eye.at(z)
        } else {
            eye.waist
        }
    }

    fn weigh(&self) -> Moments<f64> {
        let mut sum = Sum(Moments::zero());
        self.eye(&mut sum);
        self.stem(&mut sum);
        sum.0
    }

    fn eye(&self, sum: &mut Sum) {
        let eye = self.solid.head().eye;
        let [low, high] = eye.mouths;
        let end = high + self.handle.proud.in_mm();
        let wood = density(&self.handle.wood, self.handle.moisture_percent);
        let kerf = self.handle.kerf.expect("a kerf");
        let half_kerf = 0.5 * kerf.width.in_mm();
        let wedge = self.handle.wedge.as_ref().expect("a wedge");
        let deep = wedge.length.in_mm();
        let proud = self.handle.proud.in_mm();
        let thick = wedge.thick.map_or_else(
            || {
                let need = 2.0 * (eye.top.q - eye.waist.q + half_kerf) + wedge.crush.in_mm();
                need / (1.0 - proud / deep)
            },
            Length::in_mm,
        );
        let at = |z: f64, thick: f64, deep: f64| (thick * (1.0 - (end - z) / deep)).max(0.0);
        let cross = self.handle.cross_wedge;
        for (z, dz) in middles(low, end) {
            let [x, y] = eye.centre(z);
            let (section, hole) = (self.wood_at(z), eye.at(z.min(high)));
            let open = (0.5 * at(z, thick, deep) - half_kerf).max(0.0);
            let aside = open.min(hole.q - section.q);
            let parted = cross.map_or(0.0, |cross| {
                let open = 0.5 * at(z, cross.thick.in_mm(), cross.length.in_mm());
                open.min(hole.p - section.p)
            });
            let from = if z > end - kerf.depth.in_mm() {
                half_kerf
            } else {
                0.0
            };
            for (v, dv) in middles(from, section.q) {
                let half = section.half_length_at(v);
                for side in [1.0, -1.0] {
                    for end in [1.0, -1.0] {
                        let middle = [x + end * (0.5 * half + parted), y + side * (v + aside), z];
                        sum.add_box(wood * half * dv * dz, middle, [half, dv, dz]);
                    }
                }
            }
        }
        let blade = density(&wedge.wood, self.handle.moisture_percent);
        let broad = 2.0 * eye.waist.half_length_at(half_kerf);
        for (z, dz) in middles(end - deep, end) {
            let [x, y] = eye.centre(z);
            let t = at(z, thick, deep);
            sum.add_box(blade * t * broad * dz, [x, y, z], [broad, t, dz]);
        }
        if let Some(cross) = cross {
            let (deep, broad) = (cross.length.in_mm(), cross.width.in_mm());
            for (z, dz) in middles(end - deep, end) {
                let [x, y] = eye.centre(z);
                let t = at(z, cross.thick.in_mm(), deep);
                sum.add_box(7850e-9 * t * broad * dz, [x, y, z], [t, broad, dz]);
            }
        }
    }

    /// Slices square to the axis, each an ellipse of points.
    fn stem(&self, sum: &mut Sum) {
        let eye = self.solid.head().eye;
        let lean = eye.lean.map_or([0.0; 2], |lean| [lean.along, lean.across]);
        let long = (lean[0] * lean[0] + lean[1] * lean[1] + 1.0).sqrt();
        let axis = [lean[0] / long, lean[1] / long, 1.0 / long];
        // The part of x that is square to the axis, and what is square to both.
        let depth = [
            1.0 - axis[0] * axis[0],
            -axis[0] * axis[1],
            -axis[0] * axis[2],
        ];
        let size = depth.iter().map(|part| part * part).sum::<f64>().sqrt();
        let depth = depth.map(|part| part / size);
        let width = [
            axis[1] * depth[2] - axis[2] * depth[1],
            axis[2] * depth[0] - axis[0] * depth[2],
            axis[0] * depth[1] - axis[1] * depth[0],
        ];
        let wood = density(&self.handle.wood, self.handle.moisture_percent);
        let [low, high] = eye.mouths;
        let end = (high + self.handle.proud.in_mm()) * long;
        let butt = end - self.handle.length.in_mm();
        for (s, ds) in middles(butt, low * long) {
            let [a, b] = self.oval_at(s - butt);
            // Points at half the radius squared stand for the whole: ∫u² = ab·π·a²/4 by four points at a/√2.
            let kg = 0.25 * std::f64::consts::PI * a * b * ds * wood;
            for (u, v) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
                let root = std::f64::consts::FRAC_1_SQRT_2;
                let point = [0, 1, 2]
                    .map(|k| axis[k] * s + depth[k] * u * a * root + width[k] * v * b * root);
                sum.add_box(kg, point, [0.0; 3]);
            }
        }
    }

    /// Half-sizes.
    fn oval_at(&self, s: f64) -> [f64; 2] {
        let stations = &self.handle.stations;
        let after = stations
            .iter()
            .position(|station| station.at.in_mm() > s)
            .unwrap_or(stations.len());
        let (from, to) = (after.max(1) - 1, after.min(stations.len() - 1));
        let share = if from == to {
            0.0
        } else {
            let span = stations[to].at.in_mm() - stations[from].at.in_mm();
            (s - stations[from].at.in_mm()) / span
        };
        let mix =
            |from: Length, to: Length| 0.5 * (from.in_mm() + (to.in_mm() - from.in_mm()) * share);
        [
            mix(stations[from].depth, stations[to].depth),
            mix(stations[from].width, stations[to].width),
        ]
    }
}

fn density(wood: &Wood, moisture: f64) -> f64 {
    wood.specific_gravity() * (1.0 + moisture / 100.0) * 1e-6
}

/// Heads whose waist is their narrowest level, lopsided and cocked, with handles that have everything.
fn cases() -> Vec<Case> {
    let mut cases = Vec::new();
    for (outline, wall, along, across) in [
        (EyeOutline::Obround, Wall::Straight, 0.0, 0.0),
        (EyeOutline::Obround, Wall::Arc, 3.0, -2.0),
        (EyeOutline::Ellipse, Wall::Straight, -4.0, 1.0),
        (EyeOutline::Ellipse, Wall::Arc, 0.0, 2.5),
    ] {
        for shoulder in [Shoulder::FillsMouth, Shoulder::None] {
            let sizes = [
                ("cheeks.height", 44.0),
                ("cheeks.length", 52.0),
                ("cheeks.width", 50.0),
                ("eye.top.length", 32.0),
                ("eye.top.width", 22.0),
                ("eye.bottom.length", 31.0),
                ("eye.bottom.width", 23.0),
                ("eye.waist.length", 28.0),
                ("eye.waist.width", 19.0),
                ("eye.waist_height", 5.0),
                ("front.neck1.at", 34.0),
                ("back.neck1.at", 34.0),
                ("front.reach", 70.0),
                ("back.reach", 70.0),
            ];
            let mut design = design("rounding", &sizes);
            design.eye.outline = outline;
            design.eye.wall = wall;
            design.eye.cock_along = Some(Angle::degrees(along));
            design.eye.cock_across = Some(Angle::degrees(across));
            let solid = design.build().expect("a sound head");
            let stations = [
                (10.0, 42.0, 32.0),
                (40.0, 38.0, 27.0),
                (120.0, 36.0, 28.0),
                (260.0, 30.0, 22.0),
            ];
            let handle = Handle {
                shoulder,
                moisture_percent: 9.0,
                proud: mm(3.0),
                kerf: Some(Kerf {
                    depth: mm(36.0),
                    width: mm(2.5),
                }),
                wedge: Some(Wedge {
                    wood: Wood::Species(Species::WhiteOak),
                    length: mm(32.0),
                    thick: None,
                    crush: mm(0.7),
                }),
                cross_wedge: Some(CrossWedge {
                    length: mm(20.0),
                    thick: mm(4.0),
                    width: mm(15.0),
                }),
                ..plain(350.0, &stations)
            };
            cases.push(Case { solid, handle });
        }
    }
    cases
}

#[test]
fn whole_handles_agree_with_sums_over_columns() {
    for case in cases() {
        let got = body(case.solid.head(), &case.handle);
        let expected = case.weigh();
        // Mass times 100 mm is what a first moment may be off by a share of, times its square a second one.
        let scales = [1.0, 100.0, 100.0, 100.0, 1e4, 1e4, 1e4, 1e4, 1e4, 1e4];
        let pairs = entries(&got).into_iter().zip(entries(&expected));
        for ((got, expected), scale) in pairs.zip(scales) {
            assert_relative_eq!(
                got,
                expected,
                epsilon = 2e-5 * scale * expected_mass(&case),
                max_relative = 2e-5
            );
        }
    }
}

fn expected_mass(case: &Case) -> f64 {
    case.weigh().volume
}
