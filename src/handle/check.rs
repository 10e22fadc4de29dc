//! The one place that says whether a handle can be made.

use super::error::{
    CROSS_LENGTH_MM, CROSS_THICK_MM, CROSS_WIDTH_MM, CRUSH_MM, HandleError, KERF_DEPTH_MM,
    KERF_WIDTH_MM, LEAST_STEM_MM, LEAST_WOOD_MM, LENGTH_MM, LONGEST_WOOD_NAME, MOISTURE_PERCENT,
    MOST_STATIONS, PROUD_MM, SPECIFIC_GRAVITY, STATION_MM, WEDGE_LENGTH_MM, WEDGE_THICK_MM,
};
use super::seat::Seat;
use super::{Handle, Wood};
use crate::bar::Limit;
use crate::units::Length;

/// What a comparison of lengths may be off by and still be none, mm: far below any size, far above roundoff.
const ROUNDOFF_MM: f64 = 1e-9;

/// Everything that is wrong with `handle` in the eye it is seated in.
pub(super) fn check(seat: &Seat<f64>, handle: &Handle) -> Vec<HandleError> {
    let mut errors = Vec::new();
    sizes(handle, &mut errors);
    wood("handle", &handle.wood, &mut errors);
    if let Some(wedge) = &handle.wedge {
        wood("wedge", &wedge.wood, &mut errors);
    }
    if !MOISTURE_PERCENT.admits(handle.moisture_percent) {
        errors.push(HandleError::Moisture {
            percent: handle.moisture_percent,
        });
    }
    stem(seat, handle, &mut errors);
    tongue(seat, handle, &mut errors);
    errors
}

fn sizes(handle: &Handle, errors: &mut Vec<HandleError>) {
    let mut size = |what: &'static str, length: Length, limit: Limit| {
        let mm = length.in_mm();
        if !limit.admits(mm) {
            errors.push(HandleError::Size { what, mm, limit });
        }
    };
    size("The length of the handle", handle.length, LENGTH_MM);
    size(
        "What the tongue stands out of the eye",
        handle.proud,
        PROUD_MM,
    );
    if let Some(kerf) = &handle.kerf {
        size("The depth of the kerf", kerf.depth, KERF_DEPTH_MM);
        size("The width of the kerf", kerf.width, KERF_WIDTH_MM);
    }
    if let Some(wedge) = &handle.wedge {
        size("The length of the wedge", wedge.length, WEDGE_LENGTH_MM);
        size("The crush of the wedge", wedge.crush, CRUSH_MM);
        if let Some(thick) = wedge.thick {
            size("The thickness of the wedge", thick, WEDGE_THICK_MM);
        }
    }
    if let Some(cross) = &handle.cross_wedge {
        size(
            "The length of the cross wedge",
            cross.length,
            CROSS_LENGTH_MM,
        );
        size(
            "The thickness of the cross wedge",
            cross.thick,
            CROSS_THICK_MM,
        );
        size("The width of the cross wedge", cross.width, CROSS_WIDTH_MM);
    }
}

fn wood(of: &'static str, wood: &Wood, errors: &mut Vec<HandleError>) {
    let Wood::Own {
        name,
        specific_gravity,
    } = wood
    else {
        return;
    };
    if name.trim().is_empty() || name.chars().count() > LONGEST_WOOD_NAME {
        errors.push(HandleError::WoodName { of });
    }
    if !SPECIFIC_GRAVITY.admits(*specific_gravity) {
        errors.push(HandleError::SpecificGravity {
            of,
            value: *specific_gravity,
        });
    }
}

