//! The sketches beside the words: a part in plain lines, and in strong ones what is meant.

use leptos::prelude::*;

use super::{Key, Term};
use headwright::design::{Dim, Part, Side, Size};

mod frames;

use frames::{
    BALL, BAR, BELL, COLD, DRAWN, EYE, EYE_PLAN, HUNG, LEANING, LUGS, OFFSET, PEIN, PEIN_END,
    PEIN_TOP, PLOT, SECTION, SIDE, SWELL, TONGUE, TOOL, TOP,
};

/// Width and height of a sketch, px.
const WIDTH: f64 = 180.0;
const HEIGHT: f64 = 88.0;
/// Length and half the width of an arrow.
const ARROW: [f64; 2] = [8.0, 2.6];
/// A span shorter than this has its arrows outside.
const SHORT: f64 = 20.0;
/// How far the line of such a span goes on.
const TAIL: f64 = 14.0;

/// Lines of a sketch: class and path.
type Lines = &'static [(&'static str, &'static str)];
/// A span from one point to another, between arrows.
type Span = [f64; 4];

/// A part in plain lines, and what is meant of it.
pub struct Sketch {
    frame: Lines,
    /// What is measured.
    spans: &'static [Span],
    /// What is traced, as a path.
    traced: &'static str,
    /// Whether front and back are exchanged.
    mirrored: bool,
}

const fn span(frame: Lines, spans: &'static [Span]) -> Sketch {
    Sketch {
        frame,
        spans,
        traced: "",
        mirrored: false,
    }
}

const fn traced(frame: Lines, traced: &'static str) -> Sketch {
    Sketch {
        frame,
        spans: &[],
        traced,
        mirrored: false,
    }
}

impl Sketch {
    /// The drawing. It says nothing that the words do not, so a screen reader passes it by.
    pub fn view(self) -> impl IntoView {
        let turn = self.mirrored.then(|| format!("matrix(-1 0 0 1 {WIDTH} 0)"));
        view! {
            <svg
                class="sketch"
                viewBox=format!("0 0 {WIDTH} {HEIGHT}")
                width=WIDTH
                height=HEIGHT
                aria-hidden="true"
                focusable="false"
            >
                <g transform=turn>
                    {self.frame.iter().map(|(class, path)| view! { <path class=*class d=*path /> }).collect_view()}
                    <path class="traced" d=self.traced />
                    {self.spans.iter().map(|span| view! { <path class="span" d=arrows(*span) /> }).collect_view()}
                </g>
            </svg>
        }
    }

    /// Whether something of it is meant.
    #[cfg(test)]
    pub fn shows_something(&self) -> bool {
        !self.traced.is_empty() || !self.spans.is_empty()
    }
}

/// A span with an arrow at each end; where it is short, from outside.
fn arrows([x0, y0, x1, y1]: Span) -> String {
    let (dx, dy) = (x1 - x0, y1 - y0);
    let length = dx.hypot(dy).max(1.0);
    let (ux, uy) = (dx / length, dy / length);
    // 1 where the arrows point outwards to their ends, −1 where they point inwards.
    let way = if length < SHORT { -1.0 } else { 1.0 };
    let arrow = |x: f64, y: f64, s: f64| {
        let [long, half] = ARROW;
        let (bx, by) = (x - s * long * ux, y - s * long * uy);
        format!(
            "M{x:.1} {y:.1}L{:.1} {:.1} {:.1} {:.1}Z",
            bx - half * uy,
            by + half * ux,
            bx + half * uy,
            by - half * ux
        )
    };
    let tail = if way < 0.0 { TAIL } else { 0.0 };
    format!(
        "M{:.1} {:.1}L{:.1} {:.1}{}{}",
        x0 - tail * ux,
        y0 - tail * uy,
        x1 + tail * ux,
        y1 + tail * uy,
        arrow(x1, y1, way),
        arrow(x0, y0, -way)
    )
}

