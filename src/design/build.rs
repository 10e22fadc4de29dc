//! The one door from a design to a solid: everything that is wrong is said here.

use super::bounds::{DENSITY, LONGEST_NAME, LONGEST_NOTE, MOST_WEIGHT};
use super::{Corner, Design, DesignError, Dim, Hold, MOST_NECKS, Outline, Part, Side, Tip, bounds};
use crate::solid::{self, Cap, Check, Head, Solid, checks};

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
        let mut errors = self.texts_and_numbers();
        errors.extend(self.sizes().into_iter().filter_map(|(dim, length)| {
            let limits = bounds(dim);
            let mm = length.in_mm();
            (!limits.contain(mm)).then_some(DesignError::OutOfBounds {
                dim,
                mm,
                low: limits.low,
                high: limits.high,
            })
        }));
        if !errors.is_empty() {
            return Err(errors);
        }
        let head = Head::lift(self, &mut |_, mm| mm);
        checks(&head, &mut |check, margin: f64| {
            if margin < -ROUNDOFF {
                let error = explain(check, &head);
                // Three levels of a thin wall, or two ends of a long eye, are one reason.
                if !errors.iter().any(|known| same_reason(known, &error)) {
                    errors.push(error);
                }
            }
        });
        if errors.is_empty() {
            Ok(Solid::new(head))
        } else {
            Err(errors)
        }
    }

    fn outlines(&self) -> Vec<(Part, &Outline)> {
        let mut outlines = vec![(Part::Cheeks, &self.cheeks.outline)];
        for side in Side::BOTH {
            let end = self.end(side);
            let necks = end.necks.iter().enumerate();
            outlines.extend(necks.map(|(i, neck)| (Part::Neck(side, i as u8), &neck.outline)));
            if let Tip::Face(face) = &end.tip {
                outlines.push((Part::Face(side), &face.outline));
            }
        }
        outlines
    }

    fn texts_and_numbers(&self) -> Vec<DesignError> {
        let mut errors = Vec::new();
        for (what, text, most) in [
            ("name", &self.name, LONGEST_NAME),
            ("note", &self.note, LONGEST_NOTE),
        ] {
            let length = text.chars().count();
            if length > most {
                errors.push(DesignError::TextTooLong { what, length, most });
            }
        }
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
        let mut check = |what: &str, problem: Option<&'static str>| {
            if let Some(problem) = problem {
                errors.push(DesignError::Target {
                    what: what.to_owned(),
                    problem,
                });
            }
        };
        if let Some(hold) = self.holds.mass {
            check(
                "held weight",
                target(hold, |mass| mass.in_kg(), f64::MIN_POSITIVE),
            );
        }
        if let Some(hold) = self.holds.balance {
            check(
                "held balance",
                target(hold, |length| length.in_mm(), f64::NEG_INFINITY),
            );
        }
        let present: Vec<Dim> = self.sizes().into_iter().map(|(dim, _)| dim).collect();
        for (dim, range) in &self.free {
            if !present.contains(dim) {
                errors.push(DesignError::NoSuchSize(*dim));
            }
            let (low, high) = (range.low.in_mm(), range.high.in_mm());
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

fn target<Q: Copy>(hold: Hold<Q>, number: impl Fn(Q) -> f64, least: f64) -> Option<&'static str> {
    match hold {
        Hold::About { value, tolerance } => {
            let (value, tolerance) = (number(value), tolerance.map_or(0.0, number));
            if !value.is_finite() || !tolerance.is_finite() {
                Some("is not a number")
            } else if value < least {
                Some("must be more than nothing")
            } else if tolerance < 0.0 {
                Some("has a tolerance below nothing")
            } else {
                None
            }
        }
        Hold::Between { low, high } => {
            let (low, high) = (number(low), number(high));
            if !low.is_finite() || !high.is_finite() {
                Some("has a limit that is not a number")
            } else if low < least {
                Some("must be more than nothing")
            } else if low > high {
                Some("has a lower limit above its upper one")
            } else {
                None
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
        Part::Face(side) => head.end(side).tip.station().1,
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
        Check::EndWall(_) => {
            let [front, back] = Side::BOTH.map(|side| head.end(side).block_end());
            let longest = head.eye.longest();
            let offset = 0.5 * (back - front);
            let wall = solid::LEAST_END_WALL;
            DesignError::EyeTooLong {
                eye: 2.0 * longest,
                block: front + back,
                least: 2.0 * (longest + wall + offset.abs()),
                wall,
                offset,
            }
        }
        Check::Wall(level) => {
            let (height, least) = solid::wall(head, level).unwrap_or((0.0, solid::LEAST_WALL));
            let half = head.eye.at(height).q;
            let side = head.cheeks.half_width_at(height);
            DesignError::ThinWall {
                wall: side - half,
                least,
                height,
                eye: 2.0 * half,
                width: (side == head.cheeks.a).then_some(2.0 * (half + least)),
            }
        }
        Check::Waist => DesignError::Waist {
            height: head.eye.waist_height,
            most: head.eye.half_height - solid::LEAST_WAIST_DEPTH,
        },
        Check::Gap(side, index) => gap(side, usize::from(index), head),
        Check::Crown(side) | Check::Land(side) | Check::Edge(side) | Check::BallNeck(side) => {
            match &head.end(side).tip {
                solid::Tip::Face(cap) => face(check, side, cap),
                solid::Tip::Ball(ball) => DesignError::BallNeck {
                    side,
                    ball: 2.0 * ball.radius,
                    neck: 2.0 * ball.neck,
                    most: 2.0 * solid::MOST_NECK * ball.radius,
                },
            }
        }
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
