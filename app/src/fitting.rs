//! What the fit answers, and what has it answer in another thread. It comes in a file of its own, right after the page has been drawn.
//!
//! Asked before that, it gives nothing: the head stands as it was edited, and
//! [`Workspace::fetch_fit`](super::state::Workspace::fetch_fit) makes up for it as soon as the file is there.

use std::sync::OnceLock;

use web_sys::Element;

use super::fetched;
use super::history::Standing;
use super::sheet::{Tracing, looks};
use super::tracer::Tracer;
use super::ways::{self, Way};
use headwright::design::{Design, Dim};
use headwright::drawing::{Looks, Setting};
use headwright::fit::{self, Effect, Effort, Fitted, Rounded, RuleError, targets};
use headwright::units::{Rule, System};

/// Whether the file of the fit is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrival {
    /// It is on its way.
    Coming,
    /// It is there, and answers at once.
    Here,
    /// It did not come.
    Missing,
}

/// How everything stood before a step, with the step's name.
type Before<'a> = Option<&'a (String, Standing)>;

/// As [`ways::ways`].
type Ways = fn(&Standing, Before<'_>, f64, System, usize, &[Way]) -> Vec<Way>;

/// What stands in that file: all that the page asks of the fit. Nothing else may name what is behind these, or it would
/// come with the page.
pub struct Fitter {
    fit: fn(&Design, Effort) -> Option<Fitted>,
    to_rule: fn(&Design, Rule) -> Result<Rounded, RuleError>,
    effects: fn(&Design, Rule) -> Option<Vec<Effect>>,
    ways: Ways,
    start: fn(Tracer),
    looks: fn(&Element) -> Option<Looks>,
    begin: fn(Tracing, Dim, &Setting, [f64; 2]),
}

impl Fitter {
    /// All of it.
    pub fn whole() -> Self {
        Self {
            fit: |design, effort| fit::fit(design, effort).ok(),
            to_rule: |design, rule| fit::to_rule(design, &targets(design), rule),
            effects: |design, rule| fit::effects(design, rule).ok(),
            ways: ways::ways,
            start: Tracer::start,
            looks,
            begin: Tracing::begin,
        }
    }
}

static FETCHED: OnceLock<Fitter> = OnceLock::new();

/// Fetches the file; whether it is there now.
pub async fn fetch() -> bool {
    if let Ok(fitter) = fetched::fitter().await {
        FETCHED.get_or_init(|| fitter);
    }
    FETCHED.get().is_some()
}

#[cfg(target_family = "wasm")]
fn here() -> Option<&'static Fitter> {
    FETCHED.get()
}

/// Tests have no page that anything is fetched for.
#[cfg(not(target_family = "wasm"))]
fn here() -> Option<&'static Fitter> {
    Some(FETCHED.get_or_init(Fitter::whole))
}

/// `design` fitted to its holds; nothing while the file is not there, or when the head cannot be made.
pub fn fit(design: &Design, effort: Effort) -> Option<Fitted> {
    (here()?.fit)(design, effort)
}

/// The free sizes on the rule; nothing while the file is not there.
pub fn to_rule(design: &Design, rule: Rule) -> Option<Result<Rounded, RuleError>> {
    Some((here()?.to_rule)(design, rule))
}

/// What one step of each size does; nothing while the file is not there, or when the head cannot be made.
pub fn effects(design: &Design, rule: Rule) -> Option<Vec<Effect>> {
    (here()?.effects)(design, rule)
}

/// Starts the thread that fits and draws while a size is dragged; does nothing while the file is not there.
pub fn start(tracer: Tracer) {
    if let Some(here) = here() {
        (here.start)(tracer);
    }
}

/// How the drawing on a sheet looks; nothing while the file is not there.
pub fn looks_of(board: &Element) -> Option<Looks> {
    (here()?.looks)(board)
}

/// Has a drag drawn by that thread, as [`Tracing::begin`]; does nothing while the file is not there.
pub fn begin(tracing: Tracing, dim: Dim, setting: &Setting, extent: [f64; 2]) {
    if let Some(here) = here() {
        (here.begin)(tracing, dim, setting, extent);
    }
}

/// The ways out of `now`, as [`ways::ways`] finds them; none while the file is not there.
pub fn ways(
    now: &Standing,
    before: Before<'_>,
    division: f64,
    system: System,
    turn: usize,
    found: &[Way],
) -> Vec<Way> {
    here().map_or_else(Vec::new, |here| {
        (here.ways)(now, before, division, system, turn, found)
    })
}
