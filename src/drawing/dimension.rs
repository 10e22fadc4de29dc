//! The sizes of the drawing: value, state, and how each can be drawn.

use super::anchors::Anchors;
use super::profile::{ends, middle};
use super::value::{State, Value, number};
use super::{Base, Point, Show, View};
use crate::design::{Design, Dim, Hold, Part, Quantity, Side, Size};
use crate::mass::MassProperties;
use crate::solid::Head;
use crate::units::{Amount, Length, Measure, System, show_length};

/// What a size on the drawing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Key {
    /// A dimension of the design.
    Size(Dim),
    /// Distance from the handle axis to the centroid.
    Balance,
    /// Length over all.
    Overall,
}

/// Where a dimension line may stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lane {
    /// Beyond the view on the side turned away from the other views: above the half plan, below
    /// the side view (the other way round in first angle); above or below for a face view.
    Outer,
    /// Beyond the view on the side turned to the other views.
    Inner,
    /// Left of the view.
    Left,
    /// Right of the view.
    Right,
    /// Inside the view, at this coordinate, mm.
    Inside(f64),
}

/// How a size is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// A level dimension line between two points, with upright extension lines.
    Level {
        /// Where the extension lines begin, mm.
        between: [Point; 2],
        /// Where it stands.
        lane: Lane,
    },
    /// An upright dimension line between two points, with level extension lines.
    Upright {
        /// Where the extension lines begin, mm.
        between: [Point; 2],
        /// Where it stands.
        lane: Lane,
    },
    /// A whole width in the half plan: one arrow at this point, and a line that runs past the
    /// axis of symmetry.
    Half {
        /// Where the arrow's extension line begins, mm.
        to: Point,
        /// Where it stands.
        lane: Lane,
    },
    /// A leader to a point.
    Leader {
        /// Where the arrow stands, mm.
        tip: Point,
        /// Outwards at the tip.
        normal: Point,
    },
    /// The balance: a level line over the side view, a line down to the centroid.
    Balance {
        /// Centroid, mm.
        centroid: Point,
    },
}

/// A size that can stand on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// What it is.
    pub key: Key,
    /// Its value, mm.
    pub mm: f64,
    /// Its text.
    pub value: Value,
    /// What stands before the state's word where the place alone does not say what is meant.
    pub label: &'static str,
    /// What it is to the fit.
    pub state: State,
    /// What is read aloud: "cheek length 42 mm, free".
    pub spoken: String,
    /// How it can be drawn, best first. A layout takes those of the views that it shows.
    pub forms: Vec<(View, Form)>,
}

impl Dimension {
    /// Gives it another state, in the text as in what is read aloud.
    pub(super) fn say(&mut self, state: State) {
        if let Some(named) = self.spoken.strip_suffix(self.state.word()) {
            self.spoken = format!("{named}{}", state.word());
        }
        self.state = state;
    }

    pub(super) fn is_shown(&self, show: Show) -> bool {
        let Key::Size(dim) = self.key else {
            return show.base != Base::None || self.key == Key::Overall;
        };
        let by_base = match show.base {
            Base::All => true,
            Base::Key => is_key(dim),
            Base::None => false,
        };
        let by_part = show.open.is_some_and(|part| belongs(dim.part, part));
        // Beside all the others a zero that nobody is working on says nothing.
        let idle = matches!(dim.size, Size::Offset | Size::WaistHeight) && self.mm == 0.0;
        let quiet = idle && show.base == Base::Key;
        ((by_base || by_part) && !quiet) || show.in_hand == Some(dim)
    }
}

/// The sizes that say what head it is.
fn is_key(dim: Dim) -> bool {
    match dim.part {
        Part::EyeTop | Part::EyeWaist => true,
        Part::Cheeks => dim.size != Size::Swell,
        Part::End(_) => dim.size == Size::Reach,
        Part::Face(_) => matches!(
            dim.size,
            Size::Width | Size::Height | Size::Land | Size::Crown
        ),
        Part::Ball(_) => dim.size == Size::Diameter,
        Part::Pein(_) => matches!(dim.size, Size::Edge | Size::Direction | Size::Nose),
        Part::Lugs | Part::Eye | Part::EyeBottom | Part::Neck(..) => false,
    }
}

/// Whether the sizes of `part` are shown when `open` is open.
fn belongs(part: Part, open: Part) -> bool {
    let group = |part| match part {
        Part::EyeTop | Part::EyeWaist | Part::EyeBottom => Part::Eye,
        Part::Face(side) | Part::Ball(side) | Part::Pein(side) => Part::End(side),
        Part::Lugs => Part::Cheeks,
        other => other,
    };
    group(part) == group(open)
}

/// A value counts as on its limit within this, mm: what the fit's step would not move.
const AT_LIMIT: f64 = 1e-6;

