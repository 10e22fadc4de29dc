//! The whole tool: head and handle as one body, held at the grip.

use nalgebra::Vector3;

use super::body::{Body, FreeBody, check_place, vector};
use super::error::{LEAST_LEVER_MM, MOST_LEAN, SwingError};
use super::striker::{Striker, Tilt};
use crate::design::Side;
use crate::mass::PIN_HEIGHT;
use crate::units::STANDARD_GRAVITY;

/// How a tool is held, in the axes of the crate page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Middle of the grip, mm.
    pub grip_mm: [f64; 3],
    /// Middle of the butt, the end of the handle, mm.
    pub butt_mm: [f64; 3],
    /// The handle's axis from the butt to the head, of any length; z, or the leaning line of a cocked eye. It passes
    /// through the origin, the middle of the eye.
    pub axis: [f64; 3],
}

/// The directions of a swing: right-handed, the head's x first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    /// The head's x: along the blow.
    pub blow: Vector3<f64>,
    /// The line that the swing turns about: square to the blow and to the handle, y unless the eye leans across.
    pub turn: Vector3<f64>,
    /// From the grip to the head in the plane of the swing, square to the blow: z unless the eye leans across.
    pub up: Vector3<f64>,
    /// The handle's axis, of unit length.
    pub handle: Vector3<f64>,
    /// The grip, mm.
    pub grip: Vector3<f64>,
}

/// A whole tool and what it does at rest and in a swing.
///
/// The swing turns about the line through the grip across the plane of the swing, the plane of the handle's axis and
/// the head's x. Distances from the grip are measured in that plane square to the blow, which goes along x: along the
/// handle, unless a cocked eye leans it.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// The tool as a body that nothing holds.
    pub free: FreeBody,
    /// From the butt to the balance point along the handle, mm: where the level tool lies still on an edge.
    pub balance_from_butt_mm: f64,
    /// From the middle of the eye to the balance point along the handle, mm, positive towards the butt.
    pub balance_from_eye_mm: f64,
    /// From the grip to the centroid, mm.
    pub lever_mm: f64,
    /// About the line through the grip that the swing turns about, kg·mm².
    pub inertia_grip_kg_mm2: f64,
    /// About the line through the centroid that is parallel to it, kg·mm².
    pub inertia_swing_kg_mm2: f64,
    /// About the head's x axis, kg·mm².
    pub inertia_head_axis_kg_mm2: f64,
    /// About the handle's axis, kg·mm².
    pub inertia_handle_axis_kg_mm2: f64,
    /// √(inertia about the grip / mass), mm: a ring of this radius about the grip would be as hard to swing.
    pub gyration_mm: f64,
    /// From the grip to the centre of percussion, mm: d + k²/d with the lever d and k² = inertia in the swing / mass. A
    /// blow whose line passes there leaves the grip at rest along the blow; to the hinge of a pendulum it is I/(m d).
    pub percussion_mm: f64,
    /// How the handle, held level with the head lying on its side, wants to turn in the hand, N·mm: weight times the
    /// distance of the centroid from the handle's axis towards the front; positive: the front goes down.
    pub turning_moment_nmm: f64,
    /// How far the tool tips when it hangs on a pin on the head's z axis [`PIN_HEIGHT`] above the middle of the eye, which
    /// the handle of a cocked eye leaves a little, radians, positive: the front hangs down. As [`MassProperties::hang_angle`](crate::mass::MassProperties::hang_angle).
    pub hang_angle: f64,
    /// What the ends do, front and back.
    pub ends: [Blow; 2],
    pub(super) frame: Frame,
}

/// What a centred blow of one end does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blow {
    /// What strikes.
    pub striker: Striker,
    /// From the grip to the line of the blow, mm: the line along x through the middle of the striking surface.
    pub line_mm: f64,
    /// How far the line of the blow passes beyond the centre of percussion, mm; negative: nearer to the hand.
    pub beyond_percussion_mm: f64,
    /// What the grip, were it free, would gain in speed against the blow for every N·s of it, m/s per N·s:
    /// 1/m − d·b/I, with the lever d, the line of the blow b beyond the centroid and the inertia I in the swing. That is
    /// the sting: positive, the handle is thrown back, away from the work; negative, it is driven on towards it; 0 when
    /// the blow passes through the centre of percussion.
    pub sting_per_ns: f64,
    /// The mass that meets the work, kg: [`FreeBody::effective_mass_kg`] at the middle of the striking surface.
    pub effective_mass_kg: f64,
    /// The mass that would be as hard to swing if all of it were in the line of the blow, kg: inertia about the grip over
    /// the squared distance. The energy of a swing is half of it times the head's squared speed.
    pub swing_mass_kg: f64,
    /// How far the handle may tilt so that flat work still touches the striking surface and not its edge.
    pub tilt: Tilt,
}

impl Frame {
    fn new(held: &Held) -> Option<Self> {
        let handle = vector(held.axis).try_normalize(0.0)?;
        let blow = Vector3::x();
        let turn = handle.cross(&blow).try_normalize(0.0)?;
        let straight = handle.z >= MOST_LEAN.cos();
        straight.then(|| Self {
            blow,
            turn,
            up: blow.cross(&turn),
            handle,
            grip: vector(held.grip_mm),
        })
    }

    /// How far `point` lies before the grip, square to the blow, mm.
    pub fn lever(&self, point: [f64; 3]) -> f64 {
        (vector(point) - self.grip).dot(&self.up)
    }
}

