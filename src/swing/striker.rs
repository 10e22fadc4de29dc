//! What strikes: the middle of a face, a ball or a pein, and how far its working surface goes.

use std::f64::consts::{FRAC_PI_2, PI};

use super::body::check_place;
use super::error::{Asked, DEPTH_MM, MOST_SIZE_MM, SwingError};
use crate::design::Side;
use crate::solid::{Cap, Pein, Section, Solid, Tip};

/// What one end of the head strikes with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Striker {
    /// Which end: the front strikes along +x, the back along −x.
    pub side: Side,
    /// The farthest point of the end, in the middle of its striking surface, mm in the axes of the crate page.
    pub point_mm: [f64; 3],
    /// The striking surface.
    pub surface: Surface,
}

/// A striking surface, up to where its broken edge, its slope or its neck begins. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Surface {
    /// A flat or crowned face.
    Face {
        /// Radius of the crown; nothing for a flat face.
        crown_mm: Option<f64>,
        /// Outline of what the broken edge leaves of it, across the head and along the handle.
        outline: Section<f64>,
    },
    /// A ball.
    Ball {
        /// Its radius.
        radius_mm: f64,
    },
    /// A pein.
    Pein {
        /// From +y to its edge, radians: 0 across the handle, a quarter turn along it.
        direction: f64,
        /// Radius of the nose.
        nose_mm: f64,
        /// Between the middle of the pein and its slope where that leaves the nose, radians.
        slope: f64,
        /// Radius of the rocker; nothing for a straight edge.
        rocker_mm: Option<f64>,
        /// From the middle of the edge to where its broken corner begins.
        half_edge_mm: f64,
    },
}

/// How far the handle may tilt from where the striking surface lies square to flat work, radians either way, until
/// the work touches something else than it: the edge of a face, the corner of a pein.
///
/// On a crown of radius R the work touches where the normal has turned as far as the handle, R sin(tilt) from the
/// middle; with a from the middle to the edge the tilt is asin(a/R). On a pein it touches the nose up to its slope and
/// the rocker up to the corner; a tilt θ across both turns by tan θ times the sine and cosine of the edge's direction.
/// A flat face bears no tilt at all; a ball bears any, a right angle is given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tilt {
    /// In the plane of the swing: butt too high or too low.
    pub in_swing: f64,
    /// About the handle: head rolled in the hand.
    pub about_handle: f64,
}

/// The print of a blow in work that gives way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// Its lengths, mm: of a face or a ball across the head and along the handle, of a pein along the edge and across it.
    pub lengths_mm: [f64; 2],
    /// Whether it reaches the edge of a face or the broken corners of a pein, which then mark the work.
    pub to_edge: bool,
}

/// A share of a tilt below this is what a right angle leaves in roundoff.
const NO_SHARE: f64 = 1e-9;

impl Striker {
    /// What `solid` strikes with on `side`.
    pub fn of(solid: &Solid, side: Side) -> Self {
        let tail = solid.head().end(side);
        let reach = tail.tip.reach();
        let (surface, height) = match &tail.tip {
            Tip::Face(cap) => (Surface::of_face(cap), tail.tip_centre()),
            Tip::Ball(ball) => {
                let radius_mm = ball.radius;
                (Surface::Ball { radius_mm }, tail.tip_centre())
            }
            Tip::Pein(pein) => (Surface::of_pein(pein), tail.drop.at(reach)),
        };
        let x = match side {
            Side::Front => reach,
            Side::Back => -reach,
        };
        Self {
            side,
            point_mm: [x, 0.0, height],
            surface,
        }
    }

    /// What `solid` strikes with in front and behind.
    pub fn both(solid: &Solid) -> [Self; 2] {
        Side::BOTH.map(|side| Self::of(solid, side))
    }

    pub(super) fn check(&self) -> Vec<SwingError> {
        let of = match self.side {
            Side::Front => "front face",
            Side::Back => "back face",
        };
        let place = check_place(of, self.point_mm);
        let wrong = |(_, mm): &(&str, f64)| !(*mm > 0.0 && *mm <= MOST_SIZE_MM);
        let sizes = self.surface.sizes().into_iter().filter(wrong);
        let size = |(size, mm)| SwingError::Size {
            side: self.side,
            size,
            mm,
        };
        let turned = (!self.surface.angles_are_possible())
            .then_some(SwingError::PeinAngle { side: self.side });
        let errors = place.into_iter().chain(sizes.map(size));
        errors.chain(turned).collect()
    }

    /// How far the handle may tilt.
    pub fn tilt(&self) -> Tilt {
        self.surface.tilt()
    }

    /// From the middle to the end of the striking surface towards `[across, along]`, of any length, mm; across where they
    /// say no direction.
    pub fn reach_towards(&self, direction: [f64; 2]) -> f64 {
        self.surface.reach_towards(direction)
    }

    /// The print in soft work that gives way by `depth_mm` where it gives way most.
    ///
    /// A crown or a ball of radius R prints a circle of radius √(d(2R − d)), as far as the surface goes; a pein prints
    /// √(d(2ρ − d)) to each side of its edge until its straight slope touches, and √(d(2R − d)) along it with a rocker
    /// of radius R, else its whole edge. The hollow of a pein is left out. A flat face prints all of itself.
    ///
    /// # Errors
    /// A size or a depth that is out of bounds.
    pub fn patch(&self, depth_mm: f64) -> Result<Patch, Vec<SwingError>> {
        let mut errors = self.check();
        if !DEPTH_MM.admits(depth_mm) {
            errors.push(SwingError::OutOfBounds {
                asked: Asked::Depth,
                value: depth_mm,
            });
        }
        if errors.is_empty() {
            Ok(self.surface.patch(depth_mm))
        } else {
            Err(errors)
        }
    }
}

