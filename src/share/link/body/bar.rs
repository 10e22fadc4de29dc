//! The bar, as a link carries it.

use super::super::CUSTOM_SOURCE;
use super::super::grid::{Fineness, MASS_NOTATIONS, Scale};
use super::super::pack::{Coder, Fault};
use super::super::round::{loss_scale, mass_number};
use super::{PUNCH_WITH_SIZES, UNREAD, WITHOUT_CAUSES, length, one_of, plain};
use crate::bar::{
    Atmosphere, Bar, BarSection, Certainty, HEAT_MINUTES, Loss, LossAmount, LossKind, MOST_LOSSES,
    Punch, READ_BEFORE,
};
use crate::units::{Length, Mass, Rule};

/// Walks the bar, as `version` has it.
pub(super) fn bar(
    coder: &mut impl Coder,
    bar: &mut Bar,
    version: char,
    fineness: Fineness,
) -> Result<(), Fault> {
    section(coder, &mut bar.section, version)?;
    let mut division = bar.rule.division();
    length(coder, Scale::rules(), &mut division)?;
    bar.rule = Rule::new(division).map_err(|_| Fault)?;
    plain(coder, Scale::shares(), &mut bar.confidence)?;
    if version > WITHOUT_CAUSES {
        // Most bars have the losses that every design begins with.
        let usual = usual_losses(version);
        if coder.flag(bar.losses == usual)? {
            bar.losses = usual;
            return Ok(());
        }
    }
    let count = coder.choice(bar.losses.len() as u64, MOST_LOSSES as u64 + 1)?;
    let unread = Loss {
        kind: LossKind::Slug,
        amount: LossAmount::PercentOfHead {
            expected: 0.0,
            spread: 0.0,
        },
        source: String::new(),
        certainty: Certainty::Own,
    };
    bar.losses.resize(count as usize, unread);
    for loss in &mut bar.losses {
        one_of(coder, &LossKind::ALL, &mut loss.kind)?;
        kind_of_amount(coder, &mut loss.amount, version)?;
        amount(coder, &mut loss.amount, version, fineness)?;
        source(coder, loss, version)?;
    }
    Ok(())
}

fn section(coder: &mut impl Coder, section: &mut BarSection, version: char) -> Result<(), Fault> {
    let mut sizes: Vec<Length> = section.sizes().into_iter().map(|(_, size)| size).collect();
    let mut corner = section.corner_radius().unwrap_or(UNREAD);
    let mut area = section.area_mm2();
    let code = match section {
        BarSection::Round { .. } => 0,
        BarSection::Square { .. } => 1,
        BarSection::Rectangular { .. } => 2,
        BarSection::Octagonal { .. } => 3,
        BarSection::Hexagonal { .. } => 4,
        BarSection::OfArea { .. } => 5,
    };
    let shapes = if version > WITHOUT_CAUSES { 6 } else { 4 };
    let code = coder.choice(code, shapes)?;
    let count = match code {
        2 => 2,
        5 => 0,
        _ => 1,
    };
    sizes.resize(count, UNREAD);
    for size in &mut sizes {
        length(coder, Scale::bar_sizes(), size)?;
    }
    if version > WITHOUT_CAUSES && matches!(code, 1 | 2) {
        if coder.flag(corner != UNREAD)? {
            length(coder, Scale::bar_corners(), &mut corner)?;
        } else {
            corner = UNREAD;
        }
    }
    if code == 5 {
        plain(coder, Scale::bar_areas(), &mut area)?;
    }
    let size = |index: usize| sizes.get(index).copied().unwrap_or(UNREAD);
    let across_flats = size(0);
    *section = match code {
        0 => BarSection::round(size(0)),
        1 => BarSection::square(size(0)).with_corner_radius(corner),
        2 => BarSection::rectangular(size(0), size(1)).with_corner_radius(corner),
        3 => BarSection::Octagonal { across_flats },
        4 => BarSection::Hexagonal { across_flats },
        _ => BarSection::OfArea { area_mm2: area },
    };
    Ok(())
}

