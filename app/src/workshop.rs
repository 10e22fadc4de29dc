//! What is the workshop's and not a design's: its drifts, the heat at which it measures, its bars, its order, its smith.
//!
//! It stays in this browser and goes into no file, link or undo.

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::cutting::search::Searching;
use super::keep;
use super::page;
use super::swing::asked::{AtAnvil, Blow};
use headwright::bar::OnHand;
use headwright::cut::{Order, Stock};
use headwright::design::Side;
use headwright::drift::Drifting;
use headwright::plan::USUAL_HOT_CELSIUS;
use headwright::units::{Density, Length, Mass};

/// Everything that is kept of the workshop.
#[derive(Clone, Copy)]
pub struct Workshop {
    /// What heads are drifted with.
    pub drifting: Kept<Drifting>,
    /// The heat at which sizes are measured, °C.
    pub celsius: Kept<f64>,
    /// The bars on hand.
    pub bars: Kept<OnHand>,
    /// What is to be cut, from what.
    pub order: Kept<Order>,
    /// The smith at the anvil.
    pub at_anvil: Kept<AtAnvil>,
    /// The blow.
    pub blow: Kept<Blow>,
    /// The hammers that are put aside to compare, each the text of a design file.
    pub compared: Kept<Vec<String>>,
    /// The search for its cutting list; until the page is closed.
    pub searching: Searching,
    /// The end that marks are measured from; until the page is closed.
    pub marks_from: RwSignal<Side>,
    /// A piece that is cut and weighed; until the page is closed.
    pub piece: RwSignal<Option<Mass>>,
}

impl Workshop {
    /// The workshop of the page, opened by the first sheet that needs it; sentences about what cannot be read go to
    /// `notice`.
    pub fn open(notice: RwSignal<Option<String>>) -> Self {
        use_context().unwrap_or_else(|| {
            page::owner().with(|| {
                let workshop = Self::new(notice);
                provide_context(workshop);
                workshop
            })
        })
    }

    /// What was kept, or what is usual.
    fn new(notice: RwSignal<Option<String>>) -> Self {
        let say = |sentence: String| {
            notice.update(|notice| {
                *notice = Some(match notice.take() {
                    Some(before) => format!("{before} {sentence}"),
                    None => sentence,
                });
            });
        };
        Self {
            drifting: Kept::open(keep::DRIFTING, "The drifts", Drifting::default(), say),
            celsius: Kept::open(keep::HEAT, "The forging heat", USUAL_HOT_CELSIUS, say),
            bars: Kept::open(keep::BARS, "The bars on hand", OnHand::default(), say),
            order: Kept::open(keep::ORDER, "The cutting order", usual_order(), say),
            at_anvil: Kept::open(keep::AT_ANVIL, "The smith", AtAnvil::default(), say),
            blow: Kept::open(keep::BLOW, "The blow", Blow::default(), say),
            compared: Kept::open(keep::COMPARED, "The hammers put aside", Vec::new(), say),
            searching: Searching::new(),
            marks_from: RwSignal::new(Side::Front),
            piece: RwSignal::new(None),
        }
    }

    /// The workshop that is open.
    pub fn here() -> Self {
        expect_context()
    }
}

/// An order without pieces: one stock length of three metres and a band saw's kerf, which is
/// 1.6 to 2.4 mm (starting ranges, nestsolver.com/guides/typical-saw-kerf-widths).
fn usual_order() -> Order {
    Order {
        pieces: Vec::new(),
        stock: vec![Stock {
            length: Length::mm(3000.0),
            count: None,
            price: None,
        }],
        kerf: Length::mm(2.0),
        end_waste: Length::mm(0.0),
        section: None,
        density: Density::STEEL,
        price_per_kg: None,
    }
}

/// A value that the browser keeps.
pub struct Kept<T: Send + Sync + 'static> {
    /// The value as shown.
    pub value: RwSignal<T>,
    /// What it was before the present row of changes.
    before: StoredValue<Option<T>>,
    key: &'static str,
    /// Whether it may be written: not over a text that could neither be read nor put aside.
    writes: bool,
}

impl<T: Send + Sync + 'static> Clone for Kept<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: Send + Sync + 'static> Copy for Kept<T> {}

