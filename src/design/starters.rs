//! Heads to begin with. All are invented for this program; none is a copy of a hammer that
//! exists.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    Ball, Cheeks, Corner, Crown, Design, Dim, Edge, End, Eye, EyeLevel, EyeOutline, Face, Holds,
    Neck, Outline, Part, Pein, Purpose, Range, Side, Size, Tip, Transition, Wall,
};
use crate::bar::{Bar, BarSection};
use crate::handle::Handle;
use crate::heat::Heat;
use crate::units::{Angle, Density, Length, LengthNotation, Measure, Rule};

/// One starter, before it is made into a design.
struct Sketch {
    name: &'static str,
    note: &'static str,
    purpose: Purpose,
    /// The unit its sizes are written in.
    unit: fn(f64) -> Length,
    cheeks: (f64, f64, f64, Corner),
    eye: EyeSketch,
    /// How much further out the cheeks stand at the handle axis, where they do.
    swell: Option<f64>,
    /// The station before each tip: distance, across, corner. A pein begins there.
    necks: [(f64, f64, Corner); 2],
    tips: [TipSketch; 2],
    bar: BarSection,
}

/// Outline, then length and width at the mouths and at the waist.
struct EyeSketch {
    outline: EyeOutline,
    mouth: (f64, f64),
    waist: (f64, f64),
}

/// What an end is worked into.
enum TipSketch {
    Face(FaceSketch),
    /// Reach, diameter, neck.
    Ball(f64, f64, f64),
    Pein(PeinSketch),
}

/// Reach, width, land, crown.
struct FaceSketch {
    corner: Corner,
    reach: f64,
    across: f64,
    land: f64,
    crown: f64,
    edge: Edge,
}

/// Angles in degrees.
struct PeinSketch {
    reach: f64,
    direction: f64,
    edge: f64,
    nose: f64,
    rocker: Option<f64>,
    hollow: Option<f64>,
    corner_break: f64,
    drop: Option<f64>,
}

const fn mm(value: f64) -> Length {
    Length::mm(value)
}

const fn chamfer(size: f64) -> Corner {
    Corner::Chamfer { size: mm(size) }
}

const fn chamfer_in(size: f64) -> Corner {
    Corner::Chamfer {
        size: Length::inches(size),
    }
}

const fn rounded(radius: f64) -> Corner {
    Corner::Rounded { radius: mm(radius) }
}

const fn obround(mouth: (f64, f64), waist: (f64, f64)) -> EyeSketch {
    EyeSketch {
        outline: EyeOutline::Obround,
        mouth,
        waist,
    }
}

const fn ellipse(mouth: (f64, f64), waist: (f64, f64)) -> EyeSketch {
    EyeSketch {
        outline: EyeOutline::Ellipse,
        mouth,
        waist,
    }
}

const fn face(corner: Corner, reach: f64, across: f64, land: f64, crown: f64) -> TipSketch {
    TipSketch::Face(FaceSketch {
        corner,
        reach,
        across,
        land,
        crown,
        edge: Edge::Rounded(mm(2.0)),
    })
}

const fn face_in(reach: f64, across: f64, land: f64, crown: f64) -> TipSketch {
    TipSketch::Face(FaceSketch {
        corner: ROUND,
        reach,
        across,
        land,
        crown,
        edge: Edge::Rounded(Length::inches(0.0625)),
    })
}

const fn round_bar(across: f64) -> BarSection {
    BarSection::Round {
        diameter: mm(across),
    }
}

const fn square_bar(across: f64) -> BarSection {
    BarSection::square(mm(across))
}

const OCTAGON: Corner = Corner::Octagon;
const ROUND: Corner = Corner::Round;

