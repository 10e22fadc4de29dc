//! What can be undone: designs as they were, each with the name of the step that left it.

use headwright::design::{Design, Dim};
use headwright::fit::Fitted;

/// The most steps that are remembered.
const MOST_STEPS: usize = 200;

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
}

/// Steps back and steps forth.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    back: Vec<Step>,
    forth: Vec<Step>,
}

impl History {
    /// Notes that `name` was done to `before`. What was undone can no longer be redone.
    pub fn note(&mut self, name: String, before: Standing) {
        self.forth.clear();
        if self.back.len() == MOST_STEPS {
            self.back.remove(0);
        }
        self.back.push(Step {
            name,
            other: before,
        });
    }

    /// Takes the last step back: the standing before it, or nothing when there is none.
    pub fn undo(&mut self, now: Standing) -> Option<Standing> {
        let step = self.back.pop()?;
        self.forth.push(Step {
            name: step.name,
            other: now,
        });
        Some(step.other)
    }

    /// Takes the last undone step again.
    pub fn redo(&mut self, now: Standing) -> Option<Standing> {
        let step = self.forth.pop()?;
        self.back.push(Step {
            name: step.name,
            other: now,
        });
        Some(step.other)
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
    use super::*;
    use headwright::design::{Edit, starter};

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
        history.note("name b".to_owned(), standing("a"));
        history.note("name c".to_owned(), standing("b"));
        assert_eq!(history.undo_name(), Some("name c"));
        assert_eq!(history.undo(standing("c")), Some(standing("b")));
        assert_eq!(history.redo_name(), Some("name c"));
        assert_eq!(history.undo(standing("b")), Some(standing("a")));
        assert_eq!(history.undo(standing("a")), None);
        assert_eq!(history.redo(standing("a")), Some(standing("b")));
        assert_eq!(history.redo(standing("b")), Some(standing("c")));
        assert_eq!(history.redo(standing("c")), None);
    }

    #[test]
    fn a_new_step_forgets_what_was_undone() {
        let mut history = History::default();
        history.note("name b".to_owned(), standing("a"));
        assert!(history.undo(standing("b")).is_some());
        history.note("name d".to_owned(), standing("a"));
        assert_eq!(history.redo_name(), None);
    }

    #[test]
    fn the_oldest_step_gives_way_when_memory_is_full() {
        let mut history = History::default();
        for index in 0..=MOST_STEPS {
            history.note(index.to_string(), standing("a"));
        }
        let mut steps = 0;
        while history.undo(standing("a")).is_some() {
            steps += 1;
        }
        assert_eq!(steps, MOST_STEPS);
    }
}
