//! The table of sizes: every one that is forged or filed, cold and at forging heat.

use super::Known;
use super::column::Section;
use super::ink::Anchor::{End, Start};
use crate::design::{Corner, Design, Dim, EyeOutline, Part, Size, Tip};
use crate::units::{
    Measure, System, show_angle, show_caliper, show_length, show_number, show_temperature,
    unit_word,
};

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
struct Row {
    name: String,
    cold: String,
    hot: String,
}

/// Whether a size is made with file or wheel on the cold head.
const fn is_filed(dim: Dim) -> bool {
    matches!(
        (dim.size, dim.part),
        (Size::Edge, Part::Face(_)) | (Size::MouthBreak | Size::CornerBreak, _)
    )
}

/// The part that may be as `part`: of the other end, or the other mouth.
fn twin(part: Part) -> Option<Part> {
    match part {
        Part::EyeTop => Some(Part::EyeBottom),
        Part::EyeBottom => Some(Part::EyeTop),
        Part::End(side) => Some(Part::End(side.other())),
        _ => part.size(Size::Width).mirrored().map(|dim| dim.part),
    }
}

/// What a size is called, without its part.
fn word(design: &Design, dim: Dim) -> &'static str {
    let tied = design
        .outline(dim.part)
        .filter(|outline| outline.height.is_none());
    match (dim.size, dim.part) {
        (Size::Width, _) if tied.is_some() => match tied.map(|outline| outline.corner) {
            Some(Corner::Round) => "diameter",
            Some(Corner::Octagon) => "across flats",
            _ => "width and height",
        },
        (Size::Length, Part::EyeTop | Part::EyeWaist | Part::EyeBottom)
            if design.eye.outline == EyeOutline::Round =>
        {
            "diameter"
        }
        (Size::Reach, Part::End(side)) => match design.end(side).tip {
            Tip::Face(_) => "face offset",
            Tip::Ball(_) => "reach of the pole",
            Tip::Pein(_) => "reach of the edge",
        },
        (Size::Edge, Part::Face(_)) => "broken edge",
        (Size::Edge, Part::Pein(_)) => "edge length",
        (Size::At, _) => "from axis",
        (Size::Direction, _) => "turn of the edge",
        (Size::WaistHeight, _) => "waist over the middle",
        (Size::Offset, _) => "offset",
        (Size::MouthBreak, _) => "mouths’ broken corner",
        (size, _) => size.words(),
    }
}

/// The name of a size, of one part or of both that have it alike.
fn name(design: &Design, dim: Dim, both: bool) -> String {
    let word = word(design, dim);
    match (dim.part, both) {
        (Part::EyeTop, false) => format!("eye, top mouth: {word}"),
        (Part::EyeBottom, false) => format!("eye, bottom mouth: {word}"),
        (Part::EyeTop | Part::EyeBottom, true) => format!("eye, both mouths: {word}"),
        (Part::EyeWaist, _) => format!("eye, waist: {word}"),
        (Part::End(_), true) => format!("both ends, {word}"),
        (part, true) => {
            let part = part.words();
            let rest = part.split_once(' ').map_or(part, |(_, rest)| rest);
            format!("both ends, {rest} {word}")
        }
        (part, false) => format!("{} {word}", part.words()),
    }
}

/// A length as the card's tables have it: as it was designed, or in inches as a caliper reads it.
fn cold(size: Measure, system: System) -> String {
    let text = match (size, system) {
        (Measure::Angle(angle), _) => format!("{}°", show_angle(angle)),
        (Measure::Length(length), System::Metric) => show_length(length, system),
        (Measure::Length(length), System::Imperial) => show_caliper(length.in_mm(), system),
    };
    text.replace('-', "−")
}

