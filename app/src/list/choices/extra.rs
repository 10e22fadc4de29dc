//! What a part may do without.

use leptos::prelude::*;

use super::super::super::pick::Tick;
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Design, Dim, Edit, Lugs, Part, Size};
use headwright::solid::Head;
use headwright::units::{Angle, LengthNotation, MM_PER_INCH, Measure};

/// The sizes that `part` may do without, with words for having them and the value to begin with,
/// in mm or degrees. All lugs are one.
fn extras(part: Part) -> Vec<(Dim, &'static str, f64)> {
    let sizes: &[(Size, &'static str, f64)] = match part {
        Part::Cheeks => &[(Size::Swell, "with swell", 1.5)],
        Part::Lugs => &[(Size::Length, "with lugs", 6.0)],
        Part::Eye => &[
            (Size::MouthBreak, "with broken mouths", 0.75),
            (Size::CockAlong, "cocked along the head", 1.0),
            (Size::CockAcross, "cocked across the head", 1.0),
        ],
        Part::End(_) => &[(Size::Drop, "with drop", 3.0)],
        Part::Pein(_) => &[
            (Size::Rocker, "with rocker", 120.0),
            (Size::Hollow, "with hollow", 1.5),
            (Size::CornerBreak, "with corner break", 3.0),
        ],
        _ => &[],
    };
    let with_dim = |(size, words, start): &(Size, _, _)| (part.size(*size), *words, *start);
    sizes.iter().map(with_dim).collect()
}

/// Boxes to tick for all that `part` may do without.
#[component]
pub fn Extras(
    /// The part.
    part: Part,
) -> impl IntoView {
    let workspace = Workspace::here();
    let of = words::heading(if part == Part::Lugs {
        Part::Cheeks
    } else {
        part
    });
    extras(part)
        .into_iter()
        .map(|(dim, label, start)| {
            let choose = move |on: bool| {
                let edit = workspace.design.with_untracked(|d| match (on, part) {
                    (true, _) => added(d, dim, start),
                    (false, Part::Lugs) => Edit::Lugs(None),
                    (false, _) => Edit::Optional(dim, None),
                });
                workspace.apply(edit);
            };
            view! {
                <Tick
                    label=label
                    of=of
                    on=Signal::derive(move || workspace.design.with(|d| d.size(dim).is_some()))
                    choose=choose
                />
            }
        })
        .collect_view()
}

/// Adds `dim` with the value `start`, or a gentler one where the head has no room for that.
fn added(design: &Design, dim: Dim, start: f64) -> Edit {
    let sharper = [1.0, 0.5, 0.25].map(|share| start * share);
    let mut numbers = sharper.into_iter().map(|number| match dim.size {
        // The greater the radius, the gentler.
        Size::Rocker => start * start / number,
        _ => number,
    });
    let add = |number| add(design, dim, number);
    numbers
        .clone()
        .map(add)
        .find(|edit| design.apply(edit.clone()).build().is_ok())
        .or_else(|| numbers.next().map(add))
        .unwrap_or(Edit::Optional(dim, None))
}

fn add(design: &Design, dim: Dim, number: f64) -> Edit {
    let unit = design.cheeks.length;
    // An inch for 24 mm: multiples of 1.5 mm are then sixteenths.
    let length = |mm: f64| match unit.notation() {
        LengthNotation::Millimetre | LengthNotation::Centimetre => unit.with_mm(mm),
        _ => unit.with_mm(mm / 24.0 * MM_PER_INCH),
    };
    if dim.part == Part::Lugs {
        let head = Head::lift(design, &mut |_, number| number);
        let [front, back] = [0, 1].map(|end| head.ends[end].block_end());
        // About three quarters of what the block has room for.
        let long = length((front.min(back) * 0.5).floor() * 3.0);
        let (top, bottom) = (length(number), length(number));
        return Edit::Lugs(Some(Lugs {
            length: long,
            top,
            bottom,
        }));
    }
    let start = if dim.is_angle() {
        Measure::from(Angle::degrees(number))
    } else {
        Measure::from(length(number))
    };
    Edit::Optional(dim, Some(start))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Side, starter, starter_names};

    /// All parts that may do without something.
    fn parts() -> Vec<Part> {
        let mut parts = vec![Part::Cheeks, Part::Lugs, Part::Eye];
        parts.extend(Side::BOTH.map(Part::End));
        parts.extend(Side::BOTH.map(Part::Pein));
        parts
    }

    #[test]
    fn every_starter_stays_sound_with_one_thing_more_and_without_it() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            for (dim, words, start) in parts().into_iter().flat_map(extras) {
                let with = design.apply(added(&design, dim, start));
                assert_eq!(with.build().err(), None, "{name} {words}");
                let pein = matches!(dim.part, Part::Pein(_));
                assert_eq!(
                    with.size(dim).is_some(),
                    !pein || design.size(dim.part.size(Size::Nose)).is_some(),
                    "{name} {words}"
                );
                let none = match dim.part {
                    Part::Lugs => Edit::Lugs(None),
                    _ => Edit::Optional(dim, None),
                };
                let without = with.apply(none);
                assert_eq!(without.size(dim), None, "{name} {words}");
                assert_eq!(without.build().err(), None, "{name} {words}");
            }
        }
    }

    #[test]
    fn every_starter_stays_sound_with_everything_at_once() {
        for name in starter_names() {
            let mut design = starter(name).expect("a starter");
            for (dim, words, start) in parts().into_iter().flat_map(extras) {
                design = design.apply(added(&design, dim, start));
                assert_eq!(design.build().err(), None, "{name} {words}");
            }
        }
    }

    #[test]
    fn a_head_in_inches_gets_sixteenths() {
        let design = starter("shop").expect("a starter");
        let swell = Part::Cheeks.size(Size::Swell);
        let size = design.apply(added(&design, swell, 1.5)).size(swell);
        assert_eq!(
            size.map(|size| size.to_string()).as_deref(),
            Some("1/16 in")
        );
    }
}
