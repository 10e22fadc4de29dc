//! Opening, drifts and eye at the waist, one inside the other.

use leptos::prelude::*;

use super::super::super::state::Workspace;
use super::Drifts;
use super::words::pair;
use headwright::drift::{Plan, SectionSize};
use headwright::units::System;

/// The picture's frame, and the room for words over the outlines, px.
const WIDTH: f64 = 440.0;
const MOST_HIGH: f64 = 260.0;
const ABOVE: f64 = 46.0;
const BESIDE: f64 = 24.0;
/// Share of the shortest half-length over which the numbers stand.
const SPREAD: f64 = 0.86;
/// Least room of a number, px.
const NUMBER: f64 = 20.0;

/// An outline of four straights and four quarters of ellipses, half-sizes in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Outline {
    p: f64,
    q: f64,
    /// Size of its corners along and across.
    corner: [f64; 2],
}

impl Outline {
    fn new(size: SectionSize, [c, d]: [f64; 2]) -> Self {
        let (p, q) = (0.5 * size.length_mm, 0.5 * size.width_mm);
        Self {
            p,
            q,
            corner: [c.clamp(0.0, p), d.clamp(0.0, q)],
        }
    }

    /// Half its width at the distance `x` from its middle.
    fn half_width(&self, x: f64) -> f64 {
        let [c, d] = self.corner;
        let over = x.abs() - (self.p - c);
        if over <= 0.0 || c <= 0.0 {
            return self.q;
        }
        let share = (over / c).min(1.0);
        self.q - d + d * (1.0 - share * share).max(0.0).sqrt()
    }

    /// The point that a number over `x` belongs to: right below it where the outline is long enough.
    fn point(&self, x: f64) -> [f64; 2] {
        let most = SPREAD * self.p;
        let x = x.clamp(-most, most);
        [x, self.half_width(x)]
    }

    fn path(&self, [x, y]: [f64; 2], scale: f64) -> String {
        let [p, q, c, d] = [self.p, self.q, self.corner[0], self.corner[1]].map(|mm| mm * scale);
        let (along, across) = (2.0 * (p - c), 2.0 * (q - d));
        format!(
            "M{:.2} {:.2}h{along:.2}a{c:.2} {d:.2} 0 0 1 {c:.2} {d:.2}v{across:.2}a{c:.2} {d:.2} 0 0 1 -{c:.2} {d:.2}h-{along:.2}a{c:.2} {d:.2} 0 0 1 -{c:.2} -{d:.2}v-{across:.2}a{c:.2} {d:.2} 0 0 1 {c:.2} -{d:.2}z",
            x - p + c,
            y - q
        )
    }
}

/// The opening, then what every drift opens; the last is the eye.
fn outlines(plan: &Plan) -> Vec<Outline> {
    let slot = plan.opening.size;
    let round = 0.5 * slot.length_mm.min(slot.width_mm);
    let corner = if plan.opening.shape == "rectangular" {
        0.0
    } else {
        round
    };
    let drifts = plan
        .drifts
        .iter()
        .map(|drift| Outline::new(drift.section, drift.corner_mm));
    std::iter::once(Outline::new(slot, [corner; 2]))
        .chain(drifts)
        .collect()
}

/// Where the number of outline `index` of `count` stands from the middle, mm.
fn place(index: usize, count: usize, half: f64) -> f64 {
    if count < 2 {
        return 0.0;
    }
    half * (2.0 * index as f64 / (count - 1) as f64 - 1.0)
}

/// The words over outline `index`.
fn number(plan: &Plan, index: usize) -> String {
    match index {
        0 if plan.opening.shape == "slit" => "slit".to_owned(),
        0 => "slot".to_owned(),
        last if last == plan.drifts.len() => format!("{last}, eye"),
        drift => drift.to_string(),
    }
}

fn said(plan: &Plan, system: System) -> String {
    let drifts: Vec<String> = plan
        .drifts
        .iter()
        .map(|drift| pair(drift.section, system))
        .collect();
    format!(
        "Seen along the handle at the waist, one inside the other: the opening {}, then the drifts {}.",
        pair(plan.opening.size, system),
        drifts.join(", ")
    )
}

