//! Everything the screens share, provided once by context.
//!
//! One way: an [`Edit`] changes the design, the memos follow, the screens show. The sheet keeps
//! the last sound head while the design is being typed into something that cannot be.

use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::fitting::{self, Arrival};
use super::history::{History, Standing};
use super::holding::Holding;
use super::journal::{Entered, Journal};
use super::keep::Opened;
use super::settle::{concerns_the_head, fitted, holds_something, look, settle};
use super::theme::Theme;
use super::tracer::Tracer;
use super::words;
use headwright::bar::Bar;
use headwright::design::{Design, DesignError, Dim, Edit, Part, Quantity, bounds};
use headwright::fit::{Effort, Fitted, Outcome};
use headwright::mass::{MassProperties, Weighed};
use headwright::solid::Solid;
use headwright::units::{Length, Mass, Measure, Rule, System};

mod chase;
mod slide;
mod steps;

use chase::{Chase, Seen};
use slide::Ahead;
use steps::{HALF_DEGREE, bar_in, stepped, written_in};

/// The sheets that can be in front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// The head.
    Head,
    /// The handle in its eye.
    Handle,
    /// The bar it is cut from.
    Bar,
    /// How it is normalized, hardened and tempered.
    Heat,
    /// The tool in a swing, and what a long face does.
    Swing,
    /// The shop sheet, to print.
    Card,
    /// What really happened on builds.
    Log,
    /// The designs that are kept.
    Rack,
    /// Heads to begin with.
    Starters,
    /// What is offered to a customer, as the smith says it.
    Offer,
    /// The offer or the answer of a link: no step of the work stands on it.
    Customer,
}

/// What is offered as a file, beside a sentence that says why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offered {
    /// The words of its button.
    pub words: String,
    /// The text; nothing for the design on the sheet.
    pub text: Option<String>,
}

impl Offered {
    /// The design on the sheet.
    pub fn sheet() -> Self {
        Self {
            words: "save the head as a file".to_owned(),
            text: None,
        }
    }
}

/// A run of changes to one thing, one step for undo.
#[derive(Clone, Debug, PartialEq)]
struct Session {
    /// What is being changed, the same for all its changes.
    subject: String,
    /// The step's name so far: "cheek width 41".
    name: String,
    /// How everything stood before.
    start: Standing,
    /// What was done to it last.
    edit: Edit,
    /// Whether a fit was overdue before.
    overdue: bool,
    /// Whether the thread that draws has settled it: how the fit went is not known here.
    traced: bool,
}