/// What an amount is reckoned from; its numbers stand at nothing where that is read.
fn kind_of_amount(
    coder: &mut impl Coder,
    amount: &mut LossAmount,
    version: char,
) -> Result<(), Fault> {
    let code = match amount {
        LossAmount::Mass { .. } => 0,
        LossAmount::PercentOfHead { .. } => 1,
        LossAmount::PercentOfEye { .. } => 2,
        LossAmount::Punched { .. } => 3,
        LossAmount::PerHeat { .. } => 4,
        LossAmount::PercentPerHeat { .. } => 5,
        LossAmount::OffSurface { .. } => 6,
        LossAmount::OffFaces { .. } => 7,
        LossAmount::OffEnds { .. } => 8,
    };
    let kinds = if version > WITHOUT_CAUSES { 9 } else { 3 };
    let read = coder.choice(code, kinds)?;
    if read == code {
        return Ok(());
    }
    let (none, mass) = (0.0, Mass::kg(0.0));
    *amount = match read {
        0 => LossAmount::Mass {
            expected: mass,
            spread: mass,
        },
        1 => LossAmount::PercentOfHead {
            expected: none,
            spread: none,
        },
        2 => LossAmount::PercentOfEye {
            expected: none,
            spread: none,
        },
        3 => LossAmount::Punched {
            punch: None,
            expected: UNREAD,
            spread: UNREAD,
        },
        4 => LossAmount::PerHeat {
            heats: 0,
            minutes: HEAT_MINUTES,
            atmosphere: Atmosphere::Neutral,
            expected: UNREAD,
            spread: UNREAD,
        },
        5 => LossAmount::PercentPerHeat {
            heats: 0,
            expected: none,
            spread: none,
        },
        6 => LossAmount::OffSurface {
            expected: UNREAD,
            spread: UNREAD,
        },
        7 => LossAmount::OffFaces {
            expected: UNREAD,
            spread: UNREAD,
        },
        _ => LossAmount::OffEnds {
            expected: UNREAD,
            spread: UNREAD,
        },
    };
    Ok(())
}

fn amount(
    coder: &mut impl Coder,
    amount: &mut LossAmount,
    version: char,
    fineness: Fineness,
) -> Result<(), Fault> {
    let scale = loss_scale(*amount, fineness);
    match amount {
        LossAmount::Punched { punch: one, .. } => punch(coder, one, version, fineness)?,
        LossAmount::PerHeat {
            heats: number,
            minutes,
            atmosphere,
            ..
        } => {
            heats(coder, number)?;
            plain(coder, Scale::minutes(), minutes)?;
            one_of(coder, &Atmosphere::ALL, atmosphere)?;
        }
        LossAmount::PercentPerHeat { heats: number, .. } => heats(coder, number)?,
        _ => {}
    }
    match amount {
        LossAmount::Mass { expected, spread } => {
            mass(coder, scale, expected)?;
            mass(coder, scale, spread)
        }
        LossAmount::PercentOfHead { expected, spread }
        | LossAmount::PercentOfEye { expected, spread }
        | LossAmount::PercentPerHeat {
            expected, spread, ..
        } => {
            plain(coder, scale, expected)?;
            plain(coder, scale, spread)
        }
        LossAmount::Punched {
            expected, spread, ..
        }
        | LossAmount::PerHeat {
            expected, spread, ..
        }
        | LossAmount::OffSurface { expected, spread }
        | LossAmount::OffFaces { expected, spread }
        | LossAmount::OffEnds { expected, spread } => {
            length(coder, scale, expected)?;
            length(coder, scale, spread)
        }
    }
}

/// A punch of its own, or the usual one for the eye, which has no sizes.
fn punch(
    coder: &mut impl Coder,
    punch: &mut Option<Punch>,
    version: char,
    fineness: Fineness,
) -> Result<(), Fault> {
    let code = match punch {
        Some(Punch::Round { .. }) => 0,
        Some(Punch::Obround { .. }) => 1,
        Some(Punch::Rectangle { .. }) => 2,
        None => 3,
    };
    let sizes = punch.map_or_else(Vec::new, Punch::sizes);
    let mut sizes: Vec<Length> = sizes.into_iter().map(|(_, size)| size).collect();
    let shapes = if version > PUNCH_WITH_SIZES { 4 } else { 3 };
    let code = coder.choice(code, shapes)?;
    let count = match code {
        0 => 1,
        3 => 0,
        _ => 2,
    };
    sizes.resize(count, UNREAD);
    for size in &mut sizes {
        length(coder, Scale::punches(fineness), size)?;
    }
    let first = sizes.first().copied().unwrap_or(UNREAD);
    let width = sizes.get(1).copied().unwrap_or(UNREAD);
    *punch = match code {
        0 => Some(Punch::Round { diameter: first }),
        1 => Some(Punch::Obround {
            length: first,
            width,
        }),
        2 => Some(Punch::Rectangle {
            length: first,
            width,
        }),
        _ => None,
    };
    Ok(())
}