static SKETCHES: [(&str, Sketch); 13] = [
    (
        "light",
        Sketch {
            name: "Light bench hammer",
            note: "For small work and for a first hammer.",
            purpose: Purpose::General,
            unit: mm,
            cheeks: (34.0, 32.0, 32.0, chamfer(4.0)),
            eye: ellipse((24.0, 16.0), (22.0, 14.0)),
            swell: None,
            necks: [(23.0, 26.0, OCTAGON), (23.0, 26.0, OCTAGON)],
            tips: [
                face(ROUND, 50.0, 28.0, 11.0, 120.0),
                face(ROUND, 50.0, 28.0, 11.0, 45.0),
            ],
            bar: square_bar(32.0),
        },
    ),
    (
        "planishing",
        Sketch {
            name: "Planishing hammer",
            note: "Two quiet faces, one flatter than the other.",
            purpose: Purpose::Planishing,
            unit: mm,
            cheeks: (36.0, 34.0, 34.0, OCTAGON),
            eye: ellipse((25.0, 17.0), (23.0, 15.0)),
            swell: None,
            necks: [(25.0, 27.0, ROUND), (25.0, 27.0, ROUND)],
            tips: [
                face(ROUND, 55.0, 32.0, 9.0, 400.0),
                face(ROUND, 55.0, 32.0, 9.0, 150.0),
            ],
            bar: round_bar(36.0),
        },
    ),
    (
        "ball",
        Sketch {
            name: "Ball hammer",
            note: "A flat face, and a ball to spread rivets and to sink sheet with.",
            purpose: Purpose::Planishing,
            unit: mm,
            cheeks: (38.0, 36.0, 37.0, OCTAGON),
            eye: ellipse((27.0, 19.0), (25.0, 17.0)),
            swell: None,
            necks: [(26.0, 29.0, OCTAGON), (26.0, 27.0, ROUND)],
            tips: [
                face(ROUND, 58.0, 34.0, 14.0, 250.0),
                TipSketch::Ball(68.0, 34.0, 23.0),
            ],
            bar: round_bar(38.0),
        },
    ),
    (
        "straight",
        Sketch {
            name: "Straight pein hammer",
            note: "The pein lies along the handle, to spread with; its edge is rocked.",
            purpose: Purpose::Drawing,
            unit: mm,
            cheeks: (40.0, 40.0, 40.0, chamfer(6.0)),
            eye: obround((29.0, 20.0), (27.0, 18.0)),
            swell: None,
            necks: [(28.0, 33.0, OCTAGON), (25.0, 36.0, chamfer(7.0))],
            tips: [
                face(ROUND, 58.0, 37.0, 14.0, 220.0),
                TipSketch::Pein(PeinSketch {
                    reach: 70.0,
                    direction: 90.0,
                    edge: 36.0,
                    nose: 4.0,
                    rocker: Some(120.0),
                    hollow: None,
                    corner_break: 3.0,
                    drop: None,
                }),
            ],
            bar: square_bar(40.0),
        },
    ),
    (
        "rounding",
        Sketch {
            name: "Rounding hammer",
            note: "One face nearly flat to finish with, one round to draw with.",
            purpose: Purpose::Drawing,
            unit: mm,
            cheeks: (42.0, 42.0, 42.0, chamfer(6.0)),
            eye: obround((30.0, 21.0), (28.0, 19.0)),
            swell: None,
            necks: [(29.0, 35.0, OCTAGON), (29.0, 35.0, OCTAGON)],
            tips: [
                face(ROUND, 54.0, 39.0, 12.0, 200.0),
                face(ROUND, 54.0, 39.0, 10.0, 48.0),
            ],
            bar: round_bar(45.0),
        },
    ),
    (
        "square",
        Sketch {
            name: "Square-faced hammer",
            note: "Square faces with rounded corners, for shoulders and scrolls.",
            purpose: Purpose::Corners,
            unit: mm,
            cheeks: (42.0, 43.0, 43.0, rounded(5.0)),
            eye: obround((30.0, 21.0), (28.0, 19.0)),
            swell: None,
            necks: [(30.0, 36.0, chamfer(7.0)), (30.0, 36.0, chamfer(7.0))],
            tips: [
                face(rounded(6.0), 58.0, 38.0, 14.0, 250.0),
                face(rounded(6.0), 58.0, 38.0, 14.0, 80.0),
            ],
            bar: square_bar(45.0),
        },
    ),
    (
        "cross",
        Sketch {
            name: "Cross pein hammer",
            note: "The pein lies across the handle, to draw with; it drops a little, as the swing does.",
            purpose: Purpose::Drawing,
            unit: mm,
            cheeks: (42.0, 42.0, 42.0, chamfer(6.0)),
            eye: obround((30.0, 21.0), (28.0, 19.0)),
            swell: None,
            necks: [(29.0, 35.0, OCTAGON), (27.0, 38.0, chamfer(8.0))],
            tips: [
                face(ROUND, 61.0, 39.0, 15.0, 220.0),
                TipSketch::Pein(PeinSketch {
                    reach: 74.0,
                    direction: 0.0,
                    edge: 38.0,
                    nose: 5.0,
                    rocker: None,
                    hollow: Some(1.5),
                    corner_break: 3.0,
                    drop: Some(4.0),
                }),
            ],
            bar: square_bar(45.0),
        },
    ),
    (
        "short",
        Sketch {
            name: "Short-faced hammer",
            note: "Weight close to the handle: it turns easily and twists little.",
            purpose: Purpose::General,
            unit: mm,
            cheeks: (44.0, 50.0, 48.0, chamfer(7.0)),
            eye: obround((32.0, 22.0), (30.0, 20.0)),
            swell: None,
            necks: [(29.0, 44.0, OCTAGON), (29.0, 44.0, OCTAGON)],
            tips: [
                face(ROUND, 49.0, 48.0, 11.0, 220.0),
                face(ROUND, 49.0, 48.0, 11.0, 90.0),
            ],
            bar: round_bar(50.0),
        },
    ),
    (
        "long",
        Sketch {
            name: "Long-faced hammer",
            note: "Weight far from the handle: it reaches into corners and stays on its path.",
            purpose: Purpose::Corners,
            unit: mm,
            cheeks: (40.0, 40.0, 40.0, chamfer(6.0)),
            eye: obround((29.0, 20.0), (27.0, 18.0)),
            swell: None,
            necks: [(30.0, 30.0, OCTAGON), (30.0, 30.0, OCTAGON)],
            tips: [
                face(ROUND, 75.0, 34.0, 16.0, 180.0),
                face(ROUND, 75.0, 34.0, 16.0, 60.0),
            ],
            bar: square_bar(40.0),
        },
    ),
    (
        "shop",
        Sketch {
            name: "Shop hammer in inches",
            note: "Every size on the sixteenths of an inch rule.",
            purpose: Purpose::General,
            unit: Length::inches,
            cheeks: (1.75, 1.75, 1.75, chamfer_in(0.25)),
            eye: obround((1.25, 0.875), (1.125, 0.75)),
            swell: None,
            necks: [(1.1875, 1.5, OCTAGON), (1.1875, 1.5, OCTAGON)],
            tips: [
                face_in(2.3125, 1.6875, 0.5, 8.0),
                face_in(2.3125, 1.6875, 0.5, 2.0),
            ],
            bar: BarSection::Round {
                diameter: Length::inches(1.75),
            },
        },
    ),
    (
        "diagonal",
        Sketch {
            name: "Diagonal pein hammer",
            note: "The pein lies between, to draw with the elbow at ease; the cheeks swell beside the eye.",
            purpose: Purpose::Drawing,
            unit: mm,
            cheeks: (45.0, 44.0, 46.0, rounded(6.0)),
            eye: obround((32.0, 22.0), (30.0, 20.0)),
            swell: Some(2.0),
            necks: [(31.0, 40.0, OCTAGON), (29.0, 42.0, OCTAGON)],
            tips: [
                face(ROUND, 63.0, 44.0, 15.0, 250.0),
                TipSketch::Pein(PeinSketch {
                    reach: 72.0,
                    direction: 45.0,
                    edge: 42.0,
                    nose: 6.0,
                    rocker: None,
                    hollow: None,
                    corner_break: 4.0,
                    drop: Some(3.0),
                }),
            ],
            bar: round_bar(50.0),
        },
    ),
    (
        "heavy",
        Sketch {
            name: "Heavy hand hammer",
            note: "For moving steel in few heats.",
            purpose: Purpose::Drawing,
            unit: mm,
            cheeks: (48.0, 52.0, 52.0, OCTAGON),
            eye: obround((33.0, 23.0), (31.0, 21.0)),
            swell: None,
            necks: [(33.0, 44.0, ROUND), (33.0, 44.0, ROUND)],
            tips: [
                face(ROUND, 62.0, 48.0, 14.0, 250.0),
                face(ROUND, 62.0, 48.0, 13.0, 70.0),
            ],
            bar: round_bar(55.0),
        },
    ),
    (
        "sledge",
        Sketch {
            name: "Striker’s sledge",
            note: "For two hands; keep the faces broad and the edges broken.",
            purpose: Purpose::Striking,
            unit: mm,
            cheeks: (58.0, 58.0, 58.0, chamfer(9.0)),
            eye: obround((40.0, 27.0), (37.0, 25.0)),
            swell: None,
            necks: [(41.0, 50.0, OCTAGON), (41.0, 50.0, OCTAGON)],
            tips: [
                face(OCTAGON, 80.0, 55.0, 20.0, 300.0),
                face(OCTAGON, 80.0, 55.0, 20.0, 120.0),
            ],
            bar: square_bar(60.0),
        },
    ),
];

