//! Sections of text and tables, and how they come into columns.

use super::ink::{Anchor, Ink, Pen, frame, lines, moved, text};
use super::letters::{Font, width, wrapped};
use super::views::LETTERS_MM;

/// Height of a line of a paragraph, mm.
const LINE_MM: f64 = 4.9;
/// Over a paragraph, mm.
const PARAGRAPH_MM: f64 = 1.0;
/// Height of a row of a table, mm.
const ROW_MM: f64 = 5.3;
/// Height of a heading with the line over it, mm.
const HEADING_MM: f64 = 8.6;
/// Size of a heading’s letters, mm.
const HEADING_LETTERS_MM: f64 = 5.0;
/// Between the cells of a row at least, mm.
const APART_MM: f64 = 1.0;
/// Side of a box to be ticked, mm.
const BOX_MM: f64 = 3.6;
/// Between sections, mm.
const GAP_MM: f64 = 3.0;

/// A cell of a row: where its text stands, mm from the left, how, and what it says.
pub(super) type Cell<'a> = (f64, Anchor, &'a str);

/// Something that no page’s end parts.
struct Row {
    high: f64,
    inks: Vec<Ink>,
}

/// A section of a card: its heading, and rows below it.
pub(super) struct Section {
    wide: f64,
    heading: String,
    rows: Vec<Row>,
}

impl Section {
    /// A section `wide` mm wide with its heading, beside it what is said of it.
    pub fn new(wide: f64, heading: &str, beside: &str) -> Self {
        let base = 6.0;
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
            heading: heading.to_owned(),
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
        // The first cell goes on below where it would run into the next one.
        let next = cells.get(1).map_or(self.wide, |(at, anchor, words)| {
            let wide = width(words, Font::Plain) * LETTERS_MM;
            match anchor {
                Anchor::Start => *at,
                Anchor::Middle => at - 0.5 * wide,
                Anchor::End => at - wide,
            }
        });
        let mut high = ROW_MM;
        for (index, (at, anchor, words)) in cells.iter().enumerate() {
            let indent = if ticked && *at == 0.0 {
                BOX_MM + 2.0
            } else {
                *at
            };
            let lines = if index == 0 && *anchor == Anchor::Start {
                wrapped(words, Font::Plain, LETTERS_MM, next - indent - APART_MM)
            } else {
                vec![(*words).to_owned()]
            };
            for (line, words) in lines.iter().enumerate() {
                let down = LINE_MM * line as f64;
                inks.push(text(
                    words,
                    Font::Plain,
                    LETTERS_MM,
                    [indent, base + down],
                    *anchor,
                ));
                high = high.max(ROW_MM + down);
            }
        }
        if lined {
            inks.push(lines(Pen::Hair, vec![vec![[0.0, high], [self.wide, high]]]));
        }
        self.rows.push(Row { high, inks });
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

    /// How many rows and lines stand below its heading.
    pub fn rows(&self) -> usize {
        self.rows.len() - 1
    }

    fn high(&self) -> f64 {
        self.rows.iter().map(|row| row.high).sum()
    }

    /// Itself, or where it is higher than `most` its rows in parts of at most that, each under its heading.
    fn parts(self, most: f64) -> Vec<Self> {
        if self.high() <= most {
            return vec![self];
        }
        let (wide, heading) = (self.wide, self.heading);
        let mut parts = Vec::new();
        let mut part = Self {
            wide,
            heading: heading.clone(),
            rows: Vec::new(),
        };
        for row in self.rows {
            if part.rows.len() > 1 && part.high() + row.high > most {
                parts.push(part);
                part = Self::new(wide, &format!("{heading}, continued"), "");
            }
            part.rows.push(row);
        }
        parts.push(part);
        parts
    }
}

/// A column of a page that is to be filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Column {
    pub page: usize,
    pub left: f64,
    /// Where the next section begins.
    pub down: f64,
    pub foot: f64,
}

/// So many places are tried for sections before another page is opened.
const MOST_TRIED: usize = 20_000;

