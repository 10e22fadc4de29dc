//! A heat treatment as a table to be read.

use std::fmt;

use super::HeatAnswer;
use crate::bar::Certainty;
use crate::design::{Side, length_in_words};
use crate::heat::{
    Aim, Band, CAUTIONS, Composition, Element, EndHardness, HARDNESS_WINDOWS, Plan, Span, Stated,
    Temper, WayKind, temper,
};
use crate::units::{
    LITRES_PER_GALLON, MM_PER_INCH, System, show_about_temperature, show_number, show_temperature,
    unit_word,
};

/// A name, a value and what is to be said of it.
type Row = (&'static str, String, String);

/// What there is no number for.
const NOTHING: &str = "–";

/// `source`, and that it is from memory where it does not say so itself.
fn said(source: &str, certainty: Certainty) -> String {
    if certainty == Certainty::Memory && !source.contains("memory") {
        format!("{source}, {}", certainty.words())
    } else {
        source.to_owned()
    }
}

/// A row of a value that may not be known.
fn row<T>(name: &'static str, value: Option<&Stated<T>>, show: impl Fn(&T) -> String) -> Row {
    value.map_or_else(
        || (name, NOTHING.to_owned(), String::new()),
        |it| (name, show(&it.value), said(it.source, it.certainty)),
    )
}

fn rows(f: &mut fmt::Formatter<'_>, heading: &str, rows: &[Row]) -> fmt::Result {
    let width = |part: fn(&Row) -> &str| {
        let widths = rows.iter().map(|row| part(row).chars().count());
        widths.max().unwrap_or(0)
    };
    let (names, values) = (width(|row| row.0), width(|row| &row.1));
    writeln!(f, "{heading}")?;
    for (name, value, meaning) in rows {
        let line = format!("  {name:<names$}  {value:>values$}  {meaning}");
        writeln!(f, "{}", line.trim_end())?;
    }
    writeln!(f)
}

/// Where the scale of hardness ends, HRC.
const ENDS_HRC: f64 = 20.0;

/// Whole points of hardness.
fn points(band: &Band) -> String {
    let [low, high] = [band.low, band.high].map(|hrc| hrc.round());
    if high <= ENDS_HRC {
        "below 20".to_owned()
    } else if low < ENDS_HRC {
        format!("below 20 to {}", show_number(high))
    } else if low == high {
        show_number(low)
    } else {
        format!("{} to {}", show_number(low), show_number(high))
    }
}

fn hundredths(value: f64) -> String {
    show_number((100.0 * value).round() / 100.0)
}

/// "C 0.43 to 0.5, Mn 0.6 to 0.9"
fn composition(span: &Span) -> String {
    let percent = |composition: &Composition, element| show_number(composition.percent(element));
    let named = Element::ALL
        .into_iter()
        .filter(|element| span.of(*element).1 > 0.0);
    let shares = named.map(|element| {
        let [least, most] = [&span.least, &span.most].map(|edge| percent(edge, element));
        if least == most {
            format!("{} {most}", element.symbol())
        } else {
            format!("{} {least} to {most}", element.symbol())
        }
    });
    shares.collect::<Vec<_>>().join(", ")
}

/// "2 × 2 h"
fn soaks(times: u8, hours: f64) -> String {
    format!("{times} × {} h", hundredths(hours))
}

/// As a table to be read.
impl fmt::Display for HeatAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (plan, system) = (&self.plan, self.system);
        steel(f, plan)?;
        critical(f, plan, system)?;
        depth(f, plan, system)?;
        hardness(f, plan, system)?;
        tempering(f, plan, system)?;
        bath(f, plan, system)?;
        steps(f, plan, system)?;
        writeln!(f, "What standards ask for, HRC")?;
        for window in HARDNESS_WINDOWS {
            let least = window.least_hrc.map_or_else(
                || format!("at most {}", show_number(window.most_hrc)),
                |least| points(&Band::new(least, window.most_hrc)),
            );
            writeln!(f, "  {}: {least} ({})", window.of, window.source)?;
        }
        writeln!(f)?;
        for note in &plan.notes {
            writeln!(f, "{}", note.sentence(system))?;
        }
        writeln!(f, "\n{}\n", self.estimate)?;
        CAUTIONS
            .iter()
            .try_for_each(|caution| writeln!(f, "– {} ({})", caution.text, caution.source))
    }
}

