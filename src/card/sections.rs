//! What a card says, section by section.

use super::column::Section;
use super::ink::Anchor::{End, Start};
use super::qr::Code;
use super::touchmark::Surface;
use super::words::{adding_up, length, mass, pair, stages, step_kg, steps};
use super::{Known, ROOM_FOR_CODE_MM, sizes};
use crate::drift::{Depth, Drift, OwnStep, SectionSize};
use crate::units::{System, show_caliper, show_number, unit_word};
use crate::{bar, drift, handle, heat};

/// Room for a weight to be written in, mm.
const BLANK_MM: f64 = 19.0;

/// All sections in the order of the work, in columns `wide` mm wide; `code` has found no place beside the views.
pub(super) fn all(known: &Known, wide: f64, code: Option<&Code>) -> Vec<Section> {
    let mut all = Vec::new();
    all.extend(note(known, wide));
    all.extend([
        sizes::section(known, wide),
        drifts(known, wide),
        cautions(known, wide),
        weights(known, wide),
        heats(known, wide),
    ]);
    all.extend(hardness(known, wide));
    all.extend([
        ledger(known, wide),
        handle(known, wide),
        touchmark(known, wide),
    ]);
    all.extend(code.map(|code| link(wide, code)));
    if let Some(Err(sentence)) = &known.link {
        let mut section = Section::new(wide, "link", "");
        section.say(sentence);
        all.push(section);
    }
    all
}

/// What the smith wrote to the head, in the lines that it was written in.
fn note(known: &Known, wide: f64) -> Option<Section> {
    let lines = known.design.note.lines().map(str::trim);
    let lines: Vec<&str> = lines.filter(|line| !line.is_empty()).collect();
    (!lines.is_empty()).then(|| {
        let mut section = Section::new(wide, "note", "");
        for line in lines {
            section.say(line);
        }
        section
    })
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
    let middle = wide - 30.0;
    section.head(&[
        (middle, End, "length × width"),
        (wide, End, "cheek wall, cold"),
    ]);
    let wall = |low: f64, high: f64| {
        let [low, high] = [low, high].map(|mm| show_caliper(mm, system));
        if low == high {
            low
        } else {
            format!("{low} to {high}")
        }
    };
    let before = &plan.opening;
    section.tick(&[
        (0.0, Start, &format!("{} opening", before.shape)),
        (middle, End, &before.size.words(system)),
        (wide, End, &wall(before.wall_mm, before.wall_mm)),
    ]);
    let own = plan.own.as_ref();
    let series: Vec<Step> = match own {
        Some(own) => own
            .steps
            .iter()
            .filter(|step| step.serves)
            .map(Step::own)
            .collect(),
        None => {
            let last = plan.drifts.len();
            let steps = plan.drifts.iter().zip(1..);
            steps
                .map(|(drift, number)| Step::of(drift, number, number == last))
                .collect()
        }
    };
    for step in &series {
        section.tick(&[
            (0.0, Start, &step.name),
            (middle, End, &step.size.words(system)),
            (wide, End, &wall(step.wall[0], step.wall[1])),
        ]);
    }
    if own.is_none() {
        let [top, bottom] = [&plan.profiles[0], &plan.profiles[1]]
            .map(|profile| profile.sections[0].size.words(system));
        let alike = top == bottom;
        let name = if alike { "its mouths" } else { "its top mouth" };
        section.row(&[(0.0, Start, name), (middle, End, &top)]);
        if !alike {
            section.row(&[(0.0, Start, "its bottom mouth"), (middle, End, &bottom)]);
        }
    }
    let finished = plan.eye[1].words(system);
    section.row(&[
        (0.0, Start, "finished eye, waist"),
        (middle, End, &finished),
        (wide, End, "cold"),
    ]);
    let unit = unit_word(system);
    if own.is_none() {
        section.say(&format!(
            "The last drift is {}. The hole shrinks to {finished} {unit} as the head cools.",
            plan.made_hot(system),
        ));
    }
    section.say(&format!(
        "From either mouth: {}. Marks are from the greatest section.",
        depths(&series, system)
    ));
    if let Some(bolster) = plan.bolster {
        section.say(&format!(
            "Hole of the bolster: {} {unit}.",
            bolster.hole.words(system)
        ));
    }
    section.say("The cheek wall is an estimate.");
    section
}

