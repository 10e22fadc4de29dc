//! The usual handle for a head.

use super::{Handle, Kerf, LENGTH_MM, STATION_MM, Shoulder, Species, Station, Wedge, Wood};
use crate::handle::seat::Seat;
use crate::mass::{Order, moments};
use crate::solid::Solid;
use crate::units::{Length, LengthNotation, MM_PER_INCH, System};

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
/// From this mass on a head is a sledge for two hands, kg: hand hammers of a smith end there (Weimar, PPN618936106,
/// p. 23, its figures read from a bad copy).
const SLEDGE_KG: f64 = 2.5;
/// The mass of the lightest sledge that a length is known of, kg, and that length, mm.
const LIGHTEST_SLEDGE: (f64, f64) = (3.0, 800.0);

/// The usual length over all for a head of `head_kg`, mm, to whole centimetres.
///
/// Below 2.5 kg 240 mm + 120 mm·√(head's mass in kg), from there on 800 mm and 30 mm more for every kg beyond 3 kg, at
/// most 1000 mm.
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
        let (kg, mm) = LIGHTEST_SLEDGE;
        (mm + 30.0 * (head_kg - kg).max(0.0)).min(1000.0)
    };
    10.0 * (mm / 10.0).round()
}

/// The lengths that a smith writes in one of the two systems.
#[derive(Clone, Copy)]
struct Written(System);

impl Written {
    /// In the system of `length`.
    fn like(length: Length) -> Self {
        Self(length.notation().system())
    }

    fn just(self, mm: f64) -> Length {
        let notation = match self.0 {
            System::Metric => LengthNotation::Millimetre,
            System::Imperial => LengthNotation::InchFraction,
        };
        Length::new(mm, notation)
    }

    /// Not above `mm`: to tenths of a millimetre, or to a thirty-second of an inch.
    fn down(self, mm: f64) -> Length {
        let (unit, parts) = match self.0 {
            System::Metric => (1.0, 10.0),
            System::Imperial => (MM_PER_INCH, 32.0),
        };
        // What lies on a division stays there.
        self.just((mm / unit * parts + 1e-9).floor() / parts * unit)
    }

    /// `mm`, or the nearest part of an inch, of which there are `per_inch`.
    fn near(self, mm: f64, per_inch: f64) -> Length {
        self.just(match self.0 {
            System::Metric => mm,
            System::Imperial => (mm / MM_PER_INCH * per_inch).round() / per_inch * MM_PER_INCH,
        })
    }
}

/// By which an inch is divided for what is worked by hand and eye, and for what is sawn.
const SIXTEENTHS: f64 = 16.0;
const SIXTY_FOURTHS: f64 = 64.0;

impl Handle {
    /// The usual handle for `solid`, its lengths written in `system`: hickory at 12 %, with a flared grip, slim behind the
    /// head, a shoulder that fills the lower mouth, and one oak wedge that fills the upper mouth across.
    /// [`make`](super::make) makes it for every head of the tests.
    pub fn usual(solid: &Solid, system: System) -> Self {
        let head = solid.head();
        let written = Written(system);
        let mass_kg = moments(head, Order::default()).volume * head.density * 1e-9;
        let mut length = written.near(usual_length_mm(mass_kg), 4.0);
        let short = USUAL_LEAST_STEM_MM - Seat::new(head, &bare(length)).stem;
        if short > 0.0 {
            // Whole centimetres, or half inches, more.
            let step = written.near(10.0, 2.0).in_mm();
            length = written.just(length.in_mm() + step * (short / step).ceil());
        }
        Self::usual_of_length(solid, length)
    }

    /// As [`Handle::usual`], but `length` over all, in whose system all lengths are written.
    pub fn usual_of_length(solid: &Solid, length: Length) -> Self {
        let written = Written::like(length);
        let mut handle = bare(length);
        let seat = Seat::new(solid.head(), &handle);
        let mouth = [seat.plug.bottom.p, seat.plug.bottom.q].map(|half| 2.0 * half);
        handle.stations = stations(written, seat.stem, mouth);
        let depth = written.down(USUAL_KERF_SHARE * (seat.top - seat.bottom));
        let most = written.down(2.0 * seat.tongue.q * KERF_SHARE_OF_TONGUE);
        let width = written.near(KERF_WIDTH_MM, SIXTY_FOURTHS);
        handle.kerf = Some(Kerf {
            depth,
            width: if most.in_mm() < width.in_mm() {
                most
            } else {
                width
            },
        });
        handle.wedge = Some(Wedge {
            wood: Wood::Species(Species::WhiteOak),
            length: written.down(WEDGE_SHARE * depth.in_mm()),
            thick: None,
            crush: written.near(USUAL_CRUSH_MM, SIXTY_FOURTHS),
        });
        handle
    }

    /// This handle `length` over all: what lies nearer to the head than to the grip stays as far from the head. From or to
    /// a length that no handle has nothing moves, so that a good length afterwards finds the ovals in their order.
    #[must_use]
    pub fn with_length(&self, length: Length) -> Self {
        let longer = length.in_mm() - self.length.in_mm();
        let middle = 0.5 * (self.grip.in_mm() + self.length.in_mm());
        let mut handle = self.clone();
        handle.length = length;
        if ![self.length, length]
            .iter()
            .all(|one| LENGTH_MM.admits(one.in_mm()))
        {
            return handle;
        }
        for station in &mut handle.stations {
            if station.at.in_mm() > middle {
                station.at = station.at.with_mm(station.at.in_mm() + longer);
            }
        }
        handle
    }
}

/// Hickory of this length, nothing worked on it yet.
fn bare(length: Length) -> Handle {
    Handle {
        wood: Wood::Species(Species::ShagbarkHickory),
        moisture_percent: USUAL_MOISTURE_PERCENT,
        length,
        stations: Vec::new(),
        grip: Written::like(length).near(GRIP_MIDDLE_MM, SIXTEENTHS),
        shoulder: Shoulder::FillsMouth,
        proud: Length::mm(0.0),
        kerf: None,
        wedge: None,
        cross_wedge: None,
    }
}

/// 350 mm long and without a kerf: what stands for a handle where no head is known.
impl Default for Handle {
    fn default() -> Self {
        let mut handle = bare(Length::mm(350.0));
        handle.stations = stations(Written(System::Metric), 300.0, SLIM_MM);
        handle
    }
}

fn stations(written: Written, stem: f64, mouth: [f64; 2]) -> Vec<Station> {
    let station = |at: Length, [depth, width]: [Length; 2]| Station { at, depth, width };
    let worked = |mm: f64| written.near(mm, SIXTEENTHS);
    let slim = [0, 1].map(|k| {
        let share = written.down(mouth[k] * SLIM_SHARE);
        let most = worked(SLIM_MM[k]);
        if share.in_mm() > most.in_mm() {
            most
        } else if share.in_mm() < STATION_MM.least {
            written.just(STATION_MM.least)
        } else {
            share
        }
    });
    let [flared, held] = GRIP_SPAN_MM.map(worked);
    vec![
        station(written.just(0.0), FLARE_MM.map(worked)),
        station(flared, GRIP_MM.map(worked)),
        station(held, GRIP_MM.map(worked)),
        station(written.down(stem - SLIM_BEHIND_MM), slim),
        station(written.down(stem), mouth.map(|mm| written.just(mm))),
    ]
}
