//! A size dragged where it stands: the arrow stays under the finger, and the others follow as the holds will have it.

use std::time::Duration;

use leptos::ev;
use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, PointerEvent};

use super::super::fitting;
use super::super::state::Workspace;
use super::tracing::Tracing;
use headwright::design::{Dim, Edit};
use headwright::drawing::{Key, Laid, LaidSize, Point, Segment, Setting, Still, draw, layout};
use headwright::units::Measure;

/// From here on a press that moves is a drag, px.
const SLACK: f64 = 5.0;
/// By how much a size is changed to see where its arrow goes, mm or degrees.
const TRIAL: f64 = 0.5;
/// An arrow that moves by less than this share of the change is no help: the size is then pulled by its number.
const HARDLY: f64 = 0.15;
/// Degrees for a pixel, where an angle is pulled by its number.
const DEGREES_PER_PX: f64 = 0.1;

/// A size under the finger.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// The size.
    pub dim: Dim,
    /// How the sheet stands while it moves.
    pub still: Still,
    /// Whether it has moved.
    pub moved: bool,
    /// Whether Escape has put it back; the finger may still be down.
    pub given_up: bool,
    pointer: i32,
    from: Point,
    /// Where that is on the board.
    at: Point,
    start: f64,
    /// Worked out when there is time for it, at the latest with the first move.
    pull: Option<Pull>,
}

/// What a way of the finger does.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Pull {
    /// The way that counts, of length 1, px down and to the right.
    along: Point,
    /// Change for a pixel of it.
    per_px: f64,
}

impl Pull {
    fn of(self, way: Point) -> f64 {
        (way[0] * self.along[0] + way[1] * self.along[1]) * self.per_px
    }
}

/// Unit vector of an arrow.
fn direction(arrow: &Segment) -> Point {
    let way = [0, 1].map(|k| arrow.to[k] - arrow.from[k]);
    let length = way[0].hypot(way[1]).max(f64::MIN_POSITIVE);
    way.map(|part| part / length)
}

/// The arrow whose tip is nearest to `at`.
fn nearest(size: &LaidSize, at: Point) -> Option<usize> {
    let far = |arrow: &Segment| (arrow.to[0] - at[0]).hypot(arrow.to[1] - at[1]);
    let arrows = size.arrows.iter().enumerate();
    arrows
        .min_by(|(_, a), (_, b)| far(a).total_cmp(&far(b)))
        .map(|(index, _)| index)
}

/// How `size` is pulled at `at`, from where its nearest arrow goes when the size is a little larger: `larger` is laid out
/// so.
fn pull(size: &LaidSize, at: Point, larger: Option<&LaidSize>, scale: f64, length: bool) -> Pull {
    let by_arrow = nearest(size, at).and_then(|index| {
        let (before, after) = (size.arrows[index], larger?.arrows.get(index)?);
        let along = direction(&before);
        let shift: f64 = (0..2)
            .map(|k| (after.to[k] - before.to[k]) * along[k])
            .sum();
        let turned = direction(after);
        let same = along[0] * turned[0] + along[1] * turned[1] > 0.99;
        (same && shift.abs() > HARDLY * TRIAL * scale).then_some(Pull {
            along,
            per_px: TRIAL / shift,
        })
    });
    // Upwards and to the right is more.
    let diagonal = std::f64::consts::FRAC_1_SQRT_2;
    by_arrow.unwrap_or(Pull {
        along: [diagonal, -diagonal],
        per_px: if length { 1.0 / scale } else { DEGREES_PER_PX },
    })
}

fn client(event: &PointerEvent) -> Point {
    [f64::from(event.client_x()), f64::from(event.client_y())]
}

/// Sizes dragged on a sheet.
#[derive(Clone, Copy)]
pub struct Drag {
    workspace: Workspace,
    /// The size under the finger.
    grip: RwSignal<Option<Grip>>,
    /// How the sheet is laid out.
    setting: Memo<Setting>,
    /// The sheet.
    laid: Memo<Laid>,
    tracing: Tracing,
}

