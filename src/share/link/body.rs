//! The order in which a design is packed: what it is built of, its sizes, its targets, its bar.
//!
//! One walk serves both directions, so that what is written is what is read. The order, the grids,
//! the weights and the tables of bounds are the format: a change of any is another version.

use std::collections::{BTreeMap, BTreeSet};

use super::grid::{LENGTH_NOTATIONS, Number, Scale};
use super::pack::{Coder, Fault};
use super::round::{DETAILS, Detail, length_number, scale, size_number, step_above, step_below};
use crate::bar::Bar;
use crate::design::{
    Ball, Bounds, Cheeks, Corner, Crown, Design, Dim, Edge, End, Eye, EyeLevel, EyeOutline, Face,
    Holds, Lugs, MOST_NECKS, Neck, Outline, Pein, Range, Side, Tip, Transition, Wall, bounds,
};
use crate::handle::Handle;
use crate::heat::Heat;
use crate::units::{Angle, Density, Length, Measure};

mod bar;
mod handle;
mod heat;
mod holds;

/// A size that has not been read yet.
const UNREAD: Length = Length::mm(0.0);
/// An angle that has not been read yet.
const NO_ANGLE: Angle = Angle::degrees(0.0);
/// Details that the format has room for.
const DETAIL_CODES: u64 = 16;
/// Weights, of 256, of limits that enclose their size and of limits that don't.
const ENCLOSING: [(u64, u64); 2] = [(240, 1), (16, 1)];

/// A design of which nothing has been read.
pub(super) fn unread() -> Design {
    let outline = Outline::equal(UNREAD, Corner::Sharp);
    let level = EyeLevel {
        length: UNREAD,
        width: None,
        radius: None,
    };
    let end = End {
        necks: Vec::new(),
        transition: Transition::Straight,
        reach: UNREAD,
        drop: None,
        tip: Tip::Face(Face {
            outline: outline.clone(),
            land: UNREAD,
            crown: Crown::Flat,
            edge: Edge::Sharp,
        }),
    };
    Design {
        name: String::new(),
        note: String::new(),
        density: Density::STEEL,
        cheeks: Cheeks {
            length: UNREAD,
            outline,
            offset: UNREAD,
            swell: None,
            lugs: None,
        },
        eye: Eye {
            outline: EyeOutline::Round,
            top: level.clone(),
            waist: level.clone(),
            bottom: level,
            waist_height: UNREAD,
            wall: Wall::Straight,
            cock_along: None,
            cock_across: None,
            mouth_break: None,
        },
        front: end.clone(),
        back: end,
        holds: Holds::default(),
        free: BTreeMap::new(),
        alike: BTreeSet::new(),
        bar: Bar {
            losses: Vec::new(),
            ..Bar::default()
        },
        handle: Handle::default(),
        heat: Heat::default(),
    }
}

/// The last version in which every end is a face.
const FACES_ONLY: char = '1';
/// The last version without peins, drop, swell, lugs and cocked eyes.
const PLAIN: char = '2';

/// The last version in which mass and balance alone are held, about a value or between two, and
/// nothing is said of the ends being alike.
const TWO_HOLDS: char = '3';

/// The last version in which losses are masses and percents alone, each as certain as its source says, and bars are
/// round, square, rectangular or octagonal with sharp corners.
const WITHOUT_CAUSES: char = '4';

/// The last version without a handle and without holds on the finished tool.
const WITHOUT_HANDLE: char = '5';

/// The last version in which every punch has its sizes, that of the usual losses 25 × 12 mm.
const PUNCH_WITH_SIZES: char = '5';

/// The last version that says nothing of the steel.
const WITHOUT_HEAT: char = '6';

