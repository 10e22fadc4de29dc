//! Sections of text and tables, and how they come into columns.

use super::ink::{Anchor, Ink, Pen, frame, lines, moved, text};
use super::letters::{Font, width, wrapped};
use super::views::LETTERS_MM;

/// Height of a line of a paragraph, mm.
const LINE_MM: f64 = 5.1;
/// Over a paragraph, mm.
const PARAGRAPH_MM: f64 = 1.0;
/// Height of a row of a table, mm.
const ROW_MM: f64 = 5.9;
/// Height of a heading with the line over it, mm.
const HEADING_MM: f64 = 9.0;
/// Size of a heading’s letters, mm.
const HEADING_LETTERS_MM: f64 = 5.0;
/// Side of a box to be ticked, mm.
const BOX_MM: f64 = 3.6;
/// Between sections, mm.
const GAP_MM: f64 = 3.5;
/// Rows that a heading is not parted from.
const TOGETHER: usize = 3;

/// A cell of a row: where its text stands, mm from the left, how, and what it says.
pub(super) type Cell<'a> = (f64, Anchor, &'a str);

/// Something that no page’s end parts.
struct Row {
    high: f64,
    inks: Vec<Ink>,
}

/// A section of a card.
pub(super) struct Section {
    wide: f64,
    rows: Vec<Row>,
}

impl Section {
    /// A section `wide` mm wide with its heading, beside it what is said of it.
    pub fn new(wide: f64, heading: &str, beside: &str) -> Self {
        let base = 6.2;
        let mut inks = vec![
            lines(Pen::Narrow, vec![vec![[0.0, 0.0], [wide, 0.0]]]),
            text(
                heading,
                Font::Heading,
                HEADING_LETTERS_MM,
                [0.0, base],
                Anchor::Start,
            ),
        ];
        let room = wide - width(heading, Font::Heading) * HEADING_LETTERS_MM - 3.0;
        let mut said = wrapped(beside, Font::Plain, LETTERS_MM, room.max(1.0));
        if said.len() == 1 {
            inks.push(text(
                &said.remove(0),
                Font::Plain,
                LETTERS_MM,
                [wide, base],
                Anchor::End,
            ));
        }
        let mut section = Self {
            wide,
            rows: vec![Row {
                high: HEADING_MM,
                inks,
            }],
        };
        if !said.is_empty() {
            section.say(beside);
        }
        section
    }

    /// A row of a table with a line under it.
    pub fn row(&mut self, cells: &[Cell]) {
        self.set(cells, true, false);
    }

    /// A row with a box to be ticked at its left.
    pub fn tick(&mut self, cells: &[Cell]) {
        self.set(cells, true, true);
    }

    /// A row in bold without a line.
    pub fn head(&mut self, cells: &[Cell]) {
        self.set(cells, false, false);
    }

    fn set(&mut self, cells: &[Cell], lined: bool, ticked: bool) {
        let base = 0.74 * ROW_MM;
        let mut inks = Vec::new();
        if ticked {
            inks.push(frame(
                Pen::Narrow,
                [0.2, base - BOX_MM + 0.6],
                [BOX_MM, BOX_MM],
            ));
        }
        for (at, anchor, words) in cells {
            let indent = if ticked && *at == 0.0 {
                BOX_MM + 2.0
            } else {
                *at
            };
            inks.push(text(
                words,
                Font::Plain,
                LETTERS_MM,
                [indent, base],
                *anchor,
            ));
        }
        if lined {
            inks.push(lines(
                Pen::Hair,
                vec![vec![[0.0, ROW_MM], [self.wide, ROW_MM]]],
            ));
        }
        self.rows.push(Row { high: ROW_MM, inks });
    }

