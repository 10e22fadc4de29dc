//! A size under the finger: drawn by a thread of its own where there is one, settled here as soon as the finger rests.

use std::time::Duration;

use leptos::prelude::*;

use super::super::history::Standing;
use super::super::settle::settle;
use super::super::tracer::Drawn;
use super::{Session, Workspace};
use headwright::design::{Dim, Edit};
use headwright::fit::Effort;
use headwright::units::Measure;

/// A finger that drags rests when it has not moved for this long: all that is made up for then would hold up one that has only
/// slowed down.
const REST: Duration = Duration::from_millis(250);

/// What the thread that draws has settled, and does not stand yet.
#[derive(Clone, Debug)]
pub(super) struct Ahead {
    dim: Dim,
    size: Measure,
    drawn: Drawn,
}

impl Workspace {
    /// Shows `dim` as it is dragged. A finger that moves and changes nothing rests.
    pub fn slide(self, dim: Dim, size: Measure) {
        if self.is_shown(dim, size) {
            return;
        }
        self.chase.slide(true);
        self.chase.hold_back(false);
        self.traced.set(false);
        self.show_size(dim, size);
        self.rest_later();
    }

    /// Shows `dim` as it is dragged, and all sizes as the thread that draws has settled them, as `drawn`.
    ///
    /// After the first of a row the drawing says what there is to say, and the page follows when there is time for it, at
    /// the latest when the finger rests.
    pub fn slide_traced(self, dim: Dim, size: Measure, drawn: Drawn) {
        if self.is_shown(dim, size) {
            return;
        }
        let met = drawn.met;
        self.ahead.set_value(Some(Ahead { dim, size, drawn }));
        if self.is_traced() {
            // How a hold is missed only the fit here can say.
            self.chase.hold_back(!met);
            self.follow_soon();
        } else {
            self.stand_ahead();
        }
        self.rest_later();
    }

    /// Shows weight, balance and what is held of them, of what the thread that draws has settled and does not stand yet.
    pub(super) fn weigh_ahead(self) {
        let weighed = |ahead: &Option<Ahead>| ahead.as_ref().map(|ahead| ahead.drawn.weighed);
        if let Some(weighed) = self.ahead.with_value(weighed) {
            self.chase.weigh_ahead(weighed);
        }
    }

    /// Has what the thread that draws has settled stand, if it does not yet.
    pub fn stand_ahead(self) {
        let ahead = self.ahead.try_update_value(Option::take).flatten();
        let Some(Ahead { dim, size, drawn }) = ahead else {
            return;
        };
        let start = self.before_session();
        let Some(design) = start.design.put(dim, size).with_numbers(&drawn.numbers) else {
            self.slide(dim, size);
            return;
        };
        self.chase.slide(true);
        self.traced.set(true);
        self.chase.hold_back(!drawn.met);
        let after = Standing {
            design,
            fitted: self.standing().fitted,
            moved: Some(dim),
        };
        self.stand_edited(&dim.to_string(), Edit::Set(dim, size), start, after, true);
    }

    /// Whether what stands was settled by the thread that draws.
    fn is_traced(self) -> bool {
        self.session
            .with_untracked(|s| s.as_ref().is_some_and(|s| s.traced))
    }

    /// Whether `dim` was put at `size` last, in the present row of edits.
    fn is_shown(self, dim: Dim, size: Measure) -> bool {
        let ahead = |a: &Option<Ahead>| a.as_ref().map(|a| (a.dim, a.size));
        if let Some(last) = self.ahead.with_value(ahead) {
            return last == (dim, size);
        }
        let edit = Edit::Set(dim, size);
        self.session
            .with_untracked(|s| s.as_ref().is_some_and(|s| s.edit == edit))
    }

    /// As soon as the finger rests, all that can be said is said.
    fn rest_later(self) {
        let rested = move || {
            if self.rest.try_set_value(None).is_none() && self.chase.slides() {
                self.settle_traced();
                self.chase.catch_up();
            }
        };
        let later = set_timeout_with_handle(rested, REST).ok();
        self.rest.update_value(|rest| {
            if let Some(earlier) = std::mem::replace(rest, later) {
                earlier.clear();
            }
        });
    }

    /// Settles here what the thread that draws has settled, and shows the sheet's own drawing of it.
    fn settle_traced(self) {
        self.stand_ahead();
        let traced = |s: &Option<Session>| {
            let session = s.as_ref().filter(|s| s.traced)?;
            Some(settle(&session.start, &session.edit, Effort::Quick))
        };
        if let Some(after) = self.session.with_untracked(traced) {
            self.stand(after);
            self.session.update(|s| {
                if let Some(session) = s {
                    session.traced = false;
                }
            });
        }
        self.traced.set(false);
    }

    /// The finger has lifted, if one has dragged.
    pub(super) fn lift(self) {
        // What it still draws is of a row of edits that ends here.
        self.tracer.end();
        if self.chase.slides() {
            self.settle_traced();
        }
        self.chase.slide(false);
    }
}