/// The design in work and all that follows from it.
#[derive(Clone, Copy)]
pub struct Workspace {
    /// The design as edited; may be unsound.
    pub design: RwSignal<Design>,
    /// The fit's last word on the design; nothing while no hold is on.
    pub fitted: RwSignal<Option<Fitted>>,
    /// The dimension that this fit left alone.
    pub moved: RwSignal<Option<Dim>>,
    /// Whether the fit is there to be asked.
    pub fit_file: RwSignal<Arrival>,
    /// The last sound head.
    pub sound: Memo<Solid>,
    /// What is wrong with the design as edited.
    pub problems: Memo<Vec<DesignError>>,
    /// Mass properties of the last sound head.
    pub properties: Memo<MassProperties>,
    /// What it weighs and how it balances; while a size is dragged at times that of a newer head.
    pub weighed: Memo<Weighed>,
    /// How the holds stand on it.
    pub holdings: Memo<Vec<Holding>>,
    /// Units that are shown.
    pub system: RwSignal<System>,
    /// The look that was chosen; nothing follows the system's.
    pub theme: RwSignal<Option<Theme>>,
    /// The sheet in front.
    pub screen: RwSignal<Screen>,
    /// The size being edited.
    pub in_hand: RwSignal<Option<Dim>>,
    /// The weight that is wanted of a starter.
    pub wanted: RwSignal<Option<Mass>>,
    /// Whether it is said of the size in hand what it is.
    pub explains: RwSignal<bool>,
    /// What was last held or let go.
    pub asked: RwSignal<Option<Quantity>>,
    /// Whether the section through the eye is drawn too.
    pub with_section: RwSignal<bool>,
    /// The part whose list is open on the phone, as [`words::group`] names it.
    pub open_part: RwSignal<Option<Part>>,
    /// The link of the offer or the answer that is in front.
    pub customer_link: RwSignal<Option<String>>,
    /// Whether a link is being read.
    pub opening: RwSignal<bool>,
    /// Sentences about link, file and storage.
    pub notice: RwSignal<Option<String>>,
    /// What is offered with them as a file.
    pub offered: RwSignal<Vec<Offered>>,
    /// What is on the sheet, on its way to the rack.
    pub journal: Journal,
    /// The thread that fits and draws while a size is dragged.
    pub tracer: Tracer,
    /// Whether its drawing is in front and the sheet's own rests.
    pub traced: RwSignal<bool>,
    history: RwSignal<History>,
    session: RwSignal<Option<Session>>,
    /// What the thread that draws has settled last of the present row of edits, if that does not stand yet.
    ahead: StoredValue<Option<Ahead>>,
    /// Whether the head was changed, with something held, before the fit was there.
    overdue: StoredValue<bool>,
    /// What happens when the finger that drags rests.
    rest: StoredValue<Option<TimeoutHandle>>,
    chase: Chase,
}

impl Workspace {
    /// A workspace with what was kept, or a starter.
    pub fn new(opened: Opened) -> Self {
        let Opened {
            standing,
            solid,
            system,
            theme,
            notice,
            offered,
            journal,
        } = opened;
        let front = Seen::new(standing, solid);
        Self {
            design: front.design,
            fitted: front.fitted,
            moved: front.moved,
            fit_file: RwSignal::new(Arrival::Coming),
            sound: front.sound,
            problems: front.problems,
            properties: front.properties,
            weighed: front.weighed,
            holdings: front.holdings,
            system: RwSignal::new(system),
            theme: RwSignal::new(theme),
            screen: RwSignal::new(Screen::Head),
            in_hand: RwSignal::new(None),
            wanted: RwSignal::new(None),
            explains: RwSignal::new(false),
            asked: RwSignal::new(None),
            with_section: RwSignal::new(false),
            open_part: RwSignal::new(Some(Part::Cheeks)),
            customer_link: RwSignal::new(None),
            opening: RwSignal::new(false),
            notice: RwSignal::new(notice),
            offered: RwSignal::new(offered),
            journal,
            tracer: Tracer::new(),
            traced: RwSignal::new(false),
            history: RwSignal::new(History::default()),
            session: RwSignal::new(None),
            ahead: StoredValue::new(None),
            overdue: StoredValue::new(false),
            rest: StoredValue::new(None),
            chase: Chase::new(front),
        }
    }

    /// A workspace for a head that never stands on the sheet, in the units and the look of this one: nothing of it is kept.
    pub fn apart(self, design: Design, solid: Solid) -> Self {
        let other = Self::new(Opened {
            standing: Standing {
                design,
                fitted: None,
                moved: None,
            },
            solid,
            system: self.system.get_untracked(),
            theme: self.theme.get_untracked(),
            notice: None,
            offered: Vec::new(),
            journal: self.journal,
        });
        Self {
            system: self.system,
            theme: self.theme,
            tracer: self.tracer,
            ..other
        }
    }

    /// Puts `design` on a workspace that is apart, as it is.
    pub fn put_on(self, design: Design) {
        self.stand(Standing {
            design,
            fitted: None,
            moved: None,
        });
    }

