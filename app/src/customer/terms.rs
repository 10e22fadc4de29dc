//! What the smith says to the customer, as it is written in the fields; until the page is closed.

use leptos::prelude::*;

use super::super::page;
use super::super::state::Workspace;
use headwright::design::{Design, Side, TipShape};
use headwright::mass::mass_properties;
use headwright::share::offer::{
    Between, Date, MOST_INSTEAD, Offer, OfferError, Open, OpenTip, Price, Stage, Stands,
};

/// How far the handle is left open at first, either way, mm, and the weight, as a share.
const HANDLE_EITHER_WAY: u32 = 20;
const WEIGHT_EITHER_WAY: f64 = 0.05;

/// The fields.
#[derive(Clone, Copy)]
pub struct Saying {
    /// Lengths of the handle that are left open, mm.
    pub handle: RwSignal<Option<Between>>,
    /// Weights that are left open, g.
    pub grams: RwSignal<Option<Between>>,
    /// The end that is left open.
    pub side: RwSignal<Option<Side>>,
    /// What it may be.
    pub instead: RwSignal<Vec<TipShape>>,
    /// The price as it is typed; nothing asked while it is empty.
    pub amount: RwSignal<String>,
    /// The currency as it is typed.
    pub currency: RwSignal<String>,
    /// The stage that is reached, if it is told.
    pub stage: RwSignal<Option<Stage>>,
    /// The day of which this is true, as it is typed.
    pub day: RwSignal<String>,
    /// Whether sizes are shared.
    pub shares_sizes: RwSignal<bool>,
}

impl Saying {
    /// What was said last on this page, or nothing.
    pub fn open() -> Self {
        use_context().unwrap_or_else(|| {
            page::owner().with(|| {
                let saying = Self::new();
                provide_context(saying);
                saying
            })
        })
    }

    fn new() -> Self {
        Self {
            handle: RwSignal::new(None),
            grams: RwSignal::new(None),
            side: RwSignal::new(None),
            instead: RwSignal::new(Vec::new()),
            amount: RwSignal::new(String::new()),
            currency: RwSignal::new("EUR".to_owned()),
            stage: RwSignal::new(None),
            day: RwSignal::new(today()),
            shares_sizes: RwSignal::new(false),
        }
    }

    /// The offer of `design`, or why price or day cannot be read.
    pub fn offer(self, design: Design) -> Result<Offer, OfferError> {
        let mut offer = Offer::new(design);
        let terms = &mut offer.terms;
        let amount = self.amount.get();
        if !amount.trim().is_empty() {
            terms.price = Some(Price::read(&amount, &self.currency.get())?);
        }
        if let Some(stage) = self.stage.get() {
            let as_of: Date = self.day.get().parse()?;
            terms.stands = Some(Stands { stage, as_of });
        }
        terms.open.handle_mm = self.handle.get();
        terms.open.grams = self.grams.get();
        terms.open.tip = self.side.get().map(|side| OpenTip {
            side,
            instead: self.instead.get(),
        });
        terms.shares_sizes = self.shares_sizes.get();
        Ok(offer)
    }

    /// Leaves open what `open` does and nothing else.
    pub fn leave_open(self, open: Open) {
        self.handle.set(open.handle_mm);
        self.grams.set(open.grams);
        let (side, instead) = match open.tip {
            Some(tip) => (Some(tip.side), tip.instead),
            None => (None, Vec::new()),
        };
        self.side.set(side);
        self.instead.set(instead);
    }

    /// Leaves the handle open a little either way of what is drawn, or closes it.
    pub fn open_handle(self, workspace: Workspace, open: bool) {
        let mm = workspace
            .design
            .with_untracked(|design| design.handle.length.in_mm().round());
        self.handle
            .set(open.then(|| around(mm as u32, HANDLE_EITHER_WAY)));
    }

    /// Leaves the weight open a little either way of what is drawn, or closes it.
    pub fn open_weight(self, workspace: Workspace, open: bool) {
        let kg = workspace
            .sound
            .with_untracked(|solid| mass_properties(solid).mass);
        let grams = (1000.0 * kg).round();
        // To tens of grams, as a scale is read.
        let either_way = 10 * (WEIGHT_EITHER_WAY * grams / 10.0).ceil() as u32;
        self.grams
            .set(open.then(|| around(grams as u32, either_way)));
    }

    /// Adds `shape` to what the open end may be, or takes it away; the first makes room for a third.
    pub fn turn(self, shape: TipShape) {
        self.instead.update(|instead| {
            if instead.contains(&shape) {
                instead.retain(|one| *one != shape);
            } else {
                instead.push(shape);
                if instead.len() > MOST_INSTEAD {
                    instead.remove(0);
                }
            }
        });
    }
}

fn around(number: u32, either_way: u32) -> Between {
    Between {
        low: number.saturating_sub(either_way),
        high: number.saturating_add(either_way),
    }
}

/// The day that it is where the browser stands, as 2026-03-04.
fn today() -> String {
    let now = js_sys::Date::new_0();
    let (year, month, day) = (now.get_full_year(), now.get_month() + 1, now.get_date());
    format!("{year}-{month:02}-{day:02}")
}
