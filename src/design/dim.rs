//! The names of the dimensions: which part, which size of it.

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// An end of the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Side {
    /// Towards +x.
    Front,
    /// Towards −x.
    Back,
}

impl Side {
    /// Both, front first.
    pub const BOTH: [Side; 2] = [Side::Front, Side::Back];

    /// The end opposite.
    pub const fn other(self) -> Self {
        match self {
            Side::Front => Side::Back,
            Side::Back => Side::Front,
        }
    }

    /// "front" or "back".
    pub fn word(self) -> &'static str {
        match self {
            Side::Front => "front",
            Side::Back => "back",
        }
    }
}

/// A part of the head that has dimensions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Part {
    /// The cheek block.
    Cheeks,
    /// The eye as a whole.
    Eye,
    /// The eye's mouth on the wedge side.
    EyeTop,
    /// The eye's narrowest level.
    EyeWaist,
    /// The eye's mouth on the grip side.
    EyeBottom,
    /// A neck of an end, counted from 0 outwards.
    Neck(Side, u8),
    /// An end as a whole.
    End(Side),
    /// The face of an end.
    Face(Side),
    /// The ball of an end.
    Ball(Side),
    /// The lugs of the cheek block.
    Lugs,
    /// The pein of an end.
    Pein(Side),
}

/// A size of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Size {
    /// Length along the head.
    Length,
    /// Full width across the head.
    Width,
    /// Full height along the handle.
    Height,
    /// Leg of a chamfered corner or radius of a rounded one.
    Corner,
    /// Size of a conic corner across the head.
    CornerAcross,
    /// Size of a conic corner along the handle.
    CornerUp,
    /// Corner radius of the eye.
    Radius,
    /// The eye in front of the block's middle.
    Offset,
    /// The waist above the block's middle.
    WaistHeight,
    /// Distance from the handle axis.
    At,
    /// Farthest point from the handle axis.
    Reach,
    /// Straight run behind a face.
    Land,
    /// Crown radius.
    Crown,
    /// Size of the broken rim.
    Edge,
    /// Diameter of a ball.
    Diameter,
    /// Diameter of a ball's neck.
    Neck,
    /// The cheeks beyond straight at the handle axis.
    Swell,
    /// Height of the upper lug.
    Top,
    /// Height of the lower lug.
    Bottom,
    /// Size of the broken corner at the mouths of the eye.
    MouthBreak,
    /// Lean of the handle towards the front.
    CockAlong,
    /// Lean of the handle towards +y.
    CockAcross,
    /// How steeply an end falls.
    Drop,
    /// Turn of a pein's edge about the head.
    Direction,
    /// Radius of a pein's nose.
    Nose,
    /// Radius of a pein's edge along its length.
    Rocker,
    /// Depth of the hollow in a pein's slopes.
    Hollow,
    /// Radius of the broken ends of a pein's edge.
    CornerBreak,
}

const SIZES: [(Size, &str, &str); 28] = [
    (Size::Length, "length", "length"),
    (Size::Width, "width", "width"),
    (Size::Height, "height", "height"),
    (Size::Corner, "corner", "corner"),
    (Size::CornerAcross, "corner_across", "corner across"),
    (Size::CornerUp, "corner_up", "corner up"),
    (Size::Radius, "radius", "corner radius"),
    (Size::Offset, "offset", "eye offset"),
    (Size::WaistHeight, "waist_height", "waist height"),
    (Size::At, "at", "distance"),
    (Size::Reach, "reach", "face offset"),
    (Size::Land, "land", "land"),
    (Size::Crown, "crown", "crown radius"),
    (Size::Edge, "edge", "edge"),
    (Size::Diameter, "diameter", "diameter"),
    (Size::Neck, "neck", "neck diameter"),
    (Size::Swell, "swell", "swell"),
    (Size::Top, "top", "top height"),
    (Size::Bottom, "bottom", "bottom height"),
    (Size::MouthBreak, "mouth_break", "mouth corner break"),
    (Size::CockAlong, "cock_along", "cock along the head"),
    (Size::CockAcross, "cock_across", "cock across the head"),
    (Size::Drop, "drop", "drop"),
    (Size::Direction, "direction", "direction"),
    (Size::Nose, "nose", "nose radius"),
    (Size::Rocker, "rocker", "rocker radius"),
    (Size::Hollow, "hollow", "hollow"),
    (Size::CornerBreak, "corner_break", "corner break"),
];

const PARTS: [(Part, &str, &str); 18] = [
    (Part::Cheeks, "cheeks", "cheek"),
    (Part::Eye, "eye", "eye"),
    (Part::EyeTop, "eye.top", "eye top"),
    (Part::EyeWaist, "eye.waist", "eye waist"),
    (Part::EyeBottom, "eye.bottom", "eye bottom"),
    (Part::Neck(Side::Front, 0), "front.neck1", "front neck 1"),
    (Part::Neck(Side::Front, 1), "front.neck2", "front neck 2"),
    (Part::End(Side::Front), "front", "front"),
    (Part::Face(Side::Front), "front.face", "front face"),
    (Part::Neck(Side::Back, 0), "back.neck1", "back neck 1"),
    (Part::Neck(Side::Back, 1), "back.neck2", "back neck 2"),
    (Part::End(Side::Back), "back", "back"),
    (Part::Face(Side::Back), "back.face", "back face"),
    (Part::Ball(Side::Front), "front.ball", "front ball"),
    (Part::Ball(Side::Back), "back.ball", "back ball"),
    (Part::Lugs, "cheeks.lugs", "lug"),
    (Part::Pein(Side::Front), "front.pein", "front pein"),
    (Part::Pein(Side::Back), "back.pein", "back pein"),
];