fn stem(seat: &Seat<f64>, handle: &Handle, errors: &mut Vec<HandleError>) {
    let length_mm = handle.length.in_mm();
    let stem_mm = seat.stem;
    // What is no number is refused above; it must not be refused here a second time.
    if stem_mm < LEAST_STEM_MM - ROUNDOFF_MM {
        errors.push(HandleError::TooShort {
            length_mm,
            stem_mm,
            least_mm: length_mm - stem_mm + LEAST_STEM_MM,
        });
    }
    let on_the_stem = Limit {
        least: 0.0,
        most: if stem_mm.is_finite() {
            stem_mm.max(0.0) + ROUNDOFF_MM
        } else {
            f64::MAX
        },
    };
    let grip = handle.grip.in_mm();
    if !on_the_stem.admits(grip) {
        errors.push(HandleError::Grip { mm: grip, stem_mm });
    }
    let count = handle.stations.len();
    if !(1..=MOST_STATIONS).contains(&count) {
        errors.push(HandleError::StationCount { count });
    }
    // What the head covers of the stations does no harm: so a handle fits a head that grows.
    let on_the_handle = Limit {
        least: 0.0,
        most: if length_mm.is_finite() {
            length_mm + ROUNDOFF_MM
        } else {
            f64::MAX
        },
    };
    let mut before: Option<f64> = None;
    for (number, station) in (1..).zip(&handle.stations) {
        let at = station.at.in_mm();
        if !on_the_handle.admits(at) {
            errors.push(HandleError::StationPlace {
                number,
                mm: at,
                length_mm,
            });
        }
        if let Some(before_mm) = before.filter(|before| at <= *before) {
            errors.push(HandleError::StationOrder {
                number,
                mm: at,
                before_mm,
            });
        }
        before = Some(at);
        for (size, length) in [("depth", station.depth), ("width", station.width)] {
            let mm = length.in_mm();
            if !STATION_MM.admits(mm) {
                errors.push(HandleError::StationSize { number, size, mm });
            }
        }
    }
}

fn tongue(seat: &Seat<f64>, handle: &Handle, errors: &mut Vec<HandleError>) {
    let tongue_mm = seat.end - seat.bottom;
    let width = 2.0 * seat.tongue.q;
    let mut depth = |what: &'static str, length: Length| {
        let mm = length.in_mm();
        if mm > tongue_mm + ROUNDOFF_MM {
            errors.push(HandleError::TooDeep {
                what,
                mm,
                tongue_mm,
            });
        }
    };
    if let Some(kerf) = &handle.kerf {
        depth("The kerf", kerf.depth);
    }
    if let Some(cross) = &handle.cross_wedge {
        depth("The cross wedge", cross.length);
        if cross.width.in_mm() > width + ROUNDOFF_MM {
            errors.push(HandleError::CrossTooWide {
                mm: cross.width.in_mm(),
                tongue_mm: width,
            });
        }
    }
    if let Some(kerf) = &handle.kerf
        && kerf.width.in_mm() > width - 2.0 * LEAST_WOOD_MM + ROUNDOFF_MM
    {
        errors.push(HandleError::KerfTooWide {
            mm: kerf.width.in_mm(),
            tongue_mm: width,
        });
    }
    for (what, prism, half) in [
        ("The wedge", &seat.wedge, seat.plug.top.q),
        ("The cross wedge", &seat.cross, seat.plug.top.p),
    ] {
        // Where the tongue stands out, its wedge is thickest above the mouth.
        let thickness = prism.as_ref().map(|prism| prism.thick);
        if let Some(mm) = thickness.filter(|mm| *mm >= 2.0 * half && mm.is_finite()) {
            errors.push(HandleError::TooThick {
                what,
                mm,
                eye_mm: 2.0 * half,
            });
        }
    }
    let Some(wedge) = &handle.wedge else {
        return;
    };
    let (mm, proud_mm) = (wedge.length.in_mm(), handle.proud.in_mm());
    match &handle.kerf {
        None => errors.push(HandleError::NoKerf),
        Some(kerf) if mm > kerf.depth.in_mm() + ROUNDOFF_MM => {
            errors.push(HandleError::WedgeTooLong {
                mm,
                kerf_mm: kerf.depth.in_mm(),
            });
        }
        Some(_) => {}
    }
    if proud_mm > 0.0 && mm < proud_mm + WEDGE_LENGTH_MM.least {
        errors.push(HandleError::WedgeTooShort { mm, proud_mm });
    }
}
