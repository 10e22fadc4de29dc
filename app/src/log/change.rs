//! What can be done to a build, one press each.
//!
//! A change is made to whatever stands in the browser at that moment, in one look: of several tabs none loses what
//! another did.

use headwright::log::{Build, Event, LogError, Outcome, Step, StepEdit};

/// Something done to a build.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// It begins, or comes back after it was removed.
    Put(Box<Build>),
    /// Something happened.
    Record(Event),
    /// An entry was none.
    Strike(Event),
    /// The entry that was struck from this place is one after all.
    Restore(usize, Event),
    /// Another list of steps.
    Edit(StepEdit),
    /// The list as it was.
    Steps(Vec<Step>),
    /// It ends, or goes on.
    End(Outcome),
    /// What a file has of it comes in.
    Join(Box<Build>),
    /// It goes.
    Remove,
}

impl Change {
    /// What becomes of the build by it; nothing is left of one that is removed.
    ///
    /// # Errors
    /// What cannot stand in a build; then it stays what it is.
    pub fn of(self, build: Option<Build>) -> Result<Option<Build>, LogError> {
        let Some(mut build) = build else {
            return Ok(match self {
                Self::Put(build) | Self::Join(build) => Some(*build),
                _ => None,
            });
        };
        match self {
            // It stands already, and may have more by now.
            Self::Put(_) => {}
            Self::Record(event) => build.record(event)?,
            Self::Strike(event) => {
                if let Some(at) = build.events.iter().rposition(|other| *other == event) {
                    build.events.remove(at);
                }
            }
            Self::Restore(place, event) => {
                build.record(event)?;
                let place = place.min(build.events.len() - 1);
                build.events[place..].rotate_right(1);
            }
            Self::Edit(edit) => build.edit(edit)?,
            Self::Steps(steps) => build.steps = steps,
            Self::End(outcome) => build.outcome = outcome,
            Self::Join(coming) => {
                build = build.joined(&coming).ok_or(LogError::Apart)?;
            }
            Self::Remove => return Ok(None),
        }
        Ok(Some(build))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::log::What;

    fn begun() -> Build {
        let design = starter("rounding").expect("a starter");
        Build::begun("b1", None, design, 5)
    }

    fn event(at: u64, what: What) -> Event {
        Event { step: 1, at, what }
    }

    fn with(events: &[Event]) -> Build {
        Build {
            events: events.to_vec(),
            ..begun()
        }
    }

    #[test]
    fn the_last_entry_that_is_struck_goes_and_no_other() {
        let heat = event(7, What::Heats { count: 1 });
        let all = [heat.clone(), event(8, What::Start), heat.clone()];
        let struck = Change::Strike(heat.clone()).of(Some(with(&all)));
        assert_eq!(struck, Ok(Some(with(&all[..2]))));
        let missing = Change::Strike(event(9, What::Stop));
        assert_eq!(missing.of(Some(with(&all))), Ok(Some(with(&all))));
    }

    #[test]
    fn a_struck_entry_comes_back_to_its_place() {
        let all = [event(7, What::Start), event(8, What::Stop)];
        let struck = Change::Strike(all[0].clone())
            .of(Some(with(&all)))
            .expect("it can be");
        let back = Change::Restore(0, all[0].clone()).of(struck.clone());
        assert_eq!(back, Ok(Some(with(&all))));
        let last = Change::Restore(9, all[0].clone()).of(struck);
        let turned = [all[1].clone(), all[0].clone()];
        assert_eq!(last, Ok(Some(with(&turned))));
    }

    #[test]
    fn what_two_tabs_record_is_all_there_in_either_order() {
        let (a, b) = (event(7, What::Start), event(8, What::Heats { count: 1 }));
        let both = |first: &Event, second: &Event| {
            let build = Change::Record(first.clone())
                .of(Some(begun()))
                .expect("it can be");
            Change::Record(second.clone()).of(build).expect("it can be")
        };
        for built in [both(&a, &b), both(&b, &a)] {
            let events = built.expect("it stands").events;
            assert!(events.contains(&a) && events.contains(&b) && events.len() == 2);
        }
    }

    #[test]
    fn a_build_of_a_file_is_joined_with_the_one_that_stands() {
        let [a, b, c] = [7, 9, 8].map(|at| event(at, What::Start));
        let here = with(&[a.clone(), b.clone()]);
        let coming = Build {
            outcome: Outcome::Finished,
            ..with(&[a, c.clone()])
        };
        let join = Change::Join(Box::new(coming));
        let all = join.clone().of(Some(here.clone())).expect("it can be");
        let all = all.expect("a build");
        assert!(all.events.contains(&b) && all.events.contains(&c));
        assert_eq!(all.events.len(), 3);
        assert_eq!(all.outcome, Outcome::Finished);
        assert_eq!(join.of(Some(all.clone())), Ok(Some(all)));
        let other = Build {
            begun: 6,
            ..here.clone()
        };
        let apart = Change::Join(Box::new(other)).of(Some(here));
        assert_eq!(apart, Err(LogError::Apart));
    }

    #[test]
    fn a_removed_build_is_put_back_and_one_that_stands_is_not_put_over() {
        let here = with(&[event(7, What::Start)]);
        assert_eq!(Change::Remove.of(Some(here.clone())), Ok(None));
        let put = Change::Put(Box::new(begun()));
        assert_eq!(put.clone().of(None), Ok(Some(begun())));
        assert_eq!(put.of(Some(here.clone())), Ok(Some(here)));
        assert_eq!(Change::Record(event(7, What::Stop)).of(None), Ok(None));
    }
}
