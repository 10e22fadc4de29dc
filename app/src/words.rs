//! The words of the list, of steps and of states.

use headwright::bar::{Bar, BarSection};
use headwright::design::{
    Corner, Crown, Design, DesignError, Dim, Edge, Edit, EyeOutline, Part, Side, Size, Tip,
    Transition, Wall,
};
use headwright::heat::{Aim, Heat};
use headwright::units::{
    Angle, Density, Length, MM_PER_INCH, Mass, Measure, System, UnitError, degrees, parse_mass,
    parse_ratio, show_length, show_number, show_temperature, unit_word,
};

pub use headwright::mass::balance_words as balance;
pub use headwright::units::show_about as about_number;

mod handle;

/// The part under whose heading the sizes of `part` stand in the list: the levels of the eye
/// under the eye, the reach of an end under its face.
pub fn group(part: Part) -> Part {
    match part {
        Part::EyeTop | Part::EyeWaist | Part::EyeBottom => Part::Eye,
        Part::End(side) | Part::Ball(side) | Part::Pein(side) => Part::Face(side),
        Part::Lugs => Part::Cheeks,
        other => other,
    }
}

/// The headings of the list, in its order.
pub fn groups(design: &Design) -> Vec<Part> {
    let mut groups = vec![Part::Cheeks, Part::Eye];
    for side in Side::BOTH {
        let necks = design.end(side).necks.len();
        groups.extend((0..necks).map(|index| Part::Neck(side, index as u8)));
        groups.push(Part::Face(side));
    }
    groups
}

/// The sizes under a heading, in the order of the list.
pub fn sizes_of(design: &Design, part: Part) -> Vec<Dim> {
    let sizes = design.sizes().into_iter().map(|(dim, _)| dim);
    sizes.filter(|dim| group(dim.part) == part).collect()
}

/// The heading of a part.
pub fn heading(part: Part) -> &'static str {
    match part {
        Part::Cheeks => "cheeks",
        other => other.words(),
    }
}

/// The heading of a part of `design`: an end is called after what it is worked into.
pub fn heading_of(design: &Design, part: Part) -> &'static str {
    match part {
        Part::Face(side) => match design.end(side).tip {
            Tip::Face(_) => heading(part),
            Tip::Ball(_) => heading(Part::Ball(side)),
            Tip::Pein(_) => heading(Part::Pein(side)),
        },
        other => heading(other),
    }
}

/// The label of a size under its heading.
pub fn label(design: &Design, dim: Dim) -> String {
    let level = match dim.part {
        Part::EyeTop => "top mouth ",
        Part::EyeWaist => "waist ",
        Part::EyeBottom => "bottom mouth ",
        Part::Lugs => "lug ",
        _ => "",
    };
    let tied = design
        .outline(dim.part)
        .is_some_and(|outline| outline.height.is_none());
    let round_eye = design.eye.outline == EyeOutline::Round;
    let word = match (dim.size, dim.part) {
        (Size::Width, _) if tied => {
            let outline = design.outline(dim.part);
            match outline.map(|outline| outline.corner) {
                Some(Corner::Round) => "diameter",
                Some(Corner::Octagon) => "across flats",
                _ => "width and height",
            }
        }
        (Size::Length, Part::EyeTop | Part::EyeWaist | Part::EyeBottom) if round_eye => "diameter",
        (Size::Offset, _) => "eye offset",
        (Size::Reach, Part::End(side)) => match design.end(side).tip {
            Tip::Face(_) => dim.size.words(),
            Tip::Ball(_) => "reach of the pole",
            Tip::Pein(_) => "reach of the edge",
        },
        (Size::Edge, Part::Pein(_)) => "edge length",
        (Size::Direction, _) => "direction, 0° across",
        (Size::Top, _) => "height above",
        (Size::Bottom, _) => "height below",
        (Size::At, _) => "distance from the eye",
        (size, _) => size.words(),
    };
    format!("{level}{word}")
}