/// Walks `design`, all but its name and note, as `version` has it; `detail` is an index into
/// [`DETAILS`].
pub(super) fn design<C: Coder>(
    coder: &mut C,
    design: &mut Design,
    version: char,
    detail: usize,
) -> Result<(), Fault> {
    let detail = coder.choice(detail as u64, DETAIL_CODES)? as usize;
    structure(coder, design, version)?;
    let mut result = Ok(());
    design.visit_sizes(&mut |dim, size| {
        if result.is_ok() {
            result = measure(coder, dim, size);
        }
    });
    result?;
    if version > TWO_HOLDS {
        alike(coder, design)?;
    }
    let detail = DETAILS.get(detail).ok_or(Fault)?;
    free(coder, design, detail)?;
    if version <= TWO_HOLDS {
        design.alike = design.default_alike();
    }
    holds::holds(coder, &mut design.holds, version)?;
    let density = Number {
        notation: 0,
        value: design.density.in_kg_per_m3(),
    };
    let density = Scale::densities().code(coder, density)?;
    design.density = Density::kg_per_m3(density.value);
    bar::bar(coder, &mut design.bar, version, detail.losses)?;
    if version > WITHOUT_HANDLE {
        handle::handle(coder, design)?;
    } else {
        design.handle = design.usual_handle();
    }
    if version > WITHOUT_HEAT {
        heat::heat(coder, &mut design.heat)?;
    } else {
        design.heat = Heat::default();
    }
    Ok(())
}

fn one_of<T: Copy + PartialEq>(
    coder: &mut impl Coder,
    all: &[T],
    value: &mut T,
) -> Result<(), Fault> {
    let index = all.iter().position(|one| one == value).unwrap_or(0);
    let index = coder.choice(index as u64, all.len() as u64)?;
    *value = all[index as usize];
    Ok(())
}

fn present(coder: &mut impl Coder, size: &mut Option<Length>) -> Result<(), Fault> {
    *size = coder.flag(size.is_some())?.then(|| size.unwrap_or(UNREAD));
    Ok(())
}

fn structure<C: Coder>(coder: &mut C, design: &mut Design, version: char) -> Result<(), Fault> {
    outline(coder, &mut design.cheeks.outline)?;
    if version > PLAIN {
        additions(coder, design)?;
    }
    let eye = &mut design.eye;
    let kinds = [
        EyeOutline::Round,
        EyeOutline::Ellipse,
        EyeOutline::Obround,
        EyeOutline::RoundedRectangle,
    ];
    one_of(coder, &kinds, &mut eye.outline)?;
    for level in [&mut eye.top, &mut eye.waist, &mut eye.bottom] {
        // What another outline has left behind is no dimension of this one.
        if eye.outline == EyeOutline::Round {
            level.width = None;
        } else {
            present(coder, &mut level.width)?;
        }
        if eye.outline == EyeOutline::RoundedRectangle {
            present(coder, &mut level.radius)?;
        } else {
            level.radius = None;
        }
    }
    for side in Side::BOTH {
        let end = design.end_mut(side);
        let count = coder.choice(end.necks.len() as u64, MOST_NECKS as u64 + 1)?;
        let neck = Neck {
            at: UNREAD,
            outline: Outline::equal(UNREAD, Corner::Sharp),
            transition: Transition::Straight,
        };
        end.necks.resize(count as usize, neck);
        for neck in &mut end.necks {
            outline(coder, &mut neck.outline)?;
            transition(coder, &mut neck.transition)?;
        }
        transition(coder, &mut end.transition)?;
        if version > FACES_ONLY {
            tip_kind(coder, &mut end.tip, version)?;
        }
        match &mut end.tip {
            Tip::Face(face) => {
                outline(coder, &mut face.outline)?;
                crown(coder, &mut face.crown)?;
                edge(coder, &mut face.edge)?;
            }
            Tip::Ball(_) => {}
            Tip::Pein(pein) => {
                outline(coder, &mut pein.outline)?;
                present(coder, &mut pein.rocker)?;
                present(coder, &mut pein.hollow)?;
                present(coder, &mut pein.corner_break)?;
            }
        }
    }
    Ok(())
}

