//! Templates at 1:1, and how they come on to pages.

use super::ink::{Anchor, Ink, Pen, Point, moved, named, text};
use super::letters::{Font, width, wrapped};
use super::views::LETTERS_MM;

/// A line of text under another, mm.
pub(super) const LINE_MM: f64 = 5.2;
/// Between templates, mm.
const GAP_MM: f64 = 7.0;
/// A name over a template is wrapped at this width, or at the template’s own, mm.
const NAME_MM: f64 = 40.0;
/// Room right of a template that is parted for the letters at its joints, mm.
const JOINT_MM: f64 = 8.0;
/// How far off a joint keeps from texts and level lines, mm.
const CLEAR_MM: f64 = 3.0;
/// A line that is this near to level is one across the template, mm.
const LEVEL_MM: f64 = 0.01;

/// A template, in mm from its upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Template {
    /// What stands above it.
    pub name: String,
    /// Width and height.
    pub size: [f64; 2],
    /// Its lines: open rows, each with its name where it is to be measured.
    pub lines: Vec<(Option<String>, Pen, Vec<Point>)>,
    /// Areas and texts that no joint may part.
    pub whole: Vec<Ink>,
}

/// A template or a part of it, with its name, ready to be set.
struct Piece {
    size: [f64; 2],
    inks: Vec<Ink>,
}

impl Template {
    /// Turned by a quarter where it is wider than `most`.
    fn turned(mut self, most: f64) -> Self {
        if self.size[0] > most && self.whole.is_empty() {
            for at in self.lines.iter_mut().flat_map(|(_, _, row)| row) {
                *at = [at[1], at[0]];
            }
            self.size.reverse();
        }
        self
    }

    /// In parts no higher than `most`, with a letter at both sides of every joint.
    fn pieces(self, most: [f64; 2]) -> Vec<Piece> {
        let template = self.turned(most[0]);
        let room = |name: &[String]| most[1] - LINE_MM * (name.len() as f64 + 0.4);
        let wide = NAME_MM.max(template.size[0]);
        let name = wrapped(&template.name, Font::Bold, LETTERS_MM, wide);
        if template.size[1] <= room(&name) {
            return vec![template.piece(&name, [0.0, template.size[1]], [None; 2])];
        }
        let longer = format!(
            "{}, in parts: cut at the dashed lines, join letter to letter",
            template.name
        );
        let name = wrapped(&longer, Font::Bold, LETTERS_MM, wide);
        let mut pieces = Vec::new();
        let mut from = 0.0;
        let mut letters = ('A'..='Z').cycle();
        let mut before = None;
        loop {
            let last = template.size[1] - from <= room(&name);
            let to = if last {
                template.size[1]
            } else {
                template.joint(from, from + room(&name))
            };
            let after = if last { None } else { letters.next() };
            pieces.push(template.piece(&name, [from, to], [before, after]));
            if after.is_none() {
                return pieces;
            }
            (from, before) = (to, after);
        }
    }

    /// The farthest place up to `to` where nothing that must stay whole is parted; `to` where there is none.
    fn joint(&self, from: f64, to: f64) -> f64 {
        const STEP: f64 = 1.0;
        let texts = self.whole.iter().map(|ink| {
            let [low, high] = ink.bounds();
            (low[1], high[1])
        });
        let level = self.lines.iter().filter_map(|(_, _, row)| {
            let (first, last) = (row.first()?[1], row.last()?[1]);
            ((first - last).abs() < LEVEL_MM).then_some((first, last))
        });
        let kept: Vec<(f64, f64)> = texts.chain(level).collect();
        let steps = ((to - from) / (2.0 * STEP)) as usize;
        let free = |at: &f64| {
            kept.iter()
                .all(|(low, high)| *at < low - CLEAR_MM || *at > high + CLEAR_MM)
        };
        (0..steps)
            .map(|step| to - STEP * step as f64)
            .find(free)
            .unwrap_or(to)
    }

