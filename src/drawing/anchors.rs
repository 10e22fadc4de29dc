//! Where the sizes of the design are anchored, in every view that can show them.

use super::dimension::{Form, Lane};
use super::pein;
use super::profile::sign;
use super::{Point, View};
use crate::design::{Corner, Design, Dim, Edge, EyeOutline, Part, Side, Size, Tip};
use crate::solid::{self, Head, Section};

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
        match dim.part {
            Part::Cheeks => self.cheeks(dim.size),
            Part::Eye => self.waist_height(),
            Part::EyeTop | Part::EyeWaist | Part::EyeBottom => self.eye(dim),
            Part::Neck(side, index) => self.neck(side, usize::from(index), dim.size),
            Part::End(side) => self.reach(side),
            Part::Face(side) => self.face(side, dim.size),
            Part::Ball(side) => self.ball(side, dim.size),
            Part::Pein(side) => self.pein(side, dim.size),
            // No head that is drawn has them.
            Part::Lugs => Vec::new(),
        }
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

    fn waist_height(&self) -> Vec<(View, Form)> {
        let plug = &self.head.eye;
        vec![(
            View::Side,
            leader([plug.waist.p, plug.waist_height], [1.0, -0.4]),
        )]
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
                level([[0.0, -self.head.cheeks.b], [x, -b]], Lane::Outer),
            )],
            Size::Width if tied => vec![(View::Side, through)],
            Size::Width => vec![(View::Plan, half([x, a], Lane::Inside(x)))],
            Size::Height => vec![(View::Side, through)],
            _ => self.corner(run.outer, [x, x], size, false),
        }
    }

    fn reach(&self, side: Side) -> Vec<(View, Form)> {
        let x = sign(side) * self.head.end(side).tip.reach();
        let axis = [0.0, -self.head.cheeks.b];
        vec![(View::Side, level(ordered(axis, [x, 0.0]), Lane::Outer))]
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
            Size::Width if side == Side::Front => vec![
                (View::Face, level([[-a, b - d], [a, b - d]], Lane::Inner)),
                (View::Side, beside),
            ],
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
        let [tangent, there] = pein.tangent;
        let ends = pein::edge(pein);
        // The edge is seen in its length from above when it lies across, from the side when it
        // stands.
        let stands = pein.direction[1].abs() > pein.direction[0].abs();
        let tip = |xi: f64| way * pein.u_at(pein.reach, xi);
        let half_edge = pein.limit(pein.reach);
        let thick = if stands { View::Plan } else { View::Side };
        match size {
            Size::At => vec![(
                View::Side,
                level(
                    ordered([0.0, -self.head.cheeks.b], [start, -b]),
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
            Size::Edge if stands => {
                let [low, high] = ends.map(|[_, z]| z);
                let x = tip(half_edge);
                vec![(
                    View::Side,
                    upright([[x, low.min(high)], [x, low.max(high)]], lane),
                )]
            }
            Size::Edge => {
                let reach = ends.iter().fold(0.0_f64, |most, [y, _]| most.max(y.abs()));
                vec![(View::Plan, half([tip(half_edge), reach], lane))]
            }
            Size::Direction => vec![
                (View::Face, leader(ends[1], [1.0, 0.6])),
                (
                    View::Plan,
                    leader([tip(0.5 * half_edge), 0.3 * half_edge], [way, 1.0]),
                ),
            ],
            Size::Nose => {
                let v = 0.5 * (tangent + pein.reach);
                vec![(thick, leader([way * v, 0.8 * there], [way, 1.0]))]
            }
            Size::Rocker => {
                let flat = if stands { View::Side } else { View::Plan };
                let xi = 0.5 * half_edge;
                vec![(flat, leader([tip(xi), xi], [way, 0.4]))]
            }
            Size::CornerBreak => {
                let flat = if stands { View::Side } else { View::Plan };
                let v = pein.reach - 0.3 * pein.corner_break;
                let xi = pein.limit(v);
                vec![(flat, leader([way * pein.u_at(v, xi), xi], [way, 1.0]))]
            }
            Size::Hollow => {
                let v = pein.start + (tangent - pein.start) / 3.0;
                vec![(
                    thick,
                    leader([way * v, pein.thickness(v)], [0.2 * way, 1.0]),
                )]
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