/// The sketch of `dim`; those of the back are drawn at the back.
pub fn of_size(dim: Dim) -> Sketch {
    Sketch {
        mirrored: dim.side() == Some(Side::Back),
        ..plain(dim)
    }
}

fn plain(dim: Dim) -> Sketch {
    match (dim.size, dim.part) {
        (Size::Length, Part::EyeTop) => span(EYE, &[[66.0, 7.0, 114.0, 7.0]]),
        (Size::Length, Part::EyeWaist) => span(EYE, &[[72.0, 44.0, 108.0, 44.0]]),
        (Size::Length, Part::EyeBottom) => span(EYE, &[[66.0, 81.0, 114.0, 81.0]]),
        (Size::Length, Part::Lugs) => span(LUGS, &[[66.0, 84.0, 114.0, 84.0]]),
        (Size::Length, _) => span(SIDE, &[[68.0, 12.0, 112.0, 12.0]]),
        (Size::Width, Part::Eye | Part::EyeTop | Part::EyeWaist | Part::EyeBottom) => {
            span(EYE_PLAN, &[[90.0, 20.0, 90.0, 68.0]])
        }
        (Size::Width, Part::Cheeks | Part::Lugs) => span(TOP, &[[71.0, 22.0, 71.0, 62.0]]),
        (Size::Width, Part::Neck(..)) => span(TOP, &[[126.0, 27.0, 126.0, 57.0]]),
        (Size::Width, Part::Pein(_)) => span(PEIN_TOP, &[[80.0, 22.0, 80.0, 66.0]]),
        (Size::Width, _) => span(TOP, &[[160.0, 24.0, 160.0, 60.0]]),
        (Size::Height, Part::Cheeks | Part::Lugs) => span(SIDE, &[[72.0, 22.0, 72.0, 62.0]]),
        (Size::Height, Part::Neck(..)) => span(SIDE, &[[126.0, 27.0, 126.0, 57.0]]),
        (Size::Height, Part::Pein(_)) => span(PEIN, &[[80.0, 18.0, 80.0, 70.0]]),
        (Size::Height, _) => span(SIDE, &[[160.0, 24.0, 160.0, 60.0]]),
        (Size::Corner | Size::CornerAcross, _) => span(SECTION, &[[118.0, 7.0, 130.0, 7.0]]),
        (Size::CornerUp, _) => span(SECTION, &[[138.0, 14.0, 138.0, 26.0]]),
        (Size::Radius, _) => traced(EYE_PLAN, "M110 20A24 24 0 0 1 134 44M110 44L127 27"),
        (Size::Offset, _) => span(OFFSET, &[[80.0, 12.0, 92.0, 12.0]]),
        (Size::WaistHeight, _) => Sketch {
            traced: "M40 44H140",
            ..span(HIGH_WAIST, &[[90.0, 44.0, 90.0, 32.0]])
        },
        (Size::At, Part::Pein(_)) => span(PEIN, &[[40.0, 10.0, 80.0, 10.0]]),
        (Size::At, _) => span(SIDE, &[[90.0, 74.0, 126.0, 74.0]]),
        (Size::Reach, _) => span(SIDE, &[[90.0, 12.0, 151.0, 12.0]]),
        (Size::Land, _) => of_land(),
        (Size::Crown, _) => of_crown(),
        (Size::Edge, Part::Pein(_)) => span(PEIN_TOP, &[[156.0, 16.0, 156.0, 72.0]]),
        (Size::Edge, _) => of_edge(),
        (Size::Diameter, _) => span(BALL, &[[128.0, 20.0, 128.0, 68.0]]),
        (Size::Neck, _) => span(BALL, &[[107.8, 31.0, 107.8, 57.0]]),
        (Size::Swell, _) => span(SWELL, &[[90.0, 22.0, 90.0, 14.0]]),
        (Size::Top, _) => span(LUGS, &[[90.0, 26.0, 90.0, 12.0]]),
        (Size::Bottom, _) => span(LUGS, &[[90.0, 62.0, 90.0, 76.0]]),
        (Size::MouthBreak, _) => Sketch {
            traced: "M61 14L67 20M119 14L113 20M61 74L67 68M119 74L113 68",
            ..span(EYE, &[[61.0, 7.0, 67.0, 7.0]])
        },
        (Size::CockAlong | Size::CockAcross, _) => traced(LEANING, "M83 86L97 2"),
        (Size::Drop, _) => traced(
            &[
                (
                    "steel",
                    "M40 18H84C100 18 122 26 146 31L141 69C118 64 100 66 84 66H40Z",
                ),
                ("axis", "M84 42H168"),
            ],
            "M84 42L160 55M138 42A54 54 0 0 1 137 51",
        ),
        (Size::Direction, _) => traced(PEIN_END, "M66 60L114 28M112 44A22 22 0 0 0 108 32"),
        (Size::Nose, _) => of_nose(),
        (Size::Rocker, _) => of_rocker(),
        (Size::Hollow, _) => of_hollow(),
        (Size::CornerBreak, _) => traced(PEIN_TOP, "M134 16Q140 16 141 22M134 72Q140 72 141 66"),
    }
}