impl Drag {
    /// On the sheet `laid`, laid out by `setting`, which asks `grip` how it stands; drawn over `board`.
    pub fn new(
        workspace: Workspace,
        grip: RwSignal<Option<Grip>>,
        setting: Memo<Setting>,
        laid: Memo<Laid>,
        board: NodeRef<Div>,
    ) -> Self {
        let drag = Self {
            workspace,
            grip,
            setting,
            laid,
            tracing: Tracing::new(workspace, board),
        };
        drag.put_back_by_escape();
        drag
    }

    /// Width of the sheet, px.
    pub fn wide(self) -> f64 {
        self.laid.with(|laid| laid.width)
    }

    /// Puts `dim` under the finger, at `at` on the board.
    pub fn seize(self, event: &PointerEvent, dim: Dim, at: Point) {
        // One of another pointer is let go.
        self.let_go(true);
        let start = self.workspace.design.with_untracked(|d| d.size(dim));
        self.grip.set(start.map(|start| Grip {
            dim,
            still: self.laid.with_untracked(|laid| laid.still),
            moved: false,
            given_up: false,
            pointer: event.pointer_id(),
            from: client(event),
            at,
            start: start.number(),
            pull: None,
        }));
        // The press is shown first.
        let then = move || self.feel();
        if request_idle_callback_with_handle(then).is_err() {
            set_timeout(then, Duration::ZERO);
        }
    }

    /// Works out what the first move needs, unless it is known.
    fn feel(self) {
        let held = self.grip.try_get_untracked().flatten();
        let Some(held) = held.filter(|held| held.pull.is_none()) else {
            return;
        };
        let pull = self.pull(&held);
        self.grip.update_untracked(|grip| {
            if let Some(grip) = grip {
                grip.pull = pull;
            }
        });
        self.tracing.prepare();
    }

    /// How the held size is pulled; nothing when it does not stand on the sheet.
    fn pull(self, held: &Grip) -> Option<Pull> {
        let design = self.workspace.design.get_untracked();
        let now = design.size(held.dim)?;
        let setting = Setting {
            still: Some(held.still),
            ..self.setting.get_untracked()
        };
        let larger = now.with_number(now.number() + TRIAL);
        let larger = design.apply(Edit::Set(held.dim, larger));
        let system = self.workspace.system.get_untracked();
        let larger = larger
            .build()
            .ok()
            .map(|solid| layout(&draw(&solid, &larger, None, system), &setting));
        let own = |laid: &Laid| {
            let mut sizes = laid.sizes.iter();
            sizes.find(|size| size.key == Key::Size(held.dim)).cloned()
        };
        let larger = larger.as_ref().and_then(own);
        let size = self.laid.with_untracked(own)?;
        let length = matches!(now, Measure::Length(_));
        Some(pull(
            &size,
            held.at,
            larger.as_ref(),
            held.still.scale,
            length,
        ))
    }

    /// Follows the pointer that holds a size.
    pub fn follow(self, event: &PointerEvent) {
        let Some(mut held) = self.grip.get_untracked() else {
            return;
        };
        if held.pointer != event.pointer_id() || held.given_up {
            return;
        }
        if event.buttons() == 0 {
            // It was let go where nothing was listening.
            self.let_go(true);
            return;
        }
        let now = client(event);
        let way = [0, 1].map(|k| now[k] - held.from[k]);
        if !held.moved {
            if way[0].hypot(way[1]) < SLACK {
                return;
            }
            self.feel();
            held.pull = self.grip.get_untracked().and_then(|grip| grip.pull);
            held.moved = true;
            self.grip.set(Some(held));
            self.workspace.keep();
            let target = event.current_target();
            if let Some(button) = target.and_then(|target| target.dyn_into::<HtmlElement>().ok()) {
                // A pointer that is gone by now ends the drag by itself.
                let _ = button.set_pointer_capture(held.pointer);
            }
            let extent = self.laid.with_untracked(|laid| [laid.width, laid.height]);
            let setting = self.setting.get_untracked();
            fitting::begin(self.tracing, held.dim, &setting, extent);
        }
        event.prevent_default();
        let number = held.pull.map(|pull| held.start + pull.of(way));
        let size = number.and_then(|number| self.workspace.on_the_rule(held.dim, number));
        if let Some(size) = size {
            self.tracing.slide(held.dim, size);
        }
    }

