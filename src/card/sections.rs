//! What a card says, section by section.

use super::column::Section;
use super::ink::Anchor::{End, Start};
use super::qr::Code;
use super::touchmark::{CLEAR_MM, MOST_OF_WALL, Surface};
use super::words::{adding_up, length, mass, pair, stages, step_kg, steps};
use super::{Known, ROOM_FOR_CODE_MM};
use crate::design::{Dim, Part, Size};
use crate::units::{System, show_length, show_number, show_temperature, unit_word};
use crate::{bar, drift, handle, heat};

/// Room for a weight to be written in, mm.
const BLANK_MM: f64 = 19.0;

/// All sections in the order of the work, in columns `wide` mm wide; `code` has found no place beside the views.
pub(super) fn all(known: &Known, wide: f64, code: Option<&Code>) -> Vec<Section> {
    let mut all = vec![
        sizes(known, wide),
        drifts(known, wide),
        weights(known, wide),
        ledger(known, wide),
        heats(known, wide),
        cautions(known, wide),
        handle(known, wide),
        touchmark(known, wide),
    ];
    all.extend(code.map(|code| link(wide, code)));
    if let Some(Err(sentence)) = &known.link {
        let mut section = Section::new(wide, "link", "");
        section.say(sentence);
        all.push(section);
    }
    all
}

/// Whether a caliper is set to this size at the anvil.
fn is_measured_hot(dim: Dim) -> bool {
    match dim.part {
        Part::Cheeks => matches!(dim.size, Size::Length | Size::Width | Size::Height),
        Part::End(_) => dim.size == Size::Reach,
        Part::Neck(..) | Part::Face(_) => matches!(dim.size, Size::At | Size::Width | Size::Height),
        Part::Ball(_) => matches!(dim.size, Size::Diameter | Size::Neck),
        Part::Pein(_) => dim.size == Size::Edge,
        Part::Eye | Part::EyeTop | Part::EyeWaist | Part::EyeBottom | Part::Lugs => false,
    }
}

fn sizes(known: &Known, wide: f64) -> Section {
    let (system, hot) = (known.system, &known.hot);
    let mut section = Section::new(wide, "cold and hot sizes", unit_word(system));
    let at = show_temperature(hot.celsius, system);
    section.head(&[
        (wide - 34.0, End, "cold"),
        (wide, End, &format!("hot, {at}")),
    ]);
    for size in hot.sizes.iter().filter(|size| is_measured_hot(size.dim)) {
        let cold = show_length(size.cold, system);
        let warm = length(size.hot.in_mm(), system);
        section.row(&[
            (0.0, Start, &size.dim.words()),
            (wide - 34.0, End, &cold),
            (wide, End, &warm),
        ]);
    }
    section.say(&format!(
        "Growth {} %, give or take {} % of it: {}.",
        show_number((1e4 * hot.growth).round() / 100.0),
        show_number((100.0 * hot.uncertainty).round()),
        "EN 1993-1-2 as quoted"
    ));
    section
}

fn drifts(known: &Known, wide: f64) -> Section {
    let system = known.system;
    let mut section = Section::new(wide, "punch and drift", unit_word(system));
    let plan = match &known.drifts {
        Ok(plan) => plan,
        Err(sentence) => {
            section.say(sentence);
            return section;
        }
    };
    let middle = wide - 33.0;
    section.head(&[(middle, End, "length × width"), (wide, End, "cheek wall")]);
    let wall = |low: f64, high: f64| {
        let [low, high] = [low, high].map(|mm| length(mm, system));
        if low == high {
            low
        } else {
            format!("{low} to {high}")
        }
    };
    let before = &plan.opening;
    let own = plan.own.as_ref();
    section.tick(&[
        (0.0, Start, before.shape),
        (middle, End, &pair(before.size, system)),
        (wide, End, &wall(before.wall_mm, before.wall_mm)),
    ]);
    let series: Vec<_> = match own {
        Some(own) => own
            .steps
            .iter()
            .filter(|step| step.serves)
            .map(|step| {
                (
                    format!("own {}", step.number),
                    step.greatest,
                    step.wall_outer_kept_mm,
                    step.wall_sideways_mm,
                    [&step.top, &step.bottom],
                )
            })
            .collect(),
        None => plan
            .drifts
            .iter()
            .zip(1..)
            .map(|(it, number)| {
                (
                    format!("drift {number}"),
                    it.section,
                    it.wall_outer_kept_mm,
                    it.wall_sideways_mm,
                    [&it.top, &it.bottom],
                )
            })
            .collect(),
    };
    for (name, size, kept, sideways, _) in &series {
        section.tick(&[
            (0.0, Start, name),
            (middle, End, &pair(*size, system)),
            (wide, End, &wall(*kept, *sideways)),
        ]);
    }
    if own.is_none() {
        let [top, bottom] = [&plan.profiles[0], &plan.profiles[1]]
            .map(|profile| pair(profile.sections[0].size, system));
        let alike = top == bottom;
        let name = if alike { "both mouths" } else { "top mouth" };
        section.row(&[(0.0, Start, name), (middle, End, &top)]);
        if !alike {
            section.row(&[(0.0, Start, "bottom mouth"), (middle, End, &bottom)]);
        }
    }
    let depths = series.iter().map(|(name, .., [top, bottom])| {
        let [top, bottom] = [top, bottom].map(|depth| how_far(depth.as_ref(), system));
        if top == bottom {
            format!("{name} {top}")
        } else {
            format!("{name} {top} from above, {bottom} from below")
        }
    });
    let depths = depths.collect::<Vec<_>>().join("; ");
    section.say(&format!(
        "From either mouth: {depths}. Marks are from the greatest section."
    ));
    if let Some(bolster) = plan.bolster {
        section.say(&format!(
            "Hole of the bolster: {}.",
            pair(bolster.hole, system)
        ));
    }
    section.say("The cheek wall is an estimate.");
    section
}