/// A column for each section, none of which is parted: of all ways to fit them the one in which each, in its order,
/// stands as early as it can. Nothing where there is none or none is found in good time.
fn places(sections: &[Section], columns: &mut Vec<Column>) -> Option<Vec<usize>> {
    fn fill(
        highs: &[f64],
        columns: &mut Vec<Column>,
        placed: &mut Vec<usize>,
        tried: &mut usize,
    ) -> bool {
        let Some(high) = highs.get(placed.len()) else {
            return true;
        };
        for at in 0..columns.len() {
            *tried += 1;
            let column = columns[at];
            if *tried > MOST_TRIED || column.down + high > column.foot {
                continue;
            }
            columns[at].down += high + GAP_MM;
            placed.push(at);
            if fill(highs, columns, placed, tried) {
                return true;
            }
            placed.pop();
            columns[at].down = column.down;
        }
        false
    }
    let highs: Vec<f64> = sections.iter().map(Section::high).collect();
    let mut placed = Vec::with_capacity(highs.len());
    fill(&highs, columns, &mut placed, &mut 0).then_some(placed)
}

/// The ink of `sections` by page, on the first page and as few after it as they need with what of the last pages is free.
///
/// `open` gives the columns of so many pages before the last ones; one page more is tried until all sections fit.
pub(super) fn flow(
    sections: Vec<Section>,
    whole: f64,
    open: impl Fn(usize) -> Vec<Column>,
) -> (usize, Vec<Vec<Ink>>) {
    let sections: Vec<Section> = sections
        .into_iter()
        .flat_map(|section| section.parts(whole))
        .collect();
    // Every section has a page of its own at the latest.
    let most = sections.len() + 1;
    for pages in 1..=most {
        let columns = open(pages);
        let Some(placed) = places(&sections, &mut columns.clone()) else {
            continue;
        };
        let last = columns.iter().map(|column| column.page + 1).max();
        let mut inks = vec![Vec::new(); last.unwrap_or(pages).max(pages)];
        let mut columns = columns;
        for (section, at) in sections.into_iter().zip(placed) {
            let column = &mut columns[at];
            for row in section.rows {
                inks[column.page].extend(moved(row.inks, [column.left, column.down]));
                column.down += row.high;
            }
            column.down += GAP_MM;
        }
        return (pages, inks);
    }
    (1, vec![Vec::new()])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn section(rows: usize) -> Section {
        let mut section = Section::new(80.0, "heading", "");
        for _ in 0..rows {
            section.row(&[(0.0, Anchor::Start, "row")]);
        }
        section
    }

    fn columns(pages: usize, foot: f64) -> Vec<Column> {
        let column = |page| Column {
            page,
            left: 0.0,
            down: 0.0,
            foot,
        };
        (0..pages).map(column).collect()
    }

    #[test]
    fn sections_fit_that_first_come_first_served_would_not() {
        // 8.6 + 5.3 n mm each, 3 mm between: 29.8, 35.1, 40.4 and 45.7 mm into two columns of 79 mm.
        let all = || [4, 5, 6, 7].map(section).into_iter().collect::<Vec<_>>();
        let placed = places(&all(), &mut columns(2, 79.0)).expect("they fit");
        assert_eq!(placed, [0, 1, 1, 0]);
        assert_eq!(places(&all(), &mut columns(2, 78.0)), None);
        let (pages, inks) = flow(all(), 79.0, |pages| columns(pages, 79.0));
        assert_eq!((pages, inks.len()), (2, 2));
    }

    #[test]
    fn a_section_longer_than_a_page_goes_on_under_its_heading() {
        let parts = section(40).parts(100.0);
        assert_eq!(parts.len(), 3);
        let rows: usize = parts.iter().map(|part| part.rows.len() - 1).sum();
        assert_eq!(rows, 40);
        for part in &parts {
            assert!(part.high() <= 100.0 && part.rows.len() > 1);
        }
        let heading = |section: &Section| match &section.rows[0].inks[1] {
            Ink::Text(text) => text.words.clone(),
            Ink::Path(_) => String::new(),
        };
        assert_eq!(heading(&parts[0]), "heading");
        assert_eq!(heading(&parts[1]), "heading, continued");
    }
}