/// Whether `error` is about `dim`, so that its sentence belongs beside that field too.
pub fn concerns(error: &DesignError, dim: Dim) -> bool {
    let face = |side: Side, size: Size| dim == Part::Face(side).size(size);
    let pein = |side: Side, size: Size| dim == Part::Pein(side).size(size);
    match error {
        DesignError::Handle(_) => false,
        DesignError::OutOfBounds { dim: other, .. } | DesignError::NoSuchSize(other) => {
            *other == dim
        }
        DesignError::CornerTooLarge { part, .. } => {
            dim.part.words() == *part
                && matches!(dim.size, Size::Corner | Size::CornerAcross | Size::CornerUp)
        }
        DesignError::EyeCorner { part, .. } => {
            dim.part.words() == *part && matches!(dim.size, Size::Length | Size::Radius)
        }
        DesignError::EyeTooLong { .. } => dim == Part::Cheeks.size(Size::Length),
        DesignError::ThinWall { .. } => dim == Part::Cheeks.size(Size::Width),
        DesignError::Waist { .. } => dim == Part::Eye.size(Size::WaistHeight),
        DesignError::Stations { side, .. } => match dim.part {
            Part::Neck(other, _) | Part::Pein(other) => other == *side && dim.size == Size::At,
            Part::End(other) => other == *side && dim.size == Size::Reach,
            _ => false,
        },
        DesignError::Crown { side, .. } => face(*side, Size::Crown),
        DesignError::Land { side, .. } => face(*side, Size::Land),
        DesignError::Edge { side, .. } => face(*side, Size::Edge),
        DesignError::BallNeck { side, .. } => dim == Part::Ball(*side).size(Size::Neck),
        DesignError::Nose { side, .. } => pein(*side, Size::Nose),
        DesignError::Hollow { side, .. } => pein(*side, Size::Hollow),
        DesignError::Rocker { side, .. } => pein(*side, Size::Rocker),
        DesignError::CornerBreak { side, .. } => pein(*side, Size::CornerBreak),
        DesignError::Lugs { .. } | DesignError::LugSlope { .. } => {
            dim == Part::Lugs.size(Size::Length)
        }
        DesignError::Target { what, .. } => what.contains(&dim.words()),
        DesignError::Weight { .. }
        | DesignError::Density { .. }
        | DesignError::Necks { .. }
        | DesignError::TextTooLong { .. } => false,
    }
}

/// Name of the step that `edit` on `before` is: "cheek width 41".
pub fn step(before: &Design, edit: &Edit, system: System) -> String {
    match edit {
        Edit::Set(dim, size) => format!("{} {}", dim.words(), size.show(system)),
        Edit::Optional(dim, Some(_)) => dim.words(),
        Edit::Optional(dim, None) => format!("no {}", dim.words()),
        Edit::Lugs(Some(_)) => "lugs".to_owned(),
        Edit::Lugs(None) => "no lugs".to_owned(),
        Edit::Wall(Wall::Straight) => "eye wall straight".to_owned(),
        Edit::Wall(Wall::Arc) => "eye wall in arcs".to_owned(),
        Edit::Lock(dim) => format!("{} locked", dim.words()),
        Edit::Free(dim, _) if before.is_free(*dim) => format!("limits of {}", dim.words()),
        Edit::Free(dim, _) => format!("{} free", dim.words()),
        Edit::Name(_) => "the name".to_owned(),
        Edit::Note(_) => "the note".to_owned(),
        Edit::Density(density) => format!("density {density}"),
        Edit::Corner(part, corner) => format!("{} corners {}", part.words(), corner_word(*corner)),
        Edit::Equal(part, true) => format!("{} tied", part.words()),
        Edit::Equal(part, false) => format!("{} untied", part.words()),
        Edit::Alike(dim, alike) => {
            let back = match dim.mirrored() {
                Some(back) if dim.side() == Some(Side::Front) => back,
                _ => *dim,
            };
            let how = if *alike { "as the front" } else { "by itself" };
            format!("{} {how}", back.words())
        }
        Edit::EyeOutline(outline) => format!("eye {}", outline_word(*outline)),
        Edit::Crown(side, Crown::Flat) => format!("{} face flat", side.word()),
        Edit::Crown(side, Crown::Radius(_)) => format!("{} face crowned", side.word()),
        Edit::Edge(side, edge) => format!("{} edge {}", side.word(), edge_word(*edge)),
        Edit::Tip(side, tip, _) => format!("{} {}", side.word(), tip_word(tip)),
        Edit::Transition(part, transition) => {
            format!("{} {}", part.words(), transition_word(*transition))
        }
        Edit::AddNeck(side) => format!("neck at the {}", side.word()),
        Edit::RemoveNeck(side) => format!("neck off the {}", side.word()),
        Edit::Hold(quantity, Some(_)) => format!("{} held", quantity.words()),
        Edit::Hold(quantity, None) => format!("{} let go", quantity.words()),
        Edit::Bar(bar) => bar_step(&before.bar, bar),
        Edit::Handle(after) => handle::step(&before.handle, after, system),
        Edit::Heat(after) => heat_step(&before.heat, after, system),
        Edit::Replace(other) => other.name.clone(),
    }
}

fn heat_step(before: &Heat, after: &Heat, system: System) -> String {
    if before.steel.grade != after.steel.grade {
        format!("steel {}", after.steel.grade.name())
    } else if before.steel.analysis != after.steel.analysis {
        "analysis".to_owned()
    } else if before.quench != after.quench {
        format!("quench in {}", after.quench().medium.name())
    } else {
        let [was, now] = [before, after].map(Heat::temper);
        match now.aim {
            Aim::Hrc(hrc) if was.aim != now.aim => format!("temper to {} HRC", show_number(hrc)),
            Aim::Celsius(celsius) if was.aim != now.aim => {
                format!("temper at {}", show_temperature(celsius, system))
            }
            _ => "soaks of the temper".to_owned(),
        }
    }
}

