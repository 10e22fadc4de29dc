//! What a printed page consists of.

use super::letters::{self, Font};

/// A point of a page, mm: to the right, down.
pub type Point = [f64; 2];

/// A page to be printed.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What it is, for a title.
    pub title: String,
    /// Width and height, mm.
    pub size: [f64; 2],
    /// What stands on it; later ink covers earlier.
    pub inks: Vec<Ink>,
}

/// A line, an area or a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Ink {
    /// A line or an area.
    Path(Path),
    /// A text on one line.
    Text(Text),
}

/// How a line is drawn, after ISO 128-2: wide to narrow 2 : 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// Outlines, 0.5 mm.
    Wide,
    /// Edges, dimension lines, templates to be cut along, 0.25 mm.
    Narrow,
    /// Hidden edges, 0.25 mm, dashed.
    Hidden,
    /// Centre lines, 0.25 mm, long dashed dotted.
    Centre,
    /// Lines between rows and lines to write on, 0.13 mm.
    Hair,
}

impl Pen {
    /// Its width, mm.
    pub const fn width_mm(self) -> f64 {
        match self {
            Self::Wide => 0.5,
            Self::Narrow | Self::Hidden | Self::Centre => 0.25,
            Self::Hair => 0.13,
        }
    }

    /// Lengths of its dashes and gaps in turn, mm; nothing for an unbroken line.
    pub const fn dashes_mm(self) -> &'static [f64] {
        match self {
            Self::Wide | Self::Narrow | Self::Hair => &[],
            Self::Hidden => &[1.5, 0.8],
            Self::Centre => &[4.0, 0.8, 0.4, 0.8],
        }
    }
}

/// Lines that look alike, or an area with its holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// Each a row of points.
    pub rows: Vec<Vec<Point>>,
    /// Whether the last point of each is joined to its first.
    pub closed: bool,
    /// How it is drawn; an area alone is not.
    pub pen: Option<Pen>,
    /// How light it is filled: 0 is black, 1 white.
    pub fill: Option<f64>,
    /// What of a template it is, for those who measure it: `check line`, `front crown`.
    pub name: Option<String>,
}

/// Where a text stands by its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

/// A text on one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Its point on the baseline.
    pub at: Point,
    /// How it stands by that.
    pub anchor: Anchor,
    /// Size of the letters, mm.
    pub size: f64,
    /// Its letters.
    pub font: Font,
    /// Whether it is turned so as to be read from the right.
    pub upright: bool,
    /// Whether it keeps lines off with a rim of white.
    pub halo: bool,
    /// What it says.
    pub words: String,
}

/// A rectangle: least and greatest point, mm.
pub type Bounds = [Point; 2];

impl Text {
    /// How wide it is, mm.
    pub fn width(&self) -> f64 {
        letters::width(&self.words, self.font) * self.size
    }

    /// What it covers.
    pub fn bounds(&self) -> Bounds {
        let wide = self.width();
        let before = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * wide,
            Anchor::End => wide,
        };
        let [x, y] = self.at;
        let (up, down) = (letters::UP * self.size, letters::DOWN * self.size);
        if self.upright {
            [
                [x - up, y - (wide - before)],
                [x + down, y - (wide - before) + wide],
            ]
        } else {
            [[x - before, y - up], [x - before + wide, y + down]]
        }
    }
}

impl Ink {
    /// What it covers, with half the width of its line.
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Text(text) => text.bounds(),
            Self::Path(path) => {
                let half = path.pen.map_or(0.0, |pen| 0.5 * pen.width_mm());
                let none = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
                path.rows.iter().flatten().fold(none, |[low, high], at| {
                    [
                        [0, 1].map(|k| low[k].min(at[k] - half)),
                        [0, 1].map(|k| high[k].max(at[k] + half)),
                    ]
                })
            }
        }
    }

    /// The same elsewhere.
    pub(super) fn moved(mut self, [dx, dy]: Point) -> Self {
        match &mut self {
            Self::Text(text) => text.at = [text.at[0] + dx, text.at[1] + dy],
            Self::Path(path) => {
                for at in path.rows.iter_mut().flatten() {
                    *at = [at[0] + dx, at[1] + dy];
                }
            }
        }
        self
    }
}

/// What all of `inks` cover; nothing of none.
pub(super) fn bounds(inks: &[Ink]) -> Option<Bounds> {
    inks.iter()
        .map(Ink::bounds)
        .reduce(|[low, high], [least, most]| {
            [
                [0, 1].map(|k| low[k].min(least[k])),
                [0, 1].map(|k| high[k].max(most[k])),
            ]
        })
}

/// All of `inks` elsewhere.
pub(super) fn moved(inks: Vec<Ink>, by: Point) -> impl Iterator<Item = Ink> {
    inks.into_iter().map(move |ink| ink.moved(by))
}

/// Lines that are not closed.
pub(super) fn lines(pen: Pen, rows: Vec<Vec<Point>>) -> Ink {
    Ink::Path(Path {
        rows,
        closed: false,
        pen: Some(pen),
        fill: None,
        name: None,
    })
}

/// One line, by its name.
pub(super) fn named(name: impl Into<String>, pen: Pen, row: Vec<Point>) -> Ink {
    Ink::Path(Path {
        rows: vec![row],
        closed: false,
        pen: Some(pen),
        fill: None,
        name: Some(name.into()),
    })
}

/// A black area.
pub(super) fn filled(rows: Vec<Vec<Point>>) -> Ink {
    Ink::Path(Path {
        rows,
        closed: true,
        pen: None,
        fill: Some(0.0),
        name: None,
    })
}

/// A line around a rectangle.
pub(super) fn frame(pen: Pen, [x, y]: Point, [w, h]: [f64; 2]) -> Ink {
    Ink::Path(Path {
        rows: vec![vec![[x, y], [x + w, y], [x + w, y + h], [x, y + h]]],
        closed: true,
        pen: Some(pen),
        fill: None,
        name: None,
    })
}

/// A punch dot.
pub(super) fn dot([x, y]: Point, radius: f64) -> Ink {
    const POINTS: u32 = 24;
    let at = |k: u32| {
        let (sin, cos) = (f64::from(k) / f64::from(POINTS) * std::f64::consts::TAU).sin_cos();
        [x + radius * cos, y + radius * sin]
    };
    filled(vec![(0..POINTS).map(at).collect()])
}

/// A text as letters of `font` at `size`, with the characters that the fonts lack replaced.
pub(super) fn text(words: &str, font: Font, size: f64, at: Point, anchor: Anchor) -> Ink {
    Ink::Text(Text {
        at,
        anchor,
        size,
        font,
        upright: false,
        halo: false,
        words: letters::set(words, font),
    })
}
