//! What each size of the head is.

use headwright::design::{Dim, Part, Size};

/// What `dim` is.
pub fn said(dim: Dim) -> String {
    match dim.size {
        Size::Length => length(dim.part).to_owned(),
        Size::Width => section(dim.part, "Width", "across the head"),
        Size::Height => section(dim.part, "Height", "along the handle"),
        Size::Corner => "What is taken off each of the four corners: the leg of a chamfer, or the radius of a round.".to_owned(),
        Size::CornerAcross => "How far each rounded corner reaches across the head before the flat begins.".to_owned(),
        Size::CornerUp => "How far each rounded corner reaches along the handle before the flat begins.".to_owned(),
        Size::Radius => "Radius of the four corners of the eye’s outline.".to_owned(),
        Size::Offset => "How far the eye lies in front of the middle of the cheek block; below zero it lies behind. It is not the balance.".to_owned(),
        Size::WaistHeight => "How far the narrowest level of the eye lies above the middle of the cheek block.".to_owned(),
        Size::At => "How far from the handle’s axis this section stands.".to_owned(),
        Size::Reach => "From the handle’s axis to the farthest point of this end: its reach, of a face also called the face offset. A longer one balances the other end and twists less.".to_owned(),
        Size::Land => "The straight run behind the face, before the head goes in to the neck; it is what may be ground away over the years.".to_owned(),
        Size::Crown => "Radius of the ball that the face is a part of: a large one is nearly flat, a small one round.".to_owned(),
        Size::Edge => match dim.part {
            Part::Pein(_) => "How long the edge of the pein is, from end to end.".to_owned(),
            _ => "How much of the sharp rim is taken off: the radius of the round, or the leg of the chamfer. A sharp edge chips and marks the work.".to_owned(),
        },
        Size::Diameter => "Diameter of the ball.".to_owned() + " It is forged and ground round from its neck on.",
        Size::Neck => "Diameter of the round neck where the ball begins.".to_owned(),
        Size::Swell => "How much farther each cheek stands out beside the handle than at the ends of the block, to leave steel beside the eye.".to_owned(),
        Size::Top => "How far the upper lug stands above the block, so that the wedged end of the handle is held longer.".to_owned(),
        Size::Bottom => "How far the lower lug stands below the block, so that the handle is held longer.".to_owned(),
        Size::MouthBreak => "How much of the sharp rim of the eye is taken off at both mouths, so that it does not cut the wood.".to_owned(),
        Size::CockAlong => "How far the eye leans along the head: the top of the handle leans to the front, or below zero to the back.".to_owned(),
        Size::CockAcross => "How far the eye leans sideways, across the cheeks.".to_owned(),
        Size::Drop => "How steeply this end falls from the block outwards, as the swing comes down.".to_owned(),
        Size::Direction => "How far the edge is turned about the head: 0° lies across the handle, 90° along it.".to_owned(),
        Size::Nose => "Radius of the rounded edge: a small one bites and moves much steel, a large one leaves fewer marks.".to_owned(),
        Size::Rocker => "Radius by which the edge is curved along its length, so that its ends do not dig in.".to_owned(),
        Size::Hollow => "How deep both slopes of the pein are hollowed between its root and its edge.".to_owned(),
        Size::CornerBreak => "Radius by which the two sharp ends of the edge are rounded, so that they do not mark the work.".to_owned(),
    }
}

fn length(part: Part) -> &'static str {
    match part {
        Part::EyeTop => {
            "Length of the eye along the head at its upper mouth, where the wedge is driven."
        }
        Part::EyeWaist => "Length of the eye along the head at its waist, the narrowest level.",
        Part::EyeBottom => {
            "Length of the eye along the head at its lower mouth, where the handle comes in."
        }
        Part::Lugs => {
            "How far the lugs reach along the head, half of it on either side of the handle’s axis."
        }
        _ => "How long the block with the eye is, along the head.",
    }
}

/// A width or a height.
fn section(part: Part, size: &str, way: &str) -> String {
    let what = match part {
        Part::Cheeks | Part::Lugs => "of the cheek block at its ends",
        Part::Eye => "of the eye",
        Part::EyeTop => "of the eye at its upper mouth",
        Part::EyeWaist => "of the eye at its waist, the narrowest level",
        Part::EyeBottom => "of the eye at its lower mouth",
        Part::Neck(..) => "of the neck where it is measured",
        Part::End(_) | Part::Face(_) => "of the face, its broken edge included",
        Part::Ball(_) => "of the ball",
        Part::Pein(_) => "of the head where the pein begins",
    };
    format!("{size} {what}, {way}.")
}
