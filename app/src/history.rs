//! What can be undone: designs as they were, each with the name of the step that left it.

use headwright::design::{Design, Dim};
use headwright::fit::Fitted;
use headwright::units::Measure;

/// How many steps are kept whole, with what the fit said; of older ones as little as tells them from the next.
const WITH_THE_FIT: usize = 100;

/// A design, and what the fit last said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The design as shown.
    pub design: Design,
    /// The fit's answer that led to it; nothing while no hold is on or nothing was fitted.
    pub fitted: Option<Fitted>,
    /// The dimension that this fit left alone, because it was in hand.
    pub moved: Option<Dim>,
}

/// The other side of a step: before it in the undo stack, after it in the redo stack.
#[derive(Clone, Debug, PartialEq)]
enum Kept {
    /// As it stood.
    Whole(Box<Standing>),
    /// Like the design of the step above but for these sizes: a hundredth of the room. The fit is asked again.
    Sizes(Box<[(Dim, Measure)]>, Option<Dim>),
}

/// A step that was taken.
#[derive(Clone, Debug, PartialEq)]
struct Step {
    /// What was done: "cheek width 41".
    name: String,
    kept: Kept,
    /// The sheet that this was on.
    sheet: usize,
}

/// Steps one on the other. The uppermost are whole, and the very uppermost always.
#[derive(Clone, Debug, Default, PartialEq)]
struct Stack {
    steps: Vec<Step>,
}

impl Stack {
    fn push(&mut self, name: String, standing: Standing, sheet: usize) {
        let kept = Kept::Whole(Box::new(standing));
        self.steps.push(Step { name, kept, sheet });
        if let Some(older) = self.steps.len().checked_sub(WITH_THE_FIT + 1)
            && let [older, above, ..] = &mut self.steps[older..]
            && let (Kept::Whole(kept), Kept::Whole(above)) = (&mut older.kept, &above.kept)
        {
            kept.fitted = None;
            if let Some(sizes) = sizes_apart(&above.design, &kept.design) {
                older.kept = Kept::Sizes(sizes, kept.moved);
            }
        }
    }

    fn pop(&mut self) -> Option<(String, Standing, usize)> {
        let Step { name, kept, sheet } = self.steps.pop()?;
        let Kept::Whole(standing) = kept else {
            return None;
        };
        if let Some(top) = self.steps.last_mut()
            && let Kept::Sizes(sizes, moved) = &top.kept
        {
            top.kept = Kept::Whole(Box::new(Standing {
                design: with_sizes(&standing.design, sizes),
                fitted: None,
                moved: *moved,
            }));
        }
        Some((name, *standing, sheet))
    }

    /// Name and standing of the uppermost step.
    fn top(&self) -> Option<(&str, &Standing)> {
        match self.steps.last()? {
            Step {
                name,
                kept: Kept::Whole(standing),
                ..
            } => Some((name, standing)),
            _ => None,
        }
    }
}

/// The sizes of `to` that `from` has otherwise; nothing when they differ in more than sizes.
fn sizes_apart(from: &Design, to: &Design) -> Option<Box<[(Dim, Measure)]>> {
    let (old, new) = (from.sizes(), to.sizes());
    let pairs = old.iter().zip(&new);
    let apart: Box<[_]> = pairs
        .filter(|(old, new)| old != new)
        .map(|(_, new)| *new)
        .collect();
    (with_sizes(from, &apart) == *to).then_some(apart)
}

fn with_sizes(design: &Design, sizes: &[(Dim, Measure)]) -> Design {
    let mut design = design.clone();
    design.visit_sizes(&mut |dim, size| {
        if let Some((_, other)) = sizes.iter().find(|(other, _)| *other == dim) {
            *size = *other;
        }
    });
    design
}

/// Steps back and steps forth.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    back: Stack,
    forth: Stack,
}

impl History {
    /// Notes that `name` was done to `before`, on this sheet. What was undone can no longer be redone.
    pub fn note(&mut self, name: String, before: Standing, sheet: usize) {
        self.forth = Stack::default();
        self.back.push(name, before, sheet);
    }

    /// Takes the last step back: the standing before it and its sheet, or nothing when there is none.
    pub fn undo(&mut self, now: Standing, sheet: usize) -> Option<(Standing, usize)> {
        let (name, before, its_sheet) = self.back.pop()?;
        self.forth.push(name, now, sheet);
        Some((before, its_sheet))
    }