/// The tool of a head and a handle that are joined without play.
///
/// # Units
/// As each field of [`Tool`] and [`Blow`] says.
/// # Errors
/// Everything that is wrong with the bodies, the way they are held and what strikes: a body or a place out of bounds, a
/// handle that leans too far, a grip that is not on the handle, a balance point or a blow that does not pass before it.
///
/// # Examples
/// ```
/// use headwright::design;
/// use headwright::swing::{Body, Held, Striker, tool};
///
/// let solid = design::starter("rounding").expect("a starter").build().expect("starters are sound");
/// // A round rod of 0.25 kg, 360 mm long, its butt 320 mm below the middle of the eye.
/// let (mass_kg, length, radius) = (0.25, 360.0, 15.0);
/// let across = mass_kg * (length * length / 12.0 + radius * radius / 4.0);
/// let handle = Body {
///     mass_kg,
///     centroid_mm: [0.0, 0.0, -140.0],
///     inertia_kg_mm2: [[across, 0.0, 0.0], [0.0, across, 0.0], [0.0, 0.0, mass_kg * radius * radius / 2.0]],
/// };
/// let held = Held { grip_mm: [0.0, 0.0, -260.0], butt_mm: [0.0, 0.0, -320.0], axis: [0.0, 0.0, 1.0] };
/// let tool = tool(&Body::of_head(&solid), &handle, &held, &Striker::both(&solid))?;
/// assert!((tool.balance_from_butt_mm + tool.balance_from_eye_mm - 320.0).abs() < 1e-9);
/// # Ok::<(), Vec<headwright::swing::SwingError>>(())
/// ```
pub fn tool(
    head: &Body,
    handle: &Body,
    held: &Held,
    strikers: &[Striker; 2],
) -> Result<Tool, Vec<SwingError>> {
    let mut errors = head.check("head");
    errors.extend(handle.check("handle"));
    errors.extend(check_place("grip", held.grip_mm));
    errors.extend(check_place("butt", held.butt_mm));
    errors.extend(strikers.iter().flat_map(Striker::check));
    if strikers.map(|striker| striker.side) != Side::BOTH {
        errors.push(SwingError::Sides);
    }
    let frame = Frame::new(held);
    if frame.is_none() {
        errors.push(SwingError::Axis);
    }
    // Of what is wrong by itself no tool is made.
    let (Some(frame), []) = (frame, errors.as_slice()) else {
        return Err(errors);
    };
    let free = FreeBody::new(&Body::joined(&[*head, *handle]), "tool")?;
    let errors = check_hold(&free, &frame, held, strikers);
    if errors.is_empty() {
        Ok(Tool::new(free, frame, held, strikers))
    } else {
        Err(errors)
    }
}

/// What keeps the tool from being swung as it is held.
fn check_hold(
    free: &FreeBody,
    frame: &Frame,
    held: &Held,
    strikers: &[Striker; 2],
) -> Vec<SwingError> {
    let mut errors = Vec::new();
    let butt = vector(held.butt_mm);
    let from_butt_mm = (frame.grip - butt).dot(&frame.handle);
    let handle_mm = -butt.dot(&frame.handle);
    if !(0.0..=handle_mm).contains(&from_butt_mm) {
        errors.push(SwingError::Grip {
            from_butt_mm,
            handle_mm,
        });
    }
    let lever_mm = frame.lever(free.body().centroid_mm);
    if lever_mm < LEAST_LEVER_MM {
        errors.push(SwingError::Balance { lever_mm });
    }
    for striker in strikers {
        let lever_mm = frame.lever(striker.point_mm);
        if lever_mm < LEAST_LEVER_MM {
            let side = striker.side;
            errors.push(SwingError::BlowLine { side, lever_mm });
        }
    }
    errors
}

impl Tool {
    fn new(free: FreeBody, frame: Frame, held: &Held, strikers: &[Striker; 2]) -> Self {
        let body = *free.body();
        let mass = body.mass_kg;
        let centroid = vector(body.centroid_mm);
        let about = |point: [f64; 3], direction: Vector3<f64>| {
            body.inertia_about_line(point, direction.into())
        };
        let inertia_grip = about(held.grip_mm, frame.turn);
        let inertia_swing = about(body.centroid_mm, frame.turn);
        let lever = frame.lever(body.centroid_mm);
        let percussion = lever + inertia_swing / (mass * lever);
        let blow = |striker: Striker| {
            let line = frame.lever(striker.point_mm);
            Blow {
                striker,
                line_mm: line,
                beyond_percussion_mm: line - percussion,
                sting_per_ns: mass.recip() - lever * (line - lever) / inertia_swing,
                effective_mass_kg: free.effective_mass_kg(striker.point_mm, frame.blow.into()),
                swing_mass_kg: inertia_grip / (line * line),
                tilt: striker.tilt(),
            }
        };
        // Square to the handle's axis, towards the front.
        let forward = frame.turn.cross(&frame.handle);
        Self {
            free,
            balance_from_butt_mm: (centroid - vector(held.butt_mm)).dot(&frame.handle),
            balance_from_eye_mm: -centroid.dot(&frame.handle),
            lever_mm: lever,
            inertia_grip_kg_mm2: inertia_grip,
            inertia_swing_kg_mm2: inertia_swing,
            inertia_head_axis_kg_mm2: about([0.0; 3], frame.blow),
            inertia_handle_axis_kg_mm2: about([0.0; 3], frame.handle),
            gyration_mm: (inertia_grip / mass).sqrt(),
            percussion_mm: percussion,
            turning_moment_nmm: mass * STANDARD_GRAVITY * centroid.dot(&forward),
            hang_angle: centroid.x.atan2(PIN_HEIGHT - centroid.z),
            ends: strikers.map(blow),
            frame,
        }
    }

    /// Mass of the whole tool, kg.
    pub fn mass_kg(&self) -> f64 {
        self.free.body().mass_kg
    }

    /// What the end on `side` does.
    pub fn end(&self, side: Side) -> &Blow {
        &self.ends[side as usize]
    }
}
