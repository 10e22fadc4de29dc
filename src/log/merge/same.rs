//! Which steps of two states of one build are the same.

use std::collections::BTreeSet;

use super::super::build::{Build, usual_steps};
use super::super::event::Event;

/// A step that is none of the usual ones: its id, its name while it is on the list, and what was recorded at it.
struct Added<'a> {
    id: u32,
    name: Option<&'a str>,
    recorded: BTreeSet<String>,
}

/// Whether a step here and one there are the same, surely or less so.
type Alike = fn(&Added, &Added) -> bool;

/// From the surest on: id and name, then something recorded at both in the same millisecond (it was renamed since, or came
/// before under another id), then the name alone.
const ALIKE: [Alike; 3] = [
    |own, coming| own.id == coming.id && own.name == coming.name,
    |own, coming| {
        let mut recorded = coming.recorded.iter();
        recorded.any(|said| own.recorded.contains(said))
    },
    |own, coming| own.name.is_some() && own.name == coming.name,
];

/// The id that each step of `other` has in `own`, where it is another. The usual ones are the same by whatever name they go;
/// one that the smith added and `own` has not keeps its id where nothing here has that, and else gets one that is free.
#[inline]
pub(super) fn ids_here(own: &Build, other: &Build) -> Vec<(u32, u32)> {
    let usual: Vec<u32> = usual_steps().into_iter().map(|step| step.id).collect();
    let [here, there] = [own, other].map(|build| added(build, &usual));
    let mut ids: Vec<(u32, u32)> = Vec::new();
    for alike in ALIKE {
        for coming in &there {
            if ids.iter().any(|(id, _)| *id == coming.id) {
                continue;
            }
            let is_met = |step: &&Added| ids.iter().any(|(_, own)| *own == step.id);
            let mut free = here.iter().filter(|step| !is_met(step));
            if let Some(same) = free.find(|step| alike(step, coming)) {
                ids.push((coming.id, same.id));
            }
        }
    }
    for coming in &there {
        if ids.iter().any(|(id, _)| *id == coming.id) {
            continue;
        }
        let is_taken = |id: u32| {
            let mut added = here.iter().chain(&there);
            usual.contains(&id)
                || added.any(|step| step.id == id)
                || ids.iter().any(|(_, own)| *own == id)
        };
        let id = if here.iter().any(|step| step.id == coming.id) {
            let free = (1..u32::MAX).find(|id| !is_taken(*id));
            free.unwrap_or(u32::MAX)
        } else {
            coming.id
        };
        ids.push((coming.id, id));
    }
    ids
}

/// What the step `id` of the other is called here.
#[inline]
pub(super) fn here(ids: &[(u32, u32)], id: u32) -> u32 {
    let mut found = ids.iter().filter(|(coming, _)| *coming == id);
    found.next().map_or(id, |(_, own)| *own)
}

/// The steps of `build` that are not `usual`, off the list too as far as anything was recorded at them.
#[inline]
fn added<'a>(build: &'a Build, usual: &[u32]) -> Vec<Added<'a>> {
    let listed = build.steps.iter().map(|step| (step.id, None));
    let recorded = build.events.iter().map(|event| (event.step, Some(event)));
    let mut all: Vec<Added> = Vec::new();
    for (id, event) in listed.chain(recorded) {
        if usual.contains(&id) {
            continue;
        }
        let place = all.iter().position(|step| step.id == id);
        let place = place.unwrap_or_else(|| {
            all.push(Added {
                id,
                name: build.step(id).map(|step| step.name.as_str()),
                recorded: BTreeSet::new(),
            });
            all.len() - 1
        });
        if let Some(event) = event {
            let anywhere = Event {
                step: 0,
                ..event.clone()
            };
            all[place].recorded.insert(super::said(&anywhere));
        }
    }
    all
}