impl Surface {
    fn of_face(cap: &Cap<f64>) -> Self {
        let (across, up) = cap.shrink(cap.edge);
        Self::Face {
            crown_mm: (cap.curvature > 0.0).then(|| cap.curvature.recip()),
            outline: cap.outline.shrunk(across, up),
        }
    }

    fn of_pein(pein: &Pein<f64>) -> Self {
        let [cos, sin] = pein.direction;
        let [tangent, there] = pein.tangent;
        // A nose as thick as the pein's start has no slope but for roundoff.
        let slope = (tangent - pein.nose_centre()).atan2(there).max(0.0);
        Self::Pein {
            direction: sin.atan2(cos),
            nose_mm: pein.nose,
            slope,
            rocker_mm: (pein.rocker > 0.0).then(|| pein.rocker.recip()),
            half_edge_mm: pein.half_edge - pein.corner_break,
        }
    }

    /// What it is called.
    pub(super) const fn word(&self) -> &'static str {
        match self {
            Self::Face { .. } => "face",
            Self::Ball { .. } => "ball",
            Self::Pein { .. } => "pein",
        }
    }

    /// Every size with its name.
    fn sizes(&self) -> Vec<(&'static str, f64)> {
        match *self {
            Self::Face { crown_mm, outline } => {
                let crown = crown_mm.map(|radius| ("crown radius", radius));
                let halves = [("half-width", outline.a), ("half-height", outline.b)];
                halves.into_iter().chain(crown).collect()
            }
            Self::Ball { radius_mm } => vec![("radius", radius_mm)],
            Self::Pein {
                nose_mm,
                rocker_mm,
                half_edge_mm,
                ..
            } => {
                let rocker = rocker_mm.map(|radius| ("rocker radius", radius));
                let own = [("nose radius", nose_mm), ("half edge", half_edge_mm)];
                own.into_iter().chain(rocker).collect()
            }
        }
    }

    fn angles_are_possible(&self) -> bool {
        match *self {
            Self::Pein {
                direction, slope, ..
            } => direction.abs() <= PI && (0.0..FRAC_PI_2).contains(&slope),
            _ => true,
        }
    }

    fn reach_towards(&self, [across, along]: [f64; 2]) -> f64 {
        let far = across.hypot(along);
        let (cos, sin) = if far > 0.0 {
            (across / far, along / far)
        } else {
            (1.0, 0.0)
        };
        match *self {
            Self::Face { outline, .. } => outline.radius_towards(cos, sin),
            Self::Ball { radius_mm } => radius_mm,
            Self::Pein {
                direction,
                nose_mm,
                half_edge_mm,
                ..
            } => {
                let (edge_sin, edge_cos) = direction.sin_cos();
                let along_edge = (cos * edge_cos + sin * edge_sin).abs();
                let across_edge = (sin * edge_cos - cos * edge_sin).abs();
                (half_edge_mm / along_edge).min(nose_mm / across_edge)
            }
        }
    }

    fn tilt(&self) -> Tilt {
        let on = |radius: f64, half: f64| (half / radius).min(1.0).asin();
        match *self {
            Self::Face { crown_mm, outline } => {
                let towards = |half| crown_mm.map_or(0.0, |radius| on(radius, half));
                Tilt {
                    in_swing: towards(outline.b),
                    about_handle: towards(outline.a),
                }
            }
            Self::Ball { .. } => Tilt {
                in_swing: FRAC_PI_2,
                about_handle: FRAC_PI_2,
            },
            Self::Pein {
                direction,
                slope,
                rocker_mm,
                half_edge_mm,
                ..
            } => {
                let on_nose = (FRAC_PI_2 - slope).tan();
                let on_rocker = rocker_mm.map_or(0.0, |radius| on(radius, half_edge_mm).tan());
                let (sin, cos) = direction.sin_cos();
                let up_to = |most: f64, share: f64| {
                    if share.abs() < NO_SHARE {
                        f64::INFINITY
                    } else {
                        most / share.abs()
                    }
                };
                Tilt {
                    in_swing: up_to(on_rocker, sin).min(up_to(on_nose, cos)).atan(),
                    about_handle: up_to(on_rocker, cos).min(up_to(on_nose, sin)).atan(),
                }
            }
        }
    }

    fn patch(&self, depth: f64) -> Patch {
        // Deeper than its radius a sphere prints no wider.
        let cap = |radius: f64| {
            let depth = depth.min(radius);
            (depth * (2.0 * radius - depth)).sqrt()
        };
        let limited = |half: f64, most: f64| (2.0 * half.min(most), half >= most);
        match *self {
            Self::Face { crown_mm, outline } => {
                let half = crown_mm.map_or(f64::INFINITY, cap);
                let [(across, at_side), (along, at_top)] =
                    [outline.a, outline.b].map(|most| limited(half, most));
                Patch {
                    lengths_mm: [across, along],
                    to_edge: at_side || at_top,
                }
            }
            Self::Ball { radius_mm } => Patch {
                lengths_mm: [2.0 * cap(radius_mm); 2],
                to_edge: false,
            },
            Self::Pein {
                nose_mm,
                slope,
                rocker_mm,
                half_edge_mm,
                ..
            } => {
                let (along_edge, to_edge) =
                    limited(rocker_mm.map_or(f64::INFINITY, cap), half_edge_mm);
                let (sin, cos) = slope.sin_cos();
                let beyond = depth - nose_mm * (1.0 - sin);
                let half = if beyond < 0.0 {
                    cap(nose_mm)
                } else {
                    nose_mm * cos + beyond * sin / cos
                };
                Patch {
                    lengths_mm: [along_edge, 2.0 * half],
                    to_edge,
                }
            }
        }
    }
}
