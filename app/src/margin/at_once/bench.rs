//! Where a trade-off is worked out, a turn at a time, while the page stays quick.

use std::time::Duration;

use leptos::prelude::*;

use super::super::super::later::Later;
use super::super::super::state::Workspace;
use super::search::Search;
use super::side;
use headwright::units::System;

/// How long the head rests before the curve is worked out anew.
const REST: Duration = Duration::from_millis(300);

/// The working out: what was found, who is told, what comes next.
#[derive(Clone, Copy)]
pub struct Bench {
    /// The design in work.
    pub workspace: Workspace,
    /// What is looked for, and what was found.
    pub search: StoredValue<Search, LocalStorage>,
    /// Told of every change.
    pub told: Trigger,
    /// The next turn.
    pub later: Later,
    /// Whether a turn is to come.
    pub busy: StoredValue<bool>,
}

impl Bench {
    /// Begins anew when the head has come to rest.
    pub fn begin(self) {
        self.search.update_value(Search::outlive);
        self.busy.set_value(true);
        self.told.notify();
        self.later.start(REST, move || {
            let design = self.workspace.design.get_untracked();
            let from = self.now()[0];
            self.search
                .update_value(|search| search.begin(design, from));
            self.turn();
        });
    }

    /// One point, and the next in a turn of its own, so that the page stays quick.
    pub fn turn(self) {
        let more = self.search.try_update_value(Search::turn) == Some(true);
        self.busy.set_value(more);
        if more {
            self.later.start(Duration::ZERO, move || self.turn());
        }
        self.told.notify();
    }

    /// Leaves it at what was found.
    pub fn stop(self) {
        self.later.stop();
        self.busy.set_value(false);
        self.told.notify();
    }

    /// Takes up what was stopped.
    pub fn go_on(self) {
        if self.search.with_value(Search::is_begun) {
            self.turn();
        } else {
            self.begin();
        }
    }

    /// What the last sound head has of both.
    pub fn now(self) -> [f64; 2] {
        let workspace = self.workspace;
        let both = self.search.with_value(|search| [search.x, search.y]);
        both.map(|side| {
            let value = workspace.design.with(|design| {
                workspace.sound.with(|solid| {
                    workspace
                        .properties
                        .with(|weighed| side::value(side, design, solid, weighed))
                })
            });
            value.unwrap_or_default()
        })
    }

    /// What `look` makes of what was found, whenever that changes.
    pub fn see<T>(self, look: impl Fn(&Search) -> T) -> T {
        self.told.track();
        self.search.with_value(look)
    }

    /// The same with what the head has of both.
    pub fn picture(self, look: fn(&Search, [f64; 2], System) -> String) -> String {
        let (now, system) = (self.now(), self.workspace.system.get());
        self.see(|search| look(search, now, system))
    }

    /// Takes the head at the point that is looked at.
    pub fn make(self) {
        let system = self.workspace.system.get_untracked();
        let present = self.workspace.design.get_untracked();
        let made = self.search.with_value(|search| {
            let pair = search.points.get(search.here()?)?.as_ref()?;
            let name = format!(
                "{} {} at {}",
                search.y.words(),
                side::said(search.y, pair.y, system),
                side::said(search.x, pair.x, system)
            );
            // What was set free for this alone is locked again.
            let mut design = pair.design.clone();
            design.free = present.free.clone();
            (!search.old).then_some((name, design))
        });
        if let Some((name, design)) = made {
            self.workspace.replace(name, design);
        }
    }
}
