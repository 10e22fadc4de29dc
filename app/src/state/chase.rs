//! While a size is dragged the drawing moves in every frame, and on it the size, weight and balance. What costs more than a
//! frame has follows when the browser has time for it, or else when the finger rests, and at the latest when it lifts.

use std::time::Duration;

use leptos::prelude::*;
use leptos::task::{spawn_local, tick};

use super::super::history::Standing;
use super::super::holding::{Holding, holdings};
use super::Workspace;
use headwright::design::{Design, DesignError, Dim};
use headwright::fit::Fitted;
use headwright::mass::{MassProperties, Weighed, mass_properties};
use headwright::solid::Solid;

/// How long a browser that cannot tell when it is idle is left to draw.
const PAUSE: Duration = Duration::from_millis(50);
/// What follows is made between two frames only if it took no longer than this the last time, ms.
const BETWEEN_FRAMES: f64 = 12.0;

/// A design and what follows from it, as signals.
#[derive(Clone, Copy)]
pub(super) struct Seen {
    pub design: RwSignal<Design>,
    pub fitted: RwSignal<Option<Fitted>>,
    pub moved: RwSignal<Option<Dim>>,
    pub sound: Memo<Solid>,
    pub problems: Memo<Vec<DesignError>>,
    pub properties: Memo<MassProperties>,
    pub weighed: Memo<Weighed>,
    pub holdings: Memo<Vec<Holding>>,
    /// What the head that is being dragged weighs, where it does not stand yet.
    ahead: RwSignal<Option<Weighed>>,
}

impl Seen {
    /// As it stands, with `solid` as the last sound head.
    pub fn new(standing: Standing, solid: Solid) -> Self {
        let design = RwSignal::new(standing.design);
        let built = Memo::new(move |_| design.with(Design::build));
        let sound = Memo::new(move |last: Option<&Solid>| {
            built.with(|built| match (built, last) {
                (Ok(solid), _) => solid.clone(),
                (Err(_), Some(last)) => last.clone(),
                (Err(_), None) => solid.clone(),
            })
        });
        let properties = Memo::new(move |_| sound.with(mass_properties));
        let ahead = RwSignal::new(None);
        let settled = Memo::new(move |_| {
            design.with(|d| sound.with(|solid| properties.with(|p| holdings(d, solid, p))))
        });
        Self {
            design,
            fitted: RwSignal::new(standing.fitted),
            moved: RwSignal::new(standing.moved),
            sound,
            problems: Memo::new(move |_| {
                built.with(|built| built.clone().err().unwrap_or_default())
            }),
            properties,
            weighed: weighed(ahead, properties),
            ahead,
            holdings: Memo::new(move |_| match ahead.get() {
                Some(newer) => settled.with(|all| all.iter().map(|h| h.of_newer(&newer)).collect()),
                None => settled.get(),
            }),
        }
    }

    fn stand(self, standing: Standing) {
        if self.ahead.with_untracked(Option::is_some) {
            self.ahead.set(None);
        }
        self.fitted.set(standing.fitted);
        self.moved.set(standing.moved);
        self.design.set(standing.design);
    }

    fn standing(self) -> Standing {
        Standing {
            moved: self.moved.get_untracked(),
            design: self.design.get_untracked(),
            fitted: self.fitted.get_untracked(),
        }
    }
}

fn weighed(ahead: RwSignal<Option<Weighed>>, properties: Memo<MassProperties>) -> Memo<Weighed> {
    Memo::new(move |_| {
        let of = |p: &MassProperties| Weighed::from(p);
        ahead.get().unwrap_or_else(|| properties.with(of))
    })
}

/// What was followed last, as signals of its own: the same values as of the head in front, at times a little older. They
/// live as long as those in front, so that what is fetched for a sheet that was left meanwhile still finds them.
#[derive(Clone, Copy)]
struct Followed {
    seen: Seen,
    sound: RwSignal<Solid>,
    problems: RwSignal<Vec<DesignError>>,
    properties: RwSignal<MassProperties>,
    holdings: RwSignal<Vec<Holding>>,
}

impl Followed {
    fn of(front: Seen) -> Self {
        let sound = RwSignal::new(front.sound.get_untracked());
        let problems = RwSignal::new(front.problems.get_untracked());
        let properties = RwSignal::new(front.properties.get_untracked());
        let holdings = RwSignal::new(front.holdings.get_untracked());
        let weighed_properties = Memo::new(move |_| properties.get());
        let ahead = RwSignal::new(None);
        Self {
            seen: Seen {
                design: RwSignal::new(front.design.get_untracked()),
                fitted: RwSignal::new(front.fitted.get_untracked()),
                moved: RwSignal::new(front.moved.get_untracked()),
                sound: Memo::new(move |_| sound.get()),
                problems: Memo::new(move |_| problems.get()),
                properties: weighed_properties,
                weighed: weighed(ahead, weighed_properties),
                ahead,
                holdings: Memo::new(move |_| holdings.get()),
            },
            sound,
            problems,
            properties,
            holdings,
        }
    }

