//! Random sound designs.

use headwright::bar::LossAmount;
use headwright::design::{
    Corner, Crown, Design, Edge, Edit, EyeOutline, Hold, Part, Quantity, Range, Side, bounds,
    starter, starter_names,
};
use headwright::units::{Length, Mass, Measure, System};
use proptest::prelude::*;

use super::{LENGTH_NOTATIONS, MASS_NOTATIONS, sound};

/// One random change of a design.
fn change(design: &Design, (kind, which, share, turn): (u8, usize, f64, usize)) -> Design {
    let sizes = design.sizes();
    let (dim, measure) = sizes[which % sizes.len()];
    let notation = LENGTH_NOTATIONS[turn % 4];
    let limits = bounds(dim);
    let size = |mm: f64| Length::new(mm, notation);
    // A length in any notation; an angle is an angle.
    let like = |number: f64, notation| match measure {
        Measure::Length(_) => Length::new(number, notation).into(),
        Measure::Angle(_) => measure.with_number(number),
    };
    let near = (measure.number() * (0.9 + 0.2 * share)).clamp(limits.low, limits.high);
    let side = Side::BOTH[turn % 2];
    let parts = [
        Part::Cheeks,
        Part::Neck(side, 0),
        Part::Neck(side, 1),
        Part::Face(side),
        Part::EyeTop,
        Part::EyeWaist,
        Part::EyeBottom,
    ];
    let part = parts[which % parts.len()];
    let corners = [
        Corner::Sharp,
        Corner::Chamfer {
            size: size(1.0 + 8.0 * share),
        },
        Corner::Octagon,
        Corner::Rounded {
            radius: size(1.0 + 8.0 * share),
        },
        Corner::Round,
        Corner::Conic {
            across: size(1.0 + 9.0 * share),
            up: size(10.0 - 8.0 * share),
            weight: 0.95 * share,
        },
    ];
    let edges = [
        Edge::Sharp,
        Edge::Rounded(size(0.3 + share)),
        Edge::Chamfered(size(0.3 + share)),
    ];
    let outlines = [
        EyeOutline::Round,
        EyeOutline::Ellipse,
        EyeOutline::Obround,
        EyeOutline::RoundedRectangle,
    ];
    let mass = |kg: f64| Mass::new(kg, MASS_NOTATIONS[which % 5]);
    match kind % 15 {
        0..=2 => design.apply(Edit::Set(dim, like(near, notation))),
        3 => design.apply(Edit::Corner(part, corners[turn % 6])),
        4 => design.apply(Edit::Equal(part, turn % 3 == 0)),
        5 => design.apply(Edit::EyeOutline(outlines[turn % 4])),
        6 => design.apply(Edit::Crown(
            side,
            if turn % 3 == 0 {
                Crown::Flat
            } else {
                Crown::Radius(size(60.0 + 400.0 * share))
            },
        )),
        7 => design.apply(Edit::Edge(side, edges[turn % 3])),
        8 => design.apply(if turn % 3 == 0 {
            Edit::RemoveNeck(side)
        } else {
            Edit::AddNeck(side)
        }),
        9 => design.apply(Edit::Free(
            dim,
            Range::new(
                like(
                    limits.low + share * (measure.number() - limits.low),
                    notation,
                ),
                like(measure.number() + share * 20.0, LENGTH_NOTATIONS[which % 4]),
            ),
        )),
        10 => design.apply(Edit::hold(
            Quantity::Mass,
            Hold::About {
                value: mass(0.5 + 2.0 * share),
                tolerance: (turn % 2 == 0).then(|| mass(share / 100.0)),
            },
        )),
        11 => design.apply(Edit::hold(
            Quantity::Balance,
            Hold::Between {
                low: size(-share),
                high: size(share),
            },
        )),
        12 => {
            let quantity = Quantity::ALL[turn % 6];
            let amount = |number: f64| {
                let system = [System::Metric, System::Imperial][which % 2];
                quantity.amount(number, system)
            };
            let (low, high) = (1.0 + share, 2.0 + 3.0 * share);
            let hold = match which % 4 {
                0 => Hold::AtLeast { least: amount(low) },
                1 => Hold::AtMost { most: amount(high) },
                2 => Hold::About {
                    value: amount(low),
                    tolerance: (turn % 2 == 0).then(|| amount(share)),
                },
                _ => Hold::Between {
                    low: amount(low),
                    high: amount(high),
                },
            };
            design.apply(Edit::Hold(quantity, Some(hold)))
        }
        13 => design.apply(Edit::Alike(dim, turn % 3 != 0)),
        _ => {
            let mut bar = design.bar.clone();
            bar.confidence = 0.5 + 0.49 * share;
            if let Some(loss) = bar.losses.get_mut(which % 6) {
                loss.amount = LossAmount::Mass {
                    expected: mass(share),
                    spread: mass(share * share),
                };
            }
            design.apply(Edit::Bar(Box::new(bar)))
        }
    }
}

/// Without the sizes that the eye's outline does not use, which a link leaves behind.
fn without_leftovers(mut design: Design) -> Design {
    let eye = &mut design.eye;
    for level in [&mut eye.top, &mut eye.waist, &mut eye.bottom] {
        if eye.outline == EyeOutline::Round {
            level.width = None;
        }
        if eye.outline != EyeOutline::RoundedRectangle {
            level.radius = None;
        }
    }
    design
}

/// A sound design: a starter after random changes, each kept when the head is still sound.
pub fn any_sound_design() -> impl Strategy<Value = Design> {
    let changes =
        prop::collection::vec((any::<u8>(), 0..1000_usize, 0.0..1.0, 0..1000_usize), 0..60);
    (0..starter_names().count(), changes).prop_map(|(index, changes)| {
        let name = starter_names().nth(index).expect("a starter");
        let start = starter(name).expect("a starter");
        changes.into_iter().fold(start, |design, one| {
            let changed = without_leftovers(change(&design, one));
            if sound(&changed) { changed } else { design }
        })
    })
}
