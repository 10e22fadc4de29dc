//! Where the sizes of the design are anchored, in every view that can show them.

use super::dimension::{Form, Lane};
use super::profile::{is_askew, is_lopsided, middle, sign};
use super::{Point, View};
use crate::design::{Corner, Design, Dim, Edge, EyeOutline, Part, Side, Size, Tip};
use crate::solid::{self, Head, Section};

/// From the block's end to the line of a lug's height, mm.
const BESIDE: f64 = 4.0;

/// The head and the design that it was built from.
pub(super) struct Anchors<'a> {
    pub head: &'a Head<f64>,
    pub design: &'a Design,
}

impl Anchors<'_> {
    /// What stands before and after the number of `dim`.
    pub fn signs(&self, dim: Dim) -> (&'static str, &'static str) {
        const TIMES_45: &str = " × 45°";
        match dim.size {
            Size::Width if self.is_round(dim.part) => ("Ø ", ""),
            Size::Length
                if dim.part != Part::Cheeks && self.design.eye.outline == EyeOutline::Round =>
            {
                ("Ø ", "")
            }
            Size::Corner => match self.design.outline(dim.part).map(|outline| outline.corner) {
                Some(Corner::Chamfer { .. }) => ("", TIMES_45),
                _ => ("R ", ""),
            },
            Size::Radius | Size::Crown | Size::Nose | Size::Rocker | Size::CornerBreak => {
                ("R ", "")
            }
            Size::MouthBreak => ("", TIMES_45),
            Size::CockAlong | Size::CockAcross | Size::Drop | Size::Direction => ("", "°"),
            Size::Edge if matches!(dim.part, Part::Pein(_)) => ("", ""),
            Size::Diameter | Size::Neck => ("Ø ", ""),
            Size::Edge => {
                let side = match dim.part {
                    Part::Face(side) => side,
                    _ => Side::Front,
                };
                match &self.design.end(side).tip {
                    Tip::Face(face) if matches!(face.edge, Edge::Chamfered(_)) => ("", TIMES_45),
                    _ => ("R ", ""),
                }
            }
            _ => ("", ""),
        }
    }

    fn is_round(&self, part: Part) -> bool {
        self.design
            .outline(part)
            .is_some_and(|outline| outline.height.is_none() && outline.corner == Corner::Round)
    }

    fn is_tied(&self, part: Part) -> bool {
        self.design
            .outline(part)
            .is_some_and(|outline| outline.height.is_none())
    }

    pub fn forms(&self, dim: Dim) -> Vec<(View, Form)> {
        let mut forms = self.level_forms(dim);
        let lopsided = is_lopsided(self.head);
        for (view, form) in &mut forms {
            // A whole plan has room for both arrows.
            if let (true, Form::Half { to: [x, y], lane }) = (lopsided, *form) {
                *form = upright([[x, -y], [x, y]], lane);
            }
            match form {
                Form::Level { between, .. } | Form::Upright { between, .. } => between
                    .iter_mut()
                    .for_each(|point| self.settle(dim.part, *view, point)),
                Form::Half { to, .. } => self.settle(dim.part, *view, to),
                Form::Leader { tip, .. } => self.settle(dim.part, *view, tip),
                Form::Balance { .. } => {}
            }
        }
        forms
    }

    /// Takes a point of a level head with an upright eye to where a fall or a lean takes it.
    fn settle(&self, part: Part, view: View, point: &mut Point) {
        let plug = &self.head.eye;
        let z = match part {
            Part::EyeTop => plug.mouths[1],
            Part::EyeBottom => plug.mouths[0],
            Part::EyeWaist => plug.waist_height,
            Part::Eye => point[1],
            Part::Neck(side, _)
            | Part::End(side)
            | Part::Face(side)
            | Part::Ball(side)
            | Part::Pein(side) => {
                let tail = self.head.end(side);
                match view {
                    // What is measured from the handle axis begins on it.
                    View::Side if point[0] != 0.0 => point[1] += middle(tail, point[0].abs()),
                    View::Face => point[1] += middle(tail, tail.tip.reach()),
                    View::Side | View::Plan => {}
                }
                return;
            }
            Part::Cheeks | Part::Lugs => return,
        };
        let [x, y] = plug.centre(z);
        match view {
            View::Side => point[0] += x,
            View::Face => point[0] += y,
            View::Plan => *point = [point[0] + x, point[1] + y],
        }
    }

    fn level_forms(&self, dim: Dim) -> Vec<(View, Form)> {
        match dim.part {
            Part::Cheeks => self.cheeks(dim.size),
            Part::Eye => self.whole_eye(dim.size),
            Part::EyeTop | Part::EyeWaist | Part::EyeBottom => self.eye(dim),
            Part::Neck(side, index) => self.neck(side, usize::from(index), dim.size),
            Part::End(side) => self.end(side, dim.size),
            Part::Face(side) => self.face(side, dim.size),
            Part::Ball(side) => self.ball(side, dim.size),
            Part::Pein(side) => self.pein(side, dim.size),
            Part::Lugs => self.lugs(dim.size),
        }
    }

    fn lugs(&self, size: Size) -> Vec<(View, Form)> {
        let Some(solid::Lugs {
            half_length, top, ..
        }) = self.head.bulge().and_then(|bulge| bulge.lugs)
        else {
            return Vec::new();
        };
        let b = self.head.cheeks.b;
        let [low, high] = self.head.eye.mouths;
        let front = self.head.end(Side::Front).block_end();
        let back = -self.head.end(Side::Back).block_end();
        let form = match size {
            Size::Top => upright([[front, b], [0.0, high]], Lane::Inside(front + BESIDE)),
            Size::Bottom => upright([[back, low], [0.0, -b]], Lane::Inside(back - BESIDE)),
            _ if top > 0.0 => level([[-half_length, b], [half_length, b]], Lane::Inner),
            _ => level([[-half_length, -b], [half_length, -b]], Lane::Outer),
        };
        vec![(View::Side, form)]
    }

    fn cheeks(&self, size: Size) -> Vec<(View, Form)> {
        let Section { a, b, c, d, .. } = self.head.cheeks;
        let front = self.head.end(Side::Front).block_end();
        let back = -self.head.end(Side::Back).block_end();
        match size {
            Size::Length => vec![
                (View::Plan, level([[back, a], [front, a]], Lane::Outer)),
                (View::Side, level([[back, b], [front, b]], Lane::Inner)),
            ],
            Size::Width => vec![
                (View::Face, level([[-a, -b + d], [a, -b + d]], Lane::Outer)),
                (
                    View::Plan,
                    half([back, a], Lane::Inside(back + (front - back) * 0.08)),
                ),
            ],
            Size::Height => vec![
                (View::Side, upright([[back, -b], [back, b]], Lane::Left)),
                (View::Side, upright([[front, -b], [front, b]], Lane::Right)),
                (View::Face, upright([[a - c, -b], [a - c, b]], Lane::Right)),
            ],
            Size::Offset => {
                let middle = (front + back) / 2.0;
                vec![(View::Side, level([[middle, -b], [0.0, -b]], Lane::Outer))]
            }
            Size::Swell => {
                let full = self.head.block_at(0.0).section.a;
                vec![(
                    View::Plan,
                    upright([[0.0, a], [0.0, full]], Lane::Inside(front / 2.0)),
                )]
            }
            // Where a swell or lugs have ended.
            _ if self.head.bulge().is_some() => {
                self.corner(self.head.cheeks, [front, front], size, true)
            }
            _ => self.corner(self.head.cheeks, [front, back], size, true),
        }
    }

    /// A corner of a section: in the face view, where it shows there, else at its edge in the
    /// side view, somewhere `along` the head.
    fn corner(
        &self,
        section: Section<f64>,
        along: [f64; 2],
        size: Size,
        in_face: bool,
    ) -> Vec<(View, Form)> {
        let Section { a, b, c, d, w } = section;
        let x = along[0] + (along[1] - along[0]) * 0.12;
        // The conic's own middle.
        let share = 0.25 / (0.5 + 0.5 * w);
        let mut forms = Vec::new();
        if in_face {
            forms.push((
                View::Face,
                Form::Leader {
                    tip: [a - c * share, b - d * share],
                    normal: [1.0, 1.0],
                },
            ));
        }
        if size == Size::CornerAcross {
            forms.push((View::Plan, leader([x, a - c], [0.0, 1.0])));
        }
        forms.push((View::Side, leader([x, b - d], [0.3, 1.0])));
        forms
    }

    fn whole_eye(&self, size: Size) -> Vec<(View, Form)> {
        let plug = &self.head.eye;
        let high = plug.mouths[1];
        match size {
            Size::CockAlong => vec![(View::Side, leader([0.0, 0.7 * high], [1.0, 0.6]))],
            Size::CockAcross => vec![(View::Face, leader([0.0, 0.7 * high], [1.0, 0.6]))],
            Size::MouthBreak => {
                let z = high - 0.5 * plug.mouth_break.unwrap_or(0.0);
                vec![(View::Side, leader([plug.at(z).p, z], [1.0, 1.0]))]
            }
            _ => vec![(
                View::Side,
                leader([plug.waist.p, plug.waist_height], [1.0, -0.4]),
            )],
        }
    }

    fn eye(&self, dim: Dim) -> Vec<(View, Form)> {
        let plug = &self.head.eye;
        let (level_of, z) = match dim.part {
            Part::EyeTop => (plug.top, plug.mouths[1]),
            Part::EyeWaist => (plug.waist, plug.waist_height),
            _ => (plug.bottom, plug.mouths[0]),
        };
        let (p, q) = (level_of.p, level_of.q);
        let across = |z: f64| [[-q, z], [q, z]];
        let along = |z: f64| [[-p, z], [p, z]];
        match (dim.size, dim.part) {
            (Size::Length, Part::EyeTop) => vec![
                (View::Plan, level(along(0.0), Lane::Outer)),
                (View::Side, level(along(z), Lane::Inner)),
            ],
            (Size::Length, Part::EyeWaist) => vec![(
                View::Side,
                level(along(z), Lane::Inside(0.5 * plug.mouths[0])),
            )],
            (Size::Length, _) => vec![(View::Side, level(along(z), Lane::Outer))],
            (Size::Width, Part::EyeTop) => vec![
                (View::Plan, half([0.0, q], Lane::Inside(0.35 * p))),
                (View::Face, level(across(z), Lane::Inner)),
            ],
            (Size::Width, Part::EyeWaist) => vec![
                (View::Plan, half([0.0, q], Lane::Inside(-0.35 * p))),
                (
                    View::Face,
                    level(across(z), Lane::Inside(0.4 * plug.mouths[0])),
                ),
            ],
            (Size::Width, _) => vec![
                (View::Face, level(across(z), Lane::Outer)),
                (View::Plan, half([0.0, q], Lane::Inside(0.0))),
            ],
            _ => {
                let way = if dim.part == Part::EyeWaist {
                    -1.0
                } else {
                    1.0
                };
                let inset = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
                let tip = [way * (p - level_of.c * inset), q - level_of.d * inset];
                vec![(View::Plan, leader(tip, [way, 1.0]))]
            }
        }
    }

    fn neck(&self, side: Side, index: usize, size: Size) -> Vec<(View, Form)> {
        let tail = self.head.end(side);
        let Some(run) = tail.runs.get(index + 1) else {
            return Vec::new();
        };
        let x = sign(side) * run.to;
        let Section { a, b, .. } = run.outer;
        let tied = self.is_tied(Part::Neck(side, index as u8));
        let through = upright([[x, -b], [x, b]], Lane::Inside(x));
        match size {
            Size::At => vec![(
                View::Side,
                level([[0.0, self.head.eye.mouths[0]], [x, -b]], Lane::Outer),
            )],
            Size::Width if tied => vec![(View::Side, through)],
            Size::Width => vec![(View::Plan, half([x, a], Lane::Inside(x)))],
            Size::Height => vec![(View::Side, through)],
            _ => self.corner(run.outer, [x, x], size, false),
        }
    }

    fn end(&self, side: Side, size: Size) -> Vec<(View, Form)> {
        let tail = self.head.end(side);
        let reach = tail.tip.reach();
        let form = if size == Size::Drop {
            // Half way along the axis that falls.
            let u = (tail.block_end() + tail.tip.station().0) / 2.0;
            leader([sign(side) * u, 0.0], [0.3 * sign(side), 1.0])
        } else {
            let axis = [0.0, self.head.eye.mouths[0]];
            level(ordered(axis, [sign(side) * reach, 0.0]), Lane::Outer)
        };
        vec![(View::Side, form)]
    }

    fn face(&self, side: Side, size: Size) -> Vec<(View, Form)> {
        let solid::Tip::Face(cap) = &self.head.end(side).tip else {
            return Vec::new();
        };
        let Section { a, b, c, d, .. } = cap.outline;
        let way = sign(side);
        let lane = match side {
            Side::Front => Lane::Right,
            Side::Back => Lane::Left,
        };
        let part = Part::Face(side);
        let end_of_land = |h: f64| cap.reach - cap.sag(h * h) - cap.edge_at(0.0).1;
        let [land, rim_up, rim_wide] =
            [cap.land_start(), end_of_land(b), end_of_land(a)].map(|u| way * u);
        let beside = upright([[rim_up, -b], [rim_up, b]], lane);
        match size {
            Size::Width if self.is_tied(part) && side == Side::Back => vec![(View::Side, beside)],
            Size::Width if self.is_round(part) => {
                // The upper left of the circle: the upper right belongs to the cheeks' corner.
                let (sin, cos) = (0.6_f64.sqrt(), 0.4_f64.sqrt());
                let tip = [-a * cos, b * sin];
                vec![(View::Face, leader(tip, [-cos, sin])), (View::Side, beside)]
            }
            Size::Width if side == Side::Front => {
                let other = if self.is_tied(part) {
                    (View::Side, beside)
                } else {
                    (View::Plan, half([rim_wide, a], lane))
                };
                let across = level([[-a, b - d], [a, b - d]], Lane::Inner);
                vec![(View::Face, across), other]
            }
            Size::Width => vec![(View::Plan, half([rim_wide, a], lane))],
            Size::Height => vec![(View::Side, beside)],
            Size::Land => {
                let corner = way * (cap.reach - cap.sag(b * b));
                vec![(
                    View::Side,
                    level(ordered([land, -b], [corner, -b]), Lane::Outer),
                )]
            }
            Size::Crown => {
                let h = -0.5 * b;
                let u = cap.reach - cap.sag(h * h);
                let lean = cap.curvature * h;
                vec![(View::Side, leader([way * u, h], [way, lean - 0.5]))]
            }
            Size::Edge => {
                let (inset, drop, ..) = cap.edge_at(0.5);
                let h = b - inset;
                let u = cap.reach - cap.sag(h * h) - drop;
                vec![(View::Side, leader([way * u, h], [way, 1.0]))]
            }
            _ => {
                let mut forms = self.corner(cap.outline, [land, rim_up], size, false);
                if side == Side::Front {
                    let share = 0.25 / (0.5 + 0.5 * cap.outline.w);
                    let tip = [-a + c * share, -b + d * share];
                    forms.insert(0, (View::Face, leader(tip, [-1.0, -1.0])));
                }
                forms
            }
        }
    }
}