/// The names of the starters, one word each, lightest first.
pub fn starter_names() -> impl Iterator<Item = &'static str> {
    SKETCHES.iter().map(|(word, _)| *word)
}

/// The starter called `word`.
pub fn starter(word: &str) -> Option<Design> {
    SKETCHES
        .iter()
        .find(|(name, _)| *name == word)
        .map(|(_, sketch)| sketch.design())
}

/// What the starter called `word` is for.
pub fn starter_purpose(word: &str) -> Option<Purpose> {
    SKETCHES
        .iter()
        .find(|(name, _)| *name == word)
        .map(|(_, sketch)| sketch.purpose)
}

impl Sketch {
    fn design(&self) -> Design {
        let unit = self.unit;
        let (length, width, height, corner) = self.cheeks;
        let level = |(length, width): (f64, f64)| EyeLevel {
            length: unit(length),
            width: Some(unit(width)),
            radius: None,
        };
        let end = |index: usize| {
            let (at, across, corner) = self.necks[index];
            let station = Outline::equal(unit(across), corner);
            let (reach, tip) = match &self.tips[index] {
                TipSketch::Face(face) => {
                    let tip = Tip::Face(Face {
                        outline: Outline::equal(unit(face.across), face.corner),
                        land: unit(face.land),
                        crown: Crown::Radius(unit(face.crown)),
                        edge: face.edge,
                    });
                    (face.reach, tip)
                }
                TipSketch::Ball(reach, diameter, neck) => {
                    let tip = Tip::Ball(Ball {
                        diameter: unit(*diameter),
                        neck: unit(*neck),
                    });
                    (*reach, tip)
                }
                TipSketch::Pein(pein) => {
                    let tip = Tip::Pein(Pein {
                        at: unit(at),
                        outline: station,
                        direction: Angle::degrees(pein.direction),
                        edge: unit(pein.edge),
                        nose: unit(pein.nose),
                        rocker: pein.rocker.map(unit),
                        hollow: pein.hollow.map(unit),
                        corner_break: Some(unit(pein.corner_break)),
                    });
                    return End {
                        necks: Vec::new(),
                        transition: Transition::Smooth,
                        reach: unit(pein.reach),
                        drop: pein.drop.map(Angle::degrees),
                        tip,
                    };
                }
            };
            End {
                necks: vec![Neck {
                    at: unit(at),
                    outline: station,
                    transition: Transition::Smooth,
                }],
                transition: Transition::Smooth,
                reach: unit(reach),
                drop: None,
                tip,
            }
        };
        let mut design = Design {
            name: self.name.to_owned(),
            note: self.note.to_owned(),
            density: Density::STEEL,
            cheeks: Cheeks {
                length: unit(length),
                outline: Outline::new(unit(width), unit(height), corner),
                offset: unit(0.0),
                swell: self.swell.map(unit),
                lugs: None,
            },
            eye: Eye {
                outline: self.eye.outline,
                top: level(self.eye.mouth),
                waist: level(self.eye.waist),
                bottom: level(self.eye.mouth),
                waist_height: unit(0.0),
                wall: Wall::Straight,
                cock_along: None,
                cock_across: None,
                mouth_break: None,
            },
            front: end(0),
            back: end(1),
            holds: Holds::default(),
            free: BTreeMap::new(),
            alike: BTreeSet::new(),
            bar: Bar {
                section: self.bar,
                rule: self.rule(),
                ..Bar::default()
            },
            handle: Handle::default(),
            heat: Heat::default(),
        };
        design.free = design.default_free();
        design.alike = design.default_alike();
        design.handle = design.usual_handle();
        design
    }

