//! The views of the head with their sizes, to a scale of the standard.

use super::ink::{Anchor, Bounds, Ink, Path, Pen, Point, Text, bounds, lines, moved};
use super::letters::Font;
use crate::design::{Design, Size};
use crate::drawing::{
    Base, Drawing, Key, Laid, LaidSize, Number, Projection, Setting, Show, State, Still, Stroke,
    Style, View, draw, layout,
};
use crate::solid::Solid;
use crate::units::{Measure, System};

/// Size of the letters of a card, mm: its figures are 0.589 of that tall, 2.5 mm.
pub(super) const LETTERS_MM: f64 = 4.25;
/// A pixel of the drawing's layout, whose figures are 22 px, mm.
const MM_PER_PX: f64 = LETTERS_MM / 22.0;
/// From the line up to the foot of the value, px.
const FOOT: f64 = 6.0;
/// Length and half-width of an arrow, px.
const ARROW: (f64, f64) = (10.0, 2.5);

/// The scales, after ISO 5455.
const SCALES: [(f64, &str); 5] = [
    (1.0, "1 : 1"),
    (0.5, "1 : 2"),
    (0.4, "1 : 2.5"),
    (0.2, "1 : 5"),
    (0.1, "1 : 10"),
];

/// The views, from (0, 0) on.
pub(super) struct Views {
    pub inks: Vec<Ink>,
    pub size: [f64; 2],
    pub scale: &'static str,
}

/// The drawing of `solid` as it stands on paper: no states, fractions in one line.
fn on_paper(design: &Design, solid: &Solid, system: System) -> Drawing {
    let mut drawing = draw(solid, design, None, system);
    // An edge square to the handle or along it is seen to be so.
    drawing.dimensions.retain(|dimension| {
        let direction = match dimension.key {
            Key::Size(dim) if dim.size == Size::Direction => design.size(dim),
            _ => None,
        };
        !matches!(direction, Some(Measure::Angle(angle)) if angle.in_degrees() % 90.0 == 0.0)
    });
    for dimension in &mut drawing.dimensions {
        dimension.state = State::Derived;
        // One size of figures throughout.
        let plain = crate::drawing::Value {
            before: "",
            after: "",
            derived: false,
            ..dimension.value.clone()
        };
        dimension.value.number = Number::Plain(plain.plain());
    }
    drawing
}

const fn setting(width: f64, base: Base, still: Option<Still>) -> Setting {
    Setting {
        width,
        style: Style::Print,
        projection: Projection::Third,
        show: Show {
            base,
            open: None,
            in_hand: None,
        },
        title: [0.0; 2],
        field: None,
        zoom: 1.0,
        still,
    }
}

/// The views with the sizes that say what head it is, at the largest scale at which they take no more than `room`; at
/// the smallest they take what they need.
pub(super) fn views(design: &Design, solid: &Solid, system: System, room: [f64; 2]) -> Views {
    let drawing = on_paper(design, solid, system);
    let width = room[0] / MM_PER_PX;
    let natural = layout(&drawing, &setting(width, Base::Key, None)).still;
    let at = |(scale, name): (f64, &'static str)| {
        let still = stands(&drawing, natural, scale / MM_PER_PX);
        printed(
            &layout(&drawing, &setting(width, Base::Key, Some(still))),
            name,
        )
    };
    let fits = |views: &Views| views.size[0] <= room[0] && views.size[1] <= room[1];
    let [all @ .., last] = SCALES;
    let able = |(scale, _): &(f64, &str)| scale / MM_PER_PX <= natural.scale;
    let mut larger = all.into_iter().filter(able).map(at);
    larger.find(fits).unwrap_or_else(|| at(last))
}

/// The whole drawing at 1 : 1, with every size.
pub(super) fn full_size(design: &Design, solid: &Solid, system: System) -> Views {
    let drawing = on_paper(design, solid, system);
    let scale = 1.0 / MM_PER_PX;
    let wide = |view| {
        let extent = drawing.extent(view);
        extent.high[0] - extent.low[0]
    };
    /// Room for the sizes beside the views, px.
    const BESIDE: f64 = 900.0;
    let width = (wide(View::Side) + wide(View::Face)) * scale + BESIDE;
    let natural = layout(&drawing, &setting(width, Base::All, None)).still;
    let still = stands(&drawing, natural, scale);
    printed(
        &layout(&drawing, &setting(width, Base::All, Some(still))),
        SCALES[0].1,
    )
}