/// The figure; nothing while no drifts can be worked out.
#[component]
pub fn Nested(
    /// The drifts.
    drifts: Signal<Drifts>,
) -> impl IntoView {
    let system = Workspace::here().system;
    move || {
        drifts.with(|drifts| {
            let plan = drifts.as_ref().ok()?;
            let outlines = outlines(plan);
            let most = |size: fn(&Outline) -> f64| outlines.iter().map(size).fold(1.0, f64::max);
            let (p, q) = (most(|o| o.p), most(|o| o.q));
            let scale = ((WIDTH - 2.0 * BESIDE) / (2.0 * p)).min((MOST_HIGH - ABOVE - BESIDE) / (2.0 * q));
            let middle = [0.5 * WIDTH, ABOVE + q * scale];
            let height = ABOVE + 2.0 * q * scale + BESIDE;
            let shortest = outlines.iter().map(|o| o.p).fold(p, f64::min);
            let count = outlines.len();
            let half = (SPREAD * shortest).max(0.5 * NUMBER * (count - 1) as f64 / scale);
            let base = ABOVE - 22.0;
            let last = count - 1;
            let drawn = outlines.iter().enumerate().map(|(index, outline)| {
                let class = match index {
                    0 => "opening",
                    index if index == last => "eye",
                    _ => "drift",
                };
                view! { <path class=class d=outline.path(middle, scale) /> }
            });
            let numbers = outlines.iter().enumerate().map(|(index, outline)| {
                let at = place(index, count, half);
                let x = middle[0] + at * scale;
                let [along, across] = outline.point(at);
                let [px, py] = [middle[0] + along * scale, middle[1] - across * scale];
                let anchor = match index {
                    0 => "end",
                    index if index == last => "start",
                    _ => "middle",
                };
                let aside = match index {
                    0 => 5.0,
                    index if index == last => -5.0,
                    _ => 0.0,
                };
                view! {
                    <path class="leader" d=format!("M{x:.1} {:.1}L{px:.1} {py:.1}", base + 6.0) />
                    <circle class="point" cx=format!("{px:.1}") cy=format!("{py:.1}") r="2.6" />
                    <text class="figure" x=format!("{:.1}", x + aside) y=base text-anchor=anchor>
                        {number(plan, index)}
                    </text>
                }
            });
            let [x, y] = middle;
            let (along, across) = (p * scale + 12.0, q * scale + 12.0);
            Some(view! {
                <figure class="nested">
                    <svg viewBox=format!("0 0 {WIDTH} {height:.0}") role="img" aria-label=said(plan, system.get())>
                        {drawn.collect_view()}
                        <path
                            class="axis-under"
                            d=format!("M{:.1} {y:.1}h{:.1}M{x:.1} {:.1}v{:.1}", x - along, 2.0 * along, y - across, 2.0 * across)
                        />
                        {numbers.collect_view()}
                    </svg>
                    <figcaption class="soft">"at the waist, to scale, the head’s length from left to right"</figcaption>
                </figure>
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OBROUND: Outline = Outline {
        p: 14.0,
        q: 9.0,
        corner: [9.0, 9.0],
    };

    #[test]
    fn a_number_points_at_its_own_outline() {
        assert_eq!(OBROUND.half_width(0.0), 9.0);
        assert_eq!(OBROUND.half_width(5.0), 9.0);
        assert_eq!(OBROUND.half_width(14.0), 0.0);
        assert!((OBROUND.half_width(-9.5) - (81.0_f64 - 20.25).sqrt()).abs() < 1e-12);
        assert_eq!(OBROUND.point(3.0), [3.0, 9.0]);
        let [along, across] = OBROUND.point(-40.0);
        assert_eq!((along, across), (-SPREAD * 14.0, OBROUND.half_width(along)));
        let square = Outline {
            corner: [0.0, 0.0],
            ..OBROUND
        };
        assert_eq!(square.half_width(13.9), 9.0);
    }

    #[test]
    fn corners_never_pass_the_middle() {
        let size = SectionSize {
            length_mm: 10.0,
            width_mm: 4.0,
        };
        assert_eq!(Outline::new(size, [9.0, 9.0]).corner, [5.0, 2.0]);
    }

    #[test]
    fn numbers_stand_evenly_about_the_middle() {
        let places: Vec<f64> = (0..5).map(|index| place(index, 5, 8.0)).collect();
        assert_eq!(places, [-8.0, -4.0, 0.0, 4.0, 8.0]);
        assert_eq!(place(0, 1, 8.0), 0.0);
    }
}
