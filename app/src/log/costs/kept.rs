//! What is kept of costs, and what can be done to it; it is done to whatever stands in the browser at that moment.

use headwright::price::Costs;
use headwright::rack::{Unread, mark};
use serde_json::Value;

/// Where the costs stand that are reckoned with. Others stand under the name of the file they came with and their mark.
const OWN: &str = "own";

/// Everything that is kept.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// What is reckoned with; nothing while none were entered.
    own: Option<Costs>,
    /// Others that came, by their ids, until the smith has chosen.
    pub others: Vec<(String, Costs)>,
    /// What cannot be read, by its id.
    unread: Vec<(String, String)>,
}

/// Something done to the costs. Done again it does nothing more.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// What a field did: the costs before and after.
    Edit(Box<[Costs; 2]>),
    /// Costs come in with the file of this name.
    TakeIn(String, Vec<Costs>),
    /// What was kept before the costs had a database comes in.
    Before(String),
    /// Others count from now on.
    Take(String),
    /// Others go.
    Leave(String),
}

impl Kept {
    /// What these texts of the browser are.
    pub fn of(texts: Vec<(String, String)>) -> Self {
        let mut kept = Self::default();
        for (id, text) in texts {
            match Costs::from_json(&text) {
                Ok(costs) if id == OWN => kept.own = Some(costs),
                Ok(costs) => kept.others.push((id, costs)),
                Err(_) => kept.unread.push((id, text)),
            }
        }
        kept
    }

    /// The texts for the browser.
    pub fn texts(&self) -> Vec<(String, String)> {
        let own = self
            .own
            .iter()
            .map(|costs| (OWN.to_owned(), costs.to_json()));
        let others = self.others.iter();
        let others = others.map(|(id, costs)| (id.clone(), costs.to_json()));
        own.chain(others).chain(self.unread.clone()).collect()
    }

    /// The costs that are reckoned with.
    pub fn costs(&self) -> Option<&Costs> {
        self.own.as_ref()
    }

    /// All costs, those first.
    pub fn all(&self) -> Vec<Costs> {
        let others = self.others.iter().map(|(_, costs)| costs);
        self.own.iter().chain(others).cloned().collect()
    }

    /// What cannot be read.
    pub fn unread(&self) -> Vec<Unread> {
        let unread = self.unread.iter().map(|(_, text)| Unread {
            name: Some("costs".to_owned()),
            text: text.clone(),
            reason:
                "What this browser keeps of them was written by a newer Headwright, or is damaged."
                    .to_owned(),
        });
        unread.collect()
    }

    /// Does `change`.
    pub fn make(&mut self, change: &Change) {
        match change {
            Change::Edit(both) => {
                let [before, after] = &**both;
                let own = self.own.as_ref();
                let now = own.map(|own| own.changed(before, after));
                self.put_own(now.unwrap_or_else(|| after.clone()));
            }
            Change::TakeIn(from, all) => all.iter().for_each(|costs| self.take_in(from, costs)),
            Change::Before(text) => match of_before(text) {
                Some(costs) => self.take_in("this browser", &costs),
                None => {
                    let id = mark(text);
                    self.unread.retain(|(other, _)| *other != id);
                    self.unread.push((id, text.clone()));
                }
            },
            Change::Take(id) => {
                if let Some(place) = self.others.iter().position(|(other, _)| other == id) {
                    let (_, costs) = self.others.remove(place);
                    self.put_own(costs);
                }
            }
            Change::Leave(id) => self.others.retain(|(other, _)| other != id),
        }
    }

    fn take_in(&mut self, from: &str, costs: &Costs) {
        let mut others = self.others.iter();
        if self.own.as_ref() == Some(costs) || others.any(|(_, other)| other == costs) {
            return;
        }
        if self.own.is_none() {
            self.put_own(costs.clone());
        } else {
            let id = format!("{from}/{}", mark(&costs.to_json()));
            self.others.push((id, costs.clone()));
        }
    }

    /// What cannot be read makes room and stays.
    fn put_own(&mut self, costs: Costs) {
        self.own = Some(costs);
        for (id, text) in &mut self.unread {
            if id == OWN {
                *id = mark(text);
            }
        }
    }
}

/// What became of `count` sets of costs that were taken in, in sentences.
pub fn came(before: &Kept, after: &Kept, count: usize) -> String {
    let counts = before.own.is_none() && after.own.is_some();
    let wait = after.others.len().saturating_sub(before.others.len());
    let stood = count.saturating_sub(wait + usize::from(counts));
    let said = match (counts, wait) {
        (false, 0) => return "The costs stood here already.".to_owned(),
        (true, 0) => "The costs are there.".to_owned(),
        (true, wait) => format!(
            "{} sets of costs came: which are to count is asked on the log’s sheet, at the price. Until then the first do.",
            wait + 1
        ),
        (false, 1) => "They are other costs than yours: which are to count is asked on the log’s sheet, at the price. Until then yours do.".to_owned(),
        (false, wait) => format!(
            "They are {wait} sets of costs other than yours: which are to count is asked on the log’s sheet, at the price. Until then yours do."
        ),
    };
    match stood {
        0 => said,
        1 => format!("{said} 1 set stood here already."),
        stood => format!("{said} {stood} sets stood here already."),
    }
}

