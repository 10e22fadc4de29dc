//! The one door from a design to a solid: everything that is wrong is said here.

use super::bounds::{DENSITY, LONGEST_NAME, LONGEST_NOTE, MOST_WEIGHT};
use super::{Corner, Design, DesignError, Dim, MOST_NECKS, Outline, Part, Side, Tip, bounds};
use crate::handle::{self, Handle};
use crate::solid::{self, Bulge, Cap, Check, Head, Lugs, Pein, Solid, checks};
use crate::units::Amount;

/// How far below zero a margin may be, mm: what is on the limit stays on it after a conversion
/// between inches and millimetres.
const ROUNDOFF: f64 = 1e-9;

impl Design {
    /// Makes the solid, or says everything that is wrong with the design.
    ///
    /// # Errors
    /// Every reason at once, first the dimensions outside their bounds, in the order of the list
    /// on screen. Conditions between dimensions are looked at only when each is inside its own.
    pub fn build(&self) -> Result<Solid, Vec<DesignError>> {
        let solid = self.build_head()?;
        // Of a tool whose handle cannot be made nothing can be held.
        if self.holds.of_tool()
            && let Err(reasons) = handle::make(&solid, &self.handle)
        {
            return Err(reasons.into_iter().map(DesignError::Handle).collect());
        }
        Ok(solid)
    }

    /// The head, whatever its handle.
    pub(crate) fn build_head(&self) -> Result<Solid, Vec<DesignError>> {
        let mut errors = self.numbers();
        errors.extend(self.sizes().into_iter().filter_map(|(dim, value)| {
            let limits = bounds(dim);
            (!limits.contain(value.number())).then_some(DesignError::OutOfBounds {
                dim,
                value,
                low: limits.low,
                high: limits.high,
            })
        }));
        if !errors.is_empty() {
            return Err(errors);
        }
        let head = Head::lift(self, &mut |_, mm| mm);
        checks(&head, &mut |check, margin: f64| {
            // A margin that is no number follows from one that is missed, which is told.
            if margin < -ROUNDOFF {
                let error = explain(check, &head);
                // Three levels of a thin wall, or two ends of a long eye, are one reason.
                if !errors.iter().any(|known| same_reason(known, &error)) {
                    errors.push(error);
                }
            }
        });
        if !errors.is_empty() {
            return Err(errors);
        }
        Ok(Solid::new(head))
    }

    /// The usual handle for this head, in the units of its cheeks; for a head that cannot be, what stands for one.
    pub fn usual_handle(&self) -> Handle {
        let system = self.cheeks.length.notation().system();
        let solid = self.build_head();
        solid.map_or_else(|_| Handle::default(), |solid| Handle::usual(&solid, system))
    }

    pub(super) fn outlines(&self) -> Vec<(Part, &Outline)> {
        let mut outlines = vec![(Part::Cheeks, &self.cheeks.outline)];
        for side in Side::BOTH {
            let end = self.end(side);
            let necks = end.necks.iter().enumerate();
            outlines.extend(necks.map(|(i, neck)| (Part::Neck(side, i as u8), &neck.outline)));
            match &end.tip {
                Tip::Face(face) => outlines.push((Part::Face(side), &face.outline)),
                Tip::Pein(pein) => outlines.push((Part::Pein(side), &pein.outline)),
                Tip::Ball(_) => {}
            }
        }
        outlines
    }

    /// What is too long of name and note to travel in a link. It keeps no head from being made: its field says it.
    pub fn texts_too_long(&self) -> Vec<DesignError> {
        let texts = [
            ("name", &self.name, LONGEST_NAME),
            ("note", &self.note, LONGEST_NOTE),
        ];
        let long = texts.into_iter().filter_map(|(what, text, most)| {
            let length = text.chars().count();
            (length > most).then_some(DesignError::TextTooLong { what, length, most })
        });
        long.collect()
    }

    fn numbers(&self) -> Vec<DesignError> {
        let mut errors = Vec::new();
        let density = self.density.in_kg_per_m3();
        if !(DENSITY.0..=DENSITY.1).contains(&density) {
            let in_g = |kg: f64| kg / 1000.0;
            errors.push(DesignError::Density {
                density: in_g(density),
                low: in_g(DENSITY.0),
                high: in_g(DENSITY.1),
            });
        }
        for side in Side::BOTH {
            let count = self.end(side).necks.len();
            if count > MOST_NECKS {
                errors.push(DesignError::Necks {
                    side,
                    count,
                    most: MOST_NECKS,
                });
            }
        }
        for (part, outline) in self.outlines() {
            if let Corner::Conic { weight, .. } = outline.corner
                && !(0.0..=MOST_WEIGHT).contains(&weight)
            {
                errors.push(DesignError::Weight {
                    part: part.words(),
                    weight,
                    most: MOST_WEIGHT,
                });
            }
        }
        self.targets(&mut errors);
        errors
    }

