//! Pages that work on one rack at once, each in its own time: whatever happens, nobody's work is lost.

use std::collections::{BTreeMap, BTreeSet};

use super::*;
use headwright::rack::{Parts, Place, Step, Taking, Work, joined};

/// A store of slips, as a browser keeps them.
#[derive(Default)]
struct Store(BTreeMap<String, String>);

impl Store {
    fn place(&self, id: &str) -> Place {
        match self.0.get(id).map(|text| Slip::from_json(text)) {
            None => Place::Free,
            Some(Ok(slip)) => Place::Taken(Box::new(slip)),
            Some(Err(_)) => Place::Unread,
        }
    }

    /// Takes `work` up and says under which id it stands and what it is marked.
    fn take_up(&mut self, work: &Work) -> Option<(String, String)> {
        let mut taking = Taking::of(work).expect("a design")?;
        let mut step = taking.found(&self.place(taking.id()));
        loop {
            match step {
                Step::Look(id) => step = taking.found(&self.place(&id)),
                Step::Write(slip) => {
                    let stands = (slip.entry.id.clone(), slip.mark.clone());
                    self.0.insert(slip.entry.id.clone(), slip.to_json());
                    return Some(stands);
                }
                Step::Stands(id) => return Some((id, work_mark(work))),
            }
        }
    }

    /// The notes of all that stand, the removed too.
    fn notes(&self) -> BTreeSet<String> {
        let slips = self
            .0
            .values()
            .filter_map(|text| Slip::from_json(text).ok());
        slips.map(|slip| slip.entry.design.note).collect()
    }
}

fn work_mark(work: &Work) -> String {
    mark(&work.design)
}

/// A page and its note.
struct Page {
    work: Work,
}

impl Page {
    fn at(store: &Store, id: &str, copy: &str) -> Option<Self> {
        let Place::Taken(slip) = store.place(id) else {
            return None;
        };
        Some(Self {
            work: Work {
                version: 1,
                entry: Some(id.to_owned()),
                copy: copy.to_owned(),
                came_from: vec![slip.mark],
                base: Some(Parts::of(&slip.entry.design)),
                at: 5,
                waits: false,
                design: slip.entry.design.to_json(),
                edited: None,
            },
        })
    }

    fn design(&self) -> Design {
        Design::from_json(&self.work.design).expect("a design")
    }

    /// One keystroke, noted before anything else: the note is what tells the states apart.
    fn type_on(&mut self, note: String) {
        let before = work_mark(&self.work);
        self.work.pass(before);
        self.work.design = self.design().apply(Edit::Note(note)).to_json();
        self.work.waits = true;
    }

    /// Another change, noted in the same way.
    fn edit(&mut self, edit: Edit) {
        let before = work_mark(&self.work);
        self.work.pass(before);
        self.work.design = self.design().apply(edit).to_json();
        self.work.waits = true;
    }

    fn keep(&mut self, store: &mut Store) {
        if !self.work.waits {
            return;
        }
        if let Some((id, mark)) = store.take_up(&self.work) {
            if let Place::Taken(slip) = store.place(&id) {
                // What another page did to other parts is shown here too.
                let stands = slip.entry.design;
                self.work.base = Some(Parts::of(&stands));
                self.work.design = stands.to_json();
            }
            self.work.entry = Some(id);
            self.work.pass(mark);
        }
        self.work.waits = false;
    }
}

#[derive(Clone, Copy, Debug)]
enum Happens {
    Types(usize),
    Keeps(usize),
    /// Another page finds the note of this one, which may live on.
    IsFound(usize),
    /// Dies and opens the same entry again.
    Dies(usize),
    Removed,
}