/// What a design may do without; most do without all of it, which takes one bit.
fn additions(coder: &mut impl Coder, design: &mut Design) -> Result<(), Fault> {
    let Design {
        cheeks,
        eye,
        front,
        back,
        ..
    } = design;
    let plain = cheeks.swell.is_none()
        && cheeks.lugs.is_none()
        && eye.wall == Wall::Straight
        && eye.mouth_break.is_none()
        && [eye.cock_along, eye.cock_across, front.drop, back.drop] == [None; 4];
    if !coder.flag(!plain)? {
        return Ok(());
    }
    present(coder, &mut cheeks.swell)?;
    let unread = Lugs {
        length: UNREAD,
        top: UNREAD,
        bottom: UNREAD,
    };
    cheeks.lugs = coder
        .flag(cheeks.lugs.is_some())?
        .then(|| cheeks.lugs.unwrap_or(unread));
    one_of(coder, &[Wall::Straight, Wall::Arc], &mut eye.wall)?;
    present(coder, &mut eye.mouth_break)?;
    for angle in [
        &mut eye.cock_along,
        &mut eye.cock_across,
        &mut front.drop,
        &mut back.drop,
    ] {
        *angle = coder
            .flag(angle.is_some())?
            .then(|| angle.unwrap_or(NO_ANGLE));
    }
    Ok(())
}

fn tip_kind(coder: &mut impl Coder, tip: &mut Tip, version: char) -> Result<(), Fault> {
    let code = match tip {
        Tip::Face(_) => 0,
        Tip::Ball(_) => 1,
        Tip::Pein(_) => 2,
    };
    let read = if version > PLAIN {
        coder.choice(code, 3)?
    } else {
        u64::from(coder.flag(code == 1)?)
    };
    if read == code {
        return Ok(());
    }
    match read {
        1 => {
            *tip = Tip::Ball(Ball {
                diameter: UNREAD,
                neck: UNREAD,
            });
        }
        2 => {
            *tip = Tip::Pein(Pein {
                at: UNREAD,
                outline: Outline::equal(UNREAD, Corner::Sharp),
                direction: NO_ANGLE,
                edge: UNREAD,
                nose: UNREAD,
                rocker: None,
                hollow: None,
                corner_break: None,
            });
        }
        // What is read into begins as a face.
        _ => {}
    }
    Ok(())
}

fn transition(coder: &mut impl Coder, transition: &mut Transition) -> Result<(), Fault> {
    let kinds = [Transition::Straight, Transition::Smooth];
    one_of(coder, &kinds, transition)
}

fn outline(coder: &mut impl Coder, outline: &mut Outline) -> Result<(), Fault> {
    present(coder, &mut outline.height)?;
    let corner = &mut outline.corner;
    let code = match corner {
        Corner::Sharp => 0,
        Corner::Chamfer { .. } => 1,
        Corner::Octagon => 2,
        Corner::Rounded { .. } => 3,
        Corner::Round => 4,
        Corner::Conic { .. } => 5,
    };
    let read = coder.choice(code, 6)?;
    if read != code {
        *corner = match read {
            0 => Corner::Sharp,
            1 => Corner::Chamfer { size: UNREAD },
            2 => Corner::Octagon,
            3 => Corner::Rounded { radius: UNREAD },
            4 => Corner::Round,
            _ => Corner::Conic {
                across: UNREAD,
                up: UNREAD,
                weight: 0.0,
            },
        };
    }
    if let Corner::Conic { weight, .. } = corner {
        plain(coder, Scale::weights(), weight)?;
    }
    Ok(())
}

fn crown(coder: &mut impl Coder, crown: &mut Crown) -> Result<(), Fault> {
    let round = matches!(crown, Crown::Radius(_));
    let read = coder.flag(round)?;
    if read != round {
        *crown = if read {
            Crown::Radius(UNREAD)
        } else {
            Crown::Flat
        };
    }
    Ok(())
}

