//! The handle where it leaves the head, as the pictures of the head alone show it.

use leptos::prelude::*;

use super::state::Workspace;
use headwright::handle::Handle;
use headwright::solid::Solid;

/// Share of the upper mouth that it takes at most: it must not touch the wall in the picture.
const FILL: f64 = 0.97;
/// The least that is drawn, mm.
const LEAST: f64 = 2.0;

/// Half-depth and half-width of the last oval of `handle`, mm; drawn out of the upper mouth of `solid`, it is no larger.
pub fn oval(solid: &Solid, handle: &Handle) -> [f64; 2] {
    let mouth = &solid.head().eye.top;
    let mouth = [mouth.p, mouth.q].map(|half| half * FILL);
    let last = handle.stations.last();
    let last = last.map(|last| [last.depth, last.width].map(|size| 0.5 * size.in_mm()));
    let [depth, width] = last.unwrap_or(mouth);
    [
        depth.min(mouth[0]).max(LEAST),
        width.min(mouth[1]).max(LEAST),
    ]
}

/// The same of the head and the handle in work.
pub fn in_work() -> Memo<[f64; 2]> {
    let workspace = Workspace::here().behind();
    Memo::new(move |_| {
        workspace
            .sound
            .with(|solid| workspace.design.with(|d| oval(solid, &d.handle)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::units::Length;

    #[test]
    fn the_stem_is_the_last_oval_as_far_as_the_mouth_lets_it_through() {
        let mut design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        let mouth = solid.head().eye.top;
        let last = design.handle.stations.last_mut().expect("stations");
        last.depth = Length::mm(24.0);
        last.width = Length::mm(200.0);
        assert_eq!(oval(&solid, &design.handle), [12.0, mouth.q * FILL]);
        design.handle.stations.clear();
        assert_eq!(
            oval(&solid, &design.handle),
            [mouth.p, mouth.q].map(|half| half * FILL)
        );
    }
}
