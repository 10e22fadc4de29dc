//! The tool from the side: butt, grip, balance point, centre of percussion and the line of the blow.

use std::fmt::Write;

use leptos::prelude::*;

use super::super::super::silhouette::Silhouette;
use super::super::super::words;
use super::super::present::Hammer;
use headwright::design::Side;
use headwright::units::{System, unit_word};

/// Width of the picture, px.
const WIDTH: f64 = 560.0;
/// Room at the left for the names, and at the right, px.
const LEFT: f64 = 16.0;
const RIGHT: f64 = 24.0;
/// From row to row of sizes, px.
const ROW: f64 = 34.0;

/// A place along the handle.
struct Mark {
    name: &'static str,
    /// From the butt, mm.
    from_butt: f64,
    class: &'static str,
}

/// What is marked, from the butt on.
fn marks(hammer: &Hammer, side: Side) -> Vec<Mark> {
    let tool = &hammer.tool;
    let butt = length_below_eye(hammer);
    let grip = hammer.made.grip_mm;
    let grip = butt - grip.iter().map(|mm| mm * mm).sum::<f64>().sqrt();
    let mark = |name, from_butt, class| Mark {
        name,
        from_butt,
        class,
    };
    let mut marks = vec![
        mark("grip", grip, "grip"),
        mark("balance point", tool.balance_from_butt_mm, "balance-point"),
        mark(
            "centre of percussion",
            grip + tool.percussion_mm,
            "percussion",
        ),
        mark(
            "line of the blow",
            grip + tool.end(side).line_mm,
            "blow-line",
        ),
    ];
    marks.sort_by(|a, b| a.from_butt.total_cmp(&b.from_butt));
    marks
}

/// From the butt to the middle of the eye, mm.
fn length_below_eye(hammer: &Hammer) -> f64 {
    let butt = hammer.made.butt_mm;
    butt.iter().map(|mm| mm * mm).sum::<f64>().sqrt()
}

/// The tool lying level, its striking end down, with running sizes from the butt.
pub fn figure(hammer: &Hammer, side: Side, system: System) -> impl IntoView + use<> {
    let view = Silhouette::of(&hammer.solid);
    let butt = length_below_eye(hammer);
    let tip = hammer
        .made
        .outline
        .last()
        .map_or(0.0, |at| at.along_mm)
        .max(view.half_height);
    let scale = (WIDTH - LEFT - RIGHT) / (butt + tip);
    let (up, down) = match side {
        Side::Front => (-view.ends.0, view.ends.1),
        Side::Back => (view.ends.1, -view.ends.0),
    };
    let axis = 14.0 + up * scale;
    let x = |from_butt: f64| LEFT + from_butt * scale;
    let below = axis + down * scale + 34.0;
    let place = match side {
        Side::Front => format!(
            "matrix(0 {scale:.4} -{scale:.4} 0 {:.2} {axis:.2})",
            x(butt)
        ),
        Side::Back => format!(
            "matrix(0 -{scale:.4} -{scale:.4} 0 {:.2} {axis:.2})",
            x(butt)
        ),
    };
    let mut handle = String::new();
    let upper = hammer
        .made
        .outline
        .iter()
        .map(|at| (at.along_mm, at.half_depth_mm));
    let lower = hammer
        .made
        .outline
        .iter()
        .rev()
        .map(|at| (at.along_mm, -at.half_depth_mm));
    for (k, (along, half)) in upper.chain(lower).enumerate() {
        let letter = if k == 0 { 'M' } else { 'L' };
        // Writing to a string cannot fail.
        let _ = write!(
            handle,
            "{letter}{:.1} {:.1}",
            x(butt + along),
            axis + half * scale
        );
    }
    handle.push('Z');
    let marks = marks(hammer, side);
    let rows = marks.iter().enumerate().map(|(row, mark)| {
        let y = below + ROW * row as f64;
        let at = x(mark.from_butt);
        let text = format!("{} {}", mark.name, words::about_number(mark.from_butt, system));
        view! {
            <path class="extension" d=format!("M{at:.1} {axis:.1}V{:.1}", y + 6.0) />
            <path class="dim" d=format!("M{LEFT:.1} {y:.1}H{at:.1}") />
            <path class="arrow" d=format!("M{at:.1} {y:.1}l-10 -2.5v5z") />
            <text class="size" x=format!("{:.1}", LEFT + 8.0) y=format!("{:.1}", y - 6.0)>{text}</text>
        }
    });
    let height = below + ROW * (marks.len() as f64 - 1.0) + 14.0;
    let said: Vec<String> = marks
        .iter()
        .map(|mark| format!("{} {}", mark.name, words::about(mark.from_butt, system)))
        .collect();
    let dots = marks
        .iter()
        .map(|mark| sign(mark.class, x(mark.from_butt), axis, down * scale));
    view! {
        <figure class="tool-picture">
            <svg
                viewBox=format!("0 0 {WIDTH} {height:.0}")
                role="img"
                aria-label=format!("The tool from the side; from the butt: {}.", said.join(", "))
            >
                <path class="wood" d=handle />
                <g transform=place>
                    <path class="steel" d=view.outline />
                    <path class="hidden-edge" d=view.eye />
                </g>
                {rows.collect_view()}
                <path class="extension" d=format!("M{LEFT:.1} {axis:.1}V{:.1}", height - 8.0) />
                {dots.collect_view()}
            </svg>
            <figcaption class="soft">
                {format!(
                    "from the butt, in {}. Square: grip. Ring: balance point. Cross: centre of percussion. Arrow: line of the blow.",
                    unit_word(system),
                )}
            </figcaption>
        </figure>
    }
}

/// The sign of a mark on the axis.
fn sign(class: &'static str, x: f64, axis: f64, down: f64) -> impl IntoView {
    let d = match class {
        "grip" => format!("M{:.1} {:.1}h10v10h-10z", x - 5.0, axis - 5.0),
        "balance-point" => format!(
            "M{:.1} {axis:.1}a5.5 5.5 0 1 0 11 0a5.5 5.5 0 1 0 -11 0z",
            x - 5.5
        ),
        "percussion" => format!(
            "M{0:.1} {1:.1}l11 11M{0:.1} {2:.1}l11 -11",
            x - 5.5,
            axis - 5.5,
            axis + 5.5
        ),
        _ => format!(
            "M{x:.1} {:.1}V{:.1}m-4.5 0h9l-4.5 11z",
            axis - 8.0,
            axis + down + 6.0
        ),
    };
    view! { <path class=format!("sign {class}") d=d /> }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::handle::make;
    use headwright::swing::Tool;

    #[test]
    fn marks_along_the_handle_agree_with_the_tool() {
        let design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        let made = make(&solid, &design.handle).expect("a handle");
        let tool = Tool::of(&solid, &made).expect("a tool");
        let grip = design.handle.grip.in_mm();
        let hammer = Hammer { solid, made, tool };
        let marks = marks(&hammer, Side::Front);
        let at = |name: &str| {
            let mark = marks.iter().find(|mark| mark.name == name);
            mark.expect("a mark").from_butt
        };
        assert!((at("grip") - grip).abs() < 1e-6, "{}", at("grip"));
        let line = hammer.tool.end(Side::Front).line_mm;
        assert!((at("line of the blow") - at("grip") - line).abs() < 1e-9);
        assert!(at("grip") < at("balance point"));
    }
}
