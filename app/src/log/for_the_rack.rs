//! The log and the costs on their way out and in with the rack.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::costs;
use super::keeper::{self, Keeper, open};
use super::out_in::said;
use headwright::log::{Build, BuildArrived, Log};
use headwright::price::Costs;
use headwright::rack::Unread;

/// The log and the costs beside the rack.
#[derive(Clone, Copy)]
pub struct Beside {
    keeper: Keeper,
    costs: costs::Keeper,
}

impl Beside {
    /// Those of the page.
    pub fn new(workspace: Workspace) -> Self {
        Self {
            keeper: open(workspace),
            costs: costs::open(workspace),
        }
    }

    /// Whether both have been read.
    pub fn is_read(self) -> bool {
        self.keeper.builds.with(Option::is_some) && self.costs.is_read()
    }

    /// The log as it stands.
    pub fn log(self) -> Log {
        self.keeper.log()
    }

    /// The costs, where any were entered, and those that wait for the smith's choice.
    pub fn costs(self) -> Vec<Costs> {
        self.costs.kept.with_untracked(|kept| kept.all())
    }

    /// Costs that cannot be read.
    pub fn unread_costs(self) -> Vec<Unread> {
        self.costs.kept.with_untracked(costs::Kept::unread)
    }

    /// Leaves builds out of those of a file that would come to stand over what cannot be read; how many.
    pub fn leave(self, builds: &mut Vec<Build>) -> usize {
        self.keeper.leave(builds)
    }

    /// Takes builds in as they stand joined, and says what came of them and of those that were `left` in the file.
    pub fn take_in(self, builds: &[BuildArrived], left: usize) -> String {
        self.keeper.bring(builds);
        said(builds, left)
    }

    /// Takes the costs of a file in, and says what came of them.
    pub fn take_costs(self, file: &str, costs: Vec<Costs>) -> String {
        self.costs.take_in(file, costs)
    }

    /// Why the browser does not keep log or costs, where it does not.
    pub fn troubles(self) -> Vec<&'static str> {
        let log = self.keeper.trouble.get().map(keeper::sentence);
        let costs = self.costs.trouble.get().map(costs::sentence);
        log.into_iter().chain(costs).collect()
    }
}