    fn targets(&self, errors: &mut Vec<DesignError>) {
        for (quantity, hold) in self.holds.iter() {
            if let Some(problem) = hold.map(Amount::number).problem(quantity) {
                errors.push(DesignError::Target {
                    what: format!("held {}", quantity.words()),
                    problem,
                });
            }
        }
        let present: Vec<Dim> = self.sizes().into_iter().map(|(dim, _)| dim).collect();
        for (dim, range) in &self.free {
            if !present.contains(dim) {
                errors.push(DesignError::NoSuchSize(*dim));
            }
            let (low, high) = (range.low.number(), range.high.number());
            let problem = if !(low.is_finite() && high.is_finite()) {
                Some("has a limit that is not a number")
            } else if low > high {
                Some("has a lower limit above its upper one")
            } else {
                None
            };
            if let Some(problem) = problem {
                errors.push(DesignError::Target {
                    what: dim.words(),
                    problem,
                });
            }
        }
    }
}

fn same_reason(a: &DesignError, b: &DesignError) -> bool {
    use DesignError::{EyeTooLong, ThinWall};
    matches!(
        (a, b),
        (EyeTooLong { .. }, EyeTooLong { .. }) | (ThinWall { .. }, ThinWall { .. })
    ) || a == b
}

/// The sentence's numbers for a condition that `head` does not meet.
pub(crate) fn explain(check: Check, head: &Head<f64>) -> DesignError {
    let section = |part: Part| match part {
        Part::Neck(side, index) => head.end(side).runs[usize::from(index) + 1].outer,
        Part::Face(side) | Part::Pein(side) => head.end(side).tip.station().1,
        _ => head.cheeks,
    };
    let eye_level = |part: Part| match part {
        Part::EyeTop => head.eye.top,
        Part::EyeBottom => head.eye.bottom,
        _ => head.eye.waist,
    };
    match check {
        Check::CornerAcross(part) => {
            let (words, corner, most) = (part.words(), section(part).c, section(part).a);
            DesignError::CornerTooLarge {
                part: words,
                across: "width",
                corner,
                most,
            }
        }
        Check::CornerUp(part) => {
            let (words, corner, most) = (part.words(), section(part).d, section(part).b);
            DesignError::CornerTooLarge {
                part: words,
                across: "height",
                corner,
                most,
            }
        }
        Check::EyeLength(part) => {
            let (level, words) = (eye_level(part), part.words());
            let (size, least) = (2.0 * level.p, 2.0 * level.c);
            DesignError::EyeCorner {
                part: words,
                direction: "long",
                size,
                least,
            }
        }
        Check::EyeRadius(part) => {
            let (level, words) = (eye_level(part), part.words());
            let (size, least) = (2.0 * level.q, 2.0 * level.d);
            DesignError::EyeCorner {
                part: words,
                direction: "wide",
                size,
                least,
            }
        }
        Check::EndWall(_) => eye_too_long(head),
        Check::Wall => thin_wall(head),
        Check::WaistBeyond => {
            let height = head.eye.waist_height;
            DesignError::ThinWall {
                wall: 0.0,
                least: 0.0,
                height,
                eye: 2.0 * head.eye.waist.q,
                width: None,
            }
        }
        Check::Waist => {
            let [low, high] = head.eye.mouths;
            let height = head.eye.waist_height;
            DesignError::Waist {
                height,
                most: if height < 0.0 { -low } else { high } - solid::LEAST_WAIST_DEPTH,
            }
        }
        Check::LugLength(_) => {
            let half = match head.bulge() {
                Some(Bulge {
                    lugs: Some(Lugs { half_length, .. }),
                    ..
                }) => *half_length,
                _ => 0.0,
            };
            let [front, back] = Side::BOTH.map(|side| head.end(side).block_end());
            DesignError::Lugs {
                length: 2.0 * half,
                most: 2.0 * front.min(back),
            }
        }
        Check::LugSlope => DesignError::LugSlope {
            least: 2.0 * head.least_lug(),
        },
        Check::Gap(side, index) => gap(side, usize::from(index), head),
        Check::Crown(side)
        | Check::Land(side)
        | Check::Edge(side)
        | Check::BallNeck(side)
        | Check::Nose(side)
        | Check::NoseThickness(side)
        | Check::Hollow(side)
        | Check::Rocker(side)
        | Check::RockerReach(side)
        | Check::CornerBreak(side) => match &head.end(side).tip {
            solid::Tip::Face(cap) => face(check, side, cap),
            solid::Tip::Ball(ball) => DesignError::BallNeck {
                side,
                ball: 2.0 * ball.radius,
                neck: 2.0 * ball.neck,
                most: 2.0 * solid::MOST_NECK * ball.radius,
            },
            solid::Tip::Pein(tip) => pein(check, side, tip),
        },
    }
}