    /// The rule that its sizes lie on.
    fn rule(&self) -> Rule {
        match (self.unit)(1.0).notation() {
            LengthNotation::InchDecimal | LengthNotation::InchFraction => Rule::SIXTEENTH,
            LengthNotation::Millimetre | LengthNotation::Centimetre => Rule::MILLIMETRE,
        }
    }
}

/// How far a fit may take a dimension that is free by default, as shares of its value.
const REACH: (f64, f64) = (0.75, 1.4);

impl Design {
    /// The dimensions that are free when nobody has said otherwise, with their limits: both
    /// reaches, and width and height of the cheeks. Eye, faces, crowns and offset are what the
    /// smith chose the head for; they stay.
    pub fn default_free(&self) -> BTreeMap<Dim, Range> {
        let dims = [
            Part::End(Side::Front).size(Size::Reach),
            Part::End(Side::Back).size(Size::Reach),
            Part::Cheeks.size(Size::Width),
            Part::Cheeks.size(Size::Height),
        ];
        let ranges = |dim| Some((dim, self.default_range(dim)?));
        // One after the other: collecting would sort them first.
        let mut free = BTreeMap::new();
        free.extend(dims.into_iter().filter_map(ranges));
        free
    }

    /// Limits for a dimension that is set free: three quarters to seven fifths of its value, in
    /// whole millimetres, degrees or eighths of an inch, and inside its bounds.
    pub fn default_range(&self, dim: Dim) -> Option<Range> {
        let value = self.size(dim)?;
        let limits = super::bounds(dim);
        let inches = matches!(value, Measure::Length(length) if matches!(
            length.notation(),
            LengthNotation::InchDecimal | LengthNotation::InchFraction
        ));
        let step = if inches { 25.4 / 8.0 } else { 1.0 };
        let (a, b) = (value.number() * REACH.0, value.number() * REACH.1);
        let low = ((a.min(b) / step).floor() * step).clamp(limits.low, limits.high);
        let high = ((a.max(b) / step).ceil() * step).clamp(limits.low, limits.high);
        Some(Range {
            low: value.with_number(low),
            high: value.with_number(high),
        })
    }
}