    /// Takes the last undone step again.
    pub fn redo(&mut self, now: Standing, sheet: usize) -> Option<(Standing, usize)> {
        let (name, after, its_sheet) = self.forth.pop()?;
        self.back.push(name, now, sheet);
        Some((after, its_sheet))
    }

    /// Name of the step that undo takes back.
    pub fn undo_name(&self) -> Option<&str> {
        self.back.top().map(|(name, _)| name)
    }

    /// Name of the step that redo takes again.
    pub fn redo_name(&self) -> Option<&str> {
        self.forth.top().map(|(name, _)| name)
    }

    /// The standing before the last step.
    pub fn before(&self) -> Option<(&str, &Standing)> {
        self.back.top()
    }
}

#[cfg(test)]
mod tests {
    use super::super::settle::look;
    use super::*;
    use headwright::design::{Edit, Hold, Part, Quantity, Size, starter};
    use headwright::units::{Density, Length, Mass};

    fn standing(name: &str) -> Standing {
        let design = starter("light").expect("a starter");
        Standing {
            design: design.apply(Edit::Name(name.to_owned())),
            fitted: None,
            moved: None,
        }
    }

    #[test]
    fn undo_and_redo_walk_the_same_steps() {
        let mut history = History::default();
        history.note("name b".to_owned(), standing("a"), 0);
        history.note("name c".to_owned(), standing("b"), 1);
        assert_eq!(history.undo_name(), Some("name c"));
        assert_eq!(history.undo(standing("c"), 1), Some((standing("b"), 1)));
        assert_eq!(history.redo_name(), Some("name c"));
        assert_eq!(history.undo(standing("b"), 1), Some((standing("a"), 0)));
        assert_eq!(history.undo(standing("a"), 0), None);
        assert_eq!(history.redo(standing("a"), 0), Some((standing("b"), 1)));
        assert_eq!(history.redo(standing("b"), 1), Some((standing("c"), 1)));
        assert_eq!(history.redo(standing("c"), 1), None);
    }

    #[test]
    fn a_new_step_forgets_what_was_undone() {
        let mut history = History::default();
        history.note("name b".to_owned(), standing("a"), 0);
        assert!(history.undo(standing("b"), 0).is_some());
        history.note("name d".to_owned(), standing("a"), 0);
        assert_eq!(history.redo_name(), None);
    }

    #[test]
    fn every_step_comes_back_as_it_was_and_the_older_ones_without_what_the_fit_said() {
        const STEPS: usize = 3 * WITH_THE_FIT;
        let weight = Hold::About {
            value: Mass::kg(1.0),
            tolerance: None,
        };
        let held = look(
            starter("light")
                .expect("a starter")
                .apply(Edit::hold(Quantity::Mass, weight)),
        );
        assert!(held.fitted.is_some());
        let width = Part::Cheeks.size(Size::Width);
        // Sizes mostly; now and then something else, which takes a whole design.
        let step = |index: usize| match index % 7 {
            3 => Edit::Name(format!("head {index}")),
            5 => Edit::Density(Density::kg_per_m3(7800.0 + index as f64)),
            _ => Edit::set(width, Length::mm(30.0 + index as f64 / 50.0)),
        };
        let mut designs = vec![held.design.clone()];
        let mut history = History::default();
        for index in 0..STEPS {
            let before = designs.last().expect("the first").clone();
            designs.push(before.apply(step(index)));
            history.note(
                index.to_string(),
                Standing {
                    design: before,
                    ..held.clone()
                },
                0,
            );
        }
        let small = history.back.steps.iter();
        let small = small.filter(|step| matches!(step.kept, Kept::Sizes(..)));
        assert!(small.count() > STEPS / 3);
        let at = |index: usize| Standing {
            design: designs[index].clone(),
            ..held.clone()
        };
        let mut fitted = 0;
        for index in (0..STEPS).rev() {
            assert_eq!(history.undo_name(), Some(index.to_string().as_str()));
            let (step, _) = history.undo(at(index + 1), 0).expect("a step");
            assert_eq!(step.design, designs[index]);
            fitted += usize::from(step.fitted.is_some());
        }
        assert_eq!(fitted, WITH_THE_FIT);
        assert_eq!(history.undo(at(0), 0), None);
        for index in 0..STEPS {
            let (step, _) = history.redo(at(index), 0).expect("a step");
            assert_eq!(step.design, designs[index + 1]);
        }
        assert_eq!(history.redo(at(STEPS), 0), None);
    }
}