impl<T: Serialize + DeserializeOwned + Clone + Send + Sync + 'static> Kept<T> {
    /// What is kept under `key`, or what is `usual`; a text that cannot be read is put aside, and `say` says so.
    pub fn open(key: &'static str, what: &str, usual: T, say: impl Fn(String)) -> Self {
        let mut writes = true;
        let value = match keep::read_text(key).map(|text| (read(&text), text)) {
            None => usual,
            Some((Some(value), _)) => value,
            Some((None, text)) => {
                let aside = format!("{key}.unreadable");
                let all = joined(keep::read_text(&aside), &text);
                writes = keep::store_text(&aside, &all);
                let kept = if writes { aside.as_str() } else { key };
                say(format!(
                    "{what} kept in this browser can’t be read. The text is still kept, under “{kept}”. What is usual stands in its place."
                ));
                usual
            }
        };
        Self {
            value: RwSignal::new(value),
            before: StoredValue::new(None),
            key,
            writes,
        }
    }

    /// Shows the value changed by `change`.
    pub fn show(self, change: impl FnOnce(&mut T)) {
        self.before.update_value(|before| {
            before.get_or_insert_with(|| self.value.get_untracked());
        });
        self.value.update(change);
    }

    /// Keeps what is shown; a browser that keeps nothing is no reason to stop.
    pub fn keep(self) {
        if self
            .before
            .try_update_value(Option::take)
            .flatten()
            .is_some()
            && self.writes
        {
            let text = self
                .value
                .with_untracked(|value| serde_json::to_string(value));
            if let Ok(text) = text {
                keep::store_text(self.key, &text);
            }
        }
    }

    /// Puts back what stood before the present row of changes.
    pub fn put_back(self) {
        if let Some(before) = self.before.try_update_value(Option::take).flatten() {
            self.value.set(before);
        }
    }

    /// Shows the value changed by `change` and keeps it.
    pub fn apply(self, change: impl FnOnce(&mut T)) {
        self.keep();
        self.show(change);
        self.keep();
    }

    /// Keeps the value changed by `change` for a sheet that is being left: what that shows stays.
    pub fn leave(self, change: impl FnOnce(&mut T)) {
        self.keep();
        self.before.set_value(Some(self.value.get_untracked()));
        self.value.update_untracked(change);
        self.keep();
    }
}

/// A kept text as a value; nothing when it cannot be read.
fn read<T: DeserializeOwned>(text: &str) -> Option<T> {
    serde_json::from_str(text).ok()
}

/// `text` after what was put aside before, unless it is in there already.
fn joined(before: Option<String>, text: &str) -> String {
    match before {
        Some(before) if before.contains(text) => before,
        Some(before) => format!("{before}\n{text}"),
        None => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::cut::Piece;
    use headwright::drift::{Opening, OwnDrift, Steps};

    #[test]
    fn the_usual_order_lacks_nothing_but_pieces() {
        let mut order = usual_order();
        assert!(!order.check().is_empty());
        order.pieces.push(Piece {
            name: "head".to_owned(),
            length: Length::mm(110.0),
            count: 3,
        });
        assert_eq!(order.check(), []);
    }

    #[test]
    fn what_is_kept_is_read_again() {
        let drifting = Drifting {
            opening: Some(Opening::Slit {
                length: Length::inches(1.25),
                width: Length::mm(3.0),
            }),
            steps: Steps::Count(4),
            own: vec![OwnDrift {
                length: Length::mm(20.0),
                width: Length::mm(14.0),
                taper: None,
            }],
            ..Drifting::default()
        };
        let text = serde_json::to_string(&drifting).expect("plain data");
        assert_eq!(read::<Drifting>(&text), Some(drifting));
    }

    #[test]
    fn a_text_that_is_none_of_ours_is_no_value() {
        for text in [
            "",
            "nonsense",
            "{}",
            "[1]",
            "{\"steps\":{\"count\":900}}",
            "null",
        ] {
            assert_eq!(read::<Drifting>(text), None, "{text}");
        }
        for text in ["", "hot", "null", "1e999"] {
            assert_eq!(read::<f64>(text), None, "{text}");
        }
    }

    #[test]
    fn what_is_put_aside_stays_when_more_comes() {
        assert_eq!(joined(None, "a"), "a");
        assert_eq!(joined(Some("a".to_owned()), "b"), "a\nb");
        assert_eq!(joined(Some("a\nb".to_owned()), "a"), "a\nb");
    }
}
