//! What was seen is seen again when the window gets another width, as when a phone is turned.

use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;
use web_sys::Element;

use super::later::Later;

/// How long the page rests before it is looked at.
const REST: Duration = Duration::from_millis(120);
/// Where in the window it is looked at, as a share of its height: below what is stuck to the upper edge.
const LOOK: f64 = 1.0 / 3.0;
/// What stays itself while all in it is laid out anew.
const LASTING: &str = ".pane, .row, tr, li, figure, p, h1, h2, h3, section";

/// What was looked at, and which share of its height was above that place.
#[derive(Clone)]
struct Seen {
    element: Element,
    share: f64,
}

/// Leaves what is looked at in its place when the width of the window changes. A page at its top stays there.
pub fn follow() {
    let seen = StoredValue::new_local(None::<Seen>);
    let width = StoredValue::new(window_size()[0]);
    let later = Later::new();
    let again = move || later.start(REST, move || seen.set_value(look()));
    let _ = window_event_listener(ev::scroll, move |_| again());
    // What was opened or closed may have moved the rest.
    let _ = window_event_listener(ev::pointerup, move |_| again());
    let _ = window_event_listener(ev::keyup, move |_| again());
    let _ = window_event_listener(ev::resize, move |_| {
        let now = window_size()[0];
        if width.try_get_value() == Some(now) {
            return;
        }
        width.set_value(now);
        later.stop();
        let Some(seen) = seen.get_value() else { return };
        // Drawings learn their width in one frame and stand in the next.
        request_animation_frame(move || request_animation_frame(move || seen.bring_back()));
    });
}

/// Width and height of the window, px.
fn window_size() -> [f64; 2] {
    let root = document().document_element();
    root.map_or([0.0; 2], |root| {
        [root.client_width(), root.client_height()].map(f64::from)
    })
}

fn look() -> Option<Seen> {
    let [width, height] = window_size();
    if window().scroll_y().ok()? <= 0.0 {
        return None;
    }
    let at = height * LOOK;
    let found = document().element_from_point((0.5 * width) as f32, at as f32)?;
    let element = found.closest(LASTING).ok()??;
    let place = element.get_bounding_client_rect();
    Some(Seen {
        share: (at - place.top()) / place.height().max(1.0),
        element,
    })
}

impl Seen {
    /// Scrolls the page so that it stands where it stood; what is no longer on the page stays away.
    fn bring_back(&self) {
        if self.element.is_connected() {
            let place = self.element.get_bounding_client_rect();
            let at = window_size()[1] * LOOK;
            let by = place.top() + self.share * place.height() - at;
            window().scroll_by_with_x_and_y(0.0, by);
        }
    }
}
