//! The choice of a steel.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::apply;
use headwright::heat::{Grade, Heat, Steel as OfHeat};

/// The grade of that name.
fn grade(name: &str) -> Option<Grade> {
    Grade::ALL.into_iter().find(|grade| grade.name() == name)
}

/// Another steel begins with its usual quench and temper: those of the one before need not suit it.
pub fn forged_from(grade: Grade) -> Heat {
    Heat {
        steel: OfHeat {
            grade,
            analysis: None,
        },
        ..Heat::default()
    }
}

/// The steel, chosen among the grades.
#[component]
pub fn Steel() -> impl IntoView {
    let workspace = Workspace::here();
    let chosen = Memo::new(move |_| workspace.design.with(|d| d.heat.steel.grade));
    let choose = move |name: String| {
        if let Some(grade) = grade(&name) {
            apply(workspace, |heat| *heat = forged_from(grade));
        }
    };
    view! {
        <p class="steel-pick">
            <label for="steel">"steel"</label>
            <select
                id="steel"
                prop:value=move || chosen.get().name()
                on:change:target=move |event| choose(event.target().value())
            >
                {Grade::ALL
                    .map(|grade| {
                        view! {
                            <option value=grade.name() selected=move || chosen.get() == grade>
                                {format!("{}, {}", grade.name(), grade.words())}
                            </option>
                        }
                    })
                    .collect_view()}
            </select>
        </p>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_grade_is_found_by_its_name() {
        for every in Grade::ALL {
            assert_eq!(grade(every.name()), Some(every));
            assert_eq!(forged_from(every).steel.grade, every);
        }
        assert_eq!(grade("1046"), None);
    }
}
