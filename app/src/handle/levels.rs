//! What eye and wood measure from the upper mouth to the lower, and the gaps between them.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::words;
use super::worked::{Tool, Worked};
use headwright::drift::SectionSize;
use headwright::handle::Level;
use headwright::units::{System, unit_word};

/// The word for a level, where it has one.
pub fn word(tool: &Tool, level: &Level) -> Option<&'static str> {
    let eye = &tool.solid.head().eye;
    let [bottom, top] = eye.mouths;
    let is = |height: f64| (level.height_mm - height).abs() < 1e-6;
    if is(top) {
        Some("upper mouth")
    } else if is(eye.waist_height) {
        Some("waist")
    } else if is(bottom) {
        Some("lower mouth")
    } else {
        None
    }
}

/// A gap as it is read: a dash where there is none to be seen.
fn gap(mm: f64, system: System) -> String {
    match words::about_number(mm, system) {
        none if none == "0" => "–".to_owned(),
        gap => gap,
    }
}

fn pair(size: &SectionSize, system: System) -> String {
    let [length, width] = [size.length_mm, size.width_mm].map(|mm| words::about_number(mm, system));
    format!("{length} × {width}")
}

/// The table.
#[component]
pub fn Table() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    let body = move || {
        let system = workspace.system.get();
        tool.with(|tool| {
            let tool = tool.as_ref()?;
            let top = tool.solid.head().eye.mouths[1];
            let rows = tool.made.levels.iter().rev().map(|level| {
                let depth = words::about_number(top - level.height_mm, system);
                let crush = level.crush_mm[0].max(level.crush_mm[1]);
                view! {
                    <tr class:named=word(tool, level).is_some()>
                        <th scope="row">
                            {depth}
                            {word(tool, level).map(|word| format!(", {word}"))}
                        </th>
                        <td>{pair(&level.eye, system)}</td>
                        <td>{pair(&level.wood, system)}</td>
                        <td>{gap(level.gap_along_mm, system)}</td>
                        <td>{gap(level.gap_across_mm, system)}</td>
                        <td>{gap(crush, system)}</td>
                    </tr>
                }
            });
            Some(rows.collect_view())
        })
    };
    view! {
        <div class="sideways" role="region" tabindex="0" aria-label="levels of the eye, table">
            <table class="lines levels">
                <caption>
                    {move || format!(
                        "eye and wood at each level, length × width in {}; a dash is no gap",
                        unit_word(workspace.system.get()),
                    )}
                </caption>
                <thead>
                    <tr>
                        <th scope="col">"below the upper mouth"</th>
                        <th scope="col">"eye"</th>
                        <th scope="col">"wood"</th>
                        <th scope="col">"gap along"</th>
                        <th scope="col">"gap across"</th>
                        <th scope="col">"crush"</th>
                    </tr>
                </thead>
                <tbody>{body}</tbody>
            </table>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    #[test]
    fn the_ends_of_the_levels_are_the_mouths_and_the_waist_lies_between() {
        let design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        let tool = Tool::new(&solid, &design.handle).expect("usual");
        let words: Vec<_> = tool
            .made
            .levels
            .iter()
            .filter_map(|level| word(&tool, level))
            .collect();
        assert_eq!(words, ["lower mouth", "waist", "upper mouth"]);
    }

    #[test]
    fn no_gap_is_a_dash_and_a_gap_is_read_to_a_tenth() {
        assert_eq!(gap(0.04, System::Metric), "–");
        assert_eq!(gap(0.26, System::Metric), "0.3");
        assert_eq!(gap(25.4 / 64.0, System::Imperial), "1/64");
    }
}
