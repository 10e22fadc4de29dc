//! A starter, and what becomes of it when a weight is wanted.

use std::ops::RangeInclusive;
use std::time::Duration;

use leptos::prelude::*;

use super::super::fitting::Arrival;
use super::super::history::Standing;
use super::super::later::Later;
use super::super::settle::settle;
use super::super::silhouette::Silhouette;
use super::super::state::Workspace;
use super::super::words;
use headwright::design::{Design, Edit, Hold, Part, Quantity, Size};
use headwright::fit::{Effort, Outcome};
use headwright::mass::mass_properties;
use headwright::units::{Mass, System, show_mass};

/// A starter brought to a weight, or as near to it as its limits let it.
#[derive(Clone, Debug, PartialEq)]
pub struct Brought {
    /// What was wanted.
    wanted: Mass,
    /// The head that came of it, with its weight and balance held.
    pub design: Design,
    /// Its side view.
    view: Silhouette,
    /// What it weighs, kg.
    pub kg: f64,
    /// Where it balances, mm.
    balance: f64,
    /// Whether weight and balance are as they are held.
    pub is_met: bool,
    /// Whether all of it was drawn larger or smaller, the eye too.
    pub is_redrawn: bool,
}

impl Brought {
    /// How it stands to what was wanted, beside what it weighs as drawn, kg.
    pub fn words(&self, drawn_kg: f64, system: System) -> String {
        let drawn = show_mass(drawn_kg, system);
        let wanted = show_mass(self.wanted.in_kg(), system);
        if self.is_met && self.is_redrawn {
            let way = if self.kg > drawn_kg {
                "larger"
            } else {
                "smaller"
            };
            format!("held; all of it {way}, the eye too; {drawn} as drawn")
        } else if self.is_met {
            format!("held; {drawn} as drawn")
        } else if show_mass(self.kg, system) == wanted {
            let balance = words::about(self.balance.abs(), system);
            format!("out of balance by {balance}; {drawn} as drawn")
        } else {
            format!(
                "can’t come to {wanted} within its limits, this is the nearest; {drawn} as drawn"
            )
        }
    }
}

/// How far all of a starter is drawn larger or smaller: beyond that it is another hammer (common practice, no source).
const REDRAWN: RangeInclusive<f64> = 0.7..=1.4;
/// What the cheeks may grow by before they are out of proportion to the faces (common practice, no source).
const MOST_GROWN: f64 = 1.12;

/// `starter`, which weighs `drawn` kg, with the weight `wanted` and the balance in the middle of the eye held; nothing
/// when no head came of it.
///
/// Reaches and cheeks go there as far as faces and cheeks stay in proportion; farther off all of it is drawn larger or
/// smaller first. Its handle is the usual one for what came of it.
fn brought(starter: &Design, drawn: f64, wanted: Mass) -> Option<Brought> {
    let as_drawn = held(starter, wanted, false);
    let share = (wanted.in_kg() / drawn).cbrt();
    let in_proportion = as_drawn
        .as_ref()
        .is_some_and(|came| came.is_met && grown(starter, &came.design) <= MOST_GROWN);
    if in_proportion || !REDRAWN.contains(&share) {
        return as_drawn;
    }
    let redrawn = held(&starter.in_proportion(share), wanted, true);
    if redrawn.as_ref().is_some_and(|came| came.is_met) {
        return redrawn;
    }
    let off = |came: &Brought| (came.kg - wanted.in_kg()).abs();
    [redrawn, as_drawn]
        .into_iter()
        .flatten()
        .min_by(|a, b| off(a).total_cmp(&off(b)))
}

/// How much higher or wider the cheeks of `after` are than those of `before`, the greater of both.
fn grown(before: &Design, after: &Design) -> f64 {
    [Size::Width, Size::Height]
        .map(|size| Part::Cheeks.size(size))
        .into_iter()
        .filter_map(|dim| Some(after.size(dim)?.number() / before.size(dim)?.number()))
        .fold(0.0, f64::max)
}

fn held(design: &Design, wanted: Mass, is_redrawn: bool) -> Option<Brought> {
    let start = Standing {
        design: design.with_cheeks_around(),
        fitted: None,
        moved: None,
    };
    let after = settle(&start, &hold(wanted), Effort::Thorough);
    let solid = after.design.build().ok()?;
    let weighed = mass_properties(&solid);
    let mut design = after.design;
    design.handle = design.usual_handle();
    Some(Brought {
        wanted,
        view: Silhouette::of(&solid),
        kg: weighed.mass,
        balance: weighed.balance(),
        is_met: after.fitted.is_some_and(|fit| fit.outcome == Outcome::Met),
        is_redrawn,
        design,
    })
}

/// The hold of a weight, which takes the balance along.
pub fn hold(wanted: Mass) -> Edit {
    let hold = Hold::About {
        value: wanted,
        tolerance: None,
    };
    Edit::hold(Quantity::Mass, hold)
}

/// A starter on the sheet.
#[derive(Clone)]
pub struct Begin {
    /// As it is drawn.
    pub design: Design,
    /// What that weighs, kg.
    pub kg: f64,
    /// What is wanted of it.
    wanted: Signal<Option<Mass>>,
    /// What it was last brought to.
    last: RwSignal<Option<Brought>>,
    /// What came of it for what is wanted now, once that is worked out.
    pub came: Memo<Option<Brought>>,
    /// The side view of what is shown.
    pub view: Memo<Silhouette>,
}