fn steel(f: &mut fmt::Formatter<'_>, plan: &Plan) -> fmt::Result {
    let grade = plan.steel.grade;
    let density = &plan.density_kg_per_m3;
    let of = &plan.composition;
    writeln!(f, "The steel: {}, {}", grade.name(), grade.words())?;
    writeln!(
        f,
        "  {}, in percent ({})",
        composition(&of.value),
        said(of.source, of.certainty)
    )?;
    writeln!(
        f,
        "  {} g/cm³ ({})\n",
        hundredths(density.value / 1000.0),
        said(density.source, density.certainty)
    )
}

fn critical(f: &mut fmt::Formatter<'_>, plan: &Plan, system: System) -> fmt::Result {
    let about = |celsius: &f64| show_about_temperature(*celsius, system);
    let band = |band: &Band| format!("{} to {}", about(&band.low), about(&band.high));
    let critical = &plan.critical;
    rows(
        f,
        "Where it turns",
        &[
            row("Ac1, austenite begins", critical.ac1.as_ref(), about),
            row("Ac3, all is austenite", critical.ac3.as_ref(), about),
            row("Ms, martensite begins", critical.ms.as_ref(), band),
        ],
    )
}

/// Distances of the end-quench curve that the table tells, mm; the JSON has all.
const TOLD_MM: [f64; 5] = [3.0, 5.0, 9.0, 15.0, 30.0];

fn depth(f: &mut fmt::Formatter<'_>, plan: &Plan, system: System) -> fmt::Result {
    let lengths = |band: &Band| lengths(*band, system);
    let hardenability = &plan.hardenability;
    let told = |(mm, hrc): &(f64, Band)| {
        TOLD_MM
            .contains(mm)
            .then(|| format!("{} {}", length_in_words(*mm, system), points(hrc)))
    };
    let curve: Vec<String> = hardenability.end_quench.iter().filter_map(told).collect();
    rows(
        f,
        "How deep it hardens",
        &[
            row("ideal diameter", hardenability.ideal_mm.as_ref(), lengths),
            row(
                "martensite, HRC",
                Some(&hardenability.martensite_hrc),
                points,
            ),
            row("severity of the quench, 1/in", Some(&plan.severity), |h| {
                if h.low == h.high {
                    hundredths(h.low)
                } else {
                    format!("{} to {}", hundredths(h.low), hundredths(h.high))
                }
            }),
        ],
    )?;
    if curve.is_empty() {
        return Ok(());
    }
    writeln!(f, "End-quench curve, HRC: {}\n", curve.join("; "))
}

/// An estimated length: whole millimetres, or twentieths of an inch.
fn lengths(band: Band, system: System) -> String {
    let [low, high] = [band.low, band.high].map(|mm| match system {
        System::Metric => show_number(mm.round()),
        System::Imperial => show_number((20.0 * mm / MM_PER_INCH).round() / 20.0),
    });
    let unit = unit_word(system);
    if low == high {
        format!("{low} {unit}")
    } else {
        format!("{low} to {high} {unit}")
    }
}

fn hardness(f: &mut fmt::Formatter<'_>, plan: &Plan, system: System) -> fmt::Result {
    writeln!(
        f,
        "{:<24}{:>18}{:>18}",
        "Hardness, HRC", "as quenched", "tempered"
    )?;
    for (side, end) in Side::BOTH.into_iter().zip(&plan.ends) {
        let EndHardness {
            round_mm, places, ..
        } = end;
        writeln!(
            f,
            "  {} end, which cools as a round of {}",
            side.word(),
            lengths(*round_mm, system)
        )?;
        for place in places {
            let [quenched, tempered] = [place.as_quenched_hrc, place.tempered_hrc]
                .map(|band| band.map_or_else(|| NOTHING.to_owned(), |band| points(&band)));
            let words = place.place.words(system);
            writeln!(f, "    {words:<20}{quenched:>18}{tempered:>18}")?;
        }
    }
    writeln!(f)
}