/// A dimension: a size of a part. Written as a path, such as `front.face.width`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dim {
    /// The part.
    pub part: Part,
    /// Which size of it.
    pub size: Size,
}

impl Part {
    /// The dimension `size` of this part.
    pub const fn size(self, size: Size) -> Dim {
        Dim { part: self, size }
    }

    /// The part in words: "front face".
    pub fn words(self) -> &'static str {
        PARTS
            .iter()
            .find(|(part, ..)| *part == self)
            .map_or("neck", |(.., words)| words)
    }
}

impl Size {
    /// The size in words: "crown radius".
    pub fn words(self) -> &'static str {
        SIZES
            .iter()
            .find(|(size, ..)| *size == self)
            .map_or("size", |(.., words)| words)
    }
}

impl Part {
    /// The end that the part belongs to; nothing for cheeks and eye.
    pub const fn side(self) -> Option<Side> {
        match self {
            Self::Neck(side, _)
            | Self::End(side)
            | Self::Face(side)
            | Self::Ball(side)
            | Self::Pein(side) => Some(side),
            Self::Cheeks
            | Self::Lugs
            | Self::Eye
            | Self::EyeTop
            | Self::EyeWaist
            | Self::EyeBottom => None,
        }
    }

    /// The same part of the other end.
    const fn mirrored(self) -> Option<Self> {
        Some(match self {
            Self::Neck(side, index) => Self::Neck(side.other(), index),
            Self::End(side) => Self::End(side.other()),
            Self::Face(side) => Self::Face(side.other()),
            Self::Ball(side) => Self::Ball(side.other()),
            Self::Pein(side) => Self::Pein(side.other()),
            _ => return None,
        })
    }
}

impl Dim {
    /// The end that it belongs to; nothing for cheeks and eye.
    pub const fn side(self) -> Option<Side> {
        self.part.side()
    }

    /// The same size of the other end, which it may be as: nothing for cheeks, eye and the
    /// reaches, which set the balance.
    pub const fn mirrored(self) -> Option<Self> {
        match (self.part.mirrored(), self.size) {
            (None, _) | (_, Size::Reach) => None,
            (Some(part), size) => Some(part.size(size)),
        }
    }

    /// Whether it is measured in degrees.
    pub const fn is_angle(self) -> bool {
        matches!(
            self.size,
            Size::CockAlong | Size::CockAcross | Size::Drop | Size::Direction
        )
    }

    /// The dimension in words: "front face width", "cheek length", "eye offset".
    pub fn words(self) -> String {
        match self.size {
            Size::Offset => self.size.words().to_owned(),
            Size::WaistHeight => format!("eye {}", self.size.words()),
            Size::Edge if matches!(self.part, Part::Pein(_)) => {
                format!("{} edge length", self.part.words())
            }
            _ => format!("{} {}", self.part.words(), self.size.words()),
        }
    }
}

impl fmt::Display for Dim {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let part = PARTS
            .iter()
            .find(|(part, ..)| *part == self.part)
            .map_or("", |(_, path, _)| path);
        let size = SIZES
            .iter()
            .find(|(size, ..)| *size == self.size)
            .map_or("", |(_, path, _)| path);
        write!(f, "{part}.{size}")
    }
}

/// A text that names no dimension.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("There is no dimension called “{0}”; a name looks like cheeks.length or front.reach.")]
pub struct ParseDimError(String);

impl FromStr for Dim {
    type Err = ParseDimError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let unknown = || ParseDimError(text.chars().take(40).collect());
        let (part, size) = text.rsplit_once('.').ok_or_else(unknown)?;
        let (part, ..) = PARTS
            .iter()
            .find(|(_, path, _)| *path == part)
            .ok_or_else(unknown)?;
        let (size, ..) = SIZES
            .iter()
            .find(|(_, path, _)| *path == size)
            .ok_or_else(unknown)?;
        Ok(part.size(*size))
    }
}

impl Serialize for Dim {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Dim {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for Dim {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Dim".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "string",
            "description": "Path of a dimension, such as front.face.width.",
            "pattern": r"^[a-z0-9]+(\.[a-z0-9_]+)+$",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_path_reads_back_as_the_dimension_it_names() {
        for (part, ..) in PARTS {
            for (size, ..) in SIZES {
                let dim = part.size(size);
                assert_eq!(dim.to_string().parse(), Ok(dim));
            }
        }
    }

    #[test]
    fn a_foreign_path_is_refused_in_a_sentence() {
        let error = "front.neck9.width"
            .parse::<Dim>()
            .expect_err("no such neck");
        assert!(error.to_string().contains("front.neck9.width"), "{error}");
    }
}