fn edge(coder: &mut impl Coder, edge: &mut Edge) -> Result<(), Fault> {
    let code = match edge {
        Edge::Sharp => 0,
        Edge::Rounded(_) => 1,
        Edge::Chamfered(_) => 2,
    };
    let read = coder.choice(code, 3)?;
    if read != code {
        *edge = match read {
            0 => Edge::Sharp,
            1 => Edge::Rounded(UNREAD),
            _ => Edge::Chamfered(UNREAD),
        };
    }
    Ok(())
}

fn plain(coder: &mut impl Coder, scale: Scale, value: &mut f64) -> Result<(), Fault> {
    let number = Number {
        notation: 0,
        value: *value,
    };
    *value = scale.code(coder, number)?.value;
    Ok(())
}

fn length(coder: &mut impl Coder, scale: Scale, length: &mut Length) -> Result<(), Fault> {
    let read = scale.code(coder, length_number(*length))?;
    *length = Length::new(read.value, LENGTH_NOTATIONS[read.notation]);
    Ok(())
}

fn measure(coder: &mut impl Coder, dim: Dim, size: &mut Measure) -> Result<(), Fault> {
    let read = scale(dim).code(coder, size_number(*size))?;
    *size = match size {
        Measure::Length(_) => Length::new(read.value, LENGTH_NOTATIONS[read.notation]).into(),
        Measure::Angle(_) => Angle::degrees(read.value).into(),
    };
    Ok(())
}

/// Which of the sizes that are equal at both ends are tied; mostly all are.
fn alike(coder: &mut impl Coder, design: &mut Design) -> Result<(), Fault> {
    let equal = design.equal_pairs();
    // Where nothing is equal there is nothing to say: the largest heads have no room for it.
    let some_cut = equal.iter().any(|back| !design.alike.contains(back));
    let some_cut = !equal.is_empty() && coder.flag(some_cut)?;
    let mut alike = BTreeSet::new();
    for back in equal {
        if !some_cut || coder.flag(design.alike.contains(&back))? {
            alike.insert(back);
        }
    }
    design.alike = alike;
    Ok(())
}

fn free(coder: &mut impl Coder, design: &mut Design, detail: &Detail) -> Result<(), Fault> {
    let mut free = BTreeMap::new();
    for (dim, size) in design.sizes() {
        // What is as another is free with that one.
        if design.alike.contains(&dim) || !coder.flag(design.is_free(dim))? {
            continue;
        }
        let unread = Range {
            low: size,
            high: size,
        };
        let mut range = *design.free.get(&dim).unwrap_or(&unread);
        match detail.limit_step(size) {
            None => {
                measure(coder, dim, &mut range.low)?;
                measure(coder, dim, &mut range.high)?;
            }
            Some(step) => steps(coder, dim, size, step, &mut range)?,
        }
        free.insert(dim, range);
    }
    design.free = free;
    Ok(())
}

/// Limits as whole steps. Most enclose the size, which leaves each fewer steps to choose from.
fn steps(
    coder: &mut impl Coder,
    dim: Dim,
    size: Measure,
    step: f64,
    range: &mut Range,
) -> Result<(), Fault> {
    let Bounds { low, high, .. } = bounds(dim);
    let (first, last) = (step_below(low, step), step_above(high, step));
    let from = step_below(range.low.number(), step).clamp(first, last);
    let to = step_above(range.high.number(), step).clamp(first, last);
    let number = size.number();
    let (below, above) = if bounds(dim).contain(number) {
        (step_below(number, step), step_above(number, step))
    } else {
        (first, last)
    };
    let enclosing = from <= below && above <= to;
    let (kind, _) = coder.weighted((usize::from(!enclosing), 0), &ENCLOSING)?;
    let (below, above) = if kind == 0 {
        (below, above)
    } else {
        (last, first)
    };
    let mut one = |value: f64, least: f64, most: f64| -> Result<Measure, Fault> {
        let count = (most - least) as u64 + 1;
        let read = coder.choice((value - least) as u64, count)?;
        Ok(size.with_number(((least + read as f64) * step).clamp(low, high)))
    };
    range.low = one(from, first, below)?;
    range.high = one(to, above, last)?;
    Ok(())
}