/// The rows of `design`, whose lengths are larger by `growth` when they are hot; what is nothing has none.
fn rows(design: &Design, growth: f64, system: System) -> Vec<Row> {
    let value = |size: Measure| match size {
        Measure::Length(length) => length.in_mm(),
        Measure::Angle(angle) => angle.in_degrees(),
    };
    let sizes: Vec<(Dim, Measure)> = design
        .sizes()
        .into_iter()
        .filter(|(_, size)| value(*size) != 0.0)
        .collect();
    let alike = |(dim, size): &(Dim, Measure), (other, second): &(Dim, Measure)| {
        twin(dim.part) == Some(other.part)
            && dim.size == other.size
            && word(design, *dim) == word(design, *other)
            && cold(*size, system) == cold(*second, system)
    };
    let row = |(index, size): (usize, &(Dim, Measure))| {
        if sizes[..index].iter().any(|before| alike(size, before)) {
            return None;
        }
        let both = sizes[index + 1..].iter().any(|after| alike(size, after));
        let (dim, size) = *size;
        let hot = match size {
            _ if is_filed(dim) => "made cold".to_owned(),
            Measure::Angle(_) => cold(size, system),
            Measure::Length(length) => {
                show_caliper(length.in_mm() * (1.0 + growth), system).replace('-', "−")
            }
        };
        Some(Row {
            name: name(design, dim, both),
            cold: cold(size, system),
            hot,
        })
    };
    sizes.iter().enumerate().filter_map(row).collect()
}

/// The section.
pub(super) fn section(known: &Known, wide: f64) -> Section {
    let (system, hot) = (known.system, &known.hot);
    let mut section = Section::new(wide, "cold and hot sizes", unit_word(system));
    let at = show_temperature(hot.celsius, system);
    let middle = wide - 24.0;
    section.head(&[(middle, End, "cold"), (wide, End, &format!("at {at}"))]);
    for row in rows(known.design, hot.growth, system) {
        section.row(&[
            (0.0, Start, &row.name),
            (middle, End, &row.cold),
            (wide, End, &row.hot),
        ]);
    }
    section.say(&format!(
        "Hot sizes are {} % larger, give or take {} % of that: EN 1993-1-2 as quoted.",
        show_number((1e4 * hot.growth).round() / 100.0),
        show_number((100.0 * hot.uncertainty).round()),
    ));
    section
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Side, starter, starter_names};
    use crate::units::{Angle, Length};

    #[test]
    fn every_size_of_a_head_is_in_a_row() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            for system in [System::Metric, System::Imperial] {
                let rows = rows(&design, 0.0148, system);
                for (dim, size) in design.sizes() {
                    let told = cold(size, system);
                    if matches!(told.as_str(), "0" | "0°" | "0.000") {
                        continue;
                    }
                    let names = [false, true].map(|both| super::name(&design, dim, both));
                    let found = rows
                        .iter()
                        .any(|row| names.contains(&row.name) && row.cold == told);
                    assert!(found, "{name}: {dim} of {told} is not on the card");
                }
            }
        }
    }

    #[test]
    fn sizes_that_ends_or_mouths_share_stand_once() {
        let design = starter("rounding").expect("a starter");
        let rows = rows(&design, 0.0148, System::Metric);
        let of = |name: &str| rows.iter().filter(|row| row.name == name).count();
        assert_eq!(of("both ends, face diameter"), 1);
        assert_eq!(of("front face diameter"), 0);
        assert_eq!(of("front face land"), 1);
        assert_eq!(of("eye, both mouths: length"), 1);
        let waist = rows.iter().find(|row| row.name == "eye, waist: length");
        assert_eq!(
            waist,
            Some(&Row {
                name: "eye, waist: length".to_owned(),
                cold: "28".to_owned(),
                hot: "28.4".to_owned(),
            })
        );
    }

    #[test]
    fn a_table_in_inches_has_one_notation() {
        let mut design = starter("rounding").expect("a starter");
        design.cheeks.outline.width = Length::inches(1.625);
        for row in rows(&design, 0.0148, System::Imperial) {
            for text in [&row.cold, &row.hot] {
                let decimal = text
                    .split_once('.')
                    .is_some_and(|(_, rest)| rest.len() == 3);
                assert!(decimal || text == "made cold", "{}: {text}", row.name);
            }
        }
    }

    #[test]
    fn an_angle_is_the_same_when_it_is_hot_and_an_edge_is_filed_cold() {
        let mut design = starter("cross").expect("a starter");
        design.end_mut(Side::Back).drop = Some(Angle::degrees(-3.0));
        let rows = rows(&design, 0.0148, System::Metric);
        let row = |words: &str| {
            let found = rows.iter().find(|row| row.name.contains(words));
            found.map(|row| (row.cold.as_str(), row.hot.as_str()))
        };
        assert_eq!(row("drop"), Some(("−3°", "−3°")));
        assert_eq!(row("broken edge").map(|(_, hot)| hot), Some("made cold"));
    }
}