impl Anchors<'_> {
    fn pein(&self, side: Side, size: Size) -> Vec<(View, Form)> {
        let solid::Tip::Pein(pein) = &self.head.end(side).tip else {
            return Vec::new();
        };
        let way = sign(side);
        let lane = match side {
            Side::Front => Lane::Right,
            Side::Back => Lane::Left,
        };
        let Section { a, b, .. } = pein.section;
        let start = way * pein.start;
        let [tangent, _] = pein.tangent;
        // The edge is seen in its length from above when it lies across, from the side when it
        // stands.
        let stands = pein.direction[1].abs() > pein.direction[0].abs();
        let tip = |xi: f64| way * pein.u_at(pein.reach, xi);
        let half_edge = pein.half_edge;
        let askew = is_askew(pein);
        let (thick, flat) = if stands {
            (View::Plan, View::Side)
        } else {
            (View::Side, View::Plan)
        };
        let on = |view: View, xi: f64, eta: f64| {
            pein.across(xi, eta)[usize::from(view == View::Side)].abs()
        };
        match size {
            Size::At => vec![(
                View::Side,
                level(
                    ordered([0.0, self.head.eye.mouths[0]], [start, -b]),
                    Lane::Outer,
                ),
            )],
            Size::Width if self.is_tied(Part::Pein(side)) => {
                vec![(
                    View::Side,
                    upright([[start, -b], [start, b]], Lane::Inside(start)),
                )]
            }
            Size::Width => vec![(View::Plan, half([start, a], Lane::Inside(start)))],
            Size::Height => {
                vec![(
                    View::Side,
                    upright([[start, -b], [start, b]], Lane::Inside(start)),
                )]
            }
            Size::Edge if askew => {
                let xi = 0.9 * half_edge;
                let [y, z] = pein.across(xi, 0.0);
                let along = leader([tip(xi), on(flat, xi, 0.0)], [way, 0.4]);
                match side {
                    Side::Front => vec![(View::Face, leader([y, z], [y, z])), (flat, along)],
                    Side::Back => vec![(flat, along)],
                }
            }
            Size::Edge => {
                let x = tip(half_edge);
                let form = if stands {
                    upright([[x, -half_edge], [x, half_edge]], lane)
                } else {
                    half([x, half_edge], lane)
                };
                vec![(flat, form)]
            }
            Size::Direction => {
                let xi = 0.4 * half_edge;
                let along = leader([tip(xi), on(flat, xi, 0.0)], [way, 1.0]);
                let [y, z] = pein.across(pein.limit(pein.reach), 0.0);
                match side {
                    Side::Front => vec![(View::Face, leader([y, z], [1.0, 0.6])), (flat, along)],
                    Side::Back => vec![(flat, along)],
                }
            }
            Size::Nose => {
                let v = 0.5 * (tangent + pein.reach);
                let at = [way * v, on(thick, 0.0, pein.thickness(v))];
                vec![(thick, leader(at, [way, 1.0]))]
            }
            Size::Rocker => {
                let xi = 0.5 * half_edge;
                vec![(flat, leader([tip(xi), on(flat, xi, 0.0)], [way, 0.4]))]
            }
            Size::CornerBreak => {
                let v = pein.reach - 0.3 * pein.corner_break;
                let xi = pein.limit(v);
                let at = [way * pein.u_at(v, xi), on(flat, xi, 0.0)];
                vec![(flat, leader(at, [way, 1.0]))]
            }
            Size::Hollow => {
                let v = pein.start + (tangent - pein.start) / 3.0;
                let at = [way * v, on(thick, 0.0, pein.thickness(v))];
                vec![(thick, leader(at, [0.2 * way, 1.0]))]
            }
            _ => self.corner(pein.section, [start, start], size, false),
        }
    }

    fn ball(&self, side: Side, size: Size) -> Vec<(View, Form)> {
        let solid::Tip::Ball(ball) = &self.head.end(side).tip else {
            return Vec::new();
        };
        let (u, half, lane) = if size == Size::Neck {
            let x = sign(side) * ball.start();
            (ball.start(), ball.neck, Lane::Inside(x))
        } else {
            let beyond = match side {
                Side::Front => Lane::Right,
                Side::Back => Lane::Left,
            };
            (ball.centre(), ball.radius, beyond)
        };
        let x = sign(side) * u;
        vec![(View::Side, upright([[x, -half], [x, half]], lane))]
    }
}

fn level(between: [Point; 2], lane: Lane) -> Form {
    Form::Level { between, lane }
}

fn upright(between: [Point; 2], lane: Lane) -> Form {
    Form::Upright { between, lane }
}

fn half(to: Point, lane: Lane) -> Form {
    Form::Half { to, lane }
}

fn leader(tip: Point, normal: Point) -> Form {
    Form::Leader { tip, normal }
}

fn ordered(one: Point, other: Point) -> [Point; 2] {
    if one[0] <= other[0] {
        [one, other]
    } else {
        [other, one]
    }
}