fn eye_too_long(head: &Head<f64>) -> DesignError {
    let [front, back] = Side::BOTH.map(|side| head.end(side).block_end());
    let [forwards, backwards] = [1.0, -1.0].map(|way| head.eye.farthest(way).1);
    let wall = solid::LEAST_END_WALL;
    let offset = 0.5 * (back - front);
    DesignError::EyeTooLong {
        eye: forwards + backwards,
        block: front + back,
        // The offset stays, so the worse side rules.
        least: 2.0 * ((forwards + wall + offset).max(backwards + wall - offset)),
        wall,
        offset,
    }
}

fn thin_wall(head: &Head<f64>) -> DesignError {
    let least = solid::LEAST_WALL;
    let Some(wall) = head.least_wall() else {
        return DesignError::ThinWall {
            wall: 0.0,
            least,
            height: 0.0,
            eye: 0.0,
            width: None,
        };
    };
    let [_, y, height] = wall.at;
    let flat = head.bulge().is_none() && height.abs() <= head.cheeks.b - head.cheeks.d;
    DesignError::ThinWall {
        wall: wall.thickness,
        least,
        height,
        eye: 2.0 * head.eye.at(height).q,
        width: flat.then_some(2.0 * (y.abs() + least)),
    }
}

/// Why a pein cannot be.
fn pein(check: Check, side: Side, pein: &Pein<f64>) -> DesignError {
    let length = pein.length();
    match check {
        Check::Hollow(_) => DesignError::Hollow {
            side,
            hollow: pein.hollow,
            most: pein.most_hollow(solid::LEAST_FACE),
        },
        Check::Rocker(_) | Check::RockerReach(_) => {
            let farthest = pein.farthest();
            let radius = |half: f64, depth: f64| {
                let depth = depth.min(half);
                (half * half + depth * depth) / (2.0 * depth)
            };
            DesignError::Rocker {
                side,
                rocker: pein.rocker.recip(),
                least: radius(pein.half_edge, 0.5 * length)
                    .max(radius(farthest, solid::MOST_ROCKER * length))
                    .max(farthest / solid::MOST_ROCKER),
            }
        }
        Check::CornerBreak(_) => DesignError::CornerBreak {
            side,
            size: pein.corner_break,
            most: pein.half_edge.min(length) - solid::LEAST_FACE,
        },
        _ => DesignError::Nose {
            side,
            nose: pein.nose,
            most: pein
                .root
                .min((length * length + pein.root * pein.root) / (2.0 * length.max(0.5))),
        },
    }
}

/// Why a face cannot be.
fn face(check: Check, side: Side, cap: &Cap<f64>) -> DesignError {
    match check {
        Check::Crown(_) => DesignError::Crown {
            side,
            radius: cap.curvature.recip(),
            least: (cap.outline.farthest_squared() / solid::MOST_CROWN).sqrt(),
        },
        Check::Land(_) => {
            let rim = cap.sag(cap.outline.farthest_squared());
            let top = cap.sag(cap.outline.b * cap.outline.b);
            DesignError::Land {
                side,
                land: cap.land,
                least: rim - top + cap.edge_at(0.0).1,
            }
        }
        _ => DesignError::Edge {
            side,
            edge: cap.edge,
            most: cap.outline.a.min(cap.outline.b) - solid::LEAST_FACE,
        },
    }
}

fn gap(side: Side, index: usize, head: &Head<f64>) -> DesignError {
    let runs = &head.end(side).runs;
    let run = &runs[index];
    let name = |station: usize| match station {
        0 => "the cheek block's end".to_owned(),
        last if last + 1 == runs.len() => match head.end(side).tip {
            solid::Tip::Face(_) => "the land of the face".to_owned(),
            solid::Tip::Ball(_) => "the ball".to_owned(),
            solid::Tip::Pein(_) => "the pein".to_owned(),
        },
        neck => format!("neck {neck}"),
    };
    DesignError::Stations {
        side,
        inner: name(index - 1),
        inner_at: run.from,
        outer: name(index),
        outer_at: run.to,
        least: solid::LEAST_GAP,
    }
}