/// Less than this is level, mm.
const LEVEL_MM: f64 = 0.05;

/// How deep a drift goes from a mouth.
fn how_far(depth: Option<&drift::Depth>, system: System) -> String {
    match depth.map(|depth| depth.mark_mm) {
        None => "does not enter".to_owned(),
        Some(None) => "right through".to_owned(),
        Some(Some(mark)) if mark.abs() < LEVEL_MM => "level with the mouth".to_owned(),
        Some(Some(mark)) if mark > 0.0 => format!("to the mark {}", length(mark, system)),
        Some(Some(mark)) => format!("{} below the mouth", length(-mark, system)),
    }
}

fn weights(known: &Known, wide: f64) -> Section {
    let system = known.system;
    let mut section = Section::new(wide, "weigh and write down", "");
    let (first, second) = (wide - BLANK_MM - 24.0, wide - BLANK_MM - 2.0);
    section.head(&[
        (first, End, "expected"),
        (second, End, "at least"),
        (wide, End, "weighed"),
    ]);
    for (name, expected, least) in stages(&known.billet) {
        section.blank(
            &[
                (0.0, Start, name),
                (first, End, &mass(expected, system)),
                (second, End, &mass(least, system)),
            ],
            BLANK_MM,
        );
    }
    section.blank(&[(0.0, Start, "heats used")], BLANK_MM);
    let percent = show_number((1000.0 * known.design.bar.confidence).round() / 10.0);
    section.say(&format!("“At least”: so {percent} % reach the target."));
    section
}

fn ledger(known: &Known, wide: f64) -> Section {
    let (system, billet, bar) = (known.system, &known.billet, &known.design.bar);
    let mut section = Section::new(wide, "where the cut goes", "");
    let mut parts = vec![billet.finished_kg];
    parts.extend(billet.losses.iter().map(|loss| loss.mass_kg));
    parts.extend([billet.reserve_mass_kg, billet.rounding_mass_kg]);
    let told = adding_up(&parts, step_kg(system));
    let say = |count: i64| steps(count, system);
    let mut row =
        |name: &str, count: i64| section.row(&[(0.0, Start, name), (wide, End, &say(count))]);
    row("finished head", told[0]);
    for (loss, count) in billet.losses.iter().zip(&told[1..]) {
        row(loss.name, *count);
    }
    let losses = billet.losses.len();
    row("billet, as likely as not", told[..=losses].iter().sum());
    row("reserve", told[losses + 1]);
    row(&format!("up to the rule, {}", bar.rule), told[losses + 2]);
    row("cut", told.iter().sum());
    section
}

fn heats(known: &Known, wide: f64) -> Section {
    let mut section = Section::new(
        wide,
        "heats and hardening",
        known.design.heat.steel.grade.name(),
    );
    let plan = match &known.heat {
        Ok(plan) => plan,
        Err(sentence) => {
            section.say(sentence);
            return section;
        }
    };
    for step in plan.steps(known.system) {
        let three_times = step.kind == heat::StepKind::Normalize && step.value != "none";
        let value = if three_times {
            format!("3 × {}", step.value)
        } else {
            step.value
        };
        section.tick(&[(0.0, Start, step.kind.name()), (wide, End, &value)]);
    }
    let temper = &plan.tempering;
    let colour = temper
        .colour
        .map_or_else(String::new, |colour| format!(", to about {colour}"));
    section.say(&format!(
        "Temper {} × {} h{colour}.",
        temper.times,
        show_number(temper.soak_hours)
    ));
    for end in &plan.ends {
        let skin = end.places.first().and_then(|place| place.tempered_hrc);
        if let Some(band) = skin {
            section.say(&format!(
                "{} end: {} to {} HRC at the skin (an estimate).",
                if end.end.side == crate::design::Side::Front {
                    "Front"
                } else {
                    "Back"
                },
                band.low.round(),
                band.high.round()
            ));
        }
    }
    for note in &plan.notes {
        section.item(&note.sentence(known.system));
    }
    section.say("How each step is done and where its number comes from stands on the heat sheet.");
    section
}