fn bar_step(before: &Bar, after: &Bar) -> String {
    if before.section != after.section {
        format!("bar {}", after.section)
    } else if before.rule != after.rule {
        format!("rule {}", after.rule)
    } else if before.confidence != after.confidence {
        "confidence".to_owned()
    } else {
        "losses".to_owned()
    }
}

/// A kind of corner in a word.
pub fn corner_word(corner: Corner) -> &'static str {
    match corner {
        Corner::Sharp => "square",
        Corner::Chamfer { .. } => "chamfered",
        Corner::Octagon => "octagonal",
        Corner::Rounded { .. } => "rounded",
        Corner::Round => "round",
        Corner::Conic { .. } => "conic",
    }
}

/// A kind of eye in a word.
pub fn outline_word(outline: EyeOutline) -> &'static str {
    match outline {
        EyeOutline::Round => "round",
        EyeOutline::Ellipse => "elliptical",
        EyeOutline::Obround => "obround",
        EyeOutline::RoundedRectangle => "rectangular",
    }
}

/// A kind of edge in a word.
pub fn edge_word(edge: Edge) -> &'static str {
    match edge {
        Edge::Sharp => "sharp",
        Edge::Rounded(_) => "rounded",
        Edge::Chamfered(_) => "chamfered",
    }
}

/// What an end is worked into, in a word.
pub fn tip_word(tip: &Tip) -> &'static str {
    match tip {
        Tip::Face(_) => "face",
        Tip::Ball(_) => "ball",
        Tip::Pein(_) => "pein",
    }
}

/// A transition in a word.
pub fn transition_word(transition: Transition) -> &'static str {
    match transition {
        Transition::Straight => "straight",
        Transition::Smooth => "smooth",
    }
}

/// `words` with a capital, to begin a sentence.
pub fn capitalized(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

/// A length with its unit.
pub fn length(mm: f64, system: System) -> String {
    format!(
        "{} {}",
        show_length(Length::mm(mm), system),
        unit_word(system)
    )
}

/// The unit that `dim` is shown in.
pub fn unit_of(dim: Dim, system: System) -> &'static str {
    if dim.is_angle() {
        "°"
    } else {
        unit_word(system)
    }
}

/// A limit of `dim` with its unit.
pub fn limit(dim: Dim, number: f64, system: System) -> String {
    if dim.is_angle() {
        Measure::from(Angle::degrees(number)).words(system)
    } else {
        about(number, system)
    }
}

/// A length to a tenth of a millimetre, or a 64th of an inch, with its unit: for what is computed.
pub fn about(mm: f64, system: System) -> String {
    format!("{} {}", about_number(mm, system), unit_word(system))
}

/// The density as a field shows it.
pub fn density(density: Density) -> String {
    headwright::units::show_number(density.in_g_per_cm3())
}

/// A temperature as a field shows it, to a tenth of a degree.
pub fn temperature(celsius: f64, system: System) -> String {
    show_number((degrees(celsius, system) * 10.0).round() / 10.0)
}

/// A number without a unit, as a field for one reads it.
///
/// # Errors
/// A sentence when the text is no number.
pub fn plain_number(text: &str) -> Result<f64, String> {
    let number = text.trim().trim_end_matches('%');
    parse_ratio(number).map_err(|error| match error {
        UnitError::AmbiguousComma { .. } => error.to_string(),
        UnitError::Empty { .. } => {
            "Nothing is written here. Write a number such as 2.5.".to_owned()
        }
        _ => {
            let short: String = text.trim().chars().take(40).collect();
            format!("“{short}” is not a number. Write one such as 2.5.")
        }
    })
}

/// A small mass: a bare number is in grams or ounces, and no text is none.
///
/// # Errors
/// A sentence when the text is no mass, or one below zero.
pub fn small_mass(text: &str, system: System) -> Result<Option<Mass>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let bare = !text.chars().any(char::is_alphabetic);
    let unit = match system {
        System::Metric => "g",
        System::Imperial => "oz",
    };
    let text = if bare {
        format!("{text} {unit}")
    } else {
        text.to_owned()
    };
    let mass = parse_mass(&text, system).map_err(|e| e.to_string())?;
    positive(mass, mass.in_kg(), "tolerance").map(Some)
}

/// `quantity`, whose value is `number`, unless that is below zero.
///
/// # Errors
/// A sentence that says which `what` is below zero.
pub fn positive<Q>(quantity: Q, number: f64, what: &str) -> Result<Q, String> {
    if number >= 0.0 {
        Ok(quantity)
    } else {
        Err(format!("The {what} is below zero. Make it zero or more."))
    }
}

