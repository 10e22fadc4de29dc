//! The order in which an offer's terms and a choice are packed. Order and counts are the format.

use super::super::link::pack::{Coder, Fault, Writer};
use super::Choice;
use super::terms::{
    Between, Currency, Date, GRAMS, HANDLE_MM, LARGEST_HUNDREDTHS, MOST_INSTEAD, Open, OpenTip,
    Price, Stage, Stands, Terms, YEARS,
};
use crate::design::{Side, TipShape};

/// What the letters of a code are counted from, and how many there are.
const FIRST_LETTER: u8 = b'A';
const LETTERS: u64 = 26;

/// Whether terms or choice have what no place in the number is for.
pub(super) fn refused(terms: &Terms, choice: Option<&Choice>) -> bool {
    let (mut writer, mut walked) = (Writer::default(), terms.clone());
    let said = self::terms(&mut writer, &mut walked);
    let chosen = choice.map_or(Ok(()), |choice| {
        self::choice(&mut writer, terms, &mut choice.clone())
    });
    said.and(chosen).is_err()
}

/// Walks what the smith says.
pub(super) fn terms(coder: &mut impl Coder, terms: &mut Terms) -> Result<(), Fault> {
    terms.shares_sizes = coder.flag(terms.shares_sizes)?;
    price(coder, &mut terms.price)?;
    stands(coder, &mut terms.stands)?;
    let Open {
        handle_mm,
        grams,
        tip,
    } = &mut terms.open;
    between(coder, HANDLE_MM, handle_mm)?;
    between(coder, GRAMS, grams)?;
    open_tip(coder, tip)
}

/// Walks a choice among what `terms` leave open.
pub(super) fn choice(
    coder: &mut impl Coder,
    terms: &Terms,
    choice: &mut Choice,
) -> Result<(), Fault> {
    let Open {
        handle_mm,
        grams,
        tip,
    } = &terms.open;
    for (open, chosen) in [
        (handle_mm, &mut choice.handle_mm),
        (grams, &mut choice.grams),
    ] {
        *chosen = match (open, *chosen) {
            (None, None) => None,
            (None, Some(_)) => return Err(Fault),
            (Some(open), chosen) => coder
                .flag(chosen.is_some())?
                .then(|| number(coder, *open, chosen.unwrap_or(open.low)))
                .transpose()?,
        };
    }
    let instead: &[TipShape] = tip.as_ref().map_or(&[], |tip| &tip.instead);
    let index = match choice.tip {
        None => 0,
        Some(shape) => 1 + instead.iter().position(|one| *one == shape).ok_or(Fault)?,
    };
    let index = coder.choice(index as u64, 1 + instead.len() as u64)? as usize;
    choice.tip = index
        .checked_sub(1)
        .and_then(|index| instead.get(index))
        .copied();
    Ok(())
}

/// A number of `limits`.
fn number(coder: &mut impl Coder, limits: Between, number: u32) -> Result<u32, Fault> {
    let above = number.checked_sub(limits.low).ok_or(Fault)?;
    let count = limits.high.checked_sub(limits.low).ok_or(Fault)?;
    let above = coder.choice(u64::from(above), u64::from(count) + 1)?;
    // A value is below its count.
    Ok(limits.low + above as u32)
}

fn between(
    coder: &mut impl Coder,
    limits: Between,
    between: &mut Option<Between>,
) -> Result<(), Fault> {
    if !coder.flag(between.is_some())? {
        *between = None;
        return Ok(());
    }
    let given = between.unwrap_or(limits);
    let low = number(coder, limits, given.low)?;
    let high = number(coder, Between { low, ..limits }, given.high)?;
    *between = Some(Between { low, high });
    Ok(())
}

fn open_tip(coder: &mut impl Coder, tip: &mut Option<OpenTip>) -> Result<(), Fault> {
    let given = tip.take();
    let count = given.as_ref().map_or(0, |tip| tip.instead.len());
    let count = coder.choice(count as u64, MOST_INSTEAD as u64 + 1)? as usize;
    if count == 0 {
        return Ok(());
    }
    let given = given.unwrap_or(OpenTip {
        side: Side::Front,
        instead: Vec::new(),
    });
    let side = one_of(coder, &Side::BOTH, given.side)?;
    let mut instead = Vec::with_capacity(count);
    for index in 0..count {
        let shape = given.instead.get(index).copied();
        instead.push(one_of(
            coder,
            &TipShape::ALL,
            shape.unwrap_or(TipShape::Face),
        )?);
    }
    *tip = Some(OpenTip { side, instead });
    Ok(())
}

fn price(coder: &mut impl Coder, price: &mut Option<Price>) -> Result<(), Fault> {
    if !coder.flag(price.is_some())? {
        *price = None;
        return Ok(());
    }
    let given = price.unwrap_or(Price {
        hundredths: 0,
        currency: Currency([FIRST_LETTER; 3]),
    });
    let limits = Between {
        low: 0,
        high: LARGEST_HUNDREDTHS,
    };
    let hundredths = number(coder, limits, given.hundredths)?;
    let mut letters = given.currency.0;
    for letter in &mut letters {
        let index = letter.checked_sub(FIRST_LETTER).ok_or(Fault)?;
        *letter = FIRST_LETTER + coder.choice(u64::from(index), LETTERS)? as u8;
    }
    *price = Some(Price {
        hundredths,
        currency: Currency(letters),
    });
    Ok(())
}

fn stands(coder: &mut impl Coder, stands: &mut Option<Stands>) -> Result<(), Fault> {
    if !coder.flag(stands.is_some())? {
        *stands = None;
        return Ok(());
    }
    let given = stands.map(|stands| (stands.stage, stands.as_of));
    let (stage, date) = given.unwrap_or((
        Stage::Drawn,
        Date {
            year: YEARS.low,
            month: 1,
            day: 1,
        },
    ));
    let stage = one_of(coder, &Stage::ALL, stage)?;
    let year = number(coder, YEARS, date.year)?;
    let month = number(coder, Between { low: 1, high: 12 }, date.month)?;
    let day = number(coder, Between { low: 1, high: 31 }, date.day)?;
    let as_of = Date::new(year, month, day).ok_or(Fault)?;
    *stands = Some(Stands { stage, as_of });
    Ok(())
}

fn one_of<T: Copy + PartialEq>(coder: &mut impl Coder, all: &[T], value: T) -> Result<T, Fault> {
    let index = all.iter().position(|one| *one == value).unwrap_or(0);
    let index = coder.choice(index as u64, all.len() as u64)?;
    Ok(all[index as usize])
}
