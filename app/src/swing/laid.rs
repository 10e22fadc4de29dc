//! Heads laid eye on eye, to one scale.

use leptos::prelude::*;

use super::super::silhouette::Silhouette;
use super::super::words;
use headwright::solid::Solid;
use headwright::units::{System, unit_word};

/// Width of the picture, px.
const WIDTH: f64 = 560.0;
/// Room at the sides, px.
const SIDE: f64 = 36.0;
/// Room above the heads, for their names, px.
const TOP: f64 = 62.0;
/// From the outline to the first row of sizes, and from row to row, px.
const ROWS: [f64; 2] = [38.0, 42.0];
/// The tallest that a head is drawn, px.
const MOST_HEIGHT: f64 = 260.0;
/// Least distance of two names, px.
const NAMES_APART: f64 = 110.0;

/// A head that is laid down.
pub struct Laid {
    /// Its name.
    pub name: String,
    /// The head.
    pub solid: Solid,
}

/// All of `heads`, each told by its fill and its line, with the reaches of both ends below.
pub fn laid(heads: &[Laid], system: System) -> impl IntoView + use<> {
    let views: Vec<Silhouette> = heads
        .iter()
        .map(|head| Silhouette::of(&head.solid))
        .collect();
    let most = |of: fn(&Silhouette) -> f64| views.iter().map(of).fold(1.0, f64::max);
    let [back, front] = [most(|view| -view.ends.0), most(|view| view.ends.1)];
    let half = most(|view| view.half_height);
    let scale = ((WIDTH - 2.0 * SIDE) / (back + front)).min(MOST_HEIGHT / (2.0 * half));
    let eye = WIDTH / 2.0 + (back - front) / 2.0 * scale;
    let axis = TOP + half * scale;
    let first_row = axis + half * scale + ROWS[0];
    let height = first_row + ROWS[1] * (heads.len() as f64 - 1.0) + 16.0;
    let place = format!("translate({eye:.2} {axis:.2}) scale({scale:.4})");
    // The last lies undermost, so that every outline is seen where it is the outer one.
    let bodies = views.iter().enumerate().rev().map(|(place, view)| {
        view! { <path class=format!("laid-{place}") d=view.outline.clone() /> }
    });
    let outlines = views.iter().enumerate().map(|(place, view)| {
        view! { <path class=format!("laid-line laid-line-{place}") d=view.outline.clone() /> }
    });
    let eye_walls = views.first().map(|view| view.eye.clone());
    let sizes = views.iter().enumerate().map(|(row, view)| {
        let y = first_row + ROWS[1] * row as f64;
        let [left, right] = [view.ends.0, view.ends.1].map(|x| eye + x * scale);
        let [shown_left, shown_right] =
            [-view.ends.0, view.ends.1].map(|mm| words::about_number(mm, system));
        view! {
            <path class="extension" d=format!("M{left:.1} {axis:.1}V{:.1}M{right:.1} {axis:.1}V{:.1}", y + 6.0, y + 6.0) />
            <path class="dim" d=format!("M{left:.1} {y:.1}H{right:.1}") />
            {[(left, 1.0), (eye, -1.0), (eye, 1.0), (right, -1.0)]
                .map(|(x, way)| view! { <path class="arrow" d=arrow(x, y, way) /> })
                .into_iter()
                .collect_view()}
            <text class="size" x=f1((left + eye) / 2.0) y=f1(y - 6.0) text-anchor="middle">{shown_left}</text>
            <text class="size" x=f1((right + eye) / 2.0) y=f1(y - 6.0) text-anchor="middle">{shown_right}</text>
        }
    });
    let names = placed_names(&views, eye, scale);
    let names = heads.iter().zip(names).enumerate().map(|(row, (head, x))| {
        let y = TOP - 20.0 - 22.0 * (row % 2) as f64;
        let tip = views.get(row).map_or(x, |view| eye + view.ends.1 * scale);
        let top = axis - 8.0;
        let few = heads.len() <= 2;
        few.then(|| {
            view! {
                <path class="extension" d=format!("M{tip:.1} {top:.1}V{:.1}", y + 6.0) />
                <text class="laid-name" x=f1(x) y=f1(y) text-anchor="end">{head.name.clone()}</text>
            }
        })
    });
    let last_row = first_row + ROWS[1] * (views.len() as f64 - 1.0);
    view! {
        <figure class="laid">
            <svg viewBox=format!("0 0 {WIDTH} {height:.0}") role="img" aria-label=said(heads, &views, system)>
                {sizes.collect_view()}
                {names.collect_view()}
                <g transform=place.clone()>{bodies.collect_view()}</g>
                <g transform=place>
                    {outlines.collect_view()}
                    <path class="hidden-edge" d=eye_walls />
                </g>
                <path class="axis" d=format!("M{:.1} {axis:.1}H{:.1}", eye - back * scale - 14.0, eye + front * scale + 14.0) />
                <path class="axis" d=format!("M{eye:.1} {:.1}V{:.1}", axis - half * scale - 14.0, last_row + 6.0) />
            </svg>
            <figcaption class="soft">{format!("to one scale, sizes in {}", unit_word(system))}</figcaption>
        </figure>
    }
}

fn f1(px: f64) -> String {
    format!("{px:.1}")
}

/// A closed arrow whose tip is at `x`, pointing against `way`.
fn arrow(x: f64, y: f64, way: f64) -> String {
    format!("M{x:.1} {y:.1}l{:.1} -2.5v5z", 10.0 * way)
}

/// Where the names end: at the front tips, apart from each other.
fn placed_names(views: &[Silhouette], eye: f64, scale: f64) -> Vec<f64> {
    let mut places: Vec<f64> = Vec::new();
    for view in views {
        let wanted = (eye + view.ends.1 * scale - 6.0).clamp(NAMES_APART, WIDTH - 4.0);
        places.push(wanted);
    }
    places
}

/// The heads in words, for who does not see them.
fn said(heads: &[Laid], views: &[Silhouette], system: System) -> String {
    let each = heads.iter().zip(views).map(|(head, view)| {
        let [back, front] = [-view.ends.0, view.ends.1].map(|mm| words::about(mm, system));
        format!("{}: {front} to the front and {back} to the back", head.name)
    });
    let each: Vec<String> = each.collect();
    format!("Heads laid eye on eye. {}.", each.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    #[test]
    fn heads_that_are_laid_down_are_said_with_both_reaches() {
        let solid = starter("long").and_then(|d| d.build().ok()).expect("sound");
        let heads = [Laid {
            name: "long".to_owned(),
            solid,
        }];
        let views = [Silhouette::of(&heads[0].solid)];
        assert_eq!(
            said(&heads, &views, System::Metric),
            "Heads laid eye on eye. long: 75 mm to the front and 75 mm to the back."
        );
    }

    #[test]
    fn a_name_never_leaves_the_picture() {
        let solid = starter("long").and_then(|d| d.build().ok()).expect("sound");
        let views = [Silhouette::of(&solid)];
        for scale in [0.1, 1.0, 10.0] {
            for x in placed_names(&views, WIDTH / 2.0, scale) {
                assert!((NAMES_APART..=WIDTH).contains(&x), "{x}");
            }
        }
    }
}
