//! The search as the page knows it: it goes on, and its list stays, while another screen is looked at.

use leptos::prelude::*;

use super::worker::{Handle, Heard, start};
use headwright::cut::{CutError, CuttingList, Order, Progress};

/// What has come of the search.
#[derive(Clone, PartialEq)]
pub enum Found {
    /// Nobody has asked.
    Nothing,
    /// It runs; how far it is and the best list so far, once it has said so.
    Running(Option<Progress>, Option<Box<CuttingList>>),
    /// The list of an order, and why it is not that of a whole search.
    List(Box<(Order, CuttingList)>, Option<String>),
    /// What is wrong with the order.
    Wrong(Vec<CutError>),
    /// Why there is no list.
    Refused(String),
}

impl Found {
    /// What it is when the search for `order` says something.
    fn after(self, order: &Order, heard: Heard) -> Self {
        let ended = |list: CuttingList, why| Self::List(Box::new((order.clone(), list)), why);
        match (heard, self) {
            (Heard::Progress(progress), Self::Running(_, best)) => {
                let best = best.map(|mut list| {
                    list.bound = progress.bound;
                    list
                });
                Self::Running(Some(progress), best)
            }
            (Heard::Better(list), Self::Running(progress, _)) => {
                Self::Running(progress, Some(list))
            }
            (Heard::Done(list), _) => ended(*list, None),
            (Heard::Refused(why), _) => Self::Refused(why),
            (Heard::Failed(why), Self::Running(_, Some(best))) => {
                ended(*best, Some(format!("{why} {KEPT}")))
            }
            (Heard::Failed(why), _) => Self::Refused(why),
            (Heard::Progress(_) | Heard::Better(_), found) => found,
        }
    }

    /// What it is when the search for `order` is stopped.
    fn stopped(self, order: &Order) -> Self {
        match self {
            Self::Running(_, Some(best)) => Self::List(
                Box::new((order.clone(), *best)),
                Some(format!("The search was stopped. {KEPT}")),
            ),
            Self::Running(_, None) => Self::Nothing,
            found => found,
        }
    }
}

const KEPT: &str = "This is the best list it had found.";

/// A search and what has come of it.
#[derive(Clone, Copy)]
pub struct Searching {
    /// What has come of it.
    pub found: RwSignal<Found>,
    order: StoredValue<Option<Order>>,
    // A worker lives in the browser's one thread; dropping its handle ends it.
    handle: StoredValue<Option<Handle>, LocalStorage>,
}

impl Searching {
    /// Nothing is searched for.
    pub fn new() -> Self {
        Self {
            found: RwSignal::new(Found::Nothing),
            order: StoredValue::new(None),
            handle: StoredValue::new_local(None),
        }
    }

    /// Searches for the list of `order` instead of what is searched for.
    pub fn begin(self, order: Order) {
        self.handle.set_value(None);
        let errors = order.check();
        if !errors.is_empty() {
            self.found.set(Found::Wrong(errors));
            return;
        }
        self.found.set(Found::Running(None, None));
        self.order.set_value(Some(order.clone()));
        let asked = order.clone();
        let started = start(&order, move |heard| {
            self.found.update(|found| {
                *found = std::mem::replace(found, Found::Nothing).after(&asked, heard)
            });
        });
        match started {
            Ok(handle) => self.handle.set_value(Some(handle)),
            Err(sentence) => self.found.set(Found::Refused(sentence)),
        }
    }

    /// Ends the search with the best list it has found.
    pub fn stop(self) {
        self.handle.set_value(None);
        let Some(order) = self.order.get_value() else {
            return;
        };
        self.found
            .update(|found| *found = std::mem::replace(found, Found::Nothing).stopped(&order));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::cut::{Message, Piece, Stock, answer};
    use headwright::units::Length;

    /// An order whose search takes several reports, and all that is said of it.
    fn searched() -> (Order, Vec<Heard>) {
        let lines = (0..30).map(|i| Piece {
            name: "a".to_owned(),
            length: Length::mm(200.0 + f64::from(i * 211 % 1100)),
            count: 1,
        });
        let order = Order {
            pieces: lines.collect(),
            stock: vec![Stock {
                length: Length::mm(3000.0),
                count: None,
                price: None,
            }],
            kerf: Length::mm(2.0),
            end_waste: Length::mm(20.0),
            section: None,
            density: Default::default(),
            price_per_kg: None,
        };
        let mut said = Vec::new();
        answer(&order.write(), 1, |message| {
            said.push(match message {
                Message::Progress(progress) => Heard::Progress(progress),
                Message::Better { list } => Heard::Better(list),
                Message::Answer { list } => Heard::Done(list),
                Message::Refused { reason } => Heard::Refused(reason),
                Message::Ready => return,
            });
        });
        (order, said)
    }

    #[test]
    fn a_search_that_is_stopped_or_fails_keeps_its_best_list_with_the_last_bound() {
        let (order, said) = searched();
        let mut found = Found::Running(None, None);
        let mut bound = None;
        for heard in said {
            if matches!(heard, Heard::Done(_)) {
                break;
            }
            if let Heard::Progress(progress) = &heard {
                bound = Some(progress.bound);
            }
            found = found.after(&order, heard);
        }
        for ended in [
            found.clone().stopped(&order),
            found.after(&order, Heard::Failed("It broke.".to_owned())),
        ] {
            let Found::List(answer, Some(why)) = ended else {
                panic!("no list is left");
            };
            assert_eq!(Some(answer.1.bound), bound);
            assert!(why.ends_with(KEPT), "{why}");
        }
    }

    #[test]
    fn a_search_that_ended_is_changed_by_no_stop() {
        let (order, mut said) = searched();
        let done = Found::Running(None, None).after(&order, said.pop().expect("an answer"));
        assert!(matches!(done, Found::List(_, None)));
        assert!(done.clone().stopped(&order) == done);
        assert!(Found::Running(None, None).stopped(&order) == Found::Nothing);
    }
}