fn happenings() -> impl Strategy<Value = Vec<Happens>> {
    let one = prop_oneof![
        4 => (0..3_usize).prop_map(Happens::Types),
        3 => (0..3_usize).prop_map(Happens::Keeps),
        2 => (0..3_usize).prop_map(Happens::IsFound),
        1 => (0..3_usize).prop_map(Happens::Dies),
        1 => Just(Happens::Removed),
    ];
    prop::collection::vec(one, 1..40)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn of_pages_at_one_entry_nobody_loses_the_last_keystroke(all in happenings()) {
        let mut store = Store::default();
        let begun = Slip::new(named("one", "Hammer"));
        store.0.insert("one".to_owned(), begun.to_json());
        let mut pages: Vec<Page> = (0..3)
            .filter_map(|i| Page::at(&store, "one", &format!("copy-{i}")))
            .collect();
        let mut count = 0;
        // States that a page was opened at may be worked on there.
        let mut opened = BTreeSet::from([String::from(&begun.entry.design.note)]);
        for happens in all {
            match happens {
                Happens::Types(page) => {
                    count += 1;
                    pages[page].type_on(format!("{page}: {count}"));
                }
                Happens::Keeps(page) => pages[page].keep(&mut store),
                Happens::IsFound(page) => {
                    let work = pages[page].work.clone();
                    if work.waits {
                        store.take_up(&work);
                        prop_assert!(store.notes().contains(&pages[page].design().note));
                    }
                }
                Happens::Dies(page) => {
                    // What it had noted is found by whoever comes next.
                    pages[page].keep(&mut store);
                    count += 1;
                    if let Some(again) = Page::at(&store, "one", &format!("copy-{page}-{count}")) {
                        pages[page] = again;
                        opened.insert(pages[page].design().note);
                    }
                }
                Happens::Removed => {
                    if let Place::Taken(slip) = store.place("one") {
                        let gone = Slip { removed: true, ..*slip };
                        store.0.insert("one".to_owned(), gone.to_json());
                    }
                }
            }
            // What a page had kept stands, whatever the others did since.
            for page in pages.iter().filter(|page| !page.work.waits) {
                let last = page.design().note;
                let stands = store.notes().contains(&last);
                prop_assert!(stands || opened.contains(&last), "{last} of {:?}", store.notes());
            }
        }
        for page in &mut pages {
            page.keep(&mut store);
        }
        for page in &pages {
            let last = page.design().note;
            prop_assert!(store.notes().contains(&last) || opened.contains(&last));
        }
    }
}

/// A page at a sound entry of this store.
fn page(store: &mut Store, copy: &str) -> Page {
    let slip = Slip::new(named("one", "Hammer"));
    store
        .0
        .entry("one".to_owned())
        .or_insert_with(|| slip.to_json());
    Page::at(store, "one", copy).expect("it stands")
}

#[test]
fn two_pages_at_one_entry_end_as_entry_and_copy() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    let mut second = page(&mut store, "copy-b");
    first.type_on("first".to_owned());
    second.type_on("second".to_owned());
    first.keep(&mut store);
    second.keep(&mut store);
    assert_eq!(first.work.entry.as_deref(), Some("one"));
    assert_eq!(second.work.entry.as_deref(), Some("copy-b"));
    let Place::Taken(copy) = store.place("copy-b") else {
        panic!("there is a copy");
    };
    assert_eq!(copy.entry.design.name, "Hammer (other tab)");
    assert_eq!(copy.entry.design.note, "second");
    assert!(store.notes().contains("first"));
}

/// The only entry of the store.
fn only(store: &Store) -> Design {
    assert_eq!(store.0.len(), 1, "{:?}", store.0.keys());
    let Place::Taken(slip) = store.place("one") else {
        panic!("it stands");
    };
    slip.entry.design
}

fn wider(mm: f64) -> Edit {
    let width = headwright::design::Part::Cheeks.size(headwright::design::Size::Width);
    Edit::set(width, headwright::units::Length::mm(mm))
}

#[test]
fn a_name_a_note_and_a_size_given_in_three_pages_meet_in_one_entry() {
    let mut store = Store::default();
    let mut pages: Vec<Page> = ["a", "b", "c"].map(|copy| page(&mut store, copy)).into();
    let changes = [
        Edit::Name("Renamed".to_owned()),
        Edit::Note("noted".to_owned()),
        wider(33.25),
    ];
    for (page, change) in pages.iter_mut().zip(changes) {
        page.edit(change);
    }
    for page in &mut pages {
        page.keep(&mut store);
    }
    let stands = only(&store);
    assert_eq!(
        stands,
        named("one", "Renamed")
            .design
            .apply(Edit::Note("noted".to_owned()))
            .apply(wider(33.25))
    );
    // Each goes on from there.
    pages[2].edit(wider(33.5));
    pages[2].keep(&mut store);
    pages[0].edit(Edit::Name("Renamed again".to_owned()));
    pages[0].keep(&mut store);
    assert_eq!(
        only(&store),
        stands
            .apply(wider(33.5))
            .apply(Edit::Name("Renamed again".to_owned()))
    );
}

#[test]
fn a_hammer_renamed_on_the_rack_while_a_sheet_had_it_is_no_other_when_the_sheet_is_worked_on() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    let renamed = Slip::new(named("one", "Renamed on the rack"));
    store.0.insert("one".to_owned(), renamed.to_json());
    first.edit(wider(33.25));
    first.keep(&mut store);
    let stands = only(&store);
    assert_eq!(stands, renamed.entry.design.apply(wider(33.25)));
}

