//! What was typed of a hammer that exists, and the readings that it makes.

use serde::{Deserialize, Serialize};

use headwright::design::{Design, Dim, LONGEST_NAME, starter};
use headwright::fit::Accuracy;
use headwright::handle::make;
use headwright::log::existing::Rest;
use headwright::log::{Precision, Reading, Readings, WITHIN_KG, Weighing};
use headwright::units::{Length, Mass, Measure, System, show_mass};

/// How far the reckoned weight of a handle may be off, as a share (a guess: wood of one kind differs by as much).
const HANDLE_OFF: f64 = 0.1;

/// What becomes of the sizes that were not measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Others {
    /// They grow and shrink together.
    #[default]
    InProportion,
    /// They stay as drawn.
    Stay,
    /// The free ones are fitted to the weight.
    ToWeight,
}

impl Others {
    /// All, each with the word of its press.
    pub const ALL: [(Self, &str); 3] = [
        (Self::InProportion, "follow in proportion"),
        (Self::Stay, "stay as drawn"),
        (Self::ToWeight, "are fitted to the weight"),
    ];

    /// What the core calls it.
    pub const fn rest(self) -> Rest {
        match self {
            Self::InProportion => Rest::InProportion,
            Self::Stay => Rest::AsItIs,
            Self::ToWeight => Rest::ToWeight,
        }
    }
}

/// What was typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Draft {
    /// The starter that has its shape; without one the head on the sheet has.
    pub from: Option<String>,
    /// The head that was on the sheet when what came of this was put there, as the text of its file: it has the shape since.
    pub began_with: Option<String>,
    /// What the scale showed.
    pub mass: Option<Mass>,
    /// Whether its handle was on.
    pub with_handle: bool,
    /// What the handle weighs; without it, what is reckoned for it.
    pub handle: Option<Mass>,
    /// What the caliper showed, cold; sizes that the shape does not have wait for one that has.
    pub sizes: Vec<(Dim, Measure)>,
    /// What becomes of the others.
    pub others: Others,
    /// How far off the caliper may be.
    pub caliper: Option<Length>,
    /// How far off the scale may be.
    pub scale: Option<Mass>,
    /// How far off a length may be that was not measured.
    pub unmeasured: Option<Length>,
    /// What it is to be called.
    pub name: Option<String>,
}

/// What a whole hammer weighs without its handle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bare {
    /// The head.
    pub head: Mass,
    /// The handle, where it was on, kg.
    pub handle_kg: Option<f64>,
    /// How far the handle may be off, kg.
    off_kg: f64,
}

impl Draft {
    /// The head that has its shape: a starter, the one that it was compared with, or the one on the sheet.
    pub fn shape(&self, sheet: &Design) -> Design {
        let starter = self.from.as_deref().and_then(starter);
        let shape = starter.or_else(|| self.began_with());
        shape.unwrap_or_else(|| sheet.clone())
    }

    /// The head that was on the sheet when what came of this was put there.
    pub fn began_with(&self) -> Option<Design> {
        Design::from_json(self.began_with.as_deref()?).ok()
    }

    /// Another head comes onto the sheet; what was compared goes on being compared with `sheet`.
    pub fn stay_with(&mut self, sheet: &Design) {
        if self.from.is_none() && self.began_with().is_none() {
            self.began_with = Some(sheet.to_json());
        }
    }

    /// What was typed for `dim`.
    pub fn size(&self, dim: Dim) -> Option<Measure> {
        let mut sizes = self.sizes.iter();
        sizes
            .find(|(other, _)| *other == dim)
            .map(|(_, size)| *size)
    }

    /// Types a size, or takes it out.
    pub fn set(&mut self, dim: Dim, size: Option<Measure>) {
        self.sizes.retain(|(other, _)| *other != dim);
        self.sizes.extend(size.map(|size| (dim, size)));
    }

    /// The sizes that `shape` does not have.
    pub fn strangers(&self, shape: &Design) -> Vec<Dim> {
        let sizes = self.sizes.iter().map(|(dim, _)| *dim);
        sizes.filter(|dim| shape.size(*dim).is_none()).collect()
    }

