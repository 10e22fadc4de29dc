//! Blows that land beside the middle of the striking surface.

use super::body::vector;
use super::error::SwingError;
use super::tool::Tool;
use crate::design::Side;

/// Roundoff that a blow on the very edge may miss it by, as a share.
const ON_EDGE: f64 = 1e-12;

/// A blow that lands `across_mm` and `along_mm` from the middle of a striking surface, per N·s of it.
///
/// Its line goes along the head's x, as that of a centred blow. The tool is free while it lasts ([`FreeBody`]).
/// With the effective masses mₑ of this blow and m₀ of a centred one, a blow of equal speed delivers mₑ/m₀ of what a
/// centred one does.
///
/// [`FreeBody`]: super::FreeBody
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffCentre {
    /// The end that strikes.
    pub side: Side,
    /// From the middle across the head, towards +y, mm.
    pub across_mm: f64,
    /// From the middle along the handle, towards the wedge side, mm.
    pub along_mm: f64,
    /// Twist about the handle, rad/s per N·s: across / inertia about the handle's axis, with the sign of `across_mm`.
    pub handle_twist_per_ns: f64,
    /// Turning in the plane of the swing beyond that of a centred blow, rad/s per N·s: along / inertia in the swing about
    /// the tool's centroid, with the sign of `along_mm`.
    pub swing_twist_per_ns: f64,
    /// Turning speed of the free tool by the whole blow, rad/s per N·s, right-handed about the axes of the crate page.
    pub turning_per_ns: [f64; 3],
    /// The mass that meets the work, kg.
    pub effective_mass_kg: f64,
    /// How the blow's energy, J²/2mₑ, is shared out among the motions that it changes.
    pub shares: Shares,
    /// The share of a centred blow's energy that no longer reaches the work, 1 − mₑ/m₀. Across, it is what goes into the
    /// twist, (e²/I)/(1/m₀ + e²/I); along, it is negative for a blow that moves towards the tool's centroid.
    pub lost_share: f64,
}

/// Shares of a blow's energy; they add up to 1.
///
/// The energy of an impulse J on a free body is ½J·v with v the speed that the struck point gains: ½J²/m for the
/// centroid, and of the turning, ½(r × J)·ω, one part about each direction. The line of the blow passes along x, so no
/// turning about x is driven.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shares {
    /// The whole tool in a straight line: mₑ/m.
    pub straight: f64,
    /// Turning in the plane of the swing.
    pub swing: f64,
    /// Twist about the handle, square to the blow.
    pub twist: f64,
}

impl Tool {
    /// What a blow does that lands off centre on the end on `side`: `[across, along]` in mm from the middle, towards +y
    /// and towards the wedge side.
    ///
    /// # Errors
    /// That it lands beside the striking surface.
    pub fn off_centre(
        &self,
        side: Side,
        [across, along]: [f64; 2],
    ) -> Result<OffCentre, Vec<SwingError>> {
        let end = self.end(side);
        let most = end.striker.reach_towards([across, along]);
        // What is no number lies on no face.
        let far = across.hypot(along);
        if !(0.0..=most * (1.0 + ON_EDGE)).contains(&far) {
            return Err(vec![SwingError::BesideFace {
                side,
                across_mm: across,
                along_mm: along,
                most_mm: most,
            }]);
        }
        let [x, y, z] = end.striker.point_mm;
        let point = [x, y + across, z + along];
        let impulse = match side {
            Side::Front => -self.frame.blow,
            Side::Back => self.frame.blow,
        };
        let body = self.free.body();
        let struck = self.free.struck(point, impulse.into());
        let turning = vector(struck.turning_rad_per_s);
        let effective = self.free.effective_mass_kg(point, impulse.into());
        let torque = (vector(point) - vector(body.centroid_mm)).cross(&impulse) * 1e-3;
        let about = |direction| torque.dot(&direction) * turning.dot(&direction) * effective;
        Ok(OffCentre {
            side,
            across_mm: across,
            along_mm: along,
            handle_twist_per_ns: across / self.inertia_handle_axis_kg_mm2 * 1e3,
            swing_twist_per_ns: along / self.inertia_swing_kg_mm2 * 1e3,
            turning_per_ns: turning.into(),
            effective_mass_kg: effective,
            shares: Shares {
                straight: effective / body.mass_kg,
                swing: about(self.frame.turn),
                twist: about(self.frame.up),
            },
            lost_share: 1.0 - effective / end.effective_mass_kg,
        })
    }
}