    fn follow(self, front: Seen) {
        self.seen.fitted.set(front.fitted.get_untracked());
        self.seen.moved.set(front.moved.get_untracked());
        self.sound.set(front.sound.get_untracked());
        self.problems.set(front.problems.get_untracked());
        self.properties.set(front.properties.get_untracked());
        self.holdings.set(front.holdings.get_untracked());
        self.seen.design.set(front.design.get_untracked());
    }
}

/// The head in front, and how far what costs more has followed it.
#[derive(Clone, Copy)]
pub(super) struct Chase {
    front: Seen,
    followed: Followed,
    /// Whether a size is being dragged.
    slides: StoredValue<bool>,
    /// Whether nothing may follow before the finger rests.
    held_back: StoredValue<bool>,
    /// Whether something has yet to follow.
    waits: StoredValue<bool>,
    /// Whether the browser was asked to say when it has time.
    asked: StoredValue<bool>,
    /// How long it took to follow the last time, ms.
    cost: StoredValue<f64>,
}

impl Chase {
    pub fn new(front: Seen) -> Self {
        Self {
            front,
            followed: Followed::of(front),
            slides: StoredValue::new(false),
            held_back: StoredValue::new(false),
            waits: StoredValue::new(false),
            asked: StoredValue::new(false),
            cost: StoredValue::new(0.0),
        }
    }

    /// A size is being dragged from here on, or no longer.
    pub fn slide(self, slides: bool) {
        self.slides.set_value(slides);
        if !slides {
            self.catch_up();
        }
    }

    /// Nothing may follow before the finger rests, or it may again.
    pub fn hold_back(self, held_back: bool) {
        self.held_back.set_value(held_back);
    }

    /// Whether a size is being dragged.
    pub fn slides(self) -> bool {
        self.slides.get_value()
    }

    /// The design in front.
    pub const fn design(self) -> RwSignal<Design> {
        self.front.design
    }

    /// How everything stands in front.
    pub fn standing(self) -> Standing {
        self.front.standing()
    }

    /// Everything in front stands like this; the rest has yet to follow.
    pub fn stand(self, standing: Standing) {
        self.front.stand(standing);
        self.waits.set_value(true);
    }

    /// The head under the finger weighs this, before it stands.
    pub fn weigh_ahead(self, weighed: Weighed) {
        self.front.ahead.set(Some(weighed));
    }

    fn may_follow(self) -> bool {
        !self.slides.get_value()
            || !self.held_back.get_value() && self.cost.get_value() <= BETWEEN_FRAMES
    }

    /// Has everything follow.
    pub fn catch_up(self) {
        if self.waits.try_get_value() != Some(true) {
            return;
        }
        self.waits.set_value(false);
        let start = now();
        self.followed.follow(self.front);
        spawn_local(async move {
            // Views are made anew before this goes on.
            tick().await;
            self.cost.try_set_value(now() - start);
        });
    }
}

/// Milliseconds since the page was opened; 0 where there is no clock.
fn now() -> f64 {
    window().performance().map_or(0.0, |clock| clock.now())
}

impl Workspace {
    /// Has what lags follow at once, or while a size is dragged as soon as there is time.
    pub(super) fn follow_soon(self) {
        let chase = self.chase;
        if !chase.slides() {
            chase.catch_up();
        } else if !chase.asked.get_value() {
            chase.asked.set_value(true);
            let between = move || self.between_frames();
            if request_idle_callback_with_handle(between).is_err() {
                set_timeout(between, PAUSE);
            }
        }
    }

    fn between_frames(self) {
        if self.chase.asked.try_set_value(false).is_some() {
            // The page is gone.
            return;
        }
        if self.chase.may_follow() {
            self.stand_ahead();
            self.chase.catch_up();
        } else {
            self.weigh_ahead();
        }
    }

    /// This workspace for what may lag behind a drag: it says the same otherwise.
    pub fn behind(self) -> Self {
        let seen = self.chase.followed.seen;
        Self {
            design: seen.design,
            fitted: seen.fitted,
            moved: seen.moved,
            sound: seen.sound,
            problems: seen.problems,
            properties: seen.properties,
            weighed: seen.weighed,
            holdings: seen.holdings,
            ..self
        }
    }
}
