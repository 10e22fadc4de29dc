//! The plan as it is reckoned.

use leptos::prelude::*;

use super::super::state::Workspace;
use headwright::heat::{Heat, HeatError, Plan, Steel, plan};

/// What follows from head and heat treatment.
#[derive(Clone, Copy)]
pub struct Worked {
    /// Why there is no plan.
    pub errors: Memo<Vec<HeatError>>,
    /// The last plan that there was, not one that was only half typed; the usual one of the grade where there was none.
    pub plan: Memo<Option<Plan>>,
}

/// The usual treatment of the grade that `heat` names.
fn usual(heat: &Heat) -> Heat {
    Heat {
        steel: Steel {
            grade: heat.steel.grade,
            analysis: None,
        },
        ..Heat::default()
    }
}

impl Worked {
    /// What follows from the head and the heat treatment of `workspace`.
    pub fn new(workspace: Workspace) -> Self {
        let heat = Memo::new(move |_| workspace.design.with(|d| d.heat));
        let of = move |heat: &Heat| workspace.sound.with(|solid| plan(solid, heat));
        let now = Memo::new(move |_| heat.with(of));
        Self {
            errors: Memo::new(move |_| now.with(|now| now.clone().err().unwrap_or_default())),
            plan: Memo::new(move |last: Option<&Option<Plan>>| {
                now.with(|now| match now {
                    Ok(plan) => Some(plan.clone()),
                    Err(_) => {
                        let before = workspace.before().map(|(_, before)| before.design.heat);
                        let before = before.and_then(|before| of(&before).ok());
                        let last = || last.cloned().flatten();
                        before
                            .or_else(last)
                            .or_else(|| heat.with(|heat| of(&usual(heat)).ok()))
                    }
                })
            }),
        }
    }

    /// That of the sheet.
    pub fn here() -> Self {
        expect_context()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::heat::Grade;

    #[test]
    fn the_usual_treatment_of_every_grade_has_a_plan() {
        let solid = starter("rounding")
            .expect("a starter")
            .build()
            .expect("sound");
        for grade in Grade::ALL {
            let heat = Heat {
                steel: Steel {
                    grade,
                    analysis: None,
                },
                ..Heat::default()
            };
            assert!(plan(&solid, &usual(&heat)).is_ok(), "{}", grade.name());
        }
    }
}