    /// A row that ends in a line to write on, `blank` mm long.
    pub fn blank(&mut self, cells: &[Cell], blank: f64) {
        self.set(cells, false, false);
        if let Some(row) = self.rows.last_mut() {
            let at = 0.74 * ROW_MM + 0.9;
            let ends = vec![[self.wide - blank, at], [self.wide, at]];
            row.inks.push(lines(Pen::Narrow, vec![ends]));
        }
    }

    /// A paragraph.
    pub fn say(&mut self, words: &str) {
        self.paragraph(words, 0.0, "");
    }

    /// A paragraph with a dash before it.
    pub fn item(&mut self, words: &str) {
        self.paragraph(words, 3.6, "–");
    }

    fn paragraph(&mut self, words: &str, indent: f64, mark: &str) {
        for (index, line) in wrapped(words, Font::Plain, LETTERS_MM, self.wide - indent)
            .iter()
            .enumerate()
        {
            let above = if index == 0 { PARAGRAPH_MM } else { 0.0 };
            let base = above + 0.78 * LINE_MM;
            let mut inks = vec![text(
                line,
                Font::Plain,
                LETTERS_MM,
                [indent, base],
                Anchor::Start,
            )];
            if index == 0 && !mark.is_empty() {
                inks.push(text(
                    mark,
                    Font::Plain,
                    LETTERS_MM,
                    [0.0, base],
                    Anchor::Start,
                ));
            }
            self.rows.push(Row {
                high: above + LINE_MM,
                inks,
            });
        }
    }

    /// Ink of its own, `high` mm high.
    pub fn ink(&mut self, high: f64, inks: Vec<Ink>) {
        self.rows.push(Row { high, inks });
    }

    fn high(&self) -> f64 {
        self.rows.iter().map(|row| row.high).sum()
    }
}

/// A column of a page.
struct Column {
    page: usize,
    left: f64,
    /// Where the next section begins.
    down: f64,
    foot: f64,
}

/// What columns are to be filled: of the first page, and of all that follow.
pub(super) struct Frame {
    /// Left edges of the columns.
    pub left: [f64; 2],
    /// Where those of the first page begin.
    pub first: f64,
    /// Where those of the others begin.
    pub next: f64,
    /// Where all end.
    pub foot: f64,
}

/// The sections in columns, each in the first that has room for all of it; one that is longer than a column is parted
/// between its rows. Ink by page.
pub(super) fn flow(sections: Vec<Section>, frame: &Frame) -> Vec<Vec<Ink>> {
    let mut pages: Vec<Vec<Ink>> = Vec::new();
    let mut columns: Vec<Column> = Vec::new();
    let open = |pages: &mut Vec<Vec<Ink>>, columns: &mut Vec<Column>| {
        let down = if pages.is_empty() {
            frame.first
        } else {
            frame.next
        };
        columns.extend(frame.left.map(|left| Column {
            page: pages.len(),
            left,
            down,
            foot: frame.foot,
        }));
        pages.push(Vec::new());
    };
    open(&mut pages, &mut columns);
    for section in sections {
        let high = section.high();
        let whole = frame.foot - frame.next;
        let has_room = |column: &Column| column.down + high <= column.foot;
        if high <= whole && !columns.iter().any(has_room) {
            open(&mut pages, &mut columns);
        }
        let mut at = columns.iter().position(has_room);
        if at.is_none() {
            open(&mut pages, &mut columns);
            at = Some(columns.len() - 2);
        }
        let mut at = at.unwrap_or_default();
        let mut kept = section
            .rows
            .iter()
            .take(TOGETHER)
            .map(|row| row.high)
            .sum::<f64>();
        for row in section.rows {
            let needed = kept.max(row.high);
            kept = 0.0;
            if columns[at].down + needed > columns[at].foot {
                at += 1;
                if at == columns.len() {
                    open(&mut pages, &mut columns);
                }
            }
            let column = &mut columns[at];
            pages[column.page].extend(moved(row.inks, [column.left, column.down]));
            column.down += row.high;
        }
        columns[at].down += GAP_MM;
    }
    pages
}
