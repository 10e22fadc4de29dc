//! One rack into another: nothing is written over, nothing comes twice.

use super::*;

/// New ids in a row.
fn ids() -> impl FnMut() -> String {
    let mut count = 0;
    move || {
        count += 1;
        format!("new-{count}")
    }
}

/// Entries of few ids and fewer names, so that both meet.
fn meeting() -> impl Strategy<Value = Vec<Entry>> {
    prop::collection::vec((0..4, 0..3, 0..2), 0..8).prop_map(|all| {
        all.into_iter()
            .map(|(id, name, tag)| Entry {
                tags: vec![format!("tag {tag}")],
                ..named(&format!("new-{id}"), &format!("Hammer {name}"))
            })
            .collect()
    })
}

/// What the entries say, whatever their ids.
fn says(rack: &Rack) -> Vec<(String, Vec<String>)> {
    let all = rack.entries.iter();
    let mut says: Vec<_> = all
        .map(|e| (e.design.name.clone(), e.tags.clone()))
        .collect();
    says.sort();
    says.dedup();
    says
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn what_stands_stays_and_what_comes_is_there_afterwards(standing in meeting(), coming in meeting()) {
        let mut before = Rack::default();
        before.take_in(standing, ids());
        let mut after = before.clone();
        let report = after.take_in(coming.clone(), ids());
        prop_assert_eq!(&after.entries[..before.entries.len()], &before.entries[..]);
        prop_assert_eq!(report.len(), coming.len());
        for (entry, arrived) in coming.iter().zip(&report) {
            prop_assert!(after.entries.iter().any(|other| other.says_the_same(entry)));
            prop_assert_eq!(arrived.arrival != Arrival::Copied, arrived.entry.id == entry.id);
        }
        let mut all: Vec<&str> = after.entries.iter().map(|e| e.id.as_str()).collect();
        all.sort_unstable();
        all.dedup();
        prop_assert_eq!(all.len(), after.entries.len());
    }

    #[test]
    fn the_same_file_again_is_skipped_as_a_whole(standing in meeting(), coming in meeting()) {
        let mut rack = Rack::default();
        rack.take_in(standing, ids());
        rack.take_in(coming.clone(), ids());
        let once = rack.clone();
        let report = rack.take_in(coming, ids());
        prop_assert!(report.iter().all(|arrived| arrived.arrival == Arrival::Skipped));
        prop_assert_eq!(rack, once);
    }

    #[test]
    fn two_files_say_the_same_in_either_order(a in meeting(), b in meeting()) {
        let [mut ab, mut ba] = [Rack::default(), Rack::default()];
        ab.take_in(a.clone(), ids());
        ab.take_in(b.clone(), ids());
        ba.take_in(b, ids());
        ba.take_in(a, ids());
        prop_assert_eq!(says(&ab), says(&ba));
    }
}
