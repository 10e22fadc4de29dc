//! The one door through which a design changes.

use super::{
    Corner, Crown, Design, Dim, Edge, EyeLevel, EyeOutline, Hold, Lugs, MOST_NECKS, Neck, Outline,
    Part, Quantity, Range, Side, Size, Tip, Transition, Wall,
};
use crate::bar::Bar;
use crate::handle::Handle;
use crate::heat::Heat;
use crate::solid::{Form, Station};
use crate::units::{Amount, Angle, Density, Length, LengthNotation, Measure};

/// A change to a design. Screen, link, file, tests and fit all use these and nothing else.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Gives a dimension a value; one of the other kind changes nothing.
    Set(Dim, Measure),
    /// Gives the design a dimension that it may do without, or takes it away.
    Optional(Dim, Option<Measure>),
    /// Puts lugs on the cheek block, or takes them off.
    Lugs(Option<Lugs>),
    /// Changes how the wall of the eye runs.
    Wall(Wall),
    /// Locks a dimension: a fit leaves it alone.
    Lock(Dim),
    /// Lets a fit move a dimension between two limits.
    Free(Dim, Range),
    /// Changes the name.
    Name(String),
    /// Changes the note.
    Note(String),
    /// Changes the steel's density.
    Density(Density),
    /// Changes how the corners of a section are worked.
    Corner(Part, Corner),
    /// Ties the height of a section, or the width of an eye level, to its width or length, or
    /// cuts the tie.
    Equal(Part, bool),
    /// Makes a size of the back as the same size of the front, whose value it takes, or cuts the
    /// tie; either of the two names the pair.
    Alike(Dim, bool),
    /// Changes the kind of the eye's outline.
    EyeOutline(EyeOutline),
    /// Changes how a face is crowned.
    Crown(Side, Crown),
    /// Changes how a face's rim is broken.
    Edge(Side, Edge),
    /// Changes what an end is worked into, and how far it reaches then.
    Tip(Side, Box<Tip>, Length),
    /// Changes how the run that leads to a neck ([`Part::Neck`]) or into the tip
    /// ([`Part::End`]) goes over.
    Transition(Part, Transition),
    /// Adds a neck to an end, in the middle of its longest run, so that the shape barely moves.
    AddNeck(Side),
    /// Takes the outermost neck off an end.
    RemoveNeck(Side),
    /// Holds a quantity, or lets it go; amounts of another kind change nothing.
    Hold(Quantity, Option<Hold<Amount>>),
    /// Changes the bar, its losses or what is rounded to.
    Bar(Box<Bar>),
    /// Changes the handle.
    Handle(Box<Handle>),
    /// Changes the steel or its heat treatment; another grade brings its density along.
    Heat(Box<Heat>),
    /// Puts another design in the place of this one: a starter, a link, a file, a fit's answer.
    Replace(Box<Design>),
}

impl Edit {
    /// Gives `dim` a length or an angle.
    pub fn set(dim: Dim, value: impl Into<Measure>) -> Self {
        Self::Set(dim, value.into())
    }

    /// Holds `quantity`.
    pub fn hold<Q: Copy + Into<Amount>>(quantity: Quantity, hold: Hold<Q>) -> Self {
        Self::Hold(quantity, Some(hold.map(Into::into)))
    }
}