    /// Fetches what fits a head to its holds, and makes up for what was asked of it meanwhile.
    pub fn fetch_fit(self) {
        self.fit_file.set(Arrival::Coming);
        spawn_local(async move {
            if !fitting::fetch().await {
                self.fit_file.set(Arrival::Missing);
                return;
            }
            self.fit_file.set(Arrival::Here);
            let now = self.standing();
            if holds_something(&now.design) {
                self.stand(if self.overdue.get_value() {
                    fitted(now.design, now.moved, Effort::Thorough)
                } else {
                    look(now.design)
                });
            }
        });
    }

    /// The workspace of the page.
    pub fn here() -> Self {
        expect_context()
    }

    /// Has the head fitted to its holds as soon as the fit is there, if it is not yet.
    pub fn fit_when_there(self) {
        self.overdue.set_value(true);
    }

    /// Shows `edit` at once. All edits of one `subject` in a row start from the same design and
    /// are one step for undo; [`Self::keep`] ends the row.
    pub fn show(self, subject: &str, edit: Edit) {
        if self
            .session
            .with_untracked(|s| s.as_ref().is_some_and(|s| s.subject != subject))
        {
            self.keep();
        }
        let shown = |s: &Option<Session>| s.as_ref().is_some_and(|s| s.edit == edit);
        if self.ahead.with_value(Option::is_none) && self.session.with_untracked(shown) {
            return;
        }
        let start = self.before_session();
        let after = settle(&start, &edit, Effort::Quick);
        self.stand_edited(subject, edit, start, after, false);
    }

    /// How everything stood before the present row of edits.
    fn before_session(self) -> Standing {
        let start = |s: &Option<Session>| s.as_ref().map(|s| s.start.clone());
        let start = self.session.with_untracked(start);
        start.unwrap_or_else(|| self.standing())
    }

    /// Shows what `edit` of `subject` made of `start`, as a row of edits or the next of one.
    fn stand_edited(
        self,
        subject: &str,
        edit: Edit,
        start: Standing,
        after: Standing,
        traced: bool,
    ) {
        self.ahead.set_value(None);
        let before = self
            .session
            .with_untracked(|s| s.as_ref().map(|s| s.overdue));
        let overdue = before.unwrap_or_else(|| self.overdue.get_value());
        let name = words::step(&start.design, &edit, self.system.get_untracked());
        if concerns_the_head(&start.design, &edit) {
            self.fit_when_there();
        }
        self.stand(after);
        self.session.set(Some(Session {
            subject: subject.to_owned(),
            name,
            start,
            edit,
            overdue,
            traced,
        }));
    }

    /// Shows a dimension with another value.
    pub fn show_size(self, dim: Dim, size: Measure) {
        self.show(&dim.to_string(), Edit::Set(dim, size));
    }

    /// Keeps what is shown: from here on it is one step that can be undone.
    pub fn keep(self) {
        self.lift();
        let Some(session) = self.session.try_update(Option::take).flatten() else {
            return;
        };
        // While a size moved there was time for a quick look alone.
        let is_missed = |f: &Option<Fitted>| f.as_ref().is_some_and(|f| f.outcome != Outcome::Met);
        if is_missed(&self.standing().fitted) {
            let after = settle(&session.start, &session.edit, Effort::Thorough);
            if !is_missed(&after.fitted) {
                self.stand(after);
            }
        }
        if session.start.design != self.standing().design {
            self.history
                .update(|history| history.note(session.name, session.start, self.journal.sheet()));
        }
    }

    /// Puts back what stood before the present row of edits.
    pub fn put_back(self) {
        self.ahead.set_value(None);
        if let Some(session) = self.session.try_update(Option::take).flatten() {
            self.overdue.set_value(session.overdue);
            self.stand(session.start);
        }
        self.lift();
    }

    /// Makes `edit` and keeps it.
    pub fn apply(self, edit: Edit) {
        self.keep();
        self.show("", edit);
        self.keep();
    }

    /// Puts `design` in the place of the present one, as a step called `name`.
    pub fn replace(self, name: String, design: Design) {
        self.merge(name, design);
        self.in_hand.set(None);
    }