/// Square millimetres in a square inch.
pub const MM2_PER_IN2: f64 = MM_PER_INCH * MM_PER_INCH;

/// The unit of areas.
pub const fn area_unit(system: System) -> &'static str {
    match system {
        System::Metric => "mm²",
        System::Imperial => "in²",
    }
}

/// An area in mm² without its unit.
pub fn area_number(mm2: f64, system: System) -> String {
    let (value, steps) = match system {
        System::Metric => (mm2, 1e2),
        System::Imperial => (mm2 / MM2_PER_IN2, 1e4),
    };
    show_number((value * steps).round() / steps)
}

/// How many heads lie between two bounds that each hold with `confidence`.
pub fn both_sides(confidence: f64) -> String {
    heads((2.0 * confidence - 1.0).max(0.0)).to_lowercase()
}

/// A section of bar as it is asked for, in the units that are shown: "45 mm square".
pub fn bar_section(section: BarSection, system: System) -> String {
    section.words(system)
}

/// A share of heads in words: nine heads in ten.
pub fn heads(share: f64) -> String {
    let tenths = share * 10.0;
    let words = [
        (5.0, "One head in two"),
        (6.0, "Six heads in ten"),
        (7.0, "Seven heads in ten"),
        (8.0, "Eight heads in ten"),
        (9.0, "Nine heads in ten"),
    ];
    if let Some((_, words)) = words.iter().find(|(t, _)| (tenths - t).abs() < 1e-9) {
        return (*words).to_owned();
    }
    let (count, of) = if (share * 100.0 - (share * 100.0).round()).abs() < 1e-9 {
        (share * 100.0, 100)
    } else {
        (share * 1000.0, 1000)
    };
    format!(
        "{} heads in {of}",
        headwright::units::show_number((count * 10.0).round() / 10.0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    #[test]
    fn every_size_of_every_starter_stands_under_one_heading() {
        for name in headwright::design::starter_names() {
            let design = starter(name).expect("a starter");
            let listed: usize = groups(&design)
                .into_iter()
                .map(|part| sizes_of(&design, part).len())
                .sum();
            assert_eq!(listed, design.sizes().len(), "{name}");
        }
    }

    #[test]
    fn a_share_of_heads_reads_as_a_smith_says_it() {
        assert_eq!(heads(0.9), "Nine heads in ten");
        assert_eq!(heads(0.5), "One head in two");
        assert_eq!(heads(0.95), "95 heads in 100");
        assert_eq!(heads(0.999), "999 heads in 1000");
    }

    #[test]
    fn a_number_is_read_as_every_size_is_and_never_guessed() {
        for (text, number) in [
            ("2,5", 2.5),
            ("2 1/2 %", 2.5),
            ("−3", -3.0),
            ("1200", 1200.0),
        ] {
            assert_eq!(plain_number(text), Ok(number), "{text}");
        }
        for (text, said) in [
            (
                "1,200",
                "“1,200” can be read in two ways. Write 1.200 or 1200.",
            ),
            (" %", "Nothing is written here. Write a number such as 2.5."),
            ("two", "“two” is not a number. Write one such as 2.5."),
        ] {
            assert_eq!(plain_number(text), Err(said.to_owned()));
        }
    }

    #[test]
    fn a_step_is_named_after_what_it_did() {
        let design = starter("rounding").expect("a starter");
        let dim = Part::Cheeks.size(Size::Width);
        let edit = Edit::set(dim, Length::mm(41.0));
        assert_eq!(step(&design, &edit, System::Metric), "cheek width 41");
        let inches = Edit::set(dim, Length::inches(1.625));
        assert_eq!(
            step(&design, &inches, System::Imperial),
            "cheek width 1 5/8"
        );
    }

    #[test]
    fn a_step_that_ties_or_parts_is_named_after_the_back() {
        let design = starter("rounding").expect("a starter");
        for dim in Side::BOTH.map(|side| Part::Face(side).size(Size::Width)) {
            let step = |alike| step(&design, &Edit::Alike(dim, alike), System::Metric);
            assert_eq!(step(true), "back face width as the front");
            assert_eq!(step(false), "back face width by itself");
        }
    }

    #[test]
    fn a_bare_tolerance_of_weight_is_in_grams_or_ounces() {
        let grams = small_mass("10", System::Metric)
            .expect("read")
            .expect("one");
        assert_eq!(grams.in_grams(), 10.0);
        let ounces = small_mass("1", System::Imperial)
            .expect("read")
            .expect("one");
        assert!((ounces.in_grams() - 28.3495).abs() < 1e-3);
        assert!(small_mass("-1", System::Metric).is_err());
    }
}
