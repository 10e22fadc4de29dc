//! The usual handle for a head.

use super::{Handle, Kerf, Shoulder, Species, Station, Wedge, Wood};
use crate::handle::seat::Seat;
use crate::mass::{Order, moments};
use crate::solid::Solid;
use crate::units::Length;

/// Depth of the kerf as a share of the eye's (from memory: B. Weisgerber and B. Vachowski, An Ax to Grind, USDA Forest
/// Service 9923-2823-MTDC, 1999).
pub const USUAL_KERF_SHARE: f64 = 2.0 / 3.0;
/// By how much wood and wedge are wider than the upper mouth before they are driven, mm (common practice, no source).
pub const USUAL_CRUSH_MM: f64 = 0.5;
/// The moisture of wood in a heated shop, percent; the tables are for it.
const USUAL_MOISTURE_PERCENT: f64 = 12.0;
/// Width of the kerf, mm: that of a coarse saw (common practice, no source).
const KERF_WIDTH_MM: f64 = 2.0;
/// It takes no more than this share of a slender tongue.
const KERF_SHARE_OF_TONGUE: f64 = 0.25;
/// Length of the wedge as a share of the kerf, so that its tip never strikes the bottom (common practice, no source).
const WEDGE_SHARE: f64 = 0.9;
/// The grip's oval, mm: handle diameters of 30 mm to 40 mm suit most hands (from memory: Y. K. Kong and B. D. Lowe,
/// 2005).
const GRIP_MM: [f64; 2] = [38.0, 28.0];
/// The flare at the butt, which keeps the hand from slipping off, mm (common practice, no source).
const FLARE_MM: [f64; 2] = [42.0, 32.0];
/// Where the flare ends and where the even grip does, from the butt, mm (common practice, no source).
const GRIP_SPAN_MM: [f64; 2] = [35.0, 115.0];
/// From the butt to the middle of the hand, mm (common practice, no source).
const GRIP_MIDDLE_MM: f64 = 75.0;
/// The most oval behind the head, and its share of the mouth's size, so that the handle springs a little there (common
/// practice, no source).
const SLIM_MM: [f64; 2] = [32.0, 24.0];
const SLIM_SHARE: f64 = 0.92;
/// How far behind the head it is slimmest, mm (common practice, no source).
const SLIM_BEHIND_MM: f64 = 45.0;
/// The least length of the handle outside the head, mm: grip and slim part, and a hand's breadth between them.
const USUAL_LEAST_STEM_MM: f64 = 250.0;
/// From this mass on a head is a sledge, kg (common practice, no source).
const SLEDGE_KG: f64 = 3.0;

/// The usual length over all for a head of `head_kg`, mm, to whole centimetres.
///
/// Below 3 kg 240 mm + 120 mm·√(head's mass in kg), from 3 kg on 800 mm and 30 mm more for every kg, at most 1000 mm.
///
/// # Accuracy
/// Within 20 mm of the handles from 260 mm to 400 mm that DIN 1041 has for heads of 100 g to 2 kg (from memory).
/// # Source
/// Common practice, no source; it follows those rows, and sledges of 3 kg to 10 kg on handles of 80 cm to 100 cm in a
/// German handbook of smithing of the 19th century (Weimar, PPN618936106, p. 23).
pub fn usual_length_mm(head_kg: f64) -> f64 {
    let mm = if head_kg < SLEDGE_KG {
        240.0 + 120.0 * head_kg.max(0.0).sqrt()
    } else {
        (800.0 + 30.0 * (head_kg - SLEDGE_KG)).min(1000.0)
    };
    10.0 * (mm / 10.0).round()
}

impl Handle {
    /// The usual handle for `solid`: hickory at 12 %, with a flared grip, slim behind the head, a shoulder that fills the
    /// lower mouth, and one oak wedge that fills the upper mouth across. [`make`](super::make) makes it for every
    /// head of the tests.
    pub fn usual(solid: &Solid) -> Self {
        let head = solid.head();
        let mass_kg = moments(head, Order::default()).volume * head.density * 1e-9;
        let mut handle = Self {
            wood: Wood::Species(Species::ShagbarkHickory),
            moisture_percent: USUAL_MOISTURE_PERCENT,
            length: Length::mm(usual_length_mm(mass_kg)),
            stations: Vec::new(),
            grip: Length::mm(GRIP_MIDDLE_MM),
            shoulder: Shoulder::FillsMouth,
            proud: Length::mm(0.0),
            kerf: None,
            wedge: None,
            cross_wedge: None,
        };
        let short = USUAL_LEAST_STEM_MM - Seat::new(head, &handle).stem;
        if short > 0.0 {
            let longer = 10.0 * (short / 10.0).ceil();
            handle.length = Length::mm(handle.length.in_mm() + longer);
        }
        let seat = Seat::new(head, &handle);
        let mouth = [seat.plug.bottom.p, seat.plug.bottom.q].map(|half| 2.0 * half);
        handle.stations = stations(seat.stem, mouth);
        let depth = rounded_down(USUAL_KERF_SHARE * (seat.top - seat.bottom));
        let width = KERF_WIDTH_MM.min(rounded_down(2.0 * seat.tongue.q * KERF_SHARE_OF_TONGUE));
        handle.kerf = Some(Kerf {
            depth: Length::mm(depth),
            width: Length::mm(width),
        });
        handle.wedge = Some(Wedge {
            wood: Wood::Species(Species::WhiteOak),
            length: Length::mm(rounded_down(WEDGE_SHARE * depth)),
            thick: None,
            crush: Length::mm(USUAL_CRUSH_MM),
        });
        handle
    }
}

fn stations(stem: f64, mouth: [f64; 2]) -> Vec<Station> {
    let station = |at: f64, [depth, width]: [f64; 2]| Station {
        at: Length::mm(at),
        depth: Length::mm(depth),
        width: Length::mm(width),
    };
    let slim = [0, 1].map(|k| {
        let share = rounded_down(mouth[k] * SLIM_SHARE);
        share.min(SLIM_MM[k]).max(super::STATION_MM.least)
    });
    let [flared, held] = GRIP_SPAN_MM;
    vec![
        station(0.0, FLARE_MM),
        station(flared, GRIP_MM),
        station(held, GRIP_MM),
        station(rounded_down(stem - SLIM_BEHIND_MM), slim),
        station(rounded_down(stem), mouth),
    ]
}

/// To tenths and not above `mm`.
fn rounded_down(mm: f64) -> f64 {
    (mm * 10.0).floor() / 10.0
}
