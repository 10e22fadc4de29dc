//! Tongue, shoulder, kerf and wedges in the eye: cut along the head and across it.

use leptos::prelude::*;

use super::super::figure::path;
use super::super::state::Workspace;
use super::super::words;
use super::levels;
use super::worked::{Tool, Worked};
use headwright::handle::{HandlePart, Silhouette};
use headwright::units::System;

/// Width of the figure, px, what of it the words at the left take, and the room between the two cuts.
const WIDTH: f64 = 660.0;
const WORDS: f64 = 104.0;
const BETWEEN: f64 = 44.0;
/// Steel shown beside the widest mouth, and handle below the head, mm.
const STEEL: f64 = 8.0;
const BELOW: f64 = 14.0;
/// Rows of the wall.
const ROWS: u32 = 32;
/// Room above and below, px.
const ABOVE: f64 = 14.0;
const CAPTION: f64 = 30.0;

/// Along the head or across it.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Along,
    Across,
}

impl Way {
    const BOTH: [Self; 2] = [Self::Along, Self::Across];

    const fn words(self) -> &'static str {
        match self {
            Self::Along => "along the head",
            Self::Across => "across the head",
        }
    }

    /// Of the outline of a part.
    fn of(self, silhouette: &Silhouette) -> &[[f64; 2]] {
        match self {
            Self::Along => &silhouette.side,
            Self::Across => &silhouette.front,
        }
    }
}

/// Middle and half of the opening of the eye at height `z`, mm.
fn opening(tool: &Tool, way: Way, z: f64) -> [f64; 2] {
    let eye = &tool.solid.head().eye;
    let [x, y] = eye.centre(z);
    let level = eye.at(z);
    match way {
        Way::Along => [x, level.p],
        Way::Across => [y, level.q],
    }
}

/// The wall of the eye on one side, from the lower mouth to the upper, mm.
fn wall(tool: &Tool, way: Way, side: f64) -> Vec<[f64; 2]> {
    let [low, high] = tool.solid.head().eye.mouths;
    (0..=ROWS)
        .map(|row| {
            let z = low + (high - low) * f64::from(row) / f64::from(ROWS);
            let [middle, half] = opening(tool, way, z);
            [middle + side * half, z]
        })
        .collect()
}

/// How far the wall reaches from the handle axis, mm.
fn reach(tool: &Tool, way: Way) -> f64 {
    let both = [-1.0, 1.0].map(|side| wall(tool, way, side));
    both.iter()
        .flatten()
        .fold(0.0, |most: f64, [at, _]| most.max(at.abs()))
}

/// Where the cut lies on the sheet.
#[derive(Clone, Copy)]
struct Place {
    scale: f64,
    middle: f64,
    /// Greatest height, mm.
    top: f64,
}

impl Place {
    fn at(&self, [along, z]: [f64; 2]) -> [f64; 2] {
        [self.middle + along * self.scale, self.y(z)]
    }

    fn y(&self, z: f64) -> f64 {
        ABOVE + (self.top - z) * self.scale
    }

    fn path(&self, points: &[[f64; 2]], closed: bool) -> String {
        path(points.iter().map(|point| self.at(*point)), closed)
    }
}

/// The figure.
#[component]
pub fn Figure() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    view! {
        <div class="sideways" role="region" tabindex="0" aria-label="eye and tongue, figure">
            {move || {
                let system = workspace.system.get();
                tool.with(|tool| tool.as_ref().map(|tool| drawn(tool, system)))
            }}
        </div>
    }
}

fn drawn(tool: &Tool, system: System) -> impl IntoView + use<> {
    let made = &tool.made;
    let [low, high] = tool.solid.head().eye.mouths;
    let half = Way::BOTH.map(|way| reach(tool, way) + STEEL);
    let top = high + made.tongue.proud_mm + 1.0;
    let scale = (WIDTH - WORDS - BETWEEN) / (2.0 * (half[0] + half[1]));
    let places = [
        WORDS + half[0] * scale,
        WORDS + 2.0 * half[0] * scale + BETWEEN + half[1] * scale,
    ]
    .map(|middle| Place { scale, middle, top });
    let foot = places[0].y(low - BELOW);
    let height = foot + CAPTION;
    let levels = made.levels.iter().filter_map(|level| {
        let word = levels::word(tool, level)?;
        let y = places[0].y(level.height_mm);
        let line = format!("M{:.1} {y:.1}H{:.1}", WORDS - 8.0, WIDTH);
        Some(view! {
            <path class="level" d=line />
            <text class="word" x=WORDS - 14.0 y=y + 5.0 text-anchor="end">{word}</text>
        })
    });
    let cuts = [0, 1].map(|k| one_cut(tool, Way::BOTH[k], places[k], half[k], foot));
    let captions = [0, 1].map(|k| {
        view! {
            <text class="word" x=places[k].middle y=foot + 22.0 text-anchor="middle">
                {Way::BOTH[k].words()}
            </text>
        }
    });
    view! {
        <figure class="eye-cut">
            <svg
                viewBox=format!("0 0 {WIDTH} {height:.0}")
                role="img"
                aria-label=label(tool, system)
            >
                <defs>
                    <pattern id="steel-cut" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                        <line class="hatch" x1="0" x2="0" y1="0" y2="7" />
                    </pattern>
                    <pattern id="wedge-cut" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-60)">
                        <line class="hatch" x1="0" x2="0" y1="0" y2="5" />
                    </pattern>
                </defs>
                {cuts.into_iter().collect_view()}
                {levels.collect_view()}
                {captions.into_iter().collect_view()}
            </svg>
            <figcaption>
                "Steel is hatched one way, wedges the other; what is left open between wood and wall is a gap."
            </figcaption>
        </figure>
    }
}

