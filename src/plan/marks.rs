//! Marks on the billet: where eye, cheeks and necks come.

use super::need::AreaCurve;
use crate::design::{Part, Side};
use crate::solid::Solid;
use crate::units::Rule;

/// What a mark stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The middle of the eye, where the punch goes in.
    Eye,
    /// An end of the cheeks.
    Cheeks(Side),
    /// A neck, counted from 0 outwards.
    Neck(Side, u8),
}

impl Place {
    /// The place in words: "front end of the cheeks".
    pub fn words(self) -> String {
        match self {
            Self::Eye => "middle of the eye".to_owned(),
            Self::Cheeks(side) => format!("{} end of the cheeks", side.word()),
            Self::Neck(side, index) => Part::Neck(side, index).words().to_owned(),
        }
    }
}

/// A mark to be set on the billet with a centre punch: chalk burns off in the fire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What it stands for.
    pub place: Place,
    /// x of the place on the finished head, mm.
    pub x_mm: f64,
    /// Distance from the end that the marks are measured from, mm.
    pub exact_mm: f64,
    /// The same on the nearest division of the rule, mm.
    pub at_mm: f64,
    /// What rounding leaves over, mm: positive where the mark is set short.
    pub left_over_mm: f64,
    /// From the mark on the rule to the other end, mm.
    pub rest_mm: f64,
}

/// The marks of a billet in the order in which they are met from one of its ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Marks {
    /// The end that they are measured from: the one that becomes this end of the head.
    pub from: Side,
    /// Length of the billet, mm.
    pub length_mm: f64,
    /// The marks.
    pub marks: Vec<Mark>,
}

/// Marks of the billet of `length_mm`, measured `from` one of its ends on `rule`.
///
/// On both sides of the exact mark the billet has the volume that the head needs on that side, losses included.
pub(super) fn marks(
    solid: &Solid,
    curve: &AreaCurve,
    from: Side,
    length_mm: f64,
    rule: Rule,
) -> Marks {
    let head = solid.head();
    let mut places = vec![(Place::Eye, 0.0)];
    for side in Side::BOTH {
        let way = if side == Side::Front { 1.0 } else { -1.0 };
        let runs = &head.end(side).runs;
        // The last run ends where the tip begins.
        let stations = runs.iter().take(runs.len().saturating_sub(1));
        for (index, run) in stations.enumerate() {
            let place = match index.checked_sub(1) {
                None => Place::Cheeks(side),
                Some(neck) => Place::Neck(side, neck as u8),
            };
            places.push((place, way * run.to));
        }
    }
    let mut marks: Vec<Mark> = places
        .into_iter()
        .map(|(place, x_mm)| {
            let from_back = curve.from_back_mm(x_mm);
            let exact_mm = match from {
                Side::Front => length_mm - from_back,
                Side::Back => from_back,
            };
            let at_mm = rule.round_nearest(exact_mm);
            Mark {
                place,
                x_mm,
                exact_mm,
                at_mm,
                left_over_mm: exact_mm - at_mm,
                rest_mm: length_mm - at_mm,
            }
        })
        .collect();
    marks.sort_by(|a, b| a.exact_mm.total_cmp(&b.exact_mm));
    Marks {
        from,
        length_mm,
        marks,
    }
}