impl Begin {
    /// `design` as a starter of which `wanted` is wanted; nothing when it is no head.
    pub fn new(design: Design, wanted: Signal<Option<Mass>>) -> Option<Self> {
        let solid = design.build().ok()?;
        let kg = mass_properties(&solid).mass;
        let drawn = Silhouette::of(&solid);
        let last = RwSignal::new(None::<Brought>);
        let came = Memo::new(move |_| {
            let wanted = wanted.get();
            last.get().filter(|came| Some(came.wanted) == wanted)
        });
        let view = Memo::new(move |_| {
            came.with(|came| came.as_ref().map(|came| came.view.clone()))
                .unwrap_or_else(|| drawn.clone())
        });
        Some(Self {
            design,
            kg,
            wanted,
            last,
            came,
            view,
        })
    }

    /// The head that choosing it gives, and the name of that step.
    pub fn chosen(&self, system: System) -> (String, Design) {
        let name = self.design.name.clone();
        let wanted = self.wanted.get_untracked();
        let came = self.came.get_untracked();
        let came = came.or_else(|| brought(&self.design, self.kg, wanted?));
        match came {
            None => (name, self.design.clone()),
            Some(came) => {
                let weight = show_mass(came.wanted.in_kg(), system);
                (format!("{name} at {weight}"), came.design)
            }
        }
    }
}

/// How long the weight rests before the starters are brought to it.
const REST: Duration = Duration::from_millis(200);

/// Brings every starter to what is wanted, one in each turn, so that the page goes on meanwhile.
pub fn bring_all(begins: &[Begin], workspace: Workspace) {
    let begins = StoredValue::new(begins.to_vec());
    let later = Later::new();
    Effect::new(
        move || match (workspace.wanted.get(), workspace.fit_file.get()) {
            (Some(mass), Arrival::Here) => bring(begins, 0, mass, later, REST),
            _ => later.stop(),
        },
    );
}

fn bring(begins: StoredValue<Vec<Begin>>, index: usize, to: Mass, later: Later, rest: Duration) {
    later.start(rest, move || {
        let begin = begins.try_with_value(|all| all.get(index).cloned());
        if let Some(begin) = begin.flatten() {
            begin.last.set(brought(&begin.design, begin.kg, to));
            bring(begins, index + 1, to, later, Duration::ZERO);
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{starter, starter_names};

    fn kg(design: &Design) -> f64 {
        mass_properties(&design.build().expect("sound")).mass
    }

    #[test]
    fn a_starter_comes_to_a_weight_near_its_own_and_balances() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            let drawn = kg(&design);
            let came = brought(&design, drawn, Mass::kg(1.08 * drawn)).expect("a head");
            assert!(came.is_met, "{name}");
            assert!(
                (came.kg - 1.08 * drawn).abs() <= 1e-4,
                "{name}: {}",
                came.kg
            );
            assert!(came.balance.abs() <= 0.01, "{name}: {}", came.balance);
            assert_eq!(came.design.name, design.name);
        }
    }

    #[test]
    fn a_starter_far_from_its_weight_keeps_faces_and_cheeks_in_proportion_and_its_handle_follows() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            let drawn = kg(&design);
            let across = |design: &Design| {
                let cheeks = [Size::Width, Size::Height].map(|size| Part::Cheeks.size(size));
                let least = cheeks.map(|dim| design.size(dim).expect("cheeks").number());
                design.most_across_mm() / least[0].min(least[1])
            };
            for share in [0.45, 0.6, 0.75, 0.9, 1.1, 1.35, 1.7, 2.2] {
                let came = brought(&design, drawn, Mass::kg(share * drawn)).expect("a head");
                let said = format!("{name} at {share}: {}", across(&came.design));
                assert!(across(&came.design) < 1.0 + 1e-6, "{said}");
                assert!(across(&came.design) > 0.85 * across(&design), "{said}");
                // Much lighter, the steel that an eye needs about it may be too much.
                assert!(came.is_met || share < 0.6, "{said}");
                assert_eq!(came.design.handle, came.design.usual_handle(), "{said}");
            }
        }
    }

    #[test]
    fn what_was_drawn_larger_or_smaller_says_so() {
        let design = starter("cross").expect("a starter");
        let drawn = kg(&design);
        let said = |share: f64| {
            let came = brought(&design, drawn, Mass::kg(share * drawn)).expect("a head");
            came.words(drawn, System::Metric)
        };
        assert_eq!(said(1.02), "held; 1.122 kg as drawn");
        assert_eq!(
            said(2.0),
            "held; all of it larger, the eye too; 1.122 kg as drawn"
        );
        assert_eq!(
            said(0.5),
            "held; all of it smaller, the eye too; 1.122 kg as drawn"
        );
    }

    #[test]
    fn a_weight_out_of_reach_gives_the_nearest_head_and_says_so() {
        let design = starter("light").expect("a starter");
        let came = brought(&design, kg(&design), Mass::kg(9.0)).expect("a head");
        assert!(!came.is_met);
        assert!((0.5..2.0).contains(&came.kg), "{}", came.kg);
        let said = came.words(0.5, System::Metric);
        assert!(
            said.starts_with("can’t come to 9.000 kg within its limits"),
            "{said}"
        );
    }
}