    /// What it is called.
    pub fn called(&self, shape: &Design) -> String {
        match &self.name {
            Some(name) => name.clone(),
            None if shape.name.trim().is_empty() => "measured hammer".to_owned(),
            None if shape.name.ends_with(MEASURED) => shape.name.clone(),
            None => {
                let room = LONGEST_NAME - MEASURED.len();
                let name: String = shape.name.chars().take(room).collect();
                format!("{name}{MEASURED}")
            }
        }
    }

    /// The head alone, if it was weighed.
    ///
    /// # Errors
    /// A handle that weighs as much as all of it, or that nothing can be reckoned for.
    pub fn bare(&self, shape: &Design, system: System) -> Result<Option<Bare>, String> {
        let Some(mass) = self.mass else {
            return Ok(None);
        };
        if !self.with_handle {
            return Ok(Some(Bare {
                head: mass,
                handle_kg: None,
                off_kg: 0.0,
            }));
        }
        let typed = self.handle.map(|handle| (handle.in_kg(), 0.0));
        let handle = typed.or_else(|| {
            let kg = handle_kg(shape)?;
            Some((kg, HANDLE_OFF * kg))
        });
        let Some((handle_kg, off_kg)) = handle else {
            return Err(
                "What its handle weighs can’t be reckoned for this shape: type it, or weigh the head alone."
                    .to_owned(),
            );
        };
        let kg = mass.in_kg() - handle_kg;
        if kg <= 0.0 {
            return Err(format!(
                "The whole hammer is said to weigh {}, and its handle {}: nothing is left for the head. Look at both.",
                show_mass(mass.in_kg(), system),
                show_mass(handle_kg, system)
            ));
        }
        Ok(Some(Bare {
            head: mass.with_kg(kg),
            handle_kg: Some(handle_kg),
            off_kg,
        }))
    }

    /// What was measured and weighed of a hammer of this shape.
    pub fn readings(&self, shape: &Design, bare: Option<Bare>) -> Readings {
        let of_it = |(dim, _): &&(Dim, Measure)| shape.size(*dim).is_some();
        let sizes = self.sizes.iter().filter(of_it);
        let sizes = sizes.map(|(dim, size)| Reading {
            dim: *dim,
            size: *size,
            celsius: None,
        });
        Readings {
            sizes: sizes.collect(),
            weighed: bare.map(|bare| Weighing {
                mass: bare.head,
                to_come: Vec::new(),
            }),
        }
    }

    /// How far off it all may be.
    pub fn precision(&self, shape: &Design, bare: Option<Bare>) -> Precision {
        let usual = Precision::usual(shape.bar.rule);
        let scale = self.scale.unwrap_or(usual.scale);
        let off = bare.map_or(0.0, |bare| bare.off_kg).hypot(scale.in_kg());
        Precision {
            cold: self.caliper.unwrap_or(usual.cold),
            scale: scale.with_kg(off.min(WITHIN_KG.most)),
            forged: Accuracy {
                length: self.unmeasured.unwrap_or(usual.forged.length),
                ..usual.forged
            },
            ..usual
        }
    }
}

/// What the name of a measured hammer ends with.
const MEASURED: &str = ", measured";