/// A drift as the card tells it.
struct Step {
    name: String,
    size: SectionSize,
    /// Between these.
    wall: [f64; 2],
    /// From the top and from the bottom mouth.
    depths: [Option<Depth>; 2],
}

impl Step {
    fn of(drift: &Drift, number: usize, last: bool) -> Self {
        let after = if last { ", the last" } else { "" };
        Self {
            name: format!("drift {number}{after}"),
            size: drift.section,
            wall: [drift.wall_outer_kept_mm, drift.wall_sideways_mm],
            depths: [drift.top, drift.bottom],
        }
    }

    fn own(step: &OwnStep) -> Self {
        Self {
            name: format!("own {}", step.number),
            size: step.greatest,
            wall: [step.wall_outer_kept_mm, step.wall_sideways_mm],
            depths: [step.top, step.bottom],
        }
    }
}

/// "drifts 1 and 2 right through; drift 3 level with the mouth".
fn depths(series: &[Step], system: System) -> String {
    let told = |step: &Step| {
        let [top, bottom] = step.depths.map(|depth| Depth::words(depth, system));
        let name = step.name.split(',').next().unwrap_or_default();
        if top == bottom {
            format!("{name} {top}")
        } else {
            format!("{name} {top} from above, {bottom} from below")
        }
    };
    series.iter().map(told).collect::<Vec<_>>().join("; ")
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
    let (quench, temper) = (&plan.quench, &plan.tempering);
    let place = match quench.medium {
        heat::Medium::Air => "In the air",
        _ => "In the bath, face first,",
    };
    section.say(&format!("{place} it is {}.", quench.agitation.words()));
    let colour = temper
        .colour
        .map_or_else(String::new, |colour| format!(", to about {colour}"));
    section.say(&format!(
        "Temper {}, {} h{}{colour}.",
        match temper.times {
            1 => "once".to_owned(),
            2 => "twice".to_owned(),
            times => format!("{times} times"),
        },
        show_number(temper.soak_hours),
        if temper.times > 1 { " each" } else { "" }
    ));
    section.say("How each step is done and where its number comes from stands on the heat sheet.");
    section
}

/// What hardness is to be expected, and what to know of it.
fn hardness(known: &Known, wide: f64) -> Option<Section> {
    let plan = known.heat.as_ref().ok()?;
    let mut section = Section::new(wide, "hardness", "an estimate");
    let skins = plan.ends.iter().filter_map(|end| {
        let band = end.places.first()?.tempered_hrc?;
        Some(format!(
            "The {} end: {} to {} HRC at the skin.",
            end.end.side.word(),
            band.low.round(),
            band.high.round()
        ))
    });
    for sentence in of_both_ends(skins.collect()) {
        section.say(&sentence);
    }
    let notes = plan.notes.iter().map(|note| note.sentence(known.system));
    for sentence in of_both_ends(notes.collect()) {
        section.item(&sentence);
    }
    (section.rows() > 0).then_some(section)
}

/// The sentences, those that say the same of the front and of the back end said once.
fn of_both_ends(sentences: Vec<String>) -> Vec<String> {
    let of_each = |sentence: &str| {
        sentence
            .replace("The front end", "Each end")
            .replace("the front end", "each end")
    };
    let at_front = |sentence: &str| sentence.replace("back end", "front end");
    let mut told: Vec<String> = Vec::new();
    for sentence in &sentences {
        let front = at_front(sentence);
        let twins = sentences
            .iter()
            .filter(|other| at_front(other) == front)
            .count();
        let once = if twins > 1 {
            of_each(&front)
        } else {
            sentence.clone()
        };
        if !told.contains(&once) {
            told.push(once);
        }
    }
    told
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
    section.say("Strike it hot, before the last drift (common practice, no source).");
    section
}

fn link(wide: f64, code: &Code) -> Section {
    let mut section = Section::new(wide, code.caption(), "");
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_said_of_both_ends_is_said_once() {
        let said = |sentences: &[&str]| {
            of_both_ends(sentences.iter().map(|words| (*words).to_owned()).collect())
        };
        assert_eq!(
            said(&[
                "Oil.",
                "The front end is soft.",
                "Under the skin the back end has 3.",
                "The back end is soft."
            ]),
            [
                "Oil.",
                "Each end is soft.",
                "Under the skin the back end has 3."
            ]
        );
        assert_eq!(
            said(&["The front end: 5.", "The back end: 6."]),
            ["The front end: 5.", "The back end: 6."]
        );
    }
}
