//! The made handle: everything there is to know of it.

use serde::Serialize;

use super::Handle;
use super::body::{self, HandlePart, frame, parts};
use super::check::check;
use super::error::HandleError;
use super::note::{Note, notes};
use super::seat::{Prism, Seat};
use super::silhouette::{HalfSizes, Silhouette, outline, silhouettes};
use crate::drift::SectionSize;
use crate::mass::Moments;
use crate::solid::Solid;

/// A handle that fits its head. Heights and points are those of the head, in mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Made {
    /// The parts that it has, from the butt to the end of the tongue.
    pub parts: Vec<PartMass>,
    /// Of all parts.
    pub mass_kg: f64,
    /// Where their centroid lies.
    pub centroid_mm: [f64; 3],
    /// Inertia tensor about that centroid, along the head's axes; off the diagonal −∫xy dm.
    pub inertia_kg_mm2: [[f64; 3]; 3],
    /// The middle of the hand.
    pub grip_mm: [f64; 3],
    /// The middle of the butt.
    pub butt_mm: [f64; 3],
    /// The unit vector from the butt to the head, along the true handle axis.
    pub axis: [f64; 3],
    /// Length of the handle outside the head, along it.
    pub stem_mm: f64,
    /// The tongue.
    pub tongue: TongueSize,
    /// The kerf.
    pub kerf: Option<KerfSize>,
    /// The wedge.
    pub wedge: Option<WedgeSize>,
    /// The cross wedge.
    pub cross_wedge: Option<WedgeSize>,
    /// What eye and wood measure from the lower mouth to the upper.
    pub levels: Vec<Level>,
    /// The slimmest oval between hand and head, and what it bears.
    pub strength: Strength,
    /// The wood's half-sizes along the handle, from the butt to the tongue's end.
    #[serde(skip)]
    pub outline: Vec<HalfSizes>,
    /// The outlines of the parts as they are seen.
    #[serde(skip)]
    pub silhouettes: Vec<Silhouette>,
    /// What is to be said of it.
    pub notes: Vec<Note>,
}

/// A part of the handle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PartMass {
    /// Which, for a program.
    pub part: HandlePart,
    /// Which, in words.
    pub words: &'static str,
    /// Its volume, without kerf.
    pub volume_mm3: f64,
    /// Its mass.
    pub mass_kg: f64,
}

/// The tongue as it is worked, before it is spread.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TongueSize {
    /// Its section.
    pub section: SectionSize,
    /// Its corner along the head and across it, parts of ellipses.
    pub corner_mm: [f64; 2],
    /// From the lower mouth to its end.
    pub length_mm: f64,
    /// How far of that it stands out of the upper mouth.
    pub proud_mm: f64,
}

/// The kerf.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct KerfSize {
    /// From the end of the tongue.
    pub depth_mm: f64,
    /// Across the head.
    pub width_mm: f64,
}

/// A wedge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WedgeSize {
    /// From the end of the tongue to its tip.
    pub length_mm: f64,
    /// Thickness at the end of the tongue.
    pub thick_mm: f64,
    /// Breadth: along the head, of a cross wedge across it.
    pub broad_mm: f64,
}

/// Eye and wood at one height.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Level {
    /// Its height.
    pub height_mm: f64,
    /// The eye, without the broken corners of its mouths.
    pub eye: SectionSize,
    /// Wood and wedges.
    pub wood: SectionSize,
    /// What of the eye's length they leave open, both ends together.
    pub gap_along_mm: f64,
    /// What of its width they leave open, both sides together.
    pub gap_across_mm: f64,
    /// By how much the wood is pressed together along, and across.
    pub crush_mm: [f64; 2],
}

/// What the handle bears where it is slimmest between the middle of the hand and the head: an estimate.
///
/// M = MOR·Z, with Z = π·width·depth²/32 of an ellipse bent along the head.
///
/// # Accuracy
/// The modulus of rupture is the mean of small clear pieces at 12 % moisture, loaded slowly. Blows, knots, grain that
/// runs out and old cracks make a handle break far below it.
/// # Source
/// Section modulus: any handbook of strength of materials (from memory). Modulus of rupture: [`super::Species`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Strength {
    /// From the butt.
    pub at_mm: f64,
    /// The oval: its depth along the head and its width.
    pub section: SectionSize,
    /// Section modulus against bending along the head.
    pub modulus_mm3: f64,
    /// The bending moment at which clear wood breaks; nothing for a wood whose strength is not known.
    pub moment_nm: Option<f64>,
}

/// Parts of each half of the eye, between the levels that are shown.
const STEPS: u32 = 4;

