//! What is wrong with a design, each in a sentence that says what, where and the limit.

use std::fmt;

use super::{Dim, Side};
use crate::bar::Limit;
use crate::handle::HandleError;
use crate::units::{Length, Measure, System};

/// A reason why a design is not sound. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum DesignError {
    /// A dimension is outside the table of bounds, or not a number.
    OutOfBounds {
        /// The dimension.
        dim: Dim,
        /// Its value.
        value: Measure,
        /// The least it may be, mm or degrees.
        low: f64,
        /// The most it may be.
        high: f64,
    },
    /// Something of the finished tool is held, and its handle cannot be made.
    Handle(HandleError),
    /// A corner is larger than half of its section.
    CornerTooLarge {
        /// The section, in words.
        part: &'static str,
        /// "width" or "height".
        across: &'static str,
        /// The corner.
        corner: f64,
        /// Half the width or height.
        most: f64,
    },
    /// The weight of a conic corner is outside 0 to 0.95.
    Weight {
        /// The section, in words.
        part: &'static str,
        /// The weight.
        weight: f64,
        /// The most it may be.
        most: f64,
    },
    /// The eye's corners need more than its length or width.
    EyeCorner {
        /// The level, in words.
        part: &'static str,
        /// "long" or "wide".
        direction: &'static str,
        /// Its length or width.
        size: f64,
        /// What the corners need.
        least: f64,
    },
    /// The eye does not stay clear of the ends of the cheek block.
    EyeTooLong {
        /// Length of the eye.
        eye: f64,
        /// Length of the cheek block.
        block: f64,
        /// Length that the block needs.
        least: f64,
        /// What is needed beyond the eye.
        wall: f64,
        /// The offset of the eye.
        offset: f64,
    },
    /// A cheek is too thin beside the eye.
    ThinWall {
        /// The wall.
        wall: f64,
        /// The least it may be.
        least: f64,
        /// Where, above the middle of the block.
        height: f64,
        /// Width of the eye there.
        eye: f64,
        /// Width that the cheeks need, where their sides are flat.
        width: Option<f64>,
    },
    /// The neck of a ball is as thick as the ball.
    BallNeck {
        /// The end.
        side: Side,
        /// Diameter of the ball.
        ball: f64,
        /// Diameter of its neck.
        neck: f64,
        /// The most that may be.
        most: f64,
    },
    /// The nose of a pein is thicker than the pein or reaches behind its start.
    Nose {
        /// The end.
        side: Side,
        /// Its radius.
        nose: f64,
        /// The most it may be.
        most: f64,
    },
    /// The hollow of a pein leaves no steel.
    Hollow {
        /// The end.
        side: Side,
        /// Its depth.
        hollow: f64,
        /// The most it may be.
        most: f64,
    },
    /// The rocker of a pein is too round.
    Rocker {
        /// The end.
        side: Side,
        /// Its radius.
        rocker: f64,
        /// The least it may be.
        least: f64,
    },
    /// The broken ends take the whole edge of a pein.
    CornerBreak {
        /// The end.
        side: Side,
        /// Their radius.
        size: f64,
        /// The most it may be.
        most: f64,
    },
    /// The lugs are longer than the cheek block.
    Lugs {
        /// Their length.
        length: f64,
        /// The most it may be.
        most: f64,
    },
    /// The lugs are so steep that a leaning eye would pierce them twice.
    LugSlope {
        /// The least length they may have.
        least: f64,
    },
    /// The waist is too near to a mouth.
    Waist {
        /// Its height.
        height: f64,
        /// How far from the middle it may be.
        most: f64,
    },
    /// Two stations touch or are out of order.
    Stations {
        /// The end.
        side: Side,
        /// The inner station, in words.
        inner: String,
        /// Where it is.
        inner_at: f64,
        /// The outer station, in words.
        outer: String,
        /// Where it is.
        outer_at: f64,
        /// How far apart they must be.
        least: f64,
    },
    /// The crown is too round for its face.
    Crown {
        /// The end.
        side: Side,
        /// The crown radius.
        radius: f64,
        /// The least it may be.
        least: f64,
    },
    /// The land ends before the corners of the crown do.
    Land {
        /// The end.
        side: Side,
        /// The land.
        land: f64,
        /// The least it may be.
        least: f64,
    },
    /// The broken rim takes the whole face.
    Edge {
        /// The end.
        side: Side,
        /// Its size.
        edge: f64,
        /// The most it may be.
        most: f64,
    },
    /// The density is no metal's.
    Density {
        /// g/cm³.
        density: f64,
        /// The least.
        low: f64,
        /// The most.
        high: f64,
    },
    /// Too many necks on an end.
    Necks {
        /// The end.
        side: Side,
        /// How many.
        count: usize,
        /// The most there may be.
        most: usize,
    },
    /// A name or note is too long.
    TextTooLong {
        /// "name" or "note".
        what: &'static str,
        /// Its characters.
        length: usize,
        /// The most.
        most: usize,
    },
    /// A hold or a range that cannot be.
    Target {
        /// What it is for, in words.
        what: String,
        /// What is wrong with it.
        problem: &'static str,
    },
    /// A free dimension that the design does not have.
    NoSuchSize(Dim),
}

