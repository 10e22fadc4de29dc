//! The one table of limits: fields, messages, tests and the fit read it.
//!
//! | size | of | low | high | step |
//! | --- | --- | --- | --- | --- |
//! | length | cheeks | 15 | 150 | 1 |
//! | length | eye level | 6 | 80 | 0.5 |
//! | width, height | cheeks, neck, face, pein | 8 | 150 | 0.5 |
//! | width | eye level | 4 | 60 | 0.5 |
//! | corner, corner across, corner up | any section | 0.2 | 75 | 0.5 |
//! | corner radius | eye level | 0.5 | 30 | 0.5 |
//! | offset | eye | −40 | 40 | 0.25 |
//! | waist height | eye | −40 | 40 | 0.5 |
//! | distance | neck, pein | 8 | 240 | 1 |
//! | reach | end | 12 | 250 | 1 |
//! | land | face | 0.5 | 120 | 0.5 |
//! | crown radius | face | 5 | 2000 | 1 |
//! | edge | face | 0.2 | 30 | 0.25 |
//! | edge | pein | 4 | 150 | 0.5 |
//! | diameter | ball | 8 | 150 | 0.5 |
//! | neck diameter | ball | 4 | 147 | 0.5 |
//! | swell | cheeks | 0 | 20 | 0.25 |
//! | length | lugs | 10 | 150 | 1 |
//! | top, bottom | lugs | 0 | 30 | 0.5 |
//! | mouth corner break | eye | 0.2 | 10 | 0.25 |
//! | cock along, across | eye | −10° | 10° | 0.25° |
//! | drop | end | −15° | 15° | 0.25° |
//! | direction | pein | −90° | 90° | 1° |
//! | nose radius | pein | 0.5 | 40 | 0.25 |
//! | rocker radius | pein | 10 | 2000 | 1 |
//! | hollow | pein | 0 | 20 | 0.25 |
//! | corner break | pein | 0.2 | 30 | 0.25 |
//!
//! In millimetres, angles in degrees. They enclose every hammer a hand can forge with room to
//! spare (common practice, no source); what makes a head impossible is in [`crate::solid`].

use super::{Dim, Part, Size};

/// The limits of a dimension, in mm or degrees, and the step by which it counts in a fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The least value.
    pub low: f64,
    /// The greatest value.
    pub high: f64,
    /// What counts as one step: a fit that moves one dimension by one step and another by
    /// one step thinks both equally far.
    pub step: f64,
}

impl Bounds {
    const fn new(low: f64, high: f64, step: f64) -> Self {
        Self { low, high, step }
    }

    /// Whether `number` lies inside.
    pub fn contain(&self, number: f64) -> bool {
        self.low <= number && number <= self.high
    }
}

/// The limits of `dim`.
pub fn bounds(dim: Dim) -> Bounds {
    let of_eye = matches!(
        dim.part,
        Part::Eye | Part::EyeTop | Part::EyeWaist | Part::EyeBottom
    );
    match dim.size {
        Size::Length if of_eye => Bounds::new(6.0, 80.0, 0.5),
        Size::Length if dim.part == Part::Lugs => Bounds::new(10.0, 150.0, 1.0),
        Size::Length => Bounds::new(15.0, 150.0, 1.0),
        Size::Width if of_eye => Bounds::new(4.0, 60.0, 0.5),
        Size::Width | Size::Height => Bounds::new(8.0, 150.0, 0.5),
        Size::Corner | Size::CornerAcross | Size::CornerUp => Bounds::new(0.2, 75.0, 0.5),
        Size::Radius => Bounds::new(0.5, 30.0, 0.5),
        Size::Offset => Bounds::new(-40.0, 40.0, 0.25),
        Size::WaistHeight => Bounds::new(-40.0, 40.0, 0.5),
        Size::At => Bounds::new(8.0, 240.0, 1.0),
        Size::Reach => Bounds::new(12.0, 250.0, 1.0),
        Size::Land => Bounds::new(0.5, 120.0, 0.5),
        Size::Crown => Bounds::new(5.0, 2000.0, 1.0),
        Size::Edge if matches!(dim.part, Part::Pein(_)) => Bounds::new(4.0, 150.0, 0.5),
        Size::Edge => Bounds::new(0.2, 30.0, 0.25),
        Size::Diameter => Bounds::new(8.0, 150.0, 0.5),
        Size::Neck => Bounds::new(4.0, 147.0, 0.5),
        Size::Swell => Bounds::new(0.0, 20.0, 0.25),
        Size::Top | Size::Bottom => Bounds::new(0.0, 30.0, 0.5),
        Size::MouthBreak => Bounds::new(0.2, 10.0, 0.25),
        Size::CockAlong | Size::CockAcross => Bounds::new(-10.0, 10.0, 0.25),
        Size::Drop => Bounds::new(-15.0, 15.0, 0.25),
        Size::Direction => Bounds::new(-90.0, 90.0, 1.0),
        Size::Nose => Bounds::new(0.5, 40.0, 0.25),
        Size::Rocker => Bounds::new(10.0, 2000.0, 1.0),
        Size::Hollow => Bounds::new(0.0, 20.0, 0.25),
        Size::CornerBreak => Bounds::new(0.2, 30.0, 0.25),
    }
}

/// The greatest weight of a conic corner.
pub const MOST_WEIGHT: f64 = 0.95;
/// Limits of the steel's density, kg/m³: from titanium-light to tungsten-heavy is a slip of the
/// pen; every steel and bronze of a hammer lies well inside.
pub const DENSITY: (f64, f64) = (2000.0, 20000.0);
/// The longest name, in characters.
pub const LONGEST_NAME: usize = 80;
/// The longest note, in characters.
pub const LONGEST_NOTE: usize = 1000;