fn heats(coder: &mut impl Coder, heats: &mut u32) -> Result<(), Fault> {
    let mut number = f64::from(*heats);
    plain(coder, Scale::heats(), &mut number)?;
    *heats = number as u32;
    Ok(())
}

fn mass(coder: &mut impl Coder, scale: Scale, mass: &mut Mass) -> Result<(), Fault> {
    let read = scale.code(coder, mass_number(*mass))?;
    *mass = Mass::new(read.value, MASS_NOTATIONS[read.notation]);
    Ok(())
}

/// Whether the source is none, the usual one or the workshop's own, and how surely the numbers are known.
fn source(coder: &mut impl Coder, loss: &mut Loss, version: char) -> Result<(), Fault> {
    let usual = usual_source(loss.kind, version);
    let known = ["", usual.as_str(), CUSTOM_SOURCE];
    let code = known.iter().position(|text| *text == loss.source);
    let code = coder.choice(code.unwrap_or(2) as u64, 3)?;
    loss.source = known[code as usize].to_owned();
    if version > WITHOUT_CAUSES {
        one_of(coder, &Certainty::ALL, &mut loss.certainty)
    } else {
        loss.certainty = Certainty::of_source(&loss.source);
        Ok(())
    }
}

/// The losses that every design began with in the days of `version`.
fn usual_losses(version: char) -> Vec<Loss> {
    let mut usual = Loss::usual();
    if version <= PUNCH_WITH_SIZES {
        for loss in &mut usual {
            if let LossAmount::Punched { punch, .. } = &mut loss.amount {
                *punch = Some(Punch::Obround {
                    length: Length::mm(25.0),
                    width: Length::mm(12.0),
                });
            }
        }
    }
    usual
}

/// The source that the usual line of this kind had in the days of `version`.
fn usual_source(kind: LossKind, version: char) -> String {
    if version > WITHOUT_CAUSES {
        let usual = Loss::usual().into_iter().find(|usual| usual.kind == kind);
        return usual.map_or_else(String::new, |usual| usual.source);
    }
    let before = match kind {
        LossKind::Slug => {
            "common practice, no source: a hand punch drives out a thin slug and pushes the rest aside"
        }
        LossKind::ForgingScale => READ_BEFORE,
        _ => "common practice, no source",
    };
    before.to_owned()
}

#[cfg(test)]
mod tests {
    use super::super::super::pack::{Reader, Writer};
    use super::*;
    use crate::units::Mass;

    #[test]
    fn usual_losses_of_version_4_keep_their_numbers_and_sources() {
        let usual = |kind| Loss {
            kind,
            amount: LossAmount::Mass {
                expected: Mass::grams(12.0),
                spread: Mass::grams(6.0),
            },
            source: usual_source(kind, WITHOUT_CAUSES),
            certainty: Certainty::of_source(&usual_source(kind, WITHOUT_CAUSES)),
        };
        let mut sent = Bar {
            losses: LossKind::ALL.map(usual).to_vec(),
            ..Bar::default()
        };
        assert_eq!(sent.losses[1].certainty, Certainty::Read);
        assert_eq!(sent.losses[0].certainty, Certainty::CommonPractice);
        let mut writer = Writer::default();
        bar(&mut writer, &mut sent, WITHOUT_CAUSES, Fineness::Fine).expect("goes");
        let mut reader = Reader::new(&writer.finish());
        let mut got = Bar::default();
        bar(&mut reader, &mut got, WITHOUT_CAUSES, Fineness::Fine).expect("reads");
        assert_eq!(got, sent);
    }
}