fn tempering(f: &mut fmt::Formatter<'_>, plan: &Plan, system: System) -> fmt::Result {
    let it = &plan.tempering;
    let left = &it.martensite_hrc;
    let (colour, guide) = match it.colour {
        Some(colour) => (colour, "after minutes, a rough guide only (from memory)"),
        None => (NOTHING, "none shows at this heat (from memory)"),
    };
    rows(
        f,
        "The temper",
        &[
            (
                "oven",
                show_temperature(it.celsius, system),
                soaks(it.times, it.soak_hours),
            ),
            (
                "leaves of martensite",
                format!("{} HRC", show_number(left.value.round())),
                format!(
                    "± {} HRC; {}",
                    temper::UNCERTAINTY_HRC,
                    said(left.source, left.certainty)
                ),
            ),
            ("colour", colour.to_owned(), guide.to_owned()),
        ],
    )?;
    if it.ways.is_empty() {
        return Ok(());
    }
    writeln!(f, "Ways round the brittle range")?;
    for way in &it.ways {
        let what = match way.kind {
            WayKind::Lower => "below it, and harder",
            WayKind::Double => "below it twice",
            WayKind::Higher => "above it, and softer",
            WayKind::Tougher => "a steel that is not brittle there",
        };
        let Temper {
            aim,
            soak_hours,
            times,
        } = way.temper;
        let oven = match aim {
            Aim::Celsius(celsius) => show_about_temperature(celsius, system),
            Aim::Hrc(hrc) => format!("{} HRC", show_number(hrc)),
        };
        writeln!(
            f,
            "  {what}: {} at {oven}, {}, leaves {} HRC",
            way.grade.name(),
            soaks(times, soak_hours),
            show_number(way.hrc.round())
        )?;
    }
    writeln!(f)
}

fn bath(f: &mut fmt::Formatter<'_>, plan: &Plan, system: System) -> fmt::Result {
    let quench = &plan.quench;
    let mut lines = vec![(
        quench.medium.name(),
        show_temperature(quench.bath_celsius, system),
        quench.agitation.words().to_owned(),
    )];
    if let Some(bath) = plan.bath {
        let (volume, unit) = match system {
            System::Metric => (bath.litres, "litres"),
            System::Imperial => (bath.litres / LITRES_PER_GALLON, "US gallons"),
        };
        lines.push((
            "heat of the head",
            format!("{} kJ", show_number(bath.heat_kj.round())),
            "from the hardening heat; EN 1993-1-2:2005, 3.4.1.2 (from memory), an estimate"
                .to_owned(),
        ));
        lines.push((
            "volume, at least",
            format!("{} {unit}", show_number((10.0 * volume).ceil() / 10.0)),
            match system {
                System::Metric => format!("to grow {} K warmer", hundredths(bath.rise_kelvin)),
                System::Imperial => {
                    format!("to grow {} °F warmer", hundredths(1.8 * bath.rise_kelvin))
                }
            },
        ));
    }
    rows(f, "The bath", &lines)
}

fn steps(f: &mut fmt::Formatter<'_>, plan: &Plan, system: System) -> fmt::Result {
    writeln!(f, "The work")?;
    for (number, step) in (1..).zip(plan.steps(system)) {
        writeln!(f, "  {number}. {}: {}", step.kind.name(), step.value)?;
        writeln!(f, "     {}", step.work)?;
        writeln!(f, "     {}", step.check)?;
        writeln!(f, "     ({})", said(&step.source, step.certainty))?;
    }
    writeln!(f)
}
