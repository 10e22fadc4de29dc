//! The log and the costs on their way out and in with the rack.

use leptos::prelude::*;

use super::super::keep;
use super::super::state::Workspace;
use super::change::Change;
use super::keeper::{Keeper, open};
use super::price::Asked;
use headwright::log::{BuildArrival, BuildArrived, Log};
use headwright::price::Costs;

/// The log beside the rack.
#[derive(Clone, Copy)]
pub struct Beside {
    keeper: Keeper,
}

impl Beside {
    /// That of the page.
    pub fn new(workspace: Workspace) -> Self {
        Self {
            keeper: open(workspace),
        }
    }

    /// Whether the log has been read.
    pub fn is_read(self) -> bool {
        self.keeper.builds.with(Option::is_some)
    }

    /// The log as it stands.
    pub fn log(self) -> Log {
        self.keeper.log()
    }

    /// The costs, where any were entered.
    pub fn costs(self) -> Option<Costs> {
        let text = keep::read_text(keep::PRICE)?;
        let asked: Asked = serde_json::from_str(&text).ok()?;
        Some(asked.costs)
    }

    /// Takes builds in as they stand joined; how many had no room.
    pub fn take_in(self, builds: Vec<BuildArrived>) -> usize {
        let mut refused = 0;
        for BuildArrived { arrival, build } in builds {
            let id = build.id.clone();
            let pressed = match arrival {
                BuildArrival::Skipped => continue,
                BuildArrival::NoRoom => None,
                BuildArrival::Came | BuildArrival::Joined | BuildArrival::Copied => {
                    self.keeper.press(&id, Change::Join(Box::new(build))).ok()
                }
            };
            refused += usize::from(pressed.is_none());
        }
        refused
    }

    /// Takes costs in where none were entered yet; whether they are there now.
    pub fn take_costs(self, costs: Costs) -> bool {
        if keep::read_text(keep::PRICE).is_some() {
            return self.costs() == Some(costs);
        }
        let asked = Asked::of(costs);
        serde_json::to_string(&asked).is_ok_and(|text| keep::store_text(keep::PRICE, &text))
    }
}
