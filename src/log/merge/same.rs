//! Which steps of two states of one build are the same.

use std::collections::{BTreeMap, BTreeSet};

use super::super::build::{Build, usual_steps};

/// A step that is none of the usual ones: its id, its name while it is on the list, and what was recorded at it.
struct Added<'a> {
    id: u32,
    name: Option<&'a str>,
    recorded: BTreeSet<String>,
}

/// The id that each step of `other` has in `own`, where it is another. The usual ones are the same by whatever name they go;
/// one that the smith added and `own` has not keeps its id where nothing here has that, and else gets one that is free.
#[inline]
pub(super) fn ids_here(own: &Build, other: &Build) -> BTreeMap<u32, u32> {
    let usual: BTreeSet<u32> = usual_steps().into_iter().map(|step| step.id).collect();
    let [here, there] = [own, other].map(|build| added(build, &usual));
    let known = Known::of(&here);
    // Of both: a build may name as many steps as it has events.
    let mut ids = BTreeMap::new();
    let mut met = vec![false; here.len()];
    for alike in ALIKE {
        for coming in &there {
            if ids.contains_key(&coming.id) {
                continue;
            }
            let mut places = alike(&known, coming);
            places.retain(|place| !met[*place]);
            if let Some(place) = places.into_iter().min() {
                ids.insert(coming.id, here[place].id);
                met[place] = true;
            }
        }
    }
    let mut taken = usual;
    taken.extend(here.iter().chain(&there).map(|step| step.id));
    let mut free = 1;
    for coming in &there {
        if ids.contains_key(&coming.id) {
            continue;
        }
        let id = if known.ids.contains_key(&coming.id) {
            while taken.contains(&free) {
                free += 1;
            }
            taken.insert(free);
            free
        } else {
            coming.id
        };
        ids.insert(coming.id, id);
    }
    ids
}

/// What the step `id` of the other is called here.
#[inline]
pub(super) fn here(ids: &BTreeMap<u32, u32>, id: u32) -> u32 {
    ids.get(&id).copied().unwrap_or(id)
}

/// Where steps stand, by what they are known by.
struct Known<'a> {
    ids: BTreeMap<u32, (usize, Option<&'a str>)>,
    recorded: BTreeMap<&'a str, Vec<usize>>,
    names: BTreeMap<&'a str, Vec<usize>>,
}

impl<'a> Known<'a> {
    #[inline]
    fn of(steps: &'a [Added<'a>]) -> Self {
        let mut known = Self {
            ids: BTreeMap::new(),
            recorded: BTreeMap::new(),
            names: BTreeMap::new(),
        };
        for (place, step) in steps.iter().enumerate() {
            known.ids.insert(step.id, (place, step.name));
            for said in &step.recorded {
                known.recorded.entry(said).or_default().push(place);
            }
            if let Some(name) = step.name {
                known.names.entry(name).or_default().push(place);
            }
        }
        known
    }
}

/// The steps that this one may be, by one thing or another.
type Alike = fn(&Known, &Added) -> Vec<usize>;

/// From the surest on: id and name, then something recorded at both in the same millisecond (it was renamed since, or came
/// before under another id), then the name alone.
const ALIKE: [Alike; 3] = [
    |known, coming| {
        let same = known.ids.get(&coming.id);
        let same = same.filter(|(_, name)| *name == coming.name);
        same.map(|(place, _)| *place).into_iter().collect()
    },
    |known, coming| {
        let recorded = coming.recorded.iter();
        let places = recorded.filter_map(|said| known.recorded.get(said.as_str()));
        places.flatten().copied().collect()
    },
    |known, coming| {
        let same = coming.name.and_then(|name| known.names.get(name));
        same.cloned().unwrap_or_default()
    },
];

/// The steps of `build` that are not `usual`, off the list too as far as anything was recorded at them.
#[inline]
fn added<'a>(build: &'a Build, usual: &BTreeSet<u32>) -> Vec<Added<'a>> {
    let listed = build.steps.iter().map(|step| (step.id, None));
    let recorded = build.events.iter().map(|event| (event.step, Some(event)));
    let mut all: Vec<Added> = Vec::new();
    let mut places = BTreeMap::new();
    for (id, event) in listed.chain(recorded) {
        if usual.contains(&id) {
            continue;
        }
        let place = *places.entry(id).or_insert_with(|| {
            all.push(Added {
                id,
                name: build.step(id).map(|step| step.name.as_str()),
                recorded: BTreeSet::new(),
            });
            all.len() - 1
        });
        if let Some(event) = event {
            all[place].recorded.insert(super::said_anywhere(event));
        }
    }
    all
}