impl Design {
    /// The design after `edit`. Total: an edit that does not apply changes nothing.
    #[must_use]
    pub fn apply(&self, edit: Edit) -> Design {
        let mut design = self.clone();
        let gives_values = edit.gives_values();
        match edit {
            Edit::Set(dim, value) => design.set(dim, value),
            Edit::Optional(dim, value) => design.set_optional(dim, value),
            Edit::Lugs(lugs) => design.cheeks.lugs = lugs,
            Edit::Wall(wall) => design.eye.wall = wall,
            Edit::Lock(dim) => {
                design.free.remove(&design.leader(dim));
            }
            Edit::Free(dim, range) => {
                design.free.insert(design.leader(dim), range);
            }
            Edit::Name(name) => design.name = name,
            Edit::Note(note) => design.note = note,
            Edit::Density(density) => design.density = density,
            Edit::Corner(part, corner) => {
                if let Some(outline) = design.outline_mut(part) {
                    outline.corner = corner;
                }
            }
            Edit::Equal(part, equal) => design.tie(part, equal),
            Edit::Alike(dim, alike) => design.set_alike(dim, alike),
            Edit::EyeOutline(outline) => design.set_eye_outline(outline),
            Edit::Crown(side, crown) => {
                if let Tip::Face(face) = &mut design.end_mut(side).tip {
                    face.crown = crown;
                }
            }
            Edit::Edge(side, edge) => {
                if let Tip::Face(face) = &mut design.end_mut(side).tip {
                    face.edge = edge;
                }
            }
            Edit::Tip(side, tip, reach) => {
                let end = design.end_mut(side);
                (end.tip, end.reach) = (*tip, reach);
                if let Some(Range { low, high }) =
                    design.free.get_mut(&Part::End(side).size(Size::Reach))
                {
                    // The limits follow the smith who goes beyond them.
                    *low = low.with_number(low.number().min(reach.in_mm()));
                    *high = high.with_number(high.number().max(reach.in_mm()));
                }
            }
            Edit::Transition(Part::Neck(side, index), transition) => {
                if let Some(neck) = design.end_mut(side).necks.get_mut(usize::from(index)) {
                    neck.transition = transition;
                }
            }
            Edit::Transition(part, transition) => {
                if let Part::End(side) = part {
                    design.end_mut(side).transition = transition;
                }
            }
            Edit::AddNeck(side) => design.add_neck(side),
            Edit::RemoveNeck(side) => {
                design.end_mut(side).necks.pop();
            }
            Edit::Hold(quantity, hold) => design.holds.set(quantity, hold),
            Edit::Bar(bar) => design.bar = *bar,
            Edit::Handle(handle) => design.handle = *handle,
            Edit::Heat(heat) => {
                if heat.steel.grade != design.heat.steel.grade {
                    design.density = heat.steel.grade.density();
                }
                design.heat = *heat;
            }
            Edit::Replace(other) => design = *other,
        }
        if gives_values {
            design.follow(self);
        }
        design.settle_ties();
        let sizes = design.sizes();
        let free = &mut design.free;
        free.retain(|dim, _| sizes.iter().any(|(present, _)| present == dim));
        design
    }

    pub(super) fn set(&mut self, dim: Dim, value: Measure) {
        self.visit_sizes(&mut |other, slot| {
            if other == dim {
                *slot = value;
            }
        });
    }

    fn set_optional(&mut self, dim: Dim, value: Option<Measure>) {
        let slot = match (dim.part, dim.size) {
            (Part::Cheeks, Size::Swell) => Slot::Length(&mut self.cheeks.swell),
            (Part::Eye, Size::MouthBreak) => Slot::Length(&mut self.eye.mouth_break),
            (Part::Eye, Size::CockAlong) => Slot::Angle(&mut self.eye.cock_along),
            (Part::Eye, Size::CockAcross) => Slot::Angle(&mut self.eye.cock_across),
            (Part::End(side), Size::Drop) => Slot::Angle(&mut self.end_mut(side).drop),
            (Part::Pein(side), size) => {
                let Tip::Pein(pein) = &mut self.end_mut(side).tip else {
                    return;
                };
                Slot::Length(match size {
                    Size::Rocker => &mut pein.rocker,
                    Size::Hollow => &mut pein.hollow,
                    Size::CornerBreak => &mut pein.corner_break,
                    _ => return,
                })
            }
            _ => return,
        };
        match (slot, value) {
            (Slot::Length(slot), None) => *slot = None,
            (Slot::Angle(slot), None) => *slot = None,
            (Slot::Length(slot), Some(Measure::Length(length))) => *slot = Some(length),
            (Slot::Angle(slot), Some(Measure::Angle(angle))) => *slot = Some(angle),
            _ => {}
        }
    }

