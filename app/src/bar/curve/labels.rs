//! Short labels beside points, none over another.

/// Width of a letter and height of a line, px: a little more than those of the style sheet.
const LETTER: f64 = 8.6;
const LINE: f64 = 20.0;
/// Between a point and its label, px.
const OFF: f64 = 10.0;
/// How far away a label is looked for, in lines.
const AWAY: usize = 14;

/// A label and the point that it belongs to.
pub(super) struct Label {
    pub(super) text: String,
    pub(super) at: [f64; 2],
    /// Whether it rather stands above its point.
    pub(super) above: bool,
}

/// Left, top, right and bottom.
pub(super) type Corners = [f64; 4];

/// Every label with the middle of its base line, inside `frame` (its upper left and lower right
/// corner), the nearest place to its point at which it covers neither a label before it nor a
/// point nor what is `other`. A label for which there is none is left out: its stretch stands in the table.
pub(super) fn placed(
    labels: Vec<Label>,
    frame: [[f64; 2]; 2],
    other: Corners,
) -> Vec<(Label, [f64; 2])> {
    let points: Vec<[f64; 2]> = labels.iter().map(|label| label.at).collect();
    let mut taken: Vec<Corners> = points.iter().map(|[x, y]| around([*x, *y], 6.0)).collect();
    taken.push(other);
    let mut placed = Vec::with_capacity(labels.len());
    for label in labels {
        let found = places(&label).find(|place| {
            let corners = box_of(&label.text, *place);
            within(corners, frame) && taken.iter().all(|other| !overlap(corners, *other))
        });
        if let Some(place) = found {
            taken.push(box_of(&label.text, place));
            placed.push((label, place));
        }
    }
    placed
}

/// Places for a label, the best first: over or under its point, then beside it, further and
/// further away.
fn places(label: &Label) -> impl Iterator<Item = [f64; 2]> + use<> {
    let [x, y] = label.at;
    let half = 0.5 * LETTER * label.text.chars().count() as f64;
    let ways = if label.above {
        [-1.0, 1.0]
    } else {
        [1.0, -1.0]
    };
    (0..AWAY).flat_map(move |line| {
        let off = OFF + 0.5 * LINE * line as f64;
        ways.into_iter().flat_map(move |way| {
            let base = if way < 0.0 {
                y - off
            } else {
                y + off + 0.7 * LINE
            };
            [0.0, half + OFF, -half - OFF].map(|aside| [x + aside, base])
        })
    })
}

fn box_of(text: &str, [x, base]: [f64; 2]) -> Corners {
    let half = 0.5 * LETTER * text.chars().count() as f64;
    [x - half, base - 0.75 * LINE, x + half, base + 0.25 * LINE]
}

fn around([x, y]: [f64; 2], by: f64) -> Corners {
    [x - by, y - by, x + by, y + by]
}

fn within([left, top, right, bottom]: Corners, [from, to]: [[f64; 2]; 2]) -> bool {
    left >= from[0] && right <= to[0] && top >= from[1] && bottom <= to[1]
}

fn overlap(a: Corners, b: Corners) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_at_one_place_stand_clear_of_each_other_and_of_every_point() {
        let label = |x: f64, above| Label {
            text: "draw 1.61".to_owned(),
            at: [x, 100.0],
            above,
        };
        let labels = vec![label(100.0, true), label(104.0, true), label(108.0, false)];
        let other = [180.0, 60.0, 240.0, 100.0];
        let placed = placed(labels, [[0.0, 0.0], [400.0, 300.0]], other);
        assert_eq!(placed.len(), 3);
        let boxes: Vec<Corners> = placed.iter().map(|(l, at)| box_of(&l.text, *at)).collect();
        for (k, one) in boxes.iter().enumerate() {
            assert!(within(*one, [[0.0, 0.0], [400.0, 300.0]]));
            assert!(!overlap(*one, other));
            for other in &boxes[..k] {
                assert!(!overlap(*one, *other));
            }
            for (label, _) in &placed {
                assert!(!overlap(*one, around(label.at, 6.0)));
            }
        }
        // One that may stand above its point does.
        assert!(placed[0].1[1] < 100.0);
    }

    #[test]
    fn a_label_that_has_no_room_is_left_out() {
        let label = Label {
            text: "draw 1.61".to_owned(),
            at: [10.0, 10.0],
            above: true,
        };
        assert!(placed(vec![label], [[0.0, 0.0], [20.0, 20.0]], [0.0; 4]).is_empty());
    }
}