    /// As [`Self::replace`], and what is in hand stays there.
    pub fn merge(self, name: String, design: Design) {
        self.keep();
        let before = self.standing();
        if before.design != design {
            self.overdue.set_value(false);
            self.stand(look(design));
            self.history
                .update(|history| history.note(name, before, self.journal.sheet()));
        }
    }

    /// Whether a row of edits is open.
    pub fn is_editing(self) -> bool {
        self.session.with(Option::is_some)
    }

    /// The same, asked once.
    pub fn is_editing_now(self) -> bool {
        self.session.with_untracked(Option::is_some)
    }

    /// Puts `design` onto a sheet of its own, as a step called `name`: the present one stays what it is on the rack.
    /// It is the entry `entry`, or on no rack before something is changed in it.
    pub fn bring(self, name: String, design: Design, entry: Option<Entered>) {
        self.keep();
        let before = self.standing();
        if before.design == design && entry.is_none() {
            return;
        }
        self.journal.note(self);
        let sheet = self.journal.sheet();
        self.journal.turn(design.to_json(), entry);
        self.history
            .update(|history| history.note(name, before, sheet));
        self.overdue.set_value(false);
        self.stand(look(design));
        self.in_hand.set(None);
    }

    /// Takes what is on the sheet, called `name`, off the rack, as a step that can be undone.
    pub fn take_off(self, name: &str) {
        self.keep();
        self.journal.note(self);
        let (before, sheet) = (self.standing(), self.journal.sheet());
        self.journal.take_off();
        // What cannot be made goes along.
        self.journal.note(self);
        self.history
            .update(|history| history.note(format!("removal of {name}"), before, sheet));
    }

    /// Puts the newer state of the entry in work onto the sheet before anything was done on it.
    pub fn renew(self, design: Design, entry: Entered) {
        self.journal.turn(design.to_json(), Some(entry));
        self.overdue.set_value(false);
        self.stand(look(design));
    }

    /// Adds a sentence to those that are to be read, with what is offered as a file.
    pub fn say(self, sentence: &str, offered: Vec<Offered>) {
        self.notice.update(|notice| match notice {
            Some(before) if before.contains(sentence) => {}
            Some(before) => *before = format!("{before} {sentence}"),
            None => *notice = Some(sentence.to_owned()),
        });
        self.offered.update(|all| {
            for one in offered {
                if !all.contains(&one) {
                    all.push(one);
                }
            }
        });
    }

    /// Fits a head that came from elsewhere to what it holds.
    pub fn fit(self) {
        self.keep();
        let before = self.standing();
        self.stand(fitted(before.design.clone(), None, Effort::Thorough));
        self.history
            .update(|history| history.note("the fit".to_owned(), before, self.journal.sheet()));
    }

    /// Takes the last step back.
    pub fn undo(self) {
        self.keep();
        let (now, sheet) = (self.standing(), self.journal.sheet());
        let step = self.history.try_update(|h| h.undo(now, sheet)).flatten();
        self.take(step);
    }

    /// Takes the last undone step again.
    pub fn redo(self) {
        self.keep();
        let (now, sheet) = (self.standing(), self.journal.sheet());
        let step = self.history.try_update(|h| h.redo(now, sheet)).flatten();
        self.take(step);
    }

    /// Goes to where a step leads, on the sheet that it was on.
    fn take(self, step: Option<(Standing, usize)>) {
        if let Some((standing, sheet)) = step {
            self.journal.note(self);
            self.journal.turn_back(sheet);
            self.overdue.set_value(false);
            self.stand(asked_again(standing));
        }
    }

    /// Name of the step that undo would take back, the one being made included.
    pub fn undo_name(self) -> Option<String> {
        let making = self.session.with(|s| {
            s.as_ref()
                .filter(|s| self.design.with(|d| *d != s.start.design))
                .map(|s| s.name.clone())
        });
        making.or_else(|| self.history.with(|h| h.undo_name().map(str::to_owned)))
    }

