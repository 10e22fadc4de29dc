//! The steel and its heat treatment, as a link carries them.

use super::super::grid::{Scale, is_few_percent};
use super::super::pack::{Coder, Fault};
use super::{one_of, plain};
use crate::heat::{
    Agitation, Aim, Composition, Element, Grade, Heat, MOST_TEMPERS, Medium, Quench, Temper,
};

/// Weights, of 256, of the heat that every design begins with and of another.
const USUAL: [(u64, u64); 2] = [(240, 1), (16, 1)];
/// Weights, of 256, of as many tempers as there may be and of any number, each with how many it has.
const TIMES: [(u64, u64); 2] = [(240, MOST_TEMPERS as u64 + 1), (16, 256)];
/// A quench that has not been read yet.
const UNREAD_QUENCH: Quench = Quench {
    medium: Medium::Air,
    agitation: Agitation::None,
    bath_celsius: 0.0,
};
/// A temper that has not been read yet.
const UNREAD_TEMPER: Temper = Temper {
    aim: Aim::Celsius(0.0),
    soak_hours: 0.0,
    times: 0,
};

/// Walks the steel and its heat treatment.
pub(super) fn heat(coder: &mut impl Coder, heat: &mut Heat) -> Result<(), Fault> {
    let usual = Heat::default();
    let (kind, _) = coder.weighted((usize::from(*heat != usual), 0), &USUAL)?;
    if kind == 0 {
        *heat = usual;
        return Ok(());
    }
    one_of(coder, &Grade::ALL, &mut heat.steel.grade)?;
    present(coder, &mut heat.steel.analysis, Composition::NOTHING)?;
    if let Some(composition) = &mut heat.steel.analysis {
        analysis(coder, composition)?;
    }
    present(coder, &mut heat.quench, UNREAD_QUENCH)?;
    if let Some(bath) = &mut heat.quench {
        quench(coder, bath)?;
    }
    present(coder, &mut heat.temper, UNREAD_TEMPER)?;
    if let Some(soak) = &mut heat.temper {
        temper(coder, soak)?;
    }
    Ok(())
}

fn present<T: Copy>(coder: &mut impl Coder, part: &mut Option<T>, unread: T) -> Result<(), Fault> {
    *part = coder.flag(part.is_some())?.then(|| part.unwrap_or(unread));
    Ok(())
}

fn analysis(coder: &mut impl Coder, composition: &mut Composition) -> Result<(), Fault> {
    for element in Element::ALL {
        let mut percent = composition.percent(element);
        if coder.flag(percent != 0.0)? {
            let few = coder.flag(is_few_percent(percent))?;
            plain(coder, Scale::elements(few), &mut percent)?;
        } else {
            percent = 0.0;
        }
        *composition = composition.with(element, percent);
    }
    Ok(())
}

fn quench(coder: &mut impl Coder, quench: &mut Quench) -> Result<(), Fault> {
    one_of(coder, &Medium::ALL, &mut quench.medium)?;
    one_of(coder, &Agitation::ALL, &mut quench.agitation)?;
    plain(coder, Scale::baths(quench.medium), &mut quench.bath_celsius)
}

fn temper(coder: &mut impl Coder, temper: &mut Temper) -> Result<(), Fault> {
    let (by_hardness, mut number) = match temper.aim {
        Aim::Hrc(hrc) => (true, hrc),
        Aim::Celsius(celsius) => (false, celsius),
    };
    temper.aim = if coder.flag(by_hardness)? {
        plain(coder, Scale::hardnesses(), &mut number)?;
        Aim::Hrc(number)
    } else {
        plain(coder, Scale::ovens(), &mut number)?;
        Aim::Celsius(number)
    };
    plain(coder, Scale::soaks(), &mut temper.soak_hours)?;
    let beyond = usize::from(temper.times > MOST_TEMPERS);
    let (_, times) = coder.weighted((beyond, u64::from(temper.times)), &TIMES)?;
    temper.times = u8::try_from(times).map_err(|_| Fault)?;
    Ok(())
}