/// The file that other costs came with, by their id.
pub fn from(id: &str) -> &str {
    id.rsplit_once('/').map_or(id, |(from, _)| from)
}

/// What was kept before there was a database: costs, and beside them what is wanted.
fn of_before(text: &str) -> Option<Costs> {
    let value: Value = serde_json::from_str(text).ok()?;
    let costs = Costs::from_json(&value.get("costs")?.to_string()).ok()?;
    let money = |key: &str| value.get(key)?.as_str()?.parse().ok();
    Some(Costs {
        wage: money("wage"),
        sell: money("sell"),
        ..costs
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::price::Money;

    fn costs(minutes: f64) -> Costs {
        Costs {
            minutes,
            ..Costs::default()
        }
    }

    fn take_in(all: &[f64]) -> Change {
        let all = all.iter().map(|minutes| costs(*minutes)).collect();
        Change::TakeIn("shop.json".to_owned(), all)
    }

    fn edit(change: impl Fn(&mut Costs), before: &Costs) -> Change {
        let mut after = before.clone();
        change(&mut after);
        Change::Edit(Box::new([before.clone(), after]))
    }

    fn again(kept: &Kept) -> Kept {
        Kept::of(kept.texts())
    }

    #[test]
    fn what_two_tabs_enter_in_two_fields_is_all_there() {
        let before = costs(120.0);
        let mut kept = Kept::default();
        kept.make(&edit(|costs| costs.minutes = 150.0, &before));
        kept.make(&edit(|costs| costs.wood = Money::cents(650), &before));
        let both = Costs {
            wood: Money::cents(650),
            ..costs(150.0)
        };
        assert_eq!(kept.costs(), Some(&both));
        assert_eq!(again(&kept), kept);
    }

    #[test]
    fn how_many_sets_came_and_which_choice_is_open_is_said() {
        let mut kept = Kept::default();
        let mut comes = |all: &[f64]| {
            let before = kept.clone();
            kept.make(&take_in(all));
            came(&before, &kept, all.len())
        };
        let asked = "which are to count is asked on the log’s sheet, at the price.";
        assert_eq!(
            comes(&[90.0, 100.0, 90.0]),
            format!(
                "2 sets of costs came: {asked} Until then the first do. 1 set stood here already."
            )
        );
        assert_eq!(comes(&[90.0]), "The costs stood here already.");
        assert_eq!(
            comes(&[110.0]),
            format!("They are other costs than yours: {asked} Until then yours do.")
        );
        assert_eq!(
            comes(&[90.0, 120.0, 130.0, 110.0]),
            format!(
                "They are 2 sets of costs other than yours: {asked} Until then yours do. 2 sets stood here already."
            )
        );
        kept = Kept::default();
        let before = kept.clone();
        kept.make(&take_in(&[90.0]));
        assert_eq!(came(&before, &kept, 1), "The costs are there.");
    }

    #[test]
    fn costs_that_come_wait_beside_those_that_stand_until_one_is_chosen() {
        let mut kept = Kept::default();
        kept.make(&take_in(&[90.0, 100.0]));
        assert_eq!(kept.costs(), Some(&costs(90.0)));
        assert_eq!(kept.others.len(), 1);
        let id = kept.others[0].0.clone();
        assert_eq!(from(&id), "shop.json");
        let before = kept.clone();
        kept.make(&take_in(&[100.0, 90.0]));
        assert_eq!((&kept, &again(&kept)), (&before, &before));
        let (mut took, mut left) = (kept.clone(), kept);
        for _ in 0..2 {
            took.make(&Change::Take(id.clone()));
            left.make(&Change::Leave(id.clone()));
            assert_eq!(took.all(), [costs(100.0)]);
            assert_eq!(left.all(), [costs(90.0)]);
        }
    }

    #[test]
    fn what_was_kept_before_there_was_a_database_comes_in_once() {
        let text = r#"{"costs":{"currency":"EUR","minutes":150.0},"wage":"36.50","sell":"180.00"}"#;
        let mut kept = Kept::default();
        for _ in 0..2 {
            kept.make(&Change::Before(text.to_owned()));
            let wanted = Costs {
                wage: Some(Money::cents(3650)),
                sell: Some(Money::cents(18_000)),
                ..costs(150.0)
            };
            assert_eq!(kept.costs(), Some(&wanted));
            assert!(kept.others.is_empty());
        }
    }

    #[test]
    fn what_cannot_be_read_is_never_written_over() {
        let text = r#"{"costs":"of tomorrow"}"#.to_owned();
        let mut kept = Kept::of(vec![(OWN.to_owned(), text.clone())]);
        assert_eq!(kept.costs(), None);
        assert_eq!(kept.texts(), [(OWN.to_owned(), text.clone())]);
        kept.make(&take_in(&[90.0]));
        kept.make(&Change::Before("nonsense".to_owned()));
        assert_eq!(kept.costs(), Some(&costs(90.0)));
        let unread: Vec<String> = kept.unread().into_iter().map(|it| it.text).collect();
        assert!(unread.contains(&text) && unread.contains(&"nonsense".to_owned()));
        assert_eq!(again(&kept), kept);
    }
}