    fn piece(&self, name: &[String], [from, to]: [f64; 2], joints: [Option<char>; 2]) -> Piece {
        let mut inks = Vec::new();
        let mut wide = self.size[0];
        for (row, words) in name.iter().enumerate() {
            let at = [0.0, LINE_MM * (row as f64 + 0.75)];
            inks.push(text(words, Font::Bold, LETTERS_MM, at, Anchor::Start));
            wide = wide.max(width(words, Font::Bold) * LETTERS_MM);
        }
        let down = LINE_MM * (name.len() as f64 + 0.4);
        let parted = joints.iter().any(Option::is_some);
        let mut own = Vec::new();
        for (called, pen, row) in &self.lines {
            for part in clipped(row, from, to) {
                own.push(match called {
                    Some(called) => named(called.clone(), *pen, part),
                    None => super::ink::lines(*pen, vec![part]),
                });
            }
        }
        let stands = |ink: &&Ink| {
            let [low, high] = ink.bounds();
            let middle = 0.5 * (low[1] + high[1]);
            !parted || (from <= middle && middle < to) || (middle >= to && joints[1].is_none())
        };
        own.extend(self.whole.iter().filter(stands).cloned());
        // Each letter stands on its own side of the joint.
        for (at, joint, off) in [(from, joints[0], 4.2), (to, joints[1], -1.0)] {
            let Some(letter) = joint else { continue };
            let ends = vec![[0.0, at], [self.size[0], at]];
            own.push(super::ink::lines(Pen::Hidden, vec![ends]));
            let side = [self.size[0] + 2.0, at + off];
            let letter = letter.to_string();
            own.push(text(&letter, Font::Bold, LETTERS_MM, side, Anchor::Start));
        }
        inks.extend(moved(own, [0.0, down - from]));
        if parted {
            wide = wide.max(self.size[0] + JOINT_MM);
        }
        Piece {
            size: [wide, down + to - from],
            inks,
        }
    }
}

/// What of a row of points lies between two heights.
fn clipped(row: &[Point], from: f64, to: f64) -> Vec<Vec<Point>> {
    let mut parts: Vec<Vec<Point>> = Vec::new();
    let mut open = false;
    for pair in row.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let at = |share: f64| [0, 1].map(|k| a[k] + share * (b[k] - a[k]));
        let rise = b[1] - a[1];
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        if rise == 0.0 {
            if a[1] < from || a[1] > to {
                (enter, leave) = (1.0, 0.0);
            }
        } else {
            let (low, high) = ((from - a[1]) / rise, (to - a[1]) / rise);
            enter = enter.max(low.min(high));
            leave = leave.min(low.max(high));
        }
        if enter >= leave {
            open = false;
            continue;
        }
        let end = if leave == 1.0 { b } else { at(leave) };
        match parts.last_mut() {
            Some(part) if open && enter == 0.0 => part.push(end),
            _ => parts.push(vec![if enter == 0.0 { a } else { at(enter) }, end]),
        }
        open = leave == 1.0;
    }
    parts
}

/// A text of a template.
pub(super) fn label(words: &str, at: Point, anchor: Anchor) -> Ink {
    text(words, Font::Plain, LETTERS_MM, at, anchor)
}

/// A row of templates, as high as its highest: stacks of them side by side.
struct Row {
    page: usize,
    down: f64,
    high: f64,
    stacks: Vec<Stack>,
}

/// Templates one over another.
struct Stack {
    left: f64,
    wide: f64,
    high: f64,
}