/// A learning curve.
const LEARNED: Lines = &[
    ("hidden", "M24 8V78H172"),
    ("line", "M30 12C38 42 76 54 168 60"),
];

/// The eye with its waist above the middle.
const HIGH_WAIST: Lines = &[
    ("steel", "M50 14H66L72 32 66 74H50Z"),
    ("steel", "M130 14H114L108 32 114 74H130Z"),
    ("axis", "M90 3V85"),
];

const fn of_land() -> Sketch {
    span(SIDE, &[[138.0, 70.0, 147.0, 70.0]])
}

const fn of_crown() -> Sketch {
    traced(SIDE, "M149 26Q153 42 149 58M108 42H150")
}

const fn of_edge() -> Sketch {
    traced(SIDE, "M146 24Q149 24 149.400 28M146 60Q149 60 149.400 56")
}

const fn of_nose() -> Sketch {
    traced(PEIN, "M140 38A6 6 0 0 1 140 50M139 44L145 40")
}

const fn of_rocker() -> Sketch {
    traced(PEIN_TOP, "M140 20Q148 44 140 68")
}

const fn of_hollow() -> Sketch {
    traced(PEIN, "M80 18C92 18 100 34 140 38M80 70C92 70 100 54 140 50")
}

/// The sketch of `term`, where one says it better than words.
pub fn of_term(term: Term) -> Option<Sketch> {
    Some(match term.key {
        Key::Balance => span(HUNG, &[[84.0, 50.0, 90.0, 50.0]]),
        Key::HangAngle => traced(HUNG, "M90 8V84M90 8L79.6 82M90 74A66 66 0 0 1 80.8 73.4"),
        Key::LeastWall => span(TOP, &[[90.0, 22.0, 90.0, 33.0]]),
        Key::Reaches => span(SIDE, &[[90.0, 12.0, 151.0, 12.0], [29.0, 12.0, 90.0, 12.0]]),
        Key::FaceOffset => span(SIDE, &[[90.0, 12.0, 151.0, 12.0]]),
        Key::Cheeks => traced(TOP, "M68 22H112M68 62H112"),
        Key::Swell => traced(SWELL, "M68 22Q90 6 112 22M68 62Q90 78 112 62"),
        Key::Lug => traced(
            LUGS,
            "M66 26C74 26 74 12 82 12H98C106 12 106 26 114 26M114 62C106 62 106 76 98 76H82C74 76 74 62 66 62",
        ),
        Key::Mouth => traced(EYE, "M66 14H114M66 74H114"),
        Key::Waist => traced(EYE, "M72 44H108"),
        Key::Wall => traced(EYE, "M66 14L72 44 66 74M114 14L108 44 114 74"),
        Key::Cock | Key::OutOfSquare => traced(LEANING, "M83 86L97 2"),
        Key::Neck => traced(
            SIDE,
            "M112 22C119 22 119 27 126 27C132 27 132 24 138 24M112 62C119 62 119 57 126 57C132 57 132 60 138 60",
        ),
        Key::Corners => traced(
            SECTION,
            "M118 14L130 26M130 62L118 74M62 74L50 62M50 26L62 14",
        ),
        Key::Face => traced(SIDE, "M147 24L149 26Q153 42 149 58L147 60"),
        Key::Land => of_land(),
        Key::Crown => of_crown(),
        Key::Edge => of_edge(),
        Key::Ball => traced(BALL, "M107.800 31A24 24 0 1 1 107.800 57"),
        Key::Pein => traced(PEIN_TOP, "M136 16L140 20Q148 44 140 68L136 72"),
        Key::Nose => of_nose(),
        Key::Rocker => of_rocker(),
        Key::Hollow => of_hollow(),
        Key::Tongue => traced(TONGUE, "M66 74L73 44 68 12H112L107 44 114 74"),
        Key::Shoulder => traced(TONGUE, "M58 88L66 75M122 88L114 75"),
        Key::Kerf => traced(TONGUE, "M88 12V52H92V12"),
        Key::Wedge => traced(TONGUE, "M84 6H96L90 46Z"),
        Key::Percussion => traced(TOOL, "M147 8V80M34 34V54"),
        Key::BalancePoint => traced(TOOL, "M122 64L116 78H128Z"),
        Key::Grip => traced(TOOL, "M20 38H48M20 50H48"),
        Key::Draw => traced(BAR, "M6 36H174V52H6Z"),
        Key::Upset => traced(BAR, "M42 20H138V68H42Z"),
        Key::Fuller => traced(
            BAR,
            "M24 28H66C78 28 78 36 90 36C102 36 102 28 114 28H156M24 60H66C78 60 78 52 90 52C102 52 102 60 114 60H156",
        ),
        Key::Slit => traced(BAR, "M66 44H114"),
        Key::HotReading => Sketch {
            traced: "M18 29H160V59H18Z",
            ..span(COLD, &[[148.0, 72.0, 160.0, 72.0]])
        },
        Key::InProportion => traced(
            DRAWN,
            "M30 29H57C60 26 67 22 74 22H106C113 22 120 26 123 29H150V59H123C120 62 113 66 106 66H74C67 66 60 62 57 59H30Z",
        ),
        Key::OneDeviation => span(BELL, &[[66.0, 80.0, 114.0, 80.0]]),
        Key::NineInTen => span(BELL, &[[44.0, 80.0, 136.0, 80.0]]),
        Key::LearningCurve => traced(PLOT, "M30 12C38 44 76 56 168 62"),
        Key::NextBuild => traced(LEARNED, "M158 44V74M153 44H163M153 74H163"),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arrows_of_a_span_point_to_its_ends_and_those_of_a_short_one_from_outside() {
        let long = arrows([10.0, 40.0, 60.0, 40.0]);
        assert!(long.starts_with("M10.0 40.0L60.0 40.0"), "{long}");
        assert!(long.contains("M60.0 40.0L52.0"), "{long}");
        let short = arrows([10.0, 40.0, 20.0, 40.0]);
        assert!(short.starts_with("M-4.0 40.0L34.0 40.0"), "{short}");
        assert!(short.contains("M20.0 40.0L28.0"), "{short}");
    }

    #[test]
    fn a_size_of_the_back_is_drawn_at_the_back() {
        let [front, back] = Side::BOTH.map(|side| of_size(Part::End(side).size(Size::Reach)));
        assert!(!front.mirrored);
        assert!(back.mirrored);
    }
}