/// A length in mm as a sentence says it, with its unit; what is something is never said to be 0 mm.
pub(crate) fn length_in_words(mm: f64, system: System) -> String {
    Measure::from(Length::mm(mm)).told([mm; 2], system)
}

/// A length in mm that is refused beside the limits it is told with.
pub(crate) fn refused_length(mm: f64, limit: Limit, system: System) -> String {
    Measure::from(Length::mm(mm)).told([limit.least, limit.most], system)
}

impl DesignError {
    /// The sentence, with lengths in the units that the smith reads.
    pub fn sentence(&self, system: System) -> String {
        let show = |mm: f64| length_in_words(mm, system);
        match self {
            Self::OutOfBounds {
                dim,
                value,
                low,
                high,
            } => format!(
                "The {} is {}; it must be between {} and {}.",
                dim.words(),
                if value.number().is_finite() {
                    value.told([*low, *high], system)
                } else {
                    "not a number".to_owned()
                },
                value.with_number(*low).words(system),
                value.with_number(*high).words(system)
            ),
            Self::Handle(error) => error.sentence(system),
            Self::CornerTooLarge {
                part,
                across,
                corner,
                most,
            } => format!(
                "The {part} corner takes {} of the {across}, more than half. Make it at most {}.",
                show(*corner),
                show(*most)
            ),
            Self::Weight { part, weight, most } => format!(
                "The weight of the {part} corner is {weight}; it must be between 0 and {most}."
            ),
            Self::EyeCorner {
                part,
                direction,
                size,
                least,
            } => format!(
                "The {part} is {} {direction}, but its round ends need {}. Make it at least {} \
                 {direction}, or its corners smaller.",
                show(*size),
                show(*least),
                show(*least)
            ),
            Self::EyeTooLong {
                eye,
                block,
                least,
                wall,
                offset,
            } => {
                let moved = if *offset == 0.0 {
                    String::new()
                } else {
                    format!(" with the eye {} off its middle", show(offset.abs()))
                };
                let only = if block <= eye { "only " } else { "" };
                format!(
                    "The eye is {} long but the cheek block {only}{}{moved}. Lengthen the cheeks \
                     to at least {} ({} beyond the eye at each end) or shorten the eye.",
                    show(*eye),
                    show(*block),
                    show(*least),
                    show(*wall)
                )
            }
            Self::ThinWall {
                wall,
                least,
                height,
                eye,
                width,
            } => {
                let place = if height.abs() < 0.05 {
                    "at the middle".to_owned()
                } else {
                    let way = if *height > 0.0 { "above" } else { "below" };
                    format!("{} {way} the middle", show(height.abs()))
                };
                if *least == 0.0 {
                    return format!(
                        "The waist of the eye is {} wide {place}, wider than the cheeks are \
                         there, and the eye narrows again towards the mouth. Narrow the waist, \
                         widen the mouth or move the waist towards the middle.",
                        show(*eye)
                    );
                }
                let beside = format!("beside the eye, which is {} wide {place}", show(*eye));
                let wall = if *wall > 0.0 {
                    format!("The cheeks are {} thick {beside}", show(*wall))
                } else {
                    format!("The cheeks leave no wall {beside}")
                };
                let widen = width
                    .map(|width| format!(" to at least {}", show(width)))
                    .unwrap_or_default();
                format!(
                    "{wall}; they must keep {}. Widen the cheeks{widen} or narrow the eye.",
                    show(*least)
                )
            }
            Self::BallNeck {
                side,
                ball,
                neck,
                most,
            } => format!(
                "The {} ball is {} across and its neck {}; the neck may be at most {}. Make the \
                 ball larger or the neck thinner.",
                side.word(),
                show(*ball),
                show(*neck),
                show(*most)
            ),
            Self::Nose { side, nose, most } => format!(
                "The nose of the {} pein has a radius of {}, more than the pein has room for. \
                 Make it at most {}.",
                side.word(),
                show(*nose),
                show(*most)
            ),
            Self::Hollow { side, hollow, most } => format!(
                "The hollow of the {} pein is {} deep, which leaves no steel between its slopes. \
                 Make it at most {}.",
                side.word(),
                show(*hollow),
                show(*most)
            ),
            Self::Rocker {
                side,
                rocker,
                least,
            } => format!(
                "The rocker of the {} pein has a radius of {}, too round for its edge. Make it at \
                 least {}.",
                side.word(),
                show(*rocker),
                show(*least)
            ),
            Self::CornerBreak { side, size, most } => format!(
                "The corner break of the {} pein is {}, which leaves nothing of the edge. Make it \
                 at most {}.",
                side.word(),
                show(*size),
                show(*most)
            ),
            Self::Lugs { length, most } => format!(
                "The lugs are {} long, longer than the cheek block leaves room for about the \
                 handle axis. Make them at most {} or lengthen the cheeks.",
                show(*length),
                show(*most)
            ),
            Self::LugSlope { least } => format!(
                "The lugs rise so steeply that the eye would leave their sides and come back into \
                 them. Make them at least {} long, or lower.",
                show(*least)
            ),
            Self::Waist { height, most } => format!(
                "The waist of the eye is {} from the middle; it must lie inside both mouths, at \
                 most {} from the middle.",
                show(height.abs()),
                show(*most)
            ),
            Self::Stations {
                side,
                inner,
                inner_at,
                outer,
                outer_at,
                least,
            } => format!(
                "At the {}, {outer} begins {} from the handle axis and {inner} is at {}. They must \
                 follow each other outwards, at least {} apart.",
                side.word(),
                show(*outer_at),
                show(*inner_at),
                show(*least)
            ),
            Self::Crown {
                side,
                radius,
                least,
            } => format!(
                "The crown radius of the {} face is {}, too round for its outline. Make it at \
                 least {}.",
                side.word(),
                show(*radius),
                show(*least)
            ),
            Self::Land { side, land, least } => format!(
                "The land of the {} face is {}, but its crown and edge come down {} at the \
                 corners. Make the land at least {}.",
                side.word(),
                show(*land),
                show(*least),
                show(*least)
            ),
            Self::Edge { side, edge, most } => format!(
                "The edge of the {} face takes {}, which leaves nothing of the face. Make it at \
                 most {}.",
                side.word(),
                show(*edge),
                show(*most)
            ),
            Self::Density { density, low, high } => format!(
                "The density is {density} g/cm³; it must be between {low} and {high} g/cm³."
            ),
            Self::Necks { side, count, most } => {
                format!(
                    "The {} has {count} necks; an end has at most {most}.",
                    side.word()
                )
            }
            Self::TextTooLong { what, length, most } => {
                format!("The {what} has {length} characters; it may have at most {most}.")
            }
            Self::Target { what, problem } => format!("The {what} {problem}."),
            Self::NoSuchSize(dim) => {
                format!("This head has no {} that could be free.", dim.words())
            }
        }
    }
}

