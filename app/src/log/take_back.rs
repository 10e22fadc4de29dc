//! Taking back what was pressed last, and putting it back again.

use leptos::prelude::*;

use super::change::Change;
use headwright::log::{Build, Step};

/// The most presses that are remembered.
const MOST: usize = 200;

/// Something pressed, and what takes it back.
#[derive(Clone, Debug, PartialEq)]
pub struct Pressed {
    /// The id of its build.
    pub build: String,
    /// What was done.
    pub change: Change,
    /// What takes it back.
    back: Change,
    /// The list of steps that it made, where it did.
    made: Option<Vec<Step>>,
}

/// What was pressed on this page, in its order.
#[derive(Clone, Copy)]
pub struct TakeBack {
    pressed: RwSignal<Vec<Pressed>>,
    /// What was taken back last, until something else is pressed.
    taken: RwSignal<Option<Pressed>>,
}

impl Pressed {
    /// `change` to the build as it was before; nothing where it has no way back.
    fn of(before: &Build, change: &Change) -> Option<Self> {
        let back = match change {
            Change::Record(event) => Change::Strike(event.clone()),
            Change::Strike(event) => {
                let place = before.events.iter().rposition(|other| other == event)?;
                Change::Restore(place, event.clone())
            }
            Change::Edit(_) | Change::Steps(_) => Change::Steps(before.steps.clone()),
            Change::End(_) => Change::End(before.outcome),
            Change::Remove => Change::Put(Box::new(before.clone())),
            Change::Put(_) | Change::Restore(..) | Change::Join(_) => return None,
        };
        let after = change.clone().of(Some(before.clone())).ok()?;
        let made = after.map(|build| build.steps);
        let made = made.filter(|_| matches!(back, Change::Steps(_)));
        Some(Self {
            build: before.id.clone(),
            change: change.clone(),
            back,
            made,
        })
    }

    /// The last entry of a build, whoever pressed it.
    fn last_of(build: &Build) -> Option<Self> {
        let last = build.events.last()?;
        Self::of(build, &Change::Record(last.clone()))
    }

    /// Whether the build still is as this left it.
    fn stands_in(&self, build: &Build) -> bool {
        match (&self.back, &self.made) {
            (Change::Strike(event), _) => build.events.contains(event),
            (Change::Steps(_), Some(made)) => build.steps == *made,
            _ => true,
        }
    }
}

impl TakeBack {
    /// Nothing was pressed yet.
    pub fn new() -> Self {
        Self {
            pressed: RwSignal::new(Vec::new()),
            taken: RwSignal::new(None),
        }
    }

    /// Remembers `change` to the build as it was before.
    pub fn pressed(self, before: Option<&Build>, change: &Change) {
        self.taken.set(None);
        if let Some(pressed) = before.and_then(|before| Pressed::of(before, change)) {
            self.pressed.update(|all| {
                if all.len() == MOST {
                    all.remove(0);
                }
                all.push(pressed);
            });
        }
    }

    /// What would be taken back in `build`: what this page pressed last, else its last entry.
    pub fn next(self, build: &Build) -> Option<Pressed> {
        let own = self.pressed.with(|all| {
            let mut own = all.iter().rev().filter(|one| one.build == build.id);
            own.next().cloned()
        });
        own.filter(|own| own.stands_in(build))
            .or_else(|| Pressed::last_of(build))
    }

    /// The build that was removed last, to be put back.
    pub fn removed(self) -> Option<(Pressed, Build)> {
        self.pressed.with(|all| {
            let mut latest = all.iter().rev();
            latest.find_map(|one| match &one.back {
                Change::Put(build) => Some((one.clone(), (**build).clone())),
                _ => None,
            })
        })
    }

    /// What was taken back last in `build`.
    pub fn taken(self, build: &Build) -> Option<Pressed> {
        self.taken
            .with(|taken| taken.clone().filter(|one| one.build == build.id))
    }

    /// What takes `pressed` back; it is to be done.
    pub fn back(self, pressed: &Pressed) -> Change {
        self.pressed.update(|all| {
            if let Some(at) = all.iter().rposition(|one| one == pressed) {
                all.remove(at);
            }
        });
        // A build that comes back stands as before: its removal is not offered again.
        let again = !matches!(pressed.change, Change::Remove);
        self.taken.set(again.then(|| pressed.clone()));
        pressed.back.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::log::{Event, Outcome, StepEdit, What};

    fn begun() -> Build {
        let design = starter("rounding").expect("a starter");
        let mut build = Build::begun("b1", None, design, 5);
        for at in [7, 8] {
            let what = What::Heats { count: 1 };
            build
                .record(Event { step: 1, at, what })
                .expect("it can be");
        }
        build
    }

    #[test]
    fn every_press_has_a_way_back_to_the_build_as_it_was() {
        let build = begun();
        let event = Event {
            step: 2,
            at: 9,
            what: What::Start,
        };
        for change in [
            Change::Record(event),
            Change::Strike(build.events[0].clone()),
            Change::Edit(StepEdit::Remove { step: 3 }),
            Change::Steps(Vec::new()),
            Change::End(Outcome::Spoiled),
            Change::Remove,
        ] {
            let pressed = Pressed::of(&build, &change).expect("it has a way back");
            let after = change.of(Some(build.clone())).expect("it can be");
            assert_ne!(after.as_ref(), Some(&build));
            if let Some(after) = &after {
                assert!(pressed.stands_in(after));
            }
            assert_eq!(pressed.back.of(after), Ok(Some(build.clone())));
        }
    }

    #[test]
    fn a_build_of_another_day_is_taken_back_from_its_last_entry() {
        let build = begun();
        let last = Pressed::last_of(&build).expect("it has entries");
        let before = last.back.of(Some(build.clone())).expect("it can be");
        assert_eq!(before.expect("it stands").events, build.events[..1]);
        let empty = Build {
            events: Vec::new(),
            ..build
        };
        assert_eq!(Pressed::last_of(&empty), None);
    }

    #[test]
    fn a_list_that_another_tab_changed_since_is_not_put_back() {
        let build = begun();
        let change = Change::Edit(StepEdit::Remove { step: 3 });
        let pressed = Pressed::of(&build, &change).expect("it has a way back");
        assert!(!pressed.stands_in(&build));
    }
}