    /// Name of the step that redo would take again.
    pub fn redo_name(self) -> Option<String> {
        self.history.with(|h| h.redo_name().map(str::to_owned))
    }

    /// How everything stood before the present or the last step, with that step's name.
    pub fn before(self) -> Option<(String, Standing)> {
        let session = self
            .session
            .with(|s| s.as_ref().map(|s| (s.name.clone(), s.start.clone())));
        session.or_else(|| {
            self.history
                .with(|h| h.before().map(|(n, s)| (n.to_owned(), s.clone())))
        })
    }

    /// Value of `dim` before the present row of edits; nothing when it is the same.
    pub fn was(self, dim: Dim) -> Option<Measure> {
        let start = self
            .session
            .with(|s| s.as_ref().and_then(|s| s.start.design.size(dim)))?;
        let now = self.design.with(|d| d.size(dim))?;
        (start.number() != now.number()).then_some(start)
    }

    /// Moves `dim` by `count` divisions of the rule, or half degrees, onto the rule and inside its
    /// bounds.
    pub fn step(self, dim: Dim, count: i32) {
        self.stand_ahead();
        let Some(size) = self.chase.design().with_untracked(|d| d.size(dim)) else {
            return;
        };
        let limits = bounds(dim);
        let to =
            |division: f64| stepped(size.number(), division, count).clamp(limits.low, limits.high);
        let stepped = match size {
            Measure::Length(length) => {
                let notation = written_in(length.notation(), self.system.get_untracked());
                Length::new(to(self.division().in_mm()), notation).into()
            }
            Measure::Angle(_) => size.with_number(to(HALF_DEGREE)),
        };
        self.show_size(dim, stepped);
    }

    /// What `dim` becomes at `number`: the value on the rule, or on the half degree, nearest to it, inside its bounds.
    pub fn on_the_rule(self, dim: Dim, number: f64) -> Option<Measure> {
        let size = self.chase.design().with_untracked(|d| d.size(dim))?;
        let limits = bounds(dim);
        let to =
            |division: f64| ((number / division).round() * division).clamp(limits.low, limits.high);
        Some(match size {
            Measure::Length(length) => {
                let notation = written_in(length.notation(), self.system.get_untracked());
                Length::new(to(self.division().in_mm()), notation).into()
            }
            Measure::Angle(_) => size.with_number(to(HALF_DEGREE)),
        })
    }

    /// `length` moved by `count` divisions of the rule, onto the rule, in the notation that is shown.
    pub fn beside(self, length: Length, count: i32) -> Length {
        let notation = written_in(length.notation(), self.system.get_untracked());
        Length::new(
            stepped(length.in_mm(), self.division().in_mm(), count),
            notation,
        )
    }

    /// The rule by which sizes are stepped, and cut and marks measured: that of the bar where it is
    /// of the units that are shown, else whole millimetres or sixteenths.
    pub fn rule(self) -> Rule {
        let system = self.system.get();
        self.design.with(|d| d.bar.rule.in_system(system))
    }

    /// The bar with that rule.
    pub fn bar(self) -> Bar {
        let system = self.system.get();
        self.design.with(|d| bar_in(&d.bar, system))
    }

    /// Its division, as it is now.
    pub fn division(self) -> Length {
        untrack(|| self.rule().division())
    }

    /// How everything stands.
    pub fn standing(self) -> Standing {
        self.chase.standing()
    }

    fn stand(self, standing: Standing) {
        self.chase.stand(standing);
        self.follow_soon();
    }
}

/// `standing` with what the fit says, where that is not remembered.
fn asked_again(standing: Standing) -> Standing {
    match standing.fitted {
        Some(_) => standing,
        None => Standing {
            moved: standing.moved,
            ..look(standing.design)
        },
    }
}