impl DesignError {
    /// The limit alone, for a head that stands on it: "cheek wall, at least 6 mm".
    pub fn limit(&self, system: System) -> String {
        let show = |mm: f64| length_in_words(mm, system);
        let face = |side: &Side| format!("{} face", side.word());
        let pein = |side: &Side| format!("{} pein", side.word());
        match self {
            Self::OutOfBounds {
                dim,
                value,
                low,
                high,
            } => {
                let limit = |number: f64| value.with_number(number).words(system);
                format!("{}, {} to {}", dim.words(), limit(*low), limit(*high))
            }
            Self::Handle(error) => error.sentence(system),
            Self::CornerTooLarge {
                part, across, most, ..
            } => format!("{part} corner, at most {}, half the {across}", show(*most)),
            Self::EyeCorner {
                part,
                direction,
                least,
                ..
            } => format!(
                "{part}, at least {} {direction} for its round ends",
                show(*least)
            ),
            Self::EyeTooLong { wall, .. } => {
                format!("steel before and behind the eye, at least {}", show(*wall))
            }
            Self::ThinWall { least, .. } => format!("cheek wall, at least {}", show(*least)),
            Self::BallNeck { side, most, .. } => {
                format!("{} ball’s neck, at most {}", side.word(), show(*most))
            }
            Self::Nose { side, most, .. } => {
                format!("{} nose radius, at most {}", pein(side), show(*most))
            }
            Self::Hollow { side, most, .. } => {
                format!("{} hollow, at most {}", pein(side), show(*most))
            }
            Self::Rocker { side, least, .. } => {
                format!("{} rocker radius, at least {}", pein(side), show(*least))
            }
            Self::CornerBreak { side, most, .. } => {
                format!("{} corner break, at most {}", pein(side), show(*most))
            }
            Self::Lugs { most, .. } => format!("lug length, at most {}", show(*most)),
            Self::LugSlope { least } => format!("lug length, at least {}", show(*least)),
            Self::Waist { most, .. } => {
                format!("waist of the eye, at most {} from the middle", show(*most))
            }
            Self::Stations {
                side,
                inner,
                outer,
                least,
                ..
            } => format!(
                "{inner} and {outer} at the {}, at least {} apart",
                side.word(),
                show(*least)
            ),
            Self::Crown { side, least, .. } => {
                format!("{} crown radius, at least {}", face(side), show(*least))
            }
            Self::Land { side, least, .. } => {
                format!("{} land, at least {}", face(side), show(*least))
            }
            Self::Edge { side, most, .. } => {
                format!("{} edge, at most {}", face(side), show(*most))
            }
            Self::Weight { .. }
            | Self::Density { .. }
            | Self::Necks { .. }
            | Self::TextTooLong { .. }
            | Self::Target { .. }
            | Self::NoSuchSize(_) => self.sentence(system),
        }
    }
}

impl fmt::Display for DesignError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl std::error::Error for DesignError {}