/// What the figure says to those who do not see it.
fn label(tool: &Tool, system: System) -> String {
    let made = &tool.made;
    let show = |mm: f64| words::about(mm, system);
    let section = made.tongue.section;
    let mut said = format!(
        "Cuts through the eye. The tongue is {} × {} and {} long.",
        show(section.length_mm),
        show(section.width_mm),
        show(made.tongue.length_mm)
    );
    if let Some(kerf) = made.kerf {
        said.push_str(&format!(
            " The kerf is {} deep and {} wide.",
            show(kerf.depth_mm),
            show(kerf.width_mm)
        ));
    }
    for (name, wedge) in [("wedge", made.wedge), ("cross wedge", made.cross_wedge)] {
        if let Some(wedge) = wedge {
            said.push_str(&format!(
                " The {name} is {} long and {} thick.",
                show(wedge.length_mm),
                show(wedge.thick_mm)
            ));
        }
    }
    said
}

fn one_cut(tool: &Tool, way: Way, place: Place, half: f64, foot: f64) -> impl IntoView + use<> {
    let made = &tool.made;
    let outline = |part: HandlePart| {
        made.silhouettes
            .iter()
            .find(|silhouette| silhouette.part == part)
            .map(|silhouette| place.path(way.of(silhouette), true))
    };
    let steel = [-1.0, 1.0].map(|side| {
        let wall = wall(tool, way, side);
        let out = |z: f64| [side * half, z];
        let [low, high] = tool.solid.head().eye.mouths;
        let mut edge = vec![out(low)];
        edge.extend(wall);
        edge.push(out(high));
        view! {
            <path class="steel-cut" d=place.path(&edge, true) />
            <path class="cut-edge" d=place.path(&edge, false) />
        }
    });
    let wood: Vec<String> = [HandlePart::Stem, HandlePart::Tongue]
        .into_iter()
        .filter_map(outline)
        .collect();
    let end = tool.solid.head().eye.mouths[1] + made.tongue.proud_mm;
    let kerf = made.kerf.map(|kerf| {
        let half = match way {
            Way::Across => 0.5 * kerf.width_mm,
            // Between the walls of the kerf the tongue is this long.
            Way::Along => made
                .wedge
                .map_or(0.5 * made.tongue.section.length_mm, |wedge| {
                    0.5 * wedge.broad_mm
                }),
        };
        let bottom = end - kerf.depth_mm;
        let middle = |z: f64| opening(tool, way, z)[0];
        let corners = [
            [middle(bottom) - half, bottom],
            [middle(bottom) + half, bottom],
            [middle(end) + half, end],
            [middle(end) - half, end],
        ];
        view! { <path class="kerf" d=place.path(&corners, true) /> }
    });
    let wedge = outline(HandlePart::Wedge)
        .map(|d| view! { <path class="wedge-cut" d=d.clone() /><path class="wedge-hatch" d=d /> });
    let cross = outline(HandlePart::CrossWedge)
        .map(|d| view! { <path class="cross-cut" d=d.clone() /><path class="steel-cut" d=d /> });
    let clip = match way {
        Way::Along => "cut-along",
        Way::Across => "cut-across",
    };
    view! {
        <clipPath id=clip>
            <rect x=place.middle - half * place.scale y="0" width=2.0 * half * place.scale height=foot />
        </clipPath>
        <g clip-path=format!("url(#{clip})")>
            {wood.iter().map(|d| view! { <path class="wood-edge" d=d.clone() /> }).collect_view()}
            {wood.iter().map(|d| view! { <path class="wood-cut" d=d.clone() /> }).collect_view()}
            {kerf}
            {wedge}
            {cross}
            {steel.into_iter().collect_view()}
        </g>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    #[test]
    fn the_wall_runs_from_mouth_to_mouth_and_the_figure_says_its_sizes() {
        let design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        let tool = Tool::new(&solid, &design.handle).expect("usual");
        let [low, high] = solid.head().eye.mouths;
        for way in Way::BOTH {
            let wall = wall(&tool, way, 1.0);
            assert_eq!(wall.first().map(|[_, z]| *z), Some(low));
            assert_eq!(wall.last().map(|[_, z]| *z), Some(high));
            let least = wall.iter().fold(f64::MAX, |least, [at, _]| least.min(*at));
            assert!(least < reach(&tool, way), "an eye has a waist");
        }
        let said = label(&tool, System::Metric);
        let waist = words::about(2.0 * solid.head().eye.waist.p, System::Metric);
        assert!(
            said.contains(&waist) && said.contains("The kerf is"),
            "{said}"
        );
    }
}
