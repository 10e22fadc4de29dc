//! What can be undone: designs as they were, each with the name of the step that left it.

use headwright::design::{Design, Dim};
use headwright::fit::Fitted;

/// Of how many steps what the fit said is remembered too; older ones ask it again when they are undone.
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

/// A step that was taken.
#[derive(Clone, Debug, PartialEq)]
struct Step {
    /// What was done: "cheek width 41".
    name: String,
    /// The other side of the step: before it in the undo stack, after it in the redo stack.
    other: Standing,
    /// The sheet that this was on.
    sheet: usize,
}

/// Steps back and steps forth.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    back: Vec<Step>,
    forth: Vec<Step>,
}

impl History {
    /// Notes that `name` was done to `before`, on this sheet. What was undone can no longer be redone.
    pub fn note(&mut self, name: String, before: Standing, sheet: usize) {
        self.forth.clear();
        if let Some(older) = self.back.len().checked_sub(WITH_THE_FIT) {
            self.back[older].other.fitted = None;
        }
        self.back.push(Step {
            name,
            other: before,
            sheet,
        });
    }

    /// Takes the last step back: the standing before it and its sheet, or nothing when there is none.
    pub fn undo(&mut self, now: Standing, sheet: usize) -> Option<(Standing, usize)> {
        let step = self.back.pop()?;
        self.forth.push(Step {
            name: step.name,
            other: now,
            sheet,
        });
        Some((step.other, step.sheet))
    }

    /// Takes the last undone step again.
    pub fn redo(&mut self, now: Standing, sheet: usize) -> Option<(Standing, usize)> {
        let step = self.forth.pop()?;
        self.back.push(Step {
            name: step.name,
            other: now,
            sheet,
        });
        Some((step.other, step.sheet))
    }

    /// Name of the step that undo takes back.
    pub fn undo_name(&self) -> Option<&str> {
        self.back.last().map(|step| step.name.as_str())
    }

    /// Name of the step that redo takes again.
    pub fn redo_name(&self) -> Option<&str> {
        self.forth.last().map(|step| step.name.as_str())
    }

    /// The standing before the last step.
    pub fn before(&self) -> Option<(&str, &Standing)> {
        self.back
            .last()
            .map(|step| (step.name.as_str(), &step.other))
    }
}

#[cfg(test)]
mod tests {
    use super::super::settle::look;
    use super::*;
    use headwright::design::{Edit, Hold, Quantity, starter};
    use headwright::units::Mass;

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
    fn every_step_is_remembered_and_the_older_ones_without_what_the_fit_said() {
        const STEPS: usize = 3 * WITH_THE_FIT;
        let weight = Hold::About {
            value: Mass::kg(1.0),
            tolerance: None,
        };
        let design = starter("light").expect("a starter");
        let held = look(design.apply(Edit::hold(Quantity::Mass, weight)));
        assert!(held.fitted.is_some());
        let mut history = History::default();
        for index in 0..STEPS {
            history.note(index.to_string(), held.clone(), 0);
        }
        let mut fitted = 0;
        for index in (0..STEPS).rev() {
            assert_eq!(history.undo_name(), Some(index.to_string().as_str()));
            let (step, _) = history.undo(held.clone(), 0).expect("a step");
            assert_eq!(step.design, held.design);
            fitted += usize::from(step.fitted.is_some());
        }
        assert_eq!(fitted, WITH_THE_FIT);
        assert_eq!(history.undo(held, 0), None);
    }
}