#[test]
fn two_names_or_two_shapes_are_two_hammers() {
    for [one, other] in [
        ["One", "Other"].map(|name| Edit::Name(name.to_owned())),
        [33.25, 33.5].map(wider),
    ] {
        let mut store = Store::default();
        let mut first = page(&mut store, "copy-a");
        let mut second = page(&mut store, "copy-b");
        first.edit(one);
        second.edit(other);
        first.keep(&mut store);
        second.keep(&mut store);
        assert_eq!(store.0.len(), 2);
    }
}

#[test]
fn what_both_changed_alike_is_joined_and_what_they_changed_apart_is_not() {
    let base = named("one", "Hammer").design;
    let parts = Parts::of(&base);
    let named = |name: &str| base.apply(Edit::Name(name.to_owned()));
    assert_eq!(joined(&parts, &named("A"), &named("A")), Some(named("A")));
    assert_eq!(joined(&parts, &named("A"), &named("B")), None);
    assert_eq!(joined(&parts, &base, &named("B")), Some(named("B")));
    let both = joined(&parts, &base.apply(wider(33.25)), &named("B"));
    assert_eq!(both, Some(named("B").apply(wider(33.25))));
}

#[test]
fn a_copy_of_a_hammer_without_a_name_is_called_so() {
    let mut store = Store::default();
    let slip = Slip::new(named("one", " "));
    store.0.insert("one".to_owned(), slip.to_json());
    let mut first = Page::at(&store, "one", "copy-a").expect("it stands");
    let mut second = Page::at(&store, "one", "copy-b").expect("it stands");
    first.type_on("first".to_owned());
    second.type_on("second".to_owned());
    first.keep(&mut store);
    second.keep(&mut store);
    let Place::Taken(copy) = store.place("copy-b") else {
        panic!("there is a copy");
    };
    assert_eq!(copy.entry.design.name, "hammer without a name (other tab)");
}

#[test]
fn a_note_that_others_take_up_too_is_taken_up_once() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    first.type_on("first".to_owned());
    store.take_up(&first.work);
    store.take_up(&first.work);
    first.keep(&mut store);
    assert_eq!(store.0.len(), 1);
    let mut second = page(&mut store, "copy-b");
    first.type_on("more".to_owned());
    first.keep(&mut store);
    second.type_on("second".to_owned());
    store.take_up(&second.work);
    store.take_up(&second.work);
    assert_eq!(store.0.len(), 2);
}

#[test]
fn what_was_removed_comes_back_when_it_is_worked_on() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    let gone = Slip {
        removed: true,
        ..Slip::new(named("one", "Hammer"))
    };
    store.0.insert("one".to_owned(), gone.to_json());
    first.type_on("first".to_owned());
    first.keep(&mut store);
    assert!(matches!(store.place("one"), Place::Taken(slip) if !slip.removed));
    store.0.clear();
    first.type_on("second".to_owned());
    first.keep(&mut store);
    assert!(matches!(store.place("one"), Place::Taken(_)));
}

#[test]
fn a_place_that_cannot_be_read_is_not_written_over() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    store.0.insert("one".to_owned(), "garbage".to_owned());
    store
        .0
        .insert("copy-a".to_owned(), "garbage too".to_owned());
    first.type_on("first".to_owned());
    first.keep(&mut store);
    assert_eq!(store.0["one"], "garbage");
    assert_eq!(store.0["copy-a"], "garbage too");
    assert_eq!(first.work.entry.as_deref(), Some("copy-a-2"));
    assert!(store.notes().contains("first"));
}

#[test]
fn a_note_is_read_again_unless_it_is_a_newer_one() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    for count in 0..100 {
        first.type_on(count.to_string());
    }
    assert_eq!(first.work.came_from.len(), headwright::rack::MOST_STATES);
    let text = first.work.to_json();
    assert_eq!(Work::from_json(&text), Some(first.work));
    let newer = text.replacen("\"version\":1", "\"version\":2", 1);
    for text in [newer.as_str(), "", "{}", "null", "garbage"] {
        assert_eq!(Work::from_json(text), None);
    }
}

#[test]
fn a_copy_has_a_name_that_is_not_too_long() {
    let mut store = Store::default();
    let mut first = page(&mut store, "copy-a");
    store.0.insert("one".to_owned(), "garbage".to_owned());
    let long = first.design().apply(Edit::Name("ä".repeat(80)));
    first.work.design = long.to_json();
    first.type_on("first".to_owned());
    first.keep(&mut store);
    let Place::Taken(copy) = store.place("copy-a") else {
        panic!("there is a copy");
    };
    assert_eq!(copy.entry.design.name.chars().count(), 80);
    assert!(copy.entry.design.build().is_ok());
}
