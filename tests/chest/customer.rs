//! Nothing of a chest is in what a customer gets.

use headwright::design::starter;
use headwright::log::losses::learn;
use headwright::log::{Event, What};
use headwright::share::offer::Offer;

use super::{build, chest};

#[test]
fn a_customers_link_carries_nothing_of_log_costs_and_learned_losses() {
    let mut marked = build("build-9", "one");
    let text = "Secret of the shop".to_owned();
    let what = What::Note { text };
    marked
        .record(Event {
            step: 1,
            at: 3_000,
            what,
        })
        .expect("a note");
    let mut chest = chest();
    chest.log.builds.push(marked);
    let learned = learn(&chest.log.builds);
    for entry in &chest.rack.entries {
        let plain = entry.design.clone();
        let mut taught = plain.clone();
        taught.bar = learned.bar(&plain.bar);
        assert_ne!(taught.bar, plain.bar);
        let [plain, taught] = [plain, taught].map(|design| Offer::new(design).sent());
        let [with, without] = [&taught, &plain].map(|offer| offer.encode().expect("a link"));
        // Letter for letter the same, whatever was learned.
        assert_eq!(with, without);
        let came = Offer::decode(&with).expect("an offer");
        let usual = starter("light").expect("a starter").bar.losses;
        let own = |losses: &[headwright::bar::Loss]| {
            losses.iter().any(|loss| loss.source.contains("weighed in"))
        };
        assert!(!own(&came.design.bar.losses) && !own(&usual));
        assert!(!came.design.to_json().contains("Secret"));
    }
}