impl Row {
    /// A place for something of that size in a row of `room` mm: under another where it can stand there, or right of all.
    fn place(&mut self, [wide, high]: [f64; 2], room: f64) -> Option<Point> {
        let last = self.stacks.len().saturating_sub(1);
        let fits = |(index, stack): (usize, &Stack)| {
            // The last stack may become wider.
            let most = if index == last {
                room - stack.left
            } else {
                stack.wide
            };
            wide <= most && stack.high + GAP_MM + high <= self.high
        };
        if let Some(index) = self.stacks.iter().enumerate().position(fits) {
            let stack = &mut self.stacks[index];
            let at = [stack.left, self.down + stack.high + GAP_MM];
            stack.wide = stack.wide.max(wide);
            stack.high += GAP_MM + high;
            return Some(at);
        }
        let ends = |stack: &Stack| stack.left + stack.wide + GAP_MM;
        let left = self.stacks.last().map_or(0.0, ends);
        (left + wide <= room && high <= self.high).then(|| {
            self.stacks.push(Stack { left, wide, high });
            [left, self.down]
        })
    }
}

/// The templates on as many pages of `room` as they need: each page’s ink from its upper left corner, and what it takes of
/// the height.
///
/// They stand in rows, the highest first, each in the first row that has room for it, under another where it can; one that
/// is higher than a page is parted.
pub(super) fn set(templates: Vec<Template>, room: [f64; 2]) -> Vec<(Vec<Ink>, f64)> {
    let mut pieces: Vec<Piece> = templates
        .into_iter()
        .flat_map(|template| template.pieces(room))
        .collect();
    pieces.sort_by(|a, b| b.size[1].total_cmp(&a.size[1]));
    let mut pages: Vec<(Vec<Ink>, f64)> = Vec::new();
    let mut rows: Vec<Row> = Vec::new();
    for piece in pieces {
        let high = piece.size[1];
        let place = |row: &mut Row| Some((row.page, row.place(piece.size, room[0])?));
        let (page, at) = rows.iter_mut().find_map(place).unwrap_or_else(|| {
            let page = pages
                .iter()
                .position(|(_, taken)| taken + GAP_MM + high <= room[1])
                .unwrap_or(pages.len());
            let down = match pages.get(page) {
                Some((_, taken)) => taken + GAP_MM,
                None => {
                    pages.push((Vec::new(), 0.0));
                    0.0
                }
            };
            pages[page].1 = down + high;
            let stack = Stack {
                left: 0.0,
                wide: piece.size[0],
                high,
            };
            rows.push(Row {
                page,
                down,
                high,
                stacks: vec![stack],
            });
            (page, [0.0, down])
        });
        pages[page].0.extend(moved(piece.inks, at));
    }
    pages
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_is_cut_where_it_leaves() {
        let row = [[0.0, 0.0], [10.0, 10.0], [20.0, 0.0]];
        let parts = clipped(&row, 2.0, 6.0);
        assert_eq!(
            parts,
            [vec![[2.0, 2.0], [6.0, 6.0]], vec![[14.0, 6.0], [18.0, 2.0]]]
        );
        assert_eq!(clipped(&row, 0.0, 10.0), [row.to_vec()]);
        assert!(clipped(&row, 11.0, 12.0).is_empty());
    }

    #[test]
    fn the_parts_of_a_long_template_are_as_long_as_it() {
        let long = Template {
            name: "bar".to_owned(),
            size: [20.0, 700.0],
            lines: vec![(
                Some("edge".to_owned()),
                Pen::Narrow,
                vec![[0.0, 0.0], [0.0, 700.0]],
            )],
            whole: vec![label("a mark", [1.0, 250.0], Anchor::Start)],
        };
        let pieces = long.pieces([180.0, 250.0]);
        assert!(pieces.len() > 2);
        let length = |ink: &Ink| match ink {
            Ink::Path(path) if path.name.is_some() => path.rows[0][1][1] - path.rows[0][0][1],
            _ => 0.0,
        };
        let sum: f64 = pieces
            .iter()
            .flat_map(|piece| &piece.inks)
            .map(length)
            .sum();
        assert!((sum - 700.0).abs() < 1e-9, "{sum}");
        let said = pieces.iter().filter(|piece| {
            piece
                .inks
                .iter()
                .any(|ink| matches!(ink, Ink::Text(text) if text.words == "a mark"))
        });
        assert_eq!(said.count(), 1);
    }
}