/// The handle that `handle` describes, in the eye of `solid`.
///
/// # Errors
/// Everything that is wrong with it.
pub fn make(solid: &Solid, handle: &Handle) -> Result<Made, Vec<HandleError>> {
    let seat = Seat::new(solid.head(), handle);
    let errors = check(&seat, handle);
    if !errors.is_empty() {
        return Err(errors);
    }
    let mut weighed = Moments::zero();
    let parts = parts(&seat, handle)
        .into_iter()
        .map(|(part, density, moments)| {
            let per_mm3 = density.in_kg_per_m3() * 1e-9;
            weighed = weighed.plus(&moments.times(per_mm3));
            PartMass {
                part,
                words: part.words(),
                volume_mm3: moments.volume,
                mass_kg: moments.volume * per_mm3,
            }
        })
        .collect();
    let centroid_mm = weighed.centroid();
    let axis = frame(seat.plug.lean).map(|[_, _, along]| along);
    let butt = seat.bottom * seat.slant - seat.stem;
    let on_axis = |from_butt: f64| axis.map(|part| part * (butt + from_butt));
    let levels = levels(&seat);
    let strength = strength(&seat, handle);
    let wedge_size = |prism: &Prism<f64>| WedgeSize {
        length_mm: prism.length,
        thick_mm: prism.thick,
        broad_mm: prism.broad,
    };
    Ok(Made {
        parts,
        mass_kg: weighed.volume,
        centroid_mm,
        inertia_kg_mm2: weighed.inertia_about(centroid_mm),
        grip_mm: on_axis(handle.grip.in_mm()),
        butt_mm: on_axis(0.0),
        axis,
        stem_mm: seat.stem,
        tongue: TongueSize {
            section: seat.tongue.into(),
            corner_mm: [seat.tongue.c, seat.tongue.d],
            length_mm: seat.end - seat.bottom,
            proud_mm: seat.end - seat.top,
        },
        kerf: handle.kerf.map(|kerf| KerfSize {
            depth_mm: kerf.depth.in_mm(),
            width_mm: kerf.width.in_mm(),
        }),
        wedge: seat.wedge.as_ref().map(wedge_size),
        cross_wedge: seat.cross.as_ref().map(wedge_size),
        outline: outline(&seat, handle),
        silhouettes: silhouettes(&seat, handle),
        notes: notes(&seat, handle, &levels, &strength),
        levels,
        strength,
    })
}

fn levels(seat: &Seat<f64>) -> Vec<Level> {
    let waist = seat.plug.waist_height;
    let lower = (0..STEPS).map(|step| (seat.bottom, waist, step));
    let upper = (0..=STEPS).map(|step| (waist, seat.top, step));
    lower
        .chain(upper)
        .map(|(from, to, step)| {
            level(
                seat,
                from + (to - from) * f64::from(step) / f64::from(STEPS),
            )
        })
        .collect()
}

pub(super) fn level(seat: &Seat<f64>, z: f64) -> Level {
    let eye = SectionSize::from(seat.eye_at(z));
    let [p, q] = seat.half_sizes_at(z);
    let wood = SectionSize {
        length_mm: 2.0 * p,
        width_mm: 2.0 * q,
    };
    Level {
        height_mm: z,
        eye,
        wood,
        gap_along_mm: (eye.length_mm - wood.length_mm).max(0.0),
        gap_across_mm: (eye.width_mm - wood.width_mm).max(0.0),
        crush_mm: [seat.along_at(z), seat.across_at(z)].map(|spread| 2.0 * spread.crushed),
    }
}

/// The slimmest oval lies at a station or at an end: between two, width·depth² of sizes that run straight has no
/// minimum.
fn strength(seat: &Seat<f64>, handle: &Handle) -> Strength {
    let grip = handle.grip.in_mm();
    let mut slimmest = (grip, body::oval_at(&handle.stations, grip));
    let places = handle
        .stations
        .iter()
        .map(|station| station.at.in_mm())
        .filter(|at| (grip..seat.stem).contains(at))
        .chain([seat.stem]);
    for at in places {
        let oval = body::oval_at(&handle.stations, at);
        if oval.modulus() < slimmest.1.modulus() {
            slimmest = (at, oval);
        }
    }
    let (at_mm, oval) = slimmest;
    let modulus_mm3 = oval.modulus();
    Strength {
        at_mm,
        section: SectionSize {
            length_mm: 2.0 * oval.depth,
            width_mm: 2.0 * oval.width,
        },
        modulus_mm3,
        // 1 MPa·mm³ is a thousandth of a N·m.
        moment_nm: handle
            .wood
            .modulus_of_rupture_mpa()
            .map(|mpa| mpa * modulus_mm3 * 1e-3),
    }
}