/// What is reckoned for the handle of a head, kg.
pub fn handle_kg(shape: &Design) -> Option<f64> {
    let solid = shape.build().ok()?;
    let made = make(&solid, &shape.handle).ok()?;
    Some(made.mass_kg)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape() -> Design {
        starter("rounding").expect("a starter")
    }

    fn dim(path: &str) -> Dim {
        path.parse().expect("a dimension")
    }

    #[test]
    fn what_was_typed_is_kept_as_text() {
        let mut draft = Draft {
            from: Some("cross-pein".to_owned()),
            mass: Some(Mass::grams(1250.0)),
            with_handle: true,
            others: Others::ToWeight,
            ..Draft::default()
        };
        draft.set(dim("cheeks.width"), Some(Length::inches(1.625).into()));
        let text = serde_json::to_string(&draft).expect("plain data");
        assert_eq!(serde_json::from_str::<Draft>(&text).ok(), Some(draft));
        assert_eq!(
            serde_json::from_str::<Draft>("{}").ok(),
            Some(Draft::default())
        );
    }

    #[test]
    fn the_head_alone_is_the_whole_less_its_handle() {
        let shape = shape();
        let mut draft = Draft {
            mass: Some(Mass::grams(1250.0)),
            ..Draft::default()
        };
        let alone = |draft: &Draft| draft.bare(&shape, System::Metric);
        let kg = |draft: &Draft| alone(draft).expect("it can be").map(|it| it.head.in_kg());
        assert_eq!(kg(&draft), Some(1.25));
        draft.with_handle = true;
        let reckoned = handle_kg(&shape).expect("a handle");
        assert_eq!(kg(&draft), Some(1.25 - reckoned));
        // What is only reckoned makes the weight less sure.
        let bare = alone(&draft).expect("it can be");
        let off = draft.precision(&shape, bare).scale.in_kg();
        assert!((off - 0.001_f64.hypot(HANDLE_OFF * reckoned)).abs() < 1e-12);
        draft.handle = Some(Mass::grams(250.0));
        assert_eq!(kg(&draft), Some(1.0));
        let bare = alone(&draft).expect("it can be");
        assert_eq!(draft.precision(&shape, bare).scale.in_kg(), 0.001);
        draft.handle = Some(Mass::grams(1250.0));
        let refused = alone(&draft).expect_err("nothing is left");
        assert!(
            refused.contains("nothing is left for the head"),
            "{refused}"
        );
        draft.mass = None;
        assert_eq!(alone(&draft), Ok(None));
    }

    #[test]
    fn sizes_that_another_shape_has_wait_for_it() {
        let shape = shape();
        let mut draft = Draft::default();
        let reach = Length::mm(55.0).into();
        draft.set(dim("front.reach"), Some(reach));
        draft.set(dim("back.pein.height"), Some(reach));
        draft.set(dim("front.reach"), Some(reach));
        assert_eq!(draft.strangers(&shape), [dim("back.pein.height")]);
        let readings = draft.readings(&shape, None);
        assert_eq!(readings.sizes.len(), 1);
        assert_eq!(readings.weighed, None);
        draft.set(dim("front.reach"), None);
        assert_eq!(draft.size(dim("front.reach")), None);
    }

    #[test]
    fn what_is_put_on_the_sheet_is_not_compared_with_itself() {
        let (shape, other) = (shape(), starter("light").expect("a starter"));
        let mut draft = Draft::default();
        assert_eq!(draft.shape(&shape), shape);
        draft.stay_with(&shape);
        assert_eq!(draft.shape(&other), shape);
        draft.stay_with(&other);
        assert_eq!(draft.shape(&other), shape);
        draft.from = Some("light".to_owned());
        assert_eq!(draft.shape(&shape), other);
        let mut draft = Draft {
            from: draft.from,
            ..Draft::default()
        };
        draft.stay_with(&other);
        assert_eq!(draft.began_with, None);
    }

    #[test]
    fn the_name_of_a_measured_hammer_is_one_that_a_head_may_have() {
        let mut shape = shape();
        shape.name = "ä".repeat(LONGEST_NAME);
        let name = Draft::default().called(&shape);
        assert_eq!(name.chars().count(), LONGEST_NAME);
        assert!(name.ends_with("ä, measured"));
    }

    #[test]
    fn a_measured_hammer_is_called_so_once() {
        let mut draft = Draft::default();
        let mut shape = shape();
        shape.name = draft.called(&shape);
        assert_eq!(shape.name, "Rounding hammer, measured");
        assert_eq!(draft.called(&shape), "Rounding hammer, measured");
        draft.name = Some("Grandfather’s".to_owned());
        assert_eq!(draft.called(&shape), "Grandfather’s");
    }
}