pub(super) fn dimensions(
    head: &Head<f64>,
    design: &Design,
    properties: Option<&MassProperties>,
    system: System,
) -> Vec<Dimension> {
    let anchors = Anchors { head, design };
    let unit = crate::units::unit_word(system);
    let mut dimensions: Vec<Dimension> = design
        .sizes()
        .into_iter()
        .map(|(dim, size)| {
            let state = match design.range(dim) {
                None => State::Locked,
                Some(range) => {
                    let off = |limit: Measure| (size.number() - limit.number()).abs();
                    State::Free {
                        at_limit: off(range.low).min(off(range.high)) < AT_LIMIT,
                    }
                }
            };
            let (before, after) = anchors.signs(dim);
            let value = Value {
                before,
                number: match size {
                    Measure::Length(length) => number(length.in_mm(), system),
                    Measure::Angle(_) => number(size.number(), System::Metric),
                },
                after,
                derived: false,
            };
            Dimension {
                key: Key::Size(dim),
                mm: size.number(),
                label: label(dim),
                spoken: format!("{} {}, {}", dim.words(), size.words(system), state.word()),
                value,
                state,
                forms: anchors.forms(dim),
            }
        })
        .collect();
    if let Some(properties) = properties {
        dimensions.push(balance(design, properties, system));
    }
    let [back, front] = ends(head);
    let mm = front - back;
    let value = Value {
        before: "",
        number: number(mm, system),
        after: "",
        derived: true,
    };
    let state = held(
        design.holds.length,
        Quantity::Length,
        mm,
        |length| length,
        system,
    );
    let named = format!(
        "length over all {} {unit}",
        show_length(Length::mm(mm), system)
    );
    dimensions.push(Dimension {
        key: Key::Overall,
        mm,
        label: "",
        spoken: match state.word() {
            "" => format!("{named}, follows"),
            word => format!("{named}, {word}"),
        },
        value,
        state,
        forms: vec![(
            View::Side,
            Form::Level {
                between: [
                    [back, middle(head.end(Side::Back), -back)],
                    [front, middle(head.end(Side::Front), front)],
                ],
                lane: Lane::Outer,
            },
        )],
    });
    dimensions
}

fn label(dim: Dim) -> &'static str {
    match dim.size {
        Size::Offset => "eye offset",
        Size::WaistHeight => "waist height",
        Size::CornerAcross => "across",
        Size::CornerUp => "up",
        Size::Swell => "swell",
        Size::Drop => "drop",
        Size::CockAlong => "cock along",
        Size::CockAcross => "cock across",
        Size::Hollow => "hollow",
        _ => "",
    }
}

fn balance(design: &Design, properties: &MassProperties, system: System) -> Dimension {
    let at = properties.balance();
    let shown = |mm: f64| show_length(Length::mm(rounded(mm)), system);
    let tenths = |mm: Length| mm.with_mm(rounded(mm.in_mm()));
    let state = held(design.holds.balance, Quantity::Balance, at, tenths, system);
    let way = if at >= 0.0 {
        "towards the front face"
    } else {
        "towards the back face"
    };
    let unit = crate::units::unit_word(system);
    let mut spoken = format!("balance {} {unit} {way}", shown(at.abs()));
    if !state.word().is_empty() {
        spoken = format!("{spoken}, {}", state.word());
    }
    Dimension {
        key: Key::Balance,
        mm: at,
        value: Value {
            before: "",
            number: number(rounded(at.abs()), system),
            after: "",
            derived: false,
        },
        label: "balance",
        state,
        spoken,
        forms: vec![(
            View::Side,
            Form::Balance {
                centroid: [at, properties.centroid[2]],
            },
        )],
    }
}

/// The state of what `hold` is on, which is `at`, mm; its amounts are told as `told` gives them.
fn held(
    hold: Option<Hold<Length>>,
    quantity: Quantity,
    at: f64,
    told: fn(Length) -> Length,
    system: System,
) -> State {
    let Some(hold) = hold else {
        return State::Derived;
    };
    let amount = |length: Length| Amount::Length(told(length));
    let words = format!("held {}", hold.map(amount).words(system));
    let (low, high) = hold.map(Length::in_mm).ends(quantity.default_tolerance());
    let out = (low - at).max(at - high);
    // A head from a link, whose sizes are rounded, may have been on the very edge.
    if out > 0.1 * quantity.default_tolerance() {
        // From the value held where no tolerance is written, as it is said everywhere.
        let off = match hold {
            Hold::About {
                value,
                tolerance: None,
            } => (at - value.in_mm()).abs(),
            _ => out,
        };
        let out = show_length(Length::mm(rounded(off.max(0.1))), system);
        State::Problem(format!("{words}, out by {out}"))
    } else {
        State::Held(words)
    }
}

/// A balance is shown to a tenth of a millimetre: nobody hangs a head finer than that.
fn rounded(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}