/// Where the views stand at another scale, with the same room beside and between them.
fn stands(drawing: &Drawing, natural: Still, scale: f64) -> Still {
    let (side, face) = (drawing.extent(View::Side), drawing.extent(View::Face));
    let left = natural.side + side.low[0] * natural.scale;
    let between =
        natural.face + face.low[0] * natural.scale - (natural.side + side.high[0] * natural.scale);
    let at = left - side.low[0] * scale;
    Still {
        scale,
        side: at,
        face: at + side.high[0] * scale + between - face.low[0] * scale,
        down: 0.0,
    }
}

/// What was laid out as ink, in mm from its own upper left corner.
fn printed(laid: &Laid, scale: &'static str) -> Views {
    let mm = |[x, y]: Point| [x * MM_PER_PX, y * MM_PER_PX];
    let mut inks = Vec::new();
    for shape in &laid.shapes {
        let points = shape.points.iter().map(|at| mm(*at)).collect();
        let (pen, fill) = match shape.stroke {
            Stroke::Steel => (None, Some(0.96)),
            Stroke::FaceArea => (None, Some(0.93)),
            Stroke::Opening => (None, Some(1.0)),
            Stroke::Hidden => (Some(Pen::Hidden), None),
            Stroke::Edge => (Some(Pen::Narrow), None),
            Stroke::Centre => (Some(Pen::Centre), None),
            Stroke::Outline => (Some(Pen::Wide), None),
        };
        inks.push(Ink::Path(Path {
            rows: vec![points],
            closed: shape.closed,
            pen,
            fill,
            name: None,
        }));
    }
    let sizes = laid.sizes.iter();
    let rows = sizes
        .clone()
        .flat_map(|size| &size.lines)
        .map(|line| vec![mm(line.from), mm(line.to)]);
    inks.push(lines(Pen::Narrow, rows.collect()));
    let heads = sizes.clone().flat_map(|size| &size.arrows).map(|arrow| {
        let (dx, dy) = (arrow.to[0] - arrow.from[0], arrow.to[1] - arrow.from[1]);
        let length = dx.hypot(dy).max(f64::MIN_POSITIVE);
        let (ux, uy) = (dx / length, dy / length);
        let (back, half) = ARROW;
        let foot = [arrow.to[0] - back * ux, arrow.to[1] - back * uy];
        let wing = |way: f64| [foot[0] - way * half * uy, foot[1] + way * half * ux];
        vec![mm(arrow.to), mm(wing(1.0)), mm(wing(-1.0))]
    });
    inks.push(super::ink::filled(heads.collect()));
    for size in sizes {
        written(&mut inks, laid, size);
    }
    for note in &laid.notes {
        for (row, words) in note.lines.iter().enumerate() {
            let at = mm([note.at[0], note.at[1] + 19.0 * row as f64]);
            let small = laid.words * MM_PER_PX;
            inks.push(super::ink::text(
                words,
                Font::Plain,
                small,
                at,
                Anchor::Start,
            ));
        }
    }
    let [low, high]: Bounds = bounds(&inks).unwrap_or_default();
    Views {
        inks: moved(inks, [-low[0], -low[1]]).collect(),
        size: [high[0] - low[0], high[1] - low[1]],
        scale,
    }
}

fn written(inks: &mut Vec<Ink>, laid: &Laid, size: &LaidSize) {
    let place = &size.text;
    // Above and below the line; of an upright text to its left and right.
    let mut put = |words: String, off: f64, px: f64| {
        let [x, y] = place.at;
        let at = if place.upright {
            [x + off, y]
        } else {
            [x, y + off]
        };
        inks.push(Ink::Text(Text {
            at: [at[0] * MM_PER_PX, at[1] * MM_PER_PX],
            anchor: Anchor::Middle,
            size: px * MM_PER_PX,
            font: Font::Plain,
            upright: place.upright,
            halo: true,
            words: super::letters::set(&words, Font::Plain),
        }));
    };
    put(size.value.plain(), -FOOT, laid.figures);
    if !place.compact && !size.word.is_empty() && size.key != Key::Overall {
        put(size.word.clone(), laid.words + 2.5, laid.words);
    }
}