    /// The section of `part`, to be changed; nothing for a part without one.
    fn outline_mut(&mut self, part: Part) -> Option<&mut Outline> {
        match part {
            Part::Cheeks => Some(&mut self.cheeks.outline),
            Part::Neck(side, index) => {
                let neck = self.end_mut(side).necks.get_mut(usize::from(index))?;
                Some(&mut neck.outline)
            }
            Part::Face(side) => match &mut self.end_mut(side).tip {
                Tip::Face(face) => Some(&mut face.outline),
                Tip::Ball(_) | Tip::Pein(_) => None,
            },
            Part::Pein(side) => match &mut self.end_mut(side).tip {
                Tip::Pein(pein) => Some(&mut pein.outline),
                Tip::Face(_) | Tip::Ball(_) => None,
            },
            Part::Lugs
            | Part::Eye
            | Part::EyeTop
            | Part::EyeWaist
            | Part::EyeBottom
            | Part::End(_)
            | Part::Ball(_) => None,
        }
    }

    /// The section of `part`; nothing for a part without one.
    pub fn outline(&self, part: Part) -> Option<Outline> {
        self.clone().outline_mut(part).cloned()
    }

    fn eye_level_mut(&mut self, part: Part) -> Option<&mut EyeLevel> {
        match part {
            Part::EyeTop => Some(&mut self.eye.top),
            Part::EyeWaist => Some(&mut self.eye.waist),
            Part::EyeBottom => Some(&mut self.eye.bottom),
            _ => None,
        }
    }

    fn tie(&mut self, part: Part, equal: bool) {
        if let Some(outline) = self.outline_mut(part) {
            outline.height = (!equal).then(|| outline.height.unwrap_or(outline.width));
        } else if let Some(level) = self.eye_level_mut(part) {
            level.width = (!equal).then(|| level.width.unwrap_or(level.length));
        }
    }

    fn set_eye_outline(&mut self, outline: EyeOutline) {
        self.eye.outline = outline;
        for level in [&mut self.eye.top, &mut self.eye.waist, &mut self.eye.bottom] {
            let width = *level.width.get_or_insert(level.length);
            if outline == EyeOutline::RoundedRectangle {
                // A third of the width looks like a rectangle that a drift can still make.
                level
                    .radius
                    .get_or_insert(width.with_mm(width.in_mm() / 3.0));
            }
        }
    }

    fn add_neck(&mut self, side: Side) {
        let head = crate::solid::Head::lift(self, &mut |_, mm| mm);
        let runs = &head.end(side).runs;
        if self.end(side).necks.len() >= MOST_NECKS {
            return;
        }
        let length = |run: &crate::solid::Run<f64>| run.to - run.from;
        let Some((index, run)) = runs
            .iter()
            .enumerate()
            .skip(1)
            .max_by(|(_, a), (_, b)| length(a).total_cmp(&length(b)))
        else {
            return;
        };
        let Station { u: at, section, .. } = run.at(0.5);
        let notation = self.end(side).reach.notation();
        let size = |mm: f64| Length::new(round_for(notation, mm), notation);
        let corner = if section.c <= 0.0 {
            Corner::Sharp
        } else if section.c >= section.a && section.d >= section.b {
            Corner::Round
        } else {
            let (across, up) = (size(section.c), size(section.d));
            Corner::Conic {
                across,
                up,
                weight: (section.w * 1000.0).round() / 1000.0,
            }
        };
        let outline = Outline::new(size(2.0 * section.a), size(2.0 * section.b), corner);
        let transition = match run.form {
            Form::Smooth => Transition::Smooth,
            _ => Transition::Straight,
        };
        // From here on the necks of this end have another number.
        self.keep_ties(
            &|dim| !matches!(dim.part, Part::Neck(_, number) if usize::from(number) + 1 >= index),
        );
        self.end_mut(side).necks.insert(
            index - 1,
            Neck {
                at: size(at),
                outline,
                transition,
            },
        );
    }
}

/// A place for a size that a design may do without.
enum Slot<'a> {
    Length(&'a mut Option<Length>),
    Angle(&'a mut Option<Angle>),
}

/// `mm` rounded to what a smith would write: half a millimetre, or 1/32 in.
pub(super) fn round_for(notation: LengthNotation, mm: f64) -> f64 {
    let step = step_for(notation);
    (mm / step).round() * step
}

/// What a smith writes lengths by, mm.
pub(super) const fn step_for(notation: LengthNotation) -> f64 {
    match notation {
        LengthNotation::Millimetre | LengthNotation::Centimetre => 0.5,
        LengthNotation::InchDecimal | LengthNotation::InchFraction => 25.4 / 32.0,
    }
}
