//! What strikes, seen from the work: its edge, the print of a centred blow, and where the blow lands.

use std::fmt::Write;

use leptos::prelude::*;

use headwright::solid::{Section, Solid, Tip};
use headwright::swing::{Patch, Striker, Surface};

/// Half of the picture, px.
const HALF: f64 = 110.0;
/// Room about the surface, px.
const ROOM: f64 = 12.0;
/// Points of a corner.
const POINTS: usize = 24;

/// The outline of a section, mm, y down.
fn outline(section: &Section<f64>) -> String {
    let mut quarter = Vec::with_capacity(POINTS + 1);
    for k in 0..=POINTS {
        // A conic from the side to the top whose middle control point has the weight.
        let t = k as f64 / POINTS as f64;
        let [p, q, r] = [
            (1.0 - t) * (1.0 - t),
            2.0 * t * (1.0 - t) * section.w,
            t * t,
        ];
        let whole = p + q + r;
        let (a, b) = (section.a, section.b);
        let y = (p * a + q * a + r * (a - section.c)) / whole;
        let z = (p * (b - section.d) + q * b + r * b) / whole;
        quarter.push([y, z]);
    }
    let mirrored = |y: f64, z: f64, turned: bool| {
        let points = quarter.iter().map(move |[py, pz]| [y * py, z * pz]);
        let mut points: Vec<[f64; 2]> = points.collect();
        if turned {
            points.reverse();
        }
        points
    };
    let all = [
        mirrored(1.0, -1.0, false),
        mirrored(-1.0, -1.0, true),
        mirrored(-1.0, 1.0, false),
        mirrored(1.0, 1.0, true),
    ];
    let mut path = String::new();
    for (k, [y, z]) in all.into_iter().flatten().enumerate() {
        let letter = if k == 0 { 'M' } else { 'L' };
        // Writing to a string cannot fail.
        let _ = write!(path, "{letter}{y:.2} {z:.2}");
    }
    path.push('Z');
    path
}

fn ellipse([across, up]: [f64; 2]) -> String {
    format!(
        "M{:.2} 0A{across:.2} {up:.2} 0 1 0 {across:.2} 0A{across:.2} {up:.2} 0 1 0 {:.2} 0Z",
        -across, -across
    )
}

/// What is drawn: the surface, the whole end about it, how both are turned, half of their greatest size.
struct Drawn {
    surface: String,
    whole: Option<String>,
    turn: f64,
    half: f64,
    words: &'static str,
}

impl Drawn {
    fn of(solid: &Solid, striker: &Striker) -> Self {
        match striker.surface {
            Surface::Face { outline: inner, .. } => {
                let whole = match &solid.head().end(striker.side).tip {
                    Tip::Face(cap) => Some(cap.outline),
                    Tip::Ball(_) | Tip::Pein(_) => None,
                };
                let size = whole.as_ref().map_or([inner.a, inner.b], |o| [o.a, o.b]);
                Self {
                    surface: outline(&inner),
                    whole: whole.as_ref().map(outline),
                    turn: 0.0,
                    half: size[0].max(size[1]),
                    words: "Outer line: the face. Inner line: where its broken edge begins.",
                }
            }
            Surface::Ball { radius_mm } => Self {
                surface: ellipse([radius_mm; 2]),
                whole: None,
                turn: 0.0,
                half: radius_mm,
                words: "The line is the ball at its widest.",
            },
            Surface::Pein {
                direction,
                nose_mm,
                half_edge_mm,
                ..
            } => Self {
                surface: format!(
                    "M{half_edge_mm:.2} {nose_mm:.2}H{:.2}V{:.2}H{half_edge_mm:.2}Z",
                    -half_edge_mm, -nose_mm
                ),
                whole: None,
                // Drawn with y down, so a turn towards z is a turn against the clock.
                turn: -direction.to_degrees(),
                half: half_edge_mm.max(nose_mm),
                words: "The line is the nose up to the corners of its edge.",
            },
        }
    }
}

/// The figure.
pub fn figure(
    solid: &Solid,
    striker: &Striker,
    [across, along]: [f64; 2],
    print: Option<Patch>,
) -> impl IntoView + use<> {
    let drawn = Drawn::of(solid, striker);
    let scale = (HALF - ROOM) / drawn.half.max(1.0);
    let turn = format!("scale({scale:.4}) rotate({:.3})", drawn.turn);
    let print = print.map(|print| {
        let half = print.lengths_mm.map(|mm| mm / 2.0);
        let round = !matches!(striker.surface, Surface::Pein { .. });
        // A flat face prints all of itself.
        let flat = matches!(striker.surface, Surface::Face { crown_mm: None, .. });
        let d = if flat {
            drawn.surface.clone()
        } else if round {
            ellipse(half)
        } else {
            format!(
                "M{0:.2} {1:.2}H{2:.2}V{3:.2}H{0:.2}Z",
                half[0], half[1], -half[0], -half[1]
            )
        };
        view! { <path class="print" d=d /> }
    });
    let (x, y) = (across * scale, -along * scale);
    let size = 2.0 * HALF;
    view! {
        <figure class="face-picture">
            <svg
                viewBox=format!("{0} {0} {size} {size}", -HALF)
                role="img"
                aria-label="What strikes, seen from the work, with the print of a centred blow and the place of the blow"
            >
                <defs>
                    <clipPath id="print-clip">
                        <path d=drawn.surface.clone() />
                    </clipPath>
                </defs>
                <g transform=turn>
                    {drawn.whole.map(|d| view! { <path class="whole" d=d /> })}
                    <path class="surface" d=drawn.surface />
                    <g clip-path="url(#print-clip)">{print}</g>
                </g>
                <path class="axis" d=format!("M{0} 0H{HALF}M0 {0}V{HALF}", -HALF) />
                <circle class="lands" cx=format!("{x:.1}") cy=format!("{y:.1}") r="5" />
            </svg>
            <figcaption class="soft">
                {format!("{} Hatching: the print of a centred blow in soft work. Dot: where the blow lands. The wedge side is up.", drawn.words)}
            </figcaption>
        </figure>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_round_section_is_drawn_as_a_circle() {
        let path = outline(&Section::circle(10.0));
        let numbers = path.trim_end_matches('Z').split(['M', 'L']).skip(1);
        for point in numbers {
            let mut parts = point
                .split(' ')
                .map(|n| n.parse::<f64>().expect("a number"));
            let (y, z) = (parts.next().unwrap_or(0.0), parts.next().unwrap_or(0.0));
            assert!((y.hypot(z) - 10.0).abs() < 0.02, "{point}");
        }
    }

    #[test]
    fn a_cornered_section_keeps_its_width_and_height() {
        let section = Section {
            a: 12.0,
            b: 8.0,
            c: 3.0,
            d: 2.0,
            w: 0.0,
        };
        let path = outline(&section);
        for corner in ["12.00 -6.00", "9.00 -8.00", "-12.00 6.00", "-9.00 8.00"] {
            assert!(path.contains(corner), "{corner} in {path}");
        }
    }
}