fn handle(known: &Known, wide: f64) -> Section {
    let system = known.system;
    let handle = &known.design.handle;
    let mut section = Section::new(wide, "handle and wedge", unit_word(system));
    let made = match &known.handle {
        Ok(made) => made,
        Err(sentence) => {
            section.say(sentence);
            return section;
        }
    };
    section.say(&format!("Wood: {}.", handle.wood.words()));
    let mut row =
        |name: &str, value: String| section.row(&[(0.0, Start, name), (wide, End, &value)]);
    row("length over all", length(handle.length.in_mm(), system));
    row("tongue, length × width", pair(made.tongue.section, system));
    row(
        "tongue, from the lower mouth",
        length(made.tongue.length_mm, system),
    );
    if let Some(kerf) = made.kerf {
        let [deep, wide] = [kerf.depth_mm, kerf.width_mm].map(|mm| length(mm, system));
        section.say(&format!("Kerf {deep} deep and {wide} wide."));
    }
    for (name, wedge) in [("Wedge", made.wedge), ("Cross wedge", made.cross_wedge)] {
        if let Some(wedge) = wedge {
            let [deep, thick, broad] =
                [wedge.length_mm, wedge.thick_mm, wedge.broad_mm].map(|mm| length(mm, system));
            section.say(&format!(
                "{name} {deep} deep, {thick} thick, {broad} broad."
            ));
        }
    }
    section
}

fn touchmark(known: &Known, wide: f64) -> Section {
    let system = known.system;
    let say = |mm: f64| format!("{} {}", length(mm, system), unit_word(system));
    // To a hundredth: a depth of tenths has no room on the rule.
    let fine = |mm: f64| match system {
        System::Metric => format!("{} mm", show_number((100.0 * mm).round() / 100.0)),
        System::Imperial => format!(
            "{} in",
            show_number((1000.0 * mm / crate::units::MM_PER_INCH).round() / 1000.0)
        ),
    };
    let mut section = Section::new(wide, "touchmark", "");
    let Some(mark) = known.touchmark else {
        section.say("No flat of the cheeks is large enough and clear of the eye: burn the mark into the handle.");
        return section;
    };
    let place = match mark.surface {
        Surface::Top(side) => format!(
            "On top, between the eye and the {} end of the cheeks",
            side.word()
        ),
        Surface::Cheek => "On the flat of a cheek, beside the eye".to_owned(),
    };
    let off = mark.x_mm.abs();
    let middle = match length(off, system).as_str() {
        "0" => "on".to_owned(),
        _ if mark.x_mm < 0.0 => format!("{} behind", say(off)),
        _ => format!("{} in front of", say(off)),
    };
    section.say(&format!(
        "{place}: middle {middle} the handle axis, flat {} × {}. At most {} deep: {} left under it.",
        length(mark.flat_mm[0], system),
        say(mark.flat_mm[1]),
        fine(mark.depth_mm),
        say(mark.left_mm)
    ));
    section.say(&format!(
        "Strike it hot, before the last drift. Common practice, no source: {} clear of rim and edges, no deeper than {} % of the least wall.",
        say(CLEAR_MM),
        show_number(100.0 * MOST_OF_WALL)
    ));
    section
}

fn link(wide: f64, code: &Code) -> Section {
    let mut section = Section::new(wide, "this head on a phone", "");
    let size = code.least_mm().max(ROOM_FOR_CODE_MM).min(wide);
    section.ink(size, vec![code.ink([0.0, 0.0], size)]);
    section
}

fn cautions(known: &Known, wide: f64) -> Section {
    let mut section = Section::new(wide, "take care", "");
    section.item(bar::CAUTIONS[0]);
    section.item(heat::CAUTIONS[1].text);
    section.item(heat::CAUTIONS[2].text);
    section.item(drift::CAUTIONS[1]);
    if known.design.heat.quench().medium == heat::Medium::Oil {
        section.item(heat::CAUTIONS[4].text);
    }
    section.item(bar::CAUTIONS[3]);
    section.item(handle::CAUTIONS[3]);
    section
}