    /// Escape puts back what is being dragged.
    fn put_back_by_escape(self) {
        let listening = window_event_listener(ev::keydown, move |event| {
            let held = self.grip.get_untracked();
            let held = held.filter(|held| held.moved && !held.given_up);
            if let (Some(held), "Escape") = (held, event.key().as_str()) {
                self.tracing.end();
                self.workspace.put_back();
                self.grip.set(Some(Grip {
                    given_up: true,
                    ..held
                }));
            }
        });
        on_cleanup(move || listening.remove());
    }

    /// Lets go: what was dragged is kept as one step, or put back. Says whether it had moved.
    pub fn let_go(self, keeps: bool) -> bool {
        let Some(held) = self.grip.get_untracked() else {
            return false;
        };
        let workspace = self.workspace;
        let last = self.tracing.end();
        match (held.moved && !held.given_up, keeps) {
            (true, true) => {
                if let Some(size) = last {
                    workspace.slide(held.dim, size);
                }
                workspace.keep();
            }
            (true, false) => workspace.put_back(),
            (false, _) => {}
        }
        self.grip.set(None);
        held.moved
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Design, Part, Side, Size, starter};
    use headwright::drawing::{Base, Projection, Show, Style};
    use headwright::units::System;

    fn laid(design: &Design, still: Option<Still>) -> Laid {
        let solid = design.build().expect("a sound head");
        let setting = Setting {
            width: 1040.0,
            style: Style::Desktop,
            projection: Projection::Third,
            show: Show {
                base: Base::Key,
                open: None,
                in_hand: None,
            },
            title: [0.0; 2],
            field: None,
            zoom: 1.0,
            still,
        };
        layout(&draw(&solid, design, None, System::Metric), &setting)
    }

    fn size(laid: &Laid, dim: Dim) -> &LaidSize {
        let size = laid.sizes.iter().find(|size| size.key == Key::Size(dim));
        size.expect("it stands on the drawing")
    }

    /// How much a pull of `way` at the arrow numbered `index` changes `dim` of the rounding hammer.
    fn pulled(dim: Dim, index: usize, way: impl Fn(Point) -> Point) -> (f64, f64) {
        let design = starter("rounding").expect("a starter");
        let before = laid(&design, None);
        let now = design.size(dim).expect("a size");
        let more = now.with_number(now.number() + TRIAL);
        let after = laid(&design.apply(Edit::Set(dim, more)), Some(before.still));
        let arrow = size(&before, dim).arrows[index];
        let pull = pull(
            size(&before, dim),
            arrow.to,
            Some(size(&after, dim)),
            before.still.scale,
            true,
        );
        (pull.of(way(direction(&arrow))), before.still.scale)
    }

    #[test]
    fn an_arrow_stays_under_the_finger_that_pulls_it() {
        let ten = |way: Point| way.map(|part| 10.0 * part);
        // A reach ends where its arrow is: as far as the finger goes.
        let (by_reach, scale) = pulled(Part::End(Side::Front).size(Size::Reach), 1, ten);
        assert!((by_reach.abs() - 10.0 / scale).abs() < 1e-6, "{by_reach}");
        // Both arrows of the cheek height move: twice as far.
        let (by_height, scale) = pulled(Part::Cheeks.size(Size::Height), 0, ten);
        assert!((by_height.abs() - 20.0 / scale).abs() < 1e-6, "{by_height}");
    }

    #[test]
    fn a_finger_across_the_line_changes_nothing() {
        let (by, _) = pulled(Part::Cheeks.size(Size::Height), 0, |way| [-way[1], way[0]]);
        assert!(by.abs() < 1e-9, "{by}");
    }

    #[test]
    fn a_size_without_an_arrow_that_moves_is_pulled_by_its_number() {
        let design = starter("rounding").expect("a starter");
        let laid = laid(&design, None);
        let dim = Part::Cheeks.size(Size::Height);
        let pull = pull(size(&laid, dim), [0.0; 2], None, 4.0, true);
        assert!(pull.of([10.0, 0.0]) > 0.0 && pull.of([0.0, -10.0]) > 0.0);
    }
}
